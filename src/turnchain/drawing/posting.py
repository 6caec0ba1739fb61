"""Charts for posting: pictures of fixed sizes, fitted and never shrunk below readable.

In: a plan, a piece and the name of a size. Out: a ``Scene`` of just that size. Where the whole chart would be too
small to read, the short one is taken.
"""

from __future__ import annotations

from turnchain.drawing.chart import drawn
from turnchain.drawing.folds import NO_FOLDS, Folds, folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.sheet import POST, POST_WIDE, measured
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.scene import Scene

#: Width and height in px; None is as high as the chart needs.
SIZES: dict[str, tuple[int, int | None]] = {
    "blog": (800, None),
    "blog-sharp": (1600, None),
    "square": (1080, 1080),
    "tall": (1000, 1500),
    "film": (1920, 1080),
}
# px to half a pitch: at 7 three stems can still be told apart on a phone; a whole chart below 10 gives way to a
# short one, which is larger.
READABLE = 7
COMFORTABLE = 10


def post(plan: Plan, name: str, size: str, look: Look | None = None) -> Scene:
    """The chart of the piece ``name`` in the size called ``size`` (a key of ``SIZES``).

    Raises MakerError where neither the whole nor the short chart can be read at that size.
    """
    look = look or Look()
    width, height = SIZES[size]
    piece = for_hand(plan.piece(name), look.hand)
    for folds, least in ((NO_FOLDS, COMFORTABLE), (folded(piece), READABLE)):
        scene = _fitted(plan, piece, look, (width, height), folds, least)
        if scene is not None:
            return scene
    tall = "" if height is None else " or the size blog, which is as high as it needs,"
    raise MakerError(
        f'piece "{name}": even its short chart cannot be read at {width} x {height} px; take a close-up '
        f"(--detail 1-10 --at left){tall} or a picture of your own --width"
    )


def _fitted(
    plan: Plan, piece: PiecePlan, look: Look, size: tuple[int, int | None], folds: Folds, least: int
) -> Scene | None:
    """The chart as large as fits, or None where that is less than ``least`` px to half a pitch."""
    width, height = size
    limit: int | None = None
    frame = POST_WIDE if height is not None and width > height else POST
    while True:
        try:
            sheet = measured(piece, width, look, frame, folds, limit)
        except MakerError:
            return None
        if sheet.half < least:
            return None
        scene = drawn(plan, piece, sheet, look, height)
        if height is None or scene.height <= height:
            return scene
        limit = sheet.half - _too_large(piece, look, scene.height - height)


def _too_large(piece: PiecePlan, look: Look, over: int) -> int:
    """By how many px at least half a pitch must be smaller for a chart to be ``over`` px lower: at least 1.

    A row loses the drawn proportion for each px, and another one by rounding.
    """
    proportion = look.rise(piece, 1000) / 1000
    return max(1, int((over / piece.row_count - 1) / proportion))
