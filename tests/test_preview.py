"""The fabric as it will look: stripes the right way, pieces as worn, yarns named, in true proportion."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise
from pathlib import Path as FilePath

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given

from pictures import opened, png_bytes
from test_shapes import UNIT, planned, shaped_patterns, steady
from test_short import CASES, groups
from turnchain.drawing.looks import Look
from turnchain.drawing.placement import Placed, Scale, laid_out, upright
from turnchain.drawing.preview import preview
from turnchain.fabric.plan import Plan
from turnchain.making import planned as plan_of_file
from turnchain.pattern import Neck, Pattern, Piece, Stripes, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.scene import Group, Path, Scene, Text, Use

HERON = CASES / "heron_top.toml"
Box = tuple[float, float, float, float]  # left, top, right, bottom


def box(path: Path) -> Box:
    xs = [step[i] for step in path.steps if len(step) > 1 for i in range(1, len(step), 2)]
    ys = [step[i] for step in path.steps if len(step) > 1 for i in range(2, len(step), 2)]
    return min(xs), min(ys), max(xs), max(ys)  # type: ignore[type-var,return-value]


def bands(group: Group) -> list[Box]:
    """The row bands of one piece of cloth, in the order worked."""
    return [box(item) for item in group.items if isinstance(item, Path) and item.fill]


def cloths(scene: Scene) -> list[Group]:
    return groups(scene, "cloth")


def whole(group: Group) -> Box:
    parts = np.array(bands(group))
    return (*parts[:, :2].min(axis=0), *parts[:, 2:].max(axis=0))


def vertical(group: Group) -> bool:
    return all(bottom - top > right - left for left, top, right, bottom in bands(group))


@pytest.fixture(scope="module")
def heron() -> tuple[Plan, Scene]:
    plan = plan_of_file(HERON)
    return plan, preview(plan)


def test_every_piece_is_there_as_often_as_it_is_made(heron: tuple[Plan, Scene]) -> None:
    assert [cloth.words for cloth in cloths(heron[1])] == ["sleeve", "front", "sleeve", "back"]
    counts = {cloth.words: len(bands(cloth)) for cloth in cloths(heron[1])}
    assert counts == {piece.name: len(piece.rows) for piece in heron[0].pieces}


def test_stripes_are_vertical_where_worked_sideways(heron: tuple[Plan, Scene]) -> None:
    assert all(vertical(cloth) for cloth in cloths(heron[1]) if cloth.words in ("front", "back"))
    kerchief = preview(plan_of_file(CASES / "kite_kerchief.toml"))
    assert not any(vertical(cloth) for cloth in cloths(kerchief))


def test_row_1_of_front_and_back_meet_at_one_side_seam(heron: tuple[Plan, Scene]) -> None:
    # Seen from the right side the front's foundation is at the right, at the wearer's left side; the back, seen from
    # the back, has that side at its left.
    for cloth in cloths(heron[1]):
        left, _, right, _ = whole(cloth)
        first = bands(cloth)[0]
        if cloth.words == "front":
            assert first[2] == pytest.approx(right, abs=1)
        if cloth.words == "back":
            assert first[0] == pytest.approx(left, abs=1)


def test_necks_are_up(heron: tuple[Plan, Scene]) -> None:
    for cloth in cloths(heron[1]):
        if cloth.words in ("front", "back"):
            _, top, _, bottom = whole(cloth)
            parts = bands(cloth)
            middle = parts[len(parts) // 2]
            assert middle[1] > top + 5, "the neck is cut from the top"
            assert middle[3] == pytest.approx(bottom, abs=1)
            assert parts[0][1] == pytest.approx(top, abs=1)


def test_sleeves_lie_beside_the_front_with_their_wide_ends_to_it(heron: tuple[Plan, Scene]) -> None:
    one, front, other, _ = cloths(heron[1])
    left, right = whole(front)[0], whole(front)[2]
    for sleeve, inner in ((one, 2), (other, 0)):
        parts = bands(sleeve)
        wide = max(parts, key=lambda band: band[3] - band[1])
        ends = whole(sleeve)
        assert wide[inner] == pytest.approx(ends[inner], abs=1)
    assert whole(one)[2] < left
    assert whole(other)[0] > right


def test_every_copy_of_a_sleeve_is_laid_out() -> None:
    body, sleeve = (Piece(name, width=Fraction(12), length=Fraction(12)) for name in ("body", "sleeve"))
    plan = plan_pattern(Pattern("Four", (UNIT,), (body, replace(sleeve, count=4))))
    laid = laid_out(plan, Scale(1.0, 1.0))
    assert sorted(one.copy for one in laid if one.piece.name == "sleeve") == [0, 1, 2, 3]


@pytest.mark.parametrize("neck_edge", ["left", "right"])
def test_a_neck_is_up_whichever_edge_carries_it(neck_edge: str) -> None:
    neck = Neck(Fraction(4), Fraction(3))
    piece = Piece("front", "sideways", width=Fraction(16), length=Fraction(12), neck=neck, neck_edge=neck_edge)  # type: ignore[arg-type]
    plan = plan_pattern(Pattern("Neck", (UNIT,), (piece,)))
    (laid,) = laid_out(plan, Scale(1.0, 1.0))
    side = plan.pieces[0].top
    assert side == neck_edge
    row = plan.pieces[0].rows[len(plan.pieces[0].rows) // 2]
    opposite = row.left.at if side == "right" else row.right.at
    assert laid.at(row.edge(side).at, row.number)[1] > laid.at(opposite, row.number)[1]
    assert upright(plan.pieces[0]) in (1, 3)


@steady(25)
@given(shaped_patterns(most_rows=6, most_clusters=6))
def test_a_turned_piece_is_the_piece(pattern: Pattern) -> None:
    """Distances stay, corners stay within the box, and nothing is mirrored."""
    plan = planned(pattern)
    if plan is None:
        return
    (piece,) = plan.pieces
    for quarters in range(4):
        laid = Placed(piece, quarters, Scale(2.0, 3.0), 7.0, -5.0)
        x0, y0 = laid.at(piece.leftmost, 0)
        x1, y1 = laid.at(piece.leftmost + 1, 0)
        x2, y2 = laid.at(piece.leftmost, 1)
        assert math.hypot(x1 - x0, y1 - y0) == pytest.approx(2.0)
        assert math.hypot(x2 - x0, y2 - y0) == pytest.approx(3.0)
        assert (x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0) == pytest.approx(6.0), "turned, not mirrored"
        wide, high = laid.size
        for row in piece.rows:
            for at in (row.left.at, row.right.at):
                x, y = laid.at(at, row.number)
                assert 7.0 - 1e-6 <= x <= 7.0 + wide + 1e-6
                assert -5.0 - 1e-6 <= y <= -5.0 + high + 1e-6


def test_pieces_do_not_overlap(heron: tuple[Plan, Scene]) -> None:
    for case in ("heron_top", "kite_kerchief", "mudflat_blanket"):
        scene = preview(plan_of_file(CASES / f"{case}.toml"))
        boxes = [whole(cloth) for cloth in cloths(scene)]
        for one, other in pairwise(boxes):
            assert other[0] - one[2] > 4
        assert all(left >= 0 and right <= scene.width and bottom <= scene.height for left, _, right, bottom in boxes)


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
@pytest.mark.parametrize("width", [1600, 800])
def test_the_proportion_is_true(case: str, width: int) -> None:
    plan = plan_of_file(CASES / f"{case}.toml")
    scene = preview(plan, width=width)
    for cloth in cloths(scene):
        piece = plan.piece(cloth.words)
        left, top, right, bottom = whole(cloth)
        across = float((piece.rightmost - piece.leftmost) * plan.gauge.half)
        along = float(piece.height)
        tall = (right - left) / (bottom - top)
        wanted = along / across if vertical(cloth) else across / along
        # Half pitch and row are set in quarters of a px: of the smaller of the two that is the bound.
        half = min(right - left, bottom - top) / max(piece.rightmost - piece.leftmost, piece.row_count)
        assert abs(tall / wanted - 1) <= 0.25 / half + 0.01
        assert abs(tall / wanted - 1) <= 0.06


def colours_seen(scene: Scene) -> set[tuple[int, ...]]:
    picture = opened(png_bytes(scene)).reshape(-1, 3)
    seen, counts = np.unique(picture, axis=0, return_counts=True)
    return {tuple(int(part) for part in colour) for colour, count in zip(seen, counts, strict=True) if count > 200}


def test_the_card_shows_the_yarns_with_letters_and_names(heron: tuple[Plan, Scene]) -> None:
    plan, scene = heron
    (card,) = groups(scene, "yarns")
    words = [item.words for item in card.items if isinstance(item, Text)]
    fills = [item.fill for item in card.items if isinstance(item, Path) and item.fill]
    assert fills == [yarn.colour for yarn in plan.pattern.yarns]
    for letter, yarn in zip("ABC", plan.pattern.yarns, strict=True):
        at = words.index(letter)
        assert words[at : at + 2] == [letter, yarn.name]
    wanted = {tuple(int(yarn.colour[i : i + 2], 16) for i in (1, 3, 5)) for yarn in plan.pattern.yarns}
    assert wanted <= colours_seen(preview(plan, width=800))


def test_many_yarns_with_long_names_stay_on_the_page() -> None:
    yarns = tuple(Yarn(f"Sea lavender at dusk {nth}", f"#{nth * 9:02x}8060") for nth in range(24))
    piece = Piece("panel", width=Fraction(20), length=Fraction(48))
    stripes = Stripes(tuple(yarn.name for yarn in yarns), (2,))
    scene = preview(plan_pattern(Pattern("Many", (UNIT,), (piece,), yarns=yarns, stripes=stripes)))
    (card,) = groups(scene, "yarns")
    boxes = [box(item) for item in card.items if isinstance(item, Path)]
    assert len(boxes) == 24
    assert all(right <= scene.width and bottom < scene.height for _, _, right, bottom in boxes)
    (cloth,) = cloths(scene)
    assert min(top for _, top, _, _ in boxes) > whole(cloth)[3]
    texts = [item for item in card.items if isinstance(item, Text)]
    assert max(item.y for item in texts) < scene.height


def test_a_pattern_without_yarns_is_drawn_too() -> None:
    piece = Piece("panel", width=Fraction(10), length=Fraction(10))
    scene = preview(plan_pattern(Pattern("Plain", (UNIT,), (piece,))))
    assert len(cloths(scene)) == 1
    assert "one yarn" in scene.words


def test_the_alt_text_tells_pieces_ways_and_yarns(heron: tuple[Plan, Scene]) -> None:
    words = heron[1].words
    assert words.startswith("The fabric of Heron Creek top as it will look: ")
    assert "front with vertical stripes of Heron, Silt, Reed" in words
    assert "back with vertical stripes" in words
    assert "sleeve with" in words
    assert heron[1].language == "en-US"
    assert preview(plan_of_file(CASES / "mudflat_blanket.toml")).language == "en-GB"


def test_one_piece_by_itself(heron: tuple[Plan, Scene]) -> None:
    scene = preview(heron[0], "back")
    assert [cloth.words for cloth in cloths(scene)] == ["back"]
    assert "front" not in scene.words
    assert vertical(cloths(scene)[0])
    assert whole(cloths(scene)[0])[2] - whole(cloths(scene)[0])[0] > 800


def test_bands_have_the_yarns_colours_in_order() -> None:
    plan = plan_of_file(CASES / "kite_kerchief.toml")
    scene = preview(plan, "kerchief", look=Look())
    (cloth,) = cloths(scene)
    body = [item.ink for item in cloth.items if isinstance(item, Use) and item.name.startswith("row-plait-loop")]
    yarns = plan.pattern.yarns
    nearest = [min(yarns, key=lambda yarn: Color(yarn.colour).delta_e(ink, method="2000")).name for ink in body]
    assert nearest == [row.colour for row in plan.piece("kerchief").rows]


def test_looks_of_the_preview(tmp_path: FilePath) -> None:
    plan = plan_of_file(HERON)
    mono = opened(png_bytes(preview(plan, width=800, look=Look(inks="mono"))))
    assert (mono.max(axis=2).astype(int) - mono.min(axis=2) <= 10).all()
    assert preview(plan, width=800, look=Look(page="clear")).background is None
    assert preview(plan, width=800).width == 800


def test_every_row_can_be_seen_in_black_and_white() -> None:
    plan = plan_of_file(HERON)
    for cloth in cloths(preview(plan, width=800, look=Look(inks="mono"))):
        rows = [item for item in cloth.items if isinstance(item, Path) and item.fill]
        assert all(row.stroke and row.stroke != row.fill for row in rows)
        # an outline that prints: over half a px wide and darker than a mid grey
        assert all(row.width > 0.4 and int((row.stroke or "#ff")[1:3], 16) < 128 for row in rows)
