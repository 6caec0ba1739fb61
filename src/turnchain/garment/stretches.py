"""Stretches: a run of a piece's outline, or a part of it between two distances along it.

In: a planned piece and one of its ``Run`` s. Out: ``EdgeStretch`` es with their points, rows and length. Distances are
cm along the run, walked with the piece at the left hand. Seams and open edges are made of them.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from itertools import pairwise

from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.edges import Point, Run
from turnchain.records import frozen


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
