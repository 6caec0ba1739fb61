"""Brackets of the short chart: what is shown once, and how many times it is worked.

In: a planned piece on a sheet with folds. Out: scene items: break lines where columns are left out, a bracket with
its count under the clusters and beside the rows that repeat.
"""

from __future__ import annotations

from turnchain.drawing.folds import Span
from turnchain.drawing.sheet import Sheet
from turnchain.fabric.plan import PiecePlan
from turnchain.numbers import rounded
from turnchain.scene import Group, Item, Path, Steps, Text, polyline
from turnchain.wording.languages.language import Speech

SIZE = 17.0
REPEATED_ROWS = 2  # two rows make the fabric's repeat: one from each side


def of(piece: PiecePlan, sheet: Sheet, speech: Speech) -> list[Item]:
    """All brackets and break lines, each bracket a group that says its repeat in words."""
    items: list[Item] = []
    if sheet.folds.across is not None:
        items += [*_break_lines(piece, sheet), _across(sheet, speech)]
    return [*items, *(_beside(sheet, span, speech) for span in sheet.folds.rows)]


def _break_lines(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """Two zigzags through all rows that run into the fold."""
    gap, across = sheet.break_at(), sheet.folds.across
    assert gap is not None
    assert across is not None
    rows = [row.number for row in piece.rows if row.left.at < across.first and across.last < row.right.at]
    top, bottom = sheet.top(max(rows)), sheet.top(min(rows) - 1)
    swing = 0.16 * sheet.half
    items: list[Item] = []
    for x in (gap[0] + 0.28 * sheet.half, gap[1] - 0.28 * sheet.half):
        points = [(rounded(x), float(top))]
        y, side = top + sheet.rise / 2, 1
        while y < bottom:
            points.append((rounded(x + side * swing), rounded(y)))
            y, side = y + sheet.rise, -side
        points.append((rounded(x), float(bottom)))
        items.append(Path(polyline(points), stroke=sheet.theme.soft, width=rounded(max(1.0, 1.3 * sheet.unit))))
    return items


def _across(sheet: Sheet, speech: Speech) -> Group:
    """Under the last cluster before the break: how many times it comes."""
    gap = sheet.break_at()
    assert gap is not None
    times = sheet.folds.clusters + 1
    y = sheet.ground + 0.62 * sheet.rise
    left, right = gap[0] - 2 * sheet.half, gap[0]
    hook = 7 * sheet.unit
    bracket = polyline([(left, y - hook), (left, y), (right, y), (right, y - hook)])
    size, ink = SIZE * sheet.unit, sheet.theme.ink
    words = speech.say("bracket.across", n=times)
    label = Text(rounded((left + right) / 2), rounded(y + 1.15 * size), f"× {times}", size, ink, "semibold", "middle")
    return Group((_stroke(sheet, bracket), label), "repeat-across", words)


def _beside(sheet: Sheet, span: Span, speech: Speech) -> Group:
    """Beside folded rows: which two rows they repeat, and how many times these are worked in all."""
    times = (span.last - span.first + 1) // REPEATED_ROWS + 1
    low, high = sheet.top(span.first - REPEATED_ROWS - 1), sheet.top(span.last)
    x = sheet.chart_right + (sheet.frame.numbers + sheet.frame.names) * sheet.unit
    hook = 7 * sheet.unit
    bracket = polyline([(x - hook, high), (x, high), (x, low), (x - hook, low)])
    first, second = span.first - 2, span.first - 1
    size = SIZE * sheet.unit
    label = Text(
        rounded(x + 8 * sheet.unit),
        rounded((low + high) / 2 + 0.35 * size),
        f"× {times}",
        size,
        sheet.theme.ink,
        "semibold",
    )
    words = speech.say("bracket.rows", first=first, second=second, n=times, last=span.last)
    return Group((_stroke(sheet, bracket), label), f"repeat-rows-{first}", words)


def words(sheet: Sheet, speech: Speech) -> list[str]:
    """What the brackets mean, for the key."""
    said = []
    if sheet.folds.across is not None:
        said.append(speech.say("bracket.key.across", n=sheet.folds.clusters + 1))
    if sheet.folds.rows:
        repeats = [
            speech.say("bracket.repeat", first=span.first - 2, second=span.first - 1, last=span.last)
            for span in sheet.folds.rows
        ]
        said.append(speech.say("bracket.key.rows", repeats=", ".join(repeats)))
    return said


def _stroke(sheet: Sheet, steps: Steps) -> Path:
    return Path(steps, stroke=sheet.theme.ink, width=rounded(max(1.0, 1.5 * sheet.unit)))
