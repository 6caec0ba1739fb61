"""A whole chart worked, row after row.

In: what the picture shows. Out: every row as worked, with the colour of its stripe; ``Unworkable`` names the row that
cannot be worked, ``UnreadableChart`` says what is drawn where it does not belong.
"""

from __future__ import annotations

from dataclasses import dataclass

from turnchain.proof.chart.lines import Line, Lines, Tops
from turnchain.proof.chart.marks import Drawn
from turnchain.proof.chart.places import check_numbers, check_places, colour
from turnchain.proof.chart.row import worked_row
from turnchain.proof.hook.stitches import Craft, Unworkable, WorkedRow, refuse


@dataclass(frozen=True, slots=True)
class MadeRow:
    """A row worked from the picture, and the colour of its stripe."""

    row: WorkedRow
    colour: str


def work_chart(drawn: Drawn) -> list[MadeRow]:
    """Every row worked from the picture. Raises UnreadableChart or Unworkable."""
    lines = Lines(drawn)
    craft = Craft(drawn.k, lines.gap())
    done: list[Tops] = []
    for top, marks in drawn.rows:
        try:
            line = lines.line(top, marks)
            below, joined = _below(done, line)
            done.append(worked_row(craft, line, below, joined, drawn.foundation, lines.rise))
        except Unworkable as error:
            words = str(error)
            named = words.startswith("row ")
            raise Unworkable(words if named else f"row {lines.levels[top]}: {words}") from None
    check_places(done)
    check_numbers(done, drawn.numbers, lines.rise)
    return [MadeRow(one.row, colour(one, drawn.bands, lines.rise)) for one in done]


def _below(done: list[Tops], line: Line) -> tuple[Tops | None, bool]:
    """The row worked into, and whether the yarn is joined anew: then it is not the last one."""
    if line.level == 1:
        refuse(done, "a second row 1")
        return None, False
    refuse(not done, "the first row is not the lowest")
    joined = done[-1].line.level != line.level - 1
    under = [one for one in done if one.line.level == line.level - 1] if joined else [done[-1]]
    refuse(len(under) != 1, "it is worked into no row, or two")
    (below,) = under
    refuse(below.line.towards == line.towards, "the work is not turned")
    return below, joined
