"""Which borders lie along which copies of pieces: the edgings that a pattern asks for, or else a round along every edge
that stays open.

In: a plan. Out: ``EdgedPart`` s: sides that follow each other, with the stitches of every row, buttonholes and ties.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby
from typing import TypeAlias

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import borders, openings
from turnchain.garment.borders import SC_HEIGHT_IN_ROWS, SC_IN_A_CORNER
from turnchain.garment.edging import buttonholes, planned, ties
from turnchain.garment.edging.planned import EdgingPart, PlannedEdging
from turnchain.garment.stretches import EdgeStretch
from turnchain.records import frozen

_Copy: TypeAlias = tuple[str, int]  # a piece by its name, and which copy of it
_Edged: TypeAlias = tuple[str | None, Fraction, list[tuple[_Copy, "Side"]]]  # yarn, height of a row, sides


@frozen
class Holes:
    """Buttonholes in a ``row`` (from 0) of a side: where each begins and ends, as shares of the side."""

    row: int
    spans: tuple[tuple[float, float], ...]


@frozen
class Side:
    """A stretch of a border, the ``stitches`` of its first row as they are told, of which a corner inwards takes one,
    and those of each of its ``rows``. ``turned``: a corner follows, of ``corner`` stitches in the first row and as many
    less one more in each that follows. ``holes``: its buttonholes; ``tied``: how long a tie or strap is that hangs at
    its beginning and at its end, in cm (0: none)."""

    stretch: EdgeStretch
    stitches: int
    rows: tuple[int, ...]
    turned: bool
    corner: int = SC_IN_A_CORNER
    holes: Holes | None = None
    tied: tuple[float, float] = (0.0, 0.0)


@frozen
class EdgedPart:
    """Sides that follow each other on one copy of a piece; ``closed``: all round it. ``yarn``: its name, None where the
    pattern names none; ``high``: of one row, in rows of clusters."""

    sides: tuple[Side, ...]
    closed: bool
    yarn: str | None
    high: Fraction = SC_HEIGHT_IN_ROWS


def around(plan: Plan) -> float:
    """How much room the borders of a plan take at the most, in rows of clusters."""
    if not plan.pattern.edgings:
        return float(max(map(_advised_height, plan.pieces)))
    return float(max((len(one.sides[0].rows) * one.high for group in parts(plan).values() for one in group), default=0))


def parts(plan: Plan) -> dict[_Copy, list[EdgedPart]]:
    """The borders of every copy of every piece, by its name and the number of the copy, from 0."""
    found: dict[_Copy, list[EdgedPart]] = {}
    for yarn, high, placed in _edged(plan) if plan.pattern.edgings else _advised(plan):
        if len({copy for copy, _ in placed}) > 1:
            placed = _begun_at_a_seam(placed)
        for copy, group in groupby(placed, key=lambda one: one[0]):
            made = _parted([side for _, side in group], yarn, high)
            found.setdefault(copy, []).extend(made)
    return found


def _advised(plan: Plan) -> Iterator[_Edged]:
    """A round along every opening, in the yarn of the border."""
    yarn = borders.border_yarn(plan)
    for opening in openings.bordered(plan):
        worked = borders.round_of(plan, opening)
        yield yarn.name if yarn else None, _advised_height(opening.stretches[0].piece), [
            ((one.piece.name, one.copy), Side(one.stretch, side.stitches, (side.stitches,), turned))
            for one, side, turned in zip(opening.stretches, worked.sides, worked.turned, strict=True)
        ]  # fmt: skip


def _advised_height(piece: PiecePlan) -> Fraction:
    """How high a round of sc is, in rows of clusters of a piece."""
    return SC_HEIGHT_IN_ROWS * piece.dc_row / piece.cluster_row


def _edged(plan: Plan) -> Iterator[_Edged]:
    """The edgings that the pattern asks for."""
    for one in planned.every(plan):
        yarn = planned.yarn_of(plan, one.asked)
        yield yarn.name if yarn else None, one.gauge.row / one.pieces[0].cluster_row, sides(plan, one)


def sides(plan: Plan, one: PlannedEdging) -> list[tuple[_Copy, Side]]:
    """The sides of a planned edging, each with the copy of a piece that it lies along."""
    rows, holes, tied = zip(*one.by_part, strict=True), _holes(plan, one), ties.of(plan, one)
    corner, long, last = planned.IN_A_CORNER[one.asked.stitch], float(tied.length) if tied else 0.0, len(one.parts) - 1
    made = []
    for nth, (part, counts) in enumerate(zip(one.parts, rows, strict=True)):
        begun = long if tied and tied.what == "tie" and nth == 0 else 0.0
        side = Side(
            part.open.stretch, part.stitches, tuple(counts), part.turn == "outer", corner, holes.get(part),
            (begun, long if nth == last else 0.0),
        )  # fmt: skip
        made.append(((part.piece.name, part.open.copy), side))
    return made


def _holes(plan: Plan, one: PlannedEdging) -> dict[EdgingPart, Holes]:
    """The buttonholes of an edging by the part they lie along."""
    found = buttonholes.of(plan, one)
    if found is None:
        return {}
    whole = found.part.stitches
    return {found.part: Holes(found.row - 1, tuple((low / whole, high / whole) for low, high in found.spans))}


def _begun_at_a_seam(placed: list[tuple[_Copy, Side]]) -> list[tuple[_Copy, Side]]:
    """The same round, begun where one piece ends and the next begins."""
    start = next(index for index in range(len(placed)) if placed[index - 1][0] != placed[index][0])
    return placed[start:] + placed[:start]


def _parted(sides: list[Side], yarn: str | None, high: Fraction) -> Iterator[EdgedPart]:
    """``sides`` of one copy, parted where one does not begin at the end of the last."""
    parts: list[list[Side]] = []
    for side in sides:
        if parts and parts[-1][-1].stretch.points[-1] == side.stretch.points[0]:
            parts[-1].append(side)
        else:
            parts.append([side])
    if len(parts) > 1 and parts[-1][-1].stretch.points[-1] == parts[0][0].stretch.points[0]:
        parts[0] = parts.pop() + parts[0]
    for part in parts:
        yield EdgedPart(tuple(part), part[-1].stretch.points[-1] == part[0].stretch.points[0], yarn, high)
