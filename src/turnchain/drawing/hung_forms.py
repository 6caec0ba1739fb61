"""How skirts hang from the waist, hats sit on a head, cowls lie round a neck; bags and cushions as they are finished.

In: a plan. Out: ``Assembled`` of one of these, as ``hanging`` has it of tops. What goes round the body is seen half
from the front and half from the back. How cloth gives at the brim of a hat or folds on the shoulders is from memory.
"""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise
from typing import Final

from turnchain.drawing import figure
from turnchain.drawing.figure import Cm
from turnchain.drawing.hanging import ROUND, Assembled, Hung, Place, Top
from turnchain.drawing.hung_wraps import Scarf, Shawl
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import dimensions, edges, roles
from turnchain.garment.body import known
from turnchain.garment.dimensions import body_length, body_width

BROW = 0.42  # of the head's height, down from its top: where the brim of a hat sits
HEAD_HALF = 0.37  # half the breadth of a head from the front, over its height
CLEAR = 0.6  # cm between cloth and body
GATHERED = 9.0  # cm below the waist within which a skirt's gathers open out
SHOULDERED = 0.30  # how much shorter a cowl falls at the sides, where it lies on the shoulders
ON_EDGE = 0.35  # how broad a strap between the sides of a bag looks, seen from the front, over its width
FULL = 2.6  # the roundness of the crown of a hat: 2 is an ellipse
EVEN = 6.0  # cm up and down over which a skirt's steps even out as it hangs


def shown(plan: Plan) -> Assembled:
    """What a plan makes, as it is worn or finished. Raises MakerError where none of its pieces is known for what they
    are."""
    trunk = roles.trunk(plan)
    if trunk is not None:
        return Top(plan, trunk)
    for role, form in _FORMS.items():
        copies = [piece for piece in roles.of_role(plan, role) for _ in range(piece.count)]  # type: ignore[arg-type]
        if copies:
            return form(plan, copies)
    raise MakerError(
        "a figure shows a garment with one front, or two that open, and one back; a skirt, a hat, a cowl, a shawl, a "
        'scarf, a bag or a cushion: name the pieces so, such as "left front", "right front" and "back", or give each '
        "its role; what nobody wears, as a blanket, is shown without --figure"
    )


class _Tube(Assembled):
    """Pieces that go round the body one after the other, seen from outside to the right: the first has its middle in
    front or, alone, its seam at the back."""

    body: figure.Figure

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan)
        self.copies = tuple(copies)
        self.body = figure.of(plan.pattern.wearer)

    @property
    def length(self) -> Fraction:
        return body_length(self.copies[0])

    @property
    def around(self) -> Fraction:
        """The way round its widest, in cm."""
        return sum(map(body_width, self.copies), Fraction(0))

    def hung(self, view: str) -> Iterator[Hung]:
        each = math.pi / len(self.copies)  # half of what a piece takes of the way round
        for nth, piece in enumerate(self.copies):
            middle = 2 * each * nth - (math.pi if view == "back" else 0.0)
            for turned in (middle - math.tau, middle, middle + math.tau):  # the middle of the back has two sides
                if abs(turned) < math.pi / 2 + each - 1e-9:
                    wide = _Widths(piece)
                    yield Hung(piece, self._round(wide, turned), self._in_sight(wide, turned))

    def _angle(self, wide: _Widths, middle: float, across: float, down: float) -> float:
        """Where a place lies round the body, in radians from the middle of what is seen; seams lie at one angle."""
        return middle + across / wide.half(down) * math.pi / len(self.copies)

    def _in_sight(self, wide: _Widths, middle: float) -> Callable[[float, float], bool]:
        return lambda across, down: abs(self._angle(wide, middle, across, down)) <= math.pi / 2

    def _round(self, wide: _Widths, middle: float) -> Place:
        def place(across: float, down: float) -> Cm:
            angle = self._angle(wide, middle, across, down)
            return self.at(min(math.pi / 2, max(-math.pi / 2, angle)), down)

        return place

    @abstractmethod
    def at(self, angle: float, down: float) -> Cm:
        """Where cloth lies at an ``angle`` round the body, ``down`` cm from its top."""

    def _rounded(self) -> Iterator[tuple[str, str]]:
        """How far round it is, over the head."""
        head = known(self.plan.pattern.wearer, "head")
        wide = self.around
        if head is None:
            yield "round", self.speech.say("worn.round", length=self.taped(wide))
            return
        off = wide - head.middle
        key = "worn.round.more" if off >= 0 else "worn.round.less"
        yield "round", self.speech.say(key, length=self.taped(wide), off=self.taped(abs(off)))


class _Widths:
    """Half the width of a piece as worn at any height, in cm."""

    def __init__(self, piece: PiecePlan) -> None:
        (left, low), (right, high) = dimensions.box(piece)
        if piece.top is not None:
            self.downs, self.halves = [0.0], [float(right - left) / 2]
            return
        ends = [edges.width_at(piece, Fraction(number)) for number in range(piece.row_count, -1, -1)]
        self.downs = [float(high - low - piece.up(number)) for number in range(piece.row_count, -1, -1)]
        self.halves = [max(0.1, float(other - one) / 2) for one, other in ends]

    def half(self, down: float) -> float:
        """Half the width ``down`` cm from the top."""
        return figure.between(down, self.downs, self.halves)


class Skirt(_Tube):
    """A skirt of panels, hanging from the waist."""

    fitted_to = ("waist", "hip")

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan, copies)
        self.levels = dict(self.body.levels.items())
        self.waist = self.body.levels["waist"]
        self.widths = [_Widths(piece) for piece in self.copies]
        self.downs = [float(self.length) * step / 60 for step in range(61)]
        self.breadths = [self._worked_out(down) for down in self.downs]
        self.half = self._breadth(float(self.length))
        self.top, self.low = -1.2 * self.body.head, max(self.body.sole, self.waist + float(self.length))

    def _breadth(self, down: float) -> float:
        return figure.between(down, self.downs, self.breadths)

    def _worked_out(self, down: float) -> float:
        """Half the breadth of the hanging cloth: gathered to the body at the waist, and round it below."""
        body = self.body.half_at(self.waist + down) + CLEAR
        about = [down + EVEN * step / 3 for step in range(-3, 4)]
        own = sum(wide.half(at) for wide in self.widths for at in about) / len(about) / math.pi * ROUND
        share = min(1.0, max(0.0, down) / GATHERED)
        return body + (max(own, body) - body) * share * share * (3 - 2 * share)

    def at(self, angle: float, down: float) -> Cm:
        sag = 0.05 * self._breadth(down) * math.cos(angle)  # the middle hangs nearer to who looks
        return self._breadth(down) * math.sin(angle), self.waist + down + sag - 0.05 * self._breadth(down)

    def lower(self, longer: Fraction) -> list[Cm]:
        y, reach = self.waist + float(self.length + longer), self.half + 3
        return [(-reach, y), (reach, y)]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        say, long = self.speech.say, self.length
        yield "hem", say("worn.hem.waist", length=self.taped(long), where=self.where(self.waist + float(long)))
        if longer:
            other = long + longer
            where = self.where(self.waist + float(other))
            yield "other", say("worn.other.waist", length=self.taped(other), where=where)
        yield "round", say("worn.round.hem", length=self.taped(2 * sum(wide.half(float(long)) for wide in self.widths)))
        hip = known(self.plan.pattern.wearer, "hip")
        if hip is not None:
            at = min(float(long), self.body.levels["hip"] - self.waist)
            ease = 2 * sum(wide.half(at) for wide in self.widths) - float(hip.middle)
            key = "worn.hips.wider" if ease >= 0 else "worn.hips.narrower"
            yield "ease", say(key, ease=self.taped(abs(ease)))


class Hat(_Tube):
    """A hat on a head: worked from the brim up and gathered at the crown."""

    fitted_to = ("head",)

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan, copies[:1])  # each is a hat of its own
        self.profile = self._profile(float(self.length))
        self.line = _Line(self.profile)
        self.half = max(x for x, _ in self.profile)
        self.top = min(y for _, y in self.profile) - 2
        self.low = self.cut = 0.55 * self.body.armhole

    @property
    def crown(self) -> float:
        """The top of the head, cm (above the nape, so below 0)."""
        return -0.17 * self.body.levels["waist"] - self.body.head

    def _profile(self, long: float) -> list[Cm]:
        """The side of a hat so long, from the crown down: along the head to the brow or, if it is short, not so far;
        what is too long for that stands above the head."""
        brow = BROW * self.body.head
        tall, stands = self.body.head / 2, 0.0
        line = _quarter(self._wide(), tall, 0.0, self.body.head)
        if _length(line, brow) < long:
            low, high = 0.0, long
            for _ in range(40):  # halved until it is found
                stands = (low + high) / 2
                line = _quarter(self._wide(), tall, stands, self.body.head)
                low, high = (stands, high) if _length(line, brow) < long else (low, stands)
        return [(x, self.crown + y) for x, y in _as_long(line, long)]

    def _wide(self) -> float:
        """Half the breadth: that of the head, or of the hat where it is wider."""
        head = HEAD_HALF * self.body.head
        round_head = figure.HEAD_ROUND * self.body.head
        return head * max(1.0, float(self.around) / round_head) + CLEAR

    def at(self, angle: float, down: float) -> Cm:
        x, y = self.line.at(down)
        return x * math.sin(angle), y + 0.10 * x * (math.cos(angle) - 0.5)

    def lower(self, longer: Fraction) -> list[Cm]:
        """A second hat is shown by its whole outline."""
        line = self._profile(float(self.length + longer))
        if longer:
            return [*((-x, y) for x, y in reversed(line)), *line]
        x, y = self.profile[-1]
        return [(x * math.sin(turn), y + 0.10 * x * (math.cos(turn) - 0.5)) for turn in _turns()]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        yield "hem", self._brim("worn.brim", self.length)
        if longer:
            yield "other", self._brim("worn.brim.other", self.length + longer)
        yield from self._rounded()

    def _brim(self, key: str, long: Fraction) -> str:
        above = self.crown + BROW * self.body.head - self._profile(float(long))[-1][1]
        say = self.speech.say
        brow = say("worn.level.brow")
        where = say("worn.above", length=self.taped(above), level=brow) if above > 0.5 else say("worn.at", level=brow)
        return say(key, length=self.taped(long), where=where)


def _turns() -> list[float]:
    return [math.pi * (nth / 24 - 0.5) for nth in range(25)]


def _quarter(wide: float, tall: float, stands: float, head: float) -> list[Cm]:
    """The side of a head and of what ``stands`` above it, from the crown down to the chin: (x, y below the crown)."""
    return [
        _on_crown(wide, tall + stands, -stands, math.pi * nth / 200)
        if nth <= 100 else (wide, tall + (head - tall) * (nth - 100) / 100) for nth in range(201)
    ]  # fmt: skip


def _on_crown(wide: float, tall: float, top: float, turn: float) -> Cm:
    """A place of the crown, ``turn`` from 0 at its top to a right angle where it goes straight down."""
    return wide * math.sin(turn) ** (2 / FULL), top + tall * (1 - max(0.0, math.cos(turn)) ** (2 / FULL))


def _length(line: list[Cm], to: float) -> float:
    """How long a line is down to a height."""
    passed = 0.0
    for one, other in pairwise(line):
        if other[1] > to:
            return passed + math.dist(one, other) * (to - one[1]) / (other[1] - one[1])
        passed += math.dist(one, other)
    return passed


def _along(line: list[Cm], far: float) -> Cm:
    """The place so far along a line; its end past that."""
    for one, other in pairwise(line):
        long = math.dist(one, other)
        if far <= long and long:
            share = max(0.0, far) / long
            return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share
        far -= long
    return line[-1]


class _Line:
    """A line on which places are looked up often, by how far along it they lie."""

    def __init__(self, line: list[Cm]) -> None:
        self.passed = [0.0, *accumulate(math.dist(one, other) for one, other in pairwise(line))]
        self.xs, self.ys = zip(*line, strict=True)

    def at(self, far: float) -> Cm:
        """The place so far along it, in cm; its ends before and past it."""
        return figure.between(far, self.passed, self.xs), figure.between(far, self.passed, self.ys)


def _as_long(line: list[Cm], long: float) -> list[Cm]:
    """A line cut off after so many cm."""
    kept, passed = [line[0]], 0.0
    for one, other in pairwise(line):
        passed += math.dist(one, other)
        if passed >= long:
            return [*kept, _along(line, long)]
        kept.append(other)
    return kept


class Cowl(_Tube):
    """A cowl round the neck, its upper edge below the chin."""

    fitted_to = ("head", "bust")

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan, copies[:1])
        self.chin = -0.62 * 0.17 * self.body.levels["waist"]
        self.half = float(self.around) / math.tau * 1.15
        self.top = -0.17 * self.body.levels["waist"] - self.body.head - 2
        self.low = self.cut = max(self.chin + float(self.length) + 12, 1.1 * self.body.armhole)

    def at(self, angle: float, down: float) -> Cm:
        share = min(1.0, max(0.0, down / float(self.length)))
        narrow = 0.86 * self.half  # it stands off at the neck
        half = narrow + (1.12 * self.half - narrow) * share
        short = 1 - SHOULDERED * (1 - math.cos(angle))
        lift = 0.16 * half * (math.cos(angle) - 1) * (1 - share)
        return half * math.sin(angle), self.chin + down * short + lift

    def lower(self, longer: Fraction) -> list[Cm]:
        if not longer:
            return [self.at(turn, float(self.length)) for turn in _turns()]
        return [(x, y + float(longer) * (1 - SHOULDERED * (1 - math.cos(turn)))) for turn in _turns()
                for x, y in [self.at(turn, float(self.length))]]  # fmt: skip

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        yield from self._rounded()
        yield "hem", self._falls("worn.cowl", self.length)
        if longer:
            yield "other", self._falls("worn.cowl.other", self.length + longer)

    def _falls(self, key: str, long: Fraction) -> str:
        below = self.chin + float(long)
        way = "worn.nape.below" if below >= 0 else "worn.nape.above"
        where = self.speech.say(way, length=self.taped(abs(below)))
        return self.speech.say(key, length=self.taped(long), where=where)


class _Flat(Assembled):
    """Two faces as they are finished, of two pieces or of one that is folded across its middle: no figure."""

    title, facts, alt = "finished", "finished.facts", "finished.alt"
    body, beside = None, False

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan)
        self.faces = (copies[0], copies[1]) if len(copies) > 1 else (copies[0], copies[0])
        self.folded = len(copies) == 1
        self.half = float(body_width(copies[0])) / 2
        self.top, self.low = 0.0, float(self.length) + 3

    @property
    def length(self) -> Fraction:
        return body_length(self.faces[0]) / (2 if self.folded else 1)

    def hung(self, view: str) -> Iterator[Hung]:
        piece = self.faces[view == "back"]
        if not self.folded:
            yield Hung(piece, lambda across, down: (across, down))
            return
        high, back = float(self.length), view == "back"

        def place(across: float, down: float) -> Cm:
            along = min(high, max(0.0, 2 * high - down if back else down))
            return (-across if back else across), along

        yield Hung(piece, place, lambda _, down: (down > high) == back)

    def lower(self, longer: Fraction) -> list[Cm]:
        y = float(self.length + longer)
        return [(-self.half - 2, y), (self.half + 2, y)]

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        say, wide = self.speech.say, self.taped(body_width(self.faces[0]))
        yield "hem", say("worn.size", width=wide, length=self.taped(self.length))
        if longer:
            yield "other", say("worn.size.other", length=self.taped(self.length + longer))
        gusset = next(iter(roles.of_role(self.plan, "gusset")), None)
        if gusset is not None:
            yield "gusset", say("worn.gusset", length=self.taped(min(body_width(gusset), body_length(gusset))))


class Cushion(_Flat):
    """A cushion from both its sides."""


class Bag(_Flat):
    """A bag from both its sides, held up by its straps."""

    def __init__(self, plan: Plan, copies: Sequence[PiecePlan]) -> None:
        super().__init__(plan, copies)
        straps = [piece for piece in roles.of_role(plan, "strap") for _ in range(piece.count)]
        self.straps = straps if len(straps) <= 2 else []
        if self.straps:
            loops = [_Loop(strap, self._reach, self._broad) for strap in self.straps]
            self.top = -max(loop.high for loop in loops) - 3
            self.broad = max(self.half, *(loop.half for loop in loops))

    @property
    def _reach(self) -> float:
        """Half of the way from end to end of a strap: one goes from side to side, two keep a quarter from each."""
        return self.half if len(self.straps) == 1 else self.half / 2

    @property
    def _broad(self) -> float:
        """How broad a strap looks, over its width: one from side to side is seen from its edge."""
        return ON_EDGE if len(self.straps) == 1 else 1.0

    def hung(self, view: str) -> Iterator[Hung]:
        if self.straps:
            strap = self.straps[-1 if view == "back" else 0]
            yield Hung(strap, _Loop(strap, self._reach, self._broad).place)
        yield from super().hung(view)

    def said(self, longer: Fraction) -> Iterator[tuple[str, str]]:
        yield from super().said(longer)
        for strap in self.straps[:1]:
            long = max(body_width(strap), body_length(strap))
            yield "strap", self.speech.say("worn.strap", length=self.taped(long))


class _Loop:
    """A strap as a loop over a bag, its ends ``reach`` cm to either side of the middle: half an ellipse as long as the
    strap, which looks ``broad`` times as broad as it is."""

    def __init__(self, strap: PiecePlan, reach: float, broad: float) -> None:
        self.broad = broad
        self.lengthwise = body_length(strap) >= body_width(strap)
        self.long = float(max(body_length(strap), body_width(strap)))
        self.wide = float(min(body_length(strap), body_width(strap)))
        line = self._line(min(reach, self.long / 2 - 0.1))
        self.line = _Line(line)
        self.high = -min(y for _, y in line) + broad * self.wide / 2
        self.half = max(x for x, _ in line) + broad * self.wide / 2

    def _line(self, reach: float) -> list[Cm]:
        low, high = 0.0, self.long
        line: list[Cm] = []
        for _ in range(40):  # halved until it is as long
            tall = (low + high) / 2
            turns = [math.pi * nth / 120 for nth in range(121)]
            line = [(-reach * math.cos(turn), -tall * math.sin(turn)) for turn in turns]
            low, high = (tall, high) if _length(line, math.inf) < self.long else (low, tall)
        return line

    def place(self, across: float, down: float) -> Cm:
        """Where a place of the strap lies: its length along the loop, its width across it."""
        far, off = (down, across) if self.lengthwise else (across + self.long / 2, down - self.wide / 2)
        off *= self.broad
        x, y = self.line.at(far)
        here, ahead = self.line.at(far - 0.2), self.line.at(far + 0.2)
        long = math.dist(here, ahead) or 1.0
        return x + off * (here[1] - ahead[1]) / long, y + off * (ahead[0] - here[0]) / long


_FORMS: Final[dict[str, Callable[[Plan, Sequence[PiecePlan]], Assembled]]] = {
    "skirt": Skirt, "hat": Hat, "cowl": Cowl, "shawl": Shawl, "scarf": Scarf, "bag": Bag, "cushion": Cushion,
}  # fmt: skip
