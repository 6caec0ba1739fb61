"""How stripes from a stash are searched: what each step weighs and keeps, and which changes are tried on a way that is
found. All of it is reckoned again here in fractions, from nothing but the yarns of the rows; no published source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from test_stash import everything, kept, tasks
from turnchain.records import replace
from turnchain.yarns.stash import search, solving
from turnchain.yarns.stash.search import Search, _Ways
from turnchain.yarns.stash.solving import Improvement
from turnchain.yarns.stash.task import Answer, Stripe, Task, Thread, Wishes, ahead, aims, summed

FEW = settings(max_examples=15)
HEIGHTS = ((1, 2), (1, 2, 3), (2, 4), (1, 4), (2,), (1, 2, 4), (3, 5, 7))


@st.composite
def searched(draw: st.DrawFn, most_rows: int = 9, twice: bool = False) -> Task:
    """A task with all manner of heights, some rows worked, and wishes for seams; with ``twice`` as many yarns."""
    task = draw(tasks(most_rows))
    if twice:
        shares = Fraction(1, 4), Fraction(1), Fraction(2), Fraction(1, 2), Fraction(1), Fraction(3)
        room = tuple(grams * share for grams, share in zip(task.room * 2, shares, strict=False))
        task = replace(task, yarns=tuple("ABCDEF")[: len(room)], room=room, tail=task.tail * 2)
    rows, yarns = len(task.row_grams), len(task.yarns)
    heights, off = draw(st.sampled_from(HEIGHTS)), draw(st.integers(1, 3))
    done = draw(st.integers(0, min(4, rows - 1)))
    wishes = replace(
        task.wishes, heights=heights,
        differ=tuple((row, row + off) for row in range(rows - off) if row % 2),
        barred=draw(st.sampled_from([(), ((0, 0), (rows - 1, 1)), tuple((row, row % yarns) for row in range(rows))])),
    )  # fmt: skip
    later = Thread(draw(st.integers(1, rows - 1)), rows - 1, 1)
    worked = tuple(row // heights[0] % yarns for row in range(done))
    return replace(task, wishes=wishes, worked=worked, threads=(*task.threads, later))


def runs(colours: Sequence[int]) -> list[Stripe]:
    return [(index, len(list(run))) for index, run in groupby(colours)]


def rows_in(stripes: Sequence[Stripe]) -> tuple[int, ...]:
    return tuple(index for index, height in stripes for _ in range(height))


def grams(task: Task, colours: Sequence[int]) -> tuple[list[Fraction], list[Fraction]]:
    """What goes into the fabric of each yarn, and into its tails: two for every stripe and thread that share a row."""
    fabric, tails = ([Fraction(0)] * len(task.yarns) for _ in range(2))
    at = 0
    for index, height in runs(colours):
        stripe = set(range(at, at + height))
        fabric[index] += sum(task.row_grams[row] for row in stripe)
        for thread in task.threads:
            if stripe & set(range(thread.first, thread.last + 1)):
                tails[index] += 2 * thread.count * task.tail[index]
        at += height
    return fabric, tails


def short(task: Task, colours: Sequence[int]) -> Fraction:
    return sum((max(Fraction(0), a + b - c) for a, b, c in zip(*grams(task, colours), task.room, strict=True)),
               Fraction(0))  # fmt: skip


def meet(task: Task, colours: Sequence[int], first: int = 0) -> int:
    """Rows from ``first`` on that meet their own yarn at a seam."""
    new = range(max(first, len(task.worked)), len(colours))
    return sum(colours[low] == colours[high] for low, high in task.wishes.differ if high in new) + sum(
        colours[row] == index for row, index in task.wishes.barred if row in new
    )


def off(task: Task, colours: Sequence[int]) -> float:
    """The squares, summed, of how far each yarn is from what it should have taken by this row: of the grams to aim at
    the share that the rows since those worked have of all that were still to be worked."""
    done = len(task.worked)
    share = sum(task.row_grams[done : len(colours)]) / (sum(task.row_grams[done:]) or 1)
    taken = [a - b for a, b in zip(grams(task, colours)[0], grams(task, task.worked)[0], strict=True)]
    return sum((float(one) - aim * float(share)) ** 2 for one, aim in zip(taken, aims(ahead(task)), strict=True))


class Watched(Search):
    """A search that keeps what it had before and after every choice."""

    def __init__(self, task: Task, width: int | None) -> None:
        super().__init__(task, width)
        self.chosen: list[tuple[int, _Ways, _Ways]] = []
        self.went: list[tuple[int, int, _Ways, _Ways]] = []

    def _best_of(self, ways: _Ways, row: int) -> _Ways:
        best = super()._best_of(ways, row)
        self.chosen.append((row, ways, best))
        return best

    def _onwards(self, ways: _Ways, row: int, stop: int) -> _Ways:
        on = super()._onwards(ways, row, stop)
        self.went.append((row, stop, ways, on))
        return on


def colours_of(ways: _Ways, row: int) -> list[tuple[int, ...]]:
    return [tuple(int(one) for one in colours[:row]) for colours in ways.colours]


def alike(task: Task, row: int, colours: Sequence[int]) -> tuple[object, ...]:
    """What all that comes after a way depends on: what is left of each yarn, the yarns that may not come yet, and the
    rows that are still to be sewn to others."""
    fabric, tails = grams(task, colours)
    apart = min(task.wishes.apart, len(task.yarns) - 1)
    ahead = sorted({low for low, high in task.wishes.differ if low < row <= high})
    return tuple(fabric), tuple(tails), tuple(runs(colours)[-apart:]) and tuple(
        index for index, _ in runs(colours)[-apart:]
    ), tuple(colours[low] for low in ahead)


# ------------------------------------------------------------------------------------------------- what is weighed


@FEW
@given(searched(), st.sampled_from([None, 2, 5]))
def test_a_way_is_what_its_rows_come_to(task: Task, width: int | None) -> None:
    """Its grams, its last yarns, its stripes and the rows that meet their own yarn, at every row it reaches."""
    looking = Watched(task, width)
    looking.run()
    apart = max(1, min(task.wishes.apart, len(task.yarns) - 1))
    for row, ways, _ in looking.chosen:
        for nth, colours in enumerate(colours_of(ways, row)):
            fabric, tails = grams(task, colours)
            assert ways.fabric[nth] == pytest.approx([float(one) for one in fabric])
            assert ways.tails[nth] == pytest.approx([float(one) for one in tails])
            assert ways.stripes[nth] == len(runs(colours))
            assert ways.meet[nth] == meet(task, colours)
            last = [index for index, _ in runs(colours)[::-1]][:apart]
            assert ways.recent[nth].tolist() == [*last, *[-1] * (apart - len(last))]
            assert set(ways.colours[nth, row:].tolist()) <= {-1}
            assert colours[: len(task.worked)] == task.worked


@FEW
@given(searched(10, twice=True), st.sampled_from([2, 3]))
def test_what_a_further_stripe_comes_to(task: Task, width: int) -> None:
    """Of every yarn that may come next: the grams beyond the stock and how far the yarns are from the aim, after it,
    and how many rows of it meet their own yarn."""
    looking = Watched(task, width)
    looking.run()
    apart = min(task.wishes.apart, len(task.yarns) - 1)
    for row, stop, ways, on in looking.went:
        over, far = looking._weighed(ways, row, stop)
        met = looking._meeting(ways, row, stop)
        found = []
        for nth, colours in enumerate(colours_of(ways, row)):
            for index in range(len(task.yarns)):
                if index not in [one for one, _ in runs(colours)[-apart:]]:
                    after = (*colours, *[index] * (stop - row))
                    assert over[nth, index] == pytest.approx(float(short(task, after)), abs=2e-6)
                    assert far[nth, index] == pytest.approx(off(task, after), abs=2e-6)
                    assert met[nth, index] == meet(task, after, row)
                    found.append(((over[nth, index], met[nth, index], far[nth, index]), after))
        assert colours_of(on, stop) == [after for _, after in sorted(found, key=lambda one: one[0])[: 2 * width]]


# --------------------------------------------------------------------------------------------------- what is kept


@FEW
@given(searched(10, twice=True), st.sampled_from([2, 3]))
def test_no_better_way_is_left_out_at_a_row(task: Task, width: int) -> None:
    """First the grams beyond the stock, then the rows that meet, then how far from the aim: of those left out none is
    better than one kept, but where another that comes to the same is kept."""
    looking = Watched(task, width)
    looking.run()
    for row, ways, best in looking.chosen:
        all_of, those = colours_of(ways, row), colours_of(best, row)
        keys = {one: (round(float(short(task, one)), 5), meet(task, one), off(task, one)) for one in all_of}
        marks = {alike(task, row, one) for one in those}
        assert len(those) == len(marks) <= width
        worst = max(keys[one] for one in those)
        for one in all_of:
            assert keys[one] >= (*worst[:2], worst[2] - 1e-5) or alike(task, row, one) in marks


@FEW
@given(searched())
def test_of_ways_that_come_to_the_same_one_is_kept(task: Task) -> None:
    """Where all are kept: one of each, with the fewest rows that meet, and of those the fewest stripes."""
    looking = Watched(task, None)
    looking.run()
    for row, ways, best in looking.chosen:
        least: dict[tuple[object, ...], tuple[int, int]] = {}
        for one in colours_of(ways, row):
            mark, weight = alike(task, row, one), (meet(task, one), len(runs(one)))
            least[mark] = min(least.get(mark, weight), weight)
        those = colours_of(best, row)
        assert len(those) == len(least)
        assert {alike(task, row, one): (meet(task, one), len(runs(one))) for one in those} == least


@FEW
@given(searched(6), st.sampled_from([None, 10_000]))
def test_a_search_that_leaves_nothing_out_finds_the_best(task: Task, width: int | None) -> None:
    """Its ways stand in order, the best first, and no way there is is better."""
    done = len(task.worked)
    ways = [one for one in everything(task) if one.colours[:done] == task.worked]
    known = {one.colours: one.score for one in ways}
    found = Search(task, width).run()
    assert len(found) <= search.MOST_SUMMED
    scores = [tuple(round(float(part), 6) for part in known[one]) for one in found]
    assert scores == sorted(scores)
    assert scores[0] == min(tuple(round(float(part), 6) for part in score) for score in known.values())


def test_yarns_can_stand_no_farther_apart_than_there_are_others() -> None:
    """Of three yarns each comes back after two others at the latest, whatever is wished."""
    for yarns in (2, 3):
        wishes = Wishes((1, 2), apart=yarns - 1)
        task = Task(("A", "B", "C")[:yarns], (Fraction(9),) * yarns, (Fraction(2), Fraction(3)) * 4,
                    (Fraction(1, 8),) * yarns, (Thread(0, 7, 1),), wishes)  # fmt: skip
        farther = replace(task, wishes=replace(wishes, apart=9))
        assert Search(farther, 4).apart == Improvement(farther, (0, 1)).apart == yarns - 1
        for width in (None, 4):
            assert Search(task, width).run() == Search(farther, width).run()
        colours = Search(task, 1).run()[0]
        assert [*Improvement(task, colours).run()] == [*Improvement(farther, colours).run()]


# ------------------------------------------------------------------------------------------------- small changes


@st.composite
def ways(draw: st.DrawFn) -> tuple[Task, tuple[int, ...]]:
    """A task, and stripes within its wishes."""
    task = draw(searched(16, draw(st.booleans())))
    lowest, rows = min(task.wishes.heights), len(task.row_grams)
    begun = [index for index, _ in runs(task.worked)]
    stripes = runs([index for index in begun for _ in range(lowest)][:rows])
    while (rows := sum(height for _, height in stripes)) < len(task.row_grams):
        near = [index for index, _ in stripes[-min(task.wishes.apart, len(task.yarns) - 1) :]]
        index = draw(st.sampled_from([one for one in range(len(task.yarns)) if one not in near]))
        stripes.append((index, min(draw(st.sampled_from(task.wishes.heights)), len(task.row_grams) - rows)))
    return task, rows_in(stripes)


def apart(task: Task, stripes: Sequence[Stripe]) -> bool:
    """Whether no yarn comes back before others as wished."""
    far = task.wishes.apart
    return all(one not in [other for other, _ in stripes[max(0, nth - far) : nth]]
               for nth, (one, _) in enumerate(stripes))  # fmt: skip


def changed(task: Task, stripes: Sequence[Stripe]) -> Iterator[tuple[int, list[Stripe]]]:
    """Every change there is, with its kind: a stripe in another yarn, two that exchange theirs, a step of rows from one
    to another. What is worked stays, but its last stripe may grow; the last stripe of all may be cut."""
    fixed, last, heights = len(runs(task.worked)), len(stripes) - 1, task.wishes.heights
    for nth in range(fixed, len(stripes)):
        for index in range(len(task.yarns)):
            one = [*stripes[:nth], (index, stripes[nth][1]), *stripes[nth + 1 :]]
            if index != stripes[nth][0] and apart(task, one):
                yield 0, one
        for other in range(nth + task.wishes.apart + 1, len(stripes)):
            one = list(stripes)
            one[nth], one[other] = (stripes[other][0], one[nth][1]), (stripes[nth][0], one[other][1])
            if stripes[nth][0] != stripes[other][0] and apart(task, one):
                yield 1, one
    step = min((high - low for low, high in pairwise(heights)), default=0)
    for nth in range(max(0, fixed - 1), len(stripes)) if step else ():
        for other in range(fixed, len(stripes)):
            grown, less = stripes[nth][1] + step, stripes[other][1] - step
            fits = grown in heights or (nth == last and grown <= max(heights))
            if stripes[nth][0] != stripes[other][0] and fits and less > 0 and (less in heights or other == last):
                one = list(stripes)
                one[nth], one[other] = (one[nth][0], grown), (one[other][0], less)
                yield 2, one


def tried(better: Improvement) -> Iterator[tuple[int, list[Stripe], list[float], list[float]]]:
    """Every change that is tried: its kind, the stripes with it, and the grams of fabric and tails as weighed."""
    arrays = solving._arrays(better.stripes)
    for kind, (first, second, fabric, tails) in enumerate(
        (better._other_yarns(*arrays), better._exchanged(*arrays), better._moved(*arrays))
    ):
        for nth in range(len(first)):
            yield kind, better._changed(kind, int(first[nth]), int(second[nth])), [*fabric[nth]], [*tails[nth]]


@settings(max_examples=40)
@given(ways())
def test_every_change_there_is_is_tried_and_no_other(both: tuple[Task, tuple[int, ...]]) -> None:
    task, colours = both
    assert kept(replace(task, wishes=replace(task.wishes, apart=1)), colours)
    found = sorted((kind, one) for kind, one, _, _ in tried(Improvement(task, colours)))
    assert found == sorted(changed(task, runs(colours)))


@settings(max_examples=30)
@given(ways(), st.booleans())
def test_changes_are_weighed_as_what_they_come_to(both: tuple[Task, tuple[int, ...]], even: bool) -> None:
    """Fabric and tails of a changed yarn to the gram. Rows that are moved past others are weighed where those stand, so
    only between neighbours, or where all rows weigh alike, is that what comes of it; their tails are as before."""
    task, colours = both
    if even:
        task = replace(task, row_grams=task.row_grams[:1] * len(task.row_grams))
    before = grams(task, colours)
    stripes = runs(colours)
    step = min((high - low for low, high in pairwise(task.wishes.heights)), default=0)
    for kind, one, fabric, tails in tried(Improvement(task, colours)):
        after = grams(task, rows_in(one))
        assert tails == pytest.approx([float(part) for part in (before if kind == 2 else after)[1]])
        moved = [nth for nth in range(len(stripes)) if stripes[nth] != one[nth]]
        if kind < 2 or even or (step == 1 and moved[1] == moved[0] + 1):
            assert fabric == pytest.approx([float(part) for part in after[0]])


def weighed(task: Task, stripes: Sequence[Stripe]) -> tuple[Fraction, ...]:
    """By what ways are compared: grams short, rows that meet, what is left of yarns to be used up, the largest rest,
    and how uneven the rests are."""
    colours = rows_in(stripes)
    rests = [room - one for room, one in zip(task.room, grams(task, colours)[0], strict=True)]
    own = sum(colours[a] == colours[b] for a, b in task.wishes.differ)
    own += sum(colours[row] == index for row, index in task.wishes.barred)
    left = sum(max(Fraction(0), rests[index]) for index in task.wishes.use_up)
    return short(task, colours), Fraction(own), Fraction(left), max(Fraction(0), *rests), sum(rest**2 for rest in rests)


@settings(max_examples=12)
@given(ways())
def test_changes_are_made_till_none_is_better(both: tuple[Task, tuple[int, ...]]) -> None:
    """Each way on the way is one change from the one before, and better; from the last, of those looked at in full (40)
    no change leads on."""
    task, colours = both
    at = runs(colours)
    better = Improvement(task, colours)
    for way in better.run():
        assert better.stripes in [one for _, one in changed(task, at)]
        assert rows_in(better.stripes) == way
        assert weighed(task, better.stripes) < weighed(task, at)
        at = list(better.stripes)
    everywhere = [one for _, one in changed(task, at)]
    if len(everywhere) <= solving._LOOKED_AT:
        assert all(weighed(task, one) >= weighed(task, at) for one in everywhere)


@FEW
@given(ways())
def test_the_most_promising_changes_come_first(both: tuple[Task, tuple[int, ...]]) -> None:
    """Least short of the stock, then least left of the yarns to be used up, then the smallest largest rest, then the
    most even rests; where rows weigh alike and ends nothing, so that every change is weighed to the gram."""
    task, colours = both
    task = replace(task, row_grams=task.row_grams[:1] * len(task.row_grams), tail=(Fraction(0),) * len(task.yarns))
    better = Improvement(task, colours)
    found = [*better._changes()]
    keys = [(one[0], *one[2:]) for one in (weighed(task, stripes) for stripes in found)]
    assert keys == sorted(keys)
    every = [one for _, one in changed(task, runs(colours))]
    assert len(found) == min(len(every), solving._LOOKED_AT)
    assert better.weighed == max(1, len(every) * len(task.yarns))


LOPSIDED = Task(("A", "B", "C"), (Fraction(30), Fraction(30), Fraction(30)), (Fraction(2),) * 30, (Fraction(0),) * 3,
                (Thread(0, 29, 1),), Wishes((1, 2)))  # fmt: skip


def test_changes_are_made_as_long_as_there_is_computing_left(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two yarns alone for 30 rows of which there is enough for half: many changes lead on from there. Those far apart
    are not tried."""
    whole = [*Improvement(LOPSIDED, (0, 1) * 15).run()]
    assert len(whole) > 4
    assert [whole[-1].count(index) for index in range(3)] == [10, 10, 10]
    for most, made in ((0, 0), (1, 1)):
        monkeypatch.setattr(solving, "MOST_WEIGHED", most)
        assert len([*Improvement(LOPSIDED, (0, 1) * 15).run()]) == made
    for reach in (1, 3):
        monkeypatch.setattr(solving, "_REACH", reach)
        pairs = [(int(one), int(other)) for one, other in zip(*Improvement(LOPSIDED, (0,))._pairs(6), strict=True)]
        assert sorted(pairs) == [(one, two) for one in range(6) for two in range(6) if 0 < abs(one - two) <= reach]


def came_to(task: Task, colours: tuple[int, ...]) -> Answer:
    return summed(task, colours, Fraction(0), Fraction(0))


@FEW
@given(searched(9), st.sampled_from([(1,), (1, 2)]))
def test_answers_come_one_after_the_other_each_better(task: Task, widths: tuple[int, ...]) -> None:
    """A search for each width, then changes; the last answer is the best of all of them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(solving, "EXACT_ROWS", 0)
        answers = [*solving.improving(task, widths)]
    scores = [one.score for one in answers]
    assert scores == sorted(scores, reverse=True)
    assert not any(one.exact for one in answers)
    first, *others = [[came_to(task, way) for way in Search(task, width).run()] for width in widths]
    assert scores[0] == min(one.score for one in first)
    if not answers[-1].at_the_bound:
        best = min(sum(others, first), key=lambda one: (one.score, one.colours))
        onwards = [came_to(task, way) for way in Improvement(task, best.colours).run()]
        assert scores[-1] == min(one.score for one in (best, *onwards))


def test_small_tasks_are_searched_whole_and_answers_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of up to so many rows; so many answers are kept at the most, and told of once."""
    monkeypatch.setattr(solving, "EXACT_ROWS", 6)
    monkeypatch.setattr(solving, "_MOST_KNOWN", 2)
    rows = [LOPSIDED.shortened(count) for count in (5, 6, 7)]
    solving.forget()
    assert [solving.solve(task).exact for task in rows] == [True, True, False]
    told: list[Answer] = []
    for task in rows * 2:
        solving.solve(task, told.append)
        assert 1 <= len(solving._KNOWN) <= 2
    solving.forget()
    solving.solve(rows[1], told.append)
    solving.solve(rows[-1], told.append)
    assert len(solving._KNOWN) == 2
    number = len(told)
    solving.solve(rows[-1], told.append)
    assert len(told) == number > 0
    solving.forget()
    solving.solve(rows[-1], told.append)
    assert len(told) > number


def test_all_ways_are_kept_up_to_so_many(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ways at a row, and grams of all that wait at a row before those alike are left out."""
    waiting: list[int] = []

    class Counting(Watched):
        def _count(self, arrived: list[_Ways]) -> None:
            waiting.append(sum(len(ways.stripes) for ways in arrived) * self.yarns)
            super()._count(arrived)

    looking = Counting(LOPSIDED.shortened(9), None)
    looking.run()
    at_a_row = max(len(best.stripes) for _, _, best in looking.chosen)
    for name, most in (("MOST_GRAMS", max(waiting)), ("MOST_EXACT", at_a_row)):
        with monkeypatch.context() as patch:
            patch.setattr(search, name, most)
            assert Search(looking.task, None).run()
            patch.setattr(search, name, most - 1)
            with pytest.raises(search.TooMany):
                Search(looking.task, None).run()


# ------------------------------------------------------------------------------------------- the grams to aim at


def most_of_each(task: Task) -> float:
    """The most grams of one yarn: as many of the heaviest rows as stripes of it can have, the highest ones with the
    lowest of the other yarns between them."""
    heights, rows = task.wishes.heights, len(task.row_grams)
    gap = min(task.wishes.apart, len(task.yarns) - 1) * min(heights)
    places, row = 0, 0
    while row < rows:
        places += min(max(heights), rows - row)
        row += max(heights) + gap
    return float(sum(sorted(task.row_grams, reverse=True)[:places]))


@settings(max_examples=60)
@given(tasks(12))
def test_aims_leave_even_rests(task: Task) -> None:
    """All rows are given out; each yarn has the same rest but where the rows cannot take more of it, or where there was
    less than that of it from the first. A yarn to be used up goes whole, as far as rows can take it."""
    if len(set(task.row_grams)) == 1:
        return
    found, most, weight = aims(task), most_of_each(task), float(task.weight)
    room = [float(one) for one in task.room]
    first = task.wishes.use_up
    for index in first:
        assert found[index] == pytest.approx(min(room[index], most, weight))
    others = [index for index in range(len(room)) if index not in first]
    left = weight - sum(found[index] for index in first)
    assert sum(found[index] for index in others) == pytest.approx(min(left, most * len(others)), abs=1e-6)
    rests = [room[index] - found[index] for index in others if 1e-6 < found[index] < most - 1e-6]
    assert all(rest == pytest.approx(rests[0], abs=1e-6) for rest in rests)
    for index in others:
        rest = room[index] - found[index]
        if rests and found[index] <= 1e-6:
            assert rest <= rests[0] + 1e-6
        if rests and found[index] >= most - 1e-6:
            assert rest >= rests[0] - 1e-6


@pytest.mark.parametrize(
    ("room", "rows", "heights", "tail", "expected"),
    [
        # 30 rows of 2 g: 30 of 90 g are left, 10 of each.
        ((40, 30, 20), 30, (1, 2), 0, (30, 20, 10)),
        # In twos the richest takes the next two rows (4 g) each time: 8, 5 and 2 times, which leaves 8, 10 and 12.
        ((40, 30, 20), 30, (2, 4), 0, (32, 20, 8)),
        # No stripe has less than four rows: 4 and 4, and the last two to the one that has more.
        ((20, 20), 10, (4, 6), 0, (12, 8)),
        # A thread of two ends of 2 g each: of 20 g only 16 can be rows, in fours 16; the other takes the rest.
        ((20, 100), 40, (4,), 2, (0, 80)),
        # Only seven rows fit into 15 g, so in twos six; the others go to the other yarn.
        ((15, 8), 10, (2,), 0, (12, 8)),
        # Too little of both: when each has what it can take, the richer has the rest.
        ((5, 9), 10, (1,), 0, (8, 12)),
        # A yarn of which there is less than the lowest stripe takes is left alone.
        ((5, 60), 12, (3,), 0, (0, 24)),
    ],
)
def test_aims_where_rows_weigh_alike_are_whole_rows(
    room: tuple[int, ...], rows: int, heights: tuple[int, ...], tail: int, expected: tuple[int, ...]
) -> None:
    task = Task(tuple("ABC"[: len(room)]), tuple(map(Fraction, room)), (Fraction(2),) * rows,
                (Fraction(tail),) * len(room), (Thread(0, rows - 1, 1),), Wishes(heights))  # fmt: skip
    assert tuple(aims(task)) == expected


@pytest.mark.parametrize(
    ("room", "use_up", "expected"),
    [
        # 16 g of rows of 3 and 5 g: 4 g are left of each.
        ((10, 14), (), (6, 10)),
        ((10, 14), (0, 1), (6, 10)),  # where all are to be used up, none comes before another
        ((10, 14), (0,), (10, 6)),
        ((20, 14), (0,), (16, 0)),
        ((12, 12, 50), (0, 1), (8, 8, 0)),  # of more than the rows take, the same share of each
        ((12, 4, 50), (0, 1), (12, 4, 0)),
        ((3, 4, 50), (0, 1), (3, 4, 9)),
        ((3, 30, 50), (0,), (3, 0, 13)),  # 30 and 37 g
        ((3, 40, 30), (0,), (3, 11.5, 1.5)),  # 28.5 g of both
        ((-2, 30), (0,), (0, 16)),
    ],
)
def test_aims_where_yarns_are_to_be_used_up(
    room: tuple[int, ...], use_up: tuple[int, ...], expected: tuple[float, ...]
) -> None:
    task = Task(tuple("ABC"[: len(room)]), tuple(map(Fraction, room)), (Fraction(3), Fraction(5)) * 2,
                (Fraction(0),) * len(room), (Thread(0, 3, 1),), Wishes((4,), use_up=use_up))  # fmt: skip
    assert aims(task) == pytest.approx(expected)
