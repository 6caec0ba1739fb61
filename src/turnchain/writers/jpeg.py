"""Scenes as JPEG pictures, for places that take no other: fine lines are a little blurred, which no setting avoids.

In: a scene. Out: bytes on a stream, the same for the same scene.
"""

from __future__ import annotations

from typing import BinaryIO

from turnchain.errors import MakerError
from turnchain.raster import limits
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.scene import Scene
from turnchain.writers.image import image, srgb

#: Of 100: above it files grow fast, below it thin lines get rough edges.
QUALITY = 92


def write(scene: Scene, stream: BinaryIO, dpi: float | None = None, glyphs: BoundedCache | None = None) -> None:
    """Writes ``scene`` to ``stream``, px for px; ``dpi`` (px to an inch) only says how large to print it; pictures of
    one run may share ``glyphs``. MakerError where it is too large (see ``image``), or has no background."""
    if scene.background is None:
        raise MakerError("a JPEG cannot be without background; take --page light or dark, or PNG or WebP")
    dots = {"dpi": (round(dpi), round(dpi))} if dpi else {}
    # colour in full resolution (subsampling 0), since thin coloured lines would fade otherwise
    picture = image(scene, limits.JPEG, glyphs)
    picture.save(stream, "JPEG", quality=QUALITY, subsampling=0, optimize=True, icc_profile=srgb(), **dots)
