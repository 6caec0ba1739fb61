"""The fonts themselves, opened with fontTools: slow to load, and only needed for what ``ready`` does not hold.

In: a weight and characters. Out: advances and outlines in the font's own units, or a font cut down to them.
"""

from __future__ import annotations

import io
from functools import cache
from typing import TYPE_CHECKING, Any

from turnchain import packaged
from turnchain.numbers import decimal
from turnchain.records import frozen
from turnchain.scene import Weight

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

FILES: dict[Weight, str] = {"regular": "Lato-Regular.ttf", "semibold": "Lato-Semibold.ttf"}


@frozen
class _Face:
    """An opened font: glyph names by code point, glyphs, and how many font units make an em."""

    names: dict[int, str]
    glyphs: Any  # fontTools has no types for its glyph sets
    em: int

    def name(self, character: str) -> str:
        """The name of the glyph for ``character``; of the box for one that the font lacks."""
        return self.names.get(ord(character), ".notdef")


def characters(weight: Weight) -> frozenset[int]:
    """The code points that the font of ``weight`` has."""
    return frozenset(_face(weight).names)


def em(weight: Weight) -> int:
    """How many font units of ``weight`` make an em."""
    return _face(weight).em


def glyph(weight: Weight, character: str) -> tuple[int, str]:
    """The advance of ``character`` in font units, and its outline as SVG path data (M, L, H, V, Q, Z), y downwards, its
    origin at (0, 0); "" for a blank. Quadratic curves stay as the font has them, and all numbers are whole or halves.
    Of a character that the font lacks, both are those of the font's box for such."""
    from fontTools.pens.svgPathPen import SVGPathPen  # fontTools: few words need it
    from fontTools.pens.transformPen import TransformPen

    face = _face(weight)
    pen = SVGPathPen(face.glyphs, decimal)
    drawn = face.glyphs[face.name(character)]
    drawn.draw(TransformPen(pen, (1, 0, 0, -1, 0, 0)))
    return drawn.width, str(pen.getCommands())


@frozen
class Cut:
    """A font cut down to some characters: ``name`` is that of the font, ``data`` a TrueType file and ``glyphs`` the
    number of each character's glyph in it (0, the box, for those that the font lacks). Lengths are in thousandths of an
    em, upwards from the baseline: ``box`` around all glyphs that are left (left, bottom, right, top), ``ascent``,
    ``descent`` (below 0) and the height of a ``capital``."""

    name: str
    data: bytes
    glyphs: dict[str, int]
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    capital: int


def cut(weight: Weight, characters: str) -> Cut:
    """The font of ``weight`` with the box and the glyphs of ``characters`` and nothing else, to be embedded in a file:
    the same bytes for the same characters."""
    from fontTools import subset  # for a PDF alone

    font = _opened(weight)
    font.recalcTimestamp = False  # else the file would hold the time of this run
    options = subset.Options(
        layout_features=[], hinting=False, glyph_names=False, name_IDs=[], notdef_outline=True, legacy_cmap=False
    )
    options.drop_tables += ["OS/2", "name", "post", "cmap"]  # of no use to documents, which name glyphs by number
    subsetter = subset.Subsetter(options)
    names = {character: _face(weight).name(character) for character in characters}
    subsetter.populate(glyphs=names.values())
    head, line, capital = font["head"], font["hhea"], font["OS/2"].sCapHeight
    subsetter.subset(font)
    stream = io.BytesIO()
    font.save(stream, reorderTables=True)
    box = (head.xMin, head.yMin, head.xMax, head.yMax)
    left, bottom, right, top, ascent, descent, capital = (
        round(1000 * length / head.unitsPerEm) for length in (*box, line.ascent, line.descent, capital)
    )
    return Cut(
        FILES[weight].removesuffix(".ttf"),
        stream.getvalue(),
        {character: font.getGlyphID(name) for character, name in names.items()},
        (left, bottom, right, top),
        ascent,
        descent,
        capital,
    )


def _opened(weight: Weight) -> TTFont:
    import logging  # fontTools brings it

    from fontTools.ttLib import TTFont  # a tenth of a second

    # fontTools warns about the date in the font's header, which is nothing that a maker can mend
    logging.getLogger("fontTools.ttLib.tables._h_e_a_d").setLevel(logging.ERROR)
    data = packaged.file("fonts", FILES[weight]).read_bytes()
    return TTFont(io.BytesIO(data), lazy=True)


@cache
def _face(weight: Weight) -> _Face:
    font = _opened(weight)
    return _Face(font.getBestCmap(), font.getGlyphSet(), font["head"].unitsPerEm)
