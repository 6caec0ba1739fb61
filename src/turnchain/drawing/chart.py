"""The whole chart of a piece, as a scene.

In: a plan and the name of a piece. Out: a ``Scene``: header, stitches on their stripes with numbered rows and
named edges, the key, the credit. Row 1 is at the bottom; right side facing.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.drawing import brackets, key, margins
from turnchain.drawing.columns import LEADING, SMALL, Column
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.folds import NO_FOLDS, folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.margins import Colours
from turnchain.drawing.sheet import SHORT, SIDE_KEY, WHOLE, Sheet, measured
from turnchain.fabric.grid import Grid
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.numbers import rounded
from turnchain.pattern import Pattern
from turnchain.scene import Group, Item, Path, Scene, Text, Use, arrow
from turnchain.wording import alt_texts
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import language_of, speech_of
from turnchain.yarns import carrying
from turnchain.yarns.carrying import Change

COLUMN_GAP = 50


def chart(
    plan: Plan, name: str, width: int | None = None, look: Look | None = None, short: bool = False
) -> Scene:
    """The chart of the piece ``name``, ``width`` px wide; ``short`` folds away what only repeats.

    Raises MakerError where the symbols would be too small to tell apart, or cannot be read.
    """
    look = look or Look()
    piece = for_hand(plan.piece(name), look.hand)
    frame, folds = (SHORT, folded(piece)) if short else (WHOLE, NO_FOLDS)
    return drawn(plan, piece, measured(piece, width, look, frame, folds), look)


def drawn(plan: Plan, piece: PiecePlan, sheet: Sheet, look: Look, height: int | None = None) -> Scene:
    """``piece`` on a measured ``sheet``; the page as high as it needs or, where given, ``height`` px."""
    pattern, short = plan.pattern, sheet.folds != NO_FOLDS
    speech = speech_of(pattern)
    margin = sheet.frame.margin * sheet.unit
    head = key.header(pattern, piece, margin, margin, sheet, _kind(speech, look, short))
    top = head.y + 56 * sheet.unit
    sheet = sheet.grounded(round(top) - sheet.top(piece.row_count))
    grid = Grid(piece)
    definitions = Definitions(grid, sheet, look.symbols)
    samples = Definitions(grid, sheet.scaled(key.SAMPLE_HALF_PITCH, piece, look), look.symbols, prefix="key-")
    colours = Colours(pattern, look.inks)
    found = carrying.changes(piece, carrying.carry_of(plan, piece))
    fabric = _fabric(pattern, piece, sheet, definitions, colours, found)
    keyed, bottom = _key(pattern, piece, sheet, samples, colours, top)
    if height is not None:
        bottom = max(bottom, height - (22 + 30 + SMALL * LEADING) * sheet.unit)
    foot, page = _credit(pattern, sheet, bottom)
    items = (
        Group(tuple(head.items), "header"),
        *_worn_arrow(piece, sheet, margin, speech),
        *fabric,
        Group(tuple(keyed), "key"),
        Group(tuple(foot), "credit"),
    )
    return Scene(
        width=sheet.width,
        height=page,
        title=f"{pattern.title}: {piece.name}, {speech.say('chart.short' if short else 'chart')}",
        words=alt_texts.of_chart(plan, piece, short),
        language=language_of(pattern).tag,
        definitions=definitions.made | samples.made,
        items=items,
        background=look.background,
    )


def _kind(speech: Speech, look: Look, short: bool) -> str:
    """What sets this chart apart from the whole one for right-handed makers."""
    said = [speech.say("chart.short")] if short else []
    return "  ·  ".join([*said, speech.say("chart.left_handed")] if look.hand == "left" else said)


def _fabric(
    pattern: Pattern,
    piece: PiecePlan,
    sheet: Sheet,
    definitions: Definitions,
    colours: Colours,
    found: Sequence[Change],
) -> list[Item]:
    """Stripes, edges, stitches, numbers and names, from the back to the front."""
    bands: list[Item] = []
    rows: list[Item] = []
    speech = speech_of(pattern)
    for row in piece.rows:
        bands += margins.bands(piece, sheet, row, colours)
        if sheet.folds.hides_row(row.number):
            continue
        if row.number > 1:
            bands.append(margins.row_rule(piece, sheet, row, colours.ink(row)))
        use = Use(definitions.row(row), sheet.x(row.left.at), sheet.top(row.number), colours.ink(row))
        rows.append(Group((use,), f"row-of-stitches-{row.index + 1}", alt_texts.of_row(pattern, row)))
    frame = sheet.frame
    ruler_left = sheet.chart_left - (frame.numbers + frame.names + frame.gap + frame.ruler) * sheet.unit
    return [
        Group(tuple(bands), "stripes"),
        Group(tuple(definitions.foundation()), "foundation", speech.say("chart.foundation", n=piece.foundation_chain)),
        Group(tuple(margins.edge_lines(piece, sheet)), "edges"),
        Group(tuple(rows), "stitches"),
        Group(tuple(margins.carries(piece, sheet, colours, found)), "carried-yarns"),
        Group(tuple(margins.marks(piece, sheet)), "marks"),
        Group(tuple(margins.row_numbers(piece, sheet)), "row-numbers"),
        Group(tuple(margins.stripe_ruler(piece, sheet, colours, ruler_left)), "stripe-letters"),
        Group(tuple(margins.edge_names(piece, sheet, speech)), "edge-names"),
        *brackets.of(piece, sheet, speech),
    ]


def _worn_arrow(piece: PiecePlan, sheet: Sheet, margin: float, speech: Speech) -> list[Item]:
    """Which way is up when the piece is worn, at the top right."""
    unit = sheet.unit
    turned = {"left": (-1.0, 0.0), "right": (1.0, 0.0), None: (0.0, -1.0)}[piece.top]
    words = speech.say("arrow.worn" if piece.has_neck else "arrow.work" if piece.free_outline else "arrow.up")
    size, reach = 20 * unit, 26 * unit
    x, y = sheet.width - margin - reach, margin + 58 * unit
    dx, dy = turned
    tip, tail = (x + dx * reach, y + dy * reach), (x - dx * reach, y - dy * reach)
    shaft = Path(arrow(tail, tip, 11 * unit), stroke=sheet.theme.ink, width=rounded(2.4 * unit))
    label = Text(
        rounded(x - reach - 16 * unit), rounded(y + 0.34 * size), words, size, sheet.theme.soft, anchor="end"
    )
    return [Group((shaft, label), "this-way-up", words)]


def _key(
    pattern: Pattern, piece: PiecePlan, sheet: Sheet, samples: Definitions, colours: Colours, top: float
) -> tuple[list[Item], float]:
    """The key beside the chart in one column or below it in a few, many yarns across the page below those; and how far
    down the page is used."""
    many = key.many_yarns(pattern, piece) and not sheet.key_beside
    columns = _columns(sheet, top, min(sheet.frame.columns, 2) if many else sheet.frame.columns)
    if sheet.frame.compact:
        key.compact(columns[0], pattern, piece, samples, colours)
    else:
        key.symbols_key(columns[0], pattern, piece, samples)
        for said in brackets.words(sheet, speech_of(pattern)):
            columns[0].words(said, size=SMALL, colour=sheet.theme.soft)
        if not many:
            key.yarns_key(columns[min(1, len(columns) - 1)], pattern, piece, colours)
        key.facts_key(columns[-1], pattern, piece)
        if many:
            columns.append(_across(sheet, columns))
            key.yarns_key(columns[-1], pattern, piece, colours)
    items = [item for column in columns for item in column.items]
    return items, max(_below(sheet), *(column.y for column in columns))


def _across(sheet: Sheet, columns: list[Column]) -> Column:
    """A column as wide as the page, below the others."""
    margin = sheet.frame.margin * sheet.unit
    lowest = max(column.y for column in columns) + 30 * sheet.unit
    return Column(margin, lowest, sheet.width - 2 * margin, sheet.unit, sheet.theme)


def _below(sheet: Sheet) -> float:
    """Where there is room below the chart."""
    return sheet.ground + 0.75 * sheet.rise + (84 if sheet.folds.across else 64) * sheet.unit


def _columns(sheet: Sheet, top: float, wanted: int) -> list[Column]:
    """The columns of the key: one beside the chart, whose stitches begin at ``top``, or as many below it as
    ``wanted``."""
    unit, margin = sheet.unit, sheet.frame.margin * sheet.unit
    if sheet.key_beside:
        width = (SIDE_KEY - 80) * unit
        return [Column(sheet.width - margin - width, top, width, unit, sheet.theme)]
    width = (sheet.width - 2 * margin - (wanted - 1) * COLUMN_GAP * unit) / wanted
    return [
        Column(margin + index * (width + COLUMN_GAP * unit), _below(sheet), width, unit, sheet.theme)
        for index in range(wanted)
    ]


def _credit(pattern: Pattern, sheet: Sheet, bottom: float) -> tuple[list[Item], int]:
    """The credit line, and the height of the page."""
    unit, margin = sheet.unit, sheet.frame.margin * sheet.unit
    column = Column(margin, bottom + 22 * unit, sheet.width - 2 * margin, unit, sheet.theme)
    column.words(key.credit(pattern), size=SMALL, colour=sheet.theme.soft)
    return column.items, round(column.y + 30 * unit)
