"""The armholes of a piece, counted on its rows.

In: a ``Job`` whose outline has stretches called "armhole", and its edges row by row. Out: depth and width of each as
wanted and as worked; edges are fitted to them in ``armed``. An armhole is as deep as the rows from
where its edge steps in to where the stretch ends, and as wide as the edge goes in over them: by any number of half
pitches, since an edge may step onto a cluster as well as into a gap.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import Final, TypeAlias

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Fit
from turnchain.pattern import OutlineStretch
from turnchain.planning.curves import Curve
from turnchain.planning.job import Job
from turnchain.planning.moves import micro

ARMHOLE: Final = "armhole"
#: A step may be made a row or two earlier or later than the curve has it.
_NEAR: Final = 2
Pair: TypeAlias = tuple[Fraction, Fraction]  # depth and width
#: How many measures are off by more than half a row in depth, or half a pitch in width, and by how much the worst of
#: these is, in millionths of a cm.
Off: TypeAlias = tuple[int, int]
#: The positions of the left and the right edge in half pitches, row by row.
Edges: TypeAlias = tuple[tuple[int, ...], tuple[int, ...]]


def armhole_fits(job: Job, edges: Edges) -> Iterator[Fit]:
    """Depth and width in cm; by their edges where the two are not alike. None where no stretch is called so."""
    if job.target.profile is not None:
        from turnchain.planning.upper_edges import arm_fits  # for panels worked sideways with parts

        yield from arm_fits(job, _reaches(edges, job.target.top or "right"))
        return
    found = {side: (wanted_of(job, one), _worked(job, one, _reaches(edges, side))) for side, one in stretches(job)}
    alike = len(set(found.values())) < 2
    for side, (wanted, worked) in list(found.items())[: 1 if alike else None]:
        name = ARMHOLE if alike else f"{side} edge {ARMHOLE}"
        yield Fit(f"{name} depth", wanted[0], worked[0])
        yield Fit(f"{name} width", wanted[1], worked[1])


def armholes_off(job: Job, edges: Edges) -> Off:
    """How far the measures of all armholes are off."""
    if job.target.profile is not None:
        from turnchain.planning.upper_edges import arms_off  # for panels worked sideways with parts

        return arms_off(job, _reaches(edges, job.target.top or "right"))
    found = [off_of(job, one, _reaches(edges, side)) for side, one in stretches(job)]
    return sum(missed for missed, _ in found), max((worst for _, worst in found), default=0)


def off_of(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> Off:
    """How far the measures of one armhole are off, on an edge by its ``reaches``."""
    most = job.gauge.row / 2, job.gauge.half
    measures = zip(wanted_of(job, one), _worked(job, one, reaches), most, strict=True)
    missed = [micro(abs(asked - made)) for asked, made, much in measures if abs(asked - made) > much]
    return len(missed), max(missed, default=0)


def stretches(job: Job) -> Iterator[tuple[Side, OutlineStretch]]:
    """The armholes, each with the side that it is at."""
    for side in SIDES:
        for one in job.target.piece.stretches:
            if (one.name, one.side) == (ARMHOLE, side) and one.low < one.high:
                yield side, one


def wanted_of(job: Job, one: OutlineStretch) -> Pair:
    """Depth and width as wanted, in cm."""
    piece = job.target.piece
    line = piece.left_outline if one.side == "left" else piece.right_outline
    curve = Curve(line) if line else Curve(piece.outline).scaled(Fraction(1, 2 if piece.align == "centre" else 1))
    return one.high - one.low, curve.at(one.low) - curve.at(one.high)


def _reaches(edges: Edges, side: Side) -> tuple[int, ...]:
    return edges[1] if side == "right" else tuple(-at for at in edges[0])


def _worked(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> Pair:
    begins, last = _rows(job, one, reaches)
    deep = job.height(last) - job.height(begins - 1)
    return deep, (reaches[max(begins - 2, 0)] - reaches[last - 1]) * job.gauge.half


def _rows(job: Job, one: OutlineStretch, reaches: tuple[int, ...]) -> tuple[int, int]:
    """The first row of an armhole, in which its edge steps in, and its last."""
    first, near, last = about(job, one, len(reaches))
    return max(near, key=lambda row: (reaches[row - 2] - reaches[row - 1], -abs(row - first)), default=first), last


def about(job: Job, one: OutlineStretch, rows: int) -> tuple[int, range, int]:
    """Of so many ``rows`` the first of an armhole as its curve has it, those that may be the first, and the last."""
    in_rows = Fraction(rows) / job.target.height
    first, last = floor(one.low * in_rows) + 1, max(1, round(one.high * in_rows))
    return first, range(max(2, first - _NEAR), min(first + _NEAR, last) + 1), last
