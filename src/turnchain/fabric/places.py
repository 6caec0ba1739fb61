"""The places of a finished row, as the next one meets them.

In: a planned piece and one of its rows. Out: what a stitch of the next row is worked into, by the names that edge
tables have for places, by a position, or by counting from an edge; with where its foot stands. Positions are half
pitches.
"""

from __future__ import annotations

from enum import IntEnum
from functools import cached_property
from typing import NamedTuple

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.fabric.recipe import Recipe


class Into(IntEnum):
    """What a stitch is worked into; the meaning of ``target`` beside it.

    ``FOUNDATION``: the chain's number counted from the hook. ``SPACE``: the position of the space between two
    clusters, in one, or beside a post, of the row below; that of the edge where it lies between post and the stitch
    beside it. ``STITCH`` and ``POST``: the number of the stitch in the row below, in its working order, from 0.
    ``OWN_CHAIN``: a chain made at this row's start for a step out, counted from the hook. ``AIR``: nothing, as every
    chain.
    """

    FOUNDATION = 0
    SPACE = 1
    STITCH = 2
    POST = 3
    OWN_CHAIN = 4
    AIR = 5


class Standing(NamedTuple):
    """What a stitch is worked into, and where its ``foot`` then stands."""

    into: Into
    target: int
    foot: float


def filling_at(recipe: Recipe, edge: Edge, side: Side) -> list[float]:
    """Where the chains or stitches that fill a spaced edge at ``side`` of the chart lie, in half pitches, the outermost
    first: evenly between the post and the head of the first stitch of the cluster beside it."""
    inwards = 1 if side == "left" else -1
    many, room = recipe.filled, 2 - (recipe.unit_width - 1) / 2 * recipe.pace
    return [edge.at + inwards * room * (nth + 1) / (many + 1) for nth in range(many)]


def layout(recipe: Recipe, row: Row) -> list[float]:
    """Where the stitches and chains of a row stand from edge to edge, posts too, in half pitches, from the left; of a
    solid row each over what it is worked into."""
    k, g, pace = recipe.unit_width, recipe.gap, recipe.pace
    left = filling_at(recipe, row.left, "left") if row.left.kind == "spaced" else []
    right = filling_at(recipe, row.right, "right") if row.right.kind == "spaced" else []
    offsets = [*((nth - (k - 1) / 2) * pace for nth in range(k)), *(1 + (nth - (g - 1) / 2) * pace for nth in range(g))]
    units = [centre + offset for centre in row.centres for offset in offsets]
    return [row.left.at, *left, *units[: len(units) - g], *reversed(right), row.right.at]


def together(piece: PiecePlan, row: Row) -> bool:
    """Whether ``row`` begins with an edge stitch that is worked over two places together."""
    below = piece.below(row)
    start = row.edge(row.starts)
    return below is not None and piece.recipe.table.together(start.move, below.edge(row.starts).kind)


class RowBelow:
    """A row of a ``piece`` as what the next one is worked into. Sides are those of the chart; numbers of stitches count
    in the row's own working order, from 0; what lies at a side is counted inwards from there."""

    def __init__(self, piece: PiecePlan, row: Row) -> None:
        self.piece, self.row, self.recipe = piece, row, piece.recipe

    @cached_property
    def extent(self) -> tuple[int, int]:
        """The number of the turning chain among the row's stitches, and how many stitches the row has."""
        row = self.row
        start, below = row.edge(row.starts), self.piece.below(row)
        lead = row.counts.sl_st
        if start.move == "step_out" and below is not None:
            lead += stitches.chained(self.recipe, start.step, below.edge(row.starts).kind)
        return lead, row.counts.sl_st + row.counts.ch + row.counts.dc + row.counts.tch

    def post(self, side: Side) -> int:
        """The number of the post: the turning chain or the last stitch."""
        lead, total = self.extent
        return lead if self.row.starts == side else total - 1

    @cached_property
    def hidden(self) -> int:
        """The chains beside its edge that are part of the turning chain."""
        if self.row.edge(self.row.starts).kind == "bare":
            return stitches.held(self.recipe, "bare")
        apart = self.row.solid or not self.recipe.stitch.counts or together(self.piece, self.row)
        return 0 if apart else self.recipe.edge_chains

    def stitch(self, side: Side, nth: int, from_outside: int) -> int:
        """The number of a stitch of the ``nth`` cluster (from 1), ``from_outside`` (from 0)."""
        lead, total = self.extent
        filled = self.recipe.filled if self.row.edge(side).kind == "spaced" else 0
        if self.row.edge(side).kind == "bare":
            filled = -1  # no edge stitch comes before it
        if self.row.starts == side:
            filled -= self.hidden if filled > 0 else 0
            return lead + 1 + filled + (nth - 1) * self.recipe.pitch + from_outside
        return total - 2 - filled - (nth - 1) * self.recipe.pitch - from_outside

    def nth(self, side: Side, nth: int) -> int:
        """The number of the ``nth`` stitch in from the post, or from the outermost stitch. The gap beside a spaced
        start is part of the turning chain there, so it is met as that."""
        lead, total = self.extent
        if self.row.starts != side:
            return max(lead, total - 1 - nth)
        hidden = self.hidden if self.row.edge(side).kind == "spaced" else 0
        return lead + max(0, nth - hidden)

    def at(self, side: Side, half_pitches: float) -> float:
        """The position so many half pitches inwards."""
        return self.row.edge(side).at + (half_pitches if side == "left" else -half_pitches)

    def named(self, place: str, side: Side) -> Standing:
        """The place that an edge table calls so. Raises ValueError where the row has none such."""
        name, _, number = place.partition(" ")
        edge, first = self.row.edge(side), 2 if self.row.edge(side).kind == "spaced" else 1
        match name:
            case "post":
                return Standing(Into.POST, self.post(side), edge.at)
            case "edge":
                return self._space(side, 1)
            case "gap":
                return self._space(side, first + 2 * int(number) - 1)
            case "unit":
                return self.unit(side, int(number), (self.recipe.unit_width - 1) // 2)
            case "tip":
                reach = (self.recipe.unit_width - 1) / 2 * self.recipe.pace
                return Standing(Into.STITCH, self.stitch(side, 1, 0), self.at(side, first - reach))
        beside = filling_at(self.recipe, edge, side)
        if edge.kind != "spaced" or not self.recipe.extra:
            raise ValueError(f"no {place} at an edge without a stitch beside it")
        if name == "extra":
            return Standing(Into.STITCH, self.nth(side, 1), beside[0])
        return Standing(Into.SPACE, edge.at, (edge.at + beside[0]) / 2)

    def _space(self, side: Side, half_pitches: int) -> Standing:
        at = self.at(side, half_pitches)
        return Standing(Into.SPACE, int(at), at)

    def unit(self, side: Side, nth: int, from_outside: int) -> Standing:
        """The ``nth`` unit (from 1): the chains in it, else its stitch ``from_outside`` (from 0)."""
        middle = self.at(side, (2 if self.row.edge(side).kind == "spaced" else 1) + 2 * (nth - 1))
        if self.recipe.inner:
            return Standing(Into.SPACE, int(middle), middle)
        off = from_outside - (self.recipe.unit_width - 1) / 2  # stitches from its middle
        foot = middle + (1 if side == "left" else -1) * off * self.recipe.pace
        return Standing(Into.STITCH, self.stitch(side, nth, from_outside), foot)


class SolidBelow(RowBelow):
    """A solid row as what the next one is worked into: for every place the stitch over its middle."""

    def named(self, place: str, side: Side) -> Standing:
        """The stitch over the place that an edge table calls so, or the edge stitch."""
        name, _, number = place.partition(" ")
        kind = self.row.edge(side).kind
        if name == "tip":
            return self._standing(side, 1)
        if name in ("gap", "unit"):
            way = 2 * int(number) + (name == "gap") - (kind == "flush")
        else:
            way = {"post": 0, "half": 0, "edge": 1, "extra": 1}[name]
        return self._standing(side, stitches.lead_over(self.recipe, kind, way))

    def over(self, centre: int, side: Side) -> Standing:
        """The stitch over the position ``centre``, counted from ``side``."""
        edge = self.row.edge(side)
        return self._standing(side, stitches.lead_over(self.recipe, edge.kind, abs(centre - edge.at)))

    def _standing(self, side: Side, nth: int) -> Standing:
        """The ``nth`` stitch in from the edge stitch at ``side`` (0: that itself)."""
        heads = self.heads if side == "left" else self.heads[::-1]
        return Standing(Into.STITCH if 0 < nth < len(heads) - 1 else Into.POST, self.nth(side, nth), heads[nth])

    @cached_property
    def heads(self) -> list[float]:
        """Where its stitches stand, from the left, in half pitches."""
        return layout(self.recipe, self.row)
