"""Charts on paper: sizes, scale, tiles, marks, refusals.

Paper sizes: ISO 216 for A0 to A5, ANSI/ASME Y14.1 inches for Letter and Arch sizes as in trade lists; 1 in = 25.4 mm.
"""

from __future__ import annotations

import io
import math
import subprocess
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.paper import Page, View, fitted
from turnchain.planning.planner import plan_pattern
from turnchain.printing.sheets import OVERLAP, RULER, Printed, pages, picture, true_half
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


def test_the_tiles_laid_together_are_the_whole(tmp_path: Path) -> None:
    """Drawn by poppler, pasted where their windows lie, and compared with the whole drawn by poppler on one page."""
    made = pages(HERON, Printed(("sleeve",), "A4", poster=True))[1:]
    scene, scale = made[0].views[0].scene, made[0].views[0].mm_per_px
    dpi = 40
    whole = fitted(scene, scene.width * scale, scene.height * scale)
    bare = [Page(page.width, page.height, (page.views[0],)) for page in made]
    drawn = _drawn([whole, *bare], dpi, tmp_path)
    canvas = Image.new("RGB", drawn[0].size, "red")
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
    # the last px of either side may be the part of one that the rounded sizes leave over
    assert (np.asarray(canvas)[:-1, :-1] == (255, 0, 0)).all(axis=2).mean() < 0.002


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
        (Printed(("blanket",), "Roll-24", poster=True), "is a roll"),
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
    monkeypatch.setattr("turnchain.printing.sheets.tiled", lambda *_: pytest.fail("the poster was cut"))
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
