"""What a picture shows: symbols with their places, bands, row numbers; and the little geometry that reading them takes.

In: nothing. Out: ``Drawn``, a whole chart as a maker sees it, before any of it is worked; and ``UnreadableChart``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]
Sign: TypeAlias = Literal["dc", "lying", "standing", "dot"]


class UnreadableChart(Exception):
    """A picture that is no chart of this kind; says where."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A symbol: its ``foot`` and ``head`` in px (of an oval or a dot its middle, twice)."""

    sign: Sign
    foot: Point
    head: Point

    def moved(self, x: float, y: float) -> Mark:
        """The same symbol ``x`` and ``y`` px on."""
        (fx, fy), (hx, hy) = self.foot, self.head
        return Mark(self.sign, (fx + x, fy + y), (hx + x, hy + y))


@dataclass(frozen=True, slots=True)
class Band:
    """A stripe's colour ("#rrggbb") and its box in px: left, top, right, bottom."""

    colour: str
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What the picture shows: ``k`` dc to a cluster by its key; the ``rows`` in the order worked, each with its
    symbols and the y of its top; the x of the ``foundation``'s chains; bands; row numbers with their places."""

    k: int
    rows: tuple[tuple[float, tuple[Mark, ...]], ...]
    foundation: tuple[Point, ...]
    bands: tuple[Band, ...]
    numbers: tuple[tuple[int, Point], ...]


# ------------------------------------------------------------------------------------------------ the geometry


def between(a: Point, b: Point) -> Point:
    """The way from ``a`` to ``b``."""
    return b[0] - a[0], b[1] - a[1]


def halfway(line: Sequence[Point]) -> Point:
    """Half way along a straight line."""
    (x0, y0), (x1, y1) = line
    return (x0 + x1) / 2, (y0 + y1) / 2


def length(vector: Point) -> float:
    """How long a way is."""
    return hypot(*vector)
