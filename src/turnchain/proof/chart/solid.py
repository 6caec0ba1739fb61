"""A solid row of the picture worked: one stitch over every stitch and chain of the row below.

In: the row of the picture and the row below as worked, or the foundation. Out: the row as worked (``Tops``);
``Unworkable`` where its stitches do not stand over those, one for one, ``UnreadableChart`` where a foot lies beside.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from turnchain.proof.chart.lines import Line, Tops
from turnchain.proof.chart.marks import Point, UnreadableChart
from turnchain.proof.hook.solid import SolidInWork
from turnchain.proof.hook.stitches import TURNING, refuse

#: How far a foot may lie beside what it stands in, as a share of the way to the nearest neighbour of that.
BESIDE = 0.4


def solid_row(line: Line, below: Tops | None, joined: bool, foundation: Sequence[Point]) -> Tops:
    """The solid row ``line``, worked into the row ``below`` (None: row 1, on the ``foundation``, the places of its
    chains in px). Raises Unworkable or UnreadableChart."""
    refuse(joined or line.dots or line.chain or line.ovals, f"row {line.level}: a solid row that is not worked across")
    places = sorted(map(line.along, _tops(below) if below else [x for x, _ in foundation]))
    feet = [line.post.foot, *(mark.foot for mark in line.dcs)]
    refuse(len(feet) != len(places), f"{len(feet)} stitches over {len(places)} of the row below")
    _check_feet(line, feet, places, on_chain=below is None)
    turning, counts = TURNING[line.kind]
    work = SolidInWork(line.kind, below.row if below else None, turning + len(foundation))
    if counts:
        work.begin(turning)
    for _ in range(len(feet) - counts):
        work.work()
    return Tops(work.finished(line.level), line, [line.post.head[0], *(mark.head[0] for mark in line.dcs)])


def _tops(below: Tops) -> list[float]:
    """The x of every stitch and chain of the row below, px."""
    chains = [mark.head[0] for mark in below.line.ovals]
    return [*(x for x in below.xs if x is not None), *chains]


def _check_feet(line: Line, feet: Sequence[Point], places: Sequence[float], on_chain: bool) -> None:
    """Whether each foot stands in its place, on the chain or in a stitch."""
    ways = [other - one for one, other in pairwise(places)]
    near = [min(one, other) for one, other in zip([ways[0], *ways], [*ways, ways[-1]], strict=True)]
    for foot, at, apart in zip(feet, places, near, strict=True):
        deep = (foot[1] - line.top - line.rise) / line.rise
        high = abs(deep) < 0.03 if on_chain else 0.03 < deep < 0.15
        if not high or abs(line.along(foot[0]) - at) > BESIDE * apart:
            raise UnreadableChart(f"row {line.level}: a foot beside the stitch it belongs in")
