"""Several sizes in one file: how their values are read, planned to one form, and told in one text.

The notation is that of published patterns (Lion Brand, Sutton's Shell Top, and 70644AD): the smallest size first,
larger ones in brackets, one number alone for all. What a size is read as is what a file of that size alone says; what
is chosen out of a merged text is the very text of that size. No expected value comes from the code under test.
"""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from itertools import combinations
from pathlib import Path
from random import Random
from types import SimpleNamespace
from urllib.parse import unquote

import html5lib
import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from nightly import planned_at
from turnchain.cli import cli
from turnchain.errors import MakerError, PatternError
from turnchain.fabric.plan import Plan
from turnchain.live.answering import Live
from turnchain.live.editing import Edit, edited
from turnchain.pages.beside import page as beside
from turnchain.pages.beside.page import page_of_sizes
from turnchain.pages.blog import markdown_of_sizes
from turnchain.pattern import Pattern, Piece
from turnchain.planning import every_size
from turnchain.planning.kept import KeptPieces
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.proof.proving import prove
from turnchain.reading.brackets import figures, with_figure
from turnchain.reading.pattern_file import read_sizes, read_text, size_names
from turnchain.records import replace
from turnchain.units import shown
from turnchain.wording.all_sizes import all_sizes_text, side_by_side, sizes_of
from turnchain.wording.merging import Sizes, chosen, merged
from turnchain.wording.tables import LANGUAGES, told_in
from turnchain.wording.words import pattern_text

SLIPOVER = """
title = "Bog myrtle slipover"
sizes = ["S", "M", "L"]
[swatch]
clusters = 18
width = 45
rows = 26
height = 32.5
[[yarn]]
name = "Reed"
colour = "#b9b36a"
[[yarn]]
name = "Silt"
colour = "#6f8aa3"
[stripes]
order = ["Reed", "Silt"]
rows = "2 (2, 3)"
[wearer]
table = "woman"
size = "S (M, L)"
[[piece]]
name = "front"
width = "48 (52, 57) cm"
length = "54 (56, 58)"
neck = { shoulder = "12 (13, 14)", depth = 8, shape = "round" }
[[piece]]
name = "back"
width = "48 (52, 57) cm"
length = "54 (56, 58)"
neck = { shoulder = "12 (13, 14)", depth = 3, shape = "round" }
[[piece]]
name = "hem band"
outline = [[0, "48 (52, 57)"], ["4 (4, 5)", "46 (50, 55)"]]
"""
ALONE = {
    "S": ("48 cm", "54", "12", "2", "4", "46"),
    "M": ("52 cm", "56", "13", "2", "4", "50"),
    "L": ("57 cm", "58", "14", "3", "5", "55"),
}


def alone(size: str) -> str:
    """The same file as a maker would write it for one size."""
    width, length, shoulder, rows, height, top = ALONE[size]
    text = SLIPOVER.replace('"48 (52, 57) cm"', f'"{width}"').replace('"54 (56, 58)"', length)
    text = text.replace('"12 (13, 14)"', shoulder).replace('"2 (2, 3)"', rows).replace('"S (M, L)"', f'"{size}"')
    text = text.replace('"48 (52, 57)"', width.split()[0]).replace('"4 (4, 5)"', height).replace('"46 (50, 55)"', top)
    return text.replace('sizes = ["S", "M", "L"]\n', "")


@pytest.mark.parametrize("size", ALONE)
def test_a_size_is_read_as_a_file_of_that_size_alone(size: str) -> None:
    expected = read_text(alone(size), "x")
    found = read_text(SLIPOVER, "x", size)
    assert found.title == f"Bog myrtle slipover ({size})"
    assert replace(found, title=found.common_title, size="", sizes=()) == expected
    assert (found.size, found.sizes) == (size, ("S", "M", "L"))
    assert read_sizes(SLIPOVER, "x")[list(ALONE).index(size)] == found


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("48 (52, 57, 62, 67) cm", ["48 cm", "52 cm", "57 cm", "62 cm", "67 cm"]),
        ("48 (52, 57) (62, 67)", ["48", "52", "57", "62", "67"]),
        ("48 (52, 57)(62) in", ["48 in", "52 in", "57 in", "62 in"]),
        ("48,5 (52; 57,5)", ["48,5", "52", "57,5"]),
        ("21 1/4 (22, 23 1/2) in", ["21 1/4 in", "22 in", "23 1/2 in"]),
        ("- (2, 4)", ["-", "2", "4"]),
        ("S (M, L)", ["S", "M", "L"]),
        ("48 cm", None), ("48 (52", None), ("(48, 52)", None), ("48 ((52), 57)", None), (48, None), (None, None),
    ],
)  # fmt: skip
def test_figures_in_brackets(written: object, expected: list[str] | None) -> None:
    assert figures(written) == expected


@given(st.text(alphabet="0123456789(),;.- /cmin–½", max_size=30))
def test_no_text_in_brackets_is_more_than_refused(text: str) -> None:
    file = SLIPOVER.replace('"48 (52, 57) cm"', f'"{text}"', 1)
    try:
        found = len(read_sizes(file, "x"))
    except PatternError as error:
        found = 3 if "front" in str(error) else 0
    assert found == 3


def told(text: str, size: str | None = None) -> str:
    with pytest.raises(PatternError) as error:
        read_text(text, "x", size) if size else read_sizes(text, "x")
    return str(error.value)


def test_problems_name_the_key_the_size_and_how_many_values_there_are() -> None:
    few = told(SLIPOVER.replace('"54 (56, 58)"', '"54 (56)"', 1))
    assert 'piece "front", length: "54 (56)", 2 values for 3 sizes' in few
    wide = told(SLIPOVER.replace('"12 (13, 14)"', '"12 (13, 30)"', 1))
    assert 'piece "front", neck, shoulder, size L: two shoulders of 30 cm' in wide
    two = told(SLIPOVER.replace('"12 (13, 14)"', '"24 (13, 30)"', 1))
    assert "size S: two shoulders of 24 cm" in two
    assert "size L: two shoulders of 30 cm" in two
    same = told(SLIPOVER.replace("depth = 8", "depth = -8"))
    assert same.count("depth") == 1
    assert "size" not in same
    assert "there is no size" in told(SLIPOVER, "XL")
    assert "the sizes are S, M, L" in told(SLIPOVER, "XL")
    assert "the file has no sizes" in told(alone("M"), "M")
    assert "needs a name of its own" in told(SLIPOVER.replace('"M", "L"]', '"m", "M"]'))
    assert "progress in a file with sizes" in told(SLIPOVER + '[progress]\npiece = "front"\nrows = 2\nheight = 3\n')
    with pytest.raises(PatternError, match=r"no size is chosen.*--for S"):
        read_text(SLIPOVER, "x")


def test_problems_stand_at_their_line() -> None:
    text = SLIPOVER.replace('"12 (13, 14)"', '"12 (13, 30)"', 1)
    with pytest.raises(PatternError) as error:
        read_sizes(text, "x")
    (problem,) = error.value.problems
    assert problem.line is not None
    assert "12 (13, 30)" in text.splitlines()[problem.line - 1]


@pytest.mark.parametrize("key", ["clusters = 18", 'colour = "#b9b36a"', "height = 32.5"])
def test_swatch_and_yarns_are_the_same_for_all_sizes(key: str) -> None:
    name, value = key.split(" = ")
    assert name in told(SLIPOVER.replace(key, f'{name} = "{value.strip(chr(34))} (1, 2)"', 1))


def test_a_dash_leaves_a_key_out() -> None:
    text = SLIPOVER.replace('rows = "2 (2, 3)"', 'rows = "2 (–, 3)"')
    assert [pattern.stripes.rows for pattern in read_sizes(text, "x") if pattern.stripes] == [(2,), (1,), (3,)]


def test_sizes_with_letters_have_no_unit() -> None:
    """The row "1X" is none of so many X."""
    text = SLIPOVER.replace('"S", "M", "L"', '"M", "L", "1X"').replace('"S (M, L)"', '"M (L, 1X)"')
    assert [pattern.wearer and pattern.wearer.size for pattern in read_sizes(text, "x")] == ["M", "L", "1X"]


def test_a_wearer_of_a_table_has_the_row_of_each_size() -> None:
    text = SLIPOVER.replace('size = "S (M, L)"\n', "")
    assert [pattern.wearer and pattern.wearer.size for pattern in read_sizes(text, "x")] == ["S", "M", "L"]
    odd = told(text.replace('"S", "M", "L"', '"S", "M", "huge"'))
    assert 'size huge: there is no size "huge"' in odd


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("44,5 (48,5, 52)", "decimals have a point here"), ("44 cm (48, 52)", "either every figure has its unit"),
        ('44 (48", 52)', "either every figure has its unit"), ("44 (48, 52, 57)", "4 values for 3 sizes"),
    ],
)  # fmt: skip
def test_brackets_that_can_be_read_in_two_ways_are_told(value: str, words: str) -> None:
    assert words in told(SLIPOVER.replace('"54 (56, 58)"', f"'{value}'", 1))


def test_a_list_has_every_entry_in_every_size() -> None:
    assert "a list has every entry" in told(SLIPOVER.replace('rows = "2 (2, 3)"', 'rows = ["2 (–, 3)", 2]'))


SCARCE = SLIPOVER + """
[[piece]]
name = "collar"
count = "– (1, 1)"
width = 40
length = 5
[[piece]]
name = "pocket"
width = "– (–, 12)"
length = "– (–, 14)"
[[seam]]
join = ["collar.first", "front.neck"]
[[seam]]
join = ["front.shoulder", "back.shoulder"]
"""


def test_a_dash_for_all_of_a_pieces_form_leaves_the_piece_out() -> None:
    small, middle, large = read_sizes(SCARCE, "x")
    assert [piece.name for piece in small.pieces] == ["front", "back", "hem band"]
    assert [piece.name for piece in middle.pieces][3:] == ["collar"]
    assert [piece.name for piece in large.pieces][3:] == ["collar", "pocket"]
    assert (len(small.seams), len(middle.seams)) == (1, 2)  # what is sewn to a piece that is not there goes
    assert small.lacks == (3, 4)
    text = all_sizes_text(plans(SCARCE))
    assert "## **Sizes M and L only:** collar" in text
    assert "## **Size L only:** pocket" in text


@pytest.mark.quick(0)
def test_a_page_changes_the_right_piece_where_a_size_lacks_one() -> None:
    """The front is the second piece of the file, and the first that size S has."""
    cowl = '[[piece]]\nname = "cowl"\ncount = "– (1, 1)"\nwidth = 30\nlength = 9\n'
    text = SLIPOVER.replace("[[piece]]", f"{cowl}[[piece]]", 1)
    for size, front in (("S", 0), ("M", 1)):
        reply = Live().answer({"text": text, "size": size, "piece": "front", "want": ["also"]})
        assert reply["pieces"][front]["name"] == "front"
        assert {tuple(fit["path"][:2]) for fit in reply["pieces"][front]["fit"] if fit["path"]} == {("piece", 1)}
        paths = [edit["path"][:2] for one in reply["also"] for edit in one["edits"]]
        assert all(path == ["piece", 1] for path in paths)


def test_problems_in_a_size_that_lacks_a_piece_stand_at_their_line() -> None:
    text = SCARCE.replace('"– (–, 12)"', '"12 (0, 12)"').replace('"– (–, 14)"', "14")
    text = text.replace('"– (1, 1)"', '"1 (–, 1)"')
    with pytest.raises(PatternError) as error:
        read_sizes(text, "x")
    (problem,) = error.value.problems
    assert problem.line is not None
    assert text.splitlines()[problem.line - 1] == 'width = "12 (0, 12)"'


def test_a_name_of_a_yarn_is_no_bracket_of_sizes() -> None:
    assert "would be read as one for each size" in told(SLIPOVER.replace('"Reed"', '"Reed (Silt, Ash)"'))
    assert read_sizes(SLIPOVER.replace('"Reed"', '"Reed (2)"'), "x")[0].yarns[0].name == "Reed (2)"


def test_sizes_whose_folders_would_be_one_are_told() -> None:
    assert "needs a name of its own" in told(SLIPOVER.replace('"S", "M", "L"', '"S/M", "S-M", "L"'))


def test_sizes_by_name() -> None:
    assert size_names(SLIPOVER, "x") == ("S", "M", "L")
    assert size_names(alone("S"), "x") == ()
    assert read_sizes(alone("S"), "x") == (read_text(alone("S"), "x"),)


# ------------------------------------------------------------------------------------------------ planned together


@cache
def plans(text: str = SLIPOVER) -> tuple[Plan, ...]:
    return plan_sizes(read_sizes(text, "x"), "x")


def scaled(pattern: Pattern, share: Fraction, size: str, sizes: tuple[str, ...]) -> Pattern:
    """The pattern as wide and as long as ``share`` says."""

    def more(cm: Fraction | None) -> Fraction | None:
        return None if cm is None else cm * share

    def line(points: tuple[tuple[Fraction, Fraction], ...]) -> tuple[tuple[Fraction, Fraction], ...]:
        return tuple((height * share, reach * share) for height, reach in points)

    def larger(piece: Piece) -> Piece:
        neck = piece.neck and replace(piece.neck, shoulder=piece.neck.shoulder * share)
        return replace(
            piece, width=more(piece.width), length=more(piece.length), neck=neck, outline=line(piece.outline),
            left_outline=line(piece.left_outline), right_outline=line(piece.right_outline),
        )  # fmt: skip

    title = f"{pattern.title} ({size})"
    return replace(pattern, pieces=tuple(map(larger, pattern.pieces)), size=size, sizes=sizes, title=title)


def sized_at(seed: int) -> tuple[Plan, ...]:
    """A random pattern in two to five sizes; empty where it cannot be planned in all of them."""
    rng = Random(seed)
    first = planned_at(seed)
    if first is None:
        return ()
    names = tuple(["S", "M", "age 4", "2X", "10"][: rng.randint(2, 5)])
    pattern = replace(first.pattern, progress=())
    step = Fraction(rng.randint(0, 12), 100)
    try:
        return plan_sizes([scaled(pattern, 1 + nth * step, name, names) for nth, name in enumerate(names)])
    except PatternError:
        return ()


def missed(plan: Plan) -> dict[tuple[str, str], Fraction]:
    return {(piece.name, fit.measure): abs(fit.off) for piece in plan.pieces for fit in piece.fit}


def no_size_is_worse(made: tuple[Plan, ...]) -> None:
    """No measure misses its wish by more than a quarter of a pitch, or half a row, more than where the size is planned
    alone."""
    for plan in made:
        own, joint = missed(plan_pattern(plan.pattern)), missed(plan)
        leeway = max(plan.gauge.pitch / 4, plan.gauge.row / 2)
        assert own.keys() == joint.keys()
        assert all(joint[name] <= own[name] + leeway for name in own)


def test_sizes_are_planned_to_one_form_where_they_can_be() -> None:
    """Half a cluster more or less in a panel gives rows alike or alternate; 80 cm wide at half a pitch of 1.25 cm is 64
    of them, and 81.25 is 65: by itself either form is exact. Worked by hand."""
    text = SLIPOVER[: SLIPOVER.index("[[piece]]")] + '[[piece]]\nname = "mat"\nwidth = "80 (85, 91)"\nlength = 40\n'
    made = plans(text)
    assert {plan.pieces[0].row_plan for plan in made} == {"alike"}
    no_size_is_worse(made)


def test_each_size_is_as_near_as_by_itself() -> None:
    no_size_is_worse(plans())


def test_a_size_that_cannot_be_planned_is_named() -> None:
    text = SLIPOVER.replace('"hem band"', '"hem band"\nexact_clusters = "19 (21, 400)"')
    with pytest.raises(PatternError, match="size L: 400 clusters in row 1"):
        plans(text)


# ------------------------------------------------------------------------------------------------ told in one text

ENGLISH = Sizes(
    ("S", "M", "L"),
    lambda names: f"Size{'s' * (len(names) > 1)} {' and '.join(names)} only:",
    (("RS", "WS"), ("Reed", "Silt")),
)


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (("ch 66", "ch 78", "ch 90"), "ch 66 (78, 90)"),
        (("ch 66", "ch 66", "ch 66"), "ch 66"),
        (("dc in 5th ch", "dc in 5th ch", "dc in 7th ch"), "dc in 5th (5th, 7th) ch"),
        (("4 cl (12 dc)", "5 cl (15 dc)", "6 cl (18 dc)"), "4 (5, 6) cl (12 [15, 18] dc)"),
        (("21 1/4 in", "22 in", "23 1/2 in"), "21 1/4 (22, 23 1/2) in"),
        (("54,5 cm", "56 cm", "58,5 cm"), "54,5 (56; 58,5) cm"),
        (("Row 2 (WS, Reed)", "Row 2 (WS, Silt)", "Row 3 (RS, Silt)"), "Row 2 (2, 3) (WS [WS, RS], Reed [Silt, Silt])"),
        (
            ("dc in tch, change to Reed in last yo", "dc in tch", "dc in tch, change to Silt in last yo"),
            "dc in tch, change to Reed (–, Silt) in last yo",
        ),
        (
            ("Ch 3. Turn.", "Ch 3. Turn. Fasten off.", "Ch 4. Turn."),
            "Ch 3 (3, 4). Turn. **[Size M only:** Fasten off**]**.",
        ),
        (("a\nb", "a", "a\nb"), "a\n**Sizes S and L only:** b"),
        (("a\nb 7 (12 dc)", "a", "a\nb 9 (15 dc)"), "a\n**Sizes S and L only:** b 7 (9) (12 [15] dc)"),
        (("a 3. Turn. b 7", "a 4. Turn", "a 4. Turn. b 9"), "a 3 (4, 4). Turn. **[Sizes S and L only:** b 7 (9)**]**"),
    ],
)  # fmt: skip
def test_lines_of_three_sizes(lines: tuple[str, ...], expected: str) -> None:
    """As published patterns print them; square brackets within round ones are common practice, no source."""
    texts = [f"{line}\n" for line in lines]
    assert merged(texts, ENGLISH) == f"{expected}\n"
    assert [chosen(f"{expected}\n", ENGLISH, nth) for nth in range(3)] == texts


GERMAN = replace(ENGLISH, counted=("Lm", "Gr"))


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (("in die 7. Lm", "in die 7. Lm", "in die 5. Lm"), "in die 7. (7., 5.) Lm"),
        (("bis Reihe 7. Ende", "bis Reihe 7. Ende", "bis Reihe 9. Ende"), "bis Reihe 7 (7, 9). Ende"),
        (("1. Gr, 2. Gr", "1. Gr, 2. Gr", "1. Gr, 3. Gr"), "1. Gr, 2. (2., 3.) Gr"),
    ],
)
def test_an_ordinal_keeps_its_full_stop(lines: tuple[str, ...], expected: str) -> None:
    """As German prints them; a full stop after the brackets would end the sentence. Common practice, no source."""
    texts = [f"{line}\n" for line in lines]
    assert merged(texts, GERMAN) == f"{expected}\n"
    assert [chosen(f"{expected}\n", GERMAN, nth) for nth in range(3)] == texts


def test_a_list_of_colours_with_other_entries_is_told_for_each_size() -> None:
    """A dash for both a row and its yarn cannot be read."""
    lines = ["Turn. Colors: row 4 Silt, row 5 Reed.\n", "Turn. Colors: row 4 Silt.\n", "Turn. Colors: row 6 Silt.\n"]
    made = merged(lines, ENGLISH)
    assert "row 4 (6) Silt" in made  # sizes M and L go together
    assert "–" not in made
    assert "Reed" in made.split("**[Size S only:** Colors")[1].split("**]**")[0]
    assert [chosen(made, ENGLISH, nth) for nth in range(3)] == lines


@pytest.mark.quick(0)
def test_brackets_in_a_makers_own_words_stay_as_they_are() -> None:
    """They hold a figure for each size, as those of a published pattern do."""
    own = 'note = "Fits a bust of 81 (86, 91) cm."\nintroduction = "To 81 (86, 91) cm."\n'
    text = SLIPOVER.replace("[swatch]", f"{own}[swatch]")
    made = plans(text)
    assert "To 81 (86, 91) cm" in markdown_of_sizes(made)
    assert "(81 (86, 91))" not in all_sizes_text(made)


WORDS = ["Ch 3, turn.", "Ch 4, turn.", "Row 2 (RS):", "4 cl (12 dc).", "Fasten off.", "# Top", "- 5 ch", ""]


@given(st.lists(st.lists(st.sampled_from(WORDS)), min_size=3, max_size=3))
def test_any_three_texts_come_out_as_they_went_in(texts: list[list[str]]) -> None:
    joined = ["".join(f"{line}\n" for line in text) for text in texts]
    made = merged(joined, ENGLISH)
    assert [chosen(made, ENGLISH, nth) for nth in range(3)] == joined


def choosing_is_the_inverse(made: tuple[Plan, ...], language: str) -> None:
    """Choosing a size of the merged text gives the very words of that size."""
    common = [replace(plan, pattern=replace(plan.pattern, title=plan.pattern.common_title)) for plan in made]
    texts = [pattern_text(plan, language) for plan in common]
    sizes = sizes_of(common, LANGUAGES[language])
    text = merged(texts, sizes)
    assert [chosen(text, sizes, nth) for nth in range(len(made))] == texts
    told = all_sizes_text(made, language)
    assert len(told) < sum(map(len, texts))
    assert told.replace("\n\n" + told.split("\n\n")[2], "", 1) == text  # but for the paragraph on sizes


@pytest.mark.quick(2)
@pytest.mark.parametrize("language", LANGUAGES)
def test_choosing_a_size_gives_its_own_words(language: str) -> None:
    choosing_is_the_inverse(plans(), language)


@pytest.mark.quick(0)
def test_each_size_of_the_merged_text_is_worked_by_the_maker() -> None:
    """The words of each size, as they are chosen, are those that the maker in the machine works."""
    for plan in plans():
        prove(plan)


@pytest.mark.quick(1)
@pytest.mark.parametrize("seed", range(20))
def test_random_patterns_in_sizes(seed: int) -> None:
    if made := sized_at(seed):
        choosing_is_the_inverse(made, list(LANGUAGES)[seed % len(LANGUAGES)])
        no_size_is_worse(made)


@pytest.mark.slow
@pytest.mark.parametrize("fifty", range(2))
def test_a_hundred_random_patterns_in_sizes(fifty: int) -> None:
    """The nightly set has a thousand, in every language."""
    found = 0
    for seed in range(1000 + 100 * fifty, 1100 + 100 * fifty):
        if found < 50 and (made := sized_at(seed)):
            choosing_is_the_inverse(made, list(LANGUAGES)[seed % len(LANGUAGES)])
            found += 1
    assert found == 50


# ------------------------------------------------------------------------------------------------- on the command line


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "slipover.toml"
    path.write_text(SLIPOVER)
    return path


def run(*words: object) -> str:
    done = CliRunner().invoke(cli, [str(word) for word in words], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    return done.output


def test_check_has_all_sizes_in_one_table(file: Path) -> None:
    """Each figure of the table is that of the size's own report."""
    table = run("check", file)
    assert "sizes S, M, L" in table
    rows = [re.split(r"  +", line.strip())[-3:] for line in table.splitlines()]
    for nth, plan in enumerate(plans()):
        there = [row[nth] for row in rows if len(row) == 3]
        for piece in plan.pieces:
            assert {shown(fit.worked, "cm") for fit in piece.fit} <= set(there)
            assert {str(piece.row_count), str(piece.foundation_chain)} <= set(there)
    assert "for the details of one size: --for S" in table
    assert run("check", file, "--for", "M").startswith("Bog myrtle slipover (M)")


@pytest.mark.quick(0)
def test_words_tell_all_sizes_in_one_text(file: Path) -> None:
    assert run("words", file) == all_sizes_text(plans())
    assert run("words", file, "--for", "L") == pattern_text(plans()[2])
    assert "**Size" in run("words", file) or "(" in run("words", file)


@pytest.mark.quick(0)
def test_make_makes_a_folder_for_each_size_and_one_text_of_all(file: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    run("make", file, "-o", out)
    held = json.loads((out / "plan.json").read_text())
    for plan, one in zip(plans(), held["sizes"], strict=True):
        made = json.loads((out / plan.pattern.size / "plan.json").read_text())
        assert made["title"] == plan.pattern.title
        assert one == made
        assert (out / plan.pattern.size / "front.png").exists()
        assert not (out / plan.pattern.size / "index.html").exists()  # one page has all sizes
    text = (out / "pattern.md").read_text()
    assert "| front | width | 47.5 (52.5, 57.5) |" in text
    assert "☐" in text
    assert "![" not in text
    for ending in ("svg", "png", "txt"):
        assert (out / f"front-sizes.{ending}").exists()
    page = (out / "index.html").read_text()
    html5lib.HTMLParser(strict=True).parse(page)
    pictures = re.findall('src="([^"]+)"', page)
    assert {str(path.relative_to(out)) for path in out.rglob("*.png")} == set(map(unquote, pictures))
    assert all(f'href="beside.html#size-{size}"' in page for size in "SML")
    assert (out / "beside.html").read_text() == page_of_sizes(plans())
    run("make", file, "-o", out)  # a second time nothing stands in the way


@pytest.mark.quick(2)
@pytest.mark.parametrize("language", LANGUAGES)
def test_every_size_finds_its_rows_in_the_checklist(language: str) -> None:
    """What is ticked for a size, read from the headings, are the numbers of its rows, each as often as worked."""
    made = [told_in(plan, language) for plan in plans(SCARCE)]
    only = sizes_of(made, LANGUAGES[language]).only
    _, _, listed = markdown_of_sizes(made).partition(f"## {LANGUAGES[language].phrases['page.ticks']}\n")
    found: dict[tuple[str, str], list[int]] = {}
    names = {only(some): some for n in (1, 2) for some in combinations(("S", "M", "L"), n)}
    for part in listed.split("\n### ")[1:]:
        piece, _, text = part.partition("\n")
        whose: Sequence[str] = ("S", "M", "L")
        for line in text.splitlines():
            if head := re.fullmatch(r"(?:.+, )?\*\*(.+)\*\*", line):
                whose = names[head[1]]
            elif line.endswith(":"):
                whose = ("S", "M", "L")
            for size in whose:
                found.setdefault((size, piece), []).extend(map(int, re.findall(r"☐ (\d+)", line)))
    found = {one: numbers for one, numbers in found.items() if numbers}
    worked = {(plan.pattern.size, one.name): [row.number for row in one.rows] for plan in made for one in plan.pieces}
    assert found == worked


@pytest.mark.quick(0)
def test_one_size_is_made_as_a_pattern_by_itself(file: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    run("make", file, "-o", out, "--for", "M")
    assert json.loads((out / "plan.json").read_text())["title"] == "Bog myrtle slipover (M)"
    run("chart", file, "--piece", "front", "--for", "L", "-o", tmp_path / "front.svg")
    assert "Bog myrtle slipover (L)" in (tmp_path / "front.svg").read_text()


@pytest.mark.quick(1)
@pytest.mark.parametrize("command", [("chart", "--piece", "front"), ("stripes",), ("print",)])
def test_a_picture_needs_a_size(command: tuple[str, ...], file: Path, tmp_path: Path) -> None:
    out = tmp_path / ("a.pdf" if command[0] == "print" else "a.png")
    done = CliRunner().invoke(cli, [command[0], str(file), *command[1:], "-o", str(out)])
    assert done.exit_code == 1
    assert "no size is chosen; the sizes are S, M, L" in str(done.exception)
    run(command[0], file, *command[1:], "-o", out, "--for", "S")
    assert out.exists()


@pytest.mark.quick(0)
def test_the_page_beside_the_work_is_of_all_sizes_or_of_one(file: Path, tmp_path: Path) -> None:
    out = tmp_path / "a.html"
    run("page", file, "-o", out)
    assert out.read_text() == page_of_sizes(plans())
    run("page", file, "-o", out, "--for", "M")
    assert out.read_text() == beside.page(plans()[1])


# --------------------------------------------------------------------------------------------------- on the design page


@pytest.mark.parametrize(
    ("nth", "expected"),
    [(0, "50.5 (52, 57) (62) cm"), (1, "48 (50.5, 57) (62) cm"), (3, "48 (52, 57) (50.5) cm"), (4, "")],
)
def test_one_figure_among_others_is_changed(nth: int, expected: str) -> None:
    assert with_figure("48 (52, 57) (62) cm", nth, "50.5") == expected
    assert with_figure("48 cm", nth, "50.5") == ""


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (60, "48 (60, 57) cm"), (60.5, "48 (60.5, 57) cm"), ("60 cm", "48 (60, 57) cm"), (None, "48 (-, 57) cm"),
        ("60 (62, 64)", "60 (62, 64)"), ("20 in", None),
    ],
)  # fmt: skip
def test_an_edit_changes_the_figure_of_its_size_alone(value: object, expected: str | None) -> None:
    text = 'sizes = ["S", "M", "L"]\n[[piece]]\nwidth = "48 (52, 57) cm"   # as worn\n'
    edits = [Edit(("piece", 0, "width"), value)]
    if expected is None:
        with pytest.raises(MakerError, match="write this one in cm too"):
            edited(text, edits, 1)
    else:
        assert edited(text, edits, 1) == text.replace("48 (52, 57) cm", expected)


def test_a_number_is_in_the_unit_of_the_file() -> None:
    text = 'units = "in"\nsizes = ["S", "M", "L"]\n[[piece]]\nwidth = "48 (52, 57) cm"\n'
    with pytest.raises(MakerError, match="write this one in cm too"):
        edited(text, [Edit(("piece", 0, "width"), 20)], 1)
    assert "48 (20, 57) in" in edited(text.replace(" cm", " in"), [Edit(("piece", 0, "width"), 20)], 1)


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ('title = "Top (2, 3)"', ("title",)),
        ('sizes = ["S", "M"]\n[[yarn]]\nname = "Top (2, 3)"', ("yarn", 0, "name")),
        ('sizes = ["S", "M"]\n[[piece]]\nbefore = "Top (2, 3)"', ("piece", 0, "before")),
        ('[[piece]]\nwidth = "Top (2, 3)"', ("piece", 0, "width")),
    ],
)
def test_brackets_in_words_are_no_sizes(text: str, path: tuple[str | int, ...]) -> None:
    """A title, a name, and anything in a file without sizes is replaced as a whole."""
    assert edited(text, [Edit(path, "New")]) == text.replace("Top (2, 3)", "New")


def test_brackets_that_lack_a_figure_stay() -> None:
    with pytest.raises(MakerError, match="no figure for this size"):
        edited('sizes = ["S", "M", "L"]\n[[piece]]\nwidth = "48 (52)"\n', [Edit(("piece", 0, "width"), 60)], 2)


def test_a_page_sees_one_size_and_changes_its_figures_alone() -> None:
    live = Live()
    message = {"text": SLIPOVER, "piece": "front", "want": ["words"]}
    first, large = live.answer(message), live.answer({**message, "size": "L"})
    assert (first["sizes"], first["size"], large["size"]) == (["S", "M", "L"], "S", "L")
    assert live.planned == 1  # all sizes at once
    assert (first["title"], large["title"]) == ("Bog myrtle slipover (S)", "Bog myrtle slipover (L)")
    assert large["words"] == pattern_text(plans()[2])
    edit = {"path": ["piece", 0, "width"], "value": 60}
    changed = live.answer({**message, "size": "M", "edits": [edit]})
    assert changed["problems"] == []
    assert 'width = "48 (60, 57) cm"' in changed["text"]
    assert changed["text"].replace("(60, 57)", "(52, 57)", 1) == SLIPOVER
    single = live.answer({"text": alone("M"), "want": []})
    assert (single["sizes"], single["size"]) == ([], "")


@pytest.mark.quick(0)
def test_what_is_no_longer_made_goes_from_a_folder_named_from_here(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder named as seen from here was locked twice, and waited for itself."""
    monkeypatch.chdir(tmp_path)
    file.write_text(alone("S"))
    run("make", file.name, "-o", "out")
    file.write_text(alone("S").replace('"hem band"', '"band"'))
    run("make", file.name, "-o", "out")
    assert not (tmp_path / "out" / "hem band.svg").exists()
    assert (tmp_path / "out" / "band.svg").exists()


@pytest.mark.quick(0)
def test_the_smallest_stock_makes_its_size_and_a_gram_less_does_not(tmp_path: Path) -> None:
    """Read from the table, written into the file as stock, and read again."""

    def table(text: str) -> str:
        path = tmp_path / "stock.toml"
        path.write_text(text)
        return run("check", path).split("\nyarn ")[1]

    rows = [re.split(r"  +", line.strip()) for line in table(SLIPOVER).splitlines()]
    reed, silt = (row[-3:] for row in rows if "smallest stock, g" in row)
    assert [int(figure) for figure in reed] == sorted(int(figure) for figure in reed)
    for less, reached in ((0, "sizes S and M"), (1, "size S")):
        text = SLIPOVER.replace('colour = "#b9b36a"', f'colour = "#b9b36a"\nstock = {int(reed[1]) - less}')
        assert f"the stock reaches for {reached}\n" in table(text.replace('"#6f8aa3"', f'"#6f8aa3"\nstock = {silt[2]}'))


def test_other_plans_are_looked_for_in_the_sizes_asked_alone() -> None:
    plans = plan_sizes(read_sizes(SLIPOVER, "x"), others_of=[1])
    assert [any(piece.alternatives for piece in plan.pieces) for plan in plans] == [False, True, False]
    kept = KeptPieces()
    alone = plan_pattern(plans[1].pattern, kept=kept.without_alternatives())
    assert not any(one.alternatives for one in alone.pieces)
    assert any(one.alternatives for one in plan_pattern(plans[1].pattern, kept=kept).pieces)


def test_ways_of_an_edge_name_steps_and_turns_once_each() -> None:
    """By hand: outwards is to the left at a left edge, to the right at a right one; more than half a pitch in a row is
    a step."""
    line = (5, 5, 6, 7, 7, 9, 9, 8, 7, 3, 3)
    right = ["out", "step out", "in", "step in"]
    assert list(every_size._ways(1, line)) == right
    assert list(every_size._ways(0, line)) == ["in", "step in", "out", "step out"]
    assert list(every_size._ways(0, [-at for at in line])) == list(every_size._ways(2, [-at for at in line])) == right


def test_measures_of_sizes_stand_side_by_side_by_order_or_by_name() -> None:
    """As many in all sizes: by their order, heights in brackets. Others: by their names, with none where one lacks."""
    few, more = (
        [SimpleNamespace(measure=name) for name in names]
        for names in (("width", "width at 10 cm"), ("width", "width at 12 cm", "length"))
    )
    alike = list(side_by_side([few, more[:2], []]))  # type: ignore[list-item]
    assert alike == [("width", [few[0], more[0], None]), ("width at 10 (12) cm", [few[1], more[1], None])]
    assert list(side_by_side([few, more])) == [  # type: ignore[list-item]
        ("width", [few[0], more[0]]),
        ("width at 10 cm", [few[1], None]),
        ("width at 12 cm", [None, more[1]]),
        ("length", [None, more[2]]),
    ]
