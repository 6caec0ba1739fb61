"""Stitches as drawn definitions: each distinct symbol, cluster, run of clusters and row stated once.

In: the grid and the sheet. Out: definitions for the scene, and the name of the definition for any row. A
definition's origin is the head of its stitch; a row's is the head of its left post.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterable, Sequence
from itertools import pairwise
from pathlib import Path as FilePath

from turnchain.drawing import glyphs
from turnchain.drawing.alike import LEANS, Alike, alike_of
from turnchain.drawing.folds import NO_FOLDS
from turnchain.drawing.sheet import Sheet, row_rise
from turnchain.fabric.grid import Grid, Into, Leg, RowStitches, Symbol
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import Row
from turnchain.fabric.recipe import CHAIN as INNER_CHAIN
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import INK, Item, Use

# Heights within a row, as shares of the row height, counted down from its top.
HEAD = 0.12  # the heads of the dc
CHAIN = 0.165  # the chains between clusters
IN_SPACE = 0.965  # feet in a space: just above the row below
IN_STITCH = 1.06  # feet in a stitch: on its head
ON_CHAIN = 1.0  # feet on the foundation, or on the chains of a step
STRIP = 0.30  # height of the cloth that the foundation and the chains of a step lie on, below their row
SLIP_STITCH = 0.89  # slip stitches, on a strip of their own above the row below
TOP = 0.07  # where a turning chain ends

# Widths, as shares of the room of a stitch or in half pitches.
BAR = 0.46  # length of a dc's bar over the distance from one stitch to the next
MOST_ROOM = 0.62  # half pitches: bars and slashes grow no more where stitches stand farther apart
OPEN_FAN, CLOSED_FAN = 0.94, 0.90  # how far the heads of a cluster stand apart, over the room they have
FEET = 0.84  # the same of feet that have a chain each, so that they read as a group
FEET_SHIFT = 0.5  # stitches: no foot is drawn in so far that it might stand on its neighbour's chain
OVAL = 0.43  # length of a chain oval in half pitches
ON_FOUNDATION = 0.92  # length of a chain oval of the foundation over its room
MOST_FOUNDATION = 0.7  # half pitches: it is no longer than that
PUSHED = 0.12  # half pitches: how far the end of a crowded foundation is pushed outwards
FORM = 9.0 / 3.8  # length of a chain oval over its height
STANDING = 1.9  # the same of the ovals of a turning chain, which stay open when small
DOT = 0.17  # a slip stitch across, in half pitches
OUTER = 0.84  # stroke of a cluster's outer dc over that of the others, in clusters of three and more
LOWERED = 0.10  # how much nearer the foot the outermost slashes stand in clusters of four and more
PARTED = 0.19  # half pitches: how near the middle of a neck an edge stitch is drawn
FOLD = 4  # clusters alike are stated together in runs, and runs of so many runs

#: Drawn width of each symbol in the units of its box.
_BOX = {"sc": 8.0, "hdc": 10.0, "dc": 10.0, "tr": 10.0, "ch": 9.0, "sl_st": 6.8}
CROSS, MOST_CROSS = 0.62, 1.15  # width of a sc's cross over the distance between stitches, and the most of that
BESIDE = 0.46  # stitches: how far outside the edge stitch a turning chain that does not count stands


@frozen
class Stem:
    """One dc within its cluster: how far its foot lies right of its head (half pitches), and how far out it stands,
    from 0 in the middle of the cluster to 1 at either end."""

    lean: float
    out: float = 0.0


def head_width(stitch: str, pace: float) -> float:
    """How wide the head of a symbol is drawn, in half pitches, with ``pace`` half pitches from stitch to stitch: the
    bar of a dc, the cross of a sc."""
    share, most = (CROSS, MOST_CROSS) if stitch == "sc" else (BAR, MOST_ROOM)
    return share * min(pace, most)


def parting(grid: Grid, running: int, at: int) -> float:
    """The position, in half pitches, from which chains below a row (its ``running`` number) are left out where columns
    are from ``at`` on: each with the cluster or the gap above it."""
    reach = grid.k * grid.pace / 2
    return at - reach if (running + at) % 2 == 0 else at - 1 + reach


class Definitions:
    """The definitions of one piece on one sheet: ``made`` maps each name, which begins with ``prefix``, to its items,
    in the order in which they were first needed. Methods that return a name make the definition where it is new. Items
    are in px, positions in half pitches. ``folder``: a maker's own symbols; MakerError where one cannot be read.
    ``runs``: whether many clusters alike may be stated together."""

    def __init__(
        self, grid: Grid, sheet: Sheet, folder: FilePath | None = None, prefix: str = "", runs: bool = True
    ) -> None:
        self.grid, self.sheet, self.prefix = grid, sheet, prefix
        self.rule = grid.piece.recipe.stitch  # the stitch of the row at hand
        self.rise, self.ending = sheet.rise, ""  # px of its height, and what names end in where that is not the usual
        self.runs = runs and sheet.folds == NO_FOLDS  # whether clusters alike may stand together as runs
        self.made: dict[str, tuple[Item, ...]] = {}
        stitches = (self.rule.name, *grid.piece.recipe.order.solid)
        self._symbols = {name: glyphs.load(name, folder) for name in (*stitches, "ch", "sl_st")}
        self._rows: dict[bytes, str] = {}
        self._groups: dict[tuple[Use, ...], str] = {}

    def row(self, row: Row) -> str:
        """The name of a row's definition, its origin the head of the left post; rows worked alike share one."""
        stitches = self.grid.row(row)
        self.turn_to(row.kind)
        under = self.grid.piece.below(row)
        shifts = [self.parted(one, side) for side in SIDES for one in (row, under) if one is not None]
        places = array("f", [at - row.left.at for at in (*stitches.head, *stitches.foot)] + shifts)
        key = stitches.symbol.tobytes() + stitches.into.tobytes() + places.tobytes() + row.kind.encode()
        # solid rows at the foot are drawn over chains, others over what is drawn below them
        key += bytes((row.nth > 0, under is not None and under.nth > 0))
        if stitches.legs:
            key += repr([(leg.place, round(leg.foot - row.left.at, 3), leg.into) for leg in stitches.legs]).encode()
        if self.sheet.folds.by_columns:  # what is left out of a row depends on where it stands
            key += row.left.at.to_bytes(8, signed=True)
        if key not in self._rows:
            self._rows[key] = name = f"{self.prefix}row-{len(self._rows) + 1}"
            self.made[name] = self._row_items(row, stitches)
        return self._rows[key]

    def turn_to(self, kind: str) -> None:
        """From here on stitches are defined as those of a row of this ``kind`` are drawn."""
        piece = self.grid.piece
        self.rule, self.rise = piece.recipe.rule(kind), row_rise(piece, kind, self.sheet.rise)
        self.ending = "" if kind == CLUSTERS else f"-of-{kind}"

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
        for group in groups:
            symbol = Symbol(int(stitches.symbol[group[0]]))
            heads = sorted(float(stitches.head[place]) for place in group)
            shift = sum(moved.get(head, 0.0) for head in heads) if moved else 0.0
            if symbol is Symbol.SLIP_STITCH and under is not None and moved_below:
                old, way = under.edge(row.starts).at, float(stitches.foot[lead])  # evenly from there to the new edge
                shift = moved_below.get(old, 0.0) * (way - heads[0]) / (way - old)
            middle = heads[len(heads) // 2] + shift
            foot, into = float(stitches.foot[group[0]]), Into(int(stitches.into[group[0]]))
            foot = self.on_drawn_head(row, foot, into) + moved_below.get(foot, 0.0)
            chained = into is Into.FOUNDATION or (symbol is Symbol.CHAIN and group[0] < lead)
            if self.folded(row, middle, of_cluster=symbol is main) and not chained:
                continue
            if symbol is main:
                if chained and self.folded_chain(row, middle):
                    continue
                name, middle = self._dcs(row, foot, heads, into, shift)
            elif symbol is Symbol.TURNING_CHAIN:
                joined = bool(stitches.legs) and stitches.legs[0].place == group[0]
                name = self.turning_chain(foot - middle, into, self.grid.start_gaps(row), row.starts, joined)
            elif symbol is Symbol.SLIP_STITCH:
                name = self.slip_stitch()
            else:
                name = self.chain() if group[0] > lead else self.step_chain()
            uses.append(Use(name, rounded(self.sheet.x(middle) - self.sheet.x(row.left.at)), 0.0, INK))
            if stitches.legs:
                uses += [self._leg(row, leg, heads[0] + shift) for leg in stitches.legs if leg.place in group]
        return uses

    def _leg(self, row: Row, leg: Leg, head: float) -> Use:
        """A stitch from one more place to the ``head`` of the edge stitch that is worked over it too."""
        foot = self.on_drawn_head(row, leg.foot, leg.into)
        name = self.dc(Stem(foot - head), leg.into)
        return Use(name, rounded(self.sheet.x(head) - self.sheet.x(row.left.at)), 0.0, INK)

    def _dcs(
        self, row: Row, foot: float, heads: list[float], into: Into, shift: float = 0.0
    ) -> tuple[str, float]:
        """The definition of the dc worked into one place, drawn as a fan where they are of one cluster and ``shift``
        half pitches to the right, and where the head of the middle one lies."""
        if row.solid:
            head = (self._in_fan(row, heads[0], self.squeeze) if row.nth else heads[0]) + shift
            return self.together(head + foot - heads[0] - shift, [head], into), head
        drawn = [self._in_fan(row, head, self.squeeze) + shift for head in heads]
        if into is Into.FOUNDATION:
            foot = self._in_fan(row, foot, max(FEET, 1 - FEET_SHIFT / max(1, self.grid.k - 1)))
        middle = drawn[len(drawn) // 2]
        outs = [self._out(row, head) for head in heads]
        return self.together(foot, drawn, into, outs), middle

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
        under = self.grid.piece.below(row)
        if under is None or into is not Into.STITCH or row.solid or (under.solid and not under.nth):
            return foot  # solid stitches stand upright, over chains as far apart as they have room
        return self._in_fan(under, foot, self.squeeze)

    @property
    def squeeze(self) -> float:
        """How far the heads of a cluster are drawn apart, as a share of the room they have."""
        return CLOSED_FAN if self.grid.closed else OPEN_FAN

    def centre(self, row: Row, at: float) -> int | None:
        """The middle of the cluster of a dc whose head is at ``at``; None for an edge stitch and the extra dc."""
        first = row.running
        centre = 2 * round((at - first) / 2) + first
        # the outermost dc of a cluster stands less than half a pitch from its middle, all others farther
        within = abs(at - centre) <= (self.grid.k - 1) / 2 * self.grid.pace + 1 / LEANS
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

    def joined(self) -> str:
        """The name of two stitches joined at the top, for the key."""
        name = f"{self.prefix}joined"
        if name not in self.made:
            leans = (-self.grid.pace / 2, self.grid.pace / 2)
            self.made[name] = tuple(Use(self.dc(Stem(lean), Into.STITCH), 0.0, 0.0, INK) for lean in leans)
        return name

    def fan(self) -> str:
        """The name of one whole cluster in its space, for the key."""
        recipe = self.grid.piece.recipe
        self.turn_to(CLUSTERS)
        heads = [self.squeeze * head for head in self.grid.fan()]
        outs = [abs(head) / heads[-1] if self.grid.k > 2 else 0.0 for head in heads]
        if not recipe.inner:
            return self.together(0.0, heads, Into.SPACE, outs)
        name = f"{self.prefix}unit"
        if name not in self.made:
            parts = [
                (self.chain() if one == INNER_CHAIN else self.dc(Stem(-head, out), Into.SPACE), head)
                for one, head, out in zip(recipe.unit, heads, outs, strict=True)
            ]
            self.made[name] = tuple(Use(part, rounded(head * self.sheet.half), 0.0, INK) for part, head in parts)
        return name

    def together(self, foot: float, heads: list[float], into: Into, outs: list[float] | None = None) -> str:
        """The name of the dc worked into one place, about the head of the middle one: a cluster, or a post with a dc
        beside it. ``heads`` stand from the left; ``outs``: the ``Stem.out`` of each (None: all 0)."""
        origin = heads[len(heads) // 2]
        stems = [Stem(foot - head, out) for head, out in zip(heads, outs or [0.0] * len(heads), strict=True)]
        uses = tuple(
            Use(self.dc(stem, into), rounded((head - origin) * self.sheet.half), 0.0, INK)
            for stem, head in zip(stems, heads, strict=True)
        )
        if len(uses) == 1:
            return uses[0].name
        if uses not in self._groups:
            kind = "cluster" if len(heads) == self.grid.k else "dc-together"
            self._groups[uses] = name = f"{self.prefix}{kind}-{len(self._groups) + 1}"
            self.made[name] = uses
        return self._groups[uses]

    def _foot_height(self, into: Into) -> float:
        if into is Into.SPACE:
            return IN_SPACE
        return ON_CHAIN if into in (Into.FOUNDATION, Into.OWN_CHAIN) else IN_STITCH

    def dc(self, stem: Stem, into: Into) -> str:
        """The name of one dc about its head."""
        outer, lowered = stem.out > 0.99, LOWERED * stem.out if self.grid.k > 3 else 0.0
        stitch = self.rule.name
        name = f"{self.prefix}{stitch}{_suffix(stem.lean, into)}{'-outer' if outer else ''}{self.ending}"
        if name not in self.made:
            half, rise = self.sheet.half, self.rise
            foot = (stem.lean * half, self._foot_height(into) * rise)
            across = head_width(stitch, self.grid.pace) * half / _BOX[stitch]
            thick = rounded(self.sheet.stroke * (OUTER if outer else 1.0))
            self.made[name] = glyphs.stand(self._symbols[stitch], foot, (0.0, HEAD * rise), thick, across, lowered)
        return name

    def chain(self) -> str:
        """The name of one lying chain of a gap, its middle ``CHAIN`` of a row below the top of its row."""
        name = f"{self.prefix}ch"
        if name not in self.made:
            self.made[name] = self._lying(0.0, CHAIN * self.sheet.rise, OVAL)
        return name

    def step_chain(self) -> str:
        """The name of one chain of a step out, on its strip below the row."""
        name = f"{self.prefix}ch-step"
        if name not in self.made:
            y = (ON_CHAIN + STRIP / 2) * self.sheet.rise
            self.made[name] = self._lying(0.0, y, min(OVAL, ON_FOUNDATION * self.grid.pace))
        return name

    def foundation(self, ink: str) -> list[Use]:
        """The chains that row 1 stands on, in ``ink`` on their strip below its band, but for folded columns."""
        first, y = self.grid.piece.rows[0], rounded(self.sheet.ground + STRIP / 2 * self.sheet.rise)
        places = self.chains_of_foundation()
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
        for end, one, other, out in ((0, 1, 2, -PUSHED), (-1, -2, -3, PUSHED)):
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

    def _foundation_chain(self, room: float) -> str:
        """One chain of the foundation, as long as its ``room`` (half pitches) lets it be."""
        name = f"{self.prefix}ch-foundation-{round(100 * room)}"
        if name not in self.made:
            self.made[name] = self._lying(0.0, 0.0, min(ON_FOUNDATION * room, MOST_FOUNDATION))
        return name

    def _lying(self, x: float, y: float, length: float) -> tuple[Item, ...]:
        """A chain oval about (x, y), ``length`` half pitches long; as high as any other."""
        long, high = length * self.sheet.half, OVAL / FORM * self.sheet.half
        return self._oval((x, y), (1.0, 0.0), long, high)

    def _oval(
        self, middle: tuple[float, float], way: tuple[float, float], length: float, breadth: float
    ) -> tuple[Item, ...]:
        """A chain oval about ``middle``, ``length`` px along the unit vector ``way`` and ``breadth`` px across."""
        (x, y), (dx, dy) = middle, way
        reach = length / _BOX["ch"] * 5  # from the middle to either anchor
        foot, head = (x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach)
        across = breadth / (_BOX["ch"] / FORM)
        return glyphs.place(self._symbols["ch"], foot, head, rounded(0.9 * self.sheet.stroke), across)

    def slip_stitch(self) -> str:
        """The name of one slip stitch, just above the top of the row below."""
        name = f"{self.prefix}sl-st"
        if name not in self.made:
            y, size = self.sheet.rise * SLIP_STITCH, DOT / _BOX["sl_st"] * self.sheet.half
            glyph = self._symbols["sl_st"]
            reach = abs(glyph.head[1] - glyph.foot[1]) / 2 * size
            self.made[name] = glyphs.place(glyph, (0.0, y + reach), (0.0, y - reach), self.sheet.stroke, size)
        return name

    def turning_chain(
        self, lean: float, into: Into, gaps: Sequence[float] = (), starts: Side = "left", joined: bool = False
    ) -> str:
        """The name of a turning chain, the foot ``lean`` half pitches right of the head, and of the chains of a spaced
        start that are part of it, ``gaps`` half pitches to the right; where it does not count, of the edge stitch with
        the turning chain outside it, of a row that ``starts`` at that side. ``joined``: with another stitch, so that
        one that counts is a chain shorter."""
        side = "" if not gaps else ("-gap-right" if gaps[0] > 0 else "-gap-left")
        apart = "" if self.rule.counts else f"-{starts}"
        many = self.rule.turning - int(joined and self.rule.counts)
        short = "-joined" if joined and not apart else ""
        name = f"{self.prefix}turning-chain{_suffix(lean, into)}{side}{apart}{short}{self.ending}"
        if name not in self.made:
            lying = [self._lying(gap * self.sheet.half, CHAIN * self.sheet.rise, OVAL) for gap in gaps]
            standing = self._beside(lean, into, starts) if apart else self._stacked(lean, into, many)
            self.made[name] = standing + tuple(item for items in lying for item in items)
        return name

    def _beside(self, lean: float, into: Into, starts: Side) -> tuple[Item, ...]:
        """The edge stitch of a row that ``starts`` at a side, and outside it the chains that do not count."""
        stitch = self.dc(Stem(lean), into)
        out = (-1 if starts == "left" else 1) * min(max(BESIDE * self.grid.pace, 0.3), 0.5) * self.sheet.half
        return (Use(stitch, 0.0, 0.0, INK), *self._stacked(lean, into, self.rule.turning, out))

    def _stacked(self, lean: float, into: Into, many: int, out: float = 0.0) -> tuple[Item, ...]:
        """So ``many`` ovals of a turning chain end to end, ``out`` px to the right. They keep their form, however high
        the row is drawn; a single one is half as long as the row is high."""
        half, rise = self.sheet.half, self.rise
        foot_y, head_y = self._foot_height(into) * rise, TOP * rise
        foot_x = lean * half
        length = math.hypot(foot_x, foot_y - head_y)
        way = (-foot_x / length, (head_y - foot_y) / length)
        slot = length / max(many, 2)
        begin = (length - many * slot) / 2
        long = slot - 0.35 * self.sheet.stroke
        ovals: tuple[Item, ...] = ()
        for nth in range(many):
            along = begin + slot * (nth + 0.5)
            ovals += self._oval((foot_x + out + way[0] * along, foot_y + way[1] * along), way, long, long / STANDING)
        return ovals


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


def _suffix(lean: float, into: Into) -> str:
    """A readable ending, one for each lean and kind of foot: "-left-50" has its foot 0.50 half pitches to the left."""
    hundredths = round(lean * LEANS)
    words = f"-{'left' if hundredths < 0 else 'right'}-{abs(hundredths)}" if hundredths else ""
    if into in (Into.FOUNDATION, Into.OWN_CHAIN):
        return f"{words}-on-chain"
    return words if into is Into.SPACE else f"{words}-in-stitch"
