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
    """``half``: cm of half a cluster with its gap; ``row``: cm of a row, the mean of those that go round. Where these
    are of several ``kinds``, the cm of each: "cluster", or the stitch of a solid row."""

    half: Fraction
    row: Fraction
    kinds: tuple[tuple[str, Fraction], ...] = ()

    def high(self, kind: str) -> Fraction:
        """How high a row of a kind is, in cm."""
        return dict(self.kinds).get(kind, self.row)


#: How high rows of each stitch are, those of dc being 1: sc by a published gauge, the others from memory.
HEIGHT = {"sc": Fraction(54, 100), "hdc": Fraction(75, 100), "dc": Fraction(1), "tr": Fraction(14, 10)}


#: A reading: a count and the cm it was counted over; None where it was not taken.
Reading = tuple[Fraction | None, Fraction | None]


def of_swatches(clusters: Sequence[Reading], rows: Sequence[Reading]) -> Tape:
    """The mean of the lengths of a cluster, and of a row, over the readings there are. ZeroDivisionError where there is
    none of either."""
    return Tape(_mean(clusters) / 2, _mean(rows))


def of_kinds(tape: Tape, round_of: Sequence[str], others: Sequence[str], clusters_of: str) -> Tape:
    """The same tape for rows of the kinds that go ``round_of`` (counted together in the swatch), and ``others``; rows
    of clusters are as high as their stitch makes them."""
    own = {kind: HEIGHT[clusters_of if kind == "cluster" else kind] for kind in ("cluster", *round_of, *others)}
    whole = tape.row * len(round_of)
    unit = whole / sum((own[kind] for kind in round_of), Fraction(0))
    return Tape(tape.half, tape.row, tuple((kind, share * unit) for kind, share in own.items()))


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
