"""The grid, stitch by stitch, against the same rows worked by hand in ``workable``.

No published source: every check follows from the rules of the lattice, DEVELOPERS.md.
"""

from __future__ import annotations

import tracemalloc
from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings

from row_arrays import RowArrays, row_arrays
from turnchain.errors import PatternError
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.places import RowBelow
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.plan_json import plan_data
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file, read_text
from workable import Worked, gauge, patterns, work

CASES = Path(__file__).parent / "cases"
SYMBOLS = {"dc": Symbol.DC, "ch": Symbol.CHAIN, "sl": Symbol.SLIP_STITCH, "tch": Symbol.TURNING_CHAIN}
PLACES = {
    "foundation": Into.FOUNDATION,
    "space": Into.SPACE,
    "stitch": Into.STITCH,
    "post": Into.POST,
    "own": Into.OWN_CHAIN,
    "air": Into.AIR,
}


def pieces_of(pattern: Pattern) -> list[tuple[PiecePlan, list[Worked]]]:
    """Every piece as planned, and as worked by hand."""
    try:
        plan = plan_pattern(pattern)
    except PatternError:
        assume(False)
    k, g = pattern.fabric.cluster, pattern.fabric.gap
    by_hand = [work(piece, k, g) for piece in plan_data(plan)["pieces"]]
    return list(zip(plan.pieces, by_hand, strict=True))


def check(piece: PiecePlan, by_hand: list[Worked]) -> None:
    """Every stitch of a piece has its place, the place that the hook found by hand."""
    grid = Grid(piece)
    below: RowArrays | None = None
    under: Worked | None = None
    for row, worked in zip(piece.rows, by_hand, strict=True):
        made = row_arrays(grid.row(row))
        agrees_with_counts(row, made)
        same_stitches(made, worked)
        heads_lie_in_the_row(row, made)
        if below is not None and under is not None:
            places_exist(grid, made, below, under)
        else:
            chains_exist(piece, made)
        below, under = made, worked


def agrees_with_counts(row: Row, made: RowArrays) -> None:
    counts = [int((made.symbol == symbol).sum()) for symbol in SYMBOLS.values()]
    assert counts == [row.counts.dc, row.counts.ch, row.counts.sl_st, row.counts.tch]


def same_stitches(made: RowArrays, worked: Worked) -> None:
    """The stitches in working order with what each is worked into; chains are worked into nothing."""
    by_hand = [(SYMBOLS[one.symbol], PLACES[one.into], one.target) for one in worked.stitches]
    drawn = zip(made.symbol.tolist(), made.into.tolist(), made.target.tolist(), strict=True)
    assert [(symbol, into, 0 if into == Into.AIR else target) for symbol, into, target in drawn] == by_hand


def heads_lie_in_the_row(row: Row, made: RowArrays) -> None:
    """From the turning chain on, heads go from edge to edge in the direction of work, no two in one place."""
    start = int(np.flatnonzero(made.symbol == Symbol.TURNING_CHAIN)[0])
    heads = made.head[start:]
    ends = (row.edge(row.starts).at, row.edge(row.ends).at)
    assert (heads[0], heads[-1]) == ends
    steps = np.diff(heads) * (1 if ends[0] < ends[1] else -1)
    assert (steps > 0).all()


def places_exist(grid: Grid, made: RowArrays, below: RowArrays, under: Worked) -> None:
    """What a stitch is worked into is there in the row below, just where its foot stands."""
    spaces = [spot.at for spot in under.spots if spot.what == "space"]
    low, high = under.left, under.right
    clusters_in: list[int] = []
    for symbol, into, target, foot in zip(
        made.symbol.tolist(), made.into.tolist(), made.target.tolist(), made.foot.tolist(), strict=True
    ):
        if into == Into.SPACE:
            assert foot == target
            assert target in spaces
            clusters_in.append(target)
        elif into in (Into.STITCH, Into.POST):
            assert 0 <= target < len(below)
            posts = (Symbol.DC, Symbol.TURNING_CHAIN)
            assert symbol == Symbol.SLIP_STITCH or below.symbol[target] in posts
            if symbol != Symbol.SLIP_STITCH:  # a slip stitch lies along the edge, spread evenly
                # on the outer of two middle dc the post is drawn in the middle
                assert abs(foot - below.head[target]) <= grid.pace / 2 + 1e-6
        if into in (Into.SPACE, Into.STITCH, Into.POST):
            assert low <= foot <= high
    dc = made.symbol == Symbol.DC
    in_space = made.target[dc & (made.into == Into.SPACE)]
    ends_there = in_space[-1] if made.into[-1] == Into.SPACE else None  # the post, and its extra dc
    starts_there = made.target[made.symbol == Symbol.TURNING_CHAIN][0]
    for space, uses in zip(*np.unique(in_space, return_counts=True), strict=True):
        if space not in (ends_there, starts_there) or uses >= grid.k:
            assert uses == grid.k  # one cluster, once


def chains_exist(piece: PiecePlan, made: RowArrays) -> None:
    """On the foundation every dc has a chain of its own, and the last post stands on the last."""
    chains = made.target[made.into == Into.FOUNDATION].tolist()
    assert chains == sorted(set(chains))
    assert chains[-1] == piece.foundation_chain
    assert np.array_equal(made.foot, made.head)


@pytest.mark.quick(0)
@settings(max_examples=70, suppress_health_check=list(HealthCheck))
@given(patterns())
def test_every_stitch_has_its_place(pattern: Pattern) -> None:
    for piece, by_hand in pieces_of(pattern):
        check(piece, by_hand)


# [rows, clusters] points that together need every move, at either edge and from either kind of edge
SHAPES = (
    ((0, "6"), (3, "6"), (3, "2"), (7, "2")),
    ((0, "6"), (4, "6"), (4, "3.5"), (7, "3.5")),
    ((0, "2"), (3, "2"), (3, "6"), (7, "6")),
    ((0, "3.5"), (4, "3.5"), (4, "6"), (7, "6")),
    ((0, "5"), (3, "5"), (4, "3"), (5, "5"), (7, "5")),
    ((0, "3"), (3, "3"), (4, "5"), (5, "3"), (7, "3")),
    ((0, "4"), (2, "5.5"), (4, "4"), (6, "5")),
    ((0, "4.5"), (2, "3"), (3, "4.5"), (6, "2")),
    ((0, "2"), (3, "4.5"), (4, "3.5"), (7, "2")),
)


def shape(points: Iterable[tuple[int, str]], align: Any, fabric: Fabric) -> Pattern:
    """An outline given in rows and clusters."""
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    pitch, row = gauge(swatch)
    outline = tuple((height * row, Fraction(width) * pitch) for height, width in points)
    return Pattern("Shape", (swatch,), (Piece("shape", outline=outline, align=align),), fabric)


@pytest.mark.quick(2)
@pytest.mark.parametrize("fabric", [Fabric(k, g) for k in (2, 3, 4, 5) for g in (0, 1)], ids=str)
def test_every_stitch_of_every_move_has_its_place(fabric: Fabric) -> None:
    moves: set[tuple[str, bool]] = set()
    places: set[tuple[str, str]] = set()
    for points in SHAPES:
        for align in ("left", "right", "centre"):
            for piece, by_hand in pieces_of(shape(points, align, fabric)):
                check(piece, by_hand)
                for row in piece.rows:
                    moves |= {(row.edge(row.starts).move, True), (row.edge(row.ends).move, False)}
                for worked in by_hand:
                    places |= {(stitch.symbol, stitch.into) for stitch in worked.stitches}
    both = ("straight", "decrease", "increase", "forced_decrease", "forced_increase", "step_in")
    assert moves == {(move, start) for move in both for start in (True, False)} | {("step_out", True)}
    slipped = {("sl", "stitch"), ("sl", "space")}
    stood = {("tch", into) for into in ("foundation", "post", "stitch", "space", "own")}
    assert slipped | stood | {("dc", "own"), ("dc", "stitch"), ("dc", "post")} <= places


@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief"])
def test_the_cases(name: str) -> None:
    for piece, by_hand in pieces_of(read_file(CASES / f"{name}.toml")):
        check(piece, by_hand)


def test_the_check_notices_a_stitch_out_of_place() -> None:
    pattern = read_file(CASES / "kite_kerchief.toml")
    (piece, by_hand), *_ = pieces_of(pattern)
    grid = Grid(piece)
    made, below = row_arrays(grid.row(piece.rows[5])), row_arrays(grid.row(piece.rows[4]))
    check_row = (grid, made, below, by_hand[4])
    places_exist(*check_row)
    same_stitches(made, by_hand[5])
    space = int(np.flatnonzero((made.symbol == Symbol.DC) & (made.into == Into.SPACE))[0])
    made.target[space] += 2
    with pytest.raises(AssertionError):
        same_stitches(made, by_hand[5])
    with pytest.raises(AssertionError):
        places_exist(*check_row)


def test_single_stitches_are_those_of_the_rows() -> None:
    pattern = read_file(CASES / "kite_kerchief.toml")
    piece = plan_pattern(pattern).piece("kerchief")
    grid = Grid(piece)
    stitches = list(grid)
    assert len(stitches) == sum(len(row_arrays(grid.row(row))) for row in piece.rows)
    # stripes of one row: Kelp in odd rows, Foam in even ones
    assert {stitch.colour for stitch in stitches if stitch.row.number % 2} == {"Kelp"}
    assert {stitch.colour for stitch in stitches if not stitch.row.number % 2} == {"Foam"}
    row = piece.rows[6]
    last = grid.stitch(row, len(row_arrays(grid.row(row))) - 1)
    assert (last.symbol, last.head, last.into) == (Symbol.DC, row.edge(row.ends).at, Into.POST)
    with pytest.raises(IndexError):
        grid.stitch(row, len(row_arrays(grid.row(row))))


def test_a_blanket_of_a_million_clusters_stays_small() -> None:
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    blanket = Piece("blanket", width=Fraction(2500), length=Fraction(1250))
    tracemalloc.start()
    try:
        piece = plan_pattern(Pattern("Large", (swatch,), (blanket,))).pieces[0]
        grid = Grid(piece)
        rows = [grid.row(piece.rows[index]) for index in (0, 1, 500, 999)]
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert (len(piece.rows), piece.total_clusters) == (1000, 1_000_000)
    assert {len(row) for row in rows} <= {4001, 4002}  # 1000 clusters of 3, the gaps and the posts
    assert peak < 20_000_000


@pytest.mark.parametrize("kind", ["shell", "solid-dc"])
def test_what_is_worked_into_a_stitch_stands_on_that_stitch(kind: str) -> None:
    """Shells stand on the middle stitch of the shell below: that is where its foot is, in rows from either side."""
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    piece = Piece("panel", width=Fraction(17), length=Fraction(5))
    (made,) = plan_pattern(Pattern("Test", (swatch,), (piece,), Fabric(kind=kind))).pieces
    grid = Grid(made)
    assert {row.starts for row in made.rows[1:]} == {"left", "right"}
    for below, row in pairwise([row_arrays(grid.row(row)) for row in made.rows]):
        stands = [(row.foot[nth], below.head[row.target[nth]], row.symbol[nth]) for nth in range(len(row))
                  if row.into[nth] == Into.STITCH]  # fmt: skip
        assert len(stands) > 5
        assert all(abs(foot - head) < 1e-6 for foot, head, _ in stands)


@pytest.mark.parametrize(("kind", "met"), [("flush", [0, 1, 2, 3]), ("spaced", [0, 0, 1, 2])])
def test_inwards_from_a_turning_chain_the_gap_beside_it_is_part_of_it(kind: str, met: list[int]) -> None:
    """Stitches are numbered as they are worked, the turning chain 0; at the end of a row each place has its own."""
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    panel = Piece("panel", width=Fraction(20), length=Fraction(20), row_plan="alternate")
    (piece,) = plan_pattern(Pattern("Test", (swatch,), (panel,))).pieces
    row = next(row for row in piece.rows[1:] if row.edge(row.starts).kind == kind)
    under = RowBelow(piece, row)
    assert [under.nth(row.starts, nth) for nth in range(4)] == met
    last = sum((row.counts.ch, row.counts.dc, row.counts.tch)) - 1
    assert [under.nth(row.ends, nth) for nth in range(4)] == [last, last - 1, last - 2, last - 3]


@pytest.mark.parametrize("kind", ["open", "moss-plain", "mesh-2", "bare-open"])
def test_chains_of_a_turning_chain_lie_inwards_of_where_it_stands(kind: str) -> None:
    """As many as it holds, in their order, less than a pitch from it."""
    text = f'title = "Grid"\n[swatch]\nclusters = 8\nwidth = 10\nrows = 8\nheight = 10\n[fabric]\nkind = "{kind}"\n'
    rows = 'row_plan = "alternate"\n' if kind == "open" else ""
    shape = f'[[piece]]\nname = "piece"\nwidth = 10\nlength = 8\n{rows}'
    piece = plan_pattern(read_text(text + shape, "grid.toml")).pieces[0]
    grid, seen = Grid(piece), 0
    for row in piece.rows:
        inwards = 1 if row.starts == "left" else -1
        off = [inwards * at for at in grid.start_gaps(row)]
        assert off == sorted(off)
        assert all(0 < at < 2 for at in off)
        seen += len(off)
    assert seen


def test_on_a_solid_row_edge_stitches_are_posts_and_all_others_stitches() -> None:
    text = (
        'title = "Grid"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n[fabric]\nfoundation = "sc"\n'
        'rows = ["cluster", "sc"]\n[[piece]]\nname = "piece"\nwidth = 20\nlength = 15\n'
    )
    piece = plan_pattern(read_text(text, "grid.toml")).pieces[0]
    grid, met = Grid(piece), set()
    for row in piece.rows:
        below = piece.below(row)
        if below is None or not below.solid:
            continue
        last = below.counts.dc + below.counts.tch + below.counts.ch - 1
        made = grid.row(row)
        for into, target in zip(made.into, made.target, strict=True):
            if into != Into.AIR:
                assert Into(into) is (Into.POST if target in (0, last) else Into.STITCH)
                met.add(Into(into))
    assert met == {Into.POST, Into.STITCH}


@pytest.mark.parametrize("names", [Symbol, Into])
def test_no_two_names_of_the_grid_are_one(names: type[Symbol] | type[Into]) -> None:
    assert len(names) == len(names.__members__)
