"""Edges that cannot follow their curve: within bounds and by widening alone, the best path found is the same.

Oracle: the search that widens its band until no path leaves it, which ``test_fitting`` holds against every plan of
small pieces; and for the bounds themselves, the cost of the path found. No published source.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import pytest

from test_limits import HEAD, outlined, stepped, zigzag
from turnchain.fabric.library import recipe_of
from turnchain.pattern import Fabric
from turnchain.planning import fitting, planner
from turnchain.planning.bounds import SLACK, NearestLine, PathBounds
from turnchain.planning.budget import SearchBudget
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.moves import MICRO, EdgeTask
from turnchain.reading.pattern_file import read_text

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
