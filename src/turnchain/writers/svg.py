"""Scenes as SVG 1.1 files, valid by the W3C's DTD.

In: a scene. Out: bytes on a stream, the same for the same scene. Definitions become ``<g>`` in ``<defs>``
and are placed by ``<use>``; their ink is ``currentColor``, set by ``color`` at the use, which every renderer
follows.

Words that the shipped fonts cover are drawn as outlines, so that no renderer's fonts can move them; the words
themselves stand beside the outline in ``<desc>``, since ``<title>`` would make browsers show a tooltip at
every row number. Other words are live ``<text>``, in whatever font the reader's machine has for them.
"""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable
from typing import Any, BinaryIO

from turnchain import lettering
from turnchain.numbers import decimal
from turnchain.scene import INK, Group, Item, Path, Scene, Steps, Text, Use

WEIGHTS = {"regular": "normal", "semibold": "600"}


def write(scene: Scene, stream: BinaryIO) -> None:
    """Writes ``scene`` to ``stream`` as UTF-8."""
    from svgwrite import Drawing

    size = (f"{scene.width}px", f"{scene.height}px")
    drawing = Drawing(size=size, viewBox=f"0 0 {scene.width} {scene.height}", debug=False)
    drawing.attribs |= {
        "xml:lang": lettering.printable(scene.language),
        "stroke-linejoin": "round",
    }
    drawing.set_desc(_lines(scene.title), _lines(scene.words))
    for name, items in scene.definitions.items():
        drawing.defs.add(_group(drawing, items, name))
    if scene.background:
        drawing.add(drawing.rect((0, 0), ("100%", "100%"), fill=scene.background))
    _add(drawing, drawing, scene.items)
    root = drawing.get_xml()
    del root.attrib["xmlns:ev"]  # unused, and unknown to the DTD
    ElementTree.indent(root, " ")
    stream.write(b'<?xml version="1.0" encoding="UTF-8"?>\n')
    stream.write(ElementTree.tostring(root, "utf-8", xml_declaration=False) + b"\n")


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
            place = (decimal(item.x), decimal(item.y))
            ink = {} if item.ink == INK else {"color": item.ink}  # inherited if not set
            return make.use(f"#{_identity(item.name)}", place, **ink)
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
    group = make.g()
    group.set_desc(desc=lettering.printable(text.words))
    if steps := lettering.outlines(text):
        group.add(make.path(_outline(steps), fill=_ink(text.colour)))
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


def _identity(name: str) -> str:
    """``name`` as an XML id: one that starts with a digit or hyphen gets a _, which no scene's name holds."""
    return name if name[0].isalpha() else f"_{name}"


def _lines(words: str) -> str:
    return "\n".join(map(lettering.printable, words.split("\n")))


def _outline(steps: Steps) -> str:
    return "".join(letter + " ".join(map(decimal, numbers)) for letter, *numbers in steps)
