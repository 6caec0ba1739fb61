"""How many rows, and how many clusters, a piece may have: the few numbers about what is wanted.

In: a ``Job``. Out: row counts and widths worth planning, in rising order.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from turnchain.fabric.plan import RowPlan
from turnchain.planning.job import Job


def rows_to_try(job: Job, folded: bool) -> list[int]:
    """The row counts to be tried. Where units stand over gaps a line that leans reads alike from both ends over an odd
    number of rows alone; one that only steps, as that of a square neck or a round one may, over any, and so does every
    line where units stand over units. Where one shoulder is done, the other has as many as it."""
    if job.begun is not None and job.begun.top is not None:
        return [job.begun.top]
    least = job.recipe.order.least if job.begun is None else job.begun.rows
    wanted, neck = job.wanted_rows, job.target.neck
    any_number = row_counts(wanted, False, least)
    if not folded:
        return any_number
    odd = row_counts(wanted, True, least)
    steps = job.target.profile is not None if neck is None else neck.shape in ("square", "round")
    return sorted({*odd, *any_number}) if steps or not job.recipe.table.shift else odd


def row_counts(wanted: Fraction, odd: bool, least: int = 1) -> list[int]:
    """The two whole (``odd``: odd) numbers of rows that enclose the ``wanted`` one, or the one that meets it, in rising
    order; none less than ``least``, or than the next odd one."""
    if odd:
        least += 1 - least % 2
    if odd:
        below, above = 2 * floor((wanted - 1) / 2) + 1, 2 * ceil((wanted - 1) / 2) + 1
    else:
        below, above = floor(wanted), ceil(wanted)
    return sorted({max(least, below), max(least, above)})


def widths(wanted: Fraction, row_plan: RowPlan) -> list[int]:
    """The widths in half pitches to try for a counted width of ``wanted`` half pitches, in rising order.

    Rows alike have as many clusters as the width has pitches, to the nearest (both where it lies halfway), and half a
    pitch over: an odd width. Rows that alternate have the even widths that enclose it, 2 at least.
    """
    if row_plan == "alike":
        whole = max(Fraction(1), wanted / 2)
        nearest = {floor(whole), ceil(whole)}
        least = min(abs(whole - clusters) for clusters in nearest)
        return sorted(2 * clusters + 1 for clusters in nearest if abs(whole - clusters) == least)
    return sorted({max(2, 2 * floor(wanted / 2)), max(2, 2 * ceil(wanted / 2))})


def counted_widths(job: Job, row_plan: RowPlan, drop: int = 0) -> list[int]:
    """The widths of a panel to be tried, in row 1, which is ``drop`` half pitches less wide than the panel; of one
    begun already only its own."""
    over_all = job.target.width / job.gauge.half - drop
    if job.begun is not None:
        return [job.begun.lines["right"][1] - job.begun.lines["left"][1]]
    chain, exact = job.target.piece.exact_chain, job.target.piece.exact_clusters
    apart, over = (1, 1) if job.recipe.table.by_pitches else (2, 0)
    if chain is not None:  # every stitch has a chain under it
        most = chain // job.recipe.pitch + 1
        halves = [apart * units + over for units in range(max(1, most - 4), most + 1)]
        return halves if job.recipe.stacked or row_plan == "alternate" else [width + 1 for width in halves]
    if job.recipe.stacked:  # whole units, with nothing beside them or a pitch at either edge
        wanted = Fraction(exact) if exact is not None else (over_all - over) / apart
        return sorted({apart * max(1, units) + over for units in (floor(wanted), ceil(wanted))})
    if exact is not None:
        return [2 * exact + 1] if row_plan == "alike" else [2 * exact, 2 * exact + 2]
    return widths(over_all, row_plan)
