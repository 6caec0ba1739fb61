"""What the key says: header, symbols with their names, yarns, facts, credit.

In: a planned piece, its pattern and its sheet. Out: words and samples put into a ``Column``, which the chart places
below or beside the stitches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby, pairwise

from turnchain.drawing.columns import SMALL, Cell, Column, Draw
from turnchain.drawing.definitions import CHAIN, HEAD, Definitions
from turnchain.drawing.margins import Colours, mark
from turnchain.drawing.sheet import Sheet
from turnchain.fabric import stitches
from turnchain.fabric.grid import Into
from turnchain.fabric.lattice import SIDES, Move, Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.numbers import rounded
from turnchain.pattern import Pattern, Yarn
from turnchain.scene import Item, Path, Text, Use, rectangle
from turnchain.style import Theme
from turnchain.units import SWATCH_WORDS, per_swatch
from turnchain.wording.alt_texts import clusters_words
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of

SAMPLE_HALF_PITCH = 26.0  # scale of the samples, whatever the chart's
MARKED: tuple[Move, ...] = ("decrease", "increase", "forced_decrease", "forced_increase", "step_in", "step_out")
MOST_BELOW_EACH_OTHER = 10  # yarns: more are set in columns


def header(
    pattern: Pattern, piece: PiecePlan, left: float, top: float, sheet: Sheet, kind: str = ""
) -> Column:
    """Title, piece and what it is, at the top of the page."""
    column = Column(left, top, sheet.width - 2 * left, sheet.unit, sheet.theme)
    column.words(pattern.title, size=24, colour=column.theme.soft)
    size = 46 * sheet.unit
    column.y += size * 1.0
    column.line(left, column.y, piece.name, size, column.theme.ink, "semibold")
    column.skip(10)
    column.words("  ·  ".join(filter(None, [summary(pattern, piece), kind])), size=22, colour=column.theme.soft)
    return column


def summary(pattern: Pattern, piece: PiecePlan) -> str:
    """Rows, clusters, the way of working and how many to make, in a line."""
    speech = speech_of(pattern)
    worked = speech.say("summary.worked", worked=speech.say(f"worked.{piece.worked}"))
    parts = [speech.count("counted.row", piece.row_count), _clusters(speech, piece), worked]
    if piece.count > 1:
        parts.append(speech.say("summary.make", n=piece.count))
    return "  ·  ".join(parts)


def _clusters(speech: Speech, piece: PiecePlan) -> str:
    """How many clusters are in a row: one number, two in turn, or from least to most."""
    counts = [row.clusters for row in piece.rows]
    if _alternating(counts):
        return speech.say("clusters.turn", least=min(counts), most=max(counts))
    return clusters_words(speech, piece)


def _alternating(counts: list[int]) -> bool:
    return len(set(counts)) == 2 and all(a != b for a, b in pairwise(counts))


def symbols_key(column: Column, pattern: Pattern, piece: PiecePlan, definitions: Definitions) -> None:
    """The symbols used and their names in the pattern's terms."""
    speech, sheet = speech_of(pattern), definitions.sheet
    column.heading(speech.say("key.symbols"))

    def one(name: str, centre: float) -> Draw:
        return _use(name, centre, column, sheet)

    tall = sheet.rise * 1.1
    column.skip(4)
    column.sample(one(definitions.chain(), CHAIN), speech.named_in_full("ch"), 0.5 * tall)
    column.sample(one(definitions.dc(0.0, Into.SPACE), 0.55), speech.named_in_full("dc"), tall)
    column.sample(
        one(definitions.together(0.0, definitions.grid.fan(), Into.SPACE), 0.55),
        speech.say("key.cluster", k=piece.fabric.cluster),
        tall,
    )
    column.sample(
        one(definitions.turning_chain(0.0, Into.SPACE, 0.0), (HEAD + 0.97) / 2),
        speech.say("key.tch.spaced" if _starts_spaced(piece) else "key.tch"),
        tall,
    )
    if any(row.counts.sl_st for row in piece.rows):
        column.sample(one(definitions.slip_stitch(), 0.94), speech.named_in_full("sl_st"), 0.5 * tall)
    for move, sides, words in _moves_used(speech, piece):
        column.sample(_marked(move, sides, 18 * sheet.unit, sheet.theme), words, 0.0)
    column.words(_reading_words(speech, piece), size=SMALL, colour=column.theme.soft)


def _reading_words(speech: Speech, piece: PiecePlan) -> str:
    """How the chart is read."""
    odd, even = ("right", "left") if piece.rows[0].starts == "right" else ("left", "right")
    return speech.say("key.reading", odd=speech.say(f"at.{odd}"), even=speech.say(f"at.{even}"))


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


def _starts_spaced(piece: PiecePlan) -> bool:
    """Whether a turning chain of ``piece`` holds the gap beside it too."""
    return piece.fabric.gap > 0 and any(row.edge(row.starts).kind == "spaced" for row in piece.rows)


def _moves_used(speech: Speech, piece: PiecePlan) -> Iterator[tuple[Move, tuple[Side, ...], str]]:
    """The moves of the piece's edges, the sides where each comes, and its words; at both sides a wedge that points
    the same way means less at one and more at the other, so the words name the edge."""
    used = {(row.edge(side).move, side) for row in piece.rows for side in SIDES if not piece.begins_section(row)}
    for move in MARKED:
        sides = tuple(side for side in SIDES if (move, side) in used)
        if sides:
            where = "both" if len(sides) > 1 else sides[0]
            yield move, sides, speech.say(f"key.move.{where}", move=speech.say(f"move.{move}"))


def yarns_key(column: Column, pattern: Pattern, piece: PiecePlan, colours: Colours) -> None:
    """The yarns of the piece with letters, and the order of its stripes."""
    if piece.rows[0].colour is None:
        return
    speech = speech_of(pattern)
    column.heading(speech.say("key.yarns"))
    rows_of = Counter(row.colour for row in piece.row_levels)
    cells = [
        (_chip(row, colours, column), f"{yarn.name}, {speech.count('counted.row', rows_of[yarn.name])}")
        for yarn, row in _yarns_of(pattern, piece)
    ]
    if many_yarns(pattern, piece):
        column.in_columns(cells, 34 * column.unit)
    else:
        for draw, words in cells:
            column.sample(draw, words, 34 * column.unit)
    letters, again = _stripe_letters(piece, colours)
    column.words(speech.say("key.stripes.again" if again else "key.stripes", stripes=letters), size=SMALL)
    if len(rows_of) > 1:
        column.words(speech.say("key.carried"), size=SMALL)
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


def _stripe_letters(piece: PiecePlan, colours: Colours) -> tuple[str, bool]:
    """The stripes in letters with their heights, "A 2, C 2, B 2, C 2", and whether they come over and over."""
    runs = [
        (colours.letter(group[0]), len(group))
        for group in (list(rows) for _, rows in groupby(piece.row_levels, key=lambda row: row.colour))
    ]
    period = _period(runs)
    return ", ".join(f"{letter}\u00a0{count}" for letter, count in runs[:period]), period < len(runs)


def _period(runs: list[tuple[str, int]]) -> int:
    """After how many runs they come again (the last may be cut short)."""
    for period in range(1, len(runs)):
        again = all(run == runs[index % period] for index, run in enumerate(runs[:-1]))
        last, model = runs[-1], runs[(len(runs) - 1) % period]
        if again and last[0] == model[0] and last[1] <= model[1]:
            return period
    return len(runs)


def _gauge_words(speech: Speech, piece: PiecePlan, pattern: Pattern) -> str:
    gauge, unit = piece.gauge, pattern.units
    clusters, rows = (speech.figure(per_swatch(length, unit)) for length in (gauge.pitch, gauge.row))
    return speech.say("gauge", clusters=clusters, rows=rows, over=SWATCH_WORDS[unit])


def facts_key(column: Column, pattern: Pattern, piece: PiecePlan) -> None:
    """Chains to make, gauge, finished size."""
    speech, gauge, unit = speech_of(pattern), piece.gauge, pattern.units
    column.heading(speech.say("key.making"))
    first = piece.rows[0]
    into = stitches.first_chain(piece.fabric, first.edge(first.starts).kind)
    column.fact(speech.say("key.chains"), speech.say("key.chains.count", n=piece.foundation_chain, into=into))
    each = {name: speech.length(cm, unit) for name, cm in (("cluster", gauge.pitch), ("row", gauge.row))}
    column.fact(
        speech.say("key.gauge"), speech.say("key.gauge.each", gauge=_gauge_words(speech, piece, pattern), **each)
    )
    column.words(speech.say("key.finished"), size=SMALL, colour=column.theme.soft)
    for fit in piece.fit:
        column.row(speech.measure(fit.measure), speech.taped(fit.worked, unit))


def compact(
    column: Column, pattern: Pattern, piece: PiecePlan, definitions: Definitions, colours: Colours
) -> None:
    """A key of a few lines for a post: yarns, symbols, chains to make."""
    speech, sheet = speech_of(pattern), definitions.sheet
    cells: list[Cell] = []
    for yarn, row in _yarns_of(pattern, piece):
        cells.append((_chip(row, colours, column, 0.8), 52.0, yarn.name))
    fan = definitions.together(0.0, definitions.grid.fan(), Into.SPACE)
    cells.append((_use(fan, 0.55, column, sheet), 60.0, speech.say("compact.cluster", k=piece.fabric.cluster)))
    chain = definitions.chain()
    cells.append((_use(chain, CHAIN, column, sheet), 34.0, speech.language.tokens["ch"].full))
    turning = definitions.turning_chain(0.0, Into.SPACE, 0.0)
    cells.append((_use(turning, (HEAD + 0.97) / 2, column, sheet), 30.0, speech.say("compact.tch")))
    for move, sides, words in _moves_used(speech, piece):
        cells.append((_marked(move, sides, 18 * sheet.unit, sheet.theme), 34.0 + 22 * (len(sides) - 1), words))
    column.flow(cells, tall=max(34 * sheet.unit, 1.15 * sheet.rise))
    facts = speech.say("compact.facts", n=piece.foundation_chain, gauge=_gauge_words(speech, piece, pattern))
    column.words(facts, size=SMALL, colour=column.theme.soft)


def credit(pattern: Pattern) -> str:
    """The credit line: who, licence, link, date, as far as they are given."""
    by = speech_of(pattern).say("credit.by", name=pattern.by) if pattern.by else ""
    said = [pattern.title, by, pattern.licence, pattern.link, pattern.date]
    return "  ·  ".join(words for words in said if words)
