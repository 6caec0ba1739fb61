"""Edges that cannot follow their curve: within bounds and by widening alone, the best path found is the same, and no
other path is better.

Oracle: the search that widens its band until no path leaves it, which ``test_fitting`` holds against every plan of
small pieces; all paths, row by row, with the prices that ``test_fitting`` has written apart; and for the bounds
themselves, the cost of the path found. No published source.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import pytest

from test_fitting import flush, move_price
from test_limits import HEAD, outlined, stepped, zigzag
from turnchain.fabric.library import recipe_of
from turnchain.pattern import Fabric
from turnchain.planning import fitting, planner
from turnchain.planning.bounds import SLACK, NearestLine, PathBounds
from turnchain.planning.budget import SearchBudget
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.moves import MICRO, EdgeTask
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace

LOWEST, HIGHEST = -3, 33  # beyond all reaches of these tasks


def task_of(seed: int) -> EdgeTask:
    """A curve that jumps to and fro, with whatever else a task may have."""
    rng = Random(seed)
    rows, high = rng.randint(3, 14), rng.choice((4, 10, 30))
    wanted = [rng.randint(0, high * MICRO) for _ in range(rows - 2)]
    for end in (0, high * MICRO):  # so that a start or a limit lies beside the curve, as in all that is planned
        wanted.insert(rng.randint(0, len(wanted)), end)
    worked = dict.fromkeys(range(1, rng.choice((1, 1, 3))), rng.randint(0, 3)) if rows > 3 else {}
    limits = {rows: (0, high // 2)} if rng.random() < 0.2 else {}
    late = {row: rng.randint(0, high) * MICRO for row in range(2, rows) if rng.random() < 0.1 and row not in worked}
    narrow = rng.random() < 0.2
    return EdgeTask(
        wanted=tuple(wanted),
        phase=rng.randint(0, 1),
        table=recipe_of(Fabric()).table,
        steps_out_at=rng.choice((None, 0, 1)),
        start=rng.choice((None, rng.randint(0, high))) if not worked else None,
        folded=rng.random() < 0.3 and not (worked or limits or late),
        copies=rng.choice((1, 2)),
        allowed=lambda row, reach: not narrow or reach >= 1,
        limits=limits,
        worked=worked,
        late=late,
        natural=rng.random() < 0.2,
        steps=rng.random() < 0.9,
    )


@pytest.mark.quick(2)
@pytest.mark.parametrize("block", range(6))
def test_the_best_path_is_the_same(block: int, monkeypatch: pytest.MonkeyPatch) -> None:
    for seed in range(block * 100, block * 100 + 100):
        assert fitted(seed, monkeypatch, bounded=True) == fitted(seed, monkeypatch, bounded=False), seed


Weighed = tuple[int, int, int, int]  # cost, error of row 1, changes of direction, steps out from flush edges


@pytest.mark.parametrize("seed", range(60))
def test_no_path_is_better(seed: int) -> None:
    """Folded tasks are left to the test above, and rows that are worked to ``test_progress``."""
    task = replace(task_of(seed), folded=False, worked={})
    found = {parity: tuple(path.key) for parity, path in fit_edge(task).items()}
    assert found == {parity: best for parity in (0, 1) if (best := least(task, parity)) is not None}


def least(task: EdgeTask, parity: int) -> Weighed | None:
    """The least of all paths whose first reach has this parity, by trying every reach in every row."""
    within = range(LOWEST, max(task.wanted) // MICRO + 5)
    if task.start is not None and task.start % 2 != parity:
        return None
    first = (task.start,) if task.start is not None else [reach for reach in within if reach % 2 == parity]
    ways = {
        (reach, 0): (place(task, 1, reach), task.copies * abs(reach * MICRO - task.wanted[0]), 0, 0)
        for reach in first if may_stand(task, 1, reach)
    }  # fmt: skip
    for row in range(2, task.rows + 1):
        after: dict[tuple[int, int], Weighed] = {}
        for (below, way), (cost, width, turns, awkward) in ways.items():
            for reach in within:
                price = price_of(task, row, below, reach)
                if price is None or not may_stand(task, row, reach):
                    continue
                now = (reach > below) - (reach < below)
                steps = int(reach > below + 1 and flush(below, row - 1, task.phase))
                total = (
                    cost + task.copies * price * MICRO**2 + place(task, row, reach), width,
                    turns + task.copies * (now != way), awkward + steps,
                )  # fmt: skip
                after[reach, now] = min(total, after.get((reach, now), total))
        ways = after
    return min(ways.values(), default=None)


def price_of(task: EdgeTask, row: int, below: int, reach: int) -> int | None:
    out = reach - below
    if abs(out) > 1 and not task.steps:
        return None
    price = move_price(out, below, row, task.phase, task.steps_out_at is not None and row % 2 == task.steps_out_at)
    return None if task.natural and out == 1 and price else price


def place(task: EdgeTask, row: int, reach: int) -> int:
    marks = (task.wanted[row - 1], *([task.late[row]] if row in task.late else []))
    return task.copies * min((reach * MICRO - mark) ** 2 for mark in marks)


def may_stand(task: EdgeTask, row: int, reach: int) -> bool:
    low, high = task.limits.get(row, (reach, reach))
    return low <= reach <= high and task.allowed(row, reach)


def fitted(seed: int, monkeypatch: pytest.MonkeyPatch, bounded: bool) -> dict[int, EdgePath]:
    """The best paths of a task, within bounds from the first, or by widening alone."""
    with monkeypatch.context() as changed:
        changed.setattr(fitting, "too_steep", lambda task: bounded)
        changed.setattr(fitting, "WIDENINGS", 100)
        changed.setattr(fitting, "FIRST_MARGIN", 2 if task_of(seed).steps else 40)
        return fit_edge(task_of(seed))


@pytest.mark.parametrize("seed", range(100))
def test_no_path_costs_less_than_its_bound(seed: int) -> None:
    task = task_of(seed)
    limits = [(LOWEST, HIGHEST)] * task.last
    if task.start is not None:
        limits[0] = (task.start, task.start)
    nearest = NearestLine(task)
    for parity, path in fit_edge(task).items():
        cost = path.key.cost / MICRO**2
        assert nearest.least <= cost * SLACK
        bounds = PathBounds(task, limits, parity)
        assert bounds.least == pytest.approx(cost)
        for ranges in (nearest.ranges(cost, limits), bounds.ranges(cost)):
            assert all(low <= reach <= high for (low, high), reach in zip(ranges, path.reaches, strict=False))


@pytest.mark.quick(1)
@pytest.mark.parametrize("wave", [zigzag, stepped])
def test_twice_the_rows_are_twice_the_search(wave: Callable[[int], float], monkeypatch: pytest.MonkeyPatch) -> None:
    """Sides that no rows can follow, as wide as they are long: what is searched grows with the rows alone."""
    once, twice = (places_of(outlined(side, side, wave), monkeypatch) for side in (60, 120))
    assert twice < 2.5 * once


def places_of(piece: str, monkeypatch: pytest.MonkeyPatch) -> int:
    """How many places are searched for a piece."""
    budget = SearchBudget()
    monkeypatch.setattr(planner, "SearchBudget", lambda: budget)
    planner.plan_pattern(read_text(HEAD + piece, "a.toml"))
    return budget.places
