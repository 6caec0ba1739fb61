"""Nothing better than the plan, where rows are of more than one kind: small pieces planned by trying every plan.

As in ``test_fitting``, whose search of one edge is used here with prices of its own: a solid row goes straight on, as
does the row of clusters over solid rows at the foot; clusters over other solid rows go half a cluster in or out where
the model lets them (told in ``fabric/__init__``, no published source), and never step. Heights of rows are worked out
here from those of the stitches. Nothing of an edge table or of a row order is read.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from test_fitting import Edge, Wanted, _finer, _scaled, edges, move_price, near, thorough
from turnchain.errors import PatternError
from turnchain.pattern import Fabric, Pattern, Piece, StitchName, Swatch
from turnchain.planning.job import Job
from turnchain.planning.planner import plan_pattern
from workable import gauge, outlines, swatches

#: That of dc being 1: sc by a published gauge (Yarnspirations CAC0502-001982M), hdc from memory.
HIGH = {"cluster": Fraction(1), "sc": Fraction(54, 100), "hdc": Fraction(3, 4)}


class Rank(NamedTuple):
    """The order of preference, lengths in half pitches."""

    cost: Fraction
    width: Fraction
    turns: int
    rows: int


class Rows:
    """So many rows of the kinds that a fabric has: which they are, how high, and where clusters stand in them."""

    def __init__(self, fabric: Fabric, count: int) -> None:
        between = count - len(fabric.base) - len(fabric.last)
        going_round = [fabric.rows[nth % len(fabric.rows)] for nth in range(between)]
        self.kinds = ("", *fabric.base, *going_round, *fabric.last)  # by row number
        self.count, self.first = count, len(fabric.base) + 1  # the first row of clusters
        self.staggered = fabric.then == "staggered"
        mean = sum(HIGH[kind] for kind in fabric.rows) / len(fabric.rows)
        self.high = [Fraction(0)]  # the top of each row, in rows of the swatch
        for kind in self.kinds[1:]:
            self.high.append(self.high[-1] + HIGH[kind] / mean)

    def running(self, row: int, phase: int) -> int:
        """Where the clusters of a row stand, even or odd; of a solid row those below it, at the foot those above."""
        if row <= self.first:
            return (phase + (row > 0)) % 2
        below = self.running(row - 1, phase)
        if self.kinds[row] != "cluster":
            return below
        return (below + (self.kinds[row - 1] == "cluster" or self.staggered)) % 2

    def units(self, left: int, right: int, row: int, phase: int) -> int:
        return sum((at - self.running(row, phase)) % 2 == 0 for at in range(left + 1, right))

    def may_step(self, row: int) -> bool:
        return row > self.first and self.kinds[row] == self.kinds[row - 1] == "cluster"

    def price(self, out: int, position: int, row: int, phase: int, starts: bool) -> int | None:
        """What an edge pays for going ``out`` half pitches from ``position`` to a row; None if it cannot."""
        below = self.running(row - 1, phase)
        if out == 0:
            return 0
        if self.may_step(row):
            return move_price(out, position, 1, below, starts)
        if self.kinds[row] != "cluster" or row <= self.first or abs(out) > 1:
            return None
        flush = (position + 1 - below) % 2 == 0
        return 0 if not self.staggered or flush == (out < 0) else None


def row_counts(wanted: Wanted, fabric: Fabric) -> list[int]:
    """The row counts that enclose the wanted height, none less than the rows at the ends and one of clusters."""
    least = len(fabric.base) + 1 + len(fabric.last)
    high = [Rows(fabric, least + more).high[-1] * wanted.q for more in range(40)]
    return sorted({
        least + max((nth for nth, at in enumerate(high) if at <= wanted.height), default=0),
        least + min(nth for nth, at in enumerate(high) if at >= wanted.height),
    })  # fmt: skip


def heights_of(wanted: Wanted, rows: Rows) -> list[Fraction]:
    return [wanted.height * top / rows.high[-1] for top in rows.high[1:]]


def stretch_of(wanted: Wanted, rows: Rows) -> Fraction:
    return rows.count * ((rows.high[-1] * wanted.q - wanted.height) / wanted.u) ** 2 / 3


def late_of(wanted: Wanted, rows: Rows, sign: int, heights: list[Fraction]) -> dict[int, Fraction]:
    """Rows in which a step outwards may still be to come: those from its height on that cannot make it."""
    found: dict[int, Fraction] = {}
    if wanted.lr_mirror:
        return found
    for low, high in pairwise(wanted.piece.outline):
        row = min((nth for nth, y in enumerate(heights, start=1) if y > low[0]), default=0)
        if low[0] != high[0] or high[1] <= low[1]:
            continue
        while 1 < row < rows.count and not (rows.may_step(row) and row % 2 == (sign == 1)):
            found[row] = (wanted.right if sign == 1 else wanted.left)(low[0])
            row += 1
    return found


def every_rank(wanted: Wanted, rows: Rows, bound: Fraction) -> Iterator[Rank]:
    """The place of every plan with these rows that costs ``bound`` or less."""
    stretch, heights = stretch_of(wanted, rows), heights_of(wanted, rows)
    if stretch > bound:
        return
    both = wanted.lr_mirror
    sign = 1 if both or wanted.shaped == ("right",) else -1
    shape = wanted.right if sign == 1 else wanted.left
    for phase in (0, 1):
        targets, scale = _scaled(shape, heights, Fraction(0))
        scale, targets, below = _finer(scale, targets, late_of(wanted, rows, sign, heights))
        most = int((bound - stretch) * scale**2)

        def room(row: int, reach: int, phase: int = phase) -> bool:
            low, high = (-reach, reach) if both else sorted((0, sign * reach))
            return reach > 0 and rows.units(low, high, row, phase) > 0

        first = near(targets[0], scale, most)
        if not both:
            first = [one for one in first if one % 2 == (wanted.row_plan == "alike")]
        copies = 2 if both else 1
        for edge in edges(targets, scale, sign, phase, first, most, room, both, copies, below, rows.price):
            off = copies * abs(Fraction(targets[0], scale) - edge.reaches[0])
            yield Rank(Fraction(edge.cost, scale**2) + stretch, off, copies * edge.turns(), rows.count)


def rank_of(wanted: Wanted, rows: Rows, plan: list[tuple[int, int]], phase: int) -> Rank:
    """The place of the program's plan: its edges row by row."""
    heights = heights_of(wanted, rows)
    (left, right), cost, width, turns = plan[0], stretch_of(wanted, rows), Fraction(0), 0
    base = Fraction(left + right, 2) if wanted.lr_mirror else Fraction(left if "right" in wanted.shaped else right)
    assert all(rows.units(a, b, row, phase) > 0 for row, (a, b) in enumerate(plan, start=1))
    for name in wanted.shaped:
        sign, shape = (1, wanted.right) if name == "right" else (-1, wanted.left)
        edge, late = [b if sign == 1 else a for a, b in plan], late_of(wanted, rows, sign, heights)
        for row, (at, y) in enumerate(zip(edge, heights, strict=True), start=1):
            cost += min((sign * (at - base) - mark) ** 2 for mark in (shape(y), late.get(row, shape(y))))
            if row > 1:
                starts = row % 2 == (sign == 1) and not wanted.lr_mirror
                price = rows.price(sign * (at - edge[row - 2]), edge[row - 2], row, phase, starts)
                assert price is not None, (name, row)
                cost += price
        width += abs(sign * (edge[0] - base) - shape(heights[0]))
        turns += Edge(0, tuple(sign * at for at in edge)).turns()
    return Rank(cost, width, turns, rows.count)


def best_of_all(wanted: Wanted, fabric: Fabric, bound: Fraction) -> Rank | None:
    """The best place of all plans that cost ``bound`` or less."""
    found = (one for count in row_counts(wanted, fabric) for one in every_rank(wanted, Rows(fabric, count), bound))
    return min(found, default=None)


def nothing_better(piece: Piece, swatch: Swatch, fabric: Fabric) -> None:
    """The program's plan is as good as the best; what it refuses has no plan even a long way off."""
    wanted = Wanted(piece, swatch, fabric)
    try:
        plan = plan_pattern(Pattern("Small", (swatch,), (piece,), fabric)).pieces[0]
    except PatternError:
        assert best_of_all(wanted, fabric, Fraction(20)) is None
        return
    edges_made = [(row.left.at, row.right.at) for row in plan.rows]
    place = rank_of(wanted, Rows(fabric, len(plan.rows)), edges_made, plan.phase)
    assert best_of_all(wanted, fabric, place.cost) == place


ORDERS: tuple[tuple[tuple[StitchName, ...], tuple[str, ...], tuple[StitchName, ...]], ...] = (
    ((), ("cluster", "sc"), ()), ((), ("cluster", "cluster", "sc"), ()), (("sc",), ("cluster", "cluster", "sc"), ()),
    (("sc",), ("cluster", "hdc", "sc"), ("sc",)), ((), ("cluster", "cluster", "hdc", "cluster"), ("sc", "sc")),
)  # fmt: skip


@st.composite
def small_pieces(draw: st.DrawFn) -> tuple[Piece, Swatch, Fabric]:
    """Outlines of up to 7 rows or so and up to four clusters, shaped at one edge or alike at both."""
    swatch, (base, rows, last) = draw(swatches()), draw(st.sampled_from(ORDERS))
    gap, then = draw(st.sampled_from([(1, "staggered"), (1, "stacked"), (0, "stacked")]))
    fabric = Fabric(3, gap, rows=rows, base=base, last=last, then=then)  # type: ignore[arg-type]
    pitch, row = gauge(swatch)
    outline = draw(outlines(pitch, row, most_rows=7, most_clusters=4, tidy=True))
    assume(len({width for _, width in outline}) > 1)
    align = draw(st.sampled_from(["centre", "left", "right"]))
    jumps = any(a[0] == b[0] and b[1] > a[1] for a, b in pairwise(outline))
    align = "left" if jumps else align
    row_plan = "alternate" if align == "centre" else draw(st.sampled_from(["alike", "alternate"]))
    return Piece("piece", outline=outline, align=align, row_plan=row_plan), swatch, fabric  # type: ignore[arg-type]


@thorough(60)
@given(small_pieces())
def test_no_plan_is_better_where_rows_are_of_several_kinds(small: tuple[Piece, Swatch, Fabric]) -> None:
    nothing_better(*small)


SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(9), Fraction(10))
TAPER = tuple((Fraction(y), Fraction(x)) for y, x in ((0, 10), (6, 7)))


@pytest.mark.parametrize("then", ["staggered", "stacked"])
def test_a_planner_that_takes_all_rows_to_be_equally_high_is_caught(
    monkeypatch: pytest.MonkeyPatch, then: str
) -> None:
    fabric = Fabric(rows=("cluster", "sc", "sc"), then=then)  # type: ignore[arg-type]
    piece = Piece("taper", outline=TAPER, row_plan="alternate")
    nothing_better(piece, SWATCH, fabric)
    monkeypatch.setattr(Job, "tops", lambda job, rows: tuple(map(Fraction, range(rows + 1))))
    with pytest.raises(AssertionError):
        nothing_better(piece, SWATCH, fabric)
