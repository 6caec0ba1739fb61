"""The tables of a piece and of its parts, and their keys.

In: nothing. Out: the classes that ``notes`` reads these tables into, as ``tables`` has those of the rest of a file.
"""

from __future__ import annotations

import re
from typing import Final

from turnchain import pattern
from turnchain.reading import values
from turnchain.reading.table_keys import ROWS, SizedKey, TableKey, TomlTable
from turnchain.reading.toml_text import Raw
from turnchain.units import Unit

MOST_POINTS: Final = 500  # of one outline
MOST_TAPERS: Final = 50  # of one piece
MOST_COUNT: Final = 99  # made of one piece

_REACH: Final = values.point("reach", values.reach, "[30, 12]")


def _points(read: values.Reader[values.Point], example: str) -> values.Reader[tuple[values.Point, ...]]:
    return values.listing(read, f"a list of points such as {example}", 2, MOST_POINTS, "point")


def _tables_or_one(example: str) -> values.Reader[list[Raw]]:
    """A reader of one table or of a list of them; what stands in them is looked at later."""

    def read(value: object, unit: Unit) -> list[Raw]:
        found = [value] if isinstance(value, dict) else value
        if not isinstance(found, list) or not found or not all(isinstance(one, dict) for one in found):
            raise values.Refusal(f"must be written {example}, or be a list of such")
        if len(found) > MOST_TAPERS:
            raise values.Refusal(f"must be at most {MOST_TAPERS}", found=f"a list of {len(found)}")
        return found

    return read


#: The keys of the parts of a panel.
PARTS: Final = ("armhole", "taper", "slit", "front", "shoulder_slope", "cap")
_ROUND: Final = re.compile(r"(?<![^\W_])(rounds?|tubes?|tubular|spirals?|circular(ly)?)(?![^\W_])", re.IGNORECASE)
#: What to do instead of working in the round.
WORKED_FLAT: Final = (
    "hats, cowls and tubes are worked flat and closed by one seam: make the piece as wide as they go round, and give "
    'a [[seam]] with its edges, such as join = ["hat.left", "hat.right"]'
)


def means_the_round(words: str) -> bool:
    """Whether a key or a value asks for work in the round."""
    return _ROUND.search(words) is not None


def _worked(value: object, unit: Unit) -> str:
    """A direction of work; one in the round is refused with the flat way to the same piece."""
    if isinstance(value, str) and means_the_round(value):
        allowed = 'must be "upwards" or "sideways": every row is turned, and none is joined to a round'
        raise values.Refusal(allowed, WORKED_FLAT)
    return values.choice(pattern.Piece, "worked")(value, unit)


def _begin_on(value: object, unit: Unit) -> str:
    """What a piece is begun on instead of a chain."""
    found = values.reference(value, unit)
    if found != pattern.ON_ARMHOLE and not (found.endswith(".first") and found.removesuffix(".first").strip()):
        allowed = 'must be the first row of another piece, such as "bag front.first", or "armhole" for a sleeve'
        raise values.Refusal(allowed, "on any other edge work the piece by itself, and sew the seam")
    return found


class PieceTable(TomlTable, home="in a [[piece]]"):
    """One piece, its neck still as it stands in the file."""

    name = TableKey(values.file_name, 'a piece needs a name such as "front"')
    count = SizedKey(values.whole(1, MOST_COUNT))
    role = TableKey(values.choice(pattern.Piece, "role"))
    worked = TableKey(_worked)
    width = SizedKey(values.length)
    length = SizedKey(values.length)
    neck = TableKey(values.table("neck = { shoulder = 13, depth = 8 }"))
    outline = SizedKey(_points(values.point("width", values.span, "[30, 24]"), "[[0, 36], [34, 24]]"))
    left_outline = SizedKey(_points(_REACH, "[[0, 18], [34, 12]]"))
    right_outline = SizedKey(_points(_REACH, "[[0, 18], [34, 12]]"))
    triangle = TableKey(values.table("triangle = { width = 140, height = 60 }"))
    half_triangle = TableKey(values.table("half_triangle = { width = 120, height = 60 }"))
    armhole = TableKey(values.table("armhole = { depth = 20, width = 6 }"))
    taper = TableKey(_tables_or_one("taper = { width = 60, start = 5, end = 40 }"))
    front = TableKey(values.table('front = { side = "left" }'))
    cap = TableKey(values.table('cap = { into = ["front", "back"] }'))
    slit = SizedKey(values.length)
    shoulder_slope = SizedKey(values.length)
    mirror = TableKey(values.reference)
    mirrored = TableKey(values.yes)
    align = TableKey(values.choice(pattern.Piece, "align"))
    row_plan = SizedKey(values.choice(pattern.Piece, "row_plan"))
    neck_edge = TableKey(values.choice(pattern.Piece, "neck_edge"))
    faces = TableKey(values.reference)
    stripes = TableKey(values.table('stripes = { order = ["Reed", "Silt"] }'))
    stripes_begin = SizedKey(ROWS)
    exact_rows = SizedKey(ROWS)
    exact_clusters = SizedKey(values.whole(1, pattern.MOST_CLUSTERS))
    exact_chain = SizedKey(values.whole(2, pattern.MOST_CHAINS))
    begin_on = TableKey(_begin_on)
    before = TableKey(values.paragraphs)
    after = TableKey(values.paragraphs)


class NeckTable(TomlTable, home="in the neck of a piece"):
    """The neck of a piece."""

    shoulder = SizedKey(values.length, "a neck needs the length of one shoulder")
    depth = SizedKey(values.length, "a neck needs its depth below the shoulder")
    shape = TableKey(values.choice(pattern.Neck, "shape"))


class ArmholeTable(TomlTable, home="in the armhole of a piece"):
    """The armhole of a piece."""

    depth = SizedKey(values.length, "an armhole needs its depth below the shoulder")
    width = SizedKey(values.length, "an armhole needs its width, by which the edge goes in")
    shape = TableKey(values.choice(pattern.Armhole, "shape"))
    edge = TableKey(values.choice(pattern.Armhole, "edge"))


class TaperTable(TomlTable, home="in the taper of a piece"):
    """How a piece grows narrower or wider."""

    width = SizedKey(values.length, "a taper needs the width that it comes to")
    start = SizedKey(values.span)
    end = SizedKey(values.length)


class FrontTable(TomlTable, home="in the front of a piece"):
    """The open front of a piece."""

    side = TableKey(
        values.choice(pattern.FrontOpening, "side"), 'an open front needs its side, "left" or "right" as worn'
    )
    overlap = SizedKey(values.span)


class CapTable(TomlTable, home="in the cap of a piece"):
    """The cap of a sleeve."""

    into = TableKey(
        values.listing(values.reference, 'a list of one piece or two, such as ["front", "back"]', 1, 2),
        'a cap needs the pieces whose armhole it is sewn into, such as into = ["front", "back"]',
    )
    top = SizedKey(values.length)


class TriangleTable(TomlTable, home="in the triangle of a piece"):
    """A triangle that grows from its point at both edges."""

    width = SizedKey(values.length, "a triangle needs the width of its last row")
    height = SizedKey(values.length, "a triangle needs its height")


class HalfTriangleTable(TomlTable, home="in the half_triangle of a piece"):
    """A triangle that grows from its point at one edge."""

    width = SizedKey(values.length, "a half triangle needs the width of its last row")
    height = SizedKey(values.length, "a half triangle needs its height")
    straight = TableKey(values.choice(pattern.HalfTriangle, "straight"))
