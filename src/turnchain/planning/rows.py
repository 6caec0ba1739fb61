"""The rows of a plan, from its edges on the lattice.

In: a ``Candidate``. Out: ``Row`` s in the order worked, with kinds, moves and counts; their yarns come later.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from turnchain.fabric import lattice, stitches
from turnchain.fabric.lattice import Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import Edge, Row
from turnchain.fabric.recipe import EdgeTable, Recipe
from turnchain.planning.candidate import Candidate
from turnchain.records import frozen

BODY = "body"
SHOULDERS = ("first shoulder", "second shoulder")


def rows_of(best: Candidate, recipe: Recipe) -> tuple[Row, ...]:
    """All rows in the order worked, without colours: the body, then the sections it divides into, that first at
    whose outer edge the next row starts. Positions in half pitches, row 1's left edge at 0."""
    rows: list[Row] = []
    kinds, heights = recipe.order.kinds(best.rows), recipe.order.heights(best.rows)
    for section in _sections(best):
        for index, (left, right) in enumerate(zip(section.left, section.right, strict=True)):
            number = section.first + index
            under = len(rows) - 1 if index else section.under
            below = None if under is None else rows[under]
            joined = not index and section.joined
            place = _Place(section.name, number, len(rows), under, joined)
            kind = _Kind(kinds[number - 1], kinds[:number].count(CLUSTERS), heights[number - 1])
            rows.append(_row(recipe, best.phase, place, kind, (left, right), below))
    return tuple(rows)


@frozen
class _Place:
    """Where a row stands among the others; see ``Row``."""

    section: str
    number: int
    index: int
    under: int | None
    joined: bool


@frozen
class _Kind:
    """What kind of row it is, which row of clusters, and how high; see ``Row``."""

    kind: str
    nth: int
    height: Fraction


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
    recipe: Recipe,
    phase: int,
    place: _Place,
    kind: _Kind,
    at: tuple[int, int],
    below: Row | None,
) -> Row:
    number = place.number
    starts = lattice.starting_side(number)
    running = recipe.running(phase, number)
    if kind.kind != CLUSTERS:
        return _solid_row(recipe, place, kind, at, below.running if below else running)
    on_solid = below is not None and below.solid
    table = recipe.edges(on_solid)
    edges: dict[Side, Edge] = {
        "left": _edge(table, at[0], running, 1, below.left if below else None),
        "right": _edge(table, at[1], running, -1, below.right if below else None),
    }
    clusters = recipe.clusters(*at, running)
    order: tuple[Side, Side] = ("right", "left") if starts == "right" else ("left", "right")
    work = [
        stitches.EdgeWork(
            edges[side].kind, edges[side].move, edges[side].step, below.edge(side).kind if below else None, on_solid
        )
        for side in order
    ]
    counts = stitches.count(recipe, clusters, work[0], work[1], place.joined)
    where = (place.section, number, place.index, place.under, place.joined)
    of_kind = (kind.kind, kind.nth, kind.height)
    return Row(*where, edges["left"], edges["right"], starts, clusters, None, counts, running, *of_kind)


def _solid_row(recipe: Recipe, place: _Place, kind: _Kind, at: tuple[int, int], running: int) -> Row:
    """A row of one stitch in every stitch and chain: its edges are straight and of the kind below."""
    left, right = (Edge(side, recipe.kind(side, running), "straight", 0) for side in at)
    spaced = (left.kind == "spaced") + (right.kind == "spaced")
    counts = stitches.count_solid(recipe, kind.kind, lattice.clusters(*at, running), spaced)
    where = (place.section, place.number, place.index, place.under, place.joined)
    starts, of_kind = lattice.starting_side(place.number), (kind.kind, kind.nth, kind.height)
    return Row(*where, left, right, starts, 0, None, counts, running, *of_kind)


def _edge(table: EdgeTable, at: int, running: int, inwards: int, under: Edge | None) -> Edge:
    """The edge at ``at``; ``inwards`` is the sign of going in at its side."""
    kind = table.kind(at, running)
    if under is None or at == under.at:
        return Edge(at, kind, "straight", 0)
    distance = (at - under.at) * inwards
    name = table.named(under.kind, distance)
    return Edge(at, kind, name, abs(distance) if name in ("step_in", "step_out") else 0)
