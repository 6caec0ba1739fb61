"""Tints: one dark ink reads on every row, stripes that touch can be told apart, pale yarns stay whole."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path as FilePath

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from test_chart import ODD
from test_short import CASES, groups
from turnchain import style
from turnchain.drawing.chart import chart
from turnchain.drawing.colours import LEAST_DIFFERENCE, Colours, tint, tints, touching
from turnchain.drawing.looks import Look
from turnchain.making import planned
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.scene import Path, Use

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


def contrast(one: str, other: str) -> float:
    """By another library."""
    return float(Color(one).contrast(Color(other), method="wcag21"))


def apart(one: str, other: str) -> float:
    return float(Color(one).delta_e(Color(other), method="2000"))


@given(colours)
def test_ink_and_shaping_can_be_read_on_every_tint(colour: str) -> None:
    made = tint(colour)
    assert contrast(style.INK_DARK, made) >= 4.5
    for theme in (style.LIGHT, style.DARK):
        assert contrast(theme.shaping, made) >= 3


@given(colours)
def test_a_pale_yarn_stays_whole_and_a_dark_one_keeps_its_hue(colour: str) -> None:
    made = tint(colour)
    if contrast(style.INK_DARK, colour) >= 6.01:
        assert made == colour
    own, now = Color(colour).convert("oklch"), Color(made).convert("oklch")
    assert now["lightness"] >= own["lightness"] - 0.001
    if own["chroma"] > 0.04 and now["chroma"] > 0.04:
        turn = abs((now["hue"] - own["hue"] + 180) % 360 - 180)
        assert turn < 8


@pytest.mark.quick(0)
@given(st.lists(colours, min_size=2, max_size=24, unique=True))
def test_stripes_that_touch_differ_where_their_yarns_do(yarns: list[str]) -> None:
    names = {f"yarn {nth}": colour for nth, colour in enumerate(yarns)}
    order = list(names)
    pairs = list(pairwise(order))
    made = tints(names, pairs)
    for one, other in pairs:
        if apart(names[one], names[other]) >= LEAST_DIFFERENCE + 0.05:
            # the formula has a jump where hues are opposite, and our white differs in the fifth place
            assert apart(made[one], made[other]) >= LEAST_DIFFERENCE - 0.3, (names[one], names[other])
        assert contrast(style.INK_DARK, made[one]) >= 4.5


@pytest.mark.parametrize(
    ("one", "other"), [("#1f2f4f", "#2c4a78"), ("#b5432c", "#a33f5b"), ("#e8dcc0", "#f3ead6"), ("#111111", "#3a2a2a")]
)
def test_yarns_near_each_other_are_told_apart(one: str, other: str) -> None:
    made = tints({"one": one, "other": other}, [("one", "other")])
    wanted = min(LEAST_DIFFERENCE, apart(one, other)) if apart(one, other) < LEAST_DIFFERENCE else LEAST_DIFFERENCE
    assert apart(made["one"], made["other"]) >= wanted - 0.3


@pytest.mark.quick(5)
@pytest.mark.parametrize("page", ["light", "dark", "clear"])
@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_every_stitch_is_drawn_in_one_ink(case: str, page: str) -> None:
    plan = planned(CASES / f"{case}.toml")
    for piece in plan.pieces:
        scene = chart(plan, piece.name, look=Look(page=page), short=True)  # type: ignore[arg-type]
        inks = {item.ink for group in groups(scene, "row-of-stitches") for item in group.items if isinstance(item, Use)}
        assert inks == {style.INK_DARK}
        tints_used = {item.fill for group in groups(scene, "stripes") for item in group.items
                      if isinstance(item, Path) and item.fill}  # fmt: skip
        known = Colours(plan.pattern, "tint", plan.pieces)
        assert tints_used == {known.tint(row) for row in piece.rows}


def test_the_full_colours_stay_for_those_who_want_them() -> None:
    plan = planned(CASES / "kite_kerchief.toml")
    scene = chart(plan, "kerchief", look=Look(inks="full"))
    bands = {item.fill for group in groups(scene, "stripes") for item in group.items if isinstance(item, Path)}
    assert {yarn.colour for yarn in plan.pattern.yarns} <= bands
    inks = {item.ink for group in groups(scene, "row-of-stitches") for item in group.items if isinstance(item, Use)}
    assert style.INK_LIGHT in inks


def test_slip_stitches_and_the_chains_of_a_step_lie_on_cloth(tmp_path: FilePath) -> None:
    file = tmp_path / "odd.toml"
    file.write_text(ODD["3 and 1, right"], "utf-8")
    plan = plan_pattern(read_file(file))
    piece = plan.piece("jumps")
    scene = chart(plan, "jumps", look=Look(page="dark"))
    (strips,) = groups(scene, "strips")
    boxes = []
    for item in strips.items:
        assert isinstance(item, Path)
        places = [step[-2:] for step in item.steps if len(step) > 1]
        xs, ys = zip(*places, strict=True)
        boxes.append((min(xs), min(ys), max(xs), max(ys), item.fill))
    stepped = [row for row in piece.rows if row.edge(row.starts).step]
    assert len(boxes) == 1 + sum(bool(row.counts.sl_st) or row.edge(row.starts).move == "step_out" for row in stepped)
    assert all(style.contrast(style.INK_DARK, fill or "") >= 4.5 for *_, fill in boxes)
    assert len(boxes) > 1


def test_yarns_touch_where_their_rows_do() -> None:
    plan = planned(CASES / "heron_top.toml")
    pairs = {frozenset(pair) for pair in touching(plan.pieces)}
    rows = plan.piece("front").row_levels
    assert pairs >= {frozenset((one.colour, other.colour)) for one, other in pairwise(rows)
                     if one.colour != other.colour}  # fmt: skip
