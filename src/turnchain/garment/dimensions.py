"""The measures of a piece, placed on its outline.

In: a planned piece and what was wanted of it. Out: ``Dimension`` s: every worked measure of the plan with the two
points it lies between, in cm as worn, and the side of the drawing it belongs to. The figures are the plan's own; only
the places are found here.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import floor
from typing import Literal, TypeAlias

from turnchain.fabric.plan import Fit, PiecePlan, Plan
from turnchain.garment import edges
from turnchain.garment.edges import Point
from turnchain.pattern import Piece
from turnchain.records import frozen

Place: TypeAlias = Literal["below", "above", "left", "right", "inside"]
NECK_MEASURES = ("shoulder", "first shoulder", "second shoulder", "neck depth", "neck width")


@frozen
class Dimension:
    """A worked measure: its ``name`` and ``cm`` from the plan, between two points in cm as worn; ``place`` is the side
    of the drawing where its arrow belongs."""

    name: str
    cm: Fraction
    one: Point
    other: Point
    place: Place


def of(plan: Plan, piece: PiecePlan) -> list[Dimension]:
    """Every measure of ``piece``, which is one of the plan: armholes of a panel worked sideways, those of the body in
    the order of the plan (other armholes by the widths below and above them), then shoulder, neck depth and neck width,
    but not where the neck is too shallow to have an edge."""
    wanted = next(one for one in plan.pattern.pieces if one.name == piece.name)
    body = [fit for fit in piece.fit if fit.measure not in (*NECK_MEASURES, "cap edge")
            and "armhole" not in fit.measure]  # fmt: skip
    placed = _outline(piece, wanted, body) if piece.free_outline else _panel(piece, body)
    return [*_armholes(piece), *placed, *_neck(piece)]


@lru_cache(maxsize=64)  # asked for by every measure
def box(piece: PiecePlan) -> tuple[Point, Point]:
    """The lower left and the upper right corner of the piece as worn, in cm."""
    xs, ys = zip(*edges.outline(piece), strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


def measure(piece: PiecePlan, name: str) -> Fraction | None:
    """A worked measure of the plan by its name ("neck depth"), in cm; None where the piece has no such measure."""
    return next((fit.worked for fit in piece.fit if fit.measure == name), None)


def body_width(piece: PiecePlan) -> Fraction:
    """The width as worn in cm: of a panel as worked, of an outline from its farthest edge at the left to that at the
    right."""
    width = measure(piece, "width")
    return (piece.rightmost - piece.leftmost) * piece.gauge.half if width is None else width


def body_length(piece: PiecePlan) -> Fraction:
    """The length as worn in cm, from the highest point of the shoulder to the lower edge: of an outline all its
    rows, and of a sleeve worked sideways its cap too."""
    length = measure(piece, "length")
    if piece.upper is not None and piece.upper.cap is not None:
        return (piece.rightmost - piece.leftmost) * piece.gauge.half
    return piece.height if length is None else length


def _panel(piece: PiecePlan, fits: list[Fit]) -> Iterator[Dimension]:
    (left, low), (right, _) = box(piece)
    for fit in fits:
        if fit.measure == "width":
            yield Dimension(fit.measure, fit.worked, (left, low), (right, low), "below")
        else:
            yield Dimension(fit.measure, fit.worked, (left, low), (left, low + fit.worked), "left")


def _outline(piece: PiecePlan, wanted: Piece, fits: list[Fit]) -> Iterator[Dimension]:
    """Height, and the width at every point of the wanted outline, where the plan measures it."""
    height, *widths = fits
    (left, low), (_, high) = box(piece)
    yield Dimension(height.measure, height.worked, (left, low), (left, high), "left")
    jumps, order = _jumps(wanted), piece.recipe.order
    rows, lift = piece.row_count, piece.up(0)
    high_wanted, high_worked = height.wanted - lift, height.worked - lift
    for point, fit in zip(wanted.measured_heights, widths, strict=True):
        at = max(point - lift, order.tops(rows)[1] * high_wanted / rows)
        up = order.place(rows * at / high_wanted, rows)
        if at + lift in jumps:
            up = Fraction(max(1, floor(up)))
        ends = edges.width_at(piece, up)
        high = lift + (at * high_worked / high_wanted if piece.mixed else up * piece.gauge.row)
        first = at + lift > point
        y = Fraction(0) if first else high
        place: Place = "below" if first else "above" if up == rows else "inside"
        yield Dimension(fit.measure, fit.worked, (ends[0], y), (ends[1], y), place)


def _jumps(wanted: Piece) -> set[Fraction]:
    """The heights at which an outline has a step."""
    lines = (wanted.outline, wanted.left_outline, wanted.right_outline)
    return {low for line in lines for (low, _), (high, _) in pairwise(line) if low == high}


def _armholes(piece: PiecePlan) -> Iterator[Dimension]:
    """Depth and width of the armholes in the upper edge of a panel worked sideways: of two that are alike those of the
    left one as worn."""
    turn, fits = edges.worn(piece), {fit.measure: fit.worked for fit in piece.fit}
    lines = [[turn(point) for point in run.points] for name, line in edges.of(piece).items() if name == "armhole"
             for run in line.runs]  # fmt: skip
    for line in sorted(lines)[: 1 if "armhole depth" in fits else None]:
        xs, ys = zip(*line, strict=True)
        (left, _), (right, _) = box(piece)
        side: Place = "left" if min(xs) - left < right - max(xs) else "right"
        head = "armhole" if "armhole depth" in fits else f"{side} edge armhole"
        outer = left if side == "left" else right
        if f"{head} depth" in fits:
            yield Dimension(f"{head} depth", fits[f"{head} depth"], (outer, min(ys)), (outer, max(ys)), side)
            yield Dimension(f"{head} width", fits[f"{head} width"], (min(xs), max(ys)), (max(xs), max(ys)), "above")


def _neck(piece: PiecePlan) -> Iterator[Dimension]:
    """Shoulder (both, where they differ), depth and width of a neck, where it has an edge."""
    fits = {fit.measure: fit.worked for fit in piece.fit}
    found, turn = edges.of(piece), edges.worn(piece)
    if piece.opens and "shoulder" in found and "neck" not in found and "shoulder" in fits:  # of half a front
        xs, ys = zip(*map(turn, found["shoulder"].points), strict=True)
        yield Dimension("shoulder", fits["shoulder"], (min(xs), max(ys)), (max(xs), max(ys)), "above")
    if "neck" not in found or "shoulder" not in found:
        return
    inner = sorted(turn(point) for point in (found["neck"].points[0], found["neck"].points[-1]))
    # The shoulder at the left as worn runs from its outer corner to the neck, the other from the neck to its own.
    points = [turn(point) for run in found["shoulder"].runs for point in run.points]
    outer, other, top = min(points)[0], max(points)[0], max(point[1] for point in points)
    low = min(turn(point)[1] for point in found["neck"].points)
    (_, _), (right, _) = box(piece)
    if piece.upper is not None and piece.upper.front is not None:
        yield Dimension("shoulder", fits["shoulder"], (outer, top), (other, top), "above")
        middle = box(piece)[0][0] if piece.opens == "left" else right
        yield Dimension("neck depth", fits["neck depth"], (middle, low), (middle, top), piece.opens or "right")
        return
    left, right_one = _shoulder_names(piece)
    yield Dimension(left, fits[left], (outer, top), (inner[0][0], top), "above")
    if right_one != left:
        yield Dimension(right_one, fits[right_one], (inner[1][0], top), (other, top), "above")
    yield Dimension("neck depth", fits["neck depth"], (right, low), (right, top), "right")
    yield Dimension("neck width", fits["neck width"], (inner[0][0], top), (inner[1][0], top), "above")


def _shoulder_names(piece: PiecePlan) -> tuple[str, str]:
    """What the plan calls the shoulders at the left and the right as worn; one name where they are alike."""
    if all(fit.measure != "first shoulder" for fit in piece.fit):
        return "shoulder", "shoulder"
    if piece.worked == "sideways":
        first_on_left = piece.top == "left"
    else:
        first, second = (piece.section(name)[0].left.at for name in piece.sections[1:])
        first_on_left = first < second
    return ("first shoulder", "second shoulder") if first_on_left else ("second shoulder", "first shoulder")
