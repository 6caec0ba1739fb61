"""Which part of a garment a piece is.

In: a plan. Out: a ``Part`` for every piece: its role, and in words what was assumed where the maker's words leave it
open. A piece's own ``role`` in the pattern file goes first; else names, ``faces`` and counts tell.
"""

from __future__ import annotations

import re
from typing import Literal, TypeAlias

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.records import for_the_last, frozen

Role: TypeAlias = Literal[
    "front", "back", "body", "sleeve", "skirt", "hat", "cowl", "shawl", "scarf", "cushion", "bag", "gusset",
    "strap", "other",
]  # fmt: skip

_WORDS: tuple[tuple[Role, str], ...] = (
    ("strap", r"straps?|handles?"),
    ("gusset", r"gussets?"),
    ("skirt", r"skirts?|gores?"),
    ("hat", r"hats?|beanies?|bonnets?"),
    ("cowl", r"cowls?|snoods?"),
    ("cushion", r"cushions?|pillows?"),
    ("bag", r"bags?"),
    ("sleeve", r"sleeves?|arms?"),
    ("front", r"fronts?"),
    ("back", r"backs?"),
    ("shawl", r"shawls?|kerchiefs?|stoles?"),
    ("scarf", r"scarf|scarves"),
)

#: The pieces that are worn on the shoulders.
OF_A_TOP: tuple[Role, ...] = ("front", "back", "body", "sleeve")


@frozen
class Part:
    """A piece and its ``role``; "body" is a piece made twice, once for the front and once for the back. ``assumed``
    says in English why the role was taken, and is empty where the name tells, and for "other"."""

    piece: PiecePlan
    role: Role
    assumed: str = ""


@for_the_last  # asked of every edge and every seam
def parts(plan: Plan) -> tuple[Part, ...]:
    """Every piece with its role, in the order of the pattern."""
    given = {piece.name: piece.role for piece in plan.pattern.pieces}
    known = {piece.name: given.get(piece.name) or _told(piece) for piece in plan.pieces}
    facing = {piece.name: piece.faces for piece in plan.pattern.pieces if piece.faces}
    found = []
    for piece in plan.pieces:
        role, why = known[piece.name], ""
        if role is None:
            role, why = _guessed(plan, piece, facing)
        found.append(Part(piece, role, why))
    return tuple(found)


def of_role(plan: Plan, *roles: Role) -> list[PiecePlan]:
    """The pieces of these roles, in the order of the pattern."""
    return [part.piece for part in parts(plan) if part.role in roles]


def is_worn(plan: Plan) -> bool:
    """Whether a piece is known to be worn: a blanket, a bag or a cushion is not."""
    return bool(of_role(plan, *OF_A_TOP, "skirt", "hat", "cowl"))


def front_and_back(plan: Plan) -> tuple[PiecePlan, PiecePlan] | None:
    """The one front and the one back of a garment (the same piece where it is made twice); None where there is no
    such pair."""
    for piece in of_role(plan, "body"):
        return piece, piece
    fronts, backs = of_role(plan, "front"), of_role(plan, "back")
    if len(fronts) == 1 and len(backs) == 1 and fronts[0].count == backs[0].count == 1:
        return fronts[0], backs[0]
    return None


@frozen
class Trunk:
    """Front and back of a garment: at the wearer's ``left`` and at the right the piece of the front that lies there,
    each with the number of its copy (from 0): the same but where the front opens."""

    left: tuple[PiecePlan, int]
    right: tuple[PiecePlan, int]
    back: tuple[PiecePlan, int]

    @property
    def open(self) -> bool:
        """Whether the front opens."""
        return self.left != self.right

    @property
    def fronts(self) -> tuple[PiecePlan, ...]:
        """The pieces of the front, each once, the wearer's left one first."""
        return (self.left[0], self.right[0]) if self.open else (self.left[0],)


def trunk(plan: Plan) -> Trunk | None:
    """Front and back of a garment; None without one front, or two halves that open, and one back."""
    pair = front_and_back(plan)
    if pair is not None:
        front, back = pair
        return Trunk((front, 0), (front, 0), (back, 1 if front is back else 0))
    fronts, backs = of_role(plan, "front"), of_role(plan, "back")
    if len(fronts) != 2 or len(backs) != 1 or any(one.count != 1 for one in (*fronts, *backs)):
        return None
    hands = {hand_of(front): front for front in fronts}
    if set(hands) != {"left", "right"}:
        return None
    return Trunk((hands["left"], 0), (hands["right"], 0), (backs[0], 0))


def hand_of(front: PiecePlan) -> Side | None:
    """At which hand of the wearer half a front lies: the edge in the middle of a left one is at the left of the chart,
    right side facing; without such an edge its name tells. None where nothing does."""
    words = front.name.casefold()
    named: list[Side] = [hand for hand in SIDES if re.search(rf"(?<![^\W_]){hand}(?![^\W_])", words)]
    return front.opens or (named[0] if len(named) == 1 else None)


def sleeves(plan: Plan) -> tuple[tuple[PiecePlan, int], tuple[PiecePlan, int]] | None:
    """The sleeves at the wearer's left and right, each with the number of its copy: one piece made twice, or two; None
    where there are none, or others."""
    found = of_role(plan, "sleeve")
    if len(found) == 1 and found[0].count == 2:
        return (found[0], 0), (found[0], 1)
    if len(found) != 2 or any(one.count != 1 for one in found):
        return None
    one, other = found
    swapped = hand_of(one) == "right" or hand_of(other) == "left"
    return ((other, 0), (one, 0)) if swapped else ((one, 0), (other, 0))


def assumptions(plan: Plan) -> list[str]:
    """What was assumed, in English, a line to a piece; empty where nothing was."""
    return [f"{part.piece.name} is taken for {_an(part.role)}: {part.assumed}" for part in parts(plan) if part.assumed]


def _an(role: Role) -> str:
    return "front and back alike" if role == "body" else f"the {role}" if role in ("front", "back") else f"a {role}"


def _told(piece: PiecePlan) -> Role | None:
    """What the words of the piece's name say."""
    named = [role for role, words in _WORDS if re.search(rf"(?<![^\W_])({words})(?![^\W_])", piece.name.casefold())]
    if "front" in named and "back" in named:
        return "body" if piece.count == 2 else "other"
    return named[0] if named else None


def _guessed(plan: Plan, piece: PiecePlan, facing: dict[str, str]) -> tuple[Role, str]:
    faced = facing.get(piece.name)
    if faced is not None:
        return "back", f"it faces {faced}"
    facers = [name for name, other in facing.items() if other == piece.name]
    if facers:
        return "front", f"{facers[0]} faces it"
    if piece.has_neck and piece.count == 2 and len([one for one in plan.pieces if one.has_neck]) == 1:
        return "body", "it has a neck and is made twice"
    return "other", ""
