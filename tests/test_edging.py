"""Edgings: borders that are planned, counted row by row, told, and worked again along the cloth.

Sources: along edges and in corners a published answer on a piece 74 dc wide (knittinghelp forum, thread 55500: 2 sc to
a row end, 1 to every stitch and chain, 3 in a corner); 5 dc in the corner of a dc border (engineeredcrochet.
blogspot.com, 2013-12); 3 dc (UK tr) to two dc row ends (sharky-knows); even spreading: "Knitting and the Magic
Formula", an article. Inner corners and bends: from memory, so only sums are tested there.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from math import ceil, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from test_garments_sewn import garments
from turnchain import style
from turnchain.drawing import chart
from turnchain.drawing.looks import Hand, Look
from turnchain.errors import MakerError, PatternError
from turnchain.fabric.plan import Plan
from turnchain.garment import finishing
from turnchain.garment.edging import bends, planned, ties
from turnchain.garment.edging.bends import Bend
from turnchain.garment.edging.planned import PlannedEdging
from turnchain.garment.edging.spreading import gaps, spread
from turnchain.garment.edging.turning import Turn
from turnchain.pages import report
from turnchain.planning.planner import plan_pattern
from turnchain.proof import asking, figures, proving, worked_cloths
from turnchain.proof.compared import edgings
from turnchain.proof.compared.edged_rows import EdgedRow
from turnchain.proof.held import Held
from turnchain.proof.printed import pattern as written
from turnchain.proof.printed.edging.reader import EdgingReader, SaidPhrase
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.scene import Group, Path, Text
from turnchain.wording import words
from turnchain.wording.tables import LANGUAGES, told_in
from turnchain.yarns import figures as yarn

HEAD = """
title = "Sandbar"
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
weight = 12
weighed = [10, 10]
[[yarn]]
name = "Marram"
colour = "#8a9a6a"
"""
BLANKET = HEAD + '[[piece]]\nname = "blanket"\nwidth = 40\nlength = 30\n[[edging]]\nrows = 3\n'


def plan_of(text: str) -> Plan:
    return plan_pattern(read_text(text, "x.toml"))


def held(plan: Plan, **other: str) -> list[str]:
    rows = proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth
    return figures.hold(plan, rows, replace(figures.printed(plan, {}), **other)).reasons


def only(plan: Plan) -> PlannedEdging:
    (one,) = planned.of(plan)
    return one


# -------------------------------------------------------------------------------------------------- even spreading


def test_changes_are_spread_as_published() -> None:
    """36 changes over 140 rows: every 3rd 4 times, every 4th 32 times; every 3rd 36 times is the wrong answer."""
    assert gaps(36, 140) == ((3, 4), (4, 32))


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 3000), st.integers(1, 900))
def test_whatever_is_spread_comes_to_its_sum(stitches: int, places: int) -> None:
    even = spread(stitches, places)
    assert even.stitches == stitches
    assert 2 * even.changes <= places
    assert sum(every * times for every, times in even.gaps) in (0, places)


# ----------------------------------------------------------------------------------------------------- the counts


def test_a_piece_74_dc_wide_has_the_published_border() -> None:
    """In the closed fabric, 73 chains and 74 dc; 10 rows, as in ``test_finishing``: 2 to a row end, 3 in a corner."""
    piece = "[[piece]]\nname = \"square\"\nwidth = 48\nlength = 10\nrow_plan = \"alternate\"\n[[edging]]\n"
    swatch = "title = \"x\"\n[swatch]\nclusters = 5\nwidth = 10\nrows = 10\nheight = 10\n[fabric]\ngap = 0\n"
    one = only(plan_of(swatch + piece))
    assert [part.stitches for part in one.parts] == [73 - 2, 20, 74 - 2, 20]
    assert one.corners("outer") == 4
    assert one.counts == (71 + 20 + 72 + 20 + 4 * 3,)


def test_every_round_has_two_more_at_a_corner() -> None:
    """16 clusters of 4 and an edge with a gap: 66 chains, as many stitches; 24 rows; 3 in a corner and then 3 in its
    middle one."""
    one = only(plan_of(BLANKET))
    assert one.closed
    assert [part.stitches for part in one.parts] == [64, 48, 64, 48]
    assert one.counts == (64 + 48 + 64 + 48 + 12, 244, 252)


def test_a_dc_border_has_five_in_a_corner_and_three_to_two_rows() -> None:
    one = only(plan_of(BLANKET.replace("rows = 3\n", 'rows = 2\nstitch = "dc"\n')))
    assert [part.stitches for part in one.parts] == [64, 36, 64, 36]
    assert one.counts == (200 + 4 * 5, 200 + 4 * 9)


@pytest.mark.parametrize(("fabric", "stitch", "to_rows", "rows"), [
    ("solid-dc", "sc", 2, 1),  # knittinghelp forum, thread 55500: 2 sc to a row of dc
    ("solid-dc", "dc", 3, 2),  # sharky-knows: 3 UK tr to two row ends of UK tr
    ("solid-sc", "hdc", 1, 1),  # crochetspot.com, "Crochet Evenly Around": 1 hdc to a row of sc
])  # fmt: skip
def test_rates_along_row_ends_are_the_published_ones(fabric: str, stitch: str, to_rows: int, rows: int) -> None:
    swatch = f'title = "x"\n[swatch]\nclusters = 16\nwidth = 10\nrows = 10\nheight = 10\n[fabric]\nkind = "{fabric}"\n'
    piece = '[[piece]]\nname = "square"\nwidth = 20\nlength = 12\n[[edging]]\nedges = "square.left"\n'
    plan = plan_of(f'{swatch}{piece}stitch = "{stitch}"\n')
    one = only(plan)
    assert held(plan) == []
    (met,) = one.parts[0].places
    assert met.what == "row end"
    assert met.even.stitches * rows == met.even.places * to_rows


@pytest.mark.parametrize(("stitch", "corner"), [
    ("sc", 3),  # knittinghelp forum, thread 55500; engineeredcrochet.blogspot.com, 2013-12
    ("dc", 5),  # engineeredcrochet.blogspot.com, 2013-12
])  # fmt: skip
def test_corners_are_the_published_ones(stitch: str, corner: int) -> None:
    """As told: so many into every corner of a piece that is edged all round, and again in its middle one."""
    text = finishing.text(plan_of(BLANKET.replace("rows = 3", f'rows = 2\nstitch = "{stitch}"')))
    assert text.count(f"; {corner} in the corner") == 4
    assert f"{corner} in the middle one of each of 4 corners" in text


@pytest.mark.parametrize(("stitches", "more", "segment"), [
    (110, 10, 11),  # by the rule of segments in the round: 10 of 11; in rows 11 of 10 is its other half
    (40, 4, 10),  # the same; "Crocheting For Dummies" has 5 segments of 8 in a row, which end with none
])  # fmt: skip
def test_changes_all_round_part_it_into_as_many_segments(stitches: int, more: int, segment: int) -> None:
    """m changes in a round make m segments, alike where they come out."""
    even = spread(stitches + more, stitches)
    assert (even.each, even.more, even.gaps) == (1, 1, ((segment, more),))


def test_yarn_follows_length_and_rows() -> None:
    """142.5 cm round, 3 rows of 0.625 cm, 8 and 16 stitches of 0.625 cm more; 0.12 g to a square cm and 15 % over."""
    plan = plan_of(BLANKET)
    one = only(plan)
    area = (142.5 * 3 + 24 * 0.625) * 0.625
    assert float(one.area) == pytest.approx(area)
    assert f"yarn for the edgings: about {-(-area * 0.12 * 1.15 // 1):.0f} g of Marram" in finishing.text(plan)


def test_what_is_bought_includes_the_edging() -> None:
    """1.15 times what the fabric and its two tails weigh, and the edging with the same margin; of what is kept back
    for a border the edging is a part, where it is no more."""
    with_edging, kept, more = (
        yarn.figures(plan_of(text)).need("Marram")
        for text in (BLANKET, BLANKET.replace('"#8a9a6a"', '"#8a9a6a"\nkeep = 10'),
                     BLANKET.replace('"#8a9a6a"', '"#8a9a6a"\nkeep = 50'))
    )  # fmt: skip
    fabric = (with_edging.fabric + with_edging.tails) * Fraction(115, 100)
    grams = (Fraction("142.5") * 3 + 24 * Fraction("0.625")) * Fraction("0.625") * Fraction("0.12") * Fraction("1.15")
    assert with_edging.needed == fabric + grams
    assert (kept.needed, more.needed) == (with_edging.needed, fabric + 50)
    plan = plan_of(BLANKET)
    assert f"{ceil(grams)} g for the edging: {ceil(fabric + grams)} g" in report.report(plan)
    assert held(plan) == []


def test_a_yarn_of_the_edging_alone_is_bought() -> None:
    second = '[[yarn]]\nname = "Samphire"\ncolour = "#3a5a3a"\nmetres_per_100g = 200\nball = 50\n'
    striped = f'{second}[stripes]\norder = ["Marram"]\n[[piece]]'
    plan = plan_of(BLANKET.replace("[[piece]]", striped) + 'yarn = "Samphire"\n')
    need = yarn.figures(plan).need("Samphire")
    assert need.fabric == 0 < need.needed == need.edging
    assert "Samphire is in no row" not in report.report(plan)
    assert held(plan) == []


PANEL = """
[[piece]]
name = "panel"
outline = [[0, 40], [10, 40, "low"], [25, 40, "pocket"], [30, 40, "high"]]
"""
SLIPOVER = """
[[piece]]
name = "front"
width = 50
length = 52
armhole = { depth = 22, width = 6 }
neck = { shoulder = 10, depth = 10, shape = "square" }
[[piece]]
name = "back"
width = 50
length = 52
armhole = { depth = 22, width = 6 }
neck = { shoulder = 10, depth = 4, shape = "square" }
"""


def test_a_square_neck_loses_stitches_at_its_inner_corners() -> None:
    plan = plan_of(HEAD + SLIPOVER + '[[edging]]\nedges = "neck"\nrows = 3\n')
    one = only(plan)
    assert (one.corners("inner"), one.corners("outer"), one.closed) == (4, 0, True)
    along = sum(part.stitches for part in one.parts)
    assert one.counts == (along - 4, along - 12, along - 20)
    assert sum(part.bend for part in one.parts) == pytest.approx(0, abs=1e-6), "4 corners make the whole turn"


def test_a_round_neck_is_turned_in_evenly() -> None:
    """All round a hole an edge bends by a whole turn; what corners do not take of it is taken evenly."""
    plan = plan_of(HEAD + SLIPOVER.replace("square", "round") + '[[edging]]\nedges = "neck"\nrows = 4\n')
    one = only(plan)
    bend = sum(part.bend for part in one.parts)
    assert -2 * pi - 0.6 < bend - one.corners("inner") * pi / 2 < -pi
    fewer = one.counts[0] - one.counts[3] - 6 * one.corners("inner")
    assert fewer == round(-3 * bend)
    told = [bend for bend in one.bends if bend]
    assert sum(bend.more for bend in told) == -fewer
    assert all(sum(every * times for every, times in bend.gaps) == bend.free for bend in told)
    assert "spread evenly" not in finishing.text(plan)


def _said(bend: Bend) -> SaidPhrase:
    """A bend as the proof reads it."""
    where = " and ".join(f"every {every}th {times} times" for every, times in bend.gaps)
    key = "on.fewer" if bend.more < 0 else "on.more"
    words = "the middle one" if abs(bend.more) == 1 else where
    if bend.after is None:
        return SaidPhrase(key, {"where": words})
    how = f"sc2tog at {words} with the one before it" if bend.more < 0 else f"2 in {words}"
    return SaidPhrase("on.after" if bend.after else "on.before", {"how": how, "n": str(bend.after)})


@settings(max_examples=300, deadline=None)
@given(
    parts=st.lists(st.tuples(st.integers(12, 60), st.sampled_from(["", "outer", "inner"])), min_size=1, max_size=6),
    more=st.lists(st.integers(-6, 6), min_size=1, max_size=5),
    corner=st.sampled_from([3, 5]),
    closed=st.booleans(),
)
def test_bends_of_any_number_come_out(
    parts: list[tuple[int, Turn]], more: list[int], corner: int, closed: bool
) -> None:
    """Rows worked stitch by stitch from the places told have the sums of stitches, corners and bends, whatever these
    are; places are as far apart as can be."""
    if not closed:
        parts[-1] = (parts[-1][0], "")
    along, turns = [stitches for stitches, _ in parts], [turn for _, turn in parts]
    found = bends.of_rows(along, turns, corner, closed, [0, *more])
    row = EdgedRow(EdgingReader("US"), (corner - 1) // 2, closed)
    for stitches, turn in parts:
        row.along(stitches)
        if turn:
            row.corner(turn == "outer")
    row.begun()
    outer, inner = turns.count("outer"), turns.count("inner")
    count = sum(along) + corner * outer - inner
    assert len(row.stitches) == count
    for change, bend in zip(more, found[1:], strict=True):
        assert (bend is not None) == (change != 0)
        if bend is not None and not bend.fits:  # is refused
            return
        count += change + (corner - 1) * (outer - inner)
        assert (row.work([_said(bend)] if bend else []), row.wrong) == (count, "")


@pytest.mark.parametrize(
    ("along", "turns", "corner", "closed", "rows", "row"),
    [
        # in row 1 two stitches become the one in a corner: 2, corner, 3, corner, 2 are left of 3, 5 and 3
        ([3, 5, 3], ["inner", "inner", ""], 5, False, 2, 2),  # two to either side: four of the three in between
        ([3, 5, 3], ["inner", "inner", ""], 3, False, 2, None),  # one to either side: 1, corner, 1, corner, 1
        ([3, 5, 3], ["inner", "inner", ""], 3, False, 3, 3),  # and then two of the one in between
        ([3, 6, 3], ["inner", "inner", ""], 5, False, 2, None),  # four of four
        ([3, 6, 3], ["inner", "inner", ""], 5, False, 3, 3),
        ([9, 1], ["inner", ""], 3, False, 2, 2),  # nothing is left beside the corner, where the row ends
        ([9, 1], ["inner", ""], 3, True, 2, None),  # a round goes on with its own beginning
        ([1, 9], ["inner", ""], 3, True, 2, 2),  # but nothing is worked before it begins
        ([3, 5, 7], ["outer", "inner", ""], 5, False, 4, None),  # a corner outwards gives two to either side
        ([0, 0], ["outer", ""], 5, True, 9, None),
    ],
)
def test_corners_inwards_need_stitches_of_their_own(
    along: list[int], turns: list[Turn], corner: int, closed: bool, rows: int, row: int | None
) -> None:
    assert bends.without_room(along, turns, corner, closed, [0] * rows) == row


def test_corners_that_are_too_near_are_refused() -> None:
    """The least rows of double crochet that a square neck has no room for: two stitches to either side of a corner."""
    narrow = HEAD + SLIPOVER + '[[edging]]\nedges = "neck"\nstitch = "dc"\nrows = 9\n'
    with pytest.raises(MakerError, match=r"row \d: a corner inwards has too few .*at most \d rows?,") as told:
        finishing.text(plan_of(narrow))
    most = re.search(r"at most (\d)", str(told.value))
    assert most is not None
    assert held(plan_of(narrow.replace("rows = 9", f"rows = {most[1]}"))) == []


def test_a_bend_without_room_is_refused() -> None:
    with pytest.raises(MakerError, match=r"row \d+ (has no stitch|bends by \d+ stitches, which find no room)|too few"):
        finishing.text(plan_of(HEAD + SLIPOVER.replace("square", "round") + '[[edging]]\nedges = "neck"\nrows = 40\n'))


def test_what_one_edging_names_the_others_leave() -> None:
    plan = plan_of(HEAD + SLIPOVER + '[[edging]]\n[[edging]]\nedges = ["neck", "front.first"]\nrows = 2\n')
    found = planned.of(plan)
    assert [(one.kind, one.asked.rows, one.closed, one.count) for one in found] == [
        ("armhole", 1, True, 2), ("lower edge", 1, False, 1), ("neck", 2, True, 1), ("lower edge", 2, False, 1),
    ]  # fmt: skip


def test_files_without_edgings_keep_their_border() -> None:
    assert planned.of(plan_of(HEAD + SLIPOVER)) == ()
    assert "In further rounds work" in finishing.text(plan_of(HEAD + SLIPOVER))


# -------------------------------------------------------------------------------------------- words and the proof


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_tells_every_row(language: str) -> None:
    plan = told_in(plan_of(HEAD + SLIPOVER + '[[edging]]\nedges = "neck"\nrows = 3\n'), language)
    text = finishing.text(plan)
    for count in only(plan).counts:
        assert re.search(rf"\b{count}\b", text)


@pytest.mark.quick(0)
def test_the_edging_is_worked_again_from_its_words() -> None:
    plan = plan_of(HEAD + SLIPOVER + '[[edging]]\nedges = "neck"\nrows = 4\n[[edging]]\n')
    assert held(plan) == []


#: What makes an edging, one of each.
OF_ALL_SORTS = {
    "all round": BLANKET,
    "a neck": HEAD + SLIPOVER + '[[edging]]\nedges = "neck"\nrows = 3\n',
    "a part": HEAD + PANEL + '[[edging]]\nedges = "panel.pocket"\nrows = 4\nbuttonholes = 2\ntie = 20\n',
    "a strap": BLANKET + "strap = 60\n",
    "a round neck": HEAD + SLIPOVER.replace("square", "round") + '[[edging]]\nedges = "neck"\nrows = 3\n',
    "fronts that open": HEAD + """
[[piece]]
name = "back"
width = 40
length = 30
neck = { shoulder = 10, depth = 2, shape = "round" }
[[piece]]
name = "left front"
width = 40
length = 30
front = { side = "left", overlap = 2 }
neck = { shoulder = 10, depth = 8, shape = "round" }
[[piece]]
name = "right front"
mirror = "left front"
[[edging]]
edges = ["neck", "front edge"]
rows = 3
tie = 20
""",
}


@cache
def _held(sort: str) -> tuple[Plan, Held]:
    """The plan of one sort, and what the proof knows of it."""
    plan = plan_of(OF_ALL_SORTS[sort])
    rows = proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth
    return plan, figures.hold(plan, rows, replace(figures.printed(plan, {}), others={}))


@pytest.mark.quick(5)
@pytest.mark.parametrize("sort", OF_ALL_SORTS)
@pytest.mark.parametrize("language", LANGUAGES)
def test_every_figure_of_an_edging_is_looked_at(sort: str, language: str) -> None:
    """Each figure is changed in turn but how many chains turn a row, which follows from the stitch; lengths by more,
    since along a part of a row half a cluster is not known."""
    plan, held = _held(sort)
    scale = asking.weighing(plan.pattern, Fraction(1), Fraction(1))
    lines = [written.plain(line) for line in finishing.text(told_in(plan, language)).splitlines()]

    def wrong(lines: list[str]) -> list[str]:
        asked = asking.edgings(plan.pattern)
        return edgings.worked(held.cloths, held.sewn, asked, lines, [], scale, language).wrong

    assert wrong(lines) == []
    reader, missed, tried = EdgingReader(language), [], 0
    for nth, line in enumerate(lines):
        own = line.partition(". ")[0] if reader.read(line, "intro") else line if reader.is_one(line) else ""
        for found in re.finditer(r"(?<![\w#,.])\d+(?![,.]\d)", own):
            by = 9 if own[found.end() :].startswith(" cm") else 2
            changed = f"{line[: found.start()]}{int(found[0]) + by}{line[found.end() :]}"
            tried += 1
            if not wrong([*lines[:nth], changed, *lines[nth + 1 :]]):
                missed.append(changed[max(0, found.start() - 40) : found.end() + 20])
    assert missed == []
    assert tried > 10


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_stitch_of_another_name_is_found(language: str) -> None:
    """In each language: an edging in half double crochet (US) that is asked for in single."""
    plan = plan_of(BLANKET)
    other = told_in(plan_of(BLANKET.replace("rows = 3", 'rows = 3\nstitch = "hdc"')), language)
    cloths = worked_cloths.cloths(plan, proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth)
    lines = [written.plain(line) for line in finishing.text(other).splitlines()]
    scale = asking.weighing(plan.pattern, Fraction(1), Fraction(1))
    found = edgings.worked(cloths, [], asking.edgings(plan.pattern), lines, [], scale, language)
    assert any("asked for" in reason for reason in found.wrong)


CARDIGAN = HEAD + """
[[piece]]
name = "back"
width = 50
length = 52
neck = { shoulder = 15, depth = 2.5 }
[[piece]]
name = "left front"
width = 50
length = 52
neck = { shoulder = 15, depth = 20, shape = "vee" }
front = { side = "left", overlap = 2 }
[[piece]]
name = "right front"
mirror = "left front"
[[edging]]
rows = 5
"""


def test_buttonholes_are_spaced_evenly_on_the_right_front() -> None:
    """32 cm are 26 rows of 1.25 cm below the neck, 52 sc; 1.5 cm are 2 of 0.625 cm: 52 less 2 and 2 and 5 times 2 are
    38 between, twice 9 and twice 10."""
    plan = plan_of(CARDIGAN + "buttonholes = 5\n")
    line = next(line for line in finishing.text(plan).splitlines() if "buttonholes in round 3" in line)
    stitches = re.search(r"right front, front edge (\d+) sc", finishing.text(plan))
    assert stitches is not None
    assert int(stitches[1]) == 52
    between = "9 sc 2 times and 10 sc 2 times"
    assert f"along right front, front edge: 2 sc; 5 times 2 ch over 2 skipped sc, between them {between};" in line
    assert held(plan) == []


def test_an_edging_along_a_part_of_an_edge_takes_its_part() -> None:
    """15 cm are 12 rows of 1.25 cm, from the 9th on: 24 sc. The other edging takes what is left at both sides."""
    plan = plan_of(HEAD + PANEL + '[[edging]]\nedges = "panel.pocket"\nrows = 2\n[[edging]]\n')
    found = planned.of(plan)
    rows = [[part.rows and tuple(sorted(part.rows)) for part in one.parts] for one in found]
    assert rows == [[(9, 20)], [(9, 20)], [(21, 24), None, (21, 24)], [(1, 8), None, (1, 8)]]
    assert [one.counts for one in found] == [(24, 24), (24, 24), (8 + 3 + 64 + 3 + 8,), (16 + 3 + 64 + 3 + 16,)]
    assert "panel, right edge, row ends 9 to 20, 24 sc (2 in each of 12 row ends)" in finishing.text(plan)
    assert held(plan) == []


def test_ties_are_as_long_as_asked_for() -> None:
    """25 cm are 40 sc of 0.625 cm: 41 chains, the first to turn; one at either end, each a row of 0.625 cm."""
    plan = plan_of(HEAD + SLIPOVER + '[[edging]]\nedges = "front.first"\ntie = 25\n')
    one = only(plan)
    tied = ties.of(plan, one)
    assert tied is not None
    assert (tied.what, tied.count, tied.stitches, tied.length) == ("tie", 2, 40, 25)
    assert tied.area == 2 * 25 * Fraction("0.625")
    told = "41 ch, 1 sc in the 2nd ch from the hook and in each ch back to the edge: 40 sc, 25 cm long"
    assert told in finishing.text(plan)
    without = plan_of(HEAD + SLIPOVER + '[[edging]]\nedges = "front.first"\n')
    more = dict(yarn.edging_of(plan))[plan.pattern.yarns[0]] - dict(yarn.edging_of(without))[plan.pattern.yarns[0]]
    assert more == tied.area * Fraction("0.12") * Fraction("1.15")
    assert held(plan) == []


def test_ties_go_by_the_border_swatch() -> None:
    """8 sc in 5 cm: 25 cm are 40."""
    swatch = "[swatch.sc]\nstitches = 8\nwidth = 5\nrows = 12\nheight = 10\n[[yarn]]"
    plan = plan_of(HEAD.replace("[[yarn]]", swatch) + SLIPOVER + '[[edging]]\nedges = "front.first"\ntie = 25\n')
    tied = ties.of(plan, only(plan))
    assert tied is not None
    assert (tied.stitches, tied.gauge.assumed) == (40, False)
    assert held(plan) == []


def test_a_strap_goes_half_way_round() -> None:
    """Of 252 stitches in the last round, to the 127th: 126 before it."""
    plan = plan_of(BLANKET + "strap = 60\n")
    tied = ties.of(plan, only(plan))
    assert tied is not None
    assert (tied.what, tied.count, tied.stitches, tied.to) == ("strap", 1, 96, 127)
    assert held(plan) == []


def test_ties_need_ends() -> None:
    with pytest.raises(MakerError, match="edging 1: ties stand at its two ends; it goes all round"):
        finishing.text(plan_of(BLANKET + "tie = 20\n"))


def test_the_chart_has_a_band_along_every_edge() -> None:
    """Of the right front its front edge, with five buttonholes, its neck, its armhole and its lower edge: each with the
    stitches of its first row. The proof finds another count."""
    plan = plan_of(CARDIGAN + "buttonholes = 5\n")
    scene = chart.chart(plan, "right front")
    found = [item for item in scene.items if isinstance(item, Group) and item.name.startswith("edging-")]
    parts = [part for one in planned.every(plan) for part in one.parts]
    told = sorted(part.stitches for part in parts if part.piece.name == "right front")
    assert sorted(int(one.words.split()[0]) for one in found) == told
    holes = [item for one in found for item in one.items if isinstance(item, Path) and item.fill == style.LIGHT.paper]
    assert len(holes) == 5
    file = figures.svg_of(scene)
    rows = proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth
    said = figures.printed(plan, {"right front": file})
    assert figures.hold(plan, rows, said).reasons == []
    other = plan_of(CARDIGAN + 'stitch = "dc"\n')
    wrong = replace(said, charts={"right front": figures.svg_of(chart.chart(other, "right front"))})
    assert any("39 stitches of an edging stand beside" in reason for reason in figures.hold(plan, rows, wrong).reasons)


@pytest.mark.parametrize(("name", "ends"), [("left front", ["ends"]), ("right front", ["begins"]), ("back", [])])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_tie_hangs_where_its_edge_ends(name: str, ends: list[str], hand: Hand) -> None:
    """At the lower end of either front edge, its length beside it, as the words have it; of either hand."""
    plan = plan_of(OF_ALL_SORTS["fronts that open"])
    scene = chart.chart(plan, name, look=Look(hand=hand))
    bands = [item for item in scene.items if isinstance(item, Group) and item.name.startswith("edging-")]
    found = [item for item in bands if item.words == "tie, 20 cm"]
    assert [item.name.rpartition("-")[2] for item in found] == ends
    for item in found:
        front = max((one for one in bands if one.name.count("-") == 1), key=_height)
        (said,) = [one for one in item.items if isinstance(one, Text)]
        assert said.words == "tie, 20 cm"
        tie, band = _box(item), _box(front)
        assert abs(tie[3] - band[3]) < (band[3] - band[1]) / 20, "at the foot of the front edge"
        assert tie[2] <= band[0] + 1 or tie[0] >= band[2] - 1, "outside it"


def _box(group: Group) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of all paths in a group."""
    places = [
        place for item in group.items if isinstance(item, Path)
        for step in item.steps for place in zip(step[1::2], step[2::2], strict=True)
    ]  # fmt: skip
    xs, ys = zip(*places, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _height(group: Group) -> float:
    box = _box(group)
    return box[3] - box[1]


def test_ties_on_a_chart_are_held_against_the_words() -> None:
    """Of another length, left out, or in no key: the proof sees each."""
    plan = plan_of(OF_ALL_SORTS["fronts that open"])
    rows = proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth
    file = figures.svg_of(chart.chart(plan, "left front"))
    said = figures.printed(plan, {"left front": file})
    assert figures.hold(plan, rows, said).reasons == []
    for other, reason in (
        ("tie = 28", "a tie of 28 cm stands beside its chart"), ("", "0 ties stand beside its chart; 1 were worked"),
    ):  # fmt: skip
        changed = plan_of(OF_ALL_SORTS["fronts that open"].replace("tie = 20", other))
        drawn = replace(said, charts={"left front": figures.svg_of(chart.chart(changed, "left front"))})
        assert any(reason in one for one in figures.hold(plan, rows, drawn).reasons)


def test_bands_are_left_out_where_they_would_crowd_the_chart() -> None:
    plan = plan_of(CARDIGAN)
    short = chart.chart(plan, "back", short=True)
    assert not [item for item in short.items if isinstance(item, Group) and item.name.startswith("edging-")]


@pytest.mark.slow
def test_charts_with_bands_are_proved() -> None:
    """Of either hand; the mirror image has the same counts."""
    plan = plan_of(CARDIGAN + "buttonholes = 5\n")
    pictures = {piece.name: figures.svg_of(chart.chart(plan, piece.name)) for piece in plan.pieces}
    assert not proving.charts_of(plan, pictures).reasons
    left = chart.chart(plan, "right front", look=Look(hand="left"))
    counts = [item.words for item in left.items if isinstance(item, Group) and item.name.startswith("edging-")]
    right = chart.chart(plan, "right front")
    assert counts == [item.words for item in right.items if isinstance(item, Group) and item.name.startswith("edging-")]


def test_buttonholes_without_room_are_refused() -> None:
    with pytest.raises(MakerError, match=r"each need 63 stitches; right front, front edge has 52"):
        finishing.text(plan_of(CARDIGAN + "buttonholes = 20\n"))


def test_a_slit_is_edged_with_the_lower_edge() -> None:
    """Its row ends lie at the sides, below the seams."""
    plan = plan_of(HEAD + SLIPOVER.replace("width = 50\n", "width = 50\nslit = 7\n") + "[[edging]]\nrows = 2\n")
    assert re.search(r"lower edge \d+ sc \(2 in each of \d row ends\)", finishing.text(plan))
    assert [reason for reason in held(plan) if "edging" in reason] == []


@pytest.mark.slow
@given(garments())
@settings(max_examples=10)
def test_the_edging_of_any_garment_is_worked_again(text: str) -> None:
    """Where corners find no room, as many rows as are told instead."""
    told = "at most 3 rows, or other edges"
    while most := re.search(r"at most ([1-9]) rows?, or other edges", told):
        told = _wrong_in(f"{text}\n[[edging]]\nrows = {most[1]}\n")
        assert most[0] not in told
    assert told in ("", "no garment")


def _wrong_in(text: str) -> str:
    """Why an edging cannot be made, or what the proof says of it."""
    try:
        return "\n".join(reason for reason in held(plan_of(text)) if "edging" in reason)
    except PatternError:
        return "no garment"
    except MakerError as error:
        return str(error)


# ------------------------------------------------------------------------------------------------------- bad input


def test_what_is_sewn_has_no_edging() -> None:
    edging = '[[edging]]\nedges = "front.shoulder"\n'
    with pytest.raises(MakerError, match=r"edging 1: front\.shoulder: nothing of it is open"):
        finishing.text(plan_of(HEAD + SLIPOVER + edging))


@pytest.mark.parametrize(("edging", "words_in"), [
    ('edges = "blanket.side"', '"blanket" has no edge "side"'),
    ('edges = "neckline"', 'did you mean "neck"?'),
    ('edges = ["all", "neck"]', '"all" beside other edges'),
    ('yarn = "Marrow"', 'there is no yarn "Marrow"'),
    ("rows = 2\nbuttonholes = 3", "need 3 rows at the least"),
    ("tie = 20\nstrap = 30", "ties at its ends, or a strap between them"),
    ("rows = 0", "whole number from 1 to 50"),
    ('edges = "blanket.first"\n[[edging]]\nedges = "blanket.first"', "as in edging 1"),
])  # fmt: skip
def test_a_slip_is_told(edging: str, words_in: str) -> None:
    with pytest.raises(PatternError) as error:
        read_text(BLANKET.replace("rows = 3\n", f"{edging}\n"), "x.toml")
    assert words_in in str(error.value)


# -------------------------------------------------------------------------------- what is told in more than one place

UNWEIGHED = 'title = "T"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n'
OPEN_FRONTS = """
[[piece]]
name = "back"
width = 40
length = 50
armhole = { depth = 20, width = 4, shape = "square" }
[[piece]]
name = "left front"
width = 40
length = 50
armhole = { depth = 20, width = 4, shape = "square" }
neck = { shoulder = 10, depth = 12, shape = "SHAPE" }
front = { side = "left", overlap = 2.5 }
[[piece]]
name = "right front"
mirror = "left front"
"""
PLAIN_SLEEVE = '[[piece]]\nname = "sleeve"\ncount = 2\nwidth = 30\nlength = 40\n'


@pytest.mark.quick(1)
@pytest.mark.parametrize(("shape", "edges"), [("square", "all"), ("vee", "armhole")])
def test_the_count_beside_a_chart_is_that_of_the_words(shape: str, edges: str) -> None:
    """A corner inwards took one of the stitches told of an edge; an armhole is told once for both fronts."""
    asked = f'[[edging]]\nedges = "{edges}"\nrows = 2\nstitch = "dc"\n'
    assert proving.prove(plan_of(UNWEIGHED + OPEN_FRONTS.replace("SHAPE", shape) + asked)).reasons == ()


def test_buttonholes_lie_along_an_edge_that_is_called_as_in_the_first_round() -> None:
    asked = '[[edging]]\nedges = "cuff"\nrows = 3\nstitch = "sc"\nbuttonholes = 2\nbuttonhole = 2\n'
    body = "".join(f'[[piece]]\nname = "{name}"\nwidth = 40\nlength = 50\n' for name in ("back", "front"))
    plan = plan_of(UNWEIGHED + body + PLAIN_SLEEVE + asked)
    told = [line for line in report.report(plan).splitlines() if "Edging 1, buttonholes" in line]
    assert told
    assert "along cuff:" in told[0]
    assert proving.prove(plan).reasons == ()
