"""The yarns as they stand in a pattern file.

In: a pattern. Out: the TOML of its yarns, to be put in place of theirs when other colours were tried.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain.pattern import Pattern, Yarn


def yarn_lines(pattern: Pattern) -> str:
    """The yarns as a pattern file has them: a [[yarn]] table of TOML for each, with a line break at its end and an
    empty line between; "" where the pattern names none."""
    return "\n".join("\n".join(_yarn_lines(one)) + "\n" for one in pattern.yarns)


def _yarn_lines(one: Yarn) -> Iterator[str]:
    yield "[[yarn]]"
    yield f"name = {_quoted(one.name)}"
    yield f'colour = "{one.colour}"'
    figures = {"stock": one.stock, "metres_per_100g": one.metres_per_100g, "ball": one.ball, "keep": one.keep or None}
    yield from (f"{key} = {_figure(value)}" for key, value in figures.items() if value is not None)
    if one.fibre is not None:
        yield f'fibre = "{one.fibre}"'


def _quoted(text: str) -> str:
    """A TOML string; a character that does not print is written by its number."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(one if one.isprintable() else f"\\U{ord(one):08x}" for one in escaped) + '"'


def _figure(value: Fraction) -> str:
    """A number that was read from a decimal fraction, as one."""
    if value.denominator == 1:
        return str(value.numerator)
    places = next((n for n in range(1, 40) if 10**n % value.denominator == 0), None)
    if places is None:
        return repr(float(value))
    digits = str(value.numerator * 10**places // value.denominator).zfill(places + 1)
    return f"{digits[:-places]}.{digits[-places:]}"
