"""Stitches as drawn definitions: each distinct symbol, cluster, run of clusters and row stated once.

In: the grid and the sheet. Out: definitions for the scene, and the name of the definition for any row. A
definition's origin is the head of its stitch; a row's is the head of its left post.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path as FilePath

from turnchain.drawing import glyphs
from turnchain.drawing.folds import NO_FOLDS
from turnchain.drawing.sheet import Sheet
from turnchain.fabric.grid import Grid, Into, RowStitches, Symbol
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.scene import INK, Item, Use

# Heights within a row, as shares of the row height, counted down from its top.
HEAD = 0.1  # the heads of the dc
CHAIN = 0.13  # the chains between clusters
IN_SPACE = 0.93  # feet in a space: just above the row below
IN_STITCH = 1.06  # feet in a stitch: on its head
STEP_CHAIN = 0.94  # a chain made for a step out, under its own row's stitches
ON_CHAIN = 1.0  # feet of row 1, on the foundation chain

BAR = 0.74  # length of a dc's bar over the distance from one stitch to the next
OVAL = 0.44  # length of a chain oval in half pitches
LEANS = 100  # leans are told apart to a hundredth of a half pitch

# Clusters alike are stated together where there are so many of them, and runs of runs of so many.
LEAST_RUN = 16
FOLD = 4

_BOX = {"dc": 10.0, "ch": 9.0, "sl_st": 6.8}  # drawn width of each symbol in the units of its box


class Definitions:
    """Definitions made so far, in the order in which they were first needed."""

    def __init__(
        self, grid: Grid, sheet: Sheet, folder: FilePath | None = None, prefix: str = "", runs: bool = True
    ) -> None:
        self.grid, self.sheet, self.prefix = grid, sheet, prefix
        self.runs = runs and sheet.folds == NO_FOLDS  # whether clusters alike may stand together as runs
        self.made: dict[str, tuple[Item, ...]] = {}
        self._symbols = {name: glyphs.load(name, folder) for name in ("dc", "ch", "sl_st")}
        self._rows: dict[bytes, str] = {}
        self._groups: dict[tuple[Use, ...], str] = {}

    def row(self, row: Row) -> str:
        """The definition of a row, relative to its left post's head; rows worked alike share one."""
        stitches = self.grid.row(row)
        places = array("f", [at - row.left.at for at in (*stitches.head, *stitches.foot)])
        key = stitches.symbol.tobytes() + stitches.into.tobytes() + places.tobytes()
        if key not in self._rows:
            self._rows[key] = name = f"{self.prefix}row-{len(self._rows) + 1}"
            self.made[name] = self._row_items(row, stitches)
        return self._rows[key]

    def _row_items(self, row: Row, stitches: RowStitches) -> tuple[Item, ...]:
        """Uses of the stitches' definitions, from the left; the dc worked into one place are one use, and so are
        many clusters alike."""
        run = alike_of(stitches, self.grid) if self.runs else None
        apart = range(len(stitches)) if run is None else [*range(run.first), *range(run.stop, len(stitches))]
        uses = [] if run is None else self._run_uses(row, stitches, run)
        lead = _lead(stitches)
        for group in _one_place_each(stitches, apart):
            symbol = Symbol(int(stitches.symbol[group[0]]))
            heads = sorted(float(stitches.head[place]) for place in group)
            if self.folded(row, heads[len(heads) // 2], of_cluster=symbol is Symbol.DC):
                continue
            foot, into = float(stitches.foot[group[0]]), Into(int(stitches.into[group[0]]))
            if symbol is Symbol.DC:
                name = self.together(foot, heads, into)
            elif symbol is Symbol.TURNING_CHAIN:
                name = self.turning_chain(foot - heads[0], into, self.grid.start_gap(row))
            elif symbol is Symbol.SLIP_STITCH:
                name = self.slip_stitch()
            else:
                name = self.chain() if group[0] > lead else self.step_chain()
            origin = self.sheet.x(heads[len(heads) // 2]) - self.sheet.x(row.left.at)
            uses.append(Use(name, rounded(origin), 0.0, INK))
        return tuple(sorted(uses, key=lambda use: use.x))

    def _run_uses(self, row: Row, stitches: RowStitches, run: Alike) -> list[Use]:
        """The clusters of ``run`` as few uses: as many of the longest runs as there is room for, then shorter ones."""
        heads = sorted(stitches.head[run.cluster])
        origin, foot = heads[len(heads) // 2], float(stitches.foot[run.cluster][0])
        cluster = self.together(foot, heads, Into.SPACE)
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
            return [(cluster, 0.0), *((self.chain(), gap) for _ in range(self.grid.g))]
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
        """Whether a stitch of ``row`` is left out; one ``of_cluster`` goes with all of its cluster."""
        if of_cluster:
            first = (row.number + self.grid.piece.phase) % 2
            head = 2 * round((head - first) / 2) + first
        return self.sheet.folds.hides(head)

    def together(self, foot: float, heads: list[float], into: Into) -> str:
        """The dc worked into one place, about the head of the middle one: a cluster, or a post with a dc
        beside it."""
        origin = heads[len(heads) // 2]
        uses = tuple(
            Use(self.dc(foot - head, into), rounded((head - origin) * self.sheet.half), 0.0, INK) for head in heads
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

    def dc(self, lean: float, into: Into) -> str:
        """One dc whose foot lies ``lean`` half pitches right of its head."""
        name = f"{self.prefix}dc{_suffix(lean, into)}"
        if name not in self.made:
            half, rise = self.sheet.half, self.sheet.rise
            foot = (lean * half, self._foot_height(into) * rise)
            across = BAR * self.grid.pace * half / _BOX["dc"]
            self.made[name] = glyphs.place(
                self._symbols["dc"], foot, (0.0, HEAD * rise), self.sheet.stroke, across
            )
        return name

    def chain(self) -> str:
        """One chain, lying."""
        name = f"{self.prefix}ch"
        if name not in self.made:
            self.made[name] = self._oval(0.0, CHAIN * self.sheet.rise, 1.0, 0.0, OVAL * self.sheet.half)
        return name

    def step_chain(self) -> str:
        """One chain of a step out, at the foot of its row."""
        name = f"{self.prefix}ch-step"
        if name not in self.made:
            length = min(OVAL, 0.86 * self.grid.pace) * self.sheet.half
            self.made[name] = self._oval(0.0, STEP_CHAIN * self.sheet.rise, 1.0, 0.0, length)
        return name

    def foundation_chain(self) -> str:
        """One chain of the foundation, as wide as its place."""
        name = f"{self.prefix}ch-foundation"
        if name not in self.made:
            length = min(OVAL, 0.86 * self.grid.pace) * self.sheet.half
            self.made[name] = self._oval(0.0, 0.0, 1.0, 0.0, length)
        return name

    def foundation(self) -> list[Use]:
        """The chains that row 1 stands on, below its band; folded columns are left out."""
        first, y = self.grid.piece.rows[0], rounded(self.sheet.ground + max(2.0, 0.2 * self.sheet.rise))
        places = sorted(float(place) for place in self.grid.foundation())
        kept = [place for place in places if not self.folded(first, place)]
        return [Use(self.foundation_chain(), rounded(self.sheet.x(place)), y, self.sheet.theme.ink) for place in kept]

    def _oval(self, x: float, y: float, dx: float, dy: float, length: float) -> tuple[Item, ...]:
        """A chain oval about (x, y), ``length`` px along the unit vector (dx, dy)."""
        symbol = self._symbols["ch"]
        reach = length / _BOX["ch"] * 5  # from the middle to either anchor
        foot, head = (x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach)
        return glyphs.place(symbol, foot, head, self.sheet.stroke)

    def slip_stitch(self) -> str:
        """One slip stitch, on the top of the row below."""
        name = f"{self.prefix}sl-st"
        if name not in self.made:
            y, size = self.sheet.rise * 0.94, 0.1 * self.sheet.half
            self.made[name] = glyphs.place(
                self._symbols["sl_st"], (0.0, y + size), (0.0, y - size), self.sheet.stroke
            )
        return name

    def turning_chain(self, lean: float, into: Into, gap: float) -> str:
        """Three stacked chains from foot to head and, where the row starts spaced in the open fabric, the chain
        of the gap, ``gap`` half pitches on (0 where there is none)."""
        side = "" if not gap else ("-gap-right" if gap > 0 else "-gap-left")
        name = f"{self.prefix}turning-chain{_suffix(lean, into)}{side}"
        if name not in self.made:
            self.made[name] = self._stacked(lean, into) + self._gap_chain(gap)
        return name

    def _stacked(self, lean: float, into: Into) -> tuple[Item, ...]:
        half, rise = self.sheet.half, self.sheet.rise
        foot_y, head_y = self._foot_height(into) * rise, (HEAD - 0.03) * rise
        foot_x = lean * half
        length = ((foot_x) ** 2 + (foot_y - head_y) ** 2) ** 0.5
        dx, dy = -foot_x / length, (head_y - foot_y) / length
        slot = length / 3
        ovals: tuple[Item, ...] = ()
        for nth in range(3):
            along = slot * (nth + 0.5)
            ovals += self._oval(foot_x + dx * along, foot_y + dy * along, dx, dy, slot * 0.9)
        return ovals

    def _gap_chain(self, gap: float) -> tuple[Item, ...]:
        if not gap:
            return ()
        return self._oval(gap * self.sheet.half, CHAIN * self.sheet.rise, 1.0, 0.0, OVAL * self.sheet.half)


@dataclass(frozen=True, slots=True)
class Alike:
    """Stitches of a row, from number ``first`` and before ``stop``, that are so many ``clusters`` alike, each with the
    chain of the gap at its right; ``cluster`` are the dc of the leftmost."""

    first: int
    stop: int
    clusters: int
    cluster: slice


def alike_of(stitches: RowStitches, grid: Grid) -> Alike | None:
    """The longest run of clusters alike in a row, but for the outermost two; None where it is short."""
    k, pitch = grid.k, grid.k + grid.g
    if len(stitches) < (LEAST_RUN + 2) * pitch:
        return None
    rightwards = stitches.head[-1] > stitches.head[0]
    way = slice(None) if rightwards else slice(None, None, -1)
    symbol, into, target = stitches.symbol[way], stitches.into[way], stitches.target[way]
    head, foot = stitches.head[way], stitches.foot[way]
    same = [
        symbol[at + pitch] == symbol[at]
        and into[at + pitch] == into[at]
        and abs(head[at + pitch] - head[at] - 2) < 1 / LEANS
        and abs(foot[at + pitch] - foot[at] - 2) < 1 / LEANS
        for at in range(len(stitches) - pitch)
    ]
    begin, end = _longest(same)
    end += pitch
    # a cluster begins where k dc stand in one place, and other stitches before them
    fans = [
        at
        for at in range(begin + 1, min(begin + 2 * pitch, end - k))
        if all(one == Symbol.DC for one in symbol[at : at + k])
        and all(one == Into.SPACE for one in into[at : at + k])
        and all(one == target[at] for one in target[at : at + k])
        and (symbol[at - 1] != Symbol.DC or target[at - 1] != target[at])
    ]
    clusters = (end - fans[0]) // pitch - 2 if fans else 0
    if clusters < LEAST_RUN:
        return None
    first = fans[0] + pitch
    stop = first + clusters * pitch
    if rightwards:
        return Alike(first, stop, clusters, slice(first, first + k))
    whole = len(stitches)
    return Alike(whole - stop, whole - first, clusters, slice(whole - first - k, whole - first))


def _longest(flags: list[bool]) -> tuple[int, int]:
    """Where the longest stretch of true ``flags`` begins and ends, the first of those alike; (0, 0) where none is."""
    longest, at = (0, 0), 0
    for flag, stretch in groupby(flags):
        length = sum(1 for _ in stretch)
        if flag and length > longest[1] - longest[0]:
            longest = (at, at + length)
        at += length
    return longest


def _lead(stitches: RowStitches) -> int:
    """The number of the turning chain: chains before it carry a step out."""
    return stitches.symbol.index(Symbol.TURNING_CHAIN)


def _one_place_each(stitches: RowStitches, apart: Iterable[int]) -> list[list[int]]:
    """The stitches with the numbers ``apart``, those dc together that follow each other into one place."""
    groups: list[list[int]] = []
    last: tuple[int, int] | None = None
    symbols, intos, targets = stitches.symbol, stitches.into, stitches.target
    for place in apart:
        here = (intos[place], targets[place]) if symbols[place] == Symbol.DC else None
        if here is not None and here == last:
            groups[-1].append(place)
        else:
            groups.append([place])
        last = here
    return groups


def _suffix(lean: float, into: Into) -> str:
    """A readable ending that tells leans and feet apart: "-left-50" has its foot 0.50 half pitches to the left."""
    hundredths = round(lean * LEANS)
    words = f"-{'left' if hundredths < 0 else 'right'}-{abs(hundredths)}" if hundredths else ""
    if into in (Into.FOUNDATION, Into.OWN_CHAIN):
        return f"{words}-on-chain"
    return words if into is Into.SPACE else f"{words}-in-stitch"
