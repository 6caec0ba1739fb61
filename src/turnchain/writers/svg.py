"""Scenes as SVG 1.1 files, valid by the W3C's DTD.

In: a scene. Out: bytes on a stream, the same for the same scene. Definitions become ``<g>`` in ``<defs>``
and are placed by ``<use>``; their ink is ``currentColor``, set by ``color`` at the use, which every renderer
follows.

Words that the shipped fonts cover are drawn as outlines, so that no renderer's fonts can move them. Each
character is stated once, in the font's own units, and placed by ``<use>`` wherever it stands; the words
themselves stand beside the outlines in ``<desc>``, since ``<title>`` would make browsers show a tooltip at
every row number. Other words are live ``<text>``, in whatever font the reader's machine has for them.
"""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable, Iterator
from typing import Any, BinaryIO

from turnchain import lettering
from turnchain.numbers import decimal
from turnchain.scene import INK, Group, Item, Path, Scene, Steps, Text, Use

WEIGHTS = {"regular": "normal", "semibold": "600"}


def write(scene: Scene, stream: BinaryIO) -> None:
    """Writes ``scene`` to ``stream`` as UTF-8. ValueError for a place that is no number."""
    from svgwrite import Drawing  # 67 ms, when an SVG is written

    size = (f"{scene.width}px", f"{scene.height}px")
    drawing = Drawing(size=size, viewBox=f"0 0 {scene.width} {scene.height}", debug=False)
    drawing.attribs |= {
        "xml:lang": lettering.printable(scene.language),
        "stroke-linejoin": "round",
    }
    drawing.set_desc(_lines(scene.title), _lines(scene.words))
    for name, path in _characters(scene).items():
        drawing.defs.add(drawing.path(path, id=name))
    for name, items in scene.definitions.items():
        drawing.defs.add(_group(drawing, items, name))
    if scene.background:
        drawing.add(drawing.rect((0, 0), ("100%", "100%"), fill=scene.background))
    _add(drawing, drawing, scene.items)
    root = drawing.get_xml()
    del root.attrib["xmlns:ev"]  # unused, and unknown to the DTD
    ElementTree.indent(root, "")  # a line to each element
    stream.write(b'<?xml version="1.0" encoding="UTF-8"?>\n')
    stream.write(ElementTree.tostring(root, "utf-8", xml_declaration=False).replace(b" />\n", b"/>\n") + b"\n")


def _characters(scene: Scene) -> dict[str, str]:
    """The outline of every character that is drawn as one, by its id, in the order of first need."""
    everything = (*(item for items in scene.definitions.values() for item in items), *scene.items)
    return {
        name: lettering.path_data(text.weight, character)
        for text in _texts(everything)
        for name, character, _ in _letters(text)
    }


def _texts(items: Iterable[Item]) -> Iterator[Text]:
    """The texts among ``items`` that are drawn as outlines."""
    for item in items:
        if isinstance(item, Group):
            yield from _texts(item.items)
        elif isinstance(item, Text) and lettering.covered(item.words):
            yield item


def _letters(text: Text) -> Iterator[tuple[str, str, float]]:
    """The id, the character and the x (font units from the anchor) of whatever leaves ink in ``text``.

    Ids like r.52 (regular, then the code point in hexadecimals) cannot meet those of definitions, which have
    no full stop."""
    for character, x in lettering.places(text):
        if lettering.path_data(text.weight, character):
            yield f"{text.weight[0]}.{ord(character):x}", character, x


# Elements of svgwrite have no types; ``Any`` stands for them, and ``make`` for the drawing that makes them.


def _add(make: Any, parent: Any, items: Iterable[Item]) -> None:
    for item in items:
        parent.add(_element(make, item))


def _element(make: Any, item: Item) -> Any:
    match item:
        case Path():
            return _path(make, item)
        case Text():
            return _outlined(make, item) if lettering.covered(item.words) else _live(make, item)
        case Use():
            ink = {} if item.ink == INK else {"color": item.ink}  # inherited if not set
            return make.use(f"#{_identity(item.name)}", **_place(item.x, item.y), **ink)
        case Group():
            return _group(make, item.items, item.name, item.words)


def _group(make: Any, items: Iterable[Item], name: str, words: str = "") -> Any:
    group = make.g(id=_identity(name)) if name else make.g()
    if words:
        group.set_desc(desc=_lines(words))
    _add(make, group, items)
    return group


def _path(make: Any, path: Path) -> Any:
    style: dict[str, str] = {"fill": _ink(path.fill)}
    if path.stroke:
        style |= {"stroke": _ink(path.stroke), "stroke_width": decimal(path.width)}
        if path.cap == "round":  # said by each path, since cairosvg cannot go back to butt
            style["stroke_linecap"] = "round"
        if path.dash:
            style["stroke_dasharray"] = ",".join(map(decimal, path.dash))
    made = make.path(_outline(path.steps), **style)
    if path.opacity == 1:
        return made
    # on a group, since some renderers let the fill shine through the stroke of a see-through path
    group = make.g(opacity=decimal(path.opacity))
    group.add(made)
    return group


def _outlined(make: Any, text: Text) -> Any:
    moves = [f"translate({decimal(text.x)} {decimal(text.y)})"]
    if text.turn:
        moves.append(f"rotate({decimal(text.turn)})")
    moves.append(f"scale({_factor(text.size / lettering.em(text.weight))})")
    group = make.g(fill=_ink(text.colour), transform=" ".join(moves))
    group.set_desc(desc=lettering.printable(text.words))
    for name, _, x in _letters(text):
        group.add(make.use(f"#{name}", **_place(x, 0)))
    return group


def _live(make: Any, text: Text) -> Any:
    x, y = decimal(text.x), decimal(text.y)
    style = {
        "fill": _ink(text.colour),
        "font_family": "sans-serif",
        "font_size": decimal(text.size),
        "font_weight": WEIGHTS[text.weight],
        "text_anchor": text.anchor,
    }
    if text.turn:
        style["transform"] = f"rotate({decimal(text.turn)} {x} {y})"
    return make.text(lettering.printable(text.words), (x, y), **style)


def _ink(colour: str | None) -> str:
    return "currentColor" if colour == INK else colour or "none"


def _place(x: float, y: float) -> dict[str, str]:
    """``x`` and ``y`` as attributes, without those that are 0 anyway."""
    places = {"x": decimal(x), "y": decimal(y)}
    return {name: number for name, number in places.items() if number != "0"}


def _factor(value: float) -> str:
    """``value`` to nine decimals: font units are so small that words could drift by a px with fewer."""
    if not math.isfinite(value):
        raise ValueError(f"{value} has no place in a picture")
    return f"{value:.9f}".rstrip("0").rstrip(".")


def _identity(name: str) -> str:
    """``name`` as an XML id: one that starts with a digit or hyphen gets a _, which no scene's name holds."""
    return name if name[0].isalpha() else f"_{name}"


def _lines(words: str) -> str:
    return "\n".join(map(lettering.printable, words.split("\n")))


def _outline(steps: Steps) -> str:
    return "".join(letter + " ".join(map(decimal, numbers)) for letter, *numbers in steps)
