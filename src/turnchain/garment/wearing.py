"""Will it fit: a garment against its wearer, every check with its figure.

In: a plan, with its ``Wearer`` where the pattern file has one. Out: ``Check`` s in words. Lengths of the finished
garment are the plan's own; the wearer's are own measures or, marked as such, a row of a size table.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from turnchain import sizes
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles, seams
from turnchain.garment.edges import Point
from turnchain.pattern import Wearer
from turnchain.sizes import Measure
from turnchain.units import INCH, Unit, shown

# A crochet edge gives little: the opening is taken as it lies. [memory]
STRETCH = Fraction(1)
# A knitters' rule for grown-ups, from a published pattern handbook [seen]: width + front depth.
KNITTERS_RULE = Fraction("25.5")
# Under the smallest head of a grown-up in the table of heads [seen] that rule says nothing.
GROWN_HEAD = 21 * INCH

Says = Literal["good", "look", "note"]
Level = Literal["waist", "hip", "knee"]
LEVELS: tuple[Level, ...] = ("waist", "hip", "knee")


@dataclass(frozen=True, slots=True)
class Check:
    """One check: ``about`` what, what it ``says`` (good; look: think again; note) and its ``words``."""

    about: str
    says: Says
    words: str


@dataclass(frozen=True, slots=True)
class Known:
    """A measure of the wearer from ``least`` to ``most`` cm, and in words where it is ``from_`` (empty: own)."""

    least: Fraction
    most: Fraction
    from_: str

    @property
    def middle(self) -> Fraction:
        """The middle, in cm."""
        return (self.least + self.most) / 2

    def told(self, unit: Unit) -> str:
        """The figure with its source: "86 cm", "81 cm to 86 cm (size table, woman S)"."""
        figure = shown(self.least, unit)
        if self.most != self.least:
            figure += f" to {shown(self.most, unit)}"
        return f"{figure} ({self.from_})" if self.from_ else figure


def lines(plan: Plan) -> list[str]:
    """All checks in words, one to a line."""
    return [f"{check.about}: {_SIGN[check.says]}{check.words}" for check in checks(plan)]


_SIGN: dict[Says, str] = {"good": "", "look": "look again: ", "note": ""}


def checks(plan: Plan) -> list[Check]:
    """Every check that the pieces allow."""
    pair = roles.front_and_back(plan)
    found = [Check("assumed", "note", words) for words in roles.assumptions(plan)]
    if pair is None:
        return [*found, *_lone_sleeves(plan)]
    if plan.pattern.wearer is None:
        words = "no wearer is given; with a table [wearer] in the pattern file these figures are set against a body"
        found.append(Check("wearer", "note", words))
    return [
        *found,
        *_ease(plan, pair),
        *_neck(plan, pair),
        *_falls(plan, pair[0]),
        *_shoulders(plan, pair),
        *_sleeves(plan, pair),
    ]


def _lone_sleeves(plan: Plan) -> Iterator[Check]:
    if roles.of_role(plan, "front", "back", "sleeve"):
        yield Check("fit", "note", "without one front and one back nothing can be set against a wearer")


# ------------------------------------------------------------------------------------------------- the wearer


def known(wearer: Wearer | None, measure: str) -> Known | None:
    """A measure of the wearer: an own one, else that of the table's row, else None."""
    if wearer is None:
        return None
    own: Fraction | None = getattr(wearer, measure)
    if own is not None:
        return Known(own, own, "")
    row = row_of(wearer)
    figure = None if row is None else row.get(measure)
    return None if figure is None else Known(figure.least, figure.most, f"size table, {_remembered(wearer, figure)}")


def row_of(wearer: Wearer) -> sizes.Row | None:
    """The row of the size table that the wearer is given by; None for own measures only."""
    if wearer.table is None or wearer.size is None:
        return None
    return sizes.TABLES[wearer.table].get(wearer.size)


def _remembered(wearer: Wearer, figure: Measure) -> str:
    return f"{wearer.table} {wearer.size}" + ("" if figure.seen else ", a figure from memory")


def level(wearer: Wearer | None, name: Level) -> Known | None:
    """How far below the nape the waist, hip or knee lies: own, from the table, or reckoned from nape to waist."""
    found = known(wearer, f"{name}_length")
    waist = known(wearer, "waist_length")
    if found is not None or name == "waist" or waist is None:
        return found
    times = sizes.HIP_IN_WAIST_LENGTHS if name == "hip" else sizes.KNEE_IN_WAIST_LENGTHS
    reckoned = waist.middle * times
    return Known(reckoned, reckoned, f"reckoned as {float(times):g} times nape to waist")


# ------------------------------------------------------------------------------------------------------- ease


def measure(piece: PiecePlan, name: str) -> Fraction | None:
    """A worked measure of the plan by its name, in cm."""
    return next((fit.worked for fit in piece.fit if fit.measure == name), None)


def body_width(piece: PiecePlan) -> Fraction:
    """The width as worn in cm: of a panel as planned, of an outline at its widest."""
    width = measure(piece, "width")
    return (piece.rightmost - piece.leftmost) * piece.gauge.half if width is None else width


def body_length(piece: PiecePlan) -> Fraction:
    """The length as worn in cm, from the highest point of the shoulder to the lower edge."""
    length = measure(piece, "length")
    return piece.height if length is None else length


def _ease(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[Check]:
    unit = plan.pattern.units
    around = body_width(pair[0]) + body_width(pair[1])
    yield Check("width", "note", f"{shown(around, unit)} round the body, front and back together")
    apart = body_width(pair[0]) - body_width(pair[1])
    if apart:
        wider, other = pair if apart > 0 else (pair[1], pair[0])
        says: Says = "look" if abs(apart) >= min(pair[0].gauge.row, pair[0].gauge.half) else "note"
        yield Check("width", says, f"{wider.name} is {shown(abs(apart), unit)} wider than {other.name}")
    for name in ("bust", "hip"):
        body = known(plan.pattern.wearer, name)
        if body is None or (name == "hip" and not _reaches(plan, pair[0], "hip")):
            continue
        least, most = around - body.most, around - body.least
        says = "good" if least >= 0 else "look"
        ease = _signed(least, unit) if least == most else f"{_signed(least, unit)} to {_signed(most, unit)}"
        words = f"{shown(around, unit)} on a {name} of {body.told(unit)}: {ease}, {sizes.ease_name((least + most) / 2)}"
        yield Check(f"ease at the {name}", says, words)


def _reaches(plan: Plan, front: PiecePlan, name: Level) -> bool:
    found = level(plan.pattern.wearer, name)
    return found is not None and body_length(front) >= found.middle


def _signed(cm: Fraction, unit: Unit) -> str:
    return f"{'−' if cm < 0 else '+'}{shown(abs(cm), unit)}"


# ------------------------------------------------------------------------------------------- neck over head


@dataclass(frozen=True, slots=True)
class Opening:
    """A neck opening in cm: ``front`` and ``back`` curve, ``width`` and front ``depth``."""

    front: Fraction
    back: Fraction
    width: Fraction
    depth: Fraction

    @property
    def around(self) -> Fraction:
        """The perimeter in cm."""
        return self.front + self.back

    def passes(self, head: Fraction) -> bool:
        """Whether it passes a head of ``head`` cm round; for a grown-up's head the stricter of two rules decides."""
        return self.around * STRETCH >= head and (head < GROWN_HEAD or self.by_knitters)

    @property
    def by_knitters(self) -> bool:
        """Whether the knitters' rule lets it pass: it counts on stretch."""
        return self.width + self.depth >= KNITTERS_RULE


def opening(front: PiecePlan, back: PiecePlan) -> Opening | None:
    """The opening that two pieces leave, along their worked edges; None where neither has a neck.

    A piece without a neck is straight across, as wide as the other's.
    """
    curves = [neck_curve(piece) for piece in (front, back)]
    shaped = [curve for curve in curves if curve]
    if not shaped:
        return None
    width = max(_across(curve) for curve in shaped)
    longs = [edges.length_of(curve) if curve else width for curve in curves]
    return Opening(longs[0], longs[1], width, measure(front, "neck depth") or Fraction(0))


def neck_curve(piece: PiecePlan) -> tuple[Point, ...]:
    """The neck edge as worn, as a tape laid along it runs: straight over the small corners of rows and steps."""
    found = edges.of(piece).get("neck")
    if found is None:
        return ()
    turn = edges.worn(piece)
    return _taut([turn(point) for point in found.points])


def _taut(points: list[Point]) -> tuple[Point, ...]:
    """The lower hull of a neck's edge, from end to end: the shortest line round the cloth below it."""
    line: list[Point] = []
    ordered = points if points[0][0] <= points[-1][0] else points[::-1]
    for point in ordered:
        while len(line) > 1 and _turn(line[-2], line[-1], point) <= 0:
            line.pop()
        line.append(point)
    return tuple(line)


def _turn(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])


def _across(curve: tuple[Point, ...]) -> Fraction:
    return abs(curve[-1][0] - curve[0][0])


def _neck(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[Check]:
    unit = plan.pattern.units
    head = known(plan.pattern.wearer, "head")
    found = opening(*pair)
    if found is None:
        yield _no_neck(head, unit)
        return
    around = (
        f"the opening is {shown(found.around, unit)} round (front {shown(found.front, unit)}, back "
        f"{shown(found.back, unit)})"
    )
    yield _passes(found, head, around, unit)
    total = shown(found.width + found.depth, unit)
    rule = f"width and front depth together are {total}, by a knitters' rule at least {shown(KNITTERS_RULE, unit)}"
    grown = head is None or head.most >= GROWN_HEAD
    counts = "it counts on stretch" if grown else "made for grown-ups, so not counted here"
    says: Says = "good" if found.by_knitters else "look" if grown else "note"
    yield Check("neck, a second rule", says, f"{rule}; {counts}")


def _passes(found: Opening, head: Known | None, around: str, unit: Unit) -> Check:
    if head is None:
        return Check("neck over head", "note", f"{around}: it passes a head of as much and no more; measure the head")
    if found.passes(head.most):
        return Check("neck over head", "good", f"{around} and passes a head of {head.told(unit)}")
    short = head.most - found.around
    if short <= 0:
        return Check("neck over head", "look", f"{around}; the second rule, the stricter here, does not let it pass")
    words = f"{around}, {shown(short, unit)} too small for a head of {head.told(unit)}; a crochet edge gives little"
    return Check("neck over head", "look", f"{words}: make the shoulders shorter or the neck deeper, or leave a slit")


def _no_neck(head: Known | None, unit: Unit) -> Check:
    half = "" if head is None else f", at least {shown(head.most / 2, unit)} of it for a head of {head.told(unit)}"
    return Check("neck over head", "note", f"there is no neck: leave the middle of the upper edges open{half}")


# ------------------------------------------------------------------------------------------------ where it falls


def _falls(plan: Plan, front: PiecePlan) -> Iterator[Check]:
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    length = body_length(front)
    found = [(name, at) for name in LEVELS if (at := level(wearer, name)) is not None]
    told = f"{front.name} is {shown(length, unit)} long from the shoulder"
    if not found:
        yield Check("where it falls", "note", told)
        return
    places = [f"{_off(length - at.middle, unit)} the {name} ({_at(at, unit)})" for name, at in found]
    long = found[-1][0] == "knee" and length > found[-1][1].middle
    yield Check("where it falls", "look" if long else "note", f"{told}: {', '.join(places)}")


def _off(cm: Fraction, unit: Unit) -> str:
    return f"{shown(abs(cm), unit)} {'below' if cm >= 0 else 'above'}"


def _at(found: Known, unit: Unit) -> str:
    return found.told(unit).replace(" (", "; ").removesuffix(")")


# ------------------------------------------------------------------------------------------ shoulders and sleeves


def _shoulders(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[Check]:
    unit = plan.pattern.units
    for seam in seams.of(plan):
        if seam.kind == "shoulder":
            says: Says = "good" if seam.agrees else "look"
            yield Check("shoulder seam", says, f"{seams.meeting([seam])}: {seams.agreement(seam, unit)}")
    back = known(plan.pattern.wearer, "cross_back")
    if back is not None:
        drop = (body_width(pair[0]) - back.middle) / 2
        where = f"{shown(abs(drop), unit)} {'beyond' if drop >= 0 else 'short of'} the shoulder"
        yield Check("shoulder", "note", f"the side edge lies {where} (cross back {_at(back, unit)})")


def _sleeves(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[Check]:
    for sleeve in roles.of_role(plan, "sleeve"):
        yield from _sleeve_top(plan, pair[0], sleeve)
        yield from _sleeve_length(plan, pair[0], sleeve)


def _sleeve_top(plan: Plan, front: PiecePlan, sleeve: PiecePlan) -> Iterator[Check]:
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    top = seams.sleeve_top(sleeve).length
    side = edges.of(front)[edges.side_names(front)[1]].length
    deep = seams.armhole(front, edges.side_names(front)[1], top / 2)
    room = f"half of {sleeve.name}'s top is {shown(top / 2, unit)}, taken from the {shown(side, unit)} of the side"
    left = side - deep
    fits: Says = "good" if left > 0 and abs(deep - top / 2) <= front.gauge.row else "look"
    yield Check("armhole", fits, f"{room} as {shown(deep, unit)}, which leaves a side seam of {shown(left, unit)}")
    body = known(wearer, "armhole")
    if body is not None:
        says: Says = "good" if deep + front.gauge.row >= body.middle else "look"
        words = f"{shown(deep, unit)} deep on a body of {body.told(unit)}: {_signed(deep - body.middle, unit)}"
        yield Check("armhole depth", says, words)
    arm = known(wearer, "upper_arm")
    if arm is not None:
        says = "good" if top >= arm.middle else "look"
        words = f"{shown(top, unit)} round an upper arm of {arm.told(unit)}: {_signed(top - arm.middle, unit)}"
        yield Check("sleeve at the top", says, words)


def _sleeve_length(plan: Plan, front: PiecePlan, sleeve: PiecePlan) -> Iterator[Check]:
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    length = body_length(sleeve)
    cuff = body_width(front) / 2 + length
    reach = f"{sleeve.name} is {shown(length, unit)} long, {shown(cuff, unit)} from the middle of the back"
    wrist = known(wearer, "neck_to_cuff")
    if wrist is not None:
        yield Check("sleeve length", "note", f"{reach}: {_from_wrist(cuff - wrist.middle, unit)} ({_at(wrist, unit)})")
        return
    arm = known(wearer, "arm")
    words = "" if arm is None else f"; the arm is {arm.told(unit)} from underarm to wrist"
    yield Check("sleeve length", "note", f"{reach}{words}")


def _from_wrist(cm: Fraction, unit: Unit) -> str:
    return f"it ends {shown(abs(cm), unit)} {'beyond' if cm > 0 else 'short of'} the wrist"
