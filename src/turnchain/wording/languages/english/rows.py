"""The rows in English, and what explains them.

In: nothing. Out: ``ROWS``, phrases with {tokens} and {slots}, in the order of the grammar of ``words``.
"""

from __future__ import annotations

ROWS: dict[str, str] = {
    # The text around the rows.
    "written": "Written in {terms}.",
    "review": "Needs review by a native reader.",
    "abbreviations": "Abbreviations",
    "specials": "Special stitches",
    "reading": "How to read the rows",
    "special.cl": (
        "Cluster ({cl}): {k} {dc} in the place named, each one completed, so that they stand side by side with {k} "
        "tops. This is not the cluster whose stitches are joined at the top."
    ),
    "special.cl.chain": "On a new chain a {cl} is {k} {dc} in {k} {ch} side by side.",
    "special.cl.together": "On the foundation each {cl} is worked into 1 {ch}.",
    "special.cl.chain.closed": (
        "On a new chain a {cl} is {k} {dc} in {k} {ch} side by side, with a {sp} after every {k} of them."
    ),
    "special.single": (
        "Each {sp} takes 1 {dc}. The first, next and last {dc} of a row are those between its edge stitches; the count "
        "of a row begins with them."
    ),
    "special.each": (
        "Each {dc} is worked into 1 {dc} of the row below. The first, next and last {dc} of a row are those between "
        "its edge stitches; the count of a row begins with them."
    ),
    "special.v": (
        "V stitch ({cl}): ({inside}) in the place named. A {cl} in a {cl} of the row below goes into the {ch} in its "
        "middle."
    ),
    "special.shell": (
        "Shell ({cl}): {inside} in the place named, each one completed. A {cl} in a {cl} of the row below goes into "
        "the {dc} in its middle."
    ),
    "special.sp.open": (
        "Space ({sp}): the {ch} between 2 {cl} of the row below, or the {ch} beside the edge stitch. Work around "
        "the {ch}, not into it. There is no {sp} between an edge stitch and a {cl} right beside it."
    ),
    "special.sp.closed": (
        "Space ({sp}): the slit between 2 {cl} of the row below, or between the extra {dc} at an edge and the {cl} "
        "beside it. There is no {sp} beside an edge stitch itself."
    ),
    "special.sp.slit": (
        "Space ({sp}): the {ch} between 2 {cl} of the row below. Work around the {ch}, not into it. Beside an edge "
        "stitch there is no {sp}; a row says where a {cl} goes into the slit there."
    ),
    "special.sp.units": (
        "Space ({sp}): the slit between 2 {cl} of the row below, or between a {cl} and the {dc} beside it at an edge."
    ),
    "special.half": (
        "A {cl} between edge {st} and {dc} beside it goes into the slit next to the edge stitch, around no stitch."
    ),
    "special.together": (
        "{dc}2tog: work a {dc} into each of 2 places, each up to its last {yo}, then finish both with 1 {yo}, joined "
        "at the top; it counts as 1 {dc}."
    ),
    "special.with_chain": (
        "Where only {ch} {n} begins a row, it makes 1 stitch with the {dc} after it, joined at the top like 2 {dc} "
        "together; it counts as the {tch}, and the top of that {dc} is the top of the edge stitch."
    ),
    "special.tch.3": (
        "Turning chain ({tch}): the {ch} {n} that begins a row. It counts as a {dc}, the edge stitch; its {top} {ch} "
        "is the top of that stitch."
    ),
    "special.tch.4": (
        "Turning chain ({tch}): the {ch} {n} or {ch} {more} that begins a row. Its first {n} {ch} count as a {dc}, the "
        "edge stitch, and the {top} of them is the top of that stitch; the {nth} {ch} is the {sp} beside it."
    ),
    "special.tch.more": (
        "Turning chain ({tch}): the {ch} {n} or {ch} {more} that begins a row. Its first {n} {ch} count as a {dc}, the "
        "edge stitch, and the {top} of them is the top of that stitch; the {ch} after them are the {sp} beside it."
    ),
    "special.tch.beside": (
        "Turning chain ({tch}): the {ch} {more} that begins a row. Its first {n} {ch} count as a {dc}, the edge "
        "stitch, and the {top} of them is the top of that stitch; the {ch} after them lie beside it."
    ),
    "special.tch.apart": (
        "Turning chain ({tch}): the {ch} {n} that begins a row. It does not count as a stitch; the first {dc} of the "
        "row is the edge stitch."
    ),
    "special.bare": (
        "Edge stitch (edge {st}): a row has one only at an edge with a {sp}: the {tch} where it starts, a {dc} where "
        "it ends. At other edges a row starts or ends with a {cl}. A row that ends with a {cl} in the {sp} at an "
        "edge leaves the edge {st} there unworked."
    ),
    "special.tch.bare": (
        "Turning chain ({tch}): the {ch} {n} or {ch} {more} that begins a row. Its first {n} {ch} count as a {dc}, "
        "and the {top} of them is the top of that stitch. {ch} {more} is the edge stitch with the {sp} beside it; "
        "{ch} {n} is the first {dc} of a {cl}, and the {dc} in its base are the others."
    ),
    "special.tch.bare.closed": (
        "Turning chain ({tch}): the {ch} {n} that begins a row. It counts as a {dc}; its {top} {ch} is the top of "
        "that stitch. With 1 {dc} in its base it is the edge stitch; with {rest} {dc} there it is the first {dc} of "
        "a {cl}."
    ),
    "special.tch.bare.single": (
        "Turning chain ({tch}): the {ch} {more} that begins a row. Its first {n} {ch} count as a {dc}, the first "
        "{st} of the row, and the {top} of them is the top of that {st}; the {ch} after them are the {sp} beside it."
    ),
    "special.tch.bare.single.one": (
        "Turning chain ({tch}): the {ch} {more} that begins a row. Its first {ch} counts as a {dc}, the first {st} of "
        "the row; the {ch} after it are the {sp} beside it."
    ),
    "special.base": (
        "Base of {tch}: the place that the {tch} stands on; after turning, the last {dc} of the row below."
    ),
    "special.edge": (
        "Edge stitch (edge {st}): the stitch at either end of a row: the {tch} where the row starts, a {dc} where it "
        "ends."
    ),
    "special.solid.apart": (
        "Rows of {stitch}: 1 {stitch} in every {st} of the row below, in every {ch} too. Their {tch} is {ch} {n} and "
        "does not count as a stitch."
    ),
    "special.solid.counts": (
        "Rows of {stitch}: 1 {stitch} in every {st} of the row below, in every {ch} too. Their {tch} is {ch} {n} and "
        "counts as the first {stitch}."
    ),
    "special.edge.mixed": (
        "Edge stitch (edge {st}): the first and the last stitch of a row; a {tch} that counts is the first."
    ),
    "special.edge.mixed.apart": "Edge stitch (edge {st}): the first and the last stitch of a row.",
    "special.edge.apart": "Edge stitch (edge {st}): the {dc} at either end of a row.",
    "reading.sides": "Odd rows are {RS} rows, even rows {WS} rows.",
    "reading.chain": (
        "The foundation has a {ch} of its own under the edge stitch at each end; a pattern that leaves out the {ch} "
        "under the first one begins with 1 {ch} fewer."
    ),
    "reading.chain.bare": (
        "The foundation has a {ch} of its own under every {st} of row 1, the {tch} too; a pattern that leaves out "
        "the {ch} under that begins with 1 {ch} fewer."
    ),
    "reading.chain.beside": (
        "The foundation has no {ch} of its own under the first edge stitch: the {tch} stands beside the {ch} that is "
        "worked into first."
    ),
    "reading.count": (
        "The count closes each row: the {cl}, then in brackets its stitches with the edge stitches."
    ),
    "reading.count.tch": "The {tch} counts as 1 {tch}, and its {ch} are not counted again.",
    "reading.new_chain": "The {ch} of a new chain that makes a row wider count among its {ch}.",
    "reading.repeat": "[\N{NO-BREAK SPACE}]: work what is inside as often as the number after it says.",
    "reading.together": "( ) before a place: work all that is inside in that one place.",
    "reading.change": "To change {color}, work the last {yo} of the last stitch with the new yarn.",
    # Several sizes in one text.
    "sizes.only.one": "Size {names} only:",
    "sizes.only.many": "Sizes {names} only:",
    "sizes.how": (
        "Sizes: {sizes}. One figure alone is for all sizes. Where there are several, the first is for size {first} and "
        "those in brackets are for {others}, in this order. Within "
        "other brackets they stand in square ones. A dash (–): this is not for that size. Where a row or a sentence is "
        "for some sizes only, its figures are for those, in their order."
    ),
    # The piece.
    "piece": "{rows} rows, worked {worked}.",
    "worked.sideways": "sideways",
    "worked.upwards": "upwards",
    "make": "Make {n} alike.",
    "one_color": "Work in {name} throughout.",
    "foundation": "Foundation: {ch} {n}{sum}.",
    "foundation.color": "Foundation: with {name}, {ch} {n}{sum}.",
    "foundation.sum.less": " (a multiple of {multiple} minus {less}: {times} × {multiple} − {less})",
    "foundation.sum": " (a multiple of {multiple} plus {plus}: {times} × {multiple} + {plus})",
    "foundation.told.one": "The last {ch} is the {tch} of row 1.",
    "foundation.told.many": "The last {n} {ch} are the {tch} of row 1.",
    "foundation.on": (
        "Foundation: the other side of the {base} {ch} that {other} stands on; no new {ch}. Hold {other} "
        "with these {ch} at the top, {RS} facing, and join the yarn in the first of them at the right."
    ),
    "foundation.on.color": (
        "Foundation: the other side of the {base} {ch} that {other} stands on; no new {ch}. Hold {other} "
        "with these {ch} at the top, {RS} facing, and join {name} in the first of them at the right."
    ),
    "foundation.on.told.one": (
        "Work {n} {ch}, the {tch} of row 1; what row 1 counts from the hook goes on along these {ch}."
    ),
    "foundation.on.told.many": (
        "Work {n} {ch}, the {tch} of row 1; what row 1 counts from the hook goes on along these {ch}."
    ),
    "foundation.armhole": (
        "Foundation: no {ch}; sew the shoulders first. {WS} of the body facing, join the yarn under the arm "
        "and work {base} {sc} along the armhole to the underarm, spread as the seams tell."
    ),
    "foundation.armhole.color": (
        "Foundation: no {ch}; sew the shoulders first. {WS} of the body facing, join {name} under the arm "
        "and work {base} {sc} along the armhole to the underarm, spread as the seams tell."
    ),
    "foundation.armhole.told.one": (
        "Work {n} {ch}, the {tch} of row 1, and turn; row 1 takes these {sc} for its {ch}, and counts on "
        "from the {tch}."
    ),
    "foundation.armhole.told.many": (
        "Work {n} {ch}, the {tch} of row 1, and turn; row 1 takes these {sc} for its {ch}, and counts on "
        "from the {tch}."
    ),
    "section.first shoulder": "first shoulder",
    "section.second shoulder": "second shoulder",
    "section.goes_on": (
        "Rows {first} to {last} go over the first part of row {after} only. Leave the rest of row {after} for now."
    ),
    "section.goes_on.one": (
        "Row {first} goes over the first part of row {after} only. Leave the rest of row {after} for now."
    ),
    "section.joined": (
        "Go back to row {after}, {side} facing. Work in the same direction as row {first} of the {other}."
    ),
    "fasten_off": "Fasten off.",
    # The row.
    "row": "Row {n} ({side}): ",
    "row.color": "Row {n} ({side}, {name}): ",
    "rows": "{rows} ({side} and {other} in turn): ",
    "rows.color": "{rows} ({side} and {other} in turn, {name}): ",
    "rows.two": "Rows {first} and {last}",
    "rows.range": "Rows {first} to {last}",
    "again": "repeat {rows}",
    "again.ending": "repeat {rows}, ending with row {row}",
    "again.two": "rows {first} and {last}",
    "again.range": "rows {first} to {last}",
    "count": "{clusters} {cl} ({parts})",
    "count.one_row": "{count}.",
    "count.each": "Each row: {count}.",
    "count.turn": "Counts in turn: {counts}.",
    "part.dc": "{n} {dc}",
    "part.ch": "{n} {ch}",
    "part.sl_st": "{n} {sl_st}",
    "part.tch": "{n} {tch}",
    "part.solid": "{n} {stitch}",
    "half": "half a",
    "shaped.start.less": "at start: {amount} {rep} less",
    "shaped.start.more": "at start: {amount} {rep} more",
    "shaped.end.less": "at end: {amount} {rep} less",
    "shaped.end.more": "at end: {amount} {rep} more",
    "spaces.one": "{sp} for next row, counted from its start: between {nth} and {next} {st}.",
    "spaces.many": (
        "{sp} for next row, counted from its start: the first between {nth} and {next} {st}, then one after "
        "every {every} {st}."
    ),
    "change": "change to {name} in last {yo}",
    "change.row": "Change to {name} in last {yo} of row {row}.",
    "stripes": "{colors}: {list}; change in last {yo} of the row before.",
    "stripe.one": "row {first} {name}",
    "stripe.two": "rows {first} and {last} {name}",
    "stripe.range": "rows {first} to {last} {name}",
    "stripe.after": "row {first} {name}",
    "stripes.cycle": "from row {first} over and over to row {last}: {list} (begins in rows {begins})",
    "stripe.height.one": "{n} row {name}",
    "stripe.height.many": "{n} rows {name}",
    # The steps.
    "chain": "{ch} {n}",
    "chain.new": "{ch} {n} (last {turning} {ch} are {tch})",
    "chain.new.one": "{ch} {n} (last {ch} is {tch})",
    "turn": "turn",
    "slip_along.one": "{sl_st} in next {st}",
    "slip_along.many": "{sl_st} in each of next {n} {st}",
    "slip_into": "{sl_st} {place}",
    "work.dc": "{dc} {place}",
    "work.dcs": "{n} {dc} {place}",
    "work.together": "{dc}2tog {first} and {second}",
    "work.with_chain": "{dc} {place} (with the {ch} {n}: 1 {tch})",
    "work.cl": "{cl} {place}",
    "work.cl_and_dc": "({cl}, {dc}) {place}",
    "work.dc_and_cl": "({dc}, {cl}) {place}",
    "solid.in": "{stitch} {place}",
    "solid.stitches.one": "{stitch} in next {st}",
    "solid.stitches.many": "{stitch} in each of next {n} {st}",
    "solid.chains.one": "{stitch} in next {ch}",
    "solid.chains.many": "{stitch} in each of next {n} {ch}",
    "skip_stitches": "{skip} {n} {st}",
    "dc_in_chains.one": "{dc} in next {ch}",
    "dc_in_chains.many": "{dc} in each of next {n} {ch}",
    "cl_in_spaces.one": "{cl} in next {sp}",
    "cl_in_spaces.many": "{cl} in each of next {n} {sp}",
    "cl_in_units.one": "{cl} in next {cl}",
    "cl_in_units.many": "{cl} in each of next {n} {cl}",
    "skip_chains": "{skip} {n} {ch}",
    "skip_first": "{skip} first {st}",
    "skip_edge": "{skip} edge {st}",
    "skip_cluster.first": "{skip} first {cl}",
    "skip_cluster.next": "{skip} next {cl}",
    "skip_cluster.last": "{skip} last {cl}",
    "repeat": "[{steps}] {n} times",
    "join": "join {name} {place} after the {section}",
    "join.skipped": "{skip} {n} {cl} after the {section}, join {name} {place}",
    "join.same": "join {name} {place} as the {section}",
    "join.yarn": "yarn",
    "leave.tch": "leave {tch} unworked",
    "leave.edge": "leave edge {st} unworked",
    "leave.clusters": "leave last {n} {cl} unworked",
    "leave.rest": "leave rest of row unworked",
    # The places.
    "in.chain_from_hook": "in {nth} {ch} from hook",
    "in.next_chain": "in next {ch}",
    "in.next_stitch": "in next {st}",
    "in.last_chain": "in last {ch}",
    "in.space.first": "in first {sp}",
    "in.space.next": "in next {sp}",
    "in.space.same": "in same {sp}",
    "in.dc_of_cluster.next": "in {nth} {dc} of next {cl}",
    "in.dc_of_cluster.same": "in {nth} {dc} of same {cl}",
    "in.last_dc": "in last {dc} of last {cl}",
    "in.top": "in {nth} {ch} of {tch}",
    "in.base": "in base of {tch}",
    "in.first": "in first {st}",
    "in.edge": "in edge {st}",
    "in.half": "between edge {st} and {dc} beside it",
    "in.beside": "in {dc} beside edge {st}",
    "in.same_place": "in same place",
    "in.unit.next": "in next {cl}",
    "in.unit.same": "in same {cl}",
    "in.unit.last": "in last {cl}",
}
