"""What stays open when all seams are sewn: neck, armholes, lower edge, cuffs, and whole pieces that no seam joins.

In: a plan. Out: ``Opening`` s: the stretches of the pieces' outlines that no seam takes, in the order they follow each
other round the opening. At the end of a stretch where a seam begins, the way goes on along the other side of the seam.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Literal, TypeAlias

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, forms, roles, seams, sleeves
from turnchain.garment.roles import Role
from turnchain.garment.seam_sides import SeamSide
from turnchain.garment.stretches import EdgeStretch, named
from turnchain.records import frozen

Kind: TypeAlias = Literal[
    "neck", "front edge", "armhole", "upper edge", "lower edge", "cuff", "open edge", "all round",
]  # fmt: skip
ORDER: tuple[Kind, ...] = (
    "neck", "front edge", "armhole", "upper edge", "lower edge", "cuff", "open edge", "all round",
)  # fmt: skip


@frozen
class OpenStretch:
    """A ``stretch`` of the ``copy``-th (from 0) of a piece that no seam takes; ``kind`` is what it would be part of by
    itself, by its piece and edge. ``gathered``: it is drawn together at the crown of a hat, so that a border goes
    there only where it is asked for by name."""

    copy: int
    stretch: EdgeStretch
    kind: Kind
    gathered: bool = False

    @property
    def piece(self) -> PiecePlan:
        """Its piece."""
        return self.stretch.piece


@frozen
class Opening:
    """Open stretches in their order round the garment, with the garment at the left hand; at least one. Its ``kind`` is
    theirs where they agree, "front edge" where a front opens, else "open edge"."""

    kind: Kind
    stretches: tuple[OpenStretch, ...]

    @property
    def gathered(self) -> bool:
        """Whether all of it is drawn together."""
        return all(one.gathered for one in self.stretches)

    @property
    def length(self) -> Fraction:
        """The way round it in cm, along every step."""
        return sum((one.stretch.length for one in self.stretches), Fraction(0))


@lru_cache(maxsize=8)  # asked by all that is said of a garment
def of(plan: Plan) -> tuple[Opening, ...]:
    """Every opening, in the order of ``ORDER``: necks first and then downwards."""
    cloth = _Cloth(plan)
    found = [Opening(_kind_of(ring), tuple(ring)) for ring in cloth.rings()]
    return tuple(sorted(found, key=lambda one: ORDER.index(one.kind)))


def bordered(plan: Plan) -> tuple[Opening, ...]:
    """Those that get a border of themselves: all but the crown of a hat, which is gathered."""
    return tuple(one for one in of(plan) if not one.gathered)


_Place: TypeAlias = tuple[str, int, int]  # piece, copy, and the index of a segment of its outline


@frozen
class _Segment:
    stretch: EdgeStretch
    sewn: tuple[int, int, int] | None  # seam, side, stretch of the side


class _Cloth:
    """The outlines of all copies of all pieces, cut where seams begin and end."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.seams = [(seam.one, seam.other) for seam in seams.of(plan)]
        self.roles = {part.piece.name: part.role for part in roles.parts(plan)}
        self.outlines: dict[tuple[str, int], list[_Segment]] = {}
        self.places: dict[tuple[int, int, int], _Place] = {}
        for piece in plan.pieces:
            for copy in range(piece.count):
                segments = list(self._at_names(piece, self._segments(piece, copy)))
                self.outlines[piece.name, copy] = segments
                for index, segment in enumerate(segments):
                    if segment.sewn is not None:
                        self.places[segment.sewn] = (piece.name, copy, index)

    def _segments(self, piece: PiecePlan, copy: int) -> Iterator[_Segment]:
        for run in edges.around(piece):
            at = Fraction(0)
            for stretch, sewn in sorted(self._taken(piece, copy, run), key=lambda one: one[0].start):
                if stretch.start < at:
                    continue  # sewn already: an edge that the pattern file names twice
                if stretch.start > at:
                    yield _Segment(EdgeStretch(piece, run, at, stretch.start), None)
                yield _Segment(stretch, sewn)
                at = stretch.end
            if at < run.length:
                yield _Segment(EdgeStretch(piece, run, at, run.length), None)

    def _at_names(self, piece: PiecePlan, segments: Iterable[_Segment]) -> Iterator[_Segment]:
        """The segments of half a front that opens, what is open cut where its edge becomes its neck."""
        neck = named(piece, piece.opens).get("neck") if piece.opens else None
        for one in segments:
            cuts = [] if neck is None or one.sewn is not None or one.stretch.run != neck.run else [neck.start, neck.end]
            inner = sorted(cut for cut in cuts if one.stretch.start < cut < one.stretch.end)
            for start, end in pairwise([one.stretch.start, *inner, one.stretch.end]):
                yield _Segment(EdgeStretch(piece, one.stretch.run, start, end), None) if inner else one

    def _taken(self, piece: PiecePlan, copy: int, run: edges.Run) -> Iterator[tuple[EdgeStretch, tuple[int, int, int]]]:
        for number, sides in enumerate(self.seams):
            for which, side in enumerate(sides):
                if (side.piece.name, side.copy) != (piece.name, copy):
                    continue
                for index, stretch in enumerate(side.stretches):
                    if stretch.run == run and stretch.length:
                        yield stretch, (number, which, index)

    def rings(self) -> Iterator[list[OpenStretch]]:
        """Every opening as the stretches round it."""
        seen: set[_Place] = set()
        for (name, copy), segments in self.outlines.items():
            for index, segment in enumerate(segments):
                place: _Place = (name, copy, index)
                ring: list[OpenStretch] = []
                while segment.sewn is None and place not in seen:
                    seen.add(place)
                    stretch = self._at(place).stretch
                    ring.append(self._open(place[0], place[1], stretch))
                    place = self._next_open(place)
                if ring:
                    yield ring

    def _at(self, place: _Place) -> _Segment:
        return self.outlines[place[0], place[1]][place[2]]

    def _next_open(self, place: _Place) -> _Place:
        """The next open stretch: along the outline, and at a seam along the outline of its other side."""
        for _ in range(2 * len(self.places) + 2):
            name, copy, index = place
            place = name, copy, (index + 1) % len(self.outlines[name, copy])
            sewn = self._at(place).sewn
            if sewn is None:
                break
            place = self._across(sewn)
        return place

    def _across(self, sewn: tuple[int, int, int]) -> _Place:
        """The other side of a seam: both are walked the opposite way, so where one begins the other ends."""
        number, which, index = sewn
        other: SeamSide = self.seams[number][1 - which]
        partner = (number, 1 - which, max(0, len(other.stretches) - 1 - index))
        return self.places.get(partner, self.places[sewn])

    def joined(self, name: str, copy: int) -> bool:
        """Whether a seam joins this copy to anything."""
        return any(segment.sewn is not None for segment in self.outlines[name, copy])

    def _open(self, name: str, copy: int, stretch: EdgeStretch) -> OpenStretch:
        if not self.joined(name, copy):
            return OpenStretch(copy, stretch, "all round")
        role = self.roles[name]
        gathered = role == "hat" and stretch.run.name == forms.top(stretch.piece)
        return OpenStretch(copy, stretch, _kind_on(role, stretch), gathered)


def _kind_on(role: Role, stretch: EdgeStretch) -> Kind:
    """What an open stretch of a piece that is sewn to others is part of."""
    piece, name = stretch.piece, stretch.run.name
    if role == "sleeve":
        return "cuff" if name not in (*edges.side_names(piece), sleeves.top_name(piece)) else "open edge"
    if role == "bag" and name in (forms.top(piece), forms.bottom(piece)):
        return "upper edge"  # both of a piece that is folded
    if role in ("skirt", "cowl") and name == forms.top(piece):
        return "upper edge"
    if role in ("hat", "cowl") and name == forms.bottom(piece):
        return "lower edge"
    if role == "skirt":
        return "lower edge" if name == forms.bottom(piece) or _is_slit(stretch) else "open edge"
    if role not in roles.OF_A_TOP:
        return "open edge"
    if piece.front_edge == name:
        return at_the_front(stretch)
    if name == "armhole":
        return "armhole"
    if name in edges.side_names(piece):
        return "lower edge" if _is_slit(stretch) else "armhole"
    if name == "neck" or name == forms.top(piece):
        return "neck"
    return "lower edge" if name == forms.bottom(piece) else "open edge"


def at_the_front(stretch: EdgeStretch) -> Literal["neck", "front edge"]:
    """What a stretch of the edge in the middle of half a front is, which becomes its neck where it is cut."""
    neck = named(stretch.piece, "left" if stretch.run.name == "left" else "right").get("neck")
    return "neck" if neck is not None and neck.start <= stretch.start < neck.end else "front edge"


def _is_slit(stretch: EdgeStretch) -> bool:
    """Whether an open stretch of a side begins where a slit does."""
    if stretch.piece.upper is not None:
        return bool(stretch.piece.upper.slit) and _at_hem(stretch)
    slit = named(stretch.piece, "left" if stretch.run.name == "left" else "right").get("slit")
    return slit is not None and stretch.run == slit.run and slit.start <= stretch.start < slit.end


def _at_hem(stretch: EdgeStretch) -> bool:
    """Whether a stretch of a side of a panel worked sideways begins at its lower edge: where a walk round the piece
    goes up the right side as worn."""
    at_right = stretch.run.name == edges.side_names(stretch.piece)[1]
    return stretch.start == 0 if at_right else stretch.end == stretch.run.length


def _kind_of(ring: list[OpenStretch]) -> Kind:
    kinds = {one.kind for one in ring}
    if len(kinds) == 1:
        return kinds.pop()
    return "front edge" if "front edge" in kinds else "open edge"
