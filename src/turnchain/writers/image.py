"""What the formats that Pillow writes have in common: a whole picture in memory, its size checked, sRGB named.

In: a scene. Out: Pillow's picture of it, in the px that ``raster`` painted, and the profile that says its colours are
sRGB (IEC 61966-2-1), without the date that the library would write into it.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from PIL import Image, ImageCms

from turnchain.raster.glyph_cache import BoundedCache
from turnchain.raster.limits import Largest
from turnchain.raster.picture import Raster
from turnchain.scene import Scene

#: Where an ICC profile holds the time it was made (ICC.1, 7.2), and what stands there instead: 1 January 2000.
_DATE = slice(24, 36)
_ALWAYS = b"".join(number.to_bytes(2, "big") for number in (2000, 1, 1, 0, 0, 0))


def image(
    scene: Scene, largest: Largest, glyphs: BoundedCache | None, numbered: bool = True
) -> Image.Image:
    """The picture of ``scene``, px for px, RGB, or RGBA without a background; ``glyphs`` and ``numbered`` as in
    ``Raster``. MakerError where it is larger than the ``largest`` of its format."""
    largest.check(scene.width, scene.height)
    raster = Raster(scene, glyphs, numbered)
    colours = b"".join(canvas.colours() for canvas in raster.bands())
    mode = "RGBA" if len(colours) == 4 * scene.width * scene.height else "RGB"
    return Image.frombytes(mode, (scene.width, scene.height), colours)


@cache
def srgb() -> bytes:
    """The ICC profile that says the colours are sRGB: the same bytes whenever it is made."""
    profile: Any = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
    made = bytearray(profile.tobytes())
    made[_DATE] = _ALWAYS
    return bytes(made)
