"""The report of ``check``: what matters first, then a table a piece, then details; in colours on a terminal alone."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from turnchain.fabric.plan import Plan
from turnchain.numbers import counted
from turnchain.pages.glance import painted
from turnchain.pages.report import report
from turnchain.pattern import Pattern, Seam, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace

CASES = Path(__file__).parent / "cases"
ESCAPES = re.compile(r"\x1b\[\d*m")


def pattern(name: str) -> Pattern:
    return read_file(CASES / f"{name}.toml")


def case(name: str) -> Plan:
    return plan_pattern(pattern(name))


def test_it_opens_with_fit_yarn_and_doubts() -> None:
    title, empty, fit, yarn, doubts, *more = report(case("heron_top")).splitlines()
    assert (title, empty) == ("Heron Creek top", "")
    assert fit == (
        "fit:     not checked, since the file has no [wearer]; every measure within 1.18 cm of what was wanted "
        "(front, length)"
    )
    assert yarn == "yarn:    lasts; least is left of Silt, 6 g"
    warned = [line for line in more if line.startswith("warning: ")]
    assert more[: len(warned)] == warned  # all of them, before anything else
    assert doubts == f"doubts:  {counted(len(warned), 'warning')}, see below"
    assert more[len(warned)] == ""
    assert report(case("kite_kerchief")).splitlines()[4:6] == ["doubts:  none", ""]


def test_yarn_that_runs_out_is_told_first() -> None:
    lines = report(case("mudflat_blanket")).splitlines()
    assert lines[3] == "yarn:    falls short: Peat by 133 g, Samphire by 56 g, Sea lavender by 46 g, Shell by 23 g"
    assert lines[4] == "doubts:  4 warnings, see below"
    assert lines[5:9] == [
        f"warning: {name} runs out before the end" for name in ("Peat", "Samphire", "Sea lavender", "Shell")
    ]


def test_a_seam_whose_wish_is_not_kept_is_a_doubt() -> None:
    """Both sides of a sleeve are the ends of the same rows: their yarns always meet."""
    made = pattern("heron_top")
    seams = (Seam(("sleeve.left", "sleeve.right"), "differ"),)
    lines = report(plan_pattern(replace(made, seams=seams))).splitlines()
    assert "warning: seam A: stripes should differ there, and do not in 29 rows" in lines
    assert any("a yarn meets itself in 29 rows of 29: rows 1 to 29" in line for line in lines)


def test_a_body_that_it_does_not_fit_is_told_first() -> None:
    """A head of 80 cm through an opening of 67."""
    wide = replace(pattern("heron_top"), wearer=Wearer(head=Fraction(80), bust=Fraction(100)))
    fit = report(plan_pattern(wide)).splitlines()[2]
    assert fit.startswith("fit:     look again at neck over head")
    good = report(plan_pattern(replace(wide, wearer=Wearer(head=Fraction(56), bust=Fraction(100))))).splitlines()[2]
    assert good.startswith("fit:     good in ")
    assert "look again" not in good


def test_brief_is_the_report_without_its_details() -> None:
    plan = case("heron_top")
    whole, brief = report(plan), report(plan, brief=True)
    assert whole.startswith(brief)
    assert whole[len(brief) :].startswith("\ngauge\n")
    assert [line for line in brief.splitlines() if line.startswith("  neck depth")]


def test_tables_stand_in_line_over_all_pieces() -> None:
    """Every piece names its measures in a column of one width, and each column ends where its head does."""
    blocks = report(case("heron_top"), brief=True).split("\n\n")[2:]
    heads = [block.splitlines()[1] for block in blocks]
    assert len({head.index("wanted") for head in heads}) == 1
    for block in blocks:
        _, head, *rows = block.splitlines()
        for row in rows:
            worked = re.search(r"[\d.]+ cm +([\d.]+ cm)", row[20:])
            assert worked is not None
            assert worked.end() + 20 == head.index("worked") + len("worked")


def test_plans_that_came_close_are_numbered() -> None:
    plan = case("heron_top")
    lines = [line for line in report(plan).splitlines() if "to choose it, write" in line]
    assert [int(line.split()[0]) for line in lines] == list(range(1, len(lines) + 1))
    assert len(lines) == sum(len(piece.alternatives) for piece in plan.pieces)


def test_what_speaks_against_a_plan_that_came_close_is_told() -> None:
    """The front over 46 rows, a neck width met exactly: an even number of rows, whose two ends match by irregular
    shaping alone."""
    plan = case("heron_top")
    front = plan.pieces[0]
    even = next(other for other in front.alternatives if other.rows % 2 == 0)
    made, (first, *others) = pattern("heron_top"), pattern("heron_top").pieces
    chosen = plan_pattern(replace(made, pieces=(replace(first, exact_rows=46), *others))).pieces[0]
    assert even.irregular == sum(row.irregular for row in chosen.rows) == 7
    assert [other.irregular for other in front.alternatives if other.rows % 2] == [0, 0]
    assert "neck width 28 cm (exact); 7 rows shaped irregularly; to choose it" in report(plan)


@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_colours_change_no_word(name: str) -> None:
    text = report(case(name), colours=True)
    assert "\x1b" not in text
    told = painted(text)
    assert ESCAPES.sub("", told) == text
    assert told.count("\x1b[0m") == len(ESCAPES.findall(told)) / 2


def test_what_is_painted() -> None:
    told = painted(report(case("mudflat_blanket")))
    assert told.startswith("\x1b[1mMudflat blanket\x1b[0m\n")
    assert "yarn:    \x1b[31mfalls short: Peat by 133 g" in told
    assert "\x1b[33mwarning: Peat runs out before the end\x1b[0m" in told
    assert "\n\x1b[1mcarry or cut\x1b[0m\n" in told
    assert "\n\x1b[1mblanket\x1b[0m: 168 rows of" in told
    assert "yarn:    \x1b[32mlasts\x1b[0m; least" in painted(report(case("heron_top")))


def test_a_border_is_no_row_and_its_yarn_is_told_apart() -> None:
    """What a round takes is kept back or it is not in the figures: the report says which."""
    made = pattern("heron_top")
    line = next(line for line in report(plan_pattern(made)).splitlines() if "a border of one round" in line)
    grams = int(re.findall(r"about (\d+) g", line)[0])
    name = re.findall(r"g of (\w+)", line)[0]
    for keep, words in ((grams, f"out of the {grams} g kept"), (grams - 1, f"write keep = {grams} to include it")):
        yarns = tuple(replace(one, keep=Fraction(keep if one.name == name else 0)) for one in made.yarns)
        said = next(
            line
            for line in report(plan_pattern(replace(made, yarns=yarns))).splitlines()
            if "a border of one round" in line
        )
        assert words in said
