"""What the page beside the work says in German.

In: nothing. Out: ``BESIDE``, phrases with {slots}; the script of the page fills those that change.
"""

from __future__ import annotations

BESIDE: dict[str, str] = {
    "beside.title": "{title}: Reihe für Reihe",
    "beside.kicker": "Reihe für Reihe",
    "beside.skip": "Zu den Reihen",
    "beside.unkept": (
        "Dieser Browser merkt sich die Stelle nicht: sein Speicher ist voll oder abgeschaltet. Die Adresse dieser "
        "Seite enthält sie: die Seite offen lassen oder ihre Adresse als Lesezeichen sichern."
    ),
    "beside.size": "Größe",
    "beside.terms": "Fachwörter",
    "beside.page": "Seite",
    "beside.device": "Wie das Gerät",
    "beside.light": "Hell",
    "beside.dark": "Dunkel",
    "beside.pieces": "Teile",
    "beside.edgings": "Umrandungen",
    "beside.tick": "Wenn die Teile zusammengenäht sind. Jede Reihe abhaken, die gehäkelt ist.",
    "beside.colours": "Farben",
    "beside.colours.tab": "Farben",
    "beside.words": "Wörter",
    "beside.chart": "Häkelschrift von {piece}",
    "beside.closer": "Näher",
    "beside.back": "Zurück",
    "beside.next": "Nächste Reihe",
    "beside.chain": "Anschlag {n}",
    "beside.begin": "Mit einem Anschlag von {n} Luftmaschen beginnen.",
    "beside.chain.on": "auf {other} begonnen",
    "beside.chain.armhole": "am Armausschnitt begonnen",
    "beside.begin.on": "Auf den {base} Luftmaschen von {other} beginnen: {n} Luftmaschen zum Wenden.",
    "beside.begin.armhole": "Mit {base} {sc} am Armausschnitt beginnen: {n} Luftmaschen, wenden.",
    "beside.hint": "Pfeiltasten, Leertaste und Wischen wechseln die Reihe.",
    "beside.all_rows": "Alle Reihen von {piece}",
    "beside.row": "Reihe {n}",
    "beside.row.within": "Reihe {n}",
    "beside.side.RS": "Rechte Seite",
    "beside.side.WS": "Linke Seite",
    "beside.from.left": "von links",
    "beside.from.right": "von rechts",
    "beside.last_row": "Die letzte Reihe",
    "beside.rows_left": "noch {n} Reihen mit dieser",
    "beside.from_here": "Ab dieser Reihe",
    "beside.from_here.one": "Ab dieser Reihe (eines von {n})",
    "beside.colour": "Farbe",
    "beside.rows": "Reihen",
    "beside.yarn": "Garn",
    "beside.fabric_alone": "Nur das Garn des Häkelstücks, ohne Fadenenden und Reserve.",
    "beside.cloth": "Das fertige Häkelstück: {pieces}",
    "beside.try": "Die fertigen Streifen. Andere Farben versuchen: Häkelschrift und Häkelstück folgen sofort.",
    "beside.own_colours": "Farben der Anleitung",
    "beside.come_gone": "Zuletzt war es {row}; dieses Teil hat sie nicht mehr: dies ist die nächstgelegene Reihe.",
    "beside.come": "Zuletzt war es {row}.",
    "beside.of_another": "Die Stelle ist die von „{name}“, das vorher hier stand.",
    "beside.other_tab": "{row}, wie im anderen Fenster.",
    "beside.go": "Zu {row}",
}
