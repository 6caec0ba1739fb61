"""The report of ``turnchain check``: gauge, every measure, every warning, in makers' words.

In: a ``Plan``. Out: lines of text. US or UK stitch names as the pattern has them; lengths in its unit.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.plan import Alternative, Fit, PiecePlan, Plan
from turnchain.garment import caution_words, seam_words, wearing
from turnchain.numbers import counted
from turnchain.units import SWATCH_WORDS, Unit, per_swatch, shown
from turnchain.yarns import carrying, figure_words, meeting, stripes
from turnchain.yarns import figures as yarn


def report(plan: Plan, colours: bool = False) -> str:
    """The whole report, ending in a line break; with ``colours`` also how well the colours can be told apart."""
    unit = plan.pattern.units
    lines = [plan.pattern.title, "", *_gauge(plan), *_warnings(plan.warnings)]
    for piece in plan.pieces:
        lines += ["", *_piece(plan, piece, unit)]
    for heading, said in (*_wearing(plan), *_yarns(plan, colours)):
        if said:
            lines += ["", heading, *(words if words.startswith("warning:") else f"  {words}" for words in said)]
    return "\n".join(lines) + "\n"


def _wearing(plan: Plan) -> Iterator[tuple[str, list[str]]]:
    """How it will be worn and sewn."""
    yield "fit", wearing.lines(plan)
    yield "seams", seam_words.lines(plan)
    yield "cautions", caution_words.for_report(plan)


def _yarns(plan: Plan, colours: bool) -> Iterator[tuple[str, list[str]]]:
    """What stripes and yarn come to. The stash is solved only where stripes are asked of it, and colours are weighed
    only where asked for: both take longer than all the rest."""
    if not plan.pattern.yarns:
        return
    yield "stripes", [*stripes.lines(plan), *meeting.lines(plan)]
    needs = yarn.figures(plan).needs
    short = [f"warning: {need.yarn} runs out before the end" for need in needs if (need.left or 0) < 0]
    yield "yarn", [*figure_words.lines(plan), *short]
    if plan.pattern.stripes is not None and plan.pattern.stripes.kind == "stash":
        from turnchain.yarns.stash import from_plan  # for reports that tell of this alone

        yield "stash", from_plan.lines(plan)
    yield "carry or cut", carrying.lines(plan)
    if colours:
        from turnchain.yarns import colour_checks  # for reports that tell of this alone

        yield "colours", colour_checks.lines(plan) or ["every stripe can be told from its neighbours"]


def _warnings(words: tuple[str, ...]) -> list[str]:
    return [f"warning: {said}" for said in words]


def _gauge(plan: Plan) -> Iterator[str]:
    gauge, unit = plan.gauge, plan.pattern.units
    yield (
        f"gauge: {per_swatch(gauge.pitch, unit)} clusters and {per_swatch(gauge.row, unit)} rows to "
        f"{SWATCH_WORDS[unit]}; "
        f"a cluster with its gap is {shown(gauge.pitch, unit)} wide, a row {shown(gauge.row, unit)} high"
    )
    readings = len(plan.pattern.swatches)
    if readings > 1:
        yield f"gauge: the mean of {readings} readings; what their spread does is told with each piece"


def _piece(plan: Plan, piece: PiecePlan, unit: Unit) -> Iterator[str]:
    counts = [row.clusters for row in piece.rows]
    least, most = min(counts), max(counts)
    clusters = counted(most, "cluster") if least == most else f"{least} to {most} clusters"
    makes = f", make {piece.count}" if piece.count > 1 else ""
    yield (
        f"{piece.name}{makes}: {counted(piece.row_count, 'row')} of {clusters}, worked {piece.worked}, "
        f"rows {piece.row_plan}; chain {piece.foundation_chain}"
    )
    yield from table(piece.fit, unit)
    far = piece.farthest
    if far is not None:
        yield (
            f"  the edge is nowhere farther from the shape wanted than {shown(far.distance, unit)} "
            f"({far.side} edge, row {far.row})"
        )
    yield from _spread(plan, piece, unit)
    yield from _progress(plan, piece, unit)
    for other in piece.alternatives:
        yield f"  also possible: {_alternative(piece, other, unit)}"
    yield from _warnings(tuple(f"{piece.name}: {words}" for words in piece.warnings))


def table(fits: tuple[Fit, ...], unit: Unit) -> Iterator[str]:
    """Wanted, worked and off for every measure, in columns."""
    rows = [("", "wanted", "worked", "off", "")]
    for fit in fits:
        off = shown_off(fit, unit)
        percent = _percent(fit) if off else ""
        rows.append((fit.measure, shown(fit.wanted, unit), shown(fit.worked, unit), off or "exact", percent))
    widths = [max(len(row[column]) for row in rows) for column in range(5)]
    for name, *figures in rows:
        cells = [figure.rjust(width) for figure, width in zip(figures, widths[1:], strict=True)]
        yield ("  " + name.ljust(widths[0]) + "  " + "  ".join(cells)).rstrip()


def _percent(fit: Fit) -> str:
    return f"{float(fit.off / fit.wanted) * 100:+.1f} %".replace("-", "−") if fit.wanted else ""


def shown_off(fit: Fit, unit: Unit) -> str:
    """How far a measure is off, with its sign; empty where nothing shows."""
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
    along = piece.row_count
    low, high = (Fraction(across, 2) * pitch for pitch in gauge.pitches)
    short, tall = (along * height for height in gauge.row_heights)
    yield (
        f"  by the readings apart: {shown(low, unit)} to {shown(high, unit)} across the rows at the widest, "
        f"{shown(short, unit)} to {shown(tall, unit)} over all rows"
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
        f"  {progress.worked} rows worked: a row is {shown(piece.gauge.row, unit)} "
        f"({_signed(rows)} % from the swatch), "
        f"a cluster {shown(piece.gauge.pitch, unit)} ({_signed(pitch)} %)"
    )
    came = ", ".join(f"{fit.measure} {shown(fit.worked, unit)}" for fit in progress.as_planned)
    yield f"  as planned by the swatch, with {progress.planned_rows} rows, it would come to {came}"
    yield "  the rest is planned anew" if progress.changed else "  the plan holds: go on as written"


def _signed(value: float) -> str:
    return f"{value:+.1f}".replace("-", "−")


def _alternative(piece: PiecePlan, other: Alternative, unit: Unit) -> str:
    first, second = other.clusters
    counts = f"{first} and {second} clusters in turn" if first != second else counted(first, "cluster")
    differing = [
        f"{fit.measure} {shown(fit.worked, unit)} ({shown_off(fit, unit) or 'exact'})"
        for fit, chosen in zip(other.fit, piece.fit, strict=True)
        if fit.worked != chosen.worked
    ]
    measures = "; ".join(differing) or "the same measures"
    keys = " and ".join(f"{key} = {_toml(value)}" for key, value in other.keys)
    return f"{other.rows} rows, {counts} at the start: {measures}; to choose it, write {keys}"


def _toml(value: int | str) -> str:
    """A value as a pattern file has it."""
    return f'"{value}"' if isinstance(value, str) else str(value)
