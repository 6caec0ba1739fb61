"""A plan chosen by its counts: `exact_rows`, `exact_clusters`, and the line that the report prints for each plan that
came close.

Every such plan is written back into the file as the report says, and must come out: the file decides, not the code
that told it. No published values.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given
from hypothesis import strategies as st

from random_examples import examples
from test_reading import GOOD, problems, swapped
from turnchain.errors import PatternError
from turnchain.fabric.plan import PiecePlan
from turnchain.pages.report import report
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace

SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))  # half a pitch 1.25 cm, a row too


def planned(piece: Piece, fabric: Fabric = Fabric()) -> PiecePlan:  # noqa: B008
    return plan_pattern(Pattern("Test", (SWATCH,), (piece,), fabric=fabric)).pieces[0]


def first_counts(piece: PiecePlan) -> tuple[int, int]:
    return piece.rows[0].clusters, piece.rows[min(1, len(piece.rows) - 1)].clusters


def length(draw: st.DrawFn, least: int, most: int) -> Fraction:
    return Fraction(draw(st.integers(4 * least, 4 * most)), 4)


@st.composite
def pieces(draw: st.DrawFn) -> Piece:
    kind = draw(st.sampled_from(["panel", "neck", "outline", "edge"]))
    plan = draw(st.sampled_from(["auto", "auto", "alike", "alternate"]))
    if kind in ("panel", "neck"):
        worked = draw(st.sampled_from(["sideways", "upwards"]))
        piece = Piece("p", worked, width=length(draw, 20, 30), length=length(draw, 20, 30), row_plan=plan)
        neck = Neck(length(draw, 4, 7), length(draw, 3, 9), draw(st.sampled_from(["slant", "round", "vee", "square"])))
        return piece if kind == "panel" else replace(piece, neck=neck)
    heights = [Fraction(0), length(draw, 5, 12), length(draw, 13, 25)]
    outline = tuple((height, length(draw, 6, 30)) for height in heights)
    align = "centre" if kind == "outline" else draw(st.sampled_from(["left", "right"]))
    return Piece("p", outline=outline, align=align, row_plan=plan)


@examples(20, 80, suppress_health_check=list(HealthCheck))
@given(pieces(), st.builds(Fabric, st.sampled_from([3, 2]), st.integers(0, 1)))
def test_every_plan_that_came_close_can_be_chosen(piece: Piece, fabric: Fabric) -> None:
    for other in planned(piece, fabric).alternatives:
        chosen = planned(replace(piece, **dict(other.keys)), fabric)
        assert (chosen.row_count, chosen.row_plan, first_counts(chosen)) == (other.rows, other.row_plan, other.clusters)
        assert chosen.fit == other.fit


def test_the_report_says_what_to_write() -> None:
    text = 'title = "T"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'
    text += '[[piece]]\nname = "strip"\nwidth = 21\nlength = 31\n'
    told = [line for line in report(plan_pattern(read_text(text, "t"))).splitlines() if "to choose it" in line]
    assert told == [
        "  1  strip: 24 rows, 8 clusters at the start: length 30 cm (−1 cm); to choose it, write exact_rows = 24",
        # 8 and 7 clusters in turn are as wide, and take a chain more: 4 x 8 + 4 and not 4 x 7 + 7
        "  2  strip: 25 rows, 7 and 8 clusters in turn at the start: width 20 cm (−1 cm); to choose it, write "
        'row_plan = "alternate" and exact_rows = 25',
    ]
    for line in told:
        lines = line.partition("write ")[2].replace(" and ", "\n")
        rows, clusters = re.findall(r"strip: (\d+) rows, (\d+)", line)[0]
        piece = plan_pattern(read_text(f"{text}{lines}\n", "t")).pieces[0]
        assert (piece.row_count, piece.rows[0].clusters) == (int(rows), int(clusters))


@pytest.mark.parametrize("rows", [20, 23, 24, 31])
@pytest.mark.parametrize("clusters", [6, 8, 11])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_a_panel_of_exact_counts(rows: int, clusters: int, row_plan: str) -> None:
    piece = Piece("p", width=Fraction(21), length=Fraction(31), row_plan=row_plan)  # type: ignore[arg-type]
    chosen = planned(replace(piece, exact_rows=rows, exact_clusters=clusters))
    assert (chosen.row_count, chosen.rows[0].clusters, chosen.row_plan) == (rows, clusters, row_plan)
    # its size is counted from the lattice: a pitch for a cluster, and half a pitch over where rows are alike
    width = next(fit.worked for fit in chosen.fit if fit.measure == "width")
    over = width / Fraction("1.25") - 2 * clusters
    assert over in ((1,) if row_plan == "alike" else (0, 2))


@pytest.mark.quick(0)
@pytest.mark.parametrize("align", ["centre", "left", "right"])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_a_shaped_piece_of_exact_counts(align: str, row_plan: str) -> None:
    outline = ((Fraction(0), Fraction(20)), (Fraction(30), Fraction(35)))
    piece = Piece("p", outline=outline, align=align, row_plan=row_plan)  # type: ignore[arg-type]
    for rows, clusters in ((24, 8), (25, 7), (23, 9)):
        chosen = planned(replace(piece, exact_rows=rows, exact_clusters=clusters))
        assert (chosen.row_count, chosen.rows[0].clusters, chosen.row_plan) == (rows, clusters, row_plan)


@pytest.mark.quick(0)
def test_counts_that_no_plan_has_are_told() -> None:
    outline = ((Fraction(0), Fraction(20)), (Fraction(30), Fraction(35)))
    necked = Piece("p", width=Fraction(30), length=Fraction(30), neck=Neck(Fraction(8), Fraction(6)))
    for piece, key, found in (
        (Piece("p", outline=outline, exact_clusters=90), "exact_clusters", "90 clusters in row 1"),
        (replace(necked, exact_rows=1), "exact_rows", "1 row"),
    ):
        with pytest.raises(PatternError) as caught:
            planned(piece)
        (problem,) = caught.value.problems
        assert str(problem) == (
            f'{key} of piece "p": {found}; no plan of this shape has so many '
            "(leave it out, and see what the report says)"
        )
        assert problem.path == ("piece", 0, key)


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("exact_rows = 0", "exact_rows: 0; must be a whole number from 1 to 2000"),
        ("exact_rows = 38.5", "exact_rows: 38.5; must be a whole number from 1 to 2000"),
        ('exact_clusters = "16 clusters"', 'exact_clusters: "16 clusters"; must be a whole number from 1 to 2000 '
         "(write 16 without quotes)"),
    ],
)  # fmt: skip
def test_exact_counts_are_whole_numbers(key: str, said: str) -> None:
    assert problems(swapped('name = "sleeve"', f'name = "sleeve"\n{key}', GOOD)) == [f'piece "sleeve", {said}']
