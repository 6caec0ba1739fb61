"""The edge of a sleeve that meets the body, in two halves, and its own seam.

In: a planned sleeve. Out: stretches of its outline. A sleeve has its longer end at the body or, where its outline has
stretches called cap at both edges, these and the last row between them, with the steps under the arm.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan
from turnchain.garment import edges
from turnchain.garment.edges import EdgeLine
from turnchain.garment.stretches import EdgeStretch, named, stops, whole

CAP = "cap"
Stretches: TypeAlias = tuple[EdgeStretch, ...]


def has_cap(sleeve: PiecePlan) -> bool:
    """Whether the sleeve has a cap."""
    return not sleeve.has_neck and all(CAP in named(sleeve, side) for side in SIDES)


def top_name(sleeve: PiecePlan) -> str:
    """What the edge that meets the body is called: a cap, or the name of a run."""
    return CAP if has_cap(sleeve) else _longer_end(sleeve)


def top(sleeve: PiecePlan) -> EdgeLine:
    """Of a sleeve without a cap the edge that meets the body: the longer of its two ends; of ends as long, the first
    row's or, worked sideways, the upper."""
    return edges.of(sleeve)[_longer_end(sleeve)]


def _longer_end(sleeve: PiecePlan) -> str:
    found = edges.of(sleeve)
    ends = ("first", "last") if sleeve.top is None else ("upper", "lower")
    return max((name for name in ends if len(found[name].runs) == 1), key=lambda name: found[name].length)


def top_length(sleeve: PiecePlan) -> Fraction:
    """How long the edge that meets the body is, in cm."""
    return sum((one.length for half in halves(sleeve) for one in half), Fraction(0))


def cap_height(sleeve: PiecePlan) -> Fraction:
    """How high the cap is from its foot to the last row or, worked sideways, to its highest, in cm; 0 without one."""
    if sleeve.upper is not None and sleeve.upper.cap is not None:
        first = sleeve.rows[0]
        return (sleeve.rightmost - sleeve.leftmost - first.right.at + first.left.at) * sleeve.gauge.half
    if not has_cap(sleeve):
        return Fraction(0)
    return sleeve.height - min(point[1] for side in SIDES for point in named(sleeve, side)[CAP].points)


def halves(sleeve: PiecePlan, copy: int = 0) -> tuple[Stretches, Stretches]:
    """Both halves of the edge of the ``copy``-th sleeve that meets the body, walked with it at the left hand; the fold
    of the sleeve lies between them, or on a cap's last row the half pitch nearest to it. Of an odd number of rows the
    half at the front has one more."""
    if not has_cap(sleeve):
        (run,) = top(sleeve).runs
        middle = run.length / 2
        if run.meets == "row ends":
            middle = min(stops(sleeve, run), key=lambda stop: (abs(stop - middle), -stop if copy else stop))
        return (EdgeStretch(sleeve, run, Fraction(0), middle),), (EdgeStretch(sleeve, run, middle, run.length),)
    (last,) = edges.of(sleeve)["last"].runs
    middle = min(stops(sleeve, last), key=lambda stop: abs(2 * stop - last.length))
    up, down = (_beside_cap(sleeve, side) for side in ("right", "left"))
    return (
        (EdgeStretch(sleeve, up.run, up.end, up.run.length), EdgeStretch(sleeve, last, Fraction(0), middle)),
        (EdgeStretch(sleeve, last, middle, last.length), EdgeStretch(sleeve, down.run, Fraction(0), down.start)),
    )


def own_edge(sleeve: PiecePlan, name: str) -> Stretches:
    """The stretches of the edge of this name that the sleeve's own seam joins."""
    if has_cap(sleeve) and name in ("left", "right"):
        return (_beside_cap(sleeve, name),)
    return tuple(whole(sleeve, run) for run in edges.of(sleeve)[name].runs)


def _beside_cap(sleeve: PiecePlan, side: str) -> EdgeStretch:
    """The edge at a side below the cap and its step under the arm."""
    parts = named(sleeve, "left" if side == "left" else "right")
    above = parts.get("underarm") or parts[CAP]
    if side == "right":
        return EdgeStretch(sleeve, above.run, Fraction(0), above.start)
    return EdgeStretch(sleeve, above.run, above.end, above.run.length)
