"""Alt texts and captions of charts, for those who cannot see them.

In: a plan. Out: the alt text of a chart, the words for one row, and a caption for one edge of a row, in the pattern's
terms.
"""

from __future__ import annotations

from itertools import groupby

from turnchain import terms
from turnchain.fabric import stitches
from turnchain.fabric.lattice import SIDES, Move, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.numbers import counted
from turnchain.pattern import Pattern
from turnchain.units import shown


def of_row(row: Row) -> str:
    """One row: number, yarn, clusters, where it starts."""
    yarn = f"{row.colour}, " if row.colour else ""
    return f"row {row.number}: {yarn}{counted(row.clusters, 'cluster')}, starts at the {row.starts}"


def of_chart(plan: Plan, piece: PiecePlan, short: bool = False) -> str:
    """The alt text of a piece's chart."""
    pattern = plan.pattern
    dc = terms.short("dc", pattern.terms)
    counts = [row.clusters for row in piece.rows]
    clusters = f"{counts[0]}" if min(counts) == max(counts) else f"{min(counts)} to {max(counts)}"
    odd, even = ("right", "left") if piece.rows[0].starts == "right" else ("left", "right")
    sentences = [
        f"{'Short stitch' if short else 'Stitch'} chart of {piece.name} from {pattern.title}: "
        f"{counted(piece.row_count, 'row')} of {clusters} clusters of {piece.fabric.cluster} {dc}, worked "
        f"{piece.worked} from a chain of {piece.foundation_chain}.",
        *_shaping(piece),
        *_stripes(piece),
        "Finished: " + ", ".join(f"{fit.measure} {shown(fit.worked, pattern.units)}" for fit in piece.fit) + ".",
        f"Row 1 is at the bottom; odd rows start at the {odd}, even rows at the {even}.",
        *(["What repeats is shown once in a bracket with its count."] if short else []),
    ]
    return " ".join(sentences)


def _shaping(piece: PiecePlan) -> list[str]:
    told = []
    for section in piece.sections:
        where = "" if section == "body" else f" of the {section}"
        for side in SIDES:
            moves = [row.edge(side).move for row in piece.section(section) if not piece.begins_section(row)]
            if any(move != "straight" for move in moves):
                runs = [f"{len(list(run))} {_PLAIN[move]}" for move, run in groupby(moves)]
                told.append(f"The {side} edge{where}, row by row: {', '.join(runs)}.")
    if len(piece.sections) > 1:
        told.append(f"After row {len(piece.section('body'))} a neck divides the piece into two shoulders.")
    return told or ["Both edges are straight."]


_PLAIN = {
    "straight": "straight",
    "decrease": "half a cluster less",
    "increase": "half a cluster more",
    "forced_decrease": "half a cluster less out of turn",
    "forced_increase": "half a cluster more out of turn",
    "step_in": "a step inwards",
    "step_out": "a step outwards",
}


def _stripes(piece: PiecePlan) -> list[str]:
    names = list(dict.fromkeys(row.colour for row in piece.rows if row.colour))
    if not names:
        return []
    return [f"Striped in {', '.join(names)}." if len(names) > 1 else f"All in {names[0]}."]


def how(pattern: Pattern, piece: PiecePlan, row: Row, side: Side) -> tuple[str, str]:
    """A caption for one edge of one row: which, and how it is worked there."""
    edge, starts = row.edge(side), row.starts == side
    dc, ch, slip = (terms.short(token, pattern.terms) for token in ("dc", "ch", "sl_st"))
    gap, closed = piece.fabric.gap, piece.fabric.gap == 0
    chains = stitches.turning_chain(piece.fabric, edge.kind)
    extra = f", 1 {dc} in the same place" if closed and edge.kind == "spaced" else ""
    turn = f"{ch} {chains}, turn{extra}"
    last = f"2 {dc}" if closed and edge.kind == "spaced" else dc
    lead = f"{ch} {gap}, " if gap and edge.kind == "spaced" else ""
    under = piece.below(row)
    if under is None:
        return _on_foundation(pattern, piece, row, side)
    spaced_below = under.edge(side).kind == "spaced"
    alone = under.clusters == 1
    between = "the gap beside the far edge" if alone else "the first gap between clusters"
    space = "the gap beside the edge" if spaced_below else between
    middle = "middle" if piece.fabric.cluster % 2 else "outer middle"
    stand = "in the gap" if edge.kind == "spaced" else f"in the {middle} {dc} of the cluster"
    after = f", {ch} {gap}" if gap else ""
    new = stitches.chained(piece.fabric, edge.step, "spaced" if spaced_below else "flush") if edge.step else 0
    first = stitches.first_chain(piece.fabric, edge.kind)
    begin = "join the yarn" if row.joined else f"turn, {row.counts.sl_st} {slip}"
    place = f" {stand}" if row.joined else ""
    ways: dict[Move, tuple[str, str]] = {
        "straight": (f"{turn}; the first cluster goes into {space}", f"{lead}{last} in the post below"),
        "decrease": (
            f"{turn}; the first cluster goes into {between}",
            f"after the last cluster, {dc} in the outermost {dc} of the last cluster below; its post stays unworked",
        ),
        "increase": (f"{turn}; the first cluster goes into the gap beside the edge", f"{lead}{last} in the post below"),
        "forced_decrease": (
            f"turn, {slip} into the gap beside the edge, {ch} {chains}{extra}; the first cluster goes into the next "
            f"gap",
            f"{lead}{last} in the gap beside the edge",
        ),
        "forced_increase": (
            f"{turn}, {piece.fabric.cluster} {dc} in the post{after}; then on into the first gap",
            f"after the last cluster, {ch} {gap}, {piece.fabric.cluster + 1} {dc} in the post"
            if gap
            else f"after the last cluster, {piece.fabric.cluster + 1} {dc} in the post",
        ),
        "step_in": (
            f"{begin}{place}, {ch} {chains}{extra}; the first cluster goes into the next gap",
            f"leave the rest of the row below unworked: {lead}{last} {stand} where the edge shall stand",
        ),
        "step_out": (
            f"{ch} {new} for the step, then {ch} {chains}, turn{extra}; the first {dc} of a cluster goes into chain "
            f"{first} from the hook",
            "",
        ),
    }
    words = ways[edge.move][0 if starts else 1]
    which = "start" if starts else "end"
    return f"Row {row.number}, {which} of the row: {_PLAIN[edge.move]}", words[:1].upper() + words[1:] + "."


def _on_foundation(pattern: Pattern, piece: PiecePlan, row: Row, side: Side) -> tuple[str, str]:
    """The same for row 1, whose stitches have a chain each."""
    edge, gap = row.edge(side), piece.fabric.gap
    dc, ch = (terms.short(token, pattern.terms) for token in ("dc", "ch"))
    if row.starts == side:
        first = stitches.first_chain(piece.fabric, edge.kind)
        words = (
            f"{ch} {piece.foundation_chain}; the first {dc} of a cluster goes into chain {first} from the hook, "
            f"each {dc} into a chain of its own"
        )
        which = "start"
    else:
        lead = f"{ch} {gap}, skip {gap} {ch}, " if gap and edge.kind == "spaced" else ""
        last = f"1 {dc} in each of the last 2 {ch}" if not gap and edge.kind == "spaced" else f"{dc} in the last {ch}"
        words, which = lead + last, "end"
    return f"Row {row.number}, {which} of the row: on the foundation chain", f"{words[:1].upper()}{words[1:]}."
