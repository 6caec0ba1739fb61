"""PNG pictures: against cairo's drawing of the same scene's SVG, and files that others read."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
import sys
import tracemalloc
from pathlib import Path as FilePath
from types import ModuleType

import numpy as np
import pytest
from PIL import Image

from pictures import cairos, check_alike, difference, opened, ours, png_bytes
from turnchain.drawing import glyphs
from turnchain.raster import canvas, coverage, glyph_cache, layers, words
from turnchain.raster import picture as room
from turnchain.raster.bounds import Bounds
from turnchain.raster.palette import LEVELS, MOST, PaintedArea, chosen
from turnchain.records import replace
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


@pytest.fixture(params=["few colours", "full colour"])
def colours(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Pictures are indexed where they can be, and then never."""
    if request.param == "full colour":
        monkeypatch.setattr(room, "chosen", lambda *_: None)
    return str(request.param)


@pytest.mark.parametrize("name", SCENES)
def test_a_picture_is_what_cairo_draws(name: str, colours: str) -> None:
    check_alike(cairos(SCENES[name]), ours(SCENES[name]))


@pytest.mark.quick(13)
@pytest.mark.parametrize("name", SCENES)
def test_without_background_too(name: str, colours: str) -> None:
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


@pytest.mark.quick(40)
@pytest.mark.parametrize("name", SCENES)
@pytest.mark.parametrize("limit", [
    (room, "BAND", 240 * 7), (room, "LARGEST_GLYPH", 1 << 40), (glyph_cache, "MOST_BYTES", 0),
])  # fmt: skip
def test_bands_and_memory_do_not_show(
    name: str, limit: tuple[ModuleType, str, int], colours: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    picture = ours(SCENES[name])
    monkeypatch.setattr(*limit)
    assert np.array_equal(picture, ours(SCENES[name]))


def test_what_is_too_large_to_be_cached_is_drawn_alike(colours: str, monkeypatch: pytest.MonkeyPatch) -> None:
    picture = ours(SCENES["nested uses"])
    monkeypatch.setattr(room, "LARGEST_GLYPH", 0)
    monkeypatch.setattr(room, "LARGEST_SHAPE", 0)
    # without rounding to phases, and ink over ink in another order of sums
    check_alike(picture, ours(SCENES["nested uses"]), mean=0.5, near=0.999)


def test_short_words_of_letters_are_where_whole_words_are(monkeypatch: pytest.MonkeyPatch) -> None:
    numbers = scene(*(Text(20.3 + 50 * i, 60.7, f"{i}47", 21, "#222222", anchor="end") for i in range(4)))
    picture = ours(numbers)
    monkeypatch.setattr(words, "SHORT_WORDS", 0)
    check_alike(picture, ours(numbers), mean=0.2, near=1)


def test_slanted_stripes_are_what_they_are_undivided(colours: str, monkeypatch: pytest.MonkeyPatch) -> None:
    stripes = scene(
        Path(polyline([(20, 60), (33.5, 20), (200.25, 20), (220, 60)], True), fill="#b23a48"),
        Path(polyline([(33.5, 100), (20, 60), (220, 60), (190, 100)], True), fill="#1d4e89"),
        Path(polyline([(20, 150), (60, 110), (40, 110), (80, 150)], True), fill="#3a7d44"),
    )
    picture = ours(stripes)
    monkeypatch.setattr(room, "_split", lambda path, corners, x, y: [path])
    # other rectangles make another palette
    check_alike(picture, ours(stripes), mean=0.1, near=1)


def test_a_row_worked_again_is_not_drawn_again(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[Steps] = []
    shape = glyph_cache.Shape.of
    monkeypatch.setattr(glyph_cache.Shape, "of", lambda path: drawn.append(path.steps) or shape(path))  # type: ignore[func-returns-value]
    once = scene(Use("row", 20.25, 60, "#1d4e89"), definitions=definitions())
    png_bytes(once)
    first = len(drawn)
    again = [Use("row", 20.25 + i, 60 + 7 * i, ink) for i, ink in enumerate(["#1d4e89", "#b23a48", "#1d4e89"])]
    png_bytes(replace(once, items=tuple(again)))
    assert first > 0
    assert len(drawn) == 2 * first


def striped(count: int) -> Scene:
    """A row of stitches on each of ``count`` stripes of different colours."""
    colours = [f"#{200 - 9 * i:02x}{60 + 11 * i:02x}{(90 * i) % 256:02x}" for i in range(count)]
    bands = [Path(rectangle(10, 40 * i, 200, 40), fill=colour) for i, colour in enumerate(colours)]
    rows = [Use("row", 20, 40 * i + 34, "#221d18") for i in range(count)]
    return scene(*bands, *rows, definitions=definitions(), height=40 * count)


@pytest.mark.parametrize(("count", "mode"), [(3, "P"), (16, "RGB")])
def test_few_colours_are_indexed_and_more_are_not(count: int, mode: str) -> None:
    data = png_bytes(striped(count))
    assert Image.open(io.BytesIO(data)).mode == mode
    check_alike(cairos(striped(count)), opened(data))


def test_a_palette_has_sixteen_steps_of_each_ink_on_its_ground() -> None:
    everywhere = Bounds(0, 0, 100, 100)
    marks = [PaintedArea("#ff0000", everywhere, True, False), PaintedArea("#000000", everywhere, False, True)]
    made = chosen("#ffffff", marks)
    assert made is not None
    assert made.levels >= min(LEVELS) >= 16
    band = canvas.Indexed(made, coverage.Window(0, 0, made.levels + 1, 1))
    band.fill(coverage.Window(0, 0, 100, 1), "#ff0000")
    steps = coverage.Mask(0, 0, made.levels + 1, 1, bytes(range(made.levels + 1)))
    band.lay(layers.Layer(steps, "#000000"))
    for level, number in enumerate(band.rows[0][1:]):
        assert made.shades[number] == pytest.approx([255 * (1 - level / made.levels), 0, 0, 255])


def test_a_palette_never_has_more_colours_than_a_byte_can_count() -> None:
    everywhere = Bounds(0, 0, 100, 100)
    for count in range(1, 20):
        grounds = [PaintedArea(f"#{10 * i:02x}ffff", everywhere, True, False) for i in range(count)]
        made = chosen("#ffffff", [*grounds, PaintedArea("#000000", everywhere, False, True)])
        assert made is None or len(made.shades) <= MOST
        assert (made is None) == (count > 14)  # each ground takes itself and 16 steps, and so does the background


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
    assert (image.format, image.size, image.mode) == ("PNG", (240, 160), "P")
    # PNG keeps px per metre, so 300 dpi is 11811
    assert image.info["dpi"] == pytest.approx((300, 300), abs=0.02)
    bare = Image.open(io.BytesIO(png_bytes(scene(background=None))))
    assert (bare.mode, bare.convert("RGBA").getpixel((5, 5))) == ("P", (0, 0, 0, 0))
    assert "dpi" not in bare.info


def test_full_colour_is_read_by_others(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "chosen", lambda *_: None)
    assert Image.open(io.BytesIO(png_bytes(scene()))).mode == "RGB"
    assert Image.open(io.BytesIO(png_bytes(scene(background=None)))).mode == "RGBA"


@pytest.mark.skipif(not shutil.which("pngcheck"), reason="pngcheck is not on this machine")
@pytest.mark.parametrize("background", ["#ffffff", None])
@pytest.mark.parametrize("band", [7, 1000])
def test_files_are_sound(
    background: str | None, band: int, colours: str, tmp_path: FilePath, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room, "BAND", 240 * band)
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

    assert peak(20_000) < 1.3 * peak(6_000)


def test_glyphs_kept_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(glyph_cache, "MOST_BYTES", 20_000)
    made = glyph_cache.GlyphCache(SCENES["nested uses"].definitions)
    for phase in range(glyph_cache.PHASES):
        made.layers(made.use(Use("row", phase / glyph_cache.PHASES, 0, "#000000"), 0, 0))
    assert 0 < made.size <= 2 * 20_000  # of parts and of wholes


@pytest.mark.parametrize("opacity", [0.0, 1.0])
def test_ends_of_opacity(opacity: float) -> None:
    item = Path(rectangle(10, 10, 20, 20), fill="#ff0000", stroke="#0000ff", width=10, opacity=opacity)
    picture = ours(scene(item, width=40, height=40))
    assert picture[20, 20].tolist() == ([255, 255, 255] if opacity == 0 else [255, 0, 0])
    assert picture[13, 13].tolist() == ([255, 255, 255] if opacity == 0 else [0, 0, 255])
