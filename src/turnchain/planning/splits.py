"""Dividing a piece for its neck: where the two shoulders begin and how their inner edges run.

In: a wish with an opening, the outer edges already on the lattice, and a row count. Out: ``Split`` s, the inner
edges fitted as every edge is.

Both sections keep the body's row numbers and its phase. An inner edge begins anywhere on the last row of the
body: in a gap it makes the section spaced there, on a cluster flush.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from turnchain.fabric import lattice
from turnchain.fabric.lattice import Side
from turnchain.planning.fitting import EdgePath, EdgeTask, Key, fit_edge, micro, squared
from turnchain.planning.job import Job
from turnchain.planning.progress import BegunPiece


@dataclass(frozen=True, slots=True)
class Split:
    """The body ends with row ``after``; from the next row on the left section's right edge stands at ``left`` and
    the right section's left edge at ``right``. ``key`` is what the inner edges cost."""

    after: int
    left: tuple[int, ...]
    right: tuple[int, ...]
    key: Key


@dataclass(frozen=True, slots=True)
class Body:
    """The outer edges of every row, in the frame of the candidate, its ``phase`` and the ``centre`` line of the
    neck in half pitches."""

    left: tuple[int, ...]
    right: tuple[int, ...]
    phase: int
    centre: Fraction

    @property
    def rows(self) -> int:
        """How many rows."""
        return len(self.left)

    @property
    def mirrored(self) -> bool:
        """Whether every row lies evenly about the centre line, on an even width."""
        return all(left + right == 2 * self.centre for left, right in zip(self.left, self.right, strict=True)) and (
            (self.left[0] + self.right[0]) % 2 == 0
        )


def splits(job: Job, body: Body) -> Iterator[Split]:
    """The best split of ``body`` for each of the two rows that enclose the bottom of the wanted opening; of a piece
    begun only what its worked rows still allow. Raises BudgetSpent."""
    opening, height = job.target.opening, job.target.height
    assert opening is not None, "only a piece with an opening is divided"
    if body.rows < 2:
        return  # one row cannot be divided: it has no row below to begin on
    bottom = opening.points[0][0] * body.rows / height
    for after in _places(body, bottom, job.begun):
        halves = [
            opening.at(height * row / body.rows) if row > bottom else Fraction(0) for row in range(1, body.rows + 1)
        ]
        found = _split(job, body, halves, after)
        if found is not None:
            yield found


def _places(body: Body, bottom: Fraction, begun: BegunPiece | None) -> list[int]:
    if begun is not None and begun.after is not None:
        return [begun.after]
    least = 1 if begun is None else begun.rows
    return sorted({min(max(least, row), body.rows - 1) for row in (floor(bottom), ceil(bottom))})


def _split(job: Job, body: Body, halves: list[Fraction], after: int) -> Split | None:
    """The split after row ``after`` for half openings ``halves`` row by row."""
    missed = 2 * sum(squared(half) for half in halves[:after])
    above = halves[after:]
    held = _held(body, after, job.begun)
    right = _inner(job, body, "left", above, after, held["left"])
    if right is None:
        return None
    if body.mirrored:
        mirrored = tuple(int(2 * body.centre) + reach for reach in right.reaches)
        return Split(after, mirrored, tuple(-reach for reach in right.reaches), _with(right.key, missed))
    left = _inner(job, body, "right", above, after, held["right"])
    if left is None:
        return None
    key = Key(*(one + other for one, other in zip(left.key, right.key, strict=True)))
    return Split(after, left.reaches, tuple(-reach for reach in right.reaches), _with(key, missed))


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


def _with(key: Key, cost: int) -> Key:
    return key._replace(cost=key.cost + cost, width=0)


def _inner(
    job: Job, body: Body, side: Side, halves: list[Fraction], after: int, held: dict[int, int]
) -> EdgePath | None:
    """The inner edge of one section: the ``side`` edge of the section on the other side of the centre line.

    Its reach is counted outwards from that section, towards the centre, so that a neck that widens decreases it.
    """
    toward = -body.centre if side == "left" else body.centre
    task = EdgeTask(
        wanted=tuple(micro(toward - half) for half in halves),
        phase=(body.phase + after) % 2,
        steps_out_at=None if body.mirrored else (_starting_parity(side) + after) % 2,
        copies=2 if body.mirrored else 1,
        allowed=_room(body, side, after),
        worked=held,
        budget=job.budget,
    )
    found = fit_edge(task).values()
    return min(found, key=lambda path: path.key.packed(), default=None)


def _starting_parity(side: Side) -> int:
    return 1 if lattice.starting_side(1) == side else 0


def _room(body: Body, side: Side, after: int) -> Callable[[int, int], bool]:
    """Whether an inner edge keeps to its half and leaves its section a cluster; rows are counted from the split."""

    def room(row: int, reach: int) -> bool:
        number = row + after
        if side == "left":
            left, right = -reach, body.right[number - 1]
            beyond = Fraction(left) < body.centre
        else:
            left, right = body.left[number - 1], reach
            beyond = Fraction(right) > body.centre
        return not beyond and lattice.clusters(left, right, number, body.phase) > 0

    return room


def neck_of_split(
    split: Split, body: Body, half: Fraction, row: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """Shoulder, depth and neck width in cm (``half`` and ``row`` in cm); the shoulder is the mean of the two, at
    the top."""
    left = split.left[-1] - body.left[-1]
    right = body.right[-1] - split.right[-1]
    shoulder = Fraction(left + right, 2) * half
    return shoulder, (body.rows - split.after) * row, (split.right[-1] - split.left[-1]) * half


