"""What no plan can beat, and the rests to aim at.

In: a ``Task``. Out: bounds, true of every plan within its wishes; and the grams of every yarn that would leave rests as
even as can be.
"""

from __future__ import annotations

from fractions import Fraction

from turnchain.yarns.stash.task import Grams, Task


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
