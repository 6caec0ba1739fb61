"""Charts for posting: pictures of fixed sizes, in which nothing is smaller than can be read on a phone.

In: a plan, a piece and the name of a size. Out: a ``Scene`` of just that size or, where one picture cannot show the
piece, a numbered series of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from statistics import fmean

from turnchain.drawing.chart import drawn, laid_out
from turnchain.drawing.folds import Folds, Span, cut_to, folded, folded_across
from turnchain.drawing.looks import Look
from turnchain.drawing.parts import SeriesPart, edge_parts, one_repeat, parts
from turnchain.drawing.post_page import ENOUGH, Fitted, PostPage, Subject
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import PHONE
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.records import replace
from turnchain.scene import Scene

#: Width and height in px; None is as high as the chart needs.
SIZES: dict[str, tuple[int, int | None]] = {
    "phone": (780, None),
    "blog": (800, None),
    "blog-sharp": (1600, None),
    "square": (1080, 1080),
    "tall": (1000, 1500),
    "film": (1920, 1080),
}
COMFORTABLE = 20  # px to half a pitch on a phone: a chart that would be smaller is folded across
FEWEST_ROWS = 6  # of a picture of a series
ONE_PICTURE = 0.08  # share by which the pictures of a series must be fuller than one that shows all
PICTURE = 0.02  # share by which pictures must be fuller on average where there is one more of them
PICTURES_MORE = 0.05  # the same, where both edges are shown apart
#: How many clusters are drawn at both sides of a break or beside a cut, tried for those that fill a picture best.
KEPT = (*range(4, 28), 32, 40)
KEPT_AT_CUT = range(2, 14)


def post(plan: Plan, name: str, size: str, look: Look | None = None) -> Scene:
    """The picture of the piece ``name`` in the size called ``size`` (a key of ``SIZES``), or the first where it takes a
    series. Raises as ``series`` does."""
    return series(plan, name, size, look)[0]


def series(plan: Plan, name: str, size: str, look: Look | None = None) -> list[Scene]:
    """The chart of the piece ``name`` in one picture of a size where that can be read and fills it, else in a numbered
    series: foundation and start, one repeat alone, each shaped stretch of the edges, the end, the stripes. ``size`` is
    a key of ``SIZES``; "phone" is one picture of all rows to scroll through.

    Raises KeyError for an unknown piece or size; MakerError where symbols would be too small to tell apart, or where a
    file of symbols cannot be read.
    """
    found = setting(plan, name, look or Look())
    if size == "phone":
        return [_for_a_phone(found)]
    page, piece = PostPage(found, *SIZES[size]), found.piece
    single = page.best(_folds_across(piece), Subject())
    short = folded(piece)
    folded_up = page.best([short], Subject()) if short.rows else None
    for whole in (single, folded_up):
        if whole is not None and page.suits(whole):
            return [page.scene(whole)]
    made = _Series(page).pictures()
    fills = min(one.share if page.reads(one) else 0.0 for one in made if one.wanted.stitches)
    if single is not None and page.reads(single) and single.share + ONE_PICTURE >= fills:
        return [page.scene(single)]
    return [page.scene(one) for one in made]


def _folds_across(piece: PiecePlan, window: Span | None = None) -> Iterator[Folds]:
    """All columns, and every fold across that is tried."""
    yield Folds(window=window)
    yield from (folded_across(piece, (kept // 2, (kept + 1) // 2), window) for kept in KEPT)


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


class _Series:
    """The numbered pictures of the piece of a ``page``."""

    def __init__(self, page: PostPage) -> None:
        self.page, self.piece = page, page.found.piece
        self._made: dict[SeriesPart, Fitted | None] = {}

    def pictures(self) -> list[Fitted]:
        """The pictures, of as many rows each as can be read and fill them; where no number of rows does for all, with
        the number that fills the emptiest one best."""
        most = min(self.page.rows_readable(), self.piece.row_count)
        tried: list[tuple[float, list[SeriesPart]]] = []
        for rows in range(most, min(FEWEST_ROWS, most) - 1, -1):
            found = [one for whole in parts(self.piece, rows, self._begin(rows)) for one in self._split(whole)]
            fills = [min(self._fills(self._fitted(one)), ENOUGH) for one in found if one.of_some_rows]
            tried.append((fmean(fills) - PICTURE * len(fills), found))
            if min(fills) >= ENOUGH:
                return self._numbered(found)
        return self._numbered(max(tried, key=lambda one: one[0])[1])

    def _begin(self, rows: int) -> int:
        """How many rows, at most ``rows``, the picture of the start shows: fewer where more cannot be read."""
        for begin in range(rows, FEWEST_ROWS, -1):
            made = [self._fitted(one) for one in self._split(next(iter(parts(self.piece, rows, begin))))]
            if all(one is not None and self.page.reads(one) for one in made):
                return begin
        return min(rows, FEWEST_ROWS)

    def _fills(self, one: Fitted | None) -> float:
        """How much of a picture its chart takes; next to nothing where its rows cannot be read."""
        if one is None or not self.page.reads(one):
            return -1.0 if one is None else 0.01 * one.rise / self.page.readable
        return one.share

    def _split(self, part: SeriesPart) -> Sequence[SeriesPart]:
        """``part``, or both its edges apart where these fill their pictures better."""
        whole = self._fitted(part)
        if not part.of_some_rows or (whole is not None and self.page.suits(whole)):
            return (part,)
        apart = edge_parts(self.piece, part)
        better = min(self._fills(self._fitted(one)) for one in apart) > self._fills(whole) + PICTURES_MORE
        return apart if better else (part,)

    def _fitted(self, part: SeriesPart) -> Fitted | None:
        if part not in self._made:
            self._made[part] = self._best(part)
        return self._made[part]

    def _best(self, part: SeriesPart) -> Fitted | None:
        """The picture of a part: with all its rows or, where it is fuller then, with fewer."""
        wanted = Subject(self._title(part, 88, 88), part.what != "stripes")
        tried = []
        for window in part.windows() if part.of_some_rows else (part.window,):
            made = self.page.best(self._folds(part, window), wanted)
            tried.append(made)
            if made is not None and self.page.suits(made):
                return made
        return max(tried, key=self._fills)

    def _folds(self, part: SeriesPart, window: Span) -> Iterator[Folds]:
        """What may be left out of a part, of which the rows in ``window`` are drawn."""
        if part.what == "repeat":
            yield from one_repeat(self.piece)
        elif part.what == "stripes":
            yield from (replace(folds, window=None) for folds in _folds_across(self.piece))
        elif part.at is None:
            yield from _folds_across(self.piece, window)
        else:
            cuts = (cut_to(self.piece, part.at, kept, window) for kept in KEPT_AT_CUT)
            yield from (folds for folds in cuts if folds is not None)

    def _title(self, part: SeriesPart, nth: int, count: int) -> str:
        say = self.page.found.speech.say
        what = say(f"post.{part.what}")
        if part.at is not None:
            what = say(f"post.{part.at}", what=what)
        return say("post.part", piece=self.piece.name, nth=nth, n=count, what=what)

    def _numbered(self, found: list[SeriesPart]) -> list[Fitted]:
        """The pictures with their numbers."""
        made = []
        for nth, part in enumerate(found, start=1):
            fitted = self._fitted(part)
            if fitted is None:
                raise MakerError(
                    f'piece "{self.piece.name}": its clusters are too small to tell apart at {self.page.width} px; '
                    "take a close-up (--detail 1-10 --at left) or a picture of your own --width"
                )
            title = self._title(part, nth, len(found))
            made.append(replace(fitted, wanted=replace(fitted.wanted, title=title)))
        return made
