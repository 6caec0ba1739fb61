"""Exact fitting: the path along the lattice that is nearest to a wanted edge.

In: an ``EdgeTask`` (``moves``). Out: an ``EdgePath`` for each parity of its first reach, the best of all paths.

The search is a shortest path over (row, reach, last direction) in a band of reaches about the curve, each row with a
band of its own. Beside the reaches of its band, every row has two places more, above it and below it: each stands for
all reaches out there, at the least that any of them could cost and with the cheapest move to and from it. So the best
path of this search costs no more than the best of all. If it keeps to the band it is the best of all; where it leaves
it, the band is widened, there alone, and the search is run again; an edge that cannot follow its curve is searched
within ``bounds`` instead. Time is linear in the rows times the band.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import inf
from operator import itemgetter
from typing import TypeAlias

from turnchain.planning.bounds import NearestLine, PathBounds, PlaceCosts, Range
from turnchain.planning.moves import (
    COST,
    MICRO,
    STEP_COST,
    TURN,
    WIDTH,
    Direction,
    EdgeTask,
    Key,
    step_in,
    step_out,
    unpacked,
    whole_path,
)
from turnchain.records import frozen, mutable

# The search looks this many half pitches to both sides of the curve first.
FIRST_MARGIN = 2
# Where it proves too narrow, it is widened in so many rows on both sides as well.
WIDENED_ROWS = 4
# An edge that cannot follow its curve is looked for so many times as far from it, where there is none nearer.
WIDER = 4
# After so many widenings, what any path must cost at least says where to search.
WIDENINGS = 2

Trail: TypeAlias = "tuple[int | None, Trail | None]"  # reaches so far; None: somewhere outside the band
# Packed key so far (a whole number, or infinity), and how it came there.
Node: TypeAlias = tuple[float, "Trail | None"]
Row: TypeAlias = list[Node]  # by reach, from the lowest of the row's band
NOWHERE: Node = (inf, None)
_key_of = itemgetter(0)
Prices: TypeAlias = "tuple[int | None, int | None]"  # of a move, by the parity of the reach below
NO_LEANS: tuple[Prices, Prices] = (None, None), (None, None)


@frozen
class EdgePath:
    """The ``reaches`` of every row, in half pitches from row 1 up, and the ``key`` that paths are compared by."""

    key: Key
    reaches: tuple[int, ...]


def fit_edge(task: EdgeTask) -> dict[int, EdgePath]:
    """The best path for each parity (0, 1) of the first reach that has one: empty where nothing can be worked, and one
    entry at most where row 1 is fixed. Raises BudgetSpent."""
    bands, standing = _Bands(task), PlaceCosts(task)
    found = {}
    for parity in _parities(task):
        path = _best_path(task, bands, standing, parity)
        if path is not None:
            found[parity] = path
    return found


def _parities(task: EdgeTask) -> tuple[int, ...]:
    first = task.start if task.start is not None else task.worked.get(1)
    return (0, 1) if first is None else (first % 2,)


def _best_path(task: EdgeTask, bands: _Bands, standing: PlaceCosts, parity: int) -> EdgePath | None:
    if too_steep(task):
        return _bounded(task, bands.limits, standing, parity)
    best = _plain_search(task, bands, parity)
    if best[0] < min(task.pay * STEP_COST, bands.least_outside()):  # nothing with a step, or outside, is less
        return _path(task, best)
    for _ in range(WIDENINGS if task.steps else 0):
        best = _search(task, bands, parity)
        if best[1] is None:
            return None
        reaches = _reaches(best[1])
        outside = [row for row, reach in enumerate(reaches, start=1) if reach is None]
        if not outside:
            return _path(task, best)
        bands.widen(outside)
    return _bounded(task, bands.limits, standing, parity)


def too_steep(task: EdgeTask) -> bool:
    """Whether the curve is so steep in most rows that no edge keeps near it."""
    steep = sum(abs(above - below) > 2 * FIRST_MARGIN * MICRO for below, above in pairwise(task.wanted))
    return 2 * steep > task.rows


def _bounded(task: EdgeTask, limits: list[Range], standing: PlaceCosts, parity: int) -> EdgePath | None:
    """The best path of an edge that cannot follow its curve, within the ``limits`` of every row: what a path may cost
    says where it can run."""
    nearest = NearestLine(task)
    bounds = _near_bounds(task, nearest, limits, standing, parity)
    if bounds.least == inf:
        return None
    ranges = nearest.ranges(bounds.least, limits)
    if ranges != bounds.within:
        bounds = PathBounds(task, ranges, parity, standing)
    best = (_search if task.steps else _plain_search)(task, _Bands(task, bounds.ranges(bounds.least)), parity)
    return _path(task, best)


def _near_bounds(
    task: EdgeTask, nearest: NearestLine, limits: list[Range], standing: PlaceCosts, parity: int
) -> PathBounds:
    """Bounds about the ``nearest`` edge, as wide as it takes for a path, which the best of all paths costs no more
    than; all of the ``limits`` where there is none."""
    margin = FIRST_MARGIN * (WIDER if too_steep(task) else 1)  # where it is, no path keeps nearer
    while True:
        about = nearest.about(margin, limits)
        bounds = PathBounds(task, about, parity, standing)
        if bounds.least != inf or about == limits:
            return bounds
        margin *= WIDER


def _path(task: EdgeTask, best: Node) -> EdgePath:
    whole = [reach for reach in _reaches(best[1]) if reach is not None]
    return EdgePath(unpacked(int(best[0])), whole_path(task, whole))


def _reaches(trail: Trail | None) -> list[int | None]:
    reaches = []
    while trail is not None:
        reaches.append(trail[0])
        trail = trail[1]
    return reaches[::-1]


class _Bands:
    """The reaches that are searched in every row, ``low`` to ``high``, and their packed costs: ``costs`` in the row
    itself, ``mirrored`` in the row that mirrors it where the task is folded, from ``low - 1`` to ``high + 1``."""

    def __init__(self, task: EdgeTask, ranges: list[Range] | None = None) -> None:
        self.task, self.ranges = task, ranges
        standing = [*task.wanted, *(reach * MICRO for reach in task.worked.values())]
        # No path gains by going farther out than the curve ever does, and a little over.
        self.lowest, self.highest = min(standing) // MICRO - 2, -(-max(standing) // MICRO) + 2
        rows = range(task.last + 1)
        self.margins = [FIRST_MARGIN for _ in rows]
        self.low, self.high = [0 for _ in rows], [0 for _ in rows]
        self.costs: list[list[float]] = [[] for _ in rows]
        self.mirrored: list[list[float] | None] = [None for _ in rows]
        self._outside: list[tuple[float, float] | None] = [None for _ in rows]
        for row in rows[1:]:
            self._set(row)

    def widen(self, rows: list[int]) -> None:
        """Twice the margin in these ``rows`` and in ``WIDENED_ROWS`` on both sides of each."""
        about = {near for row in rows for near in range(row - WIDENED_ROWS, row + WIDENED_ROWS + 1)}
        for row in about & set(range(1, self.task.last + 1)):
            self.margins[row] *= 2
            self._set(row)

    @property
    def limits(self) -> list[Range]:
        """The lowest and the highest reach that every row may have."""
        return [(min(pair), max(pair)) for pair in map(self._limits, range(1, self.task.last + 1))]

    def outside(self, row: int) -> tuple[float, float]:
        """The least that a reach below, and above, the band of ``row`` costs, packed; infinite where there is none."""
        if self.ranges is not None:
            return inf, inf
        known = self._outside[row]
        if known is None:
            lowest, highest = self._limits(row)
            low, high = self.low[row] - 1, self.high[row] + 1
            known = self._outside[row] = (
                self._distance(row, low) if low >= lowest else inf,
                self._distance(row, high) if high <= highest else inf,
            )
        return known

    def least_outside(self) -> float:
        """The least that any reach outside the bands costs, packed."""
        return min((cost for row in range(1, self.task.last + 1) for cost in self.outside(row)), default=inf)

    def _limits(self, row: int) -> tuple[int, int]:
        task = self.task
        if row in task.worked:
            return task.worked[row], task.worked[row]
        if row == 1 and task.start is not None:
            return task.start, task.start
        low, high = task.limits.get(row, (self.lowest, self.highest))
        return max(low, self.lowest), min(high, self.highest)

    def _set(self, row: int) -> None:
        low, high = self._about_curve(row) if self.ranges is None else self.ranges[row - 1]
        self.low[row], self.high[row], self._outside[row] = low, high, None
        self.task.budget.spend(high - low + 1)
        self.costs[row] = self._costs(row, low, high)
        mirror = self._mirror(row)
        if mirror is not None:
            self.mirrored[row] = self._costs(mirror, low - 1, high + 1)

    def _about_curve(self, row: int) -> Range:
        lowest, highest = self._limits(row)
        marks, margin = self._marks(row), self.margins[row]
        low = min(max(min(marks) // MICRO - margin, lowest), highest)
        return low, max(min(-(-max(marks) // MICRO) + margin, highest), lowest)

    def _mirror(self, row: int) -> int | None:
        """The row whose place is settled by how the line comes to ``row``: that of the row below it."""
        mirror = self.task.rows - row + 1
        return mirror if self.task.folded and mirror > self.task.last else None

    def _marks(self, row: int) -> list[int]:
        mirror = self._mirror(row)
        rows = [row] if mirror is None else [row, mirror]
        worked, late = self.task.worked, self.task.late
        marks = [worked[one] * MICRO if one in worked else self.task.wanted[one - 1] for one in rows]
        return marks + [late[one] for one in rows if one in late]

    def _costs(self, row: int, low: int, high: int) -> list[float]:
        """What every reach from ``low`` to ``high`` costs in ``row``, packed; infinite where none may stand."""
        task, reaches = self.task, range(low, high + 1)
        if row in task.worked:
            return [0 if reach == task.worked[row] else inf for reach in reaches]
        pay, off = task.copies * COST, task.distances(row, reaches)
        if task.free(row):
            return [far * pay for far in off]
        (least, most), allowed = task.limits.get(row, (low, high)), task.allowed
        return [
            far * pay if least <= reach <= most and allowed(row, reach) else inf
            for reach, far in zip(reaches, off, strict=True)
        ]

    def _distance(self, row: int, reach: int) -> int:
        return self.task.distance(row, reach) * self.task.copies * COST


@mutable
class _Front:
    """The best way to every reach of a row, by where the line went last, and to the places ``below`` and ``above``."""

    low: int
    ways: tuple[Row, Row, Row]
    below: Node
    above: Node


def _search(task: EdgeTask, bands: _Bands, parity: int) -> Node:
    """The best end of all paths whose first reach has this ``parity``."""
    front = _first_row(task, bands, parity)
    for row in range(2, task.last + 1):
        front = _next_row(task, bands, row, front)
    middle = task.copies * TURN if task.folded else 0  # a fold between two moves is a change of direction
    ends = [
        (node[0] + (0 if direction is Direction.STRAIGHT else middle), node[1])
        for direction, ways in zip(Direction, front.ways, strict=True)
        for node in ways
    ]
    return min((*ends, front.below, front.above), key=_key_of, default=NOWHERE)


def _plain_search(task: EdgeTask, bands: _Bands, parity: int) -> Node:
    """The best end of the paths without steps within the bands: most edges need no more."""
    level = _first_row(task, bands, parity).ways[Direction.STRAIGHT]
    ways = (level, [NOWHERE] * len(level), [NOWHERE] * len(level))
    leans = task.by_row(_by_way)
    for row in range(2, task.last + 1):
        by_itself = task.folded and task.rows % 2 == 1 and row == task.last  # its own mirror: straight, or a corner
        ways = _plain_row(task, bands, row, ways, NO_LEANS if by_itself else leans[row])
    middle = task.copies * TURN if task.folded else 0
    straight, inward, outward = (min(row, key=_key_of) for row in ways)
    return min(straight, (inward[0] + middle, inward[1]), (outward[0] + middle, outward[1]), key=_key_of)


def _plain_row(
    task: EdgeTask, bands: _Bands, row: int, ways: tuple[Row, Row, Row], leans: tuple[Prices, Prices]
) -> tuple[Row, Row, Row]:
    """All ways to ``row`` without steps from those to the row below it."""
    low = bands.low[row]
    shift = low - bands.low[row - 1]
    costs = bands.costs[row]
    mirrored = bands.mirrored[row] or [0] * (len(costs) + 2)
    price_in, price_out = leans
    straight, inward, outward = _arrivals(ways, task.turn)
    count = len(straight)
    made: tuple[Row, Row, Row] = ([], [], [])
    go_level, go_in, go_out = (part.append for part in made)
    for index, cost in enumerate(costs):
        at, reach = index + shift, low + index
        level = into = out = NOWHERE
        if cost != inf:
            if 0 <= at < count:
                node = straight[at]
                level = (node[0] + cost + mirrored[index + 1], (reach, node[1]))
            price = price_in[(reach + 1) % 2]
            if price is not None and 0 <= at + 1 < count:
                node = inward[at + 1]
                into = (node[0] + price + cost + mirrored[index + 2], (reach, node[1]))
            price = price_out[(reach - 1) % 2]
            if price is not None and 0 < at <= count:
                node = outward[at - 1]
                out = (node[0] + price + cost + mirrored[index], (reach, node[1]))
        go_level(level if level[0] != inf else NOWHERE)
        go_in(into if into[0] != inf else NOWHERE)
        go_out(out if out[0] != inf else NOWHERE)
    return made


def _by_way(leans: tuple[Prices, Prices]) -> tuple[Prices, Prices]:
    """The prices of half a pitch inwards, and outwards, by the parity of the reach below."""
    (into, out), (odd_into, odd_out) = leans
    return (into, odd_into), (out, odd_out)


def _first_row(task: EdgeTask, bands: _Bands, parity: int) -> _Front:
    """Row 1. Folded, its costs are those of the last row too, which stands where row 1 began."""
    low, mirrored = bands.low[1], bands.mirrored[1]
    straight: Row = []
    for index, cost in enumerate(bands.costs[1]):
        reach = low + index
        off = 0 if 1 in task.worked else abs(reach * MICRO - task.wanted[0]) * task.copies
        total = cost + off * WIDTH + (mirrored[index + 1] if mirrored else 0) if cost != inf else inf
        straight.append((total, (reach, None)) if reach % 2 == parity and total != inf else NOWHERE)
    below, above = bands.outside(1)
    nowhere = [NOWHERE] * len(straight)
    return _Front(low, (straight, nowhere, nowhere), (below, (None, None)), (above, (None, None)))


def _next_row(task: EdgeTask, bands: _Bands, row: int, front: _Front) -> _Front:
    """All ways to ``row`` from those to the row below it."""
    low, costs = bands.low[row], bands.costs[row]
    mirrored = bands.mirrored[row] or [0] * (len(costs) + 2)
    level, inward, outward = _arrivals(front.ways, task.turn)
    middle = task.folded and task.rows % 2 == 1 and row == task.last  # mirrored by itself: straight, or a corner
    if task.folded:  # a corner comes after a straight row
        corners = [(node[0] + task.turn, node[1]) for node in front.ways[Direction.STRAIGHT]]
    steps_in = _steps_in(task, row, front.low, corners if task.folded else inward, low, len(costs))
    steps_out = _steps_out(task, row, front.low, corners if task.folded else outward, low, len(costs))
    entered = _entered(task, bands, row, front)
    leans = task.leans[row]
    made: tuple[Row, Row, Row] = ([], [], [])
    for index, cost in enumerate(costs):
        reach = low + index
        at = reach - front.low
        ways = [NOWHERE, NOWHERE, NOWHERE]
        if cost != inf:
            corner = cost + mirrored[index + 1]
            if 0 <= at < len(level):
                ways[0] = (level[at][0] + corner, level[at][1])
            ways[1] = (steps_in[index][0] + corner, steps_in[index][1])
            ways[2] = (steps_out[index][0] + corner, steps_out[index][1])
            if not middle:
                if 0 <= at + 1 < len(level):
                    _better(ways, 1, inward[at + 1], leans[(reach + 1) % 2][0], cost + mirrored[index + 2])
                if 0 < at <= len(level):
                    _better(ways, 2, outward[at - 1], leans[(reach - 1) % 2][1], cost + mirrored[index])
            from_outside = entered[index]
            if from_outside[0] != inf:
                for direction in (Direction.STRAIGHT, Direction.IN, Direction.OUT):
                    _better(ways, direction, from_outside, 0, cost)
        for made_ways, node in zip(made, ways, strict=True):
            made_ways.append((node[0], (reach, node[1])) if node[0] != inf else NOWHERE)
    below, above = _left(task, bands, row, front)
    return _Front(low, made, below, above)


def _better(ways: list[Node], direction: int, node: Node, price: int | None, cost: float) -> None:
    """Puts ``node`` at a price in its place among ``ways``, if it is less than what is there."""
    if price is not None and node[0] + price + cost < ways[direction][0]:
        ways[direction] = (node[0] + price + cost, node[1])


def _arrivals(ways: tuple[Row, Row, Row], turn: int) -> tuple[Row, Row, Row]:
    """For every reach of the row below, by the ``ways`` to it, the best way to stand there before going on straight, in
    and out: the way that went so, or where that costs less, the least of the others and a ``turn``."""
    level, inward, outward = [], [], []
    for s, i, o in zip(*ways, strict=True):
        least = s if s[0] <= i[0] and s[0] <= o[0] else i if i[0] <= o[0] else o
        most = least[0] + turn
        turned = (most, least[1])
        level.append(s if s[0] <= most else turned)
        inward.append(i if i[0] <= most else turned)
        outward.append(o if o[0] <= most else turned)
    return level, inward, outward


def _steps_in(task: EdgeTask, row: int, below_low: int, below: Row, low: int, count: int) -> Row:
    """The best step in to each of ``count`` reaches from ``low`` up: by running minima from the top."""
    found = [NOWHERE] * count
    best = [NOWHERE, NOWHERE]  # by parity, over the reaches at least two farther out
    at = len(below) - 1
    for index in range(count - 1, -1, -1):
        reach = low + index
        while at >= 0 and below_low + at >= reach + 2:
            parity = (below_low + at) % 2
            if below[at][0] < best[parity][0]:
                best[parity] = below[at]
            at -= 1
        price = step_in(task, row, reach)
        if price is not None:
            # the step out that meets it when folded can only be of whole pitches
            node = best[reach % 2] if task.folded and task.pitch == 2 else min(best, key=_key_of)
            found[index] = (node[0] + price, node[1])
    return found


def _steps_out(task: EdgeTask, row: int, below_low: int, below: Row, low: int, count: int) -> Row:
    """The best step out to each of ``count`` reaches from ``low`` up; steps out are of whole pitches."""
    found = [NOWHERE] * count
    if not task.starts(row):
        return found
    best = [NOWHERE, NOWHERE]
    at = 0
    for index in range(count):
        reach = low + index
        while at < len(below) and below_low + at <= reach - 2:
            parity = (below_low + at) % 2
            if below[at][0] < best[parity][0]:
                best[parity] = below[at]
            at += 1
        price = step_out(task, row, reach)
        node = best[reach % 2] if task.pitch == 2 else min(best, key=_key_of)
        if price is not None:
            found[index] = (node[0] + price, node[1])
    return found


# The places below and above the band: what they cost is never more than what the reaches there cost.


def _entered(task: EdgeTask, bands: _Bands, row: int, front: _Front) -> Row:
    """The cheapest way into each reach of ``row`` from outside the band of the row below."""
    count = len(bands.costs[row])
    if front.below[0] == inf and front.above[0] == inf:
        return [NOWHERE] * count
    step = task.pay * STEP_COST
    outermost, innermost = front.low + len(front.ways[0]), front.low - 1
    found = []
    for reach in range(bands.low[row], bands.low[row] + count):
        in_price = step if outermost - reach > 1 else 0
        out_price = 0 if reach - innermost <= 1 else step if task.starts(row) else inf
        ways = ((front.above[0] + in_price, front.above[1]), (front.below[0] + out_price, front.below[1]))
        found.append(min(ways, key=_key_of))
    return found


def _left(task: EdgeTask, bands: _Bands, row: int, front: _Front) -> tuple[Node, Node]:
    """The cheapest ways to the places below and above the band of ``row``."""
    below_cost, above_cost = bands.outside(row)
    step = task.pay * STEP_COST
    out = step if task.starts(row) else inf
    low, high = bands.low[row], bands.high[row]
    below = above = NOWHERE
    if below_cost != inf:
        below = min(_ways_out(front, low + 1, 0, step), key=_key_of)
        below = (below[0] + below_cost, (None, below[1]))
    if above_cost != inf:
        above = min(_ways_out(front, high, out, 0), key=_key_of)
        above = (above[0] + above_cost, (None, above[1]))
    return below, above


def _ways_out(front: _Front, turn: int, short: float, far: float) -> Iterator[Node]:
    """The best ways from the reaches below ``turn``, at the price ``short``, and from the others, at ``far``; and from
    the places outside."""
    at = max(turn - front.low, 0)
    for ways in front.ways:
        for nodes, price in ((ways[:at], short), (ways[at:], far)):
            node = min(nodes, key=_key_of, default=NOWHERE)
            yield node[0] + price, node[1]
    yield front.below
    yield front.above
