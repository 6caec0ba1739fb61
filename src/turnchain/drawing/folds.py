"""What a short chart leaves out: stretches that only repeat, folded away.

In: a planned piece. Out: ``Folds``: a range of columns and ranges of rows that need not be drawn, each beside a
stretch that shows what is repeated. Shaping is never folded, nor what stands near it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise

from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Row

KEPT_CLUSTERS = 3  # drawn at each side of a fold across
LEAST_CLUSTERS = 3  # fewer are not worth a fold
KEPT_ROWS = 2  # drawn before and after a fold upwards
LEAST_ROWS = 4


@dataclass(frozen=True, slots=True)
class Span:
    """``first`` to ``last``, both folded away: positions in half pitches (clusters with their middle in
    ``first`` <= c < ``last``) or row numbers (``first`` to ``last``, both included)."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Folds:
    """``across``: the columns left out, or None. ``rows``: the stretches of rows left out, from the bottom up."""

    across: Span | None = None
    rows: tuple[Span, ...] = ()

    @property
    def clusters(self) -> int:
        """How many clusters of each row that runs through the fold are left out."""
        return 0 if self.across is None else (self.across.last - self.across.first) // 2

    def hides_row(self, number: int) -> bool:
        """Whether row ``number`` is drawn as a mere stripe."""
        return any(span.first <= number <= span.last for span in self.rows)

    def hides(self, position: float) -> bool:
        """Whether what stands at ``position`` is left out."""
        return self.across is not None and self.across.first <= position < self.across.last


NO_FOLDS = Folds()


def folded(piece: PiecePlan) -> Folds:
    """What can be left out of ``piece``."""
    return Folds(_across(piece), tuple(_up(piece)))


def _across(piece: PiecePlan) -> Span | None:
    """The widest range of columns that every row runs straight through, or leaves to the neck as a whole."""
    reaches = sorted({edge.at for row in piece.rows for edge in (row.left, row.right)})
    best: Span | None = None
    for low, high in pairwise(reaches):
        span = _between(piece, low + 2 * KEPT_CLUSTERS, high - 2 * KEPT_CLUSTERS)
        wider = span.last - span.first > (best.last - best.first if best else 0)
        if span.last - span.first >= 2 * LEAST_CLUSTERS and wider and _within_all(piece, span.first, span.last):
            best = span
    return best


def _between(piece: PiecePlan, first: int, last: int) -> Span:
    """Whole pitches from ``first`` to ``last``; what is over stays at the side where row 1 ends, whichever hand works
    it."""
    over = (last - first) % 2
    if piece.rows[0].starts == "right":
        return Span(first, last - over)
    return Span(first + 1 + over, last + 1)


def _within_all(piece: PiecePlan, first: int, last: int) -> bool:
    return all(
        ((row.left.at < first and last < row.right.at) or last <= row.left.at or row.right.at <= first)
        and not _stepped_across(piece, row, first, last)
        for row in piece.rows
    )


def _stepped_across(piece: PiecePlan, row: Row, first: int, last: int) -> bool:
    """Whether an edge steps over the columns: its slip stitches or chains must be seen."""
    under = piece.below(row)
    if under is None or piece.begins_section(row):
        return False
    return any(
        min(row.edge(side).at, under.edge(side).at) < last and first < max(row.edge(side).at, under.edge(side).at)
        for side in SIDES
        if row.edge(side).step
    )


def _up(piece: PiecePlan) -> list[Span]:
    """Stretches of straight rows, shortened in the middle by whole pairs of rows."""
    straight = {
        number: all(_plain(piece, row) for row in rows)
        for number, rows in groupby(sorted(piece.rows, key=lambda row: row.number), key=lambda row: row.number)
    }
    spans: list[Span] = []
    for plain, run in groupby(straight.items(), key=lambda item: item[1]):
        numbers = [number for number, _ in run]
        first = numbers[0] + (KEPT_ROWS + 1 if numbers[0] == 1 else KEPT_ROWS)
        last = numbers[-1] - KEPT_ROWS
        last -= (last - first + 1) % 2
        if plain and last - first + 1 >= LEAST_ROWS:
            spans.append(Span(first, last))
    return spans


def _plain(piece: PiecePlan, row: Row) -> bool:
    return all(row.edge(side).move == "straight" for side in SIDES) and not piece.begins_section(row)
