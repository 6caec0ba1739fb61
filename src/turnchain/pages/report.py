"""The report of ``turnchain check``: what matters most, every measure, every warning, details, in makers' words.

In: a ``Plan``. Out: lines of text. US or UK stitch names as the pattern has them; lengths in its unit.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import ceil

from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.plan import Alternative, Fit, PiecePlan, Plan
from turnchain.garment import borders, caution_words, grading, seam_words, wearing
from turnchain.numbers import counted
from turnchain.pages import glance
from turnchain.pattern import ON_ARMHOLE, Yarn
from turnchain.terms import short
from turnchain.units import SWATCH_WORDS, Unit, per_swatch, plain, shown
from turnchain.wording import founding
from turnchain.wording.tables import speech_of, told_in
from turnchain.yarns import carrying, figure_words, meeting, stripes
from turnchain.yarns import figures as yarn


def report(plan: Plan, colours: bool = False, brief: bool = False) -> str:
    """The report in English with the pattern's terms, whatever its language, ending in a line break: what matters most,
    a table for each piece, and details under headings, which ``brief`` leaves out; with ``colours`` also how well the
    colours can be told apart."""
    plan = told_in(plan, plan.pattern.terms)  # it is for the designer, and in English
    unit, warnings = plan.pattern.units, list(_doubts(plan))
    lines = [plan.pattern.title, "", *glance.lines(plan, len(warnings)), *_warnings(warnings)]
    for piece in plan.pieces:
        lines += ["", *_piece(plan, piece, unit)]
    for heading, said in () if brief else _details(plan, colours):
        if said:
            lines += ["", heading, *(f"  {words}" for words in said)]
    return "\n".join(lines) + "\n"


def doubts(plan: Plan) -> list[str]:
    """Every warning of the report, and after them what should be looked at again of how it fits; in English."""
    plan = told_in(plan, plan.pattern.terms)
    fit = [f"{one.about}: {one.words}" for one in wearing.checks(plan) if one.says == "look"]
    return [*_doubts(plan), *fit]


def _doubts(plan: Plan) -> Iterator[str]:
    """All warnings: of the gauge, of each piece, of the yarn."""
    yield from plan.warnings
    yield from (f"{piece.name}: {words}" for piece in plan.pieces for words in piece.warnings)
    for seam, off in meeting.against(plan):
        if off:
            yield f"seam {seam.letter}: stripes should {seam.wish} there, and do not in {counted(len(off), 'row')}"
    rough = yarn.density(plan.pattern).rough
    for need in glance.short_yarns(plan):
        yield f"{need.yarn} {'may run' if rough else 'runs'} out before the end"


def _details(plan: Plan, colours: bool) -> Iterator[tuple[str, list[str]]]:
    yield "gauge", list(_gauge(plan))
    yield "edges", [words for piece in plan.pieces for words in _edges(plan, piece)]
    yield "also possible", _alternatives(plan)
    yield "worked out from the body", list(_graded(plan))
    yield "fit", wearing.lines(plan)
    yield "seams", seam_words.lines(plan)
    yield "edging", _edging(plan)
    yield "cautions", caution_words.for_report(plan)
    yield from _yarns(plan, colours)


def _edging(plan: Plan) -> list[str]:
    if not plan.pattern.edgings:
        return []
    from turnchain.garment.edging import words  # all about edges and corners: few patterns have edgings

    return list(words.lines(speech_of(plan.pattern), plan))


def _yarns(plan: Plan, colours: bool) -> Iterator[tuple[str, list[str]]]:
    """What stripes and yarn come to. The stash is there only where the stripes come from it, and colours are compared
    only where wanted: both take longer than all the rest."""
    if not plan.pattern.yarns:
        return
    yield "stripes", [*stripes.lines(plan), *meeting.lines(plan)]
    yield "yarn", [*figure_words.lines(plan), *_border(plan)]
    if plan.pattern.stripes is not None and plan.pattern.stripes.kind == "stash":
        from turnchain.yarns.stash import from_plan  # for reports with a stash alone

        yield "stash", from_plan.lines(plan)
    yield "carry or cut", carrying.lines(plan)
    if colours:
        from turnchain.yarns import colour_checks  # for reports with colours alone

        yield "colours", colour_checks.lines(plan) or ["every stripe can be told from its neighbours"]


def _border(plan: Plan) -> Iterator[str]:
    """A border is no row of any piece: its yarn is in the figures only as far as it is kept back."""
    if plan.pattern.edgings:
        for used, grams in yarn.edging_of(plan):
            if used is not None:
                about = f"the edging takes about {ceil(grams)} g of {used.name}"
                kept = f"out of the {plain(used.keep)} g kept for border and seams"
                yield f"{about}, {kept if used.keep >= grams else 'which the figures above include'}"
        return
    whole, used = borders.border_grams(plan), borders.border_yarn(plan)
    if whole and used is not None:
        yield from _kept("a border of one round takes", used, whole)


def _kept(takes: str, used: Yarn, grams: Fraction) -> Iterator[str]:
    """What a border takes, and whether so much is kept back."""
    about = f"{takes} about {ceil(grams)} g of {used.name}"
    if used.keep >= grams:
        yield f"{about}, out of the {plain(used.keep)} g kept for border and seams"
    else:
        yield f"{about}; the figures above keep {plain(used.keep)} g for it; write keep = {ceil(grams)} to include it"


def _warnings(words: Iterable[str]) -> list[str]:
    return [f"warning: {said}" for said in words]


def _gauge(plan: Plan) -> Iterator[str]:
    gauge, unit, noun = plan.gauge, plan.pattern.units, plan.recipe.noun
    one = "a cluster with its gap" if noun == "cluster" else f"a {noun}"
    yield (
        f"gauge: {per_swatch(gauge.pitch, unit)} {noun}s and {per_swatch(gauge.row, unit)} rows to "
        f"{SWATCH_WORDS[unit]}; "
        f"{one} is {shown(gauge.pitch, unit)} wide, a row {shown(gauge.row, unit)} high"
    )
    yield from _kinds(plan)
    readings = len(plan.pattern.swatches)
    if readings > 1:
        yield f"gauge: the mean of {readings} readings; what each alone would give stands under edges"


def _kinds(plan: Plan) -> Iterator[str]:
    """How high rows of each kind are, where there are several."""
    order, unit = plan.recipe.order, plan.pattern.units
    if order.plain:
        return
    tall = plan.gauge.row / order.mean
    solid = [(short(kind, plan.pattern.terms), tall * order.share(kind)) for kind in order.solid]
    each = [("clusters", tall), *solid]
    yield "gauge: " + ", ".join(f"rows of {name} {shown(high, unit)} high" for name, high in each)


def _piece(plan: Plan, piece: PiecePlan, unit: Unit) -> Iterator[str]:
    counts = [row.clusters for row in piece.rows if not row.solid]
    least, most = min(counts), max(counts)
    noun = piece.recipe.noun
    clusters = counted(most, noun) if least == most else f"{least} to {most} {noun}s"
    solid = Counter(row.kind for row in piece.rows if row.solid)
    named = [f"{counted(rows, 'row')} of {short(kind, plan.pattern.terms)}" for kind, rows in solid.items()]
    clusters += f" ({', '.join(named)} among them)" if named else ""
    makes = f", make {piece.count}" if piece.count > 1 else ""
    yield (
        f"{piece.name}{makes}: {counted(piece.row_count, 'row')} of {clusters}, worked {piece.worked}, "
        f"rows {piece.row_plan}; {_begun_on(piece)}"
    )
    yield from table(piece.fit, unit, max(len(fit.measure) for one in plan.pieces for fit in one.fit))
    yield from _progress(plan, piece, unit)


def _begun_on(piece: PiecePlan) -> str:
    """The chain to make, or the stitches that stand for it and the chains to turn."""
    if not piece.begun_on:
        return f"chain {piece.foundation_chain}"
    turning = founding.first_turning(piece)
    where = "along the armhole" if piece.begun_on == ON_ARMHOLE else f"of {piece.begun_on}"
    what = "sc" if piece.begun_on == ON_ARMHOLE else "chains"
    return f"begun on {piece.foundation_chain - turning} {what} {where}, chain {turning} to turn"


def _edges(plan: Plan, piece: PiecePlan) -> Iterator[str]:
    """How far the edge is from the shape wanted, and what the readings of the gauge do to the size."""
    far, unit = piece.farthest, plan.pattern.units
    if far is not None:
        yield f"{piece.name}: largest deviation {shown(far.distance, unit)} ({far.side} edge, row {far.row})"
    yield from _spread(plan, piece, unit)


def table(fits: tuple[Fit, ...], unit: Unit, wide: int = 0) -> Iterator[str]:
    """Lines with what was wanted, what is worked and how far that is off (in ``unit`` and in per cent) for every
    measure, below a line of headings, in columns, the first at least ``wide`` characters."""
    rows = [("", "wanted", "worked", "off", "")]
    for fit in fits:
        off = shown_off(fit, unit)
        percent = _percent(fit) if off else ""
        rows.append((fit.measure, shown(fit.wanted, unit), shown(fit.worked, unit), off or "exact", percent))
    widths = [max(len(row[column]) for row in rows) for column in range(5)]
    widths = [max(widths[0], wide), *(max(8, width) for width in widths[1:4]), widths[4]]  # alike in most pieces
    for name, *figures in rows:
        cells = [figure.rjust(width) for figure, width in zip(figures, widths[1:], strict=True)]
        yield ("  " + name.ljust(widths[0]) + "  " + "  ".join(cells)).rstrip()


def _percent(fit: Fit) -> str:
    return f"{float(fit.off / fit.wanted) * 100:+.1f} %".replace("-", "−") if fit.wanted else ""


def shown_off(fit: Fit, unit: Unit) -> str:
    """How far a measure is off in ``unit``, worked less wanted, with its sign: "+0.5 cm", "−0.25 cm" (a true minus); ""
    where two decimals show nothing."""
    words = shown(abs(fit.off), unit)
    if words == shown(Fraction(0), unit):
        return ""
    return f"{'+' if fit.off > 0 else '−'}{words}"


def _spread(plan: Plan, piece: PiecePlan, unit: Unit) -> Iterator[str]:
    """What the spread of several readings does to the finished width and height."""
    gauge = piece.gauge
    if len(plan.pattern.swatches) < 2:
        return
    across = max(row.right.at - row.left.at for row in piece.rows)
    along = piece.level(piece.row_count)
    low, high = (Fraction(across, 2) * pitch for pitch in gauge.pitches)
    short, tall = (along * height for height in gauge.row_heights)
    yield (
        f"{piece.name}: by each gauge reading alone, {shown(low, unit)} to {shown(high, unit)} across the rows "
        f"at the widest, {shown(short, unit)} to {shown(tall, unit)} over all rows"
    )


def _progress(plan: Plan, piece: PiecePlan, unit: Unit) -> Iterator[str]:
    """A piece begun: how far the swatch was off, what it would come to, and what was done about it."""
    progress = piece.progress
    if progress is None:
        return
    swatch = gauge_of(plan.pattern.swatches)
    rows = float(piece.gauge.row / swatch.row - 1) * 100
    pitch = float(piece.gauge.pitch / swatch.pitch - 1) * 100
    yield (
        f"  {counted(progress.worked, 'row')} worked: a row is {shown(piece.gauge.row, unit)} "
        f"({_signed(rows)} % from the swatch), "
        f"a {piece.recipe.noun} {shown(piece.gauge.pitch, unit)} ({_signed(pitch)} %)"
    )
    came = ", ".join(f"{fit.measure} {shown(fit.worked, unit)}" for fit in progress.as_planned)
    yield f"  as planned by the swatch, with {progress.planned_rows} rows, it would come to {came}"
    yield "  the rest is planned again" if progress.changed else "  the plan stands: go on as written"


def _signed(value: float) -> str:
    return f"{value:+.1f}".replace("-", "−")


def _graded(plan: Plan) -> Iterator[str]:
    """Every measure that the file has worked out, its formula, and the measures in that with their sources."""
    unit = plan.pattern.units
    for one in grading.measures(plan.pattern):
        start = "" if one.given else " (to start with: the file may say otherwise)"
        yield f"{one.measure} = {one.formula} = {shown(one.cm, unit)}{start}"
    for by in grading.bodies(plan.pattern):
        yield f"{by.name}: {shown(by.cm, unit)} ({by.source})"


def _alternatives(plan: Plan) -> list[str]:
    """All plans that came close, numbered through, with what to write to choose each."""
    found = [(piece, other) for piece in plan.pieces for other in piece.alternatives]
    wide = len(str(len(found)))
    return [
        f"{number:>{wide}}  {piece.name}: {_alternative(piece, other, plan.pattern.units)}"
        for number, (piece, other) in enumerate(found, 1)
    ]


def _alternative(piece: PiecePlan, other: Alternative, unit: Unit) -> str:
    first, second = other.clusters
    noun = piece.recipe.noun
    turns = "" if piece.recipe.stacked else " in turn"
    counts = f"{first} and {second} {noun}s{turns}" if first != second else counted(first, noun)
    chosen = {fit.measure: fit.worked for fit in piece.fit}  # one of them may have two shoulders, which differ
    differing = [
        f"{fit.measure} {shown(fit.worked, unit)} ({shown_off(fit, unit) or 'exact'})"
        for fit in other.fit
        if fit.worked != chosen.get(fit.measure)
    ]
    measures = "; ".join(differing) or "the same measures"
    keys = " and ".join(f"{key} = {_toml(value)}" for key, value in other.keys)
    if other.irregular:
        measures += f"; {counted(other.irregular, 'row')} shaped irregularly"
    return f"{counted(other.rows, 'row')}, {counts} at the start: {measures}; to choose it, write {keys}"


def _toml(value: int | str) -> str:
    """A value as a pattern file has it."""
    return f'"{value}"' if isinstance(value, str) else str(value)
