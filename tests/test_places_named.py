"""A place is named once, where it is made, and by that name ever after: new chains, the edge stitch, first spaces.

The words are read back and worked by the maker of the proof, in every language; each mutant below leaves a maker in
doubt or at the wrong stitch, and is found. That a maker counts an edge stitch or not, and that dc on a chain show no
groups, is common practice, no source.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import words_of
from turnchain.wording import words
from turnchain.wording.tables import LANGUAGES

SWATCH = Swatch(Fraction(4), Fraction(8), Fraction(10), Fraction(10))
OUTLINES = {
    "out": ((0, 30), (20, 30), (20, 45), (40, 45)),
    "in": ((0, 45), (20, 45), (20, 30), (40, 30)),
}


def stepped(way: str, gap: int) -> Plan:
    """A piece whose left edge steps out, or in, half way up."""
    outline = tuple((Fraction(height), Fraction(width)) for height, width in OUTLINES[way])
    piece = Piece("step", outline=outline, align="right" if way == "out" else "centre")
    return plan_pattern(Pattern("Steps", (SWATCH,), (piece,), Fabric(3, gap)))


def panel(gap: int, clusters: int = 8, row_plan: str = "alike") -> Plan:
    piece = Piece("panel", width=Fraction(clusters * 5, 2), length=Fraction(10), row_plan=row_plan)  # type: ignore[arg-type]
    return plan_pattern(Pattern("Panel", (SWATCH,), (piece,), Fabric(3, gap)))


def stepping_row(piece: PiecePlan, move: str) -> str:
    row = next(row for row in piece.rows if row.edge(row.starts).move == move)
    return words.row_words(piece, row, "US")


@pytest.mark.parametrize("gap", [0, 1])
def test_a_new_chain_says_which_of_it_is_the_turning_chain(gap: int) -> None:
    text = stepping_row(stepped("out", gap).pieces[0], "step_out")
    assert re.search(r": Ch (\d+) \(last [34] ch are tch\), turn, ", text)
    assert "count as tch" not in text


@pytest.mark.parametrize("gap", [0, 1])
def test_slip_stitches_say_that_the_edge_stitch_is_not_counted(gap: int) -> None:
    text = stepping_row(stepped("in", gap).pieces[0], "step_in")
    assert re.search(r": Turn, skip edge st, sl st in each of next \d+ st", text)


def test_the_foundation_alone_says_what_the_skipped_chains_are() -> None:
    plan = panel(1)
    text = words.pattern_text(plan, "US")
    assert "The last 3 ch are the tch of row 1." in text
    assert "Dc in 5th ch from hook, dc in each of next 2 ch" in text


@pytest.mark.parametrize(
    ("row_plan", "said"),
    [
        ("alike", "Sp for next row, counted from its start: the first between 4th and 5th st, then one after every"),
        ("alternate", "Sp for next row, counted from its start: the first between "),
    ],
)
def test_row_1_of_the_closed_fabric_says_where_its_spaces_lie(row_plan: str, said: str) -> None:
    (piece,) = panel(0, row_plan=row_plan).pieces
    first, second = (words.row_words(piece, row, "US") for row in piece.rows[:2])
    assert said in first
    assert "Sp for next row" not in second
    assert "Sp for next row" not in words.pattern_text(panel(1), "US")


def found(plan: Plan, language: str, old: str, new: str) -> list[str]:
    """What the proof says of the text with one thing changed in it."""
    text = words.pattern_text(plan, language)
    assert words_of(plan, language, text).reasons is None
    assert old in text
    return words_of(plan, language, text.replace(old, new, 1)).reasons or []


SAID = "Sp for next row, counted from its start: the first between 4th and 5th st, then one after every 3 st."
MUTANTS = {
    "US": {
        "out": [(" (last 3 ch are tch)", ""), ("(last 3 ch are tch)", "(last 4 ch are tch)")],
        "in": [("skip edge st, ", ""), ("skip edge st, ", "skip edge st, skip edge st, ")],
        "row 1": [
            (f" {SAID}", ""),
            ("between 4th and 5th st", "between 3rd and 4th st"),
            ("between 4th and 5th st", "between 4th and 6th st"),
            ("one after every 3 st", "one after every 4 st"),
        ],
    },
    "de": {
        "out": [
            (" (die letzten 3 Lm sind die WLm)", ""),
            ("(die letzten 3 Lm sind die WLm)", "(die letzten 4 Lm sind die WLm)"),
        ],
        "in": [("Randmasche übergehen, ", "")],
        "row 1": [("zwischen der 4. und 5. M", "zwischen der 3. und 4. M"), ("nach je 3 M", "nach je 4 M")],
    },
}  # fmt: skip


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", MUTANTS)
def test_words_that_name_a_place_wrongly_are_found(language: str) -> None:
    plans = {"out": [stepped("out", 0), stepped("out", 1)], "in": [stepped("in", 0), stepped("in", 1)]}
    plans["row 1"] = [panel(0)]
    for which, pairs in MUTANTS[language].items():
        for old, new in pairs:
            tried = [plan for plan in plans[which] if old in words.pattern_text(plan, language)]
            assert tried, old
            for plan in tried:
                assert found(plan, language, old, new), (old, new)


@pytest.mark.quick(4)
@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("way", OUTLINES)
@pytest.mark.parametrize("gap", [0, 1])
def test_steps_are_read_back_in_every_language(language: str, way: str, gap: int) -> None:
    plan = stepped(way, gap)
    assert words_of(plan, language, words.pattern_text(plan, language)).reasons is None


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_is_called_a_post(language: str) -> None:
    for plan in (stepped("out", 1), stepped("in", 0), panel(0)):
        assert not re.search(r"\bposts?\b", words.pattern_text(plan, language), re.IGNORECASE)
