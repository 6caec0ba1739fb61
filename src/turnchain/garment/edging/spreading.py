"""So many stitches over so many places, evenly, in words that a maker can count by.

In: two numbers. Out: an ``Even``: how many go into each place, and at every how many of them one more or one fewer. The
rule of the gaps is that of an article on knitting ("Knitting and the Magic Formula"): a changes over R places are
a - R mod a gaps of R div a places and R mod a gaps of one more.
"""

from __future__ import annotations

from turnchain.records import frozen


@frozen
class Even:
    """``each`` stitches in each of the places, ``more`` of them by one more (-1: by one fewer, 0: none); ``gaps``: of
    those each as (every how many places, how many times), the smaller first; a single one lies in the middle."""

    places: int
    each: int
    more: int = 0
    gaps: tuple[tuple[int, int], ...] = ()

    @property
    def changes(self) -> int:
        """How many places take one more or one fewer."""
        return sum(times for _, times in self.gaps)

    @property
    def stitches(self) -> int:
        """All of them."""
        return self.places * self.each + self.more * self.changes


    @property
    def lengths(self) -> list[int]:
        """The stitches of every place, in their order."""
        changed, at = set(), 0
        for every, times in self.gaps:
            for _ in range(times):
                at += every
                changed.add(at)
        if self.changes == 1:
            changed = {(self.places + 1) // 2}
        return [self.each + self.more * (place in changed) for place in range(1, self.places + 1)]


def gaps(changes: int, places: int) -> tuple[tuple[int, int], ...]:
    """How ``changes`` (1 to ``places``) lie over ``places``: (every how many places, how many times), smaller first."""
    every, rest = divmod(places, changes)
    return tuple((long, times) for long, times in ((every, changes - rest), (every + 1, rest)) if times)


def spread(stitches: int, places: int) -> Even:
    """``stitches`` (0 at the least) over ``places`` (1 at the least), as evenly as can be, and so that the fewer places
    differ from the others."""
    each, rest = divmod(stitches, places)
    if not rest:
        return Even(places, each)
    if 2 * rest <= places:
        return Even(places, each, 1, gaps(rest, places))
    return Even(places, each + 1, -1, gaps(places - rest, places))
