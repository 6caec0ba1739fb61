"""Cautions in French.

In: nothing. Out: ``CAUTIONS``, phrases with {slots}; the rules are named as in the English ones.
"""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "caution": "{subject} : {words}",
    "caution.subject.sleep": "sommeil",
    "caution.subject.cords": "cordons",
    "caution.subject.open_fabric": "ouvrage ajouré",
    "caution.subject.loose_ends": "fils libres",
    "caution.subject.small_parts": "petites pièces",
    "caution.subject.flame": "feu",
    "caution.subject.blocking": "blocage",
    "caution.subject.washing": "lavage",
    "caution.subject.hands": "mains",
    "caution.subject.selling": "vente",
    "caution.always": (
        "suivre les règles du lieu ; demander à une personne qualifiée là où la sécurité d'un enfant en dépend"
    ),
    "caution.if.child": "si c'est pour un enfant : {words}",
    "caution.if.baby": "si c'est pour un bébé : {words}",
    "caution.sleep": (
        "avant 12 mois ni couverture ni drap libre n'ont leur place là où dort un bébé (AAP 2022) ; ce qui est vendu "
        "pour les lits d'enfant et comme gigoteuse a ses propres règles (EN 16779-1, EN 16781)"
    ),
    "caution.cords": (
        "jusqu'à 7 ans ni cordons ni liens coulissants à la capuche ou au cou ; ailleurs, jusqu'à 14 ans, seulement "
        "comme le dit EN 14682 (aux États-Unis 16 CFR 1120 avec ASTM F1816)"
    ),
    "caution.open_fabric": (
        "les jours et les fils qui passent retiennent doigts et orteils ; un ouvrage serré n'a pas de jours. Rentrer "
        "les fils sur l'envers, ou les couper et rentrer les bouts"
    ),
    "caution.loose_ends": (
        "bien rentrer chaque fil, dans deux sens, et regarder de nouveau après chaque lavage : un fil libre peut "
        "s'enrouler autour d'un doigt ou d'un orteil"
    ),
    "caution.small_parts": (
        "boutons, brandebourgs et pompons se détachent et étouffent : aucun pour les petits enfants, et tous les "
        "autres cousus solidement (aux États-Unis 16 CFR 1501 ; sécurité mécanique des vêtements d'enfants "
        "CEN/TR 16792)"
    ),
    "caution.small_parts.pet": "boutons, brandebourgs, pompons et fils libres sont mâchés et avalés : s'en passer",
    "caution.flame": "tenir {what} loin des flammes et des radiateurs (aux États-Unis {rules})",
    "caution.flame.sleepwear": (
        "tenir {what} loin des flammes et des radiateurs (aux États-Unis {rules}) ; ce n'est pas un vêtement de nuit "
        "si le fil n'est pas testé pour cela"
    ),
    "caution.flame.open": "l'ouvrage ajouré",
    "caution.flame.it": "l'ouvrage",
    "caution.flame.rules": "16 CFR 1610",
    "caution.flame.rules.child": "16 CFR 1610, pour les vêtements de nuit d'enfants 1615 et 1616",
    "caution.blocking": (
        "compter les épingles en les mettant et en les ôtant, et éloigner enfants et animaux pendant ce temps ; vapeur "
        "et fers brûlent, et un fer chaud abîme l'acrylique pour toujours"
    ),
    "caution.washing": "suivre l'étiquette du fil ; laver à part les couleurs vives les premières fois",
    "caution.washing.fibre": "{care}. Suivre l'étiquette du fil ; laver à part les couleurs vives les premières fois",
    "caution.washing.several": "{care} ; plusieurs fibres ensemble se lavent comme la plus fragile",
    "care.wool": "la laine feutre : laver à la main, tiède, sans frotter, et sécher à plat",
    "care.superwash_wool": "la laine superwash s'étire mouillée : la soulever à deux mains et sécher à plat",
    "care.cotton": "le coton rétrécit : laver l'échantillon comme l'ouvrage le sera, puis mesurer",
    "care.linen": "le lin rétrécit : laver l'échantillon comme l'ouvrage le sera, puis mesurer",
    "care.silk": "soie : laver à la main, à froid, sans tordre",
    "care.viscose": "la viscose est faible et lourde mouillée : ne pas la tordre ni la suspendre",
    "care.acrylic": "acrylique : laver et sécher à plat, sans jamais repasser",
    "care.polyester": "polyester : laver comme le dit l'étiquette, et tenir loin des fers chauds",
    "care.nylon": "polyamide : laver comme le dit l'étiquette, et tenir loin des fers chauds",
    "care.mixed": "un fil mélangé se lave comme sa fibre la plus fragile",
    "caution.hands": (
        "reposer mains, nuque et yeux environ toutes les demi-heures, et s'arrêter si cela fait mal ; consulter un "
        "médecin si la douleur persiste"
    ),
    "caution.selling": (
        "qui vend des ouvrages pour enfants doit suivre d'autres règles encore, sur les essais, les étiquettes et les "
        "preuves, outre celles nommées ici : se renseigner avant de vendre"
    ),
}
