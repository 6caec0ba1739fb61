"""Where everything lies on the paper: the lattice measured out in whole px.

In: px. Out: a ``Sheet`` that turns positions and rows into px.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

from turnchain import style
from turnchain.drawing.folds import NO_FOLDS, STRIPE, Folds
from turnchain.drawing.looks import Look
from turnchain.fabric.lattice import Side
from turnchain.fabric.order import CLUSTERS
from turnchain.fabric.plan import PiecePlan
from turnchain.records import frozen, replace
from turnchain.style import Theme

#: Where something lies about the cloth of a chart.
Where: TypeAlias = Literal["left", "right", "above", "below", "neck"]


@frozen
class Frame:
    """A kind of page, in px at the ``reference`` width: its ``margin``, and how high its ``words`` are (the em of what
    is read most; headings and notes follow). ``compact``: a key of a few lines, and no names of edges. ``least``: row
    numbers may be this share of the words, at the least."""

    reference: int
    margin: int
    words: float
    compact: bool = False
    least: float = 0.72


WHOLE = Frame(reference=1600, margin=48, words=21.0)
# Two px to a css px: words are read at 13 css px on a phone 390 wide.
PHONE = Frame(reference=780, margin=28, words=26.0, least=0.85)
SHORT = Frame(reference=1080, margin=36, words=31.0)
# Pictures to post are seen 390 css px wide: 31 px of 1080 are 11 there.
POST = Frame(reference=1080, margin=36, words=31.0, compact=True, least=1.0)
# A wide picture is seen with the phone turned, 844 css px wide: 28 px are 12 there.
FILM = Frame(reference=1920, margin=40, words=28.0, compact=True, least=1.0)

STRIP = 0.30  # rows: height of the cloth that the foundation and the chains of a step lie on, below their row
CLOTH = 0.34  # half pitches of cloth beyond the edge stitch
BREAK = 0.45  # half pitches left free where columns are folded away


@frozen
class Sheet:
    """The measured page: ``half`` px to half a pitch, ``rise`` px to a row of clusters, both whole.

    ``zero`` is the x of position 0 and ``ground`` the y of the foot of row 1; ``heights`` is how far the top of each
    row lies above the ground, in px, from row 0 on. ``unit`` scales every size of a ``Frame``. The cloth reaches from
    ``chart_left`` to ``chart_right``. ``key_beside``: the key stands to the right of the chart, else below it. Folded
    columns take no room but for a break, folded rows only a slim stripe. ``strip``: how high what row 1 stands on is
    drawn, in rows of clusters.
    """

    width: int
    unit: float
    half: int
    rise: int
    zero: int
    ground: int
    heights: tuple[int, ...]
    chart_left: int
    chart_right: int
    key_beside: bool
    theme: Theme = style.LIGHT
    folds: Folds = NO_FOLDS
    frame: Frame = WHOLE
    strip: float = STRIP

    @property
    def words(self) -> float:
        """The px of the em of what is read most."""
        return self.frame.words * self.unit

    @property
    def margin(self) -> float:
        """The px left free around everything."""
        return self.frame.margin * self.unit

    @property
    def pad(self) -> int:
        """The px that a band reaches past the head of the post at its edge."""
        return max(1, round(CLOTH * self.half))

    @property
    def stroke(self) -> float:
        """The thickness of a symbol's strokes, in px."""
        return round(max(0.05 * self.rise, min(1.15, 0.105 * self.half)), 2)

    @property
    def break_width(self) -> int:
        """The px left free where columns are folded away."""
        return max(3, round(BREAK * self.half))

    def x(self, position: float) -> float:
        """The x, in px, of a position in half pitches; past folded columns it is nearer by these, less the break."""
        across = self.folds.across
        if across is None or 2 * position < across.first + across.last:
            return self.zero + position * self.half
        return self.zero + (position - across.last + across.first) * self.half + self.break_width

    def top(self, row: int) -> int:
        """The y, in px, of the top of row number ``row``; of row 0, the ground."""
        return self.ground - self.heights[row]

    def rise_of(self, row: int) -> int:
        """How high row number ``row`` (from 1) is drawn, in px."""
        return self.heights[row] - self.heights[row - 1]

    def middle(self, row: int) -> float:
        """The y, in px, half way up row number ``row`` (from 1)."""
        return (self.top(row - 1) + self.top(row)) / 2

    def side(self, position: int, at: Side) -> int:
        """The x, in whole px, of the band's side ``at`` where the edge stands at ``position`` (half pitches), no
        farther out than columns are drawn."""
        cut = self.folds.cut(at)
        if cut is not None and at == "left" and position < cut:
            return round(self.x(cut - 1))
        if cut is not None and at == "right" and position >= cut:
            return round(self.x(cut))
        return round(self.x(position)) + (-self.pad if at == "left" else self.pad)

    def scaled(self, half: float, piece: PiecePlan, look: Look) -> Sheet:
        """A sheet for samples in the key: ``half`` px (rounded, at least 1) to half a pitch, rows as high as ``look``
        makes them for ``piece``, nothing folded. Places on it mean nothing."""
        px = max(1, round(half))
        return replace(self, half=px, rise=look.rise(piece, px), folds=NO_FOLDS)

    @property
    def foot(self) -> float:
        """The y, in px, of the foot of the strip that row 1 stands on."""
        return self.ground + self.strip * self.rise

    def grounded(self, ground: int) -> Sheet:
        """The same sheet with the foot of row 1 at the y ``ground``."""
        return replace(self, ground=ground)


def row_rise(piece: PiecePlan, kind: str, rise: int) -> int:
    """The whole px of the height of a row of this ``kind`` where one of clusters has ``rise`` px."""
    return rise if kind == CLUSTERS else max(1, round(rise * piece.recipe.order.share(kind)))


def strip_of(piece: PiecePlan) -> float:
    """How high what row 1 stands on is drawn, in rows of clusters: a chain, or single crochet along an armhole."""
    return float(piece.sc_below * piece.gauge.row / piece.cluster_row) if piece.sc_below else STRIP


def heights(piece: PiecePlan, rise: int, folds: Folds) -> tuple[int, ...]:
    """How far the top of each row lies above the ground, in px, from row 0 on (a number more than there are rows): a
    row of clusters is ``rise`` px high, others by their kind, but for the rows of a folded stripe, which together are
    as high as ``STRIPE`` of a row, and rows outside the window, which have no height."""
    slim = max(2, round(STRIPE * rise))
    made = [0]
    shares = {
        number: (band, nth)
        for bands in folds.bands
        for band in bands
        for nth, number in enumerate(range(band.first, band.last + 1), start=1)
    }
    foot = 0
    rises = {kind: row_rise(piece, kind, rise) for kind in (CLUSTERS, *piece.recipe.order.solid)}
    for number, row in enumerate(piece.row_levels, start=1):
        if not folds.shows_row(number):
            made.append(made[-1])
            continue
        if number not in shares:
            made.append(made[-1] + rises[row.kind])
            continue
        band, nth = shares[number]
        foot = made[-1] if nth == 1 else foot
        made.append(foot + round(slim * nth / band.count))
    return tuple(made)
