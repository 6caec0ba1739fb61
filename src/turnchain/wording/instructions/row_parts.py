"""What rows above the first have in common, as steps that a maker works.

In: a row of a ``PiecePlan`` and the row below it. Out: parts of its steps: the start where a row does not begin on the
edge stitch below, stitches along a new chain, what is left unworked. ``row_steps`` makes rows of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Kind, Side
from turnchain.fabric.places import together
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.fabric.recipe import Recipe
from turnchain.fabric.stitches import EdgeWork
from turnchain.wording.instructions.solid_rows import far_edge
from turnchain.wording.instructions.steps import (
    BaseOfTurningChain,
    Chain,
    ChainFromHook,
    ChainToTurn,
    DcInChains,
    DcOfCluster,
    EdgeDc,
    FirstStitch,
    HalfCluster,
    Join,
    Leave,
    NewChain,
    NextChain,
    Place,
    PlaceReached,
    RestOfCluster,
    SkipChains,
    SkipEdge,
    SkipFirst,
    SlipAlong,
    SlipInto,
    Space,
    Step,
    Turn,
    UnitBelow,
    Which,
    Work,
    repeated,
)


def grouped_on_chain(recipe: Recipe, clusters: int, spaced: bool) -> Iterator[Step]:
    """``clusters``, each in one chain, on a new one, from the hook; ``spaced``: the row starts with stitches beside the
    edge stitch. The chains under the last one that lie past that (``past_middle``) are not skipped yet."""
    turning, beside = recipe.stitch.turning, recipe.extra if spaced else 0
    chains = recipe.edge_chains if spaced else 0
    gap = [Chain(recipe.gap)] if recipe.gap else []
    between: list[Step] = [*gap, SkipChains(recipe.pitch - 1), Work("cl", NextChain())]
    if not recipe.stitch.counts:
        yield Work("dc", ChainFromHook(turning + 1))
    elif beside:
        yield Work("dc", ChainFromHook(turning + 2))
        beside -= 1
    elif clusters:
        yield Work("cl", ChainFromHook(stitches.first_chain(recipe, "spaced" if spaced else "flush")))
        yield from repeated(clusters - 1, *between)
        return
    for _ in range(beside):
        yield Work("dc", NextChain())
    if clusters:
        yield from [Chain(chains)] if chains else []
        yield from [SkipChains(chains + recipe.middle - 1)] if chains + recipe.middle > 1 else []
        yield Work("cl", NextChain())
        yield from repeated(clusters - 1, *between)


def past_middle(recipe: Recipe) -> int:
    """The chains under a cluster in one chain that lie past that."""
    return recipe.unit_width - recipe.middle


def filling_on_chain(recipe: Recipe) -> Iterator[Step]:
    """What fills a spaced edge along a chain."""
    if recipe.edge_chains:
        yield Chain(recipe.edge_chains)
        yield SkipChains(recipe.edge_chains)
    elif recipe.filled:
        for _ in range(recipe.extra):
            yield Work("dc", NextChain())


def _from_first_stitch(recipe: Recipe, clusters: int, first: int, *between: Step) -> Iterator[Step]:
    """``clusters`` on a new chain, the turning chain the first stitch of them, on the chain ``first``."""
    k = recipe.unit_width
    if k == 1:
        if clusters > 1:
            yield Work("cl", ChainFromHook(first + recipe.pitch))
        yield from repeated(clusters - 2, *between, DcInChains(1))
        return
    if k == 2:
        yield RestOfCluster(1, ChainFromHook(first + 1))
    else:
        yield Work("dc", ChainFromHook(first + 1))
        yield DcInChains(k - 2)
    yield from repeated(clusters - 1, *between, DcInChains(k))


def along_chain(recipe: Recipe, clusters: int, start: Kind, stepped: bool = False) -> Iterator[Step]:
    """``clusters`` on a new chain, from the hook, of a row that starts with an edge of the kind ``start``; ``stepped``:
    the chain is that of a step out."""
    k, g, spaced = recipe.unit_width, recipe.gap, start == "spaced"
    chained = stitches.first_own_chain if stepped else stitches.first_chain
    whole: list[Step] = [DcInChains(k)]
    between: list[Step] = [Chain(g), SkipChains(g)] if g else []
    if not recipe.table.post(start):
        yield from _from_first_stitch(recipe, clusters, chained(recipe, start), *between)
        return
    if not recipe.stitch.counts:  # the edge stitch comes first, all clusters stand whole after it
        yield Work("dc", ChainFromHook(recipe.stitch.turning + 1))
        if spaced and g and recipe.edge_chains == g:
            yield from repeated(clusters, *between, *whole)
            return
        yield from filling_on_chain(recipe) if spaced else ()
    elif spaced and recipe.extra:  # the extra dc does
        yield Work("dc", ChainFromHook(chained(recipe, "flush")))
    else:
        first = ChainFromHook(chained(recipe, "spaced" if spaced else "flush"))
        yield Work("cl" if k == 1 else "dc", first)
        if k > 1:
            yield DcInChains(k - 1)
        yield from repeated(clusters - 1, *between, *whole) if k > 1 or g else _each(clusters - 1)
        return
    if between:
        yield from whole
        yield from repeated(clusters - 1, *between, *whole)
    else:
        yield from repeated(clusters, *whole) if k > 1 else _each(clusters)


def _each(number: int) -> list[Step]:
    """A stitch in each of so many chains."""
    return [DcInChains(number)] if number else []


class RowParts:
    """Works out one row above the first; ``steps`` are those told so far."""

    def __init__(self, piece: PiecePlan, row: Row, below: Row) -> None:
        self.piece, self.row, self.below, self.recipe = piece, row, below, piece.recipe
        self.k, self.g = piece.recipe.unit_width, piece.recipe.gap
        self.counts = piece.recipe.stitch.counts
        self.start, self.end = row.edge(row.starts), row.edge(row.ends)
        self.start_below, self.end_below = below.edge(row.starts), below.edge(row.ends)
        self.steps: list[Step] = []

    def _put(self, *steps: Step) -> None:
        self.steps += steps

    def _gap(self) -> None:
        if self.g:
            self._put(Chain(self.g))

    def _turning_chain(self) -> ChainToTurn:
        """The turning chain of an edge stitch that stands on one place, or of a first cluster."""
        alone = self.k == 1 and not self._posted(self.start)
        return ChainToTurn(stitches.turning_chain(self.recipe, self.start.kind), cluster=alone)

    def _posted(self, edge: Edge) -> bool:
        """Whether this edge, of the row or of the one below, has an edge stitch."""
        return self.recipe.table.post(edge.kind)

    def _on_unit(self, side: Side) -> bool:
        """Whether the edge stitch has come to a cluster of the row below, not to a space."""
        return self.piece.on_unit(self.row, side)

    def _post(self, place: Place) -> None:
        """The turning chain where the work has come to, and what stands beside it in that ``place``."""
        self._put(self._turning_chain())
        self._beside_turning_chain(place)

    def _beside_turning_chain(self, place: Place) -> None:
        """The edge stitch, where a turning chain is none, in ``place``; what fills a spaced edge."""
        spaced, recipe = self.start.kind == "spaced", self.recipe
        if not self._posted(self.start):
            self._put(*([RestOfCluster(self.k - 1, BaseOfTurningChain())] if self.k > 1 else []))
            return
        extra = recipe.extra if spaced else 0
        if self.counts:
            if extra:
                self._put(Work("dc", BaseOfTurningChain(), extra))
            return
        self._put(Work("dc", place, 1 + extra))
        if spaced and recipe.edge_chains:
            self._put(Chain(recipe.edge_chains))

    def _slip_in(self) -> None:
        start, below = self.start, self.start_below
        over = self.below.solid
        slips = stitches.slips(self.recipe, EdgeWork(start.kind, start.move, start.step, below.kind, over))
        self._put(Turn())
        if slips > 1 or not self.recipe.bare:
            self._put(SkipEdge() if self._posted(below) else SkipFirst())
        if self._on_unit(self.row.starts):
            self._put(SlipAlong(slips))
        else:
            first = slips == 1 and below.kind == "spaced" and self.recipe.bare
            self._put(*([SlipAlong(slips - 1)] if slips > 1 else []), SlipInto(Space("first" if first else "next")))
        self._post(PlaceReached())

    def _step_out(self) -> None:
        recipe, pitches = self.recipe, self.start.step // 2
        on_edge = recipe.table.on_edge(self.start_below.kind)
        chains = stitches.chained(recipe, self.start.step, self.start_below.kind)
        turning = stitches.turning_chain(recipe, self.start.kind)
        self._put(NewChain(chains + turning, turning), Turn())
        if on_edge:
            self._onto_old_post(pitches - 1)
        else:
            self._put(*self._on_chain(pitches))

    def _on_chain(self, clusters: int) -> Iterator[Step]:
        """``clusters`` on the new chain of a row that starts flush."""
        if not self.recipe.grouped:
            yield from along_chain(self.recipe, clusters, self.start.kind, stepped=True)
            return
        yield from grouped_on_chain(self.recipe, clusters, spaced=False)
        if past_middle(self.recipe):
            yield SkipChains(past_middle(self.recipe))

    def _onto_old_post(self, on_chain: int) -> None:
        """A step out where the last of its clusters stands on the edge stitch of the row below, or beside it."""
        recipe = self.recipe
        # chains under the half of that cluster which stands over them, and up to the outermost stitch below
        left = recipe.pitch - 1 - recipe.filled + stitches.beyond_edge(recipe, self.start_below.kind)
        if recipe.grouped:
            self._put(*grouped_on_chain(recipe, on_chain, spaced=True))
            left += past_middle(recipe) if on_chain else 0
        elif on_chain:
            self._put(*along_chain(recipe, on_chain, "spaced", stepped=True))
            self._gap()
            left += recipe.gap
        elif not self.counts:
            self._put(Work("dc", ChainFromHook(recipe.stitch.turning + 1)), *filling_on_chain(recipe))
        elif not recipe.extra:  # no stitch is worked into the chain at all
            left = stitches.chained(recipe, 2, self.start_below.kind) + stitches.turning_chain(recipe, "spaced")
        else:
            self._put(Work("dc", ChainFromHook(stitches.first_own_chain(recipe, "flush"))))
        if left:
            self._put(SkipChains(left))
        self._put(Work("cl", HalfCluster() if recipe.grouped else self._near_edge()))

    def _near_edge(self) -> Place:
        """The outermost stitch of the row below where this one begins."""
        return EdgeDc() if self._posted(self.start_below) else FirstStitch()

    def _join(self) -> None:
        other = self.piece.beside(self.row)
        assert other is not None, "a section whose yarn is joined is the second of two"
        skipped, place = self._from(self._landing(other, other.ends), self.piece.on_unit(other, other.ends))
        self._put(Join(other.section, skipped, place, self.row.colour))
        self._post(PlaceReached())

    def _landing(self, row: Row, side: Side) -> int:
        """Where the outermost stitches of a row that begins a section are worked: at its edge, or without an edge
        stitch in the gap half a pitch farther in."""
        edge = row.edge(side)
        return edge.at if self._posted(edge) else edge.at + (1 if side == "left" else -1)

    def _from(self, ended: int, on_cluster: bool) -> tuple[int, Space | DcOfCluster | UnitBelow]:
        """The whole clusters between where the other section ``ended``, there ``on_cluster`` or in a space, and this
        one begins, and its place."""
        distance = abs(self._landing(self.row, self.row.starts) - ended)
        which: Which = "next" if distance else "same"
        onto = self._on_unit(self.row.starts)
        skipped = max(0, (distance - on_cluster - onto) // 2)
        if not onto:
            return skipped, Space(which)
        if self.k == 1 or self.recipe.stacked:
            return skipped, UnitBelow(which)
        shared = self.piece.shares_cluster(self.row, self.row.starts)
        return skipped, DcOfCluster(self.k // 2 + 1 if shared else (self.k + 1) // 2, which)

    @property
    def _tch_ends(self) -> bool:
        """Whether the row comes to a turning chain that is the edge stitch below."""
        return self.counts and not together(self.piece, self.below)

    def _old_post(self) -> Place:
        """The edge stitch at the far end of the row below."""
        if together(self.piece, self.below):
            return EdgeDc()
        return far_edge(self.piece, self.below)

    def _left(self) -> Leave:
        """What stays unworked."""
        if self.piece.begins_section(self.row) or self.below.solid:
            return Leave("rest")
        if not self._posted(self.end):
            crossed = (self.end.step or 1) + 1 - (self.end_below.kind == "spaced")
            return Leave("clusters", crossed // 2)
        if self.end.move == "decrease" or (self.end.move == "forced_decrease" and self.g):
            return Leave("tch" if self._tch_ends else "edge")
        crossed = self.end.step - self._on_unit(self.row.ends) - (self.end_below.kind == "spaced")
        clusters = max(0, crossed // 2)
        return Leave("clusters", clusters) if clusters else Leave("rest")
