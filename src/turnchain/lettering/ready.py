"""The letters of most patterns, read out of the fonts beforehand: to open a font takes a tenth of a second.

In: a weight. Out: the font's em, and advances and outlines by character, as ``faces`` has them. The tables lie beside
the fonts; ``python -m turnchain.lettering`` writes them anew, and a test compares them.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from turnchain import packaged
from turnchain.records import frozen
from turnchain.scene import Weight

#: Latin of most of Europe; dashes, quotes, fractions, arrows and signs.
RANGES: Final = (range(0x20, 0x180), range(0x2010, 0x2040), range(0x2150, 0x2200), range(0x2200, 0x2270))
FILES: Final[dict[Weight, str]] = {"regular": "regular.txt", "semibold": "semibold.txt"}
#: What a table begins with: a converted font stays under the licence of the font, and says so.
HEADER: Final = """\
# Outlines and advances of Lato, {weight}, converted for turnchain.
# Copyright (c) 2010-2014 by tyPoland Lukasz Dziedzic with Reserved Font Name "Lato".
# Licensed under the SIL Open Font License, Version 1.1, which stands beside this file in OFL.txt.
"""


@frozen
class Table:
    """The ``lines`` of a file by what they begin with: a character's code point in hexadecimal digits. Then come its
    advance in font units, of which ``em`` make an em, and its outline."""

    em: int
    lines: dict[str, str]

    def glyph(self, character: str) -> tuple[int, str] | None:
        """Advance and outline of ``character``, as ``faces`` has them; None where it is not ready."""
        line = self.lines.get(_code(character))
        if line is None:
            return None
        advance, _, outline = line.partition(" ")
        return int(advance), outline

    def __contains__(self, character: str) -> bool:
        return _code(character) in self.lines


def _code(character: str) -> str:
    return f"{ord(character):04x}"


@cache
def table(weight: Weight) -> Table:
    """The table of ``weight``, read once. FileNotFoundError where it was not installed."""
    text = packaged.file("fonts", FILES[weight]).read_bytes().decode("ascii")  # twice as fast as read_text
    first, *lines = text.splitlines()[HEADER.count("\n") :]
    # a line is taken apart only when its letter is wanted
    return Table(int(first.removeprefix("em ")), dict(line.split(" ", 1) for line in lines))


def text(weight: Weight) -> str:
    """What the file of ``weight`` is to hold, read out of the font: ``HEADER``, the em, then a line for each character
    in ``RANGES`` that the font has."""
    from turnchain.lettering import faces  # fontTools: only to write the tables

    there = faces.characters(weight)
    letters = [chr(code) for codes in RANGES for code in codes if code in there]
    lines = (f"{_code(one)} {' '.join(map(str, faces.glyph(weight, one)))}" for one in letters)
    return HEADER.format(weight=weight) + "\n".join([f"em {faces.em(weight)}", *lines]) + "\n"
