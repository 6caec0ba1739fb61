"""French as it is read back.

In: nothing. Out: tables of words and of phrases, in the form that ``tables`` tells.
"""

from __future__ import annotations

from typing import Final

WORDS: Final[dict[str, str]] = {
    "ch": "ml", "slip": "mc", "sc": "ms", "hdc": "demi-b", "dc": "b", "tr": "dbl-b", "cl": "gr", "rep": "mtf",
    "v": "pV", "shell": "coq", "sp": "esp", "Sp": "Esp", "st": "m", "tch": "mlt", "skip": "sauter", "yo": "jeté",
    "colors": "Couleurs", "terms": "termes français", "RS": "end", "WS": "env",
}  # fmt: skip

PHRASES: Final[dict[str, str]] = {
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
