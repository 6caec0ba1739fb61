"""Scenes: the picture without definitions is the same picture."""

from __future__ import annotations

from pathlib import Path

from pictures import check_alike, ours, svg_bytes
from turnchain.drawing.chart import chart
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.scene import INK, Group, Scene, Text, Use, flattened, rectangle
from turnchain.scene import Path as Stroke

CASES = Path(__file__).parent / "cases"


def test_a_flat_chart_is_the_same_picture_without_references() -> None:
    scene = chart(plan_pattern(read_file(CASES / "kite_kerchief.toml")), "tie", 700)
    flat = flattened(scene)
    assert flat.definitions == {}
    assert b"row-of-stitches-1" in svg_bytes(flat)
    check_alike(ours(scene), ours(flat), mean=0.1)


def test_inks_are_settled_and_places_moved() -> None:
    dot = Stroke(rectangle(0, 0, 2, 2), fill=INK)
    inner = {"dot": (dot,), "two": (Use("dot", 1, 0, INK), Text(3, 4, "x", 5, INK))}
    flat = flattened(Scene(10, 10, "t", "w", "en", inner, (Use("two", 2, 3, "#ff0000"),)))
    (group,) = flat.items
    assert isinstance(group, Group)
    first, words = group.items
    assert isinstance(first, Group)
    (path,) = first.items
    assert isinstance(path, Stroke)
    assert (path.fill, path.steps[0]) == ("#ff0000", ("M", 3.0, 3.0))
    assert isinstance(words, Text)
    assert (words.colour, words.x, words.y) == ("#ff0000", 5.0, 7.0)
