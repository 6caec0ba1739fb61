"""Lines of a picture that look like earlier ones: stripes that come again are painted once and copied.

In: for everything that a band shows what it is, and on which lines it lies. Out: the stretches of the band that must be
painted; the other lines are copies of lines painted before. Nothing is guessed: lines are alike only where everything
on them is, in the same order of painting.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Sequence
from typing import NamedTuple, Protocol, TypeAlias

#: Where all that is shown and its lines make more pairs than this, the search would take longer than it saves.
MOST_PAIRS = 1 << 18
#: In a band in which fewer lines than one in so many are copies, the search ends for the whole picture.
WORTH = 10
#: Fewer lines than this between two stretches are painted with them.
LEAST = 16
#: Bytes of lines kept to be copied.
MOST_KEPT = 1 << 22

#: What a line shows, as numbers: of each thing, and how far below its origin the line lies.
Shown: TypeAlias = tuple[int, ...]


class Reach(NamedTuple):
    """Something painted: what it is, and the lines it lies on, ``top`` up to but without ``bottom``. Two with one
    ``key`` look the same so many lines below their ``origin``, or on all their lines where that is None."""

    key: Hashable
    origin: int | None
    top: int
    bottom: int


class PictureLines(Protocol):
    """The lines of a band, had and set by their numbers."""

    def __getitem__(self, line: int) -> bytes: ...
    def __setitem__(self, line: int, px: bytes) -> None: ...


class Repeats:
    """The lines of a picture painted so far, by what they show."""

    def __init__(self) -> None:
        self._numbers: dict[Hashable, int] = {}
        self._kept: dict[Shown, bytes] = {}
        self._room = MOST_KEPT
        self._worth_while = True

    def lines(self, things: Sequence[Reach], top: int, bottom: int) -> list[Shown] | None:
        """What each line of a band from ``top`` up to ``bottom`` shows, ``things`` in the order of painting; None
        where it is not worth while."""
        if not self._worth_while or sum(one.bottom - one.top for one in things) > MOST_PAIRS:
            return None
        self._worth_while = self._may_come_again(things, top, bottom)
        if not self._worth_while:
            return None
        lines: list[list[int]] = [[] for _ in range(top, bottom)]
        for key, origin, first, last in things:
            number = self._numbers.setdefault(key, len(self._numbers)) << 32
            for line in range(max(first, top), min(last, bottom)):
                lines[line - top].append(number if origin is None else number + line - origin)
        shown = [tuple(line) for line in lines]
        new = len(set(shown).difference(self._kept))
        self._worth_while = new * WORTH <= (WORTH - 1) * len(shown)
        return shown if self._worth_while else None

    def _may_come_again(self, things: Sequence[Reach], top: int, bottom: int) -> bool:
        """Whether enough lines are free of what is seen for the first and only time, and differs from line to line:
        soon told, where every row of a piece is another."""
        times = Counter(one.key for one in things)
        new = bytearray(bottom - top)
        for key, origin, first, last in things:
            if origin is not None and times[key] == 1 and key not in self._numbers:
                first, last = max(first, top) - top, min(last, bottom) - top
                new[first:last] = b"\1" * (last - first)
        return sum(new) * WORTH <= (WORTH - 1) * len(new)

    def parts(self, shown: Sequence[Shown]) -> list[slice]:
        """The stretches of the band, as places in it, that hold a line for every look that is not kept."""
        seen = set(self._kept)
        new = [place for place, line in enumerate(shown) if not (line in seen or seen.add(line))]  # type: ignore[func-returns-value]
        found: list[slice] = []
        for place in new:
            if found and place - found[-1].stop < LEAST:
                found[-1] = slice(found[-1].start, place + 1)
            else:
                found.append(slice(place, place + 1))
        return found

    def copy(self, shown: Sequence[Shown], parts: Sequence[slice], rows: PictureLines) -> None:
        """Fills in the lines of ``rows`` (a line to each place) outside the ``parts`` that are painted, and keeps
        lines for the bands to come while there is room."""
        painted = {place for part in parts for place in range(part.start, part.stop)}
        first = {shown[place]: place for place in sorted(painted, reverse=True)}
        for place, line in enumerate(shown):
            if place not in painted:
                rows[place] = rows[first[line]] if line in first else self._kept[line]
        for line, place in first.items():
            if line not in self._kept and self._room >= len(rows[place]):
                self._kept[line] = rows[place]
                self._room -= len(rows[place])
