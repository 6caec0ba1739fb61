"""What the page beside the work says in French.

In: nothing. Out: ``BESIDE``, phrases with {slots}; the script of the page fills those that change.
"""

from __future__ import annotations

BESIDE: dict[str, str] = {
    "beside.title": "{title} : rang par rang",
    "beside.kicker": "Rang par rang",
    "beside.skip": "Aller aux rangs",
    "beside.unkept": (
        "Ce navigateur ne garde pas votre place : sa mémoire est pleine ou désactivée. L'adresse de cette page la "
        "contient : laissez la page ouverte, ou gardez son adresse en signet."
    ),
    "beside.size": "Taille",
    "beside.terms": "Termes",
    "beside.page": "Page",
    "beside.device": "Comme l'appareil",
    "beside.light": "Clair",
    "beside.dark": "Sombre",
    "beside.pieces": "Parties",
    "beside.edgings": "Bordures",
    "beside.tick": "Quand les parties sont cousues. Cocher chaque rang crocheté.",
    "beside.colours": "Couleurs",
    "beside.colours.tab": "couleurs",
    "beside.words": "Mots",
    "beside.chart": "Diagramme de {piece}",
    "beside.closer": "Plus près",
    "beside.back": "Retour",
    "beside.next": "Rang suivant",
    "beside.chain": "chaînette de {n} mailles",
    "beside.begin": "Commencer par une chaînette de {n} mailles.",
    "beside.chain.on": "commencé sur {other}",
    "beside.chain.armhole": "commencé le long de l'emmanchure",
    "beside.begin.on": "Commencer sur les {base} mailles en l'air de {other} : {n} mailles en l'air pour tourner.",
    "beside.begin.armhole": "Commencer par {base} {sc} le long de l'emmanchure : {n} mailles en l'air, tourner.",
    "beside.hint": "Flèches, espace et balayages tournent les rangs.",
    "beside.all_rows": "Tous les rangs de {piece}",
    "beside.row": "Rang {n}",
    "beside.row.within": "rang {n}",
    "beside.side.RS": "Endroit",
    "beside.side.WS": "Envers",
    "beside.from.left": "depuis la gauche",
    "beside.from.right": "depuis la droite",
    "beside.last_row": "Le dernier rang",
    "beside.rows_left": "encore {n} rangs avec celui-ci",
    "beside.from_here": "À partir de ce rang",
    "beside.from_here.one": "À partir de ce rang (pour une partie sur {n})",
    "beside.colour": "couleur",
    "beside.rows": "rangs",
    "beside.yarn": "fil",
    "beside.fabric_alone": "Le fil de l'ouvrage seul, sans bouts ni réserve.",
    "beside.cloth": "L'ouvrage terminé : {pieces}",
    "beside.try": "Les rayures terminées. Essayer d'autres couleurs : diagramme et ouvrage suivent aussitôt.",
    "beside.own_colours": "Couleurs du modèle",
    "beside.come_gone": "Vous en étiez à {row}, que cette partie n'a plus : voici le rang le plus proche.",
    "beside.come": "Vous en étiez à {row}.",
    "beside.of_another": "La place est celle de « {name} », qui se trouvait ici avant.",
    "beside.other_tab": "{row}, comme dans l'autre onglet.",
    "beside.go": "Aller à {row}",
}
