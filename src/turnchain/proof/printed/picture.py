"""Pictures read back for their words and arrows.

In: the bytes of an SVG file. Out: its words as they are drawn, letter by letter, with the group they stand in; every
measuring arrow with its length in px; the scale bar. A letter is drawn as a use of an outline whose name ends in the
letter's code point; the words beside it, for readers who cannot see, must be the same.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import dist

from turnchain.proof.printed.lengths import is_length, length

_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_LETTER = re.compile(r"#[a-z]\.([0-9a-f]+)")
Point = tuple[float, float]
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


class UnreadablePicture(Exception):
    """A picture whose words are not what is drawn, or with a measure that has not two arrow heads; says which."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """A measuring arrow of the ``piece``-th piece (from 1): the ``words`` of its label in their order, and its length
    in px from tip to tip."""

    piece: int
    words: tuple[str, ...]
    px: float


@dataclass(frozen=True, slots=True)
class CarriedLoop:
    """A yarn drawn as carried up beside a chart: its ``colour``, the ``side`` at which it lies outside the cloth, and
    how many ``rows`` high it is from middle to middle, by the height of the lowest row."""

    colour: str
    side: str
    rows: float


@dataclass(frozen=True, slots=True)
class ReadPicture:
    """The words of a picture in the order drawn, its alt text, its arrows, its scale in px to a cm (None: it has
    no scale bar), and of a chart the yarns that are carried."""

    words: tuple[str, ...]
    told: str
    arrows: tuple[Arrow, ...]
    scale: float | None
    carried: tuple[CarriedLoop, ...] = ()


def read_picture(file: bytes) -> ReadPicture:
    """What stands in an SVG ``file``. Raises UnreadablePicture; xml.etree.ElementTree.ParseError where it is no XML."""
    root = ElementTree.fromstring(file)
    arrows = tuple(
        Arrow(int(named[1]), tuple(_words(group)), _tip_to_tip(group))
        for group in root.iter(f"{_SVG}g")
        if (named := re.fullmatch(r"measure-(\d+)-\d+", group.get("id", "")))
    )
    told = root.findtext(f"{_SVG}desc") or ""
    return ReadPicture(tuple(_words(root)), told, arrows, _scale(root), tuple(_carried(root)))


def _words(root: ElementTree.Element) -> Iterator[str]:
    """The words under an element: outlines of letters, or live text where the font lacks them."""
    for element in root.iter():
        if element.tag == f"{_SVG}text":
            yield "".join(element.itertext())
        elif element.tag == f"{_SVG}g" and (letters := _letters(element)):
            said = element.findtext(f"{_SVG}desc") or ""
            if "".join(letters) != "".join(one for one in said if not one.isspace() and one in letters):
                raise UnreadablePicture(f'"{said}" is said where "{"".join(letters)}" is drawn')
            yield said.replace("\u00a0", " ")


def _letters(group: ElementTree.Element) -> list[str]:
    found = [_LETTER.fullmatch(use.get(_LINK, "")) for use in group.findall(f"{_SVG}use")]
    return [chr(int(one[1], 16)) for one in found if one]


def _carried(root: ElementTree.Element) -> Iterator[CarriedLoop]:
    """Of every loop the line in its yarn's colour, which lies on a dark one."""
    groups = {group.get("id", ""): group for group in root.iter(f"{_SVG}g")}
    feet = sorted({
        float(use.get("y", "0"))
        for name, group in groups.items() if name.startswith("row-of-stitches-")
        for use in group.findall(f"{_SVG}use")[:1]
    })  # fmt: skip
    high = min((above - below for below, above in pairwise(feet)), default=1.0)
    loops = groups["carried-yarns"].findall(f"{_SVG}path") if "carried-yarns" in groups else []
    for line in loops[1::2]:
        points = _points(line)
        side = "left" if points[1][0] < points[0][0] else "right"
        yield CarriedLoop(line.get("stroke", ""), side, abs(points[-1][1] - points[0][1]) / high)


def _points(path: ElementTree.Element) -> list[Point]:
    numbers = [float(one) for one in _NUMBER.findall(path.get("d", ""))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _tip_to_tip(group: ElementTree.Element) -> float:
    """How far apart the tips of the two arrow heads are."""
    heads = [_points(path) for path in group.findall(f"{_SVG}path") if path.get("fill", "none") != "none"]
    triangles = [points for points in heads if len(points) == 3]
    if len(triangles) != 2:
        raise UnreadablePicture(f'a measure with {len(triangles)} arrow heads: "{", ".join(_words(group))}"')
    return dist(*map(_tip, triangles))


def _tip(triangle: list[Point]) -> Point:
    """The corner of an arrow head from which its two longer sides go."""
    return max(triangle, key=lambda corner: sum(dist(corner, other) for other in triangle))


def _scale(root: ElementTree.Element) -> float | None:
    """Px to a cm, by the bar of a length."""
    for group in root.iter(f"{_SVG}g"):
        if group.get("id") == "scale-bar":
            cm = next(float(length(words).cm) for words in _words(group) if is_length(words))
            bar = max((_points(path) for path in group.findall(f"{_SVG}path")), key=len)
            return max(abs(a[0] - b[0]) for a, b in pairwise(bar)) / cm
    return None
