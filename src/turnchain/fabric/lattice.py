"""The lattice: where units can stand, and what an edge may do from one row to the next.

In: positions in half pitches (whole numbers growing to the right, right side facing) and the running phase of a row,
0 or 1: its units stand at every c = running (mod 2) between its edges. Out: counts, places, names. Which kinds of edge
there are, and how an edge goes from one to another, is the edge table's (``recipe``).
"""

from __future__ import annotations

from typing import Literal

Kind = Literal["flush", "spaced", "bare"]
Move = Literal[
    "straight", "decrease", "increase", "forced_decrease", "forced_increase", "step_in", "step_out"
]
Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


def clusters(left: int, right: int, running: int) -> int:
    """How many units stand between the edges ``left`` and ``right`` (half pitches) of a row of the ``running`` phase; 0
    or less is no row. Source: the rules of the lattice, DEVELOPERS.md."""
    first = left + 2 - (left + running) % 2
    last = right - 2 + (right + running) % 2
    return (last - first) // 2 + 1


def centres(left: int, right: int, running: int) -> range:
    """The positions of the units of a row, in half pitches, from the left; empty where there is room for none."""
    return range(left + 2 - (left + running) % 2, right, 2)


def starting_side(row: int, left_handed: bool = False) -> Side:
    """The side of the chart where row ``row`` (from 1) begins: odd rows are right-side rows, worked from right to left
    by a right-handed maker. Common practice."""
    return "right" if bool(row % 2) != left_handed else "left"
