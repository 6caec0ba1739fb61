"""The seams: which edge is sewn to which, in the order of sewing, and whether they agree.

In: a plan. Out: ``PlannedSeam`` s: two stretches of edges with the rows that meet, told in words by ``seam_words``.
Without seams in the pattern file those of a top are assumed from front, back and sleeves, and those of skirts, cushions
and bags from ``forms``; they are marked as such. Source of the order: Vogue Knitting's account of garment construction
(block; shoulders; neck edging; sleeve tops; side and sleeve in one).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from turnchain import style
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import armholes, edges, forms, named_stretches, roles, sleeves
from turnchain.garment.armholes import BareDepth, SideEdge
from turnchain.garment.edges import EdgeLine
from turnchain.garment.named_stretches import StretchEnd
from turnchain.garment.roles import Trunk
from turnchain.garment.seam_sides import ORDER, Kind, PlannedSeam, SeamSide, cut_side, each, ends_of, met, whole_side
from turnchain.pattern import ON_ARMHOLE


@lru_cache(maxsize=4)  # asked for by everything that tells of a garment
def of(plan: Plan) -> tuple[PlannedSeam, ...]:
    """Every seam in the order of sewing (``ORDER``), lettered A, B ... in that order: all that come of one seam of the
    pattern file have one letter. Seams of edges that the plan has not (``lacking``), or that armholes take up whole
    (``taken``), are left out."""
    found = [one for one in _found(plan) if one[1].length and one[2].length]
    found.sort(key=lambda one: (not _begins(one), ORDER.index(one[0])))
    letters: dict[object, str] = {}
    seams = []
    for kind, one, other, group in found:
        letter = letters.setdefault(group, style.letter(len(letters)))
        stripes = plan.pattern.seams[group].stripes if isinstance(group, int) else None
        seams.append(PlannedSeam(letter, kind, one, other, not plan.pattern.seams, stripes))
    return tuple(seams)


def _begins(found: _Found) -> bool:
    """Whether it is joined before all seams, since one of its pieces begins on the other."""
    kind, one, other, _ = found
    return kind == "seam" and PlannedSeam("", kind, one, other, False).worked


def taken(plan: Plan) -> list[tuple[str, str]]:
    """The edges, as "piece.edge", of side seams of which nothing is left, since the armhole takes all of one edge."""
    return [(one.name, other.name) for _, one, other, _ in _found(plan) if not (one.length and other.length)]


_Found: TypeAlias = "tuple[Kind, SeamSide, SeamSide, object]"


@lru_cache(maxsize=4)
def _found(plan: Plan) -> tuple[_Found, ...]:
    found = tuple(_declared(plan) if plan.pattern.seams else _assumed(plan))
    return (*found, *_begun(plan, found))


def _begun(plan: Plan, found: tuple[_Found, ...]) -> Iterator[_Found]:
    """Where pieces are begun on others, as far as no seam ``found`` has it."""
    joins = {frozenset((one.name, other.name)) for _, one, other, _ in found}
    for piece in plan.pieces:
        if piece.begun_on in ("", ON_ARMHOLE) or frozenset((f"{piece.begun_on}.first", f"{piece.name}.first")) in joins:
            continue
        other = plan.piece(piece.begun_on)
        for copy in range(piece.count):
            sides = (whole_side(one, copy, edges.of(one)["first"]) for one in (other, piece))
            yield "seam", next(sides), next(sides), ("begun", piece.name)


# -------------------------------------------------------------------------------------------------- in the file


def _declared(plan: Plan) -> Iterator[_Found]:
    """The seams of the pattern file; the copies of a piece are used up one after the other.

    A sleeve's top sewn to the side of a front or back takes only its half of it, from the shoulder down; a seam of the
    two sides of a top ends below the armhole.
    """
    garment = _Garment(plan)
    used: dict[str, int] = {}
    for nth, seam in enumerate(plan.pattern.seams):
        if any(_lacking(plan, joined) for joined in seam.join):
            continue
        known = garment.seam(*seam.join) or garment.stretches(*seam.join, used)
        if known is not None:
            yield from ((*sides, nth) for sides in known)
            continue
        lines = [_line(plan, name) for name in seam.join]
        copies = [_next_copy(used, name, piece) for name, (piece, _) in zip(seam.join, lines, strict=True)]
        (one, first), (other, second) = lines
        kind: Kind = "shoulder" if "shoulder" in (first.name, second.name) else "seam"
        for a, b in met((one, copies[0], first), (other, copies[1], second)):
            yield kind, a, b, nth


class _Garment:
    """A top whose seams the pattern file names: its side edges, sleeve tops and sleeve seams by the names of edges."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.trunk = roles.trunk(plan)
        pairs = [] if self.trunk is None or self.trunk.left[0] is self.trunk.back[0] else _side_edges(self.trunk)
        self.sides = {f"{one.piece.name}.{one.edge}": (hand, one) for hand, pair in enumerate(pairs) for one in pair}
        self.shoulders: dict[frozenset[str], list[tuple[SeamSide, SeamSide]]] = {}  # of fronts that open
        for one, other in _shoulders(self.trunk) if self.trunk is not None and self.trunk.open else ():
            self.shoulders.setdefault(frozenset((one.name, other.name)), []).append((one, other))
        self.partners = {one: other for pair in pairs for one, other in (pair, pair[::-1])}
        self.sleeves = {f"{one.name}.{sleeves.top_name(one)}": one for one in roles.of_role(plan, "sleeve")}
        names = {one: edges.side_names(one) for one in self.sleeves.values()}
        self.own = {frozenset(f"{one.name}.{side}" for side in sides): one for one, sides in names.items()}

    def seam(self, one: str, other: str) -> list[tuple[Kind, SeamSide, SeamSide]] | None:
        """A seam as such a garment has it; None for all others."""
        if one in self.sides and other in self.sleeves:
            return [self._top(one, other)]
        if other in self.sides and one in self.sleeves:
            return [self._top(other, one)]
        if one in self.sides and other in self.sides:
            ends = self.sides[one][1], self.sides[other][1]
            if ends[0].piece is not ends[1].piece:
                return [("side", *_below(self.plan, *ends, self._sleeve()))]
        if frozenset((one, other)) in self.shoulders:
            return [("shoulder", *sides) for sides in self.shoulders[frozenset((one, other))]]
        sleeve = self.own.get(frozenset((one, other)))
        if sleeve is None:
            return None
        return [
            _sleeve_seam(sleeve, copy, one.rpartition(".")[2], other.rpartition(".")[2]) for copy in range(sleeve.count)
        ]

    def stretches(self, one: str, other: str, used: dict[str, int]) -> list[tuple[Kind, SeamSide, SeamSide]] | None:
        """A seam of stretches by their names; None where both are whole edges."""
        if not any(named_stretches.is_stretch(self.plan, name) for name in (one, other)):
            return None
        for body, top in ((one, other), (other, one)):
            if top in self.sleeves:  # the sleeve, at each edge with such an armhole
                at = [side for side in named_stretches.sides_of(self.plan, body) if side in self.sides]
                return [self._top(side, top) for side in at]
        copies = _next_copy(used, one, self.plan.piece(_of(one))), _next_copy(used, other, self.plan.piece(_of(other)))
        found = named_stretches.ends(self.plan, (one, other), copies)
        return [(self._kind(a, b), _joined(a), _joined(b)) for a, b in found]

    def _kind(self, one: StretchEnd, other: StretchEnd) -> Kind:
        if one.piece is other.piece:
            return "sleeve" if one.piece in self.sleeves.values() else "seam"
        return "side" if all(f"{end.piece.name}.{end.edge}" in self.sides for end in (one, other)) else "seam"

    def _sleeve(self) -> PiecePlan | None:
        return next(iter(self.sleeves.values()), None)

    def _top(self, side: str, top: str) -> tuple[Kind, SeamSide, SeamSide]:
        (hand, body), sleeve = self.sides[side], self.sleeves[top]
        deep, _ = _armholes(self.plan, body, self.partners[body], sleeve)
        return _top_seam(body, deep, sleeve, min(hand, sleeve.count - 1))


def lacking(plan: Plan) -> list[str]:
    """The edges named in the file's seams that the plan has not, each once, as "piece.edge"."""
    joined = dict.fromkeys(name for seam in plan.pattern.seams for name in seam.join)
    return [name for name in joined if _lacking(plan, name)]


def _next_copy(used: dict[str, int], name: str, piece: PiecePlan) -> int:
    copy = used.get(name, 0)
    used[name] = copy + 1
    return min(copy, piece.count - 1)


def _lacking(plan: Plan, joined: str) -> bool:
    """Whether the plan has no such edge: a neck that is wished for, but less than half a cluster deep."""
    name, _, edge = joined.rpartition(".")
    return edge not in edges.of(plan.piece(name)) and not named_stretches.is_stretch(plan, joined)


def _of(joined: str) -> str:
    """The name of the piece in "piece.edge"."""
    return joined.rpartition(".")[0]


def _line(plan: Plan, joined: str) -> tuple[PiecePlan, EdgeLine]:
    """The piece and the edge of "piece.edge"; KeyError where there is none."""
    name, _, edge = joined.rpartition(".")
    piece = plan.piece(name)
    return piece, edges.of(piece)[edge]


def _joined(end: StretchEnd) -> SeamSide:
    return SeamSide(end.piece, end.copy, end.edge, end.stretches)


# ------------------------------------------------------------------------------------------------------ assumed


def _assumed(plan: Plan) -> Iterator[_Found]:
    """Shoulders, sleeve tops, sides and sleeves of a top; the seams of skirts, cushions and bags."""
    yield from forms.seams(plan)
    trunk = roles.trunk(plan)
    if trunk is None:
        return
    for one, other in _shoulders(trunk):
        yield "shoulder", one, other, "shoulder"
    pair = roles.sleeves(plan)
    for hand, ends in enumerate(_side_edges(trunk)):
        yield from _sewn_side(plan, ends, None if pair is None else pair[hand])


def _shoulders(trunk: Trunk) -> list[tuple[SeamSide, SeamSide]]:
    back = (*trunk.back, _top_edge(trunk.back[0]))
    if not trunk.open:
        return met((*trunk.left, _top_edge(trunk.left[0])), back)
    left, right = (whole_side(piece, copy, _top_edge(piece)) for piece, copy in (trunk.left, trunk.right))
    # Walked round, a back comes to the wearer's right shoulder first.
    ends = each(back)[::-1] if len(back[2].runs) == 2 else ends_of(back, left.length, right.length)
    return list(zip((left, right), ends, strict=True))


def _side_edges(trunk: Trunk) -> list[tuple[SideEdge, SideEdge]]:
    """The side edges of front and back that meet at the wearer's left and right: what is at the right of the front,
    seen from outside, is at the left of the back."""
    back, copy = trunk.back
    found = []
    for (front, nth), at_right in ((trunk.left, True), (trunk.right, False)):
        one = SideEdge(front, edges.side_names(front)[at_right], at_right, nth)
        found.append((one, SideEdge(back, edges.side_names(back)[not at_right], not at_right, copy)))
    return found


def _sewn_side(
    plan: Plan, ends: tuple[SideEdge, SideEdge], sleeve: tuple[PiecePlan, int] | None
) -> Iterator[_Found]:
    """One side of the garment: the sleeve's top to front and back, the side below it, the sleeve's own seam."""
    piece = None if sleeve is None else sleeve[0]
    deep = _armholes(plan, *ends, piece)
    if sleeve is not None:
        for body, down in zip(ends, deep, strict=True):
            yield *_top_seam(body, down, *sleeve), "sleeve top"
    # One seam under the arm and down the sleeve, so one letter for both.
    yield "side", *_below(plan, *ends, piece), "side"
    if sleeve is not None:
        yield *_sleeve_seam(*sleeve, *edges.side_names(sleeve[0])), "side"


def _armholes(plan: Plan, one: SideEdge, other: SideEdge, sleeve: PiecePlan | None) -> tuple[Fraction, Fraction]:
    """How many cm of both side edges stay free of the side seam, down from the shoulder."""
    if sleeve is not None:
        return armholes.depths(one, other, sleeves.top_length(sleeve) / 2)
    trunk = roles.trunk(plan)
    if trunk is None or not is_top(plan):
        return Fraction(0), Fraction(0)
    return armholes.depths(one, other, armholes.bare_depth(plan, (*trunk.fronts, trunk.back[0])).cm)


def bare_armhole(plan: Plan) -> BareDepth | None:
    """The depth of armholes on straight sides without sleeves; None for a plan with sleeves, with a shaped armhole, or
    that is no top."""
    trunk = roles.trunk(plan)
    if trunk is None or not is_top(plan) or roles.of_role(plan, "sleeve"):
        return None
    if any(edge.shaped() is not None for pair in _side_edges(trunk) for edge in pair):
        return None
    return armholes.bare_depth(plan, (*trunk.fronts, trunk.back[0]))


def has_armholes(plan: Plan) -> bool:
    """Whether the sides of front and back have shaped armholes."""
    trunk = roles.trunk(plan)
    return trunk is not None and any(edge.shaped() is not None for pair in _side_edges(trunk) for edge in pair)


def is_top(plan: Plan) -> bool:
    """Whether front and back are worn on the shoulders: one has a neck or a shaped armhole, there are sleeves, or the
    front opens. False without a front and one back."""
    trunk = roles.trunk(plan)
    if trunk is None:
        return False
    if trunk.open or roles.of_role(plan, "sleeve") or trunk.left[0].has_neck or trunk.back[0].has_neck:
        return True
    return has_armholes(plan)


def _below(plan: Plan, one: SideEdge, other: SideEdge, sleeve: PiecePlan | None) -> tuple[SeamSide, SeamSide]:
    """The side seam: two side edges below their armholes, down to their slits."""
    deep = _armholes(plan, one, other, sleeve)
    return tuple(  # type: ignore[return-value]  # two of them
        cut_side(body.piece, body.copy, body.edge, body.part(down, max(down, body.length - body.slit)))
        for body, down in zip((one, other), deep, strict=True)
    )


def _top_seam(body: SideEdge, deep: Fraction, sleeve: PiecePlan, copy: int) -> tuple[Kind, SeamSide, SeamSide]:
    """Half of a sleeve's top sewn to ``deep`` cm of a side edge; of an odd number of rows the front has one more."""
    # Walked with the sleeve at the left hand, its second half lies at a right edge, its first at a left one.
    half = sleeves.halves(sleeve, copy)[body.right]
    armhole = cut_side(body.piece, body.copy, *body.armhole(deep))
    return "sleeve top", armhole, SeamSide(sleeve, copy, sleeves.top_name(sleeve), half)


def _sleeve_seam(sleeve: PiecePlan, copy: int, one: str, other: str) -> tuple[Kind, SeamSide, SeamSide]:
    sides = (SeamSide(sleeve, copy, name, sleeves.own_edge(sleeve, name)) for name in (one, other))
    return "sleeve", next(sides), next(sides)


def _top_edge(piece: PiecePlan) -> EdgeLine:
    """What is sewn at the shoulders: them, or without a neck the whole upper edge."""
    found = edges.of(piece)
    return next(found[name] for name in ("shoulder", "upper", "last") if name in found)
