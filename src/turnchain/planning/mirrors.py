"""Pieces that mirror others, planned as their mirror images.

In: what the pieces of a pattern might be. Out: the same, a piece that mirrors another with its plan turned over, so
that plans that come out equal are the same for both. Where that cannot be worked (a step outwards is made where a row
starts, and rows start at the other edge), the piece keeps its own best plan.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from turnchain.fabric import lattice, stitches
from turnchain.planning.candidate import Candidate
from turnchain.planning.pieces import Choice
from turnchain.records import replace


def turned_over(choices: Mapping[str, Choice]) -> dict[str, Choice]:
    """``choices`` by the names of pieces, the best of every piece that mirrors another as the mirror image of that
    one's."""
    found = dict(choices)
    for name, choice in choices.items():
        piece = choice.job.target.piece
        other = choices.get(piece.mirrors or "")
        image = None if other is None or other.best.split is not None else _image(other)
        if image is not None and choice.job.may_have_rows(image.rows):
            found[name] = replace(choice, best=image)
    return found


def _image(other: Choice) -> Candidate | None:
    """The mirror image of the best plan of ``other``, row 1's left edge at 0; None where it cannot be worked."""
    best, recipe = other.best, other.job.recipe
    wide = best.right[0]
    left, right = (tuple(wide - at for at in edge) for edge in (best.right, best.left))
    if recipe.stacked or any(_steps_out_late(*edge) for edge in ((left, "left", -1), (right, "right", 1))):
        return None
    phase = (best.phase + wide) % 2
    running = recipe.running(phase, 1)
    start, end = recipe.kind(right[0], running), recipe.kind(left[0], running)
    chain = stitches.foundation(recipe, lattice.clusters(left[0], right[0], running), start, end)
    return replace(best, left=left, right=right, phase=phase, origin=-(best.origin + wide), foundation=chain)


def _steps_out_late(edge: tuple[int, ...], side: str, outwards: int) -> bool:
    """Whether an edge steps outwards where a row ends."""
    steps = ((row, outwards * (at - below)) for row, (below, at) in enumerate(pairwise(edge), 2))
    return any(step > 1 and lattice.starting_side(row) != side for row, step in steps)
