"""What a garment's measures were worked out from: each formula, and the measures of the body in it with their sources.

In: a ``Pattern``. Out: ``GradedMeasure`` s and ``GradedBy`` s, for the reports.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain import sizes
from turnchain.formulas import names_in
from turnchain.garment.body import graded_by, of_field
from turnchain.pattern import Graded, Pattern, Wearer
from turnchain.records import frozen
from turnchain.units import INCH

#: From this bust upwards, in cm, the woman's table is known to be off (survey, Digits & Threads, 2022-03-09: 40 in).
OFF_FROM = 40 * INCH
OFF = "the woman's table is known to be too small at the upper arm, and off at waist and hips, from about 40 in of bust"


@frozen
class GradedMeasure:
    """A ``measure`` ("front, width") with its ``formula``, in ``cm``; ``given``: whether the file has the formula."""

    measure: str
    formula: str
    cm: Fraction
    given: bool


@frozen
class GradedBy:
    """A measure of the body by its ``name`` in formulas, in ``cm``, and where it is from (``source``, English)."""

    name: str
    cm: Fraction
    source: str


def measures(pattern: Pattern) -> list[GradedMeasure]:
    """Every measure that was worked out, in the order of the file."""
    return [GradedMeasure(_named(pattern, one), one.formula, one.cm, one.given) for one in pattern.graded]


def _named(pattern: Pattern, one: Graded) -> str:
    _, number, key, *within = one.path
    assert isinstance(number, int), "it is that of a piece"
    words = str(key).replace("_", " ")
    if key in ("outline", "left_outline", "right_outline"):
        point, figure = (int(part) for part in within)
        across = "width" if key == "outline" else "reach"
        words += f", point {point + 1} {across if figure else 'height'}"
    else:
        words = " ".join([words, *(str(part + 1) if isinstance(part, int) else part for part in within)])
    return f"{pattern.pieces[number].name}, {words.removeprefix('neck ') if 'shoulder' in within else words}"


def bodies(pattern: Pattern) -> list[GradedBy]:
    """The measures of the body that stand in the formulas, in the order they come."""
    if pattern.wearer is None:
        return []
    names = dict.fromkeys(name for one in pattern.graded for name in sorted(names_in(one.formula)))
    return list(_bodies(pattern.wearer, names))


def _bodies(wearer: Wearer, names: dict[str, None]) -> Iterator[GradedBy]:
    for name in names:
        cm = graded_by(wearer, name) if name in sizes.POSSIBLE else None
        if cm is not None:
            found = of_field(wearer, name)
            assert found is not None, "it has been worked with"
            yield GradedBy(name, cm, _source(wearer, found.from_, found.least != found.most, name))
    if "ease" in names and wearer.ease is not None:
        yield GradedBy("ease", wearer.ease, "as the file has it")


def _source(wearer: Wearer, from_: str, spans: bool, name: str) -> str:
    """Where a measure is from, the same for every size of a table."""
    if not from_:
        return "as the file has it"
    words = from_.replace(f", {wearer.table} {wearer.size}", f", {wearer.table}")
    part = "the most" if name == "head" else "the middle"
    return f"{words}: {part} of its range" if spans else words


def known_faults(wearer: Wearer | None) -> Iterator[str]:
    """What is known to be wrong with the table that the wearer's measures are from."""
    if wearer is None or wearer.table != "woman":
        return
    bust, own = graded_by(wearer, "bust"), (wearer.upper_arm, wearer.waist, wearer.hip)
    if bust is not None and bust >= OFF_FROM and None in own:
        yield f"{OFF}: measure the wearer where you can"
