"""Pieces that meet have the same rows, where they are wanted as high as each other.

Oracle: each piece planned by itself. No published values.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from test_neck_measures import inwards, mirrors
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Neck, NeckShape, Pattern, Piece, Progress, Seam, Swatch
from turnchain.planning import agreeing
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace

SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))  # half a pitch 1.25 cm, a row too
FRONT = Piece("front", "sideways", width=Fraction(48), length=Fraction(52), neck=Neck(Fraction("12.5"), Fraction(8)))
BACK = Piece("back", "sideways", width=Fraction(48), length=Fraction(52))


def planned(*pieces: Piece, seams: tuple[Seam, ...] = (), progress: tuple[Progress, ...] = ()) -> Plan:
    return plan_pattern(Pattern("Test", (SWATCH,), pieces, seams=seams, progress=progress))


def rows(plan: Plan) -> list[int]:
    return [piece.row_count for piece in plan.pieces]


def test_by_themselves_the_two_differ() -> None:
    # 48 cm is 38.4 rows: 38 are nearest, and a neck that reads alike from both shoulders needs an odd number
    assert rows(planned(FRONT)) == [39]
    assert rows(planned(BACK)) == [38]


@pytest.mark.parametrize("seams", [
    (Seam(("front.lower", "back.lower")),),
    (Seam(("back.upper", "front.shoulder")),),
    (),
])  # fmt: skip
def test_pieces_that_meet_have_the_same_rows(seams: tuple[Seam, ...]) -> None:
    assert rows(planned(FRONT, BACK, seams=seams)) == [39, 39]
    assert rows(planned(BACK, FRONT, seams=seams)) == [39, 39]


def test_pieces_that_face_one_another_have_the_same_rows_whatever_is_sewn() -> None:
    facing = replace(BACK, faces="front")
    other = Piece("pouch", width=Fraction(20), length=Fraction(20), count=2)
    assert rows(planned(FRONT, facing, other, seams=(Seam(("pouch.left", "pouch.right")),)))[:2] == [39, 39]


def test_a_straight_piece_follows_a_shaped_one_to_rows_that_it_would_not_choose_itself() -> None:
    """31 cm are 24.8 rows: of the numbers that a neck reads alike in from both shoulders the front has the best."""
    front = replace(FRONT, width=Fraction(31), length=Fraction(31), neck=Neck(Fraction(12), Fraction(7), "vee"))
    back = replace(BACK, width=Fraction(31), length=Fraction(31))
    assert rows(planned(front)) == [23]
    assert rows(planned(back)) == [25]
    assert rows(planned(front, back)) == [23, 23]


def test_a_third_piece_is_drawn_in_by_the_second() -> None:
    seams = (Seam(("front.lower", "back.lower")), Seam(("back.upper", "yoke.left")))
    yoke = Piece("yoke", width=Fraction(10), length=Fraction(48))
    assert rows(planned(FRONT, BACK, yoke, seams=seams)) == [39, 39, 39]


@pytest.mark.parametrize("seam", [("front.first", "back.last"), ("front.lower", "back.first")])
def test_seams_across_the_rows_ask_for_no_rows(seam: tuple[str, str]) -> None:
    assert rows(planned(FRONT, BACK, seams=(Seam(seam),))) == [39, 38]


def test_pieces_of_other_heights_keep_their_rows() -> None:
    back = replace(BACK, width=Fraction(51))
    assert rows(planned(FRONT, replace(back, faces="front"))) == [*rows(planned(FRONT)), *rows(planned(back))]


def test_what_a_maker_has_chosen_stays_and_draws_nobody() -> None:
    back = replace(BACK, faces="front", exact_rows=37)
    assert rows(planned(FRONT, back)) == [39, 37]


def test_a_piece_not_begun_follows_the_one_that_is() -> None:
    begun = Progress("front", 10, Fraction("12.5"))
    assert rows(planned(FRONT, replace(BACK, faces="front"), progress=(begun,))) == [39, 39]


def test_a_piece_that_meets_one_begun_is_offered_no_other_rows() -> None:
    # chosen, they would part the two, and the worked rows would be those of another plan
    back, other = replace(FRONT, name="back"), replace(FRONT, name="other", length=Fraction(60))
    begun = Progress("front", 10, Fraction("12.5"))
    assert planned(FRONT, back).pieces[1].alternatives
    assert not planned(FRONT, back, progress=(begun,)).pieces[1].alternatives
    assert planned(FRONT, other, progress=(begun,)).pieces[1].alternatives


def test_the_worked_rows_of_a_piece_are_those_of_the_plan_it_was_begun_by() -> None:
    """By itself the sleeve has 38 rows, with the neck it meets 39: what is worked was worked by the 39."""
    outline = ((Fraction(0), Fraction(20)), (Fraction(48), Fraction(45)))
    sleeve = Piece("sleeve", outline=outline)
    seams = (Seam(("front.lower", "sleeve.left")),)
    before = planned(FRONT, sleeve, seams=seams).piece("sleeve")
    assert (before.row_count, planned(sleeve).piece("sleeve").row_count) == (39, 38)
    after = planned(FRONT, sleeve, seams=seams, progress=(Progress("sleeve", 35, 35 * Fraction("1.25")),))
    edges = [[(row.left.at, row.right.at) for row in piece.rows[:35]] for piece in (before, after.piece("sleeve"))]
    assert edges[0] == edges[1]


def misses(piece: PiecePlan) -> int:
    """How many measures of a neck are off by more than half a row along the work, half a pitch across it."""
    most = {"shoulder": Fraction("0.625"), "neck width": Fraction("0.625"), "neck depth": Fraction("1.25")}
    return sum(abs(fit.off) > most[fit.measure] for fit in piece.fit if fit.measure in most)


@pytest.mark.quick(5)
@pytest.mark.parametrize("width", range(30, 50, 3))
@pytest.mark.parametrize("shape", ["slant", "round", "square"])
def test_the_neck_is_none_the_worse_for_it(width: int, shape: str) -> None:
    """The two agree, no farther from their width than a number that mirrors the neck must be, and the neck's measures
    come as near as in the front by itself."""
    wide = Fraction(width)
    neck = Neck(wide / 4, Fraction(6), shape)  # type: ignore[arg-type]
    front, back = replace(FRONT, width=wide, neck=neck), replace(BACK, width=wide)
    agreed = planned(front, replace(back, faces="front"))
    assert len(set(rows(agreed))) == 1
    assert misses(agreed.piece("front")) <= misses(planned(front).piece("front"))
    assert abs(agreed.piece("back").height - wide) < Fraction("2.5")


@cache
def facing(width: int, shape: NeckShape) -> Plan:
    """A front with a neck that needs no odd number of rows, and a back without one that faces it."""
    front = front_of(width, shape)
    return planned(front, replace(front, name="back", neck=None, faces="front"))


def front_of(width: int, shape: NeckShape) -> Piece:
    """Shoulders of 12 rows: row 13 starts at the neck, and so does the row that steps back to the other shoulder."""
    neck = Neck(Fraction(15), Fraction(9), shape)
    return replace(FRONT, width=Fraction(width), length=Fraction(56), neck=neck)


WIDTHS = (40, 43, 46, 49, 52, 55)


@pytest.mark.quick(1)
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("shape", ["round", "square"])
def test_a_neck_of_steps_keeps_its_mirror_beside_a_back_without_one(width: int, shape: NeckShape) -> None:
    plan = facing(width, shape)
    assert len(set(rows(plan))) == 1
    assert rows(plan)[0] % 2 == 0
    front = plan.piece("front")
    assert mirrors(inwards(front))
    assert misses(front) <= misses(planned(front_of(width, shape)).piece("front"))


@pytest.mark.parametrize(
    ("back", "half", "sewn"),
    [(True, True, True), (True, False, False), (False, True, False), (False, False, True)],
)
def test_sides_below_armholes_are_of_one_height_and_half_a_front_goes_with_its_back(
    back: bool, half: bool, sewn: bool
) -> None:
    """Where one has an armhole and the other none, their sides are not as high."""
    armhole = "armhole = { depth = 20, width = 5 }\n"
    text = (
        'title = "Sides"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n'
        f'[[piece]]\nname = "back"\nwidth = 50\nlength = 52\n{armhole * back}'
        '[[piece]]\nname = "left front"\nwidth = 50\nlength = 52\nfront = { side = "left" }\n'
        f"neck = {{ shoulder = 10, depth = 12 }}\n{armhole * half}"
    )
    one, other = read_text(text, "sides.toml").pieces
    assert agreeing._sewn(one, other) is agreeing._sewn(other, one) is sewn
