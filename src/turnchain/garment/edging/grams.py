"""What edgings take of their yarns.

In: a plan, and how heavy its fabric is. Out: square cm by yarn, every row and tie of each edging, which follow from its
length and its rows; and grams of them.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.fabric.plan import Plan
from turnchain.garment.edging import planned, ties
from turnchain.pattern import Yarn


def areas(plan: Plan) -> dict[Yarn | None, Fraction]:
    """The fabric of the edgings in each yarn (None: the pattern names none), in square cm, in the order they are told.
    Raises MakerError where one cannot be planned."""
    found: dict[Yarn | None, Fraction] = {}
    for one in planned.of(plan):
        used, tied = planned.yarn_of(plan, one.asked), ties.of(plan, one)
        area = one.area + (tied.area if tied else 0)
        found[used] = found.get(used, Fraction(0)) + area * one.count
    return found
