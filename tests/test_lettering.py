"""Text: widths and outlines against FreeType (through Pillow), which reads the same font files on its own."""

from __future__ import annotations

from importlib import resources

import numpy as np
import pytest
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont
from PIL import Image, ImageDraw, ImageFont

from pictures import check_alike, ours
from turnchain.lettering import faces, measuring, ready
from turnchain.scene import Scene, Text, Weight

FONTS = resources.files("turnchain.fonts")


def freetype(weight: Weight, size: int) -> ImageFont.FreeTypeFont:
    with (FONTS / faces.FILES[weight]).open("rb") as stream:
        return ImageFont.truetype(stream, size, layout_engine=ImageFont.Layout.BASIC)


@pytest.mark.parametrize("weight", faces.FILES)
def test_advances_are_those_freetype_reads(weight: Weight) -> None:
    font = freetype(weight, 2000)  # the font's own units, so that FreeType need not round
    for character in "AaBbQqWwfiß019.,:;×–½→ÉéЖ":
        assert measuring.measure(character, 2000, weight) == pytest.approx(font.getlength(character), abs=0.5)


@pytest.mark.parametrize("weight", faces.FILES)
def test_digits_are_equally_wide(weight: Weight) -> None:
    assert len({measuring.measure(digit, 10, weight) for digit in "0123456789"}) == 1


def test_words_are_as_wide_as_their_characters() -> None:
    assert measuring.measure("", 10) == 0
    assert measuring.measure("row 12", 10) == pytest.approx(sum(measuring.measure(c, 10) for c in "row 12"))
    assert measuring.measure("row 12", 20) == pytest.approx(2 * measuring.measure("row 12", 10))
    assert measuring.measure("row", 10, "semibold") > measuring.measure("row", 10)


def test_outlines_are_those_freetype_draws() -> None:
    scene = Scene(520, 150, "", "", "en", {}, (Text(10, 110, "R38½ß%", 120, "#000000"),))
    sheet = Image.new("RGB", (520, 150), "white")
    at = 10.0
    for character in "R38½ß%":  # one by one: FreeType would kern
        one = Image.new("L", sheet.size)
        ImageDraw.Draw(one).text((at, 110), character, 255, freetype("regular", 120), anchor="ls")
        sheet.paste("black", (0, 0), one)
        at += measuring.measure(character, 120)
    # Pillow places characters on whole or half px and FreeType hints them: alike only in the large
    check_alike(np.asarray(sheet), ours(scene), mean=4, near=0.9)


@pytest.mark.parametrize(("anchor", "start"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_anchor_is_by_advance(anchor: str, start: float) -> None:
    (_, x, _), *_ = measuring.outlines(Text(100, 50, "H", 10, "#000000", anchor=anchor))  # type: ignore[arg-type,misc]
    (_, bare, _), *_ = measuring.outlines(Text(0, 0, "H", 10, "#000000"))  # type: ignore[misc]
    assert x == pytest.approx(100 + bare - start * measuring.measure("H", 10))


def test_turn_is_clockwise_about_the_anchor() -> None:
    level = measuring.outlines(Text(5, 7, "7e", 10, "#000000"))
    turned = measuring.outlines(Text(5, 7, "7e", 10, "#000000", turn=90))
    for (_, *a), (_, *b) in zip(level, turned, strict=True):
        for x, y, u, v in zip(a[::2], a[1::2], b[::2], b[1::2], strict=True):
            # clockwise as seen: what lay to the right now lies below
            assert (u - 5, v - 7) == pytest.approx((-(y - 7), x - 5))


@pytest.mark.parametrize(
    ("words", "covered"),
    [("Granny stripe, 12½ × 3 – №", True), ("Кофта", True), ("漢字", False), ("a🧶", False), ("", True)],
)
def test_covered(words: str, covered: bool) -> None:
    assert measuring.covered(words) is covered


def test_composed_and_decomposed_letters_are_one() -> None:
    assert measuring.covered("Ho\N{COMBINING DIAERESIS}he")
    assert measuring.measure("o\N{COMBINING DIAERESIS}", 10) == measuring.measure("ö", 10)
    assert not measuring.covered("q\N{COMBINING DIAERESIS}")


def test_missing_characters_are_boxes_and_not_lost() -> None:
    assert measuring.measure("漢", 10) > 0
    assert measuring.outlines(Text(0, 0, "漢", 10, "#000000"))


def test_printable() -> None:
    assert (
        measuring.printable("a\tb\nc\x00d\x1b\x7fe\ud800f\ufffe\ufdd0")
        == "a b cde\N{REPLACEMENT CHARACTER}f\N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}"
    )
    assert measuring.printable("zwölf ½\N{NO-BREAK SPACE}cm") == "zwölf ½ cm"


@pytest.mark.parametrize("weight", ready.FILES)
def test_what_is_ready_is_what_the_fonts_have(weight: Weight) -> None:
    file = FONTS / ready.FILES[weight]
    assert file.read_text("ascii") == ready.text(weight), "python -m turnchain.lettering writes it anew"


class Cubic(BasePen):  # type: ignore[misc]
    """Writes down what fontTools, a general library, makes of a glyph: its curves cubic, y upwards."""

    def __init__(self, glyphs: object) -> None:
        super().__init__(glyphs)
        self.numbers: list[float] = []

    def _moveTo(self, point: tuple[float, float]) -> None:
        self._put(point)

    def _lineTo(self, point: tuple[float, float]) -> None:
        self._put(point)

    def _curveToOne(self, *points: tuple[float, float]) -> None:
        self._put(*points)

    def _put(self, *points: tuple[float, float]) -> None:
        self.numbers += [number for x, y in points for number in (x, -y)]


@pytest.mark.parametrize("weight", faces.FILES)
@pytest.mark.parametrize(("character", "is_ready"), [(c, True) for c in "A8é½"] + [(c, False) for c in "Ж漢"])
def test_outlines_are_those_of_fonttools(character: str, is_ready: bool, weight: Weight) -> None:
    with (FONTS / faces.FILES[weight]).open("rb") as stream:
        font = TTFont(stream)
        glyphs = font.getGlyphSet()
        pen = Cubic(glyphs)
        glyphs[font.getBestCmap().get(ord(character), ".notdef")].draw(pen)
    steps = measuring.outlines(Text(0, 0, character, 2000, "#000000", weight))
    assert [number for step in steps for number in step[1:]] == pytest.approx(pen.numbers, abs=1e-6)
    assert (character in ready.table(weight)) is is_ready
