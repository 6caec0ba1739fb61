"""The plan for other programs: plan.json.

In: a ``Plan``, or those of all sizes of a pattern. Out: their JSON text, laid out in ``plan.schema.json``
beside this module. Positions are half pitches, right side facing, growing to the right, row 1's left edge at 0; lengths
are cm.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

from turnchain import packaged
from turnchain.fabric.places import together
from turnchain.fabric.plan import Fit, PiecePlan, Plan, Row
from turnchain.fabric.recipe import Recipe
from turnchain.fabric.stitches import turning_chain

SCHEMA_NUMBER = 3  # readers of 2 can read it: where all rows are of clusters it has the same rows
SIZES_NUMBER = 4  # of several sizes: each is a plan of ``SCHEMA_NUMBER``


def plan_text(plan: Plan) -> str:
    """The JSON text: a line to a row, so that two plans can be compared line by line."""
    data = plan_data(plan)
    pieces = data.pop("pieces")
    head = json.dumps(data, ensure_ascii=False, indent=1).removesuffix("\n}")
    return f'{head},\n "pieces": [\n' + ",\n".join(_piece_text(piece) for piece in pieces) + "\n ]\n}\n"


def sizes_text(plans: Sequence[Plan]) -> str:
    """The JSON text of the plans of all sizes of a pattern, in their order; of one alone its ``plan_text``."""
    if len(plans) == 1:
        return plan_text(plans[0])
    head = json.dumps({"schema": SIZES_NUMBER, "title": plans[0].pattern.common_title}, ensure_ascii=False, indent=1)
    sizes = ",\n".join(plan_text(plan).rstrip("\n") for plan in plans)
    return f'{head.removesuffix("}").rstrip()},\n "sizes": [\n{sizes}\n ]\n}}\n'


def is_one(path: Path) -> bool:
    """Whether there is a plan of ours at ``path``: no other program's file begins with these letters. False too where
    the file cannot be read."""
    start = b'{\n "schema": '
    try:
        if not path.is_file():
            return False
        with path.open("rb") as file:
            return file.read(len(start)) == start
    except OSError:
        return False


def plan_data(plan: Plan) -> dict[str, Any]:
    """The plan as plain dictionaries and lists, as ``schema`` describes them: positions in half pitches, fits in cm to
    six decimals, the gauge in cm as near as a float holds it."""
    return {
        "schema": SCHEMA_NUMBER,
        "title": plan.pattern.title,
        **({"size": plan.pattern.size} if plan.pattern.size else {}),
        "gauge": {"pitch_cm": float(plan.gauge.pitch), "row_cm": float(plan.gauge.row)},
        "fabric": _fabric(plan.recipe),
        "warnings": list(plan.warnings),
        "pieces": [_piece(piece) for piece in plan.pieces],
    }


def schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of plan.json."""
    text = packaged.file("plan.schema.json").read_text("utf-8")
    loaded: dict[str, Any] = json.loads(text)
    return loaded


def _fabric(recipe: Recipe) -> dict[str, Any]:
    """What the fabric is made of: ``cluster`` counts the stitches of a unit without its chains. ``order``: the kinds of
    its rows, where there are several."""
    order = recipe.order
    then = "staggered" if order.staggered else "stacked"
    kinds = {"base": list(order.base), "rows": list(order.rows), "last": list(order.last), "then": then}
    return {
        "kind": recipe.name,
        "stitch": recipe.stitch.name,
        "cluster": recipe.worked,
        "gap": recipe.gap,
        "unit": list(recipe.unit),
        "edge": list(recipe.filling),
        "into": recipe.table.into,
        **({} if order.plain else {"order": kinds}),
    }


def _piece(piece: PiecePlan) -> dict[str, Any]:
    return {
        "name": piece.name,
        "count": piece.count,
        "worked": piece.worked,
        "row_plan": piece.row_plan,
        "foundation_chain": piece.foundation_chain,
        **({"begun_on": piece.begun_on} if piece.begun_on else {}),
        **({"picked_up": _picked_up(piece, piece.picked_up)} if piece.picked_up else {}),
        "fit": [_fit(fit) for fit in piece.fit],
        "farthest": _farthest(piece),
        "alternatives": [
            {
                "rows": other.rows,
                "row_plan": other.row_plan,
                "clusters": list(other.clusters),
                "fit": [_fit(fit) for fit in other.fit],
                "keys": dict(other.keys),
                **({"irregular_rows": other.irregular} if other.irregular else {}),
            }
            for other in piece.alternatives
        ],
        "warnings": list(piece.warnings),
        "rows": [_row(piece, row) for row in piece.rows],
    }


def _picked_up(piece: PiecePlan, row: Row) -> dict[str, Any]:
    """The single crochet along an armhole that row 1 stands on."""
    return {
        "stitch": row.kind, "stitches": row.counts.dc, "colour": row.colour,
        "height_cm": _cm(row.height * piece.gauge.row),
    }  # fmt: skip


def _piece_text(piece: dict[str, Any]) -> str:
    rows = piece.pop("rows")
    head = json.dumps(piece, ensure_ascii=False, indent=1).removesuffix("\n}")
    lines = ",\n".join("  " + json.dumps(row, ensure_ascii=False) for row in rows)
    return f'{head},\n "rows": [\n{lines}\n ]\n}}'


def _row(piece: PiecePlan, row: Row) -> dict[str, Any]:
    counts, rule = row.counts, piece.recipe.rule(row.kind)
    start = row.edge(row.starts).kind
    kind = {"kind": row.kind, "cluster_row": row.nth, "height_cm": _cm(row.height * piece.gauge.row)}
    return {
        "section": row.section,
        "row": row.number,
        "left": row.left.at,
        "right": row.right.at,
        "clusters": row.clusters,
        "left_edge": row.left.kind,
        "right_edge": row.right.kind,
        "left_move": row.left.move,
        "right_move": row.right.move,
        "left_step": row.left.step,
        "right_step": row.right.step,
        "starts": row.starts,
        "under": row.under,
        "joined": row.joined,
        "colour": row.colour,
        "turning_chain": rule.turning if row.solid else turning_chain(piece.recipe, start, together(piece, row)),
        **(kind if piece.mixed else {}),
        "stitches": {rule.name: counts.dc, "ch": counts.ch, "sl_st": counts.sl_st, "tch": counts.tch},
    }


def _fit(fit: Fit) -> dict[str, Any]:
    return {
        "measure": fit.measure,
        "wanted_cm": _cm(fit.wanted),
        "worked_cm": _cm(fit.worked),
        "off_cm": _cm(fit.off),
    }


def _farthest(piece: PiecePlan) -> dict[str, Any] | None:
    far = piece.farthest
    return None if far is None else {"edge": far.side, "row": far.row, "distance_cm": _cm(far.distance)}


def _cm(length: Fraction) -> float:
    """A length to a hundredth of a micrometre, far below any stitch, without binary tails."""
    return round(float(length), 6) + 0.0
