"""What edgings take of their yarns.

In: a plan. Out: grams by yarn: the fabric of every row at the weight of the swatch, with the margin of the yarn
figures. The fabric follows from the length and the rows of each edging.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.fabric.plan import Plan
from turnchain.garment.edging import planned, ties
from turnchain.pattern import Yarn
from turnchain.yarns import figures


def by_yarn(plan: Plan) -> tuple[tuple[Yarn | None, Fraction], ...]:
    """Each yarn of an edging (None: the pattern names none) with its grams, not rounded; empty where no swatch was
    weighed."""
    per_area = figures.density(plan.pattern).likely
    found: dict[Yarn | None, Fraction] = {}
    for one in planned.of(plan) if per_area is not None else ():
        used = planned.yarn_of(plan, one.asked)
        tied = ties.of(plan, one)
        area = (one.area + (tied.area if tied else 0)) * one.count
        found[used] = found.get(used, Fraction(0)) + area * (per_area or 0)
    more = 1 + figures.margin_of(plan.pattern) / 100
    return tuple((used, grams * more) for used, grams in found.items())
