"""[wearer] in a pattern file: what is taken, and every way to write it wrongly that has its own words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from turnchain import pattern
from turnchain.errors import PatternError
from turnchain.reading import pattern_file
from turnchain.units import INCH

GOOD = """
title = "Test"
units = "cm"
[swatch]
clusters = 10
width = 20
rows = 10
height = 10
[[piece]]
name = "front"
width = 50
length = 40
[wearer]
"""
_SIZES = '"XS", "S", "M", "L", "1X", "2X", "3X", "4X", "5X"'
_KEYS = (
    "`who`, `table`, `size`, `head`, `bust`, `waist`, `hip`, `waist_length`, `hip_length`, `knee_length`, "
    "`cross_back`, `arm`, `upper_arm`, `armhole`, `neck_to_cuff`, `ease`"
)


def read(wearer: str, text: str = GOOD) -> pattern.Wearer | None:
    return pattern_file.read_text(text + wearer, "test.toml").wearer


def problems(wearer: str, text: str = GOOD) -> list[str]:
    try:
        read(wearer, text)
    except PatternError as error:
        return [str(problem) for problem in error.problems]
    return []


def test_a_row_of_a_table() -> None:
    assert read('table = "woman"\nsize = "1X"') == pattern.Wearer("woman", "1X")


def test_a_childs_size_may_be_a_number() -> None:
    assert read('table = "child"\nsize = 4') == pattern.Wearer("child", "4")
    assert read('table = "child"\nsize = "4"') == pattern.Wearer("child", "4")


def test_own_measures_in_any_unit() -> None:
    found = read('head = "22 in"\nwaist_length = 43.5')
    assert found == pattern.Wearer(head=22 * INCH, waist_length=Fraction("43.5"))


def test_both_together() -> None:
    found = read('table = "woman"\nsize = "M"\nhead = 57')
    assert found == pattern.Wearer("woman", "M", head=Fraction(57))


def test_no_wearer_is_none() -> None:
    assert read("", GOOD.replace("[wearer]\n", "")) is None


@pytest.mark.parametrize(
    ("wearer", "expected"),
    [
        (
            'table = "woman"\nsize = "XL"',
            f'wearer, size: there is no size "XL"; the sizes of "woman" are {_SIZES} (did you mean "1X"?)',
        ),
        (
            'table = "woman"\nsize = "m"',
            f'wearer, size: there is no size "m"; the sizes of "woman" are {_SIZES} (did you mean "M"?)',
        ),
        (
            'table = "woman"\nsize = 4',
            f'wearer, size: there is no size "4"; the sizes of "woman" are {_SIZES} (the table "child" has this size)',
        ),
        (
            'table = "child"\nsize = "5"',
            'wearer, size: there is no size "5"; the sizes of "child" are "2", "4", "6", "8", "10", "12", "14", "16" '
            "(for a body between sizes or beyond them give own measures)",
        ),
        ('table = "man"\nsize = "M"', 'wearer, table: "man"; must be "woman" or "child" (did you mean "woman"?)'),
        ('size = "M"', 'wearer: `size` without `table`; the table is needed too (table = "woman")'),
        ('table = "child"', 'wearer: `table` without `size`; the size is needed too (size = "4")'),
        ('table = "woman"\nsize = 2.5', 'wearer, size: 2.5; must be a size such as "M" or 4'),
        (
            "",
            "wearer: no measure; a wearer has a row of a size table, own measures, or both "
            '(write table = "woman" and size = "M", or head = 56)',
        ),
        ('head = "56 in"', "wearer, head: 142.24 cm; a body has 25 cm to 80 cm there (look at the unit)"),
        ("bust = 9.4", "wearer, bust: 9.4 cm; a body has 25 cm to 300 cm there (look at the unit)"),
        ("head = 0", "wearer, head: 0; must be greater than 0"),
        ('head = "big"', 'wearer, head: "big"; must be a length such as 54, "24 in", "61 cm" or "240 mm"'),
        (
            "waist_length = 60\nknee_length = 50",
            "wearer: `knee_length` is not more than `waist_length`; both are measured down from the nape, and waist, "
            "hip and knee follow each other",
        ),
        ("chest = 90", f"wearer: unknown key `chest`; the keys here are {_KEYS}"),
    ],
)
def test_one_slip_is_one_problem(wearer: str, expected: str) -> None:
    assert problems(wearer) == [expected]


def test_slips_are_told_together() -> None:
    assert len(problems('table = "woman"\nsize = "XL"\nhead = 5\nbust = "x"\nheight = 170')) == 4


def test_inches_are_told_in_inches() -> None:
    text = GOOD.replace('units = "cm"', 'units = "in"')
    assert problems("head = 220", text) == [
        "wearer, head: 220 in; a body has 9.84 in to 31.5 in there (look at the unit)"
    ]


def test_a_wearer_written_twice_or_as_a_word() -> None:
    text = GOOD.replace("[wearer]\n", "").replace('title = "Test"', 'title = "Test"\nwearer = "me"')
    assert problems("", text) == ['wearer: "me"; must be written [wearer], once in the file']


def test_who_it_is_for_stands_alone() -> None:
    assert read('who = "pet"') == pattern.Wearer(who="pet")


def test_a_table_is_not_given_to_somebody_it_is_not_for() -> None:
    (found,) = problems('who = "child"\ntable = "woman"\nsize = "M"')
    assert found == (
        'wearer, who: "child" with table = "woman"; that table is for who = "adult" (leave one of them out)'
    )
    (found,) = problems('who = "teenager"')
    assert found == 'wearer, who: "teenager"; must be "adult" or "child" or "baby" or "pet" or "home"'
