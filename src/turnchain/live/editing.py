"""Edits of a pattern's text that keep its remarks, its order and its way of writing.

In: a TOML text and edits, each a path ("piece", 0, "neck", "shoulder") and a value (None: take the key away; for an
entry of a list of tables, take the entry away). Out: the text changed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Any, Literal, TypeAlias

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Array

from turnchain.errors import MakerError
from turnchain.reading.brackets import figures, in_brackets, may_differ, unit_of, with_figure
from turnchain.reading.graded import is_formula
from turnchain.reading.pattern_file import read_sizes
from turnchain.records import frozen
from turnchain.units import INCH, plain

Key: TypeAlias = str | int
Value: TypeAlias = Any
Sizes: TypeAlias = Literal["as written", "all", "one"]

MOST_EDITS = 1000
INLINE = ("neck", "armhole", "front", "cap", "taper", "triangle", "half_triangle")  # tables written on one line


@frozen
class Edit:
    """One change: the ``path`` to a place, keys and numbers of entries from 0, and the plain ``value`` it takes (None:
    the place is taken away). The number after the last entry appends one. ``sizes`` says which sizes it is for: of
    brackets the one that is edited and of a value alone all ("as written"), always "all", or always "one", for which
    brackets are made where there are none."""

    path: tuple[Key, ...]
    value: Value
    sizes: Sizes = "as written"


def edited(text: str, edits: Iterable[Edit], size: int = 0) -> str:
    """``text`` with all ``edits``, in their order; tables that a path lacks are made. Where a value in brackets stands,
    one that has none takes the place of the figure of the ``size`` of that number (from 0), and the others stay, but
    for an edit of all sizes. MakerError for a text that is no TOML, for a path that leads nowhere, and for a figure in
    another unit."""
    try:
        document = tomlkit.parse(text)
    except TOMLKitError as error:
        raise MakerError(f"the text cannot be changed while it has a mistake: {error}") from error
    for edit in edits:
        try:
            _put(document, edit, size)
        except (KeyError, IndexError, TypeError, ValueError, TOMLKitError) as error:
            raise MakerError(f"nothing stands at {'.'.join(map(str, edit.path))} in this pattern") from error
    return tomlkit.dumps(document)


def _put(document: Any, edit: Edit, size: int) -> None:
    *way, last = edit.path
    here = document
    for place, key in enumerate(way):
        if isinstance(key, str) and key not in here:
            if edit.value is None:
                return  # nothing is there to be taken away
            following = edit.path[place + 1]
            here[key] = tomlkit.aot() if isinstance(following, int) else _table(key)
        here = here[key]
    old = _there(here, last)
    if edit.sizes == "one" and figures(old) is None and edit.value != old and may_differ(edit.path):
        old = in_brackets(_each(document, old, edit.path))
    if edit.sizes != "all" and "sizes" in document and may_differ(edit.path) and figures(old) is not None:
        _set(here, last, _among_sizes(str(old), edit.value, size, str(document.get("units", "cm"))))
    elif edit.value is None:
        if isinstance(last, int) or last in here:
            del here[last]
    elif isinstance(last, int) and last == len(here):
        _append(here, edit.value)
    else:
        _set(here, last, edit.value)


def _each(document: Any, old: Value, path: tuple[Key, ...]) -> list[str]:
    """A value that holds for all sizes, once for each; of a formula what it comes to. MakerError where the pattern is
    not sound enough to work that out."""
    if not is_formula(old):
        return ["-" if old is None else str(old)] * len(document.get("sizes", ()))
    patterns = read_sizes(tomlkit.dumps(document), "pattern")
    unit = INCH if patterns[0].units == "in" else Fraction(1)
    return [plain(one.cm / unit) for pattern in patterns for one in pattern.graded if one.path == path]


def _there(here: Any, key: Key) -> Any:
    """What stands under a key, or at a number; None where nothing does."""
    there = 0 <= key < len(here) if isinstance(key, int) else key in here
    return here[key] if there else None


def _among_sizes(old: str, value: Value, size: int, units: str) -> str:
    """What is written for ``value`` where the brackets ``old`` stand: brackets as they are, all else as the figure of
    that size, a dash for none; a number is in ``units``, those of the file. MakerError where a figure has another unit
    than the brackets."""
    if isinstance(value, str) and figures(value) is not None:
        return value
    figure, unit = "-" if value is None else str(value), unit_of(old)
    if unit and figure.endswith(unit):
        figure = figure.removesuffix(unit).strip()
    number_in_other = unit and isinstance(value, int | float) and unit != units
    if unit and (re.search("[a-z]", figure) or number_in_other):
        raise MakerError(f"the sizes stand in {unit} here; write this one in {unit} too, or all of them anew")
    made = with_figure(old, size, figure)
    if not made:
        raise MakerError(f"{old} has no figure for this size; write one for each")
    return made


def _set(here: Any, key: Key, value: Value) -> None:
    """Changes one value, its remark kept."""
    old = here[key] if isinstance(key, int) or key in here else None
    new = _item(value, key in INLINE or isinstance(here, Array))
    if old is not None and hasattr(old, "trivia"):
        new.trivia.indent, new.trivia.comment_ws = old.trivia.indent, old.trivia.comment_ws
        new.trivia.comment, new.trivia.trail = old.trivia.comment, old.trivia.trail
    here[key] = new


def _table(key: str) -> Any:
    return tomlkit.inline_table() if key in INLINE else tomlkit.table()


def _append(here: Any, value: Value) -> None:
    """A new last entry of a list: where it has keys a table of its own, between empty lines."""
    if not isinstance(value, dict) or isinstance(here, Array):
        here.append(_item(value, True))
        return
    made = tomlkit.table()
    for key, one in value.items():
        made[key] = _item(one, True)
    made.add(tomlkit.nl())
    if here and hasattr(here[-1], "add") and not here[-1].as_string().endswith("\n\n"):
        here[-1].add(tomlkit.nl())
    here.append(made)


def _item(value: Value, inline: bool) -> Any:
    """A plain value as it stands in a file, its tables each on one line where it is ``inline``."""
    if not inline or not isinstance(value, dict | list):
        return tomlkit.item(value)
    if isinstance(value, list):
        made = tomlkit.array()
        made.extend(_item(one, True) for one in value)
        return made
    table = tomlkit.inline_table()
    table.update({key: _item(one, True) for key, one in value.items()})
    return table
