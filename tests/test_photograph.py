"""Colours from a photograph: balls of known colours, lit from one side, on a table."""

from __future__ import annotations

import re
import tomllib
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from coloraide import Color
from PIL import Image

from turnchain import oklch
from turnchain.cli import cli
from turnchain.errors import FileError
from turnchain.yarns.photograph import _border, _joined, _lies_at, _lit, _told, colours_in, lines

TABLE = "#9c7b5b"
STASH = ("#a4443b", "#ebdfc6", "#d3a24c", "#4f6152", "#1d2b53")


def photograph(path: Path, colours: tuple[str, ...], table: str = TABLE, seed: int = 3) -> Path:
    """Balls side by side: each shaded across as a ball is, with strands and the grain of a camera."""
    random = np.random.default_rng(seed)
    high, wide = 360, 300 * len(colours)
    y, x = np.mgrid[0:high, 0:wide]
    picture = np.ones((high, wide, 3)) * np.array(Color(table).convert("srgb").coords()) * 255
    for index, colour in enumerate(colours):
        dx, dy = (x - 300 * index - 150) / 118, (y - 180) / 118
        inside = dx**2 + dy**2 < 1
        light = 1.0 - 0.32 * np.clip(dx * 0.7 + dy * 0.7, 0, 1) - 0.10 * (np.sin((x + 2 * y) / 5) > 0.75)
        for channel, level in enumerate(Color(colour).convert("srgb").coords()):
            picture[..., channel] = np.where(inside, level * 255 * light, picture[..., channel])
    picture += random.normal(0, 4, picture.shape)
    Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8)).save(path)
    return path


def apart(one: str, other: str) -> float:
    return float(Color(one).delta_e(other, method="2000"))


def test_every_yarn_of_the_stash_is_found_and_nothing_else(tmp_path: Path) -> None:
    """CIEDE2000 by coloraide: within 6, which is how far a camera may well be off (common practice, no source)."""
    found = colours_in(photograph(tmp_path / "stash.png", STASH))
    yarns = [one.colour for one in found if not one.table]
    assert len(yarns) == len(STASH)
    for colour in STASH:
        assert min(apart(colour, one) for one in yarns) < 6, colour


def test_the_table_comes_last(tmp_path: Path) -> None:
    *yarns, table = colours_in(photograph(tmp_path / "stash.jpg", STASH[:3]))
    assert table.table
    assert not any(one.table for one in yarns)
    assert apart(table.colour, TABLE) < 6


def test_at_most_so_many(tmp_path: Path) -> None:
    found = colours_in(photograph(tmp_path / "stash.png", STASH), most=4)
    assert [one.table for one in found] == [False] * 4 + [True]  # the table is none of them


def test_at_most_so_many_where_no_table_is_seen(tmp_path: Path) -> None:
    """Five yarns side by side, each from edge to edge."""
    levels = [[int(colour[at : at + 2], 16) for at in (1, 3, 5)] for colour in STASH for _ in range(12)]
    picture = tmp_path / "bands.png"
    Image.fromarray(np.array([levels] * 40, dtype=np.uint8)).save(picture)
    for most, found in ((None, 5), (4, 4)):
        assert [one.table for one in colours_in(picture, most)] == [False] * found


def test_the_same_photograph_gives_the_same_colours(tmp_path: Path) -> None:
    file = photograph(tmp_path / "stash.png", STASH)
    assert colours_in(file) == colours_in(file)


def test_one_colour_all_over(tmp_path: Path) -> None:
    Image.new("RGB", (50, 40), "#4f6152").save(tmp_path / "plain.png")
    (one,) = colours_in(tmp_path / "plain.png")
    assert apart(one.colour, "#4f6152") < 1
    assert one.share == 1


@pytest.mark.parametrize("content", [b"", b"no picture", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0" + bytes(40)])
def test_what_is_no_picture_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "not.png").write_bytes(content)
    with pytest.raises(FileError, match=r"not\.png"):
        colours_in(tmp_path / "not.png")


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match=r"gone\.png"):
        colours_in(tmp_path / "gone.png")


def test_the_command_prints_lines_that_can_be_pasted(tmp_path: Path) -> None:
    file = photograph(tmp_path / "stash.png", STASH)
    run = CliRunner().invoke(cli, ["colours", str(file)])
    yarns = tomllib.loads(run.stdout)["yarn"]
    assert [yarn["colour"] for yarn in yarns] == [one.colour for one in colours_in(file) if not one.table]
    assert "approximate" in run.stdout
    assert "\x1b" not in run.stdout


def test_a_terminal_is_shown_patches_of_each_colour(tmp_path: Path) -> None:
    found = colours_in(photograph(tmp_path / "stash.png", STASH[:2]))
    yarns = [one for one in found if not one.table]
    for one, line in zip(yarns, filter(re.compile("^colour").match, lines(found, True)), strict=True):
        red, green, blue = (int(one.colour[at : at + 2], 16) for at in (1, 3, 5))
        assert f"48;2;{red};{green};{blue}m" in line


@pytest.mark.parametrize(("high", "wide", "rim"), [(50, 100, 3), (100, 50, 3), (5, 5, 1), (200, 133, 8)])
def test_the_edge_of_a_picture_is_six_hundredths_of_its_shorter_side(high: int, wide: int, rim: int) -> None:
    edge = _border(high, wide).reshape(high, wide)
    for y, x in product(range(high), range(wide)):
        assert edge[y, x] == (min(y, x, high - 1 - y, wide - 1 - x) < rim)


# ------------------------------------------------------------------------------------------- step by step, by hand


def groups_of(*some: tuple[int, tuple[float, float, float]]) -> tuple[np.ndarray, np.ndarray]:
    """So many px at each place, and the number of the group of each."""
    points = np.array([place for count, place in some for _ in range(count)])
    return points, np.repeat(np.arange(len(some)), [count for count, _ in some])


@pytest.mark.parametrize(
    ("some", "most", "joined"),
    [
        (((40, (0.3, 0, 0)), (30, (0.3, 0.03, 0)), (30, (0.3, 0.1, 0))), None, [0, 0, 2]),  # nearer than 0.036
        (((40, (0.3, 0, 0)), (30, (0.3, 0.04, 0)), (30, (0.3, 0.1, 0))), None, [0, 1, 2]),
        (((40, (0.3, 0, 0)), (30, (0.3, 0.04, 0)), (30, (0.3, 0.1, 0))), 3, [0, 1, 2]),
        (((40, (0.3, 0, 0)), (30, (0.3, 0.04, 0)), (30, (0.3, 0.1, 0))), 2, [0, 0, 2]),
        (((40, (0.3, 0, 0)), (30, (0.3, 0.04, 0)), (30, (0.3, 0.1, 0))), 1, [0, 0, 0]),
        (((99, (0.3, 0, 0)), (1, (0.3, 0.5, 0))), 1, [0, 1]),  # too small to count: a label
        (((98, (0.3, 0, 0)), (2, (0.3, 0.5, 0))), 1, [0, 0]),
        (((9, (0.3, 0, 0)),), None, [0]),
    ],
)
def test_groups_alike_are_one(
    some: tuple[tuple[int, tuple[float, float, float]], ...], most: int | None, joined: list[int]
) -> None:
    points, groups = groups_of(*some)
    found = _joined(points, groups, most)
    assert [found[list(groups).index(nth)] for nth in range(len(some))] == joined
    assert all(len(set(found[groups == nth])) == 1 for nth in range(len(some)))


LIGHT = (100, (0.4, 0.1, 0.0))


@pytest.mark.parametrize(
    ("dark", "more", "lit"),
    [
        ((50, (0.3, 0.1, 0.02)), (), True),  # three quarters as light, of nearly its colour, half as large
        ((50, (0.28, 0.1, 0.02)), (), False),  # too dark
        ((50, (0.3, 0.1, 0.04)), (), False),  # another colour
        ((50, (0.3, 0.08, 0.025)), (), False),  # 0.032 in both together
        ((70, (0.3, 0.1, 0.02)), (), False),  # too large
        ((50, (0.42, 0.1, 0.02)), (), False),  # lighter
        ((50, (0.3, 0.1, 0.02)), ((200, (0.38, 0.1, 0.01)),), False),  # the shadow of the larger of two
    ],
)
def test_a_shadow_is_of_the_yarn_it_lies_on(
    dark: tuple[int, tuple[float, float, float]], more: tuple[tuple[int, tuple[float, float, float]], ...], lit: bool
) -> None:
    points, groups = groups_of(LIGHT, dark, *more)
    found = _lit(points, groups, np.zeros(len(groups), dtype=bool))
    assert set(found[groups == 1]) == {0 if lit else 2 if more else 1}
    assert set(found[groups == 0]) == {0}
    assert set(_lit(points, groups, groups == 1)[groups == 1]) == {1}  # it makes up the edge: the table has no shadow


def test_the_table_makes_up_more_than_half_of_the_edge() -> None:
    edge = np.array([True] * 8 + [False] * 8)
    for most, lies in ((4, False), (5, True)):
        assert _lies_at(np.array([True] * most + [False] * (16 - most)), edge) is lies
    assert not _lies_at(~edge, edge)


def test_the_colour_told_is_that_of_the_lighter_part() -> None:
    """Of lightnesses from 0 to 1 that of 62 in a hundred; hue and chroma are the middle ones of the lighter part, which
    lies around it: from 24 in a hundred on."""
    light = np.linspace(0, 1, 101)
    lab = np.column_stack([light, 0.1 * light, -0.05 * light])
    assert _told(lab) == oklch.colour_of_lab(0.62, 0.062, -0.031)
