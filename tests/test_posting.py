"""Pictures for posting: exact sizes, readable, light, with their alt text."""

from __future__ import annotations

import io
from fractions import Fraction
from functools import cache
from itertools import pairwise, product
from pathlib import Path as FilePath
from statistics import fmean

import pytest
from click.testing import CliRunner
from PIL import Image

from test_short import CASES, flat, groups, in_grid, kind
from turnchain.cli import cli
from turnchain.drawing.folds import Folds, Span, cut_to
from turnchain.drawing.looks import Look
from turnchain.drawing.parts import one_repeat
from turnchain.drawing.post_page import PostPage, Subject
from turnchain.drawing.posting import SIZES, series
from turnchain.drawing.setting import Setting, setting
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Plan
from turnchain.lettering.measuring import measure
from turnchain.making import planned as plan_of_file
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Path, Scene, Text, Use
from turnchain.writers.formats import PICTURES

PIECES = [("heron_top", "front"), ("kite_kerchief", "kerchief"), ("mudflat_blanket", "blanket")]
PLANS = {case: plan_of_file(CASES / f"{case}.toml") for case in sorted({case for case, _ in PIECES})}


#: Less than elsewhere: the tip of a triangle twice as wide as high, and one edge at 45 degrees in a high picture.
LEAST = {
    ("kerchief", "square", "foundation and start"): 0.28,
    ("kerchief", "tall", "foundation and start"): 0.17,
    ("kerchief", "tall", "getting wider, left edge"): 0.38,
    ("kerchief", "tall", "getting wider, right edge"): 0.38,
}


def shape(scene: Scene) -> str:
    """What a picture of a series says that it shows."""
    return scene.title.rsplit(": ", 1)[-1]


@cache
def posted(case: str, name: str, size: str) -> list[Scene]:
    """The pictures of a piece in a size; each is made once for all tests."""
    return series(PLANS[case], name, size)


def lettering(scene: Scene) -> float:
    """The smallest words but the letters of slim stripes."""
    named = [group for group in groups(scene, "") if group.name != "stripe-letters"]
    return min(item.size for group in named for item in group.items if isinstance(item, Text))


def drawn_box(scene: Scene) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the chart with its letters and numbers."""
    xs: list[float] = []
    ys: list[float] = []
    named = ("stripes", "stripe-letters", "row-numbers", "joins-and-ends", "marks", "carried-yarns", "below",
             "repeat-across")
    for group in (group for name in named for group in groups(scene, name)):
        for item in group.items:
            if isinstance(item, Path):
                places = [step[-2:] for step in item.steps if len(step) > 1]
                xs += [place[0] for place in places]  # type: ignore[misc]
                ys += [place[1] for place in places]  # type: ignore[misc]
            elif isinstance(item, Text):
                wide = measure(item.words, item.size, item.weight)
                ys.append(item.y)
                xs += [item.x - (wide if item.anchor == "end" else 0), item.x + (wide if item.anchor == "start" else 0)]
    return min(xs), min(ys), max(xs), max(ys)


def row_height(scene: Scene) -> float:
    """The px from one row of stitches to the next."""
    rows = groups(scene, "row-of-stitches")
    tops = sorted({item.y for group in rows for item in group.items if isinstance(item, Use)})
    return min(b - a for a, b in pairwise(tops))


@pytest.mark.quick(3)
@pytest.mark.parametrize(("case", "name", "size"), [(*one, size) for one, size in product(PIECES, SIZES)])
def test_every_picture_is_exact_and_can_be_read_on_a_phone(case: str, name: str, size: str) -> None:
    width, height = SIZES[size]
    made = posted(case, name, size)
    shares: list[float] = []
    for nth, scene in enumerate(made, start=1):
        assert scene.width == width
        assert height is None or scene.height == height
        # css px: seen 390 wide, upright; a wide picture with the phone turned, 844 wide
        assert lettering(scene) * (844 if height and width > height else 390) / width >= 10.9
        left, top, right, bottom = drawn_box(scene)
        if groups(scene, "row-of-stitches") and height is not None:
            assert row_height(scene) >= 36 * min(width, height) / 1080 - 0.5
            share = (right - left) * (bottom - top) / (width * height)
            assert share >= LEAST.get((name, size, shape(scene)), 0.57), (nth, share)
            shares.append(share)
        said = [item.words for group in groups(scene, "header") for item in group.items if isinstance(item, Text)]
        assert PLANS[case].pattern.title in said[0]
        if len(made) > 1:
            assert f"{nth} of {len(made)}" in " ".join(said)
        for group in groups(scene, ""):
            for item in group.items:
                if isinstance(item, Text) and not item.turn:
                    assert 0 <= item.x <= scene.width
                    assert 0 < item.y <= scene.height
    assert not shares or name == "kerchief" or fmean(shares) >= 0.6


@pytest.mark.quick(1)
@pytest.mark.parametrize(("case", "name"), PIECES)
def test_a_series_shows_foundation_every_shaped_row_and_the_stripes(case: str, name: str) -> None:
    piece = PLANS[case].piece(name)
    made = posted(case, name, "square")
    shown = {group.name for scene in made for group in groups(scene, "row-of-stitches")}
    for row in piece.rows:
        if row.number == 1 or any(row.edge(side).move != "straight" for side in SIDES):
            assert f"row-of-stitches-{row.index + 1}" in shown
    assert groups(made[0], "foundation")[0].items
    assert any(shape(scene) == "one repeat" for scene in made)
    assert not groups(made[-1], "row-of-stitches"), "the last shows the stripes"


def test_a_key_holds_only_and_all_that_is_drawn() -> None:
    made = posted("heron_top", "front", "square")
    for scene in made[:-1]:
        (key,) = groups(scene, "key")
        said = {item.words for item in key.items if isinstance(item, Text)}
        (marks,) = groups(scene, "marks")
        assert bool(marks.items) == any("½ cluster" in words for words in said)
        assert bool(groups(scene, "joins-and-ends")[0].items) == bool(said & {"join the yarn", "fasten off"})
        assert bool(groups(scene, "carried-yarns")[0].items) == ("carry the yarn up" in said)


def cut(case: str, name: str, folds: Folds) -> tuple[Setting, Scene]:
    """The picture with only what ``folds`` leave, and where everything lies in it."""
    page = PostPage(setting(PLANS[case], name, Look()), 1080, 1080)
    fitted = page.best([folds], Subject("x"))
    assert fitted is not None
    scene = page.scene(fitted)
    return fitted.picture.setting, scene


@pytest.mark.parametrize("at", SIDES)
@pytest.mark.parametrize(("first", "last"), [(10, 20), (11, 24)])
def test_one_edge_alone_shows_every_stitch_near_it(at: Side, first: int, last: int) -> None:
    piece = PLANS["kite_kerchief"].piece("kerchief")
    folds = cut_to(piece, at, 3, Span(first, last))
    assert folds is not None
    found, scene = cut("kite_kerchief", "kerchief", folds)
    ends = [row.edge(at).at for row in piece.rows if first <= row.number <= last]
    near = max(ends) + 4 if at == "left" else min(ends) - 4
    told_apart(found, scene, (-1000.0, near) if at == "left" else (near, 1000.0))
    assert "over and over, to the " in groups(scene, "repeat-across")[0].words


@pytest.mark.quick(2)
@pytest.mark.parametrize(("case", "name"), PIECES)
def test_one_repeat_alone_shows_every_stitch_around_it(case: str, name: str) -> None:
    for folds in one_repeat(PLANS[case].piece(name)):
        assert folds.left_cut is not None
        assert folds.right_cut is not None
        found, scene = cut(case, name, folds)
        told_apart(found, scene, (folds.left_cut + 1.5, folds.right_cut - 2.5))
        assert groups(scene, "repeat-across")[0].words == "over and over, across and up"
        (key,) = groups(scene, "key")
        assert "turning chain" not in {item.words for item in key.items if isinstance(item, Text)}
        assert not groups(scene, "joins-and-ends")[0].items


def told_apart(found: Setting, scene: Scene, near: tuple[float, float]) -> None:
    """Every symbol drawn is of the row and lies on its cloth; all that stand in ``near`` (half pitches) are drawn."""
    sheet, low = found.sheet, near[0]
    rows = {row.index: row for row in found.rows}
    drawn_rows = groups(scene, "row-of-stitches")
    assert len(drawn_rows) == len(rows)
    for group, band in zip(drawn_rows, groups(scene, "stripes")[0].items, strict=True):
        row = rows[int(group.name.rsplit("-", 1)[1]) - 1]
        drawn = [(kind(name), (x - sheet.zero) / sheet.half) for name, x in flat(scene, group.items)]
        drawn = [(symbol, at) for symbol, at in drawn if symbol != "tch"]  # an oval each
        wanted = [(symbol, at) for symbol, at in in_grid(found.grid, row) if symbol != "tch"]
        for symbol, at in drawn:
            assert any(symbol == other and abs(at - place) < 0.3 for other, place in wanted), (row.number, symbol, at)
        for symbol, at in wanted:
            if low <= at <= near[1]:
                assert any(symbol == other and abs(at - place) < 0.3 for other, place in drawn), (row.number, symbol)
        assert isinstance(band, Path)
        xs = [float(step[-2]) for step in band.steps if len(step) > 2]
        assert all(min(xs) - 1 <= sheet.zero + at * sheet.half <= max(xs) + 1 for _, at in drawn)


def test_the_sizes_are_those_of_the_places_to_post() -> None:
    assert SIZES == {
        "phone": (780, None),
        "blog": (800, None),
        "blog-sharp": (1600, None),
        "square": (1080, 1080),
        "tall": (1000, 1500),
        "film": (1920, 1080),
    }


@pytest.mark.quick(0)
@pytest.mark.parametrize(("case", "name"), [("heron_top", "front"), ("kite_kerchief", "kerchief")])
def test_a_picture_is_light(case: str, name: str) -> None:
    for size in SIZES:
        scene = posted(case, name, size)[0]
        stream = io.BytesIO()
        PICTURES[".png"].write(scene, stream)
        assert len(stream.getvalue()) < (900_000 if size == "blog-sharp" else 500_000), size
        width, height = SIZES[size]
        with Image.open(stream) as picture:
            assert picture.width == width
            assert height is None or picture.height == height


def panel(rows: int, clusters: int) -> Plan:
    yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
    swatch = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))
    piece = Piece("panel", width=Fraction(2 * clusters), length=Fraction(rows))
    return plan_pattern(Pattern("Panel", (swatch,), (piece,), Fabric(), yarns, Stripes(("Reed", "Silt"), (2,))))


@pytest.mark.quick(0)
def test_a_small_piece_is_one_picture_and_a_large_one_a_series() -> None:
    small, large = (series(panel(*size), "panel", "square") for size in ((12, 8), (60, 40)))
    assert len(small) == 1
    assert len(large) > 1


def test_looks_hold_for_posts() -> None:
    plan = PLANS["heron_top"]
    left = series(plan, "front", "blog", Look(hand="left"))[0]
    assert "starts at the left" in groups(left, "row-of-stitches")[0].words
    assert series(plan, "front", "blog", Look(page="clear"))[0].background is None
    mono = series(plan, "front", "blog", Look(inks="mono"))[0]
    fills = {item.fill for group in groups(mono, "stripes") for item in group.items if isinstance(item, Path)}
    assert fills <= {"#ffffff", None}


@pytest.mark.quick(0)
def test_the_command_line_writes_the_alt_text_beside(tmp_path: FilePath) -> None:
    out = tmp_path / "front.png"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out), "--size", "square"]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 0, result.output
    made = sorted(tmp_path.glob("front-*.png"))
    assert len(made) == len(posted("heron_top", "front", "square")) > 1
    for nth, file in enumerate(made, start=1):
        assert file.name == f"front-{nth}.png"
        words = file.with_suffix(".txt").read_text("utf-8")
        assert "titch chart of front from Heron Creek top: 47 rows of 18 to 22 clusters of 3 dc" in words
        assert f"front, {nth} of {len(made)}" in words
        with Image.open(file) as picture:
            assert picture.size == (1080, 1080)
        assert file.stat().st_size < 500_000


def test_a_size_that_is_not_known_is_told(tmp_path: FilePath) -> None:
    out = tmp_path / "front.png"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out), "--size", "poster"]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 2
    assert "'poster'" in result.output
    assert not out.exists()
