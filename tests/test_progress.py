"""A piece begun: worked rows stay, the rest is the best that is left."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.errors import PatternError
from turnchain.fabric import lattice
from turnchain.fabric.plan import PiecePlan
from turnchain.pages.report import report
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Progress, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.records import replace

CASES = Path(__file__).parent / "cases"
HERON = read_file(CASES / "heron_top.toml")
UNIT = Swatch(Fraction(1), Fraction(2), Fraction(1), Fraction(1))  # half a pitch 1 cm, a row 1 cm


def begun(pattern: Pattern, name: str, rows: int, off: Fraction, wide: Fraction = Fraction(1)) -> Pattern:
    """``pattern`` with ``rows`` of a piece worked, ``off`` times as high and ``wide`` times as wide as planned."""
    piece = plan_pattern(pattern).piece(name)
    last = piece.rows[rows - 1]
    height = last.number * piece.gauge.row * off
    width = (last.right.at - last.left.at) * piece.gauge.half * wide
    return replace(pattern, progress=(Progress(name, rows, height, width),))


def edges(piece: PiecePlan, rows: int) -> list[tuple[int, int]]:
    return [(row.left.at, row.right.at) for row in piece.rows[:rows]]


@pytest.mark.slow
@settings(max_examples=60)
@given(
    name=st.sampled_from(["front", "back", "sleeve"]),
    share=st.fractions(Fraction(1, 20), 1),
    off=st.fractions(Fraction(4, 5), Fraction(5, 4), max_denominator=40),
    wide=st.fractions(Fraction(9, 10), Fraction(11, 10), max_denominator=40),
)
def test_worked_rows_never_change(name: str, share: Fraction, off: Fraction, wide: Fraction) -> None:
    before = plan_pattern(HERON).piece(name)
    rows = max(1, int(len(before.rows) * share))
    after = plan_pattern(begun(HERON, name, rows, off, wide)).piece(name)
    assert edges(after, rows) == edges(before, rows)
    assert after.foundation_chain == before.foundation_chain
    assert [row.colour for row in after.rows[:rows]] == [row.colour for row in before.rows[:rows]]
    assert after.progress is not None
    assert after.progress.worked == rows


def test_a_true_swatch_changes_nothing() -> None:
    before = plan_pattern(HERON).piece("front")
    after = plan_pattern(begun(HERON, "front", 20, Fraction(1))).piece("front")
    assert edges(after, len(after.rows)) == edges(before, len(before.rows))
    assert after.progress is not None
    assert not after.progress.changed


@pytest.mark.quick(1)
@pytest.mark.parametrize("kind", ["mirrored", "gradual", "random"])
def test_worked_rows_keep_their_yarns_in_stripes_that_hang_on_the_rows(kind: str) -> None:
    order = tuple(yarn.name for yarn in HERON.yarns)
    striped = replace(HERON, stripes=Stripes(order, (2,), kind=kind))  # type: ignore[arg-type]
    before = plan_pattern(striped).piece("front")
    after = plan_pattern(begun(striped, "front", 20, Fraction(6, 5))).piece("front")
    assert len(after.rows) != len(before.rows)
    assert [row.colour for row in after.rows[:20]] == [row.colour for row in before.rows[:20]]


@pytest.mark.parametrize(
    ("rows", "height", "width", "said"),
    [
        # heron's swatch: a row of 21/18 = 1.17 cm, a cluster of 26/11 = 2.36 cm, some 25 clusters across
        (10, "0.117", None, "10 rows of 0.12 cm together, 0.01 cm each"),
        (10, "0.001", None, "10 rows of 0 cm together, 0 cm each"),
        (10, "1170", None, "10 rows of 1170 cm together, 117 cm each"),
        (20, "23.4", "2", "a last row of 2 cm, 0.11 cm for a cluster"),
        (20, "23.4", "5100", "a last row of 5100 cm, 2"),
    ],
)
def test_progress_far_from_the_swatch_is_told(rows: int, height: str, width: str | None, said: str) -> None:
    wide = None if width is None else Fraction(width)
    pattern = replace(HERON, progress=(Progress("front", rows, Fraction(height), wide),))
    with pytest.raises(PatternError) as caught:
        plan_pattern(pattern)
    (problem,) = caught.value.problems
    assert problem.place == 'progress of piece "front"'
    assert problem.path == ("progress", 0)
    assert problem.found.startswith(said)
    assert "half to twice" in problem.allowed
    assert problem.hint == "look at the unit, and count again"


def test_no_progress_makes_more_rows_than_may_be_planned() -> None:
    # a panel of 1950 rows of 1 cm, worked to 3/5 of that height: 3250 rows
    swatch = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))
    piece = Piece("strip", width=Fraction(10), length=Fraction(1950))
    pattern = Pattern("Test", (swatch,), (piece,), progress=(Progress("strip", 10, Fraction(6)),))
    with pytest.raises(PatternError) as caught:
        plan_pattern(pattern)
    (problem,) = caught.value.problems
    assert problem.found == "1950 cm is 3250 rows at the gauge of what is worked"
    assert problem.allowed == "must be at most 2000 rows"


def test_pieces_not_begun_go_by_what_is_worked() -> None:
    plan = plan_pattern(begun(HERON, "front", 20, Fraction(11, 10)))
    assert plan.piece("back").gauge.row == plan.piece("front").gauge.row
    assert plan.piece("back").row_count == plan.piece("front").row_count


def straight_from(start: int, rows: int, phase: int, worked: tuple[int, ...]) -> list[tuple[int, ...]]:
    """Every line of reaches that goes on from the ``worked`` ones by at most half a pitch a row."""
    return [
        (*worked, *rest)
        for rest in product(range(start - rows, start + rows + 1), repeat=rows - len(worked))
        if all(abs(a - b) <= 1 for a, b in zip((*worked, *rest)[len(worked) - 1 :], rest, strict=False))
    ]


def cost(line: tuple[int, ...], targets: list[Fraction], phase: int, worked: int) -> Fraction:
    """Squared half pitches of both mirrored edges over the rows still to work, and what moves out of turn cost there
    (by the rules: a forced decrease a quarter of a whole pitch off in one row, a forced increase half)."""
    total = Fraction(0)
    for index in range(worked, len(line)):
        total += 2 * (line[index] - targets[index]) ** 2
        move = line[index] - line[index - 1]
        flush = (line[index - 1] + index + phase) % 2 == 1
        if move == -1 and not flush:
            total += 2
        if move == 1 and flush:
            total += 4
    return total


@pytest.mark.slow
@settings(max_examples=40)
@given(
    widths=st.tuples(st.integers(6, 12), st.integers(6, 12)),
    rows=st.integers(4, 6),
    worked=st.integers(1, 3),
    wide=st.sampled_from([Fraction(9, 10), Fraction(1), Fraction(11, 10)]),
)
def test_the_rest_is_the_best_that_is_left(widths: tuple[int, int], rows: int, worked: int, wide: Fraction) -> None:
    """Against every way to go on by half pitches, for a piece shaped alike at both edges."""
    outline = ((Fraction(0), Fraction(widths[0])), (Fraction(rows), Fraction(widths[1])))
    pattern = Pattern("t", (UNIT,), (Piece("p", outline=outline, row_plan="alternate"),), Fabric())
    before = plan_pattern(pattern).piece("p")
    if widths[0] == widths[1]:
        return  # a straight panel has no shape to go on with
    plan = plan_pattern(begun(pattern, "p", worked, Fraction(1), wide)).piece("p")
    first = before.rows[0]
    centre = (first.left.at + first.right.at) // 2
    phase = (before.phase + centre) % 2
    done = tuple(row.right.at - centre for row in before.rows[:worked])
    half = plan.gauge.half
    targets = [
        (widths[0] + Fraction(widths[1] - widths[0]) * row / rows) / 2 / half for row in range(1, rows + 1)
    ]
    possible = [
        line
        for line in straight_from(done[-1], rows, phase, done)
        if all(lattice.clusters(-reach, reach, row + phase) > 0 for row, reach in enumerate(line, start=1))
    ]
    best = min(cost(line, targets, phase, worked) for line in possible)
    found = tuple(row.right.at - centre for row in plan.rows)
    if len(found) == rows and all(abs(a - b) <= 1 for a, b in pairwise(found)):
        # The old plan is kept where it costs at most one row half a pitch off more.
        assert cost(found, targets, phase, worked) <= best + 1


def test_a_neck_begun_is_ended_alike() -> None:
    panel = Piece("p", "sideways", width=Fraction(41), length=Fraction(20), neck=Neck(Fraction(10), Fraction(5)))
    pattern = Pattern("t", (UNIT,), (panel,))
    plan = plan_pattern(begun(pattern, "p", 13, Fraction(21, 20))).piece("p")
    line = [plan.rows[0].right.at, *(row.right.at for row in plan.rows)]
    assert line == line[::-1]


@pytest.mark.parametrize("off", [Fraction(4, 5), Fraction(9, 10), Fraction(11, 10), Fraction(6, 5)])
@pytest.mark.parametrize("more", [0, 1, 3])
def test_a_shoulder_that_is_done_says_how_many_rows_the_other_has(off: Fraction, more: int) -> None:
    """Worked tighter or looser, the height that is wanted asks for other rows; the first shoulder is fastened off."""
    neck = Neck(Fraction(5), Fraction(8), "square")
    panel = Piece("p", "upwards", width=Fraction(20), length=Fraction(20), neck=neck)
    yarns, stripes = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4")), Stripes(("Reed", "Silt"), (1, 2))
    pattern = Pattern("t", (UNIT,), (panel,), yarns=yarns, stripes=stripes)
    before = plan_pattern(pattern).piece("p")
    rows = len(before.section("body")) + len(before.section("first shoulder")) + more
    after = plan_pattern(begun(pattern, "p", rows, off)).piece("p")
    assert edges(after, rows) == edges(before, rows)
    assert [row.colour for row in after.rows] == [row.colour for row in before.rows]
    assert {name: len(after.section(name)) for name in after.sections} == {
        name: len(before.section(name)) for name in before.sections
    }


def test_the_report_tells_how_far_the_swatch_was_off() -> None:
    said = report(plan_pattern(begun(HERON, "front", 20, Fraction(11, 10))))
    assert "20 rows worked" in said
    assert "+10.0 % from the swatch" in said
    assert "as planned by the swatch, with 47 rows, it would come to width 60.32 cm" in said


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ('piece = "front"\nrows = 480\nheight = 20', '480 rows worked; the piece has 47 rows'),
        ('piece = "frnt"\nrows = 4\nheight = 20', 'did you mean "front"?'),
        ('piece = "front"\nrows = 4\nheight = 0', "progress, height"),
        ('piece = "front"\nrows = 0\nheight = 3', "progress, rows"),
        ('rows = 4\nheight = 3', "progress needs the name of a piece"),
    ],
)
def test_a_progress_that_cannot_be(keys: str, said: str) -> None:
    text = (CASES / "heron_top.toml").read_text() + f"\n[progress]\n{keys}\n"
    with pytest.raises(PatternError) as raised:
        plan_pattern(read_text(text, "x"), "x")
    assert said in str(raised.value), str(raised.value)


@pytest.mark.parametrize(("worked", "can"), [(0, True), (1, False)])
def test_all_rows_may_be_worked_and_no_more(worked: int, can: bool) -> None:
    """The front as planned has so many rows; one more is told."""
    rows = len(plan_pattern(HERON).piece("front").rows)
    pattern = begun(HERON, "front", rows, Fraction(1))
    if can:
        assert edges(plan_pattern(pattern).piece("front"), rows) == edges(plan_pattern(HERON).piece("front"), rows)
        return
    more = tuple(replace(one, rows=rows + worked) for one in pattern.progress)
    with pytest.raises(PatternError, match=f"{rows + worked} rows worked"):
        plan_pattern(replace(pattern, progress=more))
