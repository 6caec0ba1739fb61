"""What can be written: the one list of formats, which the command line, ``making`` and the pages ask.

In: the name of a file. Out: the format that its ending stands for, and with it the writer. A writer is imported when it
is first needed: numpy and svgwrite take a tenth of a second to come up.
"""

from __future__ import annotations

from importlib import import_module
from pathlib import PurePath
from typing import TYPE_CHECKING, Any, BinaryIO, Final, NamedTuple

if TYPE_CHECKING:
    from turnchain.raster.glyph_cache import BoundedCache
    from turnchain.scene import MovingPicture, Scene


class Format(NamedTuple):
    """A kind of file. ``module`` of this room writes it. ``pixels``: it has px, and can say how many go to an inch.
    ``made``: what a whole folder holds of every picture."""

    ending: str
    module: str
    pixels: bool = False
    made: bool = False

    def writer(self) -> Any:
        """The module that writes it."""
        return import_module(f"turnchain.writers.{self.module}")

    def write(
        self, scene: Scene, stream: BinaryIO, dpi: float | None = None, glyphs: BoundedCache | None = None
    ) -> None:
        """Writes one picture: ``scene`` to ``stream``. ``dpi`` says how large to print one that has px; those of one
        run may share ``glyphs``. MakerError where the format cannot hold it."""
        if self.pixels:
            self.writer().write(scene, stream, dpi, glyphs)
        else:
            self.writer().write(scene, stream)


#: What holds a picture, by its ending; vectors first.
PICTURES: Final = {
    each.ending: each
    for each in (
        Format(".svg", "svg", made=True),
        Format(".png", "png", pixels=True, made=True),
        Format(".webp", "webp", pixels=True),
        Format(".jpg", "jpeg", pixels=True),
        Format(".jpeg", "jpeg", pixels=True),
    )
}
#: What holds pages of paper.
PAGES: Final = {each.ending: each for each in (Format(".pdf", "pdf"),)}
#: What holds a moving picture.
MOVING: Final = (".webp", ".gif")
#: What is made of every picture of a folder, and the one of them that pages show.
MADE: Final = tuple(each for each in PICTURES.values() if each.made)
SHOWN: Final = PICTURES[".png"]


def of(file: PurePath) -> Format:
    """The format of a picture called ``file``. KeyError for an ending that stands for none."""
    return PICTURES[file.suffix.lower()]


def write_moving(file: PurePath, moving: MovingPicture, stream: BinaryIO) -> None:
    """Writes ``moving`` to ``stream`` as the name of ``file`` asks for. MakerError where the format cannot hold it."""
    from turnchain.writers.moving import write  # it brings numpy and Pillow

    write(moving, stream, file.suffix.lower())


def pixel_endings() -> tuple[str, ...]:
    """The endings of pictures that have px."""
    return tuple(each.ending for each in PICTURES.values() if each.pixels)
