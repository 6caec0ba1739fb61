"""What must agree between tables: yarns and stripes, names, facing pieces, seams.

In: the tables of a file. Out: what is sound of them, and notes of what does not agree.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from typing import Final

from turnchain import file_names, pattern
from turnchain.reading import orders, shapes
from turnchain.reading.notes import Notes
from turnchain.reading.piece_tables import PieceTable
from turnchain.reading.pieces import ReadPiece, read_pieces
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, meant, nearest, told
from turnchain.reading.swatches import gauge_if_sound
from turnchain.reading.tables import (
    FileTable,
    PhotoTable,
    ProgressTable,
    SeamTable,
    StripesTable,
    SwatchTable,
    YarnTable,
)
from turnchain.reading.toml_text import Raw

PHOTO_PLACES: Final = ("top", "joining")

# ------------------------------------------------------------------------------------------- yarns and stripes


def yarns(notes: Notes, file: FileTable) -> list[YarnTable]:
    """What is sound of the yarns, in the order of the file, one for each [[yarn]]; notes names given twice."""
    found: list[YarnTable] = []
    for i, raw in enumerate(file.yarn or [], 1):
        named = raw.get("name")
        place = Place(f"yarn {i} ({told(named)})" if isinstance(named, str) else f"yarn {i}", ("yarn", i - 1))
        yarn = notes.table(YarnTable, raw, place)
        same = [j for j, other in enumerate(found, 1) if yarn.name and other.name == yarn.name]
        if same:
            allowed = "each yarn needs a name of its own"
            notes.say(place.key("name"), f"yarn {same[0]} has this name too", allowed)
        found.append(yarn)
    return found


def stripes(notes: Notes, file: FileTable, yarns: list[YarnTable], known: bool) -> StripesTable | None:
    """What is sound of the stripes, None where the file has none. ``known``: whether ``yarns`` are all that the file
    was meant to have; else nothing is said of yarns that are not among them."""
    if file.stripes is None:
        return None
    place = Place().key("stripes")
    found = notes.table(StripesTable, file.stripes, place)
    orders.check(notes, found, file.stripes, place, yarns, known)
    if orders.kind_of(found, file.stripes) == "stash":
        orders.check_stash(notes, found, file, yarns, known)
    return found


def own_stripes(notes: Notes, parts: list[ReadPiece], yarns: list[YarnTable], known: bool) -> list[StripesTable | None]:
    """The stripes that pieces have of their own, in the order of the pieces: None for each that has none. ``known`` as
    for ``stripes``."""
    found: list[StripesTable | None] = []
    for piece, _, _, place in parts:
        own = None
        if piece.stripes is not None:
            place = place.key("stripes")
            own = notes.table(StripesTable, piece.stripes, place)
            orders.check(notes, own, piece.stripes, place, yarns, known)
            if orders.kind_of(own, piece.stripes) == "stash":
                allowed = "stripes from the stash go over all pieces at once"
                notes.say(place.key("kind"), '"stash"', allowed, "write it in [stripes]")
        found.append(own)
    return found


def stripes_of_kinds(
    notes: Notes,
    whole: StripesTable | None,
    own: list[StripesTable | None],
    parts: list[ReadPiece],
    fabric: pattern.Fabric,
) -> None:
    """Notes where stripes, those of the ``whole`` file or a piece's ``own``, name yarns for rows that there are none
    of."""
    if whole is not None:
        orders.check_kinds(notes, whole, Place().key("stripes"), fabric)
    for stripes, one in zip(own, parts, strict=True):
        if stripes is not None:
            orders.check_kinds(notes, stripes, one.place.key("stripes"), fabric)


# ------------------------------------------------------------------------------------------------------ pieces


def pieces(notes: Notes, file: FileTable, readings: list[SwatchTable]) -> list[ReadPiece]:
    """What is sound of the pieces, as ``reading.pieces`` reads them. By the gauge of ``readings`` (the swatch) their
    sizes are checked in rows and clusters; where it is not sound, they are not."""
    parts = read_pieces(notes, file.piece or [], gauge_if_sound(readings))
    _check_names(notes, parts)
    _check_faces(notes, parts)
    _check_begun(notes, parts)
    return parts


def _check_names(notes: Notes, parts: list[ReadPiece]) -> None:
    seen: dict[str, str] = {}
    for piece, _, _, place in parts:
        if not piece.name:
            continue
        other = seen.setdefault(_as_file(piece.name), place.words)
        if other != place.words:
            allowed = "each piece needs a name of its own, since files are named after pieces"
            notes.say(place.key("name"), f"{other} has this name too, but for capitals at most", allowed)
    for piece, _, _, place in parts:
        if piece.name and (whose := _picture(_as_file(piece.name), seen)):
            allowed = f"must be another name, since a picture of this name is made {whose}"
            notes.say(place.key("name"), told(piece.name), allowed)


def _picture(name: str, places: Mapping[str, str]) -> str:
    """What a picture of this name shows, where there is one besides the charts of pieces."""
    if name in file_names.OF_ALL:
        return "besides the pieces"
    piece = file_names.taken(name, places)
    return f"of {places[piece]}" if piece else ""


def _as_file(name: str) -> str:
    """A name as the file systems of all computers compare it."""
    return unicodedata.normalize("NFKC", name).casefold()


def _named(parts: Sequence[ReadPiece]) -> dict[str, ReadPiece]:
    return {part.piece.name: part for part in parts if part.piece.name}


def _no_piece(notes: Notes, place: Place, name: str, named: Mapping[str, ReadPiece]) -> None:
    hint = nearest(name, named, '"')
    notes.say(place, f"there is no piece {told(name)}", f"the pieces are {listed(named)}", hint)


def _check_faces(notes: Notes, parts: list[ReadPiece]) -> None:
    named = _named(parts)
    whole = len(named) == len(parts)  # else the piece that is missing may be one whose name was refused
    for piece, _, _, place in parts:
        if piece.faces is None:
            continue
        place = place.key("faces")
        if piece.faces == piece.name:
            notes.say(place, "the piece itself", "must be another piece")
        elif piece.faces in named and shapes.upwards(named[piece.faces].raw):
            notes.say(place, f"{told(piece.faces)} is worked upwards", "must be a piece worked sideways")
        elif piece.faces not in named and whole:
            _no_piece(notes, place, piece.faces, named)
    _check_circles(notes, parts)


def _check_begun(notes: Notes, parts: list[ReadPiece]) -> None:
    """Pieces that are begun on others: only where published practice has it, and the lattice lets clusters meet."""
    named = _named(parts)
    whole = len(named) == len(parts)
    for piece, _, raw, place in parts:
        if piece.begin_on is None:
            continue
        place, on = place.key("begin_on"), piece.begin_on.removesuffix(".first")
        if "exact_chain" in raw:
            allowed = "a piece begun on another has no chain of its own"
            notes.say(place, "`begin_on` together with `exact_chain`", allowed)
        elif piece.begin_on == pattern.ON_ARMHOLE:
            _check_sleeve(notes, piece, place)
        elif on == piece.name:
            notes.say(place, "the piece itself", "must be another piece")
        elif on not in named:
            if whole:
                _no_piece(notes, place, on, named)
        elif not all(shapes.upwards(one.raw) for one in (named[on], named[piece.name or ""])):
            allowed = "both must be worked upwards: of one worked sideways the first row is a side, and takes a seam"
            notes.say(place, f"{told(piece.begin_on)}, worked sideways", allowed)
        elif "begin_on" in named[on].raw:
            notes.say(place, f"{told(on)} is begun on another piece itself", "must be one that begins with a chain")
        elif (named[on].piece.count or 1) != (piece.count or 1):
            notes.say(place, f"{told(on)} is made {named[on].piece.count or 1} times", "both must be made as often")
        elif any(_has_hem(one) for one in (named[on], named[piece.name or ""])):
            allowed = "with a neck or an armhole the first row is a hem, and stays open"
            notes.say(place, f"{told(piece.begin_on)}, the hem of a garment", allowed)


def _has_hem(one: ReadPiece) -> bool:
    return any(key in one.raw for key in ("neck", "armhole", "front", "cap", "slit"))


def _check_sleeve(notes: Notes, piece: PieceTable, place: Place) -> None:
    if piece.cap is not None:
        allowed = "a sleeve with a cap is worked up to it, and the cap sewn in"
        notes.say(place, "`begin_on` together with `cap`", allowed, "leave out one of them")
    elif piece.role not in (None, "sleeve") or (piece.role is None and not re.search(_SLEEVE, piece.name or "")):
        allowed = "only a sleeve is begun along an armhole"
        notes.say(place, f"a piece called {told(piece.name or '')}", allowed, 'or give it role = "sleeve"')


_SLEEVE: Final = r"(?i)(?<![^\W_])(sleeves?|arms?)(?![^\W_])"


def _check_circles(notes: Notes, parts: list[ReadPiece]) -> None:
    """Pieces that face one another in a circle: each neck edge would follow from another's, and none be fixed."""
    faces = {piece.name: piece.faces for piece, *_ in parts if piece.name and piece.faces}
    seen: set[str] = set()
    for piece, _, _, place in parts:
        walk = [piece.name or ""]
        while (following := faces.get(walk[-1], "")) and following not in walk:
            walk.append(following)
        if len(walk) > 1 and following == walk[0] and not seen & set(walk):
            seen |= set(walk)
            found = " faces ".join(told(name) for name in [*walk, following])
            hint = "leave `faces` out of one piece"
            notes.say(place.key("faces"), found, "one of them must come first", hint)


# ------------------------------------------------------------------------------------------------------- seams


#: Other words for an edge, and the edges that may be meant, the likeliest first.
_OTHERWISE: Final = {
    "hem": ("lower", "first"),
    "bottom": ("lower", "first"),
    "lower": ("first",),
    "top": ("shoulder", "upper", "last"),
    "upper": ("shoulder", "last"),
    "shoulder": ("upper", "last"),
    "foundation": ("first",),
}


def seams(notes: Notes, file: FileTable, parts: list[ReadPiece], known: bool) -> list[SeamTable]:
    """What is sound of the seams, in the order of the file. ``known``: whether ``parts`` are all the pieces that the
    file was meant to have; else nothing is said of pieces that are not among them."""
    places = [Place(f"seam {i}", ("seam", i - 1)) for i in range(1, len(file.seam or []) + 1)]
    found = [notes.table(SeamTable, raw, place) for raw, place in zip(file.seam or [], places, strict=True)]
    _check_twice(notes, found, places, _named(parts))
    for seam, at in zip(found, places, strict=True):
        for j, joined in enumerate(seam.join or (), 1):
            check_edge(notes, at.key("join").entry("entry", j), joined, parts, known)
    return found


def check_edge(notes: Notes, place: Place, joined: str, parts: Sequence[ReadPiece], known: bool) -> None:
    """Notes where "piece.edge" names no piece or no edge of it; ``known`` as for ``seams``."""
    named = _named(parts)
    name, _, edge = joined.rpartition(".")
    if name in named:
        _check_edge(notes, place, edge, named[name])
    elif known and len(named) == len(parts) and parts:
        _no_piece(notes, place, name, named)


def _check_twice(
    notes: Notes, found: list[SeamTable], places: list[Place], named: Mapping[str, ReadPiece]
) -> None:
    """An edge sewn to itself, where the piece is not made twice; shoulders sewn to a neck, which lies between two of
    them; a seam given twice."""
    seen: dict[frozenset[str], Place] = {}
    for seam, place in zip(found, places, strict=True):
        if not seam.join:
            continue
        one, other = seam.join
        first = seen.setdefault(frozenset(seam.join), place)
        if first != place:
            notes.say(place.key("join"), f"{first.words} again", "each seam is given once")
        elif one == other and not _made_twice(one, named):
            notes.say(place.key("join"), f"{told(one)} twice", "a seam joins two edges")
        elif {edge.rpartition(".")[2] for edge in seam.join} == {"shoulder", "neck"}:
            wanted = "shoulders are sewn to shoulders, or to both ends of a whole edge"
            notes.say(place.key("join"), "shoulders and a neck, which lies between them", wanted)
        if seam.stripes and any(_is_stretch(joined, named) for joined in seam.join):
            allowed = "stripes are matched along whole edges"
            hint = 'name the edges in `join`, such as ["front.right", "back.left"], or leave `stripes` out'
            notes.say(place.key("stripes"), "a seam of stretches by their names", allowed, hint)


def _is_stretch(edge: str, named: Mapping[str, ReadPiece]) -> bool:
    name, _, stretch = edge.rpartition(".")
    part = named.get(name)
    return part is not None and stretch not in _edges(part.raw) and stretch in _stretch_names(part)


def _made_twice(edge: str, named: Mapping[str, ReadPiece]) -> bool:
    """Whether there are two of a piece, which can be sewn to each other by one edge, or a stretch of that name is at
    both its edges."""
    name, _, stretch = edge.rpartition(".")
    part = named.get(name)
    if part is None:
        return False
    return (part.piece.count or 1) > 1 or len({one.side for one in part.stretches if one.name == stretch}) > 1


def progress(notes: Notes, file: FileTable, parts: list[ReadPiece], known: bool) -> list[ProgressTable]:
    """What is sound of how far pieces have come, in the order of the file; ``known`` as for ``seams``. Whether a piece
    has so many rows is checked by the planner."""
    many = len(file.progress or []) > 1
    found: list[ProgressTable] = []
    named = _named(parts)
    for i, raw in enumerate(file.progress or [], 1):
        place = Place(f"progress {i}" if many else "progress", ("progress", i - 1))
        one = notes.table(ProgressTable, raw, place)
        if one.piece is not None and one.piece not in named and known and len(named) == len(parts):
            _no_piece(notes, place.key("piece"), one.piece, named)
        if one.piece is not None and any(other.piece == one.piece for other in found):
            notes.say(place.key("piece"), f"{told(one.piece)} again", "each piece has one [[progress]]")
        found.append(one)
    return found


def photos(notes: Notes, file: FileTable, parts: list[ReadPiece], known: bool) -> list[PhotoTable]:
    """What is sound of the photographs, in the order of the file; each stands at the top, at the joining or with a
    piece. ``known`` as for ``seams``."""
    found: list[PhotoTable] = []
    named = _named(parts)
    for i, raw in enumerate(file.photo or [], 1):
        place = Place(f"photo {i}", ("photo", i - 1))
        one = notes.table(PhotoTable, raw, place)
        if one.place not in (None, *PHOTO_PLACES, *named) and known and len(named) == len(parts):
            allowed = f"must be {listed([*PHOTO_PLACES, *named])}"
            notes.say(place.key("place"), told(one.place or ""), allowed, nearest(one.place or "", named, '"'))
        found.append(one)
    return found


def _check_edge(notes: Notes, place: Place, edge: str, part: ReadPiece) -> None:
    edges = (*_edges(part.raw), *_stretch_names(part)) if _edges(part.raw) else ()
    if not edges or edge in edges:
        return
    likely = next((other for other in _OTHERWISE.get(edge.casefold(), ()) if other in edges), "")
    hint = meant(likely) if likely else nearest(edge, edges, '"')
    if edge == "neck":
        hint = "this piece has no neck"
    found = f"{told(part.piece.name)} has no edge {told(edge)}"
    notes.say(place, found, f"its edges are {listed(edges)}", hint)


def _stretch_names(part: ReadPiece) -> tuple[str, ...]:
    """The names that stretches of a piece's outline have."""
    names = dict.fromkeys(one.name for one in part.stretches)
    return (*(("shoulder",) if "front edge" in names else ()), *names)


def _edges(raw: Raw) -> tuple[str, ...]:
    """The edges of a piece that can be sewn; none where its form or its direction are not known."""
    neck = ("shoulder", "neck") if "neck" in raw else ()
    if shapes.sideways(raw) and shapes.form(raw) == shapes.PANEL:
        return ("first", "last", "lower", "upper", *neck)
    if shapes.form(raw) and (shapes.sideways(raw) or shapes.upwards(raw)):
        return ("first", "last", "left", "right", *neck)
    return ()
