"""Where something stands in a pattern file: in words, as a path of keys, and as a line and a column.

In: a TOML text that has been read without a fault. Out: the line and the column of every key and entry in it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from typing import Final, TypeAlias

from turnchain.errors import PatternError, Problem
from turnchain.records import frozen, replace

KeyPath: TypeAlias = tuple[str | int, ...]  # keys, and the numbers of entries from 0: ("piece", 0, "neck", "depth")
LineAndColumn: TypeAlias = tuple[int, int]  # line and column, from 1


@frozen
class Place:
    """A place in a file: in ``words`` ("" at the top of the file), and the ``path`` of keys that leads there."""

    words: str = ""
    path: KeyPath = ()

    def key(self, *names: str) -> Place:
        """The key of this table that has this name; of several, joined by "and" in words, the path leads to the
        first."""
        return self._within(" and ".join(names), names[0])

    def without(self, name: str) -> Place:
        """This table, in its own words, which lacks the key ``name``: the path leads to where that should be."""
        return Place(self.words, (*self.path, name))

    def entry(self, what: str, number: int) -> Place:
        """The entry of this list with this ``number`` (from 1), called ``what`` in words."""
        return self._within(f"{what} {number}", number - 1)

    def _within(self, words: str, part: str | int) -> Place:
        return Place(f"{self.words}, {words}" if self.words else words, (*self.path, part))


def located(error: PatternError, text: str) -> PatternError:
    """``error`` with the line and the column of every problem whose place can be found in ``text`` (sound TOML); those
    of a missing key are its table's. The error as it was where lists are nested too deep."""
    try:
        spots = positions(text.removeprefix("\ufeff"))
    except RecursionError:  # lists within lists within lists
        return error
    return PatternError(error.source, [_located(problem, spots) for problem in error.problems])


def _located(problem: Problem, spots: dict[KeyPath, LineAndColumn]) -> Problem:
    """A key that is missing is looked for in its table."""
    path = problem.path
    if path[1:2] == (0,) and path[:2] not in spots:  # a table that stands alone, as [swatch] may
        path = path[:1] + path[2:]
    while path and path not in spots:
        path = path[:-1]
    return replace(problem, line=spots[path][0], column=spots[path][1]) if path else problem


_TOKEN: Final = (
    r'''(?s)"{3}(?:\\.|[^\\])*?"{3,5}|'{3}.*?'{3,5}|"(?:\\.|[^"\\])*"|'[^']*'|\#[^\n]*|\n|[\[\]{}=,]|[^\s\[\]{}=,\#"']+'''
)


def positions(text: str) -> dict[KeyPath, LineAndColumn]:
    """Line and column, both from 1, of every table, key and entry of a list in ``text``, which is sound TOML without a
    byte order mark. Raises RecursionError for lists nested too deep."""
    return _Scanner(text).found


class _Scanner:
    """Goes through the words of a TOML text once."""

    def __init__(self, text: str) -> None:
        self.lines = [0, *(end.end() for end in re.finditer("\n", text))]  # where each begins
        self.words = [word for word in re.finditer(_TOKEN, text) if not word[0].startswith("#")]
        self.at = 0
        self.found: dict[KeyPath, LineAndColumn] = {}
        self.listed: dict[KeyPath, int] = {}  # tables in lists: the number of the last
        table: KeyPath = ()
        while self.at < len(self.words):
            if self._here() == "\n":
                self.at += 1
            elif self._here() == "[":
                table = self._header()
            else:
                self._pair(table)

    def _here(self) -> str:
        return self.words[self.at][0] if self.at < len(self.words) else "\n"

    def _spot(self) -> LineAndColumn:
        start = self.words[self.at].start()
        line = bisect_right(self.lines, start)
        return line, start - self.lines[line - 1] + 1

    def _header(self) -> KeyPath:
        spot = self._spot()
        listed = self.words[self.at + 1][0] == "["
        self.at += 1 + listed
        parts = self._parts("]")
        self.at += listed
        path: KeyPath = ()
        for part in parts:
            path += (part,)
            if path in self.listed and not (listed and len(path) == len(parts)):
                path += (self.listed[path],)
        if listed:
            self.listed[path] = self.listed.get(path, -1) + 1
            path += (self.listed[path],)
        self.found[path] = spot
        return path

    def _parts(self, end: str) -> list[str]:
        """The parts of a dotted key up to ``end``, which is passed."""
        parts: list[str] = []
        while (word := self._here()) != end:
            parts += [word[1:-1]] if word[0] in "\"'" else [part for part in word.split(".") if part]
            self.at += 1
        self.at += 1
        return parts

    def _pair(self, table: KeyPath) -> None:
        spot = self._spot()
        path = (*table, *self._parts("="))
        self.found[path] = spot
        self._value(path)

    def _value(self, path: KeyPath) -> None:
        opening = self._here()
        self.at += 1
        if opening == "[":
            self._entries(path)
        elif opening == "{":
            while (word := self._here()) != "}":
                self._pair(path) if word not in (",", "\n") else self._pass()
            self.at += 1
        else:
            while self._here() not in (",", "]", "}", "\n"):  # the time of a date
                self.at += 1

    def _entries(self, path: KeyPath) -> None:
        number = 0
        while (word := self._here()) != "]":
            if word in (",", "\n"):
                number += word == ","
                self.at += 1
            else:
                self.found[*path, number] = self._spot()
                self._value((*path, number))
        self.at += 1

    def _pass(self) -> None:
        self.at += 1
