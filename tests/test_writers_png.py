"""PNG pictures: against cairo's drawing of the same scene's SVG, and files that others read."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
import sys
import tracemalloc
from dataclasses import replace
from pathlib import Path as FilePath

import numpy as np
import pytest
from PIL import Image

from pictures import cairos, check_alike, difference, ours, png_bytes
from turnchain import glyphs
from turnchain.scene import INK, Item, Path, Scene, Steps, Text, Use, line, polyline, rectangle
from turnchain.writers import png


def scene(*items: Item, definitions: dict[str, tuple[Item, ...]] | None = None, **options: object) -> Scene:
    settled = {"width": 240, "height": 160, "title": "", "words": "", "language": "en"} | options
    return Scene(**settled, definitions=definitions or {}, items=items)  # type: ignore[arg-type]


def definitions() -> dict[str, tuple[Item, ...]]:
    dc = glyphs.load("dc")
    cluster = [glyphs.place(dc, (i, -2), (8 * i, -30), 1.7, 0.7) for i in (-1, 0, 1)]
    made: dict[str, tuple[Item, ...]] = {
        "cluster": glyphs.merge(path for paths in cluster for path in paths),
        "ch": glyphs.place(glyphs.load("ch"), (-5, 0), (5, 0), 1.7),
        "mark": (
            Path(line(0, 0, 9, 4), stroke="#dd0000", width=3),
            Path(line(0, 4, 9, 0), stroke=INK, width=2),
        ),
    }
    made["row"] = (
        *(Use("cluster", 31.37 * i, 0, INK) for i in range(6)),
        *(Use("ch", 31.37 * i + 15.7, -29.3, INK) for i in range(6)),
        Use("mark", 80.4, -20.2, INK),
        Use("mark", 110.6, -20.7, "#008800"),
    )
    return made


def strokes() -> tuple[Item, ...]:
    zigzag = polyline([(10, 20), (60, 35), (12, 50), (100, 52)])
    return (
        Path(zigzag, stroke="#1d4e89", width=5),
        Path(tuple(_shifted(zigzag, 110)), stroke="#b23a48", width=0.8),
        Path(tuple(_shifted(zigzag, 110, 40)), stroke="#3a7d44", width=7.3, cap="butt"),
        Path(line(10, 100, 230, 101), stroke="#000000", cap="butt"),
        Path(line(20.5, 110, 20.5, 150), stroke="#000000", width=3, cap="butt"),
        Path(line(60, 130, 60, 130), stroke="#000000", width=9),
    )


def _shifted(steps: Steps, x: float, y: float = 0) -> Steps:
    return tuple((step[0], step[1] + x, step[2] + y) for step in steps if len(step) == 3)


def oval(x: float, y: float, rx: float, ry: float) -> Steps:
    k = 4 / 3 * (math.sqrt(2) - 1)
    return (
        ("M", x + rx, y),
        ("C", x + rx, y + ry * k, x + rx * k, y + ry, x, y + ry),
        ("C", x - rx * k, y + ry, x - rx, y + ry * k, x - rx, y),
        ("C", x - rx, y - ry * k, x - rx * k, y - ry, x, y - ry),
        ("C", x + rx * k, y - ry, x + rx, y - ry * k, x + rx, y),
        ("Z",),
    )


SCENES = {
    "strokes": scene(*strokes()),
    "ovals": scene(
        Path(oval(60, 60, 40.3, 20.1), stroke="#000000", width=2.5),
        Path(oval(160, 60, 40.3, 20.1), fill="#b23a48", stroke="#1d4e89", width=6),
        *(Path(oval(15 + 12.3 * i, 120 + i / 7, 4.5, 2.5), stroke="#000000", width=1.5) for i in range(17)),
    ),
    "dashes": scene(
        Path(line(10, 20, 230, 33), stroke="#000000", width=3, dash=(9, 6)),
        Path(line(10, 40, 230, 53), stroke="#000000", width=4, cap="butt", dash=(9, 6, 2)),
        Path(polyline([(20, 80), (220, 70), (200, 150)], True), stroke="#3a7d44", width=3, dash=(11, 7)),
        Path(oval(90, 115, 50, 20), stroke="#1d4e89", width=2, cap="butt", dash=(6, 3)),
    ),
    "slanted polygons": scene(
        Path(polyline([(10, 10), (100, 30), (80, 140), (20, 90)], True), fill="#3a7d44"),
        Path(polyline([(120, 10), (230, 150), (230, 10), (120, 150)], True), "#1d4e89", "#000000"),
        Path(polyline([(90, 10), (110, 150), (100, 10)], True), fill="#b23a48"),
        Path(rectangle(40, 40, 30, 20), fill="#ffcc00"),
        Path(rectangle(40.5, 70.25, 30, 20), fill="#ffcc00"),
    ),
    "text": scene(
        Text(10, 30, "Granny stripe 0123456789", 18, "#222222", "semibold"),
        Text(10, 50, "Row 12: ch 3, (3 dc in next gap) × 40, dc – turn", 9, "#222222"),
        Text(230, 80, "to the end", 16, "#1d4e89", anchor="end"),
        Text(120, 120, "turned", 24, "#b23a48", anchor="middle", turn=-35),
    ),
    "nested uses": scene(
        Use("row", 20.3, 60.7, "#1d4e89"),
        Use("row", 34.11, 92.3, "#b23a48"),
        Use("cluster", 40, 150, "#000000"),
        definitions=definitions(),
    ),
    "see-through": scene(
        Path(rectangle(20.5, 20, 120, 80), fill="#1d4e89", opacity=0.5),
        Path(oval(140, 80, 70, 50), fill="#ffcc00", stroke="#b23a48", width=15, opacity=0.4),
        Use("faint", 30, 90, "#000000"),
        definitions={"faint": (Path(line(0, 0, 150, 30), stroke=INK, width=12, opacity=0.3),)},
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SCENES)
def test_a_picture_is_what_cairo_draws(name: str) -> None:
    check_alike(cairos(SCENES[name]), ours(SCENES[name]))


@pytest.mark.parametrize("name", SCENES)
def test_without_background_too(name: str) -> None:
    bare = replace(SCENES[name], background=None)
    # faint px hold their colour only roughly in 8 bits: laid on two grounds, they must agree
    for ground in (0, 255):
        laid = [_laid_on(ground, draw(bare, "RGBA")) for draw in (cairos, ours)]
        check_alike(*laid)


def _laid_on(ground: int, picture: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    opacity = picture[:, :, 3:] / 255
    return (picture[:, :, :3] * opacity + ground * (1 - opacity)).round().astype(np.uint8)


def test_the_comparison_can_fail() -> None:
    picture = ours(SCENES["nested uses"])
    assert difference(picture, picture).worst == 0
    moved = ours(replace(SCENES["nested uses"], items=tuple(
        replace(item, x=item.x + 1) for item in SCENES["nested uses"].items if isinstance(item, Use)
    )))  # fmt: skip
    recoloured = ours(replace(SCENES["nested uses"], items=tuple(
        replace(item, ink="#1d6e89") for item in SCENES["nested uses"].items if isinstance(item, Use)
    )))  # fmt: skip
    for other in (moved, recoloured):
        with pytest.raises(AssertionError, match="turnchain-pictures-") as caught:
            check_alike(picture, other)
        folder = FilePath(str(caught.value).split()[-1])
        assert {file.name for file in folder.iterdir()} == {"expected.png", "difference.png", "found.png"}
        shutil.rmtree(folder)
    with pytest.raises(AssertionError, match="sizes differ"):
        check_alike(picture, picture[1:])


def test_same_scene_same_bytes() -> None:
    assert png_bytes(SCENES["nested uses"]) == png_bytes(SCENES["nested uses"])


@pytest.mark.parametrize("name", SCENES)
@pytest.mark.parametrize("limit", [("BAND", 240 * 7), ("KEPT", 0), ("LARGEST_STAMP", 1 << 40)])
def test_bands_and_stamp_memory_do_not_show(name: str, limit: tuple[str, int], monkeypatch: pytest.MonkeyPatch) -> None:
    picture = ours(SCENES[name])
    monkeypatch.setattr(png, *limit)
    assert np.array_equal(picture, ours(SCENES[name]))


def test_definitions_too_large_for_stamps_are_drawn_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    picture = ours(SCENES["nested uses"])
    monkeypatch.setattr(png, "LARGEST_STAMP", 0)
    # without rounding to phases, and ink over ink in another order of sums
    check_alike(picture, ours(SCENES["nested uses"]), mean=0.5, near=1)


def test_whole_rectangles_are_exact() -> None:
    picture = ours(scene(Path(rectangle(-5, 2, 8, 3), fill="#102030"), width=6, height=6))
    filled = (picture == (16, 32, 48)).all(axis=2)
    assert np.argwhere(filled).tolist() == [[y, x] for y in (2, 3, 4) for x in (0, 1, 2)]
    assert (picture[~filled] == 255).all()


def test_a_butterfly_is_no_rectangle() -> None:
    # four corners of a rectangle, crossed
    check = scene(Path(polyline([(10, 10), (90, 90), (90, 10), (10, 90)], True), fill="#000000"))
    check_alike(cairos(check), ours(check))


def test_missing_characters_are_seen() -> None:
    assert (ours(scene(Text(20, 60, "漢", 40, "#000000"))) < 128).any()


def test_mixed_colours_of_a_see_through_stroke_and_fill() -> None:
    item = Path(rectangle(10, 10, 20, 20), fill="#ff0000", stroke="#0000ff", width=10, opacity=0.5)
    picture = ours(scene(item, width=40, height=40))
    assert picture[20, 20].tolist() == [255, 127, 127]
    assert picture[13, 13].tolist() == [127, 127, 255]  # the stroke alone, no red below it


def test_header_and_resolution_are_read_by_others() -> None:
    image = Image.open(io.BytesIO(png_bytes(scene(), dpi=300)))
    assert (image.format, image.size, image.mode) == ("PNG", (240, 160), "RGB")
    # PNG keeps px per metre, so 300 dpi is 11811
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.02)
    bare = Image.open(io.BytesIO(png_bytes(scene(background=None))))
    assert bare.mode == "RGBA"
    assert "dpi" not in bare.info


@pytest.mark.skipif(not shutil.which("pngcheck"), reason="pngcheck is not on this machine")
@pytest.mark.parametrize("background", ["#ffffff", None])
@pytest.mark.parametrize("band", [7, 1000])
def test_files_are_sound(
    background: str | None, band: int, tmp_path: FilePath, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(png, "BAND", 240 * band)
    file = tmp_path / "chart.png"
    file.write_bytes(png_bytes(replace(SCENES["strokes"], background=background), dpi=96))
    run = subprocess.run(["pngcheck", "-v", str(file)], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout


def test_zlib_serves_where_isal_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    picture = ours(SCENES["ovals"])
    monkeypatch.setitem(sys.modules, "isal", None)
    assert np.array_equal(picture, ours(SCENES["ovals"]))


def test_wider_than_cairo_can() -> None:
    # cairo's surfaces end at 32,767 px
    picture = ours(scene(Path(line(39_990, 5, 40_000, 5), stroke="#ff0000", width=4), width=40_000, height=10))
    assert picture.shape == (10, 40_000, 3)
    assert picture[5, 39_995].tolist() == [255, 0, 0]


def test_memory_does_not_grow_with_height() -> None:
    def peak(height: int) -> int:
        tall = scene(
            Path(rectangle(10.5, 10, 900, height - 20), stroke="#000000"),
            *(Use("row", 20.3, y, "#1d4e89") for y in range(40, height, 400)),
            definitions=definitions(), width=1000, height=height,
        )  # fmt: skip
        tracemalloc.start()
        png.write(tall, io.BytesIO())
        used = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return used

    assert peak(10_000) < 1.3 * peak(2_500)


def test_stamps_kept_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(png, "KEPT", 20_000)
    stamps = png._Stamps(SCENES["nested uses"])
    for phase in range(png.PHASES):
        stamps.placed("row", phase / png.PHASES, 0, "#000000")
    assert 0 < sum(png._size(layers) for layers in stamps._made.values()) <= 20_000


@pytest.mark.parametrize("opacity", [0.0, 1.0])
def test_ends_of_opacity(opacity: float) -> None:
    item = Path(rectangle(10, 10, 20, 20), fill="#ff0000", stroke="#0000ff", width=10, opacity=opacity)
    picture = ours(scene(item, width=40, height=40))
    assert picture[20, 20].tolist() == ([255, 255, 255] if opacity == 0 else [255, 0, 0])
    assert picture[13, 13].tolist() == ([255, 255, 255] if opacity == 0 else [0, 0, 255])
