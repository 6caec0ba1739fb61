"""Every figure of everything that is printed of a small top is changed by one, one at a time, and the proof has to see
it: report, written pattern, schematic, charts and booklet, alt texts among them. What is free is listed with its
reason, and nothing else may be. Sources: none; what is right is what the worked rows come to.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache

import pytest

from turnchain.fabric.plan import Plan
from turnchain.planning.planner import plan_pattern
from turnchain.proof import figures, proving, worked_cloths
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.figures import PrintedFiles
from turnchain.proof.held import Held
from turnchain.proof.printed.picture import Arrow, ReadPicture, read_picture
from turnchain.reading.pattern_file import read_text
from turnchain.wording import words

TOP = """
title = "Teal Lane top"
by = "Saltmarsh Studio"
swatch = { clusters = 4, width = 10, rows = 8, height = 10, weight = 20, hook = 5 }
[[yarn]]
name = "Reed"
colour = "#33aa55"
stock = 300
ball = 50
metres_per_100g = 200
[[yarn]]
name = "Silt"
colour = "#aa3355"
[stripes]
order = ["Reed", "Silt"]
rows = 2
[wearer]
table = "woman"
size = "M"
[[piece]]
name = "front"
width = 42
length = 20
worked = "sideways"
neck = { shoulder = 12, depth = 5, shape = "slant" }
[[piece]]
name = "back"
faces = "front"
width = 42
length = 20
worked = "sideways"
neck = { shoulder = 12, depth = 2.5, shape = "slant" }
"""

#: Figures that nothing in the cloth could contradict, with the words beside them: what a rule, a law, a table or the
#: maker's own file says, and numbers of sentences that are the same for every pattern.
FREE = {
    "report": {
        r"at least «[\d.]+» cm": "the published rule for a neck",
        r"US «16»|CFR «1610»": "a law",
        r"^ *«\d+»  \w+: ": "the number of an offer",
        r"\(carry = «\d+»\)": "the maker's own",
        r"[+−]«[\d.]+» %": "a tenth either way: lengths beside it are rounded; held to two by test_figures",
        r"taken as «[\d.]+» times": "a rule; what it comes to is held",
        r"clusters, «3.75» cm|clusters, 3.75 cm to «3.75» cm": "along a row seams are held to a quarter of a cluster",
        r"left open «18» cm": "the size table",
        r"takes about «\d+» g|keep «0» g|write keep = «\d+»": "held to a twentieth, as the shares of a row are",
    },
    "pattern": {
        r"US «16»|CFR «1610»": "a law",
        r"«5» mm|US H-«8»": "the maker's own hook, and the table of sizes",
        r"☐ «\d+»|☐ \d*«\d+»": "boxes, held by their own test",
        r"work «1» sc in each sc, and 3|1 sc in each sc, and «3»": "how a further round is worked: always so",
        r"«2» to a stripe": "every stripe has two ends",
        r"tails of «\d+» cm": "common practice",
        r"a margin of «\d+» %": "the usual margin, or the maker's own",
        r"armhole.* in all, «\d+» cm long": "an armhole left open along a row: to half a cluster at either end",
        r"about «\d+» g of|about \d+ g of \w+, «\d+» m": "held to a twentieth, as the shares of a row are",
    },
    "schematic": {
        r"^«10» cm$": "the scale bar, held with the arrows by its own test",
        r"row «1» at its tail": "every arrow begins at row 1",
    },
    "chart": {
        r"^«\d+»$": "numbers of rows, held with the stitches when the chart is worked",
        r"Row «1» is at the bottom": "the same for every chart",
    },
    "translated": {},
    "booklet": {
        r"^«\d+»$": "numbers of rows and pages, and boxes: the first are held where the whole chart is worked",
        r"^«10» cm$": "the scale bar, held with the arrows by its own test",
        r"row «1» at its tail|Row «1» is at the bottom": "the same for every chart",
    },
}


@cache
def held() -> tuple[Plan, dict[str, WorkedCloth], PrintedFiles, tuple[bytes, ...]]:
    """The plan, its cloth and what is printed of it."""
    plan = plan_pattern(read_text(TOP, "top.toml"))
    found = proving.words_of(plan, "US", words.pattern_text(plan, "US"))
    assert not found.reasons
    charts = {piece.name: proving.svg_of(plan, piece.name) for piece in plan.pieces}
    said = figures.printed(plan, charts, with_booklet=True)
    return plan, worked_cloths.cloths(plan, found.cloth), said, said.booklet


def by_one(text: str) -> Iterator[tuple[str, str]]:
    """The text with each figure in turn other by one in its last place, or by three hundredths, since a difference is
    of two rounded figures; and the line with the figure marked."""
    for found in re.finditer(r"\d+(?:\.\d+)?", text):
        last, by = int(found[0][-1]), 3 if re.search(r"\.\d\d", found[0]) else 1
        other = found[0][:-1] + str(last + by if last + by < 10 else last - by)
        start, end = text.rfind("\n", 0, found.start()) + 1, (text + "\n").index("\n", found.end())
        marked = f"{text[start : found.start()]}«{found[0]}»{text[found.end() : end]}"
        yield text[: found.start()] + other + text[found.end() :], marked


@cache
def reported() -> Held:
    """What the report told already: seams, yarn."""
    plan, cloths, said, _ = held()
    one = Held(plan, cloths)
    one.report(said.report)
    one.schematic(said.schematic)
    for name, file in said.charts.items():
        one.chart(name, file)
    one.booklet(said.booklet, said.pattern, said.captions)
    assert one.reasons == []
    return one


def begun() -> Held:
    plan, cloths, _, _ = held()
    one, before = Held(plan, cloths), reported()
    for name in ("heavy", "border", "edged", "along", "tied", "sewn", "reported"):
        setattr(one, name, getattr(before, name))
    one.told.update(before.told)
    return one


Look = Callable[[Held], None]


def unseen(kind: str, tried: Iterator[tuple[str, Look]]) -> tuple[int, list[str]]:
    """How many figures were changed, and the marked lines of those that nobody saw and that are not free."""
    missed, looked = [], 0
    for marked, look in tried:
        looked += 1
        if any(re.search(free, marked) for free in FREE[kind]):
            continue
        one = begun()
        look(one)
        if not one.reasons:
            at = marked.index("«")
            missed.append(marked[max(0, at - 60) : at + 60])
    return looked, missed


def in_text(kind: str, text: str, look: Callable[[Held, str], None]) -> tuple[int, list[str]]:
    """The same of a text, which ``look`` puts before the proof."""
    return unseen(kind, ((marked, lambda one, other=other: look(one, other)) for other, marked in by_one(text)))


def drawn_otherwise(picture: ReadPicture) -> Iterator[tuple[str, ReadPicture]]:
    """A picture with one figure of its words, or of its alt text, other."""
    for nth, word in enumerate(picture.words):
        for other, marked in by_one(word):
            words = (*picture.words[:nth], other, *picture.words[nth + 1 :])
            yield marked, replace(picture, words=words, arrows=tuple(_labelled(picture.arrows, word, other)))
    for other, marked in by_one(picture.told):
        yield marked, replace(picture, told=other)


def _labelled(arrows: Sequence[Arrow], word: str, other: str) -> Iterator[Arrow]:
    """The arrows, with the label of the first that has the ``word`` changed."""
    done = False
    for arrow in arrows:
        if word in arrow.words and not done:
            done = True
            yield replace(arrow, words=tuple(other if one == word else one for one in arrow.words))
        else:
            yield arrow


def in_pictures(kind: str, files: Sequence[bytes], look: Callable[[Held], None], patch: pytest.MonkeyPatch) -> tuple[
    int, list[str]
]:
    """The same of pictures, which ``look`` has read one after another."""
    read = [read_picture(file) for file in files]
    reported()  # which reads pictures itself

    def tried() -> Iterator[tuple[str, Look]]:
        for nth, picture in enumerate(read):
            for marked, other in drawn_otherwise(picture):
                shown = iter((*read[:nth], other, *read[nth + 1 :]))
                patch.setattr(Held, "_read", lambda one, where, file, shown=shown: next(shown))
                yield marked, look

    return unseen(kind, tried())


@pytest.mark.quick(0)
def test_everything_printed_of_the_top_is_so() -> None:
    plan, _, _, _ = held()
    proof = proving.prove(plan, booklet=True, offers=True)
    assert proof.reasons == ()
    assert proof.figures > 2000


@pytest.mark.quick(0)
def test_every_figure_of_the_report_is_seen() -> None:
    _, _, said, _ = held()

    def look(one: Held, text: str) -> None:
        one.report(text)
        one.pattern(said.pattern)  # a border is told in both

    looked, missed = in_text("report", report_without_offers(), look)
    assert missed == []
    assert looked > 120


def report_without_offers() -> str:
    """The report without its offers, which are planned and worked one by one in ``test_figures``."""
    return re.sub(r"also possible\n(?:  .*\n)*", "", held()[2].report)


@pytest.mark.quick(0)
def test_every_figure_of_the_written_pattern_is_seen() -> None:
    _, _, said, _ = held()

    def look(one: Held, text: str) -> None:
        one.pattern(text)
        one.retold("pattern.md", text, said.words[""])

    looked, missed = in_text("pattern", said.pattern, look)
    assert missed == []
    assert looked > 400


@pytest.mark.parametrize("language", ["de", "fr"])
@pytest.mark.quick(0)
def test_every_figure_of_the_rows_in_other_languages_is_seen(language: str) -> None:
    """The rows; the measures of other languages are changed in ``test_figures``."""
    _, _, said, _ = held()
    rows = said.words[language]
    looked, missed = in_text("translated", rows, lambda one, text: one.retold(language, text, rows))
    assert missed == []
    assert looked > 250


def test_every_figure_of_the_schematic_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    _, _, said, _ = held()
    looked, missed = in_pictures("schematic", [said.schematic], lambda one: one.schematic(b""), monkeypatch)
    assert missed == []
    assert looked >= 30


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", ["front", "back"])
def test_every_figure_beside_a_chart_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    _, _, said, _ = held()
    looked, missed = in_pictures("chart", [said.charts[name]], lambda one: one.chart(name, b""), monkeypatch)
    assert missed == []
    assert looked > 60


@pytest.mark.quick(0)
def test_every_figure_of_the_booklet_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its pictures too: stripes, figure, schematic, short charts with their keys, close-ups, as sewn."""
    _, _, said, files = held()
    looked, missed = in_pictures(
        "booklet", files, lambda one: one.booklet(files, said.pattern, said.captions), monkeypatch
    )
    assert missed == []
    assert looked > 700
