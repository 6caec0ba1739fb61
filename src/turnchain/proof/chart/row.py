"""One row of the picture worked, symbol by symbol.

In: a row of the picture and the row below as worked, or the foundation. Out: the row as worked (``Tops``), with the x
of every stitch; ``Unworkable`` where it cannot be worked, ``UnreadableChart`` where its symbols make no row.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from itertools import pairwise

from turnchain.proof.chart.feet import Feet, Groups
from turnchain.proof.chart.lines import Line, Tops
from turnchain.proof.chart.marks import ChartSymbol, Point, UnreadableChart
from turnchain.proof.chart.solid import solid_row
from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import SPACES, Below, Craft, OnChain, WorkedInto, WorkedRow, refuse

#: How far a dc on a chain may lean from where it should, as a share of the distance of two chains: to one side, and to
#: another side than its neighbours in a cluster, whose leans are drawn rounded.
ASIDE, UNEVEN = 0.03, 0.07


def worked_row(craft: Craft, line: Line, below: Tops | None, joined: bool, foundation: Sequence[Point]) -> Tops:
    """The row ``line``, worked into the row ``below`` (None: row 1, on the ``foundation``, the places of its chains in
    px); ``joined``: with its yarn joined anew. Raises Unworkable or UnreadableChart."""
    if line.kind != "cluster":
        return solid_row(line, below, joined, foundation)
    gaps = _gaps(line)
    joined_start = craft.counts and line.start_leg is not None
    turning = craft.turning + (-1 if joined_start else gaps[0] if craft.counts else 0)
    feet = Feet(line, below, joined, foundation, turning, craft.own)
    _check_ovals(line, gaps, feet)
    row = _Row(craft, line, gaps, feet, joined, len(foundation) if below is None else len(line.chain))
    return Tops(row.worked(), line, row.xs)


# ------------------------------------------------------------------------------------------- the chains of the row


def _gaps(line: Line) -> list[int]:
    """The chains before each dc: the first counts from the turning chain."""
    tops = [line.post.head[0], *(mark.head[0] for mark in line.dcs)]
    ovals = [mark.head[0] for mark in line.ovals]
    found = []
    for one, other in pairwise(tops):
        first = bisect_right(ovals, line.along(one), key=line.along)
        found.append(bisect_left(ovals, line.along(other), key=line.along) - first)
    return found


def _check_ovals(line: Line, gaps: list[int], feet: Feet) -> None:
    """Whether every chain lies between two stitches, or leads to the turning chain."""
    over = len(line.ovals) - sum(gaps)
    over += 0 if feet.on_chain and feet.below is not None else len(line.chain)
    if over:
        raise UnreadableChart(f"row {line.level}: {over} chains that lie between no stitches")
    feet.check_led([mark.head[0] for mark in line.chain], "chains")


# ------------------------------------------------------------------------------------------------ the stitches


class _Row:
    """Works one row; ``chains`` hang before it, if it begins on a chain."""

    def __init__(self, craft: Craft, line: Line, gaps: list[int], feet: Feet, joined: bool, chains: int) -> None:
        self.craft, self.line, self.gaps, self.feet = craft, line, gaps, feet
        self.xs: list[float | None] = []
        below = feet.below.row if feet.below else None
        self.work = RowInWork(craft, below, chains + feet.turning if feet.on_chain else 0, joined)

    def worked(self) -> WorkedRow:
        """The row, worked from its symbols."""
        start, over = self._start(), self.feet.over(self.line.start_leg)
        self._put([self.line.post.head[0]], lambda: self.work.edge(start, self.feet.turning, over))
        places = self.feet.places()
        first = 0
        count = len(places)
        for last in Groups(self.craft, self.line, self.gaps, start, places, self.feet.below is None).ends():
            if first == 0 and self._completes(places[:last]):
                begun = [] if self.work.bare_start else [self.line.post.head[0]]  # it becomes a stitch of the cluster
                heads = [*begun, *(mark.head[0] for mark in self.line.dcs[:last])]
                self._put(heads, lambda stop=last: self.work.complete(places[:stop]))  # type: ignore[misc]
            else:
                self._group(places[first:last], first, last == count and not self._ends_on_cluster(places[first:]))
            first = last
        row = finished(self.work, self.line.level)
        refuse(len(row.spots) != len(self.xs), "stitches and spaces that do not belong together")
        return row

    def _completes(self, places: list[WorkedInto]) -> bool:
        """Whether the first stitches make a cluster with the turning chain."""
        if self.work.lacking:
            return True
        closed = self.craft.bare and not self.craft.gap
        return closed and len(places) == self.craft.cluster - 1

    def _ends_on_cluster(self, places: list[WorkedInto]) -> bool:
        """Whether the last stitches of the row are a cluster, and so its edge."""
        if not self.craft.bare or len(places) != self.craft.cluster:
            return False
        (last,) = {*places[-1:]}
        if self.craft.cluster > 1:
            return True
        if isinstance(last, OnChain):  # the only stitch beside the turning chain
            return not self.work.places
        return self.work.walk[last.index].what == "space"

    def _put(self, xs: Sequence[float], put: Callable[[], None]) -> None:
        """Works something, and keeps the x of the stitches it makes."""
        spots = self.work.spots
        before, last = len(spots), spots[-1] if spots else None
        put()
        if before and spots[before - 1] is not last:  # a second extra dc stands before the slit that the first made
            before -= 1
        del self.xs[before:]
        left = list(xs)
        for spot in spots[before:]:
            self.xs.append(None if spot.what in SPACES else left.pop(0))

    def _start(self) -> WorkedInto:
        """What the turning chain stands on, once slip stitches have led there."""
        dots, feet = self.line.dots, self.feet
        refuse(feet.on_chain and feet.below is not None and dots, "slip stitches and a new chain in one row")
        place = feet.start()
        if dots and isinstance(place, Below):
            feet.check_led([dot.head[0] for dot in dots], "slip stitches")
            self._slip(place.index, len(dots))
        return place

    def _slip(self, target: int, dots: int) -> None:
        """As many slip stitches as the picture has dots, into stitch after stitch up to ``target``."""
        work, made = self.work, 0
        for nth in range(1, target + 1):
            spot = work.walk[nth]
            if spot.what == "half":
                continue
            into_slit = spot.what == "space" and not spot.chains
            if into_slit and nth != target:
                continue
            if spot.what == "extra" and nth + 1 == target and work.walk[target].chains == 0 and dots == 1:
                continue
            chains = max(1, spot.chains)
            if nth == target:  # of the chains in a cluster up to the middle one, of a space the first
                chains = (chains + 1) // 2 if spot.what == "inner" else 1
            work.slip(nth)
            for _ in range(chains - 1):
                work.slip_chain(nth)
            made += chains
        refuse(made != dots, f"{dots} slip stitches, where {made} lead to the turning chain")

    def _group(self, places: list[WorkedInto], first: int, last: bool) -> None:
        """Works the dc that belong together, after the gap before them."""
        heads = [mark.head[0] for mark in self.line.dcs[first : first + len(places)]]
        whole = len(places) > 1 and (self.craft.stacked or len(set(places)) == 1)  # all of them in one chain
        if places and isinstance(places[0], OnChain) and not whole:
            self._check_upright(self.line.dcs[first : first + len(places)])
        apart = not self.craft.counts or self.line.start_leg is not None
        if self.gaps[first] and (first or apart):  # else they are part of the turning chain
            self._put([], lambda: self.work.gap(self.gaps[first]))
        extra = len(places) == 1 and not self.craft.single and not self.craft.gap
        if self.craft.stacked and not last and not extra:
            self._unit(places, first, heads)
            return
        if last:
            self._put(heads, lambda: self.work.end(places[0], self.feet.over(self.line.end_leg)))
        elif extra:
            self._put(heads, lambda: self.work.extra(places[0]))
        else:
            self._check_evenly(heads)
            self._put(heads, lambda: self.work.cluster(places))

    def _check_upright(self, dcs: Sequence[ChartSymbol]) -> None:
        """Whether dc on chains of their own stand as they should: one straight up, the feet of a cluster as far apart
        as each other and about the same middle as its heads."""
        heads, feet = [mark.head[0] for mark in dcs], [mark.foot[0] for mark in dcs]
        aside = abs(heads[0] + heads[-1] - feet[0] - feet[-1])
        apart = [abs(b - a) for a, b in pairwise(feet)]
        if aside > ASIDE * self.feet.apart or (apart and max(apart) - min(apart) > UNEVEN * max(apart)):
            raise UnreadableChart(f"row {self.line.level}: a dc that leans otherwise than its neighbours on the chain")

    def _unit(self, places: list[WorkedInto], first: int, heads: list[float]) -> None:
        """A cluster in the middle of one, or in one chain."""
        inner = self.gaps[first + 1 : first + len(places)]
        wanted = [self.craft.inner if nth + 1 == len(places) // 2 else 0 for nth in range(len(inner))]
        refuse(inner != wanted or any(one != places[0] for one in places), "a cluster that is not as the key has it")
        self._put(heads, lambda: self.work.unit(places[0]))

    def _check_evenly(self, heads: list[float]) -> None:
        """Whether the dc of a cluster have their heads side by side, one as far from the next as all others."""
        apart = [abs(b - a) for a, b in pairwise(heads)]
        if apart and max(apart) - min(apart) > 0.2 * max(apart):
            raise UnreadableChart(f"row {self.line.level}: a cluster whose dc do not stand side by side")
