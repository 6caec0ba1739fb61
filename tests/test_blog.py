"""The Markdown file read back: pictures that exist with alt texts, measures and rows that are the plan's."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path
from urllib.parse import unquote

import pytest

from turnchain.drawing import worn
from turnchain.drawing.looks import Look
from turnchain.drawing.schematic import scenes as schematics
from turnchain.fabric.plan import Plan
from turnchain.making.everything import scenes
from turnchain.pages import blog
from turnchain.pattern import Pattern, Piece, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.units import tailored
from turnchain.wording import words
from turnchain.wording.tables import LANGUAGES, told_in

CASES = Path(__file__).parent / "cases"
NAMES = ["heron_top", "kite_kerchief", "mudflat_blanket"]


def case(name: str) -> Plan:
    return plan_pattern(read_file(CASES / f"{name}.toml"))


def pictures(text: str) -> dict[str, str]:
    """Alt text by file of every picture."""
    found = re.findall(r"^!\[((?:\\.|[^\]\\])+)\]\(([^)]+)\)$", text, re.MULTILINE)
    assert len(found) == text.count("![")
    return {unquote(file): alt for alt, file in found}


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", NAMES)
def test_every_picture_is_made_and_has_its_words(name: str) -> None:
    plan = case(name)
    made = {**dict(scenes(plan, None, Look())), **schematics(plan)}
    shown_there = pictures(blog.markdown(plan))
    for file, alt in shown_there.items():
        assert file.endswith(".png")
        assert re.sub(r"\\(.)", r"\1", alt) == made[file.removesuffix(".png")].words
    assert {f"{piece.name}.png" for piece in plan.pieces} | {"schematic.png", "stripes.png"} <= set(shown_there)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_garment_on_its_wearer_is_the_first_picture(language: str) -> None:
    """With its words in the language of the pattern, before the stripes."""
    plan = told_in(small_top(Wearer(table="child", size="2")), language)
    shown = pictures(blog.markdown(plan))
    assert [*shown][:2] == ["on-figure.png", "stripes.png"]
    assert re.sub(r"\\(.)", r"\1", shown["on-figure.png"]) == worn.worn(plan).words
    assert "on-figure.png" not in pictures(blog.markdown(told_in(small_top(None), language)))


def small_top(wearer: Wearer | None) -> Plan:
    swatch = Swatch(*map(Fraction, (11, 26, 18, 21)))
    pieces = tuple(Piece(name, width=Fraction(12), length=Fraction(10)) for name in ("front", "back"))
    return plan_pattern(Pattern("Top", (swatch,), pieces, wearer=wearer))


@pytest.mark.parametrize("name", NAMES)
def test_every_measure_is_the_plans(name: str) -> None:
    plan = case(name)
    unit = plan.pattern.units
    rows = re.findall(r"^\| (.+) \| (.+) \| ([0-9./ ]+) \|$", blog.markdown(plan), re.MULTILINE)
    assert f"| piece | measure | {unit} |" in blog.markdown(plan)
    assert rows == [
        (piece.name, fit.measure, tailored(fit.worked, unit).removesuffix(f" {unit}"))
        for piece in plan.pieces
        for fit in piece.fit
    ]


@pytest.mark.parametrize("name", NAMES)
def test_the_rows_are_all_there_in_their_words(name: str) -> None:
    plan = case(name)
    text = blog.markdown(plan)
    for paragraph in words.pattern_text(plan).rstrip("\n").split("\n\n"):
        assert f"\n\n{paragraph}\n\n" in f"\n\n{text}\n\n"


def test_chapters_in_their_order() -> None:
    headings = re.findall(r"^#+ .+$", blog.markdown(case("heron_top")), re.MULTILINE)
    assert headings == [
        "# Heron Creek top",
        "## Size",
        "## Materials",
        "## Gauge",
        "## Abbreviations",
        "## Special stitches",
        "## How to read the rows",
        "## front",
        "## back",
        "## sleeve",
        "## Finishing",
        "### Seams, in this order",
        "### Border",
        "### Ends",
        "### Blocking and care",
        "## Cautions",
        "## Row checklist",
        "### front",
        "### back",
        "### sleeve",
    ]


def own_words() -> Plan:
    """The kerchief with all that a maker can say, and photographs at every place."""
    text = (CASES / "kite_kerchief.toml").read_text("utf-8")
    top = (
        'introduction = """\nA kerchief for windy mornings.\n\nIt ties at the nape. """\ncontact = "ask@kite.example"\n'
        'licence = "CC BY-SA 4.0"\ncolour = "#7a3b2e"\n'
    )
    text = top + re.sub("^licence = .*\n", "", text, flags=re.MULTILINE).replace(
        'name = "kerchief"', 'name = "kerchief"\nbefore = "Begin at the point."\nafter = "Do not break the yarn."'
    )
    for nth, place in enumerate(("top", "kerchief", "joining"), 1):
        text += f'\n[[photo]]\nfile = "own/{nth}.png"\nalt = "photograph {nth}"\nplace = "{place}"\n'
    return plan_pattern(read_text(text, "kite.toml"))


def test_the_makers_own_words_and_photographs_stand_in_their_places() -> None:
    text = blog.markdown(own_words())
    order = [
        "# Kite kerchief", "![photograph 1](photo-1.jpg)", "A kerchief for windy mornings.", "It ties at the nape.",
        "## kerchief", "Begin at the point.", "![photograph 2](photo-2.jpg)", "(kerchief.png)",
        "Do not break the yarn.",
        "## tie", "## Finishing", "![photograph 3](photo-3.jpg)", "## Contact and license", "ask@kite.example",
        "License: CC BY-SA 4.0",
    ]  # fmt: skip
    places = [text.index(said) for said in order]
    assert places == sorted(places)


def test_every_row_has_its_box() -> None:
    plan = case("heron_top")
    _, _, checklist = blog.markdown(plan).partition("## Row checklist")
    for piece, part in zip(plan.pieces, re.split("^### .+$", checklist, flags=re.MULTILINE)[1:], strict=True):
        assert [int(number) for number in re.findall(r"☐ (\d+)", part)] == [row.number for row in piece.rows]


def test_a_chart_stands_under_its_piece() -> None:
    text = blog.markdown(case("kite_kerchief"))
    assert re.search(r"^## tie\n\n!\[.+\]\(tie\.png\)\n\n42 rows", text, re.MULTILINE)


def test_names_are_no_markup_and_files_are_quoted() -> None:
    source = (
        'title = "A *b* [c]"\nnote = "<b>_x_</b>"\n[swatch]\nclusters = 5\nwidth = 10\nrows = 10\nheight = 10\n'
        '[[piece]]\nname = "long_ front_"\nwidth = 10\nlength = 10\n'
    )
    text = blog.markdown(plan_pattern(read_text(source, "x")))
    assert "](long_%20front_.png)" in text
    assert "\\<b\\>\\_x\\_\\</b\\>" in text
    assert "| long\\_ front\\_ | width |" in text


def test_rows_in_another_language() -> None:
    text = blog.markdown(case("heron_top"), "de")
    assert all(part in text for part in words.pattern_text(case("heron_top"), "de").rstrip("\n").split("\n\n"))


def test_the_same_plan_is_the_same_text() -> None:
    assert blog.markdown(case("heron_top")) == blog.markdown(case("heron_top"))
