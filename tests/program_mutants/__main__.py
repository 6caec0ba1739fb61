"""Runs what is asked for; the exit code is 1 where less than 95 % were caught in some room."""

from __future__ import annotations

import argparse
import os
import signal
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import partial
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

_EACH = 10  # mutants of a room before the next room has its turn
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


def _rounds(wanted: argparse.Namespace) -> Iterator[tuple[str, Sequence[Mutant]]]:
    """Some mutants of each room in turn, till none are left or the time is over."""
    left = {name: drawn(ROOMS[name], None if wanted.all else wanted.mutants, wanted.seed) for name in wanted.rooms}
    began = time.monotonic()
    while any(left.values()):
        for name, some in left.items():
            if wanted.minutes and time.monotonic() - began > 60 * wanted.minutes:
                return
            if some:
                yield name, some[:_EACH]
                del some[:_EACH]


def _run(wanted: argparse.Namespace, tallies: dict[str, Tally], kept: Kept, collected: Collected) -> None:
    _COLLECTED.append(collected)
    finders: dict[str, Counter[str]] = defaultdict(Counter)
    for test in collected.recorded.failed:
        print(f"left out, since it fails or is skipped already: {test}", flush=True)
    with ProcessPoolExecutor(wanted.jobs, mp_context=get_context("fork")) as pool:
        for name, some in _rounds(wanted):
            new = [one for one in some if kept.of(one, again=wanted.again) is None]
            known = [_most(finders[one.module], finders[name]) for one in new]
            tried = dict(zip(new, pool.map(partial(_try, name, wanted.seconds), new, known), strict=True))
            for mutant in some:
                by, number = tried[mutant] if mutant in tried else kept.of(mutant) or ("", 0)
                if mutant in tried:
                    kept.keep(name, mutant, by, number)
                for of in (mutant.module, name):
                    finders[of].update([by] if "::" in by else [])
                _told(name, mutant, by, number, wanted.told)
                tallies[name].count(mutant, by, number)
            if tallies[name].total:
                print(f"{name}: so far {tallies[name]}", flush=True)


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
    asked.add_argument("--minutes", type=float, help="how long at most")
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
    with_tests(recorded(wanted.jobs), libraries, partial(_run, wanted, tallies, kept))
    libraries.close()
    for name, found in tallies.items():
        if found.total:
            print(f"{name}: {found}; no test passes through {found.unseen} of them", flush=True)
    return int(any(found.total and found.found / found.total < 0.95 for found in tallies.values()))


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    sys.exit(main())
