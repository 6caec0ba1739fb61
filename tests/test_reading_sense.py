"""What is written without a slip of form and still cannot be meant: each has its own words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from test_reading import GOOD, problems, swapped
from turnchain.garment import seams
from turnchain.pattern import Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.reading import pattern_file


def with_swatch(*lines: str) -> str:
    """The good text with ``lines`` added to its swatch."""
    return swapped("clusters = 10\n", "\n".join(["clusters = 10", *lines, ""]))


def two_swatches(*lines: str) -> str:
    """The good text (a cluster of 2 cm, a row of 1 cm) with a second reading of the swatch."""
    return swapped("[swatch]\n", "\n".join(["[[swatch]]", *lines, "[[swatch]]", ""]))


def with_seams(*joined: str) -> str:
    """The good text with seams, each "one.edge other.edge"."""
    return GOOD + "".join(f"[[seam]]\njoin = {joins.split()}\n" for joins in joined)


APART = "the readings of one fabric must be less than twice apart"
INCHES = "one of them looks like inches taken for cm"
GRAMS = "must be 20 to 10000 g to the square metre, as crochet is"
LOOK = "look at the weight, the size of what was weighed, and the unit"
HOOK = "must be 0.3 to 60, in mm (5 for a hook of 5 mm)"
ADDRESS = "must be the address of a page, such as https://example.org/heron"
BOTH_WAYS = "a table is written with one bracket each side or with two, never both ways in one file"
ONES = "1" * 40


@pytest.mark.parametrize(
    ("text", "said"),
    [
        # an inch taken for a centimetre: 2.54 times as large
        (
            two_swatches("clusters = 10", 'width = "20 in"'),
            f"swatch 1: a cluster of 5.08 cm, and of 2 cm in swatch 2; {APART} ({INCHES})",
        ),
        (
            two_swatches("rows = 10", "height = 4"),
            f"swatch 1: a row of 0.4 cm, and of 1 cm in swatch 2; {APART} ({INCHES})",
        ),
        (
            two_swatches("rows = 10", "height = 20"),
            f"swatch 1: a row of 2 cm, and of 1 cm in swatch 2; {APART} (count again, or leave one out)",
        ),
        # 0.01 g on 20 x 10 cm is 0.5 g to the square metre
        (
            with_swatch("weight = 0.01"),
            f"swatch, weight: 0.01 g on 20 x 10 cm, 0.5 g to the square metre; {GRAMS} ({LOOK})",
        ),
        (
            with_swatch("weight = 24", "weighed = [1, 1]"),
            f"swatch, weight: 24 g on 1 x 1 cm, 240000 g to the square metre; {GRAMS} ({LOOK})",
        ),
        (with_swatch("hook = 500"), f"swatch, hook: 500; {HOOK}"),
        (with_swatch("hook = 0.001"), f"swatch, hook: 0.001; {HOOK}"),
        (with_seams("sleeve.left sleeve.left"), 'seam 1, join: "sleeve.left" twice; a seam joins two edges'),
        (
            with_seams("front.shoulder front.neck"),
            "seam 1, join: shoulders and a neck, which lies between them; shoulders are sewn to shoulders, or to both "
            "ends of a whole edge",
        ),
        (
            with_seams("front.first back.last", "back.last front.first"),
            "seam 2, join: seam 1 again; each seam is given once",
        ),
        (f'link = "https://"{GOOD}', f'link: "https://"; {ADDRESS}'),
        (f'link = "http://?"{GOOD}', f'link: "http://?"; {ADDRESS}'),
        (f'link = "http:"{GOOD}', f'link: "http:"; {ADDRESS}'),
        # messages that named something else; the good text begins with an empty line
        (
            swapped('[[yarn]]\nname = "Reed"', '[[swatch]]\nrows = 5\nheight = 5\n[[yarn]]\nname = "Reed"'),
            f"line 9, column 9: `[[swatch]]`; {BOTH_WAYS} (write [[swatch]] every time)",
        ),
        (f"{GOOD}[[fabric]]\n[fabric]\n", f"line 33, column 8: `[fabric]`; {BOTH_WAYS} (write [fabric], once)"),
        (f'{GOOD}[fabric]\ngap = "5 1/4 in"\n', 'fabric, gap: "5 1/4 in"; must be a whole number from 0 to 3'),
        (f'{GOOD}[fabric]\ngap = "5 ch"\n', 'fabric, gap: "5 ch"; must be a whole number from 0 to 3'),
        (
            f'{GOOD}[fabric]\ngap = "1 ch"\n',
            'fabric, gap: "1 ch"; must be a whole number from 0 to 3 (write 1 without quotes)',
        ),
        (swapped("rows = 10", 'rows = "10 1/4"'), 'swatch, rows: "10 1/4"; must be a number such as 12 or 12.5'),
        (f"{GOOD}[allowance]\nmargin = 1e400\n", "allowance, margin: 1e+400; must be from 0 to 100, in per cent"),
        (f"{GOOD}[allowance]\nmargin = {ONES}\n", f"allowance, margin: {ONES}; must be from 0 to 100, in per cent"),
    ],
)
def test_what_cannot_be_meant_is_told(text: str, said: str) -> None:
    assert problems(text) == [said]


def test_what_is_merely_unusual_is_taken() -> None:
    assert problems(two_swatches("rows = 10", "height = 19")) == []
    assert problems(with_swatch("weight = 1", "hook = 0.6")) == []  # 50 g to the square metre
    assert problems(f'link = "example.org/heron"{GOOD}') == []
    # two sleeves are sewn to each other by one edge; a seam between other edges of the same pieces is another seam
    two = swapped('name = "sleeve"', 'name = "sleeve"\ncount = 2', with_seams("sleeve.left sleeve.left"))
    assert problems(two) == []
    assert problems(with_seams("front.first back.last", "front.last back.first")) == []


@pytest.mark.parametrize(
    ("measures", "said"),
    [
        ("bust = 60\nwaist = 250", "wearer, waist: 250 cm, and a `bust` of 60 cm"),
        ("bust = 90\nhip = 40", "wearer, hip: 40 cm, and a `bust` of 90 cm"),
        ("waist = 30\nhip = 99", "wearer, hip: 99 cm, and a `waist` of 30 cm"),
    ],
)
def test_rounds_that_no_one_body_has(measures: str, said: str) -> None:
    allowed = "of one body neither is more than twice the other (look at the unit)"
    assert problems(f"{GOOD}[wearer]\n{measures}\n") == [f"{said}; {allowed}"]


def test_rounds_that_a_body_can_have() -> None:
    assert problems(f"{GOOD}[wearer]\nbust = 90\nwaist = 120\nhip = 170\n") == []


def warned(text: str) -> tuple[str, ...]:
    """The warnings of the plan as a whole."""
    return plan_pattern(pattern_file.read_text(text, "test.toml")).warnings


def test_yarns_of_one_colour_are_warned_of() -> None:
    one = swapped("#e8dcc4", "#B9B36A")
    assert warned(one) == (
        "all 2 yarns have the colour #b9b36a: the pictures show no stripes; give each yarn the colour of its ball",
    )
    assert warned(GOOD) == ()


@pytest.mark.parametrize(("colours", "said"), [
    (("#335577", "#335577", "#dddd55"), "a and b both have the colour #335577 and meet in p, rows 2 and 3: the "
     "pictures do not show that stripe; give each yarn the colour of its ball"),
    (("#335577", "#dddd55", "#345677"), "c and a are nearly of one colour and meet in p, rows 6 and 7: the pictures "
     "hardly show that stripe; give each yarn the colour of its ball"),
    (("#335577", "#dddd55", "#44668a"), ""),  # alike, but two colours
])  # fmt: skip
def test_two_yarns_of_one_colour_that_meet_are_warned_of(colours: tuple[str, ...], said: str) -> None:
    yarns = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{one}"\n' for name, one in zip("abc", colours, strict=True))
    text = f"""title = "T"
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
{yarns}[stripes]
order = ["a", "b", "c"]
rows = 2
[[piece]]
name = "p"
width = 20
length = 20
"""
    assert warned(text) == ((said,) if said else ())
    apart = '["a", "c", "b", "c"]' if colours[0] == colours[1] else '["a", "b", "c", "b"]'
    assert warned(text.replace('["a", "b", "c"]', apart)) == ()


def test_stitches_far_from_any_yarn_are_warned_of() -> None:
    # published: 32 to 8 single crochet in 10 cm, from super fine to bulky yarn (three copies of one list)
    large = swapped("width = 20", 'width = "20 in"').replace("height = 10", 'height = "10 in"')
    assert warned(large) == (
        "a stitch is 1.27 cm wide in this swatch; yarns from super fine to bulky give 0.31 to 1.25 cm. Look at the "
        "unit of the swatch: inches taken for cm, or cm for inches, make a piece 2.54 times too large or too small",
    )
    small = swapped("width = 20", "width = 12").replace("rows = 10", "rows = 15")
    assert len(warned(small)) == 1
    assert warned(small)[0].startswith("a stitch is 0.3 cm wide")


@pytest.mark.parametrize(("stitches", "warns"), [(32, 0), (33, 1), (8, 0), ("7.9", 1)])
def test_stitches_of_the_finest_and_the_thickest_yarn_are_not_warned_of(stitches: object, warns: int) -> None:
    """The same list; a cluster of three and its gap are four stitches, its rows usually half a cluster high."""
    clusters = Fraction(str(stitches)) / 4
    swatch = Swatch(clusters, Fraction(10), 2 * clusters, Fraction(10))
    plan = plan_pattern(Pattern("Test", (swatch,), (Piece("piece", width=Fraction(40), length=Fraction(40)),)))
    assert len(plan.warnings) == warns


@pytest.mark.parametrize("asked", [
    'worked = "round"', 'worked = "in the round"', 'worked = "In Rounds"', 'worked = "tube"', "round = true",
    "in_the_round = true",
])  # fmt: skip
def test_work_in_the_round_is_refused_with_the_flat_way(asked: str) -> None:
    hat = f'\n[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\n{asked}\n'
    (said,) = problems(GOOD + hat)
    assert said.startswith('piece "hat"')
    assert "hats, cowls and tubes are worked flat and closed by one seam" in said
    assert 'join = ["hat.left", "hat.right"]' in said
    if asked.startswith("worked"):
        assert 'must be "upwards" or "sideways": every row is turned' in said


@pytest.mark.parametrize("asked", [
    "[fabric]\nround = true", '[fabric]\nworked = "in the round"', '[fabric]\nkind = "rounds"', "[fabric]\nrounds = 3",
    '[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\nrole = "tube"',
    '[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\nshape = "tubular"',
    '[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\nrow_plan = "spiral"',
    '[[seam]]\njoin = ["front.left", "back.right"]\nround = true',
])  # fmt: skip
def test_wherever_work_in_the_round_is_asked_for_the_flat_way_is_told(asked: str) -> None:
    assert any("worked flat and closed by one seam" in said for said in problems(f"{GOOD}\n{asked}\n"))


def test_work_in_the_round_asked_for_all_pieces_is_refused_too() -> None:
    for asked in ("round = true", 'worked = "in the round"'):
        assert any("worked flat and closed by one seam" in said for said in problems(f"{asked}\n{GOOD}"))


def test_rounds_of_an_edging_are_its_rows() -> None:
    """An edging goes round an opening by itself: nothing is to be worked flat there."""
    (said,) = problems(f"{GOOD}\n[[edging]]\nrounds = 3\n")
    assert "worked flat" not in said
    assert "`rows`" in said


def test_the_flat_way_told_can_be_made() -> None:
    """The piece and the seam as the message has them."""
    hat = '\n[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\n[[seam]]\njoin = ["hat.left", "hat.right"]\n'
    plan = plan_pattern(pattern_file.read_text(GOOD + hat, "x.toml"))
    assert [(seam.one.name, seam.other.name) for seam in seams.of(plan)] == [("hat.left", "hat.right")]


@pytest.mark.parametrize("asked", ['worked = "around"', 'worked = "roundabout"', "rounded = true"])
def test_other_words_are_no_work_in_the_round(asked: str) -> None:
    (said,) = problems(GOOD + f'\n[[piece]]\nname = "hat"\nwidth = 52\nlength = 24\n{asked}\n')
    assert "hats, cowls" not in said
