"""Rows as they are told: single, in blocks, in sections, in pieces.

In: nothing. Out: what the other modules fill: ``Foundation``, ``RowInstructions`` and what is made of them. Every row
has how it is worked, from which side, in what yarn, what it counts and what its edges do.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, TypeAlias

from turnchain.fabric.lattice import starting_side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.stitches import Counts
from turnchain.records import frozen
from turnchain.wording.instructions.steps import Step

FabricSide: TypeAlias = Literal["RS", "WS"]


def fabric_side(row: int) -> FabricSide:
    """The side of the fabric that faces in the row numbered ``row``, from 1: row 1 is a right-side row."""
    return "RS" if starting_side(row) == starting_side(1) else "WS"


@frozen
class Foundation:
    """The chain to make: ``chains``, that is ``multiple`` times the ``clusters`` of the first row that has any, and
    ``plus``. ``turning`` of them are row 1's turning chain, the other ``base`` lie under the row. ``colour`` is its
    yarn, None where the pattern names none. ``on``: the piece on whose chains, or "armhole" along which, it is begun;
    then only the turning chain is made."""

    chains: int
    base: int
    turning: int
    multiple: int
    clusters: int
    colour: str | None
    on: str = ""

    @property
    def plus(self) -> int:
        """What the chain has beside the multiple."""
        return self.chains - self.multiple * self.clusters


@frozen
class Shaping:
    """An edge that goes in or out at the row's start or end, by ``halves`` half pitches from the row below: more than 0
    outwards, less than 0 inwards; a half pitch is half a cluster more or less."""

    where: Literal["start", "end"]
    halves: int


@frozen
class SpacesOnChain:
    """Where the spaces of row 1 lie in the closed fabric, whose dc show no groups: the first after ``first`` stitches,
    counted from where row 2 starts, the edge stitch being one of them; the others each ``every`` stitches on (0: there
    is one space)."""

    first: int
    every: int


@frozen
class RowInstructions:
    """One row: how it is worked, from which side, in what yarn, and what it counts.

    ``number`` is the row's, from 1; the second of two shoulders has the same numbers as the first. ``colour`` is its
    yarn and ``change_to`` that of the next row where it is another; that comes in with the last yarn-over of this row.
    Either is None where there is no such yarn. ``counts`` are stitches in US terms. ``fasten_off``: no row goes on from
    here. ``kind``: "cluster", or the stitch that a solid row is made of. ``spaces``: where the spaces of row 1 lie, if
    the row does not show it, else None.
    """

    number: int
    section: str
    side: FabricSide
    colour: str | None
    steps: tuple[Step, ...]
    clusters: int
    counts: Counts
    shaping: tuple[Shaping, ...]
    change_to: str | None
    fasten_off: bool
    spaces: SpacesOnChain | None = None
    kind: str = CLUSTERS

    def same_words(self, other: RowInstructions) -> bool:
        """Whether the two are worked in the same words and come to the same count. Row numbers, sides and yarns may
        differ."""
        mine = (self.kind, self.steps, self.clusters, self.counts, self.shaping)
        return mine == (other.kind, other.steps, other.clusters, other.counts, other.shaping)


@frozen
class RowBlock:
    """Rows told together, in the order worked. Without ``models``, one row or several in the same words; with them, the
    rows go through the models in turn, which are the rows just before them."""

    rows: tuple[RowInstructions, ...]
    models: tuple[RowInstructions, ...] = ()


@frozen
class SectionInstructions:
    """The body, or a section that begins on the row of it numbered ``after`` (None for the body). ``joined``: its yarn
    is joined anew. ``first`` is its first row, which is also the first of its ``blocks``."""

    name: str
    after: int | None
    joined: bool
    first: RowInstructions
    blocks: tuple[RowBlock, ...]


@frozen
class PieceInstructions:
    """All of a piece, of which ``count`` are made. ``row_count`` is how many rows it is high. ``colours`` are its yarns
    in the order met, none where the pattern names none; ``sections`` stand in the order worked."""

    name: str
    count: int
    worked: Literal["sideways", "upwards"]
    row_count: int
    colours: tuple[str, ...]
    foundation: Foundation
    sections: tuple[SectionInstructions, ...]

    def rows(self) -> Iterator[RowInstructions]:
        """Every row in the order worked, section by section."""
        for section in self.sections:
            for block in section.blocks:
                yield from block.rows
