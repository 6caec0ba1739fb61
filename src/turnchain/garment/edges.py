"""The edges of a planned piece: where its outline runs, what the hook meets there, and how long each edge is.

In: a ``PiecePlan``. Out: the outline as ``Run`` s in order round the piece, and every named edge. Points are cm in the
frame of the work: x to the right, right side facing, y up the rows, position 0 at x = 0. ``worn`` turns them as the
piece is worn. Lengths are in cm, and exact but where an edge slants: there to a millionth of a cm. A step runs along
the top of the row below and then up; elsewhere a row's post leans from the edge below.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from math import hypot
from typing import Literal, TypeAlias

from turnchain.fabric import stitches
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Edge, PiecePlan, Row, between
from turnchain.records import frozen

__all__ = ["SIDES", "EdgeLine", "Point", "Run", "around", "of", "outline", "worn"]

Point: TypeAlias = tuple[Fraction, Fraction]
Meets: TypeAlias = Literal["row ends", "foundation", "row tops"]


@frozen(slots=False)
class Run:
    """One unbroken stretch of the outline, walked with the piece at the left hand.

    ``meets``: what the hook finds there. ``rows`` are the numbers of the first and the last row whose ends lie in it
    (None along a chain or the top of a row). ``clusters`` and ``stitches`` lie across it: of the row it is the top of,
    of row 1 above a foundation; at row ends those that steps leave or pass. ``sloping``: a shoulder that rises to the
    neck by steps, which is as long as it is wide.
    """

    name: str
    meets: Meets
    points: tuple[Point, ...]
    rows: tuple[int, int] | None = None
    clusters: int = 0
    stitches: int = 0
    sloping: bool = False

    @property
    def row_count(self) -> int:
        """How many row ends lie in it; 0 along a chain or the top of a row."""
        return 0 if self.rows is None else abs(self.rows[1] - self.rows[0]) + 1

    @cached_property
    def length(self) -> Fraction:
        """Its length in cm along every step; of a sloping shoulder its width."""
        return abs(self.points[-1][0] - self.points[0][0]) if self.sloping else length_of(self.points)


@frozen
class EdgeLine:
    """A named edge of a piece: one run, or several (two shoulders; a neck that divides the piece)."""

    name: str
    runs: tuple[Run, ...]

    @property
    def rows(self) -> int:
        """How many row ends lie in it; 0 along a chain or the top of a row."""
        return sum(run.row_count for run in self.runs)

    @property
    def clusters(self) -> int:
        """How many clusters lie across it."""
        return sum(run.clusters for run in self.runs)

    @property
    def stitches(self) -> int:
        """How many stitches and chains lie across it, counted as in ``Run``."""
        return sum(run.stitches for run in self.runs)

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return sum((run.length for run in self.runs), Fraction(0))

    @property
    def points(self) -> tuple[Point, ...]:
        """The points of all runs, one after the other, in cm in the frame of the work."""
        return tuple(point for run in self.runs for point in run.points)


@lru_cache(maxsize=64)  # called many times for the same piece
def around(piece: PiecePlan) -> tuple[Run, ...]:
    """The whole outline of one such piece, from the left end of the foundation, piece at the left hand: foundation,
    right edge, top, left edge."""
    body, *parts = (piece.section(name) for name in piece.sections)
    parts.sort(key=lambda rows: rows[0].left.at)
    right, left = ((*body, *parts[-1]), (*body, *parts[0])) if parts else (body, body)
    top = _divided_top(piece, parts) if parts else [_top(piece, body[-1], "last")]
    if piece.slope:
        top[0] = _sloping(piece, top[0], right, "right")
        top[-1] = _sloping(piece, top[-1], left, "left")  # of half a front the same run
    return (
        _foundation(piece),
        *_side(piece, right, "right"),
        *top,
        *_side(piece, left, "left"),
    )


@lru_cache(maxsize=64)
def of(piece: PiecePlan) -> Mapping[str, EdgeLine]:
    """Every named edge, by its name.

    A panel worked sideways has first, last, lower and upper, the others first, last, left and right. Where a neck
    shows, there are also neck and shoulder: both together are upper of a panel worked sideways, with the armholes that
    it has as parts, while last of a piece that its neck divides is its two shoulders alone; of half a front that opens
    last, or worked sideways upper, is its one shoulder. The runs of
    an edge come in their order round the piece.
    """
    runs = around(piece)
    found: dict[str, list[Run]] = {}
    for run in runs:
        found.setdefault(run.name, []).append(run)
    if piece.top is not None and "upper" not in found:
        found["upper"] = [run for run in runs if run.name in ("armhole", "shoulder", "neck")]
    if piece.opens and "shoulder" not in found:
        found["shoulder"] = found["last" if piece.top is None else "upper"]
    if "last" not in found:
        found["last"] = [run for run in runs if run.name == "shoulder"]
    return {name: EdgeLine(name, tuple(parts)) for name, parts in found.items()}


def worn(piece: PiecePlan) -> Callable[[Point], Point]:
    """Turns a point as the piece is worn: the upper edge of a panel worked sideways up; other pieces stay."""
    if piece.top == "right":
        return lambda point: (-point[1], point[0])
    if piece.top == "left":
        return lambda point: (point[1], -point[0])
    return lambda point: point


def ways(piece: PiecePlan) -> tuple[int, int, int, int]:
    """What ``worn`` does, as numbers: how far right and up, as worn, a cm along a row goes, and how far one up the
    rows: for many places it is quicker than to turn each."""
    turn = worn(piece)
    (along, along_up), (up, up_up) = turn((Fraction(1), Fraction(0))), turn((Fraction(0), Fraction(1)))
    return int(along), int(along_up), int(up), int(up_up)


def outline(piece: PiecePlan) -> tuple[Point, ...]:
    """The corners of the whole outline as worn, in cm, in order round the piece; no point twice in a row, and the first
    not repeated at the end."""
    turn = worn(piece)
    points = [turn(point) for run in around(piece) for point in run.points]
    return tuple(_without_doubles(points))


def side_names(piece: PiecePlan) -> tuple[str, str]:
    """The names (keys of ``of``) of the edges at the left and the right as worn, seen from the right side."""
    if piece.top is None:
        return "left", "right"
    return ("last", "first") if piece.top == "right" else ("first", "last")


def length_of(points: Iterable[Point]) -> Fraction:
    """The length in cm of the line through ``points``: exact where it runs straight up or across, else each part to a
    millionth of a cm; 0 for fewer than two points."""
    exact, slanted = Fraction(0), 0
    for (x, y), (other_x, other_y) in pairwise(points):
        if x == other_x or y == other_y:
            exact += abs(x - other_x) + abs(y - other_y)
        else:
            slanted += round(hypot(_apart(x, other_x), _apart(y, other_y)) * 10**6)
    return exact + Fraction(slanted, 10**6)


def _apart(one: Fraction, other: Fraction) -> float:
    """The same as ``float(one - other)``, without the fraction between."""
    return (one.numerator * other.denominator - other.numerator * one.denominator) / (
        one.denominator * other.denominator
    )


def _without_doubles(points: list[Point]) -> list[Point]:
    kept = [point for index, point in enumerate(points) if index == 0 or point != points[index - 1]]
    return kept[:-1] if kept[0] == kept[-1] else kept


def _at(piece: PiecePlan, position: int, row: int) -> Point:
    """The point at ``position`` on the top of ``row`` (-1: of what the piece begins on)."""
    return position * piece.gauge.half, piece.up(row)


def _across(piece: PiecePlan, row: Row) -> int:
    """The stitches and chains that a row is wide, posts included."""
    spaced = (row.left.kind == "spaced") + (row.right.kind == "spaced")
    return stitches.base(piece.recipe, len(row.centres), spaced)


def stitches_in(piece: PiecePlan, half_pitches: int) -> int:
    """How many stitches and chains lie in a number of half pitches, to the nearest one: a pitch is a cluster and its
    gap."""
    return round(Fraction(half_pitches * piece.recipe.pitch, 2))


def _foundation(piece: PiecePlan) -> Run:
    first = piece.rows[0]
    points = (_at(piece, first.left.at, -1), _at(piece, first.right.at, -1))
    return Run("first", "foundation", points, None, len(first.centres), _across(piece, first))


def _top(piece: PiecePlan, row: Row, name: str) -> Run:
    points = (_at(piece, row.right.at, row.number), _at(piece, row.left.at, row.number))
    return Run(name, "row tops", points, None, len(row.centres), _across(piece, row))


def _divided_top(piece: PiecePlan, parts: list[tuple[Row, ...]]) -> list[Run]:
    """Shoulder, neck and shoulder of a piece that its neck divides, from the right."""
    on_left, on_right = parts
    low_left, low_right = on_left[0], on_right[0]
    height = low_left.number - 1
    points = (_at(piece, low_right.left.at, height), _at(piece, low_left.right.at, height))
    free = low_right.left.at - low_left.right.at
    on_cluster = piece.on_unit(low_left, "right") + piece.on_unit(low_right, "left")
    bottom = Run("neck", "row tops", points, None, (free - on_cluster) // 2, stitches_in(piece, free))
    return [
        _top(piece, on_right[-1], "shoulder"),
        *_named(piece, _leaning(piece, on_right, "left", inner=True), "neck", down=True),
        bottom,
        *_named(piece, _leaning(piece, on_left, "right", inner=True), "neck", down=False),
        _top(piece, on_left[-1], "shoulder"),
    ]


def _level_rows(piece: PiecePlan, side: Side) -> int:
    """The last row below a sloping shoulder at a side; all of them without one."""
    return piece.row_count - (piece.slope if piece.opens != side else 0)


def _sloping(piece: PiecePlan, run: Run, rows: tuple[Row, ...], side: Side) -> Run:
    """The ``run`` along the top of a shoulder together with the slope that rises to it from the arm at a ``side``."""
    slope = [part for part in _leaning(piece, rows, side) if part.number > _level_rows(piece, side)]
    if not slope:
        return run
    up = [slope[0].low, *(part.high for part in slope)]
    points = (*up, *run.points[1:]) if side == "right" else (*run.points[:-1], *up[::-1])
    wide = round(abs(points[-1][0] - points[0][0]) / piece.gauge.half)
    across = stitches_in(piece, wide)
    return Run(run.name, run.meets, points, None, wide // 2, across, sloping=True)


@frozen
class _Part:
    """One straight part of an edge at a side, upwards: the end of row ``number``, or the step below that end."""

    number: int
    step: int
    low: Point
    high: Point


def _leaning(piece: PiecePlan, rows: tuple[Row, ...], side: Side, inner: bool = False) -> list[_Part]:
    """The parts of an edge, upwards. The ``inner`` edge of a section begins where its first row does."""
    parts: list[_Part] = []
    for index, row in enumerate(rows):
        edge, under = row.edge(side), piece.below(row)
        below = edge.at if under is None or (inner and index == 0) else under.edge(side).at
        if edge.step and below != edge.at:
            low, high = _at(piece, below, row.number - 1), _at(piece, edge.at, row.number - 1)
            parts.append(_Part(row.number, abs(edge.at - below), low, high))
            below = edge.at
        low, high = _at(piece, below, _under(row)), _at(piece, edge.at, row.number)
        parts.append(_Part(row.number, 0, low, high))
    return parts


def _side(piece: PiecePlan, rows: tuple[Row, ...], side: Side) -> list[Run]:
    """The runs of an outer edge: upwards at the right, downwards at the left."""
    parts = [part for part in _leaning(piece, rows, side) if part.number <= _level_rows(piece, side)]
    down = side == "left"
    if piece.top is None:
        return _named(piece, parts, side, down)
    if side != piece.top:
        return _named(piece, parts, "lower", down)
    if not piece.has_neck and not any(piece.armed):
        return _named(piece, parts, "upper", down)
    if piece.upper is None or not piece.upper.shaped:
        ends = _neck_parts(parts, [row.number for row in rows if row.edge(side).move != "straight"])
        begins, stops = 0, len(parts)
    else:
        (begins, stops), ends = _upper_parts(piece, parts, side)
    first, last = ends if piece.has_neck else (stops, stops)
    level = "shoulder" if piece.has_neck else "upper"
    runs = [
        *_named(piece, parts[:begins], "armhole", down),
        *_named(piece, parts[begins:first], level, down),
        *_named(piece, parts[first:last], "neck", down),
        *_named(piece, parts[last:stops], level, down),
        *_named(piece, parts[stops:], "armhole", down),
    ]
    return runs[::-1] if down else runs


def _upper_parts(piece: PiecePlan, parts: list[_Part], side: Side) -> tuple[tuple[int, int], tuple[int, int]]:
    """Where among ``parts`` of an upper edge with parts the armholes end and begin, and the neck begins and ends. An
    armhole reaches to the largest step between its end of the piece and the neck. Of a neck the first part goes down
    and the last up; half a front has one of them, and its neck goes on to its middle."""
    outwards = 1 if side == "right" else -1
    rises = [outwards * (part.high[0] - part.low[0]) for part in parts]
    up, down = ([nth for nth, rise in enumerate(rises) if sign * rise > 0] for sign in (1, -1))
    ahead = [nth for nth in up if nth < min(down, default=len(parts))] if piece.armed[0] else []
    after = [nth for nth in down if nth > max(up, default=-1)] if piece.armed[1] else []
    begins = max(ahead, key=lambda nth: rises[nth]) + 1 if ahead else 0
    stops = max(after, key=lambda nth: (-rises[nth], nth)) if after else len(parts)
    opens = piece.front_edge
    goes_down = [nth for nth in down if begins <= nth < stops]
    goes_up = [nth for nth in up if begins <= nth < stops]
    if opens == "first":
        return (begins, stops), (begins, max(goes_up, default=begins - 1) + 1)
    if opens == "last":
        return (begins, stops), (min(goes_down, default=stops), stops)
    if not goes_down or max(goes_up, default=-1) < goes_down[0]:
        return (begins, stops), (stops, stops)
    return (begins, stops), (goes_down[0], goes_up[-1] + 1)


def _neck_parts(parts: list[_Part], shaped: list[int]) -> tuple[int, int]:
    """Where among ``parts`` the neck begins and ends.

    A step out belongs to the neck, but the row above it already stands on the shoulder; a row that leans out
    belongs to the neck.
    """
    if not shaped:
        return len(parts), len(parts)
    first = next(index for index, part in enumerate(parts) if part.number == shaped[0])
    last = next(index for index, part in enumerate(parts) if part.number == shaped[-1])
    return first, last + 1


def row_side(piece: PiecePlan, row: Row, side: Side) -> list[Point]:
    """The two ends of a row's side, foot and head, in cm in the frame of the work; its foot lies on a step where the
    row begins on one."""
    edge, under = row.edge(side), piece.below(row)
    below = edge.at if under is None or edge.step else under.edge(side).at
    return [_at(piece, below, _under(row)), _at(piece, edge.at, row.number)]


def _under(row: Row) -> int:
    """The number of the row on whose top the end of ``row`` begins; that of row 1 takes in what it stands on."""
    return row.number - 1 if row.number > 1 else -1


def _named(piece: PiecePlan, parts: list[_Part], name: str, down: bool) -> list[Run]:
    """``parts`` as a run, or none where there are none."""
    if not parts:
        return []
    points = [parts[0].low, *(part.high for part in parts)]
    ends = [part.number for part in parts if not part.step]
    rows = (ends[0], ends[-1]) if ends else None
    steps = sum(part.step for part in parts)
    if down:
        points.reverse()
        rows = None if rows is None else (rows[1], rows[0])
    across = stitches_in(piece, steps)
    return [Run(name, "row ends", tuple(points), rows, steps // 2, across)]


def width_at(piece: PiecePlan, height: Fraction) -> tuple[Fraction, Fraction]:
    """Where the left and the right outer edge stand ``height`` rows up (from 0; a fraction lies within a row), as x in
    cm in the frame of the work: on the line from the top of one row to the next, or at a step as in the nearer row, as
    the plan measures a width. A whole height is the top of that row, so below a step that stands on it."""
    low = min(int(height), piece.row_count)
    ends = []
    for side in SIDES:
        one, other = (_outer(piece, number, side) for number in (max(low, 1), min(low + 1, piece.row_count)))
        ends.append(between(one.at, other.at, height - low, other.step > 0) * piece.gauge.half)
    return ends[0], ends[1]


def _outer(piece: PiecePlan, number: int, side: Side) -> Edge:
    """The outermost edge of row ``number`` at ``side``."""
    found = [row.edge(side) for row in piece.rows if row.number == number]
    return (min if side == "left" else max)(found, key=lambda edge: edge.at)
