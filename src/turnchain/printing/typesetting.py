"""Setting blocks of words and pictures on pages of paper.

In: blocks, in order, and the paper. Out: pages (``paper.Page``) with numbers. No heading stands alone at a page's
foot, no paragraph leaves or brings a single line, no picture is cut. Lengths are mm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TypeAlias

from turnchain import style
from turnchain.lettering.measuring import measure, wrapped
from turnchain.numbers import rounded
from turnchain.paper import Crop, Link, Page, Photograph, PhotographView, View
from turnchain.records import field, frozen, mutable, replace
from turnchain.scene import Item, Path, Scene, Text, Weight, line, rectangle

PX = 10.0  # px of a page's own scene to a mm
LEADING = 1.38  # from line to line, in ems
FOOT = 9.0  # mm kept for the page number
SIZES = {1: 8.2, 2: 5.6, 3: 4.3}  # mm of the em of a heading by its level
BODY, SMALL = 3.55, 3.0  # mm of the em of words
THIN = 0.16  # of the page's height: words that reach no lower are a few lines
ROWS_BELOW = 12  # lines: fewer rows do not begin below a chart


@frozen
class Heading:
    """A heading of ``level`` 1 to 3. ``anchor``, where not "", is what links lead to, and puts the heading in the
    contents. ``breaks``: it begins a page."""

    words: str
    level: int = 2
    anchor: str = ""
    breaks: bool = False


@frozen
class Words:
    """A paragraph, its em ``size`` mm. ``mark`` (the dash of a list) stands before it, and its lines are indented.
    ``lead`` is set bold before the rest; ``soft``: in the fainter ink."""

    words: str
    size: float = BODY
    mark: str = ""
    lead: str = ""
    soft: bool = False


@frozen
class Picture:
    """A scene from ``top`` px down to ``bottom`` (None: its foot), as wide as the page's words allow, at most
    ``tallest`` (a share of 1) of the height kept for words on a page, and ``widest`` mm wide. It is drawn
    smaller, down to ``least`` (a share of 1) of that, where that keeps it on the page begun, or a picture after it as
    well."""

    scene: Scene
    top: float = 0.0
    bottom: float | None = None
    tallest: float = 0.9
    widest: float = math.inf
    least: float = 1.0

    @property
    def height(self) -> float:
        """The height shown, in px of the scene."""
        return self.foot - self.top

    @property
    def foot(self) -> float:
        """The y of its foot in px of the scene."""
        return self.scene.height if self.bottom is None else self.bottom


@frozen
class PhotographBlock:
    """A photograph as wide as the words, at most ``tallest`` (a share of 1) of the height kept for words on a page."""

    photograph: Photograph
    tallest: float = 0.45


@frozen
class Ledger:
    """Boxes to tick, set in ``columns`` or in fewer, where words are too long for so many: each entry is (number,
    words)."""

    entries: tuple[tuple[str, str], ...]
    columns: int = 2


@frozen
class FigureTable:
    """Figures in columns: a ``head`` of words and what each column is, and ``rows`` of words and figures. The head
    stands again on every page."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@frozen
class Contents:
    """Where the contents go: every heading with an anchor, and its page, as links. Room is kept for headings among the
    blocks themselves and in the ``opening`` of a ``Facing``."""


@frozen
class Facing:
    """A piece: its ``opening``, its ``picture`` with a ``key``, its ``rows``, and what may stand ``besides``. Where the
    picture would come on a right-hand page and the rows overleaf, ``besides`` comes before it: then the two face each
    other."""

    opening: tuple[Block, ...]
    picture: Picture
    key: Picture
    rows: tuple[Block, ...]
    besides: tuple[Block, ...] = ()


Block: TypeAlias = "Heading | Words | Picture | PhotographBlock | Ledger | FigureTable | Contents | Facing"


@mutable
class _OpenPage:
    items: list[Item] = field(default_factory=list)
    views: list[View] = field(default_factory=list)
    links: list[tuple[float, float, float, float, str]] = field(default_factory=list)  # box in mm, anchor
    photographs: list[PhotographView] = field(default_factory=list)


class Typesetter:
    """Sets blocks, once, on sheets ``width`` x ``height`` mm with ``margin`` mm around. Words are ``share`` times as
    large as usual; ``footer`` stands with the page number at the foot of every page but the first; ``colour``
    ("#rrggbb") is that of headings ("": the words')."""

    def __init__(
        self, width: float, height: float, margin: float, footer: str, share: float = 1.0, colour: str = ""
    ) -> None:
        self.width, self.height, self.margin, self.footer = width, height, margin, footer
        self.share, self.colour = share, colour
        self.sheets: list[_OpenPage] = [_OpenPage()]
        self.y = margin
        self.anchors: dict[str, tuple[int, str]] = {}
        self.contents: tuple[int, float] | None = None
        self.listed = 0  # headings that the contents list
        self.theme = style.LIGHT

    @property
    def column(self) -> float:
        """The width of the words in mm."""
        return self.width - 2 * self.margin

    @property
    def bottom(self) -> float:
        """The mm from the top of a page to where its words end; the page number stands below."""
        return self.height - self.margin - FOOT

    def set(self, blocks: Sequence[Block]) -> list[Page]:
        """All pages with ``blocks`` in their order, numbered from 1; labels are the numbers."""
        flat = [one for block in blocks for one in (block.opening if isinstance(block, Facing) else (block,))]
        self.listed = sum(isinstance(block, Heading) and bool(block.anchor) for block in flat)
        self._all(blocks)
        self._fill_contents()
        return [self._page(number, sheet) for number, sheet in enumerate(self.sheets, start=1)]

    def thin(self) -> int:
        """How many of the pages set have a few lines (see ``THIN``) and neither picture nor photograph."""
        return sum(
            not sheet.views and not sheet.photographs and _lowest(sheet) < self.margin + THIN * self.height
            for sheet in self.sheets
        )

    def _all(self, blocks: Sequence[Block]) -> None:
        for index, block in enumerate(blocks):
            self._block(block, blocks[index + 1 :])

    def _block(self, block: Block, following: Sequence[Block]) -> None:
        if isinstance(block, Heading):
            self._heading(block, following)
        elif isinstance(block, Words):
            self._keep_last_of_list(block, following)
            self._words(block)
        elif isinstance(block, Picture):
            self._picture(block, following)
        elif isinstance(block, PhotographBlock):
            self._photograph(block)
        elif isinstance(block, Ledger):
            self._ledger(block)
        elif isinstance(block, FigureTable):
            self._table(block)
        elif isinstance(block, Facing):
            self._facing(block)
        else:
            self._room(self._contents_height())
            self.contents = (len(self.sheets) - 1, self.y)
            self.y += self._contents_height()

    def _facing(self, block: Facing) -> None:
        """A piece, on a page of its own where the last is more than a third full."""
        if self.y > self.margin + (self.bottom - self.margin) / 3:
            self._new()
        self._all(block.opening)
        right_hand = len(self.sheets) % 2 == 1
        if self.y + self._size_of(block.picture)[1] > self.bottom:
            right_hand = not right_hand  # it goes overleaf
        drawn = self._size_of(block.picture)[1] + self._size_of(block.key)[1]
        overleaf = self._tall(block.rows) > self.bottom - self.y - drawn
        first = block.besides if right_hand and overleaf else ()
        self._all(first)
        self._all((block.picture, block.key))
        if self.y + ROWS_BELOW * BODY * LEADING > self.bottom:
            self._new()
        self._all(block.rows)
        self._all(block.besides if not first else ())

    def _tall(self, blocks: Sequence[Block]) -> float:
        """About how high words are when set, in mm."""
        lines = sum(self._lines(block) for block in blocks if isinstance(block, Words))
        return lines * BODY * self.share * LEADING

    def _lines(self, block: Words) -> float:
        return len(wrapped(f"{block.lead} {block.words}", self.column, block.size * self.share)) + 0.4

    def _contents_height(self) -> float:
        return self.listed * BODY * 1.9 + 4

    def _new(self) -> None:
        self.sheets.append(_OpenPage())
        self.y = self.margin

    def _room(self, height: float) -> None:
        """A new page where ``height`` does not fit on this one."""
        if self.y + height > self.bottom and self.y > self.margin:
            self._new()

    def _put(self, x: float, y: float, words: str, size: float, weight: Weight = "regular", colour: str = "") -> None:
        self.sheets[-1].items.append(
            Text(rounded(x * PX), rounded(y * PX), words, rounded(size * PX), colour or self.theme.ink, weight)
        )

    def _heading(self, block: Heading, following: Sequence[Block]) -> None:
        size = SIZES[block.level] * self.share
        lines = wrapped(block.words, self.column, size, "semibold")
        needed = (len(lines) * 1.2 + 1.1) * size + self._least(following)
        if block.breaks and self.y > self.margin:
            self._new()
        self._room(needed)
        if self.y > self.margin:
            self.y += 0.9 * size
        if block.anchor:
            self.anchors[block.anchor] = (len(self.sheets), block.words)
        for words in lines:
            self.y += 1.2 * size
            self._put(self.margin, self.y - 0.25 * size, words, size, "semibold", self.colour)
        self.y += 0.35 * size

    def _least(self, following: Sequence[Block]) -> float:
        """What of the blocks ``following`` must stand on the page of the heading before them."""
        block = following[0] if following else None
        if isinstance(block, Words):
            return 3 * block.size * self.share * LEADING
        if isinstance(block, Picture):
            return self._size_of(block)[1] * block.least + 2
        if isinstance(block, Contents):
            return self._contents_height()
        if isinstance(block, Heading):
            return 3.2 * SIZES[block.level] * self.share + self._least(following[1:])
        return 4 * BODY

    def _keep_last_of_list(self, block: Words, following: Sequence[Block]) -> None:
        """The last entry of a list does not stand alone at a page's head: the one before goes with it."""
        marked = [bool(isinstance(one, Words) and one.mark) for one in (block, *following[:2])]
        last = following[0] if following else None
        if marked[:2] == [True, True] and not any(marked[2:]) and isinstance(last, Words):
            self._room(sum(self._lines(one) * one.size * self.share * LEADING for one in (block, last)))

    def _words(self, block: Words) -> None:
        indent = 5.0 if block.mark else 0.0
        size = block.size * self.share
        step = size * LEADING
        said = f"{block.lead} {block.words}" if block.lead else block.words
        lines = wrapped(said, self.column - indent, size)
        colour = self.theme.soft if block.soft else self.theme.ink
        for index, words in enumerate(lines):
            left = len(lines) - index
            # Never one line alone: neither the first at a foot nor the last at a head.
            together = 2 if index == 0 and len(lines) > 1 else (2 if left == 2 else 1)
            self._room(together * step if left > 1 or index == 0 else step)
            self.y += step
            base = self.y - 0.32 * size
            if index == 0 and block.mark:
                self._put(self.margin + 0.8, base, block.mark, size, colour=colour)
            if index == 0 and block.lead and words.startswith(block.lead):
                self._put(self.margin + indent, base, block.lead, size, "semibold", colour)
                ahead = measure(f"{block.lead} ", size, "semibold")
                rest = words[len(block.lead) :].lstrip()
                self._put(self.margin + indent + ahead, base, rest, size, colour=colour)
            else:
                self._put(self.margin + indent, base, words, size, colour=colour)
        self.y += 0.5 * size

    def _size_of(self, block: Picture) -> tuple[float, float]:
        whole = self.bottom - self.margin
        scale = min(min(self.column, block.widest) / block.scene.width, whole * block.tallest / block.height)
        return block.scene.width * scale, block.height * scale

    def _share(self, block: Picture, following: Sequence[Block]) -> float:
        """How large a picture is drawn on the page begun, over its usual size."""
        height, after = self._size_of(block)[1], following[0] if following else None
        room = self.bottom - self.y - 2
        rooms = [room - self._size_of(after)[1] - 4] if isinstance(after, Picture) else []
        return next((min(1.0, share / height) for share in (*rooms, room) if share >= block.least * height), 1.0)

    def _picture(self, block: Picture, following: Sequence[Block]) -> None:
        share = self._share(block, following)
        width, height = (share * side for side in self._size_of(block))
        self._room(height + 2)
        left = self.margin + (self.column - width) / 2
        cut = block.top > 0 or block.bottom is not None
        crop = Crop(0.0, block.top, block.scene.width, block.foot) if cut else None
        self.sheets[-1].views.append(View(block.scene, width / block.scene.width, left, self.y + 1, crop))
        self.y += height + 4

    def _photograph(self, block: PhotographBlock) -> None:
        shown = block.photograph
        tallest = block.tallest * (self.bottom - self.margin)
        width = min(self.column, tallest * shown.width / shown.height)
        placed = PhotographView(shown, self.margin + (self.column - width) / 2, 0.0, width)
        self._room(placed.height + 2)
        self.sheets[-1].photographs.append(replace(placed, top=self.y + 1))
        self.y += placed.height + 4

    def _ledger(self, block: Ledger) -> None:
        columns, step = self._columns(block), BODY * 1.75
        wide, rows = self.column / columns, -(-len(block.entries) // columns)
        per_page = max(1, int((self.bottom - self.margin) / step))
        done = 0
        while done < len(block.entries):
            room = min(per_page, max(1, int((self.bottom - self.y) / step)))
            if room < min(3, rows):
                self._new()
                continue
            tall = min(room, -(-(len(block.entries) - done) // columns))
            for index, entry in enumerate(block.entries[done : done + tall * columns]):
                x = self.margin + (index // tall) * wide
                self._entry(x, self.y + (index % tall + 1) * step, entry, wide)
            done += tall * columns
            self.y += tall * step + 2

    def _columns(self, block: Ledger) -> int:
        """The most columns, of those asked for, in which all words stand whole; one where they do in none."""
        several = range(block.columns, 1, -1)
        needed = max((_ahead(number) + measure(words, SMALL) + 2 for number, words in block.entries), default=0.0)
        return next((columns for columns in several if needed <= self.column / columns), 1)

    def _entry(self, x: float, y: float, entry: tuple[str, str], wide: float) -> None:
        number, words = entry
        box = rectangle(rounded(x * PX), rounded((y - 3.1) * PX), 32.0, 32.0)
        self.sheets[-1].items.append(Path(box, stroke=self.theme.ink, width=2.5))
        self._put(x + 5, y - 0.5, number, BODY, "semibold")
        ahead = _ahead(number)
        self._put(x + ahead, y - 0.5, fitted(words, wide - ahead - 2, SMALL), SMALL)

    def _table(self, block: FigureTable) -> None:
        """A line for every row, the words at the left, each figure at the right of its column."""
        step, columns = SMALL * self.share * 1.75, len(block.head) - 1
        words = max(measure(row[0], SMALL * self.share, "semibold") for row in (block.head, *block.rows)) + 4
        wide = min((self.column - words) / max(columns, 1), 22.0)
        self._room(min(4, len(block.rows) + 1) * step)
        self._line(block.head, words, wide, "semibold")
        for row in block.rows:
            if self.y + step > self.bottom:
                self._new()
                self._line(block.head, words, wide, "semibold")
            self._line(row, words, wide, "regular")
        self.y += step

    def _line(self, row: Sequence[str], words: float, wide: float, weight: Weight) -> None:
        size = SMALL * self.share
        self.y += 1.75 * size
        self._put(self.margin, self.y, row[0], size, weight)
        for nth, figure in enumerate(row[1:], 1):
            room = wide - 1.5
            told = min(size, size * room / max(measure(figure, size, weight), room))
            right = self.margin + words + nth * wide
            self._put(right - measure(figure, told, weight), self.y, figure, told, weight)

    def _fill_contents(self) -> None:
        if self.contents is None:
            return
        index, y = self.contents
        sheet = self.sheets[index]
        for anchor, (page, words) in self.anchors.items():
            y += BODY * 1.9
            right = self.width - self.margin
            sheet.items.append(Text(rounded(self.margin * PX), rounded(y * PX), words, BODY * PX, self.theme.ink))
            sheet.items.append(
                Text(rounded(right * PX), rounded(y * PX), str(page), BODY * PX, self.theme.ink, anchor="end")
            )
            start = self.margin + measure(words, BODY) + 2
            end = right - measure(str(page), BODY) - 2
            rule = line(rounded(start * PX), rounded((y - 0.8) * PX), rounded(end * PX), rounded((y - 0.8) * PX))
            dots = Path(rule, stroke=self.theme.soft, width=1.6, cap="butt", dash=(2.0, 12.0))
            sheet.items.append(dots)
            sheet.links.append((self.margin, y - BODY, right, y + 1, anchor))

    def _page(self, number: int, sheet: _OpenPage) -> Page:
        foot = self.height - self.margin
        items = list(sheet.items)
        if number > 1:
            size = SMALL * PX
            said = rounded(self.margin * PX), rounded(foot * PX)
            items.append(Text(*said, self.footer, size, self.theme.soft))
            right = rounded((self.width - self.margin) * PX)
            items.append(Text(right, rounded(foot * PX), str(number), size, self.theme.soft, anchor="end"))
        own = Scene(
            round(self.width * PX), round(self.height * PX), self.footer, "", "en", {}, tuple(items), None
        )
        links = tuple(
            Link(left, top, right, bottom, self.anchors[anchor][0])
            for left, top, right, bottom, anchor in sheet.links
        )
        views = (*sheet.views, View(own, 1 / PX))
        return Page(self.width, self.height, views, str(number), links, tuple(sheet.photographs))


def _lowest(sheet: _OpenPage) -> float:
    """The mm down to the lowest words."""
    return max((item.y / PX for item in sheet.items if isinstance(item, Text)), default=0.0)


def _ahead(number: str) -> float:
    """The mm that a box and its number take before the words beside it."""
    return 5 + measure(number, BODY, "semibold") + 2.4


def fitted(words: str, width: float, size: float) -> str:
    """``words`` with an em of ``size`` mm, cut short with an ellipsis where they are wider than ``width`` mm, down to
    the ellipsis alone."""
    if measure(words, size) <= width:
        return words
    while words and measure(f"{words}…", size) > width:
        words = words[:-1]
    return f"{words.rstrip()}…"


