"""What stands around the stitches: bands, edge lines, marks, row numbers, the stripe ruler, names of edges.

In: a planned piece on its sheet. Out: scene items.
"""

from __future__ import annotations

from itertools import groupby

from turnchain import style
from turnchain.lattice import Side
from turnchain.numbers import rounded
from turnchain.pattern import Pattern
from turnchain.plan import PiecePlan, Row
from turnchain.scene import Anchor, Item, Path, Text, arrow, polyline, rectangle
from turnchain.sheet import NAMES, NUMBERS, RULER, Sheet

SIDES: tuple[Side, Side] = ("left", "right")
ROWS_WITH_ARROWS = 2
NUMBER_SIZE = 17.0
LETTER_SIZE = 17.0
LEAST_LETTERING = 10.5  # px at the reference width


class Colours:
    """The stripe colour and letter of each yarn."""

    def __init__(self, pattern: Pattern) -> None:
        self._colour = {yarn.name: yarn.colour for yarn in pattern.yarns}
        self._letter = {yarn.name: style.letter(index) for index, yarn in enumerate(pattern.yarns)}

    def of(self, row: Row) -> str:
        """The stripe colour of ``row``."""
        return style.PLAIN_STRIPE if row.colour is None else self._colour[row.colour]

    def letter(self, row: Row) -> str:
        """The letter of the row's yarn, empty where there is none."""
        return "" if row.colour is None else self._letter[row.colour]


def corners(piece: PiecePlan, sheet: Sheet, row: Row, side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
    """The two ends of a band's side, bottom and top: on the edge line, or upright beside a step."""
    at = row.edge(side).at
    upright = row.number == 1 or row.edge(side).step
    below = at if upright else piece.rows[row.number - 2].edge(side).at
    return (
        (sheet.side(below, side), sheet.top(row.number - 1)),
        (sheet.side(at, side), sheet.top(row.number)),
    )


def band(piece: PiecePlan, sheet: Sheet, row: Row, colour: str) -> Path:
    """The stripe of one row; its sides follow the edge line."""
    low_left, high_left = corners(piece, sheet, row, "left")
    low_right, high_right = corners(piece, sheet, row, "right")
    if low_left[0] == high_left[0] and low_right[0] == high_right[0]:
        across = low_right[0] - low_left[0]
        return Path(rectangle(low_left[0], high_left[1], across, sheet.rise), fill=colour)
    return Path(polyline([low_left, high_left, high_right, low_right], closed=True), fill=colour)


def row_rule(piece: PiecePlan, sheet: Sheet, row: Row, ink: str) -> Path:
    """A quiet line between a row and the one below it."""
    left, right = corners(piece, sheet, row, "left")[0], corners(piece, sheet, row, "right")[0]
    thick = max(0.6, 0.03 * sheet.half)
    return Path(polyline([left, right]), stroke=ink, width=rounded(thick), cap="butt", opacity=0.28)


def edge_lines(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """The worked edge at both sides; where it is shaped, in the accent colour and stronger."""
    items: list[Item] = []
    thin, thick = rounded(max(1.2, 1.8 * sheet.unit)), rounded(max(1.8, 4.2 * sheet.unit))
    for side in SIDES:
        whole: list[tuple[float, float]] = []
        shaped: list[Item] = []
        for row in piece.rows:
            low, high = corners(piece, sheet, row, side)
            before = whole[-1] if whole else low
            whole += [low, high]
            if row.edge(side).move != "straight":
                points: list[tuple[float, float]] = [before, low, high] if row.edge(side).step else [low, high]
                shaped.append(Path(polyline(points), stroke=style.ACCENT, width=thick))
        items.append(Path(polyline(whole), stroke=style.INK_DARK, width=thin))
        items += shaped
    return items


def marks(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """A mark beside every row that takes away or adds, pointing the way the edge goes."""
    items: list[Item] = []
    for row in piece.rows:
        for side in SIDES:
            if row.edge(side).move != "straight":
                low, high = corners(piece, sheet, row, side)
                outwards = -1 if side == "left" else 1
                size = _mark_size(sheet)
                x = outermost(low, high, side) + outwards * (size * 0.5 + 5 * sheet.unit)
                items += mark(row.edge(side).move, side, x, (low[1] + high[1]) / 2, size)
    return items


def _mark_size(sheet: Sheet) -> float:
    return min(15 * sheet.unit, 0.8 * sheet.rise)


def outermost(low: tuple[int, int], high: tuple[int, int], side: Side) -> int:
    """The x of a band's side where it reaches out farthest."""
    return min(low[0], high[0]) if side == "left" else max(low[0], high[0])


def mark(move: str, side: Side, x: float, y: float, size: float) -> list[Item]:
    """The mark of a move, its middle at (x, y): a wedge pointing inwards for less and outwards for more, solid
    where the move comes naturally, open where it is out of turn; two wedges for a step."""
    inwards = 1 if side == "left" else -1
    less = move in ("decrease", "forced_decrease", "step_in")
    way = inwards if less else -inwards
    fill = None if move.startswith("forced") else style.ACCENT
    shifts = (-0.28, 0.28) if move.startswith("step") else (0.0,)
    items: list[Item] = []
    for shift in shifts:
        tip, back = x + (0.42 + shift) * size * way, x + (-0.36 + shift) * size * way
        points = [(back, y - 0.45 * size), (tip, y), (back, y + 0.45 * size)]
        steps = polyline([(rounded(px), rounded(py)) for px, py in points], closed=True)
        items.append(Path(steps, fill=fill, stroke=style.ACCENT, width=rounded(max(1.0, 0.09 * size))))
    return items


def row_numbers(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """Each row's number at the edge where it starts; an arrow on the first rows."""
    size = max(LEAST_LETTERING * sheet.unit, min(NUMBER_SIZE * sheet.unit, 0.92 * sheet.rise))
    every = thinned(2 * sheet.rise, size)
    items: list[Item] = []
    for row in piece.rows:
        if not shows_number(row, every, len(piece.rows)):
            continue
        low, high = corners(piece, sheet, row, row.starts)
        outwards = -1 if row.starts == "left" else 1
        x = outermost(low, high, row.starts) + outwards * (_mark_size(sheet) + 12 * sheet.unit)
        y = (low[1] + high[1]) / 2 + 0.35 * size
        anchor: Anchor = "end" if row.starts == "left" else "start"
        items.append(
            Text(rounded(x), rounded(y), str(row.number), size, style.INK_DARK, "regular", anchor)
        )
        if row.number <= ROWS_WITH_ARROWS:
            items.append(_direction_arrow(x + outwards * 1.0 * size, (low[1] + high[1]) / 2, outwards, size))
    return items


def thinned(pitch: float, size: float) -> int:
    """Of rows whose numbers lie ``pitch`` px apart, every how many-th can be numbered in letters of ``size``."""
    return next(step for step in (1, 5, 10, 20, 50, 100, 500, 1000) if step * pitch >= 1.04 * size)


def shows_number(row: Row, every: int, rows: int) -> bool:
    """Whether a row is numbered where only every ``every``-th is; the first rows and the last always are."""
    return every == 1 or row.number % every == 0 or row.number in (1, rows)


def _direction_arrow(x: float, y: float, outwards: int, size: float) -> Path:
    """A small arrow outside (x, y) that points towards the work."""
    tail, tip = (x + outwards * 1.5 * size, y), (x + outwards * 0.25 * size, y)
    return Path(arrow(tail, tip, 0.32 * size), stroke=style.INK_DARK, width=rounded(max(1.0, 0.09 * size)))


def stripe_ruler(piece: PiecePlan, sheet: Sheet, colours: Colours, left: float) -> list[Item]:
    """A column that shows each stripe as a block with its yarn's letter, so that colour is not the only sign."""
    if piece.rows[0].colour is None:
        return []
    items: list[Item] = []
    width = RULER * sheet.unit
    for _, group in groupby(piece.rows, key=lambda row: row.colour):
        rows = list(group)
        first, last = rows[0], rows[-1]
        top, bottom = sheet.top(last.number), sheet.top(first.number - 1)
        colour = colours.of(first)
        items.append(
            Path(
                rectangle(rounded(left), top, rounded(width), bottom - top),
                fill=colour,
                stroke=style.INK_DARK,
                width=rounded(max(0.7, 0.8 * sheet.unit)),
            )
        )
        size = min(LETTER_SIZE * sheet.unit, 0.8 * (bottom - top))
        if size >= 0.75 * LEAST_LETTERING * sheet.unit:
            middle = (top + bottom) / 2 + 0.36 * size
            items.append(
                Text(
                    rounded(left + width / 2),
                    rounded(middle),
                    colours.letter(first),
                    rounded(size),
                    style.ink_on(colour),
                    "semibold",
                    "middle",
                )
            )
    return items


def edge_names(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """The edges of the piece in the words of who wears it."""
    items: list[Item] = []
    size = 17.0 * sheet.unit
    middle = (sheet.chart_left + sheet.chart_right) / 2
    bottom, top = names_of_ends(piece)
    foot = sheet.ground + 0.75 * sheet.rise + 1.5 * size
    items.append(_label(middle, foot, bottom, size))
    items.append(_label(middle, sheet.top(len(piece.rows)) - 0.8 * size, top, size))
    for side in SIDES:
        offset = (NUMBERS + NAMES / 2) * sheet.unit
        x = sheet.chart_left - offset if side == "left" else sheet.chart_right + offset
        for words, low, high in stretches(piece, side):
            y = (sheet.top(low - 1) + sheet.top(high)) / 2
            items.append(_label(x, y, words, size, -90.0 if side == "left" else 90.0))
    return items


def _label(x: float, y: float, words: str, size: float, turn: float = 0.0) -> Text:
    shift = 0.34 * size if turn else 0.0
    along = shift if turn < 0 else -shift
    return Text(rounded(x + along), rounded(y), words, size, style.SOFT, "regular", "middle", turn)


def names_of_ends(piece: PiecePlan) -> tuple[str, str]:
    """What the first and the last row are on the finished thing."""
    if piece.worked == "sideways":
        name = "side seam" if piece.has_neck else "side edge"
        return f"{name}, foundation", name
    if piece.free_outline:
        return "first row, foundation", "last row"
    return "lower edge, foundation", "upper edge"


def stretches(piece: PiecePlan, side: Side) -> list[tuple[str, int, int]]:
    """The names along one side of the chart: (words, first row, last row)."""
    rows = len(piece.rows)
    if piece.worked == "upwards":
        return [("side edge", 1, rows)]
    if side != piece.top:
        return [("hem" if piece.has_neck else "lower edge", 1, rows)]
    if not piece.has_neck:
        return [("upper edge", 1, rows)]
    shaped = [row.number for row in piece.rows if row.edge(side).move != "straight"]
    if not shaped:
        return [("shoulders", 1, rows)]
    first, last = shaped[0], shaped[-1]
    found = [("shoulder", 1, first - 1), ("neck", first, last), ("shoulder", last + 1, rows)]
    return [stretch for stretch in found if stretch[1] <= stretch[2]]
