"""Stretches: a run of a piece's outline, or a part of it between two distances along it.

In: a planned piece and one of its ``Run`` s. Out: ``EdgeStretch`` es with their points, rows and length. Distances are
cm along the run, walked with the piece at the left hand. Seams and open edges are made of them.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from itertools import pairwise
from typing import Final

from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.edges import Point, Run
from turnchain.pattern import FRONT_EDGE, SHOULDER, OutlineStretch
from turnchain.records import frozen

#: So many rows from where a step is wanted it may be worked.
_NEAR: Final = 2


@frozen(slots=False)
class EdgeStretch:
    """The part of ``run`` from ``start`` to ``end`` cm along it; ``run`` is one of ``edges.around(piece)``."""

    piece: PiecePlan
    run: Run
    start: Fraction
    end: Fraction

    @property
    def whole(self) -> bool:
        """Whether it is all of its run."""
        return self.start == 0 and self.end == self.run.length

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """Its corners, in cm in the frame of the work."""
        return self.run.points if self.whole else cut(self.run.points, self.start, self.end)

    @property
    def length(self) -> Fraction:
        """Its length in cm, along every step."""
        return self.end - self.start

    @cached_property
    def rows(self) -> tuple[int, int] | None:
        """The numbers of the first and the last row whose ends lie in it; None where none do."""
        if self.run.meets != "row ends":
            return None
        if self.whole:
            return self.run.rows
        low, high = (self.piece.row_at(point[1]) for point in (self.points[0], self.points[-1]))
        if low == high:
            return None
        return (low + 1, high) if high > low else (low, high + 1)

    @property
    def row_count(self) -> int:
        """How many row ends lie in it; 0 along a chain or the top of a row."""
        return 0 if self.rows is None else abs(self.rows[1] - self.rows[0]) + 1

    @property
    def width_in_clusters(self) -> Fraction:
        """Its length in clusters with their gaps (pitches), a fraction."""
        return self.length / self.piece.gauge.pitch

    def as_run(self) -> Run:
        """The stretch as a run of its own: unless it is all of its run, what lies across it is computed from its level
        parts: whole clusters, and stitches to the nearest one."""
        if self.whole:
            return self.run
        points = self.points
        level = [abs(one[0] - other[0]) for one, other in pairwise(points) if one[1] == other[1]]
        half_pitches = round(sum(level, Fraction(0)) / self.piece.gauge.half)
        across = edges.stitches_in(self.piece, half_pitches)
        return Run(self.run.name, self.run.meets, points, self.rows, half_pitches // 2, across)


def named(piece: PiecePlan, side: Side) -> dict[str, EdgeStretch]:
    """The named stretches of the outer edge at a ``side``, from its lower end upwards, where the piece is worked: a
    step that is wanted is the nearest one within ``_NEAR`` rows; any other stretch ends at the nearest end of a row or,
    within as many above that, where the edge begins to lean: a front edge always there.
    Empty for a panel worked sideways."""
    wanted = [one for one in piece.stretches if one.side == side and one.name != SHOULDER]
    if piece.top is not None or not wanted:
        return {}
    (run,) = (run for run in edges.around(piece) if run.name == side)
    line = run.points if side == "right" else run.points[::-1]
    passed = [Fraction(0)]
    for pair in pairwise(line):
        passed.append(passed[-1] + edges.length_of(pair))
    found: dict[str, EdgeStretch] = {}
    for one, low, high in zip(wanted, *_ends(piece, wanted, line), strict=True):
        start, end = passed[low], passed[high]
        ends = (start, end) if side == "right" else (run.length - end, run.length - start)
        found[one.name] = EdgeStretch(piece, run, *ends)
    return found


def _ends(piece: PiecePlan, wanted: list[OutlineStretch], line: tuple[Point, ...]) -> tuple[list[int], list[int]]:
    """Where each stretch begins and ends: indices of points of ``line``, which rises."""
    steps = [nth for nth, (low, high) in enumerate(pairwise(line)) if low[1] == high[1]]
    near = _NEAR * piece.gauge.row
    lows, highs = [0] * len(wanted), [0] * len(wanted)
    for nth, one in enumerate(wanted):
        there = [step for step in steps if abs(line[step][1] - one.low) <= near] if one.low == one.high else []
        if there:
            lows[nth] = min(there, key=lambda step: abs(line[step][1] - one.low))
            highs[nth] = lows[nth] + 1
        else:
            lows[nth], highs[nth] = _nearest(line, one.low), _nearest(line, one.high)
    for nth, (below, above) in enumerate(pairwise(wanted)):
        if below.high == above.low and above.low == above.high:
            highs[nth] = lows[nth + 1]
        elif below.high == above.low:
            if below.name == FRONT_EDGE:  # planned to stand straight, so that whatever leans is the neck
                leans = _to_a_lean(line, lows[nth], len(line))
                highs[nth] = leans if leans > lows[nth] else len(line) - 1  # no row shows the neck
            elif below.low != below.high:
                highs[nth] = _to_a_lean(line, highs[nth])
            lows[nth + 1] = highs[nth]
    if piece.slope and wanted and wanted[-1].side != piece.opens:  # up to the shoulder, wherever that is wanted
        highs[-1] = len(line) - 1
    return lows, highs


def _to_a_lean(line: tuple[Point, ...], at: int, rows: int = _NEAR) -> int:
    """Where the edge begins to lean, or steps, if it is upright from ``at`` to there and that is so many ``rows`` off
    at the most; else ``at``."""
    for nth in range(at, min(at + rows + 1, len(line) - 1)):
        if line[nth][0] != line[nth + 1][0]:
            return nth
    return at


def _nearest(line: tuple[Point, ...], height: Fraction) -> int:
    return min(range(len(line)), key=lambda nth: (abs(line[nth][1] - height), nth))


def whole(piece: PiecePlan, run: Run) -> EdgeStretch:
    """All of ``run``, which is one of ``edges.around(piece)``."""
    return EdgeStretch(piece, run, Fraction(0), run.length)


def stops(piece: PiecePlan, run: Run) -> list[Fraction]:
    """Where a seam can end on a run, in cm along it from 0, rising: at the end of every row, or along a row or a chain
    at every half pitch."""
    if run.meets != "row ends":
        half = piece.gauge.half
        return [half * count for count in range(int(run.length / half) + 1)]
    passed, found = Fraction(0), [Fraction(0)]
    for one, other in pairwise(run.points):
        passed += edges.length_of((one, other))
        if one[1] != other[1]:
            found.append(passed)
    return found


def cut(points: tuple[Point, ...], start: Fraction, end: Fraction) -> tuple[Point, ...]:
    """The corners of the part of a line of ``points`` between two distances in cm along it, both ends included; for a
    part of no length at either end of the line, the line's last point twice."""
    kept: list[Point] = []
    passed = Fraction(0)
    for one, other in pairwise(points):
        long = edges.length_of((one, other))
        if passed + long > start and passed < end:
            if not kept:
                kept.append(_between(one, other, max(start - passed, Fraction(0)), long))
            kept.append(_between(one, other, min(end - passed, long), long))
        passed += long
    return tuple(kept) or (points[-1], points[-1])


def _between(one: Point, other: Point, along: Fraction, long: Fraction) -> Point:
    share = along / long
    return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share
