"""The contact sheet of stripe orders: every order with its cloth, its ends and what is left."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from coloraide import Color

from turnchain.drawing.contact import contact_sheet
from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.making.one import make_orders
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace
from turnchain.scene import Group, Text, Use
from turnchain.wording.tables import speech_of
from turnchain.yarns.colouring import choices, in_order
from turnchain.yarns.figure_words import caption

CASES = Path(__file__).parent / "cases"
HERON = plan_pattern(read_file(CASES / "heron_top.toml"))


def test_every_order_stands_there_with_its_figures() -> None:
    scene = contact_sheet(HERON, 900)
    cells = {item.words: item for item in scene.items if isinstance(item, Group) and item.name.startswith("order-")}
    speech = speech_of(HERON.pattern)
    named = [
        (speech.say(f"orders.{key}", yarn=stripes.between or "", n=stripes.seed), stripes)
        for key, stripes in choices(HERON)
    ]
    assert list(cells) == [title for title, _ in named]
    for title, stripes in named:
        words = " ".join(item.words for item in cells[title].items if isinstance(item, Text))
        for said in caption(in_order(HERON, stripes), speech):
            assert said in words, title


def test_every_use_has_its_definition_and_its_colour() -> None:
    scene = contact_sheet(HERON, 900)
    yarns = {yarn.colour for yarn in HERON.pattern.yarns}
    uses = [use for cell in scene.items if isinstance(cell, Group) for use in cell.items if isinstance(use, Use)]
    assert uses
    assert {use.name for use in uses} <= set(scene.definitions)
    inks = {use.ink for use in uses if re.search("row-(clusters|stitches)-body", use.name)}
    assert {min(yarns, key=lambda yarn: Color(yarn).delta_e(ink, method="2000")) for ink in inks} == yarns
    assert len(inks) == len(yarns)


def test_one_yarn_has_no_other_order(tmp_path: Path) -> None:
    text = (CASES / "kite_kerchief.toml").read_text()
    one = text.replace('order = ["Kelp", "Foam"]', 'order = ["Kelp"]')
    one = one[: one.index('[[yarn]]\nname = "Foam"')] + one[one.index("[stripes]") :]
    file = tmp_path / "one.toml"
    file.write_text(one)
    with pytest.raises(MakerError, match="two yarns or more"):
        make_orders(file, tmp_path / "x.png", None, Look())
    assert not (tmp_path / "x.png").exists()


def test_the_sheet_tells_itself_in_words() -> None:
    plain = replace(HERON, pattern=replace(HERON.pattern, stripes=None))
    assert "ends to weave in" in contact_sheet(plain, 900).words
