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
    ClusterInSpaces,
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
    SkipChains,
    SkipCluster,
    SkipEdge,
    SlipAlong,
    SlipInto,
    Space,
    Step,
    TopOfTurningChain,
    Turn,
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
    g = recipe.gap
    start, end = row.edge(row.starts).kind, row.edge(row.ends).kind
    yield from _along_chain(recipe, row.clusters, start == "spaced")
    if end == "spaced" and g:
        yield Chain(g)
        yield SkipChains(g)
    elif end == "spaced":
        yield Work("dc", NextChain())
    yield Work("dc", LastChain())


def _along_chain(recipe: Recipe, clusters: int, spaced: bool) -> Iterator[Step]:
    """``clusters`` on a new chain, from the hook; ``spaced``: the row starts with a gap."""
    k, g = recipe.unit_width, recipe.gap
    whole: list[Step] = [DcInChains(k)]
    if spaced and not g:  # the extra dc comes first, all clusters stand whole after it
        yield Work("dc", ChainFromHook(stitches.first_chain(recipe, "flush")))
        yield from repeated(clusters, *whole)
        return
    yield Work("dc", ChainFromHook(stitches.first_chain(recipe, "spaced" if spaced else "flush")))
    yield DcInChains(k - 1)
    between: list[Step] = [Chain(g), SkipChains(g)] if g else []
    yield from repeated(clusters - 1, *between, *whole)


class _RowSteps:
    """Works out one row above the first: its start, its clusters in spaces, its end."""

    def __init__(self, piece: PiecePlan, row: Row, below: Row) -> None:
        self.piece, self.row, self.below = piece, row, below
        self.k, self.g = piece.recipe.unit_width, piece.recipe.gap
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
        if spaces:
            self._clusters(spaces)
        self._finish(alone=not spaces)
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
            self._turning_chain()
        else:
            self._upright(move == "forced_increase")

    def _upright(self, bulky: bool) -> None:
        """The post stands on the post below; ``bulky``: a whole cluster stands there too."""
        self._put(Chain(stitches.turning_chain(self.piece.recipe, self.start.kind)), Turn())
        self._extra_dc()
        if bulky:
            self._put(Work("cl", BaseOfTurningChain()))
            self.made = 1
        self._after_post()

    def _after_post(self) -> None:
        """How the first space is met by a maker who goes on from the post below."""
        self.passes = self.start_below.kind == "flush"
        self.first = "next" if self.passes else "first"

    def _turning_chain(self) -> None:
        self._put(Chain(stitches.turning_chain(self.piece.recipe, self.start.kind)))
        self._extra_dc()

    def _extra_dc(self) -> None:
        if self.start.kind == "spaced" and not self.g:
            self._put(Work("dc", BaseOfTurningChain()))

    def _slip_in(self) -> None:
        slips = stitches.slip_stitches(self.piece.recipe, self.start.step, self.start_below.kind)
        self._put(Turn(), SkipEdge())
        if self.start.kind == "flush":
            self._put(SlipAlong(slips))
        else:
            self._put(SlipAlong(slips - 1), SlipInto(Space("next")))
        self._turning_chain()

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
        left = self.k - (0 if self.g else 2)  # chains under the half of that cluster which stands over them
        if on_chain:
            self._put(*_along_chain(self.piece.recipe, on_chain, spaced=True))
            self._gap()
        elif self.g:  # no stitch is worked into the chain at all
            left = stitches.chained(self.piece.recipe, 2, "flush") + stitches.turning_chain(self.piece.recipe, "spaced")
        else:
            self._put(Work("dc", ChainFromHook(stitches.first_chain(self.piece.recipe, "flush"))))
        if left:
            self._put(SkipChains(left))
        self._put(Work("cl", EdgeDc()))

    def _join(self) -> None:
        other = self.piece.beside(self.row)
        assert other is not None, "a section whose yarn is joined is the second of two"
        ended = other.edge(other.ends)
        skipped, place = self._from(ended)
        self._put(Join(other.section, skipped, place, self.row.colour))
        self._turning_chain()

    def _from(self, ended: Edge) -> tuple[int, Space | DcOfCluster]:
        """The whole clusters between where the other section ``ended`` and this one begins, and its place."""
        distance = abs(self.start.at - ended.at)
        which: Which = "next" if distance else "same"
        on_clusters = (ended.kind == "flush") + (self.start.kind == "flush")
        skipped = max(0, (distance - on_clusters) // 2)
        if self.start.kind == "spaced":
            return skipped, Space(which)
        shared = self.piece.shares_cluster(self.row, self.row.starts)
        return skipped, DcOfCluster(self.k // 2 + 1 if shared else (self.k + 1) // 2, which)

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
        if self.end.kind == "spaced" or (move == "forced_increase" and self.row.clusters > 1):
            self._gap()
        if posts and flush_below:
            self._pass_last(alone)
        if move == "forced_increase":
            self._put(Work("cl_and_dc", TopOfTurningChain()))
            return
        two = self.end.kind == "spaced" and not self.g
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
            return TopOfTurningChain()
        if self.end.move == "decrease":
            return LastDcOfLastCluster()
        if self.end.kind == "spaced":
            return Space("next")
        # Of the two middle dc of an even cluster the outer one is the second that is met here; where the other section
        # begins on that cluster too, the first is on this section's own side.
        shared = self.piece.shares_cluster(self.row, self.row.ends)
        return DcOfCluster((self.k + 1) // 2 if shared else self.k // 2 + 1, "next")

    def _left(self) -> Leave:
        if self.piece.begins_section(self.row):
            return Leave("rest")
        if self.end.move == "decrease" or (self.end.move == "forced_decrease" and self.g):
            return Leave("tch")
        crossed = self.end.step - (self.end.kind == "flush") - (self.end_below.kind == "spaced")
        clusters = max(0, crossed // 2)
        return Leave("clusters", clusters) if clusters else Leave("rest")
