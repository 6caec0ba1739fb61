"""The seams of skirts in panels, hats, cowls, cushions, and bags with gusset and straps.

In: a plan whose pieces have these roles. Out: the two sides of every seam in working order, with the seam's kind and
what groups seams under one letter. Of a skirt each panel is sewn to the next and the last to the first; a hat or a cowl
is closed to a tube; a cushion is
closed all round, the edge last sewn being the one that the pad goes in by; a bag stays open at the top. One piece alone
is folded across its middle. A gusset goes down one side of a bag, along the bottom and up the other side, and all round
a cushion; a strap goes from side to side, two straps on a side each. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import TypeAlias

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles
from turnchain.garment.armholes import SideEdge
from turnchain.garment.edges import Run
from turnchain.garment.roles import Role
from turnchain.garment.seam_sides import Kind, SeamSide, cut_side
from turnchain.garment.stretches import EdgeStretch, stops

Copy: TypeAlias = tuple[PiecePlan, int]
Found: TypeAlias = "tuple[Kind, SeamSide, SeamSide, object]"
#: An edge of a copy, walked with the piece at the left hand.
_Walked: TypeAlias = tuple[PiecePlan, int, Run]


def seams(plan: Plan) -> Iterator[Found]:
    """Every seam of the skirt, the cushion and the bag of a plan; none where their pieces are not as many as the
    description says."""
    yield from _skirt(_copies(plan, "skirt"))
    for copy in (*_copies(plan, "hat"), *_copies(plan, "cowl")):  # each by itself is closed to a tube
        yield from (("side", one, other, "tube") for _, one, other, _ in _skirt([copy]))
    yield from _closed(_copies(plan, "cushion"), _one(plan, "gusset"), mouth=False)
    bag = _copies(plan, "bag")
    gusset = _one(plan, "gusset") if len(bag) == 2 else None
    yield from _closed(bag, gusset, mouth=True)
    if bag and len(bag) <= 2:
        yield from _straps(bag, gusset, _copies(plan, "strap"))


def _copies(plan: Plan, role: Role) -> list[Copy]:
    return [(piece, copy) for piece in roles.of_role(plan, role) for copy in range(piece.count)]


def _one(plan: Plan, role: Role) -> Copy | None:
    found = _copies(plan, role)
    return found[0] if len(found) == 1 else None


def top(piece: PiecePlan) -> str:
    """The name of the upper edge of a piece without a neck, as worn."""
    return "last" if piece.top is None else "upper"


def bottom(piece: PiecePlan) -> str:
    """The name of the lower edge of a piece, as worn."""
    return "first" if piece.top is None else "lower"


def _edge(copy: Copy, name: str) -> _Walked:
    (run,) = edges.of(copy[0])[name].runs
    return copy[0], copy[1], run


def _part(walked: _Walked, start: Fraction, end: Fraction) -> SeamSide:
    piece, copy, run = walked
    return cut_side(piece, copy, run.name, EdgeStretch(piece, run, start, end))


def _all_of(walked: _Walked) -> SeamSide:
    return _part(walked, Fraction(0), walked[2].length)


def _stop(walked: _Walked, cm: Fraction) -> Fraction:
    """Where a seam can end on an edge that is nearest to ``cm`` along it."""
    return min(stops(walked[0], walked[2]), key=lambda stop: (abs(stop - cm), stop))


# ----------------------------------------------------------------------------------------------------- skirts


def _skirt(panels: Sequence[Copy]) -> Iterator[Found]:
    """Every panel to the next one and the last to the first, from the top down to where they are slit."""
    for (one, copy), (other, its) in zip(panels, [*panels[1:], *panels[:1]], strict=True):
        here = SideEdge(one, edges.side_names(one)[1], True, copy)
        there = SideEdge(other, edges.side_names(other)[0], False, its)
        yield "side", _down_to_a_slit(here), _down_to_a_slit(there), "skirt"


def _down_to_a_slit(body: SideEdge) -> SeamSide:
    part = body.part(Fraction(0), body.length - body.slit)
    return cut_side(body.piece, body.copy, body.edge, part)


# --------------------------------------------------------------------------------------------- cushions and bags


def _closed(faces: Sequence[Copy], gusset: Copy | None, mouth: bool) -> Iterator[Found]:
    """A cushion or, with a ``mouth`` at its top, a bag."""
    if len(faces) == 2 and gusset is not None:
        yield from _boxed(faces, gusset, mouth)
    elif len(faces) == 2:
        one, other = faces
        (left, right), (its_left, its_right) = edges.side_names(one[0]), edges.side_names(other[0])
        low, high = (bottom(one[0]), bottom(other[0])), (top(one[0]), top(other[0]))
        for names in ((right, its_left), (left, its_right), low, *(() if mouth else (high,))):
            yield "seam", _all_of(_edge(one, names[0])), _all_of(_edge(other, names[1])), names
    elif len(faces) == 1:
        yield from _folded(faces[0], mouth)


def _folded(face: Copy, mouth: bool) -> Iterator[Found]:
    """One piece folded across its middle, in the same place at both edges: each side edge to itself and, without a
    mouth, its two ends."""
    one, other = (_edge(face, name) for name in edges.side_names(face[0]))
    middle = _stop(one, one[2].length / 2)
    for edge, fold in ((one, middle), (other, _stop(other, other[2].length - middle))):
        yield "seam", _part(edge, Fraction(0), fold), _part(edge, fold, edge[2].length), "folded"
    if not mouth:
        yield "seam", _all_of(_edge(face, bottom(face[0]))), _all_of(_edge(face, top(face[0]))), "ends"


def _boxed(faces: Sequence[Copy], gusset: Copy, mouth: bool) -> Iterator[Found]:
    """A gusset between two faces: its ends meet in a cushion, at the top of the left side of the first face."""
    ends, sides = _of_a_strip(gusset)
    if not mouth:
        yield "seam", _all_of(_edge(gusset, ends[0])), _all_of(_edge(gusset, ends[1])), "gusset"
    for face, strip in zip(faces, reversed(sides), strict=True):
        left, right = edges.side_names(face[0])
        names = (left, bottom(face[0]), right) if mouth else (left, bottom(face[0]), right, top(face[0]))
        around = [_edge(face, name) for name in names]
        for edge, part in zip(around, _shared(_edge(gusset, strip), around), strict=True):
            yield "seam", _all_of(edge), part, ("face", edge[2].name)


def _shared(strip: _Walked, around: Sequence[_Walked]) -> list[SeamSide]:
    """The long edge of a gusset, walked from its end to its start, shared among the edges it is sewn to."""
    lengths = [edge[2].length for edge in around]
    whole, long = sum(lengths, Fraction(0)), strip[2].length
    cuts = [long - _stop(strip, long - long * passed / whole) for passed in accumulate(lengths[:-1])]
    return [_part(strip, long - high, long - low) for low, high in pairwise([Fraction(0), *cuts, long])]


def _of_a_strip(strip: Copy) -> tuple[tuple[str, str], tuple[str, str]]:
    """The names of the short and of the long edges of a strip; the long ones so that the first is walked down or back
    where the second is walked up or on."""
    found = edges.of(strip[0])
    ends, sides = (bottom(strip[0]), top(strip[0])), edges.side_names(strip[0])
    if found[ends[0]].length <= found[sides[0]].length:
        return ends, sides
    return sides, (ends[1], ends[0])


def _straps(bag: Sequence[Copy], gusset: Copy | None, straps: Sequence[Copy]) -> Iterator[Found]:
    """One strap from side to side: on the ends of the gusset, or over the ends of the side seams, half on either face.
    Two straps: each on a face of its own, at a quarter of its top edge from either side."""
    mouths = _mouths(bag)
    if len(straps) == 2:
        for strap, mouth in zip(straps, mouths, strict=True):
            for nth, name in enumerate(_of_a_strip(strap)[0]):
                there = _about(mouth, Fraction(1 + 2 * nth, 4), strap, name)
                yield "seam", _all_of(_edge(strap, name)), there, ("strap", nth)
    elif len(straps) == 1:
        ends = [_edge(straps[0], name) for name in _of_a_strip(straps[0])[0]]
        if gusset is not None:
            for nth, (end, name) in enumerate(zip(ends, _of_a_strip(gusset)[0], strict=True)):
                yield "seam", _all_of(end), _all_of(_edge(gusset, name)), ("strap", nth)
            return
        for nth, (end, (before, after)) in enumerate(zip(ends, (mouths, mouths[::-1]), strict=True)):
            middle = _stop(end, end[2].length / 2)
            first, last = _stop(before, middle), _stop(after, after[2].length - (end[2].length - middle))
            # Half of an end goes to either face: each is a seam of its own.
            yield "seam", _part(end, Fraction(0), middle), _part(before, Fraction(0), first), ("strap", nth, 0)
            yield "seam", _part(end, middle, end[2].length), _part(after, last, after[2].length), ("strap", nth, 1)


def _mouths(bag: Sequence[Copy]) -> list[_Walked]:
    """The top edges of both faces; of a piece that is folded its two ends."""
    if len(bag) == 1:
        return [_edge(bag[0], top(bag[0][0])), _edge(bag[0], bottom(bag[0][0]))]
    return [_edge(face, top(face[0])) for face in bag]


def _about(mouth: _Walked, share: Fraction, strap: Copy, name: str) -> SeamSide:
    """As much of a top edge, about a ``share`` of its length, as a strap is wide."""
    wide, long = _edge(strap, name)[2].length, mouth[2].length
    start = _stop(mouth, max(Fraction(0), long * share - wide / 2))
    return _part(mouth, start, _stop(mouth, min(long, start + wide)))
