"""The search, row by row, in floats.

In: a ``Task``. Out: the best ways to work all rows, the likeliest first. A small task is searched whole; of a large
one those ways are kept that stay nearest to the rests aimed at.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.yarns.stash.task import Task, aims

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]


class Weighed:
    """The ``room`` and the ``tail`` grams of every yarn; ``sums``: what the rows before each weigh together."""

    def __init__(self, task: Task) -> None:
        self.room = np.array([float(grams) for grams in task.room])
        self.tail = np.array([float(grams) for grams in task.tail])
        self.sums = np.concatenate([[0.0], np.cumsum([float(grams) for grams in task.row_grams])])
        self._use_up = list(task.wishes.use_up)

    def figures(self, fabric: Floats, tails: Floats) -> tuple[Floats, Floats, Floats]:
        """As the first three of an answer's score, for one way or for many, with the yarns along the last axis."""
        short = np.maximum(0.0, fabric + tails - self.room).sum(axis=-1)
        rests = np.maximum(0.0, self.room - fabric)
        return short, rests[..., self._use_up].sum(axis=-1), rests.max(axis=-1)


# -------------------------------------------------------------------------------------------------------- search

#: How many ways are kept at a row: with fewer the rests come out less even, with more it takes longer.
MOST_KEPT = 120
#: Every way is kept as long as there are no more than so many at a row.
MOST_EXACT = 30_000
#: How many of the last ways are handed on.
MOST_SUMMED = 12
_TINY = 1e-9  # g: floats nearer than this are one


@dataclass
class _Ways:
    """Ways to reach one row, side by side: grams of ``fabric`` and of ``tails`` by yarn, the yarns of the last
    stripes (``recent``, -1: none), how many ``stripes``; and where each came from: ``parent`` at row
    ``before``."""

    fabric: Floats
    tails: Floats
    recent: Whole
    stripes: Whole
    before: Whole
    parent: Whole

    def take(self, index: Whole) -> _Ways:
        """Only the ways at ``index``."""
        return _Ways(*(getattr(self, name)[index] for name in self.__dataclass_fields__))

    @staticmethod
    def joined(parts: Sequence[_Ways]) -> _Ways:
        """All ways of all ``parts``, in order."""
        names = _Ways.__dataclass_fields__
        return _Ways(*(np.concatenate([getattr(part, name) for part in parts]) for name in names))


class TooMany(Exception):
    """More ways than can all be kept."""


class Search:
    """Goes through the rows, keeping every different way if ``exact``, else the most promising."""

    def __init__(self, task: Task, exact: bool) -> None:
        self.task, self.exact = task, exact
        self.yarns = len(task.yarns)
        self.apart = min(task.wishes.apart, self.yarns - 1)
        self.memory = max(1, self.apart)
        self.grams = Weighed(task)
        self.aim = np.array(aims(task))
        self.kept: list[_Ways | None] = [None] * (len(task.row_grams) + 1)

    def run(self) -> list[tuple[int, ...]]:
        """The best ways to the end, the likeliest first, as the yarn of every row."""
        rows = len(self.task.row_grams)
        arrived: list[list[_Ways]] = [[] for _ in range(rows + 1)]
        arrived[0].append(self._start())
        for row in range(rows):
            if arrived[row]:
                ways = self._best_of(_Ways.joined(arrived[row]), row)
                self.kept[row] = ways
                for stop, more in self._onwards(ways, row):
                    arrived[stop].append(more)
                arrived[row] = []
        last = _Ways.joined(arrived[rows])
        self.kept[rows] = last = last.take(self._final_order(last)[:MOST_SUMMED])
        return [self._way_to(rows, index) for index in range(len(last.stripes))]

    def _start(self) -> _Ways:
        none = np.zeros((1, self.yarns))
        nowhere = np.full((1, self.memory), -1, dtype=np.int64)
        zero = np.zeros(1, dtype=np.int64)
        return _Ways(none, none, nowhere, zero, zero, zero)

    def _onwards(self, ways: _Ways, row: int) -> Iterator[tuple[int, _Ways]]:
        """Every way with one stripe more, by where the stripe ends."""
        rows, wishes = len(self.task.row_grams), self.task.wishes
        stops = {row + height for height in wishes.heights if row + height <= rows}
        if rows - row < max(wishes.heights):
            stops.add(rows)  # the last stripe is cut where the rows end
        for stop in sorted(stops):
            grams, ends = self.grams.sums[stop] - self.grams.sums[row], self.task.ends(row, stop)
            for colour in range(self.yarns):
                free = np.flatnonzero(~(ways.recent[:, : self.apart] == colour).any(axis=1))
                if len(free):
                    yield stop, self._with(ways, free, colour, row, (grams, ends))

    def _with(self, ways: _Ways, free: Whole, colour: int, row: int, adds: tuple[Any, int]) -> _Ways:
        grams, ends = adds
        fabric, tails = ways.fabric[free], ways.tails[free]
        fabric[:, colour] += grams
        tails[:, colour] += ends * self.grams.tail[colour]
        mark = np.full((len(free), 1), colour, dtype=np.int64)
        recent = np.concatenate([mark, ways.recent[free, : self.memory - 1]], axis=1)
        before = np.full(len(free), row, dtype=np.int64)
        return _Ways(fabric, tails, recent, ways.stripes[free] + 1, before, free)

    def _best_of(self, ways: _Ways, row: int) -> _Ways:
        """The different ways, and of those the nearest to the rests aimed at where not all are kept."""
        if self.exact:
            ways = ways.take(self._different(ways))
            if len(ways.stripes) > MOST_EXACT:
                raise TooMany
            return ways
        along = self.grams.sums[row] / self.grams.sums[-1]
        off = ((ways.fabric - self.aim * along) ** 2).sum(axis=1)
        over = np.maximum(0.0, ways.fabric + ways.tails - self.grams.room).sum(axis=1)  # never made good again
        near = np.lexsort((np.round(off, 6), np.round(over, 6)))[: 3 * MOST_KEPT]
        ways = ways.take(near)
        return ways.take(self._different(ways)[:MOST_KEPT])

    def _different(self, ways: _Ways) -> Whole:
        """One of each: the same grams and the same last yarns come to the same; of those the fewest stripes."""
        key = np.round(np.concatenate([ways.fabric, ways.tails, ways.recent], axis=1) / 1e-7).astype(np.int64)
        order = np.lexsort((ways.stripes, *key.T[::-1]))
        new = np.ones(len(order), dtype=bool)
        new[1:] = (key[order][1:] != key[order][:-1]).any(axis=1)
        return np.sort(order[new])

    def _final_order(self, ways: _Ways) -> Whole:
        near = [np.round(one / _TINY) for one in self.grams.figures(ways.fabric, ways.tails)]
        return np.lexsort((ways.stripes, near[2], near[1], near[0]))

    def _way_to(self, row: int, index: int) -> tuple[int, ...]:
        colours: list[int] = []
        while row:
            ways = self.kept[row]
            assert ways is not None
            before = int(ways.before[index])
            colours += [int(ways.recent[index, 0])] * (row - before)
            row, index = before, int(ways.parent[index])
        return tuple(colours[::-1])
