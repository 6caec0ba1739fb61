"""Every plan worth weighing for a piece.

In: a ``Job``. Out: ``Candidate`` s: the edges of every row on the lattice, each the best of its kind (row count,
width, phase). Here are panels that are straight; all others stand in ``shaped``.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import product

from turnchain.fabric.plan import RowPlan
from turnchain.planning.candidate import Candidate, candidate
from turnchain.planning.counts import counted_widths, rows_to_try
from turnchain.planning.job import Job
from turnchain.planning.moves import Key, micro
from turnchain.records import replace
from turnchain.terminal import progress

_NO_COST = Key(0, 0, 0, 0)


def candidates(job: Job, row_plan: RowPlan) -> list[Candidate]:
    """All candidates with this ``row_plan``, in the order they are found; empty where the piece is too narrow for any,
    or no plan has the rows or clusters chosen. Those that read alike from both ends are looked for first, and others
    only where there are none. Raises BudgetSpent."""
    target = job.target
    found: list[Candidate] = []
    mirrors = (True, False) if job.mirrored_along else (False,)
    for folded, loose in product(mirrors, (False, True) if target.neck is not None else (True,)):
        if found:
            break
        counts = [rows for rows in rows_to_try(job, folded) if job.may_have_rows(rows)]
        for number, rows in enumerate(counts):
            progress(f"plans of {target.piece.name}", number, len(counts))
            if target.opening is None:
                found += _to_measure(job, row_plan, rows, folded, loose)
            else:
                found += _divided(job, _undivided(job, row_plan, rows, folded, loose), loose)
    return [one for one in found if job.may_begin(one.left[0], one.right[0], one.phase, one.foundation)]


def _divided(job: Job, whole: list[Candidate], loose: bool) -> Iterator[Candidate]:
    from turnchain.planning.shaped import divided  # straight panels without a neck do without all that fits edges

    return (one for body in whole for one in divided(job, body, loose))


def _undivided(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> list[Candidate]:
    """The candidates of so many rows before a neck is cut from them: searched once for pieces that differ in nothing
    but that, as most fronts and backs."""
    search = partial(_to_measure, job, row_plan, rows, folded, loose)
    if job.begun is not None:  # each has rows of its own already
        return search()
    piece = replace(
        job.target.piece, name="", count=1, neck=None, faces=None, mirrors=None, role=None,
        stripes=None, stripes_begin=None, before="", after="",
    )  # fmt: skip
    target = replace(job.target, piece=piece, neck=None, opening=None)
    return job.budget.once((target, job.gauge, job.recipe, job.pair_states, row_plan, rows, folded, loose), search)


def _to_measure(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> list[Candidate]:
    """The candidates of so many rows; where the best misses a measure of an armhole, those besides that are fitted to
    it."""
    found = list(_with_rows(job, row_plan, rows, folded, loose))
    if found and min(found, key=lambda one: one.rank).armhole_off[0]:
        found += _with_rows(replace(job, armed=True), row_plan, rows, folded, loose)
    return found


def _with_rows(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> Iterator[Candidate]:
    if job.target.pinned and job.target.straight:
        return _straight(job, row_plan, rows)
    from turnchain.planning.shaped import with_rows  # see above

    return with_rows(job, row_plan, rows, folded, loose)


def _straight(job: Job, row_plan: RowPlan, rows: int) -> Iterator[Candidate]:
    """Panels of counted width."""
    target, half, recipe = job.target, job.gauge.half, job.recipe
    told = recipe.order.differing if recipe.order.plain else min(rows, recipe.order.differing)
    for width, (_, phase) in product(counted_widths(job, row_plan), list(job.panel_frames())):
        if _starts_with_unit(job, row_plan, width, phase):
            continue
        if all(job.room(phase, rows)(row, 0, width) for row in range(1, told + 1)):
            off = micro(abs(width - target.width / half))
            yield candidate(job, row_plan, (0,) * rows, (width,) * rows, phase, _NO_COST, width_off=off)


def _starts_with_unit(job: Job, row_plan: RowPlan, width: int, phase: int) -> bool:
    """Whether all rows of a straight panel would start without an edge stitch, by slip stitches, where they can all
    start with one as well and the maker has chosen neither."""
    recipe = job.recipe
    chosen = recipe.start or job.target.piece.exact_chain is not None or job.begun is not None
    if not recipe.bare or chosen or row_plan == "alternate":
        return False
    return recipe.kind(width, recipe.running(phase, 1)) == "bare"
