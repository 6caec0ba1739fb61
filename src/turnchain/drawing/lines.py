"""Lines through places in px: smoothed, moved aside, measured.

In: places in px. Out: places in px. "Out" of a line is at the right of its way as seen, y downwards: away from a piece
that is walked with the piece at the left hand.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import TypeAlias

Px: TypeAlias = tuple[float, float]

MITRE = 2.0  # where two parts meet, the outer line is at most so many times as far away


def smoothed(points: Sequence[Px], near: float) -> list[Px]:
    """As few of ``points`` as make a line from which none of them is farther than ``near`` px, both ends among them."""
    (x, y), (ex, ey) = points[0], points[-1]
    long = math.dist(points[0], points[-1]) or 1.0
    off = [abs((px - x) * (ey - y) - (py - y) * (ex - x)) / long for px, py in points]
    farthest = max(range(len(points)), key=lambda nth: off[nth])
    if off[farthest] <= near:
        return [points[0], points[-1]]
    return smoothed(points[: farthest + 1], near)[:-1] + smoothed(points[farthest:], near)


def between(one: Px, other: Px, share: float) -> Px:
    """The place so much of the way from one to the other."""
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def longest(line: Sequence[Px]) -> tuple[tuple[Px, Px], Px]:
    """The longest straight part of a line, and the way along it."""
    one, other = max(pairwise(line), key=lambda pair: math.dist(*pair))
    long = math.dist(one, other) or 1.0
    return (one, other), ((other[0] - one[0]) / long, (other[1] - one[1]) / long)


def offset(line: Sequence[Px], far: float) -> list[Px]:
    """The line ``far`` px outwards, mitred where its parts meet."""
    line = [point for nth, point in enumerate(line) if not nth or point != line[nth - 1]]
    outs = [_out(*pair) for pair in pairwise(line)]
    made = []
    for nth, (x, y) in enumerate(line):
        before, after = outs[max(0, nth - 1)], outs[min(nth, len(outs) - 1)]
        ox, oy = before[0] + after[0], before[1] + after[1]
        half = math.hypot(ox, oy) / 2  # the cosine of half the bend
        reach = far * min(MITRE, 1 / half) if half > 1e-6 else far
        long = math.hypot(ox, oy) or 1.0
        made.append((x + reach * ox / long, y + reach * oy / long))
    return made


def _out(one: Px, other: Px) -> Px:
    long = math.dist(one, other)
    return -(other[1] - one[1]) / long, (other[0] - one[0]) / long
