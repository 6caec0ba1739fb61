"""Photographs of the maker's, made ready to be published.

In: the folder of a pattern and a ``Photo``. Out: a JPEG in sRGB: turned as the camera says, no larger than is printed,
without what a camera writes beside the picture (where, when and with what it was taken).
"""

from __future__ import annotations

import io
from pathlib import Path
from typing import TYPE_CHECKING

from turnchain.errors import FileError
from turnchain.paper import Photograph
from turnchain.pattern import Photo

if TYPE_CHECKING:
    from PIL import Image

LONGEST = 1600  # px: 170 mm at 240 dots per inch
QUALITY = 86  # of a JPEG, as its libraries count from 1 to 100
MOST_PX = 200_000_000  # of a photograph: a larger file is a mistake, or made to do harm


def prepared(folder: Path, photo: Photo) -> Photograph:
    """The photograph of a file in ``folder``: upright, in sRGB on white, its longer side at most ``LONGEST`` px.
    FileError where it is not there, lies outside the folder, has more than ``MOST_PX`` px, or is no JPEG, PNG or WebP
    that can be read."""
    from PIL import Image, ImageOps, UnidentifiedImageError  # for a pattern with photographs alone

    path = _inside(folder, photo.file)
    try:
        with Image.open(path, formats=("JPEG", "PNG", "WEBP")) as opened:
            if opened.width * opened.height > MOST_PX:
                raise FileError(f"{path}: a photograph of {opened.width} x {opened.height} px is too large")
            opened.draft("RGB", (LONGEST, LONGEST))  # a JPEG is read at once nearly as small as needed
            turned = _coloured(ImageOps.exif_transpose(opened))
    except (UnidentifiedImageError, Image.DecompressionBombError, SyntaxError, ValueError) as error:
        raise FileError(f"{path}: this is no photograph that can be read; JPEG, PNG and WebP can") from error
    except OSError as error:
        raise FileError(f"{path}: this photograph cannot be read ({error.strerror or 'it is cut short'})") from error
    turned.thumbnail((LONGEST, LONGEST), Image.Resampling.LANCZOS)
    stream = io.BytesIO()
    turned.save(stream, "JPEG", quality=QUALITY, optimize=True)
    return Photograph(stream.getvalue(), turned.width, turned.height, photo.alt)


def _inside(folder: Path, name: str) -> Path:
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise FileError(f"{path}: a photograph must lie in the folder of the pattern, and this is a link out of it")
    if not path.is_file():
        raise FileError(f"{path}: there is no such photograph; it is looked for beside the pattern file")
    return path


def _coloured(image: Image.Image) -> Image.Image:
    """The picture in sRGB on white, with nothing but its px."""
    from PIL import Image as Images  # as above
    from PIL import ImageCms

    profile = image.info.get("icc_profile")
    opaque = image
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        seen = image.convert("RGBA")
        opaque = Images.new("RGB", image.size, "white")
        opaque.paste(seen, mask=seen.getchannel("A"))
    plain = opaque.convert("RGB")
    if profile and image.mode == "RGB":
        try:
            wide = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            plain = ImageCms.profileToProfile(plain, wide, ImageCms.createProfile("sRGB")) or plain
        except (ImageCms.PyCMSError, OSError):
            pass  # a profile that cannot be read: the px are taken as sRGB
    bare = Images.new("RGB", plain.size)
    bare.paste(plain)
    return bare
