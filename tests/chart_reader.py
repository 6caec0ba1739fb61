"""A chart's SVG read back by someone who knows drawings, not this program.

In: an SVG file. Out: for every row what is drawn there and where, found by shape: a stem with a bar and a stroke is
a double crochet (head at the bar, foot at the other end), one open oval a chain, stacked ovals a turning chain, a
filled oval a slip stitch. Names of definitions are followed, never read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import dist
from pathlib import Path

from lxml import etree

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
Point = tuple[float, float]
Stroke = list[Point]


@dataclass(frozen=True)
class Drawn:
    """Something drawn: ``what``, its head and foot in px, and its ink."""

    what: str
    head: Point
    foot: Point
    ink: str


@dataclass(frozen=True)
class Lettered:
    """Words on the chart: where they begin, end or have their middle, and how high an em of them is."""

    words: str
    at: Point
    size: float
    colour: str


class Chart:
    """An SVG file with its definitions."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self.root = etree.parse(file).getroot()
        self.ids = [found for element in self.root.iter() if (found := element.get("id"))]
        self.named = {element.get("id"): element for element in self.root.iter() if element.get("id")}
        self._shapes: dict[etree._Element, tuple[str, Point, Point]] = {}
        self._rows: dict[int, list[Drawn]] = {}

    def group(self, name: str) -> etree._Element:
        """The group called ``name``."""
        return self.named[name]

    def row(self, index: int) -> list[Drawn]:
        """What is drawn in the row worked as number ``index`` (from 1)."""
        if index not in self._rows:
            self._rows[index] = list(self.drawn(self.group(f"row-of-stitches-{index}")))
        return self._rows[index]

    def rows(self) -> int:
        """How many rows of stitches there are."""
        return sum(name.startswith("row-of-stitches-") for name in self.ids)

    def drawn(self, element: etree._Element, at: Point = (0.0, 0.0), ink: str = "") -> Iterator[Drawn]:
        """Every symbol in ``element``, its references followed down to strokes."""
        if any(child.tag == f"{SVG}path" for child in element):
            if element not in self._shapes:
                self._shapes[element] = _symbol([child for child in element if child.tag == f"{SVG}path"])
            what, head, foot = self._shapes[element]
            yield Drawn(what, _sum(head, at), _sum(foot, at), ink)
        for child in element:
            if child.tag == f"{SVG}use":
                x, y = (float(child.get(name, "0")) for name in ("x", "y"))
                target = self.named[child.get(HREF).removeprefix("#")]
                yield from self.drawn(target, (at[0] + x, at[1] + y), child.get("color", ink))
            elif child.tag == f"{SVG}g":
                yield from self.drawn(child, at, ink)

    def words(self, element: etree._Element) -> list[Lettered]:
        """All words in ``element``."""
        return [_lettered(group) for group in element.iter("{*}g") if "scale" in group.get("transform", "")]

    def places_of_uses(self, element: etree._Element) -> list[Point]:
        """Where the references right under ``element`` are placed."""
        return [(float(use.get("x", "0")), float(use.get("y", "0"))) for use in element if use.tag == f"{SVG}use"]


def strokes(path: etree._Element) -> list[Stroke]:
    """The corners of every stroke of a path; of a curve the points that it goes through."""
    found: list[Stroke] = []
    for letter, words in re.findall(r"([MLCQZ])([^MLCQZ]*)", path.get("d")):
        numbers = [float(number) for number in words.split()]
        if letter == "M":
            found.append([(numbers[0], numbers[1])])
        elif letter != "Z":
            found[-1].append((numbers[-2], numbers[-1]))
    return found


def _symbol(paths: list[etree._Element]) -> tuple[str, Point, Point]:
    """What ``paths`` show together, by its shape, with its head and foot."""
    all_strokes = [stroke for path in paths for stroke in strokes(path)]
    ovals = [stroke for stroke in all_strokes if len(stroke) == 5]
    if ovals:
        assert len(ovals) == len(all_strokes), "ovals and strokes in one symbol"
        return _of_ovals(ovals, filled=paths[0].get("fill") != "none")
    return _stem(all_strokes)


def _stem(found: list[Stroke]) -> tuple[str, Point, Point]:
    """A stem, the bar across its head and one stroke across it: a double crochet."""
    assert [len(stroke) for stroke in found] == [2, 2, 2], f"no symbol known here: {found}"
    stem, *others = sorted(found, key=lambda stroke: -dist(*stroke))
    middles = [_middle(*other) for other in others]
    ends = [end for end in stem if any(dist(end, middle) < 0.05 for middle in middles)]
    assert len(ends) == 1, "a bar at one end of the stem"
    foot = next(end for end in stem if end != ends[0])
    return "dc", ends[0], foot


def _of_ovals(ovals: list[Stroke], filled: bool) -> tuple[str, Point, Point]:
    """One oval: a chain, or filled a slip stitch. Three standing ones: a turning chain (with a lying one, its gap)."""
    standing = [oval for oval in ovals if _tall(oval)]
    if len(ovals) == 1:
        middle = _centre(ovals[0])
        return ("sl" if filled else "ch"), middle, middle
    assert len(standing) == 3, f"{len(standing)} stacked ovals"
    assert len(ovals) <= 4
    low, *_, high = sorted((_centre(oval) for oval in standing), key=lambda place: -place[1])
    quarter = ((high[0] - low[0]) / 4, (high[1] - low[1]) / 4)
    what = "tch" if len(ovals) == 3 else "tch+ch"
    return what, _sum(high, quarter), (low[0] - quarter[0], low[1] - quarter[1])


def _tall(oval: Stroke) -> bool:
    width, height = (max(n) - min(n) for n in zip(*oval, strict=True))
    return height > width


def _centre(oval: Stroke) -> Point:
    xs, ys = zip(*oval[:4], strict=True)
    return sum(xs) / 4, sum(ys) / 4


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _sum(one: Point, other: Point) -> Point:
    return one[0] + other[0], one[1] + other[1]


def _lettered(group: etree._Element) -> Lettered:
    move = re.match(r"translate\((\S+) (\S+)\)", group.get("transform"))
    scale = re.search(r"scale\((\S+)\)", group.get("transform"))
    assert move is not None
    assert scale is not None
    words = group.find("{*}desc").text
    return Lettered(words, (float(move[1]), float(move[2])), float(scale[1]) * EM, group.get("fill"))


EM = 2000  # font units: Lato's head table
