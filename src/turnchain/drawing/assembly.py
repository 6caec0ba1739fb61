"""The pieces laid together along their seams.

In: a plan and its seams. Out: ``Set`` s: every copy of a piece that seams join, moved and turned so that sewn edges
meet, opened out flat. The first piece of the first seam lies as worn; lengths are cm, y up.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles
from turnchain.garment.edges import Point
from turnchain.garment.seams import PlannedSeam, SeamSide

Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Set:
    """The ``copy``-th of a piece, turned by ``angle`` (radians, against the clock) and moved to (``x``, ``y``)."""

    piece: PiecePlan
    copy: int
    angle: float
    x: float
    y: float

    def at(self, point: Point) -> Place:
        """Where a point of the work lies, in cm."""
        across, up = edges.worn(self.piece)(point)
        cosine, sine = math.cos(self.angle), math.sin(self.angle)
        return self.x + float(across) * cosine - float(up) * sine, self.y + float(across) * sine + float(up) * cosine


def laid(plan: Plan, seams: Iterable[PlannedSeam]) -> list[Set]:
    """Every copy that seams join, from the first on; what hangs together by no seam with it is left out."""
    waiting = list(seams)
    if not waiting:
        return []
    first = waiting[0].one
    found = {(first.piece.name, first.copy): Set(first.piece, first.copy, 0.0, 0.0, 0.0)}
    while True:
        for seam in waiting:
            if _laid_on(seam.one, seam.other, found) or _laid_on(seam.other, seam.one, found):
                break
        else:
            return list(found.values())


def _laid_on(here: SeamSide, there: SeamSide, found: dict[tuple[str, int], Set]) -> bool:
    """Lays the piece of ``there`` against that of ``here``, where only the latter lies already."""
    base = found.get((here.piece.name, here.copy))
    key = (there.piece.name, there.copy)
    if base is None or key in found:
        return False
    # Both are walked with the piece at the left hand, so the end of one meets the start of the other.
    start, end = base.at(here.points[-1]), base.at(here.points[0])
    loose = Set(there.piece, there.copy, 0.0, 0.0, 0.0)
    one, other = loose.at(there.points[0]), loose.at(there.points[-1])
    angle = _angle(start, end) - _angle(one, other)
    turned = Set(there.piece, there.copy, angle, 0.0, 0.0)
    one, other = turned.at(there.points[0]), turned.at(there.points[-1])
    x = (start[0] + end[0] - one[0] - other[0]) / 2
    y = (start[1] + end[1] - one[1] - other[1]) / 2
    found[key] = Set(there.piece, there.copy, angle, x, y)
    return True


def _angle(one: Place, other: Place) -> float:
    return math.atan2(other[1] - one[1], other[0] - one[0])


def box(sets: Iterable[Set]) -> tuple[Place, Place]:
    """The lower left and upper right corner of all, in cm."""
    points = [one.at(point) for one in sets for run in edges.around(one.piece) for point in run.points]
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def top(one: Set) -> float:
    """The highest y of a piece that lies as worn, in cm."""
    return max(one.at(point)[1] for run in edges.around(one.piece) for point in run.points)


def front(plan: Plan) -> PiecePlan | None:
    """The front of a garment, None where there is none."""
    pair = roles.front_and_back(plan)
    return None if pair is None else pair[0]
