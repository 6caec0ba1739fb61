"""Scenes as JSON, for a page that draws them on a canvas.

In: a ``Scene``. Out: lists and dictionaries of plain values. A path is {"d", and "fill", "stroke", "width", "cap",
"dash", "opacity" where they are not the usual ones}, with "d" as SVG writes it; a text {"t", "x", "y", "size",
"colour", ...}; a use the list [name, x, y, ink]; a group {"name", "words", "items"}. Lengths are px. A colour that
comes from a yarn stands as "~" and its number among "tones": there with what it is made of.
"""

from __future__ import annotations

from typing import Any, TypeAlias

from turnchain.drawing.toned import Toned
from turnchain.numbers import decimal
from turnchain.scene import Group, Item, Path, Scene, Text, Use

Json: TypeAlias = Any


def scene_json(scene: Scene) -> dict[str, Json]:
    """All of a scene, its lengths in px; ``definitions`` are lists of items by name. The word "ink" for a colour in a
    definition stands for the ink of each use, as in ``scene``; ``tones`` are lists of a colour "#rrggbb" and how it was
    made, as ``drawing.toned`` has it. ValueError for a place that is no finite number."""
    tones = Tones()
    definitions = {name: [_item(item, tones) for item in items] for name, items in scene.definitions.items()}
    items = [_item(item, tones) for item in scene.items]
    return {
        "width": scene.width,
        "height": scene.height,
        "title": scene.title,
        "words": scene.words,
        "language": scene.language,
        "background": scene.background,
        "definitions": definitions,
        "items": items,
        "tones": tones.made,
    }


class Tones:
    """Gives each colour that comes from a yarn its number; ``made`` are those so far."""

    def __init__(self) -> None:
        self.made: list[list[str]] = []
        self._numbers: dict[tuple[str, ...], int] = {}

    def word(self, colour: str) -> str:
        """What stands for ``colour`` in JSON."""
        if not isinstance(colour, Toned):
            return colour
        key = (str(colour), *colour.how)
        if key not in self._numbers:
            self._numbers[key] = len(self.made)
            self.made.append(list(key))
        return f"~{self._numbers[key]}"


def _item(item: Item, tones: Tones) -> Json:
    match item:
        case Use():
            return [item.name, item.x, item.y, tones.word(item.ink)]
        case Path():
            return _path(item, tones)
        case Text():
            return _text(item, tones)
        case Group():
            return {"name": item.name, "words": item.words, "items": [_item(inner, tones) for inner in item.items]}


def _path(path: Path, tones: Tones) -> dict[str, Json]:
    steps = "".join(f"{step[0]}{' '.join(decimal(float(place)) for place in step[1:])}" for step in path.steps)
    made: dict[str, Json] = {"d": steps}
    if path.fill is not None:
        made["fill"] = tones.word(path.fill)
    if path.stroke is not None:
        made |= {"stroke": tones.word(path.stroke), "width": path.width}
        if path.cap != "round":
            made["cap"] = path.cap
        if path.dash:
            made["dash"] = list(path.dash)
    if path.opacity != 1.0:
        made["opacity"] = path.opacity
    return made


def _text(text: Text, tones: Tones) -> dict[str, Json]:
    colour = tones.word(text.colour)
    made: dict[str, Json] = {"t": text.words, "x": text.x, "y": text.y, "size": text.size, "colour": colour}
    if text.weight != "regular":
        made["weight"] = text.weight
    if text.anchor != "start":
        made["anchor"] = text.anchor
    if text.turn:
        made["turn"] = text.turn
    return made
