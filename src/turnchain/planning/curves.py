"""Wanted edges: how far an edge should stand at every height of a piece.

In: measurements in cm. Out: a ``Curve``, straight between its points, exact. Stitches do not come into it.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from operator import itemgetter

from turnchain.numbers import nearest
from turnchain.records import frozen


@frozen
class Curve:
    """``points`` are (height, reach): heights from 0 and never falling, both in the unit of the caller.

    Two points at one height are a jump; a row that ends just there still belongs to what is below it.
    """

    points: tuple[tuple[Fraction, Fraction], ...]

    @property
    def height(self) -> Fraction:
        """The height of the last point."""
        return self.points[-1][0]

    @property
    def straight(self) -> bool:
        """Whether the reach is the same at every height."""
        return len({reach for _, reach in self.points}) == 1

    @property
    def symmetrical(self) -> bool:
        """Whether the curve read from the top is the curve read from the bottom."""
        middle = self.height
        heights = {height for height, _ in self.points} | {middle - height for height, _ in self.points}
        return all(self.at(y) == self.after(middle - y) for y in heights)

    @property
    def jumps_out(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """The points at whose height the reach grows suddenly, each the one below the jump."""
        return tuple(low for low, high in pairwise(self.points) if low[0] == high[0] and high[1] > low[1])

    @property
    def jumps_outwards(self) -> bool:
        """Whether the reach grows suddenly somewhere."""
        return bool(self.jumps_out)

    def at(self, height: Fraction) -> Fraction:
        """The reach at ``height``; at a jump that below it. Outside the curve its end goes on."""
        index = bisect_left(self.points, height, key=_height_of)
        if index == len(self.points):
            return self.points[-1][1]
        return _between(self.points[max(index - 1, 0)], self.points[index], height)

    def sampled(self, heights: Sequence[Fraction]) -> list[Fraction]:
        """The reach ``at`` each of ``heights``, which must never fall: all at once in whole numbers, which is ten times
        faster than fraction by fraction."""
        ys, _ = _whole([*(y for y, _ in self.points), *heights])
        return [Fraction(*reach) for reach in self._reaches(ys)]

    def in_parts(self, rows: Iterable[int], row: Fraction, part: Fraction) -> list[int]:
        """The reach ``at`` the tops of ``rows``, whose numbers must never fall, where each is ``row`` high: in whole
        ``part`` s of the reach's unit, to the nearest, halfway to the even one."""
        *ys, high = _whole([*(y for y, _ in self.points), row])[0]
        found = self._reaches([*ys, *(number * high for number in rows)])
        return [nearest(reach * part.denominator, whole * part.numerator) for reach, whole in found]

    def _reaches(self, ys: Sequence[int]) -> Iterator[tuple[int, int]]:
        """The reach at every height that ``ys`` has after those of the points, all in one unit: a numerator and a
        denominator."""
        count, last, index = len(self.points), len(self.points) - 1, 0
        xs, unit = _whole([x for _, x in self.points])
        for height in ys[count:]:
            while index < count and ys[index] < height:
                index += 1
            if not 0 < index < count or ys[index] == height:
                yield xs[min(index, last)], unit
                continue
            rise, run = ys[index] - ys[index - 1], xs[index] - xs[index - 1]
            yield xs[index - 1] * rise + run * (height - ys[index - 1]), rise * unit

    def after(self, height: Fraction) -> Fraction:
        """The reach at ``height``; at a jump that above it. Outside the curve its end goes on."""
        index = bisect_right(self.points, height, key=_height_of)
        if index == 0:
            return self.points[0][1]
        return _between(self.points[index - 1], self.points[min(index, len(self.points) - 1)], height)

    def scaled(self, factor: Fraction, shift: Fraction = Fraction(0)) -> Curve:
        """The curve with every reach times ``factor`` plus ``shift``; its heights stay."""
        return Curve(tuple((height, reach * factor + shift) for height, reach in self.points))


_height_of = itemgetter(0)


def _whole(values: Sequence[Fraction]) -> tuple[list[int], int]:
    """``values`` in parts of one unit, and how many of them a whole has."""
    unit = math.lcm(*{value.denominator for value in values})
    return [value.numerator * (unit // value.denominator) for value in values], unit


def _between(low: tuple[Fraction, Fraction], high: tuple[Fraction, Fraction], height: Fraction) -> Fraction:
    (y0, x0), (y1, x1) = low, high
    if y1 == y0 or height >= y1:
        return x1 if height >= y1 else x0
    if height <= y0:
        return x0
    return x0 + (x1 - x0) * (height - y0) / (y1 - y0)


# A quarter of an ellipse is drawn with this many straight pieces: nowhere a thousandth of its size off.
QUARTER_PIECES = 24


def neck_depths(
    shape: str, width: Fraction, shoulder: Fraction, depth: Fraction, slope: Fraction
) -> Curve:
    """How deep a neck is at every place across a body ``width`` cm wide, as worn: for a piece worked sideways.

    The curve's heights are cm from one side of the body to the other, its reaches cm of depth (0 at the shoulders).
    ``shape`` is a ``NeckShape``; ``slope`` is how many cm of depth a slant gains per cm of width (half a pitch a
    row). Where two slants meet before they are deep enough, the neck is as deep as they reach.
    """
    half = width / 2 - shoulder
    zero = Fraction(0)
    if shape == "slant":
        reach = min(depth, half * slope)
        profile = [(half, zero), (half - reach / slope, reach)]
    elif shape == "vee":
        profile = [(half, zero), (zero, depth)]
    elif shape == "square":
        profile = [(half, zero), (half, depth)]
    else:
        profile = [(half * along, depth * down) for along, down in _quarter()]
    middle = width / 2
    points = [(zero, zero), *((middle - out, deep) for out, deep in profile)]
    mirrored = [(width - place, deep) for place, deep in reversed(points)]
    return Curve(tuple(_without_doubles([*points, *mirrored])))


def neck_opening(shape: str, height: Fraction, width: Fraction, depth: Fraction, slope: Fraction) -> Curve:
    """Half the opening in cm of a neck, ``width`` cm wide at the top, at every height from its bottom to the top of a
    piece worked upwards, ``height`` cm high; the first point is the bottom.

    ``slope`` is how many cm one side of a slant goes out per cm of height (half a pitch a row).
    """
    half, bottom = width / 2, height - depth
    zero = Fraction(0)
    if shape == "slant":
        rise = min(depth, half / slope)
        return Curve(((height - rise, half - rise * slope), (height, half)))
    if shape == "vee":
        return Curve(((bottom, zero), (height, half)))
    if shape == "square":
        return Curve(((bottom, half), (height, half)))
    profile = [(height - depth * down, half * along) for along, down in _quarter()]
    return Curve(tuple(reversed(profile)))


def _quarter() -> list[tuple[Fraction, Fraction]]:
    """A quarter of the unit circle from (1, 0) to (0, 1)."""
    turn = [math.pi / 2 * nth / QUARTER_PIECES for nth in range(QUARTER_PIECES + 1)]
    return [(_millionths(math.cos(angle)), _millionths(math.sin(angle))) for angle in turn]


def _millionths(value: float) -> Fraction:
    return Fraction(round(value * 10**6), 10**6)


def _without_doubles(points: list[tuple[Fraction, Fraction]]) -> list[tuple[Fraction, Fraction]]:
    return [point for index, point in enumerate(points) if index == 0 or point != points[index - 1]]
