"""What a short chart leaves out: stretches that only repeat, folded away.

In: a planned piece. Out: ``Folds``: a range of columns and ranges of rows that need not be drawn, each beside a
stretch that shows what is repeated. Shaping is never folded, nor what stands near it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby, pairwise

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.records import frozen

KEPT_CLUSTERS = 3  # drawn at each side of a fold across
LEAST_CLUSTERS = 3  # fewer are not folded away
KEPT_ROWS = 2  # drawn before and after a fold upwards
LEAST_ROWS = 4  # the same
MOST_BANDS = 8  # stripes shown of folded rows
LEAST_SAVED = 1 / 3  # of the drawing: a short chart that saves less is not made


@frozen
class Span:
    """``first`` to ``last``, both folded away: positions in half pitches (clusters with their middle in
    ``first`` <= c < ``last``) or row numbers (``first`` to ``last``, both included)."""

    first: int
    last: int

    @property
    def count(self) -> int:
        """How many rows; not for a span of positions."""
        return self.last - self.first + 1


@frozen
class Folds:
    """``across``: the columns left out, or None. ``rows``: the stretches of rows left out, from the bottom up;
    ``bands``: for each of them the stripes that stand for it, as the rows of each. Where there would be more than
    ``MOST_BANDS`` stripes, one band stands for those in the middle and is in ``skipped`` too: it has no colour.
    ``repeated``: the rows below each stretch that repeat in it. ``window``: the only rows drawn at all, or None for
    all. ``left_cut``, ``right_cut``: positions; what stands left of the one, and from the other on, is not drawn at
    all; None where the edge is drawn."""

    across: Span | None = None
    rows: tuple[Span, ...] = ()
    bands: tuple[tuple[Span, ...], ...] = ()
    skipped: tuple[Span, ...] = ()
    repeated: int = 2
    window: Span | None = None
    left_cut: int | None = None
    right_cut: int | None = None

    def cut(self, side: Side) -> int | None:
        """The position from which columns towards ``side`` are not drawn; None where the edge at ``side`` is."""
        return self.left_cut if side == "left" else self.right_cut

    @property
    def by_columns(self) -> bool:
        """Whether any columns are left out."""
        return (self.across, self.left_cut, self.right_cut) != (None, None, None)

    @property
    def clusters(self) -> int:
        """How many clusters of each row that runs through the fold are left out."""
        return 0 if self.across is None else (self.across.last - self.across.first) // 2

    def hides_row(self, number: int) -> bool:
        """Whether row ``number`` is drawn as a mere stripe, or not at all."""
        return any(span.first <= number <= span.last for span in self.rows) or not self.shows_row(number)

    def shows_row(self, number: int) -> bool:
        """Whether row ``number`` lies in the window."""
        return self.window is None or self.window.first <= number <= self.window.last

    def skips_row(self, number: int) -> bool:
        """Whether not even the stripe of row ``number`` is drawn."""
        return any(span.first <= number <= span.last for span in self.skipped) or not self.shows_row(number)

    def hides(self, position: float, begin: Callable[[int], float] = float) -> bool:
        """Whether what stands at ``position`` (half pitches) is left out; ``begin``: from where on its like is, where
        columns are from a position on."""
        if self.left_cut is not None and position < begin(self.left_cut):
            return True
        if self.right_cut is not None and position >= begin(self.right_cut):
            return True
        if self.across is None:
            return False
        first = begin(self.across.first)
        return first <= position < first + self.across.last - self.across.first

    def times(self, span: Span) -> int:
        """How many times the rows below the folded ``span`` that repeat in it are worked in all, those drawn and those
        folded."""
        return span.count // self.repeated + 1


NO_FOLDS = Folds()


def folded(piece: PiecePlan) -> Folds:
    """What can be left out of ``piece``, across and upwards; ``NO_FOLDS`` where that would save less than
    ``LEAST_SAVED`` of the drawing."""
    folds = _with_bands(piece, _across(piece), tuple(_up(piece)))
    return folds if saved(piece, folds) >= LEAST_SAVED else NO_FOLDS


def folded_across(
    piece: PiecePlan, kept: tuple[int, int] = (KEPT_CLUSTERS, KEPT_CLUSTERS), window: Span | None = None
) -> Folds:
    """The columns that can be left out of the rows in ``window`` (None: all) where so many clusters are ``kept`` at the
    left and the right; no rows are folded, those outside the window are not drawn. ``across`` is None where fewer than
    ``LEAST_CLUSTERS`` clusters could go."""
    rows = [row for row in piece.rows if window is None or window.first <= row.number <= window.last]
    return Folds(_across(piece, kept, rows), window=window)


def cut_to(piece: PiecePlan, at: Side, kept: int, window: Span) -> Folds | None:
    """The rows in ``window`` (of row numbers) at their edge ``at`` alone, with ``kept`` clusters where they are
    narrowest there; None where not every row goes on beyond that, and where a neck divides them."""
    rows = [row for row in piece.rows if window.first <= row.number <= window.last]
    if len({row.section for row in rows}) > 1:
        return None
    if at == "left":
        right = max(row.left.at for row in rows) + 2 * kept
        return Folds(window=window, right_cut=right) if min(row.right.at for row in rows) > right + 2 else None
    left = min(row.right.at for row in rows) - 2 * kept + 1
    return Folds(window=window, left_cut=left) if max(row.left.at for row in rows) < left - 3 else None


def saved(piece: PiecePlan, folds: Folds) -> float:
    """The share of the area of the whole chart that ``folds`` save, 0 to 1."""
    wide = piece.rightmost - piece.leftmost + 1
    rows = piece.row_count - sum(span.count for span in folds.rows)
    shown = rows + STRIPE * sum(len(bands) for bands in folds.bands)
    return 1 - (wide - 2 * folds.clusters) * shown / (wide * piece.row_count)


STRIPE = 0.62  # height of a stripe of folded rows over that of a drawn row


def _with_bands(piece: PiecePlan, across: Span | None, rows: tuple[Span, ...]) -> Folds:
    bands: list[tuple[Span, ...]] = []
    skipped: list[Span] = []
    for span in rows:
        stripes = _stripes(piece, span)
        if len(stripes) > MOST_BANDS:
            head, tail = stripes[: MOST_BANDS // 2], stripes[len(stripes) - (MOST_BANDS // 2 - 1) :]
            middle = Span(head[-1].last + 1, tail[0].first - 1)
            skipped.append(middle)
            stripes = [*head, middle, *tail]
        bands.append(tuple(stripes))
    return Folds(across, rows, tuple(bands), tuple(skipped), piece.repeat)


def _stripes(piece: PiecePlan, span: Span) -> list[Span]:
    """The stripes of folded rows."""
    rows = [row for row in piece.row_levels if span.first <= row.number <= span.last]
    found = []
    for _, group in groupby(rows, key=lambda row: row.colour):
        numbers = [row.number for row in group]
        found.append(Span(numbers[0], numbers[-1]))
    return found


def _across(
    piece: PiecePlan, kept: tuple[int, int] = (KEPT_CLUSTERS, KEPT_CLUSTERS), shown: Sequence[Row] = ()
) -> Span | None:
    """The widest range of columns that every row runs straight through, or leaves to the neck as a whole."""
    rows = shown or piece.rows
    reaches = sorted({edge.at for row in rows for edge in (row.left, row.right)})
    best: Span | None = None
    for low, high in pairwise(reaches):
        span = _between(piece, low + 2 * kept[0], high - 2 * kept[1])
        wider = span.last - span.first > (best.last - best.first if best else 0)
        if span.last - span.first >= 2 * LEAST_CLUSTERS and wider and _within_all(piece, rows, span):
            best = span
    return best


def _between(piece: PiecePlan, first: int, last: int) -> Span:
    """Whole pitches from ``first`` to ``last``; what is over stays at the side where row 1 ends, whichever hand works
    it."""
    over = (last - first) % 2
    if piece.rows[0].starts == "right":
        return Span(first, last - over)
    return Span(first + 1 + over, last + 1)


def _within_all(piece: PiecePlan, rows: Sequence[Row], span: Span) -> bool:
    first, last = span.first, span.last
    if not any(row.left.at < first and last < row.right.at for row in rows):
        return False  # nothing but the neck would be folded away
    return all(
        ((row.left.at < first and last < row.right.at) or last <= row.left.at or row.right.at <= first)
        and not _stepped_across(piece, row, first, last)
        for row in rows
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
    """Stretches of straight rows, shortened in the middle by whole repeats of rows."""
    repeat, order = piece.repeat, piece.recipe.order
    straight = {
        number: all(_plain(piece, row) for row in rows)
        for number, rows in groupby(sorted(piece.rows, key=lambda row: row.number), key=lambda row: row.number)
    }
    spans: list[Span] = []
    for plain, run in groupby(straight.items(), key=lambda item: item[1]):
        numbers = [number for number, _ in run]
        first = numbers[0] + repeat + (1 + len(order.base) if numbers[0] == 1 else 0)
        last = min(numbers[-1] - KEPT_ROWS, piece.row_count - len(order.last))
        last -= (last - first + 1) % repeat
        if plain and last - first + 1 >= LEAST_ROWS:
            spans.append(Span(first, last))
    return spans


def _plain(piece: PiecePlan, row: Row) -> bool:
    return all(row.edge(side).move == "straight" for side in SIDES) and not piece.begins_section(row)
