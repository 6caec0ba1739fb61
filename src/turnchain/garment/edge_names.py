"""What people call an edge: "left shoulder", "side below the armhole", "neck", "cuff".

In: a plan with a seam or an open edge of it. Out: ``EdgeName`` s: values, to be said in any language. Left and right
are the wearer's own. In the report edges have the names by which a pattern file joins them ("front.first"); customers
never see those.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal, TypeAlias

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import dimensions, edges, roles, sleeves
from turnchain.garment.openings import OpenStretch, at_the_front
from turnchain.garment.roles import Role
from turnchain.garment.seam_sides import Kind, PlannedSeam, SeamSide
from turnchain.records import frozen

EdgeKind: TypeAlias = Literal[
    "shoulder", "side", "side below the armhole", "armhole", "neck", "lower edge", "upper edge", "sleeve top",
    "sleeve edge", "cuff", "first row", "last row", "left edge", "right edge", "front edge", "cap",
]  # fmt: skip
Hand: TypeAlias = Literal["left", "right", "both", ""]


@frozen
class EdgeName:
    """An edge by its ``kind`` and, where a body has two of them, at the wearer's left or right (``hand``; empty: there
    is one, or it lies across the middle; "both": told of both together)."""

    kind: EdgeKind
    hand: Hand = ""

    @property
    def key(self) -> str:
        """Its key in the tables of words, the hand first: "left shoulder", "neck"."""
        return f"{self.hand} {self.kind}".strip()


def of_seam(plan: Plan, seam: PlannedSeam) -> tuple[EdgeName, EdgeName]:
    """The names of the edges at both sides of a seam, ``seam.one``'s first."""
    return _of_side(plan, seam.one, seam.kind), _of_side(plan, seam.other, seam.kind)


def of_open(plan: Plan, one: OpenStretch) -> EdgeName:
    """The name of an edge that stays open: its opening where that has a name, else the edge's own."""
    role = _role(plan, one.piece)
    if one.stretch.run.name == "neck":
        return EdgeName("neck")
    if one.kind in ("neck", "lower edge", "upper edge", "cuff", "front edge"):
        return EdgeName(one.kind)
    if one.piece.front_edge == one.stretch.run.name:  # of half a front that no seam joins to anything
        return EdgeName(at_the_front(one.stretch))
    if one.stretch.run.name == "armhole":
        return EdgeName("armhole", _hand(plan, one.piece, one.copy, one.stretch.points))
    if one.kind == "armhole":
        return EdgeName("armhole", _hand_of(plan, one.piece, one.copy, one.stretch.run.name))
    return _plain(one.stretch.run.name) if role not in roles.OF_A_TOP else _named(one.piece, role, one.stretch.run.name)


def together(named: Sequence[tuple[PiecePlan, EdgeName]]) -> list[tuple[PiecePlan, EdgeName]]:
    """Edges that are told together, each of a piece once, in the order they first come; where left and right of a piece
    are among them, as "both"."""
    found: dict[tuple[str, EdgeKind], tuple[PiecePlan, EdgeName]] = {}
    for piece, name in named:
        had = found.get((piece.name, name.kind))
        both = had is not None and had[1] != name
        found[piece.name, name.kind] = piece, EdgeName(name.kind, "both") if both else name
    return list(found.values())


def _of_side(plan: Plan, side: SeamSide, kind: Kind) -> EdgeName:
    role = _role(plan, side.piece)
    if role == "sleeve":
        return _sleeve(side.piece, side.edge)
    if role not in roles.OF_A_TOP:
        return _plain(side.edge)
    if side.edge == "neck":
        return EdgeName("neck")
    if side.edge == side.piece.front_edge:
        return EdgeName("front edge")
    if side.edge == "armhole":
        return EdgeName("armhole", _hand(plan, side.piece, side.copy, side.points))
    if side.edge in edges.side_names(side.piece):
        hand = _hand_of(plan, side.piece, side.copy, side.edge)
        if kind == "sleeve top":
            return EdgeName("armhole", hand)
        plain = side.whole and not any(side.piece.armed)
        return EdgeName("side" if plain or kind == "shoulder" else "side below the armhole", hand)
    if kind == "shoulder":
        both = side.whole and side.edge != "shoulder"
        hand = _hand(plan, side.piece, side.copy, side.points)
        return EdgeName("upper edge") if both else EdgeName("shoulder", hand)
    return _named(side.piece, role, side.edge)


def _role(plan: Plan, piece: PiecePlan) -> Role:
    return next(part.role for part in roles.parts(plan) if part.piece.name == piece.name)


def _hand(plan: Plan, piece: PiecePlan, copy: int, points: tuple[edges.Point, ...]) -> Hand:
    """At whose side of the wearer an edge lies: what is at the right of a front, seen from outside, is at the left of
    the wearer, and the other way round at a back. Half a front that opens lies at one side."""
    if piece.opens:
        return piece.opens
    turn = edges.worn(piece)
    (left, _), (right, _) = dimensions.box(piece)
    middle = (left + right) / 2
    here = sum((turn(point)[0] for point in points), Fraction(0)) / len(points)
    if here == middle:
        return ""
    return "left" if (here > middle) != _is_back(plan, piece, copy) else "right"


def _hand_of(plan: Plan, piece: PiecePlan, copy: int, edge: str) -> Hand:
    """The same of the ``edge`` at a side, wherever it leans."""
    at_right = edge == edges.side_names(piece)[1]
    return "left" if at_right != _is_back(plan, piece, copy) else "right"


def _is_back(plan: Plan, piece: PiecePlan, copy: int) -> bool:
    """Whether it is worn at the back: of a piece made twice, the second is."""
    role = _role(plan, piece)
    return role == "back" or (role == "body" and copy == 1)


def _sleeve(piece: PiecePlan, edge: str) -> EdgeName:
    if edge == "neck":
        return EdgeName("neck")
    if edge == sleeves.CAP:
        return EdgeName("cap")
    if edge == sleeves.top_name(piece):
        return EdgeName("sleeve top")
    return EdgeName("sleeve edge") if edge in edges.side_names(piece) else EdgeName("cuff")


def _named(piece: PiecePlan, role: Role, edge: str) -> EdgeName:
    """An edge of a garment that is no side."""
    if role == "sleeve":
        return _sleeve(piece, edge)
    upwards = piece.top is None
    known: dict[str, EdgeKind] = {"neck": "neck", "shoulder": "shoulder", "lower": "lower edge", "upper": "upper edge"}
    ends: dict[str, EdgeKind] = {"first": "lower edge", "last": "upper edge"} if upwards else {}
    return EdgeName({**known, **ends}[edge]) if edge in {**known, **ends} else _plain(edge)


_PLAIN: dict[str, EdgeKind] = {
    "first": "first row", "last": "last row", "left": "left edge", "right": "right edge", "lower": "lower edge",
    "upper": "upper edge", "neck": "neck", "shoulder": "shoulder",
}  # fmt: skip


def _plain(edge: str) -> EdgeName:
    """An edge of a piece that is no part of a garment, as it is worked."""
    return EdgeName(_PLAIN[edge])
