"""The steps of one row, done one after the other.

In: steps, one after the other, and the row they make (``RowInWork``). Out: that row, finished; ``Unworkable`` where a
step cannot be done. "First" and "next" are looked for in the row below, from where the hook is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import Below, Craft, OnChain, Unworkable, WorkedRow, refuse
from turnchain.proof.maker import steps as do


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


@dataclass(slots=True)
class Hand:
    """One row while its steps are done. ``at`` is the number of the spot of the row below where the hook is; ``chain``
    the chain last worked or skipped, numbered from the hook."""

    craft: Craft
    work: RowInWork
    turning: int = 0  # the turning chain of row 1, as told
    from_section: int | None = None  # where the first section ended in the row below
    at: int = 0
    chain: int = 0
    hanging: int = 0  # chains made before turning
    turned: bool = False
    joined: bool = False
    passed_edge: bool = False
    run: list[int] = field(default_factory=list)  # chains with a dc that are no whole cluster yet
    waiting: int = 0  # chains of a turning chain that is no stitch, until the edge stitch beside it is worked
    last: do.ReadStep | None = None  # the last stitch of the row: its edge, even where a cluster is one stitch
    left: do.LeaveRest | None = None
    yarn: str | None = None  # joined
    change_to: str | None = None

    def follow(self, steps: tuple[do.ReadStep, ...]) -> None:
        """Does every step in turn. Raises Unworkable for one that cannot be done there."""
        if self.last is None:
            kinds = do.DcInPlace | do.ClusterInPlace | do.ClusterInEach | do.ClusterOnEach
            worked = [step for step in steps if isinstance(step, kinds)]
            self.last = worked[-1] if worked else None
        for step in steps:
            refuse(self.left and not isinstance(step, do.ChangeYarn), "the row goes on after what is left unworked")
            refuse(getattr(step, "number", 1) < 1, "something is to be worked no times")
            if self.run and not isinstance(step, do.DcAlongChain | do.RepeatSteps):
                self._extra_of_run()
            _DO[type(step)](self, step)

    # Chains and turning.

    def _chain(self, step: do.ChainStitches) -> None:
        refuse(step.turning and (self.work.begun or self.turned or self.joined), "a turning chain told of a gap")
        if self.work.begun is not None:
            self.work.gap(step.number)
        elif self.turned or self.joined:
            refuse(self.waiting, "a second turning chain")
            self._turning_chain(step.number)
        else:
            refuse(self.work.below is None, "row 1 begins on its foundation, not with more chains")
            refuse(self.hanging, "chains made twice before turning")
            self.hanging, self.turning = step.number, step.turning

    def _turn(self, step: do.TurnWork) -> None:
        refuse(self.turned or self.joined, "the work is turned twice")
        refuse(self.work.begun is not None, "the work is turned in the middle of a row")
        self.turned = True
        if self.turning:
            refuse(self.hanging <= self.turning, "a new chain that is all turning chain")
            self.work.chain = self.hanging
        elif self.hanging:
            self._turning_chain(self.hanging)

    def _turning_chain(self, chains: int) -> None:
        """The turning chain where the hook is; where it is no stitch, the next one stands beside it."""
        if self.craft.counts:
            self.work.edge(Below(self.at), chains)
        else:
            self.waiting = chains

    def _own_edge(self, turning: int) -> None:
        """The edge stitch on the chain that hangs from the hook."""
        refuse(self.work.below is not None and not self.turned, "the work is not turned")
        self.work.edge(OnChain(turning + 1), turning)
        self.chain = turning + 1

    # Stitches on a chain.

    def _from_hook(self, number: int) -> None:
        refuse(self.work.begun is not None, "a chain counted from the hook in the middle of a row")
        turning = self.turning
        refuse(not turning, "which of the chains are the turning chain is not said")
        if not self.craft.counts:
            refuse(number != turning + 1, f"the first dc in chain {number}; after {turning} it is {turning + 1}")
            self._own_edge(turning)
            return
        lead = (self.craft.wide + 1) // 2 if self.craft.stacked else 1
        first = turning + 1 + lead + (turning - self.craft.turning)
        refuse(number != first, f"the first dc in chain {number}; after a turning chain of {turning} it is {first}")
        self._own_edge(turning)
        self.chain = number
        if self.craft.stacked:
            self.work.unit(OnChain(number))
        elif self.craft.cluster == 1:
            self.work.cluster([OnChain(number)])
        else:
            self.run = [number]

    def _dc_in_chains(self, step: do.DcAlongChain) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        k = self.craft.cluster
        if self.craft.stacked:
            refuse(k > 1, "each cluster is worked into one chain")
            for _ in range(step.number):
                self.chain += 1
                self.work.unit(OnChain(self.chain))
            return
        refuse(step.number > k, f"{step.number} dc in chains of their own; a cluster has {k}")
        if self.run and len(self.run) + step.number != k:
            self._extra_of_run()
        numbers = self.run + [self.chain + 1 + nth for nth in range(step.number)]
        self.run, self.chain = [], numbers[-1]
        if len(numbers) == 1 and k > 1 and not self.craft.gap:
            self.work.extra(OnChain(numbers[0]))
        else:
            self.work.cluster([OnChain(number) for number in numbers])

    def _extra_of_run(self) -> None:
        """A dc that stands alone on its chain: the extra one of a closed edge."""
        (number,), self.run = self.run, []
        self.work.extra(OnChain(number))

    def _skip_chains(self, step: do.PassChains) -> None:
        if self.work.begun is None:
            refuse(self.work.below is None, "row 1 begins with a dc counted from the hook")
            refuse(step.number != self.work.chain, f"{step.number} chains skipped of {self.work.chain}")
            self._own_edge(self.turning)
            self.chain = step.number
            return
        self.chain += step.number
        refuse(self.chain > self.work.chain, f"the chain has only {self.work.chain} chains")

    def _last_chain(self, number: int) -> None:
        refuse(number != 1, "two dc would stand in the last chain")
        refuse(self.work.begun is None, "a turning chain is missing")
        refuse(self.chain >= self.work.chain, f"the chain has only {self.work.chain} chains, and all are used")
        self.chain += 1
        self.work.end(OnChain(self.chain))

    # Stitches in the row below.

    def _cluster(self, step: do.ClusterInPlace) -> None:
        if isinstance(step.place, do.FromHook):
            refuse(not self.craft.stacked, "a cluster in one chain")
            self._from_hook(step.place.number)
            return
        if self.craft.stacked and isinstance(step.place, do.StitchBelow):
            place = self._find(step.place)
            self.work.unit(place)
            return
        first = step.after_dc or (step.and_dc and self.work.begun is None and not self.craft.counts)
        if first:
            self._begin_beside(do.DcInPlace(1, step.place))
        place = Below(self.at) if first else self._find(step.place)
        self.work.cluster([place] * self.craft.cluster)
        if step.and_dc and not first:
            self.work.end(place)

    def _units(self, step: do.ClusterOnEach) -> None:
        for _ in range(step.number):
            self._cluster(do.ClusterInPlace(do.StitchBelow("next")))

    def _unit_in_chain(self, step: do.ClusterInChain) -> None:
        refuse(self.work.begun is None or not self.craft.stacked, "a cluster in one chain")
        self.chain += 1
        self.work.unit(OnChain(self.chain))

    def _clusters(self, step: do.ClusterInEach) -> None:
        if step is self.last and self.craft.cluster == 1:  # one stitch: the edge stitch closes a row
            self.work.end(self._find(do.SpaceBelow("next")))
            return
        for _ in range(step.number):
            self._cluster(do.ClusterInPlace(do.SpaceBelow("next")))

    def _dc(self, step: do.DcInPlace) -> None:
        if isinstance(step.place, do.FromHook):
            refuse(step.number != 1, "two dc would stand in one chain")
            self._from_hook(step.place.number)
        elif isinstance(step.place, do.ChainEnd):
            self._last_chain(step.number)
        elif isinstance(step.place, do.Base):
            refuse(step.number != 1, "two extra dc beside the edge stitch")
            self.work.extra(self._find(step.place))
        elif self.work.begun is None and not self.craft.counts:
            self._begin_beside(step)
        elif self.craft.cluster == 1 and step is not self.last:
            self._cluster(do.ClusterInPlace(step.place))
        else:
            place = self._far_edge() if isinstance(step.place, do.EdgeStitch) else self._find(step.place)
            for _ in range(step.number - 1):
                self.work.extra(place)
            self.work.end(place)

    def _far_edge(self) -> Below:
        """The edge stitch at the far end of the row below."""
        refuse(self.craft.counts, "the edge stitch, when no new chain begins there")
        refuse(self.work.below is None, "there is no row below row 1")
        self._chain_used_up()
        refuse(whole_clusters(self.work, self.at + 1, len(self.work.walk)), "a cluster is passed over without a word")
        self.at = len(self.work.walk) - 1
        return Below(self.at)

    def _begin_beside(self, step: do.DcInPlace) -> None:
        """The edge stitch beside a turning chain that is no stitch, and what fills the edge in its place."""
        refuse(not self.waiting, "a turning chain is missing")
        led = isinstance(step.place, do.SamePlace)
        refuse(led == (self.work.slipped is None and not self.joined), "the edge stitch stands where the hook is not")
        refuse(not led and not isinstance(step.place, do.EdgeStitch), "the row begins in no edge stitch")
        self.work.edge(Below(self.at), self.waiting)
        for _ in range(step.number - 1):
            self.work.extra(Below(self.at))

    def _find(self, named: do.Named) -> Below | OnChain:
        """The place that is meant, seen from where the hook is."""
        if isinstance(named, do.Base):
            refuse(self.work.begun is None, "a turning chain is missing")
            refuse(len(self.work.spots) != 1, "the base of the turning chain, when the row has gone on")
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
        if isinstance(named, do.EdgeStitch):
            if not self.at and self.work.chain:
                return 0
            return self._far_edge().index
        refuse(not isinstance(named, do.TurningChain), "no such place in a row")
        assert isinstance(named, do.TurningChain), "refused above"
        top = self.craft.turning
        refuse(not self.craft.counts, "the turning chain below is no stitch")
        refuse(named.nth != top, f"the edge stitch goes in chain {top} of the turning chain below")
        refuse(whole_clusters(self.work, self.at + 1, len(walk)), "a cluster is passed over without a word")
        return len(walk) - 1

    def _single(self, which: do.WhichBelow) -> int:
        """A stitch of the row below that is a cluster by itself."""
        walk = self.work.walk
        if self.craft.stacked:
            refuse(which != "next", "clusters are worked one after the other")
            return self.work.middle_below(walk[next_cluster(self.work, self.at)[0]].cluster)
        refuse(self.craft.cluster != 1, "a cluster has more than one stitch")
        if which == "last":
            return max(nth for nth, spot in enumerate(walk) if spot.what == "dc")
        return self._dc_of(do.DcOf(1, which))

    def _space(self, which: do.WhichBelow) -> int:
        walk = self.work.walk
        if which == "same":
            refuse(walk[self.at].what != "space", "the first section does not end in a space")
            return self.at
        refuse(which == "first" and self.at, "the first space is behind the hook")
        found = next_space(self.work, self.at)
        # From one space to the next lies a cluster; from the edge it must be said that one is passed.
        leaving = walk[self.at].what != "space" or (self.joined and self.work.begun is None)
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

    # Passing by.

    def _skip_cluster(self, step: do.PassCluster) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        refuse(self.work.below is None, "there is no row below row 1")
        self._chain_used_up()
        found = next_cluster(self.work, self.at)
        refuse(step.which == "first" and (self.at or found[0] > 1), "the first cluster is not next to the hook")
        rest = whole_clusters(self.work, found[-1] + 1, len(self.work.walk))
        refuse(step.which == "last" and rest, "the cluster passed over is not the last")
        self.at = found[-1]

    def _pass_edge(self, step: do.PassEdge) -> None:
        refuse(not self.turned or self.hanging or self.at, "the edge stitch is not next to the hook")
        refuse(self.passed_edge, "the edge stitch is passed twice")
        self.passed_edge = True

    def _slip(self, step: do.SlipStitches) -> None:
        refuse(not self.turned, "the work is not turned")
        refuse(self.hanging, "slip stitches after chains")
        if step.into is not None:
            refuse(step.into == "same" or (step.into == "first" and self.at), "no such space to slip into")
            self.at = next_space(self.work, self.at)
            self.work.slip(self.at)
            return
        refuse(not self.passed_edge and not self.at, "whether the slip stitches count the edge stitch is not said")
        for _ in range(step.number):
            self._slip_on()

    def _slip_on(self) -> None:
        """One slip stitch into the next stitch or chain; a slit is no stitch."""
        walk, slipped = self.work.walk, self.work.slipped
        done = sum(stitch.into == Below(self.at) for stitch in self.work.stitches)
        if slipped is not None and walk[self.at].chains > done:
            self.work.slip_chain(self.at)
            return
        self.at += 1
        if self.at < len(walk) and walk[self.at].what == "space" and not walk[self.at].chains:
            self.at += 1
        self.work.slip(self.at)

    def _join(self, step: do.JoinYarn) -> None:
        refuse(self.from_section is None, "a yarn is joined where no other section has ended")
        refuse(self.joined or self.turned or self.hanging, "a yarn is joined in the middle of a row")
        assert self.from_section is not None, "refused above"
        self.joined, self.work.joined, self.yarn = True, True, step.yarn
        self.at = self.from_section
        for _ in range(step.skipped):
            self.at = next_cluster(self.work, self.at)[-1]
        place = step.place
        if isinstance(place, do.SpaceBelow):
            self.at = self._space(place.which)
        else:
            self.at = self._single(place.which) if isinstance(place, do.StitchBelow) else self._dc_of(place)

    # The end.

    def _leave(self, step: do.LeaveRest) -> None:
        refuse(self.work.ended is None, "the row is left before its last stitch")
        self.left = step

    def _change(self, step: do.ChangeYarn) -> None:
        refuse(self.work.ended is None, "the yarn changes before the last stitch of the row")
        refuse(self.change_to is not None, "the yarn changes twice")
        self.change_to = step.yarn

    def _repeat(self, step: do.RepeatSteps) -> None:
        refuse(step.times < 1, "a repeat of no times")
        for _ in range(step.times):
            self.follow(step.steps)

    def finished(self, number: int) -> WorkedRow:
        """The finished row ``number``. Raises Unworkable where it is not complete, or leaves unworked what it does not
        say."""
        refuse(self.work.below is not None and not (self.turned or self.joined), "the work is not turned")
        refuse(self.passed_edge and self.work.slipped is None, "the edge stitch is passed for nothing")
        made = finished(self.work, number)
        if self.work.below is not None:
            self._check_left()
        return made

    def _check_left(self) -> None:
        walk, left = self.work.walk, self.left
        rest, clusters = len(walk) - 1 - self.at, whole_clusters(self.work, self.at + 1, len(walk))
        if left is None:
            refuse(rest, "the end of the row below is left unworked without a word")
        elif left.what in ("tch", "edge"):
            refuse((left.what == "tch") != self.craft.counts, "no such edge stitch is left unworked")
            edge = "turning chain" if self.craft.counts else "edge stitch"
            refuse(rest != 1, f"more or less than the {edge} is left unworked")
        elif left.what == "clusters":
            refuse(clusters != left.clusters, f"{clusters} clusters are left unworked, not {left.clusters}")
        else:
            refuse(not rest, "nothing is left unworked")


_DO: dict[type[Any], Callable[[Hand, Any], None]] = {
    do.ChainStitches: Hand._chain,
    do.TurnWork: Hand._turn,
    do.SlipStitches: Hand._slip,
    do.DcInPlace: Hand._dc,
    do.ClusterInPlace: Hand._cluster,
    do.DcAlongChain: Hand._dc_in_chains,
    do.ClusterInEach: Hand._clusters,
    do.ClusterOnEach: Hand._units,
    do.ClusterInChain: Hand._unit_in_chain,
    do.PassChains: Hand._skip_chains,
    do.PassCluster: Hand._skip_cluster,
    do.PassEdge: Hand._pass_edge,
    do.RepeatSteps: Hand._repeat,
    do.JoinYarn: Hand._join,
    do.LeaveRest: Hand._leave,
    do.ChangeYarn: Hand._change,
}
