"""Rows of one stitch in every stitch and chain, and clusters that follow them, as steps.

In: a row of a ``PiecePlan`` and the row below it. Out: its steps. After a solid row clusters are counted off by its
stitches, as along a foundation.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric import stitches
from turnchain.fabric.grid import Grid
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.wording.instructions.steps import (
    Chain,
    ChainFromHook,
    ChainToTurn,
    EdgeDc,
    NextStitch,
    Place,
    SkipEdge,
    SkipStitches,
    SolidIn,
    SolidInChains,
    SolidInStitches,
    Step,
    TopOfTurningChain,
    Turn,
    Work,
    repeated,
)


def solid_row(piece: PiecePlan, row: Row) -> Iterator[Step]:
    """Every step of a solid ``row``."""
    rule, below = piece.recipe.rule(row.kind), piece.below(row)
    worked = row.counts.dc + row.counts.tch
    if below is None:
        yield SolidIn(row.kind, ChainFromHook(rule.turning + 1 + rule.counts))
        yield SolidInChains(row.kind, worked - 1 - rule.counts)
        return
    yield ChainToTurn(rule.turning)
    yield Turn()
    if not rule.counts:
        yield SolidIn(row.kind, EdgeDc())
    yield SolidInStitches(row.kind, worked - 2)
    yield SolidIn(row.kind, far_edge(piece, below))


def far_edge(piece: PiecePlan, below: Row) -> Place:
    """The edge stitch that the row ``below`` starts with, where the next one ends."""
    rule = piece.recipe.rule(below.kind)
    return TopOfTurningChain(rule.turning) if rule.counts else EdgeDc()


def clusters_over(piece: PiecePlan, row: Row, below: Row) -> Iterator[Step]:
    """The clusters of ``row``, each into one stitch of the solid row ``below``, and what is skipped before, between and
    after them."""
    recipe, start = piece.recipe, row.edge(row.starts).kind
    lead = stitches.first_lead(recipe, start, Grid(piece).over_gaps(below))
    after = below.counts.dc + below.counts.tch - 2 - lead - (row.clusters - 1) * recipe.pitch
    between: list[Step] = [*([Chain(recipe.gap)] if recipe.gap else []), SkipStitches(recipe.pitch - 1)]
    if recipe.stitch.counts and not (start == "spaced" and recipe.extra):  # nothing was worked into the edge stitch
        yield SkipEdge()
    yield from [SkipStitches(lead - 1)] if lead > 1 else []
    yield Work("cl", NextStitch())
    yield from repeated(row.clusters - 1, *between, Work("cl", NextStitch()))
    yield from [SkipStitches(after)] if after else []
