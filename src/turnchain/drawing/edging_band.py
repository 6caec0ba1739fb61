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
from turnchain.garment.edging import planned
from turnchain.garment.edging import words as edging_words
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Group, Item, Path, Step, Text, polyline
from turnchain.style import INK_DARK

LEAST, MOST = 0.95, 2.2  # how thick a band is, over the words of the page
AIR = 0.35  # between the cloth and a band, the same
LABEL = 0.72  # the words of its count, the same
LEAST_PACE, LEAST_ROW = 0.3, 0.45  # so much of the edge, and of its row, takes a stitch that is drawn, the same
BESIDE = (0.5, 0.4, 0.6)  # where the count may stand, as shares of the longest part: between buttonholes
NARROW, SHALLOW = 14, 6  # half pitches and rows: a neck less wide or less deep has no band
ARM = 0.34  # how far the strokes of a stitch reach from its middle, over the smaller of its sides


@frozen
class EdgingBand:
    """An edging along one edge of a piece, ``where`` it lies on the chart: the ``side`` with its stitches, which are of
    a ``stitch`` (US) in a ``yarn``, each ``high`` in rows of clusters; and the ``line`` it follows, (half pitches, cm
    from the foundation), with the piece at its left."""

    where: Where
    side: Side
    stitch: str
    yarn: str | None
    high: float
    line: tuple[tuple[Fraction, Fraction], ...]


def shown(plan: Plan, frame: Frame, folds: Folds) -> bool:
    """Whether a chart on such a page has bands."""
    return bool(plan.pattern.edgings) and not frame.compact and folds == NO_FOLDS


@lru_cache(maxsize=16)  # asked for every size that a chart is tried in
def bands(plan: Plan, name: str, hand: str) -> tuple[EdgingBand, ...]:
    """The bands along the first copy of a piece, as a maker of that ``hand`` sees it."""
    found = []
    for one in planned.every(plan):
        yarn, high = planned.yarn_of(plan, one.asked), float(one.gauge.row / one.pieces[0].cluster_row)
        for (piece, copy), side in sides(plan, one):
            if (piece, copy) == (name, 0):
                line = _line(plan.piece(name), side, hand)
                where, run = _where(line, side.stretch.run.name), side.stretch.run
                step = where in ("above", "below") and run.meets == "row ends"  # the marks of its rows stand there
                if not step and (where != "neck" or _roomy(plan.piece(name))):
                    found.append(EdgingBand(where, side, one.asked.stitch, yarn.name if yarn else None, high, line))
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
            found[band.where] = max(found.get(band.where, 0.0), taken)
    return found


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
    return items


def lines(setting: Setting) -> list[str]:
    """What the key says of the edgings on the chart, in the language of the pattern."""
    if not shown(setting.plan, setting.sheet.frame, setting.sheet.folds):
        return []
    along = [one for one in planned.of(setting.plan) if any(piece.name == setting.piece.name for piece in one.pieces)]
    return [edging_words.told(setting.speech, setting.plan, one) for one in along]


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
