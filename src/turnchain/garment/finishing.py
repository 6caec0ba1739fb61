"""Making it up in words: blocking, seams in order, border, ends.

In: a plan. Out: ``Chapter`` s in the pattern's terms and unit. The counts are those of ``borders`` and ``seams``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import borders, seam_words, seams
from turnchain.garment.borders import SC_IN_A_CORNER, Border
from turnchain.terms import full, short
from turnchain.units import handy, plain, shown
from turnchain.yarns import carrying
from turnchain.yarns import figures as yarn

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
    for alike in seam_words.grouped(found):
        agree = "" if alike[0].agrees else f"; {seam_words.agreement(alike[0], plan.pattern.units)}"
        told.append(f"{alike[0].letter}, {alike[0].kind}: {seam_words.meeting(alike)}{agree}")
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
    for one in borders.edgings(plan):
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
    grams = borders.border_grams(plan)
    if grams is None:
        return "its yarn cannot be told: no swatch was weighed"
    used = borders.border_yarn(plan)
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
