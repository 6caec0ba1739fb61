"""The phrases of the grammar in every language: this reader's own, not those that wrote the text.

In: nothing. Out: ``TABLES``, for every language its words and its phrases. {token} stands for a word of the column, <n>
for a number, <nth> for a number in order, <yarn> and <section> for names. {dc} is whichever stitch the fabric is made
of, {cl} that stitch too where each is worked by itself, {rep} what half of one more or less is told of. What is said in
a sentence of its own begins with a capital, which the reader undoes.
"""

from __future__ import annotations

from typing import TypeAlias

PhraseTable: TypeAlias = dict[str, str]

_US: PhraseTable = {
    "ch": "ch", "slip": "sl st", "sc": "sc", "hdc": "hdc", "dc": "dc", "tr": "tr", "cl": "cl", "rep": "rep",
    "v": "V", "shell": "sh", "sp": "sp", "Sp": "Sp", "st": "st", "tch": "tch", "skip": "skip", "yo": "yo",
    "colors": "Colors", "terms": "US terms", "RS": "RS", "WS": "WS",
}  # fmt: skip
_UK: PhraseTable = _US | {
    "slip": "ss", "sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "skip": "miss", "yo": "yrh",
    "colors": "Colours", "terms": "UK terms",
}  # fmt: skip
_DE: PhraseTable = {
    "ch": "Lm", "slip": "Km", "sc": "fM", "hdc": "hStb", "dc": "Stb", "tr": "DStb", "cl": "Gr", "rep": "Eh",
    "v": "VM", "shell": "Mu", "sp": "Zwr", "st": "M", "tch": "WLm", "skip": "übergehen", "yo": "U",
    "colors": "Farben", "terms": "deutschen Fachwörtern", "RS": "Hinr", "WS": "Rückr",
}  # fmt: skip

_FR: PhraseTable = {
    "ch": "ml", "slip": "mc", "sc": "ms", "hdc": "demi-b", "dc": "b", "tr": "dbl-b", "cl": "gr", "rep": "mtf",
    "v": "pV", "shell": "coq", "sp": "esp", "Sp": "Esp", "st": "m", "tch": "mlt", "skip": "sauter", "yo": "jeté",
    "colors": "Couleurs", "terms": "termes français", "RS": "end", "WS": "env",
}  # fmt: skip

_ENGLISH: PhraseTable = {
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

_GERMAN: PhraseTable = {
    "written": "Geschrieben mit {terms}.",
    "heads": "Abkürzungen|Besondere Maschen|So werden die Reihen gelesen",
    "cluster": "Gruppe ({cl}): <n> {dc} in die genannte Stelle, ",
    "cluster/st-f": "Gruppe ({cl}): <n> {dc} in die genannte Stelle, ",
    "single": "In jeden {sp} kommt 1 {dc}. ",
    "each_single": "Jede {dc} wird in eine {dc} der Vorreihe gehäkelt. ",
    "each_single/cl-n": "Jedes {dc} wird in ein {dc} der Vorreihe gehäkelt. ",
    "v_stitch": "V-Masche ({v}): (<parts>) in die genannte Stelle. ",
    "shell_stitch": "Muschel ({shell}): <n> {dc} in die genannte Stelle, ",
    "tch_first": "Wendeluftmaschen ({tch}): die <m> {ch}, mit denen eine Reihe beginnt. Die erste {ch} zählt als ",
    "tch_counts": "Wendeluftmaschen ({tch}): die <n> ",
    "tch_beside": "Wendeluftmaschen ({tch}): die <m> {ch}, mit denen eine Reihe beginnt. Die ersten <n> {ch} ",
    "solid_apart": (
        "Reihen aus <stitch>: 1 <same> in jede {st} der Vorreihe, auch in jede {ch}. Sie beginnen mit <n> {ch}, die "
        "nicht als Masche zählen."
    ),
    "solid_counts": (
        "Reihen aus <stitch>: 1 <same> in jede {st} der Vorreihe, auch in jede {ch}. Sie beginnen mit <n> {ch}, die "
        "als Randmasche zählen."
    ),
    "solid_in": "1 <stitch> <place>",
    "solid_one": "1 <stitch> in die nächste {st}",
    "solid_many": "je 1 <stitch> in die nächsten <n> {st}",
    "solid_chain": "1 <stitch> in die nächste {ch}",
    "solid_chains": "je 1 <stitch> in die nächsten <n> {ch}",
    "skip_stitches": "<n> {st} {skip}",
    "part_solid": "<n> <stitch>",
    "at_next_stitch": "in die nächste {st}",
    "tch_apart": "Wendeluftmaschen ({tch}): <n> {ch} am Anfang einer Reihe. Sie zählen nicht als Masche;",
    "open": "Zwischenraum ({sp}): die {ch} zwischen 2 {cl} ",
    "bare": "Randmasche: nur an einem Rand mit {sp} hat eine Reihe eine: ",
    "slit": "Zwischenraum ({sp}): die {ch} zwischen 2 {cl} der Vorreihe. ",
    "no_own": "Der Anschlag hat unter der ersten Randmasche keine eigene {ch}: ",
    "closed": "Zwischenraum ({sp}): der Schlitz zwischen 2 {cl} ",
    "about": "<rows> Reihen, <way> gehäkelt.",
    "sideways": "quer",
    "upwards": "aufwärts",
    "alike": " <n>-mal gleich häkeln.",
    "one_yarn": " Durchgehend in <yarn> häkeln.",
    "foundation": "Anschlag: <n> {ch}",
    "foundation_in": "Anschlag: <n> {ch} in <yarn>",
    "on": (
        "Anschlag: die andere Seite der <n> {ch}, auf denen <piece> steht; keine neuen {ch}. <piece2> so "
        "halten, dass diese {ch} oben liegen, rechte Seite vorn, und das Garn in der ersten rechts ansetzen."
    ),
    "on_in": (
        "Anschlag: die andere Seite der <n> {ch}, auf denen <piece> steht; keine neuen {ch}. <piece2> so "
        "halten, dass diese {ch} oben liegen, rechte Seite vorn, und <yarn> in der ersten rechts ansetzen."
    ),
    "on_turning": (
        "<t> {ch} häkeln, die {tch} der Reihe 1; was Reihe 1 von der Nadel aus zählt, geht auf diesen {ch} "
        "weiter."
    ),
    "armhole": (
        "Anschlag: keine {ch}; zuerst die Schultern nähen. Linke Seite des Körpers vorn, das Garn unter dem Arm "
        "ansetzen und <n> {sc} am Armausschnitt entlang bis wieder unter den Arm häkeln, verteilt wie bei den "
        "Nähten gesagt."
    ),
    "armhole_in": (
        "Anschlag: keine {ch}; zuerst die Schultern nähen. Linke Seite des Körpers vorn, <yarn> unter dem Arm "
        "ansetzen und <n> {sc} am Armausschnitt entlang bis wieder unter den Arm häkeln, verteilt wie bei den "
        "Nähten gesagt."
    ),
    "armhole_turning": (
        "<t> {ch} häkeln, die {tch} der Reihe 1, und wenden; Reihe 1 nimmt diese {sc} für ihre {ch} und "
        "zählt von der {tch} an weiter."
    ),
    "sum_less": " (ein Vielfaches von <m> minus <p>: <t> × <m2> − <p2>)",
    "sum": " (ein Vielfaches von <m> plus <p>: <t> × <m2> + <p2>)",
    "turning": "Die letzten <n> {ch} sind die {tch} der Reihe 1.",
    "turning_one": "Die letzte {ch} ist die {tch} der Reihe 1.",
    "first": "erste Schulter",
    "second": "zweite Schulter",
    "goes_on": (
        "Reihen <a> bis <b> nur über den ersten Teil der Reihe <r> häkeln. "
        "Der Rest der Reihe <r2> bleibt vorerst liegen."
    ),
    "goes_on_one": (
        "Reihe <a> nur über den ersten Teil der Reihe <r> häkeln. Der Rest der Reihe <r2> bleibt vorerst liegen."
    ),
    "back": "Zurück zur Reihe <r> (<side>). In derselben Richtung häkeln wie Reihe <a> (<section>).",
    "row": "Reihe <n> (<side>)",
    "row_in": "Reihe <n> (<side>, <yarn>)",
    "rows": "<range> (<side> und <other> im Wechsel)",
    "rows_in": "<range> (<side> und <other> im Wechsel, <yarn>)",
    "range_two": "Reihen <a> und <b>",
    "range_many": "Reihen <a> bis <b>",
    "again": "<range> wiederholen. ",
    "again_ending": "<range> wiederholen, mit Reihe <end> enden. ",
    "count": "<n> {cl} (<parts>)",
    "each": "Jede Reihe: ",
    "turns": "Zahlen im Wechsel: ",
    "part_dc": "<n> {dc}",
    "part_ch": "<n> {ch}",
    "part_slips": "<n> {slip}",
    "part_tch": "<n> {tch}",
    "half": "eine halbe",
    "start_less": "am Anfang: <amount> {rep} weniger",
    "start_more": "am Anfang: <amount> {rep} mehr",
    "end_less": "am Ende: <amount> {rep} weniger",
    "end_more": "am Ende: <amount> {rep} mehr",
    "spaces_found": " {sp} für die nächste Reihe, von deren Anfang gezählt: zwischen der <nth> und <after> {st}.",
    "spaces_each": (
        " {sp} für die nächste Reihe, von deren Anfang gezählt: der erste zwischen der <nth> und <after> {st}, "
        "dann einer nach je <every> {st}."
    ),
    "change": "mit dem letzten {yo} zu <yarn> wechseln",
    "change_row": " Mit dem letzten {yo} der Reihe <n> zu <yarn> wechseln.",
    "colors": " {colors}: ",
    "colors_end": "; jeweils mit dem letzten {yo} der Reihe davor wechseln.",
    "stripe_one": "Reihe <a> <yarn>",
    "stripe_two": "Reihen <a> und <b> <yarn>",
    "stripe_many": "Reihen <a> bis <b> <yarn>",
    "cycle": "ab Reihe <a> immer wieder bis Reihe <b>: ",
    "begins": " (Beginn in den Reihen <list>)",
    "and": " und ",
    "height_one": "<n> Reihe <yarn>",
    "height_many": "<n> Reihen <yarn>",
    "off": " Faden abschneiden und durchziehen.",
    "chain_new": "<n> {ch} (die letzten <turning> {ch} sind die {tch})",
    "chain_new_one": "<n> {ch} (die letzte {ch} ist die {tch})",
    "chain": "<n> {ch}",
    "turn": "wenden",
    "slip_one": "1 {slip} in die nächste {st}",
    "slip_many": "je 1 {slip} in die nächsten <n> {st}",
    "slip_into": "1 {slip} <place>",
    "dc_in": "1 {dc} <place>",
    "dcs_in": "<n> {dc} <place>",
    "together_in": "2 {dc} zus <place> und <second>",
    "with_chain_in": "1 {dc} <place> (mit den <n> {ch}: 1 {tch})",
    "cluster_in": "1 {cl} <place>",
    "cluster_dc_in": "(1 {cl}, 1 {dc}) <place>",
    "dc_cluster_in": "(1 {dc}, 1 {cl}) <place>",
    "chains_one": "1 {dc} in die nächste {ch}",
    "chains_many": "je 1 {dc} in die nächsten <n> {ch}",
    "spaces_one": "1 {cl} in den nächsten {sp}",
    "spaces_many": "je 1 {cl} in die nächsten <n> {sp}",
    "units_many": "je 1 {cl} in die nächsten <n> {cl}",
    "unit_in_chain": "1 {cl} in die nächste {ch}",
    "skip_chains": "<n> {ch} {skip}",
    "edge_passed": "Randmasche {skip}",
    "tip_passed": "1. {st} {skip}",
    "skip_first": "1. {cl} {skip}",
    "skip_next": "nächste {cl} {skip}",
    "skip_last": "letzte {cl} {skip}",
    "skip_next/cl-n": "nächstes {cl} {skip}",
    "skip_last/cl-n": "letztes {cl} {skip}",
    "times": "] <n>-mal",
    "join": "nach dem Abschnitt <section> <yarn> anschlingen <place>",
    "join_skipped": "nach dem Abschnitt <section> <n> {cl} {skip}, <yarn> anschlingen <place>",
    "join_same": "<yarn> anschlingen <place> wie der Abschnitt <section>",
    "some_yarn": "Garn",
    "leave_tch": "{tch} unbehäkelt lassen",
    "leave_edge": "Randmasche unbehäkelt lassen",
    "leave_clusters": "letzte <n> {cl} unbehäkelt lassen",
    "leave_rest": "Rest der Reihe unbehäkelt lassen",
    "at_hook": "in die <nth> {ch} ab Nadel",
    "at_last": "in die letzte {ch}",
    "at_first_space": "in den 1. {sp}",
    "at_next_space": "in den nächsten {sp}",
    "at_same_space": "in denselben {sp}",
    "at_dc_next": "in das <nth> {dc} der nächsten {cl}",
    "at_dc_same": "in das <nth> {dc} derselben {cl}",
    "at_last_dc": "in das letzte {dc} der letzten {cl}",
    "at_dc_next/st-f": "in die <nth> {dc} der nächsten {cl}",
    "at_dc_same/st-f": "in die <nth> {dc} derselben {cl}",
    "at_last_dc/st-f": "in die letzte {dc} der letzten {cl}",
    "at_top": "in die <nth> {ch} der {tch}",
    "at_base": "in den Fuß der {tch}",
    "at_edge": "in die Randmasche",
    "at_tip": "in die 1. {st}",
    "at_half": "zwischen Randmasche und {dc} daneben",
    "at_beside": "in das {dc} neben der Randmasche",
    "at_beside/st-f": "in die {dc} neben der Randmasche",
    "at_same_place": "in dieselbe Stelle",
    "at_unit_next": "in die nächste {cl}",
    "at_unit_same": "in dieselbe {cl}",
    "at_unit_last": "in die letzte {cl}",
    "at_unit_next/cl-n": "in das nächste {cl}",
    "at_unit_same/cl-n": "in dasselbe {cl}",
    "at_unit_last/cl-n": "in das letzte {cl}",
    "nth": r"\d+\.",
}

_FRENCH: PhraseTable = {
    "written": "Écrit en {terms}.",
    "heads": "Abréviations|Mailles spéciales|Comment lire les rangs",
    "cluster": "Groupe ({cl}) : <n> {dc} au même endroit, ",
    "single": "Chaque {sp} reçoit 1 {dc}. ",
    "each_single": "Chaque {dc} se pique dans une {dc} du rang précédent. ",
    "v_stitch": "Point en V ({v}) : (<parts>) au même endroit. ",
    "shell_stitch": "Coquille ({shell}) : <n> {dc} au même endroit, ",
    "tch_first": "Mailles pour tourner ({tch}) : les <m> {ch} qui commencent un rang. La première {ch} compte pour ",
    "tch_counts": "Mailles pour tourner ({tch}) : les <n> ",
    "tch_beside": "Mailles pour tourner ({tch}) : les <m> {ch} qui commencent un rang. Les <n> premières ",
    "solid_apart": (
        "Rangs de <stitch> : 1 <same> dans chaque {st} du rang précédent, dans chaque {ch} aussi. Ils commencent par "
        "<n> {ch} qui ne comptent pas pour une maille."
    ),
    "solid_counts": (
        "Rangs de <stitch> : 1 <same> dans chaque {st} du rang précédent, dans chaque {ch} aussi. Ils commencent par "
        "<n> {ch} qui comptent pour la maille de bord."
    ),
    "solid_in": "1 <stitch> <place>",
    "solid_one": "1 <stitch> dans la {st} suivante",
    "solid_many": "1 <stitch> dans chacune des <n> {st} suivantes",
    "solid_chain": "1 <stitch> dans la {ch} suivante",
    "solid_chains": "1 <stitch> dans chacune des <n> {ch} suivantes",
    "skip_stitches": "{skip} <n> {st}",
    "part_solid": "<n> <stitch>",
    "at_next_stitch": "dans la {st} suivante",
    "tch_apart": "Mailles pour tourner ({tch}) : <n> {ch} au début d'un rang. Elles ne comptent pas pour une maille ;",
    "open": "Espace ({sp}) : la {ch} entre 2 {cl} ",
    "bare": "Maille de bord : un rang n'en a une qu'à un bord avec {sp} : ",
    "slit": "Espace ({sp}) : la {ch} entre 2 {cl} du rang précédent. ",
    "no_own": "La chaînette de base n'a pas de {ch} à elle sous la première maille de bord : ",
    "closed": "Espace ({sp}) : la fente entre 2 {cl} ",
    "about": "<rows> rangs, crochetés <way>.",
    "sideways": "en travers",
    "upwards": "de bas en haut",
    "alike": " Faire <n> fois.",
    "one_yarn": " Crocheter tout en <yarn>.",
    "foundation": "Chaînette : <n> {ch}",
    "foundation_in": "Chaînette : <n> {ch} en <yarn>",
    "on": (
        "Chaînette : l'autre côté des <n> {ch} qui portent <piece> ; pas de nouvelles {ch}. Tenir <piece2> "
        "avec ces {ch} en haut, endroit devant, et joindre le fil dans la première à droite."
    ),
    "on_in": (
        "Chaînette : l'autre côté des <n> {ch} qui portent <piece> ; pas de nouvelles {ch}. Tenir <piece2> "
        "avec ces {ch} en haut, endroit devant, et joindre <yarn> dans la première à droite."
    ),
    "on_turning": (
        "Faire <t> {ch}, la {tch} du rang 1 ; ce que le rang 1 compte depuis le crochet continue le long de "
        "ces {ch}."
    ),
    "armhole": (
        "Chaînette : pas de {ch} ; coudre d'abord les épaules. Envers du corps devant, joindre le fil sous le "
        "bras et faire <n> {sc} le long de l'emmanchure jusque sous le bras, réparties comme le disent les coutures."
    ),
    "armhole_in": (
        "Chaînette : pas de {ch} ; coudre d'abord les épaules. Envers du corps devant, joindre <yarn> sous le "
        "bras et faire <n> {sc} le long de l'emmanchure jusque sous le bras, réparties comme le disent les coutures."
    ),
    "armhole_turning": (
        "Faire <t> {ch}, la {tch} du rang 1, et tourner ; le rang 1 prend ces {sc} pour ses {ch} et compte à "
        "partir de la {tch}."
    ),
    "sum_less": " (un multiple de <m> moins <p> : <t> × <m2> − <p2>)",
    "sum": " (un multiple de <m> plus <p> : <t> × <m2> + <p2>)",
    "turning": "Les <n> dernières {ch} sont les {tch} du rang 1.",
    "turning_one": "La dernière {ch} est la {tch} du rang 1.",
    "first": "première épaule",
    "second": "deuxième épaule",
    "goes_on": (
        "Les rangs <a> à <b> vont sur la première partie du rang <r> seulement. "
        "Laisser le reste du rang <r2> pour l'instant."
    ),
    "goes_on_one": (
        "Le rang <a> va sur la première partie du rang <r> seulement. Laisser le reste du rang <r2> pour l'instant."
    ),
    "back": "Revenir au rang <r> (<side>). Crocheter dans le même sens que le rang <a> (<section>).",
    "row": "Rang <n> (<side>) ",
    "row_in": "Rang <n> (<side>, <yarn>) ",
    "rows": "<range> (<side> et <other> en alternance) ",
    "rows_in": "<range> (<side> et <other> en alternance, <yarn>) ",
    "range_two": "Rangs <a> et <b>",
    "range_many": "Rangs <a> à <b>",
    "again": "Répéter les <range>. ",
    "again_ending": "Répéter les <range>, en finissant par le rang <end>. ",
    "count": "<n> {cl} (<parts>)",
    "each": "Chaque rang : ",
    "turns": "Comptes en alternance : ",
    "part_dc": "<n> {dc}",
    "part_ch": "<n> {ch}",
    "part_slips": "<n> {slip}",
    "part_tch": "<n> {tch}",
    "half": "un demi",
    "start_less": "au début : <amount> {rep} en moins",
    "start_more": "au début : <amount> {rep} en plus",
    "end_less": "à la fin : <amount> {rep} en moins",
    "end_more": "à la fin : <amount> {rep} en plus",
    "spaces_found": " {Sp} pour le rang suivant, comptés depuis son début : entre les <nth> et <after> {st}.",
    "spaces_each": (
        " {Sp} pour le rang suivant, comptés depuis son début : le premier entre les <nth> et <after> {st}, "
        "puis un toutes les <every> {st}."
    ),
    "change": "passer à <yarn> au dernier {yo}",
    "change_row": " Passer à <yarn> au dernier {yo} du rang <n>.",
    "colors": " {colors} : ",
    "colors_end": "; changer au dernier {yo} du rang d'avant.",
    "stripe_one": "rang <a> <yarn>",
    "stripe_two": "rangs <a> et <b> <yarn>",
    "stripe_many": "rangs <a> à <b> <yarn>",
    "cycle": "du rang <a> au rang <b> toujours : ",
    "begins": " (commence aux rangs <list>)",
    "and": " et ",
    "height_one": "<n> rang <yarn>",
    "height_many": "<n> rangs <yarn>",
    "off": " Arrêter le fil.",
    "chain_new": "<n> {ch} (les <turning> dernières {ch} sont les {tch})",
    "chain_new_one": "<n> {ch} (la dernière {ch} est la {tch})",
    "chain": "<n> {ch}",
    "turn": "tourner",
    "slip_one": "1 {slip} dans la {st} suivante",
    "slip_many": "1 {slip} dans chacune des <n> {st} suivantes",
    "slip_into": "1 {slip} <place>",
    "dc_in": "1 {dc} <place>",
    "dcs_in": "<n> {dc} <place>",
    "together_in": "2 {dc} ens <place> et <second>",
    "with_chain_in": "1 {dc} <place> (avec les <n> {ch} : 1 {tch})",
    "cluster_in": "1 {cl} <place>",
    "cluster_dc_in": "(1 {cl}, 1 {dc}) <place>",
    "dc_cluster_in": "(1 {dc}, 1 {cl}) <place>",
    "chains_one": "1 {dc} dans la {ch} suivante",
    "chains_many": "1 {dc} dans chacune des <n> {ch} suivantes",
    "spaces_one": "1 {cl} dans l'{sp} suivant",
    "spaces_many": "1 {cl} dans chacun des <n> {sp} suivants",
    "units_many": "1 {cl} dans chacun des <n> {cl} suivants",
    "units_many/cl-f": "1 {cl} dans chacune des <n> {cl} suivantes",
    "unit_in_chain": "1 {cl} dans la {ch} suivante",
    "skip_chains": "{skip} <n> {ch}",
    "edge_passed": "{skip} la maille de bord",
    "tip_passed": "{skip} la 1re {st}",
    "skip_first": "{skip} le premier {cl}",
    "skip_next": "{skip} le {cl} suivant",
    "skip_last": "{skip} le dernier {cl}",
    "skip_first/cl-f": "{skip} la première {cl}",
    "skip_next/cl-f": "{skip} la {cl} suivante",
    "skip_last/cl-f": "{skip} la dernière {cl}",
    "times": "] <n> fois",
    "join": "après la <section> rattacher <yarn> <place>",
    "join_skipped": "après la <section> {skip} <n> {cl}, rattacher <yarn> <place>",
    "join_same": "rattacher <yarn> <place> que la <section>",
    "some_yarn": "le fil",
    "leave_tch": "laisser les {tch} non crochetées",
    "leave_edge": "laisser la maille de bord non crochetée",
    "leave_clusters": "laisser les <n> derniers {cl} non crochetés",
    "leave_clusters/cl-f": "laisser les <n> dernières {cl} non crochetées",
    "leave_rest": "laisser le reste du rang non crocheté",
    "at_hook": "dans la <nth> {ch} à partir du crochet",
    "at_last": "dans la dernière {ch}",
    "at_first_space": "dans le premier {sp}",
    "at_next_space": "dans l'{sp} suivant",
    "at_same_space": "dans le même {sp}",
    "at_dc_next": "dans la <nth> {dc} du {cl} suivant",
    "at_dc_same": "dans la <nth> {dc} du même {cl}",
    "at_last_dc": "dans la dernière {dc} du dernier {cl}",
    "at_top": "dans la <nth> {ch} des {tch}",
    "at_base": "dans le pied des {tch}",
    "at_edge": "dans la maille de bord",
    "at_tip": "dans la 1re {st}",
    "at_half": "entre la maille de bord et la {dc} voisine",
    "at_beside": "dans la {dc} voisine de la maille de bord",
    "at_same_place": "au même endroit",
    "at_unit_next": "dans le {cl} suivant",
    "at_unit_same": "dans le même {cl}",
    "at_unit_last": "dans le dernier {cl}",
    "at_unit_next/cl-f": "dans la {cl} suivante",
    "at_unit_same/cl-f": "dans la même {cl}",
    "at_unit_last/cl-f": "dans la dernière {cl}",
    "nth": r"\d+(?:re|e)",
}

TABLES: dict[str, tuple[PhraseTable, PhraseTable]] = {
    "US": (_US, _ENGLISH),
    "UK": (_UK, _ENGLISH),
    "de": (_DE, _GERMAN),
    "fr": (_FR, _FRENCH),
}

#: The gender of the stitches and of "cl", where phrases depend on it: a key that ends in "/st-f" or "/cl-n" is for
#: those of another gender than dc and cl.
GENDERS: dict[str, dict[str, str]] = {
    "de": {"sc": "f", "hdc": "n", "dc": "n", "tr": "n", "cl": "f", "v": "f", "shell": "f"},
    "fr": {"sc": "f", "hdc": "f", "dc": "f", "tr": "f", "cl": "m", "v": "m", "shell": "f"},
}

STITCHES = ("sc", "hdc", "dc", "tr")
PLACES = tuple(key for key in _ENGLISH if key.startswith("at_"))  # the phrases for a place to work into
