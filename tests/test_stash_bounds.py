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
from turnchain.yarns.stash.task import Task, Thread, Wishes, rest_bound, shortage_bound


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
