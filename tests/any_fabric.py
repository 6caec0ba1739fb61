"""Random patterns of every fabric there is: planned pieces, walks by every move of their tables, whole files.

In: a seed. Out: the same plan for the same seed, of a fabric of the package or of clusters of any stitch, number and
gap. The shapes are those of ``nightly`` and ``random_files``.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from random import Random

from nightly import YARNS, _outline, _panel, _stripes, _swatch
from random_files import File, file_at
from turnchain.errors import PatternError
from turnchain.fabric import lattice, stitches
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.lattice import Side
from turnchain.fabric.library import clusters_of, names, recipe_of
from turnchain.fabric.plan import Edge, Fit, PiecePlan, Plan, Row
from turnchain.fabric.recipe import Recipe
from turnchain.pattern import Fabric, Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace

BARE = [name for name in names() if recipe_of(Fabric(kind=name)).bare]
OTHERS = [name for name in names() if clusters_of(name) is None and name not in BARE]


def fabric_at(rng: Random, bare: bool = False) -> Fabric:
    """Half of them made otherwise than of clusters in spaces; ``bare``: all of those without edge stitches."""
    if bare:
        return bare_at(rng)
    if rng.random() < 0.5:
        return Fabric(kind=rng.choice(OTHERS))
    cluster = rng.randint(1, 5)
    return Fabric(cluster, rng.randint(0 if cluster > 1 else 1, 3), rng.choice(("sc", "hdc", "dc", "tr")))  # type: ignore[arg-type]


def bare_at(rng: Random) -> Fabric:
    """A fabric of the package, or a maker's own of clusters that a counted turning chain can begin."""
    if rng.random() < 0.5:
        return Fabric(kind=rng.choice(BARE))
    cluster, gap = rng.randint(2, 5), rng.randint(0, 3)
    stitch = rng.choice(("hdc", "dc", "tr"))
    cluster = max(cluster, 2 if gap else 3)
    own = {"edges": "bare", "unit": " ".join([stitch] * cluster), "gap": gap, "counts": True}
    own["edge"] = " ".join(["ch"] * gap) or stitch
    return Fabric(kind="mine.toml", own=tuple(sorted(own.items())))


def _pattern(rng: Random, piece: Piece, bare: bool = False) -> Pattern:
    stripes = _stripes(rng)
    return Pattern("Random", (_swatch(rng),), (piece,), fabric_at(rng, bare), YARNS if stripes else (), stripes)


def planned_of_bare(seed: int) -> Plan | None:
    """A planned pattern of clusters without edge stitches."""
    return planned_of_any(seed, bare=True)


def walk_of_bare(seed: int) -> Plan:
    """A walk of clusters without edge stitches."""
    return walk_of_any(seed, bare=True)


def planned_of_any(seed: int, rows: int = 22, clusters: int = 10, bare: bool = False) -> Plan | None:
    """A planned pattern; None where that pattern cannot be planned, which the planner has said."""
    rng = Random(seed)
    pattern = _pattern(rng, Piece("any"), bare)
    gauge = gauge_of(pattern.swatches)
    piece = rng.choice((_panel, _outline))(rng, gauge.pitch, gauge.row, rows, clusters)
    if recipe_of(pattern.fabric).stacked:
        piece = replace(piece, row_plan="auto")
    try:
        return plan_pattern(replace(pattern, pieces=(piece,)))
    except PatternError:
        return None


def file_of_any(seed: int) -> File:
    """The pattern file of a seed in any fabric."""
    made, rng = file_at(seed), Random(seed)
    fabric = fabric_at(rng)
    said = {"kind": fabric.kind} if fabric.kind else {
        "cluster": fabric.cluster, "gap": fabric.gap, "stitch": fabric.stitch
    }  # fmt: skip
    pieces = made.tables["piece"]
    if fabric.kind:
        pieces = [{key: value for key, value in piece.items() if key != "row_plan"} for piece in pieces]
    return File(made.seed, {**made.tables, "fabric": said, "piece": pieces}, made.units)


def walk_of_any(seed: int, rows: int = 12, clusters: int = 8, bare: bool = False) -> Plan:
    """A piece whose edges wander by every move of its fabric's table, and by steps."""
    rng = Random(seed)
    pattern = _pattern(rng, Piece("walk", width=Fraction(10), length=Fraction(10)), bare)
    if recipe_of(pattern.fabric).slit or recipe_of(pattern.fabric).alternating:  # its edges stay straight
        pattern = replace(pattern, fabric=Fabric())
    return walk_of(rng, pattern, recipe_of(pattern.fabric), rows, clusters)


def walk_of(rng: Random, pattern: Pattern, recipe: Recipe, rows: int, clusters: int) -> Plan:
    """The same of a ``recipe``."""
    gauge, phase = gauge_of(pattern.swatches), rng.randint(0, 1)
    made = list(_walk(rng, recipe, pattern, 0 if recipe.table.whole else phase, rng.randint(1, rows), clusters))
    first = made[0]
    kinds = (first.edge(first.starts).kind, first.edge(first.ends).kind)
    fit = (
        Fit("width", Fraction(0), (first.right.at - first.left.at) * gauge.half),
        Fit("length", Fraction(0), len(made) * gauge.row),
    )
    planned = PiecePlan(
        name="walk", count=1, worked="upwards", recipe=recipe, gauge=gauge, phase=phase, row_plan="alike",
        foundation_chain=stitches.foundation(recipe, first.clusters, *kinds), rows=tuple(made), fit=fit,
        farthest=None, alternatives=(), warnings=(), top=None, free_outline=False, has_neck=False,
    )  # fmt: skip
    return Plan(pattern, gauge, (planned,), ())


def _walk(rng: Random, recipe: Recipe, pattern: Pattern, phase: int, rows: int, clusters: int) -> Iterator[Row]:
    unit = 2 if recipe.table.whole else 1
    at = (0, 0)
    while recipe.clusters(*at, recipe.running(phase, 1)) < 1:
        at = (0, unit * rng.randint(2, 2 * clusters // unit))
    below = _row(recipe, pattern, phase, 1, at, None)
    yield below
    for number in range(2, rows + 1):
        found = next((row for _ in range(20) if (row := _next(rng, recipe, pattern, phase, number, below))), None)
        if found is None:
            return
        below = found
        yield below


def _next(rng: Random, recipe: Recipe, pattern: Pattern, phase: int, number: int, below: Row) -> Row | None:
    """A row by two random moves; None where they cannot be made together."""
    went = {}
    for side in lattice.SIDES:
        under = below.edge(side)
        moves = [rule.by for rule in recipe.table.moves if rule.below == under.kind]
        steps = [4, 6, 8, -4, -6] if recipe.table.whole else [2, 3, 4, 5, 6, -2, -4, -6]
        went[side] = rng.choice([*moves, *moves, 0, rng.choice(steps)])
        if recipe.table.named(under.kind, went[side]) == "step_out" and lattice.starting_side(number) != side:
            return None
    at = (below.left.at + went["left"], below.right.at - went["right"])
    inside = [below.left.at < place < below.right.at for place in at]
    fits = all(one or step < 2 for one, step in zip(inside, went.values(), strict=True))
    if not fits or at[1] - at[0] > 40 or recipe.clusters(*at, recipe.running(phase, number)) < 1:
        return None
    if not _room(recipe, at, recipe.running(phase, number), below):
        return None
    return _row(recipe, pattern, phase, number, at, below)


def _room(recipe: Recipe, at: tuple[int, int], running: int, below: Row) -> bool:
    """Whether the outermost units lie over the row below: one limit for all moves."""
    centres = lattice.centres(*at, running)
    return centres[0] < below.right.at and centres[-1] > below.left.at


def _row(recipe: Recipe, pattern: Pattern, phase: int, number: int, at: tuple[int, int], below: Row | None) -> Row:
    running = recipe.running(phase, number)
    edges: dict[Side, Edge] = {}
    work = {}
    for side, place, inwards in (("left", at[0], 1), ("right", at[1], -1)):
        under = below.edge(side) if below else None  # type: ignore[arg-type]
        step = (place - under.at) * inwards if under else 0
        move = recipe.table.named(under.kind, step) if under else "straight"
        size = abs(step) if move in ("step_in", "step_out") else 0
        edges[side] = Edge(place, recipe.kind(place, running), move, size)  # type: ignore[index]
        work[side] = stitches.EdgeWork(edges[side].kind, move, size, under.kind if under else None)  # type: ignore[index]
    starts = lattice.starting_side(number)
    ends: Side = "left" if starts == "right" else "right"
    clusters = recipe.clusters(*at, running)
    counts = stitches.count(recipe, clusters, work[starts], work[ends])
    place = ("body", number, number - 1, None if below is None else below.index, False)
    colour = pattern.yarns[number // 3 % len(pattern.yarns)].name if pattern.yarns else None
    return Row(*place, edges["left"], edges["right"], starts, clusters, colour, counts, running)
