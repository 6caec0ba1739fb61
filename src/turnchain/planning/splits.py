"""Dividing a piece for its neck: where the two shoulders begin and how their inner edges run.

In: a target with an opening, the outer edges already on the lattice, and a row count. Out: the best ``Split``,
its inner edges fitted as every edge is: for each choice of where the neck begins and ends by a curve through these
measures.

Both sections keep the body's row numbers and its phase. An inner edge begins anywhere on the last row of the
body: in a gap it makes the section spaced there, on a cluster flush.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import product
from math import ceil, floor

from turnchain.fabric import lattice
from turnchain.fabric.lattice import Side
from turnchain.planning.curves import neck_opening
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, Key, micro, squared
from turnchain.planning.necks import NeckErrors, WorkedNeck, on_ellipse
from turnchain.planning.progress import BegunPiece
from turnchain.records import frozen, replace


@frozen
class Split:
    """The body ends with row ``after``; from the next row on, row by row, the left section's right edge stands at
    ``left`` and the right section's left edge at ``right`` (half pitches, in the frame of the ``Body``). ``key`` is
    what both inner edges cost."""

    after: int
    left: tuple[int, ...]
    right: tuple[int, ...]
    key: Key

    def in_half_pitches(self, stride: int) -> Split:
        """The same with positions in half pitches, of one whose unit is ``stride`` of them."""
        left, right = (tuple(at * stride for at in edge) for edge in (self.left, self.right))
        return replace(self, left=left, right=right)


@frozen
class Body:
    """The outer edges of every row in half pitches, in the frame of the candidate (row 1's left edge at 0), its
    ``phase`` and the ``centre`` line of the neck in half pitches. ``any_width``: edges are of one kind; ``slope``: so
    many rows from the last the shoulders slope."""

    left: tuple[int, ...]
    right: tuple[int, ...]
    phase: int
    centre: Fraction
    any_width: bool = False
    slope: int = 0

    @property
    def rows(self) -> int:
        """How many rows."""
        return len(self.left)

    @property
    def arms(self) -> tuple[int, int]:
        """Where both shoulders begin at the arm."""
        return self.left[-1 - self.slope], self.right[-1 - self.slope]

    @property
    def mirrored(self) -> bool:
        """Whether every row lies evenly about the centre line, on a width where both edges are of one kind."""
        both = int(2 * self.centre)
        rows = zip(self.left, self.right, strict=True)
        if both != 2 * self.centre or any(left + right != both for left, right in rows):
            return False
        return both % 2 == 0 or self.any_width


def best_split(job: Job, body: Body, loose: bool) -> Split | None:
    """The split of ``body`` for the first choice of rows and shoulders that can be worked; of a piece begun only what
    its worked rows still allow. ``loose``: at last any split. None where there is none. Raises BudgetSpent."""
    if body.rows < 2:
        return None  # one row cannot be divided: it has no row below to begin on
    second_best: Split | None = None
    for choice in _choices(job, body):
        split = _split(job, body, choice)
        if split is not None:
            if round_enough(job, body, split):
                return split
            second_best = second_best or split
    if second_best or not loose:
        return second_best
    at_last = sorted({*_places(job, body), *_roomy_places(job, body)})
    return next(filter(None, (_split(job, body, _Choice(after)) for after in at_last)), None)


@frozen
class _Choice:
    """The last row of the body, and how wide the shoulders at the left and the right are at the top, in half pitches
    (None: as it comes)."""

    after: int
    shoulders: tuple[int, int] | None = None
    errors: NeckErrors = NeckErrors()

    @property
    def order(self) -> tuple[int, ...]:
        """Less is better: as named measures are compared."""
        errors = self.errors
        return (*errors.named, errors.shoulder, errors.depth, errors.width)


def _choices(job: Job, body: Body) -> list[_Choice]:
    """The choices around the wanted measures in the order of their errors."""
    neck = job.target.neck
    assert neck is not None, "only a piece with a neck is divided"
    wish = neck.shoulder / job.gauge.half
    around = range(max(1, ceil(wish) - 2), floor(wish) + 3)
    choices, mirrored = [], body.mirrored
    for after, left, right in product(_places(job, body), around, around):
        width = body.arms[1] - body.arms[0] - left - right
        if width >= 0 and not (mirrored and left != right):
            worked = WorkedNeck((left, right), body.rows - after, width, sideways=False)
            choices.append(_Choice(after, (left, right), worked.off(neck, job.gauge)))
    return sorted(choices, key=lambda choice: choice.order)


def _places(job: Job, body: Body) -> list[int]:
    """The rows that the piece may be divided after: around the bottom of the wanted neck."""
    if job.begun is not None and job.begun.after is not None:
        return [job.begun.after]
    assert job.target.neck is not None, "only a piece with a neck is divided"
    bottom = body.rows - job.target.neck.reach / job.gauge.row
    least = 1 if job.begun is None else job.begun.rows
    return sorted({min(max(least, row), body.rows - 1) for row in (floor(bottom), ceil(bottom))})


def _roomy_places(job: Job, body: Body) -> range:
    """The rows that a narrow piece may be divided after, the lowest first: both sections have room for a cluster in
    all rows above."""
    left, right = _room(job, body, "left", 0), _room(job, body, "right", 0)
    after = body.rows
    while after > 1 and left(after, -ceil(body.centre)) and right(after, floor(body.centre)):
        after -= 1
    lowest = max([after, *_places(job, body)])
    fixed = job.begun is not None and job.begun.after is not None
    return range(0) if fixed else range(lowest, body.rows)


def _split(job: Job, body: Body, choice: _Choice) -> Split | None:
    """The split of a ``choice``, if its edges can be worked."""
    opening = _opening(job, body, choice)
    middle = body.centre
    if choice.shoulders is not None:
        left_end, right_end = body.arms[0] + choice.shoulders[0], body.arms[1] - choice.shoulders[1]
        middle = Fraction(left_end + right_end, 2)
    right = _inner(job, body, "left", choice, [-middle - half for half in opening[choice.after :]])
    if right is None:
        return None
    inner = tuple(-reach for reach in right.reaches)
    if body.mirrored:
        mirrored = tuple(int(2 * body.centre) + reach for reach in right.reaches)
        found = Split(choice.after, mirrored, inner, right.key._replace(width=0))
        return _compared(job, found, body, middle, opening)
    left = _inner(job, body, "right", choice, [middle - half for half in opening[choice.after :]])
    if left is None:
        return None
    key = Key(*(one + other for one, other in zip(left.key, right.key, strict=True)))
    found = Split(choice.after, left.reaches, inner, key._replace(width=0))
    return _compared(job, found, body, middle, opening)


def _compared(job: Job, split: Split, body: Body, middle: Fraction, opening: list[Fraction]) -> Split:
    """``split``, fitted to an ``opening`` about a ``middle``, with its cost by the opening that is wanted."""
    wanted = _opening(job, body, _Choice(split.after))
    own = sum(_apart(split, middle, opening))
    cost = split.key.cost - own + sum(_apart(split, body.centre, wanted))
    cost += 2 * sum(squared(half) for half in wanted[: split.after])
    return replace(split, key=split.key._replace(cost=cost))


def _apart(split: Split, middle: Fraction, opening: list[Fraction]) -> Iterator[int]:
    """What both inner edges cost in every row of the sections, beside their moves."""
    for left, right, half in zip(split.left, split.right, opening[split.after :], strict=True):
        yield (left * MICRO - micro(middle - half)) ** 2
        yield (right * MICRO - micro(middle + half)) ** 2


def _opening(job: Job, body: Body, choice: _Choice) -> list[Fraction]:
    """Half of the opening wanted at the top of every row, in half pitches: through the measures of the choice."""
    target, rows = job.target, body.rows
    wanted, neck = target.opening, target.neck
    assert wanted is not None, "only a piece with an opening is divided"
    assert neck is not None, "only a piece with a neck is divided"
    if choice.shoulders is None:
        bottom, curve, height = wanted.points[0][0] * rows / target.height, wanted, target.height
        if neck.shape == "square":  # its foot is a corner: half a row more or less of depth is no row off
            bottom = Fraction(floor(bottom + Fraction(1, 2)))
    else:
        width = body.arms[1] - body.arms[0] - sum(choice.shoulders)
        height, half = rows * job.gauge.row, job.gauge.half
        depth = (rows - choice.after) * job.gauge.row
        cut = neck_opening(neck.shape, height, width * half, depth, half / job.gauge.row)
        bottom, curve = Fraction(choice.after), cut.scaled(1 / half)
    first = max(1, floor(bottom) + 1)
    above = curve.sampled([height / rows * row for row in range(first, rows + 1)])
    return [*[Fraction(0)] * (rows - len(above)), *above]


def round_enough(job: Job, body: Body, split: Split) -> bool:
    """Whether both edges of a round neck keep within half a pitch of the ellipse through its measures; True for every
    other neck."""
    neck = neck_of_split(split, body)
    if job.target.neck is None or job.target.neck.shape != "round" or not neck.width:
        return True
    middle = Fraction(split.left[-1] + split.right[-1], 2)
    above = [neck.depth - 1 - index for index in range(neck.depth)]
    points = [(at - middle, down) for edge in (split.left, split.right) for at, down in zip(edge, above, strict=True)]
    return on_ellipse(neck, job.gauge, points)


def _held(body: Body, after: int, begun: BegunPiece | None) -> dict[Side, dict[int, int]]:
    """The inner edges' worked rows as reaches, counted from the split; mirrored, one side holds for the other."""
    held: dict[Side, dict[int, int]] = {"left": {}, "right": {}}
    if begun is None:
        return held
    held["left"] = {row - after: -at for row, at in begun.lines["inner_right"].items()}
    held["right"] = {row - after: at for row, at in begun.lines["inner_left"].items()}
    if body.mirrored:
        held["left"] |= {row: at - int(2 * body.centre) for row, at in held["right"].items()}
    return held


def _inner(job: Job, body: Body, side: Side, choice: _Choice, wanted: list[Fraction]) -> EdgePath | None:
    """The inner edge of one section: the ``side`` edge of the section on the other side of the centre line.

    ``wanted`` is of its own rows, from the first above the split. Its reach is counted outwards from that section,
    towards the centre, so that a neck that widens decreases it. An end that only a forced increase makes possible is
    none.
    """
    after = choice.after
    task = EdgeTask(
        wanted=tuple(map(micro, wanted)),
        phase=job.recipe.running(body.phase, after),
        table=job.recipe.table,
        steps_out_at=None if body.mirrored else (_starting_parity(side) + after) % 2,
        copies=2 if body.mirrored else 1,
        allowed=_room(job, body, side, after),
        worked=_held(body, after, job.begun)[side],
        steps=job.target.neck is None or job.target.neck.shape != "slant",
        budget=job.budget,
    )
    if choice.shoulders is None:
        return _least(fit_edge(task).values())
    end = choice.shoulders[1] - body.arms[1] if side == "left" else body.arms[0] + choice.shoulders[0]
    if task.worked.get(task.rows, end) != end:
        return None
    task = replace(task, limits={task.rows: (end, end)})
    natural = _least(fit_edge(replace(task, natural=True)).values())
    if natural is None or natural.key.cost <= task.copies * task.table.dearest * MICRO**2:
        return natural
    return _least(fit_edge(task).values())


def _least(paths: Iterable[EdgePath]) -> EdgePath | None:
    return min(paths, key=lambda path: path.key.packed(), default=None)


def _starting_parity(side: Side) -> int:
    return 1 if lattice.starting_side(1) == side else 0


def _room(job: Job, body: Body, side: Side, after: int) -> Callable[[int, int], bool]:
    """Whether an inner edge keeps to its half and leaves its section a cluster that stands on the row below, and not on
    the chain of a step outwards; rows are counted from the split."""

    nearest, farthest = ceil(body.centre), floor(body.centre)

    def room(row: int, reach: int) -> bool:
        number = row + after
        low, high = max(0, number - 2), number - 1
        if side == "left":
            left, right = -reach, min(body.right[low], body.right[high])
            beyond = left < nearest
        else:
            left, right = max(body.left[low], body.left[high]), reach
            beyond = right > farthest
        return not beyond and job.recipe.clusters(left, right, job.recipe.running(body.phase, number)) > 0

    return room


def neck_of_split(split: Split, body: Body) -> WorkedNeck:
    """The neck between the two sections: shoulders and width in half pitches at their tops, depth in rows."""
    left, right = split.left[-1] - body.arms[0], body.arms[1] - split.right[-1]
    first_on_right = lattice.starting_side(split.after + 1) == "right"
    shoulders = (right, left) if first_on_right else (left, right)
    return WorkedNeck(shoulders, body.rows - split.after, split.right[-1] - split.left[-1], sideways=False)
