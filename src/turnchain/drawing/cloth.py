"""Worked cloth, drawn stitch by stitch so that it looks like crochet.

In: a piece laid out at a scale, and the colours of its yarns. Out: scene items, and the definitions they use.

Rows are painted from the first up: the stitches of a row stand in front of the row below, their feet gathered in its
gaps. Each stitch is a strand with a shaded side, a light side and the turns of its ply; a plait of loops lies along
the top of every row. Each of these layers is one definition a row, used in a colour of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator
from functools import cache, partial
from typing import NamedTuple

from turnchain import oklch
from turnchain.drawing.colours import Colours
from turnchain.drawing.placement import Placed
from turnchain.drawing.strands import FINE, FINE_LAYERS, LAYERS, Drawer, Px, Strand, smooth
from turnchain.drawing.toned import Toned, toned
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.fabric.recipe import CHAIN
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import INK, Item, Path, Step, Use, polyline
from turnchain.style import Theme

FOOT, HEAD = -1.22, 0.03  # of a stitch, in rows from the top of its row: the foot stands behind the plait below
FIRST_FOOT = -1.0  # of a stitch of row 1, which stands on its chain
THIN, WIDE = 0.26, 0.58  # half the breadth of a strand at its foot and below its head, in stitches
# How far from the middle the feet of a cluster stand, over how far its heads do; the same in row 1.
GATHER, FIRST_GATHER = 0.42, 0.8
SOLID_FOOT, SOLID = -1.1, 0.44  # of a stitch of a solid row: its foot, and half its breadth there
LOOP = 0.155  # the breadth of a loop of the plait, in rows
LINE = 0.042  # lines between strands, in half pitches
LEAST_LINE = 0.35  # px, of the same lines


class Shades(NamedTuple):
    """The colours of one yarn in cloth: ``ground`` behind the stitches, ``deep`` where feet go in, ``edge`` between
    strands, the ``body`` of a strand, its ``shade`` and ``light``, the lines of its ``ply``, and the ``loop`` s."""

    ground: str
    deep: str
    edge: str
    body: str
    shade: str
    light: str
    ply: str
    loop: str


# How much lighter than the yarn each shade is, for the darkest yarn and for the palest: pale yarns show in their
# shadows, dark ones in their lights. ``tests/test_cloth`` holds the average of a stripe against the yarn's colour.
LIGHTER: dict[str, tuple[float, float]] = {
    "ground": (-0.070, -0.105),
    "deep": (-0.125, -0.19),
    "edge": (-0.08, -0.12),
    "body": (0.024, 0.040),
    "shade": (-0.020, -0.022),
    "light": (0.092, 0.055),
    "ply": (-0.038, -0.055),
    "loop": (0.052, 0.048),
}


def shades(colour: str) -> Shades:
    """The shades, each "#rrggbb", of cloth worked in a yarn of ``colour`` ("#rrggbb"): of its hue, lighter or darker as
    ``LIGHTER`` has it."""
    return _shades_of_yarn(colour, colour.how[-1]) if isinstance(colour, Toned) else _shades(colour)


@cache
def _shades_of_yarn(colour: str, yarn: str) -> Shades:
    return Shades(*(toned(made, "shade", yarn, name) for name, made in _shades(colour)._asdict().items()))


@cache
def _shades(colour: str) -> Shades:
    lightness, chroma, hue = oklch.of(colour)
    pale = min(1.0, max(0.0, (lightness - 0.3) / 0.6))
    return Shades(*(
        oklch.colour_of(lightness + dark + (light - dark) * pale, chroma, hue) for dark, light in LIGHTER.values()
    ))


@frozen
class Tabletop:
    """Where the table lies in the picture: its (0, 0) at (``left``, ``top``) px, whole."""

    left: int
    top: int

    def px(self, place: Px) -> Px:
        """Where a place on the table (px, y upwards) is in the picture (px, y downwards)."""
        return rounded(self.left + place[0]), rounded(self.top - place[1])


RUN = 4  # so many clusters, and runs of clusters, are stated together


class Cloth:
    """Draws pieces as cloth on a table. ``made`` holds the definitions that the items so far use (name to items), their
    names begun with ``prefix``; ``unit`` is px of the picture for a px at the reference width. Pieces are placed in px
    (a ``Placed`` with a ``Scale`` in px)."""

    def __init__(self, table: Tabletop, colours: Colours, theme: Theme, unit: float, prefix: str = "") -> None:
        self.table, self.colours, self.theme, self.unit, self.prefix = table, colours, theme, unit, prefix
        self.made: dict[str, tuple[Item, ...]] = {}
        self._names: dict[Hashable, str] = {}

    def piece(self, laid: Placed) -> list[Item]:
        """The cloth of one piece, from row 1 up; in black on white each row is a hatched band without stitches."""
        if self.colours.mono:
            return [item for row in laid.piece.cloth_rows for item in self._hatched(laid, row)]
        grounds = [self._ground(laid, row) for row in laid.piece.cloth_rows]  # before all stitches, which reach down
        stitches = Stitches(laid, self)
        return [*grounds, *(use for row in laid.piece.cloth_rows for use in stitches.row(row, self.colours.of(row)))]

    def _ground(self, laid: Placed, row: Row) -> Item:
        """What lies behind the stitches of a row. Rows meet on whole px, so that nothing shows between them and what
        is a rectangle costs nothing to paint."""
        corners = [(float(round(x)), float(round(y))) for x, y in self._corners(laid, row)]
        return Path(polyline(corners, closed=True), fill=shades(self.colours.of(row)).ground)

    def _hatched(self, laid: Placed, row: Row) -> Iterator[Item]:
        """Black on white each row is a band with a line around it: one yarn is without any hatching."""
        corners = self._corners(laid, row)
        line = rounded(0.9 * self.unit)
        yield Path(polyline(corners, closed=True), fill=self.colours.of(row), stroke=self.theme.soft, width=line)
        yield from self.colours.hatched(row, corners, self.unit)

    def _corners(self, laid: Placed, row: Row) -> list[Px]:
        """The band of a row in the picture, px: lower left, upper left, upper right, lower right."""
        low = {side: foot_of(laid, row, side) for side in SIDES}
        below, top = (float(laid.piece.level(number)) for number in (row.number - 1, row.number))
        places = ((low["left"], below), (row.left.at, top), (row.right.at, top), (low["right"], below))
        return [self.table.px(laid.at(*place)) for place in places]

    def define(self, part: str, key: Hashable, items: Callable[[], tuple[Item, ...]]) -> str:
        """The name of the definition of a ``part`` for ``key``; where it is new, ``items`` is called for what it is
        made of."""
        own = part, key
        name = self._names.get(own)  # once, since keys are long
        if name is None:
            made = items()  # may define others, which must stand before it
            name = self._names[own] = f"{self.prefix}{part}-{len(self._names) + 1}"
            self.made[name] = made
        return name


def foot_of(laid: Placed, row: Row, side: Side) -> int:
    """The position, in half pitches, where the edge of a row begins at its foot; beside a step, and in row 1, that of
    its top."""
    under = laid.piece.below(row)
    edge = row.edge(side)
    return edge.at if under is None or edge.step else under.edge(side).at


def line_of(laid: Placed) -> float:
    """The breadth of lines between strands, in px."""
    return rounded(max(LEAST_LINE, LINE * laid.scale.half))


class Stitches:
    """The stitches of one piece as it lies, made as definitions of ``cloth``; items are in px about the top of each
    row's left edge."""

    def __init__(self, laid: Placed, cloth: Cloth) -> None:
        self.laid, self.cloth = laid, cloth
        self.k, self.g = laid.piece.recipe.unit_width, laid.piece.recipe.gap
        self.room = laid.piece.recipe.pace  # of a stitch, half pitches
        zero, right, up = laid.at(0.0, 0.0), laid.at(1.0, 0.0), laid.at(0.0, 1.0)
        self._right = right[0] - zero[0], zero[1] - right[1]  # px to the right and down, of half a pitch
        self._up = up[0] - zero[0], zero[1] - up[1]  # and of a row
        self.tall = 1.0  # of the row at hand, in rows of the gauge
        self._alike: dict[Hashable, list[tuple[str, str]]] = {}
        shaded = 1.0 if sum(self._right) > 0 else -1.0
        self.drawer = Drawer(self.offset, line_of(laid), shaded)

    def offset(self, right: float, up: float) -> Px:
        """How far to the right and down in the picture, in px, a place lies that is ``right`` half pitches and ``up``
        rows (as high as the one at hand) from another on the piece."""
        (x, y), (dx, dy), up = self._right, self._up, up * self.tall
        return rounded(right * x + up * dx), rounded(right * y + up * dy)

    @property
    def fine(self) -> bool:
        """Whether strands are too fine (less than ``FINE`` px broad) for the turns of their ply to be seen."""
        return 2 * WIDE * self.room * self.laid.scale.half < FINE

    def row(self, row: Row, colour: str) -> Iterator[Use]:
        """The stitches of ``row`` in the shades of ``colour`` ("#rrggbb"), and the plait along its top; with row 1 the
        foundation that is made for it."""
        inks = shades(colour)._asdict()
        self.tall = float(row.height)
        shape = (self._clusters(row), self._ends(row), row.number == 1, row.kind)
        if shape not in self._alike:
            self._alike[shape] = list(self._parts(row))
        x, y = self.cloth.table.px(self.laid.at(row.left.at, float(self.laid.piece.level(row.number))))
        stitches, plait = self._alike[shape][:-2], self._alike[shape][-2:]
        yield from (Use(name, x, y, inks[layer]) for name, layer in stitches)
        if row.number == 1 and not self.laid.piece.begun_on:
            yield from self._foundation(row, inks)
        yield from (Use(name, x, y, inks[layer]) for name, layer in plait)

    def _ends(self, row: Row) -> tuple[tuple[str, int, int], ...]:
        """What tells the ends of rows apart: kind, lean, and how far the right one lies from the left."""
        far = row.right.at - row.left.at
        return tuple((row.edge(side).kind, foot_of(self.laid, row, side) - row.edge(side).at, far) for side in SIDES)

    def _parts(self, row: Row) -> Iterator[tuple[str, str]]:
        """The definitions that a row is made of, about the top of its left edge, each with the shade it is drawn in;
        the last two are its plait."""
        if row.solid:
            yield from self._solid(row)
        else:
            yield from self._fine_stitches(row) if self.fine else self._stitches(row)
        for layer, width in (("edge", LOOP + 0.06), ("loop", LOOP)):
            yield self._part(f"plait-{layer}", self._plait_of(row, layer, width)), layer

    def _plait_of(self, row: Row, layer: str, width: float) -> list[Use]:
        """The loops along the top of a row, ``width`` rows broad."""
        return self._over(row, layer, ("plait", "top", "chain"), lambda *which: self._plait(width, self._loops(*which)))

    def _solid(self, row: Row) -> Iterator[tuple[str, str]]:
        """Every layer of the stitches of a solid row."""
        for layer in FINE_LAYERS if self.fine else LAYERS:
            parts = ("solid", "solid-top", "solid-chain")
            made = self._over(row, layer, parts, partial(self._uprights, row.number <= 1, layer))
            ends = [self._edge_stitch(row, side, layer) for side in SIDES]
            yield self._part(f"stitches-{layer}", [*made, *ends]), layer

    def _uprights(self, first: bool, layer: str, begin: int, count: int) -> tuple[Item, ...]:
        """One layer of so many stitches side by side, numbered as ``_loops`` has them."""
        foot, thin, wide = FIRST_FOOT if first else SOLID_FOOT, SOLID * self.room, WIDE * self.room
        strands = [Strand((at, foot), (at, HEAD), thin, wide) for at in self._loops(begin, count)]
        if self.fine:
            return (self.drawer.fine_layer(strands, layer),)
        return tuple(self.drawer.layer(strand, layer) for strand in strands)

    def _over(
        self, row: Row, layer: str, parts: tuple[str, str, str], made: Callable[[int, int], tuple[Item, ...]]
    ) -> list[Use]:
        """What lies over each stitch and chain of a row: over every cluster with the chains at its right, and at the
        ends over what is left. ``parts`` name it over both, over clusters and over chains alone; ``made`` makes it for
        stitches from a number on."""
        whole_part, top, chain = parts
        first, count = self._clusters(row)
        before, after = (self.g and row.edge(side).kind == "spaced" for side in SIDES)
        whole = count if after or not self.g else count - 1
        uses = self._along(f"{whole_part}-{layer}", (), (first, whole), partial(made, 0, self.k + self.g))
        if whole < count:
            uses += self._along(f"{top}-{layer}", (), (first + 2 * whole, 1), partial(made, 0, self.k))
        if before:
            uses += self._along(f"{chain}-{layer}", (), (first - 2, 1), partial(made, self.k, self.g))
        return uses

    def _stitches(self, row: Row) -> Iterator[tuple[str, str]]:
        """Every layer of every rank of a row's clusters, and then the stitches at its ends."""
        first, clusters = row.number == 1, self._clusters(row)
        yield from self._shadows(row)
        for rank in range((self.k + 1) // 2):
            for layer in LAYERS:
                strands = partial(self._fan, first, rank, layer)
                fans = self._along(f"cluster-{layer}", (first, rank), clusters, strands)
                yield self._part(f"clusters-{layer}", fans), layer
        for side in self._posted(row):
            for layer in LAYERS:
                yield self._part(f"edge-{layer}", [self._edge_stitch(row, side, layer)]), layer

    def _posted(self, row: Row) -> tuple[Side, ...]:
        """The sides at which ``row`` has an edge stitch."""
        return tuple(side for side in SIDES if self.laid.piece.recipe.table.post(row.edge(side).kind))

    def _fine_stitches(self, row: Row) -> Iterator[tuple[str, str]]:
        """The same in few layers, each of them one use from edge to edge."""
        first, clusters = row.number == 1, self._clusters(row)
        yield from self._shadows(row)
        for layer in FINE_LAYERS:
            fans = self._along(f"cluster-{layer}", first, clusters, partial(self._fine_fan, first, layer))
            ends = [self._edge_stitch(row, side, layer) for side in self._posted(row)]
            yield self._part(f"stitches-{layer}", [*fans, *ends]), layer

    def _shadows(self, row: Row) -> Iterator[tuple[str, str]]:
        """The dark of the gaps that the feet of a row's clusters go into; row 1 has none."""
        if row.number > 1:
            shadows = self._along("gap-deep", (), self._clusters(row), lambda: (self._shadow(),))
            yield self._part("shadows", shadows), "deep"

    def _clusters(self, row: Row) -> tuple[int, int]:
        """Where the first cluster of a row stands, half pitches from its left edge, and how many there are."""
        return row.centres[0] - row.left.at, len(row.centres)

    def _part(self, part: str, uses: list[Use]) -> str:
        """The definition of a ``part`` of a whole row, made of ``uses``."""
        return self.cloth.define(f"row-{part}", tuple(uses), lambda: tuple(uses))

    def _along(
        self, part: str, key: Hashable, places: tuple[int, int], items: Callable[[], tuple[Item, ...]]
    ) -> list[Use]:
        """A ``part`` of clusters side by side: ``places`` has where the first stands, in half pitches, and how many
        there are. As many of the longest runs as there is room for, then shorter ones."""
        at, left = places
        long, uses = 1, []
        while long * RUN <= left:
            long *= RUN
        while left:
            count, left = divmod(left, long)
            name = self._run(part, key, long, items)
            uses += [Use(name, *self.offset(at + 2 * long * nth, 0.0), INK) for nth in range(count)]
            at += 2 * long * count
            long //= RUN
        return uses

    def _run(self, part: str, key: Hashable, long: int, items: Callable[[], tuple[Item, ...]]) -> str:
        """The definition of ``long`` clusters side by side, of a run of runs."""
        lies = (self.laid.quarters, self.laid.scale, self.tall, key)
        if long == 1:
            return self.cloth.define(part, lies, items)

        def runs() -> tuple[Item, ...]:
            inner, step = self._run(part, key, long // RUN, items), 2 * long // RUN
            return tuple(Use(inner, *self.offset(step * nth, 0.0), INK) for nth in range(RUN))

        return self.cloth.define(f"{part}-run", (lies, long), runs)

    # ------------------------------------------------------------------------------------------------- clusters

    def _strands(self, first: bool, rank: int) -> list[Strand]:
        """The strands of a cluster that lie equally far from its middle, the outermost (0) behind all others."""
        heads = [(index - (self.k - 1) / 2) * self.room for index in range(self.k)]
        gather, foot = (FIRST_GATHER, FIRST_FOOT) if first else (GATHER, FOOT)
        thin, wide = THIN * self.room, WIDE * self.room
        return [
            Strand((head * gather, foot), (head, HEAD), thin, wide)
            for nth, head in {rank: heads[rank], self.k - 1 - rank: heads[-1 - rank]}.items()
            if self.laid.piece.recipe.unit[nth] != CHAIN
        ]

    def _fan(self, first: bool, rank: int, layer: str) -> tuple[Item, ...]:
        return tuple(self.drawer.layer(strand, layer) for strand in self._strands(first, rank))

    def _fine_fan(self, first: bool, layer: str) -> tuple[Item, ...]:
        """One layer of all strands of a cluster, as one shape."""
        strands = [strand for rank in range((self.k + 1) // 2) for strand in self._strands(first, rank)]
        return (self.drawer.fine_layer(strands, layer),)

    def _shadow(self) -> Item:
        """The dark of the gap that the feet of a cluster go into."""
        wide = 0.8 * self.room * self.k * GATHER
        around = [(math.cos(turn * math.pi / 4), math.sin(turn * math.pi / 4)) for turn in range(8)]
        return Path(tuple(smooth([self.offset(wide * x, -0.99 + 0.13 * y) for x, y in around])), fill=INK)

    def _foundation(self, row: Row, inks: dict[str, str]) -> Iterator[Use]:
        """The loops of the chain below row 1."""
        wide = row.right.at - row.left.at
        x, y = self.cloth.table.px(self.laid.at(row.left.at, 0))
        loops = [(index + 0.5) * self.room for index in range(round(wide / self.room))]
        for layer, width in (("edge", LOOP + 0.06), ("body", LOOP)):
            key = (self.laid.quarters, self.laid.scale, self.tall, wide)
            made = partial(self._plait, width, loops)
            yield Use(self.cloth.define(f"foundation-{layer}", key, made), x, y, inks[layer])

    def _loops(self, first: int, count: int) -> list[float]:
        """Where stitches of a cluster and chains after it have their loops, half pitches from its middle."""
        return [(index - (self.k - 1) / 2) * self.room for index in range(first, first + count)]

    def _plait(self, width: float, loops: list[float]) -> tuple[Item, ...]:
        """Loops of the plait at those places, ``width`` rows broad."""
        steps: list[Step] = []
        for at in loops:
            start, end = at - 0.42 * self.room, at + 0.46 * self.room
            bend = (*self.offset(start + 0.3 * self.room, -0.04), *self.offset(end - 0.3 * self.room, 0.03))
            steps += [("M", *self.offset(start, -0.035)), ("C", *bend, *self.offset(end, 0.07))]
        return (Path(tuple(steps), stroke=INK, width=rounded(width * self.laid.scale.row)),)

    # ---------------------------------------------------------------------------------------------- edge stitches

    def _edge_stitch(self, row: Row, side: Side, layer: str) -> Use:
        """One layer of the stitch at an end of a row, about the top of its left edge; it leans where the edge does."""
        at = row.edge(side).at
        lean = foot_of(self.laid, row, side) - at
        inwards = 1 if side == "left" else -1
        extra = bool(self.laid.piece.recipe.extra) and row.edge(side).kind == "spaced"
        shape = (lean, inwards, extra, row.number == 1)
        key = (self.laid.quarters, self.laid.scale, self.tall, shape)
        name = self.cloth.define(f"edge-stitch-{layer}", key, partial(self._edge_layer, *shape, layer))
        return Use(name, *self.offset(at - row.left.at, 0.0), INK)

    def _edge_layer(self, lean: int, inwards: int, extra: bool, first: bool, layer: str) -> tuple[Item, ...]:
        """The edge stitch, and in the closed fabric the ``extra`` one beside it."""
        wide, foot = WIDE * self.room, FIRST_FOOT if first else -1.1
        insides = (wide, wide + self.room) if extra else (wide,)
        strands = [
            Strand((lean + inwards * wide, foot), (inwards * inside, HEAD), 0.8 * wide, wide)
            for inside in reversed(insides)
        ]
        if self.fine:
            return (self.drawer.fine_layer(strands, layer),)
        return tuple(self.drawer.layer(strand, layer) for strand in strands)
