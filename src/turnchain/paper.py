"""Paper: pages that show scenes, whole or a part of them.

In: finished scenes. Out: frozen pages for the writer of documents, lengths in mm. Nothing here is of
crochet; what goes on which page is settled before. The same scene may be seen on many pages, as the tiles of a
poster see it: its definitions are then written once for all of them.
"""

from __future__ import annotations

import math
from collections.abc import Container, Iterable
from typing import NamedTuple

from turnchain.records import frozen
from turnchain.scene import Scene
from turnchain.style import letter

#: Rounding in the last place must not add a row or column of nearly empty tiles (mm).
SLACK = 1e-6


class Crop(NamedTuple):
    """A part of a scene, in px of the scene; right and bottom are outside."""

    left: float
    top: float
    right: float
    bottom: float


@frozen
class View:
    """``crop`` of ``scene`` (all of it where None), its top left corner ``left`` and ``top`` mm from that of
    the paper, a px of the scene ``mm_per_px`` mm wide and high. Nothing shows outside the crop."""

    scene: Scene
    mm_per_px: float
    left: float = 0.0
    top: float = 0.0
    crop: Crop | None = None

    def seen(self) -> Crop:
        """The crop in px; all of the scene where ``crop`` is None."""
        return self.crop or Crop(0.0, 0.0, self.scene.width, self.scene.height)


@frozen
class Link:
    """A box on a page, in mm from its top left corner, that leads to ``page`` (from 1) of the same document."""

    left: float
    top: float
    right: float
    bottom: float
    page: int


@frozen
class Photograph:
    """A JPEG in sRGB of ``width`` x ``height`` px, and its alt text."""

    data: bytes
    width: int
    height: int
    alt: str


@frozen
class PhotographView:
    """All of a photograph, its top left corner ``left`` and ``top`` mm from that of the paper, ``width`` mm wide."""

    photograph: Photograph
    left: float
    top: float
    width: float

    @property
    def height(self) -> float:
        """Its height in mm, in the photograph's own proportion."""
        return self.width * self.photograph.height / self.photograph.width


@frozen
class Page:
    """A sheet of paper ``width`` x ``height`` mm; later views cover earlier ones. ``label`` is what a reader's
    program calls the page ("" for its plain number); ``links`` lead to other pages; ``photographs`` lie below all
    views; ``language`` is that of its words (BCP 47; "": not known)."""

    width: float
    height: float
    views: tuple[View, ...]
    label: str = ""
    links: tuple[Link, ...] = ()
    photographs: tuple[PhotographView, ...] = ()
    language: str = ""


def fitted(scene: Scene, width: float, height: float, margin: float = 0.0, label: str = "") -> Page:
    """A page of ``width`` x ``height`` mm with all of ``scene``, as large as fits inside ``margin`` mm and in
    the middle. ValueError where the margins leave no room."""
    across, down = width - 2 * margin, height - 2 * margin
    if min(across, down) <= 0:
        raise ValueError(f"margins of {margin} mm leave no room on {width} x {height} mm")
    scale = min(across / scene.width, down / scene.height)
    left, top = (width - scale * scene.width) / 2, (height - scale * scene.height) / 2
    return Page(width, height, (View(scene, scale, left, top),), label)


@frozen
class Tiling:
    """``part`` of ``scene``, a px ``mm_per_px`` mm wide, cut onto sheets of ``width`` x ``height`` mm with ``margin``
    mm left free, each sharing ``overlap`` mm with the one to its left and the one above. ``shift`` is how many mm of
    the first sheet lie beyond the part, to the left and above.

    ValueError where margins and overlap leave nothing of a sheet.
    """

    scene: Scene
    mm_per_px: float
    width: float
    height: float
    margin: float = 0.0
    overlap: float = 0.0
    part: Crop | None = None
    shift: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        if min(self.tile) <= self.overlap:
            raise ValueError(
                f"margins of {self.margin} mm and {self.overlap} mm shared leave nothing of {self.width} x "
                f"{self.height} mm"
            )

    @property
    def tile(self) -> tuple[float, float]:
        """What a sheet shows at most: mm across and down."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin

    @property
    def whole(self) -> Crop:
        """The part that is cut, in px of the scene; all of it where ``part`` is None."""
        return self.part or Crop(0.0, 0.0, self.scene.width, self.scene.height)

    @property
    def counts(self) -> tuple[int, int]:
        """How many columns and how many rows of sheets cover the part, at least one of each."""
        left, top, right, bottom = self.whole
        sizes = (right - left, bottom - top)
        return (
            _tiles(sizes[0] * self.mm_per_px + self.shift[0], self.tile[0], self.overlap),
            _tiles(sizes[1] * self.mm_per_px + self.shift[1], self.tile[1], self.overlap),
        )

    def spare(self) -> tuple[float, float]:
        """The mm across and down that all sheets together show beyond the part, to the right and below: as far as
        ``shift`` may still grow."""
        left, top, right, bottom = self.whole
        return (
            _shown(self.counts[0], self.tile[0], self.overlap) - (right - left) * self.mm_per_px - self.shift[0],
            _shown(self.counts[1], self.tile[1], self.overlap) - (bottom - top) * self.mm_per_px - self.shift[1],
        )

    def window(self, row: int, column: int) -> Crop:
        """What the sheet in this ``row`` and ``column`` (from 0) shows, in px of the scene, no more than the part."""
        whole, px = self.whole, 1 / self.mm_per_px
        left = whole.left + (column * (self.tile[0] - self.overlap) - self.shift[0]) * px
        top = whole.top + (row * (self.tile[1] - self.overlap) - self.shift[1]) * px
        return Crop(
            max(left, whole.left),
            max(top, whole.top),
            min(left + self.tile[0] * px, whole.right),
            min(top + self.tile[1] * px, whole.bottom),
        )

    def filled(self, parts: Iterable[tuple[float, float, float, float]]) -> set[tuple[int, int]]:
        """The sheets, as row and column, that show something of ``parts`` (rectangles in px) which the sheets to the
        left and above do not show: all that are needed."""
        columns, rows = self.counts
        found: set[tuple[int, int]] = set()
        for left, top, right, bottom in parts:
            across = (self._first(left, 0, columns), self._first(right, 0, columns))
            down = (self._first(top, 1, rows), self._first(bottom, 1, rows))
            found.update((row, column) for row in range(down[0], down[1] + 1) for column in range(*_upto(across)))
        return found

    def _first(self, px: float, way: int, count: int) -> int:
        """The first column (``way`` 0) or row (1) that shows this place."""
        mm = (px - self.whole[way]) * self.mm_per_px + self.shift[way] - self.overlap
        return min(max(0, math.floor(mm / (self.tile[way] - self.overlap) - SLACK)), count - 1)

    def pages(self, wanted: Container[tuple[int, int]] | None = None) -> list[Page]:
        """The sheets, row by row from the top; of those ``wanted`` alone (None: all). Labels are A1, A2 ... along the
        first row, then B1 ..."""
        columns, rows = self.counts
        return [
            Page(
                self.width,
                self.height,
                (View(self.scene, self.mm_per_px, self.margin, self.margin, self.window(row, column)),),
                f"{letter(row)}{column + 1}",
            )
            for row in range(rows)
            for column in range(columns)
            if wanted is None or (row, column) in wanted
        ]


def _upto(ends: tuple[int, int]) -> tuple[int, int]:
    return ends[0], ends[1] + 1


def _tiles(length: float, tile: float, overlap: float) -> int:
    """How many tiles cover ``length``, each but the first adding ``tile`` - ``overlap``."""
    return max(1, math.ceil((length - overlap - SLACK) / (tile - overlap)))


def _shown(count: int, tile: float, overlap: float) -> float:
    """The length that so many tiles cover."""
    return count * (tile - overlap) + overlap
