"""Parts of a piece by their names: armhole, taper, slit, open front, sleeve cap, triangles, and names in outlines.

In: a piece as it stands in the file. Out: the outline that its parts come to (``part_lines``), with names for its
stretches, as a maker could have written it: nothing after this room knows of parts. Where parts collide, notes say so
with the measures that collide and how much room there is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import partial
from math import ceil
from typing import Final

from turnchain import pattern
from turnchain.fabric.gauge import Gauge
from turnchain.reading import shapes
from turnchain.reading.notes import Notes
from turnchain.reading.part_lines import CAP_TOP, CURVED_AT_ONCE, Cap, Corner, PanelParts, Tapering, stretches
from turnchain.reading.places import Place
from turnchain.reading.quoting import listed, told
from turnchain.reading.tables import (
    ArmholeTable,
    CapTable,
    FrontTable,
    HalfTriangleTable,
    NeckTable,
    PieceTable,
    TaperTable,
    TriangleTable,
)
from turnchain.reading.toml_text import Raw
from turnchain.records import replace
from turnchain.units import shown

#: The parts of a panel.
PARTS: Final = ("armhole", "taper", "slit", "front", "cap")
#: Names that an edge has without being named.
_TAKEN: Final = ("first", "last", "left", "right", "lower", "upper", "shoulder")
_LINES: Final = ("outline", "left_outline", "right_outline")


# ------------------------------------------------------------------------------------------- names in outlines


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


# --------------------------------------------------------------------------------------------------- triangles


def triangle(notes: Notes, piece: PieceTable, place: Place) -> None:
    """Gives a piece that is a triangle its outline."""
    kinds = (("triangle", TriangleTable, piece.triangle), ("half_triangle", HalfTriangleTable, piece.half_triangle))
    for key, kind, raw in kinds:
        if raw is None:
            continue
        found = notes.table(kind, raw, place.key(key))
        width, height = found.sound.get("width"), found.sound.get("height")
        if width and height:
            piece.sound["outline"] = ((Fraction(0), Fraction(0)), (height, width))
        if key == "half_triangle":
            piece.sound["align"] = found.sound.get("straight", "left")


# -------------------------------------------------------------------------------------------- parts of a panel


def panel(
    notes: Notes, piece: PieceTable, neck: NeckTable | None, raw: Raw, place: Place, gauge: Gauge | None
) -> PanelParts | None:
    """The parts of a panel, but for a cap; None for a piece without parts, and where they cannot be planned."""
    parts = [key for key in PARTS if key in raw]
    if not parts:
        return None
    if shapes.form(raw) != shapes.PANEL or shapes.sideways(raw):
        for key in parts:
            allowed = f"`{key}` is for pieces with width and length that are worked upwards"
            found = "this piece is worked sideways" if shapes.sideways(raw) else "this piece has no width and length"
            notes.say(place.key(key), found, allowed, "or write both edges as `left_outline` and `right_outline`")
        return None
    before = len(notes.problems)
    made = _panel(notes, piece, neck, place, gauge)
    if made is not None and len(notes.problems) == before:
        _Checks(notes, made, neck, place).all()
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
        neck=neck.made(pattern.Neck) if neck and front else None,
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


class _Checks:
    """Whether the parts of a panel leave each other room."""

    def __init__(self, notes: Notes, parts: PanelParts, neck: NeckTable | None, place: Place) -> None:
        self.notes, self.parts, self.neck, self.place = notes, parts, neck, place

    def all(self) -> None:
        """Notes every collision."""
        if self._armhole():
            self._tapers()
            self._slit()
            self._neck()

    def _cm(self, cm: Fraction) -> str:
        return shown(cm, self.notes.unit)

    def _armhole(self) -> bool:
        parts, armhole = self.parts, self.parts.armhole
        if armhole is None:
            return True
        if armhole.depth >= parts.length:
            found = f"{self._cm(armhole.depth)} deep on a length of {self._cm(parts.length)}"
            self.notes.say(self.place.key("armhole").key("depth"), found, "must leave a side below it")
            return False
        side, chest = parts.widths
        if chest <= 0:
            found = f"{self._cm(armhole.width)} wide on {self._cm(side)} of width"
            here = self.place.key("armhole").key("width")
            self.notes.say(here, found, f"there is room for less than {self._cm(side / 2)}")
            return False
        rest = armhole.width * (1 - CURVED_AT_ONCE) if armhole.shape == "curved" else Fraction(0)
        if rest >= armhole.depth:
            found = f"{self._cm(armhole.width)} wide and {self._cm(armhole.depth)} deep"
            allowed = "a curved armhole slants over a third of its width, and must be deeper than that"
            self.notes.say(self.place.key("armhole"), found, allowed, 'or take shape = "square"')
            return False
        return True

    def _tapers(self) -> None:
        top, at = self.parts.underarm, Fraction(0)
        several = len(self.parts.tapers) > 1
        for nth, one in enumerate(self.parts.tapers, 1):
            here = self.place.key("taper").entry("taper", nth) if several else self.place.key("taper")
            if one.start < at or one.end <= one.start or one.end > top:
                found = f"from {self._cm(one.start)} to {self._cm(one.end)}"
                where = "the underarm" if self.parts.armhole else "the top"
                self.notes.say(here, found, f"there is room from {self._cm(at)} to {where} at {self._cm(top)}")
            at = max(at, one.end)

    def _slit(self) -> None:
        if self.parts.slit >= self.parts.underarm:
            found = f"{self._cm(self.parts.slit)} on a side of {self._cm(self.parts.underarm)}"
            self.notes.say(self.place.key("slit"), found, "must leave a side above it to be sewn")

    def _neck(self) -> None:
        side, chest = self.parts.widths
        shoulder = self.neck.shoulder if self.neck is not None else None
        if shoulder and 2 * shoulder >= chest and 2 * shoulder < self.parts.width:  # else it is told by the width
            armholes = f" that armholes leave of {self._cm(side)}" if side > chest else ""
            found = f"two shoulders of {self._cm(shoulder)}"
            allowed = f"must leave room for a neck within the width of {self._cm(chest)} at the top{armholes}"
            self.notes.say(self.place.key("neck").key("shoulder"), found, allowed)


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
    corners = {height for edge in (left, right) for height in (one.height for one in edge if one.told)}
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
    if "stretches" in sound:
        turned = (replace(one, side=other[one.side]) for one in sound["stretches"])  # type: ignore[attr-defined]
        sound["stretches"] = tuple(sorted(turned, key=lambda one: (one.side, one.low, one.high)))
