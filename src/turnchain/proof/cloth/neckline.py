"""A neck as a tape laid along it runs: tight over the small corners of rows and steps.

In: a ``WorkedCloth``. Out: cm round its neck, and straight across.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, dist, pi

from turnchain.proof.cloth.edges import EdgePart, WorkedCloth

_Point = tuple[float, float]
_SAME = 1e-9  # cm


def around(cloth: WorkedCloth) -> float:
    """The length of the neck in cm along the cloth below it; 0 where it has none."""
    points, here, long = _points(cloth), 0, 0.0
    while here + 1 < len(points):
        further = range(here + 1, len(points))
        following = min(further, key=lambda nth: (_slope(points[here], points[nth]), -dist(points[here], points[nth])))
        long, here = long + dist(points[here], points[following]), following
    return long


def across(cloth: WorkedCloth) -> float:
    """From one end of the neck straight to the other, in cm along the piece as worn; 0 where it has none."""
    points = _points(cloth)
    return abs(points[-1][0] - points[0][0]) if points else 0.0


def _slope(one: _Point, other: _Point) -> float:
    """The angle of the way to another point, from straight down on: what leans over the neck comes last."""
    if dist(one, other) < _SAME:
        return -pi
    return round((atan2(other[1] - one[1], other[0] - one[0]) + pi / 2) % (2 * pi), 9)


def _points(cloth: WorkedCloth) -> list[_Point]:
    """Every corner of the neck, in cm as worn, along it from its left end to its right one."""
    half, row = float(cloth.tape.half), float(cloth.tape.row)
    up = -1 if cloth.upper == "left" else 1
    runs = [list(_corners(run.parts)) for run in cloth.edges.get("neck", ())]
    if not cloth.upper and runs:
        runs[0].reverse()  # down to the bottom, and up again
    corners = [corner for run in runs for corner in run]
    return [(rows * row, up * at * half) if cloth.upper else (at * half, rows * row) for at, rows in corners]


def _corners(parts: Sequence[EdgePart]) -> Iterator[tuple[int, int]]:
    """Both ends of each part: half clusters across, and rows up."""
    for part in parts:
        yield part.foot, part.row - 1
        yield part.head, part.row - 1 if part.level else part.row
