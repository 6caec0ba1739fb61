"""From swatches to centimetres, computed without the program's own gauge.

In: plain figures of swatches and of a piece begun. Out: a ``Tape``: cm to half a cluster with its gap, and to a row.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from turnchain.proof.hook.stitches import WorkedRow


@dataclass(frozen=True, slots=True)
class Tape:
    """``half``: cm of half a cluster with its gap; ``row``: cm of a row."""

    half: Fraction
    row: Fraction


#: A reading: a count and the cm it was counted over; None where it was not taken.
Reading = tuple[Fraction | None, Fraction | None]


def of_swatches(clusters: Sequence[Reading], rows: Sequence[Reading]) -> Tape:
    """The mean of the lengths of a cluster, and of a row, over the readings there are. ZeroDivisionError where there is
    none of either."""
    return Tape(_mean(clusters) / 2, _mean(rows))


def of_begun(swatch: Tape, rows: Sequence[WorkedRow], high: Fraction, wide: Fraction | None) -> Tape:
    """From the ``rows`` worked of a piece begun, ``high`` cm together and the last of them ``wide`` cm."""
    last = rows[-1]
    half = swatch.half if wide is None else wide / (last.right.at - last.left.at)
    return Tape(half, high / last.number)


def mean(tapes: Sequence[Tape]) -> Tape:
    """The mean of several (one at least), of half clusters and of rows separately."""
    halves, rows = (sum(found, Fraction(0)) for found in ([one.half for one in tapes], [one.row for one in tapes]))
    return Tape(halves / len(tapes), rows / len(tapes))


def _mean(readings: Sequence[Reading]) -> Fraction:
    lengths = [cm / count for count, cm in readings if count and cm]
    return sum(lengths, Fraction(0)) / len(lengths)
