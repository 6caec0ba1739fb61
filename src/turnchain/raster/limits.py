"""How large a picture in px may be: asked before anything of it is drawn, and once more of what is drawn.

In: a width and a height in px. Out: MakerError in a maker's words, or nothing.
"""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

from turnchain.errors import MakerError

#: An A0 sheet at 600 dots per inch has 558 million; a viewer needs four bytes for each.
MOST_PX = 1_000_000_000


class Largest(NamedTuple):
    """The largest picture that a file of the format called ``name`` holds: ``px`` in all and, unless it is 0, ``side``
    px each way."""

    name: str = ""
    px: int = MOST_PX
    side: int = 0

    def check(self, width: int, height: float, more: bool = False) -> None:
        """Raises MakerError for a picture of ``width`` by ``height`` px that is larger; ``more``: the height is what it
        has at least, so that nothing need be drawn to know."""
        high = ceil(height)
        if width * high <= self.px and max(width, high) <= (self.side or self.px):
            return
        said = f"a picture of {width:,} by {high:,} px{' or more' if more else ''} is too large"
        if not self.side:
            raise MakerError(
                f"{said}: at most {self.px // 10**6:,} million px in all; take a smaller width or fewer dots per inch, "
                "or SVG or PDF, which have no px"
            )
        raise MakerError(
            f"{said} for {self.name}: at most {self.side:,} px each way and {self.px // 10**6} million in all; take a "
            "smaller width, or PNG"
        )


#: What is written from memory has four bytes for each px.
_IN_MEMORY = 100_000_000
PNG = Largest()
#: RFC 9649: 14 bits for each side.
WEBP = Largest("WebP", _IN_MEMORY, 16_383)
#: ITU-T T.81 has 16 bits for each side; libjpeg, which Pillow writes with, allows a little less.
JPEG = Largest("JPEG", _IN_MEMORY, 65_500)
#: Two bytes for each side (GIF89a, 1990).
GIF = Largest("GIF", _IN_MEMORY, 65_535)
