"""From counted swatches to the two lengths everything is computed with.

In: the swatch readings of a pattern. Out: a ``Gauge``: the width of a cluster with its gap (the pitch) and the
height of a row, in cm, exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import cached_property
from typing import TypeAlias

from turnchain.fabric.recipe import Recipe
from turnchain.pattern import Progress, Swatch
from turnchain.records import frozen, replace

# Of the usual proportion of pitch to row: outside this band something was most likely counted wrongly. Published
# gauges of clusters of three are 0.92 to 1 of theirs.
LEAST_SHARE = Fraction(8, 10)
MOST_SHARE = Fraction(12, 10)


@frozen(slots=False)
class Gauge:
    """``pitch`` and ``row`` in cm: the means over the readings; ``pitches`` and ``row_heights`` are the
    (least, greatest) reading of each."""

    pitch: Fraction
    row: Fraction
    pitches: tuple[Fraction, Fraction]
    row_heights: tuple[Fraction, Fraction]

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash((self.pitch, self.row))  # asked for often, and to hash a fraction takes a µs

    @cached_property
    def half(self) -> Fraction:
        """Half a pitch in cm: the unit of every position across a piece."""
        return self.pitch / 2

    def wider(self, times: Fraction) -> Gauge:
        """The same with pitches so many ``times`` as wide."""
        least, most = self.pitches
        return replace(self, pitch=self.pitch * times, pitches=(least * times, most * times))

    @property
    def pitch_in_rows(self) -> Fraction:
        """How many row heights a pitch is wide."""
        return self.pitch / self.row


def gauge_of(swatches: Sequence[Swatch]) -> Gauge:
    """The mean pitch and row height over all readings.

    The mean is taken of lengths (cm to a cluster), not of counts, since a finished width is a count times a
    length. Raises ValueError where no reading counts clusters or none counts rows.
    """
    pitches = [swatch.width / swatch.clusters for swatch in swatches if swatch.width and swatch.clusters]
    rows = [swatch.height / swatch.rows for swatch in swatches if swatch.height and swatch.rows]
    if not pitches or not rows:
        raise ValueError("a gauge needs clusters counted in a width and rows counted in a height")
    return Gauge(
        pitch=sum(pitches, Fraction(0)) / len(pitches),
        row=sum(rows, Fraction(0)) / len(rows),
        pitches=(min(pitches), max(pitches)),
        row_heights=(min(rows), max(rows)),
    )


Shares: TypeAlias = tuple[tuple[str, Fraction], ...]


def shares_of(swatches: Sequence[Swatch]) -> tuple[Shares, Shares]:
    """By the swatches that solid rows have of their own: how high a row of each kind is, and how heavy for its area,
    that of the whole swatch being 1; the mean over several. A kind that was not weighed, or whose whole was not, has no
    weight. Raises ValueError as ``gauge_of``."""
    row, whole = gauge_of(swatches).row, grams_of(swatches)
    own = [one for swatch in swatches for one in swatch.kinds]
    kinds = dict.fromkeys(one.stitch for one in own)
    heights = tuple((kind, _mean(one.height / one.rows for one in own if one.stitch == kind) / row) for kind in kinds)
    weighed = {kind: [one for one in own if one.stitch == kind and one.weight and one.weighed] for kind in kinds}
    weights = tuple(
        (kind, _mean(one.weight / (one.weighed[0] * one.weighed[1]) for one in found) / whole)  # type: ignore[index,operator]  # are there
        for kind, found in weighed.items() if found and whole
    )  # fmt: skip
    return heights, weights


def grams_of(swatches: Sequence[Swatch]) -> Fraction | None:
    """Grams to a square cm over all the swatches weighed; None where none was."""
    weighed = [(swatch.weight, *size) for swatch in swatches if swatch.weight and (size := size_of(swatch))]
    if not weighed:
        return None
    return sum((w for w, *_ in weighed), Fraction(0)) / sum((b * h for _, b, h in weighed), Fraction(0))


def size_of(swatch: Swatch) -> tuple[Fraction, ...]:
    """Width and height in cm of what was weighed; empty where they are not known."""
    if swatch.weighed:
        return swatch.weighed
    return (swatch.width, swatch.height) if swatch.width and swatch.height else ()


def _mean(lengths: Iterable[Fraction]) -> Fraction:
    found = list(lengths)
    return sum(found, Fraction(0)) / len(found)


def usual_band(recipe: Recipe) -> tuple[Fraction, Fraction]:
    """The least and the most row heights that a pitch is usually wide."""
    return LEAST_SHARE * recipe.usual_pitch(), MOST_SHARE * recipe.usual_pitch()


def usual_row_height(gauge: Gauge, recipe: Recipe) -> Fraction | None:
    """The row height in cm that would go with this pitch, or None where the gauge is within the usual band."""
    least, most = usual_band(recipe)
    if least <= gauge.pitch_in_rows <= most:
        return None
    return gauge.pitch / recipe.usual_pitch()


def measured_gauge(swatch: Gauge, progress: Progress, rows: int, half_pitches: int) -> Gauge:
    """The gauge in cm measured on a piece itself, by the cm of ``progress``: ``rows`` rows high and, in the last of
    them, ``half_pitches`` wide (both 1 at least). Where no width was measured the pitch is that of ``swatch``."""
    row = progress.height / rows
    pitch = swatch.pitch if progress.width is None else 2 * progress.width / half_pitches
    return Gauge(pitch, row, (pitch, pitch), (row, row))


def mean_gauge(gauges: Sequence[Gauge]) -> Gauge:
    """The mean pitch and row height of several gauges (one at least), in cm, with the least and the greatest reading of
    all. Each gauge counts alike, however many readings it is the mean of."""
    return Gauge(
        pitch=sum((one.pitch for one in gauges), Fraction(0)) / len(gauges),
        row=sum((one.row for one in gauges), Fraction(0)) / len(gauges),
        pitches=(min(one.pitches[0] for one in gauges), max(one.pitches[1] for one in gauges)),
        row_heights=(min(one.row_heights[0] for one in gauges), max(one.row_heights[1] for one in gauges)),
    )
