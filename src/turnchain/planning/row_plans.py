"""Rows alike or alternate, where the maker leaves it open.

In: a ``Job``. Out: its candidates, with the row plan that comes near its shape.

Panels go by their kind (``Target.row_plan``): "80 cm at 4 clusters to 10 cm is 32 clusters". An outline whose plan by
its kind is more than half a pitch too wide or too narrow at one of its points, or that has none, takes the nearer of
the two.
"""

from __future__ import annotations

from math import floor

from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import RowPlan
from turnchain.planning.budget import BudgetSpent
from turnchain.planning.candidate import Candidate
from turnchain.planning.candidates import candidates
from turnchain.planning.job import Job
from turnchain.planning.targets import Target, target_of
from turnchain.records import replace


def ranked_candidates(job: Job) -> tuple[Job, list[Candidate]]:
    """The job, and its candidates with the best first (none where the piece is too narrow): ``job`` as given, or the
    same with the other row plan where that comes nearer. Raises BudgetSpent where it has no plan by then."""
    ranked = ranked_with(job, job.target.row_plan)
    if not is_open(job.target) or job.target.piece.row_plan != "auto" or (ranked and not _misses(job, ranked[0])):
        return job, ranked
    other = with_row_plan(job, other_row_plan(job.target.row_plan))
    try:
        others = ranked_with(other, other.target.row_plan)
    except BudgetSpent:
        if ranked:  # the piece has its plan
            return job, ranked
        raise
    nearer = others and (not ranked or (others[0].named, others[0].cost) < (ranked[0].named, ranked[0].cost))
    return (other, others) if nearer else (job, ranked)


def ranked_with(job: Job, row_plan: RowPlan) -> list[Candidate]:
    """All candidates with this row plan, the best first; empty where there are none. Raises BudgetSpent."""
    return sorted(candidates(job, row_plan), key=lambda one: one.rank)


def other_row_plan(row_plan: RowPlan) -> RowPlan:
    """Alternate for alike, alike for alternate."""
    return "alternate" if row_plan == "alike" else "alike"


def with_row_plan(job: Job, row_plan: RowPlan) -> Job:
    """``job`` as if the file had this row plan; its target is made anew, since an edge's curve depends on it."""
    piece = replace(job.target.piece, row_plan=row_plan)
    return replace(job, target=target_of(piece, job.gauge, job.target.top, job.target.lift))


def is_open(target: Target) -> bool:
    """Whether the row plan may be the one that comes nearer: only of shaped outlines that no neck divides."""
    return not target.pinned and target.opening is None


def _misses(job: Job, plan: Candidate) -> bool:
    """Whether the width is off by more than half a pitch in a row where the outline has a point; not where a row has
    one cluster, since none has less."""
    target, rows = job.target, plan.rows
    heights = {height for curve in (target.left, target.right) for height, _ in curve.points}
    late = {row for side in SIDES for row in job.late_steps(side, rows)}
    wanted = zip(*(job.wanted_reaches(target.curve(side), rows) for side in SIDES), strict=True)
    off = [right - left - sum(reaches) for left, right, reaches in zip(plan.left, plan.right, wanted, strict=True)]
    return any(
        abs(off[row - 1]) > 1 and _clusters(job, plan, row) > 1
        for row in {max(1, floor(job.place(height, rows))) for height in heights} - late
    )


def _clusters(job: Job, plan: Candidate, row: int) -> int:
    return job.recipe.clusters(plan.left[row - 1], plan.right[row - 1], job.recipe.running(plan.phase, row))
