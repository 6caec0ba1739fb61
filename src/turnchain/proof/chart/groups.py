"""Which dc of a row belong together: clusters, extra dc beside an edge stitch, the edge stitch at the end.

In: a row of the picture, the chains before each of its dc, and what each stands on. Out: where one thing ends and the
next begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from turnchain.proof.chart.lines import Line
from turnchain.proof.hook.stitches import Below, Craft, OnChain, Place


@dataclass(frozen=True, slots=True)
class Groups:
    """The dc of ``line``: the ``gaps`` before each and the ``places`` they stand on; ``start`` is what the turning
    chain stands on, ``first_row``: on the foundation."""

    craft: Craft
    line: Line
    gaps: Sequence[int]
    start: Place
    places: Sequence[Place]
    first_row: bool

    def ends(self) -> list[int]:
        """The number of dc up to the end of each group."""
        count = len(self.places)
        ends: set[int] = {count, count - 1}
        for nth, (one, other) in enumerate(pairwise(self.places), start=1):
            alone = isinstance(one, Below) and one != other
            if self.gaps[nth] or alone or isinstance(one, OnChain) != isinstance(other, OnChain):
                ends.add(nth)
        return sorted(ends if self.craft.gap else ends | self._closed_ends())

    def _closed_ends(self) -> set[int]:
        """In the closed fabric the dc on a chain stand side by side: every k make a cluster, an extra dc at an edge
        stands as far from the edge stitch as from its neighbour."""
        k, places = self.craft.cluster, self.places
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
        return abs(xs[1] - xs[0]) > 0.75 * abs(xs[2] - xs[1])
