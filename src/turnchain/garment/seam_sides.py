"""Sides of seams: stretches of the edges of pieces, and which of them meet where two whole edges are sewn.

In: planned pieces and their edges. Out: ``SeamSide`` s, and ``PlannedSeam`` s of two of them.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from typing import Literal, TypeAlias

from turnchain.fabric.plan import PiecePlan
from turnchain.garment.edges import EdgeLine, Point, Run
from turnchain.garment.stretches import EdgeStretch, stops, whole
from turnchain.pattern import ON_ARMHOLE
from turnchain.records import frozen

Kind: TypeAlias = Literal["shoulder", "sleeve top", "side", "sleeve", "seam"]
ORDER: tuple[Kind, ...] = ("shoulder", "sleeve top", "seam", "side", "sleeve")


@frozen
class SeamSide:
    """One side of a seam: stretches of the ``edge`` of that name of the ``copy``-th (from 0) of a piece, walked with
    the piece at the left hand, so that the last of one side meets the first of the other."""

    piece: PiecePlan
    copy: int
    edge: str
    stretches: tuple[EdgeStretch, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """Its corners, in cm in the frame of the work."""
        return tuple(point for stretch in self.stretches for point in stretch.points)

    @property
    def unit(self) -> Literal["rows", "clusters"]:
        """What is counted along it: rows where their ends lie in it, clusters where it runs along a row."""
        return "rows" if any(one.run.meets == "row ends" for one in self.stretches) else "clusters"

    @property
    def mixed(self) -> bool:
        """Whether it runs along row ends and along a row, as a sleeve's cap does."""
        return len({one.run.meets == "row ends" for one in self.stretches}) > 1

    @property
    def rows(self) -> tuple[int, int] | None:
        """The numbers of the rows at its two ends, or of its lowest and its highest row where it goes down and up again
        as a neck does; None where it runs along a row."""
        found = [stretch.rows for stretch in self.stretches if stretch.rows]
        if not found:
            return None
        numbers = [number for pair in found for number in pair]
        ends, reach = (found[0][0], found[-1][1]), (min(numbers), max(numbers))
        return ends if set(ends) == set(reach) else reach

    @property
    def count(self) -> Fraction:
        """How many row ends lie in it or, along a row, its length in clusters with their gaps, not rounded."""
        if self.unit == "rows":
            return Fraction(sum(stretch.row_count for stretch in self.stretches))
        return sum((stretch.width_in_clusters for stretch in self.stretches), Fraction(0))

    @property
    def steps(self) -> Fraction:
        """How many clusters wide the steps among its row ends are together, and of a cap what it takes of the last row;
        0 without steps or along a row."""
        if self.unit == "clusters":
            return Fraction(0)
        level = (abs(one[0] - other[0]) for one, other in pairwise(self.points) if one[1] == other[1])
        return sum(level, Fraction(0)) / self.piece.gauge.pitch

    @property
    def length(self) -> Fraction:
        """Its length in cm, along every step."""
        return sum((stretch.length for stretch in self.stretches), Fraction(0))

    @property
    def whole(self) -> bool:
        """Whether it is made of whole runs of the outline."""
        return all(stretch.whole for stretch in self.stretches)

    @property
    def name(self) -> str:
        """ "front.shoulder", as seams are written in a pattern file."""
        return f"{self.piece.name}.{self.edge}"


@frozen
class PlannedSeam:
    """Two sides sewn together; seams of one ``letter`` are one to the maker. ``assumed``: not in the pattern file;
    ``stripes``: whether they should "meet" or "differ" along it (None: no wish)."""

    letter: str
    kind: Kind
    one: SeamSide
    other: SeamSide
    assumed: bool
    stripes: Literal["meet", "differ"] | None = None

    @property
    def worked(self) -> bool:
        """Whether it is joined as one of the pieces is worked, and not sewn."""
        if self.kind == "sleeve top":
            return self.other.piece.begun_on == ON_ARMHOLE
        pairs = (self.one, self.other), (self.other, self.one)
        return self.one.edge == self.other.edge == "first" and any(
            side.piece.begun_on == there.piece.name for side, there in pairs
        )

    @property
    def off(self) -> Fraction:
        """By how many cm ``one`` is longer than ``other``; below 0 where it is shorter."""
        return self.one.length - self.other.length

    @property
    def difference(self) -> Fraction | None:
        """By how many rows or clusters ``one`` has more than ``other``, below 0 where it has fewer; None where rows
        meet clusters, or a sleeve is sewn in whose steps are others."""
        alike = self.one.unit == self.other.unit and not (self.one.mixed or self.other.mixed)
        alike = alike and (self.kind != "sleeve top" or self.one.steps == self.other.steps)
        return self.one.count - self.other.count if alike else None

    @property
    def agrees(self) -> bool:
        """Whether both sides have as many rows or, where at least one runs along a row, are alike in length to half a
        row."""
        if self.one.unit == "rows" and self.difference is not None:
            return self.difference == 0
        return 2 * abs(self.off) <= self.one.piece.gauge.row


# --------------------------------------------------------------------------------------------- sides that meet


#: A piece, the number of its copy (from 0), and one of its edges.
Placed: TypeAlias = "tuple[PiecePlan, int, EdgeLine]"


def met(first: Placed, second: Placed) -> list[tuple[SeamSide, SeamSide]]:
    """The sides that meet, run by run: both edges are walked with the piece at the left hand, so the last of one meets
    the first of the other. Two shoulders never are one side, since a neck lies between them: they meet both ends of
    the other edge."""
    counts = len(first[2].runs), len(second[2].runs)
    if counts[0] == counts[1]:
        return list(zip(each(first), reversed(each(second)), strict=True))
    if counts[0] == 2:
        return list(zip(each(first), ends_of(second, *_lengths(first)), strict=True))
    if counts[1] == 2:
        return list(zip(ends_of(first, *_lengths(second)), each(second), strict=True))
    return [(whole_side(*first), whole_side(*second))]


def _lengths(placed: Placed) -> tuple[Fraction, Fraction]:
    one, other = placed[2].runs
    return one.length, other.length


def whole_side(piece: PiecePlan, copy: int, line: EdgeLine) -> SeamSide:
    """All runs of an edge as one side."""
    return side_of(piece, copy, line.name, *line.runs)


def each(placed: Placed) -> list[SeamSide]:
    """The runs of an edge, each as a side."""
    piece, copy, line = placed
    return [side_of(piece, copy, line.name, run) for run in line.runs]


def ends_of(placed: Placed, one: Fraction, other: Fraction) -> list[SeamSide]:
    """Both ends of an edge, the last first, as long as the two shoulders that meet them, ``one`` and ``other`` cm: the
    last of an edge meets the first of another."""
    piece, copy, line = placed
    begins, ends = line.runs[0], line.runs[-1]
    most = 1 if len(line.runs) > 1 else Fraction(1, 2)  # of a run: no farther than the middle of the edge
    to_end = [ends.length - stop for stop in stops(piece, ends)]
    last = _nearest_stop(to_end, most * ends.length, one)
    first = _nearest_stop(stops(piece, begins), most * begins.length, other)
    parts = EdgeStretch(piece, ends, ends.length - last, ends.length), EdgeStretch(piece, begins, Fraction(0), first)
    return [cut_side(piece, copy, line.name, part) for part in parts]


def _nearest_stop(places: list[Fraction], most: Fraction, cm: Fraction) -> Fraction:
    """Where a seam can end that is nearest to ``cm``, and no farther than ``most``."""
    return min((stop for stop in places if stop <= most), key=lambda stop: abs(stop - cm))


def side_of(piece: PiecePlan, copy: int, edge: str, *runs: Run) -> SeamSide:
    """Whole ``runs`` of the ``edge`` of that name as a side."""
    return SeamSide(piece, copy, edge, tuple(whole(piece, run) for run in runs))


def cut_side(piece: PiecePlan, copy: int, edge: str, stretch: EdgeStretch) -> SeamSide:
    """A stretch of the ``edge`` of that name as a side."""
    return SeamSide(piece, copy, edge, (stretch,))
