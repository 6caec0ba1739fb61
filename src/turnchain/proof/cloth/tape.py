"""From swatches to centimetres, computed without the program's own gauge.

In: plain figures of swatches and of a piece begun. Out: a ``Tape``: cm to half a cluster with its gap, and to a row.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from turnchain.proof.hook.stitches import WorkedRow


@dataclass(frozen=True, slots=True)
class Tape:
    """``half``: cm of half a cluster with its gap; ``row``: cm of a row, the mean of those that go round. Where these
    are of several ``kinds``, the cm of each: "cluster", or the stitch of a solid row. ``heavy``: how many times as
    heavy as the whole swatch rows of a kind are for their area, where they are otherwise. ``stitch``: what the clusters
    are of (US name)."""

    half: Fraction
    row: Fraction
    kinds: tuple[tuple[str, Fraction], ...] = ()
    heavy: tuple[tuple[str, Fraction], ...] = ()
    stitch: str = "dc"

    @property
    def dc_row(self) -> Fraction:
        """How high a row of dc would be, in cm."""
        return self.high("cluster") / HEIGHT[self.stitch]

    def weight(self, kind: str) -> Fraction:
        """How many times as heavy as the whole swatch a row of a kind is for its area."""
        return dict(self.heavy).get(kind, Fraction(1))

    def high(self, kind: str) -> Fraction:
        """How high a row of a kind is, in cm."""
        return dict(self.kinds).get(kind, self.row)


#: How high rows of each stitch are, those of dc being 1: sc by a published gauge, the others from memory.
HEIGHT = {"sc": Fraction(54, 100), "hdc": Fraction(75, 100), "dc": Fraction(1), "tr": Fraction(14, 10)}


@dataclass(frozen=True, slots=True)
class OwnSwatch:
    """Rows of one ``kind`` counted by themselves: so many ``rows`` in so many ``cm``; ``dense``: grams to a square cm,
    None where they were not weighed."""

    kind: str
    rows: Fraction
    cm: Fraction
    dense: Fraction | None


def row_of_sc(tape: Tape, counted: Sequence[OwnSwatch]) -> Fraction:
    """How high a row of single crochet along an edge is, in cm: as it was ``counted`` by itself, else by its stitch."""
    own = [(one.rows, one.cm) for one in counted if one.kind == "sc"]
    return _mean(own) if own else tape.dc_row * HEIGHT["sc"]


#: A reading: a count and the cm it was counted over; None where it was not taken.
Reading = tuple[Fraction | None, Fraction | None]


def of_swatches(clusters: Sequence[Reading], rows: Sequence[Reading]) -> Tape:
    """The mean of the lengths of a cluster, and of a row, over the readings there are. ZeroDivisionError where there is
    none of either."""
    return Tape(_mean(clusters) / 2, _mean(rows))


def of_kinds(
    tape: Tape, round_of: Sequence[str], others: Sequence[str], clusters_of: str, counted: Sequence[OwnSwatch] = ()
) -> Tape:
    """The same tape for rows of the kinds that go ``round_of`` (counted together in the swatch), and ``others``; rows
    of clusters are as high as their stitch makes them, rows ``counted`` by themselves as they were."""
    usual = {kind: HEIGHT[clusters_of if kind == "cluster" else kind] for kind in ("cluster", *round_of, *others)}
    own = {one.kind for one in counted}
    known = {kind: _mean([(one.rows, one.cm) for one in counted if one.kind == kind]) for kind in own}
    left = tape.row * len(round_of) - sum((known.get(kind, Fraction(0)) for kind in round_of), Fraction(0))
    unit = left / sum((usual[kind] for kind in round_of if kind not in known), Fraction(0))
    high = {kind: known.get(kind, share * unit) for kind, share in usual.items()}
    return Tape(tape.half, tape.row, tuple(high.items()))


def weighing(tape: Tape, round_of: Sequence[str], counted: Sequence[OwnSwatch], dense: Fraction | None) -> Tape:
    """The same tape, which has kinds, with how heavy rows of each are, where some of those ``counted`` by themselves
    were weighed; ``dense``: grams to a square cm of the whole swatch."""
    own = {one.kind for one in counted}
    known = {kind: [one.dense for one in counted if one.kind == kind and one.dense] for kind in own}
    if dense is None or not any(known.values()):
        return tape
    heavy = {kind: sum(found, Fraction(0)) / len(found) / dense for kind, found in known.items() if found}
    grams = [tape.high(kind) * heavy[kind] for kind in round_of if kind in heavy]
    rest = [tape.high(kind) for kind in round_of if kind not in heavy]
    other = (tape.row * len(round_of) - sum(grams, Fraction(0))) / sum(rest, Fraction(0))
    return replace(tape, heavy=tuple((kind, heavy.get(kind, other)) for kind, _ in tape.kinds))


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
