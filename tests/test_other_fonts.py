"""Letters that the shipped fonts lack: found, drawn, embedded and told of.

The fonts are made here by fontTools (FontBuilder), a general library, with outlines of known size. What is drawn is
held against FreeType (through Pillow), what is embedded against pypdf and poppler. Which writing words belong to
follows from Unicode's names and the national standards (GB 2312, Big5, JIS X 0208), which Python has as encodings;
where lines may break is the W3C's Requirements for Japanese Text Layout; what a font allows is OpenType's OS/2 table
(fsType).
"""

from __future__ import annotations

import io
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pypdf
import pytest
from click.testing import CliRunner
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTCollection, TTFont
from PIL import Image, ImageDraw, ImageFont

import turnchain
from pictures import check_alike, ours, svg_bytes
from test_cli import SMALL
from turnchain.cli import cli
from turnchain.errors import FileError, MakerError
from turnchain.lettering import machine, measuring, others, scripts
from turnchain.making import record
from turnchain.paper import Page, View
from turnchain.scene import Scene, Text
from turnchain.writers import pdf

REAL_PATHS = machine.paths  # of the machine itself: tests see none of its fonts
EM = 1000
JAPANESE = "しまの編物"
poppler = pytest.mark.skipif(not shutil.which("pdftoppm"), reason="poppler's tools are not on this machine")


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    yield
    others.use([])
    others.write("毛线")


def font(
    file: Path, letters: str = JAPANESE, *, cff: bool = False, weight: int = 400, family: str = "Heron", rights: int = 0
) -> Path:
    """A font whose letters are a round and a slanted shape each, an em wide; the n-th is 400 + 50 n units tall."""
    builder = FontBuilder(EM, isTTF=not cff)
    names = {ord(one): f"u{ord(one):x}" for one in letters}
    builder.setupGlyphOrder([".notdef", *names.values()])
    builder.setupCharacterMap(names)
    drawn = {name: _shape(cff, 400 + 50 * nth) for nth, name in enumerate(names.values())}
    shapes = {".notdef": _shape(cff, 300), **drawn}
    if cff:
        builder.setupCFF(f"{family}-{weight}", {"FullName": family}, shapes, {})
    else:
        builder.setupGlyf(shapes)
    builder.setupHorizontalMetrics(dict.fromkeys(shapes, (EM, 100)))
    builder.setupHorizontalHeader(ascent=880, descent=-120)
    builder.setupNameTable({"familyName": family, "styleName": "Regular", "psName": f"{family}-{weight}"})
    builder.setupOS2(usWeightClass=weight, fsType=rights, sTypoAscender=880)
    builder.setupPost()
    builder.save(file)
    return file


def _shape(cff: bool, height: int) -> object:
    pen = T2CharStringPen(EM, None) if cff else TTGlyphPen(None)
    points = [(100, 0), (700, 0), (900, height), (300, height)]
    pen.moveTo(points[0])
    if cff:  # clockwise or not: neither may leave holes
        pen.lineTo(points[1])
        pen.curveTo((900, 100), (900, height - 100), points[2])
        pen.lineTo(points[3])
        pen.closePath()
        return pen.getCharString()
    pen.lineTo(points[3])
    pen.lineTo(points[2])
    pen.qCurveTo((900, 100), points[1])
    pen.closePath()
    return pen.glyph()


def sheet(words: str, weight: str = "regular") -> Scene:
    return Scene(500, 120, "", "", "en", {}, (Text(10, 90, words, 80, "#000000", weight),))  # type: ignore[arg-type]


def document(of: Scene) -> bytes:
    stream, mm = io.BytesIO(), 25.4 / 72
    pdf.write([Page(of.width * mm, of.height * mm, (View(of, mm),))], stream, title="", language="ja")
    return stream.getvalue()


# ------------------------------------------------------------------------------------------------------ drawn


@pytest.mark.parametrize("cff", [False, True])
def test_letters_are_drawn_as_freetype_draws_them(tmp_path: Path, cff: bool) -> None:
    file = font(tmp_path / "heron.otf", cff=cff)
    others.use([file])
    expected = Image.new("RGB", (500, 120), "white")
    freetype = ImageFont.truetype(str(file), 80, layout_engine=ImageFont.Layout.BASIC)
    ImageDraw.Draw(expected).text((10, 90), JAPANESE, "black", freetype, anchor="ls")
    check_alike(np.asarray(expected), ours(sheet(JAPANESE)), mean=4, near=0.95)


def test_advances_are_the_fonts(tmp_path: Path) -> None:
    others.use([font(tmp_path / "heron.ttf")])
    assert measuring.measure(JAPANESE, 10) == pytest.approx(50)
    assert measuring.measure(f"12{JAPANESE}", 10) == pytest.approx(50 + measuring.measure("12", 10))


def test_an_svg_has_outlines_and_the_words_beside_them(tmp_path: Path) -> None:
    assert b"<text" in svg_bytes(sheet(JAPANESE))
    others.use([font(tmp_path / "heron.ttf")])
    made = svg_bytes(sheet(JAPANESE))
    assert b"<text" not in made
    assert JAPANESE.encode() in made


def test_bold_words_take_the_bold_face_of_the_family(tmp_path: Path) -> None:
    files = [font(tmp_path / f"heron{weight}.ttf", weight=weight) for weight in (400, 700)]
    others.use([files[0], font(tmp_path / "other700.ttf", weight=700, family="Other"), files[1]])
    for weight, name in (("regular", "Heron-400"), ("semibold", "Heron-700")):
        face = others.face_of(weight, "し")  # type: ignore[arg-type]
        assert face
        assert face.name == name


def test_a_collection_gives_the_face_in_the_forms_of_the_words(tmp_path: Path) -> None:
    parts = [font(tmp_path / f"{form}.ttf", "骨の", family=f"Heron {form}") for form in ("SC", "JP")]
    collection = TTCollection()
    collection.fonts = [TTFont(part) for part in parts]
    collection.save(tmp_path / "heron.ttc")
    others.use([tmp_path / "heron.ttc"])
    for words, family in (("骨のの", "Heron JP"), ("骨线", "Heron SC")):
        others.write(words)
        face = others.face_of("regular", "骨")
        assert face
        assert face.family == family


def test_words_come_from_one_font_where_one_has_all(tmp_path: Path) -> None:
    few, all_of_them = font(tmp_path / "few.ttf", "しま"), font(tmp_path / "whole.ttf", family="Whole")
    others.use([few, all_of_them])
    others.write(JAPANESE)
    assert {face.family for face, _ in measuring.runs(JAPANESE, "regular") if face} == {"Whole"}


def test_plain_letters_ask_for_no_font(monkeypatch: pytest.MonkeyPatch) -> None:
    def asked(*_: object) -> None:
        raise AssertionError("a font was looked for")

    monkeypatch.setattr("turnchain.lettering.machine.paths", asked)
    words = "Granny stripe, 12½ × 3 – Кофта Ελλη"
    measuring.written([words])
    assert measuring.covered(words)
    assert measuring.told() == []


def test_a_letter_that_reaches_too_far_is_not_used(tmp_path: Path) -> None:
    file = font(tmp_path / "tall.ttf", "し" + "".join(chr(0x4E00 + nth) for nth in range(20)))
    others.use([file])
    assert others.face_of("regular", "し")
    assert others.face_of("regular", chr(0x4E00 + 19)) is None  # 1350 units tall; 1300 are counted on


# ------------------------------------------------------------------------------------------------------ in a PDF


@pytest.mark.parametrize("cff", [False, True])
def test_a_pdf_holds_the_letters_used_and_gives_the_words_back(tmp_path: Path, cff: bool) -> None:
    others.use([font(tmp_path / "heron.otf", cff=cff)])
    made = document(sheet("しま 12 編"))
    assert made == document(sheet("しま 12 編")), "the same bytes"
    page = pypdf.PdfReader(io.BytesIO(made), strict=True).pages[0]
    assert page.extract_text().strip() == "しま 12 編"
    fonts = [one.get_object() for one in page["/Resources"]["/Font"].values()]
    (own,) = (one for one in fonts if "Heron" in one["/BaseFont"])
    embedded = own["/DescendantFonts"][0].get_object()["/FontDescriptor"]["/FontFile2"].get_data()
    assert TTFont(io.BytesIO(embedded))["maxp"].numGlyphs == 4, "three letters and the empty one"


@poppler
@pytest.mark.parametrize("cff", [False, True])
def test_a_pdf_shows_what_the_png_shows(tmp_path: Path, cff: bool) -> None:
    others.use([font(tmp_path / "heron.otf", cff=cff)])
    shown = sheet("しま1編")
    run = subprocess.run(["pdftoppm", "-png", "-r", "72", "-"], input=document(shown), capture_output=True, check=True)
    found = np.asarray(Image.open(io.BytesIO(run.stdout)).convert("RGB"))
    check_alike(ours(shown), found, mean=3, near=0.95)


@pytest.mark.parametrize("rights", [0x0002, 0x0100, 0x0200])
def test_a_font_that_may_not_be_embedded_is_refused(tmp_path: Path, rights: int) -> None:
    file = font(tmp_path / "closed.ttf", rights=rights)
    with pytest.raises(MakerError, match="does not allow it in documents"):
        others.use([file])
    assert others.face_of("regular", "し") is None


@pytest.mark.parametrize("rights", [0x0000, 0x0004, 0x0008])
def test_a_font_that_may_be_embedded_is_used(tmp_path: Path, rights: int) -> None:
    others.use([font(tmp_path / "open.ttf", rights=rights)])
    assert others.face_of("regular", "し")


# -------------------------------------------------------------------------------------------- found on the machine


def test_without_fontconfig_the_folders_are_searched(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "deep").mkdir()
    closed = font(tmp_path / "a_closed.ttf", rights=2)
    file = font(tmp_path / "deep" / "heron.ttf")
    (tmp_path / "broken.ttf").write_bytes(b"no font")
    monkeypatch.setattr("turnchain.lettering.machine._folders", lambda: [tmp_path, tmp_path / "none"])
    monkeypatch.setattr("shutil.which", lambda _: None)
    REAL_PATHS.cache_clear()
    monkeypatch.setattr("turnchain.lettering.machine.paths", REAL_PATHS)
    assert closed in machine.paths("Japanese", "")
    measuring.written([JAPANESE])
    assert measuring.told() == [f"Japanese: set in Heron ({file})"]
    REAL_PATHS.cache_clear()


@pytest.mark.skipif(not shutil.which("fc-list"), reason="no fontconfig on this machine")
def test_fontconfig_names_the_fonts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = font(tmp_path / "heron.ttf", "Կոֆտա")
    (tmp_path / "fonts.conf").write_text(
        f"<fontconfig><dir>{tmp_path}</dir><cachedir>{tmp_path / 'cache'}</cachedir></fontconfig>", "utf-8"
    )
    monkeypatch.setenv("FONTCONFIG_FILE", str(tmp_path / "fonts.conf"))
    REAL_PATHS.cache_clear()
    assert REAL_PATHS("Armenian", "ո") == (file,)
    assert REAL_PATHS("Georgian", "ა") == ()
    REAL_PATHS.cache_clear()


# ------------------------------------------------------------------------------------------------------ told


def test_what_has_no_font_is_told_by_name() -> None:
    measuring.written([JAPANESE])
    (told,) = measuring.told()
    assert told.startswith("Japanese: no font with these letters found (し U+3057")
    assert "--font FILE" in told


def test_what_would_have_to_be_shaped_is_told_and_not_drawn(tmp_path: Path) -> None:
    others.use([font(tmp_path / "heron.ttf", "مرحبا" + "नमस्ते" + "שלום")])
    measuring.written(["مرحبا नमस्ते שלום"])
    assert [line.partition(":")[0] for line in measuring.told()] == ["Arabic", "Devanagari", "Hebrew"]
    assert not any(measuring.covered(word) for word in ("مرحبا", "नमस्ते", "שלום"))


def test_the_command_line_names_the_font(tmp_path: Path) -> None:
    source = tmp_path / "small.toml"
    source.write_text(SMALL.replace("title = ", f'note = "{JAPANESE}"\ntitle = ', 1), "utf-8")
    file = font(tmp_path / "heron.ttf")
    piece = turnchain.load(source).pieces[0].name
    for given, said in ((["--font", str(file)], f"Japanese: set in Heron ({file})"), ([], "Japanese: no font")):
        others.use([])
        arguments = ["chart", str(source), "--piece", piece, "-o", str(tmp_path / "c.png"), *given]
        run = CliRunner().invoke(cli, arguments, catch_exceptions=False)
        assert f"note: {said}" in run.output


def test_what_is_no_font_is_told(tmp_path: Path) -> None:
    (tmp_path / "words.ttf").write_text("no font")
    with pytest.raises(FileError, match="not a font with outlines"):
        others.use([tmp_path / "words.ttf"])
    with pytest.raises(FileError, match="cannot be read"):
        others.use([tmp_path / "missing.ttf"])


def test_another_font_makes_a_folder_s_pictures_anew(tmp_path: Path) -> None:
    found = set()
    for nth, letters in enumerate(("し", JAPANESE)):
        others.use([font(tmp_path / f"{nth}.ttf", letters)])
        found.add(record.scene_digest(sheet(JAPANESE)))
    assert len(found) == 2
    assert record.scene_digest(sheet("Kissen")) == record.scene_digest(sheet("Kissen"))


# ------------------------------------------------------------------------------------------- writings and lines


@pytest.mark.parametrize(
    ("words", "writing"),
    [
        ("しましまの帽子", "Japanese"),
        ("毛线帽子", "Simplified Chinese"),
        ("毛線帽子", "Traditional Chinese"),
        ("줄무늬 모자", "Korean"),
        ("我的の帽子毛线衣服好看极了", "Simplified Chinese"),
        ("Кофта, striped", ""),
    ],
)
def test_the_writing_of_words(words: str, writing: str) -> None:
    assert scripts.east_asian(words) == writing


def test_lines_break_between_letters_but_not_before_a_full_stop(tmp_path: Path) -> None:
    words = "編物の「帽子」です。12段で編みます。"
    others.use([font(tmp_path / "heron.ttf", "".join(sorted({one for one in words if one > "\u3000"})))])
    for width in range(3, 20):
        lines = measuring.wrapped(words, width, 1)
        assert "".join(lines) == words
        assert not any(line[0] in "。」" or line[-1] == "「" for line in lines)
        assert all(measuring.measure(line, 1) <= width for line in lines)
    assert measuring.wrapped("編12物", 1, 1) == ["編", "12", "物"]


def test_lines_of_other_words_break_at_blanks() -> None:
    assert measuring.wrapped("줄무늬 모자", 1, 1) == ["줄무늬", "모자"]
    assert measuring.wrapped("row-by-row, Größe", 1, 1) == ["row-by-row,", "Größe"]


def test_no_line_begins_with_a_sign_of_french_punctuation() -> None:
    """Common practice of French typesetting: at the blanks before ; : ! ? and inside quotes no line ends."""
    words = "pendant ce temps ; vapeur : voir « Blocage et entretien » ! Vraiment ?"
    for width in range(4, 40):
        lines = measuring.wrapped(words, width / 2, 1)
        assert " ".join(lines) == words
        assert not any(line[0] in ";:!?»" or line[-1] == "«" for line in lines)
