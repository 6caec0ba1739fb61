"""Work done by two processes at once: it gives the same, and a child that fails costs nothing but time."""

from __future__ import annotations

import errno
import os
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeAlias

import pytest

from turnchain.making import parallel as room
from turnchain.making.parallel import FEWEST, MOST, in_parallel

Draw: TypeAlias = Callable[[], bytes]

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="elsewhere one process draws everything")
COUNT = 12


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "cores", lambda: 2)


def drawing(number: int) -> Draw:
    """A picture of its own number, larger than a pipe holds."""
    return lambda: bytes([number]) * 100_000


def all_of(draws: list[Draw]) -> list[bytes]:
    """What ``draws`` draw, each asked for once, in order."""
    with in_parallel(draws) as drawn:
        return [draw() for draw in drawn]


def marked(folder: Path, number: int) -> Draw:
    """A picture that notes which process drew it."""

    def draw() -> bytes:
        (folder / str(number)).write_text(str(os.getpid()))
        time.sleep(0.02)  # so that the other process gets to take some
        return bytes([number])

    return draw


@pytest.mark.parametrize("count", [0, 1, FEWEST - 1, FEWEST, COUNT, MOST + 1])
def test_the_same_pictures_in_order(count: int) -> None:
    draws = [drawing(number % 251) for number in range(count)] if count <= COUNT else [marking] * count
    assert all_of(draws) == [draw() for draw in draws]


def marking() -> bytes:
    return b"."


def test_both_draw_and_none_draws_twice(tmp_path: Path) -> None:
    assert all_of([marked(tmp_path, number) for number in range(COUNT)]) == [bytes([n]) for n in range(COUNT)]
    drawers = [file.read_text() for file in tmp_path.iterdir()]
    assert len(drawers) == COUNT
    assert len(set(drawers)) == 2
    assert str(os.getpid()) in drawers


def test_whatever_files_and_words_are_made_of_comes_back() -> None:
    """Texts, bytes, and tuples and dicts of them, in the order in which they were made."""
    given = [({f"{n}.png": b"\x00\xff" * n, "a.txt": b""}, "digest", f"words, \u00e9 \u6bdb {n}") for n in range(COUNT)]
    with in_parallel([lambda one=one: one for one in given]) as done:  # type: ignore[misc]
        assert [one() for one in done] == given


def test_neighbours_are_drawn_by_one_process(tmp_path: Path) -> None:
    all_of([marked(tmp_path, number) for number in range(COUNT)])
    drawers = [(tmp_path / str(number)).read_text() for number in range(COUNT)]
    assert drawers == sorted(drawers, key=lambda drawer: drawer != str(os.getpid()))


def test_one_core_needs_no_child(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "cores", lambda: 1)
    all_of([marked(tmp_path, number) for number in range(COUNT)])
    assert {file.read_text() for file in tmp_path.iterdir()} == {str(os.getpid())}


def ended(number: int) -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def left(number: int) -> None:
    os._exit(3)


def no_room(number: int) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize("fails", [ended, left, no_room])
def test_a_child_that_fails_costs_no_picture(fails: Callable[[int], None]) -> None:
    parent = os.getpid()

    def draw(number: int) -> Draw:
        def drawn() -> bytes:
            if os.getpid() != parent and number > 1:
                fails(number)
            return bytes([number])

        return drawn

    assert all_of([draw(number) for number in range(COUNT)]) == [bytes([number]) for number in range(COUNT)]


def test_a_failure_here_is_told_and_ends_the_child() -> None:
    def draw() -> bytes:
        raise RuntimeError("no such symbol")

    with pytest.raises(RuntimeError, match="no such symbol"):
        all_of([draw] * COUNT)
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)  # nobody is left to wait for


def test_a_child_whose_parent_is_killed_ends(tmp_path: Path) -> None:
    middle = os.fork()
    if middle == 0:
        with in_parallel([marked(tmp_path, number) for number in range(MOST)]):
            (tmp_path / "begun").touch()
            time.sleep(60)
        os._exit(0)
    first = tmp_path / str(MOST - 1)  # the child begins with the last
    wait_until(lambda: (tmp_path / "begun").exists() and first.exists() and first.read_text() != "")
    child = int(first.read_text())
    os.kill(middle, signal.SIGKILL)
    os.waitpid(middle, 0)
    wait_until(lambda: not running(child))


def wait_until(true: Callable[[], bool]) -> None:
    """Waits, far longer than it should take."""
    until = time.monotonic() + 30
    while not true():
        assert time.monotonic() < until, "waited in vain"
        time.sleep(0.01)


def running(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except FileNotFoundError:
        return False
    return state != "Z"
