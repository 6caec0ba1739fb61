"""The seams: which edge is sewn to which, in the order of sewing, and whether they agree.

In: a plan. Out: ``PlannedSeam`` s: two stretches of edges with the rows that meet, told in words by ``seam_words``.
Without seams in the pattern file those of a drop-shoulder garment are assumed from front, back and sleeves, and marked
as such. Source of the order: Vogue Knitting's account of garment construction (block; shoulders; neck edging; sleeve
tops; side and sleeve in one).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import Literal, TypeAlias

from turnchain import style
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import armholes, edges, roles
from turnchain.garment.armholes import BareDepth, SideEdge
from turnchain.garment.edges import EdgeLine, Point, Run
from turnchain.garment.stretches import EdgeStretch, stops, whole
from turnchain.records import frozen

Kind: TypeAlias = Literal["shoulder", "sleeve top", "side", "sleeve", "seam"]
ORDER: tuple[Kind, ...] = ("shoulder", "sleeve top", "seam", "side", "sleeve")


@frozen
class SeamSide:
    """One side of a seam: stretches of the ``edge`` of that name of the ``copy``-th (from 0) of a piece, walked with
    the piece at the left hand, so that the last of one side meets the first of the other."""

    piece: PiecePlan
    copy: int
    edge: str
    stretches: tuple[EdgeStretch, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        """Its corners, in cm in the frame of the work."""
        return tuple(point for stretch in self.stretches for point in stretch.points)

    @property
    def unit(self) -> Literal["rows", "clusters"]:
        """What is counted along it: rows where their ends lie in it, clusters where it runs along a row."""
        return "rows" if self.stretches[0].run.meets == "row ends" else "clusters"

    @property
    def rows(self) -> tuple[int, int] | None:
        """The numbers of the rows at its two ends, or of its lowest and its highest row where it goes down and up again
        as a neck does; None where it runs along a row."""
        found = [stretch.rows for stretch in self.stretches if stretch.rows]
        if not found:
            return None
        numbers = [number for pair in found for number in pair]
        ends, reach = (found[0][0], found[-1][1]), (min(numbers), max(numbers))
        return ends if set(ends) == set(reach) else reach

    @property
    def count(self) -> Fraction:
        """How many row ends lie in it or, along a row, its length in clusters with their gaps, not rounded."""
        if self.unit == "rows":
            return Fraction(sum(stretch.row_count for stretch in self.stretches))
        return sum((stretch.width_in_clusters for stretch in self.stretches), Fraction(0))

    @property
    def steps(self) -> Fraction:
        """How many clusters wide the steps among its row ends are together; 0 without steps or along a row."""
        if self.unit == "clusters":
            return Fraction(0)
        level = (abs(one[0] - other[0]) for one, other in pairwise(self.points) if one[1] == other[1])
        return sum(level, Fraction(0)) / self.piece.gauge.pitch

    @property
    def length(self) -> Fraction:
        """Its length in cm, along every step."""
        return sum((stretch.length for stretch in self.stretches), Fraction(0))

    @property
    def whole(self) -> bool:
        """Whether it is made of whole runs of the outline."""
        return all(stretch.whole for stretch in self.stretches)

    @property
    def name(self) -> str:
        """ "front.shoulder", as seams are written in a pattern file."""
        return f"{self.piece.name}.{self.edge}"


@frozen
class PlannedSeam:
    """Two sides sewn together; seams of one ``letter`` are one to the maker. ``assumed``: not in the pattern file;
    ``stripes``: whether they should "meet" or "differ" along it (None: no wish)."""

    letter: str
    kind: Kind
    one: SeamSide
    other: SeamSide
    assumed: bool
    stripes: Literal["meet", "differ"] | None = None

    @property
    def off(self) -> Fraction:
        """By how many cm ``one`` is longer than ``other``; below 0 where it is shorter."""
        return self.one.length - self.other.length

    @property
    def difference(self) -> Fraction | None:
        """By how many rows or clusters ``one`` has more than ``other``, below 0 where it has fewer; None where rows
        meet clusters."""
        return self.one.count - self.other.count if self.one.unit == self.other.unit else None

    @property
    def agrees(self) -> bool:
        """Whether both sides have as many rows or, where at least one runs along a row, are alike in length to half a
        row."""
        if self.one.unit == self.other.unit == "rows":
            return self.difference == 0
        return 2 * abs(self.off) <= self.one.piece.gauge.row


@lru_cache(maxsize=4)  # asked for by everything that tells of a garment
def of(plan: Plan) -> tuple[PlannedSeam, ...]:
    """Every seam in the order of sewing (``ORDER``), lettered A, B ... in that order: all that come of one seam of the
    pattern file have one letter. Seams of edges that the plan has not (``lacking``), or that armholes take up whole
    (``taken``), are left out."""
    found = [one for one in _found(plan) if one[1].length and one[2].length]
    found.sort(key=lambda one: ORDER.index(one[0]))
    letters: dict[object, str] = {}
    seams = []
    for kind, one, other, group in found:
        letter = letters.setdefault(group, style.letter(len(letters)))
        stripes = plan.pattern.seams[group].stripes if isinstance(group, int) else None
        seams.append(PlannedSeam(letter, kind, one, other, not plan.pattern.seams, stripes))
    return tuple(seams)


def taken(plan: Plan) -> list[tuple[str, str]]:
    """The edges, as "piece.edge", of side seams of which nothing is left, since the armhole takes all of one edge."""
    return [(one.name, other.name) for _, one, other, _ in _found(plan) if not (one.length and other.length)]


_Found: TypeAlias = "tuple[Kind, SeamSide, SeamSide, object]"


@lru_cache(maxsize=4)
def _found(plan: Plan) -> tuple[_Found, ...]:
    return tuple(_declared(plan) if plan.pattern.seams else _assumed(plan))


# -------------------------------------------------------------------------------------------------- in the file


def _declared(plan: Plan) -> Iterator[_Found]:
    """The seams of the pattern file; the copies of a piece are used up one after the other.

    A sleeve's top sewn to the side of a front or back takes only its half of it, from the shoulder down; a seam of the
    two sides of a top ends below the armhole.
    """
    garment = _Garment(plan)
    used: dict[str, int] = {}
    for nth, seam in enumerate(plan.pattern.seams):
        if any(_lacking(plan, joined) for joined in seam.join):
            continue
        known = garment.seam(*seam.join)
        if known is not None:
            yield from ((*sides, nth) for sides in known)
            continue
        lines = [_line(plan, name) for name in seam.join]
        copies = [_next_copy(used, name, piece) for name, (piece, _) in zip(seam.join, lines, strict=True)]
        (one, first), (other, second) = lines
        kind: Kind = "shoulder" if "shoulder" in (first.name, second.name) else "seam"
        for a, b in _met((one, copies[0], first), (other, copies[1], second)):
            yield kind, a, b, nth


class _Garment:
    """A top whose seams the pattern file names: its side edges, sleeve tops and sleeve seams by the names of edges."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.sides: dict[str, SideEdge] = {}
        pair = roles.front_and_back(plan)
        for piece in () if pair is None or pair[0] is pair[1] else pair:
            for right, edge in enumerate(edges.side_names(piece)):
                self.sides[f"{piece.name}.{edge}"] = SideEdge(piece, edge, bool(right))
        self.front = None if pair is None else pair[0]
        self.sleeves = {f"{one.name}.{_sleeve_top(one)}": one for one in roles.of_role(plan, "sleeve")}
        names = {one: edges.side_names(one) for one in self.sleeves.values()}
        self.own = {frozenset(f"{one.name}.{side}" for side in sides): one for one, sides in names.items()}

    def seam(self, one: str, other: str) -> list[tuple[Kind, SeamSide, SeamSide]] | None:
        """A seam as such a garment has it; None for all others."""
        if one in self.sides and other in self.sleeves:
            return [self._top(one, other)]
        if other in self.sides and one in self.sleeves:
            return [self._top(other, one)]
        if one in self.sides and other in self.sides and self.sides[one].piece is not self.sides[other].piece:
            return [("side", *_below(self.plan, self.sides[one], self.sides[other], self._sleeve()))]
        sleeve = self.own.get(frozenset((one, other)))
        if sleeve is None:
            return None
        return [
            _sleeve_seam(sleeve, copy, one.rpartition(".")[2], other.rpartition(".")[2]) for copy in range(sleeve.count)
        ]

    def _sleeve(self) -> PiecePlan | None:
        return next(iter(self.sleeves.values()), None)

    def _top(self, side: str, top: str) -> tuple[Kind, SeamSide, SeamSide]:
        body, sleeve = self.sides[side], self.sleeves[top]
        copy = min(int(body.right != (body.piece is self.front)), sleeve.count - 1)
        partner = next(
            (one for one in self.sides.values() if one.piece is not body.piece and one.right != body.right), body
        )
        deep, _ = _armholes(self.plan, body, partner, sleeve)
        return _top_seam(body, deep, sleeve, copy)


def lacking(plan: Plan) -> list[str]:
    """The edges named in the file's seams that the plan has not, each once, as "piece.edge"."""
    joined = dict.fromkeys(name for seam in plan.pattern.seams for name in seam.join)
    return [name for name in joined if _lacking(plan, name)]


def _next_copy(used: dict[str, int], name: str, piece: PiecePlan) -> int:
    copy = used.get(name, 0)
    used[name] = copy + 1
    return min(copy, piece.count - 1)


def _lacking(plan: Plan, joined: str) -> bool:
    """Whether the plan has no such edge: a neck that is wished for, but less than half a cluster deep."""
    name, _, edge = joined.rpartition(".")
    return edge not in edges.of(plan.piece(name))


def _line(plan: Plan, joined: str) -> tuple[PiecePlan, EdgeLine]:
    """The piece and the edge of "piece.edge"; KeyError where there is none."""
    name, _, edge = joined.rpartition(".")
    piece = plan.piece(name)
    return piece, edges.of(piece)[edge]


_Placed: TypeAlias = "tuple[PiecePlan, int, EdgeLine]"


def _met(first: _Placed, second: _Placed) -> list[tuple[SeamSide, SeamSide]]:
    """The sides that meet, run by run: both edges are walked with the piece at the left hand, so the last of one meets
    the first of the other. Two shoulders never are one side, since a neck lies between them: they meet both ends of
    the other edge."""
    counts = len(first[2].runs), len(second[2].runs)
    if counts[0] == counts[1]:
        return list(zip(_each(first), reversed(_each(second)), strict=True))
    if counts[0] == 2:
        return list(zip(_each(first), _ends_of(second, first[2]), strict=True))
    if counts[1] == 2:
        return list(zip(_ends_of(first, second[2]), _each(second), strict=True))
    return [(_side(*first[:2], first[2].name, *first[2].runs), _side(*second[:2], second[2].name, *second[2].runs))]


def _each(placed: _Placed) -> list[SeamSide]:
    piece, copy, line = placed
    return [_side(piece, copy, line.name, run) for run in line.runs]


def _ends_of(placed: _Placed, shoulders: EdgeLine) -> list[SeamSide]:
    """Both ends of an edge as long as the shoulders of the other piece that meet them: the last of one meets the
    first of the other."""
    piece, copy, line = placed
    (one, other), begins, ends = shoulders.runs, line.runs[0], line.runs[-1]
    most = 1 if len(line.runs) > 1 else Fraction(1, 2)  # of a run: no farther than the middle of the edge
    to_end = [ends.length - stop for stop in stops(piece, ends)]
    last = _nearest_stop(to_end, most * ends.length, one.length)
    first = _nearest_stop(stops(piece, begins), most * begins.length, other.length)
    parts = EdgeStretch(piece, ends, ends.length - last, ends.length), EdgeStretch(piece, begins, Fraction(0), first)
    return [_cut(piece, copy, line.name, part) for part in parts]


def _nearest_stop(places: list[Fraction], most: Fraction, cm: Fraction) -> Fraction:
    """Where a seam can end that is nearest to ``cm``, and no farther than ``most``."""
    return min((stop for stop in places if stop <= most), key=lambda stop: abs(stop - cm))


def _side(piece: PiecePlan, copy: int, edge: str, *runs: Run) -> SeamSide:
    return SeamSide(piece, copy, edge, tuple(whole(piece, run) for run in runs))


def _cut(piece: PiecePlan, copy: int, edge: str, stretch: EdgeStretch) -> SeamSide:
    return SeamSide(piece, copy, edge, (stretch,))


# ------------------------------------------------------------------------------------------------------ assumed


def _assumed(plan: Plan) -> Iterator[_Found]:
    """Shoulders, sleeve tops, sides and sleeves of a top."""
    pair = roles.front_and_back(plan)
    if pair is None:
        return
    front, back = pair
    back_copy = 1 if front is back else 0
    for one, other in _met((front, 0, _top_edge(front)), (back, back_copy, _top_edge(back))):
        yield "shoulder", one, other, "shoulder"
    sleeves = [piece for piece in roles.of_role(plan, "sleeve") if piece.count == 2]
    sleeve = sleeves[0] if len(sleeves) == 1 else None
    # What is at the right of the front, seen from outside, is at the left of the back.
    front_sides, back_sides = edges.side_names(front), edges.side_names(back)
    for copy, (here, there) in enumerate(((1, 0), (0, 1))):
        ends = SideEdge(front, front_sides[here], bool(here)), SideEdge(back, back_sides[there], bool(there), back_copy)
        yield from _sewn_side(plan, ends, sleeve, copy)


def _sewn_side(plan: Plan, ends: tuple[SideEdge, SideEdge], sleeve: PiecePlan | None, copy: int) -> Iterator[_Found]:
    """One side of the garment: the sleeve's top to front and back, the side below it, the sleeve's own seam."""
    deep = _armholes(plan, *ends, sleeve)
    if sleeve is not None:
        for body, down in zip(ends, deep, strict=True):
            yield *_top_seam(body, down, sleeve, copy), "sleeve top"
    # One seam under the arm and down the sleeve, so one letter for both.
    yield "side", *_below(plan, *ends, sleeve), "side"
    if sleeve is not None:
        yield *_sleeve_seam(sleeve, copy, *edges.side_names(sleeve)), "side"


def _armholes(plan: Plan, one: SideEdge, other: SideEdge, sleeve: PiecePlan | None) -> tuple[Fraction, Fraction]:
    """How many cm of both side edges stay free of the side seam, down from the shoulder."""
    if sleeve is not None:
        return armholes.depths(one, other, sleeve_top(sleeve).length / 2)
    if not is_top(plan):
        return Fraction(0), Fraction(0)
    return armholes.depths(one, other, armholes.bare_depth(plan, one.piece, other.piece).cm)


def bare_armhole(plan: Plan) -> BareDepth | None:
    """The depth of armholes on straight sides without sleeves; None for a plan with sleeves, with a shaped armhole, or
    that is no top."""
    pair = roles.front_and_back(plan)
    if pair is None or not is_top(plan) or roles.of_role(plan, "sleeve"):
        return None
    if any(SideEdge(piece, edges.side_names(piece)[1], True).shaped() for piece in pair):
        return None
    return armholes.bare_depth(plan, *pair)


def is_top(plan: Plan) -> bool:
    """Whether front and back are worn on the shoulders: one has a neck or a shaped armhole, or there are sleeves. False
    without one front and one back."""
    pair = roles.front_and_back(plan)
    if pair is None:
        return False
    if roles.of_role(plan, "sleeve") or any(piece.has_neck for piece in pair):
        return True
    sides = [SideEdge(piece, edges.side_names(piece)[1], True) for piece in pair]
    return any(side.shaped() is not None for side in sides)


def _below(plan: Plan, one: SideEdge, other: SideEdge, sleeve: PiecePlan | None) -> tuple[SeamSide, SeamSide]:
    """The side seam: two side edges below their armholes."""
    deep = _armholes(plan, one, other, sleeve)
    return tuple(  # type: ignore[return-value]  # two of them
        _cut(body.piece, body.copy, body.edge, body.part(down, body.length))
        for body, down in zip((one, other), deep, strict=True)
    )


def _top_seam(body: SideEdge, deep: Fraction, sleeve: PiecePlan, copy: int) -> tuple[Kind, SeamSide, SeamSide]:
    """Half of a sleeve's top sewn to ``deep`` cm of a side edge; of an odd number of rows the front has one more."""
    top = sleeve_top(sleeve)
    (run,) = top.runs
    middle = run.length / 2
    if run.meets == "row ends":
        middle = min(stops(sleeve, run), key=lambda stop: (abs(stop - middle), -stop if copy else stop))
    # Walked with the sleeve at the left hand, its second half lies at a right edge, its first at a left one.
    half = (middle, run.length) if body.right else (Fraction(0), middle)
    armhole = _cut(body.piece, body.copy, body.edge, body.part(Fraction(0), deep))
    return "sleeve top", armhole, _cut(sleeve, copy, top.name, EdgeStretch(sleeve, run, *half))


def _sleeve_seam(sleeve: PiecePlan, copy: int, one: str, other: str) -> tuple[Kind, SeamSide, SeamSide]:
    sides = edges.of(sleeve)
    return "sleeve", _side(sleeve, copy, one, *sides[one].runs), _side(sleeve, copy, other, *sides[other].runs)


def sleeve_top(sleeve: PiecePlan) -> EdgeLine:
    """The edge of a sleeve that meets the body: the longer of its two ends; of ends as long, the first row's or, worked
    sideways, the upper."""
    return edges.of(sleeve)[_sleeve_top(sleeve)]


def _sleeve_top(sleeve: PiecePlan) -> str:
    found = edges.of(sleeve)
    ends = ("first", "last") if sleeve.top is None else ("upper", "lower")
    return max((name for name in ends if len(found[name].runs) == 1), key=lambda name: found[name].length)


def _top_edge(piece: PiecePlan) -> EdgeLine:
    """What is sewn at the shoulders: them, or without a neck the whole upper edge."""
    found = edges.of(piece)
    return next(found[name] for name in ("shoulder", "upper", "last") if name in found)
