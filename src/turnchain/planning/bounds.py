"""Where the best path of an edge can run that cannot follow its curve.

In: an ``EdgeTask`` and what its path may cost. Out: for every row the lowest and the highest reach worth searching.

Two bounds, the first of which is quick and narrows the second. All costs here are in squared half pitches.

``NearestLine`` lets an edge stand anywhere, step inwards in every row, and outwards in every row that starts at it; in
other rows it goes out by half a pitch at the most. What is nearest to the curve then is found row by row (by pooling:
rows that go out too far share their mean), and it is a projection on a convex set: so every true path is dearer by at
least the square of its distance from there. Where it cannot be so near that a row does without a step, the step's
price is added.

``PathBounds`` goes over the lattice itself with all its prices, a whole row at a time, and knows what the best path
costs. Of the last direction it keeps only whether a row of a folded edge is straight, since a corner comes after such
a row; on all else of it no more than equal costs depend.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise
from math import ceil, floor, inf, sqrt
from operator import add
from typing import TypeAlias

from turnchain.planning.moves import COST, MICRO, STEP_COST, EdgeTask, Leans

#: The lowest and the highest reach of a row.
Range: TypeAlias = tuple[int, int]

SLACK = 1 + 1e-9  # far more than what is lost in rounding
PLACES_AS_ONE = 16  # so many places take as long here as one of the search


class NearestLine:
    """The edge nearest to the curve of a ``task`` that may stand anywhere: ``places`` in half pitches row by row, None
    where it tells nothing, and what it costs (``least``)."""

    def __init__(self, task: EdgeTask) -> None:
        self.task = task
        self.places: list[float | None] = []
        for first, last in _runs(task):
            self.places += _pooled(task, first, last)
        pairs = pairwise(self.places)
        self.jumps = [abs(above - below) for below, above in pairs if above is not None and below is not None]
        known = zip(self.places, task.wanted, strict=True)
        self.least = task.copies * sum((at - mark / MICRO) ** 2 for at, mark in known if at is not None)

    def ranges(self, most: float, limits: Sequence[Range]) -> list[Range]:
        """Where paths of a cost up to ``most`` can run, within the ``limits`` of every row."""
        apart = self._apart(most)
        return [_narrowed(self._near(row, apart), pair) for row, pair in enumerate(limits, start=1)]

    def about(self, margin: int, limits: Sequence[Range]) -> list[Range]:
        """The reaches within a ``margin`` of the nearest edge."""
        return [_narrowed(self._near(row, margin), pair) for row, pair in enumerate(limits, start=1)]

    def _near(self, row: int, apart: float) -> tuple[float, float]:
        low, high = -inf, inf
        mirror = self.task.rows - row + 1
        beside = [(row, 0)] if not self.task.folded or mirror == row else [(row, 0), (mirror, 1)]
        for one, lean in beside:  # the mirror shows the row below it where the line leans
            at = self.places[one - 1]
            if at is not None:
                low, high = max(low, at - apart - lean), min(high, at + apart + lean)
        return low, high

    def _apart(self, most: float) -> float:
        """How far a path of a cost up to ``most`` can be from the nearest edge, all rows together."""
        price, sure = self.task.copies * STEP_COST, 0
        while True:
            apart = sqrt(max(0.0, most * SLACK - self.least - price * sure) / self.task.copies)
            certain = sum(jump > sqrt(2) * apart + 1 for jump in self.jumps)
            if certain <= sure:
                return apart + 1e-3
            sure = certain


def _narrowed(near: tuple[float, float], limits: Range) -> Range:
    """What lies both ``near`` and within the ``limits``; one place of these at least."""
    lowest, highest = limits
    low = lowest if near[0] == -inf else min(max(ceil(near[0]), lowest), highest)
    high = highest if near[1] == inf else max(min(floor(near[1]), highest), low)
    return low, high


def _runs(task: EdgeTask) -> Iterator[Range]:
    """The first and last rows that hang together: each but the first can go out by half a pitch at the most."""
    first = 1
    for row in range(2, task.rows + 1):
        if task.starts(row) or row in task.worked or row - 1 in task.worked:
            yield first, row - 1
            first = row
    yield first, task.rows


def _pooled(task: EdgeTask, first: int, last: int) -> list[float | None]:
    """Where the rows of a run are nearest to the curve. A row that is worked, or may be of two minds, tells nothing."""
    pools: list[tuple[float, int]] = []  # means, each less than the one before it, and how many rows share it
    telling = [row for row in range(first, last + 1) if row not in task.worked and row not in task.late]
    for row in telling:
        mean, count = task.wanted[row - 1] / MICRO - row, 1
        while pools and pools[-1][0] <= mean:
            before, share = pools.pop()
            mean, count = (before * share + mean * count) / (share + count), share + count
        pools.append((mean, count))
    means = (mean for mean, count in pools for _ in range(count))
    found = dict(zip(telling, means, strict=True))
    return [found[row] + row if row in found else None for row in range(first, last + 1)]


class PlaceCosts:
    """What each reach costs in each row of a ``task``, worked out once for all bounds of its paths."""

    def __init__(self, task: EdgeTask) -> None:
        self.task = task
        self._known: dict[int, tuple[int, list[float]]] = {}  # by row: the lowest reach, and the costs from there up

    def costs(self, row: int, low: int, high: int) -> list[float]:
        """What each reach from ``low`` to ``high`` costs in ``row``; infinite where none may stand."""
        first, known = self._known.get(row, (low, []))
        if low < first or first + len(known) <= high:
            known = [
                *self._worked_out(row, low, first - 1),
                *known,
                *self._worked_out(row, first + len(known), high),
            ]
            first = min(low, first)
            self._known[row] = first, known
        return known[low - first : high - first + 1]

    def _worked_out(self, row: int, low: int, high: int) -> list[float]:
        task, reaches = self.task, range(low, high + 1)
        if row in task.worked:
            return [0.0 if reach == task.worked[row] else inf for reach in reaches]
        wanted, copies = task.wanted[row - 1] / MICRO, task.copies
        costs = [copies * (reach - wanted) ** 2 for reach in reaches]
        if row in task.late:
            late = task.late[row] / MICRO
            costs = [min(cost, copies * (reach - late) ** 2) for reach, cost in zip(reaches, costs, strict=True)]
        if task.free(row):
            return costs
        least, most = task.limits.get(row, (low, high))
        allowed = task.allowed
        return [
            cost if least <= reach <= most and allowed(row, reach) else inf
            for reach, cost in zip(reaches, costs, strict=True)
        ]


class PathBounds:
    """What paths whose first reach has this ``parity`` cost at least that keep to these ``ranges``; ``standing``: what
    is known already of the costs of their places."""

    def __init__(
        self, task: EdgeTask, ranges: Sequence[Range], parity: int, standing: PlaceCosts | None = None
    ) -> None:
        self.task, self.within, self._standing = task, ranges, (standing or PlaceCosts(task)).costs
        self.lows, self.counts = [low for low, _ in ranges], [high - low + 1 for low, high in ranges]
        task.budget.spend(sum(self.counts) // PLACES_AS_ONE)
        self.whole = task.pitch == 2  # steps go by whole pitches, of which a reach is half a one
        self.step = float(STEP_COST * task.copies * (2 if task.folded else 1))
        # how an edge can move comes again with every other reach, and in other rows
        self.prices = task.by_row(lambda leans: [self._prices(leans, below) for below in (0, 1)])
        # what places cost, by row: in the row itself, and in its mirror with a place more at either end
        self._own: list[list[float]] = [[], []]
        self._beside: list[list[float]] = [[], []]
        # the least cost of the rows up to each, by the reach in it: of all ways, and of those a corner can come after
        self.so_far = [self._first_row(parity)]
        self.before_corners = self.so_far[:]
        for row in range(2, task.last + 1):
            whole, straight = self._next_row(row)
            self.so_far.append(whole)
            self.before_corners.append(straight if task.folded else whole)

    @property
    def least(self) -> float:
        """The least that any of them costs; infinite where there is none."""
        return min(self.so_far[-1])

    def ranges(self, most: float) -> list[Range]:
        """For every row the lowest and the highest reach that one of a cost up to ``most`` can pass. There must be
        one."""
        most *= SLACK
        kept = [0.0 if cost <= most else inf for cost in self.so_far[-1]]
        straight = [0.0 if cost <= most else inf for cost in self.before_corners[-1]]
        found = [self._held(self.task.last, kept)]
        for row in range(self.task.last, 1, -1):
            kept, straight = self._kept(row, kept, straight, most)
            found.append(self._held(row - 1, list(map(min, kept, straight))))
        return found[::-1]

    def _held(self, row: int, kept: list[float]) -> Range:
        """The lowest and the highest reach of ``row`` that has a cost."""
        there = [at for at, cost in enumerate(kept) if cost != inf]
        return self.lows[row - 1] + there[0], self.lows[row - 1] + there[-1]

    def _kept(
        self, row: int, above: list[float], straight: list[float], most: float
    ) -> tuple[list[float], list[float]]:
        """What the rows from ``row`` on cost at least by the reach in the row below it, and where a corner may follow
        that; infinite where all rows together cost more than ``most``. ``above`` and ``straight`` have that by the
        reach in ``row`` for the rows after it. It is ``_next_row`` the other way round."""
        count, shift = self.counts[row - 2], self.lows[row - 2] - self.lows[row - 1]
        standing, mirror = self._own[row], self._beside[row]
        after = list(map(add, above, standing))
        level = list(map(add, straight, standing)) if self.task.folded else after
        beside = _part(mirror, shift + 1, count) if mirror else []
        into, out = self._leans(row)
        ways = [
            _part(_sum(level, mirror[1:-1]), shift, count),
            _sum(list(map(add, _part(after, shift - 1, count), into)), beside),
            _sum(list(map(add, _part(after, shift + 1, count), out)), beside),
        ]
        corners = [*self._cornered(row, _sum(after, mirror[1:-1]), shift, count)]
        if not self.task.folded:
            whole = self._afforded(list(map(min, *ways, *corners)), self.so_far[row - 2], most)
            return whole, whole
        without = list(map(min, *ways))
        whole = self._afforded(without, self.so_far[row - 2], most)
        either = list(map(min, without, *corners)) if corners else without
        return whole, self._afforded(either, self.before_corners[row - 2], most)

    def _afforded(self, after: list[float], so_far: list[float], most: float) -> list[float]:
        return [cost if cost + before <= most else inf for cost, before in zip(after, so_far, strict=True)]

    def _cornered(self, row: int, after: list[float], shift: int, count: int) -> Iterator[list[float]]:
        """The least of ``after`` for steps inwards and outwards into ``row`` from each of ``count`` reaches below,
        ``shift`` above its lowest, where such can be."""
        if self._steps_in(row):
            within = [*after, *[inf] * (shift - 2 + count - len(after))]
            least = _running(within, self.whole and self.task.folded)
            yield [cost + self.step for cost in _part(least, shift - 2, count)]
        if self._steps_out(row):
            beyond = [*[inf] * -(shift + 2), *after]
            least = _running(beyond[::-1], self.whole)[::-1]
            yield [cost + self.step for cost in _part(least, max(shift + 2, 0), count)]

    def _first_row(self, parity: int) -> list[float]:
        low, high = self._range(1)
        costs = _sum(self._standing(1, low, high), self._mirrored(1, low, high))
        return [cost if (low + at) % 2 == parity else inf for at, cost in enumerate(costs)]

    def _next_row(self, row: int) -> tuple[list[float], list[float]]:
        """The least cost of the rows up to ``row`` by the reach in it, and of those ways that come straight to it."""
        below, (low, high) = self.so_far[-1], self._range(row)
        count, shift = high - low + 1, low - self.lows[row - 2]
        mirror = self._mirrored(row, low - 1, high + 1)
        into, out = self._leans(row)
        standing = self._standing(row, low, high)
        self._own.append(standing)
        self._beside.append(mirror)
        level = _part(below, shift, count)
        upright = [level, *self._stepped(row, self.before_corners[-1], shift, count)]
        ways = (
            _sum(list(map(min, *upright)) if len(upright) > 1 else level, mirror[1:-1]),
            _sum(_part(list(map(add, below, into)), shift + 1, count), mirror[2:]),
            _sum(_part(list(map(add, below, out)), shift - 1, count), mirror[:-2]),
        )
        straight = list(map(add, _sum(level, mirror[1:-1]), standing)) if self.task.folded else []
        return list(map(add, map(min, *ways), standing)), straight

    def _stepped(self, row: int, below: list[float], shift: int, count: int) -> Iterator[list[float]]:
        """The least cost of a step inwards, and of one outwards, to ``count`` reaches, ``shift`` above the lowest below
        them, where such steps can be."""
        if self._steps_in(row):
            beyond = [*[inf] * -(shift + 2), *below]
            whole = self.whole and self.task.folded  # what meets it is a step out
            yield [cost + self.step for cost in _part(_running(beyond[::-1], whole)[::-1], max(shift + 2, 0), count)]
        if self._steps_out(row):
            within = [*below, *[inf] * (shift - 2 + count - len(below))]
            yield [cost + self.step for cost in _part(_running(within, self.whole), shift - 2, count)]

    def _steps_in(self, row: int) -> bool:
        task = self.task
        return task.steps and task.may_step(row) and (not task.folded or task.starts(task.rows - row + 2))

    def _steps_out(self, row: int) -> bool:
        return self.task.steps and self.task.starts(row)

    def _leans(self, row: int) -> tuple[list[float], list[float]]:
        """The price of half a pitch inwards in ``row``, and outwards, from every reach below it."""
        task, first, count = self.task, self.lows[row - 2], self.counts[row - 2]
        if task.folded and task.rows % 2 == 1 and row == task.last:  # its own mirror
            return [inf] * count, [inf] * count
        into, out = self.prices[row][first % 2]
        pairs = count // 2 + 1
        return (into * pairs)[:count], (out * pairs)[:count]

    def _prices(self, leans: Leans, below: int) -> tuple[list[float], list[float]]:
        """The prices ``leans`` inwards and outwards from the reach ``below`` and from the next."""
        priced = ([leans[(below + at) % 2][way] for at in (0, 1)] for way in (0, 1))
        into, out = ([inf if price is None else price / _UNIT for price in prices] for prices in priced)
        return into, out

    def _range(self, row: int) -> Range:
        return self.lows[row - 1], self.lows[row - 1] + self.counts[row - 1] - 1

    def _mirrored(self, row: int, low: int, high: int) -> list[float]:
        """What the reaches cost in the row that mirrors the one below ``row``, or of row 1 the last; empty where none
        does."""
        mirror = self.task.rows - row + 1
        return self._standing(mirror, low, high) if self.task.folded and mirror > self.task.last else []


_UNIT = COST * MICRO**2  # the packed price of one squared half pitch


def _part(costs: list[float], first: int, count: int) -> list[float]:
    """``count`` of the ``costs`` from the ``first`` on, filled up where there are none."""
    if first >= 0 and first + count <= len(costs):
        return costs[first : first + count]
    ahead = [inf] * min(max(-first, 0), count)
    there = costs[max(first, 0) : max(first + count, 0)]
    return [*ahead, *there, *[inf] * (count - len(ahead) - len(there))]


def _running(costs: list[float], whole: bool) -> list[float]:
    """The least of every cost and those before it; ``whole``: of those whole pitches before it."""
    if not whole:
        return list(accumulate(costs, min))
    found = costs[:]
    found[0::2], found[1::2] = accumulate(costs[0::2], min), accumulate(costs[1::2], min)
    return found


def _sum(costs: list[float], more: list[float]) -> list[float]:
    return list(map(add, costs, more)) if more else costs
