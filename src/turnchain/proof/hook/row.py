"""A row in the making: what can be worked into what, stitch by stitch.

In: stitches, each with the place it is worked into. Out: the row so far (``RowInWork``), which ``finished`` makes a
``WorkedRow``; or ``Unworkable`` with the reason, where a stitch cannot be worked there. No plan and no words are used
here: only how clusters, edge stitches and chains are worked.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.proof.hook.stitches import (
    Below,
    Craft,
    OnChain,
    Spot,
    WorkedInto,
    WorkedRow,
    WorkedStitch,
    refuse,
)


class RowInWork:
    """A row in the making: every method works what comes next, or raises Unworkable with the reason.

    ``below`` is the row worked into, None for row 1; ``chain`` how many chains hang before it (the foundation, or
    those of a step out), with the turning chain; ``joined``: the yarn is joined anew on the way. ``walk`` are the
    spots of the row below as they are met after turning, ``walk_at`` their positions in half pitches; ``spots`` and
    ``stitches`` are the row so far.
    """

    def __init__(self, craft: Craft, below: WorkedRow | None, chain: int = 0, joined: bool = False) -> None:
        self.craft, self.below, self.chain, self.joined = craft, below, chain, joined
        self.walk: tuple[Spot, ...] = below.spots[::-1] if below else ()
        self.walk_at: tuple[int, ...] = below.at[::-1] if below else ()
        self.towards = -below.towards if below else -1
        self.spots: list[Spot] = []
        self.stitches: list[WorkedStitch] = []
        self.places: list[WorkedInto] = []  # of each cluster: the place of its first dc
        self.last_chain = 0  # the highest chain used
        self.extra_place: WorkedInto | None = None  # of the extra dc at the end
        self.begun: WorkedInto | None = None
        self.begun_over: WorkedInto | None = None  # what the edge stitch at the start is joined over, beside that
        self.ended_over: WorkedInto | None = None
        self.turning = 0  # the chains of the turning chain
        self.ended: WorkedInto | None = None
        self.together = False  # clusters are worked into one chain each
        self.slipped: int | None = None
        self.bare_start = False  # the turning chain is the first stitch of the first cluster

    @property
    def over_solid(self) -> bool:
        """Whether the row below is a solid one."""
        return self.below is not None and self.below.solid

    # ------------------------------------------------------------------------------------------------ the start

    def slip(self, index: int) -> None:
        """A slip stitch into the spot ``index`` of ``walk``; each goes on from the last."""
        refuse(self.begun is not None, "a slip stitch after the turning chain")
        refuse(self.below is None, "a slip stitch with no row below")
        refuse(index >= len(self.walk), "slip stitches past the end of the row below")
        refuse(index <= (self.slipped or 0), "slip stitches go back along the row")
        passed = self.walk[(self.slipped or 0) + 1 : index]
        into_slit = self.walk[index].what == "space" and not self.walk[index].chains
        slits = ("space", "half", "extra" if into_slit else "")
        missed = [spot for spot in passed if spot.what not in slits or spot.chains]
        refuse(missed, "a stitch is passed over")
        self._slip(index)

    def slip_chain(self, index: int) -> None:
        """One more slip stitch into the next chain of the space ``index`` of ``walk``, which was just reached."""
        refuse(index != self.slipped, "a slip stitch into a chain that was not reached")
        self._slip(index)

    def _slip(self, index: int) -> None:
        self.slipped = index
        self.stitches.append(WorkedStitch("sl st", Below(index)))

    def edge(self, place: WorkedInto, chains: int, over: WorkedInto | None = None) -> None:
        """The turning chain of ``chains``, standing on ``place``: the first of them make the edge stitch, any more the
        space. Where it does not count, the edge stitch beside it is worked with it. ``over``: the next stitch below,
        where the edge stitch is joined with one in that."""
        refuse(self.begun is not None, "a second turning chain")
        turning = self.craft.turning
        wanted = {turning, turning + self.craft.gap} if self.craft.counts else {turning}
        if over is not None:
            wanted = {turning - self.craft.counts}
            self._check_together(place, over, 1)
        elif self.craft.slit:
            wanted = {turning}
        elif self.craft.alternating:
            wanted = {turning + self.craft.gap}
        refuse(chains not in wanted, f"a turning chain of {chains} chains; it takes {_either(wanted)}")
        self._check_start(place)
        if isinstance(place, OnChain):
            self._new_chain(place, chains)
        self.begun, self.turning, self.begun_over = place, chains, over
        self.stitches.append(WorkedStitch("tch" if self.craft.counts else "dc", place))
        self.spots.append(Spot("edge", turning=self.craft.counts and over is None))
        if self._is_cluster(place, chains):
            self._begin_cluster(place)
        if chains > turning:
            self.spots.append(Spot("space", chains=chains - turning))
        if self.craft.slit:
            self.spots.append(Spot("half"))

    def _is_cluster(self, place: WorkedInto, chains: int) -> bool:
        """Whether a turning chain can only be the first stitch of a cluster: without the chains of a space, or of a
        cluster of one in a space of the row below."""
        if self.craft.alternating:
            return isinstance(place, Below) and self.walk[place.index].what == "space"
        return self.craft.bare and self.craft.gap > 0 and chains == self.craft.turning

    def _begin_cluster(self, place: WorkedInto) -> None:
        self.spots[-1] = Spot("dc", cluster=0, turning=True)
        self.places.append(place)
        self.bare_start = True

    @property
    def lacking(self) -> int:
        """How many stitches the first cluster lacks that a turning chain began."""
        return self.craft.cluster - sum(spot.cluster == 0 for spot in self.spots) if self.bare_start else 0

    def complete(self, places: Sequence[WorkedInto]) -> None:
        """The stitches that make a cluster with the turning chain: in its place or, on a chain, each in the next."""
        refuse(not self.craft.bare or self.begun is None, "stitches that make no cluster with the turning chain")
        assert self.begun is not None, "refused above"
        if not self.bare_start:
            refuse(self.craft.gap or len(self.spots) > 1, "the turning chain is an edge stitch")
            self._begin_cluster(self.begun)
        refuse(len(places) != self.lacking, f"{len(places)} dc beside the turning chain, where a cluster lacks others")
        if isinstance(self.begun, OnChain):
            for place in places:
                refuse(not isinstance(place, OnChain), "the dc of a cluster stand in different places")
                assert isinstance(place, OnChain), "refused above"
                self._next_chain(place.number, 0)
        else:
            refuse(any(place != self.begun for place in places), "the dc of a cluster stand in different places")
        self.spots += [Spot("dc", cluster=0)] * len(places)
        self.stitches += [WorkedStitch("dc", place) for place in places]

    def _check_together(self, edge: WorkedInto, over: WorkedInto, way: int) -> None:
        """Whether an edge stitch can be joined over the one below, ``edge``, and the stitch beside it, ``way`` 1 after
        it and -1 before it."""
        refuse(not self.craft.single, "an edge stitch joined with another, where clusters are not single stitches")
        refuse(not (isinstance(edge, Below) and isinstance(over, Below)), "a chain and a stitch below joined")
        assert isinstance(edge, Below), "refused above"
        assert isinstance(over, Below), "refused above"
        between = self.walk[min(edge.index, over.index) + 1 : max(edge.index, over.index)]
        beside = (over.index - edge.index) * way > 0 and all(spot.what == "space" for spot in between)
        refuse(not beside or self.walk[over.index].what != "dc", "an edge stitch joined with one that is not beside it")
        refuse(self.walk[edge.index].what != "edge", "an edge stitch that is joined stands on none")

    def _check_start(self, place: WorkedInto) -> None:
        if isinstance(place, OnChain):
            refuse(not self.chain, "there is no chain to stand on")
            return
        refuse(self.below is None, "row 1 stands on its chain")
        refuse(place.index >= len(self.walk), "the turning chain stands beyond the row below")
        if self.joined:
            refuse(not 0 < place.index < len(self.walk) - 1, "a yarn joined at the edge of the row below")
        elif place.index:
            refuse(self.slipped != place.index, "no slip stitches lead to where the turning chain stands")
        else:
            refuse(self.slipped is not None, "slip stitches lead away from where the turning chain stands")

    def _new_chain(self, place: OnChain, chains: int) -> None:
        own = chains + (self.craft.own or self.below is not None)
        refuse(place.number != own, f"the edge stitch stands on chain {place.number}, not {own}")
        self._reach(place.number)
        if self.below is not None:
            self.stitches += [WorkedStitch("ch", None)] * (self.chain - chains)

    def _reach(self, number: int) -> None:
        refuse(number > self.chain, f"the chain has only {self.chain} chains; a {number}th is asked for")
        refuse(number <= self.last_chain, f"two stitches would stand in chain {number}")
        self.last_chain = number

    # ----------------------------------------------------------------------------------------------- on the way

    def gap(self, chains: int) -> None:
        """The ``chains`` of a gap, after a cluster, or after an edge stitch beside its turning chain."""
        self._open()
        at_start = len(self.spots) == 1 and (not self.craft.counts or self.begun_over is not None)
        refuse(self.spots[-1].what != "dc" and not at_start, "a gap that follows no cluster")
        wanted = self.craft.gap
        refuse(chains != wanted, f"a gap of {chains} chains in a fabric of {wanted or 'no'} chains between clusters")
        self.stitches += [WorkedStitch("ch", None)] * chains
        self.spots.append(Spot("space", chains=chains))

    def extra(self, place: WorkedInto) -> None:
        """The dc beside an edge stitch of a fabric without gaps, which makes a slit between it and the cluster; it
        stands in the ``place`` of the edge stitch or, on a chain, beside it."""
        self._open()
        refuse(self.craft.gap or self.craft.single, "a dc by itself beside an edge stitch, where there is none")
        slit = [Spot("half")] if self.craft.grouped else []
        over = 0
        if not self.places:
            last = self.extra_place or self.begun
            refuse(place != self._beside(last), "the extra dc does not stand where the turning chain stands")
            if self.extra_place is None:
                self.spots += [*slit, Spot("extra"), Spot("space")]
            else:
                refuse(not self.craft.grouped, "two extra dc beside the edge stitch")
                self.spots.insert(-1, Spot("extra"))
        elif self.spots[-1].what == "extra" and self.craft.grouped:
            refuse(place != self._beside(self.extra_place), "extra dc that do not stand together")
            self.spots.append(Spot("extra"))
        else:
            refuse(self.spots[-1].what != "dc", "an extra dc that follows no cluster")
            self.spots += [Spot("space"), Spot("extra")]
            over = self._past_middle()
        self.extra_place = place
        if isinstance(place, OnChain):
            self._next_chain(place.number, over)
        self.stitches.append(WorkedStitch("dc", place))

    def _past_middle(self) -> int:
        """The chains of a foundation that lie under the last cluster past the one it stands in."""
        wide = self.craft.wide
        return wide - (wide + 1) // 2 if self.craft.stacked or self.together else 0

    def _beside(self, place: WorkedInto | None) -> WorkedInto | None:
        """Where the neighbour of an edge stitch stands: on a chain of its own, else in the same place."""
        return OnChain(place.number + 1) if isinstance(place, OnChain) else place

    def _next_chain(self, number: int, skipped: int) -> None:
        """The next chain worked into must come right after those ``skipped``."""
        passed = number - self.last_chain - 1
        refuse(passed > skipped, f"{passed} chains are skipped before chain {number}, where {skipped} should be")
        refuse(0 <= passed < skipped, f"{passed} chains lie under a gap of {skipped}")
        self._reach(number)

    def cluster(self, places: Sequence[WorkedInto]) -> None:
        """A cluster: the place of each of its dc, all one or, on a chain, each the next."""
        self._open()
        k = self.craft.cluster
        refuse(len(places) != k, f"{len(places)} dc together, where a cluster takes {k}")
        gap = self.spots[-1].chains > 0
        refuse(self.spots[-1].what == "dc" and self.craft.gap, "two clusters without a gap between them")
        first = places[0]
        if isinstance(first, OnChain) and k > 1 and all(place == first for place in places):
            self._cluster_in_one_chain(first)
        elif isinstance(first, OnChain):
            self._cluster_on_chain([place for place in places if isinstance(place, OnChain)], gap)
        else:
            refuse(any(place != first for place in places), "the dc of a cluster stand in different places")
            self._cluster_in_space(first.index)
        if self.spots[-1].what == "dc":
            self.spots.append(Spot("space"))
        self.spots += [Spot("dc", cluster=len(self.places))] * k
        self.places.append(first)
        self.stitches += [WorkedStitch("dc", place) for place in places]

    def unit(self, place: WorkedInto) -> None:
        """A cluster, all of it in one ``place``: a chain, or the middle of the next cluster of the row below."""
        self._open()
        craft = self.craft
        refuse(not craft.stacked, "a cluster in a cluster, where they are worked into spaces")
        refuse(self.spots[-1].what == "dc" and craft.gap and self.places, "two clusters without a gap between them")
        if isinstance(place, OnChain):
            lead = sum(spot.chains for spot in self.spots[1:]) if not self.places else craft.gap
            before = self._past_middle() if self.places else 0
            self._next_chain(place.number, lead + before + (craft.wide + 1) // 2 - 1)
        else:
            self._check_unit_below(place.index)
        if self.spots[-1].what == "dc" and craft.grouped:
            self.spots.append(Spot("space"))
        half = craft.cluster // 2 if craft.inner else craft.cluster
        number = len(self.places)
        self.spots += [Spot("dc", cluster=number)] * half
        self.stitches += [WorkedStitch("dc", place)] * half
        if craft.inner:
            self.spots.append(Spot("inner", cluster=number, chains=craft.inner))
            self.stitches += [WorkedStitch("ch", None)] * craft.inner
            self.spots += [Spot("dc", cluster=number)] * (craft.cluster - half)
            self.stitches += [WorkedStitch("dc", place)] * (craft.cluster - half)
        self.places.append(place)

    def _check_unit_below(self, index: int) -> None:
        refuse(self.below is None, "a cluster where there is no row below")
        refuse(not 0 <= index < len(self.walk), "a cluster beyond the row below")
        spot, last = self.walk[index], self._last_index()
        on_edge = spot.what == ("edge" if self.craft.single else "half")
        middle = self.middle_below(spot.cluster)
        refuse(not on_edge and index != middle, "a cluster does not stand in the middle of a cluster")
        refuse(index < last or (index == last and not on_edge), "the work goes back along the row below")
        refuse(any(isinstance(one, Below) and one.index == index for one in self.places), "two clusters in one place")
        passed = {one.cluster for one in self.walk[max(last, 0) : index] if one.cluster >= 0}
        stood = {self.walk[one.index].cluster for one in self.places if isinstance(one, Below)}
        stood |= {self.walk[last].cluster} if last >= 0 else set()
        refuse(passed - stood - {spot.cluster}, "a cluster of the row below passed over")

    def middle_below(self, cluster: int) -> int:
        """The spot of the row below, by its number in ``walk``, in the middle of one of its clusters; -1 for none."""
        members = [nth for nth, spot in enumerate(self.walk) if spot.cluster == cluster and cluster >= 0]
        inner = [nth for nth in members if self.walk[nth].what == "inner"]
        return (inner or members[(len(members) - 1) // 2 :] or [-1])[0]

    def _cluster_in_one_chain(self, place: OnChain) -> None:
        """A whole cluster in the chain under its middle."""
        before = self._past_middle() if self.places else 0
        self.together = True
        self._next_chain(place.number, self.spots[-1].chains + before + (self.craft.cluster + 1) // 2 - 1)

    def _cluster_on_chain(self, places: list[OnChain], gap: bool) -> None:
        refuse(len(places) < self.craft.cluster, "the dc of a cluster stand in different places")
        refuse(any(isinstance(place, Below) for place in self.places), "a cluster on the chain after the row below")
        self._next_chain(places[0].number, self.craft.gap if gap else 0)
        for place in places[1:]:
            self._next_chain(place.number, 0)

    def _cluster_in_space(self, index: int) -> None:
        refuse(self.below is None, "a space where there is no row below")
        refuse(not 0 <= index < len(self.walk), "a space beyond the row below")
        spot, last = self.walk[index], self._last_index()
        assert self.below is not None, "row 1 was refused above"
        if self.below.solid:
            self._cluster_on_solid(index, last)
            return
        places = ("space", "half") if self.craft.slit else ("space", "edge")
        tip = self.craft.bare and spot.what == "dc" and index in (0, len(self.walk) - 1)
        refuse(spot.what not in places and not tip, "a cluster is worked into a stitch, where there is no space")
        refuse(index < last, "the work goes back along the row below")
        refuse(self.places and index == last, "two clusters would stand in one space")
        refuse(index == last and spot.what == "space", "a cluster would stand in the space of the edge stitch")
        self._passes_no_space(last, index)
        own = len(self.walk) - 1 - index
        refuse(spot.what not in ("edge", "dc") and own in self.below.taken, "two clusters would stand in one space")
        self.below.taken.add(own)

    def _cluster_on_solid(self, index: int, last: int) -> None:
        """A cluster in one stitch of a solid row, over the middle of a cluster or space, or past an edge on the edge
        stitch; on the rows at the foot as far from the last one as clusters are wide with their gap, as if it stood
        over its own width. Whether clusters stand side by side, their places say."""
        refuse(self.places and index <= last, "the work goes back along the row below")
        at_foot = self.below is not None and bool(self.below.at_foot)
        if self.walk[index].what == "edge":
            refuse(at_foot or not self._past_edge(index), "a cluster stands on an edge stitch")
        elif at_foot:
            wide, apart = self.craft.cluster + self.craft.gap, index - last
            refuse(self.places and apart != wide, f"clusters {apart} stitches apart, where it should be {wide}")
            lead = (self.craft.cluster + 1) // 2 + self.filled(self.spots)
            refuse(not self.places and index != lead, f"the first cluster in stitch {index + 1}, not {lead + 1}")
        else:
            refuse(index != self.middle_over(index), "a cluster does not stand over a middle")

    def middle_over(self, index: int) -> int:
        """The stitch of the solid row below, by its number in ``walk``, over the middle of the cluster or space that
        the one at ``index`` lies over; -1 for none."""
        over = self.walk[index].over
        same = [nth for nth, spot in enumerate(self.walk) if spot.over == over and spot.what == "solid"]
        return same[len(same) // 2] if over >= 0 and len(same) % 2 else -1

    def _past_edge(self, index: int) -> bool:
        """Whether a cluster on the edge stitch ``index`` of a solid row is a whole one away from the next place over a
        cluster: where a stitch or chain lies beside the edge stitch below."""
        return self.edge_below(first=not index) == "spaced"

    @property
    def over_clusters(self) -> bool:
        """Whether the clusters on a solid row stand over those below it, as one on an edge stitch does; not over the
        spaces."""
        over = [self.walk[one.index] for one in self.places if isinstance(one, Below)]
        return any(spot.what == "edge" or (spot.over >= 0 and spot.over % 2 == 0) for spot in over)

    def edge_filled(self, first: bool) -> int:
        """How many stitches of a solid row below lie between its edge stitch and the first that lies over a cluster,
        where the next row starts or, not ``first``, where it ends."""
        walk = self.walk if first else self.walk[::-1]
        return next(nth for nth, spot in enumerate(walk) if spot.over >= 0 and spot.over % 2 == 0) - 1

    def edge_below(self, first: bool) -> str:
        """The kind of the edge of a solid row below, where the next one starts or, not ``first``, where it ends."""
        assert self.below is not None, "row 1 stands on its chain"
        return (self.below.end if first else self.below.start).kind

    def filled(self, spots: Sequence[Spot]) -> int:
        """The stitches or chains beside the edge stitch that ``spots`` begin with, before the first cluster."""
        before = next((nth for nth, spot in enumerate(spots) if spot.what == "dc"), len(spots))
        return sum(spot.chains if spot.what == "space" else 1 for spot in spots[1:before])

    def _last_index(self) -> int:
        """The spot of the row below last worked into; -1 before the first."""
        for place in reversed(self.places):
            if isinstance(place, Below):
                return place.index
        begun = self.begun if self.begun_over is None else self.begun_over
        return begun.index if isinstance(begun, Below) else -1

    def _passes_no_space(self, last: int, index: int) -> None:
        spaces = sum(spot.what == "space" for spot in self.walk[last + 1 : index])
        refuse(spaces, f"{_number(spaces)} of the row below passed over")

    def _open(self) -> None:
        refuse(self.begun is None, "a turning chain is missing")
        refuse(self.lacking, f"the first cluster lacks {self.lacking} dc")
        refuse(self.ended is not None, "the row goes on after its last stitch")

    # ------------------------------------------------------------------------------------------------- the end

    def end(self, place: WorkedInto, over: WorkedInto | None = None) -> None:
        """The last dc, the edge stitch, in ``place``: nothing can follow it. ``over``: the stitch before that, where it
        is joined with one in that."""
        self._open()
        refuse(not self.places, "no cluster in the row")
        if isinstance(place, OnChain):
            refuse(self.below is not None, "a row ends on the row below, not on a chain")
            past = self._past_middle() if self.spots[-1].what != "extra" else 0
            self._next_chain(place.number, past + (self.craft.gap if self.spots[-1].chains else 0))
            refuse(place.number != self.chain, f"{self.chain - place.number} chains of the foundation are left over")
        else:
            self._check_end(place.index)
        if self.spots[-1].what == "extra":
            wanted = self._beside(self.extra_place)
            refuse(place != wanted, "the last dc does not stand where the extra dc beside it stands")
            self.spots += [Spot("half")] if self.craft.grouped else []
        if self.craft.slit:
            refuse(self.spots[-1].what != "dc", "chains beside the edge stitch at the end")
            self.spots.append(Spot("half"))
        if over is not None:
            self._check_together(place, over, -1)
            refuse(isinstance(over, Below) and over.index <= self._last_index(), "a joined stitch goes back")
        self.ended, self.ended_over = place, over
        self.stitches.append(WorkedStitch("dc", place))
        self.spots.append(Spot("edge"))

    @property
    def whole(self) -> bool:
        """Whether the row has its last stitch: the edge stitch, or the last one of a cluster that is the edge."""
        if self.ended is not None or not self.craft.bare:
            return self.ended is not None
        on_chain = self.below is None
        used = not on_chain or self.last_chain == self.chain
        return bool(self.spots) and self.spots[-1].what == "dc" and not self.lacking and used

    def _check_end(self, index: int) -> None:
        refuse(self.below is None, "row 1 ends on its chain")
        refuse(not 0 <= index < len(self.walk), "the row ends beyond the row below")
        spot, last = self.walk[index], self._last_index()
        refuse(index < last, "the last dc goes back along the row below")
        if self.walk[last].what == "solid" and self.walk[last].over < 0:
            over = self.craft.cluster - (self.craft.cluster + 1) // 2 + 1 + self.filled([spot, *self.spots[::-1]])
            refuse(index - last != over, f"{index - last} stitches after the last cluster, not {over}")
        if spot.what == "space":
            refuse(index == last, "the last dc would stand in the space of the last cluster")
        refuse(spot.what == "half", "the last dc stands beside the edge stitch of the row below")
        refuse(spot.what == "extra" and not self.craft.grouped, "the last dc stands on the extra dc of the row below")
        if not self.craft.stacked:
            self._passes_no_space(last, index)


def _either(numbers: set[int]) -> str:
    return " or ".join(map(str, sorted(numbers)))


def _number(spaces: int) -> str:
    return "a space" if spaces == 1 else f"{spaces} spaces"
