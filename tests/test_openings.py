"""Every edge of a garment is sewn once or open once, and what stays open is neck, armholes, lower edge and cuffs.

The cloth is walked here by a path of its own: the units of its outline (a row's end, a quarter pitch along a row) are
taken from the rows themselves, and each is looked for in the seams and the openings. Source of the openings of a top:
that a body has one head and two arms.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.errors import PatternError
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.garment import armholes, borders, openings, seam_words, seams
from turnchain.garment.edges import Point
from turnchain.garment.seam_sides import SeamSide
from turnchain.garment.stretches import EdgeStretch, cut
from turnchain.pattern import Neck, Pattern, Piece, Seam, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace

NEAR = 0.1  # cm
#: 4 clusters and 8 rows to 10 cm: half a pitch and a row are 1.25 cm.
SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
UNIT = Fraction(5, 4)
WAISTCOAT = ((0, 50), (30, 50), (30, 38), (52, 38))


def outlined(name: str, points: Iterable[tuple[float, float]], neck: Neck | None = None, count: int = 1) -> Piece:
    line = tuple((Fraction(str(height)), Fraction(str(width))) for height, width in points)
    return Piece(name, count=count, outline=line, neck=neck)


def planned(*pieces: Piece, joins: Iterable[tuple[str, str]] = (), wearer: Wearer | None = None) -> Plan:
    named = tuple(Seam(join) for join in joins)
    return plan_pattern(Pattern("Test", (SWATCH,), pieces, seams=named, wearer=wearer))


def waistcoat(**more: object) -> Plan:
    neck = Neck(Fraction(9), Fraction(8), "vee")
    front = outlined("front", WAISTCOAT, neck)
    return planned(front, outlined("back", WAISTCOAT), **more)  # type: ignore[arg-type]


def kinds(plan: Plan) -> Counter[str]:
    return Counter(opening.kind for opening in openings.of(plan))


# ------------------------------------------------------------------------------------------------- the waistcoat


def test_a_waistcoats_sides_end_under_the_arm() -> None:
    """30 cm of side are 24 rows of 1.25 cm; the rest of the side is the armhole, and nothing sews it shut."""
    sides = [seam for seam in seams.of(waistcoat()) if seam.kind == "side"]
    assert [(seam.one.rows, seam.other.rows) for seam in sides] == [((1, 24), (24, 1)), ((24, 1), (1, 24))]
    assert {seam.one.length for seam in sides} == {Fraction(30)}


def test_a_waistcoats_armholes_are_open_and_bordered() -> None:
    """Each is 5 or 6 half pitches in at the underarm (50 to 38 cm are 6 at either side within half a pitch), then 22
    cm up, in front and back."""
    plan = waistcoat()
    assert kinds(plan) == {"neck": 1, "armhole": 2, "lower edge": 1}
    for opening in openings.of(plan):
        if opening.kind == "armhole":
            upright = 2 * (plan.pieces[0].row_count - 24) * UNIT
            assert opening.length - upright in {2 * steps * UNIT for steps in (4, 5)}
    assert "armhole" in {edging.kind for edging in borders.edgings(plan)}


def test_named_sides_of_a_waistcoat_end_under_the_arm_as_well() -> None:
    joins = (("front.shoulder", "back.last"), ("front.left", "back.right"), ("front.right", "back.left"))
    plan = waistcoat(joins=joins)
    assert kinds(plan) == {"neck": 1, "armhole": 2, "lower edge": 1}
    assert {seam.one.length for seam in seams.of(plan) if seam.kind == "side"} == {Fraction(30)}


def test_a_sleeve_worked_in_one_with_the_body_is_sewn_below_and_open_at_its_end() -> None:
    """As published for a pullover in half double crochet whose sleeves are begun by chains at either side: the seam
    goes up the side and along the chains, and the ends of the sleeves stay open."""
    shape = ((0, 50), (35, 50), (35, 90), (52, 90))
    plan = planned(outlined("front", shape, Neck(Fraction(33), Fraction(8), "slant")), outlined("back", shape))
    assert kinds(plan) == {"neck": 1, "armhole": 2, "lower edge": 1}
    (one, *_) = [seam.one for seam in seams.of(plan) if seam.kind == "side"]
    assert float(one.length) == pytest.approx(35 + 20, abs=2.6)


def test_a_taper_is_no_armhole() -> None:
    """An A-line front has no place where its side turns: the armhole is as deep as the wearer's."""
    shape = ((0, 60), (52, 44))
    neck = Neck(Fraction(13), Fraction(8), "slant")
    plan = planned(outlined("front", shape, neck), outlined("back", shape), wearer=Wearer(armhole=Fraction(20)))
    side = armholes.SideEdge(plan.pieces[0], "right", True)
    assert side.shaped() is None
    one = next(seam.one for seam in seams.of(plan) if seam.kind == "side")
    whole = next(stretch.run.length for stretch in one.stretches)
    assert abs(whole - one.length - 20) <= UNIT


def test_a_slipover_has_armholes_as_deep_as_its_wearers() -> None:
    """Straight panels worked sideways, no sleeves: sewn up to the shoulder no arm would pass."""
    neck = Neck(Fraction(10), Fraction(6))
    front = Piece("front", "sideways", width=Fraction(50), length=Fraction(50), neck=neck)
    back = replace(front, name="back", faces="front")
    plan = planned(front, back, wearer=Wearer(armhole=Fraction(20)))
    assert kinds(plan) == {"neck": 1, "armhole": 2, "lower edge": 1}
    assert {opening.length for opening in openings.of(plan) if opening.kind == "armhole"} == {Fraction(40)}


def test_without_a_wearer_the_depth_is_a_likely_bodys() -> None:
    """Child size 8: chest 26.5 in, armhole 5.5 in (published, second hand)."""
    panel = Piece("front", "sideways", width=Fraction("37.5"), length=Fraction(40), neck=Neck(Fraction(7), Fraction(6)))
    back = replace(panel, name="back", faces="front")
    plan = planned(panel, back, wearer=Wearer(bust=Fraction("26.5") * Fraction("2.54")))
    found = armholes.bare_depth(plan, plan.pieces)
    assert (found.cm, found.assumed) == (Fraction("5.5") * Fraction("2.54"), True)
    assert any("size table, child 8" in line for line in seam_words.lines(plan))


def test_pieces_that_are_no_top_are_sewn_whole() -> None:
    """A skirt of front and back: nothing to leave open at its sides."""
    plan = planned(
        Piece("front", width=Fraction(50), length=Fraction(60)),
        Piece("back", width=Fraction(50), length=Fraction(60)),
        joins=(("front.left", "back.right"), ("front.right", "back.left")),
    )
    assert all(side.whole for seam in seams.of(plan) for side in (seam.one, seam.other))
    assert "armhole" not in kinds(plan)


def test_shoulders_named_against_a_whole_edge_meet_its_ends() -> None:
    """The neck between two shoulders is no part of the seam."""
    plan = waistcoat(joins=(("front.shoulder", "back.last"),))
    shoulders = [seam for seam in seams.of(plan) if seam.kind == "shoulder"]
    assert [seam.off for seam in shoulders] == [0, 0]


def test_edges_as_wide_as_one_another_agree_whatever_their_rows_hold() -> None:
    """A row of 16 clusters and one of 15 with a gap at both ends are as wide: no "0 cm longer (1 cluster)"."""
    one = Piece("one", width=Fraction(40), length=Fraction(20), row_plan="alternate")
    two = Piece("two", width=Fraction(40), length=Fraction("21.25"), row_plan="alternate")
    plan = planned(one, two, joins=(("one.last", "two.last"),))
    counts = {piece.rows[-1].clusters for piece in plan.pieces}
    (line,) = seam_words.lines(plan)
    assert len(counts) == 2
    assert line.endswith("they agree")
    assert "0 cm longer" not in line


# ------------------------------------------------------------------------------------- the cloth, walked from its rows


@dataclass(frozen=True)
class Unit:
    """The middle of one unit of an outline; ``row`` where it is a row's end."""

    middle: Point
    row: int | None


def units(piece: PiecePlan) -> Iterator[Unit]:
    """The outline in units, from the rows alone: every row's two ends, and every quarter pitch along which cloth ends:
    the middle of a sleeve's top of an odd number of half pitches lies within one. The end of row 1 takes in what it
    stands on."""
    half, high = piece.gauge.half, piece.gauge.row

    def up(number: int) -> Fraction:
        return number * high + (piece.sc_below * high if number else 0)

    tops: dict[int, set[int]] = {0: set()}
    feet: dict[int, set[int]] = {}
    for row in piece.rows:
        low = _feet(piece, row)
        for foot, head in ((low[0], row.left.at), (low[1], row.right.at)):
            yield Unit((Fraction(foot + head, 2) * half, (up(row.number - 1) + up(row.number)) / 2), row.number)
        feet.setdefault(row.number - 1, set()).update(range(*low))
        tops.setdefault(row.number, set()).update(range(row.left.at, row.right.at))
    for height, top in tops.items():
        for at in top ^ feet.get(height, set()):
            for share in (Fraction(1, 4), Fraction(3, 4)):
                yield Unit(((at + share) * half, up(height)), None)


def _feet(piece: PiecePlan, row: Row) -> tuple[int, int]:
    """Where a row's ends stand on the row below: on a step, and where a neck divides the piece, where they are."""
    under = piece.below(row)
    if under is None:
        return row.left.at, row.right.at
    left = row.left.at if row.left.step else under.left.at
    right = row.right.at if row.right.step else under.right.at
    if piece.begins_section(row):
        beside = [one for one in piece.rows if one.number == row.number and one is not row]
        if beside[0].left.at > row.left.at:
            right = row.right.at
        else:
            left = row.left.at
    return left, right


def lies_on(middle: Point, points: tuple[Point, ...]) -> bool:
    """Exactly; but only those parts are reckoned with that are not far off at first sight."""
    x, y = map(float, middle)
    rough = [(float(one[0]) - x, float(one[1]) - y) for one in points]
    return any(
        _between(middle, one, other)
        for (one, other), ((x0, y0), (x1, y1)) in zip(pairwise(points), pairwise(rough), strict=True)
        if min(x0, x1) < NEAR and max(x0, x1) > -NEAR and min(y0, y1) < NEAR and max(y0, y1) > -NEAR
    )


def _between(middle: Point, one: Point, other: Point) -> bool:
    (x, y), (x0, y0), (x1, y1) = middle, one, other
    across = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
    along = (x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    return abs(across) < Fraction(1, 1000) and 0 < along < square


def stretches(plan: Plan) -> Iterator[tuple[str, int, EdgeStretch]]:
    for seam in seams.of(plan):
        for side in (seam.one, seam.other):
            for stretch in side.stretches:
                yield side.piece.name, side.copy, stretch
    for opening in openings.of(plan):
        for one in opening.stretches:
            yield one.piece.name, one.copy, one.stretch


def check_once(plan: Plan) -> None:
    """Every unit of every copy is in exactly one seam or opening."""
    found = list(stretches(plan))
    for piece in plan.pieces:
        for copy in range(piece.count):
            lines = [one.points for name, nth, one in found if (name, nth) == (piece.name, copy) and one.length]
            for unit in units(piece):
                times = sum(lies_on(unit.middle, points) for points in lines)
                assert times == 1, (piece.name, copy, unit, times)


def check_counts(side: SeamSide) -> None:
    """A side's rows, or its width in quarter clusters, as the cloth has them."""
    on = [unit for unit in units(side.piece) if lies_on(unit.middle, side.points)]
    if side.unit == "rows":
        assert side.count == sum(unit.row is not None for unit in on)
    else:  # a shoulder that slopes leans by half a cluster where it does not step
        level = [unit for unit in on if unit.row is None]
        leans = sum(_leans(side, row) for row in {unit.row for unit in on if unit.row is not None})
        assert side.count == Fraction(len(level), 4) + Fraction(leans, 2)


def _leans(side: SeamSide, number: int) -> int:
    """How many half clusters the edge of a row within ``side`` leans by."""
    low, high = side.piece.up(number - 1), side.piece.up(number)
    there = [pair for pair in pairwise(side.points) if {pair[0][1], pair[1][1]} == {low, high}]
    return round(sum(abs(one[0] - other[0]) for one, other in there) / side.piece.gauge.half)


SHAPES = st.sampled_from(["slant", "round", "vee", "square"])


@st.composite
def tops(draw: st.DrawFn) -> Pattern:
    """A top of random form: panels both ways, tapered, with set-in or cut armholes or sleeves in one; with or without
    sleeves, wearer, back neck; made twice or as front and back; seams assumed or named."""
    swatch = Swatch(Fraction(draw(st.integers(3, 6))), Fraction(20), Fraction(draw(st.integers(6, 12))), Fraction(20))
    width, length = draw(st.integers(36, 60)), draw(st.integers(36, 60))
    form = draw(st.sampled_from(["sideways", "upwards", "taper", "armhole", "slanted armhole", "in one"]))
    up, into = draw(st.integers(16, length - 14)), draw(st.integers(4, 12))
    lines = {
        "taper": ((0, width + into), (length, width)),
        "armhole": ((0, width), (up, width), (up, width - into), (length, width - into)),
        "slanted armhole": ((0, width), (up, width), (up + 5, width - 8), (length, width - 8)),
        "in one": ((0, width), (up, width), (up, width + 2 * into), (length, width + 2 * into)),
    }
    upper = lines[form][-1][1] if form in lines else width
    shoulder = draw(st.integers(upper // 5, upper // 3))
    neck = Neck(Fraction(shoulder), Fraction(draw(st.integers(5, 9))), draw(SHAPES))
    if form in lines:
        front = outlined("front", lines[form], neck)
    else:
        worked = "sideways" if form == "sideways" else "upwards"
        front = Piece("front", worked, width=Fraction(width), length=Fraction(length), neck=neck)
    pieces: tuple[Piece, ...] = (front, replace(front, name="back", neck=draw(st.sampled_from([neck, None]))))
    if form == "sideways":
        pieces = (front, replace(pieces[1], faces="front"))
    if draw(st.booleans()) and pieces[1].neck is not None:
        pieces = (replace(front, name="body", count=2),)
    if form != "in one" and draw(st.booleans()):
        wide = draw(st.integers(24, 36))
        pieces = (*pieces, outlined("sleeve", ((0, wide), (30, wide - 8)), count=2))
    wearer = draw(st.sampled_from([None, Wearer("woman", "M"), Wearer("child", "8"), Wearer(armhole=Fraction(17))]))
    return Pattern("Top", (swatch,), pieces, wearer=wearer)


def check_top(pattern: Pattern) -> None:
    """A body has one head, two arms and stands out below: four openings, and all else is sewn."""
    try:
        plan = plan_pattern(pattern)
    except PatternError:
        return
    check_once(plan)
    for seam in seams.of(plan):
        check_counts(seam.one)
        check_counts(seam.other)
    found = kinds(plan)
    assert found["lower edge"] == 1
    assert found["armhole"] + found["cuff"] == 2
    assert found["neck"] == 1
    assert sum(found.values()) == 4


def test_a_sleeves_top_of_an_odd_number_of_half_pitches_is_sewn_in_two_halves() -> None:
    """6 clusters to 20 cm: 35 cm are 21 half pitches, and the middle, at the shoulder, lies within one of them."""
    swatch = Swatch(Fraction(6), Fraction(20), Fraction(8), Fraction(20))
    front = outlined("front", ((0, 50), (50, 50)), Neck(Fraction(15), Fraction(7), "slant"))
    sleeve = outlined("sleeve", ((0, 35), (40, 35)), count=2)
    pattern = Pattern("Top", (swatch,), (front, replace(front, name="back"), sleeve))
    tops = [seam.other for seam in seams.of(plan_pattern(pattern)) if seam.kind == "sleeve top"]
    assert [side.count for side in tops] == 4 * [Fraction(21, 4)]
    check_top(pattern)


@given(tops())
@settings(max_examples=4)
def test_every_edge_of_a_top_is_sewn_once_or_open_once(pattern: Pattern) -> None:
    check_top(pattern)


@pytest.mark.slow
@given(tops())
@settings(max_examples=100)
def test_every_edge_of_any_top_is_sewn_once_or_open_once(pattern: Pattern) -> None:
    check_top(pattern)


@pytest.mark.parametrize("copies", [1, 2, 3])
def test_a_piece_that_no_seam_joins_is_open_all_round(copies: int) -> None:
    plan = planned(Piece("mat", width=Fraction(30), length=Fraction(30), count=copies))
    assert kinds(plan) == {"all round": copies}
    check_once(plan)


def test_the_walk_would_see_an_edge_sewn_twice() -> None:
    """The check can fail: the same edge named in two seams lies twice on the walk."""
    one, two = (Piece(name, width=Fraction(30), length=Fraction(30)) for name in ("one", "two"))
    plan = planned(one, two, joins=(("one.left", "two.right"), ("one.left", "two.left")))
    with pytest.raises(AssertionError):
        check_once(plan)


def test_a_side_that_its_armhole_takes_whole_is_told_and_not_sewn() -> None:
    """Found by random files: "front.first, 0 clusters" stood among the seams."""
    neck = Neck(Fraction(10), Fraction(4))
    body = [Piece(name, width=Fraction(40), length=Fraction(20), neck=neck) for name in ("front", "back")]
    plan = planned(*body, Piece("sleeve", count=2, width=Fraction(40), length=Fraction(30)))
    assert all(seam.one.length and seam.other.length for seam in seams.of(plan))
    assert "side" not in {seam.kind for seam in seams.of(plan)}
    said = "front.right and back.left are not sewn: the armhole takes one of them whole"
    assert any(line.startswith(said) for line in seam_words.lines(plan))


@pytest.mark.parametrize(("reach", "last"), [
    ((10, 10, 11, 12, 13, 13), 4),  # leans out from row 1 to row 4, where the sleeve begins
    ((10, 10, 16, 16), 1),  # a step: it belongs to the row above
    ((10, 10, 11, 17, 17), 2),  # both
])  # fmt: skip
def test_a_sleeve_in_one_begins_above_all_that_goes_outwards(reach: tuple[int, ...], last: int) -> None:
    assert armholes._end_of_move(list(reach), 1) == last


@pytest.mark.parametrize(("start", "end", "points"), [
    (0, 2, ((0, 0), (2, 0))), (2, 4, ((2, 0), (2, 2))), (1, 3, ((1, 0), (2, 0), (2, 1))),
    (0, 4, ((0, 0), (2, 0), (2, 2))), (4, 4, ((2, 2), (2, 2))),
])  # fmt: skip
def test_a_stretch_has_the_corners_of_its_line_and_no_corner_twice(
    start: int, end: int, points: tuple[tuple[int, int], ...]
) -> None:
    """Two sides of a square of 2 cm."""
    line = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (2, 0), (2, 2)))
    assert cut(line, Fraction(start), Fraction(end)) == points


@given(st.lists(st.integers(-1, 4), min_size=1, max_size=8), st.integers(0, 7))
def test_an_edge_that_goes_outwards_ends_at_a_step_or_where_it_goes_on_no_more(moves: list[int], begin: int) -> None:
    """Counted out: from a row on, all rows up to the end lie farther out than the one before, by less than a step."""
    reach = [sum(moves[:nth]) for nth in range(len(moves) + 1)]
    if begin < len(reach):
        end = armholes._end_of_move(reach, begin)
        assert all(0 < reach[row + 1] - reach[row] < 2 for row in range(begin, end))
        assert end == len(reach) - 1 or not 0 < reach[end + 1] - reach[end] < 2
