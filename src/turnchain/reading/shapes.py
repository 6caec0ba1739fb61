"""What must agree within a piece: its size, its outline, its neck.

In: what is sound of a piece, and the piece as it stands in the file. Out: notes of what does not fit together.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from fractions import Fraction
from operator import itemgetter
from typing import Final, TypeAlias

from turnchain import pattern
from turnchain.fabric.gauge import Gauge
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import NeckTable, PieceTable
from turnchain.reading.places import Place
from turnchain.reading.toml_text import Raw
from turnchain.reading.values import Point
from turnchain.units import shown

Points: TypeAlias = tuple[Point, ...]

PANEL: Final = ("width", "length")
EDGES: Final = ("left_outline", "right_outline")
TRIANGLES: Final = (("triangle",), ("half_triangle",))
_FORMS: Final = (("outline",), EDGES, PANEL, *TRIANGLES)  # a piece has one of them


def check(notes: Notes, piece: PieceTable, raw: Raw, place: Place, gauge: Gauge | None) -> NeckTable | None:
    """Notes what does not agree in a piece; gives what is sound of its neck, None where it has none. Without a
    ``gauge`` its size in rows and clusters is not checked."""
    _check_form(notes, raw, place)
    for key, points in (
        ("outline", piece.outline),
        ("left_outline", piece.left_outline),
        ("right_outline", piece.right_outline),
    ):
        if points:
            across = "width" if key == "outline" else "reach"
            _check_points(notes, points, across, place.key(key))
    if piece.left_outline and piece.right_outline:
        _check_edges(notes, piece.left_outline, piece.right_outline, place)
    if gauge:
        _check_size(notes, piece, place, gauge)
    return _neck(notes, piece, raw, place.key("neck"))


def upwards(raw: Raw) -> bool:
    """Whether a piece is worked upwards, as one is where the file does not say; False too for a word not allowed."""
    return raw.get("worked", "upwards") == "upwards"


def sideways(raw: Raw) -> bool:
    """Whether the file has the piece worked sideways."""
    return raw.get("worked") == "sideways"


def form(raw: Raw) -> tuple[str, ...]:
    """The keys that give the form of a piece, of ``_FORMS``; empty where it has none of them, or those of two forms."""
    meant = [keys for keys in _FORMS if any(key in raw for key in keys)]
    return meant[0] if len(meant) == 1 else ()


def _check_form(notes: Notes, raw: Raw, place: Place) -> None:
    """A panel, an outline or two edges, and keys that fit."""
    given = [[key for key in keys if key in raw] for keys in _FORMS]
    forms = [" and ".join(f"`{key}`" for key in keys) for keys in given if keys]
    if len(forms) > 1:
        found = " together with ".join(forms)
        allowed = "a piece has either width and length, or an outline, or a left and a right outline, or is a triangle"
        notes.say(place, found, allowed, "leave one of them out")
    elif not forms:
        allowed = "a piece needs `width` and `length`, or an `outline`, or `left_outline` and `right_outline`"
        notes.say(place, "no size", allowed)
    for keys in (PANEL, EDGES):
        missing = [key for key in keys if key not in raw]
        if len(forms) <= 1 and len(missing) == 1:
            (one,) = set(keys) - set(missing)
            found = f"`{one}` without `{missing[0]}`"
            notes.say(place.without(missing[0]), found, f"a {missing[0].replace('_', ' ')} is needed too")
    _check_fitting(notes, raw, place)


def _check_fitting(notes: Notes, raw: Raw, place: Place) -> None:
    """Keys that only some pieces may have."""
    if "align" in raw and (kind := form(raw)) in (PANEL, EDGES):
        panel = kind == PANEL
        found = "this piece has width and length" if panel else "this piece has a left and a right outline"
        hint = "both its edges are straight" if panel else "the centre line they are measured from aligns them"
        notes.say(place.key("align"), found, "`align` is for pieces with an `outline`", f"leave it out: {hint}")
    if upwards(raw):
        for key in ("neck_edge", "faces"):
            if key in raw:
                allowed = f'`{key}` is for pieces with worked = "sideways"'
                notes.say(place.key(key), "this piece is worked upwards", allowed)
    if "neck_edge" in raw and "faces" in raw:
        allowed = "the edge follows from the piece it faces"
        notes.say(place, "`neck_edge` together with `faces`", allowed, "leave one of the two out")


# ---------------------------------------------------------------------------------------------------- outlines


def _check_points(notes: Notes, points: Points, across: str, place: Place) -> None:
    heights = [height for height, _ in points]
    if heights[0] != 0:
        found = f"height {shown(heights[0], notes.unit)}"
        notes.say(place.entry("point", 1), found, "the first height must be 0")
    for i in range(1, len(heights)):
        here = place.entry("point", i + 1)
        if heights[i] < heights[i - 1]:
            found = f"height {shown(heights[i], notes.unit)} after {shown(heights[i - 1], notes.unit)}"
            hint = f"a point is [height, {across}], from the first row on"
            notes.say(here, found, "heights must not fall", hint)
        elif i > 1 and heights[i] == heights[i - 1] == heights[i - 2]:
            found = f"a third point at {shown(heights[i], notes.unit)}"
            notes.say(here, found, "at most two points may share a height, for a step")
    if heights[-1] == heights[0]:
        notes.say(place, "no height", "the last height must be greater than the first")
    else:
        _check_end_steps(notes, points, place)


def _check_end_steps(notes: Notes, points: Points, place: Place) -> None:
    """A step needs a row before it and one after it."""
    (_, first), (height, second) = points[0], points[1]
    if height == points[0][0] and first != second:
        hint = "leave point 1 out"
        notes.say(place.entry("point", 2), "a step at height 0", "no row comes before it", hint)
    (height, before), (last, after) = points[-2], points[-1]
    if height == last and before != after:
        hint = "make the piece higher, or leave the point out"
        notes.say(place.entry("point", len(points)), "a step at the last height", "no row comes after it", hint)


def _check_edges(notes: Notes, left: Points, right: Points, place: Place) -> None:
    """Two edges of one height that do not cross."""
    if left[-1][0] != right[-1][0]:
        found = f"a height of {shown(right[-1][0], notes.unit)}"
        allowed = f"must be {shown(left[-1][0], notes.unit)}, as in `left_outline`"
        notes.say(place.key("right_outline"), found, allowed, "both edges end at one height")
    elif (crossing := _crossing(left, right)) is not None:
        height, between = crossing
        found = f"{shown(between, notes.unit)} from edge to edge at height {shown(height, notes.unit)}"
        allowed = "left and right reach together must not be less than 0 at any height"
        notes.say(place.key(*EDGES), found, allowed)


def _crossing(left: Points, right: Points) -> Point | None:
    """The first height where one edge lies beyond the other, and by how much; None where there is none."""
    if any(edge[0][0] != 0 or list(edge) != sorted(edge, key=itemgetter(0)) for edge in (left, right)):
        return None  # noted already, and nothing can be said of heights that fall
    for height in sorted({height for height, _ in (*left, *right)}):
        for one, other in zip(_reaches(left, height), _reaches(right, height), strict=True):
            if one + other < 0:
                return height, one + other
    return None


def _reaches(points: Points, height: Fraction) -> Point:
    """The reach just below and just above ``height``, which differ at a step."""
    first = bisect_left(points, height, key=itemgetter(0))
    last = bisect_right(points, height, key=itemgetter(0))
    if first == last:
        (low, start), (high, end) = points[first - 1], points[first]
        reach = start + (end - start) * (height - low) / (high - low)
        return reach, reach
    return points[first][1], points[last - 1][1]


# ------------------------------------------------------------------------------------------------------- sizes


def _high(piece: PieceTable) -> tuple[tuple[str, ...], Fraction | None]:
    """The size in cm in the direction of work (None where it is missing), and the keys it stands in."""
    if piece.outline:
        return (_outline_key(piece),), piece.outline[-1][0]
    if piece.left_outline and piece.right_outline:
        return ("left_outline",), piece.left_outline[-1][0]
    return (("width",), piece.width) if piece.worked == "sideways" else (("length",), piece.length)


def _outline_key(piece: PieceTable) -> str:
    """The key that the outline stands in."""
    return next((key for (key,) in TRIANGLES if key in piece.sound), "outline")


def _wide(piece: PieceTable) -> tuple[tuple[str, ...], Fraction | None]:
    """The size in cm across the direction of work over all (None where it is missing), and the keys it stands in."""
    if piece.outline:
        return (_outline_key(piece),), max(width for _, width in piece.outline)
    if piece.left_outline and piece.right_outline:
        over_all = sum(max(reach for _, reach in edge) for edge in (piece.left_outline, piece.right_outline))
        return EDGES, max(Fraction(over_all), Fraction(0))
    return (("length",), piece.length) if piece.worked == "sideways" else (("width",), piece.width)


def _check_size(notes: Notes, piece: PieceTable, place: Place, gauge: Gauge) -> None:
    """One row and one cluster, or repeat, at least, and no more than ``MOST_ROWS`` and ``MOST_CLUSTERS``."""
    high = _high(piece)
    for (keys, cm), what, size, most in (
        (high if high[1] else (high[0], None), "rows", gauge.row, pattern.MOST_ROWS),  # no height: noted already
        (_wide(piece), f"{notes.noun}s", gauge.pitch, pattern.MOST_CLUSTERS),
    ):
        if cm is not None and not 1 <= (asked := round(cm / size)) <= most:
            found = f"{shown(cm, notes.unit)} is {asked} {what} at the swatch's gauge"
            hint = "look at the size, the swatch and the unit"
            notes.say(place.key(*keys), found, f"must be 1 to {most} {what}", hint)


# ------------------------------------------------------------------------------------------------------- necks


def _neck(notes: Notes, piece: PieceTable, raw: Raw, place: Place) -> NeckTable | None:
    if piece.neck is None:
        return None
    neck = notes.table(NeckTable, piece.neck, place)
    if sideways(raw) and form(raw) not in (PANEL, ()):
        allowed = "a neck is cut from the top, which an outline has only where it is worked upwards"
        hint = 'give width and length instead, or leave out worked = "sideways"'
        notes.say(place, "this piece has an outline and is worked sideways", allowed, hint)
        return neck
    width, across, height, down = _room(piece)
    if neck.shoulder and width is not None and 2 * neck.shoulder >= width:
        found = f"two shoulders of {shown(neck.shoulder, notes.unit)}"
        allowed = f"must leave room for a neck within the {across.format(shown(width, notes.unit))}"
        notes.say(place.key("shoulder"), found, allowed)
    if neck.depth and height and neck.depth >= height:
        allowed = f"must be less than the {down} of {shown(height, notes.unit)}"
        notes.say(place.key("depth"), shown(neck.depth, notes.unit), allowed)
    return neck


def _room(piece: PieceTable) -> tuple[Fraction | None, str, Fraction | None, str]:
    """The width and the height that a neck is cut from, each with its words."""
    if piece.outline:
        return piece.outline[-1][1], "width of {} at the top", piece.outline[-1][0], "height"
    if piece.left_outline and piece.right_outline:
        top = piece.left_outline[-1][1] + piece.right_outline[-1][1]
        return top, "width of {} at the top", piece.left_outline[-1][0], "height"
    return piece.width, "width of {}", piece.length, "length"
