"""The pieces of a file, their parts made into outlines, and the mirror images of others.

In: the [[piece]] tables as they stand in the file. Out: a ``ReadPiece`` for each, in their order, and after them one
for the second of every pair that is made mirrored.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple, cast

from turnchain.fabric.gauge import Gauge
from turnchain.pattern import OutlineStretch
from turnchain.reading import outlines, shapes
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import PARTS, NeckTable, PieceTable
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, nearest, told
from turnchain.reading.toml_text import Raw

if TYPE_CHECKING:
    from turnchain.reading.part_lines import PanelParts

#: What a piece that is the mirror image of another may have of its own.
_OWN: Final = ("name", "mirror", "count", "stripes", "stripes_begin", "before", "after")


class ReadPiece(NamedTuple):
    """What is sound of a piece and its neck (None where it has none), the piece as it stands in the file (``raw``), and
    its place there."""

    piece: PieceTable
    neck: NeckTable | None
    raw: Raw
    place: Place

    @property
    def stretches(self) -> tuple[OutlineStretch, ...]:
        """The named stretches of its outline."""
        return cast("tuple[OutlineStretch, ...]", self.piece.sound.get("stretches", ()))


def read_pieces(notes: Notes, raws: Sequence[Raw], gauge: Gauge | None) -> list[ReadPiece]:
    """What is sound of the pieces; without a ``gauge`` their sizes in rows and clusters are not checked, and what needs
    it is left out."""
    places = list(_places(raws))
    plain = [outlines.without_names(raw) for raw in raws]
    tables = [notes.table(PieceTable, raw, place) for (raw, _), place in zip(plain, places, strict=True)]
    written = []
    for piece, (raw, names), place in zip(tables, plain, places, strict=True):
        neck = _checked(notes, piece, raw, place, gauge)
        outlines.name_stretches(notes, piece, names, place)
        written.append(ReadPiece(piece, neck, raw, place))
    written = _with_outlines(notes, written, gauge)
    found = [_mirror_image(notes, one, written) for one in written]
    return [*found, *_second_of_pairs(notes, found)]


def _places(raws: Sequence[Raw]) -> Iterator[Place]:
    names = [raw.get("name") for raw in raws]
    for i, name in enumerate(names, 1):
        single = isinstance(name, str) and names.count(name) == 1
        numbered = f"piece {i} ({told(name)})" if isinstance(name, str) else f"piece {i}"
        yield Place(f"piece {told(name)}" if single else numbered, ("piece", i - 1))


def _checked(notes: Notes, piece: PieceTable, raw: Raw, place: Place, gauge: Gauge | None) -> NeckTable | None:
    """What is sound of the neck of a piece that is no mirror image; its form and its size are checked."""
    if "mirror" in raw:
        return None
    outlines.triangle(notes, piece, place)
    return shapes.check(notes, piece, raw, place, gauge)


def _with_outlines(notes: Notes, written: list[ReadPiece], gauge: Gauge | None) -> list[ReadPiece]:
    """All pieces, those with parts with their outlines; caps last, since they fit the armholes of others."""
    if not any(key in one.raw for one in written for key in PARTS):
        return written
    from turnchain.reading import parts  # for panels with parts

    panels: dict[str, PanelParts] = {}
    for one in written:
        made = parts.panel(notes, one.piece, one.neck, one.raw, one.place, gauge)
        if made is not None and one.piece.name:
            panels[one.piece.name] = made
    return [_with_outline(notes, one, panels) for one in written]


def _with_outline(notes: Notes, one: ReadPiece, panels: dict[str, PanelParts]) -> ReadPiece:
    from turnchain.reading import parts  # see above

    panel = panels.get(one.piece.name or "")
    if panel is not None and one.piece.cap is not None:
        panel = parts.with_cap(notes, panel, one.piece.cap, one.place, panels)
    if panel is None or "outline" in one.piece.sound:
        return one
    if panel.sideways:
        parts.as_upper_edge(one.piece, panel)
        return one
    parts.as_outline(one.piece, panel)
    if panel.front is None:
        return one
    # the neck of an open front is a part of its edge
    return one._replace(neck=None, raw={key: value for key, value in one.raw.items() if key != "neck"})


# ------------------------------------------------------------------------------------------------ mirror images


def _mirror_image(notes: Notes, one: ReadPiece, written: Sequence[ReadPiece]) -> ReadPiece:
    """A piece that is the mirror image of another with the shape of that; any other as it is."""
    if one.piece.mirror is None:
        return one
    others = {other.piece.name: other for other in written if other.piece.name and "mirror" not in other.raw}
    place = one.place.key("mirror")
    for key in one.raw:
        if key in PieceTable.keys and key not in _OWN:
            allowed = "a mirror image has the shape of its other; it may have " + listed(_OWN)
            notes.say(one.place.key(key), f"`{key}` together with `mirror`", allowed)
    if one.piece.mirror not in others:
        hint = nearest(one.piece.mirror, others, '"')
        found = f"there is no piece {told(one.piece.mirror)} to mirror"
        notes.say(place, found, f"the pieces are {listed(others)}", hint)
        return one
    return _turned(others[one.piece.mirror], one.piece.sound, one.raw, one.place)


def _turned(other: ReadPiece, own: dict[str, object], raw: Raw, place: Place) -> ReadPiece:
    """``other`` mirrored, with what a piece has of its ``own``."""
    kept = {key: value for key, value in other.piece.sound.items() if key not in _OWN}
    piece = PieceTable({**kept, **{key: value for key, value in own.items() if key in _OWN}})
    piece.sound["mirrors"] = other.piece.name
    outlines.mirrored(piece)
    return ReadPiece(piece, other.neck, {**other.raw, "name": raw.get("name")}, place)


def _second_of_pairs(notes: Notes, found: list[ReadPiece]) -> Iterator[ReadPiece]:
    """Of every piece that is made twice, mirrored: the second; both are named left and right."""
    for one in found:
        if not one.piece.mirrored:
            continue
        if one.piece.count != 2:
            allowed = "`mirrored` is for pieces made twice, as count = 2"
            notes.say(one.place.key("mirrored"), f"count = {one.piece.count or 1}", allowed)
            continue
        hands = ("right", "left") if _is_right(one) else ("left", "right")
        own = {**one.piece.sound, "count": 1, "name": f"{hands[1]} {one.piece.name}"}
        one.piece.sound |= {"count": 1, "name": f"{hands[0]} {one.piece.name}"}
        yield _turned(one, own, {**one.raw, "name": own["name"]}, one.place)


def _is_right(one: ReadPiece) -> bool:
    return isinstance(one.piece.front, dict) and one.piece.front.get("side") == "right"
