"""The grid: which stitch stands where, and what it is worked into.

In: a planned piece. Out: for any row, its stitches in the order worked, as a few arrays of the standard library; one
stitch as an object where one is wanted. Nothing is kept per stitch: a row's arrays are made at every call for that
row. numpy would take longer to import than a chart takes to be laid out, and a browser's Python may lack it.

Places are in half pitches, right side facing, growing to the right: ``head`` at the top of the stitch's own row,
``foot`` at the top of the row below (the foundation for row 1).
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from enum import IntEnum

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.fabric.recipe import CHAIN
from turnchain.records import field, frozen


class Symbol(IntEnum):
    """What a stitch is drawn as. ``TURNING_CHAIN`` is the edge stitch that a row starts with: the turning chain, which
    counts once, or where it does not count the stitch beside it with the turning chain."""

    DC = 0
    CHAIN = 1
    SLIP_STITCH = 2
    TURNING_CHAIN = 3
    SC = 4
    HDC = 5
    TR = 6


_SYMBOLS = {"sc": Symbol.SC, "hdc": Symbol.HDC, "dc": Symbol.DC, "tr": Symbol.TR}


class Into(IntEnum):
    """What a stitch is worked into; the meaning of ``target`` beside it.

    ``FOUNDATION``: the chain's number counted from the hook. ``SPACE``: the position of the space between two
    clusters, or beside a post, of the row below. ``STITCH`` and ``POST``: the number of the stitch in the row
    below, in its working order, from 0. ``OWN_CHAIN``: a chain made at this row's start for a step out, counted
    from the hook. ``AIR``: nothing, as every chain.
    """

    FOUNDATION = 0
    SPACE = 1
    STITCH = 2
    POST = 3
    OWN_CHAIN = 4
    AIR = 5


@frozen
class Stitch:
    """One stitch: its row, its place in it (from 0, in working order), what it is (``symbol``), the name of its yarn
    (``colour``, None where the pattern names none), its ``head`` and ``foot`` in half pitches, and what it is worked
    into: ``target`` is a number or a position by the meaning of ``into``."""

    row: Row
    place: int
    symbol: Symbol
    colour: str | None
    head: float
    foot: float
    into: Into
    target: int


def _bytes() -> array[int]:
    return array("B")


def _places() -> array[float]:
    return array("f")


def _numbers() -> array[int]:
    return array("i")


@frozen
class RowStitches:
    """The stitches of one row in working order, as arrays of one length: ``Symbol`` s, heads and feet (half pitches,
    in single precision), ``Into`` s and targets."""

    symbol: array[int] = field(default_factory=_bytes)
    head: array[float] = field(default_factory=_places)
    foot: array[float] = field(default_factory=_places)
    into: array[int] = field(default_factory=_bytes)
    target: array[int] = field(default_factory=_numbers)

    def __len__(self) -> int:
        return len(self.symbol)

    def extend(
        self,
        symbol: Iterable[int],
        head: Iterable[float],
        foot: Iterable[float],
        into: Iterable[int],
        target: Iterable[int],
    ) -> None:
        """More stitches after the others; all of one length."""
        self.symbol.extend(symbol)
        self.head.extend(head)
        self.foot.extend(foot)
        self.into.extend(into)
        self.target.extend(target)


class Grid:
    """All stitches of a planned piece, made row by row when they are wanted. To go through it gives each ``Stitch``, in
    working order.

    ``k`` and ``g`` are the fabric's cluster and gap; ``pace`` is the way from one stitch to the next, in half pitches;
    ``closed``: no chain between clusters; ``main``: what the stitches of clusters and edges are drawn as.
    """

    def __init__(self, piece: PiecePlan) -> None:
        self.piece = piece
        self.k, self.g = piece.recipe.unit_width, piece.recipe.gap
        self.pace = piece.recipe.pace
        self.closed = self.g == 0
        self.main = _SYMBOLS[piece.recipe.stitch.name]

    def __iter__(self) -> Iterator[Stitch]:
        for row in self.piece.rows:
            for place in range(len(self.row(row))):
                yield self.stitch(row, place)

    def stitch(self, row: Row, place: int) -> Stitch:
        """The stitch of ``row`` at ``place`` (from 0, in working order). Makes the whole row, so to read a row use
        ``row``. Raises IndexError where the row has no such stitch."""
        made = self.row(row)
        return Stitch(
            row,
            place,
            Symbol(made.symbol[place]),
            row.colour,
            float(made.head[place]),
            float(made.foot[place]),
            Into(made.into[place]),
            int(made.target[place]),
        )

    def foundation(self) -> list[float]:
        """Where the chains lie that row 1 stands on, in half pitches, from the hook on: one for each stitch of row 1
        and each chain of a gap; the three chains of the turning chain are not among them."""
        first = self.piece.rows[0]
        gap = [first.edge(first.starts).at + off for off in self.start_gaps(first)]
        heads = self.row(first).head
        return [heads[0], *array("f", gap), *heads[1:]]

    def start_gaps(self, row: Row) -> list[float]:
        """How far from the post the chains of the edge lie that are part of the turning chain of ``row``: in half
        pitches, negative to the left, the outermost first. None where it starts flush, where stitches fill the edge, or
        where turning chains do not count."""
        recipe, start = self.piece.recipe, row.edge(row.starts)
        if not recipe.edge_chains or not recipe.stitch.counts or start.kind == "flush":
            return []
        return [at - start.at for at in self.filling_at(start, row.starts)]

    def row(self, row: Row) -> RowStitches:
        """The stitches of ``row`` in working order, made anew at every call. ``row`` must be one of the piece's own."""
        writer = _RowWriter(self, row, self.piece.below(row))
        writer.begin()
        writer.clusters()
        writer.finish()
        return writer.made

    def fan(self) -> list[float]:
        """The heads of a cluster's ``k`` stitches about its centre, from the left, in half pitches."""
        return [(nth - (self.k - 1) / 2) * self.pace for nth in range(self.k)]

    def gaps(self) -> list[float]:
        """The chains of a gap about the centre of the cluster at their left, from the left, in half pitches."""
        return [1 + (nth - (self.g - 1) / 2) * self.pace for nth in range(self.g)]

    def filling_at(self, edge: Edge, side: Side) -> list[float]:
        """Where the chains or stitches that fill a spaced edge at ``side`` of the chart lie, in half pitches, the
        outermost first: evenly between the post and the head of the first stitch of the cluster beside it."""
        inwards = 1 if side == "left" else -1
        many, room = self.piece.recipe.filled, 2 - (self.k - 1) / 2 * self.pace
        return [edge.at + inwards * room * (nth + 1) / (many + 1) for nth in range(many)]


class _RowWriter:
    """Writes one row's stitches in working order."""

    def __init__(self, grid: Grid, row: Row, below: Row | None) -> None:
        self.grid, self.row, self.below = grid, row, below
        self.recipe = grid.piece.recipe
        self.on = 1 if row.starts == "left" else -1  # the way the work goes
        self.start, self.end = row.edge(row.starts), row.edge(row.ends)
        self.made = RowStitches()

    def put(self, symbol: Symbol, head: float, foot: float, into: Into, target: int = 0) -> None:
        """One stitch after the others."""
        self.made.extend((symbol,), (head,), (foot,), (into,), (target,))

    def begin(self) -> None:
        """Slip stitches or chains that bring the work to its place, the turning chain, a closed edge's extra dc."""
        into, target, foot = self._place_of_post(self.row.starts)
        self._slip_to_start()
        self._chain_out()
        self.put(Symbol.TURNING_CHAIN, self.start.at, foot, into, target)
        if self.start.kind == "flush" or (self.recipe.edge_chains and self.recipe.stitch.counts):
            return  # such chains are part of the turning chain
        for nth, head in enumerate(self.grid.filling_at(self.start, self.row.starts), start=1):
            if self.recipe.edge_chains:
                self.put(Symbol.CHAIN, head, head, Into.AIR)
            elif into in (Into.FOUNDATION, Into.OWN_CHAIN):  # each stitch on a chain has its own
                self.put(self.grid.main, head, head, into, target + nth)
            else:
                self.put(self.grid.main, head, foot, into, target)

    def finish(self) -> None:
        """The end's gap or extra dc, and the post."""
        into, target, foot = self._place_of_post(self.row.ends)
        places = self.grid.filling_at(self.end, self.row.ends) if self.end.kind == "spaced" else []
        for over, head in reversed(list(enumerate(places, start=1))):
            if self.recipe.edge_chains:
                self.put(Symbol.CHAIN, head, head, Into.AIR)
            elif into is Into.FOUNDATION:
                self.put(self.grid.main, head, head, into, target - over)
            else:
                self.put(self.grid.main, head, foot, into, target)
        self.put(self.grid.main, self.end.at, foot, into, target)

    def clusters(self) -> None:
        """All clusters with the gaps between them."""
        k, g = self.recipe.unit_width, self.recipe.gap
        centres = self._centres()
        offsets = [self.on * head for head in (*self.grid.fan(), *self.grid.gaps())]
        heads = [centre + offset for centre in centres for offset in offsets]
        count = len(heads) - g  # no gap after the last cluster
        unit = [one != CHAIN for one in self.recipe.unit] + [False] * g
        symbols = [self.grid.main if worked else Symbol.CHAIN for worked in unit] * len(centres)
        feet = list(heads)
        into = [Into.AIR] * len(heads)
        target = [0] * len(heads)
        for nth, centre in enumerate(centres):
            begin = nth * (k + g)
            kind, places, foot = self._places_of_unit(centre, nth, heads[begin : begin + k])
            for slot in (slot for slot in range(k) if unit[slot]):
                into[begin + slot], target[begin + slot], feet[begin + slot] = kind, places[slot], foot[slot]
        self.made.extend(symbols[:count], heads[:count], feet[:count], into[:count], target[:count])

    def _places_of_unit(self, centre: int, nth: int, heads: list[float]) -> tuple[Into, list[int], list[float]]:
        """What the stitches of the ``nth`` unit (from 0) are worked into: one kind of place, and for each its target
        and its foot. On a chain each has its own, or all of them one."""
        k, pitch = self.recipe.unit_width, self.recipe.pitch
        if self.below is None:
            kind, first = Into.FOUNDATION, stitches.first_chain(self.recipe, self.start.kind)
            if self.recipe.grouped:
                return kind, [first + nth * pitch] * k, [heads[self.recipe.middle - 1]] * k
        else:
            kind, place = self._place_of_cluster(centre)
            if kind is not Into.OWN_CHAIN:
                return kind, [place] * k, [float(centre)] * k
            first = self._first_own_chain()
        return kind, list(range(first + nth * pitch, first + nth * pitch + k)), heads

    def _place_of_cluster(self, centre: int) -> tuple[Into, int]:
        """What a cluster is worked into: a space, a unit, a post (an increase out of turn), a step's own chain."""
        assert self.below is not None
        left, right = self.below.left.at, self.below.right.at
        if left < centre < right and self.recipe.stacked and not self.recipe.inner:
            nth = (centre - (self.below.centres[0] if self.on == 1 else self.below.centres[-1])) * self.on // 2
            return Into.STITCH, self._dc_below(self.row.starts, nth + 1, self.recipe.middle - 1)
        if left < centre < right:
            return Into.SPACE, centre
        if centre in (left, right):
            return Into.POST, self._post_below("left" if centre == left else "right")
        return Into.OWN_CHAIN, centre

    def _first_own_chain(self) -> int:
        """The chain of a step out that its first dc goes into, counted from the hook."""
        lead = 1 + (self.recipe.filled if self.start.kind == "spaced" else 0)
        return stitches.turning_chain(self.recipe, self.start.kind) + lead + 1

    def _place_of_post(self, side: Side) -> tuple[Into, int, float]:
        """What the post at ``side`` stands on (into, target) and where that is."""
        edge = self.row.edge(side)
        inwards = 1 if side == "left" else -1
        if self.below is None:
            chain = stitches.turning_chain(self.recipe, self.start.kind) + 1
            if side == self.row.ends:
                chain += self._base_width() - 1
            return Into.FOUNDATION, chain, edge.at
        under = self.below.edge(side)
        distance = (edge.at - under.at) * inwards
        if edge.move in ("straight", "increase", "forced_increase"):
            return Into.POST, self._post_below(side), under.at
        if edge.move == "step_out":
            chain = stitches.turning_chain(self.recipe, edge.kind) + 1
            return Into.OWN_CHAIN, chain, edge.at
        if edge.move == "decrease":
            if side == self.row.starts:
                return Into.POST, self._post_below(side), under.at
            return Into.STITCH, self._dc_below(side, 1, from_outside=0), self._outermost(side)
        on_cluster = (distance + (under.kind == "spaced")) % 2 == 1
        if on_cluster:
            nth = (distance - (under.kind == "spaced") + 1) // 2
            from_outside = self._middle_dc(side)
            off = from_outside - (self.recipe.unit_width - 1) / 2  # stitches from the middle of the cluster
            return Into.STITCH, self._dc_below(side, nth, from_outside), edge.at + inwards * off * self.grid.pace
        return Into.SPACE, edge.at, edge.at

    def _base_width(self) -> int:
        spaced = (self.start.kind == "spaced") + (self.end.kind == "spaced")
        return stitches.base(self.recipe, self.row.clusters, spaced)

    def _post_below(self, side: Side) -> int:
        """The number of the post at ``side`` of the row below: its turning chain or its last stitch."""
        assert self.below is not None
        lead, total = _extent(self.grid, self.below)
        return lead if self.below.starts == side else total - 1

    def _outermost(self, side: Side) -> float:
        assert self.below is not None
        inwards = 1 if side == "left" else -1
        return self.below.edge(side).at + inwards * (1 - (self.recipe.unit_width - 1) / 2 * self.grid.pace)

    def _middle_dc(self, side: Side) -> int:
        """Which dc of its cluster carries the post at ``side``, from 0 and from the outside: the middle one.

        Of the two in the middle of an even cluster it is the outer one; where both sections have their posts on the
        cluster, that on the section's own side, so that they do not cross.
        """
        k = self.recipe.unit_width
        return k // 2 if self.grid.piece.shares_cluster(self.row, side) else (k - 1) // 2

    def _dc_below(self, side: Side, nth: int, from_outside: int) -> int:
        """The number, in the row below, of a dc of the ``nth`` cluster from ``side``, counted ``from_outside``."""
        assert self.below is not None
        k, g = self.recipe.unit_width, self.recipe.gap
        lead, total = _extent(self.grid, self.below)
        spaced = self.below.edge(side).kind == "spaced"
        if self.below.starts == side:
            filled = self.recipe.filled - self._in_turning_chain() if spaced else 0
            return lead + 1 + filled + (nth - 1) * (k + g) + from_outside
        filled = self.recipe.filled if spaced else 0
        return total - 2 - filled - (nth - 1) * (k + g) - from_outside

    def _in_turning_chain(self) -> int:
        """The chains of a spaced start that are part of the turning chain."""
        return self.recipe.edge_chains if self.recipe.stitch.counts else 0

    def _slip_to_start(self) -> None:
        if self.below is None or self.row.joined or self.start.move not in ("step_in", "forced_decrease"):
            return
        side = self.row.starts
        under = self.below.edge(side)
        slips = stitches.slip_stitches(self.recipe, self.start.step or 1, under.kind)
        post = self._place_of_post(side)
        for nth in range(1, slips + 1):
            at = under.at + (post[2] - under.at) * nth / slips
            into, target, _ = post if nth == slips else (Into.STITCH, self._nth_below(side, nth), 0.0)
            self.put(Symbol.SLIP_STITCH, at, at, into, target)

    def _nth_below(self, side: Side, nth: int) -> int:
        """The number of the ``nth`` stitch in from the post at ``side`` of the row below.

        The gap beside a spaced start is part of the turning chain there, so it is met as that.
        """
        assert self.below is not None
        lead, total = _extent(self.grid, self.below)
        if self.below.starts != side:
            return total - 1 - nth
        hidden = self._in_turning_chain() if self.below.edge(side).kind == "spaced" else 0
        return lead + max(0, nth - hidden)

    def _chain_out(self) -> None:
        if self.below is None or self.start.move != "step_out":
            return
        under = self.below.edge(self.row.starts)
        chains = stitches.chained(self.recipe, self.start.step, under.kind)
        for at in reversed(self._places_of_chains(chains, under.at)):
            self.put(Symbol.CHAIN, at, at, Into.AIR)

    def _places_of_chains(self, chains: int, old: int) -> list[float]:
        """Where the chains of a step out lie, the outermost first: each under the stitch that stands on it or the gap
        above it, and those left over side by side up to the ``old`` edge."""
        places: list[float] = [self.start.at]
        if self.start.kind == "spaced":
            places += self.grid.filling_at(self.start, self.row.starts)
        for centre in self._centres():
            if (centre - old) * self.on >= 0:
                break
            places += [centre + self.on * head for head in (*self.grid.fan(), *self.grid.gaps())]
        places = [at for at in places if (at - old) * self.on < 0][:chains]
        over = chains - len(places)
        return places + [places[-1] + (old - places[-1]) * nth / (over + 1) for nth in range(1, over + 1)]

    def _centres(self) -> list[int]:
        """The middles of the row's clusters, in working order."""
        return list(self.row.centres)[:: self.on]


def _extent(grid: Grid, row: Row) -> tuple[int, int]:
    """The number of the turning chain among a row's stitches, and how many stitches the row has."""
    start, recipe = row.edge(row.starts), grid.piece.recipe
    below = grid.piece.below(row)
    lead = row.counts.sl_st
    if start.move == "step_out" and below is not None:
        lead += stitches.chained(recipe, start.step, below.edge(row.starts).kind)
    return lead, row.counts.sl_st + row.counts.ch + row.counts.dc + row.counts.tch
