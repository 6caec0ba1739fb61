"""A way bettered by small changes.

In: a ``Task`` and a way to work its rows. Out: a way that is as good or better, stripe by stripe.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from turnchain.yarns.stash.task import Stripe, Task, stripes_in
from turnchain.yarns.stash.weighed import Weighed

#: How many changes are tried.
MOST_TRIED = 3000


class Bettering:
    """Betters a way by small changes, taking each that helps, until none does or enough were tried."""

    def __init__(self, task: Task, colours: Sequence[int]) -> None:
        self.task, self.tried = task, 0
        self.stripes = stripes_in(colours)
        self.grams = Weighed(task)

    def run(self) -> tuple[int, ...]:
        """The bettered way, as the yarn of every row."""
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
        """As an answer's, and then the evenness of all rests, which leads on where the largest cannot be bettered
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
