"""From a checked pattern to its plan.

In: a ``Pattern``. Out: a ``Plan``: for every piece the best candidate by the order of preference, its rows with
their counts and colours, and an honest report of every measure.

The order of preference: mirrored where that is wished and possible; nearest to the wanted outline; the smaller
error in width; fewest changes of direction; the smaller errors of shoulder, depth and neck width; fewer rows,
the shorter foundation chain, phase 0.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

from turnchain.errors import PatternError, Problem
from turnchain.fabric import lattice, stitches
from turnchain.fabric.gauge import Gauge, gauge_of, mean_gauge, measured_gauge
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Alternative, Edge, PiecePlan, Plan, ProgressReport, Row, RowPlan
from turnchain.numbers import counted
from turnchain.pattern import Fabric, Pattern, Piece, Progress
from turnchain.planning import doubts, measuring
from turnchain.planning.candidates import Candidate, Job, candidates
from turnchain.planning.fitting import MICRO, Endless, Looked
from turnchain.planning.keeping import kept_rows
from turnchain.planning.wishes import top_side, wish_of
from turnchain.units import Unit
from turnchain.yarns.colouring import coloured

BODY = "body"
SHOULDERS = ("first shoulder", "second shoulder")
# A plan already begun is kept as it is where the best one would be no nearer than this: what one row half a pitch off
# costs. The words a maker works from then stay the same.
KEEP_COST = MICRO**2
# An alternative is worth a word, not a wait.
ALTERNATIVE_PATIENCE = 2_000
ENDLESS = (
    "planning it, after the pieces before it, would take minutes",
    "edges may go in and out by half a cluster a row, and now and then by more",
    "look at its points and its neck, the swatch and the unit; or put fewer shaped pieces into one pattern",
)


def plan_pattern(pattern: Pattern, source: str = "pattern") -> Plan:
    """The plan of a whole pattern; ``source`` names the file in messages.

    A piece that is begun keeps its worked rows; the rest of it, and every piece not begun, goes by the gauge
    measured on what is worked. Raises PatternError with every piece that cannot be planned.
    """
    return _plan_pattern(pattern, source, Looked())


def _plan_pattern(pattern: Pattern, source: str, looked: Looked) -> Plan:
    swatch = gauge_of(pattern.swatches)
    begun = {one.piece: one for one in pattern.progress}
    planned: dict[str, PiecePlan] = {}
    measured: list[Gauge] = []
    problems: list[Problem] = []
    order = sorted(pattern.pieces, key=lambda piece: piece.name not in begun)
    for piece in order:
        try:
            if piece.name in begun:
                planned[piece.name], gauge = _replanned(piece, pattern, swatch, begun[piece.name], looked)
                measured.append(gauge)
            else:
                gauge = mean_gauge(measured) if measured else swatch
                planned[piece.name] = _plan_piece(piece, pattern, gauge, looked)
        except Unplannable as error:
            problems.append(Problem(error.place(piece.name), str(error), error.allowed, error.hint))
        except Endless:  # all pieces share one bound
            problems.append(Problem(f'piece "{piece.name}"', *ENDLESS))
            break
    if problems:
        raise PatternError(source, problems)
    pieces = tuple(planned[piece.name] for piece in pattern.pieces)
    gauge = mean_gauge(measured) if measured else swatch
    doubtful = tuple(doubts.about_gauge(gauge, pattern.fabric, pattern.units))
    plan = coloured(Plan(pattern, gauge, pieces, doubtful), source)
    return _worked_colours_kept(plan, source, looked) if pattern.progress else plan


def _worked_colours_kept(plan: Plan, source: str, looked: Looked) -> Plan:
    """``plan`` with every worked row in the yarn it was worked in: stripes that hang on the number of rows or on the
    gauge may run otherwise now, but only in what is still to work."""
    before = _plan_pattern(replace(plan.pattern, progress=()), source, looked)
    worked = {one.piece: one.rows for one in plan.pattern.progress}

    def kept(piece: PiecePlan) -> PiecePlan:
        done = before.piece(piece.name).rows[: worked.get(piece.name, 0)]
        rows = [replace(row, colour=old.colour) for row, old in zip(piece.rows, done, strict=False)]
        return replace(piece, rows=(*rows, *piece.rows[len(rows) :]))

    return replace(plan, pieces=tuple(kept(piece) for piece in plan.pieces))


class Unplannable(Exception):
    """A piece that has no plan: why, what is allowed, and what to try; ``within`` names the key at fault."""

    def __init__(self, found: str, allowed: str, hint: str, within: str = "") -> None:
        self.allowed, self.hint, self.within = allowed, hint, within
        super().__init__(found)

    def place(self, name: str) -> str:
        """The place in words."""
        return f'{self.within} of piece "{name}"' if self.within else f'piece "{name}"'


def _replanned(
    piece: Piece, pattern: Pattern, swatch: Gauge, progress: Progress, looked: Looked
) -> tuple[PiecePlan, Gauge]:
    """``piece`` with its worked rows kept, and the gauge measured on them."""
    job = Job(wish_of(piece, swatch, pattern), swatch, pattern.fabric, looked=looked)
    first = _best(job)
    rows = _rows(job, first)
    if progress.rows > len(rows):
        there = f"the piece has {counted(len(rows), 'row')}, in the order worked"
        raise Unplannable(f"{counted(progress.rows, 'row')} worked", there, "", "progress")
    last = rows[progress.rows - 1]
    gauge = measured_gauge(swatch, progress, last.number, last.right.at - last.left.at)
    original = _piece_plan(job, first, [], pattern)
    kept = kept_rows(original, first.origin, progress.rows)
    anew = Job(wish_of(piece, gauge, pattern), gauge, pattern.fabric, kept, looked=looked)
    ranked = _ranked(anew, first.row_plan)
    best = _least_changed(ranked, first)
    report = _progress_report(anew, first, best, progress, pattern.units)
    return replace(_piece_plan(anew, best, ranked, pattern), progress=report), gauge


def _progress_report(anew: Job, first: Candidate, best: Candidate, progress: Progress, unit: Unit) -> ProgressReport:
    """What has changed: the measures that the old plan would come to by the new gauge."""
    return ProgressReport(
        worked=progress.rows,
        planned_rows=first.rows,
        as_planned=measuring.fits(anew, first, unit),
        changed=first.edges != best.edges,
    )


def _least_changed(ranked: list[Candidate], first: Candidate) -> Candidate:
    """The old plan, where it comes within ``KEEP_COST`` of the best: the words then stay as they are."""
    best = ranked[0]
    for one in ranked:
        if one.edges == first.edges and one.missed == best.missed and one.cost - best.cost <= KEEP_COST:
            return one
    return best


def _plan_piece(piece: Piece, pattern: Pattern, gauge: Gauge, looked: Looked) -> PiecePlan:
    job = Job(wish_of(piece, gauge, pattern), gauge, pattern.fabric, looked=looked)
    ranked = _ranked(job, job.wish.row_plan)
    return _piece_plan(job, ranked[0], ranked, pattern)


def _best(job: Job) -> Candidate:
    return _ranked(job, job.wish.row_plan)[0]


def _ranked(job: Job, row_plan: RowPlan) -> list[Candidate]:
    """All candidates, the best first. Raises Unplannable where there are none."""
    ranked = sorted(candidates(job, row_plan), key=lambda one: one.rank)
    if not ranked:
        raise Unplannable(
            f"too narrow for rows that are {row_plan}",
            "every row needs room for one cluster",
            "widen it" if row_plan == "alike" else 'widen it, or try row_plan = "alike"',
        )
    return ranked


def _piece_plan(job: Job, best: Candidate, ranked: list[Candidate], pattern: Pattern) -> PiecePlan:
    piece = job.wish.piece
    planned = PiecePlan(
        name=piece.name,
        count=piece.count,
        worked=piece.worked,
        fabric=pattern.fabric,
        gauge=job.gauge,
        phase=best.phase,
        row_plan=best.row_plan,
        foundation_chain=best.foundation,
        rows=_rows(job, best),
        fit=measuring.fits(job, best, pattern.units),
        farthest=measuring.farthest(job, best),
        alternatives=_alternatives(job, best, ranked, pattern) if ranked else (),
        warnings=(),
        top=top_side(piece, pattern),
        free_outline=bool(piece.outline or piece.left_outline),
        has_neck=piece.neck is not None,
    )
    return doubts.with_warnings(planned, job.wish, pattern.units)


def _rows(job: Job, best: Candidate) -> tuple[Row, ...]:
    """All rows in the order worked: the body, then the sections it divides into, that first at whose outer edge
    the next row starts."""
    rows: list[Row] = []
    for section in _sections(best):
        for index, (left, right) in enumerate(zip(section.left, section.right, strict=True)):
            number = section.first + index
            under = len(rows) - 1 if index else section.under
            below = None if under is None else rows[under]
            joined = not index and section.joined
            place = _Place(section.name, number, len(rows), under, joined)
            rows.append(_row(job.fabric, best.phase, place, (left, right), below))
    return tuple(rows)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a row stands among the others; see ``Row``."""

    section: str
    number: int
    index: int
    under: int | None
    joined: bool


class _Section(NamedTuple):
    """Rows that follow each other: from row ``first``, worked into the row at index ``under``."""

    name: str
    first: int
    under: int | None
    joined: bool
    left: tuple[int, ...]
    right: tuple[int, ...]


def _sections(best: Candidate) -> list[_Section]:
    split = best.split
    if split is None:
        return [_Section(BODY, 1, None, False, best.left, best.right)]
    after = split.after
    body = _Section(BODY, 1, None, False, best.left[:after], best.right[:after])
    on_left, on_right = (best.left[after:], split.left), (split.right, best.right[after:])
    order = (on_right, on_left) if lattice.starting_side(after + 1) == "right" else (on_left, on_right)
    shoulders = [
        _Section(name, after + 1, after - 1, joined, *edges)
        for name, joined, edges in zip(SHOULDERS, (False, True), order, strict=True)
    ]
    return [body, *shoulders]


def _row(
    fabric: Fabric,
    phase: int,
    place: _Place,
    at: tuple[int, int],
    below: Row | None,
) -> Row:
    number = place.number
    starts = lattice.starting_side(number)
    edges: dict[Side, Edge] = {
        "left": _edge(at[0], number, phase, 1, below.left if below else None),
        "right": _edge(at[1], number, phase, -1, below.right if below else None),
    }
    clusters = lattice.clusters(*at, number, phase)
    order: tuple[Side, Side] = ("right", "left") if starts == "right" else ("left", "right")
    work = [
        stitches.EdgeWork(
            edges[side].kind, edges[side].move, edges[side].step, below.edge(side).kind if below else None
        )
        for side in order
    ]
    counts = stitches.count(fabric, clusters, work[0], work[1], place.joined)
    where = (place.section, number, place.index, place.under, place.joined)
    return Row(*where, edges["left"], edges["right"], starts, clusters, None, counts)


def _edge(at: int, number: int, phase: int, inwards: int, under: Edge | None) -> Edge:
    """The edge at ``at``; ``inwards`` is the sign of going in at its side."""
    kind = lattice.kind(at, number, phase)
    if under is None:
        return Edge(at, kind, "straight", 0)
    distance = (at - under.at) * inwards
    name = lattice.move(distance, under.kind)
    return Edge(at, kind, name, abs(distance) if name in ("step_in", "step_out") else 0)


def _alternatives(
    job: Job, best: Candidate, ranked: list[Candidate], pattern: Pattern
) -> tuple[Alternative, ...]:
    """The best plan with another row count, and the best with the other row plan."""
    other_plan: RowPlan = "alternate" if best.row_plan == "alike" else "alike"
    brief = replace(job, patience=ALTERNATIVE_PATIENCE)
    try:
        others = [] if job.kept else sorted(candidates(brief, other_plan), key=lambda one: one.rank)
    except Endless:  # the piece has its plan, and those after it say what takes so long
        others = []
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
