"""The tree of instructions: the rules of the lattice (DEVELOPERS.md), written out by hand, move by move."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise, product

import pytest

from test_words import case_of, made_row
from turnchain.fabric import stitches as counted
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.fabric.stitches import Counts
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.wording import words
from turnchain.wording.instructions.grouping import RowStripe as Band
from turnchain.wording.instructions.grouping import StripeOrder, grouped, stripe_order
from turnchain.wording.instructions.one_piece import of_piece, of_row
from turnchain.wording.instructions.rows import RowBlock, RowInstructions, Shaping, fabric_side
from turnchain.wording.instructions.steps import Chain, Join, Leave, Space, Turn
from turnchain.wording.languages.language import Speech
from turnchain.wording.naming import naming_of
from turnchain.wording.row_phrases import row_said
from turnchain.wording.tables import LANGUAGES

SWATCH = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))


def piece_of(fabric: Fabric, phase: int, *edges: tuple[int, int]) -> PiecePlan:
    """A piece whose rows stand between ``edges``, from row 1."""
    rows = []
    for number, at in enumerate(edges, 1):
        rows.append(made_row(fabric, phase, number, at, rows[-1] if rows else None))
    first = rows[0]
    kinds = (first.edge(first.starts).kind, first.edge(first.ends).kind)
    chains = counted.foundation(recipe_of(fabric), first.clusters, *kinds)
    model = case_of("heron_top").pieces[0]
    return replace(model, recipe=recipe_of(fabric), phase=phase, foundation_chain=chains, rows=tuple(rows))


def steps_of(fabric: Fabric, phase: int, *edges: tuple[int, int]) -> str:
    """The words of the last row's steps."""
    piece = piece_of(fabric, phase, *edges)
    said = words.row_words(piece, piece.rows[-1], "US")
    return re.split(r"\. \d+ cl \(", said.split(": ", 1)[1])[0]


# How each edge is worked, by the rules of the lattice. Row 2 starts at the left. Row 1 stands between 0 and the second
# number; with phase 0 the left edge is flush at 0 (0 + 1 is odd), with phase 1 spaced.
OPEN = [
    # name, phase, right edge of row 1, row 2, words: the start's moves first, then the end's
    ("straight, flush below", 0, 6, (0, 6), "Ch 4, turn, skip first cl, cl in next sp, ch 1, cl in next sp, ch 1, "
     "skip last cl, dc in 3rd ch of tch"),
    ("straight, spaced below", 1, 6, (0, 6), "Ch 3, turn, cl in first sp, [ch 1, cl in next sp] 2 times, "
     "dc in 3rd ch of tch"),
    ("decrease, flush below", 0, 6, (1, 5), "Ch 3, turn, skip first cl, cl in next sp, ch 1, cl in next sp, "
     "dc in last dc of last cl, leave tch unworked"),
    ("increase, spaced below", 1, 6, (-1, 7), "Ch 4, turn, cl in first sp, [ch 1, cl in next sp] 2 times, ch 1, "
     "dc in 3rd ch of tch"),
    ("forced decrease, spaced below", 1, 10, (1, 9), "Turn, sl st in first sp, ch 4, cl in next sp, "
     "[ch 1, cl in next sp] 2 times, ch 1, dc in next sp, leave tch unworked"),
    ("forced increase, flush below", 0, 6, (-1, 7), "Ch 3, turn, cl in base of tch, ch 1, skip first cl, "
     "cl in next sp, ch 1, cl in next sp, ch 1, skip last cl, (cl, dc) in 3rd ch of tch"),
    ("step in of 2 pitches, flush below", 0, 14, (4, 10), "Turn, skip edge st, sl st in each of next 7 st, "
     "sl st in next sp, ch 4, "
     "cl in next sp, ch 1, cl in next sp, ch 1, dc in next sp, leave last 2 cl unworked"),
    ("step in of 2 pitches, spaced below", 1, 14, (4, 10), "Turn, skip edge st, sl st in each of next 7 st, "
     "ch 3, cl in next sp, "
     "[ch 1, cl in next sp] 2 times, dc in 2nd dc of next cl, leave last 1 cl unworked"),
    ("step out of 2 pitches, spaced below", 1, 6, (-4, 6), "Ch 11 (last 3 ch are tch), turn, dc in 5th ch from hook"
     ", dc in each of next 2 ch, ch 1, skip 1 ch, dc in each of next 3 ch, ch 1, cl in first sp, "
     "[ch 1, cl in next sp] 2 times, dc in 3rd ch of tch"),
    ("step out of 2 pitches, flush below", 0, 6, (-4, 6), "Ch 12 (last 4 ch are tch), turn, dc in 7th ch from hook"
     ", dc in each of next 2 ch, ch 1, skip 3 ch, cl in edge st, ch 1, skip first cl, cl in next sp, "
     "ch 1, cl in next sp, ch 1, skip last cl, dc in 3rd ch of tch"),
    ("step out of 1 pitch, flush below", 0, 6, (-2, 6), "Ch 8 (last 4 ch are tch), turn, skip 8 ch, "
     "cl in edge st, ch 1, skip first cl, "
     "cl in next sp, ch 1, cl in next sp, ch 1, skip last cl, dc in 3rd ch of tch"),
]  # fmt: skip
CLOSED = [
    ("straight, flush below", 0, 6, (0, 6), "Ch 3, turn, dc in base of tch, skip first cl, cl in each of next 2 sp, "
     "skip last cl, 2 dc in 3rd ch of tch"),
    ("straight, spaced below", 1, 6, (0, 6), "Ch 3, turn, cl in first sp, cl in each of next 2 sp, "
     "dc in 3rd ch of tch"),
    ("decrease, flush below", 0, 6, (1, 5), "Ch 3, turn, skip first cl, cl in each of next 2 sp, "
     "dc in last dc of last cl, leave tch unworked"),
    ("increase, spaced below", 1, 6, (-1, 7), "Ch 3, turn, dc in base of tch, cl in first sp, cl in each of next 2 sp, "
     "2 dc in 3rd ch of tch"),
    ("forced decrease, spaced below", 1, 10, (1, 9), "Turn, sl st in first sp, ch 3, dc in base of tch, "
     "cl in each of next 3 sp, 2 dc in next sp, leave rest of row unworked"),
    ("forced increase, flush below", 0, 6, (-1, 7), "Ch 3, turn, cl in base of tch, skip first cl, "
     "cl in each of next 2 sp, skip last cl, (cl, dc) in 3rd ch of tch"),
    ("step in of 2 pitches, flush below", 0, 14, (4, 10), "Turn, skip edge st, sl st in each of next 6 st, "
     "sl st in next sp, ch 3, "
     "dc in base of tch, cl in each of next 2 sp, 2 dc in next sp, leave last 2 cl unworked"),
    ("step in of 2 pitches, spaced below", 1, 14, (4, 10), "Turn, skip edge st, sl st in each of next 6 st, ch 3, "
     "cl in each of next 3 sp, dc in 2nd dc of next cl, leave last 1 cl unworked"),
    ("step out of 2 pitches, spaced below", 1, 6, (-4, 6), "Ch 10 (last 3 ch are tch), turn, dc in 5th ch from hook"
     ", dc in each of next 2 ch, dc in each of next 3 ch, cl in first sp, cl in each of next 2 sp, "
     "dc in 3rd ch of tch"),
    ("step out of 2 pitches, flush below", 0, 6, (-4, 6), "Ch 9 (last 3 ch are tch), turn, dc in 5th ch from hook"
     ", dc in each of next 3 ch, skip 1 ch, cl in edge st, skip first cl, cl in each of next 2 sp, "
     "skip last cl, 2 dc in 3rd ch of tch"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "phase", "right", "then", "said"), OPEN)
def test_edges_of_the_open_fabric(name: str, phase: int, right: int, then: tuple[int, int], said: str) -> None:
    assert steps_of(Fabric(3, 1), phase, (0, right), then) == said


@pytest.mark.parametrize(("name", "phase", "right", "then", "said"), CLOSED)
def test_edges_of_the_closed_fabric(name: str, phase: int, right: int, then: tuple[int, int], said: str) -> None:
    assert steps_of(Fabric(3, 0), phase, (0, right), then) == said


FIRST = [
    # fabric, phase, right edge: "from the hook: flush start 5; spaced start 7 open and 6 closed"; row 1 starts right
    (Fabric(3, 1), 0, 4, "Dc in 5th ch from hook, dc in each of next 2 ch, ch 1, skip 1 ch, "
     "dc in each of next 3 ch, dc in last ch"),
    (Fabric(3, 1), 1, 4, "Dc in 7th ch from hook, dc in each of next 2 ch, ch 1, skip 1 ch, "
     "dc in last ch"),
    (Fabric(3, 0), 1, 6, "Dc in 5th ch from hook, [dc in each of next 3 ch] 2 times, "
     "dc in next ch, dc in last ch"),
    (Fabric(2, 1), 0, 4, "Dc in 5th ch from hook, dc in next ch, ch 1, skip 1 ch, "
     "dc in each of next 2 ch, dc in last ch"),
    (Fabric(5, 0), 0, 2, "Dc in 5th ch from hook, dc in each of next 4 ch, dc in last ch"),
]  # fmt: skip


@pytest.mark.parametrize(("fabric", "phase", "right", "said"), FIRST)
def test_first_rows(fabric: Fabric, phase: int, right: int, said: str) -> None:
    assert steps_of(fabric, phase, (0, right)) == said


@pytest.mark.parametrize(("k", "start", "end"), [(2, 1, "2nd"), (3, 2, "2nd"), (4, 2, "3rd"), (5, 3, "3rd")])
def test_the_outer_of_two_middle_dc(k: int, start: int, end: str) -> None:
    """A post on a cluster stands on its middle dc; of an even cluster on the one nearer to the edge."""
    said = steps_of(Fabric(k, 1), 1, (0, 14), (2, 12))
    assert said.startswith(f"Turn, skip edge st, sl st in each of next {1 + start} st, ch 3, cl in next sp")
    assert f"dc in {end} dc of next cl, leave rest of row unworked" in said


def test_a_one_cluster_row_that_grows_out_of_turn_passes_its_cluster_once() -> None:
    said = steps_of(Fabric(3, 1), 0, (0, 2), (-1, 3))
    assert said == "Ch 3, turn, cl in base of tch, ch 1, skip next cl, (cl, dc) in 3rd ch of tch"


# --------------------------------------------------------------------------------------------------- sections


def split_piece(width: int, shape: str = "square", fabric: Fabric | None = None, row_plan: str = "auto") -> PiecePlan:
    neck = Neck(Fraction(12), Fraction(6), shape)  # type: ignore[arg-type]
    piece = Piece("one", width=Fraction(width), length=Fraction(24), neck=neck, row_plan=row_plan)  # type: ignore[arg-type]
    yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
    pattern = Pattern("t", (SWATCH,), (piece,), fabric or Fabric(), yarns, Stripes(("Reed", "Silt"), (2, 1)))
    return plan_pattern(pattern).pieces[0]


def test_a_divided_piece_is_worked_to_the_gap_and_joined_beyond_it() -> None:
    piece = split_piece(40)
    told = of_piece(piece)
    assert [(one.name, one.after, one.joined) for one in told.sections] == [
        ("body", None, False), ("first shoulder", 18, False), ("second shoulder", 18, True),
    ]  # fmt: skip
    first, second = (one.first for one in told.sections[1:])
    assert first.number == second.number == 19
    assert first.side == second.side == "RS"
    assert first.steps[-1] == Leave("rest")
    assert second.steps[0] == Join("first shoulder", 8, Space("next"), "Reed")
    assert Turn() not in second.steps
    ends = [row for row in told.rows() if row.fasten_off]
    assert [(row.section, row.number) for row in ends] == [("first shoulder", 24), ("second shoulder", 24)]


def test_the_yarn_is_changed_before_what_a_row_leaves_unworked() -> None:
    piece = split_piece(40)
    speech = Speech(LANGUAGES["US"], naming=naming_of(piece.recipe))
    last = next(row for row in of_piece(piece).rows() if row.steps[-1] == Leave("rest"))
    *worked, left = row_said(speech, replace(last, change_to=None), striped=True).steps.split(", ")
    *still, change, at_last = row_said(speech, replace(last, change_to="Silt"), striped=True).steps.split(", ")
    assert (still, at_last) == (worked, left)
    assert "Silt" in change


@pytest.mark.quick(0)
def test_clusters_between_two_sections() -> None:
    """Whole clusters left between, d apart: gap and gap d / 2, cluster and cluster d / 2 - 1, mixed (d - 1) / 2."""
    seen = set()
    for fabric, row_plan in product((Fabric(3, 1), Fabric(4, 0)), ("auto", "alike")):
        for width, shape in product((24, 31, 40, 47), ("slant", "square", "vee", "round")):
            piece = split_piece(width, shape, fabric, row_plan)
            second = next((row for row in piece.rows if row.joined), None)
            if second is not None:
                seen.add(checked_join(piece, second))
    assert len(seen) == 3


def checked_join(piece: PiecePlan, second: Row) -> str:
    """Compares the join of row ``second`` with the rule; the kinds of the two edges."""
    first = next(row for row in piece.rows if row.section == "first shoulder")
    d = abs(second.edge(second.starts).at - first.edge(first.ends).at)
    kinds = " ".join(sorted((first.edge(first.ends).kind, second.edge(second.starts).kind)))
    wanted = {"flush flush": d // 2 - 1, "spaced spaced": d // 2, "flush spaced": (d - 1) // 2}
    join = of_row(piece, second).steps[0]
    assert isinstance(join, Join)
    assert join.skipped == max(0, wanted[kinds])
    assert (join.place.which == "same") == (d == 0)
    return kinds


# --------------------------------------------------------------------------------------------------- grouping


def row(number: int, clusters: int, colour: str | None = None, change: str | None = None) -> RowInstructions:
    """A row whose words are its clusters."""
    side = fabric_side(number)
    counts = Counts(clusters, 0, 0)
    steps = (Chain(clusters),)
    return RowInstructions(number, "body", side, colour, steps, clusters, counts, (), change, False)


def told(clusters: str) -> list[str]:
    """The blocks of rows with these clusters, as numbers: "2-4" in the same words, "5-8=3,4" again."""
    rows = tuple(row(number, int(one)) for number, one in enumerate(clusters, 1))
    blocks = list(grouped(rows))
    assert tuple(one for block in blocks for one in block.rows) == rows
    return [said(block) for block in blocks]


def said(block: RowBlock) -> str:
    first, last = block.rows[0].number, block.rows[-1].number
    rows = f"{first}" if first == last else f"{first}-{last}"
    return f"{rows}={','.join(str(one.number) for one in block.models)}" if block.models else rows


def test_rows_are_grouped_as_a_person_would() -> None:
    assert told("1") == ["1"]
    assert told("12222") == ["1", "2-5"]
    assert told("1232323") == ["1", "2", "3", "4-7=2,3"]
    assert told("12323232") == ["1", "2", "3", "4-8=2,3"]
    assert told("12323") == ["1", "2", "3", "4", "5"], "one more repeat is shorter told in full"
    assert told("1234512345") == [str(one) for one in range(1, 11)], "five rows are too many to keep in mind"
    assert told("112233") == ["1-2", "3-4", "5-6"]
    assert told("123412341234") == ["1", "2", "3", "4", "5-12=1,2,3,4"]


def test_rows_that_differ_in_their_count_alone_are_not_grouped() -> None:
    one, other = row(2, 5), replace(row(3, 5), counts=Counts(6, 0, 0))
    assert not one.same_words(other)
    assert not one.same_words(replace(row(3, 5), shaping=(Shaping("end", 1),)))
    assert one.same_words(replace(row(3, 5), colour="Reed"))


def stripes_of(colours: str, first: int = 1, after: str | None = None) -> StripeOrder:
    rows = [row(number, 1, colour) for number, colour in enumerate(colours, first)]
    rows = [replace(a, change_to=b.colour if a.colour != b.colour else None) for a, b in pairwise(rows)] + rows[-1:]
    rows[-1] = replace(rows[-1], change_to=after)
    return stripe_order(tuple(rows))


def test_few_stripes_are_all_told() -> None:
    order = stripes_of("AABBA", 3, "B")
    assert order.lead == (Band("A", 3, 4), Band("B", 5, 6), Band("A", 7, 7))
    assert (order.cycle, order.after) == ((), "B")


def test_many_stripes_are_told_as_a_repeat_counted_from_row_one() -> None:
    order = stripes_of("B" + "ABB" * 10, 3)  # row 1 is an A, and so is row 4
    assert order.lead == (Band("B", 3, 3),)
    assert order.cycle == (Band("A", 4, 4), Band("B", 5, 6))
    assert (order.begins[0], order.begins[-1], order.last) == (4, 31, 33)


def test_many_stripes_without_a_repeat_are_all_told() -> None:
    order = stripes_of("ABACBCABCACBABCBACBA" + "B" * 7)
    assert not order.cycle
    assert sum(band.height for band in order.lead) == 27


def test_rows_of_several_kinds_may_come_again_in_longer_turns() -> None:
    """Up to eight of them, of one kind up to four."""
    for clusters, mixed, expected in (
        ("12345678" * 3, True, [*map(str, range(1, 9)), "9-24=1,2,3,4,5,6,7,8"]),
        ("12345678" * 3, False, [*map(str, range(1, 25))]),
        ("123456789" * 3, True, [*map(str, range(1, 28))]),
        ("1234" * 3, False, ["1", "2", "3", "4", "5-12=1,2,3,4"]),
        ("12345" * 3, False, [*map(str, range(1, 16))]),
        ("1112" * 4, False, ["1", "2", "3", "4", "5-16=1,2,3,4"]),
        ("121212", False, ["1", "2", "3-6=1,2"]),
        ("12121", False, ["1", "2", "3", "4", "5"]),
    ):
        rows = tuple(row(number, int(one)) for number, one in enumerate(clusters, 1))
        if mixed:
            rows = tuple(replace(one, kind="sc") if one.clusters == 3 else one for one in rows)
        assert [said(block) for block in grouped(rows)] == expected


@pytest.mark.parametrize(
    ("colours", "first", "lead", "cycle", "begins"),
    [
        ("AB" * 6, 1, 12, 0, ()),  # twelve stripes can be read one by one
        ("AB" * 6 + "A", 1, 0, 2, (1, 3, 5, 7, 9, 11, 13)),
        ("AB" * 7, 4, 1, 2, (5, 7, 9, 11, 13, 15, 17)),  # counted from row 1 the pairs begin in odd rows
        ("ABABABABABAC" * 2 + "AB", 1, 0, 12, (1, 13, 25)),
        ("ABABABABABACB" * 2, 1, 26, 0, ()),  # twice is not over and over
        ("AB" + "ACB" * 6, 5, 2, 3, (7, 10, 13, 16, 19, 22)),
        ("C" + "AB" * 7, 1, 15, 0, ()),  # not the whole of it comes again, counted from row 1
    ],
)
def test_stripes_over_and_over_by_hand(
    colours: str, first: int, lead: int, cycle: int, begins: tuple[int, ...]
) -> None:
    """How many stripes are told before the turns, how many in one, and the rows in which a turn begins."""
    order = stripes_of(colours, first)
    assert (len(order.lead), len(order.cycle), order.begins) == (lead, cycle, begins)
    assert order.last == first + len(colours) - 1
    bands = order.lead + order.cycle
    assert [(two.first - one.last) for one, two in pairwise(bands)] == [1] * (len(bands) - 1)
    for band in bands:
        assert {colours[number - first] for number in range(band.first, band.last + 1)} == {band.colour}


# ------------------------------------------------------------------------------------------ published examples


def counts_in(text: str) -> list[tuple[int, int]]:
    """Clusters, and dc with the turning chain counted as one, of every row told."""
    return [(int(a), int(b) + 1) for a, b in re.findall(r"(\d+) cl \((\d+) dc", text)]


def test_the_granny_stripe_of_a_published_leaflet() -> None:
    """UK leaflet "Granny Stripes Crochet Blanket" (Scribd 787932060): rows alternate 2, 45 clusters of 3, 2
    (139) and 1, 46 clusters, 1 (140)."""
    piece = piece_of(Fabric(3, 0), 1, *[(0, 92)] * 4)
    text = words.piece_text(piece, "US")
    assert set(counts_in(text)) == {(45, 139), (46, 140)}
    assert "ch 142 (a multiple of 3 plus 7" in text  # 139 and the turning chain's 3


def test_a_published_chain_is_one_shorter_than_ours() -> None:
    """Open fabric, skip 3: chain 99 = 4 x 24 + 3 (crochet2in1.com). Ours is 100, since the post
    has a chain of its own, and the text says so."""
    piece = piece_of(Fabric(3, 1), 0, (0, 48), (0, 48))
    assert "ch 100 (a multiple of 4 plus 4: 24 × 4 + 4)" in words.piece_text(piece, "US")
    plan = replace(case_of("heron_top"), pieces=(piece,))
    assert "begins with 1 ch fewer" in words.pattern_text(plan, "US")


def test_a_published_bandana() -> None:
    """Row r has r clusters; 19 rows hold 190 clusters, 570 dc (thelittletreasures, a bandana pattern, 2024)."""
    piece = piece_of(Fabric(3, 1), 1, *[(-r, 4 + r) for r in range(19)])
    counts = counts_in(words.piece_text(piece, "US"))
    assert [clusters for clusters, _ in counts] == list(range(1, 20))
    assert sum(clusters for clusters, _ in counts) == 190
    assert sum(stitches - 2 for _, stitches in counts) == 570
