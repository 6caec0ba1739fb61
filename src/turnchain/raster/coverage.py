"""How much of each px an outline covers: our own scan converter.

In: ``Edges``. Out: a ``Mask`` of coverage from 0 to 255, with its place in the picture.

It is our own because the strokers that could be installed either draw far worse or need a system library
that not every machine has, and because one symbol must be drawn at many sub-pixel places very fast. A px is
15 sub-scanlines high; along each the covered length is counted in 256ths of a px, in whole numbers, so that
no sum depends on its order. What is inside follows the non-zero winding rule. Upright rectangles are exact.
"""

from __future__ import annotations

from typing import NamedTuple, TypeAlias

from turnchain.raster import loops
from turnchain.raster.edges import Edges
from turnchain.records import frozen

#: Coverage of px, row behind row, 0 to 255, or to the levels of a palette.
Alpha: TypeAlias = bytes | bytearray


class Window(NamedTuple):
    """A rectangle of whole px; right and bottom are outside."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def width(self) -> int:
        """How many px wide it is."""
        return self.right - self.left

    @property
    def height(self) -> int:
        """How many px high it is."""
        return self.bottom - self.top


#: A window that nothing reaches out of.
EVERYWHERE = Window(-(1 << 20), -(1 << 20), 1 << 20, 1 << 20)


@frozen(eq=False)
class Mask:
    """Coverage of ``width`` by ``height`` px, the first of them the px at (``left``, ``top``) of the picture."""

    left: int
    top: int
    width: int
    height: int
    alpha: Alpha

    @classmethod
    def over(cls, window: Window, alpha: Alpha) -> Mask:
        """The coverage ``alpha`` of the px of ``window``."""
        return cls(window.left, window.top, window.width, window.height, alpha)

    def window(self) -> Window:
        """The px of the picture that the mask is about, those of coverage 0 as well."""
        return Window(self.left, self.top, self.left + self.width, self.top + self.height)


def cover(edges: Edges, window: Window, x: float = 0, y: float = 0) -> Mask | None:
    """The coverage of ``edges``, moved by (x, y) px and filled by the non-zero rule, inside ``window``: the mask is no
    larger than the bounds of both. None where these share no px."""
    found = loops.cover(edges, x, y, window)
    return Mask(*found) if found else None
