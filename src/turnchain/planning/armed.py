"""Edges fitted so that their armholes are as deep and as wide as asked for.

In: a ``Job`` whose outline has armholes, and the task of one edge. Out: the best path of it whose armhole has its
measures, which are fixed first.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import ceil, floor

from turnchain.fabric.lattice import Side
from turnchain.pattern import OutlineStretch
from turnchain.planning.armholes import Off, about, off_of, stretches, wanted_of
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, Key
from turnchain.records import replace


def fit_armed(job: Job, task: EdgeTask, side: Side) -> dict[int, EdgePath]:
    """The best path of the edge at a ``side`` for each parity of its first reach, its armhole as deep and as wide as
    can be had; as ``fit_edge`` gives it where the edge has none. Where the edge steps in and how far it goes in are
    fixed, and the curve is then fitted exactly, one search for each choice. Raises BudgetSpent."""
    one = next((one for at, one in stretches(job) if at == side), None)
    if one is None:
        return fit_edge(task)
    best: dict[int, tuple[Off, Key, EdgePath]] = {}
    for limits in _choices(job, task, one):
        for parity, path in fit_edge(replace(task, limits={**task.limits, **limits})).items():
            found = off_of(job, one, path.reaches), path.key, path
            if parity not in best or found[:2] < best[parity][:2]:
                best[parity] = found
    return {parity: path for parity, (_, _, path) in best.items()}


def _choices(job: Job, task: EdgeTask, one: OutlineStretch) -> Iterator[dict[int, tuple[int, int]]]:
    """What the edge of an armhole is held to: below its step, in it, and in its last row."""
    deep, wide = wanted_of(job, one)
    first, near, last = about(job, one, task.rows)
    off = {row: abs(job.height(last) - job.height(row - 1) - deep) for row in near}
    begins = [row for row in near if off[row] == min(off.values())]
    lowest = min(task.wanted) // MICRO - 2
    for row, across in product(begins, _within(wide / job.gauge.half)):
        below = Fraction(max(task.wanted[row - 2], task.wanted[max(0, first - 2)]), MICRO)
        for reach in sorted({floor(below), ceil(below)}):
            end = reach - across
            upright = {last - 1: (end, end)} if job.target.slope and last - 1 > row else {}
            below_step, step = (reach, reach), (min(lowest, end), reach - min(2, across))
            yield {row - 1: below_step, row: step, **upright, last: (end, end)}


def _within(halves: Fraction) -> range:
    """The whole numbers of half pitches that are no more than one from so many."""
    return range(max(1, ceil(halves - 1)), floor(halves + 1) + 1)
