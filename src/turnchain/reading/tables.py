"""The tables a pattern file may have, and their keys.

In: nothing. Out: the classes that ``notes`` reads tables into and ``checks`` compares. The page to look at for
what can be written in a file; how a value is read stands in ``values``, what it means in ``turnchain.pattern``.
"""

from __future__ import annotations

from typing import Any, ClassVar, Final, Generic, TypeVar, cast

from turnchain import pattern
from turnchain.reading import values

T = TypeVar("T")
D = TypeVar("D")

MOST_POINTS: Final = 500
MOST_READINGS: Final = 50
MOST_COUNT: Final = 99
MOST_SEAMS: Final = 100


class Key(Generic[T]):
    """A key: how its value is read and, where a table cannot do without it, words for what is ``needed``.

    On a table it is the value, or None where the file has none or none that is sound.
    """

    def __init__(self, read: values.Reader[T], needed: str = "") -> None:
        self.read = read
        self.needed = needed
        self.name = ""

    def __set_name__(self, owner: type[Table], name: str) -> None:
        self.name = name

    def __get__(self, table: Table, owner: type[Table]) -> T | None:
        return cast("T | None", table.sound.get(self.name))


class Table:
    """What is ``sound`` of one table; ``home`` says where such a table stands in a file."""

    keys: ClassVar[dict[str, Key[Any]]]
    home: ClassVar[str]

    def __init_subclass__(cls, home: str) -> None:
        cls.keys = {name: key for name, key in vars(cls).items() if isinstance(key, Key)}
        cls.home = home

    def __init__(self, sound: dict[str, object]) -> None:
        self.sound = sound

    def made(self, kind: type[D], **more: Any) -> D:
        """The vocabulary's ``kind`` from a sound table; what the file leaves out keeps the default there."""
        names = kind.__dataclass_fields__.keys()  # type: ignore[attr-defined]  # every kind is a dataclass
        return kind(**{name: value for name, value in {**self.sound, **more}.items() if name in names})


class Swatch(Table, home="in [swatch]"):
    """One reading of a swatch."""

    clusters = Key(values.count)
    width = Key(values.length)
    rows = Key(values.count)
    height = Key(values.length)
    weight = Key(values.count)
    weighed = Key(values.listing(values.length, "a width and a height such as [29, 23.5]", 2, 2))
    hook = Key(values.count)


class Fabric(Table, home="in [fabric]"):
    """How the fabric is built."""

    cluster = Key(values.whole(2, 5))
    gap = Key(values.whole(0, 1))


class Yarn(Table, home="in a [[yarn]]"):
    """A yarn."""

    name = Key(values.words, 'a yarn needs a name such as "Reed"')
    colour = Key(values.colour, 'a yarn needs a colour such as "#b9b36a"')
    stock = Key(values.stock)
    metres_per_100g = Key(values.count)
    ball = Key(values.count)
    keep = Key(values.stock)


_ROWS: Final = values.whole(1, pattern.MOST_ROWS)
_ROWS_WORDS: Final = "a whole number such as 2, or a list such as [2, 1]"


_NAMES: Final = values.listing(values.words, 'a list such as ["Reed", "Silt"]', 1, pattern.MOST_ROWS)


class Stripes(Table, home="in [stripes]"):
    """The order of the colours."""

    order = Key(_NAMES)
    rows = Key(values.one_or_more(_ROWS, values.listing(_ROWS, _ROWS_WORDS, 1, pattern.MOST_ROWS)))
    kind = Key(values.choice(pattern.Stripes, "kind"))
    begin = Key(values.choice(pattern.Stripes, "begin"))
    numbers = Key(values.listing(_ROWS, "a list of heights such as [1, 1, 2, 3, 5]", 1, pattern.MOST_ROWS))
    run = Key(values.choice(pattern.Stripes, "run"))
    block = Key(values.whole(2, pattern.MOST_ROWS))
    seed = Key(values.whole(0, 999_999))
    apart = Key(values.whole(1, pattern.MOST_YARNS))
    least = Key(_ROWS)
    most = Key(_ROWS)
    even = Key(values.yes)
    between = Key(values.words)
    between_rows = Key(_ROWS)
    every = Key(_ROWS)
    use_up = Key(_NAMES)
    carry = Key(values.whole(0, pattern.MOST_ROWS))


class Allowance(Table, home="in [allowance]"):
    """What the yarn figures allow for."""

    margin = Key(values.percent)
    tail = Key(values.span)


_REACH: Final = values.point("reach", values.reach, "[30, 12]")


def _points(read: values.Reader[values.Point], example: str) -> values.Reader[tuple[values.Point, ...]]:
    return values.listing(read, f"a list of points such as {example}", 2, MOST_POINTS, "point")


class Piece(Table, home="in a [[piece]]"):
    """One piece, its neck still as it stands in the file."""

    name = Key(values.file_name, 'a piece needs a name such as "front"')
    count = Key(values.whole(1, MOST_COUNT))
    worked = Key(values.choice(pattern.Piece, "worked"))
    width = Key(values.length)
    length = Key(values.length)
    neck = Key(values.table("neck = { shoulder = 13, depth = 8 }"))
    outline = Key(_points(values.point("width", values.length, "[30, 24]"), "[[0, 36], [34, 24]]"))
    left_outline = Key(_points(_REACH, "[[0, 18], [34, 12]]"))
    right_outline = Key(_points(_REACH, "[[0, 18], [34, 12]]"))
    align = Key(values.choice(pattern.Piece, "align"))
    row_plan = Key(values.choice(pattern.Piece, "row_plan"))
    neck_edge = Key(values.choice(pattern.Piece, "neck_edge"))
    faces = Key(values.reference)
    stripes = Key(values.table('stripes = { order = ["Reed", "Silt"] }'))
    stripes_begin = Key(_ROWS)


class Neck(Table, home="in the neck of a piece"):
    """The neck of a piece."""

    shoulder = Key(values.length, "a neck needs the length of one shoulder")
    depth = Key(values.length, "a neck needs its depth below the shoulder")
    shape = Key(values.choice(pattern.Neck, "shape"))


_TWO_EDGES: Final = '["front.shoulder", "back.shoulder"]'


class Seam(Table, home="in a [[seam]]"):
    """Two edges that are sewn together."""

    join = Key(
        values.listing(values.edge, f"two edges such as {_TWO_EDGES}", 2, 2),
        f"a seam needs the two edges it joins, such as {_TWO_EDGES}",
    )


class Wearer(Table, home="in [wearer]"):
    """Whose body the pieces are for."""

    table = Key(values.choice(pattern.Wearer, "table"))
    size = Key(values.size)
    head = Key(values.length)
    bust = Key(values.length)
    waist = Key(values.length)
    hip = Key(values.length)
    waist_length = Key(values.length)
    hip_length = Key(values.length)
    knee_length = Key(values.length)
    cross_back = Key(values.length)
    arm = Key(values.length)
    upper_arm = Key(values.length)
    armhole = Key(values.length)
    neck_to_cuff = Key(values.length)


class Progress(Table, home="in [progress]"):
    """How far a piece has come."""

    piece = Key(values.reference, 'progress needs the name of a piece, such as piece = "front"')
    rows = Key(values.whole(1, 2 * pattern.MOST_ROWS), "progress needs the number of rows worked")
    height = Key(values.length, "progress needs the height of the rows worked")
    width = Key(values.length)


class File(Table, home="at the top of the file, before the first table"):
    """A whole file, its tables still as they stand there."""

    title = Key(values.words, 'a pattern needs a title such as title = "Heron Creek top"')
    by = Key(values.line)
    link = Key(values.address)
    licence = Key(values.line)
    date = Key(values.date)
    note = Key(values.line)
    terms = Key(values.choice(pattern.Pattern, "terms"))
    units = Key(values.choice(pattern.Pattern, "units"))
    swatch = Key(
        values.tables("swatch", MOST_READINGS, single=True),
        "a pattern needs a swatch with clusters, width, rows and height",
    )
    fabric = Key(values.table("[fabric], once in the file"))
    yarn = Key(values.tables("yarn", pattern.MOST_YARNS))
    stripes = Key(values.table("[stripes], once in the file"))
    allowance = Key(values.table("[allowance], once in the file"))
    piece = Key(values.tables("piece", pattern.MOST_PIECES), "a pattern needs at least one [[piece]]")
    seam = Key(values.tables("seam", MOST_SEAMS))
    progress = Key(values.tables("progress", pattern.MOST_PIECES, single=True))
    wearer = Key(values.table("[wearer], once in the file"))


TABLES: Final[list[type[Table]]] = [File, Swatch, Fabric, Yarn, Stripes, Allowance, Piece, Neck, Seam, Progress, Wearer]
