"""Random pieces with rows of more than one kind, and with foundations of every sort, planned.

In: a seed. Out: a plan. Every fabric of clusters that can have such rows is among them.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random

from turnchain.errors import PatternError
from turnchain.fabric.gauge import shares_of
from turnchain.fabric.plan import Plan
from turnchain.pattern import Fabric, Pattern, Piece, RowSwatch, StitchName, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace

YARNS = (Yarn("Oat", "#d8c9a3"), Yarn("Reed", "#7f9a6b"), Yarn("Silt", "#8b5e4a"))
STITCHES: tuple[StitchName, ...] = ("sc", "hdc", "dc", "tr")


def mixed_at(seed: int) -> Plan:
    """The plan of a seed; a piece too narrow for its rows is made wider."""
    rng, more = Random(seed), Fraction(0)
    while True:
        try:
            return _planned(rng, more)
        except (PatternError, TooNarrow):
            more += 4


def _planned(rng: Random, more: Fraction) -> Plan:
    fabric = _fabric(rng)
    wide, high = Fraction(rng.randint(20, 120), 8), Fraction(rng.randint(24, 120), 8)
    piece = Piece("cloth", width=wide + more, length=high, row_plan=rng.choice(("auto", "alike", "alternate")))
    if rng.random() < 0.6:
        piece = _shaped(rng, piece, wide + more, high)
    rows = Fraction(rng.randint(7, 12))
    swatch = Swatch(Fraction(20, fabric.cluster + fabric.gap), Fraction(10), rows, Fraction(10), Fraction(30))
    stripes = Stripes(("Oat", "Reed", "Silt"), tuple(rng.choices((1, 2, 3), k=rng.randint(1, 3))))
    solid = [kind for kind in (*fabric.base, *fabric.rows, *fabric.last) if kind != "cluster"]
    if solid and rng.random() < 0.4:
        swatch, fabric = _measured(rng, swatch, fabric, rng.choice(solid))
        stripes = replace(stripes, order=("Oat", "Reed"), **{rng.choice(("cluster", *solid)): "Silt"})
    plan = _worked(rng, piece, swatch, fabric, stripes)
    if fabric.cluster == 1 and any(row.clusters == 1 for row in plan.pieces[0].rows):
        raise TooNarrow  # a row of one cluster of one stitch looks like a solid row of that
    return plan


class TooNarrow(Exception):
    """A piece that is to be made wider."""


def _worked(rng: Random, piece: Piece, swatch: Swatch, fabric: Fabric, stripes: Stripes) -> Plan:
    worked = piece if piece.width is None else replace(piece, worked=rng.choice(("upwards", "sideways")))
    return plan_pattern(Pattern("Mixed", (swatch,), (worked,), fabric, YARNS, stripes))


def _shaped(rng: Random, piece: Piece, wide: Fraction, high: Fraction) -> Piece:
    """The piece with an outline that leans, and at times steps, at both edges alike, one, or each by itself."""

    def line(across: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
        heights = sorted({Fraction(rng.randint(1, 15), 16) * high for _ in range(rng.choice((0, 0, 1, 2)))})
        points = [(Fraction(0), across), *((at, across * rng.randint(5, 16) / 10) for at in heights)]
        if heights and rng.random() < 0.3:  # a step
            points.insert(-1, (points[-1][0], points[-2][1]))
        return (*points, (high, across * rng.randint(4, 17) / 10))

    if rng.random() < 0.3:
        outlines = {"left_outline": line(wide / 2), "right_outline": line(wide / 2)}
    else:
        outlines = {"outline": line(wide)}
    align = rng.choice(("centre", "left", "right"))
    return replace(piece, worked="upwards", width=None, length=None, align=align, **outlines)


def _measured(rng: Random, swatch: Swatch, fabric: Fabric, kind: StitchName) -> tuple[Swatch, Fabric]:
    """The swatch with one of rows of a ``kind`` alone, and the fabric with their height and weight."""
    rows, whole = Fraction(rng.randint(14, 26)), Fraction(30, 100)
    weight = rng.choice((None, Fraction(rng.randint(6, 12))))
    own = RowSwatch(kind, rows, Fraction(10), weight, weight and (Fraction(5), 5 / whole))
    measured = replace(swatch, kinds=(own,))
    heights, weights = shares_of([measured])
    return measured, replace(fabric, heights=heights, weights=weights)


def _fabric(rng: Random) -> Fabric:
    """A fabric whose units can follow solid rows: over an odd gap, or over an odd number of stitches."""
    cluster, gap = rng.randint(1, 5), rng.randint(0, 3)
    if (cluster == 1 and gap == 0) or cluster % 2 == gap % 2 == 0:
        return _fabric(rng)
    then = rng.choice(("", *(["staggered"] if gap % 2 else []), *(["stacked"] if cluster % 2 else [])))
    stitch = rng.choice(STITCHES)
    made = Fabric(cluster, gap, stitch, then=then)
    if rng.random() < 0.2:
        made = replace(made, grouped=cluster > 1, start=rng.choice(("", "flush", "spaced")))
    if rng.random() < 0.15:
        made = replace(made, turning_chain=rng.randint(2, 4), turning_chain_counts=rng.random() < 0.5)
    others = [one for one in STITCHES if one != stitch]  # told apart in the closed fabric's charts as well
    rows = ("cluster", *(rng.choice(("cluster", "cluster", *others)) for _ in range(rng.randint(0, 4))))
    base = tuple(rng.choices(others, k=rng.choice((0, 0, 1, 2))))
    return replace(made, rows=rows, base=base, last=tuple(rng.choices(STITCHES, k=rng.choice((0, 0, 1, 2)))))
