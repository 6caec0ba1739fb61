"""Will it fit: a garment against its wearer, every check with its figure.

In: a plan, with its ``Wearer`` where the pattern file has one. Out: ``FitCheck`` s in words. Lengths of the finished
garment are the plan's own; the wearer's are own measures or, marked as such, a row of a size table.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from turnchain import sizes
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, openings, roles, seam_words, seams, sleeves
from turnchain.garment.body import LEVELS, BodyMeasure, Level, is_child, known, level
from turnchain.garment.dimensions import body_length, body_width
from turnchain.garment.grading import known_faults
from turnchain.garment.necklines import GROWN_HEAD, KNITTERS_RULE, NeckOpening, opening
from turnchain.records import for_the_last, frozen
from turnchain.units import Unit, shown

Says = Literal["good", "look", "note"]


@frozen
class FitCheck:
    """One check: what it is ``about``, what it ``says`` ("good"; "look": look again; "note": a figure without a
    judgement) and its ``words`` for the report, in English, lengths in the unit of the pattern."""

    about: str
    says: Says
    words: str


def lines(plan: Plan) -> list[str]:
    """All checks in words, one to a line: "about: words", those that say "look" marked "look again"."""
    return [f"{check.about}: {_SIGN[check.says]}{check.words}" for check in checks(plan)]


_SIGN: dict[Says, str] = {"good": "", "look": "look again: ", "note": ""}


@for_the_last
def checks(plan: Plan) -> tuple[FitCheck, ...]:
    """Every check that the pieces allow, in the order of the report: what was assumed, width and ease, neck, length,
    shoulders, sleeves, open armholes. Without one front and one back only what was assumed and, where a piece is part
    of a garment, that no more can be checked."""
    pair = roles.front_and_back(plan)
    found = [FitCheck("assumed", "note", words) for words in roles.assumptions(plan)]
    if pair is None:
        return (*found, *_lone_sleeves(plan))
    if plan.pattern.wearer is None:
        words = "no wearer is given; write [wearer] in the pattern file to have the fit checked"
        found.append(FitCheck("wearer", "note", words))
    faults = (FitCheck("size table", "note", words) for words in known_faults(plan.pattern.wearer))
    return (
        *found,
        *faults,
        *_ease(plan, pair),
        *_neck(plan, pair),
        *_falls(plan, pair[0]),
        *_shoulders(plan, pair),
        *_sleeves(plan, pair),
        *_bare_arms(plan),
    )


def _lone_sleeves(plan: Plan) -> Iterator[FitCheck]:
    if roles.of_role(plan, "front", "back", "sleeve"):
        yield FitCheck("fit", "note", "without one front and one back nothing can be set against a wearer")


# ------------------------------------------------------------------------------------------------------- ease


def _ease(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[FitCheck]:
    unit = plan.pattern.units
    around = body_width(pair[0]) + body_width(pair[1])
    yield FitCheck("width", "note", f"{shown(around, unit)} round the body, front and back together")
    apart = body_width(pair[0]) - body_width(pair[1])
    if apart:
        wider, other = pair if apart > 0 else (pair[1], pair[0])
        says: Says = "look" if abs(apart) >= min(pair[0].gauge.row, pair[0].gauge.half) else "note"
        yield FitCheck("width", says, f"{wider.name} is {shown(abs(apart), unit)} wider than {other.name}")
    for name in ("bust", "hip"):
        body = known(plan.pattern.wearer, name)
        if body is None or (name == "hip" and not _reaches(plan, pair[0], "hip")):
            continue
        least, most = around - body.most, around - body.least
        says = "good" if least >= 0 else "look"
        ease = _signed(least, unit) if least == most else f"{_signed(least, unit)} to {_signed(most, unit)}"
        # The names of ease are those of garments for adults.
        called = "" if is_child(plan.pattern.wearer) else f", {sizes.ease_name((least + most) / 2)}"
        words = f"{shown(around, unit)} on a {name} of {body.told(unit)}: {ease}{called}"
        yield FitCheck(f"ease at the {name}", says, words)


def _reaches(plan: Plan, front: PiecePlan, name: Level) -> bool:
    found = level(plan.pattern.wearer, name)
    return found is not None and body_length(front) >= found.middle


def _signed(cm: Fraction, unit: Unit) -> str:
    return f"{'−' if cm < 0 else '+'}{shown(abs(cm), unit)}"


# ------------------------------------------------------------------------------------------- neck over head


def _neck(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[FitCheck]:
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
    child = is_child(plan.pattern.wearer)
    yield _passes(found, head, around, unit, child)
    total = shown(found.width + found.depth, unit)
    rule = f"width and front depth together are {total}, by a knitters' rule at least {shown(KNITTERS_RULE, unit)}"
    grown = not child and (head is None or head.most >= GROWN_HEAD)
    counts = "it allows for stretch" if grown else "made for grown-ups, so not counted here"
    says: Says = "good" if found.by_knitters else "look" if grown else "note"
    yield FitCheck("neck, a second rule", says, f"{rule}; {counts}")


def _passes(found: NeckOpening, head: BodyMeasure | None, around: str, unit: Unit, child: bool) -> FitCheck:
    if head is None:
        return FitCheck(
            "neck over head", "note", f"{around}: it fits heads up to that size; measure the head"
        )
    if found.passes(head.most, child):
        return FitCheck("neck over head", "good", f"{around} and fits a head of {head.told(unit)}")
    short = head.most - found.around
    if short <= 0:
        return FitCheck("neck over head", "look", f"{around}; by the second rule, stricter here, it is too small")
    words = f"{around}, {shown(short, unit)} too small for a head of {head.told(unit)}; a crochet edge gives little"
    return FitCheck(
        "neck over head", "look", f"{words}: make the shoulders shorter or the neck deeper, or leave a slit"
    )


def _no_neck(head: BodyMeasure | None, unit: Unit) -> FitCheck:
    half = "" if head is None else f", at least {shown(head.most / 2, unit)} of it for a head of {head.told(unit)}"
    return FitCheck("neck over head", "note", f"there is no neck: leave the middle of the upper edges open{half}")


# ------------------------------------------------------------------------------------------------ where it falls


def _falls(plan: Plan, front: PiecePlan) -> Iterator[FitCheck]:
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    length = body_length(front)
    found = [(name, at) for name in LEVELS if (at := level(wearer, name)) is not None]
    told = f"{front.name} is {shown(length, unit)} long from the shoulder"
    if not found:
        yield FitCheck("where it falls", "note", told)
        return
    places = [f"{_off(length - at.middle, unit)} the {name} ({_at(at, unit)})" for name, at in found]
    long = found[-1][0] == "knee" and length > found[-1][1].middle
    yield FitCheck("where it falls", "look" if long else "note", f"{told}: {', '.join(places)}")


def _off(cm: Fraction, unit: Unit) -> str:
    return f"{shown(abs(cm), unit)} {'below' if cm >= 0 else 'above'}"


def _at(found: BodyMeasure, unit: Unit) -> str:
    return found.told(unit).replace(" (", "; ").removesuffix(")")


# ------------------------------------------------------------------------------------------ shoulders and sleeves


def _shoulders(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[FitCheck]:
    unit = plan.pattern.units
    for seam in seams.of(plan):
        if seam.kind == "shoulder":
            says: Says = "good" if seam.agrees else "look"
            yield FitCheck("shoulder seam", says, f"{seam_words.meeting([seam])}: {seam_words.agreement(seam, unit)}")
    back = known(plan.pattern.wearer, "cross_back")
    if back is not None:
        drop = (body_width(pair[0]) - back.middle) / 2
        where = f"{shown(abs(drop), unit)} {'beyond' if drop >= 0 else 'short of'} the shoulder"
        yield FitCheck("shoulder", "note", f"the side edge lies {where} (cross back {_at(back, unit)})")


def _sleeves(plan: Plan, pair: tuple[PiecePlan, PiecePlan]) -> Iterator[FitCheck]:
    for sleeve in roles.of_role(plan, "sleeve"):
        if sleeves.cap_height(sleeve) or any(pair[0].armed):  # its seams tell how it fits the armhole
            yield from _round_arm(plan, body_width(sleeve))
            continue
        yield from _sleeve_top(plan, pair[0], sleeve)
        yield from _sleeve_length(plan, pair[0], sleeve)


def _sleeve_top(plan: Plan, front: PiecePlan, sleeve: PiecePlan) -> Iterator[FitCheck]:
    top = sleeves.top_length(sleeve)
    deep = next((seam.one.length for seam in seams.of(plan) if seam.kind == "sleeve top"), None)
    if deep is not None:  # the pattern file may sew its sleeves elsewhere
        yield from _sewn_in(plan, front, sleeve, deep)
    yield from _round_arm(plan, top)


def _round_arm(plan: Plan, top: Fraction) -> Iterator[FitCheck]:
    """A sleeve ``top`` cm wide where it meets the body."""
    unit, arm = plan.pattern.units, known(plan.pattern.wearer, "upper_arm")
    if arm is not None:
        says: Says = "good" if top >= arm.middle else "look"
        words = f"{shown(top, unit)} round an upper arm of {arm.told(unit)}: {_signed(top - arm.middle, unit)}"
        yield FitCheck("sleeve at the top", says, words)


def _sewn_in(plan: Plan, front: PiecePlan, sleeve: PiecePlan, deep: Fraction) -> Iterator[FitCheck]:
    """An armhole ``deep`` cm into which a sleeve is sewn."""
    unit = plan.pattern.units
    top = sleeves.top_length(sleeve)
    side = edges.of(front)[edges.side_names(front)[1]].length
    room = f"half of {sleeve.name}'s top is {shown(top / 2, unit)}, taken from the {shown(side, unit)} of the side"
    left = side - deep
    fits: Says = "good" if left > 0 and abs(deep - top / 2) <= front.gauge.row else "look"
    yield FitCheck("armhole", fits, f"{room} as {shown(deep, unit)}, which leaves a side seam of {shown(left, unit)}")
    body = known(plan.pattern.wearer, "armhole")
    if body is not None:
        says: Says = "good" if deep + front.gauge.row >= body.middle else "look"
        words = f"{shown(deep, unit)} deep on a body of {body.told(unit)}: {_signed(deep - body.middle, unit)}"
        yield FitCheck("armhole depth", says, words)


def _bare_arms(plan: Plan) -> Iterator[FitCheck]:
    """Every armhole that stays open, measured round the arm; alike ones once."""
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    arm = known(wearer, "upper_arm")
    rounds = dict.fromkeys(opening.length for opening in openings.of(plan) if opening.kind == "armhole")
    for around in rounds:
        if arm is None:
            words = f"{shown(around, unit)} round the arm, left open"
            yield FitCheck("armhole", "note", words)
            continue
        says: Says = "good" if around > arm.most else "look"
        words = f"{shown(around, unit)} round an upper arm of {arm.told(unit)}: {_signed(around - arm.middle, unit)}"
        yield FitCheck("armhole", says, words)
    if seams.is_top(plan) and not rounds and not roles.of_role(plan, "sleeve"):
        yield FitCheck("armhole", "look", "no armhole stays open: end the side seams under the arm")


def _sleeve_length(plan: Plan, front: PiecePlan, sleeve: PiecePlan) -> Iterator[FitCheck]:
    unit, wearer = plan.pattern.units, plan.pattern.wearer
    length = body_length(sleeve)
    cuff = body_width(front) / 2 + length
    reach = f"{sleeve.name} is {shown(length, unit)} long, {shown(cuff, unit)} from the middle of the back"
    wrist = known(wearer, "neck_to_cuff")
    if wrist is not None:
        yield FitCheck(
            "sleeve length", "note", f"{reach}: {_from_wrist(cuff - wrist.middle, unit)} ({_at(wrist, unit)})"
        )
        return
    arm = known(wearer, "arm")
    words = "" if arm is None else f"; the arm is {arm.told(unit)} from underarm to wrist"
    yield FitCheck("sleeve length", "note", f"{reach}{words}")


def _from_wrist(cm: Fraction, unit: Unit) -> str:
    return f"it ends {shown(abs(cm), unit)} {'beyond' if cm > 0 else 'short of'} the wrist"
