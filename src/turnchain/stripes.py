"""Which yarn works which row.

In: the stripe order of a pattern. Out: a yarn's name for every row of a piece.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle, islice

from turnchain.pattern import Pattern


def row_colours(pattern: Pattern, rows: int) -> tuple[str | None, ...]:
    """The yarn of each of ``rows`` rows from row 1; without stripes the first yarn, without yarns None."""
    if pattern.stripes is None:
        return (pattern.yarns[0].name if pattern.yarns else None,) * rows
    return tuple(islice(_endless(pattern.stripes.order, pattern.stripes.rows), rows))


def _endless(order: tuple[str, ...], heights: tuple[int, ...]) -> Iterator[str]:
    for name, height in zip(cycle(order), cycle(heights), strict=False):
        yield from [name] * height
