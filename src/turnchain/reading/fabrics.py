"""The fabric of a pattern file: its kind by name, and what the file says of its clusters.

In: the [fabric] table. Out: a ``pattern.Fabric``; notes of what cannot be worked.
"""

from __future__ import annotations

from pathlib import PurePath
from typing import Any

from turnchain import pattern
from turnchain.errors import MakerError
from turnchain.fabric import library
from turnchain.reading import swatches, toml_text
from turnchain.reading.notes import Notes
from turnchain.reading.places import Place
from turnchain.reading.quoting import printable, told
from turnchain.reading.tables import FabricTable, FileTable, SwatchTable
from turnchain.reading.toml_text import Beside
from turnchain.records import replace


def fabric(
    notes: Notes, file: FileTable, readings: list[SwatchTable], folder: Beside | None = None
) -> pattern.Fabric:
    """What the file says of its fabric: clusters of its own, or those of the kind it names with what it changes of
    them; a fabric that is made otherwise stays as it is. By ``readings`` of the swatch rows of a kind with a swatch of
    its own are as high as in that. ``folder`` is where the file lies, or what lies beside it by its
    name (None: nowhere), with a fabric's own file among it."""
    place = Place().key("fabric")
    found = notes.table(FabricTable, file.fabric or {}, place)
    made = _with_rows(notes, place, found, _units(notes, place, found, file, folder))
    edged = {str(one.get("stitch", "sc")) for one in file.edging or ()}
    edged |= {"sc" for one in file.piece or () if one.get("begin_on") == pattern.ON_ARMHOLE}
    return _measured(notes, made, readings, edged)


def noun_of(file: FileTable, folder: Beside | None) -> str:
    """What comes again across a row of the file's fabric, in English: a "cluster" where it cannot be worked."""
    try:
        return library.recipe_of(fabric(Notes("cm"), file, [], folder)).noun
    except library.UnsoundRecipe:
        return "cluster"


def _measured(
    notes: Notes, made: pattern.Fabric, readings: list[SwatchTable], edged: set[str]
) -> pattern.Fabric:
    """The fabric with the heights and weights of rows that have a swatch of their own; ``edged``: the stitches
    along edges, which may have one too."""
    known = {*made.rows, *made.base, *made.last, *edged}
    heights, weights = swatches.shares_if_sound(readings)
    for kind, _ in heights:
        if kind not in known:
            allowed = "a swatch of its own is for rows that [fabric] (`rows`, `base`, `last`) or an edging names"
            notes.say(_of_kind(readings, kind), f"no row is of {kind}", allowed)
            return made
    if not heights:
        return made
    with_own = replace(made, heights=heights, weights=weights)
    try:
        library.recipe_of(with_own)
    except library.UnsoundRecipe as error:
        notes.say(_of_kind(readings, heights[0][0]), error.found, error.allowed, "count again")
        return made
    return with_own


def _of_kind(readings: list[SwatchTable], kind: str) -> Place:
    first = next(nth for nth, one in enumerate(readings) if kind in one.sound)
    return Place("swatch", ("swatch", first)).key(kind)


def _units(
    notes: Notes, place: Place, found: FabricTable, file: FileTable, folder: Beside | None
) -> pattern.Fabric:
    """The fabric without what is said of its rows."""
    if found.kind is not None and found.kind.endswith(".toml"):
        return _own(notes, place.key("kind"), found.kind, folder)
    plain = pattern.Fabric() if found.kind is None else library.clusters_of(found.kind)
    if plain is None:
        assert found.kind is not None, "clusters are what a fabric without a kind is made of"
        for key in ("cluster", "gap", "stitch"):
            if key in (file.fabric or {}):
                allowed = f'a fabric of kind "{found.kind}" has its own; only fabrics of clusters can be changed'
                notes.say(place.key(key), f"`{key}`", allowed, "leave it out")
        return pattern.Fabric(kind=found.kind)
    own: dict[str, Any] = {key: value for key, value in found.sound.items() if key in ("cluster", "gap", "stitch")}
    made = replace(plain, **own)
    if made.cluster == 1 and made.gap == 0:
        key = "gap" if "gap" in found.sound else "cluster"
        allowed = "one stitch is worked into the gap of the row below, so it needs a chain beside it"
        notes.say(place.key(key), "clusters of 1 without a gap", allowed, "gap = 1, or cluster = 2")
    return made


def _own(notes: Notes, place: Place, name: str, folder: Beside | None) -> pattern.Fabric:
    """The fabric in a maker's own file beside the pattern; clusters where it cannot be worked, which is noted."""
    if folder is None or PurePath(name).name != name:
        notes.say(place, told(name), "a fabric of your own is a file beside the pattern file", "write its name alone")
        return pattern.Fabric()
    try:
        there = toml_text.text_beside(folder, name)
        if there is None:
            allowed = "there is no such file beside the pattern file"
            notes.say(place, told(name), allowed, "look at how its name is written")
            return pattern.Fabric()
        text, source = there
        data = toml_text.tables_of(text, source) if text.strip() else {}
        library.recipe_from(name, data)
    except MakerError as error:
        notes.say(place, told(name), str(error))
        return pattern.Fabric()
    except library.UnsoundRecipe as error:
        notes.say(place, f"{printable(name)}, {error.place}: {error.found}", error.allowed)
        return pattern.Fabric()
    own: dict[str, Any] = dict(data)  # words and whole numbers, as the recipe was sound
    return pattern.Fabric(kind=name, own=tuple(sorted(own.items())))


def _with_rows(notes: Notes, place: Place, found: FabricTable, made: pattern.Fabric) -> pattern.Fabric:
    """The fabric with what the file says of its rows, its foundation and its turning chain; notes what does not
    agree."""
    names = ("rows", "base", "last", "then", "start", "turning_chain", "turning_chain_counts")
    own: dict[str, Any] = {key: value for key, value in found.sound.items() if key in names}
    if found.rows and found.rows[0] != "cluster":
        allowed = 'rows go round from the first row of clusters, so they begin with "cluster"'
        notes.say(place.key("rows"), told(found.rows[0]), allowed, "name the rows before it in base")
        own["rows"] = ("cluster",)
    if found.foundation in library.STITCH_NAMES:
        if found.base:
            notes.say(place.key("foundation"), told(found.foundation), "base says how the foundation is worked over")
        own["base"] = (found.foundation,)
    own["grouped"] = found.foundation == "grouped" or None
    with_rows = replace(made, **{key: value for key, value in own.items() if value is not None})
    if with_rows == made:
        return made
    if with_rows.grouped and library.recipe_of(made).stacked:
        allowed = f"in this fabric every {notes.noun} is worked into one chain anyway"
        notes.say(place.key("foundation"), told("grouped"), allowed, "leave it out")
    try:
        library.recipe_of(with_rows)
    except library.UnsoundRecipe as error:
        notes.say(place.key(error.place), error.found, error.allowed)
        return made
    return with_rows
