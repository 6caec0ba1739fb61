"""The best stripes for a task.

In: a ``Task``. Out: its ``Answer``, summed in fractions, so that it never overspends.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from turnchain.yarns.stash.bettering import Bettering
from turnchain.yarns.stash.bounds import rest_bound, shortage_bound
from turnchain.yarns.stash.search import Search, TooMany
from turnchain.yarns.stash.task import Answer, Task, summed

#: Up to this many rows every way is kept, if there are not too many.
EXACT_ROWS = 24


@lru_cache(maxsize=32)
def solve(task: Task) -> Answer:
    """The best stripes for a task; see the words of the package for what is best."""
    least_short, least_rest = shortage_bound(task), rest_bound(task)
    exact = len(task.row_grams) <= EXACT_ROWS
    try:
        ways = Search(task, exact).run()
    except TooMany:
        exact, ways = False, Search(task, False).run()
    answers = [summed(task, way, least_short, least_rest, exact) for way in ways]
    best = min(answers, key=lambda one: (one.score, one.colours))
    if exact or best.score[:3] == (Fraction(0), Fraction(0), least_rest):
        return best
    bettered = summed(task, Bettering(task, best.colours).run(), least_short, least_rest)
    return min(best, bettered, key=lambda one: (one.score, one.colours))
