"""The pictures of a series to post: which rows each shows, so that together they tell the whole piece.

In: a planned piece and how many rows a picture takes. Out: ``SeriesPart``: foundation and start, one repeat alone, each
shaped stretch of the edges, the end, the stripes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from turnchain.drawing.folds import Folds, Span
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.records import frozen, replace

NEAR = 3  # rows: shaped rows no farther apart are one stretch
# Drawn of one repeat, its two rows and its cluster, with what stands around them: tried for those that fill a picture.
MOST_LEFT_OUT = 5  # rows of a picture where it is fuller with fewer
REPEAT_ROWS, REPEAT_CLUSTERS = range(4, 11), range(3, 6)


@frozen
class SeriesPart:
    """One picture of a series: the rows ``first`` to ``last`` (numbers, both included) and ``what`` they show, the name
    of a phrase "post.*" of the languages: "stripes" all rows without stitches, "repeat" a few clusters in their middle.
    ``needed``: those of the rows that no other picture shows; ``at``: the only edge drawn; None: both are."""

    what: str
    first: int
    last: int
    needed: Span
    at: Side | None = None

    @property
    def of_some_rows(self) -> bool:
        """Whether it shows as many rows as a picture takes: not one repeat or all stripes."""
        return self.what not in ("repeat", "stripes")

    @property
    def window(self) -> Span:
        """Its rows."""
        return Span(self.first, self.last)

    def windows(self) -> Iterator[Span]:
        """Its rows, and fewer and fewer of them with all that are needed."""
        low, high = self.first, self.last
        for _ in range(MOST_LEFT_OUT + 1):
            yield Span(low, high)
            if high - self.needed.last > self.needed.first - low:
                high -= 1
            elif low < self.needed.first:
                low += 1
            else:
                return


def parts(piece: PiecePlan, most: int, begin: int) -> Iterator[SeriesPart]:
    """The pictures of a series, none of more than ``most`` rows but that of the stripes, the first of ``begin`` rows:
    every shaped row is in one of them."""
    begin = min(begin, piece.row_count)
    yield SeriesPart("start", 1, begin, Span(1, begin))
    if any(one_repeat(piece)):
        yield SeriesPart("repeat", 2, piece.row_count, Span(2, 2))
    shown = begin
    for first, last in _shaped(piece):
        low = _centred(first, last, most, piece.row_count) if first > shown else shown + 1
        while low <= last:
            high = min(low + most - 1, piece.row_count)
            begin = max(1, min(low, high - most + 1))
            needed = Span(max(first, shown + 1), high if high == piece.row_count else min(last, high))
            yield SeriesPart(_what_happens(piece, begin, high), begin, high, needed)
            shown, low = needed.last, high + 1
    if piece.row_count > shown:
        last = piece.row_count
        yield SeriesPart("end", max(1, last - most + 1), last, Span(last, last))
    if piece.rows[0].colour is not None and len({row.colour for row in piece.rows}) > 1:
        yield SeriesPart("stripes", 1, piece.row_count, Span(1, piece.row_count))


def edge_parts(piece: PiecePlan, part: SeriesPart) -> list[SeriesPart]:
    """The same rows with one edge alone: of each edge that is shaped there; of both at the start and the end."""
    rows = [row for row in piece.rows if part.first <= row.number <= part.last]
    shaped = [side for side in SIDES if any(row.edge(side).move != "straight" for row in rows)]
    return [replace(part, at=side) for side in (SIDES if part.what in ("start", "end") else shaped)]


def one_repeat(piece: PiecePlan) -> Iterator[Folds]:
    """One repeat alone in the middle of a few rows and clusters, in several numbers of both; each from the lowest row
    above row 1 on from where all are wide enough. None where no rows are."""
    begin = len(piece.recipe.order.base) + 1  # the first row of clusters stands otherwise than those that follow
    levels = [row for row in piece.row_levels if row.number > begin and row.section == piece.rows[0].section]
    for high, wide in product((piece.repeat,) if piece.mixed else REPEAT_ROWS, REPEAT_CLUSTERS):
        found = (_alone(levels[nth : nth + high], wide) for nth in range(len(levels) - high + 1))
        yield from list(filter(None, found))[:1]


def _alone(rows: Sequence[Row], clusters: int) -> Folds | None:
    low, high = max(row.left.at for row in rows) + 2, min(row.right.at for row in rows) - 2
    first = (low + high) // 2 - clusters
    if first <= low or first + 2 * clusters + 1 >= high:
        return None
    return Folds(
        window=Span(rows[0].number, rows[-1].number), left_cut=first, right_cut=first + 2 * clusters + 1
    )


def _centred(first: int, last: int, most: int, rows: int) -> int:
    """The first of ``most`` rows with the rows ``first`` to ``last`` in their middle, as far as there are rows."""
    return max(1, min(first, first - (most - (last - first + 1)) // 2, rows - most + 1))


def _shaped(piece: PiecePlan) -> Iterator[tuple[int, int]]:
    """Each stretch of rows with shaped edges: its first and its last row."""
    numbers = sorted({row.number for row in piece.rows if row.number > 1 and _moves(row)})
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number - runs[-1][-1] <= NEAR:
            runs[-1].append(number)
        else:
            runs.append([number])
    yield from ((run[0], run[-1]) for run in runs)


def _what_happens(piece: PiecePlan, first: int, last: int) -> str:
    """What the edges do from row ``first`` to row ``last``."""
    moves = [move for row in piece.rows if first <= row.number <= last for move in _moves(row)]
    less = ["decrease" in move or move == "step_in" for move in moves]
    if piece.has_neck:
        return "into_neck" if all(less) else "neck" if any(less) else "out_of_neck"
    return "narrower" if all(less) else "shaped" if any(less) else "wider"


def _moves(row: Row) -> list[str]:
    return [row.edge(side).move for side in SIDES if row.edge(side).move != "straight"]
