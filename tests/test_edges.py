"""The edges of a piece: counted and measured by hand, closed, and agreeing where they are sewn.

Source of every figure here: sums, done in this file, on a heron front of 47 rows worked by hand: 11 straight, 7
decreases, 11, 7 increases, 11.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import hypot
from pathlib import Path

import pytest
from hypothesis import given, settings

from turnchain.errors import PatternError
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import (
    armholes,
    dimensions,
    edges,
    finishing,
    openings,
    roles,
    seam_words,
    seams,
    sleeves,
    stretches,
)
from turnchain.garment.edges import Point
from turnchain.garment.named_stretches import ends
from turnchain.pages.report import report
from turnchain.pattern import Neck, OutlineStretch, Pattern, Piece, Seam, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.records import replace
from turnchain.yarns import stripes
from workable import patterns

CASES = Path(__file__).parent / "cases"
# The heron swatch: 11 clusters in 26 cm, 18 rows in 21 cm.
HALF, ROW = Fraction(13, 11), Fraction(7, 6)
SWATCH = Swatch(Fraction(11), Fraction(26), Fraction(18), Fraction(21))
# 5 clusters and 10 rows to 10 cm: half a pitch and a row are 1 cm.
EVEN = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))


def heron() -> Plan:
    return plan_pattern(read_file(CASES / "heron_top.toml"))


def panel(name: str, width: int, length: int, worked: str = "upwards", neck: Neck | None = None) -> Piece:
    return Piece(
        name,
        "sideways" if worked == "sideways" else "upwards",
        width=Fraction(width),
        length=Fraction(length),
        neck=neck,
    )


def planned(*pieces: Piece, swatch: Swatch = EVEN, joins: tuple[tuple[str, str], ...] = ()) -> Plan:
    return plan_pattern(Pattern("Test", (swatch,), pieces, seams=tuple(Seam(join) for join in joins)))


def area_of(points: tuple[Point, ...]) -> Fraction:
    """The area within a closed line walked with the inside at the left hand (shoelace formula)."""
    return sum((x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise((*points, points[0]))), Fraction(0)) / 2


def rows_area(piece: PiecePlan) -> Fraction:
    """The area as a sum of trapezia, row by row."""
    total = Fraction(0)
    for row in piece.rows:
        below = piece.below(row)
        low = [row.left.at, row.right.at]
        if below is not None:
            pairs = ((row.left, below.left), (row.right, below.right))
            low = [edge.at if edge.step else under.at for edge, under in pairs]
        total += Fraction(row.right.at - row.left.at + low[1] - low[0], 2)
    return total * piece.gauge.half * piece.gauge.row


# ---------------------------------------------------------------------------------------------- counted by hand


def test_the_edges_of_the_heron_front() -> None:
    found = edges.of(heron().piece("front"))
    assert set(found) == {"first", "last", "lower", "upper", "shoulder", "neck"}
    assert [run.rows for run in found["shoulder"].runs] == [(1, 11), (37, 47)]
    assert [run.rows for run in found["neck"].runs] == [(12, 36)]
    assert found["shoulder"].length == 22 * ROW
    slanted = 14 * hypot(HALF, ROW)
    assert float(found["neck"].length) == pytest.approx(slanted + 11 * ROW, abs=1e-4)
    assert (found["first"].clusters, found["first"].length) == (22, 45 * HALF)
    assert (found["lower"].rows, found["lower"].length) == (47, 47 * ROW)


def test_a_back_that_faces_a_front_has_its_rows_at_the_same_places() -> None:
    """Row 1 of both lies at one side seam, so shoulders meet row for row."""
    front, back = (heron().piece(name) for name in ("front", "back"))
    assert [run.rows for run in edges.of(front)["shoulder"].runs] == [(1, 11), (37, 47)]
    assert [run.rows for run in edges.of(back)["shoulder"].runs] == [(47, 37), (11, 1)]


def test_a_neck_that_divides_has_three_runs_and_its_shoulders_are_tops() -> None:
    neck = Neck(Fraction(13), Fraction(8), "square")
    (piece,) = planned(panel("front", 54, 52, neck=neck), swatch=SWATCH).pieces
    found = edges.of(piece)
    assert set(found) == {"first", "last", "left", "right", "shoulder", "neck"}
    down, across, up = found["neck"].runs
    # 45 rows, divided after row 38 from 17 to 29 half pitches from each side: see the plan of the neck.
    assert (down.rows, up.rows) == ((45, 39), (39, 45))
    assert across.length == (45 - 2 * 11 + 1) * HALF
    assert found["shoulder"].length == 2 * 11 * HALF
    assert found["last"].length == found["shoulder"].length


def test_a_square_neck_worked_sideways_keeps_whole_rows_on_the_shoulder() -> None:
    """A row that begins on a step stands at its full length: it belongs to the shoulder, not to the neck."""
    neck = Neck(Fraction(13), Fraction(8), "square")
    (piece,) = planned(panel("front", 54, 52, "sideways", neck), swatch=SWATCH).pieces
    full = [row.number for row in piece.rows if row.right.at == piece.rows[0].right.at]
    runs = edges.of(piece)["shoulder"].runs
    assert sorted(number for run in runs for number in range(run.rows[0], run.rows[1] + 1) if run.rows) == full


@pytest.mark.parametrize("worked", ["sideways", "upwards"])
@pytest.mark.parametrize("shape", ["slant", "round", "vee", "square"])
def test_outlines_close_and_hold_the_area_of_the_rows(worked: str, shape: str) -> None:
    neck = Neck(Fraction(13), Fraction(8), shape)  # type: ignore[arg-type]
    (piece,) = planned(panel("front", 54, 52, worked, neck), swatch=SWATCH).pieces
    runs = edges.around(piece)
    assert all(one.points[-1] == other.points[0] for one, other in pairwise((*runs, runs[0])))
    assert area_of(edges.outline(piece)) == rows_area(piece)


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_the_cases_close_and_hold_their_area(case: str) -> None:
    for piece in plan_pattern(read_file(CASES / f"{case}.toml")).pieces:
        assert area_of(edges.outline(piece)) == rows_area(piece)
        assert sum(run.row_count for run in edges.around(piece)) == 2 * piece.row_count


@pytest.mark.slow
@given(patterns())
@settings(max_examples=150)
def test_any_outline_closes_and_holds_its_area(pattern: Pattern) -> None:
    try:
        plan = plan_pattern(pattern)
    except PatternError:
        return
    for piece in plan.pieces:
        runs = edges.around(piece)
        assert all(one.points[-1] == other.points[0] for one, other in pairwise((*runs, runs[0])))
        assert area_of(edges.outline(piece)) == rows_area(piece)
        assert seam_words.lines(plan) is not None


@pytest.mark.parametrize("name", ["kite_kerchief", "heron_top"])
def test_a_body_is_as_wide_and_as_long_as_the_line_round_it(name: str) -> None:
    for piece in plan_pattern(read_file(CASES / f"{name}.toml")).pieces:
        (left, low), (right, high) = dimensions.box(piece)
        fits = tuple(one for one in piece.fit if one.measure not in ("width", "length"))
        bare = replace(piece, fit=fits) if piece.worked == "upwards" else piece
        assert (dimensions.body_width(bare), dimensions.body_length(bare)) == (right - left, high - low)


def test_as_worn_the_upper_edge_is_up() -> None:
    for piece in heron().pieces[:2]:
        turn = edges.worn(piece)
        found = edges.of(piece)
        heights = [turn(point)[1] for point in found["shoulder"].points]
        assert min(heights) > max(turn(point)[1] for point in found["lower"].points)


# -------------------------------------------------------------------------------------------------------- seams


def test_the_seams_of_the_heron_top_agree() -> None:
    plan = heron()
    found = seams.of(plan)
    assert [seam.kind for seam in found] == ["shoulder"] * 2 + ["sleeve top"] * 4 + ["side"] * 2 + ["sleeve"] * 2
    assert [seam.letter for seam in found] == list("AABBBBCCCC")
    assert all(seam.agrees and seam.assumed for seam in found)
    # Both halves of a sleeve's top and the side below it make the whole side: 45 half pitches.
    halves = sum(seam.one.length for seam in found if seam.letter == "B")
    sides = sum(seam.one.length for seam in found if seam.kind == "side")
    assert halves + 2 * sides == 4 * 45 * HALF


def test_seams_are_told_with_the_rows_that_meet() -> None:
    assert seam_words.lines(heron())[:3] == [
        "no seams in the pattern file: those of a drop-shoulder garment are assumed",
        "seam A, shoulder: front.shoulder, rows 1 to 11, to back.shoulder, rows 1 to 11, 12.83 cm to 12.83 cm: they "
        "agree, row for row",
        "seam A, shoulder: front.shoulder, rows 37 to 47, to back.shoulder, rows 37 to 47, 12.83 cm to 12.83 cm: they "
        "agree, row for row",
    ]


def test_a_seam_that_does_not_agree_gives_its_difference() -> None:
    plan = planned(panel("one", 20, 40), panel("two", 20, 42), joins=(("one.right", "two.left"),))
    (seam,) = seams.of(plan)
    assert (seam.difference, seam.off, seam.agrees, seam.assumed) == (-2, -2, False, False)
    assert seam_words.lines(plan) == [
        "seam A, seam: one.right, rows 1 to 40, to two.left, rows 1 to 42, 40 cm to 42 cm: two.left is 2 cm longer "
        "(2 rows); ease it in evenly along the seam; sew 1 row to 1 row, at every 20th row 2, 2 times in all"
    ]


def test_two_shoulders_on_one_edge_are_told_twice() -> None:
    pieces = panel("one", 20, 20, neck=Neck(Fraction(6), Fraction(6), "square")), panel("two", 20, 20)
    (line,) = seam_words.lines(planned(*pieces, joins=(("one.shoulder", "two.last"),)))
    assert line.startswith("seam A, shoulder, 2 times: one.shoulder, 3 clusters, to two.last, 3 clusters, ")


def test_half_a_sleeves_top_is_whole_rows() -> None:
    """Of 25 rows the front has 13 at both sides, the back 12."""
    body = [panel(name, 40, 40, "sideways") for name in ("front", "back")]
    sleeve = replace(panel("sleeve", 25, 20, "sideways"), count=2)
    tops = [seam for seam in seams.of(planned(*body, sleeve)) if seam.kind == "sleeve top"]
    assert sorted((seam.one.piece.name, seam.other.count, seam.other.length) for seam in tops) == [
        ("back", 12, 12), ("back", 12, 12), ("front", 13, 13), ("front", 13, 13)
    ]  # fmt: skip


def test_a_seam_far_apart_is_not_to_be_eased_in() -> None:
    plan = planned(panel("one", 20, 40), panel("two", 20, 50), joins=(("one.right", "two.left"),))
    (line,) = seam_words.lines(plan)
    assert line.endswith("two.left is 10 cm longer (10 rows); more than can be eased in: make the two agree, or leave "
                         "the rest open")  # fmt: skip


def test_rows_sewn_to_clusters_are_compared_by_length() -> None:
    plan = planned(panel("one", 40, 20), panel("two", 20, 41), joins=(("one.last", "two.left"),))
    (seam,) = seams.of(plan)
    assert (seam.difference, seam.one.unit, seam.other.unit) == (None, "clusters", "rows")
    assert seam.off == seam.one.length - 41


def test_a_back_without_a_neck_gives_the_shoulders_what_they_need() -> None:
    neck = Neck(Fraction(13), Fraction(8))
    front = panel("front", 50, 50, "sideways", neck)
    back = replace(panel("back", 50, 50, "sideways"), faces="front")
    plan = planned(front, back)
    shoulders = [seam for seam in seams.of(plan) if seam.kind == "shoulder"]
    assert [seam.difference for seam in shoulders] == [0, 0]
    assert [seam.other.edge for seam in shoulders] == ["upper", "upper"]


def test_shoulders_sewn_to_an_edge_with_a_neck_in_its_middle_meet_both_its_ends() -> None:
    """They were told as one stretch, with the neck that lies between them."""
    front = panel("front", 50, 50, "sideways", Neck(Fraction(13), Fraction(8)))
    back = panel("back", 50, 50, "sideways", Neck(Fraction(15), Fraction(4)))
    plan = planned(front, back, joins=(("front.shoulder", "back.upper"),))
    one, other = seams.of(plan)
    last = plan.piece("back").row_count
    ends = {(one.one.rows, one.other.rows), (other.one.rows, other.other.rows)}
    assert ends == {((1, 13), (last - 12, last)), ((last - 12, last), (1, 13))}
    assert one.agrees
    assert other.agrees


def test_pieces_that_are_no_garment_have_no_seams() -> None:
    for case in ("kite_kerchief", "mudflat_blanket"):
        plan = plan_pattern(read_file(CASES / f"{case}.toml"))
        assert seams.of(plan) == ()
        assert seam_words.lines(plan) == []


# -------------------------------------------------------------------------------------------------------- roles


def test_roles_by_name_by_facing_and_by_count() -> None:
    neck = Neck(Fraction(13), Fraction(8))
    names = ("left front", "Back_2", "sleeves", "background")
    named = planned(*(panel(name, 20, 40) for name in names))
    assert [part.role for part in roles.parts(named)] == ["front", "back", "sleeve", "other"]
    facing = planned(panel("sun", 50, 50, "sideways"), replace(panel("moon", 50, 50, "sideways"), faces="sun"))
    assert roles.assumptions(facing) == [
        "sun is taken for the front: moon faces it",
        "moon is taken for the back: it faces sun",
    ]
    twice = planned(Piece("panel", "upwards", 2, width=Fraction(50), length=Fraction(50), neck=neck))
    assert roles.assumptions(twice) == ["panel is taken for front and back alike: it has a neck and is made twice"]


def test_a_scarf_end_made_twice_is_no_sleeve() -> None:
    tapered = ((Fraction(0), Fraction(10)), (Fraction(30), Fraction(22)))
    plan = planned(panel("front", 50, 50), panel("back", 50, 50), Piece("scarf end", count=2, outline=tapered))
    assert [part.role for part in roles.parts(plan)] == ["front", "back", "scarf"]


def test_seams_named_in_the_file_are_those_that_would_be_assumed() -> None:
    """A maker who writes down the seams of a drop-shoulder garment gets the same stretches sewn to one another."""
    plan = heron()
    joins = [
        ("front.shoulder", "back.shoulder"),
        ("front.first", "sleeve.first"),
        ("sleeve.first", "back.first"),
        ("front.last", "sleeve.first"),
        ("back.last", "sleeve.first"),
        ("front.first", "back.first"),
        ("front.last", "back.last"),
        ("sleeve.left", "sleeve.right"),
    ]
    named = plan_pattern(replace(plan.pattern, seams=tuple(Seam(join) for join in joins)))

    def stretches(found: Plan) -> set[frozenset[object]]:
        return {
            frozenset((side.name, side.copy, side.points) for side in (seam.one, seam.other))
            for seam in seams.of(found)
        }

    assert stretches(named) == stretches(plan)
    assert not any(seam.assumed for seam in seams.of(named))
    assert all(seam.agrees for seam in seams.of(named))


def test_a_seam_at_a_neck_that_the_stitches_have_not_is_told() -> None:
    """Found by random files: a neck wished for, but less than half a cluster deep, has no edge to be sewn."""
    neck = Neck(Fraction(1), Fraction(1, 5))
    front, back = (panel(name, 3, 20, "sideways", neck) for name in ("front", "back"))
    plan = planned(front, back, joins=(("front.neck", "back.upper"), ("front.first", "back.first")))
    assert "neck" not in edges.of(plan.piece("front"))
    assert [seam.one.edge for seam in seams.of(plan)] == ["first"]
    assert "front.neck cannot be sewn: in this plan there is no such edge" in seam_words.lines(plan)


def test_a_sleeve_worked_sideways_is_sewn_at_its_upper_edge_and_its_ends() -> None:
    """Found by random files: it has no left and right edge; its seam under the arm joins its first and last row."""
    neck = Neck(Fraction(8), Fraction(4))
    front, back = (panel(name, 40, 40, "sideways", neck) for name in ("front", "back"))
    plan = planned(front, back, replace(panel("sleeve", 30, 35, "sideways"), count=2))
    found = seams.of(plan)
    assert {seam.other.edge for seam in found if seam.kind == "sleeve top"} == {"upper"}
    assert {(seam.one.edge, seam.other.edge) for seam in found if seam.kind == "sleeve"} == {("last", "first")}
    assert sleeves.top(plan.piece("sleeve")).name == "upper"


def test_a_stretch_of_an_edge_is_cut_once_whatever_is_asked_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The report of a top asked 158 times, each time along all rows of the edge."""
    cuts: list[Fraction] = []
    whole_cut = stretches.cut

    def counting(points: tuple[Point, ...], start: Fraction, end: Fraction) -> tuple[Point, ...]:
        cuts.append(end)
        return whole_cut(points, start, end)

    monkeypatch.setattr(stretches, "cut", counting)
    front, back = (panel(name, 40, 60) for name in ("front", "back"))
    report(planned(front, back, replace(panel("sleeve", 30, 30), count=2)))
    assert 0 < len(cuts) <= 40


@pytest.mark.parametrize(("long", "said"), [
    (41, "two, right edge is 1 cm longer (1 row); ease it in evenly along the seam"),
    (50, "two, right edge is 10 cm longer (10 rows), more than can be eased in: leave the rest open"),
])  # fmt: skip
def test_who_sews_reads_by_how_many_rows_an_edge_is_longer(long: int, said: str) -> None:
    plan = planned(panel("one", 20, 40), panel("two", 20, long), joins=(("one.right", "two.right"),))
    assert said in finishing.text(plan)


@pytest.mark.parametrize(("lengths", "longer"), [((40, 41), "two"), ((41, 40), "one")])
def test_who_sews_reads_which_of_two_edges_is_longer(lengths: tuple[int, int], longer: str) -> None:
    plan = planned(panel("one", 20, lengths[0]), panel("two", 20, lengths[1]), joins=(("one.right", "two.right"),))
    assert f"{longer}, right edge is 1 cm longer" in finishing.text(plan)


def test_who_sews_rows_to_clusters_reads_no_rows() -> None:
    plan = planned(panel("one", 40, 20), panel("two", 20, 45), joins=(("one.last", "two.left"),))
    (line,) = [line for line in finishing.text(plan).split("\n") if "longer" in line]
    assert "longer (" not in line


def test_a_border_that_is_worked_once_says_no_times() -> None:
    pair = planned(panel("one", 20, 40), panel("two", 20, 40), joins=(("one.right", "two.left"),))
    assert "- open edge: " in finishing.text(pair)
    assert "- square, all round, 2 times: " in finishing.text(planned(replace(panel("square", 20, 20), count=2)))


def test_clusters_are_told_to_the_nearest_half() -> None:
    assert [seam_words.to_half(Fraction(count, 12)) for count in (28, 26, 30, -28)] == [
        Fraction(5, 2), Fraction(2), Fraction(5, 2), Fraction(-5, 2)
    ]  # fmt: skip


def test_shoulders_meet_the_ends_of_an_edge_whichever_is_named_first() -> None:
    """Two shoulders of 6 of 20 half pitches meet 6 at either end."""
    pieces = (panel("one", 20, 20, neck=Neck(Fraction(6), Fraction(5))), panel("two", 20, 20))
    for join in (("one.shoulder", "two.last"), ("two.last", "one.shoulder")):
        sides = [{side.piece.name: side.length for side in (seam.one, seam.other)}
                 for seam in seams.of(planned(*pieces, joins=(join,)))]  # fmt: skip
        assert len(sides) == 2
        assert all(abs(side["one"] - 6) <= 1 and abs(side["two"] - 6) <= 1 for side in sides)


@pytest.mark.parametrize(("edge", "names"), [
    ("right", ("second shoulder", "first shoulder")), ("left", ("first shoulder", "second shoulder")),
])  # fmt: skip
def test_a_shoulder_is_called_by_the_end_of_the_work_it_lies_at(edge: str, names: tuple[str, str]) -> None:
    """With its right edge up the first row is at the right, with its left edge up at the left."""
    front = panel("front", 50, 50, "sideways", Neck(Fraction(13), Fraction(8)))
    (piece,) = planned(replace(front, neck_edge=edge)).pieces
    assert dimensions._shoulder_names(piece) == ("shoulder", "shoulder")
    fit = [one for one in piece.fit if one.measure != "shoulder"]
    fit += [replace(piece.fit[0], measure=name) for name in names]
    assert dimensions._shoulder_names(replace(piece, fit=tuple(fit))) == names


@pytest.mark.parametrize("worked", ["upwards", "sideways"])
def test_stripes_meet_where_rows_end(worked: str) -> None:
    """Two pieces sewn along an edge share their stripes just where that edge is made of the ends of rows."""
    neck = Neck(Fraction(10), Fraction(6)) if worked == "sideways" else None
    for edge, run in edges.of(planned(panel("one", 40, 30, worked, neck)).pieces[0]).items():
        pieces = [panel(name, 40, 30, worked, neck) for name in ("one", "two")]
        plan = planned(*pieces, joins=((f"one.{edge}", f"two.{edge}"),))
        ends = all(one.meets == "row ends" for one in run.runs)
        assert (stripes.sharing(plan, "one") == {"one", "two"}) is ends, edge


@pytest.mark.parametrize("sides", [("left",), ("left", "right")])
def test_a_stretch_of_a_piece_made_twice_is_sewn_from_one_copy_to_the_other(sides: tuple[Side, ...]) -> None:
    points = ((Fraction(0), Fraction(20)), (Fraction(40), Fraction(20)))
    named = tuple(OutlineStretch("hem", side, Fraction(0), Fraction(30)) for side in sides)
    plan = planned(Piece("one", count=2, outline=points, stretches=named), joins=(("one.hem", "one.hem"),))
    pairs = ends(plan, ("one.hem", "one.hem"), (0, 1))
    assert len(pairs) == len(sides)
    assert {(one.copy, other.copy) for one, other in pairs} == {(0, 1)}


# ---------------------------------------------------------------------------------------- sleeves, caps, stretches


def capped(*sides: Side, rows: int = 20, clusters: int = 10, last: int = 8) -> PiecePlan:
    """A sleeve 20 cm wide at 1 cm to a half pitch and a row, ``last`` of them at its top: 10 rows straight, a step of 1
    cm under the arm at both edges, then sloping, with a cap from 10 cm up at these ``sides``."""
    wide = Fraction(clusters)
    line = ((Fraction(0), wide), (Fraction(10), wide), (Fraction(10), wide - 1), (Fraction(rows), Fraction(last, 2)))
    parts = [
        OutlineStretch(name, side, low, high)
        for side in sides
        for name, low, high in (("underarm", Fraction(10), Fraction(10)), ("cap", Fraction(10), Fraction(rows)))
    ]
    made = Piece("sleeve", count=2, left_outline=line, right_outline=line, stretches=tuple(parts))
    return planned(made).pieces[0]


def length(points: tuple[Point, ...]) -> float:
    return sum(hypot(one[0] - other[0], one[1] - other[1]) for one, other in pairwise(points))


@pytest.mark.parametrize("sides", [(), ("left",), ("right",)])
def test_a_sleeve_has_a_cap_where_both_its_edges_have_one(sides: tuple[Side, ...]) -> None:
    sleeve = capped(*sides)
    assert not sleeves.has_cap(sleeve)
    assert sleeves.cap_height(sleeve) == 0
    assert sleeves.top_name(sleeve) == "first"
    for name in ("left", "right"):
        (part,) = sleeves.own_edge(sleeve, name)
        assert part.whole


@pytest.mark.parametrize("last", [7, 8, 9])
@pytest.mark.parametrize("copy", [0, 1])
def test_the_halves_of_a_cap_are_all_of_the_outline_above_the_arm(last: int, copy: int) -> None:
    """From the foot of its step at one edge over the last row to the other edge's: 10 rows and 1 cm at each, and what
    lies below, the sleeve's own seam, is 10 rows. Both halves meet within half a half pitch of the middle."""
    sleeve = capped("left", "right", last=last)
    assert sleeves.has_cap(sleeve)
    assert (sleeves.top_name(sleeve), sleeves.cap_height(sleeve)) == ("cap", 10)
    one, other = sleeves.halves(sleeve, copy)
    assert [part.run.name for part in (*one, *other)] == ["right", "last", "last", "left"]
    points = [point for part in (*one, *other) for point in part.points]
    top = sleeve.rows[-1]
    low = sleeve.rows[9]
    assert points[0] == (low.right.at, 10)
    assert points[-1] == (low.left.at, 10)
    assert max(point[1] for point in points) == 20
    assert abs(one[1].points[-1][0] - Fraction(top.left.at + top.right.at, 2)) <= Fraction(1, 2)
    assert one[1].end == other[0].start
    assert float(sleeves.top_length(sleeve)) == pytest.approx(length(tuple(points)), abs=1e-4)
    for name in ("left", "right"):
        (part,) = sleeves.own_edge(sleeve, name)
        assert set(part.rows or ()) == {1, 10}
        assert part.length == 10


@pytest.mark.parametrize("rows", [24, 25])
@pytest.mark.parametrize("copy", [0, 1])
def test_of_an_odd_number_of_rows_the_half_at_the_front_has_one_more(rows: int, copy: int) -> None:
    """Whichever sleeve it is: the front lies at the second half of the one, at the first half of the other."""
    sleeve = planned(replace(panel("sleeve", rows, 20, "sideways"), count=2)).pieces[0]
    one, other = (half[0].row_count for half in sleeves.halves(sleeve, copy))
    assert one + other == rows
    assert one - other == (0 if rows == 24 else 1 if copy else -1)


@pytest.mark.parametrize(("low", "high", "name"), [(30, 20, "first"), (20, 30, "last"), (24, 24, "first")])
def test_a_sleeve_meets_the_body_at_its_longer_end(low: int, high: int, name: str) -> None:
    line = ((Fraction(0), Fraction(low)), (Fraction(20), Fraction(high)))
    (sleeve,) = planned(Piece("sleeve", outline=line, row_plan="alike")).pieces
    assert sleeves.top(sleeve).name == name
    assert sleeves.top_length(sleeve) == edges.of(sleeve)[name].length
    assert abs(sleeves.top_length(sleeve) - max(low, high)) <= 1


def outlined_stretch(low: int, high: int, side: Side, name: str = "hem") -> OutlineStretch:
    return OutlineStretch(name, side, Fraction(low), Fraction(high))


@pytest.mark.parametrize("side", ["left", "right"])
def test_named_stretches_lie_where_they_are_wanted_and_one_begins_where_the_other_ends(side: Side) -> None:
    """20 straight rows of 1 cm, then a step out of 4 cm and 20 more: 8 rows, 12, the step, 15; where a row begins
    at the other edge the step is worked a row later."""
    line = tuple((Fraction(high), Fraction(wide)) for high, wide in ((0, 10), (20, 10), (20, 14), (40, 14)))
    wanted = (outlined_stretch(0, 8, side, "slit"), outlined_stretch(8, 20, side, "side"),
              outlined_stretch(20, 20, side, "underarm"), outlined_stretch(20, 35, side, "sleeve"))  # fmt: skip
    (piece,) = planned(Piece("one", left_outline=line, right_outline=line, stretches=wanted)).pieces
    found = stretches.named(piece, side)
    assert stretches.named(piece, "right" if side == "left" else "left") == {}
    assert [*found] == ["slit", "side", "underarm", "sleeve"]
    foot = next(row.number for row in piece.rows if row.edge(side).step) - 1
    assert foot in (20, 21)
    assert [sorted(part.rows or ()) for part in found.values()] == [[1, 8], [9, foot], [], [foot + 1, 35]]
    assert [part.length for part in found.values()] == [8, foot - 8, 4, 35 - foot]
    assert [part.row_count for part in found.values()] == [8, foot - 8, 0, 35 - foot]
    heights = [sorted({part.points[0][1], part.points[-1][1]}) for part in found.values()]
    assert heights == [[0, 8], [8, foot], [foot], [foot, 35]]


@pytest.mark.parametrize(("one", "other", "met"), [
    (("left", "right"), ("left", "right"), {("right", "left"), ("left", "right")}),
    (("left",), ("right",), {("left", "right")}),
    (("right",), ("left",), {("right", "left")}),
    (("left",), ("left",), {("left", "left")}),
    (("left", "right"), ("left",), {("right", "left")}),
    (("right",), ("left", "right"), {("right", "left")}),
])  # fmt: skip
def test_a_stretch_meets_its_like_at_the_edge_across_where_there_is_one(
    one: tuple[Side, ...], other: tuple[Side, ...], met: set[tuple[Side, Side]]
) -> None:
    line = ((Fraction(0), Fraction(20)), (Fraction(40), Fraction(20)))
    pieces = [
        Piece(name, outline=line, stretches=tuple(outlined_stretch(0, 30, side) for side in sides))
        for name, sides in (("one", one), ("two", other))
    ]
    plan = planned(*pieces, joins=(("one.hem", "two.hem"),))
    assert {(seam.one.edge, seam.other.edge) for seam in seams.of(plan)} == met
    assert {(seam.one.piece.name, seam.other.piece.name) for seam in seams.of(plan)} == {("one", "two")}
    assert all(seam.agrees and seam.one.length == 30 for seam in seams.of(plan))


@pytest.mark.parametrize(("sides", "edge", "met"), [
    (("left", "right"), "left", [("right", 0)]),
    (("left", "right"), "right", [("left", 0)]),
    (("left",), "left", [("left", 0)]),
    (("left", "right"), "first", [("right", 0), ("left", 1)]),
    (("right",), "last", [("right", 0)]),
])  # fmt: skip
@pytest.mark.parametrize("turned", [False, True])
def test_a_stretch_sewn_to_a_whole_edge_goes_across_or_takes_a_copy_at_each(
    sides: tuple[Side, ...], edge: str, met: list[tuple[str, int]], turned: bool
) -> None:
    line = ((Fraction(0), Fraction(20)), (Fraction(40), Fraction(20)))
    body = Piece("one", outline=line, stretches=tuple(outlined_stretch(0, 30, side) for side in sides))
    join = ("one.hem", f"two.{edge}")
    plan = planned(body, replace(panel("two", 30, 30), count=2), joins=(join[::-1] if turned else join,))
    found = [(seam.other, seam.one) if turned else (seam.one, seam.other) for seam in seams.of(plan)]
    assert [(one.edge, other.copy) for one, other in found] == met
    assert {(one.piece.name, other.name) for one, other in found} == {("one", f"two.{edge}")}
    assert all(other.whole for _, other in found)


@pytest.mark.parametrize("name", ["one", "sleeve"])
def test_a_stretch_sewn_to_itself_joins_both_edges_or_of_two_like_pieces_one_to_the_other(name: str) -> None:
    line = ((Fraction(0), Fraction(20)), (Fraction(40), Fraction(20)))
    both = tuple(outlined_stretch(0, 30, side) for side in ("left", "right"))
    made = Piece(name, count=2, outline=line, stretches=both)
    plan = planned(made, joins=((f"{name}.hem", f"{name}.hem"),))
    met = [(seam.one.edge, seam.one.copy, seam.other.edge, seam.other.copy) for seam in seams.of(plan)]
    if name == "sleeve":
        assert met == [("right", 0, "left", 0), ("right", 1, "left", 1)]
    else:
        assert met == [("right", 0, "left", 1), ("left", 0, "right", 1)]
    single = planned(replace(made, count=1), joins=((f"{name}.hem", f"{name}.hem"),))
    assert [(seam.one.edge, seam.other.edge) for seam in seams.of(single)] == [("right", "left")]


# ------------------------------------------------------------------------------------------------------- armholes


@pytest.mark.parametrize(("wide", "size"), [(38, "8"), (39, "10")])
def test_a_likely_body_is_the_one_whose_bust_is_nearest_to_the_width_without_ease(wide: int, size: str) -> None:
    """Busts of 26.5 in (child 8) and 28 in (child 10) are 67.31 and 71.12 cm, halfway 69.2: 2 x 38 - 7.5 cm is
    less, 2 x 39 - 7.5 more. Armholes of 5.5 and 6 in (published, second hand)."""
    front = panel("front", wide, 40, "sideways", Neck(Fraction(8), Fraction(6)))
    plan = planned(front, replace(front, name="back"))
    found = seams.bare_armhole(plan)
    assert found is not None
    assert found.from_ == f"size table, child {size}"
    assert found.cm == Fraction(254, 100) * {"8": Fraction(11, 2), "10": Fraction(6)}[size]


@pytest.mark.parametrize("shaped", [("front",), ("back",), ("front", "back"), ()])
def test_a_top_has_armholes_where_one_piece_has_them(shaped: tuple[str, ...]) -> None:
    """What the other leaves of its straight side is as long: 20 rows below, 20 rows and a step of 4 cm above."""
    line = ((Fraction(0), Fraction(30)), (Fraction(20), Fraction(30)), (Fraction(20), Fraction(22)),
            (Fraction(40), Fraction(22)))  # fmt: skip
    pieces = [Piece(name, outline=line) if name in shaped else panel(name, 30, 40) for name in ("front", "back")]
    plan = planned(*pieces)
    assert seams.has_armholes(plan) is bool(shaped)
    assert seams.is_top(plan) is bool(shaped)
    assert seams.bare_armhole(plan) is None
    sides = [(seam.one.count, seam.other.count) for seam in seams.of(plan) if seam.kind == "side"]
    assert sides == [(20, 20) if shaped else (40, 40)] * 2


# ----------------------------------------------------------------------------------------- upper edges with parts

SQUARE = 'title = "Test"\nswatch = { clusters = 5, width = 10, rows = 10, height = 10 }\n[[piece]]\nname = "front"\n'
SIDEWAYS = 'worked = "sideways"\nwidth = 40\nlength = 40\n'
NECK = 'neck = { shoulder = 8, depth = 6, shape = "square" }\n'
MIDDLE = ("shoulder", "neck", "shoulder")


@pytest.mark.parametrize("up", ["left", "right"])
@pytest.mark.parametrize(("parts", "names"), [
    (NECK, MIDDLE),
    (NECK + "armhole = { depth = 10, width = 4 }", ("armhole", *MIDDLE, "armhole")),
    (NECK + 'armhole = { depth = 10, width = 4, edge = "left" }', ("armhole", *MIDDLE)),
    (NECK + 'armhole = { depth = 10, width = 4, edge = "right" }', (*MIDDLE, "armhole")),
    ("armhole = { depth = 10, width = 4 }", ("armhole", "upper", "armhole")),
    ('armhole = { depth = 10, width = 4, edge = "right" }', ("upper", "armhole")),
    (NECK + 'front = { side = "left", overlap = 0 }\narmhole = { depth = 10, width = 4 }',
     ("neck", "shoulder", "armhole")),
    (NECK + 'front = { side = "right", overlap = 0 }\narmhole = { depth = 10, width = 4 }',
     ("armhole", "shoulder", "neck")),
    (NECK + 'front = { side = "left", overlap = 0 }', ("neck", "shoulder")),
    (NECK + 'front = { side = "right", overlap = 0 }', ("shoulder", "neck")),
])  # fmt: skip
def test_the_parts_of_an_upper_edge_follow_each_other_as_worn(up: str, parts: str, names: tuple[str, ...]) -> None:
    """From the left as worn. Every row ends there once: on the shoulder where it stands as high as any, else in the
    neck or an armhole, 6 or 10 cm lower; whichever edge of the work is up. With an armhole at the end of its last
    row alone a panel was once shorter by its depth."""
    (piece,) = plan_pattern(read_text(f'{SQUARE}{SIDEWAYS}neck_edge = "{up}"\n{parts}', "x.toml")).pieces
    side: Side = "left" if up == "left" else "right"
    outwards = 1 if side == "right" else -1
    reach = {row.number: outwards * row.edge(side).at for row in piece.rows}
    runs = [run for run in edges.around(piece) if run.name in {*names}]
    turn = edges.worn(piece)
    runs.sort(key=lambda run: sum(turn(point)[0] for point in run.points) / len(run.points))
    assert tuple(run.name for run in runs) == names
    ends = [number for run in runs if run.rows for number in range(min(run.rows), max(run.rows) + 1)]
    assert sorted(ends) == [*range(1, piece.row_count + 1)]
    top = max(reach.values())
    for run in runs:
        assert run.rows is not None
        lower = {top - reach[number] for number in range(min(run.rows), max(run.rows) + 1)}
        near = {"neck": range(8), "armhole": range(9, 12)}.get(run.name, range(1))
        assert lower <= {*near}, run.name
        assert run.name != "neck" or max(lower) in (5, 6, 7)
        assert run.row_count in {"neck": range(7, 26), "armhole": range(3, 6)}.get(run.name, range(7, 41))
    for name in {*names}:
        assert edges.of(piece)[name].rows == sum(run.row_count for run in runs if run.name == name)
    level = [run for run in runs if "neck" in names or run.name == "upper"]  # without a neck between the armholes
    assert edges.of(piece)["upper"].length == sum(run.length for run in level)
    assert abs(max(row.right.at - row.left.at for row in piece.rows) - 40) <= 1
    assert area_of(edges.outline(piece)) == rows_area(piece)


@pytest.mark.parametrize("up", ["left", "right"])
@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("deep", [None, 10])
def test_the_sides_of_a_panel_worked_sideways_end_below_its_armholes(up: str, side: str, deep: int | None) -> None:
    """40 cm of side less 10 of armhole, at the end of the work that lies at that side as worn; an armhole is its step
    and the 4 rows beyond it."""
    arm = f'armhole = {{ depth = {deep}, width = 4, edge = "{side}" }}' if deep else ""
    (piece,) = plan_pattern(read_text(f'{SQUARE}{SIDEWAYS}neck_edge = "{up}"\n{NECK}{arm}', "x.toml")).pieces
    names = edges.side_names(piece)
    for right in (False, True):
        body = armholes.SideEdge(piece, names[right], right)
        armed = deep is not None and (side == "right") is right
        turn = edges.worn(piece)
        across = {turn(point)[0] for point in body.run.points}
        every = [turn(point)[0] for run in edges.around(piece) for point in run.points]
        assert across == {max(every) if right else min(every)}
        assert abs(body.length - (30 if armed else 40)) <= 1
        assert body.shaped() == (0 if armed else None)
        name, stretch = body.armhole(Fraction(12))
        assert name == ("armhole" if armed else body.edge)
        assert stretch.length == (body.apart.length if body.apart else 12)
        heights = [turn(point)[1] for point in stretch.points]
        assert max(heights) == max(turn(point)[1] for run in edges.around(piece) for point in run.points)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_the_middle_of_half_a_front_is_its_front_edge_and_above_that_its_neck(hand: Side) -> None:
    """56 cm with a neck 12 cm deep: about 44 rows stand straight, and what is open beyond them is the neck."""
    half = (f'width = 50\nlength = 56\nneck = {{ shoulder = 15, depth = 12, shape = "vee" }}\n'
            f'front = {{ side = "{hand}" }}')  # fmt: skip
    (piece,) = (plan := plan_pattern(read_text(SQUARE + half, "x.toml"))).pieces
    assert piece.front_edge == hand
    (opening,) = openings.of(plan)
    middle = [one.stretch for one in opening.stretches if one.stretch.run.name == hand]
    assert len(middle) == 2
    front, neck = middle if hand == "right" else middle[::-1]
    assert [openings.at_the_front(one) for one in (front, neck)] == ["front edge", "neck"]
    straight = [row.number for row in piece.rows if row.edge(hand).at == piece.rows[0].edge(hand).at]
    assert sorted(front.rows or ()) == [1, straight[-1]]
    assert abs(straight[-1] - 44) <= 2
    assert sorted(neck.rows or ()) == [straight[-1] + 1, piece.row_count]
    assert front.length + neck.length == front.run.length
