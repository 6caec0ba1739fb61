"""The key: header, symbols with their names, yarns, facts, credit.

In: a planned piece, its pattern and its sheet. Out: blocks of scene items that know their height, laid out by the
chart below or beside the stitches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import groupby, pairwise
from math import ceil
from typing import TypeAlias

from turnchain import terms
from turnchain.drawing.margins import Colours, mark
from turnchain.drawing.sheet import Sheet
from turnchain.drawing.stencils import CHAIN, HEAD, Stencils
from turnchain.fabric.grid import Into
from turnchain.fabric.lattice import SIDES, Move, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.lettering import measure, wrapped
from turnchain.numbers import counted, rounded
from turnchain.pattern import Pattern, Yarn
from turnchain.scene import Item, Path, Text, Use, Weight, line, rectangle
from turnchain.style import Theme
from turnchain.units import SWATCH_WORDS, per_swatch, shown

HEADING, BODY, SMALL = 21.0, 20.0, 17.0
LEADING = 1.36
SAMPLE = 78.0  # room for a sample before its words
SAMPLE_HALF_PITCH = 26.0  # scale of the samples, whatever the chart's
MOST_BELOW_EACH_OTHER = 10  # yarns: more are set in columns


Draw: TypeAlias = Callable[[float, float], list[Item]]
Cell: TypeAlias = tuple[Draw, float, str]  # drawn about a point, room before its words (at the reference width), words


@dataclass
class Column:
    """Items set one below the other from (``left``, ``y``), ``width`` px wide; ``y`` goes down as they come."""

    left: float
    y: float
    width: float
    unit: float
    theme: Theme
    items: list[Item] = field(default_factory=list)

    def skip(self, height: float) -> None:
        """Leaves ``height`` (at the reference width) free."""
        self.y += height * self.unit

    def heading(self, words: str) -> None:
        """A heading with a hair line under it."""
        size = HEADING * self.unit
        self.y += size * (2.2 if self.items else 1.0)
        self._text(self.left, self.y, words, size, self.theme.ink, "semibold")
        self.y += 0.45 * size
        self.items.append(
            Path(
                line(rounded(self.left), rounded(self.y), rounded(self.left + self.width), rounded(self.y)),
                stroke=self.theme.hair,
                width=rounded(max(1.0, 1.2 * self.unit)),
                cap="butt",
            )
        )
        self.y += 0.35 * size

    def words(self, words: str, indent: float = 0.0, size: float = BODY, colour: str = "") -> None:
        """Words set in lines as wide as the column."""
        px = size * self.unit
        for words_of_line in wrapped(words, self.width - indent * self.unit, px):
            self.y += px * LEADING
            self._text(self.left + indent * self.unit, self.y - 0.3 * px, words_of_line, px, colour or self.theme.ink)

    def fact(self, name: str, words: str) -> None:
        """A quiet name and, under it, what it is."""
        self.words(name, size=SMALL, colour=self.theme.soft)
        self.words(words)
        self.skip(5)

    def row(self, name: str, figure: str) -> None:
        """A name at the left and its figure set flush at two thirds of the column."""
        px = BODY * self.unit
        self.y += px * LEADING
        right, base = self.left + self.width * 0.72, self.y - 0.3 * px
        self._text(self.left, base, name, px, self.theme.ink)
        self.items.append(
            Text(rounded(right), rounded(base), figure, rounded(px), self.theme.ink, anchor="end")
        )

    def sample(self, draw: Draw, words: str, height: float) -> None:
        """Something drawn in the sample's room, its words beside it; ``height`` is the room it needs in px."""
        px = BODY * self.unit
        lines = wrapped(words, self.width - SAMPLE * self.unit, px)
        tall = max(height, len(lines) * px * LEADING)
        middle = self.y + tall / 2
        self.items += draw(self.left + SAMPLE * self.unit * 0.42, middle)
        first = middle - (len(lines) - 1) * px * LEADING / 2 + 0.34 * px
        for index, words_of_line in enumerate(lines):
            y = first + index * px * LEADING
            self._text(self.left + SAMPLE * self.unit, y, words_of_line, px, self.theme.ink)
        self.y += tall
        self.skip(7)

    def abreast(self, cells: list[tuple[Draw, str]], tall: float) -> None:
        """Samples ``tall`` px high with their words, in as many columns as there is room for; read downwards."""
        widest = max(measure(words, BODY * self.unit) for _, words in cells)
        most = max(1, int(self.width // (SAMPLE * self.unit + widest + 0.5 * BODY * self.unit)))
        down = ceil(len(cells) / most)
        top, bottom = self.y, self.y
        for nth, start in enumerate(range(0, len(cells), down)):
            part = Column(self.left + nth * self.width / most, top, self.width / most, self.unit, self.theme)
            for draw, words in cells[start : start + down]:
                part.sample(draw, words, tall)
            self.items += part.items
            bottom = max(bottom, part.y)
        self.y = bottom

    def flow(self, cells: list[Cell], tall: float) -> None:
        """Samples with their words one after the other, in lines ``tall`` px high."""
        px = BODY * self.unit
        x = self.left
        for draw, room, words in cells:
            wide = room * self.unit + measure(words, px) + 26 * self.unit
            if x > self.left and x + wide > self.left + self.width:
                x, self.y = self.left, self.y + tall
            self.items += draw(x + room * self.unit * 0.42, self.y + tall / 2)
            self._text(x + room * self.unit, self.y + tall / 2 + 0.34 * px, words, px, self.theme.ink)
            x += wide
        self.y += tall + 4 * self.unit

    def _text(self, x: float, y: float, words: str, size: float, colour: str, weight: Weight = "regular") -> None:
        self.items.append(Text(rounded(x), rounded(y), words, rounded(size), colour, weight))


def header(
    pattern: Pattern, piece: PiecePlan, left: float, top: float, sheet: Sheet, kind: str = ""
) -> Column:
    """Title, piece and what it is, at the top of the page."""
    column = Column(left, top, sheet.width - 2 * left, sheet.unit, sheet.theme)
    column.words(pattern.title, size=24, colour=column.theme.soft)
    size = 46 * sheet.unit
    column.y += size * 1.0
    column._text(left, column.y, piece.name, size, column.theme.ink, "semibold")
    column.skip(10)
    column.words("  ·  ".join(filter(None, [summary(piece), kind])), size=22, colour=column.theme.soft)
    return column


def summary(piece: PiecePlan) -> str:
    """Rows, clusters, the way of working and how many to make, in a line."""
    parts = [counted(piece.row_count, "row"), clusters_words(piece), f"worked {piece.worked}"]
    if piece.count > 1:
        parts.append(f"make {piece.count}")
    return "  ·  ".join(parts)


def clusters_words(piece: PiecePlan) -> str:
    """How many clusters are in a row: one number, two in turn, or from least to most."""
    counts = [row.clusters for row in piece.rows]
    least, most = min(counts), max(counts)
    plural = "cluster" if most == 1 else "clusters"
    if least == most:
        return f"{most} {plural}"
    return f"{least} and {most} {plural} in turn" if _alternating(counts) else f"{least} to {most} {plural}"


def _alternating(counts: list[int]) -> bool:
    return len(set(counts)) == 2 and all(a != b for a, b in pairwise(counts))


def symbols_key(column: Column, pattern: Pattern, piece: PiecePlan, stencils: Stencils) -> None:
    """The symbols used and their names in the pattern's terms."""
    names = terms.STITCHES[pattern.terms]
    dc, ch = names["dc"], names["ch"]
    k, sheet = piece.fabric.cluster, stencils.sheet
    column.heading("Symbols")

    def one(name: str, centre: float) -> Draw:
        return _use(name, centre, column, sheet)

    tall = sheet.rise * 1.1
    column.skip(4)
    column.sample(one(stencils.chain(), CHAIN), f"{ch.full} ({ch.short})", 0.5 * tall)
    column.sample(one(stencils.dc(0.0, Into.SPACE), 0.55), f"{dc.full} ({dc.short})", tall)
    column.sample(
        one(stencils.together(0.0, stencils.grid.fan(), Into.SPACE), 0.55),
        f"cluster: {k} complete {dc.short} worked in one space, each with a head of its own",
        tall,
    )
    column.sample(
        one(stencils.turning_chain(0.0, Into.SPACE, 0.0), (HEAD + 0.97) / 2),
        f"turning chain: {ch.short} 3, counts as the first {dc.short}{_spaced_start(piece, ch.short)}",
        tall,
    )
    if any(row.counts.sl_st for row in piece.rows):
        slip = names["sl_st"]
        column.sample(one(stencils.slip_stitch(), 0.94), f"{slip.full} ({slip.short})", 0.5 * tall)
    for move, sides, words in _moves_used(piece):
        column.sample(_marked(move, sides, 18 * sheet.unit, sheet.theme), words, 0.0)
    column.words(reading_words(piece), size=SMALL, colour=column.theme.soft)


def reading_words(piece: PiecePlan) -> str:
    """How the chart is read."""
    odd, even = ("right", "left") if piece.rows[0].starts == "right" else ("left", "right")
    return (
        f"Read from the bottom up. A number stands where its row starts: odd rows, right side facing, at the {odd}, "
        f"even rows at the {even}."
    )


def _use(name: str, centre: float, column: Column, sheet: Sheet) -> Draw:
    """Draws a definition with the height ``centre`` (as a share of a row) of it at the point."""
    return lambda x, y: [Use(name, round(x), round(y - centre * sheet.rise), column.theme.ink)]


def _marked(move: Move, sides: tuple[Side, ...], size: float, theme: Theme) -> Draw:
    """The mark of a move as it stands at each side where the piece has it: the left edge's before the right's."""
    apart = 0.62 * size if len(sides) > 1 else 0.0

    def draw(x: float, y: float) -> list[Item]:
        places = {"left": x - apart, "right": x + apart}
        return [item for side in sides for item in mark(move, side, places[side], y, size, theme)]

    return draw


def _spaced_start(piece: PiecePlan, ch: str) -> str:
    spaced = any(row.edge(row.starts).kind == "spaced" for row in piece.rows)
    return f"; a chain more ({ch} 4) is the gap beside it" if spaced and piece.fabric.gap else ""


_MOVE_WORDS: dict[Move, str] = {
    "decrease": "half a cluster less",
    "increase": "half a cluster more",
    "forced_decrease": "half a cluster less, out of turn",
    "forced_increase": "half a cluster more, out of turn",
    "step_in": "a step inwards",
    "step_out": "a step outwards",
}


def _moves_used(piece: PiecePlan) -> Iterator[tuple[Move, tuple[Side, ...], str]]:
    """The moves of the piece's edges, the sides where each comes, and its words; at both sides a wedge that points
    the same way means less at one and more at the other, so the words name the edge."""
    used = {(row.edge(side).move, side) for row in piece.rows for side in SIDES if not piece.begins_section(row)}
    for move, words in _MOVE_WORDS.items():
        sides = tuple(side for side in SIDES if (move, side) in used)
        if sides:
            where = "at the left and at the right edge" if len(sides) > 1 else f"at the {sides[0]} edge"
            yield move, sides, f"{words}, {where}"


def yarns_key(column: Column, pattern: Pattern, piece: PiecePlan, colours: Colours) -> None:
    """The yarns of the piece with letters, and the order of its stripes."""
    if piece.rows[0].colour is None:
        return
    column.heading("Yarns")
    rows_of = Counter(row.colour for row in piece.row_levels)
    cells = [
        (_chip(row, colours, column), f"{yarn.name}, {counted(rows_of[yarn.name], 'row')}")
        for yarn, row in _yarns_of(pattern, piece)
    ]
    if many_yarns(pattern, piece):
        column.abreast(cells, 34 * column.unit)
    else:
        for draw, words in cells:
            column.sample(draw, words, 34 * column.unit)
    column.words("Stripes from row 1, with their rows: " + stripe_order(piece, colours), size=SMALL)
    if len(rows_of) > 1:
        column.words("A loop beside the edge: the yarn is carried up uncut; a square: it is joined.", size=SMALL)
    column.skip(8)


def many_yarns(pattern: Pattern, piece: PiecePlan) -> bool:
    """Whether the yarns of ``piece`` would make a column much higher than the others."""
    return len(_yarns_of(pattern, piece)) > MOST_BELOW_EACH_OTHER


def _yarns_of(pattern: Pattern, piece: PiecePlan) -> list[tuple[Yarn, Row]]:
    """The yarns that a piece uses, each with a row worked in it."""
    first: dict[str | None, Row] = {}
    for row in piece.rows:
        first.setdefault(row.colour, row)
    return [(yarn, first[yarn.name]) for yarn in pattern.yarns if yarn.name in first]


def _chip(row: Row, colours: Colours, column: Column, scale: float = 1.0) -> Draw:
    """A scrap of a row's yarn with its letter."""
    unit = column.unit * scale
    size, tall, colour = 46 * unit, 30 * unit, colours.of(row)

    def draw(x: float, y: float) -> list[Item]:
        left, top = rounded(x - size / 2), rounded(y - tall / 2)
        corners = [(left, top + tall), (left, top), (left + size, top), (left + size, top + tall)]
        box = rectangle(left, top, rounded(size), rounded(tall))
        letter, px = colours.letter(row), 18 * unit
        return [
            Path(box, fill=colour, stroke=column.theme.ink, width=rounded(max(0.8, 0.9 * unit))),
            *colours.hatched(row, corners, unit),
            Text(rounded(x), rounded(y + 0.36 * px), letter, rounded(px), colours.ink(row), "semibold", "middle"),
        ]

    return draw


def stripe_order(piece: PiecePlan, colours: Colours) -> str:
    """The stripes in letters with their heights: "A 2, C 2, B 2, C 2, and so on"."""
    runs = [
        (colours.letter(group[0]), len(group))
        for group in (list(rows) for _, rows in groupby(piece.row_levels, key=lambda row: row.colour))
    ]
    period = _period(runs)
    told = ", ".join(f"{letter}\u00a0{count}" for letter, count in runs[:period])
    return told if period >= len(runs) else f"{told}, and so on"


def _period(runs: list[tuple[str, int]]) -> int:
    """After how many runs they come again (the last may be cut short)."""
    for period in range(1, len(runs)):
        again = all(run == runs[index % period] for index, run in enumerate(runs[:-1]))
        last, model = runs[-1], runs[(len(runs) - 1) % period]
        if again and last[0] == model[0] and last[1] <= model[1]:
            return period
    return len(runs)


def _gauge_words(piece: PiecePlan, pattern: Pattern) -> str:
    gauge, unit = piece.gauge, pattern.units
    return (
        f"{per_swatch(gauge.pitch, unit)} clusters and {per_swatch(gauge.row, unit)} rows to {SWATCH_WORDS[unit]}"
    )


def facts_key(column: Column, pattern: Pattern, piece: PiecePlan) -> None:
    """Chains to make, gauge, finished size."""
    column.heading("To make it")
    gauge, unit = piece.gauge, pattern.units
    first = piece.rows[0]
    start = first.edge(first.starts).kind
    into = 5 if start == "flush" else 5 + piece.fabric.gap + piece.fabric.edge
    column.fact(
        "Chains to make",
        f"{piece.foundation_chain}, turning chain and a chain under each post included; first cluster from chain "
        f"{into} from the hook",
    )
    column.fact(
        "Gauge",
        f"{_gauge_words(piece, pattern)} ({shown(gauge.pitch, unit)} a cluster, {shown(gauge.row, unit)} a row)",
    )
    column.words("Finished measures", size=SMALL, colour=column.theme.soft)
    for fit in piece.fit:
        column.row(fit.measure, shown(fit.worked, unit))


def compact(
    column: Column, pattern: Pattern, piece: PiecePlan, stencils: Stencils, colours: Colours
) -> None:
    """A key of a few lines for a post: yarns, symbols, chains to make."""
    names, k, sheet = terms.STITCHES[pattern.terms], piece.fabric.cluster, stencils.sheet
    dc = names["dc"].short
    cells: list[Cell] = []
    for yarn, row in _yarns_of(pattern, piece):
        cells.append((_chip(row, colours, column, 0.8), 52.0, yarn.name))
    fan = stencils.together(0.0, stencils.grid.fan(), Into.SPACE)
    cells.append((_use(fan, 0.55, column, sheet), 60.0, f"{k} complete {dc} in one space"))
    chain = stencils.chain()
    cells.append((_use(chain, CHAIN, column, sheet), 34.0, names["ch"].full))
    turning = stencils.turning_chain(0.0, Into.SPACE, 0.0)
    cells.append((_use(turning, (HEAD + 0.97) / 2, column, sheet), 30.0, f"first {dc}: {names['ch'].short} 3"))
    for move, sides, words in _moves_used(piece):
        cells.append((_marked(move, sides, 18 * sheet.unit, sheet.theme), 34.0 + 22 * (len(sides) - 1), words))
    column.flow(cells, tall=max(34 * sheet.unit, 1.15 * sheet.rise))
    facts = f"Chain {piece.foundation_chain}. {_gauge_words(piece, pattern)}."
    column.words(facts, size=SMALL, colour=column.theme.soft)


def credit(pattern: Pattern) -> str:
    """The credit line: who, licence, link, date, as far as they are given."""
    said = [pattern.title, f"by {pattern.by}" if pattern.by else "", pattern.licence, pattern.link, pattern.date]
    return "  ·  ".join(words for words in said if words)
