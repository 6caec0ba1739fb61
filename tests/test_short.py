"""The short chart says all that the whole one says: its brackets, expanded, give every row back.

What is drawn is read off the scene as a reader would: symbols with their places, the words of the brackets, the
colours of the stripes. From these alone every row is rebuilt and compared with the grid.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from pathlib import Path as FilePath
from types import SimpleNamespace

import pytest
from hypothesis import event, given

from test_shapes import UNIT, planned, shaped_patterns, steady
from turnchain.drawing.breaks import Break
from turnchain.drawing.chart import chart, laid_out
from turnchain.drawing.folds import Folds, Span, folded, folded_across
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import SHORT, Sheet
from turnchain.fabric import lattice
from turnchain.fabric.grid import Grid, Symbol
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.making import planned as plan_of_file
from turnchain.making.everything import scenes
from turnchain.pattern import Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.scene import Group, Item, Path, Scene, Text, Use
from workable import patterns

CASES = FilePath(__file__).parent / "cases"
LOOK = Look()

Drawn = tuple[str, float]  # a symbol and the position of its head, in half pitches


# --------------------------------------------------------------------------------------- reading the scene


def flat(scene: Scene, items: tuple[Item, ...], x: float = 0.0) -> Iterator[tuple[str, float]]:
    """Names of the symbols drawn and the x of their heads."""
    for item in items:
        if isinstance(item, Group):
            yield from flat(scene, item.items, x)
        elif isinstance(item, Use):
            inside = scene.definitions[item.name]
            if any(isinstance(one, Use) for one in inside):
                yield from flat(scene, inside, x + item.x)
            else:
                yield item.name, x + item.x


def groups(scene: Scene, start: str) -> list[Group]:
    found: list[Group] = []

    def look(items: tuple[Item, ...]) -> None:
        for item in items:
            if isinstance(item, Group):
                if item.name.startswith(start):
                    found.append(item)
                look(item.items)

    look(scene.items)
    return found


def kind(name: str) -> str:
    for start, symbol in (("turning-chain", "tch"), ("dc", "dc"), ("ch", "ch"), ("sl-st", "sl")):
        if name.startswith(start):
            return symbol
    raise AssertionError(name)


@dataclass(frozen=True)
class Short:
    """What a reader finds: the ``rows`` drawn by index among the piece's rows, how often the clusters before the
    ``break_at`` position come, and for each bracket beside the rows (first, second, times, last)."""

    rows: dict[int, list[Drawn]]
    clusters: int
    break_at: float | None
    repeats: list[tuple[int, int, int, int]]


def short_of(plan: Plan, name: str) -> tuple[Short, Scene, Sheet]:
    scene = chart(plan, name, short=True)
    found = on_its_page(plan, name)
    sheet, torn = found.sheet, Break.of(found)
    middle = None
    if torn is not None:
        # the break turns from row to row, by less than half a cluster, about this line
        middle = sheet.zero + (torn.first - 0.5) * sheet.half + sheet.break_width / 2

    def position(x: float) -> float:
        """The position as drawn: right of the break as if nothing were left out."""
        beyond = middle is not None and x > middle
        return (x - sheet.zero - (sheet.break_width if beyond else 0)) / sheet.half

    rows = {
        int(group.name.rsplit("-", 1)[1]) - 1: [(kind(name), position(x)) for name, x in flat(scene, group.items)]
        for group in groups(scene, "row-of-stitches")
    }
    across = groups(scene, "repeat-across")
    clusters = int(re.fullmatch(r"(\d+) times in every row( across)?", across[0].words)[1]) if across else 1  # type: ignore[index]
    words = r"rows (\d+)-(\d+), (\d+) times: to row (\d+)(; rows (\d+)-(\d+): [A-Z, .]+)?"
    repeats = []
    for group in groups(scene, "repeat-rows"):
        match = re.fullmatch(words, group.words)
        assert match
        first, second, times, last = map(int, match.groups()[:4])
        repeats.append((first, second, times, last))
        if match[5]:
            assert (int(match[6]), int(match[7])) == (second + 1, last), "what stands unshown is what is left out"
        labels = [item.words for item in group.items if isinstance(item, Text)]
        assert labels[:3] == [f"rows {first}-{second},", f"{times} times:", f"to row {last}"]
    break_at = None if torn is None else torn.first - 0.5
    return Short(rows, clusters, break_at, repeats), scene, sheet


def on_its_page(plan: Plan, name: str) -> Setting:
    found = setting(plan, name, LOOK)
    return laid_out(found, None, SHORT, folded(found.piece))


# ------------------------------------------------------------------------------------------- and expanding it


def expanded_across(short: Short, drawn: list[Drawn], k: int, g: int) -> list[Drawn]:
    """A row with its cluster before the break worked as often as the bracket says."""
    if short.break_at is None:
        return drawn
    before = [one for one in drawn if one[1] < short.break_at]
    after = [one for one in drawn if one[1] >= short.break_at]
    if not before or not after:
        shift = 2.0 * (short.clusters - 1) if after else 0.0
        return [*before, *((symbol, at + shift) for symbol, at in after)]
    # The last unit before the break: a cluster and, where gaps are chains, the gap at either side of it.
    unit = sorted(before, key=lambda one: one[1])[-(k + g) :]
    copies = [
        (symbol, at + 2.0 * nth) for nth in range(1, short.clusters) for symbol, at in unit
    ]
    shift = 2.0 * (short.clusters - 1)
    return [*before, *copies, *((symbol, at + shift) for symbol, at in after)]


def expanded(plan: Plan, name: str) -> dict[int, list[Drawn]]:
    """All rows of a piece by index, rebuilt from its short chart."""
    piece = plan.piece(name)
    short, _, _ = short_of(plan, name)
    k, g = piece.recipe.unit_width, piece.recipe.gap
    rows = {index: expanded_across(short, drawn, k, g) for index, drawn in short.rows.items()}
    by_place = {(row.section, row.number): row.index for row in piece.rows}
    for first, second, times, last in short.repeats:
        assert (second, last) == (first + 1, first + 2 * times - 1)
        for number in range(second + 1, last + 1):
            model = first if (number - first) % 2 == 0 else second
            for section in piece.sections:
                if (section, number) in by_place:
                    assert by_place[section, number] not in rows, "a row drawn and folded away"
                    rows[by_place[section, number]] = rows[by_place[section, model]]
    return rows


SYMBOLS = {Symbol.DC: "dc", Symbol.CHAIN: "ch", Symbol.SLIP_STITCH: "sl", Symbol.TURNING_CHAIN: "tch"}


def in_grid(grid: Grid, row: Row) -> list[Drawn]:
    made = grid.row(row)
    return [(SYMBOLS[Symbol(int(s))], gathered(grid.piece, row, s, float(x))) for s, x in
            zip(made.symbol, made.head, strict=True)]


def gathered(piece: PiecePlan, row: Row, symbol: int, at: float) -> float:
    """Where the head of a stitch is drawn: those of a cluster nearer its middle."""
    k, apart = piece.recipe.unit_width, 2 / (piece.recipe.unit_width + piece.recipe.gap)
    for centre in lattice.centres(row.left.at, row.right.at, row.number + piece.phase) if symbol == Symbol.DC else ():
        if abs(at - centre) <= (k - 1) / 2 * apart + 0.01:
            return centre + (0.94 if piece.recipe.gap else 0.90) * (at - centre)
    return at


def same_stitches(found: list[Drawn], wanted: list[Drawn]) -> bool:
    def order(row: list[Drawn]) -> list[Drawn]:
        return sorted(row, key=lambda one: (one[0], one[1]))

    return len(found) == len(wanted) and all(
        a == b and abs(x - y) < 0.06 for (a, x), (b, y) in zip(order(found), order(wanted), strict=True)
    )


def short_gives_the_whole(plan: Plan, name: str) -> None:
    piece = plan.piece(name)
    rows, grid = expanded(plan, name), Grid(piece)
    assert sorted(rows) == list(range(len(piece.rows)))
    for row in piece.rows:
        assert same_stitches(rows[row.index], in_grid(grid, row)), f"{name}, row {row.number} ({row.section})"


@pytest.mark.quick(2)
@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_the_brackets_of_the_cases_give_the_whole_chart(case: str) -> None:
    plan = plan_of_file(CASES / f"{case}.toml")
    for piece in plan.pieces:
        short_gives_the_whole(plan, piece.name)


@pytest.mark.slow
@steady(30)
@given(patterns(most_rows=24, most_clusters=20))
def test_the_brackets_of_random_plans_give_the_whole_chart(pattern: Pattern) -> None:
    plan = planned(pattern)
    for piece in plan.pieces if plan else ():
        event(f"folded {folded(piece).across is not None} {len(folded(piece).rows)}")
        short_gives_the_whole(plan, piece.name)


@pytest.mark.quick(0)
@steady(35)
@given(shaped_patterns(most_rows=20, most_clusters=22))
def test_the_brackets_of_shaped_and_divided_plans_give_the_whole_chart(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is None:
        return
    (piece,) = plan.pieces
    event(f"{len(piece.sections)} folded {folded(piece).across is not None} {len(folded(piece).rows)}")
    short_gives_the_whole(plan, piece.name)
    folds_leave_the_shaping(piece)
    stripes_are_told(plan, piece)


def test_a_step_across_the_fold_keeps_its_slip_stitches() -> None:
    zero, step, top = Fraction(0), Fraction(4), Fraction(8)
    wide, narrow = Fraction(40), Fraction(4)
    piece = Piece("piece", outline=((zero, wide), (step, wide), (step, narrow), (top, narrow)), align="left")
    plan = plan_pattern(Pattern("Wide", (UNIT,), (piece,)))
    (row,) = [row for row in plan.pieces[0].rows if row.counts.sl_st]
    drawn = short_of(plan, "piece")[0].rows[row.index]
    assert len([symbol for symbol, _ in drawn if symbol == "sl"]) == row.counts.sl_st
    short_gives_the_whole(plan, "piece")


def test_a_chart_that_folds_too_much_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    right = folded(plan.piece("front"))
    assert right.across
    odd = replace(right, rows=(Span(right.rows[0].first, right.rows[0].last + 1), *right.rows[1:]))
    wide = Folds(Span(right.across.first, right.across.last + 10), right.rows)
    for wrong in (odd, wide):
        monkeypatch.setattr("turnchain.drawing.chart.folded", lambda piece, wrong=wrong: wrong)
        monkeypatch.setattr("test_short.folded", lambda piece, wrong=wrong: wrong)
        with pytest.raises(AssertionError):
            short_gives_the_whole(plan, "front")


# ------------------------------------------------------------------------------------------------ what is kept


def folds_leave_the_shaping(piece: PiecePlan) -> None:
    folds = folded(piece)
    for row in piece.rows:
        shaped = any(row.edge(side).move != "straight" for side in SIDES)
        if shaped or piece.begins_section(row) or row.number in (1, piece.row_count):
            assert not folds.hides_row(row.number), f"row {row.number}"
        if folds.across is not None:
            first, last = folds.across.first, folds.across.last
            for side in SIDES:
                assert not first - 2 < row.edge(side).at < last + 2, "an edge runs into the fold"
    for span in folds.rows:
        assert (span.last - span.first) % 2 == 1, "whole pairs of rows"
        for number in (span.first - 2, span.first - 1, span.last + 1):
            assert not folds.hides_row(number)
            assert any(row.number == number for row in piece.rows)


def stripes_are_told(plan: Plan, piece: PiecePlan) -> None:
    """Every row, folded or not, is a band of its yarn's colour at its place."""
    _, scene, sheet = short_of(plan, piece.name)
    colours = on_its_page(plan, piece.name).colours
    (stripes,) = groups(scene, "stripes")
    # The chart is grounded by its header: row 1's foot is the lowest point of any band.
    filled = []
    for item in stripes.items:
        if isinstance(item, Path) and item.fill:
            ys = [step[-1] for step in item.steps if len(step) > 1]
            filled.append((item, min(ys), max(ys)))
    sheet = sheet.grounded(round(max(low for _, _, low in filled)))
    for row in piece.rows:
        top, foot = sheet.top(row.number), sheet.top(row.number - 1)
        here = [item for item, high, low in filled if (high, low) == (top, foot)]
        if sheet.folds.skips_row(row.number):
            continue
        assert here, f"row {row.number} has no band"
        assert {item.fill for item in here} == {colours.tint(row)}
    for span, bands in zip(sheet.folds.rows, sheet.folds.bands, strict=True):
        assert len(bands) <= 8
        assert sheet.top(span.first - 1) - sheet.top(span.last) <= span.count * sheet.rise, "longer than what it saves"


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_the_stripes_of_the_cases_are_told_in_order(case: str) -> None:
    plan = plan_of_file(CASES / f"{case}.toml")
    for piece in plan.pieces:
        folds_leave_the_shaping(piece)
        stripes_are_told(plan, piece)


def test_a_front_fits_a_blog_page_and_a_phone() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    scene = chart(plan, "front", short=True)
    sheet = on_its_page(plan, "front").sheet
    assert scene.width <= 1100
    assert scene.height / scene.width < 3
    on_phone = 400 / scene.width
    assert sheet.half * on_phone >= 7, "three stems can be told apart"
    for group in groups(scene, ""):
        # Slim stripes of folded rows take slim letters; the key tells their order in words.
        words = [item for item in group.items if isinstance(item, Text) and group.name != "stripe-letters"]
        assert min((item.size for item in words), default=99) * on_phone >= 6, group.name


def test_a_piece_that_repeats_nothing_is_drawn_whole() -> None:
    plan = plan_of_file(CASES / "kite_kerchief.toml")
    assert folded(plan.piece("kerchief")) == Folds()
    assert groups(chart(plan, "kerchief", short=True), "repeat") == []


def test_the_key_says_what_the_brackets_mean() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    scene = chart(plan, "front", short=True)
    (foot,) = groups(scene, "credit")
    said = " ".join(item.words for item in foot.items if isinstance(item, Text))
    short, _, _ = short_of(plan, "front")
    assert f"leaves out {short.clusters - 1} clusters of each row that runs across" in said
    assert f"the boxed repeat is worked {short.clusters} times" in said
    for first, second, times, last in short.repeats:
        assert f"Rows {first}-{second} are worked {times} times, to row {last}." in said
    assert "Beside a strip stand its stripes, the lowest first." in said
    assert "What repeats is shown once in a bracket with its count." in scene.words


WAISTCOAT = """\
title = "Moorland waistcoat"
[[swatch]]
clusters = 11
width = 26
rows = 18
height = 21
[[yarn]]
name = "Bracken"
colour = "#8b5a3c"
[[yarn]]
name = "Mist"
colour = "#dfe3e0"
[[yarn]]
name = "Heather"
colour = "#8a6d8c"
[stripes]
order = ["Bracken", "Mist", "Heather", "Mist"]
rows = [2]
[[piece]]
name = "left front"
width = 52
length = 64.1
front = { side = "left", overlap = 1 }
armhole = { depth = 21, width = 7 }
neck = { shoulder = 9.4, depth = 8.1, shape = "round" }
[[piece]]
name = "right front"
mirror = "left front"
"""


def test_words_beside_two_stretches_of_folded_rows_stand_clear_of_one_another() -> None:
    plan = plan_pattern(read_text(WAISTCOAT, "waistcoat.toml"))
    scene = chart(plan, "right front", short=True)
    lower, upper = groups(scene, "repeat-rows")
    words = [[item for item in group.items if isinstance(item, Text)] for group in (lower, upper)]
    assert min(text.y for text in words[0]) - max(text.y for text in words[1]) > words[0][0].size, "a line apart"


@pytest.mark.parametrize("case", ["heron_top", "mudflat_blanket"])
def test_the_break_and_the_box_cut_no_symbol(case: str) -> None:
    plan = plan_of_file(CASES / f"{case}.toml")
    for piece in plan.pieces:
        found = on_its_page(plan, piece.name)
        torn = Break.of(found)
        if torn is None:
            continue
        _, scene, sheet = short_of(plan, piece.name)
        (box,) = [item for item in groups(scene, "repeat-across")[0].items if isinstance(item, Path)][:1]
        assert len(box.steps) == 2 * 5 + 1
        for row in found.rows:
            if sheet.folds.hides_row(row.number) or not torn.runs_through(row):
                continue
            reaches = [one for group in groups(scene, f"row-of-stitches-{row.index + 1}")
                       if group.name == f"row-of-stitches-{row.index + 1}"
                       for one in strokes_of(scene, group.items)]
            sheet_at = sheet.grounded(0)
            shift = sheet_at.top(row.number)
            line = [(x, y - shift) for x, y in Break.of(found.on(sheet_at)).points(row.number, row.number)]  # type: ignore[union-attr]
            for one in (line, [(x - 2 * sheet.half, y) for x, y in line]):
                for (x0, y0), (x1, y1) in reaches:
                    sides = {right_of(one, x, y) for x, y in ((x0, y0), (x1, y0), (x0, y1), (x1, y1))}
                    # the corners of a symbol's box may lie beyond a leaning line only where its strokes do not
                    assert len(sides) == 1 or y1 - y0 > 0.5 * sheet.rise


def strokes_of(scene: Scene, items: tuple[Item, ...], x: float = 0.0) -> Iterator[tuple[tuple[float, float], ...]]:
    """The boxes of all symbols that are drawn, from the head of the left edge stitch down."""
    for item in items:
        if isinstance(item, Use):
            yield from strokes_of(scene, scene.definitions[item.name], x + item.x)
        elif isinstance(item, Path):
            places = [step[-2:] for step in item.steps if len(step) > 1]
            xs, ys = [place[0] + x for place in places], [place[1] for place in places]
            yield (min(xs), min(ys)), (max(xs), max(ys))  # type: ignore[type-var]


def right_of(line: list[tuple[float, float]], x: float, y: float) -> bool:
    """Whether a place lies right of a line that runs down."""
    for (x0, y0), (x1, y1) in pairwise(line):
        if y0 <= y <= y1:
            return x > x0 + (x1 - x0) * (y - y0) / (y1 - y0 or 1.0)
    return x > line[-1][0]


def test_a_piece_that_would_save_little_is_not_made_short() -> None:
    plan = plan_of_file(CASES / "kite_kerchief.toml")
    assert folded(plan.piece("tie")) == Folds()
    names = [name for name, _ in scenes(plan, None, LOOK)]
    assert "tie" in names
    assert "tie-short" not in names
    assert "front-short" in [name for name, _ in scenes(plan_of_file(CASES / "heron_top.toml"), None, LOOK)]


def test_a_wide_piece_is_drawn_short_where_nothing_is_said() -> None:
    wide, other = plan_of_file(CASES / "mudflat_blanket.toml"), plan_of_file(CASES / "heron_top.toml")
    assert groups(chart(wide, "blanket", short=None), "repeat-across")
    assert not groups(chart(wide, "blanket", short=False), "repeat-across")
    assert not groups(chart(other, "front", short=None), "repeat-across")


def test_a_break_through_more_folded_rows_than_px() -> None:
    """Hundreds of rows in a stripe of some px: the break runs straight up through it."""
    text = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 10\nrows = 10\nheight = 10\n'
    plan = plan_pattern(read_text(f'{text}[[piece]]\nname = "tall"\nwidth = 60\nlength = 400\n', "tall.toml"))
    whole = setting(plan, "tall", LOOK)
    found = laid_out(whole, 300, SHORT, folded(whole.piece))
    torn = Break.of(found)
    assert torn is not None
    (stripe,) = found.sheet.folds.rows
    inside = range(stripe.first + 1, stripe.last)
    assert sum(found.sheet.top(n) == found.sheet.top(n - 1) for n in inside) > 100
    assert len({x for x, _ in torn.points(inside[0], inside[-1])}) == 1


@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_three_clusters_at_least_are_folded_away(row_plan: str) -> None:
    """Of every row three stay at each side: the first width that is folded leaves out three, the next one more."""
    left_out = []
    for clusters in range(4, 15):
        panel = Piece("panel", width=Fraction(2 * clusters), length=Fraction(8), row_plan=row_plan)  # type: ignore[arg-type]
        (piece,) = plan_pattern(Pattern("Test", (UNIT,), (panel,))).pieces
        left_out.append(folded_across(piece).clusters)
    folds = [number for number in left_out if number]
    assert folds == [*range(3, 3 + len(folds))]
    assert folds


@pytest.mark.parametrize(
    ("first", "last", "through"),
    [(2, 8, True), (0, 8, False), (2, 10, False), (1, 9, True), (5, None, True), (1, None, False), (10, None, False),
     (2, None, True), (9, None, True)],
)  # fmt: skip
def test_a_row_runs_through_a_break_that_it_has_something_on_both_sides_of(
    first: int, last: int | None, through: bool
) -> None:
    """A row from 0 to 10; where all that follows is cut away, more than its edge stays."""
    row = SimpleNamespace(left=SimpleNamespace(at=0), right=SimpleNamespace(at=10))
    assert Break.runs_through(SimpleNamespace(first=first, last=last), row) is through  # type: ignore[arg-type]
