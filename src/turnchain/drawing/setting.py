"""What a chart is drawn from, in one object: the plan, the piece as its maker sees it, the page, colours and changes.

In: a plan, a piece and a look; a measured sheet once there is one. Out: a ``Setting``, which every part of a drawing
is given, so that none passes on what it does not use.
"""

from __future__ import annotations

from functools import cached_property

from turnchain.drawing.colours import Colours
from turnchain.drawing.folds import Folds
from turnchain.drawing.looks import Look, for_hand, px_of
from turnchain.drawing.sheet import Sheet
from turnchain.fabric.grid import Grid
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Pattern
from turnchain.records import frozen, replace
from turnchain.style import Theme
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of
from turnchain.yarns import carrying
from turnchain.yarns.carrying import Change


@frozen(slots=False)
class Setting:
    """All that a drawing of ``piece`` needs; ``piece`` is mirrored already where ``look`` is for a left-handed maker.
    ``changes``: where yarns are joined and carried. ``measured``: the page, None as long as no size is decided;
    ``sheet`` and ``theme`` need it. ``stretch``: how many times as high as the look has them rows are drawn."""

    plan: Plan
    piece: PiecePlan
    look: Look
    colours: Colours
    changes: tuple[Change, ...]
    measured: Sheet | None = None
    stretch: float = 1.0

    @property
    def sheet(self) -> Sheet:
        """The measured page; AssertionError before there is one."""
        assert self.measured is not None, "nothing is drawn before the page is measured"
        return self.measured

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The rows that the page has, in the order worked: all of them, or those in the window of its folds."""
        return self.piece.rows if self.measured is None else self.rows_of(self.measured.folds)

    def rows_of(self, folds: Folds) -> tuple[Row, ...]:
        """The rows in the window of ``folds``, in the order worked."""
        if folds.window is None:
            return self.piece.rows
        return tuple(row for row in self.piece.rows if folds.shows_row(row.number))

    def rise(self, half: float) -> int:
        """The whole px of the height of a row of clusters where half a pitch has ``half`` px; at least 1."""
        return max(1, round(self.stretch * px_of(self._shape, half)))

    @cached_property
    def _shape(self) -> float:
        return self.look.shape(self.piece)

    @property
    def founded(self) -> bool:
        """Whether row 1 is on the page, and with it the foundation."""
        return self.rows[0].number == 1

    @property
    def pattern(self) -> Pattern:
        """The pattern of the plan."""
        return self.plan.pattern

    @cached_property
    def speech(self) -> Speech:
        """The language of the pattern."""
        return speech_of(self.pattern)

    @property
    def theme(self) -> Theme:
        """The colours of the page."""
        return self.sheet.theme

    @cached_property
    def grid(self) -> Grid:
        """The stitches of the piece."""
        return Grid(self.piece)

    @cached_property
    def ends(self) -> tuple[Row, ...]:
        """The rows after which the yarn is fastened off: the last, and in a divided piece that of the first part."""
        return tuple(rows[-1] for rows in carrying.threads(self.piece))

    def on(self, sheet: Sheet) -> Setting:
        """The same setting on the measured page ``sheet``."""
        return replace(self, measured=sheet)


def setting(plan: Plan, name: str, look: Look) -> Setting:
    """What the piece ``name`` of ``plan`` is drawn from in this ``look``. Raises KeyError for an unknown piece."""
    piece = for_hand(plan.piece(name), look.hand)
    found = carrying.changes(piece, carrying.carry_of(plan, piece))
    return Setting(plan, piece, look, Colours(plan.pattern, look.inks, plan.pieces), found)
