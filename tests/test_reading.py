"""Pattern files: the cases as they stand, and every way to write one wrongly that has its own words."""

from __future__ import annotations

import copy
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import dropwhile, groupby
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

import turnchain
from alarm import time_limit
from turnchain import pattern
from turnchain.drawing.looks import Look
from turnchain.errors import FileError, PatternError
from turnchain.making.printed import print_booklet
from turnchain.reading import pattern_file
from turnchain.reading.notes import MOST_TOLD
from turnchain.reading.tables import TABLES, StripesTable
from turnchain.reading.toml_text import MOST_BYTES
from turnchain.units import INCH

CASES = Path(__file__).parent / "cases"
STARTER = Path(turnchain.__file__).parent / "starter.toml"

GOOD = """
title = "Test"
units = "cm"
[swatch]
clusters = 10
width = 20
rows = 10
height = 10
[[yarn]]
name = "Reed"
colour = "#b9b36a"
[[yarn]]
name = "Silt"
colour = "#e8dcc4"
[stripes]
order = ["Reed", "Silt"]
[[piece]]
name = "front"
worked = "sideways"
width = 50
length = 40
neck = { shoulder = 13, depth = 8 }
[[piece]]
name = "back"
worked = "sideways"
faces = "front"
width = 50
length = 40
[[piece]]
name = "sleeve"
outline = [[0, 36], [30, 24]]
"""


def swapped(old: str, new: str, text: str = GOOD) -> str:
    """``text`` with its one ``old`` written as ``new``."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the text"
    return text.replace(old, new)


OUTLINE = "outline = [[0, 36], [30, 24]]"  # the one in the good text


def edges(left: str, right: str) -> str:
    """The two edges of a piece."""
    return f"left_outline = {left}\nright_outline = {right}"


NECK = "{ shoulder = 3, depth = 3 }"
EDGES = edges("[[0, 18], [30, 12]]", "[[0, 18], [30, 0]]")


def seam(*joined: str) -> str:
    """The outline in the good text, and a seam after it."""
    return f"{OUTLINE}\n[[seam]]\njoin = {list(joined)}"


def points(*pairs: tuple[int, int]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((Fraction(height), Fraction(width)) for height, width in pairs)


def refusal(read: Callable[[], pattern.Pattern]) -> PatternError | None:
    """What ``read`` is refused with; None where it is not."""
    try:
        assert read().title
    except PatternError as error:
        return error
    return None


def problems(text: str) -> list[str]:
    """What is said about ``text``; nothing where it can be made."""
    refused = refusal(lambda: pattern_file.read_text(text, "test.toml"))
    if refused is None:
        return []
    found = [str(problem) for problem in refused.problems]
    assert str(refused).splitlines() == [f"test.toml: {words}" for words in found]
    return found


# ----------------------------------------------------------------------------------------- what must be taken


def test_heron_top() -> None:
    heron = pattern_file.read_file(CASES / "heron_top.toml")
    assert (heron.title, heron.by, heron.terms, heron.units) == (
        "Heron Creek top",
        "Saltmarsh Studio",
        "US",
        "cm",
    )
    (swatch,) = heron.swatches
    counted = (swatch.clusters, swatch.width, swatch.rows, swatch.height)
    assert counted == (Fraction(11), Fraction(26), Fraction(18), Fraction(21))
    assert (swatch.weight, swatch.weighed) == (Fraction(31), (Fraction(29), Fraction("23.5")))
    assert swatch.hook == Fraction(5)
    assert heron.fabric == pattern.Fabric(3, 1)
    assert heron.yarns[1] == pattern.Yarn("Reed", "#b9b36a", Fraction(140), Fraction(205), Fraction(50))
    assert heron.stripes == pattern.Stripes(("Heron", "Silt", "Reed", "Silt"), (2,))
    front, back, sleeve = heron.pieces
    assert front == pattern.Piece(
        "front",
        "sideways",
        width=Fraction(54),
        length=Fraction(52),
        neck=pattern.Neck(Fraction(13), Fraction(8)),
    )
    assert back.neck == pattern.Neck(Fraction(13), Fraction("2.5"))
    assert back.faces == "front"
    assert (sleeve.count, sleeve.worked) == (2, "upwards")
    assert sleeve.outline == points((0, 36), (30, 24), (34, 24))


def test_mudflat_blanket_is_in_inches() -> None:
    mudflat = pattern_file.read_file(CASES / "mudflat_blanket.toml")
    assert (mudflat.terms, mudflat.units, mudflat.fabric.gap) == ("UK", "in", 0)
    assert (mudflat.swatches[0].width, mudflat.swatches[0].weighed) == (4 * INCH, None)
    assert (mudflat.pieces[0].width, mudflat.pieces[0].length) == (42 * INCH, 61 * INCH)
    assert mudflat.stripes == pattern.Stripes(
        ("Peat", "Shell", "Samphire", "Shell", "Sea lavender", "Shell"), (3, 1, 2, 1, 2, 1)
    )


def test_kite_kerchief() -> None:
    kite = pattern_file.read_file(CASES / "kite_kerchief.toml")
    assert [piece.outline for piece in kite.pieces] == [
        points((0, 2), (30, 62)),
        points((0, 6), (30, 14), (42, 14)),
    ]
    assert kite.swatches[0].weight is None
    assert kite.yarns[0].stock is None


#: What is better met in the README than in a first file.
LATER_KEYS = {
    *("left_outline", "right_outline", "seam", "join", "progress", "allowance", "margin", "tail", "keep"),
    *("stripes_begin", "sizes", "edge", "half_triangle", "stitches"),
    *("buttonhole", "buttonholes"),
    *("base", "last", "then", "foundation", "start", "turning_chain", "turning_chain_counts", "exact_chain"),
    *(key for key in StripesTable.keys if key not in ("order", "rows")),
}


def test_the_starter_can_be_made_and_names_every_key() -> None:
    """But for those that a first piece has no need of."""
    assert pattern_file.read_file(STARTER).pieces
    text = STARTER.read_text("utf-8")
    left_out = {key for table in TABLES for key in table.keys if f"{key} = " not in text and f"[{key}]" not in text}
    assert left_out <= LATER_KEYS


def examples() -> Iterator[str]:
    """Every run of lines of the starter that a maker may take into use by taking their # away."""
    lines = STARTER.read_text("utf-8").splitlines(keepends=True)
    for commented, run in groupby(lines, key=lambda line: line.startswith("#")):
        if commented:
            kept = list(dropwhile(lambda line: not re.match(r"# (\w+ = |\[\[)", line), run))
            yield from ["".join(kept)] if kept else []


EXAMPLES = list(examples())


def taken_into_use(example: str, folder: Path) -> Path:
    """The starter with the # of an example taken away, and a photograph beside it."""
    text = STARTER.read_text("utf-8")
    used = re.sub(r"^# ?", "", example, flags=re.M)
    file = folder / "mine.toml"
    file.write_text(text.replace(example, used, 1), "utf-8")
    Image.new("RGB", (40, 30), "#447788").save(folder / "worn.jpg")
    assert tomllib.loads(file.read_text("utf-8")) != tomllib.loads(text)
    return file


@pytest.mark.quick(2)
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda text: text.split()[1])
def test_every_example_of_the_starter_can_be_taken_into_use(example: str, tmp_path: Path) -> None:
    assert turnchain.report(turnchain.plan(turnchain.load(taken_into_use(example, tmp_path))))


@pytest.mark.parametrize("example", [
    pytest.param(one, marks=() if "[[photo]]" in one else pytest.mark.slow, id=one.split()[1]) for one in EXAMPLES
])  # fmt: skip
def test_every_example_of_the_starter_can_be_printed(example: str, tmp_path: Path) -> None:
    assert print_booklet(taken_into_use(example, tmp_path), tmp_path / "mine.pdf", "A4", Look(), None) > 3


def test_the_starters_own_report_is_clean() -> None:
    """A first run shows no neck too small for a head, no yarn that runs out, and nothing to think twice about."""
    fit, yarn, doubts = turnchain.report(turnchain.plan(turnchain.load(STARTER))).splitlines()[2:5]
    assert fit.startswith("fit:     good in ")
    assert yarn.startswith("yarn:    lasts; ")
    assert doubts == "doubts:  none"


def test_the_good_text_is_good() -> None:
    assert problems(GOOD) == []


def test_what_is_not_needed_may_be_left_out() -> None:
    bare = pattern_file.read_text(
        'title="x"\n[swatch]\nclusters=1\nwidth=2\nrows=1\nheight=1\n[[piece]]\nname="a"\nwidth=9\nlength=9',
        "x",
    )
    assert (bare.yarns, bare.stripes, bare.fabric, bare.by) == ((), None, pattern.Fabric(), "")
    assert bare.pieces[0] == pattern.Piece("a", width=Fraction(9), length=Fraction(9))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('title = "Test"', 'title = "Test"\ndate = 2024-05-31'),
        ('title = "Test"', 'title = "Test"\nnote = """Two\nlines"""'),
        ("clusters = 10", "clusters = 10.5"),
        ("clusters = 10", "clusters = 10\nweight = 30"),
        ("[swatch]", '[[swatch]]\nclusters = 5\nwidth = "4 in"\n[[swatch]]'),
        ("[swatch]", "[[swatch]]\nweight = 20\nweighed = [20, 20]\n[[swatch]]"),
        ("[swatch]", "[[swatch]]\nweight = 20\nwidth = 20\nheight = 20\n[[swatch]]"),
        ('colour = "#b9b36a"', 'colour = "#B9B36A"\nstock = 0'),
        ('order = ["Reed", "Silt"]', 'order = ["Reed", "Silt"]\nrows = [1, 2, 3]'),
        ('name = "sleeve"', 'name = "Ärmel_2 - links"'),
        ("[[0, 36], [30, 24]]", "[[0, 36], [20, 36], [20, 30], [30, 24]]"),
        ("[[0, 36], [30, 24]]", '[[0, "14 in"], ["300 mm", 24]]'),
        (OUTLINE, EDGES),
        (OUTLINE, edges("[[0, 18], [10, 18], [10, -5], [30, 12]]", "[[0, 6], [30, 6]]")),
        (OUTLINE, edges("[[0, 18], [10, -5], [30, 12]]", "[[0, 6], [10, 9], [30, '−6 cm']]")),
        (OUTLINE, f"{OUTLINE}\nneck = {{ shoulder = 11.9, depth = 29 }}"),
        (OUTLINE, f"{EDGES}\nneck = {{ shoulder = 5.9, depth = 29 }}"),
        (OUTLINE, "width = 20\nlength = 20\nneck = { shoulder = 3, depth = 3 }"),
        ("depth = 8", 'depth = 8, shape = "round"'),
        ("depth = 8", 'depth = 8, shape = "vee"'),
        ("depth = 8", 'depth = 8, shape = "square"'),
        (OUTLINE, f'{OUTLINE}\nworked = "sideways"'),
        (OUTLINE, seam("front.lower", "back.upper")),
        (OUTLINE, seam("sleeve.left", "sleeve.right")),
        (OUTLINE, seam("sleeve.last", " front . first ")),
        (OUTLINE, seam("sleeve.left", "sleeve.last").replace(OUTLINE, f'{OUTLINE}\nworked = "sideways"')),
        (OUTLINE, seam("sleeve.shoulder", "front.shoulder").replace(OUTLINE, f"{EDGES}\nneck = {NECK}")),
    ],
)
def test_also_taken(old: str, new: str) -> None:
    assert problems(swapped(old, new)) == []


def test_two_edges_are_read_as_reaches() -> None:
    text = swapped(OUTLINE, edges("[[0, 18], [30, 2.5]]", "[[0, '-1 in'], [20, '−0 cm'], [30, '- 20 mm']]"))
    with pytest.raises(PatternError, match="left and right reach together"):
        pattern_file.read_text(text.replace("30, 2.5", "30, 1.5"), "x")
    piece = pattern_file.read_text(text, "x").pieces[2]
    assert piece.left_outline == ((Fraction(0), Fraction(18)), (Fraction(30), Fraction("2.5")))
    assert piece.right_outline == (
        (Fraction(0), -INCH),
        (Fraction(20), Fraction(0)),
        (Fraction(30), Fraction(-2)),
    )


def test_a_neck_of_every_shape_is_read() -> None:
    text = swapped(OUTLINE, f"{OUTLINE}\nneck = {{ shoulder = 3, depth = 4, shape = 'round' }}")
    assert pattern_file.read_text(text, "x").pieces[2].neck == pattern.Neck(Fraction(3), Fraction(4), "round")


def test_seams_are_read() -> None:
    text = swapped(OUTLINE, seam("front.lower", "back . upper") + '\n[[seam]]\njoin = ["sleeve.left", "sleeve.right"]')
    assert pattern_file.read_text(text, "x").seams == (
        pattern.Seam(("front.lower", "back.upper")),
        pattern.Seam(("sleeve.left", "sleeve.right")),
    )


def test_names_are_found_however_their_accents_are_written() -> None:
    text = swapped(OUTLINE, seam("a\u0308rmel.left", "ärmel.right")).replace('"sleeve"', '"ärmel"')
    joined = pattern_file.read_text(text, "x").seams[0].join
    assert joined == ("ärmel.left", "ärmel.right")
    text = swapped('faces = "front"', 'faces = "vo\u0308rn"').replace('name = "front"', 'name = "vörn"')
    assert pattern_file.read_text(text, "x").pieces[1].faces == "vörn"


def test_a_note_of_two_lines_becomes_one() -> None:
    note = 'title = "Test"\nnote = """Two\n\tlines"""'
    assert pattern_file.read_text(swapped('title = "Test"', note), "x").note == "Two lines"


def test_a_colour_is_kept_in_small_letters() -> None:
    assert pattern_file.read_text(swapped("#b9b36a", "#B9B36A"), "x").yarns[0].colour == "#b9b36a"


def test_decimals_are_exact() -> None:
    assert pattern_file.read_text(swapped("height = 10", "height = 10.1"), "x").swatches[0].height == Fraction(101, 10)


# --------------------------------------------------------------------------------------- what must be refused

TEXT = 'must be text in quotes'  # fmt: skip
SIDEWAYS = 'is for pieces with worked = "sideways"'
NAMED = "since files are named after pieces"

ONE_PROBLEM = [
    # free text and choices
    ('title = "Test"', "", 'no `title`; a pattern needs a title such as title = "Heron Creek top"'),
    ('title = "Test"', 'title = " "', 'title: " "; must not be empty'),
    ('title = "Test"', "title = 5", f"title: 5; {TEXT}"),
    (
        'title = "Test"',
        r'title = "a\u0007b"',
        r'title: "a\x07b"; must have no control characters and none that turn the direction of reading',
    ),
    (
        'title = "Test"',
        'title = "Test"\nby = "\u202etseT"',
        r'by: "\u202etseT"; must have no control characters and none that turn the direction of reading',
    ),
    (
        'title = "Test"',
        f'title = "{"x" * 2001}"',
        "title: a text of 2001 letters; must have at most 2000 letters",
    ),
    ('title = "Test"', 'title = "Test"\ndate = 12:00:00', f"date: 12:00:00; {TEXT}"),
    ('units = "cm"', 'units = "mm"', 'units: "mm"; must be "cm" or "in"'),
    ('units = "cm"', 'terms = "uk"', 'terms: "uk"; must be "US" or "UK" (did you mean "UK"?)'),
    ('units = "cm"', 'language = "DE"', 'language: "DE"; must be "US" or "UK" or "de" or "fr" (did you mean "de"?)'),
    # numbers and lengths
    ("clusters = 10", "clusters = 0", "swatch, clusters: 0; must be greater than 0"),
    ("clusters = 10", "clusters = -3", "swatch, clusters: -3; must be greater than 0"),
    ("clusters = 10", "clusters = true", "swatch, clusters: true; must be a number such as 12 or 12.5"),
    (
        "clusters = 10",
        'clusters = "10"',
        'swatch, clusters: "10"; must be a number such as 12 or 12.5 (write 10 without quotes)',
    ),
    (
        "clusters = 10",
        "clusters = nan",
        "swatch, clusters: nan; must be a number that can be measured or counted, such as 12.5",
    ),
    (
        "width = 20",
        "width = -inf",
        "swatch, width: -inf; must be a number that can be measured or counted, such as 12.5",
    ),
    ("clusters = 10", "clusters = 1e400", "swatch, clusters: 1e+400; must be at most 1 000 000 000"),
    ("width = 20", "width = 0", "swatch, width: 0; must be greater than 0"),
    (
        "width = 20",
        'width = "20 elbows"',
        'swatch, width: "20 elbows"; must have the unit cm, mm, m or in, such as "24 in"',
    ),
    ("width = 20", "width = [20]", 'swatch, width: [20]; must be a length such as 54, "24 in" or "61 cm"'),
    # the swatch
    (
        "clusters = 10\nwidth = 20\n",
        "",
        "swatch: no `clusters`; a swatch must tell how many clusters were counted in its width",
    ),
    (
        "rows = 10\nheight = 10\n",
        "",
        "swatch: no `rows`; a swatch must tell how many rows were counted in its height",
    ),
    (
        "width = 20\n",
        "",
        "swatch: `clusters` without `width`; the width in which they were counted is needed",
    ),
    (
        "[swatch]",
        "[[swatch]]\nheight = 5\n[[swatch]]",
        "swatch 1: `height` without `rows`; the rows counted in it are needed",
    ),
    (
        "[swatch]",
        "[[swatch]]\nweight = 5\n[[swatch]]",
        "swatch 1: `weight` without a size; the size of what was weighed is needed (add weighed = [width, height])",
    ),
    (
        "[swatch]",
        "[swatch]\nweighed = [3, 4]",
        "swatch: `weighed` without `weight`; the weight in grams is needed",
    ),
    (
        "[swatch]",
        "[swatch]\nweight = 3\nweighed = [3]",
        "swatch, weighed: a list of 1; must be a list of 2",
    ),
    (
        "[swatch]",
        "[swatch]\nweight = 3\nweighed = [3, 0]",
        "swatch, weighed, entry 2: 0; must be greater than 0",
    ),
    # the fabric
    ("[swatch]", "[fabric]\ncluster = 6\n[swatch]", "fabric, cluster: 6; must be a whole number from 1 to 5"),
    ("[swatch]", "[fabric]\ngap = 4\n[swatch]", "fabric, gap: 4; must be a whole number from 0 to 3"),
    ("[swatch]", "[fabric]\ngap = true\n[swatch]", "fabric, gap: true; must be a whole number from 0 to 3"),
    ("[swatch]", "[[fabric]]\n[swatch]", "fabric: [a table]; must be written [fabric], once in the file"),
    # yarns
    (
        '"#b9b36a"',
        '"red"',
        'yarn 1 ("Reed"), colour: "red"; must be # and six digits or letters a to f, such as "#6f8aa3" '
        '(did you mean "#ff0000"?)',
    ),
    (
        '"#b9b36a"',
        '"#ABC"',
        'yarn 1 ("Reed"), colour: "#ABC"; must be # and six digits or letters a to f, such as "#6f8aa3" '
        '(did you mean "#aabbcc"?)',
    ),
    (
        '"#b9b36a"',
        '"b9b36a"',
        'yarn 1 ("Reed"), colour: "b9b36a"; must be # and six digits or letters a to f, such as "#6f8aa3" '
        '(did you mean "#b9b36a"?)',
    ),
    (
        '"#b9b36a"',
        '"puce"',
        'yarn 1 ("Reed"), colour: "puce"; must be # and six digits or letters a to f, such as "#6f8aa3"',
    ),
    (
        '"#b9b36a"',
        '"#b9b36a"\nstock = -1',
        'yarn 1 ("Reed"), stock: -1; must not be less than 0',
    ),
    (
        'colour = "#b9b36a"',
        "",
        'yarn 1 ("Reed"): no `colour`; a yarn needs a colour such as "#b9b36a"',
    ),
    ('name = "Silt"', "", 'yarn 2: no `name`; a yarn needs a name such as "Reed"'),
    # stripes
    (
        '"Reed", "Silt"]',
        '"Red", "Silt"]',
        'stripes, order: there is no yarn "Red"; the yarns are "Reed", "Silt" (did you mean "Reed"?)',
    ),
    ('order = ["Reed", "Silt"]', "order = []", "stripes, order: a list of 0; must be a list of 1 to 2000"),
    (
        'order = ["Reed", "Silt"]',
        'order = "Reed"',
        'stripes, order: "Reed"; must be a list such as ["Reed", "Silt"]',
    ),
    ('"Reed", "Silt"]', '"Reed", 3]', f"stripes, order, entry 2: 3; {TEXT}"),
    ("[stripes]", "[stripes]\nrows = 0", "stripes, rows: 0; must be a whole number from 1 to 2000"),
    ("[stripes]", "[stripes]\nrows = 2001", "stripes, rows: 2001; must be a whole number from 1 to 2000"),
    (
        "[stripes]",
        "[stripes]\nrows = [1, 2.5]",
        "stripes, rows, entry 2: 2.5; must be a whole number from 1 to 2000",
    ),
    (
        "[stripes]",
        '[stripes]\nrows = "two"',
        'stripes, rows: "two"; must be a whole number such as 2, or a list such as [2, 1]',
    ),
    (
        'order = ["Reed", "Silt"]',
        "",
        'stripes: no `order`; stripes need the names of yarns in their order, such as ["Reed", "Silt"]',
    ),
    # pieces: names and counts
    (
        'name = "sleeve"',
        'name = "a/b"',
        f'piece "a/b", name: "a/b"; must be of letters, digits, spaces, - and _ only, {NAMED}',
    ),
    (
        'name = "sleeve"',
        'name = ".a"',
        f'piece ".a", name: ".a"; must be of letters, digits, spaces, - and _ only, {NAMED}',
    ),
    ('name = "sleeve"', 'name = "--"', 'piece "--", name: "--"; must have a letter or a digit'),
    (
        'name = "sleeve"',
        'name = "Index"',
        'piece "Index", name: "Index"; must be another name, since a file of this name is made besides the pieces',
    ),
    # what `make` would refuse must be told when the file is read
    (
        'name = "sleeve"',
        'name = "On-Figure"',
        'piece "On-Figure", name: "On-Figure"; must be another name, since a picture of this name is made besides the '
        "pieces",
    ),
    (
        'name = "sleeve"',
        'name = "Stripes"',
        'piece "Stripes", name: "Stripes"; must be another name, since a picture of this name is made besides the '
        "pieces",
    ),
    (
        'name = "sleeve"',
        'name = "Back-short"',
        'piece "Back-short", name: "Back-short"; must be another name, since a picture of this name is made of piece '
        '"back"',
    ),
    (
        'name = "sleeve"',
        'name = "back-row-12-left"',
        'piece "back-row-12-left", name: "back-row-12-left"; must be another name, since a picture of this name is '
        'made of piece "back"',
    ),
    (
        'name = "sleeve"',
        'name = "aux"',
        'piece "aux", name: "aux"; must be another name, since some computers cannot have a file of this name',
    ),
    (
        'name = "sleeve"',
        f'name = "{"x" * 61}"',
        f'piece "{"x" * 60}…", name: "{"x" * 60}…"; must have at most 60 letters, {NAMED}',
    ),
    ('name = "sleeve"', "", 'piece 3: no `name`; a piece needs a name such as "front"'),
    ('name = "sleeve"', "name = 3", f"piece 3, name: 3; {TEXT}"),
    (
        'name = "sleeve"',
        'name = "BACK"',
        'piece "BACK", name: piece "back" has this name too, but for capitals at most; '
        f"each piece needs a name of its own, {NAMED}",
    ),
    (
        'name = "sleeve"',
        'name = "sleeve"\ncount = 100',
        'piece "sleeve", count: 100; must be a whole number from 1 to 99',
    ),
    # pieces: sizes and outlines
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [30, 24]]\nwidth = 3",
        'piece "sleeve": `outline` together with `width`; a piece has either width and length, or an outline, '
        "or a left and a right outline, or is a triangle (leave one of them out)",
    ),
    (
        "outline = [[0, 36], [30, 24]]",
        "",
        'piece "sleeve": no size; a piece needs `width` and `length`, or an `outline`, '
        "or `left_outline` and `right_outline`",
    ),
    (
        "outline = [[0, 36], [30, 24]]",
        "width = 3",
        'piece "sleeve": `width` without `length`; a length is needed too',
    ),
    (
        "[swatch]",
        "[fabric]\ncluster = 1\ngap = 0\n[swatch]",
        "fabric, gap: clusters of 1 without a gap; one stitch is worked into the gap of the row below, so it needs a "
        "chain beside it (gap = 1, or cluster = 2)",
    ),
    (
        "[swatch]",
        '[fabric]\nkind = "mos"\n[swatch]',
        'fabric, kind: "mos"; must be "bare-closed" or "bare-open" or "closed" or "double-v" or "mesh" or "mesh-2" or '
        '"moss" or "moss-plain" or "moss-slit" or "offset-mesh" or "open" or "shell" or "slit" or "solid-dc" or '
        '"solid-hdc" or "solid-sc" or "v" or "wide-v", '
        'or a file of your own beside the pattern, such as "mine.toml" (did you mean "moss"?)',
    ),
    ("[[0, 36], [30, 24]]", "[[0, 36]]", 'piece "sleeve", outline: a list of 1; must be a list of 2 to 500'),
    (
        "[[0, 36], [30, 24]]",
        str([[height, 5] for height in range(501)]),
        'piece "sleeve", outline: a list of 501; must be a list of 2 to 500',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [30]]",
        'piece "sleeve", outline, point 2: [30]; must be a height and a width such as [30, 24]',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [30, -1]]",
        'piece "sleeve", outline, point 2: [30, -1]; the width must not be less than 0',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[1, 36], [30, 24]]",
        'piece "sleeve", outline, point 1: height 1 cm; the first height must be 0',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [30, 24], [20, 24]]",
        'piece "sleeve", outline, point 3: height 20 cm after 30 cm; heights must not fall '
        "(a point is [height, width], from the first row on)",
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [5, 24], [5, 23], [5, 22], [6, 22]]",
        'piece "sleeve", outline, point 4: a third point at 5 cm; at most two points may share a height, for a step',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [0, 24]]",
        'piece "sleeve", outline: no height; the last height must be greater than the first',
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [2001, 24]]",
        'piece "sleeve", outline: 2001 cm is 2001 rows at the swatch\'s gauge; must be 1 to 2000 rows '
        "(look at the size, the swatch and the unit)",
    ),
    (
        "[[0, 36], [30, 24]]",
        "[[0, 36], [30, 4002]]",
        'piece "sleeve", outline: 4002 cm is 2001 clusters at the swatch\'s gauge; must be 1 to 2000 '
        "clusters (look at the size, the swatch and the unit)",
    ),
    (
        'faces = "front"\nwidth = 50',
        'faces = "front"\nwidth = 1e7',
        'piece "back", width: 10000000 cm is 10000000 rows at the swatch\'s gauge; must be 1 to 2000 rows '
        "(look at the size, the swatch and the unit)",
    ),
    # pieces: two edges
    (
        OUTLINE,
        "left_outline = [[0, 18], [30, 12]]",
        'piece "sleeve": `left_outline` without `right_outline`; a right outline is needed too',
    ),
    (
        OUTLINE,
        "right_outline = [[0, 18], [30, 12]]",
        'piece "sleeve": `right_outline` without `left_outline`; a left outline is needed too',
    ),
    (
        OUTLINE,
        f"{EDGES}\n{OUTLINE}",
        'piece "sleeve": `outline` together with `left_outline` and `right_outline`; a piece has either width '
        "and length, or an outline, or a left and a right outline, or is a triangle (leave one of them out)",
    ),
    (
        OUTLINE,
        "left_outline = [[0, 18], [30, 12]]\nlength = 30",
        'piece "sleeve": `left_outline` together with `length`; a piece has either width and length, '
        "or an outline, or a left and a right outline, or is a triangle (leave one of them out)",
    ),
    (
        OUTLINE,
        f'{EDGES}\nalign = "left"',
        'piece "sleeve", align: this piece has a left and a right outline; `align` is for pieces with an '
        "`outline` (leave it out: the centre line they are measured from aligns them)",
    ),
    (
        'faces = "front"\nwidth = 50',
        'faces = "front"\nwidth = 50\nalign = "centre"',
        'piece "back", align: this piece has width and length; `align` is for pieces with an `outline` '
        "(leave it out: both its edges are straight)",
    ),
    (
        OUTLINE,
        edges("[[0, 18], 30]", "[[0, 18], [30, -2]]"),
        'piece "sleeve", left_outline, point 2: 30; must be a height and a reach such as [30, 12]',
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, 12]]", '[[0, "--3 cm"], [30, 12]]'),
        'piece "sleeve", right_outline, point 1: [0, "--3 cm"]; '
        'the reach must be a length such as 54, "24 in", "61 cm" or "240 mm"',
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, true]]", "[[0, 18], [30, 12]]"),
        'piece "sleeve", left_outline, point 2: [30, true]; the reach must be a length such as 54, "24 in" or "61 cm"',
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, 12]]", "[[0, 18], [-30, 12]]"),
        'piece "sleeve", right_outline, point 2: [-30, 12]; the height must not be less than 0',
    ),
    (
        OUTLINE,
        edges("[[1, 18], [30, 12]]", "[[0, 18], [30, 12]]"),
        'piece "sleeve", left_outline, point 1: height 1 cm; the first height must be 0',
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, 12]]", "[[0, 18], [31, 12], [30, 12]]"),
        'piece "sleeve", right_outline, point 3: height 30 cm after 31 cm; heights must not fall '
        "(a point is [height, reach], from the first row on)",
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, 12]]", "[[0, 18], [32, 12]]"),
        'piece "sleeve", right_outline: a height of 32 cm; must be 30 cm, as in `left_outline` '
        "(both edges end at one height)",
    ),
    (
        OUTLINE,
        edges("[[0, 18], [30, -7]]", "[[0, 6], [15, 0], [30, 6]]"),
        'piece "sleeve", left_outline and right_outline: -1 cm from edge to edge at height 30 cm; '
        "left and right reach together must not be less than 0 at any height",
    ),
    (  # between the points of one of them
        OUTLINE,
        edges("[[0, 18], [30, 12]]", "[[0, 6], [10, -20], [30, 6]]"),
        'piece "sleeve", left_outline and right_outline: -4 cm from edge to edge at height 10 cm; '
        "left and right reach together must not be less than 0 at any height",
    ),
    (  # just above a step
        OUTLINE,
        edges("[[0, 18], [10, 18], [10, -7], [30, 12]]", "[[0, 6], [30, 6]]"),
        'piece "sleeve", left_outline and right_outline: -1 cm from edge to edge at height 10 cm; '
        "left and right reach together must not be less than 0 at any height",
    ),
    (
        OUTLINE,
        edges("[[0, 18], [2001, 12]]", "[[0, 18], [2001, 12]]"),
        'piece "sleeve", left_outline: 2001 cm is 2001 rows at the swatch\'s gauge; must be 1 to 2000 rows '
        "(look at the size, the swatch and the unit)",
    ),
    (  # narrow in every row, and far too wide over all
        OUTLINE,
        edges("[[0, 5], [30, -4990]]", "[[0, 5], [30, 5000]]"),
        'piece "sleeve", left_outline and right_outline: 5005 cm is 2502 clusters at the swatch\'s gauge; '
        "must be 1 to 2000 clusters (look at the size, the swatch and the unit)",
    ),
    # necks and faces
    (
        "shoulder = 13",
        "shoulder = 25",
        'piece "front", neck, shoulder: two shoulders of 25 cm; must leave room for a neck within the width of 50 cm',
    ),
    ("depth = 8", "depth = 40", 'piece "front", neck, depth: 40 cm; must be less than the length of 40 cm'),
    ("depth = 8", "depth = 0", 'piece "front", neck, depth: 0; must be greater than 0'),
    (", depth = 8", "", 'piece "front", neck: no `depth`; a neck needs its depth below the shoulder'),
    (
        "depth = 8",
        'depth = 8, shape = "slent"',
        'piece "front", neck, shape: "slent"; must be "slant" or "round" or "vee" or "square" (did you mean "slant"?)',
    ),
    (
        "shoulder = 13",
        "shoulder = 13, shoulders = 13",
        'piece "front", neck: unknown key `shoulders`; the keys here are `shoulder`, `depth`, `shape` '
        "(did you mean `shoulder`?)",
    ),
    (
        "neck = { shoulder = 13, depth = 8 }",
        "neck = 13",
        'piece "front", neck: 13; must be written neck = { shoulder = 13, depth = 8 }',
    ),
    (
        OUTLINE,
        f'{OUTLINE}\nworked = "sideways"\nneck = {{ shoulder = 3, depth = 3 }}',
        'piece "sleeve", neck: this piece has an outline and is worked sideways; a neck is cut from the top, '
        "which an outline has only where it is worked upwards "
        '(give width and length instead, or leave out worked = "sideways")',
    ),
    (
        OUTLINE,
        f'{EDGES}\nworked = "sideways"\nneck = {{ shoulder = 3, depth = 3 }}',
        'piece "sleeve", neck: this piece has an outline and is worked sideways; a neck is cut from the top, '
        "which an outline has only where it is worked upwards "
        '(give width and length instead, or leave out worked = "sideways")',
    ),
    (
        OUTLINE,
        "width = 20\nlength = 20\nneck = { shoulder = 10, depth = 3 }",
        'piece "sleeve", neck, shoulder: two shoulders of 10 cm; must leave room for a neck within the width of 20 cm',
    ),
    (
        OUTLINE,
        "width = 20\nlength = 20\nneck = { shoulder = 3, depth = 20 }",
        'piece "sleeve", neck, depth: 20 cm; must be less than the length of 20 cm',
    ),
    (
        OUTLINE,
        f"{OUTLINE}\nneck = {{ shoulder = 12, depth = 3 }}",
        'piece "sleeve", neck, shoulder: two shoulders of 12 cm; '
        "must leave room for a neck within the width of 24 cm at the top",
    ),
    (
        OUTLINE,
        f"{OUTLINE}\nneck = {{ shoulder = 3, depth = 30 }}",
        'piece "sleeve", neck, depth: 30 cm; must be less than the height of 30 cm',
    ),
    (
        OUTLINE,
        f"{EDGES}\nneck = {{ shoulder = 6, depth = 3 }}",
        'piece "sleeve", neck, shoulder: two shoulders of 6 cm; '
        "must leave room for a neck within the width of 12 cm at the top",
    ),
    (
        OUTLINE,
        f"{EDGES}\nneck = {{ shoulder = 3, depth = 31 }}",
        'piece "sleeve", neck, depth: 31 cm; must be less than the height of 30 cm',
    ),
    (
        'name = "sleeve"',
        'name = "sleeve"\nneck_edge = "left"',
        f'piece "sleeve", neck_edge: this piece is worked upwards; `neck_edge` {SIDEWAYS}',
    ),
    (
        'name = "sleeve"',
        'name = "sleeve"\nfaces = "back"',
        f'piece "sleeve", faces: this piece is worked upwards; `faces` {SIDEWAYS}',
    ),
    (
        'faces = "front"',
        'faces = "sleeve"',
        'piece "back", faces: "sleeve" is worked upwards; must be a piece worked sideways',
    ),
    (
        'faces = "front"',
        'faces = "Front"',
        'piece "back", faces: there is no piece "Front"; the pieces are "front", "back", "sleeve" '
        '(did you mean "front"?)',
    ),
    ('faces = "front"', 'faces = "back"', 'piece "back", faces: the piece itself; must be another piece'),
    (
        'faces = "front"',
        'faces = "front"\nneck_edge = "left"',
        'piece "back": `neck_edge` together with `faces`; the edge follows from the piece it faces '
        "(leave one of the two out)",
    ),
    (
        'name = "front"',
        'name = "front"\nfaces = "back"',
        'piece "front", faces: "front" faces "back" faces "front"; one of them must come first '
        "(leave `faces` out of one piece)",
    ),
    # seams
    (OUTLINE, seam("front.shoulder"), "seam 1, join: a list of 1; must be a list of 2"),
    (
        OUTLINE,
        f"{OUTLINE}\n[[seam]]",
        'seam 1: no `join`; a seam needs the two edges it joins, such as ["front.shoulder", "back.shoulder"]',
    ),
    (
        OUTLINE,
        f'{OUTLINE}\n[[seam]]\njoin = "front.shoulder"',
        'seam 1, join: "front.shoulder"; must be two edges such as ["front.shoulder", "back.shoulder"]',
    ),
    (
        OUTLINE,
        f'{OUTLINE}\n[seam]\njoin = ["front.first", "back.last"]',
        "seam: a table; must be written [[seam]], since there may be several (two brackets each side)",
    ),
    (
        OUTLINE,
        seam("front", "back.upper"),
        'seam 1, join, entry 1: "front"; must be a piece and one of its edges, such as "front.shoulder"',
    ),
    (
        OUTLINE,
        seam("front.first", "back."),
        'seam 1, join, entry 2: "back."; must be a piece and one of its edges, such as "front.shoulder"',
    ),
    (
        OUTLINE,
        seam("front.first", "bck.last"),
        'seam 1, join, entry 2: there is no piece "bck"; the pieces are "front", "back", "sleeve" '
        '(did you mean "back"?)',
    ),
    (
        OUTLINE,
        seam("front.sholder", "back.upper"),
        'seam 1, join, entry 1: "front" has no edge "sholder"; its edges are "first", "last", "lower", "upper", '
        '"shoulder", "neck" (did you mean "shoulder"?)',
    ),
    (
        OUTLINE,
        seam("front.upper", "back.shoulder"),
        'seam 1, join, entry 2: "back" has no edge "shoulder"; its edges are "first", "last", "lower", "upper" '
        '(did you mean "upper"?)',
    ),
    (
        OUTLINE,
        seam("front.neck", "back.neck"),
        'seam 1, join, entry 2: "back" has no edge "neck"; its edges are "first", "last", "lower", "upper" '
        "(this piece has no neck)",
    ),
    (
        OUTLINE,
        seam("front.hem", "back.lower"),
        'seam 1, join, entry 1: "front" has no edge "hem"; its edges are "first", "last", "lower", "upper", '
        '"shoulder", "neck" (did you mean "lower"?)',
    ),
    (
        OUTLINE,
        seam("front.lower", "sleeve.hem"),
        'seam 1, join, entry 2: "sleeve" has no edge "hem"; its edges are "first", "last", "left", "right" '
        '(did you mean "first"?)',
    ),
    (
        OUTLINE,
        seam("front.left", "sleeve.left"),
        'seam 1, join, entry 1: "front" has no edge "left"; its edges are "first", "last", "lower", "upper", '
        '"shoulder", "neck"',
    ),
    (
        OUTLINE,
        seam("sleeve.left", "sleeve.right") + '\nname = "underarm"',
        "seam 1: unknown key `name`; the keys here are `join`, `stripes` "
        "(`name` belongs in a [[yarn]] or in a [[piece]])",
    ),
    # keys
    (
        'title = "Test"',
        'title = "Test"\nlicense = "x"',
        "unknown key `license`; the keys here are `title`, `by`, `link`, `licence`, `date`, `note`, "
        "`introduction`, `contact`, `colour`, `sizes`, `terms`, "
        "`language`, `units`, `swatch`, `fabric`, `yarn`, `stripes`, `allowance`, "
        "`piece`, `seam`, `edging`, `progress`, `wearer`, `photo` (did you mean `licence`?)",
    ),
    (
        '[[yarn]]\nname = "Silt"',
        '[[yarn]]\ncount = 2\nname = "Silt"',
        'yarn 2 ("Silt"): unknown key `count`; the keys here are `name`, `colour`, `stock`, '
        "`metres_per_100g`, `ball`, `keep`, `fibre` (`count` belongs in a [[piece]])",
    ),
    (
        "[stripes]",
        '[stripes]\n"a\\u001b[31m" = 2',
        r"stripes: unknown key `a\x1b[31m`; the keys here are "
        "`order`, `rows`, `kind`, `begin`, `numbers`, `run`, `block`, `seed`, "
        "`apart`, `least`, `most`, `even`, `between`, `between_rows`, `every`, `use_up`, `carry`, `cluster`, `sc`, "
        "`hdc`, `dc`, `tr`",
    ),
]


@pytest.mark.quick(113)
@pytest.mark.parametrize(("old", "new", "words"), ONE_PROBLEM)
def test_one_slip_is_one_problem(old: str, new: str, words: str) -> None:
    assert problems(swapped(old, new)) == [words]


def test_single_brackets_where_there_may_be_several() -> None:
    found = problems('title = "x"\n[swatch]\nclusters=1\nwidth=1\nrows=1\nheight=1\n[piece]\nname = "a"')
    assert found == ["piece: a table; must be written [[piece]], since there may be several (two brackets each side)"]


def test_two_yarns_or_pieces_of_one_name() -> None:
    assert problems(swapped('name = "Silt"', 'name = "Reed"', swapped(', "Silt"]', "]"))) == [
        'yarn 2 ("Reed"), name: yarn 1 has this name too; each yarn needs a name of its own'
    ]
    found = problems(swapped('name = "sleeve"', 'name = "back"'))
    assert [words.partition(";")[0] for words in found] == [
        'piece 3 ("back"), name: piece 2 ("back") has this name too, but for capitals at most'
    ]


def test_stripes_without_a_yarn() -> None:
    start, end = GOOD.index("[[yarn]]"), GOOD.index("[stripes]")
    assert problems(GOOD[:start] + GOOD[end:]) == [
        "stripes: stripes without a yarn; each name in the order must be that of a [[yarn]]"
    ]


@pytest.mark.parametrize("key", ["swatch", "piece", "yarn"])
def test_an_empty_list_is_no_table(key: str) -> None:
    """Found by random slips: an empty list of swatches had no gauge to be computed from."""
    whole = "title = 'x'\nswatch = [{clusters=4, width=10, rows=8, height=10}]\npiece = [{name='a', width=9, length=9}]"
    kept = [line for line in whole.splitlines() if not line.startswith(key)]
    assert problems("\n".join([*kept, f"{key} = []"])) == [f"{key}: []; must be tables that begin with [[{key}]]"]


def test_stash_stripes_with_yarns_whose_names_are_odd() -> None:
    """Found by random slips: a yarn's stock was looked for by the name as it is written, blanks and all."""
    stash = swapped('order = ["Reed", "Silt"]', 'kind = "stash"')
    stash = swapped("clusters = 10\nwidth = 20", "clusters = 10\nwidth = 20\nweight = 20", stash)
    named = swapped('name = "Silt"', 'name = "Silt  grey"\nstock = 100', swapped('"Reed"', '"Reed"\nstock = 50', stash))
    assert problems(named) == []
    wrong = swapped('name = "Silt  grey"', "name = [1, 2]", named)
    assert problems(wrong) == ["yarn 2, name: [1, 2]; must be text in quotes"]


def test_every_problem_is_told_at_once_and_none_twice() -> None:
    slips = [
        ('title = "Test"', 'titel = "Test"'),
        ("height = 10", 'height = "10 ells"'),
        ('"#b9b36a"', '"reed"'),
        ('order = ["Reed", "Silt"]', 'order = ["Reed", "Salt"]\nrows = 0'),
        ("depth = 8", "depth = 99, shap = 1"),
        ("[[0, 36], [30, 24]]", "[[2, 36], [-1, 24]]"),
        ('faces = "front"', 'faces = "front"\ncount = 1.5'),
    ]
    text = GOOD
    for old, new in slips:
        text = swapped(old, new, text)
    assert [words.partition(":")[0] for words in problems(text)] == [
        "no `title`; a pattern needs a title such as title = \"Heron Creek top\"",
        "unknown key `titel`; the keys here are `title`, `by`, `link`, `licence`, `date`, `note`, "
        "`introduction`, `contact`, `colour`, `sizes`, `terms`, "
        "`language`, `units`, `swatch`, `fabric`, `yarn`, `stripes`, `allowance`, "
        "`piece`, `seam`, `edging`, `progress`, `wearer`, `photo` (did you mean `title`?)",
        "swatch, height",
        'yarn 1 ("Reed"), colour',
        "stripes, rows",
        "stripes, order",
        'piece "back", count',
        'piece "sleeve", outline, point 2',
        'piece "front", neck',
        'piece "front", neck, depth',
    ]  # fmt: skip


def test_a_spoilt_name_is_not_told_again_where_it_is_used() -> None:
    assert len(problems(swapped('name = "Silt"', "name = 7"))) == 1
    assert len(problems(swapped('name = "front"', 'name = "fr/ont"'))) == 1
    sewn = swapped(OUTLINE, seam("front.first", "back.last"))
    assert len(problems(swapped('name = "front"', 'name = "fr/ont"', sewn))) == 1
    assert len(problems(swapped('name = "front"\nworked = "sideways"', 'name = "front"\nworked = "up"', sewn))) == 1


def test_edges_of_a_piece_whose_form_is_not_known_are_not_told() -> None:
    sewn = swapped(OUTLINE, seam("sleeve.lower", "back.last"))
    assert len(problems(swapped(OUTLINE, f"{OUTLINE}\nwidth = 20", sewn))) == 1
    assert len(problems(swapped(OUTLINE, "", sewn))) == 1


@pytest.mark.parametrize("letter", [*"\u202a\u202e\u2066\u2069\ufffe\uffff", r"\u0000", r"\u001b", r"\u0085"])
def test_letters_that_hide_or_turn_what_is_printed(letter: str) -> None:
    (found,) = problems(swapped('title = "Test"', f'title = "a{letter}b"'))
    assert found.startswith('title: "a\\')
    assert problems(swapped('title = "Test"', 'title = "\u200fשלום\u200d 🧶"')) == []


@pytest.mark.parametrize("name", ["plan", "Index", "con", "LPT1"])
def test_names_of_other_files(name: str) -> None:
    (found,) = problems(swapped('name = "sleeve"', f'name = "{name}"'))
    assert found.startswith(f'piece "{name}", name: "{name}"; must be another name, since')


def test_a_piece_has_a_row_and_a_cluster_at_least() -> None:
    """At half a cluster in a centimetre and a row in one; halves are rounded to even."""
    assert problems(swapped("[[0, 36], [30, 24]]", "[[0, 1.1], [0.6, 1]]")) == []
    found = problems(swapped("[[0, 36], [30, 24]]", "[[0, 1], [0.5, 1]]"))
    assert [words.partition(";")[0] for words in found] == [
        'piece "sleeve", outline: 0.5 cm is 0 rows at the swatch\'s gauge',
        'piece "sleeve", outline: 1 cm is 0 clusters at the swatch\'s gauge',
    ]


def test_too_many_pieces_yarns_and_seams() -> None:
    pieces = "".join(f'[[piece]]\nname = "p{i}"\nwidth = 20\nlength = 20\n' for i in range(98))
    assert problems(GOOD + pieces) == ["piece: 101 tables [[piece]]; must be at most 100"]
    yarns = "".join(f'[[yarn]]\nname = "y{i}"\ncolour = "#000000"\n' for i in range(199))
    assert problems(GOOD + yarns) == ["yarn: 201 tables [[yarn]]; must be at most 200"]
    seams = '[[seam]]\njoin = ["front.first", "back.last"]\n' * 101
    assert problems(GOOD + seams) == ["seam: 101 tables [[seam]]; must be at most 100"]


# --------------------------------------------------------------------------------------------- text and files


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "the file is empty; a pattern has a title, a swatch and a piece"),
        (" \n", "the file is empty; a pattern has a title, a swatch and a piece"),
        (
            "\ntitle = Heron",
            'line 2, column 9: `title = Heron`; a value must be a number, a list in [ ], or text in quotes, '
            'such as "Reed" (text stands in quotes)',
        ),
        (
            "colour = #6f8aa3",
            'line 1, column 10: `colour = #6f8aa3`; a value must be a number, a list in [ ], or text in '
            'quotes, such as "Reed" (a colour stands in quotes, as in "#6f8aa3")',
        ),
        (
            "width = 24 in",
            "line 1, column 12: `width = 24 in`; a line must end after a key and its value "
            '(a length with its unit stands in quotes, as in "24 in")',
        ),
        (
            "width = 24,5",
            "line 1, column 11: `width = 24,5`; a line must end after a key and its value "
            "(write a decimal point, as in 24.5)",
        ),
        (
            "width: 24",
            "line 1, column 6: `width: 24`; a key must be followed by = and its value (write = instead of :)",
        ),
        (
            "a = 1\na = 2",
            "line 2, at the end of the file: `a = 2`; each key may be given once in a table",
        ),
        (
            "[yarn]\n[yarn]\n",
            "line 2, column 6: `[yarn]`; a table [ ] may be given once; several pieces are [[piece]], "
            "yarns [[yarn]]",
        ),
        (
            "order = [1,\n",
            "line 1, at the end of the file: `order = [1,`; "
            "a value must follow, and a list must end with ]",
        ),
        ("a = " + "[" * 10**5, "lists within lists within lists; a list goes two deep at most"),
        ("\na = " + "1" * 5000, "line 2: a number of thousands of digits; a number has a few digits"),
        ("\n" + ".".join("a" * 10**5) + " = 1", "line 2: a key of very many parts; a key is one word"),
        ("\n\ud800 = 1", "line 2: half of a letter; the text must be whole letters"),
        ("#" * 1_000_001, "the text is too large; a pattern file has at most 1,000,000 bytes"),
    ],
)  # fmt: skip
def test_text_that_is_no_toml(text: str, words: str) -> None:
    with time_limit():
        assert problems(text) == [words]


def test_a_byte_order_mark_is_no_matter(tmp_path: Path) -> None:
    path = tmp_path / "bom.toml"
    path.write_bytes(GOOD.encode("utf-8-sig"))
    assert pattern_file.read_file(path).title == "Test"
    assert pattern_file.read_text("\ufeff" + GOOD, "x").title == "Test"


def test_windows_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "crlf.toml"
    path.write_bytes(GOOD.replace("\n", "\r\n").encode())
    assert pattern_file.read_file(path) == pattern_file.read_text(GOOD, "x")


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "latin.toml").write_bytes(b'title = "x"\nby = "\xe4"\n')
    (tmp_path / "large.toml").write_bytes(b"#" * (MOST_BYTES + 1))
    for name, words in [
        ("something else", "there is no such file"),
        ("lerge.toml", 'there is no such file (did you mean "large.toml"?)'),
        ("", "this is a folder; a pattern file is needed"),
        ("latin.toml", "line 2 is not UTF-8 text; save the file as UTF-8"),
        ("large.toml", "this file is too large; a pattern file has at most 1,000,000 bytes"),
        ("latin.toml/x", "this file cannot be read (Not a directory)"),
        ("x\0y", "this file cannot be read (no file can have this name)"),
    ]:
        with pytest.raises(FileError) as refused:
            pattern_file.read_file(tmp_path / name)
        assert str(refused.value).endswith(f": {words}")


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="everything may be read by this user")
def test_a_file_that_may_not_be_read(tmp_path: Path) -> None:
    path = tmp_path / "shut.toml"
    path.touch(mode=0o000)
    with pytest.raises(FileError, match="may not be read"):
        pattern_file.read_file(path)


def test_a_message_names_the_file_without_upsetting_a_terminal(tmp_path: Path) -> None:
    path = tmp_path / "a\x1b[31m.toml"
    path.write_text("title = 3", "utf-8")
    with pytest.raises(PatternError) as refused:
        pattern_file.read_file(path)
    assert r"a\x1b[31m.toml: " in str(refused.value)
    assert "\x1b" not in str(refused.value)


MANY_POINTS = edges(*(str([[height, 9] for height in range(start, 999, 2)]).replace("[1,", "[0,") for start in (0, 1)))


@pytest.mark.slow
@pytest.mark.parametrize(
    "text",
    [
        "\n".join(f"key{i} = 1" for i in range(60_000)),
        "title = 0x" + "f" * 900_000,
        "title = 1e999999999999999999999",
        GOOD + "[[yarn]]\n" * 80_000,
        GOOD + "count = [" + "1," * 400_000 + "]",
        GOOD.replace('"Reed", "Silt"]', ",".join(f'"Reed{i}"' for i in range(2000)) + "]"),
        GOOD.replace('"sleeve"', '"' + "x" * 900_000 + '"'),
        GOOD.replace("width = 20", "width = 1e-300000"),
        GOOD + "".join(f'[[piece]]\nname = "p{i}"\n{MANY_POINTS}\n' for i in range(20)) + "x = 1",
    ],
    ids=["keys", "hexadecimal", "exponent", "yarns", "list", "names", "name", "small", "edges"],
)
def test_monstrous_files_are_refused_soon_and_shortly(text: str) -> None:
    with time_limit():
        found = problems(text)
    assert 0 < len(found) <= MOST_TOLD + 1
    assert max(map(len, found)) < 1000


def test_problems_beyond_the_most_told_are_counted() -> None:
    found = problems(GOOD + "".join(f"key{i} = 1\n" for i in range(150)))
    assert found[-1] == "50 more problems; they are told when these are mended"


def test_reading_starts_without_what_is_slow_to_import() -> None:
    code = "import sys, turnchain.reading.pattern_file; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout.split()
    assert not {"pydantic", "difflib", "numpy", "click", "turnchain.planning.planner"} & set(loaded)


# --------------------------------------------------------------------------------------------------- anything

HERON: dict[str, Any] = tomllib.loads((CASES / "heron_top.toml").read_text("utf-8"), parse_float=Decimal)
KEYS = sorted({key for table in TABLES for key in table.keys})

scalars = (
    st.booleans()
    | st.integers()
    | st.decimals()
    | st.text(max_size=30)
    | st.dates()
    | st.times()
    | st.sampled_from(["front", "back", "Reed", "sideways", "upwards", "US", "in", "#123", "24 in", "left", 0, 1, 54])
)
values = st.recursive(
    scalars,
    lambda inner: (
        st.lists(inner, max_size=5) | st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=9), inner, max_size=5)
    ),
    max_leaves=12,
)


def read_or_refuse(raw: dict[str, Any]) -> None:
    """Reads ``raw``; a refusal has makers' words and nothing that could upset a terminal."""
    if refused := refusal(lambda: pattern_file.read_tables(raw, "x")):
        assert all(problem.found and problem.allowed for problem in refused.problems)
        assert str(refused).replace("\n", "").isprintable()
        assert not re.search("Traceback|Error|<.*object", str(refused))


@pytest.mark.slow
@settings(max_examples=150)
@given(st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=9), values, max_size=8))
def test_any_tables_are_read_or_refused(raw: dict[str, Any]) -> None:
    read_or_refuse(raw)


@pytest.mark.slow
@settings(max_examples=200)
@given(st.data())
def test_a_good_file_with_anything_in_some_place_is_read_or_refused(data: st.DataObject) -> None:
    raw = copy.deepcopy(HERON)
    for _ in range(data.draw(st.integers(1, 4))):
        spot: Any = raw
        while True:
            places = [*spot, "new key"] if isinstance(spot, dict) else list(range(len(spot)))
            place = data.draw(st.sampled_from(places))
            inner = spot.get(place) if isinstance(spot, dict) else spot[place]
            if not isinstance(inner, dict | list) or not inner or data.draw(st.integers(0, 3)) == 0:
                break
            spot = inner
        spot[place] = data.draw(values)
    read_or_refuse(raw)


@pytest.mark.quick(0)
@settings(max_examples=150)
@given(st.integers(0, len(GOOD)), st.integers(0, 20), st.text(max_size=20))
def test_a_good_text_with_anything_in_it_is_read_or_refused(start: int, cut: int, new: str) -> None:
    problems(GOOD[:start] + new + GOOD[start + cut :])


@settings(max_examples=200)
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(content)
    with pytest.raises((PatternError, FileError)):
        pattern_file.read_file(path)
