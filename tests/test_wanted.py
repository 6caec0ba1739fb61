"""What is wanted of a piece and what its edges come to, part by part: curves, upper edges with parts, armholes, necks
that divide a piece, measures, and what a maker is warned of.

Oracles: straight lines and half ellipses reckoned anew, lines drawn by hand on squared paper, and invariants: a piece
turned over wants the other edge, one twice as large with a swatch twice as large wants the same half pitches. No
published values.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest

from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.lattice import Side
from turnchain.pattern import (
    FRONT_EDGE,
    Armhole,
    Fabric,
    FrontOpening,
    Neck,
    OutlineStretch,
    Pattern,
    Piece,
    SleeveCap,
    Swatch,
    UpperEdge,
)
from turnchain.planning import armed, armholes, measuring, sideways_necks, splits, upper_edges, warnings
from turnchain.planning.budget import SearchBudget
from turnchain.planning.curves import Curve, neck_depths, neck_opening
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, Key, unpacked
from turnchain.planning.necks import WorkedNeck, on_ellipse
from turnchain.planning.pieces import choice_of, job_of
from turnchain.planning.profiles import Profile, profile
from turnchain.planning.splits import Body, Split, neck_of_split
from turnchain.planning.targets import Target, target_of, top_side
from turnchain.planning.upper_edges import Arm, WorkedParts, _Heights
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace

F = Fraction
SWATCH = Swatch(F(4), F(10), F(8), F(10))  # half a pitch is 1.25 cm, a row too
GAUGE = gauge_of((SWATCH,))
OTHER = gauge_of((Swatch(F(5), F(10), F(8), F(10)),))  # half a pitch is 1 cm, a row 1.25


def stand_in(**values: object) -> Any:
    return SimpleNamespace(**values)


def told(*values: object) -> Any:
    """To be compared with whole numbers."""
    return values


def line(*points: tuple[float, float]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((F(str(y)), F(str(x))) for y, x in points)


def wanted(piece: Piece, fabric: Fabric = Fabric()) -> Job:  # noqa: B008 - frozen
    return job_of(piece, Pattern("Test", (SWATCH,), (piece,), fabric), GAUGE, SearchBudget())


# --------------------------------------------------------------------------------------------------------------- curves

STEPPED = Curve(line((0, 4), (2, 4), (4, 8), (4, 10), (7, 10), (7, 1), (9, 1), (9, 1), (10, 3)))


@pytest.mark.parametrize(
    ("height", "at", "after"),
    [(-1, 4, 4), (0, 4, 4), (1, 4, 4), (2, 4, 4), (3, 6, 6), ("3.5", 7, 7), (4, 8, 10), (5, 10, 10), (7, 10, 1),
     (8, 1, 1), (9, 1, 1), ("9.5", 2, 2), (10, 3, 3), (11, 3, 3)],
)  # fmt: skip
def test_a_curve_at_every_height(height: object, at: int, after: int) -> None:
    assert STEPPED.at(F(str(height))) == at
    assert STEPPED.after(F(str(height))) == after


def test_a_curve_is_read_in_one_go_as_height_by_height() -> None:
    for curve in (STEPPED, Curve(STEPPED.points[1:]), Curve(line((0, 5), (3, 5))), Curve(line((0, 1), (7, "2.5")))):  # type: ignore[arg-type]
        heights = [F(nth, 7) for nth in range(-3, 80)]
        assert curve.sampled(heights) == [curve.at(height) for height in heights]
        for row, part in ((F(1, 7), F(1)), (F(3, 11), F(2, 3)), (F(1, 2), F(1, 1000))):
            tops = [curve.at(nth * row) / part for nth in range(-3, 80)]
            assert curve.in_parts(range(-3, 80), row, part) == list(map(round, tops))  # by the standard library
    moved = STEPPED.scaled(F(-3, 2), F(5))
    assert [moved.at(F(nth, 3)) for nth in range(31)] == [5 - F(3, 2) * STEPPED.at(F(nth, 3)) for nth in range(31)]
    assert STEPPED.scaled(F(2)).at(F(3)) == 12


@pytest.mark.parametrize(
    ("points", "straight", "alike", "out"),
    [
        (line((0, 4), (10, 4)), True, True, 0),
        (line((0, 4), (3, 4), (3, 4), (10, 4)), True, True, 0),
        (line((0, 4), (3, 4), (3, 6), (7, 6), (7, 4), (10, 4)), False, True, 1),
        (line((0, 4), (3, 4), (3, 2), (7, 2), (7, 4), (10, 4)), False, True, 1),
        (line((0, 4), (3, 4), (3, 2), (8, 2), (8, 4), (10, 4)), False, False, 1),
        (line((0, 4), (5, 8), (10, 4)), False, True, 0),
        (line((0, 4), (5, 8), (10, 5)), False, False, 0),
        (line((0, 4), (2, 4), (2, 5), (6, 5), (6, 7), (10, 7)), False, False, 2),
        (line((0, 4), (10, 6)), False, False, 0),
    ],
)
def test_what_a_curve_looks_like(
    points: tuple[tuple[Fraction, Fraction], ...], straight: bool, alike: bool, out: int
) -> None:
    curve = Curve(points)
    assert (curve.straight, curve.symmetrical, len(curve.jumps_out), curve.jumps_outwards) == (
        straight, alike, out, out > 0,
    )  # fmt: skip
    assert curve.height == 10
    for height, reach in curve.jumps_out:
        assert curve.at(height) == reach < curve.after(height)


NECKS = [("round", 40, 11, 9, 1), ("vee", 40, 11, 9, 1), ("square", 40, 11, 9, 1), ("slant", 40, 11, 6, 1),
         ("slant", 40, 11, 9, 1), ("slant", 40, 11, 9, "0.5"), ("slant", 40, 11, 9, 2)]  # fmt: skip


def depth_by_hand(shape: str, half: float, depth: float, slope: float, out: float) -> float:
    """How deep a neck is ``out`` cm from its middle."""
    if out >= half:
        return 0
    if shape == "round":
        return depth * (1 - (out / half) ** 2) ** 0.5  # type: ignore[no-any-return]
    if shape == "vee":
        return depth * (1 - out / half)
    return min(depth, (half - out) * slope) if shape == "slant" else depth


@pytest.mark.parametrize(("shape", "width", "shoulder", "depth", "slope"), NECKS)
def test_a_neck_across_a_body_is_as_deep_as_by_hand(
    shape: str, width: int, shoulder: int, depth: int, slope: object
) -> None:
    steep = F(str(slope))
    curve = neck_depths(shape, F(width), F(shoulder), F(depth), steep)
    assert told(curve.points[0], curve.points[-1]) == ((0, 0), (width, 0))
    assert curve.symmetrical
    assert all(one != other for one, other in pairwise(curve.points))
    half = width / 2 - shoulder
    for tenth in range(1, 400):
        out = abs(tenth / 10 - width / 2)
        if out != half:
            by_hand = depth_by_hand(shape, half, depth, float(steep), out)
            assert float(curve.at(F(tenth, 10))) == pytest.approx(by_hand, abs=0.03 * depth), tenth
    assert curve.at(F(width, 2)) == pytest.approx(depth_by_hand(shape, half, depth, float(steep), 0))


@pytest.mark.parametrize(("shape", "width", "shoulder", "depth", "slope"), NECKS)
def test_a_neck_from_its_bottom_up_is_as_wide_as_by_hand(
    shape: str, width: int, shoulder: int, depth: int, slope: object
) -> None:
    """The same neck the other way: its half at a height is where its depth from the top is just that. Here ``slope`` is
    of cm across for one up."""
    half, steep, high = F(width, 2) - shoulder, F(str(slope)), F(50)
    curve = neck_opening(shape, high, 2 * half, F(depth), steep)
    assert curve.points[-1] == (high, half)
    reach = min(F(depth), half / steep) if shape == "slant" else F(depth)
    assert curve.points[0][0] == high - reach
    for tenth in range(1, 10):
        down = reach * tenth / 10
        there = float(curve.at(high - down))
        if shape == "square":
            assert there == half
        elif shape == "slant":
            assert there == float(half - down * steep)
        else:
            by_hand = depth_by_hand(shape, float(half), float(depth), 1, there)
            assert by_hand == pytest.approx(float(down), abs=0.02 * depth)


# ----------------------------------------------------------------------------------------------- upper edges with parts

SQUARE, CURVED = Armhole(F(20), F(6)), Armhole(F(20), F(6), "curved")


def whole(
    armed: tuple[bool, bool] = (True, True), opens: Any = "", armhole: Armhole | None = SQUARE,
    neck: Neck | None = None, slope: int = 0, out_at: int = 1, overlap: int = 0, cap: SleeveCap | None = None,
    along: int = 50,
) -> Profile:  # fmt: skip
    return Profile(F(along), F(60), armed, opens, armhole, neck, F(overlap), F(slope), cap, F(1), out_at)


DEEP = Neck(F(9), F(8), "square")


@pytest.mark.parametrize(
    ("parts", "rows", "under", "points"),
    [
        (whole(), 50, (6, 6), [(0, 40), (6, 40), (6, 60), (44, 60), (44, 40), (50, 40)]),
        (whole(), 25, (4, 2), [(0, 40), (8, 40), (8, 60), (46, 60), (46, 40), (50, 40)]),
        (whole(neck=DEEP), 50, (6, 6), [(0, 40), (6, 40), (6, 60), (15, 60), (15, 52), (35, 52), (35, 60), (44, 60),
                                        (44, 40), (50, 40)]),
        (whole(neck=DEEP, slope=3), 50, (6, 6), [(0, 37), (6, 37), (6, 57), (15, 60), (15, 52), (35, 52), (35, 60),
                                                 (44, 57), (44, 37), (50, 37)]),
        (whole(armhole=CURVED), 50, (6, 6), [(0, 40), (4, 40), (6, 42), (6, 60), (44, 60), (44, 42), (46, 40),
                                             (50, 40)]),
        (whole(armhole=CURVED), 50, (5, 7), [(0, 40), (4, 40), (5, 41), (5, 60), (43, 60), (43, 42), (44, 42),
                                             (46, 40), (50, 40)]),
        (whole((True, False)), 50, (6, 0), [(0, 40), (6, 40), (6, 60), (50, 60)]),
        (whole((False, True), neck=DEEP), 50, (0, 6), [(0, 60), (9, 60), (9, 52), (35, 52), (35, 60), (44, 60),
                                                       (44, 40), (50, 40)]),
        (whole((False, False), armhole=None), 50, (0, 0), [(0, 60), (50, 60)]),
        # half a front 30 cm along, 2 of them beyond the middle: 22 from there to the armhole
        (whole((True, False), "last", neck=DEEP, along=30, overlap=2), 30, (6, 0),
         [(0, 40), (6, 40), (6, 60), (15, 60), (15, 52), (30, 52)]),
        (whole((False, True), "first", neck=DEEP, along=30, overlap=2), 30, (0, 6),
         [(0, 52), (15, 52), (15, 60), (24, 60), (24, 40), (30, 40)]),
        (whole((True, False), "last", along=30), 30, (6, 0), [(0, 40), (6, 40), (6, 60), (30, 60)]),
        (whole((False, True), "first", along=30), 30, (0, 6), [(0, 60), (24, 60), (24, 40), (30, 40)]),
        (whole((False, False), armhole=None, cap=SleeveCap(F(6), F(9), F(10), F(40))), 50, (0, 0),
         [(0, 60), (6, 60), (20, 69), (30, 69), (44, 60), (50, 60)]),
    ],
)  # fmt: skip
def test_the_line_of_an_upper_edge_is_as_drawn_by_hand(
    parts: Profile, rows: int, under: tuple[int, int], points: list[tuple[int, int]]
) -> None:
    found = parts.curve(rows, under)
    drawn = Curve(line(*points))
    for half in range(2 * int(parts.along) + 1):
        assert (found.at(F(half, 2)), found.after(F(half, 2))) == (drawn.at(F(half, 2)), drawn.after(F(half, 2))), half


def test_the_measures_of_an_upper_edge() -> None:
    assert told(whole().wide, whole().deep, whole().across, whole().high) == (6, 20, 38, 60)
    assert whole((True, False)).across == 44
    none = whole((False, False), armhole=None)
    assert told(none.wide, none.deep, none.across) == (0, 0, 50)
    half = whole((True, False), "last", along=30, overlap=2)
    assert half.across == 44  # of the whole front: 30 - 2 - 6, twice
    assert whole(cap=SleeveCap(F(6), F(9), F(10), F(40))).high == 69


@pytest.mark.parametrize("out_at", [0, 1])
def test_under_an_armhole_lie_so_many_rows_that_the_next_starts_at_its_edge(out_at: int) -> None:
    """All numbers of rows tried: the nearest to 6 cm; of two as near the less."""
    for eighths in range(2, 90):
        row = F(eighths, 16)
        fitting = [rows for rows in range(1, 60) if (rows + 1) % 2 == out_at]
        ahead = min(fitting, key=lambda rows: (abs(rows - 6 / row), rows))
        assert whole(out_at=out_at).arm_rows(row) == (ahead, ahead)
        assert whole((True, False), out_at=out_at).arm_rows(row) == (ahead, 0)
        assert whole((False, True), out_at=out_at).arm_rows(row) == (0, max(1, round(6 / row)))
        assert whole((False, False), armhole=None, out_at=out_at).arm_rows(row) == (0, 0)


@pytest.mark.parametrize(
    ("upper", "right_first", "armed", "opens", "overlap", "out_at"),
    [
        (UpperEdge(SQUARE), True, (True, True), "", 0, 1),
        (UpperEdge(SQUARE), False, (True, True), "", 0, 0),
        (UpperEdge(), True, (False, False), "", 0, 1),
        (UpperEdge(replace(SQUARE, edge="left")), True, (False, True), "", 0, 1),
        (UpperEdge(replace(SQUARE, edge="left")), False, (True, False), "", 0, 0),
        (UpperEdge(replace(SQUARE, edge="right")), True, (True, False), "", 0, 1),
        # half a front at the wearer's left has its middle at the left as seen, its armhole at the right
        (UpperEdge(SQUARE, FrontOpening("left", F(2))), True, (True, False), "last", 2, 1),
        (UpperEdge(SQUARE, FrontOpening("left", F(2))), False, (False, True), "first", 2, 0),
        (UpperEdge(SQUARE, FrontOpening("right", F(3))), True, (False, True), "first", 3, 1),
        (UpperEdge(SQUARE, FrontOpening("right", F(3))), False, (True, False), "last", 3, 0),
        (UpperEdge(None, FrontOpening("right")), True, (False, False), "first", 0, 1),
    ],
)  # fmt: skip
def test_parts_lie_in_the_order_of_the_rows(
    upper: UpperEdge, right_first: bool, armed: tuple[bool, bool], opens: str, overlap: int, out_at: int
) -> None:
    found = profile(replace(upper, slope=F(2)), F(50), F(60), DEEP, right_first, F(1))
    assert (found.armed, found.opens, found.overlap, found.out_at) == (armed, opens, F(overlap), out_at)
    assert told(found.along, found.length, found.slope, found.steepest) == (50, 60, 2, 1)
    assert (found.neck, found.armhole, found.cap) == (DEEP, upper.armhole, None)


#: A body: 4 rows under the arm, sloping shoulders of 3 rows with a neck of 3 between them, 3 rows under the other arm.
BODY = (0, 0, 0, 0, 16, 17, 18, 14, 14, 14, 18, 17, 16, 0, 0, 0)
#: The same without slopes, its neck leaning in and out.
LEANING = (0, 0, 2, 2, 18, 18, 17, 16, 16, 17, 18, 18, 5, 4)


@pytest.mark.parametrize(
    ("upper", "edge", "parts", "neck", "level"),
    [
        (whole(), BODY, ((4, 16), (3, 16), (5, 13)), ((3, 3), 4, 3), (18, 18, 18, 14, 14, 14, 18, 18, 18)),
        (whole(), LEANING, ((4, 18), (2, 14), (5, 12)), ((2, 1), 2, 5), (18, 18, 17, 16, 16, 17, 18, 18)),
        (whole((False, False)), (5, 5, 3, 3, 5), ((0, 0), (0, 0), (1, 5)), ((2, 1), 2, 2), (5, 5, 3, 3, 5)),
        (whole((True, False)), (0, 9, 9), ((1, 9), (0, 0), (2, 3)), None, (9, 9)),
        (whole((False, True)), (9, 9, 0), ((0, 0), (1, 9), (1, 2)), None, (9, 9)),
        (whole(), (0, 4, 8, 8, 4, 0), ((1, 8 - 4), (1, 4), (2, 5)), None, None),
        (whole((True, False), "last"), (0, 0, 9, 9, 8, 7, 7), ((2, 9), (0, 0), (3, 7)), ((2, 2), 2, 6), None),
        (whole((False, True), "first"), (7, 7, 8, 9, 9, 0, 0), ((0, 0), (2, 9), (1, 5)), ((1, 1), 2, 8), None),
    ],
)  # fmt: skip
def test_the_parts_of_an_edge_are_those_counted_by_hand(
    upper: Profile, edge: tuple[int, ...], parts: Any, neck: Any, level: Any
) -> None:
    found = upper_edges.parts_of(upper, edge)
    assert found == WorkedParts((Arm(*parts[0]), Arm(*parts[1])), parts[2])
    between = upper_edges.neck_between(upper, edge)
    assert (between and (between.shoulders, between.depth, between.width)) == neck
    assert between is None or between.sideways
    assert level is None or upper_edges.levelled(upper, edge) == level


def test_an_edge_is_as_long_as_its_rows_its_steps_and_its_leans() -> None:
    """Rows of 1.25 cm, half pitches of 1 cm: 3 level rows, 3 that lean, a step up of 3 and one down of 5."""
    of = stand_in(gauge=OTHER)
    by_hand = (3 + 2) * 1.25 + 3 * hypot(1.25, 1) + 3 + 5
    assert float(upper_edges._long(of, (5, 5, 6, 7, 10, 10, 9, 4))) == pytest.approx(by_hand, abs=1e-5)
    assert upper_edges._long(of, (5, 5)) == F(5, 2)


@pytest.mark.parametrize(
    ("heights", "opens", "first", "last"),
    [
        (_Heights(16, 2, 0, 0), "", 18, 18),
        (_Heights(16, 2, 7, 0), "first", 7, 18),
        (_Heights(16, 2, 7, 0), "last", 18, 7),
        (_Heights(cap=9), "", 9, 9),
    ],
)
def test_how_much_lower_the_ends_are_than_the_shoulders(heights: _Heights, opens: str, first: int, last: int) -> None:
    armed = (opens != "first" and heights.deep > 0, opens != "last" and heights.deep > 0)
    parts = whole(armed, opens)
    assert (heights.below_top(parts, True), heights.below_top(parts, False)) == (first, last)


def test_the_whole_numbers_next_to_a_wish() -> None:
    for quarters in range(-4, 40):
        wish = F(quarters, 4)
        for least in (1, 2):
            near = [number for number in range(-9, 30) if abs(number - wish) <= 1]
            assert upper_edges._near(wish, least) == sorted({max(least, number) for number in near})


def test_level_shoulders_are_made_to_slope_and_those_too_short_are_none() -> None:
    level, deep = (9, 9), (4, 8)
    held = {3: level, 4: level, 5: level, 6: deep, 7: deep, 8: level, 9: level}
    assert upper_edges._sloped(held, 9, 0, whole()) is held
    assert upper_edges._sloped(held, 9, 2, whole()) == {
        3: (7, 7), 4: (7, 9), 5: (9, 9), 6: deep, 7: deep, 8: (9, 9), 9: (7, 7),
    }  # fmt: skip
    assert upper_edges._sloped(held, 9, 2, whole(opens="last")) == {
        3: (7, 7), 4: (7, 9), 5: (9, 9), 6: deep, 7: deep, 8: level, 9: level,
    }  # fmt: skip
    assert upper_edges._sloped(held, 9, 2, whole(opens="first"))[3] == level
    short = {3: level, 4: deep, 5: level, 6: level}
    assert upper_edges._sloped(short, 9, 2, whole()) == {0: (1, 0)}


def test_a_shoulder_that_is_worked_is_made_level_as_far_as_it_goes() -> None:
    """Rows 5 and on of an edge whose shoulders end at 18, numbered from 1."""
    worked = dict(enumerate(BODY[:9], 1))
    assert upper_edges._as_level(worked, 5, 13, 18) == {1: 18, 2: 18, 3: 18, 4: 14, 5: 14}
    assert upper_edges._as_level({row: worked[row] for row in range(1, 7)}, 5, 13, 18) == {1: 18, 2: 18}
    assert upper_edges._as_level(worked, 10, 13, 18) == {}


# --------------------------------------------------------------------------------------------------------- edges wanted


def outlines(seed: int) -> tuple[Piece, Piece]:
    """A piece with edges of its own, and the same turned over."""
    rng = Random(seed)

    def edge() -> tuple[tuple[Fraction, Fraction], ...]:
        middle = F(rng.randint(8, 22))
        bend = [(middle, F(rng.randint(24, 60), 2))]
        if rng.random() < 0.4:
            bend.append((middle, F(rng.randint(24, 60), 2)))
        return ((F(0), F(rng.randint(30, 60), 2)), *bend, (F(30), F(rng.randint(24, 60), 2)))

    left, right = edge(), edge()
    kind = rng.random()
    if kind < 0.3:
        left = line((0, 20), (30, 20))
    elif kind < 0.5:
        left = right
    stretches: list[OutlineStretch] = []
    if rng.random() < 0.5:
        stretches.append(OutlineStretch(FRONT_EDGE, "left", F(0), left[1][0]))
    if rng.random() < 0.5:
        low, x = F(rng.randint(10, 20)), F(rng.randint(40, 60), 2)
        right = ((F(0), x), (low, x), (low, x - 4), (F(30), x - 4))
        stretches.append(OutlineStretch("armhole", "right", low, F(30)))
    plan = rng.choice(["auto", "alike", "alternate"])
    over: dict[str, Side] = {"left": "right", "right": "left"}
    piece = Piece("one", left_outline=left, right_outline=right, stretches=tuple(stretches), row_plan=plan)  # type: ignore[arg-type]
    turned = tuple(replace(one, side=over[one.side]) for one in stretches)
    return piece, replace(piece, left_outline=right, right_outline=left, stretches=turned)


def facts(target: Target) -> tuple[object, ...]:
    return (target.height, target.width, target.pinned, target.row_plan, target.mirrored_across, target.mirrored_along,
            target.straight, target.both_shaped, target.symmetrical, target.slope, target.neck)  # fmt: skip


@pytest.mark.quick(20)
@pytest.mark.parametrize("seed", range(40))
def test_a_piece_turned_over_wants_its_edges_the_other_way_round(seed: int) -> None:
    one, turned = (target_of(piece, GAUGE, None) for piece in outlines(seed))
    assert facts(one) == facts(turned)
    assert (one.left, one.right) == (turned.right, turned.left)
    assert one.as_asked() == turned.as_asked()[::-1]
    for height in range(0, 31, 3):
        assert one.width_at(F(height)) == turned.width_at(F(height))


@pytest.mark.quick(10)
@pytest.mark.parametrize("seed", range(40))
def test_a_piece_twice_as_large_by_a_swatch_twice_as_large_wants_the_same_stitches(seed: int) -> None:
    piece, _ = outlines(seed)
    twice = gauge_of((Swatch(F(4), F(20), F(8), F(20)),))

    def doubled(points: tuple[tuple[Fraction, Fraction], ...]) -> tuple[tuple[Fraction, Fraction], ...]:
        return tuple((2 * y, 2 * x) for y, x in points)

    large = replace(
        piece, left_outline=doubled(piece.left_outline), right_outline=doubled(piece.right_outline),
        stretches=tuple(replace(one, low=2 * one.low, high=2 * one.high) for one in piece.stretches),
    )  # fmt: skip
    one, other = target_of(piece, GAUGE, None), target_of(large, twice, None)
    for side in ("left", "right"):
        assert [(2 * y, x) for y, x in one.curve(side).points] == list(other.curve(side).points)
    assert (2 * one.height, 2 * one.width) == (other.height, other.width)


@pytest.mark.parametrize("align", ["left", "right", "centre"])
@pytest.mark.parametrize("row_plan", ["auto", "alike", "alternate"])
def test_an_outline_is_measured_from_its_centre_or_its_straight_edge(align: Any, row_plan: Any) -> None:
    """20 cm are 16 half pitches, 30 cm are 24; half a pitch over where rows are alike."""
    piece = Piece("one", outline=line((0, 20), (10, 30), (30, 25)), align=align, row_plan=row_plan)
    target = target_of(piece, GAUGE, None)
    over = 0 if row_plan == "alternate" else 1
    heights = (F(0), F(10), F(30))
    if align == "centre":
        assert target.left == target.right
        assert [target.right.at(height) for height in heights] == [8, 12, 10]
    else:
        shaped, level = (target.right, target.left) if align == "left" else (target.left, target.right)
        assert [shaped.at(height) for height in heights] == [16 + over, 24 + over, 20 + over]
        assert [level.at(height) for height in heights] == [0, 0, 0]
    assert told(target.height, target.width, target.pinned) == (30, 20, False)


@pytest.mark.parametrize(
    ("worked", "edge", "faces", "top"),
    [("sideways", "left", None, "left"), ("sideways", "right", None, "right"), ("upwards", "right", None, None),
     ("sideways", "right", "right", "left"), ("sideways", "right", "left", "right")],
)  # fmt: skip
def test_a_piece_that_faces_another_has_its_upper_edge_at_the_other_side(
    worked: Any, edge: Any, faces: str | None, top: str | None
) -> None:
    other = Piece("other", "sideways", width=F(40), length=F(40), neck_edge=faces or "left")  # type: ignore[arg-type]
    piece = Piece("one", worked, width=F(40), length=F(40), neck_edge=edge, faces=faces and "other")
    pattern = Pattern("Test", (SWATCH,), (piece, other))
    assert top_side(piece, pattern) == top
    assert top_side(replace(piece, outline=line((0, 3), (4, 5))), pattern) is None


@pytest.mark.parametrize("top", ["left", "right"])
def test_a_neck_worked_sideways_is_cut_into_the_upper_edge_alone(top: Side) -> None:
    neck = Neck(F(10), F(5), "square")
    target = target_of(Piece("one", "sideways", width=F(40), length=F(55), neck=neck), GAUGE, top)
    cut, level = target.curve(top), target.curve("right" if top == "left" else "left")
    assert level.straight
    assert [cut.at(F(height)) for height in (5, 15, 25, 35)] == [0, -4, -4, 0]
    assert told(target.height, target.width) == (40, 55)
    assert target.neck is not None
    assert told(target.neck.width, target.neck.reach, target.neck.depth) == (20, 5, 5)
    slant = target_of(Piece("one", "sideways", width=F(40), length=F(55), neck=Neck(F(16), F(9))), OTHER, top).neck
    assert slant is not None
    assert slant.reach == F(16, 5)  # 4 cm from the shoulder to the middle, 0.8 cm in for a cm along


# ------------------------------------------------------------------------------------------------------------- armholes


def of_armhole(side: Side, low: int = 20, high: int = 40) -> Job:
    """40 cm, 32 rows; its armhole from row 17 on, 5 cm wide, 4 half pitches."""
    edges = {"left": line((0, 20), (40, 20)), "right": line((0, 20), (40, 20))}
    edges[side] = line((0, 20), (low, 20), (low, 15), (high, 15))
    stretch = OutlineStretch("armhole", side, F(low), F(high))
    piece = Piece("one", left_outline=edges["left"], right_outline=edges["right"], stretches=(stretch,))
    return wanted(piece)


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(
    ("rows_under", "halves", "off"),
    [(16, 4, (0, 0)), (15, 4, (1, 1_250_000)), (17, 4, (1, 1_250_000)), (16, 5, (0, 0)), (16, 6, (1, 2_500_000)),
     (16, 2, (1, 2_500_000)), (18, 1, (2, 3_750_000))],
)  # fmt: skip
def test_an_armhole_is_measured_from_its_step_to_the_top(
    side: Side, rows_under: int, halves: int, off: tuple[int, int]
) -> None:
    """20 cm deep, 16 rows; half a row is 0.625 cm, half a pitch across 1.25: just that is within."""
    of, shaped = of_armhole(side), (0,) * rows_under + (-halves,) * (32 - rows_under)
    level = (32,) * 32 if side == "left" else (0,) * 32
    edges = (tuple(-at for at in shaped), level) if side == "left" else (level, tuple(32 + at for at in shaped))
    assert armholes.armholes_off(of, edges) == off
    (deep, wide) = armholes.armhole_fits(of, edges)
    assert told(deep.measure, deep.wanted, deep.worked) == ("armhole depth", 20, (32 - rows_under) * F(5, 4))
    assert told(wide.measure, wide.wanted, wide.worked) == ("armhole width", 5, halves * F(5, 4))


def test_the_step_of_an_armhole_is_looked_for_in_five_rows() -> None:
    """Row 17 as the curve has it, two before and two after; of steps as high the one that is nearest to it."""
    of = of_armhole("right")
    (one,) = of.target.piece.stretches
    assert armholes.about(of, one, 32) == (17, range(15, 20), 32)
    assert armholes.about(of, one, 33) == (17, range(15, 20), 33)
    assert armholes.about(of_armhole("right", 1), replace(one, low=F(1)), 32) == (1, range(2, 4), 32)
    for begins in range(13, 22):
        reaches = (0,) * (begins - 1) + (-4,) * (33 - begins)
        found, last = armholes._rows(of, one, reaches)
        assert last == 32
        assert found == (begins if begins in range(15, 20) else 17)
    twice = (0,) * 15 + (-3,) + (-3,) + (-6,) * 15  # rows 16 and 18 step as far
    assert armholes._rows(of, one, twice)[0] in (16, 18)
    assert armholes._rows(of, one, (0,) * 14 + (-3,) + (-3,) + (-6,) * 16)[0] == 17


def test_widths_of_an_armhole_within_a_half_pitch_are_tried() -> None:
    for quarters in range(1, 40):
        wish = F(quarters, 4)
        assert list(armed._within(wish)) == [one for one in range(1, 30) if abs(one - wish) <= 1]


def test_an_armhole_without_height_is_none() -> None:
    of = of_armhole("right")
    (one,) = of.target.piece.stretches
    flat = replace(of.target.piece, stretches=(replace(one, low=one.high), replace(one, name="side", low=F(0))))
    edges = ((0,) * 32, (32,) * 32)
    assert list(armholes.armhole_fits(wanted(flat), edges)) == []
    assert armholes.armholes_off(wanted(flat), edges) == (0, 0)


# ------------------------------------------------------------------------------------------------------- pieces divided


@pytest.mark.parametrize(("after", "shoulders"), [(4, (5, 3)), (3, (3, 5))])
@pytest.mark.parametrize("slope", [0, 1])
def test_the_neck_between_two_sections(after: int, shoulders: tuple[int, int], slope: int) -> None:
    """The row after row 4 starts at the right, where the shoulder is 5 half pitches wide; that after row 3 at the
    left. Where they slope, shoulders begin a row below the last."""
    lower = (0, 20) if not slope else (2, 18)
    left, right = [0] * 5 + [lower[0]], [20] * 5 + [lower[1]]
    body = Body(tuple(left), tuple(right), 0, F(10), slope=slope)
    assert (body.rows, body.arms) == (6, (0, 20))
    split = Split(after, tuple([9] * (5 - after) + [3]), tuple([11] * (5 - after) + [15]), Key(0, 0, 0, 0))
    neck = neck_of_split(split, body)
    assert (neck.shoulders, neck.depth, neck.width, neck.sideways) == (shoulders, 6 - after, 12, False)


@pytest.mark.parametrize(
    ("left", "right", "centre", "any_width", "mirrored"),
    [((0, 1), (20, 19), 10, False, True), ((0, 1), (20, 20), 10, False, False), ((0, 1), (20, 19), 9, False, False),
     ((0, 1), (21, 20), "10.5", False, False), ((0, 1), (21, 20), "10.5", True, True),
     ((0, 1), (20, 19), "10.25", True, False), ((0, 1), (20, 19), 10, True, True)],
)  # fmt: skip
def test_a_body_is_mirrored_where_all_its_rows_are(
    left: tuple[int, ...], right: tuple[int, ...], centre: object, any_width: bool, mirrored: bool
) -> None:
    assert Body(left, right, 0, F(str(centre)), any_width).mirrored is mirrored


@pytest.mark.parametrize("mirrored", [True, False])
def test_inner_edges_that_are_worked_are_counted_from_the_split(mirrored: bool) -> None:
    """Rows 5 and 6 after row 4: the shoulder at the left ends at 8 and 7; turned over about 10 it begins at 12."""
    lines: Any = {"left": {}, "right": {}, "inner_left": {5: 8, 6: 7}, "inner_right": {} if mirrored else {5: 13}}
    body = Body((0,) * 6, (20 if mirrored else 21,) * 6, 0, F(10))
    held = splits._held(body, 4, stand_in(lines=lines))
    assert held["right"] == {1: 8, 2: 7}
    assert held["left"] == ({1: -12, 2: -13} if mirrored else {1: -13})
    assert splits._held(body, 4, None) == {"left": {}, "right": {}}


@pytest.mark.parametrize(("side", "clusters"), [("left", 0), ("right", 1)])
def test_a_shoulder_keeps_to_its_half_and_has_room_for_a_cluster(side: Side, clusters: int) -> None:
    """A body of 20 half pitches about 10, phase 0: by hand a flush edge stands where place and row are of one kind of
    number, and 2 half pitches between flush edges, 3 between others or 4 between two spaced ones have one cluster."""
    piece = Piece("one", width=F(25), length=F(20), neck=Neck(F(5), F(5)), row_plan="alternate")
    body = Body((0,) * 16, (20,) * 16, 0, F(10))
    room = splits._room(wanted(piece), body, side, 8)
    for row in range(1, 9):
        for reach in range(1, 13):
            at, edge = (20 - reach, 20) if side == "left" else (reach, 0)
            own = -at if side == "left" else at
            low, high = sorted((at, edge))
            centres = [c for c in range(low + 1, high) if (c - row - 8) % 2 == 0]
            assert room(row, own) == (reach <= 10 and bool(centres)), (row, reach, clusters)


# ---------------------------------------------------------------------------------------------------------- round necks


@pytest.mark.parametrize(("shoulders", "depth", "width"), [((8, 8), 8, 16), ((5, 5), 3, 12), ((3, 4), 12, 7)])
def test_the_depths_near_an_ellipse_are_found_among_all(shoulders: tuple[int, int], depth: int, width: int) -> None:
    neck, of = WorkedNeck(shoulders, depth, width, True), stand_in(gauge=GAUGE)
    for row in range(width + 1):
        out = row - F(width, 2)
        for deepest in (depth, depth - 1, 2):
            near = [deep for deep in range(deepest + 1) if on_ellipse(neck, GAUGE, [(out, deep)])]
            found = sideways_necks._near_depths(of, neck, out, deepest)
            runs = near and near == list(range(near[0], near[-1] + 1))
            if not near:
                assert found is None
            elif runs:
                assert found == (near[0], near[-1])


@pytest.mark.parametrize(
    ("worked", "rows"), [({}, []), ({1: 0, 2: 0, 3: 0}, []), ({1: 0, 2: 0, 3: -1, 4: -2}, [2]), ({1: -1}, [0])]
)
def test_a_neck_that_is_begun_has_the_shoulder_that_is_worked(worked: dict[int, int], rows: list[int]) -> None:
    assert sideways_necks._begun(stand_in(worked=worked, start=0)) == rows


# ------------------------------------------------------------------------------------------------------------- measures


@pytest.mark.parametrize(
    ("place", "at"),
    [(0, 4), ("0.5", 4), (1, 4), ("1.5", "4.5"), (2, 5), ("2.25", 5), ("2.75", 9), (3, 9), ("3.5", 9), (4, 9), (5, 9)],
)
def test_an_edge_between_two_rows_lies_on_its_lean_or_in_the_nearer_row_of_a_step(place: object, at: object) -> None:
    assert measuring._line_at((4, 5, 9, 9), F(str(place)), 1) == F(str(at))


def test_a_step_is_no_lean_where_edges_lean_by_less() -> None:
    assert measuring._line_at((4, 6), F(3, 2), 2) == 5
    assert measuring._line_at((4, 6), F(5, 4), 1) == 4


# --------------------------------------------------------------------------------------------------------- a job's sums


def test_a_height_that_is_missed_costs_what_the_stretch_moves() -> None:
    """R (R q - H)^2 / 3 in cm, by the fabric's model; half a pitch is 1.25 cm. 40 cm are 32 rows."""
    of = wanted(Piece("one", width=F(40), length=F(40)))
    assert of.stretch_cost(32) == 0
    for rows in (30, 31, 33):
        off = rows * F(5, 4) - 40
        assert of.stretch_cost(rows) == pytest.approx(float(rows * off**2 / 3 / F(5, 4) ** 2) * MICRO**2)


@pytest.mark.parametrize(
    ("row", "side", "late"),
    [(2, "right", {2}), (2, "left", set()), (3, "right", set()), (3, "left", {3}), (8, "right", {8}),
     (1, "left", set()), (24, "right", set()), (23, "left", {23})],
)  # fmt: skip
def test_a_step_outwards_is_late_by_a_row_where_that_starts_at_the_other_edge(
    row: int, side: Side, late: set[int]
) -> None:
    """24 rows of 1.25 cm; odd rows start at the right. Neither row 1 nor the last can be late."""
    high = F(5, 4) * (row - 1) + F(1, 2)
    points = ((F(0), F(20)), (high, F(20)), (high, F(25)), (F(30), F(25)))
    of = wanted(Piece("one", outline=points))
    found = of.late_steps(side, 24)
    assert set(found) == late
    assert set(found.values()) <= {F(8)}
    assert wanted(Piece("one", width=F(40), length=F(40))).late_steps(side, 24) == {}


@pytest.mark.parametrize(("slope", "limits"), [(0, {}), (2, {3: (7, 7), 4: (7, 7)}), (4, {1: (5, 5), 2: (5, 5)}),
                                               (5, {}), (6, {})])  # fmt: skip
def test_an_edge_stands_upright_below_a_sloping_shoulder(slope: int, limits: dict[int, tuple[int, int]]) -> None:
    marks = tuple(round(at * MICRO) for at in (4.8, 5.2, 5.9, 7.4, 6, 4))
    of = stand_in(target=stand_in(slope=slope), begun=None)
    assert Job.arms(of, marks) == limits
    assert Job.arms(stand_in(target=stand_in(slope=2), begun="some rows"), marks) == {}


def test_edges_leave_room_for_a_cluster_and_in_row_1_for_as_many_as_were_chosen() -> None:
    """Places of clusters counted one by one, phase 0."""
    free = wanted(Piece("one", width=F(40), length=F(40)))
    exact = wanted(Piece("one", width=F(40), length=F(40), exact_clusters=3))
    for row in (1, 2, 3):
        for left in (-1, 0):
            for wide in range(1, 10):
                centres = [at for at in range(left + 1, left + wide) if (at - row) % 2 == 0]
                assert free.room(0, 32)(row, left, left + wide) == bool(centres)
                assert exact.room(0, 32)(row, left, left + wide) == (
                    len(centres) == 3 if row == 1 else bool(centres)
                )


@pytest.mark.parametrize("fabric", [Fabric(), Fabric(3, 0), Fabric(rows=("cluster", "sc"))])
def test_a_phase_more_is_a_half_pitch_aside(fabric: Fabric) -> None:
    of = wanted(Piece("one", width=F(40), length=F(40)), fabric)
    rooms = [of.room(phase, 30) for phase in (0, 1)]
    for row in range(1, 9):
        for left in range(-2, 3):
            for wide in range(1, 6):
                there = rooms[0](row, left + 1, left + 1 + wide)
                assert rooms[1](row, left, left + wide) == there
                assert not there or wide >= 2


@pytest.mark.parametrize("key", [Key(0, 0, 0, 0), Key(5, 4, 3, 2), Key(10**20, 10**12, 3999, 2000)])
def test_a_key_comes_out_of_its_number_as_it_went_in_and_compares_alike(key: Key) -> None:
    assert unpacked(key.packed()) == key
    for nth in range(4):
        more = key._replace(**{Key._fields[nth]: key[nth] + 1})
        assert more.packed() > key.packed()
        assert more.packed() - key.packed() == Key(*(int(one == nth) for one in range(4))).packed()
        for lesser in range(nth + 1, 4):
            assert more._replace(**{Key._fields[lesser]: 0}).packed() > key.packed()


# ------------------------------------------------------------------------------------------------------------- warnings


@pytest.mark.parametrize(("rows", "said"), [([4], "row 4"), ([4, 7], "rows 4 and 7"), ([4, 7, 9], "rows 4, 7 and 9")])
def test_rows_in_words(rows: list[int], said: str) -> None:
    assert warnings.listed(rows) == said


def row(
    number: int, section: str, left: str = "straight", right: str = "straight", at: tuple[int, int] = (0, 20)
) -> Any:
    edges = {"left": stand_in(move=left, at=at[0]), "right": stand_in(move=right, at=at[1])}
    return stand_in(number=number, section=section, left=edges["left"], right=edges["right"], edge=edges.__getitem__)


def worked(*rows: Any, **more: Any) -> Any:
    values: dict[str, Any] = {
        "rows": rows, "sections": tuple(dict.fromkeys(one.section for one in rows)),
        "section": lambda name: [one for one in rows if one.section == name],
        "recipe": stand_in(noun="cluster", stacked=False), "gauge": GAUGE, "progress": None, "worked": "upwards",
        "row_plan": "alternate", "upper": None, "fit": (), "farthest": None, **more,
    }  # fmt: skip
    return stand_in(**values)


def test_forced_moves_are_told_by_section_side_and_rows() -> None:
    piece = worked(
        row(1, "body"), row(2, "body", "forced_decrease", "decrease"), row(3, "body", "forced_decrease"),
        row(4, "first shoulder", right="forced_increase"), row(4, "second shoulder", "step_in", "forced_decrease"),
    )  # fmt: skip
    assert [(words.partition(": ")[0], "less" in words) for words in warnings._forced(piece)] == [
        ("left edge, rows 2 and 3", True),
        ("second shoulder, right edge, row 4", True),
        ("first shoulder, right edge, row 4", False),
    ]


@pytest.mark.parametrize(
    ("cm", "step", "said"),
    [("2.5", "straight", None), ("2.51", "straight", "the right edge is 2.51 cm away from the shape you gave in row 2"),
     (9, "step_out", "at the right edge it comes a row later, in row 3"),
     ("2.5", "step_out", None), (9, "step_in", "the right edge is 9 cm away")],
)  # fmt: skip
def test_an_edge_more_than_a_cluster_off_is_told(cm: object, step: str, said: str | None) -> None:
    far = stand_in(side="right", row=2, distance=F(str(cm)))
    rows = [row(1, "body"), row(2, "body"), row(3, "body", "straight", step), row(4, "body", "step_out", "step_out")]
    found = list(warnings._bad_fit(worked(*rows, farthest=far), "cm"))
    assert (said is None) == (not found)
    assert said is None or said in found[0]


def measure(name: str, asked: object, made: object) -> Any:
    return stand_in(measure=name, wanted=F(str(asked)), worked=F(str(made)), off=F(str(made)) - F(str(asked)))


@pytest.mark.parametrize("sideways", [False, True])
def test_measures_of_armholes_out_of_tolerance_are_told(sideways: bool) -> None:
    """A row is 1.25 cm, half a pitch by the other swatch 1 cm: upwards half a row is 0.625 deep, half a cluster 1 cm
    wide; sideways the other way round. Just that is within."""
    halves = {"row": "0.625", "cluster": "1"}
    names = {"depth": "cluster", "width": "row"} if sideways else {"depth": "row", "width": "cluster"}
    for name, by in names.items():
        for sign in (1, -1):
            within = 20 + sign * F(halves[by])
            fits = (measure(f"left edge armhole {name}", 20, within), measure("width", 20, 40))
            piece = worked(row(1, "body"), fit=fits, gauge=OTHER, upper="some parts" if sideways else None)
            assert list(warnings._armhole_measures(piece, "cm")) == []
            piece.fit = (measure(f"left edge armhole {name}", 20, within + sign * F(1, 10)), fits[1])
            (said,) = warnings._armhole_measures(piece, "cm")
            assert said.startswith(f"left edge armhole {name}: ")
            assert f"more than half a {by} off" in said


def test_what_holds_the_rows_of_a_piece_fast() -> None:
    piece = worked(row(1, "body"))
    assert warnings._held_fast(piece, None, False) == ""
    assert warnings._held_fast(piece, None, True) == "its number of rows follows that of other pieces or sizes"
    assert warnings._held_fast(piece, 31, True) == "exact_rows = 31 stays as you chose it"
    piece.progress = stand_in(worked=3)
    assert warnings._held_fast(piece, 31, True) == "the rows already worked stay as they are"


LOPSIDED = (row(1, "body"), row(2, "body", at=(0, 21)), row(3, "first shoulder", at=(9, 33)))
EVEN = (row(1, "body"), row(2, "body", at=(1, 19)), row(3, "first shoulder", at=(9, 33)))


@pytest.mark.parametrize(
    ("rows", "more", "held", "said"),
    [
        (EVEN, {}, "", "no place for the neck on the stitches"),
        (LOPSIDED, {}, "", "the sides of the piece are not alike"),
        (EVEN, {"row_plan": "alike"}, "", "rows that are alike have half a cluster more"),
        (EVEN, {"row_plan": "alike", "recipe": stand_in(noun="shell", stacked=True)}, "", "no place for the neck"),
        (EVEN, {"row_plan": "alike", "progress": "some rows"}, "", "the rows already worked"),
        (EVEN, {"worked": "sideways"}, "it is held", "it is held"),
        (EVEN, {"worked": "sideways"}, "", "with regular shaping no odd number of rows close to the one wanted lets"),
    ],
)
def test_why_two_shoulders_differ(rows: tuple[Any, ...], more: dict[str, Any], held: str, said: str) -> None:
    target = stand_in(neck=stand_in(shape="vee"))
    assert warnings._why_unlike(worked(*rows, **more), target, held).startswith(said)


@pytest.mark.parametrize(
    ("more", "off", "said"),
    [
        ({}, "1.25", "a neck begins on a whole row"),
        ({}, "-1.25", "a neck begins on a whole row"),
        ({}, "1.26", "every row needs room for a cluster"),
        ({"progress": stand_in(worked=3)}, 1, "the rows already worked"),
        ({"progress": stand_in(worked=2)}, 1, "a neck begins on a whole row"),
        ({"worked": "sideways"}, 1, "the two ends of the neck are to match, and with regular shaping no number"),
    ],
)
def test_why_a_neck_is_off_along_the_rows(more: dict[str, Any], off: object, said: str) -> None:
    """Two rows of a body, then a shoulder."""
    target = stand_in(neck=stand_in(shape="round"))
    assert warnings._why_rows(worked(*EVEN, **more), target, "", stand_in(off=F(str(off)))).startswith(said)
    if more.get("worked"):
        assert warnings._why_rows(worked(*EVEN, **more), target, "it is held", stand_in(off=F(1))) == "it is held"


@pytest.mark.parametrize(("sideways", "row_off", "cluster_off"), [(False, "neck depth", "neck width"),
                                                                   (True, "neck width", "neck depth")])  # fmt: skip
def test_measures_of_a_neck_out_of_tolerance_are_told(sideways: bool, row_off: str, cluster_off: str) -> None:
    """As above: half a row of 1.25 cm, half a pitch of 1 cm."""
    target = stand_in(neck=stand_in(shape="round", reach=F(8), depth=F(8)), piece=stand_in(exact_rows=None))
    shallow = stand_in(neck=stand_in(shape="slant", reach=F(7), depth=F(8)), piece=stand_in(exact_rows=None))
    for name, most, by in ((row_off, F("0.625"), "row"), (cluster_off, F(1), "cluster")):
        piece = worked(*EVEN, worked="sideways" if sideways else "upwards", gauge=OTHER)
        piece.fit = (measure(name, 8, 8 - most), measure("length", 8, 80))
        assert list(warnings._neck_measures(piece, target, "cm", False)) == []
        piece.fit = (measure(name, 8, 8 - most - F(1, 10)), measure("length", 8, 80))
        (said,) = warnings._neck_measures(piece, target, "cm", False)
        assert said.startswith(f"{name}: ")
        assert f"more than half a {by} off" in said
        told = list(warnings._neck_measures(piece, shallow, "cm", False))
        assert len(told) == (0 if name == "neck depth" else 1)
    piece.fit = (measure("first shoulder", 10, 10), measure("second shoulder", 10, "10.5"))
    (said,) = warnings._neck_measures(piece, target, "cm", False)
    assert said.startswith("the two shoulders differ, 10 cm first and 10.5 cm then: ")


@pytest.mark.parametrize(("opening", "reach"), [(None, "6.4"), ("a curve", 10)])
@pytest.mark.parametrize("whole_pitches", [False, True])
def test_a_slant_that_cannot_be_as_deep_is_told(opening: object, reach: object, whole_pitches: bool) -> None:
    """8 cm to the middle; half a pitch of 1 cm in for a row of 1.25 cm: 0.8 cm for a cm along, or 1.25 up for a cm
    across. Where edges go by whole pitches twice and half of that."""
    most = F(str(reach)) * (1 if not whole_pitches else F(2) if opening is None else F(1, 2))
    piece = worked(row(1, "body"), gauge=OTHER,
                   recipe=stand_in(noun="cluster", table=stand_in(whole=whole_pitches)))  # fmt: skip
    for depth, told in ((most, 0), (most + F(1, 10), 1)):
        target = stand_in(neck=stand_in(shape="slant", width=F(16), depth=depth), opening=opening)
        said = list(warnings._shallow_neck(piece, target, "cm"))
        assert len(said) == told
        target.neck.shape = "vee"
        assert list(warnings._shallow_neck(piece, target, "cm")) == []
    assert f"it reaches at most {float(most):g} cm deep" in said[0]
    assert ("goes in a cluster a row" if whole_pitches else "goes in half a cluster a row") in said[0]


# ------------------------------------------------------------------------------------------------ exact where it can be


def measured(keys: str) -> tuple[dict[str, Fraction], int]:
    """How far each measure of a piece is off, and its number of rows; half a pitch and a row are 1.25 cm."""
    head = 'title = "Exact"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n[[piece]]\nname = "one"\n'
    pattern = read_text(head + keys, "exact.toml")
    one = choice_of(pattern.pieces[0], pattern, GAUGE, SearchBudget())
    return {fit.measure: fit.off for fit in measuring.fits(one.job, one.best)}, one.best.rows


SHAPES = ("slant", "round", "vee", "square")


@pytest.mark.quick(3)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("curve", ["square", "curved"])
@pytest.mark.parametrize(("edge", "width"), [("right", "5"), ("left", "6.25")])
def test_a_body_worked_sideways_is_exact_where_rows_allow_it(shape: str, curve: str, edge: str, width: str) -> None:
    """36 rows of 45 cm: 4 under an arm, of which the next starts at the right, or 5, of which it starts at the left;
    10 cm up, 8 half pitches; shoulders of 8 rows, a neck 4 half pitches deep. One that leans needs an odd number of
    rows to read alike from both ends: a row more or fewer, which its neck has."""
    off, rows = measured(
        f'worked = "sideways"\nwidth = 45\nlength = 56.25\nneck_edge = "{edge}"\n'
        f'armhole = {{ depth = 10, width = {width}, shape = "{curve}" }}\n'
        f'neck = {{ shoulder = 10, depth = 5, shape = "{shape}" }}\n'
    )
    more = rows - 36
    assert abs(more) == (0 if shape in ("round", "square") else 1)
    there = {measure: cm for measure, cm in off.items() if cm}
    assert there == ({"width": more * F(5, 4), "neck width": more * F(5, 4)} if more else {})


@pytest.mark.quick(8)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("edge", ["left", "right"])
@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize(("arm", "overlap"), [(4, 0), (5, 0), (5, 2)])
def test_half_a_front_worked_sideways_is_exact_where_rows_allow_it(
    shape: str, edge: str, side: str, arm: int, overlap: int
) -> None:
    """So many rows under the arm, 8 of a shoulder, 8 to the middle, and 2 or none beyond. Where the armhole comes
    first, the row after it must start at its edge; so must that after the neck where a square one comes first."""
    off, rows = measured(
        f'worked = "sideways"\nwidth = {40 + arm * 2.5}\nlength = 56.25\nneck_edge = "{edge}"\n'
        f'front = {{ side = "{side}", overlap = {overlap * 1.25} }}\n'
        f'armhole = {{ depth = 10, width = {arm * 1.25} }}\nneck = {{ shoulder = 10, depth = 5, shape = "{shape}" }}\n'
    )
    assert rows == arm + 16 + overlap
    starts = 1 if edge == "right" else 0
    opens_first = side == edge
    missed = set()
    if not opens_first and (arm + 1) % 2 != starts:
        missed = {"armhole width"}
    if opens_first and shape == "square" and (8 + overlap + 1) % 2 != starts:
        missed = {"neck depth"}
    assert {measure for measure, cm in off.items() if cm} == missed
    assert all(abs(off[measure]) == F(5, 4) for measure in missed)


@pytest.mark.quick(4)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(("row_plan", "width"), [("alike", "43.75"), ("alternate", "42.5")])
def test_a_body_worked_upwards_is_exact_where_rows_allow_it(shape: str, row_plan: str, width: str) -> None:
    """48 rows; 16 above the armholes, 6 of the neck; a slant of rows in turn has a neck of 6 or 8 half pitches, and
    goes up half of that."""
    off, rows = measured(
        f'width = {width}\nlength = 60\nrow_plan = "{row_plan}"\narmhole = {{ depth = 20, width = 5 }}\n'
        f'neck = {{ shoulder = 10, depth = 7.5, shape = "{shape}" }}\n'
    )
    assert rows == 48
    shallow = shape == "slant" and row_plan == "alternate"
    assert {measure: cm for measure, cm in off.items() if cm} == ({"neck depth": -F(5, 4)} if shallow else {})


@pytest.mark.quick(4)
@pytest.mark.parametrize("shape", ["slant", "round", "square"])
@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("slope", [False, True])
def test_half_a_front_worked_upwards_is_exact_where_rows_allow_it(shape: str, side: str, slope: bool) -> None:
    """25 cm, 20 half pitches; rows alike have half a pitch over below the neck and none at the shoulder."""
    if slope and shape == "round":
        return  # where it begins to slope a neck that is round goes through no place of the lattice
    keys = (
        f'width = 50\nlength = 60\nfront = {{ side = "{side}" }}\narmhole = {{ depth = 20, width = 5 }}\n'
        f'{"shoulder_slope = 2.5" * slope}\nneck = {{ shoulder = 10, depth = 7.5, shape = "{shape}" }}\n'
    )
    off, rows = measured(f'row_plan = "alternate"\n{keys}')
    assert rows == 48
    assert not any(off.values())
    over, rows = measured(f'row_plan = "alike"\n{keys}')
    assert rows == 48
    widths = {measure: cm for measure, cm in over.items() if cm}
    assert set(widths.values()) == {F(5, 4)}
    assert "width in row 1" in widths
    assert all(measure.startswith("width ") for measure in widths)
    assert not any(over[measure] for measure in over if measure == "shoulder" or "depth" in measure)
