"""The neck opening of a front and a back: its edge as a tape measures it, and whether a head passes.

In: planned pieces. Out: a ``NeckOpening`` in cm along the worked edges.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.dimensions import measure
from turnchain.garment.edges import Point
from turnchain.records import frozen
from turnchain.units import INCH

# By what the opening is multiplied before a head is held against it: a crochet edge gives little, so by 1. [memory]
STRETCH = Fraction(1)
# A knitters' rule for grown-ups, from a published pattern handbook [seen]: least width + front depth, in cm.
# Figures marked [seen] were read in a source, those marked [memory] were not; see ``sizes``.
KNITTERS_RULE = Fraction("25.5")
# Under the smallest head of a grown-up in the table of heads [seen] that rule says nothing.
GROWN_HEAD = 21 * INCH


@frozen
class NeckOpening:
    """A neck opening in cm: ``front`` and ``back``, the length of the edge at each; ``width`` straight across, and
    ``depth`` of the front (0 where it has no neck)."""

    front: Fraction
    back: Fraction
    width: Fraction
    depth: Fraction

    @property
    def around(self) -> Fraction:
        """All the way round, in cm."""
        return self.front + self.back

    def passes(self, head: Fraction, child: bool = False) -> bool:
        """Whether it passes a head of ``head`` cm round; for a grown-up's head the stricter of two rules decides, for a
        ``child``'s the round alone. The rules: as much round as the head, and the knitters' rule."""
        return self.around * STRETCH >= head and (child or head < GROWN_HEAD or self.by_knitters)

    @property
    def by_knitters(self) -> bool:
        """Whether width and depth together are as much as the knitters' rule asks; that rule allows for stretch."""
        return self.width + self.depth >= KNITTERS_RULE


def opening(front: PiecePlan, back: PiecePlan) -> NeckOpening | None:
    """The opening that two pieces leave, along their worked edges; None where neither has a neck.

    A piece without a neck is straight across: what the other's shoulders leave of its upper edge.
    """
    curves = [neck_curve(piece) for piece in (front, back)]
    shaped = [curve for curve in curves if curve]
    if not shaped:
        return None
    width = max(_across(curve) for curve in shaped)
    others = (back, front)
    longs = [
        edges.length_of(curve) if curve else _between_shoulders(piece, other)
        for curve, piece, other in zip(curves, others[::-1], others, strict=True)
    ]
    return NeckOpening(longs[0], longs[1], width, measure(front, "neck depth") or Fraction(0))


def _between_shoulders(piece: PiecePlan, other: PiecePlan) -> Fraction:
    found = edges.of(piece)
    upper = next(found[name] for name in ("upper", "last") if name in found)
    return max(upper.length - edges.of(other)["shoulder"].length, Fraction(0))


def neck_curve(piece: PiecePlan) -> tuple[Point, ...]:
    """The neck edge as worn, from left to right in cm, as a tape laid along it runs: straight over the small corners of
    rows and steps. Empty where the piece has no neck edge."""
    found = edges.of(piece).get("neck")
    if found is None:
        return ()
    turn = edges.worn(piece)
    return _taut([turn(point) for point in found.points])


def _taut(points: list[Point]) -> tuple[Point, ...]:
    """The lower hull of a neck's edge, from end to end: the shortest line round the cloth below it."""
    line: list[Point] = []
    ordered = points if points[0][0] <= points[-1][0] else points[::-1]
    for point in ordered:
        while len(line) > 1 and _turn(line[-2], line[-1], point) <= 0:
            line.pop()
        line.append(point)
    return tuple(line)


def _turn(one: Point, two: Point, three: Point) -> Fraction:
    return (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0])


def _across(curve: tuple[Point, ...]) -> Fraction:
    return abs(curve[-1][0] - curve[0][0])
