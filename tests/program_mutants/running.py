"""One mutant against its tests.

Most mutants lie within a function. For these all tests are collected once, and each mutant gets a process forked from
there, in which the function has other code; so a mutant costs the time of its tests and little more. What is reckoned
when a module is imported needs a program that starts anew: ``afresh``.
"""

from __future__ import annotations

import ast
import contextlib
import gc
import importlib.abc
import importlib.util
import os
import resource
import shutil
import subprocess
import sys
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from importlib.machinery import ModuleSpec
from types import CodeType, FunctionType, ModuleType

import pytest

from .changes import TOP, Mutant, file_of, mutated
from .recording import COLLECTING, IMPORTING, Recorded, caches, options, test_files

MOST_BYTES = 4 << 30  # of memory of a mutant's tests
LEAST_SECONDS = 20  # of processor time; a mutant has three times what its tests take, but not less; more is no end


# ------------------------------------------------------------------------------------------- with the code exchanged


class Collected:
    """The tests of the quick set, collected, and the functions of the package as they are now."""

    def __init__(self, items: Sequence[pytest.Item], recorded: Recorded) -> None:
        self.items = {item.nodeid: item for item in items}
        self.recorded = recorded
        self.functions: dict[tuple[str, int, str], list[FunctionType]] = defaultdict(list)
        for one in gc.get_objects():
            if isinstance(one, FunctionType):
                self.functions[_key(one.__code__)].append(one)
        self.caches = list(caches())
        gc.collect()
        gc.freeze()

    def tests(self, mutant: Mutant, first: Sequence[str], seconds: float) -> list[str]:
        """The tests that may see a change, at most so many ``seconds`` of them.

        Those that pass through the changed line come before others of their files, which may use what was made in them;
        of these, files named ``first`` before others; of a test with parameters one before another; quick ones before
        slow ones. A table that no test passes through is for all that use its module.
        """
        file = file_of(mutant.module)
        through = self.recorded.through(file, mutant.lines) - {IMPORTING, COLLECTING}
        if not through:
            through = self.recorded.through(file, range(1, 10_000))
            through |= {test for test in self.items if _file(test) in first}
        files = {_file(test) for test in through}
        others = {test for test in self.items if _file(test) in files} - through
        ordered = [*self._ordered(through, first), *self._ordered(others, first)]
        return list(self._within(ordered, seconds))

    def _ordered(self, names: set[str], first: Sequence[str]) -> list[str]:
        known, nth, took = self.recorded.seconds, dict[str, int](), defaultdict[str, int](int)
        there = sorted(names & known.keys() & self.items.keys(), key=lambda name: (known[name], name))
        for name in there:
            function = name.partition("[")[0]
            nth[name], took[function] = took[function], took[function] + 1
        return sorted(there, key=lambda name: (_file(name) not in first, nth[name], known[name], name))

    def _within(self, names: Sequence[str], seconds: float) -> Iterator[str]:
        spent = 0.0
        for name in names:
            spent += self.recorded.seconds[name]
            if spent < seconds or spent == self.recorded.seconds[name]:
                yield name

    def caught(self, mutant: Mutant, tests: Sequence[str]) -> str:
        """The first of the ``tests`` that fails with this mutant, "no end", "nothing changed" where it is compiled to
        the same, or "" where all pass."""
        tree, file = mutated(mutant), str(file_of(mutant.module))
        source = file_of(mutant.module).read_text("utf-8")
        old, new = compile(source, file, "exec"), compile(tree, file, "exec")
        pairs = [(one, other) for one, other in zip(_outer(old), _outer(new), strict=True) if one != other]
        if not pairs:
            return afresh(mutant.module, ast.unparse(tree), tests) if old != new else "nothing changed"
        held = self.functions.get(_key(pairs[0][0]), [])
        if not held or IMPORTING in self.recorded.through(file_of(mutant.module), mutant.lines):
            return afresh(mutant.module, ast.unparse(tree), tests)
        taking = sum(self.recorded.seconds.get(test, 0) for test in tests)
        return _forked(lambda: self._failing(held, pairs[0][1], tests), taking)

    def _failing(self, held: Sequence[FunctionType], code: CodeType, tests: Sequence[str]) -> str:
        for one in held:
            one.__code__ = code
        for cache in self.caches:
            cache.cache_clear()
        items = [self.items[test] for test in tests]
        watch = _Watch()
        for item, following in zip(items, [*items[1:], None], strict=True):
            item.config.pluginmanager.register(watch, "mutants")
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            item.config.pluginmanager.unregister(watch)
            if watch.failed:
                return watch.failed[0]
        return ""


def _file(test: str) -> str:
    return test.partition("::")[0].rpartition("/")[2].removeprefix("test_").removesuffix(".py")


def _key(code: CodeType) -> tuple[str, int, str]:
    return code.co_filename, code.co_firstlineno, code.co_qualname


def _outer(code: CodeType) -> Iterator[CodeType]:
    """The functions of a module that stand in no other one, in their order."""
    for one in code.co_consts:
        if isinstance(one, CodeType):
            if one.co_flags & 0x02 or one.co_flags & 0x01:  # names are local or optimized: a function
                yield one
            else:
                yield from _outer(one)


class _Watch:
    def __init__(self) -> None:
        self.failed: list[str] = []

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed.append(report.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.failed.append(report.nodeid)


def _forked(one: Callable[[], str], taking: float) -> str:
    """What ``one`` says in a process of its own with a folder for what it writes."""
    reading, writing = os.pipe()
    folder = tempfile.mkdtemp(prefix="turnchain-mutant-")
    number = os.fork()
    if number == 0:
        try:
            os.setpgid(0, 0)
            _bound(taking)
            os.environ["PYTEST_DEBUG_TEMPROOT"] = tempfile.tempdir = os.environ["TMPDIR"] = folder
            null = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(null, stream)
            os.write(writing, f"said {one()}".encode())
        except BaseException as error:
            os.write(writing, f"said {type(error).__name__}: {error}".encode()[:2000])
        finally:
            os._exit(0)
    os.close(writing)
    with open(reading, encoding="utf-8", errors="replace") as said:
        words = said.read()
    os.waitpid(number, 0)
    with contextlib.suppress(OSError):
        os.killpg(number, 9)
    shutil.rmtree(folder, ignore_errors=True)
    return words.removeprefix("said ") if words else "no end"


def _bound(taking: float) -> None:
    most = int(max(LEAST_SECONDS, 3 * taking))
    resource.setrlimit(resource.RLIMIT_CPU, (most, most + 2))
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))


def with_tests(recorded: Recorded, do: Callable[[Collected], None]) -> None:
    """Collects the tests of the quick set and calls ``do`` with them."""

    class Loop:
        @pytest.hookimpl(tryfirst=True)
        def pytest_runtestloop(self, session: pytest.Session) -> bool:
            do(Collected(session.items, recorded))
            return True

    pytest.main(["-s", "-p", "no:terminal", *options(test_files())], plugins=[Loop()])


# ------------------------------------------------------------------------------------------------- in a new program


class _Spoilt(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a changed source."""

    def __init__(self, module: str, source: str) -> None:
        self.module, self.source = module, source

    def find_spec(self, name: str, path: object = None, target: object = None) -> ModuleSpec | None:
        if name != self.module:
            return None
        file = file_of(name)
        return importlib.util.spec_from_file_location(
            name, file, loader=self, submodule_search_locations=[str(file.parent)] if file.stem == "__init__" else None
        )  # type: ignore[arg-type]

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self.source, str(file_of(self.module)), "exec"), module.__dict__)


def afresh(module: str, source: str, tests: Sequence[str], taking: float = 60) -> str:
    """What is caught of a module with this ``source`` by the ``tests`` (files or names, and options of pytest), in a
    program started anew."""
    program = "from program_mutants import running; running.spoilt()"
    words = [sys.executable, "-c", program, module, str(taking), *tests]
    with tempfile.TemporaryDirectory(prefix="turnchain-mutant-") as folder:
        env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(TOP / "tests"), os.environ.get("PYTHONPATH", "")])}
        done = subprocess.run(
            words, cwd=TOP, input=source, capture_output=True, text=True, check=False,
            env={**env, "PYTEST_DEBUG_TEMPROOT": folder, "TMPDIR": folder},
        )  # fmt: skip
    said = [line for line in done.stdout.splitlines() if line.startswith("said")]
    return said[-1].removeprefix("said").strip() if said else f"no end: {done.returncode}"


def spoilt() -> None:
    """The program that ``afresh`` starts: module, seconds and tests as arguments, the source from standard input."""
    module, taking, *tests = sys.argv[1:]
    _bound(float(taking))
    sys.meta_path.insert(0, _Spoilt(module, sys.stdin.read()))
    watch = _Watch()
    with contextlib.redirect_stdout(sys.stderr):
        code = pytest.main(["-x", "-o", "addopts=", "-m", "not slow", "-p", "no:cacheprovider", "-p", "no:xdist", "-q",
                            *tests], plugins=[watch])  # fmt: skip
    failed = watch.failed or ([] if code == 0 else [f"pytest ended with {int(code)}"])
    print(f"said {failed[0] if failed else ''}", flush=True)


def named(module: str, was: str, now: str) -> str:
    """The source of a module with one text changed; ValueError where it does not stand there just once."""
    source = file_of(module).read_text("utf-8")
    if source.count(was) != 1:
        raise ValueError(f"{module} has {source.count(was)} times: {was}")
    return source.replace(was, now)
