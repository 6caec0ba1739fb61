"""Recipes of fabrics: read from data files, refused where they cannot be worked, their usual proportions.

The rules that a recipe must keep follow from the lattice, DEVELOPERS.md; no published source unless one is named.
"""

from __future__ import annotations

import copy
from fractions import Fraction
from typing import Any

import pytest

from turnchain.fabric import library
from turnchain.fabric.library import UnsoundRecipe, edge_table, edge_table_from, recipe_from, recipe_of
from turnchain.pattern import Fabric

OPEN = {"edges": "staggered", "unit": "dc dc dc", "gap": 1, "edge": "ch"}
TABLE: dict[str, Any] = dict(library._data("edges/staggered.toml"))


def test_open_and_closed_are_what_cluster_and_gap_meant() -> None:
    # by hand: k dc to a unit, g chains between; an edge has the gap's chains, or one dc more
    for k in (2, 3, 4, 5):
        made = recipe_of(Fabric(k, 1))
        assert (made.unit, made.gap, made.filling, made.extra, made.edge_chains) == (("dc",) * k, 1, ("ch",), 0, 1)
        made = recipe_of(Fabric(k, 0))
        assert (made.unit, made.gap, made.filling, made.extra, made.edge_chains) == (("dc",) * k, 0, ("dc",), 1, 0)


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("unit", "dc xc", 'unit: "xc"; stitches are, in US terms, sc, hdc, dc, tr and ch'),
        ("unit", "ch dc", 'unit: "ch dc"; must begin and end with a stitch'),
        ("unit", "dc sc", "unit: dc sc; must be of one stitch and chains"),
        ("unit", " ".join(["dc"] * 10), "unit: 10 stitches; must be 9 at most"),
        ("gap", 4, "gap: 4; must be a whole number from 0 to 3"),
        ("gap", "1", 'gap: "1"; must be a whole number from 0 to 3'),
        ("edges", "../stitches", 'edges: "../stitches"; edge tables are '),
        ("hook", 3, "hook: is no key of a fabric; allowed are "),
    ],
)
def test_a_recipe_that_cannot_be_worked_is_refused(key: str, value: object, said: str) -> None:
    with pytest.raises(UnsoundRecipe) as caught:
        recipe_from("mine", {**OPEN, key: value})
    assert str(caught.value).startswith(said)


def test_one_stitch_without_a_gap_has_no_gap_to_be_worked_into() -> None:
    with pytest.raises(UnsoundRecipe, match="one dc without a gap"):
        recipe_from("mine", {**OPEN, "unit": "dc", "gap": 0, "edge": "dc"})


def test_a_recipe_without_a_key_is_refused() -> None:
    for key in OPEN:
        with pytest.raises(UnsoundRecipe, match=f"{key}: is missing"):
            recipe_from("mine", {name: value for name, value in OPEN.items() if name != key})


@pytest.mark.parametrize(
    ("number", "key", "value", "said"),
    [
        (2, "by", 0, "staggered, decrease from flush: by 0 again; one move from a kind by one way"),
        (2, "by", 2, "staggered, decrease from flush: by 2 to flush; no unit stands where that kind has its first"),
        (0, "to", "bare", "staggered, straight from flush: flush to bare; its kinds are flush, spaced"),
        (0, "cost", -1, "staggered, straight from flush: by 0, cost -1; whole numbers"),
    ],
)
def test_an_edge_table_that_contradicts_itself_is_refused(number: int, key: str, value: object, said: str) -> None:
    table = copy.deepcopy(TABLE)
    table["move"][number][key] = value
    with pytest.raises(UnsoundRecipe) as caught:
        edge_table_from("staggered", table)
    assert str(caught.value).startswith(said)


def test_a_shift_that_does_not_fit_the_moves_is_refused() -> None:
    with pytest.raises(UnsoundRecipe, match="no unit stands where that kind has its first"):
        edge_table_from("staggered", {**TABLE, "shift": 0})


def test_the_edge_table_is_that_of_the_lattice() -> None:
    # the table of moves in the package's own words, DEVELOPERS.md
    table = edge_table("staggered")
    said = {(rule.name, rule.below, rule.to, rule.by) for rule in table.moves}
    assert said == {
        ("straight", "flush", "spaced", 0),
        ("straight", "spaced", "flush", 0),
        ("decrease", "flush", "flush", 1),
        ("increase", "spaced", "spaced", -1),
        ("forced_decrease", "spaced", "spaced", 1),
        ("forced_increase", "flush", "flush", -1),
    }


def test_usual_proportions() -> None:
    # published gauges of clusters of three: 1.83 to 2.0 rows to a cluster (SOURCES.md)
    assert recipe_of(Fabric(3, 1)).usual_pitch() == recipe_of(Fabric(3, 0)).usual_pitch() == 2
    assert recipe_of(Fabric(5, 1)).usual_pitch() == Fraction(10, 3)


def test_edges_fall_short_as_their_stitches_do() -> None:
    # by hand, in stitches: a flush edge (g - 1) / 2, a spaced one (k - 1) / 2 with chains, (k - 3) / 2 with a stitch
    for k in (2, 3, 4, 5):
        for gap in (0, 1):
            made = recipe_of(Fabric(k, gap))
            assert made.narrow("flush") == Fraction(gap - 1, 2)
            assert made.narrow("spaced") == Fraction(k - (1 if gap else 3), 2)


def test_units_of_several_stitches_worked_into_one_another_have_no_gap() -> None:
    for unit in ("dc dc dc", "dc ch dc"):
        with pytest.raises(UnsoundRecipe, match="gap: 1; units of several stitches worked into one another"):
            recipe_from("mine", {**OPEN, "edges": "stacked", "unit": unit, "edge": "dc"})


def test_usual_proportions_of_other_fabrics() -> None:
    """0.58 of a row to a stitch and half as much to a chain; one stitch and one chain, as published for solid rows,
    as much."""
    assert recipe_of(Fabric(1, 1, "dc")).usual_pitch() == 2 * Fraction(58, 100)
    assert recipe_of(Fabric(kind="v")).usual_pitch() == Fraction(5, 2) * Fraction(58, 100)


def test_what_units_are_called() -> None:
    """Two stitches make a cluster; one is none, nor are units that are worked into one another."""
    fabrics = (Fabric(2, 1), Fabric(3, 0), Fabric(1, 1), Fabric(kind="shell"))
    assert [recipe_of(fabric).noun for fabric in fabrics] == ["cluster", "cluster", "repeat", "repeat"]


@pytest.mark.parametrize(("fabric", "place"), [
    (Fabric(start="bare"), "start"), (Fabric(stitch="sc", turning_chain_counts=True), "turning_chain_counts"),
    (Fabric(turning_chain=1), "turning_chain_counts"), (Fabric(kind="nowhere"), "kind"),
    (Fabric(kind="v", rows=("cluster", "sc")), "rows"), (Fabric(then="stacked", cluster=4, base=("sc",)), "then"),
])  # fmt: skip
def test_what_cannot_be_worked_is_told_with_the_key_that_says_so(fabric: Fabric, place: str) -> None:
    with pytest.raises(UnsoundRecipe) as caught:
        recipe_of(fabric)
    assert caught.value.place == place


@pytest.mark.parametrize("start", ["", "flush", "spaced"])
def test_rows_start_with_any_edge_that_the_fabric_has(start: str) -> None:
    assert recipe_of(Fabric(start=start)).start == start


@pytest.mark.parametrize("name", ["staggered", "stacked", "bare", "whole"])
def test_an_edge_may_go_nowhere_in_every_table(name: str) -> None:
    table = edge_table(name)
    assert {table.named(rule.kind, 0) for rule in table.kinds} == {"straight"}
