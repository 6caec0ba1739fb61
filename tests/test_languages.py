"""Every language has every phrase, and what is printed in one has no word of another.

The words of a finished chart, schematic, pattern.md or booklet are taken apart; each must stand in the tables of its
language, or be a name that the pattern gives. So an English sentence that is written anywhere else is found.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import html5lib
import pytest

from turnchain.drawing import schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.contact import contact_sheet
from turnchain.drawing.detail import detail, series
from turnchain.drawing.preview import preview
from turnchain.fabric.plan import Plan
from turnchain.garment import caution_words, cautions
from turnchain.making import DETAIL_SIZE, planned
from turnchain.pages import blog, overview
from turnchain.pages.beside import page as beside
from turnchain.pages.report import report
from turnchain.planning.planner import plan_pattern
from turnchain.printing.booklet import booklet
from turnchain.printing.sheets import Printed, pages
from turnchain.proof import proving
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.scene import Group, Item, Scene, Text
from turnchain.wording import words
from turnchain.wording.languages.language import Language
from turnchain.wording.tables import LANGUAGES, told_in

CASES = Path(__file__).parent / "cases"
FILES = ("heron_top", "kite_kerchief", "mudflat_blanket")
OTHERS = tuple(code for code in LANGUAGES if code not in ("US", "UK"))
SCRIPTED = {
    f"data-{name}" for name in (
        "come-gone", "come", "of-another", "other-tab", "go", "last-row", "rows-left", "row",
    )
}  # fmt: skip
#: Signs of units and rules, letters of yarns and seams: in no language's table.
SIGNS = {"cm", "in", "mm", "g", "m", "yd", "US", "UK", "x"}


def words_in(text: str) -> set[str]:
    """The words of a text, numbers left out, in small letters."""
    return {word.casefold() for word in re.findall(r"[^\W\d_]+", text)}


def known(language: Language) -> set[str]:
    """Every word of a language's tables."""
    phrases = " ".join(re.sub(r"\{\w+\}", " ", phrase) for phrase in language.phrases.values())
    tokens = " ".join(f"{token.short} {token.full}" for token in language.tokens.values())
    return words_in(f"{phrases} {tokens}")


def names(plan: Plan) -> set[str]:
    """The words that are the pattern's own."""
    pattern = plan.pattern
    yarns = " ".join(f"{yarn.name} {yarn.colour}" for yarn in pattern.yarns)
    pieces = " ".join(piece.name for piece in plan.pieces)
    said = (pattern.title, pattern.note, pattern.by, pattern.link, pattern.licence, pattern.date, yarns, pieces)
    return words_in(" ".join(said))


def lettered(items: tuple[Item, ...]) -> Iterator[str]:
    """Every text and every description of a picture."""
    for item in items:
        if isinstance(item, Group):
            yield item.words
            yield from lettered(item.items)
        elif isinstance(item, Text):
            yield item.words


def told(scene: Scene) -> str:
    return " ".join([scene.title, scene.words, *lettered(scene.items)])


def printed(plan: Plan) -> dict[str, str]:
    """Everything that a customer reads, by what it is."""
    found = {"pattern.md": re.sub(r"\]\([^)]*\)", "]", blog.markdown(plan)), "stripes": told(preview(plan))}
    found |= {name: told(scene) for name, scene in schematic.scenes(plan).items()}
    for piece in plan.pieces:
        found[f"chart of {piece.name}"] = told(chart(plan, piece.name))
        found[f"short chart of {piece.name}"] = told(chart(plan, piece.name, short=True))
        for nth, asked in enumerate(series(piece)):
            found[f"close-up {nth} of {piece.name}"] = told(detail(plan, piece.name, asked, DETAIL_SIZE))
    found["page beside the work"] = read(beside.page(plan))
    shown = [("stripes", ""), *((f"{piece.name}-row-1-left", "") for piece in plan.pieces)]
    found["index.html"] = re.sub(r"\S+\.(md|json|svg|png|txt)", "", read(overview.overview(plan, shown)))
    return found


def read(page: str) -> str:
    """What an HTML page says: its texts, and the attributes that are read out or that its script says."""
    tree = html5lib.parse(page, namespaceHTMLElements=False)
    said: list[str] = []
    for element in tree.iter():
        if element.tag in ("script", "style", "textarea", "desc"):
            continue
        said += [element.text or ""]
        said += [value for name, value in element.attrib.items() if name == "aria-label" or name in SCRIPTED]
    said += [element.tail or "" for element in tree.iter() if isinstance(element.tag, str)]
    return re.sub(r"\{\w+\}", "", " ".join(said))


@cache
def case(name: str) -> Plan:
    return planned(CASES / f"{name}.toml", others=True)


def strangers(plan: Plan, text: str) -> set[str]:
    """The words of a text that stand neither in the tables of its language nor in the pattern."""
    language = LANGUAGES[plan.pattern.language or plan.pattern.terms]
    left = words_in(text) - known(language) - names(plan) - {sign.casefold() for sign in SIGNS}
    return {word for word in left if len(word) > 1}


@pytest.mark.quick(0)
@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("name", FILES)
def test_what_a_customer_reads_has_no_word_of_another_language(language: str, name: str) -> None:
    plan = told_in(case(name), language)
    found = {what: strangers(plan, text) for what, text in printed(plan).items()}
    assert {what: left for what, left in found.items() if left} == {}


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("name", ["heron_top", "mudflat_blanket"])
def test_a_sheet_of_orders_has_no_word_of_another_language(language: str, name: str) -> None:
    sheet = contact_sheet(told_in(case(name), language))
    assert sheet.language == LANGUAGES[language].tag
    assert strangers(told_in(case(name), language), told(sheet)) == set()


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", OTHERS)
def test_a_booklet_has_no_word_of_another_language(language: str) -> None:
    plan = told_in(case("kite_kerchief"), language)
    text = " ".join(said for page in booklet(plan) for view in page.views for said in lettered(view.scene.items))
    hyphened = text.replace("- ", "")
    assert min(strangers(plan, text), strangers(plan, hyphened), key=len) == set()


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", OTHERS)
def test_a_poster_has_no_word_of_another_language(language: str) -> None:
    plan = told_in(case("kite_kerchief"), language)
    made = pages(plan, Printed(("kerchief",), "A4", poster=True))
    assert len(made) > 2
    text = " ".join(said for page in made for view in page.views for said in lettered(view.scene.items))
    assert strangers(plan, text) == set()


@pytest.mark.parametrize("language", OTHERS)
def test_every_caution_has_no_word_of_another_language(language: str) -> None:
    """Of a blanket for a baby, a coat for a pet and every fibre."""
    plan = told_in(case("mudflat_blanket"), language)
    for title in ("Baby blanket with ribbons, for sleep", "Dog coat"):
        for pet in (None, "pet"):
            pattern = replace(plan.pattern, title=title, note="")
            worn = replace(plan, pattern=pattern)
            assert pet is None or cautions.cautions(worn)
            assert strangers(worn, " ".join(caution_words.for_customer(worn))) == set()


GERMAN_KITE = (CASES / "kite_kerchief.toml").read_text("utf-8").replace("title =", 'language = "de"\ntitle =', 1)


@pytest.mark.quick(0)
def test_the_pattern_file_names_the_language_of_what_is_made() -> None:
    """The report stays in English, since it is the designer's; the proof reads all languages."""
    plan = plan_pattern(read_text(GERMAN_KITE, "kite.toml"))
    found = {what: strangers(plan, text) for what, text in printed(plan).items()}
    assert {what: left for what, left in found.items() if left} == {}
    assert report(plan) == report(case("kite_kerchief"))
    assert proving.prove(plan).holds


def test_the_command_line_goes_before_the_language_of_the_file(tmp_path: Path) -> None:
    (tmp_path / "kite.toml").write_text(GERMAN_KITE, "utf-8")
    assert [planned(tmp_path / "kite.toml", asked).pattern.language for asked in (None, "fr")] == ["de", "fr"]
    assert words.pattern_text(planned(tmp_path / "kite.toml"), "UK") == words.pattern_text(case("kite_kerchief"), "UK")


def test_an_english_word_would_be_found() -> None:
    plan = told_in(case("heron_top"), "de")
    assert strangers(plan, "Reihe 1: work in rows") == {"work", "rows"}


def test_the_decimal_sign_is_the_languages() -> None:
    said = told(chart(told_in(case("heron_top"), "de"), "front"))
    assert "8,5 cm" in said
    assert "8.5" not in said
    assert "8.5 cm" in told(chart(case("heron_top"), "front"))


@pytest.mark.parametrize(("key", "de", "fr"), [
    ("measure.width", "Breite", "largeur"), ("measure.length", "Länge", "longueur"), ("at.left", "links", "gauche"),
    ("at.right", "rechts", "droite"), ("worked.sideways", "quer", "travers"),
])  # fmt: skip
def test_words_for_sides_and_measures_are_those_of_any_dictionary(key: str, de: str, fr: str) -> None:
    assert LANGUAGES["US"].phrases[key] == key.rpartition(".")[2]
    for language, word in (("de", de), ("fr", fr)):
        assert word in LANGUAGES[language].phrases[key].casefold() or word in LANGUAGES[language].phrases[key]  # type: ignore[index]
