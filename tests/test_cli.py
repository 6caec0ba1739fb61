"""The command line as a maker meets it: exit codes, where words go, and that nothing old is ever lost."""

from __future__ import annotations

import os
import subprocess
import sysconfig
import tomllib
from collections.abc import Callable
from pathlib import Path

import click
import pytest

from turnchain.cli import cli

PROGRAM = Path(sysconfig.get_path("scripts")) / "turnchain"
SMALL = """
title = "Small"
[swatch]
clusters = 8
width = 16
rows = 10
height = 10
[[yarn]]
name = "Ink"
colour = "#223344"
[[piece]]
name = "front"
worked = "sideways"
width = 12
length = 8
neck = { shoulder = 3, depth = 2 }
[[piece]]
name = "strip"
width = 8
length = 3
"""


class Run:
    """What a run of the program came to."""

    def __init__(self, *words: str | Path, folder: Path) -> None:
        environment = {name: value for name, value in os.environ.items() if name != "TURNCHAIN_DEBUG"}
        done = subprocess.run(
            [PROGRAM, *map(str, words)],
            cwd=folder, env=environment, capture_output=True, text=True, timeout=60, check=False,
            stdin=subprocess.DEVNULL,
        )  # fmt: skip
        self.code, self.out, self.err = done.returncode, done.stdout, done.stderr
        assert "Traceback" not in self.out + self.err, self.err


Turn = Callable[..., Run]


@pytest.fixture
def turn(tmp_path: Path) -> Turn:
    """Runs turnchain in the test's folder, where small.toml lies."""
    (tmp_path / "small.toml").write_text(SMALL, "utf-8")
    return lambda *words: Run(*words, folder=tmp_path)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under ``folder``, hidden ones too."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


def commands() -> list[str]:
    return sorted(cli.list_commands(click.Context(cli)))


# ------------------------------------------------------------------------------------------------ what goes well


def test_every_help_has_an_example(turn: Turn) -> None:
    # in this process: how help is asked for is tested once below, and there may be many commands
    for name in commands():
        command = cli.commands[name]
        words = command.get_help(click.Context(command, info_name=name))
        assert f"Example: turnchain {name} " in words, name
        assert len(command.get_short_help_str(200)) > 20, name


def test_help_and_version_go_to_standard_output(turn: Turn) -> None:
    for option in ("--help", "-h"):
        run = turn(option)
        assert (run.code, run.err) == (0, "")
        assert all(name in run.out for name in commands())
    helped = turn("make", "--help")
    assert (helped.code, helped.err) == (0, "")
    assert "Example: turnchain make mytop.toml -o mytop" in helped.out
    assert turn("--version").out.startswith("turnchain ")


@pytest.mark.quick(0)
def test_a_new_file_checks_and_says_what_to_do_next(turn: Turn, tmp_path: Path) -> None:
    run = turn("new", "mine.toml")
    assert (run.code, run.err) == (0, "")
    assert "turnchain check mine.toml" in run.out
    tomllib.loads((tmp_path / "mine.toml").read_text("utf-8"))
    checked = turn("check", "mine.toml")
    assert (checked.code, checked.err) == (0, "")
    for word in ("gauge", "wanted", "worked", "off", "shoulder", "neck depth"):
        assert word in checked.out


def test_new_leaves_a_file_that_is_there_alone(turn: Turn, tmp_path: Path) -> None:
    before = contents(tmp_path)
    run = turn("new", "small.toml")
    assert (run.code, run.out) == (1, "")
    assert run.err == "error: small.toml: there is already a file of this name; it was left as it is\n"
    assert contents(tmp_path) == before


def test_warnings_are_lines_that_say_so(turn: Turn, tmp_path: Path) -> None:
    assert "rows counted wrongly" not in turn("check", "small.toml").out
    (tmp_path / "few.toml").write_text(SMALL.replace("rows = 10", "rows = 7"), "utf-8")
    run = turn("check", "few.toml")
    assert (run.code, run.err) == (0, "")
    warned = [line for line in run.out.splitlines() if "warning" in line]
    assert warned
    assert all(line.startswith(("warning: ", "doubts: ")) for line in warned)
    assert any("rows counted wrongly" in line for line in warned)


@pytest.mark.quick(0)
def test_make_tells_every_file_that_it_made(turn: Turn, tmp_path: Path) -> None:
    run = turn("make", "small.toml", "-o", "made/here")
    assert (run.code, run.err) == (0, "")
    told = run.out.split()
    assert told[-1] == "made/here/index.html"
    shown = {name for name in contents(tmp_path / "made" / "here") if not name.startswith(".")}
    assert sorted(Path(name).name for name in told) == sorted(shown)
    assert {"plan.json", "front.svg", "front.png", "front.txt", "strip.svg"} <= {Path(name).name for name in told}


@pytest.mark.quick(1)
@pytest.mark.parametrize("ending", ["svg", "png", "SVG"])
def test_chart_makes_one_picture_and_its_words(ending: str, turn: Turn, tmp_path: Path) -> None:
    before = contents(tmp_path)
    run = turn("chart", "small.toml", "--piece", "strip", "-o", f"picture.{ending}", "--width", "800")
    assert (run.code, run.err) == (0, "")
    assert run.out.split() == [f"picture.{ending}", "picture.txt"]
    assert set(contents(tmp_path)) - set(before) == {f"picture.{ending}", "picture.txt"}


# ------------------------------------------------------------------------------------------------- what is wrong

BAD = {
    "neck deeper than the piece": (("depth = 2", "depth = 9"), 'piece "front", neck, depth'),
    "shoulders wider than half": (("shoulder = 3", "shoulder = 7"), 'piece "front", neck, shoulder'),
    "gauge of zero": (("clusters = 8", "clusters = 0"), "swatch, clusters"),
    "gauge below zero": (("rows = 10", "rows = -10"), "swatch, rows"),
    "gauge that is no number": (("width = 16", "width = nan"), "swatch, width"),
    "gauge without end": (("height = 10", "height = inf"), "swatch, height"),
    "colour that is none": (("#223344", "#22334g"), 'yarn 1 ("Ink"), colour'),
    "two pieces of one name": (('"strip"', '"front"'), "front"),
    "unknown key": (("length = 3", "length = 3\ncuont = 2"), "did you mean `count`?"),
    "ten million rows": (("length = 3", "length = 10_000_000"), "2000 rows"),
    "wrong type": (("width = 8", "width = [8]"), 'piece "strip", width'),
    "empty file": ((SMALL, ""), "title"),
    "not TOML": ((SMALL, "Dear diary, 3 dc in next sp"), "line 1"),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", BAD)
def test_bad_input_is_one_clear_message_and_old_files_stay(name: str, turn: Turn, tmp_path: Path) -> None:
    (old, new), words = BAD[name]
    assert old in SMALL
    (tmp_path / "bad.toml").write_text(SMALL.replace(old, new), "utf-8")
    folder = tmp_path / "made"
    folder.mkdir()
    for file in ("plan.json", "front.svg", "front.png", "front.txt", "index.html"):
        (folder / file).write_bytes(b"old " + file.encode())
    before = contents(tmp_path)
    for run in (turn("check", "bad.toml"), turn("make", "bad.toml", "-o", "made")):
        assert (run.code, run.out) == (1, "")
        assert words in run.err
        assert all(line.startswith("error: bad.toml: ") for line in run.err.splitlines())
        assert len(run.err.splitlines()) == 1 or name == "empty file", run.err
    assert contents(tmp_path) == before


def test_every_problem_is_told_at_once(turn: Turn, tmp_path: Path) -> None:
    spoilt = SMALL.replace("#223344", "blueish").replace("depth = 2", "depth = 20").replace("rows = 10", "rows = 0")
    (tmp_path / "bad.toml").write_text(spoilt, "utf-8")
    errors = turn("check", "bad.toml").err.splitlines()
    assert len(errors) == 3
    assert [sum(place in line for line in errors) for place in ("colour", "depth", "rows")] == [1, 1, 1]


def test_no_file_and_a_folder_for_a_file(turn: Turn, tmp_path: Path) -> None:
    assert "there is no such file" in turn("check", "smal.toml").err
    (tmp_path / "folder.toml").mkdir()
    run = turn("check", "folder.toml")
    assert (run.code, run.err) == (1, "error: folder.toml: this is a folder; a pattern file is needed\n")


def test_unknown_piece(turn: Turn, tmp_path: Path) -> None:
    before = contents(tmp_path)
    run = turn("chart", "small.toml", "--piece", "frnt", "-o", "a.svg")
    assert (run.code, run.out) == (1, "")
    assert run.err == 'error: small.toml: there is no piece "frnt"; its pieces are "front", "strip"\n'
    assert contents(tmp_path) == before


@pytest.mark.quick(3)
@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("chart", "small.toml", "--piece", "front", "-o", "a.gif"), "must end in"),
        (("chart", "small.toml", "--piece", "front", "-o", "svg"), "must end in"),
        (("chart", "small.toml", "-o", "a.svg"), "--piece"),
        (("make", "small.toml"), "-o"),
        (("make",), "FILE"),
        (("make", "small.toml", "-o", "made", "--width", "12"), "12"),
        (("check",), "FILE"),
        (("chekc", "small.toml"), "chekc"),
        (("check", "small.toml", "--loud"), "--loud"),
        (("print", "small.toml", "--cluster", "9", "-o", "a.pdf"), "goes with --poster"),
        (("print", "small.toml", "--poster", "--life-size", "--cluster", "9", "-o", "a.pdf"), "goes with --poster"),
        (("print", "small.toml", "--booklet", "--cluster", "9", "-o", "a.pdf"), "goes with --poster"),
        (("chart", "small.toml", "--piece", "a", "--size", "film", "--width", "900", "-o", "a.png"), "--size sets"),
        (("chart", "small.toml", "--piece", "a", "--size", "square", "--short", "-o", "a.png"), "--size sets"),
        (("chart", "small.toml", "--piece", "a", "--detail", "2", "--at", "left", "--short", "-o", "a.png"), "a width"),
        (("words", "small.toml", "-o", "scarf.svg"), "must end in .md or .txt"),
    ],
)
def test_wrong_use_ends_with_2(words: tuple[str, ...], said: str, turn: Turn, tmp_path: Path) -> None:
    before = contents(tmp_path)
    run = turn(*words)
    assert (run.code, run.out) == (2, "")
    assert said in run.err
    assert contents(tmp_path) == before


@pytest.mark.quick(1)
@pytest.mark.parametrize(
    "words",
    [
        ("make", "small.toml", "-o", "small.toml"),
        ("make", "small.toml", "-o", "small.toml/made"),
        ("make", "small.toml", "-o", "/proc/made"),
        ("make", "small.toml", "-o", "taken"),
        ("chart", "small.toml", "--piece", "front", "-o", "small.toml/a.svg"),
        ("chart", "small.toml", "--piece", "front", "-o", "nowhere/a.svg"),
        ("new", "small.toml/mine.toml"),
        ("new", "nowhere/mine.toml"),
    ],
)
def test_what_cannot_be_written(words: tuple[str, ...], turn: Turn, tmp_path: Path) -> None:
    # also for root, who may write wherever there is a folder: none of these is one, or a folder is in the way
    (tmp_path / "taken" / "strip.svg").mkdir(parents=True)
    (tmp_path / "taken" / "front.svg").write_bytes(b"old")
    before = contents(tmp_path)
    run = turn(*words)
    assert run.code == 1
    assert len(run.err.splitlines()) == 1
    assert run.err.startswith("error: ")
    assert "turnchain itself" not in run.err
    assert contents(tmp_path) == before


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_without_permission(turn: Turn, tmp_path: Path) -> None:
    folder = tmp_path / "locked"
    folder.mkdir(mode=0o555)
    run = turn("make", "small.toml", "-o", "locked")
    assert run.code == 1
    assert "there is no permission to write there" in run.err
    assert contents(folder) == {}
