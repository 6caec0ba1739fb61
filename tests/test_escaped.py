"""Changes of the program that no test once saw: each has its test here, and is shown to be seen.

Sources: the signs of eighths by Unicode's own table of numbers; a gauge of usual rows from the fabric's model ("6 for
8"); sums by hand. That larger sizes measure more is what a size is.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from fractions import Fraction

import pytest

from program_mutants import anew, changes, sampling
from turnchain import sizes
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import wedge
from turnchain.drawing.preview import preview
from turnchain.fabric.plan import Plan
from turnchain.garment import seams, wearing
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Path
from turnchain.units import length

HEAD = """
title = "Escaped"
[swatch]
clusters = 4
width = 10
rows = {rows}
height = 10
[[yarn]]
name = "Reed"
colour = "#b9b36a"
"""


def planned(pieces: str, rows: int = 8) -> Plan:
    return plan_pattern(read_text(HEAD.format(rows=rows) + pieces, "escaped.toml"))


PANEL = '[[piece]]\nname = "panel"\nwidth = 40\nlength = 40\n'


@pytest.mark.parametrize(("rows", "said"), [(6, "few"), (12, "many")])
def test_a_gauge_says_to_which_side_rows_were_miscounted(rows: int, said: str) -> None:
    (warning,) = planned(PANEL, rows).warnings
    assert f"here too {said}: {rows}.0 rows to 10 cm counted" in warning


BODY = """
[[piece]]
name = "front"
width = 50
length = 60
[[piece]]
name = "back"
width = 50
length = 60
[[piece]]
name = "sleeve"
count = 2
outline = [[0, 36], [40, 36]]
"""


def test_a_side_is_sewn_row_by_row_up_to_the_sleeve_and_the_sleeve_from_there() -> None:
    """48 rows of 1.25 cm; half of a top of 36.25 cm takes 14.5 rows, told as 14 or 15 of them."""
    rows = {
        kind: {side.rows for seam in seams.of(planned(BODY)) if seam.kind == kind for side in (seam.one, seam.other)}
        for kind in ("side", "sleeve top")
    }
    below = {ends for ends in rows["side"] if ends}
    above = {ends for ends in rows["sleeve top"] if ends}
    split = {max(ends) for ends in below}
    assert {min(ends) for ends in below} == {1}
    assert len(split) == 1
    assert split <= {33, 34}
    assert {(min(ends), max(ends)) for ends in above} == {(split.pop() + 1, 48)}


APART = """
[[piece]]
name = "panel"
row_plan = "alike"
left_outline = {left}
right_outline = {right}
"""
STRAIGHT, SHAPED = "[[0, 10], [25, 10]]", "[[0, 10], [25, 22.5]]"


def test_a_straight_edge_is_the_line_the_other_is_measured_from_at_either_side() -> None:
    """20 cm to 32.5 cm in 20 rows, rows alike: half a pitch over from first to last, 8.5 and 13.5 clusters, and the
    same whichever edge is straight."""
    one, other = (
        planned(APART.format(left=left, right=right)).pieces[0]
        for left, right in ((STRAIGHT, SHAPED), (SHAPED, STRAIGHT))
    )
    for piece in (one, other):
        wide = [row.right.at - row.left.at for row in piece.rows]
        assert (wide[0], wide[-1]) == (17, 27)
    assert {fit.measure: fit.worked for fit in one.fit} == {fit.measure: fit.worked for fit in other.fit}


EIGHTHS = [chr(code) for code in range(0xBC, 0x2190) if unicodedata.name(chr(code), "").startswith("VULGAR FRACTION")]


@pytest.mark.parametrize("sign", EIGHTHS)
def test_signs_of_fractions_are_what_unicode_says(sign: str) -> None:
    share = Fraction(unicodedata.numeric(sign)).limit_denominator(100)
    try:
        found = length(f"21{sign} in", "in")
    except ValueError:
        assert share.denominator not in (2, 4, 8), "a tape's own"
        return
    assert found == (21 + share) * Fraction("2.54")


def test_a_side_lies_beyond_the_shoulder_by_half_of_what_is_wider() -> None:
    """50 cm, half a cluster over: 51.25 cm on a back of 41 cm from shoulder to shoulder."""
    said = wearing.lines(planned(BODY + "[wearer]\ncross_back = 41\nbust = 90\n"))
    assert any("the side edge lies 5.12 cm beyond the shoulder" in line for line in said), said


ORDER = {
    "woman": ["XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X"],
    "child": ["2", "4", "6", "8", "10", "12", "14", "16"],
}


@pytest.mark.parametrize("table", ORDER)
def test_larger_sizes_measure_more(table: str) -> None:
    rows = sizes.tables()[table]  # type: ignore[index]
    assert list(rows) == ORDER[table]
    for measure in rows[ORDER[table][0]]:
        grown = [(rows[size][measure].least, rows[size][measure].most) for size in ORDER[table]]
        assert grown == sorted(grown), measure
        assert all(of[measure].middle * 2 == of[measure].least + of[measure].most for of in rows.values())
    busts = [rows[size]["bust"].middle for size in ORDER[table]]
    assert len(set(busts)) == len(busts)


@pytest.mark.parametrize(("least", "name"), sizes.EASE_NAMES)
def test_ease_has_its_name_from_just_as_many_cm(least: Fraction, name: str) -> None:
    assert sizes.ease_name(least) == name
    assert sizes.ease_name(least - Fraction(1, 100)) != name


@pytest.mark.parametrize(("cm", "taken"), [(10**9, True), (10**9 + 1, False)])
def test_the_largest_length_is_taken_and_no_larger_one(cm: int, taken: bool) -> None:
    if taken:
        assert length(cm, "cm") == cm
    else:
        with pytest.raises(ValueError, match="must be at most 1 000 000 000"):
            length(cm, "cm")


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("move", ["decrease", "increase", "forced_decrease", "forced_increase", "step_in", "step_out"])
def test_a_wedge_is_open_where_the_move_is_out_of_turn_and_solid_elsewhere(move: str, side: str) -> None:
    theme = Look().theme
    wedges = wedge(move, side, 0.0, 0.0, 10.0, theme)  # type: ignore[arg-type]
    assert len(wedges) == (2 if move.startswith("step") else 1)
    for one in wedges:
        assert isinstance(one, Path)
        assert one.fill == (None if "forced" in move else theme.accent)


SLOPE = '[[piece]]\nname = "panel"\nalign = "{align}"\noutline = [[0, 20], [25, 45]]\n'


@pytest.mark.parametrize("align", ["left", "right"])
def test_a_preview_has_both_edges_of_every_row_where_the_plan_has_them(align: str) -> None:
    """Bands of cloth from foot to head: one edge straight up, the other row by row."""
    plan = planned(SLOPE.format(align=align))
    rows = plan.pieces[0].rows
    bands = [[step[1] for step in path.steps if len(step) > 1] for path in _bands(preview(plan).items)]
    assert len(bands) == len(rows)
    ats = []
    for nth, row in enumerate(rows):
        below = rows[max(0, nth - 1)]
        ats.append([below.left.at, row.left.at, row.right.at, below.right.at])
    first, last = min(map(min, ats)), max(map(max, ats))
    left, right = min(map(min, bands)), max(map(max, bands))  # type: ignore[type-var]
    for corners, wanted in zip(bands, ats, strict=True):
        assert corners == pytest.approx(
            [left + (at - first) * (right - left) / (last - first) for at in wanted], abs=1.5  # type: ignore[operator]
        )


def _bands(items: tuple[object, ...]) -> Iterator[Path]:
    for item in items:
        if isinstance(item, Group) and item.name.startswith("cloth"):
            yield from (path for path in item.items if isinstance(path, Path) and path.fill)
        elif isinstance(item, Group):
            yield from _bands(item.items)


# ------------------------------------------------------------------------------------------ that they are seen

#: What was changed: the module, what stands there, what stood there then.
ESCAPED = {
    "few and many": ("planning.warnings", "few = gauge.row > usual", "few = gauge.row < usual"),
    "a seam cut one row early": (
        "garment.stretches", "return (low + 1, high) if high > low", "return (low, high - 1) if high > low"
    ),
    "the straight right edge's allowance": (
        "planning.targets",
        "shaped = left.scaled(scale, right.points[0][1] * scale + allowance)",
        "shaped = left.scaled(scale, right.points[0][1] * scale - allowance)",
    ),
    "3/8 read as 5/8": ("units", '"⅜": "3/8"', '"⅜": "5/8"'),
    "the drop of a shoulder not halved": ("garment.wearing", "- back.middle) / 2", "- back.middle) / 1"),
    "two sizes swapped": ("sizes", "111.5-117, 122-127", "122-127, 111.5-117"),
    "a wedge drawn solid": (
        "drawing.margins", 'None if move.startswith("forced") else', 'None if move == "forced_increase" else'
    ),
    "the preview's edge from the wrong end": (
        "drawing.cloth", "else under.edge(side).at", "else under.edge(row.ends).at"
    ),
}  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("name", ESCAPED)
def test_what_once_escaped_is_seen_by_the_tests_above(name: str) -> None:
    module, was, now = ESCAPED[name]
    seen = anew.afresh(f"turnchain.{module}", anew.named(f"turnchain.{module}", was, now), [__file__])
    assert "test_escaped.py::" in seen


@pytest.mark.quick(0)
def test_mutants_listed_with_a_reason_still_stand_in_the_program() -> None:
    """Or a reason would stay for code that is gone."""
    for entry, why in [*sampling.unchanged().items(), *sampling.survivors().items()]:
        assert why
        there = changes.mutants(entry[0])
        assert any(entry == sampling.told(one) or (len(entry) < 4 and sampling.reason(one)) for one in there), entry
