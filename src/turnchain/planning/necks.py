"""Reading a neck off a worked edge.

In: the positions of a planned panel. Out: shoulder, depth and width of its neck in cm.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.fabric.gauge import Gauge
from turnchain.planning.targets import Target


def neck_of(
    target: Target, gauge: Gauge, left: tuple[int, ...], right: tuple[int, ...]
) -> tuple[Fraction, Fraction, Fraction]:
    """Shoulder, depth and neck width in cm of the shaped edge of a panel worked sideways.

    The shoulder is the rows before the first shaping; where the two shoulders differ, their mean. A row that
    stands out again has leant there from the row below, so the last shoulder has a row less than stands out.
    """
    side = left if target.right.straight else right
    inward = [abs(at - side[0]) for at in side]
    if not any(inward):
        return len(side) * gauge.row / 2, Fraction(0), Fraction(0)
    before = next(i for i, depth in enumerate(inward) if depth)
    after = max(0, next(i for i, depth in enumerate(reversed(inward)) if depth) - 1)
    shoulder = Fraction(before + after, 2) * gauge.row
    return shoulder, max(inward) * gauge.half, (len(side) - before - after) * gauge.row
