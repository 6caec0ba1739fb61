"""Canvases: a band of the picture being painted, as numbers of colours or as colours.

In: rectangles and layers, in the order of painting. Out: the scanlines of a PNG file, or an array of colours. Both
kinds first check for the simple case, one ground below a whole layer, where laying it down is an addition or a look-up;
what lies on other ground is computed px by px. The result is the same in both cases.
"""

from __future__ import annotations

import itertools
from abc import ABC, abstractmethod
from collections.abc import Callable
from functools import lru_cache
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from turnchain.raster.coverage import Alpha, Window
from turnchain.raster.layers import Layer, slices
from turnchain.raster.palette import Palette

#: Red, green, blue and opacity, each a byte of a number; colours are multiplied with their opacity.
Colours = NDArray[np.uint32]


#: Every other channel of a colour, and those between; a half in both; a byte's bits, and how many they are.
_PAIR, _OTHER, _HALF, _ALL, _BYTE = np.array([0xFF00FF, 0xFF00FF00, 0x800080, 255, 8], np.uint32)
#: For fewer px than this, in a whole mask or on average in its stretches of one ground or of none, no stretches are
#: looked for: the calls of numpy would take longer than they save.
SMALL = 4096
#: Of no more px than this, those without ink are blended with the others: to find them takes longer.
TINY = 256


class Canvas(Protocol):
    """A band of the picture. Places are whole px of the picture, not of the band."""

    def fill(self, rectangle: Window, colour: str) -> None:
        """Paints ``rectangle``, as far as it lies in the band, in the opaque ``colour`` "#rrggbb". KeyError for a
        colour that is no ground of an indexed band's palette."""

    def lay(self, layer: Layer) -> None:
        """Lays ``layer`` down, as far as it lies in the band. Its ink is a "#rrggbb"; its mask is in the levels of the
        palette in an indexed band, else from 0 to 255."""

    def keep_to(self, window: Window) -> None:
        """From now on paints nothing outside ``window``, which lies in the band."""

    @property
    def rows(self) -> NDArray[Any]:
        """The lines of the band as they are kept, which may be overwritten by lines of other bands of the picture."""

    def scanlines(self) -> memoryview:
        """The bytes of all rows as PNG has them, each row behind a 0 for no filter: drawings become hardly smaller by
        one. A px is the number of its colour in an indexed band; else red, green and blue, and opacity where there is
        no background."""

    def colours(self) -> NDArray[np.uint8]:
        """By row, px and channel, 0 to 255: red, green and blue, and opacity where there is no background (in an
        indexed band: where not all colours of the palette are opaque). Colours are not multiplied with their
        opacity."""


class _Band(ABC):
    """What both kinds share: px of a window, painted on. ``lead`` is how many numbers stand before each row."""

    def __init__(self, window: Window, lead: int, kind: type[np.unsignedinteger[Any]], background: int) -> None:
        self._window, self._kept, self._lead = window, window, lead
        self._rows: NDArray[Any] = np.empty((window.bottom - window.top, lead + window.right - window.left), kind)
        self._rows[:, :lead] = 0
        self._rows[:, lead:] = background

    def fill(self, rectangle: Window, colour: str) -> None:
        """Paints ``rectangle``, as far as it lies in the band."""
        if seen := clipped(rectangle, self._kept):
            self._seen(seen)[:] = self._number(colour)

    def lay(self, layer: Layer) -> None:
        """Lays ``layer`` down, as far as it lies in the band."""
        if not (seen := clipped(layer.window(), self._kept)):
            return
        mask = layer.mask.alpha[slices(seen, layer.window())]
        region = self._seen(seen)
        if mask.size < SMALL:
            self._lay_small(seen, region, mask, layer.ink)
            return
        # a row of stitches lies on its stripe, but for the lines at its foot and the edges at its ends
        ground = region[region.shape[0] // 2, region.shape[1] // 2]
        strange = np.count_nonzero(region != ground, axis=1) > region.shape[1] // 2
        runs = _runs(strange)
        if len(runs) * SMALL > mask.size:
            self._blend(seen, mask, layer.ink)
            return
        for lines in runs:
            part = Window(seen.left, seen.top + lines.start, seen.right, seen.top + lines.stop)
            self._lay_lines(part, mask[lines], layer.ink)

    def _lay_small(self, seen: Window, region: NDArray[Any], mask: Alpha, ink: str) -> None:
        """Lays ``mask`` on few px, which mostly are of one ground or of many."""
        ground = int(region[0, 0])
        if self._simple(ground, ink) and (region == ground).all():
            self._lay_on(region, mask, ground, ink)
        else:
            self._blend(seen, mask, ink)

    def keep_to(self, window: Window) -> None:
        """From now on paints nothing outside ``window``."""
        self._kept = window

    @property
    def rows(self) -> NDArray[Any]:
        """The lines as they are kept."""
        return self._rows

    def _lay_lines(self, seen: Window, mask: Alpha, ink: str) -> None:
        """Lays ``mask`` on lines that mostly are of one ground."""
        region = self._seen(seen)
        ground = int(region[region.shape[0] // 2, region.shape[1] // 2])
        strange = (region != ground).any(axis=0)
        runs = _runs(strange)
        if not self._simple(ground, ink) or len(runs) * SMALL > mask.size:
            self._blend(seen, mask, ink)
            return
        for columns in runs:
            part = Window(seen.left + columns.start, seen.top, seen.left + columns.stop, seen.bottom)
            if strange[columns.start]:
                self._blend(part, mask[:, columns], ink)
            else:
                self._lay_on(self._seen(part), mask[:, columns], ground, ink)

    def _seen(self, window: Window) -> NDArray[Any]:
        """The px of ``window``, which lies in the band."""
        lines, columns = slices(window, self._window)
        return self._rows[lines, columns.start + self._lead : columns.stop + self._lead]

    def _blend(self, seen: Window, mask: Alpha, ink: str) -> None:
        """Lays ``mask`` on whatever there is."""
        inked = np.flatnonzero(mask != 0)
        width, stride = mask.shape[1], self._rows.shape[1]
        start = (seen.top - self._window.top) * stride + seen.left - self._window.left + self._lead
        at = inked + inked // width * (stride - width) + start
        px = self._rows.reshape(-1)
        px[at] = self._blended(px[at], mask.reshape(-1)[inked], ink)

    @abstractmethod
    def _number(self, colour: str) -> int:
        """The number of an opaque colour."""

    @abstractmethod
    def _simple(self, ground: int, ink: str) -> bool:
        """Whether masks can be laid on plain ``ground`` in one go."""

    @abstractmethod
    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        """Lays ``mask`` on ``region``, which is ``ground`` all over."""

    @abstractmethod
    def _blended(self, px: NDArray[Any], mask: Alpha, ink: str) -> NDArray[Any]:
        """``px`` with ``mask`` on them."""


class Indexed(_Band):
    """A band of ``window`` as numbers of colours in ``palette``, a byte for each px; masks are in its levels."""

    def __init__(self, palette: Palette, window: Window) -> None:
        # with room for the 0 before each row, so that the px need not be copied again
        super().__init__(window, 1, np.uint8, palette.background)
        self._palette = palette

    def scanlines(self) -> memoryview:
        """The rows, each behind a 0: a byte for each px. A view of the band, not a copy."""
        return self._rows.reshape(-1).data

    def colours(self) -> NDArray[np.uint8]:
        """The colours that the numbers stand for."""
        return np.take(self._palette.colours(), self._rows[:, 1:], axis=0)

    def _number(self, colour: str) -> int:
        return self._palette.number(colour)

    def _simple(self, ground: int, ink: str) -> bool:
        return self._palette.in_line(ground, ink)

    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        np.add(region, mask, out=region)

    def _blend(self, seen: Window, mask: Alpha, ink: str) -> None:
        if mask.size > TINY:
            super()._blend(seen, mask, ink)
            return
        region = self._seen(seen)
        region[:] = self._palette.blended(region, mask, ink)

    def _blended(self, px: NDArray[Any], mask: Alpha, ink: str) -> NDArray[Any]:
        return self._palette.blended(px, mask, ink)


class Full(_Band):
    """A band of ``window`` as colours, four bytes for each px, on ``background`` ("#rrggbb", or None for transparent);
    masks run from 0 to 255."""

    def __init__(self, background: str | None, window: Window) -> None:
        super().__init__(window, 0, np.uint32, _packed(background) if background else 0)
        self._opaque = background is not None

    def scanlines(self) -> memoryview:
        """The rows, each behind a 0: red, green and blue, and opacity where there is no background."""
        channels = self.colours()
        height, width, count = channels.shape
        rows = np.empty((height, 1 + count * width), np.uint8)
        rows[:, 0] = 0
        for channel in range(count):
            rows[:, 1 + channel :: count] = channels[:, :, channel]
        return rows.reshape(-1).data

    def colours(self) -> NDArray[np.uint8]:
        """The colours as they are painted."""
        height, width = self._rows.shape
        channels = self._rows.view(np.uint8).reshape(height, width, 4)
        return channels[:, :, :3] if self._opaque else _straight(channels)

    def _number(self, colour: str) -> int:
        return _packed(colour)

    def _simple(self, ground: int, ink: str) -> bool:
        return True

    def _lay_on(self, region: NDArray[Any], mask: Alpha, ground: int, ink: str) -> None:
        region[:] = np.take(_ramp(ground, ink), mask, mode="wrap")

    def _blended(self, px: NDArray[Any], mask: Alpha, ink: str) -> NDArray[Any]:
        if len(px) and (px == px[0]).all():  # words and lines, mostly
            return np.take(_ramp(int(px[0]), ink), mask)
        return _blended(px, mask, ink)


def _runs(flags: NDArray[np.bool_]) -> list[slice]:
    """The stretches of equal ``flags``."""
    turns = [0, *(np.flatnonzero(flags[1:] != flags[:-1]) + 1).tolist(), len(flags)]
    return [slice(start, stop) for start, stop in itertools.pairwise(turns)]


def levelled(levels: int) -> Callable[[Alpha], Alpha]:
    """A function that turns coverage from 0 to 255 into ``levels`` equal steps, 0 to ``levels``, in an array of the
    same shape that cannot be written to."""
    table = bytes((alpha * levels + 127) // 255 for alpha in range(256))

    def turned(alpha: Alpha) -> Alpha:
        # many times faster than looking up in an array
        return np.frombuffer(alpha.tobytes().translate(table), np.uint8).reshape(alpha.shape)

    return turned


def clipped(window: Window, limits: Window) -> Window | None:
    """What ``window`` and ``limits`` share; None where that is no px."""
    left, top = max(window.left, limits.left), max(window.top, limits.top)
    right, bottom = min(window.right, limits.right), min(window.bottom, limits.bottom)
    return Window(left, top, right, bottom) if left < right and top < bottom else None


def _packed(colour: str) -> int:
    """The opaque "#rrggbb" as one number whose bytes in memory are red, green, blue and 255."""
    return int(np.frombuffer(bytes.fromhex(colour.removeprefix("#")) + b"\xff", np.uint32)[0])


@lru_cache(512)
def _ramp(ground: int, ink: str) -> Colours:
    """``ground`` under every coverage from 0 to 255 of ``ink``."""
    return _blended(np.full(256, ground, np.uint32), np.arange(256, dtype=np.uint8), ink)


def _blended(grounds: Colours, alpha: Alpha, ink: str) -> Colours:
    """Each of ``grounds`` under its ``alpha`` of ``ink``."""
    over, share = _packed(ink), alpha.astype(np.uint32)
    # two channels at a time, each a byte with one free above it: (ground x rest + over x share) / 255, rounded
    pairs = np.empty((2, len(grounds)), np.uint32)
    np.bitwise_and(grounds, _PAIR, out=pairs[0])
    np.right_shift(grounds, _BYTE, out=pairs[1])
    pairs[1] &= _PAIR
    pairs *= share ^ _ALL
    pairs += np.array([[over & 0xFF00FF], [over >> 8 & 0xFF00FF]], np.uint32) * share
    pairs += _HALF
    pairs += pairs >> _BYTE & _PAIR
    pairs[0] >>= _BYTE
    pairs[0] &= _PAIR
    pairs[1] &= _OTHER
    blended: Colours = pairs[0] | pairs[1]
    return blended


def _straight(channels: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Colours no longer multiplied with their opacity, as files want them."""
    straight = channels.reshape(-1, 4).copy()
    # all others are as they should be: most of a picture
    (some,) = np.nonzero((straight[:, 3] != 0) & (straight[:, 3] != 255))
    opacity = straight[some, 3:].astype(np.uint16)
    # widened first: before numpy 2 a product with a number that fits a byte stays a byte
    colours = (straight[some, :3].astype(np.uint16) * 255 + opacity // 2) // opacity
    straight[some, :3] = colours.clip(max=255)
    return straight.reshape(channels.shape)
