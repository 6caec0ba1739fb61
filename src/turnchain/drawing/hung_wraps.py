"""How a shawl is spread over shoulders and arms that are held out, and how a scarf hangs round the neck.

In: a plan. Out: ``Assembled`` of one of these, as ``hanging`` has it of tops. A shawl lies along the arms and hangs
straight down from them, so that its wings and its depth are seen as long as they are; a square is folded from corner
to corner. How a scarf narrows round the neck is from memory.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from turnchain.drawing import figure
from turnchain.drawing.figure import Cm
from turnchain.drawing.hanging import Assembled, Hung, Place
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import dimensions, edges
from turnchain.garment.dimensions import body_length, body_width

HELD_OUT = 1.3  # radians by which arms are held away from the body
SQUARE = 0.1  # by how much of its width the height of a square may be another
NARROW, FULL_BELOW = 0.40, 62.0  # how broad a scarf is at the neck, over its width; cm below it where it is as broad
THROAT = 0.24  # half the breadth of a neck, over a head's height


class Shawl(Assembled):
    """A shawl over the shoulders and the arms, seen spread."""

    facts, beside = "worn.shawl.facts", False
    fitted_to = ("neck_to_cuff",)
    body: figure.Figure

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan)
        self.piece = copies[0]
        self.body = figure.of(plan.pattern.wearer, HELD_OUT)
        self.levels = dict(self.body.levels.items())
        self.wide, self.high = float(body_width(self.piece)), float(body_length(self.piece))
        self.folded = self.piece.height > 0 and _is_square(self.piece, self.wide, self.high)
        self.turned = _narrows(self.piece)
        self.wing = (math.hypot(self.wide, self.high) if self.folded else self.wide) / 2
        self.deep = self.wide * self.high / math.hypot(self.wide, self.high) if self.folded else self.high
        self.half = max(self._along(self.wing)[0] + 2, figure.breadth(self.body))
        self.top, self.low = -1.2 * self.body.head, max(self.body.sole, self.deep + 3)

    @property
    def length(self) -> Fraction:
        """How deep it hangs down the back, in cm."""
        return Fraction(self.deep).limit_denominator(100)

    def _along(self, far: float) -> Cm:
        """The place so far from the nape along the shoulder and the arm at the right."""
        end, (x, y) = self.body.shoulders, self.body.shoulder_end
        if far <= end:
            return far * x / end, y * (far / end) ** 1.15
        out, down = math.sin(HELD_OUT), math.cos(HELD_OUT)
        return x + (far - end) * out, y + (far - end) * down

    def _place(self, across: float, down: float) -> Cm:
        if self.folded:  # about the middle, turned by half a right angle: the half above the fold lies behind
            diagonal = math.hypot(self.wide, self.high)
            aside, below = across / self.wide, down / self.high - 0.5
            across, down = (aside - below) * diagonal / 2, max(0.0, (aside + below) * self.deep)
        x, y = self._along(abs(across))
        return math.copysign(x, across), y + down

    def behind(self, view: str) -> Iterator[Hung]:
        if view == "front":
            yield Hung(self.piece, self._place, turned=self.turned)

    def hung(self, view: str) -> Iterator[Hung]:
        if view == "back":
            yield Hung(self.piece, self._place, self._is_seen, self.turned)

    def _is_seen(self, across: float, down: float) -> bool:
        return not self.folded or across / self.wide + down / self.high >= 0.5

    def lower(self, longer: Fraction) -> list[Cm]:
        y, reach = self.deep + float(longer), self.body.hip + 7
        return [(-reach, y), (reach, y)]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        say = self.speech.say
        yield "hem", say("worn.shawl", length=self.taped(self.deep), where=self.where(self.deep))
        if longer:
            other = self.deep + float(longer)
            yield "other", say("worn.other", length=self.taped(other), where=self.where(other))
        off = self.wing - self.body.shoulders - self.body.reach
        key = "worn.wings.beyond" if off >= 0 else "worn.wings.short"
        yield "wings", say(key, length=self.taped(self.wing), off=self.taped(abs(off)))


def _is_square(piece: PiecePlan, wide: float, high: float) -> bool:
    """Whether all its rows are as wide, and it is as high as wide."""
    first, last = piece.rows[0], piece.rows[-1]
    spans = [float((row.right.at - row.left.at) * piece.gauge.half) for row in (first, last)]
    return abs(spans[0] - spans[1]) < SQUARE * max(spans) and abs(wide - high) <= SQUARE * wide


def _narrows(piece: PiecePlan) -> bool:
    """Whether a piece worked upwards narrows to its last row: it is worn with its foundation at the top."""
    if piece.top is not None:
        return False
    first, last = (edges.width_at(piece, Fraction(number)) for number in (0, piece.row_count))
    return last[1] - last[0] < first[1] - first[0]


class Scarf(Assembled):
    """A scarf round the neck, both ends down in front."""

    facts = "worn.scarf.facts"
    fitted_to = ("neck_to_cuff", "bust")
    body: figure.Figure

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan)
        self.piece = copies[0]
        self.body = figure.of(plan.pattern.wearer)
        self.levels = dict(self.body.levels.items())
        (left, low), (right, high) = dimensions.box(self.piece)
        sides = float(right - left), float(high - low)
        self.lengthwise, self.long, self.wide = sides[1] >= sides[0], max(sides), min(sides)
        self.throat = THROAT * self.body.head
        self.collar = -0.10 * self.body.levels["waist"]  # where it lies at the nape, above it
        self.round = (self.throat + NARROW * self.wide / 2) * math.pi / 2  # from the middle of the back to the front
        self.full = max(1.0, min(FULL_BELOW, 0.8 * (self.long / 2 - self.round)))
        self.end = self.collar / 3 + self.long / 2 - self.round
        self.half = max(self.throat + self.wide, figure.breadth(self.body))
        self.top, self.low = -1.2 * self.body.head, max(self.body.sole, self.end + 3)

    @property
    def length(self) -> Fraction:
        return max(body_length(self.piece), body_width(self.piece))

    def _at(self, across: float, down: float) -> Cm:
        """How far along it from its middle, and how far out from its inner edge."""
        return (down - self.long / 2, across + self.wide / 2) if self.lengthwise else (across, down)

    def hung(self, view: str) -> Iterator[Hung]:
        if view == "back":
            yield Hung(self.piece, self._round_neck, self._is_round)
            return
        for side in (-1.0, 1.0):
            yield Hung(self.piece, self._down(side), self._is_down(side))

    def _is_round(self, across: float, down: float) -> bool:
        return abs(self._at(across, down)[0]) <= self.round

    def _round_neck(self, across: float, down: float) -> Cm:
        along, off = self._at(across, down)
        turn = min(1.0, max(-1.0, along / self.round)) * math.pi / 2
        out = NARROW * off
        return (self.throat + out) * math.sin(turn), self.collar + 0.25 * out + (0.75 * out) * math.cos(turn)

    def _is_down(self, side: float) -> Callable[[float, float], bool]:
        return lambda across, down: side * self._at(across, down)[0] >= self.round

    def _down(self, side: float) -> Place:
        def place(across: float, down: float) -> Cm:
            along, off = self._at(across, down)
            far = max(0.0, side * along - self.round)
            share = min(1.0, far / self.full)
            broad = NARROW + (1 - NARROW) * share * share * (3 - 2 * share)
            inner = self.throat * (1 - 0.7 * share)
            droop = (self.collar / 3 + 0.25 * NARROW * off) * (1 - share) + self.collar / 3 * share
            return side * (inner + broad * off), far + droop

        return place

    def lower(self, longer: Fraction) -> list[Cm]:
        y, reach = self.end + float(longer) / 2, self.throat + self.wide + 3
        return [(-reach, y), (reach, y)]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        yield "hem", self._ends("worn.scarf", self.end)
        if longer:
            yield "other", self._ends("worn.scarf.other", self.end + float(longer) / 2)

    def _ends(self, key: str, y: float) -> str:
        return self.speech.say(key, length=self.taped(y), where=self.where(y))
