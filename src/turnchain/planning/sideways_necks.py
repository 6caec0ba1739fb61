"""Necks cut into the shaped edge of a panel worked sideways.

In: the edge as a task and the neck as wanted. Out: the best path, the neck's measures as near as rows and half pitches
allow.

Where a neck begins and ends and how deep it is are fixed before its curve is fitted: the curve then runs through these
measures, and a search finds the path nearest to it. The choices in the few rows around the wanted measures are tried
in order, those first that bring most measures within their tolerance. A choice that only a forced increase makes
possible is left out: the increase is seen more than the error it would mend.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import ceil, floor

from turnchain.planning.curves import neck_depths
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, compared
from turnchain.planning.necks import NeckErrors, Roundness, WorkedNeck, neck_of_edge, on_ellipse
from turnchain.planning.targets import NeckTarget
from turnchain.records import frozen, replace


@frozen
class _Choice:
    """A neck to be tried, and how near it comes; ``stepped``: whether the line comes back to the last shoulder by a
    step. Of a folded line that is left open."""

    neck: WorkedNeck
    stepped: bool | None
    errors: NeckErrors

    @property
    def order(self) -> tuple[int, ...]:
        """Less is better: as named measures are compared."""
        errors = self.errors
        return (*errors.named, errors.shoulder, errors.depth, errors.width)


def neck_path(job: Job, task: EdgeTask, loose: bool) -> EdgePath | None:
    """The path of the first choice that can be worked; of a round neck one that keeps to its ellipse is preferred. None
    where there is none. ``task``: the edge, from a fixed start. ``loose``: all lesser depths are tried too, and at
    last any path between two shoulders. Raises BudgetSpent."""
    neck = job.target.neck
    assert neck is not None, "only a panel with a neck"
    second_best: dict[Roundness, EdgePath] = {}
    named: tuple[int, int] | None = None
    choices = _choices(job, neck, task, loose)
    for choice in choices:
        corner = second_best.get(Roundness(corner=True))
        if corner is not None and choice.errors.named != named:
            return corner
        for path in _paths(job, task, choice):
            roundness = roundness_of(job, path.reaches)
            if roundness == Roundness():
                return path
            named = choice.errors.named
            second_best.setdefault(roundness, path)
    if second_best:
        return second_best[min(second_best)]
    return next(_any_path(job, task, choices), None) if loose else None


def _any_path(job: Job, task: EdgeTask, choices: list[_Choice]) -> Iterator[EdgePath]:
    """The nearest path of all, as long as it has a shoulder at both ends, or the neck is less than half a cluster deep;
    then those that need a forced increase."""
    start, neck = task.start, job.target.neck
    assert neck is not None, "only a panel with a neck"
    assert start is not None, "a panel's edge starts where its width puts it"
    inside = dict.fromkeys(range(1, task.rows + 1), (min(task.wanted) // MICRO - 2, start))
    for path in fit_edge(replace(task, limits=inside)).values():
        found = neck_of_edge(path.reaches)
        if neck.reach < job.gauge.half if found is None else all(found.shoulders):
            yield path
    for choice in choices:
        limits = _limits(job, task, choice)
        if limits is not None:
            yield from fit_edge(replace(task, limits=limits)).values()


def _choices(job: Job, wanted: NeckTarget, task: EdgeTask, loose: bool) -> list[_Choice]:
    """The choices around the wanted measures in the order of their errors."""
    shoulder, depth = wanted.shoulder / job.gauge.row, wanted.reach / job.gauge.half
    around = range(max(1, floor(shoulder) - 1), ceil(shoulder) + 2)
    most = max(1, floor(depth + 1))
    depths = range(1 if loose else max(1, ceil(depth - 1)), most + 1)
    ends: Iterator[tuple[int, int, bool | None]]
    if task.folded:
        ends = ((rows, rows, None) for rows in around)
    else:
        ends = product(sorted({*around, *_begun(task)}), around, (False, True))
    choices = []
    for (first, last, stepped), deep in product(ends, depths):
        if task.rows - first - last > 0:
            neck = WorkedNeck((first, last), deep, task.rows - first - last, sideways=True)
            choices.append(_Choice(neck, stepped, neck.off(wanted, job.gauge)))
    return sorted(choices, key=lambda choice: choice.order)


def _begun(task: EdgeTask) -> list[int]:
    """The first shoulder, where the neck is begun in the rows that are worked."""
    return [row - 1 for row, reach in sorted(task.worked.items()) if reach != task.start][:1]


def _paths(job: Job, task: EdgeTask, choice: _Choice) -> Iterator[EdgePath]:
    """The nearest paths of a ``choice`` that need no forced increase. Of a round neck that leaves its ellipse, first
    one that keeps to it, then one that keeps to it but for a corner, if there are any."""
    limits = _limits(job, task, choice)
    if limits is None:
        return
    slant = job.target.neck is not None and job.target.neck.shape == "slant"
    fixed = replace(task, limits=limits, wanted=_curve(job, task, choice.neck), steps=not slant)
    path = nearest_natural(fixed)
    if path is None:
        return
    found = [path]
    if roundness_of(job, path.reaches) != Roundness():
        rounder = (_along_ellipse(job, fixed, choice.neck, corners) for corners in (False, True))
        found = [*filter(None, (nearest_natural(one) for one in rounder if one is not None)), path]
    for one in found:  # plans are compared by the curve that is wanted
        cost = compared(one.key.cost, fixed, task.wanted, one.reaches)
        yield replace(one, key=one.key._replace(cost=cost))


def nearest_natural(task: EdgeTask) -> EdgePath | None:
    """The nearest path; where it can be, one without a forced increase."""
    natural = next(iter(fit_edge(replace(task, natural=True)).values()), None)
    if natural is None or task.natural or natural.key.cost <= task.table.dearest * MICRO**2:
        return natural
    return next(iter(fit_edge(task).values()))


def _curve(job: Job, task: EdgeTask, neck: WorkedNeck) -> tuple[int, ...]:
    """The reaches wanted in every row of a neck with these measures, in ``MICRO``-ths of a half pitch."""
    wanted, gauge = job.target.neck, job.gauge
    assert wanted is not None, "only a panel with a neck"
    assert task.start is not None, "a panel's edge starts where its width puts it"
    shoulder, _, depth, width = neck.in_cm(gauge)
    deep = neck_depths(wanted.shape, width + 2 * shoulder, shoulder, depth, gauge.half / gauge.row)
    first, last = neck.shoulders[0] + 1, task.rows - neck.shoulders[1]
    rows = list(range(first, last + 1))
    if wanted.shape == "round" and neck.width > 1:
        # where the line steps back: a corner, no farther off than that at the beginning, where no row's top lies
        rows[-1] -= 1
    level = task.start * MICRO
    inside = [level - down for down in deep.in_parts(rows, gauge.row, gauge.half / MICRO)]
    return (*[level] * (first - 1), *inside, *[level] * (task.rows - last))


def _limits(job: Job, task: EdgeTask, choice: _Choice) -> dict[int, tuple[int, int]] | None:
    """Where every row may stand so that the neck begins and ends as chosen and is as deep; None where it cannot, or
    where rows already worked do not let it."""
    neck, start = choice.neck, task.start
    assert start is not None, "a panel's edge starts where its width puts it"
    begin, end = neck.shoulders[0] + 1, task.rows - neck.shoulders[1]  # the first and the last row that may be inside
    bottom = start - neck.depth
    limits = {row: (bottom, start - 1) if begin <= row <= end else (start, start) for row in range(1, task.rows + 1)}
    middle = task.last
    if choice.stepped is None:  # the other half is settled by that which is searched
        limits |= dict.fromkeys(range(end, task.rows + 1), (bottom, start))
        if begin > middle:
            return None
    else:
        if not choice.stepped:
            limits[end] = (start, start)
            end -= 1
        if begin > end:
            return None
        limits[end] = (bottom, start - 2) if choice.stepped else (start - 1, start - 1)
        middle = (begin + end) // 2
    if _square(job) and neck.depth > 1:
        limits[begin] = (bottom, start - 2)
    limits[middle] = (bottom, min(bottom, limits[middle][1]))
    worked = task.worked.items()
    if limits[middle][1] < limits[middle][0] or any(low > high for low, high in limits.values()):
        return None
    return limits if all(limits[row][0] <= reach <= limits[row][1] for row, reach in worked) else None


def _square(job: Job) -> bool:
    return job.target.neck is not None and job.target.neck.shape == "square"


def roundness_of(job: Job, edge: Sequence[int]) -> Roundness:
    """How the neck of an ``edge``, a position or reach in half pitches for every row, keeps to its ellipse."""
    wanted, neck = job.target.neck, neck_of_edge(edge)
    if wanted is None or wanted.shape != "round" or neck is None:
        return Roundness()
    middle = neck.shoulders[0] + Fraction(neck.width, 2)
    points = [(row - middle, abs(at - edge[0])) for row, at in enumerate(edge, start=1) if at != edge[0]]
    if on_ellipse(neck, job.gauge, points):
        return Roundness()
    inner = [point for point in points if point[0] < Fraction(neck.width, 2)]
    return Roundness(corner=True) if on_ellipse(neck, job.gauge, inner) else Roundness(off=True)


def _along_ellipse(job: Job, task: EdgeTask, neck: WorkedNeck, corners: bool) -> EdgeTask | None:
    """``task`` kept to within half a pitch of the ellipse through these measures; ``corners``: but for the row whose
    top is the foot of a step back. None where a row has no place there."""
    middle, start = neck.shoulders[0] + Fraction(neck.width, 2), task.start
    assert start is not None, "a panel's edge starts where its width puts it"

    def near(row: int, reach: int) -> bool:
        corner = corners and row == task.rows - neck.shoulders[1]
        there = corner or reach == start or on_ellipse(neck, job.gauge, [(row - middle, start - reach)])
        return there and task.allowed(row, reach)

    limits = dict(task.limits)
    for row, (low, high) in task.limits.items():
        if low == high or high >= start or (corners and row == task.rows - neck.shoulders[1]):
            continue  # a row that may stand where it began is no part of the neck for certain
        depths = _near_depths(job, neck, row - middle, start - low)
        if depths is None:
            return None
        limits[row] = max(low, start - depths[1]), min(high, start - depths[0])
        if limits[row][0] > limits[row][1]:
            return None
    return replace(task, allowed=near, limits=limits)


def _near_depths(job: Job, neck: WorkedNeck, out: Fraction, deepest: int) -> tuple[int, int] | None:
    """From how deep to how deep, in half pitches, a row may be that lies ``out`` rows from the middle of a neck, to be
    near its ellipse; no deeper than ``deepest``. None where it is near at no depth."""
    share = 1 - (out / Fraction(neck.width, 2)) ** 2
    about = round(neck.depth * max(0.0, float(share)) ** 0.5)
    tried = sorted(range(deepest + 1), key=lambda depth: abs(depth - about))
    there = next((depth for depth in tried if on_ellipse(neck, job.gauge, [(out, depth)])), None)
    if there is None:
        return None
    least = most = there
    while least > 0 and on_ellipse(neck, job.gauge, [(out, least - 1)]):
        least -= 1
    while most < deepest and on_ellipse(neck, job.gauge, [(out, most + 1)]):
        most += 1
    return least, most
