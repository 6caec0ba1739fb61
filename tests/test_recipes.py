"""Recipes: pattern files written from a garment and a wearer, and the arithmetic they are worked out by.

Measures are worked out again here by hand from the size tables (``sizes`` names their sources); every recipe is planned
in three sizes, proved stitch by stitch, and held against its wishes. The rules of the recipes themselves are common
practice, no source.
"""

from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from math import floor
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

import turnchain
from turnchain import sizes
from turnchain.cli import cli
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.formulas import names_in, value
from turnchain.garment import openings, seams
from turnchain.garment.usual import USUAL
from turnchain.pages.report import doubts
from turnchain.recipes import recipe, writing
from turnchain.units import INCH

BODY = {"bust": Fraction(94), "ease": Fraction(12), "head": Fraction(57)}


@pytest.mark.parametrize(
    ("formula", "expected"),
    [
        ("(bust + ease) / 2", 53), ("bust - 2 * ease", 70), ("-(ease)", -12), ("max(bust, head)", 94),
        ("min(bust, head, ease)", 12), ("head * 0.5", Fraction("28.5")), ("7", 7), ("bust / 3", Fraction(94, 3)),
    ],
)  # fmt: skip
def test_formulas_are_worked_out_exactly(formula: str, expected: Fraction) -> None:
    assert value(formula, BODY) == expected


@pytest.mark.parametrize(
    "formula",
    [
        "bust ** 2", "__import__('os')", "bust.real", "bust if head else ease", "[bust][0]", "open('x')", "'a'",
        "bust //",
        "max()", "max(bust, key=head)", "True", "bust & 1", "waist", "bust / (ease - 12)", "", "(" * 500, "1" * 300,
        "lambda: 1", "f'{bust}'", "bust := 2", "1e999999", "2j",
    ],
)  # fmt: skip
def test_nothing_else_can_be_written(formula: str) -> None:
    with pytest.raises(MakerError):
        value(formula, BODY)


@given(st.text(alphabet="bustheadease0123456789+-*/(). ,maxmin_'[]", max_size=40))
def test_no_formula_does_more_than_reckon(formula: str) -> None:
    try:
        found = value(formula, BODY)
    except MakerError:
        return
    assert isinstance(found, Fraction)
    assert names_in(formula) <= set(BODY)


def wearers(name: str) -> list[writing.RecipeWearer]:
    """Three for each recipe: sizes of the tables that have its measures, and own measures."""
    if not recipe.recipe(name).body:
        return [writing.RecipeWearer()]
    found = [writing.RecipeWearer("woman", (size,)) for size in ("XS", "M", "3X")]
    try:
        child = writing.RecipeWearer("child", ("8",))
        writing.written(recipe.recipe(name), child)
    except MakerError:
        return found
    return [*found, child]


CASES = [(name, wearer) for name in recipe.names() for wearer in wearers(name)]


@pytest.mark.parametrize(("name", "wearer"), CASES, ids=lambda one: one if isinstance(one, str) else "".join(one.sizes))
@pytest.mark.slow
def test_every_recipe_is_planned_and_proved(name: str, wearer: writing.RecipeWearer) -> None:
    turnchain.prove(fitting(name, wearer))


def fitting(name: str, wearer: writing.RecipeWearer) -> Plan:
    """The plan of a recipe, whose every measure is within half a row along the work and half a cluster across it."""
    plan = turnchain.plan(turnchain.loads(writing.written(recipe.recipe(name), wearer)))
    for piece in plan.pieces:
        for fit in piece.fit:
            across = ("length" in fit.measure or "depth" in fit.measure) == (piece.top is not None)
            across = across and fit.measure != "height"
            assert abs(fit.off) <= (plan.gauge.half if across else plan.gauge.row / 2), (piece.name, fit)
    assert not [said for said in doubts(plan) if "neck over head" in said]
    for seam in seams.of(plan):  # a cap is as long as its armhole (bygumbygolly.blogspot.com, 2011-03), to a row
        assert seam.kind != "sleeve top" or not seam.other.mixed or abs(seam.off) <= plan.gauge.row, seam
    return plan


#: Width of the back of a neck in inches by the bust (theknitwit.org, 2020-02-05): 32, 36, 40, 44, 48, 52 in.
BACK_NECKS = {"S": "5.5", "M": "6", "L": "7", "1X": "7.5", "2X": "8", "3X": "9"}
WITH_NECKS = ("boxy top", "upright top", "slipover", "set in sleeve pullover", "cardigan", "waistcoat", "open jacket")


@pytest.mark.parametrize("name", [pytest.param(name, marks=[pytest.mark.slow] if nth else []) for nth, name in
                                  enumerate(WITH_NECKS)])  # fmt: skip
def test_necks_are_as_wide_as_published_ones(name: str) -> None:
    """The middles of the bust of these sizes are 32.9 to 53 in, each in the step of one published bust. A neck may be
    wider, since those that do not open pass the head; twice the published width is the least round."""
    for size, inches in BACK_NECKS.items():
        text = writing.written(recipe.recipe(name), writing.RecipeWearer("woman", (size,)))
        plan = turnchain.plan(turnchain.loads(text))
        back = next(piece for piece in plan.pieces if piece.name == "back")
        width = next(fit.worked for fit in back.fit if fit.measure == "neck width")
        assert width >= Fraction(inches) * INCH, size
        round_it = next(one.length for one in openings.of(plan) if one.kind in ("neck", "front edge"))
        assert round_it >= 2 * Fraction(inches) * INCH, size




@pytest.mark.parametrize("name", recipe.names())
@pytest.mark.slow
def test_every_size_of_a_recipe_is_within_half_a_row_and_half_a_cluster(name: str) -> None:
    for wearer in every_size(name):
        fitting(name, wearer)


def every_size(name: str) -> list[writing.RecipeWearer]:
    """All sizes whose measures the tables have."""
    if not recipe.recipe(name).body:
        return [writing.RecipeWearer()]
    found = [writing.RecipeWearer(table, (size,)) for table, there in sizes.tables().items() for size in there]
    return [wearer for wearer in found if wearer.table == "woman" or name not in FOR_WOMEN]


#: The table of children has no knees, hips round and waists, and no neck to cuff.
FOR_WOMEN = {"dress", "skirt in panels", "square shawl", "upright dress"}


@pytest.mark.parametrize("name", sorted(FOR_WOMEN))
def test_measures_that_a_table_lacks_are_asked_for(name: str) -> None:
    with pytest.raises(MakerError, match="needs"):
        writing.written(recipe.recipe(name), writing.RecipeWearer("child", ("8",)))


@pytest.mark.parametrize(
    ("name", "table", "size"),
    [("boxy top", "child", "8"), ("set in sleeve pullover", "woman", "XS"), ("waistcoat", "woman", "3X"),
     ("slipover", "child", "4"), ("upright dress", "woman", "3X")],
)  # fmt: skip
def test_some_sizes_are_within_half_a_row_and_half_a_cluster(name: str, table: str, size: str) -> None:
    fitting(name, writing.RecipeWearer(table, (size,)))


@pytest.mark.parametrize("name", recipe.names())
def test_a_recipe_says_how_every_measure_is_worked_out(name: str) -> None:
    found, wearer = recipe.recipe(name), wearers(name)[0]
    text = writing.written(found, wearer)
    pattern = turnchain.loads(text)
    assert pattern.title == found.title
    used = [one for one in found.measures if f"{{{one.name}}}" in found.pattern]
    assert all(re.search(rf"# {one.name} = {re.escape(one.formula)}(, in [a-z ]+)?: {one.why}", text) for one in used)
    assert not re.search(r"\{[a-z_]+\}", text)
    assert all(one.name in found.pattern or any(one.name in names_in(other.formula) for other in found.measures)
               for one in found.measures)  # fmt: skip


def test_measures_are_those_of_the_table() -> None:
    """A boxy top in M by hand: bust 91.5 to 96.5 cm, so 94; ease 12: (94 + 12) / 2 = 53 cm wide. At 18 rows
    to 21 cm that is 45.43 rows, so 45, or 52.5 cm; for own 100 and 20 cm it is 60 cm, 51.43 rows, so 51: 59.5 cm."""
    bust = sizes.tables()["woman"]["M"]["bust"]
    assert (bust.least, bust.most) == (Fraction("91.5"), Fraction("96.5"))
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("M",)))
    assert tomllib.loads(text)["piece"][0]["width"] == 52.5
    wider = writing.RecipeWearer("woman", ("M",), {"bust": Fraction(100)}, Fraction(20))
    assert tomllib.loads(writing.written(recipe.recipe("boxy top"), wider))["piece"][0]["width"] == 59.5


def test_several_sizes_go_into_one_file() -> None:
    """S is 81 to 86 cm, L 101.5 to 106.5: (83.5 + 12) / 2 is 47.75 cm, 40.93 rows, so 41: 47.83 cm, down to
    a mm; (104 + 12) / 2 is 58, 49.71 rows, of odd numbers 49: 57.17 cm."""
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("S", "M", "L")))
    assert 'width = "47.8 (52.5, 57.1)"' in text
    patterns = turnchain.loads_sizes(text)
    assert [pattern.size for pattern in patterns] == ["S", "M", "L"]
    assert [pattern.wearer and pattern.wearer.size for pattern in patterns] == ["S", "M", "L"]


def test_a_baby_is_always_said_to_be_one() -> None:
    """Its cautions depend on it."""
    pattern = turnchain.loads(writing.written(recipe.recipe("baby blanket"), writing.RecipeWearer()))
    assert pattern.wearer is not None
    assert pattern.wearer.who == "baby"
    with pytest.raises(MakerError, match="the same for every size"):
        writing.written(recipe.recipe("baby blanket"), writing.RecipeWearer("woman", ("M",)))
    with pytest.raises(MakerError, match="given twice"):
        writing.asked("woman", ("S", "S"), (), None, "cm")


def test_inches_are_a_quarter_exact() -> None:
    """94 cm a third is 31.33, 12.34 in; 45 rows, 52.5 cm, are 20.67 in, down to a 20th 20.65."""
    text = writing.written(recipe.read(NEW), writing.RecipeWearer("woman", ("M",)), "in")
    assert tomllib.loads(text)["piece"][0]["width"] == 12.25
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("M",)), "in")
    assert tomllib.loads(text)["piece"][0]["width"] == 20.65
    assert turnchain.loads(text).units == "in"


@pytest.mark.parametrize(
    ("steps", "cm"),
    [("whole clusters", 13 * 26 / 11), ("clusters and a half", 13.5 * 26 / 11), ("half clusters", 13.5 * 26 / 11),
     ("whole rows", 27 * 7 / 6), ("odd rows", 27 * 7 / 6)],
)  # fmt: skip
def test_a_measure_may_go_by_rows_and_clusters(steps: str, cm: float) -> None:
    """A third of 94 cm, 31.33: 13.26 clusters of 26 / 11 cm, 26.86 rows of 7 / 6 cm."""
    found = recipe.read(NEW.replace('why = "a third"', f'why = "a third"\nin = "{steps}"'))
    text = writing.written(found, writing.RecipeWearer("woman", ("M",)))
    assert tomllib.loads(text)["piece"][0]["width"] == floor(10 * cm) / 10
    assert f"# side = bust / 3, in {steps}: a third" in text
    with pytest.raises(MakerError, match="there are whole clusters"):
        recipe.read(NEW.replace('why = "a third"', 'why = "a third"\nin = "dozens"'))


def test_usual_measures_need_no_formula() -> None:
    text = NEW.replace("side", "width").replace('formula = "bust / 3"\nwhy = "a third"', "")
    (width,) = recipe.read(text).measures
    assert (width.formula, width.why) == USUAL["width"]


NEW = '''
name = "mat"
title = "Table mat"
about = "one panel"
who = "home"
body = ["bust"]
[[measure]]
name = "side"
formula = "bust / 3"
why = "a third"
[pattern]
text = """
[[piece]]
name = "mat"
width = {side}
length = {side}
"""
'''


def test_a_recipe_is_added_without_code() -> None:
    found = recipe.read(NEW)
    text = writing.written(found, writing.RecipeWearer("woman", ("M",)))
    plan = turnchain.plan(turnchain.loads(text))
    turnchain.prove(plan)
    assert plan.pieces[0].fit[0].wanted == Fraction(63, 2)  # 94 / 3 is 31.33
    assert "# side = bust / 3: a third" in text


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('formula = "bust / 3"', 'formula = "waist / 3"', "needs waist"),
        ('formula = "bust / 3"', 'formula = "bust ** 3"', "cannot stand in a formula"),
        ('name = "mat"', "", "no recipe"),
        ("[pattern]", "[pattern", "no recipe"),
    ],
)
def test_a_wrong_recipe_is_refused(old: str, new: str, words: str) -> None:
    with pytest.raises(MakerError, match=words):
        writing.written(recipe.read(NEW.replace(old, new, 1)), writing.RecipeWearer("woman", ("M",)))


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        (["--garment", "boxy top"], "needs bust, cross_back, head, hip_length, waist_length"),
        (["--garment", "boxy top", "--table", "woman", "--size", "XXL"], 'no size "XXL"'),
        (["--garment", "dress", "--table", "child", "--size", "8"], "needs"),
        (["--garment", "hat", "--measure", "foot=20"], "names no measure of the body"),
        (["--garment", "hat", "--measure", "head=big"], "must be a length"),
        (["--garment", "jumper"], "Invalid value"),
        (["--size", "M"], "go with --garment"),
    ],
)
def test_what_cannot_be_written_is_told(words: list[str], expected: str, tmp_path: Path) -> None:
    done = CliRunner().invoke(cli, ["new", str(tmp_path / "a.toml"), *words])
    assert done.exit_code != 0
    assert expected in done.output + str(done.exception)
    assert not (tmp_path / "a.toml").exists()


def test_a_new_file_of_a_garment_runs_as_it_stands(tmp_path: Path) -> None:
    file = tmp_path / "hat.toml"
    done = CliRunner().invoke(cli, ["new", str(file), "--garment", "hat", "--measure", "head=22 in", "--units", "in"])
    assert done.exit_code == 0, done.output
    assert CliRunner().invoke(cli, ["check", str(file)]).exit_code == 0
    assert tomllib.loads(file.read_text())["wearer"]["head"] == 22


def test_measures_that_stand_nowhere_are_told_where_they_are_used() -> None:
    text = writing.written(recipe.recipe("drop shoulder pullover"), writing.RecipeWearer("woman", ("M",)))
    lines = text.splitlines()
    at = next(nth for nth, line in enumerate(lines) if line.startswith("# shoulder = (width - neck) / 2"))
    assert lines[at - 1].startswith("# neck = max(head * 0.47, cross_back * 0.45)")


def test_units_without_a_garment_are_refused(tmp_path: Path) -> None:
    done = CliRunner().invoke(cli, ["new", str(tmp_path / "a.toml"), "--units", "in"])
    assert done.exit_code == 2
    assert "go with --garment" in done.output
