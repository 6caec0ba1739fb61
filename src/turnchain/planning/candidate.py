"""One plan on the lattice, and the order in which plans are weighed.

In: a ``Job`` and the edges of every row. Out: a ``Candidate``, with all that it is weighed by, and ``Candidate.rank``,
the order of preference as one comparable tuple.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from turnchain.fabric import stitches
from turnchain.fabric.plan import RowPlan
from turnchain.planning.armholes import armholes_off
from turnchain.planning.job import Job
from turnchain.planning.moves import Key
from turnchain.planning.necks import NeckErrors, Roundness, WorkedNeck
from turnchain.records import frozen, replace

if TYPE_CHECKING:
    from turnchain.planning.splits import Split


@frozen(slots=False)
class Candidate:
    """One plan on the lattice: ``left`` and ``right`` positions row by row, row 1's left edge at 0.

    ``origin`` is where that 0 lies in the frame of the target, in half pitches. ``split``: how a neck divides the
    piece; the positions here are then those of its outer edges.

    ``missed`` counts the mirrors wanted and not given; ``cost`` is in squared ``MICRO``-ths of a half pitch,
    ``width_off`` in ``MICRO``-ths of a half pitch; ``turns``: the changes of direction of the edges; ``foundation``:
    the chains to make, the turning chain included; ``roundness``: how a round neck keeps to its ellipse; ``neck``:
    None where there is none or no row shows it; ``neck_off``: how far its measures are off; ``armhole_off``: how many
    measures of armholes are out of tolerance, and by how much the worst is, in millionths of a cm.
    """

    left: tuple[int, ...]
    right: tuple[int, ...]
    phase: int
    origin: Fraction
    row_plan: RowPlan
    missed: int
    cost: int
    width_off: int
    turns: int
    foundation: int
    roundness: Roundness = Roundness()
    neck: WorkedNeck | None = None
    neck_off: NeckErrors = NeckErrors()
    armhole_off: tuple[int, int] = (0, 0)
    split: Split | None = None

    @property
    def rows(self) -> int:
        """How many rows."""
        return len(self.left)

    @property
    def edges(self) -> tuple[tuple[int, ...], ...]:
        """All edge lines: the outer ones and, of a divided piece, the inner ones."""
        inner = () if self.split is None else (self.split.left, self.split.right)
        return (self.left, self.right, *inner)

    def in_half_pitches(self, stride: int) -> Candidate:
        """The same with positions in half pitches, of one whose unit is ``stride`` of them."""
        if stride == 1:
            return self
        left, right = (tuple(at * stride for at in edge) for edge in (self.left, self.right))
        return replace(self, left=left, right=right, phase=0, split=self.split and self.split.in_half_pitches(stride))

    @property
    def named(self) -> tuple[int, int]:
        """How many named measures are out of tolerance, and by how much the worst is, in millionths of a cm."""
        (some, worst), (others, other) = self.neck_off.named, self.armhole_off
        return some + others, max(worst, other)

    @property
    def rank(self) -> tuple[int, ...]:
        """The order of preference as one tuple; less is better: mirrors missed, a round neck off its ellipse, named
        measures out of tolerance (how many, then the worst), a corner off the ellipse, nearness, width, turns, errors
        of shoulder, depth and neck width, rows, foundation chain, phase."""
        off = self.neck_off
        return (
            self.missed,
            self.roundness.off,
            *self.named,
            self.roundness.corner,
            self.cost,
            self.width_off,
            self.turns,
            off.shoulder,
            off.depth,
            off.width,
            self.rows,
            self.foundation,
            self.phase,
        )


# A neck that no row shows misses all its measures.
NO_NECK = NeckErrors((4, 10**9), 10**9, 10**9, 10**9)


def candidate(
    job: Job,
    row_plan: RowPlan,
    left: tuple[int, ...],
    right: tuple[int, ...],
    phase: int,
    key: Key,
    missed: int = 0,
    width_off: int | None = None,
    centre: Fraction = Fraction(0),
) -> Candidate:
    """What comes of edges in half pitches, row by row, and of the ``key`` that they were fitted by, in the frame that
    has this ``phase`` about its ``centre``: moved so that row 1's left edge is 0; the phase moves with it. ``missed``:
    the mirrors wanted across that it has not; ``width_off``: that of the key (None)."""
    rows, shift = len(left), left[0]
    missed += int(job.mirrored_along and not _reads_alike(left, right))
    running = job.recipe.running(phase, 1)
    start, end = job.recipe.kind(right[0], running), job.recipe.kind(left[0], running)
    return Candidate(
        left=tuple(at - shift for at in left),
        right=tuple(at - shift for at in right),
        phase=(phase + shift) % 2,
        origin=shift - centre,
        row_plan=row_plan,
        missed=missed,
        cost=key.cost + job.stretch_cost(rows),
        width_off=key.width if width_off is None else width_off,
        turns=key.turns,
        foundation=stitches.foundation(
            job.recipe, job.recipe.clusters(left[0], right[0], running), start, end
        ),
        armhole_off=armholes_off(job, (left, right)),
        **({} if job.target.opening or job.target.neck is None else _of_neck(job, left, right)),
    )


def _of_neck(job: Job, left: tuple[int, ...], right: tuple[int, ...]) -> dict[str, Any]:
    """What a neck that is cut into an edge comes to."""
    from turnchain.planning.upper_edges import neck_at, off_at, roundness_at  # for panels with such a neck

    shaped = left if job.target.right.straight else right
    neck = neck_at(job, shaped)
    off = off_at(job, neck) if neck else NO_NECK
    return {"roundness": roundness_at(job, shaped), "neck": neck, "neck_off": off}


def _reads_alike(left: tuple[int, ...], right: tuple[int, ...]) -> bool:
    """Whether both edge lines, from the foot of row 1 to the head of the last row, read alike from both ends."""
    return all(_line_reads_alike(edge) for edge in (left, right))


def _line_reads_alike(edge: tuple[int, ...]) -> bool:
    line = edge_line(edge)
    return line == [(len(edge) - height, at) for height, at in reversed(line)]


def edge_line(edge: Sequence[int]) -> list[tuple[int, int]]:
    """The edge line as (height in rows, position in half pitches) from the foot of row 1 up, of an ``edge`` with a
    position for every row: a row leans from its foot to its head, a step is a corner at the foot of its row."""
    line = [(0, edge[0])]
    for row, (below, at) in enumerate(pairwise((edge[0], *edge)), start=1):
        if abs(at - below) > 1:
            line.append((row - 1, at))
        line.append((row, at))
    return line
