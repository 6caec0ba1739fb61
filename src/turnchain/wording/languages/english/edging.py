"""What edgings say in English: their rows, places along edges, corners, buttonholes, yarn.

In: nothing. Out: ``EDGING``, phrases with {tokens} and {slots}; US and UK differ in the tokens alone.
"""

from __future__ import annotations

EDGING: dict[str, str] = {
    "edging.name": "Edging {number}, {name}",
    "edging.name.times": "Edging {number}, {name}, {times} times",
    "edging.told": "Edging {number}, {name}: {count} of {st}{yarn}.",
    "edging.told.tie": "Ties at its ends, {length} long.",
    "edging.told.strap": "Strap, {length} long.",
    "edging.chart.tie": "tie, {length}",
    "edging.chart.strap": "strap, {length}",
    "edging.rounds": (
        "{name}: {count} of {st} ({st_full}){yarn}. With the right side facing, each begins with {turning} {ch}, no "
        "stitch, and is joined with {sl_st_full} to its first {st}"
    ),
    "edging.rows": (
        "{name}: {count} of {st} ({st_full}){yarn}. Row 1 with the right side facing; each begins with {turning} {ch}, "
        "no stitch, and after each turn"
    ),
    "edging.yarn_of": " in {yarn}",
    "edging.count.round.one": "{n} round",
    "edging.count.round.many": "{n} rounds",
    "edging.count.row.one": "{n} row",
    "edging.count.row.many": "{n} rows",
    "edging.round": "Edging {number}, round {first}",
    "edging.round.to": "Edging {number}, rounds {first} to {last}",
    "edging.row": "Edging {number}, row {first}",
    "edging.row.to": "Edging {number}, rows {first} to {last}",
    "edging.first": "{row}: {sides}: {n} {st} in all, {length} long",
    "edging.later": "{row}: {how}: {n} {st}",
    "edging.side": "{edge} {n} {st} ({how})",
    "edging.side.times": "{side}, {times} times",
    "edging.side.part": "{edge}, {n} {st} ({how})",
    "edging.part": "{edge}, row ends {first} to {last}",
    "edging.corner.outer": "{n} in the corner",
    "edging.corner.inner": "{tog} over the corner inwards",
    "edging.tog": "{st}{n}tog",
    "edging.in.chain.one": "{n} in the chain of the foundation",
    "edging.in.chain.many": "{n} in each of {places} chains of the foundation",
    "edging.in.stitch.one": "{n} in the stitch",
    "edging.in.stitch.many": "{n} in each of {places} stitches and chains",
    "edging.in.row_end.one": "{n} in the row end",
    "edging.in.row_end.many": "{n} in each of {places} row ends",
    "edging.in.step.one": "{n} in the stitch of the step",
    "edging.in.step.many": "{n} in each of the {places} stitches of the step",
    "edging.in.straight.one": "{n} in the straight row end",
    "edging.in.straight.many": "{n} in each of {places} straight row ends",
    "edging.in.slant.one": "{n} in the slanting row end",
    "edging.in.slant.many": "{n} in each of {places} slanting row ends",
    "edging.in.kind.one": "{n} in the row end of {kind}",
    "edging.in.kind.many": "{n} in each of {places} row ends of {kind}",
    "edging.clusters": "clusters",
    "edging.clusters/rep": "repeats",
    "edging.more": "{how}, 1 more in {where}",
    "edging.fewer": "{how}, 1 fewer in {where}",
    "edging.skip": "{how}, skipping {where}",
    "edging.every.one": "every {nth} once",
    "edging.every.many": "every {nth} {n} times",
    "edging.middle": "the middle one",
    "edging.on": "1 {st} in each {st}",
    "edging.on.outer.one": "{corner} in the middle one of the corner",
    "edging.on.outer.many": "{corner} in the middle one of each of {n} corners",
    "edging.on.inner.one": "{tog} with its middle one in the corner inwards",
    "edging.on.inner.many": "{tog} with its middle one in each of {n} corners inwards",
    "edging.on.fewer": "{tog} at {where} with the one before it",
    "edging.on.more": "2 in {where}",
    "edging.on.before": "before corner 1 {how}",
    "edging.on.after": "after corner {n} {how}",
    "edging.counted": (
        "Stitches are counted in the row below: after a corner from the one that follows its middle, or those worked "
        "together there"
    ),
    "edging.holes.round": "Edging {number}, buttonholes in round {row} along {edge}: {first} {st}; {holes}",
    "edging.holes.row": "Edging {number}, buttonholes in row {row} along {edge}: {first} {st}; {holes}",
    "edging.holes.one": "once {over} {ch} over {over} skipped {st}; {st} to its end; in the next, 1 {st} in each {ch}",
    "edging.holes.many": (
        "{n} times {over} {ch} over {over} skipped {st}, between them {gaps}; {st} to its end; in the next, 1 {st} in "
        "each {ch}"
    ),
    "edging.holes.gap.one": "{gap} {st} once",
    "edging.holes.gap.many": "{gap} {st} {n} times",
    "edging.ties": (
        "Edging {number}, ties: at the end of its last row {chains} {ch}, 1 {sc} in the {nth} {ch} from the hook and "
        "in each {ch} back to the edge: {n} {sc}, {length} long; one more like it at the beginning of that row"
    ),
    "edging.strap.row": (
        "Edging {number}, strap: after its last {st} {chains} {ch}, {sl_st} in the first {st} of the last row, turn, 1 "
        "{sc} in each {ch}: {n} {sc}, {length} long"
    ),
    "edging.strap.round": (
        "Edging {number}, strap: after its last round {chains} {ch}, {sl_st} in the {nth} {st} of that round, turn, 1 "
        "{sc} in each {ch}: {n} {sc}, {length} long"
    ),
    "edging.assumed": (
        "how many {st} lie flat goes by the height of the rows: work 10 cm first; too few pull the edge in, too "
        "many ruffle it"
    ),
    "edging.yarn": "yarn for the edgings: about {amount}, a margin of {margin} % included",
}
