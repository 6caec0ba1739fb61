"""Nothing better than the plan, in fabrics whose units stand over units: small pieces planned by trying every plan.

As in ``test_fitting``, whose search of one edge is used here with other prices: those of the model of stacked and whole
fabrics, told in ``fabric/__init__`` (no published source). Nothing of an edge table is read. What is compared are the
first five of the order of preference: mirrors missed, nearness, width, changes of direction, rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from test_fitting import FORCED_IN, STEP, Edge, Wanted, _finer, _scaled, edges, line_reads_alike, near, thorough
from turnchain.errors import PatternError
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning import moves
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from workable import gauge, outlines, swatches


class Rules(NamedTuple):
    """Of one edge table: the half pitches in its unit, the phases, and the centre lines of mirrored edges; ``shift``
    is 1 where units stand over gaps."""

    stride: int
    phases: tuple[int, ...]
    centres: tuple[Fraction, ...]
    shift: int = 0

    def units(self, left: int, right: int, phase: int, row: int) -> int:
        """How many units a row has between these edges."""
        if self.stride == 2:
            return right - left - 1  # one at every whole pitch between
        return sum((at - phase - self.shift * row) % 2 == 0 for at in range(left + 1, right))

    def price(self, out: int, position: int, row: int, phase: int, starts: bool) -> int | None:
        """Every row may go in or out by one unit of the edges for nothing; a step out is of whole pitches, and made
        where a row starts. Over gaps an edge with a gap and an edge stitch below goes in by force."""
        if self.shift and out == -1 and (position - phase - row + 1) % 2 == 0:
            return FORCED_IN
        if abs(out) <= 1:
            return 0
        if out < 0:
            return STEP
        return STEP if starts and (self.stride == 2 or out % 2 == 0) else None


STACKED = Rules(1, (0, 1), (Fraction(0),))
WHOLE = Rules(2, (0,), (Fraction(0), Fraction(1, 2)))
BARE = Rules(1, (0, 1), (Fraction(0),), shift=1)
KINDS = {
    "v": STACKED, "shell": STACKED, "wide-v": STACKED, "mesh": WHOLE, "solid-sc": WHOLE, "solid-dc": WHOLE,
    "bare-open": BARE, "bare-closed": BARE,
}  # fmt: skip


class Rank(NamedTuple):
    """The order of preference, lengths in units of the edges."""

    missed: int
    cost: Fraction
    width: Fraction
    turns: int
    rows: int


def wanted_of(piece: Piece, swatch: Swatch, rules: Rules) -> Wanted:
    """A piece as wanted; rows of these fabrics are never counted half a pitch wider."""
    made = Wanted(replace(piece, row_plan="alternate"), swatch, Fabric())
    made.u *= rules.stride
    return made


def heights_of(wanted: Wanted, rows: int) -> list[Fraction]:
    return [wanted.height * row / rows for row in range(1, rows + 1)]


def stretch_of(wanted: Wanted, rows: int) -> Fraction:
    return rows * ((rows * wanted.q - wanted.height) / wanted.u) ** 2 / 3


def every_rank(wanted: Wanted, rules: Rules, rows: int, bound: Fraction) -> Iterator[Rank]:
    """The place of every plan with ``rows`` rows that costs ``bound`` or less."""
    stretch, heights = stretch_of(wanted, rows), heights_of(wanted, rows)
    if stretch > bound:
        return
    both = wanted.lr_mirror
    sign = 1 if both or wanted.shaped == ("right",) else -1
    shape = wanted.right if sign == 1 else wanted.left
    for phase in rules.phases:
        for centre in rules.centres if both else (Fraction(0),):
            targets, scale = _scaled(shape, heights, centre)
            late = {} if both else wanted.late(shape, sign, heights)
            scale, targets, below = _finer(scale, targets, late)
            most = int((bound - stretch) * scale**2)

            def room(row: int, reach: int, phase: int = phase, across: int = int(2 * centre)) -> bool:
                low, high = (across - reach, reach) if both else sorted((0, sign * reach))
                if row == 1 and rules.shift and (high - low) % 2:
                    return False  # rows that alternate are an even number of half pitches wide
                return (both or reach > 0) and rules.units(low, high, phase, row) > 0

            first = near(targets[0], scale, most)
            copies = 2 if both else 1
            for edge in edges(targets, scale, sign, phase, first, most, room, both, copies, below, rules.price):
                off = copies * abs(Fraction(targets[0], scale) - edge.reaches[0])
                missed = int(wanted.tb_mirror and not line_reads_alike(edge.reaches))
                yield Rank(missed, Fraction(edge.cost, scale**2) + stretch, off, copies * edge.turns(), rows)


def rank_of(wanted: Wanted, rules: Rules, rows: list[tuple[int, int]], phase: int) -> Rank:
    """The place of the program's plan: its edges row by row, in units of the edges."""
    heights = heights_of(wanted, len(rows))
    (left, right), cost, width, turns, missed = rows[0], stretch_of(wanted, len(rows)), Fraction(0), 0, 0
    base = Fraction(left + right, 2) if wanted.lr_mirror else Fraction(left if "right" in wanted.shaped else right)
    if wanted.lr_mirror:
        assert all(a + b == left + right for a, b in rows), "both edges alike"
    assert all(rules.units(a, b, phase, number) > 0 for number, (a, b) in enumerate(rows, start=1))
    for name in wanted.shaped:
        sign, shape = (1, wanted.right) if name == "right" else (-1, wanted.left)
        edge = [b if sign == 1 else a for a, b in rows]
        late = {} if wanted.lr_mirror else wanted.late(shape, sign, heights)
        for row, (at, y) in enumerate(zip(edge, heights, strict=True), start=1):
            reach = sign * (at - base)
            cost += min((reach - mark) ** 2 for mark in (shape(y), late.get(row, shape(y))))
            if row > 1:
                out, starts = sign * (at - edge[row - 2]), row % 2 == (sign == 1) and not wanted.lr_mirror
                price = rules.price(out, edge[row - 2], row, phase, starts)
                assert price is not None, (name, row)
                cost += price
        width += abs(sign * (edge[0] - base) - shape(heights[0]))
        turns += Edge(0, tuple(sign * at for at in edge)).turns()
        missed |= wanted.tb_mirror and not line_reads_alike(tuple(edge))
    return Rank(int(missed), cost, width, turns, len(rows))


def best_of_all(wanted: Wanted, rules: Rules, bound: Fraction) -> Rank | None:
    """The best place of all plans that cost ``bound`` or less; those that read alike from both ends go first."""
    for group, counts in enumerate(wanted.row_counts()):
        found = [one for rows in counts for one in every_rank(wanted, rules, rows, bound)]
        if wanted.tb_mirror and not group:
            found = [one for one in found if not one.missed]
        if found:
            return min(found)
    return None


def nothing_better(piece: Piece, swatch: Swatch, kind: str) -> None:
    """The program's plan is as good as the best; what it refuses has no plan even a long way off."""
    rules = KINDS[kind]
    wanted = wanted_of(piece, swatch, rules)
    try:
        asked = replace(piece, row_plan="alternate") if rules.shift else piece
        plan = plan_pattern(Pattern("Small", (swatch,), (asked,), Fabric(kind=kind))).pieces[0]
    except PatternError:
        assert best_of_all(wanted, rules, Fraction(30)) is None
        return
    rows = [(row.left.at // rules.stride, row.right.at // rules.stride) for row in plan.rows]
    place = rank_of(wanted, rules, rows, plan.phase)
    assert best_of_all(wanted, rules, place.cost) == place


@st.composite
def small_pieces(draw: st.DrawFn) -> tuple[Piece, Swatch, str]:
    """Outlines of 1 to 6 rows and up to four units, shaped at one edge or alike at both."""
    swatch, kind = draw(swatches()), draw(st.sampled_from(sorted(KINDS)))
    pitch, row = gauge(swatch)
    outline = draw(outlines(pitch, row, most_rows=6, most_clusters=4, tidy=True))
    assume(len({width for _, width in outline}) > 1)
    align = draw(st.sampled_from(["centre", "left", "right"]))
    jumps = any(a[0] == b[0] and b[1] > a[1] for a, b in pairwise(outline))
    return Piece("piece", outline=outline, align="left" if jumps else align), swatch, kind


@thorough(60)
@given(small_pieces())
def test_no_plan_is_better_where_units_stand_over_units(small: tuple[Piece, Swatch, str]) -> None:
    nothing_better(*small)


SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(5), Fraction(10))
STEPPED = tuple((Fraction(y), Fraction(x)) for y, x in ((0, 20), (4, 20), (4, 4), (8, 4)))


@pytest.mark.quick(1)
@pytest.mark.parametrize("kind", ["v", "mesh"])
def test_a_planner_to_which_steps_are_dear_is_caught(monkeypatch: pytest.MonkeyPatch, kind: str) -> None:
    piece = Piece("stepped", outline=STEPPED, align="left")
    nothing_better(piece, SWATCH, kind)
    monkeypatch.setattr(moves, "STEP_COST", 400)
    with pytest.raises(AssertionError):
        nothing_better(piece, SWATCH, kind)
