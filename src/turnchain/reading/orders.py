"""What must agree within stripes: the kind and its keys, heights, the yarns they name and the stock.

In: the stripes of a file or of a piece, and its yarns. Out: notes of what does not agree.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from turnchain import pattern
from turnchain.reading.notes import MOST_TOLD, Notes
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, nearest, told
from turnchain.reading.tables import FileTable, StripesTable, YarnTable
from turnchain.reading.toml_text import Raw
from turnchain.yarns.stripes import heights

_NEEDS_ORDER: Final = 'stripes need the names of yarns in their order, such as ["Reed", "Silt"]'
_ALL_YARNS: Final = ("random", "stash")  # take all yarns where no order is given

#: Keys that are kinds of row: the yarn of all such rows.
_OF_KINDS: Final = ("cluster", "sc", "hdc", "dc", "tr")

#: Keys that only some kinds have; the others have them all.
KINDS_OF: Final = {
    "rows": ("list", "mirrored", "between"),
    "begin": ("mirrored",),
    "numbers": ("numbers",),
    "run": ("numbers",),
    "block": ("gradual",),
    "seed": ("random",),
    "apart": ("random", "stash"),
    "least": ("random", "stash"),
    "most": ("numbers", "random", "stash"),
    "even": ("gradual", "random", "stash"),
    "between": ("between",),
    "between_rows": ("between",),
    "every": ("between",),
    "use_up": ("stash",),
    **dict.fromkeys(_OF_KINDS, ("list", "mirrored", "numbers", "gradual", "random", "between")),
}


def kind_of(stripes: StripesTable, raw: Raw) -> str | None:
    """The kind of the stripes, "list" where the file has none; None where what it has is not one."""
    return stripes.kind or (None if "kind" in raw else "list")


def check(notes: Notes, stripes: StripesTable, raw: Raw, place: Place, yarns: list[YarnTable], known: bool) -> None:
    """Notes what does not agree in the ``stripes`` at ``place``, written as ``raw``. ``known``: whether ``yarns`` are
    all that the file was meant to have; else the names of yarns are not checked."""
    kind = kind_of(stripes, raw)
    if not {"order", *_OF_KINDS} & set(raw) and kind not in (*_ALL_YARNS, None):
        notes.say(place.without("order"), "no `order`", _NEEDS_ORDER)
    if kind == "between" and "between" not in raw:
        allowed = 'stripes of this kind need the yarn that stands between all others, such as between = "Silt"'
        notes.say(place.without("between"), "no `between`", allowed)
    _check_keys(notes, kind, raw, place)
    names = [yarn.name for yarn in yarns if yarn.name]
    if known and not yarns:
        notes.say(place, "stripes without a yarn", "each name in the order must be that of a [[yarn]]")
    elif known and len(names) == len(yarns):  # else the name that is missing may be one that was refused
        _check_names(notes, stripes, place, names)
        _check_heights(notes, stripes, kind, place)
        _check_number(notes, stripes, raw, kind, place, names)


def _check_keys(notes: Notes, kind: str | None, raw: Raw, place: Place) -> None:
    for key, kinds in KINDS_OF.items() if kind else ():
        if key in raw and kind not in kinds:
            either = " or ".join(f'"{one}"' for one in kinds)
            notes.say(place.key(key), f'the kind of these stripes is "{kind}"', f"`{key}` is for kind = {either}")


def _check_names(notes: Notes, stripes: StripesTable, place: Place, names: list[str]) -> None:
    for key, used in _names_used(stripes):
        for name in sorted(set(used) - set(names))[:MOST_TOLD]:
            hint = nearest(name, names, '"')
            notes.say(place.key(key), f"there is no yarn {told(name)}", f"the yarns are {listed(names)}", hint)
    if stripes.between and stripes.between in (stripes.order or ()):
        allowed = "the yarn between all others must not be one of them"
        notes.say(place.key("between"), f"{told(stripes.between)} stands in the order too", allowed)
    if stripes.order and set(stripes.order) <= set(names):
        for name in sorted(set(stripes.use_up or ()) & set(names) - set(stripes.order)):
            allowed = "only yarns in the order can be used up"
            notes.say(place.key("use_up"), f"{told(name)} is not in the order", allowed)


def _names_used(stripes: StripesTable) -> Iterator[tuple[str, tuple[str, ...]]]:
    yield "order", stripes.order or ()
    yield "between", (stripes.between,) if stripes.between else ()
    yield "use_up", stripes.use_up or ()
    for kind in _OF_KINDS:
        if isinstance(name := stripes.sound.get(kind), str):
            yield kind, (name,)


def check_kinds(notes: Notes, stripes: StripesTable, place: Place, fabric: pattern.Fabric) -> None:
    """Notes the yarns of kinds of row that the ``fabric`` does not have."""
    known = {*fabric.rows, *fabric.base, *fabric.last}
    for kind in _OF_KINDS:
        if kind in stripes.sound and kind not in known:
            allowed = f"the kinds of row of [fabric] are {listed(sorted(known))}"
            notes.say(place.key(kind), f"no row is of {kind}", allowed, "name it in `rows`, `base` or `last` there")


def _check_heights(notes: Notes, stripes: StripesTable, kind: str | None, place: Place) -> None:
    if kind not in ("random", "stash"):
        return
    if stripes.least and stripes.most and stripes.least > stripes.most:
        notes.say(place.key("least"), str(stripes.least), f"must not be more than the `most` of {stripes.most}")
    elif not heights(stripes.made(pattern.Stripes)):
        allowed = "must leave room for stripes of an even number of rows, or `even` must go"
        notes.say(place.key("even"), "no even number lies from `least` to `most`", allowed)


def _check_number(
    notes: Notes, stripes: StripesTable, raw: Raw, kind: str | None, place: Place, names: list[str]
) -> None:
    """Whether there are yarns enough for the kind, and for ``apart``."""
    if "order" in raw and not stripes.order:
        return
    count = len(set(stripes.order or names))
    crossing = kind == "numbers" and stripes.run == "crossing"
    if count < 2 and (kind in ("random", "gradual", "stash") or crossing):
        words = f'stripes of kind "{kind}"' if not crossing else 'numbers with run = "crossing"'
        notes.say(place, "one yarn", f"{words} need two yarns at least")
    elif kind in ("random", "stash") and stripes.apart and stripes.apart > count - 1:
        allowed = f"must be at most {count - 1}: with {count} yarns no more others can stand between"
        notes.say(place.key("apart"), str(stripes.apart), allowed)


def check_stash(notes: Notes, stripes: StripesTable, file: FileTable, yarns: list[YarnTable], known: bool) -> None:
    """Notes what stripes from the stash lack: the weight of a swatch, and grams in hand: of every yarn in the order, or
    without one of some yarn, and more than 0 of one at least. ``known`` as for ``check``."""
    if file.swatch and not any("weight" in raw for raw in file.swatch):
        allowed = "stripes from the stash need the weight of a swatch"
        place = Place("swatch", ("swatch", 0)).without("weight")
        notes.say(place, "no `weight`", allowed, "weigh a swatch, and measure all of it")
    raws = {yarn.name: raw for yarn, raw in zip(yarns, file.yarn or (), strict=True)}
    used = [yarn for yarn in yarns if yarn.name and (not stripes.order or yarn.name in stripes.order)]
    if not known or not used:
        return
    if stripes.order or not any("stock" in raws[yarn.name] for yarn in used):
        for i, yarn in enumerate(yarns):
            if yarn in used and "stock" not in raws[yarn.name]:
                place = Place(f"yarn {told(yarn.name)}", ("yarn", i))
                allowed = "stripes from the stash need the grams in hand"
                notes.say(place.without("stock"), "no `stock`", allowed, "stock = 0 for none")
    if all(yarn.stock == 0 for yarn in used):
        notes.say(Place().key("stripes"), "a stock of nothing", "at least one yarn must have grams in hand")
