"""Ties at the ends of an edging, and a strap from one place of it to another: a chain, and single crochet (US) back.

In: a planned edging. Out: ``Ties``: how many chains and stitches, by the gauge of single crochet, and where a strap
ends. Their yarn follows from length and width like that of any row.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.garment.edging import planned
from turnchain.garment.edging.places import EdgingGauge, gauge_of
from turnchain.garment.edging.planned import PlannedEdging
from turnchain.records import frozen


@frozen
class Ties:
    """A tie at either end of an edging in rows (``what``: "tie", ``count`` 2), or one "strap" from its last stitch to
    its first, or in rounds to the stitch half way round: ``to`` is the number of that stitch in the last row. Each has
    ``stitches``, of that ``gauge``."""

    what: Literal["tie", "strap"]
    count: int
    stitches: int
    gauge: EdgingGauge
    to: int = 1

    @property
    def length(self) -> Fraction:
        """The length of one in cm."""
        return self.stitches * self.gauge.stitch

    @property
    def area(self) -> Fraction:
        """The fabric of all in square cm: a row of single crochet each."""
        return self.count * self.length * self.gauge.row


def of(plan: Plan, one: PlannedEdging) -> Ties | None:
    """The ties or the strap of an edging; None where it has none. Raises MakerError where ties are asked for and no
    edging of the kind has ends."""
    asked = one.asked
    long = asked.tie or asked.strap
    if long is None or (asked.tie and one.closed):
        if asked.tie and all(band.closed for band in planned.every(plan) if band.asked == asked):
            raise MakerError(
                f"edging {one.number}: ties stand at its two ends; it goes all round and has none (name edges that do "
                "not go all round, or write strap)"
            )
        return None
    gauge = gauge_of(plan.pattern.swatches, one.pieces[0], "sc")
    stitches = max(1, round(long / gauge.stitch))
    if asked.tie:
        return Ties("tie", 2, stitches, gauge)
    return Ties("strap", 1, stitches, gauge, one.counts[-1] // 2 + 1 if one.closed else 1)
