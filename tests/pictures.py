"""Pictures compared, and shown where they differ."""

from __future__ import annotations

import io
import tempfile
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

import cairosvg
import numpy as np
from numpy.typing import NDArray
from PIL import Image

from turnchain.scene import Scene
from turnchain.writers import png, svg

Picture = NDArray[np.uint8]
NEAR = 16


@dataclass(frozen=True)
class Difference:
    """How far two pictures are apart, in levels of 255: the mean over all channels, the share of px all of
    whose channels are within 16, and the worst."""

    mean: float
    near: float
    worst: int


def difference(a: Picture, b: Picture) -> Difference:
    assert a.shape == b.shape, f"sizes differ: {a.shape} and {b.shape}"
    apart = np.abs(a.astype(int) - b)
    return Difference(float(apart.mean()), float((apart.max(axis=2) <= NEAR).mean()), int(apart.max()))


def check_alike(expected: Picture, found: Picture, mean: float = 1.0, near: float = 0.999) -> None:
    """Fails unless the pictures differ by less than ``mean`` and ``near`` of the px are within 16 levels;
    then both pictures and their difference lie in a folder that the message names."""
    apart = difference(expected, found)
    if apart.mean < mean and apart.near >= near:
        return
    folder = FilePath(tempfile.mkdtemp(prefix="turnchain-pictures-"))
    gap = np.abs(expected.astype(int) - found).max(axis=2).astype(np.uint8)
    for name, picture in {"expected": expected, "difference": 255 - gap, "found": found}.items():
        Image.fromarray(picture).save(folder / f"{name}.png")
    raise AssertionError(f"{apart}: see {folder}")


def svg_bytes(scene: Scene) -> bytes:
    stream = io.BytesIO()
    svg.write(scene, stream)
    return stream.getvalue()


def png_bytes(scene: Scene, **options: Any) -> bytes:
    stream = io.BytesIO()
    png.write(scene, stream, **options)
    return stream.getvalue()


def opened(data: bytes, mode: str = "RGB") -> Picture:
    """The px of a PNG file, read by Pillow."""
    return np.asarray(Image.open(io.BytesIO(data)).convert(mode))


def ours(scene: Scene, mode: str = "RGB") -> Picture:
    return opened(png_bytes(scene), mode)


def cairos(scene: Scene, mode: str = "RGB") -> Picture:
    """The scene's SVG as cairo draws it: a renderer that shares no code with ours."""
    return opened(cairosvg.svg2png(svg_bytes(scene), unsafe=True), mode)


def cairos_svg(data: bytes) -> Picture:
    """An SVG file as cairo draws it."""
    return opened(cairosvg.svg2png(data, unsafe=True))
