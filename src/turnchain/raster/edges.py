"""Outlines as straight edges: curves cut into pieces, and our own stroker.

In: ``Steps`` or a stroked ``Path``. Out: ``Edges`` (straight, directed), to be filled by the non-zero rule. That makes
strokes easy: a stroke is the union of one slab per segment and one round disc (in gentle turns a wedge) per joint, all
wound alike. Where a flat end comes within half a width of a corner, the corner's disc shows whole.
"""

from __future__ import annotations

import math
from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import accumulate, chain, pairwise
from typing import TypeAlias

from turnchain.raster import loops
from turnchain.scene import Path, Steps

#: Straight edges: x and y of the start, x and y of the end of each, in px, float64, one behind the other.
Edges: TypeAlias = bytes
#: Polylines: x and y of all points, in px, float64; where each line starts; whether it is closed.
_Lines: TypeAlias = tuple[bytes, list[int], list[bool]]
_Point: TypeAlias = tuple[float, float]

#: How far (px) a polygon may be from the curve that it is used for.
TOLERANCE = 0.04


def fill_edges(steps: Steps, fine: float = 1) -> Edges:
    """The edges of ``steps`` filled, fit to be drawn ``fine`` times as large; open outlines are closed. Empty where
    there are no steps. ValueError for a place that is not finite."""
    return loops.fill_lines(*loops.flatten(steps, TOLERANCE / fine))


def stroke_edges(path: Path) -> Edges:
    """The edges of the area that the stroke of ``path`` covers, its dashes cut; the fill does not matter. To be filled
    by the non-zero rule. ValueError for a place that is not finite."""
    lines = loops.flatten(path.steps, TOLERANCE)
    if sum(path.dash) > 0:
        lines = _dashed(lines, path.dash)
    radius = path.width / 2
    return loops.stroke_lines(*lines, radius, path.cap == "butt", _disc(radius), TOLERANCE)


@lru_cache(256)
def _disc(radius: float) -> bytes:
    """The corners (x and y of each, float64) of a polygon in place of a disc of ``radius`` about (0, 0)."""
    if radius <= 0:
        return b""
    sides = max(8, math.ceil(math.pi / math.acos(max(0.0, 1 - TOLERANCE / 2 / radius))))
    turn = 2 * math.pi / sides
    # a little outside the circle, so that polygon and disc have the same area
    reach = radius * math.sqrt(turn / math.sin(turn))
    corners = ((reach * math.cos(turn * side), reach * math.sin(turn * side)) for side in range(sides))
    return array("d", chain.from_iterable(corners)).tobytes()


def _dashed(lines: _Lines, dash: tuple[float, ...]) -> _Lines:
    """``lines`` cut into dashes: on, off, on ... along each polyline from its start."""
    points, starts, closed = lines
    numbers = array("d", points).tolist()
    places: list[_Point] = list(zip(numbers[::2], numbers[1::2], strict=True))
    pieces: list[list[_Point]] = []
    joined: list[bool] = []
    for start, stop, is_closed in zip(starts, [*starts[1:], len(places)], closed, strict=True):
        line = places[start:stop]
        at = _lengths([*line, line[0]] if is_closed else line)
        marks = list(_marks(at[-1], dash))
        pieces += [_dash([*line, line[0]], at, on, off) for on, off in marks]
        joined += [False] * len(marks)
        # first and last dash of a closed line are joined where they meet: a closed line of one point, which is a disc
        if is_closed and marks and marks[-1][1] == at[-1]:
            pieces.append(line[:1])
            joined.append(True)
    flat = array("d", chain.from_iterable(chain.from_iterable(pieces)))
    return flat.tobytes(), list(accumulate(map(len, pieces), initial=0))[:-1], joined


def _lengths(line: Sequence[_Point]) -> list[float]:
    """How far along ``line`` each of its points lies."""
    return list(accumulate((math.dist(*both) for both in pairwise(line)), initial=0.0))


def _marks(length: float, dash: tuple[float, ...]) -> Iterator[tuple[float, float]]:
    """Where the dashes of a line so long begin and end."""
    stops = list(accumulate(dash * (1 + len(dash) % 2)))
    for turn in range(math.ceil(length / stops[-1])):
        before = turn * stops[-1]
        for on, off in zip([0.0, *stops[1::2]], stops[::2], strict=False):
            if before + on < length:
                yield before + on, min(before + off, length)


def _dash(line: Sequence[_Point], at: Sequence[float], on: float, off: float) -> list[_Point]:
    """The points of the dash from ``on`` to ``off`` along ``line``, whose points lie ``at`` so far."""
    corners = line[bisect_right(at, on) : bisect_left(at, off)]
    return [_place(line, at, on), *corners, _place(line, at, off)]


def _place(line: Sequence[_Point], at: Sequence[float], mark: float) -> _Point:
    """The point ``mark`` along ``line``."""
    before = bisect_right(at, mark) - 1
    if before + 1 >= len(at):
        return line[len(at) - 1]
    (x, y), (next_x, next_y) = line[before], line[before + 1]
    length, part = at[before + 1] - at[before], mark - at[before]
    return (next_x - x) / length * part + x, (next_y - y) / length * part + y
