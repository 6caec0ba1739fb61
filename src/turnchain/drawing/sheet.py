"""Where everything lies on the paper: the lattice measured out in whole px.

In: a planned piece and the width of the picture. Out: a ``Sheet`` that turns positions and rows into px.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from turnchain import style
from turnchain.drawing.folds import NO_FOLDS, Folds
from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan
from turnchain.style import Theme


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands around the bands, in px at the ``reference`` width: page ``margin``, stripe ``ruler``, ``names`` of
    edges, row ``numbers`` with their marks, the ``gap`` beside the ruler, room for ``repeats``, and in how many
    ``columns`` the key is set below the chart; a ``compact`` key flows in a few lines."""

    reference: int
    margin: int
    ruler: int
    names: int
    numbers: int
    gap: int
    repeats: int
    columns: int
    compact: bool = False

    @property
    def sides(self) -> int:
        """All that stands left and right of the bands."""
        return 2 * (self.margin + self.names + self.numbers) + self.ruler + self.gap + self.repeats


WHOLE = Frame(reference=1600, margin=48, ruler=40, names=34, numbers=78, gap=14, repeats=0, columns=3)
# Larger type on a narrower page: a phone shows it at less than half its px.
SHORT = Frame(reference=900, margin=26, ruler=34, names=30, numbers=62, gap=8, repeats=44, columns=2)
POST = Frame(
    reference=900, margin=26, ruler=32, names=28, numbers=60, gap=8, repeats=44, columns=1, compact=True
)
POST_WIDE = replace(POST, reference=1600)  # the key beside the chart
SIDE_KEY = 560  # the key beside a narrow chart
TALLEST = 2.3  # a chart this many times as high as the page is wide is drawn smaller, while it stays readable
READABLE_HALF_PITCH = 12


BREAK = 1.1  # half pitches left free where columns are folded away
SLIM = 0.13  # height of a folded row over that of a drawn one


@dataclass(frozen=True, slots=True)
class Sheet:
    """The measured page: ``half`` px to half a pitch, ``rise`` px to a row, both whole.

    ``zero`` is the x of position 0 and ``ground`` the y of the foot of row 1. ``unit`` scales every size of
    ``style``. ``key_beside``: the key stands to the right of the chart, else below it. Folded columns take no room
    but for a break, folded rows only a slim stripe.
    """

    width: int
    unit: float
    half: int
    rise: int
    zero: int
    ground: int
    chart_left: int
    chart_right: int
    key_beside: bool
    theme: Theme = style.LIGHT
    folds: Folds = NO_FOLDS
    frame: Frame = WHOLE

    @property
    def pad(self) -> int:
        """How far a band reaches past the posts at its edges."""
        return round(0.45 * self.half)

    @property
    def stroke(self) -> float:
        """The thickness of a symbol's strokes."""
        return round(min(max(0.068 * self.half, 0.7), 8.0 * self.unit), 2)

    @property
    def break_width(self) -> int:
        """The px left free where columns are folded away."""
        return round(BREAK * self.half)

    @property
    def slim(self) -> int:
        """The height of a folded row."""
        return max(2, round(SLIM * self.rise))

    def x(self, position: float) -> float:
        """The x of a position in half pitches."""
        across = self.folds.across
        if across is None or 2 * position < across.first + across.last:
            return self.zero + position * self.half
        return self.zero + (position - across.last + across.first) * self.half + self.break_width

    def break_at(self) -> tuple[float, float] | None:
        """The two sides of the break in the columns: half a pitch's half outside the last cluster drawn."""
        if self.folds.across is None:
            return None
        left = self.zero + (self.folds.across.first - 0.5) * self.half
        return left, left + self.break_width

    def top(self, row: int) -> int:
        """The y of the top of ``row``; of row 0, the ground."""
        folded = sum(max(0, min(row, span.last) - span.first + 1) for span in self.folds.rows)
        return self.ground - (row - folded) * self.rise - folded * self.slim

    def side(self, position: int, at: Side) -> int:
        """The x of the band's side where the edge stands at ``position``."""
        return round(self.x(position)) + (-self.pad if at == "left" else self.pad)

    def scaled(self, half: float, piece: PiecePlan, look: Look) -> Sheet:
        """The same sheet with ``half`` px (at the reference width) to half a pitch, for samples in the key."""
        px = max(1, round(half * self.unit))
        return replace(self, half=px, rise=look.rise(piece, px), folds=NO_FOLDS)

    def grounded(self, ground: int) -> Sheet:
        """The same sheet with the chart's foot at ``ground``."""
        return replace(self, ground=ground)


def measured(
    piece: PiecePlan,
    width: int | None,
    look: Look,
    frame: Frame = WHOLE,
    folds: Folds = NO_FOLDS,
    limit: int | None = None,
) -> Sheet:
    """The sheet for ``piece`` in a picture ``width`` px wide (None: the usual width, or wider where symbols need it),
    half a pitch at most ``limit`` px.

    Raises MakerError where the symbols would be too small to tell apart.
    """
    page = width or USUAL_WIDTH[frame]
    unit = page / frame.reference
    span = _span(piece, folds)
    largest = _largest(piece, look, frame, folds)
    beside = frame is POST_WIDE or (
        not frame.compact and span * largest + frame.sides + SIDE_KEY <= frame.reference
    )
    sides = frame.sides + (SIDE_KEY if beside else 0)
    half = min(int((page - sides * unit) / span), int(largest * unit) if limit is None else limit)
    if half < style.LEAST_HALF_PITCH:
        needed = _least_page(span, sides, frame)
        if width is not None:
            raise MakerError(
                f'piece "{piece.name}": {int(span) // 2} clusters in {width} px are too small to tell apart; '
                f"make it at least {needed} px wide"
            )
        return measured(piece, needed, look, frame, folds, limit)
    drawn = round(span * half)
    left = frame.margin * unit + (0 if beside and not frame.compact else (page - sides * unit - drawn) / 2)
    chart_left = round(left + (frame.ruler + frame.gap + frame.names + frame.numbers) * unit)
    return Sheet(
        width=page,
        unit=unit,
        half=half,
        rise=look.rise(piece, half),
        zero=chart_left + half // 2 - piece.leftmost * half,
        ground=0,
        chart_left=chart_left,
        chart_right=chart_left + drawn,
        key_beside=beside,
        theme=look.theme,
        folds=folds,
        frame=frame,
    )


USUAL_WIDTH = {WHOLE: 1600, SHORT: 1080, POST: 1080, POST_WIDE: 1920}


def _span(piece: PiecePlan, folds: Folds) -> float:
    """The half pitches drawn across; the padding at both sides makes one more."""
    whole = piece.rightmost - piece.leftmost + 1
    return whole - 2 * folds.clusters + (BREAK if folds.across else 0)


def _largest(piece: PiecePlan, look: Look, frame: Frame, folds: Folds) -> float:
    """The largest half pitch that keeps a tall piece's picture to a reasonable height, at the reference width."""
    folded = sum(span.last - span.first + 1 for span in folds.rows)
    rows = piece.row_count - folded * (1 - SLIM)
    proportion = look.rise(piece, 1000) / 1000
    by_height = TALLEST * frame.reference / (rows * proportion)
    return min(style.LARGEST_HALF_PITCH, max(by_height, READABLE_HALF_PITCH))


def _least_page(span: float, sides: float, frame: Frame) -> int:
    """The least width, to 50 px, at which half a pitch has its least px."""
    page = frame.reference
    while int((page - sides * page / frame.reference) / span) < style.LEAST_HALF_PITCH:
        page += 50
    return page
