"""One piece drawn to scale: cloth, edges, measures, seam letters.

In: a planned piece, a scale and a place on the page. Out: scene items. Used for pieces that stand as worn, and for
those that lie turned against one another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import groupby, pairwise

from turnchain import style
from turnchain.drawing import drafting
from turnchain.drawing.clearance import Taken
from turnchain.drawing.drafting import ACCENT, INK, SOFT, Px
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.garment import dimensions, edges
from turnchain.garment.dimensions import Dimension
from turnchain.garment.edges import Point, Run
from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.pattern import Pattern
from turnchain.scene import Anchor, Group, Item, Path, arrow, polyline
from turnchain.wording import founding
from turnchain.wording.tables import speech_of

TIER = drafting.LABEL_HEIGHT + 26  # px from one tier of dimensions to the next
BESIDE = 40.0  # px between upright dimensions at one side, besides the words of the nearer
NAMES = 16.0  # px of the em of the names of edges
SHARES = (0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6)  # of an edge, where its name may stand
FAR = (26.0, 44.0, 64.0, 86.0, 110.0, 150.0, 200.0)  # px that words may stand outside a piece
PLATE = drafting.LABEL_HEIGHT + 14  # px: room for a label on the cloth
ARROW = 60.0  # px: half the length of the arrow of the direction of work, where there is room


def figure(pattern: Pattern, cm: Fraction) -> str:
    """``cm`` in words in the unit of the pattern, as exactly as a tape is read: "61 cm"."""
    return speech_of(pattern).taped(cm, pattern.units)


def measure_words(pattern: Pattern, one: Dimension) -> str:
    """A measure in a line: its name, then its figure, "width 61 cm"."""
    return f"{speech_of(pattern).measure(one.name)} {figure(pattern, one.cm)}"


def summary_of(pattern: Pattern, piece: PiecePlan) -> str:
    """How many to make where it is more than one, rows, way of working and chains of the foundation, in a line."""
    speech = speech_of(pattern)
    makes = f"{speech.say('summary.make', n=piece.count)}  ·  " if piece.count > 1 else ""
    rows, worked = speech.count("counted.row", piece.row_count), speech.say(f"worked.{piece.worked}")
    if piece.begun_on:
        return makes + founding.said(speech, "schematic.summary", piece, rows=rows, worked=worked)
    return makes + speech.say("schematic.summary", rows=rows, worked=worked, chains=piece.foundation_chain)


def tiers_above(measures: Iterable[Dimension]) -> list[list[Dimension]]:
    """The dimensions above a piece in tiers, from the piece upwards: shoulders and neck, then the others; empty tiers
    are left out."""
    above = [one for one in measures if one.place == "above"]
    neck = [one for one in above if one.name.endswith("shoulder") or one.name == "neck width"]
    return [tier for tier in (neck, [one for one in above if one not in neck]) if tier]


class Drawing:
    """A piece drawn at ``scale`` px to a cm with the upper left corner of its box at ``corner`` (px). ``turn`` takes
    points of the work to where they lie, in cm with y up (None: as worn); with it, ``corner`` is where its (0, 0)
    stands. Points of the work are exact cm from position 0 and the foundation."""

    def __init__(
        self,
        plan: Plan,
        piece: PiecePlan,
        scale: float,
        corner: Px,
        turn: Callable[[Point], tuple[float, float]] | None = None,
    ) -> None:
        self.plan, self.piece, self.scale, self.corner = plan, piece, scale, corner
        self.runs, self.edges = edges.around(piece), edges.of(piece)
        self.measures, self.box = dimensions.of(plan, piece), dimensions.box(piece)
        as_worn = edges.worn(piece)

        def lying(point: Point) -> tuple[float, float]:
            across, up = as_worn(point)
            return float(across), float(up)

        self.turn = turn or lying
        (left, _), (_, high) = self.box
        self.zero = (float(left), float(high)) if turn is None else (0.0, 0.0)

    def px(self, point: tuple[float | Fraction, float | Fraction]) -> Px:
        """Where a point in cm, as the piece lies, stands on the page (px)."""
        x, y = float(point[0]) - self.zero[0], self.zero[1] - float(point[1])
        return self.corner[0] + x * self.scale, self.corner[1] + y * self.scale

    def line(self, points: Iterable[Point]) -> list[Px]:
        """Where ``points`` of the work stand on the page (px)."""
        return [self.px(self.turn(point)) for point in points]

    def block(self, found: Iterable[PlannedSeam], limits: tuple[float, float, float, float]) -> Group:
        """The piece with title, measures and the letters of its seams among those ``found``, all words within
        ``limits`` (left, top, right, bottom, px)."""
        found = list(found)
        first = [*self._title(), *(item for one in self._measures() for item in one), *self.ticks(found)]
        taken = Taken(first, limits)
        first += self.letters(found, taken)
        title = f"{self.piece.name}: {summary_of(self.plan.pattern, self.piece)}"
        items = [
            *self.cloth(),
            *first,
            *self.edge_names(taken),
            *self._clear_direction(taken),
        ]
        return Group(tuple(items), f"schematic-of-{_index(self.plan, self.piece)}", title)

    def _title(self) -> Iterator[Item]:
        (left, _), _ = self.box
        above = len(tiers_above(self.measures)) * TIER
        x, y = self.px((left, self.zero[1]))
        yield drafting.words((x, y - above - 44), self.piece.name, 30, INK, "semibold")
        yield drafting.words((x, y - above - 18), summary_of(self.plan.pattern, self.piece), 18, SOFT)

    # ------------------------------------------------------------------------------------------------- the cloth

    def cloth(self, chains_inside: bool = False) -> Iterator[Item]:
        """The stripes in pale, the outline, shaped edges in the accent, the chains of the foundation: outside it, or
        inside (``chains_inside``) where another piece lies against it."""
        sign = -1 if chains_inside else 1
        for colour, rows in _stripes(self.plan, self.piece):
            yield Path(polyline(hundredths(self.line(_band(self.piece, rows))), closed=True), fill=colour)
        for run in self.runs:
            points = self.line(run.points)
            if run.meets == "foundation":
                yield Path(polyline(hundredths(points)), stroke=INK, width=2.2)
                if self.piece.begun_on:  # on what there is already
                    continue
                out = outwards(points)
                yield drafting.chains(points[0], points[-1], (sign * out[0], sign * out[1]))
            else:
                yield from self._outline(run)

    def _outline(self, run: Run) -> Iterator[Item]:
        """A run of the outline, its straight stretches in ink and its shaped ones in the accent, over them."""
        stretches = [
            (shaped, [pair[0] for pair in pairs[:1]] + [pair[1] for pair in pairs])
            for shaped, pairs in ((key, list(group)) for key, group in groupby(pairwise(run.points), _shaped(run)))
        ]
        for shaped, points in sorted(stretches, key=lambda one: one[0]):
            line = polyline(hundredths(self.line(points)))
            yield Path(line, stroke=ACCENT, width=3.4) if shaped else Path(line, stroke=INK, width=2.2)

    def edge_names(self, taken: Taken) -> Iterator[Item]:
        """The names by which seams call the edges, where ``taken`` leaves room: inside them, else outside with a thin
        line that leads there. What is placed is added to ``taken``."""
        speech = speech_of(self.plan.pattern)
        for run in self.runs:
            name = speech.named_by("run", run.name)
            said = speech.say("name.foundation", name=name) if run.meets == "foundation" else name
            if run.name == "neck" and run.meets == "row ends" and len(self.edges["neck"].runs) > 1:
                continue
            yield from taken.first_clear(self._name_places(run, said), or_none=True)

    def _name_places(self, run: Run, said: str) -> Iterator[list[Item]]:
        """The name of a run wherever it may stand, the best place first."""
        points = self.line(run.points)
        for share in SHARES:
            if items := drafting.along(points, said, NAMES, 24.0, share):
                yield items
        out = outwards(points)
        for far in FAR[:5]:
            for share in SHARES:
                yield drafting.led(drafting.middle(points, share), out, far, said, NAMES)

    def place(self, share: Fraction, over: Fraction = Fraction(1, 2)) -> Point:
        """The place at a ``share`` (0 to 1) of the height and ``over`` of the width, a point of the work in cm."""
        piece = self.piece
        at = piece.leftmost + (piece.rightmost - piece.leftmost) * over
        return at * piece.gauge.half, piece.height * share

    def direction(self, share: Fraction = Fraction(1, 2), over: Fraction = Fraction(1, 2)) -> Iterator[Item]:
        """An arrow that shows which way the rows grow, its middle at a ``share`` of height and ``over`` of width (0 to
        1), and its words where there is room for them; nothing where the piece is too low for the arrow."""
        across, up = self.place(share, over)
        centre, ahead = self.px(self.turn((across, up))), self.px(self.turn((across, up + 1)))
        way = ((ahead[0] - centre[0]) / self.scale, (ahead[1] - centre[1]) / self.scale)
        reach = self._reach
        if reach < 12:
            return
        tail = (centre[0] - way[0] * reach, centre[1] - way[1] * reach)
        tip = (centre[0] + way[0] * reach, centre[1] + way[1] * reach)
        yield Path(arrow(tail, tip, 13), stroke=INK, width=3.0)
        yield from self._direction_words(centre, way, share)

    @property
    def _reach(self) -> float:
        return min(ARROW, 0.16 * float(self.piece.height) * self.scale)

    def _direction_words(self, centre: Px, way: Px, share: Fraction) -> Iterator[Item]:
        speech = speech_of(self.plan.pattern)
        x, y = centre
        left, right = edges.width_at(self.piece, self.piece.row_count * share)
        level = abs(way[0]) > abs(way[1])
        room = self.piece.height if level else right - left
        if level and float(room) * self.scale > 140:
            said = speech.say("schematic.direction")
            yield drafting.words((x, y - 16 - self.lift(way)), said, NAMES, INK, "regular", "middle")
        elif not level and float(room) * self.scale > 290:
            aside = 16 + 24 * abs(way[0] / way[1])
            for line, words in enumerate(speech.say("schematic.direction.short").split("|")):
                yield drafting.words((x + aside, y - 4 + 20 * line), words, NAMES)

    def lift(self, way: Px) -> float:
        """By how many px the words over the arrow of the direction of work stand higher where it leans that ``way``
        (towards the last row, of any length; x and y of the picture) than over a level one."""
        far = min(measure(speech_of(self.plan.pattern).say("schematic.direction"), NAMES) / 2, self._reach)
        return far * abs(way[1] / way[0])

    def _clear_direction(self, taken: Taken) -> list[Item]:
        """The arrow of the direction of work where it is clear of all words, with its own where they are too."""
        shares = [Fraction(share, 100) for share in (50, 42, 58, 34, 66, 26, 74, 18, 82)]
        places = [(share, Fraction(over, 20)) for over in (10, 6, 14, 4, 16) for share in shares]
        tries: list[list[Item]] = []
        for place in places:  # most often the first is clear
            tries.append(list(self.direction(*place)))
            if tries[-1] and taken.clear(tries[-1]):
                return tries[-1]
        return next((items[:1] for items in tries if items and taken.clear(items[:1])), [])

    # ---------------------------------------------------------------------------------------------- the measures

    def _measures(self) -> Iterator[list[Item]]:
        tiers = tiers_above(self.measures)
        for one in self.measures:
            if one.place == "above":
                tier = next(index for index, tier in enumerate(tiers) if one in tier)
                yield self._across(one, -(tier * TIER + 16))
            elif one.place == "below":
                yield self._across(one, 26)
            elif one.place == "inside":
                yield self._inside(one)
            else:
                yield self._upright(one)

    def _named(self, one: Dimension, items: list[Item]) -> list[Item]:
        measure = speech_of(self.plan.pattern).measure(one.name)
        said = f"{self.piece.name}, {measure}: {figure(self.plan.pattern, one.cm)}"
        index = _index(self.plan, self.piece)
        places = [other.name for other in self.measures]
        name = f"measure-{index}-{places.index(one.name) + 1}"
        return [Group(tuple(items), name, said)]

    def _label(self, one: Dimension, at: Px, anchor: Anchor, plate: bool = False) -> list[Item]:
        name = speech_of(self.plan.pattern).measure(one.name)
        return drafting.label(at, name, figure(self.plan.pattern, one.cm), anchor, plate)

    def _across(self, one: Dimension, off: float) -> list[Item]:
        """A dimension ``off`` px below (negative: above) the piece's box, its label beyond it."""
        (_, low), (_, high) = self.box
        left, right = self.px(one.one), self.px(one.other)
        y = self.px((0, low))[1] + off if off > 0 else self.px((0, high))[1] + off
        leads = [drafting.hair((x, at + (4 if off > 0 else -4)), (x, y)) for x, at in (left, right)]
        top = y + 2 if off > 0 else y - drafting.LABEL_HEIGHT - 6
        middle = (left[0] + right[0]) / 2
        arrows = drafting.arrow_line((left[0], y), (right[0], y))
        return self._named(one, [*leads, *arrows, *self._label(one, (middle, top), "middle")])

    def _upright(self, one: Dimension) -> list[Item]:
        """A dimension at the left or the right of the piece's box, its label beside it."""
        (left, _), (right, _) = self.box
        nearer = self._nearer(one)
        outer = self.px((left, 0))[0] - 30 - nearer if one.place == "left" else self.px((right, 0))[0] + 24 + nearer
        low, high = self.px(one.one), self.px(one.other)
        leads = [drafting.hair((self._lead(one, y), y), (outer, y)) for _, y in (low, high)]
        anchor: Anchor = "end" if one.place == "left" else "start"
        at = (outer + (-12 if one.place == "left" else 14), (low[1] + high[1] - drafting.LABEL_HEIGHT) / 2 - 3)
        arrows = drafting.arrow_line((outer, low[1]), (outer, high[1]))
        return self._named(one, [*leads, *arrows, *self._label(one, at, anchor)])

    def _nearer(self, one: Dimension) -> float:
        """The px that upright dimensions nearer to the piece take at this side."""
        at_side = [other for other in self.measures if other.place == one.place]
        speech = speech_of(self.plan.pattern)
        return sum(
            drafting.label_width(speech.measure(other.name), figure(self.plan.pattern, other.cm)) + BESIDE
            for other in at_side[: at_side.index(one)]
        )

    def _lead(self, one: Dimension, y: float) -> float:
        """Where the line that leads to an upright dimension begins: outside the piece, and at a neck's bottom there."""
        (left, _), (right, _) = self.box
        if one.place == "left":
            return self.px((left, 0))[0] - 6
        deep = self.px(one.one)[1]
        if y != deep or one.name != "neck depth" or "neck" not in self.edges:
            return self.px((right, 0))[0] + 6
        return max(x for x, at in self.line(self.edges["neck"].points) if abs(at - deep) < 0.5)

    def _inside(self, one: Dimension) -> list[Item]:
        """A width across the piece, its label on a plate below the line."""
        left, right = self.px(one.one), self.px(one.other)
        middle = (left[0] + right[0]) / 2
        top = self._plates()[one.name]
        if top is None:
            return []
        label = self._label(one, (middle, top + 4), "middle", plate=True)
        return self._named(one, [*drafting.arrow_line(left, right), *label])

    def _plates(self) -> dict[str, float | None]:
        """From where down the page each width on the cloth has its label: below its line or above it, clear of the
        others and of the names at both ends; None where it finds no room."""
        (_, low), (_, high) = self.box
        floor, ceiling = self.px((0, low))[1] - 34, self.px((0, high))[1] + 32
        found: dict[str, float | None] = {}
        inside = [one for one in self.measures if one.place == "inside"]
        for one in sorted(inside, key=lambda one: one.one[1]):
            y = self.px(one.one)[1]
            taken = [top for top in found.values() if top is not None]
            tries = [top for top in (y, y - PLATE) if top + PLATE <= floor and top >= ceiling]
            free = [top for top in tries if all(abs(top - other) >= PLATE for other in taken)]
            found[one.name] = free[0] if free else None
        return found

    def unplaced(self) -> list[Dimension]:
        """Measures across the cloth for which the drawing has no room: they must be given in words."""
        plates = self._plates()
        return [one for one in self.measures if plates.get(one.name, 0.0) is None]

    # ------------------------------------------------------------------------------------------------- the seams

    def _sides(self, found: Iterable[PlannedSeam], copy: int | None = None) -> list[SeamSide]:
        """The sides of seams that lie on this piece (on one ``copy``), each stretch once."""
        sides = [side for seam in found for side in (seam.one, seam.other)]
        own = [side for side in sides if side.piece.name == self.piece.name and copy in (None, side.copy)]
        return list({(side.edge, side.points): side for side in own}.values())

    def ticks(self, found: Iterable[PlannedSeam], copy: int | None = None) -> Iterator[Item]:
        """A stroke across the edge of this piece (of one ``copy``, counted from 0; None: of all) wherever one of the
        seams ``found`` begins or ends part of the way along it."""
        for side in self._sides(found, copy):
            yield from self._ticks(side)

    def letters(self, found: Iterable[PlannedSeam], taken: Taken) -> Iterator[Item]:
        """The letters of the seams ``found`` on the edges of this piece where ``taken`` leaves room; what is placed is
        added to it."""
        had: set[tuple[str, tuple[Point, ...]]] = set()
        for seam in found:
            for side in self._sides([seam]):
                if (seam.letter, side.points) not in had:
                    had.add((seam.letter, side.points))
                    yield from taken.first_clear(self.letter_places(side, seam.letter))

    def letter_places(self, side: SeamSide, letter: str) -> Iterator[list[Item]]:
        """A seam's letter wherever it may stand, the best place first: on its edge, else outside with a thin line."""
        points = self.line(side.points)
        for share in SHARES:
            yield drafting.badge(drafting.middle(points, share), letter)
        out = outwards(points)
        for far in FAR:
            for share in SHARES:
                yield drafting.led_badge(drafting.middle(points, share), out, far, letter)
        for share in SHARES:
            yield drafting.led_badge(drafting.middle(points, share), (-out[0], -out[1]), FAR[1], letter)

    def _ticks(self, side: SeamSide) -> Iterator[Item]:
        """Strokes across the edge where a seam begins or ends that does not take all of it."""
        if side.whole:
            return
        edge = self.edges.get(side.edge)  # none of this name where it has runs of several, as a cap does
        runs = [edge.points] if edge is not None else [stretch.run.points for stretch in side.stretches]
        corners = {corner for run in runs for corner in (run[0], run[-1])}
        points = self.line(side.points)
        out = outwards(points)
        for end, (x, y) in ((side.points[0], points[0]), (side.points[-1], points[-1])):
            if end not in corners:
                yield drafting.tick((x, y), out, 12.0)


def _index(plan: Plan, piece: PiecePlan) -> int:
    return 1 + [one.name for one in plan.pieces].index(piece.name)


def _shaped(run: Run) -> Callable[[tuple[Point, Point]], bool]:
    """A function that says whether a stretch of a run is shaped: row ends that lie anywhere but straight above one
    another, and a neck that divides the piece."""
    return lambda pair: (run.meets == "row ends" or run.name == "neck") and pair[0][0] != pair[1][0]


def hundredths(points: Iterable[Px]) -> list[Px]:
    """``points`` rounded as ``numbers.rounded`` does."""
    return [(rounded(x), rounded(y)) for x, y in points]


def outwards(points: list[Px]) -> Px:
    """The unit vector away from the piece: to the right of its outline, which runs with the piece at the left."""
    (x0, y0), (x1, y1) = points[0], points[-1]
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
    return -(y1 - y0) / long, (x1 - x0) / long


def _stripes(plan: Plan, piece: PiecePlan) -> Iterator[tuple[str, list[Row]]]:
    """Rows of one colour that follow each other in a section, with their pale colour."""
    colours = {yarn.name: drafting.tinted(yarn.colour) for yarn in plan.pattern.yarns}
    for section in piece.sections:
        for name, rows in groupby(piece.section(section), key=lambda row: row.colour):
            yield (style.PLAIN_STRIPE if name is None else colours[name]), list(rows)


def _band(piece: PiecePlan, rows: list[Row]) -> list[Point]:
    """The corners of a stripe in the frame of the work."""
    sides: list[list[Point]] = []
    for side in edges.SIDES:
        points: list[Point] = []
        for row in rows:
            points += edges.row_side(piece, row, side)
        sides.append(points)
    return [*sides[0], *reversed(sides[1])]
