"""The border counted edge by edge, ends, and the words.

Source of the border: a published answer on a forum of crocheters (knittinghelp, thread 55500) on a piece 74 dc wide:
2 sc to a row end, 1 to every stitch and chain along top and foundation, 3 in each corner. Slants, yarn and ends: sums.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import atan2, pi, sqrt
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnchain.fabric.plan import Plan
from turnchain.garment import borders, easing, edges, finishing
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.proof.compared import yarns
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.records import replace
from turnchain.wording.tables import told_in

CASES = Path(__file__).parent / "cases"
SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10), weight=Fraction(10))


def case(name: str) -> Plan:
    return plan_pattern(read_file(CASES / f"{name}.toml"))


def square(width: int, length: int, **more: object) -> Plan:
    piece = Piece("square", width=Fraction(width), length=Fraction(length), row_plan="alternate")
    return plan_pattern(Pattern("Test", (SWATCH,), (piece,), **more))  # type: ignore[arg-type]


def test_a_piece_74_dc_wide() -> None:
    """Closed fabric: the last row has 24 clusters of 3 between two posts, 74 dc; row 1, a cluster less but a dc more at
    each edge, stands on 73 chains."""
    (piece,) = square(48, 10, fabric=Fabric(3, 0)).pieces
    assert (piece.row_count, piece.rows[-1].counts.dc + piece.rows[-1].counts.tch) == (10, 74)
    assert piece.foundation_chain - 3 == 73
    border = borders.border(piece)
    assert [(side.edge, side.stitches) for side in border.sides] == [
        ("first", 71),  # 73, the two end ones being corners
        ("right", 20),  # 2 to each of 10 row ends
        ("last", 72),  # 74, the two end ones being corners
        ("left", 20),
    ]
    assert border.corners == 4
    assert border.stitches == 71 + 20 + 72 + 20 + 4 * 3


def test_row_ends_take_two() -> None:
    (piece,) = square(48, 30).pieces
    for run in edges.around(piece):
        if run.meets == "row ends":
            assert borders.along(piece, run) == 2 * 30


def test_slanted_edges_take_as_many_as_their_length() -> None:
    """The kerchief: half a pitch and a row are 1 cm. Row 1 is straight, 29 rows slant at 45 degrees."""
    piece = case("kite_kerchief").piece("kerchief")
    sides = {side.edge: side for side in borders.border(piece).sides}
    assert sides["right"].stitches == round(2 * (1 + 29 * sqrt(2)))
    assert sides["right"].stitches > 2 * 30
    assert sides["right"].how == borders.Spread("slant")


def test_steps_take_one_to_a_stitch() -> None:
    outline = ((0, 20), (10, 20), (10, 40), (20, 40))
    points = tuple((Fraction(height), Fraction(width)) for height, width in outline)
    plan = plan_pattern(Pattern("Test", (SWATCH,), (Piece("stepped", outline=points),)))
    (piece,) = plan.pieces
    stepped = [run for run in edges.around(piece) if run.stitches and run.meets == "row ends"]
    half_pitches = sum(row.left.step + row.right.step for row in piece.rows)
    assert half_pitches
    assert sum(run.stitches for run in stepped) == 2 * half_pitches  # 3 dc and a chain to two half pitches
    for run in stepped:
        ends = sum(one[1] != other[1] for one, other in zip(run.points, run.points[1:], strict=False))
        assert borders.along(piece, run) >= 2 * ends + run.stitches


def test_a_garment_is_bordered_where_it_is_open() -> None:
    """Heron: shoulders, sides and sleeve tops are sewn; neck, lower edge and cuffs are left."""
    plan = case("heron_top")
    found = {(one.piece, one.kind): one for one in borders.edgings(plan)}
    assert set(found) == {("", "neck"), ("", "lower edge"), ("sleeve", "cuff")}
    assert found["", "lower edge"].border.stitches == 2 * 47 * 2
    # The cuff: 9 clusters of 3, 8 chains between, two posts and two chains at spaced edges.
    assert found["sleeve", "cuff"].border.stitches == 27 + 8 + 2 + 2
    assert found["sleeve", "cuff"].count == 2
    half, row = 13 / 11, 7 / 6
    front = round(2 * (11 * row + 14 * sqrt(half**2 + row**2)) / row)
    assert found["", "neck"].border.sides[0].stitches == front


def test_the_yarn_of_a_border_is_its_fabric() -> None:
    """4 sides of a square of 48 x 30 cm, 156 cm by half a row of 1 cm, at 10 g to 100 square cm and 15 % over."""
    yarns = (Yarn("Reed", "#b9b36a", metres_per_100g=Fraction(200)),)
    plan = square(48, 30, yarns=yarns)
    (piece,) = plan.pieces
    border = borders.border(piece)
    assert border.length == 156
    assert borders.border_grams(plan) == 156 * Fraction(1, 2) * Fraction(10, 100) * Fraction(115, 100)
    assert "about 9 g of Reed, 18 m" in finishing.text(plan)


def test_without_a_weight_no_yarn_is_told() -> None:
    plan = square(48, 30)
    bare = plan_pattern(replace(plan.pattern, swatches=(replace(SWATCH, weight=None),)))
    assert borders.border_grams(bare) is None
    assert "weigh a swatch to know how much yarn it takes" in finishing.text(bare)


@pytest.mark.parametrize(("rows", "ends"), [((2,), 30), ((1,), 60), ((30,), 2)])
def test_two_ends_to_a_stripe(rows: tuple[int, ...], ends: int) -> None:
    yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
    plan = square(48, 30, yarns=yarns, stripes=Stripes(("Reed", "Silt"), rows))
    assert finishing.ends(plan) == ends


def test_a_second_shoulder_has_ends_of_its_own() -> None:
    """In one colour: the body with the first shoulder, and the second, joined anew."""
    front = Piece("front", width=Fraction(50), length=Fraction(50), neck=Neck(Fraction(13), Fraction(8)))
    plan = plan_pattern(Pattern("Test", (SWATCH,), (front,)))
    assert finishing.ends(plan) == 4


def test_the_words_are_in_the_patterns_terms() -> None:
    """UK dc is US sc."""
    uk, us = finishing.text(case("mudflat_blanket")), finishing.text(case("heron_top"))
    assert " sc" not in uk
    assert "336 dc (2 in each row end)" in uk
    assert "double crochet" not in us
    assert "188 sc in all" in us


def test_chapters_come_in_the_order_of_published_patterns() -> None:
    assert [chapter.heading for chapter in finishing.chapters(case("heron_top"))] == [
        "Seams, in this order",
        "Border",
        "Ends",
        "Blocking and care",
    ]
    first, *sewing = finishing.chapters(case("heron_top"))[0].entries
    assert first.startswith("block the pieces first")
    assert sewing[-2].startswith("pin the middle of each sleeve's top to the shoulder seam")
    assert [entry[: entry.index(":")] for entry in sewing[:-2]] == [
        "A, shoulder",
        "A, shoulder",
        "B, sleeve top",
        "C, side",
        "C, sleeve, 2 times",
    ]


def test_a_neck_that_leans_in_less_than_half_a_right_angle_has_no_corner() -> None:
    """Half a pitch of 0.625 cm to a row of 1.25 cm is 27 degrees; of 1.25 cm it is 45, and a corner."""
    found = {}
    for clusters in (8, 4):
        swatch = Swatch(Fraction(clusters), Fraction(10), Fraction(8), Fraction(10))
        neck = Neck(Fraction(15), Fraction(5), "slant")
        front = Piece("front", "sideways", width=Fraction(50), length=Fraction(50), neck=neck)
        plan = plan_pattern(Pattern("Test", (swatch,), (front,)))
        assert "step_in" not in {row.edge(plan.pieces[0].top or "right").move for row in plan.pieces[0].rows}
        (edging,) = borders.edgings(plan)
        found[clusters] = edging.border.corners
    assert found == {8: 4, 4: 6}


@given(*[st.tuples(st.integers(-30, 30), st.integers(-30, 30)).filter(any)] * 2)
def test_a_border_turns_a_corner_from_45_degrees_on(into: tuple[int, int], out: tuple[int, int]) -> None:
    """By the angle between the two, as the library of the language reckons it."""
    bend = atan2(into[0] * out[1] - into[1] * out[0], into[0] * out[0] + into[1] * out[1])
    if abs(abs(bend) - pi / 4) > 1e-6 and abs(abs(bend) - pi) > 1e-6:
        one = SimpleNamespace(points=((Fraction(0), Fraction(0)), (Fraction(into[0]), Fraction(into[1]))))
        other = SimpleNamespace(points=(one.points[1], (Fraction(into[0] + out[0]), Fraction(into[1] + out[1]))))
        assert borders._turns(one, other) == (bend > pi / 4)


@pytest.mark.parametrize(
    ("start", "end", "unit", "clusters"),
    [(6, 20, "clusters", 3), (14, 26, "clusters", 2), (0, 12, "clusters", 0), (6, 20, "rows", 0)],
)
def test_how_far_from_the_end_of_a_chain_a_side_is_sewn(start: int, end: int, unit: str, clusters: int) -> None:
    """On 30 cm of 2 cm to a cluster, from the nearer end; nothing is told of rows, which have numbers."""
    stretch = SimpleNamespace(start=Fraction(start), end=Fraction(end), run=SimpleNamespace(length=Fraction(30)))
    piece = SimpleNamespace(gauge=SimpleNamespace(pitch=Fraction(2)))
    assert easing.inset(SimpleNamespace(unit=unit, stretches=(stretch,), piece=piece)) == clusters  # type: ignore[arg-type]
    assert easing.inset(SimpleNamespace(unit=unit, stretches=(stretch,) * 2, piece=piece)) == 0  # type: ignore[arg-type]


HAT = """
title = "Hat"
swatch = {{ clusters = 11, width = 26, rows = 18, height = 21 }}
[[piece]]
name = "hat"
width = 54
length = 22
worked = "{worked}"
"""


@pytest.mark.parametrize("language", ["US", "UK", "de", "fr"])
def test_a_crown_is_told_to_be_gathered(language: str) -> None:
    """By hand: a hat of 22 clusters of 3 dc has 66 dc, and an edge stitch at either end, of which one is the turning
    chain. A tail goes once round and is as much longer as any tail."""
    plan = plan_pattern(read_text(HAT.format(worked="upwards"), "x.toml"))
    told = finishing.text(told_in(plan, language))
    (hat,) = plan.pieces
    stitches = 3 * len(hat.rows[-1].centres) + 2
    long = float(hat.rows[-1].right.at - hat.rows[-1].left.at) * float(hat.gauge.half) + 15
    (line,) = [line for line in told.splitlines() if line.startswith("- hat, ") and str(stitches) in line]
    figures = [float(one.replace(",", ".")) for one in re.findall(r"\d+(?:[.,]\d+)?", line)]
    assert sorted(figures) == sorted([round(2 * long) / 2, stitches, hat.row_count])


def test_the_crown_of_a_hat_worked_sideways_is_gathered_through_its_rows() -> None:
    plan = plan_pattern(read_text(HAT.format(worked="sideways"), "x.toml"))
    assert f"through the edge stitches of all {plan.pieces[0].row_count} rows, pull tight" in finishing.text(plan)


def test_the_proof_sees_another_count_at_the_crown() -> None:
    """Held against cloth of one row of 3 dc, a chain and a turning chain: 4 are taken up."""
    stitches = [SimpleNamespace(kind=kind) for kind in ("tch", "dc", "dc", "ch", "dc")]
    cloth = SimpleNamespace(name="hat", rows=(SimpleNamespace(number=1, stitches=stitches),))
    said = "Hat, crown: cut the yarn with a tail of 24 cm; with the needle take it through the tops of all {}"
    for count, wrong in ((4, 0), (5, 1), (3, 1)):
        line = f"- {said.format(count)} stitches of row 1, pull tight and fasten off, then sew the seam."
        assert len(list(yarns.crowns([cloth], [line]))) == wrong  # type: ignore[list-item]
