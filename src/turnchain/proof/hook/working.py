"""The fabric in the hand: what can be worked into what, stitch by stitch.

In: stitches, each with the place it is worked into. Out: finished rows (``Course``): every stitch, the spaces it
makes, what stands in the row below and where the edges have come to; or ``Unworkable`` with the reason, where the
hook finds no place to go. Nothing is known here of plans or words: only how clusters, edge stitches and chains are
worked. Positions are half pitches (half a cluster with its gap), growing to the right, right side facing; row 1's
left edge is 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

TURNING_CHAIN = 3  # chains of an edge stitch; any more make the space beside it

Kind: TypeAlias = Literal["flush", "spaced"]
StitchKind: TypeAlias = Literal["dc", "ch", "sl st", "tch"]


class Unworkable(Exception):
    """Something that no hook can do, or that would be another fabric."""


@dataclass(frozen=True, slots=True)
class Craft:
    """What a maker is told before row 1: ``cluster`` dc in a cluster, ``gap`` chains between two."""

    cluster: int
    gap: int

    @property
    def middle(self) -> int:
        """Which dc of a cluster, from 1 and from the outside, carries an edge stitch: the outer of an even two."""
        return (self.cluster + 1) // 2


@dataclass(frozen=True, slots=True)
class Spot:
    """What the next row meets: the top of an ``edge`` stitch, of an ``extra`` dc or of a ``dc`` of a ``cluster``
    (numbered in its row, from 0), or a ``space`` of some ``chains`` (0: a slit). ``turning``: a turning chain."""

    what: Literal["edge", "extra", "dc", "space"]
    cluster: int = -1
    chains: int = 0
    turning: bool = False


@dataclass(frozen=True, slots=True)
class Below:
    """A spot of the row below, by its number as met from where the work was turned."""

    index: int


@dataclass(frozen=True, slots=True)
class OnChain:
    """A chain by its number from the hook."""

    number: int


Place: TypeAlias = Below | OnChain


@dataclass(frozen=True, slots=True)
class Stitch:
    """One stitch and what it is worked into; a chain hangs in the air."""

    kind: StitchKind
    into: Place | None


@dataclass(frozen=True, slots=True)
class EdgeMade:
    """An edge as it came out: where it stands, its kind, and how many half pitches ``inwards`` of the edge below."""

    at: int
    kind: Kind
    inwards: int


@dataclass(slots=True)
class Course:
    """A finished row. ``spots`` in working order with their positions ``at``; ``towards`` is 1 where it was worked to
    the right. ``taken`` fills as the next rows are worked: the spots that clusters stand in."""

    number: int
    towards: int
    spots: tuple[Spot, ...]
    at: tuple[int, ...]
    stitches: tuple[Stitch, ...]
    centres: tuple[int, ...]
    start: EdgeMade
    end: EdgeMade
    taken: set[int] = field(default_factory=set)

    def count(self, kind: StitchKind) -> int:
        """How many stitches of a kind; the turning chain is one."""
        return sum(stitch.kind == kind for stitch in self.stitches)

    @property
    def clusters(self) -> int:
        """How many clusters."""
        return len(self.centres)

    @property
    def left(self) -> EdgeMade:
        """The edge at the left, right side facing."""
        return self.start if self.towards == 1 else self.end

    @property
    def right(self) -> EdgeMade:
        """The edge at the right, right side facing."""
        return self.end if self.towards == 1 else self.start

    @property
    def wide(self) -> int:
        """The width in stitches, gaps counted by their chains."""
        return sum(spot.chains if spot.what == "space" else 1 for spot in self.spots)


def refuse(condition: object, words: str) -> None:
    """Raises Unworkable with ``words`` where ``condition`` holds."""
    if condition:
        raise Unworkable(words)


class Work:
    """A row in the making: every method puts what comes next, or says why it cannot be.

    ``below`` is the row worked into, None for row 1; ``chain`` the chains that hang before it (the foundation, or
    those of a step out), with the turning chain; ``joined``: the yarn is joined anew on the way.
    """

    def __init__(self, craft: Craft, below: Course | None, chain: int = 0, joined: bool = False) -> None:
        self.craft, self.below, self.chain, self.joined = craft, below, chain, joined
        self.walk: tuple[Spot, ...] = below.spots[::-1] if below else ()
        self.walk_at: tuple[int, ...] = below.at[::-1] if below else ()
        self.towards = -below.towards if below else -1
        self.spots: list[Spot] = []
        self.stitches: list[Stitch] = []
        self.places: list[Place] = []  # of each cluster: the place of its first dc
        self.last_chain = 0  # the highest chain used
        self.extra_place: Place | None = None  # of the extra dc at the end
        self.begun: Place | None = None
        self.ended: Place | None = None
        self.slipped: int | None = None

    # ------------------------------------------------------------------------------------------------ the start

    def slip(self, index: int) -> None:
        """A slip stitch into a spot of the row below; each goes on from the last."""
        refuse(self.begun is not None, "a slip stitch after the turning chain")
        refuse(self.below is None, "a slip stitch with no row below")
        refuse(index >= len(self.walk), "slip stitches past the end of the row below")
        refuse(index <= (self.slipped or 0), "slip stitches go back along the row")
        passed = self.walk[(self.slipped or 0) + 1 : index]
        into_slit = self.walk[index].what == "space" and not self.walk[index].chains
        missed = [spot for spot in passed if spot.what not in ("space", "extra" if into_slit else "") or spot.chains]
        refuse(missed, "a stitch is passed over")
        self._slip(index)

    def slip_chain(self, index: int) -> None:
        """One more slip stitch into the chain of a space."""
        refuse(index != self.slipped, "a slip stitch into a chain that was not reached")
        self._slip(index)

    def _slip(self, index: int) -> None:
        self.slipped = index
        self.stitches.append(Stitch("sl st", Below(index)))

    def edge(self, place: Place, chains: int) -> None:
        """The turning chain of ``chains``, standing on ``place``."""
        refuse(self.begun is not None, "a second turning chain")
        wanted = {TURNING_CHAIN, TURNING_CHAIN + self.craft.gap}
        refuse(chains not in wanted, f"a turning chain of {chains} chains; it takes {_either(wanted)}")
        self._check_start(place)
        if isinstance(place, OnChain):
            self._new_chain(place, chains)
        self.begun = place
        self.stitches.append(Stitch("tch", place))
        self.spots.append(Spot("edge", turning=True))
        if chains > TURNING_CHAIN:
            self.spots.append(Spot("space", chains=chains - TURNING_CHAIN))

    def _check_start(self, place: Place) -> None:
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
        refuse(place.number != chains + 1, f"the edge stitch stands on chain {place.number}, not {chains + 1}")
        self._reach(place.number)
        if self.below is not None:
            self.stitches += [Stitch("ch", None)] * (self.chain - chains)

    def _reach(self, number: int) -> None:
        refuse(number > self.chain, f"the chain has only {self.chain} chains; a {number}th is asked for")
        refuse(number <= self.last_chain, f"two stitches would stand in chain {number}")
        self.last_chain = number

    # ----------------------------------------------------------------------------------------------- on the way

    def gap(self, chains: int) -> None:
        """The chains of a gap, after a cluster."""
        self._open()
        refuse(self.spots[-1].what != "dc", "a gap that follows no cluster")
        wanted = self.craft.gap
        refuse(chains != wanted, f"a gap of {chains} chains in a fabric of {wanted or 'no'} chains between clusters")
        self.stitches += [Stitch("ch", None)] * chains
        self.spots.append(Spot("space", chains=chains))

    def extra(self, place: Place) -> None:
        """The dc of a closed edge that makes a slit beside it."""
        self._open()
        refuse(self.craft.gap, "a dc by itself beside an edge stitch, where a gap makes the space")
        if len(self.spots) == 1:
            refuse(place != self._beside(self.begun), "the extra dc does not stand where the turning chain stands")
            self.spots += [Spot("extra"), Spot("space")]
        else:
            refuse(self.spots[-1].what != "dc", "an extra dc that follows no cluster")
            self.spots += [Spot("space"), Spot("extra")]
            self.extra_place = place
        if isinstance(place, OnChain):
            self._next_chain(place.number, 0)
        self.stitches.append(Stitch("dc", place))

    def _beside(self, place: Place | None) -> Place | None:
        """Where the neighbour of an edge stitch stands: on a chain of its own, else in the same place."""
        return OnChain(place.number + 1) if isinstance(place, OnChain) else place

    def _next_chain(self, number: int, skipped: int) -> None:
        """The next chain worked into must come right after those ``skipped``."""
        passed = number - self.last_chain - 1
        refuse(passed > skipped, f"{passed} chains are skipped before chain {number}, where {skipped} should be")
        refuse(0 <= passed < skipped, f"{passed} chains lie under a gap of {skipped}")
        self._reach(number)

    def cluster(self, places: Sequence[Place]) -> None:
        """A cluster: all its dc in one place or, on a chain, each in the next."""
        self._open()
        k = self.craft.cluster
        refuse(len(places) != k, f"{len(places)} dc together, where a cluster takes {k}")
        gap = self.spots[-1].chains > 0
        refuse(self.spots[-1].what == "dc" and self.craft.gap, "two clusters without a gap between them")
        first = places[0]
        if isinstance(first, OnChain):
            self._cluster_on_chain([place for place in places if isinstance(place, OnChain)], gap)
        else:
            refuse(any(place != first for place in places), "the dc of a cluster stand in different places")
            self._cluster_in_space(first.index)
        if self.spots[-1].what == "dc":
            self.spots.append(Spot("space"))
        self.spots += [Spot("dc", cluster=len(self.places))] * k
        self.places.append(first)
        self.stitches += [Stitch("dc", place) for place in places]

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
        refuse(spot.what not in ("space", "edge"), "a cluster is worked into a stitch, where there is no space")
        refuse(index < last, "the work goes back along the row below")
        refuse(self.places and index == last, "two clusters would stand in one space")
        refuse(index == last and spot.what == "space", "a cluster would stand in the space of the edge stitch")
        self._passes_no_space(last, index)
        own = len(self.walk) - 1 - index
        refuse(spot.what == "space" and own in self.below.taken, "two clusters would stand in one space")
        self.below.taken.add(own)

    def _last_index(self) -> int:
        """The spot of the row below last worked into; -1 before the first."""
        for place in reversed(self.places):
            if isinstance(place, Below):
                return place.index
        return self.begun.index if isinstance(self.begun, Below) else -1

    def _passes_no_space(self, last: int, index: int) -> None:
        spaces = sum(spot.what == "space" for spot in self.walk[last + 1 : index])
        refuse(spaces, f"{_number(spaces)} of the row below passed over")

    def _open(self) -> None:
        refuse(self.begun is None, "a turning chain is missing")
        refuse(self.ended is not None, "the row goes on after its last stitch")

    # ------------------------------------------------------------------------------------------------- the end

    def end(self, place: Place) -> None:
        """The last dc, the edge stitch."""
        self._open()
        refuse(not self.places, "no cluster in the row")
        if isinstance(place, OnChain):
            refuse(self.below is not None, "a row ends on the row below, not on a chain")
            self._next_chain(place.number, self.craft.gap if self.spots[-1].chains else 0)
            refuse(place.number != self.chain, f"{self.chain - place.number} chains of the foundation are left over")
        else:
            self._check_end(place.index)
        if self.spots[-1].what == "extra":
            wanted = self._beside(self.extra_place)
            refuse(place != wanted, "the last dc does not stand where the extra dc beside it stands")
        self.ended = place
        self.stitches.append(Stitch("dc", place))
        self.spots.append(Spot("edge"))

    def _check_end(self, index: int) -> None:
        refuse(self.below is None, "row 1 ends on its chain")
        refuse(not 0 <= index < len(self.walk), "the row ends beyond the row below")
        spot, last = self.walk[index], self._last_index()
        refuse(index < last, "the last dc goes back along the row below")
        if spot.what == "space":
            refuse(index == last, "the last dc would stand in the space of the last cluster")
        refuse(spot.what == "extra", "the last dc stands on the extra dc of the row below")
        self._passes_no_space(last, index)

    # ----------------------------------------------------------------------------------------------- the row made

    def finish(self, number: int) -> Course:
        """The finished row, with its positions; refused where an edge leans as none is worked."""
        refuse(self.begun is None, "a turning chain is missing")
        refuse(self.ended is None, "the dc at the end of the row is missing")
        centres = self._centres()
        start_kind, end_kind = self._kind(self.spots[1]), self._kind(self.spots[-2])
        start_at = centres[0] - self.towards * (1 if start_kind == "flush" else 2)
        end_at = centres[-1] + self.towards * (1 if end_kind == "flush" else 2)
        start = EdgeMade(start_at, start_kind, self._inwards(start_at, first=True))
        end = EdgeMade(end_at, end_kind, self._inwards(end_at, first=False))
        if self.below is not None:
            self._check_edge(start, self.begun, first=True)
            self._check_edge(end, self.ended, first=False)
        at = self._positions(centres, start_at, end_at)
        made = Course(
            number, self.towards, tuple(self.spots), at, tuple(self.stitches), tuple(centres), start, end
        )
        return made if self.below is not None else shifted(made)

    @staticmethod
    def _kind(neighbour: Spot) -> Kind:
        return "flush" if neighbour.what == "dc" else "spaced"

    def _inwards(self, at: int, first: bool) -> int:
        if self.below is None:
            return 0
        return (at - self.walk_at[0]) * self.towards if first else (self.walk_at[-1] - at) * self.towards

    def _centres(self) -> list[int]:
        """Where each cluster stands: over its space, those on a chain side by side before them."""
        known = [self.walk_at[one.index] if isinstance(one, Below) else None for one in self.places]
        anchor = next((nth for nth, at in enumerate(known) if at is not None), None)
        if anchor is None:
            last = self._last_centre() if self.below is not None else 0
            return [last - 2 * self.towards * nth for nth in reversed(range(len(known)))]
        first = known[anchor]
        assert first is not None, "the anchor is known"
        centres = [first + 2 * self.towards * (nth - anchor) for nth in range(len(known))]
        for wanted, at in zip(centres, known, strict=True):
            refuse(at is not None and at != wanted, "clusters that are not neighbours stand side by side")
        return centres

    def _last_centre(self) -> int:
        """Where the last cluster stands in a row whose clusters all stand on a new chain, seen from its last dc."""
        assert isinstance(self.ended, Below), "only row 1 ends on its chain"
        spaced = self._kind(self.spots[-2]) == "spaced"
        at = self.walk_at[self.ended.index]
        if spaced and self.walk[self.ended.index].what == "edge" and self._kind(self.walk[-2]) == "spaced":
            at += self.towards
        return at - self.towards * (2 if spaced else 1)

    def _check_edge(self, edge: EdgeMade, place: Place | None, first: bool) -> None:
        """Whether an edge that stands there, on that place, is one that can be worked."""
        where = "start" if first else "end"
        if isinstance(place, OnChain):
            self._check_step_out(edge)
            return
        assert place is not None, "the row has its edges"
        spot, at = self.walk[place.index], self.walk_at[place.index]
        if spot.what == "edge":
            self._check_on_edge(edge, place.index, first)
        elif spot.what == "space":
            refuse(edge.at != at, f"the edge stitch at the {where} stands in a space it leans away from")
        else:
            self._check_on_dc(edge, place.index, first)

    def _check_on_edge(self, edge: EdgeMade, index: int, first: bool) -> None:
        where = "start" if first else "end"
        refuse(index != (0 if first else len(self.walk) - 1), f"the {where} stands on the wrong edge of the row below")
        below = self._kind(self.walk[1 if first else -2])
        # A cluster on the edge stitch itself makes the increase of an edge without a gap.
        allowed = (0, -1, 1) if below == "flush" and first else (0, -1)
        refuse(edge.inwards not in allowed, f"the edge stitch at the {where} leans {edge.inwards} half clusters in")

    def _check_on_dc(self, edge: EdgeMade, index: int, first: bool) -> None:
        where = "start" if first else "end"
        spot = self.walk[index]
        refuse(spot.what != "dc", f"the edge stitch at the {where} stands on no stitch of a cluster")
        members = [nth for nth, one in enumerate(self.walk) if one.what == "dc" and one.cluster == spot.cluster]
        from_outside = 1 + (index - members[0] if first else members[-1] - index)
        if edge.inwards == 1:
            refuse(first, "a decrease at the start leans from the edge stitch below")
            refuse(self._kind(self.walk[-2]) != "flush", "a decrease at the end after a row with a gap at its edge")
            refuse(from_outside != 1, "a decrease at the end stands in the outermost dc")
            return
        refuse(edge.inwards < 1 or from_outside != self.craft.middle,
               f"the edge stitch at the {where} stands on the wrong dc of a cluster")
        refuse(edge.at != self.walk_at[index], f"the edge stitch at the {where} leans away from its cluster")

    def _check_step_out(self, edge: EdgeMade) -> None:
        refuse(edge.inwards >= 0 or edge.inwards % 2, "a new chain that does not reach out by whole clusters")
        k, g, clusters = self.craft.cluster, self.craft.gap, -edge.inwards // 2
        flush = self._kind(self.walk[1]) == "flush"
        base = clusters * (k + g) if flush else clusters * k + (clusters - 1) * g + 1
        turning = TURNING_CHAIN + sum(spot.chains for spot in self.spots[1:2])
        made = self.chain - turning
        refuse(made != base, f"a new chain of {made} and the turning chain, where {clusters} clusters take {base}")

    def _positions(self, centres: list[int], start: int, end: int) -> tuple[int, ...]:
        """The position of every spot; all dc of a cluster have that of its middle."""
        found: list[int] = []
        seen = -1
        for nth, spot in enumerate(self.spots):
            if spot.what == "dc":
                seen = spot.cluster
                found.append(centres[seen])
            elif spot.what == "edge":
                found.append(end if nth else start)
            elif seen == -1:
                found.append(start + self.towards)
            elif seen == len(centres) - 1:
                found.append(end - self.towards)
            else:
                found.append(centres[seen] + self.towards)
        return tuple(found)


def shifted(course: Course) -> Course:
    """Row 1 with its left edge at 0."""
    by = course.left.at
    course.at = tuple(at - by for at in course.at)
    course.centres = tuple(at - by for at in course.centres)
    course.start = EdgeMade(course.start.at - by, course.start.kind, 0)
    course.end = EdgeMade(course.end.at - by, course.end.kind, 0)
    return course


def _either(numbers: set[int]) -> str:
    return " or ".join(map(str, sorted(numbers)))


def _number(spaces: int) -> str:
    return "a space" if spaces == 1 else f"{spaces} spaces"
