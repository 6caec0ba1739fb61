"""Values for every size, as patterns print them: "48 (52, 57, 62, 67) cm".

In: the tables of a file that names its ``sizes``, and which size is wanted. Out: the tables of that size alone, as a
maker would have written them for it, so that nothing else in this room knows of sizes.

The first figure is that of the first size, those in brackets follow in order; a figure alone holds for all. Brackets
may be several, "48 (52, 57) (62, 67)", and a unit after the last holds for all. Where figures have decimal commas,
semicolons part them. A dash says that the piece has no such key in this size; one for its count, or dashes for all of
its form, that the size has no such piece. A wearer with a size table and no size is the row that is called as this
size. That a pattern is written for the smallest size, larger ones in brackets, one number alone for all, is the usual
sentence of published patterns (Lion Brand, Sutton's Shell Top and 70644AD); dashes and several brackets are common
practice.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal
from typing import Final

from turnchain.reading.graded import is_formula
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import PieceTable
from turnchain.reading.places import Place
from turnchain.reading.quoting import told
from turnchain.reading.table_keys import SizedKey, TomlTable
from turnchain.reading.tables import WITHIN, EdgingTable, StripesTable, WearerTable
from turnchain.reading.toml_text import Raw
from turnchain.units import UNIT_NAMES

_BRACKETED: Final = re.compile(r"\s*(?P<first>[^()]+?)\s*(?P<rest>(?:\([^()]*\)\s*)+)(?P<unit>[^()0-9]*?)\s*")
#: What gives a piece its form.
_FORM: Final = ("width", "length", "outline", "left_outline", "right_outline", "triangle", "half_triangle")
#: A unit at the end of a figure; "2X" is a size.
_UNIT: Final = re.compile(rf"[0-9½¼¾\s](?:{'|'.join(map(re.escape, UNIT_NAMES))})$")
_DASHES: Final = ("-", "–", "—")
#: The tables whose keys may have values by size; a piece has others within (``WITHIN``).
_TABLES: Final[dict[str, type[TomlTable]]] = {"piece": PieceTable, "stripes": StripesTable, "wearer": WearerTable,
                                             "edging": EdgingTable}  # fmt: skip


def figures(value: object) -> list[str] | None:
    """The figures of a ``value`` in brackets in the order of the sizes, each with the unit that stands after the last;
    None for any other value, a formula as well."""
    found = _BRACKETED.fullmatch(value) if isinstance(value, str) and not is_formula(value) else None
    if found is None:
        return None
    parts = [str(value)[start:end] for start, end in _spans(found)]
    return [part if part in _DASHES else f"{part} {found['unit']}".strip() for part in parts]


def _spans(found: re.Match[str]) -> list[tuple[int, int]]:
    """Where the figures of a value in brackets stand in it, from the first size on."""
    mark = ";" if ";" in found["rest"] else ","
    spans = [found.span("first")]
    for group in re.finditer(r"\(([^()]*)\)", found["rest"]):
        at = found.start("rest") + group.start(1)
        for part in group[1].split(mark):
            start = at + len(part) - len(part.lstrip())
            spans.append((start, start + len(part.strip())))
            at += len(part) + 1
    return spans


def in_brackets(figures: Sequence[str]) -> str:
    """The ``figures`` of all sizes as they are written: "48 (52, 57)"; one alone without brackets, none as ""."""
    mark = "; " if any("," in figure for figure in figures) else ", "
    return f"{figures[0]} ({mark.join(figures[1:])})" if len(figures) > 1 else "".join(figures)


def may_differ(path: Sequence[str | int]) -> bool:
    """Whether what stands at a ``path`` of a file may have a value for every size; not so names and other words, in
    which brackets are only brackets."""
    kind = _TABLES.get(str(path[0])) if path else None
    for part in path[1:]:
        if kind is None:
            return False
        if isinstance(part, str):
            if isinstance(kind.keys.get(part), SizedKey):
                return True
            kind = WITHIN.get(part)
    return False


def unit_of(value: str) -> str:
    """The unit that stands after the last bracket of a ``value``; "" where none does."""
    found = _BRACKETED.fullmatch(value)
    return found["unit"] if found else ""


def with_figure(value: str, nth: int, figure: str) -> str:
    """A ``value`` in brackets with another ``figure`` for the size number ``nth`` (from 0); "" where it is none, or has
    fewer."""
    found = _BRACKETED.fullmatch(value)
    if found is None:
        return ""
    spans = _spans(found)
    if nth >= len(spans):
        return ""
    start, end = spans[nth]
    return value[:start] + figure + value[end:]


def of_size(notes: Notes, raw: Raw, sizes: Sequence[str], nth: int) -> Raw:
    """The tables ``raw`` of a file as they are for its size number ``nth`` (from 0). Notes brackets that have not a
    figure for each of the ``sizes``; their keys are left out."""
    chooser = _Chooser(notes, sizes, nth)
    made = dict(raw)
    for name, kind in _TABLES.items():
        here = Place().key(name)
        match raw.get(name):
            case dict() as table:
                chosen = chooser.table(kind, table, here)
                if name == "wearer" and "table" in table and "size" not in table:
                    chosen["size"] = sizes[nth]  # a row of that name, or a problem that says so
                made[name] = chosen
            case list() as tables:
                made[name] = [
                    chooser.table(kind, table, _numbered(name, number, table)) if isinstance(table, dict) else table
                    for number, table in enumerate(tables)
                ]
    _check_yarn_names(notes, raw, sizes)
    return made


def missing(raw: Raw, nth: int) -> list[int]:
    """The numbers (from 0) of the pieces that the size number ``nth`` (from 0) lacks: those with a dash for how many
    are made, or with nothing but dashes for their form."""
    pieces = raw.get("piece")
    return [number for number, piece in enumerate(pieces if isinstance(pieces, list) else [])
            if isinstance(piece, dict) and _is_missing(piece, nth)]  # fmt: skip


def _is_missing(piece: Raw, nth: int) -> bool:
    if _dashed(piece.get("count"), nth):
        return True
    form = [piece[key] for key in _FORM if key in piece]
    return bool(form) and all(_dashed(value, nth) for value in form)


def _dashed(value: object, nth: int) -> bool:
    found = figures(value)
    return found is not None and nth < len(found) and found[nth] in _DASHES


def without(raw: Raw, gone: Sequence[int]) -> Raw:
    """The tables of one size without the pieces numbered ``gone``, and without what names them: seams, photographs, and
    the piece that others face."""
    pieces = raw["piece"]
    assert isinstance(pieces, list), "some of them are gone"
    names = {pieces[number].get("name") for number in gone}
    kept = [_unpaired(piece, names) for number, piece in enumerate(pieces) if number not in gone]
    made = {**raw, "piece": kept}
    for name, of in (("seam", _joined), ("photo", lambda one: [one.get("place")])):
        if isinstance(tables := raw.get(name), list):
            made[name] = [one for one in tables if not (isinstance(one, dict) and names.intersection(of(one)))]
            if not made[name]:
                del made[name]
    if isinstance(edgings := raw.get("edging"), list):
        kept_ones = [_edged(one, names) if isinstance(one, dict) else one for one in edgings]
        made["edging"] = [one for one in kept_ones if one != {}]
    return made


def _edged(edging: Raw, gone: set[object]) -> Raw:
    """An edging without the edges of pieces that are gone; empty where it has no others."""
    edges = edging.get("edges")
    if not isinstance(edges, list):
        return edging
    kept = [edge for edge in edges if str(edge).rpartition(".")[0].strip() not in gone]
    return {**edging, "edges": kept} if kept else {}


def _unpaired(piece: object, names: set[object]) -> object:
    if not isinstance(piece, dict):
        return piece
    tied = {key for key in ("faces", "mirror") if piece.get(key) in names}
    if str(piece.get("begin_on")).removesuffix(".first") in names:
        tied.add("begin_on")
    return {key: value for key, value in piece.items() if key not in tied}


def _joined(seam: Raw) -> list[object]:
    edges = seam.get("join")
    return [str(edge).rpartition(".")[0].strip() for edge in edges] if isinstance(edges, list) else []


def _check_yarn_names(notes: Notes, raw: Raw, sizes: Sequence[str]) -> None:
    """A yarn's name is the same in all sizes, and would be read as one for each."""
    yarns = raw.get("yarn")
    for number, yarn in enumerate(yarns if isinstance(yarns, list) else []):
        name = yarn.get("name") if isinstance(yarn, dict) else None
        if len(figures(name) or ()) == len(sizes):
            allowed = "a name with as many words in brackets would be read as one for each size"
            notes.say(Place(f"yarn {number + 1}", ("yarn", number)).key("name"), told(name), allowed)


def _numbered(name: str, number: int, table: Raw) -> Place:
    named = table.get("name")
    return Place(f"{name} {told(named)}" if isinstance(named, str) else f"{name} {number + 1}", (name, number))


class _Chooser:
    """Chooses the values of the size number ``nth`` (from 0) of ``sizes``."""

    def __init__(self, notes: Notes, sizes: Sequence[str], nth: int) -> None:
        self.notes, self.sizes, self.nth = notes, sizes, nth

    def table(self, kind: type[TomlTable], raw: Raw, place: Place) -> Raw:
        made: Raw = {}
        for name, value in raw.items():
            if name in WITHIN and isinstance(value, dict):
                made[name] = self.table(WITHIN[name], value, place.key(name))
                continue
            if name in WITHIN and isinstance(value, list):
                made[name] = [self._within(name, one, place.key(name).entry("entry", nth))
                              for nth, one in enumerate(value, 1)]  # fmt: skip
                continue
            if isinstance(kind.keys.get(name), SizedKey):
                value = self._value(value, place.key(name))
            if value is not None:
                made[name] = value
        return made

    def _within(self, name: str, value: object, place: Place) -> object:
        return self.table(WITHIN[name], value, place) if isinstance(value, dict) else value

    def _list(self, value: list[object], place: Place) -> list[object] | None:
        """The values of a list; None where one of them is wrong, or a dash, which a list cannot have."""
        for number, part in enumerate(value, 1):
            if (found := figures(part)) and any(figure in _DASHES for figure in found):
                self.notes.say(place.entry("entry", number), told(part), "a list has every entry in every size")
                return None
        parts = [self._value(part, place.entry("entry", number)) for number, part in enumerate(value, 1)]
        return None if None in parts else parts

    def _value(self, value: object, place: Place) -> object:
        """The value for this size; None where it has none, or where the brackets are wrong."""
        if isinstance(value, list):
            return self._list(value, place)
        found = figures(value)
        if found is None:
            return value
        if problem := _odd(str(value), found):
            self.notes.say(place, told(value), *problem)
            return None
        if len(found) != len(self.sizes):
            allowed = "one figure alone holds for all, else each size has its own, the first before the brackets"
            said = f"{told(value)}, {len(found)} values for {len(self.sizes)} sizes"
            self.notes.say(place, said, allowed, f"the sizes are {', '.join(self.sizes)}")
            return None
        return None if found[self.nth] in _DASHES else _as_in_toml(found[self.nth])


def _odd(value: str, found: Sequence[str]) -> tuple[str, str] | None:
    """What is allowed, and a hint, where figures in brackets can be read in two ways; None where they cannot."""
    if ";" not in value and re.search(r"[0-9],[0-9]", value):
        allowed = "decimals have a point here, or the sizes are parted by semicolons"
        return allowed, 'such as "48.5 (52, 57)", or "48,5 (52; 57)"'
    figures_alone = [part for part in found if part not in _DASHES]
    with_units = [_UNIT.search(part.lower()) is not None for part in figures_alone]
    if any(with_units) and not all(with_units):
        return "either every figure has its unit or one stands after the last bracket", 'such as "48 (52, 57) cm"'
    return None


def _as_in_toml(text: str) -> object:
    """A figure as the TOML reader gives it: a whole number, a decimal, or text such as "52 cm" and "21 1/4"."""
    if re.fullmatch(r"[0-9]{1,30}", text):
        return int(text)
    return Decimal(text) if re.fullmatch(r"[0-9]{1,30}\.[0-9]{1,30}", text) else text
