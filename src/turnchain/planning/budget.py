"""How much may be searched for one pattern: counted, not timed, so that a pattern ends alike on every machine."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, TypeVar

from turnchain.records import field, mutable

T = TypeVar("T")

#: At most so many places, each a reach of a row, are searched for one pattern: a hundred times what a garment takes,
#: and less than a minute of computing. Only several of the largest pieces whose edges no rows can follow need more.
MOST_PLACES = 1_500_000
#: How many states of both edges a search of a pair may look at: some seconds, and more than any garment needs.
PAIR_STATES = 60_000
#: A piece of fewer rows is never too much by itself, and a hundred of them seldom are.
FEW_ROWS = 200


class BudgetSpent(Exception):
    """A search that would look at more than ``MOST_PLACES`` places, which would take minutes."""


@mutable(eq=False)
class SearchBudget:
    """How many ``places`` all searches for one pattern have looked at together; one budget serves one plan."""

    places: int = 0
    _found: dict[Hashable, tuple[Any, int]] = field(default_factory=dict)

    def spend(self, places: int) -> None:
        """Counts so many more. Raises BudgetSpent where all together come to more than ``MOST_PLACES``."""
        self.places += places
        if self.places > MOST_PLACES:
            raise BudgetSpent

    def once(self, key: Hashable, search: Callable[[], T]) -> T:
        """What ``search`` finds; asked again under the same ``key``, what it found then, which counts as much as if it
        were searched anew. Raises BudgetSpent as that would."""
        known = self._found.get(key)
        if known is not None and self.places + known[1] <= MOST_PLACES:
            self.places += known[1]
            return known[0]  # type: ignore[no-any-return]  # a key is of one kind
        before = self.places
        found = search()
        self._found[key] = found, self.places - before
        return found
