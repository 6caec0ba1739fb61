"""Rows that shape an edge where the kind of the edge below asks for another move.

In: a worked piece. Out: their numbers, by the part of the piece, the side, and whether the row has less or more.
"""

from __future__ import annotations

from collections import defaultdict

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.hook.stitches import WorkedRow


def irregular_rows(cloth: WorkedCloth) -> dict[tuple[str, str, str], tuple[int, ...]]:
    """The rows in which an edge goes in by half a cluster over an edge with a gap, or out over one without: by the part
    of the piece, side, and less or more."""
    found: dict[tuple[str, str, str], list[int]] = defaultdict(list)
    part: str = "body"
    below: dict[int, WorkedRow] = {}
    divides = len(cloth.parts[0]) + 1 if len(cloth.parts) > 1 else 0
    for row in cloth.rows:
        if row.number == divides:
            part = "first" if part == "body" else "second"
        under = below.get(row.number - 1)
        for side in ("left", "right"):
            edge, old = getattr(row, side), under and getattr(under, side)
            begins = row.number == divides and _inner(cloth, row, side)
            if old and not begins and edge.at != old.at and abs(edge.inwards) == 1 and edge.kind == old.kind:
                less = edge.inwards == 1
                if old.kind != "bare" and less == (old.kind == "spaced"):
                    found[part, side, "less" if less else "more"].append(row.number)
        below[row.number] = row
    return {place: tuple(rows) for place, rows in found.items()}


def _inner(cloth: WorkedCloth, row: WorkedRow, side: str) -> bool:
    left, right = cloth.parts[1][0], cloth.parts[2][0]
    return (row is left and side == "right") or (row is right and side == "left")
