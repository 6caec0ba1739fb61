"""Buttonholes along one edge of an edging, evenly spaced.

In: a planned edging. Out: ``Buttonholes``: in which row, after how many stitches, over how many, and how many between.
They are chains over skipped stitches; in the next row a stitch goes into each chain, so that no count changes.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.garment.edging import planned
from turnchain.garment.edging.planned import EdgingPart, PlannedEdging
from turnchain.garment.edging.spreading import Even, spread
from turnchain.records import frozen

#: [memory] cm from either end of the edge to a buttonhole.
FROM_THE_END: Final = Fraction(3, 2)


@frozen
class Buttonholes:
    """``count`` buttonholes in the ``row`` of an edging along ``part``: the first after ``first`` stitches, each over
    ``over``; ``between``: the stitches between two of them (None: there is one)."""

    part: EdgingPart
    row: int
    count: int
    first: int
    over: int
    between: Even | None

    @property
    def gaps(self) -> tuple[tuple[int, int], ...]:
        """The stitches between two, as (how many, how many times)."""
        even = self.between
        if even is None:
            return ()
        found = ((even.each, even.places - even.changes), (even.each + even.more, even.changes))
        return tuple((stitches, times) for stitches, times in found if times)


    @property
    def spans(self) -> tuple[tuple[int, int], ...]:
        """After how many stitches each begins and ends; where two distances differ, the longer lie where ``spread`` has
        the changes."""
        found, at = [], self.first
        lengths = [] if self.between is None else self.between.lengths
        for nth in range(self.count):
            found.append((at, at + self.over))
            at += self.over + (lengths[nth] if nth < len(lengths) else 0)
        return tuple(found)


def of(plan: Plan, one: PlannedEdging) -> Buttonholes | None:
    """The buttonholes of a band; None where it has none: they lie on one edge of one band. Raises MakerError where they
    find no room."""
    asked = one.asked
    if not asked.buttonholes:
        return None
    bands = [band for band in planned.every(plan) if band.asked == asked]
    places = [(band, part) for band in bands for part in band.parts]
    band, part = min(places, key=lambda place: _rank(place[1]))
    if band.parts != one.parts:
        return None
    count, over, free = asked.buttonholes, asked.buttonhole, part.stitches - asked.buttonholes * asked.buttonhole
    first = free // 2 if count == 1 else max(1, round(FROM_THE_END / one.gauge.stitch))
    between = free - 2 * first
    if first < 1 or between < count - 1:
        edge = f"{part.piece.name}, {part.name.key}"
        need = count * (over + 1) - 1 + 2 * max(1, first)
        raise MakerError(
            f"edging {one.number}: {count} buttonholes over {over} stitches each need {need} stitches; {edge} has "
            f"{part.stitches} (fewer buttonholes, or narrower ones)"
        )
    spaced = spread(between, count - 1) if count > 1 else None
    return Buttonholes(part, (asked.rows + 1) // 2, count, first, over, spaced)


def _rank(part: EdgingPart) -> int:
    """The right front edge before any other, that before other edges: where a woman's buttonholes are. [memory]"""
    if part.name.kind != "front edge":
        return 2
    return 0 if part.piece.opens == "right" else 1
