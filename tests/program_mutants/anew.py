"""Mutants of what is reckoned when a module is imported: in a program started anew, or in a process forked from one in
which nothing of the package is loaded yet, only the libraries."""

from __future__ import annotations

import contextlib
import importlib
import importlib.abc
import importlib.util
import os
import pickle
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from functools import partial
from importlib.machinery import ModuleSpec
from types import ModuleType

import pytest

from .changes import TOP, file_of
from .processes import LEAST_SECONDS, OPTIONS, Watch, bound, forked

_LIBRARIES = ("numpy", "PIL.Image", "click", "tomlkit", "fontTools.ttLib", "isal.isal_zlib", "pydyf", "svgwrite",
              "coloraide", "lxml.etree", "cairosvg", "pypdf", "jsonschema", "html5lib", "markdown_it")  # fmt: skip


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


def _failing(module: str, source: str, tests: Sequence[str]) -> str:
    """The first of the tests that fails in this process with this source, or ""."""
    sys.meta_path.insert(0, _Spoilt(module, source))
    watch = Watch()
    code = pytest.main(["-x", "-q", *OPTIONS, *tests], plugins=[watch])
    return watch.failed or ("" if code == 0 else f"pytest ended with {int(code)}")


def afresh(module: str, source: str, tests: Sequence[str], taking: float = 60) -> str:
    """What is caught of a module with this ``source`` by the ``tests`` (files or names, and options of pytest), in a
    program started anew; "" where all pass."""
    words = [sys.executable, "-c", "from program_mutants import anew; anew.spoilt()", module, str(taking), *tests]
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
    bound(float(taking))
    source = sys.stdin.read()
    with contextlib.redirect_stdout(sys.stderr):
        failed = _failing(module, source, tests)
    print(f"said {failed}", flush=True)


class Libraries:
    """A process in which the libraries are loaded and nothing of the package; it forks one for each mutant asked of it.
    To be made before anything of the package is imported."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="turnchain-libraries-")
        self._path = os.path.join(self._folder.name, "asked")
        listening = socket.socket(socket.AF_UNIX)
        listening.bind(self._path)
        listening.listen(64)
        self._number = os.fork()
        if self._number == 0:
            _serve(listening)
        listening.close()

    def caught(self, module: str, source: str, tests: Sequence[str], taking: float) -> str:
        """As ``afresh``, which is asked where no answer comes."""
        with socket.socket(socket.AF_UNIX) as asked:
            asked.connect(self._path)
            asked.sendall(pickle.dumps((module, source, list(tests), taking)))
            asked.shutdown(socket.SHUT_WR)
            with asked.makefile("rb") as said:
                answer = said.read().decode()
        if answer.startswith("said"):
            return answer.removeprefix("said").strip()
        return afresh(module, source, tests, max(LEAST_SECONDS, 3 * taking))

    def close(self) -> None:
        """Ends the process."""
        os.kill(self._number, signal.SIGTERM)
        os.waitpid(self._number, 0)
        self._folder.cleanup()


def _serve(listening: socket.socket) -> None:
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    for name in _LIBRARIES:
        with contextlib.suppress(ImportError, OSError):
            importlib.import_module(name)
    while True:
        asked, _ = listening.accept()
        _reap()
        if os.fork() == 0:
            with asked, asked.makefile("rb") as words:
                _, answer = forked(partial(_bounded, *pickle.load(words)))
                asked.sendall(f"said {'no end' if answer is None else answer}".encode())
            os._exit(0)
        asked.close()


def _bounded(module: str, source: str, tests: Sequence[str], taking: float, _: object) -> str:
    bound(max(LEAST_SECONDS, 3 * taking))
    return _failing(module, source, tests)


def _reap() -> None:
    with contextlib.suppress(ChildProcessError):
        while os.waitpid(-1, os.WNOHANG)[0]:
            pass


def named(module: str, was: str, now: str) -> str:
    """The source of a module with one text changed; ValueError where it does not stand there just once."""
    source = file_of(module).read_text("utf-8")
    if source.count(was) != 1:
        raise ValueError(f"{module} has {source.count(was)} times: {was}")
    return source.replace(was, now)
