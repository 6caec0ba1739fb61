"""What a worked piece measures, from where its edges have come to.

In: the worked rows of a piece, its gauge and what the pattern wants measured. Out: every measure in cm, exact, in the
order in which the report has them. Edges run straight from the head of one row's edge stitch to the next; below the
head of row 1 there is no row to measure.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import floor

from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import Piece
from turnchain.proof.hook.stitches import WorkedRow


def measured(piece: Piece, plan: PiecePlan, rows: Sequence[WorkedRow]) -> tuple[Fraction, ...]:
    """Every measure of ``rows``: of an outline its height and widths, of a panel width and length, then the neck's."""
    outline = bool(piece.outline or piece.left_outline)
    body = _outline(piece, plan, rows) if outline else _panel(plan, rows)
    return (*body, *(_neck(plan, rows) if piece.neck else ()))


def _highest(rows: Sequence[WorkedRow]) -> int:
    return max(row.number for row in rows)


def _panel(plan: PiecePlan, rows: Sequence[WorkedRow]) -> tuple[Fraction, Fraction]:
    across = (rows[0].right.at - rows[0].left.at) * plan.gauge.half
    along = _highest(rows) * plan.gauge.row
    return (along, across) if plan.worked == "sideways" else (across, along)


def _outer(rows: Sequence[WorkedRow]) -> tuple[list[int], list[int]]:
    """The outermost edges of every row number; above a neck those of two parts."""
    left: dict[int, int] = {}
    right: dict[int, int] = {}
    for row in rows:
        left[row.number] = min(row.left.at, left.get(row.number, row.left.at))
        right[row.number] = max(row.right.at, right.get(row.number, row.right.at))
    return list(left.values()), list(right.values())


def _outline(piece: Piece, plan: PiecePlan, rows: Sequence[WorkedRow]) -> Iterator[Fraction]:
    lines = [line for line in (piece.outline, piece.left_outline, piece.right_outline) if line]
    wanted = max(line[-1][0] for line in lines)
    count, (left, right) = _highest(rows), _outer(rows)
    yield count * plan.gauge.row
    jumps = {y for line in lines for (y, _), (above, _) in pairwise(line) if y == above}
    for height in sorted({point[0] for line in lines for point in line}):
        at = max(height, wanted / count)
        place = at * count / wanted
        if at in jumps:
            place = Fraction(max(1, floor(place)))  # below the jump, not on its slope
        yield (_line(right, place) - _line(left, place)) * plan.gauge.half


def _line(edge: list[int], place: Fraction) -> Fraction:
    """Where an edge stands ``place`` rows up."""
    low = edge[max(0, min(floor(place), len(edge)) - 1)]
    high = edge[min(floor(place), len(edge) - 1)]
    return low + (high - low) * (place - floor(place))


def _neck(plan: PiecePlan, rows: Sequence[WorkedRow]) -> tuple[Fraction, Fraction, Fraction]:
    """Shoulder, depth and width of the neck."""
    return _divided(plan, rows) if plan.worked == "upwards" else _sideways(plan, rows)


def _divided(plan: PiecePlan, rows: Sequence[WorkedRow]) -> tuple[Fraction, Fraction, Fraction]:
    top = _highest(rows)
    left, right = sorted((row for row in rows if row.number == top), key=lambda row: row.left.at)
    parts = Counter(row.number for row in rows)
    after = max((number for number, times in parts.items() if times == 1), default=0)
    shoulders = (left.right.at - left.left.at) + (right.right.at - right.left.at)
    between = right.left.at - left.right.at
    half = plan.gauge.half
    return Fraction(shoulders, 2) * half, (top - after) * plan.gauge.row, between * half


def _sideways(plan: PiecePlan, rows: Sequence[WorkedRow]) -> tuple[Fraction, Fraction, Fraction]:
    """A shoulder is the rows before the edge goes in and after it has come out; coming out, a row leans from the row
    below, so the second shoulder begins with the row after it."""
    edge = [row.left.at if plan.top == "left" else row.right.at for row in rows]
    inwards = [abs(at - edge[0]) for at in edge]
    if not any(inwards):
        return len(rows) * plan.gauge.row / 2, Fraction(0), Fraction(0)
    shaped = [nth for nth, deep in enumerate(inwards) if deep]
    before, after = shaped[0], max(0, len(edge) - 1 - shaped[-1] - 1)
    row = plan.gauge.row
    return Fraction(before + after, 2) * row, max(inwards) * plan.gauge.half, (len(edge) - before - after) * row
