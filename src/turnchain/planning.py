"""From a checked pattern to its plan.

In: a ``Pattern``. Out: a ``Plan``: for every piece the best candidate by the order of preference, its rows with
their counts and colours, and an honest report of every measure.

The order of preference: mirrored where that is wished and possible; nearest to the wanted outline; the smaller
error in width; fewest changes of direction; the smaller errors of shoulder, depth and neck width; fewer rows,
the shorter foundation chain, phase 0.
"""

from __future__ import annotations

from turnchain import doubts, lattice, measuring, stitches
from turnchain.candidates import Candidate, Job, candidates
from turnchain.errors import PatternError, Problem
from turnchain.gauge import Gauge, gauge_of
from turnchain.lattice import Side
from turnchain.pattern import Fabric, Pattern, Piece
from turnchain.plan import Alternative, Edge, PiecePlan, Plan, Row, RowPlan
from turnchain.stripes import row_colours
from turnchain.wishes import top_side, wish_of


def plan_pattern(pattern: Pattern, source: str = "pattern") -> Plan:
    """The plan of a whole pattern; ``source`` names the file in messages.

    Raises PatternError with every piece that cannot be planned.
    """
    gauge = gauge_of(pattern.swatches)
    planned: list[PiecePlan] = []
    problems: list[Problem] = []
    for piece in pattern.pieces:
        try:
            planned.append(_plan_piece(piece, pattern, gauge))
        except TooNarrow as error:
            problems.append(Problem(f'piece "{piece.name}"', str(error), error.allowed, error.hint))
    if problems:
        raise PatternError(source, problems)
    return Plan(pattern, gauge, tuple(planned), tuple(doubts.about_gauge(gauge, pattern.fabric, pattern.units)))


class TooNarrow(Exception):
    """A piece that has no plan with a cluster in every row."""

    def __init__(self, found: str, allowed: str, hint: str) -> None:
        self.allowed, self.hint = allowed, hint
        super().__init__(found)


def _plan_piece(piece: Piece, pattern: Pattern, gauge: Gauge) -> PiecePlan:
    wish = wish_of(piece, gauge, pattern)
    job = Job(wish, gauge, pattern.fabric)
    ranked = sorted(candidates(job, wish.row_plan), key=lambda one: one.rank)
    if not ranked:
        raise TooNarrow(
            f"too narrow for rows that are {wish.row_plan}",
            "every row needs room for one cluster",
            'widen it, or try row_plan = "alternate"',
        )
    best = ranked[0]
    planned = PiecePlan(
        name=piece.name,
        count=piece.count,
        worked=piece.worked,
        fabric=pattern.fabric,
        gauge=gauge,
        phase=best.phase,
        row_plan=best.row_plan,
        foundation_chain=best.foundation,
        rows=_rows(job, best, pattern),
        fit=measuring.fits(job, best, pattern.units),
        farthest=measuring.farthest(job, best),
        alternatives=_alternatives(job, best, ranked, pattern),
        warnings=(),
        top=top_side(piece, pattern),
        free_outline=bool(piece.outline),
        has_neck=piece.neck is not None,
    )
    return doubts.with_warnings(planned, wish, pattern.units)


def _rows(job: Job, best: Candidate, pattern: Pattern) -> tuple[Row, ...]:
    colours = row_colours(pattern, best.rows)
    rows: list[Row] = []
    for index in range(best.rows):
        left = _edge(best, "left", index)
        right = _edge(best, "right", index)
        rows.append(_row(job.fabric, best.phase, index + 1, left, right, colours[index], rows[-1:]))
    return tuple(rows)


def _edge(best: Candidate, side: Side, index: int) -> Edge:
    positions = best.left if side == "left" else best.right
    at = positions[index]
    kind = lattice.kind(at, index + 1, best.phase)
    if index == 0:
        return Edge(at, kind, "straight", 0)
    inwards = (at - positions[index - 1]) * (1 if side == "left" else -1)
    name = lattice.move(inwards, lattice.kind(positions[index - 1], index, best.phase))
    return Edge(at, kind, name, abs(inwards) if name in ("step_in", "step_out") else 0)


def _row(
    fabric: Fabric, phase: int, number: int, left: Edge, right: Edge, colour: str | None, below: list[Row]
) -> Row:
    starts = lattice.starting_side(number)
    clusters = lattice.clusters(left.at, right.at, number, phase)
    start, end = (right, left) if starts == "right" else (left, right)
    under = below[0] if below else None
    work = [
        stitches.EdgeWork(edge.kind, edge.move, edge.step, under.edge(side).kind if under else None)
        for edge, side in ((start, starts), (end, "left" if starts == "right" else "right"))
    ]
    counts = stitches.count(fabric, clusters, *work)
    return Row("body", number, left, right, starts, clusters, colour, counts)


def _alternatives(
    job: Job, best: Candidate, ranked: list[Candidate], pattern: Pattern
) -> tuple[Alternative, ...]:
    """The best plan with another row count, and the best with the other row plan."""
    other_plan: RowPlan = "alternate" if best.row_plan == "alike" else "alike"
    others = sorted(candidates(job, other_plan), key=lambda one: one.rank)
    chosen = [one for one in ranked if one.rows != best.rows][:1] + others[:1]
    return tuple(
        Alternative(one.rows, one.row_plan, _first_counts(one), measuring.fits(job, one, pattern.units))
        for one in chosen
    )


def _first_counts(one: Candidate) -> tuple[int, int]:
    """The clusters of the first two rows (of the one row, twice)."""
    second = min(1, one.rows - 1)
    return (
        lattice.clusters(one.left[0], one.right[0], 1, one.phase),
        lattice.clusters(one.left[second], one.right[second], second + 1, one.phase),
    )
