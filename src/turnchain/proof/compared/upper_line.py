"""The upper edge asked for of a panel worked sideways that has more parts than a neck.

In: its measures, and the worked piece. Out: the line as points: cm below where row 1 ends, and cm along the rows,
stretched to be as high as they are. An armhole's step stands where it is worked: how wide the armhole came out is told
in the table of measures.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from turnchain.proof.cloth.edges import WorkedCloth

_Points = list[tuple[float, float]]
#: The curve of a neck: of a body so many cm wide, by the slope of a slant, stretched to so many cm.
NeckCurve = Callable[[Fraction, float, float], _Points]


@dataclass(frozen=True, slots=True)
class AskedUpper:
    """In cm: the ``length`` up to the neck, an ``armhole`` by depth and width, ``curved`` or not, by how much shoulders
    ``slope``, how far half a front goes on beyond the middle (``overlap``), a ``cap``: level under the arm, height,
    width at the top."""

    length: Fraction
    armhole: tuple[Fraction, Fraction] | None
    curved: bool
    slope: Fraction
    overlap: Fraction
    cap: tuple[Fraction, Fraction, Fraction] | None

    @property
    def shaped(self) -> bool:
        """Whether the edge is another than straight: an armhole, a slope or a cap makes it so."""
        return bool(self.armhole or self.slope or self.cap)


def line(asked: AskedUpper, wanted: Fraction, curve: NeckCurve | None, cloth: WorkedCloth, slope: float) -> _Points:
    """The points from row 1 on, of a piece ``wanted`` so many cm wide; ``curve``: the line of its neck, if any."""
    wide = float(wanted)
    if asked.cap is not None:
        level, high, top = map(float, asked.cap)
        rise = [(0.0, 0.0), (0.0, level), (-high, (wide - top) / 2)]
        points = [*rise, *((deep, wide - at) for deep, at in reversed(rise))]
    else:
        begin, end = (_side(asked, cloth, nth, wide) for nth in (0, 1))
        middle = _middle(asked, curve, cloth, slope, wanted)
        points = [*begin, *middle, *((deep, wide - at) for deep, at in end[::-1])]
    stretch = float(cloth.tops[-1]) / wide
    return [(deep - points[0][0], at * stretch) for deep, at in points]


def _side(asked: AskedUpper, cloth: WorkedCloth, nth: int, wide: float) -> _Points:
    """From one end to where the shoulder begins; deep is from the top of the shoulders."""
    parts, slope = cloth.parts_up, float(asked.slope)
    assert parts is not None, "the piece has parts"
    if parts.opens == ("first", "last")[nth]:
        return []
    if not parts.armed[nth] or asked.armhole is None:
        return [(slope, 0.0)]
    runs = cloth.edges["armhole"]
    worked = len(runs[0 if nth == 0 else -1].rows)
    step = worked * wide / cloth.high
    deep, across = map(float, asked.armhole)
    low, rest = deep + slope, across / 3 if asked.curved else 0.0
    points = [(low, 0.0)]
    if step > across - rest > 0 and rest:
        up = min(rest, step - (across - rest))
        points += [(low, across - rest), (low - up, across - rest + up)]
        low -= up
    return [*points, (low, step), (slope, step)]


def _middle(
    asked: AskedUpper, curve: NeckCurve | None, cloth: WorkedCloth, slope: float, wanted: Fraction
) -> _Points:
    """From shoulder to shoulder, or to the middle of half a front."""
    parts = cloth.parts_up
    assert parts is not None, "the piece has parts"
    across, wide = Fraction(0) if asked.armhole is None else asked.armhole[1], float(wanted)
    if curve is None:
        return [] if not parts.opens else [(0.0, 0.0 if parts.opens == "first" else wide)]
    if not parts.opens:
        body = wanted - sum(parts.armed) * across
        begins = float(across) if parts.armed[0] else 0.0
        return [(deep, begins + at) for deep, at in curve(body, slope, float(body))[1:-1]]
    body = 2 * (wanted - asked.overlap - across)
    found = [(deep, float(across) + at) for deep, at in curve(body, slope, float(body))[1:-1] if at <= body / 2 + 1e-9]
    found.append((max(deep for deep, _ in found), wide))
    return found if parts.opens == "last" else [(deep, wide - at) for deep, at in reversed(found)]
