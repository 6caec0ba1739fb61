"""The pieces laid together along their seams.

In: a plan and its seams. Out: ``Set`` s: every copy of a piece that seams join, moved and turned so that sewn edges
meet, opened out flat. The first piece of the first seam lies as worn; lengths are cm, y up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles
from turnchain.garment.edges import Point
from turnchain.garment.seams import PlannedSeam, SeamSide
from turnchain.records import frozen

Place = tuple[float, float]


@frozen
class Set:
    """One copy of a piece as it lies: the piece as worn, turned about its origin by ``angle`` (radians, against the
    clock) and then moved by (``x``, ``y``) cm. ``copy`` counts the copies of a piece from 0."""

    piece: PiecePlan
    copy: int
    angle: float
    x: float
    y: float

    def at(self, point: Point) -> Place:
        """Where ``point``, in cm as the piece is worked, lies: (x, y) in cm, y upwards."""
        across, up = edges.worn(self.piece)(point)
        cosine, sine = math.cos(self.angle), math.sin(self.angle)
        return self.x + float(across) * cosine - float(up) * sine, self.y + float(across) * sine + float(up) * cosine


def laid(plan: Plan, seams: Iterable[PlannedSeam]) -> list[Set]:
    """Every copy that ``seams`` join to the first one, directly or through others, in the order in which they are laid;
    copies that are not joined to it are left out. Empty where there are no seams.

    Shoulders are fitted by all their seams at once, and so are the halves of a sleeve's top; every other piece is
    fitted by the first seam that reaches it. Where ends cannot all meet, the sum of squares of their distances is the
    least.
    """
    waiting = list(seams)
    if not waiting:
        return []
    first = waiting[0].one
    found = {(first.piece.name, first.copy): Set(first.piece, first.copy, 0.0, 0.0, 0.0)}
    while (loose := next((seam for seam in waiting if _loose_side(seam, found)), None)) is not None:
        there = _loose_side(loose, found)
        assert there is not None, "one side of it lies already"
        # Shoulders lie flat together, as both halves of a sleeve's top do; of other seams only one can.
        also = [seam for seam in waiting if seam.kind == loose.kind] if loose.kind in _FLAT else [loose]
        found[_copy_of(there)] = _laid_on(there, _meeting(there, also, found))
    return list(found.values())


_FLAT = ("shoulder", "sleeve top")
_Found = dict[tuple[str, int], Set]


def _copy_of(side: SeamSide) -> tuple[str, int]:
    return side.piece.name, side.copy


def _loose_side(seam: PlannedSeam, found: _Found) -> SeamSide | None:
    """The side of a seam whose piece does not lie yet, where the other does."""
    for here, there in ((seam.one, seam.other), (seam.other, seam.one)):
        if _copy_of(here) in found and _copy_of(there) not in found:
            return there
    return None


def _meeting(there: SeamSide, seams: list[PlannedSeam], found: _Found) -> list[tuple[Point, Place]]:
    """The ends of seams on a loose piece, and where they are to lie."""
    pairs: list[tuple[Point, Place]] = []
    for seam in seams:
        for here, other in ((seam.one, seam.other), (seam.other, seam.one)):
            if _copy_of(other) == _copy_of(there) and (base := found.get(_copy_of(here))) is not None:
                # The points of both run with the piece at the left, so the end of one meets the start of the other.
                ends = zip((other.points[0], other.points[-1]), (here.points[-1], here.points[0]), strict=True)
                pairs += [(point, base.at(place)) for point, place in ends]
    return pairs


def _laid_on(side: SeamSide, pairs: list[tuple[Point, Place]]) -> Set:
    """The piece of ``side`` turned and moved so that its points lie nearest to their places (least squares)."""
    loose = Set(side.piece, side.copy, 0.0, 0.0, 0.0)
    middle = _centre([place for _, place in pairs])
    own = _centre([loose.at(point) for point, _ in pairs])
    dot = cross = 0.0
    for point, place in pairs:
        (x0, y0), (x1, y1) = loose.at(point), place
        x0, y0, x1, y1 = x0 - own[0], y0 - own[1], x1 - middle[0], y1 - middle[1]
        dot, cross = dot + x0 * x1 + y0 * y1, cross + x0 * y1 - y0 * x1
    angle = math.atan2(cross, dot)
    cosine, sine = math.cos(angle), math.sin(angle)
    x, y = middle[0] - own[0] * cosine + own[1] * sine, middle[1] - own[0] * sine - own[1] * cosine
    return Set(side.piece, side.copy, angle, x, y)


def _centre(places: list[Place]) -> Place:
    return math.fsum(x for x, _ in places) / len(places), math.fsum(y for _, y in places) / len(places)


def box(sets: Iterable[Set]) -> tuple[Place, Place]:
    """The lower left and the upper right corner of the box around all ``sets``, in cm; ValueError where there are
    none."""
    points = [one.at(point) for one in sets for run in edges.around(one.piece) for point in run.points]
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def top(one: Set) -> float:
    """The y of the highest point of the piece as it lies, in cm."""
    return max(one.at(point)[1] for run in edges.around(one.piece) for point in run.points)


def front(plan: Plan) -> PiecePlan | None:
    """The front of the garment, or None where the plan has no front and back (as ``roles.front_and_back`` finds
    them)."""
    pair = roles.front_and_back(plan)
    return None if pair is None else pair[0]
