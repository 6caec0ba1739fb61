"""The armholes of a piece, counted on its rows.

In: a ``Job`` whose outline has stretches called "armhole", and its plan. Out: depth and width of each as wanted and as
worked. An armhole is as deep as the rows from where its edge steps in to where the stretch ends, and as wide as the
edge goes in over them.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from typing import Final, TypeAlias

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Fit
from turnchain.pattern import OutlineStretch
from turnchain.planning.candidates import Candidate
from turnchain.planning.curves import Curve
from turnchain.planning.job import Job

ARMHOLE: Final = "armhole"
#: A step may be made a row or two earlier or later than the curve has it.
_NEAR: Final = 2
_Pair: TypeAlias = tuple[Fraction, Fraction]


def armhole_fits(job: Job, plan: Candidate) -> Iterator[Fit]:
    """Depth and width in cm; by their edges where the two are not alike. None where no stretch is called so."""
    found = {
        one.side: (_wanted(job, one), _worked(job, plan, one))
        for side in SIDES
        for one in job.target.piece.stretches
        if (one.name, one.side) == (ARMHOLE, side) and one.low < one.high
    }
    alike = len(set(found.values())) < 2
    for side, (wanted, worked) in list(found.items())[: 1 if alike else None]:
        name = ARMHOLE if alike else f"{side} edge {ARMHOLE}"
        yield Fit(f"{name} depth", wanted[0], worked[0])
        yield Fit(f"{name} width", wanted[1], worked[1])


def _wanted(job: Job, one: OutlineStretch) -> _Pair:
    piece = job.target.piece
    line = piece.left_outline if one.side == "left" else piece.right_outline
    curve = Curve(line) if line else Curve(piece.outline).scaled(Fraction(1, 2 if piece.align == "centre" else 1))
    return one.high - one.low, curve.at(one.low) - curve.at(one.high)


def _worked(job: Job, plan: Candidate, one: OutlineStretch) -> _Pair:
    reaches = _reaches(plan, one.side)
    begins, last = _rows(job, plan, one, reaches)
    deep = job.height(last) - job.height(begins - 1)
    return deep, (reaches[max(begins - 2, 0)] - reaches[last - 1]) * job.gauge.half


def _reaches(plan: Candidate, side: Side) -> tuple[int, ...]:
    return plan.right if side == "right" else tuple(-at for at in plan.left)


def _rows(job: Job, plan: Candidate, one: OutlineStretch, reaches: tuple[int, ...]) -> tuple[int, int]:
    """The first row of an armhole, in which its edge steps in, and its last."""
    in_rows = Fraction(plan.rows) / job.target.height
    first, last = floor(one.low * in_rows) + 1, max(1, round(one.high * in_rows))
    near = range(max(2, first - _NEAR), min(first + _NEAR, last) + 1)
    return max(near, key=lambda row: (reaches[row - 2] - reaches[row - 1], -abs(row - first)), default=first), last
