"""Corners of an open edge, outwards and inwards, and by how much it bends besides.

In: stretches that follow each other, walked with the piece at the left hand. Out: the bend where one ends and the next
begins, and within one, in radians, outwards positive. Across a seam the edge bends as both pieces together do.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import atan2, isclose, pi
from typing import Final, Literal, TypeAlias

from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.edges import Point
from turnchain.garment.openings import OpenStretch
from turnchain.garment.stretches import cut

Turn: TypeAlias = Literal["outer", "inner", ""]

#: An edge turns a corner outwards where it bends by this much or more; inwards, where fewer
#: stitches do, by more. [memory]
OUTER: Final = pi / 4
INNER: Final = pi / 3
#: So many rows on either side of a corner decide whether it is one. [memory]
ROWS_LOOKED_AT: Final = 3
_NEAR: Final = 1e-6  # radians, and cm


def corner(one: OpenStretch, other: OpenStretch) -> Turn:
    """The corner from one stretch to the ``other``, as the edge goes over a few rows on either side: a single row may
    lean otherwise than the edge does; "" where there is none, or a seam."""
    if not follows(one, other):
        return ""
    far = ROWS_LOOKED_AT * one.piece.gauge.row
    into, out = cut(one.stretch.points[::-1], Fraction(0), far), cut(other.stretch.points, Fraction(0), far)
    bend = _bend(_way(into[-1], into[0]), _way(out[0], out[-1]))
    if bend >= OUTER - _NEAR:
        return "outer"
    return "inner" if bend <= -INNER + _NEAR else ""


def within(one: OpenStretch) -> float:
    """How much a stretch bends from its beginning to its end."""
    ways = [_way(*pair) for pair in pairwise(one.stretch.points) if pair[0] != pair[1]]
    return sum((_bend(*pair) for pair in pairwise(ways)), 0.0)


def follows(one: OpenStretch, other: OpenStretch) -> bool:
    """Whether ``other`` begins on the same copy of a piece where ``one`` ends."""
    there = (one.piece.name, one.copy) == (other.piece.name, other.copy)
    return there and one.stretch.points[-1] == other.stretch.points[0]


def between(one: OpenStretch, other: OpenStretch) -> float:
    """How much the edge bends from the end of one stretch to the beginning of the ``other``."""
    into, out = _ways(one)[-1], _ways(other)[0]
    if follows(one, other):
        return _bend(into, out)
    after = _beside(one.piece, one.stretch.points[-1], onwards=True)
    before = _beside(other.piece, other.stretch.points[0], onwards=False)
    if after is None or before is None:
        return 0.0
    return _bend(into, after) + _bend(before, out) - pi


def _ways(one: OpenStretch) -> list[Point]:
    return [_way(*pair) for pair in pairwise(one.stretch.points) if pair[0] != pair[1]]


def _beside(piece: PiecePlan, place: Point, onwards: bool) -> Point | None:
    """The way of the outline after a ``place`` on it (``onwards``), or before it."""
    points = [point for run in edges.around(piece) for point in run.points]
    for low, high in pairwise([*points, points[0]]):
        if low != high and _on(place, low, high) and place != (high if onwards else low):
            return _way(low, high)
    return None


def _on(place: Point, low: Point, high: Point) -> bool:
    """Whether a place lies on a straight line, its ends included."""
    (x, y), (dx, dy) = _way(low, place), _way(low, high)
    off, along = float(x * dy - y * dx), float(x * dx + y * dy)
    whole = float(dx * dx + dy * dy)
    return isclose(off, 0.0, abs_tol=_NEAR * whole) and -_NEAR <= along / whole <= 1 + _NEAR


def _way(one: Point, other: Point) -> Point:
    return other[0] - one[0], other[1] - one[1]


def _bend(into: Point, out: Point) -> float:
    cross = float(into[0] * out[1] - into[1] * out[0])
    return atan2(cross, float(into[0] * out[0] + into[1] * out[1]))
