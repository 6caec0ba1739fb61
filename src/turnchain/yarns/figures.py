"""How much yarn: grams, metres and balls for every colour and piece.

In: a ``Plan`` in its colours. Out: figures, exact until they are shown, and makers' words for them.

Fabric: the weight of a swatch over its whole area, times the true area of every row (weigh method; worked example
at romneyridgefarm.com). A row is a trapezium between the edges of the row below and its own, so rows get shorter
in a neckline; sums over rows, yarns and pieces are exact fractions and add up. Tails: two wherever a yarn is
joined. Margin: on fabric and tails. What a maker keeps back for border and seams is told apart and added last.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Final

from turnchain.fabric.gauge import Gauge
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Pattern, Swatch, Yarn
from turnchain.units import INCH, Unit
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

#: Metres in 100 g of a DK yarn, from memory: for the weight of tails only, where the label was not copied.
USUAL_METRES: Final = Fraction(240)

YARD: Final = 36 * INCH  # cm
UNNAMED: Final = "yarn"  # in a pattern that names none


@dataclass(frozen=True, slots=True)
class Density:
    """Grams to a square cm: ``likely`` (None where only published blankets tell), ``low`` and ``high``, and ``how``
    they were reached, in words."""

    likely: Fraction | None
    low: Fraction
    high: Fraction
    how: str

    @property
    def rough(self) -> bool:
        """Whether no swatch was weighed."""
        return self.likely is None


@dataclass(frozen=True, slots=True)
class Use:
    """What all ``count`` of a ``piece`` take of one ``yarn``: ``area`` in square cm, ``grams`` of fabric (at the
    likely density, else the highest) and the ``ends``, each a tail."""

    yarn: str
    piece: str
    count: int
    area: Fraction
    grams: Fraction
    ends: int


@dataclass(frozen=True, slots=True)
class Need:
    """What the whole pattern takes of one ``yarn``, in grams.

    ``fabric`` (from ``low`` to ``high``) and ``tails`` are worked up; ``needed`` is both with the margin, and what
    is kept for border and seams. ``metres``, ``balls`` and ``left`` are of ``needed``, None where the pattern does
    not tell metres, balls or stock; ``to_buy`` are balls beyond the stock.
    """

    yarn: str
    fabric: Fraction
    low: Fraction
    high: Fraction
    tails: Fraction
    kept: Fraction
    needed: Fraction
    metres: Fraction | None
    balls: int | None
    left: Fraction | None
    to_buy: int | None


@dataclass(frozen=True, slots=True)
class Figures:
    """All figures of a plan; ``margin`` in per cent."""

    density: Density
    margin: Fraction
    uses: tuple[Use, ...]
    needs: tuple[Need, ...]

    def need(self, yarn: str) -> Need:
        """What is needed of ``yarn``; KeyError where no row is worked in it."""
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
    return Fraction(top + foot["right"] - foot["left"], 2) * piece.gauge.half * piece.gauge.row


def area(piece: PiecePlan) -> Fraction:
    """The area of one such piece in square cm."""
    return sum((row_area(piece, row) for row in piece.rows), Fraction(0))


# ------------------------------------------------------------------------------------------------------- density


def density(pattern: Pattern) -> Density:
    """Grams to a square cm, from all the swatches weighed."""
    weighed = [(swatch.weight, *_size(swatch)) for swatch in pattern.swatches if swatch.weight and _size(swatch)]
    if not weighed:
        return _published(pattern)
    likely = sum((w for w, *_ in weighed), Fraction(0)) / sum((b * h for _, b, h in weighed), Fraction(0))
    low = min((w - min(SCALE, w / 2)) / ((b + TAPE) * (h + TAPE)) for w, b, h in weighed)
    high = max((w + SCALE) / ((b - min(TAPE, b / 2)) * (h - min(TAPE, h / 2))) for w, b, h in weighed)
    swatches = "the swatch" if len(weighed) == 1 else f"the {len(weighed)} swatches"
    how = (
        f"{swatches} weighed over all, {_per_square_metre(likely)}; from {_round(low * 10_000)} to "
        f"{_per_square_metre(high)}, as a scale tells to half a gram and a tape to a quarter of a centimetre"
    )
    return Density(likely, low, high, how)


def _size(swatch: Swatch) -> tuple[Fraction, ...]:
    """Width and height in cm of what was weighed."""
    if swatch.weighed:
        return swatch.weighed
    return (swatch.width, swatch.height) if swatch.width and swatch.height else ()


def _published(pattern: Pattern) -> Density:
    low, high = CLOSED_DK
    span = f"{_round(low * 10_000)} to {_per_square_metre(high)}"
    how = f"no swatch was weighed: roughly {span}, as two published blankets in the closed fabric and a DK yarn have it"
    if pattern.fabric.gap:
        low = Fraction(0)
        how += "; the open fabric is lighter, by how much no one has published"
    return Density(None, low, high, f"{how}. Weigh a swatch to know better")


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
    """What one tail of ``name`` weighs, in grams."""
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
    how = f"{dense.how}; the grams from and to hold the readings of the gauge apart as well"
    return Density(dense.likely, dense.low * least, dense.high * most, how)


def figures(plan: Plan, extra: Mapping[str, Fraction] | None = None) -> Figures:
    """All figures; ``extra`` grams by yarn are added to what is kept for border and seams."""
    dense = _with_gauge(density(plan.pattern), plan.gauge)
    uses = tuple(use for piece in plan.pieces for use in _uses(plan, piece, dense))
    named: dict[str, list[Use]] = {yarn.name: [] for yarn in plan.pattern.yarns}
    for use in uses:
        named.setdefault(use.yarn, []).append(use)
    # A yarn of the border alone is needed as well, though no row is worked in it.
    border = {name for name, grams in (extra or {}).items() if grams}
    border |= {yarn.name for yarn in plan.pattern.yarns if yarn.keep}
    needs = tuple(
        _need(plan.pattern, dense, name, of_it, (extra or {}).get(name, Fraction(0)))
        for name, of_it in named.items()
        if of_it or name in border
    )
    return Figures(dense, margin_of(plan.pattern), uses, needs)


def _uses(plan: Plan, piece: PiecePlan, dense: Density) -> Iterator[Use]:
    areas: dict[str, Fraction] = defaultdict(Fraction)
    for row in piece.rows:
        areas[row.colour or UNNAMED] += row_area(piece, row)
    ends = ends_by_colour(piece, carry_of(plan, piece))
    for name, square_cm in areas.items():
        whole = square_cm * piece.count
        tails = ends["" if name == UNNAMED and name not in ends else name] * piece.count
        yield Use(name, piece.name, piece.count, whole, whole * (dense.likely or dense.high), tails)


def _need(pattern: Pattern, dense: Density, name: str, uses: Sequence[Use], extra: Fraction) -> Need:
    yarn = yarn_named(pattern, name)
    square_cm = sum((use.area for use in uses), Fraction(0))
    fabric = sum((use.grams for use in uses), Fraction(0))
    tails = tail_grams(pattern, name) * sum(use.ends for use in uses)
    kept = (yarn.keep if yarn else Fraction(0)) + extra
    needed = (fabric + tails) * (1 + margin_of(pattern) / 100) + kept
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
        needed=needed,
        metres=metres,
        balls=ceil(needed / ball) if ball else None,
        left=left,
        to_buy=max(0, ceil(-left / ball)) if ball and left is not None else None,
    )


# --------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan, extra: Mapping[str, Fraction] | None = None) -> list[str]:
    """The figures in makers' words; ``extra`` as for ``figures``."""
    found = figures(plan, extra)
    told = [f"yarn: {found.density.how}"]
    told += [_need_line(plan.pattern, found, need) for need in found.needs]
    told += [_piece_line(plan, found, piece) for piece in plan.pieces if len(plan.pieces) > 1]
    return told + _advice(plan.pattern, found)


def caption(plan: Plan) -> list[str]:
    """What a maker chooses an order by, in few words: all ends to weave in, what is left of each yarn or short."""
    ends = sum((ends_by_colour(piece, carry_of(plan, piece)).total() * piece.count for piece in plan.pieces), 0)
    told = [f"{ends} ends to weave in"]
    needs = [need for need in figures(plan).needs if need.left is not None]
    for words, part in (
        ("left", [f"{n.yarn} {_round(n.left, down=True)} g" for n in needs if n.left is not None and n.left >= 0]),
        ("short", [f"{n.yarn} {_round(-n.left, up=True)} g" for n in needs if n.left is not None and n.left < 0]),
    ):
        if part:
            told.append(f"{words}: {', '.join(part)}")
    return told


def _need_line(pattern: Pattern, found: Figures, need: Need) -> str:
    rough = found.density.rough
    fabric = f"{f'{_round(need.low)} to' if need.low else 'at most'} {_round(need.high)} g of fabric"
    if not rough:
        fabric = f"{_round(need.fabric)} g of fabric ({_round(need.low)} to {_round(need.high)})"
    parts = [fabric]
    if need.tails:
        parts.append(f"{_round(need.tails, up=True)} g of tails")
    if found.margin:
        parts.append(f"{float(found.margin):g} % margin")
    if need.kept:
        parts.append(f"{_round(need.kept, up=True)} g for border and seams")
    words = f"{need.yarn}: {', '.join(parts)}: {'at most ' if rough else ''}{_round(need.needed, up=True)} g"
    if need.metres is not None:
        words += f", {_long(need.metres, pattern.units)}"
    if need.balls is not None:
        words += f", {need.balls} {'ball' if need.balls == 1 else 'balls'}"
    return words + _stock_words(need)


def _stock_words(need: Need) -> str:
    if need.left is None:
        return ""
    if need.left >= 0:
        return f"; {_round(need.left, down=True)} g of the stock left"
    buy = f", {need.to_buy} more {'ball' if need.to_buy == 1 else 'balls'}" if need.to_buy else ""
    return f"; the stock is {_round(-need.left, up=True)} g short{buy}"


def _piece_line(plan: Plan, found: Figures, piece: PiecePlan) -> str:
    uses = [use for use in found.uses if use.piece == piece.name]
    grams = ", ".join(f"{use.yarn} {_round(use.grams)} g" for use in uses)
    all_of = f", all {piece.count}" if piece.count > 1 else ""
    rough = "at most " if found.density.rough else ""
    return f"{piece.name}{all_of}: {rough}{_round(sum((u.grams for u in uses), Fraction(0)))} g of fabric: {grams}"


def _advice(pattern: Pattern, found: Figures) -> list[str]:
    """Dye lots, where a yarn takes more than a ball; margins are kept for this."""
    several = [need.yarn for need in found.needs if (need.balls or 0) > 1]
    if not several:
        return []
    listed = several[0] if len(several) == 1 else f"{', '.join(several[:-1])} and {several[-1]}"
    return [
        f"{listed}: take all balls of a colour from one dye lot, with one to spare where the shop takes it back; a "
        f"ball of another lot shows least in a stripe of its own"
    ]


def _per_square_metre(grams: Fraction) -> str:
    return f"{_round(grams * 10_000)} g to the square metre"


def _long(metres: Fraction, unit: Unit) -> str:
    """Metres, or yards for makers who think in inches."""
    if unit == "in":
        return f"{_round(metres * 100 / YARD, up=True)} yd"
    return f"{_round(metres, up=True)} m"


def _round(value: Fraction, up: bool = False, down: bool = False) -> int:
    """Whole grams or metres; ``up`` for what is needed, ``down`` for what is left."""
    return ceil(value) if up else int(value) if down else round(value)
