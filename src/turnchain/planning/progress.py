"""A piece begun: rows that are worked already and stay as they are.

In: the rows of a plan and how far its maker has come. Out: ``BegunPiece``: where the edges of the worked rows stand,
in the frame that candidates are fitted in, so that only the rest is planned anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from turnchain.fabric.plan import Row
from turnchain.records import field, frozen

Line = Literal["left", "right", "inner_left", "inner_right"]


@frozen(slots=False)
class BegunPiece:
    """The worked rows of a piece. ``rows``: the number of the last of them. ``lines``: for each edge line (the inner
    ones run along a neck that divides the piece) the position of every worked row by its number, row 1's left edge at
    0. ``phase`` and ``origin`` are those of the plan they come from; ``after`` is the row the piece was divided after,
    once that is worked; ``top`` the last row of the piece, once one shoulder is worked up to it."""

    rows: int
    phase: int
    origin: Fraction
    lines: dict[Line, dict[int, int]] = field(default_factory=dict)
    after: int | None = None
    top: int | None = None

    @property
    def frame(self) -> tuple[Fraction, int]:
        """The centre line (0 or 1/2 half pitch) that the piece was fitted about, and where row 1's left edge stands in
        the frame of fitting, in half pitches."""
        centre = -self.origin % 1
        return centre, int(self.origin + centre)

    @property
    def frame_phase(self) -> int:
        """The phase in the frame of fitting."""
        return (self.phase - self.frame[1]) % 2

    def reaches(self, line: Line) -> dict[int, int]:
        """The positions of ``line`` by row number, as reaches outwards (half pitches) in the frame of fitting."""
        shift = self.frame[1]
        outwards = -1 if line in ("left", "inner_right") else 1
        return {row: outwards * (at + shift) for row, at in self.lines.get(line, {}).items()}


def begun_piece(rows: Sequence[Row], phase: int, origin: Fraction, worked: int) -> BegunPiece:
    """The first ``worked`` of a plan's ``rows``, in the order worked; ``phase`` and ``origin`` as of the candidate it
    was made from."""
    lines: dict[Line, dict[int, int]] = {"left": {}, "right": {}, "inner_left": {}, "inner_right": {}}
    body = rows[0].section
    done = rows[:worked]
    for row in done:
        whole: tuple[Line, Line] = ("left", "right")
        left, right = whole if row.section == body else _lines_of(rows, row)
        lines[left][row.number] = row.left.at
        lines[right][row.number] = row.right.at
    divided = any(row.section != body for row in done)
    after = sum(row.section == body for row in rows) if divided else None
    last, top = (max(row.number for row in some) for some in (done, rows))
    return BegunPiece(last, phase, origin, lines, after, top if divided and last == top else None)


def _lines_of(rows: Sequence[Row], row: Row) -> tuple[Line, Line]:
    """The edge lines of a shoulder: that on the left has the left section's inner edge at its right."""
    top = [one for one in rows if one.number == row.number and one.section != row.section]
    on_left = bool(top) and row.left.at < top[0].left.at
    return ("left", "inner_left") if on_left else ("inner_right", "right")
