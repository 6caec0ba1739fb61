"""How a seam is sewn evenly where its sides differ in number: 2 rows to 1 cluster, at every 6th cluster 3.

In: a ``PlannedSeam``. Out: an ``Evenly``, exact: what it says comes to all rows and clusters of both sides. Source of
the spreading: "Knitting and the Magic Formula": a whole quotient, and what is over at even distances.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, TypeAlias

from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.records import frozen

Unit: TypeAlias = Literal["row", "cluster", "half cluster", "stitch", "row end"]


@frozen
class Evenly:
    """``each`` of the ``many`` meet one of the ``few``; at every ``every``-th of the few, ``times`` times in all, it is
    ``other`` of them (``times`` 0: never)."""

    many: Unit
    few: Unit
    each: int
    other: int = 0
    every: int = 0
    times: int = 0


def evenly(seam: PlannedSeam) -> Evenly | None:
    """How to sew a seam; None where both sides have as many of the same, and for the cap of a sleeve and for steps,
    which are sewn by eye."""
    sides = seam.one, seam.other
    if any(side.mixed or side.steps for side in sides):
        return None
    halved = any(side.unit == "clusters" and round(2 * side.count) % 2 for side in sides)
    found = [_count(side, halved) for side in sides]
    (few, one), (many, other) = sorted(found, key=lambda side: side[0])
    if few == 0 or (few == many and one == other):
        return None
    return spread(many, few, other, one)


def _count(side: SeamSide, halved: bool) -> tuple[int, Unit]:
    """How many rows or clusters a side has, or half clusters where one side has an odd number of them."""
    if side.unit == "rows":
        return int(side.count), "row"
    halves = round(2 * side.count)
    return (halves, "half cluster") if halved else (halves // 2, "cluster")


def spread(many: int, few: int, of: Unit, to: Unit) -> Evenly:
    """``many`` over ``few`` (1 or more, and no more than ``many``), evenly."""
    each, over = divmod(many, few)
    if not over:
        return Evenly(of, to, each)
    if 2 * over <= few:
        return Evenly(of, to, each, each + 1, few // over, over)
    return Evenly(of, to, each + 1, each, few // (few - over), few - over)


def inset(side: SeamSide) -> Fraction:
    """How far a side that takes a part of a row or chain, and neither end of it, is from the nearer end, in clusters; 0
    for all others."""
    if side.unit == "rows" or len(side.stretches) != 1:
        return Fraction(0)
    (stretch,) = side.stretches
    return min(stretch.start, stretch.run.length - stretch.end) / side.piece.gauge.pitch
