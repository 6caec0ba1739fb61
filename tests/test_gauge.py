"""Swatches and what is reckoned from them: sums by hand. That a gauge is a mean of lengths, and not of counts, is a
matter of what a width is: a count times a length."""

from __future__ import annotations

from fractions import Fraction

import pytest

from turnchain.fabric.gauge import (
    Gauge,
    gauge_of,
    grams_of,
    mean_gauge,
    measured_gauge,
    shares_of,
    size_of,
    usual_band,
    usual_row_height,
)
from turnchain.fabric.library import recipe_of
from turnchain.pattern import Fabric, Progress, RowSwatch, Swatch


def of(**read: str | int) -> Swatch:
    return Swatch(**{name: Fraction(value) for name, value in read.items()})  # type: ignore[arg-type]


WHOLE = of(clusters=8, width=16, rows=10, height=12)  # 2 cm and 1.2 cm


def test_a_gauge_is_the_mean_of_the_lengths_read() -> None:
    """2 cm, 4 cm and 3 cm to a cluster; 1.2 cm and 2 cm to a row."""
    gauge = gauge_of([WHOLE, of(clusters=5, width=20), of(rows=6, height=12), of(clusters=4, width=12)])
    assert (gauge.pitch, gauge.half, gauge.row) == (3, Fraction(3, 2), Fraction("1.6"))
    assert gauge.pitches == (2, 4)
    assert gauge.row_heights == (Fraction("1.2"), 2)
    assert gauge.pitch_in_rows == Fraction(30, 16)


@pytest.mark.parametrize("half", [of(clusters=3), of(width=3), of(rows=3), of(height=3)])
def test_half_a_reading_is_none(half: Swatch) -> None:
    assert gauge_of([half, WHOLE]) == gauge_of([WHOLE])
    with pytest.raises(ValueError, match="a gauge needs"):
        gauge_of([half])


@pytest.mark.parametrize("one", [of(clusters=4, width=10), of(rows=4, height=10)])
def test_a_gauge_needs_both_lengths(one: Swatch) -> None:
    with pytest.raises(ValueError, match="clusters counted in a width and rows counted in a height"):
        gauge_of([one])


def test_a_gauge_that_is_wider_is_so_in_every_reading() -> None:
    gauge = gauge_of([WHOLE, of(clusters=5, width=20)]).wider(Fraction(3, 2))
    assert (gauge.pitch, gauge.pitches) == (Fraction(9, 2), (3, 6))
    assert (gauge.row, gauge.row_heights) == (Fraction("1.2"), (Fraction("1.2"), Fraction("1.2")))


def solid(
    stitch: str, rows: int, height: int, weight: int | None = None, weighed: tuple[int, int] | None = None
) -> RowSwatch:
    size = None if weighed is None else (Fraction(weighed[0]), Fraction(weighed[1]))
    return RowSwatch(stitch, Fraction(rows), Fraction(height), None if weight is None else Fraction(weight), size)  # type: ignore[arg-type]


def test_rows_with_swatches_of_their_own_are_so_high_and_so_heavy() -> None:
    """Rows of 1.2 cm; single crochet at 0.6 cm and, of another swatch, 0.8 cm: 0.7 cm or 7/12. The whole weighs 12 g to
    192 square cm; single crochet 9 g to 40 and 3 g to 40, 0.15 g to a square cm: 2.4 times as much."""
    swatches = [
        Swatch(Fraction(8), Fraction(16), Fraction(10), Fraction(12), weight=Fraction(12),
               kinds=(solid("sc", 10, 6, 9, (5, 8)), solid("hdc", 5, 5))),
        Swatch(kinds=(solid("sc", 5, 4, 3, (4, 10)), solid("hdc", 5, 5, None, (5, 5)))),
    ]  # fmt: skip
    heights, weights = shares_of(swatches)
    assert heights == (("sc", Fraction(7, 12)), ("hdc", Fraction(10, 12)))
    assert weights == (("sc", Fraction("2.4")),)
    unweighed = [Swatch(Fraction(8), Fraction(16), Fraction(10), Fraction(12), kinds=(solid("sc", 10, 6, 9, (5, 8)),))]
    assert shares_of(unweighed) == ((("sc", Fraction(1, 2)),), ())


def test_grams_to_a_square_cm_are_those_of_all_that_was_weighed() -> None:
    """12 g of 192 square cm and 20 g of 8: 32 g of 200."""
    weighed = [
        Swatch(Fraction(8), Fraction(16), Fraction(10), Fraction(12), weight=Fraction(12)),
        Swatch(weight=Fraction(20), weighed=(Fraction(2), Fraction(4))),
    ]
    assert grams_of(weighed) == Fraction(32, 200)
    assert grams_of([WHOLE]) is None
    assert grams_of([Swatch(weight=Fraction(5)), *weighed]) == Fraction(32, 200)


@pytest.mark.parametrize(("swatch", "size"), [
    (WHOLE, (16, 12)), (of(width=16), ()), (of(height=16), ()), (of(), ()),
    (Swatch(width=Fraction(3), height=Fraction(3), weighed=(Fraction(2), Fraction(4))), (2, 4)),
])  # fmt: skip
def test_what_was_weighed_is_as_large_as_is_said_else_as_the_swatch(swatch: Swatch, size: tuple[int, ...]) -> None:
    assert size_of(swatch) == size


def test_a_pitch_of_clusters_of_three_is_two_rows_give_or_take_a_fifth() -> None:
    """Published gauges: 1.83 to 2.0 row heights. Beyond the band, the row that would go with the pitch is half of
    it."""
    recipe = recipe_of(Fabric())
    assert usual_band(recipe) == (Fraction("1.6"), Fraction("2.4"))
    for rows, usual in (("1.6", None), ("2.4", None), ("1.59", 1), ("2.41", 1), ("2", None)):
        row = 2 / Fraction(rows)
        gauge = Gauge(Fraction(2), row, (Fraction(2), Fraction(2)), (row, row))
        assert usual_row_height(gauge, recipe) == usual, rows


def test_a_gauge_measured_on_the_piece_itself() -> None:
    """30 cm over 20 rows; 45 cm across 30 half pitches are 3 cm to a pitch."""
    swatch = gauge_of([WHOLE])
    both = measured_gauge(swatch, Progress("piece", 20, Fraction(30), Fraction(45)), 20, 30)
    assert (both.pitch, both.row) == (3, Fraction("1.5"))
    assert both.pitches == (3, 3)
    assert both.row_heights == (Fraction("1.5"), Fraction("1.5"))
    height = measured_gauge(swatch, Progress("piece", 20, Fraction(30), None), 20, 30)
    assert (height.pitch, height.row) == (2, Fraction("1.5"))


def test_the_mean_of_gauges_counts_each_alike() -> None:
    one = gauge_of([WHOLE, of(clusters=5, width=20)])  # 3 cm, 2 to 4; 1.2 cm
    other = gauge_of([of(clusters=1, width=6, rows=1, height=2)])
    for both in (mean_gauge([one, other]), mean_gauge([other, one])):
        assert (both.pitch, both.row) == (Fraction(9, 2), Fraction("1.6"))
        assert both.pitches == (2, 6)
        assert both.row_heights == (Fraction("1.2"), 2)
    low = gauge_of([of(clusters=1, width=1, rows=1, height=1), of(rows=1, height=5)])  # 1 and 5 cm to a row
    assert mean_gauge([low, one]).row_heights == (1, 5)
