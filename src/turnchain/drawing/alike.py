"""Clusters of a row that are alike, so that a picture states them once.

In: the stitches of a row. Out: ``Alike``, the longest run of clusters that stand in their spaces in the same way.
"""

from __future__ import annotations

from itertools import groupby

from turnchain.fabric.grid import Grid, Into, RowStitches
from turnchain.records import frozen

LEAST_RUN = 16  # clusters: fewer are as well stated one by one
LEANS = 100  # a half pitch in the units to which leans are rounded in names


@frozen
class Alike:
    """Stitches of a row, from number ``first`` and before ``stop`` in working order (from 0), that are so many
    ``clusters`` alike, each with the chain of the gap at its right; ``cluster`` are the dc of the leftmost."""

    first: int
    stop: int
    clusters: int
    cluster: slice


def alike_of(stitches: RowStitches, grid: Grid) -> Alike | None:
    """The longest run of clusters alike in a row, but for its outermost two; None for fewer than ``LEAST_RUN``."""
    k, pitch = grid.k, grid.k + grid.g
    if len(stitches) < (LEAST_RUN + 2) * pitch:
        return None
    rightwards = stitches.head[-1] > stitches.head[0]
    way = slice(None) if rightwards else slice(None, None, -1)
    symbol, into, target = stitches.symbol[way], stitches.into[way], stitches.target[way]
    head, foot = stitches.head[way], stitches.foot[way]
    same = [
        symbol[at + pitch] == symbol[at]
        and into[at + pitch] == into[at]
        and abs(head[at + pitch] - head[at] - 2) < 1 / LEANS
        and abs(foot[at + pitch] - foot[at] - 2) < 1 / LEANS
        for at in range(len(stitches) - pitch)
    ]
    begin, end = _longest(same)
    end += pitch
    # a cluster begins where k dc stand in one place, and other stitches before them
    fans = [
        at
        for at in range(begin + 1, min(begin + 2 * pitch, end - k))
        if all(one == grid.main for one in symbol[at : at + k])
        and all(one == Into.SPACE for one in into[at : at + k])
        and all(one == target[at] for one in target[at : at + k])
        and (symbol[at - 1] != grid.main or target[at - 1] != target[at])
    ]
    clusters = (end - fans[0]) // pitch - 2 if fans else 0
    if clusters < LEAST_RUN:
        return None
    first = fans[0] + pitch
    stop = first + clusters * pitch
    if rightwards:
        return Alike(first, stop, clusters, slice(first, first + k))
    whole = len(stitches)
    return Alike(whole - stop, whole - first, clusters, slice(whole - first - k, whole - first))


def _longest(flags: list[bool]) -> tuple[int, int]:
    """Where the longest stretch of true ``flags`` begins and ends, the first of those alike; (0, 0) where none is."""
    longest, at = (0, 0), 0
    for flag, stretch in groupby(flags):
        length = sum(1 for _ in stretch)
        if flag and length > longest[1] - longest[0]:
            longest = (at, at + length)
        at += length
    return longest
