"""A piece begun: rows that are worked already and stay as they are.

In: the plan of a piece and how far its maker has come. Out: ``Kept``: where the edges of the worked rows stand, in
the frame that candidates are fitted in, so that only the rest is planned anew.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from turnchain.fabric.plan import PiecePlan, Row

Line = Literal["left", "right", "inner_left", "inner_right"]


@dataclass(frozen=True)
class Kept:
    """The worked rows of a piece. ``lines``: for each edge line (the inner ones run along a neck that divides the
    piece) the position of every worked row by its number, row 1's left edge at 0. ``phase`` and ``origin`` are those
    of the plan they come from; ``after`` is the row the piece was divided after, once that is worked."""

    rows: int
    phase: int
    origin: Fraction
    lines: dict[Line, dict[int, int]] = field(default_factory=dict)
    after: int | None = None

    @property
    def frame(self) -> tuple[Fraction, int]:
        """The centre line (0 or a half) that the piece was fitted about, and the lattice shift to its frame."""
        centre = -self.origin % 1
        return centre, int(self.origin + centre)

    @property
    def frame_phase(self) -> int:
        """The phase in the frame of fitting."""
        return (self.phase - self.frame[1]) % 2

    def reaches(self, line: Line) -> dict[int, int]:
        """The positions of ``line`` as reaches outwards in the frame of fitting."""
        shift = self.frame[1]
        outwards = -1 if line in ("left", "inner_right") else 1
        return {row: outwards * (at + shift) for row, at in self.lines.get(line, {}).items()}


def kept_rows(piece: PiecePlan, origin: Fraction, worked: int) -> Kept:
    """The first ``worked`` rows of ``piece``, in the order worked; ``origin`` as of the candidate it was made from."""
    lines: dict[Line, dict[int, int]] = {"left": {}, "right": {}, "inner_left": {}, "inner_right": {}}
    body = piece.rows[0].section
    rows = piece.rows[:worked]
    for row in rows:
        whole: tuple[Line, Line] = ("left", "right")
        left, right = whole if row.section == body else _lines_of(piece, row)
        lines[left][row.number] = row.left.at
        lines[right][row.number] = row.right.at
    divided = [row for row in rows if row.section != body]
    after = len(piece.section(body)) if divided else None
    return Kept(max(row.number for row in rows), piece.phase, origin, lines, after)


def _lines_of(piece: PiecePlan, row: Row) -> tuple[Line, Line]:
    """The edge lines of a shoulder: that on the left has the left section's inner edge at its right."""
    top = [one for one in piece.rows if one.number == row.number and one.section != row.section]
    on_left = bool(top) and row.left.at < top[0].left.at
    return ("left", "inner_left") if on_left else ("inner_right", "right")
