"""How far the items of a scene reach.

In: items and the definitions they use. Out: rectangles that hold all their ink, in px: never too small, and at most a
little too large, since curves count with their handles and words with the height of the tallest letters.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from turnchain.lettering import measuring
from turnchain.scene import Group, Item, Path, Text, Use

# Of the em: no letter of the shipped fonts reaches farther from its place.
ABOVE, BELOW, BESIDE = 1.3, 0.5, 0.6


class Bounds(NamedTuple):
    """A rectangle in px of the scene, y downwards; not rounded to whole px."""

    left: float
    top: float
    right: float
    bottom: float

    def moved(self, x: float, y: float) -> Bounds:
        """The rectangle moved by (x, y) px."""
        return Bounds(self.left + x, self.top + y, self.right + x, self.bottom + y)

    def area(self) -> float:
        """How many px it holds."""
        return (self.right - self.left) * (self.bottom - self.top)

    def meets(self, other: tuple[float, float, float, float]) -> bool:
        """Whether the two, each left, top, right and bottom in px, share more than an edge."""
        left, top, right, bottom = other
        return self.left < right and left < self.right and self.top < bottom and top < self.bottom


NOWHERE = Bounds(0, 0, 0, 0)


class Extents:
    """The bounds of a scene's items; definitions are measured once, in their order. KeyError where an item uses a
    definition that is not there, or one that stands later than itself."""

    def __init__(self, definitions: dict[str, tuple[Item, ...]]) -> None:
        self._of: dict[str, Bounds] = {}
        for name, items in definitions.items():
            self._of[name] = union(self._parts(items))

    def definition(self, name: str) -> Bounds:
        """The bounds in px of the definition ``name`` about its origin. KeyError for an unknown one."""
        return self._of[name]

    def of(self, item: Item) -> Bounds:
        """The bounds of ``item`` in px; ``NOWHERE`` for one without a single step or item."""
        match item:
            case Path():
                return _of_path(item)
            case Text():
                return _of_text(item)
            case Use():
                return self._of[item.name].moved(item.x, item.y)
            case Group():
                return union(map(self.of, item.items))

    def _parts(self, items: Iterable[Item]) -> Iterator[Bounds]:
        """Bounds that together reach as far as ``items``; uses of one definition are taken together, since a row
        has hundreds."""
        corners: dict[str, tuple[float, float, float, float]] = {}
        for item in items:
            if not isinstance(item, Use):
                yield self.of(item)
                continue
            x, y = item.x, item.y
            left, top, right, bottom = corners.get(item.name, (x, y, x, y))
            corners[item.name] = (
                x if x < left else left,
                y if y < top else top,
                x if x > right else right,
                y if y > bottom else bottom,
            )
        for name, (left, top, right, bottom) in corners.items():
            bounds = self._of[name]
            yield Bounds(bounds.left + left, bounds.top + top, bounds.right + right, bounds.bottom + bottom)


def union(bounds: Iterable[Bounds]) -> Bounds:
    """The smallest rectangle around all of ``bounds``; ``NOWHERE`` where there are none."""
    all_of_them = list(bounds) or [NOWHERE]
    lefts, tops, rights, bottoms = zip(*all_of_them, strict=True)
    return Bounds(min(lefts), min(tops), max(rights), max(bottoms))


def _of_path(path: Path) -> Bounds:
    xs = [x for step in path.steps for x in step[1::2]]
    ys = [y for step in path.steps for y in step[2::2]]
    if not xs:
        return NOWHERE
    reach = path.width / 2 if path.stroke else 0
    return Bounds(min(xs) - reach, min(ys) - reach, max(xs) + reach, max(ys) + reach)


def _of_text(text: Text) -> Bounds:
    length = measuring.measure(text.words, text.size, text.weight)
    start = -measuring.SHIFTS[text.anchor] * length - BESIDE * text.size
    stop = start + length + 2 * BESIDE * text.size
    cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    corners = [
        (text.x + along * cosine - down * sine, text.y + along * sine + down * cosine)
        for along in (start, stop)
        for down in (-ABOVE * text.size, BELOW * text.size)
    ]
    xs, ys = zip(*corners, strict=True)
    return Bounds(min(xs), min(ys), max(xs), max(ys))
