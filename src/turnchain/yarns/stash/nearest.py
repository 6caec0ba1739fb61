"""Where the stock is too little: the nearest plan that can be made.

In: a ``Task`` that cannot be done. Out: the wish that gives way, and the answer then.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from turnchain.yarns.stash.bounds import shortage_bound
from turnchain.yarns.stash.solving import solve
from turnchain.yarns.stash.task import Answer, Task, Wishes


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
    low, high, best = 0, len(task.row_grams), None
    while high - low > 1:
        rows = (low + high) // 2
        part = task.shortened(rows)
        if not shortage_bound(part) and (answer := solve(part)).possible:
            low, best = rows, answer
        else:
            high = rows
    return Nearest(f"with {low} of {len(task.row_grams)} rows", best) if best else None
