"""What is told on a terminal while a maker waits: a line that is cleared again, and nothing in a pipe."""

from __future__ import annotations

import io
import os
import pty
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest

from turnchain import cli, terminal
from turnchain.making import progress_bar
from turnchain.making.progress_bar import ProgressBar
from turnchain.paper import fitted
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.raster import picture
from turnchain.reading.pattern_file import read_file
from turnchain.scene import Path as Shape
from turnchain.scene import Scene, rectangle
from turnchain.writers import formats, pdf

CASES = Path(__file__).parent / "cases"
BLANKET = """
title = "Slate Weir blanket"
[swatch]
clusters = 4
rows = 10
width = 10
height = 10
weight = 9
[stripes]
kind = "stash"
apart = 2
[[piece]]
name = "blanket"
width = 60
length = 90
"""


def blanket(folder: Path) -> Path:
    """A blanket of six yarns, too large to be searched whole."""
    yarns = "".join(
        f'[[yarn]]\nname = "Slate {i}"\ncolour = "#8090{10 + i}"\nstock = {110 + 9 * i}\n' for i in range(6)
    )
    file = folder / "blanket.toml"
    file.write_text(BLANKET + yarns)
    return file


def run_on_a_terminal(file: Path) -> tuple[str, bytes]:
    """Standard output of ``check`` in a pipe, and what it wrote to a terminal."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "turnchain.cli", "check", str(file)]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=theirs, text=True, check=True, timeout=60)
    os.close(theirs)
    seen = b""
    while True:
        try:
            part = os.read(ours, 65536)
        except OSError:  # the other end is closed and all is read
            break
        if not part:
            break
        seen += part
    os.close(ours)
    return done.stdout, seen


def test_the_search_is_told_on_a_terminal_and_cleared_away(tmp_path: Path) -> None:
    text, seen = run_on_a_terminal(blanket(tmp_path))
    assert b"stripes from the stash: the most left of a yarn is " in seen
    assert seen.endswith(b"\r\x1b[K")
    assert "stripes from the stash: " in text
    assert "\x1b" not in text


def test_nothing_is_told_in_a_pipe(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "turnchain.cli", "check", str(blanket(tmp_path))]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    assert done.stderr == ""
    assert "\x1b" not in done.stdout


def test_the_line_is_none_in_a_pipe() -> None:
    with terminal.waiting_line() as tell:
        assert tell is None


#: Interrupts itself at the first answer of the search, as Ctrl-C does.
STOPPED = """
import os, signal, sys
from turnchain import cli
from turnchain.yarns.stash import solving

signal.signal(signal.SIGINT, signal.default_int_handler)  # which tests in the background would not have

def watched(answers):
    for number, answer in enumerate(answers):
        yield answer
        if not number:
            os.kill(os.getpid(), signal.SIGINT)
            signal.pause()

improving = solving.improving
solving.improving = lambda *given: watched(improving(*given))
sys.argv = ["turnchain", "check", sys.argv[1]]
cli.main()
"""


def test_stopped_it_prints_stripes_to_paste(tmp_path: Path) -> None:
    """They can be pasted in place of [stripes], and the pattern is then one that can be made."""
    file = blanket(tmp_path)
    done = subprocess.run([sys.executable, "-c", STOPPED, str(file)], capture_output=True, text=True, timeout=60)
    assert done.returncode == 1
    assert done.stderr.strip() == "error: stopped; no file is left half written"
    remark, *pasted = done.stdout.splitlines()
    assert remark == "# the best stripes so far, to paste into the pattern file"
    assert pasted[0] == "[stripes]"
    old = '[stripes]\nkind = "stash"\napart = 2\n'
    file.write_text(file.read_text().replace(old, "\n".join(pasted) + "\n"))
    command = [sys.executable, "-m", "turnchain.cli", "check", str(file)]
    again = subprocess.run(command, capture_output=True, text=True, timeout=60)
    assert again.returncode == 0, again.stderr
    assert "runs out" not in again.stdout


def test_the_blanket_can_be_made_from_its_stash(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "turnchain.cli", "check", str(blanket(tmp_path))]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    assert "runs out" not in done.stdout


class Shown(io.StringIO):
    """A terminal that keeps what is written to it."""

    def isatty(self) -> bool:
        return True


@pytest.mark.quick(1)
@pytest.mark.parametrize("words", [("check",), ("words",), ("page", "-o", "page.html"), ("make", "-o", "made")])
def test_a_plan_says_how_far_it_is(words: tuple[str, ...], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """In every command that plans, at the latest after two seconds."""
    case = CASES / "kite_kerchief.toml"
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(progress_bar, "ProgressBar", partial(ProgressBar, after=0))
    monkeypatch.setattr(sys, "stderr", shown := Shown())
    command, *more = words
    cli.cli.main([command, str(case), *more], standalone_mode=False)
    for piece in read_file(case).pieces:
        assert f"left: plans of {piece.name}" in shown.getvalue()
    assert shown.getvalue().rstrip(" ").endswith("\r")


def test_a_process_that_is_quiet_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", shown := Shown())
    monkeypatch.setattr(terminal, "_quiet", False)  # put back afterwards
    monkeypatch.setattr(terminal, "_listeners", [lambda *_: None])
    terminal.quiet()
    with terminal.waiting_line() as tell:
        assert tell is None
    assert not terminal._listeners
    assert shown.getvalue() == ""


def test_what_takes_long_says_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[tuple[str, int, int]] = []
    shape = Shape(rectangle(1, 1, 3, 60), fill="#334455")
    scene = Scene(8, 64, "A strip", "A strip.", "en", {}, (shape,), background="#ffffff")
    monkeypatch.setattr(picture, "BAND", 8 * 16)
    with terminal.telling(lambda *one: told.append(one)):
        formats.PICTURES[".png"].write(scene, io.BytesIO())
        pages = [fitted(scene, 210, 297, 10, name) for name in ("front", "back")]
        pdf.write(pages, io.BytesIO(), title="T", language="en")
        prove(plan_pattern(read_file(CASES / "kite_kerchief.toml")))
    assert [one for one in told if "lines" in one[0]] == [("lines of the picture", top, 64) for top in (0, 16, 32, 48)]
    assert [one for one in told if one[0] == "pages"] == [("pages", 0, 2), ("pages", 1, 2)]
    proof = [label for label, _, _ in told if "words" in label or "figures" in label or "charts" in label]
    assert proof[0] == "the words in US terms"
    assert proof[-1] == "the printed figures"
    before = len(told)
    formats.PICTURES[".png"].write(scene, io.BytesIO())
    assert len(told) == before, "nobody listens any more"
