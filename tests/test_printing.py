"""Charts on paper: sizes, scale, tiles, marks, refusals.

Paper sizes: ISO 216 for A0 to A5, ANSI/ASME Y14.1 inches for Letter and Arch sizes as in trade lists; 1 in = 25.4 mm.
"""

from __future__ import annotations

import io
import math
import subprocess
from pathlib import Path

import numpy as np
import pypdf
import pytest
from PIL import Image

from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.paper import Page, View, fitted
from turnchain.planning.planner import plan_pattern
from turnchain.printing.posters import true_half
from turnchain.printing.sheet_marks import OVERLAP, RULER
from turnchain.printing.sheets import Printed, pages, picture
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.scene import Path as Stroke
from turnchain.writers import pdf

CASES = Path(__file__).parent / "cases"
HERON = plan_pattern(read_file(CASES / "heron_top.toml"))
MUDFLAT = plan_pattern(read_file(CASES / "mudflat_blanket.toml"))


def written(made: list[Page]) -> bytes:
    stream = io.BytesIO()
    pdf.write(made, stream, title="test", language="en")
    return stream.getvalue()


@pytest.mark.quick(3)
@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [("A4", 210, 297), ("A0", 841, 1189), ("Letter", 215.9, 279.4), ("Arch-E", 914.4, 1219.2)],
)
def test_a_page_is_as_large_as_its_paper(paper: str, width: float, height: float, tmp_path: Path) -> None:
    file = tmp_path / "one.pdf"
    file.write_bytes(written(pages(HERON, Printed(("front",), paper))))
    told = subprocess.run(["pdfinfo", str(file)], check=True, capture_output=True, text=True).stdout
    size = next(line for line in told.splitlines() if line.startswith("Page size")).split()
    found = sorted(float(points) / 72 * 25.4 for points in (size[2], size[4]))
    assert found == pytest.approx([width, height], abs=0.1)


def test_a_roll_is_as_long_as_the_chart_needs() -> None:
    (page,) = pages(HERON, Printed(("front",), "Roll-36"))
    assert page.width == pytest.approx(914.4)
    (view,) = page.views
    assert page.height == pytest.approx(view.scene.height * view.mm_per_px + 20)


@pytest.mark.parametrize(("plan", "name"), [(HERON, "front"), (HERON, "sleeve"), (MUDFLAT, "blanket")])
def test_life_size_is_true_in_both_directions(plan: object, name: str) -> None:
    assert plan in (HERON, MUDFLAT)
    made = pages(plan, Printed((name,), "A4", life_size=True))  # type: ignore[arg-type]
    piece = plan.piece(name)  # type: ignore[attr-defined]
    half = true_half(float(piece.gauge.row / piece.gauge.half))
    scale = made[1].views[0].mm_per_px
    rise = Look(proportion="true").rise(piece, half)
    assert half * scale == pytest.approx(float(piece.gauge.half) * 10, rel=1e-9)
    assert rise * scale == pytest.approx(float(piece.gauge.row) * 10, rel=0.002)
    (band,) = {
        round(step[2] * scale, 3)
        for item in made[1].views[0].scene.items
        if getattr(item, "name", "") == "edges"
        for line in item.items[:1]  # type: ignore[union-attr]
        for step in line.steps[:1]  # type: ignore[union-attr]
    }
    assert band > 0


def test_the_ruler_on_every_sheet_is_ten_centimetres() -> None:
    for page in pages(HERON, Printed(("front",), "A4", life_size=True))[1:]:
        marks = page.views[1]
        lengths = [
            abs(item.steps[1][1] - item.steps[0][1]) * marks.mm_per_px
            for item in marks.scene.items
            if isinstance(item, Stroke) and len(item.steps) == 2 and item.steps[0][2] == item.steps[1][2]
        ]
        assert any(abs(length - RULER) < 0.02 for length in lengths)


@pytest.mark.quick(0)
def test_the_tiles_laid_together_are_the_whole(tmp_path: Path) -> None:
    """Drawn by poppler, pasted where their windows lie, and compared with the whole drawn by poppler on one page."""
    made = pages(HERON, Printed(("front",), "A4", life_size=True))[1:]
    assert len(made) > 6
    scene, scale = made[0].views[0].scene, made[0].views[0].mm_per_px
    dpi = 40
    whole = fitted(scene, scene.width * scale, scene.height * scale)
    bare = [Page(page.width, page.height, (page.views[0],)) for page in made]
    drawn = _drawn([whole, *bare], dpi, tmp_path)
    canvas = Image.new("RGB", drawn[0].size, "white")  # where no sheet is, nothing is drawn
    px = dpi / 25.4
    for page, image in zip(bare, drawn[1:], strict=True):
        view: View = page.views[0]
        window = view.seen()
        size = [round((end - start) * scale * px) for start, end in zip(window[:2], window[2:], strict=True)]
        corner = (round(view.left * px), round(view.top * px))
        tile = image.crop((*corner, corner[0] + size[0], corner[1] + size[1]))
        canvas.paste(tile, (round(window.left * scale * px), round(window.top * scale * px)))
    # Tiles begin between two px of the whole, so strokes lie up to half a px apart: compared a quarter as large.
    small = (canvas.width // 4, canvas.height // 4)
    shrunk = [np.asarray(image.resize(small, Image.Resampling.BOX), np.int16) for image in (canvas, drawn[0])]
    off = np.abs(shrunk[0] - shrunk[1])
    assert off.mean() < 6.5
    assert np.quantile(off, 0.99) < 72


STRIPED = """title = "Dune mat"
[swatch]
clusters = 8
width = 20
rows = 10
height = 10
[[yarn]]
name = "Marram"
colour = "#f2ead8"
[[yarn]]
name = "Tern"
colour = "#2a4fd0"
[stripes]
order = ["Marram", "Tern"]
rows = 2
[[piece]]
name = "mat"
width = {width}
length = {length}
"""


def mat(width: float, length: float) -> Plan:
    """A plain striped piece: a cluster is 25 mm wide, a row 10 mm high."""
    return plan_pattern(read_text(STRIPED.format(width=width, length=length), "mat.toml"))


def sheets(made: list[Page], folder: Path) -> int:
    """How many pages poppler counts."""
    file = folder / "counted.pdf"
    file.write_bytes(written(made))
    told = subprocess.run(["pdfinfo", str(file)], check=True, capture_output=True, text=True).stdout
    return int(next(line for line in told.splitlines() if line.startswith("Pages:")).split()[1])


@pytest.mark.quick(3)
@pytest.mark.parametrize(
    ("width", "length", "paper", "most"),
    [
        (7.5, 2.5, "A4", 1),  # a coaster
        (54, 54, "A0", 1),
        (54, 54, "Roll-61cm", 1),
        (80, 150, "Roll-91cm", 1),
        (95, 150, "Roll-107cm", 1),
        (150, 100, "Roll-107cm", 1),  # its rows along the roll
        (54, 54, "A4", 13),  # 56 x 54 cm and its numbers over 19 x 28 cm: 12 sheets and the overview
    ],
)
def test_life_size_takes_as_few_sheets_as_there_are(
    width: float, length: float, paper: str, most: int, tmp_path: Path
) -> None:
    assert sheets(pages(mat(width, length), Printed(("mat",), paper, life_size=True)), tmp_path) <= most


def test_life_size_measured_on_the_paper(tmp_path: Path) -> None:
    """Stripes of two rows of 10 mm, and a piece 56.25 cm wide, as poppler draws them."""
    dpi = 127  # 5 px to a mm
    (image,) = _drawn(pages(mat(22.5, 12), Printed(("mat",), "A3", life_size=True)), dpi, tmp_path)
    px = np.asarray(image, np.int16)
    blue = px[:, :, 2] - px[:, :, 0] > 40
    rows = np.flatnonzero(blue[:, 250:].sum(axis=1) > 500)
    stripes = np.split(rows, np.flatnonzero(np.diff(rows) > 10) + 1)
    heights = [(stripe[-1] - stripe[0] + 1) / 5 for stripe in stripes]
    assert heights == pytest.approx([20, 20, 20], abs=0.4)
    apart = np.diff([stripe[0] for stripe in stripes]) / 5
    assert apart == pytest.approx([40, 40], abs=0.4)


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", ["kerchief", "tie"])
def test_no_sheet_is_blank(name: str, tmp_path: Path) -> None:
    """Every sheet shows something outside what its neighbours to the left and above show."""
    made = pages(plan_pattern(read_file(CASES / "kite_kerchief.toml")), Printed((name,), "A5", life_size=True))[1:]
    bare = [Page(page.width, page.height, page.views[:1]) for page in made]
    for page, image in zip(made, _drawn(bare, 50, tmp_path), strict=True):
        view, px = page.views[0], 50 / 25.4
        window = view.seen()
        left, top = (OVERLAP if start > 0 else 0 for start in (window.left, window.top))
        box = (view.left + left, view.top + top, page.width, page.height)
        assert np.asarray(image.crop(tuple(round(side * px) for side in box))).min() < 200, page.label


def test_a_piece_that_leaves_sheets_blank_is_printed_without_them() -> None:
    kerchief = plan_pattern(read_file(CASES / "kite_kerchief.toml"))
    made = pages(kerchief, Printed(("kerchief",), "A5", life_size=True))[1:]
    rows = {page.label.split()[1][0] for page in made}
    columns = {page.label.split()[1][1:] for page in made}
    assert len(made) < len(rows) * len(columns)


@pytest.mark.quick(0)
@pytest.mark.parametrize("paper", ["A4", "A0", "Roll-24", "Letter"])
@pytest.mark.parametrize("how", ["poster", "life_size"])
def test_key_and_overview_stand_on_one_sheet_at_most(paper: str, how: str, tmp_path: Path) -> None:
    file = tmp_path / "poster.pdf"
    file.write_bytes(written(pages(HERON, Printed(("front",), paper, **{how: True}))))
    words = [page.extract_text() for page in pypdf.PdfReader(file).pages]
    assert sum("Symbols" in said for said in words) == 1
    assert sum(str(HERON.pattern.by) in said for said in words) == 1


@pytest.mark.quick(3)
@pytest.mark.parametrize("paper", ["A5", "A4", "Roll-24"])
@pytest.mark.parametrize("margin", [0, 10, 60])
def test_everything_lies_on_its_paper(paper: str, margin: float) -> None:
    """With the least and the largest margin that a printer may need."""
    for page in pages(plan_pattern(read_file(CASES / "kite_kerchief.toml")),
                      Printed(("tie",), paper, margin=margin, life_size=True)):  # fmt: skip
        for view in page.views:
            window = view.seen()
            assert view.mm_per_px > 0
            assert min(view.left, view.top) >= 0
            assert view.left + (window.right - window.left) * view.mm_per_px <= page.width + 0.2
            assert view.top + (window.bottom - window.top) * view.mm_per_px <= page.height + 0.2


def test_words_of_the_key_can_be_read() -> None:
    """At least 1.9 mm to the em, as small as print for labels is in common practice (no source)."""
    for paper in ("A5", "A4", "A0", "Roll-107cm"):
        for page in pages(HERON, Printed(("front", "sleeve"), paper, life_size=True)):
            named = [(view, getattr(view.scene.items[0], "name", "")) for view in page.views]
            assert all(view.mm_per_px * 21 >= 1.85 for view, name in named if name == "key")


def _drawn(made: list[Page], dpi: int, folder: Path) -> list[Image.Image]:
    file = folder / "all.pdf"
    file.write_bytes(written(made))
    subprocess.run(["pdftoppm", "-r", str(dpi), "-png", str(file), str(folder / "page")], check=True)
    return [Image.open(path).convert("RGB") for path in sorted(folder.glob("page-*.png"))]


def test_neighbouring_sheets_share_their_overlap() -> None:
    made = pages(HERON, Printed(("front",), "A4", poster=True))[1:]
    windows = [page.views[0].seen() for page in made]
    scale = made[0].views[0].mm_per_px
    beside = [(one, two) for one in windows for two in windows if one.top == two.top and one.left < two.left]
    nearest = [(one, two) for one, two in beside if not any(one.left < w.left < two.left for w in windows)]
    assert nearest
    assert all((one.right - two.left) * scale == pytest.approx(OVERLAP) for one, two in nearest)


@pytest.mark.quick(0)
def test_a_poster_takes_the_fewest_sheets_of_both_ways_of_the_paper() -> None:
    asked = Printed(("front",), "A4", poster=True, cluster=12.0)
    made = pages(HERON, asked)[1:]
    freer = pages(HERON, Printed(("front",), "A4", poster=True))[1:]
    assert len(freer) <= len(made)
    assert "page 2 of" in _words(made[0])
    assert f"{len(made)} sheets" in _words(pages(HERON, asked)[0])


def _words(page: Page) -> str:
    return " ".join(getattr(item, "words", "") for view in page.views for item in view.scene.items)


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        (Printed(("blanket",), "A9"), "no paper known here"),
        (Printed(("blanket",), "A4", margin=90), "0 to 60 mm"),
        (Printed(("blanket",), "A5", margin=50), "the smallest sheet that shows them"),
        (Printed(("blanket",), "A5", poster=True, cluster=100), "400 are allowed"),
        (Printed(("blanket",), "A4", poster=True, cluster=0.5), "too small to read"),
        (Printed(("blanket",), "A4", poster=True, cluster=math.nan), "of nan mm cannot be; 1.4 to 1000 mm"),
        (Printed(("blanket",), "A4", poster=True, cluster=math.inf), "of inf mm cannot be; 1.4 to 1000 mm"),
    ],
)
def test_what_cannot_be_printed_is_said(wanted: Printed, said: str) -> None:
    with pytest.raises(MakerError, match=said):
        pages(MUDFLAT, wanted)


def test_sheets_by_the_million_are_counted_not_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a poster a metre to the cluster: to cut it takes minutes and gigabytes."""
    monkeypatch.setattr("turnchain.paper.Tiling.pages", lambda *_: pytest.fail("the poster was cut"))
    with pytest.raises(MakerError, match=r"takes \d+,\d{3} sheets of A5; 400 are allowed"):
        pages(MUDFLAT, Printed(("blanket",), "A5", poster=True, cluster=1000))


@pytest.mark.parametrize(("dpi", "said"), [(1, "30 to 2400"), (100_000, "30 to 2400")])
def test_dots_that_make_no_sense_are_refused(dpi: int, said: str) -> None:
    with pytest.raises(MakerError, match=said):
        picture(MUDFLAT, "blanket", "A4", dpi, Look())


def test_a_picture_of_a_sheet_has_just_its_px() -> None:
    scene = picture(MUDFLAT, "blanket", "A3", 150, Look())
    assert (scene.width, scene.height) == (round(297 / 25.4 * 150), round(420 / 25.4 * 150))


def test_a_roll_of_tens_of_metres_is_refused() -> None:
    """The longest chart there is, of all the rows allowed; a chart of forty metres is one of too many rows."""
    text = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 10\nrows = 10\nheight = 10\n'
    strip = plan_pattern(read_text(f'{text}[[piece]]\nname = "strip"\nwidth = 8\nlength = 1990\n', "a.toml"))
    with pytest.raises(MakerError, match=r"the chart would be \d\d\.\d m long on a Roll-44; a roll takes"):
        pages(strip, Printed(("strip",), "Roll-44"))
