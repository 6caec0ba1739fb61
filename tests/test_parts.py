"""Parts of pieces by their names: the outlines they come to, mirror images, pairs, and parts that collide.

Outlines are worked by hand from what the README says of the parts (no published source). Source of the cap's rule, as
long as the armhole it is sewn into: bygumbygolly.blogspot.com, 2011-03.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest

from turnchain.errors import PatternError
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import OutlineStretch, Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_text

HEAD = 'title = "Test"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n'
BACK = 'name = "back"\nwidth = 50\nlength = 52\narmhole = { depth = 22, width = 6 }'
FRONT = """name = "left front"
width = 50
length = 52
front = { side = "left", overlap = 2 }
armhole = { depth = 22, width = 6 }
neck = { shoulder = 10, depth = 20, shape = "vee" }"""
TAPER = "taper = { width = 36, start = 5, end = 40 }"
SLEEVE = f'name = "sleeve"\nwidth = 24\nlength = 44\n{TAPER}\ncap = {{ into = ["back"] }}'


def read(*pieces: str) -> Pattern:
    return read_text(HEAD + "".join(f"[[piece]]\n{piece}\n" for piece in pieces), "x.toml")


def piece(*pieces: str) -> Piece:
    """The last of ``pieces``."""
    return read(*pieces).pieces[-1]


def problems(*pieces: str) -> list[str]:
    with pytest.raises(PatternError) as refused:
        read(*pieces)
    return [line.split(": ", 1)[1] for line in str(refused.value).splitlines() if ": " in line]


def cm(*pairs: tuple[float, float]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((Fraction(str(height)), Fraction(str(width))) for height, width in pairs)


def named(*parts: tuple[str, str, float, float]) -> set[OutlineStretch]:
    return {OutlineStretch(name, side, Fraction(str(low)), Fraction(str(high))) for name, side, low, high in parts}  # type: ignore[arg-type]


# ------------------------------------------------------------------------------------------------------ outlines


SLOPING = """width = 50
length = 50
armhole = { depth = 20, width = 5 }
neck = { shoulder = 12.5, depth = 7.5, shape = "square" }
shoulder_slope = 3.75"""


def test_shoulders_slope_by_steps_from_the_arm_to_the_neck() -> None:
    """At 4 clusters and 8 rows to 10 cm, by hand: 3.75 cm are 3 rows; each goes in by a quarter of a shoulder of 10
    half clusters, and the last quarter is the top. The armhole is 20 cm deep below them, so 26.25 cm of side are left,
    21 rows; 32 half clusters stand between the armholes up to row 37, and 10 beside a neck of 12."""
    found = piece('name = "back"\n' + SLOPING)
    assert found.outline == cm((0, 50), (26.25, 50), (26.25, 40), (46.25, 40), (50, 21.25))
    assert OutlineStretch("shoulder", "left", Fraction("46.25"), Fraction(50)) in found.stretches
    plan = plan_pattern(read('name = "back"\n' + SLOPING)).pieces[0]
    assert (plan.row_count, plan.slope) == (40, 3)
    widths = {row.number: row.right.at - row.left.at for row in plan.rows if row.section == "body"}
    assert (widths[21], widths[22]) == (40, 32)
    first, second = (plan.section(name) for name in plan.sections[1:])
    for section in (first, second):
        assert [row.number for row in section] == [35, 36, 37, 38, 39, 40]
        wide = [row.right.at - row.left.at for row in section]
        assert (wide[1], wide[2]) == (10, 10)
        assert 10 > wide[3] > wide[4] > wide[5] > 1
    told = {fit.measure: (fit.wanted, fit.worked) for fit in plan.fit}
    assert told["shoulder"] == (Fraction(25, 2), Fraction(25, 2))
    assert told["armhole depth"] == (20, 20)
    assert told["width at 46.25 cm"] == (40, 40)


def test_an_armhole_is_a_step_in_the_outline() -> None:
    """30 cm of side are left of 52 below 22 cm; 6 cm at each edge leave 38 of 50."""
    back = piece(BACK)
    assert back.outline == cm((0, 50), (30, 50), (30, 38), (52, 38))
    assert (back.width, back.length) == (None, None)
    both = [(name, side, low, high) for side in ("left", "right")
            for name, low, high in (("side", 0, 30), ("underarm", 30, 30), ("armhole", 30, 52))]  # fmt: skip
    assert set(back.stretches) == named(*both)


def test_a_curved_armhole_slants_over_a_third() -> None:
    back = piece(BACK.replace("width = 6 }", 'width = 6, shape = "curved" }'))
    assert back.outline == cm((0, 50), (30, 50), (30, 42), (32, 38), (52, 38))


@pytest.mark.parametrize(("length", "depth", "rows"), [
    ("59.5", "21.6", 17), ("49.5", "21.8", 17), ("56.1", "22.8", 18), ("53.6", "18.8", 15), ("48.4", "23.0", 18),
])  # fmt: skip
def test_an_armhole_has_the_rows_that_come_nearest_to_its_depth(length: str, depth: str, rows: int) -> None:
    """A row is 1.25 cm high, and 5 cm are two clusters. Worked by hand: the armhole began a row too early before."""
    plan = plan_pattern(
        read(f'name = "back"\nwidth = 50\nlength = {length}\narmhole = {{ depth = {depth}, width = 5 }}')
    ).pieces[0]
    fits = {fit.measure: fit for fit in plan.fit}
    assert (fits["armhole depth"].wanted, fits["armhole depth"].worked) == (Fraction(depth), rows * Fraction("1.25"))
    assert (fits["armhole width"].wanted, fits["armhole width"].worked) == (5, 5)
    first = plan.row_count - rows
    assert [plan.rows[nth].left.at - plan.rows[0].left.at >= 4 for nth in (first - 1, first)] == [False, True]
    assert not [words for words in plan.warnings if "armhole" in words]


def test_an_armhole_that_cannot_be_as_wide_as_asked_is_warned_of() -> None:
    """2.6 cm at both edges of 59.4, where rows that alternate step in by whole clusters."""
    plan = plan_pattern(
        read('name = "b"\nwidth = 59.4\nlength = 57.2\nrow_plan = "alternate"\narmhole = { depth = 22.1, width = 2.6 }')
    ).pieces[0]
    off = {fit.measure: fit.off for fit in plan.fit if "armhole" in fit.measure}
    told = [words for words in plan.warnings if "armhole" in words]
    assert bool(told) is (abs(off["armhole width"]) > Fraction("1.25"))
    assert all(words.startswith("armhole width: ") and "more than half a cluster off" in words for words in told)


def test_an_armhole_at_one_edge_leaves_the_other_straight() -> None:
    one = piece(BACK.replace("width = 6 }", 'width = 6, edge = "right" }'))
    assert one.left_outline == cm((0, 25), (30, 25), (52, 25))
    assert one.right_outline == cm((0, 25), (30, 25), (30, 19), (52, 19))


@pytest.mark.parametrize("edge", ["left", "right"])
def test_the_armhole_of_one_edge_is_measured_at_that_edge(edge: str) -> None:
    """17.6 rows of 1.25 cm deep: from the row that steps in to the last, at the edge that steps."""
    made = plan_pattern(read(BACK.replace("width = 6 }", f'width = 6, edge = "{edge}" }}'))).pieces[0]
    fits = {fit.measure: fit.worked for fit in made.fit}
    reach = [row.right.at if edge == "right" else -row.left.at for row in made.rows]
    (step,) = [nth for nth in range(1, len(reach)) if reach[nth] < reach[nth - 1] - 1]
    assert fits["armhole depth"] == (len(reach) - step) * Fraction("1.25")
    assert fits["armhole width"] == (reach[step - 1] - reach[-1]) * Fraction("1.25")


def test_tapers_follow_each_other() -> None:
    """In at the waist and out again, then straight to the underarm."""
    waist = "taper = [{ width = 42, end = 15 }, { width = 50, start = 20, end = 28 }]"
    assert piece(f"{BACK}\n{waist}").outline == cm(
        (0, 50), (15, 42), (20, 42), (28, 50), (30, 50), (30, 38), (52, 38)
    )


def test_a_slit_is_a_stretch_of_the_side() -> None:
    stretches = [one for one in piece(f"{BACK}\nslit = 8").stretches if one.side == "left"]
    assert [(one.name, one.low, one.high) for one in stretches[:2]] == [("slit", 0, 8), ("side", 8, 30)]


def test_an_open_front_is_half_of_the_body() -> None:
    """Right side facing, the wearer's left front has its side at the right: 25 cm from the middle, 19 above the
    armhole. The neck of 38 - 2 x 10 = 18 cm goes in by 9 from the middle, over the overlap of 2."""
    front = piece(FRONT)
    assert front.right_outline == cm((0, 25), (30, 25), (30, 19), (52, 19))
    assert front.left_outline == cm((0, 2), (32, 2), (52, -9))
    assert named(("front edge", "left", 0, 32), ("neck", "left", 32, 52)) <= set(front.stretches)
    assert front.neck is None


@pytest.mark.parametrize(("shape", "corners"), [("square", 4), ("round", 27), ("slant", 4)])
def test_necks_of_an_open_front_have_the_shapes_of_whole_ones(shape: str, corners: int) -> None:
    """A round one begins level; a slant goes in half a cluster a row: here 1.25 cm for 1.25."""
    line = piece(FRONT.replace("vee", shape).replace("depth = 20", "depth = 5")).left_outline
    assert len(line) == corners
    assert line[:2] == cm((0, 2), (47, 2))
    assert line[-1] == (52, -9)
    if shape == "slant":
        assert line[2] == (47, -4)


def test_only_corners_of_a_round_neck_are_measures() -> None:
    assert piece(FRONT.replace("vee", "round")).measured == tuple(map(Fraction, (0, 30, 32, 52)))


@pytest.mark.parametrize("shape", ["square", "curved"])
def test_a_cap_is_as_long_as_its_armholes(shape: str) -> None:
    """From underarm to underarm over the cap it is as long as up the back's armhole and down the front's."""
    pattern = read(BACK.replace("width = 6 }", f'width = 6, shape = "{shape}" }}'), SLEEVE)
    back, sleeve = pattern.pieces
    (_, side), *up = back.outline[1:]
    half = [(height, width / 2) for height, width in back.outline[2:]]
    armhole = sum(hypot(high[0] - low[0], high[1] - low[1]) for low, high in pairwise(half))
    (top, wide), (last, narrow) = sleeve.outline[-2:]
    moves = (wide - narrow) / 2 / Fraction("1.25")  # rows that lean by half a cluster, the others are upright
    cap = 2 * (float(moves) * hypot(1.25, 1.25) + float(last - top) - float(moves) * 1.25) + float(narrow)
    assert cap == pytest.approx(2 * armhole, abs=1.25)  # whole rows
    assert sleeve.outline[-3][1] - wide == side - up[0][1]  # the steps under the arm are alike
    assert narrow == 9  # a quarter of 36


def test_triangles() -> None:
    assert piece('name = "kerchief"\ntriangle = { width = 90, height = 45 }').outline == cm((0, 0), (45, 90))
    half = piece('name = "shawl"\nhalf_triangle = { width = 90, height = 60, straight = "right" }')
    assert (half.outline, half.align) == (cm((0, 0), (60, 90)), "right")


def test_triangles_worked_sideways_grow_along_their_long_edge() -> None:
    """A kerchief 90 cm wide and 40 high is 40 cm high in its middle, a half one at its end (by hand)."""
    side = 'name = "kerchief"\nworked = "sideways"\n'
    whole = piece(side + "triangle = { width = 90, height = 40 }")
    assert (whole.outline, whole.align) == (cm((0, 0), (45, 40), (90, 0)), "right")
    half = piece(side + "half_triangle = { width = 90, height = 40 }")
    assert (half.outline, half.align) == (cm((0, 0), (90, 40)), "left")
    for kind in ("triangle", "half_triangle"):
        plan = plan_pattern(read(side + kind + " = { width = 90, height = 40 }"))
        straight = {row.edge("right" if kind == "triangle" else "left").at for row in plan.pieces[0].rows}
        widths = [row.right.at - row.left.at for row in plan.pieces[0].rows]
        assert len(straight) == 1
        assert abs(max(widths) - 32) <= 2  # 40 cm at 4 clusters to 10 cm, in half clusters
        assert widths.index(max(widths)) in (range(33, 40) if kind == "triangle" else range(68, 73))
        proof = prove(plan)
        assert proof.holds, proof.reasons


def test_stretches_of_an_outline_can_have_names() -> None:
    free = piece('name = "front"\noutline = [[0, 50], [30, 50, "side"], [30, 38], [40, 38, "arm"], [52, 38, "arm"]]')
    assert free.outline == cm((0, 50), (30, 50), (30, 38), (40, 38), (52, 38))
    assert set(free.stretches) == named(
        ("side", "left", 0, 30), ("side", "right", 0, 30), ("arm", "left", 30, 52), ("arm", "right", 30, 52)
    )
    apart = piece('name = "a"\nleft_outline = [[0, 9], [30, 5, "slant"]]\nright_outline = [[0, 9], [30, 9]]')
    assert set(apart.stretches) == named(("slant", "left", 0, 30))


def test_parts_can_have_sizes() -> None:
    text = (HEAD + 'sizes = ["S", "M"]\n[[piece]]\n' + BACK).replace("depth = 22", 'depth = "20 (22)"')
    first, second = (read_text(text, "x.toml", size).pieces[0].outline[1][0] for size in ("S", "M"))
    assert (first, second) == (32, 30)
    tapered = text + '\ntaper = [{ width = "44 (48)", end = 20 }]'
    assert [read_text(tapered, "x.toml", size).pieces[0].outline[1][1] for size in ("S", "M")] == [44, 48]


# ------------------------------------------------------------------------------------------------ mirror images


def mirrored(one: PiecePlan, other: PiecePlan) -> bool:
    """Whether every row of one is that of the other seen from behind."""
    total = one.rows[0].left.at + one.rows[0].right.at + other.rows[0].left.at + other.rows[0].right.at
    middle = Fraction(total, 2)
    return all(
        (a.left.at + b.right.at, a.right.at + b.left.at, a.left.kind, a.right.kind, a.clusters)
        == (middle, middle, b.right.kind, b.left.kind, b.clusters)
        for a, b in zip(one.rows, other.rows, strict=True)
    )


@pytest.mark.quick(4)
@pytest.mark.parametrize("shape", ["vee", "round", "square", "slant"])
@pytest.mark.parametrize("armhole", ["square", "curved"])
@pytest.mark.parametrize("gauge", [("4", "8"), ("4.3", "8.1"), ("3.7", "7.9")])
def test_a_mirror_image_is_planned_as_one(shape: str, armhole: str, gauge: tuple[str, str]) -> None:
    front = FRONT.replace("vee", shape).replace("width = 6 }", f'width = 6, shape = "{armhole}" }}')
    pattern = read(front, 'name = "right front"\nmirror = "left front"')
    swatch = f"clusters = {gauge[0]}, width = 10, rows = {gauge[1]}"
    text = HEAD.replace("clusters = 4, width = 10, rows = 8", swatch)
    pattern = read_text(f'{text}[[piece]]\n{front}\n[[piece]]\nname = "right front"\nmirror = "left front"', "x.toml")
    left, right = plan_pattern(pattern).pieces
    assert mirrored(left, right)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_mirror_image_begins_at_the_same_place(side: str) -> None:
    """Places are counted from the left edge of row 1, where one that leans from row 2 on is turned as well."""
    front = FRONT.replace("left", side) + "\ntaper = { width = 36, start = 0, end = 8 }"
    other, turned = plan_pattern(read(front, f'name = "turned"\nmirror = "{side} front"')).pieces
    wide = other.rows[0].right.at
    assert (other.rows[1].left.at, other.rows[1].right.at) != (0, wide)
    assert [(row.left.at, row.right.at) for row in turned.rows] == [
        (wide - row.right.at, wide - row.left.at) for row in other.rows
    ]


def test_a_mirror_image_has_its_stretches_at_the_other_side() -> None:
    pattern = read(FRONT, 'name = "right front"\nmirror = "left front"\nbefore = "As the left one."')
    left, right = pattern.pieces
    assert (left.left_outline, left.right_outline) == (right.right_outline, right.left_outline)
    other = {"left": "right", "right": "left"}
    assert {(one.name, other[one.side], one.low, one.high) for one in left.stretches} == {
        (one.name, one.side, one.low, one.high) for one in right.stretches
    }
    assert (right.before, left.before) == ("As the left one.", "")


def test_a_mirror_image_may_stand_before_its_other() -> None:
    right, left = read('name = "right front"\nmirror = "left front"', FRONT).pieces
    assert right.left_outline == left.right_outline


def test_a_pair_is_a_left_and_a_right_one() -> None:
    """The second of a pair comes after all pieces of the file."""
    pair = 'name = "front"\ncount = 2\nmirrored = true\n' + FRONT.split("\n", 1)[1]
    pattern = read(pair, BACK)
    assert [one.name for one in pattern.pieces] == ["left front", "back", "right front"]
    assert [one.count for one in pattern.pieces] == [1, 1, 1]
    assert pattern.pieces[0].left_outline == pattern.pieces[2].right_outline
    turned = read(pair.replace('side = "left"', 'side = "right"'))
    assert [one.name for one in turned.pieces] == ["right front", "left front"]


# ----------------------------------------------------------------------------------------- what cannot be planned


@pytest.mark.parametrize(
    ("pieces", "said"),
    [
        ((BACK.replace("depth = 22", "depth = 52"),),
         "armhole depth of 52 cm; there is room for less than the length of 52 cm, with a side left to be sewn"),
        ((BACK.replace("width = 6", "width = 25"),),
         "two armholes of 25 cm are 50 cm; there is room for less than the width of 50 cm there, with something left "
         "between"),
        ((BACK + "\nneck = { shoulder = 19, depth = 8 }",),
         "two armholes of 6 cm and two shoulders of 19 cm are 50 cm; there is room for less than the width of 50 cm "
         "there, with a neck left between (make one of them less)"),
        ((BACK + "\nslit = 27\nshoulder_slope = 4\nneck = { shoulder = 12, depth = 8 }",),
         "slit of 27 cm, armhole depth of 22 cm and shoulder slope of 4 cm are 53 cm; there is room for less than the "
         "length of 52 cm, with a side left to be sewn (make one of them less)"),
        ((BACK + "\nshoulder_slope = 12\nneck = { shoulder = 12, depth = 8 }",),
         "12 cm on a shoulder of 12 cm; every row goes in by half a cluster at least, and the last one has a cluster: "
         "there is room for "),
        ((BACK + "\nshoulder_slope = 3",),
         "no neck in this piece; a shoulder slopes from the arm up to a neck (give it `neck`, or leave "
         "`shoulder_slope` out)"),
        ((BACK + "\ntaper = { width = 44, end = 40 }",),
         "from 0 cm to 40 cm; there is room from 0 cm to the underarm at 30 cm"),
        ((BACK + "\nslit = 30",),
         "slit of 30 cm and armhole depth of 22 cm are 52 cm; there is room for less than the length of 52 cm, with a "
         "side left to be sewn (make one of them less)"),
        ((BACK.replace("22, width = 6 }", '1, width = 6, shape = "curved" }'),),
         "6 cm wide and 1 cm deep; a curved armhole slants over a third of its width, and must be deeper than that (or "
         'take shape = "square")'),
        ((BACK.replace("depth = 22", "depth = 1") + '\nworked = "sideways"',),
         "1 cm; worked sideways a cluster is added there at once: it must be more than 1.88 cm (or work the piece "
         "upwards)"),
        ((BACK + '\nneck = { shoulder = 6, depth = 8 }\nshoulder_slope = 9\nworked = "sideways"',),
         "9 cm on a shoulder of 6 cm; worked sideways every row goes up by half a cluster at most: there is room for "),
        ((BACK.replace("armhole", "outline = [[0, 40], [52, 30]]\narmhole").replace("width = 50\nlength = 52\n", ""),),
         "this piece has no width and length; `armhole` is for pieces with width and length"),
        (('name = "skirt"\nwidth = 50\nlength = 52\ntaper = { width = 40 }\nworked = "sideways"',),
         "the sides of a piece worked sideways are its first and its last row; a taper there would be rows that end on "
         "their way, which leaves steps in every side seam (work the piece upwards)"),
        ((SLEEVE,), '"back"; no piece has an `armhole`'),
        ((BACK, SLEEVE.replace("width = 36", "width = 58")),
         "a sleeve of 58 cm at an armhole of 45 cm from underarm to underarm; a cap as long as its armhole would have "
         "no height (make the sleeve narrower than 57 cm, or the armhole deeper)"),
        ((BACK, SLEEVE.replace('["back"] }', '["back"], top = 30 }')),
         "a sleeve of 36 cm with an underarm of 6 cm at each edge and a top of 30 cm; the cap must grow narrower from "
         "the underarm to its top (make the sleeve wider)"),
        ((FRONT.replace("width = 6 }", 'width = 6, edge = "left" }'),),
         "`edge` of an open front; its armhole is at its side (leave it out)"),
        ((BACK, 'name = "other"\nmirror = "bcak"'), 'there is no piece "bcak" to mirror; the pieces are "back" (did '
         'you mean "back"?)'),
        ((BACK, 'name = "other"\nmirror = "back"\nlength = 9'), "`length` together with `mirror`; a mirror image has "
         "the shape of its other; it may have "),
        ((BACK + "\nmirrored = true",), "count = 1; `mirrored` is for pieces made twice, as count = 2"),
        (('name = "a"\noutline = [[0, 9], [30, 9, "left"]]',), '"left"; must be a name without a point, and not '),
        (('name = "a"\noutline = [[0, 9, "side"], [30, 9]]',),
         'the name "side"; a name is that of the stretch which ends at its point (write it at the next point)'),
        (('name = "a"\ntriangle = { width = 9 }',), "no `height`; a triangle needs its height"),
        (('name = "a"\nwidth = 9\nlength = 9\ntaper = 5',),
         "5; must be written taper = { width = 60, start = 5, end = 40 }, or be a list of "),
    ],
)  # fmt: skip
def test_parts_that_collide_are_told_with_their_room(pieces: tuple[str, ...], said: str) -> None:
    (told,) = problems(*pieces)
    assert said in told


def test_collisions_along_and_across_are_told_together() -> None:
    """An armhole too deep beside a slit, and too wide beside the shoulders, are two lines of one message."""
    wrong = BACK.replace("22, width = 6", "40, width = 13") + "\nslit = 15\nneck = { shoulder = 12, depth = 8 }"
    along, across = problems(wrong)
    assert "slit of 15 cm and armhole depth of 40 cm are 55 cm" in along
    assert "two armholes of 13 cm and two shoulders of 12 cm are 50 cm" in across
