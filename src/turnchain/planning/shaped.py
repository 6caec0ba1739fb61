"""Every plan worth weighing for a piece with a shaped edge or a neck.

In: a ``Job``, and how many rows. Out: ``Candidate`` s, whose edges are fitted to the target.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from turnchain.fabric import lattice
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import RowPlan
from turnchain.planning.armed import fit_armed
from turnchain.planning.candidate import Candidate, candidate
from turnchain.planning.counts import counted_widths
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, Key, Room, micro
from turnchain.planning.necks import Roundness
from turnchain.planning.pairs import beside, fit_pair
from turnchain.planning.sideways_necks import neck_path
from turnchain.planning.splits import Body, best_split, neck_of_split, round_enough
from turnchain.planning.targets import Target
from turnchain.planning.upper_edges import fitted_uppers
from turnchain.records import replace


def with_rows(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> Iterator[Candidate]:
    """The candidates of so many rows, by what is shaped. ``folded``: alike from both ends; ``loose``: all lesser depths
    of a neck are tried too. Raises BudgetSpent."""
    target = job.target
    if target.pinned:
        yield from _panels(job, row_plan, rows, folded, loose)
    elif target.both_shaped and target.mirrored_across and row_plan == "alternate":
        yield from _mirrored(job, rows, folded)
    elif target.both_shaped:
        yield from _free(job, row_plan, rows, folded)
    else:
        yield from _one_shaped(job, row_plan, rows, folded)


def divided(job: Job, whole: Candidate, loose: bool) -> Iterator[Candidate]:
    """``whole`` with its neck cut from the top, if it can be; ``loose`` as in ``with_rows``. Raises BudgetSpent."""
    body = body_of(job.target, whole, job.recipe.table.by_pitches)
    assert job.target.neck is not None, "only a piece with a neck is divided"
    split = best_split(job, body, loose)
    if split is None:
        return
    mirrored = body.mirrored or not job.target.mirrored_across
    neck = neck_of_split(split, body)
    yield replace(
        whole,
        split=split,
        missed=whole.missed + (not mirrored),
        cost=whole.cost + split.key.cost,
        turns=whole.turns + split.key.turns,
        roundness=Roundness(not round_enough(job, body, split)),
        neck=neck,
        neck_off=neck.off(job.target.neck, job.gauge),
    )


def body_of(target: Target, whole: Candidate, by_pitches: bool = False) -> Body:
    """The outer edges of a candidate with the centre line of its neck, in half pitches from row 1's left edge: that of
    the piece where both edges are shaped alike, else the middle of its last row. ``by_pitches``: edges go by whole
    pitches alone."""
    middle = Fraction(whole.left[-1] + whole.right[-1], 2)
    centre = middle if target.pinned or not (target.both_shaped and target.symmetrical) else -whole.origin
    return Body(whole.left, whole.right, whole.phase, centre, by_pitches, min(target.slope, whole.rows - 1))


def _edge_paths(job: Job, task: EdgeTask, side: Side) -> dict[int, EdgePath]:
    return fit_armed(job, task, side) if job.armed else fit_edge(task)


def _panels(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> Iterator[Candidate]:
    """Panels of counted width with one edge shaped."""
    target, half = job.target, job.gauge.half
    side: Side = "left" if target.right.straight else "right"
    marks = job.marks(target.curve(side), rows)
    if target.profile is not None:
        yield from _with_parts(job, row_plan, side, marks, folded, loose)
        return
    for width, (_, phase) in product(counted_widths(job, row_plan), list(job.panel_frames())):
        off = micro(abs(width - target.width / half))
        start = width if side == "right" else 0
        opposite = 0 if side == "right" else width
        task = EdgeTask(
            _moved(marks, start * MICRO),
            phase,
            job.recipe.table,
            steps_out_at=start_parity(side),
            start=start,
            folded=folded,
            allowed=beside(job.room(phase, rows), opposite, side),
            worked=job.held(side),
            natural=folded and rows % 2 == 0,
            budget=job.budget,
            mixed=job.mixed(rows),
        )
        for path in _shaped_paths(job, task, loose):
            left, right = _positions(side, path.reaches, (opposite,) * rows)
            yield candidate(job, row_plan, left, right, phase, path.key, width_off=off)


def _with_parts(
    job: Job, row_plan: RowPlan, side: Side, marks: tuple[int, ...], folded: bool, loose: bool
) -> Iterator[Candidate]:
    """Panels worked sideways whose upper edge, at a ``side``, has parts."""
    rows = len(marks)
    task = EdgeTask(
        marks,
        0,
        job.recipe.table,
        steps_out_at=start_parity(side),
        folded=folded,
        worked=job.held(side),
        natural=folded and rows % 2 == 0,
        budget=job.budget,
        mixed=job.mixed(rows),
    )
    for one in fitted_uppers(job, row_plan, rows, task, side, loose):
        opposite = (0 if side == "right" else one.start,) * rows
        left, right = _positions(side, one.path.reaches, opposite)
        yield candidate(job, row_plan, left, right, one.phase, one.path.key, width_off=one.width_off)


def _shaped_paths(job: Job, task: EdgeTask, loose: bool) -> list[EdgePath]:
    if job.target.neck is None:
        return list(fit_edge(task).values())
    path = neck_path(job, task, loose)
    return [] if path is None else [path]


def _one_shaped(job: Job, row_plan: RowPlan, rows: int, folded: bool) -> Iterator[Candidate]:
    """Outlines with one straight edge, which stays where it is."""
    target = job.target
    side: Side = "left" if target.right.straight else "right"
    marks = job.marks(target.curve(side), rows)
    for _, phase in job.frames():
        task = EdgeTask(
            marks,
            phase,
            job.recipe.table,
            start_parity(side),
            folded=folded,
            allowed=beside(job.room(phase, rows), 0, side),
            limits=job.arms(marks),
            worked=job.held(side),
            late=_late(job, side, rows),
            budget=job.budget,
            mixed=job.mixed(rows),
        )
        for path in _edge_paths(job, task, side).values():
            if path.reaches[0] % 2 in job.width_parities(row_plan):
                left, right = _positions(side, path.reaches, (0,) * rows)
                yield candidate(job, row_plan, left, right, phase, path.key)


def _mirrored(job: Job, rows: int, folded: bool) -> Iterator[Candidate]:
    """Both edges alike in every row, about a centre line on a lattice point or, where edges are of one kind,
    halfway."""
    marks = job.marks(job.target.right, rows)
    halfway = (Fraction(1, 2),) if job.recipe.table.by_pitches else ()
    for centre, phase in job.frames((Fraction(0), *halfway)):
        both, across = job.room(phase, rows), int(2 * centre)

        def room(row: int, reach: int, both: Room = both, across: int = across) -> bool:
            return both(row, across - reach, reach)

        wanted = _moved(marks, micro(centre))
        task = EdgeTask(
            wanted,
            phase,
            job.recipe.table,
            None,
            folded=folded,
            copies=2,
            allowed=room,
            limits=job.arms(wanted),
            worked=job.held("right"),
            budget=job.budget,
            mixed=job.mixed(rows),
        )
        for path in _edge_paths(job, task, "right").values():
            left, right = tuple(across - reach for reach in path.reaches), path.reaches
            yield candidate(job, "alternate", left, right, phase, path.key, centre=centre)


def _free(job: Job, row_plan: RowPlan, rows: int, folded: bool) -> Iterator[Candidate]:
    """Both edges shaped, each by itself, about a centre line on a lattice point or halfway."""
    target = job.target
    missed = int(target.mirrored_across)
    left, right = job.marks(target.left, rows), job.marks(target.right, rows)
    for centre, phase in job.frames((Fraction(0), Fraction(1, 2))):
        off = micro(centre)
        tasks = (
            _edge_apart(job, "left", left, -off, phase, folded),
            _edge_apart(job, "right", right, off, phase, folded),
        )
        apart = (_edge_paths(job, tasks[0], "left"), _edge_paths(job, tasks[1], "right"))
        for begun, parity in product((0, 1), job.width_parities(row_plan)):
            parities = (begun, (begun + parity) % 2)
            bounded = target.piece.exact_clusters is None
            pair = fit_pair(tasks, apart, parities, _between(job.room(phase, rows)), job.pair_states, bounded)
            if pair is not None:
                lefts = tuple(-reach for reach in pair[0].reaches)
                key = _sum(pair[0].key, pair[1].key)
                yield candidate(job, row_plan, lefts, pair[1].reaches, phase, key, missed, centre=centre)


def _edge_apart(job: Job, side: Side, marks: tuple[int, ...], off: int, phase: int, folded: bool) -> EdgeTask:
    wanted = _moved(marks, off)
    return EdgeTask(
        wanted,
        phase,
        job.recipe.table,
        start_parity(side),
        folded=folded,
        limits={} if job.target.piece.opens_at == side else job.arms(wanted),
        worked=job.held(side),
        late=_late(job, side, len(marks), off),
        budget=job.budget,
        mixed=job.mixed(len(marks)),
    )


def _late(job: Job, side: Side, rows: int, off: int = 0) -> dict[int, int]:
    """The rows in which a step outwards may still be to come, but for worked ones, and what is wanted of them then in
    ``MICRO``-ths of a half pitch, moved by ``off``."""
    worked = job.held(side)
    return {row: micro(reach) + off for row, reach in job.late_steps(side, rows).items() if row not in worked}


def _moved(marks: tuple[int, ...], off: int) -> tuple[int, ...]:
    return tuple(mark + off for mark in marks)


def _sum(one: Key, other: Key) -> Key:
    return Key(*(a + b for a, b in zip(one, other, strict=True)))


def start_parity(side: Side) -> int:
    """The parity of the rows that start at ``side``."""
    return 1 if lattice.starting_side(1) == side else 0


def _between(room: Room) -> Room:
    """The same ``room`` for two reaches."""
    return lambda row, left, right: room(row, -left, right)


def _positions(
    side: Side, reaches: tuple[int, ...], opposite: tuple[int, ...]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    if side == "right":
        return opposite, reaches
    return tuple(-reach for reach in reaches), opposite
