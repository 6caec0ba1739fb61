"""The garment put together on a plain figure, from the front and from the back.

In: a plan with a front (or two that open) and a back, with sleeves or without, and perhaps by how much longer it might
be. Out: a scene with the wearer's waist, hip and knee and where hem, neck and cuffs fall. Cloth hangs: its length down
the middle is that of the worked rows, and across it turns away at the sides, where it goes round the body.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise

import numpy as np

from turnchain import style
from turnchain.drawing import figure, heading, key
from turnchain.drawing.cloth import shades
from turnchain.drawing.colours import Colours
from turnchain.drawing.figure import Cm
from turnchain.drawing.looks import Look
from turnchain.drawing.strands import Px, smooth
from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.garment import dimensions, edges, roles, sleeves
from turnchain.garment.dimensions import body_length, body_width
from turnchain.lettering.measuring import wrapped
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Fits, Group, Item, Path, Scene, Step, Text, Weight, line, polyline
from turnchain.wording.tables import language_of, speech_of

TALL = 1250.0  # px of the figure at the reference width
VIEWS = (0.29, 0.71)  # where the two figures stand, of the width
OVER = 1.15  # how far cloth lies from the middle of the arm, over half the arm's breadth
ROUND = 1.10  # half the breadth of hanging cloth, over that of a circle as long round
UNDER = 4.0  # cm by which the top of a cap reaches under the end of the shoulder
SKIN, LINE = "#f4f1ea", "#837a6f"
PARTS, ACROSS = 6, 24  # straight lines along a part of an outline, and along a row
#: A cluster about the head of its middle: half pitches to the right, rows up.
CLUSTER = (
    (-0.3, -1.12), (-0.62, -0.7), (-0.86, -0.2), (-0.66, 0.02), (-0.22, 0.1),
    (0.22, 0.1), (0.66, 0.02), (0.86, -0.2), (0.62, -0.7), (0.3, -1.12),
)  # fmt: skip
SIZE = 21.0  # px of the em of the words


@frozen
class _Hung:
    """A ``piece`` as it hangs: ``place`` takes (cm from its middle as worn, cm down from its top) to cm of the
    figure."""

    piece: PiecePlan
    place: Callable[[float, float], Cm]


def worn(
    plan: Plan, width: int = style.REFERENCE_WIDTH, look: Look | None = None, longer: Fraction = Fraction(0),
    fits: Fits | None = None,
) -> Scene:
    """The garment on the figure of its wearer, ``width`` px wide; ``longer``: by so many cm (below 0: shorter) a second
    hem is shown. ``fits`` is asked before anything is drawn. Raises MakerError where there is no front or no back, or
    nothing would be left."""
    look, garment = look or Look(), _Garment(plan)
    if garment.length + longer <= 0:
        raise MakerError("so much shorter, nothing is left of the garment")
    unit = width / style.REFERENCE_WIDTH
    speech = speech_of(plan.pattern)
    named = heading.PictureHeading(plan.pattern.title, speech.say("worn"), speech.say("worn.facts"))
    head, top = heading.of_page(named, width, look.theme, 48.0)
    scale = TALL * unit / (garment.body.sole + 1.75 * garment.body.head)
    ground = top + 1.7 * garment.body.head * scale
    foot = ground + garment.body.sole * scale + 50 * unit
    if fits is not None:
        fits(width, foot)
    page = _Page(garment, look, scale, unit, ground)
    items = [*head]
    for share, view in zip(VIEWS, ("front", "back"), strict=True):
        items.append(Group(tuple(page.view(view, share * width)), f"worn-{view}", speech.say(f"worn.{view}")))
    items += page.levels(width)
    items += page.falls(width, longer)
    for said in (*garment.remarks(), key.credit(plan.pattern)):
        for words in wrapped(said, width - 96 * unit, 18 * unit):
            foot += 24 * unit
            items.append(Text(rounded(48 * unit), rounded(foot), words, rounded(18 * unit), look.theme.soft))
    title = speech.say("worn.title", title=plan.pattern.title)
    return Scene(
        width, round(foot + 30 * unit), title, told(plan, longer), language_of(plan.pattern).tag, {}, tuple(items),
        look.background,
    )  # fmt: skip


def told(plan: Plan, longer: Fraction = Fraction(0)) -> str:
    """The alt text of the same, without drawing it."""
    garment, speech = _Garment(plan), speech_of(plan.pattern)
    said = [words for _, words in garment.said(longer)]
    return " ".join((speech.say("worn.alt", title=plan.pattern.title), *(f"{words}." for words in said)))


class _Garment:
    """The pieces of a garment on the figure of its wearer."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.body = plan, figure.of(plan.pattern.wearer)
        pair = roles.front_and_back(plan)
        fronts, backs = roles.of_role(plan, "front"), roles.of_role(plan, "back")
        if pair is not None:
            self.fronts, self.back = [pair[0]], pair[1]
        elif len(fronts) == 2 and len(backs) == 1:
            self.fronts, self.back = fronts, backs[0]
        else:
            raise MakerError(
                "a garment is shown on a figure when it has one front, or two that open, and one back; name the pieces "
                'so, such as "left front", "right front" and "back"'
            )
        self.sleeve = next(iter(roles.of_role(plan, "sleeve")), None)
        around = sum((body_width(one) for one in self.fronts), body_width(self.back))
        self.half = float(around) / math.tau * ROUND
        self.beyond = max(_shoulder_ends(self.back)) - self.body.shoulders

    @property
    def length(self) -> Fraction:
        """From the highest point of the shoulder to the lower edge of the front, in cm."""
        return body_length(self.fronts[0])

    # ----------------------------------------------------------------------------------------------- as it hangs

    def hung(self, view: str) -> Iterator[_Hung]:
        """The pieces that are seen from the front or the back, sleeves first."""
        seen = list(self._seen(view))
        if self.sleeve is not None:
            for arm in (-1, 1):
                end = max(arm * (x + middle) for piece, _, middle in seen for x in _shoulder_ends(piece))
                yield _Hung(self.sleeve, self._on_arm(self.sleeve, arm, end - self.body.shoulders))
        for piece, half, middle in seen:
            yield _Hung(piece, self._on_trunk(half, middle))

    def _seen(self, view: str) -> Iterator[tuple[PiecePlan, float, float]]:
        """The pieces of the trunk with half the width of the whole, and where the middle of each lies across it."""
        if view == "back" or len(self.fronts) == 1:
            piece = self.back if view == "back" else self.fronts[0]
            yield piece, float(body_width(piece)) / 2, 0.0
            return
        half = float(body_width(self.back)) / 2
        # The wearer's left is at the right of the picture; the outer edges lie at the sides of the back.
        for side, front in zip((1.0, -1.0), self._left_and_right(), strict=True):
            yield front, half, side * (half - float(body_width(front)) / 2)

    def _left_and_right(self) -> list[PiecePlan]:
        """Two fronts, the wearer's left one first: by their names, else in their order."""
        one, other = self.fronts
        swapped = "right" in one.name.casefold() or "left" in other.name.casefold()
        return [other, one] if swapped else [one, other]

    def _on_trunk(self, half: float, middle: float) -> Callable[[float, float], Cm]:
        """Where cloth ``half`` cm to either side of the body's middle lies; a piece has its own at ``middle``."""
        figured, under = self.body, self.body.armhole
        end = figured.shoulders

        def place(across: float, down: float) -> Cm:
            u = across + middle
            off, sign = abs(u), math.copysign(1.0, u)
            beyond = max(0.0, off - end)
            x0, droop = self._outer(off - end)
            breadth = max(self.half, figured.half_at(max(down, under)) + 0.6)
            hung = breadth * math.sin(min(1.0, off / half) * math.pi / 2)
            share = min(1.0, down / (under + 0.4 * beyond))
            eased = share * share * (3 - 2 * share)
            return sign * (x0 + (hung - x0) * eased), down + droop * (1 - eased)

        return place

    def _on_arm(self, sleeve: PiecePlan, side: int, beyond: float) -> Callable[[float, float], Cm]:
        """Where the cloth of a sleeve lies on the arm at the right (1) or the left (-1); its fold lies outwards,
        and its head so far beyond the end of the body's shoulder."""
        figured, along = self.body, float(body_length(sleeve))
        half, head = float(body_width(sleeve)) / 2, _Head(sleeve)
        sine, cosine = math.sin(figure.ARM_LEAN), math.cos(figure.ARM_LEAN)

        def place(across: float, down: float) -> Cm:
            off = max(0.0, across * side)  # the other half lies behind, from the fold on
            round_arm = max(half / math.pi * 1.25 * (1 - 0.3 * down / along), OVER * figured.arm)
            inner = head.inner(down, 2 * round_arm)
            under = inner / 2 * (1 - math.cos(min(1.0, off / head.half(down, half)) * math.pi))
            x, y = self._outer(beyond + down)
            return side * (x - under * cosine), y + under * sine

        return place

    def _outer(self, far: float) -> Cm:
        """Where cloth lies on the outside, so far from the end of the shoulder: down the arm at the right or, below 0,
        on the shoulder."""
        x, y = self.body.along_arm(max(0.0, far), OVER * self.body.arm)
        on_shoulder = 1 + min(0.0, far) / self.body.shoulders
        return x * on_shoulder, y * on_shoulder**1.15

    # ------------------------------------------------------------------------------------------------------ in words

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        """What falls where, each with its name: hem, second hem, neck, cuffs."""
        speech, unit = speech_of(self.plan.pattern), self.plan.pattern.units
        yield "hem", speech.say("worn.hem", length=speech.taped(self.length, unit), where=self.where(self.length))
        if longer:
            other = self.length + longer
            yield "other", speech.say("worn.other", length=speech.taped(other, unit), where=self.where(other))
        deep = dimensions.measure(self.fronts[0], "neck depth")
        if deep:
            yield "neck", speech.say("worn.neck", length=speech.taped(deep, unit))
        if self.sleeve is not None:
            reach = Fraction(self.beyond).limit_denominator(100) + body_length(self.sleeve)
            yield "cuff", speech.say("worn.cuff", length=speech.taped(reach, unit))

    def where(self, length: Fraction) -> str:
        """A height below the nape in words, by the nearest of waist, hip and knee."""
        speech, unit = speech_of(self.plan.pattern), self.plan.pattern.units
        name, at = min(self.body.levels.items(), key=lambda one: abs(one[1] - float(length)))
        off = length - Fraction(at).limit_denominator(100)
        way = "worn.below" if off >= 0 else "worn.above"
        return speech.say(way, length=speech.taped(abs(off), unit), level=speech.say(f"worn.level.{name}"))

    def remarks(self) -> Iterator[str]:
        """What was assumed of the body."""
        if self.body.assumed:
            table, size = self.body.assumed
            yield speech_of(self.plan.pattern).say(f"worn.assumed.{table}", size=size)


def _shoulder_ends(piece: PiecePlan) -> list[float]:
    """Where shoulders begin and end, in cm across from the middle of a piece as worn."""
    found, turn = edges.of(piece), edges.worn(piece)
    top = next(found[name] for name in ("shoulder", "upper", "last") if name in found)
    (left, _), (right, _) = dimensions.box(piece)
    return [float(turn(point)[0] - (left + right) / 2) for point in top.points]


class _Head:
    """The head of a sleeve, which lies under the edge of the armhole; of a sleeve without a cap nothing."""

    def __init__(self, sleeve: PiecePlan) -> None:
        self.high = float(sleeves.cap_height(sleeve))
        top, gauge = sleeve.height, sleeve.gauge
        rows = [row for row in reversed(sleeve.rows) if float(top - sleeve.up(row.number)) < self.high]
        self.downs = [float(top - sleeve.up(row.number)) for row in rows]
        self.halves = [float((row.right.at - row.left.at) * gauge.half) / 2 for row in rows]

    def half(self, down: float, below: float) -> float:
        """Half the width so far down from its top; ``below`` it where the cap has ended."""
        return float(np.interp(down, self.downs, self.halves)) if self._holds(down) else below

    def inner(self, down: float, below: float) -> float:
        """How far inwards from the outside of the arm its edge lies, in cm: under the body's cloth."""
        if not self._holds(down):
            return below
        least = min(UNDER, below)
        return least + (below - least) * max(0.0, down) / self.high

    def _holds(self, down: float) -> bool:
        return bool(self.downs) and down <= self.high + 1e-6


class _Page:
    """Draws a garment at ``scale`` px to a cm, the nape ``ground`` px down."""

    def __init__(self, garment: _Garment, look: Look, scale: float, unit: float, ground: float) -> None:
        self.garment, self.look, self.scale, self.unit, self.ground = garment, look, scale, unit, ground
        self.colours = Colours(garment.plan.pattern, look.inks, garment.plan.pieces)

    def px(self, middle: float, place: Cm) -> Px:
        return rounded(middle + place[0] * self.scale), rounded(self.ground + place[1] * self.scale)

    def view(self, view: str, middle: float) -> Iterator[Item]:
        """The figure, and over it the cloth of one side."""
        outline = smooth([self.px(middle, place) for place in self.garment.body.outline()])
        yield Path(tuple(outline), fill=SKIN, stroke=LINE, width=rounded(2.2 * self.unit))
        said = speech_of(self.garment.plan.pattern).say(f"worn.{view}")
        y = self.px(0.0, (0.0, self.garment.body.sole))[1] + 1.6 * SIZE * self.unit
        yield self._words(middle, y, said, self.look.theme.soft)
        for hung in self.garment.hung(view):
            yield from self._cloth(hung, middle)

    def _cloth(self, hung: _Hung, middle: float) -> Iterator[Item]:
        """Row by row the ground and its clusters, and a line round the piece."""
        turned = hung.piece is self.garment.sleeve and sleeves.top_name(hung.piece) == "first"
        drawn = _Drawn(hung, lambda place: self.px(middle, place), turned)
        for row in hung.piece.rows:
            ground = shades(self.colours.of(row)).ground
            yield Path(drawn.band(row), fill=ground, stroke=ground, width=rounded(0.8 * self.unit))
        for row in hung.piece.rows:
            inks = shades(self.colours.of(row))
            yield Path(drawn.clusters(row), fill=inks.body, stroke=inks.edge, width=rounded(0.7 * self.unit))
        yield Path(drawn.edge(), stroke=LINE, width=rounded(1.4 * self.unit))

    # ------------------------------------------------------------------------------------------------------- levels

    def _words(self, x: float, y: float, said: str, colour: str, weight: Weight = "regular") -> Text:
        return Text(rounded(x), rounded(y), said, rounded(SIZE * self.unit), colour, weight, "middle")

    def levels(self, width: int) -> Iterator[Item]:
        """Waist, hip and knee: a broken line across each figure, and the name between the two."""
        speech = speech_of(self.garment.plan.pattern)
        reach = (self.garment.body.hip + 7) * self.scale
        for name, at in self.garment.body.levels.items():
            y = self.ground + at * self.scale
            for share in VIEWS:
                steps = line(rounded(share * width - reach), rounded(y), rounded(share * width + reach), rounded(y))
                dash = (rounded(7 * self.unit), rounded(6 * self.unit))
                yield Path(steps, stroke=LINE, width=rounded(1.2 * self.unit), cap="butt", dash=dash)
            said = speech.say(f"worn.level.{name}")
            yield self._words(width / 2, y + 0.34 * SIZE * self.unit, said, self.look.theme.soft)

    def falls(self, width: int, longer: Fraction) -> Iterator[Item]:
        """Where the hem falls, and a second one in the accent, with words at the left; all that falls, at the right."""
        accent, unit = self.look.theme.accent, self.unit
        reach = (max(self.garment.half, self.garment.body.hip) + 3) * self.scale
        hems = [(self.garment.length, self.look.theme.ink)]
        hems += [(self.garment.length + longer, accent)] if longer else []
        for length, colour in hems:
            y = self.ground + float(length) * self.scale
            for nth, share in enumerate(VIEWS):
                steps = line(rounded(share * width - reach), rounded(y), rounded(share * width + reach), rounded(y))
                rule = Path(steps, stroke=colour, width=rounded(2 * unit), cap="butt")
                yield Group((rule,), f"hem-{nth}-{colour[1:]}")
        theme = self.look.theme
        colours = {"hem": theme.ink, "other": accent}
        top = self.ground - 0.9 * self.garment.body.head * self.scale
        for name, said in self.garment.said(longer):
            for words in wrapped(said, 0.2 * width, SIZE * unit, "semibold"):
                weight: Weight = "semibold" if name in colours else "regular"
                yield self._words(width / 2, top, words, colours.get(name, theme.soft), weight)
                top += 1.3 * SIZE * unit
            top += 0.4 * SIZE * unit


class _Drawn:
    """The cloth of a piece through its hanging, its top at the top or, ``turned``, at its foundation."""

    def __init__(self, hung: _Hung, px: Callable[[Cm], Px], turned: bool) -> None:
        self.piece, self.place, self.px, self.turned = hung.piece, hung.place, px, turned
        self.turn = edges.worn(self.piece)
        (left, low), (right, high) = dimensions.box(self.piece)
        self.middle, self.top, self.low = float(left + right) / 2, float(high), float(low)

    def at(self, position: float, height: float) -> Px:
        """Where a place of the work (half pitches, rows) lies on the page."""
        gauge = self.piece.gauge
        x, y = self.turn((Fraction(position) * gauge.half, Fraction(height) * gauge.row))
        down = float(y) - self.low if self.turned else self.top - float(y)
        return self.px(self.place(float(x) - self.middle, down))

    def _outline(self, places: list[tuple[float, float]]) -> tuple[Step, ...]:
        return polyline([self.at(*place) for place in places], closed=True)

    def band(self, row: Row) -> tuple[Step, ...]:
        """The ground of a row."""
        under = self.piece.below(row)
        feet = [row.edge(side).at if under is None or row.edge(side).step else under.edge(side).at for side in SIDES]
        low, high = self.piece.level(row.number - 1), self.piece.level(row.number)
        ends = (feet, low), ([row.right.at, row.left.at], high)
        return self._outline([
            (one + (other - one) * nth / ACROSS, float(height)) for (one, other), height in ends
            for nth in range(ACROSS + 1)
        ])  # fmt: skip

    def clusters(self, row: Row) -> tuple[Step, ...]:
        """All clusters of a row: narrow at the foot, round at the head."""
        steps: list[Step] = []
        top, tall = float(self.piece.level(row.number)), float(row.height)
        for centre in () if row.solid else row.centres:
            steps += self._outline([(centre + x, top + max(y * tall, -top)) for x, y in CLUSTER])
        return tuple(steps)

    def edge(self) -> tuple[Step, ...]:
        """The outline of the piece."""
        gauge = self.piece.gauge
        return self._outline([
            (float((x0 + (x1 - x0) * Fraction(nth, PARTS)) / gauge.half),
             float((y0 + (y1 - y0) * Fraction(nth, PARTS)) / gauge.row))
            for run in edges.around(self.piece) for (x0, y0), (x1, y1) in pairwise(run.points) for nth in range(PARTS)
        ])  # fmt: skip
