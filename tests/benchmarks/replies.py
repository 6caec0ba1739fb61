"""How long the design page waits for a reply, beside what the same pattern takes to be planned and drawn alone.

    python tests/benchmarks/replies.py [--runs 7]

Processor time of this process, the median of the runs, and its ratio to planning and charting the pattern anew. Not
part of the tests, and nothing here fails for being slow: compare ratios of one run.
"""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from typing import Any

import turnchain
from turnchain.live.answering import Live

TOP = Path(__file__).parent.parent.parent
PATTERNS = {
    "one piece": (TOP / "gallery/patterns/fallow_lane_slipover.toml", "body", "length", 39.0),
    "three pieces": (TOP / "tests/cases/heron_top.toml", "front", "width", 54.0),
}
SHOWN = ["chart", "row"]


def main() -> None:
    """Measures and tells."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    asked.add_argument("--runs", type=int, default=7)
    runs = asked.parse_args().runs
    for name, (file, piece, key, wanted) in PATTERNS.items():
        text = file.read_text("utf-8")
        alone = _taken(runs, lambda _, text=text, piece=piece: _alone(text, piece))
        print(f"{name}: planned and charted alone {alone:.0f} ms")
        for what, taken in _replies(text, piece, key, wanted, runs):
            print(f"  {what}: {taken:.0f} ms, {taken / alone:.2f} of that")


def _replies(text: str, piece: str, key: str, wanted: float, runs: int) -> Iterator[tuple[str, float]]:
    """What is replied to, and how long it takes."""
    live, message = Live(), {"text": text, "piece": piece, "row": 3, "want": SHOWN}
    live.answer(message)
    for what, edits in _edits(key, wanted).items():
        yield what, _taken(runs, lambda nth, edits=edits: live.answer({**message, "edits": edits(nth)}))
    for part in ("reach", "also", "orders"):
        asked = {"text": text, "piece": piece, "want": [part], "measure": "shoulder"}
        yield f"{part}, nothing known before", _taken(min(runs, 3), lambda _, asked=asked: Live().answer(asked))


def _edits(key: str, wanted: float) -> dict[str, Callable[[int], list[dict[str, Any]]]]:
    return {
        "another measure": lambda nth: [{"path": ["piece", 0, key], "value": round(wanted + 0.7 * (nth + 1), 2)}],
        "another colour": lambda nth: [{"path": ["yarn", 0, "colour"], "value": f"#{4096 * (nth + 1):06x}"}],
        "no change": lambda nth: [],
    }


def _alone(text: str, piece: str) -> None:
    turnchain.chart(turnchain.plan(turnchain.loads(text)), piece)


def _taken(runs: int, does: Callable[[int], object]) -> float:
    """The median of processor time in ms."""
    found = []
    for nth in range(runs):
        begun = time.process_time()
        does(nth)
        found.append(1000 * (time.process_time() - begun))
    return median(found)


if __name__ == "__main__":
    main()
