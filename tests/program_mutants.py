"""Mutants of the program: its own code changed in one place at a time, and whether the tests of the room see it.

In: rooms, how many mutants of each, a seed. Out: for each room caught / total with a 95 % interval, and every survivor
with its place and its line. From the top of the repository::

    python -m tests.program_mutants                                  300 mutants of every room
    python -m tests.program_mutants --rooms units sizes --mutants 60 --seed 5 --jobs 2
    python -m tests.program_mutants --all                            every mutant there is

A mutant turns round a comparison, a sum, a condition or a pair of words such as left and right, moves a whole number by
one, or takes the larger for the smaller. Sites are drawn evenly over the modules of a room. Each mutant runs in a
process of its own that stops at the first test that fails; one that does not come to an end is caught. Files are not
touched. Tests that fail already are left out, and said. Tests that start the program anew do not see a mutant, so they
are no help here. Wilson's interval is the usual one for a share (E. B. Wilson, 1927).
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import copy
import importlib.abc
import importlib.util
import io
import os
import resource
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from importlib.machinery import ModuleSpec
from math import sqrt
from pathlib import Path
from random import Random
from types import ModuleType

TOP = Path(__file__).parent.parent
SOURCE = TOP / "src" / "turnchain"
SECONDS = 300  # processor time of a mutant's tests; more is no end


@dataclass(frozen=True, slots=True)
class Room:
    """The ``modules`` that are changed (patterns of files under the package) and the ``tests`` that know them."""

    modules: tuple[str, ...]
    tests: tuple[str, ...]


_EVERYTHING = ("figures", "gallery")
ROOMS = {
    "planning": Room(("planning/*.py",), (
        "planning", "necks", "shapes", "fitting", "progress", "escaped", *_EVERYTHING)),
    "fabric": Room(("fabric/*.py",), (
        "lattice", "stitches", "grid", "planning", "escaped", "proof", *_EVERYTHING)),
    "garment": Room(("garment/*.py",), (
        "edges", "wearing", "schematic", "finishing", "cautions", "booklet", "escaped", *_EVERYTHING)),
    "yarns": Room(("yarns/*.py", "yarns/stash/*.py"), (
        "yarn", "stripes", "carrying", "stash", "colour_checks", "contact", "escaped", *_EVERYTHING)),
    "wording": Room(("wording/*.py", "wording/instructions/*.py", "wording/languages/*.py"), (
        "instructions", "words", "detail", "escaped", "proof", *_EVERYTHING)),
    "units": Room(("units.py", "numbers.py"), ("numbers", "escaped", "units", "figures", "reading", "gallery")),
    "sizes": Room(("sizes.py", "garment/body.py"), ("sizes", "reading_wearer", "wearing", "escaped", *_EVERYTHING)),
    "drawing": Room(("drawing/brackets.py", "drawing/folds.py", "drawing/key.py", "drawing/margins.py",
                     "drawing/detail.py", "drawing/placement.py", "drawing/schematic.py", "drawing/to_scale.py"), (
        "chart", "short", "detail", "stitch_by_stitch", "looks", "schematic", "clearance", "preview", "posting",
        "escaped", *_EVERYTHING)),
}  # fmt: skip


# ---------------------------------------------------------------------------------------------------- what is changed

_COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
_RECKONED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.FloorDiv, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
}  # fmt: skip
_PAIRS = (
    ("left", "right"), ("flush", "spaced"), ("start", "end"), ("few", "many"), ("first", "last"), ("upper", "lower"),
    ("step_in", "step_out"), ("decrease", "increase"), ("forced_decrease", "forced_increase"), ("cm", "in"),
    ("width", "length"), ("low", "high"), ("sideways", "upwards"), ("open", "closed"), ("less", "more"),
)  # fmt: skip
_WORDS = {**dict(_PAIRS), **{other: one for one, other in _PAIRS}}
_NAMES = {"min": "max", "max": "min", "all": "any", "any": "all", "ceil": "floor", "floor": "ceil", "left": "right",
          "right": "left", "starts": "ends", "ends": "starts"}  # fmt: skip


def _changes(node: ast.AST) -> Iterator[ast.AST]:
    """The changes of one node, each a node to stand in its place."""
    match node:
        case ast.Compare(ops=[op]) if type(op) in _COMPARED:
            yield _with(node, ops=[_COMPARED[type(op)]()])
        case ast.BinOp(op=op) if type(op) in _RECKONED and not _is_text(node):
            yield _with(node, op=_RECKONED[type(op)]())
        case ast.BoolOp(op=op):
            yield _with(node, op=ast.Or() if isinstance(op, ast.And) else ast.And())
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield operand
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield _with(node, test=test, body=orelse, orelse=body)
        case ast.If(test=test):
            yield _with(node, test=ast.UnaryOp(ast.Not(), test))
        case ast.Constant(value=bool(value)):
            yield _with(node, value=not value)
        case ast.Constant(value=int(value)):
            yield _with(node, value=value + 1)
        case ast.Constant(value=str(value)) if value in _WORDS:
            yield _with(node, value=_WORDS[value])
        case ast.Name(id=name) if name in ("min", "max", "all", "any", "ceil", "floor"):
            yield _with(node, id=_NAMES[name])
        case ast.Attribute(attr=name) if name in ("left", "right", "starts", "ends"):
            yield _with(node, attr=_NAMES[name])


def _with(node: ast.AST, **fields: object) -> ast.AST:
    changed = copy.copy(node)
    for name, value in fields.items():
        setattr(changed, name, value)
    return changed


def _is_text(node: ast.BinOp) -> bool:
    """Whether a sum is one of texts or a list, where another sign is an error at once."""
    return any(isinstance(side, ast.JoinedStr | ast.List | ast.Tuple) or isinstance(getattr(side, "value", None), str)
               for side in (node.left, node.right))


@dataclass(frozen=True, slots=True)
class Mutant:
    """The ``nth`` change of a module: its dotted name, line, and what stands there before and after."""

    module: str
    nth: int
    line: int
    was: str
    now: str

    def __str__(self) -> str:
        return f"{self.module}:{self.line}: {self.was}  ->  {self.now}"


def mutants(module: str) -> list[Mutant]:
    """Every change of a module that there is."""
    tree = ast.parse(_file(module).read_text("utf-8"))
    return [
        Mutant(module, nth, getattr(node, "lineno", 0), *(_short(one) for one in (node, changed)))
        for nth, (_, _, node, changed) in enumerate(_sites(tree))
    ]


def _short(node: ast.AST) -> str:
    words = ast.unparse(ast.fix_missing_locations(copy.deepcopy(node))).split("\n")[0]
    return words if len(words) < 90 else f"{words[:87]}..."


Site = tuple[ast.AST, Callable[[ast.AST], None], ast.AST, ast.AST]


def _sites(tree: ast.AST) -> Iterator[Site]:
    """Every change: the parent, how to put a node in this place, the node there, and the one to be."""
    for parent in ast.walk(tree):
        for name, value in ast.iter_fields(parent):
            if name in ("annotation", "returns", "type_params") or _is_doc(parent, name):
                continue
            for place, node in _places(parent, name, value):
                for changed in _changes(node):
                    yield parent, place, node, changed


def _is_doc(parent: ast.AST, name: str) -> bool:
    """A text that stands for itself: a docstring."""
    return isinstance(parent, ast.Expr) and isinstance(parent.value, ast.Constant)


def _places(parent: ast.AST, name: str, value: object) -> Iterator[tuple[Callable[[ast.AST], None], ast.AST]]:
    if isinstance(value, ast.AST):
        yield (lambda node: setattr(parent, name, node)), value
    elif isinstance(value, list):
        for index, one in enumerate(value):
            if isinstance(one, ast.AST):
                yield (lambda node, index=index: value.__setitem__(index, node)), one  # type: ignore[misc]


def mutated(source: str, nth: int) -> ast.AST:
    """The tree of ``source`` with its ``nth`` change."""
    tree = ast.parse(source)
    for number, (_, place, node, changed) in enumerate(_sites(tree)):
        if number == nth:
            place(ast.copy_location(changed, node))
            return ast.fix_missing_locations(tree)
    raise IndexError(nth)


def _file(module: str) -> Path:
    path = SOURCE.joinpath(*module.split(".")[1:])
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def _name(file: Path) -> str:
    parts = file.relative_to(SOURCE).with_suffix("").parts
    return ".".join(("turnchain", *(part for part in parts if part != "__init__")))


def drawn(room: Room, number: int | None, seed: int) -> list[Mutant]:
    """So many mutants of a room (None: all), its modules in turn."""
    rng = Random(seed)
    found = [mutants(_name(file)) for pattern in room.modules for file in sorted(SOURCE.glob(pattern))]
    for some in found:
        rng.shuffle(some)
    taken = [one for nth in range(max(map(len, found), default=0)) for some in found for one in some[nth : nth + 1]]
    return taken[:number]


# ------------------------------------------------------------------------------------------------- running the tests


class _Spoilt(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a changed tree."""

    def __init__(self, module: str, tree: ast.AST) -> None:
        self.module, self.tree = module, tree

    def find_spec(self, name: str, path: object = None, target: object = None) -> ModuleSpec | None:
        if name != self.module:
            return None
        file = _file(name)
        return importlib.util.spec_from_file_location(
            name, file, loader=self, submodule_search_locations=[str(file.parent)] if file.stem == "__init__" else None
        )  # type: ignore[arg-type]

    def exec_module(self, module: ModuleType) -> None:
        exec(compile(self.tree, str(_file(self.module)), "exec"), module.__dict__)  # type: ignore[arg-type]


def caught(module: str, tree: ast.AST, tests: Sequence[str]) -> str:
    """The first test that fails with a module from this ``tree``, "no end", or "" where all tests pass."""
    reading, writing = os.pipe()
    number = os.fork()
    if number == 0:
        os.close(reading)
        _run(module, tree, tests, writing)
    os.close(writing)
    with open(reading, encoding="utf-8") as said:
        words = said.read()
    status = os.waitstatus_to_exitcode(os.waitpid(number, 0)[1])
    return words if status == 0 else words or ("no end" if status < 0 else f"exit {status}")


def _run(module: str, tree: ast.AST, tests: Sequence[str], writing: int) -> None:
    code = 1
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 5))
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
        os.setpgid(0, 0)
        sys.meta_path.insert(0, _Spoilt(module, tree))
        null = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(null, stream)
        os.write(writing, "\n".join(_failures(tests)).encode())
        code = 0
    finally:
        os._exit(code)


def _failures(given: Sequence[str]) -> list[str]:
    """What fails of the tests and options ``given`` to pytest."""
    import pytest

    failed: list[str] = []

    class Watch:
        def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
            if report.failed:
                failed.append(report.nodeid)

        def pytest_collectreport(self, report: pytest.CollectReport) -> None:
            if report.failed:
                failed.append(report.nodeid)

    code = pytest.main(["-q", "-n", "0", "-p", "no:cacheprovider", *given], plugins=[Watch()])
    return failed or ([] if code == 0 else [f"pytest ended with {int(code)}"])


def files_of(room: Room) -> list[str]:
    """The test files of a room that there are."""
    named = [TOP / "tests" / f"test_{name}.py" for name in room.tests]
    return [str(file) for file in named if file.exists()]


@dataclass(slots=True)
class Tally:
    """How many mutants of a room were caught, and those that were not."""

    total: int = 0
    survivors: list[Mutant] = field(default_factory=list)

    def __str__(self) -> str:
        found = self.total - len(self.survivors)
        low, high = wilson(found, self.total)
        return f"{found} of {self.total} caught, {found / self.total:.1%} (95 % interval {low:.1%} to {high:.1%})"


def wilson(found: int, total: int) -> tuple[float, float]:
    """Wilson's 95 % interval of a share."""
    z = 1.96
    share, more = found / total, z * z / total
    middle, half = share + more / 2, z * sqrt(share * (1 - share) / total + more / (4 * total))
    return (middle - half) / (1 + more), (middle + half) / (1 + more)


def tally(name: str, some: Sequence[Mutant], jobs: int) -> Tally:
    """Tries mutants of a room, told one by one where they survive."""
    found, tests = Tally(), files_of(ROOMS[name])
    for already in caught("turnchain.nothing", ast.parse(""), tests).splitlines():
        print(f"{name}: left out, since it fails already: {already}", flush=True)
        tests = [*tests, "--deselect", already]
    tests = ["-x", *tests]

    def one(mutant: Mutant) -> str:
        return caught(mutant.module, mutated(_file(mutant.module).read_text("utf-8"), mutant.nth), tests)

    with ThreadPoolExecutor(jobs) as pool:
        for mutant, by in zip(some, pool.map(one, some), strict=True):
            found.total += 1
            if not by:
                found.survivors.append(mutant)
                print(f"{name}: survived: {mutant}", flush=True)
            if found.total % 10 == 0:
                print(f"{name}: so far {found}", flush=True)
    return found


# --------------------------------------------------------------------------------------------------- the named ones


def named_mutant(module: str, was: str, now: str) -> ast.AST:
    """A module with one text of its source changed; ValueError where it does not stand there just once."""
    source = _file(module).read_text("utf-8")
    if source.count(was) != 1:
        raise ValueError(f"{module} has {source.count(was)} times: {was}")
    return ast.parse(source.replace(was, now))


def caught_afresh(module: str, was: str, now: str, tests: Sequence[str]) -> str:
    """``caught`` for a change named by its text, in a new process that has nothing imported yet."""
    program = (
        "import sys; sys.path.insert(0, sys.argv[1]); import program_mutants as p; "
        "print(p.caught(sys.argv[2], p.named_mutant(*sys.argv[2:5]), sys.argv[5:]))"
    )
    words = [sys.executable, "-c", program, str(TOP / "tests"), module, was, now, *tests]
    return subprocess.run(words, cwd=TOP, capture_output=True, text=True, check=True).stdout.strip()


def main() -> int:
    """Runs what is asked for; the exit code is 1 where less than 95 % were caught in some room."""
    asked = argparse.ArgumentParser(prog="python -m tests.program_mutants", description="Change the program itself.")
    asked.add_argument("--rooms", nargs="+", choices=sorted(ROOMS), default=sorted(ROOMS))
    asked.add_argument("--mutants", type=int, default=300, help="of each room")
    asked.add_argument("--all", action="store_true", help="every mutant there is")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--jobs", type=int, default=2)
    wanted = asked.parse_args()
    sys.path.insert(0, str(TOP / "tests"))
    os.chdir(TOP)
    with contextlib.redirect_stdout(io.StringIO()):
        import cairosvg  # noqa: F401  (what takes long to import, once for all)
        import hypothesis  # noqa: F401
        import numpy  # noqa: F401
        import PIL.Image  # noqa: F401
    low = False
    for name in wanted.rooms:
        began = time.monotonic()
        found = tally(name, drawn(ROOMS[name], None if wanted.all else wanted.mutants, wanted.seed), wanted.jobs)
        if found.total:
            print(f"{name}: {found}, in {time.monotonic() - began:.0f} s", flush=True)
            low |= (found.total - len(found.survivors)) / found.total < 0.95
    return int(low)


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    sys.exit(main())
