"""What stands beside the stitches: signs, row numbers, the letters of the stripes, names of edges.

In: a ``Setting``. Out: scene items. Beside an edge stand, from the cloth outwards: carried yarns, the sign of a join or
an end, the wedge of a move, the number of the row.
"""

from __future__ import annotations

import math
from itertools import groupby

from turnchain.drawing import chart_edgings, loops
from turnchain.drawing.bands import SLIPPED, corners, neck_bottom
from turnchain.drawing.folds import Folds
from turnchain.drawing.marks import ROWS_WITH_ARROWS, Marks
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import Frame, Sheet, Where
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.pattern import MOST_ROWS
from turnchain.records import frozen
from turnchain.scene import Anchor, Group, Item, Path, Text, arrow, polyline, rectangle
from turnchain.style import Theme
from turnchain.wording import founding
from turnchain.wording.languages.language import Speech

WEDGE, LARGEST_WEDGE = 0.52, 22.0  # of the height of a row; px at the reference width
TRIANGLE, LARGEST_TRIANGLE = 0.56, 30.0  # the same
IN_NECK = 0.3  # how far below the top of its row a sign stands in a neck without width, over the height of a row
LEAST_LETTER = 0.65  # letters of stripes over the words of the page, at the least
RULER = 1.9  # width of the column of letters, over the words of the page
TURNING = 0.6  # room for a turning chain that does not count, over the height of a row
RULER_GAP = 0.7  # between it and what stands beside the cloth, the same
ARROW = 1.5  # length of the arrow of a row, over the size of its number


@frozen
class Rooms:
    """What the marks beside one side of the cloth need, in px from the cloth outwards: ``signs`` before the wedge,
    ``wedges``, ``numbers``, the same with an arrow beside a number (``arrows``); ``total`` is all of it."""

    signs: float
    wedges: float
    numbers: float
    arrows: float
    total: float


class Margins:
    """The ``marks`` beside the stitches of a ``setting`` on a kind of page, where a row is ``rise`` px high and a px of
    the ``frame`` is ``unit`` px. Sizes can be had before the page is measured; ``base``, ``sloping``, ``room_beside``
    and all that draws need a measured setting. "Outwards" is away from the cloth."""

    def __init__(self, setting: Setting, frame: Frame, rise: float, unit: float, marks: Marks, folds: Folds) -> None:
        self.setting, self.folds, self.rise, self.words, self.unit = setting, folds, rise, frame.words * unit, unit
        self.piece = setting.piece
        self.rows, self.loops, self.joins = marks.rows, marks.loops, marks.joins
        self.signed, self.ends, self.beside = marks.signed, marks.ends, marks.beside
        #: px that edgings take along the sides of the chart
        self.edged = chart_edgings.rooms(setting, frame, folds, self.words, rise)
        self._ended = {row.index for row in self.ends}
        self.lanes = loops.lanes_beside(self.loops)
        self.most = {side: loops.most_lanes(self.loops, side) for side in SIDES}
        #: px of the em of row numbers
        self.number_size = max(frame.least * self.words, min(self.words, 1.9 * rise))

    @classmethod
    def on(cls, setting: Setting) -> Margins:
        """The margins of a ``setting`` that is measured, in the sizes of its sheet."""
        sheet = setting.sheet
        marks = Marks.of(setting, sheet.folds)
        return cls(setting, sheet.frame, sheet.rise, sheet.unit, marks, sheet.folds)

    @property
    def wedge(self) -> float:
        """The size of the wedge of a move, in px."""
        return max(5 * self.unit, min(WEDGE * self.rise, LARGEST_WEDGE * self.unit))

    @property
    def triangle(self) -> float:
        """The width of the sign of a join, in px."""
        return max(6 * self.unit, min(TRIANGLE * self.rise, LARGEST_TRIANGLE * self.unit))

    @property
    def air(self) -> float:
        """The px between one mark and the next."""
        return 0.28 * self.words

    def joined(self, row: Row) -> bool:
        """Whether a yarn is joined where ``row`` starts."""
        return (row.section, row.number) in self.joins

    def rooms(self, side: Side) -> Rooms:
        """What all marks at ``side`` need, in px."""
        signs, beside = loops.width(self.most[side], self.rise), self.beside[side]
        signs += self.edged.get(side, 0.0) * (chart_edgings.ASLANT if beside.steps is not None else 1.0)
        if beside.signs:
            signs += self.triangle + self.air
        wedges = 0.0 if beside.steps is None else self.wedge_room(beside.steps)
        numbers = measure("0" * beside.digits, self.number_size) + self.air
        arrows = measure("0", self.number_size) + self.air + (ARROW + 0.4) * self.number_size
        if not beside.arrows:
            arrows = 0.0
        total = signs + max(wedges + numbers, arrows) + self.air + self.turning
        return Rooms(signs, wedges, numbers, arrows, total)

    @property
    def turning(self) -> float:
        """The px that a turning chain takes outside the edge, where it does not count."""
        recipe = self.piece.recipe
        return 0.0 if all(rule.counts for rule in (recipe.stitch, *recipe.solids)) else TURNING * self.rise

    @property
    def beside_edgings(self) -> dict[Where, float]:
        """How many px from the cloth edgings begin at each side: past carried yarns and turning chains."""
        return {side: self.turning + loops.width(self.most[side], self.rise) for side in SIDES}

    def moves(self, row: Row, side: Side) -> bool:
        """Whether the edge of ``row`` is drawn at ``side``, and moves there."""
        return row.edge(side).move != "straight" and self.folds.cut(side) is None

    def wedge_room(self, step: bool) -> float:
        """The px that a wedge takes with the air beside it; two for a ``step``."""
        return self.wedge * (1.45 if step else 0.85) + self.air

    # ------------------------------------------------------------------------------------------- where marks stand

    def base(self, row: Row, side: Side) -> float:
        """The x, in px, from which marks stand outwards: the edge, or on a slope a little outside its middle."""
        sheet = self.setting.sheet
        low, high = corners(self.piece, sheet, row, side)
        outwards = -1 if side == "left" else 1
        beside = outwards * self.turning
        if low[0] == high[0]:
            return float(low[0]) + beside
        return (low[0] + high[0]) / 2 + outwards * 0.46 * sheet.half + beside

    def sloping(self, row: Row, side: Side) -> bool:
        """Whether the edge leans beside ``row``."""
        low, high = corners(self.piece, self.setting.sheet, row, side)
        return low[0] != high[0]

    def sign_at(self, row: Row, side: Side) -> float:
        """Where the marks of ``row`` begin, px outwards from the base: past the loops that run there; beside straight
        edges past those that run anywhere, so that marks stand below one another."""
        lanes = self.lanes.get((row.index, side), 0)
        edged = self.edged.get(side if self.piece.across_neck(row, side) is None else "neck", 0.0)
        if edged and self._by_a_slope(row, side):
            edged *= chart_edgings.ASLANT
        if not self.sloping(row, side):
            lanes = self.most[side]
        elif lanes:
            return loops.width(lanes, self.rise) * 1.35 + self.air + edged
        return loops.width(lanes, self.rise) + self.air + edged

    def _by_a_slope(self, row: Row, side: Side) -> bool:
        """Whether the edge leans anywhere at that side of the section of ``row``: an edging lies as far off all along
        it."""
        return any(self.sloping(one, side) for one in self.piece.rows if one.section == row.section)

    def signed_at(self, row: Row, side: Side) -> bool:
        """Whether a sign stands beside ``row`` at ``side``: of a join where it starts, of an end where it ends."""
        if self.folds.cut(side) is not None:
            return False
        return (side == row.starts and self.joined(row)) or (side == row.ends and row.index in self._ended)

    def sign_room(self, row: Row, side: Side) -> float:
        """The px that the sign beside ``row`` takes with the air beside it; 0 where there is none."""
        return self.triangle + self.air if self.signed_at(row, side) else 0.0

    def room_beside(self, row: Row, side: Side) -> float:
        """How many px outwards of its base are free beside a row at ``side``: up to the middle between it and the other
        section, less than 0 in a neck without width; infinity where there is no other section there."""
        sheet = self.setting.sheet
        far = self.piece.across_neck(row, side)
        if far is None:
            return math.inf
        middle = (sheet.x(row.edge(side).at) + sheet.x(far)) / 2
        return (self.base(row, side) - middle) * (1 if side == "left" else -1)


def signs(margins: Margins) -> list[Item]:
    """The signs of joins and ends, open and solid triangles. Where a section begins in a narrow neck, its sign is made
    smaller, to 0.4 of its size at the least; other signs without room, and those of folded rows, are left out."""
    setting = margins.setting
    items: list[Item] = []
    for row in setting.rows:
        for side in SIDES if not setting.sheet.folds.hides_row(row.number) else ():
            if not margins.signed_at(row, side):
                continue
            outwards = -1 if side == "left" else 1
            far, size = margins.sign_at(row, side), margins.triangle
            room = margins.room_beside(row, side) - far
            if setting.piece.begins_section(row):
                size = max(min(size, room), 0.4 * size)
            elif room < size:
                continue
            x, y = margins.base(row, side) + outwards * (far + size / 2), setting.sheet.middle(row.number)
            if setting.piece.across_neck(row, side) == row.edge(side).at:  # between the two edge stitches
                x, y = margins.base(row, side), setting.sheet.top(row.number) + IN_NECK * setting.sheet.rise
            items.append(triangle(x, y, size, setting.theme, solid=side == row.ends))
    return items


def triangle(x: float, y: float, size: float, theme: Theme, solid: bool) -> Item:
    """The sign of a join (open) or of an end (``solid``), ``size`` px wide about (x, y)."""
    high = 0.88 * size
    points = [(x - size / 2, y + high / 2), (x, y - high / 2), (x + size / 2, y + high / 2)]
    steps = polyline([(rounded(px), rounded(py)) for px, py in points], closed=True)
    thick = rounded(max(1.0, 0.085 * size))
    return Path(steps, fill=theme.ink if solid else theme.paper, stroke=theme.ink, width=thick)


def wedges(margins: Margins) -> list[Item]:
    """A wedge beside every row that takes away or adds, pointing the way the edge goes; none beside folded rows and
    where there is no room."""
    setting = margins.setting
    items: list[Item] = []
    for row in setting.rows:
        for side in SIDES:
            edge = row.edge(side)
            if not margins.moves(row, side) or setting.piece.begins_section(row):
                continue
            outwards = -1 if side == "left" else 1
            far = margins.sign_at(row, side) + margins.sign_room(row, side)
            room = margins.room_beside(row, side) >= far + margins.wedge_room(bool(edge.step))
            if setting.sheet.folds.hides_row(row.number) or not room:
                continue
            x = margins.base(row, side) + outwards * (far + margins.wedge * (0.7 if edge.step else 0.42))
            y = setting.sheet.middle(row.number)
            items += wedge(edge.move, side, x, y, margins.wedge, setting.theme)
    return items


def wedge(move: str, side: Side, x: float, y: float, size: float, theme: Theme) -> list[Item]:
    """The mark of a move (not of "straight") at ``side``, ``size`` px wide and high, its middle at (x, y): a wedge
    pointing inwards for less and outwards for more, solid, or open where the move is forced; two wedges for a step."""
    inwards = 1 if side == "left" else -1
    less = move in ("decrease", "forced_decrease", "step_in")
    way = inwards if less else -inwards
    fill = None if move.startswith("forced") else theme.accent
    shifts = (-0.32, 0.32) if move.startswith("step") else (0.0,)
    items: list[Item] = []
    for shift in shifts:
        tip, back = x + (0.38 + shift) * size * way, x + (-0.34 + shift) * size * way
        points = [(back, y - 0.38 * size), (tip, y), (back, y + 0.38 * size)]
        steps = polyline([(rounded(px), rounded(py)) for px, py in points], closed=True)
        items.append(Path(steps, fill=fill, stroke=theme.accent, width=rounded(max(1.0, 0.08 * size))))
    return items


def row_numbers(margins: Margins) -> list[Item]:
    """The numbers of rows, each at the edge where its row starts, as many as there is room for; an arrow beside those
    of the first ``ROWS_WITH_ARROWS``."""
    setting, size = margins.setting, margins.number_size
    every = thinned(2 * setting.sheet.rise, size)
    last = setting.rows[-1].number if setting.sheet.folds.window else setting.piece.row_count
    items: list[Item] = []
    for row in setting.rows:
        side = row.starts
        far = number_at(margins, row)
        room = margins.room_beside(row, side) >= far + measure(str(row.number), size) + 0.6 * size
        if not shows_number(row, every, last) or not room:
            continue
        if setting.sheet.folds.hides_row(row.number):
            continue
        outwards = -1 if side == "left" else 1
        x, y = margins.base(row, side) + outwards * far, setting.sheet.middle(row.number)
        anchor: Anchor = "end" if side == "left" else "start"
        foot = y + 0.35 * size
        if row.edge(side).move == "step_in":  # clear of the slip stitches below it, as far as it stays in its row
            rise, low = setting.sheet.rise, setting.sheet.top(row.number - 1)
            clear = low - (SLIPPED + 0.04) * rise - 0.04 * size
            foot = min(foot, max(clear, low - 0.75 * rise + 0.35 * size))
        items.append(Text(rounded(x), rounded(foot), str(row.number), rounded(size), setting.theme.ink, anchor=anchor))
        if row.number <= ROWS_WITH_ARROWS:
            past = x + outwards * (measure(str(row.number), size) + 0.35 * size)
            items.append(_direction_arrow(past, y, outwards, size, setting.theme))
    return items


def number_at(margins: Margins, row: Row) -> float:
    """How many px outwards from the base a row's number stands: past loops, sign and wedge; below its neighbours'
    beside a straight edge."""
    side = row.starts
    far = margins.sign_at(row, side)
    if margins.moves(row, side):
        return far + margins.sign_room(row, side) + margins.wedge_room(bool(row.edge(side).step))
    return far + (margins.triangle + margins.air if side in margins.signed else 0.0)


def thinned(pitch: float, size: float) -> int:
    """Of rows whose numbers lie ``pitch`` px apart, every how many-th can be numbered in figures of ``size`` px: 1, 5,
    10 and on to 1000; where even that is too close, ``MOST_ROWS``: the first and the last alone."""
    steps = (1, 5, 10, 20, 50, 100, 500, 1000)
    return next((step for step in steps if step * pitch >= 0.98 * size), MOST_ROWS)


def shows_number(row: Row, every: int, rows: int) -> bool:
    """Whether a row is numbered where only every ``every``-th is: row 1 and row ``rows``, the last, always are, and so
    are multiples of ``every`` above it that leave as many rows to the last."""
    if every == 1 or row.number in (1, rows):
        return True
    return row.number % every == 0 and row.number > every and rows - row.number >= every


def _direction_arrow(x: float, y: float, outwards: int, size: float, theme: Theme) -> Path:
    """A small arrow outside (x, y) that points towards the work."""
    tail, tip = (x + outwards * ARROW * size, y), (x + outwards * 0.1 * size, y)
    return Path(arrow(tail, tip, 0.36 * size), stroke=theme.ink, width=rounded(max(1.0, 0.08 * size)))


def ruler(margins: Margins, left: float) -> list[Item]:
    """A column, its left side at the x ``left`` (px), that shows each stripe as a block with its yarn's letter, so that
    colour is not the only sign; blocks too low for a letter have none. Empty for a pattern that names no yarn."""
    setting, unit = margins.setting, margins.unit
    piece, sheet, colours = setting.piece, setting.sheet, setting.colours
    if piece.rows[0].colour is None:
        return []
    width, x0 = round(RULER * margins.words), round(left)
    thin = max(1, round(0.8 * unit))
    blocks: list[Item] = []
    letters: list[Item] = []
    for _, group in groupby(piece.row_levels, key=lambda row: (row.colour, _stretch(sheet, row))):
        rows = list(group)
        if sheet.folds.skips_row(rows[0].number):
            continue
        top, bottom = sheet.top(rows[-1].number), sheet.top(rows[0].number - 1)
        first = rows[0]
        blocks += framed((x0, top, width, bottom - top - thin), first, setting, thin)
        corner = [(x0, bottom), (x0, top), (x0 + width, top), (x0 + width, bottom)]
        blocks += colours.hatched(first, [(float(x), float(y)) for x, y in corner], unit)
        size = min(margins.words * (1.0 if sheet.frame.compact else 0.92), 0.86 * (bottom - top))
        if size >= LEAST_LETTER * margins.words:
            x, y = rounded(x0 + width / 2), (top + bottom) / 2
            letters += plate(colours.letter(first), x, y, size, setting)
            ink = colours.ink_of_letter(first)
            letters.append(
                Text(x, rounded(y + 0.36 * size), colours.letter(first), rounded(size), ink, "semibold", "middle")
            )
    return [*blocks, *letters]


def framed(box: tuple[int, int, int, int], row: Row, setting: Setting, thin: int) -> list[Item]:
    """A block of the colour of the row's yarn; ``box`` is left, top, width and height in whole px. A pale one has a
    frame ``thin`` px across."""
    x, y, wide, high = box
    high = max(high, 1)
    outline = setting.colours.against(row, setting.theme.paper)
    colour = setting.colours.of(row)
    if outline is None or min(wide, high) <= 2 * thin:
        return [Path(rectangle(x, y, wide, high), fill=colour)]
    inner = rectangle(x + thin, y + thin, wide - 2 * thin, high - 2 * thin)
    return [Group((Path(rectangle(x, y, wide, high), fill=outline),)), Path(inner, fill=colour)]


def _stretch(sheet: Sheet, row: Row) -> int:
    """A number for rows that are drawn (0), folded to stripes (1) and skipped (2)."""
    hidden = sheet.folds.hides_row(row.number)
    return 2 if sheet.folds.skips_row(row.number) else int(hidden)


def plate(letter: str, x: float, y: float, size: float, setting: Setting) -> list[Item]:
    """A rectangle of paper under a letter of ``size`` px about (x, y) on hatching; empty where stripes are in
    colour."""
    if not setting.colours.mono:
        return []
    wide, tall = measure(letter, size, "semibold") + 0.4 * size, 1.0 * size
    box = rectangle(rounded(x - wide / 2), rounded(y - tall / 2), rounded(wide), rounded(tall))
    return [Path(box, fill=setting.theme.paper)]


# ----------------------------------------------------------------------------------------------- names of the edges


def edge_names(margins: Margins) -> list[Item]:
    """The names of the edges as worn, where there is room for them: along the sides, but not where rows are folded, and
    above a divided piece."""
    setting, sheet = margins.setting, margins.setting.sheet
    size = 0.86 * margins.words
    items: list[Item] = list(_top_names(setting, size, margins.edged.get("above", 0.0)))
    for side in SIDES:
        if sheet.folds.rows:
            continue  # on one side the words of the brackets stand there
        outwards = -1 if side == "left" else 1
        edge = sheet.chart_left if side == "left" else sheet.chart_right
        x = edge + outwards * (margins.rooms(side).total + 0.6 * size)
        for name, low, high in stretches(setting.piece, side):
            words = setting.speech.named_by("name", name)
            if not all(map(sheet.folds.shows_row, (low, high))):
                continue
            top, bottom = sheet.top(high), sheet.top(low - 1)
            if measure(words, size) <= bottom - top:
                items.append(label(sheet, x, (top + bottom) / 2, words, size, -90.0 if side == "left" else 90.0))
    return items


def _top_names(setting: Setting, size: float, edged: float) -> list[Item]:
    """Above a neck, the names of both shoulders and the neck between them, where there is room for them; above an
    edging that takes ``edged`` px."""
    piece, sheet = setting.piece, setting.sheet
    bottom = neck_bottom(piece, sheet)
    if bottom is None:
        return []
    y = sheet.top(piece.row_count) - edged - 0.5 * size
    tops = [row for row in piece.rows if row.number == piece.row_count]
    shoulder, neck = (setting.speech.named_by("name", name) for name in ("shoulder", "neck"))
    spans = [(shoulder, sheet.side(row.left.at, "left"), sheet.side(row.right.at, "right")) for row in tops]
    inner = sorted(x for _, *ends in spans for x in ends)[1:-1] if len(spans) == 2 else []
    if len(inner) == 2:
        spans.append((neck, int(inner[0]), int(inner[1])))
    return [
        label(sheet, (left + right) / 2, y, words, size)
        for words, left, right in spans
        if measure(words, size) + size <= right - left
    ]


def label(sheet: Sheet, x: float, y: float, words: str, size: float, turn: float = 0.0) -> Text:
    """Words in the soft ink about (x, y), ``size`` px to the em, turned by ``turn`` degrees clockwise."""
    shift = 0.34 * size if turn else 0.0
    along = shift if turn < 0 else -shift
    return Text(rounded(x + along), rounded(y), words, rounded(size), sheet.theme.soft, "regular", "middle", turn)


def room_for_names(piece: PiecePlan, side: Side, words: float, folds: Folds) -> float:
    """The px that the names along one side take, at ``words`` px to the em; 0 where there are none, and where rows are
    folded: brackets stand there."""
    return 1.5 * 0.86 * words if stretches(piece, side) and not folds.rows else 0.0


def name_of_foundation(piece: PiecePlan, speech: Speech) -> str:
    """What the foundation is on the finished piece, in words, as "hem" or "side seam"; of a piece begun on another what
    it is begun on."""
    if piece.begun_on:
        return founding.said(speech, "chart.foundation", piece)
    if piece.front_edge == "first":
        name = "front edge"
    elif piece.worked == "sideways":
        name = "side seam" if piece.has_neck else "side edge"
    elif piece.has_neck:
        name = "hem"
    else:
        name = "first row" if piece.free_outline else "lower edge"
    return speech.say("name.foundation", name=speech.named_by("name", name))


def stretches(piece: PiecePlan, side: Side) -> list[tuple[str, int, int]]:
    """The names along one side of the chart, from the bottom up, each as (name, first row, last row), in the words that
    ``Speech.named_by`` translates; empty for a piece worked upwards."""
    rows = piece.row_count
    if piece.worked == "upwards":
        return []
    if side != piece.top:
        return [("hem" if piece.has_neck else "lower edge", 1, rows)]
    if piece.upper is not None and piece.upper.shaped:
        from turnchain.garment import edges  # for upper edges with parts

        runs = [run for run in edges.around(piece) if run.rows is not None and run.name != "lower"]
        called = {"upper": "upper edge"}
        return [(called.get(run.name, run.name), min(run.rows or (1,)), max(run.rows or (1,))) for run in runs]
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


def foot_of_chart(sheet: Sheet) -> float:
    """The y, in px, of the foot of the foundation's strip."""
    return sheet.foot
