"""Single stitches as drawn definitions: each distinct symbol, and those worked into one place, stated once.

In: the grid and the sheet. Out: definitions for the scene, their origin the head of the stitch. ``definitions`` makes
rows of them.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Sequence
from pathlib import Path as FilePath

from turnchain.drawing import glyphs
from turnchain.drawing.alike import LEANS
from turnchain.drawing.folds import NO_FOLDS
from turnchain.drawing.sheet import STRIP, Sheet, row_rise
from turnchain.fabric.grid import Grid, Into
from turnchain.fabric.lattice import Side
from turnchain.fabric.library import stitch_of
from turnchain.fabric.order import CLUSTERS
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
SLIP_STITCH = 0.89  # slip stitches, on a strip of their own above the row below
TOP = 0.07  # where a turning chain ends

# Widths, as shares of the room of a stitch or in half pitches.
BAR = 0.46  # length of a dc's bar over the distance from one stitch to the next
MOST_ROOM = 0.62  # half pitches: bars and slashes grow no more where stitches stand farther apart
OPEN_FAN, CLOSED_FAN = 0.94, 0.90  # how far the heads of a cluster stand apart, over the room they have
OVAL = 0.43  # length of a chain oval in half pitches
ON_FOUNDATION = 0.92  # length of a chain oval of the foundation over its room
MOST_FOUNDATION = 0.7  # half pitches: it is no longer than that
FORM = 9.0 / 3.8  # length of a chain oval over its height
SHORTEST = 1.2  # the least of that
STANDING = 1.9  # the same of the ovals of a turning chain, which stay open when small
DOT = 0.17  # a slip stitch across, in half pitches
OUTER = 0.84  # stroke of a cluster's outer dc over that of the others, in clusters of three and more
LOWERED = 0.10  # how much nearer the foot the outermost slashes stand in clusters of four and more

#: Drawn width of each symbol in the units of its box.
_BOX = {"sc": 8.0, "hdc": 10.0, "dc": 10.0, "tr": 10.0, "ch": 9.0, "sl_st": 6.8}
ALONG = "-along-armhole"  # what the names of stitches end in that are worked into an armhole
LEANING_SC, FAR = "sc_leaning", 1.2  # half pitches: a cross that leans more
CLEAR = 1.4  # a turning chain beside such a stitch stands so much farther out
MOST_IN_KEY = 0.55  # half pitches: no stitch in the key leans more
CROSS, MOST_CROSS = 0.62, 1.15  # width of a sc's cross over the distance between stitches, and the most of that
NO_LEAN, WIDE = 1e-3, 6  # half pitches: leans that differ by less are one, in clusters of so many stitches and more
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


class StitchDefinitions:
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
        stitches = (self.rule.name, *grid.piece.recipe.order.solid, *(["sc"] if grid.piece.picked_up else []))
        leaning = [LEANING_SC] if grid.piece.recipe.table.joins and self.rule.name == "sc" else []
        self._symbols = {name: glyphs.load(name, folder) for name in (*stitches, *leaning, "ch", "sl_st")}
        self._leans: dict[str, float] = {}  # by what leans and the short ending that says so
        self._groups: dict[tuple[Use, ...], str] = {}
        self._together: dict[Hashable, str] = {}

    def turn_to(self, kind: str) -> None:
        """From here on stitches are defined as those of a row of this ``kind`` are drawn."""
        piece = self.grid.piece
        self.rule, self.rise = piece.recipe.rule(kind), row_rise(piece, kind, self.sheet.rise)
        self.ending = "" if kind == CLUSTERS else f"-of-{kind}"

    @property
    def squeeze(self) -> float:
        """How far the heads of a cluster are drawn apart, as a share of the room they have."""
        return CLOSED_FAN if self.grid.closed else OPEN_FAN

    def joined(self) -> str:
        """The name of two stitches joined at the top, for the key."""
        name = f"{self.prefix}joined"
        if name not in self.made:
            lean = min(self.grid.pace / 2, MOST_IN_KEY)
            uses = (Use(self.dc(Stem(one), Into.STITCH, joined=True), 0.0, 0.0, INK) for one in (-lean, lean))
            self.made[name] = tuple(uses)
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
        leans, offs = tuple([foot - head for head in heads]), tuple([head - origin for head in heads])
        key = self.ending, into, leans, offs, tuple(outs or [0.0] * len(heads))
        if key not in self._together:  # most clusters of a row are alike
            self._together[key] = self._group(*key[1:])
        return self._together[key]

    def _group(self, into: Into, leans: Sequence[float], offs: Sequence[float], outs: Sequence[float]) -> str:
        """The name of dc that lean so far from their feet, their heads so far from the middle one's."""
        uses = tuple(
            Use(self.dc(Stem(lean, out), into), rounded(off * self.sheet.half), 0.0, INK)
            for lean, off, out in zip(leans, offs, outs, strict=True)
        )
        if len(uses) == 1:
            return uses[0].name
        if uses not in self._groups:
            kind = "cluster" if len(uses) == self.grid.k else "dc-together"
            self._groups[uses] = name = f"{self.prefix}{kind}-{len(self._groups) + 1}"
            self.made[name] = uses
        return self._groups[uses]

    def _foot_height(self, into: Into) -> float:
        if into is Into.SPACE:
            return IN_SPACE
        return ON_CHAIN if into in (Into.FOUNDATION, Into.OWN_CHAIN) else IN_STITCH

    def _suffix(self, what: str, lean: float, into: Into) -> str:
        """A readable ending, one for each lean and kind of foot: "-left-50" has its foot 0.50 half pitches to the left;
        of leans of ``what`` that differ by less than that shows, only the first is so short. In narrower clusters,
        whose stitches stand farther apart, they are one."""
        place = "" if into is Into.SPACE else "-in-stitch"
        if into in (Into.FOUNDATION, Into.OWN_CHAIN):
            place = "-on-chain"
        hundredths = round(lean * LEANS)
        words = f"-{'left' if hundredths < 0 else 'right'}-{abs(hundredths)}" if hundredths else ""
        first = self._leans.setdefault(what + words + place, lean)
        if self.grid.k >= WIDE and abs(first - lean) > NO_LEAN:
            words = f"-{'left' if lean < 0 else 'right'}-{abs(lean * LEANS):.2f}".replace(".", "-")
        return words + place

    def dc(self, stem: Stem, into: Into, joined: bool = False) -> str:
        """The name of one dc about its head; ``joined`` there with another. Of a cross that is, or that leans far, only
        a stem with a stroke across it is drawn: its arms would not be told apart."""
        outer, lowered = stem.out > 0.99, LOWERED * stem.out if self.grid.k > 3 else 0.0
        stitch, ending = self.rule.name, f"{'-outer' if outer else ''}{self.ending}"
        leaning = LEANING_SC in self._symbols and (joined or abs(stem.lean) > FAR)
        symbol = LEANING_SC if leaning else stitch
        name = f"{self.prefix}{symbol}{self._suffix(symbol + ending, stem.lean, into)}{ending}"
        if name not in self.made:
            half, rise = self.sheet.half, self.rise
            foot = (stem.lean * half, self._foot_height(into) * rise)
            across = head_width(stitch, self.grid.pace) * half / _BOX[stitch]
            thick = rounded(self.sheet.stroke * (OUTER if outer else 1.0))
            self.made[name] = glyphs.stand(self._symbols[symbol], foot, (0.0, HEAD * rise), thick, across, lowered)
        return name

    def sc_below(self) -> str:
        """The name of one single crochet along an armhole, its head the foot of row 1."""
        self.rule, self.rise, self.ending = stitch_of("sc"), round(self.sheet.strip * self.sheet.rise), ALONG
        name = self.dc(Stem(0.0), Into.FOUNDATION)
        self.turn_to(CLUSTERS)
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

    def _foundation_chain(self, room: float) -> str:
        """One chain of the foundation, as long as its ``room`` (half pitches) lets it be."""
        name = f"{self.prefix}ch-foundation-{round(100 * room)}"
        if name not in self.made:
            self.made[name] = self._lying(0.0, 0.0, min(ON_FOUNDATION * room, MOST_FOUNDATION))
        return name

    def _lying(self, x: float, y: float, length: float) -> tuple[Item, ...]:
        """A chain oval about (x, y), ``length`` half pitches long; as high as any other that has the room."""
        long, high = length * self.sheet.half, min(OVAL / FORM, length / SHORTEST) * self.sheet.half
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
        short = "-joined" if joined else ""
        ending = f"{side}{apart}{short}{self.ending}"
        name = f"{self.prefix}turning-chain{self._suffix('turning-chain' + ending, lean, into)}{ending}"
        if name not in self.made:
            lying = [self._lying(gap * self.sheet.half, CHAIN * self.sheet.rise, OVAL) for gap in gaps]
            standing = self._beside(lean, into, starts, joined) if apart else self._stacked(lean, into, many)
            self.made[name] = standing + tuple(item for items in lying for item in items)
        return name

    def _beside(self, lean: float, into: Into, starts: Side, joined: bool) -> tuple[Item, ...]:
        """The edge stitch of a row that ``starts`` at a side, and outside it the chains that do not count."""
        stitch = self.dc(Stem(lean), into, joined)
        out = (-1 if starts == "left" else 1) * min(max(BESIDE * self.grid.pace, 0.3), 0.5) * self.sheet.half
        out *= CLEAR if abs(lean) > FAR else 1  # the line along a shaped edge lies between
        return (Use(stitch, 0.0, 0.0, INK), *self._stacked(lean, into, self.rule.turning, out))

    def _stacked(self, lean: float, into: Into, many: int, out: float = 0.0) -> tuple[Item, ...]:
        """So ``many`` ovals of a turning chain end to end, ``out`` px to the right of the way they lead, square to it.
        They keep their form, however high the row is drawn; a single one is half as long as the row is high."""
        half, rise = self.sheet.half, self.rise
        foot_y, head_y = self._foot_height(into) * rise, TOP * rise
        foot_x = lean * half
        length = math.hypot(foot_x, foot_y - head_y)
        way = (-foot_x / length, (head_y - foot_y) / length)
        slot = (foot_y - head_y if out else length) / max(many, 2)  # those beside a stitch need not reach all its way
        begin = (length - many * slot) / 2
        long = slot - 0.35 * self.sheet.stroke
        ovals: tuple[Item, ...] = ()
        for nth in range(many):
            along = begin + slot * (nth + 0.5)
            middle = (foot_x - out * way[1] + way[0] * along, foot_y + out * way[0] + way[1] * along)
            ovals += self._oval(middle, way, long, long / STANDING)
        return ovals
