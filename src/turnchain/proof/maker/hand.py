"""The steps of one row, done one after the other.

In: steps, one after the other, and the row they make (``RowInWork``). Out: that row, finished; ``Unworkable`` where a
step cannot be done. "First" and "next" are looked for in the row below, from where the hook is.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.stitches import Below, OnChain, WorkedRow, refuse
from turnchain.proof.maker import steps as do
from turnchain.proof.maker.places import HandAt, next_cluster, next_space, whole_clusters
from turnchain.proof.maker.solid import next_stitch


@dataclass(slots=True)
class Hand(HandAt):
    """One row while its steps are done."""

    turning: int = 0  # the turning chain of row 1, as told
    from_section: int | None = None  # where the first section ended in the row below
    hanging: int = 0  # chains made before turning
    turned: bool = False
    run: list[int] = field(default_factory=list)  # chains with a dc that are no whole cluster yet
    waiting: int = 0  # chains of a turning chain that is no stitch, until the edge stitch beside it is worked
    last: do.ReadStep | None = None  # the last stitch of the row: its edge, even where a cluster is one stitch
    left: do.LeaveRest | None = None
    yarn: str | None = None  # joined
    change_to: str | None = None

    def follow(self, steps: tuple[do.ReadStep, ...]) -> None:
        """Does every step in turn. Raises Unworkable for one that cannot be done there."""
        if self.last is None:
            kinds = do.DcInPlace | do.ClusterInPlace | do.ClusterInEach | do.ClusterOnEach | do.DcTogether
            worked = [step for step in steps if isinstance(step, kinds)]
            self.last = worked[-1] if worked else None
        for step in steps:
            refuse(self.left and not isinstance(step, do.ChangeYarn), "the row goes on after what is left unworked")
            refuse(getattr(step, "number", 1) < 1, "something is to be worked no times")
            if self.run and not isinstance(step, do.DcAlongChain | do.RepeatSteps):
                self._extra_of_run()
            refuse(isinstance(step, do.SolidInPlace | do.SolidInEach), "stitches of another kind in a row of clusters")
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
        """The turning chain where the hook is; where it is no stitch, the next one stands beside it, and where it is a
        chain short, the next one is joined with it."""
        if self.craft.counts and not (self.craft.single and chains == self.craft.turning - 1):
            self.work.edge(Below(self.at), chains)
        else:
            self.waiting = chains

    def _own_edge(self, turning: int) -> None:
        """The edge stitch on the chain that hangs from the hook."""
        refuse(self.work.below is not None and not self.turned, "the work is not turned")
        own = turning + (self.craft.own or self.work.below is not None)
        self.work.edge(OnChain(own), turning)
        self.chain = own

    # Stitches on a chain.

    def _from_hook(self, number: int, cluster: bool = False) -> None:
        """The first dc of a row on a new chain, or a ``cluster``."""
        refuse(self.work.begun is not None, "a chain counted from the hook in the middle of a row")
        turning = self.turning
        refuse(not turning, "which of the chains are the turning chain is not said")
        if not self.craft.counts:
            refuse(number != turning + 1, f"the first dc in chain {number}; after {turning} it is {turning + 1}")
            self._own_edge(turning)
            return
        extra = self.craft.grouped and not cluster
        whole = cluster or (self.craft.stacked and not extra)
        lead = (self.craft.wide + 1) // 2 if whole else 1
        if self.craft.alternating:
            lead = 1
        first = turning + (self.craft.own or self.work.below is not None) + lead + (turning - self.craft.turning)
        refuse(number != first, f"the first dc in chain {number}; after a turning chain of {turning} it is {first}")
        self._own_edge(turning)
        self.chain = number
        if extra:
            self.work.extra(OnChain(number))
        elif self.craft.stacked:
            self.work.unit(OnChain(number))
        elif cluster or self.craft.cluster == 1:
            self.work.cluster([OnChain(number)] * self.craft.cluster)
        elif self.work.lacking == 1:
            self.work.complete([OnChain(number)])
        else:
            self.run = [number]

    def _dc_in_chains(self, step: do.DcAlongChain) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        k = self.craft.cluster
        if self.craft.stacked:
            for _ in range(step.number):
                self.chain += 1
                place = OnChain(self.chain)
                self.work.extra(place) if self.craft.grouped else self.work.unit(place)
            return
        refuse(step.number > k, f"{step.number} dc in chains of their own; a cluster has {k}")
        if self.run and self._completes(len(self.run) + step.number):
            numbers = self.run + [self.chain + 1 + nth for nth in range(step.number)]
            self.run, self.chain = [], numbers[-1]
            self.work.complete([OnChain(number) for number in numbers])
            return
        if self.run and len(self.run) + step.number != k:
            self._extra_of_run()
        numbers = self.run + [self.chain + 1 + nth for nth in range(step.number)]
        self.run, self.chain = [], numbers[-1]
        if len(numbers) == 1 and k > 1 and not self.craft.gap:
            self.work.extra(OnChain(numbers[0]))
        else:
            self.work.cluster([OnChain(number) for number in numbers])

    def _completes(self, number: int) -> bool:
        """Whether so many dc, the first on the chain, make a cluster with the turning chain before them."""
        beside = self.craft.bare and not self.craft.gap and not self.work.places and number == self.craft.cluster - 1
        return beside or self.work.lacking > 0

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
            self._from_hook(step.place.number, cluster=True)
            return
        if self.craft.stacked:
            refuse(step.and_dc or step.after_dc, "a cluster and a dc in one place, where clusters stand in clusters")
            self.work.unit(self._find(step.place))
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
        refuse(self.work.begun is None, "a cluster in one chain before the edge stitch")
        self.chain += 1
        if self.craft.stacked:
            self.work.unit(OnChain(self.chain))
        else:
            self.work.cluster([OnChain(self.chain)] * self.craft.cluster)

    def _clusters(self, step: do.ClusterInEach) -> None:
        if step is self.last and self.craft.cluster == 1 and not self.craft.bare:  # the edge stitch closes a row
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
            place = self._find(step.place)
            if self._completes(step.number):
                self.work.complete([place] * step.number)
                return
            for _ in range(step.number):
                self._beside_edge(place)
        elif self.work.begun is None and not self.craft.counts:
            self._begin_beside(step)
        elif self.craft.cluster == 1 and (step is not self.last or self._is_edge_cluster(step)):
            refuse(step.number != 1, "two stitches in one place in the middle of a row")
            self._cluster(do.ClusterInPlace(step.place))
        else:
            place = self._far_edge() if isinstance(step.place, do.EdgeStitch) else self._find(step.place)
            for _ in range(step.number - 1):
                self._beside_edge(place)
            self.work.end(place)

    def _is_edge_cluster(self, step: do.DcInPlace) -> bool:
        """Whether the last stitch of a row is a cluster of one: it stands in a space."""
        return self.craft.bare and isinstance(step.place, do.SpaceBelow)

    def _beside_edge(self, place: Below | OnChain) -> None:
        """A stitch in the place of the edge stitch: an extra one or, where these are single, a cluster."""
        if self.craft.single:
            self.work.unit(place)
        elif self.craft.cluster == 1:
            self.work.cluster([place])
        else:
            self.work.extra(place)

    def _together(self, step: do.DcTogether) -> None:
        if self.work.begun is not None:
            over = self._find(step.first)
            self.work.end(self._find(step.second), over)
            return
        refuse(self.craft.counts or not self.waiting, "a turning chain is missing")
        refuse(not isinstance(step.first, do.EdgeStitch) or self.at, "the row begins in no edge stitch")
        self.work.edge(Below(self.at), self.waiting, self._find(step.second))

    def _with_chain(self, step: do.DcWithChain) -> None:
        refuse(not self.craft.counts or not self.waiting, "a dc joined with a turning chain that is a stitch by itself")
        refuse(step.chains != self.waiting, f"a turning chain of {step.chains} told, where {self.waiting} was made")
        edge = Below(self.at)
        self.work.edge(edge, self.waiting, self._find(step.place))

    def _begin_beside(self, step: do.DcInPlace) -> None:
        """The edge stitch beside a turning chain that is no stitch, and what fills the edge in its place."""
        refuse(not self.waiting, "a turning chain is missing")
        led = isinstance(step.place, do.SamePlace)
        refuse(led == (self.work.slipped is None and not self.joined), "the edge stitch stands where the hook is not")
        refuse(not led and not isinstance(step.place, do.EdgeStitch), "the row begins in no edge stitch")
        self.work.edge(Below(self.at), self.waiting)
        for _ in range(step.number - 1):
            self._beside_edge(Below(self.at))

    # Passing by.

    def _skip_cluster(self, step: do.PassCluster) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        refuse(self.work.below is None, "there is no row below row 1")
        self._chain_used_up()
        found = next_cluster(self.work, self.at)
        far = self.at or found[0] > 1 + self.craft.slit
        refuse(step.which == "first" and far, "the first cluster is not next to the hook")
        rest = whole_clusters(self.work, found[-1] + 1, len(self.work.walk))
        refuse(step.which == "last" and rest, "the cluster passed over is not the last")
        self.at = found[-1]

    def _pass_edge(self, step: do.PassEdge | do.PassFirst) -> None:
        idle = self.hanging and not self.work.over_solid
        refuse(not self.turned or idle or self.at, "the edge stitch is not next to the hook")
        at_edge = self.work.walk[0].what == "edge"
        refuse(at_edge != isinstance(step, do.PassEdge), "what is passed is no edge stitch, or is one")
        refuse(self.passed_edge, "the edge stitch is passed twice")
        self.passed_edge = True

    def _skip_stitches(self, step: do.PassStitches) -> None:
        self.at = next_stitch(self.work, self.at, step.number, self.passed_edge)

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
        if self.at < len(walk) and walk[self.at].what in ("space", "half") and not walk[self.at].chains:
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
        refuse(not self.work.whole, "the row is left before its last stitch")
        self.left = step

    def _change(self, step: do.ChangeYarn) -> None:
        refuse(not self.work.whole, "the yarn changes before the last stitch of the row")
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
        idle = self.work.slipped is None and not self.work.over_solid
        refuse(self.passed_edge and idle, "the edge stitch is passed for nothing")
        made = finished(self.work, number)
        if self.work.below is not None:
            self._check_left()
        return made

    def _check_left(self) -> None:
        walk, left = self.work.walk, self.left
        clusters, own = whole_clusters(self.work, self.at + 1, len(walk)), walk[self.at].cluster
        over = [spot for spot in walk[self.at + 1 :] if spot.what != "half"]
        rest = len([spot for spot in over if not self.craft.grouped or own < 0 or spot.cluster != own])
        if self.craft.bare and self.work.ended is None and all(spot.what in ("extra", "edge") for spot in over):
            rest = 0  # a row that ends with a cluster in the space at an edge leaves the edge stitch
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
    do.DcTogether: Hand._together,
    do.DcWithChain: Hand._with_chain,
    do.DcAlongChain: Hand._dc_in_chains,
    do.ClusterInEach: Hand._clusters,
    do.ClusterOnEach: Hand._units,
    do.ClusterInChain: Hand._unit_in_chain,
    do.PassChains: Hand._skip_chains,
    do.PassStitches: Hand._skip_stitches,
    do.PassCluster: Hand._skip_cluster,
    do.PassEdge: Hand._pass_edge,
    do.PassFirst: Hand._pass_edge,
    do.RepeatSteps: Hand._repeat,
    do.JoinYarn: Hand._join,
    do.LeaveRest: Hand._leave,
    do.ChangeYarn: Hand._change,
}
