"""The lattice, against rows laid out by hand: posts, gaps and clusters in a list, counted along it.

No check here has a published source unless it names one: they follow from the rules of the lattice, DEVELOPERS.md.
"""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from turnchain.fabric import lattice
from turnchain.fabric.lattice import Kind, Side
from turnchain.fabric.library import edge_table

KINDS: tuple[Kind, ...] = ("flush", "spaced")
TABLE = edge_table("staggered")


def layout(width: int, left: Kind) -> list[str] | None:
    """What stands at every half pitch of a row, posts included: clusters with a gap after each, from the left.

    None where the row cannot end so: the post must stand just after a cluster or just after a gap.
    """
    inner = ["gap"] * (left == "spaced")
    while len(inner) < width - 1:
        inner += ["cluster"] if not inner or inner[-1] == "gap" else ["gap"]
    return ["post", *inner, "post"] if "cluster" in inner else None


@given(st.integers(-40, 40), st.integers(1, 40), st.integers(1, 60), st.integers(0, 1))
def test_kinds_and_counts_are_those_of_the_row_laid_out(left: int, width: int, row: int, phase: int) -> None:
    right = left + width
    laid = layout(width, TABLE.kind(left, row + phase))
    if laid is None:
        assert lattice.clusters(left, right, row + phase) <= 0
        return
    standing = [left + place for place, what in enumerate(laid) if what == "cluster"]
    assert all((centre - row - phase) % 2 == 0 for centre in standing)  # "c = r + s (mod 2)"
    assert list(lattice.centres(left, right, row + phase)) == standing
    assert lattice.clusters(left, right, row + phase) == len(standing)
    assert TABLE.kind(right, row + phase) == ("flush" if laid[-2] == "cluster" else "spaced")


@pytest.mark.parametrize("count", range(1, 12))
@pytest.mark.parametrize(
    ("left", "right", "more"),
    [("flush", "flush", 0), ("flush", "spaced", 1), ("spaced", "flush", 1), ("spaced", "spaced", 2)],
)
def test_clusters_take_two_half_pitches_each(count: int, left: Kind, right: Kind, more: int) -> None:
    # "J clusters take 2J, 2J + 1 or 2J + 2 half pitches"
    width = 2 * count + more
    for row, phase in product((1, 2), (0, 1)):
        at = 0 if TABLE.kind(0, row + phase) == left else 1
        assert TABLE.kind(at + width, row + phase) == right
        assert lattice.clusters(at, at + width, row + phase) == count


@given(st.integers(3, 60), st.integers(0, 1))
def test_rows_are_alike_in_an_odd_width_and_alternate_in_an_even_one(width: int, phase: int) -> None:
    counts = [lattice.clusters(0, width, row + phase) for row in range(1, 9)]
    kinds = [{TABLE.kind(0, row + phase), TABLE.kind(width, row + phase)} for row in range(1, 9)]
    if width % 2:
        assert set(counts) == {width // 2}
        assert all(kind == set(KINDS) for kind in kinds)
    else:
        assert counts[::2] == [counts[0]] * 4
        assert {counts[0], counts[1]} == {width // 2, width // 2 - 1}
        assert all(len(kind) == 1 for kind in kinds)


def test_a_published_scarf() -> None:
    # source: scarf without edge stitches (tinascrochetpage, 2006): 13, 12, 13, 12 ... clusters
    assert [lattice.clusters(0, 26, row) for row in range(1, 5)] == [13, 12, 13, 12]
    assert [lattice.clusters(0, 26, row + 1) for row in range(1, 5)] == [12, 13, 12, 13]
    # and not in a width that is half a pitch more or less
    for width in (25, 27):
        assert len({lattice.clusters(0, width, row) for row in range(1, 5)}) == 1


def test_a_published_bandana() -> None:
    # source: Bandana (thelittletreasures, 2024): row r has r clusters; 19 rows hold 190
    counts = [lattice.clusters(-row - 1, row + 1, row + 1) for row in range(1, 20)]
    assert counts == list(range(1, 20))
    assert sum(counts) == 190


@pytest.mark.parametrize(
    ("inwards", "below", "name"),
    [
        # the table of moves in DEVELOPERS.md
        (0, "flush", "straight"),
        (0, "spaced", "straight"),
        (1, "flush", "decrease"),
        (1, "spaced", "forced_decrease"),
        (-1, "spaced", "increase"),
        (-1, "flush", "forced_increase"),
        (2, "flush", "step_in"),
        (3, "spaced", "step_in"),  # "any number h of half pitches can be stepped in"
        (-2, "flush", "step_out"),
        (-8, "spaced", "step_out"),
    ],
)
def test_moves(inwards: int, below: Kind, name: str) -> None:
    assert TABLE.named(below, inwards) == name


@pytest.mark.parametrize("outwards", [3, 5, 21])
@pytest.mark.parametrize("below", KINDS)
def test_steps_out_go_by_whole_pitches(outwards: int, below: Kind) -> None:
    with pytest.raises(ValueError, match=f"{outwards} half pitches outwards"):
        TABLE.named(below, -outwards)


@pytest.mark.parametrize(
    ("name", "inwards", "new"),
    # what the table of moves says of the new row; a step keeps to whole pitches here
    [
        ("straight", 0, {"flush": "spaced", "spaced": "flush"}),
        ("decrease", 1, {"flush": "flush"}),
        ("increase", -1, {"spaced": "spaced"}),
        ("forced_decrease", 1, {"spaced": "spaced"}),
        ("forced_increase", -1, {"flush": "flush"}),
        ("step_in", 2, {"flush": "spaced", "spaced": "flush"}),
        ("step_in", 6, {"flush": "spaced", "spaced": "flush"}),
        ("step_out", -4, {"flush": "spaced", "spaced": "flush"}),
    ],
)
@pytest.mark.parametrize("phase", [0, 1])
def test_a_move_brings_the_kind_that_the_table_says(name: str, inwards: int, new: dict[Kind, Kind], phase: int) -> None:
    for row, at in product((1, 2), range(4)):
        below = TABLE.kind(at, row + phase)
        if below in new:
            assert TABLE.named(below, inwards) == name
            for inner in (at + inwards, at - inwards):  # a left and a right edge
                assert TABLE.kind(inner, row + 1 + phase) == new[below]


def test_between_natural_moves_the_phase_decides_how_many_straight_rows_lie() -> None:
    # "Between two decreases, or two increases, of an edge lies an even number of straight rows; between a decrease
    # and an increase an odd number."
    def natural(inwards: int, kind: Kind) -> bool:
        return "forced" not in TABLE.named(kind, inwards)

    for one, other in product((1, -1), repeat=2):
        at = next(at for at in (0, 1) if natural(one, TABLE.kind(at, 1))) + one
        for straight in range(9):
            fits = natural(other, TABLE.kind(at, 2 + straight))
            assert fits == (straight % 2 == (one != other))


@pytest.mark.parametrize(("row", "side"), [(1, "right"), (2, "left"), (47, "right")])
def test_odd_rows_start_at_the_right(row: int, side: Side) -> None:
    # source: rows are read right to left, then alternating (thecraftingplace chart guide, 2017; Annie's)
    assert lattice.starting_side(row) == side
    assert lattice.starting_side(row, left_handed=True) != side
