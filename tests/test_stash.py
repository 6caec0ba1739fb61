"""Stripes from the stash: never overspent, never beaten by trying everything, and honest where it cannot be done."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby, product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.errors import Stopped
from turnchain.fabric.plan import Plan
from turnchain.pages.report import report
from turnchain.pattern import Allowance, Pattern, Piece, Progress, Seam, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading import pattern_file
from turnchain.records import replace
from turnchain.yarns import figures as yarn
from turnchain.yarns.colouring import choices, coloured
from turnchain.yarns.stash import from_plan, search, solving
from turnchain.yarns.stash.from_plan import answer_of, as_list, lines, on_the_way, stash_pieces, task_of
from turnchain.yarns.stash.solving import forget, nearest, solve
from turnchain.yarns.stash.task import Answer, Task, Thread, Wishes, level, rest_bound, shortage_bound, summed

CASES = Path(__file__).parent / "cases"
SLOW = settings(max_examples=40)


def grams(least: int, most: int) -> st.SearchStrategy[Fraction]:
    """Grams in tenths."""
    return st.integers(least * 10, most * 10).map(lambda tenths: Fraction(tenths, 10))


@st.composite
def tasks(draw: st.DrawFn, most_rows: int, alike: bool = False) -> Task:
    """Rows of 1 to 9 g, stocks from much too little to plenty, one or two threads, all manner of wishes."""
    rows, yarns = draw(st.integers(2, most_rows)), draw(st.integers(2, 3))
    weights = [draw(grams(1, 9))] * rows if alike else draw(st.lists(grams(1, 9), min_size=rows, max_size=rows))
    whole = sum(weights) / yarns
    room = tuple(whole * draw(st.integers(5, 25)) / 10 for _ in range(yarns))
    shorter = Thread(0, draw(st.integers(0, rows - 1)), draw(st.integers(1, 2)))
    threads = (Thread(0, rows - 1, 1), shorter)[: draw(st.integers(1, 2))]
    least = draw(st.integers(1, 2))
    sizes = tuple(range(least, draw(st.integers(least, 4)) + 1))
    wishes = Wishes(sizes, draw(st.integers(1, yarns - 1)), draw(st.sampled_from([(), (0,), (1,)])))
    tail = tuple(draw(grams(0, 1)) / 4 for _ in range(yarns))
    return Task(("A", "B", "C")[:yarns], room, tuple(weights), tail, threads, wishes)


def kept(task: Task, colours: tuple[int, ...]) -> bool:
    """Whether stripes keep the wishes, by the words of the wishes."""
    runs = [(index, len(list(run))) for index, run in groupby(colours)]
    for place, (index, height) in enumerate(runs):
        last = place == len(runs) - 1
        if height not in task.wishes.heights and not (last and height < max(task.wishes.heights)):
            return False
        if index in [other for other, _ in runs[max(0, place - task.wishes.apart) : place]]:
            return False
    return True


def everything(task: Task) -> Iterator[Answer]:
    """Every way there is."""
    for colours in product(range(len(task.yarns)), repeat=len(task.row_grams)):
        if kept(task, colours):
            yield summed(task, colours, Fraction(0), Fraction(0))


# ------------------------------------------------------------------------------------------------ trying everything


@SLOW
@given(tasks(7))
def test_trying_everything_never_beats_it(task: Task) -> None:
    answer = solve(task)
    assert answer.exact
    assert kept(task, answer.colours)
    best = min((one.score for one in everything(task)), default=None)
    assert best is not None
    assert answer.score == best


@SLOW
@given(tasks(7))
def test_no_plan_beats_the_bounds(task: Task) -> None:
    """Among all ways, not only those the search looks at."""
    short, rest = shortage_bound(task), rest_bound(task)
    for one in everything(task):
        assert sum(one.short) >= short
        assert max(0, *one.rests) >= rest


@SLOW
@given(tasks(7, alike=True))
def test_no_plan_beats_the_bounds_where_rows_weigh_alike(task: Task) -> None:
    test_no_plan_beats_the_bounds.hypothesis.inner_test(task)  # type: ignore[attr-defined]


def test_a_wrong_bound_would_be_found() -> None:
    """The comparison can fail: half a gram more than the bound is beaten."""
    grams = (Fraction(2),) * 4
    task = Task(("A", "B"), (Fraction(5), Fraction(7)), grams, (Fraction(0),) * 2, (Thread(0, 3, 1),), Wishes((1, 2)))
    assert rest_bound(task) == min(max(one.rests) for one in everything(task)) == 3


@SLOW
@given(tasks(40))
def test_large_ones_keep_to_wishes_and_stock(task: Task) -> None:
    answer = solve(task)
    assert kept(task, answer.colours)
    assert sum(answer.fabric) == task.weight
    assert sum(answer.short) >= answer.least_short
    assert max(0, *answer.rests) >= answer.least_rest
    for room, fabric, tails, short in zip(task.room, answer.fabric, answer.tails, answer.short, strict=True):
        assert fabric + tails <= room + short
    if answer.possible:
        assert not answer.least_short


@pytest.mark.slow
def test_large_searches_do_not_fall_far_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    """Made to go the large way, small tasks come out within half a row of the best."""
    monkeypatch.setattr(solving, "EXACT_ROWS", 0)
    for seed in range(8):
        weights = tuple(Fraction(3 + (seed * 7 + i * i * 5) % 11, 2) for i in range(7))
        room = tuple(sum(weights) * Fraction(share, 10) for share in (4, 5, 3))
        task = Task(("A", "B", "C"), room, weights, (Fraction(1, 10),) * 3, (Thread(0, 6, 1),), Wishes((1, 2)))
        near = solve(task)
        best = min(one.score for one in everything(task))
        assert not near.exact
        assert near.possible
        assert near.score.largest_rest - best.largest_rest <= max(weights) / 2


def test_level() -> None:
    holds = (Fraction(1), Fraction(5), Fraction(9))
    assert [level(holds, Fraction(left)) for left in (0, 3, 5, 11, 15)] == [0, 1, 2, 5, 9]


# ------------------------------------------------------------------------------------------------------- whole plans


def pattern_of(*stocks: int, rows: int = 20, **more: object) -> Pattern:
    """Two panels of 20 cm by 1 cm rows, one made twice, at 0.1 g a square cm: 2 g a row, 3 rows of each number."""
    pieces = (
        Piece("one", width=Fraction(20), length=Fraction(rows)),
        Piece("two", width=Fraction(20), length=Fraction(rows // 2), count=2),
    )
    yarns = tuple(
        Yarn(name, "#777777", Fraction(grams), Fraction(250)) for name, grams in zip("ABCD", stocks, strict=False)
    )
    return Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10), Fraction(20)),),
        tuple(replace(piece, row_plan="alternate") for piece in pieces),
        yarns=yarns,
        stripes=replace(Stripes(kind="stash"), **more),  # type: ignore[type-var]
        allowance=Allowance(Fraction(10)),
    )


def planned(*stocks: int, rows: int = 20, **more: object) -> Plan:
    """The plan of ``pattern_of``."""
    return plan_pattern(pattern_of(*stocks, rows=rows, **more))


def test_a_plan_never_overspends() -> None:
    """The yarn figures, reckoned apart, find the stock enough, and the same rows lie side by side in both pieces."""
    plan = planned(50, 40, 30)
    answer = answer_of(plan)
    assert answer is not None
    assert answer.possible
    for need in yarn.figures(plan).needs:
        assert need.left is not None
        assert need.left >= 0
    one, two = plan.pieces
    assert [row.colour for row in one.rows[:10]] == [row.colour for row in two.rows]
    assert sum(answer.task.row_grams) == 2 * 20 + 2 * 2 * 10
    assert [t.count for t in answer.task.threads] == [1, 2]


def test_wishes_are_kept() -> None:
    plan = planned(50, 40, 40, least=2, most=4, even=True, apart=2)
    answer = answer_of(plan)
    assert answer is not None
    assert answer.task.wishes == Wishes((2, 4), 2)
    assert kept(answer.task, answer.colours)


def test_the_yarn_to_be_used_up_goes_first() -> None:
    usual, first = answer_of(planned(50, 50, 50)), answer_of(planned(50, 50, 50, use_up=("B",)))
    assert usual is not None
    assert first is not None
    assert first.rests[1] < usual.rests[1]
    assert first.rests[1] == min(first.rests) < 2


def test_what_is_kept_back_and_what_other_pieces_take_is_not_given_out() -> None:
    plan = planned(50, 40, 30)
    whole = task_of(plan, ("one", "two"))
    keeping = replace(plan.pattern, yarns=tuple(replace(y, keep=Fraction(11)) for y in plan.pattern.yarns))
    assert task_of(replace(plan, pattern=keeping), ("one", "two")).room == tuple(room - 10 for room in whole.room)
    own = replace(plan.pattern.pieces[1], stripes=Stripes(("A",)))
    apart = coloured(replace(plan, pattern=replace(plan.pattern, pieces=(plan.pattern.pieces[0], own))))
    part = task_of(apart, stash_pieces(apart))
    assert part.room[0] == whole.room[0] - 40 - 4 * Fraction(15, 250)
    assert part.room[1:] == whole.room[1:]


def test_too_little_tells_who_falls_short_and_what_can_be_done() -> None:
    plan = planned(30, 30, 20)
    answer = answer_of(plan)
    assert answer is not None
    assert not answer.possible
    assert sum(answer.short) >= answer.least_short > 0
    told = lines(plan)
    assert any(" falls short by " in line and " margin included, about " in line for line in told)
    assert any(line.startswith("every plan within your wishes is short of at least ") for line in told)
    other = nearest(answer.task)
    assert other is not None
    assert other.answer.possible
    assert "of 20 rows" in other.words
    more = int(other.words.split()[1]) + 1
    assert not solve(answer.task.shortened(more)).possible


def test_what_is_told_on_the_way_is_what_the_answer_comes_to() -> None:
    """Sums over its rows: what is missing, or the most that is left of a yarn."""
    answer = answer_of(planned(30, 30, 20))
    assert answer is not None
    missing = sum(max(Fraction(0), used + tails - room)
                  for used, tails, room in zip(answer.fabric, answer.tails, answer.task.room, strict=True))  # fmt: skip
    assert f": {float(missing):.1f} g short so far; at least {float(answer.least_short):.1f} g" in on_the_way(answer)
    enough = answer_of(planned(200, 160, 160))
    assert enough is not None
    left = max(room - used for room, used in zip(enough.task.room, enough.fabric, strict=True))
    assert f"most left of a yarn is {float(left):.1f} g so far; at least" in on_the_way(enough)


def test_a_wish_less_may_do() -> None:
    """Much of one yarn and little of two, and no yarn back before two others: only one of those wishes can be had."""
    plan = planned(200, 16, 16, apart=2)
    answer = answer_of(plan)
    assert answer is not None
    assert not answer.possible
    other = nearest(answer.task)
    assert other is not None
    assert other.words == "with apart = 1"
    assert kept(other.answer.task, other.answer.colours)


def test_wishes_are_loosened_as_their_words_say() -> None:
    """The words, read again: heights from 1 to what they name, and no yarn back before so many others."""
    seen = set()
    for heights in ((2,), (2, 3), (1, 4)):
        wishes = Wishes(heights, apart=2)
        for words, loose in solving._loosened(wishes):
            if found := re.search(r"stripes of 1 to (\d+) rows", words):
                assert loose.heights == tuple(range(1, int(found[1]) + 1))
                assert int(found[1]) == 2 * max(heights)
            elif "odd heights" in words:
                assert loose.heights == tuple(range(min(heights), max(heights) + 1)) != heights
            apart = re.search(r"apart = (\d+)", words)
            assert loose.apart == (int(apart[1]) if apart else 2)
            seen.add(words)
    assert len(seen) == 8
    assert not any("apart = 0" in words for words, _ in solving._loosened(Wishes((1, 2))))


def test_rows_before_all_beginnings_are_not_told() -> None:
    """Two rows of the stripes that no piece has, and eight of 2 g of which 12 g reach for six."""
    grams = (Fraction(0),) * 2 + (Fraction(2),) * 8
    task = Task(("A", "B"), (Fraction(6),) * 2, grams, (Fraction(0),) * 2, (Thread(2, 9, 1),), Wishes((1,)))
    other = nearest(task)
    assert other is not None
    assert other.words == "with 6 of 8 rows"


def test_nothing_in_hand_for_a_single_row() -> None:
    assert lines(planned(1, 0, 0))[-1] == "the stock is not enough for a single row"


def test_words() -> None:
    told = lines(planned(50, 50, 50))
    assert told[0].startswith("stripes from the stash: ")
    assert "left after the margin, before tails: A " in told[1]
    assert "no plan within your wishes is better than this one" in told[1]
    assert "C: in no stripe" in lines(planned(100, 100, 0))
    assert lines(coloured(plan_pattern(pattern_file.read_file(CASES / "heron_top.toml")))) == []


def test_the_heron_top_from_its_stash() -> None:
    """Over four pieces and three shapes: enough, within a gram or two of what no plan can beat, and always the same."""
    heron = pattern_file.read_file(CASES / "heron_top.toml")
    plan = plan_pattern(replace(heron, stripes=Stripes(kind="stash", even=True, apart=2)))
    done = coloured(plan)
    answer = answer_of(done)
    assert answer is not None
    assert answer.possible
    assert max(answer.rests) - answer.least_rest < 2
    assert all(need.left is not None and need.left > 0 for need in yarn.figures(done).needs)
    forget()
    assert coloured(plan) == done


def test_a_rectangle_reaches_the_bound() -> None:
    """100 alike rows of five yarns: whole rows cannot be shared out better."""
    room = tuple(Fraction(share) for share in (210, 230, 250, 270, 290))
    task = Task(
        tuple("ABCDE"), room, (Fraction(10),) * 100, (Fraction(1, 20),) * 5, (Thread(0, 99, 1),), Wishes((2, 3, 4), 2)
    )
    answer = solve(task)
    assert answer.possible
    assert max(answer.rests) == answer.least_rest


# ---------------------------------------------------------------------------------------------------- pieces begun


def begun_pattern(worked: int, tight: int, stocks: tuple[int, ...], **more: object) -> Pattern:
    """Panel "one" with ``worked`` rows done, each ``tight`` hundredths of the height planned."""
    made = pattern_of(*stocks, rows=30, **more)
    high = Fraction(worked * tight, 100)
    return replace(made, progress=(Progress("one", worked, high),))


@pytest.mark.slow
@pytest.mark.parametrize("tight", [88, 100, 112])
@pytest.mark.parametrize("worked", [1, 2, 5, 11, 24])
@pytest.mark.parametrize(
    ("stocks", "more"),
    [
        ((60, 60, 60), {}),
        ((90, 60, 60), {"apart": 2, "even": True}),
        ((200, 15, 15), {"use_up": ("B",)}),
        ((50, 50, 50, 50), {"least": 3, "most": 5}),
        ((60, 50, 45), {"least": 1, "most": 3}),
    ],
)
def test_a_piece_begun_goes_on_from_what_its_rows_left(
    worked: int, tight: int, stocks: tuple[int, ...], more: dict[str, object]
) -> None:
    """Over 75 files: worked rows keep their yarns, the report tells the stripes of the chart, wishes hold across what
    is worked, and a stock called sufficient is: the yarn figures, reckoned apart, find it so."""
    pattern = begun_pattern(worked, tight, stocks, **more)
    first, plan = plan_pattern(replace(pattern, progress=())), plan_pattern(pattern)
    done = [row.colour for row in first.piece("one").rows[:worked]]
    assert [row.colour for row in plan.piece("one").rows[:worked]] == done
    assert all(a.colour == b.colour for a, b in zip(plan.piece("one").rows, plan.piece("two").rows, strict=False))
    answer = answer_of(plan)
    assert answer is not None
    drawn = [row.colour for row in max(plan.pieces, key=lambda piece: piece.row_count).rows]
    assert [answer.task.yarns[index] for index in answer.colours] == drawn
    assert solve(task_of(plan, stash_pieces(plan))).colours == answer.colours
    assert kept(answer.task, answer.colours)
    assert sum(answer.short) >= shortage_bound(answer.task)
    if answer.possible:
        assert all(need.left is not None and need.left >= 0 for need in yarn.figures(plan).needs)


@pytest.mark.parametrize("begins", [1, 3])
def test_rows_of_the_stripes_count_as_worked_from_where_a_piece_begins_in_them(begins: int) -> None:
    """5 rows worked of a piece whose row 1 takes row 3 of the stripes: the first 7 of them are settled."""
    pattern = begun_pattern(5, 100, (60, 50, 45))
    pieces = [replace(piece, stripes_begin=begins) for piece in pattern.pieces]
    plan = plan_pattern(replace(pattern, pieces=tuple(pieces)))
    task = task_of(plan, stash_pieces(plan))
    assert len(task.worked) == begins - 1 + 5
    colours = [row.colour for row in plan.piece("one").rows[:5]]
    assert [task.yarns[index] for index in task.worked[begins - 1 :]] == colours
    assert set(task.worked[: begins - 1]) <= {0}  # what no piece works


def test_stripes_after_worked_rows_can_be_kept_as_a_list() -> None:
    """Pasted, they give the same rows; the report says so where rows are worked, and only there."""
    pattern = begun_pattern(11, 112, (60, 50, 45))
    plan = plan_pattern(pattern)
    answer = answer_of(plan)
    assert answer is not None
    keys = tomllib.loads(as_list(answer))["stripes"]
    pasted = Stripes(tuple(keys["order"]), tuple(keys["rows"]))
    again = plan_pattern(replace(pattern, stripes=pasted))
    colours = [[[row.colour for row in piece.rows] for piece in made.pieces] for made in (plan, again)]
    assert colours[0] == colours[1]
    assert as_list(answer).splitlines() == lines(plan)[2:5]
    assert not any("paste" in line for line in lines(plan_pattern(replace(pattern, progress=()))))


@SLOW
@given(tasks(7), st.integers(1, 5))
def test_trying_everything_after_worked_rows_never_beats_it(task: Task, rows: int) -> None:
    first = solve(task).colours[: min(rows, len(task.row_grams) - 1)]
    begun = replace(task, worked=first)
    answer = solve(begun)
    ways = [one for one in everything(begun) if one.colours[: len(first)] == first]
    assert answer.colours[: len(first)] == first
    assert answer.score == min(one.score for one in ways)
    for one in ways:
        assert sum(one.short) >= shortage_bound(begun)
        assert one.score.largest_rest >= rest_bound(begun)


def test_worked_rows_that_took_too_much_are_short_for_good() -> None:
    task = Task(
        ("A", "B"), (Fraction(3), Fraction(50)), (Fraction(2),) * 6, (Fraction(0),) * 2, (Thread(0, 5, 1),),
        Wishes((1, 2)), (0, 0),
    )  # fmt: skip
    assert shortage_bound(task) == sum(solve(task).short) == 3  # a gram of what is worked, and another row
    assert nearest(task) is None


# ---------------------------------------------------------------------------------------------- where stripes differ


@SLOW
@given(tasks(7), st.integers(1, 3))
def test_rows_that_should_differ_at_a_seam_are_weighed_after_the_stock(task: Task, off: int) -> None:
    """Trying everything finds no plan with fewer rows that meet their own yarn, and none that is short of less."""
    pairs = tuple((row, row + off) for row in range(len(task.row_grams) - off))
    wish = replace(task, wishes=replace(task.wishes, differ=pairs, barred=((0, 0),)))
    assert solve(wish).score == min(one.score for one in everything(wish))


def test_a_large_search_keeps_rows_apart_at_a_seam() -> None:
    """Each row and that five rows on are sewn together: in 60 rows of four yarns no two are alike."""
    wishes = Wishes((1, 2, 3, 4), differ=tuple((row, row + 5) for row in range(55)))
    room = tuple(Fraction(share) for share in (40, 40, 44, 50))
    task = Task(tuple("ABCD"), room, (Fraction(2),) * 60, (Fraction(0),) * 4, (Thread(0, 59, 1),), wishes)
    answer = solve(task)
    assert answer.possible
    assert answer.score.meet == 0
    assert all(answer.colours[row] != answer.colours[row + 5] for row in range(55))


def test_a_search_that_is_stopped_keeps_its_best() -> None:
    task = task_of(planned(300, 300, 300, rows=120), ("one", "two"))

    def stop(answer: Answer) -> None:
        raise KeyboardInterrupt

    forget()
    with pytest.raises(solving.StoppedSearch) as stopped:
        solve(task, stop)
    assert kept(task, stopped.value.answer.colours)
    assert stopped.value.answer.colours == next(solving.improving(task)).colours


def test_a_report_that_is_stopped_still_has_the_stripes(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(task: Task) -> None:
        raise KeyboardInterrupt

    plan = planned(30, 30, 20)
    answer = answer_of(plan)
    assert answer is not None
    assert not answer.possible
    monkeypatch.setattr(from_plan, "nearest", stop)
    with pytest.raises(Stopped, match=re.escape(as_list(answer))):
        lines(plan)


def test_answers_on_the_way_are_ever_better() -> None:
    heron = reading_heron()
    for task in (heron, replace(heron, wishes=replace(heron.wishes, use_up=(1,)))):
        scores = [one.score for one in solving.improving(task)]
        assert scores == sorted(scores, reverse=True)


def reading_heron() -> Task:
    """The stash task of the heron top."""
    heron = pattern_file.read_file(CASES / "heron_top.toml")
    plan = plan_pattern(replace(heron, stripes=Stripes(kind="stash", even=True, apart=2)))
    return task_of(plan, stash_pieces(plan))


def test_a_task_cut_short_has_no_wish_for_rows_that_are_gone() -> None:
    threads = (Thread(0, 59, 1),)
    wishes = Wishes((1, 2), differ=tuple((row, row + 5) for row in range(55)), barred=((3, 0), (58, 1)))
    whole = Task(("A", "B"), (Fraction(9), Fraction(9)), (Fraction(1),) * 60, Fraction(0), threads, wishes)
    short = whole.shortened(10)
    assert len(short.row_grams) == 10
    assert short.wishes.differ == tuple((row, row + 5) for row in range(5))
    assert short.wishes.barred == ((3, 0),)


def test_too_little_stock_for_a_seam_whose_stripes_should_differ_is_told(tmp_path: Path) -> None:
    """A report, and no fault, where the search looks how many rows the stock reaches."""
    file = tmp_path / "two.toml"
    panel = "width = 60\nlength = 60\n"
    file.write_text(
        'title = "Two"\n[swatch]\nclusters = 8\nwidth = 14\nrows = 16\nheight = 14\nweight = 16\n'
        '[[yarn]]\nname = "Reed"\ncolour = "#557755"\nstock = 40\n'
        '[[yarn]]\nname = "Mud"\ncolour = "#aa8866"\nstock = 40\n[stripes]\nkind = "stash"\n'
        f'[[piece]]\nname = "one"\n{panel}[[piece]]\nname = "two"\nstripes_begin = 4\n{panel}'
        '[[seam]]\njoin = ["one.right", "two.left"]\nstripes = "differ"\n',
        "utf-8",
    )
    assert "rows" in report(plan_pattern(pattern_file.read_file(file)))


def test_a_thread_goes_through_all_rows_that_are_worked_without_joining_anew() -> None:
    """A piece of 20 rows and two of 10, rows counted from 0."""
    assert task_of(planned(100, 100), ("one", "two")).threads == (Thread(0, 19, 1), Thread(0, 9, 2))


def test_orders_to_choose_from_end_their_stripes_where_they_begin() -> None:
    """In stripes of an even number of rows yarns wait at the edge where they are taken up again."""
    found = dict(choices(planned(100, 100)))
    assert {name for name, stripes in found.items() if stripes.even} >= {"gradual", "random", "stash"}


@pytest.mark.parametrize(("start", "stop", "ends"), [(0, 4, 2), (4, 6, 0), (3, 7, 6), (6, 9, 4), (0, 10, 6)])
def test_a_stripe_makes_two_ends_in_every_thread_that_it_lies_in(start: int, stop: int, ends: int) -> None:
    """Rows 0 to 3 once, rows 6 to 9 twice."""
    threads = (Thread(0, 3, 1), Thread(6, 9, 2))
    task = Task(("A", "B"), (Fraction(9),) * 2, (Fraction(1),) * 10, (Fraction(0),) * 2, threads, Wishes((2,), 1, ()))
    assert task.ends(start, stop) == ends


def test_a_row_is_barred_from_the_yarn_it_meets_in_stripes_of_another_piece() -> None:
    """Two panels of 20 rows side by side, the other in stripes of two rows."""
    pattern = pattern_of(300, 300)
    other = replace(pattern.pieces[1], count=1, length=Fraction(20), stripes=Stripes(("A", "B"), (2,)))
    seam = Seam(("one.right", "two.left"), stripes="differ")
    plan = plan_pattern(replace(pattern, pieces=(pattern.pieces[0], other), seams=(seam,)))
    assert task_of(plan, ("one",)).wishes.barred == tuple((row, row // 2 % 2) for row in range(20))


def test_a_search_gives_up_keeping_all_ways_where_they_would_weigh_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """It goes on with a width, and still finds an answer."""
    two = (Fraction(90),) * 2
    task = Task(("A", "B"), two, (Fraction(1),) * 12, (Fraction(0),) * 2, (Thread(0, 11, 1),), Wishes((1, 2, 3)))
    assert solve(task).exact
    monkeypatch.setattr(search, "MOST_GRAMS", 2)
    with pytest.raises(search.TooMany):
        search.Search(task, None).run()
    assert search.Search(task, 10).run()
