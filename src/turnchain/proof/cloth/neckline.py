"""A neck as a tape laid along it runs: tight over the small corners of rows and steps.

In: a ``WorkedCloth``. Out: cm round its neck, and straight across.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import atan2, dist

from turnchain.proof.cloth.edges import EdgePart, WorkedCloth

_Point = tuple[float, float]


def around(cloth: WorkedCloth) -> float:
    """The length of the neck in cm along the cloth below it; 0 where it has none."""
    points = set(_points(cloth))
    if not points:
        return 0.0
    here, end, long = min(points, key=lambda point: (point[0], -point[1])), max(points), 0.0
    while here != end:
        points.discard(here)
        further = [point for point in points if point[0] >= here[0]]
        following = min(further, key=lambda point: (_slope(here, point), -dist(here, point)))
        long, here = long + dist(here, following), following
    return long


def across(cloth: WorkedCloth) -> float:
    """From one end of the neck straight to the other, in cm along the piece as worn; 0 where it has none."""
    xs = [x for x, _ in _points(cloth)]
    return max(xs) - min(xs) if xs else 0.0


def _slope(one: _Point, other: _Point) -> float:
    return round(atan2(other[1] - one[1], other[0] - one[0]), 9)


def _points(cloth: WorkedCloth) -> Iterator[_Point]:
    """Every corner of the neck, in cm as worn: from the left, and upwards."""
    if "neck" not in cloth.edges:
        return
    half, row = float(cloth.tape.half), float(cloth.tape.row)
    up = -1 if cloth.upper == "left" else 1
    for run in cloth.edges["neck"]:
        for at, rows in _corners(run.parts):
            yield (rows * row, up * at * half) if cloth.upper else (at * half, rows * row)


def _corners(parts: Sequence[EdgePart]) -> Iterator[tuple[int, int]]:
    """Both ends of each part: half clusters across, and rows up."""
    for part in parts:
        yield part.foot, part.row - 1
        yield part.head, part.row - 1 if part.level else part.row
