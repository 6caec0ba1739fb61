"""Whether words and lines of a technical drawing keep clear of one another.

In: scene items as they are placed. Out: whether more of them find room. What counts of a path is its lines, and of one
that is filled the box around it; of words the box of their letters, turned as they are.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from turnchain.lettering.measuring import measure
from turnchain.scene import Group, Item, Path, Text

Px: TypeAlias = tuple[float, float]
Quad: TypeAlias = tuple[Px, Px, Px, Px]

ABOVE, BELOW = 0.74, 0.22  # of the em: letters over their baseline and under it
AIR = 3.0  # px between what is clear
FAR = AIR + 1e-6  # px: clear, however it is rounded
LINE = 1.5  # px: half the breadth of a line


class Taken:
    """The room that ``items`` take, which are drawn already; what is still to be placed must lie within ``limits``
    (left, top, right, bottom, px; None: anywhere). Uses of definitions take no room."""

    def __init__(self, items: Iterable[Item], limits: tuple[float, float, float, float] | None = None) -> None:
        self._placed = list(_all_placed(items))
        self._limits = limits

    def add(self, items: Iterable[Item]) -> None:
        """Counts ``items`` among what is drawn."""
        self._placed += _all_placed(items)

    def clear(self, items: Iterable[Item]) -> bool:
        """Whether ``items`` lie within the limits and keep ``AIR`` px from all that is drawn; they are not added."""
        return all(
            self._within(one.quad) and not any(_meet(one, other) for other in self._placed)
            for one in _all_placed(items)
        )

    def first_clear(self, tries: Iterable[list[Item]], or_none: bool = False) -> list[Item]:
        """The first of ``tries`` that is ``clear``, which is added; where none is, the first of all, or none."""
        first: list[Item] | None = None
        for items in tries:
            if self.clear(items):
                self.add(items)
                return items
            first = items if first is None else first
        chosen = [] if or_none or first is None else first
        self.add(chosen)
        return chosen

    def _within(self, quad: Quad) -> bool:
        if self._limits is None:
            return True
        left, top, right, bottom = self._limits
        return all(left <= x <= right and top <= y <= bottom for x, y in quad)


class _Placed(NamedTuple):
    """A quad with the box around it, and whether its sides are those of the box."""

    quad: Quad
    left: float
    top: float
    right: float
    bottom: float
    upright: bool

    @classmethod
    def of(cls, quad: Quad) -> _Placed:
        (x0, y0), (x1, y1), (x2, y2), _ = quad
        upright = (y0 == y1 and x1 == x2 and x0 != x1 and y1 != y2) or (x0 == x1 and y1 == y2 and y0 != y1 and x1 != x2)
        xs, ys = zip(*quad, strict=True)
        return cls(quad, min(xs), min(ys), max(xs), max(ys), upright)


def _all_placed(items: Iterable[Item]) -> Iterator[_Placed]:
    return map(_Placed.of, _quads(items))


def _quads(items: Iterable[Item]) -> Iterator[Quad]:
    for item in items:
        if isinstance(item, Group):
            yield from _quads(item.items)
        elif isinstance(item, Text):
            yield _of_words(item)
        elif isinstance(item, Path):
            yield from _of_path(item)


def _of_words(text: Text) -> Quad:
    wide = measure(text.words, text.size, text.weight)
    left = -wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    high, deep = -ABOVE * text.size, BELOW * text.size
    cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))

    def turned(x: float, y: float) -> Px:
        return text.x + x * cosine - y * sine, text.y + x * sine + y * cosine

    return turned(left, high), turned(left + wide, high), turned(left + wide, deep), turned(left, deep)


def _of_path(path: Path) -> Iterator[Quad]:
    points: list[Px] = [(float(step[-2]), float(step[-1])) for step in path.steps if len(step) > 2]
    if path.fill:
        xs, ys = zip(*points, strict=True)
        yield (min(xs), min(ys)), (max(xs), min(ys)), (max(xs), max(ys)), (min(xs), max(ys))
        return
    starts = [step[0] == "M" for step in path.steps if len(step) > 2]
    for (one, other), begins in zip(pairwise(points), starts[1:], strict=False):
        if not begins and one != other:
            yield _of_line(one, other)


def _of_line(one: Px, other: Px) -> Quad:
    long = math.dist(one, other)
    x, y = LINE * (other[1] - one[1]) / long, LINE * (one[0] - other[0]) / long
    (x0, y0), (x1, y1) = one, other
    return (x0 + x, y0 + y), (x1 + x, y1 + y), (x1 - x, y1 - y), (x0 - x, y0 - y)


def _meet(one: _Placed, other: _Placed) -> bool:
    """Whether two come nearer than ``AIR``: no side of either parts them (the separating axis theorem)."""
    if (one.upright or other.upright) and (
        one.right + FAR < other.left
        or other.right + FAR < one.left
        or one.bottom + FAR < other.top
        or other.bottom + FAR < one.top
    ):
        return False  # most are: the rest takes twenty times as long
    for quad in (one.quad, other.quad):
        for (x0, y0), (x1, y1) in pairwise((*quad[:3],)):
            long = math.hypot(x1 - x0, y1 - y0)
            across = ((y0 - y1) / long, (x1 - x0) / long) if long else (1.0, 0.0)
            low, high = _reach(one.quad, across)
            other_low, other_high = _reach(other.quad, across)
            if high + AIR <= other_low or other_high + AIR <= low:
                return False
    return True


def _reach(quad: Quad, way: Px) -> tuple[float, float]:
    places = [x * way[0] + y * way[1] for x, y in quad]
    return min(places), max(places)
