"""The border of cloth: a round of single crochets (US) along every edge that stays open, as the finishing tells it.

In: a plan, and pieces as they lie. Out: scene items in the border's yarn. Each edge has as many stitches as ``edged``
tells; at a corner there are three, and where the outline turns inwards the stitches close up.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial
from itertools import pairwise
from typing import TypeAlias

from turnchain.drawing import fastenings
from turnchain.drawing.cloth import LOOP, RUN, Cloth, line_of, shades
from turnchain.drawing.edged import EdgedPart, Side, parts
from turnchain.drawing.lines import smoothed
from turnchain.drawing.placement import Placed
from turnchain.drawing.strands import FINE, FINE_LAYERS, LAYERS, Drawer, Px, Strand
from turnchain.fabric.plan import Plan
from turnchain.garment import edges
from turnchain.garment.borders import SC_HEIGHT_IN_ROWS
from turnchain.garment.edges import Point
from turnchain.numbers import rounded
from turnchain.records import frozen, replace
from turnchain.scene import INK, Item, Path, Step, Use, polyline

FOOT = -0.35  # of a stitch, in heights of the border: inside the edge, in the stitch it is worked into
THIN, WIDE = 0.40, 0.56  # half the breadth of a stitch at its foot and below its head, in stitches
MANY = 24  # stitches: a longer line is drawn by itself
STEP = 0.5  # px: places of stitches are whole multiples of it
TURNS = 96  # so many ways a stitch can stand
LEAST_BEND = math.radians(30)  # between a border and the seam it ends at: below, it ends straight
ROUND = 4  # straight lines by which the band turns a corner

_Lie: TypeAlias = tuple[Px, float]  # of a stitch: the way of its line, and the px of one
_Made: TypeAlias = Callable[[_Lie], tuple[Item, ...]]


# ------------------------------------------------------------------------------------------------------ as drawn


def drawn(plan: Plan, laid: list[Placed], cloth: Cloth) -> list[list[Item]]:
    """The borders of each of the pieces ``laid``, to be painted after the pieces."""
    found = parts(plan)
    bands = [[_Band(plan, one, cloth, part) for part in found.get((one.piece.name, one.copy), ())] for one in laid]
    return [[item for band in along for item in band.items()] for along in bands]


@frozen
class _Line:
    """A straight part of a row of a border in px of the picture: from ``one`` to ``other``, ``stitches`` on it;
    ``corner``: so many more stitches stand in the corner that follows. ``foot``: how far outside the edge it begins, in
    px. ``cut``: by how many px its outer side is shorter at the beginning and at the end, where a seam meets it aslant
    or several rows turn inwards."""

    one: Px
    other: Px
    stitches: int
    corner: int
    foot: float = 0.0
    cut: tuple[float, float] = (0.0, 0.0)

    @property
    def long(self) -> float:
        return math.dist(self.one, self.other)

    @property
    def way(self) -> Px:
        """The unit vector along it."""
        return (self.other[0] - self.one[0]) / self.long, (self.other[1] - self.one[1]) / self.long

    @property
    def out(self) -> Px:
        """The unit vector away from the piece, which lies at the left of the way as seen (y downwards)."""
        return -self.way[1], self.way[0]

    @property
    def pace(self) -> float:
        """The px of a stitch along it: those beside a cut close up."""
        return (self.long - sum(self.cut)) / self.stitches

    def at(self, along: float, out: float) -> Px:
        """The place so many px along it and away from the piece."""
        (x, y), (dx, dy), (ox, oy) = self.one, self.way, self.out
        return x + along * dx + out * ox, y + along * dy + out * oy


class _Band:
    """The border along one part of a piece."""

    def __init__(self, plan: Plan, laid: Placed, cloth: Cloth, part: EdgedPart) -> None:
        self.plan, self.laid, self.cloth, self.part = plan, laid, cloth, part
        self.high = max(2, round(float(part.high) * laid.scale.row))
        self.rows = [self._row(nth) for nth in range(len(part.sides[0].rows))]

    def _row(self, nth: int) -> list[tuple[_Line, _Line | None]]:
        """The lines of a row (from 0), each with the one that follows it."""
        lines = [line for side in self.part.sides for line in self._lines(side, nth)]
        lines = self._cut_at_seams(self._cut_inwards(lines) if len(self.part.sides[0].rows) > 1 else lines)
        following = [*lines[1:], lines[0] if self.part.closed else None] if lines else []
        return list(zip(lines, following, strict=True))

    def items(self) -> Iterator[Item]:
        """Row by row the grounds, then layer by layer the stitches, then the plait along them."""
        colour = self.cloth.colours.of_yarn(self.part.yarn)
        if len(self.rows) > 1:
            yield from self._filled(colour if self.cloth.colours.mono else shades(colour).ground)
        for row in self.rows:
            yield from self._drawn(row, colour)
        yield from self._fastened(colour)

    def _fastened(self, colour: str) -> Iterator[Item]:
        """Buttonholes, and ties that hang from the ends."""
        inks = fastenings.Inks.of(colour, self.cloth)
        sides = self.part.sides
        for side in sides:
            if side.holes is not None:
                lines = list(self._lines(side, side.holes.row))
                for span in side.holes.spans:
                    yield from fastenings.hole(*self._placed(lines, span), self.high, inks)
        ends = [(sides[0].tied[0], self.rows[0][0][0], True), (sides[-1].tied[1], self.rows[0][-1][0], False)]
        row = float(self.laid.piece.gauge.row)
        for long, line, at_start in ends if self.rows[0] else ():
            if long:
                high = float(SC_HEIGHT_IN_ROWS) * self.laid.scale.row
                inset = min(line.long, high)
                place = line.at(inset if at_start else line.long - inset, self.high * len(self.rows) / 2)
                way, inwards = fastenings.ways(line.way, line.out, at_start)
                px = long / row * self.laid.scale.row
                yield from fastenings.tie(place, way, inwards, px, high, self._box(), inks)

    def _placed(self, lines: list[_Line], span: tuple[float, float]) -> tuple[Px, Px, float]:
        """The middle of a part of a side (shares of it) half way up its row, the way along it, and how long it is."""
        whole = math.fsum(line.long for line in lines)
        at = whole * sum(span) / 2
        for line in lines:
            if at <= line.long or line is lines[-1]:
                break
            at -= line.long
        return line.at(at, line.foot + self.high / 2), line.way, whole * (span[1] - span[0])

    def _box(self) -> tuple[Px, Px]:
        """Two corners of the piece as it lies, in px."""
        (x, y), (wide, tall) = (self.laid.x, self.laid.y), self.laid.size
        return self.cloth.table.px((x, y + tall)), self.cloth.table.px((x + wide, y))

    def _filled(self, fill: str) -> Iterator[Item]:
        """What lies between an edge that goes in and out and the second row, which does not."""
        for side in self.part.sides:
            edge = [self._px(point) for point in _straightened(side.stretch.points)]
            straight = [_Line(*ends, 0, 0) for ends in pairwise(smoothed(edge, self.laid.scale.row))]
            if len(straight) < len(edge) - 1:
                outer = [place for line in straight for place in (line.at(0, self.high), line.at(line.long, self.high))]
                shape = polyline([(rounded(x), rounded(y)) for x, y in (*edge, *outer[::-1])], closed=True)
                yield Path(shape, fill=fill)

    def _drawn(self, row: list[tuple[_Line, _Line | None]], colour: str) -> Iterator[Item]:
        if self.cloth.colours.mono:
            yield from self._grounds(row, colour, self.cloth.theme.soft)
            return
        inks = shades(colour)._asdict()
        yield from self._grounds(row, inks["ground"])
        for layer in self._layers():
            yield from self._gathered(row, layer, inks[layer], partial(self._stitch, layer), corners=True)
        for layer, more in (("edge", 0.06), ("loop", 0.0)):
            yield from self._gathered(row, f"plait-{layer}", inks[layer], partial(self._loop, more))

    def _gathered(
        self, row: list[tuple[_Line, _Line | None]], part: str, ink: str, made: _Made, corners: bool = False
    ) -> Iterator[Use]:
        """One layer of all stitches: those of short lines that follow each other are one use, a long upright line is
        many, so that lines of px that come again stay alike."""
        waiting: list[Use] = []
        stitches = 0
        for line, following in row:
            uses = list(self._along(line, part, made))
            if line.one[0] == line.other[0] and line.stitches > MANY:
                yield from (replace(use, ink=ink) for use in uses)
            else:
                waiting += uses
                stitches += line.stitches
            waiting += self._in_corner(line, following, part, made) if corners else ()
            if waiting and stitches > MANY:
                yield self._as_one(waiting, ink)
                waiting, stitches = [], 0
        if waiting:
            yield self._as_one(waiting, ink)

    def _as_one(self, uses: list[Use], ink: str) -> Use:
        """``uses`` as one, about the whole px where the first stands."""
        x, y = (float(math.floor(place)) for place in (uses[0].x, uses[0].y))
        near = tuple(replace(use, x=use.x - x, y=use.y - y) for use in uses)
        return Use(self.cloth.define("border-part", near, lambda: near), x, y, ink)

    def _layers(self) -> tuple[str, ...]:
        widest = max((line.pace for row in self.rows for line, _ in row if line.stitches), default=0.0)
        return FINE_LAYERS if WIDE * widest < FINE else LAYERS  # they are short: no room for ply

    def _lines(self, side: Side, row: int) -> Iterator[_Line]:
        """The straight parts of a side in a row, its stitches shared out by their length."""
        points = [self._px(point) for point in _straightened(side.stretch.points)]
        parts = pairwise(smoothed(points, self.laid.scale.row) if row else points)
        places = [ends for ends in parts if ends[0] != ends[1]]
        total = math.fsum(math.dist(*ends) for ends in places)
        passed, had, corner = 0.0, 0, side.corner + row * (side.corner - 1)
        for number, (one, other) in enumerate(places, 1):
            passed += math.dist(one, other)
            upto = round(side.rows[row] * passed / total)
            ends = corner if side.turned and number == len(places) else 0
            yield _Line(one, other, upto - had, ends, float(row * self.high))
            had = upto

    def _cut_inwards(self, lines: list[_Line]) -> list[_Line]:
        """``lines`` mitred where the next turns inwards: the outer rows are the shorter there."""
        pairs = list(pairwise(lines)) + ([(lines[-1], lines[0])] if self.part.closed and lines else [])
        bends = [max(0.0, -_bends(*pair)) for pair in pairs]
        after = [*bends, *[0.0] * (len(lines) - len(bends))]
        made = []
        for nth, line in enumerate(lines):
            head = line.foot + self.high
            cuts = [head * math.tan(min(bend, math.pi / 2) / 2) for bend in (after[nth - 1], after[nth])]
            most = 0.9 * line.long / max(sum(cuts), 0.9 * line.long)
            made.append(replace(line, cut=(cuts[0] * most, cuts[1] * most)))
        return made

    def _cut_at_seams(self, lines: list[_Line]) -> list[_Line]:
        """``lines``, the first and the last cut where the border ends at a seam: along the seam's own line, on which
        the border of the other piece ends as well."""
        if self.part.closed or not lines:
            return lines
        before, after = self._neighbours()
        begun, ended = self._cut(before, lines[0]), self._cut(lines[-1], after)
        first = replace(lines[0], cut=(begun, lines[0].cut[1]))
        lines = [first, *lines[1:]]
        return [*lines[:-1], replace(lines[-1], cut=(lines[-1].cut[0], ended))]

    def _neighbours(self) -> tuple[_Line, _Line]:
        """The edges of the piece before the first stretch and after the last."""
        points = [self._px(point) for run in edges.around(self.laid.piece) for point in run.points]
        points = [point for index, point in enumerate(points) if point != points[index - 1]]
        first, last = self._px(self.part.sides[0].stretch.points[0]), self._px(self.part.sides[-1].stretch.points[-1])
        before, after = _next(points[::-1], first), _next(points, last)
        return _Line(before, first, 0, 0), _Line(last, after, 0, 0)

    def _cut(self, line: _Line, following: _Line) -> float:
        """By how much the end of a border between two lines is cut at its outer side, in px."""
        bend = _bends(line, following)
        return (max(line.foot, following.foot) + self.high) / math.tan(bend) if LEAST_BEND < bend < math.pi / 2 else 0.0

    def _px(self, point: Point) -> Px:
        gauge = self.laid.piece.gauge
        x, y = self.cloth.table.px(self.laid.at(float(point[0] / gauge.half), float(point[1] / gauge.row)))
        return float(round(x)), float(round(y))

    # ------------------------------------------------------------------------------------------------- the ground

    def _grounds(
        self, row: list[tuple[_Line, _Line | None]], fill: str, stroke: str | None = None
    ) -> Iterator[Item]:
        """The band behind the stitches: a strip along every line, and what lies between two at a bend."""
        width = rounded(0.9 * self.cloth.unit)
        for line, following in row:
            (begun, ended), head = line.cut, line.foot + self.high
            below = [cut * line.foot / head for cut in (begun, ended)]
            shapes = [[
                line.at(below[0], line.foot), line.at(begun, head), line.at(line.long - ended, head),
                line.at(line.long - below[1], line.foot),
            ]]  # fmt: skip
            if following is not None and _bends(line, following) > 0:
                inner = self._fan(line, following, ROUND, line.foot) if line.foot else [line.other]
                shapes.append([*inner[::-1], *self._fan(line, following, ROUND, head)])
            for shape in shapes:
                outline = polyline([(rounded(x), rounded(y)) for x, y in shape], closed=True)
                yield Path(outline, fill=fill, stroke=stroke, width=width)

    def _fan(self, line: _Line, following: _Line, parts: int, far: float) -> list[Px]:
        """Places round the corner at the end of ``line``, ``far`` px from it."""
        start, turn = math.atan2(line.out[1], line.out[0]), _bends(line, following)
        x, y = line.other
        turns = [start - turn * part / parts for part in range(parts + 1)]
        return [(x + far * math.cos(angle), y + far * math.sin(angle)) for angle in turns]

    # ---------------------------------------------------------------------------------------------------- stitches

    def _along(self, line: _Line, part: str, made: _Made) -> Iterator[Use]:
        """All stitches of a line, several to a use."""
        if not line.stitches:
            return
        pace, begun = line.pace, line.cut[0]
        upright = line.one[0] == line.other[0]
        long, done = 1, 0
        while long * RUN <= line.stitches and (long < RUN or not upright):
            long *= RUN
        while done < line.stitches:
            while long > line.stitches - done:
                long //= RUN
            name = self._run(part, (line.way, rounded(pace)), long, made)
            yield Use(name, *_stepped(line.at(begun + (done + 0.5) * pace, line.foot)), INK)
            done += long

    def _run(self, part: str, lie: _Lie, long: int, made: _Made) -> str:
        """The definition of ``long`` stitches side by side about the foot of the first."""
        (dx, dy), pace = lie
        if long == 1:
            alike = (_turned(lie[0]), max(STEP, round(pace / STEP) * STEP))
            return self.cloth.define("border", (part, alike, self.high), partial(made, alike))
        key = (part, lie, self.high, long)
        inner, step = self._run(part, lie, long // RUN, made), pace * (long // RUN)
        return self.cloth.define("border-run", key, lambda: tuple(
            Use(inner, *_stepped((nth * step * dx, nth * step * dy)), INK) for nth in range(RUN)
        ))

    def _stitch(self, layer: str, lie: _Lie) -> tuple[Item, ...]:
        """One layer of a stitch."""
        (dx, dy), pace = lie

        def place(along: float, out: float) -> Px:
            return rounded(along * dx - out * dy), rounded(along * dy + out * dx)

        drawer = Drawer(place, line_of(self.laid), 1.0 if dx + dy > 0 else -1.0)
        strand = Strand((0.0, FOOT * self.high), (0.0, 0.98 * self.high), THIN * pace, WIDE * pace)
        return (drawer.fine_layer([strand], layer) if self._layers() == FINE_LAYERS else drawer.layer(strand, layer),)

    def _loop(self, more: float, lie: _Lie) -> tuple[Item, ...]:
        """The loop on top of a stitch, ``more`` rows broader than it is."""
        (dx, dy), pace = lie
        loop = LOOP * self.laid.scale.row
        places = [(-0.42 * pace, 0.93), (-0.1 * pace, 0.92), (0.18 * pace, 1.0), (0.46 * pace, 1.05)]
        flat = [
            number for along, up in places
            for number in (rounded(along * dx - up * self.high * dy), rounded(along * dy + up * self.high * dx))
        ]
        steps: tuple[Step, ...] = (("M", flat[0], flat[1]), ("C", *flat[2:]))  # type: ignore[assignment]
        return (Path(steps, stroke=INK, width=rounded(0.8 * loop + more * self.laid.scale.row)),)

    def _in_corner(self, line: _Line, following: _Line | None, layer: str, made: _Made) -> Iterator[Use]:
        """The stitches in the corner after a line, fanned out, all worked into one place."""
        if following is None or not line.corner:
            return
        start, turn = math.atan2(line.out[1], line.out[0]), _bends(line, following)
        pace = (line.foot + self.high) * turn / line.corner
        for nth in range(line.corner):
            angle = start - turn * (nth + 0.5) / line.corner
            way = rounded(math.sin(angle)), rounded(-math.cos(angle))
            name = self._run(layer, (way, rounded(pace)), 1, made)
            x, y = line.other[0] + line.foot * math.cos(angle), line.other[1] + line.foot * math.sin(angle)
            yield Use(name, *_stepped((x, y)), INK)


def _next(points: list[Px], place: Px) -> Px:
    """What follows ``place`` on an outline; where it lies between two of its points, straight on is near enough."""
    if place in points:
        return points[(points.index(place) + 1) % len(points)]
    return place[0] + 1, place[1]


def _bends(line: _Line, following: _Line) -> float:
    """By how much the border turns outwards after a line, in radians; negative where it turns inwards."""
    (dx, dy), (ex, ey) = line.way, following.way
    return math.atan2(dy * ex - dx * ey, dx * ex + dy * ey)


def _straightened(points: tuple[Point, ...]) -> list[Point]:
    """``points`` without those on a straight line between their neighbours."""
    kept: list[Point] = []
    for point in points:
        if kept and point == kept[-1]:
            continue
        while len(kept) > 1 and _cross(kept[-2], kept[-1], point) == 0:
            kept.pop()
        kept.append(point)
    return kept


def _cross(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])


def _turned(way: Px) -> Px:
    """The nearest of ``TURNS`` ways to ``way``, both unit vectors."""
    angle = round(math.atan2(way[1], way[0]) / math.tau * TURNS) / TURNS * math.tau
    return rounded(math.cos(angle)), rounded(math.sin(angle))


def _stepped(place: Px) -> Px:
    """The nearest place in whole steps, so that few stitches differ by parts of a px and most are drawn once."""
    return round(place[0] / STEP) * STEP, round(place[1] / STEP) * STEP
