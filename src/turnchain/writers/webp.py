"""Scenes as WebP pictures without loss: every px as in the PNG, in fewer bytes.

In: a scene. Out: bytes on a stream, the same for the same scene.
"""

from __future__ import annotations

from typing import BinaryIO

from PIL import Image

from turnchain.raster import limits
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.scene import Scene
from turnchain.writers.image import image, srgb

#: Tags of Exif (CIPA DC-008): dots across and down, and that they are to the inch.
X_RESOLUTION, Y_RESOLUTION, RESOLUTION_UNIT, INCHES = 282, 283, 296, 2


def write(scene: Scene, stream: BinaryIO, dpi: float | None = None, glyphs: BoundedCache | None = None) -> None:
    """Writes ``scene`` to ``stream``, px for px; ``dpi`` (px to an inch) only says how large to print it; pictures of
    one run may share ``glyphs``. MakerError where it is too large (see ``image``)."""
    exif = Image.Exif()
    if dpi:
        exif[X_RESOLUTION] = exif[Y_RESOLUTION] = dpi
        exif[RESOLUTION_UNIT] = INCHES
    picture = image(scene, limits.WEBP, glyphs)
    picture.save(stream, "WEBP", lossless=True, quality=60, method=4, icc_profile=srgb(), exif=exif.tobytes())
