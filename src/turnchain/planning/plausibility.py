"""What is valid in a pattern file and still most likely a mistake.

In: a ``Pattern`` and its gauge. Out: warnings in makers' words.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from turnchain.fabric.gauge import Gauge
from turnchain.fabric.library import recipe_of
from turnchain.pattern import Pattern
from turnchain.units import Unit, shown

# cm of a stitch: published, 32 single crochet in 10 cm of super fine yarn to 8 of bulky (three copies of one list of
# yarn weights). A double crochet is about as wide as a single one; common practice, no source.
LEAST_STITCH: Final = Fraction(10, 32)
MOST_STITCH: Final = Fraction(10, 8)


def about_pattern(pattern: Pattern, gauge: Gauge) -> Iterator[str]:
    """What is warned of before anything is planned: one text for each warning, none where nothing stands out."""
    yield from _stitch_of_no_yarn(pattern, gauge, pattern.units)
    yield from _one_colour(pattern)


def _stitch_of_no_yarn(pattern: Pattern, gauge: Gauge, unit: Unit) -> Iterator[str]:
    """The ratio of cluster to row is checked in ``warnings``; with a wrong unit both are 2.54 times too large, and the
    ratio is right."""
    stitch = gauge.pitch / recipe_of(pattern.fabric).pitch
    if not LEAST_STITCH <= stitch <= MOST_STITCH:
        least, most = shown(LEAST_STITCH, unit).split()[0], shown(MOST_STITCH, unit)
        yield (
            f"a stitch is {shown(stitch, unit)} wide in this swatch; yarns from super fine to bulky give {least} to "
            f"{most}. Look at the unit of the swatch: inches taken for cm, or cm for inches, make a piece 2.54 times "
            f"too large or too small"
        )


def _one_colour(pattern: Pattern) -> Iterator[str]:
    colours = {yarn.colour for yarn in pattern.yarns}
    if len(pattern.yarns) > 1 and len(colours) == 1:
        yield (
            f"all {len(pattern.yarns)} yarns have the colour {colours.pop()}: the pictures show no stripes; give each "
            f"yarn the colour of its ball"
        )
