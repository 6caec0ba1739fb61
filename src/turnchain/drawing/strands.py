"""The strands of worked cloth: one stitch as yarn, seen close up.

In: where a stitch has its foot and its head, in half pitches to the right and rows up. Out: the steps of its outline,
its shaded and light sides and the turns of its ply, in px by a ``Placing``.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import TypeAlias

from turnchain.numbers import rounded
from turnchain.records import frozen, replace
from turnchain.scene import INK, Path, Step

Px: TypeAlias = tuple[float, float]
#: Takes a place (half pitches to the right, rows up) to px from the origin of a definition.
Placing: TypeAlias = Callable[[float, float], Px]

LAYERS = ("edge", "body", "shade", "ply", "light")  # of a strand, each in the shade of its name
FINE_LAYERS = ("edge", "body", "light")  # of a strand too fine for the turns of its ply to be seen
FINE = 7.0  # px: a strand less broad is drawn in these
NARROWED = 0.60  # of such a strand is its body, so that the edge shows between bodies side by side
SHARES = (0.0, 0.035, 0.12, 0.3, 0.52, 0.74, 0.9, 0.97, 1.0)  # along a strand, where its outline is measured
WIDEST = 0.72  # where along it a strand is widest
TURNS = 5  # of the ply along a strand


@frozen
class Strand:
    """A strand from ``foot`` to ``head`` (half pitches, rows); ``thin`` and ``wide`` are half its breadth at the foot
    and below its head (half pitches)."""

    foot: Px
    head: Px
    thin: float
    wide: float

    def centre(self, share: float) -> Px:
        """The place (half pitches, rows) at a ``share`` (0 to 1) of the way up; it leaves the foot steeply and leans
        out later."""
        lean = share * share * (3 - 2 * share)
        (x0, y0), (x1, y1) = self.foot, self.head
        return x0 + (x1 - x0) * (0.6 * lean + 0.4 * share), y0 + (y1 - y0) * share

    def breadth(self, share: float) -> float:
        """Half the breadth at a ``share`` of the way up, in half pitches; 0 at both ends, which are round."""
        grown = min(1.0, share / WIDEST)
        body = self.thin + (self.wide - self.thin) * math.sin(grown * math.pi / 2)
        near = min(share / 0.12, (1 - share) / 0.10, 1.0)
        return body * math.sqrt(max(0.0, 1 - (1 - near) ** 2))

    def outline(self, place: Placing) -> list[Step]:
        """The closed outline of the whole strand, in px by ``place``, which takes half pitches to the right and rows
        up."""
        right = [self._beside(share, 1.0) for share in SHARES]
        left = [self._beside(share, -1.0) for share in SHARES[-2:0:-1]]
        return smooth([place(*at) for at in (*right, *left)])

    def side(self, place: Placing, inner: float) -> list[Step]:
        """The strip between the right edge of the strand (the left one, where ``inner`` is negative) and a line at
        ``inner`` of its half breadth."""
        shares = SHARES[1:-1]
        out = [self._beside(share, math.copysign(0.97, inner)) for share in shares]
        back = [self._beside(share, inner) for share in reversed(shares)]
        return smooth([place(*at) for at in (*out, *back)])

    def gleam(self, place: Placing, across: float) -> list[Step]:
        """An open stroke of light along the strand, at ``across`` (-1 to 1) of its half breadth, from the middle up."""
        points = [place(*self._beside(share, across)) for share in (0.48, 0.62, 0.76, 0.88)]
        return [("M", *points[0]), *(("L", *point) for point in points[1:])]

    def ply(self, place: Placing) -> Iterable[Step]:
        """The turns of the ply: ``TURNS`` short slanting strokes, all open."""
        for turn in range(TURNS):
            share = 0.14 + 0.74 * turn / (TURNS - 1)
            (x0, y0), (x1, y1) = self._beside(share - 0.06, -0.86), self._beside(share + 0.07, 0.86)
            third, rise = (x1 - x0) / 3, y1 - y0
            yield ("M", *place(x0, y0))
            yield ("C", *place(x0 + third, y0 + 0.1 * rise), *place(x1 - third, y1 - 0.1 * rise), *place(x1, y1))

    def _beside(self, share: float, across: float) -> Px:
        x, y = self.centre(share)
        return x + across * self.breadth(share), y


@frozen
class Drawer:
    """Draws strands by ``place`` with lines ``line`` px broad; ``shaded`` is the side (1.0: the right one) away from
    the page's upper left."""

    place: Placing
    line: float
    shaded: float

    def layer(self, strand: Strand, layer: str) -> Path:
        """One of the ``LAYERS`` of a strand, in the ink of its use."""
        match layer:
            case "edge":
                outline = tuple(strand.outline(self.place))
                return Path(outline, fill=INK, stroke=INK, width=rounded(2 * self.line))
            case "body":
                return Path(tuple(strand.outline(self.place)), fill=INK)
            case "shade":
                return Path(tuple(strand.side(self.place, 0.34 * self.shaded)), fill=INK)
            case "ply":
                return Path(tuple(strand.ply(self.place)), stroke=INK, width=self.line, cap="butt")
        gleam = strand.gleam(self.place, -0.45 * self.shaded)
        return Path(tuple(gleam), stroke=INK, width=rounded(2.4 * self.line))

    def fine_layer(self, strands: Iterable[Strand], layer: str) -> Path:
        """One of the ``FINE_LAYERS`` of several strands, as one shape."""
        if layer == "body":
            strands = [replace(one, thin=NARROWED * one.thin, wide=NARROWED * one.wide) for one in strands]
        shapes = [self.layer(strand, layer) for strand in strands]
        return replace(shapes[0], steps=tuple(step for shape in shapes for step in shape.steps))


def smooth(points: Sequence[Px]) -> list[Step]:
    """A closed curve through ``points`` (Catmull and Rom's spline as cubic Bezier curves)."""
    count = len(points)
    steps: list[Step] = [("M", *points[0])]
    for index, (start, end) in enumerate(pairwise((*points, points[0]))):
        before, after = points[index - 1], points[(index + 2) % count]
        one = (start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6)
        other = (end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6)
        steps.append(("C", *_tidy(one), *_tidy(other), *end))
    return [*steps, ("Z",)]


def _tidy(point: Px) -> Px:
    return round(point[0], 2), round(point[1], 2)
