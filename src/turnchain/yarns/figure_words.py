"""How much yarn, in makers' words.

In: a plan in its colours, or its ``Figures``. Out: lines for the report, amounts for a list of materials, a caption for
an order of stripes; all but the last in English, lengths in metres or, in a pattern in inches, yards. What is needed is
rounded up, what is left is rounded down.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import ceil
from typing import Final

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern
from turnchain.units import Unit, plain
from turnchain.wording.languages.language import Speech
from turnchain.yarns.carrying import carry_of, ends_by_colour
from turnchain.yarns.figures import YARD, Figures, Need, figures, yarn_named

USUAL_BALL: Final = Fraction(50)  # g, from memory: the commonest ball, where the label was not copied


def lines(plan: Plan, extra: Mapping[str, Fraction] | None = None) -> list[str]:
    """The figures in makers' words: how the density was reached, then a line to each yarn and, of several, to each
    piece, the balls to buy where that is an estimate, and advice. ``extra`` as for ``figures``."""
    found = figures(plan, extra)
    told = [f"yarn: {found.density.how}"]
    told += [_need_line(plan.pattern, found, need) for need in found.needs]
    told += [_piece_line(plan, found, piece) for piece in plan.pieces if len(plan.pieces) > 1]
    return [*told, *shopping(plan, found), *_advice(plan.pattern, found)]


def caption(plan: Plan, speech: Speech) -> list[str]:
    """What a maker chooses an order by, in one to three short lines of ``speech``: all ends to weave in, and of yarns
    with a stock the grams that are left, and that are short."""
    ends = sum((ends_by_colour(piece, carry_of(plan, piece)).total() * piece.count for piece in plan.pieces), 0)
    told = [speech.count("orders.ends", ends)]
    needs = [need for need in figures(plan).needs if need.left is not None]
    for key, part in (
        ("orders.left", [f"{n.yarn} {int(n.left)} g" for n in needs if n.left is not None and n.left >= 0]),
        ("orders.short", [f"{n.yarn} {ceil(-n.left)} g" for n in needs if n.left is not None and n.left < 0]),
    ):
        if part:
            told.append(speech.say(key, yarns=", ".join(part)))
    return told


def _need_line(pattern: Pattern, found: Figures, need: Need) -> str:
    fabric = f"{_span(need.low, need.high)} g of fabric"
    if not found.density.rough:
        fabric = f"{round(need.fabric)} g of fabric ({round(need.low)} to {round(need.high)})"
    parts = [fabric]
    if need.tails:
        parts.append(f"{ceil(need.tails)} g of tails")
    if found.margin:
        parts.append(f"{float(found.margin):g} % margin")
    if need.edging > need.kept:
        low = need.edging * found.density.low / found.density.high if found.density.rough else need.edging
        parts.append(f"{_span(low, need.edging, up=True)} g for the edging")
    elif need.kept:
        parts.append(f"{ceil(need.kept)} g for border and seams")
    return f"{need.yarn}: {', '.join(parts)}: {amount(pattern, found, need)}{_stock_words(need, found.density.rough)}"


def amount(pattern: Pattern, found: Figures, need: Need) -> str:
    """What is needed of a yarn, in grams, metres and balls: the one figure that is likely or, where no swatch was
    weighed, an estimate from and to or at most."""
    yarn = yarn_named(pattern, need.yarn)
    per_gram = yarn.metres_per_100g / 100 if yarn and yarn.metres_per_100g else None
    ball = yarn.ball if yarn else None
    if not found.density.rough:
        parts = [f"{ceil(need.needed)} g"]
        parts += [_long(need.metres, pattern.units)] if need.metres is not None else []
        parts += [_balls(need.balls)] if need.balls is not None else []
        return ", ".join(parts)
    low = need.least if need.low else Fraction(0)
    parts = [f"{_span(low, need.needed, up=True)} g"]
    if per_gram:
        units = Fraction(100) / YARD if pattern.units == "in" else Fraction(1)
        long = _span(low * per_gram * units, need.needed * per_gram * units, up=True)
        parts.append(f"{long} {'yd' if pattern.units == 'in' else 'm'}")
    if ball:
        parts.append(_span_of_balls(low, need.needed, ball))
    return ", ".join(parts)


def in_all(found: Figures) -> str:
    """The grams of all yarns together, rounded up: "391 g", or where no swatch was weighed "300 to 391 g", or "at most
    391 g"."""
    known = all(need.low for need in found.needs)
    least = sum((need.least for need in found.needs), Fraction(0)) if known else Fraction(0)
    needed = sum((need.needed for need in found.needs), Fraction(0))
    return f"{_span(least if found.density.rough else needed, needed, up=True)} g"


def shopping(plan: Plan, found: Figures) -> list[str]:
    """Where no swatch was weighed, in one line the balls to buy of every yarn, called an estimate; a ball weighs
    ``USUAL_BALL`` where its label was not copied. Nothing where a swatch was weighed."""
    if not found.density.rough:
        return []
    told = []
    for need in found.needs:
        yarn = yarn_named(plan.pattern, need.yarn)
        ball = (yarn and yarn.ball) or USUAL_BALL
        low = need.least if need.low else Fraction(0)
        told.append(f"{need.yarn} {_span_of_balls(low, need.needed, ball)} of {plain(ball)} g")
    return [f"shopping list, an estimate until a swatch is weighed: {'; '.join(told)}"] if told else []


def _span_of_balls(low: Fraction, high: Fraction, ball: Fraction) -> str:
    most = ceil(high / ball)
    return f"{_span(low / ball, high / ball, up=True)} {'ball' if most == 1 else 'balls'}"


def _span(low: Fraction, high: Fraction, up: bool = False) -> str:
    """ "3 to 5", "5" where both come to the same, or "at most 5" where the lower is unknown, which is 0."""
    least, most = (ceil(low), ceil(high)) if up else (round(low), round(high))
    return f"at most {most}" if not low else f"{most}" if least == most else f"{least} to {most}"


def _balls(count: int) -> str:
    return f"{count} {'ball' if count == 1 else 'balls'}"


def _stock_words(need: Need, rough: bool) -> str:
    if need.left is None:
        return ""
    if need.left >= 0:
        return f"; {int(need.left)} g of the stock left"
    buy = f", {need.to_buy} more {'ball' if need.to_buy == 1 else 'balls'}" if need.to_buy else ""
    return f"; the stock {'may be' if rough else 'is'} {ceil(-need.left)} g short{buy}"


def _piece_line(plan: Plan, found: Figures, piece: PiecePlan) -> str:
    uses = [use for use in found.uses if use.piece == piece.name]
    grams = ", ".join(f"{use.yarn} {round(use.grams)} g" for use in uses)
    all_of = f", {'both pieces' if piece.count == 2 else f'all {piece.count} pieces'}" if piece.count > 1 else ""
    whole = sum((use.area for use in uses), Fraction(0))
    span = _span(whole * found.density.low, whole * found.density.high)
    total = span if found.density.rough else f"{round(sum((use.grams for use in uses), Fraction(0)))}"
    return f"{piece.name}{all_of}: {total} g of fabric: {grams}"


def _advice(pattern: Pattern, found: Figures) -> list[str]:
    """Dye lots, where a yarn takes more than a ball; margins are kept for this."""
    several = [need.yarn for need in found.needs if (need.balls or 0) > 1]
    if not several:
        return []
    listed = several[0] if len(several) == 1 else f"{', '.join(several[:-1])} and {several[-1]}"
    return [
        f"{listed}: take all balls of a colour from one dye lot, with one to spare where the shop takes it back; a "
        f"ball of another lot shows least in a stripe of its own"
    ]


def _long(metres: Fraction, unit: Unit) -> str:
    """Metres or, in a pattern in inches, yards, rounded up."""
    if unit == "in":
        return f"{ceil(metres * 100 / YARD)} yd"
    return f"{ceil(metres)} m"
