"""The edgings of a piece along the edges of its chart: a band of stitches in their yarn, with the count of each edge.

In: a setting, and how far from the cloth its marks stand. Out: how much room the bands take, and scene items. Where
stitches would be too small to tell apart there are rows alone. A chart that leaves rows or columns out has no bands,
nor has one with a key of a few lines: they would crowd it. A step, and a narrow or shallow neck, have none
either.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from turnchain.drawing import fastenings
from turnchain.drawing.edged import Side, sides
from turnchain.drawing.fastenings import Inks
from turnchain.drawing.folds import NO_FOLDS, Folds
from turnchain.drawing.lines import Px, between, longest, offset, smoothed
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import Frame, Sheet, Where
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment.edging import planned, ties
from turnchain.garment.edging import words as edging_words
from turnchain.garment.edging.planned import PlannedEdging
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Group, Item, Path, Step, Text, polyline
from turnchain.style import INK_DARK

LEAST, MOST = 0.95, 2.2  # how thick a band is, over the words of the page
AIR = 0.35  # between the cloth and a band, the same
LABEL = 0.72  # the words of its count, the same
TIE = 2.2  # how far a tie is drawn up or down, the same
LEAST_PACE, LEAST_ROW = 0.3, 0.45  # so much of the edge, and of its row, takes a stitch that is drawn, the same
BESIDE = (0.5, 0.4, 0.6)  # where the count may stand, as shares of the longest part: between buttonholes
NARROW, SHALLOW = 14, 6  # half pitches and rows: a neck less wide or less deep has no band
ARM = 0.34  # how far the strokes of a stitch reach from its middle, over the smaller of its sides


@frozen
class EdgingBand:
    """An edging along one edge of a piece, ``where`` it lies on the chart: the ``side`` with its stitches, which are of
    a ``stitch`` (US) in a ``yarn``, each ``high`` in rows of clusters; and the ``line`` it follows, (half pitches, cm
    from the foundation), with the piece at its left; ``hangs``: what is tied to its ends."""

    where: Where
    side: Side
    stitch: str
    yarn: str | None
    high: float
    line: tuple[tuple[Fraction, Fraction], ...]
    hangs: str = ""

    @property
    def tied(self) -> bool:
        """Whether a tie or strap hangs at an end of it."""
        return any(self.side.tied)


def shown(plan: Plan, frame: Frame, folds: Folds) -> bool:
    """Whether a chart on such a page has bands."""
    return bool(plan.pattern.edgings) and not frame.compact and folds == NO_FOLDS


@lru_cache(maxsize=16)  # asked for every size that a chart is tried in
def bands(plan: Plan, name: str, hand: str) -> tuple[EdgingBand, ...]:
    """The bands along the first copy of a piece, as a maker of that ``hand`` sees it."""
    found = []
    for one in planned.every(plan):
        yarn, high = planned.yarn_of(plan, one.asked), float(one.gauge.row / one.pieces[0].cluster_row)
        tied = ties.of(plan, one)
        hangs, name_of_yarn = tied.what if tied else "", yarn.name if yarn else None
        for (piece, copy), side in sides(plan, one):
            if (piece, copy) == (name, 0):
                line = _line(plan.piece(name), side, hand)
                where, run = _where(line, side.stretch.run.name), side.stretch.run
                step = where in ("above", "below") and run.meets == "row ends"  # the marks of its rows stand there
                if not step and (where != "neck" or _roomy(plan.piece(name))):
                    found.append(EdgingBand(where, side, one.asked.stitch, name_of_yarn, high, line, hangs))
    return tuple(found)


def _line(piece: PiecePlan, side: Side, hand: str) -> tuple[tuple[Fraction, Fraction], ...]:
    line = [(x / piece.gauge.half, y) for x, y in side.stretch.points]
    wide = piece.rows[0].right.at
    return tuple(line if hand == "right" else [(wide - x, y) for x, y in reversed(line)])


def _where(line: Sequence[tuple[Fraction, Fraction]], run: str) -> Where:
    """Along which side of the chart a line lies: the piece is at its left."""
    if run == "neck":
        return "neck"
    right, up = line[-1][0] - line[0][0], line[-1][1] - line[0][1]
    rises = sum(abs(high[1] - low[1]) for low, high in pairwise(line))
    if rises and up:
        return "right" if up > 0 else "left"
    return "below" if right > 0 else "above"


def _roomy(piece: PiecePlan) -> bool:
    """Whether what lies between two parts of a piece has room for a band beside their marks; so has a neck that divides
    none."""
    gaps = [
        abs(far - row.edge(side).at)
        for row in piece.rows for side in SIDES if (far := piece.across_neck(row, side)) is not None
    ]  # fmt: skip
    return not gaps or (min(gaps) >= NARROW and len(gaps) >= 2 * SHALLOW)


# ---------------------------------------------------------------------------------------------------- how much room


def rooms(setting: Setting, frame: Frame, folds: Folds, words: float, rise: float) -> dict[Where, float]:
    """The px that the bands take along each side of the chart; nothing where there are none."""
    found: dict[Where, float] = {}
    if shown(setting.plan, frame, folds):
        for band in bands(setting.plan, setting.piece.name, setting.look.hand):
            taken = thickness(band, words, rise) + 2 * AIR * words
            if band.tied:
                taken += _hanging(band.where, _told_tie(setting, band, max(band.side.tied)), words)
            found[band.where] = max(found.get(band.where, 0.0), taken)
    return found


def _told_tie(setting: Setting, band: EdgingBand, long: float) -> str:
    """What stands beside a tie or strap: "tie, 25 cm"."""
    cm = setting.speech.taped(Fraction(long).limit_denominator(1000), setting.pattern.units)
    return setting.speech.say(f"edging.chart.{band.hangs}", length=cm)


def _hanging(where: Where, told: str, words: float) -> float:
    """How far a tie is drawn, in px: its words stand beside it, below or above one that lies across the page."""
    return TIE * words if where in ("above", "below") else measure(told, LABEL * words) + 0.6 * LABEL * words


def thickness(band: EdgingBand, words: float, rise: float) -> float:
    """How thick a band is, in px: to scale where that is neither too thin for words nor crowds the chart."""
    return min(max(len(band.side.rows) * band.high * rise, LEAST * words), MOST * words)


# ---------------------------------------------------------------------------------------------------------- as drawn


def drawn(setting: Setting, beside: Mapping[Where, float], foot: float) -> list[Item]:
    """All bands of the chart; ``beside``: how many px from the cloth they begin at each side, ``foot``: the y below
    which those along the foundation lie."""
    sheet = setting.sheet
    if not shown(setting.plan, sheet.frame, sheet.folds):
        return []
    items: list[Item] = []
    for nth, band in enumerate(bands(setting.plan, setting.piece.name, setting.look.hand), 1):
        placed = _Placed(setting, band, beside.get(band.where, 0.0), foot)
        told = f"{band.side.stitches} {setting.speech.stitch(band.stitch)}"
        items.append(Group(tuple(placed.items(told)), f"edging-{nth}", told))
        items += [
            Group(tuple(placed.tie(hung, long, first)), f"edging-{nth}-{'begins' if first else 'ends'}", hung)
            for long, first in zip(band.side.tied, (True, False), strict=True)
            if long and (hung := _told_tie(setting, band, long))
        ]
    return items


def lines(setting: Setting) -> list[str]:
    """What the key says of the edgings on the chart, in the language of the pattern."""
    if not shown(setting.plan, setting.sheet.frame, setting.sheet.folds):
        return []
    along = [one for one in planned.of(setting.plan) if any(piece.name == setting.piece.name for piece in one.pieces)]
    return [" ".join(_told(setting, one)) for one in along]


def _told(setting: Setting, one: PlannedEdging) -> Iterator[str]:
    yield edging_words.told(setting.speech, setting.plan, one)
    if tied := ties.of(setting.plan, one):
        length = setting.speech.taped(tied.length, setting.pattern.units)
        yield setting.speech.say(f"edging.told.{tied.what}", length=length)


class _Placed:
    """A band on the page."""

    def __init__(self, setting: Setting, band: EdgingBand, beside: float, foot: float) -> None:
        self.setting, self.band, self.sheet = setting, band, setting.sheet
        words = self.sheet.words
        self.thick = thickness(band, words, self.sheet.rise)
        self.high = self.thick / len(band.side.rows)
        edge = [_px(self.sheet, setting.piece, point) for point in band.line]
        if band.where in ("above", "below"):
            y = foot if band.where == "below" else edge[0][1]
            reach = self.sheet.pad * (1 if band.where == "below" else -1)
            edge = [(edge[0][0] - reach, y), (edge[-1][0] + reach, y)]
            self.inner = AIR * words
        else:
            whole, edge = len(edge), smoothed(edge, 0.6 * self.sheet.rise)
            leans = any(one[0] != other[0] for one, other in pairwise(edge)) and len(edge) < whole
            self.inner = self.sheet.pad + beside + AIR * words + (0.35 * self.sheet.half if leans else 0.0)
        self.edge = edge

    def at(self, share: float) -> list[Px]:
        """The line along the band, so much of its thickness from its inner side."""
        return offset(self.edge, self.inner + share * self.thick)

    def items(self, told: str) -> Iterator[Item]:
        """The ground, lines between rows, stitches, buttonholes, the count."""
        sheet, rows, unit = self.sheet, self.band.side.rows, self.sheet.unit
        ground = [*self.at(0.0), *reversed(self.at(1.0))]
        colour = self.setting.colours.tint_of_yarn(self.band.yarn)
        hair = rounded(max(0.6, 0.9 * unit))
        yield Path(_steps(ground, closed=True), fill=colour, stroke=sheet.theme.soft, width=hair)
        for nth in range(1, len(rows)):
            yield Path(_steps(self.at(nth / len(rows))), stroke=sheet.theme.soft, width=rounded(0.6 * hair))
        size = LABEL * sheet.words
        label, middle, way = measure(told, size) + 0.8 * size, *longest(self.at(0.5))
        free = label if label <= 0.8 * math.dist(*middle) else 0.0
        centre = max((between(*middle, share) for share in BESIDE), key=self._from_holes)
        for nth, count in enumerate(rows):
            yield from self._stitches(nth, count, centre, free / 2)
        yield from self._holes()
        if free:
            yield from _label(told, centre, way, size)

    def tie(self, told: str, long: float, first: bool) -> Iterator[Item]:
        """A short part of a tie or strap of ``long`` cm, outwards from the last row where the edge begins (``first``)
        or ends, broken off, and beside it what is ``told`` of it."""
        sheet, size = self.sheet, LABEL * self.sheet.words
        way = 1 if first == (self.setting.look.hand == "right") else -1
        inner, outer = self.at(0.0)[::way], self.at(1.0)[::way]
        out, back = _unit(inner[0], outer[0]), _unit(outer[0], outer[1])
        reach, wide = _hanging(self.band.where, told, sheet.words), min(self.high, 0.6 * sheet.words)

        def at(along: float, across: float) -> Px:
            return (
                rounded(outer[0][0] + along * reach * out[0] + across * wide * back[0]),
                rounded(outer[0][1] + along * reach * out[1] + across * wide * back[1]),
            )

        hair = rounded(max(0.6, 0.9 * sheet.unit))
        ground = polyline([at(0, 0), at(1, 0), at(0.9, 0.5), at(1, 1), at(0, 1)], closed=True)
        yield Path(ground, fill=self.setting.colours.tint_of_yarn(self.band.yarn))
        for across in (0, 1):
            yield Path(polyline([at(0, across), at(1, across)]), stroke=sheet.theme.soft, width=hair)
        for along in (0.55, 0.68):  # the break
            yield Path(polyline([at(along, -0.4), at(along + 0.1, 1.4)]), stroke=INK_DARK, width=rounded(1.3 * hair))
        level = abs(out[0]) > abs(out[1])
        beside = (0.85 if level else 0.45) * size + (0.0 if level else measure(told, size) / 2)
        x, y = at(0.5, 1 + beside / wide)
        yield Text(x, rounded(y + 0.35 * size), told, rounded(size), sheet.theme.ink, "semibold", "middle")

    def _stitches(self, nth: int, count: int, centre: Px, free: float) -> Iterator[Item]:
        """The stitches of a row as one path, but for those where the count stands."""
        line = self.at((nth + 0.5) / len(self.band.side.rows))
        long = sum(math.dist(*pair) for pair in pairwise(line))
        pace = long / max(1, count)
        if pace < LEAST_PACE * self.sheet.words or self.high < LEAST_ROW * self.sheet.words:
            return
        arm, steps = ARM * min(pace, self.high), list[Step]()
        for (x, y), way in _along(line, count):
            if math.dist((x, y), centre) > free + 0.5 * pace or not free:
                steps += _symbol(self.band.stitch, (x, y), way, arm)
        if steps:
            yield Path(tuple(steps), stroke=INK_DARK, width=rounded(max(0.5, 0.13 * arm)))

    def _from_holes(self, place: Px) -> float:
        """How far a place is from the nearest buttonhole, in px."""
        return min((math.dist(place, hole) for (hole, _), _ in self._slits()), default=0.0)

    def _holes(self) -> Iterator[Item]:
        inks = Inks(self.sheet.theme.paper, INK_DARK, INK_DARK, INK_DARK)
        for (place, way), long in self._slits():
            yield from fastenings.hole(place, way, long, 0.9 * self.high, inks)

    def _slits(self) -> Iterator[tuple[tuple[Px, Px], float]]:
        """The middle of every buttonhole with the way along it, and how long it is, in px."""
        holes = self.band.side.holes
        if holes is None:
            return
        line = self.at((holes.row + 0.5) / len(self.band.side.rows))
        long = sum(math.dist(*pair) for pair in pairwise(line))
        spans = holes.spans if self.setting.look.hand == "right" else [(1 - high, 1 - low) for low, high in holes.spans]
        for low, high in spans:
            (placed,) = _along(line, 1, (low + high) / 2)
            yield placed, (high - low) * long


def _unit(one: Px, other: Px) -> Px:
    """The way from one place to another, 1 long."""
    long = math.dist(one, other) or 1.0
    return (other[0] - one[0]) / long, (other[1] - one[1]) / long


def _px(sheet: Sheet, piece: PiecePlan, point: tuple[Fraction, Fraction]) -> Px:
    """A place of an edge on the page: the height of every row is its own."""
    row = min(range(piece.row_count + 1), key=lambda number: abs(piece.up(number) - point[1]))
    return sheet.x(float(point[0])), float(sheet.top(row))


def _steps(line: Sequence[Px], closed: bool = False) -> tuple[Step, ...]:
    return polyline([(rounded(x), rounded(y)) for x, y in line], closed=closed)


def _along(line: Sequence[Px], count: int, share: float = 0.5) -> Iterator[tuple[Px, Px]]:
    """``count`` places along a line, each after its ``share`` of an equal part, with the way there."""
    parts = [(one, other, math.dist(one, other)) for one, other in pairwise(line) if one != other]
    whole = sum(long for _, _, long in parts)
    passed, nth = 0.0, 0
    for one, other, long in parts:
        while nth < count and (at := (nth + share) / count * whole) <= passed + long + 1e-6:
            yield between(one, other, (at - passed) / long), ((other[0] - one[0]) / long, (other[1] - one[1]) / long)
            nth += 1
        passed += long


def _symbol(stitch: str, middle: Px, way: Px, arm: float) -> list[Step]:
    """The strokes of a stitch whose foot is at the edge: a cross for sc, a T for hdc, one with a stroke for dc."""
    (x, y), (dx, dy) = middle, way

    def place(along: float, out: float) -> tuple[float, float]:
        return rounded(x + arm * (along * dx - out * dy)), rounded(y + arm * (along * dy + out * dx))

    made: list[Step] = []
    for along, out, to_along, to_out in _STROKES[stitch]:
        made += [("M", *place(along, out)), ("L", *place(to_along, to_out))]
    return made


_CROSS = ((-1.0, 0.0, 1.0, 0.0), (0.0, -1.0, 0.0, 1.0))
_TEE = ((-0.8, 1.0, 0.8, 1.0), (0.0, -1.0, 0.0, 1.0))
_STROKES = {"sc": _CROSS, "hdc": _TEE, "dc": (*_TEE, (-0.5, -0.25, 0.5, 0.25))}


def _label(told: str, centre: Px, way: Px, size: float) -> Iterator[Item]:
    """The count in the middle of the longest part of a band; never upside down."""
    turn = math.degrees(math.atan2(way[1], way[0]))
    turn = turn - 180 if turn > 90 + 1e-6 else turn + 180 if turn < -90 - 1e-6 else turn
    angle, drop = math.radians(turn), 0.35 * size
    x, y = centre[0] - drop * math.sin(angle), centre[1] + drop * math.cos(angle)
    yield Text(rounded(x), rounded(y), told, rounded(size), INK_DARK, "semibold", "middle", rounded(turn))
