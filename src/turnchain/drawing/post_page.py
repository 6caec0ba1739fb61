"""One picture to post: the chart as large as the picture takes it, and the key where the chart leaves room.

In: a ``Setting``, a size in px and what may be left out. Out: a ``Fitted`` chart, and its ``Scene``. The key stands
below the chart, beside it, or in a corner that the shape of the piece leaves free.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Literal, TypeAlias

from turnchain import style
from turnchain.drawing import brackets, heading, key
from turnchain.drawing.chart import KEY_UNIT, ChartPicture, Parts
from turnchain.drawing.columns import Column
from turnchain.drawing.folds import NO_FOLDS, Folds
from turnchain.drawing.margins import RULER
from turnchain.drawing.marks import Marks
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import FILM, POST, Frame, heights, strip_of
from turnchain.drawing.sizing import LARGEST_IN_POST, block, measured
from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import Row
from turnchain.records import frozen, replace
from turnchain.scene import Group, Item, Scene
from turnchain.wording import alt_texts
from turnchain.wording.tables import language_of

READABLE_ROW = 36 / 1080  # height of a row over the shorter side of the picture
ENOUGH = 0.61  # of the picture, by a chart with all that stands beside it
BETTER = 0.67  # of the picture: of charts that take more than this the one with the highest rows is drawn
LARGEST_REPEAT = 170  # px to half a pitch at the reference width, of one repeat alone
MOST_MADE = 4  # charts that are laid out of those that may fill a picture best
HIGHEST = 2.8  # of the width: a picture as high as it needs
GAP = 0.6  # between chart and key, over the words
FOOT = 0.7  # of the margin: left free at the foot of the picture
SPREAD = (0.35, 0.25)  # of the height to spare: above the chart, and between it and the key
STRETCHES = (1.0, 0.85, 0.7, 0.55, 0.45, 1.2, 1.45, 1.7)  # of the height of rows without stitches
ALONE = Parts(heading=False, key=False, credit=False)

Place: TypeAlias = Literal["below", "beside", "left", "right"]


@frozen
class Box:
    """A place in the picture, in px."""

    left: float
    top: float
    right: float
    bottom: float


@frozen
class Subject:
    """What a picture shows: with what ``title`` (empty: the piece's name alone), with ``stitches`` or as stripes."""

    title: str = ""
    stitches: bool = True


@frozen
class Fitted:
    """A chart that fits, ``picture``, drawn from ``top`` on; ``key``: the box and the place of its key; ``share``: how
    much of the picture it takes, 0 to 1."""

    picture: ChartPicture
    wanted: Subject
    top: float
    place: Place
    key: Box
    height: int
    share: float

    @property
    def rise(self) -> int:
        """The px of a row."""
        return self.picture.setting.sheet.rise


class PostPage:
    """Pictures ``width`` px wide and ``height`` px high (None: as high as they need), of the piece of ``found``."""

    def __init__(self, found: Setting, width: int, height: int | None) -> None:
        self.found, self.width, self.height = found, width, height
        self.wide = height is not None and width > height
        self.frame: Frame = FILM if self.wide else POST
        self.unit = width / self.frame.reference
        self.words, self.margin = self.frame.words * self.unit, self.frame.margin * self.unit
        self.readable = READABLE_ROW * min(width, height or width)
        self._marks: dict[Folds, Marks] = {}
        self._keys: dict[tuple[Folds, bool], tuple[float, float, float]] = {}

    # ------------------------------------------------------------------------------------------------ how large

    def best(self, choices: Iterable[Folds], wanted: Subject) -> Fitted | None:
        """The chart with what one of ``choices`` leaves out that fills the picture best: of those with rows high enough
        to read the largest, of those that take more than ``BETTER`` of the picture the one with the highest rows. None
        where all would be too small to tell their symbols apart. A corner is tried for the key where there is none that
        suits otherwise."""
        every = [room for folds in dict.fromkeys(choices) for room in self._rooms(folds, wanted)]
        rooms = [room for room in every if room.readable()] or every
        best = self._largest(rooms, ("below", "beside"), None)
        return best if best is not None and self.suits(best) else self._largest(rooms, ("left", "right"), best)

    def _largest(self, rooms: Iterable[_Room], places: tuple[Place, ...], best: Fitted | None) -> Fitted | None:
        """The best chart with its key at one of ``places``, or ``best`` where none is better."""
        hoped = [one for room in rooms for place in places if (one := room.hoped(place)) is not None]
        most = 2 if "below" in places else MOST_MADE
        for one in sorted(hoped, key=self._rank, reverse=True)[:most]:
            if best is not None and self._rank(one) <= self._rank(best):
                break
            made = one.made()
            if made is not None and (best is None or self._rank(made) > self._rank(best)):
                best = made
        return best

    def _rank(self, one: Fitted | _Hoped) -> tuple[bool, float, int, float]:
        return self.reads(one), min(one.share, BETTER), one.rise, one.share

    def reads(self, one: Fitted | _Hoped) -> bool:
        """Whether rows are high enough to read; stripes always are."""
        return not one.wanted.stitches or one.rise >= self.readable * (0.8 if self.height is None else 1.0)

    def suits(self, one: Fitted) -> bool:
        """Whether rows can be read and the chart takes enough of the picture."""
        return self.reads(one) and one.share >= ENOUGH

    def rows_readable(self) -> int:
        """How many rows one picture shows at most at a height that can be read."""
        height = self.height or round(1.4 * self.width)
        top = self.top(Subject("x"), self.found.rows[:1])
        return max(4, int((height - top - self.margin) // self.readable))

    def _rooms(self, folds: Folds, wanted: Subject) -> Iterator[_Room]:
        alike = replace(folds, across=None)
        if alike not in self._marks:
            self._marks[alike] = Marks.of(self.found, folds)
        for stretch in (1.0,) if wanted.stitches else STRETCHES:
            room = _Room(self, replace(self.found, stretch=stretch), folds, wanted, self._marks[alike])
            if room.measure_key():
                yield room

    def top(self, wanted: Subject, rows: tuple[Row, ...]) -> float:
        """The y from which a chart may stand."""
        return self.heading(wanted, rows)[1] + 0.35 * self.words

    def key_size(self, found: Setting, folds: Folds, stitches: bool) -> tuple[float, float, float]:
        """What the key needs, in px: the height in lines across the picture; width and height as a column."""
        alike = replace(folds, across=None), stitches
        if alike not in self._keys:
            small = found.on(measured(found, self.width, self.frame, folds, style.LEAST_HALF_PITCH, fixed=True))
            picture, across = ChartPicture(small, ALONE), self.width - 2 * self.margin
            longest = key.longest(picture.samples, self.words / KEY_UNIT, stitches)
            wide = max(longest, 8 * self.words)
            self._keys[alike] = (
                self._key(picture, Box(0, 0, across, 0), stitches).y,
                wide,
                self._key(picture, Box(0, 0, wide, 0), stitches).y,
            )
        return self._keys[alike]

    def _key(self, picture: ChartPicture, box: Box, stitches: bool) -> Column:
        theme = self.found.look.theme
        column = Column(box.left, box.top, box.right - box.left, self.words / KEY_UNIT, theme)
        key.compact(column, picture.samples, stitches)
        return column

    # ------------------------------------------------------------------------------------------------ the picture

    def scene(self, fitted: Fitted) -> Scene:
        """The finished picture."""
        found, picture, wanted = self.found, fitted.picture, fitted.wanted
        items, _ = self.heading(wanted, picture.setting.rows)
        picture.place(round(fitted.top))
        items += picture.chart_items(stitches=wanted.stitches)
        items.append(Group(tuple(self._key(picture, fitted.key, wanted.stitches).items), "key"))
        return Scene(
            width=self.width,
            height=fitted.height,
            title=f"{found.pattern.title}: {wanted.title or found.piece.name}",
            words=self._told(picture.setting, wanted.title),
            language=language_of(found.pattern).tag,
            definitions=picture.definitions.made | picture.samples.definitions.made,
            items=tuple(items),
            background=found.look.background,
        )

    def _told(self, fitted: Setting, title: str) -> str:
        whole = alt_texts.of_chart(fitted.plan, fitted.piece, fitted.sheet.folds != NO_FOLDS)
        return f"{whole} {title}, {self._rows(fitted.rows)}." if title else whole

    def _rows(self, rows: tuple[Row, ...]) -> str:
        return self.found.speech.say("post.rows", first=rows[0].number, last=max(row.number for row in rows))

    def heading(self, wanted: Subject, rows: tuple[Row, ...]) -> tuple[list[Item], float]:
        """Two lines: pattern and rows with the credit at the right, and the piece; and the y of their foot."""
        pattern, piece, speech = self.found.pattern, self.found.piece, self.found.speech
        shown = self._rows(rows) if wanted.title else speech.count("counted.row", piece.row_count)
        hand = f"  ·  {speech.say('chart.left_handed')}" if self.found.look.hand == "left" else ""
        top = self.margin - 0.45 * self.words
        place = heading.HeadingPlace(self.margin, top, self.width - 2 * self.margin, self.words, self.found.look.theme)
        over = f"{pattern.title}  ·  {shown}{hand}"
        said = heading.PictureHeading(over, wanted.title or piece.name, credit=key.by_words(pattern))
        return heading.drawn(said, place, post=True)


@frozen
class _Hoped:
    """How large the chart in a ``room`` can be at most with its key at ``place``: ``half`` px to half a pitch, rows of
    ``rise`` px, and the ``share`` of the picture that it then takes."""

    room: _Room
    place: Place
    half: int
    rise: int
    share: float

    @property
    def wanted(self) -> Subject:
        """What the picture shows."""
        return self.room.wanted

    def made(self) -> Fitted | None:
        """The chart, smaller where it needs be; None where there is no room for its key."""
        if self.place in ("left", "right"):
            return self._in_corner()
        halves = range(self.half, style.LEAST_HALF_PITCH - 1, -1)
        return next((made for half in halves if (made := self.room.made(self.place, half)) is not None), None)

    def _in_corner(self) -> Fitted | None:
        """The largest chart that can be read and leaves a corner for its key."""
        low, above = math.ceil(self.half * self.room.page.readable / self.rise), self.half + 1
        best = self.room.made(self.place, low) if low < above else None
        while best is not None and above - low > 1:
            half = (low + above) // 2
            made = self.room.made(self.place, half)
            low, above, best = (low, half, best) if made is None else (half, above, made)
        return best


class _Room:
    """The room for the chart of ``found`` with ``folds`` in the picture of a ``page``."""

    def __init__(self, page: PostPage, found: Setting, folds: Folds, wanted: Subject, marks: Marks) -> None:
        self.page, self.found, self.folds, self.wanted, self.marks = page, found, folds, wanted, marks
        self.top = page.top(wanted, marks.rows)
        self.foot = FOOT * page.margin
        self.lines, self.column, self.column_height = 0.0, 0.0, 0.0
        self._widths: dict[int, float] = {}  # the same few sizes are asked for at every place of the key

    def measure_key(self) -> bool:
        """Whether the key can be drawn: not where the symbols of the chart are too small in any case."""
        try:
            size = self.page.key_size(self.found, self.folds, self.wanted.stitches)
        except MakerError:
            return False
        self.lines, self.column, self.column_height = size
        return True

    def readable(self) -> bool:
        """Whether rows that are high enough to read leave the chart narrow enough."""
        if not self.wanted.stitches:
            return True
        half = math.ceil(100 * self.page.readable / self.found.rise(100))
        return self._wide(half) <= self.page.width - 2 * self.page.margin

    def hoped(self, place: Place) -> _Hoped | None:
        """How large the chart can be with the key at ``place``; None where there is no room for it at all."""
        page = self.page
        if place == "beside" and page.height is None:
            return None
        wide = self._across(place) - 2 * page.margin
        high = (page.height or HIGHEST * page.width) - self.top - self.foot - self._below(place)
        half = self._largest(wide, high)
        if half is None:
            return None
        tall = self._high(half)
        whole = page.height or self.top + tall + self._below(place) + self.foot
        return _Hoped(self, place, half, self.found.rise(half), self._wide(half) * tall / (page.width * whole))

    def _across(self, place: Place) -> float:
        """The px across that the chart has with its margins."""
        return self.page.width - (self.column + GAP * self.page.words if place == "beside" else 0.0)

    def _below(self, place: Place) -> float:
        """The px that the key takes below the chart."""
        return self.lines + GAP * self.page.words if place == "below" else 0.0

    def _wide(self, half: int) -> float:
        if half not in self._widths:
            page = self.page
            self._widths[half] = block(self.found, half, page.frame, page.unit, self.folds, self.marks).width
        return self._widths[half]

    def _largest(self, wide: float, high: float) -> int | None:
        """The largest half pitch with which the chart is no larger than ``wide`` and ``high``."""
        alone = None not in (self.folds.left_cut, self.folds.right_cut)
        largest = round((LARGEST_REPEAT if alone else LARGEST_IN_POST) * self.page.unit)
        low, above = style.LEAST_HALF_PITCH - 1, largest + 1
        while above - low > 1:
            half = (low + above) // 2
            if self._high(half) <= high and self._wide(half) <= wide:
                low = half
            else:
                above = half
        return low if low >= style.LEAST_HALF_PITCH else None

    def _high(self, half: int) -> float:
        """The height of the chart, but for words below it that need a second line."""
        rise, words = self.found.rise(half), self.page.words
        if not self.wanted.stitches:
            return self._rows(rise) + 0.3 * words
        founded = self.folds.shows_row(1)
        below = (1.8 if founded or self.folds.by_columns else 0.3) + brackets.HOOK * self.folds.by_columns
        return self._rows(rise) + strip_of(self.found.piece) * rise * founded + below * words

    def _rows(self, rise: int) -> int:
        if not self.folds.rows and self.folds.window is not None and not self.found.piece.mixed:
            return rise * self.folds.window.count
        return heights(self.found.piece, rise, self.folds)[-1]

    def made(self, place: Place, half: int) -> Fitted | None:
        """The chart with ``half`` px to half a pitch and its key, or None where they have no room."""
        page, across = self.page, round(self._across(place))
        frame = replace(page.frame, reference=round(across / page.unit))
        try:
            found = self.found.on(measured(self.found, across, frame, self.folds, half, fixed=True))
        except MakerError:
            return None
        picture = ChartPicture(found, ALONE)
        tall = picture.chart_height if self.wanted.stitches else self._high(half)
        left, right = picture.extent()
        end = self.top + tall + self._below(place)
        height = page.height or math.ceil(end + self.foot)
        spare = height - self.foot - end
        if spare < 0:
            return None
        top = self.top + SPREAD[0] * spare if place in ("below", "beside") else self.top
        box = self._key_box(picture, place, (top, top + tall), spare)
        if box is None:
            return None
        share = (right - left) * tall / (page.width * height)
        return Fitted(picture, self.wanted, top, place, box, height, share)

    def _key_box(self, picture: ChartPicture, place: Place, chart: tuple[float, float], spare: float) -> Box | None:
        """Where the key stands by a chart from its top to its foot; None where it would lie on it."""
        page, (top, bottom) = self.page, chart
        left, right = page.margin, page.width - page.margin
        if place == "below":
            y = bottom + GAP * page.words + SPREAD[1] * spare
            return Box(left, y, right, y + self.lines)
        if place == "beside":
            return Box(right - self.column, top, right, top + self.column_height)
        if place == "left":
            left = picture.extent()[0] + (RULER + GAP) * page.words
            return self._free(picture, place, (left, left + self.column), chart)
        return self._free(picture, place, (right - self.column, right), chart)

    def _free(
        self, picture: ChartPicture, side: Side, across: tuple[float, float], chart: tuple[float, float]
    ) -> Box | None:
        """The lowest place of the key between the x of ``across`` that is clear of the chart at its ``side``."""
        (left, right), (top, bottom) = across, chart
        taken = [(low, high) for low, high, near, far in self._rows_taken(picture, chart)
                 if near < right + GAP * self.page.words and left - GAP * self.page.words < far]  # fmt: skip
        y = bottom - self.column_height
        for low, high in sorted(taken, reverse=True):
            if low < y + self.column_height and y < high:
                y = low - self.column_height
        return Box(left, y, right, y + self.column_height) if y >= top else None

    def _rows_taken(
        self, picture: ChartPicture, chart: tuple[float, float]
    ) -> Iterator[tuple[float, float, float, float]]:
        """What each row takes with what stands beside it, and all that stands below the lowest: from y to y, x to x."""
        made, sheet, (top, bottom) = picture.margins, picture.setting.sheet, chart
        ground = top + picture.above + sheet.heights[-1]
        rooms = {side: made.rooms(side).total for side in SIDES}
        for row in made.rows:
            near, far = made.base(row, "left") - rooms["left"], made.base(row, "right") + rooms["right"]
            far = max(far, picture.extent()[1]) if self.folds.rows else far  # words of brackets stand there
            yield ground - sheet.heights[row.number], ground - sheet.heights[row.number - 1], near, far
        yield ground, bottom, sheet.chart_left, sheet.chart_right
