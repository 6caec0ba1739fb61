"""Which cautions are given, and which are not. Sources of their words: EN 14682, 16 CFR 1120 with ASTM
F1816, CEN/TR 16792, AAP 2022, EN 16779-1, EN 16781, 16 CFR 1610, 1615 and 1616; SOURCES.md in the package has which."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from turnchain.fabric.plan import Plan
from turnchain.garment import caution_words, cautions, materials
from turnchain.pages import blog, overview
from turnchain.pages.beside import page
from turnchain.pattern import Edging, Fabric, Pattern, Piece, Swatch, Wearer, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import LANGUAGES

CASES = Path(__file__).parent / "cases"
SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))


def planned(title: str, piece: str, gap: int = 1, wearer: Wearer | None = None, note: str = "") -> Plan:
    panel = Piece(piece, width=Fraction(40), length=Fraction(40))
    return plan_pattern(Pattern(title, (SWATCH,), (panel,), Fabric(3, gap), wearer=wearer, note=note))


def about(plan: Plan) -> list[str]:
    return [one.subject for one in cautions.cautions(plan)]


#: Given with every pattern, last: common practice, no source.
WORK = ["blocking", "washing", "hands"]


@pytest.mark.parametrize(
    ("title", "piece", "gap", "expected"),
    [
        ("Baby blanket", "blanket", 1, ["sleep", "cords", "open fabric", "loose ends", "small parts", "flame"]),
        ("Baby blanket", "blanket", 0, ["sleep", "cords", "loose ends", "small parts", "flame"]),
        ("Lovey", "square", 0, ["sleep", "cords", "loose ends", "small parts"]),
        ("Playmat", "mat", 0, ["sleep", "cords", "loose ends", "small parts"]),
        ("Mudflat blanket", "blanket", 0, ["sleep", "flame"]),
        ("Mudflat blanket", "blanket", 1, ["sleep", "open fabric", "flame"]),
        ("Sea slipover", "front", 1, ["flame"]),
        ("Child's cape", "cape", 0, ["cords", "loose ends", "small parts"]),
        ("Youth vest", "cape", 0, ["cords", "loose ends", "small parts"]),
        ("Cape, age 8", "cape", 0, ["cords", "loose ends", "small parts"]),
        ("Cape, age 48", "cape", 0, []),
        ("Kite", "tie", 1, ["cords", "flame"]),
        ("Mat", "mat", 0, []),
    ],
)
def test_what_applies(title: str, piece: str, gap: int, expected: list[str]) -> None:
    found = about(planned(title, piece, gap))
    assert [one for one in found if one not in (*WORK, "selling")] == expected
    assert [one for one in found if one in WORK] == WORK
    assert ("selling" in found) is ("small parts" in expected)


def test_words_are_whole_words() -> None:
    """Untied, babysitter's, childhood: none of these is a tie, a baby or a child."""
    assert about(planned("Untied babysitter childhood cotta", "recover", gap=0)) == WORK


@pytest.mark.parametrize("wearer", [Wearer("child", "4"), Wearer(who="child"), Wearer(bust=Fraction(56))])
def test_a_child_is_known_by_table_key_or_measures(wearer: Wearer) -> None:
    """A bust of 56 cm is no grown-up's: woman XS is 71 to 76 (published, second hand)."""
    plan = planned("Slipover", "front", wearer=wearer)
    assert about(plan) == ["cords", "open fabric", "loose ends", "small parts", "flame", *WORK, "selling"]
    assert "1615" in "".join(caution_words.for_customer(plan))


def test_what_the_maker_says_goes_before_words() -> None:
    plan = planned("Old boys' blanket", "blanket", wearer=Wearer(who="adult"))
    assert about(plan) == ["flame", *WORK]
    assert not any("whom is it for?" in line for line in caution_words.for_report(plan))


def test_the_report_asks_whom_it_is_for_and_the_customer_is_not_asked() -> None:
    for wearer, title in ((None, "Lovey"), (Wearer(bust=Fraction(56)), "Slipover")):
        plan = planned(title, "square", wearer=wearer)
        assert caution_words.for_report(plan)[0].startswith("whom is it for?")
        assert "[wearer]" in caution_words.for_report(plan)[0]
        told = " ".join(caution_words.for_customer(plan))
        assert "[wearer]" not in told
        assert "as its words say" not in told


@pytest.mark.parametrize(
    ("title", "wearer"),
    [("Coat for a dog", None), ("Slipover", Wearer(who="child")), ("Slipover", Wearer("child", "4"))],
)
def test_nothing_is_asked_where_it_is_given_or_nobody_is_young(title: str, wearer: Wearer | None) -> None:
    told = caution_words.for_report(planned(title, "coat", wearer=wearer))
    assert not any("whom is it for?" in line for line in told)


@pytest.mark.parametrize("edging", [Edging(tie=Fraction(40)), Edging(strap=Fraction(60))])
def test_ties_and_straps_of_a_border_are_cords(edging: Edging) -> None:
    plan = planned("Mat", "mat", 0)
    assert "cords" not in about(plan)
    assert "cords" in about(replace(plan, pattern=replace(plan.pattern, edgings=(edging,))))


def test_a_grown_ups_ties_are_no_danger_to_a_child() -> None:
    assert about(planned("Kite", "tie", wearer=Wearer("woman", "M"))) == ["flame", *WORK]


def test_a_grown_ups_shawl_is_no_cot_blanket() -> None:
    assert about(planned("Shawl", "shawl")) == ["sleep", "open fabric", "flame", *WORK]
    assert about(planned("Shawl", "shawl", wearer=Wearer("woman", "M"))) == ["flame", *WORK]


def test_pets_chew() -> None:
    assert "chewed off" in " ".join(caution_words.for_customer(planned("Dog coat", "coat", wearer=Wearer(who="pet"))))


def test_a_note_counts_as_well() -> None:
    assert "sleep" in about(planned("Squares", "square", note="For a newborn."))


def test_fibres_are_told_with_their_care() -> None:
    """Acrylic is ruined by a hot iron (published); that wool felts is common practice."""
    plan = planned("Mat", "mat")
    yarns = (Yarn("Reed", "#b9b36a", fibre="wool"), Yarn("Silt", "#e8dcc4", fibre="acrylic"))
    told = next(
        line
        for line in caution_words.for_customer(plan_pattern(replace(plan.pattern, yarns=yarns)))
        if line.startswith("washing")
    )
    assert "wool felts" in told
    assert "never iron" in told
    assert "as the most delicate of them" in told


def test_local_rules_always_come_last() -> None:
    for plan in (planned("Mat", "mat", gap=0), planned("Baby blanket", "blanket")):
        assert caution_words.for_customer(plan)[-1] == (
            "follow your local rules; ask a qualified person where a child's safety depends on it"
        )


def test_a_blanket_names_its_rules() -> None:
    first = caution_words.for_customer(planned("Baby blanket", "blanket"))[0]
    assert "under 12 months" in first
    for rule in ("AAP 2022", "EN 16779-1", "EN 16781"):
        assert rule in first


def test_cautions_stand_wherever_a_maker_reads() -> None:
    plan = planned("Lovey", "square")
    for text in (blog.markdown(plan), overview.overview(plan, []), page.page(plan)):
        assert "Cautions" in text
        assert "AAP 2022" in text
        assert "a qualified person" in text


# ----------------------------------------------------------------------------------------------------- materials


def test_hooks_have_their_label_and_odd_sizes_none() -> None:
    """Labels read in lists of hook sellers."""
    us, german = Speech(LANGUAGES["US"]), Speech(LANGUAGES["de"])
    assert materials.hook_words(us, Fraction(5)) == "5 mm (US H-8)"
    assert materials.hook_words(us, Fraction("2.25")) == "2.25 mm (US B-1)"
    assert materials.hook_words(us, Fraction(7)) == "7 mm"
    assert materials.hook_words(german, Fraction("2.25")) == "2,25 mm (US B-1)"


def test_no_hook_given_still_has_materials() -> None:
    told = materials.lines(planned("Mat", "mat"))
    assert "hook: the size that gives the gauge" in told
    assert told[0] == "yarn: any that gives the gauge"


def test_two_swatches_two_hooks() -> None:
    plan = planned("Mat", "mat")
    swatches = (replace(SWATCH, hook=Fraction(5)), replace(SWATCH, hook=Fraction(4)))
    told = materials.lines(plan_pattern(replace(plan.pattern, swatches=swatches)))
    assert "hook: 4 mm (US G-6) and 5 mm (US H-8), or the size that gives the gauge" in told


def test_yarns_have_their_letters() -> None:
    told = materials.lines(plan_pattern(read_file(CASES / "heron_top.toml")))
    assert [line.partition(":")[0] for line in told[:3]] == [
        "yarn A, Heron",
        "yarn B, Reed",
        "yarn C, Silt",
    ]
    assert all("g," in line and "ball" in line for line in told[:3])


@pytest.mark.parametrize(("title", "wearer", "why"), [
    ("Blanket for a baby", None, "for a baby, as its words say"),
    ("Throw", Wearer(who="baby"), "for a baby"),
    ("Slipover", Wearer(bust=Fraction(56)), "for a child, as its measures say"),
    ("Slipover", Wearer("child", "4"), "for a child's size"),
])  # fmt: skip
def test_why_a_caution_is_given(title: str, wearer: Wearer | None, why: str) -> None:
    said = caution_words.for_report(planned(title, "front", wearer=wearer))
    assert any(line.startswith(f"small parts ({why}): ") for line in said), said


@pytest.mark.parametrize(("title", "slept"), [("Pyjamas for a child", True), ("Slipover for a child", False)])
def test_what_is_no_sleepwear_is_said_of_what_children_sleep_in(title: str, slept: bool) -> None:
    (flame,) = [line for line in caution_words.for_report(planned(title, "front")) if line.startswith("flame")]
    assert ("this is not sleepwear unless" in flame) is slept


def test_a_garment_with_a_piece_that_is_none_is_still_worn() -> None:
    """The caution of a fabric near a flame is for the front, whatever else belongs to the pattern."""
    pieces = tuple(Piece(name, width=Fraction(40), length=Fraction(40)) for name in ("front", "back", "mat"))
    assert "flame" in about(plan_pattern(Pattern("Saltings", (SWATCH,), pieces, Fabric(3, 0))))
