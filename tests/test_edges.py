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
from turnchain.garment import dimensions, edges, finishing, roles, seam_words, seams, sleeves, stretches
from turnchain.garment.edges import Point
from turnchain.garment.named_stretches import ends
from turnchain.pages.report import report
from turnchain.pattern import Neck, OutlineStretch, Pattern, Piece, Seam, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
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
