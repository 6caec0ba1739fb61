"""Armholes: how much of a body's side edge stays free of the side seam, for a sleeve or for the bare arm.

In: the side edges of a front and a back. Out: how many cm along each edge, down from the shoulder, the armhole takes.
An edge that goes in or out at once on its way up has its armhole there. Along a straight edge it is as deep as half the
sleeve's top or, without a sleeve, as the wearer's armhole. Where that is not known, the depth is that of a row of the
size tables: the one whose bust is nearest to the wearer's or, without one, to the garment's width all round less 7.5 cm
of ease; the report says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from turnchain import sizes
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import body, dimensions, edges
from turnchain.garment.edges import Run
from turnchain.garment.stretches import EdgeStretch, named, stops, whole
from turnchain.pattern import Wearer
from turnchain.records import frozen
from turnchain.sizes import TableName

# An armhole is shaped where the edge moves this many half pitches within so many rows: no taper does. Common practice.
_MOVES, _WITHIN = 2, 3
# cm taken off the garment's width all round to find a body for it: the middle of classic ease, 5 to 10 cm. [memory]
_EASE = Fraction("7.5")


@frozen
class SideEdge:
    """The side edge of the ``copy``-th (from 0) of a front or back, at the ``right`` as worn, seen from the right side,
    or at the left. ``edge`` is its name, one of ``edges.side_names(piece)``."""

    piece: PiecePlan
    edge: str
    right: bool
    copy: int = 0

    @property
    def run(self) -> Run:
        """The edge as one run; a side edge has no more."""
        (run,) = edges.of(self.piece)[self.edge].runs
        return run

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return self.run.length

    def part(self, low: Fraction, high: Fraction) -> EdgeStretch:
        """The stretch from ``low`` to ``high`` cm along the edge, measured down from the shoulder; ``low`` <= ``high``
        <= ``length``."""
        run, all_of_it = self.run, self.length
        # Piece at the left hand, the right side is walked upwards and the left one downwards.
        ends = (all_of_it - high, all_of_it - low) if self.right else (low, high)
        return EdgeStretch(self.piece, run, *ends)

    @property
    def slit(self) -> Fraction:
        """How much of it stays open at its lower end, in cm."""
        if self.piece.upper is not None:
            low = self.length - self.nearest(max(Fraction(0), self.length - self.piece.upper.slit))
            return low if self.piece.upper.slit else Fraction(0)
        found = named(self.piece, "right" if self.right else "left").get("slit")
        return Fraction(0) if found is None else found.length

    @property
    def apart(self) -> Run | None:
        """The armhole above it where that is no part of it, but of the upper edge of a panel worked sideways; None
        where there is none."""
        if self.piece.top is None or not self.piece.armed[0 if self.edge == "first" else 1]:
            return None
        # round the piece the armhole at the end of its right upper edge follows the foundation, at a left one the top
        runs = edges.of(self.piece)["armhole"].runs
        first = runs[0 if (self.piece.top == "right") else -1]
        return first if self.edge == "first" else next((run for run in runs if run != first), first)

    def armhole(self, deep: Fraction) -> tuple[str, EdgeStretch]:
        """The name of the edge, and the stretch of it, that an armhole ``deep`` cm down from the shoulder takes."""
        if self.apart is not None:
            return "armhole", whole(self.piece, self.apart)
        return self.edge, self.part(Fraction(0), deep)

    def nearest(self, cm: Fraction) -> Fraction:
        """Where a seam can end (one of ``stops``) that is nearest to ``cm`` below the shoulder: in cm along the edge,
        down from the shoulder. Of two as near, the higher."""
        run = self.run
        found = stops(self.piece, run)
        down = [run.length - stop for stop in found] if self.right else found
        return min(down, key=lambda stop: (abs(stop - cm), stop))

    def shaped(self) -> Fraction | None:
        """How far down from the shoulder a shaped armhole or a sleeve worked in one reaches, in cm along the edge; 0
        where it lies ``apart``, None where the edge has neither."""
        if self.apart is not None:
            return Fraction(0)
        if not self.piece.free_outline:
            return None
        parts = named(self.piece, "right" if self.right else "left") if self.piece.stretches else {}
        part = parts.get("underarm") or parts.get("armhole")
        if part is not None:  # the maker has named it
            return self.length - part.start if self.right else part.end
        number = _underarm(self.piece, "right" if self.right else "left")
        if number is None:
            return None
        height = self.piece.up(number)
        points = self.run.points if self.right else self.run.points[::-1]
        at_height = [index for index, point in enumerate(points) if point[1] == height]
        # A step lies at this height: inwards it belongs to the armhole, outwards to the side below the sleeve.
        inwards = _goes_in(self.piece, "right" if self.right else "left", number)
        return edges.length_of(points[at_height[0] if inwards else at_height[-1] :])


def depths(front: SideEdge, back: SideEdge, wanted: Fraction) -> tuple[Fraction, Fraction]:
    """How many cm of both edges, down from the shoulder, the armhole takes: as shaped, or the ``wanted`` depth. Never
    more than the edge is long; where only one is shaped, as much of the other as leaves equal side seams. Unless
    shaped, it ends where a seam can: see ``stops``."""
    found = front.shaped(), back.shaped()
    if found[0] is None and found[1] is None:
        return front.nearest(min(wanted, front.length)), back.nearest(min(wanted, back.length))
    one, other = found
    if one is None:
        assert other is not None, "one of them is shaped"
        one = front.nearest(front.length - back.length + other)
    if other is None:
        other = back.nearest(back.length - front.length + one)
    return one, other


@frozen
class BareDepth:
    """The depth in ``cm`` of an armhole without sleeve, and in words where it is ``from_``; ``assumed``: the wearer's
    armhole is not known, and it is that of a likely body."""

    cm: Fraction
    from_: str
    assumed: bool


def bare_depth(plan: Plan, body_pieces: Sequence[PiecePlan]) -> BareDepth:
    """How deep an armhole without sleeve is on a straight side: the wearer's armhole (of a range the upper end) or,
    where it is not known, the middle of the row of the size tables whose bust is nearest to the wearer's or else to the
    garment less ease. Source of the rows: ``sizes``."""
    own = body.known(plan.pattern.wearer, "armhole")
    if own is not None:
        return BareDepth(own.most, own.from_ or "the wearer's own", False)
    bust = body.known(plan.pattern.wearer, "bust")
    around = sum(map(dimensions.body_width, body_pieces), Fraction(0))
    table, size = _likely(around - _EASE if bust is None else bust.middle)
    likely = body.known(Wearer(table, size), "armhole")
    assert likely is not None, "every row has it"
    return BareDepth(likely.middle, likely.from_, True)


def _likely(bust: Fraction) -> tuple[TableName, str]:
    """The row of the size tables whose bust is nearest to ``bust`` cm."""
    rows = [(table, size, row["bust"].middle) for table, of in sizes.tables().items() for size, row in of.items()]
    table, size, _ = min(rows, key=lambda row: abs(row[2] - bust))
    return table, size


# ------------------------------------------------------------------------------------------------- shaped edges


def _reaches(piece: PiecePlan, side: Side) -> list[int]:
    """How far out the edge stands at the foundation and at the top of every row, in half pitches."""
    rows = {row.number: row for row in piece.rows if row.section == piece.rows[0].section}
    for row in piece.rows:
        here = rows.setdefault(row.number, row)
        outer = min if side == "left" else max
        if outer(here.edge(side).at, row.edge(side).at) != here.edge(side).at:
            rows[row.number] = row
    sign = -1 if side == "left" else 1
    places = [sign * rows[number].edge(side).at for number in sorted(rows)]
    return [places[0], *places]


def _underarm(piece: PiecePlan, side: Side) -> int | None:
    """The row after which the armhole begins: below a move inwards, or above a move outwards; None without one."""
    reach = _reaches(piece, side)
    last = len(reach) - 1
    least = Fraction(sizes.POSSIBLE["armhole"][0])
    for number in range(last - 1, 0, -1):
        inwards = _moved(reach, number, -1)
        if not inwards and not _moved(reach, number, 1):
            continue
        if inwards:
            while number > 1 and _moved(reach, number - 1, -1):
                number -= 1
        else:
            number = _end_of_move(reach, number)
        deep = piece.up(last) - piece.up(number)
        if deep >= least:
            return number if number > 1 else None
    return None


def _moved(reach: list[int], number: int, sign: int) -> bool:
    """Whether the edge moves at once from row ``number`` on, outwards (1) or inwards (-1)."""
    following = reach[number + 1 : number + 1 + _WITHIN]
    moves = [sign * (there - reach[number]) for there in following]
    return bool(moves) and moves[0] > 0 and max(moves) >= _MOVES


def _end_of_move(reach: list[int], number: int) -> int:
    """The last row below which the edge still goes outwards: a step belongs to the row below it."""
    while number + 1 < len(reach) and reach[number + 1] > reach[number]:
        if reach[number + 1] - reach[number] >= _MOVES:
            return number
        number += 1
    return number


def _goes_in(piece: PiecePlan, side: Side, number: int) -> bool:
    reach = _reaches(piece, side)
    return reach[number + 1] < reach[number]
