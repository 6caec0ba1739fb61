"""Reading the chart of a piece back: the picture as a maker sees it, and nothing beside it.

In: the SVG file of a whole chart. Out: its rows, worked stitch by stitch from where the symbols lie. A symbol is known
by its lines (an upright with a bar and one stroke is a dc, an oval a chain, a filled oval a slip stitch), what it
stands on by where its foot lies over the row below, a row's height by its own. Of the names in the file only those are
used that say which group is what: the stitches with their rows in the order worked, the foundation, the stripes, the
row numbers and the key. ``Unreadable`` says where the picture cannot be told, ``Unworkable`` where it cannot be worked.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, pairwise
from math import hypot, isfinite
from typing import Literal, TypeAlias

from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.row import Work
from turnchain.proof.hook.stitches import (
    TURNING_CHAIN,
    Below,
    Course,
    Craft,
    OnChain,
    Place,
    Unworkable,
    refuse,
)

_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_DEEPEST = 12  # definitions inside definitions
_MOST_MARKS = 50_000  # in one definition or row: a row of ``pattern.MOST_CLUSTERS`` of the largest has far fewer

Point: TypeAlias = tuple[float, float]
Sign: TypeAlias = Literal["dc", "lying", "standing", "dot"]


class UnreadableChart(Exception):
    """A picture that is no chart of this kind; says where."""


@dataclass(frozen=True, slots=True)
class Mark:
    """A symbol: its ``foot`` and ``head`` in px (of an oval or a dot its middle, twice)."""

    sign: Sign
    foot: Point
    head: Point

    def moved(self, x: float, y: float) -> Mark:
        """The same symbol ``x`` and ``y`` px on."""
        (fx, fy), (hx, hy) = self.foot, self.head
        return Mark(self.sign, (fx + x, fy + y), (hx + x, hy + y))


@dataclass(frozen=True, slots=True)
class Band:
    """A stripe's colour ("#rrggbb") and its box in px: left, top, right, bottom."""

    colour: str
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What the picture shows: ``k`` dc to a cluster by its key; the ``rows`` in the order worked, each with its
    symbols and the y of its top; the x of the ``foundation``'s chains; bands; row numbers with their places."""

    k: int
    rows: tuple[tuple[float, tuple[Mark, ...]], ...]
    foundation: tuple[Point, ...]
    bands: tuple[Band, ...]
    numbers: tuple[tuple[int, Point], ...]


@dataclass(frozen=True, slots=True)
class MadeRow:
    """A row worked from the picture, and the colour of its stripe."""

    course: Course
    colour: str


# ------------------------------------------------------------------------------------------------- the symbols


@lru_cache(maxsize=4096)
def sign_of(data: str, filled: bool) -> Mark:
    """The symbol that the path ``data`` draws."""
    lines = [_points(line) for line in re.findall(r"M[^M]*", data)]
    if "C" in data:
        return _oval(lines, data, filled)
    if filled or len(lines) != 3 or any(len(line) != 2 for line in lines):
        raise UnreadableChart(f"a path that is no stitch: {data[:60]!r}")
    return _dc(lines)


def _points(line: str) -> list[Point]:
    """The points a line passes through, handles left out."""
    found: list[Point] = []
    for letter, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", line):
        values = [_number(number) for number in re.findall(r"-?[\d.]+", numbers)]
        if letter == "C":
            values = [value for nth in range(0, len(values), 6) for value in values[nth + 4 : nth + 6]]
        found += list(zip(values[::2], values[1::2], strict=True))
    return found


def _oval(lines: list[list[Point]], data: str, filled: bool) -> Mark:
    if len(lines) != 1 or len(lines[0]) != 5 or not data.endswith("Z"):
        raise UnreadableChart(f"a curve that is no chain: {data[:60]!r}")
    a, b, c, d, _ = lines[0]
    middle = ((a[0] + c[0]) / 2, (a[1] + c[1]) / 2)
    if filled:
        return Mark("dot", middle, middle)
    along, across = _between(a, c), _between(b, d)
    long = along if _length(along) > _length(across) else across
    return Mark("lying" if abs(long[0]) > 3 * abs(long[1]) else "standing", middle, middle)


def _dc(lines: list[list[Point]]) -> Mark:
    """The upright is the line with a bar across one of its ends; the third crosses it: the yarn-over."""
    for upright in lines:
        others = [line for line in lines if line is not upright]
        for head, foot in (upright, upright[::-1]):
            bars = [line for line in others if _length(_between(_middle(line), head)) < 0.05]
            strokes = [line for line in others if line not in bars and _crosses(line, head, foot)]
            if len(bars) == 1 and len(strokes) == 1:
                return Mark("dc", foot, head)
    raise UnreadableChart("three lines that are no dc")


def _crosses(line: list[Point], head: Point, foot: Point) -> bool:
    """Whether the two ends of ``line`` lie at two sides of the upright, between its ends."""
    ux, uy = _between(head, foot)
    sides = [(x - head[0]) * uy - (y - head[1]) * ux for x, y in line]
    x, y = _middle(line)
    share = ((x - head[0]) * ux + (y - head[1]) * uy) / (ux * ux + uy * uy)
    return sides[0] * sides[1] < 0 and 0.05 < share < 0.95


def _between(a: Point, b: Point) -> Point:
    return b[0] - a[0], b[1] - a[1]


def _middle(line: Sequence[Point]) -> Point:
    (x0, y0), (x1, y1) = line
    return (x0 + x1) / 2, (y0 + y1) / 2


def _length(vector: Point) -> float:
    return hypot(*vector)


# ------------------------------------------------------------------------------------------------- the picture


def read(svg: bytes) -> Drawn:
    """What the picture shows. Raises UnreadableChart."""
    try:
        return _Picture(ElementTree.fromstring(svg)).drawn()
    except ElementTree.ParseError as error:
        raise UnreadableChart(f"no well-formed file: {error}") from None
    except KeyError as error:
        raise UnreadableChart(f"an element without {error}") from None
    except (ArithmeticError, LookupError, ValueError) as error:
        raise UnreadableChart(f"numbers that draw nothing: {error}") from None


def _number(text: str) -> float:
    value = float(text)
    if not isfinite(value):
        raise UnreadableChart(f"{text[:20]} is no place")
    return value


class _Picture:
    """The file's elements by their ids, and definitions expanded once."""

    def __init__(self, root: ElementTree.Element) -> None:
        self.ids = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
        self.made: dict[str, tuple[Mark, ...]] = {}

    def drawn(self) -> Drawn:
        stitches = self._group("stitches")
        rows = [self._row(nth, group) for nth, group in enumerate(stitches.findall(f"{_SVG}g"), start=1)]
        foundation = self.marks(self._group("foundation"))
        if not rows or not foundation or any(mark.sign != "lying" for mark in foundation):
            raise UnreadableChart("no rows, or a foundation that is no chain")
        chains = tuple(mark.head for mark in foundation)
        return Drawn(self._key(), tuple(rows), chains, tuple(self._bands()), tuple(self._numbers()))

    def _group(self, name: str) -> ElementTree.Element:
        if name not in self.ids:
            raise UnreadableChart(f"there is no group {name!r}")
        return self.ids[name]

    def _row(self, nth: int, group: ElementTree.Element) -> tuple[float, tuple[Mark, ...]]:
        uses = group.findall(f"{_SVG}use")
        if group.attrib.get("id") != f"row-of-stitches-{nth}" or len(uses) != 1:
            raise UnreadableChart(f"row {nth} in the order worked is not where it should be")
        return _number(uses[0].attrib.get("y", "0")), self.marks(group)

    def marks(self, element: ElementTree.Element, depth: int = 0) -> tuple[Mark, ...]:
        """All symbols of ``element`` with definitions put in their places."""
        if depth > _DEEPEST:
            raise UnreadableChart("definitions that hold themselves")
        found: list[Mark] = []
        for child in element:
            kind = child.tag.removeprefix(_SVG)
            if kind == "path":
                found.append(sign_of(child.attrib["d"], child.attrib.get("fill", "none") != "none"))
            elif kind == "use":
                x, y = (_number(child.attrib.get(name, "0")) for name in ("x", "y"))
                found += [mark.moved(x, y) for mark in self._definition(child.attrib.get(_LINK, ""), depth)]
            elif kind == "g":
                found += self.marks(child, depth + 1)
            if len(found) > _MOST_MARKS:
                raise UnreadableChart("more symbols than a row has")
        return tuple(found)

    def _definition(self, link: str, depth: int) -> tuple[Mark, ...]:
        name = link.removeprefix("#")
        if name not in self.made:
            self.made[name] = self.marks(self._group(name), depth + 1)
        return self.made[name]

    def _key(self) -> int:
        """How many dc the key shows in a cluster: with their feet together."""
        found = set()
        for use in self._group("key").iter(f"{_SVG}use"):
            link = use.attrib.get(_LINK, "").removeprefix("#")
            if "." in link:  # a letter
                continue
            feet = [mark.foot for mark in self._definition(link, 0) if mark.sign == "dc"]
            if len(feet) > 1 and max(_length(_between(feet[0], foot)) for foot in feet) < 0.05:
                found.add(len(feet))
        if len(found) != 1:
            raise UnreadableChart("the key shows no cluster, or several")
        return found.pop()

    def _bands(self) -> Iterable[Band]:
        for path in self._group("stripes").findall(f"{_SVG}path"):
            colour = path.attrib.get("fill", "none")
            if colour != "none":
                xs, ys = zip(*_points(path.attrib["d"]), strict=True)
                yield Band(colour, (min(xs), min(ys), max(xs), max(ys)))

    def _numbers(self) -> Iterable[tuple[int, Point]]:
        """The row numbers, digit by digit as they are drawn: the outline of a character is called by its code."""
        for label in self._group("row-numbers").iter(f"{_SVG}g"):
            place = re.match(r"translate\((\S+) (\S+)\)", label.attrib.get("transform", ""))
            found = [use.attrib for use in label.findall(f"{_SVG}use")]
            uses = [(_number(use.get("x", "0")), use.get(_LINK, "")) for use in found]
            digits = "".join(chr(int(link.partition(".")[2] or "0", 16)) for _, link in sorted(uses))
            if place and digits.isdecimal():
                yield int(digits), (_number(place[1]), _number(place[2]))


# ------------------------------------------------------------------------------------------------ working it


def worked(drawn: Drawn) -> list[MadeRow]:
    """Every row worked from the picture. Raises UnreadableChart or Unworkable."""
    return _Chart(drawn).work()


@dataclass(slots=True)
class _Line:
    """A row in the picture: its ``level`` from the bottom, the y of its top, its symbols by kind, and the way it is
    worked (1: to the right). Lying ``ovals`` between the heads are gaps, those at the feet (``chain``) a chain
    stepped out on."""

    level: int
    top: float
    towards: int
    dcs: list[Mark]
    ovals: list[Mark]
    chain: list[Mark]
    dots: list[Mark]
    post: Mark  # the turning chain: where it stands and where it ends

    def along(self, x: float) -> float:
        """``x`` as it grows in the direction of work."""
        return x * self.towards


@dataclass(slots=True)
class _Tops:
    """A worked row in the picture: the x of every spot that is a stitch, None for spaces."""

    course: Course
    line: _Line
    xs: list[float | None]


class _Chart:
    def __init__(self, drawn: Drawn) -> None:
        self.drawn = drawn
        tops = sorted({top for top, _ in drawn.rows}, reverse=True)
        rises = [low - high for low, high in pairwise(tops)]
        if rises and max(rises) - min(rises) > 0.5:
            raise UnreadableChart("the rows are not equally high")
        self.levels = {top: nth for nth, top in enumerate(tops, start=1)}
        self.rise = rises[0] if rises else self._only_rise()
        self.craft = Craft(drawn.k, self._gap())
        self.done: list[_Tops] = []

    def _only_rise(self) -> float:
        """The height of a single row: from its top to the feet on the chain."""
        top, marks = self.drawn.rows[0]
        feet = [mark.foot[1] for mark in marks if mark.sign == "dc"]
        if not feet or max(feet) <= top:
            raise UnreadableChart("row 1: no dc below its top")
        return max(feet) - top

    def _gap(self) -> int:
        """The chains between two clusters: as many as lie side by side in the first row that has any."""
        for top, marks in self.drawn.rows:
            line = self._line(top, marks)
            order = sorted([*line.dcs, *line.ovals], key=lambda mark: mark.head[0])
            runs = [len(list(run)) for sign, run in groupby(order, key=lambda mark: mark.sign) if sign == "lying"]
            if runs:
                return runs[0]
        return 0

    def _line(self, top: float, marks: tuple[Mark, ...]) -> _Line:
        by: dict[Sign, list[Mark]] = {"dc": [], "lying": [], "standing": [], "dot": []}
        for mark in marks:
            by[mark.sign].append(mark)
        level = self.levels[top]
        if not by["dc"]:
            raise UnreadableChart(f"row {level}: no dc in it")
        refuse(len(by["standing"]) != TURNING_CHAIN,
               f"row {level}: its turning chain has {len(by['standing'])} chains standing; it takes {TURNING_CHAIN}")
        post = self._post(level, by["standing"])
        last = by["dc"]
        towards = 1 if post.head[0] < sum(mark.head[0] for mark in last) / len(last) else -1
        key = lambda mark: mark.head[0] * towards  # noqa: E731
        lying = sorted(by["lying"], key=key)
        middle = top + self.rise / 2
        high = [mark for mark in lying if mark.head[1] < middle]
        low = [mark for mark in lying if mark.head[1] >= middle]
        return _Line(level, top, towards, sorted(by["dc"], key=key), high, low, by["dot"], post)

    @staticmethod
    def _post(level: int, standing: list[Mark]) -> Mark:
        """The edge stitch that three chains make, each where the last one ends."""
        low, middle, high = sorted((mark.head for mark in standing), key=lambda point: -point[1])
        step, further = _between(low, middle), _between(middle, high)
        if _length(_between(step, further)) > 0.1 * _length(step):
            raise UnreadableChart(f"row {level}: its turning chain is no line of chains")
        foot = (low[0] - step[0] / 2, low[1] - step[1] / 2)
        head = (high[0] + step[0] / 2, high[1] + step[1] / 2)
        return Mark("standing", foot, head)

    # ------------------------------------------------------------------------------------------- row by row

    def work(self) -> list[MadeRow]:
        for top, marks in self.drawn.rows:
            level = self.levels[top]
            try:
                self.done.append(self._row(self._line(top, marks)))
            except Unworkable as error:
                words = str(error)
                raise Unworkable(words if words.startswith("row ") else f"row {level}: {words}") from None
        self._check_places()
        self._check_numbers()
        return [MadeRow(one.course, self._colour(one)) for one in self.done]

    def _row(self, line: _Line) -> _Tops:
        below, joined = self._below(line)
        refuse(below is not None and below.line.towards == line.towards, "the work is not turned")
        row = _Row(self, line, below, joined)
        return _Tops(row.worked(), line, row.xs)

    def _below(self, line: _Line) -> tuple[_Tops | None, bool]:
        """The row worked into, and whether the yarn is joined anew: then it is not the last one."""
        if line.level == 1:
            refuse(self.done, "a second row 1")
            return None, False
        refuse(not self.done, "the first row is not the lowest")
        if self.done[-1].line.level == line.level - 1:
            return self.done[-1], False
        under = [one for one in self.done if one.line.level == line.level - 1]
        refuse(len(under) != 1, "it is worked into no row, or two")
        return under[0], True

    # -------------------------------------------------------------------------------------- what it comes to

    def _check_places(self) -> None:
        """Whether edges and clusters lie where the stitches have come to, all half clusters equally wide."""
        first = self.done[0]
        left, right = self._edges(first)
        half = (right - left) / (first.course.right.at - first.course.left.at)
        for one in self.done:
            places = [self._edges(one)[0], self._edges(one)[1], *self._centres(one)]
            wanted = [one.course.left.at, one.course.right.at, *one.course.centres]
            beside = [abs(x - left - (at - first.course.left.at) * half) > 0.2 * half
                      for x, at in zip(places, wanted, strict=True)]
            if any(beside) or not self._extras_between(one):
                raise UnreadableChart(f"row {one.line.level}: a symbol lies beside its place")

    @staticmethod
    def _extras_between(one: _Tops) -> bool:
        """Whether each extra dc lies half way between the edge stitch and the first of the cluster."""
        tops = [(spot.what, x) for spot, x in zip(one.course.spots, one.xs, strict=True) if x is not None]
        around = zip(tops, tops[1:], tops[2:], strict=False)
        extras = [(a, x, b) for (_, a), (what, x), (_, b) in around if what == "extra"]
        return all(abs(x - (a + b) / 2) < 0.2 * abs(b - a) for a, x, b in extras)

    @staticmethod
    def _edges(one: _Tops) -> tuple[float, float]:
        ends = [x for x in (one.xs[0], one.xs[-1]) if x is not None]
        return min(ends), max(ends)

    @staticmethod
    def _centres(one: _Tops) -> list[float]:
        clusters: dict[int, list[float]] = {}
        for spot, x in zip(one.course.spots, one.xs, strict=True):
            if spot.what == "dc" and x is not None:
                clusters.setdefault(spot.cluster, []).append(x)
        return [sum(xs) / len(xs) for xs in clusters.values()]

    def _check_numbers(self) -> None:
        """Whether the row numbers stand at their rows, where these begin."""
        for number, (x, y) in self.drawn.numbers:
            rows = [one for one in self.done if one.line.top < y < one.line.top + self.rise + 0.5]
            fits = [one for one in rows if (x - self._middle(one)) * one.line.towards < 0]
            if not fits or rows[0].line.level != number:
                raise UnreadableChart(f"row {number}: its number stands where it does not begin")

    def _middle(self, one: _Tops) -> float:
        return sum(self._edges(one)) / 2

    def _colour(self, one: _Tops) -> str:
        x, y = self._middle(one), one.line.top + self.rise / 2
        found = [band.colour for band in self.drawn.bands
                 if band.box[0] < x < band.box[2] and band.box[1] < y < band.box[3]]
        if len(found) != 1:
            raise UnreadableChart(f"row {one.line.level}: it lies on {len(found)} stripes")
        return found[0]


class _Row:
    """Works one row of the picture."""

    def __init__(self, chart: _Chart, line: _Line, below: _Tops | None, joined: bool) -> None:
        self.chart, self.line, self.below, self.craft = chart, line, below, chart.craft
        self.xs: list[float | None] = []
        self.walk_xs = below.xs[::-1] if below else []
        self.walk_tops = [nth for nth, x in enumerate(self.walk_xs) if x is not None]  # the stitches among the spots
        self.on_chain = below is None
        self.chains = [] if below else sorted(line.along(x) for x, _ in chart.drawn.foundation)
        self.apart = min((b - a for a, b in pairwise(self.chains)), default=0.0)
        self.turning = TURNING_CHAIN
        self.gaps: list[int] = []  # the ovals before each dc but the first, and before the first
        own = self._sort_ovals(joined)
        chains = len(chart.drawn.foundation) if below is None else own
        self.gap_at_start = self.gaps[0]
        self.turning += self.gap_at_start
        total = chains + self.turning if self.on_chain else 0
        self.work = Work(self.craft, below.course if below else None, total, joined)
        self.number = 0

    # The chains of the row.

    def _sort_ovals(self, joined: bool) -> int:
        """Counts the chains between each dc and the next; gives how many make a chain stepped out on."""
        line = self.line
        if self.below is not None and not joined:
            self.on_chain = self._at_boundary(line.post.foot) and self._outside(line.post.foot[0])
        tops = [line.post.head[0], *(mark.head[0] for mark in line.dcs)]
        ovals = [mark.head[0] for mark in line.ovals]
        for one, other in pairwise(tops):
            first = bisect_right(ovals, line.along(one), key=line.along)
            self.gaps.append(bisect_left(ovals, line.along(other), key=line.along) - first)
        over = len(ovals) - sum(self.gaps)
        over += 0 if self.on_chain and self.below is not None else len(line.chain)
        if over:
            raise UnreadableChart(f"row {line.level}: {over} chains that lie between no stitches")
        self._check_led([mark.head[0] for mark in line.chain], "chains")
        return len(line.chain)

    def _check_led(self, xs: list[float], what: str) -> None:
        """Whether what leads from the old edge to the new one lies side by side all the way."""
        if not xs or self.below is None:
            return
        old = self.walk_xs[0]
        assert old is not None, "a row begins with its edge stitch"
        places = sorted(self.line.along(x) for x in (old, *xs))
        new = self.line.along(self.line.post.foot[0])
        apart = [b - a for a, b in pairwise(places)]
        mean = abs(new - self.line.along(old)) / len(xs)
        ends = max(abs(places[0] - min(self.line.along(old), new)), abs(places[-1] - max(self.line.along(old), new)))
        if min(apart) < 0.4 * mean or max(apart) > 1.6 * mean or ends > 0.4 * mean:
            raise UnreadableChart(f"row {self.line.level}: {what} that do not lead to the turning chain")

    def _along_of(self, nth: int) -> float:
        """Where the head of a stitch of the row below lies, growing in the direction of work."""
        x = self.walk_xs[nth]
        assert x is not None, "a space has no head"
        return self.line.along(x)

    def _at_boundary(self, foot: Point) -> bool:
        return abs(foot[1] - self.line.top - self.chart.rise) < 0.03 * self.chart.rise

    def _outside(self, x: float) -> bool:
        ends = [end for end in (self.walk_xs[0], self.walk_xs[-1]) if end is not None]
        return not min(ends) - 1 <= x <= max(ends) + 1

    # Where a foot stands.

    def _place(self, foot: Point) -> Place:
        """What the picture shows under a foot."""
        if self.below is None:
            return self._on_foundation(foot)
        deep = foot[1] - self.line.top - self.chart.rise
        if abs(deep) < 0.03 * self.chart.rise:
            refuse(not (self.on_chain and self._outside(foot[0])), "a foot on a chain that is not there")
            self.number += 1
            return OnChain(self.number)
        refuse(abs(deep) > 0.15 * self.chart.rise, "a foot that does not reach the row below, or runs past it")
        return Below(self._space_at(foot[0]) if deep < 0 else self._stitch_at(foot[0]))

    def _on_foundation(self, foot: Point) -> OnChain:
        line, chains = self.line, self.chains
        found = bisect_left(chains, line.along(foot[0]))
        near = min(range(max(0, found - 1), min(len(chains), found + 1)),
                   key=lambda nth: abs(chains[nth] - line.along(foot[0])))
        apart = self.apart
        refuse(abs(chains[near] - line.along(foot[0])) > 0.4 * apart, "a foot between two chains of the foundation")
        refuse(not self._at_boundary(foot), "a foot that does not stand on the foundation")
        return OnChain(self.turning + 1 + near)

    def _space_at(self, x: float) -> int:
        """The space between the two stitches that ``x`` lies between."""
        assert self.below is not None, "row 1 stands on its chain"
        spots = self.work.walk
        before = bisect_left(self.walk_tops, self.line.along(x), key=self._along_of)
        refuse(not 0 < before < len(self.walk_tops), "a foot beyond the row below")
        after = self.walk_tops[before - 1] + 1
        refuse(spots[after].what != "space", "it asks for a space that is not there")
        return after

    def _stitch_at(self, x: float) -> int:
        """The stitch whose head ``x`` lies at."""
        assert self.below is not None, "row 1 stands on its chain"
        found = bisect_left(self.walk_tops, self.line.along(x), key=self._along_of)
        around = self.walk_tops[max(0, found - 2) : found + 2]
        near = sorted((abs(self._along_of(nth) - self.line.along(x)), nth) for nth in around)[:2]
        (one, nearest), (other, _) = near
        refuse(one >= 0.25 * (one + other), "a foot between two stitches of the row below")
        return nearest

    # The stitches in turn.

    def worked(self) -> Course:
        """The row, worked from its symbols."""
        line = self.line
        start = self._start()
        self._put([line.post.head[0]], lambda: self.work.edge(start, self.turning))
        if isinstance(start, OnChain):
            self.number = start.number
        places = self._places()
        first = 0
        for last in self._cuts(start, places):
            self._group(places[first:last], first, last == len(places))
            first = last
        course = finished(self.work, line.level)
        refuse(len(course.spots) != len(self.xs), "stitches and spaces that do not belong together")
        return course

    def _put(self, xs: Sequence[float], put: Callable[[], None]) -> None:
        """Works something, and keeps the x of the stitches it makes."""
        before = len(self.work.spots)
        put()
        left = list(xs)
        for spot in self.work.spots[before:]:
            self.xs.append(None if spot.what == "space" else left.pop(0))

    def _start(self) -> Place:
        """What the turning chain stands on, once slip stitches have led there."""
        post = self.line.post
        if self.on_chain:
            refuse(self.below is not None and self.line.dots, "slip stitches and a new chain in one row")
            if self.below is None:
                self._on_foundation(post.foot)
            return OnChain(self.turning + 1)
        place = self._place(post.foot)
        assert isinstance(place, Below), "only row 1 and steps out stand on chains"
        if self.line.dots:
            self._check_led([dot.head[0] for dot in self.line.dots], "slip stitches")
            self._slip(place.index, len(self.line.dots))
        return place

    def _slip(self, target: int, dots: int) -> None:
        """As many slip stitches as the picture has dots, into stitch after stitch up to ``target``."""
        work, made = self.work, 0
        for nth in range(1, target + 1):
            spot = work.walk[nth]
            into_slit = spot.what == "space" and not spot.chains
            if into_slit and nth != target:
                continue
            if spot.what == "extra" and nth + 1 == target and work.walk[target].chains == 0 and dots == 1:
                continue
            chains = 1 if nth == target else max(1, spot.chains)
            work.slip(nth)
            for _ in range(chains - 1):
                work.slip_chain(nth)
            made += chains
        refuse(made != dots, f"{dots} slip stitches, where {made} lead to the turning chain")

    def _places(self) -> list[Place]:
        """What each dc stands on; on a chain stepped out on, each takes the next, the gaps left out."""
        found: list[Place] = []
        last: Point | None = None
        for mark, gap in zip(self.line.dcs, self.gaps, strict=True):
            if self.on_chain and self.below is not None and self._at_boundary(mark.foot):
                self.number += gap
                refuse(abs(mark.foot[0] - mark.head[0]) > 0.2 * self.chart.rise, "a foot on a chain beside its head")
            same = last is not None and _length(_between(last, mark.foot)) < 0.05
            found.append(found[-1] if same else self._place(mark.foot))
            last = mark.foot
        return found

    def _cuts(self, start: Place, places: list[Place]) -> list[int]:
        """Where one thing ends and the next begins: clusters, extra dc, the edge stitch."""
        cuts: set[int] = {len(places), len(places) - 1}
        for nth, (one, other) in enumerate(pairwise(places), start=1):
            alone = isinstance(one, Below) and one != other
            if self.gaps[nth] or alone or isinstance(one, OnChain) != isinstance(other, OnChain):
                cuts.add(nth)
        chained = sum(isinstance(place, OnChain) for place in places)
        if not self.craft.gap:
            cuts |= self._closed_cuts(start, places, chained)
        return sorted(cuts)

    def _closed_cuts(self, start: Place, places: list[Place], chained: int) -> set[int]:
        """In the closed fabric the dc on a chain stand side by side: every k make a cluster, an extra dc at an edge
        stands as far from the edge stitch as from its neighbour."""
        k, cuts = self.craft.cluster, set()
        begin = 0
        if places and places[0] == start and self._run(places, 0) != k:
            return {1}
        if isinstance(start, OnChain) and self._extra_there(0):
            begin = 1
        if chained:
            cuts |= set(range(begin, chained + (self.below is not None), k)) - {0}
            if self.below is None and self._extra_there(-1):
                cuts.add(len(places) - 2)
        return cuts

    def _run(self, places: list[Place], first: int) -> int:
        return next((nth for nth, place in enumerate(places) if place != places[first]), len(places))

    def _extra_there(self, end: int) -> bool:
        """Whether the first dc (the last: -1) is an extra one; beside a lone cluster on the foundation none can be."""
        if self.below is None and len(self.line.dcs) == self.craft.cluster + 1:
            return False
        xs = [self.line.post.head[0], *(mark.head[0] for mark in self.line.dcs)]
        xs = xs if end == 0 else xs[::-1]
        return abs(xs[1] - xs[0]) > 0.75 * abs(xs[2] - xs[1])

    def _group(self, places: list[Place], first: int, last: bool) -> None:
        """Works the dc that belong together, after the gap before them."""
        heads = [mark.head[0] for mark in self.line.dcs[first : first + len(places)]]
        if first and self.gaps[first]:
            self._put([], lambda: self.work.gap(self.gaps[first]))
        if last:
            self._put(heads, lambda: self.work.end(places[0]))
        elif len(places) == 1 and not self.craft.gap:
            self._put(heads, lambda: self.work.extra(places[0]))
        else:
            self._check_evenly(heads)
            self._put(heads, lambda: self.work.cluster(places))

    def _check_evenly(self, heads: list[float]) -> None:
        """Whether the dc of a cluster have their heads side by side, one as far from the next as all others."""
        apart = [abs(b - a) for a, b in pairwise(heads)]
        if apart and max(apart) - min(apart) > 0.2 * max(apart):
            raise UnreadableChart(f"row {self.line.level}: a cluster whose dc do not stand side by side")
