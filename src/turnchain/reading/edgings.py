"""What must agree within edgings: the edges that they name, their yarn.

In: the edgings of a file, its pieces and its yarns. Out: what is sound of them, and notes of what does not agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from turnchain.pattern import OPENINGS
from turnchain.reading import checks
from turnchain.reading.notes import Notes
from turnchain.reading.pieces import ReadPiece
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, nearest, told
from turnchain.reading.tables import EdgingTable, FileTable, YarnTable

#: Rows that a buttonhole needs: one before it, its own, and one over its chains.
LEAST_FOR_BUTTONHOLES: Final = 3


def edgings(
    notes: Notes, file: FileTable, parts: Sequence[ReadPiece], yarns: Sequence[YarnTable], known: bool
) -> list[EdgingTable]:
    """What is sound of the edgings, in the order of the file. ``known``: whether ``parts`` are all the pieces that the
    file was meant to have; else nothing is said of pieces that are not among them."""
    places = [Place(f"edging {i}", ("edging", i - 1)) for i in range(1, len(file.edging or []) + 1)]
    found = [notes.table(EdgingTable, raw, place) for raw, place in zip(file.edging or [], places, strict=True)]
    for edging, place in zip(found, places, strict=True):
        _edges(notes, edging, parts, place, known)
        _yarn(notes, edging, yarns, place)
        _buttonholes(notes, edging, place)
        _ties(notes, edging, place)
    _twice(notes, found, places)
    return found


def _edges(notes: Notes, edging: EdgingTable, parts: Sequence[ReadPiece], place: Place, known: bool) -> None:
    for nth, edge in enumerate(edging.edges or (), 1):
        here = place.key("edges").entry("entry", nth) if len(edging.edges or ()) > 1 else place.key("edges")
        if edge == "all" and len(edging.edges or ()) > 1:
            notes.say(here, '"all" beside other edges', "it stands alone, since it is every edge that is open")
        if edge in OPENINGS:
            continue
        if "." in edge:
            checks.check_edge(notes, here, edge, parts, known)
            continue
        allowed = f'must be {listed(OPENINGS)}, or an edge of a piece such as "front.lower"'
        notes.say(here, told(edge), allowed, nearest(edge, OPENINGS, '"'))


def _yarn(notes: Notes, edging: EdgingTable, yarns: Sequence[YarnTable], place: Place) -> None:
    names = [yarn.name for yarn in yarns if yarn.name]
    if edging.yarn is None or edging.yarn in names or len(names) < len(yarns):
        return
    allowed = f"the yarns are {listed(names)}" if names else "the file has no [[yarn]]"
    notes.say(place.key("yarn"), f"there is no yarn {told(edging.yarn)}", allowed, nearest(edging.yarn, names, '"'))


def _buttonholes(notes: Notes, edging: EdgingTable, place: Place) -> None:
    if edging.buttonholes and (edging.rows or 1) < LEAST_FOR_BUTTONHOLES:
        allowed = f"need {LEAST_FOR_BUTTONHOLES} rows at the least: one before them, their own, one over their chains"
        notes.say(place.key("buttonholes"), f"buttonholes in {edging.rows or 1} rows", allowed, "rows = 5")
    if edging.buttonhole and not edging.buttonholes:
        notes.say(place.key("buttonhole"), "no `buttonholes`", "is how many stitches each of them goes over")


def _ties(notes: Notes, edging: EdgingTable, place: Place) -> None:
    if edging.tie and edging.strap:
        notes.say(place.key("strap"), "`strap` beside `tie`", "an edging has ties at its ends, or a strap between them")


def _twice(notes: Notes, found: Sequence[EdgingTable], places: Sequence[Place]) -> None:
    """An edge that two edgings name."""
    seen: dict[str, Place] = {}
    for edging, place in zip(found, places, strict=True):
        for edge in edging.edges or ("all",):
            first = seen.setdefault(edge, place)
            if first != place:
                notes.say(place.key("edges"), f"{told(edge)}, as in {first.words}", "an edge has one edging")
