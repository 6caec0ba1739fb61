"""What is to be shared out, and a way to share it.

In: nothing. Out: ``Task``, ``Answer`` and their parts, in exact grams.
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
