"""Charts for posting: pictures of fixed sizes, in which nothing is smaller than can be read on a phone.

In: a plan, a piece and the name of a size. Out: a ``Scene`` of just that size or, where one picture cannot show the
piece, a numbered series of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from turnchain.drawing import heading, key
from turnchain.drawing.chart import KEY_UNIT, ChartPicture, Parts, drawn, laid_out
from turnchain.drawing.columns import Column
from turnchain.drawing.folds import NO_FOLDS, Folds, Span, folded, folded_across
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import FILM, PHONE, POST, Frame, Sheet, heights
from turnchain.drawing.sizing import measured
from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.records import frozen, replace
from turnchain.scene import Group, Item, Scene
from turnchain.wording import alt_texts
from turnchain.wording.tables import language_of

#: Width and height in px; None is as high as the chart needs.
SIZES: dict[str, tuple[int, int | None]] = {
    "phone": (780, None),
    "blog": (800, None),
    "blog-sharp": (1600, None),
    "square": (1080, 1080),
    "tall": (1000, 1500),
    "film": (1920, 1080),
}
FILLED = 0.5  # of the picture, by a short chart: where one leaves more of it empty, a series is drawn
COMFORTABLE = 20  # px to half a pitch on a phone: a chart that would be smaller is folded across
READABLE_ROW = 36 / 1080  # height of a row over the shorter side of the picture
FEWEST_ROWS = 6  # of a picture of a series
NEAR = 3  # rows: shaped rows no farther apart are one stretch
#: How many clusters are drawn at each side of a break, tried for the one that fills a picture best.
KEPT = (*range(2, 14), 16, 20)
ALONE = Parts(heading=False, key=False, credit=False)
KEY_OF_FILM = 14.5  # width of the key beside the chart of a wide picture, over its words


@frozen
class SeriesPart:
    """One picture of a series: the rows ``first`` to ``last`` (numbers, both included) and ``what`` they show, the name
    of a phrase "post.*" of the languages; all rows as stripes without stitches where ``stripes``."""

    what: str
    first: int
    last: int
    stripes: bool = False


def post(plan: Plan, name: str, size: str, look: Look | None = None) -> Scene:
    """The picture of the piece ``name`` in the size called ``size`` (a key of ``SIZES``), or the first where it takes a
    series. Raises as ``series`` does."""
    return series(plan, name, size, look)[0]


def series(plan: Plan, name: str, size: str, look: Look | None = None) -> list[Scene]:
    """The chart of the piece ``name`` in one picture of a size where that can be read, else in a numbered series:
    the start, each shaped stretch of the edges, the end, the stripes. ``size`` is a key of ``SIZES``; "phone" is one
    picture of all rows to scroll through.

    Raises KeyError for an unknown piece or size; MakerError where symbols would be too small to tell apart, or where a
    file of symbols cannot be read.
    """
    found = setting(plan, name, look or Look())
    if size == "phone":
        return [_for_a_phone(found)]
    post = _Post(found, size)
    single = post.largest(None)
    if single is not None and post.suits(single):
        return [post.scene(single)]
    short = post.fitted(folded(found.piece))
    if short is not None and short.sheet.folds.rows and post.suits(short) and post.share(short) >= FILLED:
        return [post.scene(short)]
    return post.numbered()


def _for_a_phone(found: Setting) -> Scene:
    """The chart to scroll through on a phone: all its rows, folded across where it is wide, two px to a css px."""
    across, width = folded_across(found.piece), SIZES["phone"][0]
    if across.across is None:
        return drawn(laid_out(found, width, PHONE, fixed=True))
    with suppress(MakerError):  # a wide piece is too small to read there unless it is folded
        whole = laid_out(found, width, PHONE, fixed=True)
        if whole.sheet.half >= COMFORTABLE:
            return drawn(whole)
    return drawn(laid_out(found, width, PHONE, across, fixed=True))


def _parts(piece: PiecePlan, most: int) -> Iterator[SeriesPart]:
    """The pictures of a series, none of more than ``most`` rows: every shaped row is in one of them."""
    begin = min(most, piece.row_count)
    yield SeriesPart("start", 1, begin)
    shown = begin
    for first, last in _shaped(piece):
        low = _centred(first, last, most, piece.row_count) if first > shown else shown + 1
        while low <= last:
            high = min(low + most - 1, piece.row_count)
            begin = max(1, min(low, high - most + 1))
            yield SeriesPart(_what_happens(piece, begin, high), begin, high)
            shown, low = high, high + 1
    if piece.row_count > shown:
        yield SeriesPart("end", max(1, piece.row_count - most + 1), piece.row_count)
    if piece.rows[0].colour is not None and len({row.colour for row in piece.rows}) > 1:
        yield SeriesPart("stripes", 1, piece.row_count, stripes=True)


def _centred(first: int, last: int, most: int, rows: int) -> int:
    """The first of ``most`` rows with the rows ``first`` to ``last`` in their middle, as far as there are rows."""
    return max(1, min(first, first - (most - (last - first + 1)) // 2, rows - most + 1))


def _shaped(piece: PiecePlan) -> Iterator[tuple[int, int]]:
    """Each stretch of rows with shaped edges: its first and its last row."""
    numbers = sorted({row.number for row in piece.rows if row.number > 1 and _moves(row)})
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number - runs[-1][-1] <= NEAR:
            runs[-1].append(number)
        else:
            runs.append([number])
    yield from ((run[0], run[-1]) for run in runs)


def _what_happens(piece: PiecePlan, first: int, last: int) -> str:
    """What the edges do from row ``first`` to row ``last``."""
    moves = [move for row in piece.rows if first <= row.number <= last for move in _moves(row)]
    less = ["decrease" in move or move == "step_in" for move in moves]
    if piece.has_neck:
        return "into_neck" if all(less) else "neck" if any(less) else "out_of_neck"
    return "narrower" if all(less) else "shaped" if any(less) else "wider"


def _moves(row: Row) -> list[str]:
    return [row.edge(side).move for side in SIDES if row.edge(side).move != "straight"]


class _Post:
    """Pictures of one size, of the piece of ``found``."""

    def __init__(self, found: Setting, size: str) -> None:
        self.found = found
        self.width, self.height = SIZES[size]
        self.wide = self.height is not None and self.width > self.height
        base = FILM if self.wide else POST
        self.frame: Frame = base
        self.unit = self.width / base.reference
        self.words = base.words * self.unit
        self.margin = base.margin * self.unit
        self.readable = READABLE_ROW * min(self.width, self.height or self.width)

    # ------------------------------------------------------------------------------------------------ how large

    def fitted(self, folds: Folds, title: str = "", stripes: bool = False) -> Setting | None:
        """The piece as large as the picture takes it, or None where its symbols would be too small to tell apart."""
        try:
            most = self.found.on(self._measured(folds, None))
        except MakerError:
            return None
        if self.height is None:
            return most
        for half in range(most.sheet.half, 2, -1):
            if self._fits(folds, half, most, title, stripes):
                return self.found.on(self._measured(folds, half))
        return None

    def largest(self, window: Span | None, title: str = "") -> Setting | None:
        """The rows of ``window`` (None: all) with as many clusters as fill the picture best: of those whose rows are
        high enough to read the one whose chart takes most of it; else that with the highest rows."""
        found = self.found.piece
        tried: list[Setting] = []
        seen: set[Span | None] = set()
        for across in (None, *(folded_across(found, kept, window).across for kept in KEPT)):
            if across not in seen:
                seen.add(across)
                fitted = self.fitted(Folds(across, window=window), title)
                tried += [fitted] if fitted is not None else []
        readable = [one for one in tried if one.sheet.rise >= self.readable]
        if readable:
            return max(readable, key=self.share)
        return max(tried, key=lambda one: one.sheet.rise, default=None)

    def share(self, fitted: Setting) -> float:
        """The share of the picture that the chart takes."""
        picture = ChartPicture(fitted, ALONE)
        left, right = picture.extent()
        return (right - left) * picture.chart_height / (self.width * (self.height or 1.4 * self.width))

    def _measured(self, folds: Folds, half: int | None) -> Sheet:
        """The sheet with the chart beside the key of a wide picture, or across a high one."""
        width = round(self.width - (KEY_OF_FILM * self.words if self.wide else 0))
        frame = replace(self.frame, reference=round(width / self.unit))
        return measured(self.found, width, frame, folds, half, fixed=True)

    def _fits(self, folds: Folds, half: int, most: Setting, title: str, stripes: bool) -> bool:
        """Whether the chart is no higher than the room that heading and key leave."""
        assert self.height is not None
        rise = self.found.look.rise(self.found.piece, half)
        chart = heights(self.found.piece.row_count, rise, folds)[-1] + self._below(most, rise)
        return chart <= self.height - self._top(most, title) - self._key_height(most, stripes) - 0.7 * self.margin

    def _below(self, most: Setting, rise: int) -> float:
        picture = ChartPicture(most, ALONE)
        foot = picture.chart_height - picture.above - most.sheet.heights[-1]
        return foot - 0.3 * (most.sheet.rise - rise) if most.founded else foot

    def _top(self, most: Setting, title: str) -> float:
        _, y = self._heading(most, title)
        return y + 0.35 * self.words

    def _key_height(self, most: Setting, stripes: bool = False) -> float:
        if self.wide:
            return 0.0
        column = self._key(most, 0.0, stitches=not stripes)
        return column.y + 0.3 * self.words

    def suits(self, fitted: Setting) -> bool:
        """Whether rows are high enough to read."""
        if self.height is None:
            return fitted.sheet.rise >= 0.8 * self.readable
        return fitted.sheet.rise >= self.readable

    def rows_readable(self) -> int:
        """How many rows one picture shows at a height that can be read."""
        height = self.height or round(1.4 * self.width)
        one = self.fitted(Folds(folded_across(self.found.piece).across, window=Span(1, 1)))
        assert one is not None, "one row fits any picture"
        room = height - self._top(one, "x") - self._key_height(one) - 0.7 * self.margin - self._below(one, 0)
        return max(4, int(room // self.readable))

    # ------------------------------------------------------------------------------------------------ the picture

    def scene(self, fitted: Setting, title: str = "", stripes: bool = False) -> Scene:
        """The picture of a fitted piece."""
        items, top = self._heading(fitted, title)
        top += 0.35 * self.words
        picture = ChartPicture(fitted, ALONE)
        spare = 0.0
        if self.height is not None:
            used = picture.chart_height + self._key_height(fitted, stripes) + 0.7 * self.margin
            spare = max(0.0, self.height - top - used)
        picture.place(round(top + min(spare * 0.35, 1.2 * self.words)))
        bottom = top + min(spare * 0.35, 1.2 * self.words) + picture.chart_height
        column = self._key(picture.setting, top if self.wide else bottom + 0.2 * self.words, picture, not stripes)
        page = self.height or round(max(column.y, bottom) + 0.7 * self.margin)
        items += picture.chart_items(stitches=not stripes)
        items.append(Group(tuple(column.items), "key"))
        found = self.found
        what = title or f"{found.piece.name}"
        return Scene(
            width=self.width,
            height=page,
            title=f"{found.pattern.title}: {what}",
            words=self._told(fitted, title),
            language=language_of(found.pattern).tag,
            definitions=picture.definitions.made | picture.samples.definitions.made,
            items=tuple(items),
            background=found.look.background,
        )

    def _told(self, fitted: Setting, title: str) -> str:
        whole = alt_texts.of_chart(fitted.plan, fitted.piece, fitted.sheet.folds != NO_FOLDS)
        if not title:
            return whole
        rows = fitted.rows
        shown = fitted.speech.say("post.rows", first=rows[0].number, last=rows[-1].number)
        return f"{whole} {title}, {shown}."

    def numbered(self) -> list[Scene]:
        """The pictures of a series, of as many rows each as are high enough to read there."""
        most = self.rows_readable()
        while True:
            parts = list(_parts(self.found.piece, most))
            titles = [self._title(one, nth, len(parts)) for nth, one in enumerate(parts, start=1)]
            fitted = [self._part(one, title) for one, title in zip(parts, titles, strict=True)]
            small = any(
                one.sheet.rise < self.readable for one, part in zip(fitted, parts, strict=True) if not part.stripes
            )
            if not small or most <= FEWEST_ROWS:
                return [
                    self.scene(one, title, part.stripes)
                    for one, title, part in zip(fitted, titles, parts, strict=True)
                ]
            most = max(FEWEST_ROWS, round(0.7 * most))

    def _title(self, one: SeriesPart, nth: int, count: int) -> str:
        say = self.found.speech.say
        return say("post.part", piece=self.found.piece.name, nth=nth, n=count, what=say(f"post.{one.what}"))

    def _part(self, one: SeriesPart, title: str) -> Setting:
        shown = Span(one.first, one.last)
        best = self.fitted(NO_FOLDS, title, stripes=True) if one.stripes else self.largest(shown, title)
        if best is None:
            raise MakerError(
                f'piece "{self.found.piece.name}": its clusters are too small to tell apart at {self.width} px; take a '
                "close-up (--detail 1-10 --at left) or a picture of your own --width"
            )
        return best

    def _heading(self, fitted: Setting, title: str) -> tuple[list[Item], float]:
        """Two lines: pattern and rows with the credit at the right, and the piece."""
        pattern, piece = fitted.pattern, fitted.piece
        rows = fitted.rows
        speech, by = fitted.speech, key.by_words(pattern)
        shown = speech.say("post.rows", first=rows[0].number, last=rows[-1].number)
        if not title:
            shown = speech.count("counted.row", piece.row_count)
        hand = f"  ·  {speech.say('chart.left_handed')}" if fitted.look.hand == "left" else ""
        top = self.margin - 0.45 * self.words
        place = heading.HeadingPlace(self.margin, top, self.width - 2 * self.margin, self.words, fitted.look.theme)
        over = f"{pattern.title}  ·  {shown}{hand}"
        return heading.drawn(heading.PictureHeading(over, title or piece.name, credit=by), place, post=True)

    def _key(self, fitted: Setting, top: float, picture: ChartPicture | None = None, stitches: bool = True) -> Column:
        """The key in a few lines below the chart; beside it in a wide picture."""
        wide = self.width - 2 * self.margin
        left = self.margin
        if self.wide:
            wide = (KEY_OF_FILM - 1.0) * self.words
            left = self.width - self.margin - wide
        column = Column(left, top, wide, self.words / KEY_UNIT, fitted.look.theme)
        samples = (picture or ChartPicture(fitted, ALONE)).samples
        key.compact(column, samples, stitches)
        return column

