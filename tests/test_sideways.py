"""Pieces worked sideways with parts by their names: armholes, fronts that open, slopes, slits, caps.

Counts are worked by hand from the lattice, measures taken from the rows of the plan by code of their own (no published
source). A step outwards is made where a row starts: at the right edge after an even number of rows, at the left after
an odd one. Source of the cap's rule, as long as the armhole it is sewn into: bygumbygolly.blogspot.com, 2011-03.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, product
from math import hypot

import pytest

from nightly import figures_of_sideways
from turnchain.errors import PatternError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, openings, seams
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_text

HEAD = 'title = "Test"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n'
BACK = """name = "back"
worked = "sideways"
width = 52
length = 56
neck = { shoulder = 10, depth = 3 }
armhole = { depth = 20, width = 5 }"""
FRONT = """name = "left front"
worked = "sideways"
width = 52
length = 56
neck = { shoulder = 10, depth = 12, shape = "vee" }
armhole = { depth = 20, width = 5 }
front = { side = "left", overlap = 2.5 }"""
SLEEVE = 'name = "sleeve"\nworked = "sideways"\ncount = 2\nwidth = 36\nlength = 42\ncap = { into = ["back"] }'
RIGHT = 'name = "right front"\nmirror = "left front"'


def planned(*pieces: str, head: str = HEAD) -> Plan:
    return plan_pattern(read_text(head + "".join(f"[[piece]]\n{piece}\n" for piece in pieces), "x.toml"))


def heights(piece: PiecePlan) -> list[int]:
    """How many half clusters each row is long."""
    return [row.right.at - row.left.at for row in piece.rows]


def wished(piece: PiecePlan) -> dict[str, tuple[Fraction, Fraction]]:
    return {fit.measure: (fit.wanted, fit.worked) for fit in piece.fit}


def names(piece: PiecePlan) -> list[tuple[str, tuple[int, int] | None]]:
    return [(run.name, run.rows) for run in edges.around(piece)]


# --------------------------------------------------------------------------------------------------------- armholes


def test_an_armhole_is_a_step_out_and_a_step_in_along_the_rows() -> None:
    """5 cm are 4 rows of 1.25 cm, and row 5 starts at the right; 20 cm are 16 half clusters, 8 whole ones: row 1 has
    29 of the 45 that 22 clusters and half of one make."""
    back = planned(BACK).pieces[0]
    long = heights(back)
    assert (back.top, back.row_count) == ("right", 41)
    assert long[:5] == [29, 29, 29, 29, 45]
    assert long[-5:] == [45, 29, 29, 29, 29]
    assert [row.right.at - row.left.at for row in back.rows if row.number in (5, 37)] == [45, 45]
    assert (back.rows[4].right.move, back.rows[37].right.move) == ("step_out", "step_in")
    found = wished(back)
    assert found["armhole depth"] == (20, 20)
    assert found["armhole width"] == (5, 5)
    assert found["shoulder"] == (10, 10)
    assert found["length"] == (56, Fraction(225, 4))
    around = [("first", None), ("armhole", (1, 4)), ("shoulder", (5, 12)), ("neck", (13, 29)), ("shoulder", (30, 37)),
              ("armhole", (38, 41)), ("last", None), ("lower", (41, 1))]  # fmt: skip
    assert names(back) == around


@pytest.mark.parametrize(("width", "edge", "rows"), [
    ("5", "right", 4), ("6.25", "left", 5), ("3.75", "left", 3), ("2.5", "right", 2), ("7.5", "right", 6),
])  # fmt: skip
def test_the_upper_edge_lies_where_the_step_comes_nearest(width: str, edge: str, rows: int) -> None:
    back = planned(BACK.replace("width = 5 }", f"width = {width} }}")).pieces[0]
    assert (back.top, names(back)[1 if edge == "right" else -1][0]) == (edge, "armhole")
    assert wished(back)["armhole width"] == (Fraction(width), Fraction(rows * 5, 4))


def test_a_step_that_no_row_starts_at_is_told() -> None:
    """At the right edge 5 rows cannot lie under an armhole: a row less does, and a warning says why."""
    back = planned(BACK.replace("width = 5 }", 'width = 6.25 }\nneck_edge = "right"')).pieces[0]
    assert wished(back)["armhole width"] == (Fraction(25, 4), 5)
    assert [one for one in back.warnings if "armhole" in one] == [
        "armhole width: 5 cm, not 6.25 cm, more than half a row off: a step outwards can only be made where a row "
        "starts"
    ]


def test_a_curved_armhole_goes_on_level_and_rises_over_a_third() -> None:
    """Of 7.5 cm, 6 rows, 5 cm are level; over the last 2 rows, or a row before, the edge rises half a cluster each,
    then at once."""
    text = BACK.replace('width = 5 }', 'width = 7.5, shape = "curved" }').replace("depth = 20", "depth = 22.5")
    long = heights(planned(text).pieces[0])
    assert long[6] - long[0] == 18
    rises = [above - below for below, above in pairwise(long[:7])]
    assert (rises[:2], sorted(rises[2:5]), rises[5]) == ([0, 0], [0, 1, 1], 16)
    falls = [below - above for below, above in pairwise(long[-7:])]
    assert (falls[0], sorted(falls[1:])) == (16, [0, 0, 0, 1, 1])


@pytest.mark.parametrize("side", ["left", "right"])
def test_an_armhole_at_one_edge_lies_there_as_worn(side: str) -> None:
    """With the upper edge at the right of the chart row 1 lies at the right as worn."""
    text = BACK.replace("width = 5 }", f'width = 5, edge = "{side}" }}\nneck_edge = "right"')
    back = planned(text).pieces[0]
    assert names(back)[1 if side == "right" else -3][0] == "armhole"
    assert sum(name == "armhole" for name, _ in names(back)) == 1
    turned = edges.worn(back)
    (run,) = edges.of(back)["armhole"].runs
    across = [turned(point)[0] for point in run.points]
    middle = -back.height / 2
    assert all((at > middle) == (side == "right") for at in across)


# ------------------------------------------------------------------------------------------- fronts, slopes, slits


def test_half_a_front_begins_at_its_middle_and_its_image_is_the_same() -> None:
    """26 cm less the armhole and the shoulder leave 11 cm of neck, and 2.5 cm beyond the middle: 13.5 of 28.5."""
    plan = planned(FRONT, RIGHT)
    left, right = plan.pieces
    assert (left.top, right.top, left.opens, right.opens) == ("left", "right", "left", "right")
    assert left.front_edge == right.front_edge == "first"
    assert heights(left) == heights(right)
    found = wished(left)
    assert found["width"][0] == Fraction(57, 2)
    assert "neck width" not in found
    for name, tolerance in (("shoulder", Fraction(5, 8)), ("armhole width", Fraction(5, 8)),
                            ("armhole depth", Fraction(5, 4)), ("neck depth", Fraction(5, 4))):  # fmt: skip
        wanted, worked = found[name]
        assert abs(wanted - worked) <= tolerance
    assert [name for name, _ in names(right)] == ["first", "neck", "shoulder", "armhole", "last", "lower"]


def test_half_a_front_can_begin_at_its_side() -> None:
    front = planned(FRONT + '\nneck_edge = "right"').pieces[0]
    assert front.front_edge == "last"
    assert [name for name, _ in names(front)] == ["first", "armhole", "shoulder", "neck", "last", "lower"]


def test_a_shoulder_rises_to_the_neck_along_its_rows() -> None:
    """3.75 cm are 3 half clusters, over the 8 rows of a shoulder; the armhole is 20 cm deep below its outer end."""
    back = planned(BACK + "\nshoulder_slope = 3.75").pieces[0]
    long = heights(back)
    assert long[4] - long[3] == 16
    shoulder = long[4:12]
    assert (shoulder[0], shoulder[-1]) == (long[4], long[4] + 3)
    assert all(above - below in (0, 1) for below, above in pairwise(shoulder))
    leans = [row for row, (below, above) in enumerate(pairwise(shoulder), 6) if above > below]
    assert leans[0] < 9 <= leans[-1]  # spread over it, not together
    assert wished(back)["armhole depth"] == (20, 20)


def test_a_slit_is_a_stretch_of_both_sides_that_stays_open() -> None:
    plan = planned(BACK + "\nslit = 7.5", BACK.replace('"back"', '"front"').replace("depth = 3", "depth = 8")
                   + "\nslit = 7.5")  # fmt: skip
    sides = [one for seam in seams.of(plan) if seam.kind == "side" for one in (seam.one, seam.other)]
    assert {one.length for one in sides} == {29 * Fraction(5, 4) - Fraction(15, 2)}
    low = [one for one in openings.of(plan) if one.kind == "lower edge"]
    (round_the_hem,) = low  # up one slit and down the other, where front and back meet
    assert round_the_hem.length == 2 * (41 * Fraction(5, 4) + 15)


# ------------------------------------------------------------------------------------------------ sleeves and seams


def test_a_garment_worked_sideways_knows_its_seams() -> None:
    plan = planned(BACK, FRONT, RIGHT, SLEEVE)
    found = [(seam.kind, seam.one.name, seam.other.name) for seam in seams.of(plan)]
    assert found == [
        ("shoulder", "left front.shoulder", "back.shoulder"), ("shoulder", "right front.shoulder", "back.shoulder"),
        ("sleeve top", "left front.armhole", "sleeve.upper"), ("sleeve top", "back.armhole", "sleeve.upper"),
        ("sleeve top", "right front.armhole", "sleeve.upper"), ("sleeve top", "back.armhole", "sleeve.upper"),
        ("side", "left front.last", "back.last"), ("side", "right front.last", "back.first"),
        ("sleeve", "sleeve.last", "sleeve.first"), ("sleeve", "sleeve.last", "sleeve.first"),
    ]  # fmt: skip
    assert all(seam.agrees for seam in seams.of(plan) if seam.kind != "sleeve top")
    assert {opening.kind for opening in openings.of(plan)} == {"front edge", "cuff"}


@pytest.mark.parametrize(("width", "depth"), list(product(("32", "36", "40"), ("18", "20", "22.5"))))
def test_a_cap_worked_sideways_is_as_long_as_its_armhole(width: str, depth: str) -> None:
    """To a row at either half, measured along every row: an armhole of a front and of a back."""
    text = BACK.replace("depth = 20", f"depth = {depth}")
    plan = planned(text, SLEEVE.replace("width = 36", f"width = {width}"))
    back, sleeve = plan.pieces
    armhole = sum(run.length for run in edges.of(back)["armhole"].runs)
    long = heights(sleeve)
    around = sum(
        hypot(1.25, 1.25) if abs(above - below) == 1 else 1.25 + abs(above - below) * 1.25
        for below, above in pairwise((long[0], *long))
    )
    assert abs(around - float(armhole)) <= 2 * 1.25
    assert heights(sleeve)[0] == min(heights(sleeve))


# ---------------------------------------------------------------------------------------------------------- a grid


SWATCHES = ((4, 10, 8, 10), (5, 10, 9, 10), (3, 10, 7, 10), (9, 20, 17, 20))
GRID = [
    (swatch, gap, shape, neck)
    for swatch, gap, (shape, neck) in product(SWATCHES, (1, 0), (("square", "slant"), ("curved", "round")))
]


@pytest.mark.parametrize(("swatch", "gap", "shape", "neck"), GRID)
def test_measures_are_within_half_a_row_and_half_a_cluster(
    swatch: tuple[int, int, int, int], gap: int, shape: str, neck: str
) -> None:
    """Armholes and shoulders of a back, measured on its rows: an armhole's width to a row, since a row must start
    there; depths to half a cluster; rows mirrored. The fit says the same."""
    clusters, wide, rows, high = swatch
    head = (f'title = "Test"\nswatch = {{ clusters = {clusters}, width = {wide}, rows = {rows}, height = {high} }}\n'
            f"fabric = {{ gap = {gap} }}\n")  # fmt: skip
    text = BACK.replace("width = 5 }", f'width = 6, shape = "{shape}" }}')
    text = text.replace("depth = 3", f'depth = 8, shape = "{neck}"')
    back = planned(text, head=head).pieces[0]
    row, half = Fraction(high, rows), Fraction(wide, clusters) / 2
    long, found = heights(back), wished(back)
    step = max(range(1, len(long) // 2), key=lambda nth: long[nth] - long[nth - 1])
    assert abs(step * row - 6) <= row
    assert abs((long[step] - long[0]) * half - 20) <= half
    assert long[step] - long[step - 1] >= 2
    assert found["armhole width"][1] == step * row
    assert found["armhole depth"][1] == (long[step] - long[0]) * half
    level = next(nth for nth in range(step, len(long)) if long[nth] < long[step])
    assert abs((level - step) * row - 10) <= row / 2
    assert long[:step] == long[-step:][::-1]
    assert found["shoulder"][1] == (level - step) * row
    assert abs((max(long) - min(long[level : len(long) - level])) * half - 8) <= half


@pytest.mark.slow
@pytest.mark.parametrize("pieces", [
    (BACK, BACK.replace('"back"', '"front"').replace("depth = 3", 'depth = 8, shape = "round"')),
    (BACK + "\nshoulder_slope = 3\nslit = 8", FRONT + "\nshoulder_slope = 3\nslit = 8", RIGHT, SLEEVE),
    (BACK.replace("width = 5 }", 'width = 6, shape = "curved" }'), RIGHT, SLEEVE,
     FRONT.replace("width = 5 }", 'width = 6, shape = "curved" }').replace("vee", "round")),
])  # fmt: skip
def test_garments_worked_sideways_are_proved(pieces: tuple[str, ...]) -> None:
    proof = prove(planned(*pieces))
    assert not proof.reasons
    assert proof.figures > 200


#: What random garments worked sideways once found: slopes of a piece begun, taken for its neck; a plain sleeve in such
#: an armhole; slits along a chain; rows of single stitches that lean alike over any number; the edge of a cap.
@pytest.mark.quick(1)
@pytest.mark.parametrize("seed", [5, 9, 13, 15, 18])
def test_what_random_garments_once_found_is_mended(seed: int) -> None:
    assert figures_of_sideways(seed)[1] == []


@pytest.mark.parametrize(("text", "said"), [
    (BACK.replace("width = 5 }", "width = 0.5 }"), "0.5 cm; worked sideways it has a row at the least"),
    (BACK + "\ntaper = { width = 40 }", "a taper there would be rows that end on their way"),
    (BACK.replace("width = 5 }", "width = 17 }"), "two armholes of 17 cm and two shoulders of 10 cm are 54 cm"),
])  # fmt: skip
def test_what_cannot_be_worked_sideways_is_refused_with_its_reason(text: str, said: str) -> None:
    with pytest.raises(PatternError, match=said.replace(".", r"\.")):
        planned(text)
