"""Yarn where no swatch was weighed: every "3 to 5 balls" and "at most 90 g" held against the cloth.

In: the worked pieces, what the pattern file says of its yarns, lines as printed. Out: how many figures were looked at,
and reasons, in words. How heavy the fabric may be is taken from the report's own line on it, where it is told with its
source; all else follows from that and the cloth.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.yarns import Weighing, YarnAsked, area_of, ends_of, tails_of

_USUAL_BALL = Fraction(50)  # g, from memory: the commonest ball
_YARD = Fraction("0.9144")  # m
_SPAN = r"(?:(?P<most>at most )?(?P<low>\d+)(?: to (?P<high>\d+))?)"


def lines(
    cloths: Sequence[WorkedCloth], asked: Sequence[YarnAsked], scale: Weighing, said: Sequence[str], heavy: str
) -> tuple[int, Iterator[str]]:
    """What the report says of yarns, or the materials of the written pattern; ``heavy`` is the report's line on how
    heavy the fabric is."""
    told = re.search(rf"{_SPAN} g to the square metre", heavy)
    if told is None:
        return 0, iter(())
    dense = Fraction(0 if told["most"] else told["low"]) / 10_000, Fraction(told["high"] or told["low"]) / 10_000
    found = [(one, line) for one in asked for line in said if re.match(_head(one.name), line)]
    shopping = [(one, line) for one in asked for line in said if re.match("(?i)shopping list, ", line)]
    return 2 * (len(found) + len(shopping)), _wrong(cloths, scale, dense, found, shopping)


def _head(name: str) -> str:
    """How the line about a yarn begins, in the report or in the written pattern."""
    return rf"Yarn \w+, {re.escape(name)}: |{re.escape(name)}: [^:]* g of fabric"


_Lines = Sequence[tuple[YarnAsked, str]]


def _wrong(
    cloths: Sequence[WorkedCloth], scale: Weighing, dense: tuple[Fraction, Fraction], found: _Lines, shopping: _Lines
) -> Iterator[str]:
    for one, line in found:
        fabric, needed = _grams(cloths, one, scale, dense)
        yield from _held(one.name, line, r" g of fabric", fabric)
        yield from _held(one.name, line, r" g(?=[,;.]|$| \()", needed)
        if one.metres:
            yield from _held(one.name, line, r" m\b", [grams * one.metres / 100 for grams in needed])
            yield from _held(one.name, line, r" yd\b", [grams * one.metres / 100 / _YARD for grams in needed])
        if one.ball:
            yield from _held(one.name, line, r" balls?\b", [grams / one.ball for grams in needed])
    for one, line in shopping:
        told = re.search(rf"(?:: |; ){re.escape(one.name)} ([^;]*?balls?) of ([\d.]+) g", line)
        ball = one.ball or _USUAL_BALL
        if told and float(told[2]) != float(ball):
            yield f"{one.name}: a ball of {told[2]} g is printed, {float(ball):g} g asked for"
        if told:
            needed = _grams(cloths, one, scale, dense)[1]
            yield from _held(one.name, told[1], r" balls?", [grams / ball for grams in needed])


Span = Sequence[Fraction]


def _grams(
    cloths: Sequence[WorkedCloth], one: YarnAsked, scale: Weighing, dense: tuple[Fraction, Fraction]
) -> tuple[Span, Span]:
    """Grams of fabric, and of all that is needed: at least (0: not known) and at most."""
    area, tails = area_of(cloths, one.name), tails_of(one, ends_of(cloths, one.name, scale), scale)
    fabric = [area * dense[0] * scale.least, area * dense[1] * scale.most]
    edged = [one.kept(dense[0] * scale.least, scale.more), one.kept(dense[1] * scale.most, scale.more)]
    needed = [(grams + tails) * scale.more + kept for grams, kept in zip(fabric, edged, strict=True)]
    return fabric, needed if fabric[0] else [Fraction(0), needed[1]]


def _held(name: str, line: str, unit: str, wanted: Span) -> Iterator[str]:
    """Whether the first "3 to 5" before a unit is so much; how heavy the fabric is is known in whole grams."""
    told = re.search(rf"(?<![\d.]){_SPAN}{unit}", line)
    if told is None:
        return
    printed = (0 if told["most"] else int(told["low"]), int(told["high"] or told["low"]))
    for one, grams in zip(printed, wanted, strict=True):
        if not grams and not one:
            continue
        if abs(one - float(grams)) > 1 + 0.002 * float(grams):
            yield f'{name}: "{told[0]}" is printed, {float(grams):.1f} reckoned'
