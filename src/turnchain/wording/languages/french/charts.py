"""What charts say in French: keys, captions, alt texts, the names of edges.

In: nothing. Out: ``CHARTS``, phrases with {tokens} and {slots}.
"""

from __future__ import annotations

CHARTS: dict[str, str] = {
    "counted.row.one": "{n} rang",
    "counted.row.many": "{n} rangs",
    "counted.cluster.one": "{n} groupe",
    "counted.cluster.many": "{n} groupes",
    "clusters.turn": "{least} et {most} groupes en alternance",
    "clusters.range": "{least} à {most} groupes",
    "gauge": "{clusters} groupes et {rows} rangs pour {over}",
    "measure.width": "largeur",
    "measure.length": "longueur",
    "measure.height": "hauteur",
    "measure.shoulder": "épaule",
    "measure.first_shoulder": "première épaule",
    "measure.second_shoulder": "deuxième épaule",
    "measure.neck_depth": "profondeur d'encolure",
    "measure.neck_width": "largeur d'encolure",
    "measure.width_in_row_1": "largeur au rang 1",
    "measure.width_at": "largeur à {at}",
    "at.left": "à gauche",
    "at.right": "à droite",
    "name.side_edge": "bord de côté",
    "name.side_seam": "couture de côté",
    "name.hem": "bas",
    "name.shoulder": "épaule",
    "name.shoulders": "épaules",
    "name.neck": "encolure",
    "name.first_row": "premier rang",
    "name.last_row": "dernier rang",
    "name.lower_edge": "bord du bas",
    "name.upper_edge": "bord du haut",
    "name.foundation": "{name}, chaînette",
    "move.straight": "droit",
    "move.decrease": "un demi-groupe en moins",
    "move.increase": "un demi-groupe en plus",
    "move.forced_decrease": "un demi-groupe en moins, irrégulier",
    "move.forced_increase": "un demi-groupe en plus, irrégulier",
    "move.step_in": "une marche vers l'intérieur",
    "move.step_out": "une marche vers l'extérieur",
    "caption.start": "Rang {n}, début du rang : {move}",
    "caption.end": "Rang {n}, fin du rang : {move}",
    "caption.foundation": "sur la chaînette",
    "caption.after": "après le dernier {cl} : {steps}",
    "detail.left": "{title} : {piece}, rang {n}, bord gauche",
    "detail.right": "{title} : {piece}, rang {n}, bord droit",
    "detail.hook": "le crochet",
    "chart": "diagramme",
    "chart.short": "diagramme court",
    "chart.left_handed": "pour gauchers",
    "chart.foundation": "{n} mailles en l'air",
    "arrow.worn": "ce côté en haut, porté",
    "arrow.work": "sens du travail",
    "arrow.up": "ce côté en haut",
    "bracket.across": "{n} de ces groupes dans chaque rang qui passe ici",
    "bracket.rows": (
        "les rangs {first} et {second} sont crochetés {n} fois, jusqu'au rang {last}, dans les rayures montrées"
    ),
    "bracket.key.across": "× {n} en dessous : il y a là tant de groupes, dans chaque rang qui passe ici.",
    "bracket.key.rows": "× à côté : deux rangs crochetés tant de fois, dans les rayures montrées : rangs {repeats}.",
    "bracket.repeat": "{first} et {second} jusqu'au rang {last}",
    "alt.chart": (
        "Diagramme de {piece}, du modèle {title} : {rows} de {clusters} de {k} {dc}, crocheté {worked} sur une "
        "chaînette de {chains} mailles."
    ),
    "alt.chart.short": (
        "Diagramme court de {piece}, du modèle {title} : {rows} de {clusters} de {k} {dc}, crocheté {worked} sur une "
        "chaînette de {chains} mailles."
    ),
    "alt.straight": "Les deux bords sont droits.",
    "alt.edge.left": "Le bord gauche, rang par rang : {moves}.",
    "alt.edge.right": "Le bord droit, rang par rang : {moves}.",
    "alt.section.left": "Le bord gauche, {section}, rang par rang : {moves}.",
    "alt.section.right": "Le bord droit, {section}, rang par rang : {moves}.",
    "alt.divided": "Après le rang {row} une encolure partage l'ouvrage en deux épaules.",
    "alt.striped": "Rayé de {yarns}.",
    "alt.one_yarn": "Tout en {yarn}.",
    "alt.finished": "Fini : {measures}.",
    "alt.reading": "Le rang 1 est en bas ; les rangs impairs commencent {odd}, les rangs pairs {even}.",
    "alt.repeats": "Ce qui se répète est montré une fois, dans un crochet avec son nombre.",
    "alt.row": "rang {n} : {clusters}, commence {side}",
    "alt.row.yarn": "rang {n} : {yarn}, {clusters}, commence {side}",
    "summary.worked": "crocheté {worked}",
    "summary.make": "à faire {n} fois",
    "key.symbols": "Symboles",
    "key.cluster": "groupe : {k} {dc} terminées dans un espace, côte à côte avec {k} têtes",
    "key.tch": "mailles pour tourner : 3 {ch}, comptent pour la première {dc}",
    "key.tch.spaced": (
        "mailles pour tourner : 3 {ch}, comptent pour la première {dc} ; une maille en l'air de plus (4 {ch}) est "
        "l'espace à côté"
    ),
    "key.reading": (
        "Lire de bas en haut. Un nombre se trouve là où commence son rang : les rangs impairs, endroit devant, {odd}, "
        "les rangs pairs {even}."
    ),
    "key.move.left": "{move}, au bord gauche",
    "key.move.right": "{move}, au bord droit",
    "key.move.both": "{move}, au bord gauche et au bord droit",
    "key.yarns": "Fils",
    "key.stripes": "Rayures depuis le rang 1, avec leurs rangs : {stripes}",
    "key.stripes.again": "Rayures depuis le rang 1, avec leurs rangs : {stripes}, et ainsi de suite",
    "key.carried": (
        "Une boucle à côté du bord : le fil monte sans être coupé ; un carré : il est rattaché."
    ),
    "key.making": "Pour crocheter",
    "key.chains": "Chaînette",
    "key.chains.count": (
        "{n} mailles en l'air, avec celles pour tourner et une sous chaque maille de bord ; premier groupe à partir de "
        "la {into}e depuis le crochet"
    ),
    "key.gauge": "Échantillon",
    "key.gauge.each": "{gauge} ({cluster} par groupe, {row} par rang)",
    "key.finished": "Mesures finies",
    "compact.cluster": "{k} {dc} terminées dans un espace",
    "compact.tch": "première {dc} : 3 {ch}",
    "compact.facts": "Chaînette de {n} mailles. {gauge}.",
    "credit.by": "de {name}",
    "stripes.worn": "comme porté : les rayures de toutes les parties",
    "stripes.title": "{title} : rayures",
    "stripes.alt": "L'ouvrage {title} comme il sera : {pieces}.",
    "stripes.upright": "{piece} avec des rayures verticales de {yarns}",
    "stripes.level": "{piece} avec des rayures horizontales de {yarns}",
    "stripes.one_yarn": "un seul fil",
}
