"""The whole chart of a piece, as a scene.

In: a plan and the name of a piece. Out: a ``Scene``: heading, stitches on their stripes with numbered rows and
named edges, the key, the credit. Row 1 is at the bottom; right side facing.
"""

from __future__ import annotations

import math

from turnchain.drawing import bands, brackets, chart_edgings, heading, key, loops, margins
from turnchain.drawing.columns import SMALL, Column
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.folds import NO_FOLDS, Folds, folded
from turnchain.drawing.key import Samples
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import RULER, RULER_GAP, Margins
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import SHORT, WHOLE, Frame
from turnchain.drawing.sizing import KEY_BESIDE, measured
from turnchain.errors import MakerError
from turnchain.fabric.grid import Into
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import Plan
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Fits, Group, Item, Path, Scene, Text, Use, ruled
from turnchain.wording import alt_texts, founding
from turnchain.wording.tables import language_of

COLUMN_GAP = 2.4  # between columns of the key, over the words of the page
THREE_COLUMNS, TWO_COLUMNS, HALVES = 56.0, 45.0, 24.0  # least width of the page for so many, the same
COMFORTABLE = 13  # px to half a pitch at the reference width: a wider piece is drawn short where nothing is said
KEY_UNIT = 21.0  # px of the words of a ``Column`` of unit 1


@frozen
class Parts:
    """What is drawn around the chart itself; ``credit`` is the line at the foot of the page."""

    heading: bool = True
    key: bool = True
    credit: bool = True


ALL = Parts()
CHART_ALONE = Parts(heading=False, key=False, credit=False)


def chart(
    plan: Plan,
    name: str,
    width: int | None = None,
    look: Look | None = None,
    short: bool | None = False,
    parts: Parts = ALL,
    fits: Fits | None = None,
) -> Scene:
    """The chart of the piece ``name``, ``width`` px wide (None: as wide as it needs); ``short`` folds away what only
    repeats (None: where the whole chart would be so small that it is read better short). ``fits`` is asked first.

    Raises KeyError where the plan has no piece ``name``, MakerError where the symbols would be too small to tell apart
    (in less than ``style.LEAST_HALF_PITCH`` px to half a pitch), or where a file of symbols cannot be read.
    """
    found = setting(plan, name, look or Look())
    folds = folded(found.piece) if short or short is None else NO_FOLDS
    if short is None:
        whole = laid_out(found, width, WHOLE, parts=parts, fits=fits)
        short = whole.sheet.half < COMFORTABLE * whole.sheet.unit and folds != NO_FOLDS
        if not short:
            return drawn(whole, parts)
    return drawn(laid_out(found, width, SHORT if short else WHOLE, folds, parts, fits=fits), parts)


def laid_out(
    found: Setting,
    width: int | None,
    frame: Frame,
    folds: Folds = NO_FOLDS,
    parts: Parts = ALL,
    fixed: bool = False,
    fits: Fits | None = None,
) -> Setting:
    """``found`` on a measured page, with the key below the chart or beside it, whichever leaves less of the page empty;
    beside it only where half a pitch then has 0.8 of the px at the least. Without a key, and on a ``compact`` frame, as
    with the key below. ``width`` and ``fixed`` are those of ``sizing.measured``; ``fits``
    is asked with the height of the cloth.

    Raises MakerError where the symbols would be too small to tell apart.
    """
    below = found.on(measured(found, width, frame, folds, fixed=fixed))
    if fits is not None:
        fits(below.sheet.width, below.sheet.heights[-1])
    if not parts.key or frame.compact:
        return below
    try:
        beside = found.on(measured(found, width, frame, folds, beside=True, fixed=fixed))
    except MakerError:
        return below
    if beside.sheet.half < 0.8 * below.sheet.half:
        return below
    return min((below, beside), key=_empty)


def _empty(found: Setting) -> float:
    """The share of the page between heading and credit that nothing stands on."""
    picture = ChartPicture(found, CHART_ALONE)
    columns, _ = picture.columns(0.0, picture.chart_height)
    sheet = found.sheet
    left, right = picture.extent()
    used = (right - left) * picture.chart_height + math.fsum(column.width * _height(column) for column in columns)
    tall = max(picture.chart_height, *(column.y for column in columns))
    return 1 - used / ((sheet.width - 2 * sheet.margin) * tall)


def _height(column: Column) -> float:
    tops = [item.y for item in column.items if isinstance(item, Text)]
    return column.y - min(tops, default=column.y) + column.unit * KEY_UNIT


def drawn(found: Setting, parts: Parts = ALL, height: int | None = None) -> Scene:
    """The picture of a piece on its measured sheet, as high as it needs or, where that is less, ``height`` px high.

    Raises MakerError where a file of symbols cannot be read.
    """
    return ChartPicture(found, parts).scene(height)


class ChartPicture:
    """The picture of a measured setting, part by part. ``scene`` draws the whole page; who places the chart in a page
    of their own calls ``place`` and then ``chart_items``. All sizes are px."""

    def __init__(self, found: Setting, parts: Parts = ALL) -> None:
        self.parts = parts
        self.short = found.sheet.folds != NO_FOLDS
        self.setting = found
        self.margins = Margins.on(found)
        sheet = found.sheet
        half = max((key.COMPACT if sheet.frame.compact else key.SAMPLE_HALF_PITCH) * sheet.words, 3)
        self.definitions = Definitions(found.grid, sheet, found.look.symbols)
        scaled = sheet.scaled(half, found.piece, found.look)
        self.samples = Samples(
            self.margins, Definitions(found.grid, scaled, found.look.symbols, prefix="key-"), sheet.words
        )

    # ------------------------------------------------------------------------------------------------ the whole page

    def scene(self, height: int | None) -> Scene:
        """The finished picture, as high as it needs and ``height`` px (None: no px) at the least."""
        found, sheet = self.setting, self.setting.sheet
        top_items, top = self._heading()
        self.place(round(top + self.above))
        columns, foot = self.columns(top, top + self.chart_height) if self.parts.key else ([], top + self.chart_height)
        items: list[Item] = [*top_items, *self.chart_items()]
        items.append(Group(tuple(item for column in columns for item in column.items), "key"))
        foot_items, page = self._credit(foot, height)
        items += foot_items
        pattern, piece = found.pattern, found.piece
        return Scene(
            width=sheet.width,
            height=page,
            title=f"{pattern.title}: {piece.name}, {found.speech.say('chart.short' if self.short else 'chart')}",
            words=alt_texts.of_chart(found.plan, piece, self.short),
            language=language_of(pattern).tag,
            definitions=self.definitions.made | self.samples.definitions.made,
            items=tuple(items),
            background=found.look.background,
        )

    def place(self, top: int) -> None:
        """Puts the top of the last row at the y ``top``."""
        sheet = self.setting.sheet
        self.setting = self.setting.on(sheet.grounded(top + sheet.heights[-1]))
        sheet = self.setting.sheet
        self.margins = Margins.on(self.setting)
        self.definitions.sheet = sheet

    def _heading(self) -> tuple[list[Item], float]:
        sheet = self.setting.sheet
        if not self.parts.heading:
            return [], sheet.margin
        place = heading.HeadingPlace(
            sheet.margin, sheet.margin - 0.4 * sheet.words, sheet.width - 2 * sheet.margin, sheet.words, sheet.theme
        )
        items, y = heading.drawn(key.heading(self.setting, self._kind()), place)
        return items, y + 0.9 * sheet.words

    def _kind(self) -> str:
        """What sets this chart apart from the whole one for right-handed makers."""
        say = self.setting.speech.say
        said = [say("chart.short")] if self.short else []
        return "  ·  ".join([*said, say("chart.left_handed")] if self.setting.look.hand == "left" else said)

    def _credit(self, bottom: float, height: int | None) -> tuple[list[Item], int]:
        """How the chart is read, the credit line, and the height of the page."""
        sheet = self.setting.sheet
        wide = sheet.width - 2 * sheet.margin
        column = Column(sheet.margin, bottom + 0.6 * sheet.words, wide, sheet.words / KEY_UNIT, sheet.theme)
        if self.parts.key:
            said = [key.reading_words(self.setting)]
            if self.short:
                said += brackets.sentences(self.setting)
            column.words(" ".join(said), size=SMALL, colour=sheet.theme.soft)
            column.skip(8)
        if self.parts.credit:
            rule = ruled((sheet.margin, column.y), (sheet.margin + wide, column.y), 1.1 * sheet.unit)
            column.items.append(Path(rule, fill=sheet.theme.hair))
            column.skip(6)
            column.words(key.credit(self.setting.pattern), size=SMALL, colour=sheet.theme.soft)
        page = round(column.y + sheet.margin * 0.7)
        return [Group(tuple(column.items), "credit")], max(page, height or 0)

    # ------------------------------------------------------------------------------------------------ the chart

    @property
    def above(self) -> float:
        """The px above the last row, for the names of the parts of a divided piece; 0 where there are none."""
        divided = len(self.setting.piece.sections) > 1 and not self.setting.sheet.frame.compact
        return (1.35 * self.setting.sheet.words if divided else 0.0) + self.margins.edged.get("above", 0.0)

    @property
    def chart_height(self) -> float:
        """The px from the names above the last row to the foot of what stands below the foundation."""
        sheet = self.setting.sheet
        grounded = self.setting.on(sheet.grounded(round(self.above) + sheet.heights[-1]))
        made = Margins.on(grounded)
        return foot(made, self.definitions)[1]

    def extent(self) -> tuple[float, float]:
        """The x, in px, of the left and the right end of the chart with all that stands beside the cloth."""
        sheet, words = self.setting.sheet, self.setting.sheet.words
        named, piece = not sheet.frame.compact, self.setting.piece
        left, right = (
            self.margins.rooms(side).total + (margins.room_for_names(piece, side, words, sheet.folds) if named else 0)
            for side in SIDES
        )
        ruler = (RULER + RULER_GAP) * words if self.setting.piece.rows[0].colour else 0.0
        repeats = brackets.room(self.setting, sheet.folds, words)
        return sheet.chart_left - left - ruler, sheet.chart_right + max(right, repeats)

    def chart_items(self, stitches: bool = True) -> list[Item]:
        """Stripes, edges, stitches, numbers and names, from the back to the front; without ``stitches`` the stripes
        with their numbers and letters alone."""
        found, made = self.setting, self.margins
        piece, sheet = found.piece, found.sheet
        stripes: list[Item] = []
        lines: list[Item] = []
        rows: list[Item] = []
        for row in found.rows:
            stripes += bands.bands(found, row)
            lines += bands.hairline(found, row)
            if stitches and not sheet.folds.hides_row(row.number):
                use = Use(
                    self.definitions.row(row), sheet.x(row.left.at), sheet.top(row.number), found.colours.ink(row)
                )
                rows.append(Group((use,), f"row-of-stitches-{row.index + 1}", alt_texts.of_row(found.pattern, row)))
        ruler_left = self.extent()[0]
        chains = self.definitions.foundation(found.colours.ink(piece.rows[0])) if found.founded and stitches else []
        told = founding.said(found.speech, "chart.foundation", piece)
        names = [] if sheet.frame.compact else margins.edge_names(made)
        return [
            Group(tuple(stripes), "stripes"),
            Group(tuple(lines), "hairlines"),
            Group(tuple(bands.strips(found)), "strips"),
            Group(tuple(chains), "foundation", told),
            Group(tuple(bands.edges(found)), "edges"),
            *chart_edgings.drawn(found, made.beside_edgings, margins.foot_of_chart(sheet)),
            Group(tuple(rows), "stitches"),
            Group(tuple(loops.drawn(found, made.loops) if stitches else ()), "carried-yarns"),
            Group(tuple(margins.signs(made) if stitches else ()), "joins-and-ends"),
            Group(tuple(margins.wedges(made) if stitches else ()), "marks"),
            Group(tuple(margins.row_numbers(made)), "row-numbers"),
            Group(tuple(margins.ruler(made, ruler_left)), "stripe-letters"),
            Group(tuple(names), "edge-names"),
            Group(tuple(foot(made, self.definitions)[0] if stitches else ()), "below"),
            *brackets.of(made, stitches),
        ]

    # ------------------------------------------------------------------------------------------------ the key

    def columns(self, top: float, below: float) -> tuple[list[Column], float]:
        """The columns of the key and the y, in px, of the foot of all: beside the chart, from the y ``top`` on, or
        below it, from the y ``below`` on, in as many columns as the page is wide enough for."""
        sheet, z = self.setting.sheet, self.setting.sheet.words
        wide = sheet.width - 2 * sheet.margin
        if sheet.key_beside:
            width = (KEY_BESIDE - 2.0) * z
            column = self._column(sheet.width - sheet.margin - width, top, width)
            self._fill(column, symbols=True, yarns=True, facts=True)
            return [column], max(below, column.y)
        many, top = key.many_yarns(self.setting), below + 0.5 * z
        parts: list[tuple[str, ...]] = [("symbols",), ("yarns",), ("facts",)]
        if wide >= THREE_COLUMNS * z and not many:
            pass
        elif wide >= TWO_COLUMNS * z:
            parts = [("symbols",), ("facts",) if many else ("yarns", "facts")]
        else:
            return self._narrow(top, many)
        columns = self._in_a_row(top, parts)
        return self._with_many_yarns(columns, many)

    def _in_a_row(self, top: float, parts: list[tuple[str, ...]]) -> list[Column]:
        """Columns side by side, each with its parts of the key."""
        parts = [one for one in parts if one != ("yarns",) or self.setting.piece.rows[0].colour]
        sheet, gap = self.setting.sheet, COLUMN_GAP * self.setting.sheet.words
        width = (sheet.width - 2 * sheet.margin - (len(parts) - 1) * gap) / len(parts)
        made = []
        for nth, names in enumerate(parts):
            column = self._column(sheet.margin + nth * (width + gap), top, width)
            self._fill(column, **dict.fromkeys(names, True))
            made.append(column)
        return made

    def _narrow(self, top: float, many: bool) -> tuple[list[Column], float]:
        """On a narrow page the symbols across it, then yarns and facts side by side, or below one another."""
        sheet, z = self.setting.sheet, self.setting.sheet.words
        wide = sheet.width - 2 * sheet.margin
        symbols = self._column(sheet.margin, top, wide)
        self._fill(symbols, symbols=True)
        below = symbols.y + 1.0 * z
        halves = wide >= HALVES * z and not many
        parts: list[tuple[str, ...]] = [("yarns",), ("facts",)]
        if not halves:
            parts = [("facts",)] if many else [("yarns", "facts")]
        return self._with_many_yarns([symbols, *self._in_a_row(below, parts)], many)

    def _with_many_yarns(self, columns: list[Column], many: bool) -> tuple[list[Column], float]:
        """Where there are many yarns, a column as wide as the page for them below the others."""
        lowest = max(column.y for column in columns)
        if many:
            sheet = self.setting.sheet
            wide = self._column(sheet.margin, lowest + sheet.words, sheet.width - 2 * sheet.margin)
            self._fill(wide, yarns=True)
            columns, lowest = [*columns, wide], wide.y
        return columns, lowest

    def _column(self, left: float, top: float, width: float) -> Column:
        sheet = self.setting.sheet
        return Column(left, top, width, sheet.words / KEY_UNIT, sheet.theme)

    def _fill(self, column: Column, symbols: bool = False, yarns: bool = False, facts: bool = False) -> None:
        if symbols:
            key.symbols_key(column, self.samples)
        if yarns:
            key.yarns_key(column, self.setting)
        if facts:
            key.facts_key(column, self.setting)


def foot(made: Margins, definitions: Definitions) -> tuple[list[Item], float]:
    """What stands below the foundation: the chain that the first stitch goes into, the name of the first row; and the
    y of the lowest, in px."""
    found, size = made.setting, made.words
    sheet, piece = found.sheet, found.piece
    if not found.founded and not sheet.folds.by_columns:
        return [], sheet.ground + 0.3 * size
    y = margins.foot_of_chart(sheet) + made.edged.get("below", 0.0)
    items: list[Item] = []
    taken: list[list[tuple[float, float]]] = [[], [], []]
    hook = 0.0
    if sheet.folds.by_columns:
        words = brackets.across_words(found)
        x = brackets.bracket_middle(made)
        taken[0].append(_reach(x, words, size))
        hook = brackets.HOOK * size
    labels = []
    if found.founded and sheet.folds.cut(piece.rows[0].starts) is None:
        among = founding.first_turning(piece) if piece.picked_up else 0  # stitches are counted by themselves
        nth = found.speech.nth(key.first_chain(piece) - among)
        words = found.speech.say("chart.first_sc" if piece.picked_up else "chart.first_chain", nth=nth)
        labels.append((_first_chain_x(found, definitions), words, True))
    if found.founded and not sheet.frame.compact:
        middle = (sheet.chart_left + sheet.chart_right) / 2
        labels.append((middle, margins.name_of_foundation(piece, found.speech), False))
    lines = 1
    for x, words, strong in labels:
        own = size if strong else 0.86 * size
        reach = measure(words, own) / 2
        x_text = min(max(x, sheet.margin + reach), sheet.width - sheet.margin - reach)
        span = _reach(x_text, words, own)
        row = next(n for n, line in enumerate(taken) if all(span[1] < low or span[0] > high for low, high in line))
        taken[row].append(span)
        lines = max(lines, row + 1)
        base = y + 0.35 * size + hook + (1.1 + 1.2 * row) * size
        colour = sheet.theme.ink if strong else sheet.theme.soft
        items.append(Text(rounded(x_text), rounded(base), words, rounded(own), colour, anchor="middle"))
        if strong:
            tick = ruled((x, y + 0.15 * size), (x, base - 0.9 * size), 0.07 * size)
            items.append(Path(tick, fill=sheet.theme.ink))
    return items, y + 0.35 * size + hook + (1.1 + 1.2 * (lines - 1)) * size + 0.35 * size


def _reach(x: float, words: str, size: float) -> tuple[float, float]:
    """From where to where words about ``x`` reach, with a blank at either end."""
    reach = measure(words, size) / 2 + 0.5 * size
    return x - reach, x + reach


def _first_chain_x(found: Setting, definitions: Definitions) -> float:
    """Where the chain lies that ``key.first_chain`` numbers."""
    first = found.piece.rows[0]
    stitches = found.grid.row(first)
    number = key.first_chain(found.piece)
    for nth, (into, target) in enumerate(zip(stitches.into, stitches.target, strict=True)):
        if into == Into.FOUNDATION and target == number:
            return found.sheet.x(definitions.chain_under(float(stitches.head[nth])))
    raise AssertionError("row 1 stands on the foundation")
