"""Processes for one mutant each: forked, bounded, and over with the first test that fails."""

from __future__ import annotations

import contextlib
import os
import resource
import select
import shutil
import signal
import tempfile
from collections.abc import Callable, Iterator

import pytest

MOST_BYTES = 4 << 30  # of memory of a mutant's tests
LEAST_SECONDS = 20  # of processor time; a mutant has three times what its tests take, but not less; more is no end
MOST_WAITING = 1200  # seconds by the clock without a word: this one waits for something that will not come
#: The tests of the quick set with all of their cases. Quicker failures: no long words on them, no smaller examples
#: looked for.
OPTIONS = (
    "-o", "addopts=", "-m", "not slow or quick", "-p", "no:cacheprovider", "-p", "no:xdist", "--assert=plain",
    "--hypothesis-profile=mutants",
)  # fmt: skip


class Failed(BaseException):
    """A test failed, named here: nothing more need be run."""


class Watch:
    """A plugin of pytest that ends everything with the first failure: ``failed`` is its name."""

    failed = ""

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_makereport(self, item: pytest.Item, call: pytest.CallInfo[None]) -> None:
        """Called by pytest."""
        if call.excinfo is not None and not call.excinfo.errisinstance(pytest.skip.Exception):
            self._end(item.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """Called by pytest."""
        if report.failed:
            self._end(report.nodeid)

    def _end(self, name: str) -> None:
        self.failed = name
        raise Failed(name)


def bound(seconds: float) -> None:
    """This process may take so much processor time, and so much memory."""
    resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 2))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))


def allowed(seconds: float) -> None:
    """From here on this process may take so much processor time, till it is allowed more."""
    signal.setitimer(signal.ITIMER_PROF, seconds)


def forked(one: Callable[[Callable[[str], None]], str]) -> tuple[str, str | None]:
    """What ``one`` says in a process of its own with a folder for what it writes: what it told last on the way, and
    its answer, None where it came to no end."""
    reading, writing = os.pipe()
    folder = tempfile.mkdtemp(prefix="turnchain-mutant-")
    number = os.fork()
    if number == 0:
        _child(one, writing, folder)
    os.close(writing)
    said = b"".join(_said(reading)).decode("utf-8", errors="replace")
    way, mark, answer = said.partition("\0")
    with contextlib.suppress(OSError):
        os.killpg(number, signal.SIGKILL)
    os.waitpid(number, 0)
    shutil.rmtree(folder, ignore_errors=True)
    return way.strip().rpartition("\n")[2], answer if mark else None


def _said(reading: int) -> Iterator[bytes]:
    """What is written to the other end, till that is closed or nothing more comes."""
    with os.fdopen(reading, "rb", buffering=0) as pipe:
        while select.select([pipe], [], [], MOST_WAITING)[0] and (some := pipe.read(4096)):
            yield some


def _child(one: Callable[[Callable[[str], None]], str], writing: int, folder: str) -> None:
    def tell(words: str, mark: str = "\n") -> None:
        os.write(writing, f"{mark}{words}".encode()[:2000])

    try:
        os.setpgid(0, 0)
        os.environ["PYTEST_DEBUG_TEMPROOT"] = tempfile.tempdir = os.environ["TMPDIR"] = folder
        null = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(null, stream)
        tell(one(tell), "\0")
    except Failed as failed:
        tell(str(failed), "\0")
    except BaseException as error:
        tell(f"{type(error).__name__}: {error}", "\0")
    finally:
        os._exit(0)
