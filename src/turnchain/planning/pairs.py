"""Two edges fitted as a pair, where a piece is so narrow that each hinders the other.

In: the two edges' tasks and what room a row needs. Out: the best two paths with room in every row.

The edges are fitted apart first, which is all there is to do in most pieces. Where they come too near in some row, a
best-first search goes over both at once, in the order of what a pair has cost and what each edge alone would still
cost at least: so the first pair that reaches the end is the best.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import count, product
from typing import NamedTuple, TypeAlias

from turnchain.fabric.lattice import Side
from turnchain.planning.budget import PAIR_STATES
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.moves import (
    COST,
    MICRO,
    TURN,
    WIDTH,
    Direction,
    EdgeTask,
    Room,
    mirrored,
    move,
    unpacked,
    whole_path,
)
from turnchain.records import frozen, replace

State: TypeAlias = tuple[int, Direction]  # where an edge stands and went last

# What a reach of a row costs of the budget where all ways from it to the end are priced: it takes as long as so many
# places in a plain search.
AHEAD = 30
STATE = 15  # and what a state of both edges together costs of it
# The search looks this many half pitches to both sides of the curve first.
FIRST_BAND = 3

Trail: TypeAlias = "tuple[int, Trail | None]"  # the reaches so far


def beside(room: Room, opposite: int, side: Side) -> Callable[[int, int], bool]:
    """The same ``room`` for a reach at ``side`` beside a straight ``opposite`` edge."""
    return lambda row, reach: room(row, *((opposite, reach) if side == "right" else (-reach, opposite)))


def fit_pair(
    tasks: tuple[EdgeTask, EdgeTask],
    apart: tuple[dict[int, EdgePath], dict[int, EdgePath]],
    parities: tuple[int, int],
    room: Room,
    pair_states: int = PAIR_STATES,
    bounded: bool = True,
) -> tuple[EdgePath, EdgePath] | None:
    """The best left and right edge whose first reaches have these ``parities``, with room in every row.

    ``apart``: the best of each edge by itself, as ``fit_edge`` gives it.

    ``bounded``: whether reaches that come to 4 half pitches always have room, so that no pair need cost more than one
    of those. None where there is none, or none found within ``pair_states`` states. Raises BudgetSpent.
    """
    left, right = (found.get(parity) for found, parity in zip(apart, parities, strict=True))
    if left is None or right is None:
        return None
    both = zip(left.reaches, right.reaches, strict=True)
    if all(room(row, *reaches) for row, reaches in enumerate(both, start=1)):
        return left, right
    bound = _enough(tasks, parities) if bounded else None
    band = FIRST_BAND
    while True:
        edges = (_Edge(tasks[0], band), _Edge(tasks[1], band))
        pair = _Search(edges, parities, room, bound, pair_states).run()
        if all(edge.whole for edge in edges):
            return pair
        if pair is not None and pair[0].key.cost + pair[1].key.cost < (band * MICRO) ** 2:
            return pair
        band *= 2


def _enough(tasks: tuple[EdgeTask, EdgeTask], parities: tuple[int, int]) -> int | None:
    """What a pair costs that always has room, as its reaches come to 4 half pitches or more: no better pair costs
    more."""
    found = []
    for least in ((2, 2), (1, 3), (3, 1)):
        raised = [
            fit_edge(replace(task, allowed=_at_least(low))).get(parity)
            for task, low, parity in zip(tasks, least, parities, strict=True)
        ]
        keys = [path.key.packed() for path in raised if path is not None]
        if len(keys) == len(raised):
            found.append(sum(keys))
    return min(found, default=None)


def _at_least(low: int) -> Callable[[int, int], bool]:
    return lambda row, reach: reach >= low


class _Step(NamedTuple):
    """A way on from a state: what it and all after it cost at least, what it costs itself, where it leads."""

    whole: int
    price: int
    to: State


class _Edge:
    """One edge's states row by row, and what the way from each to the end costs at least."""

    def __init__(self, task: EdgeTask, band: int) -> None:
        self.task, self.last = task, task.last
        standing = [*task.wanted, *(reach * MICRO for reach in task.worked.values())]
        self.lowest, self.highest = min(standing) // MICRO - 4, -(-max(standing) // MICRO) + 4
        self.whole = band > self.highest - self.lowest
        reaches = [self._reaches(row, band) for row in range(1, self.last + 1)]
        task.budget.spend(AHEAD * sum(map(len, reaches)))
        self.first = {reach: self._begin(reach) for reach in reaches[0]}
        self.steps: dict[tuple[int, State], list[_Step]] = {}
        middle = task.copies * TURN if task.folded else 0  # a fold between two moves is a change of direction
        self.ahead: list[dict[State, int]] = [{} for _ in range(self.last + 1)]
        for reach, direction in product(reaches[-1], Direction):
            self.ahead[self.last][reach, direction] = 0 if direction is Direction.STRAIGHT else middle
        for row in range(self.last - 1, 0, -1):
            for state in product(reaches[row - 1], Direction):
                self._look_ahead(row, state, reaches[row])

    def _reaches(self, row: int, band: int) -> Sequence[int]:
        task = self.task
        if row in task.worked:
            return (task.worked[row],)
        mirror = task.rows - row + 1
        marks = [task.wanted[row - 1]] + ([task.wanted[mirror - 1]] if task.folded and mirror > task.last else [])
        marks += [task.late[one] for one in (row, mirror) if one in task.late]
        low = max(min(marks) // MICRO - band, self.lowest)
        return range(low, min(-(-max(marks) // MICRO) + band, self.highest) + 1)

    def _cost(self, row: int, reach: int) -> int | None:
        if row in self.task.worked:
            return 0 if reach == self.task.worked[row] else None
        return self.task.distance(row, reach) * self.task.copies * COST

    def _begin(self, reach: int) -> int:
        """What row 1 costs there and, folded, the last row."""
        task = self.task
        off = 0 if 1 in task.worked else abs(reach * MICRO - task.wanted[0]) * task.copies
        last = self._cost(task.rows, reach) if task.folded and task.rows > 1 else 0
        return (self._cost(1, reach) or 0) + off * WIDTH + (last or 0)

    def _look_ahead(self, row: int, state: State, reaches: Iterable[int]) -> None:
        ahead = self.ahead[row + 1]
        steps = sorted(
            _Step(price + ahead[to], price, to)
            for reach in reaches
            for price, to in self._ways(row + 1, state, reach)
            if to in ahead
        )
        if steps:
            self.steps[row, state] = steps
            self.ahead[row][state] = steps[0].whole

    def _ways(self, row: int, state: State, reach: int) -> Iterator[tuple[int, State]]:
        """The way, if there is one, from ``state`` in the row below to ``reach`` in ``row``, and its price."""
        task, below, before = self.task, state[0], state[1]
        way = move(task, row, below, reach)
        if way is None or (task.folded and abs(reach - below) > 1 and before is not Direction.STRAIGHT):
            return
        price, direction = way
        mirror = task.rows - row + 1
        beyond: int | None = 0
        if task.folded and mirror > task.last:
            beyond = self._cost(mirror, mirrored(below, reach))
        cost = self._cost(row, reach)
        if cost is not None and beyond is not None:
            yield price + cost + beyond + (task.turn if direction is not before else 0), (reach, direction)

    def path(self, paid: int, state: State, trail: Trail) -> EdgePath:
        """The finished path that ended in ``state``."""
        reaches = []
        step: Trail | None = trail
        while step is not None:
            reaches.append(step[0])
            step = step[1]
        return EdgePath(unpacked(paid + self.ahead[self.last][state]), whole_path(self.task, reaches[::-1]))


@frozen
class _Node:
    """Both edges in one row: what each has cost so far, where it stands and how it came there."""

    row: int
    paid: tuple[int, int]
    states: tuple[State, State]
    trails: tuple[Trail, Trail]


class _Search:
    """The search over both edges at once."""

    def __init__(
        self, edges: tuple[_Edge, _Edge], parities: tuple[int, int], room: Room, bound: int | None, pair_states: int
    ) -> None:
        self.edges, self.parities, self.room, self.bound, self.pair_states = edges, parities, room, bound, pair_states
        self.order = count()
        self.heap: list[tuple[int, int, int, _Node]] = []
        self.best: dict[tuple[int, State, State], int] = {}

    def run(self) -> tuple[EdgePath, EdgePath] | None:
        """The best pair, or None."""
        for node in self._begun():
            self._push(node, sum(node.paid) + self._ahead(node))
        done: set[tuple[int, State, State]] = set()
        last = self.edges[0].last
        while self.heap and len(done) < self.pair_states:
            node = heapq.heappop(self.heap)[3]
            if (node.row, *node.states) in done:
                continue
            done.add((node.row, *node.states))
            self.edges[0].task.budget.spend(STATE)
            if node.row == last:
                (left, right), (paid_a, paid_b), (u, v), (a, b) = self.edges, node.paid, node.states, node.trails
                return left.path(paid_a, u, a), right.path(paid_b, v, b)
            self._go_on(node)
        return None

    def _begun(self) -> Iterator[_Node]:
        left, right = self.edges
        for a, paid_a in left.first.items():
            for b, paid_b in right.first.items():
                states = ((a, Direction.STRAIGHT), (b, Direction.STRAIGHT))
                known = states[0] in left.ahead[1] and states[1] in right.ahead[1]
                if known and (a % 2, b % 2) == self.parities and self._begins(a, b):
                    yield _Node(1, (paid_a, paid_b), states, ((a, None), (b, None)))

    def _ahead(self, node: _Node) -> int:
        return sum(edge.ahead[node.row][state] for edge, state in zip(self.edges, node.states, strict=True))

    def _begins(self, left: int, right: int) -> bool:
        """Whether both may stand so in row 1 and, folded, in the last row."""
        task = self.edges[0].task
        return self.room(1, left, right) and (not task.folded or self.room(task.rows, left, right))

    def _stand(self, row: int, states: tuple[State, State], left: int, right: int) -> bool:
        """Whether both may go on from ``states`` to stand so in a row and, folded, in its mirror row."""
        task = self.edges[0].task
        mirror = task.rows - row + 1
        if task.folded and mirror > task.last:
            beyond = mirrored(states[0][0], left), mirrored(states[1][0], right)
            if not self.room(mirror, *beyond):
                return False
        return self.room(row, left, right)

    def _go_on(self, node: _Node) -> None:
        spent, row = sum(node.paid), node.row + 1
        ways = [edge.steps.get((node.row, state), []) for edge, state in zip(self.edges, node.states, strict=True)]
        for a in ways[0]:
            for b in ways[1]:
                total = spent + a.whole + b.whole
                if self.bound is not None and total > self.bound:
                    break
                key = (row, a.to, b.to)
                if self.best.get(key, total + 1) <= total or not self._stand(row, node.states, a.to[0], b.to[0]):
                    continue
                self.best[key] = total
                paid = (node.paid[0] + a.price, node.paid[1] + b.price)
                trails = ((a.to[0], node.trails[0]), (b.to[0], node.trails[1]))
                self._push(_Node(row, paid, (a.to, b.to), trails), total)

    def _push(self, node: _Node, total: int) -> None:
        # Of equals the one that has come farthest first.
        heapq.heappush(self.heap, (total, -node.row, next(self.order), node))
