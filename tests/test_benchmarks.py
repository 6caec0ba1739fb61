"""What README says of speed is what the last kept run of the benchmarks found; and how its figures are told."""

from __future__ import annotations

import importlib.util
import json
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

BENCHMARKS = Path(__file__).parent / "benchmarks"


def _section() -> ModuleType:
    found = importlib.util.spec_from_file_location("section", BENCHMARKS / "section.py")
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    sys.modules["section"] = module
    found.loader.exec_module(module)
    return module


section = _section()


def test_readme_tells_the_last_kept_run() -> None:
    readme = section.README.read_text("utf-8")
    kept = json.loads(section.KEPT.read_text("utf-8"))
    assert section.put(readme, section.text(kept)) == readme, "python tests/benchmarks/section.py"
    assert kept["pictures"]


def cost(*cpu: float) -> dict[str, Any]:
    return {"runs": 3, "size": 2000, "cpu": list(cpu), "wall": list(cpu), "memory": [10, 20, 30]}


@pytest.mark.parametrize(("peer", "told"), [
    ((4, 6, 8), "3.0 (1.6 to 5.3), ahead"),
    ((0.5, 1, 1.2), "0.5 (0.2 to 0.8), behind"),
    ((1, 2, 3), "1.0 (0.4 to 2.0), level"),
])  # fmt: skip
def test_ratios_are_told_with_their_range_ahead_or_behind(peer: tuple[float, ...], told: str) -> None:
    # by hand: 4 / 2.5 = 1.6, 6 / 2 = 3, 8 / 1.5 = 5.33
    assert section._peer(cost(1.5, 2, 2.5), cost(*peer)) == told
    assert section._peer(cost(1, 1, 1), {"failed": "over 600 s"}) == "over 600 s"


@pytest.mark.parametrize("power", [1.0, 1.8, 2.0])
def test_the_power_of_growth_is_found(power: float) -> None:
    points = [{"size": size, "cost": cost(0, 0.5 + 1e-3 * (size**power), 9)} for size in (1, 100, 1000, 10000)]
    assert section._grown(points) == f"size^{power:.1f}"
    assert section._grown([{"size": size, "cost": cost(0, 0.5, 9)} for size in (1, 10, 100)]) == "hardly"


def test_growth_is_told_with_time_and_memory() -> None:
    points = [{"size": 10, "cost": cost(0, 0.5, 9)}, {"size": 2000, "cost": {"failed": "over 600 s"}}]
    *_, row = section._growth([{"what": "rows", "command": "chart", "points": points}])
    assert row == "| rows | `chart` | 10: 0.50 (20), 2,000: over 600 s | hardly |"


def test_waiting_is_told_for_each_pattern_and_beyond_bare_python() -> None:
    # by hand: 30 s for 20 patterns are 1.5 each, of which 0.5 would be Python's
    costs = {"turnchain": cost(20, 30, 40), "python": cost(1, 1, 1)}
    job = {"chart": "20 slipovers, each", "count": 20, "costs": costs}
    *_, row = section._starts([job])
    assert row == "| 20 slipovers, each | 1.50 s (1.00 to 2.00) | 0.50 s | 1.50 s | 20 MB |"
