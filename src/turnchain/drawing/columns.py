"""Words and samples set in a column: how the key, and whatever else is read beside a drawing, is laid out.

In: words, functions that draw the samples, the width of a column in px. Out: scene items; the column's ``y``
says how far down they reach. Sizes are in px at the reference width and scale with ``unit``.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil
from typing import TypeAlias

from turnchain.lettering.measuring import measure, wrapped
from turnchain.numbers import rounded
from turnchain.records import field, mutable
from turnchain.scene import Item, Path, Text, Weight, ruled
from turnchain.style import Theme

HEADING, BODY, SMALL = 22.0, 21.0, 18.0  # px of the em at the reference width
LEADING = 1.3  # from line to line, of the em
SAMPLE = 64.0  # px at the reference width: room for a sample before its words

Draw: TypeAlias = Callable[[float, float], list[Item]]
Cell: TypeAlias = tuple[Draw, float, str]  # drawn about a point, room before its words (at the reference width), words


@mutable
class Column:
    """Items set one below the other from (``left``, ``y``) on, ``width`` px wide, all in px; every call puts its items
    into ``items`` and moves ``y`` down to their foot. ``unit`` is the px of the picture for a px at the reference
    width: sizes given at the reference width are multiplied by it."""

    left: float
    y: float
    width: float
    unit: float
    theme: Theme
    items: list[Item] = field(default_factory=list)

    def skip(self, height: float) -> None:
        """Leaves ``height`` (px at the reference width) free."""
        self.y += height * self.unit

    def heading(self, words: str) -> None:
        """A heading on one line, which is not wrapped, with a hairline under it; some room before it but for the
        first."""
        size = HEADING * self.unit
        self.y += size * (2.2 if self.items else 1.0)
        self.line(self.left, self.y, words, size, self.theme.ink, "semibold")
        self.y += 0.45 * size
        rule = ruled((self.left, self.y), (self.left + self.width, self.y), 1.1 * self.unit)
        self.items.append(Path(rule, fill=self.theme.hair))
        self.y += 0.35 * size

    def words(self, words: str, indent: float = 0.0, size: float = BODY, colour: str = "") -> None:
        """Words set in lines as wide as the column, ``indent`` from its left and ``size`` to the em, both in px at the
        reference width; ``colour`` ("#rrggbb") empty for the ink of the theme."""
        px = size * self.unit
        for words_of_line in wrapped(words, self.width - indent * self.unit, px):
            self.y += px * LEADING
            self.line(self.left + indent * self.unit, self.y - 0.3 * px, words_of_line, px, colour or self.theme.ink)

    def row(self, name: str, figure: str) -> None:
        """A name at the left and its figure, set flush right 13 em from there; at the right end of the column where the
        name is too long for that, and on the next line where it is too long for that too."""
        px = BODY * self.unit
        self.y += px * LEADING
        right, base = self.left + min(self.width, 13.0 * px), self.y - 0.3 * px
        if measure(name, px) + measure(figure, px) + px > right - self.left:
            right = self.left + self.width
        if measure(name, px) + measure(figure, px) + px > right - self.left:
            self.line(self.left, base, name, px, self.theme.ink)  # a long name has a line of its own
            self.y += px * LEADING
            base = self.y - 0.3 * px
        else:
            self.line(self.left, base, name, px, self.theme.ink)
        self.items.append(Text(rounded(right), rounded(base), figure, rounded(px), self.theme.ink, anchor="end"))

    def sample(self, draw: Draw, words: str, height: float) -> None:
        """What ``draw`` gives about the middle of the sample's room, its words wrapped beside it. ``height`` is the
        height it needs, in px of the picture; the words may need more."""
        px = BODY * self.unit
        lines = wrapped(words, self.width - SAMPLE * self.unit, px)
        tall = max(height, len(lines) * px * LEADING)
        middle = self.y + tall / 2
        self.items += draw(self.left + SAMPLE * self.unit * 0.42, middle)
        first = middle - (len(lines) - 1) * px * LEADING / 2 + 0.34 * px
        for index, words_of_line in enumerate(lines):
            y = first + index * px * LEADING
            self.line(self.left + SAMPLE * self.unit, y, words_of_line, px, self.theme.ink)
        self.y += tall
        self.skip(7)

    def in_columns(self, cells: list[tuple[Draw, str]], tall: float) -> None:
        """Samples with their words (at least one), ``tall`` px of the picture high, in as many columns as the longest
        words leave room for; read downwards."""
        widest = max(measure(words, BODY * self.unit) for _, words in cells)
        most = max(1, int(self.width // (SAMPLE * self.unit + widest + 0.5 * BODY * self.unit)))
        down = ceil(len(cells) / most)
        top, bottom = self.y, self.y
        for nth, start in enumerate(range(0, len(cells), down)):
            part = Column(self.left + nth * self.width / most, top, self.width / most, self.unit, self.theme)
            for draw, words in cells[start : start + down]:
                part.sample(draw, words, tall)
            self.items += part.items
            bottom = max(bottom, part.y)
        self.y = bottom

    def flow(self, cells: list[Cell], tall: float) -> None:
        """Samples with their words one after the other, in lines ``tall`` px of the picture high."""
        px = BODY * self.unit
        x = self.left
        for draw, room, words in cells:
            lines = wrapped(words, self.width - room * self.unit, px) if words else []
            wide = room * self.unit + max((measure(one, px) + 26 * self.unit for one in lines), default=0.0)
            if x > self.left and x + wide - 26 * self.unit > self.left + self.width:
                x, self.y = self.left, self.y + tall
            self.items += draw(x + room * self.unit * 0.42, self.y + tall / 2)
            for nth, line_of_words in enumerate(lines):
                self.y += LEADING * px if nth else 0.0
                self.line(x + room * self.unit, self.y + tall / 2 + 0.34 * px, line_of_words, px, self.theme.ink)
            x += wide
        self.y += tall + 4 * self.unit

    def line(self, x: float, y: float, words: str, size: float, colour: str, weight: Weight = "regular") -> None:
        """``words`` on one line with their left end and baseline at (``x``, ``y``), ``size`` to the em, all in px of
        the picture; ``y`` of the column stays."""
        self.items.append(Text(rounded(x), rounded(y), words, rounded(size), colour, weight))
