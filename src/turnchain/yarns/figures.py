"""How much yarn: grams, metres and balls for every colour and piece.

In: a ``Plan`` in its colours. Out: figures, exact until they are shown; ``figure_words`` has them in words.

Fabric: the weight of a swatch over its whole area, times the true area of every row (weigh method; worked example
at romneyridgefarm.com); a row of a kind with a swatch of its own by the weight of that. A row is a trapezium between
the edges of the row below and its own, so rows get shorter in a neckline; sums over rows, yarns and pieces are exact
fractions and add up. Tails: two wherever a yarn is joined. Margin: on fabric, tails and edgings. What a maker keeps
back for border and seams is told apart and added last, or in its place what the edgings take, where that is more.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import Final

from turnchain.fabric.gauge import Gauge, grams_of, size_of
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Pattern, Yarn
from turnchain.records import for_the_last, frozen
from turnchain.units import INCH
from turnchain.yarns.carrying import carry_of, ends_by_colour

# From memory of common practice, no published source; a maker's own margin takes their place.
USUAL_MARGIN: Final = Fraction(10)  # per cent, where several swatches were weighed
SWATCH_MARGIN: Final = Fraction(15)  # per cent, where only one was

# How finely a swatch is weighed and measured, from memory: a kitchen scale shows whole grams, a tape laid by eye is
# good to half a centimetre.
SCALE: Final = Fraction(1, 2)  # g, either way
TAPE: Final = Fraction(1, 4)  # cm, either way

#: g per square cm of the closed fabric in a DK yarn: the sum on two published blankets (18 x 100 g for 120 x 175 cm;
#: 700 g for 80 x 80 cm). The open fabric is lighter; no figure is published.
CLOSED_DK: Final = (Fraction(700, 10_000), Fraction(1100, 10_000))
DK_METRES: Final = (Fraction(190), Fraction(270))  # in 100 g, from memory: what is sold as DK

#: Metres in 100 g of a DK yarn, from memory: for the weight of tails only, where the label was not copied.
USUAL_METRES: Final = Fraction(240)

YARD: Final = 36 * INCH  # cm
UNNAMED: Final = "yarn"  # in a pattern that names none


@frozen
class Density:
    """Grams to a square cm: ``likely`` (None where no swatch was weighed), ``low`` (0 where no figure is published) and
    ``high``, and ``how`` they were reached, in words."""

    likely: Fraction | None
    low: Fraction
    high: Fraction
    how: str

    @property
    def rough(self) -> bool:
        """Whether no swatch was weighed."""
        return self.likely is None


@frozen
class YarnUse:
    """What all ``count`` of a ``piece`` take of one ``yarn``: ``area`` in square cm of the whole swatch that weigh as
    much, ``grams`` of fabric (at the likely density, else the highest) and how many ``ends``, each a tail; where yarn
    is carried there are fewer."""

    yarn: str
    piece: str
    count: int
    area: Fraction
    grams: Fraction
    ends: int


@frozen
class Need:
    """What the whole pattern takes of one ``yarn``, in grams.

    ``fabric`` (from ``low`` to ``high``) and ``tails`` are worked up; ``needed`` is both with the margin, and what
    is kept for border and seams (``kept``) or, where that is more, the ``edging`` that the file asks for, with the
    margin; ``least`` is the same with the lowest grams of fabric. ``metres``, ``balls`` and
    ``left`` are of ``needed``, None where the pattern does not tell metres, balls or stock; ``to_buy`` are balls
    beyond the stock.
    """

    yarn: str
    fabric: Fraction
    low: Fraction
    high: Fraction
    tails: Fraction
    kept: Fraction
    edging: Fraction
    least: Fraction
    needed: Fraction
    metres: Fraction | None
    balls: int | None
    left: Fraction | None
    to_buy: int | None


@frozen
class Figures:
    """All figures of a plan; ``margin`` in per cent. ``uses`` by piece, and in it by yarn as first worked; ``needs`` in
    the order of the pattern's yarns."""

    density: Density
    margin: Fraction
    uses: tuple[YarnUse, ...]
    needs: tuple[Need, ...]

    def need(self, yarn: str) -> Need:
        """What is needed of the yarn called ``yarn``; KeyError where nothing is: no row, no border, nothing kept
        back."""
        for need in self.needs:
            if need.yarn == yarn:
                return need
        raise KeyError(yarn)


# --------------------------------------------------------------------------------------------------------- areas


def row_area(piece: PiecePlan, row: Row) -> Fraction:
    """The area of one row in square cm: the mean of its bottom and top width times the row height.

    Its bottom is the top of the row below, but for a step, where the new edge stands upright on its own place.
    """
    below = piece.below(row)
    top = row.right.at - row.left.at
    foot = {side: row.edge(side).at for side in SIDES}
    for side in SIDES:
        if below and row.edge(side).move not in ("step_in", "step_out"):
            foot[side] = below.edge(side).at
    return Fraction(top + foot["right"] - foot["left"], 2) * piece.gauge.half * row.height * piece.gauge.row


def row_weighed(piece: PiecePlan, row: Row) -> Fraction:
    """The square cm of the whole swatch that weigh as much as one row: its area, where its kind has no swatch of its
    own that was weighed; of row 1 with the single crochet along an armhole that it stands on."""
    below = piece.picked_up if row.index == 0 else None
    found = row_area(piece, row) * piece.recipe.order.weight(row.kind)
    return found + (row_area(piece, below) * piece.recipe.order.weight(below.kind) if below else 0)


def area(piece: PiecePlan) -> Fraction:
    """The area of one such piece in square cm, the sum over its rows."""
    return sum((row_area(piece, row) for row in piece.cloth_rows), Fraction(0))


# ------------------------------------------------------------------------------------------------------- density


def density(pattern: Pattern) -> Density:
    """Grams to a square cm: over all the swatches weighed, with a range by ``SCALE`` and ``TAPE``; without any, the
    range of two published blankets (``CLOSED_DK``), or an upper bound by them for another fabric or yarn."""
    weighed = [(swatch.weight, *size) for swatch in pattern.swatches if swatch.weight and (size := size_of(swatch))]
    likely = grams_of(pattern.swatches)
    if likely is None:
        return _published(pattern)
    low = min((w - min(SCALE, w / 2)) / ((b + TAPE) * (h + TAPE)) for w, b, h in weighed)
    high = max((w + SCALE) / ((b - min(TAPE, b / 2)) * (h - min(TAPE, h / 2))) for w, b, h in weighed)
    swatches = "the swatch" if len(weighed) == 1 else f"the {len(weighed)} swatches"
    how = (
        f"{swatches} came to {_per_square_metre(likely)}; from {round(low * 10_000)} to "
        f"{_per_square_metre(high)}, allowing half a gram for the scale and a quarter of a centimetre for the tape"
    )
    return Density(likely, low, high, how)


def _published(pattern: Pattern) -> Density:
    """What two published blankets tell: a range for their own fabric and yarn, for others an upper bound."""
    low, high = CLOSED_DK
    elsewhere = _elsewhere(pattern)
    if not elsewhere:
        span = f"{round(low * 10_000)} to {_per_square_metre(high)}"
        how = f"no swatch was weighed: {span}, from two published blankets in the closed fabric and a DK yarn"
        return Density(None, low, high, f"{how}. Weigh a swatch for a better figure")
    metres = [yarn.metres_per_100g for yarn in pattern.yarns if yarn.metres_per_100g]
    if metres and min(metres) < DK_METRES[0]:
        high *= USUAL_METRES / min(metres)  # a fabric in thicker yarn is heavier, though by less than the yarn is
    how = (
        f"no swatch was weighed, and no figure is published for {elsewhere}: at most {_per_square_metre(high)}, from "
        "two published blankets in the closed fabric and a DK yarn"
    )
    return Density(None, Fraction(0), high, f"{how}. Weigh a swatch for a better figure")


def _elsewhere(pattern: Pattern) -> str:
    """In what the fabric or the yarn is another than that of the published blankets, in words; a yarn that does not
    say its metres is taken for a DK yarn."""
    said = ["the open fabric, which is lighter"] if recipe_of(pattern.fabric).gap else []
    metres = [yarn.metres_per_100g for yarn in pattern.yarns if yarn.metres_per_100g]
    if any(one < DK_METRES[0] for one in metres):
        said.append("a yarn thicker than DK")
    if any(one > DK_METRES[1] for one in metres):
        said.append("a yarn thinner than DK")
    return " and ".join(said)


# ------------------------------------------------------------------------------------------------------- figures


def margin_of(pattern: Pattern) -> Fraction:
    """The margin in per cent: the maker's, else 10, or 15 where a single swatch was weighed; none where none was,
    since the figures are then the upper end of a wide range."""
    if pattern.allowance.margin is not None:
        return pattern.allowance.margin
    weighed = sum(bool(swatch.weight) for swatch in pattern.swatches)
    return (Fraction(0), SWATCH_MARGIN)[weighed] if weighed < 2 else USUAL_MARGIN


def yarn_named(pattern: Pattern, name: str) -> Yarn | None:
    """The yarn called ``name``, None where the pattern has none of that name."""
    return next((yarn for yarn in pattern.yarns if yarn.name == name), None)


def tail_grams(pattern: Pattern, name: str) -> Fraction:
    """What one tail of the yarn called ``name`` weighs, in grams; by ``USUAL_METRES`` where its metres are not told."""
    yarn = yarn_named(pattern, name)
    metres = (yarn and yarn.metres_per_100g) or USUAL_METRES
    return pattern.allowance.tail / metres  # cm over m in 100 g: the hundreds cancel


def _with_gauge(dense: Density, gauge: Gauge) -> Density:
    """The range widened by what several readings of the gauge are apart: the same stitches come out larger or
    smaller."""
    least = gauge.pitches[0] * gauge.row_heights[0] / (gauge.pitch * gauge.row)
    most = gauge.pitches[1] * gauge.row_heights[1] / (gauge.pitch * gauge.row)
    if least == most:
        return dense
    how = f"{dense.how}; the range of grams covers each reading of the gauge as well"
    return Density(dense.likely, dense.low * least, dense.high * most, how)


def figures(plan: Plan, extra: Mapping[str, Fraction] | None = None) -> Figures:
    """All figures of a coloured plan, the range of grams widened by the readings of the gauge; ``extra`` grams by the
    name of a yarn are added to what is kept for border and seams."""
    return _figures(plan, extra) if extra else _usual(plan)


def _figures(plan: Plan, extra: Mapping[str, Fraction] | None = None) -> Figures:
    dense = _with_gauge(density(plan.pattern), plan.gauge)
    uses = tuple(use for piece in plan.pieces for use in _uses(plan, piece, dense))
    named: dict[str, list[YarnUse]] = {yarn.name: [] for yarn in plan.pattern.yarns}
    for use in uses:
        named.setdefault(use.yarn, []).append(use)
    # A yarn of the border alone is needed as well, though no row is worked in it.
    border = {name for name, grams in (extra or {}).items() if grams}
    border |= {yarn.name for yarn in plan.pattern.yarns if yarn.keep}
    edged = {yarn.name if yarn else UNNAMED: area for yarn, area in _edged(plan).items()}
    for name in edged:
        named.setdefault(name, [])
    needs = tuple(
        _need(plan.pattern, dense, name, of_it, (extra or {}).get(name, Fraction(0)), edged.get(name, Fraction(0)))
        for name, of_it in named.items()
        if of_it or name in border or name in edged
    )
    return Figures(dense, margin_of(plan.pattern), uses, needs)


@for_the_last
def _usual(plan: Plan) -> Figures:
    """The figures of a plan as it is: report and pages ask for them many times."""
    return _figures(plan)


def edging_of(plan: Plan) -> tuple[tuple[Yarn | None, Fraction], ...]:
    """Each yarn of an edging (None: the pattern names none) with its grams and their margin, not rounded; empty where
    no swatch was weighed."""
    per_area, more = density(plan.pattern).likely, 1 + margin_of(plan.pattern) / 100
    if per_area is None:
        return ()
    return tuple((used, area * per_area * more) for used, area in _edged(plan).items())


def _edged(plan: Plan) -> dict[Yarn | None, Fraction]:
    """The fabric of the edgings in each yarn, in square cm."""
    if not plan.pattern.edgings:
        return {}
    from turnchain.garment.edging import grams  # all about edges and corners: few patterns have edgings

    return grams.areas(plan)


def worked_up(plan: Plan, name: str) -> Fraction:
    """Grams of fabric and tails of one yarn in all pieces, without margin and edgings."""
    dense = density(plan.pattern)
    uses = [use for piece in plan.pieces for use in _uses(plan, piece, dense) if use.yarn == name]
    return sum((use.grams + tail_grams(plan.pattern, name) * use.ends for use in uses), Fraction(0))


def _uses(plan: Plan, piece: PiecePlan, dense: Density) -> Iterator[YarnUse]:
    areas: dict[str, Fraction] = defaultdict(Fraction)
    for row in piece.rows:
        areas[row.colour or UNNAMED] += row_weighed(piece, row)
    ends = ends_by_colour(piece, carry_of(plan, piece))
    for name, square_cm in areas.items():
        whole = square_cm * piece.count
        tails = ends["" if name == UNNAMED and name not in ends else name] * piece.count
        yield YarnUse(name, piece.name, piece.count, whole, whole * (dense.likely or dense.high), tails)


def _need(
    pattern: Pattern, dense: Density, name: str, uses: Sequence[YarnUse], extra: Fraction, edged: Fraction
) -> Need:
    yarn = yarn_named(pattern, name)
    square_cm = sum((use.area for use in uses), Fraction(0))
    fabric = sum((use.grams for use in uses), Fraction(0))
    tails = tail_grams(pattern, name) * sum(use.ends for use in uses)
    kept = (yarn.keep if yarn else Fraction(0)) + extra
    more = 1 + margin_of(pattern) / 100
    edging = edged * (dense.likely or dense.high) * more
    needed = (fabric + tails) * more + max(kept, edging)
    least = (square_cm * dense.low + tails) * more + max(kept, edged * dense.low * more)
    metres = needed * yarn.metres_per_100g / 100 if yarn and yarn.metres_per_100g else None
    left = yarn.stock - needed if yarn and yarn.stock is not None else None
    ball = yarn.ball if yarn else None
    return Need(
        yarn=name,
        fabric=fabric,
        low=square_cm * dense.low,
        high=square_cm * dense.high,
        tails=tails,
        kept=kept,
        edging=edging,
        least=least,
        needed=needed,
        metres=metres,
        balls=ceil(needed / ball) if ball else None,
        left=left,
        to_buy=max(0, ceil(-left / ball)) if ball and left is not None else None,
    )


def _per_square_metre(grams: Fraction) -> str:
    return f"{round(grams * 10_000)} g to the square metre"
