"""The cloth that stitches lie on: stripes, the strips under chains, hairlines, and the worked edge.

In: a ``Setting``. Out: scene items, those further back first.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from turnchain.drawing.breaks import Break, parts
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import STRIP, Sheet
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.numbers import rounded
from turnchain.scene import Item, Path, polyline, rectangle, ruled

Point: TypeAlias = tuple[float, float]

HAIRLINE = 0.022  # of the height of a row
ARMHOLE_LINE = 0.07  # the same of the line along an armhole
SHAPING = 0.075  # the line along a shaped edge, the same
SLIPPED = 0.22  # height of the strip under slip stitches, the same


def corners(piece: PiecePlan, sheet: Sheet, row: Row, side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
    """The bottom and the top end of a band's side, each (x, y) in whole px: on the edge line, or upright beside a
    step."""
    at = row.edge(side).at
    under = piece.below(row)
    below = at if under is None or row.edge(side).step else under.edge(side).at
    low, high = sheet.side(below, side), sheet.side(at, side)
    if (far := piece.across_neck(row, side)) is not None:  # no farther than the middle of a narrow neck
        middle = round((sheet.x(at) + sheet.x(far)) / 2)
        nearer = max if side == "left" else min
        low, high = nearer(low, middle), nearer(high, middle)
    return (low, sheet.top(row.number - 1)), (high, sheet.top(row.number))


def bands(setting: Setting, row: Row) -> list[Item]:
    """The stripe of one row, its sides on the edge line, with its hatching; in two parts where columns are folded away.
    Empty for a row that is not drawn at all."""
    if setting.sheet.folds.skips_row(row.number):
        return []
    items: list[Item] = []
    for part in _parts(setting, row):
        items.append(_filled(part, setting.colours.tint(row)))
        items += setting.colours.hatched(row, part, setting.sheet.unit)
    return items


def _parts(setting: Setting, row: Row) -> list[list[Point]]:
    """The corners of a row's band; of both its parts beside a break."""
    left, right = list(_side(setting, row, "left")), list(_side(setting, row, "right"))[::-1]
    torn = Break.of(setting)
    if torn is None or not torn.runs_through(row):
        return [[*left, *right]]
    one, other = torn.beside(row)
    return [[*left, *one], [*right, *reversed(other)]]


def _side(setting: Setting, row: Row, side: Side) -> tuple[Point, ...]:
    """A side of a row's band, upwards: its edge, or where it is cut."""
    cut = Break.cut(setting, side)
    if cut is not None and cut.runs_through(row):
        return tuple(reversed(cut.points(row.number, row.number)))
    return corners(setting.piece, setting.sheet, row, side)


def _filled(points: list[Point], colour: str) -> Path:
    if len(points) == 4:
        low_left, high_left, high_right, low_right = points
        if low_left[0] == high_left[0] and low_right[0] == high_right[0]:
            width, height = low_right[0] - low_left[0], low_left[1] - high_left[1]
            return Path(rectangle(high_left[0], high_left[1], width, height), fill=colour)
    return Path(polyline(points, closed=True), fill=colour)


def hairline(setting: Setting, row: Row) -> list[Path]:
    """The faint line between a row and the one it stands on, in two parts where columns are folded away. Empty for row
    1, and where either row is not drawn."""
    under = setting.piece.below(row)
    if under is None or setting.sheet.folds.skips_row(row.number) or setting.sheet.folds.skips_row(under.number):
        return []
    left, right = (corners(setting.piece, setting.sheet, row, side)[0] for side in SIDES)
    colour, thick, y = setting.colours.between(row, under), HAIRLINE * setting.sheet.rise, left[1]
    lines = parts(setting, row, (left[0], right[0]), lambda torn: torn.at_foot(row))
    return [Path(ruled((one, y), (other, y), thick), fill=colour) for one, other in lines]


def strips(setting: Setting) -> list[Item]:
    """The cloth under what lies outside the rows, a rectangle each: the foundation, the chains of a step, slip
    stitches."""
    sheet, first = setting.sheet, setting.piece.rows[0]
    found: list[Item] = []
    for left, right in _foundation_parts(setting) if setting.founded else ():
        found.append(_strip(setting, first, left, right, sheet.ground, sheet.foot))
    for row in setting.rows:
        if (box := step_strip(setting, row)) is not None and sheet.folds.cut(row.starts) is None:
            found.append(_strip(setting, row, *box))
    return found


def step_strip(setting: Setting, row: Row) -> tuple[float, float, float, float] | None:
    """The left, right, top and bottom, in px, of the cloth under the chains or the slip stitches of the step that a row
    starts with; None where it has neither."""
    under, side, sheet = setting.piece.below(row), row.starts, setting.sheet
    if under is None or row.joined or not row.edge(side).step:
        return None
    old, new = (sheet.side(one.edge(side).at, side) for one in (under, row))
    left, right, y = min(old, new), max(old, new), sheet.top(row.number - 1)
    if row.edge(side).move == "step_out":
        return left, right, y, y + STRIP * sheet.rise
    return (left, right, y - SLIPPED * sheet.rise, y) if row.counts.sl_st else None


def _strip(setting: Setting, row: Row, left: float, right: float, top: float, bottom: float) -> Path:
    x, y = round(left), round(top)
    box = rectangle(x, y, max(1, round(right) - x), max(1, round(bottom) - y))
    return Path(box, fill=setting.colours.tint(row))


def _foundation_parts(setting: Setting) -> list[tuple[float, float]]:
    """From where to where the foundation lies: in two parts beside a break."""
    first = setting.piece.rows[0]
    left, right = (setting.sheet.side(first.edge(side).at, side) for side in SIDES)
    return parts(setting, first, (left, right), lambda torn: torn.at_foundation())


def edges(setting: Setting) -> list[Item]:
    """The worked edge: a strong line where it is shaped, a hairline where a pale row would run into the page."""
    return [*_page_lines(setting), *_shaped(setting), *_armhole(setting)]


def _armhole(setting: Setting) -> Iterator[Item]:
    """The line along the armhole that single crochet below row 1 is worked into."""
    if setting.piece.picked_up is None or not setting.founded:
        return
    sheet, thick = setting.sheet, ARMHOLE_LINE * setting.sheet.rise
    for left, right in _foundation_parts(setting):
        yield Path(ruled((left, round(sheet.foot)), (right, round(sheet.foot)), thick), fill=setting.look.theme.ink)


def _page_lines(setting: Setting) -> Iterator[Item]:
    """Hairlines around pale rows; where an edge is shaped its own line parts it from the page."""
    piece, sheet, paper = setting.piece, setting.sheet, setting.look.theme.paper
    thick = HAIRLINE * sheet.rise
    for row in setting.rows:
        colour = setting.colours.against(row, paper)
        if colour is None or sheet.folds.skips_row(row.number):
            continue
        lines: list[tuple[Point, Point]] = [
            corners(piece, sheet, row, side)
            for side in _drawn_sides(setting)
            if row.edge(side).move == "straight"
        ]
        if row.index + 1 == len(piece.rows) or piece.rows[row.index + 1].section != row.section:
            lines += _split(setting, row, [corners(piece, sheet, row, side)[1] for side in SIDES])
        if row.number == 1:
            foot = sheet.ground + round(sheet.strip * sheet.rise)
            for left, right in _foundation_parts(setting):
                lines += [((left, sheet.ground), (left, foot)), ((left, foot), (right, foot))]
                lines.append(((right, foot), (right, sheet.ground)))
        yield from (Path(ruled(*line, thick), fill=colour) for line in lines if line[0] != line[1])


def _split(setting: Setting, row: Row, line: list[tuple[int, int]]) -> list[tuple[Point, Point]]:
    """The top of a row, in two parts beside a break."""
    (left, y), (right, _) = line
    return [((one, y), (other, y)) for one, other in parts(setting, row, (left, right), lambda torn: torn.at_top(row))]


def _drawn_sides(setting: Setting) -> tuple[Side, ...]:
    """The sides at which the edge is drawn, and not cut away."""
    return tuple(side for side in SIDES if setting.sheet.folds.cut(side) is None)


def _shaped(setting: Setting) -> Iterator[Item]:
    """The lines along all edges that are shaped."""
    piece, sheet = setting.piece, setting.sheet
    lines = [
        line for row in setting.rows for side in _drawn_sides(setting) if (line := shaped_line(setting, row, side))
    ]
    bottom = neck_bottom(piece, sheet)
    if bottom is not None and bottom[0] != bottom[1] and any(piece.begins_section(row) for row in setting.rows):
        lines.append(bottom)
    if not lines:
        return
    thick = rounded(max(SHAPING * sheet.rise, 1.6 * sheet.unit))
    # each by itself: a picture of few colours decides its colours by what lies within the bounds of a path
    if sheet.theme.accent != sheet.theme.shaping:  # on a dark page the line is edged with the page's own accent
        yield from (Path(polyline(line), stroke=sheet.theme.accent, width=rounded(1.9 * thick)) for line in lines)
    yield from (Path(polyline(line), stroke=sheet.theme.shaping, width=thick) for line in lines)


def shaped_line(setting: Setting, row: Row, side: Side) -> list[Point] | None:
    """The points, in px from the foot upwards, of the line along one shaped edge of a row; None where it is straight. A
    step runs level first, a step out below its chains."""
    piece, sheet = setting.piece, setting.sheet
    under, edge = piece.below(row), row.edge(side)
    if edge.move == "straight" or (piece.begins_section(row) and piece.across_neck(row, side) == edge.at):
        return None  # a neck without width has no edge to show there
    low, high = corners(piece, sheet, row, side)
    if not edge.step or under is None:
        return [low, high]
    old = sheet.side(under.edge(side).at, side)
    if edge.move == "step_out":
        y = low[1] + rounded(STRIP * sheet.rise)
        return [(old, y), (low[0], y), high]
    if piece.begins_section(row):
        return [low, high]  # the bottom of the neck is a line of its own
    return [(old, low[1]), low, high]


def neck_bottom(piece: PiecePlan, sheet: Sheet) -> list[Point] | None:
    """The left and the right end, in px, of what a neck leaves unworked of a row between two sections; None for a piece
    that no neck divides."""
    begun = [row for row in piece.rows if piece.begins_section(row)]
    if len(begun) != 2:
        return None
    left, right = sorted(begun, key=lambda row: row.left.at)
    return [corners(piece, sheet, left, "right")[0], corners(piece, sheet, right, "left")[0]]
