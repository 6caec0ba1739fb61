"""Text measured and turned into outlines, from the fonts that travel with turnchain.

In: words, a size in px and a weight. Out: widths in px and ``Steps`` in scene coordinates or, for files that
state each character once, its place and outline in the font's own units. Since the fonts
are shipped and only advances are used (no kerning, no shaping), a picture is the same on every machine, and
no renderer's idea of text can move a label. Digits are of equal width (Lato's default figures), so that
columns of numbers stand straight.

fontTools is imported where it is needed: it costs a tenth of a second that most commands can spare.
"""

from __future__ import annotations

import io
import logging
import math
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from itertools import accumulate
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from turnchain.numbers import decimal
from turnchain.scene import Step, Steps, Text

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

Weight: TypeAlias = Literal["regular", "semibold"]

FILES: dict[Weight, str] = {"regular": "Lato-Regular.ttf", "semibold": "Lato-Semibold.ttf"}
#: How much of the advance lies left of the anchor.
SHIFTS = {"start": 0.0, "middle": 0.5, "end": 1.0}


@dataclass(frozen=True, slots=True)
class _Face:
    """An opened font: glyph names by code point, glyphs, and how many font units make an em."""

    names: dict[int, str]
    glyphs: Any  # fontTools has no types for its glyph sets
    em: int

    def name(self, character: str) -> str:
        """The name of the glyph for ``character``; of the box for one that the font lacks."""
        return self.names.get(ord(character), ".notdef")


@dataclass(frozen=True, slots=True)
class _Glyph:
    """One character in ems: its advance and its outline, y downwards, the baseline at 0."""

    advance: float
    steps: Steps


@lru_cache(4096)
def printable(words: str) -> str:
    """``words`` on one line: composed (NFC), blanks for line ends and tabs, without control characters, and
    with U+FFFD for what no file may hold (lone surrogates and non-characters)."""
    return "".join(map(_printable, unicodedata.normalize("NFC", words)))


def covered(words: str) -> bool:
    """Whether the fonts have every character of ``words`` (combining marks that stay single need shaping,
    and count as missing)."""
    return all(
        ord(character) in _face(weight).names and not unicodedata.combining(character)
        for weight in FILES
        for character in printable(words)
    )


@lru_cache(4096)
def measure(words: str, size: float, weight: Weight = "regular") -> float:
    """The advance of ``words`` in px at ``size`` px to the em; a missing character is as wide as its box."""
    return size * sum(_glyph(weight, character).advance for character in printable(words))


def wrapped(words: str, width: float, size: float, weight: Weight = "regular") -> list[str]:
    """``words`` in lines no wider than ``width``, in the unit of ``size``, where spaces allow it; a longer word stands
    alone."""
    lines: list[str] = []
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and measure(longer, size, weight) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines or [""]


def outlines(text: Text) -> Steps:
    """The outlines of ``text`` in scene coordinates, to be filled by the non-zero rule.

    A character that the font lacks becomes the font's box for such: plain to see, the same everywhere, and
    never a silent loss. Ask ``covered`` first where live text is the better way out.
    """
    start = -SHIFTS[text.anchor] * measure(text.words, text.size, text.weight)
    cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    along, across = text.size * cosine, text.size * sine
    steps: list[Step] = []
    for character in printable(text.words):
        glyph = _glyph(text.weight, character)
        x, y = text.x + start * cosine, text.y + start * sine
        steps += [_moved(step, x, y, along, across) for step in glyph.steps]
        start += text.size * glyph.advance
    return tuple(steps)


def em(weight: Weight) -> int:
    """How many font units make an em."""
    return _face(weight).em


def places(text: Text) -> list[tuple[str, float]]:
    """The printable characters of ``text``, each with the x of its origin in font units from the anchor, along
    the line of the text."""
    face = _face(text.weight)
    advances = [_glyph(text.weight, character).advance * face.em for character in printable(text.words)]
    start = -SHIFTS[text.anchor] * sum(advances)
    return [
        (character, round(start + before, 1) + 0.0)
        for character, before in zip(printable(text.words), accumulate(advances, initial=0), strict=False)
    ]


@cache
def path_data(weight: Weight, character: str) -> str:
    """The outline of ``character`` as SVG path data in font units, y downwards, its origin at (0, 0); "" for a
    blank. Quadratic curves stay as the font has them, and all numbers are whole or halves."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    face = _face(weight)
    pen = SVGPathPen(face.glyphs, decimal)
    face.glyphs[face.name(character)].draw(TransformPen(pen, (1, 0, 0, -1, 0, 0)))
    return str(pen.getCommands())


@dataclass(frozen=True, slots=True)
class Cut:
    """A font cut down to some characters: ``data`` is a TrueType file and ``glyphs`` the number of each
    character's glyph in it (0, the box, for those that the font lacks). Lengths are in thousandths of an em:
    ``widths`` by character, ``box`` around all glyphs (left, bottom, right, top; upwards counts up)."""

    name: str
    data: bytes
    glyphs: dict[str, int]
    widths: dict[str, float]
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    capital: int


def cut(weight: Weight, characters: str) -> Cut:
    """The font of ``weight`` with the glyphs of ``characters`` and nothing else, to travel inside a file."""
    from fontTools import subset

    font = _opened(weight)
    font.recalcTimestamp = False  # or the file would tell the time
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
        {character: 1000 * _glyph(weight, character).advance for character in characters},
        (left, bottom, right, top),
        ascent,
        descent,
        capital,
    )


def _moved(step: Step, x: float, y: float, along: float, across: float) -> Step:
    """``step`` scaled and turned by (along, across), then moved to (x, y)."""
    if len(step) == 1:
        return step
    if len(step) == 3:
        letter, a, b = step
        return letter, x + along * a - across * b, y + across * a + along * b
    letter, a, b, c, d, e, f = step
    return (
        letter,
        x + along * a - across * b,
        y + across * a + along * b,
        x + along * c - across * d,
        y + across * c + along * d,
        x + along * e - across * f,
        y + across * e + along * f,
    )


def _printable(character: str) -> str:
    if character.isprintable():
        return character
    if character.isspace():
        return " "
    match unicodedata.category(character):
        case "Cc":
            return ""
        case "Cs":
            return "\N{REPLACEMENT CHARACTER}"
        case "Cn" if ord(character) & 0xFFFE == 0xFFFE:
            return "\N{REPLACEMENT CHARACTER}"
    return character


def _opened(weight: Weight) -> TTFont:
    from fontTools.ttLib import TTFont

    # The font's date of birth is of no interest to a maker, but fontTools finds it worth a warning.
    logging.getLogger("fontTools.ttLib.tables._h_e_a_d").setLevel(logging.ERROR)
    data = resources.files("turnchain.fonts").joinpath(FILES[weight]).read_bytes()
    return TTFont(io.BytesIO(data), lazy=True)


@cache
def _face(weight: Weight) -> _Face:
    font = _opened(weight)
    return _Face(font.getBestCmap(), font.getGlyphSet(), font["head"].unitsPerEm)


@cache
def _glyph(weight: Weight, character: str) -> _Glyph:
    from fontTools.pens.basePen import BasePen

    face = _face(weight)
    steps: list[Step] = []

    def scaled(letter: str, *points: tuple[float, float]) -> None:
        places = [number for x, y in points for number in (x / face.em, -y / face.em)]
        steps.append((letter, *places))  # type: ignore[arg-type]

    class Pen(BasePen):  # type: ignore[misc]
        """Puts components together and turns quadratic curves into cubic ones, as its base class offers."""

        def _moveTo(self, point: tuple[float, float]) -> None:
            scaled("M", point)

        def _lineTo(self, point: tuple[float, float]) -> None:
            scaled("L", point)

        def _curveToOne(self, *points: tuple[float, float]) -> None:
            scaled("C", *points)

        def _closePath(self) -> None:
            scaled("Z")

    glyph = face.glyphs[face.name(character)]
    glyph.draw(Pen(face.glyphs))
    return _Glyph(glyph.width / face.em, tuple(steps))
