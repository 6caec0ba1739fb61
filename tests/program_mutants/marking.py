"""Modules that tell which of their lines are passed through: before each statement of a function stands a mark.

Much quicker than a tracer, which is called at every line, and only the changed modules take the time.
"""

from __future__ import annotations

import ast
import importlib.abc
import importlib.util
from collections.abc import Iterator
from importlib.machinery import ModuleSpec
from types import ModuleType

from .changes import SOURCE, file_of

_MARKS = "_marks_of_lines"
_BODIES = ("body", "orelse", "finalbody")


class Marked(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives the ``modules`` with marks. ``marks``: by file under the package a byte for each line."""

    def __init__(self, modules: set[str]) -> None:
        self.modules, self.marks = modules, dict[str, bytearray]()
        self.importing: dict[str, list[int]] = {}  # lines that are passed through as a module is imported

    def find_spec(self, name: str, path: object = None, target: object = None) -> ModuleSpec | None:
        if name not in self.modules:
            return None
        file = file_of(name)
        return importlib.util.spec_from_file_location(
            name, file, loader=self, submodule_search_locations=[str(file.parent)] if file.stem == "__init__" else None
        )  # type: ignore[arg-type]

    def exec_module(self, module: ModuleType) -> None:
        file = file_of(module.__name__)
        source, name = file.read_text("utf-8"), str(file.relative_to(SOURCE))
        tree, long = ast.parse(source), source.count("\n") + 2
        self.marks[name] = module.__dict__[_MARKS] = bytearray(long)
        within = {line for one in _functions(tree) for line in range(one.body[0].lineno, (one.end_lineno or 0) + 1)}
        self.importing[name] = [line for line in range(1, long) if line not in within]
        for function in _functions(tree):
            _mark(function)
        exec(compile(ast.fix_missing_locations(tree), str(file), "exec"), module.__dict__)

    def taken(self) -> dict[str, list[int]]:
        """The lines passed through since this was asked last."""
        found = {name: [line for line, mark in enumerate(marks) if mark] for name, marks in self.marks.items()
                 if any(marks)}  # fmt: skip
        for name in found:
            self.marks[name][:] = bytes(len(self.marks[name]))
        return found


def _functions(node: ast.AST) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """The functions that stand in no other one."""
    for one in ast.iter_child_nodes(node):
        if isinstance(one, ast.FunctionDef | ast.AsyncFunctionDef):
            yield one
        else:
            yield from _functions(one)


def _mark(node: ast.AST) -> None:
    for name in _BODIES:
        body = getattr(node, name, None)
        if isinstance(body, list) and body:
            setattr(node, name, [*_marked(body, node)])
    for inner in (*getattr(node, "handlers", ()), *getattr(node, "cases", ())):
        _mark(inner)


def _marked(body: list[ast.stmt], node: ast.AST) -> Iterator[ast.stmt]:
    if isinstance(node, ast.ExceptHandler):
        yield _of_line(node.lineno)
    for nth, one in enumerate(body):
        words = nth == 0 and isinstance(one, ast.Expr) and isinstance(one.value, ast.Constant)
        if not words:
            yield _of_line(one.lineno)
        _mark(one)
        yield one


def _of_line(line: int) -> ast.stmt:
    return ast.parse(f"{_MARKS}[{line}] = 1").body[0]
