"""Parts of a piece by their names: armhole, taper, slit, open front, sloping shoulders, sleeve cap.

In: a piece as it stands in the file. Out: the outline that its parts come to (``part_lines``), with names for its
stretches, as a maker could have written it: nothing after this room knows of parts. Where parts collide,
``part_checks`` notes it.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial
from math import ceil

from turnchain import pattern
from turnchain.fabric.gauge import Gauge
from turnchain.reading import shapes
from turnchain.reading.notes import Notes
from turnchain.reading.part_checks import PartChecks
from turnchain.reading.part_lines import CAP_TOP, Cap, PanelParts, Tapering, stretches
from turnchain.reading.piece_tables import (
    PARTS,
    ArmholeTable,
    CapTable,
    FrontTable,
    NeckTable,
    PieceTable,
    TaperTable,
)
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, told
from turnchain.reading.toml_text import Raw
from turnchain.records import replace
from turnchain.units import shown


def panel(
    notes: Notes, piece: PieceTable, neck: NeckTable | None, raw: Raw, place: Place, gauge: Gauge | None
) -> PanelParts | None:
    """The parts of a panel, but for a cap; None for a piece without parts, and where they cannot be planned."""
    parts = [key for key in PARTS if key in raw]
    if not parts:
        return None
    if shapes.form(raw) != shapes.PANEL:
        for key in parts:
            allowed = f"`{key}` is for pieces with width and length"
            hint = "or write both edges as `left_outline` and `right_outline`"
            notes.say(place.key(key), "this piece has no width and length", allowed, hint)
        return None
    if shapes.sideways(raw) and "taper" in parts:
        found = "the sides of a piece worked sideways are its first and its last row"
        allowed = "a taper there would be rows that end on their way, which leaves steps in every side seam"
        notes.say(place.key("taper"), found, allowed, "work the piece upwards")
        return None
    before = len(notes.problems)
    made = _panel(notes, piece, neck, place, gauge)
    if made is not None and len(notes.problems) == before:
        PartChecks(notes, made, neck, place).all()
    return made if len(notes.problems) == before else None


def _panel(
    notes: Notes, piece: PieceTable, neck: NeckTable | None, place: Place, gauge: Gauge | None
) -> PanelParts | None:
    armhole: ArmholeTable | None = None
    front: FrontTable | None = None
    if piece.armhole is not None:
        armhole = notes.table(ArmholeTable, piece.armhole, place.key("armhole"))
    if piece.front is not None:
        front = notes.table(FrontTable, piece.front, place.key("front"))
    if front is not None and armhole is not None and armhole.edge is not None:
        here = place.key("armhole").key("edge")
        notes.say(here, "`edge` of an open front", "its armhole is at its side", "leave it out")
    tapers = [notes.table(TaperTable, one, _at_taper(piece, place, nth)) for nth, one in enumerate(piece.taper or ())]
    sound = all((
        piece.width, piece.length, gauge,
        armhole is None or (armhole.depth and armhole.width), front is None or front.side,
        neck is None or (neck.shoulder and neck.depth), all(one.width for one in tapers),
    ))  # fmt: skip
    if not sound or not piece.width or not piece.length or not gauge:
        return None
    made = PanelParts(
        piece.width,
        piece.length,
        gauge.half,
        gauge.row,
        slit=piece.slit or Fraction(0),
        armhole=armhole.made(pattern.Armhole) if armhole else None,
        front=front.made(pattern.FrontOpening) if front else None,
        neck=neck.made(pattern.Neck) if neck else None,
        slope=piece.shoulder_slope or Fraction(0),
        sideways=piece.worked == "sideways",
    )
    return replace(made, tapers=tuple(_taperings(tapers, made.underarm)))


def _at_taper(piece: PieceTable, place: Place, nth: int) -> Place:
    here = place.key("taper")
    return here if isinstance(piece.taper, list) and len(piece.taper) == 1 else here.entry("taper", nth + 1)


def _taperings(tapers: list[TaperTable], top: Fraction) -> list[Tapering]:
    """Each taper from its start, or the end of the one before, to its end, or the top of the side."""
    found: list[Tapering] = []
    for one in tapers:
        start = one.start if one.start is not None else found[-1].end if found else Fraction(0)
        found.append(Tapering(start, one.end or top, one.width or Fraction(0)))
    return found


# --------------------------------------------------------------------------------------------------------- caps


def with_cap(
    notes: Notes, parts: PanelParts, raw: Raw, place: Place, others: Mapping[str, PanelParts]
) -> PanelParts | None:
    """The parts of a sleeve with its cap, which fits the armholes of ``others`` by name; None where it cannot be
    planned."""
    cap, here = notes.table(CapTable, raw, place.key("cap")), place.key("cap")
    if parts.armhole is not None or parts.front is not None:
        notes.say(here, "a cap together with an armhole or an open front", "a cap is for sleeves")
        return None
    found = [_with_armhole(notes, name, here.key("into"), others) for name in cap.into or ()]
    sound = [one for one in found if one is not None]
    if not sound or len(sound) < len(found):
        return None
    steps = [one.armhole.width * one.at_once for one in sound if one.armhole is not None]
    around = sum((one.around() for one in sound), Fraction(0))
    share = Fraction(2, len(sound))  # one piece named: front and back are alike
    width = parts.widths[0]
    made = Cap(sum(steps, Fraction(0)) / len(steps), around * share, cap.top or CAP_TOP * width)
    return _checked_cap(notes, replace(parts, cap=made), here)


def _with_armhole(notes: Notes, name: str, place: Place, others: Mapping[str, PanelParts]) -> PanelParts | None:
    whose = others.get(name)
    if whose is None or whose.armhole is None:
        having = [other for other, one in others.items() if one.armhole is not None]
        allowed = f"the pieces with an armhole are {listed(having)}" if having else "no piece has an `armhole`"
        notes.say(place, told(name), allowed)
        return None
    return whose


def _checked_cap(notes: Notes, parts: PanelParts, place: Place) -> PanelParts | None:
    cap = parts.cap
    assert cap is not None, "it was just given one"
    width, cm = parts.widths[0], partial(shown, unit=notes.unit)
    across = width / 2 - cap.underarm - cap.top / 2
    if across <= 0:
        steps = f"an underarm of {cm(cap.underarm)} at each edge and a top of {cm(cap.top)}"
        found = f"a sleeve of {cm(width)} with {steps}"
        notes.say(place, found, "the cap must grow narrower from the underarm to its top", "make the sleeve wider")
        return None
    if (cap.around - cap.top) / 2 <= across * Fraction(21, 20):
        found = f"a sleeve of {cm(width)} at an armhole of {cm(cap.around)} from underarm to underarm"
        hint = f"make the sleeve narrower than {cm(_widest(cap))}, or the armhole deeper"
        notes.say(place, found, "a cap as long as its armhole would have no height", hint)
        return None
    return parts


def _widest(cap: Cap) -> Fraction:
    """The width of a sleeve in whole cm whose cap would lie flat."""
    return Fraction(ceil(cap.around + 2 * cap.underarm))


# --------------------------------------------------------------------------------------------------- as outlines


def as_outline(piece: PieceTable, parts: PanelParts) -> None:
    """Gives ``piece`` the outline of its ``parts`` in place of width and length."""
    left, right = parts.edges()
    corners = {one.height for edge in (left, right) for one in edge if one.told}
    if parts.slope:  # above the arm it is the shoulder that is measured
        corners = {height for height in corners if height <= parts.arm}
    for key in ("width", "length"):
        piece.sound.pop(key)
    if left == right:
        piece.sound["outline"] = tuple((one.height, 2 * one.reach) for one in left)
    else:
        piece.sound["left_outline"] = tuple((one.height, one.reach) for one in left)
        piece.sound["right_outline"] = tuple((one.height, one.reach) for one in right)
    if parts.cap is not None:  # both its halves are alike only where both edges of a row are
        piece.sound.setdefault("row_plan", "alternate")
    piece.sound["measured"] = tuple(sorted(corners))
    piece.sound["stretches"] = (*stretches(left, "left"), *stretches(right, "right"))


def as_upper_edge(piece: PieceTable, parts: PanelParts) -> None:
    """Gives ``piece``, which is worked sideways, its ``parts``; half a front its own width. Where the file does not say
    which edge is up, that one is at which steps outwards come nearest to what is wanted; half a front begins at its
    middle, so that its armhole is none."""
    upper = parts.upper()
    piece.sound["upper"] = upper
    if upper.front is not None:
        piece.sound["width"] = parts.width / 2 + upper.front.overlap
        piece.sound.setdefault("neck_edge", "left" if upper.front.side == "left" else "right")
    elif "faces" not in piece.sound and upper.armhole is not None:
        piece.sound.setdefault("neck_edge", _edge_of_steps(upper.armhole, parts.row))


def _edge_of_steps(armhole: pattern.Armhole, row: Fraction) -> str:
    """The side of the chart for the upper edge: after an even number of rows one starts at the right."""
    rows = max(1, round(armhole.width / row))
    return "left" if rows % 2 else "right"
