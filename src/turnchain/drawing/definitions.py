"""Stitches as drawn definitions: each distinct symbol, cluster, run of clusters and row stated once.

In: the grid and the sheet. Out: definitions for the scene, and the name of the definition for any row. A
definition's origin is the head of its stitch; a row's is the head of its left post.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path as FilePath

from turnchain.drawing.alike import LEANS, Alike, alike_of
from turnchain.drawing.sheet import STRIP, Sheet
from turnchain.drawing.stitch_definitions import OVAL, Stem, StitchDefinitions
from turnchain.fabric.grid import Grid, Into, Leg, RowStitches, Symbol
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.scene import INK, Item, Use

# Widths, in shares of their room or in half pitches.
FEET = 0.84  # the same of feet that have a chain each, so that they read as a group
FEET_SHIFT = 0.5  # stitches: no foot is drawn in so far that it might stand on its neighbour's chain
PUSHED = 0.12  # half pitches: how far the end of a crowded foundation is pushed outwards
MOST_PUSHED = 0.3  # stitches, at the most
PARTED = 0.19  # half pitches: how near the middle of a neck an edge stitch is drawn
MOST_THERE = 16  # rows that are known by the very places of their stitches
FOLD = 4  # clusters alike are stated together in runs, and runs of so many runs
#: By the numbers that a grid has for them: an enumeration takes long to be asked.
_SYMBOLS, _INTOS = {int(one): one for one in Symbol}, {int(one): one for one in Into}


def parting(grid: Grid, running: int, at: int) -> float:
    """The position, in half pitches, from which chains below a row (its ``running`` number) are left out where columns
    are from ``at`` on: each with the cluster or the gap above it."""
    reach = grid.k * grid.pace / 2
    return at - reach if (running + at) % 2 == 0 else at - 1 + reach


class Definitions(StitchDefinitions):
    """Rows made of those of their stitches."""

    def __init__(
        self, grid: Grid, sheet: Sheet, folder: FilePath | None = None, prefix: str = "", runs: bool = True
    ) -> None:
        super().__init__(grid, sheet, folder, prefix, runs)
        # the outermost dc of a cluster stands less than half a pitch from its middle, all others farther
        self._within = (grid.k - 1) / 2 * grid.pace + 1 / LEANS
        self._rows: dict[bytes, str] = {}
        self._there: dict[bytes, str] = {}  # of rows worked lately, by the very places of their stitches

    def row(self, row: Row) -> str:
        """The name of a row's definition, its origin the head of the left post; rows worked alike share one."""
        stitches = self.grid.row(row)
        self.turn_to(row.kind)
        look = self._look(row, stitches)
        there = look + row.left.at.to_bytes(8, signed=True) + stitches.head.tobytes() + stitches.foot.tobytes()
        if there not in self._there:
            if len(self._there) == MOST_THERE:  # where every row is another, few come again
                self._there.clear()
            self._there[there] = self._of_look(row, stitches, look)
        return self._there[there]

    def _look(self, row: Row, stitches: RowStitches) -> bytes:
        """What decides how a row is drawn, but for the places of its stitches."""
        under = self.grid.piece.below(row)
        shifts = [self.parted(one, side) for side in SIDES for one in (row, under) if one is not None]
        look = stitches.symbol.tobytes() + stitches.into.tobytes() + array("f", shifts).tobytes() + row.kind.encode()
        # solid rows at the foot are drawn over chains, others over what is drawn below them
        look += bytes((row.nth > 0, under is not None and under.nth > 0))
        if stitches.legs:
            look += repr([(leg.place, round(leg.foot - row.left.at, 3), leg.into) for leg in stitches.legs]).encode()
        if self.sheet.folds.by_columns:  # what is left out of a row depends on where it stands
            look += row.left.at.to_bytes(8, signed=True)
        return look

    def _of_look(self, row: Row, stitches: RowStitches, look: bytes) -> str:
        """The name of the definition of a row of this ``look``, wherever on the piece it stands."""
        places = array("f", [at - row.left.at for at in (*stitches.head, *stitches.foot)])
        key = look + places.tobytes()
        if key not in self._rows:
            self._rows[key] = name = f"{self.prefix}row-{len(self._rows) + 1}"
            self.made[name] = self._row_items(row, stitches)
        return self._rows[key]

    def _row_items(self, row: Row, stitches: RowStitches) -> tuple[Item, ...]:
        """Uses of the stitches' definitions, from the left; the dc worked into one place are one use, and so are
        many clusters alike."""
        run = alike_of(stitches, self.grid) if self.runs and not row.solid else None
        apart = range(len(stitches)) if run is None else [*range(run.first), *range(run.stop, len(stitches))]
        uses = [] if run is None else self._run_uses(row, stitches, run)
        uses += self._single_uses(row, stitches, apart)
        return tuple(sorted(uses, key=lambda use: use.x))

    def part(self, row: Row, first: int, stop: int) -> tuple[Use, ...]:
        """The stitches of a row from number ``first`` and before ``stop``, in working order, relative to the head of
        its left post (px). Numbers count the row's stitches from 0; stitches in folded columns are left out."""
        self.turn_to(row.kind)
        return tuple(self._single_uses(row, self.grid.row(row), range(first, stop)))

    def _single_uses(self, row: Row, stitches: RowStitches, apart: Iterable[int]) -> list[Use]:
        """The stitches with the numbers ``apart``, cluster by cluster."""
        uses: list[Use] = []
        lead, main, under = _lead(stitches), self.grid.main_of(row), self.grid.piece.below(row)
        moved, moved_below = self._parted(row), {} if under is None else self._parted(under)
        groups = [[place] for place in apart] if row.solid else _one_place_each(stitches, apart, main)
        begins_unit, folds, left = self.grid.begins_unit(row), self.sheet.folds.by_columns, self.sheet.x(row.left.at)
        for group in groups:
            symbol = _SYMBOLS[stitches.symbol[group[0]]]
            heads = sorted([stitches.head[place] for place in group])
            shift = sum(moved.get(head, 0.0) for head in heads) if moved else 0.0
            if symbol is Symbol.SLIP_STITCH and under is not None and moved_below:
                old, way = under.edge(row.starts).at, float(stitches.foot[lead])  # evenly from there to the new edge
                shift = moved_below.get(old, 0.0) * (way - heads[0]) / (way - old)
            middle = heads[len(heads) // 2] + shift
            begins = symbol is Symbol.TURNING_CHAIN and begins_unit
            if symbol is Symbol.SLIP_STITCH and self.grid.piece.recipe.bare:
                middle = self._led(row, stitches, heads[0])
            foot, into = stitches.foot[group[0]], _INTOS[stitches.into[group[0]]]
            foot = self.on_drawn_head(row, foot, into) + moved_below.get(foot, 0.0)
            chained = into is Into.FOUNDATION or (symbol is Symbol.CHAIN and group[0] < lead)
            if folds and self.folded(row, middle, of_cluster=symbol is main or begins) and not chained:
                continue
            if symbol is main:
                if folds and chained and self.folded_chain(row, middle):
                    continue
                joined = bool(stitches.legs) and any(leg.place == group[-1] for leg in stitches.legs)
                name, middle = self._dcs(row, foot, heads, into, shift, joined)
            elif symbol is Symbol.TURNING_CHAIN:
                joined = bool(stitches.legs) and stitches.legs[0].place == group[0]
                if begins:
                    foot, middle = self._in_unit(row, foot, middle, into)
                name = self.turning_chain(foot - middle, into, self.grid.start_gaps(row), row.starts, joined)
            elif symbol is Symbol.SLIP_STITCH:
                name = self.slip_stitch()
            else:
                name = self.chain() if group[0] > lead else self.step_chain()
            uses.append(Use(name, rounded(self.sheet.x(middle) - left), 0.0, INK))
            if stitches.legs:
                uses += [self._leg(row, leg, heads[0] + shift) for leg in stitches.legs if leg.place in group]
        return uses

    def _leg(self, row: Row, leg: Leg, head: float) -> Use:
        """A stitch from one more place to the ``head`` of the edge stitch that is worked over it too."""
        foot = self.on_drawn_head(row, leg.foot, leg.into)
        name = self.dc(Stem(foot - head), leg.into, joined=True)
        return Use(name, rounded(self.sheet.x(head) - self.sheet.x(row.left.at)), 0.0, INK)

    def _dcs(
        self, row: Row, foot: float, heads: list[float], into: Into, shift: float = 0.0, joined: bool = False
    ) -> tuple[str, float]:
        """The definition of the dc worked into one place, drawn as a fan where they are of one cluster and ``shift``
        half pitches to the right, and where the head of the middle one lies; one may be ``joined`` with another."""
        if row.solid:
            head = (self._in_fan(row, heads[0], self.squeeze) if row.nth else heads[0]) + shift
            return self.together(head + foot - heads[0] - shift, [head], into), head
        drawn = [self._in_fan(row, head, self.squeeze) + shift for head in heads]
        if joined:  # an edge stitch by itself
            return self.dc(Stem(foot - drawn[0]), into, joined), drawn[0]
        foot, _ = self._in_unit(row, foot, heads[0], into)
        middle = drawn[len(drawn) // 2]
        outs = [self._out(row, head) for head in heads]
        return self.together(foot, drawn, into, outs), middle

    def _led(self, row: Row, stitches: RowStitches, at: float) -> float:
        """Where a slip stitch ``at`` a place is drawn: as far along from the outermost stitch below, as that is drawn,
        to the place of the row's first one."""
        old, new = self.grid.outermost_below(row), float(stitches.foot[_lead(stitches)])
        below = self.on_drawn_head(row, old, Into.STITCH)
        return below + (new - below) * (at - old) / (new - old)

    def _in_unit(self, row: Row, foot: float, head: float, into: Into) -> tuple[float, float]:
        """Where foot and head of a stitch of a unit are drawn, which stands in a fan."""
        if into is Into.FOUNDATION:
            foot = self._in_fan(row, foot, max(FEET, 1 - FEET_SHIFT / max(1, self.grid.k - 1)))
        return foot, self._in_fan(row, head, self.squeeze)

    def parted(self, row: Row, side: Side) -> float:
        """How far, in half pitches to the right, the edge stitch at ``side`` is drawn from its place: in a neck without
        width both would stand on one another."""
        far = self.grid.piece.across_neck(row, side)
        if far is None:
            return 0.0
        apart = max(0.0, PARTED - abs(far - row.edge(side).at) / 2)
        return apart if side == "left" else -apart

    def _parted(self, row: Row) -> dict[float, float]:
        """How far the edge stitches of ``row`` are ``parted``, those that are, by their places."""
        far = {float(row.edge(side).at): self.parted(row, side) for side in SIDES}
        return {at: off for at, off in far.items() if off}

    def on_drawn_head(self, row: Row, foot: float, into: Into) -> float:
        """Where a foot is drawn: in a stitch of a cluster below, where the head of that is drawn; else at ``foot``."""
        under = self.grid.piece.below(row) if into is Into.STITCH else None
        if under is None or row.solid or (under.solid and not under.nth):
            return foot  # solid stitches stand upright, over chains as far apart as they have room
        return self._in_fan(under, foot, self.squeeze)

    def centre(self, row: Row, at: float) -> int | None:
        """The middle of the cluster of a dc whose head is at ``at``; None for an edge stitch and the extra dc."""
        first = row.running
        centre = 2 * round((at - first) / 2) + first
        within = abs(at - centre) <= self._within
        return centre if within and row.left.at < centre < row.right.at else None

    def _in_fan(self, row: Row, at: float, share: float) -> float:
        """``at`` drawn in towards the middle of its cluster."""
        centre = self.centre(row, at)
        return at if centre is None else centre + share * (at - centre)

    def _out(self, row: Row, at: float) -> float:
        centre = self.centre(row, at)
        return 0.0 if centre is None or self.grid.k < 3 else abs(at - centre) / ((self.grid.k - 1) / 2 * self.grid.pace)

    def _run_uses(self, row: Row, stitches: RowStitches, run: Alike) -> list[Use]:
        """The clusters of ``run`` as few uses: as many of the longest runs as there is room for, then shorter ones."""
        heads = sorted(stitches.head[run.cluster])
        foot = float(stitches.foot[run.cluster][0])
        cluster, origin = self._dcs(row, foot, heads, Into.SPACE)
        gap = (foot + 1 - origin) * self.sheet.half  # half a pitch from the cluster's middle, not from a head
        x = self.sheet.x(origin) - self.sheet.x(row.left.at)
        uses: list[Use] = []
        left, long = run.clusters, 1
        while long * FOLD <= left:
            long *= FOLD
        while left:
            count, left = divmod(left, long)
            for _ in range(count):
                uses += [Use(name, rounded(x + off), 0.0, INK) for name, off in self._run(cluster, long, gap)]
                x += 2 * self.sheet.half * long
            long //= FOLD
        return uses

    def _run(self, cluster: str, long: int, gap: float) -> list[tuple[str, float]]:
        """So many clusters, each with the chain of the gap ``gap`` px to its right: definitions, and their places in
        px."""
        pitch = 2 * self.sheet.half
        if long == 1:
            return [(cluster, 0.0), *((self.chain(), gap + (at - 1) * self.sheet.half) for at in self.grid.gaps())]
        name = f"{self.prefix}run-{long}-of-{cluster.removeprefix(self.prefix)}"
        if name not in self.made:
            part = long // FOLD
            self.made[name] = tuple(
                Use(inner, rounded(nth * part * pitch + off), 0.0, INK)
                for nth in range(FOLD)
                for inner, off in self._run(cluster, part, gap)
            )
        return [(name, 0.0)]

    def folded(self, row: Row, head: float, of_cluster: bool = False) -> bool:
        """Whether a stitch whose head is at ``head`` is folded away; one ``of_cluster`` with all of its cluster."""
        if of_cluster and (not row.solid or self.centre(row, head) is not None):
            first = row.running
            head = 2 * round((head - first) / 2) + first
        return self.sheet.folds.hides(head)

    def foundation(self, ink: str) -> list[Use]:
        """The chains, or the stitches along an armhole, that row 1 stands on, in ``ink`` on their strip below its band,
        but for folded columns."""
        first, y = self.grid.piece.rows[0], rounded(self.sheet.ground + STRIP / 2 * self.sheet.rise)
        places = self.chains_of_foundation()
        if self.grid.piece.picked_up:
            name, y = self.sc_below(), rounded(self.sheet.ground)
            return [
                Use(name, rounded(self.sheet.x(place)), y, ink)
                for place, _ in places if not self.folded_chain(first, place)
            ]  # fmt: skip
        return [
            Use(self._foundation_chain(room), rounded(self.sheet.x(place)), y, ink)
            for place, room in places
            if not self.folded_chain(first, place)
        ]

    def chains_of_foundation(self) -> list[tuple[float, float]]:
        """Where the chains of the foundation lie, from the left, and the room of each, in half pitches.

        Each lies under the stitch that stands on it; at a flush edge of the closed fabric, where these stand closer
        than chains can lie, the last one is pushed outwards and its neighbour lies half way.
        """
        places = sorted(float(place) for place in self.grid.foundation())
        push = min(PUSHED, MOST_PUSHED * self.grid.pace)
        for end, one, other, out in ((0, 1, 2, -push), (-1, -2, -3, push)):
            if len(places) > 3 and abs(places[one] - places[end]) < 0.9 * abs(places[other] - places[one]):
                places[end] += out
                places[one] = (places[end] + places[other]) / 2
        gaps = [other - one for one, other in pairwise(places)] or [OVAL]
        rooms = [min(one, other) for one, other in zip([gaps[0], *gaps], [*gaps, gaps[-1]], strict=True)]
        return list(zip(places, rooms, strict=True))

    def chain_under(self, at: float) -> float:
        """Where the chain lies that the stitch at ``at`` in row 1 stands on, both in half pitches: the nearest; ``at``
        itself of a first edge stitch that has none."""
        first = self.grid.piece.rows[0]
        if not self.grid.piece.recipe.own and at == first.edge(first.starts).at:
            return at
        return min((place for place, _ in self.chains_of_foundation()), key=lambda place: abs(place - at))

    def folded_chain(self, row: Row, place: float) -> bool:
        """Whether the chain at ``place`` that ``row`` stands on is left out: with the cluster or gap above it."""
        return self.sheet.folds.hides(place, lambda at: parting(self.grid, row.running, at))



def _lead(stitches: RowStitches) -> int:
    """The number of the turning chain: chains before it carry a step out."""
    return stitches.symbol.index(Symbol.TURNING_CHAIN)


def _one_place_each(stitches: RowStitches, apart: Iterable[int], main: Symbol) -> list[list[int]]:
    """The stitches with the numbers ``apart``, those dc together that follow each other into one place."""
    groups: list[list[int]] = []
    last: tuple[int, int] | None = None
    symbols, intos, targets = stitches.symbol, stitches.into, stitches.target
    for place in apart:
        here = (intos[place], targets[place]) if symbols[place] == main else None
        if here is not None and here == last:
            groups[-1].append(place)
        else:
            groups.append([place])
        last = here
    return groups
