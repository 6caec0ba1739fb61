"""One row of the plan as the steps that a maker works.

In: a row of a ``PiecePlan`` and the row below it. Out: its steps. Along a new chain (the foundation, or one stepped
out on) every dc of a cluster takes a chain of its own. How an edge is worked follows from the move and the kind of the
edge below, by the tables of the fabric.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric import stitches
from turnchain.fabric.grid import Grid
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.fabric.recipe import Recipe
from turnchain.wording.instructions.row_parts import (
    RowParts,
    along_chain,
    filling_on_chain,
    grouped_on_chain,
    past_middle,
)
from turnchain.wording.instructions.solid_rows import clusters_over, solid_row
from turnchain.wording.instructions.steps import (
    BaseOfTurningChain,
    Chain,
    ClusterInSpaces,
    DcOfCluster,
    EdgeDc,
    HalfCluster,
    LastChain,
    LastDcOfLastCluster,
    NextStitch,
    Place,
    PlaceReached,
    SkipChains,
    SkipCluster,
    SlipInto,
    Space,
    Step,
    Turn,
    UnitBelow,
    Which,
    Work,
    repeated,
)
from turnchain.wording.instructions.unit_rows import UnitRow


def steps_of(piece: PiecePlan, row: Row) -> tuple[Step, ...]:
    """Every step of ``row`` in the order worked, with repeats in brackets (``Repeat``). In row 1 they begin after the
    foundation chain, which ``one_piece.foundation`` has."""
    below = piece.below(row)
    if row.solid:
        return tuple(solid_row(piece, row))
    if below is None:
        return tuple(_first_row(piece.recipe, row))
    return (UnitRow if piece.recipe.stacked else _GapRow)(piece, row, below).all()


def _first_row(recipe: Recipe, row: Row) -> Iterator[Step]:
    """Row 1 along the foundation: every dc of a cluster takes a chain of its own, or all of them one."""
    start, end = row.edge(row.starts).kind, row.edge(row.ends).kind
    if recipe.grouped or recipe.together:
        yield from grouped_on_chain(recipe, row.clusters, start == "spaced")
        if end == "spaced" and recipe.edge_chains:
            yield from (Chain(recipe.edge_chains), SkipChains(recipe.edge_chains + past_middle(recipe)), _LAST)
            return
        if past_middle(recipe):
            yield SkipChains(past_middle(recipe))
    else:
        yield from along_chain(recipe, row.clusters, start)
    if not recipe.table.post(end):
        return
    if end == "spaced":
        yield from filling_on_chain(recipe)
    yield _LAST


_LAST = Work("dc", LastChain())


class _GapRow(RowParts):
    """Works out one row above the first: its start, its clusters in spaces, its end."""

    def __init__(self, piece: PiecePlan, row: Row, below: Row) -> None:
        super().__init__(piece, row, below)
        self.passes = False  # whether the first cluster below has still to be passed
        self.first: Which = "next"  # how the first space is met
        self.made = 0  # clusters worked before the first space
        self.over, self.over_end = Grid(piece).over_solid(row) if below.solid else ([], 0)

    def all(self) -> tuple[Step, ...]:
        """Every step of the row."""
        self._begin()
        spaces = self.row.clusters - self.made - (self._unit_at_end or self._ends_on_tip)
        if self.below.solid:
            self._put(*clusters_over(self.piece, self.row, self.below, self._slipped))
        elif spaces:
            self._clusters(spaces)
        self._finish(alone=not spaces)
        return tuple(self.steps)

    @property
    def _slipped(self) -> int:
        """Over a solid row: how many slip stitches lead to where this one begins."""
        led = stitches.led_inwards(self.piece.edges(self.row), self.start.move, self.start_below.kind)
        return stitches.slip_stitches(self.recipe, 1, self.start_below.kind) if led else 0

    @property
    def _last_over(self) -> int:
        """The number of the edge stitch at the far end of the solid row below."""
        return self.below.counts.dc + self.below.counts.tch - 1

    @property
    def _unit_at_end(self) -> bool:
        """Whether the last cluster stands on the edge stitch below."""
        return self.end.move == "forced_increase" or (self.below.solid and self.over[-1] == self._last_over)

    # The start.

    def _begin(self) -> None:
        move = self.start.move
        if self.row.joined:
            self._join()
            self.made = int(not self._posted(self.start))
        elif move == "step_out":
            self._step_out()
            self.made = self.start.step // 2
            self._after_post()
        elif move == "step_in" or (self.below.solid and self._slipped) or self._led_to_cluster:
            self._slip_in()
            self.made = int(not self._posted(self.start))
        elif move == "forced_decrease":
            self._put(Turn(), SlipInto(Space("first")))
            self._post(PlaceReached())
        else:
            self._upright(move == "forced_increase" or self.over[:1] == [0])

    @property
    def _led_to_cluster(self) -> bool:
        """Whether slip stitches lead to a first cluster that no edge stitch comes before."""
        led = stitches.led_inwards(self.piece.edges(self.row), self.start.move, self.start_below.kind)
        return led and not self._posted(self.start)

    @property
    def _ends_on_tip(self) -> bool:
        """Whether the last cluster stands on the outermost stitch of the row below."""
        return self.end.move == "increase" and not self._posted(self.end)

    def _upright(self, bulky: bool) -> None:
        """The post stands on the post below; ``bulky``: a whole cluster stands there too."""
        self._put(self._turning_chain(), Turn())
        if not bulky:
            self._beside_turning_chain(EdgeDc())
            self.made = int(not self._posted(self.start))
        else:
            self._put(Work("cl", BaseOfTurningChain()) if self.counts else Work("dc_and_cl", EdgeDc()))
            self.made = 1
        self._after_post()

    def _after_post(self) -> None:
        """How the first space is met by a maker who goes on from the post below."""
        self.passes = self.start_below.kind == "flush"
        self.first = "next" if self.passes else "first"

    # The clusters in spaces.

    def _clusters(self, spaces: int) -> None:
        if self.made and not self.recipe.alternating:  # else the turning chain holds the gap
            self._gap()
        if self.passes:
            self._put(SkipCluster("first"))
        if self.recipe.slit:
            self._put(*self._with_slits(spaces))
        elif self.g:
            self._put(Work("cl", Space(self.first)))
            self._put(*repeated(spaces - 1, Chain(self.g), Work("cl", Space("next"))))
        else:
            self._side_by_side(spaces)

    def _side_by_side(self, spaces: int) -> None:
        if self.first == "first":
            self._put(Work("cl", Space("first")))
            spaces -= 1
        if spaces:
            self._put(ClusterInSpaces(spaces))

    def _with_slits(self, spaces: int) -> Iterator[Step]:
        """Clusters in spaces, and in the slits beside edge stitches where a spaced edge has nothing else."""
        first, last = (edge.kind == "spaced" for edge in (self.start_below, self.end_below))
        inner = spaces - first - last
        if first:
            yield Work("cl", HalfCluster())
        elif inner:
            yield Work("cl", Space("next"))
        yield from repeated(inner - (not first and inner > 0), Chain(self.g), Work("cl", Space("next")))
        if last:
            yield from [Chain(self.g)] if first or inner else []
            yield Work("cl", HalfCluster())

    # The end.

    def _finish(self, alone: bool) -> None:
        """The end of the row; ``alone``: no cluster stands in a space, so the end is met right after the start."""
        if not self._posted(self.end):
            self._end_on_cluster()
            return
        move, flush_below = self.end.move, self.end_below.kind == "flush"
        posts = move in ("straight", "increase", "forced_increase")
        if alone and self.passes and not (posts or self.below.solid or self._ends_on_cluster()):
            self._put(SkipCluster("first"))
        if self.end.kind == "spaced" and self.recipe.edge_chains:
            self._put(Chain(self.recipe.edge_chains))
        elif self._unit_at_end and self.row.clusters > 1:
            self._gap()
        if posts and flush_below and not self.below.solid:
            self._pass_last(alone)
        if self._unit_at_end:
            self._put(Work("cl_and_dc", self._old_post()))
            return
        beside = self.recipe.extra if self.end.kind == "spaced" else 0
        self._put(Work("dc", self._end_place(), 1 + beside))
        if not posts:
            self._put(self._left())

    def _end_on_cluster(self) -> None:
        """The end of a row without an edge stitch there."""
        if self._ends_on_tip:
            if self.row.clusters > 1:
                self._gap()
            self._put(Work("cl", self._old_post()))
        if self.end.move in ("decrease", "step_in"):
            self._put(self._left())

    def _pass_last(self, alone: bool) -> None:
        """Passes the cluster beside the end, unless the row began by slipping into it."""
        landed = self.start.move == "step_in" and self.start.kind == "flush"
        if not alone:
            self._put(SkipCluster("last"))
        elif not landed:
            self._put(SkipCluster("next"))

    def _ends_on_cluster(self) -> bool:
        return self.end.move in ("decrease", "step_in") and self.end.kind == "flush"

    def _end_place(self) -> Place:
        if self.below.solid:
            return self._old_post() if self.over_end == self._last_over else NextStitch()
        if self.end.move in ("straight", "increase"):
            return self._old_post()
        if self.end.move == "decrease":
            return UnitBelow("last") if self.k == 1 else LastDcOfLastCluster()
        if self.end.kind == "spaced":
            return Space("next")
        if self.k == 1:
            return UnitBelow("next")
        # Of the two middle dc of an even cluster the outer one is the second that is met here; where the other section
        # begins on that cluster too, the first is on this section's own side.
        shared = self.piece.shares_cluster(self.row, self.row.ends)
        return DcOfCluster((self.k + 1) // 2 if shared else self.k // 2 + 1, "next")
