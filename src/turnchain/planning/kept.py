"""Pieces planned before, kept while a pattern is designed: what has not changed is not planned again.

In: what a piece's plan depends on. Out: its ``Choice`` and its ``PiecePlan``, searched anew only where they are not
known. A piece that is known counts against the budget as much as its search did, so that a pattern ends alike whatever
was planned before it.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from typing import TypeVar

from turnchain.fabric.gauge import Gauge
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import Pattern, Piece
from turnchain.planning.budget import MOST_PLACES, SearchBudget
from turnchain.planning.pieces import Choice, choice_of
from turnchain.planning.targets import top_side
from turnchain.records import field, mutable, replace

T = TypeVar("T")

MOST_KEPT = 200  # choices, and as many plans; those used longest ago are dropped first


@mutable
class _Known:
    """What was found, the places that were searched for it, and what it was made of, whose id its key may hold."""

    found: object
    places: int
    made_of: object


@mutable
class KeptPieces:
    """Choices and plans of pieces by all that they depend on, with or without ``alternatives``, whose search takes
    longer than all else. Not safe for several threads."""

    alternatives: bool = True
    _known: OrderedDict[Hashable, _Known] = field(default_factory=OrderedDict)

    def choice(self, piece: Piece, pattern: Pattern, gauge: Gauge, budget: SearchBudget) -> Choice:
        """As ``pieces.choice_of``."""
        shape = replace(piece, stripes=None, stripes_begin=None, before="", after="")
        key = ("choice", shape, top_side(piece, pattern), gauge, pattern.fabric, pattern.units)
        found = self._kept(key, budget, lambda: choice_of(piece, pattern, gauge, budget), None)
        return replace(found, job=replace(found.job, budget=budget))

    def planned(self, choice: Choice) -> PiecePlan:
        """As ``choice.planned()``."""
        ranked = choice.ranked
        key = ("plan", id(ranked), choice.best, self.alternatives)
        return self._kept(key, choice.job.budget, lambda: choice.planned(self.alternatives), ranked)

    def without_alternatives(self) -> KeptPieces:
        """The same memory, for plans that need no alternatives."""
        return KeptPieces(False, self._known)

    def _kept(self, key: Hashable, budget: SearchBudget, make: Callable[[], T], made_of: object) -> T:
        known = self._known.get(key)
        if known is not None and budget.places + known.places <= MOST_PLACES:
            self._known.move_to_end(key)
            budget.spend(known.places)
            return known.found  # type: ignore[return-value]  # a key is of one kind
        before = budget.places
        found = make()
        self._known[key] = _Known(found, budget.places - before, made_of)
        if len(self._known) > 2 * MOST_KEPT:
            self._known.popitem(last=False)
        return found
