"""From a checked pattern to its plan.

In: a ``Pattern``. Out: a ``Plan``: every piece planned (``pieces``), then all rows in their colours.
"""

from __future__ import annotations

from dataclasses import replace

from turnchain.errors import PatternError, Problem
from turnchain.fabric.gauge import Gauge, gauge_of, mean_gauge
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern
from turnchain.planning.budget import BudgetSpent, SearchBudget
from turnchain.planning.pieces import Unplannable, plan_begun_piece, plan_piece
from turnchain.planning.plausibility import about_pattern
from turnchain.planning.warnings import about_gauge
from turnchain.yarns.colouring import coloured

TOO_LONG = (
    "planning it, after the pieces before it, would take minutes",
    "edges may go in and out by half a cluster a row, and now and then by more",
    "look at its points and its neck, the swatch and the unit; or put fewer shaped pieces into one pattern",
)


def plan_pattern(pattern: Pattern, source: str = "pattern") -> Plan:
    """The plan of a whole pattern; ``source`` names the file in messages.

    A piece that is begun keeps its worked rows; the rest of it, and every piece not begun, goes by the gauge
    measured on what is worked. Raises PatternError with every piece that cannot be planned.
    """
    return _plan_pattern(pattern, source, SearchBudget())


def _plan_pattern(pattern: Pattern, source: str, budget: SearchBudget) -> Plan:
    pieces, gauge = _planned_pieces(pattern, source, budget)
    warnings = (*about_gauge(gauge, pattern.fabric, pattern.units), *about_pattern(pattern, gauge))
    plan = coloured(Plan(pattern, gauge, pieces, warnings), source)
    return _worked_colours_kept(plan, source, budget) if pattern.progress else plan


def _planned_pieces(pattern: Pattern, source: str, budget: SearchBudget) -> tuple[tuple[PiecePlan, ...], Gauge]:
    """All pieces without colours, and the gauge of those not begun. The pieces begun come first: they are measured."""
    swatch = gauge_of(pattern.swatches)
    begun = {one.piece: one for one in pattern.progress}
    planned: dict[str, PiecePlan] = {}
    measured: list[Gauge] = []
    problems: list[Problem] = []
    for piece in sorted(pattern.pieces, key=lambda piece: piece.name not in begun):
        try:
            if piece.name in begun:
                made = plan_begun_piece(piece, pattern, swatch, begun[piece.name], budget)
                measured.append(made.gauge)
            else:
                made = plan_piece(piece, pattern, mean_gauge(measured) if measured else swatch, budget)
            planned[piece.name] = made
        except Unplannable as error:
            problems.append(Problem(error.place(piece.name), str(error), error.allowed, error.hint))
        except BudgetSpent:  # all pieces share one budget
            problems.append(Problem(f'piece "{piece.name}"', *TOO_LONG))
            break
    if problems:
        raise PatternError(source, problems)
    return tuple(planned[piece.name] for piece in pattern.pieces), mean_gauge(measured) if measured else swatch


def _worked_colours_kept(plan: Plan, source: str, budget: SearchBudget) -> Plan:
    """``plan`` with every worked row in the yarn it was worked in: stripes that hang on the number of rows or on the
    gauge may run otherwise now, but only in what is still to work."""
    before = _plan_pattern(replace(plan.pattern, progress=()), source, budget)
    worked = {one.piece: one.rows for one in plan.pattern.progress}

    def kept(piece: PiecePlan) -> PiecePlan:
        done = before.piece(piece.name).rows[: worked.get(piece.name, 0)]
        rows = [replace(row, colour=old.colour) for row, old in zip(piece.rows, done, strict=False)]
        return replace(piece, rows=(*rows, *piece.rows[len(rows) :]))

    return replace(plan, pieces=tuple(kept(piece) for piece in plan.pieces))
