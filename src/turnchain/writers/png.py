"""Scenes as PNG files.

In: a scene. Out: bytes on a stream: what ``raster`` painted, band by band, indexed or RGB, deflated and packed into the
chunks of the format (W3C, PNG Specification). The same for the same scene on one machine; on another the deflater may
be another (see ``_packer``), and processors may round the last bit of a coverage otherwise. Width and height have no
limit but the format's own; both together that of ``raster.picture``.
"""

from __future__ import annotations

import struct
import zlib
from typing import Any, BinaryIO

from turnchain.raster.glyph_cache import BoundedCache
from turnchain.raster.picture import Raster
from turnchain.scene import Scene

INCH = 0.0254  # metres


def write(scene: Scene, stream: BinaryIO, dpi: float | None = None, glyphs: BoundedCache | None = None) -> None:
    """Writes ``scene`` to ``stream``, px for px; ``dpi`` (px to an inch) only says how large to print it; pictures of
    one run may share ``glyphs``. MakerError where it has more px than ``raster.limits.MOST_PX``."""
    raster = Raster(scene, glyphs)
    kind = 3 if raster.palette else 2 if raster.opaque else 6
    stream.write(b"\x89PNG\r\n\x1a\n")
    _chunk(stream, b"IHDR", struct.pack(">2I5B", raster.width, raster.height, 8, kind, 0, 0, 0))
    if dpi:
        _chunk(stream, b"pHYs", struct.pack(">2IB", round(dpi / INCH), round(dpi / INCH), 1))
    if raster.palette:
        colours, opacities = raster.palette.chunks()
        _chunk(stream, b"PLTE", colours)
        if opacities:
            _chunk(stream, b"tRNS", opacities)
    packer = _packer()
    for canvas in raster.bands():
        if packed := packer.compress(canvas.scanlines()):
            _chunk(stream, b"IDAT", packed)
        del canvas  # before the next one is made
    _chunk(stream, b"IDAT", packer.flush())
    _chunk(stream, b"IEND", b"")


def _chunk(stream: BinaryIO, kind: bytes, data: bytes) -> None:
    stream.write(struct.pack(">I", len(data)) + kind)
    stream.write(data)
    stream.write(struct.pack(">I", zlib.crc32(data, zlib.crc32(kind))))


def _packer() -> Any:
    """A deflater: isal's, many times faster than zlib's, where there is one."""
    try:
        from isal import isal_zlib  # it may be missing
    except ImportError:
        return zlib.compressobj(6)
    return isal_zlib.compressobj(2)
