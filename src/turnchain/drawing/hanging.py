"""How the cloth of a garment hangs on a figure: of a top with front and back, with sleeves or without.

In: a plan. Out: ``Assembled``: what is seen from the front and from the back, where every place of a piece lies, what
falls where. Cloth hangs: its length down the middle is that of the worked rows, and across it turns away at the sides,
where it goes round the body. Skirts, hats, cowls, bags and cushions are in ``hung_forms``.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache

from turnchain.drawing import figure
from turnchain.drawing.figure import Cm
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import dimensions, edges, roles, sleeves
from turnchain.garment.body import known
from turnchain.garment.dimensions import body_length, body_width
from turnchain.garment.roles import Trunk
from turnchain.garment.stretches import named
from turnchain.records import frozen
from turnchain.wording.tables import speech_of

OVER = 1.15  # how far cloth lies from the middle of the arm, over half the arm's breadth
ROUND = 1.10  # half the breadth of hanging cloth, over that of a circle as long round
UNDER = 4.0  # cm by which the top of a cap reaches under the end of the shoulder
FALLS_OPEN = 0.34  # how far half an open front falls back at the hem, over half the breadth of the cloth
NEAR = 0.5  # cm: as near to a level is at it

#: Takes (cm across from the middle of a piece as worn, cm down from its top) to cm of the figure.
Place = Callable[[float, float], Cm]


def _all(across: float, down: float) -> bool:
    return True


@frozen
class Hung:
    """A ``piece`` as it hangs, by its ``place``; ``seen``: whether what is at such a place (as ``place`` takes it) is
    at this side. ``turned``: its foundation is at the top."""

    piece: PiecePlan
    place: Place
    seen: Callable[[float, float], bool] = _all
    turned: bool = False


class Assembled(ABC):
    """What is shown of a ``plan``: from ``top`` to ``low`` cm (y down), half of it ``half`` cm broad at its lower edge
    and nowhere more than ``half`` or ``broad``; ``levels`` of the body by their names. Of the figure nothing is drawn
    below ``cut`` cm. ``fitted_to``: the measures of the body of which one must be known for a figure of the wearer's
    own; none where nobody wears it. ``beside``: its words have room between the two views."""

    title, facts, alt = "worn", "worn.facts", "worn.alt"
    fitted_to: tuple[str, ...] = ()
    beside = True
    body: figure.Figure | None
    top: float
    low: float
    half: float
    broad: float = 0.0
    cut: float | None = None

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.speech = speech_of(plan.pattern)
        self.levels: dict[str, float] = {}

    def behind(self, view: str) -> Iterator[Hung]:
        """Pieces whose inner side is seen behind the body."""
        return iter(())

    @abstractmethod
    def hung(self, view: str) -> Iterator[Hung]:
        """The pieces that are seen from the "front" or the "back", the lowest layer first."""

    @abstractmethod
    def lower(self, longer: Fraction) -> list[Cm]:
        """Where the lower edge falls, or would if it were so many cm ``longer``: the places of a line."""

    @abstractmethod
    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        """What falls where, each with its name; "hem" and "other" are those of the lines."""

    @property
    @abstractmethod
    def length(self) -> Fraction:
        """What ``longer`` is added to, in cm."""

    def taped(self, cm: Fraction | float) -> str:
        """A length in the file's unit, as a tape is read."""
        return self.speech.taped(Fraction(cm).limit_denominator(100), self.plan.pattern.units)

    def where(self, y: float) -> str:
        """A height of the figure in words, by the nearest of waist, hip and knee."""
        assert self.body is not None, "what lies flat has no such heights"
        name, at = min(self.body.levels.items(), key=lambda one: abs(one[1] - y))
        level = self.speech.say(f"worn.level.{name}")
        if abs(y - at) < NEAR:
            return self.speech.say("worn.at", level=level)
        return self.speech.say("worn.below" if y > at else "worn.above", length=self.taped(abs(y - at)), level=level)

    def remarks(self) -> Iterator[str]:
        """What was assumed of the body."""
        if self.body is not None and self.body.assumed:
            table, size = self.body.assumed
            yield self.speech.say(f"worn.assumed.{table}", size=size)


class Top(Assembled):
    """A garment with front and back on the figure of its wearer."""

    fitted_to = ("bust",)
    body: figure.Figure

    def __init__(self, plan: Plan, trunk: Trunk) -> None:
        super().__init__(plan)
        self.body, self.trunk = figure.of(plan.pattern.wearer), trunk
        self.levels = dict(self.body.levels.items())
        self.fronts, self.back = trunk.fronts, trunk.back[0]
        self.sleeve = next(iter(roles.of_role(plan, "sleeve")), None)
        self.around = sum((body_width(one) for one in self.fronts), body_width(self.back))
        self.half = float(self.around) / math.tau * ROUND
        self.beyond = max(_shoulder_ends(self.back)) - self.body.shoulders
        self.top, self.low = -1.2 * self.body.head, self.body.sole

    @property
    def length(self) -> Fraction:
        """From the highest point of the shoulder to the lower edge of the front, in cm."""
        return body_length(self.fronts[0])

    # ----------------------------------------------------------------------------------------------- as it hangs

    def behind(self, view: str) -> Iterator[Hung]:
        if view == "front":
            yield Hung(self.back, self._on_trunk(float(body_width(self.back)) / 2, 0.0))

    def hung(self, view: str) -> Iterator[Hung]:
        seen = list(self._seen(view))
        if self.sleeve is not None:
            turned = sleeves.top_name(self.sleeve) == "first"
            for arm in (-1, 1):
                end = max(arm * (x + middle) for piece, _, middle in seen for x in _shoulder_ends(piece))
                place = self._on_arm(self.sleeve, arm, end - self.body.shoulders)
                yield Hung(self.sleeve, place, turned=turned)
        for piece, half, middle in seen:
            place = self._on_trunk(half, middle)
            opens = self.trunk.open and view == "front"
            yield Hung(piece, self._falling_open(place, 1.0 if middle > 0 else -1.0) if opens else place)

    def _seen(self, view: str) -> Iterator[tuple[PiecePlan, float, float]]:
        """The pieces of the trunk with half the width of the whole, and where the middle of each lies across it."""
        if view == "back" or not self.trunk.open:
            piece = self.back if view == "back" else self.fronts[0]
            yield piece, float(body_width(piece)) / 2, 0.0
            return
        half = float(body_width(self.back)) / 2
        # The wearer's left is at the right of the picture; the outer edges lie at the sides of the back.
        for side, front in zip((1.0, -1.0), self.fronts, strict=True):
            yield front, half, side * (half - float(body_width(front)) / 2)

    def _falling_open(self, place: Place, side: float) -> Place:
        """Half a front at the right (1) or the left falls back below the neck, and at the side stays where it is."""
        deep = float(dimensions.measure(self.fronts[0], "neck depth") or _neck_depth(self.fronts[0]))
        long = float(self.length)

        def opened(across: float, down: float) -> Cm:
            x, y = place(across, down)
            share = min(1.0, max(0.0, (down - 0.5 * deep) / max(1.0, long - 0.5 * deep)))
            fallen = FALLS_OPEN * self.half * share**0.75
            return x + side * fallen * max(0.0, 1 - side * x / self.half), y

        return opened

    def _on_trunk(self, half: float, middle: float) -> Place:
        """Where cloth ``half`` cm to either side of the body's middle lies; a piece has its own at ``middle``."""
        figured, under = self.body, self.body.armhole
        end = figured.shoulders

        # clusters of all rows share their places across, and those of a row their heights
        @cache
        def sideways(across: float) -> tuple[float, float, float, float, float]:
            u = across + middle
            off, sign = abs(u), math.copysign(1.0, u)
            beyond = max(0.0, off - end)
            return sign, math.sin(min(1.0, off / half) * math.pi / 2), under + 0.4 * beyond, *self._outer(off - end)

        @cache
        def breadth(down: float) -> float:
            return max(self.half, figured.half_at(max(down, under)) + 0.6)

        def place(across: float, down: float) -> Cm:
            sign, turned, far, x0, droop = sideways(across)
            share = min(1.0, down / far)
            eased = share * share * (3 - 2 * share)
            return sign * (x0 + (breadth(down) * turned - x0) * eased), down + droop * (1 - eased)

        return place

    def _on_arm(self, sleeve: PiecePlan, side: int, beyond: float) -> Place:
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

    def lower(self, longer: Fraction) -> list[Cm]:
        y = float(self.length + longer)
        reach = max(self.half, self.body.hip) + 3
        return [(-reach, y), (reach, y)]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        """Hem, second hem, neck, how an open front closes, cuffs."""
        say = self.speech.say
        yield "hem", say("worn.hem", length=self.taped(self.length), where=self.where(float(self.length)))
        if longer:
            other = self.length + longer
            yield "other", say("worn.other", length=self.taped(other), where=self.where(float(other)))
        deep = dimensions.measure(self.fronts[0], "neck depth")
        deep = _neck_depth(self.fronts[0]) if deep is None else deep
        if deep:
            yield "neck", say("worn.neck", length=self.taped(deep))
        if self.trunk.open:
            yield "opens", self._closes()
        if self.sleeve is not None and (far := self.beyond + float(body_length(self.sleeve))) > 0:
            yield "cuff", say("worn.cuff", length=self.taped(far))
        yield from self._ease()

    def _closes(self) -> str:
        """By how much the edges of an open front lie over one another when it is closed."""
        over = sum(map(body_width, self.fronts), -body_width(self.back))
        if abs(over) < NEAR:
            return self.speech.say("worn.opens.meet")
        return self.speech.say("worn.opens.over" if over > 0 else "worn.opens.apart", length=self.taped(abs(over)))

    def _ease(self) -> Iterator[tuple[str, str]]:
        """How much wider it is than the body where that is known."""
        bust = known(self.plan.pattern.wearer, "bust")
        if bust is None:
            return
        over = max(Fraction(0), sum(map(body_width, self.fronts), -body_width(self.back))) if self.trunk.open else 0
        wide = self.around - over
        ease = wide - bust.middle
        key = "worn.ease.wider" if ease >= 0 else "worn.ease.narrower"
        yield "ease", self.speech.say(key, length=self.taped(wide), ease=self.taped(abs(ease)))


def _neck_depth(front: PiecePlan) -> Fraction:
    """How far down the neck of half a front that opens reaches; 0 without one."""
    found = None if front.opens is None else named(front, front.opens).get("neck")
    return Fraction(0) if found is None else front.height - min(y for _, y in found.points)


def _shoulder_ends(piece: PiecePlan) -> list[float]:
    """Where shoulders begin and end, in cm across from the middle of a piece as worn."""
    found, turn = edges.of(piece), edges.worn(piece)
    top = next(found[name] for name in ("shoulder", "upper", "last") if name in found)
    (left, _), (right, _) = dimensions.box(piece)
    return [float(turn(point)[0] - (left + right) / 2) for point in top.points]


def _sideways_head(sleeve: PiecePlan) -> list[tuple[float, float]]:
    """How far down from its top, and half how wide, the cap of a sleeve worked sideways is, in cm."""
    far = [row.right.at - row.left.at for row in sleeve.rows]
    return [
        (float((max(far) - at) * sleeve.gauge.half), float(sum(one >= at for one in far) * sleeve.gauge.row) / 2)
        for at in range(max(far), far[0], -1)
    ]


class _Head:
    """The head of a sleeve, which lies under the edge of the armhole; of a sleeve without a cap nothing."""

    def __init__(self, sleeve: PiecePlan) -> None:
        self.high = float(sleeves.cap_height(sleeve))
        top, gauge = sleeve.height, sleeve.gauge
        if sleeve.top is not None:
            levels = _sideways_head(sleeve) if self.high else []
            self.downs, self.halves = [down for down, _ in levels], [half for _, half in levels]
            return
        rows = [row for row in reversed(sleeve.rows) if float(top - sleeve.up(row.number)) < self.high]
        self.downs = [float(top - sleeve.up(row.number)) for row in rows]
        self.halves = [float((row.right.at - row.left.at) * gauge.half) / 2 for row in rows]

    def half(self, down: float, below: float) -> float:
        """Half the width so far down from its top; ``below`` it where the cap has ended."""
        return figure.between(down, self.downs, self.halves) if self._holds(down) else below

    def inner(self, down: float, below: float) -> float:
        """How far inwards from the outside of the arm its edge lies, in cm: under the body's cloth."""
        if not self._holds(down):
            return below
        least = min(UNDER, below)
        return least + (below - least) * max(0.0, down) / self.high

    def _holds(self, down: float) -> bool:
        return bool(self.downs) and down <= self.high + 1e-6
