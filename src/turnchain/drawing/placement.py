"""Pieces laid out on a table as they will be worn.

In: a plan and a scale: how long half a pitch and a row are, in cm or in px. Out: for each piece (each copy of it)
which way up it lies and where, in the same unit. A piece worked sideways is turned so that its upper edge is up; a
sleeve lies beside the body with its wide end towards it.
"""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.records import frozen, replace

GAP = 2.6  # half pitches between pieces
APART = 0.6  # half pitches between the borders of two pieces, at the least


@frozen
class Scale:
    """The length of ``half`` a pitch and the height of a ``row``, both in cm or both in px."""

    half: float
    row: float


@frozen(slots=False)
class Placed:
    """One copy of a piece, the ``copy``-th from 0: turned by ``quarters`` of a turn against the clock, its box (y
    upwards) with the lower left corner at (``x``, ``y``), in the unit of ``scale``."""

    piece: PiecePlan
    quarters: int
    scale: Scale
    x: float
    y: float
    copy: int = 0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the box as it lies."""
        across, along = self._extent
        return (across, along) if self.quarters % 2 == 0 else (along, across)

    @cached_property
    def _extent(self) -> tuple[float, float]:
        """How wide the piece is across its rows and how high over them."""
        piece = self.piece
        across = (piece.rightmost - piece.leftmost) * self.scale.half
        return across, float(piece.level(piece.row_count)) * self.scale.row

    def at(self, position: float, height: float) -> tuple[float, float]:
        """Where a place of the piece lies, (x, y upwards): ``position`` in half pitches, ``height`` in rows from the
        foundation."""
        across, along = self._extent
        right, up = (position - self.piece.leftmost) * self.scale.half, height * self.scale.row
        if self.quarters == 0:
            return self.x + right, self.y + up
        if self.quarters == 1:
            return self.x + (along - up), self.y + right
        if self.quarters == 2:
            return self.x + (across - right), self.y + (along - up)
        return self.x + up, self.y + (across - right)


def upright(piece: PiecePlan) -> int:
    """The quarter turns against the clock that bring a piece's upper edge up: 0, 1 or 3."""
    if piece.top is None:
        return 0
    return 1 if piece.top == "right" else 3


def alone(piece: PiecePlan, scale: Scale) -> list[Placed]:
    """One copy of a piece by itself as worn, its left side at x 0 and its top at y 0."""
    return _side_by_side([_Turned(piece, upright(piece))], scale)


def laid_out(plan: Plan, scale: Scale, around: float = 0.0) -> list[Placed]:
    """All pieces side by side from x 0 on, ``GAP`` half pitches apart or, where so many rows ``around`` each need more,
    by these, their tops at y 0: every copy of a body piece, and beside the first of these a sleeve at the left and,
    where more than one is made, the others at the right."""
    sleeves = [piece for piece in plan.pieces if _is_sleeve(piece)]
    bodies = [piece for piece in plan.pieces if not _is_sleeve(piece)]
    if not bodies:
        sleeves, bodies = [], list(plan.pieces)
    order: list[_Turned] = []
    for index, piece in enumerate(bodies):
        arms = sleeves if index == 0 else []
        order += [_Turned(sleeve, _outwards(sleeve, left=True)) for sleeve in arms]
        order += [_Turned(piece, upright(piece), copy) for copy in range(piece.count)]
        order += [
            _Turned(sleeve, _outwards(sleeve, left=False), copy) for sleeve in arms for copy in range(1, sleeve.count)
        ]
    return _side_by_side(order, scale, around)


class _Turned(NamedTuple):
    piece: PiecePlan
    quarters: int
    copy: int = 0


def _side_by_side(order: list[_Turned], scale: Scale, around: float = 0.0) -> list[Placed]:
    laid: list[Placed] = []
    x, gap = 0.0, max(GAP * scale.half, 2 * around * scale.row + APART * scale.half)
    for piece, quarters, copy in order:
        one = Placed(piece, quarters, scale, x, 0.0, copy)
        laid.append(replace(one, y=-one.size[1]))
        x += one.size[0] + gap
    return laid


def lies_on_its_side(plan: Plan, piece: PiecePlan) -> bool:
    """Whether the rows of ``piece`` run up and down in any of its copies as ``laid_out`` has them."""
    return any(one.piece.name == piece.name and one.quarters % 2 for one in laid_out(plan, Scale(1.0, 1.0)))


def _is_sleeve(piece: PiecePlan) -> bool:
    return "sleeve" in piece.name.casefold() and piece.worked == "upwards"


def _outwards(sleeve: PiecePlan, left: bool) -> int:
    """The turn that brings a sleeve's wide end to the body: at the right for a sleeve that lies to the left of it."""
    first, last = sleeve.rows[0], sleeve.rows[-1]
    starts_wide = first.right.at - first.left.at >= last.right.at - last.left.at
    return 1 if starts_wide == left else 3
