"""Where a row of an edging takes in or adds what its edge bends besides corners: between which ones, at which stitches.

In: the stitches along each part of an edging, its corners, and how many stitches each row has more than the one below
besides them. Out: a ``Bend`` for every such row. A row is reckoned as what lies between its corners: a corner outwards
is its middle stitch, half of the others lie on either side; a corner inwards is the stitch that others are worked
together into, which takes as many from either side. The most free stitches between two corners take all of a bend.
"""

from __future__ import annotations

from collections.abc import Sequence
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
    between = _first(along, turns, (corner - 1) // 2, closed)
    found: list[Bend | None] = [None]
    for nth, change in enumerate(more[1:], 1):
        free = _taken(between, corners, (corner - 1) // 2, closed)
        longest = max(range(len(free)), key=lambda one: free[one])
        between = [stitches + _legs(corners, at, (corner - 1) // 2) for at, stitches in enumerate(free)]
        between[longest] += change
        turned = not closed and nth % 2
        after = (len(corners) - longest if turned else longest) if corners else None
        found.append(Bend(change, free[longest], after) if change else None)
    return tuple(found)


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
