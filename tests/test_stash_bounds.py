"""What no stripes from a stash can beat, as the proof reckons it by trying: held against the bounds that the search
gives, and against stripes that are worse on purpose. No published source; all of it follows from the wishes alone."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from test_stash import tasks
from turnchain.proof.compared import stash_bounds
from turnchain.proof.compared.stash_bounds import Share, StashAsked
from turnchain.records import replace
from turnchain.yarns.stash.solving import solve
from turnchain.yarns.stash.task import Score, Task, Thread, Wishes, level, rest_bound, shortage_bound, summed


def share_of(task: Task, colours: tuple[int, ...]) -> Share:
    wishes, first = task.wishes, tuple(task.yarns[index] for index in task.wishes.use_up)
    asked = StashAsked(task.yarns, wishes.heights, wishes.apart, first)
    yarns = tuple(task.yarns[index] for index in colours)
    stretches = tuple((one.first, one.last, one.count) for one in task.threads)
    return Share(asked, task.row_grams, yarns, len(task.worked), task.room, task.tail, stretches)


@settings(max_examples=40)
@given(tasks(9))
def test_the_least_rest_is_the_bound_of_the_search(task: Task) -> None:
    found = stash_bounds.least_rest(share_of(task, (0,) * len(task.row_grams)))
    assert float(found) == pytest.approx(float(rest_bound(task)), abs=1e-6)


@settings(max_examples=40)
@given(tasks(9, alike=True))
def test_the_least_rest_of_rows_that_weigh_alike(task: Task) -> None:
    assert stash_bounds.least_rest(share_of(task, (0,) * len(task.row_grams))) == rest_bound(task)


@settings(max_examples=40)
@given(tasks(7))
def test_no_better_stripes_are_found_than_those_that_cannot_be_beaten(task: Task) -> None:
    answer = solve(task)
    assert answer.exact
    assert stash_bounds.better(share_of(task, answer.colours)) is None
    assert stash_bounds.least_short(share_of(task, answer.colours)) <= shortage_bound(task) <= sum(answer.short)


def test_worse_stripes_are_found_out() -> None:
    rows = (Fraction(5),) * 6
    room = Fraction(20), Fraction(20)
    task = Task(("A", "B"), room, rows, (Fraction(0),) * 2, (Thread(0, 5, 1),), Wishes((1, 2)))
    assert stash_bounds.better(share_of(task, (0, 0, 1, 1, 0, 1))) is None
    assert stash_bounds.better(share_of(task, (0, 0, 1, 0, 0, 1))) == ["A 1", "B 1"] * 3


def test_what_is_kept_beyond_the_stock_is_short_in_every_plan() -> None:
    """Of a yarn of which more is kept than there is, that much was left out of what every plan is short of."""
    room = Fraction(-32), Fraction(3)
    task = Task(("A", "B"), room, (Fraction(1),) * 4, (Fraction(0),) * 2, (Thread(0, 3, 1),), Wishes((1, 2)))
    assert shortage_bound(task) == 33 + Fraction(0) == sum(solve(task).short)
    assert shortage_bound(replace(task, room=(Fraction(0), Fraction(3)))) == 1


# ------------------------------------------------------------------------------------------------ by hand

HALF = Fraction(1, 2)
ONCE, AND_TWICE = Thread(0, 9, 1), Thread(0, 9, 2)


def task_of(
    room: tuple[Fraction | int, ...], rows: tuple[int, ...], tail: Fraction = HALF,
    threads: tuple[Thread, ...] = (ONCE,), heights: tuple[int, ...] = (1, 2), worked: tuple[int, ...] = (),
    **wishes: tuple[object, ...],
) -> Task:  # fmt: skip
    """A task in whole grams; ends of the first yarn weigh ``tail``, those of the others twice that."""
    tails = (tail, *[2 * tail] * (len(room) - 1))
    return Task(tuple("ABC"[: len(room)]), tuple(map(Fraction, room)), tuple(map(Fraction, rows)), tails, threads,
                Wishes(heights, **wishes), worked)  # type: ignore[arg-type]  # fmt: skip


@pytest.mark.parametrize(
    ("task", "short"),
    [
        # 16 g of rows and 2 ends of the lighter tail, 1 g, from 12 g.
        (task_of((5, 7), (3, 4, 5, 4), heights=(4,)), 5),
        # Worked three times, in two threads: 6 ends, 3 g.
        (task_of((5, 7), (3, 4, 5, 4), threads=(ONCE, AND_TWICE), heights=(4,)), 7),
        # Single rows in turn: two rows of each yarn, 9 g at the most. Where there is more than that the ends may come
        # of what is over.
        (task_of((20, 3), (3, 4, 5, 4), heights=(1,)), 4),
        (task_of((9, 7), (3, 4, 5, 4), heights=(1,)), 1),
        (task_of((10, 7), (3, 4, 5, 4), heights=(1,)), 0),
        # The first row is worked: it took 3 g and two ends, so 1 + 7 g are there for 13 g.
        (task_of((5, 7), (3, 4, 5, 4), heights=(4,), worked=(0,)), 5),
        # It took 2 g more than there were, and 7 g are there for 13 g.
        (task_of((2, 7), (3, 4, 5, 4), heights=(4,), worked=(0,)), 8),
        # Rows of 2 g: two from 5 g and a gram over, so the fifth and the sixth lack a gram; others are short.
        (task_of((5, 5), (2,) * 5, Fraction(0)), 1),
        (task_of((5, 5), (2,) * 6, Fraction(0)), 2),
        (task_of((5, 5), (2,) * 8, Fraction(0)), 6),
        (task_of((5, 5, 3), (2,) * 6, Fraction(0)), 1),
        # Two ends of half a gram leave 4 and 4 g, or of one gram 3: four rows, and one of them lacks half of it.
        (task_of((5, 5), (2,) * 4), 1),
        (task_of((5, 5), (2,) * 4, threads=(AND_TWICE, ONCE)), 1),
        # Made twice, four ends of a gram leave nothing of 1 g, and of two grams 1 of 9: rows lack 2, 1, 2 and 2 g.
        (task_of((1, 9), (2,) * 4, Fraction(1), threads=(AND_TWICE,)), 7),
        # After a worked row of 2 g and its ends 3 and 5 g are there for four rows: one lacks a gram.
        (task_of((6, 5), (2,) * 5, worked=(0,)), 1),
        # Rows that no piece has weigh nothing.
        (task_of((0, 0), (0,) * 4, Fraction(0)), 0),
    ],
)
def test_what_every_plan_is_short_of_by_hand(task: Task, short: int) -> None:
    assert shortage_bound(task) == short
    assert sum(solve(task).short) >= short


@pytest.mark.parametrize(
    ("task", "rest"),
    [
        (task_of((5, 7), (2,) * 4), 3),  # 4 g in all are left: one and three rows leave 3 and 1, or two and two 1 and 3
        (task_of((5, 7), (1, 3, 2, 2), heights=(2,)), 2),  # 2 g of each
        (task_of((5, 7), (2,) * 4, worked=(0, 1, 1, 1)), 3),  # nothing is ahead: what is left is left
        (task_of((50, 7), (1, 3, 2, 2), heights=(1,)), 45),  # two rows of A at the most, 5 g
        (task_of((HALF, HALF), (1, 2), Fraction(0)), 0),
        (task_of((HALF, 4), (1, 2), Fraction(0)), 1),  # 1 g more than that is left, beside the half gram: 1 of B
    ],
)
def test_the_least_rest_by_hand(task: Task, rest: int) -> None:
    assert rest_bound(task) == rest
    assert max(0, *solve(task).rests) >= rest


@pytest.mark.parametrize(
    ("left", "even"), [(0, 0), (HALF, HALF / 2), (1, HALF), (2, Fraction(3, 2)), (Fraction(7, 2), 3), (9, 3)]
)
def test_what_is_left_evenly_of_less_than_a_gram(left: Fraction, even: Fraction) -> None:
    """Of half a gram and three."""
    assert level((HALF, Fraction(3)), Fraction(left)) == even


@pytest.mark.parametrize(
    ("task", "colours", "score", "best"),
    [
        (task_of((5, 8), (2,) * 4), (0, 1, 1, 1), Score(0, 0, 0, 3, 2), True),  # 2 g and 1 g of tails, 6 g and 2 g
        (task_of((4, 7), (2,) * 4, use_up=(0,)), (0, 1, 1, 1), Score(1, 0, 2, 2, 2), False),
        (task_of((5, 8), (2,) * 4, use_up=(0,)), (0, 1, 1, 1), Score(0, 0, 3, 3, 2), False),
        (task_of((5, 8), (2,) * 4, differ=((2, 3),)), (0, 1, 1, 1), Score(0, 1, 0, 3, 2), False),
        (task_of((5, 8), (2,) * 4, barred=((0, 0), (3, 0))), (0, 1, 1, 1), Score(0, 1, 0, 3, 2), False),
        (task_of((5, 8), (2,) * 4, differ=((2, 3),), barred=((0, 0),)), (0, 1, 1, 1), Score(0, 2, 0, 3, 2), False),
        (task_of((2, 7), (2,) * 4), (0, 1, 1, 1), Score(2, 0, 0, 1, 2), False),
        (task_of((5, 9), (2,) * 4), (0, 0, 1, 0), Score(3, 0, 0, 7, 3), False),
        (task_of((2, 6 + HALF), (2,) * 4, Fraction(0)), (0, 1, 1, 1), Score(0, 0, 0, HALF, 2), True),
    ],
)
def test_what_an_answer_comes_to_by_hand(task: Task, colours: tuple[int, ...], score: Score, best: bool) -> None:
    """Grams short, rows that meet, what is left of a yarn to be used up, the largest rest, stripes; at the bound only
    where all but the rest is 0."""
    answer = summed(task, colours, Fraction(0), rest_bound(task))
    assert answer.score == score
    assert answer.at_the_bound is best
    assert not answer.exact


def test_a_task_cut_short_keeps_the_threads_and_wishes_of_its_rows() -> None:
    task = task_of((9, 9), (2,) * 10, threads=(Thread(0, 9, 1), Thread(4, 9, 2)), barred=((3, 1), (4, 0)))
    assert task.shortened(4).threads == (Thread(0, 3, 1),)
    assert task.shortened(5).threads == (Thread(0, 4, 1), Thread(4, 4, 2))
    assert task.shortened(7).threads == (Thread(0, 6, 1), Thread(4, 6, 2))
    assert task.shortened(4).wishes.barred == ((3, 1),)
