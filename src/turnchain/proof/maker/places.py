"""The places that are named in the row below, as the hook finds them.

In: the row in the making, and where the hook is. Out: the place that is meant; ``Unworkable`` where there is none such.
"First" and "next" are looked for in the row below, from where the hook is.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import Below, Craft, OnChain, Spot, Unworkable, refuse
from turnchain.proof.maker import steps as do
from turnchain.proof.maker.solid import check_passed, next_stitch


def whole_clusters(work: RowInWork, first: int, last: int) -> int:
    """How many clusters stand whole among the spots of the row below from ``first`` to before ``last``."""
    tops = Counter(spot.cluster for spot in work.walk[first:last] if spot.what == "dc")
    return sum(number == work.craft.cluster for number in tops.values())


def next_cluster(work: RowInWork, at: int) -> list[int]:
    """The spots of the row below, by number, of the next whole cluster after ``at``. Raises Unworkable where there is
    none."""
    walk = work.walk
    for nth in range(at + 1, len(walk)):
        if walk[nth].what == "dc" and walk[nth - 1].cluster != walk[nth].cluster:
            return list(range(nth, nth + work.craft.cluster))
    raise Unworkable("there is no cluster left in the row below")


def next_space(work: RowInWork, at: int) -> int:
    """The next space of the row below after the spot ``at``, by number. Raises Unworkable where there is none."""
    for nth in range(at + 1, len(work.walk)):
        if work.walk[nth].what == "space":
            return nth
    raise Unworkable("there is no space left in the row below")


def _last_cluster(walk: tuple[Spot, ...]) -> int:
    """The number of the last cluster of the row below."""
    return [spot.cluster for spot in walk if spot.cluster >= 0][-1]


@dataclass(slots=True)
class HandAt:
    """A row being worked: ``at`` is the number of the spot of the row below where the hook is; ``chain`` the chain last
    worked or skipped, numbered from the hook. ``joined``: the yarn was joined in this row; ``passed_edge``: the edge
    stitch below is said to be skipped."""

    craft: Craft
    work: RowInWork
    at: int = 0
    chain: int = 0
    joined: bool = False
    passed_edge: bool = False

    def _far_edge(self) -> Below:
        """The edge stitch at the far end of the row below."""
        refuse(self.work.below is None, "there is no row below row 1")
        refuse(self.work.walk[-1].turning, "the edge stitch, where the turning chain is one and no new chain begins")
        check_passed(self.work, self.at)
        self._chain_used_up()
        refuse(whole_clusters(self.work, self.at + 1, len(self.work.walk)), "a cluster is passed over without a word")
        self.at = len(self.work.walk) - 1
        return Below(self.at)

    def _find(self, named: do.Named) -> Below | OnChain:
        """The place that is meant, seen from where the hook is."""
        if isinstance(named, do.Base):
            refuse(self.work.begun is None, "a turning chain is missing")
            gone_on = len(self.work.spots) != 1 if not self.craft.single else self.work.places
            refuse(gone_on, "the base of the turning chain, when the row has gone on")
            assert self.work.begun is not None, "refused above"
            return self.work.begun
        refuse(self.work.below is None, "there is no row below row 1")
        self._chain_used_up()
        index = self._index(named)
        self.at = index
        return Below(index)

    def _chain_used_up(self) -> None:
        new = self.work.below is not None and self.work.chain
        over = self.work.chain - self.chain
        refuse(new and over, f"{over} chains of the new chain are left over")

    def _index(self, named: do.Named) -> int:
        walk = self.work.walk
        if isinstance(named, do.SpaceBelow):
            return self._space(named.which)
        if isinstance(named, do.DcOf):
            return self._dc_of(named)
        if isinstance(named, do.LastDc):
            return max(nth for nth, spot in enumerate(walk) if spot.what == "dc")
        if isinstance(named, do.StitchBelow):
            return self._single(named.which)
        if isinstance(named, do.NextBelow):
            return next_stitch(self.work, self.at, 1, self.passed_edge)
        if isinstance(named, do.OutermostBelow):
            refuse(self.at or walk[0].what != "dc", "the first stitch below is behind the hook, or an edge stitch")
            return 0
        if isinstance(named, do.EdgeStitch):
            if not self.at and self.work.chain:
                return 0
            return self._far_edge().index
        if isinstance(named, do.HalfSpace | do.BesideEdge):
            return self._at_edge("half" if isinstance(named, do.HalfSpace) else "extra")
        if isinstance(named, do.SamePlace):
            refuse(not self.craft.single or not self.work.places, "the same place, where nothing was worked")
            return self.at
        refuse(not isinstance(named, do.TurningChain), "no such place in a row")
        assert isinstance(named, do.TurningChain), "refused above"
        top = self.work.below.top if self.work.below else 0
        refuse(not walk[-1].turning, "the turning chain below is no stitch by itself")
        check_passed(self.work, self.at)
        refuse(named.nth != top, f"the edge stitch goes in chain {top} of the turning chain below")
        beside = len(walk) - (walk[-1].what == "dc")  # the turning chain may be of the last cluster
        refuse(whole_clusters(self.work, self.at + 1, beside), "a cluster is passed over without a word")
        return len(walk) - 1

    def _single(self, which: do.WhichBelow) -> int:
        """A stitch of the row below that is a cluster by itself."""
        walk = self.work.walk
        if self.craft.stacked:
            own = walk[self.at].cluster
            refuse(which == "same" and own < 0, "the first section does not end on a cluster")
            cluster = own if which == "same" else walk[next_cluster(self.work, self.at)[0]].cluster
            refuse(which == "last" and cluster != _last_cluster(walk), "it is not the last cluster")
            return self.work.middle_below(cluster)
        refuse(self.craft.cluster != 1, "a cluster has more than one stitch")
        if which == "last":
            return max(nth for nth, spot in enumerate(walk) if spot.what == "dc")
        return self._dc_of(do.DcOf(1, which))

    def _at_edge(self, what: str) -> int:
        """A slit or stitch beside an edge stitch of the row below: at the near edge before the first cluster, else at
        the far one."""
        walk = self.work.walk
        refuse(not (self.craft.grouped or self.craft.slit), "nothing stands beside an edge stitch")
        near = self.at == 0 and not any(isinstance(one, Below) for one in self.work.places)
        far = [nth for nth, spot in enumerate(walk) if spot.what == what and nth > self.at]
        found = [nth for nth in far if nth < 3] if near else far
        between = whole_clusters(self.work, self.at + 1, found[-1 if not near else 0]) if found else 0
        beside = self.craft.slit and any(isinstance(one, Below) for one in self.work.places)  # lies past a cluster
        refuse(not found or between > beside, "the place beside the edge stitch is not next to the hook")
        return found[0 if near else -1]

    def _space(self, which: do.WhichBelow) -> int:
        walk = self.work.walk
        if which == "same":
            refuse(walk[self.at].what != "space", "the first section does not end in a space")
            return self.at
        refuse(which == "first" and self.at, "the first space is behind the hook")
        found = next_space(self.work, self.at)
        # From one space to the next lies a cluster; from the edge it must be said that one is passed.
        leaving = walk[self.at].what not in ("space", "half") or (self.joined and self.work.begun is None)
        refuse(
            which == "next" and leaving and whole_clusters(self.work, self.at + 1, found),
            "a cluster is passed over without a word",
        )
        return found

    def _dc_of(self, named: do.DcOf) -> int:
        refuse(not 1 <= named.nth <= self.craft.cluster, f"a cluster has no {named.nth}th dc")
        if named.which == "next":
            return next_cluster(self.work, self.at)[named.nth - 1]
        own = self.work.walk[self.at]
        refuse(own.what != "dc", "the first section does not end on a cluster")
        return [nth for nth, spot in enumerate(self.work.walk) if spot.cluster == own.cluster][named.nth - 1]
