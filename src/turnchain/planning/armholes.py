"""The armholes of a piece, counted on its rows, and edges fitted so that they are as deep and as wide as asked for.

In: a ``Job`` whose outline has stretches called "armhole", and its edges row by row. Out: depth and width of each as
wanted and as worked; or the best path of an edge of which these are fixed first. An armhole is as deep as the rows from
where its edge steps in to where the stretch ends, and as wide as the edge goes in over them: by any number of half
pitches, since an edge may step onto a cluster as well as into a gap.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import ceil, floor
from typing import Final, TypeAlias

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Fit
from turnchain.pattern import OutlineStretch
from turnchain.planning import upper_edges
from turnchain.planning.curves import Curve
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, Key, micro
from turnchain.records import replace

ARMHOLE: Final = "armhole"
#: A step may be made a row or two earlier or later than the curve has it.
_NEAR: Final = 2
_Pair: TypeAlias = tuple[Fraction, Fraction]
#: How many measures are off by more than half a row in depth, or half a pitch in width, and by how much the worst of
#: these is, in millionths of a cm.
Off: TypeAlias = tuple[int, int]
#: The positions of the left and the right edge in half pitches, row by row.
Edges: TypeAlias = tuple[tuple[int, ...], tuple[int, ...]]


def armhole_fits(job: Job, edges: Edges) -> Iterator[Fit]:
    """Depth and width in cm; by their edges where the two are not alike. None where no stretch is called so."""
    if job.target.profile is not None:
        yield from upper_edges.arm_fits(job, _reaches(edges, job.target.top or "right"))
        return
    found = {side: (_wanted(job, one), _worked(job, one, _reaches(edges, side))) for side, one in _stretches(job)}
    alike = len(set(found.values())) < 2
    for side, (wanted, worked) in list(found.items())[: 1 if alike else None]:
        name = ARMHOLE if alike else f"{side} edge {ARMHOLE}"
        yield Fit(f"{name} depth", wanted[0], worked[0])
        yield Fit(f"{name} width", wanted[1], worked[1])


def armholes_off(job: Job, edges: Edges) -> Off:
    """How far the measures of all armholes are off."""
    if job.target.profile is not None:
        return upper_edges.arms_off(job, _reaches(edges, job.target.top or "right"))
    found = [_off(job, one, _reaches(edges, side)) for side, one in _stretches(job)]
    return sum(missed for missed, _ in found), max((worst for _, worst in found), default=0)


def _off(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> Off:
    most = job.gauge.row / 2, job.gauge.half
    measures = zip(_wanted(job, one), _worked(job, one, reaches), most, strict=True)
    missed = [micro(abs(asked - made)) for asked, made, much in measures if abs(asked - made) > much]
    return len(missed), max(missed, default=0)


def _stretches(job: Job) -> Iterator[tuple[Side, OutlineStretch]]:
    for side in SIDES:
        for one in job.target.piece.stretches:
            if (one.name, one.side) == (ARMHOLE, side) and one.low < one.high:
                yield side, one


def _wanted(job: Job, one: OutlineStretch) -> _Pair:
    piece = job.target.piece
    line = piece.left_outline if one.side == "left" else piece.right_outline
    curve = Curve(line) if line else Curve(piece.outline).scaled(Fraction(1, 2 if piece.align == "centre" else 1))
    return one.high - one.low, curve.at(one.low) - curve.at(one.high)


def _reaches(edges: Edges, side: Side) -> tuple[int, ...]:
    return edges[1] if side == "right" else tuple(-at for at in edges[0])


def _worked(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> _Pair:
    begins, last = _rows(job, one, reaches)
    deep = job.height(last) - job.height(begins - 1)
    return deep, (reaches[max(begins - 2, 0)] - reaches[last - 1]) * job.gauge.half


def _rows(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> tuple[int, int]:
    """The first row of an armhole, in which its edge steps in, and its last."""
    first, near, last = _about(job, one, len(reaches))
    return max(near, key=lambda row: (reaches[row - 2] - reaches[row - 1], -abs(row - first)), default=first), last


def _about(job: Job, one: OutlineStretch, rows: int) -> tuple[int, range, int]:
    """Of so many ``rows`` the first of an armhole as its curve has it, those that may be the first, and the last."""
    in_rows = Fraction(rows) / job.target.height
    first, last = floor(one.low * in_rows) + 1, max(1, round(one.high * in_rows))
    return first, range(max(2, first - _NEAR), min(first + _NEAR, last) + 1), last


# ---------------------------------------------------------------------------------------------- measures fixed first


def fit_armed(job: Job, task: EdgeTask, side: Side) -> dict[int, EdgePath]:
    """The best path of the edge at a ``side`` for each parity of its first reach, its armhole as deep and as wide as
    can be had; as ``fit_edge`` gives it where the edge has none. Where the edge steps in and how far it goes in are
    fixed, and the curve is then fitted exactly, one search for each choice. Raises BudgetSpent."""
    one = next((one for at, one in _stretches(job) if at == side), None)
    if one is None:
        return fit_edge(task)
    best: dict[int, tuple[Off, Key, EdgePath]] = {}
    for limits in _choices(job, task, one):
        for parity, path in fit_edge(replace(task, limits={**task.limits, **limits})).items():
            found = _off(job, one, path.reaches), path.key, path
            if parity not in best or found[:2] < best[parity][:2]:
                best[parity] = found
    return {parity: path for parity, (_, _, path) in best.items()}


def _choices(job: Job, task: EdgeTask, one: OutlineStretch) -> Iterator[dict[int, tuple[int, int]]]:
    """What the edge of an armhole is held to: below its step, in it, and in its last row."""
    deep, wide = _wanted(job, one)
    first, near, last = _about(job, one, task.rows)
    off = {row: abs(job.height(last) - job.height(row - 1) - deep) for row in near}
    begins = [row for row in near if off[row] == min(off.values())]
    lowest = min(task.wanted) // MICRO - 2
    for row, across in product(begins, _within(wide / job.gauge.half)):
        below = Fraction(max(task.wanted[row - 2], task.wanted[max(0, first - 2)]), MICRO)
        for reach in sorted({floor(below), ceil(below)}):
            end = reach - across
            upright = {last - 1: (end, end)} if job.target.slope and last - 1 > row else {}
            below_step, step = (reach, reach), (min(lowest, end), reach - min(2, across))
            yield {row - 1: below_step, row: step, **upright, last: (end, end)}


def _within(halves: Fraction) -> range:
    """The whole numbers of half pitches that are no more than one from so many."""
    return range(max(1, ceil(halves - 1)), floor(halves + 1) + 1)
