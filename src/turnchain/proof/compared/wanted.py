"""How far the worked edges lie from the shape that the pattern file asks for.

In: a worked piece, its shape as asked for, and the line of the report about its largest deviation (None: there is
none). Out: reasons, in words. A shape is stretched so that it is as high as the rows are. Of an outline the line that
both edges are measured from may lie on any half cluster or halfway between two: the deviation printed must be that from
one of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import pairwise
from math import cos, hypot, pi, sin

from turnchain.proof.cloth.edges import Side, WorkedCloth
from turnchain.proof.compared import upper_line
from turnchain.proof.compared.upper_line import AskedUpper
from turnchain.proof.printed.lengths import LENGTH, Length, length, shown

#: Heights and how far an edge reaches there, in cm; two of one height are a step.
Line = tuple[tuple[Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class AskedNeck:
    """A neck cut into the upper edge of a piece worked sideways, in cm."""

    shoulder: Fraction
    depth: Fraction
    shape: str


@dataclass(frozen=True, slots=True)
class AskedShape:
    """The outer edges asked for, ``high`` cm along the work: an outline's ``left`` and ``right`` from one line, or a
    ``neck`` at the upper edge. Both edges of all else are straight. ``opens``: it is half a front; ``armholes``: the
    sides and heights of their steps; ``rows``: how many the file asks for, None where it leaves that open;
    ``arm``: how high the shoulders begin at the arm (None: they are level); ``upper``: the other parts of an upper
    edge."""

    high: Fraction
    left: Line = ()
    right: Line = ()
    neck: AskedNeck | None = None
    opens: bool = False
    armholes: frozenset[tuple[Side, Fraction]] = frozenset()
    rows: int | None = None
    arm: Fraction | None = None
    upper: AskedUpper | None = None

    @property
    def straight(self) -> bool:
        """Whether no outer edge is shaped."""
        shaped = self.neck is not None or (self.upper is not None and self.upper.shaped)
        return not shaped and not (_leans(self.left) or _leans(self.right))


def _leans(line: Line) -> bool:
    return len({reach for _, reach in line}) > 1


_SAID = re.compile(rf"largest deviation ({LENGTH}) \((left|right) edge, row (\d+)\)$")
#: An ellipse that is drawn with 24 straight pieces to a quarter lies so far off, by its size.
_PIECES = 6e-4
#: So many half clusters beyond the edges of half a front the line may lie: it need not reach its middle.
_BEYOND = 2
_SIDES: tuple[Side, Side] = ("left", "right")


def deviation(cloth: WorkedCloth, asked: AskedShape, said: str | None) -> Iterator[str]:
    """What is wrong with what is ``said`` of the largest deviation."""
    found = None if said is None else _SAID.search(said)
    if found is None or asked.straight:
        if (found is None) != asked.straight:
            yield f"{cloth.name}: {'no' if found is None else 'a'} largest deviation is printed"
        return
    printed, side, row = length(found[1]), found[2], int(found[3])
    near = _near(asked)
    at_the_top = asked.neck or asked.upper
    choices = [_from_neck(cloth, asked)] if at_the_top else list(_from_lines(cloth, asked))
    if not any(_is(one, printed.says(max(one.values()), near), (side, row), near) for one in choices):
        most = min(max(one.values()) for one in choices)
        yield f'{cloth.name}: "{found[0]}" is printed, {shown(most, printed.unit)} measured'


def _near(asked: AskedShape) -> float:
    """How far, in cm, the curve of a round neck may be off in the plan, which draws it with straight pieces."""
    neck = asked.neck
    if neck is None or neck.shape != "round":
        return 0.0
    return _PIECES * float(max(neck.depth, asked.high / 2 - neck.shoulder))


def told(said: Sequence[str]) -> dict[str, tuple[str, int, Length]]:
    """By the names of pieces: side, row and length of the largest deviation as printed."""
    return {
        line[: found.start() - 2]: (found[2], int(found[3]), length(found[1]))
        for line in said if (found := _SAID.search(line))
    }  # fmt: skip


Distances = dict[tuple[str, int], float]


def _is(off: Distances, said: bool, place: tuple[str, int], near: float) -> bool:
    most = max(off.values())
    return said and (most <= near + 0.005 or off.get(place, -1.0) >= most - 2 * near - 1e-6)


def _heads(cloth: WorkedCloth, side: Side) -> dict[int, int]:
    return {part.row: part.head for part in cloth.side(side) if not part.level}


# ------------------------------------------------------------------------------------------------- an outline


def _from_lines(cloth: WorkedCloth, asked: AskedShape) -> Iterator[Distances]:
    """In cm, by side and row: from every line that the edges may be measured from."""
    left, right, half = _heads(cloth, "left"), _heads(cloth, "right"), cloth.tape.half
    lines = _measured(asked, cloth)
    wish: dict[tuple[str, int], Fraction] = {
        (side, row): _asked_reach(asked, side, line, cloth, row) / half
        for side, line in zip(_SIDES, lines, strict=True)
        for row in range(1, cloth.high + 1)
    }
    beyond = 2 * _BEYOND * asked.opens
    for twice in range(2 * min(left.values()) - beyond, 2 * max(right.values()) + beyond + 1):
        middle = Fraction(twice, 2)
        out = {("left", row): middle - at for row, at in left.items()}
        out |= {("right", row): at - middle for row, at in right.items()}
        yield {place: float(abs(at - wish[place]) * half) for place, at in out.items()}


def _measured(asked: AskedShape, cloth: WorkedCloth) -> tuple[Line, Line]:
    """Both lines; where one edge is straight, the other is measured from it, half a cluster out where rows are alike
    (an odd number of half clusters wide): makers count those by their clusters. Half a front is as wide as it is: what
    it overlaps is asked for."""
    leans = _leans(asked.left), _leans(asked.right)
    if all(leans):
        return asked.left, asked.right
    shaped, straight = (asked.left, asked.right) if leans[0] else (asked.right, asked.left)
    alike = not (cloth.stacked or asked.opens) and (cloth.rows[0].right.at - cloth.rows[0].left.at) % 2
    over = straight[0][1] + cloth.tape.half * alike
    level: Line = ((Fraction(0), Fraction(0)), (asked.high, Fraction(0)))
    moved: Line = tuple((height, reach + over) for height, reach in shaped)
    return (moved, level) if leans[0] else (level, moved)


def _asked_reach(asked: AskedShape, side: Side, line: Line, cloth: WorkedCloth, row: int) -> Fraction:
    """How far the line of a side is to reach at the top of a row. An armhole is of whole rows: those nearest to its
    depth, of as many as come nearest to the whole height; its step then lies in the middle of a row."""
    low = cloth.sc_below
    height = low + (asked.high - low) * (cloth.tops[row] - low) / (cloth.tops[-1] - low)
    for (low, below), (high, above) in pairwise(line):
        if low == high and (side, low) in asked.armholes:
            rows = asked.rows or round(asked.high / cloth.tape.row)
            arm = asked.high if asked.arm is None else asked.arm
            deep, sloping = round((arm - low) / cloth.tape.row), cloth.sloping
            middle = (rows - sloping - deep + Fraction(1, 2)) * asked.high / rows
            if min(low, middle) < height <= max(low, middle):
                return below if middle > low else above
    return _reach(line, height)


def _reach(line: Line, height: Fraction) -> Fraction:
    """How far a line reaches at a height; at a step, below it."""
    for (low, one), (high, other) in pairwise(line):
        if height <= high:
            return other if low == high or height == high else one + (other - one) * (height - low) / (high - low)
    return line[-1][1]


# ------------------------------------------------------------------------------------------------------ a neck


def _from_neck(cloth: WorkedCloth, asked: AskedShape) -> Distances:
    """In cm, by side and row: by the shortest way to the neck's curve, or along the row."""
    assert cloth.upper is not None, "the piece is worked sideways"
    heads, half, row_high = _heads(cloth, cloth.upper), float(cloth.tape.half), float(cloth.tape.row)
    slope, high = cloth.lean * half / row_high, cloth.high * row_high
    neck = None if asked.neck is None else partial(_curve, asked.neck)
    if asked.upper is not None:
        curve = upper_line.line(asked.upper, asked.high, neck, cloth, slope)
    else:
        assert neck is not None, "a neck is asked for"
        curve = neck(asked.high, slope, high)
    found: Distances = {("left", 1): 0.0}
    for row, at in heads.items():
        here = _deep(asked, at - heads[1], cloth) * half, row * row_high
        along = min((abs(here[0] - deep) for deep in _level(curve, here[1])), default=float("inf"))
        found[cloth.upper, row] = min(along, min(_away(here, one, other) for one, other in pairwise(curve)))
    return found


def _deep(asked: AskedShape, off: int, cloth: WorkedCloth) -> int:
    """How many half clusters a row lies deeper than row 1; of a line with more parts than a neck below 0 if higher."""
    if asked.upper is None:
        return abs(off)
    return -off if cloth.upper == "right" else off


_Point = tuple[float, float]  # cm deep, and cm along the work


def _curve(neck: AskedNeck, wide: Fraction, slope: float, high: float) -> list[_Point]:
    """The neck from one side of the body to the other, ``wide`` cm, stretched to be ``high`` cm along the rows; a slant
    goes ``slope`` cm in for a cm along."""
    half, depth = float(wide / 2 - neck.shoulder), float(neck.depth)
    if neck.shape == "round":
        turns = [pi / 2 * nth / 200 for nth in range(201)]
        side = [(depth * sin(turn), half * cos(turn)) for turn in turns]
    else:
        reach = min(depth, half * slope) if neck.shape == "slant" else depth
        ends = {"vee": [(reach, 0.0)], "square": [(reach, half)], "slant": [(reach, half - reach / slope)]}
        side = [(0.0, half), *ends[neck.shape]]
    middle, stretch = float(wide) / 2, high / float(wide)
    ups = [(deep, middle - out) for deep, out in side]
    downs = [(deep, middle + out) for deep, out in reversed(side)]
    return [(deep, at * stretch) for deep, at in ((0.0, 0.0), *ups, *downs, (0.0, float(wide)))]


def _level(curve: Sequence[_Point], at: float) -> Iterator[float]:
    """How deep the curve is ``at`` a place along the rows."""
    for (one, low), (other, high) in pairwise(curve):
        if low < at <= high:
            yield one + (other - one) * (at - low) / (high - low)


def _away(here: _Point, one: _Point, other: _Point) -> float:
    """From a point to a straight piece."""
    across, along = other[0] - one[0], other[1] - one[1]
    long = across**2 + along**2
    share = ((here[0] - one[0]) * across + (here[1] - one[1]) * along) / long if long else 0.0
    share = min(1.0, max(0.0, share))
    return hypot(here[0] - one[0] - share * across, here[1] - one[1] - share * along)
