"""What a maker wants of a piece, as edges to be fitted.

In: a ``Piece`` with its gauge. Out: a ``Target``: the height in the direction of work and the wanted reach of both
edges, in half pitches from a fixed line, exact.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property
from itertools import pairwise, takewhile
from typing import TYPE_CHECKING

from turnchain.fabric.gauge import Gauge
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import RowPlan
from turnchain.pattern import FRONT_EDGE, Neck, NeckShape, OutlineStretch, Pattern, Piece
from turnchain.planning.curves import Curve, neck_depths, neck_opening
from turnchain.records import frozen, replace

if TYPE_CHECKING:
    from turnchain.planning.profiles import Profile


@frozen
class NeckTarget:
    """A neck as wanted, in cm: each ``shoulder``, the ``depth``, and the ``width`` that the shoulders leave.

    ``reach``: how deep it can be. A slant goes in half a pitch a row, so between narrow shoulders it is shallower.
    """

    shape: NeckShape
    shoulder: Fraction
    depth: Fraction
    width: Fraction
    reach: Fraction

    def __hash__(self) -> int:
        return hash((self.shape, self.depth))


@frozen(slots=False)
class Target:
    """One piece as wanted.

    ``height``: cm in the direction of work. ``width``: cm across where the piece is counted (the body of a panel,
    row 1 of an outline). ``left``, ``right``: curves of reach (half pitches outwards) over cm of height; a panel's
    shaped edge is measured from its own straight part. ``pinned``: the edges start where the counted width puts
    them. ``opening``: half the opening of a neck that divides a piece worked upwards, in half pitches over cm of
    height, from its bottom up. ``top``: the side of the chart that is the upper edge as worn, in a panel worked
    sideways. ``asked``: both edges as the file has them, where those to be fitted were moved (None: they were not).
    ``slope``: so many rows from the last the shoulders slope. ``lift``: so many cm of the piece lie below row 1, from
    which heights are. ``profile``: the upper edge of a panel worked sideways that has parts; its curve here is a
    first one, which ``Job`` makes anew for every number of rows.
    """

    piece: Piece
    height: Fraction
    width: Fraction
    left: Curve
    right: Curve
    pinned: bool
    neck: NeckTarget | None = None
    opening: Curve | None = None
    top: Side | None = None
    asked: tuple[Curve, Curve] | None = None
    slope: int = 0
    lift: Fraction = Fraction(0)
    profile: Profile | None = None

    def as_asked(self) -> tuple[Curve, Curve]:
        """The left and the right edge that the file asks for."""
        return self.asked or (self.left, self.right)

    def curve(self, side: Side) -> Curve:
        """The wanted edge at ``side``."""
        return self.left if side == "left" else self.right

    def width_at(self, height: Fraction) -> Fraction:
        """The wanted width in cm at ``height`` cm (at a step that below it), without the half pitch that rows alike
        have over and before a neck is cut."""
        piece = self.piece
        height += self.lift
        if piece.left_outline:
            return Curve(piece.left_outline).at(height) + Curve(piece.right_outline).at(height)
        return Curve(piece.outline).at(height) if piece.outline else self.width

    @cached_property
    def straight(self) -> bool:
        """Neither edge is shaped."""
        return self.left.straight and self.right.straight

    @cached_property
    def both_shaped(self) -> bool:
        """Both edges are shaped."""
        return not self.left.straight and not self.right.straight

    @cached_property
    def symmetrical(self) -> bool:
        """Left and right are wanted alike."""
        return self.left == self.right

    @cached_property
    def mirrored_across(self) -> bool:
        """Left and right should mirror each other in every row.

        A sudden step outwards cannot: it is worked at the edge where a row starts, the other a row later.
        """
        shaped = self.both_shaped or self.opening is not None
        return shaped and self.symmetrical and not self.left.jumps_outwards

    @cached_property
    def mirrored_along(self) -> bool:
        """The shaped edges should read the same from the top as from the bottom.

        An outline that steps outwards need not: where rows start decides in which row the step is made, and to
        mirror it the step inwards would have to be made in another row than the shape has it, or by stairs.
        """
        level = self.straight or self.opening is not None
        steps = not self.pinned and (self.left.jumps_outwards or self.right.jumps_outwards)
        return not level and not steps and self.left.symmetrical and self.right.symmetrical

    @cached_property
    def row_plan(self) -> RowPlan:
        """Rows alike or alternate, as the file says or, where it says "auto", as the shape needs it: shaping mirrored
        in every row needs rows that alternate."""
        if self.piece.row_plan != "auto":
            return self.piece.row_plan
        return "alternate" if self.symmetrical and (self.both_shaped or self.opening is not None) else "alike"


def target_of(piece: Piece, gauge: Gauge, top: Side | None, lift: Fraction = Fraction(0)) -> Target:
    """What ``piece`` should be by ``gauge``; ``top`` is the side of the chart that is its upper edge as worn, None but
    for panels worked sideways (as ``top_side`` says). ``lift``: so many cm of it lie below row 1."""
    if lift:
        return replace(target_of(_above(piece, lift), gauge, top), piece=piece, lift=lift)
    if piece.left_outline:
        target = _apart_target(piece, gauge)
    elif piece.outline:
        target = _outline_target(piece, gauge)
    else:
        target = _panel_target(piece, gauge, top)
    target = _with_armholes(_with_slope(target, gauge), gauge)
    return _divided(target, piece.neck, gauge) if piece.neck and piece.worked == "upwards" else target


def _above(piece: Piece, lift: Fraction) -> Piece:
    """A piece worked upwards without its lowest ``lift`` cm."""
    whole, left, right = (_cut(line, lift) for line in (piece.outline, piece.left_outline, piece.right_outline))
    length = None if piece.length is None else piece.length - lift if piece.length > lift else lift
    return replace(piece, length=length, outline=whole, left_outline=left, right_outline=right)


def _cut(line: tuple[tuple[Fraction, Fraction], ...], lift: Fraction) -> tuple[tuple[Fraction, Fraction], ...]:
    """An outline from ``lift`` cm up, moved down by that."""
    if not line:
        return line
    curve = Curve(line)
    above = [(y - lift, x) for y, x in line if y > lift] or [(lift, line[-1][1])]
    return ((Fraction(0), curve.at(lift)), *above)


def top_side(piece: Piece, pattern: Pattern) -> Side | None:
    """The side of the chart that is the upper edge as worn, in a panel worked sideways; None for any other piece.

    A piece that faces another carries its neck on the other edge, so that both begin at one side seam.
    """
    if piece.worked != "sideways" or piece.outline or piece.left_outline:
        return None
    if piece.faces is None:
        return piece.neck_edge
    faced = next(other for other in pattern.pieces if other.name == piece.faces)
    return "left" if top_side(faced, pattern) == "right" else "right"


def _panel_target(piece: Piece, gauge: Gauge, top: Side | None) -> Target:
    assert piece.width is not None, "the reader has seen to it"
    assert piece.length is not None, "the reader has seen to it"
    sideways = piece.worked == "sideways"
    height, across = (piece.width, piece.length) if sideways else (piece.length, piece.width)
    level = Curve(((Fraction(0), Fraction(0)), (height, Fraction(0))))
    if piece.upper is not None and piece.upper.shaped:
        return _profiled_target(piece, gauge, top, (height, across))
    if piece.neck is None or not sideways:
        return Target(piece, height, across, level, level, pinned=True, top=top)
    neck = _neck_target(piece.neck, height, gauge.half / gauge.row)
    deep = neck_depths(neck.shape, height, neck.shoulder, neck.depth, gauge.half / gauge.row)
    cut = deep.scaled(-1 / gauge.half)
    left, right = (cut, level) if top == "left" else (level, cut)
    return Target(piece, height, across, left, right, pinned=True, neck=neck, top=top)


def _profiled_target(piece: Piece, gauge: Gauge, top: Side | None, size: tuple[Fraction, Fraction]) -> Target:
    """A panel worked sideways with parts, of a ``size`` in cm along the rows' height and across it."""
    from turnchain.planning.profiles import profile  # for such pieces alone

    assert piece.upper is not None, "only a piece with parts"
    steepest = gauge.half / gauge.row
    whole = profile(piece.upper, *size, piece.neck, top == "right", steepest)
    shaped = reaches(whole, max(1, round(size[0] / gauge.row)), whole.arm_rows(gauge.row), gauge)
    left, right = (shaped, shaped.scaled(Fraction(0))) if top == "left" else (shaped.scaled(Fraction(0)), shaped)
    neck = None if piece.neck is None else _neck_target(piece.neck, whole.across, steepest)
    return Target(piece, *size, left, right, pinned=True, neck=neck, top=top, profile=whole)


def reaches(whole: Profile, rows: int, under: tuple[int, int], gauge: Gauge) -> Curve:
    """The line of a profile as reaches from where row 1 has it, in half pitches, as ``Profile.curve`` has it."""
    line = whole.curve(rows, under)
    return line.scaled(1 / gauge.half, -line.points[0][1] / gauge.half)


def _neck_target(neck: Neck, across: Fraction, steepest: Fraction) -> NeckTarget:
    """``neck`` in a piece ``across`` cm wide as worn; a slant goes down ``steepest`` cm for a cm across."""
    width = across - 2 * neck.shoulder
    reach = min(neck.depth, width / 2 * steepest) if neck.shape == "slant" else neck.depth
    return NeckTarget(neck.shape, neck.shoulder, neck.depth, width, reach)


def _outline_target(piece: Piece, gauge: Gauge) -> Target:
    whole = Curve(piece.outline)
    zero = Fraction(0)
    width = whole.points[0][1]
    if whole.straight:
        level = Curve(((zero, zero), (whole.height, zero)))
        return Target(piece, whole.height, width, level, level, pinned=True)
    level = whole.scaled(zero)
    if piece.align == "centre":
        side = whole.scaled(1 / (2 * gauge.half))
        return Target(piece, whole.height, width, side, side, pinned=False)
    # Rows alike are counted by their clusters, "16 clusters wide", and have half a pitch over at one edge; that
    # half pitch is no error of the shaped edge, so the curve is moved out by it.
    allowance = zero if piece.row_plan == "alternate" else Fraction(1)
    shaped = whole.scaled(1 / gauge.half, allowance)
    left, right = (level, shaped) if piece.align == "left" else (shaped, level)
    return Target(piece, whole.height, width, left, right, pinned=False)


def _apart_target(piece: Piece, gauge: Gauge) -> Target:
    """Edges given apart, as reaches from one centre line."""
    left, right = Curve(piece.left_outline), Curve(piece.right_outline)
    width = left.points[0][1] + right.points[0][1]
    scale, zero = 1 / gauge.half, Fraction(0)
    if left.straight and right.straight:
        level = left.scaled(zero)
        return Target(piece, left.height, width, level, level, pinned=True)
    if not left.straight and not right.straight:
        left, right = left.scaled(scale), right.scaled(scale)
        fitted = _with_straight_front(piece, left, right)
        return Target(piece, left.height, width, *fitted, pinned=False, asked=(left, right))
    # One straight edge: it is the line that the other is measured from.
    if _front_edge(piece) is not None:
        return _half_front(piece, left.scaled(scale), right.scaled(scale), width)
    allowance = zero if piece.row_plan == "alternate" else Fraction(1)
    if left.straight:
        shaped = right.scaled(scale, left.points[0][1] * scale + allowance)
        return Target(piece, left.height, width, shaped.scaled(zero), shaped, pinned=False)
    shaped = left.scaled(scale, right.points[0][1] * scale + allowance)
    return Target(piece, left.height, width, shaped, shaped.scaled(zero), pinned=False)


def _half_front(piece: Piece, left: Curve, right: Curve, width: Fraction) -> Target:
    """Half a front that opens with one straight edge, from edges in half pitches: the other is measured from it, with
    no half pitch over, which would be as wide as an overlap."""
    shaped = 1 if left.straight else 0
    level = (left, right)[1 - shaped].scaled(Fraction(0))

    def from_the_side(edges: tuple[Curve, Curve]) -> tuple[Curve, Curve]:
        edge = edges[shaped].scaled(Fraction(1), edges[1 - shaped].points[0][1])
        return (level, edge) if shaped else (edge, level)

    fitted = from_the_side(_with_straight_front(piece, left, right))
    return Target(piece, left.height, width, *fitted, pinned=False, asked=from_the_side((left, right)))


def _front_edge(piece: Piece) -> OutlineStretch | None:
    """The edge in the middle of half a front that opens; None of any other piece."""
    return next((one for one in piece.stretches if one.name == FRONT_EDGE), None)


def _with_straight_front(piece: Piece, left: Curve, right: Curve) -> tuple[Curve, Curve]:
    """Both edges in half pitches. Of half a front that opens the edge in the middle is moved by what rows alike or
    alternate, that wide, have over or under: it is to stay straight, and what it overlaps need not be exact."""
    opening = _front_edge(piece)
    if opening is None:
        return left, right
    front, side = (left, right) if opening.side == "left" else (right, left)
    begins = front.points[0][1]
    wide = begins + side.points[0][1]
    odd = 0 if piece.row_plan == "alternate" else 1
    straight = len(list(takewhile(lambda point: point[1] == begins, front.points)))
    over = 2 * round((wide - odd) / 2) + odd - wide
    moved = tuple((height, reach + over) for height, reach in front.points[:straight])
    front = Curve((*moved, *front.points[straight:]))
    return (front, side) if opening.side == "left" else (side, front)


def _with_slope(target: Target, gauge: Gauge) -> Target:
    """``target`` with its sloping shoulders moved by less than a row, so that they begin at the top of one: as many
    rows from the last as come nearest to their slope."""
    slope = target.piece.slope
    if slope is None:
        return target
    rows = max(1, round(target.height / gauge.row))
    sloping = slope.rows(gauge.row)
    at = (rows - sloping) * target.height / rows

    def moved(curve: Curve) -> Curve:
        return Curve(tuple((at if high == slope.low else high, reach) for high, reach in curve.points))

    return replace(
        target, left=moved(target.left), right=moved(target.right), asked=target.as_asked(), slope=sloping
    )


def _with_armholes(target: Target, gauge: Gauge) -> Target:
    if not any(one.name == "armhole" for one in target.piece.stretches):
        return target
    left, right = (_with_armhole(target, target.curve(side), side, gauge) for side in SIDES)
    asked = target.asked and (
        _with_armhole(target, target.asked[0], "left", gauge), _with_armhole(target, target.asked[1], "right", gauge)
    )  # fmt: skip
    return replace(target, left=left, right=right, asked=asked)


def _with_armhole(target: Target, curve: Curve, side: Side, gauge: Gauge) -> Curve:
    """An edge ``curve`` at a ``side`` with the step of its armhole moved up or down by less than a row, so that as many
    rows lie above it as come nearest to its depth: the step stands in the middle of the row in which it is made."""
    piece, top = target.piece, target.height
    rows = piece.exact_rows or max(1, round(target.height / gauge.row))
    if piece.slope is not None:
        top = piece.slope.low
    for one in piece.stretches:
        steps = [pair for pair in pairwise(curve.points) if pair[0][0] == pair[1][0] == one.low]
        if (one.name, one.side) != ("armhole", side) or not steps or one.high != top:
            continue
        deep = max(1, round((one.high - one.low) / gauge.row))
        at = (rows - target.slope - deep + Fraction(1, 2)) * target.height / rows
        below, inner = curve.at(one.low), curve.after(one.low)
        lower = [(high, reach) for high, reach in curve.points if high < min(at, one.low)]
        upper = [(high, reach) for high, reach in curve.points if high > max(at, one.low)]
        before = (at, curve.at(at) if at < one.low else below)
        after = (at, curve.after(at) if at > one.low else inner)
        curve = Curve((*lower, *([(one.low, below)] if at > one.low else []), before, after,
                       *([(one.low, inner)] if at < one.low else []), *upper))  # fmt: skip
    return curve


def _divided(target: Target, neck: Neck, gauge: Gauge) -> Target:
    """``target`` with a ``neck`` cut from its top, which divides the piece into two shoulders."""
    arm = target.height if target.piece.slope is None else target.piece.slope.low
    wanted = _neck_target(neck, target.width_at(arm), gauge.row / gauge.half)
    opening = neck_opening(neck.shape, target.height, wanted.width, neck.depth, gauge.half / gauge.row)
    return replace(target, neck=wanted, opening=opening.scaled(1 / gauge.half))
