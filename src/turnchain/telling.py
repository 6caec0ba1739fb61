"""A chart told in words, for those who cannot see it.

In: a plan. Out: the alt text of a chart and the words for one row, in the pattern's terms.
"""

from __future__ import annotations

from itertools import groupby

from turnchain import terms
from turnchain.lattice import SIDES
from turnchain.plan import PiecePlan, Plan, Row
from turnchain.units import shown


def of_row(row: Row) -> str:
    """One row: number, yarn, clusters, where it starts."""
    plural = "cluster" if row.clusters == 1 else "clusters"
    yarn = f"{row.colour}, " if row.colour else ""
    return f"row {row.number}: {yarn}{row.clusters} {plural}, starts at the {row.starts}"


def of_chart(plan: Plan, piece: PiecePlan, short: bool = False) -> str:
    """The alt text of a piece's chart."""
    pattern = plan.pattern
    dc = terms.short("dc", pattern.terms)
    counts = [row.clusters for row in piece.rows]
    clusters = f"{counts[0]}" if min(counts) == max(counts) else f"{min(counts)} to {max(counts)}"
    odd, even = ("right", "left") if piece.rows[0].starts == "right" else ("left", "right")
    sentences = [
        f"{'Short stitch' if short else 'Stitch'} chart of {piece.name} from {pattern.title}: {piece.row_count} rows "
        f"of {clusters} clusters of {piece.fabric.cluster} {dc}, worked {piece.worked} from a chain of {piece.foundation_chain}.",
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
