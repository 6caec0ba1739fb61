"""The edges of a panel with parts: armhole, tapers, slit, open front, sloping shoulders, cap.

In: the measures of a panel and its parts in cm, all sound. Out: both edges as ``Corner`` s upwards, outwards from the
middle of the whole body, with the names of their stretches.

A curved armhole goes in by two thirds of its width at once and slants over the rest at 45 degrees; published ones go in
by about half at once and then by a stitch a row (Lion Brand, Sutton's Shell Top), but a step of less than a cluster and
a half is none in this fabric. A cap is as long from underarm to underarm as the armhole it is sewn into
(bygumbygolly.blogspot.com, 2011-03), along every row: an edge that goes in by half a cluster now and then is
longer than the straight line.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from math import floor, hypot, sqrt
from typing import Final, Literal

from turnchain.pattern import (
    FRONT_EDGE,
    SHOULDER,
    Armhole,
    FrontOpening,
    Neck,
    OutlineStretch,
    SleeveCap,
    UpperEdge,
)
from turnchain.planning.curves import neck_opening
from turnchain.records import frozen, replace

Side = Literal["left", "right"]
#: A cap is this share of the sleeve wide at its top where the file does not say. Common practice, no source.
CAP_TOP: Final = Fraction(1, 4)
#: The share of a curved armhole's width that its edge goes in by at once.
CURVED_AT_ONCE: Final = Fraction(2, 3)


@frozen
class Corner:
    """A point of an edge, ``height`` and ``reach`` in cm; the stretch that ends there is called ``name`` ("": none).
    ``told``: the width there is one of the piece's measures."""

    height: Fraction
    reach: Fraction
    name: str = ""
    told: bool = True


@frozen
class Tapering:
    """From ``start`` to ``end`` cm up the sides the panel goes over to ``width`` cm."""

    start: Fraction
    end: Fraction
    width: Fraction


@frozen
class Cap:
    """A cap on top of a sleeve: after a step of ``underarm`` cm at each edge, ``around`` cm from there over the top to
    the other, which is ``top`` cm wide."""

    underarm: Fraction
    around: Fraction
    top: Fraction


@frozen
class PanelParts:
    """A panel ``width`` by ``length`` cm and its parts; ``slope``: how much lower its shoulders are at the arm than at
    the neck, in cm. ``half`` a cluster is so many cm wide, and a ``row`` so many high. ``sideways``: it is
    worked so, and its parts lie at its upper edge."""

    width: Fraction
    length: Fraction
    half: Fraction
    row: Fraction
    tapers: tuple[Tapering, ...] = ()
    slit: Fraction = Fraction(0)
    armhole: Armhole | None = None
    front: FrontOpening | None = None
    neck: Neck | None = None
    cap: Cap | None = None
    slope: Fraction = Fraction(0)
    sideways: bool = False

    @property
    def arm(self) -> Fraction:
        """How high the outer ends of its shoulders lie in cm."""
        return self.length - self.slope

    @property
    def underarm(self) -> Fraction:
        """How high its sides are in cm."""
        return self.arm - (self.armhole.depth if self.armhole else 0)

    @property
    def widths(self) -> tuple[Fraction, Fraction]:
        """The width of the whole body in cm at the top of its sides, and above the armholes."""
        side = self.tapers[-1].width if self.tapers else self.width
        return side, side - sum((self.armhole.width for side in ("left", "right") if self.armed(side) and self.armhole),
                                Fraction(0))  # fmt: skip

    def armed(self, side: str) -> bool:
        """Whether an armhole is cut into this side of the whole body."""
        return self.armhole is not None and self.armhole.edge in ("both", side)

    @property
    def at_once(self) -> Fraction:
        """The share of its armhole's width that an edge goes in by at once."""
        return Fraction(1) if self.armhole is None or self.armhole.shape == "square" else CURVED_AT_ONCE

    def edges(self) -> tuple[list[Corner], list[Corner]]:
        """The left and the right edge."""
        if self.front is None:
            return self._outer("left"), self._outer("right")
        # what is at the wearer's left lies at the right of the chart, right side facing
        if self.front.side == "left":
            return self._opening(self.front), self._outer("right")
        return self._outer("left"), self._opening(self.front)

    def _outer(self, side: Side) -> list[Corner]:
        line = [*_slit(self._side(), self.slit)]
        if self.armhole is not None and self.armed(side):
            line += _armhole(self.armhole.width, self.at_once, line[-1], self.arm)
        elif self.armhole is not None:
            line.append(replace(line[-1], height=self.arm))
        if self.slope and self.neck is not None:
            line.append(self._shoulder(self.neck, line[-1]))
        if self.cap is not None:
            line += self._cap(self.cap, line[-1])
        return _without_doubles(line)

    def _side(self) -> list[Corner]:
        reach = self.width / 2
        line = [Corner(Fraction(0), reach)]
        for one in self.tapers:
            line += [Corner(one.start, reach, "side"), Corner(one.end, one.width / 2, "side")]
            reach = one.width / 2
        return [*line, Corner(self.underarm, reach, "side")]

    def _opening(self, front: FrontOpening) -> list[Corner]:
        """The edge in the middle, and up the neck."""
        line = [Corner(Fraction(0), front.overlap)]
        if self.neck is None:
            return [*line, Corner(self.length, front.overlap, FRONT_EDGE)]
        wide = self.widths[1] - 2 * self.neck.shoulder
        curve = neck_opening(self.neck.shape, self.length, wide, self.neck.depth, self.half / self.row).points
        line.append(Corner(curve[0][0], front.overlap, FRONT_EDGE))
        points = curve[1:] if self.neck.shape == "vee" else curve
        last = len(points) - 1
        line += [Corner(height, -half, "neck", told=nth in (0, last)) for nth, (height, half) in enumerate(points)]
        return _without_doubles(line)

    def _shoulder(self, neck: Neck, at: Corner) -> Corner:
        """The end of a sloping shoulder: every row of it goes in by as much as its last row is wide."""
        rows = max(1, round(self.slope / self.row))
        inwards = neck.shoulder * Fraction(rows, rows + 1)
        return Corner(self.length, at.reach - inwards, SHOULDER, told=False)

    def _cap(self, cap: Cap, at: Corner) -> list[Corner]:
        """The cap in whole rows and half clusters, as it will be worked: alike at both edges, so that its last row has
        an even number of them."""
        step, reach, top = (round(cm / self.half) for cm in (cap.underarm, at.reach, cap.top / 2))
        moves, slant = reach - step - top, cap.around / 2 - top * self.half
        upright = (float(slant) - moves * self._lean) / float(self.row)
        steep = sqrt(max(0.0, float(slant**2 - (moves * self.half) ** 2)))  # 0 where whole half clusters overrun it
        rows = moves + round(upright) if upright >= 0 else max(1, round(steep / self.row))
        high = (floor(at.height / self.row) + rows) * self.row - at.height  # the first row above the side is the cap's
        line = [Corner(at.height, at.reach - cap.underarm, "underarm")]
        return [*line, Corner(at.height + high, cap.top / 2, "cap")]

    @property
    def _lean(self) -> float:
        """How long the edge of a row is in cm that goes in by half a cluster."""
        return hypot(float(self.half), float(self.row))

    def around(self) -> Fraction:
        """How long the armhole of one edge is above its step in cm, in whole rows as it will be worked."""
        assert self.armhole is not None, "only a piece with an armhole is asked"
        moves = round(self.armhole.width * (1 - self.at_once) / self.half)
        if self.sideways:
            level = max(0, round(self.armhole.width * (1 - self.at_once) / self.row) - moves)
            upright = 2 * max(1, round((self.armhole.depth / self.half - moves) / 2))  # a step out is of whole clusters
            return _millionths(moves * self._lean + level * float(self.row) + upright * float(self.half))
        above = max(1, round(self.armhole.depth / self.row))
        return _millionths(moves * self._lean + (above - moves) * float(self.row))

    def upper(self) -> UpperEdge:
        """Its parts where it is worked sideways."""
        cap = None if self.cap is None else self._sideways_cap(self.cap)
        return UpperEdge(self.armhole, self.front, self.slope, self.slit, cap)

    def _sideways_cap(self, cap: Cap) -> SleeveCap:
        """As high as makes its edge as long as the armhole: it goes up by half a cluster a row or, where it must rise
        more steeply, by two whole ones in every other row."""
        rows = max(1, round(((self.width - cap.top) / 2 - cap.underarm) / self.row))
        slant, row, half = float((cap.around - cap.top) / 2), float(self.row), float(self.half)
        steep = slant > rows * self._lean
        moves = (slant - rows * row) / (self._lean - row)
        if steep:
            moves = rows + (slant - rows * self._lean) / (2 * half + row - self._lean)
        return SleeveCap(cap.underarm, max(1, round(moves)) * self.half, cap.top, cap.around + 2 * cap.underarm)


def _millionths(cm: float) -> Fraction:
    return Fraction(round(cm * 10**6), 10**6)


def _slit(side: list[Corner], height: Fraction) -> list[Corner]:
    """A side whose stretch up to ``height`` is called a slit, so that no seam takes it."""
    if not height:
        return side
    done: list[Corner] = []
    for low, high in pairwise(side):
        if low.height < height < high.height:
            share = (height - low.height) / (high.height - low.height)
            done.append(Corner(height, low.reach + (high.reach - low.reach) * share, "slit", told=False))
        done.append(replace(high, name="slit") if high.height <= height else high)
    return [side[0], *done]


def _armhole(width: Fraction, at_once: Fraction, at: Corner, top: Fraction) -> list[Corner]:
    into = width * at_once
    rest = width - into
    step = Corner(at.height, at.reach - into, "underarm")
    slant = Corner(at.height + rest, step.reach - rest, "armhole")
    return [step, slant, Corner(top, slant.reach, "armhole")]


def _without_doubles(line: list[Corner]) -> list[Corner]:
    kept = line[:1]
    for one in line[1:]:
        if (one.height, one.reach) != (kept[-1].height, kept[-1].reach):
            kept.append(one)
    return kept


def stretches(corners: Iterable[Corner], side: Side) -> list[OutlineStretch]:
    """The named stretches of an edge upwards; what follows each other under one name is one stretch."""
    found: list[OutlineStretch] = []
    before = ""
    for low, high in pairwise(corners):
        if high.name and high.name == before:
            found[-1] = replace(found[-1], high=high.height)
        elif high.name:
            found.append(OutlineStretch(high.name, side, low.height, high.height))
        before = high.name
    return found
