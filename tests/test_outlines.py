"""Outlines as wanted: points of width 0, steps at an end, triangles, and steps outwards at both edges.

Expected values are worked by hand from the fabric model of this project (no published source), unless said.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from test_reading import OUTLINE, edges, problems, swapped
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern

Points = tuple[tuple[Fraction, Fraction], ...]


def points(*pairs: tuple[float, float]) -> Points:
    return tuple((Fraction(str(height)), Fraction(str(width))) for height, width in pairs)


def planned(piece: Piece, clusters: str = "4", rows: str = "8", fabric: Fabric = Fabric()) -> PiecePlan:  # noqa: B008
    """``piece`` at ``clusters`` and ``rows`` to 10 cm; half a pitch is 1.25 cm and a row too if nothing is said."""
    swatch = Swatch(Fraction(clusters), Fraction(10), Fraction(rows), Fraction(10))
    return plan_pattern(Pattern("Test", (swatch,), (piece,), fabric=fabric)).pieces[0]


def lines(piece: PiecePlan) -> list[tuple[int, int]]:
    return [(row.left.at, row.right.at) for row in piece.rows]


# ------------------------------------------------------------------------------------------------- what is read

STEP_AT_TOP = "a step at the last height; no row comes after it (make the piece higher, or leave the point out)"
STEP_AT_FOOT = "a step at height 0; no row comes before it (leave point 1 out)"


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        ("outline = [[0, 40], [30, 40], [40, 43], [40, 71]]", f"outline, point 4: {STEP_AT_TOP}"),
        ("outline = [[0, 40], [0, 30], [40, 43]]", f"outline, point 2: {STEP_AT_FOOT}"),
        (edges("[[0, 18], [30, 12], [30, 9]]", "[[0, 18], [30, 0]]"), f"left_outline, point 3: {STEP_AT_TOP}"),
        ("outline = [[0, 0], [30, 0]]", "outline: 0 cm is 0 clusters at the swatch's gauge; must be 1 to 2000 clusters "
         "(look at the size, the swatch and the unit)"),
        ("outline = [[0, 20], [30, 0]]\nneck = { shoulder = 3, depth = 4 }", "neck, shoulder: two shoulders of 3 cm; "
         "must leave room for a neck within the width of 0 cm at the top"),
    ],
)  # fmt: skip
def test_outlines_that_cannot_be_planned_as_given(piece: str, said: str) -> None:
    assert problems(swapped(OUTLINE, piece)) == [f'piece "sleeve", {said}']


@pytest.mark.parametrize("piece", ["outline = [[0, 0], [30, 48]]", edges("[[0, 18], [30, 6]]", "[[0, 18], [30, -6]]")])
def test_a_point_may_have_no_width(piece: str) -> None:
    assert problems(swapped(OUTLINE, piece)) == []
