"""A symbol known by its lines: an upright with a bar and a stroke is a dc, an oval a chain, a filled one a slip stitch.

In: the path that draws it. Out: a ``Mark``; ``UnreadableChart`` where it is no stitch.
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import isfinite

from turnchain.proof.chart.marks import Mark, Point, UnreadableChart, between, halfway, length


@lru_cache(maxsize=4096)
def sign_of(data: str, filled: bool) -> Mark:
    """The symbol that the path ``data`` draws."""
    lines = [points(line) for line in re.findall(r"M[^M]*", data)]
    if "C" in data:
        return _oval(lines, data, filled)
    if filled or len(lines) != 3 or any(len(line) != 2 for line in lines):
        raise UnreadableChart(f"a path that is no stitch: {data[:60]!r}")
    return _dc(lines)


def points(line: str) -> list[Point]:
    """The points a line passes through, handles left out."""
    found: list[Point] = []
    for letter, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", line):
        values = [number(text) for text in re.findall(r"-?[\d.]+", numbers)]
        if letter == "C":
            values = [value for nth in range(0, len(values), 6) for value in values[nth + 4 : nth + 6]]
        found += list(zip(values[::2], values[1::2], strict=True))
    return found


def _oval(lines: list[list[Point]], data: str, filled: bool) -> Mark:
    if len(lines) != 1 or len(lines[0]) != 5 or not data.endswith("Z"):
        raise UnreadableChart(f"a curve that is no chain: {data[:60]!r}")
    a, b, c, d, _ = lines[0]
    middle = ((a[0] + c[0]) / 2, (a[1] + c[1]) / 2)
    if filled:
        return Mark("dot", middle, middle)
    along, across = between(a, c), between(b, d)
    long = along if length(along) > length(across) else across
    return Mark("lying" if abs(long[0]) > 3 * abs(long[1]) else "standing", middle, middle)


def _dc(lines: list[list[Point]]) -> Mark:
    """The upright is the line with a bar across one of its ends; the third crosses it: the yarn-over."""
    for upright in lines:
        others = [line for line in lines if line is not upright]
        for head, foot in (upright, upright[::-1]):
            bars = [line for line in others if length(between(halfway(line), head)) < 0.05]
            strokes = [line for line in others if line not in bars and _crosses(line, head, foot)]
            if len(bars) == 1 and len(strokes) == 1:
                return Mark("dc", foot, head)
    raise UnreadableChart("three lines that are no dc")


def _crosses(line: list[Point], head: Point, foot: Point) -> bool:
    """Whether the two ends of ``line`` lie at two sides of the upright, between its ends."""
    ux, uy = between(head, foot)
    sides = [(x - head[0]) * uy - (y - head[1]) * ux for x, y in line]
    x, y = halfway(line)
    share = ((x - head[0]) * ux + (y - head[1]) * uy) / (ux * ux + uy * uy)
    return sides[0] * sides[1] < 0 and 0.05 < share < 0.95


def number(text: str) -> float:
    """A number of the file that names a place."""
    value = float(text)
    if not isfinite(value):
        raise UnreadableChart(f"{text[:20]} is no place")
    return value
