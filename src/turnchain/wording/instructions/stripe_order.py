"""The stripes of rows told together.

In: consecutive rows. Out: their stripes, or the cycle in which stripes come over and over.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from turnchain.wording.instructions.rows import RowInstructions

# More stripes than this in one list are hard to keep one's place in.
_MOST_STRIPES = 12


@dataclass(frozen=True, slots=True)
class Stripe:
    """Rows ``first`` to ``last`` in one yarn."""

    colour: str
    first: int
    last: int

    @property
    def height(self) -> int:
        """How many rows."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class StripeOrder:
    """The stripes of rows told together: ``lead`` once, then ``cycle`` over and over to row ``last``, beginning in
    the rows ``begins``; ``after`` is the yarn of the next row where that is another."""

    lead: tuple[Stripe, ...]
    cycle: tuple[Stripe, ...]
    begins: tuple[int, ...]
    last: int
    after: str | None


def stripe_order(rows: tuple[RowInstructions, ...]) -> StripeOrder:
    """The stripes of consecutive ``rows``; none where the pattern names no yarn."""
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


def _stripes(rows: tuple[RowInstructions, ...]) -> Iterator[Stripe]:
    for colour, run in groupby(rows, key=lambda row: row.colour):
        numbers = [row.number for row in run]
        if colour is not None:
            yield Stripe(colour, numbers[0], numbers[-1])
