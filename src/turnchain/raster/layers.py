"""Masks in one ink each, laid over one another: what is joined before a canvas sees it.

In: masks of coverage and their places. Out: fewer masks that show the same. Where masks of one ink meet, what the upper
leaves free shows the lower: 1 - (1 - a)(1 - b), in whole 255ths.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TypeAlias

from turnchain.raster import loops
from turnchain.raster.coverage import Mask, Window
from turnchain.records import frozen
from turnchain.scene import INK

#: How far something is moved right and down, in whole px.
Place: TypeAlias = tuple[int, int]

#: Masks of more px than this for each of their places are joined one by one; small ones, spread widely, px by px.
WIDE = 1 << 10


@frozen(eq=False)
class Layer:
    """A mask in one colour, "#rrggbb" or ``INK``."""

    mask: Mask
    ink: str

    def window(self) -> Window:
        """The px of the picture that the mask is about."""
        return self.mask.window()

    def moved(self, x: int, y: int, ink: str) -> Layer:
        """The layer moved by (x, y) whole px, in ``ink`` where its own is ``INK``; the coverage is shared, not
        copied."""
        mask = self.mask
        shifted = Mask(mask.left + x, mask.top + y, mask.width, mask.height, mask.alpha)
        return Layer(shifted, ink if self.ink == INK else self.ink)


Layers = tuple[Layer, ...]


def frame_of(layers: Iterable[Layer]) -> Window:
    """The smallest window around ``layers``; ValueError where there are none."""
    lefts, tops, rights, bottoms = zip(*(layer.window() for layer in layers), strict=True)
    return Window(min(lefts), min(tops), max(rights), max(bottoms))


def reach(layer: Layer, places: list[Place]) -> Window:
    """The smallest window around ``layer`` moved by each of ``places``: one or more, x and y of each, whole px."""
    left, top, right, bottom = layer.window()
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return Window(left + min(xs), top + min(ys), right + max(xs), bottom + max(ys))


def blank(frame: Window) -> bytearray:
    """No coverage, of the px of ``frame``."""
    return bytearray(frame.width * frame.height)


def strew(alpha: bytearray, frame: Window, mask: Mask, places: list[Place]) -> None:
    """Joins ``mask``, moved by each of ``places`` (x and y of each, whole px), to ``alpha``, the coverage of the px of
    ``frame``, which is changed in place. All of the mask has to lie in the frame."""
    right, down = mask.left - frame.left, mask.top - frame.top
    at = [(x + right, y + down) for x, y in places]
    # in rows: an order in which few of them touch the one before
    loops.strew(alpha, frame.width, mask.alpha, mask.width, at, len(mask.alpha) <= WIDE * len(places))


def united(layers: list[Layer]) -> Iterator[Layer]:
    """``layers``, in the order of painting, with neighbours of one ink made one: what the upper leaves free shows the
    lower."""
    for ink, neighbours in groupby(layers, lambda layer: layer.ink):
        run = list(neighbours)
        if len(run) == 1:
            yield run[0]
            continue
        frame = frame_of(run)
        alpha = blank(frame)
        for layer in run:
            strew(alpha, frame, layer.mask, [(0, 0)])
        yield Layer(Mask.over(frame, alpha), ink)


def faded(layers: list[Layer], opacity: float) -> list[Layer]:
    """``layers`` (at most fill and stroke) seen through as one, at ``opacity`` from 0 to 1: the fill must not show
    through the stroke. The masks that are returned all have the size of the frame around ``layers``.

    Drawn one after the other, the stroke S at o S and the fill F at o F (1 - S) / (1 - o S) leave the ground
    exactly 1 - o (S + F (1 - S)), as the whole drawn at opacity o would.
    """
    if not layers:
        return []
    frame = frame_of(layers)
    above = blank(frame)
    faded: list[Layer] = []
    for layer in reversed(layers):
        alpha = blank(frame)
        strew(alpha, frame, layer.mask, [(0, 0)])
        faded.insert(0, Layer(Mask.over(frame, loops.fade(alpha, above, opacity)), layer.ink))
        above = alpha
    return faded
