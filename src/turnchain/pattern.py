"""What a maker wrote down, checked: the vocabulary of a pattern file.

In: nothing. Out: frozen dataclasses that the reader fills and the planner reads. Every length is an exact
fraction of a centimetre, whatever unit the file used, so that no rounding decides a stitch.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

Terms = Literal["US", "UK"]
Side = Literal["left", "right"]

# The largest sizes taken, so that a slip of the finger is a message and not a machine at a standstill.
MOST_ROWS = 2000
MOST_CLUSTERS = 2000
MOST_YARNS = 200
MOST_PIECES = 100


@dataclass(frozen=True, slots=True)
class Swatch:
    """One reading of a swatch: ``clusters`` counted in ``width`` cm, ``rows`` counted in ``height`` cm.

    Either pair may be missing (None) where another reading has it. ``weight`` in grams is that of a swatch of
    ``weighed`` (width, height) cm over all.
    """

    clusters: Fraction | None = None
    width: Fraction | None = None
    rows: Fraction | None = None
    height: Fraction | None = None
    weight: Fraction | None = None
    weighed: tuple[Fraction, Fraction] | None = None
    hook: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Fabric:
    """``cluster`` double crochets (US) in a cluster, ``gap`` chains between clusters (0: closed fabric)."""

    cluster: int = 3
    gap: int = 1

    @property
    def edge(self) -> int:
        """Stitches between post and first cluster at a spaced edge: the gap's chains, or one extra dc."""
        return self.gap or 1


@dataclass(frozen=True, slots=True)
class Yarn:
    """A yarn: its ``colour`` as "#rrggbb", ``stock`` grams in hand, ``ball`` grams in one ball."""

    name: str
    colour: str
    stock: Fraction | None = None
    metres_per_100g: Fraction | None = None
    ball: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Stripes:
    """Yarn names in ``order``, each for as many rows as ``rows`` says in turn; both go round and round."""

    order: tuple[str, ...]
    rows: tuple[int, ...] = (1,)


@dataclass(frozen=True, slots=True)
class Neck:
    """A neck opening as worn: ``shoulder`` cm of full length at each side, ``depth`` cm down from it.

    ``slant`` goes in half a cluster a row; ``vee`` runs straight to a point; ``round`` is half an ellipse;
    ``square`` goes straight down and straight across.
    """

    shoulder: Fraction
    depth: Fraction
    shape: Literal["slant", "round", "vee", "square"] = "slant"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece: a panel (``width`` across and ``length`` down, as worn, in cm) or a free ``outline``.

    ``outline`` is [height, width] points in cm in the direction of work, heights from 0 upwards and never
    falling. ``left_outline`` and ``right_outline`` give the two edges apart, as [height, reach] with the reach
    outwards from one centre line; both or neither. ``faces`` names the piece that this one is sewn to, front to
    back.
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
    align: Literal["centre", "left", "right"] = "centre"
    row_plan: Literal["auto", "alike", "alternate"] = "auto"
    neck_edge: Side = "right"
    faces: str | None = None


@dataclass(frozen=True, slots=True)
class Seam:
    """Two edges that are sewn together, each as "piece.edge"."""

    join: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Pattern:
    """A whole pattern file. ``units`` is the unit the maker thinks in, for messages and measures."""

    title: str
    swatches: tuple[Swatch, ...]
    pieces: tuple[Piece, ...]
    fabric: Fabric = field(default_factory=Fabric)
    yarns: tuple[Yarn, ...] = ()
    stripes: Stripes | None = None
    seams: tuple[Seam, ...] = ()
    terms: Terms = "US"
    units: Literal["cm", "in"] = "cm"
    by: str = ""
    link: str = ""
    licence: str = ""
    date: str = ""
    note: str = ""
