"""What a plan comes to, measure by measure.

In: a ``Job`` and a candidate. Out: ``Fit`` s (wanted and worked, in cm) and where the edge is farthest off.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import floor

from turnchain.fabric.plan import Deviation, Fit
from turnchain.planning.candidates import Candidate, body_of
from turnchain.planning.job import Job
from turnchain.planning.necks import neck_of
from turnchain.planning.splits import neck_of_split
from turnchain.units import shown


def fits(job: Job, plan: Candidate) -> tuple[Fit, ...]:
    """Every named measure; heights in the names of an outline's widths are shown in the maker's unit."""
    piece = job.target.piece
    body = _outline_fits(job, plan) if piece.outline or piece.left_outline else _panel_fits(job, plan)
    return (*body, *_neck_fits(job, plan))


def _panel_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    target, gauge = job.target, job.gauge
    across = (target.width, (plan.right[0] - plan.left[0]) * gauge.half)
    along = (target.height, plan.rows * gauge.row)
    width, length = (along, across) if target.piece.worked == "sideways" else (across, along)
    yield Fit("width", *width)
    yield Fit("length", *length)


def _neck_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    target, gauge = job.target, job.gauge
    neck = target.neck
    if neck is None:
        return
    if plan.split is not None:
        worked = neck_of_split(plan.split, body_of(target, plan), gauge.half, gauge.row)
    else:
        worked = neck_of(target, gauge, plan.left, plan.right)
    wanted = (neck.shoulder, neck.depth, neck.width)
    yield from map(Fit, ("shoulder", "neck depth", "neck width"), wanted, worked)


def _outline_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    """Height, and the width at every point of the outline.

    Below the top of row 1 there is no row to measure, so the first point is measured there.
    """
    target = job.target
    height, rows, piece = target.height, plan.rows, target.piece
    yield Fit("height", height, rows * job.gauge.row)
    jumps = [y for line in (target.left, target.right) for (y, _), (above, _) in pairwise(line.points) if y == above]
    points = sorted({point for point, _ in (*piece.outline, *piece.left_outline, *piece.right_outline)})
    for point in points:
        at = max(point, height / rows)
        place = rows * at / height
        if at in jumps:
            place = Fraction(max(1, floor(place)))  # the last row below a jump, not the slope across it
        worked = (_line_at(plan.right, place) - _line_at(plan.left, place)) * job.gauge.half
        name = "width in row 1" if at > point else f"width at {shown(point, job.unit)}"
        yield Fit(name, target.width_at(at), worked)


def _line_at(positions: tuple[int, ...], place: Fraction) -> Fraction:
    """Where the edge line stands ``place`` rows up: straight from the head of one row's post to the next."""
    row = min(int(place), len(positions))
    low = positions[max(row - 1, 0)]
    high = positions[min(row, len(positions) - 1)]
    return low + (high - low) * (place - row)


def farthest(job: Job, plan: Candidate) -> Deviation | None:
    """Where the worked edges stand farthest from the wanted ones at a row's top; None for a straight piece."""
    target, half = job.target, job.gauge.half
    if target.straight:
        return None
    # A panel's shaped edge is measured from its own straight part, an outline from its centre or straight edge.
    left_base, right_base = (plan.left[0], plan.right[0]) if target.pinned else (-plan.origin, -plan.origin)
    lefts = job.wanted_reaches(target.left, plan.rows)
    rights = job.wanted_reaches(target.right, plan.rows)
    found: list[Deviation] = []
    for index in range(plan.rows):
        off_left = abs(left_base - plan.left[index] - lefts[index])
        off_right = abs(plan.right[index] - right_base - rights[index])
        found.append(Deviation("left", index + 1, off_left * half))
        found.append(Deviation("right", index + 1, off_right * half))
    return max(found, key=lambda one: one.distance)
