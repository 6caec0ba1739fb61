"""How edgings are told in every language: this reader's own phrases, not those that wrote the text.

In: nothing. Out: ``PHRASES``, by language and key regular expressions in which <n>, <edge> and the like stand for slots
and {ch}, {slip} for words of the craft; ``EDGES``: the English names of edges by what they are called; ``CLUSTERS``:
what rows of clusters are called.
"""

from __future__ import annotations

_ENGLISH = {
    "any": r"Edging \d+, ",
    "intro": (
        r"Edging <number>, <name>(?:, <times> times)?: <rows> (?:round|row)s? of <st> \(<full>\)(?: in <yarn>)?\. "
        r"<rest>"
    ),
    "first": r"Edging <number>, (?:round|row) <first>: <sides>: <all> <st> in all, <length> long",
    "later": r"Edging <number>, (?:round|row)s? <first>(?: to <last>)?: <how>: <counts> <st>",
    "armhole": r"<name>: work <n> {sc} along each armhole: <sides>",
    "armhole.one": r"<name>: work <n> {sc} along one armhole: <sides>",
    "side": r"<edge>,? <n> <st> \(<how>\)(?:, <times> times)?",
    "part": r"<edge>, row ends <first> to <last>",
    "outer": r"<n> in the corner",
    "inner": r"<st><n>tog over the corner inwards",
    "chain": r"<n> in (?:the chain|each of <places> chains) of the foundation",
    "stitch": r"<n> in (?:the stitch|each of <places> stitches and chains)",
    "step": r"<n> in (?:the stitch|each of the <places> stitches) of the step",
    "straight": r"<n> in (?:the row end|each of <places> row ends)",
    "upright": r"<n> in (?:the straight row end|each of <places> straight row ends)",
    "slant": r"<n> in (?:the slanting row end|each of <places> slanting row ends)",
    "kind": r"<n> in (?:the row end|each of <places> row ends) of <kind>",
    "more": r"<of>, 1 more in <where>",
    "fewer": r"<of>, 1 fewer in <where>",
    "skip": r"<of>, skipping <where>",
    "middle": r"the middle one",
    "every": r"every <nth> (?:once|<n> times)",
    "on": r"1 <st> in each <st>",
    "on.outer": r"<corner> in the middle one of (?:the corner|each of <n> corners)",
    "on.inner": r"<st><corner>tog with its middle one in (?:the corner|each of <n> corners) inwards",
    "on.fewer": r"<st>2tog at <where> with the one before it",
    "on.more": r"2 in <where>",
    "on.before": r"before corner 1 <how>",
    "on.after": r"after corner <n> <how>",
    "round": r"Edging \d+, round",
    "holes": (
        r"Edging <number>, buttonholes in (?:round|row) <row> along <edge>: <first> <st>; (?:once|<times> times) "
        r"<chains> {ch} over <over> skipped <st>(?:, between them <gaps>)?; <st> to its end; in the next, 1 <st> in "
        r"each {ch}"
    ),
    "gap": r"<gap> <st> (?:once|<n> times)",
    "ties": (
        r"Edging <number>, ties: at the end of its last row <chains> {ch}, 1 {sc} in the <nth> {ch} from the hook and "
        r"in each {ch} back to the edge: <n> {sc}, <length> long; one more like it at the beginning of that row"
    ),
    "strap": (
        r"Edging <number>, strap: after its last (?:round|<own>) <chains> {ch}, {slip} in the (?:first|<nth>) <st> of "
        r"(?:the last row|that round), turn, 1 {sc} in each {ch}: <n> {sc}, <length> long"
    ),
    "yarn": r"yarn for the edgings: about ",
}

_GERMAN = {
    "any": r"Umrandung \d+, ",
    "intro": (
        r"Umrandung <number>, <name>(?:, <times>-mal)?: <rows> (?:Runden?|Reihen?) <st> \(<full>\)(?: in <yarn>)?\. "
        r"<rest>"
    ),
    "first": r"Umrandung <number>, (?:Runde|Reihe) <first>: <sides>: <all> <st> zusammen, <length> lang",
    "later": r"Umrandung <number>, (?:Runden?|Reihen?) <first>(?: bis <last>)?: <how>: <counts> <st>",
    "armhole": r"<name>: an jedem Armausschnitt <n> {sc} häkeln: <sides>",
    "armhole.one": r"<name>: an einem Armausschnitt <n> {sc} häkeln: <sides>",
    "side": r"<edge>,? <n> <st> \(<how>\)(?:, <times>-mal)?",
    "part": r"<edge>, Reihenenden <first> bis <last>",
    "outer": r"<n> in die Ecke",
    "inner": r"<n> <st> zusammen abmaschen über die Ecke nach innen",
    "chain": r"<n> in (?:die Luftmasche|jede der <places> Luftmaschen) vom Anschlag",
    "stitch": r"<n> in (?:die Masche|jede der <places> Maschen und Luftmaschen)",
    "step": r"<n> in (?:die Masche|jede der <places> Maschen) der Stufe",
    "straight": r"<n> in (?:das Reihenende|jedes von <places> Reihenenden)",
    "upright": r"<n> in (?:das gerade Reihenende|jedes von <places> geraden Reihenenden)",
    "slant": r"<n> in (?:das schräge Reihenende|jedes von <places> schrägen Reihenenden)",
    "kind": r"<n> in (?:das Ende der Reihe|jedes von <places> Enden der Reihen) aus <kind>",
    "more": r"<of>, 1 mehr an <where>",
    "fewer": r"<of>, 1 weniger an <where>",
    "skip": r"<of>, an <where> keine",
    "middle": r"der mittleren Stelle",
    "every": r"jeder <nth> Stelle (?:einmal|<n>-mal)",
    "on": r"je 1 <st> in jede Masche",
    "on.outer": r"<corner> in die mittlere (?:der Ecke|von jeder der <n> Ecken)",
    "on.inner": (
        r"in (?:der Ecke|jeder der <n> Ecken) nach innen <corner> <st> zusammen abmaschen, die mittlere in der Mitte"
    ),
    "on.fewer": r"an <where> mit der davor 2 <st> zusammen abmaschen",
    "on.more": r"an <where> 2 in eine",
    "on.before": r"vor Ecke 1 <how>",
    "on.after": r"nach Ecke <n> <how>",
    "round": r"Umrandung \d+, Runde",
    "holes": (
        r"Umrandung <number>, Knopflöcher in (?:Runde|Reihe) <row>, <edge>: <first> <st>; (?:einmal|<times>-mal) "
        r"<chains> {ch} über <over> übergangene Maschen(?:, dazwischen <gaps>)?; <st> bis zum Ende; danach 1 <st> in "
        r"jede {ch}"
    ),
    "gap": r"(?:einmal|<n>-mal) <gap> <st>",
    "ties": (
        r"Umrandung <number>, Bänder: am Ende der letzten Reihe <chains> {ch}, 1 {sc} in die <nth> {ch} von der Nadel "
        r"aus und in jede {ch} bis zur Kante: <n> {sc}, <length> lang; am Anfang dieser Reihe noch eines ebenso"
    ),
    "strap": (
        r"Umrandung <number>, Träger: nach der letzten (?:Runde|Masche) <chains> {ch}, {slip} in die (?:erste|<nth>) "
        r"Masche (?:der letzten Reihe|dieser Runde), wenden, 1 {sc} in jede {ch}: <n> {sc}, <length> lang"
    ),
    "yarn": r"Garn für die Umrandungen: etwa ",
}

_FRENCH = {
    "any": r"Bordure \d+, ",
    "intro": (
        r"Bordure <number>, <name>(?:, <times> fois)? : <rows> (?:tour|rang)s? de <st> \(<full>\)(?: en <yarn>)?\. "
        r"<rest>"
    ),
    "first": r"Bordure <number>, (?:tour|rang) <first> : <sides> : <all> <st> en tout, <length> de long",
    "later": r"Bordure <number>, (?:tour|rang)s? <first>(?: à <last>)? : <how> : <counts> <st>",
    "armhole": r"<name> : faire <n> {sc} le long de chaque emmanchure : <sides>",
    "armhole.one": r"<name> : faire <n> {sc} le long d'une emmanchure : <sides>",
    "side": r"<edge>,? <n> <st> \(<how>\)(?:, <times> fois)?",
    "part": r"<edge>, bouts des rangs <first> à <last>",
    "outer": r"<n> dans le coin",
    "inner": r"<n> <st> ensemble sur le coin rentrant",
    "chain": r"<n> dans (?:la maille|chacune des <places> mailles) de la chaînette",
    "stitch": r"<n> dans (?:la maille|chacune des <places> mailles et mailles en l'air)",
    "step": r"<n> dans (?:la maille|chacune des <places> mailles) de la marche",
    "straight": r"<n> dans (?:le bout|chacun des <places> bouts) de rang",
    "upright": r"<n> dans (?:le bout de rang droit|chacun des <places> bouts de rang droits)",
    "slant": r"<n> dans (?:le bout|chacun des <places> bouts) de rang en biais",
    "kind": r"<n> dans (?:le bout du rang|chacun des <places> bouts des rangs) de <kind>",
    "more": r"<of>, 1 de plus à <where>",
    "fewer": r"<of>, 1 de moins à <where>",
    "skip": r"<of>, aucune à <where>",
    "middle": r"la place du milieu",
    "every": r"chaque <nth> place <n> fois",
    "on": r"1 <st> dans chaque <st>",
    "on.outer": r"<corner> dans celle du milieu (?:du coin|de chacun des <n> coins)",
    "on.inner": (
        r"<corner> <st> ensemble (?:au coin rentrant|à chacun des <n> coins rentrants), celle du milieu au centre"
    ),
    "on.fewer": r"2 <st> ensemble à <where> avec la précédente",
    "on.more": r"2 à <where>",
    "on.before": r"avant le coin 1 <how>",
    "on.after": r"après le coin <n> <how>",
    "round": r"Bordure \d+, tour",
    "holes": (
        r"Bordure <number>, boutonnières au (?:tour|rang) <row>, <edge> : <first> <st> ; <times> fois <chains> {ch} "
        r"au-dessus de <over> <st> sautées(?:, entre elles <gaps>)? ; <st> jusqu'au bout ; ensuite 1 <st> dans chaque "
        r"{ch}"
    ),
    "gap": r"<n> fois <gap> <st>",
    "ties": (
        r"Bordure <number>, liens : à la fin du dernier rang <chains> {ch}, 1 {sc} dans la <nth> {ch} à partir du "
        r"crochet et dans chaque {ch} jusqu'au bord : <n> {sc}, <length> de long ; un autre pareil au début de ce rang"
    ),
    "strap": (
        r"Bordure <number>, (?:anse|bretelle) : après (?:le dernier tour|la dernière <own>) <chains> {ch}, {slip} dans "
        r"la (?:première|<nth>) <st> (?:du dernier rang|de ce tour), tourner, 1 {sc} dans chaque {ch} : <n> {sc}, "
        r"<length> de long"
    ),
    "yarn": r"fil pour les bordures : environ ",
}

PHRASES = {"US": _ENGLISH, "UK": _ENGLISH, "de": _GERMAN, "fr": _FRENCH}
CLUSTERS = {
    "US": ("clusters", "repeats"), "UK": ("clusters", "repeats"), "de": ("Gruppen", "Rapporten"),
    "fr": ("groupes", "motifs"),
}  # fmt: skip

EDGES: dict[str, dict[str, str]] = {
    "US": {},
    "UK": {},
    "de": {
        "Schulter": "shoulder", "linke Schulter": "left shoulder", "rechte Schulter": "right shoulder",
        "Seite": "side", "linke Seite": "left side", "rechte Seite": "right side",
        "Seite unter dem Armausschnitt": "side below the armhole",
        "linke Seite unter dem Armausschnitt": "left side below the armhole",
        "rechte Seite unter dem Armausschnitt": "right side below the armhole",
        "Armausschnitt": "armhole", "linker Armausschnitt": "left armhole", "rechter Armausschnitt": "right armhole",
        "Halsausschnitt": "neck edge", "untere Kante": "lower edge", "obere Kante": "upper edge",
        "Ärmelansatz": "sleeve top", "Ärmelkante": "edge under the arm", "Ärmelbündchen": "cuff",
        "vordere Kante": "front edge", "Armkugel": "sleeve cap", "erste Reihe": "first row",
        "letzte Reihe": "last row", "linke Kante": "left edge", "rechte Kante": "right edge",
    },
    "fr": {
        "épaule": "shoulder", "épaule gauche": "left shoulder", "épaule droite": "right shoulder",
        "côté": "side", "côté gauche": "left side", "côté droit": "right side",
        "côté sous l'emmanchure": "side below the armhole",
        "côté gauche sous l'emmanchure": "left side below the armhole",
        "côté droit sous l'emmanchure": "right side below the armhole",
        "emmanchure": "armhole", "emmanchure gauche": "left armhole", "emmanchure droite": "right armhole",
        "encolure": "neck edge", "bord du bas": "lower edge", "bord du haut": "upper edge",
        "haut de manche": "sleeve top", "bord de manche": "edge under the arm", "poignet": "cuff",
        "bord devant": "front edge", "tête de manche": "sleeve cap", "premier rang": "first row",
        "dernier rang": "last row", "bord gauche": "left edge", "bord droit": "right edge",
    },
}  # fmt: skip
