"""What the pattern file asks for, as plain values for those who hold what is printed against the cloth.

In: a ``Pattern`` or a ``Piece`` as read. Out: what ``compared`` needs to know of it; lengths in cm, weights in g.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from statistics import fmean
from typing import Literal

from turnchain.pattern import FRONT_EDGE, SHOULDER, Pattern, Piece, Stripes, UpperEdge
from turnchain.proof.cloth import tape
from turnchain.proof.cloth.edges import Side, UpperParts
from turnchain.proof.compared.doubts import AskedFabric, AskedOfNeck
from turnchain.proof.compared.edgings import EdgingAsked
from turnchain.proof.compared.measures import AskedArmhole, AskedMeasures
from turnchain.proof.compared.stash_bounds import StashAsked
from turnchain.proof.compared.upper_line import AskedUpper
from turnchain.proof.compared.wanted import AskedNeck, AskedShape, Line
from turnchain.proof.compared.wishes import WishAsked
from turnchain.proof.compared.yarns import Weighing, YarnAsked


def measures(piece: Piece) -> AskedMeasures:
    """What is to be measured of a piece: heights in cm, each once, from the lowest."""
    upper = piece.upper or UpperEdge()
    lines = [line for line in (piece.outline, piece.left_outline, piece.right_outline) if line]
    heights = piece.measured or [height for line in lines for height, _ in line]
    steps = {low for line in lines for (low, _), (high, _) in pairwise(line) if low == high}
    return AskedMeasures(
        piece.worked == "sideways", piece.neck is not None, tuple(sorted(set(heights))), frozenset(steps),
        tuple(_armholes(piece)), max((height for line in lines for height, _ in line), default=Fraction(1)),
        None if upper.armhole is None else (upper.armhole.depth, upper.armhole.width),
        None if upper.cap is None else upper.cap.long, upper.front is not None,
        bool(lines) and {SHOULDER, FRONT_EDGE} <= {one.name for one in piece.stretches},
    )  # fmt: skip


def upper_parts(piece: Piece, top: Side | None) -> UpperParts | None:
    """The parts of an upper edge that lies at the ``top`` side of the work; None of one without."""
    upper = piece.upper
    if upper is None or not upper.shaped or top is None:
        return None
    ends = ("right", "left") if top == "right" else ("left", "right")
    opens: Literal["", "first", "last"] = "" if upper.opens is None else "first" if upper.opens == ends[0] else "last"
    return UpperParts((ends[0] in upper.armed, ends[1] in upper.armed), piece.neck is not None, opens)


def _armholes(piece: Piece) -> Iterator[AskedArmhole]:
    """The stretches called so: each as wide as its edge has gone in from under its step to its end."""
    for one in piece.stretches:
        if one.name == "armhole" and one.low < one.high:
            left, right = (piece.left_outline, piece.right_outline) if piece.left_outline else _aligned(piece)
            line = left if one.side == "left" else right
            wide = _reach(line, one.low, below=True) - _reach(line, one.high, below=False)
            yield AskedArmhole(one.side, one.low, one.high, wide)


def _reach(line: Line, height: Fraction, below: bool) -> Fraction:
    """How far a line lies out at a height; at a step below or above it."""
    there = [reach for high, reach in line if high == height]
    if there:
        return there[0 if below else -1]
    (low, near), (high, far) = next(pair for pair in pairwise(line) if pair[0][0] < height < pair[1][0])
    return near + (far - near) * (height - low) / (high - low)


def shape(piece: Piece) -> AskedShape:
    """The outer edges of a piece as asked for."""
    if not piece.outline and not piece.left_outline:
        sideways = piece.worked == "sideways"
        high = (piece.width if sideways else piece.length) or Fraction(0)
        cut = piece.neck if sideways else None
        upper = piece.upper if piece.upper is not None and piece.upper.shaped else None
        parts = None if upper is None else _upper_shape(upper, piece)
        return AskedShape(high, neck=AskedNeck(cut.shoulder, cut.depth, cut.shape) if cut else None, upper=parts)
    left, right = (piece.left_outline, piece.right_outline) if piece.left_outline else _aligned(piece)
    high, opens = left[-1][0], any(one.name == FRONT_EDGE for one in piece.stretches)
    arm = _arm(piece, high)
    steps = {(one.side, one.low) for one in piece.stretches if one.name == "armhole" and one.high == arm}
    return AskedShape(high, left, right, opens=opens, armholes=frozenset(steps), rows=piece.exact_rows, arm=arm)


def _upper_shape(upper: UpperEdge, piece: Piece) -> AskedUpper:
    armhole, cap = upper.armhole, upper.cap
    return AskedUpper(
        piece.length or Fraction(0),
        None if armhole is None else (armhole.depth, armhole.width), armhole is not None and armhole.shape == "curved",
        upper.slope, upper.front.overlap if upper.front else Fraction(0),
        None if cap is None else (cap.underarm, cap.height, cap.top),
    )  # fmt: skip


def _arm(piece: Piece, high: Fraction) -> Fraction:
    """How high a piece is where its shoulders begin at the arm."""
    return min((one.low for one in piece.stretches if one.name == SHOULDER), default=high)


def slopes(piece: Piece, row: Fraction) -> tuple[int, tuple[Side, ...]]:
    """In how many rows, the last ones, of ``row`` cm the shoulders slope, and at which sides of the work."""
    found = [one for one in piece.stretches if one.name == SHOULDER]
    rows = [max(1, round((one.high - one.low) / row)) for one in found]
    return max(rows, default=0), tuple(one.side for one in found)


def _aligned(piece: Piece) -> tuple[Line, Line]:
    half: Line = tuple((height, reach / 2) for height, reach in piece.outline)
    level: Line = ((Fraction(0), Fraction(0)), (piece.outline[-1][0], Fraction(0)))
    return {"left": (level, piece.outline), "right": (piece.outline, level), "centre": (half, half)}[piece.align]


def neck(piece: Piece) -> AskedOfNeck | None:
    """The neck of a piece as asked for; None where there is none."""
    cut = piece.neck
    if cut is None:
        return None
    lines = [piece.outline] if piece.outline else [piece.left_outline, piece.right_outline]
    across = (piece.width or Fraction(0)) - _taken_by_armholes(piece)
    if piece.upper is not None and piece.upper.front is not None:
        across = 2 * (across - piece.upper.front.overlap)
    if lines[0]:
        across = sum((_reach(line, _arm(piece, line[-1][0]), below=False) for line in lines), Fraction(0))
    return AskedOfNeck(cut.shoulder, cut.depth, across - 2 * cut.shoulder, cut.shape == "slant")


def _taken_by_armholes(piece: Piece) -> Fraction:
    """What the armholes of a panel worked sideways take of its width."""
    upper = piece.upper
    if upper is None or upper.armhole is None:
        return Fraction(0)
    return len(upper.armed) * upper.armhole.width


def fabric(pattern: Pattern) -> AskedFabric | None:
    """The fabric, where it is one of clusters of two dc or more."""
    made = pattern.fabric
    mixed = len({*made.rows, *made.base, *made.last}) > 1
    plain = not (made.kind or made.own or mixed) and made.stitch == "dc" and made.cluster > 1
    return AskedFabric(made.cluster, made.gap) if plain else None


def yarns(pattern: Pattern, edged: Mapping[str, tuple[Fraction, Fraction]]) -> list[YarnAsked]:
    """What is said of each yarn; ``edged``: the square cm of edgings in it, and give or take how many."""
    return [
        YarnAsked(one.name, one.stock, one.metres_per_100g, one.ball, one.keep, *edged.get(one.name, ()))
        for one in pattern.yarns
    ]


def from_stash(pattern: Pattern) -> frozenset[str]:
    """The names of the pieces whose stripes come from the stash."""
    striped = {piece.name: piece.stripes or pattern.stripes for piece in pattern.pieces}
    return frozenset(name for name, stripes in striped.items() if stripes and stripes.kind == "stash")


def stash(pattern: Pattern) -> StashAsked:
    """What is asked of the stripes from the stash, as the first piece that has them says; the usual where nothing is:
    stripes of 2 to 4 rows, of every yarn with a stock."""
    striped = [piece.stripes or pattern.stripes for piece in pattern.pieces if piece.name in from_stash(pattern)]
    stripes = striped[0] if striped and striped[0] else Stripes()
    order = stripes.order or tuple(one.name for one in pattern.yarns if one.stock is not None)
    least = stripes.least or min(2, stripes.most or 2)
    heights = tuple(range(least, (stripes.most or max(4, least)) + 1))
    return StashAsked(
        tuple(dict.fromkeys(order)), tuple(rows for rows in heights if not (stripes.even and rows % 2)) or (1,),
        stripes.apart, stripes.use_up, {one.piece: one.rows for one in pattern.progress},
        any(seam.stripes for seam in pattern.seams),
    )  # fmt: skip


def wishes(pattern: Pattern) -> list[WishAsked]:
    """The seams with a wish for their stripes; none where there are no yarns."""
    return [WishAsked(seam.join, seam.stripes) for seam in pattern.seams if seam.stripes and pattern.yarns]


def edgings(pattern: Pattern) -> list[EdgingAsked]:
    """The edgings asked for; one without a yarn of its own in the first that something is kept of, else in the first of
    all."""
    usual = next((one.name for one in (*(one for one in pattern.yarns if one.keep), *pattern.yarns)), None)
    return [
        EdgingAsked(
            one.rows, one.stitch, one.yarn or usual, *_counted(pattern, one.stitch), one.buttonholes, one.buttonhole,
            _decimal(one.tie), _decimal(one.strap),
        )
        for one in pattern.edgings
    ]  # fmt: skip


def _decimal(long: Fraction | None) -> float | None:
    return None if long is None else float(long)


def _counted(pattern: Pattern, stitch: str) -> tuple[float | None, float | None]:
    """How wide a stitch and how high a row of an edging is in cm, by its own swatches; None where none was counted."""
    own = [one for swatch in pattern.swatches for one in swatch.kinds if one.stitch == stitch]
    wide = [float(one.width / one.stitches) for one in own if one.width and one.stitches]
    high = [float(one.height / one.rows) for one in own]
    return (fmean(wide) if wide else None), (fmean(high) if high else None)


def readings(pattern: Pattern) -> tuple[list[tape.Reading], list[tape.Reading]]:
    """Every reading of the gauge: clusters over their width, rows over their height, in cm."""
    return (
        [(one.clusters, one.width) for one in pattern.swatches],
        [(one.rows, one.height) for one in pattern.swatches],
    )


def counted_alone(pattern: Pattern) -> list[tape.OwnSwatch]:
    """The swatches that rows of some kinds have of their own."""
    return [
        tape.OwnSwatch(
            one.stitch, one.rows, one.height,
            one.weight / (one.weighed[0] * one.weighed[1]) if one.weight and one.weighed else None,
        )
        for swatch in pattern.swatches for one in swatch.kinds
    ]  # fmt: skip


def weighing(pattern: Pattern, least: Fraction, most: Fraction) -> Weighing:
    """What is weighed; ``least`` and ``most`` as in ``Weighing``."""
    weighed = [
        (one.weight, *(one.weighed or (one.width, one.height))) for one in pattern.swatches if one.weight is not None
    ]
    carry = {piece.name: (piece.stripes or pattern.stripes or Stripes()).carry for piece in pattern.pieces}
    whole = tuple((grams, wide, high) for grams, wide, high in weighed if wide and high)
    return Weighing(whole, pattern.allowance.margin, pattern.allowance.tail, carry, least, most)
