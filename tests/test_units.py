"""Lengths: read exactly, shown shortly, refused in makers' words."""

from __future__ import annotations

import contextlib
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alarm import time_limit
from turnchain.units import INCH, Unit, handy, length, number, per_swatch, plain, shown, tailored, taped


def test_an_inch_is_that_of_the_agreement() -> None:
    """1 in = 25.4 mm exactly: international yard and pound agreement, 1959."""
    assert Fraction(254, 100) == INCH
    assert length("1 in", "cm") == length("25.4 mm", "in") == Fraction(254, 100)


@pytest.mark.parametrize(
    ("written", "unit", "cm"),
    [
        (54, "cm", "54"),
        (0, "cm", "0"),
        (Decimal("2.5"), "cm", "2.5"),
        (0.1, "cm", "0.1"),  # a tenth, not the binary number next to it
        (Fraction(1, 3), "cm", "1/3"),
        (Decimal("0e-999999999"), "cm", "0"),
        ("61 cm", "in", "61"),
        ("61cm", "in", "61"),
        (" 61  CM ", "in", "61"),
        ("240 mm", "in", "24"),
        ("1.5 m", "in", "150"),
        ("24,5 cm", "cm", "24.5"),
        (".5 cm", "cm", "0.5"),
        ("5. cm", "cm", "5"),
        ("12 centimetres", "in", "12"),
        ("12 centimeter", "in", "12"),
        ("7", "cm", "7"),
        ("+7 cm", "cm", "7"),
    ],
)
def test_metric_lengths(written: object, unit: Unit, cm: str) -> None:
    assert length(written, unit) == Fraction(cm)


@pytest.mark.parametrize(
    ("written", "unit", "inches"),
    [
        (42, "in", "42"),
        ("24 in", "cm", "24"),
        ("24 in.", "cm", "24"),
        ('24"', "cm", "24"),
        ("24″", "cm", "24"),
        ("24 inches", "cm", "24"),
        ("1 Inch", "cm", "1"),
        ("21 1/4 in", "cm", "21.25"),
        ("21-1/4 in", "cm", "21.25"),
        ("1/2 in", "cm", "0.5"),
        ("21½ in", "cm", "21.5"),
        ("¾ in", "cm", "0.75"),
        ("24", "in", "24"),
    ],
)
def test_lengths_in_inches(written: object, unit: Unit, inches: str) -> None:
    assert length(written, unit) == Fraction(inches) * INCH


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("", "must be a length such as 54"),
        ("long", "must be a length such as 54"),
        ("5 cm 3 mm", "must be a length such as 54"),
        ("5'6\"", "must be a length such as 54"),
        ("24 parsecs", "must have the unit cm, mm, m or in"),
        ("1,234 cm", "no comma between thousands"),
        ("1/0 in", "must be a length such as"),
        ("-3 cm", "must not be less than 0"),
        (-3, "must not be less than 0"),
        ("\u2212" + "3 cm", "must not be less than 0"),
        (True, "must be a length such as 54"),
        (None, "must be a length such as 54"),
        ([3], "must be a length such as 54"),
        (Decimal("nan"), "can be measured"),
        (Decimal("inf"), "can be measured"),
        (float("inf"), "can be measured"),
        (10**10, "at most 1 000 000 000"),
        (Decimal("1e400"), "at most 1 000 000 000"),
        (Decimal("1e-400"), "at least 0.000000001"),
        (Decimal("1." + "1" * 40), "at most 30 digits"),
        ("1" * 5000 + " cm", "must be a length such as 54"),
    ],
)
def test_what_is_no_length_is_refused_in_words(written: object, words: str) -> None:
    with pytest.raises(ValueError, match="must") as refused:
        length(written, "cm")
    assert words in str(refused.value)


@pytest.mark.parametrize(
    "written",
    [10 ** (10**6), Decimal("1e999999999"), Decimal("-1e-999999999"), "9" * 10**6],
    ids=["whole", "large", "small", "text"],
)
def test_monstrous_numbers_are_refused_at_once(written: object) -> None:
    with time_limit(), pytest.raises(ValueError, match="must"):
        length(written, "cm")


@pytest.mark.parametrize("value", ["5", None, True, [5], {}])
def test_only_numbers_are_numbers(value: object) -> None:
    with pytest.raises(ValueError, match="must be a number such as 12"):
        number(value)


@pytest.mark.parametrize(
    ("cm", "unit", "words"),
    [
        (Fraction(54), "cm", "54 cm"),
        (Fraction(0), "cm", "0 cm"),
        (Fraction(100), "cm", "100 cm"),
        (Fraction("8.50"), "cm", "8.5 cm"),
        (Fraction("54.833"), "cm", "54.83 cm"),
        (INCH * Fraction("61.09"), "in", "61.09 in"),
        (INCH * 24, "in", "24 in"),
    ],
)
def test_lengths_are_shown_with_two_decimals_at_most(cm: Fraction, unit: Unit, words: str) -> None:
    assert shown(cm, unit) == words


def test_a_small_negative_is_no_minus_zero() -> None:
    assert plain(Fraction(-1, 1000)) == "0"
    assert plain(Fraction(-5, 4)) == "-1.25"


@given(st.integers(0, 10**7), st.sampled_from(["cm", "in"]))
def test_what_is_shown_can_be_read_again(hundredths: int, unit: Unit) -> None:
    cm = length(Fraction(hundredths, 100), unit)
    other: Unit = "in" if unit == "cm" else "cm"
    assert length(shown(cm, unit), other) == cm


@pytest.mark.parametrize(("names", "cm"), [
    (("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "1"),
    (("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "0.1"),
    (("m", "metre", "metres", "meter", "meters"), "100"),
    (("in", "in.", "inch", "inches", '"', "″", "”", "''"), "2.54"),
])  # fmt: skip
def test_a_unit_is_as_long_by_each_of_its_names(names: tuple[str, ...], cm: str) -> None:
    """The prefixes of the SI; the inch of the agreement."""
    assert {length(f"3 {name}", "cm") for name in names} == {3 * Fraction(cm)}


@pytest.mark.parametrize("value", [10**9, -(10**9), Decimal("1e-9"), Decimal("-1e-9"), Decimal("1." + "1" * 29)])
def test_the_largest_and_smallest_numbers_are_read(value: object) -> None:
    assert number(value) == Fraction(str(value))


@pytest.mark.parametrize("value", [10**9 + 1, -(10**9) - 1, Decimal("0.99e-9"), Decimal("1." + "1" * 30)])
def test_what_is_a_little_beyond_them_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match="must be"):
        number(value)


def test_a_length_has_so_many_letters_and_no_more() -> None:
    assert length("24 cm".rjust(60), "cm") == 24
    with pytest.raises(ValueError, match="must be a length"):
        length("24 cm".rjust(61), "cm")


@given(st.text(max_size=80))
def test_no_text_does_worse_than_a_refusal(text: str) -> None:
    with contextlib.suppress(ValueError):
        assert length(text, "cm") >= 0


@pytest.mark.parametrize(("cm", "unit", "words"), [
    (Fraction(15), "in", "6 in"), (Fraction(15), "cm", "15 cm"), (Fraction(127, 10), "in", "5 in"),
    (Fraction(14), "in", "5.5 in"), (Fraction(1, 10), "in", "0.04 in"),
])  # fmt: skip
def test_lengths_that_need_not_be_exact(cm: Fraction, unit: Unit, words: str) -> None:
    # an inch is 2.54 cm (the agreement above): 15 cm are 5.906 in
    assert handy(cm, unit) == words


@pytest.mark.parametrize(
    ("cm", "unit", "told"),
    [
        ("54.83", "cm", "55 cm"), ("53.18", "cm", "53 cm"), ("54.25", "cm", "54.5 cm"), ("54.24", "cm", "54 cm"),
        ("0.2", "cm", "0.2 cm"), ("54.61", "in", "21 1/2 in"), ("38", "in", "15 in"), ("37.84", "in", "14 7/8 in"),
        ("1.27", "in", "1/2 in"), ("0.1", "in", "0.04 in"), ("0", "cm", "0 cm"),
    ],
)  # fmt: skip
def test_a_tailors_tape_is_read_to_half_a_cm_or_an_eighth_of_an_inch(cm: str, unit: Unit, told: str) -> None:
    """The inch is 2.54 cm by the international agreement of 1959; the rest is a sum."""
    assert tailored(Fraction(cm), unit) == told


@given(st.fractions(min_value=Fraction(1), max_value=300), st.sampled_from(["cm", "in"]))
def test_what_is_told_by_the_tape_is_as_near_as_the_tape_can_say(cm: Fraction, unit: Unit) -> None:
    least = Fraction(1, 4) if unit == "cm" else Fraction(254, 1600)
    assert abs(length(tailored(cm, unit), unit) - cm) <= least
    assert length(tailored(cm, unit), unit) == taped(cm, unit)


@pytest.mark.parametrize(("cm", "unit", "read"), [
    ("54.24", "cm", "54"), ("54.25", "cm", "54.5"), ("0.24", "cm", "0.24"), ("0.25", "cm", "0.5"),
    ("37.84", "in", "37.7825"), ("2.6", "in", "2.54"), ("0.15", "in", "0.15"), ("0", "in", "0"),
])  # fmt: skip
def test_the_length_that_a_tape_tells(cm: str, unit: Unit, read: str) -> None:
    """To half a cm or an eighth of an inch (0.3175 cm), ties upwards; what would come to 0 stays what it is. 37.84 cm
    are 119.2 eighths, 2.6 cm 8.2 of them; sums."""
    assert taped(Fraction(cm), unit) == Fraction(read)


@pytest.mark.parametrize(("cm", "unit", "said"), [
    ("1.25", "cm", "8.0"), ("1.2", "cm", "8.3"), ("1.27", "in", "8.0"), ("2.54", "in", "4.0"),
])  # fmt: skip
def test_how_many_go_into_a_swatch(cm: str, unit: Unit, said: str) -> None:
    """10 cm, or 4 in of 2.54 cm; sums."""
    assert per_swatch(Fraction(cm), unit) == said
