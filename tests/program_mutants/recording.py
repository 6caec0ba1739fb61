"""Which lines of the program each test of the quick set passes through, and how long it takes.

A plugin of pytest, which the tool starts in processes of their own, some of the test files in each. What tests of a
file make once for all of them counts for the first of them. Kept in the folder for temporary files, a file for each
with tests, under a digest of these, of the sources and of what tests share, so that it is made once.
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
from .marking import Marked
from .processes import OPTIONS
from .sampling import GALLERY, KEPT, RANDOM_FILES, ROOMS, SEVERAL_ROOMS, modules

#: In seconds of processor time, a test that takes longer is cut off, and once all
#: cases of a test have taken longer, its further cases are left out, of random files later; of very many cases only so
#: many are taken. Kept results are recorded all.
MOST_SECONDS, MOST_OF_CASES, MOST_OF_FILES, MOST_CASES = 2, 0.8, 20, 60
_FILE = "TURNCHAIN_RECORDED"
_OF_FILES = {f"test_{name}" for name in (*RANDOM_FILES, *GALLERY)}
_ALL = {f"test_{name}" for name in KEPT}
_SHARED = ("nightly", "end_to_end", "random_files", "kept_results.results")
#: What is passed through when the modules are imported.
IMPORTING = "importing"


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
    """The files with the tests that are recorded and run: those that know a room, or several."""
    of_rooms = {name for room in ROOMS.values() for name in room.tests}
    known = of_rooms.union(SEVERAL_ROOMS, RANDOM_FILES, KEPT, GALLERY)
    return [TOP / "tests" / f"test_{name}.py" for name in sorted(known)]


def options(files: Sequence[Path]) -> list[str]:
    """The options of pytest for the quick tests in these files."""
    return [*OPTIONS, *map(str, files)]


def recorded(jobs: int = 2) -> Recorded:
    """What is recorded of today's sources and tests; by so many processes where it is not yet."""
    digest, files = _digest(), test_files()
    kept = {file: _kept(file, digest) for file in files}
    missing = [file for file in files if not kept[file].exists()]
    if missing:
        print(f"recording which lines the tests of {len(missing)} files pass through ...", flush=True)
        _record(missing, digest, jobs)
    seconds, failed = dict[str, float](), list[str]()
    lines: dict[str, dict[int, list[str]]] = defaultdict(lambda: defaultdict(list))
    for file in files:
        made = json.loads(kept[file].read_text("utf-8"))
        seconds |= made["seconds"]
        failed += made["failed"]
        for source, of in made["lines"].items():
            for line, some in of.items():
                lines[source][int(line)] += [made["tests"][nth] for nth in some]
    return Recorded({name: took for name, took in seconds.items() if name not in failed}, failed, lines)


def _kept(file: Path, digest: str) -> Path:
    """Where it is kept what the tests of a file pass through, of sources and helpers with this digest."""
    alone = [one.read_bytes() for one in sorted(file.with_name(file.stem.removeprefix("test_")).glob("*.*"))]
    own = hashlib.sha256(digest.encode() + file.read_bytes() + b"".join(alone)).hexdigest()[:16]
    return Path(tempfile.gettempdir()) / "turnchain-recorded" / f"{file.stem}-{own}.json"


def _record(files: Sequence[Path], digest: str, jobs: int) -> None:
    paths = os.pathsep.join([str(TOP / "tests"), os.environ.get("PYTHONPATH", "")])
    head = [sys.executable, "-m", "pytest", "-p", "program_mutants.recording", "-q", "--tb=native"]
    running = [
        subprocess.Popen(
            [*head, *options(files[nth::jobs])], cwd=TOP, start_new_session=True,
            env={**os.environ, _FILE: digest, "PYTHONPATH": paths}, stdout=subprocess.DEVNULL,
        )
        for nth in range(min(jobs, len(files)))
    ]  # fmt: skip
    for one in running:
        one.wait()


def _digest() -> str:
    """Of the sources and of what the tests share."""
    found = hashlib.sha256()
    for folder in (SOURCE, TOP / "tests"):
        for file in sorted(folder.rglob("*.py")):
            if not file.name.startswith("test_") and file.parent.name not in (Path(__file__).parent.name, *KEPT):
                found.update(str(file.relative_to(TOP)).encode() + file.read_bytes())
    return found.hexdigest()


# --------------------------------------------------------------------------------------------- the plugin of pytest


class _Recorder:
    def __init__(self, digest: str) -> None:
        self.digest, self.seconds, self.failed, self.file = digest, dict[str, float](), set[str](), ""
        self.began, self.taken = 0.0, defaultdict[str, float](float)
        self.passed: dict[str, dict[str, list[int]]] = {}  # by test, the lines of each file
        self.marked = Marked({name for room in ROOMS.values() for name in modules(room)})
        sys.meta_path.insert(0, self.marked)
        import turnchain
        from turnchain.making import parallel

        for module in pkgutil.walk_packages(turnchain.__path__, "turnchain."):
            if not module.name.endswith("__main__"):
                importlib.import_module(module.name)
        parallel.alone()  # what a child process passes through is not recorded
        for name, lines in self.marked.taken().items():  # of functions that are called while modules are imported
            self.marked.importing[name] += lines

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        cases: dict[str, list[pytest.Item]] = defaultdict(list)
        for item in items:
            cases[item.nodeid.partition("[")[0]].append(item)
        items[:] = [one for some in cases.values() for one in some[:: _step(some)]]

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
        most = MOST_OF_FILES if item.path.stem in _OF_FILES else MOST_OF_CASES
        if item.path.stem in _ALL or self.taken[item.nodeid.partition("[")[0]] <= most:
            return None
        item.session._setupstate.teardown_exact(nextitem)
        return True

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self) -> Iterator[None]:
        with bounded(MOST_SECONDS):
            return (yield)  # type: ignore[return-value]

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        if self.file != (file := nodeid.partition("::")[0]):
            self._keep()
            self.file = file
            for cache in caches():
                cache.cache_clear()
        self.marked.taken()
        self.began = time.process_time()

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        self.seconds[nodeid] = time.process_time() - self.began
        self.passed[nodeid] = self.marked.taken()
        self.taken[nodeid.partition("[")[0]] += self.seconds[nodeid]

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if not report.passed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        self._keep()

    def _keep(self) -> None:
        """Keeps what is known of the file whose tests have run."""
        if not self.file:
            return
        own = f"{self.file}::"
        seconds = {name: took for name, took in self.seconds.items() if name.startswith(own)}
        names = [IMPORTING, *sorted(seconds)]
        lines: dict[str, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
        for nth, name in enumerate(names):
            passed = self.marked.importing if name == IMPORTING else self.passed[name]
            for source, some in passed.items():
                for line in some:
                    lines[source][line].append(nth)
        failed = sorted(name for name in self.failed if name.startswith(own))
        kept = _kept(TOP / self.file, self.digest)
        kept.parent.mkdir(exist_ok=True)
        half = kept.with_suffix(f".{os.getpid()}")
        half.write_text(json.dumps({"tests": names, "seconds": seconds, "failed": failed, "lines": lines}), "utf-8")
        half.replace(kept)


def _step(cases: Sequence[pytest.Item]) -> int:
    return 1 if cases[0].path.stem in _ALL else -(-len(cases) // MOST_CASES)


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
                module.startswith(("turnchain.", "test_")) or module in _SHARED
            ):
                yield one


_RECORDER = _Recorder(os.environ[_FILE]) if _FILE in os.environ else None  # before anything of the package is imported


def pytest_configure(config: pytest.Config) -> None:
    """Called by pytest."""
    if _RECORDER:
        config.pluginmanager.register(_RECORDER)
