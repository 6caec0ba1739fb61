"""The break where columns are left out: it runs between the clusters and cuts none.

In: a ``Setting`` whose sheet leaves out columns. Out: where the break passes each row. It turns at the height of the
chains: just before the first cluster left out in rows that leave out a cluster first, just after the last cluster kept
in the others; from row to row clusters step half a pitch, the break much less.
"""

from __future__ import annotations

from collections.abc import Callable

from turnchain.drawing.definitions import parting
from turnchain.drawing.setting import Setting
from turnchain.drawing.stitch_definitions import CHAIN, CLOSED_FAN, OPEN_FAN, head_width
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.numbers import rounded
from turnchain.records import frozen

AIR = 0.07  # half pitches between the break and the nearest cluster


@frozen
class Break:
    """The break of a ``setting`` before the position ``first``, from which columns are left out up to ``last`` (both in
    half pitches); None where one side of it alone is drawn. ``reach``: how far a cluster as drawn reaches from its
    middle, in half pitches. All places are px of the picture."""

    setting: Setting
    reach: float
    first: int
    last: int | None = None

    @classmethod
    def of(cls, setting: Setting) -> Break | None:
        """The break of ``setting``, or None where no columns are folded away."""
        across = setting.sheet.folds.across
        return None if across is None else cls.before(setting, across.first, across.last)

    @classmethod
    def cut(cls, setting: Setting, side: Side) -> Break | None:
        """Where the columns towards ``side`` are cut away, or None where the edge is drawn."""
        at = setting.sheet.folds.cut(side)
        return None if at is None else cls.before(setting, at)

    @classmethod
    def before(cls, setting: Setting, first: int, last: int | None = None) -> Break:
        """The break before the position ``first``."""
        k, pace = setting.grid.k, setting.grid.pace
        squeeze = CLOSED_FAN if setting.grid.closed else OPEN_FAN
        caps = setting.sheet.stroke / setting.sheet.half / 2
        head = head_width(setting.piece.recipe.stitch.name, pace)
        return cls(setting, squeeze * (k - 1) / 2 * pace + head / 2 + caps, first, last)

    def runs_through(self, row: Row) -> bool:
        """Whether ``row`` runs from one side of the break to the other."""
        if self.last is None:
            return row.left.at + 1 < self.first < row.right.at
        return row.left.at < self.first and self.last < row.right.at

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
        at = parting(self.setting.grid, self.setting.piece.running(1), self.first)
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


def parts(
    setting: Setting, row: Row, ends: tuple[float, float], at: Callable[[Break], tuple[float, float]]
) -> list[tuple[float, float]]:
    """A level line along ``row`` between ``ends`` (x in px) as far as columns are drawn: its parts, each from x to x.
    ``at``: both sides of a break at the height of the line."""
    left, right = ends
    for side in SIDES:
        cut = Break.cut(setting, side)
        if cut is not None and cut.runs_through(row):
            left, right = (at(cut)[0], right) if side == "left" else (left, at(cut)[0])
    torn = Break.of(setting)
    if torn is None or not torn.runs_through(row):
        return [(left, right)]
    one, other = at(torn)
    return [(left, one), (other, right)]
