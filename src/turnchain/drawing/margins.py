"""What stands around the stitches: bands, edge lines, marks, row numbers, the stripe ruler, names of edges.

In: a planned piece on its sheet. Out: scene items.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import groupby

from turnchain import style
from turnchain.drawing import hatching
from turnchain.drawing.looks import Inks
from turnchain.drawing.sheet import Sheet
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.numbers import rounded
from turnchain.pattern import Pattern
from turnchain.scene import Anchor, Item, Path, Steps, Text, arrow, polyline, rectangle
from turnchain.style import Theme
from turnchain.wording.languages.language import Speech
from turnchain.yarns.carrying import Change

ROWS_WITH_ARROWS = 2
NUMBER_SIZE = 17.0
LETTER_SIZE = 17.0
LEAST_LETTERING = 10.5  # px at the reference width


class Colours:
    """The stripe colour, hatching and letter of each yarn."""

    def __init__(self, pattern: Pattern, inks: Inks = "colour") -> None:
        self.mono = inks == "mono"
        self._index = {yarn.name: index for index, yarn in enumerate(pattern.yarns)}
        self._colour = {yarn.name: style.MONO.paper if self.mono else yarn.colour for yarn in pattern.yarns}

    def of(self, row: Row) -> str:
        """The stripe colour of ``row``."""
        if row.colour is None:
            return style.MONO.paper if self.mono else style.PLAIN_STRIPE
        return self._colour[row.colour]

    def ink(self, row: Row) -> str:
        """What stitches and letters are drawn in on the row's stripe."""
        return style.MONO.ink if self.mono else style.ink_on(self.of(row))

    def letter(self, row: Row) -> str:
        """The letter of the row's yarn, empty where there is none."""
        return "" if row.colour is None else style.letter(self._index[row.colour])

    def hatched(self, row: Row, corners: list[tuple[float, float]], unit: float) -> list[Item]:
        """The hatching of the row's yarn within ``corners``; none where stripes are in colour."""
        if not self.mono or row.colour is None:
            return []
        return hatching.hatched(self._index[row.colour], corners, unit)


def corners(piece: PiecePlan, sheet: Sheet, row: Row, side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
    """The two ends of a band's side, bottom and top: on the edge line, or upright beside a step."""
    at = row.edge(side).at
    under = piece.below(row)
    below = at if under is None or row.edge(side).step else under.edge(side).at
    return (
        (sheet.side(below, side), sheet.top(row.number - 1)),
        (sheet.side(at, side), sheet.top(row.number)),
    )


def bands(piece: PiecePlan, sheet: Sheet, row: Row, colours: Colours) -> list[Item]:
    """The stripe of one row, its sides on the edge line; in two parts where columns are folded away."""
    low_left, high_left = corners(piece, sheet, row, "left")
    low_right, high_right = corners(piece, sheet, row, "right")
    gap = sheet.break_at()
    parts: list[tuple[tuple[float, float], ...]]
    if gap is None or not low_left[0] < gap[0] < low_right[0]:
        parts = [(low_left, high_left, high_right, low_right)]
    else:
        low, high = low_left[1], high_left[1]
        parts = [
            (low_left, high_left, (gap[0], high), (gap[0], low)),
            ((gap[1], low), (gap[1], high), high_right, low_right),
        ]
    items: list[Item] = []
    for part in parts:
        items.append(_filled(list(part), colours.of(row)))
        items += colours.hatched(row, list(part), sheet.unit)
    return items


def _filled(points: list[tuple[float, float]], colour: str) -> Path:
    low_left, high_left, high_right, low_right = points
    if low_left[0] == high_left[0] and low_right[0] == high_right[0]:
        width, height = low_right[0] - low_left[0], low_left[1] - high_left[1]
        return Path(rectangle(high_left[0], high_left[1], width, height), fill=colour)
    return Path(polyline(points, closed=True), fill=colour)


def row_rule(piece: PiecePlan, sheet: Sheet, row: Row, ink: str) -> Path:
    """A quiet line between a row and the one below it."""
    left, right = corners(piece, sheet, row, "left")[0], corners(piece, sheet, row, "right")[0]
    thick = max(0.6, 0.03 * sheet.half)
    gap = sheet.break_at()
    steps = polyline([left, right])
    if gap is not None and left[0] < gap[0] < right[0]:
        steps = (*polyline([left, (gap[0], left[1])]), *polyline([(gap[1], right[1]), right]))
    return Path(steps, stroke=ink, width=rounded(thick), cap="butt", opacity=0.28)


def edge_lines(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """The worked edge at both sides; where it is shaped, in the accent colour and stronger."""
    plain: list[Item] = []
    shaped: list[Item] = []
    thin, thick = rounded(max(1.2, 1.8 * sheet.unit)), rounded(max(1.8, 4.2 * sheet.unit))
    for section in piece.sections:
        for side in SIDES:
            whole: list[tuple[float, float]] = []
            for row in piece.section(section):
                low, high = corners(piece, sheet, row, side)
                points: list[tuple[float, float]] = [low, high]
                if row.edge(side).step and whole:
                    points.insert(0, whole[-1])  # a step runs along the top of the row below first
                whole += [low, high]
                if row.edge(side).move != "straight":
                    shaped.append(Path(polyline(points), stroke=sheet.theme.accent, width=thick))
            plain.append(Path(polyline(whole), stroke=sheet.theme.ink, width=thin))
    bottom = neck_bottom(piece, sheet)
    if bottom is not None:
        shaped.append(Path(polyline(bottom), stroke=sheet.theme.accent, width=thick))
    return plain + shaped


def neck_bottom(piece: PiecePlan, sheet: Sheet) -> list[tuple[float, float]] | None:
    """The two ends of the row that a neck leaves unworked between its sections; None for an undivided piece."""
    begun = [row for row in piece.rows if piece.begins_section(row)]
    if len(begun) != 2:
        return None
    left, right = sorted(begun, key=lambda row: row.left.at)
    y = sheet.top(left.number - 1)
    return [(sheet.side(left.right.at, "right"), y), (sheet.side(right.left.at, "left"), y)]


def opening_at(piece: PiecePlan, sheet: Sheet, row: Row, side: Side) -> float:
    """How many px are free beside a row at ``side`` before the other section begins; without one, no end."""
    others = [other for other in piece.rows if other.number == row.number and other.section != row.section]
    for other in others:
        near, far = (row.left.at, other.right.at) if side == "left" else (row.right.at, other.left.at)
        if (near >= far) == (side == "left"):
            return abs(sheet.x(near) - sheet.x(far)) - 2.0 * sheet.pad
    return math.inf


def marks(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """A mark beside every row that takes away or adds, pointing the way the edge goes."""
    items: list[Item] = []
    for row in piece.rows:
        for side in SIDES:
            size = _mark_size(sheet)
            room = opening_at(piece, sheet, row, side) > 3 * size
            if row.edge(side).move != "straight" and room and not piece.begins_section(row):
                low, high = corners(piece, sheet, row, side)
                outwards = -1 if side == "left" else 1
                wide = 0.8 if row.edge(side).step else 0.5
                x = outermost(low, high, side) + outwards * (size * wide + 5 * sheet.unit)
                items += mark(row.edge(side).move, side, x, (low[1] + high[1]) / 2, size, sheet.theme)
    return items


def _mark_size(sheet: Sheet) -> float:
    return min(15 * sheet.unit, 0.8 * sheet.rise)


def outermost(low: tuple[int, int], high: tuple[int, int], side: Side) -> int:
    """The x of a band's side where it reaches out farthest."""
    return min(low[0], high[0]) if side == "left" else max(low[0], high[0])


def mark(move: str, side: Side, x: float, y: float, size: float, theme: Theme) -> list[Item]:
    """The mark of a move, its middle at (x, y): a wedge pointing inwards for less and outwards for more, solid
    where the move comes naturally, open where it is out of turn; two wedges for a step."""
    inwards = 1 if side == "left" else -1
    less = move in ("decrease", "forced_decrease", "step_in")
    way = inwards if less else -inwards
    fill = None if move.startswith("forced") else theme.accent
    shifts = (-0.28, 0.28) if move.startswith("step") else (0.0,)
    items: list[Item] = []
    for shift in shifts:
        tip, back = x + (0.42 + shift) * size * way, x + (-0.36 + shift) * size * way
        points = [(back, y - 0.45 * size), (tip, y), (back, y + 0.45 * size)]
        steps = polyline([(rounded(px), rounded(py)) for px, py in points], closed=True)
        items.append(Path(steps, fill=fill, stroke=theme.accent, width=rounded(max(1.0, 0.09 * size))))
    return items


def carries(piece: PiecePlan, sheet: Sheet, colours: Colours, found: Sequence[Change]) -> list[Item]:
    """Beside the edge where a yarn is taken up again: a loop in its colour up from the row it was left in, where it is
    carried uncut, or a dot where it is joined anew."""
    items: list[Item] = []
    rows = {(row.section, row.number): row for row in piece.rows}
    thick = max(1.2, 2.2 * sheet.unit)
    free: dict[Side, list[int]] = {"left": [], "right": []}  # by lane, the row up to which a loop runs there
    for change in found:
        row = rows[(change.section, change.row)]
        if row.number == 1 or sheet.folds.hides_row(row.number) or not _straight_beside(rows, change):
            continue
        x = sheet.side(row.edge(change.side).at, change.side)
        outwards, colour = (-1 if change.side == "left" else 1), colours.of(row)
        middle = (sheet.top(row.number - 1) + sheet.top(row.number)) / 2
        if change.carried and change.last is not None:
            lane = _lane(free[change.side], change.last, change.row)
            out = outwards * (8.5 + 5.5 * lane) * sheet.unit
            foot = (sheet.top(change.last - 1) + sheet.top(change.last)) / 2
            turn = out * 4 / 3  # the middle of the curve then lies just ``out`` px from the edge
            steps: Steps = (("M", float(x), rounded(foot)), ("C", *_loop(x, x + turn, foot, middle)))
            items.append(Path(steps, stroke=sheet.theme.ink, width=rounded(thick + 1.2)))
            items.append(Path(steps, stroke=colour, width=rounded(thick)))
        else:
            dot, mid = 0.9 * thick, x + outwards * 3.5 * sheet.unit
            box = rectangle(rounded(mid - dot), rounded(middle - dot), rounded(2 * dot), rounded(2 * dot))
            items.append(Path(box, fill=colour, stroke=sheet.theme.ink, width=0.8))
    return items


def _straight_beside(rows: dict[tuple[str, int], Row], change: Change) -> bool:
    """Whether the edge is straight all the way from where the yarn was left, so that nothing else stands there."""
    first = change.row if change.last is None or not change.carried else change.last
    between = [rows.get((change.section, number)) for number in range(first, change.row + 1)]
    return all(row is not None and row.edge(change.side).move == "straight" for row in between)


def _lane(lanes: list[int], last: int, row: int) -> int:
    """The nearest lane where no loop runs from row ``last`` to ``row``; it is taken from then on."""
    for lane, until in enumerate(lanes):
        if until <= last:
            lanes[lane] = row
            return lane
    lanes.append(row)
    return len(lanes) - 1


def _loop(x: float, out: float, foot: float, head: float) -> tuple[float, float, float, float, float, float]:
    return (rounded(out), rounded(foot), rounded(out), rounded(head), rounded(x), rounded(head))


def row_numbers(piece: PiecePlan, sheet: Sheet) -> list[Item]:
    """Each row's number at the edge where it starts; an arrow on the first rows."""
    size = max(LEAST_LETTERING * sheet.unit, min(NUMBER_SIZE * sheet.unit, 0.92 * sheet.rise))
    every = thinned(2 * sheet.rise, size)
    items: list[Item] = []
    for row in piece.rows:
        room = opening_at(piece, sheet, row, row.starts) > 2 * (_mark_size(sheet) + 3 * size)
        if not shows_number(row, every, piece.row_count) or not room or sheet.folds.hides_row(row.number):
            continue
        low, high = corners(piece, sheet, row, row.starts)
        outwards = -1 if row.starts == "left" else 1
        wide = 1.7 if row.edge(row.starts).step else 1.0  # a step has two wedges
        x = outermost(low, high, row.starts) + outwards * (wide * _mark_size(sheet) + 12 * sheet.unit)
        y = (low[1] + high[1]) / 2 + 0.35 * size
        anchor: Anchor = "end" if row.starts == "left" else "start"
        items.append(
            Text(rounded(x), rounded(y), str(row.number), size, sheet.theme.ink, "regular", anchor)
        )
        if row.number <= ROWS_WITH_ARROWS:
            middle = (low[1] + high[1]) / 2
            items.append(_direction_arrow(x + outwards * size, middle, outwards, size, sheet.theme))
    return items


def thinned(pitch: float, size: float) -> int:
    """Of rows whose numbers lie ``pitch`` px apart, every how many-th can be numbered in letters of ``size``."""
    return next(step for step in (1, 5, 10, 20, 50, 100, 500, 1000) if step * pitch >= 1.04 * size)


def shows_number(row: Row, every: int, rows: int) -> bool:
    """Whether a row is numbered where only every ``every``-th is; the first rows and the last always are."""
    return every == 1 or row.number % every == 0 or row.number in (1, rows)


def _direction_arrow(x: float, y: float, outwards: int, size: float, theme: Theme) -> Path:
    """A small arrow outside (x, y) that points towards the work."""
    tail, tip = (x + outwards * 1.5 * size, y), (x + outwards * 0.25 * size, y)
    return Path(arrow(tail, tip, 0.32 * size), stroke=theme.ink, width=rounded(max(1.0, 0.09 * size)))


def stripe_ruler(piece: PiecePlan, sheet: Sheet, colours: Colours, left: float) -> list[Item]:
    """A column that shows each stripe as a block with its yarn's letter, so that colour is not the only sign."""
    if piece.rows[0].colour is None:
        return []
    items: list[Item] = []
    width = sheet.frame.ruler * sheet.unit
    for _, group in groupby(piece.row_levels, key=lambda row: row.colour):
        rows = list(group)
        first, last = rows[0], rows[-1]
        top, bottom = sheet.top(last.number), sheet.top(first.number - 1)
        colour = colours.of(first)
        items.append(
            Path(
                rectangle(rounded(left), top, rounded(width), bottom - top),
                fill=colour,
                stroke=sheet.theme.ink,
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
                    colours.ink(first),
                    "semibold",
                    "middle",
                )
            )
    return items


def edge_names(piece: PiecePlan, sheet: Sheet, speech: Speech) -> list[Item]:
    """The edges of the piece in the words of who wears it."""
    size = 17.0 * sheet.unit
    middle = (sheet.chart_left + sheet.chart_right) / 2
    under = 2.8 if sheet.folds.across else 1.5  # below the bracket of a short chart
    foot = sheet.ground + 0.75 * sheet.rise + under * size
    items: list[Item] = [_label(sheet, middle, foot, names_of_ends(piece, speech)[0], size)]
    items += _top_names(piece, sheet, size, speech)
    for side in SIDES:
        offset = (sheet.frame.numbers + sheet.frame.names / 2) * sheet.unit
        x = sheet.chart_left - offset if side == "left" else sheet.chart_right + offset
        for name, low, high in stretches(piece, side):
            y = (sheet.top(low - 1) + sheet.top(high)) / 2
            items.append(_label(sheet, x, y, speech.named_by("name", name), size, -90.0 if side == "left" else 90.0))
    return items


def _top_names(piece: PiecePlan, sheet: Sheet, size: float, speech: Speech) -> list[Item]:
    """The name of the last row or, above a neck, of both shoulders and the neck between them."""
    y = sheet.top(piece.row_count) - 0.8 * size
    bottom = neck_bottom(piece, sheet)
    if bottom is None:
        return [_label(sheet, (sheet.chart_left + sheet.chart_right) / 2, y, names_of_ends(piece, speech)[1], size)]
    tops = [row for row in piece.rows if row.number == piece.row_count]
    shoulder = speech.named_by("name", "shoulder")
    shoulders = [
        _label(sheet, (sheet.side(row.left.at, "left") + sheet.side(row.right.at, "right")) / 2, y, shoulder, size)
        for row in tops
    ]
    return [*shoulders, _label(sheet, (bottom[0][0] + bottom[1][0]) / 2, y, speech.named_by("name", "neck"), size)]


def _label(sheet: Sheet, x: float, y: float, words: str, size: float, turn: float = 0.0) -> Text:
    shift = 0.34 * size if turn else 0.0
    along = shift if turn < 0 else -shift
    return Text(rounded(x + along), rounded(y), words, size, sheet.theme.soft, "regular", "middle", turn)


def names_of_ends(piece: PiecePlan, speech: Speech) -> tuple[str, str]:
    """What the first and the last row are on the finished thing, in words; the first is the foundation."""
    first, last = (speech.named_by("name", name) for name in _ends(piece))
    return speech.say("name.foundation", name=first), last


def _ends(piece: PiecePlan) -> tuple[str, str]:
    if piece.worked == "sideways":
        name = "side seam" if piece.has_neck else "side edge"
        return name, name
    if piece.has_neck:
        return "hem", "shoulders"
    if piece.free_outline:
        return "first row", "last row"
    return "lower edge", "upper edge"


def stretches(piece: PiecePlan, side: Side) -> list[tuple[str, int, int]]:
    """The names along one side of the chart: (name, first row, last row)."""
    rows = piece.row_count
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
    if any(row.number == last and row.edge(side).move == "step_out" for row in piece.rows):
        last -= 1  # the row that steps back stands on the shoulder
    found = [("shoulder", 1, first - 1), ("neck", first, last), ("shoulder", last + 1, rows)]
    return [stretch for stretch in found if stretch[1] <= stretch[2]]
