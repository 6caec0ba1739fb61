"""What a recipe and a plan say of themselves: tables by hand from the data files, and plans walked row by row.

No published source: the words of the lattice, DEVELOPERS.md.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest

from turnchain.fabric.lattice import SIDES
from turnchain.fabric.library import edge_table, recipe_of
from turnchain.fabric.plan import Fit, PiecePlan, between
from turnchain.pattern import Fabric
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text

HEAD = 'title = "Planned"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'


@cache
def planned(shape: str, more: str = "") -> PiecePlan:
    return plan_pattern(read_text(f'{HEAD}{more}[[piece]]\nname = "piece"\n{shape}\n', "plan.toml")).pieces[0]


#: Stitches of a unit, without its chains, those; the gap, what fills an edge, stitches of that, chains of that; the
#: pitch, the middle stitch.
COUNTED = {
    "open": (3, 3, 0, 1, 1, 0, 1, 4, 2), "closed": (3, 3, 0, 0, 1, 1, 0, 3, 2), "v": (3, 2, 1, 0, 1, 1, 0, 3, 2),
    "wide-v": (4, 2, 2, 0, 1, 1, 0, 4, 2), "double-v": (5, 4, 1, 0, 2, 2, 0, 5, 3),
    "shell": (5, 5, 0, 0, 2, 2, 0, 5, 3), "mesh": (1, 1, 0, 1, 1, 0, 1, 2, 1), "mesh-2": (1, 1, 0, 2, 2, 0, 2, 3, 1),
    "solid-dc": (1, 1, 0, 0, 0, 0, 0, 1, 1), "bare-closed": (3, 3, 0, 0, 1, 1, 0, 3, 2),
    "moss": (1, 1, 0, 1, 1, 0, 1, 2, 1), "slit": (3, 3, 0, 1, 0, 0, 0, 4, 2),
}  # fmt: skip
#: What a fabric is besides clusters in gaps with edge stitches and something beside these.
CALLED = {
    "open": {"cluster"}, "closed": {"cluster"}, "v": {"stacked", "grouped"}, "wide-v": {"stacked", "grouped"},
    "double-v": {"stacked", "grouped"}, "shell": {"stacked", "grouped"}, "mesh": {"stacked"}, "mesh-2": {"stacked"},
    "solid-dc": {"stacked"}, "bare-open": {"cluster", "bare"}, "bare-closed": {"cluster", "bare"}, "moss": set(),
    "offset-mesh": set(), "moss-plain": {"bare", "alternating"}, "slit": {"cluster", "slit"}, "moss-slit": {"slit"},
}  # fmt: skip


@pytest.mark.parametrize("name", COUNTED)
def test_a_recipe_counts_what_its_file_says(name: str) -> None:
    made = recipe_of(Fabric(kind=name))
    assert (made.unit_width, made.worked, made.inner, made.gap, made.filled, made.extra, made.edge_chains, made.pitch,
            made.middle) == COUNTED[name]  # fmt: skip
    assert made.pace == 2 / made.pitch


@pytest.mark.parametrize("name", CALLED)
def test_a_recipe_is_called_what_it_is(name: str) -> None:
    made = recipe_of(Fabric(kind=name))
    found = {word for word in ("stacked", "grouped", "bare", "alternating", "slit") if getattr(made, word)}
    assert found | ({"cluster"} if made.noun == "cluster" else set()) == CALLED[name]
    assert made.noun in ("cluster", "repeat")


@pytest.mark.parametrize(("name", "whole", "lean", "bare", "joins", "dearest", "on_edge"), [
    ("staggered", False, 1, False, False, 2, {"flush"}), ("stacked", False, 1, False, False, 0, {"spaced"}),
    ("whole", True, 2, False, True, 0, {"spaced"}), ("bare", False, 1, True, False, 1, {"bare"}),
])  # fmt: skip
def test_a_table_of_edges(
    name: str, whole: bool, lean: int, bare: bool, joins: bool, dearest: int, on_edge: set[str]
) -> None:
    table = edge_table(name)
    assert (table.whole, table.most_lean, table.bare, table.joins, table.dearest) == (whole, lean, bare, joins, dearest)
    assert {rule.kind for rule in table.kinds if table.on_edge(rule.kind)} == on_edge
    assert {rule.kind: table.post(rule.kind) for rule in table.kinds} == {
        rule.kind: rule.kind != "bare" for rule in table.kinds
    }
    assert table.unforced().dearest == 0
    assert {rule.name for rule in table.unforced().moves} == {"straight", "decrease", "increase"}
    assert table.rule("straight", None) is None
    assert table.rule("step_in", table.kinds[0].kind) is None


def test_edges_of_one_kind_go_by_whole_pitches() -> None:
    table = edge_table("whole").in_pitches()
    assert table.by_pitches
    assert {(rule.name, rule.by) for rule in table.moves} == {("straight", 0), ("decrease", 1), ("increase", -1)}
    assert {table.kind(at, running) for at in (0, 1) for running in (0, 1)} == {"spaced"}
    assert [table.named("spaced", way) for way in (-3, -2, -1, 0, 1, 2)] == [
        "step_out", "step_out", "increase", "straight", "decrease", "step_in"
    ]
    assert (table.together("decrease", "spaced"), table.together("straight", "spaced")) == (True, False)
    made = recipe_of(Fabric(kind="mesh"))
    assert (made.clusters(0, 9, 0), made.in_pitches().clusters(0, 9, 0)) == (4, 8)
    half = edge_table("staggered")
    for way in (-3, -5):
        with pytest.raises(ValueError, match=f"{-way} half pitches outwards"):
            half.named("flush", way)
    assert half.named("flush", -4) == "step_out"


@pytest.mark.parametrize(("fabric", "below", "units"), [
    ("open", "flush", [1, 3, 5]), ("open", "spaced", [0, 2, 4]), ("bare-open", "spaced", []), ("bare-open", "bare", []),
])  # fmt: skip
def test_an_edge_comes_to_a_unit_at_every_other_half_pitch(fabric: str, below: str, units: list[int]) -> None:
    made = recipe_of(Fabric(kind=fabric))
    assert [way for way in range(6) if made.on_unit(below, way)] == units  # type: ignore[arg-type]


@pytest.mark.parametrize(("low", "high", "share", "step", "at"), [
    (2, 6, "1/4", False, 3), (6, 2, "1/4", False, 5), (2, 6, "0", False, 2), (2, 6, "1/4", True, 2),
    (2, 6, "49/100", True, 2), (2, 6, "1/2", True, 6), (2, 6, "3/4", True, 6),
])  # fmt: skip
def test_between_two_rows_an_edge_stands_on_the_line_or_as_in_the_nearer_row(
    low: int, high: int, share: str, step: bool, at: int
) -> None:
    assert between(low, high, Fraction(share), step) == at


def test_what_is_off_is_worked_less_wanted() -> None:
    assert Fit("width", Fraction(40), Fraction(38)).off == -2


SHAPES = {
    "panel": "width = 40\nlength = 30", "growing": "outline = [[0, 20], [30, 50]]",
    "vee": 'width = 60\nlength = 40\nneck = { shoulder = 18, depth = 14, shape = "vee" }',
    "square": 'width = 60\nlength = 40\nneck = { shoulder = 18, depth = 14, shape = "square" }',
    "slit": 'width = 60\nlength = 40\nneck = { shoulder = 28.5, depth = 14, shape = "vee" }',
}  # fmt: skip
DIVIDED = ("vee", "square")


@pytest.mark.parametrize("name", [name for name in SHAPES if name != "slit"])
def test_a_plan_is_walked_row_by_row(name: str) -> None:
    piece = planned(SHAPES[name])
    body = piece.rows[0].section
    assert [row.index for row in piece.rows] == [*range(len(piece.rows))]
    assert piece.row_count == max(row.number for row in piece.rows)
    assert [row.number for row in piece.row_levels] == [*range(1, piece.row_count + 1)]
    assert {row.section for row in piece.row_levels} <= set(piece.sections[:2])
    assert [row for part in piece.sections for row in piece.section(part)] == [*piece.rows]
    assert piece.section("none such") == ()
    assert piece.total_clusters == sum(len(row.centres) for row in piece.rows)
    assert piece.leftmost == min(edge.at for row in piece.rows for edge in (row.left, row.right))
    assert piece.rightmost == max(edge.at for row in piece.rows for edge in (row.left, row.right))
    begun = [row for row in piece.rows if piece.begins_section(row)]
    assert len(begun) == (2 if name in DIVIDED else 0)
    for row in piece.rows:
        under = piece.below(row)
        assert (under is None) == (row.number == 1)
        assert under is None or under.number == row.number - 1
        assert (row.edge("left"), row.edge("right")) == (row.left, row.right)
        assert {row.starts, row.ends} == set(SIDES)
        others = [one for one in piece.rows if one.number == row.number and one.section != row.section]
        beside = piece.beside(row)
        assert (beside in others) if row in begun else beside is None
        for side in SIDES:
            far = piece.across_neck(row, side)
            apart = [one for one in others if (one.left.at > row.left.at) == (side == "right")]
            other = "left" if side == "right" else "right"
            assert far == (apart[0].edge(other).at if apart and row.section != body else None)


@pytest.mark.parametrize("name", ["panel", "growing"])
def test_units_stand_over_gaps_from_below_row_1_to_above_the_last(name: str) -> None:
    piece = planned(SHAPES[name])
    phases = [piece.running(number) % 2 for number in range(piece.row_count + 3)]
    assert all(one != other for one, other in pairwise(phases))
    for row in piece.rows:
        assert row.centres[0] % 2 == piece.running(row.number) % 2


def test_posts_share_a_cluster_where_a_neck_begins_without_width() -> None:
    """Both inner edges stand at one place, on a cluster: only where one of the row below is there."""
    piece = planned(SHAPES["slit"])
    begun = [row for row in piece.rows if piece.begins_section(row)]
    seen = []
    for row in begun:
        under, other = piece.below(row), piece.beside(row)
        assert under is not None
        assert other is not None
        for side in SIDES:
            far = other.edge("left" if side == "right" else "right").at
            on_unit = row.edge(side).at in under.centres
            if piece.across_neck(row, side) is not None:
                assert piece.on_unit(row, side) == on_unit
                assert piece.shares_cluster(row, side) == (far == row.edge(side).at and on_unit)
                seen.append(far == row.edge(side).at)
    assert seen == [True, True]
    square = planned(SHAPES["square"])
    assert not any(square.shares_cluster(row, side) for row in square.rows for side in SIDES)
    assert not square.on_unit(square.rows[0], "left")


MIXED = '[fabric]\nrows = ["cluster", "sc"]\nbase = ["sc"]\n'


def test_levels_of_rows_of_more_than_one_kind_add_up() -> None:
    """A row of sc is 0.54 of one of dc: in the mean 0.77, so they are 1/0.77 and 0.54/0.77 rows of the swatch high."""
    piece = planned(SHAPES["panel"], MIXED)
    high = {"cluster": Fraction(100, 77), "sc": Fraction(54, 77)}
    assert piece.mixed
    assert not planned(SHAPES["panel"]).mixed
    tops = [Fraction(0)]
    for row in piece.rows:
        assert row.height == high[row.kind]
        assert row.solid == (row.kind == "sc")
        tops.append(tops[-1] + high[row.kind])
    assert piece.tops == tuple(tops)
    row = Fraction(5, 4)
    assert [piece.level(number) for number in range(len(tops))] == tops
    assert piece.level(-1) == 0
    assert piece.up(3) == tops[3] * row
    assert piece.height == tops[-1] * row
    assert (piece.cluster_row, piece.dc_row) == (row * Fraction(100, 77), row * Fraction(100, 77))
    for part in range(4 * piece.row_count):
        height = piece.height * part / (4 * piece.row_count)
        near = piece.row_at(height)
        assert abs(tops[near] * row - height) == min(abs(top * row - height) for top in tops)
    plain = planned(SHAPES["panel"])
    assert [plain.row_at(row * Fraction(rows)) for rows in ("0", "-3", "2.4", "2.6", "7")] == [0, 0, 2, 3, 7]
    assert (plain.cluster_row, plain.dc_row) == (row, row)
    short = planned("width = 40\nlength = 30", '[fabric]\nstitch = "hdc"\n')
    assert (short.cluster_row, short.dc_row) == (row, row / Fraction("0.75"))


FRONT = '{}width = 60\nlength = 60\nneck = {{ shoulder = 14, depth = 8 }}\nfront = {{ side = "{}" }}\n{}'


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("edge", SIDES)
def test_half_a_front_opens_at_its_side(side: str, edge: str) -> None:
    """Worked upwards that is the edge in the middle; sideways it is the first or the last row. With the upper edge at
    the right of the chart, the right of the chart goes up and row 1, at its foot, comes to lie at the right."""
    assert planned(SHAPES["panel"]).opens is None
    assert planned(SHAPES["panel"]).front_edge is None
    middle = "right" if side == "left" else "left"  # the left front of a wearer lies right of the middle as it is seen
    upwards = planned(FRONT.format("", side, ""))
    assert upwards.opens in (side, middle)
    assert upwards.front_edge == upwards.opens
    sideways = planned(FRONT.format('worked = "sideways"\n', side, f'neck_edge = "{edge}"'))
    assert sideways.opens == upwards.opens
    assert sideways.top == edge
    lies = "right" if edge == "right" else "left"  # where row 1 lies as worn
    assert sideways.front_edge == ("first" if sideways.opens == lies else "last")
    assert sideways.armed == (False, False)
