"""Scenes as JSON, for a page that draws them on a canvas.

In: a ``Scene``. Out: lists and dictionaries of plain values. A path is {"d", and "fill", "stroke", "width", "cap",
"dash", "opacity" where they are not the usual ones}, with "d" as SVG writes it; a text {"t", "x", "y", "size",
"colour", ...}; a use the list [name, x, y, ink]; a group {"name", "words", "items"}. Lengths are px.
"""

from __future__ import annotations

from typing import Any, TypeAlias

from turnchain.numbers import decimal
from turnchain.scene import Group, Item, Path, Scene, Text, Use

Json: TypeAlias = Any


def scene_json(scene: Scene) -> dict[str, Json]:
    """All of a scene, its lengths in px; ``definitions`` are lists of items by name. The word "ink" for a colour in a
    definition stands for the ink of each use, as in ``scene``. ValueError for a place that is no finite number."""
    return {
        "width": scene.width,
        "height": scene.height,
        "title": scene.title,
        "words": scene.words,
        "language": scene.language,
        "background": scene.background,
        "definitions": {name: [_item(item) for item in items] for name, items in scene.definitions.items()},
        "items": [_item(item) for item in scene.items],
    }


def _item(item: Item) -> Json:
    match item:
        case Use():
            return [item.name, item.x, item.y, item.ink]
        case Path():
            return _path(item)
        case Text():
            return _text(item)
        case Group():
            return {"name": item.name, "words": item.words, "items": [_item(inner) for inner in item.items]}


def _path(path: Path) -> dict[str, Json]:
    steps = "".join(f"{step[0]}{' '.join(decimal(float(place)) for place in step[1:])}" for step in path.steps)
    made: dict[str, Json] = {"d": steps}
    if path.fill is not None:
        made["fill"] = path.fill
    if path.stroke is not None:
        made |= {"stroke": path.stroke, "width": path.width}
        if path.cap != "round":
            made["cap"] = path.cap
        if path.dash:
            made["dash"] = list(path.dash)
    if path.opacity != 1.0:
        made["opacity"] = path.opacity
    return made


def _text(text: Text) -> dict[str, Json]:
    made: dict[str, Json] = {"t": text.words, "x": text.x, "y": text.y, "size": text.size, "colour": text.colour}
    if text.weight != "regular":
        made["weight"] = text.weight
    if text.anchor != "start":
        made["anchor"] = text.anchor
    if text.turn:
        made["turn"] = text.turn
    return made
