"""One row of the plan as the steps that a maker works.

In: a row of a ``PiecePlan`` and the row below it. Out: its steps. Along a new chain (the foundation, or one stepped
out on) every dc of a cluster takes a chain of its own. How an edge is worked follows from the move and the kind of the
edge below, by the tables of the fabric.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric import stitches
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.fabric.recipe import Recipe
from turnchain.wording.instructions.steps import (
    BaseOfTurningChain,
    Chain,
    ChainFromHook,
    ChainToTurn,
    ClusterInSpaces,
    ClusterInUnits,
    DcInChains,
    DcOfCluster,
    EdgeDc,
    Join,
    LastChain,
    LastDcOfLastCluster,
    Leave,
    NewChain,
    NextChain,
    Place,
    PlaceReached,
    SkipChains,
    SkipCluster,
    SkipEdge,
    SlipAlong,
    SlipInto,
    Space,
    Step,
    TopOfTurningChain,
    Turn,
    UnitBelow,
    Which,
    Work,
    repeated,
)


def steps_of(piece: PiecePlan, row: Row) -> tuple[Step, ...]:
    """Every step of ``row`` in the order worked, with repeats in brackets (``Repeat``). In row 1 they begin after the
    foundation chain, which ``one_piece.foundation`` has."""
    below = piece.below(row)
    if below is None:
        return tuple(_first_row(piece.recipe, row))
    return _RowSteps(piece, row, below).all()


def _first_row(recipe: Recipe, row: Row) -> Iterator[Step]:
    """Row 1 along the foundation: every dc of a cluster takes a chain of its own."""
    start, end = row.edge(row.starts).kind, row.edge(row.ends).kind
    if recipe.grouped:
        yield from _grouped_on_chain(recipe, row.clusters)
    else:
        yield from _along_chain(recipe, row.clusters, start == "spaced")
    if end == "spaced":
        yield from _filling_on_chain(recipe)
    yield Work("dc", LastChain())


def _grouped_on_chain(recipe: Recipe, clusters: int) -> Iterator[Step]:
    """``clusters`` on the foundation, each in one chain."""
    over = recipe.unit_width - recipe.middle  # chains under the last one past that
    yield Work("cl", ChainFromHook(stitches.first_chain(recipe, "flush")))
    yield from repeated(clusters - 1, SkipChains(recipe.pitch - 1), Work("cl", NextChain()))
    if over:
        yield SkipChains(over)


def _filling_on_chain(recipe: Recipe) -> Iterator[Step]:
    """What fills a spaced edge along a chain."""
    if recipe.edge_chains:
        yield Chain(recipe.edge_chains)
        yield SkipChains(recipe.edge_chains)
    elif recipe.filled:
        yield Work("dc", NextChain())


def _along_chain(recipe: Recipe, clusters: int, spaced: bool) -> Iterator[Step]:
    """``clusters`` on a new chain, from the hook; ``spaced``: the row starts with a gap."""
    k, g = recipe.unit_width, recipe.gap
    whole: list[Step] = [DcInChains(k)]
    between: list[Step] = [Chain(g), SkipChains(g)] if g else []
    if not recipe.stitch.counts:  # the edge stitch comes first, all clusters stand whole after it
        yield Work("dc", ChainFromHook(recipe.stitch.turning + 1))
        if spaced and g and recipe.edge_chains == g:
            yield from repeated(clusters, *between, *whole)
            return
        yield from _filling_on_chain(recipe) if spaced else ()
    elif spaced and recipe.extra:  # the extra dc does
        yield Work("dc", ChainFromHook(stitches.first_chain(recipe, "flush")))
    else:
        first = ChainFromHook(stitches.first_chain(recipe, "spaced" if spaced else "flush"))
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


class _RowSteps:
    """Works out one row above the first: its start, its clusters in spaces, its end."""

    def __init__(self, piece: PiecePlan, row: Row, below: Row) -> None:
        self.piece, self.row, self.below = piece, row, below
        self.k, self.g = piece.recipe.unit_width, piece.recipe.gap
        self.counts = piece.recipe.stitch.counts
        self.start, self.end = row.edge(row.starts), row.edge(row.ends)
        self.start_below, self.end_below = below.edge(row.starts), below.edge(row.ends)
        self.passes = False  # whether the first cluster below has still to be passed
        self.first: Which = "next"  # how the first space is met
        self.made = 0  # clusters worked before the first space
        self.steps: list[Step] = []

    def all(self) -> tuple[Step, ...]:
        """Every step of the row."""
        self._begin()
        spaces = self.row.clusters - self.made - (self.end.move == "forced_increase")
        if self.piece.recipe.stacked:
            self._units()
        elif spaces:
            self._clusters(spaces)
        self._finish(alone=not spaces and not self.piece.recipe.stacked)
        return tuple(self.steps)

    def _put(self, *steps: Step) -> None:
        self.steps += steps

    def _gap(self) -> None:
        if self.g:
            self._put(Chain(self.g))

    # The start.

    def _begin(self) -> None:
        move = self.start.move
        if self.row.joined:
            self._join()
        elif move == "step_out":
            self._step_out()
        elif move == "step_in":
            self._slip_in()
        elif move == "forced_decrease":
            self._put(Turn(), SlipInto(Space("first")))
            self._post(PlaceReached())
        else:
            self._upright(move == "forced_increase")

    def _upright(self, bulky: bool) -> None:
        """The post stands on the post below; ``bulky``: a whole cluster stands there too."""
        self._put(ChainToTurn(stitches.turning_chain(self.piece.recipe, self.start.kind)), Turn())
        if not bulky:
            self._beside_turning_chain(EdgeDc())
        else:
            self._put(Work("cl", BaseOfTurningChain()) if self.counts else Work("dc_and_cl", EdgeDc()))
            self.made = 1
        self._after_post()

    def _after_post(self) -> None:
        """How the first space is met by a maker who goes on from the post below."""
        self.passes = self.start_below.kind == "flush"
        self.first = "next" if self.passes else "first"

    def _post(self, place: Place) -> None:
        """The turning chain where the work has come to, and what stands beside it in that ``place``."""
        self._put(ChainToTurn(stitches.turning_chain(self.piece.recipe, self.start.kind)))
        self._beside_turning_chain(place)

    def _beside_turning_chain(self, place: Place) -> None:
        """The edge stitch, where a turning chain is none, in ``place``; what fills a spaced edge."""
        spaced, recipe = self.start.kind == "spaced", self.piece.recipe
        if self.counts:
            if spaced and recipe.extra:
                self._put(Work("dc", BaseOfTurningChain()))
            return
        self._put(Work("two_dc" if spaced and recipe.extra else "dc", place))
        if spaced and recipe.edge_chains:
            self._put(Chain(recipe.edge_chains))

    def _slip_in(self) -> None:
        slips = stitches.slip_stitches(self.piece.recipe, self.start.step, self.start_below.kind)
        self._put(Turn(), SkipEdge())
        if self.start.kind == "flush":
            self._put(SlipAlong(slips))
        else:
            self._put(*([SlipAlong(slips - 1)] if slips > 1 else []), SlipInto(Space("next")))
        self._post(PlaceReached())

    def _step_out(self) -> None:
        recipe, pitches = self.piece.recipe, self.start.step // 2
        spaced = self.start.kind == "spaced"
        chains = stitches.chained(recipe, self.start.step, self.start_below.kind)
        turning = stitches.turning_chain(recipe, self.start.kind)
        self._put(NewChain(chains + turning, turning), Turn())
        on_chain = pitches - 1 if spaced else pitches
        if spaced:
            self._onto_old_post(on_chain)
        else:
            self._put(*_along_chain(recipe, on_chain, spaced=False))
        self.made = pitches
        self._after_post()

    def _onto_old_post(self, on_chain: int) -> None:
        """A step out from a flush edge: the last of its clusters stands on the edge stitch of the row below."""
        recipe = self.piece.recipe
        left = recipe.pitch - 1 - recipe.filled  # chains under the half of that cluster which stands over them
        if on_chain:
            self._put(*_along_chain(recipe, on_chain, spaced=True))
            self._gap()
            left += recipe.gap
        elif not self.counts:
            self._put(Work("dc", ChainFromHook(recipe.stitch.turning + 1)), *_filling_on_chain(recipe))
        elif self.g:  # no stitch is worked into the chain at all
            left = stitches.chained(recipe, 2, "flush") + stitches.turning_chain(recipe, "spaced")
        else:
            self._put(Work("dc", ChainFromHook(stitches.first_chain(recipe, "flush"))))
        if left:
            self._put(SkipChains(left))
        self._put(Work("cl", EdgeDc()))

    def _join(self) -> None:
        other = self.piece.beside(self.row)
        assert other is not None, "a section whose yarn is joined is the second of two"
        ended = other.edge(other.ends)
        skipped, place = self._from(ended)
        self._put(Join(other.section, skipped, place, self.row.colour))
        self._post(PlaceReached())

    def _from(self, ended: Edge) -> tuple[int, Space | DcOfCluster | UnitBelow]:
        """The whole clusters between where the other section ``ended`` and this one begins, and its place."""
        distance = abs(self.start.at - ended.at)
        which: Which = "next" if distance else "same"
        on_clusters = (ended.kind == "flush") + (self.start.kind == "flush")
        skipped = max(0, (distance - on_clusters) // 2)
        if self.start.kind == "spaced":
            return skipped, Space(which)
        if self.k == 1:
            return skipped, UnitBelow(which)
        shared = self.piece.shares_cluster(self.row, self.row.starts)
        return skipped, DcOfCluster(self.k // 2 + 1 if shared else (self.k + 1) // 2, which)

    def _units(self) -> None:
        """The clusters in clusters."""
        if self.g:
            self._put(Work("cl", UnitBelow("next")))
            self._put(*repeated(self.row.clusters - 1, Chain(self.g), Work("cl", UnitBelow("next"))))
        else:
            self._put(ClusterInUnits(self.row.clusters))

    # The clusters in spaces.

    def _clusters(self, spaces: int) -> None:
        if self.made:
            self._gap()
        if self.passes:
            self._put(SkipCluster("first"))
        if self.g:
            self._put(Work("cl", Space(self.first)))
            self._put(*repeated(spaces - 1, Chain(self.g), Work("cl", Space("next"))))
            return
        if self.first == "first":
            self._put(Work("cl", Space("first")))
            spaces -= 1
        if spaces:
            self._put(ClusterInSpaces(spaces))

    # The end.

    def _finish(self, alone: bool) -> None:
        """The end of the row; ``alone``: no cluster stands in a space, so the end is met right after the start."""
        move, flush_below = self.end.move, self.end_below.kind == "flush"
        posts = move in ("straight", "increase", "forced_increase")
        if alone and self.passes and not (posts or self._ends_on_cluster()):
            self._put(SkipCluster("first"))
        if self.end.kind == "spaced" and self.piece.recipe.edge_chains:
            self._put(Chain(self.piece.recipe.edge_chains))
        elif move == "forced_increase" and self.row.clusters > 1:
            self._gap()
        if posts and flush_below and not self.piece.recipe.stacked:
            self._pass_last(alone)
        if move == "forced_increase":
            self._put(Work("cl_and_dc", self._old_post()))
            return
        two = self.end.kind == "spaced" and bool(self.piece.recipe.extra)
        self._put(Work("two_dc" if two else "dc", self._end_place()))
        if not posts:
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

    def _old_post(self) -> Place:
        """The edge stitch at the far end of the row below."""
        return TopOfTurningChain() if self.counts else EdgeDc()

    def _left(self) -> Leave:
        if self.piece.begins_section(self.row):
            return Leave("rest")
        if self.end.move == "decrease" or (self.end.move == "forced_decrease" and self.g):
            return Leave("tch" if self.counts else "edge")
        crossed = self.end.step - (self.end.kind == "flush") - (self.end_below.kind == "spaced")
        clusters = max(0, crossed // 2)
        return Leave("clusters", clusters) if clusters else Leave("rest")
