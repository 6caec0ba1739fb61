"""Whole processes measured: processor time and peak memory, as the system counts them for each."""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

#: What takes longer than this (s of processor time) is run only once.
LONG = 10


@dataclass(frozen=True)
class Cost:
    """What a process took: ``cpu`` s of processor time (of all its threads; what other programs do hardly shows
    in it), ``wall`` s on the clock, ``memory`` MB at its peak, ``size`` bytes of its file. ``failed``: why there
    is none."""

    cpu: float
    wall: float
    memory: float
    size: int
    failed: str = ""


@dataclass(frozen=True)
class Asked:
    """How to measure: ``runs`` of each command, ended after ``limit`` s of processor time."""

    runs: int
    limit: int


def cost(command: Sequence[str | Path], made: Path | None, asked: Asked) -> Cost:
    """The median cost of ``command``, which writes the file ``made``."""
    costs = [_once(command, made, asked.limit)]
    if not costs[0].failed and costs[0].cpu < LONG:
        costs += [_once(command, made, asked.limit) for _ in range(asked.runs - 1)]
    return Cost(
        statistics.median(each.cpu for each in costs),
        statistics.median(each.wall for each in costs),
        statistics.median(each.memory for each in costs),
        costs[0].size,
        next((each.failed for each in costs if each.failed), ""),
    )


def python(code: str, *arguments: str | Path) -> list[str | Path]:
    """The command that runs ``code`` with this Python."""
    return [sys.executable, "-c", code, *arguments]


def _once(command: Sequence[str | Path], made: Path | None, limit: int) -> Cost:
    if made:
        made.unlink(missing_ok=True)

    def limited() -> None:
        resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 5))

    start = time.monotonic()
    process = subprocess.Popen(
        list(map(str, command)), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, preexec_fn=limited
    )
    assert process.stderr is not None
    said = process.stderr.read().decode(errors="replace").strip()
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    failed = ""
    if process.returncode or (made and not made.exists()):
        over = used.ru_utime + used.ru_stime >= limit - 1
        failed = f"over {limit} s" if over else (said.splitlines() or [f"exit code {process.returncode}"])[-1]
    return Cost(
        used.ru_utime + used.ru_stime,
        time.monotonic() - start,
        used.ru_maxrss / 1024,
        made.stat().st_size if made and made.exists() else 0,
        failed,
    )
