"""What is to be shared out, a way to share it, and what no way can beat.

In: nothing. Out: ``Task``, ``Answer`` and their parts, in exact grams; of a task the bounds that are true of every
plan within its wishes, and the grams of every yarn that would leave rests as even as can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import groupby
from math import gcd
from typing import NamedTuple, TypeAlias

from turnchain.records import frozen, replace

Grams: TypeAlias = tuple[Fraction, ...]  # one for every yarn
Stripe: TypeAlias = tuple[int, int]  # the index of its yarn, and how many rows it has


@frozen
class Thread:
    """A stretch worked without joining anew: rows ``first`` to ``last`` of the stripes (from 0, both included), made
    ``count`` times."""

    first: int
    last: int
    count: int


@frozen
class Wishes:
    """What stripes should be like.

    ``heights`` in rows that a stripe may have (the last may be cut), how many others stand ``apart`` two stripes of
    one yarn, and the yarns to ``use_up`` first, by their index. ``differ``: pairs of rows (from 0, the lower first)
    that lie side by side at a seam and should be in different yarns; ``barred``: a row, and the yarn that it meets
    in a piece of other stripes.
    """

    heights: tuple[int, ...]
    apart: int = 1
    use_up: tuple[int, ...] = ()
    differ: tuple[tuple[int, int], ...] = ()
    barred: tuple[tuple[int, int], ...] = ()


@frozen
class Task:
    """What is to be shared out.

    ``room``: grams that can go into each of ``yarns`` before the margin is added (what the stock holds beside what is
    kept, the margin and other pieces; below 0 where those take more); ``row_grams``: the weight of every row of the
    stripes, all pieces together; ``tail``: grams of each yarn at each of its ends; ``threads`` make the ends.
    ``worked``: the yarns, by index, of the first rows, which are worked already and stay.
    """

    yarns: tuple[str, ...]
    room: Grams
    row_grams: Grams
    tail: Grams
    threads: tuple[Thread, ...]
    wishes: Wishes
    worked: tuple[int, ...] = ()

    @property
    def weight(self) -> Fraction:
        """All rows together, in grams."""
        return sum(self.row_grams, Fraction(0))

    def ends(self, start: int, stop: int) -> int:
        """The ends that a stripe over rows ``start`` to ``stop`` - 1 makes where it is cut on both sides."""
        return sum(2 * one.count for one in self.threads if one.first < stop and one.last >= start)

    def shortened(self, rows: int) -> Task:
        """The same with the first ``rows`` rows only, which must be no fewer than are worked; wishes for seams of rows
        past them go with those rows."""
        kept = tuple(replace(one, last=min(one.last, rows - 1)) for one in self.threads if one.first < rows)
        wishes = replace(
            self.wishes,
            differ=tuple(pair for pair in self.wishes.differ if pair[1] < rows),
            barred=tuple(one for one in self.wishes.barred if one[0] < rows),
        )
        return replace(self, row_grams=self.row_grams[:rows], threads=kept, wishes=wishes)


class Score(NamedTuple):
    """What answers are compared by, the smaller the better: grams ``short`` of the stock, rows that ``meet`` their
    own yarn at a seam against the wish, grams left of the yarns ``to_use_up``, the ``largest_rest`` in grams, and how
    many ``stripes``."""

    short: Fraction
    meet: int
    to_use_up: Fraction
    largest_rest: Fraction
    stripes: int


@frozen
class Answer:
    """A way to share the rows out: ``colours`` by the index of the yarn, one for every row.

    ``fabric`` and ``tails`` grams go into each yarn. ``least_short`` and ``least_rest`` are bounds: no plan within
    the wishes is short of fewer grams together, or has a smaller largest rest. ``exact``: this plan itself cannot
    be beaten.
    """

    task: Task
    colours: tuple[int, ...]
    fabric: Grams
    tails: Grams
    least_short: Fraction
    least_rest: Fraction
    exact: bool

    @property
    def short(self) -> Grams:
        """How many grams each yarn falls short, its tails included; before the margin, as ``room`` is."""
        used = zip(self.task.room, self.fabric, self.tails, strict=True)
        return tuple(max(Fraction(0), fabric + tails - room) for room, fabric, tails in used)

    @property
    def rests(self) -> Grams:
        """The grams of its ``room`` that are left of each yarn, tails not yet cut off; below 0 where it falls short."""
        return tuple(room - fabric for room, fabric in zip(self.task.room, self.fabric, strict=True))

    @property
    def possible(self) -> bool:
        """Whether the stock suffices, tails and margin included."""
        return not any(self.short)

    @property
    def stripes(self) -> tuple[Stripe, ...]:
        """Every stripe, from row 0 up."""
        return tuple(stripes_in(self.colours))

    @property
    def score(self) -> Score:
        """What answers are compared by: the smaller, the better."""
        wanted = sum((max(Fraction(0), self.rests[i]) for i in self.task.wishes.use_up), Fraction(0))
        largest = max(Fraction(0), *self.rests)
        meet = meeting_rows(self.task.wishes, self.colours)
        return Score(sum(self.short, Fraction(0)), meet, wanted, largest, len(self.stripes))

    @property
    def at_the_bound(self) -> bool:
        """Whether no plan can be better, but for the number of stripes: nothing is short, no row meets its own yarn,
        nothing is left of the yarns to be used up, and the largest rest is at its bound."""
        score = self.score
        return not (score.short or score.meet or score.to_use_up) and score.largest_rest == self.least_rest


def stripes_in(colours: Iterable[int]) -> list[Stripe]:
    """The stripes that rows in ``colours`` (the index of a yarn for each) make, in their order."""
    return [(index, len(list(run))) for index, run in groupby(colours)]


def meeting_rows(wishes: Wishes, colours: Sequence[int]) -> int:
    """How many rows meet their own yarn at a seam, though they should not, where every row has the yarn that
    ``colours`` gives by its index."""
    own = sum(colours[low] == colours[high] for low, high in wishes.differ)
    return own + sum(colours[row] == index for row, index in wishes.barred)


def summed(
    task: Task, colours: Sequence[int], least_short: Fraction, least_rest: Fraction, exact: bool = False
) -> Answer:
    """The answer that works the rows in ``colours`` (an index of a yarn for each row), its grams summed exactly; the
    bounds, in grams, and ``exact`` are taken as given."""
    fabric, tails = used(task, colours)
    return Answer(task, tuple(colours), fabric, tails, least_short, least_rest, exact)


def used(task: Task, colours: Sequence[int]) -> tuple[Grams, Grams]:
    """The grams of fabric and of tails that go into each yarn where the first rows are in ``colours``."""
    fabric, tails = ([Fraction(0)] * len(task.yarns) for _ in range(2))
    start = 0
    for index, height in stripes_in(colours):
        stop = start + height
        fabric[index] += sum(task.row_grams[start:stop], Fraction(0))
        tails[index] += task.ends(start, stop) * task.tail[index]
        start = stop
    return tuple(fabric), tuple(tails)


# -------------------------------------------------------------------------------------------------------- bounds


def ahead(task: Task, tails: bool = False) -> Task:
    """What is still to share out: the rows after those worked, with what these left of each yarn; ``tails``: theirs
    are cut off too. Where a yarn is overdrawn its room is below 0. A task of which nothing is worked is returned as it
    is."""
    if not task.worked:
        return task
    fabric, cut = used(task, task.worked)
    room = tuple(one - two - (three if tails else 0) for one, two, three in zip(task.room, fabric, cut, strict=True))
    return replace(task, room=room, row_grams=task.row_grams[len(task.worked) :], threads=(), worked=())


def most_of(task: Task) -> Grams:
    """The most fabric in grams that each yarn could take within the wishes, whatever its stock, in a task of which
    nothing is worked.

    A yarn's stripes are at most the highest allowed and stand apart by so many of the lowest, so it has so many
    rows at most; they weigh at most as much as the heaviest ones.
    """
    rows, wishes = len(task.row_grams), task.wishes
    if not rows:
        return (Fraction(0),) * len(task.yarns)
    apart = min(wishes.apart, len(task.yarns) - 1)
    lowest, highest = min(wishes.heights), max(wishes.heights)
    most = max(min(stripes * highest, rows - (stripes - 1) * apart * lowest) for stripes in range(1, rows + 1))
    heaviest = sum(sorted(task.row_grams, reverse=True)[:most], Fraction(0))
    return (heaviest,) * len(task.yarns)


def shortage_bound(task: Task) -> Fraction:
    """Grams that every plan within the wishes is short of, all yarns together: the fabric and the fewest ends,
    less what the yarns can take of it, and what worked rows, other pieces or the border take beyond the stock."""
    rest = ahead(task, tails=True)
    overdrawn = sum((max(Fraction(0), -room) for room in rest.room), Fraction(0))
    # Tails count against the stock too, so a yarn bound by its stock takes no more fabric for them.
    fewest = 0 if task.worked or not _stock_binds(task) else sum(2 * one.count for one in task.threads)
    usable = sum((max(Fraction(0), min(pair)) for pair in zip(rest.room, most_of(rest), strict=True)), Fraction(0))
    smooth = max(Fraction(0), rest.weight + fewest * min(task.tail) - usable)
    return overdrawn + max(smooth, _short_of_whole_rows(rest, not task.worked))


def _stock_binds(task: Task) -> bool:
    return all(room <= most for room, most in zip(task.room, most_of(task), strict=True))


def _short_of_whole_rows(task: Task, with_tails: bool) -> Fraction:
    """The grams short at least where all rows weigh alike, since each takes the whole of its weight from one yarn:
    so many rows can be had of each, and those past them cost what is missing for them."""
    if len(set(task.row_grams)) != 1 or not task.row_grams[0]:
        return Fraction(0)
    grams, rows = task.row_grams[0], len(task.row_grams)
    costs: list[Fraction] = []
    for room, tail in zip(task.room, task.tail, strict=True):
        left = max(Fraction(0), room - _fewest_tails(task, tail) if with_tails else room)
        whole = int(left // grams)
        rows -= whole
        costs.append(grams * (whole + 1) - left)
    costs.sort()
    costs += [grams] * (rows - len(costs))
    return sum(costs[: max(rows, 0)], Fraction(0))


def _fewest_tails(task: Task, tail: Fraction) -> Fraction:
    """Grams of the ends that a yarn has at least where any row is worked in it."""
    return 2 * tail * min((one.count for one in task.threads), default=0)


def rest_bound(task: Task) -> Fraction:
    """No plan within the wishes has a largest rest below this: what is left is given, and shared as evenly as the
    stock allows it is this much; and a yarn of which the rows cannot take more leaves the rest of it."""
    rest = ahead(task)
    floors = [max(Fraction(0), room - most) for room, most in zip(rest.room, most_of(rest), strict=True)]
    if len(set(rest.row_grams)) == 1:
        return max(Fraction(0), *_whole_rows_shared(rest), *floors)
    left = sum((max(Fraction(0), room) for room in rest.room), Fraction(0)) - rest.weight
    return max(level(rest.room, left), *floors, Fraction(0))


def _whole_rows_shared(task: Task) -> list[Fraction]:
    """The rests where all rows weigh alike and whole rows can be counted: each in turn goes to the yarn with the
    largest rest."""
    rests = list(task.room)
    for grams in task.row_grams:
        rests[rests.index(max(rests))] -= grams
    return rests


def level(room: Sequence[Fraction], left: Fraction) -> Fraction:
    """The rest that each yarn has where ``left`` grams in all are left as evenly as ``room``, the grams there are of
    each, allows; what is below 0 counts as nothing. The largest of ``room`` where ``left`` is more than all of it."""
    low = Fraction(0)
    holds = sorted(max(Fraction(0), grams) for grams in room)
    for index, grams in enumerate(holds):
        wide = len(holds) - index
        if left <= (grams - low) * wide:
            return low + max(Fraction(0), left) / wide
        left -= (grams - low) * wide
        low = grams
    return low


def aims(task: Task) -> list[float]:
    """The grams of fabric to aim at for every yarn in a task of which nothing is worked: all of those to be used up,
    even rests of the others, or of all where all are; whole rows where all weigh alike."""
    use_up = set(task.wishes.use_up) if len(set(task.wishes.use_up)) < len(task.yarns) else set()
    if not use_up and len(set(task.row_grams)) == 1 and task.row_grams[0]:
        return [float(rows * task.row_grams[0]) for rows in _row_counts(task)]
    weight, most = float(task.weight), [float(grams) for grams in most_of(task)]
    room = [float(grams) for grams in task.room]
    pairs = list(zip(room, most, strict=True))
    first = [min(max(0.0, r), m) if i in use_up else 0.0 for i, (r, m) in enumerate(pairs)]
    scale = min(1.0, weight / sum(first)) if sum(first) else 1.0
    fixed = [grams * scale for grams in first]
    others = [i for i in range(len(room)) if i not in use_up]
    low, high = -max(weight, *(abs(one) for one in room)), max(room)
    for _ in range(100):  # the rest that the others share: the higher, the less they take
        rest = (low + high) / 2
        taken = sum(min(max(0.0, room[i] - rest), most[i]) for i in others)
        low, high = (rest, high) if taken + sum(fixed) > weight else (low, rest)
    return [min(max(0.0, room[i] - low), most[i]) if i in others else fixed[i] for i in range(len(room))]


def _row_counts(task: Task) -> list[int]:
    """The rows of every yarn that leave even rests where all rows weigh alike, in numbers that stripes can have: none,
    or no fewer than the lowest stripe."""
    grams, unit, least = task.row_grams[0], gcd(*task.wishes.heights), min(task.wishes.heights)
    tails = [_fewest_tails(task, tail) for tail in task.tail]
    most = [max(0, int((room - tail) // grams)) for room, tail in zip(task.room, tails, strict=True)]
    most = [rows - rows % unit if rows >= least else 0 for rows in most]
    counts = [0] * len(most)

    def rest(index: int) -> Fraction:
        return task.room[index] - counts[index] * grams

    left = len(task.row_grams)
    while left > 0:
        free = [i for i, rows in enumerate(most) if counts[i] < rows] or list(range(len(most)))
        richest = max(free, key=rest)
        more = unit if counts[richest] else least
        counts[richest] += min(more, left)
        left -= min(more, left)
    return counts
