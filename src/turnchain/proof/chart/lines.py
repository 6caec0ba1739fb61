"""The rows of a picture: how high they are, which symbols make one, and which way it is worked.

In: what the picture shows. Out: a ``Line`` for each row; a row is worked to the side that its turning chain does not
stand at. ``UnreadableChart`` and ``Unworkable`` name the row.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from turnchain.proof.chart.marks import Band, ChartSymbol, DrawnChart, Point, Sign, UnreadableChart, between, length
from turnchain.proof.hook.stitches import TURNING, WorkedRow, refuse


@dataclass(slots=True)
class Line:
    """A row in the picture: its ``level`` from the bottom, from 1, the y of its top and its height (``rise``) in px,
    its symbols by kind (``dcs`` and ovals in the order worked), and the way it is worked (1: to the right, -1: to the
    left). Lying ``ovals`` between the heads are gaps, those at the feet (``chain``) a chain stepped out on. ``kind``:
    "cluster", or the stitch of a solid row."""

    level: int
    top: float
    rise: float
    kind: str
    towards: int
    dcs: list[ChartSymbol]
    ovals: list[ChartSymbol]
    chain: list[ChartSymbol]
    dots: list[ChartSymbol]
    post: ChartSymbol  # the turning chain: where it stands and where it ends
    start_leg: ChartSymbol | None = None  # joined at its head with the edge stitch where the row begins
    end_leg: ChartSymbol | None = None  # the same where it ends

    def along(self, x: float) -> float:
        """``x`` (px) with a sign that makes it grow in the direction of work."""
        return x * self.towards


@dataclass(slots=True)
class Tops:
    """A worked row in the picture: the x in px of every spot that is a stitch, in the order worked, None for spaces."""

    row: WorkedRow
    line: Line
    xs: list[float | None]

    @property
    def edges(self) -> tuple[float, float]:
        """The x of its left and of its right edge, px."""
        ends = [x for x in (self.xs[0], self.xs[-1]) if x is not None]
        return min(ends), max(ends)

    @property
    def middle(self) -> float:
        """The x half way between its edges, px."""
        return sum(self.edges) / 2


class Lines:
    """All rows of a picture, those of a kind equally high: ``levels`` (from 1), heights (``rises``, px) and ``kinds``
    by the y of their tops. Raises UnreadableChart where rows of a kind are not equally high."""

    def __init__(self, drawn: DrawnChart) -> None:
        self.rows, self.stitch, self.k, self.foundation = drawn.rows, drawn.stitch, drawn.k, drawn.foundation
        tops = sorted({top for top, _ in drawn.rows}, reverse=True)
        self.levels = {top: nth for nth, top in enumerate(tops, start=1)}
        self.rises = {top: low - top for low, top in pairwise((tops[0] + self._first_rise(), *tops))}
        self.kinds = {top: self._kind(top, marks) for top, marks in drawn.rows}
        self.bare = self._bare(drawn.bands)
        self.turning, self.counts = self._turns(drawn.bands)
        for kind in set(self.kinds.values()):
            of_it = [self.rises[top] for top, its in self.kinds.items() if its == kind]
            if max(of_it) - min(of_it) > 0.5:
                raise UnreadableChart(f"the rows of {kind} are not equally high")

    def _turns(self, bands: Sequence[Band]) -> tuple[int, bool]:
        """How many chains turn before a row of clusters, and whether they are its edge stitch: a stitch stands as far
        inside the stripe where it begins as where it ends, if they are not. By the lowest such row."""
        top = max((top for top, kind in self.kinds.items() if kind == "cluster"), default=0.0)
        marks = next((marks for one, marks in self.rows if one == top), ())
        standing = [mark.head[0] for mark in marks if mark.sign == "standing"]
        heads = sorted(mark.head[0] for mark in marks if mark.sign == "dc")
        stripes = [band.box for band in bands if band.box[1] < top + self.rises.get(top, 0) / 2 < band.box[3]]
        if not standing or not heads or len(stripes) != 1:
            return TURNING[self.stitch]
        left, _, right, _ = stripes[0]
        if self.bare:
            return len(standing), True
        return len(standing), abs(heads[0] - left - (right - heads[-1])) > _JOINED

    def _bare(self, bands: Sequence[Band]) -> bool:
        """Whether a row begins or ends with a cluster, its turning chain the first stitch of that. Of several stitches
        it is seen by the feet that stand together there; of one by stripes that reach farther than the outermost
        stitch at some edges only."""
        rows = [(top, marks) for top, marks in self.rows if self.kinds[top] == "cluster"]
        if self.k == 1:
            return self._bare_stitches(rows, bands)
        closed = not any(self._has_gaps(top, marks) for top, marks in rows)
        if self.k == 2 and closed:  # two stitches at an edge are an edge stitch and its filling, but where all are two
            return any(sum(mark.sign == "dc" for mark in marks) == 1 for _, marks in rows)
        return any(self._bare_row(top, marks, closed) for top, marks in rows)

    def _bare_row(self, top: float, marks: tuple[ChartSymbol, ...], closed: bool) -> bool:
        standing = [mark for mark in marks if mark.sign == "standing"]
        line = sorted((one for one in marks if one.sign in ("dc", "lying")), key=lambda mark: mark.head[0])
        dcs = [mark for mark in line if mark.sign == "dc"]
        if len(standing) < 2 or len(dcs) < self.k - 1:
            return False
        post = _post(self.levels[top], standing)
        if post.head[0] > sum(mark.head[0] for mark in dcs) / len(dcs):
            line.reverse()
            dcs.reverse()
        if self.levels[top] > 1:  # its foot stands with those beside it, or on a chain
            stands = length(between(post.foot, dcs[0].foot)) < _ONE_PLACE * self.rises[top]
        else:
            places = sorted(x for x, _ in self.foundation)
            apart = min((b - a for a, b in pairwise(places)), default=0.0)
            stands = any(abs(x - post.foot[0]) < _ON_CHAIN * apart for x in places)
        if not closed or self.levels[top] == 1:  # on the foundation each stands on a chain of its own
            whole = [post, *line]
            ends = self.levels[top] == 1 or _together(dcs[::-1]) >= self.k
            return (stands and _fan(whole, self.k)) or (ends and _fan(whole[::-1], self.k))
        return (stands and _together(dcs) == self.k - 1) or _together(dcs[::-1]) == self.k

    def _bare_stitches(self, rows: list[tuple[float, tuple[ChartSymbol, ...]]], bands: Sequence[Band]) -> bool:
        apart: list[float] = []
        if len({(band.box[0], band.box[2]) for band in bands}) != 1:  # such pieces are straight
            return False
        for top, marks in rows:
            heads = [mark.head[0] for mark in marks if mark.sign in ("dc", "standing")]
            dcs = [mark.head[0] for mark in marks if mark.sign == "dc"]
            stripes = [band.box for band in bands if band.box[1] < top + self.rises[top] / 2 < band.box[3]]
            if len(stripes) != 1 or len(heads) < 2 or not self._has_gaps(top, marks):
                return False
            from_first = dcs if len(dcs) > 1 else heads
            far = (max(from_first) - min(from_first)) / (len(from_first) - 1)
            apart += [min(abs(x - end) for x in heads) / far for end in (stripes[0][0], stripes[0][2])]
        return bool(apart) and max(apart) - min(apart) > _BEYOND

    def _kind(self, top: float, marks: tuple[ChartSymbol, ...]) -> str:
        """Whether a row is one of clusters, or of one stitch after another. Of the stitch of the clusters it is such a
        row where no two stand in one place and each stands in a stitch, or on the foundation where those above it
        do."""
        dcs = [mark for mark in marks if mark.sign == "dc"]
        stitches = {mark.stitch for mark in dcs}
        if len(stitches) > 1:
            raise UnreadableChart(f"row {self.levels[top]}: stitches of several kinds")
        if not stitches or stitches != {self.stitch}:
            return stitches.pop() if stitches else "cluster"
        if any(mark.sign == "lying" for mark in marks) or self._shared(dcs):
            return "cluster"
        chains = any(self._has_gaps(one, others) for one, others in self.rows)
        if chains and self.levels[top] == 1 and len(dcs) > self.k + 2:
            return self.stitch
        if self.k == 1 and not chains:
            return "cluster"
        deep = dcs if self.levels[top] > 1 else self._inner_of_second()
        return self.stitch if deep and all(self._in_stitch(mark) for mark in deep) else "cluster"

    def _has_gaps(self, top: float, marks: tuple[ChartSymbol, ...]) -> bool:
        """Whether chains lie between the heads of a row; those at its feet lead to a step out."""
        return any(mark.sign == "lying" and mark.head[1] < top + self.rises[top] / 2 for mark in marks)

    def _inner_of_second(self) -> list[ChartSymbol]:
        """The dc of row 2 but for its edges that stand between the edge stitches of row 1: on those a cluster stands
        where an edge goes outwards, which it never does over a solid row. None where row 2 is no row of clusters."""
        dcs = [mark for mark in (self.rows[1][1] if len(self.rows) > 1 else ()) if mark.sign == "dc"]
        dcs.sort(key=lambda mark: mark.head[0])
        if self.k > 1 and not self._shared(dcs):
            return []
        signs = ("dc", "standing") if TURNING[self.stitch][1] else ("dc",)
        heads = sorted(mark.head[0] for mark in self.rows[0][1] if mark.sign in signs)
        beside = (heads[-1] - heads[0]) / len(heads) / 2
        return [mark for mark in dcs[1:-1] if heads[0] + beside < mark.foot[0] < heads[-1] - beside]

    def _in_stitch(self, mark: ChartSymbol) -> bool:
        """Whether a foot reaches into the row below its own."""
        top = max(top for top in self.levels if top < mark.head[1])
        return mark.foot[1] > top + self.rises[top] + 0.02 * self.rises[top]

    def _shared(self, dcs: list[ChartSymbol]) -> bool:
        """Whether two of the ``dcs`` stand in one place."""
        feet = sorted(mark.foot for mark in dcs)
        return any(length(between(one, other)) < 0.05 for one, other in pairwise(feet))

    def _first_rise(self) -> float:
        """The height of row 1: from its top to the feet on the chain."""
        top, marks = self.rows[0]
        feet = [mark.foot[1] for mark in marks if mark.sign == "dc"]
        if not feet or max(feet) <= top:
            raise UnreadableChart("row 1: no dc below its top")
        return max(feet) - top

    def stacked(self, inner: int, k: int) -> bool:
        """Whether clusters stand on the middle of clusters: by chains in them; by feet in a row of clusters on another
        that reach into it elsewhere than at its edges and, of ``k`` stitches to a cluster, by those of row 1 together
        in one chain, which alone shows it where no clusters stand on clusters."""
        tops = sorted(self.levels, reverse=True)
        cluster = [self.kinds[top] == "cluster" for top in tops]
        if not all(cluster):
            return False  # solid rows go with clusters that are worked into spaces
        known = next((nth for nth in range(1, len(tops)) if cluster[nth - 1] and cluster[nth]), None)
        feet = [mark.foot for mark in self.line(*self.rows[0]).dcs]
        together = k == 1 or any(length(between(one, other)) < 0.05 for one, other in pairwise(feet))
        if inner or known is None or not together:
            return inner > 0 or (k > 1 and together)
        below, line = (self.line(top, self._marks(top)) for top in (tops[known - 1], tops[known]))
        edges = (line.post.foot[0], line.dcs[-1].foot[0], below.post.head[0], below.dcs[-1].head[0])
        inner_feet = [mark.foot[1] for mark in line.dcs if all(abs(mark.foot[0] - x) > 1 for x in edges)]
        return any(y > line.top + 1.02 * line.rise for y in inner_feet)

    def _marks(self, top: float) -> tuple[ChartSymbol, ...]:
        return next(marks for one, marks in self.rows if one == top)

    def gap(self, inner: int) -> int:
        """The chains between two clusters: as many as lie side by side in the first row that has any; 0 where none
        has, or where all are the ``inner`` ones of clusters."""
        if inner:
            return 0
        for top, marks in self.rows:
            line = self.line(top, marks)
            order = sorted([*line.dcs, *line.ovals], key=lambda mark: mark.head[0])
            runs = [len(list(run)) for sign, run in groupby(order, key=lambda mark: mark.sign) if sign == "lying"]
            if runs:
                return runs[0]
        return 0

    def slit(self) -> bool:
        """Whether a foot stands between an edge stitch and the stitch beside it, and no chain lies there."""
        lines = [self.line(top, marks) for top, marks in self.rows]
        return any(self._in_slit(below, line) for below, line in pairwise(lines) if line.level == below.level + 1)

    def _in_slit(self, below: Line, line: Line) -> bool:
        tops = sorted(mark.head[0] for mark in (below.post, *below.dcs, *below.ovals))
        around = ((tops[0], tops[1]), (tops[-2], tops[-1]))
        feet = [mark.foot[0] for mark in line.dcs[:-1] if mark.foot[1] < line.top + line.rise]
        return any(low + 0.2 * (high - low) < x < high - 0.2 * (high - low) for low, high in around for x in feet)

    def own(self, foundation: Sequence[Point]) -> bool:
        """Whether the first edge stitch has a chain of its own under it."""
        post, places = self.line(*self.rows[0]).post, sorted(x for x, _ in foundation)
        apart = min((other - one for one, other in pairwise(places)), default=0.0)
        return min(abs(x - post.foot[0]) for x in places) <= 0.4 * apart or len(places) < 2

    def line(self, top: float, marks: tuple[ChartSymbol, ...]) -> Line:
        """The row of these ``marks`` whose top lies at the y ``top``. Raises UnreadableChart where it has no dc or its
        turning chain is no line, Unworkable where that has not three chains."""
        by: dict[Sign, list[ChartSymbol]] = {"dc": [], "lying": [], "standing": [], "dot": []}
        for mark in marks:
            by[mark.sign].append(mark)
        level, rise, kind, dcs = self.levels[top], self.rises[top], self.kinds[top], by["dc"]
        turning, counts = (self.turning, self.counts) if kind == "cluster" else TURNING[kind]
        if not dcs:
            raise UnreadableChart(f"row {level}: no dc in it")
        standing = len(by["standing"])
        refuse(
            standing not in (turning, turning - counts) or not standing,
            f"row {level}: its turning chain has {standing} chains standing; it takes {turning}",
        )
        stands = by["standing"][0].head[0]
        towards = 1 if stands < sum(mark.head[0] for mark in dcs) / len(dcs) else -1
        for sign in ("dc", "lying"):
            by[sign].sort(key=lambda mark: mark.head[0] * towards)
        solid = kind != "cluster"
        end_leg = None if solid else _leg_before_last(dcs, towards)
        post = _post(level, by["standing"]) if counts else dcs.pop(0) if solid else _outer(dcs, towards)
        start_leg = dcs.pop(0) if dcs and not solid and _joined(dcs[0], post) else None
        joined = counts and start_leg is not None
        refuse(joined != (standing != turning), f"row {level}: its turning chain has {standing} chains standing")
        if not counts and (not dcs or any(_inside(mark.head, post, towards) for mark in by["standing"])):
            raise UnreadableChart(f"row {level}: no edge stitch beside its turning chain")
        middle = top + rise / 2
        high = [mark for mark in by["lying"] if mark.head[1] < middle]
        low = [mark for mark in by["lying"] if mark.head[1] >= middle]
        return Line(level, top, rise, kind, towards, dcs, high, low, by["dot"], post, start_leg, end_leg)


_JOINED = 0.3  # px: heads no farther apart are one
_ONE_PLACE = 0.1  # of a row's height: a turning chain no farther from feet stands with them
_ON_CHAIN = 0.35  # of the way from chain to chain: a foot no farther from one stands on it
_BEYOND = 0.35  # of the way from stitch to stitch: a stripe that reaches so much farther has no stitch at its edge


def _fan(marks: Sequence[ChartSymbol], k: int) -> bool:
    """Whether the first ``k`` of ``marks`` have their heads side by side, all as far apart, and farther from the next
    one, or with a chain before that."""
    begun, others = marks[:k], marks[k : k + 1]
    heads = [mark.head[0] for mark in (*begun, *others)]
    if len(begun) < k or any(mark.sign == "lying" for mark in begun):
        return False
    apart = [abs(b - a) for a, b in pairwise(heads)]
    inside = apart[: k - 1]
    even = max(inside) - min(inside) < 0.1 * max(inside)
    return even and (not others or others[0].sign == "lying" or apart[k - 1] > 1.05 * max(inside))


def _together(dcs: Sequence[ChartSymbol]) -> int:
    """How many ``dcs`` stand in the place of the first one."""
    apart = (length(between(dcs[0].foot, other.foot)) >= 0.05 for other in dcs)
    return next((nth for nth, other in enumerate(apart) if other), len(dcs))


def _joined(one: ChartSymbol, other: ChartSymbol) -> bool:
    return abs(one.head[0] - other.head[0]) < _JOINED


def _outer(dcs: list[ChartSymbol], towards: int) -> ChartSymbol:
    """The edge stitch at the start, taken from the ``dcs``: of two joined the one whose foot is farther out."""
    first = 1 if len(dcs) > 1 and _joined(dcs[0], dcs[1]) and dcs[1].foot[0] * towards < dcs[0].foot[0] * towards else 0
    return dcs.pop(first)


def _leg_before_last(dcs: list[ChartSymbol], towards: int) -> ChartSymbol | None:
    """What is joined with the edge stitch at the end, taken from the ``dcs``; None where nothing is."""
    if len(dcs) < 3 or not _joined(dcs[-1], dcs[-2]):
        return None
    return dcs.pop(-1 if dcs[-1].foot[0] * towards < dcs[-2].foot[0] * towards else -2)


def _inside(place: Point, post: ChartSymbol, towards: int) -> bool:
    """Whether a place is no farther out than the line of a post at its height."""
    (x, y), (foot, low), (head, high) = place, post.foot, post.head
    return (x - foot - (head - foot) * (y - low) / (high - low)) * towards >= 0


def _post(level: int, standing: list[ChartSymbol]) -> ChartSymbol:
    """The edge stitch that chains make, each where the last one ends; a single one is half as long as that."""
    if len(standing) == 1:
        (x, y), (dx, dy) = standing[0].head, standing[0].half
        return ChartSymbol("standing", (x + 2 * dx, y + 2 * dy), (x - 2 * dx, y - 2 * dy))
    low, *others, high = sorted((mark.head for mark in standing), key=lambda point: -point[1])
    steps = [between(one, other) for one, other in pairwise((low, *others, high))]
    step = steps[0]
    if any(length(between(step, further)) > 0.1 * length(step) for further in steps):
        raise UnreadableChart(f"row {level}: its turning chain is no line of chains")
    foot = (low[0] - step[0] / 2, low[1] - step[1] / 2)
    head = (high[0] + step[0] / 2, high[1] + step[1] / 2)
    return ChartSymbol("standing", foot, head)
