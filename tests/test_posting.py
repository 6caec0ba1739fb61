"""Pictures for posting: exact sizes, readable, light, with their alt text."""

from __future__ import annotations

import io
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import product
from pathlib import Path as FilePath

import pytest
from click.testing import CliRunner
from PIL import Image

from test_short import CASES, groups
from turnchain.cli import cli
from turnchain.drawing import posting
from turnchain.drawing.chart import drawn
from turnchain.drawing.folds import Folds, folded
from turnchain.drawing.looks import Look
from turnchain.drawing.posting import COMFORTABLE, READABLE, SIZES, post
from turnchain.drawing.sheet import Sheet
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.making import planned as plan_of_file
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Path, Scene, Text
from turnchain.writers.formats import PICTURES

PIECES = [("heron_top", "front"), ("kite_kerchief", "kerchief"), ("mudflat_blanket", "blanket")]
PLANS = {case: plan_of_file(CASES / f"{case}.toml") for case in sorted({case for case, _ in PIECES})}


@cache
def posted(case: str, name: str, size: str) -> tuple[Scene, Sheet] | str:
    """A post and the sheet it is drawn on, or the message; each is made once for all tests."""
    return watched_post(PLANS[case], name, size)


def watched_post(plan: Plan, name: str, size: str) -> tuple[Scene, Sheet] | str:
    seen: list[Sheet] = []

    def watched(plan: Plan, piece: PiecePlan, sheet: Sheet, look: Look, height: int | None) -> Scene:
        seen.append(sheet)
        return drawn(plan, piece, sheet, look, height)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(posting, "drawn", watched)
        try:
            return post(plan, name, size), seen[-1]
        except MakerError as error:
            return str(error)


def lettering(scene: Scene) -> float:
    """The smallest words but the letters of slim stripes."""
    named = [group for group in groups(scene, "") if group.name != "stripe-letters"]
    return min(item.size for group in named for item in group.items if isinstance(item, Text))


@pytest.mark.parametrize(("case", "name", "size"), [(*one, size) for one, size in product(PIECES, SIZES)])
def test_every_size_is_exact_and_can_be_read(case: str, name: str, size: str) -> None:
    width, height = SIZES[size]
    made = posted(case, name, size)
    if isinstance(made, str):
        assert f'piece "{name}"' in made
        assert "--detail" in made, "a crop is offered"
        assert height is not None, "a size as high as it needs always fits"
        return
    scene, sheet = made
    assert scene.width == width
    assert height is None or scene.height == height
    assert sheet.half >= READABLE
    if folded(PLANS[case].piece(name)) != sheet.folds:
        assert sheet.half >= COMFORTABLE, "a whole chart that could be a short one is comfortable"
    assert lettering(scene) >= 0.0115 * min(scene.width, scene.height)
    credit = [item for group in groups(scene, "credit") for item in group.items if isinstance(item, Text)]
    assert PLANS[case].pattern.title in credit[0].words
    assert max(item.y for item in credit) <= scene.height
    for group in groups(scene, ""):
        for item in group.items:
            if isinstance(item, Text) and not item.turn:
                assert 0 <= item.x <= scene.width
                assert 0 < item.y <= scene.height


def test_the_sizes_are_those_of_the_places_to_post() -> None:
    assert SIZES == {
        "blog": (800, None),
        "blog-sharp": (1600, None),
        "square": (1080, 1080),
        "tall": (1000, 1500),
        "film": (1920, 1080),
    }


@pytest.mark.parametrize(("case", "name"), [("heron_top", "front"), ("kite_kerchief", "kerchief")])
def test_a_picture_is_light(case: str, name: str) -> None:
    for size in SIZES:
        made = posted(case, name, size)
        if isinstance(made, str):
            continue
        scene, _ = made
        stream = io.BytesIO()
        PICTURES[".png"].write(scene, stream)
        assert len(stream.getvalue()) < 500_000, size
        width, height = SIZES[size]
        with Image.open(stream) as picture:
            assert picture.width == width
            assert height is None or picture.height == height


def panel(rows: int, clusters: int) -> Plan:
    yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
    swatch = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))
    piece = Piece("panel", width=Fraction(2 * clusters), length=Fraction(rows))
    return plan_pattern(Pattern("Panel", (swatch,), (piece,), Fabric(), yarns, Stripes(("Reed", "Silt"), (2,))))


def test_a_small_piece_is_posted_whole_and_a_large_one_short() -> None:
    small, large = (watched_post(panel(*size), "panel", "square") for size in ((8, 6), (60, 40)))
    assert not isinstance(small, str)
    assert not isinstance(large, str)
    assert "short" not in small[0].title
    assert small[1].folds == Folds()
    assert "short" in large[0].title
    assert large[1].folds.rows
    assert large[1].folds.across


def test_what_cannot_be_folded_is_refused_with_a_crop_offered() -> None:
    long = tuple((Fraction(4 * nth), Fraction(20 + 6 * (nth % 2))) for nth in range(26))
    piece = Piece("frill", outline=long)
    plan = plan_pattern(replace(panel(8, 6).pattern, pieces=(piece,)))
    with pytest.raises(MakerError) as caught:
        post(plan, "frill", "square")
    said = str(caught.value)
    assert "1080 x 1080 px" in said
    assert "--detail" in said
    assert "blog" in said
    assert post(plan, "frill", "blog").width == 800


def test_looks_hold_for_posts() -> None:
    plan = PLANS["heron_top"]
    left = post(plan, "front", "blog", Look(hand="left"))
    assert "starts at the left" in groups(left, "row-of-stitches")[0].words
    assert post(plan, "front", "blog", Look(page="clear")).background is None
    mono = post(plan, "front", "blog", Look(inks="mono"))
    fills = {item.fill for group in groups(mono, "stripes") for item in group.items if isinstance(item, Path)}
    assert fills <= {"#ffffff", None}


def test_the_command_line_writes_the_alt_text_beside(tmp_path: FilePath) -> None:
    out = tmp_path / "front.png"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out), "--size", "square"]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 0, result.output
    words = out.with_suffix(".txt").read_text("utf-8")
    assert words.startswith("Short stitch chart of front from Heron Creek top: 47 rows of 18 to 22 clusters of 3 dc")
    with Image.open(out) as picture:
        assert picture.size == (1080, 1080)
    assert out.stat().st_size < 500_000


def test_a_size_that_is_not_known_is_told(tmp_path: FilePath) -> None:
    out = tmp_path / "front.png"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out), "--size", "poster"]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 2
    assert "'poster'" in result.output
    assert not out.exists()
