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

from turnchain.cli import cli
from turnchain.errors import FileError
from turnchain.yarns.photograph import _border, colours_in, lines

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
