"""Scenes as SVG 1.1 files, valid by the W3C's DTD.

In: a scene. Out: bytes on a stream, the same for the same scene. Definitions become ``<g>`` in ``<defs>``
and are placed by ``<use>``; their ink is ``currentColor``, set by ``color`` at the use, which every renderer
follows.

Words whose letters there are fonts for are drawn as outlines, so that no renderer's fonts can move them. Each
character is stated once, in the font's own units, and placed by ``<use>`` wherever it stands; the words
themselves stand beside the outlines in ``<desc>``, since ``<title>`` would make browsers show a tooltip at
every row number. Other words are live ``<text>``, in whatever font the reader's machine has for them.
"""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable
from functools import lru_cache
from typing import BinaryIO

from turnchain.lettering import measuring, others
from turnchain.numbers import decimal
from turnchain.scene import INK, Anchor, Group, Item, Path, Scene, Steps, Text, Use, Weight, texts_in

WEIGHTS = {"regular": "normal", "semibold": "600"}


def write(scene: Scene, stream: BinaryIO) -> None:
    """Writes ``scene`` to ``stream`` as UTF-8, a line to each element, px for px in user units. ValueError for a place
    that is no finite number."""
    head, foot = _frame(scene)
    lines = [head, *_definitions(scene)]
    if scene.background:
        lines.append(_empty("rect", fill=scene.background, height="100%", width="100%", x="0", y="0"))
    for item in scene.items:
        lines += _element(item)
    lines.append(foot)
    stream.write("\n".join(lines).encode("utf-8", "xmlcharrefreplace"))


def inline(scene: Scene) -> tuple[str, list[str]]:
    """The definitions of ``scene``, and what is in each of its groups, as HTML has them within ``<svg>``: without
    namespaces, and without descriptions, since a page has all of it in its own words. Nothing stands between elements:
    blanks cost a browser as much as elements. ValueError as for ``write``."""
    groups = [item.items for item in scene.items if isinstance(item, Group)]
    inside = [_inlined(line for item in items for line in _element(item)) for items in groups]
    return _inlined(_definitions(scene)), inside


_REFERENCE = re.compile(r' xlink:(href="[^"]*")([^>]*)/>')
_EMPTIED = re.compile(r"<g([^>]*)></g>")


def _inlined(lines: Iterable[str]) -> str:
    text = "".join(line for line in lines if not line.startswith("<desc>"))
    return _EMPTIED.sub(r"<g\1/>", _REFERENCE.sub(r"\2 \1/>", text))


def _definitions(scene: Scene) -> list[str]:
    """The lines of ``<defs>``."""
    lines = [_empty("path", d=path, id=name) for name, path in _characters(scene).items()]
    for name, items in scene.definitions.items():
        lines += _group(items, name)
    return _around("defs", lines)


def _frame(scene: Scene) -> tuple[str, str]:
    """What stands before the definitions and behind the items, as svgwrite says it; its elements for all the rest would
    take ten times as long as the lines written here."""
    from svgwrite import Drawing  # 67 ms, when an SVG is written

    size = (f"{scene.width}px", f"{scene.height}px")
    drawing = Drawing(size=size, viewBox=f"0 0 {scene.width} {scene.height}", debug=False)
    drawing.attribs |= {
        "xml:lang": measuring.printable(scene.language),
        "stroke-linejoin": "round",
    }
    drawing.set_desc(_lines(scene.title), _lines(scene.words))
    root = drawing.get_xml()
    del root.attrib["xmlns:ev"]  # unused, and unknown to the DTD
    ElementTree.indent(root, "")  # a line to each element
    text = ElementTree.tostring(root, "unicode")
    head, _, foot = text.rpartition("<defs />\n")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{head.rstrip()}', f"{foot}\n"


def _characters(scene: Scene) -> dict[str, str]:
    """The outline of every character that is drawn as one, by its id, in the order of first need."""
    everything = (*(item for items in scene.definitions.values() for item in items), *scene.items)
    return {
        name: measuring.path_data(text.weight, character)
        for text in texts_in(everything)
        if measuring.covered(text.words)
        for name, character, _ in _letters(text.words, text.weight, text.anchor)
    }


@others.renewed
@lru_cache(256)  # the numbers of rows come again in picture after picture
def _letters(words: str, weight: Weight, anchor: Anchor) -> tuple[tuple[str, str, str], ...]:
    """Whatever leaves ink in ``words``: its id, the character, and the line that places it.

    Ids like r.52 (regular, then the code point in hexadecimals) are never those of definitions, which have no full
    stop."""
    names = {
        character: f"{weight[0]}.{ord(character):x}"
        for character in measuring.printable(words)
        if measuring.path_data(weight, character)
    }
    return tuple(
        (names[character], character, _use(names[character], x, 0))
        for character, x in measuring.places_of(words, weight, anchor)
        if character in names
    )


def _element(item: Item) -> list[str]:
    """The lines of ``item``."""
    match item:
        case Path():
            return _path(item)
        case Text():
            return _outlined(item) if measuring.covered(item.words) else [_live(item)]
        case Use():
            return [_use(_identity(item.name), item.x, item.y, "" if item.ink == INK else item.ink)]
        case Group():
            return _group(item.items, item.name, item.words)


def _group(items: Iterable[Item], name: str, words: str = "") -> list[str]:
    inside = [f"<desc>{_escaped(_lines(words))}</desc>"] if words else []
    for item in items:
        inside += _element(item)
    return _around("g", inside, **({"id": _identity(name)} if name else {}))


def _path(path: Path) -> list[str]:
    stroke = ""
    if path.stroke:
        dash = f' stroke-dasharray="{",".join(map(decimal, path.dash))}"' if path.dash else ""
        # said by each path, since cairosvg cannot go back to butt
        cap = ' stroke-linecap="round"' if path.cap == "round" else ""
        stroke = f' stroke="{_ink(path.stroke)}"{dash}{cap} stroke-width="{decimal(path.width)}"'
    made = f'<path d="{_outline(path.steps)}" fill="{_ink(path.fill)}"{stroke}/>'
    if path.opacity == 1:
        return [made]
    # on a group, since some renderers let the fill shine through the stroke of a see-through path
    return _around("g", [made], opacity=decimal(path.opacity))


def _outlined(text: Text) -> list[str]:
    moves = [f"translate({decimal(text.x)} {decimal(text.y)})"]
    if text.turn:
        moves.append(f"rotate({decimal(text.turn)})")
    moves.append(f"scale({_factor(text.size / measuring.em(text.weight))})")
    letters = [line for _, _, line in _letters(text.words, text.weight, text.anchor)]
    desc = f"<desc>{_escaped(measuring.printable(text.words))}</desc>"
    return _around("g", [desc, *letters], fill=_ink(text.colour), transform=" ".join(moves))


def _live(text: Text) -> str:
    x, y = decimal(text.x), decimal(text.y)
    style = {
        "fill": _ink(text.colour),
        "font-family": "sans-serif",
        "font-size": decimal(text.size),
        "font-weight": WEIGHTS[text.weight],
        "text-anchor": text.anchor,
        "x": x,
        "y": y,
    }
    if text.turn:
        style["transform"] = f"rotate({decimal(text.turn)} {x} {y})"
    return f"<text{_attributes(style)}>{_escaped(measuring.printable(text.words))}</text>"


def _use(name: str, x: float, y: float, ink: str = "") -> str:
    """The definition ``name`` at a place, without those numbers that are 0 anyway, and without an ink that is
    inherited. Most lines of a chart are such: they are put together by hand."""
    across, down = decimal(x), decimal(y)
    colour = f' color="{ink}"' if ink else ""
    left = f' x="{across}"' if across != "0" else ""
    top = f' y="{down}"' if down != "0" else ""
    return f'<use{colour}{left} xlink:href="#{name}"{top}/>'


def _empty(element: str, **attributes: str) -> str:
    """An element with nothing in it."""
    return f"<{element}{_attributes(attributes)}/>"


def _around(element: str, inside: list[str], **attributes: str) -> list[str]:
    """An element with the lines ``inside``."""
    if not inside:
        return [_empty(element, **attributes)]
    return [f"<{element}{_attributes(attributes)}>", *inside, f"</{element}>"]


def _attributes(attributes: dict[str, str]) -> str:
    """Sorted, so that the same element is always the same text."""
    return "".join(f' {name}="{_quoted(attributes[name])}"' for name in sorted(attributes))


def _quoted(value: str) -> str:
    """``value`` as it stands between quotes: names, numbers and colours, which few letters need."""
    return _escaped(value).replace('"', "&quot;")


def _escaped(words: str) -> str:
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _ink(colour: str | None) -> str:
    return "currentColor" if colour == INK else colour or "none"


def _factor(value: float) -> str:
    """``value`` to nine decimals: font units are so small that words could drift by a px with fewer."""
    if not math.isfinite(value):
        raise ValueError(f"{value} has no place in a picture")
    return f"{value:.9f}".rstrip("0").rstrip(".")


def _identity(name: str) -> str:
    """``name`` as an XML id: one that starts with a digit or hyphen gets a _, which no scene's name holds."""
    return name if name[0].isalpha() else f"_{name}"


def _lines(words: str) -> str:
    return "\n".join(map(measuring.printable, words.split("\n")))


def _outline(steps: Steps) -> str:
    return "".join([step[0] + " ".join(map(decimal, step[1:])) for step in steps])
