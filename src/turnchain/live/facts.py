"""What a page shows beside the pictures: measures, rows, yarn.

In: a plan. Out: plain values for JSON. Lengths are cm as decimals, and where they are to be read also as words in the
unit of the pattern file; places across a piece are half pitches.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any, TypeAlias

from turnchain import style
from turnchain.fabric import library
from turnchain.fabric.gauge import usual_band
from turnchain.fabric.plan import Alternative, Fit, PiecePlan, Plan, Row
from turnchain.garment import dimensions, edges
from turnchain.garment.edging import planned as edging_plans
from turnchain.pattern import Fabric
from turnchain.units import Unit, shown
from turnchain.yarns import carrying, figures

Json: TypeAlias = Any
Path: TypeAlias = tuple[str | int, ...]

#: Where each measure of a panel is wanted, within its piece.
KEYS: dict[str, tuple[str, ...]] = {
    "width": ("width",),
    "length": ("length",),
    "shoulder": ("neck", "shoulder"),
    "neck depth": ("neck", "depth"),
}


def pieces(plan: Plan) -> list[dict[str, Json]]:
    """Every piece, in the order of the plan: "fit" (its measures, see ``fit_json``), "rows" (each with the corners of
    its "band" as worn in cm, its edges "left" and "right" in half pitches), "outline", "ends" to weave in, "chain"
    stitches of the foundation, "dimensions", whose two points are in cm, its "number" in the file from 0 (beyond the
    last for the second of a pair made mirrored), and which other it "follows" as its mirror image (None: none)."""
    return [_piece(plan, number) for number in range(len(plan.pieces))]


def _piece(plan: Plan, number: int) -> dict[str, Json]:
    piece, there = plan.pieces[number], in_file(plan, number)
    follows = plan.pattern.pieces[number].mirrors
    fits = [fit_json(fit, plan.pattern.units, there) for fit in piece.fit]
    return {
        "name": piece.name,
        "number": there,
        "follows": follows,
        "count": piece.count,
        "worked": piece.worked,
        "rowPlan": piece.row_plan,
        "chain": piece.foundation_chain,
        "outline": outline(piece),
        "fit": [{**one, "path": None} for one in fits] if follows else fits,
        "rows": [row_json(piece, row) for row in piece.rows],
        "ends": carrying.ends(piece, carrying.carry_of(plan, piece)),
        "dimensions": [
            {"name": one.name, "one": _point(one.one), "other": _point(one.other), "place": one.place}
            for one in dimensions.of(plan, piece)
        ],
    }


def in_file(plan: Plan, number: int) -> int:
    """The number in its file of piece ``number`` of a plan, both from 0: a size may lack pieces."""
    return plan.pattern.number_in_file(plan.pattern.pieces[number])


def outline(piece: PiecePlan) -> list[tuple[float, float]]:
    """The corners of a piece as worn, in cm to 4 decimals, y up, once around it."""
    worn = edges.worn(piece)
    return [_point(worn(point)) for run in edges.around(piece) for point in run.points]


def _point(point: edges.Point) -> tuple[float, float]:
    return round(float(point[0]), 4), round(float(point[1]), 4)


def fit_json(fit: Fit, unit: Unit, number: int) -> dict[str, Json]:
    """One measure of the file's piece ``number`` (from 0): "wanted", "worked" and "off" in cm, the same under "said" in
    words in ``unit`` ("off" is empty where it rounds to nothing); "path" leads to where the pattern file asks for it
    (None: it asks nowhere, as for what is left over)."""
    key = KEYS.get(fit.measure)
    return {
        "measure": fit.measure,
        "path": None if key is None else ["piece", number, *key],
        "wanted": float(fit.wanted),
        "worked": float(fit.worked),
        "off": float(fit.off),
        "said": {"wanted": shown(fit.wanted, unit), "worked": shown(fit.worked, unit), "off": _signed(fit.off, unit)},
    }


def _signed(off: Fraction, unit: Unit) -> str:
    words = shown(abs(off), unit)
    return "" if words == shown(Fraction(0), unit) else f"{'+' if off > 0 else '−'}{words}"


def row_json(piece: PiecePlan, row: Row) -> dict[str, Json]:
    """One row: the corners of its "band" as worn in cm, its edges in half pitches, its yarn by name."""
    under = piece.below(row)
    foot = {
        side: row.edge(side).at if under is None or row.edge(side).step else under.edge(side).at
        for side in edges.SIDES
    }
    worn, low, high = edges.worn(piece), piece.up(row.number - 1), piece.up(row.number)
    corners = (
        (foot["left"], low), (row.left.at, high), (row.right.at, high), (foot["right"], low),
    )  # fmt: skip
    return {
        "band": [_point(worn((at * piece.gauge.half, up))) for at, up in corners],
        "number": row.number,
        "section": row.section,
        "left": row.left.at,
        "right": row.right.at,
        "starts": row.starts,
        "clusters": row.clusters,
        "yarn": row.colour,
        "moves": [row.left.move, row.right.move],
    }


def alternative(other: Alternative, unit: Unit, number: int) -> dict[str, Json]:
    """Another plan of piece ``number`` of the file (from 0): its measures, and the "edits" that choose it."""
    return {
        "rows": other.rows,
        "rowPlan": other.row_plan,
        "clusters": list(other.clusters),
        "fit": [fit_json(fit, unit, number) for fit in other.fit],
        "irregular": other.irregular,
        "edits": [
            {"path": ["piece", number, key], "value": value, "sizes": "one"} for key, value in other.keys
        ],
    }


def rows_of(plan: Plan) -> dict[str, Json]:
    """What the fabric lets be said of its rows: whether they may be of several kinds ("mixed"), and where clusters may
    stand after rows of a stitch ("then"), the usual place first."""
    recipe = plan.recipe
    ways = (("staggered", recipe.gap % 2), ("stacked", recipe.unit_width % 2))
    mixed = not (recipe.stacked or recipe.slit or recipe.bare)
    return {"mixed": mixed, "then": [way for way, odd in ways if odd and mixed]}


@cache
def fabrics() -> dict[str, Json]:
    """Every fabric of the package by its name, "" for a pattern that names none: the stitches of a "cluster" and the
    chains of a "gap", which a pattern can change; None for a fabric that is made otherwise."""
    made = {"": Fabric(), **{name: library.clusters_of(name) for name in library.names()}}
    return {name: one and {"cluster": one.cluster, "gap": one.gap} for name, one in made.items()}


def gauge(plan: Plan) -> dict[str, Json]:
    """The gauge: the width of a "cluster" with its gap and the height of a "row" in cm, "proportion" (the first divided
    by the second) and the least and the most of it that is "usual", by the fabric; for the source of
    these see ``fabric.gauge``."""
    found = plan.gauge
    return {
        "cluster": float(found.pitch),
        "row": float(found.row),
        "proportion": float(found.pitch_in_rows),
        "usual": [float(bound) for bound in usual_band(plan.recipe)],
        "said": {"cluster": shown(found.pitch, plan.pattern.units), "row": shown(found.row, plan.pattern.units)},
    }


def yarns(plan: Plan) -> list[dict[str, Json]]:
    """Every yarn, in the order of the pattern, with its letter and colours ("#rrggbb"); "stock", what it "takes" and
    what is "left" of the stock in g, and "balls": None where the pattern does not tell enough; "rows" of all pieces."""
    needs = {need.yarn: need for need in figures.figures(plan).needs}
    made = []
    for number, yarn in enumerate(plan.pattern.yarns):
        need = needs.get(yarn.name)
        made.append({
            "name": yarn.name,
            "colour": yarn.colour,
            "letter": style.letter(number),
            "ink": style.ink_on(yarn.colour),
            "stock": None if yarn.stock is None else float(yarn.stock),
            "takes": None if need is None else float(need.needed),
            "left": None if need is None or need.left is None else float(need.left),
            "balls": None if need is None else need.balls,
            "rows": sum(piece.count for piece in plan.pieces for row in piece.rows if row.colour == yarn.name),
        })
    return made


def edgings(plan: Plan) -> list[dict[str, Json]]:
    """Every band of an edging: the "number" of its table in the file, from 0, the "stitches" of its rows, its "length"
    in words, and at how many alike openings it is worked ("times"). Raises MakerError where one cannot be planned."""
    found: dict[tuple[int, tuple[int, ...], str], int] = {}
    for one in edging_plans.every(plan):
        band = one.number - 1, one.counts, shown(one.length, plan.pattern.units)
        found[band] = found.get(band, 0) + 1
    return [
        {"number": number, "stitches": list(stitches), "length": length, "times": times}
        for (number, stitches, length), times in found.items()
    ]
