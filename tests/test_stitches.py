"""Stitch counts, against rows laid out as lists and counted along; published counts with their sources.

Unless a source is named there is none: the counts follow from the rules of the lattice, DEVELOPERS.md.
"""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Kind
from turnchain.fabric.library import recipe_of
from turnchain.fabric.recipe import Recipe
from turnchain.fabric.stitches import EdgeWork
from turnchain.pattern import Fabric

OPEN, CLOSED = recipe_of(Fabric(3, 1)), recipe_of(Fabric(3, 0))
FABRICS = [recipe_of(Fabric(k, g)) for k in (2, 3, 4, 5) for g in (0, 1)]
KINDS: tuple[Kind, ...] = ("flush", "spaced")


def laid_out(fabric: Recipe, clusters: int, start: Kind, end: Kind) -> list[str]:
    """A row's stitches between and with its posts; ``|`` is the slit between clusters of the closed fabric."""
    gap = ["ch"] * fabric.gap or ["|"]
    edge = ["ch"] * fabric.gap or ["extra", "|"]
    row = ["post"] + (edge if start == "spaced" else [])
    for nth in range(clusters):
        row += (gap if nth else []) + [f"dc {nth + 1}.{dc + 1}" for dc in range(fabric.unit_width)]
    return row + (edge[::-1] if end == "spaced" else []) + ["post"]


def worked(row: list[str]) -> list[str]:
    """The stitches: slits are none."""
    return [stitch for stitch in row if stitch != "|"]


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
@pytest.mark.parametrize(("start", "end"), list(product(KINDS, KINDS)))
def test_counts_of_plain_rows(fabric: Recipe, start: Kind, end: Kind) -> None:
    for clusters in (1, 2, 7):
        row = laid_out(fabric, clusters, start, end)
        assert stitches.base(fabric, clusters, [start, end].count("spaced")) == len(worked(row))
        kinds = Counter(stitch.split()[0] for stitch in row)
        counts = stitches.count(fabric, clusters, EdgeWork(start), EdgeWork(end))
        assert counts.dc == kinds["dc"] + kinds["extra"] + 1  # the first post is the turning chain
        start_gap = fabric.gap if start == "spaced" else 0  # its chain is part of the turning chain
        assert counts.ch == kinds["ch"] - start_gap
        assert stitches.turning_chain(fabric, start) == 3 + start_gap
        assert (counts.sl_st, counts.tch) == (0, 1)


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
@pytest.mark.parametrize(("start", "end"), list(product(KINDS, KINDS)))
def test_the_foundation_is_walked_from_the_hook(fabric: Recipe, start: Kind, end: Kind) -> None:
    # the turning chain first, then a chain under every stitch of row 1
    row = worked(laid_out(fabric, 5, start, end))
    chain = ["turning"] * (3 + (fabric.gap if start == "spaced" else 0)) + row
    assert stitches.foundation(fabric, 5, start, end) == len(chain)
    assert stitches.first_chain(fabric, start) == chain.index("dc 1.1") + 1


@pytest.mark.parametrize("clusters", [1, 2, 24, 32, 101])
def test_foundation_formulas(clusters: int) -> None:
    # by hand, for k = 3, g = 1
    formulas: dict[tuple[Kind, Kind], int] = {
        ("spaced", "flush"): 4 * clusters + 6,
        ("flush", "spaced"): 4 * clusters + 5,
        ("flush", "flush"): 4 * clusters + 4,
        ("spaced", "spaced"): 4 * clusters + 7,
    }
    for (start, end), chains in formulas.items():
        assert stitches.foundation(OPEN, clusters, start, end) == chains


def test_first_chains() -> None:
    # by hand: flush start 5; spaced start 7 open and 6 closed, counted from the hook
    assert stitches.first_chain(OPEN, "flush") == stitches.first_chain(CLOSED, "flush") == 5
    assert stitches.first_chain(OPEN, "spaced") == 7
    assert stitches.first_chain(CLOSED, "spaced") == 6


def test_80_cm_at_4_clusters() -> None:
    # common practice, no source: 32 clusters, rows alike, starting spaced and ending flush: 134 chains
    assert stitches.foundation(OPEN, 32, "spaced", "flush") == 134


# ----------------------------------------------------------------------------------------------------- steps


def places(fabric: Recipe, below: Kind, clusters: int = 8) -> list[tuple[str, int]]:
    """(what, stitches after the post up to and with it) for every half pitch in from an edge, from 1."""
    row = laid_out(fabric, clusters, below, "flush")[1:]
    found: list[tuple[str, int]] = []
    if below == "spaced":
        found.append(("gap", 1))  # the edge gap, one slip stitch away
        row = row[row.index("dc 1.1") :]
    passed = fabric.filled if below == "spaced" else 0
    for nth in range(1, clusters):
        first = row.index(f"dc {nth}.1")
        middle = f"dc {nth}.{-(-fabric.unit_width // 2)}"  # the outer of two middle dc
        found.append(("cluster", passed + len(worked(row[: row.index(middle)])) + 1))
        gap = first + fabric.unit_width  # the chain, or the slit, after the cluster
        found.append(("gap", passed + len(worked(row[:gap])) + 1))
    return found


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
@pytest.mark.parametrize("below", KINDS)
def test_slip_stitches_lead_to_the_place_of_the_post(fabric: Recipe, below: Kind) -> None:
    for step, (_, slips) in enumerate(places(fabric, below), start=1):
        if step == 1 and below == "flush":
            continue  # a decrease, not a step
        assert stitches.slip_stitches(fabric, step, below) == slips


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
@pytest.mark.parametrize("pitches", [1, 2, 3, 6])
def test_slip_stitches_of_the_table(fabric: Recipe, pitches: int) -> None:
    # the rule for steps, by hand
    k, g, e, m = fabric.unit_width, fabric.gap, fabric.gap or 1, pitches
    assert stitches.slip_stitches(fabric, 2 * m, "flush") == m * k + (m - 1) * g + 1
    assert stitches.slip_stitches(fabric, 2 * m, "spaced") == e + (m - 1) * (k + g) + (k + 1) // 2
    assert places(fabric, "flush")[2 * m - 1][0] == "gap"
    assert places(fabric, "spaced")[2 * m - 1][0] == "cluster"


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
@pytest.mark.parametrize("pitches", [1, 2, 5])
def test_chains_of_a_step_out(fabric: Recipe, pitches: int) -> None:
    k, g = fabric.unit_width, fabric.gap
    # from a spaced edge: m clusters on chains of their own, the gaps between, and the post's chain
    on_chain = worked(laid_out(fabric, pitches, "flush", "flush"))[:-1]
    assert stitches.chained(fabric, 2 * pitches, "spaced") == len(on_chain)
    turning = 3  # "first dc in the 5th chain"
    assert turning + on_chain.index("dc 1.1") + 1 == 5
    # from a flush edge: m pitches of chain bring the new post m pitches out
    assert stitches.chained(fabric, 2 * pitches, "flush") == pitches * (k + g)
    # and m - 1 clusters with gap and post find room on it
    needed = worked(laid_out(fabric, pitches - 1, "spaced", "flush"))[:-1] if pitches > 1 else ["post"]
    assert len(needed) + g <= pitches * (k + g)


@pytest.mark.parametrize("fabric", FABRICS, ids=lambda one: f"{one.unit_width}-{one.gap}")
def test_counts_of_shaped_rows(fabric: Recipe) -> None:
    k, g = fabric.unit_width, fabric.gap
    plain = stitches.count(fabric, 6, EdgeWork("spaced"), EdgeWork("flush"))
    forced = stitches.count(fabric, 6, EdgeWork("spaced", "forced_decrease", 0, "spaced"), EdgeWork("flush"))
    assert (forced.sl_st, forced.ch, forced.dc) == (1, plain.ch, plain.dc)  # "sl st into the edge gap"
    stepped = stitches.count(fabric, 6, EdgeWork("spaced", "step_in", 4, "flush"), EdgeWork("flush"))
    assert (stepped.sl_st, stepped.ch, stepped.dc) == (2 * k + g + 1, plain.ch, plain.dc)
    out = stitches.count(fabric, 6, EdgeWork("spaced", "step_out", 4, "flush"), EdgeWork("flush"))
    assert (out.sl_st, out.ch, out.dc) == (0, plain.ch + 2 * (k + g), plain.dc)
    # a step at the end of a row is only left unworked
    end = stitches.count(fabric, 6, EdgeWork("spaced"), EdgeWork("flush", "step_in", 2, "spaced"))
    assert end == plain
    # "k + 1 dc in the post": the last cluster and the post
    wide = stitches.count(fabric, 6, EdgeWork("flush"), EdgeWork("flush", "forced_increase"))
    assert wide.dc == 6 * k + 1


# ------------------------------------------------------------------------------------------ published counts


def test_a_uk_leaflet() -> None:
    # source: UK leaflet "Granny Stripes Crochet Blanket" (Scribd 787932060): chain 140, base row of 139; rows
    # alternate 2, 45 clusters of 3, 2 (139 dc) and 1, 46 clusters, 1 (140 dc)
    assert stitches.base(CLOSED, 45, 2) == 139
    assert stitches.base(CLOSED, 46, 0) == 140
    for clusters, kind, dc in ((45, "spaced", 139), (46, "flush", 140)):
        counts = stitches.count(CLOSED, clusters, EdgeWork(kind), EdgeWork(kind))  # type: ignore[arg-type]
        assert counts.dc + counts.tch == dc
        assert counts.ch == 0


@pytest.mark.parametrize("pitches", [46, 63, 100])
def test_a_base_row_has_three_times_the_pitches_and_one(pitches: int) -> None:
    # source: the same leaflet, reckoned: n pitches have a base of 3n + 1, n - 1 clusters in spaced/spaced rows
    assert stitches.base(CLOSED, pitches - 1, 2) == 3 * pitches + 1


@pytest.mark.parametrize(("chains", "fits"), [(254, True), (302, True), (140, True), (250, False)])
def test_a_multiple_of_three_and_two_chains(chains: int, fits: bool) -> None:
    # source: Craftsy and Attic24 granny stripes: multiple of 3 plus 2 with a base row (a chain more than stitches);
    # 254 fits, 250 does not, 302 chains are about 183 cm; 140 is the UK leaflet
    bases = {stitches.base(CLOSED, clusters, 2) for clusters in range(1, 200)}
    assert (chains - 1 in bases) == fits


def test_a_blanket_of_63_clusters() -> None:
    # source: Purl Soho granny stripe blanket (2017): 63 clusters, 190 stitches (3 x 63 + 1)
    assert stitches.base(CLOSED, 62, 2) == 190  # 63 pitches
    assert stitches.base(CLOSED, 63, 0) == 191


def test_a_bandana() -> None:
    # source: Bandana (thelittletreasures, 2024): 19 rows, 190 clusters, 570 dc in clusters
    in_clusters = [stitches.count(OPEN, row, EdgeWork("spaced"), EdgeWork("spaced")).dc - 1 for row in range(1, 20)]
    assert sum(in_clusters) == 570


def test_99_chains_there_are_100_here() -> None:
    # source: three-colour stripes (crochet2in1.com): chain 99 = 4 x 24 + 3 for 24 clusters; there the turning chain
    # stands on its neighbour, here the post has a chain of its own
    assert stitches.foundation(OPEN, 24, "flush", "flush") - 1 == 99


@pytest.mark.parametrize("chains", [60, 96, 120])
def test_published_and_wrong_multiples(chains: int) -> None:
    # source: published and wrong: "multiple of 4 plus 3" with 60, 96 and 120 chains
    fitting = {stitches.foundation(OPEN, clusters, "flush", "flush") - 1 for clusters in range(1, 60)}
    assert 99 in fitting
    assert chains not in fitting


def test_published_and_wrong_clusters() -> None:
    # source: published and wrong: "210 stitches is 77 clusters"
    assert 210 not in {stitches.base(fabric, 77, spaced) for fabric in (OPEN, CLOSED) for spaced in (0, 1, 2)}
    assert stitches.base(CLOSED, 77, 0) == len(worked(laid_out(CLOSED, 77, "flush", "flush"))) == 233
