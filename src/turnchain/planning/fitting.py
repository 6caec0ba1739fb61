"""Exact fitting: the path along the lattice that is nearest to a wanted edge.

In: an ``EdgeTask``: where the edge should stand at every row's top, and what it may do. Out: an ``EdgePath`` for
each parity of its first position, the best of all paths by the order of preference. Positions here are *reaches*:
half pitches outwards from a fixed line, so that the left and the right edge of a piece are one and the same task.

The search is a shortest path over (row, reach, last direction); the kind of an edge follows from reach and row.
Costs are whole numbers, so that equal plans compare equal on every machine: a distance is counted in
``MICRO``-ths of a half pitch, its square in the square of that.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field, replace
from enum import IntEnum
from fractions import Fraction
from math import isqrt
from typing import NamedTuple, TypeAlias

from turnchain.planning.budget import SearchBudget

MICRO = 10**6

# What a move costs beside its distance, in squared half pitches: a step as much as one row that is a whole pitch
# off, a forced decrease a quarter of that, a forced increase half.
STEP_COST = 4
FORCED_DECREASE_COST = 1
FORCED_INCREASE_COST = 2

# The search looks this many half pitches to both sides of the curve first, and wider if that proves too narrow.
FIRST_BAND = 3
# Before that it looks for paths without steps, no farther off than this: most edges are done then, in a fraction of the
# time.
STEPLESS_BAND = 2


class Key(NamedTuple):
    """What is compared, in order, when two paths are weighed: see the order of preference in ``planning``."""

    cost: int
    width: int
    turns: int
    shoulder: int
    depth: int
    awkward: int

    def packed(self) -> int:
        """One whole number that compares as the tuple does and adds as its fields do."""
        number = 0
        for part in self:
            number = number * _FIELD + part
        return number


_FIELD = 10**16  # no sum of a field below the cost comes near this: 2,000 rows of 10**12 at the most


def unpacked(number: int) -> Key:
    """The fields of a packed key."""
    parts = []
    for _ in range(len(Key._fields) - 1):
        number, part = divmod(number, _FIELD)
        parts.append(part)
    return Key(number, *reversed(parts))


def _weight(field: str) -> int:
    weight: int = _FIELD ** (len(Key._fields) - 1 - Key._fields.index(field))
    return weight


_COST, _WIDTH, _TURN, _SHOULDER, _DEPTH, _AWKWARD = (_weight(field) for field in Key._fields)


class Direction(IntEnum):
    """Where the edge line went last. ``UNTOUCHED`` is straight since row 1."""

    UNTOUCHED = 0
    STRAIGHT = 1
    IN = 2
    OUT = 3


@dataclass(frozen=True, slots=True)
class EdgeTask:
    """One edge to be fitted.

    ``wanted``: the wanted reach at the top of every row, in ``MICRO``-ths of a half pitch. ``phase``: makes
    ``(reach + row + phase)`` odd where the edge is flush. ``steps_out_at``: the parity of the rows that start at this
    edge, or None where a step out is not allowed. ``start``: the reach of row 1, or None where it is free.
    ``folded``: the edge line must read the same from the top (an odd number of rows). ``copies``: 2 where the path
    serves both edges. ``allowed``: whether a reach may stand in a row. ``shoulder``: the rows wanted before the first
    shaping. ``depth``: how far in the middle should lie from the start, in half pitches. ``worked``: the reaches of
    rows that are worked already; they stay, and cost nothing. ``late``: rows in which a step outwards may still be to
    come, since they do not start at this edge, and what is wanted of them then. ``stepless``: no step, in or out, is
    tried. ``budget`` counts the places of the search.
    """

    wanted: tuple[int, ...]
    phase: int
    steps_out_at: int | None
    start: int | None = None
    folded: bool = False
    copies: int = 1
    allowed: Callable[[int, int], bool] = lambda row, reach: True
    shoulder: Fraction | None = None
    depth: Fraction | None = None
    worked: Mapping[int, int] = field(default_factory=dict)
    late: Mapping[int, int] = field(default_factory=dict)
    stepless: bool = False
    budget: SearchBudget = field(default_factory=SearchBudget)

    @property
    def parities(self) -> int:
        """How many parities the first reach may have."""
        return 1 if self.start is not None or self.worked else 2


@dataclass(frozen=True, slots=True)
class EdgePath:
    """The ``reaches`` of every row, and the ``key`` that made the path win."""

    key: Key
    reaches: tuple[int, ...]


Trail: TypeAlias = "tuple[int, Trail | None]"
Node: TypeAlias = "tuple[int, Trail]"  # packed key so far, and the reaches so far
Front: TypeAlias = "list[dict[int, Node]]"  # by direction, by reach


def micro(distance: Fraction) -> int:
    """``distance`` in ``MICRO``-ths."""
    return round(distance * MICRO)


def squared(distance: Fraction) -> int:
    """The cost of standing ``distance`` half pitches off in one row."""
    return micro(distance) ** 2


def fit_edge(task: EdgeTask) -> dict[int, EdgePath]:
    """The best path for each parity (0, 1) of the first reach that has one.

    The band grows until no path that leaves it could be better: such a path pays at least the square of the
    band's half width in the row where it is outside. Nor can one with steps, where one without pays less than a step.
    """
    standing = [*task.wanted, *(reach * MICRO for reach in task.worked.values())]
    lowest, highest = min(standing) // MICRO - 2, -(-max(standing) // MICRO) + 2
    found = _search(replace(task, stepless=True), STEPLESS_BAND, lowest, highest)
    band = FIRST_BAND
    if _cheaper(task, found, min(STEPLESS_BAND**2, STEP_COST)):
        return found
    while True:
        found = _search(task, band, lowest, highest)
        if band > highest - lowest or _cheaper(task, found, band**2):
            return found
        # what was found is dear: with a band so wide that nothing outside can be cheaper, the next search is the last
        dearest = max((path.key.cost for path in found.values()), default=0) // (task.copies * MICRO**2)
        band = isqrt(dearest) + 1 if len(found) == task.parities else 2 * band


def _cheaper(task: EdgeTask, found: dict[int, EdgePath], others: int) -> bool:
    """Whether all paths wanted are found, and cost less than any ``others`` can, in squared half pitches."""
    most = task.copies * others * MICRO**2
    return len(found) == task.parities and all(path.key.cost < most for path in found.values())


def _search(task: EdgeTask, band: int, lowest: int, highest: int) -> dict[int, EdgePath]:
    rows = len(task.wanted)
    last = (rows - 1) // 2 if task.folded else rows
    costs = row_costs(task, band, lowest, highest, max(last, 1))
    front = first_row(task, costs[0])
    fronts = {0: front, 1: front} if task.start is not None else {p: _of_parity(front, p) for p in (0, 1)}
    found = {}
    for parity, begun in fronts.items():
        if task.start is not None and task.start % 2 != parity:
            continue
        current = begun
        for row in range(2, last + 1):
            current = next_row(task, current, row, rows, costs[row - 1])
        best = best_end(task, current)
        if best is not None:
            found[parity] = EdgePath(unpacked(best[0]), reaches_of_trail(task, best[1], rows))
    return found


def row_costs(task: EdgeTask, band: int, lowest: int, highest: int, last: int) -> list[dict[int, int]]:
    """For every row to be searched, the packed cost of each reach in its band; a folded row stands for two."""
    rows = len(task.wanted)
    costs = []
    for row in range(1, last + 1):
        standing = (row, rows - row) if task.folded and rows > 1 else (row,)
        reaches = _reaches_of(task, standing, band, lowest, highest)
        task.budget.spend(len(reaches))
        marks = [task.wanted[one - 1] for one in standing if one not in task.worked and one not in task.late]
        late = [(task.wanted[one - 1], task.late[one]) for one in standing if one in task.late]
        costs.append(
            {
                reach: (sum((reach * MICRO - mark) ** 2 for mark in marks) + _late(reach, late)) * task.copies * _COST
                for reach in reaches
                if all(task.allowed(one, reach) for one in standing)
            }
        )
    if task.start is not None:
        costs[0] = {reach: cost for reach, cost in costs[0].items() if reach == task.start}
    return costs


def _late(reach: int, marks: list[tuple[int, int]]) -> int:
    """What a reach costs in rows where an edge may stand as if a step outwards were made, or were still to come."""
    return sum(min((reach * MICRO - mark) ** 2 for mark in either) for either in marks)


def _reaches_of(
    task: EdgeTask, standing: tuple[int, ...], band: int, lowest: int, highest: int
) -> Collection[int]:
    """The reaches to be searched for rows that stand alike: the one that is kept, or the band about the curve."""
    kept = {task.worked[row] for row in standing if row in task.worked}
    if kept:
        return kept if len(kept) == 1 else ()
    marks = [task.wanted[row - 1] for row in standing] + [task.late[row] for row in standing if row in task.late]
    low = max(min(marks) // MICRO - band, lowest)
    return range(low, min(-(-max(marks) // MICRO) + band, highest) + 1)


def first_row(task: EdgeTask, costs: dict[int, int]) -> Front:
    """Row 1. Folded, it also answers for the last row, which stands where row 1 began."""
    front: Front = [{}, {}, {}, {}]
    for reach, cost in costs.items():
        off = 0 if 1 in task.worked else abs(reach * MICRO - task.wanted[0]) * task.copies
        total = cost + off * _WIDTH
        if task.folded and len(task.wanted) > 1:
            total += (reach * MICRO - task.wanted[-1]) ** 2 * task.copies * _COST
        front[Direction.UNTOUCHED][reach] = (total, (reach, None))
    return front


def _of_parity(front: Front, parity: int) -> Front:
    return [{reach: node for reach, node in states.items() if reach % 2 == parity} for states in front]


def next_row(task: EdgeTask, front: Front, row: int, rows: int, costs: dict[int, int]) -> Front:
    """All states of ``row`` from those of the row below it."""
    made: Front = [{}, {}, {}, {}]
    for reach, node in front[Direction.UNTOUCHED].items():
        if reach in costs:
            made[Direction.UNTOUCHED][reach] = (node[0] + costs[reach], (reach, node[1]))
    straight, inward, outward = _arrivals(task, front, row)
    for reach, node in straight.items():
        if reach in costs:
            made[Direction.STRAIGHT][reach] = (node[0] + costs[reach], (reach, node[1]))
    for direction, moved in (
        (Direction.IN, _inwards(task, inward, row, rows, costs)),
        (Direction.OUT, _outwards(task, outward, row, rows, costs)),
    ):
        made[direction] = {reach: (node[0] + costs[reach], (reach, node[1])) for reach, node in moved.items()}
    return made


def _arrivals(task: EdgeTask, front: Front, row: int) -> tuple[dict[int, Node], dict[int, Node], dict[int, Node]]:
    """For every reach of the row below, the best way to stand there before going on straight, in and out."""
    turn = task.copies * (2 if task.folded else 1) * _TURN
    untouched, straight, inward, outward = front
    late = turn + _shoulder_error(task, row - 1) * _SHOULDER if untouched else 0
    return (
        # straight since row 1 stays UNTOUCHED
        _best_of(((straight, 0), (inward, turn), (outward, turn))),
        _best_of(((untouched, late), (straight, turn), (inward, 0), (outward, turn))),
        _best_of(((untouched, late), (straight, turn), (inward, turn), (outward, 0))),
    )


def _best_of(ways: tuple[tuple[dict[int, Node], int], ...]) -> dict[int, Node]:
    """For every reach the least of all ways, each with what it costs more; of equals the first."""
    best: dict[int, Node] = {}
    for states, extra in ways:
        for reach, (total, trail) in states.items():
            known = best.get(reach)
            if known is None or total + extra < known[0]:
                best[reach] = (total + extra, trail)
    return best


def _shoulder_error(task: EdgeTask, straight_rows: int) -> int:
    return 0 if task.shoulder is None else round(abs(straight_rows - task.shoulder) * MICRO)


def _flush(task: EdgeTask, reach: int, row: int) -> bool:
    return (reach + row + task.phase) % 2 == 1


def _starts_here(task: EdgeTask, row: int) -> bool:
    return task.steps_out_at is not None and row % 2 == task.steps_out_at


def _inwards(
    task: EdgeTask, below: dict[int, Node], row: int, rows: int, costs: dict[int, int]
) -> dict[int, Node]:
    """Decreases and steps in. Folded, each is met by an increase or a step out further up."""
    made: dict[int, Node] = {}
    pay = task.copies * _COST * MICRO**2
    forced = pay * (FORCED_DECREASE_COST + (FORCED_INCREASE_COST if task.folded else 0))
    step = pay * STEP_COST * (2 if task.folded else 1)
    steps = not task.stepless and (not task.folded or _starts_here(task, rows - row + 1))
    best_above: list[Node | None] = [None, None]  # over reaches from reach + 2 upwards, by parity
    for reach in sorted(range(min(costs, default=0), max(below, default=0)), reverse=True):
        if reach + 2 in below:
            _keep_less(best_above, reach % 2, below[reach + 2])
        if reach not in costs:
            continue
        if reach + 1 in below:
            total, trail = below[reach + 1]
            made[reach] = (total + (0 if _flush(task, reach + 1, row - 1) else forced), trail)
        if steps:
            for parity in (0, 1):
                if task.folded and parity != reach % 2:
                    continue  # the step out that meets it can only be of whole pitches
                awkward = _AWKWARD if task.folded and _flush(task, reach, rows - row) else 0
                _keep_step(made, reach, best_above[parity], step + awkward)
    return made


def _outwards(
    task: EdgeTask, below: dict[int, Node], row: int, rows: int, costs: dict[int, int]
) -> dict[int, Node]:
    """Increases and steps out; a step out only in a row that starts here, and better from a spaced edge."""
    made: dict[int, Node] = {}
    pay = task.copies * _COST * MICRO**2
    forced = pay * (FORCED_INCREASE_COST + (FORCED_DECREASE_COST if task.folded else 0))
    step = pay * STEP_COST * (2 if task.folded else 1)
    steps = not task.stepless and _starts_here(task, row)
    best_below: list[Node | None] = [None, None]
    for reach in range(min(below, default=0) + 1, max(costs, default=-1) + 1):
        if reach - 2 in below:
            _keep_less(best_below, reach % 2, below[reach - 2])
        if reach not in costs:
            continue
        if reach - 1 in below:
            total, trail = below[reach - 1]
            made[reach] = (total + (forced if _flush(task, reach - 1, row - 1) else 0), trail)
        if steps:
            awkward = _AWKWARD if _flush(task, reach, row - 1) else 0
            _keep_step(made, reach, best_below[reach % 2], step + awkward)
    return made


def _keep_less(best: list[Node | None], parity: int, node: Node) -> None:
    known = best[parity]
    if known is None or node[0] < known[0]:
        best[parity] = node


def _keep_step(made: dict[int, Node], reach: int, node: Node | None, extra: int) -> None:
    if node is not None and (reach not in made or node[0] + extra < made[reach][0]):
        made[reach] = (node[0] + extra, node[1])


def best_end(task: EdgeTask, front: Front) -> Node | None:
    """The best state of the last row searched; folded, the middle goes on straight from it."""
    best: Node | None = None
    for direction, states in enumerate(front):
        turned = task.folded and direction in (Direction.IN, Direction.OUT)
        for reach, (total, trail) in states.items():
            end = total + (2 * task.copies * _TURN if turned else 0) + _depth_error(task, reach) * _DEPTH
            if best is None or end < best[0]:
                best = (end, trail)
    return best


def _depth_error(task: EdgeTask, reach: int) -> int:
    if task.depth is None or task.start is None:
        return 0
    return round(abs(task.start - reach - task.depth) * MICRO)


def reaches_of_trail(task: EdgeTask, trail: Trail, rows: int) -> tuple[int, ...]:
    half: list[int] = []
    step: Trail | None = trail
    while step is not None:
        half.append(step[0])
        step = step[1]
    half.reverse()
    if not task.folded or rows == 1:
        return tuple(half)
    return (*half, *reversed(half), half[0])
