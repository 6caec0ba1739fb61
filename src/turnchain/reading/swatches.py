"""What must agree within the swatch: what was counted and where, readings of one fabric, the weight and its area.

In: the swatches of a file. Out: what is sound of them, and notes of what does not agree or cannot be meant.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Final, cast

from turnchain import pattern
from turnchain.fabric.gauge import Gauge, Shares, gauge_of, shares_of
from turnchain.fabric.library import STITCH_NAMES
from turnchain.reading.notes import Notes
from turnchain.reading.places import Place
from turnchain.reading.tables import FileTable, RowSwatchTable, SwatchTable
from turnchain.reading.toml_text import Raw
from turnchain.units import INCH, plain, shown

#: Readings of one fabric are a few per cent apart; twice is a slip. Wide on purpose; common sense, no source.
MOST_APART: Final = 2
#: Grams to the square metre, least and most. The closed fabric in a DK yarn has 700 to 1100 (two published blankets);
#: lace is far lighter, rope far heavier. Wide on purpose; the ends have no source.
SANE_GRAMS: Final = (20, 10_000)


def swatches(notes: Notes, file: FileTable) -> list[SwatchTable]:
    """What is sound of the readings of the swatch, in the order of the file (lengths in cm, weights in g); notes what
    does not agree or cannot be meant."""
    raws = file.swatch or []
    for wanted, across in (("clusters", "width"), ("rows", "height")):
        if raws and not any(wanted in raw for raw in raws):
            counted = _counted(notes, wanted)
            allowed = f"a swatch must tell how many {counted} were counted in its {across}"
            notes.say(_place(0, 1).without(wanted), f"no `{wanted}`", allowed)
    places = [_place(i, len(raws)) for i in range(len(raws))]
    found = [_swatch(notes, raw, place) for raw, place in zip(raws, places, strict=True)]
    _check_apart(notes, found, places, notes.noun, lambda one: _ratio(one.width, one.clusters))
    _check_apart(notes, found, places, "row", lambda one: _ratio(one.height, one.rows))
    return found


def gauge_if_sound(readings: list[SwatchTable]) -> Gauge | None:
    """The gauge (cm) of what is sound in the readings; None where no width or no height with its count is."""
    try:
        return gauge_of([reading.made(pattern.Swatch) for reading in readings])
    except ValueError:
        return None


def shares_if_sound(readings: list[SwatchTable]) -> tuple[Shares, Shares]:
    """How high and how heavy rows are that have a swatch of their own, as ``shares_of`` has them; none where what is
    sound of the readings does not give the height of a row."""
    try:
        return shares_of([reading.made(pattern.Swatch) for reading in readings])
    except ValueError:
        return (), ()


def _place(index: int, count: int) -> Place:
    return Place("swatch" if count == 1 else f"swatch {index + 1}", ("swatch", index))


def _counted(notes: Notes, key: str) -> str:
    """What is counted by a ``key`` of the swatch."""
    return f"{notes.noun}s" if key == "clusters" else key


def _swatch(notes: Notes, raw: Raw, place: Place) -> SwatchTable:
    area = "weighed" in raw or {"width", "height"} <= raw.keys()
    for wanted, across in (("clusters", "width"), ("rows", "height")):
        counted = _counted(notes, wanted)
        if wanted in raw and across not in raw:
            allowed = f"the {across} in which they were counted is needed"
            notes.say(place.without(across), f"`{wanted}` without `{across}`", allowed)
        elif across in raw and wanted not in raw and not ("weight" in raw and "weighed" not in raw):
            allowed = f"the {counted} counted in it are needed"
            notes.say(place.without(wanted), f"`{across}` without `{wanted}`", allowed)
    if "weight" in raw and not area:
        allowed = "the size of what was weighed is needed"
        notes.say(place.without("weighed"), "`weight` without a size", allowed, "add weighed = [width, height]")
    if "weighed" in raw and "weight" not in raw:
        notes.say(place.without("weight"), "`weighed` without `weight`", "the weight in grams is needed")
    found = notes.table(SwatchTable, raw, place)
    _check_weight(notes, found, place)
    kinds = [_of_kind(notes, kind, found, place) for kind in STITCH_NAMES if found.sound.get(kind) is not None]
    if sound := tuple(one for one in kinds if one is not None):
        found.sound["kinds"] = sound
    return found


def _of_kind(notes: Notes, kind: str, whole: SwatchTable, place: Place) -> pattern.RowSwatch | None:
    """The swatch of its own that solid rows of a stitch have; None where it is not sound."""
    place, raw = place.key(kind), cast("Raw", whole.sound[kind])
    found = notes.table(RowSwatchTable, raw, place)
    both = (("weight", "weighed"), ("weighed", "weight"), ("stitches", "width"), ("width", "stitches"))
    for one, other in both:
        if one in raw and other not in raw:
            notes.say(place.without(other), f"`{one}` without `{other}`", "both are needed, or neither")
    if found.weight and not whole.weight:
        allowed = "the weight of the whole swatch is needed beside it, or the others have none"
        notes.say(place.key("weight"), "the weight of these rows alone", allowed)
    return found.made(pattern.RowSwatch, stitch=kind) if found.rows and found.height else None


def _check_weight(notes: Notes, found: SwatchTable, place: Place) -> None:
    """Grams that crochet of this size can weigh."""
    wide, high = found.weighed or (found.width, found.height)
    if not (found.weight and wide and high):
        return
    least, most = SANE_GRAMS
    dense = found.weight / (wide * high) * 10_000  # square cm in a square metre
    if not least <= dense <= most:
        size = f"{plain(wide)} x {plain(high)} cm"
        said = f"{plain(found.weight)} g on {size}, {plain(dense)} g to the square metre"
        allowed = f"must be {least} to {most} g to the square metre, as crochet is"
        notes.say(place.key("weight"), said, allowed, "look at the weight, the size of what was weighed, and the unit")


def _ratio(size: Fraction | None, count: Fraction | None) -> Fraction | None:
    return size / count if size and count else None


def _check_apart(
    notes: Notes,
    found: list[SwatchTable],
    places: list[Place],
    what: str,
    size_of: Callable[[SwatchTable], Fraction | None],
) -> None:
    """Readings of one fabric that are much too far apart."""
    sizes = {place: size for one, place in zip(found, places, strict=True) if (size := size_of(one))}
    if not sizes or max(sizes.values()) < MOST_APART * min(sizes.values()):
        return
    extremes = {min(sizes, key=lambda place: sizes[place]), max(sizes, key=lambda place: sizes[place])}
    one, other = (place for place in sizes if place in extremes)
    times = max(sizes.values()) / min(sizes.values())
    inches = abs(times / INCH - 1) < Fraction(1, 10)
    notes.say(
        one,
        f"a {what} of {shown(sizes[one], notes.unit)}, and of {shown(sizes[other], notes.unit)} in {other.words}",
        "the readings of one fabric must be less than twice apart",
        "one of them looks like inches taken for cm" if inches else "count again, or leave one out",
    )
