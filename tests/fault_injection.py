"""Fault injection: a run killed, refused or stopped at any step of its writing; limits of the machine; lost rights.

A run stands in a forked child, so that a kill is a real one. Its steps are the calls by which it changes a folder.
"""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from turnchain.writers import files

SECONDS = 60  # what takes longer hangs
STEPS = ("open", "link", "replace", "unlink", "fsync", "fchmod")
Fault = Callable[[], None]


def child(run: Callable[[], object]) -> int:
    """Runs in a child; minus the signal that killed it, 0 for a good end, 1 for an error."""
    sys.stdout.flush()
    sys.stderr.flush()
    number = os.fork()
    if number == 0:
        code = 1
        try:
            signal.alarm(SECONDS)
            run()
            code = 0
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])


@contextmanager
def injected(step: int, fault: Fault) -> Iterator[list[str]]:
    """Calls ``fault`` at the ``step``-th step (from 1; 0: never), a write in its middle. Gives the steps taken."""
    taken: list[str] = []

    def before(name: str) -> None:
        taken.append(name)
        if len(taken) == step:
            fault()

    def watched(name: str) -> Callable[..., Any]:
        real = getattr(os, name)

        def call(*given: Any, **more: Any) -> Any:
            before(name)
            # a kill is no power cut: waiting for the disk would only take time
            return None if name == "fsync" else real(*given, **more)

        return call

    real_write = files._Raw.write

    def write(self: Any, data: Any) -> int:
        half = bytes(data)[: max(1, len(data) // 2)]
        written = real_write(self, half)
        with files._told(self.path):
            before("write")
        return written

    with pytest.MonkeyPatch.context() as patch:
        for name in STEPS:
            patch.setattr(files.os, name, watched(name))
        patch.setattr(files._Raw, "write", write)
        yield taken


def kill() -> None:
    """What no program hears."""
    os.kill(os.getpid(), signal.SIGKILL)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under ``folder``, hidden ones too."""
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


def python(code: str, *words: str | Path, folder: Path, **limits: int) -> subprocess.CompletedProcess[str]:
    """Runs Python code under ``limits``, by their names in ``resource`` without RLIMIT_; no traceback may come."""

    def limit() -> None:
        for stop in STOPS:  # whatever the tests themselves were told to ignore, by nohup or in the background
            signal.signal(stop, signal.SIG_DFL)
        for name, most in limits.items():
            resource.setrlimit(getattr(resource, f"RLIMIT_{name}"), (most, most))

    done = subprocess.run(
        [sys.executable, "-c", code, *map(str, words)],
        cwd=folder, capture_output=True, text=True, timeout=10 * SECONDS, check=False, stdin=subprocess.DEVNULL,
        preexec_fn=limit, env={name: value for name, value in os.environ.items() if name != "TURNCHAIN_DEBUG"},
    )  # fmt: skip
    assert "Traceback" not in done.stderr, done.stderr
    assert "turnchain itself" not in done.stderr, done.stderr
    return done


STOPS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
PROGRAM = "import sys; sys.argv[0] = 'turnchain'; from turnchain.cli import main; main()"


def turnchain(*words: str | Path, folder: Path, **limits: int) -> subprocess.CompletedProcess[str]:
    """Runs the program in ``folder`` under ``limits``."""
    return python(PROGRAM, *words, folder=folder, **limits)
