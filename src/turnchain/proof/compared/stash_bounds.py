"""What no stripes from a stash can beat, worked out apart from any search.

In: what is to be shared out, as the worked pieces have it. Out: the least rest and the least shortage that any stripes
come to, found by trying rests: one can be had if all yarns together need no more rows, or grams, than there are; and
better stripes than those worked, if there are some, by trying all of a small piece.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import groupby
from math import ceil

Score = tuple[Fraction, Fraction, Fraction, int]


@dataclass(frozen=True, slots=True)
class StashAsked:
    """What the file asks of stripes from the stash: their yarns in ``order``, the ``heights`` of stripes in rows, how
    many others lie between two of one yarn (``apart``), those to ``use_up`` first; of pieces begun how many rows are
    ``worked``; ``wishes``: seams have wishes for their stripes."""

    order: tuple[str, ...] = ()
    heights: tuple[int, ...] = (1,)
    apart: int = 1
    use_up: tuple[str, ...] = ()
    worked: Mapping[str, int] = field(default_factory=dict)
    wishes: bool = False


@dataclass(frozen=True, slots=True)
class Share:
    """What is shared out: the grams of all ``rows`` of the stripes and the ``yarns`` they are worked in; ``done``: the
    first of them, that are worked already; ``room``: grams of each yarn of the order for fabric and tails, ``tail``: of
    each of its ends; ``stretches``: first and last row, from 0, worked without joining anew, and how often; ``near``:
    an edging takes so many grams more or less."""

    asked: StashAsked
    rows: tuple[Fraction, ...]
    yarns: tuple[str | None, ...]
    done: int
    room: tuple[Fraction, ...]
    tail: tuple[Fraction, ...]
    stretches: tuple[tuple[int, int, int], ...]
    near: float = 0.0

    @property
    def ahead(self) -> tuple[Fraction, ...]:
        """The rows that are still to be worked."""
        return self.rows[self.done :]

    def left(self, tails: bool) -> list[Fraction]:
        """The grams of each yarn that the rows worked already leave; ``tails``: theirs are cut off."""
        fabric, cut = self.used(self.yarns[: self.done])
        return [room - one - (other if tails else 0) for room, one, other in zip(self.room, fabric, cut, strict=True)]

    def used(self, yarns: Sequence[str | None]) -> tuple[list[Fraction], list[Fraction]]:
        """The grams of fabric and of tails of each yarn, where the first rows are in ``yarns``."""
        fabric, tails = ([Fraction(0)] * len(self.room) for _ in range(2))
        at = 0
        for yarn, rows in groupby(yarns):
            stop = at + len(list(rows))
            if yarn in self.asked.order:
                index = self.asked.order.index(yarn)
                fabric[index] += sum(self.rows[at:stop])
                ends = sum(2 * count for first, last, count in self.stretches if first < stop and last >= at)
                tails[index] += ends * self.tail[index]
            at = stop
        return fabric, tails

    @property
    def apart(self) -> int:
        """How many other stripes can lie between two of one yarn."""
        return min(self.asked.apart, len(self.asked.order) - 1)


def _most_rows(share: Share, rows: int) -> int:
    """How many of so many rows one yarn can have: the highest stripe, then the lowest of others, and again."""
    highest, others = max(share.asked.heights), share.apart * min(share.asked.heights)
    return sum(row % (highest + others) < highest for row in range(rows))


def least_rest(share: Share) -> Fraction:
    """The grams that are left of some yarn at least, whatever the stripes within the wishes."""
    ahead, room = share.ahead, share.left(tails=False)
    most = sum(sorted(ahead, reverse=True)[: _most_rows(share, len(ahead))], Fraction(0))
    floor = max(Fraction(0), *(one - most for one in room))
    if len(set(ahead)) == 1 and ahead[0]:
        rests = sorted({one - rows * ahead[0] for one in room for rows in range(len(ahead) + 1)})
        return max(floor, rests[bisect_left(rests, 1, key=lambda rest: int(_by_rows(room, ahead, rest)))])
    low, high = 0.0, float(max(Fraction(0), *room))
    for _ in range(60):
        rest = (low + high) / 2
        enough = sum(max(0.0, float(one) - rest) for one in room) <= float(sum(ahead))
        low, high = (low, rest) if enough else (rest, high)
    return max(floor, Fraction(high))


def _by_rows(room: Sequence[Fraction], ahead: Sequence[Fraction], rest: Fraction) -> bool:
    """Whether no yarn need have a larger ``rest``, where rows weigh alike."""
    return sum(max(0, ceil((one - rest) / ahead[0])) for one in room) <= len(ahead)


def least_short(share: Share) -> Fraction:
    """Grams that any stripes are short of at least: what no stock is there for, tails not counted."""
    ahead, room = share.ahead, share.left(tails=True)
    most = sum(sorted(ahead, reverse=True)[: _most_rows(share, len(ahead))], Fraction(0))
    usable = sum((max(Fraction(0), min(one, most)) for one in room), Fraction(0))
    overdrawn = sum((max(Fraction(0), -one) for one in room), Fraction(0))
    return overdrawn + max(Fraction(0), sum(ahead, Fraction(0)) - usable)


# ----------------------------------------------------------------------------------------------- trying all stripes

#: More ways than these are not tried.
_MOST_TRIED = 3_000


def better(share: Share) -> list[str] | None:
    """Better stripes than those worked, as yarn and rows of each; None where there are none, or too many ways."""
    if share.asked.wishes or share.done or not all(share.rows):
        return None
    own = _score(share, share.yarns)
    for tried, way in enumerate(_ways(share, ())):
        if tried > _MOST_TRIED:
            return None
        if _score(share, way) < own:
            return [f"{yarn} {len(list(rows))}" for yarn, rows in groupby(way)]
    return None


def _ways(share: Share, stripes: tuple[tuple[str, int], ...]) -> Iterator[tuple[str, ...]]:
    """The yarns of all rows in every way within the wishes that begins with these ``stripes``."""
    left = len(share.rows) - sum(rows for _, rows in stripes)
    if not left:
        yield tuple(yarn for yarn, rows in stripes for _ in range(rows))
        return
    near = {yarn for yarn, _ in stripes[len(stripes) - share.apart :]} if share.apart else set()
    heights = {rows for rows in share.asked.heights if rows <= left}
    for rows in sorted(heights | ({left} if left < max(share.asked.heights) else set())):
        for yarn in share.asked.order:
            if yarn not in near:
                yield from _ways(share, (*stripes, (yarn, rows)))


def _score(share: Share, yarns: Sequence[str | None]) -> Score:
    """What stripes are compared by, the less the better: grams short, left of the yarns to be used up, the largest
    rest, and how many stripes."""
    fabric, tails = share.used(yarns)
    rests = [room - one for room, one in zip(share.room, fabric, strict=True)]
    short = sum((max(Fraction(0), tail - rest) for rest, tail in zip(rests, tails, strict=True)), Fraction(0))
    wanted = sum((max(Fraction(0), rest) for name, rest in zip(share.asked.order, rests, strict=True)
                  if name in share.asked.use_up), Fraction(0))  # fmt: skip
    return short, wanted, max(Fraction(0), *rests), len(list(groupby(yarns)))
