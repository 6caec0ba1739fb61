"""What the key says: symbols with their names, yarns, facts, credit.

In: a ``Setting`` and the definitions of its samples. Out: words and samples put into a ``Column``, which the chart
places below or beside the stitches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from turnchain.drawing import chart_edgings, margins
from turnchain.drawing.columns import BODY, SMALL, Cell, Column, Draw
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.heading import PictureHeading
from turnchain.drawing.margins import Margins, plate, wedge
from turnchain.drawing.setting import Setting
from turnchain.drawing.stitch_definitions import CHAIN, SLIP_STITCH, TOP
from turnchain.fabric import stitches
from turnchain.fabric.grid import Into
from turnchain.fabric.lattice import SIDES, Move, Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.pattern import Pattern, Yarn
from turnchain.scene import Item, Path, Text, Use, polyline, rectangle
from turnchain.units import SWATCH_WORDS, per_swatch
from turnchain.wording import founding
from turnchain.wording.alt_texts import clusters_words
from turnchain.wording.instructions.row_steps import steps_of
from turnchain.wording.instructions.steps import ChainFromHook, RestOfCluster, SolidIn, Work
from turnchain.wording.languages.language import Speech
from turnchain.wording.naming import inside
from turnchain.wording.tables import speech_of

SAMPLE_HALF_PITCH, COMPACT = 1.15, 1.0  # of the words of the page: scale of the samples, whatever the chart's
MOST_BELOW_EACH_OTHER = 8  # yarns: more are set in columns


def heading(setting: Setting, kind: str = "", credit: bool = False) -> PictureHeading:
    """The heading of a piece's chart: pattern, piece, and what it is; ``kind`` is what sets this chart
    apart, as that it is short or for left-handed makers; empty for none. ``credit``: with who made the pattern."""
    piece, pattern = setting.piece, setting.pattern
    facts = "  ·  ".join(filter(None, [summary(pattern, piece), kind]))
    by = by_words(pattern) if credit else ""
    return PictureHeading(pattern.title, piece.name, facts, by, worn_arrow(setting.speech, piece))


def by_words(pattern: Pattern) -> str:
    """Who made the pattern, in words; empty where the pattern does not name them."""
    return speech_of(pattern).say("credit.by", name=pattern.by) if pattern.by else ""


def worn_arrow(speech: Speech, piece: PiecePlan) -> tuple[str, tuple[float, float]]:
    """The words of the arrow in the heading, and the way it points on the chart (unit vector, y downwards): which edge
    is up when the piece is worn or, of an outline that the maker drew, which way it is worked."""
    words = speech.say("arrow.worn" if piece.has_neck else "arrow.work" if piece.free_outline else "arrow.up")
    return words, {"left": (-1.0, 0.0), "right": (1.0, 0.0), None: (0.0, -1.0)}[piece.top]


def summary(pattern: Pattern, piece: PiecePlan) -> str:
    """Rows, clusters in a row, the way of working and, where more than one is made, how many, in a line."""
    speech = speech_of(pattern)
    worked = speech.say("summary.worked", worked=speech.say(f"worked.{piece.worked}"))
    parts = [speech.count("counted.row", piece.row_count), _clusters(speech, piece), worked]
    if piece.count > 1:
        parts.append(speech.say("summary.make", n=piece.count))
    return "  ·  ".join(parts)


def _clusters(speech: Speech, piece: PiecePlan) -> str:
    """How many clusters are in a row: one number, two in turn, or from least to most."""
    counts = [row.clusters for row in piece.rows if not row.solid]
    if _alternating(counts):
        return speech.say("clusters.turn", least=min(counts), most=max(counts))
    return clusters_words(speech, piece)


def _alternating(counts: list[int]) -> bool:
    return len(set(counts)) == 2 and all(a != b for a, b in pairwise(counts))


class Samples:
    """The samples of a key: everything that is drawn on the chart, and nothing else, each as how to draw it about a
    point, the height it needs in px (0: no more than its words) and its words. ``size``: px of the em of these."""

    def __init__(self, made: Margins, definitions: Definitions, size: float) -> None:
        self.margins, self.setting, self.definitions = made, made.setting, definitions
        self.size = size  # px of the words beside them
        self.speech = self.setting.speech

    def stitches(self, short: bool) -> Iterator[tuple[Draw, float, str]]:
        """Each stitch that is drawn, in words for a full key or ``short``."""
        piece, rise, speech = self.setting.piece, self.definitions.sheet.rise, self.speech
        named = speech.full if short else speech.named_in_full
        kind, k = "compact" if short else "key", piece.recipe.unit_width
        yield self._use(self.definitions.chain(), CHAIN), 0.0, named("ch")
        if not short or k == 1 or piece.recipe.grouped:
            post = self.definitions.together(0.0, [0.0], Into.SPACE)
            yield self._use(post, 0.54), rise, named("dc")
        if piece.recipe.grouped:
            said = speech.say("key.unit", inside=inside(speech, piece.recipe))
            yield self._use(self.definitions.fan(), 0.54), rise, said
        elif k > 1:
            yield self._use(self.definitions.fan(), 0.54), rise, speech.say(f"{kind}.cluster", k=k)
        yield from self._solids(short)
        begun = [row for row in self.setting.rows if self.setting.sheet.folds.cut(row.starts) is None]
        if begun:
            turning = self.definitions.turning_chain(0.0, Into.SPACE)
            yield self._use(turning, (TOP + 0.965) / 2), rise, self._turning_chain(short)
        if piece.recipe.table.joins and any(self.setting.grid.row(row).legs for row in self.setting.rows):
            yield self._use(self.definitions.joined(), 0.54), rise, speech.say("key.together")
        if any(row.counts.sl_st for row in begun):
            yield self._use(self.definitions.slip_stitch(), SLIP_STITCH), 0.0, named("sl_st")

    def _solids(self, short: bool) -> Iterator[tuple[Draw, float, str]]:
        """The stitches of solid rows and of the one along an armhole, each with its turning chain where that is drawn
        beside the edge stitch."""
        drawn = {row.kind for row in self.setting.rows}
        if self.setting.piece.picked_up and self.setting.founded:
            sheet = self.definitions.sheet
            rise, words = round(sheet.strip * sheet.rise), self.speech.stitch_named("sc", in_full=not short)
            sample = self._use(self.definitions.sc_below(), 0.54, rise)
            yield sample, rise, self.speech.say("key.sc_below", stitch=words)
        for rule in self.setting.piece.recipe.solids:
            if rule.name not in drawn:
                continue
            self.definitions.turn_to(rule.name)
            rise = self.definitions.rise
            stitch = self.definitions.together(0.0, [0.0], Into.SPACE)
            turning = self.definitions.turning_chain(0.0, Into.SPACE)
            self.definitions.turn_to(CLUSTERS)
            words = self.speech.stitch_named(rule.name, in_full=not short)
            yield self._use(stitch, 0.54, rise), rise, self.speech.say("key.solid", stitch=words)
            if not rule.counts:
                apart = self.speech.say("compact.tch.apart" if short else "key.tch.apart", n=rule.turning)
                yield self._use(turning, (TOP + 0.965) / 2, rise), rise, apart

    def _turning_chain(self, short: bool) -> str:
        recipe, speech = self.setting.piece.recipe, self.speech
        chains = recipe.stitch.turning
        if not recipe.stitch.counts:
            return speech.say("compact.tch.apart" if short else "key.tch.apart", n=chains)
        if short:
            return speech.say("compact.tch")
        spaced = [row for row in self.setting.rows if not row.solid and row.edge(row.starts).kind == "spaced"]
        if not recipe.edge_chains or not spaced:
            return speech.say("key.tch", n=chains)
        key = "key.tch.spaced" if recipe.edge_chains == 1 else "key.tch.more"
        return speech.say(key, n=chains, nth=speech.nth(chains + recipe.edge_chains))

    def signs(self, short: bool) -> Iterator[tuple[Draw, float, str]]:
        """Each sign beside the stitches: moves of the edges, joins, carried yarns, ends."""
        say = self.speech.say
        for move, sides, words in moves_used(self.setting, short):
            yield self._wedge(move, sides), 0.0, words
        if self.margins.signed:
            yield self._triangle(solid=False), 0.0, say("key.join")
        if self.margins.loops:
            yield self._loop, 1.2 * self.size, say("compact.carry" if short else "key.carry")
        if self.margins.ends:
            yield self._triangle(solid=True), 0.0, say("key.end")

    def _use(self, name: str, centre: float, rise: int | None = None) -> Draw:
        """Draws a definition with the height ``centre`` of it at the point: a share of a row ``rise`` px high (None: as
        a row of clusters)."""
        ink, rise = self.setting.theme.ink, rise or self.definitions.sheet.rise
        return lambda x, y: [Use(name, round(x), round(y - centre * rise), ink)]

    def _wedge(self, move: Move, sides: tuple[Side, ...]) -> Draw:
        """The mark of a move as it stands at each side where the piece has it: the left edge's before the right's."""
        size, theme = 0.8 * self.size, self.setting.theme
        apart = 0.62 * size if len(sides) > 1 else 0.0

        def draw(x: float, y: float) -> list[Item]:
            places = {"left": x - apart, "right": x + apart}
            return [item for side in sides for item in wedge(move, side, places[side], y, size, theme)]

        return draw

    def _triangle(self, solid: bool) -> Draw:
        size, theme = 0.95 * self.size, self.setting.theme
        return lambda x, y: [margins.triangle(x, y, size, theme, solid)]

    def _loop(self, x: float, y: float) -> list[Item]:
        loop = self.margins.loops[0]
        wide, high, thick = 0.42 * self.size, 0.48 * self.size, 0.16 * self.size
        points = [(x - wide, y + high), (x + wide, y + high), (x + wide, y - high), (x - wide, y - high)]
        steps = polyline([(rounded(px), rounded(py)) for px, py in points])
        colour = self.setting.colours.of(loop.rows[-1])
        rim = rounded(thick + 0.11 * self.size)
        return [
            Path(steps, stroke=self.setting.theme.ink, width=rim),
            Path(steps, stroke=colour, width=rounded(thick)),
        ]


MARKED: tuple[Move, ...] = ("decrease", "increase", "forced_decrease", "forced_increase", "step_in", "step_out")


def moves_used(setting: Setting, short: bool = False) -> Iterator[tuple[Move, tuple[Side, ...], str]]:
    """The moves of the edges that are drawn, in the order of ``MARKED``, with the sides where each comes, the left
    first, and its words. A wedge that points the same way means less at one edge and more at the other, so the words
    name the edge; ``short`` ones only where both edges are shaped."""
    piece, speech = setting.piece, setting.speech
    sides_drawn = [side for side in SIDES if setting.sheet.folds.cut(side) is None]
    used = {(row.edge(side).move, side) for row in setting.rows for side in sides_drawn
            if not piece.begins_section(row)}
    both = {side for move, side in used if move != "straight"} == set(SIDES)
    for move in MARKED:
        sides = tuple(side for side in SIDES if (move, side) in used)
        words = speech.say(f"compact.{move}" if short else f"move.{move}") if sides else ""
        if sides and (not short or (both and len(sides) == 1)):  # two wedges side by side tell the edges themselves
            words = speech.say(f"key.move.{'both' if len(sides) > 1 else sides[0]}", move=words)
        if sides:
            yield move, sides, words


def symbols_key(column: Column, samples: Samples) -> None:
    """The symbols used and their names in the pattern's terms, and the signs beside them."""
    column.heading(samples.speech.say("key.symbols"))
    column.skip(4)
    for draw, tall, words in (*samples.stitches(short=False), *samples.signs(short=False)):
        column.sample(draw, words, tall)


def reading_words(setting: Setting) -> str:
    """How the chart is read: at which side odd and even rows begin."""
    odd, even = ("right", "left") if setting.piece.rows[0].starts == "right" else ("left", "right")
    say = setting.speech.say
    return say("key.reading", odd=say(f"at.{odd}"), even=say(f"at.{even}"))


def yarns_key(column: Column, setting: Setting) -> None:
    """The yarns of the piece with letters and rows, and the order of its stripes; nothing for a pattern that names
    none."""
    piece = setting.piece
    if piece.rows[0].colour is None:
        return
    speech = setting.speech
    column.heading(speech.say("key.yarns"))
    column.skip(4)
    rows_of = Counter(row.colour for row in piece.row_levels)
    cells = [
        (chip(row, setting, column), f"{yarn.name}, {speech.count('counted.row', rows_of[yarn.name])}")
        for yarn, row in yarns_of(setting.pattern, setting.rows)
    ]
    if many_yarns(setting):
        column.in_columns(cells, 34 * column.unit)
    else:
        for draw, words in cells:
            column.sample(draw, words, 34 * column.unit)
    order = stripe_words(setting) if len(rows_of) > 1 else ""
    used = yarns_of(setting.pattern, setting.rows)
    lighter = any(setting.colours.tint(row) != setting.colours.of(row) for _, row in used)
    shade = speech.say("key.shades") if lighter else ""
    said = " ".join(filter(None, [order, shade]))
    if said:
        column.words(said, size=SMALL, colour=column.theme.soft)


def many_yarns(setting: Setting) -> bool:
    """Whether the drawn rows have more than ``MOST_BELOW_EACH_OTHER`` yarns: a column much higher than the others."""
    return len(yarns_of(setting.pattern, setting.rows)) > MOST_BELOW_EACH_OTHER


def yarns_of(pattern: Pattern, rows: Sequence[Row]) -> list[tuple[Yarn, Row]]:
    """The yarns that ``rows`` use, in the order of the pattern, each with the first of the rows worked in it."""
    first: dict[str | None, Row] = {}
    for row in rows:
        first.setdefault(row.colour, row)
    return [(yarn, first[yarn.name]) for yarn in pattern.yarns if yarn.name in first]


def chip(row: Row, setting: Setting, column: Column, narrow: bool = False) -> Draw:
    """Draws a block of the colour of a row's yarn with its letter and, unless ``narrow``, beside it its tint where that
    differs."""
    unit, colours = column.unit, setting.colours
    tall, letter = (33 if narrow else 29) * unit, colours.letter(row)
    own = (33 if narrow else 29) * unit + 11 * unit * (len(letter) - 1)
    shade = 0.0 if narrow or colours.tint(row) == colours.of(row) else 24 * unit
    thin = max(1, round(0.8 * unit))

    def draw(x: float, y: float) -> list[Item]:
        left, top = round(x - (own + (0.0 if narrow else 24 * unit)) / 2), round(y - tall / 2)
        wide, high = round(own), round(tall)
        corners = [(left, top + high), (left, top), (left + wide, top), (left + wide, top + high)]
        px = (21.0 if narrow else 18.5) * unit
        items: list[Item] = []
        if shade:
            items.append(Path(rectangle(left, top, round(own + shade), high), fill=colours.tint(row)))
        items += margins.framed((left, top, wide, high), row, setting, thin)
        items += colours.hatched(row, [(float(a), float(b)) for a, b in corners], unit)
        middle = left + wide / 2
        items += plate(letter, middle, y, px, setting)
        ink = colours.ink_of_letter(row)
        items.append(
            Text(rounded(middle), rounded(y + 0.36 * px), letter, rounded(px), ink, "semibold", "middle")
        )
        return items

    return draw


def stripe_words(setting: Setting) -> str:
    """The stripes in letters with their heights: "From row 1: A 2, C 2, B 2, C 2, and so on."."""
    runs = [
        (setting.colours.letter(group[0]), len(group))
        for group in (list(rows) for _, rows in groupby(setting.piece.row_levels, key=lambda row: row.colour))
    ]
    period = _period(runs)
    letters = ", ".join(f"{letter}\u00a0{count}" for letter, count in runs[:period])
    return setting.speech.say("key.stripes.again" if period < len(runs) else "key.stripes", stripes=letters)


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


def first_chain(piece: PiecePlan) -> int:
    """Which chain, counted from the hook (from 1), takes the first stitch of row 1: the one that the words tell."""
    steps = steps_of(piece, piece.rows[0])
    places = (step.place for step in steps if isinstance(step, Work | SolidIn | RestOfCluster))
    return next(place.number for place in places if isinstance(place, ChainFromHook))


def begins_on_chain(piece: PiecePlan) -> bool:
    """Whether what row 1 begins with is worked into a chain and is no cluster."""
    first, recipe = piece.rows[0], piece.recipe
    if first.solid or not recipe.stitch.counts:
        return True
    return first_chain(piece) != stitches.first_chain(recipe, first.edge(first.starts).kind)


def facts_key(column: Column, setting: Setting) -> None:
    """Chains to make, gauge and finished measures, in the unit of the pattern."""
    piece, pattern, speech = setting.piece, setting.pattern, setting.speech
    column.heading(speech.say("key.making"))
    column.skip(4)
    begins = "key.chains.solid" if begins_on_chain(piece) else "key.chains"
    if piece.begun_on:
        column.words(founding.said(speech, "key.chains", piece))
    else:
        column.words(speech.say(begins, n=piece.foundation_chain, nth=speech.nth(first_chain(piece))))
    column.words(speech.say("key.gauge", gauge=_gauge_words(speech, piece, pattern)))
    column.skip(5)
    for fit in piece.fit:
        column.row(speech.measure(fit.measure), speech.taped(fit.worked, pattern.units))
    edged = chart_edgings.lines(setting)
    column.skip(5 if edged else 0)
    for said in edged:
        column.words(said)


def compact(column: Column, samples: Samples, stitches: bool = True) -> None:
    """A key of a few lines for a picture to post: yarns, then symbols and signs, in lines; without ``stitches`` the
    yarns with the order of their stripes. Where there are more than ``MOST_BELOW_EACH_OTHER`` yarns, these have letters
    only."""
    yarns, signs = _compact_cells(column, samples)
    if yarns:
        column.flow(yarns, tall=36 * column.unit)
    if stitches:
        column.flow(signs, tall=max(34 * column.unit, 1.02 * samples.definitions.sheet.rise))
    else:
        column.words(stripe_words(samples.setting))


def longest(samples: Samples, unit: float, stitches: bool = True) -> float:
    """The px across of the longest entry of a compact key whose column has this ``unit``."""
    yarns, signs = _compact_cells(Column(0.0, 0.0, 0.0, unit, samples.setting.theme), samples)
    cells = [*yarns, *signs] if stitches else yarns
    return max((room * unit + measure(words, BODY * unit) for _, room, words in cells), default=0.0)


def _compact_cells(column: Column, samples: Samples) -> tuple[list[Cell], list[Cell]]:
    """The yarns, and the symbols and signs."""
    setting = samples.setting
    used = yarns_of(setting.pattern, setting.rows)
    named = len(used) <= MOST_BELOW_EACH_OTHER  # the names of more would leave no room for the chart
    yarns: list[Cell] = [
        (chip(row, setting, column, narrow=True), 42.0 + 9 * (len(setting.colours.letter(row)) - 1), yarn.name * named)
        for yarn, row in used
    ]
    signs: list[Cell] = [
        (draw, 50.0, words) for draw, _, words in (*samples.stitches(short=True), *samples.signs(short=True))
    ]
    return yarns, signs


def credit(pattern: Pattern) -> str:
    """The credit line: title, who made it, licence, link and date, as far as the pattern has them."""
    said = [pattern.title, by_words(pattern), pattern.licence, pattern.link, pattern.date]
    return "  ·  ".join(words for words in said if words)
