"""Masks in one ink each, laid over one another: what is joined before a canvas sees it.

In: masks of coverage and their places. Out: fewer masks that show the same. Where masks of one ink meet, what the upper
leaves free shows the lower: 1 - (1 - a)(1 - b), in whole 255ths.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from turnchain.raster.coverage import Alpha, Mask, Window
from turnchain.records import frozen
from turnchain.scene import INK

#: Masks of more px than this for each of their places are joined one by one; small ones, spread widely, px by px.
WIDE = 1 << 10


@frozen(eq=False)
class Layer:
    """A mask in one colour, "#rrggbb" or ``INK``."""

    mask: Mask
    ink: str

    def window(self) -> Window:
        """The px of the picture that the mask covers, those of coverage 0 in it as well."""
        left, top = self.mask.left, self.mask.top
        height, width = self.mask.alpha.shape
        return Window(left, top, left + width, top + height)

    def moved(self, x: int, y: int, ink: str) -> Layer:
        """The layer moved by (x, y) whole px, in ``ink`` where its own is ``INK``; the coverage is shared, not
        copied."""
        mask = Mask(self.mask.left + x, self.mask.top + y, self.mask.alpha)
        return Layer(mask, ink if self.ink == INK else self.ink)


Layers = tuple[Layer, ...]


def frame_of(layers: Iterable[Layer]) -> Window:
    """The smallest window around ``layers``; ValueError where there are none."""
    lefts, tops, rights, bottoms = zip(*(layer.window() for layer in layers), strict=True)
    return Window(min(lefts), min(tops), max(rights), max(bottoms))


def slices(window: Window, frame: Window) -> tuple[slice, slice]:
    """The rows and columns of ``window``, which lies in ``frame``, in an array of the px of ``frame``."""
    rows = slice(window.top - frame.top, window.bottom - frame.top)
    return rows, slice(window.left - frame.left, window.right - frame.left)


def reach(layer: Layer, places: NDArray[np.int_]) -> Window:
    """The smallest window around ``layer`` moved by each of ``places``: one or more, x and y of each, whole px."""
    window = layer.window()
    if len(places) == 1:  # most are
        ((x, y),) = places.tolist()
        return Window(window.left + x, window.top + y, window.right + x, window.bottom + y)
    (left, top), (right, bottom) = places.min(axis=0).tolist(), places.max(axis=0).tolist()
    return Window(window.left + left, window.top + top, window.right + right, window.bottom + bottom)


def strew(alpha: Alpha, frame: Window, mask: Mask, places: NDArray[np.int_]) -> None:
    """Joins ``mask``, moved by each of ``places`` (x and y of each, whole px), to ``alpha``, the coverage of the px of
    ``frame``, which is changed in place. All of the mask has to lie in the frame."""
    if len(places) == 1 or mask.alpha.size > WIDE * len(places):
        for x, y in places.tolist():
            _join(alpha, frame, mask, x, y)
        return
    places = places[np.lexsort(places.T)]
    width = mask.alpha.shape[1]
    stride = alpha.shape[1]
    corners = (places[:, 1] + mask.top - frame.top) * stride + places[:, 0] + mask.left - frame.left
    rows, columns = np.nonzero(mask.alpha)
    inked, values = rows * stride + columns, mask.alpha[rows, columns]
    every, whole = _apart(places, width), alpha.reshape(-1)
    for first in range(every):
        # none of these touches another, so that they can be laid at once
        at = corners[first::every, None] + inked
        before = whole[at]
        whole[at] = _share(before, 255 - values) + values if before.any() else values


def _join(alpha: Alpha, frame: Window, mask: Mask, x: int, y: int) -> None:
    """Joins ``mask``, moved by (x, y), to ``alpha``."""
    height, width = mask.alpha.shape
    left, top = mask.left + x - frame.left, mask.top + y - frame.top
    part = alpha[top : top + height, left : left + width]
    part[:] = _share(part, 255 - mask.alpha) + mask.alpha if part.any() else mask.alpha


def _apart(places: NDArray[np.int_], width: int) -> int:
    """The least n for which every n-th of ``places`` is clear of the next in a row of masks ``width`` px wide;
    where they do not lie in one row, so many that each is by itself."""
    if (places[:, 1] != places[0, 1]).any():
        return len(places)
    lefts = places[:, 0]
    return next(n for n in range(1, len(lefts) + 1) if n == len(lefts) or (lefts[n:] - lefts[:-n]).min() >= width)


def united(layers: list[Layer]) -> Iterator[Layer]:
    """``layers``, in the order of painting, with neighbours of one ink made one: what the upper leaves free shows the
    lower."""
    for ink, neighbours in groupby(layers, lambda layer: layer.ink):
        run = list(neighbours)
        if len(run) == 1:
            yield run[0]
            continue
        frame = frame_of(run)
        alpha = np.zeros((frame.bottom - frame.top, frame.right - frame.left), np.uint8)
        for layer in run:
            rows, columns = slices(layer.window(), frame)
            part = alpha[rows, columns]
            part[:] = _share(part, 255 - layer.mask.alpha) + layer.mask.alpha
        yield Layer(Mask(frame.left, frame.top, alpha), ink)


def _share(values: Alpha, of_255: Alpha) -> Alpha:
    """``values`` x ``of_255`` / 255, rounded."""
    product = values.astype(np.uint16) * of_255 + np.uint16(128)
    return ((product + (product >> 8)) >> 8).astype(np.uint8)


def faded(layers: list[Layer], opacity: float) -> list[Layer]:
    """``layers`` (at most fill and stroke) seen through as one, at ``opacity`` from 0 to 1: the fill must not show
    through the stroke. The masks that are returned all have the size of the frame around ``layers``.

    Drawn one after the other, the stroke S at o S and the fill F at o F (1 - S) / (1 - o S) leave the ground
    exactly 1 - o (S + F (1 - S)), as the whole drawn at opacity o would.
    """
    if not layers:
        return []
    frame = frame_of(layers)
    above = np.zeros((frame.bottom - frame.top, frame.right - frame.left))
    faded: list[Layer] = []
    for layer in reversed(layers):
        alpha = np.zeros_like(above)
        alpha[slices(layer.window(), frame)] = layer.mask.alpha / 255
        seen = opacity * alpha * (1 - above) / np.maximum(1 - opacity * above, 1e-9)
        mask = Mask(frame.left, frame.top, np.rint(seen * 255).astype(np.uint8))
        faded.insert(0, Layer(mask, layer.ink))
        above = alpha
    return faded
