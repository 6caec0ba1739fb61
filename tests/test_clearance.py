"""Words of schematic, as-sewn, preview and orders sheet run into no others, into no dimension, and not off the page."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

import pytest

from test_text_boxes import MADE, panel
from turnchain.drawing import clearance, schematic
from turnchain.drawing.clearance import AIR, Taken
from turnchain.drawing.contact import contact_sheet
from turnchain.drawing.preview import preview
from turnchain.drawing.schematic import scenes
from turnchain.fabric.plan import Plan
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Group, Item, Path, Scene, Text, line

TURNS = (0.0, 30.0, 90.0)  # degrees
SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
SLENDER = {
    f"{wide} by {high} cm, {worked}": (wide, high, worked)
    for wide, high, worked in (
        (6, 200, "upwards"), (6, 200, "sideways"), (7, 6, "sideways"), (7, 20, "sideways"), (7, 60, "sideways"),
        (120, 6, "sideways"), (200, 6, "upwards"), (200, 200, "upwards"),
    )
}  # fmt: skip


def slender(wide: int, high: int, worked: str) -> Plan:
    name = "a piece with quite a long name"
    piece = Piece(name, worked, width=Fraction(wide), length=Fraction(high))  # type: ignore[arg-type]
    return plan_pattern(Pattern("Slender", (SWATCH,), (piece,), Fabric()))


def leaves(items: tuple[Item, ...], within: str = "") -> Iterator[tuple[str, Item]]:
    for item in items:
        if isinstance(item, Group):
            yield from leaves(item.items, item.name or within)
        else:
            yield within, item


def met(scene: Scene) -> list[str]:
    """Words that touch other words, and edge names that a dimension runs through."""
    texts = [(name, item) for name, item in leaves(scene.items) if isinstance(item, Text) and item.words.strip()]
    page = (0.0, 0.0, float(scene.width), float(scene.height))
    found = [f"{one.words!r} and {other.words!r}" for (_, one), (_, other) in combinations(texts, 2)
             if not Taken([grown(one)]).clear([grown(other)])]  # fmt: skip
    found += [f"{one.words!r} leaves the page" for _, one in texts if not Taken([], page).clear([one])]
    measures = [item for name, item in leaves(scene.items) if name.startswith("measure-") and isinstance(item, Path)
                and item.stroke and not item.fill]  # fmt: skip
    # A seam's letter stands on a disc, which hides what is below it.
    names = [item for name, item in texts if name.startswith("schematic-of-") and len(item.words) > 1]
    lines = Taken(measures)
    return found + [f"a dimension runs through {one.words!r}" for one in names if not lines.clear([grown(one)])]


def grown(text: Text) -> Text:
    """Smaller by the air that is kept between words: here they are only not to touch."""
    share = max(0.2, 1 - 2 * AIR / text.size)
    return Text(text.x, text.y - 0.26 * text.size * (1 - share), text.words, text.size * share, text.colour,
                text.weight, text.anchor, text.turn)  # fmt: skip


@pytest.mark.quick(5)
@pytest.mark.parametrize("name", SLENDER)
def test_slender_pieces_have_room_for_their_words(name: str) -> None:
    plan = slender(*SLENDER[name])
    assert {what: hits for what, scene in scenes(plan).items() if (hits := met(scene))} == {}
    assert met(preview(plan)) == []


@pytest.mark.quick(5)
@pytest.mark.parametrize("name", MADE)
def test_words_of_drawings_of_all_pieces_keep_clear(name: str) -> None:
    plan = MADE[name]()
    pictures = {**scenes(plan), "preview": preview(plan)}
    assert {what: hits for what, scene in pictures.items() if (hits := met(scene))} == {}


def test_the_orders_of_many_yarns_keep_clear() -> None:
    assert met(contact_sheet(panel("sampler", 20, 24, yarns=24))) == []


def test_every_edge_has_its_name_inside_or_beside_it() -> None:
    """On a piece 20 cm wide all four are told, whatever is drawn there."""
    plan = panel("swatch", 20, 20)
    words = [item.words for _, item in leaves(schematic.schematic(plan).items) if isinstance(item, Text)]
    for name in ("first row, foundation", "last row", "left edge", "right edge"):
        assert name in words


def test_what_meets_is_found() -> None:
    word = Text(100.0, 100.0, "shoulder", 20.0, "#000000")
    assert not Taken([word]).clear([Text(150.0, 105.0, "neck", 20.0, "#000000")])
    assert Taken([word]).clear([Text(150.0, 130.0, "neck", 20.0, "#000000")])
    assert not Taken([Path(line(90, 95, 300, 95), stroke="#000000")]).clear([word])
    assert Taken([Path(line(90, 110, 300, 110), stroke="#000000")]).clear([word])
    aslant = Text(100.0, 100.0, "neck", 20.0, "#000000", turn=45.0)
    assert not Taken([Path(line(120, 100, 120, 140), stroke="#000000")]).clear([aslant])
    assert not Taken([], (0.0, 0.0, 120.0, 200.0)).clear([word])


def test_what_lies_far_off_is_clear_by_its_box_as_by_all_sides() -> None:
    """Upright and turned words and lines, 0 to 9 px apart: the short way gives what the long way gives."""
    places = [(x * 7.3, y * 3.1, turn) for x in range(4) for y in range(4) for turn in TURNS]
    items: list[Item] = [Text(x, y, "row", 9, "#000000", turn=turn) for x, y, turn in places]
    items += [Path(line(x * 9, 4, x * 9 + 6, y), stroke="#000000") for x in range(4) for y in (4, 9, 20)]
    placed = list(clearance._all_placed(items))
    found = []
    for one, other in combinations(placed, 2):
        slow = clearance._meet(one._replace(upright=False), other._replace(upright=False))
        assert clearance._meet(one, other) == slow
        found.append(slow)
    assert 100 < sum(found) < len(found) - 100
