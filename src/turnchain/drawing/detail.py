"""A close-up: a few rows at one edge, to show how one decrease or increase is worked.

In: a planned piece, rows and a side. Out: a ``Scene`` on a clear page, the rows in question strong and those around
them quiet, an arrow into the place where the hook goes, and a caption.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from turnchain import style
from turnchain.drawing import margins
from turnchain.drawing.definitions import IN_STITCH, Definitions
from turnchain.drawing.folds import Folds, Span
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.margins import Colours
from turnchain.drawing.sheet import WHOLE, Sheet
from turnchain.errors import MakerError
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.lettering import wrapped
from turnchain.numbers import rounded
from turnchain.pattern import Pattern
from turnchain.scene import Group, Item, Path, Scene, Text, Use, arrow, polyline, rectangle
from turnchain.wording import alt_texts
from turnchain.wording.tables import language_of, speech_of

CLUSTERS = 4  # shown from the edge inwards
BELOW, ABOVE = 2, 1  # rows shown around those asked for
MOST_ROWS = 12
QUIET = 0.45  # how much of a quiet row's ink is left
OUTSIDE = 4.5  # half pitches left free outside the edge, for numbers and the arrow


@dataclass(frozen=True, slots=True)
class Asked:
    """Rows ``first`` to ``last`` at the edge ``at``."""

    first: int
    last: int
    at: Side


def series(piece: PiecePlan) -> Iterator[Asked]:
    """One close-up for each kind of edge move that a piece uses, at the start and at the end of a row."""
    seen: set[tuple[str, bool]] = set()
    for row in piece.rows:
        for side in SIDES:
            kind = (row.edge(side).move, row.starts == side)
            if kind[0] != "straight" and kind not in seen and row.section == piece.rows[0].section:
                seen.add(kind)
                yield Asked(row.number, row.number, side)


def detail(plan: Plan, name: str, asked: Asked, size: tuple[int, int], look: Look | None = None) -> Scene:
    """The close-up of the piece ``name``, ``size`` px wide and high.

    Raises MakerError for rows that the piece does not have, or too many of them.
    """
    look = look or Look()
    speech = speech_of(plan.pattern)
    piece = for_hand(plan.piece(name), look.hand)
    _check(piece, asked)
    sheet = _sheet(piece, asked, size, look)
    definitions = Definitions(Grid(piece), sheet, look.symbols)
    colours = Colours(plan.pattern, look.inks)
    shown = [row for row in piece.rows if _low(asked) <= row.number <= _high(piece, asked)]
    shown = [row for row in shown if _in_view(sheet, row, asked.at)]
    items: list[Item] = []
    for row in shown:
        items += _band(piece, sheet, row, colours, asked)
    for row in shown:
        items.append(_stitches(plan.pattern, sheet, definitions, row, colours, _strong(row, asked)))
        items += _edge(piece, sheet, row, asked)
    if shown[0].number == 1:
        chains = speech.say("chart.foundation", n=piece.foundation_chain)
        items.append(Group(tuple(definitions.foundation()), "foundation", chains))
    subject = _subject(shown, asked)
    caption = alt_texts.of_edge(plan.pattern, piece, subject, asked.at)
    items += _hook_arrow(definitions, sheet, subject, asked.at, speech.say("detail.hook"))
    items += _caption(sheet, size, caption)
    return Scene(
        width=size[0],
        height=size[1],
        title=speech.say(f"detail.{asked.at}", title=plan.pattern.title, piece=name, n=asked.first),
        words=" ".join(caption),
        language=language_of(plan.pattern).tag,
        definitions=definitions.made,
        items=tuple(items),
        background=None if look.page in ("clear", "light") else look.background,
    )


def _check(piece: PiecePlan, asked: Asked) -> None:
    rows = piece.row_count
    if not 1 <= asked.first <= asked.last <= rows:
        raise MakerError(
            f'piece "{piece.name}": there are no rows {asked.first} to {asked.last}; it has rows 1 to {rows}'
        )
    if asked.last - asked.first >= MOST_ROWS:
        raise MakerError(f"a close-up shows {MOST_ROWS} rows at most; take the whole chart for more")


def _low(asked: Asked) -> int:
    return max(1, asked.first - BELOW)


def _high(piece: PiecePlan, asked: Asked) -> int:
    return min(piece.row_count, asked.last + ABOVE)


def _subject(shown: list[Row], asked: Asked) -> Row:
    """The row whose edge is explained: the first asked for that is shaped there, else the first."""
    strong = [row for row in shown if _strong(row, asked)]
    # Beside a neck two rows have one number: the one at the edge asked for is meant.
    outer = min if asked.at == "left" else max
    ends = {row.number: [one.edge(asked.at).at for one in strong if one.number == row.number] for row in strong}
    rows = [row for row in strong if row.edge(asked.at).at == outer(ends[row.number])]
    return next((row for row in rows if row.edge(asked.at).move != "straight"), rows[0])


def _strong(row: Row, asked: Asked) -> bool:
    return asked.first <= row.number <= asked.last


def _sheet(piece: PiecePlan, asked: Asked, size: tuple[int, int], look: Look) -> Sheet:
    """As large as the rows and clusters fit between the caption and the picture's edges."""
    rows = [row for row in piece.rows if _low(asked) <= row.number <= _high(piece, asked)]
    ends: dict[int, int] = {}
    furthest = min if asked.at == "left" else max
    for row in rows:
        at = row.edge(asked.at).at
        ends[row.number] = furthest(ends.get(row.number, at), at)
    edges = list(ends.values())
    outer = min(edges) if asked.at == "left" else max(edges)
    inner = max(edges) + 2 * CLUSTERS + 1 if asked.at == "left" else min(edges) - 2 * CLUSTERS - 1
    width, height = size
    count = _high(piece, asked) - _low(asked) + 1
    across = abs(inner - outer) + OUTSIDE + 0.5
    unit = min(width, height) / 1080
    room = height - CAPTION_ROOM * unit
    half = int(min(width * 0.94 / across, room / (count + 0.6) / (look.rise(piece, 1000) / 1000)))
    half = max(half, 1)
    far = piece.rightmost - piece.leftmost + 100
    hidden = Span(inner, inner + far) if asked.at == "left" else Span(inner - far, inner)
    used = abs(inner - outer) * half
    spare = (width - used - OUTSIDE * half) / 2
    sheet = Sheet(
        width=width,
        unit=unit,
        half=half,
        rise=look.rise(piece, half),
        zero=0,
        ground=0,
        chart_left=0,
        chart_right=width,
        key_beside=False,
        theme=look.theme,
        folds=Folds(hidden),
        frame=WHOLE,
    )
    wanted = spare + (OUTSIDE * half if asked.at == "left" else used)
    foot = (room + count * sheet.rise) / 2
    return replace(sheet, zero=round(wanted - sheet.x(outer)), ground=round(foot) - sheet.top(_low(asked) - 1))


CAPTION_ROOM = 210  # px for the caption where the shorter side has 1080


def _in_view(sheet: Sheet, row: Row, at: Side) -> bool:
    """Whether any of ``row`` lies before the place where the close-up ends."""
    span = sheet.folds.across
    assert span is not None, "a close-up always ends somewhere"
    return row.left.at < span.first if at == "left" else row.right.at > span.last


def _band(piece: PiecePlan, sheet: Sheet, row: Row, colours: Colours, asked: Asked) -> list[Item]:
    strong = _strong(row, asked)
    low_left, high_left = (_within(sheet, asked.at, point) for point in margins.corners(piece, sheet, row, "left"))
    low_right, high_right = (_within(sheet, asked.at, point) for point in margins.corners(piece, sheet, row, "right"))
    corners = [low_left, high_left, high_right, low_right]
    fill = Path(polyline(corners, closed=True), fill=_shade(colours.of(row), strong))
    return [fill, *(colours.hatched(row, corners, sheet.unit) if strong else [])]


def _shade(colour: str, strong: bool) -> str:
    """The colour of a band: a quiet one is half paper, whatever ground it comes to lie on."""
    return colour if strong else style.mixed(colour, style.LIGHT.paper, 0.5)


def _within(sheet: Sheet, at: Side, point: tuple[float, float]) -> tuple[float, float]:
    """``point`` brought to where the close-up ends inside the fabric, if it lies beyond."""
    gap = sheet.break_at()
    assert gap is not None, "a close-up always ends somewhere"
    return (min(point[0], gap[0]) if at == "left" else max(point[0], gap[1]), point[1])


def _stitches(
    pattern: Pattern, sheet: Sheet, definitions: Definitions, row: Row, colours: Colours, strong: bool
) -> Item:
    colour = _shade(colours.of(row), strong)
    ink = colours.ink(row) if strong else style.mixed(style.ink_on(colour), colour, QUIET)
    use = Use(definitions.row(row), rounded(sheet.x(row.left.at)), sheet.top(row.number), ink)
    return Group((use,), f"row-of-stitches-{row.index + 1}", alt_texts.of_row(pattern, row))


def _edge(piece: PiecePlan, sheet: Sheet, row: Row, asked: Asked) -> list[Item]:
    """Edge line, mark and number of one row."""
    low, high = margins.corners(piece, sheet, row, asked.at)
    strong = _strong(row, asked)
    shaped = row.edge(asked.at).move != "straight"
    colour = sheet.theme.accent if shaped else sheet.theme.ink
    thick = (0.16 if shaped and strong else 0.07) * sheet.half
    items: list[Item] = [
        Path(polyline([low, high]), stroke=colour, width=rounded(thick), opacity=1.0 if strong else QUIET)
    ]
    if strong:
        outwards = -1 if asked.at == "left" else 1
        size = 0.62 * sheet.half
        x = margins.outermost(low, high, asked.at) + outwards * 0.5 * sheet.half
        chip = _chip(x, (low[1] + high[1]) / 2, str(row.number), size, outwards, sheet)
        items += chip
    return items


def _chip(x: float, y: float, words: str, size: float, outwards: int, sheet: Sheet) -> list[Item]:
    """A row's number on a scrap of paper, so that it can be read on any ground."""
    wide, tall = size * (0.7 + 0.58 * len(words)), size * 1.4
    left, ink = x if outwards > 0 else x - wide, sheet.theme.ink
    return [
        Path(rectangle(rounded(left), rounded(y - tall / 2), rounded(wide), rounded(tall)), fill=sheet.theme.paper),
        Text(rounded(left + wide / 2), rounded(y + 0.36 * size), words, rounded(size), ink, "semibold", "middle"),
    ]


def _first_cluster(grid: Grid, row: Row) -> int:
    """The number of the first cluster's first dc in working order: past the turning chain and, at a closed start
    that is spaced, the extra dc."""
    made = grid.row(row)
    lead = made.symbol.index(Symbol.TURNING_CHAIN) + 1
    return lead + (1 if grid.closed and row.edge(row.starts).kind == "spaced" else 0)


def _hook_arrow(definitions: Definitions, sheet: Sheet, row: Row, at: Side, words: str) -> list[Item]:
    """An arrow into the space or stitch where the edge is worked: the first cluster's at a row's start, the post's
    at its end."""
    made = definitions.grid.row(row)
    starts = row.starts == at
    place = 0 if starts else len(made) - 1
    if starts:
        place = _first_cluster(definitions.grid, row)
    foot, into = float(made.foot[place]), Into(int(made.into[place]))
    depth = {Into.SPACE: 0.97, Into.FOUNDATION: 1.4}.get(into, IN_STITCH)  # the foundation lies below the row's band
    tip_y = sheet.top(row.number) + sheet.rise * depth
    outwards = -1 if at == "left" else 1
    tip = (sheet.x(foot), tip_y + 0.04 * sheet.rise)
    tail = (tip[0] + outwards * 2.3 * sheet.half, tip[1] + 0.72 * sheet.rise)
    steps = arrow(tail, tip, 0.36 * sheet.half)
    halo = Path(steps, stroke=sheet.theme.paper, width=rounded(0.3 * sheet.half))
    return [Group((halo, Path(steps, stroke=sheet.theme.accent, width=rounded(0.14 * sheet.half))), "hook", words)]


def _caption(sheet: Sheet, size: tuple[int, int], caption: tuple[str, str]) -> list[Item]:
    """Two lines on a strip of paper at the foot of the picture."""
    width, height = size
    head, body = 40 * sheet.unit, 32 * sheet.unit
    lines = wrapped(caption[1], width * 0.9, body)
    tall = head * 1.35 + len(lines) * body * 1.3 + 30 * sheet.unit
    top = height - tall
    items: list[Item] = [Path(rectangle(0, rounded(top), width, rounded(tall)), fill=sheet.theme.paper, opacity=0.94)]
    y = top + head * 1.2
    items.append(Text(rounded(width * 0.05), rounded(y), caption[0], rounded(head), sheet.theme.ink, "semibold"))
    for words in lines:
        y += body * 1.3
        items.append(Text(rounded(width * 0.05), rounded(y), words, rounded(body), sheet.theme.ink))
    return [Group(tuple(items), "caption")]
