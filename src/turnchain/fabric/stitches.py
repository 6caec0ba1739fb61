"""How many stitches a row takes: the counts of foundation and rows, from kinds and moves.

In: the fabric, the edges of a row and their moves. Out: numbers of stitches. US terms.
"""

from __future__ import annotations

from turnchain.fabric.lattice import Kind, Move
from turnchain.fabric.recipe import EdgeTable, Recipe
from turnchain.records import frozen, replace


@frozen
class Counts:
    """The stitches of a row: ``dc`` (the fabric's stitch, whichever it is) and ``ch`` apart from the turning chain,
    which counts once as ``tch`` (0 where it does not count: its edge stitch is among ``dc``); ``sl_st`` are the slip
    stitches before it.

    The turning chain holds the chains of a spaced start where it counts; none of its chains is in ``ch``.
    """

    dc: int
    ch: int
    sl_st: int
    tch: int = 1


@frozen
class EdgeWork:
    """One edge of a row: its ``kind``, the ``move`` that brought it there from an edge of kind ``below`` (None in
    row 1), and the ``step`` in half pitches of a step (else 0). ``over_solid``: the row below is a solid one."""

    kind: Kind
    move: Move = "straight"
    step: int = 0
    below: Kind | None = None
    over_solid: bool = False


def base(recipe: Recipe, clusters: int, spaced_edges: int) -> int:
    """The stitches that a row of ``clusters`` is wide, posts included, with ``spaced_edges`` (0 to 2) edges that have a
    gap. Source: the rules of the lattice, DEVELOPERS.md."""
    posts = spaced_edges if recipe.bare else 2
    return posts + recipe.unit_width * clusters + recipe.gap * (clusters - 1) + recipe.filled * spaced_edges


def turning_chain(recipe: Recipe, start: Kind, together: bool = False) -> int:
    """The chains of a turning chain at a row's start: those of the stitch and, where it counts as one and the row
    starts spaced, those of the edge. A turning chain that does not count has its edge stitch beside it; one that makes
    an edge stitch with the stitch after it, ``together``, is a chain shorter, and what fills the edge follows that."""
    if together:
        return recipe.stitch.turning - int(recipe.stitch.counts)
    return recipe.stitch.turning + held(recipe, start)


def held(recipe: Recipe, start: Kind) -> int:
    """The chains beside it that a turning chain which counts holds at a row's start: those of a spaced edge, and after
    a unit that is a turning chain altogether those of the gap."""
    if not recipe.stitch.counts:
        return 0
    if start == "spaced":
        return recipe.edge_chains
    return recipe.gap if start == "bare" and recipe.alternating else 0


def foundation(recipe: Recipe, clusters: int, start: Kind, end: Kind) -> int:
    """The chains to make before row 1, its turning chain included, for ``clusters`` in it or, where it is a solid row,
    over it. Its post has a chain of its own; published patterns that count the turning chain as standing beside it are
    a chain shorter."""
    spaced = (start == "spaced") + (end == "spaced")
    return base(recipe, clusters, spaced) + first_turning(recipe, start) - int(not recipe.own)


def first_turning(recipe: Recipe, start: Kind) -> int:
    """The chains of row 1's turning chain, where its start is of this kind."""
    at_foot = recipe.order.base
    return recipe.rule(at_foot[0]).turning if at_foot else turning_chain(recipe, start)


def first_chain(recipe: Recipe, start: Kind) -> int:
    """The number of the chain, counted from the hook (from 1), that takes the first dc of row 1's first cluster: 5 from
    a flush start, 7 from a spaced one in the open fabric and 6 in the closed. Without an edge stitch that dc is the
    turning chain itself."""
    if not recipe.table.post(start):
        return turning_chain(recipe, start) + int(recipe.own)
    lead = recipe.middle if recipe.grouped or recipe.together else 1
    return turning_chain(recipe, start) + int(recipe.own) + lead + (recipe.filled if start == "spaced" else 0)


def first_own_chain(recipe: Recipe, start: Kind) -> int:
    """The same on the new chain of a step out, where the edge stitch has a chain of its own always, and every stitch of
    a cluster too."""
    return first_chain(replace(recipe, own=True, together=False), start)


def slip_stitches(recipe: Recipe, step: int, below: Kind) -> int:
    """How many slip stitches after turning bring the hook ``step`` (1 or more) half pitches in from an edge of kind
    ``below``.

    A post in a gap lies one stitch past the clusters crossed; a post on a cluster lies on its middle dc (for an
    even number of dc on the outer of the middle two). Source: the rules of the lattice, DEVELOPERS.md.
    """
    k, g = recipe.unit_width, recipe.gap
    lead = recipe.filled if below == "spaced" else 0
    crossed, on_cluster = divmod(step - 1 if below == "spaced" else step, 2)
    if on_cluster:
        return lead + crossed * (k + g) + (k + 1) // 2
    if crossed == 0:
        return 1
    return lead + crossed * k + (crossed - 1) * g + 1


def led_inwards(edges: EdgeTable, move: Move, below: Kind) -> bool:
    """Whether slip stitches lead to where a row begins whose edge goes on so, beside a step, from one of kind
    ``below``."""
    rule = edges.rule(move, below)
    return rule is not None and (rule.start or rule.unit).split(" ")[0] in ("edge", "gap", "unit")


def slips(recipe: Recipe, start: EdgeWork) -> int:
    """How many slip stitches lead to where a row begins at the edge ``start``: without an edge stitch to the outermost
    unit, half a pitch farther in; on a row below without one they go on from the outermost stitch there."""
    edges = recipe.edges(start.over_solid)
    if start.below is None or not (start.move == "step_in" or led_inwards(edges, start.move, start.below)):
        return 0
    rule, post = edges.rule(start.move, start.below), edges.post(start.kind)
    inwards = start.step or (rule.by if rule is not None and not post else 1)
    return slip_stitches(recipe, inwards + (not post), start.below) - (not edges.post(start.below))


def chained(recipe: Recipe, step: int, below: Kind) -> int:
    """How many chains, without the turning chain, carry a step out of ``step`` half pitches (even) from an edge of
    kind ``below``. Source: the rules of the lattice, DEVELOPERS.md."""
    pitches, k, g = step // 2, recipe.unit_width, recipe.gap
    if recipe.table.on_edge(below):
        return pitches * (k + g) + beyond_edge(recipe, below)
    return pitches * k + (pitches - 1) * g + (not recipe.bare)


def beyond_edge(recipe: Recipe, below: Kind) -> int:
    """How many whole stitches the outermost one lies inside an edge of the kind ``below``."""
    return 0 if recipe.table.post(below) else (recipe.gap + 1) // 2


def count(recipe: Recipe, clusters: int, start: EdgeWork, end: EdgeWork, joined: bool = False) -> Counts:
    """The stitches of a row of ``clusters`` that begins at the edge ``start`` and finishes at ``end``; where the
    yarn is ``joined`` anew, no slip stitches lead there."""
    spaced = (start.kind == "spaced") + (end.kind == "spaced")
    counts = recipe.stitch.counts
    alone = not counts or recipe.table.together(start.move, start.below)  # whether the chains of the edge follow it
    filled = (end.kind == "spaced") + (start.kind == "spaced" and alone)  # edges whose chains count by themselves
    chains = recipe.gap * (clusters - 1) + recipe.inner * clusters + recipe.edge_chains * filled
    chains -= held(recipe, start.kind) if start.kind == "bare" else 0
    if start.below and start.move == "step_out":
        chains += chained(recipe, start.step, start.below)
    led = 0 if joined else slips(recipe, start)
    posts = spaced if recipe.bare else 2
    return Counts(recipe.worked * clusters + posts + recipe.extra * spaced - counts, chains, led, tch=int(counts))


def count_solid(recipe: Recipe, kind: str, clusters: int, spaced_edges: int) -> Counts:
    """The stitches of a solid row of the stitch ``kind``: as many as a row of ``clusters`` with so many spaced edges is
    wide, its turning chain one of them where that counts."""
    counts = int(recipe.rule(kind).counts)
    return Counts(base(recipe, clusters, spaced_edges) - counts, 0, 0, counts)


def lead_over(recipe: Recipe, kind: Kind, way: int) -> int:
    """On a solid row: the number of the stitch, the edge stitch being 0, that lies over the place ``way`` half pitches
    in from an edge of this ``kind``: the middle of a cluster, of a gap, or of what fills a spaced edge. Source: the
    rules of the lattice, DEVELOPERS.md."""
    k, g, e = recipe.unit_width, recipe.gap, recipe.filled
    if way == 0:
        return 0
    if kind == "spaced" and way == 1:
        return (e + 1) // 2
    past = e if kind == "spaced" else 0  # stitches before the first cluster
    nth, on_gap = divmod(way - (kind == "spaced") - 1, 2)
    return past + nth * (k + g) + (k + (g + 1) // 2 if on_gap else (k + 1) // 2)
