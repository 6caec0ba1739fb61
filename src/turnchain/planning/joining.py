"""Pieces that are begun on others: into the other side of a foundation, or along an armhole.

In: a pattern and what each of its pieces might be. Out: the same, each piece that is begun on the foundation of another
with row 1 as wide as that, clusters over clusters: turned upside down, the edge at the right is the other's left one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Kind
from turnchain.pattern import ON_ARMHOLE, Piece
from turnchain.planning.candidate import Candidate
from turnchain.planning.job import Job
from turnchain.planning.pieces import Choice, Unplannable
from turnchain.records import replace


def joined(piece: Piece, choices: Mapping[str, Choice], search: Callable[[Piece], Choice]) -> Choice:
    """What ``piece`` might be where it is begun on another, by the ``choices`` of all; ``search`` finds what a piece
    might be. Raises Unplannable where its row 1 cannot be as wide as that foundation, or a sleeve would not begin with
    its wider end; BudgetSpent."""
    own = choices[piece.name]
    if piece.begin_on is None:
        return own
    if not own.job.recipe_made.own:
        allowed = "in this fabric row 1 has no chain under its first edge stitch, and begins on a chain of its own"
        raise Unplannable(f"begin_on = {piece.begin_on!r}", allowed, "leave it out, and sew the seam", "begin_on")
    if piece.begin_on == ON_ARMHOLE:
        return _wider_first(own)
    other = choices[piece.begin_on.rpartition(".")[0]]
    start, end = _kinds(other.job, other.best)
    clusters = _clusters(other.job, other.best)
    if piece.exact_clusters not in (None, clusters) or abs(_clusters(own.job, own.best) - clusters) > 1:
        raise _too_wide(own, other, clusters)
    chain = stitches.foundation(own.job.recipe, clusters, start, end)
    alike = replace(piece, exact_clusters=clusters, exact_chain=chain, row_plan=other.best.row_plan)
    try:
        found = search(alike)
    except Unplannable:
        found = own
    fitting = [one for one in found.ranked
               if (_kinds(found.job, one)[::-1], _clusters(found.job, one)) == ((start, end), clusters)]  # fmt: skip
    if not fitting:
        raise _too_wide(own, other, clusters)
    return replace(found, ranked=fitting, best=fitting[0])


def _too_wide(own: Choice, other: Choice, clusters: int) -> Unplannable:
    name = other.job.target.piece.name
    allowed = f"row 1 must be as wide as that of {name}, {clusters} {own.job.recipe.noun}s, with the same edges"
    hint = "give both the same width and the same row_plan, or leave begin_on out and sew the seam"
    return Unplannable(f"no plan that begins on the chains of {name}", allowed, hint, "begin_on")


def _kinds(job: Job, one: Candidate) -> tuple[Kind, Kind]:
    """The kinds of the left and the right edge of row 1."""
    running = job.recipe.running(one.phase, 1)
    return job.recipe.kind(one.left[0], running), job.recipe.kind(one.right[0], running)


def _clusters(job: Job, one: Candidate) -> int:
    return job.recipe.clusters(one.left[0], one.right[0], job.recipe.running(one.phase, 1))


def _wider_first(own: Choice) -> Choice:
    first, last = (own.best.right[row] - own.best.left[row] for row in (0, -1))
    if first < last:
        allowed = "a sleeve that is begun along the armhole is worked down to its cuff: its first row is the wider end"
        raise Unplannable("a sleeve wider at its last row", allowed, "turn its outline over", "begin_on")
    return own
