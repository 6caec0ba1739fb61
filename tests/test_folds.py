"""What a short chart leaves out, where its break runs and what stands beside: by hand, and by what lies where.

Half a pitch and a row are 1.25 cm each. Of straight rows row 1 stays, the two that are the model, and two at the least
above what is folded; a fold is of whole pairs of rows and of four at the least.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from itertools import pairwise

import pytest

from turnchain.drawing import brackets, breaks, margins
from turnchain.drawing.breaks import AIR, Break
from turnchain.drawing.chart import chart, laid_out
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.folds import NO_FOLDS, Folds, Span, cut_to, folded, folded_across, saved
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.margins import Margins
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import SHORT
from turnchain.drawing.stitch_definitions import CHAIN
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Item, Path, Text, Use

HEAD = 'title = "Folded"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'
YARNS = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\n' for name, colour in
                (("Sand", "#d8c9a0"), ("Slate", "#203040"), ("Moss", "#5a7040")))  # fmt: skip


@cache
def planned(shape: str, stripes: str = "") -> Plan:
    head = HEAD + (f"{YARNS}[stripes]\n{stripes}\n" if stripes else "")
    return plan_pattern(read_text(f'{head}[[piece]]\nname = "piece"\n{shape}\n', "folded.toml"))


def one(shape: str, stripes: str = "") -> PiecePlan:
    return planned(shape, stripes).pieces[0]


def panel(clusters: int, rows: int) -> str:
    return f"width = {2.5 * clusters}\nlength = {1.25 * rows}"


def test_what_a_fold_hides() -> None:
    folds = Folds(Span(4, 8), (Span(5, 8),), skipped=(Span(6, 7),), window=Span(2, 10))
    assert [row for row in range(1, 13) if folds.hides_row(row)] == [1, 5, 6, 7, 8, 11, 12]
    assert [row for row in range(1, 13) if folds.skips_row(row)] == [1, 6, 7, 11, 12]
    assert [row for row in range(1, 13) if folds.shows_row(row)] == [*range(2, 11)]
    assert [at for at in range(12) if folds.hides(at)] == [4, 5, 6, 7]
    assert [at for at in range(12) if folds.hides(at, lambda first: first + 0.5)] == [5, 6, 7, 8]
    assert (folds.clusters, folds.times(Span(5, 8)), Span(5, 8).count) == (2, 3, 4)
    cut = Folds(left_cut=3, right_cut=9)
    assert [at for at in range(12) if not cut.hides(at)] == [3, 4, 5, 6, 7, 8]
    assert [at for at in range(12) if not cut.hides(at, lambda at: at + 1.5)] == [5, 6, 7, 8, 9, 10]
    assert (cut.cut("left"), cut.cut("right"), cut.clusters) == (3, 9, 0)
    assert [one.by_columns for one in (Folds(), folds, cut, Folds(left_cut=0), Folds(right_cut=0))] == [
        False, True, True, True, True
    ]
    assert not any(NO_FOLDS.hides_row(row) or NO_FOLDS.skips_row(row) or NO_FOLDS.hides(row) for row in range(9))


@pytest.mark.parametrize(("rows", "first", "last"), [
    (8, 0, 0), (9, 4, 7), (10, 4, 7), (11, 4, 9), (20, 4, 17), (21, 4, 19),
])  # fmt: skip
def test_straight_rows_are_folded_in_the_middle_by_whole_pairs(rows: int, first: int, last: int) -> None:
    assert folded(one(panel(6, rows))).rows == ((Span(first, last),) if first else ())


def test_rows_above_shaping_are_folded_from_the_third_on() -> None:
    """Ten rows that lean, then twenty straight ones; then ten that lean again."""
    piece = one('align = "left"\noutline = [[0, 40], [12.5, 52.5], [37.5, 52.5], [50, 40]]')
    moved = [row.number for row in piece.rows if row.right.move != "straight"]
    low = max(number for number in moved if number < 20)
    high = min(number for number in moved if number > 20)
    (span,) = folded(piece).rows
    assert span.first == low + 3
    assert span.last in (high - 3, high - 4)
    assert span.count % 2 == 0


@pytest.mark.parametrize(("rows", "bands", "middle"), [
    (12, 6, None), (13, 8, None), (15, 8, (8, 10)), (20, 8, (8, 14)),
])  # fmt: skip
def test_of_many_stripes_four_are_shown_below_and_three_above(
    rows: int, bands: int, middle: tuple[int, int] | None
) -> None:
    """Stripes of one row: 13 rows fold rows 4 to 11, eight stripes; more than eight have a band without a colour."""
    piece = one(panel(20, rows), 'order = ["Sand", "Slate"]\nrows = [1]')
    folds = folded(piece)
    (found,) = folds.bands
    assert found[0].first == folds.rows[0].first
    assert found[-1].last == folds.rows[0].last
    assert all(below.last + 1 == above.first for below, above in pairwise(found))
    if middle is None:
        assert len(found) == bands
        assert folds.skipped == ()
        assert all(band.count == 1 for band in found)
    else:
        assert len(found) == bands
        assert (found[4].first, found[4].last) == middle
        assert folds.skipped == (found[4],)
        assert [band.count for band in (*found[:4], *found[5:])] == [1] * 7


def test_eight_stripes_are_all_shown() -> None:
    """13 rows: rows 4 to 11."""
    folds = folded(one(panel(20, 13), 'order = ["Sand", "Slate"]\nrows = [1]'))
    assert folds.rows == (Span(4, 11),)
    assert folds.bands == (tuple(Span(row, row) for row in range(4, 12)),)
    assert folds.skipped == ()


def test_what_a_fold_saves_is_a_share_of_the_area() -> None:
    """17 half pitches and one for the margin; rows folded are stripes of 0.62 of a row's height."""
    piece = one(panel(8, 20))
    assert saved(piece, Folds()) == 0
    assert saved(piece, Folds(Span(6, 12))) == pytest.approx(6 / 18)
    assert saved(piece, Folds(None, (Span(4, 17),), ((Span(4, 17),),))) == pytest.approx(1 - 6.62 / 20)
    both = Folds(Span(6, 12), (Span(4, 17),), ((Span(4, 9), Span(10, 17)),))
    assert saved(piece, both) == pytest.approx(1 - 12 * 7.24 / (18 * 20))


def test_columns_are_folded_within_what_every_row_runs_through() -> None:
    """41 half pitches: three clusters stay at each side, 29 half pitches of whole pitches are left."""
    piece = one(panel(20, 6))
    fold = folded_across(piece).across
    assert fold is not None
    assert fold == (Span(6, 34) if piece.rows[0].starts == "right" else Span(8, 36))
    assert folded_across(piece, (1, 5)).across == Span(2, 30)
    assert folded_across(piece, (1, 16)).across == Span(2, 8)
    assert folded_across(piece, (1, 17)).across is None, "two clusters are fewer than three"


DIVIDED = 'width = 110\nlength = 30\nneck = {{ shoulder = {shoulder}, depth = 15, shape = "square" }}'


def test_beside_a_neck_one_shoulder_is_folded_and_not_the_neck() -> None:
    """Of two shoulders alike the one at the left; never what no row but the body runs through."""
    piece = one(DIVIDED.format(shoulder=40))
    begun = sorted((row for row in piece.rows if piece.begins_section(row)), key=lambda row: row.left.at)
    fold = folded_across(piece).across
    assert fold is not None
    assert begun[0].left.at + 6 == fold.first
    assert fold.last <= begun[0].right.at - 6
    narrow = one(DIVIDED.format(shoulder=10))
    neck = folded_across(narrow).across
    for row in narrow.rows:
        if neck is not None and row.section != narrow.rows[0].section:
            assert row.right.at <= neck.first or neck.last <= row.left.at
    shoulders = [row for row in narrow.rows if row.section != narrow.rows[0].section]
    window = Span(min(row.number for row in shoulders), narrow.row_count)
    assert folded_across(narrow, window=window).across is None, "no row of the window runs through it"


@pytest.mark.parametrize("align", ["left", "right"])
@pytest.mark.parametrize("outline", [
    "[[0, 60], [10, 60], [10, 20], [20, 20]]", "[[0, 20], [10, 20], [10, 60], [20, 60]]",
])  # fmt: skip
def test_columns_that_an_edge_steps_over_are_not_folded(align: str, outline: str) -> None:
    """40 cm are 32 half pitches: its slip stitches, or its chains, must be seen."""
    piece = one(f'align = "{align}"\noutline = {outline}')
    fold = folded_across(piece).across
    stepped = [row for row in piece.rows if row.left.step or row.right.step]
    assert stepped
    for row in stepped:
        under = piece.below(row)
        assert under is not None
        for side in ("left", "right"):
            ends = sorted((row.edge(side).at, under.edge(side).at))  # type: ignore[arg-type]
            assert fold is None or fold.last <= ends[0] or ends[1] <= fold.first


def test_rows_at_one_edge_alone() -> None:
    """41 half pitches: four clusters at the left are eight half pitches."""
    piece = one(panel(20, 12))
    assert cut_to(piece, "left", 4, Span(2, 5)) == Folds(window=Span(2, 5), right_cut=8)
    assert cut_to(piece, "right", 4, Span(2, 5)) == Folds(window=Span(2, 5), left_cut=34)
    assert [cut_to(piece, "left", kept, Span(2, 5)) is None for kept in (19, 20)] == [False, True]
    assert [cut_to(piece, "right", kept, Span(2, 5)) is None for kept in (18, 19, 20)] == [False, False, True]
    divided = one(DIVIDED.format(shoulder=40))
    assert cut_to(divided, "left", 2, Span(1, divided.row_count)) is None
    assert cut_to(divided, "left", 2, Span(1, 4)) is not None


ACROSS = [
    panel(20, 12), DIVIDED.format(shoulder=40), DIVIDED.format(shoulder=20),
    'width = 110\nlength = 40\nneck = { shoulder = 30, depth = 20, shape = "vee" }',
    "outline = [[0, 40], [12.5, 52.5], [37.5, 52.5], [50, 40]]", 'align = "left"\noutline = [[0, 40], [20, 60]]',
    'align = "left"\noutline = [[0, 60], [10, 60], [10, 20], [20, 20]]',
    'align = "right"\noutline = [[0, 20], [10, 20], [10, 60], [20, 60]]',
]  # fmt: skip


def widest(piece: PiecePlan, kept: tuple[int, int], rows: list[Row]) -> Span | None:
    """By trying every stretch of whole pitches, the widest first and of these the one farthest to the left: no edge
    lies in it or as near as the clusters that are kept, some row runs through it, and no edge steps over it."""
    places = {edge.at for row in rows for edge in (row.left, row.right)}
    for wide in range(2 * (max(places) - min(places)), 4, -2):
        for first in range(min(places), max(places)):
            last = first + wide
            if any(first - 2 * kept[0] < at < last + 2 * kept[1] for at in places):
                continue
            through = [row for row in rows if row.left.at < first and last < row.right.at]
            if through and not any(steps_over(piece, row, first, last) for row in rows):
                return Span(first, last)
    return None


def steps_over(piece: PiecePlan, row: Row, first: int, last: int) -> bool:
    under = piece.below(row)
    if under is None or piece.begins_section(row):
        return False
    ends = [sorted((row.edge(side).at, under.edge(side).at)) for side in SIDES if row.edge(side).step]
    return any(low < last and first < high for low, high in ends)


@pytest.mark.parametrize("kept", [(3, 3), (1, 4), (2, 1)])
@pytest.mark.parametrize("shape", ACROSS)
def test_the_widest_range_of_columns_is_folded(shape: str, kept: tuple[int, int]) -> None:
    piece = one(shape)
    for low, high in [(1, piece.row_count), (2, 5), (piece.row_count - 5, piece.row_count)]:
        rows = [row for row in piece.rows if low <= row.number <= high]
        assert piece.rows[0].starts == "right"
        assert folded_across(piece, kept, Span(low, high)).across == widest(piece, kept, rows), (low, high)
        mirror = for_hand(piece, "left")
        # the same clusters for a left-handed maker, counted from the other side
        found, other = (folded_across(each, ways, Span(low, high)) for each, ways in
                        ((piece, kept), (mirror, kept[::-1])))  # fmt: skip
        if len(piece.sections) == 1:
            assert [hidden(other, row) for row in mirror.rows] == [hidden(found, row)[::-1] for row in piece.rows]


def hidden(folds: Folds, row: Row) -> list[bool]:
    return [folds.hides(centre) for centre in row.centres]


@pytest.mark.parametrize("outline", ["[[0, 40], [20, 60]]", "[[0, 60], [20, 40]]"])
def test_at_an_edge_that_leans_so_many_clusters_are_kept_where_they_are_fewest(outline: str) -> None:
    piece = one(f"outline = {outline}")
    window = Span(3, 9)
    rows = [row for row in piece.rows if 3 <= row.number <= 9]
    left, right = cut_to(piece, "left", 4, window), cut_to(piece, "right", 4, window)
    assert left is not None
    assert right is not None
    assert min(left.right_cut - row.left.at for row in rows) == 8  # type: ignore[operator]
    assert min(row.right.at - right.left_cut + 1 for row in rows) == 8  # type: ignore[operator]
    narrow = [row.right.at - row.left.at for row in rows]
    for kept in range(4, 30):
        far = cut_to(piece, "left", kept, window)
        goes_on = min(row.right.at for row in rows) - max(row.left.at for row in rows) - 2 * kept
        assert (far is None) == (goes_on <= 2), (kept, narrow)
        far = cut_to(piece, "right", kept, window)
        assert (far is None) == (goes_on <= 2), (kept, narrow)


# --------------------------------------------------------------------------------------------------------- the break


def on_page(plan: Plan, folds: Folds | None = None) -> Setting:
    found = setting(plan, "piece", Look())
    return laid_out(found, None, SHORT, folded(found.piece) if folds is None else folds)


@pytest.mark.parametrize("fabric", ["", "[fabric]\ngap = 0\n", "[fabric]\ncluster = 2\n"])
@pytest.mark.parametrize("cut", [False, True])
def test_a_break_turns_just_beside_a_cluster_and_runs_straight_between_its_turns(fabric: str, cut: bool) -> None:
    plan = plan_pattern(read_text(f'{HEAD}{fabric}[[piece]]\nname = "piece"\n{panel(20, 7)}\n', "folded.toml"))
    found = on_page(plan, Folds(right_cut=16) if cut else folded_across(plan.pieces[0]))
    torn = Break.cut(found, "right") if cut else Break.of(found)
    assert torn is not None
    assert (Break.of(found) is None) == cut
    assert Break.cut(found, "left") is None
    sheet, piece = found.sheet, found.piece
    points = torn.points(1, 7)
    assert len(points) == 15
    for row in piece.rows:
        top, turn, foot = points[2 * (7 - row.number) :][:3]
        assert (top[1], foot[1]) == (sheet.top(row.number), sheet.top(row.number - 1))
        assert turn[1] == pytest.approx(top[1] + CHAIN * (foot[1] - top[1]), abs=0.01)
        at = (turn[0] - sheet.zero) / sheet.half
        if torn.first in row.centres:
            assert at == pytest.approx(torn.first - torn.reach - AIR, abs=0.01), "before the first cluster left out"
        else:
            assert torn.first - 1 in row.centres
            assert at == pytest.approx(torn.first - 1 + torn.reach + AIR, abs=0.01), "after the last one kept"
        assert torn.at_top(row) == (top[0], pytest.approx(top[0] + sheet.break_width, abs=0.01))
        assert torn.at_foot(row) == (foot[0], pytest.approx(foot[0] + sheet.break_width, abs=0.01))
        one, other = torn.beside(row)
        assert one == [top, turn, foot]
        assert other == [(pytest.approx(x + sheet.break_width, abs=0.01), y) for x, y in one]
    turns = points[1::2]
    for (x0, y0), (x, y), (x1, y1) in zip(turns, points[2:-1:2], turns[1:], strict=False):
        assert x == pytest.approx(x0 + (x1 - x0) * (y - y0) / (y1 - y0), abs=0.02)
    # above the last turn it goes on as if a row followed that turns as the one below
    (x0, _), (x1, _) = turns[:2]
    assert points[0][0] == pytest.approx(x0 + (x1 - x0) * CHAIN, abs=0.02)
    assert points[-1][0] == torn.at_foundation()[0] == torn.at_foundation()[1] - sheet.break_width
    chains = [sheet.zero + at * sheet.half for at in found.grid.foundation()]
    assert min(abs(x - points[-1][0]) for x in chains) > 0.15 * sheet.half, "between the chains"


def test_a_level_line_is_drawn_as_far_as_columns_are() -> None:
    plan = planned(panel(20, 7))
    ends = (0.0, 1000.0)

    def at(torn: Break) -> tuple[float, float]:
        return torn.first * 10.0, torn.first * 10.0 + 5

    row = plan.pieces[0].rows[2]
    assert breaks.parts(on_page(plan, Folds()), row, ends, at) == [ends]
    assert breaks.parts(on_page(plan, Folds(right_cut=16)), row, ends, at) == [(0.0, 160.0)]
    assert breaks.parts(on_page(plan, Folds(left_cut=16)), row, ends, at) == [(160.0, 1000.0)]
    assert breaks.parts(on_page(plan, Folds(left_cut=6, right_cut=16)), row, ends, at) == [(60.0, 160.0)]
    assert breaks.parts(on_page(plan, Folds(Span(8, 20))), row, ends, at) == [(0.0, 80.0), (85.0, 1000.0)]


# ------------------------------------------------------------------------------------------------------ the brackets


def test_what_stands_beside_folded_rows() -> None:
    """20 rows: rows 2 and 3, eight times in all, to row 17."""
    plan = planned(panel(6, 20), 'order = ["Sand", "Slate", "Moss"]\nrows = [2, 4]')
    found = on_page(plan)
    (beside,) = brackets.told(found, found.sheet.folds, False)
    assert (beside.low, beside.high, beside.times, beside.span) == (2, 3, 8, Span(4, 17))
    assert beside.lines == ("rows 2-3,", "8 times:", "to row 17")
    # rows 1-2 sand, 3-6 slate, 7-8 moss, 9-12 sand, 13-14 slate, 15-18 moss
    assert beside.stripes == "B, C, A, B, C"
    assert beside.unshown[0] == "rows 4-17:"
    assert " ".join(beside.unshown[1:]) == beside.stripes
    (line,) = brackets.told(found, found.sheet.folds, True)
    assert line.unshown == ("rows 4-17:", "B, C, A, B, C")
    plain = on_page(planned(panel(6, 20)))
    assert brackets.told(plain, plain.sheet.folds, False)[0].unshown == ()
    assert brackets.sentences(on_page(planned(panel(6, 8)), Folds())) == []


@pytest.mark.parametrize(("widest", "lines"), [
    (100.0, ["A, B, C, D"]), (0.1, ["A,", "B,", "C,", "D"]), (3.0, ["A, B,", "C, D"]),
])  # fmt: skip
def test_letters_are_set_in_lines_as_long_as_there_is_room(widest: float, lines: list[str]) -> None:
    assert brackets._broken("A, B, C, D", widest) == lines


@pytest.mark.parametrize(("numbers", "runs"), [
    ([], []), ([3], [(3, 3)]), ([1, 2, 3, 5, 6, 9], [(1, 3), (5, 6), (9, 9)]),
])  # fmt: skip
def test_stretches_of_numbers_that_follow_each_other(numbers: list[int], runs: list[tuple[int, int]]) -> None:
    assert brackets._runs(numbers) == runs


@pytest.mark.parametrize(("folds", "rows"), [
    (Folds(Span(8, 20)), (2, 3)), (Folds(Span(8, 20), (Span(2, 3),)), (4, 5)),
    (Folds(Span(8, 20), (Span(3, 6),)), (1, 2)),
    (Folds(Span(8, 20), (Span(2, 2), Span(4, 4), Span(6, 6))), (1, 1)),
    (Folds(right_cut=16, window=Span(3, 6)), (3, 4)), (Folds(left_cut=6, right_cut=16, window=Span(3, 6)), (4, 5)),
])  # fmt: skip
def test_the_lowest_two_rows_above_row_1_are_boxed(folds: Folds, rows: tuple[int, int]) -> None:
    """Of seven rows; of one repeat alone two rows with another below them, where there are such."""
    found = on_page(planned(panel(20, 7)), folds)
    torn = brackets.boxed(found)
    assert torn is not None
    assert brackets.boxed_rows(found, torn) == rows


@pytest.mark.parametrize(("folds", "before"), [
    (Folds(Span(8, 20)), 8), (Folds(right_cut=16), 16), (Folds(left_cut=6), 8), (Folds(left_cut=6, right_cut=16), 12),
    (Folds(), None),
])  # fmt: skip
def test_the_box_lies_at_the_break_beside_a_cut_or_in_the_middle(folds: Folds, before: int | None) -> None:
    torn = brackets.boxed(on_page(planned(panel(20, 7)), folds))
    assert (None if torn is None else torn.first) == before


TALL = 'width = 60\nlength = 80\nneck = { shoulder = 20, depth = 50, shape = "square" }'


@pytest.mark.parametrize("shape", [
    TALL, panel(20, 20), 'align = "left"\noutline = [[0, 40], [25, 40], [50, 60], [90, 60]]',
])  # fmt: skip
def test_brackets_stand_right_of_all_cloth_beside_them_and_as_high_as_their_rows(shape: str) -> None:
    plan = planned(shape)
    scene = chart(plan, "piece", short=True)
    found = on_page(plan)
    sheet, piece = found.sheet, found.piece
    groups = [item for item in scene.items if isinstance(item, Group) and item.name.startswith("repeat-rows")]
    beside = brackets.told(found, sheet.folds, False)
    assert len(groups) == len(beside) > 0
    for group, one in zip(groups, beside, strict=True):
        line = next(item for item in group.items if isinstance(item, Path))
        xs, ys = zip(*((step[1], step[2]) for step in line.steps if len(step) == 3), strict=True)
        rows = [row for row in piece.rows if one.low <= row.number <= one.span.last]
        assert min(xs) > max(sheet.side(row.right.at, "right") for row in rows)
        assert max(ys) - min(ys) == pytest.approx(sheet.top(one.low - 1) - sheet.top(one.high))
        texts = [item for item in group.items if isinstance(item, Text)]
        assert [text.words for text in texts] == [*one.lines]
        assert all(text.x > max(xs) for text in texts)
        made = Margins.on(found)
        down = max(ys) - sheet.top(one.low - 1)  # the page has its heading above the chart
        for item in (*margins.wedges(made), *margins.row_numbers(made), *margins.signs(made)):
            reach = [step[-2] for step in item.steps if len(step) > 2] if isinstance(item, Path) else [item.x]
            level = item.steps[0][-1] if isinstance(item, Path) else item.y
            if min(ys) - sheet.rise < level + down < max(ys) + sheet.rise:
                assert max(reach) < min(xs)
        assert all(0 < below.y - above.y - text.size < text.size / 2 for above, below in pairwise(texts)
                   for text in texts[:1])  # fmt: skip


@pytest.mark.parametrize("fabric", ["", "[fabric]\ngap = 0\n", "[fabric]\ncluster = 2\n", "[fabric]\ncluster = 5\n"])
def test_a_cluster_reaches_as_far_from_its_middle_as_it_is_drawn(fabric: str) -> None:
    plan = plan_pattern(read_text(f'{HEAD}{fabric}[[piece]]\nname = "piece"\n{panel(20, 7)}\n', "folded.toml"))
    found = on_page(plan, folded_across(plan.pieces[0]))
    made = Definitions(found.grid, found.sheet, found.look.symbols)
    fan = made.fan()
    xs = [*reaches(made, made.made[fan], 0.0)]
    torn = Break.of(found)
    assert torn is not None
    wide = (max(xs) - min(xs) + found.sheet.stroke) / 2
    assert torn.reach == pytest.approx(wide / found.sheet.half, abs=0.04)


def reaches(made: Definitions, items: Iterable[Item], x: float) -> Iterator[float]:
    for item in items:
        if isinstance(item, Use):
            yield from reaches(made, made.made[item.name], x + item.x)
        elif isinstance(item, Path):
            yield from (x + step[-2] for step in item.steps if len(step) > 2)
