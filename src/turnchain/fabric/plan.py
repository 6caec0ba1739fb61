"""The plan: every decision about stitches, made once.

In: nothing (``planning`` fills it). Out: frozen records that all readers of the plan share: a row is its two
edges and how many clusters stand between them. Positions are half pitches, right side facing, growing to the
right; row 1's left edge is 0. Lengths are exact fractions of a centimetre.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from itertools import accumulate
from typing import Literal

from turnchain.fabric import lattice, stitches
from turnchain.fabric.gauge import Gauge
from turnchain.fabric.lattice import Kind, Move, Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.recipe import EdgeTable, Recipe
from turnchain.fabric.stitches import Counts
from turnchain.pattern import FRONT_EDGE, SHOULDER, OutlineStretch, Pattern, UpperEdge
from turnchain.records import frozen, replace

RowPlan = Literal["alike", "alternate"]
HALF = Fraction(1, 2)


@frozen
class Edge:
    """One edge of a row: where it stands (``at``, in half pitches), its kind, the move that brought it there from the
    row below, and the half pitches of a ``step`` in or out (0 for any other move)."""

    at: int
    kind: Kind
    move: Move
    step: int


@frozen
class Row:
    """One row in the order worked. ``section`` is the name of the part it belongs to, ``number`` its row number from
    1, ``starts`` the side of the chart where it begins, ``clusters`` how many it has. ``colour`` is a yarn's name, or
    None where the pattern names no yarn.

    ``index`` is its place among the piece's rows and ``under`` that of the row it is worked into (None for row 1):
    where a neck divides the piece, both sections begin on the last row of the body and keep its row numbers. The
    yarn is ``joined`` anew where the second of them begins. ``running`` is the running phase: its clusters stand at
    every c = running (mod 2).

    ``kind``: a row of clusters, or by its name the stitch of a solid row; that has no clusters, and keeps the running
    phase of the clusters below it (at the foot of a piece: above it). ``nth``: which row of clusters this is, or the
    last one below it, from 1. ``height``: in rows of the gauge, which are as high as the mean row of the swatch.
    """

    section: str
    number: int
    index: int
    under: int | None
    joined: bool
    left: Edge
    right: Edge
    starts: Side
    clusters: int
    colour: str | None
    counts: Counts
    running: int
    kind: str = CLUSTERS
    nth: int = 0
    height: Fraction = Fraction(1)

    @property
    def solid(self) -> bool:
        """Whether it is one stitch in every stitch and chain of the row below."""
        return self.kind != CLUSTERS

    @property
    def irregular(self) -> bool:
        """Whether an edge goes in or out where the kind of the edge below asks for another move."""
        return any(edge.move in ("forced_decrease", "forced_increase") for edge in (self.left, self.right))

    def edge(self, side: Side) -> Edge:
        """The edge at ``side`` of the chart."""
        return self.left if side == "left" else self.right

    @property
    def centres(self) -> range:
        """The positions of its clusters, in half pitches, from the left; of a solid row those of the clusters that its
        stitches are counted by."""
        return lattice.centres(self.left.at, self.right.at, self.running)

    @property
    def ends(self) -> Side:
        """The side of the chart where the row is finished."""
        return "left" if self.starts == "right" else "right"


def between(low: int, high: int, share: Fraction, step: bool) -> Fraction:
    """Where an edge stands a ``share`` of the way from one row's top to the next, as a measure is taken: on the line
    between, or at a ``step`` as in the nearer row."""
    return Fraction(low if share < HALF else high) if step else low + (high - low) * share


@frozen
class Fit:
    """One ``measure`` by name, such as "neck depth", in cm: what was ``wanted`` and what the plan gives
    (``worked``)."""

    measure: str
    wanted: Fraction
    worked: Fraction

    @property
    def off(self) -> Fraction:
        """Worked less wanted, in cm."""
        return self.worked - self.wanted


@frozen
class Deviation:
    """Where the worked edge line is farthest from the wanted one: ``distance`` cm at the top of ``row`` (from 1)."""

    side: Side
    row: int
    distance: Fraction


@frozen
class Alternative:
    """A plan that came close and was not taken, with its measures; ``clusters`` of rows 1 and 2. ``keys``: the keys of
    a [[piece]] with the values that choose it; ``irregular``: how many rows are shaped irregularly."""

    rows: int
    row_plan: RowPlan
    clusters: tuple[int, int]
    fit: tuple[Fit, ...]
    keys: tuple[tuple[str, int | str], ...]
    irregular: int = 0


@frozen
class ProgressReport:
    """A piece begun: ``worked`` rows, in the order worked; the ``planned_rows`` it is high by the swatch; the measures
    in cm that this plan comes to by the gauge of what is worked (``as_planned``), and whether the rest was
    ``changed``."""

    worked: int
    planned_rows: int
    as_planned: tuple[Fit, ...]
    changed: bool


@frozen(slots=False)
class PiecePlan:
    """One piece, planned.

    ``count``: how many of it are made. ``gauge``: that of this piece, which differs from the pattern's where it is
    begun. ``phase`` is the s of the lattice. ``foundation_chain``: the chains to make before row 1, its turning chain
    included. ``rows``: all rows in the order worked, both sections of a divided piece. ``farthest``: None for a
    straight piece. ``alternatives``: plans that came close, two at most. ``warnings``: in makers' words. ``top`` is
    the side of the chart that is the upper edge as worn in a panel worked sideways (where the neck and the
    shoulders are), else None. ``free_outline``: the file gives an outline, not width and length. ``progress``: None
    where the piece is not begun. ``stretches``: those of the outline that have names, where they are wanted, in cm.
    ``begun_on``: the piece into the other side of whose foundation row 1 is worked, or "armhole"; of
    ``foundation_chain`` only the turning chain is then made. ``sc_below``: how high, in rows of the gauge, the single
    crochet along an armhole is that row 1 then stands on, else 0. ``upper``: the parts of a panel worked sideways.
    """

    name: str
    count: int
    worked: Literal["sideways", "upwards"]
    recipe: Recipe
    gauge: Gauge
    phase: int
    row_plan: RowPlan
    foundation_chain: int
    rows: tuple[Row, ...]
    fit: tuple[Fit, ...]
    farthest: Deviation | None
    alternatives: tuple[Alternative, ...]
    warnings: tuple[str, ...]
    top: Side | None
    free_outline: bool
    has_neck: bool
    progress: ProgressReport | None = None
    stretches: tuple[OutlineStretch, ...] = ()
    begun_on: str = ""
    sc_below: Fraction = Fraction(0)
    upper: UpperEdge | None = None

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        """Computed once, and not from every row, since pieces are the keys of caches: pieces of one name that differ
        only in rows between the first and the last are rare, and ``==`` tells them apart."""
        return hash((self.name, self.count, self.phase, self.rows[0], self.rows[-1], len(self.rows), self.fit))

    def running(self, number: int) -> int:
        """The running phase of the row numbered ``number``, from 1; 0, and past the last row: as if there were one."""
        levels = self.row_levels
        return levels[number - 1].running if 0 < number <= len(levels) else self.recipe.running(self.phase, number)

    def below(self, row: Row) -> Row | None:
        """The row that ``row`` is worked into; None for row 1."""
        return None if row.under is None else self.rows[row.under]

    def edges(self, row: Row) -> EdgeTable:
        """How edges go from the row below ``row`` to it."""
        below = self.below(row)
        return self.recipe.edges(below is not None and below.solid)

    def begins_section(self, row: Row) -> bool:
        """Whether ``row`` is the first of a section that divides from the body."""
        under = self.below(row)
        return under is not None and under.section != row.section

    def beside(self, row: Row) -> Row | None:
        """Of a ``row`` that begins a section, the first row of the other section; None for any other row."""
        if not self.begins_section(row):
            return None
        return next((one for one in self.rows if one.under == row.under and one.index != row.index), None)

    def on_unit(self, row: Row, side: Side) -> bool:
        """Whether the edge of ``row`` at ``side`` has come to a unit of the row below, not to a gap."""
        below, edge = self.below(row), row.edge(side)
        if below is None:
            return False
        under = below.edge(side)
        return self.recipe.on_unit(under.kind, (edge.at - under.at) * (1 if side == "left" else -1))

    def across_neck(self, row: Row, side: Side) -> int | None:
        """Where, in half pitches, the edge of the other section stands in the row of that number, across the neck at
        ``side``; None where there is no neck at that side."""
        if len(self.sections) == 1 or row.section == self.sections[0]:
            return None
        other = self._across.get((row.number, row.section))
        if other is None or (other.left.at < row.left.at) != (side == "left"):
            return None
        return other.edge("right" if side == "left" else "left").at

    @cached_property
    def _across(self) -> dict[tuple[int, str], Row]:
        _, *parts = self.sections
        others = {one: other for one in parts for other in parts if one != other}
        return {(row.number, others[row.section]): row for row in self.rows if row.section in others}

    def shares_cluster(self, row: Row, side: Side) -> bool:
        """Whether the post of ``row`` at ``side`` and the post of the other section stand on one cluster: the neck
        begins with no width there."""
        edge, other = row.edge(side), self.beside(row)
        if other is None or not self.on_unit(row, side):
            return False
        return other.edge("left" if side == "right" else "right").at == edge.at

    @property
    def opens(self) -> Side | None:
        """Of half a front that opens: the side, as worn and seen from the right side, that lies in the middle of the
        body. None for others."""
        if self.upper is not None:
            return self.upper.opens
        return next((one.side for one in self.stretches if one.name == FRONT_EDGE), None)

    @property
    def front_edge(self) -> str | None:
        """Of half a front that opens the name of its edge in the middle of the body: a side of the chart or, worked
        sideways, the "first" or the "last" row. None for others."""
        opens = self.opens
        if opens is None or self.top is None:
            return opens
        return "first" if opens == self.top else "last"

    @property
    def armed(self) -> tuple[bool, bool]:
        """Whether the upper edge of a panel worked sideways has an armhole at the first row, and at the last."""
        sides = () if self.upper is None else self.upper.armed
        return self.top in sides, any(side != self.top for side in sides)

    @cached_property
    def slope(self) -> int:
        """How many rows from the last its shoulders slope from the arm up to the neck; 0 where they are level."""
        slope = next((one for one in self.stretches if one.name == SHOULDER), None)
        return 0 if slope is None else min(slope.rows(self.gauge.row), self.row_count - 1)

    @cached_property
    def sections(self) -> tuple[str, ...]:
        """The names of the sections in the order worked."""
        return tuple(dict.fromkeys(row.section for row in self.rows))

    def section(self, name: str) -> tuple[Row, ...]:
        """The rows of the section called ``name``, in the order worked; empty where there is none."""
        return tuple(row for row in self.rows if row.section == name)

    @cached_property
    def row_levels(self) -> tuple[Row, ...]:
        """One row for every row number, from 1 up: those of the body and of the section worked first. There are
        ``row_count`` of them."""
        first: dict[int, Row] = {}
        for row in self.rows:
            first.setdefault(row.number, row)
        return tuple(first.values())

    @cached_property
    def row_count(self) -> int:
        """How many rows the piece is high: the highest row number."""
        return max(row.number for row in self.rows)

    @cached_property
    def picked_up(self) -> Row | None:
        """The single crochet along an armhole that row 1 stands on, in its yarn and as wide: row 0; None where there is
        none."""
        if not self.sc_below:
            return None
        first = self.rows[0]
        spaced = (first.left.kind == "spaced") + (first.right.kind == "spaced")
        counts = Counts(stitches.base(self.recipe, len(first.centres), spaced), 0, 0, 0)
        return replace(first, number=0, index=-1, kind="sc", clusters=0, counts=counts, nth=0, height=self.sc_below)

    @property
    def cloth_rows(self) -> tuple[Row, ...]:
        """All rows in the order worked, with the one along an armhole."""
        return self.rows if self.picked_up is None else (self.picked_up, *self.rows)

    @cached_property
    def tops(self) -> tuple[Fraction, ...]:
        """How high the top of each row lies, in rows of the gauge, from row 0 (the foundation) on."""
        return tuple(accumulate((row.height for row in self.row_levels), initial=self.sc_below))

    @property
    def mixed(self) -> bool:
        """Whether it has rows of more than one kind."""
        return not self.recipe.order.plain

    @property
    def repeat(self) -> int:
        """After how many rows straight rows come again as they are, worked from the same side."""
        return self.recipe.order.repeat(self.recipe.table.shift)

    def level(self, number: int) -> Fraction:
        """How high the top of the row numbered ``number`` lies, in rows of the gauge; of row 0, the foundation: 0, or
        of the single crochet along an armhole its top; of what that is worked along (-1): 0."""
        if number < 0:
            return Fraction(0)
        return self.tops[number] if self.mixed else self.sc_below + number

    def up(self, number: int) -> Fraction:
        """How high the top of the row numbered ``number`` lies, in cm; ``level`` in cm."""
        return self.level(number) * self.gauge.row

    def row_at(self, height: Fraction) -> int:
        """The number of the row (0: the foundation) whose top lies nearest to ``height`` cm."""
        rows = height / self.gauge.row
        if not self.mixed:
            return max(0, round(rows - self.sc_below))
        return min(range(len(self.tops)), key=lambda number: abs(self.tops[number] - rows))

    @property
    def cluster_row(self) -> Fraction:
        """The height of a row of clusters in cm."""
        return self.gauge.row / self.recipe.order.mean

    @property
    def dc_row(self) -> Fraction:
        """How high a row of dc would be in this gauge, in cm."""
        return self.cluster_row / self.recipe.stitch.height

    @property
    def height(self) -> Fraction:
        """The height of all rows in cm."""
        return self.level(self.row_count) * self.gauge.row

    @cached_property
    def leftmost(self) -> int:
        """The farthest position to the left, in half pitches."""
        return min(row.left.at for row in self.rows)

    @cached_property
    def rightmost(self) -> int:
        """The farthest position to the right, in half pitches."""
        return max(row.right.at for row in self.rows)

    @property
    def total_clusters(self) -> int:
        """The clusters of all rows of one such piece, both sections included."""
        return sum(row.clusters for row in self.rows)


@frozen
class Plan:
    """A planned pattern. ``pattern`` holds what the maker wrote: names, yarns, terms, credit. ``gauge`` is the one that
    pieces not begun are planned by: the swatch's, or the mean of the begun pieces'. ``pieces`` are in the order of the
    file; ``warnings`` concern the whole pattern, those of a piece are its own."""

    pattern: Pattern
    gauge: Gauge
    pieces: tuple[PiecePlan, ...]
    warnings: tuple[str, ...]

    @property
    def recipe(self) -> Recipe:
        """The fabric of all pieces."""
        return self.pieces[0].recipe

    def piece(self, name: str) -> PiecePlan:
        """The piece called ``name``; raises KeyError where there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)
