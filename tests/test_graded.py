"""Measures worked out from a body inside a pattern file, in every size.

The bodies' figures are those of the size table (``sizes`` names its sources); what a formula comes to is worked out
here by hand, and once more by Python's own arithmetic from what the report prints. The rules to start with are common
practice, no source. That the woman's table is off from about 40 in of bust is from a survey (Digits & Threads,
2022-03-09).
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnchain import packaged
from turnchain.errors import PatternError
from turnchain.garment.grading import measures
from turnchain.garment.usual import USUAL
from turnchain.garment.wearing import checks
from turnchain.live.editing import Edit, edited
from turnchain.pages.report import report
from turnchain.pages.sizes_report import report_of_sizes
from turnchain.pattern import Piece
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.proof.compared import graded
from turnchain.proof.printed.report import PieceSaid, read_report
from turnchain.reading.brackets import figures
from turnchain.reading.graded import starting
from turnchain.reading.pattern_file import read_sizes, read_text
from turnchain.recipes.recipe import recipe

TOP = """
title = "Bog myrtle top"
sizes = ["S", "M", "3X"]
[swatch]
clusters = 18
width = 45
rows = 26
height = 32.5
[wearer]
table = "woman"
ease = "8 (8, 12)"
[[piece]]
name = "front"
width = "bust / 2 + ease / 2"
length = "60 (61, 62)"
neck = { shoulder = "width * 0.3", depth = 8 }
[[piece]]
name = "back"
width = "bust / 2 + ease / 2 + 1"
length = "60 (61, 62)"
neck = { shoulder = "width * 0.3", depth = 3 }
[[piece]]
name = "sleeve"
outline = [[0, "2 * armhole"], ["arm - 4", "max(upper_arm * 0.8, 20)"]]
"""
#: Middle of the bust's range, ease, armhole, arm, upper arm, cm.
BODIES = [("83.5", 8, 17, 43, 26), ("94", 8, 18, 43, 28), ("134.5", 12, "23.5", "45.5", 43)]


def pieces(text: str = TOP) -> list[tuple[Piece, ...]]:
    return [pattern.pieces for pattern in read_sizes(text, "x")]


def test_formulas_are_worked_out_for_each_size() -> None:
    for (front, back, sleeve), body in zip(pieces(), BODIES, strict=True):
        bust, ease, armhole, arm, upper_arm = map(Fraction, body)
        assert front.width == (bust + ease) / 2
        assert back.width == (bust + ease) / 2 + 1
        assert front.neck is not None
        assert front.neck.shoulder == front.width * Fraction(3, 10)
        assert sleeve.outline == ((0, 2 * armhole), (arm - 4, max(upper_arm * Fraction(4, 5), Fraction(20))))


def test_figures_in_a_formula_are_in_the_unit_of_the_file() -> None:
    inches = TOP.replace("sizes =", 'units = "in"\nsizes =').replace("ease = ", 'ease = "1 cm"  # ')
    inches = inches.replace("60 (61, 62)", "24").replace("depth = 8", "depth = 3")
    front, back, _ = pieces(inches)[0]
    assert front.width is not None
    assert front.width == Fraction("83.5") / 2 + Fraction(1, 2)
    assert back.width == front.width + Fraction("2.54")


def test_one_size_has_formulas_too() -> None:
    text = TOP.replace('sizes = ["S", "M", "3X"]\n', "").replace('"8 (8, 12)"', "8\nsize = 'M'")
    text = text.replace('"60 (61, 62)"', "60")
    assert read_text(text, "x").pieces[0].width == 51


def test_a_measure_is_named_by_its_place_in_the_file() -> None:
    """Counted from 1, as makers count."""
    tapers = 'taper = [{ width = 46, end = 9 }, { width = "bust / 2", start = 14, end = 20 }]'
    front = 'armhole = { depth = "armhole", width = 4 }'
    text = TOP.replace("neck = { shoulder", f"{front}\n{tapers}\nneck = {{ shoulder", 1)
    names = [one.measure for one in measures(read_sizes(text, "x")[0])]
    assert {"front, width", "front, armhole depth", "front, taper 2 width", "front, shoulder"} <= set(names)
    assert {"sleeve, outline, point 1 width", "sleeve, outline, point 2 height"} <= set(names)


def test_a_wearers_own_measure_goes_first() -> None:
    front = pieces(TOP.replace("[wearer]", '[wearer]\nbust = "90 (100, 140)"'))[1][0]
    assert front.width == 54


def test_ease_may_be_less_than_nothing() -> None:
    assert pieces(TOP.replace('"8 (8, 12)"', "-4"))[0][0].width == Fraction("39.75")


STARTS = TOP[: TOP.index("[[piece]]")] + """[[piece]]
name = "front"
worked = "sideways"
neck = { depth = 9 }
[[piece]]
name = "back"
worked = "sideways"
faces = "front"
length = 58
neck = {}
[[piece]]
name = "band"
width = 30
length = 4
"""


def test_a_wearer_with_ease_gives_measures_to_start_with() -> None:
    """By hand for M: bust 94, ease 8, waist 43.5 below the nape and the hip 1.48 times that, cross back 40, head 23.5
    in."""
    front, back, band = pieces(STARTS)[1]
    assert front.width == back.width == 51
    assert (front.length, back.length) == (Fraction("43.5") * Fraction("2.48") / 2, 58)
    assert front.neck is not None
    assert back.neck is not None
    shoulder = (51 - Fraction("23.5") * Fraction("2.54") * Fraction("0.47")) / 2
    assert (front.neck.shoulder, front.neck.depth) == (shoulder, 9)
    assert (back.neck.shoulder, back.neck.depth) == (shoulder, Fraction(40, 15))
    assert (band.width, band.length) == (30, 4)
    begun = [(one.path[1:], one.given) for one in read_sizes(STARTS, "x")[1].graded]
    assert ((0, "width"), False) in begun
    assert ((1, "length"), False) not in begun  # the file has it


def test_measures_to_start_with_are_those_of_a_recipe() -> None:
    pullover = {one.name: one.formula for one in recipe("drop shoulder pullover").measures}
    assert starting("length") == pullover["length"]
    assert starting("depth") == pullover["depth"]
    assert starting("shoulder") == pullover["shoulder"].replace("neck", pullover["neck"])
    files = (file.read_text("utf-8") for file in Path(str(packaged.file("recipes", "data"))).glob("*.toml"))
    assert not [said for said in files for usual, _ in USUAL.values() if f'formula = "{usual}"' in said]


def test_without_ease_nothing_is_taken_for_granted() -> None:
    with pytest.raises(PatternError, match="no size"):
        read_sizes(STARTS.replace('ease = "8 (8, 12)"\n', ""), "x")


@pytest.mark.parametrize(
    ("formula", "words"),
    [
        ("bust / 2 + eas / 2", "`eas` is not known here"), ("bust / 0", "divides by 0"), ("bust *", "is no formula"),
        ("4 - bust", "comes to -79.5; must be greater than 0"), ("knee_length + hat", "`hat` is not known here"),
        ("bust ** 2", "cannot stand in a formula"),
    ],
)  # fmt: skip
def test_what_cannot_be_worked_out_is_told_at_its_place(formula: str, words: str) -> None:
    with pytest.raises(PatternError) as error:
        read_sizes(TOP.replace("bust / 2 + ease / 2", formula, 1), "x")
    (problem, *_) = error.value.problems
    assert words in str(problem)
    assert problem.place.startswith('piece "front", width')
    assert problem.line == TOP.splitlines().index('width = "bust / 2 + ease / 2"') + 1


def test_a_measure_that_nobody_gives_is_asked_for() -> None:
    with pytest.raises(PatternError, match=r"`ease` is not known here \(write ease = 8 in \[wearer\]\)"):
        read_sizes(TOP.replace('ease = "8 (8, 12)"\n', ""), "x")
    child = TOP.replace('table = "woman"', 'table = "child"').replace('"S", "M", "3X"', "'4', '6', '8'")
    with pytest.raises(PatternError, match=r"`waist` is not known here \(give \[wearer\] a table and a size, or its"):
        read_sizes(child.replace("bust / 2", "waist / 2", 1), "x")


@pytest.mark.parametrize("value", ["bust / 2 + (ease / 2)", "max(bust, hip) / 2", "max(bust, hip)", "(bust + 2) / 2"])
def test_brackets_of_a_formula_are_no_sizes(value: str) -> None:
    assert figures(value) is None


@given(st.text(alphabet="busteawid0123456789+-*/(). ,maxmin_", max_size=30))
def test_any_formula_is_worked_out_or_refused(formula: str) -> None:
    text = TOP.replace("bust / 2 + ease / 2", formula, 1)
    try:
        said = "front" if read_sizes(text, "x") else ""
    except PatternError as error:
        said = str(error)
    assert "front" in said


def test_the_report_prints_what_each_measure_was_worked_out_from() -> None:
    """What the report prints of formula and body, worked out again, is what it prints as wanted."""
    plan = plan_sizes(read_sizes(TOP, "x"))[1]
    said = report(plan)
    part = said.split("worked out from the body\n")[1].split("\n\n")[0]
    assert "bust: 94 cm (size table, woman: the middle of its range)" in part
    assert "ease: 8 cm (as the file has it)" in part
    bodies = {name: float(cm) for name, cm in re.findall(r"^ *(\w+): ([\d.]+) cm", part, re.MULTILINE)}
    worked_out = re.findall(r"^ *(\w+), (.+?) = (.+) = ([\d.]+) cm", part, re.MULTILINE)
    assert len(worked_out) == 7
    for piece, measure, formula, cm in worked_out:
        width = {"front": 51.0, "back": 52.0}.get(piece)
        assert eval(formula, {"max": max}, {**bodies, "width": width}) == pytest.approx(float(cm), abs=0.006)
        if measure in ("width", "shoulder"):
            table = said.split(f"{piece}: ")[1]
            assert re.search(rf"^  {measure} +{re.escape(cm)} cm", table, re.MULTILINE)


def test_the_report_of_all_sizes_has_each_formula_once() -> None:
    said = report_of_sizes(plan_sizes(read_sizes(TOP, "x")))
    (line,) = (line for line in said.splitlines() if line.startswith("  front, width "))
    assert re.split("  +", line.strip()) == ["front, width", "= bust / 2 + ease / 2", "45.75 cm", "51 cm", "73.25 cm"]
    (line,) = (line for line in said.splitlines() if line.startswith("  bust "))
    assert re.split("  +", line.strip())[2:] == ["83.5 cm", "94 cm", "134.5 cm"]


def test_a_size_that_breaks_what_the_others_keep_is_named() -> None:
    said = report_of_sizes(plan_sizes(read_sizes(TOP.replace('"2 * armhole"', '"40 (40, 40)"'), "x")))
    (line,) = (line for line in said.splitlines() if line.startswith("warning: ") and "sleeve at the top" in line)
    assert line.startswith("warning: Size 3X only: sleeve at the top:")
    assert "40 cm round an upper arm of 43 cm" in line


def test_what_is_known_to_be_wrong_with_a_table_is_said() -> None:
    """40 in are 101.6 cm: M has 91.5 to 96.5 cm, 3X has 132 to 137 cm."""
    said = [[check.words for check in checks(plan) if check.about == "size table"]
            for plan in plan_sizes(read_sizes(TOP, "x"))]  # fmt: skip
    assert [len(words) for words in said] == [0, 0, 1]
    own = TOP.replace("[wearer]", "[wearer]\nupper_arm = 45\nwaist = 120\nhip = 130")
    assert not [check for check in checks(plan_pattern(read_sizes(own, "x")[2])) if check.about == "size table"]


@pytest.mark.parametrize(("bust", "told"), [(101, 0), (102, 1), (104, 1)])
def test_what_is_wrong_with_a_table_is_said_from_a_bust_of_40_inches(bust: int, told: int) -> None:
    """101.6 cm; in between no size of the table has its middle, so an own bust is given."""
    own = TOP.replace("[wearer]", f"[wearer]\nbust = {bust}")
    said = [check.about for check in checks(plan_pattern(read_sizes(own, "x")[1]))]
    assert said.count("size table") == told


def test_parts_of_a_piece_may_be_worked_out_as_well() -> None:
    """S by hand: armhole 17 and a cm, the width less the cross back halved; a slit a tenth of the length."""
    text = TOP[: TOP.index("[[piece]]")] + """[[piece]]
name = "front"
width = "bust / 2 + ease / 2"
length = 60
slit = "length / 10"
armhole = { depth = "armhole + 1", width = "(width - cross_back) / 2" }
"""
    found = {one.path[2:]: one.cm for one in read_sizes(text, "x")[0].graded}
    assert found["slit",] == 6
    assert found["armhole", "depth"] == 18
    assert found["armhole", "width"] == (Fraction("45.75") - Fraction("37.5")) / 2
    assert "front, armhole depth = armhole + 1 = 18 cm" in report(plan_sizes(read_sizes(text, "x"))[0])


def test_an_edit_of_one_size_writes_what_a_formula_comes_to() -> None:
    made = edited(TOP, [Edit(("piece", 0, "width"), 52, "one")], 1)
    assert made == TOP.replace('"bust / 2 + ease / 2"', '"45.75 (52, 73.25)"', 1)


@pytest.mark.quick(1)
@pytest.mark.parametrize("units", ["cm", "in"])
def test_the_proof_reckons_every_figure_again(units: str) -> None:
    """Each figure of the body and of what was worked out, changed in turn, is found."""
    text = STARTS.replace("sizes =", f'units = "{units}"\nsizes =')
    if units == "in":
        text = text.replace('"8 (8, 12)"', "3").replace("depth = 9", "depth = 3.5")
        text = text.replace("length = 58", "length = 23")
        text = text.replace("width = 30\nlength = 4", "width = 12\nlength = 2")
        text = text.replace("width = 45", "width = 18").replace("height = 32.5", "height = 13")
    said = report(plan_sizes(read_sizes(text, "x"))[1])
    looked, wrong = graded.lines(*section(said))
    assert (looked >= 11, wrong) == (True, [])
    missed = []
    for found in re.finditer(rf"\d+(?:\.\d+)?(?= {units}(?: \(|$))", said, re.MULTILINE):
        line = said[said.rfind("\n", 0, found.start()) + 1 : said.find("\n", found.start())]
        if line.strip() not in section(said)[0]:
            continue
        changed = said[: found.start()] + f"{float(found[0]) * 1.2 + 1:.2f}" + said[found.end() :]
        missed += [] if graded.lines(*section(changed))[1] else [line]
    assert missed == []


def section(said: str) -> tuple[list[str], dict[str, PieceSaid]]:
    read = read_report(said, ["front", "back", "band"], [])
    return read.under["worked out from the body"], read.pieces
