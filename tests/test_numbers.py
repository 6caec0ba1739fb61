"""Numbers as every file shows them: two decimals, no minus zero, one and many. Sums by hand; ordinals as the rules for
English of Unicode's CLDR have them."""

from __future__ import annotations

import math

import pytest

from turnchain.numbers import counted, decimal, ordinal, rounded


@pytest.mark.parametrize(
    ("value", "text"),
    [(1.234, "1.23"), (1.239, "1.24"), (-0.001, "0.0"), (0.0, "0.0"), (-2.5, "-2.5"), (0.005001, "0.01")],
)
def test_two_decimals_and_never_minus_zero(value: float, text: str) -> None:
    assert str(rounded(value)) == text


@pytest.mark.parametrize(("count", "text"), [(0, "0 rows"), (1, "1 row"), (2, "2 rows"), (11, "11 rows")])
def test_one_and_many(count: int, text: str) -> None:
    assert counted(count, "row") == text


#: By their endings; every other number to 131 has "th".
ORDINALS = {
    "st": {1, *range(21, 102, 10), 121, 131}, "nd": {2, *range(22, 103, 10), 122}, "rd": {3, *range(23, 104, 10), 123},
}  # fmt: skip


def test_ordinals() -> None:
    for number in range(1, 132):
        ending = next((ending for ending, some in ORDINALS.items() if number in some), "th")
        assert ordinal(number) == f"{number}{ending}"


@pytest.mark.parametrize(
    ("value", "text"), [(2.0, "2"), (2.5, "2.5"), (2.504, "2.5"), (100.0, "100"), (-0.001, "0"), (1e6, "1000000")]
)
def test_text_without_idle_zeros(value: float, text: str) -> None:
    assert decimal(value) == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_place(value: float) -> None:
    with pytest.raises(ValueError, match="has no place in a picture"):
        decimal(value)
