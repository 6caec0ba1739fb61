"""What can be written: the one list of formats, for the command line, ``making`` and the pages.

In: the name of a file. Out: the format that its ending stands for, and with it the writer. A writer is imported when it
is first needed: to import Pillow and svgwrite takes a few hundredths of a second.
"""

from __future__ import annotations

from importlib import import_module
from pathlib import PurePath
from typing import TYPE_CHECKING, Any, BinaryIO, Final, NamedTuple

from turnchain.raster import limits
from turnchain.raster.limits import Largest

if TYPE_CHECKING:
    from turnchain.raster.glyph_cache import BoundedCache
    from turnchain.scene import MovingPicture, Scene


class Format(NamedTuple):
    """A kind of file, by its ``ending`` with the full stop, in small letters. ``module`` of this room writes it.
    ``made``: a whole folder holds one of every picture. ``largest``: the largest picture it holds, where it has px;
    then it can say how many go to an inch."""

    ending: str
    module: str
    made: bool = False
    largest: Largest | None = None

    @property
    def pixels(self) -> bool:
        """Whether it has px."""
        return self.largest is not None

    def check(self, width: int, height: float, more: bool = True) -> None:
        """Raises MakerError where a picture of ``width`` by ``height`` px (``more``: at least) is larger than it
        holds."""
        if self.largest is not None:
            self.largest.check(width, height, more)

    def writer(self) -> Any:
        """The module that writes it, imported now if need be; its ``write`` takes what ``write`` here takes, without
        ``dpi`` and ``glyphs`` where the format has no px."""
        return import_module(f"turnchain.writers.{self.module}")

    def write(
        self, scene: Scene, stream: BinaryIO, dpi: float | None = None, glyphs: BoundedCache | None = None
    ) -> None:
        """Writes one picture: ``scene`` to ``stream``, which stays open. ``dpi`` (px to an inch, None to say nothing)
        says how large to print one that has px; those of one run may share ``glyphs``. MakerError where the format
        cannot hold it."""
        if self.pixels:
            self.writer().write(scene, stream, dpi, glyphs)
        else:
            self.writer().write(scene, stream)


#: The formats that hold one picture, by ending; vectors first.
PICTURES: Final = {
    each.ending: each
    for each in (
        Format(".svg", "svg", made=True),
        Format(".png", "png", made=True, largest=limits.PNG),
        Format(".webp", "webp", largest=limits.WEBP),
        Format(".jpg", "jpeg", largest=limits.JPEG),
        Format(".jpeg", "jpeg", largest=limits.JPEG),
    )
}
#: The formats that hold pages of paper, by ending; ``writers.pdf`` is called by itself, since it takes no scene.
PAGES: Final = {each.ending: each for each in (Format(".pdf", "pdf"),)}
#: The endings of formats that hold a moving picture.
MOVING: Final = (".webp", ".gif")
#: What is made of every picture of a folder, and the one of them that pages show.
MADE: Final = tuple(each for each in PICTURES.values() if each.made)
SHOWN: Final = PICTURES[".png"]


def of(file: PurePath) -> Format:
    """The format of a picture called ``file``. KeyError for an ending that stands for none."""
    return PICTURES[file.suffix.lower()]


def write_moving(file: PurePath, moving: MovingPicture, stream: BinaryIO) -> None:
    """Writes ``moving`` to ``stream`` in the format of the ending of ``file``, one of ``MOVING``; an unknown one is
    written as GIF. MakerError where the format cannot hold it."""
    from turnchain.writers.moving import write  # it brings numpy and Pillow

    write(moving, stream, file.suffix.lower())


def pixel_endings() -> tuple[str, ...]:
    """The endings of pictures that have px, as in ``PICTURES``."""
    return tuple(each.ending for each in PICTURES.values() if each.pixels)
