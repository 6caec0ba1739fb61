"""A table read value by value, and what is wrong with it, gathered with its place.

In: the raw tables of a file. Out: their sound part, and problems in the order they were found.
"""

from __future__ import annotations

from typing import Final, TypeVar

from turnchain.errors import Problem
from turnchain.reading.piece_tables import WORKED_FLAT, PieceTable, means_the_round
from turnchain.reading.places import Place
from turnchain.reading.quoting import nearest, told
from turnchain.reading.table_keys import TomlTable
from turnchain.reading.tables import TABLES, FabricTable, FileTable, SeamTable, SwatchTable
from turnchain.reading.toml_text import Raw
from turnchain.reading.values import refusals_in
from turnchain.units import Unit

MOST_TOLD: Final = 100  # problems in one message: nobody reads more

T = TypeVar("T", bound=TomlTable)


class Notes:
    """The problems of one file as they are found, the ``unit`` of its lengths without one, and the ``noun`` of what
    comes again across a row of its fabric."""

    def __init__(self, unit: Unit) -> None:
        self.unit: Unit = unit
        self.noun = "cluster"
        self.problems: list[Problem] = []
        self._untold = 0

    def say(self, place: Place, found: str, allowed: str, hint: str = "") -> None:
        """Notes one problem: what was ``found`` at ``place``, what is ``allowed``, and a ``hint`` what to try ("":
        none), in makers' words. After ``MOST_TOLD`` problems the others are only counted."""
        if self._full:
            self._untold += 1
        else:
            self.problems.append(Problem(place.words, found, allowed, hint, place.path))

    def all(self) -> list[Problem]:
        """Every problem in the order found; of more than ``MOST_TOLD`` these, and one last that has the number of the
        others."""
        rest = Problem("", f"{self._untold} more problems", "they are told when these are mended")
        return [*self.problems, rest] if self._untold else self.problems

    def table(self, kind: type[T], raw: Raw, place: Place) -> T:
        """What is sound of the table ``raw`` at ``place``: a ``kind`` that has None for every key that is missing or
        wrong. What is wrong is noted: keys needed and not given, values refused, unknown keys. Raises nothing."""
        for name, key in kind.keys.items():
            if key.needed and name not in raw:
                self.say(place.without(name), f"no `{name}`", key.needed)
        sound: dict[str, object] = {}
        for name, key in kind.keys.items():
            if name not in raw:
                continue
            try:
                sound[name] = key.read(raw[name], self.unit)
            except ValueError as error:
                for refusal in refusals_in(error, raw[name]):
                    where = place.key(name)
                    if refusal.entry:
                        where = where.entry(refusal.entry, refusal.number)
                    self.say(where, refusal.found, str(refusal), _flat_way(kind, raw[name]) or refusal.hint)
        for name in raw:
            if name not in kind.keys:
                self._unknown(kind, name, raw[name], place)
        return kind(sound)

    @property
    def _full(self) -> bool:
        return len(self.problems) >= MOST_TOLD

    def _unknown(self, kind: type[TomlTable], name: str, value: object, place: Place) -> None:
        keys = ", ".join(f"`{key}`" for key in kind.keys)
        hint = "" if self._full else _flat_way(kind, name, value) or _home(kind, name)  # looking for hints takes time
        self.say(place, f"unknown key {told(name, '`')}", f"the keys here are {keys}", hint)


#: Where a maker may ask for work in the round; the rows of an edging go round by themselves.
_OF_WORK: Final = (PieceTable, FabricTable, FileTable, SeamTable, SwatchTable)


def _flat_way(kind: type[TomlTable], *said: object) -> str:
    """The flat way, where a key or a value that is refused asks for work in the round; else empty."""
    asked = kind in _OF_WORK and any(isinstance(words, str) and means_the_round(words) for words in said)
    return WORKED_FLAT if asked else ""


def _home(kind: type[TomlTable], name: str) -> str:
    """What to do with a key that is not one of ``kind``'s."""
    if near := nearest(name, kind.keys, "`"):
        return near
    homes = [other.home for other in TABLES if name in other.keys]
    return f"`{name}` belongs {' or '.join(homes)}" if homes else ""
