"""All pieces laid out as sewn: opened out flat, each seam by its letter on both edges that it joins.

In: a plan with seams. Out: a scene 1600 px wide. Where both edges of a seam lie on one another its letter stands once;
where they lie apart it stands on both, with ticks that match: one meets one, two meet two. Words find places clear of
one another: in their piece or, where that is too small, outside it with a thin line.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

from turnchain.drawing import assembly, drafting, legend
from turnchain.drawing.assembly import Set
from turnchain.drawing.clearance import Taken
from turnchain.drawing.drafting import INK, SOFT, Px
from turnchain.drawing.legend import MARGIN, WIDTH
from turnchain.drawing.to_scale import FAR, SHARES, Drawing, figure, outwards
from turnchain.fabric.plan import Plan
from turnchain.garment import body, dimensions, seams
from turnchain.garment.body import BodyMeasure
from turnchain.garment.edges import Point
from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.lettering.measuring import measure
from turnchain.scene import Group, Item, Path, Scene, Text, polyline
from turnchain.wording.tables import speech_of

TALLEST = 1200  # px for all that is laid out
LARGEST_SCALE = 22.0  # px to a cm
SIDES = 160  # px at both sides for what is written there
NAMES = (26.0, 20.0, 16.0)  # px of the em of the name of a piece, the largest for which there is room
ROOM = 5.0  # px between the name of a piece and an edge
NEAR = 45.0  # px between the middles of two edges that have one letter
UPRIGHT = math.cos(math.radians(10))  # a piece turned by more than that hangs otherwise when it is worn
TICK_AT, TICK_APART = 14.0, 6.0  # px from the end of a seam to its tick, and from tick to tick


def as_sewn(plan: Plan) -> Scene:
    """All pieces that seams join, as they meet or side by side. Raises ValueError for a plan without seams."""
    speech = speech_of(plan.pattern)
    items, top = legend.header(plan, speech.say("sewn"), speech.say("sewn.scale"))
    laid = _Layout(plan, top)
    items += laid.items()
    items.append(legend.scale_bar(speech, plan.pattern.units, laid.scale, laid.foot + 30))
    foot, height = legend.legend(plan, laid.foot + 100, ticks=any(not laid.together(seam) for seam in laid.seams))
    return legend.scene(plan, speech.say("sewn.title", title=plan.pattern.title), told(plan), [*items, *foot], height)


def told(plan: Plan) -> str:
    """The alt text of the same, without drawing it."""
    speech = speech_of(plan.pattern)
    sewn = " ".join(speech.say("schematic.seam", seam=said) for said in legend.seam_lines(plan))
    return speech.say("sewn.alt", title=plan.pattern.title, seams=sewn)


class _Layout:
    """The pieces on the page, from ``top`` px down to ``foot``, ``scale`` px to a cm."""

    def __init__(self, plan: Plan, top: float) -> None:
        self.plan, self.seams = plan, seams.of(plan)
        self.sets = assembly.laid(plan, self.seams)
        (left, low), (right, high) = assembly.box(self.sets)
        self.levels = _levels(plan, self.sets)
        wide, tall = right - left, high - low
        self.scale = min((WIDTH - 2 * MARGIN - 2 * SIDES) / wide, TALLEST / tall, LARGEST_SCALE)
        corner = ((WIDTH - wide * self.scale) / 2, top + 10)
        self.left, self.high, self.corner = left, high, corner
        self.foot = max([corner[1] + tall * self.scale, *(self.px((0.0, at))[1] for _, at, _ in self.levels)])
        self.drawings = {
            (one.piece.name, one.copy): Drawing(plan, one.piece, self.scale, corner, _shift(one, left, high))
            for one in self.sets
        }
        self.outlines = [[self.px(place) for place in one.outline] for one in self.sets]
        self.taken = Taken((), (20.0, top - 10, WIDTH - 20.0, self.foot + 24))

    def px(self, place: tuple[float, float]) -> Px:
        """Where a place of the layout (cm, y up) stands on the page."""
        right, down = place[0] - self.left, self.high - place[1]
        return self.corner[0] + right * self.scale, self.corner[1] + down * self.scale

    def items(self) -> Iterator[Item]:
        """Cloth first, then ticks, letters, the wearer's levels and names, each clear of those before it."""
        halves = [one for one in _fronts(self.plan, self.sets) if one is not self.sets[0]]
        for one, drawing, corners in zip(self.sets, self.drawings.values(), self.outlines, strict=True):
            if one in halves:  # nothing of the other half shows through
                yield Path(polyline(corners, closed=True), fill=drafting.PAPER)
            yield Group(tuple(drawing.cloth(chains_inside=True)), "", one.piece.name)
        for items in self._ticks():
            self.taken.add(items)
            yield from items
        yield from (item for items in self._letters() for item in items)
        for items in self._levels():
            self.taken.add(items)
            yield from items
        for drawing, corners in zip(self.drawings.values(), self.outlines, strict=True):
            items = self._name(drawing, corners)
            self.taken.add(items)
            yield from items

    # ------------------------------------------------------------------------------------------------------- seams

    def together(self, seam: PlannedSeam) -> bool:
        """Whether both edges of a seam lie on one another, to a row or half a pitch."""
        one, other = (self._line(side) for side in (seam.one, seam.other))
        gauge = seam.one.piece.gauge
        slack = float(max(gauge.row, gauge.half)) * self.scale
        return max(math.dist(one[0], other[-1]), math.dist(one[-1], other[0])) <= slack

    def _line(self, side: SeamSide) -> list[Px]:
        return self.drawings[side.piece.name, side.copy].line(side.points)

    def _ticks(self) -> Iterator[list[Item]]:
        """Where seams begin and end part of the way along an edge, and what meets where their edges lie apart."""
        for (_, copy), drawing in self.drawings.items():
            yield list(drawing.ticks(self.seams, copy))
        for seam in self.seams:
            if not self.together(seam):
                yield [*self._matched(seam.one, (1, 2)), *self._matched(seam.other, (2, 1))]

    def _matched(self, side: SeamSide, counts: tuple[int, int]) -> Iterator[Item]:
        """So many ticks near the start of a side and near its end."""
        points = self._line(side)
        long = math.fsum(math.dist(*pair) for pair in pairwise(points))
        if long < 4 * TICK_AT:
            return
        for count, way in zip(counts, (points, points[::-1]), strict=True):
            for nth in range(count):
                at = drafting.middle(way, (TICK_AT + nth * TICK_APART) / long)
                yield drafting.tick(at, outwards(points))

    def _letters(self) -> Iterator[list[Item]]:
        for seam in self.seams:
            yield self._letter(seam.one, seam.letter)
            # Edges that meet, but not end to end, lie near enough for one letter.
            middles = [drafting.middle(self._line(side)) for side in (seam.one, seam.other)]
            if not self.together(seam) and math.dist(*middles) >= NEAR:
                yield self._letter(seam.other, seam.letter)

    def _letter(self, side: SeamSide, letter: str) -> list[Item]:
        """The letter on an edge or, where it is crowded, outside it with a thin line."""
        drawing = self.drawings[side.piece.name, side.copy]
        return self.taken.first_clear(drawing.letter_places(side, letter))

    # ------------------------------------------------------------------------------------------------------- names

    def _name(self, drawing: Drawing, corners: list[Px]) -> list[Item]:
        """The name of a piece and the way it is worked, in it; the name outside where it finds no room."""
        for size in NAMES:
            for over in (Fraction(1, 2), Fraction(3, 10), Fraction(7, 10)):
                for share in (Fraction(part, 100) for part in (50, 40, 60, 30, 70, 20, 80)):
                    items = list(_named(drawing, share, over, size))
                    if self._within(items, corners) and self.taken.clear(items):
                        return items
        for size in NAMES:
            for over in (Fraction(1, 2), Fraction(1, 3), Fraction(2, 3)):
                for share in (Fraction(part, 20) for part in (10, 8, 12, 6, 14, 4, 16)):
                    items = list(_named(drawing, share, over, size, alone=True))
                    if self._within(items, corners) and self.taken.clear(items):
                        return items
        return self._outside(drawing)

    def _within(self, items: list[Item], corners: list[Px]) -> bool:
        """Whether words lie on the piece with those ``corners``, and other lines too."""
        return all(assembly.holds(corners, place) for item in items for place in _corners(item))

    def _outside(self, drawing: Drawing) -> list[Item]:
        """The name beside its piece, on no other, with a thin line."""
        said, size = drawing.piece.name, NAMES[-1]
        for far in FAR:
            for run in drawing.runs:
                points = drawing.line(run.points)
                for share in SHARES:
                    items = drafting.led(drafting.middle(points, share), outwards(points), far, said, size)
                    free = not any(assembly.holds(one, place) for one in self.outlines for place in _corners(items[0]))
                    if free and self.taken.clear(items):
                        return items
        return []

    # ---------------------------------------------------------------------------------------------- wearer's levels

    def _levels(self) -> Iterator[list[Item]]:
        """Each level of the wearer as a broken line across the front, and its words at the right or the left."""
        for name, at, measured in self.levels:
            xs = [x for one, corners in zip(self.sets, self.outlines, strict=True)
                  if one in _fronts(self.plan, self.sets) for x, _ in corners]  # fmt: skip
            y = self.px((0.0, at))[1]
            tries = [self._level(name, measured, y, *ends) for ends in self._ends(min(xs), max(xs))]
            yield next((items for items in tries if self.taken.clear(items[1:])), tries[0])

    def _ends(self, left: float, right: float) -> Iterator[tuple[float, float, float, bool]]:
        """Where a level begins and ends, and where its words stand: beside the front, or beside all that is laid."""
        every = [x for corners in self.outlines for x, _ in corners]
        yield left - 18, right + 18, right + 26, True
        yield left - 18, right + 18, left - 26, False
        yield left - 18, max(every) + 18, max(every) + 26, True
        yield min(every) - 18, right + 18, min(every) - 26, False

    def _level(
        self, name: str, measured: BodyMeasure, y: float, start: float, end: float, x: float, at_right: bool
    ) -> list[Item]:
        speech, anchor = speech_of(self.plan.pattern), "start" if at_right else "end"
        below = speech.say("schematic.nape", length=figure(self.plan.pattern, measured.middle))
        return [
            drafting.hair((start, y), (end, y), dash=(9.0, 6.0)),
            drafting.words((x, y - 3), speech.say(f"level.{name}"), 17, INK, "semibold", anchor),  # type: ignore[arg-type]
            drafting.words((x, y + 17), below, 15, SOFT, "regular", anchor),  # type: ignore[arg-type]
        ]


def _shift(one: Set, left: float, high: float) -> Callable[[Point], tuple[float, float]]:
    def shifted(point: Point) -> tuple[float, float]:
        x, y = one.at(point)
        return x - left, y - high

    return shifted


def _named(drawing: Drawing, share: Fraction, over: Fraction, size: float, alone: bool = False) -> Iterator[Item]:
    """The name at a place of a piece (0 to 1 of its height and its width) and, unless ``alone``, below it which way it
    is worked."""
    place = drawing.place(share, over)
    x, y = drawing.px(drawing.turn(place))
    if alone:
        yield drafting.words((x, y + 0.34 * size), drawing.piece.name, size, INK, "semibold", "middle")
        return
    ahead, here = drawing.turn((place[0], place[1] + 1)), drawing.turn(place)
    way = float(ahead[0] - here[0]), float(ahead[1] - here[1])
    up = 42 + drawing.lift(way) if abs(way[0]) > abs(way[1]) else 78
    yield drafting.words((x, y - up), drawing.piece.name, size, INK, "semibold", "middle")
    yield from drawing.direction(share, over)


def _corners(item: Item) -> list[Px]:
    """Places round the box of level words and a little room about them, or the places of a path."""
    if isinstance(item, Path):
        return [(float(step[-2]), float(step[-1])) for step in item.steps if len(step) > 2]
    if not isinstance(item, Text):
        return []
    wide = measure(item.words, item.size, item.weight) + 2 * ROOM
    left = item.x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor]
    top, low = item.y - 0.74 * item.size - ROOM / 2, item.y + 0.22 * item.size + ROOM / 2
    return [(left + wide * nth / 8, y) for y in (top, low) for nth in range(9)]


def _fronts(plan: Plan, sets: list[Set]) -> list[Set]:
    """What lies as the front: the first piece and, of a front that opens, its other half where it lies as upright."""
    halves = assembly.fronts(plan)
    if sets[0].piece not in halves:
        return sets[:1]
    others = [one for one in sets[1:] if one.piece in halves and not one.copy and math.cos(one.angle) > UPRIGHT]
    return [sets[0], *others]


def _levels(plan: Plan, sets: list[Set]) -> list[tuple[str, float, BodyMeasure]]:
    """Waist, hip and knee of the wearer, each with its y in cm of the layout; the first piece is the front, or half of
    it."""
    wearer = plan.pattern.wearer
    found: list[tuple[str, float, BodyMeasure]] = []
    if wearer is None or not sets or not assembly.fronts(plan):
        return []
    top = assembly.top(sets[0])
    for name in body.LEVELS:
        at = body.level(wearer, name)
        if at is not None:
            found.append((name, top - float(at.middle), at))
            if float(at.middle) > float(dimensions.body_length(sets[0].piece)):
                break  # one level below the edge is enough
    return found
