"""What charts say in English: keys, captions, alt texts, the names of edges.

In: nothing. Out: ``CHARTS``, phrases with {tokens} and {slots}; US and UK differ in the tokens alone.
"""

from __future__ import annotations

CHARTS: dict[str, str] = {
    # Counting, measuring, sides.
    "counted.row.one": "{n} row",
    "counted.row.many": "{n} rows",
    "counted.cluster.one": "{n} cluster",
    "counted.cluster.many": "{n} clusters",
    "clusters.turn": "{least} and {most} clusters in turn",
    "clusters.range": "{least} to {most} clusters",
    "gauge": "{clusters} clusters and {rows} rows to {over}",
    "measure.width": "width",
    "measure.length": "length",
    "measure.height": "height",
    "measure.shoulder": "shoulder",
    "measure.first_shoulder": "first shoulder",
    "measure.second_shoulder": "second shoulder",
    "measure.neck_depth": "neck depth",
    "measure.neck_width": "neck width",
    "measure.width_in_row_1": "width in row 1",
    "measure.width_at": "width at {at}",
    "at.left": "left",
    "at.right": "right",
    "name.side_edge": "side edge",
    "name.side_seam": "side seam",
    "name.hem": "hem",
    "name.shoulder": "shoulder",
    "name.shoulders": "shoulders",
    "name.neck": "neck",
    "name.first_row": "first row",
    "name.last_row": "last row",
    "name.lower_edge": "lower edge",
    "name.upper_edge": "upper edge",
    "name.foundation": "{name}, foundation",
    # What an edge does, in keys, captions and alt texts alike.
    "move.straight": "straight",
    "move.decrease": "half a cluster less",
    "move.increase": "half a cluster more",
    "move.forced_decrease": "half a cluster less, irregular",
    "move.forced_increase": "half a cluster more, irregular",
    "move.step_in": "a step inwards",
    "move.step_out": "a step outwards",
    "caption.start": "Row {n}, start of the row: {move}",
    "caption.end": "Row {n}, end of the row: {move}",
    "caption.foundation": "on the foundation chain",
    "caption.after": "after the last {cl}: {steps}",
    "detail.left": "{title}: {piece}, row {n}, left edge",
    "detail.right": "{title}: {piece}, row {n}, right edge",
    "detail.hook": "the hook",
    # The whole chart.
    "chart": "stitch chart",
    "chart.short": "short chart",
    "chart.left_handed": "for left-handed makers",
    "chart.foundation": "{n} chains",
    "arrow.worn": "this way up when worn",
    "arrow.work": "direction of work",
    "arrow.up": "this way up",
    "bracket.across": "{n} of these clusters in every row that runs across",
    "bracket.rows": "rows {first} and {second} are worked {n} times, to row {last}, in the stripes shown",
    "bracket.key.across": "× {n} below: so many clusters stand there, in every row that runs across.",
    "bracket.key.rows": "× beside: two rows worked so many times, in the stripes shown: rows {repeats}.",
    "bracket.repeat": "{first} and {second} to row {last}",
    "alt.chart": (
        "Stitch chart of {piece} from {title}: {rows} of {clusters} of {k} {dc}, worked {worked} from a chain of "
        "{chains}."
    ),
    "alt.chart.short": (
        "Short stitch chart of {piece} from {title}: {rows} of {clusters} of {k} {dc}, worked {worked} from a chain of "
        "{chains}."
    ),
    "alt.straight": "Both edges are straight.",
    "alt.edge.left": "The left edge, row by row: {moves}.",
    "alt.edge.right": "The right edge, row by row: {moves}.",
    "alt.section.left": "The left edge of the {section}, row by row: {moves}.",
    "alt.section.right": "The right edge of the {section}, row by row: {moves}.",
    "alt.divided": "After row {row} a neck divides the piece into two shoulders.",
    "alt.striped": "Striped in {yarns}.",
    "alt.one_yarn": "All in {yarn}.",
    "alt.finished": "Finished: {measures}.",
    "alt.reading": "Row 1 is at the bottom; odd rows start at the {odd}, even rows at the {even}.",
    "alt.repeats": "What repeats is shown once in a bracket with its count.",
    "alt.row": "row {n}: {clusters}, starts at the {side}",
    "alt.row.yarn": "row {n}: {yarn}, {clusters}, starts at the {side}",
    # The key.
    "summary.worked": "worked {worked}",
    "summary.make": "make {n}",
    "key.symbols": "Symbols",
    "key.cluster": "cluster: {k} complete {dc} worked in one space, side by side with {k} tops",
    "key.tch": "turning chain: {ch} 3, counts as the first {dc}",
    "key.tch.spaced": "turning chain: {ch} 3, counts as the first {dc}; one chain more ({ch} 4) is the gap beside it",
    "key.reading": (
        "Read from the bottom up. A number stands where its row starts: odd rows, right side facing, at the {odd}, "
        "even rows at the {even}."
    ),
    "key.move.left": "{move}, at the left edge",
    "key.move.right": "{move}, at the right edge",
    "key.move.both": "{move}, at the left and at the right edge",
    "key.yarns": "Yarns",
    "key.stripes": "Stripes from row 1, with their rows: {stripes}",
    "key.stripes.again": "Stripes from row 1, with their rows: {stripes}, and so on",
    "key.carried": "A loop beside the edge: the yarn is carried up uncut; a square: it is joined.",
    "key.making": "To make it",
    "key.chains": "Chains to make",
    "key.chains.count": (
        "{n}, turning chain and a chain under each edge stitch included; first cluster from chain {into} from the hook"
    ),
    "key.gauge": "Gauge",
    "key.gauge.each": "{gauge} ({cluster} a cluster, {row} a row)",
    "key.finished": "Finished measures",
    "compact.cluster": "{k} complete {dc} in one space",
    "compact.tch": "first {dc}: {ch} 3",
    "compact.facts": "Chain {n}. {gauge}.",
    "credit.by": "by {name}",
    # The stripes.
    "stripes.worn": "as worn: the stripes of every piece",
    "stripes.title": "{title}: stripes",
    "stripes.alt": "The fabric of {title} as it will look: {pieces}.",
    "stripes.upright": "{piece} with vertical stripes of {yarns}",
    "stripes.level": "{piece} with horizontal stripes of {yarns}",
    "stripes.one_yarn": "one yarn",
}
