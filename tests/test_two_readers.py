"""Two readers told apart: what is meant for the designer stands in the report, and nowhere in what a customer reads."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from turnchain.drawing import schematic
from turnchain.drawing.chart import chart
from turnchain.fabric.plan import Plan
from turnchain.pages import blog, report
from turnchain.pages.beside import page
from turnchain.pattern import Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.printing.booklet import booklet
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace
from turnchain.scene import Group, Item, Text

HERE = Path(__file__).parent
CASES = {path.stem: path for path in (*(HERE / "cases").glob("*.toml"), *(HERE.parent / "gallery/patterns").glob("*"))}

#: What only the designer is told.
MEANT_FOR_THE_DESIGNER = (
    "[wearer]", "pattern file", "assumed", "look again:", "make the two agree", "from memory", "also possible",
    "warning:", "whom is it for", "measure the head", "size table", "row_plan", "wanted",
)  # fmt: skip


def words_of(items: tuple[Item, ...]) -> list[str]:
    found: list[str] = []
    for item in items:
        if isinstance(item, Group):
            found += [item.words, *words_of(item.items)]
        elif isinstance(item, Text):
            found.append(item.words)
    return found


@cache
def case(name: str) -> Plan:
    plan = plan_pattern(read_file(CASES[name]))
    if plan.pattern.wearer is not None:
        return plan
    # A wearer that nothing fits, so that every check has something to say.
    wearer = Wearer("woman", "3X", head=Fraction(70), waist_length=Fraction(20), knee_length=Fraction(30))
    return replace(plan, pattern=replace(plan.pattern, wearer=wearer))


#: Beside the words of the page: its style and script.
_SET_APART = re.compile(r"<(style|script)>.*?</\1>", re.DOTALL)


def printed(plan: Plan) -> dict[str, str]:
    """Everything that a customer reads, by where it stands."""
    pictures = {**schematic.scenes(plan), **{piece.name: chart(plan, piece.name) for piece in plan.pieces}}
    told = {f"the picture {name}": [scene.words, *words_of(scene.items)] for name, scene in pictures.items()}
    pages = [text for sheet in booklet(plan) for view in sheet.views for text in words_of(view.scene.items)]
    return {
        "pattern.md": blog.markdown(plan),
        "the page beside the work": _SET_APART.sub("", page.page(plan)),
        "the booklet": " ".join(pages),
        **{where: "\n".join(said) for where, said in told.items()},
    }


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", sorted(CASES))
def test_nothing_meant_for_the_designer_reaches_a_customer(name: str) -> None:
    plan = case(name)
    edges = {f"{piece.name}.{edge}" for piece in plan.pieces for edge in ("first", "last", "lower", "upper", "left",
             "right", "shoulder", "neck")}  # fmt: skip
    for where, text in printed(plan).items():
        for words in (*MEANT_FOR_THE_DESIGNER, *edges):
            assert words not in text, (where, words)


def test_the_designer_is_told() -> None:
    """The words that are looked for are those of the report."""
    told = report.report(case("heron_top"))
    for words in ("assumed", "look again:", "from memory", "size table", "front.shoulder", "wanted", "also possible"):
        assert words in told, words
