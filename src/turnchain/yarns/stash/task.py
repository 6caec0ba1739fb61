"""What is to be shared out, a way to share it, and what no way can beat.

In: nothing. Out: ``Task``, ``Answer`` and their parts, in exact grams; of a task the bounds that are true of every plan
within its wishes, and the grams of every yarn that would leave rests as even as can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby
from typing import TypeAlias

Grams: TypeAlias = tuple[Fraction, ...]  # one for every yarn
Stripe: TypeAlias = tuple[int, int]  # the index of its yarn, and how many rows it has


@dataclass(frozen=True, slots=True)
class Thread:
    """A stretch worked without joining anew: rows ``first`` to ``last`` (from 0), made ``count`` times."""

    first: int
    last: int
    count: int


@dataclass(frozen=True, slots=True)
class Wishes:
    """The ``heights`` a stripe may have (the last may be cut), how many others stand ``apart`` two stripes of one
    yarn, and the yarns to ``use_up`` first, by their index."""

    heights: tuple[int, ...]
    apart: int = 1
    use_up: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """What is to be shared out: ``room`` grams of each of ``yarns`` (stock less margin and what is kept), the
    weight of every row of the stripes, the ``tail`` grams at each end of a yarn, and the threads that make the ends."""

    yarns: tuple[str, ...]
    room: Grams
    row_grams: Grams
    tail: Grams
    threads: tuple[Thread, ...]
    wishes: Wishes

    @property
    def weight(self) -> Fraction:
        """All rows together, in grams."""
        return sum(self.row_grams, Fraction(0))

    def ends(self, start: int, stop: int) -> int:
        """The ends that a stripe over rows ``start`` to ``stop`` - 1 makes where it is cut on both sides."""
        return sum(2 * one.count for one in self.threads if one.first < stop and one.last >= start)

    def shortened(self, rows: int) -> Task:
        """The same with the first ``rows`` rows only."""
        kept = tuple(replace(one, last=min(one.last, rows - 1)) for one in self.threads if one.first < rows)
        return replace(self, row_grams=self.row_grams[:rows], threads=kept)


@dataclass(frozen=True, slots=True)
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
        """How many grams each yarn falls short, tails and margin included (in grams before the margin)."""
        used = zip(self.task.room, self.fabric, self.tails, strict=True)
        return tuple(max(Fraction(0), fabric + tails - room) for room, fabric, tails in used)

    @property
    def rests(self) -> Grams:
        """What is left of each yarn after its margin, tails not yet cut off; below 0 where it falls short."""
        return tuple(room - fabric for room, fabric in zip(self.task.room, self.fabric, strict=True))

    @property
    def possible(self) -> bool:
        """Whether the stock suffices."""
        return not any(self.short)

    @property
    def stripes(self) -> tuple[Stripe, ...]:
        """Every stripe."""
        return tuple(stripes_in(self.colours))

    @property
    def score(self) -> tuple[Fraction, Fraction, Fraction, int]:
        """What answers are compared by; the smaller the better."""
        wanted = sum((max(Fraction(0), self.rests[i]) for i in self.task.wishes.use_up), Fraction(0))
        largest = max(Fraction(0), *self.rests)
        return sum(self.short, Fraction(0)), wanted, largest, len(self.stripes)


def stripes_in(colours: Iterable[int]) -> list[Stripe]:
    """The stripes that rows in ``colours`` make."""
    return [(index, len(list(run))) for index, run in groupby(colours)]


def summed(
    task: Task, colours: Sequence[int], least_short: Fraction, least_rest: Fraction, exact: bool = False
) -> Answer:
    """The answer that works the rows in ``colours``, summed exactly."""
    fabric, tails = ([Fraction(0)] * len(task.yarns) for _ in range(2))
    start = 0
    for index, height in stripes_in(colours):
        stop = start + height
        fabric[index] += sum(task.row_grams[start:stop], Fraction(0))
        tails[index] += task.ends(start, stop) * task.tail[index]
        start = stop
    return Answer(task, tuple(colours), tuple(fabric), tuple(tails), least_short, least_rest, exact)


# -------------------------------------------------------------------------------------------------------- bounds


def most_of(task: Task) -> Grams:
    """The most fabric in grams that each yarn could take within the wishes, whatever its stock.

    A yarn's stripes are at most the highest allowed and stand apart by so many of the lowest, so it has so many
    rows at most; they weigh at most as much as the heaviest ones.
    """
    rows, wishes = len(task.row_grams), task.wishes
    apart = min(wishes.apart, len(task.yarns) - 1)
    lowest, highest = min(wishes.heights), max(wishes.heights)
    most = max(min(stripes * highest, rows - (stripes - 1) * apart * lowest) for stripes in range(1, rows + 1))
    heaviest = sum(sorted(task.row_grams, reverse=True)[:most], Fraction(0))
    return (heaviest,) * len(task.yarns)


def shortage_bound(task: Task) -> Fraction:
    """Grams that every plan within the wishes is short of, all yarns together: the fabric and the fewest ends,
    less what the yarns can take of it."""
    fewest = sum((2 * one.count for one in task.threads), 0) * min(task.tail)
    usable = sum((max(Fraction(0), min(pair)) for pair in zip(task.room, most_of(task), strict=True)), Fraction(0))
    # Tails count against the stock too, so a yarn bound by its stock takes no more fabric for them.
    return max(Fraction(0), task.weight + (fewest if _stock_binds(task) else 0) - usable)


def _stock_binds(task: Task) -> bool:
    return all(room <= most for room, most in zip(task.room, most_of(task), strict=True))


def rest_bound(task: Task) -> Fraction:
    """No plan within the wishes has a largest rest below this: what is left is given, and shared as evenly as the
    stock allows it is this much; and a yarn of which the rows cannot take more leaves the rest of it."""
    if len(set(task.row_grams)) == 1:
        return _even_rest_bound(task)
    left = sum(task.room, Fraction(0)) - task.weight
    floors = [max(Fraction(0), room - most) for room, most in zip(task.room, most_of(task), strict=True)]
    return max(level(task.room, left), *floors, Fraction(0))


def _even_rest_bound(task: Task) -> Fraction:
    """The same where all rows weigh alike, and whole rows can be counted: each in turn goes to the yarn with
    the largest rest."""
    rests = list(task.room)
    for _ in task.row_grams:
        rests[rests.index(max(rests))] -= task.row_grams[0]
    floors = (room - most for room, most in zip(task.room, most_of(task), strict=True))
    return max(Fraction(0), *rests, *floors)


def level(room: Grams, left: Fraction) -> Fraction:
    """How high ``left`` grams stand when they are poured evenly into vessels that hold ``room`` each."""
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
    """The grams of fabric to aim at for every yarn: all of those to be used up, even rests of the others."""
    weight, most = float(task.weight), [float(grams) for grams in most_of(task)]
    room = [float(grams) for grams in task.room]
    pairs = list(zip(room, most, strict=True))
    first = [min(max(0.0, r), m) if i in task.wishes.use_up else 0.0 for i, (r, m) in enumerate(pairs)]
    scale = min(1.0, weight / sum(first)) if sum(first) else 1.0
    fixed = [grams * scale for grams in first]
    others = [i for i in range(len(room)) if i not in task.wishes.use_up] or list(range(len(room)))
    low, high = -max(weight, *room), max(room)
    for _ in range(100):  # the rest that the others share: the higher, the less they take
        rest = (low + high) / 2
        taken = sum(min(max(0.0, room[i] - rest), most[i]) for i in others)
        low, high = (rest, high) if taken + sum(fixed) > weight else (low, rest)
    return [min(max(0.0, room[i] - low), most[i]) if i in others else fixed[i] for i in range(len(room))]
