"""A neck that begins with no width on one cluster: both sections have an edge stitch there, and these never cross.

Of an even cluster each takes the dc on its own side of the two in the middle; of an odd one the middle dc holds both.
The plan, the words in every language, the chart and the proof say the same, and the proof refuses anything else. The
rule is common practice, no source: no stitch stands in front of another.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import product
from pathlib import Path

import pytest

from chart_reader import Chart, Drawn
from turnchain.fabric import grid
from turnchain.fabric.grid import Grid, Into, Stitch
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.proof import proving
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.hook.stitches import Unworkable
from turnchain.wording import words
from turnchain.wording.instructions.one_piece import of_row
from turnchain.wording.instructions.steps import DcOfCluster, Join, Work

FABRICS = [(k, g) for k in (2, 3, 4, 5) for g in (0, 1)]
LENGTHS = (23, 24)  # the first section is on the left, on the right


@cache
def divided(k: int, g: int, length: int) -> Plan:
    """A piece cut open from the top to a cluster in the middle of a row; half pitch and row are 1 cm."""
    swatch = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))
    for width in (14, 16):  # a cluster stands in the middle of one of them
        neck = Neck(Fraction(width, 2), Fraction(6), "square")
        piece = Piece("top", width=Fraction(width), length=Fraction(length), neck=neck)
        yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
        pattern = Pattern("Slit", (swatch,), (piece,), Fabric(k, g), yarns, Stripes(("Reed", "Silt"), (2, 1)))
        plan = plan_pattern(pattern)
        first, second = beginnings(plan.pieces[0])
        if first.edge(first.ends).kind == second.edge(second.starts).kind == "flush":
            assert first.edge(first.ends).at == second.edge(second.starts).at
            return plan
    raise AssertionError("no neck begins on a cluster")


def beginnings(piece: PiecePlan) -> tuple[Row, Row]:
    """The first rows of the two sections, in the order worked."""
    first, second = (row for row in piece.rows if piece.begins_section(row))
    return first, second


def inner_stitches(piece: PiecePlan) -> tuple[Stitch, Stitch]:
    """The edge stitches at the neck where the sections begin: that of the left section first."""
    stitches = Grid(piece)
    first, second = beginnings(piece)
    made = stitches.stitch(first, len(stitches.row(first)) - 1), stitches.stitch(second, 0)
    return made if first.starts == "left" else made[::-1]


def test_both_sections_may_come_first() -> None:
    assert {beginnings(divided(2, 1, length).pieces[0])[0].starts for length in LENGTHS} == {"left", "right"}


@pytest.mark.parametrize(("k", "g"), FABRICS)
@pytest.mark.parametrize("length", LENGTHS)
def test_each_takes_the_dc_on_its_own_side(k: int, g: int, length: int) -> None:
    (piece,) = divided(k, g, length).pieces
    left, right = inner_stitches(piece)
    assert left.into is right.into is Into.STITCH
    below = piece.below(left.row)
    assert below is not None
    carrying = [Grid(piece).stitch(below, place) for place in (left.target, right.target)]
    assert [one.head for one in carrying] == pytest.approx([left.foot, right.foot])
    apart = 0 if k % 2 else 2 / (k + g)  # from one stitch to the next, in half pitches
    assert right.foot - left.foot == pytest.approx(apart)
    assert (left.foot + right.foot) / 2 == pytest.approx(left.head)  # over the middle of the cluster
    assert left.head == right.head


@pytest.mark.parametrize(("k", "g"), FABRICS)
def test_the_words_name_those_dc(k: int, g: int) -> None:
    (piece,) = divided(k, g, LENGTHS[0]).pieces
    first, second = beginnings(piece)
    end = next(step for step in reversed(of_row(piece, first).steps) if isinstance(step, Work))
    join = of_row(piece, second).steps[0]
    assert isinstance(join, Join)
    # both rows go the same way, so the first section's is met first
    assert end.place == DcOfCluster((k + 1) // 2, "next")
    assert join.place == DcOfCluster(k // 2 + 1, "same")
    assert join.skipped == 0


def test_the_words_of_a_cluster_of_two() -> None:
    said = words.pattern_text(divided(2, 1, LENGTHS[0]), "US")
    assert "dc in 1st dc of next cl, change to Reed in last yo, leave rest of row unworked" in said
    assert "in 2nd dc of same cl as the first shoulder" in said


@pytest.mark.parametrize(("k", "g"), FABRICS)
def test_the_chart_shows_those_dc(k: int, g: int, tmp_path: Path) -> None:
    """Its feet read back: neither stands beyond the other."""
    plan = divided(k, g, LENGTHS[1])
    (piece,) = plan.pieces
    file = tmp_path / "top.svg"
    file.write_bytes(proving.svg_of(plan, "top"))
    drawn = Chart(file)
    first, second = beginnings(piece)
    below = piece.below(first)
    assert below is not None
    inner = inner_posts(drawn, first, second)
    dcs = sorted(one.head[0] for one in drawn.row(below.index + 1) if one.what == "dc")
    carrying = [[nth for nth, at in enumerate(dcs) if abs(one.foot[0] - at) < 0.3] for one in inner]
    assert [len(found) for found in carrying] == [1, 1]
    (left,), (right,) = carrying
    assert right - left == (0 if k % 2 else 1)


def inner_posts(drawn: Chart, first: Row, second: Row) -> list[Drawn]:
    """The edge stitches at the neck where the sections begin, as drawn: that of the left section first."""
    sides = {row.starts if row is second else row.ends: row for row in (first, second)}
    made = []
    for side, best in (("right", max), ("left", min)):
        standing = [one for one in drawn.row(sides[side].index + 1) if one.what in ("dc", "tch", "tch+ch")]  # type: ignore[index]
        made.append(best(standing, key=lambda one: one.head[0]))
    return made


@pytest.mark.quick(11)
@pytest.mark.parametrize(("k", "g"), FABRICS)
@pytest.mark.parametrize("length", LENGTHS)
def test_edge_stitches_of_a_neck_without_width_stand_apart(k: int, g: int, length: int, tmp_path: Path) -> None:
    """They stood on one another in every row, with row numbers of one section over the stitches of the other."""
    plan = divided(k, g, length)
    (piece,) = plan.pieces
    file = tmp_path / "top.svg"
    file.write_bytes(proving.svg_of(plan, "top"))
    drawn = Chart(file)
    half = drawn.row(1)[-1].head[0] - drawn.row(1)[0].head[0]
    half = abs(half) / (piece.rows[0].right.at - piece.rows[0].left.at)
    for row in piece.section(piece.sections[1]):
        other = next(one for one in piece.section(piece.sections[2]) if one.number == row.number)
        sides = {side: one for one in (row, other) for side in ("left", "right")
                 if piece.across_neck(one, side) == one.edge(side).at}  # fmt: skip
        if not sides:
            continue  # the neck has width there
        left, right = (best(one.head[0] for one in drawn.row(sides[side].index + 1) if one.what != "ch")
                       for side, best in (("right", max), ("left", min)))  # fmt: skip
        assert right - left > 0.3 * half
    first = piece.rows[0]
    cloth = (first.left.at, first.right.at)
    numbers = [x for _, (x, _) in read_chart(file.read_bytes()).numbers]
    left_end = min(one.head[0] for one in drawn.row(1))
    inside = [x for x in numbers if left_end < x < left_end + half * (cloth[1] - cloth[0])]
    assert inside == []


@pytest.mark.quick(4)
@pytest.mark.parametrize(("k", "g"), FABRICS)
@pytest.mark.parametrize("length", LENGTHS)
def test_it_is_proved_in_every_language(k: int, g: int, length: int) -> None:
    assert proving.prove(divided(k, g, length)).reasons == ()


#: The places of both edge stitches in the words of each language, and how it counts them.
SAID = {
    "US": ("in {} dc of next cl", "in {} dc of same cl", ("1st", "2nd", "3rd", "4th")),
    "UK": ("in {} tr of next cl", "in {} tr of same cl", ("1st", "2nd", "3rd", "4th")),
    "de": ("in das {} Stb der nächsten Gr", "in das {} Stb derselben Gr", ("1.", "2.", "3.", "4.")),
    "fr": ("dans la {} b du gr suivant", "dans la {} b du même gr", ("1re", "2e", "3e", "4e")),
}


@pytest.mark.parametrize("language", SAID)
@pytest.mark.parametrize("k", [2, 4])
def test_words_that_cross_them_are_found(language: str, k: int) -> None:
    """Each of the two in another dc, and both changed about."""
    plan = divided(k, 1, LENGTHS[0])
    text = words.pattern_text(plan, language)
    end, join, counted = SAID[language]
    own = (end.format(counted[k // 2 - 1]), join.format(counted[k // 2]))
    assert [text.count(words) for words in own] == [1, 1]
    assert not proving.words_of(plan, language, text).reasons
    for nth in range(k):
        others = [
            text.replace(own[0], end.format(counted[nth])) if nth != k // 2 - 1 else None,
            text.replace(own[1], join.format(counted[nth])) if nth != k // 2 else None,
        ]
        for other in filter(None, others):
            assert proving.words_of(plan, language, other).reasons
    crossing = text.replace(own[0], end.format(counted[k // 2])).replace(own[1], join.format(counted[k // 2 - 1]))
    assert proving.words_of(plan, language, crossing).reasons


@pytest.mark.quick(1)
@pytest.mark.parametrize("k", [2, 4])
def test_charts_that_cross_them_are_found(k: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Charts drawn with the feet on any other dc, of one edge stitch or of both; dc are counted from the outside."""
    plan = divided(k, 1, LENGTHS[1])
    for left, right in product(range(k), repeat=2):
        with monkeypatch.context() as changed:
            counted = {"left": right, "right": left}  # the left section has its edge stitch at its right
            changed.setattr(grid._RowWriter, "_middle_dc", lambda row, side, counted=counted: counted[side])
            drawn = read_chart(proving.svg_of(plan, "top"))
        if (left, right) == (k // 2, k // 2):
            assert len(work_chart(drawn)) == len(plan.pieces[0].rows)
        else:
            with pytest.raises(Unworkable):
                work_chart(drawn)
