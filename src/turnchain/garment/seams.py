"""The seams: which edge is sewn to which, in the order of sewing, and whether they agree.

In: a plan. Out: ``PlannedSeam`` s: two stretches of edges with the rows that meet, told in words by ``seam_words``.
Without seams in the pattern file those of a drop-shoulder garment are assumed from front, back and sleeves, and marked
as such. Source of the order: Vogue Knitting's account of garment construction (block; shoulders; neck edging; sleeve
tops; side and sleeve in one).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal, TypeAlias

from turnchain import style
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles
from turnchain.garment.edges import EdgeLine, Point, Run

Kind: TypeAlias = Literal["shoulder", "sleeve top", "side", "sleeve", "seam"]
ORDER: tuple[Kind, ...] = ("shoulder", "sleeve top", "seam", "side", "sleeve")


@dataclass(frozen=True, slots=True)
class SeamSide:
    """One side of a seam: a stretch of an edge of the ``copy``-th (from 0) of a piece.

    ``points`` in cm in the frame of the work, piece at the left hand. ``rows``: the numbers of the rows at its two
    ends, or None where it runs along a row. ``count``: how many rows or clusters (``unit``) it has.
    """

    piece: PiecePlan
    copy: int
    edge: str
    points: tuple[Point, ...]
    rows: tuple[int, int] | None
    count: Fraction
    unit: Literal["rows", "clusters"]
    whole: bool = True

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return edges.length_of(self.points)

    @property
    def name(self) -> str:
        """ "front.shoulder", as seams are written in a pattern file."""
        return f"{self.piece.name}.{self.edge}"


@dataclass(frozen=True, slots=True)
class PlannedSeam:
    """Two sides sewn together; seams of one ``letter`` are told as one. ``assumed``: not in the pattern file;
    ``stripes``: whether they should "meet" or "differ" along it (None: no wish)."""

    letter: str
    kind: Kind
    one: SeamSide
    other: SeamSide
    assumed: bool
    stripes: Literal["meet", "differ"] | None = None

    @property
    def off(self) -> Fraction:
        """By how many cm ``one`` is longer."""
        return self.one.length - self.other.length

    @property
    def difference(self) -> Fraction | None:
        """By how many rows or clusters ``one`` has more; None where rows meet clusters."""
        return self.one.count - self.other.count if self.one.unit == self.other.unit else None

    @property
    def agrees(self) -> bool:
        """Whether both sides have as many rows or clusters or, where these differ in kind, are alike in length to
        half a row."""
        if self.difference is not None:
            return self.difference == 0
        return 2 * abs(self.off) <= self.one.piece.gauge.row


def of(plan: Plan) -> tuple[PlannedSeam, ...]:
    """Every seam in the order of sewing, lettered in that order."""
    found = list(_declared(plan)) if plan.pattern.seams else list(_assumed(plan))
    found.sort(key=lambda one: ORDER.index(one[0]))
    letters: dict[object, str] = {}
    seams = []
    for kind, one, other, group in found:
        letter = letters.setdefault(group, style.letter(len(letters)))
        stripes = plan.pattern.seams[group].stripes if isinstance(group, int) else None
        seams.append(PlannedSeam(letter, kind, one, other, not plan.pattern.seams, stripes))
    return tuple(seams)


_Found: TypeAlias = "tuple[Kind, SeamSide, SeamSide, object]"

# -------------------------------------------------------------------------------------------------- in the file


def _declared(plan: Plan) -> Iterator[_Found]:
    """The seams of the pattern file; the copies of a piece are used up one after the other.

    A sleeve's top sewn to the side of a front or back takes only its half of it, from the shoulder down; a seam of the
    two sides then begins below it.
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
        kind: Kind = "shoulder" if first.name == second.name == "shoulder" else "seam"
        for a, b in _paired(first, second):
            yield kind, _side(one, copies[0], first.name, a), _side(other, copies[1], second.name, b), nth


class _Garment:
    """What is known of a drop-shoulder garment whose seams the pattern file names: its side edges and sleeve tops by
    the names of seams."""

    def __init__(self, plan: Plan) -> None:
        self.joins = [set(seam.join) for seam in plan.pattern.seams]
        self.sides: dict[str, _Body] = {}
        pair = roles.front_and_back(plan)
        for piece in () if pair is None or pair[0] is pair[1] else pair:
            for right, edge in enumerate(edges.side_names(piece)):
                self.sides[f"{piece.name}.{edge}"] = _Body(piece, edge, bool(right))
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
            return [("side", self._below(one), self._below(other))]
        sleeve = self.own.get(frozenset((one, other)))
        if sleeve is None:
            return None
        runs = [edges.of(sleeve)[name.rpartition(".")[2]] for name in (one, other)]
        return [
            ("sleeve", *(_side(sleeve, copy, line.name, line.runs[0]) for line in runs))  # type: ignore[misc]
            for copy in range(sleeve.count)
        ]

    def _top(self, side: str, top: str) -> tuple[Kind, SeamSide, SeamSide]:
        body, sleeve = self.sides[side], self.sleeves[top]
        line = edges.of(sleeve)[_sleeve_top(sleeve)]
        (run,) = line.runs
        middle = run.length / 2
        # Walked with the sleeve at the left hand, its second half lies at a right edge, its first at a left one.
        half = (middle, run.length) if body.right else (Fraction(0), middle)
        copy = min(int(body.right != (body.piece is self.front)), sleeve.count - 1)
        deep = armhole(body.piece, body.edge, middle)
        return "sleeve top", body.part(Fraction(0), deep), _cut(sleeve, copy, line.name, run, half)

    def _below(self, side: str) -> SeamSide:
        """A side edge below the sleeve that is sewn to it, if one is."""
        body = self.sides[side]
        sewn = [self.sleeves[top] for top in self.sleeves if {side, top} in self.joins]
        deep = armhole(body.piece, body.edge, sleeve_top(sewn[0]).length / 2) if sewn else Fraction(0)
        return body.part(deep, edges.of(body.piece)[body.edge].length)


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


def _paired(first: EdgeLine, second: EdgeLine) -> list[tuple[Run, Run]]:
    """The runs that meet: both walked with the piece at the left hand, so the last of one meets the first of the
    other."""
    if len(first.runs) == len(second.runs):
        return list(zip(first.runs, reversed(second.runs), strict=True))
    return [(_joined(first), _joined(second))]


def _joined(line: EdgeLine) -> Run:
    """All runs of an edge as one."""
    rows = [run.rows for run in line.runs if run.rows]
    ends = (rows[0][0], rows[-1][1]) if rows else None
    return Run(line.name, line.runs[0].meets, line.points, ends, line.clusters, line.stitches)


def _side(piece: PiecePlan, copy: int, edge: str, run: Run) -> SeamSide:
    if run.meets == "row ends":
        return SeamSide(piece, copy, edge, run.points, run.rows, Fraction(run.row_count), "rows")
    return SeamSide(piece, copy, edge, run.points, None, Fraction(run.clusters), "clusters")


# ------------------------------------------------------------------------------------------------------ assumed


def _assumed(plan: Plan) -> Iterator[_Found]:
    """Shoulders, sleeve tops, sides and sleeves of a drop-shoulder garment."""
    pair = roles.front_and_back(plan)
    if pair is None:
        return
    front, back = pair
    back_copy = 1 if front is back else 0
    for one, other in _shoulders(front, back, back_copy):
        yield "shoulder", one, other, "shoulder"
    sleeves = [piece for piece in roles.of_role(plan, "sleeve") if piece.count == 2]
    sleeve = sleeves[0] if len(sleeves) == 1 else None
    # What is at the right of the front, seen from outside, is at the left of the back.
    front_sides, back_sides = edges.side_names(front), edges.side_names(back)
    for copy, (here, there) in enumerate(((1, 0), (0, 1))):
        ends = _Body(front, front_sides[here], bool(here)), _Body(back, back_sides[there], bool(there), back_copy)
        yield from _sewn_side(ends, sleeve, copy)


def _shoulders(front: PiecePlan, back: PiecePlan, back_copy: int) -> Iterator[tuple[SeamSide, SeamSide]]:
    """The shoulder seams; where only one piece has a neck, as much of the other's upper edge at both ends."""
    tops = _top_edge(front), _top_edge(back)
    counts = tuple(len(top.runs) for top in tops)
    if counts == (2, 1):
        ends = _ends_of(back, back_copy, tops[1], tops[0])
        yield from zip((_side(front, 0, tops[0].name, run) for run in tops[0].runs), ends, strict=True)
    elif counts == (1, 2):
        ends = _ends_of(front, 0, tops[0], tops[1])
        yield from zip(ends, (_side(back, back_copy, tops[1].name, run) for run in tops[1].runs), strict=True)
    else:
        for a, b in _paired(*tops):
            yield _side(front, 0, tops[0].name, a), _side(back, back_copy, tops[1].name, b)


def _ends_of(piece: PiecePlan, copy: int, whole: EdgeLine, shoulders: EdgeLine) -> list[SeamSide]:
    """Both ends of an edge as long as the shoulders of the other piece that meet them: the last of one meets the
    first of the other."""
    (run,) = whole.runs
    first, last = (one.length for one in shoulders.runs)
    ends = [(run.length - first, run.length), (Fraction(0), last)]
    return [_cut(piece, copy, whole.name, run, (max(low, Fraction(0)), high)) for low, high in ends]


@dataclass(frozen=True, slots=True)
class _Body:
    """The side edge of a body, at the ``right`` as worn or at the left."""

    piece: PiecePlan
    edge: str
    right: bool
    copy: int = 0

    def part(self, low: Fraction, high: Fraction) -> SeamSide:
        """The stretch from ``low`` to ``high`` cm, measured down from the shoulder."""
        (run,) = edges.of(self.piece)[self.edge].runs
        whole = run.length
        # Piece at the left hand, the right side is walked upwards and the left one downwards.
        ends = (whole - high, whole - low) if self.right else (low, high)
        return _cut(self.piece, self.copy, self.edge, run, ends)


def _sewn_side(ends: tuple[_Body, _Body], sleeve: PiecePlan | None, copy: int) -> Iterator[_Found]:
    """One side of the garment: the sleeve's top to front and back, the side below it, the sleeve's own seam."""
    front, back = ends
    deep = Fraction(0)
    if sleeve is not None:
        top = _sleeve_top(sleeve)
        (run,) = edges.of(sleeve)[top].runs
        deep = armhole(front.piece, front.edge, run.length / 2)
        middle = run.length / 2
        halves = [(Fraction(0), middle), (middle, run.length)]
        # Walked with the sleeve at the left hand, its top runs from back to front at the right side of the front.
        if front.right:
            halves.reverse()
        for body, half in zip((front, back), halves, strict=True):
            yield "sleeve top", body.part(Fraction(0), deep), _cut(sleeve, copy, top, run, half), "sleeve top"
    # One seam under the arm and down the sleeve, so one letter for both.
    end = edges.of(front.piece)[front.edge].length, edges.of(back.piece)[back.edge].length
    yield "side", front.part(deep, end[0]), back.part(deep, end[1]), "side"
    if sleeve is not None:
        sides = edges.of(sleeve)
        one, other = (_side(sleeve, copy, name, sides[name].runs[0]) for name in edges.side_names(sleeve))
        yield "sleeve", one, other, "side"


def armhole(body: PiecePlan, edge: str, half_top: Fraction) -> Fraction:
    """How many cm of a side ``edge`` half a sleeve's top takes: whole rows where rows end there, half clusters
    along a row; never more than there is."""
    line = edges.of(body)[edge]
    step = body.gauge.row if line.rows else body.gauge.half
    return min(round(half_top / step) * step, line.length)


def sleeve_top(sleeve: PiecePlan) -> EdgeLine:
    """The edge of a sleeve that meets the body: the longer end."""
    return edges.of(sleeve)[_sleeve_top(sleeve)]


def _sleeve_top(sleeve: PiecePlan) -> str:
    found = edges.of(sleeve)
    ends = ("first", "last") if sleeve.top is None else ("upper", "lower")
    return max((name for name in ends if len(found[name].runs) == 1), key=lambda name: found[name].length)


def _top_edge(piece: PiecePlan) -> EdgeLine:
    """What is sewn at the shoulders: them, or without a neck the whole upper edge."""
    found = edges.of(piece)
    return next(found[name] for name in ("shoulder", "upper", "last") if name in found)


def _cut(piece: PiecePlan, copy: int, edge: str, run: Run, ends: tuple[Fraction, Fraction]) -> SeamSide:
    """The stretch of ``run`` between two distances in cm along it."""
    points = cut(run.points, *ends)
    whole = ends[0] == 0 and ends[1] == run.length
    if run.meets != "row ends":
        return SeamSide(piece, copy, edge, points, None, edges.length_of(points) / piece.gauge.pitch, "clusters", whole)
    q = piece.gauge.row
    low, high = (round(height / q) for height in (points[0][1], points[-1][1]))
    rows = (low + 1, high) if high > low else (low, high + 1)
    return SeamSide(piece, copy, edge, points, rows, Fraction(abs(high - low)), "rows", whole)


def cut(points: tuple[Point, ...], start: Fraction, end: Fraction) -> tuple[Point, ...]:
    """The part of a line between two distances in cm along it."""
    kept: list[Point] = []
    passed = Fraction(0)
    for one, other in pairwise(points):
        long = edges.length_of((one, other))
        if passed + long > start and passed < end:
            if not kept:
                kept.append(_between(one, other, max(start - passed, Fraction(0)), long))
            kept.append(_between(one, other, min(end - passed, long), long))
        passed += long
    return tuple(kept) or (points[-1], points[-1])


def _between(one: Point, other: Point, along: Fraction, long: Fraction) -> Point:
    share = along / long
    return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share
