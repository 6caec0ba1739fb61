"""Rows of one stitch in every stitch and chain, and clusters that follow them, as steps.

In: a row of a ``PiecePlan`` and the row below it. Out: its steps. After a solid row clusters are counted off by its
stitches, as along a foundation.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

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


def clusters_over(piece: PiecePlan, row: Row, below: Row, slipped: int) -> Iterator[Step]:
    """The clusters of ``row`` that do not stand on an edge stitch, each into one stitch of the solid row ``below``, and
    what is skipped before, between and after them; so many stitches are ``slipped`` along before."""
    recipe, (units, end) = piece.recipe, Grid(piece).over_solid(row)
    inner = [one for one in units if 0 < one < end]
    begun = units[0] == 0  # a cluster on the edge stitch
    spaced = row.edge(row.starts).kind == "spaced"
    if not slipped and not begun and recipe.stitch.counts and not (spaced and recipe.extra):
        yield SkipEdge()  # nothing was worked into it
    gap: list[Step] = [Chain(recipe.gap)] if recipe.gap else []
    at = slipped
    for apart, run in groupby(two - one for one, two in pairwise((slipped, *inner))):
        times = len(list(run))
        one: list[Step] = [*_skipped(apart - 1), Work("cl", NextStitch())]
        if at == slipped and not begun:
            yield from one
            times -= 1
        yield from repeated(times, *gap, *one)
        at = inner[-1]
    yield from _skipped(end - (inner or [slipped])[-1] - 1)


def _skipped(stitches: int) -> list[Step]:
    return [SkipStitches(stitches)] if stitches else []
