"""Which lines of the program each test of the quick set passes through, and how long it takes.

A plugin of pytest, which the tool starts in processes of their own, some of the test files in each. What tests of a
file make once for all of them counts for the first of them. Kept in the folder for temporary files under a digest of
the sources and tests, so that it is made once.
"""

from __future__ import annotations

import contextlib
import functools
import gc
import hashlib
import importlib
import json
import os
import pkgutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from .changes import SOURCE, TOP
from .processes import OPTIONS
from .sampling import ROOMS

#: In seconds of processor time, recorded, which takes twice as long: a test that takes longer is cut off, and once all
#: cases of a test have taken longer, its further cases are left out; of very many cases only so many are taken.
MOST_SECONDS, MOST_OF_CASES, MOST_CASES = 20, 6, 60
_FILE = "TURNCHAIN_RECORDED"
#: What is passed through when the modules are imported, and when tests are collected.
IMPORTING, COLLECTING = "importing", "collecting"


@dataclass(frozen=True, slots=True)
class Recorded:
    """``seconds`` of every test that passes, by its name; ``failed`` ones; by file under the package and line, the
    tests that pass through it."""

    seconds: dict[str, float]
    failed: list[str]
    lines: dict[str, dict[int, list[str]]]

    def through(self, file: Path, lines: range) -> set[str]:
        """The tests that pass through one of these lines; among them ``IMPORTING``."""
        known = self.lines.get(str(file.relative_to(SOURCE)), {})
        return {test for line in lines for test in known.get(line, ())}


def test_files() -> list[Path]:
    """The files with the tests that are recorded and run: those that know a room."""
    known = sorted({name for room in ROOMS.values() for name in room.tests})
    return [TOP / "tests" / f"test_{name}.py" for name in known]


def options(files: Sequence[Path]) -> list[str]:
    """The options of pytest for the quick tests in these files."""
    return [*OPTIONS, *map(str, files)]


def recorded(jobs: int = 2) -> Recorded:
    """What is recorded of today's sources and tests; by so many processes where it is not yet."""
    kept = Path(tempfile.gettempdir()) / f"turnchain-recorded-{_digest()}.json"
    if not kept.exists():
        print("recording which tests pass through which lines ...", flush=True)
        _record(kept, jobs)
    made = json.loads(kept.read_text("utf-8"))
    names: list[str] = made["tests"]
    lines = {
        file: {int(line): [names[nth] for nth in some] for line, some in of.items()}
        for file, of in made["lines"].items()
    }
    failed = set(made["failed"])
    return Recorded({name: made["seconds"][name] for name in names if name not in failed}, made["failed"], lines)


def _record(kept: Path, jobs: int) -> None:
    parts = [kept.with_suffix(f".part{nth}") for nth in range(jobs)]
    paths = os.pathsep.join([str(TOP / "tests"), os.environ.get("PYTHONPATH", "")])
    head = [sys.executable, "-m", "pytest", "-p", "program_mutants.recording", "-q", "--tb=native"]
    running = [
        subprocess.Popen(
            [*head, *options(test_files()[nth::jobs])], cwd=TOP, start_new_session=True,
            env={**os.environ, _FILE: str(part), "PYTHONPATH": paths}, stdout=subprocess.DEVNULL,
        )
        for nth, part in enumerate(parts)
    ]  # fmt: skip
    for one in running:
        one.wait()
    made: dict[str, Any] = {"tests": [], "seconds": {}, "failed": [], "lines": {}}
    for part in parts:
        found, first = json.loads(part.read_text("utf-8")), len(made["tests"])
        made["tests"] += found["tests"]
        made["seconds"] |= found["seconds"]
        made["failed"] += found["failed"]
        for file, lines in found["lines"].items():
            known = made["lines"].setdefault(file, {})
            for line, some in lines.items():
                known[line] = [*known.get(line, []), *(first + nth for nth in some)]
        part.unlink()
    kept.write_text(json.dumps(made), "utf-8")


def _digest() -> str:
    found = hashlib.sha256()
    for folder in (SOURCE, TOP / "tests"):
        for file in sorted(folder.rglob("*.py")):
            found.update(str(file.relative_to(TOP)).encode() + file.read_bytes())
    return found.hexdigest()[:16]


# --------------------------------------------------------------------------------------------- the plugin of pytest


def _changed() -> list[str]:
    """The files that are changed: only they are recorded, which saves half of the time."""
    return [str(SOURCE / pattern) for room in ROOMS.values() for pattern in room.modules]


class _Recorder:
    def __init__(self, file: Path) -> None:
        from coverage import Coverage

        self.file, self.seconds, self.failed = file, dict[str, float](), set[str]()
        self.began, self.taken = 0.0, defaultdict[str, float](float)
        self.cover = Coverage(data_file=None, config_file=False, include=_changed())
        self.cover.start()
        self.cover.switch_context(IMPORTING)
        import turnchain

        for module in pkgutil.walk_packages(turnchain.__path__, "turnchain."):
            if not module.name.endswith("__main__"):
                importlib.import_module(module.name)
        self.cover.switch_context(COLLECTING)

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        cases: dict[str, list[pytest.Item]] = defaultdict(list)
        for item in items:
            cases[item.nodeid.partition("[")[0]].append(item)
        items[:] = [one for some in cases.values() for one in some[:: -(-len(some) // MOST_CASES)]]

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
        if self.taken[item.nodeid.partition("[")[0]] <= MOST_OF_CASES:
            return None
        item.session._setupstate.teardown_exact(nextitem)
        return True

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self) -> Iterator[None]:
        with bounded(MOST_SECONDS):
            return (yield)  # type: ignore[return-value]

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.cover.switch_context(nodeid)
        self.began = time.process_time()

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        self.seconds[nodeid] = time.process_time() - self.began
        self.taken[nodeid.partition("[")[0]] += self.seconds[nodeid]

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if not report.passed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        self.cover.stop()
        names = [IMPORTING, COLLECTING, *sorted(self.seconds)]
        places, data = {name: nth for nth, name in enumerate(names)}, self.cover.get_data()
        lines = {
            str(Path(file).relative_to(SOURCE)): {
                line: sorted(places[one] for one in some if one in places)
                for line, some in data.contexts_by_lineno(file).items()
            }
            for file in data.measured_files()
        }
        seconds = {IMPORTING: 0.0, COLLECTING: 0.0, **self.seconds}
        made = {"tests": names, "seconds": seconds, "failed": sorted(self.failed), "lines": lines}
        half = self.file.with_suffix(f".{os.getpid()}")
        half.write_text(json.dumps(made), "utf-8")
        half.replace(self.file)


@contextlib.contextmanager
def bounded(seconds: float) -> Iterator[None]:
    """Raises TimeoutError after so much processor time."""

    def over(*_: object) -> None:
        raise TimeoutError

    signal.signal(signal.SIGPROF, over)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)


def caches() -> Iterator[Any]:
    """What ``cache`` keeps of the tests and of the rooms that are changed."""
    for one in gc.get_objects():
        if isinstance(one, functools._lru_cache_wrapper):
            module = one.__module__ or ""
            if not module.startswith(("turnchain.raster", "turnchain.lettering", "turnchain.writers")) and (
                module.startswith(("turnchain.", "test_")) or module in ("nightly", "end_to_end", "random_files")
            ):
                yield one


def pytest_configure(config: pytest.Config) -> None:
    """Called by pytest."""
    if _FILE in os.environ:
        config.pluginmanager.register(_Recorder(Path(os.environ[_FILE])))
