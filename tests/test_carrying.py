"""Carry or cut: the parity law against a yarn followed by hand, the published counts of ends, and what saves ends."""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading import pattern_file
from turnchain.records import replace
from turnchain.yarns import carrying
from turnchain.yarns.colouring import coloured

CASES = Path(__file__).parent / "cases"
QUICK = settings(max_examples=80)
SWATCH = Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10))
NAMES = ("A", "B", "C", "D")


def planned(order: str, rows: int, *heights: int, carry: int = 4, **more: object) -> Plan:
    """A panel of 1 cm rows in stripes of ``heights`` rows, the yarns in ``order``."""
    piece = replace(Piece("one", width=Fraction(20), length=Fraction(rows)), **more)  # type: ignore[arg-type]
    yarns = tuple(Yarn(name, "#777777") for name in NAMES)
    stripes = Stripes(tuple(order), heights or (1,), carry=carry)
    return coloured(plan_pattern(Pattern("Test", (SWATCH,), (piece,), yarns=yarns, stripes=stripes)))


def striped(order: str, rows: int, *heights: int) -> PiecePlan:
    return planned(order, rows, *heights).pieces[0]


# ------------------------------------------------------------------------------------------- published, or by law


@pytest.mark.parametrize(
    ("order", "heights", "ends"),
    [
        ("AB", (1,), 2 * 24),  # two colours in single rows: cut every time
        ("ABC", (1,), 2 * 3),  # three colours in single rows: none cut
        ("AB", (2,), 2 * 2),  # two-row stripes: none cut
        ("ABC", (2,), 2 * 3),
    ],
)
def test_ends_of_published_orders(order: str, heights: tuple[int, ...], ends: int) -> None:
    """2 ends a stripe uncarried, 2 a colour if never cut. Sources of the law: "how to carry yarn" (Dummies),
    place-marker.com, knittingmagic.biz; the sums are ours."""
    assert carrying.ends(striped(order, 24, *heights)) == ends


def test_a_yarn_waits_where_it_was_left() -> None:
    """Odd rows start at the right, so after row k the yarn hangs at the left if k is odd."""
    found = carrying.changes(striped("ABC", 7))
    assert [(one.row, one.side, one.colour, one.carried, one.why) for one in found] == [
        (1, "right", "A", 0, "new"),
        (2, "left", "B", 0, "new"),
        (3, "right", "C", 0, "new"),
        (4, "left", "A", 2, ""),
        (5, "right", "B", 2, ""),
        (6, "left", "C", 2, ""),
        (7, "right", "A", 2, ""),
    ]
    # the yarn left at each change waits, but for B and C, which do not come again after rows 5 and 6
    assert [(one.left, one.waits) for one in found] == [
        (None, False), ("A", True), ("B", True), ("C", True), ("A", True), ("B", False), ("C", False)
    ]  # fmt: skip


def test_the_maker_says_how_far() -> None:
    """Four colours in two-row stripes: six rows between, more than the usual four."""
    piece = striped("ABCD", 24, 2)
    assert {one.carried for one in carrying.changes(piece, 6)} == {0, 6}
    assert carrying.ends(piece, 6) == 8
    assert carrying.ends(piece, 5) == carrying.ends(piece, 0) == 24
    assert {one.why for one in carrying.changes(piece, 5)} == {"new", "far"}
    plan = planned("ABCD", 24, 2, carry=6)
    assert carrying.carry_of(plan, plan.pieces[0]) == 6


# --------------------------------------------------------------------------------------- followed stitch by stitch


def by_hand(colours: list[str | None], carry: int) -> int:
    """Ends to weave in, by walking every row from edge to edge with all yarns hanging where they were dropped."""
    hangs: dict[str | None, tuple[str, int]] = {}
    ends = 0
    for number, colour in enumerate(colours, 1):
        start, stop = ("right", "left") if number % 2 else ("left", "right")
        side, row = hangs.get(colour, ("nowhere", 0))
        if side != start or number - row - 1 > carry:
            ends += 2  # the new end, and the one it will have when it is cut
        hangs[colour] = (stop, number)
    return ends


@QUICK
@given(st.lists(st.sampled_from(NAMES), min_size=1, max_size=30), st.integers(0, 12))
def test_ends_as_by_hand(colours: list[str], carry: int) -> None:
    piece = striped("A", len(colours))
    rows = tuple(replace(row, colour=colours[row.number - 1]) for row in piece.rows)
    piece = replace(piece, rows=rows)
    assert carrying.ends(piece, carry) == by_hand([*colours], carry)
    for change in carrying.changes(piece, carry):
        if change.carried:
            assert change.last is not None
            assert change.carried == change.row - change.last - 1
            assert change.carried % 2 == 0
            assert colours[change.last - 1] == change.colour == colours[change.row - 1]
    even = [row.colour for row in carrying.in_even_stripes(piece).rows]
    assert len(even) == len(colours)
    assert [(one.words, one.ends) for one in carrying.savings(piece, carry)] == savings_by_hand(colours, carry)


def savings_by_hand(colours: list[str], carry: int) -> list[tuple[str, int]]:
    """Stripes a row higher where they are odd, a carry as long as any that could be, and both: those that leave fewer
    ends, the fewest first, of as many one."""
    heights = [(one, len([*run])) for one, run in groupby(colours)]
    even = [one for one, height in heights for _ in range(height + height % 2)][: len(colours)]
    far, reach = farthest(colours), farthest(even)
    two = {height for _, height in [(one, len([*run])) for one, run in groupby(even)][:-1]} <= {2}
    words = "two-row stripes" if two else "stripes of an even number of rows"
    ways = [(words, by_hand([*even], carry)), (f"carried over up to {far} rows", by_hand([*colours], max(far, carry)))]
    if reach > carry:
        ways.append((f"{words}, carried over up to {reach} rows", by_hand([*even], reach)))
    fewest: dict[int, tuple[str, int]] = {}
    for way in ways:
        fewest.setdefault(way[1], way)
    return [fewest[ends] for ends in sorted(fewest) if ends < by_hand([*colours], carry)]


def farthest(colours: list[str]) -> int:
    """The most rows, in an even number, between two stripes of one yarn with none of it between."""
    places = range(len(colours))
    return max((high - low - 1 for low in places for high in places[low + 2 :]
                if colours[low] == colours[high] and colours[low] not in colours[low + 1 : high] and (high - low) % 2),
               default=0)  # fmt: skip


def test_no_stripe_is_joined_twice_nor_lost() -> None:
    piece = striped("ABC", 20, 1, 2)
    found = carrying.changes(piece)
    assert [one.row for one in found][:5] == [1, 2, 4, 5, 7]
    assert carrying.ends_by_colour(piece).total() == carrying.ends(piece) == 2 * sum(one.joined for one in found)


# --------------------------------------------------------------------------------------------------- shaped edges


def test_a_step_cuts_the_yarn() -> None:
    """A waiting yarn does not reach an edge that has gone in by whole clusters."""
    outline = tuple((Fraction(y), Fraction(x)) for y, x in ((0, 40), (10, 40), (10, 20), (20, 20)))
    piece = planned("AB", 20, 2, width=None, length=None, outline=outline).pieces[0]
    stepped = {row.number for row in piece.rows for side in ("left", "right") if row.edge(side).move == "step_in"}  # type: ignore[arg-type]
    why = {one.row: one.why for one in carrying.changes(piece)}
    assert stepped
    assert "step" in why.values()
    assert (min(stepped), max(stepped)) == (11, 11)
    assert why == {1: "new", 3: "new", 5: "", 7: "", 9: "", 11: "step", 13: "step", 15: "", 17: "", 19: ""}


def test_the_second_shoulder_joins_every_yarn_anew() -> None:
    neck = Neck(Fraction(10), Fraction(6), "square")
    plan = planned("AB", 24, 2, worked="upwards", width=Fraction(40), neck=neck)
    (piece,) = plan.pieces
    body, second = carrying.threads(piece)
    assert {row.section for row in body} == {"body", "first shoulder"}
    assert {row.section for row in second} == {"second shoulder"}
    joined = [one for one in carrying.changes(piece) if one.section == "second shoulder" and one.joined]
    assert {one.colour for one in joined} == {"A", "B"}
    assert carrying.ends(piece) >= 8


# -------------------------------------------------------------------------------------------------------- savings


def test_two_row_stripes_save_most() -> None:
    """23 single-row stripes of two colours: 4 ends instead of 46."""
    piece = striped("AB", 23)
    assert carrying.ends(piece) == 46
    assert carrying.savings(piece) == (carrying.Saving("two-row stripes", 4),)


def test_eight_ends_instead_of_ninety_two() -> None:
    """Four colours in 46 single rows, three between each two: every stripe is cut. In two-row stripes none is, where
    the maker carries over six rows."""
    piece = striped("ABCD", 46)
    assert carrying.ends(piece, 6) == 92
    assert carrying.savings(piece, 6) == (carrying.Saving("two-row stripes", 8),)
    assert carrying.savings(piece, 4) == (
        carrying.Saving("two-row stripes, carried over up to 6 rows", 8),
        carrying.Saving("two-row stripes", 46),
    )


def test_words() -> None:
    plan = planned("AB", 23, count=2)
    assert carrying.lines(plan) == [
        "one: 46 ends to weave in, 92 for both pieces; no yarn is at hand where it is wanted again, so each is cut "
        "after its stripe",
        "one: yarn is cut and joined again 21 times because it is at the other edge (an odd number of rows between) "
        "(carry = 4)",
        "one: with the same yarns in the same order, two-row stripes: 4 ends instead of 46",
    ]
    assert carrying.lines(planned("AB", 8, 2)) == [
        "one: 4 ends to weave in; carried up the edge twice, over 2 rows at most (2 cm)",
    ]
    assert carrying.lines(planned("A", 8)) == []


def test_the_heron_front() -> None:
    plan = coloured(plan_pattern(pattern_file.read_file(CASES / "heron_top.toml")))
    assert carrying.lines(plan)[0] == (
        "front: 26 ends to weave in; carried up the edge 11 times, over 2 rows at most (2.33 cm)"
    )
    # Silt every other stripe waits over two rows; Heron and Reed come back after six
    assert carrying.ends_by_colour(plan.piece("front")) == {"Heron": 12, "Reed": 12, "Silt": 2}
