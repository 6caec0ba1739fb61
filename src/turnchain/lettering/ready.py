"""The letters of most patterns, read out of the fonts beforehand: to open a font takes a tenth of a second.

In: a weight. Out: the font's em, and advances and outlines by character, as ``faces`` has them. The tables lie beside
the fonts; ``python -m turnchain.lettering`` writes them anew, and a test compares them.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Final

from turnchain.scene import Weight

#: Latin of most of Europe; dashes, quotes, fractions, arrows and signs.
RANGES: Final = (range(0x20, 0x180), range(0x2010, 0x2040), range(0x2150, 0x2200), range(0x2200, 0x2270))
FILES: Final[dict[Weight, str]] = {"regular": "regular.json", "semibold": "semibold.json"}


@dataclass(frozen=True, slots=True)
class Table:
    """``glyphs``: by character its advance in font units, of which ``em`` make an em, and its outline."""

    em: int
    glyphs: dict[str, tuple[int, str]]


@cache
def table(weight: Weight) -> Table:
    """What is ready of ``weight``."""
    data = json.loads(resources.files("turnchain.fonts").joinpath(FILES[weight]).read_text("utf-8"))
    return Table(data["em"], data["glyphs"])


def text(weight: Weight) -> str:
    """What the file of ``weight`` holds: a line for each character that the font has."""
    from turnchain.lettering import faces

    there = faces.characters(weight)
    letters = [chr(code) for codes in RANGES for code in codes if code in there]
    lines = (f"{json.dumps(one)}: {json.dumps(faces.glyph(weight, one))}" for one in letters)
    return f'{{"em": {faces.em(weight)}, "glyphs": {{\n' + ",\n".join(lines) + "\n}}\n"
