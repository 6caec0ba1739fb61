"""What the parts of a pattern around its rows say in French: materials, seams, finishing, schematic, headings.

In: nothing. Out: ``MAKING_UP``, phrases with {tokens} and {slots}.
"""

from __future__ import annotations

MAKING_UP: dict[str, str] = {
    "page.contents": "Sommaire",
    "page.materials": "Fournitures",
    "page.size": "Taille",
    "page.schematic": "Schéma",
    "page.written": "Comment les rangs sont écrits",
    "page.edges": "Comment crocheter le bord",
    "page.rows": "{piece} : les rangs",
    "page.checklist": "{piece} : rangs à cocher",
    "page.finishing": "Finitions",
    "page.cautions": "Précautions",
    "page.piece": "partie",
    "page.measure": "mesure",
    "span.range": "{least} à {most}",
    "span.at_most": "au plus {most}",
    "materials.any_yarn": "fil : tout fil qui donne l'échantillon",
    "materials.yarn": "fil {letter}, {name} ({colour})",
    "materials.yarn.amount": "fil {letter}, {name} ({colour}) : {amount}",
    "materials.yarn.estimate": "fil {letter}, {name} ({colour}) : estimé à {amount}",
    "materials.balls.one": "{n} pelote",
    "materials.balls.many": "{n} pelotes",
    "materials.shopping": "liste d'achats, estimée tant qu'aucun échantillon n'est pesé : {balls}",
    "materials.shopping.yarn": "{yarn} {balls} de {weight}",
    "materials.any_hook": "crochet : la taille qui donne l'échantillon",
    "materials.hook": "crochet : {hooks}, ou la taille qui donne l'échantillon",
    "materials.hook.us": "{mm} mm (US {label})",
    "materials.gauge": "échantillon : {gauge}, compté sur un échantillon traité comme l'ouvrage le sera",
    "materials.notions": "mercerie : aiguille à laine, ciseaux, mètre ruban, épingles inoxydables pour le blocage",
    "materials.notions.markers": (
        "mercerie : aiguille à laine, ciseaux, mètre ruban, épingles inoxydables pour le blocage, anneaux marqueurs"
    ),
    "run.first": "premier rang",
    "run.last": "dernier rang",
    "run.left": "bord gauche",
    "run.right": "bord droit",
    "run.lower": "bord du bas",
    "run.upper": "bord du haut",
    "run.neck": "encolure",
    "run.shoulder": "épaule",
    "run.of": "{piece}, {edge}",
    "kind.shoulder": "épaule",
    "kind.sleeve_top": "haut de manche",
    "kind.side": "côté",
    "kind.sleeve": "manche",
    "kind.seam": "couture",
    "kind.neck": "encolure",
    "kind.armhole": "emmanchure",
    "kind.lower_edge": "bord du bas",
    "kind.cuff": "poignet",
    "kind.open_edge": "bord libre",
    "kind.all_round": "tout autour",
    "finishing.blocking": "Blocage",
    "finishing.seams": "Coutures, dans cet ordre",
    "finishing.border": "Bordure",
    "finishing.ends": "Fils",
    "blocking.how": (
        "laine et fibres végétales : laver ou tremper, presser l'eau dans une serviette, épingler aux mesures "
        "ci-dessous et laisser sécher. Acrylique : laver et sécher à plat ; un fer chaud l'abîme pour toujours. Suivre "
        "l'étiquette du fil"
    ),
    "blocking.swatch": "les mesures valent pour un ouvrage traité comme l'était l'échantillon quand on l'a compté",
    "seam": "{letter}, {kind} : {meeting}",
    "seam.uneven": "{letter}, {kind} : {meeting} ; {apart}",
    "seam.meeting": "{one}, {counted}, avec {other}, {met}",
    "seam.edges": "{one} avec {other}",
    "seam.row": "rang {first}",
    "seam.rows": "rangs {first} à {last}",
    "seam.clusters.one": "{n} groupe",
    "seam.clusters.many": "{n} groupes",
    "seam.agrees": "ils s'accordent",
    "seam.agrees.rows": "ils s'accordent, rang pour rang",
    "seam.as_long": "ils sont aussi longs, mais {edge} a {more} de plus ; répartir le long de la couture",
    "seam.longer.eased": "{edge} est plus long de {length} ; répartir le long de la couture",
    "seam.longer.eased.by": "{edge} est plus long de {length} ({more}) ; répartir le long de la couture",
    "seam.longer.left": "{edge} est plus long de {length}, plus qu'une couture n'absorbe : laisser le reste ouvert",
    "seam.longer.left.by": (
        "{edge} est plus long de {length} ({more}), plus qu'une couture n'absorbe : laisser le reste ouvert"
    ),
    "seam.how": (
        "endroit à l'extérieur, au point de matelas, en {sl_st_full} ou en {sc_full} ; rang sur rang là où les deux "
        "côtés ont des rangs, pour que les rayures se rencontrent"
    ),
    "border.how": (
        "{sc} veut dire {sc_full}. Un même nombre gardé tout le long d'un bord reste plat : trop peu de {sc} "
        "resserrent, trop de {sc} froncent. Aux tours suivants crocheter 1 {sc} dans chacune, et {corner} dans celle "
        "du milieu de chaque coin"
    ),
    "border": "{name} : {sides} : {n} {sc} en tout",
    "border.times": "{name}, {times} fois : {sides} : {n} {sc} en tout",
    "border.side": "{edge} {n} {sc} ({how})",
    "border.corners": "{corner} dans chacun des {n} coins",
    "border.foundation": "1 dans chaque maille de la chaînette",
    "border.row_tops": "1 dans chaque maille et chaque maille en l'air",
    "border.row_ends": "{n} dans chaque bout de rang",
    "border.slant": "{n} dans chaque bout de rang droit, selon la longueur là où les rangs sont en biais",
    "border.steps": "{how}, 1 dans chacune des {n} mailles de ses marches",
    "border.length": "longueur : {length}",
    "border.yarn.unknown": "peser un échantillon pour savoir combien de fil il faut",
    "border.yarn": (
        "fil pour un tour de {sc} sur chaque bord nommé : environ {amount}, compté comme un ouvrage de la longueur de "
        "la bordure et haut d'un demi-rang, du poids de l'échantillon, avec {margin} % en plus"
    ),
    "border.yarn.of": "{weight} de {yarn}",
    "ends.cut": "{n} fils à rentrer quand chaque rayure est coupée, 2 par rayure",
    "ends.cut.each": "{n} fils à rentrer quand chaque rayure est coupée, 2 par rayure ({each})",
    "ends.carried": "{n} fils quand chaque fil monte le long du bord aussi loin qu'il peut",
    "ends.tails": "laisser des bouts de {tail}, les rentrer dans des rayures de leur couleur, et revenir une fois",
    "schematic": "Schéma",
    "schematic.scale": "Comme porté, endroit devant, tout à la même échelle ; cm et in comme crocheté",
    "schematic.title": "{title} : schéma",
    "schematic.alt": "Schéma de {title}.",
    "schematic.summary": "{rows}, crocheté {worked} sur une chaînette de {chains} mailles",
    "schematic.further": "{piece}, autres largeurs : {measures}",
    "schematic.bar": "une barre de {n} cm",
    "schematic.chain": "chaînette",
    "schematic.shaped": "bord façonné",
    "schematic.direction": "sens du travail",
    "schematic.direction.short": "sens|du travail",
    "schematic.arrow": "sens du travail, rang 1 au pied de la flèche",
    "schematic.seam": "Couture {seam}.",
    "schematic.nape": "{length} sous la nuque",
    "level.waist": "la taille du corps",
    "level.hip": "les hanches du corps",
    "level.knee": "le genou",
    "sewn": "Comme cousu",
    "sewn.scale": "Ouvert à plat, endroit devant, tout à la même échelle",
    "sewn.title": "{title} : comme cousu",
    "sewn.alt": "Les parties de {title} comme elles sont cousues, ouvertes à plat. {seams}",
}
