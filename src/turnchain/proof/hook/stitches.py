"""Stitches, the spots of a row that the next one is worked into, a finished row, and the error ``Unworkable``.

In: nothing. Out: the classes that ``row`` and ``finished`` use, and every module that has rows worked. Positions are
half pitches (half a cluster with its gap), growing to the right, right side facing; row 1's left edge is 0.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

EdgeKind: TypeAlias = Literal["flush", "spaced", "bare"]
StitchKind: TypeAlias = Literal["dc", "ch", "sl st", "tch"]


#: How many chains turn before a row of each stitch, and whether they count as one. Common practice.
TURNING: dict[str, tuple[int, bool]] = {"sc": (1, False), "hdc": (2, False), "dc": (3, True), "tr": (4, True)}


#: What lies between stitches.
SPACES = ("space", "inner", "half")


class Unworkable(Exception):
    """Something that cannot be worked, or that would be another fabric; its text is the reason."""


@dataclass(frozen=True, slots=True)
class Craft:
    """What a maker is told before row 1: ``cluster`` dc in a cluster (dc here is whichever stitch the fabric is made
    of), ``gap`` chains between two (0: no gaps), the chains of a ``turning`` chain, which ``counts`` as the edge stitch
    or has it beside it. ``stacked``: clusters are worked into clusters; ``inner``: chains in the middle of each.
    ``slit``: nothing stands between edge stitches and clusters, which can go into the slit there; ``own``: the first
    edge stitch has a chain of its own under it, else it stands beside the first one worked into. ``bare``: a row can
    begin and end with a cluster, whose first stitch is then the turning chain."""

    cluster: int
    gap: int
    turning: int = 3
    counts: bool = True
    inner: int = 0
    stacked: bool = False
    slit: bool = False
    own: bool = True
    bare: bool = False

    @property
    def alternating(self) -> bool:
        """Whether a cluster at an edge looks like an edge stitch."""
        return self.bare and self.cluster == 1

    @property
    def wide(self) -> int:
        """The stitches and chains of a cluster."""
        return self.cluster + self.inner

    @property
    def solid(self) -> bool:
        """Whether every stitch is worked by itself, without chains."""
        return self.wide == 1 and not self.gap

    @property
    def grouped(self) -> bool:
        """Whether clusters of several stitches are worked into clusters."""
        return self.stacked and self.wide > 1

    @property
    def single(self) -> bool:
        """Whether single stitches are worked into single stitches."""
        return self.stacked and self.wide == 1

    @property
    def middle(self) -> int:
        """Which dc of a cluster, from 1 and from the outside, carries an edge stitch: the outer of an even two."""
        return (self.cluster + 1) // 2

    @property
    def middle_of_two(self) -> int:
        """Which dc, counted alike, carries each of two edge stitches that stand on one cluster: of an even two that on
        its own side, so that they do not cross; of an odd cluster the middle one both."""
        return self.cluster // 2 + 1


@dataclass(frozen=True, slots=True)
class Spot:
    """What the next row meets: the top of an ``edge`` stitch, of an ``extra`` dc or of a ``dc`` of a ``cluster``
    (numbered in its row, from 0), or a ``space`` of some ``chains`` (0: a slit), ``inner`` where it lies in a cluster,
    ``half`` between an edge stitch and the extra dc beside it. ``turning``: a turning chain by itself. A "solid" stitch
    stands in one stitch or chain: ``over`` numbers the cluster (even) or the space (odd) of the last row of clusters
    that it lies over (-1: there are none below, -2: it lies over neither)."""

    what: Literal["edge", "extra", "dc", "space", "inner", "half", "solid"]
    cluster: int = -1
    chains: int = 0
    turning: bool = False
    over: int = -1


@dataclass(frozen=True, slots=True)
class Below:
    """A spot of the row below, by its number (from 0) as met from where the work was turned."""

    index: int


@dataclass(frozen=True, slots=True)
class OnChain:
    """A chain by its number from the hook, from 1."""

    number: int


WorkedInto: TypeAlias = Below | OnChain


@dataclass(frozen=True, slots=True)
class WorkedStitch:
    """One stitch and what it is worked into; None for a chain, which is worked into nothing."""

    kind: StitchKind
    into: WorkedInto | None


@dataclass(frozen=True, slots=True)
class EdgeMade:
    """An edge as it came out: where it stands in half pitches, its kind, and how many half pitches ``inwards`` of the
    edge below (negative: outwards; 0 in row 1); whether that is a ``step``, which is level and leans no edge stitch."""

    at: int
    kind: EdgeKind
    inwards: int
    step: bool = False


@dataclass(slots=True)
class WorkedRow:
    """A finished row. ``spots`` in working order with their positions ``at``, and ``centres`` of the clusters, in half
    pitches; ``towards`` is 1 where it was worked to the right, -1 to the left. ``taken`` and ``carrying`` fill as the
    next rows are worked: the spots (by number in ``spots``) that clusters stand in, and by cluster the dc that edge
    stitches stand on, from 1 and from the outside of each. ``turning``: the chains of its turning chain, ``top`` the
    one of them that is the top of the edge stitch. ``kind``: "cluster", or the stitch of a solid row; ``at_foot`` are
    the solid rows at the foot of the piece up to this one, whose places are known once clusters stand on them."""

    number: int
    towards: int
    spots: tuple[Spot, ...]
    at: tuple[int, ...]
    stitches: tuple[WorkedStitch, ...]
    centres: tuple[int, ...]
    start: EdgeMade
    end: EdgeMade
    taken: set[int] = field(default_factory=set)
    carrying: dict[int, list[int]] = field(default_factory=dict)
    turning: int = 3
    top: int = 3
    kind: str = "cluster"
    at_foot: tuple[WorkedRow, ...] = ()

    @property
    def solid(self) -> bool:
        """Whether it is one stitch in every stitch and chain."""
        return self.kind != "cluster"

    def count(self, kind: StitchKind) -> int:
        """How many stitches of a kind; the turning chain is one."""
        return sum(stitch.kind == kind for stitch in self.stitches)

    @property
    def clusters(self) -> int:
        """How many clusters the row has."""
        return len(self.centres)

    @property
    def left(self) -> EdgeMade:
        """The edge at the left, right side facing."""
        return self.start if self.towards == 1 else self.end

    @property
    def right(self) -> EdgeMade:
        """The edge at the right, right side facing."""
        return self.end if self.towards == 1 else self.start

    @property
    def wide(self) -> int:
        """The width in stitches: edge stitches, every dc, and gaps by their chains."""
        return sum(spot.chains if spot.what in SPACES else 1 for spot in self.spots)


def refuse(condition: object, words: str) -> None:
    """Raises Unworkable with ``words`` where ``condition`` holds."""
    if condition:
        raise Unworkable(words)
