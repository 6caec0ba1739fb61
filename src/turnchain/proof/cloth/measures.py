"""The measures of a worked piece, taken on the cloth.

In: a ``WorkedCloth``. Out: cm: how wide and high it is, its shoulders one by one, its neck. A shoulder of a piece
worked sideways is counted in rows that end straight at the upper edge; of one worked upwards it is the top of a part.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from turnchain.proof.cloth.edges import Side, WorkedCloth


def across(cloth: WorkedCloth) -> Fraction:
    """The width of row 1."""
    return (cloth.rows[0].right.at - cloth.rows[0].left.at) * cloth.tape.half


def along(cloth: WorkedCloth) -> Fraction:
    """The height of all rows."""
    return cloth.high * cloth.tape.row


def panel(cloth: WorkedCloth, sideways: bool) -> dict[str, Fraction]:
    """Width and length of a panel as worn."""
    wide, high = (along(cloth), across(cloth)) if sideways else (across(cloth), along(cloth))
    return {"width": wide, "length": high}


def at_level(cloth: WorkedCloth, rows: Fraction) -> Fraction:
    """The width ``rows`` rows up, from head to head of the edge stitches below and above; row 1 below its head."""
    at = max(rows, Fraction(1))
    return (_at(cloth, "right", at) - _at(cloth, "left", at)) * cloth.tape.half


def _at(cloth: WorkedCloth, side: Side, rows: Fraction) -> Fraction:
    heads = {part.row: part.head for part in cloth.side(side)}
    low = min(floor(rows), cloth.high)
    below, above = heads[low], heads[min(low + 1, cloth.high)]
    return below + (above - below) * (rows - low)


def shoulders(cloth: WorkedCloth) -> tuple[Fraction, ...]:
    """Each shoulder: two, or none where there is no neck."""
    found = cloth.edges["shoulder"] if "neck" in cloth.edges else ()
    if cloth.upper:
        return tuple(len(one.rows) * cloth.tape.row for one in found)
    return tuple(one.across * cloth.tape.half for one in found)


def neck_width(cloth: WorkedCloth) -> Fraction:
    """From shoulder to shoulder at the top."""
    if cloth.upper:
        return along(cloth) - sum(shoulders(cloth), Fraction(0)) if shoulders(cloth) else Fraction(0)
    if not cloth.inner:
        return Fraction(0)
    left, right = cloth.inner
    return (right[-1].head - left[-1].head) * cloth.tape.half


def neck_depth(cloth: WorkedCloth) -> Fraction:
    """How far the neck comes down from the shoulders."""
    if cloth.upper:
        side = cloth.side(cloth.upper)
        return max(abs(part.head - side[0].foot) for part in side) * cloth.tape.half
    if not cloth.inner:
        return Fraction(0)
    return (cloth.high - (cloth.inner[0][0].row - 1)) * cloth.tape.row
