"""Making it up: a border that lies flat, seams in order, blocking, ends.

In: a plan. Out: the border of every edge counted stitch by stitch, and the finishing in words, in the pattern's terms.
Source of the border: a published answer on a piece 74 dc wide (2 sc to a row end, 1 to every stitch and chain along
top and foundation, 3 in each corner). Slanted row ends take sc by their length, at the same 2 to a row's height.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, roles, seams
from turnchain.garment.edges import Point, Run
from turnchain.pattern import Yarn
from turnchain.terms import full, short
from turnchain.units import handy, plain, shown
from turnchain.yarns import carrying
from turnchain.yarns import figures as yarn

SC_TO_A_ROW_END = 2  # [seen]
SC_IN_A_CORNER = 3  # [seen]
# [memory] A row of sc is about half as high as a row of dc; so much fabric a border row is.
SC_HEIGHT_IN_ROWS = Fraction(1, 2)
# An edge turns a corner where it bends by this much or more on the way round (the cosine of 45 degrees, squared).
_CORNER = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class BorderSide:
    """The border along one edge: ``stitches`` sc over ``length`` cm, the corners at its ends apart. ``how`` it is
    worked, in words."""

    edge: str
    length: Fraction
    stitches: int
    how: str


@dataclass(frozen=True, slots=True)
class Border:
    """A border: its sides in the order worked, and ``corners`` that take ``SC_IN_A_CORNER`` each."""

    sides: tuple[BorderSide, ...]
    corners: int

    @property
    def stitches(self) -> int:
        """All sc of a round."""
        return sum(side.stitches for side in self.sides) + SC_IN_A_CORNER * self.corners

    @property
    def length(self) -> Fraction:
        """Its length in cm."""
        return sum((side.length for side in self.sides), Fraction(0))


# -------------------------------------------------------------------------------------------------- the border


def border(piece: PiecePlan) -> Border:
    """A border of sc all round a piece, edge by edge from the foundation.

    A corner is worked into the end stitch of a chain or of a row's top, which then counts with the corner.
    """
    runs = edges.around(piece)
    corners = [_turns(run, following) for run, following in zip(runs, (*runs[1:], runs[0]), strict=True)]
    sides = []
    for index, run in enumerate(runs):
        taken = corners[index - 1] + corners[index] if run.meets != "row ends" else 0
        sides.append(_side(piece, run, taken))
    return Border(tuple(sides), sum(corners))


def _side(piece: PiecePlan, run: Run, corners: int = 0) -> BorderSide:
    return BorderSide(run.name, run.length, max(0, along(piece, run) - corners), how(piece, run))


def along(piece: PiecePlan, run: Run) -> int:
    """The sc along a run so that it lies flat: 1 to every stitch and chain, 2 to a straight row end, and as many by
    length where row ends slant; steps by the stitches that lie in them."""
    if run.meets != "row ends":
        return run.stitches
    sides = [edges.length_of(pair) for pair in pairwise(run.points) if pair[0][1] != pair[1][1]]
    return round(sum(sides, Fraction(0)) * SC_TO_A_ROW_END / piece.gauge.row) + run.stitches


def _turns(run: Run, following: Run) -> bool:
    """Whether the outline turns a corner outwards from a run to the next: only there are stitches added."""
    into, out = _way(run.points[-2:]), _way(following.points[:2])
    cross = into[0] * out[1] - into[1] * out[0]
    dot = into[0] * out[0] + into[1] * out[1]
    sizes = (into[0] ** 2 + into[1] ** 2) * (out[0] ** 2 + out[1] ** 2)
    return cross > 0 and (dot <= 0 or dot**2 <= _CORNER * sizes)


def _way(points: tuple[Point, ...]) -> Point:
    (x0, y0), (x1, y1) = points
    return x1 - x0, y1 - y0


def how(piece: PiecePlan, run: Run) -> str:
    """How the sc of a run are spread, in words without stitch names."""
    if run.meets == "foundation":
        return "1 in each chain of the foundation"
    if run.meets == "row tops":
        return "1 in each stitch and chain"
    slanted = any(one[0] != other[0] for one, other in pairwise(run.points) if one[1] != other[1])
    steps = f", 1 in each of the {run.stitches} stitches of its steps" if run.stitches else ""
    if not slanted:
        return f"{SC_TO_A_ROW_END} in each row end{steps}"
    return f"{SC_TO_A_ROW_END} in each straight row end, by length where rows slant{steps}"


# --------------------------------------------------------------------------------------------- edges left open


@dataclass(frozen=True, slots=True)
class Edging:
    """A border along an opening of a garment: its ``name`` and how many times it is worked."""

    name: str
    border: Border
    count: int = 1


def edgings(plan: Plan) -> tuple[Edging, ...]:
    """What gets a border: of a garment its neck, lower edge and cuffs, of every other piece all round."""
    pair = roles.front_and_back(plan)
    worked = [] if pair is None else [*_round(pair, "neck", ("neck",)), *_round(pair, "lower edge", ("lower", "first"))]
    for part in roles.parts(plan):
        if pair is not None and part.piece in pair:
            continue
        if pair is not None and part.role == "sleeve":
            worked.append(Edging(f"{part.piece.name}, cuff", _open(part.piece, _cuff(part.piece)), part.piece.count))
        else:
            worked.append(Edging(f"{part.piece.name}, all round", border(part.piece), part.piece.count))
    return tuple(worked)


def _cuff(sleeve: PiecePlan) -> str:
    return "last" if seams.sleeve_top(sleeve).name == "first" else "first"


def _open(piece: PiecePlan, edge: str) -> Border:
    return Border(tuple(_side(piece, run) for run in edges.of(piece)[edge].runs), 0)


def _round(pair: tuple[PiecePlan, PiecePlan], name: str, wanted: tuple[str, ...]) -> Iterator[Edging]:
    """One round over the edge of both pieces that has the first of the ``wanted`` names."""
    sides: list[BorderSide] = []
    for piece in pair:
        found = edges.of(piece)
        edge = next((found[one] for one in wanted if one in found), None)
        for run in () if edge is None else edge.runs:
            side = _side(piece, run)
            sides.append(BorderSide(f"{piece.name}, {side.edge}", side.length, side.stitches, side.how))
    if sides:
        yield Edging(name, Border(tuple(sides), 0))


# -------------------------------------------------------------------------------------------------- its yarn


def area(worked: Border, piece: PiecePlan) -> Fraction:
    """The fabric of one round of a border, in square cm: its length by half a row."""
    return worked.length * SC_HEIGHT_IN_ROWS * piece.gauge.row


def border_yarn(plan: Plan) -> Yarn | None:
    """The yarn a border is reckoned in: the first of which something is kept back, else the first."""
    yarns = plan.pattern.yarns
    return next((one for one in yarns if one.keep), yarns[0] if yarns else None)


def border_grams(plan: Plan) -> Fraction | None:
    """Grams for one round of every edging, with the margin of the yarn figures; None where no swatch was weighed."""
    per_area = yarn.density(plan.pattern).likely
    if per_area is None:
        return None
    piece = plan.pieces[0]
    whole = sum((area(one.border, piece) * one.count for one in edgings(plan)), Fraction(0))
    return whole * per_area * (1 + yarn.margin_of(plan.pattern) / 100)


# ------------------------------------------------------------------------------------------------------ ends


def stripes(piece: PiecePlan) -> int:
    """How many times a yarn begins in a piece, in the order worked: at a new colour, and where yarn is joined."""
    begun = 0
    for index, row in enumerate(piece.rows):
        if index == 0 or row.joined or row.colour != piece.rows[index - 1].colour:
            begun += 1
    return begun


def ends(plan: Plan) -> int:
    """The ends to weave in over all pieces, none carried: 2 to every stripe. Source: common practice, a sum."""
    return sum(2 * stripes(piece) * piece.count for piece in plan.pieces)


# -------------------------------------------------------------------------------------------------- in words


@dataclass(frozen=True, slots=True)
class Chapter:
    """A heading and what stands under it, a sentence or a step to an entry."""

    heading: str
    entries: tuple[str, ...]


def text(plan: Plan) -> str:
    """The finishing as plain text, ending in a line break."""
    told = ["\n".join([chapter.heading, *(f"- {entry}" for entry in chapter.entries)]) for chapter in chapters(plan)]
    return "\n\n".join(told) + "\n"


def chapters(plan: Plan) -> tuple[Chapter, ...]:
    """Blocking, sewing, border and ends, in the order done."""
    sewn = _sewing(plan)
    return (
        Chapter("Blocking", tuple(_blocking(plan))),
        *([Chapter("Seams, in this order", tuple(sewn))] if sewn else []),
        Chapter("Border", tuple(_bordering(plan))),
        Chapter("Ends", tuple(_ends(plan))),
    )


def _blocking(plan: Plan) -> Iterator[str]:
    unit = plan.pattern.units
    yield (
        "wool and plant fibres: wash or soak, press the water out in a towel, pin out to the measures below and let "
        "dry. Acrylic: wash and dry flat; a hot iron ruins it for good. Follow the yarn's label"
    )
    for piece in plan.pieces:
        measures = ", ".join(f"{fit.measure} {shown(fit.worked, unit)}" for fit in piece.fit)
        yield f"{piece.name}: {measures}"
    yield "the measures hold for fabric treated as the swatch was when it was counted"


def _sewing(plan: Plan) -> list[str]:
    found = seams.of(plan)
    told = []
    for alike in seams.grouped(found):
        agree = "" if alike[0].agrees else f"; {seams.agreement(alike[0], plan.pattern.units)}"
        told.append(f"{alike[0].letter}, {alike[0].kind}: {seams.meeting(alike)}{agree}")
    if not told:
        return []
    sewn_with = f"mattress stitch, {full('sl_st', plan.pattern.terms)} or {full('sc', plan.pattern.terms)}"
    hint = f"right sides out, with {sewn_with}; meet row with row where both sides have rows, so that stripes meet"
    return [*told, hint]


def _bordering(plan: Plan) -> Iterator[str]:
    terms, unit = plan.pattern.terms, plan.pattern.units
    sc = short("sc", terms)
    yield (
        f"{sc} is {full('sc', terms)}. One number kept along a whole edge lies flat: too few {sc} pull in, too many "
        f"ruffle. In further rounds work 1 {sc} in each, and {SC_IN_A_CORNER} in the middle one of each corner"
    )
    for one in edgings(plan):
        times = f", {one.count} times" if one.count > 1 else ""
        yield f"{one.name}{times}: {'; '.join(_sides(one.border, sc))}{_sum(one.border, sc)}"
        yield f"its length is {shown(one.border.length, unit)}"
    yield _yarn_words(plan, sc)


def _sides(worked: Border, sc: str) -> Iterable[str]:
    for side in worked.sides:
        yield f"{side.edge} {side.stitches} {sc} ({side.how})"


def _sum(worked: Border, sc: str) -> str:
    corners = f"; {SC_IN_A_CORNER} in each of {worked.corners} corners" if worked.corners else ""
    return f"{corners}: {worked.stitches} {sc} in all"


def _yarn_words(plan: Plan, sc: str) -> str:
    grams = border_grams(plan)
    if grams is None:
        return "its yarn cannot be told: no swatch was weighed"
    used = border_yarn(plan)
    name = f" of {used.name}" if used else ""
    long = f", {ceil(grams * used.metres_per_100g / 100)} m" if used and used.metres_per_100g else ""
    return (
        f"yarn for one round of {sc} on every edge named: about {ceil(grams)} g{name}{long}, reckoned as fabric of the "
        f"border's length by half a row's height at the swatch's weight, with {plain(yarn.margin_of(plan.pattern))} % "
        f"over"
    )


def _ends(plan: Plan) -> Iterator[str]:
    cut = [(piece.name, 2 * stripes(piece) * piece.count) for piece in plan.pieces]
    each = f" ({', '.join(f'{name} {count}' for name, count in cut)})" if len(cut) > 1 else ""
    yield f"{sum(count for _, count in cut)} ends to weave in where every stripe is cut, 2 to a stripe{each}"
    carried = sum(carrying.ends(piece, carrying.carry_of(plan, piece)) * piece.count for piece in plan.pieces)
    if carried < ends(plan):
        yield f"{carried} ends where each yarn is carried up the edge as far as it can be"
    tail = handy(plan.pattern.allowance.tail, plan.pattern.units)
    yield f"leave tails of {tail}, weave them in along stripes of their own colour, and turn back once"
