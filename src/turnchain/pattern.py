"""What a maker wrote down, checked: the vocabulary of a pattern file.

In: nothing. Out: frozen records that the reader fills and the planner reads. Every length is an exact
fraction of a centimetre, whatever unit the file used, so that no rounding decides a stitch.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final, Literal

from turnchain.records import field, frozen

Terms = Literal["US", "UK"]
#: What a yarn is spun of, as far as care depends on it; a mixed yarn is cared for as its most delicate fibre.
Fibre = Literal[
    "wool", "superwash wool", "cotton", "linen", "silk", "viscose", "acrylic", "polyester", "nylon", "mixed"
]
#: The stitches that fabrics are made of, by their US names.
StitchName = Literal["sc", "hdc", "dc", "tr"]
Who = Literal["adult", "child", "baby", "pet", "home"]
#: Openings of a garment by which an edging may name its edges, and all that is open.
OPENINGS = ("all", "neck", "front edge", "armhole", "upper edge", "lower edge", "cuff")
NeckShape = Literal["slant", "round", "vee", "square"]

# The largest sizes taken, so that a mistyped number gives a message and not minutes of computing.
MOST_ROWS = 2000
MOST_CLUSTERS = 2000
MOST_CHAINS = 20_000
MOST_YARNS = 200
MOST_PIECES = 100
MOST_EDGINGS = 100
MOST_EDGING_ROWS = 50


@frozen
class RowSwatch:
    """A swatch of solid rows of one ``stitch``: ``rows`` counted in ``height`` cm; ``weight`` in grams of
    ``weighed`` (width, height) cm of it (both None: not weighed); ``stitches`` counted in ``width`` cm, which edgings
    go by (both None: not counted)."""

    stitch: StitchName
    rows: Fraction
    height: Fraction
    weight: Fraction | None = None
    weighed: tuple[Fraction, Fraction] | None = None
    stitches: Fraction | None = None
    width: Fraction | None = None


@frozen
class Swatch:
    """One reading of a swatch: ``clusters`` counted in ``width`` cm, ``rows`` counted in ``height`` cm.

    Either pair may be missing (None) where another reading has it. ``weight`` in grams is that of a swatch of
    ``weighed`` (width, height) cm over all (None: of its own width and height); ``hook`` is the thickness of its hook
    in mm. ``kinds``: swatches of their own for solid rows among them.
    """

    clusters: Fraction | None = None
    width: Fraction | None = None
    rows: Fraction | None = None
    height: Fraction | None = None
    weight: Fraction | None = None
    weighed: tuple[Fraction, Fraction] | None = None
    hook: Fraction | None = None
    kinds: tuple[RowSwatch, ...] = ()


@frozen
class Fabric:
    """What the fabric is. ``kind`` "": clusters, each ``cluster`` of a ``stitch`` (US name), with ``gap`` chains
    between two (0: closed fabric); else the name of a fabric that is made otherwise, where the other three mean
    nothing. ``own``: what a maker's own file of a fabric says, by key, of the kind of that file's name.

    ``rows`` are kinds of row, which go round: "cluster" for rows of the fabric itself, or a stitch, one in every stitch
    and chain of the row below; ``base`` and ``last`` are such rows at the foot and at the top. ``then``: where clusters
    after them stand, over gaps ("staggered") or over clusters ("stacked"); "" for what is usual. ``grouped``: on the
    foundation each cluster is worked into one chain. ``start``: the edge that the first row of clusters starts with, ""
    for whatever is nearest. ``turning_chain`` chains turn, and count as a stitch or not (None: as is usual of the
    stitch). ``heights`` and ``weights``: of rows that have a swatch of their own, how high they are, and how heavy for
    their area, that of the whole swatch being 1."""

    cluster: int = 3
    gap: int = 1
    stitch: StitchName = "dc"
    kind: str = ""
    own: tuple[tuple[str, str | int], ...] = ()
    rows: tuple[str, ...] = ("cluster",)
    base: tuple[StitchName, ...] = ()
    last: tuple[StitchName, ...] = ()
    then: Literal["", "staggered", "stacked"] = ""
    grouped: bool = False
    start: Literal["", "flush", "spaced", "bare"] = ""
    turning_chain: int | None = None
    turning_chain_counts: bool | None = None
    heights: tuple[tuple[str, Fraction], ...] = ()
    weights: tuple[tuple[str, Fraction], ...] = ()


@frozen
class Yarn:
    """A yarn: its ``colour`` as "#rrggbb", ``stock`` grams in hand, its length in ``metres_per_100g``, ``ball``
    grams in one ball, ``keep`` grams kept back for border and seams, and the ``fibre`` it is spun of, for its care.
    None: the maker does not say."""

    name: str
    colour: str
    stock: Fraction | None = None
    metres_per_100g: Fraction | None = None
    ball: Fraction | None = None
    keep: Fraction = Fraction(0)
    fibre: Fibre | None = None


@frozen
class Stripes:
    """Which yarn works which row.

    ``kind`` says how the stripes are made of the yarns in ``order``:

    - list: each for as many rows as ``rows`` says in turn; both lists begin again where they end.
    - mirrored: the list up to the middle row and back again; ``begin`` "middle" starts the list there instead.
    - numbers: heights after ``numbers`` (Fibonacci's up to ``most`` where empty), in the order of ``run``.
    - gradual: from each yarn to the next in blocks of ``block`` rows with ever more of the next.
    - random: drawn with ``seed``.
    - between: the list, with ``between_rows`` rows of the yarn ``between`` after every ``every`` stripes.
    - stash: so that the stock suffices; the yarns ``use_up`` first.

    In random and stash stripes a yarn comes back after ``apart`` others at the earliest, and a stripe has from
    ``least`` to ``most`` rows (None: the usual of the kind, in ``yarns.stripes``); where ``even``, an even
    number, in gradual stripes too. ``carry`` is over how many rows the maker carries a yarn up the edge.

    ``cluster``, ``sc``, ``hdc``, ``dc``, ``tr``: the yarn of all rows of that kind; the order goes on over the others.
    """

    order: tuple[str, ...] = ()
    rows: tuple[int, ...] = (1,)
    kind: Literal["list", "mirrored", "numbers", "gradual", "random", "between", "stash"] = "list"
    begin: Literal["edge", "middle"] = "edge"
    numbers: tuple[int, ...] = ()
    run: Literal["rising", "falling", "crossing", "there and back"] = "rising"
    block: int = 8
    seed: int = 1
    apart: int = 1
    least: int | None = None
    most: int | None = None
    even: bool = False
    between: str | None = None
    between_rows: int = 1
    every: int = 1
    use_up: tuple[str, ...] = ()
    carry: int = 4
    cluster: str | None = None
    sc: str | None = None
    hdc: str | None = None
    dc: str | None = None
    tr: str | None = None

    @property
    def of_kinds(self) -> dict[str, str]:
        """The yarn of each kind of row that has one of its own."""
        named = {"cluster": self.cluster, "sc": self.sc, "hdc": self.hdc, "dc": self.dc, "tr": self.tr}
        return {kind: yarn for kind, yarn in named.items() if yarn is not None}


@frozen
class Allowance:
    """What the yarn figures allow for: ``margin`` per cent (None: by how the swatch was weighed) and ``tail`` cm
    at every end of a yarn."""

    margin: Fraction | None = None
    tail: Fraction = Fraction(15)


@frozen
class Neck:
    """A neck opening as worn: ``shoulder`` cm of full length at each side, ``depth`` cm down from it.

    ``slant`` goes in half a cluster a row; ``vee`` runs straight to a point; ``round`` is half an ellipse;
    ``square`` goes straight down and straight across.
    """

    shoulder: Fraction
    depth: Fraction
    shape: NeckShape = "slant"


@frozen
class Armhole:
    """An armhole as a part of a piece: ``depth`` cm below the shoulder the edge goes in by ``width`` cm, at one
    ``edge`` or both. ``square`` goes in at once, ``curved`` by two thirds at once, and slants over the rest."""

    depth: Fraction
    width: Fraction
    shape: Literal["square", "curved"] = "square"
    edge: Literal["both", "left", "right"] = "both"


@frozen
class FrontOpening:
    """An open front: the piece is the half at the wearer's ``side``, and ``overlap`` cm beyond the middle."""

    side: Literal["left", "right"]
    overlap: Fraction = Fraction(0)


@frozen
class SleeveCap:
    """A cap of a sleeve worked sideways, in cm: ``underarm`` level at each edge, then up by about ``height`` to the
    ``top``, so wide, so that its whole edge is as ``long`` as its armholes."""

    underarm: Fraction
    height: Fraction
    top: Fraction
    long: Fraction


@frozen
class UpperEdge:
    """The parts of a panel worked sideways in cm: its ``armhole``, half a ``front`` that opens, shoulders lower by
    ``slope`` at the arm, sides open up to ``slit``, a sleeve's ``cap``. Left and right are as worn, right side
    facing."""

    armhole: Armhole | None = None
    front: FrontOpening | None = None
    slope: Fraction = Fraction(0)
    slit: Fraction = Fraction(0)
    cap: SleeveCap | None = None

    @property
    def shaped(self) -> bool:
        """Whether the upper edge is another than that of a panel with a neck."""
        return any((self.armhole, self.front, self.slope, self.cap))

    @property
    def opens(self) -> Literal["left", "right"] | None:
        """The side that lies in the middle of the body: what is at the wearer's left is at the right, seen so."""
        return None if self.front is None else self.front.side

    @property
    def armed(self) -> tuple[Literal["left", "right"], ...]:
        """The sides that have the armhole."""
        if self.armhole is None:
            return ()
        if self.front is not None:
            return ("right" if self.front.side == "left" else "left",)
        return ("left", "right") if self.armhole.edge == "both" else (self.armhole.edge,)


@frozen
class HalfTriangle:
    """A triangle that grows at one edge; the other is ``straight``."""

    width: Fraction
    height: Fraction
    straight: Literal["left", "right"] = "left"


#: The stretch of half a front that opens up its middle: straight, and above it the neck.
FRONT_EDGE: Final = "front edge"
#: The stretch of an edge that slopes from the arm up to the neck: with the last row it is one shoulder.
SHOULDER: Final = "shoulder"


#: Where a sleeve that is worked down from the body begins.
ON_ARMHOLE: Final = "armhole"


@frozen
class OutlineStretch:
    """A stretch of an outline that has a ``name``, so that it can be sewn: at a ``side`` of the chart from ``low`` to
    ``high`` cm in the direction of work; a step where both are the same."""

    name: str
    side: Literal["left", "right"]
    low: Fraction
    high: Fraction

    def rows(self, row: Fraction) -> int:
        """How many rows it is high, to the nearest and one at least, of rows ``row`` cm high."""
        return max(1, round((self.high - self.low) / row))


@frozen
class Piece:
    """One piece, made ``count`` times: a panel (``width`` across and ``length`` down, as worn, in cm) or a free
    ``outline``. ``align`` says which edge of an outline stays straight, "left" or "right"; at "centre" both are shaped
    alike. ``neck_edge`` is the side of the chart that is the upper edge as worn of a panel worked sideways.

    ``outline`` is [height, width] points in cm in the direction of work, heights from 0 upwards and never
    falling. ``left_outline`` and ``right_outline`` give the two edges apart, as [height, reach] with the reach
    outwards from one centre line; both or neither. ``stretches`` are the parts of the outline that have names,
    ``measured`` the heights whose widths are told (empty: those of all points). ``mirrors`` names the piece that this
    one is the mirror image of. ``role``: which part of what is made it is (None: its name tells). ``faces`` names the
    piece that this one is sewn to, front to back. ``stripes`` are this piece's own, in place of the pattern's;
    ``stripes_begin`` is the row of the stripes that its row 1 takes (None: the first, or the one that the ``stripes``
    of a seam need). ``exact_rows`` and ``exact_clusters`` (of row 1) are counts that a maker has chosen (None: whatever
    is nearest), and so is ``exact_chain``, the chains of the foundation with row 1's turning chain.
    ``upper``: the parts of a panel worked sideways.
    ``begin_on``: the foundation of another piece ("front.first") into whose other side row 1 is worked, or "armhole"
    (None: a chain). ``before`` and ``after`` are the maker's own paragraphs around the piece's rows, a blank line
    between two.
    """

    name: str
    worked: Literal["sideways", "upwards"] = "upwards"
    count: int = 1
    width: Fraction | None = None
    length: Fraction | None = None
    neck: Neck | None = None
    outline: tuple[tuple[Fraction, Fraction], ...] = ()
    left_outline: tuple[tuple[Fraction, Fraction], ...] = ()
    right_outline: tuple[tuple[Fraction, Fraction], ...] = ()
    stretches: tuple[OutlineStretch, ...] = ()
    measured: tuple[Fraction, ...] = ()
    upper: UpperEdge | None = None
    align: Literal["centre", "left", "right"] = "centre"
    mirrors: str | None = None
    role: Literal[
        "front", "back", "sleeve", "skirt", "hat", "cowl", "shawl", "scarf", "cushion", "bag", "gusset", "strap",
        "other",
    ] | None = None  # fmt: skip
    row_plan: Literal["auto", "alike", "alternate"] = "auto"
    neck_edge: Literal["left", "right"] = "right"
    faces: str | None = None
    stripes: Stripes | None = None
    stripes_begin: int | None = None
    exact_rows: int | None = None
    exact_clusters: int | None = None
    exact_chain: int | None = None
    begin_on: str | None = None
    before: str = ""
    after: str = ""

    @property
    def slope(self) -> OutlineStretch | None:
        """The stretch of an edge that is a sloping shoulder; both edges have it alike. None of level shoulders."""
        return next((one for one in self.stretches if one.name == SHOULDER), None)

    @property
    def opens_at(self) -> Literal["left", "right"] | None:
        """Of half a front that opens: the side of the chart that lies in the middle of the body. None for others."""
        return next((one.side for one in self.stretches if one.name == FRONT_EDGE), None)

    @property
    def measured_heights(self) -> list[Fraction]:
        """The heights in cm at which the width of an outline is a measure, rising."""
        lines = (*self.outline, *self.left_outline, *self.right_outline)
        return sorted(set(self.measured) or {height for height, _ in lines})


@frozen
class Seam:
    """Two edges that are sewn together, each as "piece.edge"; ``stripes`` says whether rows of one yarn should "meet"
    along it, or rows that lie side by side "differ" (None: neither)."""

    join: tuple[str, str]
    stripes: Literal["meet", "differ"] | None = None


@frozen
class Edging:
    """A border that is worked along ``edges``: "all" that no seam and no other edging takes, openings by their kind
    ("neck", "cuff"), or edges and stretches of pieces as seams name them ("front.neck"). ``rows`` of a ``stitch`` (US
    name) in a ``yarn`` (None: the one of which something is kept, else the first). ``buttonholes`` are
    spaced evenly on the wearer's right front edge, or else on the first front edge or other edge named, each over
    ``buttonhole`` stitches. ``tie``: the length in cm of a tie at either end; ``strap``: of a strap between them, or in
    rounds across the opening (None: none; only one of the two)."""

    edges: tuple[str, ...] = ("all",)
    rows: int = 1
    stitch: Literal["sc", "hdc", "dc"] = "sc"
    yarn: str | None = None
    buttonholes: int = 0
    buttonhole: int = 2
    tie: Fraction | None = None
    strap: Fraction | None = None


@frozen
class Wearer:
    """Whose body the pieces are for: a row (``size``) of a size ``table``, own measures, or both; own ones go first.

    ``who`` it is for decides which cautions go with the pattern; None where the maker does not say.
    All in cm, on the body: rounds of ``head``, ``bust`` (or chest), ``waist``, ``hip`` and ``upper_arm``; down from
    the nape ``waist_length``, ``hip_length`` and ``knee_length``; ``cross_back`` from shoulder to shoulder, ``arm``
    from underarm to wrist, ``armhole`` (its depth), ``neck_to_cuff`` from the middle of the nape to the wrist.
    ``ease`` is by how much a garment is to be wider than the body all round, negative where it is to be narrower.
    """

    table: Literal["woman", "child"] | None = None
    size: str | None = None
    head: Fraction | None = None
    bust: Fraction | None = None
    waist: Fraction | None = None
    hip: Fraction | None = None
    waist_length: Fraction | None = None
    hip_length: Fraction | None = None
    knee_length: Fraction | None = None
    cross_back: Fraction | None = None
    arm: Fraction | None = None
    upper_arm: Fraction | None = None
    armhole: Fraction | None = None
    neck_to_cuff: Fraction | None = None
    who: Who | None = None
    ease: Fraction | None = None


@frozen
class Graded:
    """A measure of a piece that was worked out from the wearer's body: where it stands in the file (``path``, keys and
    numbers of entries from 0), its ``formula``, what it comes to in ``cm``, and whether the file has the formula
    (``given``) or it is one to start with."""

    path: tuple[str | int, ...]
    formula: str
    cm: Fraction
    given: bool = True


@frozen
class Progress:
    """How far ``piece`` has come: ``rows`` worked, in the order worked; the work measures ``height`` cm up to the top
    of the last of them and, where it was measured (else None), ``width`` cm across that row."""

    piece: str
    rows: int
    height: Fraction
    width: Fraction | None = None


@frozen
class Photo:
    """A photograph of the maker's: its ``file`` in the folder of the pattern, words for who cannot see it, and its
    ``place``: "top", "joining", or the name of the piece before whose rows it stands."""

    file: str
    alt: str
    place: str = "top"


@frozen
class Pattern:
    """A whole pattern file. ``units`` is the unit of lengths without one, and of those that messages and charts show;
    ``by``, ``link``, ``licence``, ``date`` and ``note`` are text for the credit, "" where not given; ``language`` is
    the code of the language of all texts, "" for English in the pattern's ``terms``.
    ``introduction`` and ``contact`` are paragraphs of the maker's, a blank line between two; ``colour`` is that of
    headings on paper ("": as dark as words). ``sizes`` are those of the file, and ``size`` the one of them that this
    is, which ``title`` ends with; empty where it has none. ``lacks`` are the numbers, in the file and from 0, of the
    pieces that this size has not. ``graded`` are measures worked out from the body."""

    title: str
    swatches: tuple[Swatch, ...]
    pieces: tuple[Piece, ...]
    fabric: Fabric = field(default_factory=Fabric)
    yarns: tuple[Yarn, ...] = ()
    stripes: Stripes | None = None
    allowance: Allowance = field(default_factory=Allowance)
    seams: tuple[Seam, ...] = ()
    edgings: tuple[Edging, ...] = ()
    progress: tuple[Progress, ...] = ()
    wearer: Wearer | None = None
    terms: Terms = "US"
    units: Literal["cm", "in"] = "cm"
    by: str = ""
    link: str = ""
    licence: str = ""
    date: str = ""
    note: str = ""
    language: str = ""
    introduction: str = ""
    contact: str = ""
    colour: str = ""
    photos: tuple[Photo, ...] = ()
    sizes: tuple[str, ...] = ()
    size: str = ""
    lacks: tuple[int, ...] = ()
    graded: tuple[Graded, ...] = ()

    def own_words(self) -> tuple[str, ...]:
        """All that the maker wrote for readers: title, credit, paragraphs, names of pieces and yarns."""
        credit = (self.title, self.by, self.link, self.licence, self.date, self.note, self.introduction, self.contact)
        pieces = (words for piece in self.pieces for words in (piece.name, piece.before, piece.after))
        return (*credit, *pieces, *(yarn.name for yarn in self.yarns))

    def number_in_file(self, piece: Piece) -> int:
        """The number, from 0, of one of the pieces among all those of its file. ValueError for any other piece."""
        number = self.pieces.index(piece)
        for gone in self.lacks:
            number += gone <= number
        return number

    @property
    def common_title(self) -> str:
        """The title that all sizes of the file have."""
        return self.title.removesuffix(sized_title("", self.size)) if self.size else self.title


def sized_title(title: str, size: str) -> str:
    """The ``title`` of a pattern in one ``size``: "Heron Creek top (M)"."""
    return f"{title} ({size})"
