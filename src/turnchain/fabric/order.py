"""Rows of more than one kind: which kind each row is, how high, and where its units stand.

In: what a pattern says of its rows. Out: a ``RowOrder``, which a recipe holds. A row is a cluster row (of the recipe's
units) or a solid one: one stitch in every stitch and chain of the row below. Solid rows keep edges, kinds of edge and
the running phase; of a cluster row after them ``then`` says where its units stand. Heights are in cluster rows here.
"""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from functools import cached_property
from itertools import accumulate, cycle, islice

from turnchain.records import frozen

CLUSTERS = "cluster"  # the kind of a row of units; a solid row is called by its stitch


@frozen(slots=False)
class RowOrder:
    """``base`` rows at the foot, ``last`` ones at the top, all solid, and between them ``rows`` going round, the first
    of them a cluster row. ``staggered``: units that follow solid rows stand over the gaps below those, else over the
    units. ``shares``: how high a solid row is, by its stitch, that of a cluster row being 1. ``weights``: how heavy
    rows are for their area, by their kind, that of the whole swatch being 1; those not named weigh 1."""

    base: tuple[str, ...] = ()
    rows: tuple[str, ...] = (CLUSTERS,)
    last: tuple[str, ...] = ()
    staggered: bool = True
    shares: tuple[tuple[str, Fraction], ...] = ()
    weights: tuple[tuple[str, Fraction], ...] = ()

    def __hash__(self) -> int:
        return hash((self.base, self.rows, self.last, self.staggered))

    @cached_property
    def plain(self) -> bool:
        """Whether all rows are cluster rows."""
        return not self.base and not self.last and set(self.rows) == {CLUSTERS}

    @property
    def least(self) -> int:
        """The rows that a piece has at the least: one of them is a cluster row."""
        return len(self.base) + 1 + len(self.last)

    @property
    def differing(self) -> int:
        """Row 1 up to this one have all the running phases that there are."""
        return 2 if self.plain else len(self.base) + 2 * len(self.rows) + 1

    @property
    def solid(self) -> tuple[str, ...]:
        """The stitches of solid rows, each once, as first met."""
        return tuple(dict.fromkeys(kind for kind in (*self.base, *self.rows, *self.last) if kind != CLUSTERS))

    def kinds(self, count: int) -> tuple[str, ...]:
        """The kind of each of ``count`` rows (``least`` or more)."""
        between = count - len(self.base) - len(self.last)
        return (*self.base, *islice(cycle(self.rows), between), *self.last)

    def repeat(self, shift: int) -> int:
        """After how many rows between base and last rows come again as they are, worked from the same side: an even
        number; two where all are cluster rows. The edge table ``shift``s the running phase."""
        first = len(self.base) + 1
        rounds = (len(self.rows) * times for times in (1, 2))
        return 2 if self.plain else next(
            rows for rows in rounds
            if not rows % 2 and not (self.shifts(first + rows, shift) - self.shifts(first, shift)) % 2
        )  # fmt: skip

    def share(self, kind: str) -> Fraction:
        """The height of a row of this ``kind``, that of a cluster row being 1."""
        return Fraction(1) if kind == CLUSTERS else dict(self.shares)[kind]

    def weight(self, kind: str) -> Fraction:
        """How heavy a row of this ``kind`` is for its area, that of the whole swatch being 1."""
        return dict(self.weights).get(kind, Fraction(1))

    @cached_property
    def mean(self) -> Fraction:
        """The mean height of rows as they go round, that of a cluster row being 1: what a swatch counts."""
        return sum(map(self.share, self.rows), Fraction(0)) / len(self.rows)

    def heights(self, count: int) -> tuple[Fraction, ...]:
        """The height of each of ``count`` rows, that of the mean row of a swatch being 1."""
        return tuple(self.share(kind) / self.mean for kind in self.kinds(count))

    def rows_in(self, height: Fraction) -> Fraction:
        """How many rows, and what share of one more, are ``height`` high (in mean rows of a swatch)."""
        count = self.least
        while self.height(count + 1) <= height:
            count += 1
        low = self.height(count)
        return count + max(Fraction(0), height - low) / (self.height(count + 1) - low)

    def height(self, count: int) -> Fraction:
        """The height of ``count`` rows together, in mean rows of a swatch."""
        if self.plain:
            return Fraction(count)
        ends = sum(map(self.share, (*self.base, *self.last)), Fraction(0))
        rounds, over = divmod(count - len(self.base) - len(self.last), len(self.rows))
        part = sum(map(self.share, self.rows[:over]), Fraction(0))
        return (ends + part) / self.mean + rounds * len(self.rows)

    def tops(self, count: int) -> tuple[Fraction, ...]:
        """How high the top of each of ``count`` rows lies, from row 0 (the foundation) on, so that all are ``count``
        high."""
        if self.plain:
            return tuple(map(Fraction, range(count + 1)))
        whole = self.height(count)
        return tuple(top * count / whole for top in accumulate(self.heights(count), initial=Fraction(0)))

    def place(self, level: Fraction, count: int) -> Fraction:
        """How many of ``count`` rows, and what share of the next, lie below a ``level`` of ``count``."""
        if self.plain:
            return level
        tops = self.tops(count)
        below = min(bisect_right(tops, level), count) - 1
        return below + (level - tops[below]) / (tops[below + 1] - tops[below])

    def all_shifts(self, count: int, shift: int) -> tuple[int, ...]:
        """``shifts`` of each of ``count`` rows, from below row 1 (0) on; the last rows keep those of the row below."""
        moving = count - len(self.last)
        found = [self.shifts(number, shift) for number in range(moving + 1)]
        return (*found, *[found[-1]] * len(self.last))

    def shifts(self, number: int, shift: int) -> int:
        """How often the running phase has changed from below row 1 up to row ``number`` (0 and up), where the edge
        table ``shift``s it from one cluster row to the next; ``last`` rows are not counted, they keep it."""
        if self.plain:
            return shift * number
        if number <= len(self.base):
            return shift if number else 0
        found, below = shift, CLUSTERS
        for kind in islice(cycle(self.rows), 1, number - len(self.base)):
            if kind == CLUSTERS:
                found += shift if below == CLUSTERS else int(self.staggered)
            below = kind
        return found


PLAIN = RowOrder()

