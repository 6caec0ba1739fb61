"""Looks: left-handed, monochrome, dark, clear, true proportion, symbols of one's own; and the sheet of all options."""

from __future__ import annotations

import importlib.util
import io
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from pathlib import Path as FilePath
from typing import Any

import numpy as np
import pytest
from hypothesis import given

from pictures import check_alike, difference, opened, png_bytes
from test_shapes import UNIT, differences, planned, shaped_patterns, steady
from test_short import CASES, flat, groups
from turnchain import style
from turnchain.drawing import hatching
from turnchain.drawing.chart import chart, laid_out
from turnchain.drawing.colours import Colours
from turnchain.drawing.folds import folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.posting import SIZES
from turnchain.drawing.setting import setting
from turnchain.drawing.sheet import WHOLE
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.making import planned as plan_of_file
from turnchain.making.everything import scenes
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Group, Item, Path, Scene, Text, Use
from turnchain.writers import svg

GALLERY = FilePath(__file__).parents[1] / "gallery"
HERON = CASES / "heron_top.toml"
LEFT = Look(hand="left")


def every(scene: Scene) -> Iterator[Item]:
    """All items, those of groups and definitions too."""

    def within(items: tuple[Item, ...]) -> Iterator[Item]:
        for item in items:
            yield item
            if isinstance(item, Group):
                yield from within(item.items)

    for items in (*scene.definitions.values(), scene.items):
        yield from within(items)


def colours_of(scene: Scene) -> set[str]:
    found: set[str | None] = {scene.background}
    for item in every(scene):
        if isinstance(item, Path):
            found |= {item.fill, item.stroke}
        elif isinstance(item, Text):
            found.add(item.colour)
        elif isinstance(item, Use):
            found.add(item.ink)
    return {colour for colour in found if colour not in (None, "ink")}  # type: ignore[misc]


# --------------------------------------------------------------------------------------------------- left hands


def mirrored_rows(piece: PiecePlan) -> None:
    """``for_hand`` gives the mirror image, which can be worked just so by a maker's other hand."""
    other = for_hand(piece, "left")
    width = piece.rows[0].right.at
    for row, image in zip(piece.rows, other.rows, strict=True):
        assert (image.left.at, image.right.at) == (width - row.right.at, width - row.left.at)
        assert {row.starts, image.starts} == {"left", "right"}
        for side, opposite in (("left", "right"), ("right", "left")):
            one, its = row.edge(side), image.edge(opposite)  # type: ignore[arg-type]
            assert (one.kind, one.move, one.step) == (its.kind, its.move, its.step)
        assert image.counts == row.counts
    assert for_hand(other, "left").rows == piece.rows
    assert differences(other) == [], "the mirror image is worked by the same rules"


@steady(25)
@given(shaped_patterns(most_rows=6, most_clusters=6))
def test_a_left_handed_plan_is_the_mirror_image(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is not None:
        mirrored_rows(plan.pieces[0])


@pytest.mark.parametrize("name", ["front", "back"])
def test_a_left_handed_chart_is_the_mirror_image(name: str) -> None:
    plan = plan_of_file(HERON)
    piece = plan.piece(name)
    right, left = chart(plan, name), chart(plan, name, look=LEFT)
    sides = []
    for scene in (right, left):
        rows = groups(scene, "row-of-stitches")
        sides.append([sorted((_plain(symbol), x) for symbol, x in flat(scene, row.items)) for row in rows])
    axis = {
        round(xr + xl)
        for one, other in zip(*sides, strict=True)
        for (xr, xl) in _turned([x for _, x in one], [x for _, x in other])
    }
    assert max(axis) - min(axis) <= 2, "all heads lie mirrored about one line"
    for row, other in zip(*([_numbers(scene) for scene in (right, left)]), strict=True):
        assert row[0] == other[0]
        assert abs(row[1] + other[1] - min(axis)) < 40
    assert "odd rows start at the left, even rows at the right" in left.words
    assert "for left-handed makers" in _said(left)
    assert "right side facing, at the left" in _said(left)
    assert groups(left, "row-of-stitches")[0].words.endswith("starts at the left")
    assert piece.rows[0].starts == "right"


def _plain(name: str) -> str:
    return name.split("-")[0]


def _turned(one: list[float], other: list[float]) -> list[tuple[float, float]]:
    return list(zip(sorted(one), sorted(other, reverse=True), strict=True))


def _numbers(scene: Scene) -> list[tuple[str, float]]:
    (group,) = groups(scene, "row-numbers")
    return [(item.words, item.x) for item in group.items if isinstance(item, Text)]


def _said(scene: Scene) -> str:
    return " ".join(item.words for item in every(scene) if isinstance(item, Text))


def test_a_left_handed_series_shows_the_shaped_edges() -> None:
    plan = plan_of_file(HERON)
    words = [scene.words for name, scene in scenes(plan, None, LEFT) if name.startswith(("front-row", "back-row"))]
    assert len(words) == 8
    assert all("half a cluster" in said for said in words)


# --------------------------------------------------------------------------------------------------- monochrome


def many_yarns(count: int = 24) -> Plan:
    yarns = tuple(Yarn(f"Yarn {nth}", f"#{(nth * 9973 + 4321) * 61 % (1 << 24):06x}") for nth in range(count))
    piece = Piece("piece", width=Fraction(12), length=Fraction(2 * count))
    stripes = Stripes(tuple(yarn.name for yarn in yarns), (2,))
    return plan_pattern(Pattern("Many", (UNIT,), (piece,), Fabric(), yarns, stripes))


def grey(colour: str) -> bool:
    """Grey, or the soft black of the stitches: no stronger tint than a printer's black."""
    parts = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    return max(parts) - min(parts) <= 10


def test_mono_is_without_any_tint() -> None:
    scene = chart(many_yarns(), "piece", look=Look(inks="mono"))
    tinted = sorted(colour for colour in colours_of(scene) if len({colour[i : i + 2] for i in (1, 3, 5)}) > 1)
    assert not tinted


def test_a_left_handed_short_chart_is_the_mirror_image() -> None:
    piece = plan_of_file(HERON).piece("back")
    one, other = folded(piece), folded(for_hand(piece, "left"))
    assert one.rows == other.rows
    assert one.across
    assert other.across
    assert one.clusters == other.clusters
    width = piece.rows[0].right.at
    # Clusters left out: first <= c < last.
    assert (width - other.across.last + 1, width - other.across.first + 1) == (one.across.first, one.across.last)


def test_mono_uses_black_white_and_greys() -> None:
    plan = plan_of_file(HERON)
    coloured, mono = (chart(plan, "front", look=look, short=True) for look in (Look(), Look(inks="mono")))
    assert all(grey(colour) for colour in colours_of(mono))
    assert not all(grey(colour) for colour in colours_of(coloured))
    picture = opened(png_bytes(mono))
    assert (picture.max(axis=2).astype(int) - picture.min(axis=2) <= 10).all()


@pytest.mark.quick(0)
def test_mono_hatches_every_yarn_differently() -> None:
    plan = many_yarns()
    piece, colours = plan.pieces[0], Colours(plan.pattern, "mono")
    box = [(0.0, 400.0), (0.0, 0.0), (400.0, 0.0), (400.0, 400.0)]
    first = {row.colour: row for row in reversed(piece.rows)}
    steps = {}
    for name, row in first.items():
        items = colours.hatched(row, list(box), 1.0)
        assert all(isinstance(item, Path) and grey(item.stroke or "") for item in items)
        steps[name] = tuple((item.steps, item.dash) for item in items if isinstance(item, Path))
    assert len(set(steps.values())) == len(steps) == 24
    pictures = []
    for nth in range(24):
        scene = Scene(400, 400, "", "", "en", {}, tuple(hatching.hatched(nth, box, 1.0)))
        pictures.append(opened(png_bytes(scene)))
    for one, other in combinations(pictures, 2):
        assert difference(one, other).mean > 3
    assert Colours(plan.pattern).hatched(piece.rows[2], box, 1.0) == []


def test_hatching_keeps_within_its_band() -> None:
    band = [(10.0, 90.0), (30.0, 50.0), (200.0, 50.0), (260.0, 90.0)]
    for nth in range(1, 25):
        for path in hatching.hatched(nth, band, 1.0):
            assert isinstance(path, Path)
            for step in path.steps:
                assert 49.9 <= step[2] <= 90.1  # type: ignore[misc]
                assert 9.9 <= step[1] <= 260.1  # type: ignore[misc]


def test_mono_letters_tell_the_stripes_too() -> None:
    scene = chart(many_yarns(), "piece", look=Look(inks="mono"))
    (ruler,) = groups(scene, "stripe-letters")
    assert [item.words for item in ruler.items if isinstance(item, Text)] == list("ABCDEFGHIJKLMNOPQRSTUVWX")
    # a scrap of paper lies under each letter, so that no stroke runs through it
    plates = [item for item in ruler.items if isinstance(item, Path) and item.fill and item.stroke is None]
    assert len(plates) == 2 * 24, "a block and a scrap for each"


# -------------------------------------------------------------------------------------------------------- pages


def test_dark_and_clear_pages() -> None:
    plan = plan_of_file(HERON)
    dark, clear, light = (chart(plan, "sleeve", look=Look(page=page)) for page in ("dark", "clear", "light"))  # type: ignore[arg-type]
    assert (dark.background, clear.background, light.background) == (style.DARK.paper, None, "#ffffff")
    assert style.luminance(style.DARK.paper) < 0.02
    seen = opened(png_bytes(clear), "RGBA")
    assert (seen[:5, :, 3] == 0).all()
    assert opened(png_bytes(light), "RGBA")[0, 0].tolist() == [255, 255, 255, 255]
    assert opened(png_bytes(dark))[0, 0].max() < 40


THEMES = {"light": style.LIGHT, "dark": style.DARK, "mono": style.MONO}


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_words_can_be_read_on_their_paper(theme: style.Theme) -> None:
    assert style.contrast(theme.ink, theme.paper) >= 7
    assert style.contrast(theme.soft, theme.paper) >= 4.5
    assert style.contrast(theme.accent, theme.paper) >= 3


def test_every_word_of_a_chart_can_be_read() -> None:
    plan = plan_of_file(HERON)
    stripes = {yarn.colour for yarn in plan.pattern.yarns}  # letters stand on the yarns' own colours
    for look in (Look(), Look(page="dark"), Look(inks="mono")):
        scene = chart(plan, "front", look=look, short=True)
        assert scene.background
        for group in groups(scene, ""):
            for item in group.items:
                if isinstance(item, Text):
                    on_yarn = group.name in ("stripe-letters", "key") and item.words in ("A", "B", "C")
                    papers = stripes if on_yarn else {scene.background}
                    best = max(style.contrast(item.colour, paper) for paper in papers)
                    assert best >= 4.5, (group.name, item.words)


# --------------------------------------------------------------------------------------------------- proportion


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_true_proportion_is_that_of_the_gauge(case: str) -> None:
    plan = plan_of_file(CASES / f"{case}.toml")
    for piece in plan.pieces:
        true, drawn = (
            laid_out(setting(plan, piece.name, look), 3200, WHOLE).sheet for look in (Look(proportion="true"), Look())
        )
        wanted = float(plan.gauge.row / plan.gauge.pitch)
        assert abs(true.rise - 2 * wanted * true.half) <= 0.5
        assert abs(drawn.rise - 2 * min(max(wanted, 0.55), 0.80) * drawn.half) <= 0.5


def test_a_true_chart_is_lower() -> None:
    plan = plan_of_file(HERON)
    true, drawn = chart(plan, "front", look=Look(proportion="true")), chart(plan, "front")
    places = []
    for scene in (true, drawn):
        (stripes,) = groups(scene, "stripes")
        ys = [step[-1] for item in stripes.items if isinstance(item, Path) for step in item.steps if len(step) > 1]
        xs = [step[1] for item in stripes.items if isinstance(item, Path) for step in item.steps if len(step) > 1]
        places.append((max(ys) - min(ys)) / (max(xs) - min(xs)))  # type: ignore[operator]
    piece = plan.piece("front")
    wanted = float(piece.height / ((piece.rightmost - piece.leftmost + 0.68) * plan.gauge.half))
    assert places[0] == pytest.approx(wanted, rel=0.03)
    # 0.49 by its gauge, 0.55 where it is held
    assert places[1] == pytest.approx(0.55 / float(plan.gauge.row / plan.gauge.pitch) * wanted, rel=0.03)


# -------------------------------------------------------------------------------------------- symbols of one's own

OWN = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" fill="none" stroke="currentColor" stroke-width="1">
<path d="M5 9 L5 1 M1 1 L9 1 M1 5 L9 5"/>
<circle id="foot" cx="5" cy="9" r="0"/><circle id="head" cx="5" cy="1" r="0"/></svg>"""


def test_own_symbols_take_the_place_of_ours(tmp_path: FilePath) -> None:
    plan = plan_of_file(HERON)
    (tmp_path / "dc.svg").write_text(OWN, "utf-8")
    ours, own = chart(plan, "sleeve", 900), chart(plan, "sleeve", 900, Look(symbols=tmp_path))
    assert own.definitions["dc"] != ours.definitions["dc"]
    assert own.definitions["ch"] == ours.definitions["ch"], "what is missing there is ours"
    assert difference(opened(png_bytes(ours)), opened(png_bytes(own))).mean > 0.3


def test_an_empty_folder_changes_nothing(tmp_path: FilePath) -> None:
    plan = plan_of_file(HERON)
    assert chart(plan, "sleeve", 900, Look(symbols=tmp_path)) == chart(plan, "sleeve", 900)


@pytest.mark.parametrize("text", ["", "no svg at all", OWN.replace('id="foot"', ""), OWN.replace("M5 9", "M5 nine")])
def test_a_bad_symbol_is_named(text: str, tmp_path: FilePath) -> None:
    (tmp_path / "dc.svg").write_text(text, "utf-8")
    with pytest.raises(MakerError, match=r"dc\.svg"):
        chart(plan_of_file(HERON), "sleeve", 900, Look(symbols=tmp_path))


def test_a_folder_that_is_not_there_is_named(tmp_path: FilePath) -> None:
    with pytest.raises(MakerError, match="nowhere"):
        chart(plan_of_file(HERON), "sleeve", 900, Look(symbols=tmp_path / "nowhere"))


# ------------------------------------------------------------------------------------------------ sheet of options


def loaded(name: str) -> Any:
    spec = importlib.util.spec_from_file_location(name, GALLERY / f"{name}.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.slow
def test_the_sheet_of_options_is_what_it_says() -> None:
    options = loaded("options")
    scene = options.sheet()
    shown = [item.words for item in scene.items if isinstance(item, Text)][1:]
    assert len(shown) == len(options.SHOWN)
    looks = ("--short", "--mono", "dark", "clear", "--hand left", "--true", "--detail", "stripes", *SIZES)
    for option in looks:
        assert any(option in words for words in shown), option
    assert (options.FOLDER / "options.png").stat().st_size < 1_500_000
    kept = opened((options.FOLDER / "options.png").read_bytes())
    found = opened(png_bytes(scene))
    check_alike(kept, found, mean=0.5, near=0.995)
    with pytest.raises(AssertionError):
        check_alike(kept, np.roll(found, 6, axis=1), mean=0.5, near=0.995)


def test_mirroring_twice_is_nothing() -> None:
    piece = plan_of_file(HERON).piece("back")
    other = for_hand(piece, "left")
    assert for_hand(other, "left") == piece
    assert for_hand(piece, "right") is piece
    assert {piece.top, other.top} == {"left", "right"}


def test_looks_are_drawn_the_same_twice() -> None:
    plan, found = plan_of_file(HERON), []
    for _ in range(2):
        stream = io.BytesIO()
        svg.write(chart(plan, "front", look=Look("left", "mono", "clear", "true"), short=True), stream)
        found.append(stream.getvalue())
    assert found[0] == found[1]
