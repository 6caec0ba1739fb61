"""Which cautions are given, and which are not. Sources of their words: the trade notes (EN 14682, 16 CFR 1120 with ASTM
F1816, CEN/TR 16792, AAP 2022, EN 16779-1, EN 16781, 16 CFR 1610, 1615 and 1616), all seen there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from turnchain.fabric.plan import Plan
from turnchain.garment import cautions, materials
from turnchain.pattern import Fabric, Pattern, Piece, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file

CASES = Path(__file__).parent / "cases"
SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))


def planned(title: str, piece: str, gap: int = 1, wearer: Wearer | None = None, note: str = "") -> Plan:
    panel = Piece(piece, width=Fraction(40), length=Fraction(40))
    return plan_pattern(Pattern(title, (SWATCH,), (panel,), Fabric(3, gap), wearer=wearer, note=note))


def about(plan: Plan) -> list[str]:
    return [one.about for one in cautions.cautions(plan)]


@pytest.mark.parametrize(
    ("title", "piece", "gap", "expected"),
    [
        ("Baby blanket", "blanket", 1, ["sleep", "cords", "open fabric", "small parts", "flame"]),
        ("Baby blanket", "blanket", 0, ["sleep", "cords", "small parts", "flame"]),
        ("Mudflat blanket", "blanket", 0, ["sleep", "flame"]),
        ("Mudflat blanket", "blanket", 1, ["sleep", "open fabric", "flame"]),
        ("Sea slipover", "front", 1, ["flame"]),
        ("Child's cape", "cape", 0, ["cords", "small parts"]),
        ("Kite", "tie", 1, ["cords", "flame"]),
        ("Mat", "mat", 0, []),
    ],
)
def test_what_applies(title: str, piece: str, gap: int, expected: list[str]) -> None:
    assert about(planned(title, piece, gap)) == expected


def test_words_are_whole_words() -> None:
    """Untied, babysitter's, childhood: none of these is a tie, a baby or a child."""
    assert about(planned("Untied babysitter childhood cotta", "recover", gap=0)) == []


def test_a_childs_size_is_a_child() -> None:
    plan = planned("Slipover", "front", wearer=Wearer("child", "4"))
    assert about(plan) == ["cords", "open fabric", "small parts", "flame"]
    assert {one.because for one in cautions.cautions(plan)[:3]} == {"for a child's size"}


def test_a_grown_ups_ties_are_no_danger_to_a_child() -> None:
    assert about(planned("Kite", "tie", wearer=Wearer("woman", "M"))) == ["flame"]


def test_a_grown_ups_shawl_is_no_cot_blanket() -> None:
    assert about(planned("Shawl", "shawl")) == ["sleep", "open fabric", "flame"]
    assert about(planned("Shawl", "shawl", wearer=Wearer("woman", "M"))) == ["flame"]


def test_a_note_counts_as_well() -> None:
    assert "sleep" in about(planned("Squares", "square", note="For a newborn."))


def test_local_rules_always_come_last() -> None:
    for plan in (planned("Mat", "mat", gap=0), planned("Baby blanket", "blanket")):
        assert cautions.lines(plan)[-1] == (
            "follow your local rules; ask a qualified person where a child's safety depends on it"
        )


def test_a_blanket_names_its_rules() -> None:
    first = cautions.lines(planned("Baby blanket", "blanket"))[0]
    assert "under 12 months" in first
    for rule in ("AAP 2022", "EN 16779-1", "EN 16781"):
        assert rule in first


# ----------------------------------------------------------------------------------------------------- materials


def test_hooks_have_their_label_and_odd_sizes_none() -> None:
    """Labels read in lists of hook sellers."""
    assert materials.hook_words(Fraction(5)) == "5 mm (US H-8)"
    assert materials.hook_words(Fraction("2.25")) == "2.25 mm (US B-1)"
    assert materials.hook_words(Fraction(7)) == "7 mm"


def test_no_hook_given_still_has_materials() -> None:
    told = materials.lines(planned("Mat", "mat"))
    assert "hook: the size that gives the gauge; the pattern file names none" in told
    assert told[0] == "yarn: any that gives the gauge"


def test_two_swatches_two_hooks() -> None:
    plan = planned("Mat", "mat")
    swatches = (replace(SWATCH, hook=Fraction(5)), replace(SWATCH, hook=Fraction(4)))
    told = materials.lines(plan_pattern(replace(plan.pattern, swatches=swatches)))
    assert "hook: 4 mm (US G-6) and 5 mm (US H-8), or the size that gives the gauge" in told


def test_yarns_have_letter_and_colour() -> None:
    told = materials.lines(plan_pattern(read_file(CASES / "heron_top.toml")))
    assert [line.partition(":")[0] for line in told[:3]] == [
        "yarn A, Heron (#6f8aa3)",
        "yarn B, Reed (#b9b36a)",
        "yarn C, Silt (#e8dcc4)",
    ]
    assert all("g," in line and "ball" in line for line in told[:3])
