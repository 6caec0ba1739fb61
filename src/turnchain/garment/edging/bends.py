"""Where a row of an edging takes in or adds what its edge bends besides corners: between which ones, at which stitches.

In: the stitches along each part of an edging, its corners, and how many stitches each row has more than the one below
besides them. Out: a ``Bend`` for every such row. A row is reckoned as what lies between its corners: a corner outwards
is its middle stitch, half of the others lie on either side; a corner inwards is the stitch that others are worked
together into, which takes as many from either side. The most free stitches between two corners take all of a bend.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from turnchain.garment.edging.spreading import gaps
from turnchain.garment.edging.turning import Turn
from turnchain.records import frozen


@frozen
class Bend:
    """``more`` stitches in a row (fewer where it is negative), over ``free`` ones of the row below: those that follow
    the corner numbered ``after`` as that row is worked (0: before the first; None: there are no corners)."""

    more: int
    free: int
    after: int | None = None

    @property
    def gaps(self) -> tuple[tuple[int, int], ...]:
        """At every how many of the free stitches, and how many times, as of ``Even``."""
        return gaps(abs(self.more), self.free)

    @property
    def fits(self) -> bool:
        """Whether each has stitches of its own: two that are worked together, or one that takes two."""
        return self.free >= abs(self.more) * (2 if self.more < 0 else 1)


def of_rows(
    along: Sequence[int], turns: Sequence[Turn], corner: int, closed: bool, more: Sequence[int]
) -> tuple[Bend | None, ...]:
    """The bend of every row, None of row 1 and where there is none: ``along`` each part lie so many stitches in row 1,
    after it follows the corner of ``turns`` (outwards of ``corner`` stitches); ``more`` has a number for every row.
    ``closed``: in rounds; rows are turned, so every other one begins at the other end."""
    corners = [turn for turn in turns if turn]
    found: list[Bend | None] = [None]
    for nth, (_, free) in enumerate(_rows(along, turns, corner, closed, more), 1):
        longest = _longest(free)
        turned = not closed and nth % 2
        after = (len(corners) - longest if turned else longest) if corners else None
        found.append(Bend(more[nth], free[longest], after) if more[nth] else None)
    return tuple(found)


def without_room(
    along: Sequence[int], turns: Sequence[Turn], corner: int, closed: bool, more: Sequence[int]
) -> int | None:
    """The first row, from 2, in which a corner inwards has too few stitches of its own beside it, since another or the
    end is too near; None where every one has room. As of ``of_rows``."""
    corners, each = [turn for turn in turns if turn], (corner - 1) // 2
    for row, (between, _) in enumerate(_rows(along, turns, corner, closed, more), 2):
        left = list(between)
        for at, turn in enumerate(corners):
            if turn == "inner":
                left[at] -= each
                left[at + 1] -= each
        if closed and corners and left[-1] < 0:  # a round goes on with its own beginning
            left[0], left[-1] = left[0] + left[-1], 0
        if min(left) < 0:
            return row
    return None


def _rows(
    along: Sequence[int], turns: Sequence[Turn], corner: int, closed: bool, more: Sequence[int]
) -> Iterator[tuple[list[int], list[int]]]:
    """Of every row from the second what lies between the corners of the row below, and what these leave of it."""
    corners, each = [turn for turn in turns if turn], (corner - 1) // 2
    between = _first(along, turns, each, closed)
    for change in more[1:]:
        free = _taken(between, corners, each, closed)
        yield between, free
        between = [stitches + _legs(corners, at, each) for at, stitches in enumerate(free)]
        between[_longest(free)] += change


def _longest(free: Sequence[int]) -> int:
    return max(range(len(free)), key=lambda one: free[one])


def _first(along: Sequence[int], turns: Sequence[Turn], half: int, closed: bool) -> list[int]:
    """What lies between the corners in row 1: two stitches become the one in a corner inwards."""
    numbers = [0, *accumulate(int(bool(turn)) for turn in turns)]
    corners = [turn for turn in turns if turn]
    between = [0] * (len(corners) + 1)
    for number, stitches in zip(numbers, along, strict=False):
        between[number] += stitches
    taken = _taken(between, corners, 1, closed)
    return [stitches + _legs(corners, at, half) for at, stitches in enumerate(taken)]


def _legs(corners: Sequence[Turn], at: int, half: int) -> int:
    """How many stitches of corners outwards lie ``at`` one of the places between corners."""
    beside = [corners[one] for one in (at - 1, at) if 0 <= one < len(corners)]
    return half * beside.count("outer")


def _taken(between: Sequence[int], corners: Sequence[Turn], each: int, closed: bool) -> list[int]:
    """What corners inwards leave between them, which take ``each`` stitches from either side, the nearest there are."""
    left = list(between)
    for at, turn in enumerate(corners):
        if turn == "inner":
            _take(left, range(at, -1, -1), each)
            onwards = [*range(at + 1, len(left)), *(range(at + 1) if closed else ())]
            _take(left, onwards, each)
    return left


def _take(left: list[int], order: Sequence[int], stitches: int) -> None:
    for at in order:
        less = min(left[at], stitches)
        left[at] -= less
        stitches -= less
