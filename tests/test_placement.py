"""Pieces laid out as worn: where a place of a piece comes to lie, in which order and how far apart pieces lie.

A quarter of a turn against the clock is a product with i, of a place taken as a complex number; sums by hand.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from turnchain.drawing.placement import Placed, Scale, alone, laid_out, lies_on_its_side, upright
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text

HEAD = 'title = "Laid"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'
SCALE = Scale(10.0, 7.0)
GROWING = "outline = [[0, 10], [20, 30]]"  # its leftmost place lies left of position 0
SHRINKING = "outline = [[0, 30], [20, 10]]"


@cache
def planned(*pieces: tuple[str, str, int]) -> Plan:
    """Pieces by name, shape and how many are made."""
    text = "".join(f'[[piece]]\nname = "{name}"\ncount = {count}\n{shape}\n' for name, shape, count in pieces)
    return plan_pattern(read_text(HEAD + text, "laid.toml"))


def one(shape: str) -> PiecePlan:
    return planned(("piece", shape, 1)).pieces[0]


@pytest.mark.parametrize("quarters", range(4))
def test_a_place_turns_with_its_piece_and_its_box_keeps_its_corner(quarters: int) -> None:
    piece = one(GROWING)
    assert piece.leftmost < 0
    placed = Placed(piece, quarters, SCALE, 100.0, 50.0)
    places = [(at, up) for at in range(piece.leftmost, piece.rightmost + 1) for up in range(piece.row_count + 1)]
    turned = {place: complex(place[0] * 10, place[1] * 7) * 1j**quarters for place in places}
    left, low = (min(part(z) for z in turned.values()) for part in (lambda z: z.real, lambda z: z.imag))
    for place, z in turned.items():
        assert placed.at(*place) == pytest.approx((100 + z.real - left, 50 + z.imag - low))
    right, high = (max(part(z) for z in turned.values()) for part in (lambda z: z.real, lambda z: z.imag))
    assert placed.size == pytest.approx((right - left, high - low))


NECK = 'worked = "sideways"\nwidth = 40\nlength = 40\nneck = { shoulder = 12, depth = 5 }\nneck_edge = '


@pytest.mark.parametrize(("shape", "turns"), [
    ("width = 20\nlength = 20", 0), (f'{NECK}"left"', 3), (f'{NECK}"right"', 1),
])  # fmt: skip
def test_a_panel_worked_sideways_lies_with_its_upper_edge_up(shape: str, turns: int) -> None:
    piece = one(shape)
    assert upright(piece) == turns
    (placed,) = alone(piece, SCALE)
    assert (placed.x, placed.y + placed.size[1], placed.copy, placed.quarters) == (0, 0, 0, turns)
    upper = {"left": piece.leftmost, "right": piece.rightmost, None: None}[piece.top]
    if upper is not None:
        assert placed.at(upper, piece.row_count / 2)[1] == pytest.approx(0)
    assert lies_on_its_side(planned(("piece", shape, 1)), piece) == bool(turns)


PANEL = "width = 20\nlength = 20"
SLEEVES = ("sleeve", 'align = "left"\n' + GROWING, 3)


def test_sleeves_lie_on_both_sides_of_the_first_body_piece_and_every_copy_is_there() -> None:
    plan = planned(SLEEVES, ("front", PANEL, 2), ("back", PANEL, 1))
    laid = laid_out(plan, SCALE)
    assert [(piece.piece.name, piece.copy) for piece in laid] == [
        ("sleeve", 0), ("front", 0), ("front", 1), ("sleeve", 1), ("sleeve", 2), ("back", 0)
    ]
    assert laid[0].x == 0
    for placed, following in pairwise(laid):
        assert following.x - placed.x - placed.size[0] == pytest.approx(26), "2.6 half pitches"
    assert all(placed.y + placed.size[1] == 0 for placed in laid), "their tops in one line"
    assert [lies_on_its_side(plan, piece) for piece in plan.pieces] == [True, False, False]


@pytest.mark.parametrize(("rows", "apart"), [(0, 26), (1, 26), (1.4, 26), (2, 34), (3, 48)])
def test_pieces_with_edgings_around_lie_as_far_apart_as_these_need(rows: float, apart: float) -> None:
    """Two edgings of 7 px a row and 6 px between, where that is more than 26 px."""
    one, other = laid_out(planned(("front", PANEL, 1), ("back", PANEL, 1)), SCALE, rows)
    assert other.x - one.x - one.size[0] == pytest.approx(apart)


@pytest.mark.parametrize("shape", [
    GROWING, SHRINKING, f'align = "left"\n{GROWING}', f'align = "left"\n{SHRINKING}', f'align = "right"\n{SHRINKING}',
    f'align = "right"\n{GROWING}', PANEL, "outline = [[0, 30], [1.25, 30], [1.25, 10], [20, 20]]",
    "outline = [[0, 20], [20, 10], [20, 30], [21.25, 30]]",
])  # fmt: skip
def test_the_wide_end_of_a_sleeve_lies_towards_the_body(shape: str) -> None:
    laid = laid_out(planned(("sleeve", shape, 2), ("body", PANEL, 1)), SCALE)
    left, _, right = laid
    for sleeve, sign in ((left, 1), (right, -1)):
        piece, ends = sleeve.piece, {}
        for row in (piece.rows[0], piece.rows[-1]):
            middle = sleeve.at((row.left.at + row.right.at) / 2, row.number if row.number > 1 else 0)
            ends[row.number] = (row.right.at - row.left.at, sign * middle[0])
        if shape == PANEL:
            assert max(ends.values(), key=lambda end: end[1]) == ends[1], "as wide at both: the first row"
        else:
            assert max(ends.values()) == max(ends.values(), key=lambda end: end[1]), "the nearer is the wider"


def test_sleeves_by_themselves_are_laid_as_they_are_worn() -> None:
    laid = laid_out(planned(("sleeve", GROWING, 2)), SCALE)
    assert [(placed.quarters, placed.copy) for placed in laid] == [(0, 0), (0, 1)]
    sideways = planned(("Sleeve", f'{NECK}"left"', 1), ("body", PANEL, 1))
    assert [placed.piece.name for placed in laid_out(sideways, SCALE)] == ["Sleeve", "body"], "worked sideways: a body"
    capital = planned(("Left SLEEVE", GROWING, 1), ("body", PANEL, 1))
    assert [placed.quarters % 2 for placed in laid_out(capital, SCALE)] == [1, 0]
