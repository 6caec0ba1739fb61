"""A whole chart worked, row after row, and held against where it was drawn.

In: what the picture shows. Out: every row as worked, with the colour of its stripe; ``Unworkable`` names the row that
cannot be worked, ``UnreadableChart`` says what is drawn where it does not belong: an edge, a cluster, a row number.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from turnchain.proof.chart.lines import Line, Lines, Tops
from turnchain.proof.chart.marks import Band, DrawnChart, Point, UnreadableChart
from turnchain.proof.chart.row import worked_row
from turnchain.proof.hook.finished import check_carried
from turnchain.proof.hook.stitches import Craft, Unworkable, WorkedRow, refuse


def check_places(rows: Sequence[Tops]) -> None:
    """Raises UnreadableChart unless edges and clusters lie, to a fifth of a half cluster, where the stitches that were
    worked stand, all half clusters equally wide."""
    (origin, left), (other, right) = (found(_places(rows[0])) for found in (min, max))
    if origin == other:  # a single cluster
        every = [place for one in rows for place in _places(one)]
        (origin, left), (other, right) = min(every), max(every)
    half = (right - left) / (other - origin or 1)
    for one in rows:
        beside = [abs(x - left - (at - origin) * half) > 0.2 * half for at, x in _places(one)]
        if any(beside) or not _extras_between(one):
            raise UnreadableChart(f"row {one.line.level}: a symbol lies beside its place")


def _extras_between(one: Tops) -> bool:
    """Whether extra dc lie evenly between the edge stitch and the first of the cluster: each half way."""
    tops = [(spot.what, x) for spot, x in zip(one.row.spots, one.xs, strict=True) if x is not None]
    around = zip(tops, tops[1:], tops[2:], strict=False)
    extras = [(a, x, b) for (_, a), (what, x), (_, b) in around if what == "extra"]
    return all(abs(x - (a + b) / 2) < 0.2 * abs(b - a) for a, x, b in extras)


def _places(one: Tops) -> list[tuple[int, float]]:
    """Where edges and clusters were worked, in half clusters, each with the x where it is drawn."""
    row, (left, right) = one.row, one.edges
    ends = [(edge.at, x) for edge, x in ((row.left, left), (row.right, right)) if edge.kind != "bare"]
    centres = _centres(one)
    if len(centres) != len(row.centres):
        raise UnreadableChart(f"row {one.line.level}: clusters that do not belong together")
    return [*ends, *zip(row.centres, centres, strict=True)]


def _centres(one: Tops) -> list[float]:
    """The x of the middle of every cluster."""
    clusters: dict[int, list[float]] = {}
    for spot, x in zip(one.row.spots, one.xs, strict=True):
        if spot.what == "dc" and x is not None:
            clusters.setdefault(spot.cluster, []).append(x)
    return [sum(xs) / len(xs) for xs in clusters.values()]


def check_numbers(rows: Sequence[Tops], numbers: Sequence[tuple[int, Point]]) -> None:
    """Raises UnreadableChart unless the row numbers (each with its place in px) stand at their rows, where these
    begin."""
    for number, (x, y) in numbers:
        beside = [one for one in rows if one.line.top < y < one.line.top + one.line.rise + 0.5]
        fits = [one for one in beside if (x - one.middle) * one.line.towards < 0]
        if not fits or beside[0].line.level != number:
            raise UnreadableChart(f"row {number}: its number stands where it does not begin")


def colours(rows: Sequence[Tops], drawn: DrawnChart) -> list[str]:
    """The yarn of each row, as the column of letters has it beside the row's stripe; where there is no such column, the
    stripe's own colour ("#rrggbb"). Raises UnreadableChart where a row lies on no
    stripe or several, where one yarn's stripes have two tints or two yarns' one, and as ``check_strips`` does."""
    found: list[str] = []
    tints: dict[str, str] = {}
    stripes = [_stripe(one, drawn) for one in rows]
    for one, stripe in zip(rows, stripes, strict=True):
        y = one.line.top + one.line.rise / 2
        yarn = _one(one, drawn.letters, y, "letters") if drawn.letters else stripe
        if tints.setdefault(yarn, stripe) != stripe:
            raise UnreadableChart(f"row {one.line.level}: its stripe has not the colour of others of its letter")
        found.append(yarn)
    if len(set(tints.values())) != len(tints):
        raise UnreadableChart("the stripes of two yarns are of one colour")
    check_strips(rows, stripes, drawn.strips)
    return found


def _stripe(one: Tops, drawn: DrawnChart) -> str:
    across = [band for band in drawn.bands if band.box[0] < one.middle < band.box[2]]
    return _one(one, across, one.line.top + one.line.rise / 2, "stripes")


def check_strips(rows: Sequence[Tops], stripes: Sequence[str], strips: Sequence[Band]) -> None:
    """Raises UnreadableChart unless what lies under chains and slip stitches has the colour of the row that they lead
    to or that stands on them (``stripes``: the colour of each row): it lies below the foot of that row, or on it."""
    for strip in strips:
        left, top, right, bottom = strip.box
        at_foot = [
            (max(0.0, one.edges[0] - right, left - one.edges[1]), stripe)
            for one, stripe in zip(rows, stripes, strict=True)
            if min(abs(one.line.top + one.line.rise - y) for y in (top, bottom)) < 1
        ]
        if not at_foot or min(at_foot)[1] != strip.colour:
            raise UnreadableChart("what lies under chains or slip stitches has not the colour of their row")


def _one(one: Tops, bands: Sequence[Band], y: float, what: str) -> str:
    """The colour of the only one of ``bands`` at the height ``y``."""
    found = [band.colour for band in bands if band.box[1] < y < band.box[3]]
    if len(found) != 1:
        raise UnreadableChart(f"row {one.line.level}: it lies on {len(found)} {what}")
    return found[0]


@dataclass(frozen=True, slots=True)
class MadeRow:
    """A row worked from the picture, and the colour of its yarn or, without a column of letters, of its stripe
    ("#rrggbb")."""

    row: WorkedRow
    colour: str


def work_chart(drawn: DrawnChart) -> list[MadeRow]:
    """Every row worked from the picture, in the order worked. Raises UnreadableChart where it cannot be told what is
    drawn, or it lies where it does not belong; Unworkable, naming the row, where that cannot be worked."""
    lines = Lines(drawn)
    gap = lines.gap(drawn.inner)
    stacked = lines.stacked(drawn.inner, drawn.k) or (drawn.k == 1 and not gap)
    slit, own = gap > 0 and not stacked and lines.slit(), lines.own(drawn.foundation)
    bare = lines.bare and not stacked
    craft = Craft(drawn.k, gap, lines.turning, lines.counts, drawn.inner, stacked, slit and not bare, own, bare)
    done: list[Tops] = []
    for top, marks in drawn.rows:
        try:
            line = lines.line(top, marks)
            below, joined = _below(done, line)
            done.append(worked_row(craft, line, below, joined, drawn.foundation))
        except Unworkable as error:
            words = str(error)
            named = words.startswith("row ")
            raise Unworkable(words if named else f"row {lines.levels[top]}: {words}") from None
    check_carried((one.row for one in done), craft)
    check_places(done)
    check_numbers(done, drawn.numbers)
    yarns = colours(done, drawn)
    return [MadeRow(one.row, yarn) for one, yarn in zip(done, yarns, strict=True)]


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
