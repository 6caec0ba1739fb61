"""The tables a pattern file may have, and their keys.

In: nothing. Out: the classes that ``notes`` reads tables into and ``checks`` compares. All that can be written in a
file stands here; how a value is read stands in ``values``, what it means in ``turnchain.pattern``.
"""

from __future__ import annotations

import re
from typing import Any, ClassVar, Final, Generic, TypeVar, cast

from turnchain import pattern
from turnchain.fabric import library
from turnchain.reading import values
from turnchain.reading.toml_text import Raw
from turnchain.records import fields
from turnchain.units import Unit

T = TypeVar("T")
D = TypeVar("D")

MOST_POINTS: Final = 500  # of one outline
MOST_TAPERS: Final = 50  # of one piece
MOST_READINGS: Final = 50  # of the swatch
MOST_COUNT: Final = 99  # made of one piece
MOST_SEAMS: Final = 100
MOST_PHOTOS: Final = 60
MOST_SIZES: Final = 20
MOST_KINDS: Final = 12  # of row, before they come again
MOST_TURNING: Final = 6  # chains


class TableKey(Generic[T]):
    """A key: how its value is read and, where a table must have it, the message that says so (``needed``, else "").

    Read from a table it is the value, or None where the file has none or none that is sound.
    """

    def __init__(self, read: values.Reader[T], needed: str = "") -> None:
        self.read = read
        self.needed = needed
        self.name = ""

    def __set_name__(self, owner: type[TomlTable], name: str) -> None:
        self.name = name

    def __get__(self, table: TomlTable, owner: type[TomlTable]) -> T | None:
        return cast("T | None", table.sound.get(self.name))


class SizedKey(TableKey[T]):
    """A key that may have a value for every size, in brackets as ``brackets`` reads them."""


class TomlTable:
    """What is ``sound`` of one table, by key. ``keys``: all that such a table may have; ``home``: where it stands in a
    file, in words."""

    keys: ClassVar[dict[str, TableKey[Any]]]
    home: ClassVar[str]

    def __init_subclass__(cls, home: str) -> None:
        cls.keys = {name: key for name, key in vars(cls).items() if isinstance(key, TableKey)}
        cls.home = home

    def __init__(self, sound: dict[str, object]) -> None:
        self.sound = sound

    def made(self, kind: type[D], **more: Any) -> D:
        """A ``kind`` (a record of ``turnchain.pattern``) from a sound table and the fields in ``more``, which go
        first; what both leave out keeps its default. Raises TypeError where a field without a default is missing."""
        names = fields(kind)
        return kind(**{name: value for name, value in {**self.sound, **more}.items() if name in names})


class SwatchTable(TomlTable, home="in [swatch]"):
    """One reading of a swatch."""

    clusters = TableKey(values.count)
    width = TableKey(values.length)
    rows = TableKey(values.count)
    height = TableKey(values.length)
    weight = TableKey(values.count)
    weighed = TableKey(values.listing(values.length, "a width and a height such as [29, 23.5]", 2, 2))
    hook = TableKey(values.hook)
    sc = TableKey(values.table("[swatch.sc]"))
    hdc = TableKey(values.table("[swatch.hdc]"))
    dc = TableKey(values.table("[swatch.dc]"))
    tr = TableKey(values.table("[swatch.tr]"))


class RowSwatchTable(TomlTable, home="in [swatch.sc]"):
    """A swatch of solid rows of one stitch."""

    rows = TableKey(values.count, "how many rows were counted in its `height` is needed")
    height = TableKey(values.length, "the height in which its `rows` were counted is needed")
    stitches = TableKey(values.count)
    width = TableKey(values.length)
    weight = TableKey(values.count)
    weighed = TableKey(values.listing(values.length, "a width and a height such as [29, 23.5]", 2, 2))


_KIND: Final = values.one_of(lambda: ("cluster", *library.STITCH_NAMES))
_KINDS: Final = values.listing(_KIND, 'a list of kinds of row such as ["cluster", "cluster", "sc"]', 1, MOST_KINDS)
_STITCH: Final = values.one_of(lambda: library.STITCH_NAMES)
_SOLID: Final = values.listing(_STITCH, 'a list of stitches such as ["sc", "sc"]', 1, MOST_KINDS)


class FabricTable(TomlTable, home="in [fabric]"):
    """How the fabric is built: its kind by name, and of clusters their stitch and how many of it, and their gap."""

    kind = TableKey(values.named_or_file(library.names))
    stitch = TableKey(values.choice(pattern.Fabric, "stitch"))
    cluster = TableKey(values.whole(1, 5))
    gap = TableKey(values.whole(0, 3))
    rows = TableKey(_KINDS)
    base = TableKey(_SOLID)
    last = TableKey(_SOLID)
    then = TableKey(values.one_of(lambda: ("staggered", "stacked")))
    foundation = TableKey(values.one_of(lambda: ("chain", "grouped", *library.STITCH_NAMES)))
    start = TableKey(values.one_of(lambda: ("flush", "spaced", "bare")))
    turning_chain = TableKey(values.whole(1, MOST_TURNING))
    turning_chain_counts = TableKey(values.yes)


class YarnTable(TomlTable, home="in a [[yarn]]"):
    """A yarn."""

    name = TableKey(values.words, 'a yarn needs a name such as "Reed"')
    colour = TableKey(values.colour, 'a yarn needs a colour such as "#b9b36a"')
    stock = TableKey(values.stock)
    metres_per_100g = TableKey(values.count)
    ball = TableKey(values.count)
    keep = TableKey(values.stock)
    fibre = TableKey(values.choice(pattern.Yarn, "fibre"))


_ROWS: Final = values.whole(1, pattern.MOST_ROWS)
_ROWS_WORDS: Final = "a whole number such as 2, or a list such as [2, 1]"


_NAMES: Final = values.listing(values.words, 'a list such as ["Reed", "Silt"]', 1, pattern.MOST_ROWS)


class StripesTable(TomlTable, home="in [stripes]"):
    """How the stripes of a file or of a piece are made of its yarns."""

    order = TableKey(_NAMES)
    rows = SizedKey(values.one_or_more(_ROWS, values.listing(_ROWS, _ROWS_WORDS, 1, pattern.MOST_ROWS)))
    kind = TableKey(values.choice(pattern.Stripes, "kind"))
    begin = TableKey(values.choice(pattern.Stripes, "begin"))
    numbers = SizedKey(values.listing(_ROWS, "a list of heights such as [1, 1, 2, 3, 5]", 1, pattern.MOST_ROWS))
    run = TableKey(values.choice(pattern.Stripes, "run"))
    block = SizedKey(values.whole(2, pattern.MOST_ROWS))
    seed = SizedKey(values.whole(0, 999_999))
    apart = SizedKey(values.whole(1, pattern.MOST_YARNS))
    least = SizedKey(_ROWS)
    most = SizedKey(_ROWS)
    even = TableKey(values.yes)
    between = TableKey(values.words)
    between_rows = SizedKey(_ROWS)
    every = SizedKey(_ROWS)
    use_up = TableKey(_NAMES)
    carry = SizedKey(values.whole(0, pattern.MOST_ROWS))
    cluster = TableKey(values.words)
    sc = TableKey(values.words)
    hdc = TableKey(values.words)
    dc = TableKey(values.words)
    tr = TableKey(values.words)


class AllowanceTable(TomlTable, home="in [allowance]"):
    """What the yarn figures allow for."""

    margin = TableKey(values.percent)
    tail = TableKey(values.span)


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
    stripes_begin = SizedKey(_ROWS)
    exact_rows = SizedKey(_ROWS)
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


_TWO_EDGES: Final = '["front.shoulder", "back.shoulder"]'


class SeamTable(TomlTable, home="in a [[seam]]"):
    """Two edges that are sewn together."""

    join = TableKey(
        values.listing(values.edge, f"two edges such as {_TWO_EDGES}", 2, 2),
        f"a seam needs the two edges it joins, such as {_TWO_EDGES}",
    )
    stripes = TableKey(values.choice(pattern.Seam, "stripes"))


_EDGES: Final = values.listing(values.reference, 'a list such as ["neck", "front.lower"]', 1, 4 * pattern.MOST_PIECES)


def _edges(value: object, unit: Unit) -> tuple[str, ...]:
    """Open edges: one by its name, or a list of such."""
    return (values.reference(value, unit),) if isinstance(value, str) else _EDGES(value, unit)


class EdgingTable(TomlTable, home="in an [[edging]]"):
    """A border along open edges."""

    edges = TableKey(_edges)
    rows = SizedKey(values.whole(1, pattern.MOST_EDGING_ROWS))
    stitch = TableKey(values.choice(pattern.Edging, "stitch"))
    yarn = TableKey(values.words)
    buttonholes = SizedKey(values.whole(0, 50))
    buttonhole = SizedKey(values.whole(1, 20))
    tie = SizedKey(values.length)
    strap = SizedKey(values.length)


class WearerTable(TomlTable, home="in [wearer]"):
    """Whose body the pieces are for."""

    who = TableKey(values.choice(pattern.Wearer, "who"))
    table = TableKey(values.choice(pattern.Wearer, "table"))
    size = SizedKey(values.size)
    head = SizedKey(values.length)
    bust = SizedKey(values.length)
    waist = SizedKey(values.length)
    hip = SizedKey(values.length)
    waist_length = SizedKey(values.length)
    hip_length = SizedKey(values.length)
    knee_length = SizedKey(values.length)
    cross_back = SizedKey(values.length)
    arm = SizedKey(values.length)
    upper_arm = SizedKey(values.length)
    armhole = SizedKey(values.length)
    neck_to_cuff = SizedKey(values.length)
    ease = SizedKey(values.reach)


class ProgressTable(TomlTable, home="in [progress]"):
    """How far a piece has come."""

    piece = TableKey(values.reference, 'progress needs the name of a piece, such as piece = "front"')
    rows = TableKey(values.whole(1, 2 * pattern.MOST_ROWS), "progress needs the number of rows worked")
    height = TableKey(values.length, "progress needs the height of the rows worked")
    width = TableKey(values.length)


class PhotoTable(TomlTable, home="in a [[photo]]"):
    """A photograph that stands in the pattern."""

    file = TableKey(values.photograph, 'a photograph needs its file, such as file = "front.jpg"')
    alt = TableKey(values.words, "a photograph needs words for who cannot see it, such as alt = \"the top, worn\"")
    place = TableKey(values.reference)


_SIZES: Final = values.listing(values.size_name, 'a list of sizes such as ["S", "M", "L"]', 2, MOST_SIZES)


class FileTable(TomlTable, home="at the top of the file, before the first table"):
    """A whole file, its tables still as they stand there."""

    title = TableKey(values.words, 'a pattern needs a title such as title = "Heron Creek top"')
    by = TableKey(values.line)
    link = TableKey(values.address)
    licence = TableKey(values.line)
    date = TableKey(values.date)
    note = TableKey(values.line)
    introduction = TableKey(values.paragraphs)
    contact = TableKey(values.paragraphs)
    colour = TableKey(values.colour)
    sizes = TableKey(_SIZES)
    terms = TableKey(values.choice(pattern.Pattern, "terms"))
    language = TableKey(values.language)
    units = TableKey(values.choice(pattern.Pattern, "units"))
    swatch = TableKey(
        values.tables("swatch", MOST_READINGS, single=True),
        "a pattern needs a swatch with clusters, width, rows and height",
    )
    fabric = TableKey(values.table("[fabric], once in the file"))
    yarn = TableKey(values.tables("yarn", pattern.MOST_YARNS))
    stripes = TableKey(values.table("[stripes], once in the file"))
    allowance = TableKey(values.table("[allowance], once in the file"))
    piece = TableKey(values.tables("piece", pattern.MOST_PIECES), "a pattern needs at least one [[piece]]")
    seam = TableKey(values.tables("seam", MOST_SEAMS))
    edging = TableKey(values.tables("edging", pattern.MOST_EDGINGS))
    progress = TableKey(values.tables("progress", pattern.MOST_PIECES, single=True))
    wearer = TableKey(values.table("[wearer], once in the file"))
    photo = TableKey(values.tables("photo", MOST_PHOTOS))


class SizesTable(TomlTable, home="at the top of the file, before the first table"):
    """The names of a file's sizes alone, which decide how all else is read."""

    sizes = TableKey(_SIZES)


TABLES: Final[list[type[TomlTable]]] = [
    FileTable,
    SwatchTable,
    RowSwatchTable,
    FabricTable,
    YarnTable,
    StripesTable,
    AllowanceTable,
    PieceTable,
    NeckTable,
    ArmholeTable,
    TaperTable,
    FrontTable,
    CapTable,
    TriangleTable,
    HalfTriangleTable,
    SeamTable,
    EdgingTable,
    ProgressTable,
    WearerTable,
    PhotoTable,
]

#: Tables within those of pieces, and what they are.
WITHIN: Final[dict[str, type[TomlTable]]] = {
    "neck": NeckTable, "stripes": StripesTable, "armhole": ArmholeTable, "taper": TaperTable, "front": FrontTable,
    "cap": CapTable, "triangle": TriangleTable, "half_triangle": HalfTriangleTable,
}  # fmt: skip
