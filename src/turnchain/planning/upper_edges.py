"""The upper edge of a panel worked sideways that has parts: its measures, counted, and the paths that come nearest.

In: a ``Job`` whose target has a ``Profile``, and the task of that edge. Out: ``FittedUpper`` s; or what an edge comes
to.

Armholes and neck have their measures first, as a neck by itself has: how many rows lie under an armhole follows from
where rows start; how deep it is, and where the neck begins and ends, are chosen, the nearest first. What lies between
the armholes is a panel with a neck of its own, which ``sideways_necks`` fits; half a front has only one side of a neck,
which is fitted here. With all that held, one exact search fits the whole edge, so that a curve under the arm, a slope
or a cap come as near as they can.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise, product
from math import ceil, floor, hypot
from typing import NamedTuple

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Fit, RowPlan
from turnchain.planning.counts import counted_widths
from turnchain.planning.fitting import EdgePath, fit_edge
from turnchain.planning.job import Job
from turnchain.planning.moves import MICRO, EdgeTask, compared, micro
from turnchain.planning.necks import NeckErrors, Roundness, WorkedNeck, neck_of_edge, tolerances
from turnchain.planning.pairs import beside
from turnchain.planning.profiles import Profile
from turnchain.planning.sideways_necks import nearest_natural, neck_path, roundness_of
from turnchain.planning.targets import reaches
from turnchain.records import replace

Limits = dict[int, tuple[int, int]]
#: A cap may be so many half pitches higher or lower than reckoned, for an edge as long as its armholes.
_CAPS = 5


class Arm(NamedTuple):
    """An armhole as worked: so many ``rows`` under the arm, and how many half pitches its edge goes up (``deep``)."""

    rows: int = 0
    deep: int = 0


class WorkedParts(NamedTuple):
    """The parts of an edge as worked: the ``armholes`` at its first row and at its last (``Arm()`` where there is
    none), and the rows ``between`` them, the first and the last."""

    armholes: tuple[Arm, Arm]
    between: tuple[int, int]


class FittedUpper(NamedTuple):
    """An edge of a panel that is ``start`` half pitches wide in row 1, in the frame of ``phase``, and how far off the
    whole width is in ``MICRO``-ths of a half pitch."""

    start: int
    phase: int
    path: EdgePath
    width_off: int


# --------------------------------------------------------------------------------------------------- as worked


def parts_of(whole: Profile, edge: Sequence[int]) -> WorkedParts:
    """The parts of an edge, by the reaches of its rows: an armhole ends or begins at the largest step between the end
    of the piece and its neck."""
    rows = len(edge)
    out = [row for row in range(2, rows + 1) if edge[row - 1] > edge[row - 2]]
    into = [row for row in range(2, rows + 1) if edge[row - 1] < edge[row - 2]]

    def by(row: int) -> int:
        return abs(edge[row - 1] - edge[row - 2])

    up = [row for row in out if row < min(into, default=rows + 1)] if whole.armed[0] else []
    down = [row for row in into if row > max(out, default=0)] if whole.armed[1] else []
    first, last = Arm(), Arm()
    if up:
        row = max(up, key=by)
        first = Arm(row - 1, edge[row - 1] - edge[0])
    if down:
        row = max(reversed(down), key=by)
        last = Arm(rows - row + 1, edge[row - 2] - edge[-1])
    return WorkedParts((first, last), (first.rows + 1, rows - last.rows))


def neck_between(whole: Profile, edge: Sequence[int]) -> WorkedNeck | None:
    """The neck between the armholes; of half a front both its shoulders are the one there is, and it is twice as wide
    as up to the middle. None where there is none."""
    begins, ends = parts_of(whole, edge).between
    inner = [*edge[begins - 1 : ends]]
    top = max(inner)
    low = [nth for nth, reach in enumerate(inner) if reach < top and _in_neck(whole, inner, nth, top)]
    if not low:
        return None
    depth = top - min(inner[nth] for nth in low)
    first, last = low[0], len(inner) - 1 - low[-1]
    if last and inner[low[-1]] == top - 1 and whole.opens != "last":
        last -= 1  # a row that leans back belongs to the neck
    if whole.opens:
        shoulder = first if whole.opens == "last" else last
        return WorkedNeck((shoulder, shoulder), depth, 2 * (len(inner) - shoulder), sideways=True)
    return WorkedNeck((first, last), depth, len(inner) - first - last, sideways=True)


def _in_neck(whole: Profile, inner: Sequence[int], nth: int, top: int) -> bool:
    """Whether a row lower than the ``top`` is no slope of a shoulder: it has come down from there, and goes up again,
    or has its end in the middle of the body."""
    before = whole.opens == "first" or top in inner[:nth]
    return before and (whole.opens == "last" or top in inner[nth:])


def levelled(whole: Profile, edge: Sequence[int]) -> tuple[int, ...]:
    """The rows between the armholes, shoulders that slope made level."""
    begins, ends = parts_of(whole, edge).between
    inner = edge[begins - 1 : ends]
    top = max(inner)
    return tuple(reach if _in_neck(whole, inner, nth, top) else top for nth, reach in enumerate(inner))


def arm_fits(job: Job, edge: Sequence[int]) -> Iterator[Fit]:
    """Depth and width of the armholes in cm, by the sides as worn where they are not alike; the height of a cap."""
    whole = job.target.profile
    assert whole is not None, "only a panel with parts"
    if whole.cap is not None:
        yield Fit("cap edge", whole.cap.long, _long(job, edge))
    arms = parts_of(whole, edge).armholes
    found = {side: arms[nth] for nth, side in enumerate(_sides(job)) if whole.armed[nth]}
    alike = len(set(found.values())) < 2
    for side, arm in [(side, found[side]) for side in SIDES if side in found][: 1 if alike else None]:
        name = "armhole" if alike else f"{side} edge armhole"
        yield Fit(f"{name} depth", whole.deep, arm.deep * job.gauge.half)
        yield Fit(f"{name} width", whole.wide, arm.rows * job.gauge.row)


def _long(job: Job, edge: Sequence[int]) -> Fraction:
    """The length of an edge in cm, each row that leans to a millionth."""
    half, row = job.gauge.half, job.gauge.row
    moves = [abs(above - below) for below, above in pairwise((edge[0], *edge))]
    leans = sum(move == 1 for move in moves)
    level = sum((move for move in moves if move > 1), 0) * half
    return (len(moves) - leans) * row + level + leans * Fraction(round(hypot(half, row) * MICRO), MICRO)


def _sides(job: Job) -> tuple[Side, Side]:
    """Where the first row and the last lie as worn, seen from the right side."""
    return ("right", "left") if job.target.top == "right" else ("left", "right")


def arms_off(job: Job, edge: Sequence[int]) -> tuple[int, int]:
    """How many measures of armholes and caps are out of tolerance, and by how much the worst is, in millionths of a
    cm: the whole edge of a cap may be a row off."""
    along, across = tolerances(job.gauge, True)
    most_of = {"depth": across, "width": along, "edge": 2 * along}
    fits = ((fit, most_of[fit.measure.rpartition(" ")[2]]) for fit in arm_fits(job, edge))
    missed = [micro(abs(fit.off)) for fit, most in fits if abs(fit.off) > most]
    return len(missed), max(missed, default=0)


def neck_at(job: Job, edge: Sequence[int]) -> WorkedNeck | None:
    """The neck cut into an ``edge`` of a panel worked sideways, positions in half pitches row by row; None where there
    is none."""
    whole = job.target.profile
    return neck_of_edge(edge) if whole is None else neck_between(whole, _outwards(job, edge))


def roundness_at(job: Job, edge: Sequence[int]) -> Roundness:
    """How the neck of such an ``edge`` keeps to its ellipse; of half a front that is not asked."""
    whole = job.target.profile
    if whole is None:
        return roundness_of(job, edge)
    return Roundness() if whole.opens else roundness_of(job, levelled(whole, _outwards(job, edge)))


def _outwards(job: Job, edge: Sequence[int]) -> Sequence[int]:
    return edge if job.target.top == "right" else [-at for at in edge]


def off_at(job: Job, neck: WorkedNeck) -> NeckErrors:
    """How far a ``neck`` is from what is wanted: of half a front its shoulder and its depth."""
    wanted, whole = job.target.neck, job.target.profile
    assert wanted is not None, "only with a neck"
    if whole is None or not whole.opens:
        return neck.off(wanted, job.gauge)
    along, across = tolerances(job.gauge, True)
    shoulder = abs(neck.shoulders[0] * job.gauge.row - wanted.shoulder)
    depth = abs(neck.depth * job.gauge.half - wanted.reach)
    missed = [micro(off) for off, most in ((shoulder, along), (depth, across)) if off > most]
    return NeckErrors((len(missed), max(missed, default=0)), micro(shoulder), micro(depth))


# --------------------------------------------------------------------------------------------------- as fitted


class _Heights(NamedTuple):
    """What is chosen across the rows, in half pitches: how ``deep`` armholes are, how much higher shoulders are at the
    neck (``slope``), how deep the ``neck`` of half a front is, how high a ``cap`` is."""

    deep: int = 0
    slope: int = 0
    neck: int = 0
    cap: int = 0

    def below_top(self, whole: Profile, first: bool) -> int:
        """How much lower the first row, or the last, is than the top of the shoulders."""
        if whole.opens == ("first" if first else "last"):
            return self.neck
        return self.slope + (self.deep if whole.armed[0 if first else 1] else 0) + self.cap


def fitted_uppers(
    job: Job, row_plan: RowPlan, rows: int, task: EdgeTask, side: Side, loose: bool
) -> Iterator[FittedUpper]:
    """The best edges of ``rows`` rows at a ``side``, one for each depth of armhole, width and phase. ``task``: the
    edge, which its start and its phase are still to be given."""
    whole = job.target.profile
    assert whole is not None, "only a panel with parts"
    for heights in _heights(job, whole):
        up = heights.below_top(whole, first=True) - heights.cap
        for width, (_, phase) in product(_widths(job, row_plan, heights), job.panel_frames()):
            start = width if side == "right" else 0
            opposite = 0 if side == "right" else width
            allowed = beside(job.room(phase, rows), opposite, side)
            wanted = tuple(mark + start * MICRO for mark in task.wanted)
            marks = tuple(mark + start * MICRO for mark in _chosen_marks(job, whole, heights, width + up, rows))
            own = replace(task, wanted=marks, phase=phase, start=start, allowed=allowed)
            path = _fitted(job, whole, own, heights, loose)
            if path is not None:  # plans are compared by the curve that is wanted
                cost = compared(path.key.cost, own, wanted, path.reaches)
                path = replace(path, key=path.key._replace(cost=cost))
                off = micro(abs(width + up - job.target.width / job.gauge.half))
                yield FittedUpper(width, phase, path, off)


def _chosen_marks(job: Job, whole: Profile, heights: _Heights, top: int, rows: int) -> tuple[int, ...]:
    """What is wanted of each row's reach, from that of row 1, where these heights are chosen and shoulders end ``top``
    half pitches up, in ``MICRO``-ths of one."""
    half, armhole, neck, cap = job.gauge.half, whole.armhole, whole.neck, whole.cap
    made = replace(
        whole,
        length=top * half,
        slope=heights.slope * half,
        armhole=None if armhole is None else replace(armhole, depth=heights.deep * half),
        neck=replace(neck, depth=heights.neck * half) if neck is not None and whole.opens else neck,
        cap=None if cap is None else replace(cap, height=heights.cap * half),
    )
    curve = reaches(made, rows, job.arm_rows(rows), job.gauge)
    return tuple(map(micro, curve.sampled([job.target.height * top / rows for top in job.tops(rows)[1:]])))


def _widths(job: Job, row_plan: RowPlan, heights: _Heights) -> list[int]:
    """The widths of row 1 to be tried: of the rows at the side, which are counted as those of the pieces they are sewn
    to are, and so of row 1 where half a front begins at its middle."""
    whole, piece = job.target.profile, job.target.piece
    assert whole is not None, "only a panel with parts"
    below = heights.below_top(whole, first=whole.opens != "first") - heights.cap
    if whole.opens != "first":
        return counted_widths(job, row_plan, below)
    if job.begun is not None or piece.exact_chain is not None:
        return counted_widths(job, row_plan)
    if piece.exact_clusters is not None:
        return [2 * piece.exact_clusters + more for more in range(3)]
    return [side + below - heights.neck for side in counted_widths(job, row_plan, below)]


def _heights(job: Job, whole: Profile) -> Iterator[_Heights]:
    """Those next to the wanted ones; of an armhole and the neck of half a front all within tolerance."""
    half = job.gauge.half
    deep = _near(whole.deep / half, 2) if any(whole.armed) else [0]
    if whole.armhole is not None and whole.armhole.shape == "square" and not job.recipe.table.by_pitches:
        deep = [one for one in deep if one % 2 == 0]  # a step outwards, here or in the piece it is sewn to
    neck = job.target.neck
    halved = _near(neck.reach / half, 1) if whole.opens and neck is not None else [0]
    caps = [0]
    if whole.cap is not None:
        high = max(1, round(whole.cap.height / half))
        caps = [*range(max(1, high - _CAPS), high + _CAPS + 1)]
    slope = max(1, round(whole.slope / half)) if whole.slope else 0
    for one, other, cap in product(deep, halved, caps):
        yield _Heights(one, slope, other, cap)


def _near(wanted: Fraction, least: int) -> list[int]:
    """The whole numbers no more than one from ``wanted``, none less than ``least``."""
    return sorted({max(least, number) for number in range(ceil(wanted - 1), floor(wanted + 1) + 1)})


def _fitted(job: Job, whole: Profile, task: EdgeTask, heights: _Heights, loose: bool) -> EdgePath | None:
    """The nearest path with these heights; None where there is none."""
    under = job.arm_rows(task.rows)
    if under[0] + under[1] >= task.rows:
        return None
    for limits in _between(job, whole, task, heights, under, loose):
        fixed = replace(task, limits={**_outer(whole, task, heights, under), **limits})
        if any(low > high for low, high in fixed.limits.values()):
            continue
        path = nearest_natural(fixed)
        if path is None and loose:
            path = next(iter(fit_edge(fixed).values()), None)
        if path is not None:
            return path
    return None


def _outer(whole: Profile, task: EdgeTask, heights: _Heights, under: tuple[int, int]) -> Limits:
    """Where the rows under the armholes may stand, and those of a cap."""
    assert task.start is not None, "a panel's edge starts where its width puts it"
    rows, start = task.rows, task.start
    last = start + heights.below_top(whole, first=True) - heights.below_top(whole, first=False)
    limits: Limits = {}
    curved = whole.armhole is not None and whole.armhole.shape == "curved"
    for row in range(1, under[0] + 1):
        limits[row] = start, start + (heights.deep - 2 if curved else 0)
    for row in range(rows - under[1] + 1, rows + 1):
        limits[row] = last, last + (heights.deep - 2 if curved else 0)
    limits[rows] = last, last
    if heights.cap:
        limits |= dict.fromkeys(range(1, rows + 1), (start, start + heights.cap))
        limits[rows] = start, start
        limits[(rows + 1) // 2] = start + heights.cap, start + heights.cap
    return limits


def _between(
    job: Job, whole: Profile, task: EdgeTask, heights: _Heights, under: tuple[int, int], loose: bool
) -> Iterator[Limits]:
    """Where the rows between the armholes may stand, the nearest choice first."""
    assert task.start is not None, "a panel's edge starts where its width puts it"
    begins, ends = under[0] + 1, task.rows - under[1]
    top = task.start + heights.below_top(whole, first=True)
    if heights.cap:
        yield {}
    elif job.target.neck is None:
        yield dict.fromkeys(range(begins, ends + 1), (top, top))
    elif whole.opens:
        for limits in _half_necks(job, whole, task, heights, (begins, ends)):
            yield _sloped(limits, top, heights.slope, whole)
    else:
        shifted = (task.phase + task.table.shift * under[0]) % 2
        inner = replace(
            task, wanted=task.wanted[begins - 1 : ends], phase=shifted, start=top, limits={},
            steps_out_at=None if task.steps_out_at is None else (task.steps_out_at - under[0]) % 2,
            allowed=lambda row, reach: task.allowed(row + under[0], reach),
            worked=_as_level(task.worked, begins, ends, top),
        )  # fmt: skip
        path = neck_path(job, inner, loose)
        if path is not None:
            held = {begins + nth: (reach, reach) for nth, reach in enumerate(path.reaches)}
            yield _sloped(held, top, heights.slope, whole)


def _as_level(worked: Mapping[int, int], begins: int, ends: int, top: int) -> dict[int, int]:
    """The rows that are worked already from row ``begins`` to ``ends``, numbered from 1, those of a first shoulder that
    slopes made level with its ``top``."""
    inside = {row: reach for row, reach in worked.items() if begins <= row <= ends}
    down = min((row for row, reach in inside.items() if reach < inside.get(row - 1, reach)), default=ends + 1)
    return {row - begins + 1: top if row < down else reach for row, reach in inside.items()}


def _sloped(limits: Limits, top: int, slope: int, whole: Profile) -> Limits:
    """``limits`` of a neck between level shoulders, these made to rise to it by so much of a ``slope``."""
    if not slope:
        return limits
    rows = sorted(limits)
    shoulders = []
    for order, end in ((rows, "first"), (rows[::-1], "last")):
        level = next((nth for nth, row in enumerate(order) if limits[row] != (top, top)), len(order))
        if whole.opens != end and level < len(order):
            shoulders.append(order[:level])
    found = dict(limits)
    for rows in shoulders:
        if len(rows) < 2:
            return {0: (1, 0)}  # nothing
        found |= dict.fromkeys(rows, (top - slope, top))
        found[rows[0]], found[rows[-1]] = (top - slope, top - slope), (top, top)
    return found


def _half_necks(
    job: Job, whole: Profile, task: EdgeTask, heights: _Heights, between: tuple[int, int]
) -> Iterator[Limits]:
    """One side of a neck, from the shoulder to the middle of a front, by the errors of the shoulder; one that slants is
    to lean up to the shoulder, and steps there where it cannot."""
    wanted, (begins, ends) = job.target.neck, between
    assert wanted is not None, "only with a neck"
    assert task.start is not None, "a panel's edge starts where its width puts it"
    top = task.start + heights.below_top(whole, first=True)
    bottom, shoulder = top - heights.neck, wanted.shoulder / job.gauge.row
    counts = [rows for rows in range(max(1, floor(shoulder) - 1), ceil(shoulder) + 2) if rows <= ends - begins]
    square, stepped = wanted.shape == "square", list[Limits]()
    for rows in sorted(counts, key=lambda rows: (abs(rows - shoulder), rows)):
        if whole.opens == "last":
            edge = begins + rows
            limits = dict.fromkeys(range(begins, edge), (top, top))
            limits |= dict.fromkeys(range(edge, ends + 1), (bottom, top - 1))
            limits[edge] = bottom, top - (2 if square and heights.neck > 1 else 1)
            limits[ends] = bottom, bottom
            yield limits
            continue
        edge = ends - rows  # the last row of the neck
        level = dict.fromkeys(range(edge + 1, ends + 1), (top, top))
        inside = dict.fromkeys(range(begins, edge + 1), (bottom, top))
        inside[begins] = bottom, bottom
        step = {**inside, edge: (max(bottom, inside[edge][0]), min(top - 2, inside[edge][1])), **level}
        if wanted.shape in ("slant", "vee"):
            stepped.append(step)
        else:
            yield step
        if edge > begins:
            yield {**inside, edge - 1: (max(top - 1, inside[edge - 1][0]), min(top - 1, inside[edge - 1][1])),
                   edge: (top, top), **level}  # fmt: skip
    yield from stepped
