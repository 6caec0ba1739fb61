"""Runs what is asked for; the exit code is 1 where less than 95 % were caught in some room."""

from __future__ import annotations

import argparse
import os
import signal
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from dataclasses import dataclass, field
from math import sqrt
from multiprocessing import get_context
from pathlib import Path

from . import __doc__ as about
from .anew import Libraries
from .changes import TOP, Mutant
from .keeping import Kept
from .recording import recorded
from .running import NOTHING, Collected, with_tests
from .sampling import ROOMS, drawn, reason

_EACH = 40  # mutants before all rooms are told of
_FINDERS = 4  # tests that found most mutants of a module come first with the next ones, then those of the room


@dataclass(slots=True)
class Tally:
    """How many mutants of a room were tried and how many of them survived; ``unseen``: those no test passes through."""

    total: int = 0
    survivors: list[Mutant] = field(default_factory=list)
    unseen: int = 0

    def count(self, mutant: Mutant, by: str, number: int) -> None:
        """Counts a mutant that was caught ``by`` one of a ``number`` of tests, or by none."""
        if by == NOTHING:
            return
        self.total += 1
        self.unseen += not number
        if not by:
            self.survivors.append(mutant)

    @property
    def found(self) -> int:
        """How many were caught."""
        return self.total - len(self.survivors)

    def __str__(self) -> str:
        low, high = wilson(self.found, self.total)
        return (f"{self.found} of {self.total} caught, {self.found / self.total:.1%} "
                f"(95 % interval {low:.1%} to {high:.1%})")  # fmt: skip


def wilson(found: int, total: int) -> tuple[float, float]:
    """Wilson's 95 % interval of a share."""
    z = 1.96
    share, more = found / total, z * z / total
    middle, half = share + more / 2, z * sqrt(share * (1 - share) / total + more / (4 * total))
    return (middle - half) / (1 + more), (middle + half) / (1 + more)


def _try(name: str, seconds: float, mutant: Mutant, finders: Sequence[str]) -> tuple[str, int]:
    tests = _COLLECTED[0].tests(mutant, ROOMS[name].tests, seconds, finders)
    return (_COLLECTED[0].caught(mutant, tests) if tests else ""), len(tests)


_COLLECTED: list[Collected] = []  # of the process, inherited by those forked from it


def _in_turn(wanted: argparse.Namespace) -> Iterator[tuple[str, Mutant]]:
    """One mutant of each room in turn, till none are left or the time is over."""
    left = {name: drawn(ROOMS[name], None if wanted.all else wanted.mutants, wanted.seed) for name in wanted.rooms}
    began = time.monotonic()
    while any(left.values()):
        for name, some in left.items():
            if wanted.minutes and time.monotonic() - began > 60 * wanted.minutes:
                return
            if some:
                yield name, some.pop(0)


@dataclass(slots=True)
class _Run:
    """What was found so far: ``finders``, by room and by module how many mutants each test found."""

    wanted: argparse.Namespace
    tallies: dict[str, Tally]
    kept: Kept
    finders: dict[str, Counter[str]] = field(default_factory=lambda: defaultdict(Counter))

    def of_all(self, collected: Collected) -> None:
        """Tries all mutants that are not known, as many at a time as there are processes."""
        _COLLECTED.append(collected)
        for test in collected.recorded.failed:
            print(f"left out, since it fails or is skipped already: {test}", flush=True)
        with ProcessPoolExecutor(self.wanted.jobs, mp_context=get_context("fork")) as pool:
            running: dict[Future[tuple[str, int]], tuple[str, Mutant]] = {}
            for name, mutant in _in_turn(self.wanted):
                known = self.kept.of(mutant, again=self.wanted.again)
                if known is not None:
                    self._count(name, mutant, *known)
                    continue
                finders = _most(self.finders[mutant.module], self.finders[name])
                running[pool.submit(_try, name, self.wanted.seconds, mutant, finders)] = name, mutant
                if len(running) == self.wanted.jobs:
                    self._collect(running)
            while running:
                self._collect(running)

    def _collect(self, running: dict[Future[tuple[str, int]], tuple[str, Mutant]]) -> None:
        """Counts those of the ``running`` that are done, one at the least."""
        for one in wait(running, return_when=FIRST_COMPLETED).done:
            name, mutant = running.pop(one)
            self.kept.keep(name, mutant, *one.result())
            self._count(name, mutant, *one.result())
            if sum(tally.total for tally in self.tallies.values()) % _EACH == 0:
                _tell(self.tallies, "so far ")

    def _count(self, name: str, mutant: Mutant, by: str, number: int) -> None:
        for of in (mutant.module, name):
            self.finders[of].update([by] if "::" in by else [])
        _told(name, mutant, by, number, self.wanted.told)
        self.tallies[name].count(mutant, by, number)


def _tell(tallies: dict[str, Tally], when: str = "") -> None:
    for name, found in tallies.items():
        if found.total:
            print(f"{name}: {when}{found}; no test passes through {found.unseen} of them", flush=True)


def _most(*finders: Counter[str]) -> list[str]:
    return list(dict.fromkeys(test for of in finders for test, _ in of.most_common(_FINDERS)))


def _told(name: str, mutant: Mutant, by: str, number: int, every: bool) -> None:
    if not by:
        why = reason(mutant)
        print(f"{name}: survived {number} tests: {mutant}{f'    as listed: {why}' if why else ''}", flush=True)
    elif every:
        print(f"{name}: caught by {by}: {mutant}", flush=True)


def main() -> int:
    """Runs what is asked for."""
    asked = argparse.ArgumentParser(
        prog="python -m tests.program_mutants", description=(about or "").partition("\n")[0]
    )
    asked.add_argument("--rooms", nargs="+", choices=list(ROOMS), default=list(ROOMS))
    asked.add_argument("--mutants", type=int, default=300, help="of each room")
    asked.add_argument("--all", action="store_true", help="every mutant there is")
    asked.add_argument("--minutes", type=float, help="how long at most new ones are begun")
    asked.add_argument("--seconds", type=float, default=10, help="of tests for one mutant at most, by a run without it")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--keep", type=Path, help="a file for what was found: what stands in it is not tried again")
    asked.add_argument("--again", action="store_true", help="but try again what survived")
    asked.add_argument("--told", action="store_true", help="tell of each mutant what caught it")
    wanted = asked.parse_args()
    sys.path.insert(0, str(TOP / "tests"))
    kept = Kept(wanted.keep and wanted.keep.resolve())
    os.chdir(TOP)
    libraries = Libraries()
    tallies = {name: Tally() for name in wanted.rooms}
    with_tests(recorded(wanted.jobs), libraries, _Run(wanted, tallies, kept).of_all)
    libraries.close()
    _tell(tallies)
    return int(any(found.total and found.found / found.total < 0.95 for found in tallies.values()))


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    sys.exit(main())
