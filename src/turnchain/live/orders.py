"""The same yarns in other orders, to choose from.

In: a plan. Out: for every order what kind it is, the edits that choose it, the yarn of each row of each piece, how many
ends there are to weave in, and which of its stripes are hard to tell apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeAlias

from turnchain.errors import PatternError
from turnchain.fabric.plan import Plan
from turnchain.pages.glance import short_yarns
from turnchain.pattern import Stripes
from turnchain.reading.orders import KINDS_OF
from turnchain.records import fields, replace
from turnchain.yarns import carrying
from turnchain.yarns.colouring import choices, in_order

Json: TypeAlias = Any

BY_CHANCE = 4  # orders that are drawn, each with a seed of its own


def orders(plan: Plan, seed: int = 1) -> list[dict[str, Json]]:
    """Every order that the pieces can be worked in, the pattern's own first: its "kind" and what tells it from others
    of the kind ("between", "seed"), "edits", "yarns" (by name of piece, one name a row), "ends" of all copies, and
    "short", the yarns that run out. Those drawn by chance begin with ``seed``."""
    return [one for stripes in _stripes(plan, seed) for one in _order(plan, stripes)]


def _stripes(plan: Plan, seed: int) -> Iterator[Stripes]:
    drawn: Stripes | None = None
    for _, stripes in choices(plan):
        if stripes.kind != "random" or drawn is None:
            yield stripes if stripes.kind != "random" else replace(stripes, seed=seed)
        if stripes.kind == "random" and drawn is None:
            drawn = stripes
            yield from (replace(stripes, seed=seed + nth) for nth in range(1, BY_CHANCE))


def _order(plan: Plan, stripes: Stripes) -> Iterator[dict[str, Json]]:
    """The one order in a list; empty where it cannot be worked, or where what it needs is not on this machine."""
    try:
        made = in_order(plan, stripes)
    except (PatternError, ImportError):  # a browser's Python has no numpy, which the stash needs
        return
    yield {
        "kind": stripes.kind,
        "between": stripes.between,
        "seed": stripes.seed,
        "edits": edits(stripes, plan.pattern.stripes),
        "yarns": {piece.name: [row.colour for row in piece.rows] for piece in made.pieces},
        "ends": sum(carrying.ends(piece, carrying.carry_of(made, piece)) * piece.count for piece in made.pieces),
        "short": [need.yarn for need in short_yarns(made)],
    }


def edits(stripes: Stripes, now: Stripes | None = None) -> list[dict[str, Json]]:
    """The edits that write ``stripes`` into a pattern file that has those of ``now``, for all its sizes: what is usual
    is left out of it, and what stays as it is keeps what it is in other sizes."""
    usual = Stripes()
    made: list[dict[str, Json]] = []
    for name in fields(Stripes):
        value, has = getattr(stripes, name), stripes.kind in KINDS_OF.get(name, (stripes.kind,))
        if has and now is not None and value == getattr(now, name):
            continue
        left_out = value == getattr(usual, name) or not has
        made.append({"path": ["stripes", name], "value": None if left_out else _written(value), "sizes": "all"})
    return made


def _written(value: Json) -> Json:
    """``value`` as files have it: one height alone as a number."""
    if isinstance(value, tuple):
        return value[0] if len(value) == 1 and isinstance(value[0], int) else list(value)
    return value
