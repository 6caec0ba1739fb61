"""Paper: pages that show scenes, whole or a part of them.

In: finished scenes. Out: frozen pages for the writer of documents, lengths in mm. A page knows nothing of
crochet; what goes on which page is settled before. The same scene may be seen on many pages, as the tiles of a
poster see it: its definitions are then written once for all of them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

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


@dataclass(frozen=True, slots=True)
class View:
    """``crop`` of ``scene`` (all of it where None), its top left corner ``left`` and ``top`` mm from that of
    the paper, a px of the scene ``mm_per_px`` mm wide and high. Nothing shows outside the crop."""

    scene: Scene
    mm_per_px: float
    left: float = 0.0
    top: float = 0.0
    crop: Crop | None = None

    def seen(self) -> Crop:
        """The crop, spelled out."""
        return self.crop or Crop(0.0, 0.0, self.scene.width, self.scene.height)


@dataclass(frozen=True, slots=True)
class Link:
    """A box on a page, in mm from its top left corner, that leads to ``page`` (from 1) of the same document."""

    left: float
    top: float
    right: float
    bottom: float
    page: int


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet of paper ``width`` x ``height`` mm; later views cover earlier ones. ``label`` is what a reader's
    program calls the page ("" for its plain number); ``links`` lead to other pages."""

    width: float
    height: float
    views: tuple[View, ...]
    label: str = ""
    links: tuple[Link, ...] = ()


def fitted(scene: Scene, width: float, height: float, margin: float = 0.0, label: str = "") -> Page:
    """A page of ``width`` x ``height`` mm with all of ``scene``, as large as fits inside ``margin`` mm and in
    the middle. ValueError where the margins leave no room."""
    across, down = width - 2 * margin, height - 2 * margin
    if min(across, down) <= 0:
        raise ValueError(f"margins of {margin} mm leave no room on {width} x {height} mm")
    scale = min(across / scene.width, down / scene.height)
    left, top = (width - scale * scene.width) / 2, (height - scale * scene.height) / 2
    return Page(width, height, (View(scene, scale, left, top),), label)


def tiled(
    scene: Scene, mm_per_px: float, width: float, height: float, margin: float = 0.0, overlap: float = 0.0
) -> list[Page]:
    """``scene`` cut into pages of ``width`` x ``height`` mm, row by row from the top, each repeating ``overlap``
    mm of the one to its left and of the one above. Labels are A1, A2 ... along the first row, then B1 ...

    ValueError where margins and overlap leave nothing of a page.
    """
    across, down = width - 2 * margin, height - 2 * margin
    columns, rows = tile_counts(scene, mm_per_px, width, height, margin, overlap)
    pages: list[Page] = []
    for row in range(rows):
        for column in range(columns):
            left, top = column * (across - overlap) / mm_per_px, row * (down - overlap) / mm_per_px
            right, bottom = left + across / mm_per_px, top + down / mm_per_px
            crop = Crop(left, top, min(right, scene.width), min(bottom, scene.height))
            view = View(scene, mm_per_px, margin, margin, crop)
            pages.append(Page(width, height, (view,), f"{letter(row)}{column + 1}"))
    return pages


def tile_counts(
    scene: Scene, mm_per_px: float, width: float, height: float, margin: float = 0.0, overlap: float = 0.0
) -> tuple[int, int]:
    """Into how many columns and rows ``tiled`` cuts ``scene``, without cutting it. ValueError as there."""
    across, down = width - 2 * margin, height - 2 * margin
    if min(across, down) <= overlap:
        raise ValueError(f"margins of {margin} mm and {overlap} mm shared leave nothing of {width} x {height} mm")
    return _tiles(scene.width * mm_per_px, across, overlap), _tiles(scene.height * mm_per_px, down, overlap)


def _tiles(length: float, tile: float, overlap: float) -> int:
    """How many tiles cover ``length``, each but the first adding ``tile`` - ``overlap``."""
    return max(1, math.ceil((length - overlap - SLACK) / (tile - overlap)))
