"""German as it is read back.

In: nothing. Out: tables of words and of phrases, in the form that ``tables`` tells.
"""

from __future__ import annotations

from typing import Final

WORDS: Final[dict[str, str]] = {
    "ch": "Lm", "slip": "Km", "sc": "fM", "hdc": "hStb", "dc": "Stb", "tr": "DStb", "cl": "Gr", "rep": "Eh",
    "v": "VM", "shell": "Mu", "sp": "Zwr", "st": "M", "tch": "WLm", "skip": "übergehen", "yo": "U",
    "colors": "Farben", "terms": "deutschen Fachwörtern", "RS": "Hinr", "WS": "Rückr",
}  # fmt: skip

PHRASES: Final[dict[str, str]] = {
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
