"""Moving pictures: WebP without loss, and GIF.

In: a ``MovingPicture``. Out: bytes on a stream, the same for the same picture. All frames share their colours, so
that nothing flickers: a px changes where the drawing does and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from turnchain.errors import MakerError
from turnchain.raster import limits
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.raster.limits import Largest
from turnchain.scene import MovingPicture
from turnchain.terminal import progress
from turnchain.writers.image import image, srgb

#: A GIF has 256 colours (GIF89a, 1990). The last stands for what stays as it was: if Pillow chose it, frames would get
#: palettes of their own.
COLOURS, UNCHANGED = 255, 255


def write(moving: MovingPicture, stream: BinaryIO, ending: str) -> None:
    """Writes ``moving``, one scene or more, to ``stream`` as WebP where the ``ending`` is ".webp", else as GIF. It
    repeats without end; how long each scene is shown is rounded to a hundredth of a second. MakerError where it is too
    large (see ``image``), or has no background: what is new could not cover what was there."""
    if moving.scenes[0].background is None:
        raise MakerError("a moving picture cannot be without background; choose another page")
    (_write_webp if ending == ".webp" else _write_gif)(moving, stream)


def _write_webp(moving: MovingPicture, stream: BinaryIO) -> None:
    first, *others = _images(moving, limits.WEBP)
    first.save(
        stream, "WEBP", save_all=True, append_images=others, duration=_milliseconds(moving), loop=0, lossless=True,
        quality=60, method=4, icc_profile=srgb(),
    )  # fmt: skip


def _write_gif(moving: MovingPicture, stream: BinaryIO) -> None:
    frames = [np.asarray(frame.convert("RGB")) for frame in _images(moving, limits.GIF)]
    palette = _palette(frames)
    whole = _filled(palette)
    first, *others = (_numbered(frame, palette, whole) for frame in frames)
    first.save(
        stream, "GIF", save_all=True, append_images=others, duration=_milliseconds(moving), loop=0, disposal=1,
        optimize=False, transparency=UNCHANGED, palette=whole,
    )  # fmt: skip


def _images(moving: MovingPicture, largest: Largest) -> Iterator[Image.Image]:
    glyphs = BoundedCache()
    for number, scene in enumerate(moving.scenes):
        progress("pictures", number, len(moving.scenes))
        yield image(scene, largest, glyphs, numbered=False)


def _milliseconds(moving: MovingPicture) -> list[int]:
    """How long each is shown, to a hundredth of a second: a GIF holds no finer times."""
    return [10 * round(100 * seconds) for seconds in moving.seconds]


def _packed(frame: NDArray[np.uint8]) -> NDArray[np.uint32]:
    """The colours of a frame, each as one number."""
    red, green, blue = (frame[:, :, channel].astype(np.uint32) for channel in range(3))
    return (red * 0x10000 + green * 0x100 + blue).astype(np.uint32)


def _palette(frames: Iterable[NDArray[np.uint8]]) -> NDArray[np.uint32]:
    """The colours that most px of all frames have."""
    counts: dict[int, int] = {}
    for frame in frames:
        colours, times = np.unique(_packed(frame), return_counts=True)
        for colour, count in zip(colours.tolist(), times.tolist(), strict=True):
            counts[colour] = counts.get(colour, 0) + count
    most = sorted(counts, key=lambda colour: (-counts[colour], colour))[:COLOURS]
    return np.array(sorted(most), np.uint32)


def _filled(palette: NDArray[np.uint32]) -> bytes:
    """``palette`` as a GIF has it, each of its 256 colours another: the library counts colours by what they are."""
    had = set(palette.tolist())
    spare = (colour for colour in range(2 * (UNCHANGED + 1)) if colour not in had)
    colours = [*palette.tolist(), *(next(spare) for _ in range(UNCHANGED + 1 - len(had)))]
    return _channels(np.array(colours, np.uint32)).astype(np.uint8).tobytes()


def _numbered(frame: NDArray[np.uint8], palette: NDArray[np.uint32], whole: bytes) -> Image.Image:
    """A frame as numbers of the palette; a colour that it lacks becomes the nearest it has."""
    colours, which = np.unique(_packed(frame), return_inverse=True)
    own, all_of_them = _channels(colours), _channels(palette)
    apart = ((own[:, None] - all_of_them[None]) ** 2).sum(axis=2)
    numbers = apart.argmin(axis=1).astype(np.uint8)[which].reshape(frame.shape[:2])
    numbered = Image.fromarray(numbers)
    numbered.putpalette(whole)
    return numbered


def _channels(colours: NDArray[np.uint32]) -> NDArray[np.int64]:
    return np.stack([colours >> 16, colours >> 8 & 255, colours & 255], axis=1).astype(np.int64)
