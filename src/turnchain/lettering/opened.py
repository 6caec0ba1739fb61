"""Files of fonts opened with fontTools: TrueType and OpenType, alone or collected in one file, fixed or variable.

In: a path. Out: its faces, each with what decides whether it is used, the outlines of its letters, and a font made of a
few of them to be embedded in a document. Damaged files have no faces.
"""

from __future__ import annotations

import io
import re
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from turnchain.lettering.faces import Cut
from turnchain.numbers import decimal
from turnchain.records import frozen, replace

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

#: Of the em, how far a letter may reach above, below and beside its place (``raster.bounds`` counts on it).
REACH: Final = (1.3, 0.5, 0.6)
#: How the names of faces end that hold one writing's forms (from memory).
FORMS: Final = {
    "Japanese": ("JP", "J"),
    "Simplified Chinese": ("SC", "CN", "GB"),
    "Traditional Chinese": ("TC", "TW", "HK"),
    "Korean": ("KR", "K"),
}
OUTLINES: Final = frozenset(("glyf", "CFF ", "CFF2"))
_ERROR: Final = 0.001  # of the em, where curves of one kind become curves of the other


@frozen(eq=False)
class Face:
    """A face of the font file ``path``, the ``index``-th in it. ``name`` is its PostScript name, ``weight`` from 100 to
    900, ``upright`` not slanted; ``heaviness`` is the least and the most that a variable font can be set to."""

    path: Path
    index: int
    family: str
    name: str
    weight: int
    upright: bool
    may_be_embedded: bool
    heaviness: tuple[int, int]
    _font: Any

    def rank(self, writing: str, weight: int) -> tuple[bool, bool, int, int]:
        """Smaller for the face that suits ``writing`` and ``weight`` better, of those in one file."""
        forms = any(re.search(rf"\b{form}\b|{form}$", self.family) for form in FORMS.get(writing, ()))
        return (not forms, not self.upright, abs(self.weight - weight), self.index)

    def at(self, weight: int) -> Face:
        """The face set to ``weight``, as near as it can be; itself where it is not variable."""
        low, high = self.heaviness
        return replace(self, weight=max(low, min(high, weight))) if low < high else self

    def draws(self, character: str) -> bool:
        """Whether it has ``character``, with an outline that stays near its place."""
        if ord(character) not in _names(self._font):
            return False
        from fontTools.pens.boundsPen import ControlBoundsPen  # fontTools: few words need it

        glyphs = self._glyphs()
        pen, drawn = ControlBoundsPen(glyphs), glyphs[_names(self._font)[ord(character)]]
        drawn.draw(pen)
        if pen.bounds is None:  # its ink is a picture, as of fonts in colours
            return False
        left, bottom, right, top = (side / self._em for side in pen.bounds)
        above, below, beside = REACH
        return bool(top < above and bottom > -below and left > -beside and right < drawn.width / self._em + beside)

    def glyph(self, character: str, em: int) -> tuple[int, str]:
        """The advance and the outline of ``character``, which it has, with ``em`` units to the em; path data as
        ``faces.glyph`` has it, also with C."""
        from fontTools.pens.svgPathPen import SVGPathPen  # fontTools: few words need it
        from fontTools.pens.transformPen import TransformPen

        glyphs, scale = self._glyphs(), em / self._em
        pen, drawn = SVGPathPen(glyphs, decimal), glyphs[_names(self._font)[ord(character)]]
        drawn.draw(TransformPen(pen, (scale, 0, 0, -scale, 0, 0)))
        return round(drawn.width * scale), str(pen.getCommands())

    def cut(self, characters: str, em: int) -> Cut:
        """A TrueType font of ``characters``, which it has, alone, with ``em`` units to the em; the same bytes for the
        same characters."""
        from fontTools.fontBuilder import FontBuilder  # for a PDF alone

        names = {one: f"g{ord(one):x}" for one in characters}
        builder = FontBuilder(em, isTTF=True)
        builder.font.recalcTimestamp = False
        builder.setupGlyphOrder([".notdef", *names.values()])
        builder.setupGlyf({".notdef": _empty(), **{names[one]: self._quadratic(one, em) for one in characters}})
        builder.setupHorizontalMetrics(
            {".notdef": (em, 0)}
            | {
                name: (self.glyph(one, em)[0], getattr(builder.font["glyf"][name], "xMin", 0))
                for one, name in names.items()
            }
        )
        line = self._font["hhea"]
        ascent, descent = (round(1000 * length / self._em) for length in (line.ascent, line.descent))
        builder.setupHorizontalHeader(ascent=ascent, descent=descent)
        builder.setupHead(unitsPerEm=em, created=0, modified=0)
        builder.setupMaxp()
        stream = io.BytesIO()
        builder.save(stream)
        head = builder.font["head"]
        box = tuple(round(1000 * side / em) for side in (head.xMin, head.yMin, head.xMax, head.yMax))
        left, bottom, right, top = box
        return Cut(
            self.name, stream.getvalue(), {one: nth for nth, one in enumerate(characters, 1)},
            (left, bottom, right, top), ascent, descent, capital=top,
        )  # fmt: skip

    def _quadratic(self, character: str, em: int) -> Any:
        from fontTools.pens.cu2quPen import Cu2QuPen  # for a PDF alone
        from fontTools.pens.recordingPen import DecomposingRecordingPen
        from fontTools.pens.transformPen import TransformPen
        from fontTools.pens.ttGlyphPen import TTGlyphPen

        glyphs, scale = self._glyphs(), em / self._em
        whole = DecomposingRecordingPen(glyphs)
        glyphs[_names(self._font)[ord(character)]].draw(whole)
        pen = TTGlyphPen(None)
        whole.replay(TransformPen(Cu2QuPen(pen, _ERROR * em), (scale, 0, 0, scale, 0, 0)))
        return pen.glyph()

    def _glyphs(self) -> Any:
        variable = self.heaviness[0] < self.heaviness[1]
        return _glyph_set(self._font, self.weight if variable else None)

    @property
    def _em(self) -> int:
        units: int = self._font["head"].unitsPerEm
        return units


def _empty() -> Any:
    from fontTools.pens.ttGlyphPen import TTGlyphPen  # for a PDF alone

    return TTGlyphPen(None).glyph()


@lru_cache(None)
def faces_in(path: Path) -> tuple[Face, ...]:
    """The faces of the file ``path`` that have outlines; none where it is damaged, or no font. OSError where it cannot
    be read."""
    import logging  # fontTools brings it

    from fontTools.ttLib import TTCollection, TTFont  # a tenth of a second

    logging.getLogger("fontTools").setLevel(logging.CRITICAL)  # what it warns of is nothing that a maker can mend
    with path.open("rb") as file:
        collected = file.read(4) == b"ttcf"
    try:
        fonts = TTCollection(str(path), lazy=True).fonts if collected else [TTFont(path, lazy=True)]
        return tuple(_face(path, nth, font) for nth, font in enumerate(fonts) if OUTLINES & {*font.keys()})
    except Exception:  # whatever a damaged file makes of it: fontTools has no error of its own for all of it
        return ()


def _face(path: Path, index: int, font: TTFont) -> Face:
    metrics, names = font["OS/2"], font["name"]
    axes = {axis.axisTag: axis for axis in font["fvar"].axes} if "fvar" in font else {}
    heavy = axes.get("wght")
    heaviness = (round(heavy.minValue), round(heavy.maxValue)) if heavy else (metrics.usWeightClass,) * 2
    family = names.getDebugName(16) or names.getDebugName(1) or path.stem
    return Face(
        path,
        index,
        family,
        re.sub(r"[^A-Za-z0-9-]", "", names.getDebugName(6) or path.stem) or "Font",
        metrics.usWeightClass,
        upright=not metrics.fsSelection & 1,
        may_be_embedded=_may_be_embedded(metrics.fsType),
        heaviness=heaviness,
        _font=font,
    )


def _may_be_embedded(rights: int) -> bool:
    """OpenType, OS/2 table, fsType: 2 alone in the low bits is a restricted licence; 0x100 forbids to cut the font
    down, 0x200 to embed outlines."""
    return rights & 0x000F != 0x0002 and not rights & 0x0300


@lru_cache(None)
def _names(font: Any) -> dict[int, str]:
    return font.getBestCmap() or {}


@lru_cache(None)
def _glyph_set(font: Any, weight: int | None) -> Any:
    return font.getGlyphSet() if weight is None else font.getGlyphSet(location={"wght": weight})
