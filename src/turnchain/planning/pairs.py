"""Two edges fitted as a pair, where a piece is so narrow that each hinders the other.

In: the two edges' tasks and what room a row needs. Out: the best two paths with room in every row.

The edges are fitted apart first, which is all there is to do in most pieces. Where they come too near in some row, a
best-first search goes over both at once, led by what each edge alone would still have to pay: it looks no farther
than it must, and the first pair that reaches the end is the best.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import count
from typing import NamedTuple, TypeAlias

from turnchain.planning.fitting import (
    FIRST_BAND,
    MICRO,
    Direction,
    EdgePath,
    EdgeTask,
    Front,
    Trail,
    best_end,
    first_row,
    fit_edge,
    next_row,
    reaches_of_trail,
    row_costs,
    unpacked,
)

#: Whether a row has room for a cluster between two reaches: (row, left, right).
Room: TypeAlias = Callable[[int, int, int], bool]
State: TypeAlias = tuple[int, Direction]  # where an edge stands and went last

# How many states of both edges a search may look at: some seconds, and more than any garment needs.
PAIR_STATES = 60_000
# A place of the lattice, budget at from either end in each direction, takes as long as so many in a plain search.
AHEAD = 30
STATE = 15  # and so does a state of both edges together


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
    of those. None where there is none, or none found within ``pair_states`` states.
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
    """One edge's states row by row, and what is still to be paid from each to the end."""

    def __init__(self, task: EdgeTask, band: int) -> None:
        self.task, self.rows = task, len(task.wanted)
        standing = [*task.wanted, *(reach * MICRO for reach in task.worked.values())]
        lowest, highest = min(standing) // MICRO - 4, -(-max(standing) // MICRO) + 4
        self.whole = band > highest - lowest
        self.last = max((self.rows - 1) // 2 if task.folded else self.rows, 1)
        self.costs = row_costs(task, band, lowest, highest, self.last)
        task.budget.spend(AHEAD * sum(map(len, self.costs)))
        begun = first_row(task, self.costs[0])[Direction.UNTOUCHED]
        self.first = {reach: node[0] for reach, node in begun.items()}
        self.steps: dict[tuple[int, State], list[_Step]] = {}
        self.ahead: list[dict[State, int]] = [{} for _ in range(self.last + 1)]
        for row in range(self.last, 0, -1):
            for reach in self.costs[row - 1]:
                for direction in Direction:
                    self._look_ahead(row, (reach, direction))

    def _look_ahead(self, row: int, state: State) -> None:
        alone: Front = [{}, {}, {}, {}]
        alone[state[1]][state[0]] = (0, (state[0], None))
        if row == self.last:
            end = best_end(self.task, alone)
            self.ahead[row][state] = 0 if end is None else end[0]
            return
        made = next_row(self.task, alone, row + 1, self.rows, self.costs[row])
        steps = sorted(
            _Step(node[0] + self.ahead[row + 1][to], node[0], to)
            for direction, states in zip(Direction, made, strict=True)
            for reach, node in states.items()
            for to in [(reach, direction)]
            if to in self.ahead[row + 1]
        )
        if steps:
            self.steps[row, state] = steps
            self.ahead[row][state] = steps[0].whole

    def path(self, paid: int, state: State, trail: Trail) -> EdgePath:
        """The finished path that ended in ``state``."""
        return EdgePath(unpacked(paid + self.ahead[self.last][state]), reaches_of_trail(self.task, trail, self.rows))


@dataclass(frozen=True, slots=True)
class _Node:
    """Both edges in one row: what each has paid, where it stands and how it came there."""

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
                states = ((a, Direction.UNTOUCHED), (b, Direction.UNTOUCHED))
                known = states[0] in left.ahead[1] and states[1] in right.ahead[1]
                if known and (a % 2, b % 2) == self.parities and self._stand(1, a, b):
                    yield _Node(1, (paid_a, paid_b), states, ((a, None), (b, None)))

    def _ahead(self, node: _Node) -> int:
        return sum(edge.ahead[node.row][state] for edge, state in zip(self.edges, node.states, strict=True))

    def _stand(self, row: int, left: int, right: int) -> bool:
        """Whether both may stand so in a row and, folded, in its mirror row."""
        edge = self.edges[0]
        mirrored = edge.task.folded and edge.rows > 1
        return self.room(row, left, right) and (not mirrored or self.room(edge.rows - row, left, right))

    def _go_on(self, node: _Node) -> None:
        spent, row = sum(node.paid), node.row + 1
        ways = [edge.steps.get((node.row, state), []) for edge, state in zip(self.edges, node.states, strict=True)]
        for a in ways[0]:
            for b in ways[1]:
                total = spent + a.whole + b.whole
                if self.bound is not None and total > self.bound:
                    break
                key = (row, a.to, b.to)
                if self.best.get(key, total + 1) <= total or not self._stand(row, a.to[0], b.to[0]):
                    continue
                self.best[key] = total
                paid = (node.paid[0] + a.price, node.paid[1] + b.price)
                trails = ((a.to[0], node.trails[0]), (b.to[0], node.trails[1]))
                self._push(_Node(row, paid, (a.to, b.to), trails), total)

    def _push(self, node: _Node, total: int) -> None:
        # Of equals the one that has come farthest first.
        heapq.heappush(self.heap, (total, -node.row, next(self.order), node))
