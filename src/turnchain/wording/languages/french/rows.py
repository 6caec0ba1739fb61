"""The rows in French, and what explains them.

In: nothing. Out: ``ROWS``, phrases with {tokens} and {slots}, in the order of the grammar of ``words``.
"""

from __future__ import annotations

ROWS: dict[str, str] = {
    "written": "Écrit en {terms}.",
    "review": "Pas encore relu par une personne dont le français est la langue maternelle.",
    "abbreviations": "Abréviations",
    "specials": "Mailles spéciales",
    "reading": "Comment lire les rangs",
    "special.cl": (
        "Groupe ({cl}) : {k} {dc} au même endroit, chacune terminée, côte à côte avec {k} têtes. À ne pas confondre "
        "avec les {dc} rabattues ensemble."
    ),
    "special.cl.chain": "Sur une nouvelle chaînette un {cl} est fait de {k} {dc} dans {k} {ch} côte à côte.",
    "special.cl.together": "Sur la chaînette de base chaque {cl} se pique dans 1 {ch}.",
    "special.cl.chain.closed": (
        "Sur une nouvelle chaînette un {cl} est fait de {k} {dc} dans {k} {ch} côte à côte, avec un {sp} après chaque "
        "série de {k}."
    ),
    "special.single": (
        "Chaque {sp} reçoit 1 {dc}. La première, la suivante et la dernière {dc} d'un rang sont celles entre ses "
        "mailles de bord ; le compte d'un rang commence par elles."
    ),
    "special.sp.open/cl-f": (
        "Espace ({sp}) : la {ch} entre 2 {cl} du rang précédent, ou la {ch} à côté de la maille de bord. Crocheter "
        "autour de la {ch}, sans la piquer. Il n'y a pas d'{sp} entre une maille de bord et une {cl} juste à côté."
    ),
    "special.each": (
        "Chaque {dc} se pique dans une {dc} du rang précédent. La première, la suivante et la dernière {dc} d'un rang "
        "sont celles entre ses mailles de bord ; le compte d'un rang commence par elles."
    ),
    "special.v": (
        "Point en V ({cl}) : ({inside}) au même endroit. Un {cl} dans un {cl} du rang précédent se pique dans la {ch} "
        "en son milieu."
    ),
    "special.shell": (
        "Coquille ({cl}) : {inside} au même endroit, chacune terminée. Une {cl} dans une {cl} du rang précédent se "
        "pique dans la {dc} en son milieu."
    ),
    "special.sp.open": (
        "Espace ({sp}) : la {ch} entre 2 {cl} du rang précédent, ou la {ch} à côté de la maille de bord. Crocheter "
        "autour de la {ch}, sans la piquer. Il n'y a pas d'{sp} entre une maille de bord et un {cl} juste à côté."
    ),
    "special.sp.closed": (
        "Espace ({sp}) : la fente entre 2 {cl} du rang précédent, ou entre la {dc} de plus au bord et le {cl} à côté. "
        "Il n'y a pas d'{sp} à côté de la maille de bord elle-même."
    ),
    "special.sp.units": (
        "Espace ({sp}) : la fente entre 2 {cl} du rang précédent ou, au bord, entre {cl} et {dc} voisine."
    ),
    "special.sp.slit": (
        "Espace ({sp}) : la {ch} entre 2 {cl} du rang précédent. Crocheter autour de la {ch}, sans la piquer. Il n'y a "
        "pas d'{sp} à côté d'une maille de bord ; le rang dit où 1 {cl} se pique dans la fente qui s'y trouve."
    ),
    "special.half": (
        "1 {cl} entre la maille de bord et la {dc} voisine se pique dans la fente à côté de la maille de bord, dans "
        "aucune maille."
    ),
    "special.together": (
        "2 {dc} ens : à chacun des 2 endroits commencer 1 {dc} sans son dernier {yo}, puis terminer les 2 avec 1 {yo}, "
        "réunies en haut ; compte pour 1 {dc}."
    ),
    "special.with_chain": (
        "Quand un rang commence par {n} {ch} seulement, elles forment 1 maille avec la {dc} qui suit, réunies en haut "
        "comme 2 {dc} ensemble ; elle compte pour les {tch}, et la tête de cette {dc} est la tête de la maille de bord."
    ),
    "special.tch.3": (
        "Mailles pour tourner ({tch}) : les {n} {ch} qui commencent un rang. Elles comptent pour 1 {dc}, la maille de "
        "bord ; la {top} {ch} est la tête de cette maille."
    ),
    "special.tch.4": (
        "Mailles pour tourner ({tch}) : les {n} ou {more} {ch} qui commencent un rang. Les {n} premières comptent pour "
        "1 {dc}, la maille de bord, et la {top} est la tête de cette maille ; la {nth} {ch} est l'{sp} à côté."
    ),
    "special.tch.more": (
        "Mailles pour tourner ({tch}) : les {n} ou {more} {ch} qui commencent un rang. Les {n} premières comptent pour "
        "1 {dc}, la maille de bord, et la {top} est la tête de cette maille ; les {ch} suivantes sont l'{sp} à côté."
    ),
    "special.tch.beside": (
        "Mailles pour tourner ({tch}) : les {more} {ch} qui commencent un rang. Les {n} premières comptent pour 1 "
        "{dc}, la maille de bord, et la {top} est la tête de cette maille ; les {ch} suivantes sont à côté."
    ),
    "special.tch.apart": (
        "Mailles pour tourner ({tch}) : {n} {ch} au début d'un rang. Elles ne comptent pas pour une maille ; la "
        "première {dc} du rang est la maille de bord."
    ),
    "special.bare": (
        "Maille de bord : un rang n'en a une qu'à un bord avec {sp} : les {tch} là où il commence, une {dc} là où il "
        "finit. Aux autres bords, le rang commence ou finit par 1 {cl}. Un rang qui finit par 1 {cl} dans l'{sp} du "
        "bord y laisse la maille de bord non crochetée."
    ),
    "special.tch.bare": (
        "Mailles pour tourner ({tch}) : les {n} ou {more} {ch} qui commencent un rang. Les {n} premières comptent "
        "pour 1 {dc}, et la {top} est la tête de cette maille. {more} {ch} sont la maille de bord avec l'{sp} à côté "
        "; {n} {ch} sont la 1re {dc} d'un {cl}, et les {dc} dans leur pied sont les autres."
    ),
    "special.tch.bare.closed": (
        "Mailles pour tourner ({tch}) : les {n} {ch} qui commencent un rang. Elles comptent pour 1 {dc}, et la {top} "
        "est la tête de cette maille. Avec 1 {dc} dans leur pied, elles sont la maille de bord ; avec {rest} {dc}, "
        "la 1re {dc} d'un {cl}."
    ),
    "special.tch.bare.single": (
        "Mailles pour tourner ({tch}) : les {more} {ch} qui commencent un rang. Les {n} premières comptent pour 1 "
        "{dc}, la 1re {st} du rang, et la {top} est la tête de cette {st} ; les {ch} suivantes sont l'{sp} à côté."
    ),
    "special.tch.bare.single.one": (
        "Mailles pour tourner ({tch}) : les {more} {ch} qui commencent un rang. La première {ch} compte pour 1 {dc}, "
        "la 1re {st} du rang ; les {ch} suivantes sont l'{sp} à côté."
    ),
    "special.base": (
        "Pied des {tch} : l'endroit où reposent les {tch} ; une fois l'ouvrage tourné, la dernière {dc} du rang "
        "précédent."
    ),
    "special.edge": (
        "Maille de bord : la maille à chaque bout d'un rang : les {tch} là où le rang commence, une {dc} là "
        "où il finit."
    ),
    "special.solid.apart": (
        "Rangs de {stitch} : 1 {stitch} dans chaque {st} du rang précédent, dans chaque {ch} aussi. Ils commencent par "
        "{n} {ch} qui ne comptent pas pour une maille."
    ),
    "special.solid.counts": (
        "Rangs de {stitch} : 1 {stitch} dans chaque {st} du rang précédent, dans chaque {ch} aussi. Ils commencent par "
        "{n} {ch} qui comptent pour la maille de bord."
    ),
    "special.edge.mixed": (
        "Maille de bord : la première et la dernière maille d'un rang ; des {tch} qui comptent sont la première."
    ),
    "special.edge.mixed.apart": "Maille de bord : la première et la dernière maille d'un rang.",
    "special.edge.apart": "Maille de bord : la {dc} à chaque bout d'un rang.",
    "reading.sides": "Rangs impairs : {RS} ; rangs pairs : {WS}.",
    "reading.chain": (
        "La chaînette de base a une {ch} à elle sous la maille de bord à chaque bout ; un modèle qui n'en prévoit pas "
        "sous la première commence avec 1 {ch} de moins."
    ),
    "reading.chain.bare": (
        "La chaînette de base a une {ch} à elle sous chaque {st} du rang 1, les {tch} aussi ; un modèle qui n'en "
        "prévoit pas sous celles-ci commence avec 1 {ch} de moins."
    ),
    "reading.chain.beside": (
        "La chaînette de base n'a pas de {ch} à elle sous la première maille de bord : les {tch} se tiennent à côté de "
        "la {ch} que l'on pique d'abord."
    ),
    "reading.count": (
        "Le compte termine chaque rang : les {cl}, puis entre parenthèses les mailles avec les mailles de bord."
    ),
    "reading.count.tch": "Les {tch} comptent pour 1 {tch}, et leurs {ch} ne sont pas comptées de nouveau.",
    "reading.new_chain": "Les {ch} d'une nouvelle chaînette qui élargit un rang comptent parmi ses {ch}.",
    "reading.repeat": (
        "[\N{NO-BREAK SPACE}]\N{NO-BREAK SPACE}: crocheter ce qui est dedans autant de fois que le dit le nombre qui "
        "suit."
    ),
    "reading.together": "( ) devant un endroit : crocheter tout ce qui est dedans à ce seul endroit.",
    "reading.change": "Pour changer de {color}, faire le dernier {yo} de la dernière maille avec le nouveau fil.",
    # Plusieurs tailles dans un texte.
    "sizes.only.one": "Taille {names} seulement :",
    "sizes.only.many": "Tailles {names} seulement :",
    "sizes.how": (
        "Tailles : {sizes}. Un nombre seul vaut pour toutes les tailles. Sinon le premier est pour la taille {first}, "
        "et ceux entre parenthèses sont pour {others}, dans cet ordre. Entre "
        "d'autres parenthèses, ils sont entre crochets. Un tiret (–) : ne concerne pas cette taille. Là où un rang ou "
        "une phrase n'est que pour certaines tailles, les nombres sont pour celles-ci, dans leur ordre."
    ),
    "piece": "{rows} rangs, crochetés {worked}.",
    "worked.sideways": "en travers",
    "worked.upwards": "de bas en haut",
    "make": "Faire {n} fois.",
    "one_color": "Crocheter tout en {name}.",
    "foundation": "Chaînette : {n} {ch}{sum}.",
    "foundation.color": "Chaînette : {n} {ch} en {name}{sum}.",
    "foundation.sum.less": " (un multiple de {multiple} moins {less} : {times} × {multiple} − {less})",
    "foundation.sum": " (un multiple de {multiple} plus {plus} : {times} × {multiple} + {plus})",
    "foundation.told.one": "La dernière {ch} est la {tch} du rang 1.",
    "foundation.told.many": "Les {n} dernières {ch} sont les {tch} du rang 1.",
    "foundation.on": (
        "Chaînette : l'autre côté des {base} {ch} qui portent {other} ; pas de nouvelles {ch}. Tenir {other} "
        "avec ces {ch} en haut, endroit devant, et joindre le fil dans la première à droite."
    ),
    "foundation.on.color": (
        "Chaînette : l'autre côté des {base} {ch} qui portent {other} ; pas de nouvelles {ch}. Tenir {other} "
        "avec ces {ch} en haut, endroit devant, et joindre {name} dans la première à droite."
    ),
    "foundation.on.told.one": (
        "Faire {n} {ch}, la {tch} du rang 1 ; ce que le rang 1 compte depuis le crochet continue le long de "
        "ces {ch}."
    ),
    "foundation.on.told.many": (
        "Faire {n} {ch}, la {tch} du rang 1 ; ce que le rang 1 compte depuis le crochet continue le long de "
        "ces {ch}."
    ),
    "foundation.armhole": (
        "Chaînette : pas de {ch} ; coudre d'abord les épaules. Envers du corps devant, joindre le fil sous le "
        "bras et faire {base} {sc} le long de l'emmanchure jusque sous le bras, réparties comme le disent les coutures."
    ),
    "foundation.armhole.color": (
        "Chaînette : pas de {ch} ; coudre d'abord les épaules. Envers du corps devant, joindre {name} sous le "
        "bras et faire {base} {sc} le long de l'emmanchure jusque sous le bras, réparties comme le disent les coutures."
    ),
    "foundation.armhole.told.one": (
        "Faire {n} {ch}, la {tch} du rang 1, et tourner ; le rang 1 prend ces {sc} pour ses {ch} et compte à "
        "partir de la {tch}."
    ),
    "foundation.armhole.told.many": (
        "Faire {n} {ch}, la {tch} du rang 1, et tourner ; le rang 1 prend ces {sc} pour ses {ch} et compte à "
        "partir de la {tch}."
    ),
    "section.first shoulder": "première épaule",
    "section.second shoulder": "deuxième épaule",
    "section.goes_on": (
        "Les rangs {first} à {last} vont sur la première partie du rang {after} seulement. Laisser le reste du rang "
        "{after} pour l'instant."
    ),
    "section.goes_on.one": (
        "Le rang {first} va sur la première partie du rang {after} seulement. Laisser le reste du rang {after} pour "
        "l'instant."
    ),
    "section.joined": (
        "Revenir au rang {after} ({side}). Crocheter dans le même sens que le rang {first} ({other})."
    ),
    "fasten_off": "Arrêter le fil.",
    "row": "Rang {n} ({side}) : ",
    "row.color": "Rang {n} ({side}, {name}) : ",
    "rows": "{rows} ({side} et {other} en alternance) : ",
    "rows.color": "{rows} ({side} et {other} en alternance, {name}) : ",
    "rows.two": "Rangs {first} et {last}",
    "rows.range": "Rangs {first} à {last}",
    "again": "répéter les {rows}",
    "again.ending": "répéter les {rows}, en finissant par le rang {row}",
    "again.two": "rangs {first} et {last}",
    "again.range": "rangs {first} à {last}",
    "count": "{clusters} {cl} ({parts})",
    "count.one_row": "{count}.",
    "count.each": "Chaque rang : {count}.",
    "count.turn": "Comptes en alternance : {counts}.",
    "part.dc": "{n} {dc}",
    "part.ch": "{n} {ch}",
    "part.sl_st": "{n} {sl_st}",
    "part.tch": "{n} {tch}",
    "part.solid": "{n} {stitch}",
    "half": "un demi",
    "shaped.start.less": "au début : {amount} {rep} en moins",
    "shaped.start.more": "au début : {amount} {rep} en plus",
    "shaped.end.less": "à la fin : {amount} {rep} en moins",
    "shaped.end.more": "à la fin : {amount} {rep} en plus",
    "spaces.one": "{sp} pour le rang suivant, comptés depuis son début : entre les {nth} et {next} {st}.",
    "spaces.many": (
        "{sp} pour le rang suivant, comptés depuis son début : le premier entre les {nth} et {next} {st}, puis un "
        "toutes les {every} {st}."
    ),
    "change": "passer à {name} au dernier {yo}",
    "change.row": "Passer à {name} au dernier {yo} du rang {row}.",
    "stripes": "{colors} : {list}; changer au dernier {yo} du rang d'avant.",
    "stripe.one": "rang {first} {name}",
    "stripe.two": "rangs {first} et {last} {name}",
    "stripe.range": "rangs {first} à {last} {name}",
    "stripe.after": "rang {first} {name}",
    "stripes.cycle": "du rang {first} au rang {last} toujours : {list} (commence aux rangs {begins})",
    "stripe.height.one": "{n} rang {name}",
    "stripe.height.many": "{n} rangs {name}",
    "chain": "{n} {ch}",
    "chain.new": "{n} {ch} (les {turning} dernières {ch} sont les {tch})",
    "chain.new.one": "{n} {ch} (la dernière {ch} est la {tch})",
    "turn": "tourner",
    "slip_along.one": "1 {sl_st} dans la {st} suivante",
    "slip_along.many": "1 {sl_st} dans chacune des {n} {st} suivantes",
    "slip_into": "1 {sl_st} {place}",
    "work.dc": "1 {dc} {place}",
    "work.dcs": "{n} {dc} {place}",
    "work.together": "2 {dc} ens {first} et {second}",
    "work.with_chain": "1 {dc} {place} (avec les {n} {ch} : 1 {tch})",
    "work.cl": "1 {cl} {place}",
    "work.cl_and_dc": "(1 {cl}, 1 {dc}) {place}",
    "work.dc_and_cl": "(1 {dc}, 1 {cl}) {place}",
    "solid.in": "1 {stitch} {place}",
    "solid.stitches.one": "1 {stitch} dans la {st} suivante",
    "solid.stitches.many": "1 {stitch} dans chacune des {n} {st} suivantes",
    "solid.chains.one": "1 {stitch} dans la {ch} suivante",
    "solid.chains.many": "1 {stitch} dans chacune des {n} {ch} suivantes",
    "skip_stitches": "{skip} {n} {st}",
    "dc_in_chains.one": "1 {dc} dans la {ch} suivante",
    "dc_in_chains.many": "1 {dc} dans chacune des {n} {ch} suivantes",
    "cl_in_spaces.one": "1 {cl} dans l'{sp} suivant",
    "cl_in_spaces.many": "1 {cl} dans chacun des {n} {sp} suivants",
    "cl_in_units.one": "1 {cl} dans le {cl} suivant",
    "cl_in_units.one/cl-f": "1 {cl} dans la {cl} suivante",
    "cl_in_units.many": "1 {cl} dans chacun des {n} {cl} suivants",
    "cl_in_units.many/cl-f": "1 {cl} dans chacune des {n} {cl} suivantes",
    "skip_chains": "{skip} {n} {ch}",
    "skip_first": "{skip} la 1re {st}",
    "skip_edge": "{skip} la maille de bord",
    "skip_cluster.first": "{skip} le premier {cl}",
    "skip_cluster.next": "{skip} le {cl} suivant",
    "skip_cluster.last": "{skip} le dernier {cl}",
    "skip_cluster.first/cl-f": "{skip} la première {cl}",
    "skip_cluster.next/cl-f": "{skip} la {cl} suivante",
    "skip_cluster.last/cl-f": "{skip} la dernière {cl}",
    "repeat": "[{steps}] {n} fois",
    "join": "après la {section} rattacher {name} {place}",
    "join.skipped": "après la {section} {skip} {n} {cl}, rattacher {name} {place}",
    "join.same": "rattacher {name} {place} que la {section}",
    "join.yarn": "le fil",
    "leave.tch": "laisser les {tch} non crochetées",
    "leave.edge": "laisser la maille de bord non crochetée",
    "leave.clusters/cl-f": "laisser les {n} dernières {cl} non crochetées",
    "leave.clusters": "laisser les {n} derniers {cl} non crochetés",
    "leave.rest": "laisser le reste du rang non crocheté",
    "in.chain_from_hook": "dans la {nth} {ch} à partir du crochet",
    "in.next_chain": "dans la {ch} suivante",
    "in.next_stitch": "dans la {st} suivante",
    "in.last_chain": "dans la dernière {ch}",
    "in.space.first": "dans le premier {sp}",
    "in.space.next": "dans l'{sp} suivant",
    "in.space.same": "dans le même {sp}",
    "in.dc_of_cluster.next": "dans la {nth} {dc} du {cl} suivant",
    "in.dc_of_cluster.same": "dans la {nth} {dc} du même {cl}",
    "in.last_dc": "dans la dernière {dc} du dernier {cl}",
    "in.top": "dans la {nth} {ch} des {tch}",
    "in.base": "dans le pied des {tch}",
    "in.first": "dans la 1re {st}",
    "in.edge": "dans la maille de bord",
    "in.half": "entre la maille de bord et la {dc} voisine",
    "in.beside": "dans la {dc} voisine de la maille de bord",
    "in.same_place": "au même endroit",
    "in.unit.next": "dans le {cl} suivant",
    "in.unit.same": "dans le même {cl}",
    "in.unit.last": "dans le dernier {cl}",
    "in.unit.next/cl-f": "dans la {cl} suivante",
    "in.unit.same/cl-f": "dans la même {cl}",
    "in.unit.last/cl-f": "dans la dernière {cl}",
}
