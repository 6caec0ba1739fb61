"""Hatching by which stripes differ without colour.

In: a number and the corners of a band. Out: faint strokes within the band. Twenty-five kinds, then they come again; the
letters beside a chart differ in any case.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.numbers import rounded
from turnchain.scene import Item, Path, Step

Point = tuple[float, float]
Way = tuple[float, float, float]  # strokes on a x + b y = n, and how far apart they lie in spacings

INK = "#000000"
OPACITY = 0.42  # of the strokes, 0 to 1
SPACING = 15.0  # px between strokes at the reference width
DASH = (0.55, 0.4)  # spacings of ink and of air in a broken stroke

_RISING, _FALLING, _LEVEL, _UPRIGHT = (1.0, 1.0, 1.35), (1.0, -1.0, 1.35), (0.0, 1.0, 0.7), (1.0, 0.0, 1.0)
#: The ways strokes run, from the plainest on: each comes whole and broken, wide and close.
_WAYS: tuple[tuple[Way, ...], ...] = (
    (_RISING,),
    (_LEVEL,),
    (_FALLING,),
    (_RISING, _FALLING),
    (_UPRIGHT,),
    (_LEVEL, _UPRIGHT),
)
#: How close, and whether broken: all ways wide and whole first.
_TEXTURES = ((1.0, False), (0.5, False), (1.0, True), (0.5, True))
#: Plain first.
KINDS: tuple[tuple[tuple[Way, ...], float, bool], ...] = (
    ((), 1.0, False),
    *((ways, close, broken) for close, broken in _TEXTURES for ways in _WAYS),
)


def hatched(kind: int, corners: list[Point], unit: float) -> list[Item]:
    """The strokes of hatching ``kind`` (from 0, which is plain; they repeat after ``len(KINDS)``) in the band with
    these ``corners`` (px, in order around it), ``unit`` px of the picture to a px at the reference width. Empty for the
    plain kind and for a band between two strokes."""
    ways, close, broken = KINDS[kind % len(KINDS)]
    spacing = SPACING * unit
    steps = tuple(step for a, b, apart in ways for step in _strokes(corners, a, b, apart * close * spacing))
    if not steps:
        return []
    dash = tuple(rounded(length * spacing) for length in DASH) if broken else ()
    thick = rounded(max(0.7, 1.0 * unit))
    return [Path(steps, stroke=INK, width=thick, cap="butt", opacity=OPACITY, dash=dash)]


def _strokes(corners: list[Point], a: float, b: float, spacing: float) -> Iterator[Step]:
    """Strokes on the lines a x + b y = n spacing that cross the polygon, so that neighbouring bands of one kind
    join."""
    values = [a * x + b * y for x, y in corners]
    line = (min(values) - 1) // spacing + 1
    while line * spacing + 1 < max(values):
        at = line * spacing + 1
        crossings = sorted(_crossings(corners, values, at))
        for one, other in zip(crossings[::2], crossings[1::2], strict=False):
            yield ("M", *one)
            yield ("L", *other)
        line += 1


def _crossings(corners: list[Point], values: list[float], at: float) -> Iterator[Point]:
    """Where the line on which the value is ``at`` crosses the sides of the polygon."""
    for index, value in enumerate(values):
        following = (index + 1) % len(values)
        if (value < at) != (values[following] < at):
            share = (at - value) / (values[following] - value)
            (x0, y0), (x1, y1) = corners[index], corners[following]
            yield rounded(x0 + (x1 - x0) * share), rounded(y0 + (y1 - y0) * share)
