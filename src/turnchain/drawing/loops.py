"""Yarns carried up beside the edge: every loop in a lane of its own wherever others run there.

In: a ``Setting``. Out: for each loop its lane, and scene items: the loop in its yarn's colour, along the edge, also on
slopes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from turnchain.drawing.bands import Point, corners
from turnchain.drawing.setting import Setting
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Item, Path, polyline
from turnchain.yarns import carrying

FIRST_LANE, LANE = 0.22, 0.24  # of the height of a row: the first lane from the edge, and from one to the next
THICK, RIM = 0.10, 0.020  # the loop and its dark rim, the same


@frozen
class Loop:
    """A yarn carried up at ``side``: the ``rows`` from that in which it was left to that in which it is taken up, and
    the ``lane`` it runs in, 0 nearest the edge."""

    side: Side
    rows: tuple[Row, ...]
    lane: int

    @property
    def first(self) -> int:
        """The number of the row in which the yarn was left."""
        return self.rows[0].number

    @property
    def last(self) -> int:
        """The number of the row in which it is taken up."""
        return self.rows[-1].number


def loops(setting: Setting, shown_rows: Iterable[Row] | None = None) -> tuple[Loop, ...]:
    """Every loop that lies within ``shown_rows`` (None: those of the page), those in inner lanes first, then from the
    bottom up. Each has the lane nearest the edge that is free all along it, short ones first, so that these lie inside
    long ones."""
    placed: list[Loop] = []
    shown = {row.index for row in (setting.rows if shown_rows is None else shown_rows)}
    for thread in carrying.threads(setting.piece):
        rows = tuple(row for row in thread if row.index in shown)
        by_number = {row.number: row for row in rows}
        found = []
        for change in setting.changes if rows else ():
            if change.joined or change.last is None or by_number.get(change.row, rows[0]).section != change.section:
                continue
            if change.row in by_number and change.last in by_number:
                run = tuple(by_number[number] for number in range(change.last, change.row + 1))
                found.append(Loop(change.side, run, 0))
        placed += _in_lanes(found)
    return tuple(sorted(placed, key=lambda loop: (loop.lane, loop.first)))


def _in_lanes(found: list[Loop]) -> Iterator[Loop]:
    """Each loop in the lane nearest the edge that is free all along it."""
    taken: dict[Side, list[list[tuple[int, int]]]] = {"left": [], "right": []}
    for loop in sorted(found, key=lambda one: (one.last - one.first, one.first)):
        lanes = taken[loop.side]
        lane = 0
        while lane < len(lanes) and any(loop.first < last and first < loop.last for first, last in lanes[lane]):
            lane += 1
        if lane == len(lanes):
            lanes.append([])
        lanes[lane].append((loop.first, loop.last))
        yield Loop(loop.side, loop.rows, lane)


def most_lanes(found: tuple[Loop, ...], side: Side) -> int:
    """How many lanes run side by side at most, at ``side``; 0 where no yarn is carried."""
    return max((loop.lane + 1 for loop in found if loop.side == side), default=0)


def lanes_beside(found: tuple[Loop, ...]) -> dict[tuple[int, Side], int]:
    """How many lanes are to be kept clear beside rows, by the row's ``index`` and the side; rows without loops are not
    in it."""
    clear: dict[tuple[int, Side], int] = {}
    for loop in found:
        for row in loop.rows:
            beside = (row.index, loop.side)
            clear[beside] = max(clear.get(beside, 0), loop.lane + 1)
    return clear


def width(lanes: int, rise: float) -> float:
    """The px that so many lanes take beside the edge where a row is ``rise`` px high; 0 for none."""
    return (FIRST_LANE + LANE * (lanes - 1) + THICK) * rise if lanes else 0.0


def drawn(setting: Setting, found: tuple[Loop, ...]) -> list[Item]:
    """The loops, each a dark line with its yarn's colour on it; those whose rows are all folded away are left out."""
    rise, unit = setting.sheet.rise, setting.sheet.unit
    thick = max(THICK * rise, 1.8 * unit)
    rim = max(RIM * rise, 0.7 * unit)
    items: list[Item] = []
    reach = thick / 2 + rim
    for loop in found:
        if all(setting.sheet.folds.hides_row(row.number) for row in loop.rows):
            continue
        steps = polyline(_path(setting, loop, reach))
        items.append(Path(steps, stroke=setting.theme.ink, width=rounded(thick + 2 * rim)))
        items.append(Path(steps, stroke=setting.colours.of(loop.rows[-1]), width=rounded(thick)))
    return items


def _path(setting: Setting, loop: Loop, reach: float) -> list[Point]:
    """From the middle of the first row's edge out to the lane, along the edge, and back to the middle of the last's;
    its round ends, which reach ``reach`` px, touch the cloth and do not lie on it."""
    edge = _edge(setting, loop)
    outwards = -1 if loop.side == "left" else 1
    away = outwards * (FIRST_LANE + LANE * loop.lane) * setting.sheet.rise
    lane = [(rounded(x), rounded(y)) for x, y in _parallel(edge, away)]
    near = [(rounded(x), rounded(y)) for x, y in _parallel(edge, outwards * reach)]
    return [near[0], *lane, near[-1]]


def _edge(setting: Setting, loop: Loop) -> list[Point]:
    """The edge that a loop runs along, upwards."""
    points: list[Point] = []
    for row in loop.rows:
        low, high = corners(setting.piece, setting.sheet, row, loop.side)
        middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        if row is loop.rows[0]:
            points += [middle, high]
        elif row is loop.rows[-1]:
            points += [low, middle]
        else:
            points += [low, high]
    return [point for nth, point in enumerate(points) if nth == 0 or point != points[nth - 1]]


def _parallel(points: list[Point], away: float) -> list[Point]:
    """``points`` (upwards) moved ``away`` px to the right of their line, so that the new line keeps its distance."""
    ways = [_unit(one, other) for one, other in pairwise(points)]
    moved = []
    for nth, (x, y) in enumerate(points):
        before, after = ways[max(0, nth - 1)], ways[min(nth, len(ways) - 1)]
        across = (-(before[1] + after[1]), before[0] + after[0])  # right of the way up, y downwards
        size = math.hypot(*across)
        if not size:
            moved.append((x + away, y))
            continue
        cosine = (-(before[1]) * across[0] + before[0] * across[1]) / size
        far = away / max(cosine, 0.5) / size
        moved.append((x + across[0] * far, y + across[1] * far))
    return moved


def _unit(one: Point, other: Point) -> Point:
    length = math.dist(one, other) or 1.0
    return (other[0] - one[0]) / length, (other[1] - one[1]) / length
