"""Rows told together, as a person would write them.

In: the rows of a section. Out: blocks: rows in the same words at once, and rows that come again in turn told by the
rows they repeat.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.wording.instructions.rows import Block, RowInstructions

# A maker keeps three or four rows in mind, not more.
LONGEST_REPEAT = 4


def grouped(rows: tuple[RowInstructions, ...]) -> Iterator[Block]:
    """``rows`` as a person would write them: rows in the same words together, and rows that come again in turn
    told by the rows they repeat."""
    at = 0
    while at < len(rows):
        period, again = _best_repeat(rows, at)
        if period == 1:
            yield Block(rows[at : at + 1 + again])
        else:
            models = rows[at : at + period]
            yield from (Block((row,)) for row in models)
            if again:
                yield Block(rows[at + period : at + period + again], models)
        at += period + again


def _best_repeat(rows: tuple[RowInstructions, ...], at: int) -> tuple[int, int]:
    """How many rows from ``at`` on make a repeat, and how many rows after them follow it; 1 and 0 for none.

    A longer repeat must come whole twice more: for less, rows told in full are easier to follow.
    """
    best = (1, _followers(rows, at, 1))
    for period in range(2, LONGEST_REPEAT + 1):
        again = _followers(rows, at, period)
        if again >= 2 * period and again > best[1]:
            best = (period, again)
    return best


def _followers(rows: tuple[RowInstructions, ...], at: int, period: int) -> int:
    after = at + period
    while after < len(rows) and rows[after].same_words(rows[after - period]):
        after += 1
    return max(0, after - at - period)
