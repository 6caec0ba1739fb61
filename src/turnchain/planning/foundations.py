"""Which foundation chains fit a fabric.

In: a recipe, the rows alike or alternate, a chain as a maker has it. Out: the nearest counts on which rows can begin.
"""

from __future__ import annotations

from itertools import product

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Kind
from turnchain.fabric.plan import RowPlan
from turnchain.fabric.recipe import Recipe


def nearest(recipe: Recipe, row_plan: RowPlan, chain: int) -> tuple[int, ...]:
    """The largest foundation below ``chain`` and the smallest above it, turning chains included, on which row 1 has
    its edges as ``row_plan`` and the recipe's ``start`` want them; ``chain`` alone where it fits, one count where there
    is none below."""
    about = chain // recipe.pitch
    edges = [pair for pair in _edges(recipe, row_plan) if recipe.start in ("", pair[0])]
    counts = {
        stitches.foundation(recipe, units, *pair)
        for units, pair in product(range(max(1, about - 4), about + 4), edges)
    }
    if chain in counts:
        return (chain,)
    below, above = (count for count in counts if count < chain), min(count for count in counts if count > chain)
    return tuple(count for count in (max(below, default=0), above) if count)


def _edges(recipe: Recipe, row_plan: RowPlan) -> list[tuple[Kind, Kind]]:
    """The kinds of the edges that the first row of units may start and end with."""
    if recipe.stacked:
        nearest_unit = min(recipe.table.kinds, key=lambda rule: rule.first).kind
        return [(nearest_unit, nearest_unit)]
    if row_plan == "alternate":
        return [("flush", "flush"), ("spaced", "spaced")]
    return [("flush", "spaced"), ("spaced", "flush")]
