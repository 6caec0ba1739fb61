"""Canvases: a band of the picture being painted, as numbers of colours or as colours.

In: rectangles and layers, in the order of painting. Out: the scanlines of a PNG file, or the colours of all px.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from typing import Protocol

from turnchain.raster import loops
from turnchain.raster.coverage import Alpha, Window
from turnchain.raster.layers import Layer
from turnchain.raster.palette import Palette, told


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
    def rows(self) -> Rows:
        """The lines of the band as they are kept, which may be overwritten by lines of other bands of the picture."""

    def scanlines(self) -> Alpha:
        """The bytes of all rows as PNG has them, each row behind a 0 for no filter: drawings become hardly smaller by
        one. A px is the number of its colour in an indexed band; else red, green and blue, and opacity where there is
        no background."""

    def colours(self) -> Alpha:
        """By row and px, 0 to 255: red, green and blue, and opacity where there is no background (in an indexed band:
        where not all colours of the palette are opaque). Colours are not multiplied with their opacity."""


class Rows:
    """The bytes of equally long lines, one behind the other; a line is had and set by its number."""

    def __init__(self, count: int, line: bytes) -> None:
        self.px, self.length = bytearray(line) * count, len(line)

    def __len__(self) -> int:
        return len(self.px) // self.length

    def __getitem__(self, line: int) -> bytes:
        return bytes(self.px[line * self.length : (line + 1) * self.length])

    def __setitem__(self, line: int, px: bytes) -> None:
        self.px[line * self.length : (line + 1) * self.length] = px


class _Band(ABC):
    """What both kinds share: px of a window, painted on. A px is ``size`` bytes, and ``lead`` more stand before each
    row."""

    size = 1
    lead = 0

    def __init__(self, window: Window, background: bytes) -> None:
        self._window, self._kept = window, window
        self._rows = Rows(window.height, bytes(self.lead) + background * window.width)

    def fill(self, rectangle: Window, colour: str) -> None:
        """Paints ``rectangle``, as far as it lies in the band."""
        if not (seen := clipped(rectangle, self._kept)):
            return
        left, top = seen.left - self._window.left, seen.top - self._window.top
        rows = self._rows
        start = top * rows.length + left * self.size + self.lead
        loops.fill(rows.px, start, rows.length, seen.width, seen.height, self._ink(colour))

    def lay(self, layer: Layer) -> None:
        """Lays ``layer`` down, as far as it lies in the band."""
        mask = layer.mask
        if seen := clipped(mask.window(), self._kept):
            left = seen.left - self._window.left + self.lead // self.size
            place = left, seen.top - self._window.top, seen.width, seen.height
            self._lay(layer, (*place, seen.left - mask.left, seen.top - mask.top))

    def keep_to(self, window: Window) -> None:
        """From now on paints nothing outside ``window``."""
        self._kept = window

    @property
    def rows(self) -> Rows:
        """The lines as they are kept."""
        return self._rows

    @abstractmethod
    def _ink(self, colour: str) -> bytes:
        """A px of an opaque colour."""

    @abstractmethod
    def _lay(self, layer: Layer, part: tuple[int, int, int, int, int, int]) -> None:
        """Lays a part of ``layer`` down: x, y, width and height in the rows, then x and y in the mask."""


class Indexed(_Band):
    """A band of ``window`` as numbers of colours in ``palette``, a byte for each px; masks are in its levels."""

    lead = 1  # the 0 before each row, so that the px need not be copied again

    def __init__(self, palette: Palette, window: Window) -> None:
        super().__init__(window, bytes([palette.background]))
        self._palette = palette

    def scanlines(self) -> Alpha:
        """The rows, each behind a 0: a byte for each px. The band's own, not a copy."""
        return self._rows.px

    def colours(self) -> Alpha:
        """The colours that the numbers stand for."""
        channels = self._palette.channels()
        numbers = b"".join(self._rows[line][1:] for line in range(len(self._rows)))
        colours = bytearray(len(numbers) * len(channels))
        for nth, channel in enumerate(channels):
            colours[nth :: len(channels)] = numbers.translate(channel)
        return colours

    def _ink(self, colour: str) -> bytes:
        return bytes([self._palette.number(colour)])

    def _lay(self, layer: Layer, part: tuple[int, int, int, int, int, int]) -> None:
        blends = self._palette.blends(layer.ink)
        mask, rows = layer.mask, self._rows
        loops.lay_indexed(
            rows.px, rows.length, mask.alpha, mask.width, part, blends.table, blends.known, self._palette.packed(),
            blends.ink, blends.lines,
        )  # fmt: skip


class Full(_Band):
    """A band of ``window`` as colours, four bytes for each px, on ``background`` ("#rrggbb", or None for transparent);
    masks run from 0 to 255."""

    size = 4

    def __init__(self, background: str | None, window: Window) -> None:
        super().__init__(window, self._ink(background) if background else bytes(4))
        self._opaque = background is not None

    def scanlines(self) -> Alpha:
        """The rows, each behind a 0: red, green and blue, and opacity where there is no background."""
        return self._packed(1)

    def colours(self) -> Alpha:
        """The colours as they are painted."""
        return self._packed(0)

    def _packed(self, lead: int) -> bytes:
        return loops.packed(self._rows.px, self._rows.length // 4, self._opaque, lead)

    def _ink(self, colour: str) -> bytes:
        return bytes(told(colour))

    def _lay(self, layer: Layer, part: tuple[int, int, int, int, int, int]) -> None:
        mask, rows = layer.mask, self._rows
        loops.lay_full(rows.px, rows.length // 4, mask.alpha, mask.width, part, self._ink(layer.ink))


def levelled(levels: int) -> Callable[[Alpha], Alpha]:
    """A function that turns coverage from 0 to 255 into ``levels`` equal steps, 0 to ``levels``."""
    table = bytes((alpha * levels + 127) // 255 for alpha in range(256))
    return lambda alpha: alpha.translate(table)


def clipped(window: Window, limits: Window) -> Window | None:
    """What ``window`` and ``limits`` share; None where that is no px."""
    left, top = max(window.left, limits.left), max(window.top, limits.top)
    right, bottom = min(window.right, limits.right), min(window.bottom, limits.bottom)
    return Window(left, top, right, bottom) if left < right and top < bottom else None
