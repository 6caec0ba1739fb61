"""Every plan worth weighing for a piece, and the order in which they are weighed.

In: a ``Job``. Out: ``Candidate`` s: the edges of every row on the lattice, each the best of its kind (row count,
width, phase), and ``Candidate.rank``, the order of preference as one comparable tuple.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import partial
from itertools import pairwise, product

from turnchain.fabric import lattice, stitches
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import RowPlan
from turnchain.planning.armholes import armholes_off, fit_armed
from turnchain.planning.counts import counted_widths, rows_to_try
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, Key, micro
from turnchain.planning.necks import NeckErrors, WorkedNeck
from turnchain.planning.pairs import Room, beside, fit_pair
from turnchain.planning.sideways_necks import Roundness, neck_path
from turnchain.planning.splits import Body, Split, best_split, neck_of_split, round_enough
from turnchain.planning.targets import Target
from turnchain.planning.upper_edges import fitted_uppers, neck_at, off_at, roundness_at
from turnchain.records import frozen, replace
from turnchain.terminal import progress


@frozen(slots=False)
class Candidate:
    """One plan on the lattice: ``left`` and ``right`` positions row by row, row 1's left edge at 0.

    ``origin`` is where that 0 lies in the frame of the target, in half pitches. ``split``: how a neck divides the
    piece; the positions here are then those of its outer edges.

    ``missed`` counts the mirrors wanted and not given; ``cost`` is in squared ``MICRO``-ths of a half pitch,
    ``width_off`` in ``MICRO``-ths of a half pitch; ``turns``: the changes of direction of the edges; ``foundation``:
    the chains to make, the turning chain included; ``roundness``: how a round neck keeps to its ellipse; ``neck``:
    None where there is none or no row shows it; ``neck_off``: how far its measures are off; ``armhole_off``: how many
    measures of armholes are out of tolerance, and by how much the worst is, in millionths of a cm.
    """

    left: tuple[int, ...]
    right: tuple[int, ...]
    phase: int
    origin: Fraction
    row_plan: RowPlan
    missed: int
    cost: int
    width_off: int
    turns: int
    foundation: int
    roundness: Roundness = Roundness()
    neck: WorkedNeck | None = None
    neck_off: NeckErrors = NeckErrors()
    armhole_off: tuple[int, int] = (0, 0)
    split: Split | None = None

    @property
    def rows(self) -> int:
        """How many rows."""
        return len(self.left)

    @property
    def edges(self) -> tuple[tuple[int, ...], ...]:
        """All edge lines: the outer ones and, of a divided piece, the inner ones."""
        inner = () if self.split is None else (self.split.left, self.split.right)
        return (self.left, self.right, *inner)

    def in_half_pitches(self, stride: int) -> Candidate:
        """The same with positions in half pitches, of one whose unit is ``stride`` of them."""
        if stride == 1:
            return self
        left, right = (tuple(at * stride for at in edge) for edge in (self.left, self.right))
        return replace(self, left=left, right=right, phase=0, split=self.split and self.split.in_half_pitches(stride))

    @property
    def named(self) -> tuple[int, int]:
        """How many named measures are out of tolerance, and by how much the worst is, in millionths of a cm."""
        (some, worst), (others, other) = self.neck_off.named, self.armhole_off
        return some + others, max(worst, other)

    @property
    def rank(self) -> tuple[int, ...]:
        """The order of preference as one tuple; less is better: mirrors missed, a round neck off its ellipse, named
        measures out of tolerance (how many, then the worst), a corner off the ellipse, nearness, width, turns, errors
        of shoulder, depth and neck width, rows, foundation chain, phase."""
        off = self.neck_off
        return (
            self.missed,
            self.roundness.off,
            *self.named,
            self.roundness.corner,
            self.cost,
            self.width_off,
            self.turns,
            off.shoulder,
            off.depth,
            off.width,
            self.rows,
            self.foundation,
            self.phase,
        )


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
                whole = _undivided(job, row_plan, rows, folded, loose)
                found += (divided for one in whole for divided in _divided(job, one, loose))
    return [one for one in found if job.may_begin(one.left[0], one.right[0], one.phase, one.foundation)]


def _divided(job: Job, whole: Candidate, loose: bool) -> Iterator[Candidate]:
    """``whole`` with its neck cut from the top, if it can be."""
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


def _edge_paths(job: Job, task: EdgeTask, side: Side) -> dict[int, EdgePath]:
    return fit_armed(job, task, side) if job.armed else fit_edge(task)


def _with_rows(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> Iterator[Candidate]:
    target = job.target
    if target.pinned:
        yield from _panels(job, row_plan, rows, folded, loose)
    elif target.both_shaped and target.mirrored_across and row_plan == "alternate":
        yield from _mirrored(job, rows, folded)
    elif target.both_shaped:
        yield from _free(job, row_plan, rows, folded)
    else:
        yield from _one_shaped(job, row_plan, rows, folded)


def _panels(job: Job, row_plan: RowPlan, rows: int, folded: bool, loose: bool) -> Iterator[Candidate]:
    """Panels of counted width, straight or with one edge shaped."""
    target, half = job.target, job.gauge.half
    side: Side = "left" if target.right.straight else "right"
    marks = () if target.straight else job.marks(target.curve(side), rows)
    if target.profile is not None and not target.straight:
        yield from _with_parts(job, row_plan, side, marks, folded, loose)
        return
    for width, (_, phase) in product(counted_widths(job, row_plan), list(job.panel_frames())):
        off = micro(abs(width - target.width / half))
        level = (0,) * rows
        if target.straight:
            if _starts_with_unit(job, row_plan, width, phase):
                continue
            differing = job.recipe.order.differing
            told = differing if job.recipe.order.plain else min(rows, differing)
            if all(job.room(phase, rows)(row, 0, width) for row in range(1, told + 1)):
                right = (width,) * rows
                yield _candidate(job, row_plan, level, right, phase, EdgePath(_NO_COST, ()), width_off=off)
            continue
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
            yield _candidate(job, row_plan, left, right, phase, path, width_off=off)


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
        yield _candidate(job, row_plan, left, right, one.phase, one.path, width_off=one.width_off)


def _starts_with_unit(job: Job, row_plan: RowPlan, width: int, phase: int) -> bool:
    """Whether all rows of a straight panel would start without an edge stitch, by slip stitches, where they can all
    start with one as well and the maker has chosen neither."""
    recipe = job.recipe
    chosen = recipe.start or job.target.piece.exact_chain is not None or job.begun is not None
    if not recipe.bare or chosen or row_plan == "alternate":
        return False
    return recipe.kind(width, recipe.running(phase, 1)) == "bare"


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
                yield _candidate(job, row_plan, left, right, phase, path)


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
            yield _candidate(job, "alternate", left, right, phase, path, centre=centre)


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
                path = EdgePath(_sum(pair[0].key, pair[1].key), ())
                yield _candidate(job, row_plan, lefts, pair[1].reaches, phase, path, missed, centre=centre)


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


# A neck that no row shows misses all its measures.
NO_NECK = NeckErrors((4, 10**9), 10**9, 10**9, 10**9)
_NO_COST = Key(0, 0, 0, 0)


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


def _candidate(
    job: Job,
    row_plan: RowPlan,
    left: tuple[int, ...],
    right: tuple[int, ...],
    phase: int,
    path: EdgePath,
    missed: int = 0,
    width_off: int | None = None,
    centre: Fraction = Fraction(0),
) -> Candidate:
    """A candidate moved so that row 1's left edge is 0; the phase moves with it."""
    rows, shift = len(left), left[0]
    missed += int(job.mirrored_along and not _reads_alike(left, right))
    running = job.recipe.running(phase, 1)
    start, end = job.recipe.kind(right[0], running), job.recipe.kind(left[0], running)
    wanted = None if job.target.opening else job.target.neck
    shaped = left if job.target.right.straight else right
    neck = None if wanted is None else neck_at(job, shaped)
    return Candidate(
        left=tuple(at - shift for at in left),
        right=tuple(at - shift for at in right),
        phase=(phase + shift) % 2,
        origin=shift - centre,
        row_plan=row_plan,
        missed=missed,
        cost=path.key.cost + job.stretch_cost(rows),
        width_off=path.key.width if width_off is None else width_off,
        turns=path.key.turns,
        foundation=stitches.foundation(
            job.recipe, job.recipe.clusters(left[0], right[0], running), start, end
        ),
        roundness=Roundness() if wanted is None else roundness_at(job, shaped),
        neck=neck,
        neck_off=NeckErrors() if wanted is None else off_at(job, neck) if neck else NO_NECK,
        armhole_off=armholes_off(job, (left, right)),
    )


def _reads_alike(left: tuple[int, ...], right: tuple[int, ...]) -> bool:
    """Whether both edge lines, from the foot of row 1 to the head of the last row, read alike from both ends."""
    return all(_line_reads_alike(edge) for edge in (left, right))


def _line_reads_alike(edge: tuple[int, ...]) -> bool:
    line = edge_line(edge)
    return line == [(len(edge) - height, at) for height, at in reversed(line)]


def edge_line(edge: Sequence[int]) -> list[tuple[int, int]]:
    """The edge line as (height in rows, position in half pitches) from the foot of row 1 up, of an ``edge`` with a
    position for every row: a row leans from its foot to its head, a step is a corner at the foot of its row."""
    line = [(0, edge[0])]
    for row, (below, at) in enumerate(pairwise((edge[0], *edge)), start=1):
        if abs(at - below) > 1:
            line.append((row - 1, at))
        line.append((row, at))
    return line
