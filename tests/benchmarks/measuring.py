"""Whole processes measured: processor time and peak memory, as the system counts them for each.

In: commands that do the same job. Out: what each took, run in turn, so that a machine that grows slower grows
slower for all of them.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

#: What takes longer than this (s of processor time) is run only once.
LONG = 10

Command = Sequence[str | Path]


@dataclass
class Cost:
    """What a command took, run by run: ``cpu`` s of processor time (user and system, of all its threads), ``wall`` s on
    the clock, ``memory`` MB at its peak; ``size`` bytes of its file. ``failed``: why there is none."""

    cpu: list[float] = field(default_factory=list)
    wall: list[float] = field(default_factory=list)
    memory: list[float] = field(default_factory=list)
    size: int = 0
    failed: str = ""

    def data(self) -> dict[str, Any]:
        """As it is kept: minimum, median and maximum, and how many runs there were."""
        if self.failed:
            return {"failed": self.failed}
        found: dict[str, Any] = {"runs": len(self.cpu), "size": self.size}
        for name, values in (("cpu", self.cpu), ("wall", self.wall), ("memory", self.memory)):
            found[name] = [round(value, 4) for value in (min(values), statistics.median(values), max(values))]
        return found


def in_turn(commands: Mapping[str, tuple[Command, Path | None]], runs: int, limit: int) -> dict[str, Cost]:
    """What each of ``commands`` takes, which writes a file or none: A B C, A B C ..., so many ``runs``; one that takes
    longer than ``LONG`` once, and one that takes longer than ``limit`` s of processor time is ended."""
    costs = {name: Cost() for name in commands}
    for _ in range(runs):
        for name, (command, made) in commands.items():
            cost = costs[name]
            if not cost.failed and not (cost.cpu and cost.cpu[0] > LONG):
                _once(cost, command, made, limit)
    return costs


def python(code: str, *arguments: str | Path) -> list[str | Path]:
    """The command that runs ``code`` with this Python."""
    return [sys.executable, "-c", code, *arguments]


def _once(cost: Cost, command: Command, made: Path | None, limit: int) -> None:
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
    cpu = used.ru_utime + used.ru_stime
    if process.returncode or (made and not made.exists()):
        over = cpu >= limit - 1
        words = (said.splitlines() or [f"exit code {process.returncode}"])[-1]
        cost.failed = f"over {limit} s" if over else words[:120]
        return
    cost.cpu.append(cpu)
    cost.wall.append(time.monotonic() - start)
    cost.memory.append(used.ru_maxrss / 1024)
    cost.size = made.stat().st_size if made else 0
