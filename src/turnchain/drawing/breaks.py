"""The break where columns are folded away: it runs between the clusters and cuts none.

In: a ``Setting`` whose sheet has folded columns. Out: where the break passes each row. It turns at the height of the
chains: just before the first cluster left out in rows that leave out a cluster first, just after the last cluster kept
in the others; from row to row clusters step half a pitch, the break much less.
"""

from __future__ import annotations

from turnchain.drawing.definitions import BAR, CHAIN, CLOSED_FAN, MOST_ROOM, OPEN_FAN
from turnchain.drawing.setting import Setting
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.records import frozen

AIR = 0.07  # half pitches between the break and the nearest cluster


@frozen
class Break:
    """The break of a ``setting``; ``reach``: how far a cluster as drawn reaches from its middle, in half pitches. All
    places are px of the picture. All but ``of`` need a setting whose sheet has folded columns."""

    setting: Setting
    reach: float

    @classmethod
    def of(cls, setting: Setting) -> Break | None:
        """The break of ``setting``, or None where no columns are folded away."""
        if setting.sheet.folds.across is None:
            return None
        k, pace = setting.grid.k, setting.grid.pace
        squeeze = CLOSED_FAN if setting.grid.closed else OPEN_FAN
        caps = setting.sheet.stroke / setting.sheet.half / 2
        return cls(setting, squeeze * (k - 1) / 2 * pace + BAR * min(pace, MOST_ROOM) / 2 + caps)

    @property
    def first(self) -> int:
        """The first position left out, in half pitches."""
        across = self.setting.sheet.folds.across
        assert across is not None
        return across.first

    def runs_through(self, row: Row) -> bool:
        """Whether ``row`` runs from one side of the break to the other."""
        across = self.setting.sheet.folds.across
        assert across is not None
        return row.left.at < across.first and across.last < row.right.at

    def beside(self, row: Row) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
        """The left and the right side of the break in ``row``: three points each, from its top to its foot."""
        wide = self.setting.sheet.break_width
        left = self.points(row.number, row.number)
        return left, [(rounded(x + wide), y) for x, y in left]

    def points(self, low: int, high: int) -> list[tuple[float, float]]:
        """The points of the left side of the break from the top of row ``high`` down to the foot of row ``low``."""
        sheet = self.setting.sheet
        points = [(self._at_boundary(high), float(sheet.top(high)))]
        for number in range(high, low - 1, -1):
            points.append((rounded(self._turn(number)), rounded(self._turn_height(number))))
            points.append((self._at_boundary(number - 1), float(sheet.top(number - 1))))
        return points

    def at_foot(self, row: Row) -> tuple[float, float]:
        """The x of both sides of the break at the foot of ``row``."""
        x = self._at_boundary(row.number - 1)
        return x, rounded(x + self.setting.sheet.break_width)

    def at_top(self, row: Row) -> tuple[float, float]:
        """The x of both sides of the break at the top of ``row``."""
        x = self._at_boundary(row.number)
        return x, rounded(x + self.setting.sheet.break_width)

    def at_foundation(self) -> tuple[float, float]:
        """The x of both sides of the break between the chains of the foundation."""
        k, pace = self.setting.grid.k, self.setting.grid.pace
        reach = k * pace / 2
        at = self.first - reach if self._begins_with_cluster(1) else self.first - 1 + reach
        x = rounded(self.setting.sheet.zero + at * self.setting.sheet.half)
        return x, rounded(x + self.setting.sheet.break_width)

    def _begins_with_cluster(self, number: int) -> bool:
        return (self.setting.piece.running(number) + self.first) % 2 == 0

    def _turn(self, number: int) -> float:
        """The x of the break where it turns in a row."""
        at = self.first - self.reach - AIR if self._begins_with_cluster(number) else self.first - 1 + self.reach + AIR
        if self.setting.sheet.folds.hides_row(number):
            at = self.first - 0.5
        return self.setting.sheet.zero + at * self.setting.sheet.half

    def _turn_height(self, number: int) -> float:
        top, foot = self.setting.sheet.top(number), self.setting.sheet.top(number - 1)
        return top + CHAIN * (foot - top)

    def _at_boundary(self, number: int) -> float:
        """The x of the break at the top of a row: on the way from its turn to that of the next."""
        if number == 0:
            return self.at_foundation()[0]
        above, below = self._turn(number + 1), self._turn(number)
        if number >= self.setting.piece.row_count:
            return rounded(below + CHAIN * (self._turn(number - 1) - below))
        low, high = self._turn_height(number), self._turn_height(number + 1)
        if low == high:  # both rows are of a folded stripe of more rows than px, where the break runs straight up
            return rounded(below)
        share = (low - self.setting.sheet.top(number)) / (low - high)
        return rounded(below + share * (above - below))
