"""Hatching that tells stripes apart without colour.

In: a number and the corners of a band. Out: quiet strokes within the band. Eight kinds, then they come again; the
letters beside a chart always tell more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from turnchain.numbers import rounded
from turnchain.scene import Item, Path, Step

Point = tuple[float, float]
INK = "#000000"
OPACITY = 0.5
SPACING = 13.0  # px between strokes at the reference width


def hatched(kind: int, corners: list[Point], unit: float) -> list[Item]:
    """The strokes of hatching ``kind`` (0 is plain) in the convex band with these ``corners``."""
    steps = tuple(step for direction in KINDS[kind % len(KINDS)] for step in direction(corners, SPACING * unit))
    if not steps:
        return []
    return [Path(steps, stroke=INK, width=rounded(max(0.7, 1.1 * unit)), cap="butt", opacity=OPACITY)]


def _strokes(corners: list[Point], a: float, b: float, spacing: float, offset: float = 0.0) -> Iterator[Step]:
    """Strokes on the lines a x + b y = n spacing (+ offset) that cross the polygon, so that neighbouring bands of
    one kind join."""
    values = [a * x + b * y for x, y in corners]
    line = (min(values) - offset) // spacing + 1
    while line * spacing + offset < max(values):
        at = line * spacing + offset
        crossings = []
        for index, value in enumerate(values):
            following = (index + 1) % len(values)
            if (value < at) != (values[following] < at):
                share = (at - value) / (values[following] - value)
                (x0, y0), (x1, y1) = corners[index], corners[following]
                crossings.append((rounded(x0 + (x1 - x0) * share), rounded(y0 + (y1 - y0) * share)))
        if len(crossings) == 2:
            yield ("M", *crossings[0])
            yield ("L", *crossings[1])
        line += 1


def _level(corners: list[Point], spacing: float) -> Iterator[Step]:
    return _strokes(corners, 0, 1, spacing * 0.62, 1.0)


def _upright(corners: list[Point], spacing: float) -> Iterator[Step]:
    return _strokes(corners, 1, 0, spacing)


def _rising(corners: list[Point], spacing: float) -> Iterator[Step]:
    return _strokes(corners, 1, 1, spacing * 1.35)


def _falling(corners: list[Point], spacing: float) -> Iterator[Step]:
    return _strokes(corners, 1, -1, spacing * 1.35)


def _dense(corners: list[Point], spacing: float) -> Iterator[Step]:
    return _strokes(corners, 1, 1, spacing * 0.62)


Direction = Callable[[list[Point], float], Iterator[Step]]
KINDS: tuple[tuple[Direction, ...], ...] = (
    (),
    (_rising,),
    (_level,),
    (_falling,),
    (_rising, _falling),
    (_upright,),
    (_dense,),
    (_level, _upright),
)
