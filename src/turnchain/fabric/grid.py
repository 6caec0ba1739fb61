"""The grid: which stitch stands where, and what it is worked into.

In: a planned piece. Out: for any row, its stitches in the order worked, as a few arrays of the standard library; one
stitch as an object where one is wanted. Nothing is kept per stitch: a row's arrays are made at every call for that
row. numpy would take longer to import than a chart takes to be laid out, and a browser's Python may lack it.

Places are in half pitches, right side facing, growing to the right: ``head`` at the top of the stitch's own row,
``foot`` at the top of the row below (the foundation for row 1).
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from enum import IntEnum
from typing import NamedTuple

from turnchain.fabric import stitches
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.places import Into as Into
from turnchain.fabric.places import RowBelow, SolidBelow, Standing, filling_at, layout, together
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.fabric.recipe import CHAIN, MoveRule
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


#: Rows of so many kinds of units are kept at a time: most pieces have as many.
MOST_UNITS = 16
_SYMBOLS = {"sc": Symbol.SC, "hdc": Symbol.HDC, "dc": Symbol.DC, "tr": Symbol.TR}


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


class Leg(NamedTuple):
    """One more place that the stitch at ``place`` (in working order, from 0) is worked over, together with its own:
    where the ``foot`` stands, what it is worked ``into`` and the ``target``."""

    place: int
    foot: float
    into: Into
    target: int


@frozen
class RowStitches:
    """The stitches of one row in working order, as arrays of one length: ``Symbol`` s, heads and feet (half pitches,
    in single precision), ``Into`` s and targets; and the ``legs`` of those worked over more than one place."""

    symbol: array[int] = field(default_factory=_bytes)
    head: array[float] = field(default_factory=_places)
    foot: array[float] = field(default_factory=_places)
    into: array[int] = field(default_factory=_bytes)
    target: array[int] = field(default_factory=_numbers)
    legs: list[Leg] = field(default_factory=list)

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
        self._units: dict[tuple[range, int], RowStitches] = {}

    def main_of(self, row: Row) -> Symbol:
        """What the stitches of ``row``, its edges among them, are drawn as."""
        return _SYMBOLS[self.piece.recipe.rule(row.kind).name]

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

    def over_solid(self, row: Row) -> tuple[list[int], int]:
        """The stitches of the solid row below that the clusters of ``row`` go into, and its last edge stitch: their
        numbers as they are met, the edge stitch being 0."""
        below = self.piece.below(row)
        assert below is not None, "row 1 stands on the foundation"
        *units, end = _RowWriter(self, row, below).places_over()
        last = below.counts.dc + below.counts.tch - 1
        return [last - place.target for place in units], last - end.target

    def begins_unit(self, row: Row) -> bool:
        """Whether the turning chain of ``row`` is the first stitch of its first unit, not an edge stitch."""
        return not self.piece.recipe.table.post(row.edge(row.starts).kind)

    def outermost_below(self, row: Row) -> float:
        """Where the head of the outermost stitch of the row below stands where ``row`` begins, in half pitches."""
        below = self.piece.below(row)
        assert below is not None, "row 1 stands on its chain"
        edge = below.edge(row.starts)
        if self.piece.recipe.table.post(edge.kind):
            return float(edge.at)
        return RowBelow(self.piece, below).named("tip", row.starts).foot

    def foundation(self) -> list[float]:
        """Where the chains lie that row 1 stands on, in half pitches, from the hook on: one for each stitch of row 1
        and each chain of a gap, but for a first edge stitch without one of its own; the chains of the turning chain are
        not among them."""
        first = self.piece.rows[0]
        heads = self.row(first).head
        gap = [heads[0] + off for off in self.start_gaps(first)]
        return [*heads[: int(self.piece.recipe.own)], *array("f", gap), *heads[1:]]

    def start_gaps(self, row: Row) -> list[float]:
        """How far from the post the chains of the edge lie that are part of the turning chain of ``row``: in half
        pitches, negative to the left, the outermost first. None where it starts flush, where stitches fill the edge, or
        where turning chains do not count."""
        recipe, start = self.piece.recipe, row.edge(row.starts)
        if row.solid or together(self.piece, row):
            return []
        if start.kind == "bare":
            return [(1 if row.starts == "left" else -1) * at for at in self.gaps()][: stitches.held(recipe, "bare")]
        if not recipe.edge_chains or not recipe.stitch.counts or start.kind == "flush":
            return []
        return [at - start.at for at in filling_at(recipe, start, row.starts)]

    def row(self, row: Row) -> RowStitches:
        """The stitches of ``row`` in working order, made anew at every call. ``row`` must be one of the piece's own."""
        writer = _RowWriter(self, row, self.piece.below(row))
        if row.solid:
            writer.solid()
            return writer.made
        writer.begin()
        writer.clusters()
        writer.finish()
        return writer.made

    def units(self, centres: range, on: int) -> RowStitches:
        """The stitches of units over ``centres``, worked rightwards (``on`` 1) or leftwards (-1), each with the gap
        behind it, as if all were worked into the spaces they stand over. Not to be changed: rows alike share them."""
        if (centres, on) not in self._units:
            if len(self._units) == MOST_UNITS:  # where every row is another, few serve again
                self._units.clear()
            self._units[centres, on] = self._plain_units(centres, on)
        return self._units[centres, on]

    def _plain_units(self, centres: range, on: int) -> RowStitches:
        count, recipe = len(centres), self.piece.recipe
        worked = [*(one != CHAIN for one in recipe.unit), *([False] * recipe.gap)]
        offsets = [on * head for head in (*self.fan(), *self.gaps())]
        hung = [0 if of_unit else offset for of_unit, offset in zip(worked, offsets, strict=True)]
        return RowStitches(
            array("B", [self.main if of_unit else Symbol.CHAIN for of_unit in worked]) * count,
            array("f", [centre + offset for centre in centres for offset in offsets]),
            array("f", [centre + offset for centre in centres for offset in hung]),
            array("B", [Into.SPACE if of_unit else Into.AIR for of_unit in worked]) * count,
            array("i", [centre if of_unit else 0 for centre in centres for of_unit in worked]),
        )

    def fan(self) -> list[float]:
        """The heads of a cluster's ``k`` stitches about its centre, from the left, in half pitches."""
        return [(nth - (self.k - 1) / 2) * self.pace for nth in range(self.k)]

    def gaps(self) -> list[float]:
        """The chains of a gap about the centre of the cluster at their left, from the left, in half pitches."""
        return [1 + (nth - (self.g - 1) / 2) * self.pace for nth in range(self.g)]


class _RowWriter:
    """Writes one row's stitches in working order."""

    def __init__(self, grid: Grid, row: Row, below: Row | None) -> None:
        self.grid, self.row, self.below = grid, row, below
        self.recipe = grid.piece.recipe
        self.under = None if below is None else (SolidBelow if below.solid else RowBelow)(grid.piece, below)
        self.on = 1 if row.starts == "left" else -1  # the way the work goes
        self.start, self.end = row.edge(row.starts), row.edge(row.ends)
        self.rules = {side: self._rule(side) for side in SIDES}
        self.made = RowStitches()

    def put(self, symbol: Symbol, head: float, foot: float, into: Into, target: int = 0) -> None:
        """One stitch after the others."""
        self.made.extend((symbol,), (head,), (foot,), (into,), (target,))

    def begin(self) -> None:
        """Slip stitches or chains that bring the work to its place, the turning chain, a closed edge's extra dc."""
        self._slip_to_start()
        self._chain_out()
        if not self.recipe.table.post(self.start.kind):
            return  # the turning chain is the first stitch of the first unit
        (into, target, foot), *legs = self._places_of_post(self.row.starts)
        self.put(Symbol.TURNING_CHAIN, self.start.at, foot, into, target)
        self._legs(legs)
        inside = self.recipe.edge_chains and self.recipe.stitch.counts and not legs
        if self.start.kind == "flush" or inside:
            return  # such chains are part of the turning chain
        for nth, head in enumerate(filling_at(self.recipe, self.start, self.row.starts), start=1):
            if self.recipe.edge_chains:
                self.put(Symbol.CHAIN, head, head, Into.AIR)
            elif into in (Into.FOUNDATION, Into.OWN_CHAIN):  # each stitch on a chain has its own
                self.put(self.grid.main, head, head, into, target + nth)
            else:
                self.put(self.grid.main, head, foot, into, target)

    def solid(self) -> None:
        """A stitch in every stitch and chain of the row below, or in every chain of the foundation."""
        heads = layout(self.recipe, self.row)[:: self.on]
        main = _SYMBOLS[self.row.kind]
        for nth, head in enumerate(heads):
            symbol = main if nth else Symbol.TURNING_CHAIN
            if self.under is None:
                chain = self.recipe.rule(self.row.kind).turning + 1 + nth
                self.put(symbol, head, head, Into.FOUNDATION, chain)
            else:
                into = Into.STITCH if 0 < nth < len(heads) - 1 else Into.POST
                self.put(symbol, head, head, into, self.under.nth(self.row.starts, nth))

    def finish(self) -> None:
        """The end's gap or extra dc, and the post."""
        if not self.recipe.table.post(self.end.kind):
            return
        (into, target, foot), *legs = self._places_of_post(self.row.ends)
        places = filling_at(self.recipe, self.end, self.row.ends) if self.end.kind == "spaced" else []
        for over, head in reversed(list(enumerate(places, start=1))):
            if self.recipe.edge_chains:
                self.put(Symbol.CHAIN, head, head, Into.AIR)
            elif into is Into.FOUNDATION:
                self.put(self.grid.main, head, head, into, target - over)
            else:
                self.put(self.grid.main, head, foot, into, target)
        self.put(self.grid.main, self.end.at, foot, into, target)
        self._legs(legs)

    def _legs(self, places: list[Standing]) -> None:
        """More places that the stitch put last is worked over."""
        self.made.legs.extend(Leg(len(self.made) - 1, place.foot, place.into, place.target) for place in places)

    def clusters(self) -> None:
        """All clusters with the gaps between them."""
        k, pitch, centres = self.recipe.unit_width, self.recipe.pitch, self._centres()
        plain = self.grid.units(centres, self.on)
        symbols, into, target = plain.symbol[:], plain.into[:], plain.target[:]
        heads, feet = plain.head[:], plain.foot[:]
        count = len(plain) - self.recipe.gap  # no gap after the last cluster
        slots = [slot for slot, one in enumerate(self.recipe.unit) if one != CHAIN]
        for nth in self._not_in_own_space(centres):
            begin = nth * pitch
            kind, places, foot = self._places_of_unit(centres[nth], nth, heads[begin : begin + k])
            for slot in slots:
                into[begin + slot], target[begin + slot], feet[begin + slot] = kind, places[slot], foot[slot]
        if self.recipe.table.post(self.start.kind):
            self.made.extend(symbols[:count], heads[:count], feet[:count], into[:count], target[:count])
            return
        symbols[0] = Symbol.TURNING_CHAIN
        for some in (symbols, heads, feet, into, target):  # the chains after it may be part of the turning chain
            del some[count:], some[k : k + stitches.held(self.recipe, "bare")]
        self.made.extend(symbols, heads, feet, into, target)

    def _not_in_own_space(self, centres: range) -> list[int]:
        """The numbers of the units (from 0) that are not plainly worked into the space they stand over: the outermost
        ones, of which the table may say otherwise, and those not over the row below; in other rows all."""
        if self.under is None or self.under.row.solid or (self.recipe.stacked and not self.recipe.inner):
            return list(range(len(centres)))
        left, right, last = self.under.row.left.at, self.under.row.right.at, len(centres) - 1
        return [nth for nth, centre in enumerate(centres) if nth in (0, last) or not left < centre < right]

    def _places_of_unit(self, centre: int, nth: int, heads: array[float]) -> tuple[Into, list[int], Sequence[float]]:
        """What the stitches of the ``nth`` unit (from 0) are worked into: one kind of place, and for each its target
        and its foot. On a chain each has its own, or all of them one."""
        k, pitch = self.recipe.unit_width, self.recipe.pitch
        if self.under is None:
            kind, first = Into.FOUNDATION, stitches.first_chain(self.recipe, self.start.kind)
        else:
            kind, place, at = self._place_of_cluster(self.under, centre, nth)
            if kind is not Into.OWN_CHAIN:
                return kind, [place] * k, [at] * k
            first = self._first_own_chain()
        if self.recipe.grouped or (self.recipe.together and self.under is None):
            return kind, [first + nth * pitch] * k, [heads[self.recipe.middle - 1]] * k
        return kind, list(range(first + nth * pitch, first + nth * pitch + k)), heads

    def places_over(self) -> list[Standing]:
        """The stitches of the solid row below that the clusters go into, and that of the edge stitch at the end."""
        assert self.under is not None, "row 1 stands on the foundation"
        units = [self._place_of_cluster(self.under, centre, nth) for nth, centre in enumerate(self._centres())]
        return [*units, *self._places_of_post(self.row.ends)]

    def _place_of_cluster(self, under: RowBelow, centre: int, nth: int) -> Standing:
        """What the ``nth`` cluster is worked into: what the table says of an edge where it is an outermost one, else a
        space or a unit, the old edge, or a step's own chain."""
        left, right = under.row.left.at, under.row.right.at
        if isinstance(under, SolidBelow) and not under.row.nth:  # at the foot each stands over its own width
            return under.over(centre, self.row.starts)
        rule, side = self._rule_of_unit(centre, nth)
        over = left < centre < right  # the row below, which may end before the other edge's table knows
        if rule is not None and (over or centre == under.row.edge(side).at):
            return under.named(rule.unit, side)
        if over and self.recipe.stacked and not self.recipe.inner:
            first = under.row.centres[0] if self.on == 1 else under.row.centres[-1]
            return under.unit(self.row.starts, (centre - first) * self.on // 2 + 1, self.recipe.middle - 1)
        if over and isinstance(under, SolidBelow):
            return under.over(centre, self.row.starts)
        if over:
            return Standing(Into.SPACE, centre, float(centre))
        if centre in (left, right):
            own: Side = "left" if centre == left else "right"
            edge = "post" if self.recipe.table.post(under.row.edge(own).kind) else "tip"
            return under.named("half" if self.recipe.grouped else edge, own)
        return Standing(Into.OWN_CHAIN, centre, float(centre))

    def _rule_of_unit(self, centre: int, nth: int) -> tuple[MoveRule | None, Side]:
        """The move whose table says where the ``nth`` cluster is worked, and at which side: of the first and last. One
        that is both is worked as the edge says that it stands over: the other may name a place past that."""
        found: list[tuple[MoveRule | None, Side]] = []
        for side, outermost in ((self.row.starts, 0), (self.row.ends, self.row.clusters - 1)):
            rule = self.rules[side]
            if nth == outermost and rule is not None:
                found.append((rule, side))
        beside = [one for one in found if self.under and centre == self.under.row.edge(one[1]).at]
        return (*beside, *found, (None, self.row.starts))[0]

    def _rule(self, side: Side) -> MoveRule | None:
        if self.below is None or (self.row.joined and side == self.row.starts):
            return None
        return self.grid.piece.edges(self.row).rule(self.row.edge(side).move, self.below.edge(side).kind)

    def _first_own_chain(self) -> int:
        """The chain of a step out that its first dc goes into, counted from the hook."""
        lead = int(self.recipe.table.post(self.start.kind)) + (self.recipe.filled if self.start.kind == "spaced" else 0)
        middle = self.recipe.middle if self.recipe.grouped else 1
        return stitches.turning_chain(self.recipe, self.start.kind) + lead + middle

    def _places_of_post(self, side: Side) -> list[Standing]:
        """What the post at ``side`` stands on: one place, or several that it is worked over together."""
        edge = self.row.edge(side)
        if self.under is None:
            chain = stitches.turning_chain(self.recipe, self.start.kind) + int(self.recipe.own)
            if side == self.row.ends:
                chain += self._base_width() - 1
            return [Standing(Into.FOUNDATION, chain, edge.at)]
        rule = self.rules[side]
        if rule is not None:
            places = rule.start if side == self.row.starts else rule.end
            return [self.under.named(place, side) for place in places.split(" + ")]
        if edge.move == "step_out":
            chain = stitches.turning_chain(self.recipe, edge.kind) + 1
            return [Standing(Into.OWN_CHAIN, chain, edge.at)]
        old = self.under.row.edge(side)
        inwards = abs(edge.at - old.at)
        if not self.recipe.on_unit(old.kind, inwards):
            return [Standing(Into.SPACE, edge.at, edge.at)]
        nth = (inwards - (old.kind == "spaced") + 1) // 2
        return [self.under.unit(side, nth, self._middle_dc(side))]

    def _base_width(self) -> int:
        spaced = (self.start.kind == "spaced") + (self.end.kind == "spaced")
        return stitches.base(self.recipe, self.row.clusters, spaced)

    def _middle_dc(self, side: Side) -> int:
        """Which dc of its cluster carries the post at ``side``, from 0 and from the outside: the middle one.

        Of the two in the middle of an even cluster it is the outer one; where both sections have their posts on the
        cluster, that on the section's own side, so that they do not cross.
        """
        k = self.recipe.unit_width
        return k // 2 if self.grid.piece.shares_cluster(self.row, side) else (k - 1) // 2

    def _slip_to_start(self) -> None:
        if self.under is None or self.row.joined:
            return
        side, move, under = self.row.starts, self.start.move, self.under
        old = under.row.edge(side)
        over = self.below is not None and self.below.solid
        slips = stitches.slips(self.recipe, stitches.EdgeWork(self.start.kind, move, self.start.step, old.kind, over))
        if not slips:
            return
        last = self._begins(under)
        begun = self.grid.outermost_below(self.row)
        for nth in range(1, slips + 1):
            at = begun + (last.foot - begun) * nth / slips
            into, target = (last.into, last.target) if nth == slips else (Into.STITCH, under.nth(side, nth))
            self.put(Symbol.SLIP_STITCH, at, at, into, target)

    def _begins(self, under: RowBelow) -> Standing:
        """What the first stitch of a row that slip stitches lead to is worked into: the edge stitch, or without one the
        first of the first unit."""
        if self.recipe.table.post(self.start.kind):
            (post,) = self._places_of_post(self.row.starts)
            return post
        return self._place_of_cluster(under, self._centres()[0], 0)

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
        places: list[float] = [self.start.at] if self.recipe.table.post(self.start.kind) else []
        if self.start.kind == "spaced":
            places += filling_at(self.recipe, self.start, self.row.starts)
        for centre in self._centres():
            if (centre - old) * self.on >= 0:
                break
            places += [centre + self.on * head for head in (*self.grid.fan(), *self.grid.gaps())]
        places = [at for at in places if (at - old) * self.on < 0][:chains]
        over = chains - len(places)
        to = self.grid.outermost_below(self.row)
        return places + [places[-1] + (to - places[-1]) * nth / (over + 1) for nth in range(1, over + 1)]

    def _centres(self) -> range:
        """The middles of the row's clusters, in working order."""
        return self.row.centres[:: self.on]
