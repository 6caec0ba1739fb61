"""What a maker wants of a piece, as edges to be fitted.

In: a ``Piece`` with its gauge. Out: a ``Wish``: the height in the direction of work and the wanted reach of both
edges, in half pitches from a fixed line, exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from turnchain.curves import Curve, slant_neck
from turnchain.gauge import Gauge
from turnchain.lattice import Side
from turnchain.pattern import Pattern, Piece
from turnchain.plan import RowPlan


@dataclass(frozen=True)
class Wish:
    """One piece as wanted.

    ``height``: cm in the direction of work. ``width``: cm across where the piece is counted (the body of a panel,
    row 1 of an outline). ``left``, ``right``: curves of reach (half pitches outwards) over cm of height; a panel's
    shaped edge is measured from its own straight part. ``pinned``: the edges start where the counted width puts
    them. ``shoulder`` and ``depth``: of a neck, in cm.
    """

    piece: Piece
    height: Fraction
    width: Fraction
    left: Curve
    right: Curve
    pinned: bool
    shoulder: Fraction | None = None
    depth: Fraction | None = None

    @cached_property
    def straight(self) -> bool:
        """Neither edge is shaped."""
        return self.left.straight and self.right.straight

    @cached_property
    def both_shaped(self) -> bool:
        """Both edges are shaped."""
        return not self.left.straight and not self.right.straight

    @cached_property
    def mirrored_across(self) -> bool:
        """Left and right should mirror each other in every row.

        A sudden step outwards cannot: it is worked at the edge where a row starts, the other a row later.
        """
        return self.both_shaped and self.left == self.right and not self.left.jumps_outwards

    @cached_property
    def mirrored_along(self) -> bool:
        """The shaped edges should read the same from the top as from the bottom."""
        return not self.straight and self.left.symmetrical and self.right.symmetrical

    @cached_property
    def row_plan(self) -> RowPlan:
        """Rows alike or alternate, as asked or as the shape wants it."""
        if self.piece.row_plan != "auto":
            return self.piece.row_plan
        return "alternate" if self.both_shaped and self.left == self.right else "alike"


def wish_of(piece: Piece, gauge: Gauge, pattern: Pattern) -> Wish:
    """What ``piece`` should be."""
    return _outline_wish(piece, gauge) if piece.outline else _panel_wish(piece, gauge, pattern)


def top_side(piece: Piece, pattern: Pattern) -> Side | None:
    """The side of the chart that is the upper edge as worn, in a panel worked sideways.

    A piece that faces another carries its neck on the other edge, so that both begin at one side seam.
    """
    if piece.worked != "sideways" or piece.outline:
        return None
    if piece.faces is None:
        return piece.neck_edge
    faced = next(other for other in pattern.pieces if other.name == piece.faces)
    return "left" if top_side(faced, pattern) == "right" else "right"


def _panel_wish(piece: Piece, gauge: Gauge, pattern: Pattern) -> Wish:
    assert piece.width is not None, "the reader has seen to it"
    assert piece.length is not None, "the reader has seen to it"
    sideways = piece.worked == "sideways"
    height, across = (piece.width, piece.length) if sideways else (piece.length, piece.width)
    level = Curve(((Fraction(0), Fraction(0)), (height, Fraction(0))))
    if piece.neck is None:
        return Wish(piece, height, across, level, level, pinned=True)
    slope = gauge.half / gauge.row
    deep = slant_neck(height, piece.neck.shoulder, piece.neck.depth, slope)
    cut = deep.scaled(-1 / gauge.half)
    on_left = top_side(piece, pattern) == "left"
    return Wish(
        piece,
        height,
        across,
        left=cut if on_left else level,
        right=level if on_left else cut,
        pinned=True,
        shoulder=piece.neck.shoulder,
        depth=piece.neck.depth,
    )


def _outline_wish(piece: Piece, gauge: Gauge) -> Wish:
    whole = Curve(piece.outline)
    zero = Fraction(0)
    width = whole.points[0][1]
    if whole.straight:
        level = Curve(((zero, zero), (whole.height, zero)))
        return Wish(piece, whole.height, width, level, level, pinned=True)
    level = whole.scaled(zero)
    if piece.align == "centre":
        side = whole.scaled(1 / (2 * gauge.half))
        return Wish(piece, whole.height, width, side, side, pinned=False)
    # Rows alike are counted by their clusters, "16 clusters wide", and have half a pitch over at one edge; that
    # half pitch is no error of the shaped edge, so the curve is moved out by it.
    allowance = zero if piece.row_plan == "alternate" else Fraction(1)
    shaped = whole.scaled(1 / gauge.half, allowance)
    left, right = (level, shaped) if piece.align == "left" else (shaped, level)
    return Wish(piece, whole.height, width, left, right, pinned=False)
