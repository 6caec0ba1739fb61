"""What an edge may do from one row to the next, and what that costs beside its distance.

In: an ``EdgeTask``: where the edge should stand at every row's top, and what it may do. Out: the price of each move.
Positions here are *reaches*: half pitches outwards from a fixed line, so that the left and the right edge of a piece
are one and the same task. The kind of an edge follows from reach and row.

Costs are whole numbers, so that equal plans compare equal on every machine: a distance is counted in ``MICRO``-ths of
a half pitch, its square in the square of that. They are packed with what decides between equal costs (``Key``).

**Folded** tasks read the same from both ends: half of the rows are searched, each move standing for its mirror too.
The edge line leans from a row's foot to its head, so a lean in row r is met by one in row R + 1 - r. A step is a
corner at the foot of its row, so it is met in row R + 2 - r, and the row before it must be straight. A natural
decrease is met by a natural increase over an odd number of rows, a forced one over an even number.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from enum import IntEnum
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple, TypeAlias, TypeVar

from turnchain.fabric.lattice import Kind
from turnchain.fabric.recipe import EdgeTable, MoveRule
from turnchain.numbers import nearest
from turnchain.planning.budget import SearchBudget
from turnchain.records import field, frozen

MICRO = 10**6

# What a step costs beside its distance, in squared half pitches: as much as one row that is a whole pitch off. What
# other moves cost stands in the edge table.
STEP_COST = 4


class Key(NamedTuple):
    """What is compared, in order, when two paths are weighed: ``cost`` in squared ``MICRO``-ths of a half pitch, the
    error of ``width`` in row 1 in ``MICRO``-ths of one, the changes of direction (``turns``), and steps out from flush
    edges (``awkward``)."""

    cost: int
    width: int
    turns: int
    awkward: int

    def packed(self) -> int:
        """One whole number that compares as the tuple does and adds as its fields do."""
        return ((self.cost * WIDTH_FIELD + self.width) * TURN_FIELD + self.turns) * AWKWARD_FIELD + self.awkward


# No sum of a field below the cost comes near these: there are 2,000 rows at the most.
WIDTH_FIELD, TURN_FIELD, AWKWARD_FIELD = 1 << 48, 1 << 16, 1 << 16
AWKWARD = 1
TURN = AWKWARD_FIELD
WIDTH = TURN * TURN_FIELD
COST = WIDTH * WIDTH_FIELD


def unpacked(number: int) -> Key:
    """The key that ``Key.packed`` made this number of."""
    number, awkward = divmod(number, AWKWARD_FIELD)
    number, turns = divmod(number, TURN_FIELD)
    cost, width = divmod(number, WIDTH_FIELD)
    return Key(cost, width, turns, awkward)


class Direction(IntEnum):
    """Where the edge line went last: in as the reach fell, out as it grew; in row 1 it is straight."""

    STRAIGHT = 0
    IN = 1
    OUT = 2


_Leans: TypeAlias = tuple[int | None, int | None]
Made = TypeVar("Made")
#: Whether a row has room for a cluster between two reaches: (row, left, right).
Room: TypeAlias = Callable[[int, int, int], bool]
Leans: TypeAlias = tuple[_Leans, _Leans]  # by the parity of the reach below


@frozen
class MixedRows:
    """Rows of more than one kind, by their numbers (0: the foundation): how edges go to each from the row below it
    (``tables``; None: straight alone); whether they may step there (``steps``); how often the running phase has changed
    by then (``shifts``)."""

    tables: tuple[EdgeTable | None, ...]
    steps: tuple[bool, ...]
    shifts: tuple[int, ...]


def anywhere(row: int, reach: int) -> bool:
    """Whether a reach may stand in a row, where all may."""
    return True


@frozen(slots=False)
class EdgeTask:
    """One edge to be fitted.

    ``wanted``: the reach wanted at the top of every row, in ``MICRO``-ths of a half pitch. ``phase``: that of the piece
    about the line that reaches are counted from. ``table``: which moves there are. ``steps_out_at``: the parity of the
    rows that start at this edge, or None where a step out is not allowed. ``start``: the reach of row 1, or None where
    it is free. ``folded``: the edge line must read the same from the top. ``copies``: 2 where the path serves both
    edges. ``allowed``: whether a reach may stand in a row. ``limits``: the lowest and the highest reach of some rows.
    ``worked``: the reaches of rows that are worked already; they stay, and cost nothing. ``late``: rows in which a step
    outwards may still be to come, since they do not start at this edge, and what is wanted of them then. ``natural``:
    no increase may be forced. ``steps``: whether steps are allowed. ``budget``: what the search may take. ``mixed``:
    where rows are of more than one kind, which are never folded.
    """

    wanted: tuple[int, ...]
    phase: int
    table: EdgeTable
    steps_out_at: int | None
    start: int | None = None
    folded: bool = False
    copies: int = 1
    allowed: Callable[[int, int], bool] = anywhere
    limits: Mapping[int, tuple[int, int]] = field(default_factory=dict)
    worked: Mapping[int, int] = field(default_factory=dict)
    late: Mapping[int, int] = field(default_factory=dict)
    natural: bool = False
    steps: bool = True
    budget: SearchBudget = field(default_factory=SearchBudget)
    mixed: MixedRows | None = None

    @cached_property
    def rows(self) -> int:
        """How many rows."""
        return len(self.wanted)

    @cached_property
    def last(self) -> int:
        """The last row to be searched: folded the middle one, or the one below the middle."""
        return (self.rows + 1) // 2 if self.folded else self.rows

    def free(self, row: int) -> bool:
        """Whether every reach may stand in ``row``."""
        return self.allowed is anywhere and row not in self.limits

    @property
    def pitch(self) -> int:
        """A pitch in the unit of reaches: steps outwards go by whole ones."""
        return 1 if self.table.by_pitches else 2

    @property
    def pay(self) -> int:
        """The packed price of one squared half pitch, ``copies`` included."""
        return self.copies * COST * MICRO**2

    @property
    def turn(self) -> int:
        """The packed price of a change of direction, with its mirror where the task is folded."""
        return self.copies * (2 if self.folded else 1) * TURN

    @cached_property
    def leans(self) -> tuple[Leans, ...]:
        """The prices of half a pitch inwards and outwards by the row and the parity of the reach below it; where all
        rows are of one kind, on the parity of the row alone."""
        if self.mixed is not None:
            return tuple((_leans_of(self, row, 0), _leans_of(self, row, 1)) for row in range(self.rows + 1))
        even, odd = (_leans_of(self, 0, 0), _leans_of(self, 0, 1)), (_leans_of(self, 1, 0), _leans_of(self, 1, 1))
        return (even, odd) * (self.rows // 2 + 1)

    def by_row(self, made: Callable[[Leans], Made]) -> list[Made]:
        """What is ``made`` of the ``leans`` of each row, once where rows are alike."""
        if self.mixed is not None:
            return [made(leans) for leans in self.leans]
        return [made(leans) for leans in self.leans[:2]] * (self.rows // 2 + 1)

    def distance(self, row: int, reach: int) -> int:
        """``distances`` of a single reach."""
        return self.distances(row, (reach,))[0]

    def distances(self, row: int, reaches: Sequence[int]) -> list[int]:
        """How far each of ``reaches`` is from what is wanted of ``row`` (from 1), in squared ``MICRO``-ths of a half
        pitch; where a step outwards may still be to come, from the nearer of both."""
        wanted = self.wanted[row - 1]
        off = [(reach * MICRO - wanted) ** 2 for reach in reaches]
        if row not in self.late:
            return off
        late = self.late[row]
        return [min(far, (reach * MICRO - late) ** 2) for reach, far in zip(reaches, off, strict=True)]

    def kind(self, reach: int, row: int) -> Kind:
        """The kind of an edge at this ``reach`` in ``row``; row 0 is the row below the first."""
        return self.table.kind(reach, self.phase + (self.mixed.shifts[row] if self.mixed else self.table.shift * row))

    def move(self, reach: int, row: int, inwards: int) -> MoveRule | None:
        """How an edge goes on from this ``reach`` in ``row`` by so many half pitches; None where it cannot."""
        table = self.mixed.tables[row + 1] if self.mixed else self.table
        return None if table is None else table.move(self.kind(reach, row), inwards)

    def starts(self, row: int) -> bool:
        """Whether ``row`` starts at this edge, so that it may step out; never where steps out are not allowed."""
        return self.steps_out_at is not None and row % 2 == self.steps_out_at and self.may_step(row)

    def may_step(self, row: int) -> bool:
        """Whether the edge may step in ``row`` at all, by what kind of row it is and stands on."""
        return self.mixed is None or self.mixed.steps[row]


def micro(distance: Fraction) -> int:
    """``distance`` in whole ``MICRO``-ths of its unit, to the nearest, halfway to the even one."""
    return nearest(distance.numerator * MICRO, distance.denominator)


def squared(distance: Fraction) -> int:
    """The cost of standing ``distance`` half pitches off in one row, in squared ``MICRO``-ths of a half pitch."""
    return micro(distance) ** 2


def lean_in(task: EdgeTask, row: int, below: int) -> int | None:
    """The packed price of half a pitch inwards in ``row`` from the reach ``below``; None where it cannot be."""
    return task.leans[row][below % 2][0]


def lean_out(task: EdgeTask, row: int, below: int) -> int | None:
    """The packed price of half a pitch outwards in ``row`` from the reach ``below``; None where it cannot be."""
    return task.leans[row][below % 2][1]


def _leans_of(task: EdgeTask, row: int, below: int) -> _Leans:
    if task.mixed is not None:
        within = row > 1
        return (
            _price(task, task.move(below, row - 1, 1) if within else None, None),
            _price(task, task.move(below, row - 1, -1) if within else None, None),
        )
    return (
        _price(task, task.move(below, row - 1, 1), task.move(below - 1, task.rows - row, -1)),
        _price(task, task.move(below, row - 1, -1), task.move(below + 1, task.rows - row, 1)),
    )


def _price(task: EdgeTask, there: MoveRule | None, back: MoveRule | None) -> int | None:
    """The packed price of a move and, where the task is folded, of the one that meets it (``back``)."""
    if there is None or (task.folded and back is None):
        return None
    moves = (there, back) if task.folded and back is not None else (there,)
    if task.natural and any(rule.by < 0 and rule.cost for rule in moves):
        return None
    return task.pay * sum(rule.cost for rule in moves)


def step_in(task: EdgeTask, row: int, reach: int) -> int | None:
    """The packed price of a step in to ``reach`` in ``row``; None where the step out that meets it cannot be."""
    if not task.steps or not task.may_step(row):
        return None
    if not task.folded:
        return task.pay * STEP_COST
    if not task.starts(task.rows - row + 2):
        return None
    return task.pay * STEP_COST * 2 + (AWKWARD if task.table.on_edge(task.kind(reach, task.rows - row + 1)) else 0)


def step_out(task: EdgeTask, row: int, reach: int) -> int | None:
    """The packed price of a step out to ``reach`` in ``row``, better where no unit stands over the old edge; None where
    it cannot be."""
    if not task.steps or not task.starts(row):
        return None
    below = task.kind(reach, row - 1)  # a step is of whole pitches, so the kind below is the same
    awkward = AWKWARD if task.table.on_edge(below) else 0
    return task.pay * STEP_COST * (2 if task.folded else 1) + awkward


def move(task: EdgeTask, row: int, below: int, reach: int) -> tuple[int, Direction] | None:
    """The packed price of going from ``below`` to ``reach`` in ``row``, and where the line goes; None where it
    cannot."""
    out = reach - below
    middle = task.folded and task.rows % 2 == 1 and row == task.last
    price: int | None
    if out == 0:
        price, direction = 0, Direction.STRAIGHT
    elif abs(out) == 1:
        price = None if middle else (lean_in if out < 0 else lean_out)(task, row, below)
        direction = Direction.IN if out < 0 else Direction.OUT
    elif out < 0:
        price = None if task.folded and out % task.pitch else step_in(task, row, reach)
        direction = Direction.IN
    else:
        price, direction = None if out % task.pitch else step_out(task, row, reach), Direction.OUT
    return None if price is None else (price, direction)


def whole_path(task: EdgeTask, reaches: list[int]) -> tuple[int, ...]:
    """The reaches of all rows from those searched (rows 1 to ``task.last``): of a folded task its mirror added."""
    if not task.folded or task.rows == 1:
        return tuple(reaches)
    above = [_mirror(reaches, row) for row in range(task.rows - task.last)]
    return (*reaches, *reversed(above))


def _mirror(reaches: list[int], row: int) -> int:
    """The reach of row R - ``row``: where the line stands at the top of ``row``, past a corner there."""
    return reaches[0] if row == 0 else mirrored(reaches[row - 1], reaches[row])


def mirrored(below: int, reach: int) -> int:
    """Of a folded line that comes from ``below`` to ``reach``, the reach in the mirror of the row below: a step is a
    corner at its foot, so the mirror stands past it."""
    return reach if abs(reach - below) > 1 else below


def compared(cost: int, task: EdgeTask, other: Sequence[int], reaches: Sequence[int]) -> int:
    """The ``cost`` of a path that was fitted to one curve, by another (``other``, as ``EdgeTask.wanted``), in squared
    ``MICRO``-ths of a half pitch; rows already worked cost nothing by either."""
    rows = [row for row in range(task.rows) if row + 1 not in task.worked]
    apart = sum(
        (reaches[row] * MICRO - other[row]) ** 2 - (reaches[row] * MICRO - task.wanted[row]) ** 2 for row in rows
    )
    return cost + task.copies * apart
