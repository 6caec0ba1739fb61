"""What a fabric is made of: its recipe.

In: nothing; ``library`` reads recipes from data files. Out: frozen records which every room asks instead of
counting stitches itself. Positions and ways are half pitches, measures across a row are stitches.

A unit is what is worked into one place: K stitches, chains inside it counted. A gap is the g chains between two units.
The filling is what stands between the edge stitch and the first unit at a spaced edge, e stitches or chains. An edge
table says which kinds of edge there are, and what an edge may do from one row to the next.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from typing import Literal

from turnchain.fabric import lattice
from turnchain.fabric.lattice import Kind, Move
from turnchain.fabric.order import CLUSTERS, PLAIN, RowOrder
from turnchain.records import frozen, replace

CHAIN = "ch"

# A cluster of three dc with its gap is about two rows wide (published gauges: 1.83 to 2.0 row heights).
USUAL_OF_CLUSTERS = Fraction(2, 3)  # row heights of dc for each stitch of a cluster; its gap takes none
USUAL_OF_OTHERS = Fraction(58, 100)  # row heights of dc for each stitch; published solid dc: 0.577


@frozen
class StitchRule:
    """A stitch by its US ``name``: the chains of its ``turning`` chain, whether that ``counts`` as a stitch, and the
    ``height`` of a row, that of double crochet being 1."""

    name: str
    turning: int
    counts: bool
    height: Fraction


@frozen
class KindRule:
    """A ``kind`` of edge: the ``first`` unit stands 1 or 2 half pitches inside it; ``post``: an edge stitch stands at
    it."""

    kind: Kind
    first: int
    post: bool = True


@frozen
class MoveRule:
    """What an edge of the kind ``below`` may do: go ``by`` half pitches inwards to the kind ``to``, at a ``cost`` in
    squared half pitches of one row. Places of the row below, named as in the data: of the outermost ``unit``, and of
    the edge stitch where a row begins (``start``) and where it ends (``end``), "" where the edge has none; of one
    worked over several all, with a "+" between."""

    name: Move
    below: Kind
    to: Kind
    by: int
    cost: int
    unit: str
    start: str
    end: str


@frozen(slots=False)
class EdgeTable:
    """How edges go: whether units are worked ``into`` the "gap" or the "unit" below; the ``shift`` of the running phase
    from row to row (1 where units stand over gaps, else 0); the ``kinds`` and ``moves`` there are. ``by_pitches``:
    positions are whole pitches, as edges of one kind are fitted."""

    name: str
    into: str
    shift: int
    kinds: tuple[KindRule, ...]
    moves: tuple[MoveRule, ...]
    by_pitches: bool = False

    def __hash__(self) -> int:
        return hash((self.name, self.by_pitches))

    @property
    def whole(self) -> bool:
        """Whether edges have one kind, and so go by whole pitches alone."""
        return len(self.kinds) == 1

    @cached_property
    def most_lean(self) -> int:
        """How far an edge goes in a row at most without a step, in its own unit."""
        return max(abs(rule.by) for rule in self.moves)

    @cached_property
    def bare(self) -> bool:
        """Whether there are edges without an edge stitch."""
        return not all(rule.post for rule in self.kinds)

    def post(self, kind: Kind) -> bool:
        """Whether an edge of this ``kind`` has an edge stitch."""
        return kind != "bare"

    def on_edge(self, below: Kind) -> bool:
        """Whether, where an edge of the kind ``below`` goes outwards by whole pitches, a unit stands over it."""
        return (below != "spaced") == (self.shift == 1)

    def in_pitches(self) -> EdgeTable:
        """The same table, of edges that go by whole pitches, with these as its unit."""
        assert self.whole, "edges that go by half pitches are fitted in those"
        moves = tuple(replace(rule, by=rule.by // 2) for rule in self.moves)
        return replace(self, moves=moves, by_pitches=True)

    @cached_property
    def _by_first(self) -> dict[int, Kind]:
        return {rule.first: rule.kind for rule in self.kinds}

    @cached_property
    def _by_move(self) -> dict[tuple[Kind, int], MoveRule]:
        return {(rule.below, rule.by): rule for rule in self.moves}

    def kind(self, position: int, running: int) -> Kind:
        """The kind of an edge at ``position`` in a row of the ``running`` phase: units stand at c = running (mod 2).
        KeyError where there is none of the kind that belongs there."""
        if self.by_pitches:
            return self.kinds[0].kind
        return self._by_first[1 if (position + running) % 2 else 2]

    def move(self, below: Kind, inwards: int) -> MoveRule | None:
        """What brings an edge of kind ``below`` ``inwards`` half pitches (negative: outwards); None where that is a
        step, or cannot be worked."""
        return self._by_move.get((below, inwards))

    @cached_property
    def _by_name(self) -> dict[tuple[Move, Kind], MoveRule]:
        return {(rule.name, rule.below): rule for rule in self.moves}

    def rule(self, name: Move, below: Kind | None) -> MoveRule | None:
        """The move of this name from an edge of the kind ``below``; None for a step, and where nothing is below."""
        return None if below is None else self._by_name.get((name, below))

    @cached_property
    def joins(self) -> bool:
        """Whether any move has an edge stitch that is worked over two places together."""
        return any("+" in rule.start or "+" in rule.end for rule in self.moves)

    def together(self, name: Move, below: Kind | None) -> bool:
        """Whether the edge stitch of a row that begins with this move is worked over two places together."""
        rule = self.rule(name, below)
        return rule is not None and "+" in rule.start

    def named(self, below: Kind, inwards: int) -> Move:
        """What a way of so many half pitches ``inwards`` (negative: outwards) from an edge of kind ``below`` is called:
        a move of the table, or a step. ValueError where it cannot be worked: a step out goes by whole pitches."""
        rule = self.move(below, inwards)
        if rule is not None:
            return rule.name
        if inwards < 0 and inwards % 2 and not self.by_pitches:
            raise ValueError(f"an edge cannot go {-inwards} half pitches outwards in one row")
        return "step_in" if inwards > 0 else "step_out"

    def unforced(self) -> EdgeTable:
        """The same without the moves that cost."""
        return replace(self, moves=tuple(rule for rule in self.moves if not rule.cost))

    @cached_property
    def dearest(self) -> int:
        """The cost of the move that costs most, in squared half pitches of one row."""
        return max(rule.cost for rule in self.moves)


@frozen(slots=False)
class Recipe:
    """A fabric: its ``table`` of edges, the ``unit`` and the ``filling`` as names of stitches and "ch", the chains of a
    ``gap``. ``stitch`` is what edge stitches and units are made of; ``solids`` are the stitches of solid rows, and
    ``order`` says which rows those are. ``together``: whole units are worked into one chain of a foundation each.
    ``start``: the kind of edge that the first row of units starts with, "" for either. ``own``: the first edge stitch
    has a chain of its own under it; else the turning chain, which counts, stands beside the first chain worked into.
    ``over``: how edges go in rows of units after solid ones."""

    name: str
    table: EdgeTable
    unit: tuple[str, ...]
    gap: int
    filling: tuple[str, ...]
    stitch: StitchRule
    solids: tuple[StitchRule, ...] = ()
    order: RowOrder = PLAIN
    together: bool = False
    start: Kind | Literal[""] = ""
    own: bool = True
    over: EdgeTable | None = None

    def __hash__(self) -> int:
        return hash((self.name, self.unit, self.gap, self.filling, self.order))

    def rule(self, kind: str) -> StitchRule:
        """The stitch of edges in a row of this ``kind``, which solid rows are made of altogether."""
        return self.stitch if kind == CLUSTERS else next(one for one in self.solids if one.name == kind)

    def edges(self, over_solid: bool) -> EdgeTable:
        """How edges go in a row of units, after one of those or ``over_solid`` after a solid one."""
        return self.over if over_solid and self.over else self.table

    @property
    def unit_width(self) -> int:
        """K: the stitches of a unit, chains inside it counted."""
        return len(self.unit)

    @cached_property
    def worked(self) -> int:
        """The stitches of a unit without its chains."""
        return sum(one != CHAIN for one in self.unit)

    @property
    def inner(self) -> int:
        """The chains inside a unit."""
        return len(self.unit) - self.worked

    @property
    def noun(self) -> str:
        """What a unit with its gap is called in English: a "cluster", or a "repeat" where units are none."""
        return "cluster" if self.unit_width > 1 and not self.stacked else "repeat"

    @property
    def stacked(self) -> bool:
        """Whether units are worked into the units of the row below."""
        return self.table.into == "unit"

    @property
    def slit(self) -> bool:
        """Whether nothing stands between edge stitch and unit at a spaced edge, so that the slit there is the space,
        and only the next row shows which kind an edge is."""
        return not self.stacked and not self.filling

    @property
    def bare(self) -> bool:
        """Whether there are edges without an edge stitch: there the outermost unit is the edge, and where a row begins
        so the turning chain is its first stitch."""
        return self.table.bare

    @property
    def alternating(self) -> bool:
        """Whether edges are ``bare`` and units single stitches, which look like edge stitches: only what the next row
        is worked into shows an edge's kind, which is the other one in every row."""
        return self.bare and self.unit_width == 1

    @property
    def grouped(self) -> bool:
        """Whether a whole unit is worked into one chain of a foundation, that under its middle stitch."""
        return self.stacked and len(self.unit) > 1

    @property
    def middle(self) -> int:
        """The middle stitch of a unit, from 1; the first of two."""
        return (len(self.unit) + 1) // 2

    @property
    def filled(self) -> int:
        """e: the stitches or chains between the edge stitch and the first unit at a spaced edge."""
        return len(self.filling)

    @cached_property
    def extra(self) -> int:
        """The stitches among them, worked in the edge stitch's place; 0 where chains fill the edge."""
        return sum(one != CHAIN for one in self.filling)

    @property
    def edge_chains(self) -> int:
        """The chains among them."""
        return self.filled - self.extra

    @property
    def pitch(self) -> int:
        """K + g: stitches and chains from one unit to the next."""
        return len(self.unit) + self.gap

    @property
    def pace(self) -> float:
        """The way from one stitch to the next, in half pitches."""
        return 2 / self.pitch

    def kind(self, position: int, running: int) -> Kind:
        """The kind of an edge at ``position`` in a row of the ``running`` phase."""
        return self.table.kind(position, running)

    def running(self, phase: int, row: int) -> int:
        """The running phase of ``row`` (from 1; 0: of the row below it) in a piece of this ``phase``: units stand at
        every c = running (mod 2)."""
        return (phase + self.order.shifts(row, self.table.shift)) % 2

    def in_pitches(self) -> Recipe:
        """The same with positions in whole pitches (``EdgeTable.in_pitches``)."""
        return replace(self, table=self.table.in_pitches())

    def clusters(self, left: int, right: int, running: int) -> int:
        """How many units stand between the edges ``left`` and ``right`` of a row of the ``running`` phase; 0 or less is
        no row."""
        return right - left - 1 if self.table.by_pitches else lattice.clusters(left, right, running)

    def on_unit(self, below: Kind, inwards: int) -> bool:
        """Whether an edge that goes ``inwards`` half pitches from one of the kind ``below`` comes to a unit of the row
        below, not to a gap; never where no edge stitch would stand there."""
        return not self.bare and (inwards + (below == "spaced")) % 2 == 1

    def usual_pitch(self) -> Fraction:
        """How many row heights, of the mean of rows as they go round, a pitch is usually wide. Source: fabrics of
        clusters 2/3 of dc to a stitch (published); others 0.58 to a stitch and half as much to a chain, or as much
        where a unit is one stitch (published for solid rows); both by the height of the stitch."""
        if self.worked == len(self.unit) > 1 and self.table.into == "gap":
            return USUAL_OF_CLUSTERS * len(self.unit) / self.stitch.height / self.order.mean
        chains = len(self.unit) - self.worked + self.gap
        share = Fraction(1) if len(self.unit) == 1 else Fraction(1, 2)
        return USUAL_OF_OTHERS * (self.worked + share * chains) / self.stitch.height / self.order.mean

    def narrow(self, kind: Kind) -> Fraction:
        """By how many stitches an edge of this kind falls short of its half pitches (less than 0: stands over)."""
        if kind == "spaced":
            return Fraction(self.pitch, 1) - Fraction(self.unit_width, 2) - self.filled - Fraction(1, 2)
        beside = Fraction(1, 2) if self.table.post(kind) else -Fraction(1, 2)  # the outermost stitch is the edge
        return Fraction(self.pitch, 2) - Fraction(self.unit_width, 2) - beside
