"""A maker who follows written steps, and nothing else.

In: what a piece is made of (``Craft``), its foundation, then row after row of steps ("turn", "cluster in the next
space") with what the pattern says of the row. Out: the rows as they come out; ``Unworkable`` where a step cannot be
done or where the pattern says of a row what it is not. "First" and "next" are looked for in the row below, from where
the hook is; nothing is known of plans or languages.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

from turnchain.proof.working import TURNING_CHAIN, Below, Course, Craft, OnChain, Unworkable, Work, refuse

Which: TypeAlias = Literal["first", "next", "last", "same"]

# ---------------------------------------------------------------------------------------------------- the places


@dataclass(frozen=True, slots=True)
class FromHook:
    """A chain by its number from the hook; the chains before it are skipped."""

    number: int


@dataclass(frozen=True, slots=True)
class LastChain:
    """The last chain of the foundation."""


@dataclass(frozen=True, slots=True)
class Space:
    """A space of the row below."""

    which: Which


@dataclass(frozen=True, slots=True)
class DcOf:
    """The ``nth`` dc, as met, of a cluster of the row below."""

    nth: int
    which: Which


@dataclass(frozen=True, slots=True)
class LastDc:
    """The last dc of the last cluster of the row below."""


@dataclass(frozen=True, slots=True)
class TurningChain:
    """The ``nth`` chain of the turning chain below."""

    nth: int


@dataclass(frozen=True, slots=True)
class Base:
    """What this row's own turning chain stands on."""


@dataclass(frozen=True, slots=True)
class EdgeDc:
    """The last dc of the row below, where a new chain began."""


Named: TypeAlias = FromHook | LastChain | Space | DcOf | LastDc | TurningChain | Base | EdgeDc

# ----------------------------------------------------------------------------------------------------- the steps


@dataclass(frozen=True, slots=True)
class Chain:
    """``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class Turn:
    """Turn the work."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip stitch in each of the next ``number`` stitches, or one ``into`` a space."""

    number: int = 1
    into: Which | None = None


@dataclass(frozen=True, slots=True)
class Dc:
    """``number`` dc in one place."""

    number: int
    place: Named


@dataclass(frozen=True, slots=True)
class Cluster:
    """A cluster in a place, ``and_dc``: with one more dc there."""

    place: Named
    and_dc: bool = False


@dataclass(frozen=True, slots=True)
class DcInChains:
    """A dc in each of the next ``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterInSpaces:
    """A cluster in each of the next ``number`` spaces."""

    number: int


@dataclass(frozen=True, slots=True)
class SkipChains:
    """``number`` chains left out."""

    number: int


@dataclass(frozen=True, slots=True)
class SkipCluster:
    """A cluster of the row below passed by."""

    which: Which


@dataclass(frozen=True, slots=True)
class Repeat:
    """``steps``, ``times`` times."""

    steps: tuple[Step, ...]
    times: int


@dataclass(frozen=True, slots=True)
class Join:
    """The yarn joined in a place, counted from where the first section ends, ``skipped`` whole clusters on."""

    yarn: str | None
    skipped: int
    place: Space | DcOf


@dataclass(frozen=True, slots=True)
class Leave:
    """What stays unworked at the end: the turning chain, the last ``clusters``, or the rest."""

    what: Literal["tch", "clusters", "rest"]
    clusters: int = 0


@dataclass(frozen=True, slots=True)
class Change:
    """The new yarn comes in with the last yarn-over of the stitch just made."""

    yarn: str


Step: TypeAlias = (
    Chain
    | Turn
    | Slip
    | Dc
    | Cluster
    | DcInChains
    | ClusterInSpaces
    | SkipChains
    | SkipCluster
    | Repeat
    | Join
    | Leave
    | Change
)

# ------------------------------------------------------------------------------------------------- what is told


@dataclass(frozen=True, slots=True)
class Count:
    """What a row is said to have: clusters, and stitches by kind."""

    clusters: int
    dc: int
    ch: int
    slips: int
    tch: int


@dataclass(frozen=True, slots=True)
class Shaped:
    """An edge said to go in (less than 0) or out by ``halves`` half clusters."""

    where: Literal["start", "end"]
    halves: int


@dataclass(slots=True)
class Told:
    """A row as the pattern has it. ``side``: "RS" or "WS". ``change_to``: the yarn that the next row is in."""

    number: int
    side: str
    yarn: str | None
    steps: tuple[Step, ...]
    count: Count
    shaped: tuple[Shaped, ...] = ()
    change_to: str | None = None
    fasten_off: bool = False


@dataclass(frozen=True, slots=True)
class Made:
    """A row as it came out, and in which yarn."""

    course: Course
    yarn: str | None


# ----------------------------------------------------------------------------------------------------- one row


@dataclass(slots=True)
class Hand:
    """One row while its steps are done. ``at`` is the spot of the row below where the hook is; ``chain`` the chain
    last worked or skipped, from the hook."""

    craft: Craft
    work: Work
    turning: int = 0  # the turning chain of row 1, as told
    from_section: int | None = None  # where the first section ended in the row below
    at: int = 0
    chain: int = 0
    hanging: int = 0  # chains made before turning
    turned: bool = False
    joined: bool = False
    run: list[int] = field(default_factory=list)  # chains with a dc that are no whole cluster yet
    left: Leave | None = None
    yarn: str | None = None  # joined
    change_to: str | None = None

    def do(self, steps: tuple[Step, ...]) -> None:
        """Every step in turn."""
        for step in steps:
            refuse(self.left and not isinstance(step, Change), "the row goes on after what is left unworked")
            refuse(getattr(step, "number", 1) < 1, "something is to be worked no times")
            if self.run and not isinstance(step, DcInChains | Repeat):
                self._extra_of_run()
            _DO[type(step)](self, step)

    # Chains and turning.

    def _chain(self, step: Chain) -> None:
        if self.work.begun is not None:
            self.work.gap(step.number)
        elif self.turned or self.joined:
            self.work.edge(Below(self.at), step.number)
        else:
            refuse(self.work.below is None, "row 1 begins on its foundation, not with more chains")
            refuse(self.hanging, "chains made twice before turning")
            self.hanging = step.number

    def _turn(self, step: Turn) -> None:
        refuse(self.turned or self.joined, "the work is turned twice")
        refuse(self.work.begun is not None, "the work is turned in the middle of a row")
        self.turned = True
        if self.hanging > TURNING_CHAIN + self.craft.gap:
            self.work.chain = self.hanging
        elif self.hanging:
            self.work.edge(Below(0), self.hanging)

    def _own_edge(self, turning: int) -> None:
        """The edge stitch on the chain that hangs from the hook."""
        refuse(self.work.below is not None and not self.turned, "the work is not turned")
        refuse(not self.work.chain, "there is no chain to work into")
        self.work.edge(OnChain(turning + 1), turning)
        self.chain = turning + 1

    # Stitches on a chain.

    def _from_hook(self, number: int) -> None:
        refuse(self.work.begun is not None, "a chain counted from the hook in the middle of a row")
        spaced = TURNING_CHAIN + self.craft.gap
        turning = self.turning or (TURNING_CHAIN if number == TURNING_CHAIN + 2 else spaced)
        first = turning + 2 + (turning - TURNING_CHAIN)
        refuse(number != first, f"the first dc in chain {number}; after a turning chain of {turning} it is {first}")
        self._own_edge(turning)
        self.chain = number
        self.run = [number]

    def _dc_in_chains(self, step: DcInChains) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        k = self.craft.cluster
        refuse(step.number > k, f"{step.number} dc in chains of their own; a cluster has {k}")
        if self.run and len(self.run) + step.number != k:
            self._extra_of_run()
        numbers = self.run + [self.chain + 1 + nth for nth in range(step.number)]
        self.run, self.chain = [], numbers[-1]
        if len(numbers) == 1 and not self.craft.gap:
            self.work.extra(OnChain(numbers[0]))
        else:
            self.work.cluster([OnChain(number) for number in numbers])

    def _extra_of_run(self) -> None:
        """A dc that stands alone on its chain: the extra one of a closed edge."""
        (number,), self.run = self.run, []
        self.work.extra(OnChain(number))

    def _skip_chains(self, step: SkipChains) -> None:
        if self.work.begun is None:
            refuse(self.work.below is None, "row 1 begins with a dc counted from the hook")
            refuse(step.number != self.work.chain, f"{step.number} chains skipped of {self.work.chain}")
            self._own_edge(TURNING_CHAIN + self.craft.gap)
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

    def _cluster(self, step: Cluster) -> None:
        place = self._find(step.place)
        self.work.cluster([place] * self.craft.cluster)
        if step.and_dc:
            self.work.end(place)

    def _clusters(self, step: ClusterInSpaces) -> None:
        for _ in range(step.number):
            self._cluster(Cluster(Space("next")))

    def _dc(self, step: Dc) -> None:
        if isinstance(step.place, FromHook):
            refuse(step.number != 1, "two dc would stand in one chain")
            self._from_hook(step.place.number)
        elif isinstance(step.place, LastChain):
            self._last_chain(step.number)
        elif isinstance(step.place, Base):
            refuse(step.number != 1, "two extra dc beside the edge stitch")
            self.work.extra(self._find(step.place))
        else:
            place = self._find(step.place)
            for _ in range(step.number - 1):
                self.work.extra(place)
            self.work.end(place)

    def _find(self, named: Named) -> Below | OnChain:
        """The place that is meant, seen from where the hook is."""
        if isinstance(named, Base):
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

    def _index(self, named: Named) -> int:
        walk = self.work.walk
        if isinstance(named, Space):
            return self._space(named.which)
        if isinstance(named, DcOf):
            return self._dc_of(named)
        if isinstance(named, LastDc):
            return max(nth for nth, spot in enumerate(walk) if spot.what == "dc")
        if isinstance(named, EdgeDc):
            refuse(self.at or not self.work.chain, "the edge dc, when no new chain begins there")
            return 0
        refuse(not isinstance(named, TurningChain), "no such place in a row")
        assert isinstance(named, TurningChain), "refused above"
        refuse(named.nth != TURNING_CHAIN, f"the edge stitch goes in chain {TURNING_CHAIN} of the turning chain below")
        refuse(self._whole(self.at + 1, len(walk)), "a cluster is passed over without a word")
        return len(walk) - 1

    def _space(self, which: Which) -> int:
        walk = self.work.walk
        if which == "same":
            refuse(walk[self.at].what != "space", "the first section does not end in a space")
            return self.at
        refuse(which == "first" and self.at, "the first space is behind the hook")
        found = next((nth for nth in range(self.at + 1, len(walk)) if walk[nth].what == "space"), None)
        refuse(found is None, "there is no space left in the row below")
        assert found is not None, "refused above"
        # From one space to the next lies a cluster; from the edge it must be said that one is passed.
        leaving = walk[self.at].what != "space" or (self.joined and self.work.begun is None)
        refuse(which == "next" and leaving and self._whole(self.at + 1, found),
               "a cluster is passed over without a word")
        return found

    def _whole(self, first: int, last: int) -> int:
        """How many clusters stand whole among the spots ``first`` to before ``last``."""
        tops = Counter(spot.cluster for spot in self.work.walk[first:last] if spot.what == "dc")
        return sum(number == self.craft.cluster for number in tops.values())

    def _next_cluster(self) -> list[int]:
        """The spots of the next whole cluster after the hook."""
        walk = self.work.walk
        for nth in range(self.at + 1, len(walk)):
            if walk[nth].what == "dc" and walk[nth - 1].cluster != walk[nth].cluster:
                return list(range(nth, nth + self.craft.cluster))
        raise Unworkable("there is no cluster left in the row below")

    def _dc_of(self, named: DcOf) -> int:
        refuse(not 1 <= named.nth <= self.craft.cluster, f"a cluster has no {named.nth}th dc")
        if named.which == "next":
            return self._next_cluster()[named.nth - 1]
        own = self.work.walk[self.at]
        refuse(own.what != "dc", "the first section does not end on a cluster")
        return [nth for nth, spot in enumerate(self.work.walk) if spot.cluster == own.cluster][named.nth - 1]

    # Passing by.

    def _skip_cluster(self, step: SkipCluster) -> None:
        refuse(self.work.begun is None, "a turning chain is missing")
        refuse(self.work.below is None, "there is no row below row 1")
        self._chain_used_up()
        found = self._next_cluster()
        refuse(step.which == "first" and (self.at or found[0] > 1), "the first cluster is not next to the hook")
        rest = self._whole(found[-1] + 1, len(self.work.walk))
        refuse(step.which == "last" and rest, "the cluster passed over is not the last")
        self.at = found[-1]

    def _slip(self, step: Slip) -> None:
        refuse(not self.turned, "the work is not turned")
        refuse(self.hanging, "slip stitches after chains")
        if step.into is not None:
            self.at = self._space_ahead(step.into)
            self.work.slip(self.at)
            return
        for _ in range(step.number):
            self._slip_on()

    def _space_ahead(self, which: Which) -> int:
        walk = self.work.walk
        refuse(which == "same" or (which == "first" and self.at), "no such space to slip into")
        found = next((nth for nth in range(self.at + 1, len(walk)) if walk[nth].what == "space"), None)
        refuse(found is None, "there is no space left in the row below")
        assert found is not None, "refused above"
        return found

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

    def _join(self, step: Join) -> None:
        refuse(self.from_section is None, "a yarn is joined where no other section has ended")
        refuse(self.joined or self.turned or self.hanging, "a yarn is joined in the middle of a row")
        assert self.from_section is not None, "refused above"
        self.joined, self.work.joined, self.yarn = True, True, step.yarn
        self.at = self.from_section
        for _ in range(step.skipped):
            self.at = self._next_cluster()[-1]
        self.at = self._space(step.place.which) if isinstance(step.place, Space) else self._dc_of(step.place)

    # The end.

    def _leave(self, step: Leave) -> None:
        refuse(self.work.ended is None, "the row is left before its last stitch")
        self.left = step

    def _change(self, step: Change) -> None:
        refuse(self.work.ended is None, "the yarn changes before the last stitch of the row")
        refuse(self.change_to is not None, "the yarn changes twice")
        self.change_to = step.yarn

    def _repeat(self, step: Repeat) -> None:
        refuse(step.times < 1, "a repeat of no times")
        for _ in range(step.times):
            self.do(step.steps)

    def finished(self, number: int) -> Course:
        """The row, once what it leaves unworked is what it says."""
        refuse(self.work.below is not None and not (self.turned or self.joined), "the work is not turned")
        made = self.work.finish(number)
        if self.work.below is not None:
            self._check_left()
        return made

    def _check_left(self) -> None:
        walk, left = self.work.walk, self.left
        rest, clusters = len(walk) - 1 - self.at, self._whole(self.at + 1, len(walk))
        if left is None:
            refuse(rest, "the end of the row below is left unworked without a word")
        elif left.what == "tch":
            refuse(rest != 1, "more or less than the turning chain is left unworked")
        elif left.what == "clusters":
            refuse(clusters != left.clusters, f"{clusters} clusters are left unworked, not {left.clusters}")
        else:
            refuse(not rest, "nothing is left unworked")


_DO: dict[type[Any], Callable[[Hand, Any], None]] = {
    Chain: Hand._chain,
    Turn: Hand._turn,
    Slip: Hand._slip,
    Dc: Hand._dc,
    Cluster: Hand._cluster,
    DcInChains: Hand._dc_in_chains,
    ClusterInSpaces: Hand._clusters,
    SkipChains: Hand._skip_chains,
    SkipCluster: Hand._skip_cluster,
    Repeat: Hand._repeat,
    Join: Hand._join,
    Leave: Hand._leave,
    Change: Hand._change,
}

# --------------------------------------------------------------------------------------------------- the piece


class Maker:
    """Works a piece row by row. ``chains`` is the foundation, ``turning`` of them row 1's turning chain."""

    def __init__(self, craft: Craft, chains: int, turning: int, yarn: str | None) -> None:
        refuse(craft.cluster < 2, f"a cluster of {craft.cluster} dc")
        self.craft, self.chains, self.turning, self.yarn = craft, chains, turning, yarn
        self.rows: list[Made] = []
        self.last: Course | None = None  # the row that the next one is worked into
        self.side = "WS"  # so that row 1 comes to be a right-side row
        self.off = False
        self._divided: Course | None = None
        self._section_end: int | None = None
        self._going_back = False

    def divide(self) -> None:
        """A section begins on a part of the row just worked."""
        refuse(self._divided is not None, "a piece that is divided twice")
        refuse(self.last is None, "there is no row to divide")
        self._divided = self.last

    def go_back(self) -> None:
        """Back to the row that was divided."""
        refuse(self._divided is None or self._section_end is None, "there is no divided row to go back to")
        refuse(not self.off, "the yarn of the first section is not fastened off")
        self.last, self.off, self._going_back = self._divided, False, True
        assert self.last is not None, "refused above"
        self.side = "RS" if self.last.number % 2 else "WS"

    def row(self, told: Told) -> Course:
        """Works the next row. Raises Unworkable, naming the row."""
        try:
            return self._row(told)
        except Unworkable as error:
            raise Unworkable(f"row {told.number}: {error}") from None

    def _row(self, told: Told) -> Course:
        refuse(self.off, "the yarn is fastened off")
        number = 1 if self.last is None else self.last.number + 1
        refuse(told.number != number, f"it comes after row {number - 1}")
        side = "WS" if self.side == "RS" else "RS"
        refuse(told.side != side, f"{side} faces, not {told.side}")
        joins = told.steps and isinstance(told.steps[0], Join)
        refuse(self._going_back and not joins, "the yarn is not joined anew")
        hand = self._hand()
        hand.do(told.steps)
        course = hand.finished(number)
        yarn = self._check_yarn(hand, told)
        self._check_count(course, told)
        self._check_shaped(course, told, hand)
        self.rows.append(Made(course, yarn))
        if self._divided is self.last and not hand.joined and self._divided is not None:
            self._section_end = hand.at
        self.last, self.side, self.off = course, side, told.fasten_off
        return course

    def _hand(self) -> Hand:
        first = self.last is None
        work = Work(self.craft, self.last, self.chains if first else 0)
        back = self._section_end if self._going_back else None
        return Hand(self.craft, work, self.turning if first else 0, back)

    def _check_yarn(self, hand: Hand, told: Told) -> str | None:
        self._going_back = False
        if hand.joined:
            self.yarn = hand.yarn or (self.yarn if told.yarn is None else told.yarn)
        yarn = self.yarn
        refuse(told.yarn != yarn, f"it is to be in {told.yarn}, but {yarn} is on the hook")
        change = hand.change_to or told.change_to
        refuse(hand.change_to and told.change_to and hand.change_to != told.change_to, "two yarns come in at once")
        refuse(change is not None and told.fasten_off, "the yarn changes and is fastened off")
        refuse(change == yarn and change is not None, f"the yarn changes from {yarn} to {yarn}")
        self.yarn = change or yarn
        return yarn

    def _check_count(self, course: Course, told: Told) -> None:
        said, k = told.count, self.craft.cluster
        took = said.clusters * k
        refuse(took > said.dc, f"{said.clusters} clusters take {took} dc; {said.dc} are counted")
        made = Count(
            course.clusters, course.count("dc"), course.count("ch"), course.count("sl st"), course.count("tch")
        )
        refuse(made != said, f"it counts {_counted(said)}; {_counted(made)} come out")

    def _check_shaped(self, course: Course, told: Told, hand: Hand) -> None:
        divided = self._divided is not None and self._divided is self.last
        made = []
        if course.start.inwards and not hand.joined:
            made.append(Shaped("start", -course.start.inwards))
        if course.end.inwards and not (divided and not hand.joined):
            made.append(Shaped("end", -course.end.inwards))
        refuse(tuple(made) != told.shaped, f"its edges are said to go {_edges(told.shaped)}; they go {_edges(made)}")

    def finish(self) -> list[Made]:
        """All rows, once the last is fastened off."""
        refuse(not self.rows, "a piece without rows")
        refuse(not self.off, "the last row is not fastened off")
        return self.rows


def _counted(count: Count) -> str:
    return f"{count.clusters} clusters, {count.dc} dc, {count.ch} ch, {count.slips} sl st, {count.tch} tch"


def _edges(shaped: tuple[Shaped, ...] | list[Shaped]) -> str:
    return ", ".join(f"{one.halves:+d} half clusters at the {one.where}" for one in shaped) or "straight"
