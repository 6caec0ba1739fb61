"""Worked cloth, near enough to be taken for crochet at arm's length.

In: a piece laid out at a scale, and the colours of its yarns. Out: scene items, and the definitions they use.

Rows are painted from the first up: the stitches of a row stand in front of the row below, their feet gathered in its
gaps. Each stitch is a strand with a shaded side, a light side and the turns of its ply; a plait of loops lies along
the top of every row. Each of these layers is one definition a row, used in a colour of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from typing import NamedTuple

from turnchain import oklch
from turnchain.drawing.colours import Colours
from turnchain.drawing.placement import Placed
from turnchain.drawing.strands import Px, Strand, smooth
from turnchain.fabric import lattice
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.scene import INK, Item, Path, Step, Use, polyline
from turnchain.style import Theme

FOOT, HEAD = -1.22, 0.03  # of a stitch, in rows from the top of its row: the foot stands behind the plait below
FIRST_FOOT = -1.0  # of a stitch of row 1, which stands on its chain
THIN, WIDE = 0.26, 0.58  # half the breadth of a strand at its foot and below its head, in stitches
GATHER, FIRST_GATHER = 0.42, 0.8  # how far from the middle the feet of a cluster stand, as a share of its heads
LOOP = 0.155  # the breadth of a loop of the plait, in rows
LINE = 0.042  # lines between strands, in half pitches
LEAST_LINE = 0.35  # px


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


@cache
def shades(colour: str) -> Shades:
    """The shades of cloth worked in a yarn of ``colour`` ("#rrggbb")."""
    lightness, chroma, hue = oklch.of(colour)
    pale = min(1.0, max(0.0, (lightness - 0.3) / 0.6))
    return Shades(*(
        oklch.colour_of(lightness + dark + (light - dark) * pale, chroma, hue) for dark, light in LIGHTER.values()
    ))


@dataclass(frozen=True, slots=True)
class Tabletop:
    """Where the table lies in the picture: its (0, 0) at (``left``, ``top``) px, whole."""

    left: int
    top: int

    def px(self, place: Px) -> Px:
        """A place on the table (px, y upwards) in the picture (y downwards)."""
        return rounded(self.left + place[0]), rounded(self.top - place[1])


LAYERS = ("edge", "body", "shade", "ply", "light")  # of a strand, each in the shade of its name


class Cloth:
    """Draws pieces as cloth on a table; ``made`` holds the definitions so far, their names begun with ``prefix``."""

    def __init__(self, table: Tabletop, colours: Colours, theme: Theme, unit: float, prefix: str = "") -> None:
        self.table, self.colours, self.theme, self.unit, self.prefix = table, colours, theme, unit, prefix
        self.made: dict[str, tuple[Item, ...]] = {}
        self._names: dict[Hashable, str] = {}

    def piece(self, laid: Placed) -> list[Item]:
        """The cloth of one piece, from row 1 up."""
        if self.colours.mono:
            return [item for row in laid.piece.rows for item in self._hatched(laid, row)]
        grounds = [self._ground(laid, row) for row in laid.piece.rows]
        stitches = Stitches(laid, self)
        return [*grounds, *(use for row in laid.piece.rows for use in stitches.row(row, self.colours.of(row)))]

    def _ground(self, laid: Placed, row: Row) -> Item:
        ground = shades(self.colours.of(row)).ground
        return Path(polyline(self._corners(laid, row), closed=True), fill=ground, stroke=ground, width=0.5)

    def _hatched(self, laid: Placed, row: Row) -> Iterator[Item]:
        """Black on white each row is a band with a line around it: one yarn is without any hatching."""
        corners = self._corners(laid, row)
        line = rounded(0.9 * self.unit)
        yield Path(polyline(corners, closed=True), fill=self.colours.of(row), stroke=self.theme.soft, width=line)
        yield from self.colours.hatched(row, corners, self.unit)

    def _corners(self, laid: Placed, row: Row) -> list[Px]:
        """The band of a row in the picture, px: lower left, upper left, upper right, lower right."""
        low = {side: foot_of(laid, row, side) for side in SIDES}
        below, top = row.number - 1, row.number
        places = ((low["left"], below), (row.left.at, top), (row.right.at, top), (low["right"], below))
        return [self.table.px(laid.at(*place)) for place in places]

    def define(self, part: str, key: Hashable, items: Callable[[], tuple[Item, ...]]) -> str:
        """The name of the definition of a ``part`` for ``key``, made of ``items`` where it is new."""
        if (part, key) not in self._names:
            made = items()  # may define others, which must stand before it
            self._names[part, key] = f"{self.prefix}{part}-{len(self._names) + 1}"
            self.made[self._names[part, key]] = made
        return self._names[part, key]


def foot_of(laid: Placed, row: Row, side: Side) -> int:
    """Where an edge of a row begins below, in half pitches."""
    under = laid.piece.below(row)
    edge = row.edge(side)
    return edge.at if under is None or edge.step else under.edge(side).at


class Stitches:
    """The stitches of one piece as it lies, in px about the top of each row."""

    def __init__(self, laid: Placed, cloth: Cloth) -> None:
        self.laid, self.cloth = laid, cloth
        self.k, self.g = laid.piece.fabric.cluster, laid.piece.fabric.gap
        self.room = 2 / (self.k + self.g)  # of a stitch, half pitches
        self.line = rounded(max(LEAST_LINE, LINE * laid.scale.half))
        right, down = self.offset(1.0, 0.0)
        self.shaded = 1.0 if right + down > 0 else -1.0  # the side of a strand away from the page's upper left

    def offset(self, right: float, up: float) -> Px:
        """How far apart two places of the piece lie in the picture, px."""
        x0, y0 = self.laid.at(0.0, 0.0)
        x1, y1 = self.laid.at(right, up)
        return rounded(x1 - x0), rounded(y0 - y1)

    def row(self, row: Row, colour: str) -> Iterator[Use]:
        """The stitches of ``row`` in the shades of ``colour``, and the plait along its top."""
        inks = shades(colour)._asdict()
        first = row.number == 1
        centres = lattice.centres(row.left.at, row.right.at, row.number, self.laid.piece.phase)
        along = tuple(centre - centres[0] for centre in centres)
        x, y = self.cloth.table.px(self.laid.at(centres[0], row.number))
        if not first:
            yield Use(self._repeated("gap-deep", (), along, lambda: (self._shadow(),)), x, y, inks["deep"])
        for rank in range((self.k + 1) // 2):
            for layer in LAYERS:
                strands = partial(self._fan, first, rank, layer)
                yield Use(self._repeated(f"cluster-{layer}", (first, rank), along, strands), x, y, inks[layer])
        yield from self._edge_stitches(row, inks)
        if first:
            yield from self._foundation(row, inks)
        plait = (("chain", self._gaps(row, along), self._loops(self.k, self.g)), ("top", along, self._loops(0, self.k)))
        for layer, width in (("edge", LOOP + 0.06), ("loop", LOOP)):
            for part, places, loops in plait:
                if places:
                    made = partial(self._plait, width, loops)
                    yield Use(self._repeated(f"{part}-{layer}", (), places, made), x, y, inks[layer])

    def _repeated(
        self, part: str, key: Hashable, along: tuple[int, ...], items: Callable[[], tuple[Item, ...]]
    ) -> str:
        """A whole row of a ``part`` of its clusters, at places ``along`` it in half pitches."""
        lies = (self.laid.quarters, self.laid.scale, key)
        one = self.cloth.define(part, lies, items)
        return self.cloth.define(
            f"row-{part}", (lies, along), lambda: tuple(Use(one, *self.offset(place, 0.0), INK) for place in along)
        )

    # ------------------------------------------------------------------------------------------------- clusters

    def _strands(self, first: bool, rank: int) -> list[Strand]:
        """The strands of a cluster that lie equally far from its middle, the outermost (0) behind all others."""
        heads = [(index - (self.k - 1) / 2) * self.room for index in range(self.k)]
        gather, foot = (FIRST_GATHER, FIRST_FOOT) if first else (GATHER, FOOT)
        thin, wide = THIN * self.room, WIDE * self.room
        return [
            Strand((head * gather, foot), (head, HEAD), thin, wide)
            for head in dict.fromkeys((heads[rank], heads[-1 - rank]))
        ]

    def _fan(self, first: bool, rank: int, layer: str) -> tuple[Item, ...]:
        return tuple(self._layer(strand, layer) for strand in self._strands(first, rank))

    def _layer(self, strand: Strand, layer: str) -> Item:
        """One layer of a strand, in the ink of its use."""
        place = self.offset
        match layer:
            case "edge":
                outline = tuple(strand.outline(place))
                return Path(outline, fill=INK, stroke=INK, width=rounded(2 * self.line))
            case "body":
                return Path(tuple(strand.outline(place)), fill=INK)
            case "shade":
                return Path(tuple(strand.side(place, 0.34 * self.shaded)), fill=INK)
            case "ply":
                return Path(tuple(strand.ply(place)), stroke=INK, width=self.line, cap="butt")
        return Path(tuple(strand.gleam(place, -0.45 * self.shaded)), stroke=INK, width=rounded(2.4 * self.line))

    def _shadow(self) -> Item:
        """The dark of the gap that the feet of a cluster go into."""
        wide = 0.8 * self.room * self.k * GATHER
        around = [(math.cos(turn * math.pi / 4), math.sin(turn * math.pi / 4)) for turn in range(8)]
        return Path(tuple(smooth([self.offset(wide * x, -0.99 + 0.13 * y) for x, y in around])), fill=INK)

    def _gaps(self, row: Row, along: tuple[int, ...]) -> tuple[int, ...]:
        """The clusters of a row (there or not) that have chains at their right."""
        if not self.g:
            return ()
        before = (along[0] - 2,) if row.left.kind == "spaced" else ()
        return (*before, *(along if row.right.kind == "spaced" else along[:-1]))

    def _foundation(self, row: Row, inks: dict[str, str]) -> Iterator[Use]:
        """The loops of the chain below row 1."""
        wide = row.right.at - row.left.at
        x, y = self.cloth.table.px(self.laid.at(row.left.at, 0))
        loops = [(index + 0.5) * self.room for index in range(round(wide / self.room))]
        for layer, width in (("edge", LOOP + 0.06), ("body", LOOP)):
            key = (self.laid.quarters, self.laid.scale, wide)
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

    def _edge_stitches(self, row: Row, inks: dict[str, str]) -> Iterator[Use]:
        """The stitch at both ends of a row; it leans where the edge does."""
        for side in SIDES:
            at = row.edge(side).at
            lean = foot_of(self.laid, row, side) - at
            inwards = 1 if side == "left" else -1
            x, y = self.cloth.table.px(self.laid.at(at, row.number))
            extra = not self.g and row.edge(side).kind == "spaced"
            shape = (lean, inwards, extra, row.number == 1)
            for layer in LAYERS:
                key = (self.laid.quarters, self.laid.scale, shape)
                made = partial(self._edge_stitch, *shape, layer)
                yield Use(self.cloth.define(f"edge-stitch-{layer}", key, made), x, y, inks[layer])

    def _edge_stitch(self, lean: int, inwards: int, extra: bool, first: bool, layer: str) -> tuple[Item, ...]:
        """The edge stitch, and in the closed fabric the ``extra`` one beside it."""
        wide, foot = WIDE * self.room, FIRST_FOOT if first else -1.1
        insides = (wide, wide + self.room) if extra else (wide,)
        strands = [
            Strand((lean + inwards * wide, foot), (inwards * inside, HEAD), 0.8 * wide, wide)
            for inside in reversed(insides)
        ]
        return tuple(self._layer(strand, layer) for strand in strands)
