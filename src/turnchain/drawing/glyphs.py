"""Stitch symbols: read from hand-drawn SVG files, and placed between a foot and a head.

In: a symbol's name and, where a maker drew their own, a folder. Out: ``Path``s in ``INK`` for the chart.
The small part of SVG that is read is set out in symbols/README.md; a file with anything else is refused
with words, never drawn in part.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Callable, Hashable, Iterable
from functools import cache
from operator import attrgetter
from pathlib import Path as FilePath
from typing import Literal, NoReturn, TypeAlias, cast
from xml.parsers import expat  # xml.etree takes longer to import than all symbols to read

from turnchain import packaged
from turnchain.errors import MakerError
from turnchain.numbers import rounded
from turnchain.records import fields, frozen, replace
from turnchain.scene import INK, Path, Step, Steps, ellipse, line, polyline

Point: TypeAlias = tuple[float, float]

LARGEST_FILE = 64 * 1024  # bytes
LARGEST_NUMBER = 10_000
SVG = "{http://www.w3.org/2000/svg}"
WORDS = ("title", "desc")
GEOMETRY = {
    "path": ("d",),
    "line": ("x1", "y1", "x2", "y2"),
    "polyline": ("points",),
    "circle": ("cx", "cy", "r"),
    "ellipse": ("cx", "cy", "rx", "ry"),
}
#: Attributes of style and the values that SVG gives them by itself; black is refused, so a symbol must set its fill.
STYLE = {"fill": "black", "stroke": "none", "stroke-width": "1", "stroke-linecap": "butt"}
#: How many numbers follow each letter of a path.
COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Z": 0}


@frozen
class Glyph:
    """A symbol in its box: ``foot`` and ``head`` anchors and ``strokes`` (drawn in ``INK``), in box units."""

    name: str
    foot: Point
    head: Point
    strokes: tuple[Path, ...]


def load(name: str, folder: FilePath | None = None) -> Glyph:
    """The symbol ``name``, from ``folder`` if it has that file and from turnchain's own otherwise.

    MakerError if the name is not made of a to z and _ (so that no name leads out of the folder), if there is
    no such symbol, or if the file holds what symbols/README.md does not allow.
    """
    if not re.fullmatch("[a-z_]+", name):
        raise MakerError(f"symbol {name!r}: the name of a symbol is made of the letters a to z and _")
    if folder is not None and not folder.is_dir():
        raise MakerError(f"{folder}: there is no such folder of symbols")
    if folder is not None and os.path.lexists(own := folder / f"{name}.svg"):
        file = FilePath(os.path.realpath(own))
        if not file.is_file() or file.parent != FilePath(os.path.realpath(folder)):
            raise MakerError(f"{own}: a symbol must be an ordinary file in its folder, not a link out of it")
        return parse(name, str(own), _bounded(file))
    return _ours(name)


@cache
def _ours(name: str) -> Glyph:
    """The symbol ``name`` of turnchain's own."""
    if not (ours := packaged.symbols().joinpath(f"{name}.svg")).is_file():
        raise MakerError(f"symbol {name!r}: there is no such symbol; there are {', '.join(names())}")
    return parse(name, ours.name, _bounded(ours))


def names() -> list[str]:
    """The names of all symbols that turnchain has, sorted."""
    return sorted(entry.name[:-4] for entry in packaged.symbols().iterdir() if entry.name.endswith(".svg"))


def parse(name: str, source: str, data: bytes) -> Glyph:
    """The symbol ``name`` from the content ``data`` of an SVG file; ``source`` is what messages call the file.

    Raises MakerError where it is not the part of SVG that symbols/README.md sets out.
    """
    root = _Element(source, _tree(source, data))
    if root.tree.tag != f"{SVG}svg":
        root.refuse("is no start of a drawing", f'begin with <svg xmlns="{SVG[1:-1]}" ...>')
    root.check("viewBox", *STYLE)
    anchors: dict[str, Point] = {}
    strokes: list[Path] = []
    for child in root.tree.children:
        element = _Element(source, child)
        if element.kind not in GEOMETRY and element.kind not in WORDS:
            element.refuse("is not allowed", f"allowed are {', '.join([*GEOMETRY, *WORDS])}")
        if child.children:
            element.refuse("holds another element", "elements may not stand inside one another")
        if element.kind in WORDS:
            element.check()
        elif "id" in child.attrib:
            anchors[child.attrib["id"]] = _anchor(element)
        else:
            strokes.append(_stroke(element, root))
    for anchor in ("foot", "head"):
        if anchor not in anchors:
            root.refuse(f"has no {anchor}", f'add <circle id="{anchor}" cx="..." cy="..." r="0"/>')
    if anchors["foot"] == anchors["head"]:
        root.refuse("has its foot and head in one place", "they must stand apart")
    return Glyph(name, anchors["foot"], anchors["head"], merge(strokes))


def place(symbol: Glyph, foot: Point, head: Point, width: float, across: float | None = None) -> tuple[Path, ...]:
    """``symbol`` drawn from ``foot`` to ``head`` (px) in ``INK``, every stroke ``width`` px thick.

    ``across`` is the px per box unit at right angles to that line: the scale along it if not given, negative
    for the mirror image. Strokes of one style become one Path. ValueError if foot and head coincide.
    """
    length = math.dist(foot, head)
    if not length:
        raise ValueError(f"symbol {symbol.name}: foot and head coincide at {foot}")
    scale = length / math.dist(symbol.foot, symbol.head)
    side = scale if across is None else across
    (ux, uy), (vx, vy) = _direction(symbol.foot, symbol.head), _direction(foot, head)

    def moved(x: float, y: float) -> Point:
        dx, dy = x - symbol.foot[0], y - symbol.foot[1]
        along, beside = (dx * ux + dy * uy) * scale, (dy * ux - dx * uy) * side
        return rounded(foot[0] + along * vx - beside * vy), rounded(foot[1] + along * vy + beside * vx)

    return merge(replace(path, steps=_mapped(path.steps, moved), width=width) for path in symbol.strokes)


def stand(
    glyph: Glyph, foot: Point, head: Point, width: float, across: float, lowered: float = 0.0
) -> tuple[Path, ...]:
    """``glyph`` standing on ``foot`` with its ``head`` where that is (px), in ``INK``, strokes ``width`` px thick.

    What reaches from foot to head is the stem: it leans with them. Every other stroke keeps its form and direction,
    ``across`` px per box unit, and only its middle goes with the stem, so that bars stay level and slashes parallel;
    those below the head stand ``lowered`` (a share of the stem) nearer the foot. A slash that would lie along the
    stem, less than ``CROSSING`` from it, is drawn in the mirror.
    """
    length = math.dist(glyph.foot, glyph.head)
    (ux, uy) = _direction(glyph.foot, glyph.head)

    def on_stem(along: float, beside: float) -> Point:
        share = along / length
        return foot[0] + share * (head[0] - foot[0]) + beside * across, foot[1] + share * (head[1] - foot[1])

    def local(point: Point) -> Point:
        dx, dy = point[0] - glyph.foot[0], point[1] - glyph.foot[1]
        return dx * ux + dy * uy, dy * ux - dx * uy

    way = foot[1] - head[1], head[0] - foot[0]  # of the stem: up and to the right, px
    made: list[Path] = []
    for path in glyph.strokes:
        for steps in _apart(path.steps):
            along, beside = zip(*(local(point) for point in _points(steps)), strict=True)
            stem = max(along) - min(along) > STEM * length
            middle = (max(along) + min(along)) / 2, (max(beside) + min(beside)) / 2
            below = lowered * length if middle[0] < 0.95 * length else 0.0
            about = on_stem(middle[0] - below, middle[1])
            along_stem = _apart_by((along[-1] - along[0], beside[-1] - beside[0]), way) < CROSSING
            side = -across if along_stem else across

            def leaning(px: float, py: float) -> Point:
                x, y = on_stem(*local((px, py)))
                return rounded(x), rounded(y)

            def level(
                px: float, py: float, middle: Point = middle, about: Point = about, side: float = side
            ) -> Point:
                up, right = local((px, py))
                x, y = about[0] + (right - middle[1]) * side, about[1] - (up - middle[0]) * across
                return rounded(x), rounded(y)

            made.append(replace(path, steps=_mapped(steps, leaning if stem else level), width=width))
    return merge(made)


STEM = 0.75  # a stroke over more than this share of the way from foot to head is a stem
CROSSING = 24.0  # degrees: strokes nearer in direction than that are hard to tell apart


def _apart_by(one: Point, other: Point) -> float:
    """The angle between two lines, in degrees, 0 to 90; 90 too where one has no length."""
    lengths = math.hypot(*one) * math.hypot(*other)
    share = abs(one[0] * other[0] + one[1] * other[1]) / lengths if lengths else 0.0
    return math.degrees(math.acos(min(1.0, share)))


def _apart(steps: Steps) -> list[Steps]:
    """The strokes of an outline, one by one."""
    begins = [nth for nth, step in enumerate(steps) if step[0] == "M"]
    return [steps[begin:end] for begin, end in zip(begins, [*begins[1:], len(steps)], strict=True)]


def _points(steps: Steps) -> list[Point]:
    """The points that a stroke passes through, handles left out."""
    return [(step[-2], step[-1]) for step in steps if len(step) > 1]


#: All that a path is but for where it runs.
_STYLE = attrgetter(*(name for name in fields(Path) if name != "steps"))


def merge(paths: Iterable[Path]) -> tuple[Path, ...]:
    """``paths`` with all those of one style made one Path, in the order in which the styles first come.

    For whole inks only: where see-through paths overlap, merging would show.
    """
    styles: dict[Hashable, tuple[Path, list[Step]]] = {}
    for path in paths:
        styles.setdefault(_STYLE(path), (path, []))[1].extend(path.steps)
    return tuple(replace(path, steps=tuple(steps)) for path, steps in styles.values())


def _direction(start: Point, end: Point) -> Point:
    """The unit vector from ``start`` to ``end``."""
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _mapped(steps: Steps, move: Callable[[float, float], Point]) -> Steps:
    """``steps`` with every point moved."""
    made: list[Step] = []
    for letter, *numbers in cast("tuple[tuple[str, *tuple[float, ...]], ...]", steps):
        points = (move(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
        made.append(cast(Step, (letter, *(number for point in points for number in point))))
    return tuple(made)


def _bounded(file: FilePath) -> bytes:
    """The bytes of ``file``, one past the limit at most."""
    try:
        with file.open("rb") as stream:
            return stream.read(LARGEST_FILE + 1)
    except OSError as error:
        raise MakerError(f"{file}: cannot be read ({error.strerror})") from error


@frozen
class _Node:
    """An element of XML: its tag, "{namespace}name", its attributes and the elements in it."""

    tag: str
    attrib: dict[str, str]
    children: list[_Node]


def _tree(source: str, data: bytes) -> _Node:
    """The root element of ``data``, once nothing in it can reach out or grow."""
    if len(data) > LARGEST_FILE:
        raise MakerError(f"{source}: larger than {LARGEST_FILE // 1024} kB, the most a symbol may take")
    try:
        words = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise MakerError(f"{source}: not written in UTF-8 (byte {error.start})") from error
    if found := re.search(r"<!(?!--)\[?\w*", words):
        raise MakerError(f"{source}: {found[0]} is not allowed; a symbol has no DOCTYPE, entities or CDATA")
    try:
        return _parsed(words)
    except (expat.ExpatError, ValueError) as error:
        raise MakerError(f"{source}: not well-formed XML ({error})") from error


def _parsed(words: str) -> _Node:
    """The root element of ``words``. ExpatError or ValueError where they are no XML."""
    above = [_Node("", {}, [])]

    def full(name: str) -> str:
        return f"{{{name}" if "}" in name else name

    def start(name: str, attributes: dict[str, str]) -> None:
        node = _Node(full(name), {full(one): value for one, value in attributes.items()}, [])
        above[-1].children.append(node)
        above.append(node)

    parser = expat.ParserCreate(namespace_separator="}")
    parser.StartElementHandler = start
    parser.EndElementHandler = lambda _: above.pop()
    parser.Parse(words, True)
    return above[0].children[0]


@frozen
class _Element:
    """An element and the file it stands in, so that every refusal can name both."""

    source: str
    tree: _Node

    @property
    def kind(self) -> str:
        return self.tree.tag.removeprefix(SVG)

    def refuse(self, found: str, allowed: str) -> NoReturn:
        raise MakerError(f"{self.source}: <{self.kind}> {found}; {allowed}")

    def check(self, *allowed: str) -> None:
        """Refuses attributes other than the allowed ones."""
        for name in self.tree.attrib:
            if name not in allowed:
                self.refuse(f"has {name}", f"allowed there: {', '.join(allowed) or 'no attributes'}")

    def number(self, name: str, value: str) -> float:
        """``value``, found in the attribute ``name``, as a number."""
        plain = re.fullmatch(r"[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)", value)
        if not plain or abs(float(value)) > LARGEST_NUMBER:
            self.refuse(f"has {name} {value[:20]!r}", f"a plain number up to {LARGEST_NUMBER} is needed")
        return float(value)

    def numbers(self) -> list[float]:
        """The numbers of this kind's own attributes, in the order of ``GEOMETRY``."""
        return [self.number(name, self.tree.attrib.get(name, "0")) for name in GEOMETRY[self.kind]]

    def ink(self, name: str, value: str) -> str | None:
        if value not in ("none", "currentColor"):
            self.refuse(f"has {name} {value!r}", f"say {name} none or currentColor, here or on <svg>")
        return INK if value == "currentColor" else None


def _anchor(element: _Element) -> Point:
    if element.kind != "circle" or element.tree.attrib["id"] not in ("foot", "head"):
        element.refuse("has an id", "only the circles foot and head have one")
    element.check("id", *GEOMETRY["circle"])
    x, y, radius = element.numbers()
    if radius:
        element.refuse(f"has r {radius:g}", 'foot and head are never drawn: r="0"')
    return x, y


def _stroke(element: _Element, root: _Element) -> Path:
    """One drawn element as a Path in box units; the style of ``root`` holds where the element has none of its own."""
    element.check(*GEOMETRY[element.kind], *STYLE)
    said = STYLE | root.tree.attrib | element.tree.attrib
    if (cap := said["stroke-linecap"]) not in ("round", "butt"):
        element.refuse(f"has stroke-linecap {cap!r}", "allowed are round and butt")
    return Path(
        steps=SHAPES[element.kind](element),
        fill=element.ink("fill", said["fill"]),
        stroke=element.ink("stroke", said["stroke"]),
        width=element.number("stroke-width", said["stroke-width"]),
        cap=cast(Literal["round", "butt"], cap),
    )


def _line(element: _Element) -> Steps:
    return line(*element.numbers())


def _polyline(element: _Element) -> Steps:
    words = element.tree.attrib.get("points", "").replace(",", " ").split()
    numbers = [element.number("points", word) for word in words]
    if len(numbers) < 4 or len(numbers) % 2:
        element.refuse(f"has {len(numbers)} numbers in points", "two or more points are needed")
    return polyline(list(zip(numbers[::2], numbers[1::2], strict=True)))


def _circle(element: _Element) -> Steps:
    x, y, radius = element.numbers()
    return ellipse(x, y, radius, radius)


def _ellipse(element: _Element) -> Steps:
    return ellipse(*element.numbers())


def _outline(element: _Element) -> Steps:
    """The steps of a path's d; H and V become L."""
    steps: list[Step] = []
    x = y = start_x = start_y = 0.0
    for part in re.findall(r"[A-Za-z][^A-Za-z]*|[^A-Za-z]+", element.tree.attrib.get("d", "").strip()):
        letter, numbers = part[0], [element.number("d", n) for n in part[1:].replace(",", " ").split()]
        if len(numbers) != COUNTS.get(letter):
            allowed = ", ".join(f"{each} with {count}" for each, count in COUNTS.items())
            element.refuse(f"has {letter} with {len(numbers)} numbers in d", f"allowed are {allowed}")
        if not steps and letter != "M":
            element.refuse(f"has {letter} first in d", "a path begins with M")
        match letter:
            case "M":
                x, y = start_x, start_y = numbers
                steps.append(("M", x, y))
            case "L" | "H" | "V":
                x = x if letter == "V" else numbers[0]
                y = y if letter == "H" else numbers[-1]
                steps.append(("L", x, y))
            case "C":
                x1, y1, x2, y2, x, y = numbers
                steps.append(("C", x1, y1, x2, y2, x, y))
            case "Z":
                x, y = start_x, start_y
                steps.append(("Z",))
    if not steps:
        element.refuse("has no d", 'say where it runs, as in d="M 2 2 L 12 2"')
    return tuple(steps)


SHAPES: dict[str, Callable[[_Element], Steps]] = {
    "path": _outline,
    "line": _line,
    "polyline": _polyline,
    "circle": _circle,
    "ellipse": _ellipse,
}
