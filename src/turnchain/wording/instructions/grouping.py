"""Rows told together, as a person would write them.

In: the rows of a section. Out: blocks: rows in the same words together, and rows that come again in turn told by the
rows they repeat; and of consecutive rows their stripes, or the cycle in which stripes come again.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from turnchain.records import frozen
from turnchain.wording.instructions.rows import RowBlock, RowInstructions

# Rows: three or four in turn can be remembered, not more, but where rows are of several kinds.
LONGEST_REPEAT, LONGEST_MIXED = 4, 8


def grouped(rows: tuple[RowInstructions, ...]) -> Iterator[RowBlock]:
    """The rows of a section in blocks, in their order, each row in one block: rows in the same words together, and rows
    that come again in turn (at most ``LONGEST_REPEAT`` or ``LONGEST_MIXED`` of them) told by the rows they repeat."""
    at = 0
    while at < len(rows):
        period, again = _best_repeat(rows, at)
        if period == 1:
            yield RowBlock(rows[at : at + 1 + again])
        else:
            models = rows[at : at + period]
            yield from (RowBlock((row,)) for row in models)
            if again:
                yield RowBlock(rows[at + period : at + period + again], models)
        at += period + again


def _best_repeat(rows: tuple[RowInstructions, ...], at: int) -> tuple[int, int]:
    """How many rows from ``at`` on make a repeat, and how many rows after them follow it; 1 and 0 for none.

    A longer repeat must come whole twice more: for less, rows told in full are easier to follow.
    """
    best = (1, _followers(rows, at, 1))
    longest = LONGEST_MIXED if len({row.kind for row in rows}) > 1 else LONGEST_REPEAT
    for period in range(2, longest + 1):
        again = _followers(rows, at, period)
        if again >= 2 * period and again > best[1]:
            best = (period, again)
    return best


def _followers(rows: tuple[RowInstructions, ...], at: int, period: int) -> int:
    after = at + period
    while after < len(rows) and rows[after].same_words(rows[after - period]):
        after += 1
    return max(0, after - at - period)


# In a list with more stripes than this it is hard to find one's row.
_MOST_STRIPES = 12


@frozen
class RowStripe:
    """Rows ``first`` to ``last``, by number, both included, in the yarn called ``colour``."""

    colour: str
    first: int
    last: int

    @property
    def height(self) -> int:
        """How many rows the stripe has."""
        return self.last - self.first + 1


@frozen
class StripeOrder:
    """The stripes of rows told together: ``lead`` once, then ``cycle`` over and over to the row numbered ``last``,
    beginning in the rows numbered ``begins``. ``cycle`` holds the stripes of its first time and is empty, as is
    ``begins``, where all stripes are in ``lead``. ``after`` is the yarn of the next row where that is another, else
    None."""

    lead: tuple[RowStripe, ...]
    cycle: tuple[RowStripe, ...]
    begins: tuple[int, ...]
    last: int
    after: str | None


def stripe_order(rows: tuple[RowInstructions, ...]) -> StripeOrder:
    """The stripes of consecutive ``rows``, of which there is at least one. A cycle is looked for where there are more
    than ``_MOST_STRIPES`` stripes. No stripes where the pattern names no yarn."""
    stripes = tuple(_stripes(rows))
    last, after = rows[-1].number, rows[-1].change_to
    if len(stripes) <= _MOST_STRIPES:
        return StripeOrder(stripes, (), (), last, after)
    colours = [row.colour for row in rows]
    for period in range(2, len(rows) // 2):
        start = _start_of_cycle(rows, period)
        if start is not None and colours[start + period :] == colours[start:-period] and len(rows) > start + period:
            cycle = tuple(_stripes(rows[start : start + period]))
            begins = tuple(range(rows[start].number, last + 1, period))
            return StripeOrder(tuple(_stripes(rows[:start])), cycle, begins, last, after)
    return StripeOrder(stripes, (), (), last, after)


def _start_of_cycle(rows: tuple[RowInstructions, ...], period: int) -> int | None:
    """Where a repeat of ``period`` rows, counted from row 1, begins among ``rows``; it must begin a stripe."""
    start = -(rows[0].number - 1) % period
    begins = start < len(rows) and (start == 0 or rows[start].colour != rows[start - 1].colour)
    return start if begins else None


def _stripes(rows: tuple[RowInstructions, ...]) -> Iterator[RowStripe]:
    for colour, run in groupby(rows, key=lambda row: row.colour):
        numbers = [row.number for row in run]
        if colour is not None:
            yield RowStripe(colour, numbers[0], numbers[-1])
