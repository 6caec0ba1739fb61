"""The best stripes for a task; where the stock is too little, the nearest that can be done.

In: a ``Task``. Out: its ``Answer``, summed in fractions, so that it never overspends. The best way found by the search
is improved by small changes, stripe by stripe.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

import numpy as np

from turnchain.yarns.stash.search import Search, TooMany, Weighed
from turnchain.yarns.stash.task import Answer, Stripe, Task, Wishes, rest_bound, shortage_bound, stripes_in, summed

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
    improved = summed(task, Improvement(task, best.colours).run(), least_short, least_rest)
    return min(best, improved, key=lambda one: (one.score, one.colours))


# --------------------------------------------------------------------------------------------------- improvement

#: How many changes are tried.
MOST_TRIED = 3000


class Improvement:
    """Improves a way by small changes, taking each that helps, until none does or enough were tried."""

    def __init__(self, task: Task, colours: Sequence[int]) -> None:
        self.task, self.tried = task, 0
        self.stripes = stripes_in(colours)
        self.grams = Weighed(task)

    def run(self) -> tuple[int, ...]:
        """The improved way, as the yarn of every row."""
        best, better = self._score(self.stripes), True
        while better and self.tried < MOST_TRIED:
            better = False
            for stripes in self._changes(list(self.stripes)):
                if self.tried >= MOST_TRIED:
                    break
                score = self._score(stripes)
                if score < best:
                    self.stripes, best, better = stripes, score, True
                    break
        return tuple(index for index, height in self.stripes for _ in range(height))

    def _score(self, stripes: list[Stripe]) -> tuple[float, ...]:
        """As an answer's, and then the evenness of all rests, which leads on where the largest cannot be improved
        in one change."""
        self.tried += 1
        colours = np.array([index for index, _ in stripes])
        stops = np.cumsum([height for _, height in stripes])
        starts = np.concatenate([[0], stops[:-1]])
        ends = sum(2 * t.count * ((t.first < stops) & (t.last >= starts)) for t in self.task.threads)
        weights = self.grams.sums[stops] - self.grams.sums[starts]
        fabric = np.asarray(np.bincount(colours, weights, len(self.grams.room)), dtype=float)
        tails = np.bincount(colours, np.asarray(ends, dtype=float), len(self.grams.room)) * self.grams.tail
        figures = (*self.grams.figures(fabric, tails), ((self.grams.room - fabric) ** 2).sum())
        return tuple(round(float(figure), 7) for figure in figures)

    def _changes(self, stripes: list[Stripe]) -> Iterator[list[Stripe]]:
        """A row or two from one stripe to another, first to those whose yarn has most to give and from the nearest;
        then other yarns for single stripes."""
        sizes = self.task.wishes.heights
        step = min((b - a for a, b in pairwise(sizes)), default=0)
        count = len(stripes)
        for grows in self._by_rest(stripes) if step else ():
            if not self._fits(grows, stripes[grows][1] + step, count):
                continue
            for shrinks in sorted(range(count), key=lambda other: (abs(other - grows), other)):
                differ = stripes[grows][0] != stripes[shrinks][0]
                if differ and self._fits(shrinks, stripes[shrinks][1] - step, count):
                    yield self._with(stripes, {grows: step, shrinks: -step})
        for i, (old, height) in enumerate(stripes):
            near = [stripes[j][0] for j in range(max(0, i - self._apart), min(count, i + self._apart + 1)) if j != i]
            for index in range(len(self.grams.room)):
                if index != old and index not in near:
                    yield [*stripes[:i], (index, height), *stripes[i + 1 :]]

    def _by_rest(self, stripes: list[Stripe]) -> list[int]:
        """The stripes, those first whose yarn is to be used up or has the most left."""
        colours = np.array([index for index, height in stripes for _ in range(height)])
        rests = self.grams.room - np.bincount(colours, np.diff(self.grams.sums), len(self.grams.room))
        use_up = self.task.wishes.use_up
        return sorted(range(len(stripes)), key=lambda i: (stripes[i][0] not in use_up, -rests[stripes[i][0]], i))

    @property
    def _apart(self) -> int:
        return self.task.wishes.apart

    def _fits(self, place: int, height: int, count: int) -> bool:
        sizes = self.task.wishes.heights
        return height in sizes or (place == count - 1 and 0 < height <= max(sizes))

    @staticmethod
    def _with(stripes: list[Stripe], adds: dict[int, int]) -> list[Stripe]:
        return [(index, height + adds.get(i, 0)) for i, (index, height) in enumerate(stripes)]


# ---------------------------------------------------------------------------------------------------- too little


@dataclass(frozen=True, slots=True)
class Nearest:
    """The nearest plan that can be made: ``words`` for what gives way, and its answer."""

    words: str
    answer: Answer


def nearest(task: Task) -> Nearest | None:
    """The nearest plan that the stock suffices for: a wish less, else all wishes loosened, else fewer rows."""
    for words, wishes in _loosened(task.wishes):
        changed = replace(task, wishes=wishes)
        if not shortage_bound(changed) and (answer := solve(changed)).possible:
            return Nearest(words, answer)
    return _shorter(task)


def _loosened(wishes: Wishes) -> Iterator[tuple[str, Wishes]]:
    lowest, highest = min(wishes.heights), max(wishes.heights)
    every = tuple(range(lowest, highest + 1))
    if wishes.heights != every:
        yield "with stripes of odd heights too", replace(wishes, heights=every)
    if wishes.apart > 1:
        yield f"with a yarn back after {wishes.apart - 1}", replace(wishes, apart=wishes.apart - 1)
    wide = tuple(range(1, 2 * highest + 1))
    yield f"with stripes of 1 to {2 * highest} rows", replace(wishes, heights=wide)
    yield f"with stripes of 1 to {2 * highest} rows, a yarn back after 1", replace(wishes, heights=wide, apart=1)


def _shorter(task: Task) -> Nearest | None:
    """The most rows that can be worked within the wishes, by halving."""
    low, high, best = 0, len(task.row_grams), None
    while high - low > 1:
        rows = (low + high) // 2
        part = task.shortened(rows)
        if not shortage_bound(part) and (answer := solve(part)).possible:
            low, best = rows, answer
        else:
            high = rows
    return Nearest(f"with {low} of {len(task.row_grams)} rows", best) if best else None
