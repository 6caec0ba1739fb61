"""Planning one piece.

In: a ``Piece``, its gauge and the budget of the search. Out: its ``PiecePlan``, without colours: the best candidate
by the order of preference (``Candidate.rank``), its rows, every measure as wanted and as worked, what came close, and
warnings. A piece begun keeps its worked rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from turnchain.fabric.gauge import Gauge, measured_gauge
from turnchain.fabric.library import recipe_of, row_of_sc
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import Alternative, PiecePlan, ProgressReport, RowPlan
from turnchain.fabric.recipe import Recipe
from turnchain.numbers import counted
from turnchain.pattern import FRONT_EDGE, MOST_ROWS, ON_ARMHOLE, OutlineStretch, Pattern, Piece, Progress
from turnchain.planning import measuring
from turnchain.planning.armholes import ARMHOLE
from turnchain.planning.budget import BudgetSpent, SearchBudget
from turnchain.planning.candidate import Candidate
from turnchain.planning.counts import row_counts
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO
from turnchain.planning.row_plans import is_open, other_row_plan, ranked_candidates, ranked_with, with_row_plan
from turnchain.planning.rows import rows_of
from turnchain.planning.targets import Target, target_of, top_side
from turnchain.planning.warnings import warnings_of
from turnchain.records import frozen, replace
from turnchain.units import shown

# A plan already begun is kept as it is where the best one would be no nearer than this: what one row half a pitch off
# costs. The words a maker works from then stay the same.
KEEP_COST = MICRO**2
# A piece comes out some tenths larger or smaller than its swatch, never at twice or half its size; common sense, no
# source.
MOST_TIMES = 2
# An alternative is only mentioned in the report, so the search for it is kept short.
ALTERNATIVE_PAIR_STATES = 2_000


class Unplannable(Exception):
    """A piece that has no plan: what was found, what is allowed, and what to try, in makers' words. ``within`` names
    the key at fault, or "progress"; empty: the whole piece."""

    def __init__(self, found: str, allowed: str, hint: str, within: str = "") -> None:
        self.allowed, self.hint, self.within = allowed, hint, within
        super().__init__(found)

    def place(self, name: str) -> str:
        """The place in words, in the piece called ``name``."""
        return f'{self.within} of piece "{name}"' if self.within else f'piece "{name}"'


@frozen(slots=False)
class Choice:
    """What a piece might be: all candidates of its ``job`` as they were ``ranked``, and the ``best`` of them or, where
    pieces that meet it have another number of rows, the best with that."""

    job: Job
    ranked: list[Candidate]
    best: Candidate

    def with_rows(self, rows: int) -> Choice | None:
        """The same with the best plan that has so many rows, searched anew where none of the ranked has; None where
        there is none. Raises BudgetSpent."""
        found = [one for one in self.ranked if one.rows == rows]
        if not found:
            target = self.job.target
            exact = replace(self.job, target=replace(target, piece=replace(target.piece, exact_rows=rows)))
            found = ranked_with(exact, self.best.row_plan)
        return replace(self, best=found[0]) if found else None

    def planned(self, others: bool = True) -> PiecePlan:
        """The plan of the best, without colours, with its measures, warnings and, where ``others``, alternatives."""
        alternatives = _alternatives(self.job, self.best, self.ranked) if others else ()
        return _piece_plan(self.job, self.best, alternatives, follows=self.best.rows != self.ranked[0].rows)


def choice_of(piece: Piece, pattern: Pattern, gauge: Gauge, budget: SearchBudget) -> Choice:
    """What ``piece`` might be by ``gauge``: its candidates, and for now the first as the best. Raises Unplannable where
    there are none, or BudgetSpent."""
    job, ranked = _ranked(job_of(piece, pattern, gauge, budget))
    return Choice(job, ranked, ranked[0])


def plan_begun_piece(choice: Choice, pattern: Pattern, progress: Progress, budget: SearchBudget) -> PiecePlan:
    """The best plan that keeps the worked rows of the piece that was begun by ``choice``, by the gauge measured on
    them, which is then the plan's. The old plan stays where it comes within ``KEEP_COST`` of the best.

    Raises Unplannable where more rows are worked than planned, where what was measured is not half to twice what the
    swatch has, or where nothing can follow the worked rows; or BudgetSpent.
    """
    from turnchain.planning.progress import begun_piece  # for pieces begun

    job, first = choice.job, choice.best
    rows = rows_of(first, job.recipe)  # by the unit of the search; what they count does not matter here
    if progress.rows > len(rows):
        there = f"the piece has {counted(len(rows), 'row')}, in the order worked"
        raise Unplannable(f"{counted(progress.rows, 'row')} worked", there, "", "progress")
    last = rows[progress.rows - 1]
    across = job.stride * (last.right.at - last.left.at)
    gauge = measured_gauge(job.gauge_made, progress, last.number, across)
    _check_measured(job, gauge, progress, last.number)
    begun = begun_piece(rows, first.phase, first.origin, progress.rows)
    anew = replace(job_of(job.target.piece, pattern, gauge, budget), begun=begun)
    ranked = _checked(ranked_with(anew, first.row_plan), anew)
    best = _least_changed(ranked, first)
    report = _progress_report(anew, first, best, progress)
    return _piece_plan(anew, best, _alternatives(anew, best, ranked), report)


def _check_measured(job: Job, gauge: Gauge, progress: Progress, rows: int) -> None:
    """Raises Unplannable where ``rows`` rows cannot measure what ``progress`` has."""
    told = partial(shown, unit=job.unit)
    along = f"{counted(rows, 'row')} of {told(progress.height)} together, {told(gauge.row)} each"
    across = f"a last row of {told(progress.width or gauge.pitch)}, {told(gauge.pitch)} for a {job.recipe.noun}"
    sizes = ((along, gauge.row, job.gauge.row), (across, gauge.pitch, job.gauge_made.pitch))
    for found, measured, swatch in sizes:
        if not swatch / MOST_TIMES <= measured <= swatch * MOST_TIMES:
            allowed = f"must be half to twice what the swatch has, {told(swatch)}"
            raise Unplannable(found, allowed, "look at the unit, and count again", "progress")
    height = job.target.height
    if (wanted := round(height / gauge.row)) > MOST_ROWS:
        found = f"{told(height)} is {wanted} rows at the gauge of what is worked"
        raise Unplannable(found, f"must be at most {MOST_ROWS} rows", "look at the unit, and count again", "progress")


def job_of(piece: Piece, pattern: Pattern, gauge: Gauge, budget: SearchBudget) -> Job:
    """What is to be searched for ``piece`` by ``gauge``. Raises Unplannable where its fabric cannot have its shape."""
    recipe, top = recipe_of(pattern.fabric), top_side(piece, pattern)
    lift = row_of_sc(pattern.fabric) * gauge.row if piece.begin_on == ON_ARMHOLE else Fraction(0)
    if recipe.slit or recipe.alternating:
        _check_unshown(target_of(piece, gauge, top), gauge, bool(pattern.progress))
    if not recipe.order.plain:
        _check_mixed(target_of(piece, gauge, top), recipe, bool(pattern.progress))
    if not recipe.stacked:
        return Job(target_of(piece, gauge, top, lift), gauge, recipe, pattern.units, budget=budget)
    capped = any(one.name == "cap" for one in piece.stretches)  # it has that row plan, but where rows are alike
    if piece.row_plan == "alternate" and not capped:
        raise Unplannable('"alternate"', "in this fabric all rows are alike", "leave row_plan out", "row_plan")
    fitted, made_of = replace(piece, row_plan="alternate"), recipe  # no half pitch over at an edge
    if recipe.table.whole:
        gauge, recipe = gauge.wider(Fraction(2)), recipe.in_pitches()
    return Job(target_of(fitted, gauge, top, lift), gauge, recipe, pattern.units, budget=budget, made_of=made_of)


def _check_unshown(target: Target, gauge: Gauge, begun: bool) -> None:
    """Raises Unplannable where a piece cannot be had of a fabric whose rows do not show what their edges are: one that
    goes out would be worked as a straight one, and a single row shows nothing."""
    if not target.straight or target.opening is not None:
        allowed = "in a fabric whose rows look alike whatever their edges are these are straight, and there is no neck"
        raise Unplannable("a shaped edge", allowed, "give width and length, or take another fabric")
    if target.piece.exact_rows == 1 or target.height < gauge.row * Fraction(3, 2):
        raise Unplannable("a single row", "in this fabric a piece has two rows at the least", "make it longer")
    if begun:
        raise Unplannable("a piece begun", "in this fabric none is planned anew", "", "progress")


def _check_mixed(target: Target, recipe: Recipe, begun: bool) -> None:
    """Raises Unplannable where a piece has rows of more than one kind and cannot have them."""
    hint = "leave it out, or leave out rows, base and last"
    if target.neck is not None:
        allowed = "with rows of more than one kind a piece has no neck: one begins with a step, which no row of other "
        allowed += "stitches has, nor a row on one"
        raise Unplannable("a neck", allowed, hint, "neck")
    if target.profile is not None or any(one.name == ARMHOLE for one in target.piece.stretches):
        raise Unplannable("an armhole", "with rows of more than one kind armholes are not counted", hint)
    rows, least = target.piece.exact_rows, recipe.order.least
    if rows is not None and rows < least:
        allowed = f"{counted(least, 'row')} at the least: those of base and last, and one of clusters"
        raise Unplannable(counted(rows, "row"), allowed, "more rows", "exact_rows")
    if begun:
        raise Unplannable("a piece begun", "with rows of more than one kind none is planned anew", "", "progress")


def _ranked(job: Job) -> tuple[Job, list[Candidate]]:
    """All candidates, the best first, and the job they are of. Raises Unplannable where there are none."""
    job, ranked = ranked_candidates(job)
    return job, _checked(ranked, job)


def _checked(ranked: list[Candidate], job: Job) -> list[Candidate]:
    row_plan = job.target.row_plan
    piece = job.target.piece
    if not ranked and piece.exact_chain is not None:
        from turnchain.planning import foundations  # for this message alone

        fitting = " and ".join(map(str, foundations.nearest(job.recipe, row_plan, piece.exact_chain)))
        allowed = f"with rows {row_plan} the nearest that fit are {fitting}"
        hint = "or another row_plan, or another start in [fabric]"
        raise Unplannable(f"a foundation of {counted(piece.exact_chain, 'chain')}", allowed, hint, "exact_chain")
    exact = (
        ("exact_clusters", piece.exact_clusters, f"{counted(piece.exact_clusters or 0, job.recipe.noun)} in row 1"),
        ("exact_rows", piece.exact_rows, counted(piece.exact_rows or 0, "row")),
    )
    for key, count, found in exact:
        if not ranked and count is not None:
            hint = "leave it out, and see what the report says"
            raise Unplannable(found, "no plan of this shape has so many", hint, key)
    if not ranked and piece.neck is not None and piece.worked == "sideways":
        raise Unplannable(
            "no room for the neck between two shoulders",
            f"each shoulder needs a row, and every row room for one {job.recipe.noun}",
            "make the piece wider, or the neck shallower",
            "neck",
        )
    if not ranked:
        needs = f"every row needs room for one {job.recipe.noun}"
        if job.recipe.stacked:
            raise Unplannable("too narrow", needs, "widen it")
        hint = "widen it" if row_plan == "alike" else 'widen it, or try row_plan = "alike"'
        raise Unplannable(f"too narrow for rows that are {row_plan}", needs, hint)
    return ranked


def _least_changed(ranked: list[Candidate], first: Candidate) -> Candidate:
    """The old plan, where it comes within ``KEEP_COST`` of the best: the words then stay as they are."""
    best = ranked[0]
    for one in ranked:
        if one.edges == first.edges and one.missed == best.missed and one.cost - best.cost <= KEEP_COST:
            return one
    return best


def _progress_report(anew: Job, first: Candidate, best: Candidate, progress: Progress) -> ProgressReport:
    """What has changed: the measures that the old plan would come to by the new gauge."""
    return ProgressReport(
        worked=progress.rows,
        planned_rows=first.rows,
        as_planned=measuring.fits(anew, first),
        changed=first.edges != best.edges,
    )


def _piece_plan(
    job: Job, best: Candidate, alternatives: tuple[Alternative, ...], progress: ProgressReport | None = None,
    follows: bool = False,
) -> PiecePlan:  # fmt: skip
    piece, made = job.target.piece, best.in_half_pitches(job.stride)
    planned = PiecePlan(
        name=piece.name,
        count=piece.count,
        worked=piece.worked,
        recipe=job.recipe_made,
        gauge=job.gauge_made,
        phase=made.phase,
        row_plan="alike" if job.recipe.stacked else best.row_plan,
        foundation_chain=best.foundation,
        rows=rows_of(made, job.recipe_made),
        fit=measuring.fits(job, best),
        farthest=measuring.farthest(job, best),
        alternatives=alternatives,
        warnings=(),
        top=job.target.top,
        free_outline=bool(piece.outline or piece.left_outline),
        has_neck=piece.neck is not None,
        stretches=tuple(_stretches(job, best)),
        progress=progress,
        upper=piece.upper,
        begun_on=(piece.begin_on or "").removesuffix(".first"),
        sc_below=job.target.lift / job.gauge.row,
    )
    return replace(planned, warnings=warnings_of(planned, job.target, job.unit, follows))


def _stretches(job: Job, best: Candidate) -> Iterator[OutlineStretch]:
    """The named stretches of the outline, their heights moved with the height of the plan."""
    times = job.height(best.rows) / job.target.height
    lift = job.target.lift
    for one in job.target.piece.stretches:
        low, high = (at if at <= lift else lift + (at - lift) * times for at in (one.low, one.high))
        yield replace(one, low=low, high=high)


def _alternatives(job: Job, best: Candidate, ranked: list[Candidate]) -> tuple[Alternative, ...]:
    """The best plan with another row count, and the best with the other row plan; none of a piece begun, whose worked
    rows may be others in a file that asks for it, nor of half a front and its mirror image, which follow the back."""
    if job.begun or job.target.piece.mirrors or any(one.name == FRONT_EDGE for one in job.target.piece.stretches):
        return ()
    chosen = [one for one in ranked if one.rows != best.rows][:1]
    nearer = (*(found for one in chosen for found in _alternative(job, best, one)), *_irregular(job, best, ranked))
    return (*nearer, *_other_row_plan(job, best))


def _irregular(job: Job, best: Candidate, ranked: list[Candidate]) -> Iterator[Alternative]:
    """Where a neck whose two ends are to match misses a measure: the best with a number of rows over which they match
    by irregular shaping alone, if that comes nearer."""
    piece = job.target.piece
    if job.target.neck is None or not job.mirrored_along or not best.named[0] or piece.exact_rows is not None:
        return
    for rows in sorted(set(row_counts(job.wanted_rows, odd=False)) - {one.rows for one in ranked}):
        target = target_of(replace(piece, exact_rows=rows), job.gauge, job.target.top)
        try:
            others = ranked_with(replace(job, target=target, pair_states=ALTERNATIVE_PAIR_STATES), best.row_plan)
        except BudgetSpent:  # the piece has its plan, and a piece after it is reported
            return
        for other in others[:1]:
            if not other.missed and other.named < best.named:
                yield from _alternative(job, best, other)


def _other_row_plan(job: Job, best: Candidate) -> Iterator[Alternative]:
    """The best with the other row plan, planned as if the file had that; none where all rows are alike."""
    if job.recipe.stacked:
        return
    other_plan = other_row_plan(best.row_plan)
    brief = replace(with_row_plan(job, other_plan), pair_states=ALTERNATIVE_PAIR_STATES)
    try:
        others = ranked_with(brief, other_plan)
    except BudgetSpent:  # the piece has its plan, and a piece after it is reported
        others = []
    if others:
        yield from _alternative(brief, best, others[0])


def _as_chosen(job: Job, other: Candidate) -> list[Candidate]:
    """The plan that comes of writing the rows of ``other`` into the file, or none: where an armhole begins follows from
    their number."""
    piece = replace(job.target.piece, exact_rows=other.rows)
    target = target_of(piece, job.gauge, job.target.top, job.target.lift)
    if replace(target, piece=job.target.piece) == job.target:
        return [other]
    try:
        return ranked_with(replace(job, target=target, pair_states=ALTERNATIVE_PAIR_STATES), other.row_plan)[:1]
    except BudgetSpent:  # the piece has its plan, and a piece after it is reported
        return []


def _alternative(job: Job, best: Candidate, other: Candidate) -> Iterator[Alternative]:
    """What a maker is told of ``other``, as it comes out when it is chosen."""
    keys: list[tuple[str, int | str]] = [("exact_rows", other.rows)]
    if not job.recipe.stacked and (other.row_plan != best.row_plan or is_open(job.target)):
        keys.insert(0, ("row_plan", other.row_plan))
    row_plan: RowPlan = "alike" if job.recipe.stacked else other.row_plan
    for one in _as_chosen(job, other):
        made = rows_of(one.in_half_pitches(job.stride), job.recipe_made)
        yield Alternative(
            one.rows, row_plan, _first_counts(job, one), measuring.fits(job, one), tuple(keys),
            irregular=sum(row.irregular for row in made),
        )  # fmt: skip


def _first_counts(job: Job, one: Candidate) -> tuple[int, int]:
    """The clusters of the first two rows of clusters below a neck that divides the piece (of the one there is,
    twice)."""
    kinds = job.recipe.order.kinds(one.rows)
    whole = kinds if one.split is None else kinds[: one.split.after]
    rows = [row for row, kind in enumerate(whole) if kind == CLUSTERS] or [0]
    first, second = (
        job.recipe.clusters(one.left[row], one.right[row], job.recipe.running(one.phase, row + 1))
        for row in (rows[0], rows[min(1, len(rows) - 1)])
    )
    return first, second
