"""English as it is read back, with US and UK terms.

In: nothing. Out: tables of words and of phrases, in the form that ``tables`` tells.
"""

from __future__ import annotations

from typing import Final

US: Final[dict[str, str]] = {
    "ch": "ch", "slip": "sl st", "sc": "sc", "hdc": "hdc", "dc": "dc", "tr": "tr", "cl": "cl", "rep": "rep",
    "v": "V", "shell": "sh", "sp": "sp", "Sp": "Sp", "st": "st", "tch": "tch", "skip": "skip", "yo": "yo",
    "colors": "Colors", "terms": "US terms", "RS": "RS", "WS": "WS",
}  # fmt: skip

UK: Final[dict[str, str]] = US | {
    "slip": "ss", "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "skip": "miss", "yo": "yrh",
    "colors": "Colours", "terms": "UK terms",
}  # fmt: skip

PHRASES: Final[dict[str, str]] = {
    "written": "Written in {terms}.",
    "heads": "Abbreviations|Special stitches|How to read the rows",
    "cluster": "Cluster ({cl}): <n> {dc} in the place named, ",
    "single": "Each {sp} takes 1 {dc}. ",
    "each_single": "Each {dc} is worked into 1 {dc} of the row below. ",
    "v_stitch": "V stitch ({v}): (<parts>) in the place named. ",
    "shell_stitch": "Shell ({shell}): <n> {dc} in the place named, ",
    "tch_first": "Turning chain ({tch}): the {ch} <m> that begins a row. Its first {ch} counts as ",
    "tch_counts": "Turning chain ({tch}): the {ch} <n> ",
    "tch_beside": "Turning chain ({tch}): the {ch} <m> that begins a row. Its first <n> {ch} ",
    "solid_apart": (
        "Rows of <stitch>: 1 <same> in every {st} of the row below, in every {ch} too. Their {tch} is {ch} <n> and "
        "does not count as a stitch."
    ),
    "solid_counts": (
        "Rows of <stitch>: 1 <same> in every {st} of the row below, in every {ch} too. Their {tch} is {ch} <n> and "
        "counts as the first <same2>."
    ),
    "solid_in": "<stitch> <place>",
    "solid_one": "<stitch> in next {st}",
    "solid_many": "<stitch> in each of next <n> {st}",
    "solid_chain": "<stitch> in next {ch}",
    "solid_chains": "<stitch> in each of next <n> {ch}",
    "skip_stitches": "{skip} <n> {st}",
    "part_solid": "<n> <stitch>",
    "at_next_stitch": "in next {st}",
    "tch_apart": "Turning chain ({tch}): the {ch} <n> that begins a row. It does not count as a stitch;",
    "open": "Space ({sp}): the {ch} between 2 {cl} ",
    "bare": "Edge stitch (edge {st}): a row has one only at an edge with a {sp}: ",
    "slit": "Space ({sp}): the {ch} between 2 {cl} of the row below. ",
    "no_own": "The foundation has no {ch} of its own under the first edge stitch: ",
    "closed": "Space ({sp}): the slit between 2 {cl} ",
    "about": "<rows> rows, worked <way>.",
    "sideways": "sideways",
    "upwards": "upwards",
    "alike": " Make <n> alike.",
    "one_yarn": " Work in <yarn> throughout.",
    "foundation": "Foundation: {ch} <n>",
    "foundation_in": "Foundation: with <yarn>, {ch} <n>",
    "on": (
        "Foundation: the other side of the <n> {ch} that <piece> stands on; no new {ch}. Hold <piece2> with "
        "these {ch} at the top, {RS} facing, and join the yarn in the first of them at the right."
    ),
    "on_in": (
        "Foundation: the other side of the <n> {ch} that <piece> stands on; no new {ch}. Hold <piece2> with "
        "these {ch} at the top, {RS} facing, and join <yarn> in the first of them at the right."
    ),
    "on_turning": "Work <t> {ch}, the {tch} of row 1; what row 1 counts from the hook goes on along these {ch}.",
    "armhole": (
        "Foundation: no {ch}; sew the shoulders first. {WS} of the body facing, join the yarn under the arm "
        "and work <n> {sc} along the armhole to the underarm, spread as the seams tell."
    ),
    "armhole_in": (
        "Foundation: no {ch}; sew the shoulders first. {WS} of the body facing, join <yarn> under the arm "
        "and work <n> {sc} along the armhole to the underarm, spread as the seams tell."
    ),
    "armhole_turning": (
        "Work <t> {ch}, the {tch} of row 1, and turn; row 1 takes these {sc} for its {ch}, and counts on "
        "from the {tch}."
    ),
    "sum_less": " (a multiple of <m> minus <p>: <t> × <m2> − <p2>)",
    "sum": " (a multiple of <m> plus <p>: <t> × <m2> + <p2>)",
    "turning": "The last <n> {ch} are the {tch} of row 1.",
    "turning_one": "The last {ch} is the {tch} of row 1.",
    "first": "first shoulder",
    "second": "second shoulder",
    "goes_on": "Rows <a> to <b> go over the first part of row <r> only. Leave the rest of row <r2> for now.",
    "goes_on_one": "Row <a> goes over the first part of row <r> only. Leave the rest of row <r2> for now.",
    "back": "Go back to row <r>, <side> facing. Work in the same direction as row <a> of the <section>.",
    "row": "Row <n> (<side>)",
    "row_in": "Row <n> (<side>, <yarn>)",
    "rows": "<range> (<side> and <other> in turn)",
    "rows_in": "<range> (<side> and <other> in turn, <yarn>)",
    "range_two": "Rows <a> and <b>",
    "range_many": "Rows <a> to <b>",
    "again": "Repeat <range>. ",
    "again_ending": "Repeat <range>, ending with row <end>. ",
    "count": "<n> {cl} (<parts>)",
    "each": "Each row: ",
    "turns": "Counts in turn: ",
    "part_dc": "<n> {dc}",
    "part_ch": "<n> {ch}",
    "part_slips": "<n> {slip}",
    "part_tch": "<n> {tch}",
    "half": "half a",
    "start_less": "at start: <amount> {rep} less",
    "start_more": "at start: <amount> {rep} more",
    "end_less": "at end: <amount> {rep} less",
    "end_more": "at end: <amount> {rep} more",
    "spaces_found": " {Sp} for next row, counted from its start: between <nth> and <after> {st}.",
    "spaces_each": (
        " {Sp} for next row, counted from its start: the first between <nth> and <after> {st}, "
        "then one after every <every> {st}."
    ),
    "change": "change to <yarn> in last {yo}",
    "change_row": " Change to <yarn> in last {yo} of row <n>.",
    "colors": " {colors}: ",
    "colors_end": "; change in last {yo} of the row before.",
    "stripe_one": "row <a> <yarn>",
    "stripe_two": "rows <a> and <b> <yarn>",
    "stripe_many": "rows <a> to <b> <yarn>",
    "cycle": "from row <a> over and over to row <b>: ",
    "begins": " (begins in rows <list>)",
    "and": " and ",
    "height_one": "<n> row <yarn>",
    "height_many": "<n> rows <yarn>",
    "off": " Fasten off.",
    "chain_new": "{ch} <n> (last <turning> {ch} are {tch})",
    "chain_new_one": "{ch} <n> (last {ch} is {tch})",
    "chain": "{ch} <n>",
    "turn": "turn",
    "slip_one": "{slip} in next {st}",
    "slip_many": "{slip} in each of next <n> {st}",
    "slip_into": "{slip} <place>",
    "dc_in": "{dc} <place>",
    "dcs_in": "<n> {dc} <place>",
    "together_in": "{dc}2tog <place> and <second>",
    "with_chain_in": "{dc} <place> (with the {ch} <n>: 1 {tch})",
    "cluster_in": "{cl} <place>",
    "cluster_dc_in": "({cl}, {dc}) <place>",
    "dc_cluster_in": "({dc}, {cl}) <place>",
    "chains_one": "{dc} in next {ch}",
    "chains_many": "{dc} in each of next <n> {ch}",
    "spaces_one": "{cl} in next {sp}",
    "spaces_many": "{cl} in each of next <n> {sp}",
    "units_many": "{cl} in each of next <n> {cl}",
    "unit_in_chain": "{cl} in next {ch}",
    "skip_chains": "{skip} <n> {ch}",
    "edge_passed": "{skip} edge {st}",
    "tip_passed": "{skip} first {st}",
    "skip_first": "{skip} first {cl}",
    "skip_next": "{skip} next {cl}",
    "skip_last": "{skip} last {cl}",
    "times": "] <n> times",
    "join": "join <yarn> <place> after the <section>",
    "join_skipped": "{skip} <n> {cl} after the <section>, join <yarn> <place>",
    "join_same": "join <yarn> <place> as the <section>",
    "some_yarn": "yarn",
    "leave_tch": "leave {tch} unworked",
    "leave_edge": "leave edge {st} unworked",
    "leave_clusters": "leave last <n> {cl} unworked",
    "leave_rest": "leave rest of row unworked",
    "at_hook": "in <nth> {ch} from hook",
    "at_last": "in last {ch}",
    "at_first_space": "in first {sp}",
    "at_next_space": "in next {sp}",
    "at_same_space": "in same {sp}",
    "at_dc_next": "in <nth> {dc} of next {cl}",
    "at_dc_same": "in <nth> {dc} of same {cl}",
    "at_last_dc": "in last {dc} of last {cl}",
    "at_top": "in <nth> {ch} of {tch}",
    "at_base": "in base of {tch}",
    "at_edge": "in edge {st}",
    "at_tip": "in first {st}",
    "at_half": "between edge {st} and {dc} beside it",
    "at_beside": "in {dc} beside edge {st}",
    "at_same_place": "in same place",
    "at_unit_next": "in next {cl}",
    "at_unit_same": "in same {cl}",
    "at_unit_last": "in last {cl}",
    "nth": r"\d+(?:st|nd|rd|th)",
}
