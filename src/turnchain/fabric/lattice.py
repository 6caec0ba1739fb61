"""The lattice: where clusters can stand, and what an edge may do from one row to the next.

In: positions in half pitches (whole numbers growing to the right, right side facing), row numbers from 1, and
the phase ``s`` (0 or 1) of a piece. Out: kinds, moves and counts. Position and row number alone decide the kind
of an edge, and the kind decides which moves come naturally: see ``move``.
"""

from __future__ import annotations

from typing import Literal

Kind = Literal["flush", "spaced"]
Move = Literal[
    "straight", "decrease", "increase", "forced_decrease", "forced_increase", "step_in", "step_out"
]
Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


def kind(position: int, row: int, phase: int) -> Kind:
    """The kind of an edge at ``position``: flush with a cluster next to the post, or spaced with a gap there.

    The same rule serves both edges: clusters stand at c = row + phase (mod 2), one half pitch inside a flush
    edge and two inside a spaced one.
    """
    return "flush" if (position + row + phase) % 2 else "spaced"


def clusters(left: int, right: int, row: int, phase: int) -> int:
    """How many clusters stand between the edges ``left`` and ``right`` (half pitches) of row ``row``; 0 or less is no
    row. Source: the rules of the lattice, DEVELOPERS.md."""
    first = left + (1 if kind(left, row, phase) == "flush" else 2)
    last = right - (1 if kind(right, row, phase) == "flush" else 2)
    return (last - first) // 2 + 1


def centres(left: int, right: int, row: int, phase: int) -> range:
    """The positions of the clusters of a row, in half pitches, from the left; empty where there is room for none."""
    first = left + (1 if kind(left, row, phase) == "flush" else 2)
    return range(first, right, 2)


def starting_side(row: int, left_handed: bool = False) -> Side:
    """The side of the chart where row ``row`` (from 1) begins: odd rows are right-side rows, worked from right to left
    by a right-handed maker. Common practice."""
    return "right" if bool(row % 2) != left_handed else "left"


def move(inwards: int, below: Kind) -> Move:
    """The name of a move of ``inwards`` half pitches (negative: outwards) from an edge of kind ``below``.

    Raises ValueError for a move that cannot be worked: outwards by an odd number over one.
    """
    if inwards == 0:
        return "straight"
    if inwards == 1:
        return "decrease" if below == "flush" else "forced_decrease"
    if inwards == -1:
        return "increase" if below == "spaced" else "forced_increase"
    if inwards > 1:
        return "step_in"
    if inwards % 2 == 0:
        return "step_out"
    raise ValueError(f"an edge cannot go {-inwards} half pitches outwards in one row")
