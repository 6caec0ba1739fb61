"""PDF documents, read by others: qpdf checks the file, poppler draws it and reads its words, pypdf its objects.

What a document must hold is said by ISO 32000-1 (PDF 1.7); clauses are named beside the checks.
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import zlib
from pathlib import Path as FilePath
from typing import Any

import numpy as np
import pypdf
import pytest

from pictures import Picture, check_alike, opened, ours
from test_writers_png import SCENES, definitions, scene
from turnchain.lettering import measuring
from turnchain.paper import Crop, Link, Page, Tiling, View, fitted
from turnchain.raster.bounds import Extents
from turnchain.records import replace
from turnchain.scene import INK, Group, Path, Scene, Text, Use, line, rectangle
from turnchain.writers import pdf

FINER = 4
MM = 25.4 / 72  # mm to a point: scenes are drawn at a point to a px
poppler = pytest.mark.skipif(not shutil.which("pdftoppm"), reason="poppler's tools are not on this machine")


def document(*pages: Page, title: str = "A title", language: str = "en") -> bytes:
    stream = io.BytesIO()
    pdf.write(pages, stream, title=title, language=language)
    return stream.getvalue()


def whole(of: Scene) -> Page:
    """``of`` on a page of a point to a px."""
    return Page(of.width * MM, of.height * MM, (View(of, MM),))


def drawn(data: bytes, page: int = 1) -> Picture:
    """A page as poppler draws it, at a px to a point: larger at first, and then each px the mean of its parts,
    since poppler moves thin strokes and small letters to whole px."""
    command = ["pdftoppm", "-png", "-r", str(72 * FINER), "-f", str(page), "-l", str(page), "-"]
    fine = opened(subprocess.run(command, input=data, capture_output=True, check=True).stdout)
    height, width = (length // FINER for length in fine.shape[:2])
    means = fine.reshape(height, FINER, width, FINER, 3).mean(axis=(1, 3))
    return means.round().astype(np.uint8)


def words(data: bytes, page: int = 1) -> str:
    command = ["pdftotext", "-f", str(page), "-l", str(page), "-", "-"]
    return subprocess.run(command, input=data, capture_output=True, check=True).stdout.decode()


def read(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data), strict=True)


def forms(resources: Any) -> dict[int, Any]:
    """All form objects that ``resources`` lead to, by object number."""
    found: dict[int, Any] = {}
    for reference in resources.get("/XObject", {}).values():
        form = reference.get_object()
        found |= {form.indirect_reference.idnum: form} | forms(form["/Resources"])
    return found


@pytest.mark.quick(6)
@poppler
@pytest.mark.parametrize("name", SCENES)
def test_a_page_is_what_the_png_shows(name: str) -> None:
    check_alike(ours(SCENES[name]), drawn(document(whole(SCENES[name]))), mean=1, near=0.975)


@poppler
def test_that_comparison_can_fail() -> None:
    moved = replace(SCENES["nested uses"], items=(Use("row", 20.9, 60.7, "#1d4e89"), *SCENES["nested uses"].items[1:]))
    with pytest.raises(AssertionError, match="turnchain-pictures-") as caught:
        check_alike(ours(SCENES["nested uses"]), drawn(document(whole(moved))), mean=1, near=0.975)
    shutil.rmtree(FilePath(str(caught.value).split()[-1]))


@pytest.mark.skipif(not shutil.which("qpdf"), reason="qpdf is not on this machine")
@pytest.mark.parametrize("name", SCENES)
def test_files_are_sound(name: str, tmp_path: FilePath) -> None:
    file = tmp_path / "chart.pdf"
    file.write_bytes(document(whole(SCENES[name]), fitted(SCENES[name], 210, 297, 10, "A1")))
    run = subprocess.run(["qpdf", "--check", str(file)], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    file.write_bytes(file.read_bytes().replace(b"/Catalog", b"/Katalog").replace(b"obj\n", b"obi\n", 3))
    assert subprocess.run(["qpdf", "--check", str(file)], capture_output=True, check=False).returncode != 0


def test_same_pages_same_bytes_and_no_clock() -> None:
    data = document(whole(SCENES["text"]))
    assert data == document(whole(replace(SCENES["text"])))
    reader = read(data)
    assert not {"/CreationDate", "/ModDate"} & set(reader.metadata or {})
    assert reader.trailer["/ID"]  # 14.4: to be had by everyone who cites the file


def test_title_language_and_labels() -> None:
    small = scene()
    title = "Große (Kofte) \\ 漢字 \x07"
    data = document(
        whole(small), replace(whole(small), label="A1"), replace(whole(small), label="Übersicht"),
        title=title, language="de",
    )  # fmt: skip
    reader = read(data)
    assert reader.metadata is not None
    assert reader.metadata.title == "Große (Kofte) \\ 漢字 "
    assert reader.trailer["/Root"]["/Lang"] == "de"  # 14.9.2
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/DisplayDocTitle"] == True  # noqa: E712  (12.2)
    assert reader.page_labels == ["1", "A1", "Übersicht"]  # 12.4.2


def test_sizes_in_points() -> None:
    boxes = [page.mediabox for page in read(document(fitted(scene(), 841, 1189), whole(scene()))).pages]
    assert [(float(box.width), float(box.height)) for box in boxes] == [
        (pytest.approx(841 / 25.4 * 72), pytest.approx(1189 / 25.4 * 72)),
        (pytest.approx(240), pytest.approx(160)),
    ]


@pytest.mark.parametrize("size", [(5081, 100), (100, 5081)])
def test_pages_that_no_viewer_shows_are_refused(size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="5 m is the most"):
        document(fitted(scene(), *size))


def test_no_pages_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one page"):
        document()


@pytest.mark.parametrize("page", [0, 2])
def test_a_link_to_no_page_is_refused(page: int) -> None:
    with pytest.raises(ValueError, match=f"a link to page {page} of 1"):
        document(replace(whole(scene()), links=(Link(0, 0, 10, 10, page),)))


def test_a_place_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="no place in a picture"):
        document(whole(scene(Path(line(0, 0, float("nan"), 1), stroke="#000000"))))


@poppler
def test_words_can_be_searched_whatever_the_font_lacks() -> None:
    text = "Row 12: ½ cm – Жук 漢字 🧶"
    items = Text(10, 30, text, 12, "#222222"), Text(60, 150, "turned, semibold", 12, "#222222", "semibold", "end", 90)
    data = document(whole(scene(*items)))
    assert text in words(data)
    assert "turned, semibold" in words(data)
    assert text in read(data).pages[0].extract_text()


@poppler
def test_a_character_the_font_lacks_is_a_box() -> None:
    check = scene(Text(20, 60, "漢", 40, "#000000"))
    check_alike(ours(check), drawn(document(whole(check))), mean=1, near=0.975)
    assert (drawn(document(whole(check))) < 128).any()


def test_fonts_are_embedded_cut_down_and_have_the_widths_we_measured() -> None:
    data = document(whole(scene(Text(10, 30, "10 ab", 12, "#222222"))))
    (font,) = (each.get_object() for each in read(data).pages[0]["/Resources"]["/Font"].values())
    assert (font["/Subtype"], font["/Encoding"]) == ("/Type0", "/Identity-H")  # 9.7
    descendant = font["/DescendantFonts"][0].get_object()
    assert re.fullmatch(r"/[A-Z]{6}\+Lato-Regular", descendant["/BaseFont"])  # 9.6.4: subsets have a tag
    first, widths = descendant["/W"]
    assert first == 1
    assert [float(width) for width in widths] == [1000 * measuring.measure(c, 1) for c in "10 ab"]
    embedded = descendant["/FontDescriptor"]["/FontFile2"].get_object()
    assert embedded["/Length1"] == len(embedded.get_data()) < 10_000
    assert "/ToUnicode" in font


def test_a_font_that_is_not_used_is_not_there() -> None:
    assert "/Font" not in read(document(whole(SCENES["ovals"]))).pages[0]["/Resources"]


@poppler
def test_drawn_words_are_as_wide_as_they_were_measured() -> None:
    check = scene(Text(230, 30, "Row 12: 1234567890 granny", 12, "#222222", anchor="end"))
    where = np.argwhere(drawn(document(whole(check))).min(axis=2) < 128)
    expected = np.argwhere(ours(check).min(axis=2) < 128)
    assert where.min(axis=0) == pytest.approx(expected.min(axis=0), abs=1)
    assert where.max(axis=0) == pytest.approx(expected.max(axis=0), abs=1)


def test_a_row_is_one_form_however_often_it_is_worked_and_on_every_page() -> None:
    rows = scene(
        *(Use("row", 20, 30 + 12 * i, ("#1d4e89", "#b23a48")[i % 2]) for i in range(8)), definitions=definitions()
    )
    reader = read(document(whole(rows), whole(replace(rows, title="The same again, another scene"))))
    found = [forms(page["/Resources"]) for page in reader.pages]
    assert set(found[0]) == set(found[1])
    (row,) = found[0].values()  # clusters, chains and marks are so short that they are written out in it
    assert reader.pages[0].get_contents().get_data().count(b" Do") == 8
    assert row["/Subtype"] == "/Form"


def test_long_definitions_are_forms_of_their_own() -> None:
    long = Path(tuple(("M" if not i else "L", float(i), float(i % 7)) for i in range(200)), stroke=INK)
    used = scene(Use("two", 0, 9, "#000000"), definitions={"long": (long,), "two": (Use("long", 0, 0, INK),) * 2})
    assert len(forms(read(document(whole(used))).pages[0]["/Resources"])) == 2


def tiles(of: Scene, mm_per_px: float = MM) -> list[Page]:
    return Tiling(of, mm_per_px, 100 * MM, 90 * MM, margin=10 * MM, overlap=10 * MM).pages()


@poppler
def test_tiles_put_together_are_the_whole() -> None:
    pages = tiles(SCENES["nested uses"])
    assert [page.label for page in pages] == ["A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4", "C1", "C2", "C3", "C4"]
    data = document(*pages)
    together = np.full((200, 290, 3), 255, np.uint8)
    for number, page in enumerate(pages):
        part = drawn(data, number + 1)
        # nothing outside the window, which leaves the margins white
        assert (part[:10] == 255).all()
        assert (part[:, :10] == 255).all()
        window = page.views[0].seen()
        left, top = round(window.left), round(window.top)
        together[top : top + 70, left : left + 80] = part[10:80, 10:90]
    check_alike(drawn(document(whole(SCENES["nested uses"]))), together[:160, :240], mean=1, near=0.97)


@poppler
def test_a_tile_holds_only_the_words_it_shows() -> None:
    check = scene(Text(10, 20, "top left", 8, "#222222"), Text(212, 150, "last", 8, "#222222"))
    data = document(*tiles(check))
    assert [words(data, page + 1).strip() for page in (0, 5, 11)] == ["top left", "", "last"]


def test_tiles_share_their_forms() -> None:
    one, many = (len(document(*pages)) for pages in ([whole(SCENES["nested uses"])], tiles(SCENES["nested uses"])))
    reader = read(document(*tiles(SCENES["nested uses"])))
    assert len({number for page in reader.pages for number in forms(page["/Resources"])}) == 1
    assert many < 4 * one


@pytest.mark.parametrize(("size", "count"), [((80, 70), 1), ((80.1, 70), 2), ((150, 130), 4), ((150.1, 130), 6)])
def test_as_few_tiles_as_cover_the_scene(size: tuple[float, float], count: int) -> None:
    assert len(tiles(scene(width=size[0], height=size[1]))) == count


def test_sheets_that_show_nothing_new_are_left_out() -> None:
    """A sheet is needed where something lies that the sheets to the left and above do not show already."""
    tiling = Tiling(scene(width=220, height=130), 1.0, 100, 90, margin=10, overlap=10)
    assert tiling.counts == (3, 2)
    assert tiling.filled([(0, 0, 79, 69)]) == {(0, 0)}
    assert tiling.filled([(75, 65, 79, 69)]) == {(0, 0)}  # in the overlap: shown by the first
    assert tiling.filled([(75, 10, 81, 20)]) == {(0, 0), (0, 1)}
    assert tiling.filled([(0, 0, 220, 5), (0, 0, 5, 130)]) == {(0, 0), (0, 1), (0, 2), (1, 0)}
    assert [page.label for page in tiling.pages({(0, 0), (1, 0)})] == ["A1", "B1"]


def test_sheets_may_be_shifted_as_far_as_they_show_more_than_the_part() -> None:
    tiling = Tiling(scene(width=200, height=70), 1.0, 100, 90, margin=10, overlap=10)
    assert tiling.spare() == pytest.approx((20, 0))
    moved = Tiling(scene(width=200, height=70), 1.0, 100, 90, margin=10, overlap=10, shift=(20, 0))
    assert moved.counts == tiling.counts
    assert [moved.window(0, column)[::2] for column in range(3)] == [(0, 60), (50, 130), (120, 200)]


@pytest.mark.parametrize(("margin", "overlap"), [(50, 0), (10, 80)])
def test_tiles_with_nothing_left_are_refused(margin: float, overlap: float) -> None:
    with pytest.raises(ValueError, match="leave nothing"):
        Tiling(scene(), 1, 100, 90, margin, overlap)


def test_a_page_without_room_is_refused() -> None:
    with pytest.raises(ValueError, match="leave no room"):
        fitted(scene(), 100, 100, 50)


def test_windows_and_several_views_on_one_page() -> None:
    left = View(SCENES["text"], MM, crop=Crop(0, 0, 60, 40))
    page = Page(240 * MM, 160 * MM, (left, View(scene(Text(5, 20, "beside", 10, "#000000"), width=60), MM, 100 * MM)))
    content = read(document(page)).pages[0].get_contents().get_data()
    assert content.count(b"re W n") == 2  # 8.5.4: each view is clipped


@poppler
def test_ends_of_stroke_widths_and_opacity_leave_nothing() -> None:
    for item in (
        Path(line(0, 80, 240, 80), stroke="#000000", width=0),  # in PDF the thinnest line there is
        Path(rectangle(0, 0, 240, 160), fill="#000000", stroke="#000000", opacity=0),
        Path((), fill="#000000"),
        Text(10, 50, "nothing", 0, "#000000"),
        Group(()),
    ):
        assert (drawn(document(whole(scene(item)))) == 255).all()


def test_a_scene_without_background_paints_none() -> None:
    bare = scene(Path(line(0, 0, 9, 9), stroke="#000000"), background=None)
    assert b"re f" not in read(document(whole(bare))).pages[0].get_contents().get_data()
    assert b"re f" in read(document(whole(replace(bare, background="#ffffff")))).pages[0].get_contents().get_data()


@pytest.mark.parametrize("turn", [0, 33, 90, -90, 200])
@pytest.mark.parametrize("words", ["Ägypten ½ Å", "jq,", "漢"])
def test_no_letter_reaches_beyond_its_bounds(words: str, turn: float) -> None:
    # forms are clipped to their bounds, and tiles leave out what lies beyond them
    text = Text(50, 60, words, 17, "#000000", "semibold", "middle", turn)
    within, steps = Extents({}).of(text), measuring.outlines(text)
    xs, ys = [x for step in steps for x in step[1::2]], [y for step in steps for y in step[2::2]]
    assert within.left <= min(xs) <= max(xs) <= within.right
    assert within.top <= min(ys) <= max(ys) <= within.bottom


def test_bounds_of_definitions_hold_all_their_uses() -> None:
    dot = (Path(line(0, 0, 4, 2), stroke=INK, width=2),)
    uses = tuple(Use("dot", x, y, INK) for x, y in ((10, 3), (-7, 30), (5, -6)))
    found = Extents({"dot": dot, "row": (Path(line(0, 0, 1, 1), fill=INK), *uses)}).of(Use("row", 100, 200, "#000000"))
    assert found == (100 - 7 - 1, 200 - 6 - 1, 100 + 10 + 4 + 1, 200 + 30 + 2 + 1)


def test_streams_are_deflated() -> None:
    data = document(whole(SCENES["nested uses"]))
    assert b" cm\n" not in data
    packed = re.findall(rb"stream\n(.*?)\nendstream", data, re.DOTALL)
    assert any(b" cm\n" in zlib.decompress(each) for each in packed)
