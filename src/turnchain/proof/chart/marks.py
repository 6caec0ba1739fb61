"""What a picture shows: symbols with their places, bands, row numbers; and a symbol told by its lines.

In: the path that draws a symbol. Out: a ``ChartSymbol``: an upright with a bar is a hdc, with a stroke too a dc, with
two a tr, a cross a sc, an oval a chain, a filled one a slip stitch. ``DrawnChart`` is a whole chart before any of it is
worked. All places are px of the picture. ``UnreadableChart`` is raised where a path is no stitch.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import hypot, isfinite
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]
Sign: TypeAlias = Literal["dc", "lying", "standing", "dot"]


class UnreadableChart(Exception):
    """A picture that is no chart of this kind; says where."""


@dataclass(frozen=True, slots=True)
class ChartSymbol:
    """A symbol: its ``foot`` and ``head`` in px (of an oval or a dot its middle, twice). Of a stitch (sign "dc") which
    ``stitch`` it is, by its US name; of a standing oval the ``half`` of it that points down."""

    sign: Sign
    foot: Point
    head: Point
    stitch: str = ""
    half: Point = (0.0, 0.0)

    def moved(self, x: float, y: float) -> ChartSymbol:
        """The same symbol ``x`` and ``y`` px on."""
        (fx, fy), (hx, hy) = self.foot, self.head
        return ChartSymbol(self.sign, (fx + x, fy + y), (hx + x, hy + y), self.stitch, self.half)


@dataclass(frozen=True, slots=True)
class Band:
    """A stripe's colour ("#rrggbb") and its box in px: left, top, right, bottom."""

    colour: str
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class DrawnChart:
    """What the picture shows: ``k`` stitches to a cluster by its key, and which ``stitch``, with ``inner`` chains in
    its middle; the ``rows`` in the order worked, each with its symbols and the y of its top; the places of the
    ``foundation``, of chains or (``founded_on``) of stitches along an edge; bands; the ``strips`` under chains and slip
    stitches; the blocks of the column of ``letters``, in the yarns' own colours; row numbers with the places of their
    middles' heights."""

    k: int
    rows: tuple[tuple[float, tuple[ChartSymbol, ...]], ...]
    foundation: tuple[Point, ...]
    founded_on: Literal["ch", "sc"]
    bands: tuple[Band, ...]
    strips: tuple[Band, ...]
    letters: tuple[Band, ...]
    numbers: tuple[tuple[int, Point], ...]
    stitch: str
    inner: int


# ------------------------------------------------------------------------------------------------ the geometry


def between(a: Point, b: Point) -> Point:
    """The vector from ``a`` to ``b``, px."""
    return b[0] - a[0], b[1] - a[1]


def halfway(line: Sequence[Point]) -> Point:
    """The point half way along a straight line of two points. ValueError for another number of them."""
    (x0, y0), (x1, y1) = line
    return (x0 + x1) / 2, (y0 + y1) / 2


def length(vector: Point) -> float:
    """The length of ``vector``, px."""
    return hypot(*vector)


@lru_cache(maxsize=4096)
def sign_of(data: str, filled: bool) -> ChartSymbol:
    """The symbol that the path ``data`` (of M, L, C and Z with absolute places) draws, ``filled`` or not. Raises
    UnreadableChart where that is no stitch."""
    lines = [points(line) for line in re.findall(r"M[^M]*", data)]
    if "C" in data:
        return _oval(lines, data, filled)
    if filled or not 2 <= len(lines) <= 4 or any(len(line) != 2 for line in lines):
        raise UnreadableChart(f"a path that is no stitch: {data[:60]!r}")
    return _upright(lines) or _cross(lines)


def points(line: str) -> list[Point]:
    """The points a line passes through, in px, the control points of its curves left out."""
    found: list[Point] = []
    for letter, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", line):
        values = [number(text) for text in re.findall(r"-?[\d.]+", numbers)]
        if letter == "C":
            values = [value for nth in range(0, len(values), 6) for value in values[nth + 4 : nth + 6]]
        found += list(zip(values[::2], values[1::2], strict=True))
    return found


def _oval(lines: list[list[Point]], data: str, filled: bool) -> ChartSymbol:
    if len(lines) != 1 or len(lines[0]) != 5 or not data.endswith("Z"):
        raise UnreadableChart(f"a curve that is no chain: {data[:60]!r}")
    a, b, c, d, _ = lines[0]
    middle = ((a[0] + c[0]) / 2, (a[1] + c[1]) / 2)
    if filled:
        return ChartSymbol("dot", middle, middle)
    along, across = between(a, c), between(b, d)
    long = along if length(along) > length(across) else across
    if abs(long[0]) > 3 * abs(long[1]):
        return ChartSymbol("lying", middle, middle)
    down = 0.5 if long[1] > 0 else -0.5
    return ChartSymbol("standing", middle, middle, half=(long[0] * down, long[1] * down))


_STROKES = ("hdc", "dc", "tr")  # by the strokes across the upright, each a yarn-over


def _upright(lines: list[list[Point]]) -> ChartSymbol | None:
    """The upright is the line with a bar across one of its ends; the others cross it: yarn-overs. None where no line is
    one."""
    for upright in lines:
        others = [line for line in lines if line is not upright]
        for head, foot in (upright, upright[::-1]):
            bars = [line for line in others if length(between(halfway(line), head)) < 0.05]
            strokes = [line for line in others if line not in bars and _crosses(line, head, foot)]
            if len(bars) == 1 and len(strokes) == len(lines) - 2:
                return ChartSymbol("dc", foot, head, _STROKES[len(strokes)])
    return None


def _cross(lines: list[list[Point]]) -> ChartSymbol:
    """Two lines that cross in their middles: a sc, whose foot and head lie a quarter as far again from the middle as
    the ends of the lines; where one is higher, that leads from foot to head."""
    if len(lines) != 2 or length(between(halfway(lines[0]), halfway(lines[1]))) > 0.05:
        raise UnreadableChart("lines that are no stitch")
    ends = sorted((end for line in lines for end in line), key=lambda end: end[1])
    stem = _higher(lines)
    if stem is not None:
        return ChartSymbol("dc", max(stem, key=_down), min(stem, key=_down), "sc")
    middle, top, low = halfway(lines[0]), halfway(ends[:2]), halfway(ends[2:])
    foot, head = ((middle[0] + 1.25 * (x - middle[0]), middle[1] + 1.25 * (y - middle[1])) for x, y in (low, top))
    return ChartSymbol("dc", foot, head, "sc")


def _down(point: Point) -> float:
    return point[1]


def _higher(lines: list[list[Point]]) -> list[Point] | None:
    """Of two lines the one that is higher from end to end; None where both are as high, as those of a plain cross."""
    highs = [abs(one[1] - other[1]) for one, other in lines]
    return None if abs(highs[0] - highs[1]) <= 0.1 * max(highs) else lines[highs.index(max(highs))]


def _crosses(line: list[Point], head: Point, foot: Point) -> bool:
    """Whether the two ends of ``line`` lie at two sides of the upright, between its ends."""
    ux, uy = between(head, foot)
    sides = [(x - head[0]) * uy - (y - head[1]) * ux for x, y in line]
    x, y = halfway(line)
    share = ((x - head[0]) * ux + (y - head[1]) * uy) / (ux * ux + uy * uy)
    return sides[0] * sides[1] < 0 and 0.05 < share < 0.95


def number(text: str) -> float:
    """A number of the file that names a place. Raises UnreadableChart unless it is finite, ValueError for no number."""
    value = float(text)
    if not isfinite(value):
        raise UnreadableChart(f"{text[:20]} is no place")
    return value
