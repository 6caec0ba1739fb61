"""The wearer's body: own measures, those of a size table, and what is computed from them.

In: the ``Wearer`` of a pattern file. Out: ``BodyMeasure`` s in cm, each with where it comes from. Measures are of the
body, not of a garment.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, TypeAlias

from turnchain import sizes
from turnchain.pattern import Wearer
from turnchain.records import frozen
from turnchain.sizes import Measure
from turnchain.units import Unit, shown

Level: TypeAlias = Literal["waist", "hip", "knee"]
LEVELS: tuple[Level, ...] = ("waist", "hip", "knee")
_FIELDS: dict[str, Level] = {f"{name}_length": name for name in LEVELS}


@frozen
class BodyMeasure:
    """A measure of the wearer from ``least`` to ``most`` cm (the same where it is one figure), and in words where it is
    ``from_`` (empty: the wearer's own)."""

    least: Fraction
    most: Fraction
    from_: str

    @property
    def middle(self) -> Fraction:
        """The middle of the range, in cm."""
        return (self.least + self.most) / 2

    def told(self, unit: Unit) -> str:
        """The figure with its source: "86 cm", "81 cm to 86 cm (size table, woman S)"."""
        figure = shown(self.least, unit)
        if self.most != self.least:
            figure += f" to {shown(self.most, unit)}"
        return f"{figure} ({self.from_})" if self.from_ else figure


def known(wearer: Wearer | None, measure: str) -> BodyMeasure | None:
    """A measure of the wearer by the name of its field in ``Wearer`` ("bust"): an own one, else that of the table's
    row; None where neither has it, or without a wearer. AttributeError for any other name."""
    if wearer is None:
        return None
    own: Fraction | None = getattr(wearer, measure)
    if own is not None:
        return BodyMeasure(own, own, "")
    row = row_of(wearer)
    figure = None if row is None else row.get(measure)
    return None if figure is None else BodyMeasure(figure.least, figure.most, _source(wearer, figure))


def row_of(wearer: Wearer) -> sizes.Row | None:
    """The row of the size table that the wearer is given by: measures by name; None for own measures only, or where the
    table has no such size."""
    if wearer.table is None or wearer.size is None:
        return None
    return sizes.tables()[wearer.table].get(wearer.size)


def _source(wearer: Wearer, figure: Measure) -> str:
    """The name of the table that a figure stands in."""
    if figure.table:
        ages = ": one range for all of them" if figure == sizes.heads()["over 3 years"] else ""
        return f"{figure.table}{ages}"
    return f"size table, {wearer.table} {wearer.size}" + ("" if figure.seen else ", a figure from memory")


def is_child(wearer: Wearer | None) -> bool:
    """Whether the wearer is a child or a baby: said so or of the child's table; where neither is given, with an own
    bust or head smaller than any woman's row. False without a wearer."""
    if wearer is None:
        return False
    if wearer.who is not None or wearer.table is not None:
        return wearer.who in ("child", "baby") or wearer.table == "child"
    return _small(wearer)


def _small(wearer: Wearer) -> bool:
    """Whether an own bust or head is smaller than the least of the woman's."""
    bust = min(row["bust"].least for row in sizes.tables()["woman"].values())
    own = ((wearer.bust, bust), (wearer.head, sizes.heads()["woman"].least))
    return any(cm is not None and cm < least for cm, least in own)


def level(wearer: Wearer | None, name: Level) -> BodyMeasure | None:
    """How far below the nape the waist, hip or knee lies, in cm: own, from the table, or computed from nape to waist by
    the rules of ``sizes``; None where no such length is known, nor a rule, as for a child's knee."""
    found = known(wearer, f"{name}_length")
    waist = known(wearer, "waist_length")
    if found is not None or name == "waist" or wearer is None or waist is None:
        return found
    return _child_level(wearer, name, waist) if is_child(wearer) else _grown_level(name, waist)


def graded_by(wearer: Wearer, name: str) -> Fraction | None:
    """The measure in cm that a garment is worked out by, by the name of its field: of a range the middle, of a head the
    most, since what is too small does not go on; lengths below the nape as ``level`` has them. None where it is not
    known."""
    found = of_field(wearer, name)
    return None if found is None else found.most if name == "head" else found.middle


def of_field(wearer: Wearer, name: str) -> BodyMeasure | None:
    """A measure by the name of its field, as ``known`` has it or, below the nape, ``level``."""
    below = _FIELDS.get(name)
    return known(wearer, name) if below is None else level(wearer, below)


def _child_level(wearer: Wearer, name: Level, waist: BodyMeasure) -> BodyMeasure | None:
    if name != "hip" or wearer.who == "baby":
        return None
    hip = waist.middle + sizes.CHILD_HIP_BELOW_WAIST
    return BodyMeasure(hip, hip, "taken as 2 in below the waist, as published for children")


def _grown_level(name: Level, waist: BodyMeasure) -> BodyMeasure:
    times = sizes.HIP_IN_WAIST_LENGTHS if name == "hip" else sizes.KNEE_IN_WAIST_LENGTHS
    reckoned = waist.middle * times
    return BodyMeasure(reckoned, reckoned, f"taken as {float(times):g} times nape to waist")
