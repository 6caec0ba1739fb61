"""The measures of a worked piece, taken on the cloth.

In: a ``WorkedCloth``. Out: cm: how wide and high it is, its shoulders one by one, its neck. A shoulder of a piece
worked sideways is counted in rows that end straight at the upper edge; of one worked upwards it is the top of a part.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from turnchain.proof.cloth.edges import EdgePart, Side, Stretch, WorkedCloth


def across(cloth: WorkedCloth) -> Fraction:
    """The width of row 1 in cm, between its edge stitches."""
    return (cloth.rows[0].right.at - cloth.rows[0].left.at) * cloth.tape.half


def along(cloth: WorkedCloth) -> Fraction:
    """The height of all rows in cm."""
    return cloth.tops[-1]


def panel(cloth: WorkedCloth, sideways: bool) -> dict[str, Fraction]:
    """The "width" and the "length" of a panel as worn, in cm; ``sideways``: its rows run up and down."""
    wide, high = (along(cloth), _longest(cloth)) if sideways else (across(cloth), along(cloth))
    return {"width": wide, "length": high}


def _longest(cloth: WorkedCloth) -> Fraction:
    """The length of a panel worked sideways: of one with armholes or half a front that of its longest row."""
    parts = cloth.parts_up
    if parts is None or not (any(parts.armed) or parts.neck):
        return across(cloth)
    return max(row.right.at - row.left.at for row in cloth.rows) * cloth.tape.half


def upper_armholes(cloth: WorkedCloth) -> tuple[tuple[Side, Fraction, Fraction], ...]:
    """The armholes of an upper edge: the side where each lies as worn, its depth and its width in cm."""
    parts = cloth.parts_up
    ends: tuple[Side, Side] = ("right", "left") if cloth.upper == "right" else ("left", "right")
    sides = [side for side, armed in zip(ends, parts.armed if parts else (), strict=False) if armed]
    found = []
    for side, run in zip(sides, cloth.edges.get("armhole", ()), strict=False):
        deep = sum(abs(part.head - part.foot) for part in run.parts)
        found.append((side, deep * cloth.tape.half, len(run.rows) * cloth.tape.row))
    return tuple(found)


def cap_edge(cloth: WorkedCloth) -> Fraction:
    """The length in cm of the upper edge of a sleeve, from its first row to its last; of each row that leans to a
    millionth."""
    return sum((_long(part, cloth) for run in cloth.edges["upper"] for part in run.parts), Fraction(0))


def _long(part: EdgePart, cloth: WorkedCloth) -> Fraction:
    if part.level:
        return abs(part.head - part.foot) * cloth.tape.half
    return cloth.tape.row if part.upright else Fraction(round(part.long(cloth.tape) * 10**6), 10**6)


def rows_up(cloth: WorkedCloth, cm: Fraction) -> Fraction:
    """How many rows, and what share of the next, are so many ``cm`` high."""
    full = max((row for row, top in enumerate(cloth.tops) if top <= cm), default=0)
    if full == cloth.high:
        return Fraction(full)
    return full + max(Fraction(0), cm - cloth.tops[full]) / (cloth.tops[full + 1] - cloth.tops[full])


def at_level(cloth: WorkedCloth, rows: Fraction) -> Fraction:
    """The width in cm ``rows`` rows up, on the straight line from the head of an edge stitch to the next one's, or
    where a level way leads to the next one's foot, of the nearer row; below the head of row 1 that of row 1. From 0 to
    the rows of the cloth."""
    at = max(rows, Fraction(1))
    return (_at(cloth, "right", at) - _at(cloth, "left", at)) * cloth.tape.half


def _at(cloth: WorkedCloth, side: Side, rows: Fraction) -> Fraction:
    heads = {part.row: part.head for part in cloth.side(side)}
    low = min(floor(rows), cloth.high)
    below, above = heads[low], heads[min(low + 1, cloth.high)]
    if any(part.level and part.row == low + 1 for part in cloth.side(side)):
        return Fraction(above if 2 * (rows - low) >= 1 else below)
    return below + (above - below) * (rows - low)


def shoulders(cloth: WorkedCloth) -> tuple[Fraction, ...]:
    """Each shoulder in cm, from row 1 or from the left: two, or none where the cloth has no neck."""
    found = cloth.edges["shoulder"] if "neck" in cloth.edges else ()
    if cloth.upper:
        return tuple(len(one.rows) * cloth.tape.row for one in found)
    return tuple(one.across * cloth.tape.half for one in found)


def neck_width(cloth: WorkedCloth) -> Fraction:
    """From shoulder to shoulder at the top, in cm; 0 without a neck."""
    if cloth.upper:
        taken = sum((wide for _, _, wide in upper_armholes(cloth)), sum(shoulders(cloth), Fraction(0)))
        return along(cloth) - taken if shoulders(cloth) else Fraction(0)
    if not cloth.inner:
        return Fraction(0)
    left, right = cloth.inner
    return (right[-1].head - left[-1].head) * cloth.tape.half


def neck_depth(cloth: WorkedCloth) -> Fraction:
    """How far the neck comes down from the shoulders, in cm: of a piece worked sideways the most that its upper edge
    lies from where it begins; 0 without a neck."""
    if cloth.upper:
        side = cloth.side(cloth.upper) if cloth.parts_up is None else cloth.edges.get("neck", (Stretch(),))[0].parts
        heads = [at for part in side for at in (part.foot, part.head)]
        return (max(heads, default=0) - min(heads, default=0)) * cloth.tape.half
    if not cloth.inner:
        return Fraction(0)
    return (cloth.high - (cloth.inner[0][0].row - 1)) * cloth.tape.row


def armhole(cloth: WorkedCloth, side: Side, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """Depth and width in cm of the armhole at a ``side`` of a piece worked upwards: from the foot of the row in which
    the edge goes in the most, near ``low`` rows up, to the head of that which ends ``high`` rows up."""
    uprights = {part.row: part for part in cloth.side(side) if not part.level}
    inwards = {row: _inwards(side, uprights[row - 1], part) for row, part in uprights.items() if row > 1}
    expected, last = floor(low) + 1, max(1, round(high))
    near = [row for row in inwards if abs(row - expected) <= 2 and row <= last]
    near.sort(key=lambda row: abs(row - expected))
    begins = max(near, key=inwards.__getitem__, default=expected)
    wide = sum(inwards[row] for row in range(max(begins, 2), last + 1))
    return cloth.tops[last] - cloth.tops[begins - 1], wide * cloth.tape.half


def _inwards(side: Side, below: EdgePart, part: EdgePart) -> int:
    """How many half clusters an edge stitch stands farther in than the one below it."""
    return below.head - part.head if side == "right" else part.head - below.head
