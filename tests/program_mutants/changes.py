"""Every mutant of a module: what is changed on its syntax tree, and what is left alone because nothing can see it.

Left alone are docstrings, annotations, ``Literal``, ``assert``, ``__all__``, what only type checkers read, the words of
errors that no maker reads, signs in sums that only have to be odd or even, and the arguments in ``_UNSEEN``, which
check or save and change no result.
"""

from __future__ import annotations

import ast
import copy
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).parents[2]
SOURCE = TOP / "src" / "turnchain"

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
_OF_PROGRAMS = {"AssertionError", "IndexError", "KeyError", "TypeError"}  # errors that no maker reads
_OF_PX = {"air", "measure", "rise", "size", "unit", "words"}
_UNSEEN = {"strict", "frozen", "slots", "kw_only", "maxsize", "repr", "daemon"}  # arguments by name


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


def _left_alone(node: ast.AST) -> bool:
    """Whether no change within ``node`` can be seen."""
    match node:
        case ast.Assert() | ast.Expr(value=ast.Constant()):
            return True
        case ast.Subscript(value=ast.Name(id="Literal")):
            return True
        case ast.Call(func=ast.Name(id="cast" | "TypeVar" | "NewType" | "lru_cache")):
            return True
        case ast.Assign(targets=[ast.Name(id="__all__")]) | ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
        case ast.keyword(arg=name):
            return name in _UNSEEN
        case ast.AnnAssign(annotation=ast.Name(id="TypeAlias")):
            return True
        case ast.Raise(exc=ast.Call(func=ast.Name(id=name))):
            return name in _OF_PROGRAMS
    return False


@dataclass(frozen=True, slots=True)
class Mutant:
    """The ``nth`` change of a module: its dotted name, the ``lines`` of the statement that is changed, the text of the
    line, what stands there before and after, how many before it are told ``alike``, and whether it changes how many
    ``px`` something is."""

    module: str
    nth: int
    lines: range
    text: str
    was: str
    now: str
    alike: int = 0
    px: bool = False

    def __str__(self) -> str:
        return f"{self.module}:{self.lines.start}: {self.was}  ->  {self.now}    in: {self.text}"


def mutants(module: str) -> list[Mutant]:
    """Every mutant of a module."""
    source = file_of(module).read_text("utf-8")
    lines, tree = source.splitlines(), ast.parse(source)
    alike: Counter[tuple[str, str, str]] = Counter()
    found, px = [], {id(node) for node in _of_px(tree)}
    odd_or_even = {id(node) for node in _odd_or_even(tree)}
    for nth, (said, _, node, changed) in enumerate(_sites(tree)):
        if id(node) in odd_or_even:
            continue
        words = lines[getattr(node, "lineno", 1) - 1].strip(), _short(node), _short(changed)
        found.append(Mutant(module, nth, said, *words, alike[words], id(node) in px))
        alike[words] += 1
    return found


def _of_px(tree: ast.AST) -> Iterator[ast.AST]:
    """The parts of sums in px: with a decimal fraction in them, a number over 3, or a size of words or rows. Others
    reckon rows, clusters and places."""
    for node in ast.walk(tree):
        if isinstance(node, ast.BinOp) and any(map(_is_px, parts := [*_of_sum(node)])):
            yield from parts


def _odd_or_even(tree: ast.AST) -> Iterator[ast.AST]:
    """The parts of sums of which only the remainder of 2 is taken: one with another sign is the same."""
    for node in ast.walk(tree):
        match node:
            case ast.BinOp(left=left, op=ast.Mod(), right=ast.Constant(value=2)):
                yield from _signed(left)


def _signed(node: ast.AST) -> Iterator[ast.AST]:
    match node:
        case ast.BinOp(left=left, op=ast.Add() | ast.Sub(), right=right):
            yield from (node, *_signed(left), *_signed(right))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            yield from (node, *_signed(operand))


def _of_sum(node: ast.AST) -> Iterator[ast.AST]:
    yield node
    match node:
        case ast.BinOp(left=left, right=right):
            yield from (*_of_sum(left), *_of_sum(right))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            yield from _of_sum(operand)


def _is_px(node: ast.AST) -> bool:
    match node:
        case ast.Constant(value=value):
            return type(value) is float or (type(value) is int and value > 3)
        case ast.Name(id=name) | ast.Attribute(attr=name) | ast.Call(func=ast.Name(id=name)):
            return name in _OF_PX
    return False


def _short(node: ast.AST) -> str:
    words = ast.unparse(ast.fix_missing_locations(copy.deepcopy(node))).split("\n")[0]
    return words if len(words) < 90 else f"{words[:87]}..."


Place = Callable[[ast.AST], None]
Site = tuple[range, Place, ast.AST, ast.AST]


def _sites(parent: ast.AST, lines: range = range(0)) -> Iterator[Site]:
    """Every change: the lines of its statement, how to put a node in its place, the node there, and the one to be."""
    if isinstance(parent, ast.stmt | ast.match_case | ast.excepthandler):
        lines = _own_lines(parent, lines)
    for name, value in ast.iter_fields(parent):
        if name in ("annotation", "returns", "type_params"):
            continue
        for place, node in _places(parent, name, value):
            if not _left_alone(node):
                own = _own_lines(node, lines) if isinstance(node, ast.stmt) else lines
                for changed in _changes(node):
                    yield own, place, node, changed
                yield from _sites(node, lines)


def _own_lines(node: ast.AST, lines: range) -> range:
    """The lines of a statement before those of the statements in it."""
    first = getattr(node, "lineno", lines.start)
    body = getattr(node, "body", None)
    if isinstance(body, list) and body:
        return range(first, max(first + 1, body[0].lineno))
    return range(first, (getattr(node, "end_lineno", None) or first) + 1)


def _places(parent: ast.AST, name: str, value: object) -> Iterator[tuple[Place, ast.AST]]:
    if isinstance(value, ast.AST):
        yield (lambda node: setattr(parent, name, node)), value
    elif isinstance(value, list):
        for index, one in enumerate(value):
            if isinstance(one, ast.AST):
                yield (lambda node, index=index: value.__setitem__(index, node)), one  # type: ignore[misc]


def mutated(mutant: Mutant) -> ast.Module:
    """The tree of a module with a change."""
    tree = ast.parse(file_of(mutant.module).read_text("utf-8"))
    for number, (_, place, node, changed) in enumerate(_sites(tree)):
        if number == mutant.nth:
            place(ast.copy_location(changed, node))
            return ast.fix_missing_locations(tree)
    raise IndexError(mutant.nth)


def file_of(module: str) -> Path:
    """The source of a module by its dotted name."""
    path = SOURCE.joinpath(*module.split(".")[1:])
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def name_of(file: Path) -> str:
    """The dotted name of a module by its source."""
    parts = file.relative_to(SOURCE).with_suffix("").parts
    return ".".join(("turnchain", *(part for part in parts if part != "__init__")))
