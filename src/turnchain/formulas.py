"""The arithmetic of measures: + - * /, brackets, min and max, over names.

In: a formula such as "(bust + ease) / 2" and measures by name. Out: an exact figure. Nothing else can be written in a
formula: no calls of other functions, no attributes, no powers.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
from fractions import Fraction
from math import isfinite
from typing import Final

from turnchain.errors import MakerError

_OPERATIONS: Final[dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]]] = {
    ast.Add: lambda one, other: one + other,
    ast.Sub: lambda one, other: one - other,
    ast.Mult: lambda one, other: one * other,
    ast.Div: lambda one, other: one / other,
}
_FUNCTIONS: Final[dict[str, Callable[..., Fraction]]] = {"min": min, "max": max}
MOST_LETTERS: Final = 200


def names_in(formula: str) -> set[str]:
    """The names of the measures that a formula needs. Raises MakerError for what is no formula."""
    return {node.id for node in ast.walk(_parsed(formula)) if isinstance(node, ast.Name)} - set(_FUNCTIONS)


def value(formula: str, measures: Mapping[str, Fraction]) -> Fraction:
    """What a formula comes to. Raises MakerError for what is no formula, for a measure that is not among ``measures``,
    and for a division by 0."""
    try:
        return _value(_parsed(formula), measures)
    except KeyError as error:
        raise MakerError(f'the formula "{formula}" needs {error.args[0]}') from None
    except ZeroDivisionError:
        raise MakerError(f'the formula "{formula}" divides by 0') from None


def _parsed(formula: str) -> ast.expr:
    try:
        if len(formula) > MOST_LETTERS:
            raise ValueError
        return ast.parse(formula, mode="eval").body
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        raise MakerError(f'"{formula[:60]}" is no formula') from None


def _value(node: ast.expr, measures: Mapping[str, Fraction]) -> Fraction:
    match node:
        case ast.Constant(value=int() | float() as figure) if not isinstance(figure, bool) and isfinite(figure):
            return Fraction(str(figure))
        case ast.Name(id=name):
            return measures[name]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_value(inner, measures)
        case ast.BinOp(left=one, op=sign, right=other) if type(sign) in _OPERATIONS:
            return _OPERATIONS[type(sign)](_value(one, measures), _value(other, measures))
        case ast.Call(func=ast.Name(id=name), args=parts, keywords=[]) if name in _FUNCTIONS and parts:
            return _FUNCTIONS[name](*(_value(part, measures) for part in parts))
        case _:
            said = f'"{ast.unparse(node)[:60]}" cannot stand in a formula'
            raise MakerError(f"{said}: it has + - * /, brackets, min and max")
