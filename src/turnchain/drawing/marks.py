"""What is to be marked beside the stitches, whatever its size.

In: a ``Setting`` and what is left out. Out: ``Marks``: rows, yarns carried, joins, ends, and what stands at each side.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.drawing import loops
from turnchain.drawing.folds import Folds
from turnchain.drawing.setting import Setting
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.records import frozen

ROWS_WITH_ARROWS = 2  # rows 1 and 2 have an arrow that shows their direction


@frozen
class Beside:
    """What stands beside one side: whether there are ``signs``; moves, with ``steps`` among them or not (None: no
    moves); how many ``digits`` row numbers have; ``arrows`` beside them."""

    signs: bool
    steps: bool | None
    digits: int
    arrows: bool

    @classmethod
    def of(cls, rows: Sequence[Row], side: Side, cut: bool, signs: bool) -> Beside:
        """What stands beside ``rows`` at a ``side``, where columns may be ``cut`` away."""
        starting = [row.number for row in rows if row.starts == side]
        moved = [bool(row.edge(side).step) for row in rows if row.edge(side).move != "straight" and not cut]
        digits = max((len(str(number)) for number in starting), default=0)
        arrows = any(number <= ROWS_WITH_ARROWS for number in starting)
        return cls(signs, any(moved) if moved else None, digits, arrows)


@frozen
class Marks:
    """What is to be marked beside the ``rows`` that are drawn, whatever their size: yarns carried, where rows of a
    section begin with a join (by section and number), sides with joins, rows after which yarn is fastened off. Nothing
    is marked where columns are cut away. ``beside``: what all of it needs at each side."""

    rows: tuple[Row, ...]
    loops: tuple[loops.Loop, ...]
    joins: frozenset[tuple[str, int]]
    signed: frozenset[Side]
    ends: tuple[Row, ...]
    beside: dict[Side, Beside]

    @classmethod
    def of(cls, setting: Setting, folds: Folds) -> Marks:
        """The marks of the rows and columns that ``folds`` leave."""
        rows = setting.rows_of(folds)
        shown = {side for side in SIDES if folds.cut(side) is None}
        joins = frozenset((one.section, one.row) for one in setting.changes if one.joined and one.side in shown)
        signed = frozenset(row.starts for row in rows if (row.section, row.number) in joins and row.starts in shown)
        numbers = {row.index for row in rows}
        ends = tuple(row for row in setting.ends if row.index in numbers and row.ends in shown)
        return cls(
            rows,
            tuple(loop for loop in loops.loops(setting, rows) if loop.side in shown),
            joins,
            signed,
            ends,
            {
                side: Beside.of(rows, side, side not in shown, side in signed or any(row.ends == side for row in ends))
                for side in SIDES
            },
        )
