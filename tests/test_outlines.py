"""Outlines as wanted: points of width 0, steps at an end, triangles, and steps outwards at both edges.

Expected values are worked by hand from the rules of the lattice, DEVELOPERS.md (no published source), unless said.
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


# ------------------------------------------------------------------------------- rows alike or alternate, as it fits


def measured(piece: PiecePlan) -> dict[str, float]:
    return {fit.measure: round(float(fit.worked), 2) for fit in piece.fit}


TRIANGLE = Piece("triangle", outline=points((0, 1.25), (35, 80)))


def test_a_steep_triangle_takes_the_rows_that_come_near_it() -> None:
    """126 half pitches in 37 or 38 rows: mirrored rows grow by 2 each and begin 30 half pitches wide, where rows alike
    step out."""
    triangle = planned(TRIANGLE, "8", "10.7", Fabric(2, 0))
    assert triangle.row_plan == "alike"
    assert (measured(triangle)["width in row 1"], measured(triangle)["width at 35 cm"]) == (4.38, 78.75)
    asked = planned(Piece("t", outline=TRIANGLE.outline, row_plan="alternate"), "8", "10.7", Fabric(2, 0))
    assert (asked.row_plan, measured(asked)["width in row 1"]) == ("alternate", 18.75)


def test_a_triangle_that_rows_in_turn_meet_stays_mirrored() -> None:
    # half a pitch at each edge in every row, from one cluster: a kerchief that grows by a cluster a row
    triangle = planned(Piece("t", outline=points((0, 2.5), (30, 62.5))))
    assert triangle.row_plan == "alternate"
    assert [row.clusters for row in triangle.rows] == list(range(1, 25))
    assert all(left == -row and right == row + 4 for row, (left, right) in enumerate(lines(triangle)))
    assert (triangle.leftmost, triangle.rightmost) == (-23, 27)


@pytest.mark.quick(0)
@pytest.mark.parametrize("piece", [
    Piece("t", outline=points((0, 48), (30, 0))),
    Piece("t", outline=points((0, 30), (30, 0)), align="left"),
    Piece("t", left_outline=points((0, 12), (30, 2)), right_outline=points((0, 14), (30, -2))),
])  # fmt: skip
def test_a_point_of_no_width_is_one_cluster(piece: Piece) -> None:
    assert planned(piece).rows[-1].clusters == 1


def test_plain_panels_stay_alike_however_far_they_miss() -> None:
    # 21.2 cm is 8.48 pitches: 8 alike are 20 cm and half a pitch over, 16 or 18 half pitches in turn are 20 or 22.5 cm
    assert planned(Piece("p", width=Fraction("21.2"), length=Fraction(30))).row_plan == "alike"


@pytest.mark.quick(0)
def test_a_piece_shaped_at_one_edge_takes_rows_in_turn_where_rows_alike_miss() -> None:
    """Of 300 such pieces none planned by itself is farther off than the plan it did not take."""
    for seed in range(40):
        outline = points((0, 15 + seed), (20, 15 + (7 * seed) % 40), (24, 30 + (3 * seed) % 17))
        chosen, alike, alternate = (
            planned(Piece("p", outline=outline, align="left", row_plan=plan))  # type: ignore[arg-type]
            for plan in ("auto", "alike", "alternate")
        )
        distance = {plan.row_plan: plan.farthest.distance for plan in (alike, alternate) if plan.farthest}
        if distance["alike"] <= Fraction("1.25"):
            assert chosen.rows == alike.rows
        else:
            assert chosen.rows in (alike.rows, alternate.rows)


# ------------------------------------------------------------------------------------- steps outwards at both edges


@pytest.mark.parametrize("wide", [30, 35, 50])
@pytest.mark.parametrize("first", [20, 21.25])
def test_a_step_outwards_at_both_edges_is_two_rows(wide: float, first: float) -> None:
    """Both edges go out by the whole step, one where row r starts, the other where row r + 1 does: no stairs. 16 rows
    lie below the step (17 at 21.25 cm); odd rows start at the right."""
    rows, out = int(first / 1.25), round((wide - 20) / 1.25 / 4) * 2
    piece = planned(Piece("t", outline=points((0, 20), (first, 20), (first, 20 + 2.5 * out), (35, 20 + 2.5 * out))))
    steps = {(row.number, side, row.edge(side).move, row.edge(side).step)
             for row in piece.rows for side in ("left", "right") if row.edge(side).move != "straight"}  # fmt: skip
    sides = ("right", "left") if rows % 2 == 0 else ("left", "right")
    assert steps == {(rows + 1, sides[0], "step_out", out), (rows + 2, sides[1], "step_out", out)}


def test_a_step_that_comes_a_row_later_is_told_as_that() -> None:
    piece = planned(Piece("t", outline=points((0, 20), (20, 20), (20, 50), (35, 50))))
    assert piece.warnings == (
        "a step outwards can only be made where a row starts: at the left edge it comes a row later, in row 18",
    )


def test_a_cross_has_arms_of_one_height() -> None:
    """36 rows, arms of 12: one edge goes out in row 13 and the other in row 14, both come in in row 25."""
    piece = planned(Piece("c", outline=points((0, 20), (15, 20), (15, 50), (30, 50), (30, 20), (45, 20))))
    assert piece.row_count == 36
    moves = {(row.number, side): row.edge(side).step
             for row in piece.rows for side in ("left", "right") if row.edge(side).move != "straight"}  # fmt: skip
    assert moves == {(13, "right"): 12, (14, "left"): 12, (25, "left"): 12, (25, "right"): 12}


@pytest.mark.parametrize("align", ["left", "right"])
@pytest.mark.parametrize(("inwards", "outwards", "rows"), [(12, 24, 36), (13, 24, 37), (12, 25, 37), (13, 25, 38)])
def test_a_notch_is_one_step_in_and_one_step_out(align: str, inwards: int, outwards: int, rows: int) -> None:
    """The step in comes in the row after ``inwards``, at whichever end of it; the step out in the row after
    ``outwards``, or a row later where that does not start at this edge: odd rows start at the right."""
    low, high, whole = (Fraction("1.25") * row for row in (inwards, outwards, rows))
    outline = ((Fraction(0), Fraction(40)), (low, Fraction(40)), (low, Fraction(20)), (high, Fraction(20)),
               (high, Fraction(40)), (whole, Fraction(40)))  # fmt: skip
    piece = planned(Piece("n", outline=outline, align=align))  # type: ignore[arg-type]
    side = "right" if align == "left" else "left"
    starts = outwards + 1 if (outwards + 1) % 2 == (side == "right") else outwards + 2
    moves = [(row.number, row.edge(side).step) for row in piece.rows if row.edge(side).move != "straight"]  # type: ignore[arg-type]
    assert (moves, piece.row_count) == ([(inwards + 1, 16), (starts, 16)], rows)


def test_a_step_inwards_at_a_rows_end_is_weighed_like_one_at_its_start() -> None:
    for align in ("left", "right"):
        piece = planned(Piece("t", outline=points((0, 50), (20, 50), (20, 30), (35, 30)), align=align))  # type: ignore[arg-type]
        side = "right" if align == "left" else "left"
        moves = [(row.number, row.edge(side).step) for row in piece.rows if row.edge(side).move != "straight"]  # type: ignore[arg-type]
        assert moves == [(17, 16)]


# ------------------------------------------------------------------------------------------------- what is measured


def width_at(piece: PiecePlan, rows: Fraction) -> float:
    """The width in cm so many rows up, straight from one row's end to the next."""
    wide = [right - left for left, right in lines(piece)]
    low = int(rows)
    return float((wide[low - 1] + (wide[low] - wide[low - 1]) * (rows - low)) * Fraction(5, 4))


def test_a_width_between_two_rows_lies_on_the_slope() -> None:
    """26.25 cm are 21 rows; a point 13.125 cm up is half of the way from row 10 to row 11."""
    piece = planned(Piece("p", outline=points((0, 20), (13.125, 33), (26.25, 46))))
    assert len(piece.rows) == 21
    assert lines(piece)[9] != lines(piece)[10]
    assert measured(piece)["width at 13.12 cm"] == round(width_at(piece, Fraction(21, 2)), 2)


def test_a_width_at_a_step_is_that_of_the_last_row_below_it() -> None:
    piece = planned(Piece("p", outline=points((0, 40), (13.125, 40), (13.125, 20), (26.25, 20))))
    assert measured(piece)["width at 13.12 cm"] == width_at(piece, Fraction(10))
    assert width_at(piece, Fraction(10)) != width_at(piece, Fraction(21, 2))


def test_a_width_beside_a_step_is_that_of_a_row() -> None:
    """20.5 cm are 16.4 rows; the line goes in by 15 cm at either side in the row above, and no row is as wide as a
    place half way along a step: it is told as in row 16, which lies nearer."""
    piece = planned(Piece("p", outline=points((0, 40), (20.5, 40), (21.25, 10), (26.25, 10))))
    assert measured(piece)["width at 20.5 cm"] == width_at(piece, Fraction(16))
    assert width_at(piece, Fraction(17)) < 12
