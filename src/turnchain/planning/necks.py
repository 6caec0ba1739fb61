"""A neck on the lattice: its measures, counted, and how near they come to what is wanted.

In: the edge lines of a plan. Out: a ``WorkedNeck``. Everything printed about a neck comes from here, and this from the
worked rows.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from turnchain.fabric.gauge import Gauge
from turnchain.planning.moves import micro
from turnchain.planning.targets import NeckTarget
from turnchain.records import frozen

NECK_MEASURES = ("shoulder", "first shoulder", "second shoulder", "neck depth", "neck width")


@frozen
class WorkedNeck:
    """The two ``shoulders`` (that worked first comes first), ``depth`` and ``width`` of a neck: along the work in rows,
    across it in half pitches. ``sideways``: shoulders and width run along the work, the depth across it."""

    shoulders: tuple[int, int]
    depth: int
    width: int
    sideways: bool

    def in_cm(self, gauge: Gauge) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """First shoulder, second shoulder, depth and width in cm."""
        along, across = (gauge.row, gauge.half) if self.sideways else (gauge.half, gauge.row)
        first, second = self.shoulders
        return first * along, second * along, self.depth * across, self.width * along

    def off(self, wanted: NeckTarget, gauge: Gauge) -> NeckErrors:
        """How far it is from what is wanted, in millionths of a cm; the depth against ``wanted.reach``, and of two
        shoulders the one that is farther off."""
        return _off(self, wanted, gauge)


@frozen
class NeckErrors:
    """Errors of a neck's measures in millionths of a cm. ``named``: how many are out of their ``tolerances``, and by
    how much the worst of these is off."""

    named: tuple[int, int] = (0, 0)
    shoulder: int = 0
    depth: int = 0
    width: int = 0


class Roundness(NamedTuple):
    """How a round neck keeps to the ellipse through its measures. ``off``: the top of some row is more than half a
    pitch from it. ``corner``: only the top of the neck's last row is, the foot of a step back. Both are False where it
    keeps to it, and for every other shape."""

    off: bool = False
    corner: bool = False


@lru_cache(1 << 10)  # candidates ask the same of many bodies
def _off(neck: WorkedNeck, wanted: NeckTarget, gauge: Gauge) -> NeckErrors:
    """As ``WorkedNeck.off``."""
    first, second, depth, width = (
        abs(worked - asked)
        for worked, asked in zip(
            neck.in_cm(gauge), (wanted.shoulder, wanted.shoulder, wanted.reach, wanted.width), strict=True
        )
    )
    along, across = tolerances(gauge, neck.sideways)
    pairs = ((first, along), (second, along), (depth, across), (width, along))
    missed = [micro(off) for off, most in pairs if off > most]
    named = (len(missed), max(missed, default=0))
    return NeckErrors(named, micro(max(first, second)), micro(depth), micro(width))


def tolerances(gauge: Gauge, sideways: bool) -> tuple[Fraction, Fraction]:
    """How far a shoulder or a neck's width (first), and its depth (second), may be off in cm: half a row along the
    work, half a pitch across it."""
    row, pitch = gauge.row / 2, gauge.half
    return (row, pitch) if sideways else (pitch, row)


def neck_of_edge(edge: Sequence[int]) -> WorkedNeck | None:
    """The neck cut into the shaped edge (positions row by row) of a panel worked sideways; None where there is none.

    A row that leans back to the shoulder belongs to the neck; one that steps back stands on the shoulder.
    """
    inside = [row for row, at in enumerate(edge, start=1) if at != edge[0]]
    if not inside:
        return None
    first, last = inside[0] - 1, len(edge) - inside[-1]
    if last and abs(edge[inside[-1] - 1] - edge[0]) == 1:
        last -= 1
    depth = max(abs(at - edge[0]) for at in edge)
    return WorkedNeck((first, last), depth, len(edge) - first - last, sideways=True)


#: How far a point is from the middle of a neck, and from its opening: in rows along the work and in half pitches across
#: it, as the neck's width and depth are.
Point: TypeAlias = tuple[Fraction, int]

def on_ellipse(neck: WorkedNeck, gauge: Gauge, points: Iterable[Point]) -> bool:
    """Whether all ``points`` lie within half a pitch (one half pitch, by the shortest way) of the half ellipse through
    the measures of ``neck``."""
    row = float(gauge.row / gauge.half)
    along, across = (row, 1.0) if neck.sideways else (1.0, row)
    wide, deep = neck.width / 2 * along, neck.depth * across
    return all(_near_ellipse(wide, deep, abs(float(out)) * along, down * across) for out, down in points)


QUARTER_POINTS = 96  # nowhere a ten-thousandth of the ellipse's size from it


def _near_ellipse(wide: float, deep: float, x: float, y: float) -> bool:
    """Whether a point lies within 1 of the quarter ellipse with these half axes. Most do or do not by far: by how much
    the ellipse would have to grow to go through the point, the distance is at least that much of the shorter half axis,
    and at most that much of the way to the point."""
    if wide and deep and (times := math.hypot(x / wide, y / deep)):
        doubt = max(wide, deep) / 10_000
        if abs(times - 1) * min(wide, deep) > 1 + doubt:
            return False
        if y >= 0 and abs(times - 1) / times * math.hypot(x, y) < 1 - doubt:
            return True
    return _from_ellipse(wide, deep, x, y) <= 1


@lru_cache(maxsize=4096)
def _from_ellipse(wide: float, deep: float, x: float, y: float) -> float:
    """The distance of a point in the first quadrant from the quarter ellipse with these half axes."""
    arc = _arc(wide, deep)
    return min(from_segment(x - x0, y - y0, x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(arc))


@lru_cache(maxsize=64)
def _arc(wide: float, deep: float) -> list[tuple[float, float]]:
    turns = [math.pi / 2 * nth / QUARTER_POINTS for nth in range(QUARTER_POINTS + 1)]
    return [(wide * math.cos(turn), deep * math.sin(turn)) for turn in turns]


def from_segment(x: float, y: float, dx: float, dy: float) -> float:
    """The distance of the point (x, y) from the straight line that ends at (0, 0) and (dx, dy), all in one unit."""
    long = dx * dx + dy * dy
    part = min(1.0, max(0.0, (x * dx + y * dy) / long)) if long else 0.0
    return math.hypot(x - part * dx, y - part * dy)
