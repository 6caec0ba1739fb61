"""The tables a pattern file may have, and their keys.

In: nothing. Out: the classes that ``notes`` reads tables into and ``checks`` compares. All that can be written in a
file stands here and, of pieces, in ``piece_tables``; how a value is read stands in ``values``, what it means in
``turnchain.pattern``.
"""

from __future__ import annotations

from typing import Final

from turnchain import pattern
from turnchain.fabric import library
from turnchain.reading import values
from turnchain.reading.piece_tables import (
    ArmholeTable,
    CapTable,
    FrontTable,
    HalfTriangleTable,
    NeckTable,
    PieceTable,
    TaperTable,
    TriangleTable,
)
from turnchain.reading.table_keys import ROWS, SizedKey, TableKey, TomlTable
from turnchain.units import Unit

MOST_READINGS: Final = 50  # of the swatch
MOST_SEAMS: Final = 100
MOST_PHOTOS: Final = 60
MOST_SIZES: Final = 20
MOST_KINDS: Final = 12  # of row, before they come again
MOST_TURNING: Final = 6  # chains


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


_ROWS_WORDS: Final = "a whole number such as 2, or a list such as [2, 1]"


_NAMES: Final = values.listing(values.words, 'a list such as ["Reed", "Silt"]', 1, pattern.MOST_ROWS)


class StripesTable(TomlTable, home="in [stripes]"):
    """How the stripes of a file or of a piece are made of its yarns."""

    order = TableKey(_NAMES)
    rows = SizedKey(values.one_or_more(ROWS, values.listing(ROWS, _ROWS_WORDS, 1, pattern.MOST_ROWS)))
    kind = TableKey(values.choice(pattern.Stripes, "kind"))
    begin = TableKey(values.choice(pattern.Stripes, "begin"))
    numbers = SizedKey(values.listing(ROWS, "a list of heights such as [1, 1, 2, 3, 5]", 1, pattern.MOST_ROWS))
    run = TableKey(values.choice(pattern.Stripes, "run"))
    block = SizedKey(values.whole(2, pattern.MOST_ROWS))
    seed = SizedKey(values.whole(0, 999_999))
    apart = SizedKey(values.whole(1, pattern.MOST_YARNS))
    least = SizedKey(ROWS)
    most = SizedKey(ROWS)
    even = TableKey(values.yes)
    between = TableKey(values.words)
    between_rows = SizedKey(ROWS)
    every = SizedKey(ROWS)
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
