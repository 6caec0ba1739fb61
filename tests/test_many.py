"""Many patterns in one command: each in its folder, failures at the end, a bar on a terminal and nothing in a pipe."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fault_injection import PROGRAM, contents, turnchain
from test_cli import SMALL
from turnchain.errors import MakerError
from turnchain.making import many, parallel
from turnchain.making.progress_bar import MOST, ProgressBar

NAMES = ("one", "two", "three")


@pytest.fixture
def patterns(tmp_path: Path) -> Path:
    """A folder of three patterns."""
    folder = tmp_path / "patterns"
    folder.mkdir()
    for name in NAMES:
        (folder / f"{name}.toml").write_text(SMALL.replace("Small", f"Small {name}"), "utf-8")
    return folder


@pytest.mark.quick(0)
def test_each_pattern_gets_what_it_gets_alone(patterns: Path, tmp_path: Path) -> None:
    done = turnchain("make", "patterns", "-o", "made", "--width", "300", folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert {path.name for path in (tmp_path / "made").iterdir()} == set(NAMES)
    turnchain("make", "patterns/two.toml", "-o", "alone", "--width", "300", folder=tmp_path)
    assert contents(tmp_path / "made" / "two") == contents(tmp_path / "alone")
    told = done.stdout.splitlines()
    made = [file for file in (tmp_path / "made").rglob("[!.]*") if file.is_file()]
    assert set(told) == {str(file.relative_to(tmp_path)) for file in made}
    order = list(dict.fromkeys(Path(line).parent.name for line in told))
    assert order == sorted(NAMES)


@pytest.mark.quick(0)
def test_a_pattern_that_fails_stops_no_other_and_is_told_at_the_end(patterns: Path, tmp_path: Path) -> None:
    (patterns / "one.toml").write_text("title = 3", "utf-8")
    files = [f"patterns/{name}.toml" for name in NAMES]
    done = turnchain("make", *files, "-o", "made", "--width", "300", folder=tmp_path)
    assert done.returncode == 1
    assert "patterns/one.toml" in done.stderr
    assert done.stderr.endswith("error: 1 of 3 patterns could not be made\n")
    assert {path.name for path in (tmp_path / "made").iterdir()} == {"two", "three"}
    assert "index.html" in contents(tmp_path / "made" / "three")


def test_what_cannot_be_told_apart_is_refused(patterns: Path, tmp_path: Path) -> None:
    (tmp_path / "two.toml").write_text(SMALL, "utf-8")
    with pytest.raises(MakerError, match='would be made in the folder "two" too; rename one of them'):
        many.pattern_files([patterns, tmp_path / "two.toml"])
    (tmp_path / "empty").mkdir()
    with pytest.raises(MakerError, match="there is no pattern in this folder"):
        many.pattern_files([tmp_path / "empty"])
    assert many.pattern_files([patterns / "two.toml", patterns]) == [
        patterns / f"{name}.toml" for name in ("two", "one", "three")
    ]


def test_a_child_that_is_ended_costs_its_pattern_alone(
    patterns: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(parallel, "cores", lambda: 2)

    def make(source: Path, folder: Path) -> many.MadeFolder:
        if source.stem == "two":
            os.kill(os.getpid(), signal.SIGKILL)
        return many.MadeFolder([folder], [], [])

    sources = many.pattern_files([patterns])
    outcomes = list(many.make_many(sources, tmp_path / "made", make, lambda *_: None))
    assert [outcome.source for outcome in outcomes] == sources
    assert [outcome.source.stem for outcome in outcomes if outcome.problem] == ["two"]
    assert [outcome.made and outcome.made.written for outcome in outcomes if outcome.made] == [
        [tmp_path / "made" / name] for name in ("one", "three")
    ]


@pytest.mark.quick(0)
def test_a_stop_ends_all_and_leaves_nothing_half_written(patterns: Path, tmp_path: Path) -> None:
    slow = "import turnchain.making.everything as e, time; e.put_all = lambda *_: time.sleep(60)\n"
    run = subprocess.Popen(
        [sys.executable, "-c", slow + PROGRAM, "make", "patterns", "-o", "made"],
        cwd=tmp_path, stderr=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    until = time.monotonic() + 30
    while not (tmp_path / "made" / "one").exists() and time.monotonic() < until:
        time.sleep(0.05)
    run.send_signal(signal.SIGTERM)
    _, said = run.communicate(timeout=30)
    assert (run.returncode, said.strip()) == (1, "error: stopped; no file is left half written")
    assert not (tmp_path / "made").exists() or not list((tmp_path / "made").iterdir())


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_bar_on_a_terminal_and_silence_in_a_pipe() -> None:
    terminal, pipe = Terminal(), io.StringIO()
    for stream in (terminal, pipe):
        with ProgressBar(stream, after=0) as bar:
            bar("front.png", 3, 12)
            bar("back\x1b[2J.png", 6, 12)
    assert pipe.getvalue() == ""
    _, first, second, last, after = terminal.getvalue().split("\r")
    assert first.rstrip() == "[######------------------] 3 of 12, 9 left: front.png"
    assert "6 of 12, 6 left: back" in second
    assert "\x1b" not in second
    assert (last.strip(), after) == ("", "")
    assert {len(first), len(second), len(last)} == {MOST}
    with ProgressBar(terminal := Terminal()) as bar:
        bar("front.png", 3, 12)
    assert terminal.getvalue() == "", "what is quick needs none"
