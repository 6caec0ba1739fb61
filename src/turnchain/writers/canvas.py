"""Canvases: a band of the picture being painted, as numbers of colours or as colours.

In: rectangles and layers, in the order of painting. Out: the scanlines of a PNG file. Both kinds look first
for the simple case, one ground below a whole layer, where laying it down is an addition or a look-up; what
lies on other ground is worked out px by px. Which case a px falls in never shows.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from turnchain.writers.coverage import Alpha, Window
from turnchain.writers.palette import Palette
from turnchain.writers.stamps import Layer, slices

#: Red, green, blue and opacity, each a byte of a number; colours are multiplied with their opacity.
Colours = NDArray[np.uint32]


#: Masks of fewer px are not worth looking for the simple case.
SMALL = 4096


class Canvas(Protocol):
    """A band of the picture."""

    def fill(self, rectangle: Window, colour: str) -> None:
        """Paints ``rectangle``, as far as it lies in the band."""

    def lay(self, layer: Layer) -> None:
        """Lays ``layer`` down, as far as it lies in the band."""

    def scanlines(self) -> memoryview:
        """The rows as the file wants them, each behind a 0 for no filter: drawings hardly gain by one."""


class _Band:
    """What both kinds share: px of a window, painted on."""

    _px: NDArray[Any]

    def __init__(self, window: Window) -> None:
        self._window = window

    def fill(self, rectangle: Window, colour: str) -> None:
        """Paints ``rectangle``, as far as it lies in the band."""
        if seen := clipped(rectangle, self._window):
            self._px[slices(seen, self._window)] = self._number(colour)

    def lay(self, layer: Layer) -> None:
        """Lays ``layer`` down, as far as it lies in the band."""
        if not (seen := clipped(layer.window(), self._window)):
            return
        region, mask = self._px[slices(seen, self._window)], layer.mask.alpha[slices(seen, layer.window())]
        ground = int(region[region.shape[0] // 2, region.shape[1] // 2])
        if mask.size < SMALL or not self._simple(ground, layer.ink):
            self._blend(region, mask, layer.ink)
            return
        # a row of stitches lies on its stripe, but for the lines at its foot and the edges at its ends
        other = region != ground
        for mixed, lines in _runs(np.count_nonzero(other, axis=1) > other.shape[1] // 2):
            if mixed:
                self._blend(region[lines], mask[lines], layer.ink)
                continue
            for mixed_too, columns in _runs(other[lines].any(axis=0)):
                if mixed_too:
                    self._blend(region[lines, columns], mask[lines, columns], layer.ink)
                else:
                    self._lay_on(region[lines, columns], mask[lines, columns], ground, layer.ink)

    def _number(self, colour: str) -> int:
        """The number of an opaque colour."""
        raise NotImplementedError

    def _simple(self, ground: int, ink: str) -> bool:
        """Whether masks can be laid on plain ``ground`` in one go."""
        raise NotImplementedError

    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        """Lays ``mask`` on ``region``, which is ``ground`` all over."""
        raise NotImplementedError

    def _blend(self, region: NDArray[Any], mask: Alpha, ink: str) -> None:
        """Lays ``mask`` on whatever ``region`` shows."""
        raise NotImplementedError


class Indexed(_Band):
    """A band of numbers of colours in a palette; masks are in its levels."""

    def __init__(self, palette: Palette, window: Window) -> None:
        super().__init__(window)
        self._palette = palette
        self._rows = np.empty((window.bottom - window.top, 1 + window.right - window.left), np.uint8)
        self._rows[:, 0] = 0
        self._px = self._rows[:, 1:]
        self._px[:] = palette.background

    def scanlines(self) -> memoryview:
        """The rows, each behind a 0."""
        return self._rows.ravel().data

    def _number(self, colour: str) -> int:
        return self._palette.number(colour)

    def _simple(self, ground: int, ink: str) -> bool:
        return self._palette.in_line(ground, ink)

    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        np.add(region, mask, out=region)

    def _blend(self, region: NDArray[Any], mask: Alpha, ink: str) -> None:
        at = np.nonzero(mask)
        region[at] = self._palette.blends(ink)[region[at], mask[at]]


class Full(_Band):
    """A band of colours; masks run from 0 to 255."""

    def __init__(self, background: str | None, window: Window) -> None:
        super().__init__(window)
        self._opaque = background is not None
        self._px = np.empty((window.bottom - window.top, window.right - window.left), np.uint32)
        self._px[:] = _packed(background) if background else 0

    def scanlines(self) -> memoryview:
        """The rows, each behind a 0: red, green and blue, and opacity where there is no background."""
        height, width = self._px.shape
        channels = self._px.view(np.uint8).reshape(height, width, 4)
        if not self._opaque:
            channels = _straight(channels)
        count = 3 if self._opaque else 4
        rows = np.empty((height, 1 + count * width), np.uint8)
        rows[:, 0] = 0
        for channel in range(count):
            rows[:, 1 + channel :: count] = channels[:, :, channel]
        return rows.ravel().data

    def _number(self, colour: str) -> int:
        return _packed(colour)

    def _simple(self, ground: int, ink: str) -> bool:
        return True

    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        region[:] = np.take(_ramp(ground, ink), mask, mode="wrap")

    def _blend(self, region: NDArray[Any], mask: Alpha, ink: str) -> None:
        at = np.nonzero(mask)
        region[at] = _blended(region[at], mask[at], ink)


def _runs(flags: NDArray[np.bool_]) -> Iterator[tuple[bool, slice]]:
    """The stretches of equal ``flags``."""
    turns = [0, *(np.flatnonzero(flags[1:] != flags[:-1]) + 1).tolist(), len(flags)]
    for start, stop in itertools.pairwise(turns):
        yield bool(flags[start]), slice(start, stop)


def levelled(levels: int) -> Callable[[Alpha], Alpha]:
    """What turns coverage from 0 to 255 into ``levels`` equal steps."""
    table = bytes((alpha * levels + 127) // 255 for alpha in range(256))

    def turned(alpha: Alpha) -> Alpha:
        # many times faster than looking up in an array
        return np.frombuffer(alpha.tobytes().translate(table), np.uint8).reshape(alpha.shape)

    return turned


def clipped(window: Window, limits: Window) -> Window | None:
    """What ``window`` and ``limits`` share, if anything."""
    left, top = max(window.left, limits.left), max(window.top, limits.top)
    right, bottom = min(window.right, limits.right), min(window.bottom, limits.bottom)
    return Window(left, top, right, bottom) if left < right and top < bottom else None


def _packed(colour: str) -> int:
    """"#rrggbb", opaque, as one number whose bytes in memory are red, green, blue and 255."""
    return int(np.frombuffer(bytes.fromhex(colour.removeprefix("#")) + b"\xff", np.uint32)[0])


@lru_cache(512)
def _ramp(ground: int, ink: str) -> Colours:
    """``ground`` under every coverage from 0 to 255 of ``ink``."""
    return _blended(np.full(256, ground, np.uint32), np.arange(256, dtype=np.uint8), ink)


def _blended(grounds: Colours, alpha: Alpha, ink: str) -> Colours:
    """Each of ``grounds`` under its ``alpha`` of ``ink``."""
    channels = grounds.view(np.uint8).reshape(-1, 4).astype(np.uint16)
    over = np.frombuffer(bytes.fromhex(ink.removeprefix("#")) + b"\xff", np.uint8).astype(np.uint16)
    share = alpha.astype(np.uint16)[:, None]
    mixed = channels * (255 - share) + share * over + np.uint16(128)
    mixed += mixed >> 8
    blended: Colours = (mixed >> 8).astype(np.uint8).view(np.uint32).reshape(-1)
    return blended


def _straight(channels: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Colours no longer multiplied with their opacity, as files want them."""
    opacity = channels[:, :, 3:].astype(np.uint16)
    colours = (channels[:, :, :3] * np.uint16(255) + opacity // 2) // np.maximum(opacity, 1)
    return np.concatenate([colours.clip(max=255).astype(np.uint8), channels[:, :, 3:]], axis=2)
