"""What a foot stands on, and which dc belong together.

In: a row of the picture, and what lies under it: the row below as worked, or the chains of the foundation. Out: the
place of each foot, in the order worked, and where each cluster, extra dc and edge stitch ends; ``Unworkable`` where
nothing lies under a foot.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from turnchain.proof.chart.lines import Line, Tops
from turnchain.proof.chart.marks import ChartSymbol, Point, UnreadableChart, between, length
from turnchain.proof.hook.stitches import SPACES, Below, Craft, OnChain, WorkedInto, refuse


class Feet:
    """The feet of ``line`` over the row ``below`` (None: on the ``foundation``, the places of its chains in px). The
    turning chain takes ``turning`` chains; ``own``: the first has a chain under it. ``on_chain``: the row begins on a
    chain of its own, row 1 on its foundation, any other on one that steps out."""

    def __init__(
        self, line: Line, below: Tops | None, joined: bool, foundation: Sequence[Point], turning: int, own: bool
    ) -> None:
        self.line, self.below, self.rise, self.turning, self.own = line, below, line.rise, turning, own
        self.spots = below.row.spots[::-1] if below else ()
        self.xs = below.xs[::-1] if below else []
        self.tops = [nth for nth, x in enumerate(self.xs) if x is not None]  # the stitches among the spots
        # from the outermost on, as they hang before the turning chain
        hung = [mark.head[0] for mark in line.chain] if below else [x for x, _ in foundation]
        self.chains = sorted(map(line.along, hung))
        self.apart = min((b - a for a, b in pairwise(self.chains)), default=0.0)
        self.on_chain = below is None or (not joined and self._steps_out(line.post.foot))

    def start(self) -> WorkedInto:
        """What the turning chain stands on. Raises Unworkable where nothing lies under its foot."""
        if not self.on_chain:
            place = self._place(self.line.post.foot)
            assert isinstance(place, Below), "only row 1 and steps out stand on chains"
            return place
        if not self.own and self.below is None:
            refuse(not self._at_boundary(self.line.post.foot), "a turning chain that does not stand beside the chain")
            return OnChain(self.turning)
        place = self._on_chain(self.line.post.foot)
        refuse(place.number != self.turning + 1, "a turning chain that does not stand on the last chain")
        return place

    def places(self) -> list[WorkedInto]:
        """What each dc of the row stands on, in the order worked. Raises Unworkable where nothing lies under one."""
        found: list[WorkedInto] = []
        last: Point | None = None
        for mark in self.line.dcs:
            same = last is not None and length(between(last, mark.foot)) < 0.05
            found.append(found[-1] if same else self._place(mark.foot))
            last = mark.foot
        return found

    def over(self, leg: ChartSymbol | None) -> WorkedInto | None:
        """What a stitch joined with an edge stitch stands on; None where there is none."""
        return None if leg is None else self._place(leg.foot)

    def _place(self, foot: Point) -> WorkedInto:
        if self.below is None:
            return self._on_chain(foot)
        deep = foot[1] - self.line.top - self.rise
        if self._at_boundary(foot):
            refuse(not (self.on_chain and self._outside(foot[0])), "a foot on a chain that is not there")
            return self._on_chain(foot)
        refuse(abs(deep) > 0.15 * self.rise, "a foot that does not reach the row below, or runs past it")
        return Below(self._space_at(foot[0]) if deep < 0 else self._stitch_at(foot[0]))

    def _at_boundary(self, foot: Point) -> bool:
        return abs(foot[1] - self.line.top - self.rise) < 0.03 * self.rise

    def _steps_out(self, foot: Point) -> bool:
        return self._at_boundary(foot) and self._outside(foot[0])

    def _outside(self, x: float) -> bool:
        assert self.below is not None, "row 1 has nothing to step out from"
        left, right = self.below.edges
        return not left - 1 <= x <= right + 1

    def _on_chain(self, foot: Point) -> OnChain:
        """The chain that a foot stands on, by its number from the hook: of the foundation, or of a step out."""
        x, chains = self.line.along(foot[0]), self.chains
        refuse(not chains, "a foot on a chain that is not there")
        found = bisect_left(chains, x)
        near = min(range(max(0, found - 1), min(len(chains), found + 1)), key=lambda nth: abs(chains[nth] - x))
        refuse(abs(chains[near] - x) > 0.4 * self.apart, "a foot between two chains")
        refuse(not self._at_boundary(foot), "a foot that does not stand on the chain")
        return OnChain(self.turning + 1 + near)

    # In the row below.

    def _along_of(self, nth: int) -> float:
        """Where the head of a stitch of the row below lies, growing in the direction of work."""
        x = self.xs[nth]
        assert x is not None, "a space has no head"
        return self.line.along(x)

    def _space_at(self, x: float) -> int:
        """The space between the two stitches that ``x`` lies between."""
        before = bisect_left(self.tops, self.line.along(x), key=self._along_of)
        refuse(not 0 < before < len(self.tops), "a foot beyond the row below")
        after = self.tops[before - 1] + 1
        refuse(self.spots[after].what not in SPACES, "it asks for a space that is not there")
        return after

    def _stitch_at(self, x: float) -> int:
        """The stitch whose head ``x`` lies at."""
        found = bisect_left(self.tops, self.line.along(x), key=self._along_of)
        around = self.tops[max(0, found - 2) : found + 2]
        near = sorted((abs(self._along_of(nth) - self.line.along(x)), nth) for nth in around)[:2]
        (one, nearest), (other, _) = near
        refuse(one >= 0.25 * (one + other), "a foot between two stitches of the row below")
        return nearest

    # From the old edge to the new one.

    def check_led(self, xs: list[float], what: str) -> None:
        """Raises UnreadableChart unless the symbols at ``xs`` (px), which lead from the old edge to the new one, lie
        side by side all the way; ``what`` names them in its text."""
        if not xs or self.below is None:
            return
        old, new = self._along_of(0), self.line.along(self.line.post.foot[0])
        places = sorted([old, *(self.line.along(x) for x in xs)])
        apart = [b - a for a, b in pairwise(places)]
        mean = abs(new - old) / len(xs)
        ends = max(abs(places[0] - min(old, new)), abs(places[-1] - max(old, new)))
        # slip stitches lie evenly; the chain of a gap at the edge has more room than one under a dc
        least, most, off = (0.9, 1.1, 0.2) if self.line.dots else (0.4, 3.2, 0.4)
        if min(apart) < least * mean or max(apart) > most * mean or ends > off * mean:
            raise UnreadableChart(f"row {self.line.level}: {what} that do not lead to the turning chain")


@dataclass(frozen=True, slots=True)
class Groups:
    """The dc of ``line``: the ``gaps`` (chains) before each and the ``places`` they stand on; ``start`` is what the
    turning chain stands on, ``first_row``: on the foundation."""

    craft: Craft
    line: Line
    gaps: Sequence[int]
    start: WorkedInto
    places: Sequence[WorkedInto]
    first_row: bool

    def ends(self) -> list[int]:
        """The number of dc up to the end of each group (a cluster, an extra dc, the edge stitch), rising."""
        count = len(self.places)
        ends: set[int] = {count, *([] if self._ends_on_cluster() else [count - 1])}
        for nth, (one, other) in enumerate(pairwise(self.places), start=1):
            alone = isinstance(one, Below) and one != other
            if self.gaps[nth] or alone or isinstance(one, OnChain) != isinstance(other, OnChain):
                ends.add(nth)
        if self.craft.stacked:
            return self._stacked_ends()
        return sorted((ends if self.craft.gap else ends | self._closed_ends()) - {0})

    def _ends_on_cluster(self) -> bool:
        """Whether no edge stitch stands at the end, but a cluster of several stitches: they stand in one place or, on
        the foundation, as far apart as the stitches of a cluster are."""
        k, places = self.craft.cluster, [self.start, *self.places]
        if not self.craft.bare or k == 1:
            return False
        if isinstance(places[-1], Below):
            return len(set(places[-k:])) == 1 and len(places) >= k
        if self.craft.gap:
            return not any(self.gaps[len(self.places) - k + 1 :])
        return self._fan_at(-1)

    def _fan_at(self, end: int) -> bool:
        """Whether, without chains between clusters, the stitches at the start (0) or end (-1) of row 1 are a cluster:
        nearer to each other than to the next one."""
        k, xs = self.craft.cluster, [self.line.post.head[0], *(mark.head[0] for mark in self.line.dcs)]
        apart = [abs(b - a) for a, b in pairwise(xs if end == 0 else xs[::-1])]
        if len(apart) < k:
            return len(apart) == k - 1
        return apart[k - 1] > 1.02 * apart[0]

    def _stacked_ends(self) -> list[int]:
        """Clusters of as many as the key has, between the extra dc of edges, each of which stands by itself."""
        k, count = self.craft.cluster, len(self.places)
        lead, trail = (self._extras_at(end) for end in (0, -1)) if self.craft.grouped else (0, 0)
        clusters = range(lead + k, count - trail, k)
        return [*range(1, lead + 1), *clusters, *range(count - trail, count + 1)]

    def _extras_at(self, end: int) -> int:
        """How many extra dc stand beside the edge stitch at the start (0) or end (-1): in its place or, on a chain, in
        the next ones, each by itself."""
        places = [self.start, *self.places] if end == 0 else [*self.places[::-1]]
        edge, others = places[0], places[1:]
        found = 0
        for nth, (one, after) in enumerate(pairwise(others), start=1):
            if isinstance(edge, OnChain):
                beside = isinstance(one, OnChain) and abs(one.number - edge.number) == nth and one != after
            else:
                beside = one == edge
            if not beside:
                return found
            found = nth
        return found

    def _closed_ends(self) -> set[int]:
        """In the closed fabric the dc on a chain stand side by side: every k make a cluster, an extra dc at an edge
        stands as far from the edge stitch as from its neighbour."""
        k, places = self.craft.cluster, self.places
        if self.craft.bare and not isinstance(self.start, OnChain):
            return {1} if self._first_run() == 1 and places[0] == self.start else set()
        if self.craft.bare:
            begun = self._fan_at(0)
            chained = sum(isinstance(place, OnChain) for place in places)
            return {1} - {begun} | set(range(k - 1 if begun else 1, chained, k)) | (
                {len(places) - 2} if self.first_row and not self._ends_on_cluster() else set()
            )
        if places and places[0] == self.start and self._first_run() != k:
            return {1}
        begin = 1 if isinstance(self.start, OnChain) and self._extra_there(0) else 0
        chained = sum(isinstance(place, OnChain) for place in places)
        ends = set()
        if chained:
            ends |= set(range(begin, chained + (not self.first_row), k)) - {0}
            if self.first_row and self._extra_there(-1):
                ends.add(len(places) - 2)
        return ends

    def _first_run(self) -> int:
        """How many dc stand in the first place."""
        return next((nth for nth, place in enumerate(self.places) if place != self.places[0]), len(self.places))

    def _extra_there(self, end: int) -> bool:
        """Whether the first dc (the last: -1) is an extra one; beside a lone cluster on the foundation none can be."""
        if self.first_row and len(self.line.dcs) == self.craft.cluster + 1:
            return False
        xs = [self.line.post.head[0], *(mark.head[0] for mark in self.line.dcs)]
        xs = xs if end == 0 else xs[::-1]
        edge, beside, then = (abs(other - one) for one, other in pairwise(xs[:4]))
        if self.craft.cluster > 3:  # in a cluster they stand closer than an extra one to the first of it
            return beside > 1.2 * then
        return edge > 0.83 * beside
