"""Buttonholes and ties of an edging as they look on cloth.

In: places in px, and the shades of a yarn. Out: scene items. A buttonhole is a slit that shows what lies behind; a tie
is a narrow band that lies over its piece, to and fro where the piece is shorter than it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import TypeAlias

from turnchain.drawing.cloth import Cloth, shades
from turnchain.drawing.strands import Px
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Item, Path, Step, polyline

_Box: TypeAlias = tuple[Px, Px]

OPEN = 0.62  # how high a buttonhole stands open, in rows of the edging
REACH = 0.82  # of the piece: so far a tie lies over it before it turns back
TURN = 1.5  # the radius by which it turns, in heights of it
ROUND = 10  # straight lines to half a circle


@frozen
class Inks:
    """The shades of what fastens: the dark behind a slit, the ``edge`` of a band, its ``body``, and the ``loop`` of its
    stitches."""

    behind: str
    edge: str
    body: str
    loop: str

    @classmethod
    def of(cls, colour: str, cloth: Cloth) -> Inks:
        """Those of a yarn on this cloth."""
        theme = cloth.theme
        if cloth.colours.mono:
            return cls(theme.paper, theme.soft, colour, theme.soft)
        made = shades(colour)
        return cls(theme.paper, made.deep, made.body, made.light)


def hole(middle: Px, way: Px, long: float, high: float, inks: Inks) -> Iterator[Item]:
    """A buttonhole ``long`` px along an edge in a row ``high`` px high: the chain round it, and the slit."""
    for more, fill in ((0.18, inks.edge), (0.0, inks.behind)):
        yield Path(_lens(middle, way, long / 2 + more * high, OPEN / 2 * high + more * high), fill=fill)


def _lens(middle: Px, way: Px, along: float, across: float) -> tuple[Step, ...]:
    (x, y), (dx, dy) = middle, way

    def place(right: float, up: float) -> tuple[float, float]:
        return rounded(x + right * along * dx - up * across * dy), rounded(y + right * along * dy + up * across * dx)

    first, last = place(-1, 0), place(1, 0)
    return (
        ("M", *first), ("C", *place(-0.5, 1.3), *place(0.5, 1.3), *last),
        ("C", *place(0.5, -1.3), *place(-0.5, -1.3), *first), ("Z",),
    )  # fmt: skip


def tie(start: Px, along: Px, inwards: Px, long: float, high: float, box: _Box, inks: Inks) -> Iterator[Item]:
    """A tie ``long`` px long and ``high`` px wide from ``start`` over the piece, whose corners are ``box``: ``inwards``
    first, and where it has to turn, farther ``along`` the edge it hangs from."""
    line = _laid(start, along, inwards, long, TURN * high, _depth(start, inwards, box))
    path = polyline([(rounded(x), rounded(y)) for x, y in line], closed=False)
    for share, ink in ((1.16, inks.edge), (0.96, inks.body)):
        yield Path(path, stroke=ink, width=rounded(share * high))
    for (x, y), (dx, dy) in _stitches(line, high):
        lean = high * 0.3
        steps = polyline([
            (rounded(x - dy * lean - dx * lean), rounded(y + dx * lean - dy * lean)),
            (rounded(x + dy * lean + dx * lean), rounded(y - dx * lean + dy * lean)),
        ], closed=False)  # fmt: skip
        yield Path(steps, stroke=inks.loop, width=rounded(max(0.5, 0.16 * high)))


def ways(way: Px, out: Px, at_start: bool) -> tuple[Px, Px]:
    """From an end of an edging: along it, towards its middle, and inwards, over the piece. ``way`` and ``out``: of the
    edge there."""
    return (way if at_start else (-way[0], -way[1])), (-out[0], -out[1])


def _depth(start: Px, inwards: Px, box: _Box) -> float:
    """How far a tie may lie over the piece."""
    (left, top), (right, bottom) = box
    (x, y), (dx, dy) = start, inwards
    axes = ((x, dx, (left, right)), (y, dy, (top, bottom)))
    far = [(edge - at) / step for at, step, ends in axes for edge in ends if step]
    return REACH * max([one for one in far if one > 0], default=0.0)


def _laid(start: Px, along: Px, inwards: Px, long: float, turn: float, depth: float) -> list[Px]:
    """The middle line of a tie: straight, and half a circle wherever the piece ends."""
    line, (x, y), sign, left = [start], start, 1.0, long
    straight = max(depth - turn, 2 * turn)
    while left > 0:
        go = min(straight, left)
        x, y = x + sign * go * inwards[0], y + sign * go * inwards[1]
        line.append((x, y))
        left -= go
        if left <= 0:
            break
        middle = x + turn * along[0], y + turn * along[1]
        for part in range(1, ROUND + 1):
            angle = math.pi * part / ROUND
            out, up = -math.cos(angle) * turn, math.sin(angle) * turn * sign
            line.append((middle[0] + out * along[0] + up * inwards[0], middle[1] + out * along[1] + up * inwards[1]))
        x, y = line[-1]
        left -= math.pi * turn
        sign, straight = -sign, max(depth - 2 * turn, 2 * turn)
    return line


def _stitches(line: list[Px], pace: float) -> Iterator[tuple[Px, Px]]:
    """Places ``pace`` px apart along a line, each with the way there."""
    at = pace / 2
    for one, other in pairwise(line):
        far = math.dist(one, other)
        way = ((other[0] - one[0]) / far, (other[1] - one[1]) / far) if far else (1.0, 0.0)
        while at < far:
            yield (one[0] + at * way[0], one[1] + at * way[1]), way
            at += pace
        at -= far
