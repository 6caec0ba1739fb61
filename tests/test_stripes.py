"""Stripes: the published sequences, every order makers use, and pieces whose stripes meet."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import groupby, pairwise
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.errors import PatternError
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern, Piece, Progress, Seam, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading import pattern_file
from turnchain.records import replace
from turnchain.yarns import meeting
from turnchain.yarns.colouring import choices, coloured, in_order, too_much_for_a_stash
from turnchain.yarns.stripes import (
    fibonacci,
    heights,
    lines,
    meetings,
    sequence,
)

CASES = Path(__file__).parent / "cases"
QUICK = settings(max_examples=60)
ABC = ("A", "B", "C")


def swatch(rows: int = 10, height: str = "10") -> Swatch:
    """Half pitches of 1 cm; rows of height / rows cm."""
    return Swatch(Fraction(10), Fraction(20), Fraction(rows), Fraction(height), Fraction(20))


def yarns(*names: str, stock: int | None = None) -> tuple[Yarn, ...]:
    return tuple(Yarn(name, "#777777", None if stock is None else Fraction(stock)) for name in names)


def panel(name: str, rows: int, **more: object) -> Piece:
    """A panel of 10 clusters and so many rows of 1 cm."""
    return replace(Piece(name, width=Fraction(20), length=Fraction(rows)), **more)  # type: ignore[arg-type]


def planned(stripes: Stripes | None, *pieces: Piece, stock: int | None = None, seams: tuple[Seam, ...] = ()) -> Plan:
    made = Pattern("Test", (swatch(),), pieces, yarns=yarns(*ABC, stock=stock), stripes=stripes, seams=seams)
    return coloured(plan_pattern(made))


def colours(plan: Plan, piece: str) -> list[str | None]:
    return [row.colour for row in plan.piece(piece).row_levels]


def runs(names: tuple[str, ...]) -> list[tuple[str, int]]:
    return [(name, len(list(run))) for name, run in groupby(names)]


def letters(stripes: Stripes, rows: int) -> str:
    return "".join(sequence(stripes, rows))


# ------------------------------------------------------------------------------------------ published sequences


def test_fibonacci_blanket() -> None:
    """A 55 B 1 A 34 B 1 A 21 B 2 ...: each colour sums to 143, 286 rows. Source: menwhoknit.com node 5908, read;
    the sums are ours."""
    names = sequence(Stripes(("A", "B"), kind="numbers", most=55, run="crossing"), 286)
    assert runs(names)[:6] == [("A", 55), ("B", 1), ("A", 34), ("B", 1), ("A", 21), ("B", 2)]
    assert runs(names)[-2:] == [("A", 1), ("B", 55)]
    assert Counter(names) == {"A": 143, "B": 143}
    assert sum(fibonacci(55)) == 143


def test_published_list_of_170_rows() -> None:
    """(MC 10, A 2, MC 2, A 2) x 10 + MC 10 = 170 rows, 48.57 in at 14 rows in 4 in, printed 48.5. Source:
    Yarnspirations BRC0502-027780M, read; the sum is ours."""
    names = sequence(Stripes(("MC", "A"), (10, 2, 2, 2)), 170)
    assert runs(names) == [("MC", 10), ("A", 2), ("MC", 2), ("A", 2)] * 10 + [("MC", 10)]
    made = Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(14), 4 * Fraction("2.54")),),
        (Piece("blanket", width=Fraction(20), length=Fraction("48.57") * Fraction("2.54")),),
        yarns=yarns("MC", "A"),
        stripes=Stripes(("MC", "A"), (10, 2, 2, 2)),
    )
    (piece,) = coloured(plan_pattern(made)).pieces
    assert piece.row_count == 170
    assert round(float(piece.height / Fraction("2.54")), 2) == 48.57
    assert tuple(row.colour for row in piece.rows) == names


# ------------------------------------------------------------------------------------------------- the orders


@pytest.mark.parametrize(
    ("stripes", "rows", "found"),
    [
        (Stripes(("A", "B"), (2, 1)), 7, "AABAABA"),
        (Stripes(ABC, (2,), "mirrored"), 11, "AABBCCCBBAA"),
        (Stripes(ABC, (2,), "mirrored"), 10, "AABBCCBBAA"),
        (Stripes(ABC, (2,), "mirrored", "middle"), 11, "CCBBAAABBCC"),
        (Stripes(ABC, (1,), "mirrored", "middle"), 10, "BACBAABCAB"),
        (Stripes(ABC, (3,), "mirrored", "middle"), 1, "A"),
        (Stripes(("A", "B"), kind="numbers", numbers=(1, 2, 4)), 9, "ABBAAAABA"),
        (Stripes(("A", "B"), kind="numbers", numbers=(1, 2, 4), run="falling"), 7, "AAAABBA"),
        (Stripes(("A", "B"), kind="numbers", numbers=(1, 2, 3), run="there and back"), 9, "ABBAAABBA"),
        (Stripes(("A", "B"), kind="numbers", most=3), 7, "ABAABBB"),
        (Stripes(("A", "B"), kind="gradual", block=4), 12, "AAABAABBABBB"),
        (Stripes(ABC, kind="gradual", block=4), 16, "AAABABBBBBBCBCCC"),
        (Stripes(("A", "B"), kind="gradual", block=6, even=True), 12, "AAAABBAABBBB"),
        (Stripes(("A", "B"), (2,), kind="between", between="C"), 9, "AACBBCAAC"),
        (Stripes(("A", "B"), kind="between", between="C", every=2, between_rows=2), 8, "ABCCABCC"),
    ],
)
def test_orders(stripes: Stripes, rows: int, found: str) -> None:
    assert letters(stripes, rows) == found


def test_random_is_the_same_for_ever() -> None:
    """The draw of every Python there is; a new one would change a maker's blanket half way."""
    stripes = Stripes(ABC, kind="random", seed=7, most=3)
    assert letters(stripes, 24) == letters(stripes, 40)[:24]
    assert letters(stripes, 24) != letters(replace(stripes, seed=8), 24)
    assert letters(stripes, 24) == "ACBBAABBABBBACCCBBCBABBB"


many = st.integers(2, 7).flatmap(
    lambda count: st.tuples(
        st.just(tuple("ABCDEFG"[:count])), st.integers(1, count - 1), st.integers(1, 3), st.integers(0, 3)
    )
)


@QUICK
@given(many, st.integers(0, 99), st.integers(1, 120), st.booleans())
def test_random_keeps_its_wishes(wish: tuple[tuple[str, ...], int, int, int], seed: int, rows: int, even: bool) -> None:
    order, apart, least, more = wish
    stripes = Stripes(order, kind="random", seed=seed, apart=apart, least=least, most=least + more + 1, even=even)
    names = sequence(stripes, rows)
    assert len(names) == rows
    found = runs(names)
    assert all(height in heights(stripes) for _, height in found[:-1])
    assert found[-1][1] <= max(heights(stripes))
    for index, (name, _) in enumerate(found):
        assert name not in [other for other, _ in found[max(0, index - apart) : index]]


kinds = st.sampled_from(["list", "mirrored", "numbers", "gradual", "random", "between", "stash"])


@QUICK
@given(kinds, st.integers(1, 60), st.lists(st.integers(1, 5), min_size=1, max_size=4), st.booleans())
def test_every_kind_fills_every_row(kind: str, rows: int, sizes: list[int], even: bool) -> None:
    stripes = Stripes(("A", "B"), tuple(sizes), kind, between="C", even=even, begin="middle")  # type: ignore[arg-type]
    names = sequence(stripes, rows)
    assert len(names) == rows
    assert set(names) <= set(ABC)
    if kind == "mirrored":
        assert names == names[::-1]


@QUICK
@given(st.integers(8, 200), st.integers(4, 12), st.booleans())
def test_gradual_only_ever_gains(rows: int, block: int, even: bool) -> None:
    """Taken a block at a time, there is never less of the second yarn than before, but for a cut row or two."""
    names = sequence(Stripes(("A", "B"), kind="gradual", block=block, even=even), rows)
    found = runs(names)
    ones, others = [h for name, h in found if name == "A"], [h for name, h in found if name == "B"]
    assert all(later <= sooner + 2 for sooner, later in pairwise(ones))
    assert all(later >= sooner - 2 for sooner, later in pairwise(others))
    assert abs(names.count("A") - names.count("B")) <= 2 * len(ones)


# ------------------------------------------------------------------------------------------------- whole plans


def test_a_plan_is_coloured_by_its_list() -> None:
    made = Pattern("Test", (swatch(),), (panel("one", 5),), yarns=yarns(*ABC), stripes=Stripes(("A", "B"), (2, 1)))

    def colours(pattern: Pattern) -> list[str | None]:
        return [row.colour for row in plan_pattern(pattern).pieces[0].rows]

    assert colours(made) == ["A", "A", "B", "A", "A"]
    assert colours(replace(made, stripes=None)) == ["A"] * 5
    assert colours(replace(made, stripes=None, yarns=())) == [None] * 5
    assert colours(replace(made, pieces=(panel("one", 3, stripes_begin=2),))) == ["A", "B", "A"]


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_the_cases_keep_their_lists(case: str) -> None:
    """Also: colouring a coloured plan changes nothing."""
    plan = plan_pattern(pattern_file.read_file(CASES / f"{case}.toml"))
    assert coloured(plan) == plan
    mirrored = replace(plan.pattern, stripes=replace(plan.pattern.stripes, kind="mirrored"))  # type: ignore[type-var]
    once = coloured(replace(plan, pattern=mirrored))
    assert once != plan
    assert coloured(once) == once


def test_a_piece_of_its_own() -> None:
    plan = planned(Stripes(("A", "B")), panel("one", 4), panel("two", 4, stripes=Stripes(("C", "A"), (2,))))
    assert colours(plan, "one") == ["A", "B", "A", "B"]
    assert colours(plan, "two") == ["C", "C", "A", "A"]


def test_a_piece_that_begins_later() -> None:
    plan = planned(Stripes(ABC), panel("one", 4), panel("two", 3, stripes_begin=3))
    assert colours(plan, "two") == ["C", "A", "B"]


SEAM = (Seam(("one.left", "two.right")),)


def test_sewn_pieces_share_their_stripes() -> None:
    """Mirrored stripes are mirrored about each piece's own middle, but where pieces are sewn they must meet."""
    pieces = panel("one", 9), panel("two", 5)
    stripes = Stripes(ABC, kind="mirrored")
    apart, sewn = planned(stripes, *pieces), planned(stripes, *pieces, seams=SEAM)
    assert colours(apart, "two") == list("ABCBA")
    assert colours(sewn, "two") == list("ABCAB") == colours(sewn, "one")[:5]
    (meeting,) = meetings(sewn)
    assert (meeting.rows, meeting.differing, meeting.shift, meeting.over) == (5, 0, None, 4)
    assert lines(sewn) == ["one and two: one has 4 rows more, so past row 5 there is no stripe to meet"]


def test_stripes_that_do_not_meet_are_told_with_what_would_mend_it() -> None:
    late = planned(Stripes(ABC, (2,)), panel("one", 8), panel("two", 8, stripes_begin=2), seams=SEAM)
    (meeting,) = meetings(late)
    assert (meeting.differing, meeting.shift) == (4, 1)
    assert lines(late) == [
        "one and two: the stripes do not meet in 4 of the 8 rows; those of two come 1 row too early "
        "(stripes_begin = 1 there would mend it)"
    ]
    early = planned(Stripes(ABC, (2,)), panel("one", 8, stripes_begin=3), panel("two", 8), seams=SEAM)
    assert "those of two come 2 rows too late (stripes_begin = 3 there would mend it)" in lines(early)[0]
    never = planned(Stripes(ABC), panel("one", 8), panel("two", 8, stripes=Stripes(("B", "A"), (3, 1))), seams=SEAM)
    (meeting,) = meetings(never)
    assert meeting.differing
    assert meeting.shift is None


def test_edges_that_are_not_row_ends_need_not_meet() -> None:
    seams = (Seam(("one.first", "two.last")),)
    assert meetings(planned(Stripes(ABC), panel("one", 8), panel("two", 5), seams=seams)) == ()


def test_pieces_that_face_each_other_meet() -> None:
    heron = pattern_file.read_file(CASES / "heron_top.toml")
    plan = coloured(plan_pattern(replace(heron, stripes=Stripes(("Heron", "Silt", "Reed"), (2,), "mirrored"))))
    (meeting,) = meetings(plan)
    assert (meeting.first, meeting.second, meeting.rows, meeting.differing) == ("front", "back", 47, 0)
    assert lines(plan) == []


def test_a_yarn_never_used_is_told() -> None:
    plan = planned(Stripes(("A", "B")), panel("one", 4))
    assert lines(plan) == ["C is in no row: leave it out, or add it to the order of the stripes"]


def test_heights_of_which_one_can_fill_the_rows() -> None:
    plan = planned(Stripes(ABC, kind="random", least=8, most=12), panel("one", 8), panel("two", 6))
    assert all(len({row.colour for row in piece.rows}) == 1 for piece in plan.pieces)


def test_heights_that_cannot_fill_the_rows() -> None:
    with pytest.raises(PatternError) as refused:
        planned(Stripes(ABC, kind="random", least=9, most=12), panel("one", 8), panel("two", 6))
    assert [str(problem) for problem in refused.value.problems] == [
        'stripes, least: stripes of at least 9 rows; cannot fill the 8 rows of piece "one" (make `least` smaller)'
    ]


def test_other_orders_of_the_same_yarns() -> None:
    """Each can be worked, and each is another: what a sheet of samples shows."""
    plan = planned(Stripes(("A", "B", "C"), (3,)), panel("one", 30), stock=200)
    found = choices(plan)
    assert [title for title, _ in found] == [
        "as_it_is", "two_rows", "mirrored", "numbers", "gradual", "between", "random", "random", "stash",
    ]  # fmt: skip
    seen = {tuple(colours(in_order(plan, stripes), "one")) for _, stripes in found}
    assert len(seen) == len(found)
    assert in_order(plan, found[0][1]) == plan


@pytest.mark.parametrize(
    ("order", "stock", "keep"),
    [(("A", "B"), None, 30), (("A", "B"), 100, 30), ((), 30, 30), ((), 30, 40)],
)
def test_a_yarn_kept_for_the_border_alone_is_in_no_other_order(
    order: tuple[str, ...], stock: int | None, keep: int
) -> None:
    border = Yarn("C", "#ffffff", stock and Fraction(stock), keep=Fraction(keep))
    made = Pattern("Test", (swatch(),), (panel("one", 30),), yarns=(*yarns("A", "B"), border), stripes=Stripes(order))
    plan = plan_pattern(made)
    others = [stripes for title, stripes in choices(plan) if title != "as_it_is"]
    assert others
    assert all("C" not in (*stripes.order, stripes.between) for stripes in others)
    assert not any("C is in no row" in line for line in lines(plan))


def test_a_yarn_that_no_border_keeps_is_in_the_other_orders() -> None:
    made = Pattern("Test", (swatch(),), (panel("one", 30),), yarns=yarns("A", "B", "C"), stripes=Stripes(("A", "B")))
    others = [stripes for title, stripes in choices(plan_pattern(made)) if title != "as_it_is"]
    assert others
    assert all("C" in (*stripes.order, stripes.between) for stripes in others)


# -------------------------------------------------------------------------------------------------- pattern files

GOOD = """
title = "Test"
[swatch]
clusters = 10
width = 20
rows = 10
height = 10
weight = 20
[[yarn]]
name = "Reed"
colour = "#b9b36a"
stock = 50
keep = 5
[[yarn]]
name = "Silt"
colour = "#e8dcc4"
stock = 60
[[yarn]]
name = "Kelp"
colour = "#2f6b5e"
stock = 0
[allowance]
margin = 12.5
tail = "10 cm"
[stripes]
kind = "stash"
order = ["Reed", "Silt", "Kelp"]
least = 2
most = 4
even = true
apart = 2
use_up = ["Silt"]
carry = 6
[[piece]]
name = "front"
width = 20
length = 20
[[piece]]
name = "pocket"
width = 10
length = 10
stripes = { kind = "mirrored", order = ["Reed", "Silt"], rows = 2, begin = "middle" }
stripes_begin = 3
"""
ORDER = 'order = ["Reed", "Silt", "Kelp"]'
STASH = GOOD[GOOD.index("kind =") : GOOD.index("carry")]


def test_every_key_is_read() -> None:
    made = pattern_file.read_text(GOOD, "test.toml")
    order = ("Reed", "Silt", "Kelp")
    assert made.stripes == Stripes(order, kind="stash", least=2, most=4, even=True, apart=2, use_up=("Silt",), carry=6)
    assert (made.allowance.margin, made.allowance.tail) == (Fraction("12.5"), 10)
    assert made.yarns[0].keep == 5
    assert made.pieces[1].stripes == Stripes(("Reed", "Silt"), (2,), "mirrored", "middle")
    assert made.pieces[1].stripes_begin == 3
    others = 'kind = "between"\norder = ["Reed"]\nbetween = "Silt"\nbetween_rows = 2\nevery = 3\n'
    assert pattern_file.read_text(GOOD.replace(STASH, others), "x").stripes == Stripes(
        ("Reed",), kind="between", between="Silt", between_rows=2, every=3, carry=6
    )
    others = 'kind = "numbers"\norder = ["Reed", "Silt"]\nnumbers = [1, 3]\nrun = "there and back"\n'
    assert pattern_file.read_text(GOOD.replace(STASH, others), "x").stripes == Stripes(
        ("Reed", "Silt"), kind="numbers", numbers=(1, 3), run="there and back", carry=6
    )
    others = 'kind = "gradual"\norder = ["Reed", "Silt"]\nblock = 6\n'
    assert pattern_file.read_text(GOOD.replace(STASH, others), "x").stripes == Stripes(
        ("Reed", "Silt"), kind="gradual", block=6, carry=6
    )
    assert pattern_file.read_text(GOOD.replace(STASH, 'kind = "random"\nseed = 3\n'), "x").stripes == Stripes(
        kind="random", seed=3, carry=6
    )


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('kind = "stash"', 'kind = "stache"', 'stripes, kind: "stache"; must be "list" or "mirrored" or "numbers" or '
         '"gradual" or "random" or "between" or "stash" (did you mean "stash"?)'),
        (ORDER, 'order = ["Reed", "Slit", "Kelp"]', 'stripes, order: there is no yarn "Slit"; the yarns are "Reed", '
         '"Silt", "Kelp" (did you mean "Silt"?)'),
        ('use_up = ["Silt"]', 'use_up = ["Silt", "Sand"]', 'stripes, use_up: there is no yarn "Sand"; the yarns are '
         '"Reed", "Silt", "Kelp"'),
        ("apart = 2", "apart = 3",
         "stripes, apart: 3; must be at most 2: with 3 yarns no more others can stand between"),
        ("least = 2", "least = 5", "stripes, least: 5; must not be more than the `most` of 4"),
        ("least = 2\nmost = 4", "least = 3\nmost = 3", "stripes, even: no even number lies from `least` to `most`; "
         "must leave room for stripes of an even number of rows, or `even` must go"),
        ("even = true", 'even = "yes"', 'stripes, even: "yes"; must be true or false, without quotes'),
        ("stock = 50", "",
         'yarn "Reed": no `stock`; stripes from the stash need the grams in hand (stock = 0 for none)'),
        ("weight = 20", "", "swatch: no `weight`; stripes from the stash need the weight of a swatch (weigh a swatch, "
         "and measure all of it)"),
        ("even = true", "even = true\nseed = 3", 'stripes, seed: the kind of these stripes is "stash"; `seed` is for '
         'kind = "random"'),
        ("margin = 12.5", "margin = 120", "allowance, margin: 120; must be from 0 to 100, in per cent"),
        ("keep = 5", "keep = -5", 'yarn 1 ("Reed"), keep: -5; must not be less than 0'),
        (STASH, 'kind = "between"\norder = ["Reed"]\n',
         "stripes: no `between`; stripes of this kind need the yarn that "
         'stands between all others, such as between = "Silt"'),
        (STASH, 'kind = "between"\norder = ["Reed"]\nbetween = "Reed"\n',
         'stripes, between: "Reed" stands in the order '
         "too; the yarn between all others must not be one of them"),
        (STASH, 'kind = "between"\norder = ["Reed"]\nbetween = "Red"\n',
         'stripes, between: there is no yarn "Red"; the '
         'yarns are "Reed", "Silt", "Kelp" (did you mean "Reed"?)'),
        (STASH, 'kind = "mirrored"\n', "stripes: no `order`; stripes need the names of yarns in their order, such as "
         '["Reed", "Silt"]'),
        (STASH, 'kind = "gradual"\norder = ["Reed"]\n',
         'stripes: one yarn; stripes of kind "gradual" need two yarns at '
         "least"),
        (STASH, 'kind = "numbers"\norder = ["Reed"]\nrun = "crossing"\n', 'stripes: one yarn; numbers with run = '
         '"crossing" need two yarns at least'),
        (STASH, 'kind = "random"\norder = ["Reed"]\n', 'stripes: one yarn; stripes of kind "random" need two yarns at '
         "least"),
        (ORDER + "\nleast = 2\nmost = 4\neven = true\napart = 2\nuse_up = [\"Silt\"]", 'order = ["Reed"]',
         'stripes: one yarn; stripes of kind "stash" need two yarns at least'),
        ('use_up = ["Silt"]\ncarry = 6', 'carry = -1', "stripes, carry: -1; must be a whole number from 0 to 2000"),
        ('kind = "mirrored", order = ["Reed", "Silt"]', 'kind = "mirrored", order = ["Red"]',
         'piece "pocket", stripes, order: there is '
         'no yarn "Red"; the yarns are "Reed", "Silt", "Kelp" (did you mean "Reed"?)'),
        ('{ kind = "mirrored", order = ["Reed", "Silt"], rows = 2, begin = "middle" }', '{ kind = "stash" }',
         'piece "pocket", stripes, kind: "stash"; stripes from the stash go over all pieces at once (write it in '
         "[stripes])"),
    ],
)  # fmt: skip
def test_bad_stripes_are_refused_in_whole_words(old: str, new: str, words: str) -> None:
    assert GOOD.count(old) == 1
    with pytest.raises(PatternError) as refused:
        pattern_file.read_text(GOOD.replace(old, new), "test.toml")
    assert [str(problem) for problem in refused.value.problems] == [words]


def test_a_stock_of_nothing() -> None:
    text = GOOD.replace("stock = 50", "stock = 0").replace("stock = 60", "stock = 0")
    with pytest.raises(PatternError) as refused:
        pattern_file.read_text(text, "test.toml")
    assert [str(problem) for problem in refused.value.problems] == [
        "stripes: a stock of nothing; at least one yarn must have grams in hand"
    ]


# ------------------------------------------------------------------------------------------- wishes for seams


def sewn(join: tuple[str, str], wish: str, stripes: Stripes, rows: tuple[int, int] = (12, 12), **more: int) -> Plan:
    """Two panels sewn along one edge, with a wish for the stripes there; ``more`` is of the second."""
    made = Pattern(
        "Test",
        (swatch(),),
        (panel("one", rows[0]), panel("two", rows[1], **more)),
        yarns=yarns(*ABC),
        stripes=stripes,
        seams=(Seam(join, wish),),  # type: ignore[arg-type]
    )
    return plan_pattern(made)


def side_by_side(plan: Plan, flipped: bool = False) -> list[tuple[str | None, str | None]]:
    """The yarns of the rows that lie side by side, laid out by hand: two panels with their right sides up meet left
    edge to right edge, row 1 to row 1; right edge to right edge one is turned, and row 1 meets the last."""
    one, two = ([row.colour for row in piece.rows] for piece in plan.pieces)
    return list(zip(one, two[::-1] if flipped else two, strict=False))


@pytest.mark.parametrize("edges", [("one.right", "two.left"), ("one.left", "two.right")])
def test_stripes_differ_at_a_seam_where_they_can(edges: tuple[str, str]) -> None:
    plan = sewn(edges, "differ", Stripes(("A", "B", "C"), (2,)))
    assert all(one != other for one, other in side_by_side(plan))
    assert plan.pattern.pieces[1].stripes_begin == 3
    assert meeting.lines(plan) == ["seam A, one to two: different yarns meet in every row (two has stripes_begin = 3)"]


def test_sixty_beginnings_are_tried_for_a_wish() -> None:
    """Row 60 is the first from which 12 rows of B follow, beside 12 of A."""
    plan = sewn(("one.right", "two.left"), "differ", Stripes(("A", "B"), (59, 59)))
    assert plan.pattern.pieces[1].stripes_begin == 60
    assert side_by_side(plan) == [("A", "B")] * 12


def test_stripes_meet_at_a_seam_of_two_right_edges() -> None:
    """Row 1 meets row 12 there, and the order comes out right where it begins a row later."""
    plan = sewn(("one.right", "two.right"), "meet", Stripes(("A", "B"), (3, 2)))
    assert all(one == other for one, other in side_by_side(plan, flipped=True))
    assert meeting.lines(plan)[0].startswith("seam A, one to two: the same yarn meets itself in every row (two has")


def test_what_the_maker_says_stays_and_rows_against_the_wish_are_named() -> None:
    moved = sewn(("one.right", "two.left"), "differ", Stripes(("A", "B", "C"), (2,)), stripes_begin=2).pattern
    assert [piece.stripes_begin for piece in moved.pieces] == [4, 2]
    first = replace(moved.pieces[0], stripes_begin=1)
    plan = plan_pattern(replace(moved, pieces=(first, moved.pieces[1])))
    assert [a == b for a, b in side_by_side(plan)] == [True, False] * 6
    assert meeting.lines(plan) == [
        "seam A, one to two: a yarn meets itself in 6 rows of 12: row 1, row 3, row 5, row 7, row 9, row 11"
    ]


SHOULDERS = """
title = "Shoulders"
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
[[yarn]]
name = "A"
colour = "#2255aa"
[[yarn]]
name = "B"
colour = "#d8a838"
[stripes]
kind = "list"
order = ["A", "B"]
rows = 1
[[piece]]
name = "front"
width = 40
length = 50
worked = "sideways"
exact_rows = 32
neck = { shoulder = 12.5, depth = 8, shape = "square" }
[[piece]]
name = "back"
width = 40
length = 50
worked = "sideways"
exact_rows = 32
faces = "front"
neck = { shoulder = 13.75, depth = 4, shape = "square" }
[[seam]]
join = ["front.shoulder", "back.shoulder"]
stripes = "meet"
"""


def test_a_longer_second_shoulder_is_counted_from_its_last_row() -> None:
    """Shoulders of 10 and of 11 rows, of 32: their outer ends lie together, row 1 at row 1 and row 32 at row 32.
    Counted from the neck, row 23 was told to meet row 22."""
    plan = plan_pattern(pattern_file.read_text(SHOULDERS, "shoulders.toml"))
    first, last = sorted(seam.pairs for seam in meeting.wished(plan))
    assert first == tuple((row, row) for row in range(1, 11))
    assert last == tuple((row, row) for row in range(23, 33))
    assert all(line.endswith("the same yarn meets itself in every row") for line in meeting.lines(plan))


def test_shoulders_of_one_row_are_counted_from_their_outer_ends() -> None:
    """Whether a side of one row goes up or down is known by its corners alone: row 1 was told to meet row 2."""
    text = SHOULDERS.replace("12.5", "1.25").replace("13.75", "2.5")
    plan = plan_pattern(pattern_file.read_text(text, "shoulders.toml"))
    first, last = sorted(seam.pairs for seam in meeting.wished(plan))
    assert (first, last) == (((1, 1),), ((32, 32),))


def test_a_wish_without_yarns_is_not_warned_of() -> None:
    plan = sewn(("one.right", "two.right"), "differ", Stripes(("A", "B")))
    bare = plan_pattern(replace(plan.pattern, yarns=(), stripes=None))
    assert meeting.wished(bare) == ()


def test_an_edge_along_a_row_meets_no_stripes() -> None:
    plan = sewn(("one.last", "two.first"), "meet", Stripes(("A", "B")))
    assert meeting.lines(plan) == ["seam A, one to two: no row ends lie side by side there, so stripes cannot meet"]
    assert plan.pattern.pieces[1].stripes_begin is None


def test_the_sides_of_one_piece_always_meet() -> None:
    made = sewn(("one.left", "one.right"), "meet", Stripes(("A", "B")))
    assert meeting.lines(made) == ["seam A, one to one: the same yarn meets itself in every row"]
    differ = sewn(("one.left", "one.right"), "differ", Stripes(("A", "B")))
    assert meeting.lines(differ) == ["seam A, one to one: a yarn meets itself in 12 rows of 12: rows 1 to 12"]


def test_without_a_wish_nothing_is_moved_or_told() -> None:
    plan = sewn(("one.right", "two.left"), "differ", Stripes(("A", "B")))
    bare = plan_pattern(replace(plan.pattern, seams=(Seam(("one.right", "two.left")),)))
    assert meeting.lines(bare) == []


@pytest.mark.parametrize("progress", [0, 3])
def test_stripes_from_the_stash_differ_at_a_seam(progress: int) -> None:
    stocked = tuple(replace(one, stock=Fraction(300), metres_per_100g=Fraction(250)) for one in yarns(*ABC))
    weighed = replace(swatch(), weight=Fraction(20))
    plan = sewn(("one.right", "two.left"), "differ", Stripes(kind="list"))
    pattern = replace(plan.pattern, yarns=stocked, swatches=(weighed,), stripes=Stripes(kind="stash"))
    pattern = replace(pattern, pieces=tuple(replace(piece, stripes_begin=None) for piece in pattern.pieces))
    if progress:
        pattern = replace(pattern, progress=(Progress("one", progress, Fraction(progress)),))
    done = plan_pattern(pattern)
    assert all(one != other for one, other in side_by_side(done))
    assert meeting.lines(done)[0].startswith("seam A, one to two: different yarns meet in every row")


@pytest.mark.parametrize(
    ("yarns", "count", "rows", "more", "told"),
    [
        (2, 2, 2500, False, None),  # 2 × 2500 rows × 2 yarns: 10,000
        (2, 2, 2501, False, "5002 rows and 2 yarns"),
        (2, 2, 2501, True, "5002 rows or more and 2 yarns"),
        (40, 1, 250, False, None),
        (41, 1, 2, False, "41 yarns"),
        (41, 1, 2500, False, "41 yarns"),
    ],
)
def test_how_much_is_shared_out_from_a_stash(yarns: int, count: int, rows: int, more: bool, told: str | None) -> None:
    """Rows of all copies times yarns, and yarns alone. A piece in stripes of another kind is not counted."""
    stash = tuple(Yarn(f"Yarn {nth}", "#777777", stock=Fraction(50)) for nth in range(yarns))
    pieces = (Piece("one", count=count), Piece("two", stripes=Stripes(("Yarn 0",))))
    pattern = Pattern("Test", (swatch(),), pieces, yarns=stash, stripes=Stripes(kind="stash"))
    found = [one.found for one in too_much_for_a_stash(pattern, {"one": rows, "two": 9000}, more)]
    assert found == ([told] if told else [])
    named = replace(pattern, stripes=Stripes(("Yarn 0", "Yarn 1", "Yarn 0"), kind="stash"))
    fits = rows * count * 2 <= 10_000
    assert bool([*too_much_for_a_stash(named, {"one": rows, "two": 9000}, more)]) is not fits


@pytest.mark.parametrize(
    ("one", "other", "pairs"),
    [
        ((1, 6), (1, 4), [(1, 1), (2, 2), (3, 3), (4, 4)]),
        ((2, 6), (1, 4), [(3, 1), (4, 2), (5, 3), (6, 4)]),  # it takes the last row, and not the first
        ((3, 6), (1, 4), [(3, 1), (4, 2), (5, 3), (6, 4)]),
        ((2, 5), (1, 3), [(2, 1), (3, 2), (4, 3)]),
        ((1, 3), (6, 4), [(1, 6), (2, 5), (3, 4)]),
        ((1, 6), None, []),
        (None, (1, 6), []),
    ],
)
def test_rows_at_a_seam_are_counted_from_the_end_that_it_takes(
    one: tuple[int, int] | None, other: tuple[int, int] | None, pairs: list[tuple[int, int]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    """Of a piece of six rows, to another."""
    monkeypatch.setattr(meeting.seam_words, "rows_met", lambda seam: (one, other))
    sides = (SimpleNamespace(piece=SimpleNamespace(name=name, row_count=6)) for name in ("one", "other"))
    seam = SimpleNamespace(**dict(zip(("one", "other"), sides, strict=True)), letter="A", stripes="meet")
    assert meeting._seam_rows(seam).pairs == tuple(pairs)  # type: ignore[arg-type]
