"""Random patterns of every fabric: planned pieces, walks by every move of their tables, whole files; each is proved by
working it from words and charts. Thousands more in the nightly set.
"""

from __future__ import annotations

from math import hypot
from random import Random

import pytest

from any_fabric import fabric_at, file_of_any, planned_of_any, planned_of_bare, walk_of_any, walk_of_bare
from end_to_end import planned
from nightly import YARNS, _stripes, _swatch, unproved
from turnchain.errors import PatternError
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.plan import Plan
from turnchain.garment.edges import length_of
from turnchain.garment.necklines import neck_curve
from turnchain.pattern import Neck, NeckShape, Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import words_of
from turnchain.records import replace
from turnchain.wording.tables import LANGUAGES
from turnchain.wording.words import pattern_text

SHAPES: tuple[NeckShape, ...] = ("slant", "round", "vee", "square")


@pytest.mark.quick(0)
@pytest.mark.parametrize("block", range(3))
def test_planned_pieces_of_any_fabric_are_proved(block: int) -> None:
    proved = 0
    for seed in range(block, 24, 3):
        rows, reasons = unproved(planned_of_any, seed)
        assert reasons == []
        proved += rows
    assert proved > 60


@pytest.mark.quick(0)
@pytest.mark.parametrize("block", range(3))
def test_walks_of_any_fabric_are_proved(block: int) -> None:
    for seed in range(block, 36, 3):
        assert unproved(walk_of_any, seed, measured=False)[1] == []


@pytest.mark.quick(0)
@pytest.mark.parametrize("block", range(2))
def test_clusters_without_edge_stitches_are_proved(block: int) -> None:
    proved = 0
    for seed in range(block, 24, 2):
        rows, reasons = unproved(planned_of_bare, seed)
        assert reasons == []
        proved += rows
        assert unproved(walk_of_bare, seed, measured=False)[1] == []
    assert proved > 60


@pytest.mark.parametrize("seed", [9, 11, 39, 119, 1029])
def test_walks_without_edge_stitches_that_went_wrong(seed: int) -> None:
    """A long way to the outermost stitch of a step out, single clusters, clusters beside a turning chain on row 1, a
    foundation of a multiple less some chains."""
    assert unproved(walk_of_bare, seed, measured=False)[1] == []


def test_a_row_of_one_stitch_and_its_turning_chain() -> None:
    assert unproved(planned_of_bare, 2121)[1] == []


def test_the_only_cluster_of_a_row_may_stand_on_the_outermost_stitch() -> None:
    assert unproved(planned_of_bare, 3077)[1] == []


def test_a_neck_whose_last_row_leans_over_it_is_measured_to_its_end() -> None:
    """By hand: up 2 rows of 20/29 cm and 1 cm out at the left, 2 cm of floor, a row up, and one that leans 1 cm in."""
    plan = planned_of_bare(2113)
    assert plan is not None
    (piece,), row = plan.pieces, 20 / 29
    round_it = hypot(1, 2 * row) + 2 + row + hypot(1, row)
    assert length_of(neck_curve(piece)) == pytest.approx(round_it)
    assert unproved(planned_of_bare, 2113)[1] == []


@pytest.mark.slow
@pytest.mark.parametrize("block", range(4))
def test_files_of_any_fabric_are_proved(block: int) -> None:
    proved = 0
    for seed in range(block, 24, 4):
        rows, reasons = unproved(lambda one: planned(file_of_any(one)), seed)
        assert reasons == []
        proved += rows
    assert proved > 60


def test_both_extra_stitches_of_an_edge_have_their_places_in_the_chart() -> None:
    """Two double V beside a neck without width, where the edge stitch is drawn aside."""
    assert unproved(planned_of_any, 6011)[1] == []


@pytest.mark.parametrize("seed", [6270, 6272])
def test_slip_stitches_lead_from_an_edge_stitch_that_is_drawn_aside(seed: int) -> None:
    """In a neck without width, whose edge stitches stand apart in the chart."""
    assert unproved(planned_of_any, seed)[1] == []


@pytest.mark.parametrize("seed", [5074, 5143, 5206, 5221, 5242])
def test_a_row_of_one_unit_without_chains_is_no_solid_row(seed: int) -> None:
    """Its stitches are as many as those of a solid row; they stand elsewhere, or those above them do."""
    assert unproved(walk_of_any, seed, measured=False)[1] == []


def test_a_foot_on_a_new_chain_stands_in_no_stitch() -> None:
    """The only cluster of one stitch that does not stand at an edge is on the chain of a step out."""
    assert unproved(walk_of_any, 20084, measured=False)[1] == []


def test_a_pitch_hardly_narrower_than_is_usual_is_told_in_two_decimals() -> None:
    """1.90 rows, where 1.9 is the least that is usual: both are rounded."""
    assert unproved(planned_of_any, 6266)[1] == []
    assert unproved(lambda one: planned(file_of_any(one)), 7054)[1] == []


def test_how_far_a_slant_goes_in_is_not_shown_by_a_single_row() -> None:
    """A mesh of one row, whose edges would go by a whole repeat."""
    assert unproved(planned_of_any, 6043)[1] == []


def test_shoulders_may_differ_though_the_sides_are_alike() -> None:
    """A mesh five repeats wide beside a neck: two to one shoulder, three to the other."""
    assert unproved(lambda one: planned(file_of_any(one)), 8078)[1] == []


@pytest.mark.parametrize("seed", [7038, 7107])
def test_captions_of_rows_of_hdc_are_read_in_uk_terms_too(seed: int) -> None:
    assert unproved(lambda one: planned(file_of_any(one)), seed)[1] == []


@pytest.mark.parametrize("block", range(4))
def test_walks_are_worked_as_planned_from_their_words(block: int) -> None:
    """Every move of every fabric at both ends of a row, in every language: read and worked, the rows are the plan's."""
    languages = list(LANGUAGES)
    for seed in range(block, 48, 4):
        for walk in (walk_of_any, walk_of_bare):
            plan, language = walk(seed), languages[seed // 4 % len(languages)]
            assert words_of(plan, language, pattern_text(plan, language)).reasons is None, seed


def divided(seed: int) -> Plan | None:
    """A piece of any fabric that divides for a neck, none where it cannot be planned."""
    rng = Random(seed)
    swatch, fabric, stripes = _swatch(rng), fabric_at(rng, seed % 4 == 0), _stripes(rng)
    pattern = Pattern("Divided", (swatch,), (), fabric, YARNS, stripes)
    gauge = gauge_of(pattern.swatches)
    width, length = gauge.pitch * rng.randint(10, 18), gauge.row * rng.randint(8, 16)
    neck = Neck(width * rng.randint(6, 16) / 40, length * rng.randint(2, 14) / 20, rng.choice(SHAPES))
    try:
        return plan_pattern(replace(pattern, pieces=(Piece("any", width=width, length=length, neck=neck),)))
    except PatternError:
        return None


@pytest.mark.parametrize("block", range(4))
def test_divided_pieces_are_worked_as_planned_from_their_words(block: int) -> None:
    """Where a section ends and where the yarn is joined for the second one, in every fabric and every language."""
    languages, told = list(LANGUAGES), 0
    for seed in range(block, 40, 4):
        plan, language = divided(seed), languages[seed // 4 % len(languages)]
        if plan is not None:
            assert words_of(plan, language, pattern_text(plan, language)).reasons is None, seed
            told += len(plan.pieces[0].sections) > 1
    assert told > 6
