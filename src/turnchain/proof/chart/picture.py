"""The chart as the SVG file draws it, and nothing beside it.

In: the SVG file of a whole chart. Out: ``DrawnChart``. Of the names in the file only those are used that say which
group is what: the stitches with their rows in the order worked, the foundation, the stripes, the row numbers and the
key. ``UnreadableChart`` says where the picture cannot be told.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable
from typing import Literal

from turnchain.proof.chart.marks import (
    Band,
    ChartSymbol,
    DrawnChart,
    Point,
    UnreadableChart,
    between,
    length,
    number,
    points,
    sign_of,
)

_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_DEEPEST = 12  # definitions inside definitions
_HALF_DIGIT = 717  # half the height of a digit in the units of the font, by its outlines
_MOST_MARKS = 50_000  # in one definition or row: a row of ``pattern.MOST_CLUSTERS`` of the largest has far fewer


def read_chart(svg: bytes) -> DrawnChart:
    """What the picture in the bytes of an ``svg`` file shows. Raises UnreadableChart, also for what is
    no SVG."""
    try:
        return _Picture(ElementTree.fromstring(svg)).drawn()
    except ElementTree.ParseError as error:
        raise UnreadableChart(f"no well-formed file: {error}") from None
    except KeyError as error:
        raise UnreadableChart(f"an element without {error}") from None
    except (ArithmeticError, LookupError, ValueError) as error:
        raise UnreadableChart(f"numbers that draw nothing: {error}") from None


def _single(rows: list[tuple[float, tuple[ChartSymbol, ...]]]) -> str:
    """The stitch of a fabric in which each is worked by itself: that of rows with chains, or of all."""
    with_chains = [marks for _, marks in rows if any(mark.sign == "lying" for mark in marks)]
    seen = {mark.stitch for marks in with_chains or [marks for _, marks in rows] for mark in marks if mark.sign == "dc"}
    if len(seen) != 1:
        raise UnreadableChart("stitches of several kinds, or none")
    return seen.pop()


class _Picture:
    """The file's elements by their ids, and definitions expanded once."""

    def __init__(self, root: ElementTree.Element) -> None:
        self.ids = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
        self.made: dict[str, tuple[ChartSymbol, ...]] = {}

    def drawn(self) -> DrawnChart:
        stitches = self._group("stitches")
        rows = [self._row(nth, group) for nth, group in enumerate(stitches.findall(f"{_SVG}g"), start=1)]
        foundation = self.marks(self._group("foundation"))
        signs = {(mark.sign, mark.stitch) for mark in foundation}
        if not rows or signs not in ({("lying", "")}, {("dc", "sc")}):
            raise UnreadableChart("no rows, or a foundation that is neither a chain nor stitches along an edge")
        along = signs == {("dc", "sc")}
        if along and not any(mark.stitch == "sc" for marks in self._named() for mark in marks):
            raise UnreadableChart("the key does not name the stitches along an edge")
        chains = tuple(mark.head for mark in foundation)
        bands, strips, letters = (tuple(self._bands(name)) for name in ("stripes", "strips", "stripe-letters"))
        k, inner, stitch = self._key()
        stitch = stitch or _single(rows)
        numbers = tuple(self._numbers())
        on: Literal["ch", "sc"] = "sc" if along else "ch"
        return DrawnChart(k, tuple(rows), chains, on, bands, strips, letters, numbers, stitch, inner)

    def _group(self, name: str) -> ElementTree.Element:
        if name not in self.ids:
            raise UnreadableChart(f"there is no group {name!r}")
        return self.ids[name]

    def _row(self, nth: int, group: ElementTree.Element) -> tuple[float, tuple[ChartSymbol, ...]]:
        uses = group.findall(f"{_SVG}use")
        if group.attrib.get("id") != f"row-of-stitches-{nth}" or len(uses) != 1:
            raise UnreadableChart(f"row {nth} in the order worked is not where it should be")
        return number(uses[0].attrib.get("y", "0")), self.marks(group)

    def marks(self, element: ElementTree.Element, depth: int = 0) -> tuple[ChartSymbol, ...]:
        """All symbols of ``element`` with definitions put in their places."""
        if depth > _DEEPEST:
            raise UnreadableChart("definitions that hold themselves")
        found: list[ChartSymbol] = []
        for child in element:
            kind = child.tag.removeprefix(_SVG)
            if kind == "path":
                found.append(sign_of(child.attrib["d"], child.attrib.get("fill", "none") != "none"))
            elif kind == "use":
                x, y = (number(child.attrib.get(name, "0")) for name in ("x", "y"))
                found += [mark.moved(x, y) for mark in self._definition(child.attrib.get(_LINK, ""), depth)]
            elif kind == "g":
                found += self.marks(child, depth + 1)
            if len(found) > _MOST_MARKS:
                raise UnreadableChart("more symbols than a row has")
        return tuple(found)

    def _definition(self, link: str, depth: int) -> tuple[ChartSymbol, ...]:
        name = link.removeprefix("#")
        if name not in self.made:
            self.made[name] = self.marks(self._group(name), depth + 1)
        return self.made[name]

    def _key(self) -> tuple[int, int, str]:
        """How many stitches the key shows in a cluster, with their feet together, how many chains among them, and which
        stitch; one stitch, and no name, where it shows no cluster."""
        found: set[tuple[int, int, str]] = set()
        for marks in self._named():
            feet = [mark.foot for mark in marks if mark.sign == "dc"]
            if len(feet) > 1 and max(length(between(feet[0], foot)) for foot in feet) < 0.05:
                (stitch,) = {mark.stitch for mark in marks if mark.sign == "dc"}
                found.add((len(feet), sum(mark.sign == "lying" for mark in marks), stitch))
        if len(found) > 1:
            raise UnreadableChart("the key shows several clusters")
        return found.pop() if found else (1, 0, "")

    def _named(self) -> Iterable[tuple[ChartSymbol, ...]]:
        """The symbols of every definition that the key shows."""
        for use in self._group("key").iter(f"{_SVG}use"):
            link = use.attrib.get(_LINK, "").removeprefix("#")
            if "." not in link:  # no letter
                yield self._definition(link, 0)

    def _bands(self, group: str) -> Iterable[Band]:
        for path in self._group(group).findall(f"{_SVG}path"):
            colour = path.attrib.get("fill", "none")
            if colour != "none":
                xs, ys = zip(*points(path.attrib["d"]), strict=True)
                yield Band(colour, (min(xs), min(ys), max(xs), max(ys)))

    def _numbers(self) -> Iterable[tuple[int, Point]]:
        """The row numbers, digit by digit as they are drawn: the outline of a character is called by its code."""
        for label in self._group("row-numbers").iter(f"{_SVG}g"):
            place = re.match(r"translate\((\S+) (\S+)\)", label.attrib.get("transform", ""))
            found = [use.attrib for use in label.findall(f"{_SVG}use")]
            uses = [(number(use.get("x", "0")), use.get(_LINK, "")) for use in found]
            scale = re.search(r"scale\((\S+)\)", label.attrib.get("transform", ""))
            digits = "".join(chr(int(link.partition(".")[2] or "0", 16)) for _, link in sorted(uses))
            if place and scale and digits.isdecimal():
                yield int(digits), (number(place[1]), number(place[2]) - _HALF_DIGIT * number(scale[1]))
