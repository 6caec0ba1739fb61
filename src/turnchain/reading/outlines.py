"""Outlines: names of their stretches, triangles, and shapes turned over.

In: a piece as it stands in the file. Out: the same with its triangle as an outline, its named stretches, or left and
right changed about.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final, Literal

from turnchain import pattern
from turnchain.reading import shapes
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import HalfTriangleTable, PieceTable, TriangleTable
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, told
from turnchain.reading.toml_text import Raw
from turnchain.records import replace

#: Names that an edge has without being named.
_TAKEN: Final = ("first", "last", "left", "right", "lower", "upper", "shoulder")
_LINES: Final = ("outline", "left_outline", "right_outline")


def without_names(raw: Raw) -> tuple[Raw, dict[str, list[object]]]:
    """A piece as it stands in the file without the names in its outlines, and those names: for every point that of the
    stretch that ends there, None where it has none."""
    plain = dict(raw)
    names: dict[str, list[object]] = {}
    for key in _LINES:
        points = raw.get(key)
        if isinstance(points, list) and any(_named(point) for point in points):
            plain[key] = [point[:2] if _named(point) else point for point in points]
            names[key] = [point[2] if _named(point) else None for point in points]
    return plain, names


def _named(point: object) -> bool:
    return isinstance(point, list) and len(point) == 3 and isinstance(point[2], str)


def name_stretches(notes: Notes, piece: PieceTable, names: Mapping[str, list[object]], place: Place) -> None:
    """Gives a ``piece`` the stretches that are named in its outlines, as far as these are sound."""
    if not names:
        return
    from turnchain.reading.part_lines import Corner, stretches  # few outlines have names

    found: list[pattern.OutlineStretch] = []
    for key, said in names.items():
        points = getattr(piece, key)
        if points is None:
            continue
        _check_names(notes, said, place.key(key))
        corners = [Corner(height, reach, str(name or "")) for (height, reach), name in zip(points, said, strict=True)]
        if key != "right_outline":
            found += stretches(corners, "left")
        if key != "left_outline":
            found += stretches(corners, "right")
    if found:
        piece.sound["stretches"] = tuple(found)


def _check_names(notes: Notes, said: Iterable[object], place: Place) -> None:
    for nth, name in enumerate(said, 1):
        if name is None:
            continue
        here = place.entry("point", nth)
        if nth == 1:
            allowed = "a name is that of the stretch which ends at its point"
            notes.say(here, f"the name {told(str(name))}", allowed, "write it at the next point")
        elif str(name) in _TAKEN or not str(name).strip() or "." in str(name):
            notes.say(here, told(str(name)), f"must be a name without a point, and not {listed(_TAKEN)}")


def triangle(notes: Notes, piece: PieceTable, place: Place) -> None:
    """Gives a piece that is a triangle its outline: begun at its point, or worked sideways, from one end of its long
    edge, along which it grows at the other edge; a whole one goes back to a point at the other end."""
    kinds = (("triangle", TriangleTable, piece.triangle), ("half_triangle", HalfTriangleTable, piece.half_triangle))
    for key, kind, raw in kinds:
        if raw is None:
            continue
        found = notes.table(kind, raw, place.key(key))
        width, height = found.sound.get("width"), found.sound.get("height")
        sideways = piece.worked == "sideways"
        if isinstance(width, Fraction) and isinstance(height, Fraction):
            piece.sound["outline"] = _triangle(width, height, sideways, key == "triangle")
        if key == "half_triangle" or sideways:
            piece.sound["align"] = found.sound.get("straight", "right" if key == "triangle" else "left")


def _triangle(width: Fraction, height: Fraction, sideways: bool, whole: bool) -> shapes.Points:
    zero = Fraction(0)
    if not sideways:
        return (zero, zero), (height, width)
    return ((zero, zero), (width / 2, height), (width, zero)) if whole else ((zero, zero), (width, height))


def mirrored(piece: PieceTable) -> None:
    """Turns a ``piece`` over: left and right of its shape change places."""
    sound, other = piece.sound, {"left": "right", "right": "left"}
    for one, two in (("left_outline", "right_outline"),):
        if one in sound or two in sound:
            sound[one], sound[two] = sound.get(two), sound.get(one)
    for key in ("align", "neck_edge"):
        if sound.get(key) in other:
            sound[key] = other[str(sound[key])]
    if piece.sound.get("worked") == "sideways" and "neck_edge" not in sound:
        sound["neck_edge"] = "left"
    upper = sound.get("upper")
    if isinstance(upper, pattern.UpperEdge):
        sound["upper"] = _turned(upper)
    if "stretches" in sound:
        turned = (replace(one, side=other[one.side]) for one in sound["stretches"])  # type: ignore[attr-defined]
        sound["stretches"] = tuple(sorted(turned, key=lambda one: (one.side, one.low, one.high)))


def _turned(upper: pattern.UpperEdge) -> pattern.UpperEdge:
    other: dict[str, Literal["left", "right", "both"]] = {"left": "right", "right": "left", "both": "both"}
    armhole, front = upper.armhole, upper.front
    if armhole is not None:
        armhole = replace(armhole, edge=other[armhole.edge])
    if front is not None:
        front = replace(front, side="right" if front.side == "left" else "left")
    return replace(upper, armhole=armhole, front=front)
