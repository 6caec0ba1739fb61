"""From a checked pattern to its plan.

In: a ``Pattern``. Out: a ``Plan``: every piece planned (``pieces``), then all rows in their colours.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from fractions import Fraction
from math import floor
from typing import TypeVar

from turnchain.errors import PatternError, Problem, of_sizes
from turnchain.fabric.gauge import Gauge, gauge_of, mean_gauge
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern, Piece
from turnchain.planning import budget as budgets
from turnchain.planning.agreeing import agreed, beside, height_of
from turnchain.planning.budget import BudgetSpent, SearchBudget
from turnchain.planning.kept import KeptPieces
from turnchain.planning.mirrors import turned_over
from turnchain.planning.pieces import Choice, Unplannable, job_of, plan_begun_piece
from turnchain.planning.plausibility import about_pattern
from turnchain.planning.shoulders import as_at_the_back
from turnchain.planning.warnings import about_gauge
from turnchain.records import replace
from turnchain.terminal import Tell
from turnchain.yarns import colour_checks
from turnchain.yarns.colouring import coloured, too_much_for_a_stash

T = TypeVar("T")

TOO_LONG = (
    "planning it, after the pieces before it, would take minutes",
    "edges may go in and out by half a cluster a row, and now and then by more",
    "look at its points and its neck, the swatch and the unit; or put fewer shaped pieces into one pattern",
)


def plan_pattern(
    pattern: Pattern, source: str = "pattern", tell: Tell | None = None, kept: KeptPieces | None = None
) -> Plan:
    """The plan of a whole pattern; ``source`` names the file in messages, ``tell`` is called with words
    for what is found while stripes from the stash are searched. Pieces that ``kept`` has from before are not planned
    again; the plan is the same without it.

    A piece that is begun keeps its worked rows; the rest of it, and every piece not begun, goes by the gauge
    measured on what is worked. Raises PatternError with every piece that cannot be planned, or where the stripes do
    not suit the pieces; Stopped where the maker stops the search for stripes from the stash.
    """
    return _plan_pattern(pattern, source, SearchBudget(), tell, KeptPieces() if kept is None else kept)


def plan_sizes(
    patterns: Sequence[Pattern],
    source: str = "pattern",
    tell: Tell | None = None,
    kept: KeptPieces | None = None,
    others_of: Collection[int] | None = None,
) -> tuple[Plan, ...]:
    """The plans of one pattern in all its sizes, in their order, of one form where they can be (``every_size``);
    ``source``, ``tell`` and ``kept`` as in ``plan_pattern``. ``others_of``: the numbers (from 0) of the sizes for which
    other plans that come close are looked for, which takes as long as all else (None: all). Raises PatternError with
    every piece that cannot be planned, each with its sizes; Stopped as ``plan_pattern`` does."""
    kept = KeptPieces() if kept is None else kept
    if len(patterns) == 1:
        others = others_of is None or 0 in others_of
        return (plan_pattern(patterns[0], source, tell, kept if others else kept.without_alternatives()),)
    choices: list[dict[str, Choice]] = []
    problems: list[Sequence[Problem]] = []
    for pattern in patterns:
        try:
            choices.append(_choices(pattern, source, gauge_of(pattern.swatches), SearchBudget(), kept, {}))
            problems.append(())
        except PatternError as error:
            problems.append(error.problems)
    if any(problems):
        raise PatternError(source, of_sizes([pattern.size for pattern in patterns], problems))
    from turnchain.planning.every_size import alike  # for several sizes

    made = []
    for nth, (pattern, found) in enumerate(zip(patterns, alike(choices), strict=True)):
        pieces = tuple(one.planned(others_of is None or nth in others_of) for one in found.values())
        made.append(_coloured(pattern, pieces, gauge_of(pattern.swatches), None, source, tell))
    return tuple(made)


def _plan_pattern(
    pattern: Pattern, source: str, budget: SearchBudget, tell: Tell | None, kept: KeptPieces
) -> Plan:
    pieces, gauge = _planned_pieces(pattern, source, budget, kept)
    begun = None
    if pattern.progress:  # the worked rows keep the yarns of the plan they were worked by
        begun = _plan_pattern(replace(pattern, progress=()), source, budget, tell, kept)
    return _coloured(pattern, pieces, gauge, begun, source, tell)


def _coloured(
    pattern: Pattern, pieces: tuple[PiecePlan, ...], gauge: Gauge, begun: Plan | None, source: str, tell: Tell | None
) -> Plan:
    """The plan of all ``pieces`` with their yarns and with what is to be told of the whole pattern."""
    warnings = (*about_gauge(gauge, recipe_of(pattern.fabric), pattern.units), *about_pattern(pattern, gauge))
    plan = coloured(Plan(pattern, gauge, pieces, warnings), source, begun, tell)
    return replace(plan, warnings=(*plan.warnings, *colour_checks.doubts(plan)))


def _planned_pieces(
    pattern: Pattern, source: str, budget: SearchBudget, kept: KeptPieces
) -> tuple[tuple[PiecePlan, ...], Gauge]:
    """All pieces without colours, and the gauge of those not begun: what is worked is measured, and the others go by
    that."""
    gauge = gauge_of(pattern.swatches)
    begun = {one.piece: one for one in pattern.progress}
    choices = _choices(pattern, source, gauge, budget, kept, {})
    planned: dict[str, PiecePlan] = {}
    if begun:
        worked = [piece for piece in pattern.pieces if piece.name in begun]
        planned = _of_each(
            pattern,
            source,
            worked,
            lambda piece: plan_begun_piece(choices[piece.name], pattern, begun[piece.name], budget),
        )
        gauge = mean_gauge([piece.gauge for piece in planned.values()])
        rows = {name: one.row_count for name, one in planned.items()}
        choices = _choices(pattern, source, gauge, budget, kept, rows)
    bound, alone = beside(pattern, begun), kept.without_alternatives()
    planned |= {name: (alone if name in bound else kept).planned(choice) for name, choice in choices.items()}
    return tuple(planned[piece.name] for piece in pattern.pieces), gauge


def _choices(
    pattern: Pattern, source: str, gauge: Gauge, budget: SearchBudget, kept: KeptPieces, begun: Mapping[str, int]
) -> dict[str, Choice]:
    """What the pieces might be by ``gauge``, those that meet with the same rows; but for pieces ``begun``, of which
    only their rows are known."""
    if refused := list(too_much_for_a_stash(pattern, _fewest_rows(pattern, gauge), at_least=True)):
        raise PatternError(source, refused)
    pieces = [piece for piece in pattern.pieces if piece.name not in begun]
    _check_workload(pattern, source, gauge, pieces)
    found = _of_each(pattern, source, pieces, lambda piece: kept.choice(piece, pattern, gauge, budget))
    settled = turned_over(as_at_the_back(agreed(pattern, found, begun)))
    if any(piece.begin_on for piece in pieces):
        from turnchain.planning.joining import joined  # for pieces begun along another

        settled = _of_each(
            pattern, source, pieces,
            lambda piece: joined(piece, settled, lambda one: kept.choice(one, pattern, gauge, budget)),
        )  # fmt: skip
    return settled


def _check_workload(pattern: Pattern, source: str, gauge: Gauge, pieces: Sequence[Piece]) -> None:
    """Raises PatternError before anything is searched, with the first piece that is too much with those before it."""
    ahead = 0
    for piece in pieces:
        try:
            job = job_of(piece, pattern, gauge, SearchBudget())
        except Unplannable:  # told with all others when its turn comes
            continue
        if job.long:
            from turnchain.planning.workload import places_ahead  # it brings all that fits edges

            ahead += places_ahead(job)
        if ahead > budgets.MOST_PLACES:
            raise PatternError(source, [_too_long(pattern, piece)])


def _too_long(pattern: Pattern, piece: Piece) -> Problem:
    return Problem(f'piece "{piece.name}"', *TOO_LONG, path=_path(pattern, piece))


def _fewest_rows(pattern: Pattern, gauge: Gauge) -> dict[str, int]:
    """How many rows each piece has at least, by its name, known before anything is searched: a line that is to lean
    alike at both ends may have one or two fewer than are wanted. 0 where they follow those worked already, or rows
    differ in height."""
    if pattern.progress or not recipe_of(pattern.fabric).order.plain:
        return {piece.name: 0 for piece in pattern.pieces}
    high = {piece.name: height_of(piece) or Fraction(0) for piece in pattern.pieces}
    return {
        piece.name: max(0, floor(high[piece.name] / gauge.row) - 2) if piece.exact_rows is None else piece.exact_rows
        for piece in pattern.pieces
    }


def _of_each(
    pattern: Pattern, source: str, pieces: Sequence[Piece], make: Callable[[Piece], T]
) -> dict[str, T]:
    """What is made of each piece, by its name. Raises PatternError with every piece that cannot be planned."""
    made: dict[str, T] = {}
    problems: list[Problem] = []
    for piece in pieces:
        try:
            made[piece.name] = make(piece)
        except Unplannable as error:
            path = _path(pattern, piece, error.within)
            problems.append(Problem(error.place(piece.name), str(error), error.allowed, error.hint, path))
        except BudgetSpent:  # all pieces share one budget
            problems.append(_too_long(pattern, piece))
            break
    if problems:
        raise PatternError(source, problems)
    return made


def _path(pattern: Pattern, piece: Piece, within: str = "") -> tuple[str | int, ...]:
    """Where ``piece`` stands in a pattern file, or its progress, or the key ``within`` it."""
    if within == "progress":
        return "progress", [one.piece for one in pattern.progress].index(piece.name)
    return "piece", pattern.number_in_file(piece), *([within] if within else [])
