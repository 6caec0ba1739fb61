"""The booklet read back by another program, and the setting of pages."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path

import pypdf
import pytest

from turnchain.drawing import on_figure
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.pages import blog
from turnchain.paper import Page
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.printing.booklet import booklet
from turnchain.printing.sizes_booklet import booklet_of_sizes
from turnchain.printing.typesetting import Contents, FigureTable, Heading, Ledger, Picture, Typesetter, Words
from turnchain.raster.bounds import Extents, union
from turnchain.reading.pattern_file import read_file, read_sizes, read_text
from turnchain.scene import Item, Scene, Text
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import LANGUAGES, told_in
from turnchain.writers import pdf

CASES = Path(__file__).parent / "cases"


@cache
def plan(name: str) -> Plan:
    return plan_pattern(read_file(CASES / f"{name}.toml"))


@cache
def read_back(name: str) -> pypdf.PdfReader:
    stream = io.BytesIO()
    pdf.write(booklet(plan(name)), stream, title="booklet", language="en")
    return pypdf.PdfReader(stream)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_every_row_stands_in_the_ledger_with_its_count(name: str) -> None:
    words = " ".join(page.extract_text() for page in read_back(name).pages).replace("\n", " ")
    for piece in plan(name).pieces:
        for row in piece.rows:
            side = "RS" if row.number % 2 else "WS"
            entry = rf"{row.number}\s+{side}, {row.colour}, {row.clusters} cl"
            assert re.search(entry, words), (piece.name, row.number)
        assert f"ch {piece.foundation_chain} " in words


@pytest.mark.slow
def test_the_contents_lead_to_their_pages() -> None:
    reader = read_back("heron_top")
    links = [
        (page.extract_text(), reader.get_destination_page_number(_destination(reader, link)))
        for page in reader.pages
        for link in page.get("/Annots", [])
    ]
    assert len(links) >= 7
    for (_, target), heading in zip(links, ("Size", "Materials", "How the rows are written"), strict=False):
        assert heading in reader.pages[target].extract_text()


def _destination(reader: pypdf.PdfReader, link: object) -> pypdf.generic.Destination:
    dest = link.get_object()["/Dest"]  # type: ignore[attr-defined]
    return pypdf.generic.Destination("to", dest[0], pypdf.generic.Fit.fit())


@pytest.mark.quick(0)
def test_pages_are_numbered() -> None:
    for number, page in enumerate(read_back("heron_top").pages, start=1):
        if number > 1:
            assert page.extract_text().rstrip().endswith(str(number))


@pytest.mark.quick(0)
def test_only_a4_and_letter() -> None:
    with pytest.raises(MakerError, match="A4 or Letter"):
        booklet(plan("kite_kerchief"), "A5")
    assert booklet(plan("kite_kerchief"), "Letter")[0].width == pytest.approx(215.9)


def lines_of(setter: Typesetter, index: int) -> list[Text]:
    return [item for item in setter.sheets[index].items if isinstance(item, Text)]


def test_no_heading_stands_alone_at_a_foot() -> None:
    for filling in range(30, 60):
        setter = Typesetter(100, 200, 10, "foot")
        setter.set([*(Words("a line of words") for _ in range(filling)), Heading("Alone?", 2), Words("word " * 60)])
        for index, sheet in enumerate(setter.sheets):
            texts = lines_of(setter, index)
            assert texts[-1].words != "Alone?", (filling, len(sheet.items))


def test_no_paragraph_leaves_or_brings_a_single_line() -> None:
    for filling in range(20, 40):
        setter = Typesetter(100, 200, 10, "foot")
        setter.set([*(Words("filling") for _ in range(filling)), Words("word " * 80)])
        sheets = [lines_of(setter, index) for index in range(len(setter.sheets))]
        split = [[text for text in lines if "word" in text.words] for lines in sheets]
        counts = [len(lines) for lines in split if lines]
        assert min(counts) >= 2, (filling, counts)


def test_headings_in_a_row_go_with_what_follows_them() -> None:
    for before in range(30, 60):
        setter = Typesetter(100, 200, 10, "foot")
        blocks = [Words(f"line {nth}") for nth in range(before)]
        made = setter.set([*blocks, Heading("Over", 1), Heading("Under", 2), Words("an entry", mark="–")])
        pages = [[one.words for one in page.views[-1].scene.items if isinstance(one, Text)] for page in made]
        assert any({"Over", "Under", "an entry"} <= set(words) for words in pages), before


def test_the_last_entry_of_a_list_is_not_alone_on_a_page() -> None:
    for before in range(30, 60):
        setter = Typesetter(100, 200, 10, "foot")
        blocks = [Words(f"line {nth}") for nth in range(before)]
        made = setter.set([*blocks, *(Words(f"entry {nth}", mark="–") for nth in range(4)), Words("after")])
        pages = [[one.words for one in page.views[-1].scene.items if isinstance(one, Text)] for page in made]
        last = next(words for words in pages if "entry 3" in words)
        assert "entry 2" in last, before


def test_a_picture_is_never_cut() -> None:
    scene = Scene(100, 150, "t", "w", "en", {}, ())
    setter = Typesetter(100, 200, 10, "foot")
    setter.set([*(Words("filling") for _ in range(20)), Picture(scene, 0.6), Picture(scene, 0.6)])
    for sheet in setter.sheets:
        for view in sheet.views:
            assert view.top + scene.height * view.mm_per_px <= setter.bottom + 1e-6


@pytest.mark.parametrize("columns", [2, 3])
def test_words_beside_a_box_stand_whole(columns: int) -> None:
    """Fewer columns where they would be cut short: a count must not be missing."""
    words = "second shoulder, RS, Yarn whose name is a good deal longer than most are, 2 cl"
    setter = Typesetter(150, 200, 10, "foot")
    setter.set([Ledger((("42", "RS, Reed, 2 cl"), ("43", words)), columns)])
    assert words in {text.words for text in lines_of(setter, 0)}


def test_a_long_ledger_goes_on_over_pages_with_every_box() -> None:
    setter = Typesetter(100, 200, 10, "foot")
    setter.set([Heading("Ledger", 1, "ledger"), Contents(), Ledger(tuple((str(n), "RS") for n in range(1, 301)))])
    numbers = {text.words for index in range(len(setter.sheets)) for text in lines_of(setter, index)}
    assert {str(n) for n in range(1, 301)} <= numbers


@pytest.mark.quick(0)
def test_the_parts_come_in_the_order_of_the_markdown() -> None:
    """Both have what a published pattern has, in one order (common practice, no source)."""
    for language in (None, "de", "fr"):
        one = told_in(plan("heron_top"), language)
        there = [line.lstrip("# ") for line in blog.markdown(one).splitlines() if line.startswith("#")]
        said = [text for sheet in booklet(one) for view in sheet.views[-1:] for text in words_of(view.scene.items)]
        last = -1
        for heading in there:
            last = said.index(heading, last + 1)


def words_of(items: tuple[Item, ...]) -> list[str]:
    return [item.words for item in items if isinstance(item, Text) and item.weight == "semibold"]


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_a_chart_uses_the_page(name: str) -> None:
    """The chart with its brackets is at least 60 % as wide as the page, or as high."""
    made = booklet(plan(name))
    charts = [(page, view) for page in made for view in page.views if has(view.scene, "stitches")]
    assert len(charts) == len(plan(name).pieces)
    for page, view in charts:
        box = view.seen()
        bounds = union(map(Extents(view.scene.definitions).of, view.scene.items))
        wide = (min(bounds.right, view.scene.width) - max(bounds.left, 0)) * view.mm_per_px
        tall = (box.bottom - box.top) * view.mm_per_px
        assert wide >= 0.6 * page.width or tall >= 0.6 * page.height, (name, wide, tall)


def has(scene: Scene, name: str) -> bool:
    return any(getattr(item, "name", "") == name for item in scene.items)


@pytest.mark.quick(0)
def test_no_picture_repeats_the_title_of_the_pattern() -> None:
    """As a heading: the credit below a picture may name it."""
    title = plan("heron_top").pattern.title
    for number, page in enumerate(booklet(plan("heron_top")), 1):
        stream = io.BytesIO()
        pdf.write([Page(page.width, page.height, page.views[:-1])] if len(page.views) > 1 else [page], stream,
                  title="pictures", language="en")  # fmt: skip
        if len(page.views) > 1:
            said = pypdf.PdfReader(stream).pages[0].extract_text()
            assert title not in [line.strip() for line in said.splitlines()], number


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_no_page_has_a_few_lines_alone(name: str) -> None:
    for number, page in enumerate(read_back(name).pages, 1):
        lines = [line for line in page.extract_text().splitlines() if line.strip()]
        assert len(lines) > 5, (number, lines)


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief"])
def test_a_chart_faces_its_rows(name: str) -> None:
    """Rows begin on the chart's page or on the one beside it, which is no page overleaf."""
    made = booklet(plan(name))
    charts = [number for number, page in enumerate(made, 1) for view in page.views if has(view.scene, "stitches")]
    for piece, chart in zip(plan(name).pieces, charts, strict=True):
        rows = next(
            number
            for number, page in enumerate(made, 1)
            if f"{piece.name}: the rows" in words_of(page.views[-1].scene.items)
        )
        assert rows == chart or (rows == chart + 1 and chart % 2 == 0), (piece.name, chart, rows)


WORN = """
title = "Bog myrtle top"
language = "{language}"
swatch = {{ clusters = 11, width = 26, rows = 18, height = 21 }}
[wearer]
table = "child"
size = "2"
[[piece]]
name = "front"
width = 30
length = 30
[[piece]]
name = "back"
width = 30
length = 30
"""


def shows_figure(page: Page) -> bool:
    return any(has(view.scene, "worn-front") for view in page.views)


@pytest.mark.quick(1)
@pytest.mark.parametrize(("paper", "page"), [("A4", 1), ("Letter", 2)])
@pytest.mark.parametrize("language", ["de", "US", "UK", "fr"])
def test_the_garment_on_its_wearer_stands_where_there_is_room(language: str, paper: str, page: int) -> None:
    """Before the pieces: below the contents where that takes no page more than the same top of nobody, else before the
    schematic, with what falls where in words."""
    text = WORN.format(language=language)
    worn = plan_pattern(read_text(text, "x"))
    nobody = plan_pattern(read_text(text.replace('table = "child"\nsize = "2"', 'who = "child"'), "x"))
    made, without = booklet(worn, paper), booklet(nobody, paper)
    assert [number for number, one in enumerate(made, 1) if shows_figure(one)] == [page]
    assert not any(map(shows_figure, without))
    assert len(made) == len(without) or page == 2
    said = " ".join(item.words for item in made[1].views[-1].scene.items if isinstance(item, Text))
    assert all(words in said for one in on_figure.sentences(worn) for words in one.split()) or page == 1


def test_a_picture_is_drawn_smaller_where_it_then_stands_on_the_page_begun() -> None:
    """And where a picture after it then stands there too; not below the least share of its size."""
    tall = Scene(1000, 1500, "", "", "en", {}, ())
    for lines, least, pages in ((6, 0.5, [0]), (6, 1.0, [1]), (30, 0.5, [1])):
        setter = Typesetter(210, 297, 17, "")
        setter.set([*(Words("a line") for _ in range(lines)), Picture(tall, tallest=0.95, least=least)])
        assert [nth for nth, sheet in enumerate(setter.sheets) if sheet.views] == pages
        (view,) = setter.sheets[-1].views
        assert view.top + tall.height * view.mm_per_px <= setter.bottom
    setter = Typesetter(210, 297, 17, "")
    setter.set([Picture(tall, least=0.5), Picture(tall, tallest=0.5)])
    assert [len(sheet.views) for sheet in setter.sheets] == [2]


SPEECH = Speech(LANGUAGES["US"])
SIZED = """
title = "Bog myrtle band"
sizes = ["S", "M", "L"]
[swatch]
clusters = 18
width = 45
rows = 26
height = 32.5
[[yarn]]
name = "Reed_1"
colour = "#b9b36a"
[[piece]]
name = "band"
width = "40 (45, 50)"
length = "10 (10, 12)"
"""


@pytest.mark.quick(0)
def test_a_booklet_of_all_sizes() -> None:
    """A column of measures for each size, one set of words, a chart of each size, and one key."""
    plans = plan_sizes(read_sizes(SIZED, "x"))
    stream = io.BytesIO()
    pdf.write(booklet_of_sizes(plans), stream, title="booklet", language="en")
    words = [page.extract_text() for page in pypdf.PdfReader(stream).pages]
    told = " ".join(" ".join(words).split())
    figures = [next(fit.worked for fit in one.piece("band").fit if fit.measure == "width") for one in plans]
    column = " ".join(SPEECH.taped(cm, "cm").removesuffix(" cm") for cm in figures)
    assert f"band, cm S M L width {column}" in told
    chains = [one.piece("band").foundation_chain for one in plans]
    assert f"Reed_1, ch {chains[0]} ({chains[1]}, {chains[2]})" in told
    assert all(f"band, {size}" in told for size in "SML")
    assert told.count("Symbols") == 1
    assert "\\" not in told
    assert "**" not in told


def test_a_table_has_its_head_on_every_page() -> None:
    setter = Typesetter(100, 60, 10, "foot")
    rows = tuple((f"measure {nth}", f"{nth}.5", "7") for nth in range(30))
    setter.set([FigureTable(("front, cm", "S", "M"), rows)])
    said = [[item.words for item in sheet.items if isinstance(item, Text)] for sheet in setter.sheets]
    assert len(said) > 1
    assert all("front, cm" in words for words in said)
    assert [word for words in said for word in words if word.startswith("measure ")] == [row[0] for row in rows]


NAMED = """
title = "Named"
swatch = { clusters = 4, width = 10, rows = 8, height = 10 }
[[yarn]]
name = "teal: dark*"
colour = "#33aa55"
[[yarn]]
name = "<silt>"
colour = "#aa3355"
[stripes]
order = ["teal: dark*", "<silt>"]
[[piece]]
name = "a_b"
width = 20
length = 10
"""


def test_names_stand_on_the_pages_as_they_were_written() -> None:
    """Rows in words were set with the backslashes of Markdown; and a colon in the name of a yarn ended what is bold."""
    plan = plan_pattern(read_text(NAMED, "named.toml"))
    views = [view for page in booklet(plan) for view in page.views]
    said = [item for view in views for item in view.scene.items if isinstance(item, Text)]
    assert not [one.words for one in said if "\\" in one.words]
    bold = {one.words for one in said if one.weight == "semibold"}
    assert {"Row 1 (RS, teal: dark*):", "Foundation:"} <= bold
    assert "a_b: the rows" in bold
