"""What must agree within the wearer: the row of a size table, and measures that a body can have.

In: the wearer of a file. Out: what is sound of it, and notes of what does not agree. A body outside a row of a table is
normal; only what no body measures is refused, since it is most often a slip of the unit.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from typing import Final

from turnchain import sizes
from turnchain.reading.notes import Notes
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, meant, nearest, told
from turnchain.reading.tables import FileTable, WearerTable
from turnchain.units import shown

#: Other words for a size, and the row that is meant.
_OTHERWISE: Final = {"xl": "1X", "1xl": "1X", "xxl": "2X", "2xl": "2X", "3xl": "3X", "4xl": "4X", "5xl": "5X"}
_HERE: Final = Place().key("wearer")
_LEVELS: Final = ("waist_length", "hip_length", "knee_length")  # each lies below the one before


def wearer(notes: Notes, file: FileTable) -> WearerTable | None:
    """What is sound of the wearer, lengths in cm; None where the file has none. Notes a row that no table has, and
    measures that no body has or that do not go together."""
    if file.wearer is None:
        return None
    raw = file.wearer
    found = notes.table(WearerTable, raw, _HERE)
    if not raw:
        allowed = "a wearer has a row of a size table, own measures, or both"
        notes.say(_HERE, "no measure", allowed, 'write table = "woman" and size = "M", or head = 56')
    for one, other in (("table", "size"), ("size", "table")):
        if one in raw and other not in raw:
            said = f"`{one}` without `{other}`"
            notes.say(_HERE.without(other), said, f"the {other} is needed too", _example(one, found))
    if found.table and found.size:
        _check_row(notes, found.table, found.size)
    _check_who(notes, found)
    _check_measures(notes, found)
    return found


def _check_who(notes: Notes, found: WearerTable) -> None:
    """Whether the table suits whom the pieces are for: cautions for children depend on that."""
    wearers = {"woman": "adult", "child": "child"}
    if found.who and found.table and found.who != wearers[found.table]:
        said = f"{told(found.who)} with table = {told(found.table)}"
        allowed = f"that table is for who = {told(wearers[found.table])}"
        notes.say(_HERE.key("who"), said, allowed, "leave one of them out")


def _example(given: str, found: WearerTable) -> str:
    """What to write beside a table without a size, or a size without a table."""
    if given == "table":
        return f"size = {told('4' if found.table == 'child' else 'M')}"
    home = _home(found.size or "")
    return f"table = {told(home)}" if home else ""


def _home(size: str) -> str:
    """The table that has a row of this size."""
    return next((name for name, rows in sizes.tables().items() if size in rows), "")


def _check_row(notes: Notes, table: str, size: str) -> None:
    rows = next(rows for name, rows in sizes.tables().items() if name == table)
    if size in rows:
        return
    likely = _OTHERWISE.get(size.casefold(), "")
    if likely in rows:
        hint = meant(likely)
    elif home := _home(size):
        hint = f"the table {told(home)} has this size"
    else:
        hint = nearest(size, rows, '"') or "for a body between sizes or beyond them give own measures"
    notes.say(_HERE.key("size"), f"there is no size {told(size)}", f"the sizes of {told(table)} are {_all(rows)}", hint)


def _all(rows: dict[str, sizes.Row]) -> str:
    """Every size there is: a maker looks for their own."""
    return ", ".join(listed([size]) for size in rows)


def _check_measures(notes: Notes, found: WearerTable) -> None:
    for name, (least, most) in sizes.POSSIBLE.items():
        cm: Fraction | None = found.sound.get(name)  # type: ignore[assignment]  # lengths, by the table
        if cm is not None and not least <= cm <= most:
            span = f"{shown(Fraction(least), notes.unit)} to {shown(Fraction(most), notes.unit)}"
            notes.say(_HERE.key(name), shown(cm, notes.unit), f"a body has {span} there", "look at the unit")
    _check_rounds(notes, found)
    known = [(name, found.sound[name]) for name in _LEVELS if name in found.sound]
    for (upper, high), (lower, low) in pairwise(known):
        if low <= high:  # type: ignore[operator]  # lengths, by the table
            said = f"`{lower}` is not more than `{upper}`"
            allowed = "both are measured down from the nape, and waist, hip and knee follow each other"
            notes.say(_HERE.without(lower), said, allowed)


def _check_rounds(notes: Notes, found: WearerTable) -> None:
    """Rounds of one body that are much too far apart: most often inches beside cm."""
    rounds = {name: cm for name, cm in (("bust", found.bust), ("waist", found.waist), ("hip", found.hip)) if cm}
    for (one, first), (other, second) in combinations(rounds.items(), 2):
        if max(first, second) > 2 * min(first, second):
            said = f"{shown(second, notes.unit)}, and a `{one}` of {shown(first, notes.unit)}"
            allowed = "of one body neither is more than twice the other"
            notes.say(_HERE.key(other), said, allowed, "look at the unit")
