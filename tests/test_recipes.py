"""Recipes: pattern files written from a garment and a wearer, and the arithmetic they are worked out by.

Measures are worked out again here by hand from the size tables (``sizes`` names their sources); every recipe is planned
in three sizes, proved stitch by stitch, and held against its wishes. The rules of the recipes themselves are common
practice, no source.
"""

from __future__ import annotations

import re
import tomllib
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

import turnchain
from turnchain import sizes
from turnchain.cli import cli
from turnchain.errors import MakerError
from turnchain.formulas import names_in, value
from turnchain.pages.report import doubts
from turnchain.recipes import recipe, writing

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
    """Within a cluster, or a row and a half: rows alike are half a cluster wider than counted, and a neck that mirrors
    needs an odd number of rows."""
    plan = turnchain.plan(turnchain.loads(writing.written(recipe.recipe(name), wearer)))
    turnchain.prove(plan)
    for piece in plan.pieces:
        for fit in piece.fit:
            most = max(plan.gauge.pitch, plan.gauge.row * Fraction(3, 2))
            assert abs(fit.off) <= most, (piece.name, fit)
    assert not [said for said in doubts(plan) if "neck over head" in said]


@pytest.mark.parametrize("name", recipe.names())
def test_a_recipe_says_how_every_measure_is_worked_out(name: str) -> None:
    found, wearer = recipe.recipe(name), wearers(name)[0]
    text = writing.written(found, wearer)
    pattern = turnchain.loads(text)
    assert pattern.title == found.title
    used = [one for one in found.measures if f"{{{one.name}}}" in found.pattern]
    assert all(f"# {one.name} = {one.formula}: {one.why}" in text for one in used)
    assert not re.search(r"\{[a-z_]+\}", text)
    assert all(one.name in found.pattern or any(one.name in names_in(other.formula) for other in found.measures)
               for one in found.measures)  # fmt: skip


def test_measures_are_those_of_the_table() -> None:
    """A boxy top in M by hand: bust 91.5 to 96.5 cm, so 94; ease 12: (94 + 12) / 2 = 53 cm wide."""
    bust = sizes.TABLES["woman"]["M"]["bust"]
    assert (bust.least, bust.most) == (Fraction("91.5"), Fraction("96.5"))
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("M",)))
    assert tomllib.loads(text)["piece"][0]["width"] == 53
    wider = writing.RecipeWearer("woman", ("M",), {"bust": Fraction(100)}, Fraction(20))
    assert tomllib.loads(writing.written(recipe.recipe("boxy top"), wider))["piece"][0]["width"] == 60


def test_several_sizes_go_into_one_file() -> None:
    """S is 81 to 86 cm, L 101.5 to 106.5: (83.5 + 12) / 2 is 47.75, to half a cm 48; (104 + 12) / 2 is 58."""
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("S", "M", "L")))
    assert 'width = "48 (53, 58)"' in text
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
    text = writing.written(recipe.recipe("boxy top"), writing.RecipeWearer("woman", ("M",)), "in")
    width = tomllib.loads(text)["piece"][0]["width"]
    assert width == 20.75  # 53 cm are 20.87 in
    assert turnchain.loads(text).units == "in"


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
