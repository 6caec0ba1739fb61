"""What the formats that Pillow writes have in common: a whole picture in memory, its size checked, sRGB named.

In: a scene. Out: Pillow's picture of it, in the px that ``raster`` painted, and the profile that says its colours are
sRGB (IEC 61966-2-1), without the date that the library would write into it.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
from PIL import Image, ImageCms

from turnchain.errors import MakerError
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.raster.picture import Raster
from turnchain.scene import Scene

#: These formats are written from memory: four bytes for each px.
MOST_PX = 100_000_000
#: Where an ICC profile holds the time it was made (ICC.1, 7.2), and what stands there instead: 1 January 2000.
_DATE = slice(24, 36)
_ALWAYS = b"".join(number.to_bytes(2, "big") for number in (2000, 1, 1, 0, 0, 0))


def image(
    scene: Scene, name: str, longest: int, glyphs: BoundedCache | None, numbered: bool = True
) -> Image.Image:
    """The picture of ``scene``, px for px, RGB, or RGBA without a background; ``glyphs`` and ``numbered`` as in
    ``Raster``. MakerError where a file of the format called ``name`` (for the message), at most ``longest`` px wide and
    high, cannot hold it, or where it has more px than ``MOST_PX``."""
    if max(scene.width, scene.height) > longest or scene.width * scene.height > MOST_PX:
        raise MakerError(
            f"a picture of {scene.width:,} by {scene.height:,} px is too large for {name}: at most {longest:,} px each "
            f"way and {MOST_PX // 10**6} million in all; take a smaller width, or PNG"
        )
    raster = Raster(scene, glyphs, numbered)
    return Image.fromarray(np.concatenate([canvas.colours() for canvas in raster.bands()]))


@cache
def srgb() -> bytes:
    """The ICC profile that says the colours are sRGB: the same bytes whenever it is made."""
    profile: Any = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
    made = bytearray(profile.tobytes())
    made[_DATE] = _ALWAYS
    return bytes(made)
