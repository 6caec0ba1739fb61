"""Every size of a pattern, planned so that one text can tell them all.

In: what each piece might be in each size (``Choice`` s). Out: the same, with the plans whose form agrees: rows alike or
alternate, the kinds of edge that row 1 starts and ends with, and the ways the edges go, in their order; only numbers
differ then. Each size is fitted exactly by itself first. A plan is taken in place of its best only where no measure
misses its wish by a quarter of a pitch, or half a row, more than the best does, none moves by more than that, and all
mirrors stay; so no size is made worse than that to please another, and what is sewn together still fits.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from typing import TypeAlias

from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan
from turnchain.planning import measuring
from turnchain.planning.budget import BudgetSpent
from turnchain.planning.candidate import Candidate
from turnchain.planning.job import Job
from turnchain.planning.pieces import Choice
from turnchain.planning.row_plans import other_row_plan, ranked_with, with_row_plan
from turnchain.records import frozen, replace

Way: TypeAlias = str  # of an edge: "in", "out", "step in" or "step out"


@frozen
class Form:
    """What two sizes must have alike for their rows to be told in the same words: ``row_plan``, the kinds of the edges
    of row 1 (left and right), and the ways of every edge, straight rows and repeats left out. Whether the last row is
    an odd one changes the end of a repeat alone, and no choice could change it."""

    row_plan: str
    kinds: tuple[str, str]
    ways: tuple[tuple[Way, ...], ...]


def form_of(choice: Choice) -> Form:
    """The form of the best plan."""
    plan, recipe = choice.best, choice.job.recipe
    running = recipe.running(plan.phase, 1)
    kinds = (recipe.kind(plan.left[0], running), recipe.kind(plan.right[0], running))
    ways = tuple(tuple(_ways(nth, edge)) for nth, edge in enumerate(plan.edges))
    return Form(plan.row_plan, kinds, ways)


def worked_form(piece: PiecePlan) -> Form:
    """The form of a planned piece; sections apart."""
    first = piece.rows[0]
    edges = ([row.edge(side) for row in piece.section(name)] for name in piece.sections for side in SIDES)
    moves = ([edge.move for edge in line if edge.move != "straight"] for line in edges)
    ways = tuple(tuple(way for way, _ in groupby(line)) for line in moves)
    return Form(piece.row_plan, (first.left.kind, first.right.kind), ways)


def _ways(nth: int, edge: Sequence[int]) -> Iterator[Way]:
    """The ways of an edge: of the outer two and then the inner two, left ones have even numbers."""
    outwards = -1 if nth % 2 == 0 else 1
    moves = [(at - below) * outwards for below, at in pairwise(edge) if at != below]
    for way, _ in groupby(f"{'step ' if abs(move) > 1 else ''}{'out' if move > 0 else 'in'}" for move in moves):
        yield way


def alike(sizes: Sequence[Mapping[str, Choice]]) -> list[dict[str, Choice]]:
    """What each piece might be in each of the ``sizes`` (by its name; a size may lack a piece), with plans of one form
    as the best where there are such. The form that most sizes can have is taken; of several the one that most have by
    themselves, then the one that is best for all. Sizes that cannot have it keep their best."""
    made = [dict(size) for size in sizes]
    for name in dict.fromkeys(name for size in sizes for name in size):
        chosen = _of_one_form([size[name] for size in sizes if name in size])
        for size, choice in zip((size for size in made if name in size), chosen, strict=True):
            size[name] = choice
    return made


def _of_one_form(choices: Sequence[Choice]) -> list[Choice]:
    natural = [form_of(choice) for choice in choices]
    if len(set(natural)) == 1:
        return list(choices)
    able = [_by_form(choice, others=False) for choice in choices]
    if not any(all(form in some for some in able) for form in able[0]):  # it takes as long as the sizes themselves
        able = [_by_form(choice, others=True) for choice in choices]
    forms = dict.fromkeys(form for some in able for form in some)
    best = max(forms, key=lambda form: (sum(form in some for some in able), natural.count(form), -_place(form, able)))
    return [some.get(best, choice) for some, choice in zip(able, choices, strict=True)]


def _place(form: Form, able: Sequence[dict[Form, Choice]]) -> int:
    """How far down the ``form`` stands among all that each size could have, together."""
    return sum(list(some).index(form) for some in able if form in some)


def _by_form(choice: Choice, others: bool) -> dict[Form, Choice]:
    """What a piece may be in its size, by form: each the best of its form, and the best of all first; where ``others``,
    with the other row plan too."""
    found: dict[Form, Choice] = {form_of(choice): choice}
    for one in _near(choice, others):
        found.setdefault(form_of(one), one)
    return found


def _near(choice: Choice, others: bool) -> Iterator[Choice]:
    """What may take the place of the best: of its number of rows, since pieces that meet agree in that."""
    more, worked, misses = leeway(choice.job), _worked(choice.job, choice.best), _misses(choice.job, choice.best)
    for one in _all_of(choice, others):
        if not _as_true(one.best, choice.best):
            continue
        there = _misses(one.job, one.best)
        if there.keys() != misses.keys() or any(there[name] > miss + more for name, miss in misses.items()):
            continue
        if all(abs(cm - worked[name]) <= more for name, cm in _worked(one.job, one.best).items()):
            yield one  # so near that what is sewn to it still fits


def _as_true(plan: Candidate, best: Candidate) -> bool:
    """Whether a plan has the rows of the best, all its mirrors, and a neck as round."""
    return plan.rows == best.rows and plan.missed <= best.missed and plan.roundness.off <= best.roundness.off


def _all_of(choice: Choice, others: bool) -> Iterator[Choice]:
    for plan in choice.ranked:
        yield replace(choice, best=plan)
    if others and choice.job.target.piece.row_plan == "auto":
        other = with_row_plan(choice.job, other_row_plan(choice.best.row_plan))
        try:
            ranked = ranked_with(other, other.target.row_plan)
        except BudgetSpent:  # the size has its plan
            return
        for plan in ranked:
            yield Choice(other, ranked, plan)


def _misses(job: Job, plan: Candidate) -> dict[str, Fraction]:
    """By how many cm each measure misses its wish, by its name."""
    return {one.measure: abs(one.off) for one in measuring.fits(job, plan)}


def _worked(job: Job, plan: Candidate) -> dict[str, Fraction]:
    """What each measure comes to in cm, by its name."""
    return {one.measure: one.worked for one in measuring.fits(job, plan)}


def leeway(job: Job) -> Fraction:
    """How many cm a measure may miss its wish more than the best plan's: a quarter of a pitch or half a row, whichever
    is less, since a measure may run either way."""
    return min(job.gauge.pitch / 4, job.gauge.row / 2)
