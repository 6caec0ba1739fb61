"""Where everything lies on the paper: the lattice measured out in whole px.

In: a planned piece and the width of the picture. Out: a ``Sheet`` that turns positions and rows into px.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from turnchain import style
from turnchain.errors import MakerError
from turnchain.lattice import Side
from turnchain.plan import PiecePlan

MARGIN = 48  # around the page
RULER = 40  # the stripe column
NAMES = 34  # the names of edges
NUMBERS = 78  # row numbers, marks and arrows
GAP = 14
SIDE_KEY = 560  # the key beside a narrow chart
LEAST_SIDE_CHART = 480  # a chart narrower than this beside its key would look lost
TALLEST = 2.3  # a chart this many times as high as the page is wide is drawn smaller, while it stays readable
READABLE_HALF_PITCH = 12


@dataclass(frozen=True, slots=True)
class Sheet:
    """The measured page: ``half`` px to half a pitch, ``rise`` px to a row, both whole.

    ``zero`` is the x of position 0 and ``ground`` the y of the foot of row 1. ``unit`` scales every size of
    ``style``. ``key_beside``: the key stands to the right of the chart, from ``key_left`` on, else below it.
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

    @property
    def pad(self) -> int:
        """How far a band reaches past the posts at its edges."""
        return round(0.45 * self.half)

    @property
    def stroke(self) -> float:
        """The thickness of a symbol's strokes."""
        return round(min(max(0.068 * self.half, 0.7), 3.0 * self.unit), 2)

    def x(self, position: float) -> float:
        """The x of a position in half pitches."""
        return self.zero + position * self.half

    def top(self, row: int) -> int:
        """The y of the top of ``row``; of row 0, the ground."""
        return self.ground - row * self.rise

    def side(self, position: int, at: Side) -> int:
        """The x of the band's side where the edge stands at ``position``."""
        return self.zero + position * self.half + (-self.pad if at == "left" else self.pad)

    def scaled(self, half: float) -> Sheet:
        """The same sheet with ``half`` px (at the reference width) to half a pitch, for samples in the key."""
        px = max(1, round(half * self.unit))
        return replace(self, half=px, rise=max(1, round(px * style.DRAWN_PROPORTION)))

    def grounded(self, ground: int) -> Sheet:
        """The same sheet with the chart's foot at ``ground``."""
        return replace(self, ground=ground)


def measured(piece: PiecePlan, width: int | None) -> Sheet:
    """The sheet for ``piece`` in a picture ``width`` px wide (None: 1600, or wider where symbols need it).

    Raises MakerError where symbols would be too small to tell apart.
    """
    page = width or style.REFERENCE_WIDTH
    unit = page / style.REFERENCE_WIDTH
    span = piece.rightmost - piece.leftmost + 1  # half a pitch of padding at each side makes one more
    beside = _fits_beside(piece, span)
    sides = 2 * MARGIN + RULER + 2 * NAMES + 2 * NUMBERS + GAP + (SIDE_KEY if beside else 0)
    half = min(int((page - sides * unit) / span), int(_largest(piece) * unit))
    if half < style.LEAST_HALF_PITCH:
        needed = _least_page(span, sides)
        if width is not None:
            raise MakerError(
                f'piece "{piece.name}": {span // 2} clusters in {width} px are too small to tell apart; '
                f"make it at least {needed} px wide"
            )
        return measured(piece, needed)
    rise = max(1, round(half * style.DRAWN_PROPORTION))
    used = sides * unit + span * half
    left = MARGIN * unit + (0 if beside else (page - used) / 2)
    chart_left = round(left + (RULER + GAP + NAMES + NUMBERS) * unit)
    return Sheet(
        width=page,
        unit=unit,
        half=half,
        rise=rise,
        zero=chart_left + half // 2 - piece.leftmost * half,
        ground=0,
        chart_left=chart_left,
        chart_right=chart_left + span * half,
        key_beside=beside,
    )


def _largest(piece: PiecePlan) -> float:
    """The largest half pitch that keeps a tall piece's picture to a reasonable height, at the reference width."""
    by_height = TALLEST * style.REFERENCE_WIDTH / (piece.row_count * style.DRAWN_PROPORTION)
    return min(style.LARGEST_HALF_PITCH, max(by_height, READABLE_HALF_PITCH))


def _fits_beside(piece: PiecePlan, span: int) -> bool:
    """Whether the chart at its largest leaves room for the key at its side."""
    sides = 2 * MARGIN + RULER + 2 * NAMES + 2 * NUMBERS + GAP
    return span * _largest(piece) + sides + SIDE_KEY <= style.REFERENCE_WIDTH


def _least_page(span: int, sides: int) -> int:
    """The least whole width at which half a pitch has its least px."""
    page = style.REFERENCE_WIDTH
    while int((page - sides * page / style.REFERENCE_WIDTH) / span) < style.LEAST_HALF_PITCH:
        page += 50
    return page
