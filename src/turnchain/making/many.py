"""Many patterns at once, each into a folder of its own: one process to a core.

In: pattern files, or folders of them. Out: what was made of each, or why it could not be, in the order given. A pattern
that fails stops no other. Where the system cannot fork a process they are made one after the other.
"""

from __future__ import annotations

import gc
import json
import os
import signal
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import IO, Final, NamedTuple, TypeAlias

from turnchain import terminal
from turnchain.errors import MakerError
from turnchain.making import parallel
from turnchain.making.record import MadeFolder

Make: TypeAlias = Callable[[Path, Path], MadeFolder]
Watch: TypeAlias = Callable[[str, int, int], None]
PATTERNS: Final = "*.toml"


class Outcome(NamedTuple):
    """What became of the pattern file ``source``: what was ``made``; where that is None, the ``problem``, in words."""

    source: Path
    made: MadeFolder | None
    problem: str = ""


def pattern_files(given: Iterable[Path]) -> list[Path]:
    """The pattern files that are meant, each once: of a folder all that end in .toml, by name. MakerError for a folder
    without any, and where two would be made in one folder."""
    found: list[Path] = []
    for path in given:
        inside = sorted(path.glob(PATTERNS)) if path.is_dir() else [path]
        if not inside:
            raise MakerError(f"{path}: there is no pattern in this folder (no file that ends in .toml)")
        found += [file for file in inside if file not in found]
    seen: dict[str, Path] = {}
    for file in found:
        other = seen.setdefault(file.stem.casefold(), file)
        if other is not file:
            raise MakerError(f'{file}: {other} would be made in the folder "{file.stem}" too; rename one of them')
    return found


def make_many(sources: Sequence[Path], folder: Path, make: Make, watch: Watch) -> Iterator[Outcome]:
    """Makes each of ``sources`` by ``make(source, own folder)``, in a folder of its own name in ``folder``, and yields
    outcomes in the order given; any exception of ``make`` is the problem of its outcome. ``watch`` is called with a
    name, how many are done and how many there are. Ending the iteration early stops the processes that still run."""
    wanted = [(source, folder / source.stem) for source in sources]
    if sys.platform != "linux" or len(wanted) < 2:
        for number, (source, own) in enumerate(wanted):
            watch(source.name, number, len(wanted))
            yield _outcome(source, own, make)
        return
    import_module("turnchain.making.every_size")  # once, before there are processes
    from turnchain.making.made_of import program  # as above
    from turnchain.making.putting import load  # as above

    load()
    program()
    runs = _Runs(wanted, make, watch)
    try:
        for number in range(len(wanted)):
            yield runs.outcome(number)
    finally:
        runs.end()


def _outcome(source: Path, folder: Path, make: Make) -> Outcome:
    try:
        return Outcome(source, make(source, folder))
    except MakerError as error:
        return Outcome(source, None, str(error))
    except (OSError, MemoryError) as error:
        return Outcome(source, None, f"{source}: could not finish: {error}")
    except Exception as error:
        return Outcome(source, None, f"{source}: a fault in turnchain itself ({type(error).__name__}: {error})")


class _Runs:
    """One child process for each pattern, as many at a time as there are cores."""

    def __init__(self, wanted: Sequence[tuple[Path, Path]], make: Make, watch: Watch) -> None:
        self._wanted, self._make, self._watch = wanted, make, watch
        self._children: dict[int, tuple[int, IO[bytes]]] = {}
        self._outcomes: dict[int, Outcome] = {}
        self._begun = 0

    def outcome(self, number: int) -> Outcome:
        """What became of that pattern; waits for it."""
        while number not in self._outcomes:
            while self._begun < len(self._wanted) and len(self._children) < parallel.cores():
                self._begin(self._begun)
                self._begun += 1
            source = self._wanted[min(self._begun, len(self._wanted)) - 1][0]
            self._watch(source.name, len(self._outcomes), len(self._wanted))
            self._hear()
        return self._outcomes[number]

    def _begin(self, number: int) -> None:
        told = tempfile.TemporaryFile()  # noqa: SIM115 -- closed when it was read
        before = signal.pthread_sigmask(signal.SIG_BLOCK, parallel.STOPS)
        gc.freeze()  # so that memory stays shared: the child's collector leaves alone what there is by now
        try:
            child = os.fork()
            if child == 0:
                self._work(number, told, before)
            self._children[child] = number, told
        finally:
            signal.pthread_sigmask(signal.SIG_SETMASK, before)

    def _work(self, number: int, told: IO[bytes], mask: Iterable[int]) -> None:
        """All that a child process does. The signals that stop its parent stop it too, and it removes what it began."""
        try:
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)
            parallel.alone()  # the other cores make the other patterns
            terminal.quiet()
            outcome = _outcome(*self._wanted[number], self._make)
            made = outcome.made and [[str(one) for one in some] for some in outcome.made]
            told.write(json.dumps([made, outcome.problem]).encode("utf-8", "surrogateescape"))
            told.flush()
        finally:
            os._exit(0)

    def _hear(self) -> None:
        """Waits until a child process has ended, and reads what it wrote."""
        child, _ = os.wait()
        if child not in self._children:
            return
        number, told = self._children.pop(child)
        source = self._wanted[number][0]
        with told:
            told.seek(0)
            data = told.read().decode("utf-8", "surrogateescape")
        if not data:
            problem = f"{source}: the system ended this run, as where memory is short; nothing was written"
            self._outcomes[number] = Outcome(source, None, problem)
            return
        made, problem = json.loads(data)
        self._outcomes[number] = Outcome(source, _folder(*made) if made else None, problem)

    def end(self) -> None:
        """Stops the child processes that still run, and waits until they have removed what they began."""
        for child in self._children:
            with suppress(ProcessLookupError):
                os.kill(child, signal.SIGTERM)
        for child, (_, told) in self._children.items():
            with suppress(ChildProcessError):
                os.waitpid(child, 0)
            told.close()
        gc.unfreeze()


def _folder(written: list[str], removed: list[str], left: list[str], told: list[str]) -> MadeFolder:
    paths = [[Path(path) for path in some] for some in (written, removed, left)]
    return MadeFolder(paths[0], paths[1], paths[2], tuple(told))
