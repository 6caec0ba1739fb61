"""What a plan comes to, measure by measure.

In: a wish and a candidate. Out: ``Fit`` s (wanted and worked, in cm) and where the edge is farthest off.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.candidates import Candidate, Job
from turnchain.curves import Curve
from turnchain.necks import neck_of
from turnchain.plan import Deviation, Fit
from turnchain.units import Unit, shown


def fits(job: Job, plan: Candidate, unit: Unit) -> tuple[Fit, ...]:
    """Every named measure; heights in the names of an outline's widths are shown in ``unit``."""
    return _outline_fits(job, plan, unit) if job.wish.piece.outline else _panel_fits(job, plan)


def _panel_fits(job: Job, plan: Candidate) -> tuple[Fit, ...]:
    wish, gauge = job.wish, job.gauge
    across = (wish.width, (plan.right[0] - plan.left[0]) * gauge.half)
    along = (wish.height, plan.rows * gauge.row)
    width, length = (along, across) if wish.piece.worked == "sideways" else (across, along)
    found = [Fit("width", *width), Fit("length", *length)]
    if wish.shoulder is not None and wish.depth is not None:
        shoulder, depth, neck = neck_of(wish, gauge, plan.left, plan.right)
        found += [
            Fit("shoulder", wish.shoulder, shoulder),
            Fit("neck depth", wish.depth, depth),
            Fit("neck width", wish.height - 2 * wish.shoulder, neck),
        ]
    return tuple(found)


def _outline_fits(job: Job, plan: Candidate, unit: Unit) -> tuple[Fit, ...]:
    """Height, and the width at every point of the outline.

    Below the top of row 1 there is no row to measure, so the first point is measured there.
    """
    height, rows = job.wish.height, plan.rows
    outline = Curve(job.wish.piece.outline)
    found = [Fit("height", height, rows * job.gauge.row)]
    for point in dict(outline.points):
        at = max(point, height / rows)
        place = rows * at / height
        worked = (_line_at(plan.right, place) - _line_at(plan.left, place)) * job.gauge.half
        name = "width in row 1" if at > point else f"width at {shown(point, unit)}"
        found.append(Fit(name, outline.at(at), worked))
    return tuple(found)


def _line_at(positions: tuple[int, ...], place: Fraction) -> Fraction:
    """Where the edge line stands ``place`` rows up: straight from the head of one row's post to the next."""
    row = min(int(place), len(positions))
    low = positions[max(row - 1, 0)]
    high = positions[min(row, len(positions) - 1)]
    return low + (high - low) * (place - row)


def farthest(job: Job, plan: Candidate) -> Deviation | None:
    """Where the worked edges stand farthest from the wanted ones at a row's top; None for a straight piece."""
    wish, half = job.wish, job.gauge.half
    if wish.straight:
        return None
    # A panel's shaped edge is measured from its own straight part, an outline from its centre or straight edge.
    left_base, right_base = (plan.left[0], plan.right[0]) if wish.pinned else (-plan.origin, -plan.origin)
    lefts = job.targets(wish.left, plan.rows)
    rights = job.targets(wish.right, plan.rows)
    found: list[Deviation] = []
    for index in range(plan.rows):
        off_left = abs(left_base - plan.left[index] - lefts[index])
        off_right = abs(plan.right[index] - right_base - rights[index])
        found.append(Deviation("left", index + 1, off_left * half))
        found.append(Deviation("right", index + 1, off_right * half))
    return max(found, key=lambda one: one.distance)
