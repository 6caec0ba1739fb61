"""From a checked pattern to its plan.

In: a ``Pattern``. Out: a ``Plan``: every piece planned (``pieces``), then all rows in their colours.
"""

from __future__ import annotations

from dataclasses import replace

from turnchain.errors import PatternError, Problem
from turnchain.fabric.gauge import Gauge, gauge_of, mean_gauge
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern
from turnchain.planning.agreeing import agreed
from turnchain.planning.budget import BudgetSpent, SearchBudget
from turnchain.planning.pieces import Choice, Unplannable, choice_of, plan_begun_piece
from turnchain.planning.plausibility import about_pattern
from turnchain.planning.warnings import about_gauge
from turnchain.terminal import Tell
from turnchain.yarns.colouring import coloured

TOO_LONG = (
    "planning it, after the pieces before it, would take minutes",
    "edges may go in and out by half a cluster a row, and now and then by more",
    "look at its points and its neck, the swatch and the unit; or put fewer shaped pieces into one pattern",
)


def plan_pattern(pattern: Pattern, source: str = "pattern", tell: Tell | None = None) -> Plan:
    """The plan of a whole pattern; ``source`` names the file in messages, ``tell`` is called with words
    for what is found while stripes from the stash are searched.

    A piece that is begun keeps its worked rows; the rest of it, and every piece not begun, goes by the gauge
    measured on what is worked. Raises PatternError with every piece that cannot be planned.
    """
    return _plan_pattern(pattern, source, SearchBudget(), tell)


def _plan_pattern(pattern: Pattern, source: str, budget: SearchBudget, tell: Tell | None) -> Plan:
    pieces, gauge = _planned_pieces(pattern, source, budget)
    warnings = (*about_gauge(gauge, pattern.fabric, pattern.units), *about_pattern(pattern, gauge))
    begun = None
    if pattern.progress:  # the worked rows keep the yarns of the plan they were worked by
        begun = _plan_pattern(replace(pattern, progress=()), source, budget, tell)
    return coloured(Plan(pattern, gauge, pieces, warnings), source, begun, tell)


def _planned_pieces(pattern: Pattern, source: str, budget: SearchBudget) -> tuple[tuple[PiecePlan, ...], Gauge]:
    """All pieces without colours, and the gauge of those not begun. The pieces begun come first: they are measured."""
    swatch = gauge_of(pattern.swatches)
    begun = {one.piece: one for one in pattern.progress}
    planned: dict[str, PiecePlan] = {}
    choices: dict[str, Choice] = {}
    measured: list[Gauge] = []
    problems: list[Problem] = []
    for piece in sorted(pattern.pieces, key=lambda piece: piece.name not in begun):
        try:
            if piece.name in begun:
                made = plan_begun_piece(piece, pattern, swatch, begun[piece.name], budget)
                planned[piece.name] = made
                measured.append(made.gauge)
            else:
                gauge = mean_gauge(measured) if measured else swatch
                choices[piece.name] = choice_of(piece, pattern, gauge, budget)
        except Unplannable as error:
            problems.append(Problem(error.place(piece.name), str(error), error.allowed, error.hint))
        except BudgetSpent:  # all pieces share one budget
            problems.append(Problem(f'piece "{piece.name}"', *TOO_LONG))
            break
    if problems:
        raise PatternError(source, problems)
    fixed = {name: piece.row_count for name, piece in planned.items()}
    planned |= {name: choice.planned() for name, choice in agreed(pattern, choices, fixed).items()}
    return tuple(planned[piece.name] for piece in pattern.pieces), mean_gauge(measured) if measured else swatch
