"""The best stripes for a task; where the stock is too little, the nearest that can be done.

In: a ``Task``. Out: its ``Answer``, summed in fractions, so that it never overspends. The best way found by the search
is improved by small changes, stripe by stripe.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from turnchain.records import frozen, replace
from turnchain.yarns.stash.search import Floats, Search, TooMany, Weighed, Whole
from turnchain.yarns.stash.task import (
    Answer,
    Stripe,
    Task,
    Wishes,
    meeting_rows,
    rest_bound,
    shortage_bound,
    stripes_in,
    summed,
)

#: Up to this many rows every way is kept, if there are not too many.
EXACT_ROWS = 24
#: How many ways are kept at a row, in one search after the other: with fewer the rests come out less even.
WIDTHS = (12, 120)
#: How many answers are kept for further calls with the same task.
_MOST_KNOWN = 64

Watch: TypeAlias = Callable[[Answer], None]


class StoppedSearch(KeyboardInterrupt):
    """The search was interrupted; ``answer`` is the best so far."""

    def __init__(self, answer: Answer) -> None:
        self.answer = answer
        super().__init__()


_KNOWN: dict[tuple[Task, tuple[int, ...]], Answer] = {}


def solve(task: Task, tell: Watch | None = None, widths: tuple[int, ...] = WIDTHS) -> Answer:
    """The best stripes for a task; the docstring of the package says what is best.

    ``tell`` is called with every answer on the way (see ``improving``), but not for a task that was solved before,
    whose answer is kept. A KeyboardInterrupt becomes a StoppedSearch once there is an answer. ``widths``: how many ways
    are kept at a row, in one search after the other.
    """
    if (task, widths) not in _KNOWN:
        if len(_KNOWN) >= _MOST_KNOWN:
            _KNOWN.clear()
        _KNOWN[task, widths] = _searched(task, tell, widths)
    return _KNOWN[task, widths]


def forget() -> None:
    """Empties the cache of answers, so that every task is searched anew."""
    _KNOWN.clear()


def _searched(task: Task, tell: Watch | None, widths: tuple[int, ...]) -> Answer:
    best = None
    try:
        for best in improving(task, widths):
            if tell is not None:
                tell(best)
    except KeyboardInterrupt:
        if best is None:
            raise
        raise StoppedSearch(best) from None
    assert best is not None
    return best


def improving(task: Task, widths: tuple[int, ...] = WIDTHS) -> Iterator[Answer]:
    """One answer after the other, each at least as good as the one before; the last is the best that is found. At least
    one; of a task of at most ``EXACT_ROWS`` rows just one, which is exact, where all its ways can be kept."""
    bounds = shortage_bound(task), rest_bound(task)
    if len(task.row_grams) <= EXACT_ROWS:
        try:
            yield _best([summed(task, way, *bounds, True) for way in Search(task, None).run()])
            return
        except TooMany:
            pass
    best = None
    for width in widths:
        found = [summed(task, way, *bounds) for way in Search(task, width).run()]
        best = _best(found if best is None else [best, *found])
        yield best
        if best.at_the_bound:
            return
    assert best is not None
    for way in Improvement(task, best.colours).run():
        better = _best([best, summed(task, way, *bounds)])
        if better is not best:
            best = better
            yield best


def _best(answers: Sequence[Answer]) -> Answer:
    return min(answers, key=lambda one: (one.score, one.colours))


# --------------------------------------------------------------------------------------------------- improvement

#: How many grams (changes times yarns) are compared at most, and how far apart two stripes that change may be.
MOST_WEIGHED = 30_000_000
_REACH = 48
#: How many of the most promising changes are computed in full, each time.
_LOOKED_AT = 40
Score: TypeAlias = tuple[float, ...]


class Improvement:
    """Improves a way by small changes, the best of all each time, until none helps or ``MOST_WEIGHED`` is reached.

    A change gives a stripe another yarn, exchanges the yarns of two stripes, or moves a row or two from one stripe to
    another. Stripes that are worked stay; the last of them may only grow.
    """

    def __init__(self, task: Task, colours: Sequence[int]) -> None:
        self.task, self.weighed = task, 0
        self.stripes = stripes_in(colours)
        self.grams = Weighed(task)
        self.fixed = len(stripes_in(task.worked))  # stripes that keep their yarn
        sizes = task.wishes.heights
        self.step = min((b - a for a, b in pairwise(sizes)), default=0)
        self.apart = min(task.wishes.apart, len(task.yarns) - 1)

    def run(self) -> Iterator[tuple[int, ...]]:
        """Ever better ways, each as the index of the yarn of every row; none where the first cannot be improved."""
        best = self._score(self.stripes)
        while self.weighed < MOST_WEIGHED:
            better = next(((one, score) for one in self._changes() if (score := self._score(one)) < best), None)
            if better is None:
                return
            self.stripes, best = better
            yield tuple(index for index, height in self.stripes for _ in range(height))

    def _score(self, stripes: list[Stripe]) -> Score:
        """As an answer's, and then the evenness of all rests, which decides where the largest cannot be made smaller
        in one change."""
        colours, starts, stops = _arrays(stripes)
        fabric, tails = self._sums(colours, starts, stops)
        rows = [index for index, height in stripes for _ in range(height)]
        meet = meeting_rows(self.task.wishes, rows)
        short, wanted, largest = (round(float(figure), 7) for figure in self.grams.figures(fabric, tails))
        return short, meet, wanted, largest, round(float(((self.grams.room - fabric) ** 2).sum()), 7)

    def _ends(self, starts: Whole, stops: Whole) -> Floats:
        found = sum(2.0 * one.count * ((one.first < stops) & (one.last >= starts)) for one in self.task.threads)
        return np.zeros(len(starts)) + found

    def _sums(self, colours: Whole, starts: Whole, stops: Whole) -> tuple[Floats, Floats]:
        yarns = len(self.grams.room)
        weights = self.grams.sums[stops] - self.grams.sums[starts]
        fabric = np.asarray(np.bincount(colours, weights, yarns), dtype=np.float64)
        return fabric, np.bincount(colours, self._ends(starts, stops), yarns) * self.grams.tail

    def _changes(self) -> Iterator[list[Stripe]]:
        """The most promising changes, each as all stripes with it."""
        arrays = _arrays(self.stripes)
        makers = [self._other_yarns(*arrays), self._exchanged(*arrays), self._moved(*arrays)]
        kinds = np.concatenate([np.full(len(first), kind) for kind, (first, *_) in enumerate(makers)])
        first, second, fabric, tails = (np.concatenate([one[k] for one in makers]) for k in range(4))
        self.weighed += max(fabric.size, 1)
        figures = [np.round(one, 7) for one in self.grams.figures(fabric, tails)]
        even = ((self.grams.room - fabric) ** 2).sum(axis=1)
        order = np.lexsort((np.round(even, 7), figures[2], figures[1], figures[0]))
        for place in order[:_LOOKED_AT]:
            yield self._changed(int(kinds[place]), int(first[place]), int(second[place]))

    def _changed(self, kind: int, first: int, second: int) -> list[Stripe]:
        stripes = list(self.stripes)
        (one, height), other = stripes[first], stripes[second] if kind else (second, 0)
        if kind == 0:
            stripes[first] = (second, height)
        elif kind == 1:
            stripes[first], stripes[second] = (other[0], height), (one, other[1])
        else:
            stripes[first], stripes[second] = (one, height + self.step), (other[0], other[1] - self.step)
        return stripes

    def _near(self, colours: Whole) -> NDArrayBool:
        """For every stripe and yarn, whether one of the stripes around it has that yarn."""
        near = np.zeros((len(colours), len(self.grams.room)), dtype=bool)
        for off in range(1, self.apart + 1):
            near[np.arange(off, len(colours)), colours[:-off]] = True
            near[np.arange(len(colours) - off), colours[off:]] = True
        return near

    def _other_yarns(self, colours: Whole, starts: Whole, stops: Whole) -> _Found:
        """Single stripes in another yarn."""
        free = ~self._near(colours)
        free[np.arange(len(colours)), colours] = False
        free[: self.fixed] = False
        first, yarn = np.nonzero(free)
        gives = self._taking(colours, starts, stops, first, -1, colours[first])
        takes = self._taking(colours, starts, stops, first, 1, yarn)
        return first, yarn, *self._with(colours, starts, stops, gives, takes)

    def _exchanged(self, colours: Whole, starts: Whole, stops: Whole) -> _Found:
        """Two stripes that exchange their yarns."""
        first, second = self._pairs(len(colours))
        near = self._near(colours)
        fit = (second > first + self.apart) & (first >= self.fixed) & (colours[first] != colours[second])
        fit &= ~near[first, colours[second]] & ~near[second, colours[first]]
        first, second = first[fit], second[fit]
        changes = [
            self._taking(colours, starts, stops, stripe, sign, colours[yarn])
            for stripe, other in ((first, second), (second, first))
            for sign, yarn in ((-1, stripe), (1, other))
        ]
        return first, second, *self._with(colours, starts, stops, *changes)

    def _moved(self, colours: Whole, starts: Whole, stops: Whole) -> _Found:
        """A step of rows from the second stripe to the first; the stripes between them are weighed as they stand."""
        first, second = self._pairs(len(colours))
        heights, last = stops - starts, len(colours) - 1
        sizes = np.isin(np.arange(heights.max() + self.step + 1), self.task.wishes.heights)
        grown, shrunk = heights[first] + self.step, heights[second] - self.step
        fit = (colours[first] != colours[second]) & (first >= self.fixed - 1) & (second >= self.fixed)
        fit &= sizes[grown] | ((first == last) & (grown <= max(self.task.wishes.heights)))
        fit &= (shrunk > 0) & (sizes[np.maximum(shrunk, 0)] | (second == last))
        fit &= self.step > 0
        first, second = first[fit], second[fit]
        rows = self.grams.sums[1:] - self.grams.sums[:-1]
        none = np.zeros(len(first))
        grams = rows[stops[second] - 1] * self.step, rows[starts[second]] * self.step
        given = np.where(second > first, grams[1], grams[0])
        taken = np.where(second > first, rows[np.minimum(stops[first], len(rows) - 1)] * self.step, given)
        changes = (colours[first], taken, none), (colours[second], -given, none)
        return first, second, *self._with(colours, starts, stops, *changes)

    def _pairs(self, count: int) -> tuple[Whole, Whole]:
        """All pairs of different stripes that are not too far apart."""
        offs = np.concatenate([np.arange(-_REACH, 0), np.arange(1, _REACH + 1)])
        first = np.repeat(np.arange(count), len(offs))
        second = first + np.tile(offs, count)
        within = (second >= 0) & (second < count)
        return first[within], second[within]

    def _taking(
        self, colours: Whole, starts: Whole, stops: Whole, stripe: Whole, sign: int, yarn: Whole
    ) -> tuple[Whole, Floats, Floats]:
        """What ``yarn`` takes more (``sign`` 1) or less (-1) of fabric and tails where it works ``stripe``."""
        weights, ends = self.grams.sums[stops] - self.grams.sums[starts], self._ends(starts, stops)
        return yarn, sign * weights[stripe], sign * ends[stripe] * self.grams.tail[yarn]

    def _with(
        self, colours: Whole, starts: Whole, stops: Whole, *changes: tuple[Whole, Floats, Floats]
    ) -> tuple[Floats, Floats]:
        """The grams of fabric and tails of every yarn after ``changes``, a line for each."""
        fabric, tails = self._sums(colours, starts, stops)
        count = len(changes[0][0])
        fabrics, cut = np.tile(fabric, (count, 1)), np.tile(tails, (count, 1))
        every = np.arange(count)
        for yarn, grams, ends in changes:
            fabrics[every, yarn] += grams
            cut[every, yarn] += ends
        return fabrics, cut


_Found: TypeAlias = "tuple[Whole, Whole, Floats, Floats]"
NDArrayBool: TypeAlias = "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]"


def _arrays(stripes: list[Stripe]) -> tuple[Whole, Whole, Whole]:
    """The yarns of stripes, and the rows where each starts and stops."""
    colours = np.array([index for index, _ in stripes])
    stops = np.cumsum([height for _, height in stripes])
    return colours, np.concatenate([[0], stops[:-1]]), stops


# ---------------------------------------------------------------------------------------------------- too little


@frozen
class Nearest:
    """The nearest plan that can be made: ``words`` in English for what is changed in the wishes or the rows ("with
    apart = 1"), and its answer."""

    words: str
    answer: Answer


def nearest(task: Task) -> Nearest | None:
    """The nearest plan that the stock suffices for: a wish less, else all wishes loosened, else fewer rows; None
    where the stock is not found to suffice for a single row more than are worked."""
    for words, wishes in _loosened(task.wishes):
        changed = replace(task, wishes=wishes)
        if not shortage_bound(changed) and (answer := solve(changed, None, WIDTHS[:1])).possible:
            return Nearest(words, answer)
    return _shorter(task)


def _loosened(wishes: Wishes) -> Iterator[tuple[str, Wishes]]:
    lowest, highest = min(wishes.heights), max(wishes.heights)
    every = tuple(range(lowest, highest + 1))
    if wishes.heights != every:
        yield "with stripes of odd heights too", replace(wishes, heights=every)
    if wishes.apart > 1:
        yield f"with apart = {wishes.apart - 1}", replace(wishes, apart=wishes.apart - 1)
    wide = tuple(range(1, 2 * highest + 1))
    yield f"with stripes of 1 to {2 * highest} rows", replace(wishes, heights=wide)
    yield f"with stripes of 1 to {2 * highest} rows and apart = 1", replace(wishes, heights=wide, apart=1)


def _shorter(task: Task) -> Nearest | None:
    """The most rows that can be worked within the wishes, by halving; told without those that no piece has."""
    low, high, best = len(task.worked), len(task.row_grams), None
    while high - low > 1:
        rows = (low + high) // 2
        part = task.shortened(rows)
        if not shortage_bound(part) and (answer := solve(part, None, WIDTHS[:1])).possible:
            low, best = rows, answer
        else:
            high = rows
    worked, all_of = (sum(grams > 0 for grams in rows) for rows in (task.row_grams[:low], task.row_grams))
    return Nearest(f"with {worked} of {all_of} rows", best) if best else None
