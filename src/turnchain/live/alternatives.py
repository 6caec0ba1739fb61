"""Other plans that came close, as pictures: what each would look like, before it is chosen.

In: a plan and one of its pieces. Out: for each alternative its measures, the edits that choose it, its outline and the
bands of its rows.
"""

from __future__ import annotations

from typing import Any, TypeAlias

from turnchain.errors import PatternError
from turnchain.fabric.plan import Alternative, Plan
from turnchain.live import facts
from turnchain.pattern import Piece
from turnchain.planning.kept import KeptPieces
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace

Json: TypeAlias = Any


def pictured(plan: Plan, number: int, searched: KeptPieces) -> list[dict[str, Json]]:
    """The alternatives of piece ``number`` (from 0) as ``facts.alternative`` has them, each with its "outline" and
    "bands" (each row's corners in cm and its yarn); one that cannot be planned in these stripes is left out."""
    made = []
    for other in plan.pieces[number].alternatives:
        pieces = list(plan.pattern.pieces)
        pieces[number] = _chosen(pieces[number], other)
        try:
            planned = plan_pattern(replace(plan.pattern, pieces=tuple(pieces), progress=()), kept=searched)
        except PatternError:
            continue
        said = facts.alternative(other, plan.pattern.units, facts.in_file(plan, number))
        made.append({**said, **picture(planned, number)})
    return made


def picture(plan: Plan, number: int) -> dict[str, Json]:
    """The "outline" of piece ``number`` as worn, in cm, and the "bands" of its rows: corners in cm and the yarn."""
    piece = plan.pieces[number]
    bands = [facts.row_json(piece, row) for row in piece.rows]
    return {
        "outline": facts.outline(piece),
        "bands": [{"band": band["band"], "yarn": band["yarn"]} for band in bands],
    }


def _chosen(piece: Piece, other: Alternative) -> Piece:
    """``piece`` with the keys that choose ``other``."""
    return replace(piece, **dict(other.keys))  # type: ignore[arg-type]
