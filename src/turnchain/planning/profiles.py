"""The upper edge of a panel worked sideways that has parts, as one line from its first row to its last.

In: the parts of the piece in cm, in the order of its rows. Out: the line as a ``Curve`` in cm above the lower edge, and
in how many rows its armholes are worked. A step outwards is made where a row starts, so before it lies an even or an
odd number of rows, by the side of the chart; the armhole at the other end has as many where both are wanted.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import Final, Literal

from turnchain.pattern import Armhole, Neck, SleeveCap, UpperEdge
from turnchain.planning.curves import Curve, neck_depths
from turnchain.records import frozen

#: The share of a curved armhole's width over which its edge goes on level.
CURVED_AT_ONCE: Final = Fraction(2, 3)
_Points = list[tuple[Fraction, Fraction]]


@frozen
class Profile:
    """The upper edge of a panel ``along`` cm from its first row to its last and ``length`` cm up to the neck.

    ``armed``: whether the ``armhole`` is cut in at the first row, and at the last. ``opens``: at which end half a front
    has its middle ("": it is no such half), ``overlap`` cm beyond which it goes on. ``slope``: how much lower shoulders
    are at the arm. ``steepest``: cm that a slant neck goes down for a cm along. ``out_at``: the parity of the rows that
    start at this edge.
    """

    along: Fraction
    length: Fraction
    armed: tuple[bool, bool]
    opens: Literal["", "first", "last"]
    armhole: Armhole | None
    neck: Neck | None
    overlap: Fraction
    slope: Fraction
    cap: SleeveCap | None
    steepest: Fraction
    out_at: int

    @property
    def wide(self) -> Fraction:
        """How wide an armhole is in cm; 0 without one."""
        return Fraction(0) if self.armhole is None else self.armhole.width

    @property
    def deep(self) -> Fraction:
        """How deep an armhole is in cm; 0 without one."""
        return Fraction(0) if self.armhole is None else self.armhole.depth

    @property
    def across(self) -> Fraction:
        """The width in cm from arm to arm above the armholes: of half a front that of the whole front."""
        if self.opens:
            return 2 * (self.along - self.overlap - self.wide)
        return self.along - sum(self.armed) * self.wide

    def arm_rows(self, row: Fraction) -> tuple[int, int]:
        """How many rows of ``row`` cm lie under each armhole, at the first row and at the last; 0 without one."""
        first, last = self.armed
        ahead = self._before_step(self.wide / row) if first else 0
        return ahead, (ahead or max(1, round(self.wide / row))) if last else 0

    def _before_step(self, wanted: Fraction) -> int:
        """The number of rows nearest to ``wanted`` after which one starts at this edge; of two as near the less."""
        low = max(0, floor(wanted) - 2)
        fitting = [rows for rows in range(max(1, low), low + 6) if (rows + 1) % 2 == self.out_at]
        return min(fitting, key=lambda rows: abs(rows - wanted))

    def curve(self, rows: int, under: tuple[int, int]) -> Curve:
        """The line in cm above the lower edge, by cm along the rows, for ``rows`` rows in all of which so many lie
        ``under`` the armholes: a step stands at the foot of the row in which it is made."""
        if self.cap is not None:
            return Curve(tuple(_without_doubles(self._cap(self.cap))))
        line = self._level(rows, under[0], first=True)
        line += self._neck_line()
        line += [(self.along - at, high) for at, high in reversed(self._level(rows, under[1], first=False))]
        return Curve(tuple(_without_doubles(line)))

    def _level(self, rows: int, under: int, first: bool) -> _Points:
        """From one end of the piece to where its shoulder begins, as from that end; of the middle of a front
        nothing."""
        arm = self.length - self.slope
        if not self.armed[0 if first else 1] or self.armhole is None:
            return [] if self.opens == ("first" if first else "last") else [(Fraction(0), arm)]
        low, wide = arm - self.deep, self.wide
        step = under * self.along / rows
        rest = wide * (1 - CURVED_AT_ONCE) if self.armhole.shape == "curved" else Fraction(0)
        line = [(Fraction(0), low), (wide - rest, low), (wide, low + rest)]
        before = [(at, high) for at, high in line if at < step]
        reached = Curve(tuple(_without_doubles(line))).at(step)
        return [*before, (step, reached), (step, arm)]

    def _neck_line(self) -> _Points:
        """From shoulder to shoulder, by cm along the rows; without a neck nothing."""
        if self.neck is None:
            return [] if not self.opens else [(self.along if self.opens == "last" else Fraction(0), self.length)]
        shoulder, across = self.neck.shoulder, self.across
        deep = neck_depths(self.neck.shape, across, shoulder, self.neck.depth, self.steepest)
        inner = deep.points[1:-1]
        if not self.opens:
            begins = self.wide if self.armed[0] else Fraction(0)
            return [(begins + at, self.length - down) for at, down in inner]
        half = [(self.wide + at, self.length - down) for at, down in inner if at <= across / 2]
        half.append((self.along, self.length - max(down for _, down in inner)))
        return half if self.opens == "last" else [(self.along - at, high) for at, high in reversed(half)]

    def _cap(self, cap: SleeveCap) -> _Points:
        """A sleeve's: level under the arm, up to its top, and back."""
        up = [(Fraction(0), self.length), (cap.underarm, self.length), ((self.along - cap.top) / 2, self.high)]
        return [*up, *((self.along - at, high) for at, high in reversed(up))]

    @property
    def high(self) -> Fraction:
        """How far above the lower edge the line goes, in cm."""
        return self.length + (Fraction(0) if self.cap is None else self.cap.height)


def profile(
    upper: UpperEdge, along: Fraction, length: Fraction, neck: Neck | None, right_first: bool, steepest: Fraction
) -> Profile:
    """The parts of ``upper`` in the order of the rows; ``right_first``: the first row lies at the right as worn, seen
    from the right side, and rows with an odd number start at this edge."""
    ends: tuple[Literal["left", "right"], ...] = ("right", "left") if right_first else ("left", "right")
    armed = tuple(side in upper.armed for side in ends)
    opens: Literal["", "first", "last"] = "" if upper.opens is None else "first" if upper.opens == ends[0] else "last"
    overlap = Fraction(0) if upper.front is None else upper.front.overlap
    return Profile(along, length, (armed[0], armed[1]), opens, upper.armhole, neck, overlap, upper.slope, upper.cap,
                   steepest, 1 if right_first else 0)  # fmt: skip


def _without_doubles(points: _Points) -> _Points:
    """No point twice, and none between two of its height along."""
    kept = points[:1]
    kept += [there for before, there in pairwise(points) if there != before]
    return kept
