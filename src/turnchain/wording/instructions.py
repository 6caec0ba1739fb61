"""The instructions of a piece as a tree, before they are words in any language.

In: a ``PiecePlan``. Out: ``PieceInstructions``: the foundation, and for every section its rows, each a tuple of
steps ("ch 4", "turn", "cluster in the next space"), grouped as a person would write them. No word of any language
stands here: ``words`` says the tree by a table of phrases.

How an edge is worked follows from the move and the kind of the edge below, by the tables of the fabric. What is
met in the row below is named as a maker meets it: the first, the next, the last.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from typing import Literal, TypeAlias

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Side, starting_side
from turnchain.fabric.plan import Edge, PiecePlan, Row
from turnchain.fabric.stitches import Counts
from turnchain.pattern import Fabric

Which: TypeAlias = Literal["first", "next", "last", "same"]
FabricSide: TypeAlias = Literal["RS", "WS"]

# ---------------------------------------------------------------------------------------------------- places


@dataclass(frozen=True, slots=True)
class ChainFromHook:
    """A chain by its number from the hook; the chains skipped before it hold the turning chain."""

    number: int


@dataclass(frozen=True, slots=True)
class NextChain:
    """The next chain of a foundation."""


@dataclass(frozen=True, slots=True)
class LastChain:
    """The last chain of the foundation."""


@dataclass(frozen=True, slots=True)
class Space:
    """A space of the row below."""

    which: Which


@dataclass(frozen=True, slots=True)
class DcOfCluster:
    """The ``nth`` dc, as met, of a cluster of the row below."""

    nth: int
    which: Which


@dataclass(frozen=True, slots=True)
class LastDcOfLastCluster:
    """The dc next to the post of a flush edge: where a decrease stands."""


@dataclass(frozen=True, slots=True)
class TopOfTurningChain:
    """The third chain of the turning chain below, be it 3 or 3 and the gap."""


@dataclass(frozen=True, slots=True)
class BaseOfTurningChain:
    """What this row's own turning chain stands on."""


@dataclass(frozen=True, slots=True)
class EdgeDc:
    """The last dc of the row below, from which a step out was chained."""


Place: TypeAlias = (
    ChainFromHook
    | NextChain
    | LastChain
    | Space
    | DcOfCluster
    | LastDcOfLastCluster
    | TopOfTurningChain
    | BaseOfTurningChain
    | EdgeDc
)

# ----------------------------------------------------------------------------------------------------- steps


@dataclass(frozen=True, slots=True)
class Chain:
    """``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class Turn:
    """Turn the work."""


@dataclass(frozen=True, slots=True)
class SlipAlong:
    """A slip stitch in each of the next ``number`` stitches, a chain being one too."""

    number: int


@dataclass(frozen=True, slots=True)
class SlipInto:
    """One slip stitch."""

    place: Place


@dataclass(frozen=True, slots=True)
class Work:
    """What is worked in one place: a dc, two, a cluster, a cluster and a dc."""

    what: Literal["dc", "two_dc", "cl", "cl_and_dc"]
    place: Place


@dataclass(frozen=True, slots=True)
class DcInChains:
    """A dc in each of the next ``number`` chains."""

    number: int


@dataclass(frozen=True, slots=True)
class ClusterInSpaces:
    """A cluster in each of the next ``number`` spaces (closed fabric: nothing stands between them)."""

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
    """``steps`` worked ``times`` times, at least twice."""

    steps: tuple[Step, ...]
    times: int


@dataclass(frozen=True, slots=True)
class Join:
    """The yarn joined anew at ``place``, counted from where ``section`` ends in this row, ``skipped`` whole
    clusters on."""

    section: str
    skipped: int
    place: Space | DcOfCluster
    colour: str | None


@dataclass(frozen=True, slots=True)
class Leave:
    """What stays unworked at the row's end: the turning chain alone, the last ``clusters``, or the rest."""

    what: Literal["tch", "clusters", "rest"]
    clusters: int = 0


Step: TypeAlias = (
    Chain
    | Turn
    | SlipAlong
    | SlipInto
    | Work
    | DcInChains
    | ClusterInSpaces
    | SkipChains
    | SkipCluster
    | Repeat
    | Join
    | Leave
)

# ------------------------------------------------------------------------------------------ rows and pieces


@dataclass(frozen=True, slots=True)
class Shaping:
    """An edge that goes in or out: at the row's start or end, by ``halves`` half clusters (outwards: more than 0)."""

    where: Literal["start", "end"]
    halves: int


@dataclass(frozen=True, slots=True)
class RowInstructions:
    """One row: how it is worked, from which side, in what yarn, and what it counts.

    ``change_to`` is the yarn of the next row where that is another; it comes in with the last yarn-over of this
    one. ``fasten_off``: no row goes on from here.
    """

    number: int
    section: str
    side: FabricSide
    colour: str | None
    steps: tuple[Step, ...]
    clusters: int
    counts: Counts
    shaping: tuple[Shaping, ...]
    change_to: str | None
    fasten_off: bool

    def same_words(self, other: RowInstructions) -> bool:
        """Whether the two are worked in the same words and come to the same count; yarns may differ."""
        mine = (self.steps, self.clusters, self.counts, self.shaping)
        return mine == (other.steps, other.clusters, other.counts, other.shaping)


@dataclass(frozen=True, slots=True)
class Block:
    """Rows told in one breath. Without ``models``, one row or several in the same words; with them, the rows go
    through the models in turn, which are the rows just before."""

    rows: tuple[RowInstructions, ...]
    models: tuple[RowInstructions, ...] = ()


@dataclass(frozen=True, slots=True)
class Foundation:
    """The chain to make: ``chains``, that is ``multiple`` times the clusters of row 1 and ``plus``. ``turning`` of
    them are row 1's turning chain, ``base`` lie under it."""

    chains: int
    base: int
    turning: int
    multiple: int
    plus: int
    colour: str | None


@dataclass(frozen=True, slots=True)
class SectionInstructions:
    """The body, or a section that begins on row ``after`` of it; ``first`` is its first row."""

    name: str
    after: int | None
    joined: bool
    first: RowInstructions
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class PieceInstructions:
    """All of a piece. ``colours`` are its yarns in the order met, none where the pattern names none."""

    name: str
    count: int
    worked: Literal["sideways", "upwards"]
    row_count: int
    fabric: Fabric
    colours: tuple[str, ...]
    foundation: Foundation
    sections: tuple[SectionInstructions, ...]

    def rows(self) -> Iterator[RowInstructions]:
        """Every row in the order worked."""
        for section in self.sections:
            for block in section.blocks:
                yield from block.rows


def of_piece(piece: PiecePlan) -> PieceInstructions:
    """The instructions of ``piece``."""
    return PieceInstructions(
        name=piece.name,
        count=piece.count,
        worked=piece.worked,
        row_count=piece.row_count,
        fabric=piece.fabric,
        colours=tuple(dict.fromkeys(row.colour for row in piece.rows if row.colour)),
        foundation=_foundation(piece),
        sections=tuple(_section(piece, name) for name in piece.sections),
    )


def of_row(piece: PiecePlan, row: Row) -> RowInstructions:
    """The instructions of one row of ``piece``."""
    following = piece.rows[row.index + 1] if row.index + 1 < len(piece.rows) else None
    if following is not None and following.under != row.index:
        following = None  # a section that is joined anew does not go on from here
    change = following is not None and following.colour != row.colour
    return RowInstructions(
        number=row.number,
        section=row.section,
        side=fabric_side(row.number),
        colour=row.colour,
        steps=_steps(piece, row),
        clusters=row.clusters,
        counts=row.counts,
        shaping=tuple(_shaping(piece, row)),
        change_to=following.colour if following is not None and change else None,
        fasten_off=following is None,
    )


def _shaping(piece: PiecePlan, row: Row) -> Iterator[Shaping]:
    """What the edges do, but for the cut that divides a piece."""
    below = piece.below(row)
    if below is None:
        return
    inner = (row.starts if row.joined else row.ends) if piece.begins_section(row) else None
    ends: tuple[tuple[Literal["start", "end"], Side], ...] = (("start", row.starts), ("end", row.ends))
    for where, side in ends:
        outwards = (row.edge(side).at - below.edge(side).at) * (1 if side == "right" else -1)
        if outwards and side != inner:
            yield Shaping(where, outwards)


def fabric_side(row: int) -> FabricSide:
    """The side of the fabric that faces in ``row``: row 1 is a right-side row."""
    return "RS" if starting_side(row) == starting_side(1) else "WS"


def _foundation(piece: PiecePlan) -> Foundation:
    first, fabric = piece.rows[0], piece.fabric
    turning = stitches.turning_chain(fabric, first.edge(first.starts).kind)
    multiple = fabric.cluster + fabric.gap
    return Foundation(
        chains=piece.foundation_chain,
        base=piece.foundation_chain - turning,
        turning=turning,
        multiple=multiple,
        plus=piece.foundation_chain - multiple * first.clusters,
        colour=first.colour,
    )


def _section(piece: PiecePlan, name: str) -> SectionInstructions:
    rows = piece.section(name)
    told = tuple(of_row(piece, row) for row in rows)
    below = piece.below(rows[0])
    return SectionInstructions(
        name=name,
        after=below.number if below else None,
        joined=rows[0].joined,
        first=told[0],
        blocks=tuple(grouped(told)),
    )


# -------------------------------------------------------------------------------------------------- grouping

# A maker keeps three or four rows in mind, not more.
LONGEST_REPEAT = 4


def grouped(rows: tuple[RowInstructions, ...]) -> Iterator[Block]:
    """``rows`` as a person would write them: rows in the same words together, and rows that come again in turn
    told by the rows they repeat."""
    at = 0
    while at < len(rows):
        period, again = _best_repeat(rows, at)
        if period == 1:
            yield Block(rows[at : at + 1 + again])
        else:
            models = rows[at : at + period]
            yield from (Block((row,)) for row in models)
            if again:
                yield Block(rows[at + period : at + period + again], models)
        at += period + again


def _best_repeat(rows: tuple[RowInstructions, ...], at: int) -> tuple[int, int]:
    """How many rows from ``at`` on make a repeat, and how many rows after them follow it; 1 and 0 for none.

    A longer repeat must come whole twice more: for less, rows told in full are easier to follow.
    """
    best = (1, _followers(rows, at, 1))
    for period in range(2, LONGEST_REPEAT + 1):
        again = _followers(rows, at, period)
        if again >= 2 * period and again > best[1]:
            best = (period, again)
    return best


def _followers(rows: tuple[RowInstructions, ...], at: int, period: int) -> int:
    after = at + period
    while after < len(rows) and rows[after].same_words(rows[after - period]):
        after += 1
    return max(0, after - at - period)


@dataclass(frozen=True, slots=True)
class Stripe:
    """Rows ``first`` to ``last`` in one yarn."""

    colour: str
    first: int
    last: int

    @property
    def height(self) -> int:
        """How many rows."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class StripeOrder:
    """The stripes of rows told together: ``lead`` once, then ``cycle`` over and over to row ``last``, beginning in
    the rows ``begins``; ``after`` is the yarn of the next row where that is another."""

    lead: tuple[Stripe, ...]
    cycle: tuple[Stripe, ...]
    begins: tuple[int, ...]
    last: int
    after: str | None


# More stripes than this in one list are hard to keep one's place in.
_MOST_STRIPES = 12


def stripe_order(rows: tuple[RowInstructions, ...]) -> StripeOrder:
    """The stripes of consecutive ``rows``; none where the pattern names no yarn."""
    stripes = tuple(_stripes(rows))
    last, after = rows[-1].number, rows[-1].change_to
    if len(stripes) <= _MOST_STRIPES:
        return StripeOrder(stripes, (), (), last, after)
    colours = [row.colour for row in rows]
    for period in range(2, len(rows) // 2):
        start = _start_of_cycle(rows, period)
        if start is not None and colours[start + period :] == colours[start:-period] and len(rows) > start + period:
            cycle = tuple(_stripes(rows[start : start + period]))
            begins = tuple(range(rows[start].number, last + 1, period))
            return StripeOrder(tuple(_stripes(rows[:start])), cycle, begins, last, after)
    return StripeOrder(stripes, (), (), last, after)


def _start_of_cycle(rows: tuple[RowInstructions, ...], period: int) -> int | None:
    """Where a repeat of ``period`` rows, counted from row 1, begins among ``rows``; it must begin a stripe."""
    start = -(rows[0].number - 1) % period
    begins = start < len(rows) and (start == 0 or rows[start].colour != rows[start - 1].colour)
    return start if begins else None


def _stripes(rows: tuple[RowInstructions, ...]) -> Iterator[Stripe]:
    for colour, run in groupby(rows, key=lambda row: row.colour):
        numbers = [row.number for row in run]
        if colour is not None:
            yield Stripe(colour, numbers[0], numbers[-1])


# ---------------------------------------------------------------------------------------------- one row's steps


def _steps(piece: PiecePlan, row: Row) -> tuple[Step, ...]:
    below = piece.below(row)
    if below is None:
        return tuple(_first_row(piece.fabric, row))
    return _RowSteps(piece, row, below).all()


def _repeated(times: int, *steps: Step) -> list[Step]:
    """``steps`` over and over; once or never needs no brackets."""
    return [Repeat(steps, times)] if times > 1 else list(steps) * times


def _first_row(fabric: Fabric, row: Row) -> Iterator[Step]:
    """Row 1 along the foundation: every dc of a cluster takes a chain of its own."""
    g = fabric.gap
    start, end = row.edge(row.starts).kind, row.edge(row.ends).kind
    yield from _on_chain(fabric, row.clusters, start == "spaced")
    if end == "spaced" and g:
        yield Chain(g)
        yield SkipChains(g)
    elif end == "spaced":
        yield Work("dc", NextChain())
    yield Work("dc", LastChain())


def _on_chain(fabric: Fabric, clusters: int, spaced: bool) -> Iterator[Step]:
    """``clusters`` on a new chain, from the hook; ``spaced``: the row starts with a gap."""
    k, g = fabric.cluster, fabric.gap
    whole: list[Step] = [DcInChains(k)]
    if spaced and not g:  # the extra dc comes first, all clusters stand whole after it
        yield Work("dc", ChainFromHook(stitches.first_chain(fabric, "flush")))
        yield from _repeated(clusters, *whole)
        return
    yield Work("dc", ChainFromHook(stitches.first_chain(fabric, "spaced" if spaced else "flush")))
    yield DcInChains(k - 1)
    between: list[Step] = [Chain(g), SkipChains(g)] if g else []
    yield from _repeated(clusters - 1, *between, *whole)


class _RowSteps:
    """Works out one row above the first: its start, its clusters in spaces, its end."""

    def __init__(self, piece: PiecePlan, row: Row, below: Row) -> None:
        self.piece, self.row, self.below = piece, row, below
        self.k, self.g = piece.fabric.cluster, piece.fabric.gap
        self.start, self.end = row.edge(row.starts), row.edge(row.ends)
        self.start_below, self.end_below = below.edge(row.starts), below.edge(row.ends)
        self.passes = False  # whether the first cluster below has still to be passed
        self.first: Which = "next"  # how the first space is met
        self.made = 0  # clusters worked before the first space
        self.steps: list[Step] = []

    def all(self) -> tuple[Step, ...]:
        """Every step of the row."""
        self._begin()
        spaces = self.row.clusters - self.made - (self.end.move == "forced_increase")
        if spaces:
            self._clusters(spaces)
        self._finish(alone=not spaces)
        return tuple(self.steps)

    def _put(self, *steps: Step) -> None:
        self.steps += steps

    def _gap(self) -> None:
        if self.g:
            self._put(Chain(self.g))

    # The start.

    def _begin(self) -> None:
        move = self.start.move
        if self.row.joined:
            self._join()
        elif move == "step_out":
            self._step_out()
        elif move == "step_in":
            self._slip_in()
        elif move == "forced_decrease":
            self._put(Turn(), SlipInto(Space("first")))
            self._turning_chain()
        else:
            self._upright(move == "forced_increase")

    def _upright(self, bulky: bool) -> None:
        """The post stands on the post below; ``bulky``: a whole cluster stands there too."""
        self._put(Chain(stitches.turning_chain(self.piece.fabric, self.start.kind)), Turn())
        self._extra_dc()
        if bulky:
            self._put(Work("cl", BaseOfTurningChain()))
            self.made = 1
        self._after_post()

    def _after_post(self) -> None:
        """Where the first space is, seen from the post below."""
        self.passes = self.start_below.kind == "flush"
        self.first = "next" if self.passes else "first"

    def _turning_chain(self) -> None:
        self._put(Chain(stitches.turning_chain(self.piece.fabric, self.start.kind)))
        self._extra_dc()

    def _extra_dc(self) -> None:
        if self.start.kind == "spaced" and not self.g:
            self._put(Work("dc", BaseOfTurningChain()))

    def _slip_in(self) -> None:
        slips = stitches.slip_stitches(self.piece.fabric, self.start.step, self.start_below.kind)
        self._put(Turn())
        if self.start.kind == "flush":
            self._put(SlipAlong(slips))
        else:
            self._put(SlipAlong(slips - 1), SlipInto(Space("next")))
        self._turning_chain()

    def _step_out(self) -> None:
        fabric, pitches = self.piece.fabric, self.start.step // 2
        spaced = self.start.kind == "spaced"
        chains = stitches.chained(fabric, self.start.step, self.start_below.kind)
        self._put(Chain(chains + stitches.turning_chain(fabric, self.start.kind)), Turn())
        on_chain = pitches - 1 if spaced else pitches
        if spaced:
            self._onto_old_post(on_chain)
        else:
            self._put(*_on_chain(fabric, on_chain, spaced=False))
        self.made = pitches
        self._after_post()

    def _onto_old_post(self, on_chain: int) -> None:
        """A step out from a flush edge: the last of its clusters stands on the edge dc of the row below."""
        left = self.k - (0 if self.g else 2)  # chains under the half of that cluster which stands over them
        if on_chain:
            self._put(*_on_chain(self.piece.fabric, on_chain, spaced=True))
            self._gap()
        elif self.g:  # no stitch is worked into the chain at all
            left = stitches.chained(self.piece.fabric, 2, "flush") + stitches.turning_chain(self.piece.fabric, "spaced")
        else:
            self._put(Work("dc", ChainFromHook(stitches.first_chain(self.piece.fabric, "flush"))))
        if left:
            self._put(SkipChains(left))
        self._put(Work("cl", EdgeDc()))

    def _join(self) -> None:
        other = next(row for row in self.piece.rows if row.under == self.row.under and not row.joined)
        ended = other.edge(other.ends)
        skipped, place = self._from(ended)
        self._put(Join(other.section, skipped, place, self.row.colour))
        self._turning_chain()

    def _from(self, ended: Edge) -> tuple[int, Space | DcOfCluster]:
        """The whole clusters between where the other section ``ended`` and this one begins, and its place."""
        distance = abs(self.start.at - ended.at)
        which: Which = "next" if distance else "same"
        on_clusters = (ended.kind == "flush") + (self.start.kind == "flush")
        skipped = max(0, (distance - on_clusters) // 2)
        if self.start.kind == "spaced":
            return skipped, Space(which)
        return skipped, DcOfCluster((self.k + 1) // 2, which)

    # The clusters in spaces.

    def _clusters(self, spaces: int) -> None:
        if self.made:
            self._gap()
        if self.passes:
            self._put(SkipCluster("first"))
        if self.g:
            self._put(Work("cl", Space(self.first)))
            self._put(*_repeated(spaces - 1, Chain(self.g), Work("cl", Space("next"))))
            return
        if self.first == "first":
            self._put(Work("cl", Space("first")))
            spaces -= 1
        if spaces:
            self._put(ClusterInSpaces(spaces))

    # The end.

    def _finish(self, alone: bool) -> None:
        """The end of the row; ``alone``: no cluster stands in a space, so the end is met right after the start."""
        move, flush_below = self.end.move, self.end_below.kind == "flush"
        posts = move in ("straight", "increase", "forced_increase")
        if alone and self.passes and not (posts or self._ends_on_cluster()):
            self._put(SkipCluster("first"))
        if self.end.kind == "spaced" or (move == "forced_increase" and self.row.clusters > 1):
            self._gap()
        if posts and flush_below:
            self._pass_last(alone)
        if move == "forced_increase":
            self._put(Work("cl_and_dc", TopOfTurningChain()))
            return
        two = self.end.kind == "spaced" and not self.g
        self._put(Work("two_dc" if two else "dc", self._end_place()))
        if not posts:
            self._put(self._left())

    def _pass_last(self, alone: bool) -> None:
        """Passes the cluster beside the end, unless the row began by slipping into it."""
        landed = self.start.move == "step_in" and self.start.kind == "flush"
        if not alone:
            self._put(SkipCluster("last"))
        elif not landed:
            self._put(SkipCluster("next"))

    def _ends_on_cluster(self) -> bool:
        return self.end.move in ("decrease", "step_in") and self.end.kind == "flush"

    def _end_place(self) -> Place:
        if self.end.move in ("straight", "increase"):
            return TopOfTurningChain()
        if self.end.move == "decrease":
            return LastDcOfLastCluster()
        if self.end.kind == "spaced":
            return Space("next")
        # Of the two middle dc of an even cluster, the outer one: the second that is met here.
        return DcOfCluster(self.k - (self.k - 1) // 2, "next")

    def _left(self) -> Leave:
        if self.piece.begins_section(self.row):
            return Leave("rest")
        if self.end.move == "decrease" or (self.end.move == "forced_decrease" and self.g):
            return Leave("tch")
        crossed = self.end.step - (self.end.kind == "flush") - (self.end_below.kind == "spaced")
        clusters = max(0, crossed // 2)
        return Leave("clusters", clusters) if clusters else Leave("rest")
