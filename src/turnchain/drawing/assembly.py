"""The pieces laid together along their seams.

In: a plan and its seams. Out: ``Set`` s: every copy of a piece that seams join, moved and turned so that sewn edges
meet, opened out flat; pieces that would lie over others lie beside them. The first piece of the first seam lies as
worn; lengths are cm, y up.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from functools import cached_property

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles, sleeves
from turnchain.garment.edges import Point
from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.records import frozen, replace

Place = tuple[float, float]


@frozen(slots=False)
class Set:
    """One copy of a piece as it lies: the piece as worn, turned about its origin by ``angle`` (radians, against the
    clock) and then moved by (``x``, ``y``) cm. ``copy`` counts the copies of a piece from 0."""

    piece: PiecePlan
    copy: int
    angle: float
    x: float
    y: float

    @cached_property
    def outline(self) -> tuple[Place, ...]:
        """The corners of the piece as it lies, in cm."""
        return tuple(self.at(point) for run in edges.around(self.piece) for point in run.points)

    @cached_property
    def _way(self) -> tuple[float, float]:
        return math.cos(self.angle), math.sin(self.angle)

    @cached_property
    def _worn(self) -> Callable[[Point], Point]:
        return edges.worn(self.piece)

    def at(self, point: Point) -> Place:
        """Where ``point``, in cm as the piece is worked, lies: (x, y) in cm, y upwards."""
        across, up = self._worn(point)
        return self.turned((float(across), float(up)))

    def turned(self, place: Place) -> Place:
        """Where ``place``, (x, y) in cm as the piece is worn, lies: (x, y) in cm, y upwards."""
        cosine, sine = self._way
        return self.x + place[0] * cosine - place[1] * sine, self.y + place[0] * sine + place[1] * cosine


def laid(plan: Plan, seams: Iterable[PlannedSeam]) -> list[Set]:
    """Every copy of every piece that ``seams`` join, in the order in which they are laid; empty where there are none.

    Shoulders are fitted by all their seams at once, and so are the halves of a sleeve's top; every other piece is
    fitted by the first seam that reaches it. Where ends cannot all meet, the sum of squares of their distances is the
    least. A sleeve with a cap, which cannot lie flat in its armhole, is moved out until it only touches the body. A
    piece that would lie over another, or is not joined to the first, lies beside all that meet, as worn; but the halves
    of a front that opens lie over one another down the middle, the later one on top.
    """
    waiting = list(seams)
    if not waiting:
        return []
    first = waiting[0].one
    found = {(first.piece.name, first.copy): Set(first.piece, first.copy, 0.0, 0.0, 0.0)}
    apart: set[tuple[str, int]] = set()
    halves = {piece.name for piece in fronts(plan)}
    while (loose := next((seam for seam in waiting if _loose_side(seam, found, apart)), None)) is not None:
        there = _loose_side(loose, found, apart)
        assert there is not None, "one side of it lies already"
        # Shoulders lie flat together, as both halves of a sleeve's top do; of other seams only one can.
        also = [seam for seam in waiting if seam.kind == loose.kind] if loose.kind in _FLAT else [loose]
        fitted = _laid_on(there, _meeting(there, also, found), straight=loose.kind in _FLAT)
        if sleeves.has_cap(fitted.piece):
            fitted = _moved_off(fitted, list(found.values()))
        if any(overlap(fitted, other, _eased(fitted, other, halves)) for other in found.values()):
            apart.add(_copy_of(there))
        else:
            found[_copy_of(there)] = fitted
    return [*found.values(), *_beside(list(found.values()), _left(plan, waiting, found))]


def _left(plan: Plan, seams: list[PlannedSeam], found: _Found) -> list[Set]:
    """The copies of sewn pieces that lie nowhere yet, as worn."""
    sewn = {side.piece.name for seam in seams for side in (seam.one, seam.other)}
    copies = [(piece, copy) for piece in plan.pieces if piece.name in sewn for copy in range(piece.count)]
    return [Set(piece, copy, 0.0, 0.0, 0.0) for piece, copy in copies if (piece.name, copy) not in found]


def _beside(sets: list[Set], others: list[Set]) -> list[Set]:
    """``others`` in lines of their own, to the right of ``sets`` or below them, whichever makes the smaller square."""
    if not others:
        return []
    (left, low), (right, high) = box(sets)
    wide, tall = right - left, high - low
    ways = []
    for at_right in (True, False):
        corner = (right + GAP, high) if at_right else (left, low - GAP)
        room = max(wide, tall) if at_right else max(wide, 1.5 * tall)
        lines = _in_lines(others, corner, room)
        (_, end), (far, _) = box([*sets, *lines])
        ways.append((max(far - left, high - end), at_right, lines))
    return min(ways, key=lambda way: way[:1])[2]


def _in_lines(others: list[Set], corner: Place, room: float) -> list[Set]:
    """``others`` side by side from an upper left corner on, in lines at most ``room`` cm long where they can be."""
    found: list[Set] = []
    (x, y), deepest = corner, 0.0
    for one in others:
        (left, low), (right, high) = box([one])
        if x > corner[0] and x + right - left > corner[0] + room:
            x, y, deepest = corner[0], y - deepest - GAP, 0.0
        found.append(replace(one, x=one.x + x - left, y=one.y + y - high))
        x, deepest = x + right - left + GAP, max(deepest, high - low)
    return found


GAP = 8.0  # cm between pieces that do not lie together
EASED = 0.04  # of a piece may lie over another: edges that are eased in
CLOSED = 0.3  # of half a front may lie over the other half: the edges of an opening
NEARLY = math.radians(6)  # from a right angle
SAMPLES = 24  # places across a piece and up it that are looked at


def holds(corners: Sequence[Place], place: Place) -> bool:
    """Whether the polygon with those ``corners`` holds ``place``."""
    inside = False
    x, y = place
    for (x0, y0), (x1, y1) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside


def overlap(one: Set, other: Set, eased: float = EASED) -> bool:
    """Whether one piece lies over the other with more than that share of itself."""
    return any(_reaches_over(here, there, eased) for here, there in ((one, other), (other, one)))


def _reaches_over(one: Set, other: Set, eased: float) -> bool:
    (left, low), (right, high) = box([other])
    (own_left, own_low), (own_right, own_high) = box([one])
    if own_right <= left or right <= own_left or own_high <= low or high <= own_low:
        return False
    corners = other.outline
    places = [one.turned(place) for place in _places(one.piece)]
    near = [place for place in places if left < place[0] < right and low < place[1] < high]
    return sum(holds(corners, place) for place in near) > eased * len(places)


def _places(piece: PiecePlan) -> list[Place]:
    """Places all over a piece, none nearer to its edges than half a row or half a pitch: cm as it is worn."""
    (along, along_up, off, off_up), half = edges.ways(piece), piece.gauge.half
    found = []
    step = max(1, piece.row_count // SAMPLES)
    for row in piece.rows[::step]:
        wide = row.right.at - row.left.at
        if wide <= 2:
            continue
        up = float((piece.up(row.number - 1) + piece.up(row.number)) / 2)
        for nth in range(SAMPLES + 1):
            at = SAMPLES * (row.left.at + 1) + (wide - 2) * nth  # in so many parts of a half pitch: whole numbers
            across = at * half.numerator / (SAMPLES * half.denominator)
            found.append((along * across + off * up, along_up * across + off_up * up))
    return found


_FLAT = ("shoulder", "sleeve top")
_Found = dict[tuple[str, int], Set]


def _copy_of(side: SeamSide) -> tuple[str, int]:
    return side.piece.name, side.copy


def _loose_side(seam: PlannedSeam, found: _Found, apart: set[tuple[str, int]]) -> SeamSide | None:
    """The side of a seam whose piece does not lie yet and is not to lie ``apart``, where the other lies."""
    for here, there in ((seam.one, seam.other), (seam.other, seam.one)):
        if _copy_of(here) in found and _copy_of(there) not in found and _copy_of(there) not in apart:
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


def _laid_on(side: SeamSide, pairs: list[tuple[Point, Place]], straight: bool) -> Set:
    """The piece of ``side`` turned and moved so that its points lie nearest to their places (least squares);
    ``straight``: turned by a right angle where that is nearly so."""
    loose = Set(side.piece, side.copy, 0.0, 0.0, 0.0)
    middle = _centre([place for _, place in pairs])
    own = _centre([loose.at(point) for point, _ in pairs])
    dot = cross = 0.0
    for point, place in pairs:
        (x0, y0), (x1, y1) = loose.at(point), place
        x0, y0, x1, y1 = x0 - own[0], y0 - own[1], x1 - middle[0], y1 - middle[1]
        dot, cross = dot + x0 * x1 + y0 * y1, cross + x0 * y1 - y0 * x1
    angle = math.atan2(cross, dot)
    right = round(angle / (math.pi / 2)) * math.pi / 2
    if straight and abs(angle - right) < NEARLY:
        angle = right  # front and back that differ by a row would tilt a sleeve
    cosine, sine = math.cos(angle), math.sin(angle)
    x, y = middle[0] - own[0] * cosine + own[1] * sine, middle[1] - own[0] * sine - own[1] * cosine
    return Set(side.piece, side.copy, angle, x, y)


def _eased(one: Set, other: Set, halves: set[str]) -> float:
    """How much of one of them may lie over the other."""
    opens = len(halves) == 2 and {one.piece.name, other.piece.name} == halves
    return CLOSED if opens else EASED


def _moved_off(sleeve: Set, others: list[Set]) -> Set:
    """A sleeve moved towards its cuff until it lies over none of ``others``."""
    corners, way = sleeve.outline, (math.sin(sleeve.angle), -math.cos(sleeve.angle))
    back = (-way[0], -way[1])
    far = 0.0
    for other in others:
        there = other.outline
        if any(holds(there, place) for place in corners) or any(holds(corners, place) for place in there):
            far = max(far, _last_touch(corners, there, way), _last_touch(there, corners, back))
    return replace(sleeve, x=sleeve.x + far * way[0], y=sleeve.y + far * way[1])


def _last_touch(corners: Sequence[Place], polygon: Sequence[Place], way: Place) -> float:
    """How far ``corners`` have to go that ``way`` (of length 1) to leave all lines of the ``polygon`` behind, in cm."""
    along = [(x * way[0] + y * way[1], y * way[0] - x * way[1]) for x, y in corners]
    sides = [(x * way[0] + y * way[1], y * way[0] - x * way[1]) for x, y in polygon]
    far = 0.0
    for (u0, v0), (u1, v1) in zip(sides, [*sides[1:], sides[0]], strict=True):
        for u, v in along:
            if (v0 > v) != (v1 > v):
                far = max(far, u0 + (v - v0) * (u1 - u0) / (v1 - v0) - u)
    return far


def _centre(places: list[Place]) -> Place:
    return math.fsum(x for x, _ in places) / len(places), math.fsum(y for _, y in places) / len(places)


def box(sets: Iterable[Set]) -> tuple[Place, Place]:
    """The lower left and the upper right corner of the box around all ``sets``, in cm; ValueError where there are
    none."""
    points = [point for one in sets for point in one.outline]
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def top(one: Set) -> float:
    """The y of the highest point of the piece as it lies, in cm."""
    return max(y for _, y in one.outline)


def fronts(plan: Plan) -> tuple[PiecePlan, ...]:
    """The front of the garment: one piece, or the two halves of one that opens, the wearer's left one first; empty
    where the plan has no front and back (as ``roles.trunk`` finds them)."""
    found = roles.trunk(plan)
    return () if found is None else found.fronts
