"""The search, row by row, in floats.

In: a ``Task``. Out: the best ways to work all rows, the best first. A small task is searched whole; of a large one
those ways are kept that stay nearest to the grams aimed at. Figures are grams in floats; yarns are indexes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.records import fields, mutable
from turnchain.yarns.stash.task import Task, ahead, aims, stripes_in, used

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]

#: Every way is kept as long as there are no more than so many at a row ...
MOST_EXACT = 30_000
#: ... and as long as so many grams (ways times yarns) are enough before alike ways are left out: 16 MB.
MOST_GRAMS = 2_000_000
#: How many ways ``Search.run`` returns at most.
MOST_SUMMED = 12
_TINY = 1e-9  # g: floats nearer than this are one


class Weighed:
    """The grams of a task as arrays of floats: the ``room`` and the ``tail`` of every yarn, shape (yarns,); ``sums``,
    shape (rows + 1,): what the rows before each weigh together."""

    def __init__(self, task: Task) -> None:
        self.room = np.array([float(grams) for grams in task.room])
        self.tail = np.array([float(grams) for grams in task.tail])
        self.sums = np.concatenate([[0.0], np.cumsum([float(grams) for grams in task.row_grams])])
        self._use_up = list(task.wishes.use_up)

    def figures(self, fabric: Floats, tails: Floats) -> tuple[Floats, Floats, Floats]:
        """The grams short, those left of the yarns to be used up and the largest rest, for one way or for many: the
        grams of ``fabric`` and ``tails`` come with the yarns along the last axis, shape (..., yarns), and each figure
        has the shape (...)."""
        short = np.maximum(0.0, fabric + tails - self.room).sum(axis=-1)
        rests = np.maximum(0.0, self.room - fabric)
        return short, rests[..., self._use_up].sum(axis=-1), rests.max(axis=-1)


@mutable
class _Ways:
    """Ways to reach one row, side by side.

    Grams of ``fabric`` and of ``tails``, shape (ways, yarns); the yarns of the last stripes (``recent``, the last
    first, -1: none), shape (ways, ``Search.memory``); how many ``stripes`` and how many rows that ``meet`` their own
    yarn against the wish, shape (ways,); and the ``colours`` of all rows (-1: not worked yet), shape (ways, rows).
    """

    fabric: Floats
    tails: Floats
    recent: Whole
    stripes: Whole
    meet: Whole
    colours: NDArray[np.int8]

    def take(self, index: Whole) -> _Ways:
        """Only the ways at ``index``."""
        return _Ways(*(getattr(self, name)[index] for name in fields(self)))

    @staticmethod
    def joined(parts: Sequence[_Ways]) -> _Ways:
        """All ways of all ``parts``, in order."""
        return _Ways(*(np.concatenate([getattr(part, name) for part in parts]) for name in fields(_Ways)))


class TooMany(Exception):
    """There are more ways than can all be kept: search with a width."""


class Search:
    """Takes the rows in turn and keeps at each the ``width`` most promising ways, or every different one where it is
    None; ``run`` then raises TooMany where those are more than ``MOST_EXACT`` or take more than ``MOST_GRAMS``."""

    def __init__(self, task: Task, width: int | None) -> None:
        self.task, self.width = task, width
        self.rows, self.yarns = len(task.row_grams), len(task.yarns)
        self.apart = min(task.wishes.apart, self.yarns - 1)
        self.memory = max(1, self.apart)
        self.grams = Weighed(task)
        done = len(task.worked)
        self.taken = np.array([float(grams) for grams in used(task, task.worked)[0]])
        self.aim = np.array(aims(ahead(task)))
        along = self.grams.sums - self.grams.sums[done]
        self.along = along / (along[-1] or 1.0)
        self.partners: list[list[int]] = [[] for _ in range(self.rows)]
        for low, high in task.wishes.differ:
            self.partners[high].append(low)
        self.barred: list[list[int]] = [[] for _ in range(self.rows)]
        for row, index in task.wishes.barred:
            self.barred[row].append(index)

    def run(self) -> list[tuple[int, ...]]:
        """The best ways to the end, at most ``MOST_SUMMED``, the best by their figures in floats first: each as the
        index of the yarn of every row."""
        arrived: list[list[_Ways]] = [[] for _ in range(self.rows + 1)]
        for stop, ways in self._begun():
            arrived[stop].append(ways)
        for row in range(self.rows):
            if arrived[row]:
                ways = self._best_of(_Ways.joined(arrived[row]), row)
                for stop in self._stops(row):
                    arrived[stop].append(self._onwards(ways, row, stop))
                    self._count(arrived[stop])
                arrived[row] = []
        last = _Ways.joined(arrived[self.rows])
        last = last.take(self._final_order(last)[:MOST_SUMMED])
        return [tuple(int(index) for index in colours) for colours in last.colours]

    # ------------------------------------------------------------------------------------------------- the beginning

    def _begun(self) -> Iterator[tuple[int, _Ways]]:
        """The one way to the rows worked, and how their last stripe can go on, by where it ends."""
        worked = self.task.worked
        if not worked:
            yield 0, self._way((), 0)
            return
        start = len(worked) - stripes_in(worked)[-1][1]
        heights = [stop - start for stop in self._stops(start)]
        stops = [start + height for height in heights if start + height >= len(worked)] or [len(worked)]
        for stop in stops:
            yield stop, self._way((*worked, *[worked[-1]] * (stop - len(worked))), len(worked))

    def _way(self, colours: tuple[int, ...], worked: int) -> _Ways:
        """The way whose first rows are in ``colours``; only seams past the rows ``worked`` can still be wished for."""
        fabric, tails = (np.array([[float(one) for one in grams]]) for grams in used(self.task, colours))
        stripes = stripes_in(colours)
        recent = [index for index, _ in stripes[::-1]][: self.memory]
        recent += [-1] * (self.memory - len(recent))
        meet = sum(self._meets(colours, row) for row in range(worked, len(colours)))
        known = np.full((1, self.rows), -1, dtype=np.int8)
        known[0, : len(colours)] = colours
        counts = np.array([len(stripes)]), np.array([meet])
        return _Ways(fabric, tails, np.array([recent]), *counts, known)

    def _meets(self, colours: Sequence[int], row: int) -> int:
        own = sum(colours[low] == colours[row] for low in self.partners[row])
        return own + self.barred[row].count(colours[row])

    # ------------------------------------------------------------------------------------------------- stripe by stripe

    def _stops(self, row: int) -> list[int]:
        """Where a stripe from ``row`` on may end."""
        heights = self.task.wishes.heights
        stops = {row + height for height in heights if row + height <= self.rows}
        if self.rows - row < max(heights):
            stops.add(self.rows)  # the last stripe is cut where the rows end
        return sorted(stops)

    def _onwards(self, ways: _Ways, row: int, stop: int) -> _Ways:
        """Every way with one stripe more, from ``row`` to ``stop``; of many the most promising."""
        free = ~(ways.recent[:, : self.apart, None] == np.arange(self.yarns)).any(axis=1)
        meet = self._meeting(ways, row, stop)
        if self.width is None:
            return self._with(ways, np.flatnonzero(free), meet, row, stop)
        over, off = self._weighed(ways, row, stop)
        places = np.flatnonzero(free)
        keys = [one.ravel()[places] for one in (off, meet, over)]
        return self._with(ways, places[np.lexsort(keys)[: 2 * self.width]], meet, row, stop)

    def _weighed(self, ways: _Ways, row: int, stop: int) -> tuple[Floats, Floats]:
        """For every way and yarn of the next stripe: the grams beyond the stock, and how far from the aim."""
        grams = self.grams.sums[stop] - self.grams.sums[row]
        cut = self.task.ends(row, stop) * self.grams.tail
        room = ways.fabric + ways.tails - self.grams.room
        over, more = np.maximum(0.0, room), np.maximum(0.0, room + grams + cut)
        behind = ways.fabric - self.taken - self.aim * self.along[stop]
        off = (behind**2).sum(axis=1, keepdims=True) + grams * (2 * behind + grams)
        return np.round(over.sum(axis=1, keepdims=True) + more - over, 6), np.round(off, 6)

    def _meeting(self, ways: _Ways, row: int, stop: int) -> Whole:
        """For every way and yarn, how many rows of a stripe from ``row`` to ``stop`` would meet their own yarn."""
        meet = np.zeros((len(ways.stripes), self.yarns), dtype=np.int64)
        every = np.arange(len(meet))
        for high in range(row, stop):
            for low in self.partners[high]:
                if low < row:
                    meet[every, ways.colours[:, low]] += 1
                else:
                    meet += 1
            for index in self.barred[high]:
                meet[:, index] += 1
        return meet

    def _with(self, ways: _Ways, places: Whole, meet: Whole, row: int, stop: int) -> _Ways:
        """The ways and yarns at ``places`` (way times yarns plus yarn) with that stripe worked."""
        parents, index = np.divmod(places, self.yarns)
        new = ways.take(parents)
        every = np.arange(len(places))
        new.fabric[every, index] += self.grams.sums[stop] - self.grams.sums[row]
        new.tails[every, index] += self.task.ends(row, stop) * self.grams.tail[index]
        new.recent = np.concatenate([index[:, None], new.recent[:, : self.memory - 1]], axis=1)
        new.stripes = new.stripes + 1
        new.meet = new.meet + meet.ravel()[places]
        new.colours[:, row:stop] = index[:, None]
        return new

    def _count(self, arrived: list[_Ways]) -> None:
        if self.width is None and sum(len(ways.stripes) for ways in arrived) * self.yarns > MOST_GRAMS:
            raise TooMany

    # -------------------------------------------------------------------------------------------------------- the best

    def _best_of(self, ways: _Ways, row: int) -> _Ways:
        """The different ways, and of those the most promising where not all are kept."""
        if self.width is None:
            ways = ways.take(self._different(ways, row))
            if len(ways.stripes) > MOST_EXACT:
                raise TooMany
            return ways
        behind = ways.fabric - self.taken - self.aim * self.along[row]
        over = np.maximum(0.0, ways.fabric + ways.tails - self.grams.room).sum(axis=1)  # stays so in all later rows
        order = np.lexsort((np.round((behind**2).sum(axis=1), 6), ways.meet, np.round(over, 6)))
        ways = ways.take(order[: 3 * self.width])
        return ways.take(self._different(ways, row)[: self.width])

    def _different(self, ways: _Ways, row: int) -> Whole:
        """One of each: the same grams, the same last yarns and the same yarns in rows whose seam is still ahead come
        to the same; of those the fewest rows that meet, and the fewest stripes."""
        seen = sorted({low for partners in self.partners[row:] for low in partners if low < row})
        grams = np.round(np.concatenate([ways.fabric, ways.tails], axis=1) / 1e-7).astype(np.int64)
        key = np.concatenate([grams, ways.recent, ways.colours[:, seen].astype(np.int64)], axis=1)
        order = np.lexsort((ways.stripes, ways.meet, *key.T[::-1]))
        new = np.ones(len(order), dtype=bool)
        new[1:] = (key[order][1:] != key[order][:-1]).any(axis=1)
        return np.sort(order[new])

    def _final_order(self, ways: _Ways) -> Whole:
        short, wanted, largest = (np.round(one / _TINY) for one in self.grams.figures(ways.fabric, ways.tails))
        return np.lexsort((ways.stripes, largest, wanted, ways.meet, short))
