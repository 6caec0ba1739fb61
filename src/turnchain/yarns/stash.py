"""Stripes from the stash: which yarn works which stripe, so that what is in hand suffices.

In: a ``Plan`` whose rows are counted, its stock and its wishes. Out: stripes for all pieces, what they leave, and
beside them a bound that no plan can beat.

All pieces share one run of stripes from row 1, so that they meet at the seams; a course (the rows of that number
in all pieces, each as often as it is made) weighs the sum of its rows. Answers are compared in this order:

1. the grams short of the stock, all yarns together: none, where it can be done;
2. what is left of the yarns to be used up first;
3. the largest rest of any yarn: the rows weigh the same whatever their order, so what is left is given, and only
   how it is shared can be better or worse. Rests are counted before tails, else cutting more would look thrifty;
4. fewer stripes.

The search goes course by course. In a small piece it keeps every different way (then the answer is ``exact``: no
plan beats it); in a large one those that stay nearest to the rests aimed at, which spreads every yarn over the
whole height, and then tries to better the best of them stripe by stripe. numpy counts in floats; the answer is then
summed again in fractions, so that it never overspends. The same input always gives the same answer. The yarn is
reckoned as if it were cut after every stripe; carrying it leaves a little more.

A search of our own and no solver of the registry: the best of them for this (milp of a general library) takes a
start of a third of a second and 100 MB installed, and the rule that a yarn comes back after so many others makes
a large blanket's programme some 100,000 variables, far beyond two seconds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import groupby, pairwise
from math import ceil
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from turnchain.fabric.plan import Plan
from turnchain.pattern import Stripes
from turnchain.yarns import figures as yarn
from turnchain.yarns.carrying import threads
from turnchain.yarns.stripes import heights, stripes_of, written

Grams: TypeAlias = tuple[Fraction, ...]  # one for every yarn
Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]

#: How many ways are kept at a course: with fewer the rests come out less even, with more it takes longer.
MOST_KEPT = 120
#: Up to this many courses every way is kept, as long as there are no more than so many at a course.
EXACT_COURSES = 24
MOST_EXACT = 30_000
#: How many of the last ways are summed exactly, and how many changes are tried to better the best.
MOST_SUMMED = 12
MOST_TRIED = 3000
_TINY = 1e-9  # g: floats nearer than this are one


@dataclass(frozen=True, slots=True)
class Thread:
    """A stretch worked without joining anew: courses ``first`` to ``last`` (from 0), made ``count`` times."""

    first: int
    last: int
    count: int


@dataclass(frozen=True, slots=True)
class Wishes:
    """The ``heights`` a stripe may have (the last may be cut), how many others stand ``apart`` two stripes of one
    yarn, and the yarns to ``use_up`` first, by their index."""

    heights: tuple[int, ...]
    apart: int = 1
    use_up: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be shared out: ``room`` grams of each of ``yarns`` (stock less margin and what is kept), the
    weight of every course, the ``tail`` grams at each end of a yarn, and the threads that make the ends."""

    yarns: tuple[str, ...]
    room: Grams
    courses: Grams
    tail: Grams
    threads: tuple[Thread, ...]
    wishes: Wishes

    @property
    def weight(self) -> Fraction:
        """All courses together, in grams."""
        return sum(self.courses, Fraction(0))

    def ends(self, start: int, stop: int) -> int:
        """The ends that a stripe over courses ``start`` to ``stop`` - 1 makes where it is cut on both sides."""
        return sum(2 * one.count for one in self.threads if one.first < stop and one.last >= start)

    def shortened(self, rows: int) -> Task:
        """The same with the first ``rows`` courses only."""
        kept = tuple(replace(one, last=min(one.last, rows - 1)) for one in self.threads if one.first < rows)
        return replace(self, courses=self.courses[:rows], threads=kept)


@dataclass(frozen=True, slots=True)
class Answer:
    """A way to share the courses out: ``colours`` by the index of the yarn, one for every course.

    ``fabric`` and ``tails`` grams go into each yarn. ``least_short`` and ``least_rest`` are bounds: no plan within
    the wishes is short of fewer grams together, or has a smaller largest rest. ``exact``: this plan itself cannot
    be beaten.
    """

    task: Task
    colours: tuple[int, ...]
    fabric: Grams
    tails: Grams
    least_short: Fraction
    least_rest: Fraction
    exact: bool

    @property
    def short(self) -> Grams:
        """How many grams each yarn falls short, tails and margin included (in grams before the margin)."""
        used = zip(self.task.room, self.fabric, self.tails, strict=True)
        return tuple(max(Fraction(0), fabric + tails - room) for room, fabric, tails in used)

    @property
    def rests(self) -> Grams:
        """What is left of each yarn after its margin, tails not yet cut off; below 0 where it falls short."""
        return tuple(room - fabric for room, fabric in zip(self.task.room, self.fabric, strict=True))

    @property
    def possible(self) -> bool:
        """Whether the stock suffices."""
        return not any(self.short)

    @property
    def stripes(self) -> tuple[tuple[int, int], ...]:
        """Every stripe: its yarn's index and how many courses it has."""
        return tuple((index, len(list(run))) for index, run in groupby(self.colours))

    @property
    def score(self) -> tuple[Fraction, Fraction, Fraction, int]:
        """What answers are compared by; the smaller the better."""
        wanted = sum((max(Fraction(0), self.rests[i]) for i in self.task.wishes.use_up), Fraction(0))
        largest = max(Fraction(0), *self.rests)
        return sum(self.short, Fraction(0)), wanted, largest, len(self.stripes)


# ------------------------------------------------------------------------------------------------------ the search


@lru_cache(maxsize=32)
def solve(task: Task) -> Answer:
    """The best stripes for a task; see the module's words for what is best."""
    least_short, least_rest = shortage_bound(task), rest_bound(task)
    exact = len(task.courses) <= EXACT_COURSES
    try:
        ways = _Search(task, exact).run()
    except _TooMany:
        exact, ways = False, _Search(task, False).run()
    answers = [summed(task, way, least_short, least_rest, exact) for way in ways]
    best = min(answers, key=lambda one: (one.score, one.colours))
    if exact or best.score[:3] == (Fraction(0), Fraction(0), least_rest):
        return best
    bettered = summed(task, _Bettering(task, best.colours).run(), least_short, least_rest)
    return min(best, bettered, key=lambda one: (one.score, one.colours))


def summed(
    task: Task, colours: Sequence[int], least_short: Fraction, least_rest: Fraction, exact: bool = False
) -> Answer:
    """The answer that works the courses in ``colours``, summed exactly."""
    fabric, tails = ([Fraction(0)] * len(task.yarns) for _ in range(2))
    start = 0
    for index, run in groupby(colours):
        stop = start + len(list(run))
        fabric[index] += sum(task.courses[start:stop], Fraction(0))
        tails[index] += task.ends(start, stop) * task.tail[index]
        start = stop
    return Answer(task, tuple(colours), tuple(fabric), tuple(tails), least_short, least_rest, exact)


@dataclass
class _Ways:
    """Ways to reach one course, side by side: grams of ``fabric`` and of ``tails`` by yarn, the yarns of the last
    stripes (``recent``, -1: none), how many ``stripes``; and where each came from: ``parent`` at course
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


class _TooMany(Exception):
    """More ways than can all be kept."""


class _Search:
    """Goes through the courses, keeping every different way if ``exact``, else the most promising."""

    def __init__(self, task: Task, exact: bool) -> None:
        self.task, self.exact = task, exact
        self.yarns = len(task.yarns)
        self.apart = min(task.wishes.apart, self.yarns - 1)
        self.memory = max(1, self.apart)
        self.room = np.array([float(grams) for grams in task.room])
        self.tail = np.array([float(grams) for grams in task.tail])
        self.sums = np.concatenate([[0.0], np.cumsum([float(grams) for grams in task.courses])])
        self.aim = np.array(aims(task))
        self.kept: list[_Ways | None] = [None] * (len(task.courses) + 1)

    def run(self) -> list[tuple[int, ...]]:
        """The best ways to the end, the likeliest first, as the yarn of every course."""
        rows = len(self.task.courses)
        arrived: list[list[_Ways]] = [[] for _ in range(rows + 1)]
        arrived[0].append(self._start())
        for course in range(rows):
            if arrived[course]:
                ways = self._best_of(_Ways.joined(arrived[course]), course)
                self.kept[course] = ways
                for stop, more in self._onwards(ways, course):
                    arrived[stop].append(more)
                arrived[course] = []
        last = _Ways.joined(arrived[rows])
        self.kept[rows] = last = last.take(self._final_order(last)[:MOST_SUMMED])
        return [self._way_to(rows, index) for index in range(len(last.stripes))]

    def _start(self) -> _Ways:
        none = np.zeros((1, self.yarns))
        nowhere = np.full((1, self.memory), -1, dtype=np.int64)
        zero = np.zeros(1, dtype=np.int64)
        return _Ways(none, none, nowhere, zero, zero, zero)

    def _onwards(self, ways: _Ways, course: int) -> Iterator[tuple[int, _Ways]]:
        """Every way with one stripe more, by where the stripe ends."""
        rows, wishes = len(self.task.courses), self.task.wishes
        stops = {course + height for height in wishes.heights if course + height <= rows}
        if rows - course < max(wishes.heights):
            stops.add(rows)  # the last stripe is cut where the rows end
        for stop in sorted(stops):
            grams, ends = self.sums[stop] - self.sums[course], self.task.ends(course, stop)
            for colour in range(self.yarns):
                free = np.flatnonzero(~(ways.recent[:, : self.apart] == colour).any(axis=1))
                if len(free):
                    yield stop, self._with(ways, free, colour, course, (grams, ends))

    def _with(self, ways: _Ways, free: Whole, colour: int, course: int, adds: tuple[Any, int]) -> _Ways:
        grams, ends = adds
        fabric, tails = ways.fabric[free], ways.tails[free]
        fabric[:, colour] += grams
        tails[:, colour] += ends * self.tail[colour]
        mark = np.full((len(free), 1), colour, dtype=np.int64)
        recent = np.concatenate([mark, ways.recent[free, : self.memory - 1]], axis=1)
        before = np.full(len(free), course, dtype=np.int64)
        return _Ways(fabric, tails, recent, ways.stripes[free] + 1, before, free)

    def _best_of(self, ways: _Ways, course: int) -> _Ways:
        """The different ways, and of those the nearest to the rests aimed at where not all are kept."""
        if self.exact:
            ways = ways.take(self._different(ways))
            if len(ways.stripes) > MOST_EXACT:
                raise _TooMany
            return ways
        along = self.sums[course] / self.sums[-1]
        off = ((ways.fabric - self.aim * along) ** 2).sum(axis=1)
        over = np.maximum(0.0, ways.fabric + ways.tails - self.room).sum(axis=1)  # never made good again
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
        short = np.maximum(0.0, ways.fabric + ways.tails - self.room).sum(axis=1)
        rests = np.maximum(0.0, self.room - ways.fabric)
        wanted = rests[:, list(self.task.wishes.use_up)].sum(axis=1)
        near = [np.round(one / _TINY) for one in (short, wanted, rests.max(axis=1))]
        return np.lexsort((ways.stripes, near[2], near[1], near[0]))

    def _way_to(self, course: int, index: int) -> tuple[int, ...]:
        colours: list[int] = []
        while course:
            ways = self.kept[course]
            assert ways is not None
            before = int(ways.before[index])
            colours += [int(ways.recent[index, 0])] * (course - before)
            course, index = before, int(ways.parent[index])
        return tuple(colours[::-1])


class _Bettering:
    """Betters a way by small changes, taking each that helps, until none does or enough were tried."""

    def __init__(self, task: Task, colours: Sequence[int]) -> None:
        self.task, self.tried = task, 0
        self.stripes = [(index, len(list(run))) for index, run in groupby(colours)]
        self.room = np.array([float(grams) for grams in task.room])
        self.tail = np.array([float(grams) for grams in task.tail])
        self.sums = np.concatenate([[0.0], np.cumsum([float(grams) for grams in task.courses])])
        self.use_up = list(task.wishes.use_up)

    def run(self) -> tuple[int, ...]:
        """The bettered way, as the yarn of every course."""
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

    def _score(self, stripes: list[tuple[int, int]]) -> tuple[float, ...]:
        """As an answer's, and then the evenness of all rests, which leads on where the largest cannot be bettered
        in one change."""
        self.tried += 1
        colours = np.array([index for index, _ in stripes])
        stops = np.cumsum([height for _, height in stripes])
        starts = np.concatenate([[0], stops[:-1]])
        ends = sum(2 * t.count * ((t.first < stops) & (t.last >= starts)) for t in self.task.threads)
        fabric = np.bincount(colours, self.sums[stops] - self.sums[starts], len(self.room))
        tails = np.bincount(colours, np.asarray(ends, dtype=float), len(self.room)) * self.tail
        rests = self.room - fabric
        kept = np.maximum(0.0, rests)
        short = np.maximum(0.0, tails - rests).sum()
        figures = (short, kept[self.use_up].sum(), kept.max(), (rests**2).sum())
        return tuple(round(float(figure), 7) for figure in figures)

    def _changes(self, stripes: list[tuple[int, int]]) -> Iterator[list[tuple[int, int]]]:
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
            for index in range(len(self.room)):
                if index != old and index not in near:
                    yield [*stripes[:i], (index, height), *stripes[i + 1 :]]

    def _by_rest(self, stripes: list[tuple[int, int]]) -> list[int]:
        """The stripes, those first whose yarn is to be used up or has the most left."""
        colours = np.array([index for index, height in stripes for _ in range(height)])
        rests = self.room - np.bincount(colours, np.diff(self.sums), len(self.room))
        return sorted(range(len(stripes)), key=lambda i: (stripes[i][0] not in self.use_up, -rests[stripes[i][0]], i))

    @property
    def _apart(self) -> int:
        return self.task.wishes.apart

    def _fits(self, place: int, height: int, count: int) -> bool:
        sizes = self.task.wishes.heights
        return height in sizes or (place == count - 1 and 0 < height <= max(sizes))

    @staticmethod
    def _with(stripes: list[tuple[int, int]], adds: dict[int, int]) -> list[tuple[int, int]]:
        return [(index, height + adds.get(i, 0)) for i, (index, height) in enumerate(stripes)]


# --------------------------------------------------------------------------------------------- bounds, and the aim


def most_of(task: Task) -> Grams:
    """The most fabric in grams that each yarn could take within the wishes, whatever its stock.

    A yarn's stripes are at most the highest allowed and stand apart by so many of the lowest, so it has so many
    courses at most; they weigh at most as much as the heaviest ones.
    """
    rows, wishes = len(task.courses), task.wishes
    apart = min(wishes.apart, len(task.yarns) - 1)
    lowest, highest = min(wishes.heights), max(wishes.heights)
    most = max(min(stripes * highest, rows - (stripes - 1) * apart * lowest) for stripes in range(1, rows + 1))
    heaviest = sum(sorted(task.courses, reverse=True)[:most], Fraction(0))
    return (heaviest,) * len(task.yarns)


def shortage_bound(task: Task) -> Fraction:
    """Grams that every plan within the wishes is short of, all yarns together: the fabric and the fewest ends,
    less what the yarns can take of it."""
    fewest = sum((2 * one.count for one in task.threads), 0) * min(task.tail)
    usable = sum((max(Fraction(0), min(pair)) for pair in zip(task.room, most_of(task), strict=True)), Fraction(0))
    # Tails count against the stock too, so a yarn bound by its stock takes no more fabric for them.
    return max(Fraction(0), task.weight + (fewest if _stock_binds(task) else 0) - usable)


def _stock_binds(task: Task) -> bool:
    return all(room <= most for room, most in zip(task.room, most_of(task), strict=True))


def rest_bound(task: Task) -> Fraction:
    """No plan within the wishes has a largest rest below this: what is left is given, and shared as evenly as the
    stock allows it is this much; and a yarn of which the rows cannot take more leaves the rest of it."""
    if len(set(task.courses)) == 1:
        return _even_rest_bound(task)
    left = sum(task.room, Fraction(0)) - task.weight
    floors = [max(Fraction(0), room - most) for room, most in zip(task.room, most_of(task), strict=True)]
    return max(level(task.room, left), *floors, Fraction(0))


def _even_rest_bound(task: Task) -> Fraction:
    """The same where all courses weigh alike, and whole courses can be counted: each in turn goes to the yarn with
    the largest rest."""
    rests = list(task.room)
    for _ in task.courses:
        rests[rests.index(max(rests))] -= task.courses[0]
    floors = (room - most for room, most in zip(task.room, most_of(task), strict=True))
    return max(Fraction(0), *rests, *floors)


def level(room: Grams, left: Fraction) -> Fraction:
    """How high ``left`` grams stand when they are poured evenly into vessels that hold ``room`` each."""
    low = Fraction(0)
    holds = sorted(max(Fraction(0), grams) for grams in room)
    for index, grams in enumerate(holds):
        wide = len(holds) - index
        if left <= (grams - low) * wide:
            return low + max(Fraction(0), left) / wide
        left -= (grams - low) * wide
        low = grams
    return low


def aims(task: Task) -> list[float]:
    """The grams of fabric to aim at for every yarn: all of those to be used up, even rests of the others."""
    weight, most = float(task.weight), [float(grams) for grams in most_of(task)]
    room = [float(grams) for grams in task.room]
    pairs = list(zip(room, most, strict=True))
    first = [min(max(0.0, r), m) if i in task.wishes.use_up else 0.0 for i, (r, m) in enumerate(pairs)]
    scale = min(1.0, weight / sum(first)) if sum(first) else 1.0
    fixed = [grams * scale for grams in first]
    others = [i for i in range(len(room)) if i not in task.wishes.use_up] or list(range(len(room)))
    low, high = -max(weight, *room), max(room)
    for _ in range(100):  # the rest that the others share: the higher, the less they take
        rest = (low + high) / 2
        taken = sum(min(max(0.0, room[i] - rest), most[i]) for i in others)
        low, high = (rest, high) if taken + sum(fixed) > weight else (low, rest)
    return [min(max(0.0, room[i] - low), most[i]) if i in others else fixed[i] for i in range(len(room))]


# ---------------------------------------------------------------------------------------------- from and to the plan


def task_of(plan: Plan, names: Iterable[str]) -> Task:
    """The task of striping the pieces called ``names``, all others being worked from the same stock first."""
    pieces = [piece for piece in plan.pieces if piece.name in set(names)]
    stripes = stripes_of(plan.pattern, written(plan, pieces[0].name)) or Stripes()
    order = tuple(dict.fromkeys(stripes.order))
    dense = yarn.density(plan.pattern)
    courses: list[Fraction] = []
    strands: list[Thread] = []
    for piece in pieces:
        begin = written(plan, piece.name).stripes_begin - 2  # course of row 1, less 1
        courses += [Fraction(0)] * (begin + 1 + piece.row_count - len(courses))
        for row in piece.rows:
            grams = yarn.row_area(piece, row) * (dense.likely or dense.high) * piece.count
            courses[begin + row.number] += grams
        strands += [Thread(begin + t[0].number, begin + t[-1].number, piece.count) for t in threads(piece)]
    others = replace(plan, pieces=tuple(piece for piece in plan.pieces if piece not in pieces))
    use_up = tuple(order.index(name) for name in stripes.use_up if name in order)
    return Task(
        yarns=order,
        room=tuple(_room(plan, others, name) for name in order),
        courses=tuple(courses),
        tail=tuple(yarn.tail_grams(plan.pattern, name) for name in order),
        threads=tuple(strands),
        wishes=Wishes(heights(stripes), stripes.apart, use_up),
    )


def _room(plan: Plan, others: Plan, name: str) -> Fraction:
    """Grams of fabric and tails that the stock of a yarn has room for beside the pieces in ``others``."""
    one = yarn.yarn_named(plan.pattern, name)
    stock = (one.stock or Fraction(0)) - one.keep if one else Fraction(0)
    taken = [need.fabric + need.tails for need in yarn.figures(others).needs if need.yarn == name]
    return stock / (1 + yarn.margin_of(plan.pattern) / 100) - sum(taken, Fraction(0))


def row_colours(plan: Plan, names: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """The yarn of every row of the pieces called ``names``; where the stock cannot suffice, the plan that is short
    of the least."""
    answer = solve(task_of(plan, names))
    colours = [answer.task.yarns[index] for index in answer.colours]
    return {name: tuple(colours[written(plan, name).stripes_begin - 1 :]) for name in names}


def stash_pieces(plan: Plan) -> tuple[str, ...]:
    """The names of the pieces whose stripes come from the stash."""
    found = []
    for piece in plan.pieces:
        stripes = stripes_of(plan.pattern, written(plan, piece.name))
        if stripes and stripes.kind == "stash":
            found.append(piece.name)
    return tuple(found)


def answer_of(plan: Plan) -> Answer | None:
    """The answer that a plan's stash stripes are from; None where it has none."""
    names = stash_pieces(plan)
    return solve(task_of(plan, names)) if names else None


# ------------------------------------------------------------------------------------- where it cannot be done


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
    low, high, best = 0, len(task.courses), None
    while high - low > 1:
        rows = (low + high) // 2
        part = task.shortened(rows)
        if not shortage_bound(part) and (answer := solve(part)).possible:
            low, best = rows, answer
        else:
            high = rows
    return Nearest(f"with {low} of {len(task.courses)} rows", best) if best else None


# -------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan) -> list[str]:
    """What the stash stripes come to, in makers' words; nothing where a plan has none."""
    answer = answer_of(plan)
    if answer is None:
        return []
    told = [f"stripes from the stash: {_stripes_words(answer)}"]
    if answer.possible:
        return [*told, *_rest_lines(answer)]
    return [*told, *_short_lines(plan, answer)]


def _stripes_words(answer: Answer) -> str:
    count = len(answer.stripes)
    parts = [f"{name} {rows} rows" for index, name in enumerate(answer.task.yarns) if (rows := _rows(answer, index))]
    return f"{count} {'stripe' if count == 1 else 'stripes'}; {', '.join(parts)}"


def _rows(answer: Answer, index: int) -> int:
    return sum(one == index for one in answer.colours)


def _rest_lines(answer: Answer) -> Iterator[str]:
    rests = ", ".join(f"{name} {int(rest)} g" for name, rest in zip(answer.task.yarns, answer.rests, strict=True))
    largest = max(answer.rests)
    yield (
        f"left after the margin, before tails: {rests}. The rows weigh the same in any order; the largest rest is "
        f"{float(largest):.1f} g, and no plan can have it under {float(answer.least_rest):.1f} g"
        f"{' (no plan within your wishes is better than this one)' if answer.exact else ''}"
    )
    unused = [name for index, name in enumerate(answer.task.yarns) if not _rows(answer, index)]
    if unused:
        yield f"{', '.join(unused)}: in no stripe of this plan"


def _short_lines(plan: Plan, answer: Answer) -> Iterator[str]:
    task = answer.task
    margin = 1 + yarn.margin_of(plan.pattern) / 100
    for index, (name, short) in enumerate(zip(task.yarns, answer.short, strict=True)):
        if short:
            rows = min(_rows(answer, index), ceil(short / (task.weight / len(task.courses))))
            grams = ceil(short * margin)
            yield f"{name} falls short by {grams} g, margin included, about {rows} {'row' if rows == 1 else 'rows'}"
    if answer.least_short:
        yield f"no plan within your wishes is short of less than {float(answer.least_short * margin):.1f} g in all"
    elif not answer.exact:
        yield "no plan was found that suffices; that there is none is not proved"
    other = nearest(task)
    if other:
        rests = zip(task.yarns, other.answer.rests, strict=True)
        left = ", ".join(f"{name} {int(rest)} g" for name, rest in rests)
        yield f"it can be done {other.words}; left then: {left}"
    else:
        yield "the stock does not reach for a single row"
