"""What a plan comes to, measure by measure.

In: a ``Job`` and a candidate. Out: ``Fit`` s (wanted and worked, in cm) and where the edge is farthest off.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor

from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Deviation, Fit, between
from turnchain.planning.armholes import armhole_fits
from turnchain.planning.candidate import Candidate
from turnchain.planning.curves import Curve
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO
from turnchain.planning.necks import from_segment
from turnchain.planning.targets import reaches
from turnchain.units import shown


def fits(job: Job, plan: Candidate) -> tuple[Fit, ...]:
    """Every named measure in cm: width and length of a panel, height and widths of an outline, then those of its
    armholes and of a neck; heights in the names of an outline's widths are shown in the maker's unit."""
    piece = job.target.piece
    body = _outline_fits(job, plan) if piece.outline or piece.left_outline else _panel_fits(job, plan)
    return (*body, *armhole_fits(job, (plan.left, plan.right)), *_neck_fits(job, plan))


def _panel_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    target, gauge = job.target, job.gauge
    across = (target.width, _across(job, plan) * gauge.half)
    along = (target.height + target.lift, job.height(plan.rows) + target.lift)
    width, length = (along, across) if target.piece.worked == "sideways" else (across, along)
    yield Fit("width", *width)
    yield Fit("length", *length)


def _across(job: Job, plan: Candidate) -> int:
    """The width of a panel in half pitches: of one with parts at the top of its shoulders, of a sleeve below its
    cap."""
    whole = job.target.profile
    if whole is None or whole.cap is not None:
        return plan.right[0] - plan.left[0]
    return max(right - left for left, right in zip(plan.left, plan.right, strict=True))


def _neck_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    """The shoulder, or both where they differ, and depth and width of the neck."""
    wanted = job.target.neck
    if wanted is None:
        return
    if plan.neck is None:  # no row shows it: the edge is all shoulders
        first = second = plan.rows * job.gauge.row / 2
        depth = width = Fraction(0)
    else:
        first, second, depth, width = plan.neck.in_cm(job.gauge)
    if first == second:
        yield Fit("shoulder", wanted.shoulder, first)
    else:
        yield Fit("first shoulder", wanted.shoulder, first)
        yield Fit("second shoulder", wanted.shoulder, second)
    yield Fit("neck depth", wanted.depth, depth)
    if job.target.profile is None or not job.target.profile.opens:
        yield Fit("neck width", wanted.width, width)


def _outline_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    """Height, and the width at every point of the outline.

    Below the top of row 1 there is no row to measure, so the first point is measured there.
    """
    target = job.target
    height, lift, rows, piece = target.height, target.lift, plan.rows, target.piece
    yield Fit("height", height + lift, job.height(rows) + lift)
    lines = (piece.outline, piece.left_outline, piece.right_outline)
    jumps = [y for line in lines for (y, _), (above, _) in pairwise(line) if y == above]
    for point in piece.measured_heights:
        at = max(point - lift, job.tops(rows)[1] * height / rows)
        place = job.place(at, rows)
        if at + lift in jumps:
            place = Fraction(max(1, floor(place)))  # the last row below a jump, not the slope across it
        most = job.recipe.table.most_lean
        worked = (_line_at(plan.right, place, most) - _line_at(plan.left, place, most)) * job.gauge.half
        name = "width in row 1" if at + lift > point else f"width at {shown(point, job.unit)}"
        yield Fit(name, target.width_at(at), worked)
    if target.slope and piece.opens_at is not None:
        yield _sloping_shoulder(job, plan, piece.opens_at)


def _sloping_shoulder(job: Job, plan: Candidate, front: Side) -> Fit:
    """The shoulder of half a front, as wide as it is from where it begins to slope at the arm to the last row at its
    ``front``."""
    piece, low = job.target.piece, plan.rows - job.target.slope - 1
    assert piece.slope is not None, "the target slopes as the piece does"
    ends = {"left": Curve(piece.left_outline), "right": Curve(piece.right_outline)}
    arm: Side = "left" if front == "right" else "right"
    wanted = ends[arm].at(piece.slope.low) + ends[front].at(piece.slope.high)
    edges = (plan.left[-1], plan.right[low]) if front == "left" else (plan.left[low], plan.right[-1])
    return Fit("shoulder", wanted, (edges[1] - edges[0]) * job.gauge.half)


def _line_at(positions: tuple[int, ...], place: Fraction, most_lean: int) -> Fraction:
    """Where the edge line stands ``place`` rows up: straight from the head of one row's post to the next. Where it
    goes farther than it can lean, a step, it stands as in the nearer row: no row is as wide as a place between."""
    row = min(int(place), len(positions))
    low = positions[max(row - 1, 0)]
    high = positions[min(row, len(positions) - 1)]
    return between(low, high, place - row, abs(high - low) > most_lean)


def farthest(job: Job, plan: Candidate) -> Deviation | None:
    """Where the worked edges stand farthest from the wanted ones at a row's top, in cm: across the row, or for a neck
    cut into an edge by the shortest way to its curve. None for a straight piece. Inner edges of a neck that divides a
    piece are not among them."""
    target, half = job.target, job.gauge.half
    if target.straight:
        return None
    # A panel's shaped edge is measured from its own straight part, an outline from its centre or straight edge.
    left_base, right_base = (plan.left[0], plan.right[0]) if target.pinned else (-plan.origin, -plan.origin)
    lefts, rights = (job.wanted_reaches(curve, plan.rows) for curve in target.as_asked())
    found: list[Deviation] = []
    for index in range(plan.rows):
        off_left = abs(left_base - plan.left[index] - lefts[index])
        off_right = abs(plan.right[index] - right_base - rights[index])
        found.append(Deviation("left", index + 1, off_left * half))
        found.append(Deviation("right", index + 1, off_right * half))
    if target.profile is not None or (target.neck is not None and target.opening is None):
        base = int(right_base if target.left.straight else left_base)
        found = [_from_curve(job, plan, one, base) for one in found if one.distance]
    return max(found, key=lambda one: one.distance, default=Deviation("right", 1, Fraction(0)))


def _from_curve(job: Job, plan: Candidate, one: Deviation, base: int) -> Deviation:
    """``one`` measured by the shortest way to the curve: beside the upright sides of a neck that is along the rows."""
    target = job.target
    edge, curve = (plan.left, target.left) if one.side == "left" else (plan.right, target.right)
    if target.profile is not None and not curve.straight:
        curve = reaches(target.profile, plan.rows, job.arm_rows(plan.rows), job.gauge)
    outwards = 1 if one.side == "right" else -1
    half, stretch = float(job.gauge.half), float(plan.rows * job.gauge.row / target.height)
    x, y = float(outwards * (edge[one.row - 1] - base)) * half, float(one.row * job.gauge.row)
    line = [(float(reach) * half, float(height) * stretch) for height, reach in curve.points]
    near = min(from_segment(x - x0, y - y0, x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(line))
    return Deviation(one.side, one.row, min(one.distance, Fraction(round(near * MICRO), MICRO)))
