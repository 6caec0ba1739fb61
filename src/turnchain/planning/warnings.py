"""What a maker is warned of.

In: a gauge, a planned piece and its target. Out: warnings in makers' words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import product
from typing import Final

from turnchain.fabric.gauge import Gauge, usual_band, usual_row_height
from turnchain.fabric.lattice import SIDES, Move
from turnchain.fabric.plan import Fit, PiecePlan
from turnchain.fabric.recipe import Recipe
from turnchain.numbers import decimal
from turnchain.planning.armholes import ARMHOLE
from turnchain.planning.necks import NECK_MEASURES, tolerances
from turnchain.planning.targets import Target
from turnchain.units import SWATCH_WORDS, Unit, per_swatch, shown


def about_gauge(gauge: Gauge, recipe: Recipe, unit: Unit) -> Iterator[str]:
    """A warning, with the likeliest slip, where a pitch is not as many rows wide as is usual (``usual_row_height``);
    nothing where it is."""
    usual = usual_row_height(gauge, recipe)
    if usual is None:
        return
    least, most = (decimal(float(share)) for share in usual_band(recipe))
    one, some = f"a {recipe.noun}", "this fabric"
    if recipe.noun == "cluster":
        one, some = "a cluster with its gap", f"clusters of {recipe.unit_width}"
    few = gauge.row > usual
    yield (
        f"{one} is {float(gauge.pitch_in_rows):.2f} rows wide in this swatch; {least} to {most} is usual for {some}. "
        f"The commonest slip is rows counted wrongly, here too {'few' if few else 'many'}: "
        f"{per_swatch(gauge.row, unit)} rows to {SWATCH_WORDS[unit]} counted, where with "
        f"{per_swatch(gauge.pitch, unit)} {recipe.noun}s about {per_swatch(usual, unit)} are usual. Count again, on a "
        f"washed swatch, between two pins"
    )


def warnings_of(piece: PiecePlan, target: Target, unit: Unit, follows: bool = False) -> tuple[str, ...]:
    """A text for everything to be warned of in a planned ``piece``, lengths in ``unit``; empty where there is
    nothing. ``follows``: it has another number of rows than it would have by itself."""
    return (
        *_gauge_slip(piece, unit),
        *_short_edges(piece, unit),
        *_shallow_neck(piece, target, unit),
        *_armhole_measures(piece, unit),
        *_neck_measures(piece, target, unit, follows),
        *_forced(piece),
        *_bad_fit(piece, unit),
    )


def _gauge_slip(piece: PiecePlan, unit: Unit) -> Iterator[str]:
    usual = usual_row_height(piece.gauge, piece.recipe)
    if usual is None:
        return
    measure = "wide" if piece.worked == "sideways" else "high"
    rows, come_out = piece.row_count, piece.height * usual / piece.gauge.row
    yield (
        f"if the rows were miscounted as the gauge suggests, the {rows} rows planned to be "
        f"{shown(piece.height, unit)} {measure} would come out {shown(come_out, unit)} {measure}"
    )


def _short_edges(piece: PiecePlan, unit: Unit) -> Iterator[str]:
    recipe = piece.recipe
    k, short = recipe.unit_width, recipe.narrow("spaced")
    if k < 4 or not short or recipe.slit or not any("spaced" in (row.left.kind, row.right.kind) for row in piece.rows):
        return
    width = short * piece.gauge.pitch / recipe.pitch
    yield (
        f"with clusters of {k}, an edge with a gap falls short of half a cluster by {float(short):g} "
        f"{'stitch' if short <= 1 else 'stitches'} (about {shown(width, unit)}) and pulls in a little there"
    )


def _shallow_neck(piece: PiecePlan, target: Target, unit: Unit) -> Iterator[str]:
    neck = target.neck
    if neck is None or neck.shape != "slant":
        return
    by, noun = (piece.gauge.pitch, "a") if piece.recipe.table.whole else (piece.gauge.half, "half a")
    slope = by / piece.gauge.row  # cm in for a cm along the rows' height
    room = neck.width / 2
    reach = room / slope if target.opening else room * slope
    if reach < neck.depth:
        yield (
            f"a slant neck goes in {noun} {piece.recipe.noun} a row: between these shoulders it reaches at most "
            f"{shown(reach, unit)} deep, not {shown(neck.depth, unit)}; make the shoulders narrower or the neck "
            f"shallower"
        )


def _neck_measures(piece: PiecePlan, target: Target, unit: Unit, follows: bool) -> Iterator[str]:
    """The measures of a neck that are out of tolerance, and why; shoulders that differ."""
    neck = target.neck
    if neck is None:
        return
    sideways, held_fast = piece.worked == "sideways", _held_fast(piece, target.piece.exact_rows, follows)
    along, across = tolerances(piece.gauge, sideways)
    reachable = neck.reach == neck.depth
    for fit in (one for one in piece.fit if one.measure in NECK_MEASURES):
        deep = fit.measure == "neck depth"
        most, by_rows = (across, not sideways) if deep else (along, sideways)
        if abs(fit.off) > most and (reachable or not deep):
            much = "half a row" if by_rows else f"half a {piece.recipe.noun}"
            why = _why_rows(piece, target, held_fast, fit) if by_rows else _no_room(piece)
            came = f"{shown(fit.worked, unit)}, not {shown(fit.wanted, unit)}"
            yield f"{fit.measure}: {came}, more than {much} off: {why}"
    shoulders = [fit.worked for fit in piece.fit if fit.measure in ("first shoulder", "second shoulder")]
    if shoulders:
        first, second = (shown(one, unit) for one in shoulders)
        yield f"the two shoulders differ, {first} first and {second} then: {_why_unlike(piece, target, held_fast)}"


def _armhole_measures(piece: PiecePlan, unit: Unit) -> Iterator[str]:
    """The measures of armholes that are off by more than half a row along the work, or half a cluster across it: in
    depth or, worked sideways, in width along it."""
    if piece.upper is not None:
        yield from _sideways_armhole(piece, unit)
        return
    for fit in (one for one in piece.fit if ARMHOLE in one.measure):
        deep = fit.measure.endswith("depth")
        most, much = (piece.gauge.row / 2, "row") if deep else (piece.gauge.half, piece.recipe.noun)
        if abs(fit.off) > most:
            came = f"{shown(fit.worked, unit)}, not {shown(fit.wanted, unit)}"
            why = "no step close to the one wanted comes nearer"
            yield f"{fit.measure}: {came}, more than half a {much} off: {why}"


def _sideways_armhole(piece: PiecePlan, unit: Unit) -> Iterator[str]:
    along, across = tolerances(piece.gauge, True)
    for fit in (one for one in piece.fit if ARMHOLE in one.measure):
        deep = fit.measure.endswith("depth")
        if abs(fit.off) > (across if deep else along):
            came = f"{shown(fit.worked, unit)}, not {shown(fit.wanted, unit)}"
            much = f"half a {piece.recipe.noun}" if deep else "half a row"
            why = _no_room(piece) if deep else "a step outwards can only be made where a row starts"
            yield f"{fit.measure}: {came}, more than {much} off: {why}"


def _no_room(piece: PiecePlan) -> str:
    room = f"every row needs room for a {piece.recipe.noun}"
    return f"{room}, and an edge can move in or out only where its stitches allow it"


_WORKED: Final = "the rows already worked stay as they are"



def _no_rows(target: Target) -> str:
    """Of a neck worked sideways: one that leans in steps is planned over odd numbers of rows alone."""
    odd = "odd " if target.neck is not None and target.neck.shape == "vee" else ""
    return f"with regular shaping no {odd}number of rows close to the one wanted"


def _why_rows(piece: PiecePlan, target: Target, held_fast: str, fit: Fit) -> str:
    if piece.worked == "upwards":
        body = len(piece.section(piece.sections[0]))
        if piece.progress is not None and piece.progress.worked > body:
            return _WORKED
        return "a neck begins on a whole row" if abs(fit.off) <= piece.gauge.row else _no_room(piece)
    return held_fast or f"the two ends of the neck are to match, and {_no_rows(target)} comes nearer"


def _held_fast(piece: PiecePlan, chosen: int | None, follows: bool) -> str:
    """Why a piece cannot have another number of rows; empty where it can."""
    if piece.progress is not None:
        return _WORKED
    if chosen is not None:
        return f"exact_rows = {chosen} stays as you chose it"
    return "its number of rows follows that of other pieces or sizes" if follows else ""


def _why_unlike(piece: PiecePlan, target: Target, held_fast: str) -> str:
    if piece.worked == "sideways":
        return held_fast or f"{_no_rows(target)} lets them match"
    if piece.progress is not None:
        return _WORKED
    if piece.row_plan == "alike" and not piece.recipe.stacked:
        half = f"half a {piece.recipe.noun}"
        return f'rows that are alike have {half} more on one side; with row_plan = "alternate" they match'
    if len({row.left.at + row.right.at for row in piece.section(piece.sections[0])}) == 1:
        return "no place for the neck on the stitches lets them match"
    return "the sides of the piece are not alike"


def _forced(piece: PiecePlan) -> Iterator[str]:
    half = f"half a {piece.recipe.noun}"
    says: tuple[tuple[Move, str], ...] = (
        ("forced_decrease", f"{half} less right after an edge with a gap (irregular; looks well)"),
        ("forced_increase", f"{half} more right after an edge without a gap (irregular; a little bulky)"),
    )
    for (name, words), section, side in product(says, piece.sections, SIDES):
        rows = [row.number for row in piece.section(section) if row.edge(side).move == name]
        where = "" if section == piece.sections[0] else f"{section}, "  # both have the same row numbers
        if rows:
            yield f"{where}{side} edge, {listed(rows)}: {words}"


def listed(rows: Iterable[int]) -> str:
    """Row numbers (one at least) in words: "row 4" or "rows 4, 7 and 9"."""
    numbers = [str(row) for row in rows]
    if len(numbers) == 1:
        return f"row {numbers[0]}"
    return f"rows {', '.join(numbers[:-1])} and {numbers[-1]}"


def _bad_fit(piece: PiecePlan, unit: Unit) -> Iterator[str]:
    far = piece.farthest
    if far is None or far.distance <= piece.gauge.pitch:
        return
    above = [row for row in piece.rows if row.number == far.row + 1 and row.edge(far.side).move == "step_out"]
    if above:
        yield (
            f"a step outwards can only be made where a row starts: at the {far.side} edge it comes a row later, in row "
            f"{above[0].number}"
        )
    else:
        yield (
            f"the {far.side} edge is {shown(far.distance, unit)} away from the shape you gave in row {far.row}: more "
            f"than a whole {piece.recipe.noun}"
        )
