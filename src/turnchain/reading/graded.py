"""Measures of pieces worked out from those of a body: ``width = "bust / 2 + ease / 2"``.

In: the tables of one size, with its wearer. Out: the tables with a figure in place of every formula, and what was
worked out. A formula has + - * /, brackets, min and max over measures of the wearer (own ones, else those of the row of
the size table; of a range the middle, of a head the most), the ``ease``, and the piece's own width and length. Figures
in it are in the file's unit.

A wearer with an ``ease`` gives starting measures too: a panel that has a neck, or faces another, and lacks a measure
takes its ``starting`` one, which is the usual one (``garment.usual``).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from turnchain import pattern, sizes
from turnchain.errors import MakerError
from turnchain.garment.body import graded_by
from turnchain.garment.usual import formula
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import PieceTable
from turnchain.reading.places import Place
from turnchain.reading.quoting import told
from turnchain.reading.table_keys import SizedKey
from turnchain.reading.tables import WITHIN, WearerTable
from turnchain.reading.toml_text import Raw
from turnchain.reading.values import length
from turnchain.units import INCH

PANEL: Final = ("width", "length")
_OUTLINES: Final = ("outline", "left_outline", "right_outline")
_FORMS: Final = (*_OUTLINES, "triangle", "half_triangle")  # pieces that are no panels
_NECK: Final = ("shoulder", "depth")
_NAMES: Final = (*sizes.POSSIBLE, "ease", *PANEL)


def starting(key: str, back: bool = False) -> str:
    """The formula that a measure of a panel, or of its neck, begins with, by its ``key`` in the file; ``back``: of a
    piece that faces another, whose neck is a back's."""
    return formula("back_depth" if back and key == "depth" else key)


def is_formula(value: object) -> bool:
    """Whether a ``value`` of a file names a measure to work it out by."""
    return isinstance(value, str) and any(name in _NAMES for name in re.findall(r"[a-z_]{3,}", value))


def worked_out(notes: Notes, raw: Raw) -> tuple[Raw, tuple[pattern.Graded, ...]]:
    """The tables ``raw`` of one size with figures for formulas, and all that was worked out, in the order of the file.
    Notes formulas that cannot be worked out; their keys are left out."""
    pieces = raw.get("piece")
    if not isinstance(pieces, list):
        return raw, ()
    wearer = _wearer(notes, raw)
    faced = [piece.get("faces") for piece in pieces if isinstance(piece, dict)] if wearer.ease is not None else []
    grading = _Grading(notes, wearer)
    made = [
        grading.piece(piece, Place(f"piece {told(piece.get('name', number + 1))}", ("piece", number)), faced)
        if isinstance(piece, dict) else piece
        for number, piece in enumerate(pieces)
    ]  # fmt: skip
    return {**raw, "piece": made}, tuple(grading.found)


def _wearer(notes: Notes, raw: Raw) -> pattern.Wearer:
    """What is sound of the wearer; what is wrong is told where the wearer is read."""
    table = raw.get("wearer")
    return Notes(notes.unit).table(WearerTable, table if isinstance(table, dict) else {}, Place()).made(pattern.Wearer)


class _Grading:
    """Works out the formulas of one file, in its unit."""

    def __init__(self, notes: Notes, wearer: pattern.Wearer) -> None:
        self.notes, self.wearer = notes, wearer
        self.cm = INCH if notes.unit == "in" else Fraction(1)
        self.found: list[pattern.Graded] = []

    def piece(self, raw: Raw, place: Place, faced: list[object]) -> Raw:
        made = {**raw, **self._missing(raw, faced)}
        own: dict[str, Fraction] = {}
        for key in PANEL:
            if key in made:
                made[key] = self._value(made[key], place.key(key), own, key in raw)
                own |= self._plain(key, made[key])
        for key in _OUTLINES:
            if isinstance(points := made.get(key), list):
                made[key] = [self._point(point, place.key(key), nth, own) for nth, point in enumerate(points, 1)]
        for key, value in made.items():
            if key in WITHIN:
                made[key] = self._within(key, value, raw.get(key), place.key(key), own)
            elif key not in (*PANEL, *_OUTLINES) and isinstance(PieceTable.keys.get(key), SizedKey):
                made[key] = self._value(value, place.key(key), own, True)
        return _known(made)

    def _within(self, name: str, value: object, written: object, place: Place, own: Mapping[str, Fraction]) -> object:
        """A table within the piece, or a list of them; ``written``: as it stands in the file."""
        if isinstance(value, list):
            return [self._within(name, one, one, place.entry("entry", nth), own) for nth, one in enumerate(value, 1)]
        if not isinstance(value, dict):
            return value
        given, keys = written if isinstance(written, dict) else {}, WITHIN[name].keys
        made = {
            key: self._value(one, place.key(key), own, key in given) if isinstance(keys.get(key), SizedKey) else one
            for key, one in value.items()
        }
        return _known(made)

    def _missing(self, raw: Raw, faced: list[object]) -> Raw:
        """The formulas of starting measures that a piece lacks."""
        neck = raw.get("neck")
        garment = isinstance(neck, dict) or "faces" in raw or raw.get("name", "") in faced
        if self.wearer.ease is None or not garment or any(key in raw for key in _FORMS):
            return {}
        made: Raw = {key: starting(key) for key in PANEL if key not in raw}
        if isinstance(neck, dict):
            made["neck"] = {**{key: starting(key, "faces" in raw) for key in _NECK if key not in neck}, **neck}
        return made

    def _plain(self, name: str, value: object) -> dict[str, Fraction]:
        """A measure of the piece in the file's unit, where it is one."""
        try:
            return {name: length(value, self.notes.unit) / self.cm}
        except ValueError:
            return {}

    def _point(self, point: object, place: Place, number: int, own: Mapping[str, Fraction]) -> object:
        if not isinstance(point, list):
            return point
        here = place.entry("point", number)
        made = [self._value(one, here.entry("figure", nth), own, True) for nth, one in enumerate(point[:2], 1)]
        return None if None in made else [*made, *point[2:]]

    def _value(self, value: object, place: Place, own: Mapping[str, Fraction], given: bool) -> object:
        """The figure of a formula in the file's unit; any other value as it is; None where it cannot be worked out."""
        if not is_formula(value):
            return value
        from turnchain import formulas  # for files that have some

        written = str(value)
        try:
            names = formulas.names_in(written)
            known = dict(self._measures(names, own))
            if missing := sorted(names - known.keys()):
                self.notes.say(place, told(written), f"{_listed(missing)} not known here", _hint(missing[0]))
                return None
            figure = formulas.value(written, known)
        except MakerError as error:
            self.notes.say(place, told(written), str(error))
            return None
        if figure <= 0:
            self.notes.say(place, f"{told(written)}, which comes to {float(figure):g}", "must be greater than 0")
            return None
        self.found.append(pattern.Graded(place.path, written, figure * self.cm, given))
        return figure

    def _measures(self, names: set[str], own: Mapping[str, Fraction]) -> Iterator[tuple[str, Fraction]]:
        for name in names:
            cm = self.wearer.ease if name == "ease" else None
            if name in sizes.POSSIBLE:
                cm = graded_by(self.wearer, name)
            if name in own:
                yield name, own[name]
            elif cm is not None:
                yield name, cm / self.cm


def _known(raw: Raw) -> Raw:
    return {key: value for key, value in raw.items() if value is not None}


def _listed(names: list[str]) -> str:
    return f"`{names[0]}` is" if len(names) == 1 else f"{', '.join(f'`{name}`' for name in names)} are"


def _hint(name: str) -> str:
    if name == "ease":
        return "write ease = 8 in [wearer]"
    if name in PANEL:
        return f"`{name}` is that of the same piece"
    if name in sizes.POSSIBLE:
        return f"give [wearer] a table and a size, or its {name}"
    return f"the measures are {', '.join(_NAMES)}"

