"""Writers turn a finished scene into files; they know nothing of crochet.

In: a scene and a binary stream. Out: bytes, the same for the same scene: no clock and no random ids. The
ending of a file's name picks its writer; ``files`` is the one place that opens files to be written.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import BinaryIO, TypeAlias

from turnchain.scene import Scene

Writer: TypeAlias = Callable[[Scene, BinaryIO], None]


# Each writer is imported when it is first needed: numpy and svgwrite take a tenth of a second to come up.


def _png(scene: Scene, stream: BinaryIO) -> None:
    from turnchain.writers import png

    png.write(scene, stream)


def _svg(scene: Scene, stream: BinaryIO) -> None:
    from turnchain.writers import svg

    svg.write(scene, stream)


#: The writer for each ending, in small letters.
BY_ENDING: dict[str, Writer] = {".png": _png, ".svg": _svg}
