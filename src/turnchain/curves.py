"""Wanted edges: how far an edge should stand at every height of a piece.

In: measurements in cm. Out: a ``Curve``, straight between its points, exact. Knows nothing of stitches.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
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
    def jumps_outwards(self) -> bool:
        """Whether the reach grows suddenly somewhere."""
        pairs = zip(self.points, self.points[1:], strict=False)
        return any(y0 == y1 and x1 > x0 for (y0, x0), (y1, x1) in pairs)

    def at(self, height: Fraction) -> Fraction:
        """The reach at ``height``; at a jump that below it. Outside the curve its end goes on."""
        previous = self.points[0]
        for point in self.points:
            if point[0] >= height:
                return _between(previous, point, height)
            previous = point
        return previous[1]

    def after(self, height: Fraction) -> Fraction:
        """The reach at ``height``; at a jump that above it."""
        previous = self.points[-1]
        for point in reversed(self.points):
            if point[0] <= height:
                return _between(point, previous, height)
            previous = point
        return previous[1]

    def scaled(self, factor: Fraction, shift: Fraction = Fraction(0)) -> Curve:
        """Every reach times ``factor`` plus ``shift``."""
        return Curve(tuple((height, reach * factor + shift) for height, reach in self.points))


def _between(low: tuple[Fraction, Fraction], high: tuple[Fraction, Fraction], height: Fraction) -> Fraction:
    (y0, x0), (y1, x1) = low, high
    if y1 == y0 or height >= y1:
        return x1 if height >= y1 else x0
    if height <= y0:
        return x0
    return x0 + (x1 - x0) * (height - y0) / (y1 - y0)


def slant_neck(width: Fraction, shoulder: Fraction, depth: Fraction, slope: Fraction) -> Curve:
    """How deep a slant neck goes in at every place across a body ``width`` cm wide, as worn.

    It goes in by ``slope`` cm per cm (half a pitch a row) to its depth, and comes out alike. Where the two
    slants meet before they are deep enough, the neck is as deep as they reach.
    """
    room = (width - 2 * shoulder) / 2
    reach = min(depth, room * slope)
    run = reach / slope
    zero = Fraction(0)
    return Curve(
        (
            (zero, zero),
            (shoulder, zero),
            (shoulder + run, reach),
            (width - shoulder - run, reach),
            (width - shoulder, zero),
            (width, zero),
        )
    )
