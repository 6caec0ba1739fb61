"""The edgings of a garment: along which edges, how many stitches in every row of them, corners, length and fabric.

In: a plan whose pattern has edgings. Out: ``PlannedEdging`` s, each a band of stitches without a break: in rounds where
it goes all round an opening, else in rows. An edging that names edges takes them; "all" takes what the others leave,
but for the crown of a hat, which is gathered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Final

from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edge_names, edges, openings
from turnchain.garment.edge_names import EdgeName
from turnchain.garment.edging import bends, turning
from turnchain.garment.edging.bends import Bend
from turnchain.garment.edging.places import EdgingGauge, Places, gauge_of, places
from turnchain.garment.edging.turning import Turn
from turnchain.garment.openings import Kind, Opening, OpenStretch
from turnchain.garment.stretches import EdgeStretch, named
from turnchain.numbers import counted
from turnchain.pattern import OPENINGS, Edging, Yarn
from turnchain.records import frozen, replace

#: Stitches in a corner, by the stitch: 3 sc, 5 dc (engineeredcrochet.blogspot.com, 2013-12); hdc from memory.
IN_A_CORNER: Final = {"sc": 3, "hdc": 3, "dc": 5}
#: A step of so many pitches or more has corners at its ends; smaller ones are taken as a slant. [memory]
LEAST_STEP: Final = 2


@frozen
class EdgingPart:
    """A part of an edging along one open ``stretch``, called ``name``: the ``places`` it is worked into and the corner
    that follows it (``turn``); ``bend``: by how much it bends besides, in radians, outwards positive. ``cut``: it is
    only a part of what lies open there, so that its rows are told."""

    open: OpenStretch
    name: EdgeName
    places: tuple[Places, ...]
    turn: Turn
    bend: float
    cut: bool = False

    @property
    def piece(self) -> PiecePlan:
        """Its piece."""
        return self.open.piece

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return self.open.stretch.length

    @property
    def stitches(self) -> int:
        """The stitches along it, those of corners not counted."""
        return sum(one.even.stitches for one in self.places)

    @property
    def rows(self) -> tuple[int, int] | None:
        """The first and the last row that it lies along, where it is ``cut``."""
        return self.open.stretch.rows if self.cut else None


@frozen(slots=False)
class PlannedEdging:
    """One band of an edging: the ``kind`` of opening it lies along, and what was ``asked``; ``number``: of that in the
    file, or as it is told, from 1. ``closed``: in rounds, all round an opening. ``count``: at so many alike openings.
    """

    number: int
    asked: Edging
    kind: Kind
    parts: tuple[EdgingPart, ...]
    closed: bool
    gauge: EdgingGauge
    count: int = 1

    @property
    def pieces(self) -> tuple[PiecePlan, ...]:
        """The pieces it lies along, each once for every copy."""
        copies = dict.fromkeys((part.piece.name, part.open.copy) for part in self.parts)
        by_name = {part.piece.name: part.piece for part in self.parts}
        return tuple(by_name[name] for name, _ in copies)

    def corners(self, turn: Turn) -> int:
        """How many corners outwards ("outer") or inwards ("inner") there are."""
        return sum(part.turn == turn for part in self.parts)

    @property
    def length(self) -> Fraction:
        """The length in cm of the edges it lies along."""
        return sum((part.length for part in self.parts), Fraction(0))

    @property
    def first(self) -> int:
        """The stitches of its first row: along the edges and in corners outwards; one fewer at every one inwards."""
        along = sum(part.stitches for part in self.parts)
        return along + IN_A_CORNER[self.asked.stitch] * self.corners("outer") - self.corners("inner")

    def turned_in(self, row: int) -> int:
        """How many fewer stitches than the row below the ``row`` (from 2) has because the edge bends inwards besides
        its corners; negative: more, where it bends outwards."""
        bend = sum(part.bend for part in self.parts) * float(self.gauge.row / self.gauge.stitch)
        return round(bend * (row - 2)) - round(bend * (row - 1))

    @cached_property
    def by_part(self) -> tuple[tuple[int, ...], ...]:
        """The stitches of every row along each part; those of corners outwards are not among them, and corners inwards
        and bends are taken off beside them."""
        corner = IN_A_CORNER[self.asked.stitch]
        rows: list[tuple[int, ...]] = []
        along = [part.stitches for part in self.parts]
        for nth, count in enumerate(self.counts):
            for at, part in enumerate(self.parts):
                if part.turn == "inner":
                    beside = (at, (at + 1) % len(self.parts))
                    for one in beside[:1] if nth == 0 else beside:
                        along[one] -= min(along[one], 1 if nth == 0 else (corner - 1) // 2)
            longest = max(range(len(along)), key=lambda one: along[one])
            along[longest] += count - sum(along) - self.corners("outer") * (corner + nth * (corner - 1))
            rows.append(tuple(along))
        return tuple(rows)

    @cached_property
    def bends(self) -> tuple[Bend | None, ...]:
        """Where every row takes in or adds what the edge bends besides corners; None where it does not."""
        return bends.of_rows(*self._bent)

    @property
    def without_room(self) -> int | None:
        """The first row in which a corner inwards has too few stitches of its own beside it; None where all have."""
        return bends.without_room(*self._bent)

    @property
    def _bent(self) -> tuple[list[int], list[Turn], int, bool, list[int]]:
        more = [0, *(-self.turned_in(row) for row in range(2, self.asked.rows + 1))]
        along, turns = [part.stitches for part in self.parts], [part.turn for part in self.parts]
        return along, turns, IN_A_CORNER[self.asked.stitch], self.closed, more

    @property
    def counts(self) -> tuple[int, ...]:
        """The stitches of every row: after the first each corner outwards gives as many less one, each inwards takes
        as many, and bends are worked out evenly."""
        at_corners = (IN_A_CORNER[self.asked.stitch] - 1) * (self.corners("outer") - self.corners("inner"))
        found = [self.first]
        for row in range(2, self.asked.rows + 1):
            found.append(max(0, found[-1] + at_corners - self.turned_in(row)))
        return tuple(found)

    @property
    def area(self) -> Fraction:
        """Its fabric in square cm: every row as long as the edge, and by its further stitches longer or shorter."""
        more = sum(count - self.counts[0] for count in self.counts)
        return (self.length * self.asked.rows + more * self.gauge.stitch) * self.gauge.row


def yarn_of(plan: Plan, asked: Edging) -> Yarn | None:
    """The yarn of an edging: its own, else the first of which something is kept back, else the first; None where the
    pattern names no yarn."""
    yarns = plan.pattern.yarns
    own = (one for one in yarns if one.name == asked.yarn)
    kept = (one for one in yarns if one.keep and asked.yarn is None)
    return next(iter((*own, *kept, *yarns)), None)


@lru_cache(maxsize=8)  # asked by words, pictures and figures
def every(plan: Plan) -> tuple[PlannedEdging, ...]:
    """Every band of every edging, alike ones apart, in the order of the file and then of ``openings``. Raises
    MakerError where nothing is open of the edges that one names."""
    if not plan.pattern.edgings:
        return ()
    found: list[PlannedEdging] = []
    taken: set[OpenStretch] = set()
    rings = [
        [part for one in opening.stretches for named_one in _at_names(plan, one) for part in _at_steps(named_one)]
        for opening in openings.of(plan)
    ]
    order = sorted(enumerate(plan.pattern.edgings, 1), key=lambda one: "all" in one[1].edges)
    for number, asked in order:
        for opening, ring in zip(openings.of(plan), rings, strict=True):
            wanted = [one not in taken and _is_named(plan, asked, one) for one in ring]
            taken.update(one for one, is_wanted in zip(ring, wanted, strict=True) if is_wanted)
            found += [_planned(plan, number, asked, opening, *band) for band in _bands(ring, wanted)]
    for one in found:
        _check_rows(one)
    for number, asked in order:
        if number not in {one.number for one in found}:
            names = ", ".join(asked.edges)
            hint = "turnchain check lists the seams; leave this [[edging]] out, or name other edges"
            said = f"edging {number}: {names}: nothing of it is open, seams or other edgings take it"
            raise MakerError(f"{said} ({hint})")
    return tuple(sorted(found, key=lambda one: one.number))


def _check_rows(one: PlannedEdging) -> None:
    """Raises MakerError where corners and bends inwards leave a row no stitch, or take stitches of one another."""
    where = f"edging {one.number}: {one.parts[0].piece.name}, {one.parts[0].name.key}"
    tight = one.without_room
    if tight is not None:
        said = f"{where}: row {tight}: a corner inwards has too few stitches beside it, another or an end is too near"
        raise MakerError(f"{said} (at most {counted(tight - 1, 'row')}, or other edges)")
    last = next((row for row, count in enumerate(one.counts) if count < 1), None)
    if last is not None:
        said = f"{where}: row {last + 1} has no stitch; corners inwards take more than there are"
        raise MakerError(f"{said} (at most {last} rows, or other edges)")
    narrow = next((row for row, bend in enumerate(one.bends) if bend and not bend.fits), None)
    if narrow is not None:
        said = f"{where}: row {narrow + 1} bends by {abs(one.turned_in(narrow + 1))} stitches"
        raise MakerError(f"{said}, which find no room between its corners (at most {narrow} rows, or other edges)")


def of(plan: Plan) -> tuple[PlannedEdging, ...]:
    """The same with alike bands as one, counted; numbered as they are told."""
    found: dict[object, PlannedEdging] = {}
    for one in every(plan):
        # All round, the same parts the other way about are alike: an armhole at the left and one at the right.
        alone = len(set(one.pieces)) == 1
        parts = [
            (part.piece.name * alone, part.name.kind, part.places, part.length, *sorted(part.rows or ()))
            for part in one.parts
        ]
        alike = (one.number, one.kind, one.counts, *(sorted(parts, key=str) if one.closed else parts))
        had = found.get(alike)
        found[alike] = one if had is None else replace(had, count=had.count + 1)
    return tuple(replace(one, number=nth) for nth, one in enumerate(found.values(), 1))


def _at_names(plan: Plan, one: OpenStretch) -> Iterator[OpenStretch]:
    """A stretch cut where a part of it begins or ends that an edging names."""
    yield from _cut(one, _ends_named(plan, one))


def _ends_named(plan: Plan, one: OpenStretch) -> list[Fraction]:
    """Where on the run of a stretch a part begins or ends that an edging names, in cm."""
    asked = (edge for edging in plan.pattern.edgings for edge in edging.edges)
    return [end for edge in asked for part in _named(one, edge) for end in (part.start, part.end)]


def _at_steps(one: OpenStretch) -> Iterator[OpenStretch]:
    """A stretch cut at both ends of every long step."""
    stretch, least = one.stretch, LEAST_STEP * one.piece.gauge.pitch
    cuts, passed = [Fraction(0)], stretch.start
    for low, high in pairwise(stretch.points):
        long = edges.length_of((low, high))
        if stretch.run.meets == "row ends" and low[1] == high[1] and long >= least:
            cuts += [passed, passed + long]
        passed += long
    yield from _cut(one, cuts)


def _cut(one: OpenStretch, cuts: Sequence[Fraction]) -> Iterator[OpenStretch]:
    """A stretch cut at those of ``cuts``, in cm along its run, that lie within it."""
    start, end = one.stretch.start, one.stretch.end
    ends = sorted({start, end, *(cut for cut in cuts if start < cut < end)})
    if len(ends) == 2:
        yield one
        return
    for low, high in pairwise(ends):
        yield replace(one, stretch=EdgeStretch(one.piece, one.stretch.run, low, high))


def _is_named(plan: Plan, asked: Edging, one: OpenStretch) -> bool:
    """Whether an edging names an open stretch."""
    return any((edge == "all" and not one.gathered) or edge == one.kind or _lies_on(one, edge) for edge in asked.edges)


def _lies_on(one: OpenStretch, joined: str) -> bool:
    """Whether an open stretch lies on "piece.edge"."""
    name, _, edge = joined.rpartition(".")
    if joined in OPENINGS or name != one.piece.name:
        return False
    line = edges.of(one.piece).get(edge)
    if line is not None:
        return one.stretch.run in line.runs
    return any(part.start < one.stretch.end and one.stretch.start < part.end for part in _named(one, joined))


def _named(one: OpenStretch, joined: str) -> list[EdgeStretch]:
    """The named stretches "piece.edge" on the same run; none where that is the name of an edge."""
    name, _, edge = joined.rpartition(".")
    if name != one.piece.name or edge in edges.of(one.piece):
        return []
    found = [parts[edge] for side in SIDES if edge in (parts := named(one.piece, side))]
    return [part for part in found if part.run == one.stretch.run]


def _is_cut(plan: Plan, one: OpenStretch, opening: Opening) -> bool:
    """Whether a part begins or ends where one that an edging names does, and more lies open beside it."""
    ends = _ends_named(plan, one)
    whole = {(open.stretch.run, end) for open in opening.stretches for end in (open.stretch.start, open.stretch.end)}
    return any(end in ends and (one.stretch.run, end) not in whole for end in (one.stretch.start, one.stretch.end))


def _bands(ring: Sequence[OpenStretch], wanted: Sequence[bool]) -> list[tuple[list[OpenStretch], bool]]:
    """The stretches ``wanted`` of those round an opening as bands without a break, and whether each goes all round."""
    if all(wanted):
        return [(list(ring), True)]
    if not any(wanted):
        return []
    start = next(nth for nth in range(len(ring)) if not wanted[nth])
    bands: list[list[OpenStretch]] = [[]]
    for nth in (*range(start, len(ring)), *range(start)):
        if wanted[nth]:
            bands[-1].append(ring[nth])
        elif bands[-1]:
            bands.append([])
    return [(band, False) for band in bands if band]


def _planned(
    plan: Plan, number: int, asked: Edging, opening: Opening, band: list[OpenStretch], closed: bool
) -> PlannedEdging:
    gauge = gauge_of(plan.pattern.swatches, band[0].piece, asked.stitch)
    following = [*band[1:], band[0] if closed else None]
    bends = [0.0 if other is None else turning.between(one, other) for one, other in zip(band, following, strict=True)]
    turns = [turning.corner(one, other) if other else "" for one, other in zip(band, following, strict=True)]
    parts = []
    for nth, (one, turn, bend) in enumerate(zip(band, turns, bends, strict=True)):
        corners = (turns[nth - 1] == "outer") + (turn == "outer")
        inside = turning.within(one) + (0.0 if turn else bend)
        met = places(one.stretch, gauge, corners)
        cut = _is_cut(plan, one, opening)
        parts.append(EdgingPart(one, edge_names.of_open(plan, one), met, turn, inside, cut))
    kinds = {one.kind for one in band}
    kind = opening.kind if closed else kinds.pop() if len(kinds) == 1 else "open edge"
    return PlannedEdging(number, asked, kind, tuple(parts), closed, gauge)
