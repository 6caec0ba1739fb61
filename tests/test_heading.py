"""Headings of pictures: facts stay whole where a line breaks, by words measured in the font (worked by hand)."""

from __future__ import annotations

from pathlib import Path

import pytest

import turnchain
from turnchain.drawing.heading import DOT, fact_lines
from turnchain.lettering.measuring import measure
from turnchain.scene import Group, Text
from turnchain.wording.tables import told_in

KITE = Path(__file__).parent / "cases" / "kite_kerchief.toml"
FACTS = ("42 rows", "2 to 7 clusters", "worked upwards", "make 2", "for left-handed makers")


def test_facts_that_fit_stand_on_one_line() -> None:
    told = DOT.join(FACTS)
    assert fact_lines(told, measure(told, 20), 20) == [told]


@pytest.mark.parametrize("room", [180, 300, 430, 560])
def test_a_line_breaks_between_facts_alone(room: int) -> None:
    lines = fact_lines(DOT.join(FACTS), room, 20)
    assert [fact.strip() for line in lines for fact in line.split("·") if fact.strip()] == list(FACTS)
    assert all(measure(line, 20) <= room for line in lines if "·" in line)
    assert not any(line.strip() != line or line.endswith("·") for line in lines)


@pytest.mark.parametrize("language", ["US", "de", "fr"])
def test_no_word_stands_alone_below_a_left_handed_chart(language: str) -> None:
    plan = told_in(turnchain.plan(turnchain.load(KITE)), language)
    for piece in plan.pieces:
        scene = turnchain.chart(plan, piece.name, look=turnchain.look("left"))
        (header,) = (item for item in scene.items if isinstance(item, Group) and item.name == "header")
        last = [item.words for item in header.items if isinstance(item, Text)][-1]
        assert " " in last
