"""Which stretches of outlines a seam joins that names them: ``["front.side", "back.side"]``.

In: a plan and the two edges that a seam of the pattern file names, at least one of them a stretch. Out: the two ends of
every seam that comes of it. A name that stands at both edges of two pieces joins both: the right edge of one meets the
left edge of the other, as side seams do. A piece's own seam, as of a sleeve, joins its two edges.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles
from turnchain.garment.stretches import EdgeStretch, named, whole
from turnchain.records import frozen

_ACROSS: dict[Side, Side] = {"left": "right", "right": "left"}


@frozen
class StretchEnd:
    """One side of a seam: ``stretches`` of the ``edge`` of that name of the ``copy``-th (from 0) of a piece."""

    piece: PiecePlan
    copy: int
    edge: str
    stretches: tuple[EdgeStretch, ...]


def is_stretch(plan: Plan, joined: str) -> bool:
    """Whether "piece.edge" is that of a stretch which the planned piece has."""
    return bool(_parts(plan, joined))


def sides_of(plan: Plan, joined: str) -> list[str]:
    """The edges, as "piece.edge", on which a stretch of that name lies; the right one first."""
    return [f"{joined.rpartition('.')[0]}.{side}" for side in _parts(plan, joined)]


def ends(plan: Plan, join: tuple[str, str], copies: tuple[int, int]) -> list[tuple[StretchEnd, StretchEnd]]:
    """The seams of two edges, of which one at least is a stretch; ``copies``: of pieces made twice, which ones."""
    one, other = join
    if one == other:
        return _own(plan, one)
    first, second = _parts(plan, one), _parts(plan, other)
    if first and second:
        pairs = [(side, _ACROSS[side]) for side in first if _ACROSS[side] in second]
        pairs = pairs or [(next(iter(first)), next(iter(second)))]
        return [(_end(plan, one, copies[0], here), _end(plan, other, copies[1], there)) for here, there in pairs]
    if second:
        return [(whole_edge, end) for end, whole_edge in ends(plan, (other, one), copies[::-1])]
    return _with_whole(plan, join, copies)


def _parts(plan: Plan, joined: str) -> dict[Side, EdgeStretch]:
    """The stretch of that name at each edge where there is one; empty for the name of an edge."""
    name, _, edge = joined.rpartition(".")
    piece = plan.piece(name)
    if edge in edges.of(piece):
        return {}
    found = {side: named(piece, side) for side in reversed(SIDES)}
    return {side: parts[edge] for side, parts in found.items() if edge in parts and parts[edge].length > Fraction(0)}


def _end(plan: Plan, joined: str, copy: int, side: Side) -> StretchEnd:
    return StretchEnd(plan.piece(joined.rpartition(".")[0]), copy, side, (_parts(plan, joined)[side],))


def _own(plan: Plan, joined: str) -> list[tuple[StretchEnd, StretchEnd]]:
    """A stretch sewn to its like: of a sleeve or of one piece its two edges, of a piece made twice one to the other."""
    piece = plan.piece(joined.rpartition(".")[0])
    sides = [*_parts(plan, joined)]
    if len(sides) < len(SIDES):
        return [(_end(plan, joined, 0, side), _end(plan, joined, 1, side)) for side in sides if piece.count > 1]
    if piece.count == 1 or piece in roles.of_role(plan, "sleeve"):
        return [(_end(plan, joined, nth, "right"), _end(plan, joined, nth, "left")) for nth in range(piece.count)]
    return [(_end(plan, joined, 0, side), _end(plan, joined, 1, _ACROSS[side])) for side in sides]


def _with_whole(plan: Plan, join: tuple[str, str], copies: tuple[int, int]) -> list[tuple[StretchEnd, StretchEnd]]:
    """A stretch sewn to a whole edge: across from an edge at a side, else one copy of the piece at each edge."""
    sides = [*_parts(plan, join[0])]
    name, _, edge = join[1].rpartition(".")
    piece = plan.piece(name)
    if edge in SIDES:
        across = [side for side in sides if side != edge]
        sides = across or sides[:1]
    runs = tuple(whole(piece, run) for run in edges.of(piece)[edge].runs)
    return [
        (_end(plan, join[0], copies[0], side), StretchEnd(piece, copy, edge, runs))
        for copy, side in zip(range(copies[1], piece.count), sides, strict=False)
    ]
