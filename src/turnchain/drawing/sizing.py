"""How large a chart is drawn: the measured page for a piece, before anything is drawn.

In: a ``Setting``, a kind of page and what is folded. Out: a ``Sheet``. What stands beside the cloth is measured at each
size, so that the cloth is as large as there is room for.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain import style
from turnchain.drawing import brackets, margins
from turnchain.drawing.folds import NO_FOLDS, Folds
from turnchain.drawing.margins import RULER, RULER_GAP, Margins
from turnchain.drawing.marks import Marks
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import BREAK, CLOTH, WHOLE, Frame, Sheet, heights, strip_of
from turnchain.errors import MakerError
from turnchain.fabric.lattice import SIDES, Side
from turnchain.records import frozen

TALLEST = 2.3  # a chart this many times as high as the page is wide is drawn smaller, while it stays readable
READABLE_HALF_PITCH = 12  # px at the reference width: no chart is drawn smaller for its height
LARGEST_IN_POST = 75  # px to half a pitch at the reference width: a picture to post shows few stitches, and fills
KEY_BESIDE = 19.0  # width of a key beside the chart with the gap before it, over the words of the page
LEAST_PAGE = 26.0  # width of a page without its margins, the same


@frozen
class Block:
    """The px across of a chart with half a pitch of ``half`` px: what stands ``left`` and ``right`` of the cloth, and
    the ``cloth``."""

    half: int
    left: float
    cloth: int
    right: float

    @property
    def width(self) -> float:
        """The px across of all of it."""
        return self.left + self.cloth + self.right


def block(
    setting: Setting, half: int, frame: Frame, unit: float, folds: Folds, marks: Marks | None = None
) -> Block:
    """The chart across with ``half`` px to half a pitch, where a px of the ``frame`` is ``unit`` px; ``marks``: those
    of ``setting`` with these ``folds``, where they are known."""
    piece, words = setting.piece, frame.words * unit
    rise = setting.rise(half)
    made = Margins(setting, frame, rise, unit, marks or Marks.of(setting, folds), folds)
    sides = {side: _beside(made, side, frame, folds) for side in SIDES}
    if piece.rows[0].colour is not None:
        sides["left"] += (RULER + RULER_GAP) * words
    if folds.rows:
        sides["right"] = max(sides["right"], _repeats(setting, made, half, folds, frame.compact))
    span = _span(setting, folds)
    cloth = span * half + sum(_pad(half, folds, side) for side in SIDES)
    cloth += max(3, round(BREAK * half)) if folds.across else 0
    return Block(half, sides["left"], cloth, sides["right"])


def _span(setting: Setting, folds: Folds) -> int:
    """The half pitches drawn across."""
    left, right = _shown(setting, folds)
    return right - left - 2 * folds.clusters


def _shown(setting: Setting, folds: Folds) -> tuple[int, int]:
    """The outermost positions that are drawn of the rows that are."""
    rows = setting.rows_of(folds)
    left, right = min(row.left.at for row in rows), max(row.right.at for row in rows)
    return (
        left if folds.left_cut is None else folds.left_cut - 1,
        right if folds.right_cut is None else folds.right_cut,
    )


def _pad(half: int, folds: Folds, side: Side) -> int:
    """The px of cloth beyond the edge stitch at ``side``; 0 where columns are cut away."""
    return max(1, round(CLOTH * half)) if folds.cut(side) is None else 0


def _beside(made: Margins, side: Side, frame: Frame, folds: Folds) -> float:
    names = 0.0 if frame.compact else margins.room_for_names(made.piece, side, made.words, folds)
    return made.rooms(side).total + names


def _repeats(setting: Setting, made: Margins, half: int, folds: Folds, compact: bool) -> float:
    """The room that brackets beside rows need, past the cloth; less where the rows they are about are narrower."""
    piece, rooms = setting.piece, made.rooms("right")
    wanted = 0.0
    for one in brackets.told(setting, folds, compact):
        rows = [row for row in piece.rows if one.low - 1 <= row.number <= one.span.last + 1]
        inside = (piece.rightmost - max(row.right.at for row in rows)) * half
        lines = (*one.lines, *one.unshown)
        wide = max(brackets.width(line, made.words) for line in lines)
        wanted = max(wanted, rooms.total + 0.5 * made.words + wide - inside)
    return wanted


def measured(
    setting: Setting,
    width: int | None,
    frame: Frame = WHOLE,
    folds: Folds = NO_FOLDS,
    limit: int | None = None,
    beside: bool = False,
    fixed: bool = False,
) -> Sheet:
    """The sheet for a piece on a page ``width`` px wide (None: as wide as its drawing needs, at the frame's own scale);
    half a pitch at most ``limit`` px. ``beside``: the key stands beside the chart. ``fixed``: the page has just this
    width and scale, whatever the drawing needs.

    Raises MakerError where the symbols would be too small to tell apart: with less than ``style.LEAST_HALF_PITCH`` px
    to half a pitch.
    """
    if fixed:
        page = width or frame.reference
        return _sheet(setting, page, page / frame.reference, frame, folds, limit, beside, crop=False)
    natural = _natural(setting, frame, folds, limit if width is None else None, beside)
    if width is None:
        return natural
    unit = width / natural.width
    try:
        return _sheet(setting, width, unit, frame, folds, limit, beside, crop=False)
    except _TooSmall:
        needed = _least_width(setting, natural, frame, folds, beside)
        clusters = (setting.piece.rightmost - setting.piece.leftmost) // 2
        raise MakerError(
            f'piece "{setting.piece.name}": {clusters} clusters in {width} px are too small to tell apart; '
            f"make it at least {needed} px wide"
        ) from None


def exact(setting: Setting, half: int, frame: Frame = WHOLE, unit: float = 1.0) -> Sheet:
    """The sheet on which half a pitch has just ``half`` px, as wide as its drawing needs; everything else is ``unit``
    times as large as the frame has it. ``half`` must be ``style.LEAST_HALF_PITCH`` or more: less is drawn with that."""
    across = block(setting, half, frame, unit, NO_FOLDS).width
    wide = across + (2 * frame.margin + LEAST_PAGE * frame.words) * unit
    return _sheet(setting, round(wide) + 2, unit, frame, NO_FOLDS, half, beside=False, crop=True)


class _TooSmall(MakerError):
    """Symbols too small to tell apart."""


def _natural(setting: Setting, frame: Frame, folds: Folds, limit: int | None, beside: bool) -> Sheet:
    """The sheet at the frame's own scale, on a page no wider than the drawing needs, or wider than the frame where
    symbols need it."""
    page = frame.reference
    while True:
        try:
            return _sheet(setting, page, 1.0, frame, folds, limit, beside, crop=True)
        except _TooSmall:
            page = round(page * 1.15 / 50) * 50


def _least_width(setting: Setting, natural: Sheet, frame: Frame, folds: Folds, beside: bool) -> int:
    """The least width, to 50 px, at which half a pitch has its least px."""
    for width in range(300, natural.width + 50, 50):
        try:
            _sheet(setting, width, width / natural.width, frame, folds, None, beside, crop=False)
        except _TooSmall:
            continue
        return width
    return natural.width


def _sheet(
    setting: Setting,
    page: int,
    unit: float,
    frame: Frame,
    folds: Folds,
    limit: int | None,
    beside: bool,
    crop: bool,
) -> Sheet:
    words, margin = frame.words * unit, frame.margin * unit
    key = KEY_BESIDE * words if beside else 0.0
    room = page - 2 * margin - key
    largest = int(_largest(setting, frame, folds) * unit) if limit is None else limit
    fitting = _fitting(setting, frame, unit, folds, max(largest, style.LEAST_HALF_PITCH), room)
    if fitting is None:
        raise _TooSmall(f'piece "{setting.piece.name}": even its clusters are too small to tell apart in {page} px')
    if crop:
        inner = max(fitting.width + key, LEAST_PAGE * words)
        page = min(page, 2 * round((inner + 2 * margin) / 2 + 0.5))
    piece, half = setting.piece, fitting.half
    rise = setting.rise(half)
    spare = 0.0 if beside and not frame.compact else (page - 2 * margin - key - fitting.width) / 2
    left = round(margin + fitting.left + (spare if not crop or spare > 0 else 0.0))
    pad = _pad(half, folds, "left")
    return Sheet(
        width=page,
        unit=unit,
        half=half,
        rise=rise,
        zero=left + pad - _shown(setting, folds)[0] * half,
        ground=0,
        heights=heights(piece, rise, folds),
        chart_left=left,
        chart_right=left + fitting.cloth,
        key_beside=beside,
        theme=setting.look.theme,
        folds=folds,
        frame=frame,
        strip=strip_of(piece),
    )


def _fitting(
    setting: Setting, frame: Frame, unit: float, folds: Folds, largest: int, room: float
) -> Block | None:
    """The largest chart that ``room`` px take; None where its symbols would be too small to tell apart."""
    marks = Marks.of(setting, folds)
    for half in _halves(setting, frame, unit, folds, marks, largest, room):
        found = block(setting, half, frame, unit, folds, marks)
        if found.width <= room:
            return found
    return None


def _halves(
    setting: Setting, frame: Frame, unit: float, folds: Folds, marks: Marks, largest: int, room: float
) -> Iterator[int]:
    """The px of half a pitch worth trying, from the largest that could fit the ``room`` on down."""
    smallest = block(setting, style.LEAST_HALF_PITCH, frame, unit, folds, marks)
    span = _span(setting, folds)
    bound = int((room - smallest.width + smallest.cloth) / max(1, span)) + 1
    yield from range(min(largest, bound), style.LEAST_HALF_PITCH - 1, -1)


def _largest(setting: Setting, frame: Frame, folds: Folds) -> float:
    """The largest half pitch that keeps a tall piece's picture to a reasonable height, at the reference width."""
    proportion = setting.rise(1000) / 1000
    rows = heights(setting.piece, 1000, folds)[-1] / 1000
    by_height = TALLEST * frame.reference / (rows * proportion)
    largest = LARGEST_IN_POST if frame.compact else style.LARGEST_HALF_PITCH
    return min(largest, max(by_height, READABLE_HALF_PITCH))
