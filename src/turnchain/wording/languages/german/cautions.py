"""Cautions in German.

In: nothing. Out: ``CAUTIONS``, phrases with {slots}; the rules are named as in the English ones.
"""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "caution": "{subject}: {words}",
    "caution.subject.sleep": "Schlaf",
    "caution.subject.cords": "Bänder und Kordeln",
    "caution.subject.open_fabric": "Lücken",
    "caution.subject.loose_ends": "lose Fäden",
    "caution.subject.small_parts": "Kleinteile",
    "caution.subject.flame": "Feuer",
    "caution.subject.blocking": "Spannen",
    "caution.subject.washing": "Waschen",
    "caution.subject.hands": "Hände",
    "caution.subject.selling": "Verkauf",
    "caution.always": (
        "die Vorschriften am Ort befolgen; wo die Sicherheit eines Kindes davon abhängt, eine Fachperson fragen"
    ),
    "caution.if.child": "falls es für ein Kind ist: {words}",
    "caution.if.baby": "falls es für ein Baby ist: {words}",
    "caution.sleep": (
        "unter 12 Monaten gehören weder Decke noch loses Tuch dorthin, wo ein Baby schläft (AAP 2022); was für "
        "Kinderbetten und als Schlafsack verkauft wird, hat eigene Vorschriften (EN 16779-1, EN 16781)"
    ),
    "caution.cords": (
        "bis 7 Jahre keine Bänder oder Zugkordeln an Kapuze oder Hals; sonst, bis 14 Jahre, nur wie in EN 14682 (in "
        "den USA 16 CFR 1120 mit ASTM F1816)"
    ),
    "caution.open_fabric": (
        "Lücken und mitgeführte Fäden fangen Finger und Zehen; dicht Gehäkeltes hat keine Lücken. Fäden auf der linken "
        "Seite vernähen, oder abschneiden und die Enden vernähen"
    ),
    "caution.loose_ends": (
        "jeden Faden gut vernähen, in zwei Richtungen, und nach jeder Wäsche nachsehen: ein loser Faden kann sich um "
        "einen Finger oder eine Zehe wickeln"
    ),
    "caution.small_parts": (
        "Knöpfe, Knebel und Bommel gehen ab, und Kinder ersticken daran: keine für kleine Kinder, alle anderen fest "
        "annähen (in den USA 16 CFR 1501; mechanische Sicherheit von Kinderkleidung CEN/TR 16792)"
    ),
    "caution.small_parts.pet": "Knöpfe, Knebel, Bommel und lose Fäden werden abgebissen und verschluckt: weglassen",
    "caution.flame": "{what} von Flammen und Heizgeräten fernhalten (in den USA {rules})",
    "caution.flame.sleepwear": (
        "{what} von Flammen und Heizgeräten fernhalten (in den USA {rules}); dies ist keine Nachtwäsche, wenn das Garn "
        "nicht darauf geprüft ist"
    ),
    "caution.flame.open": "Gehäkeltes mit Lücken",
    "caution.flame.it": "es",
    "caution.flame.rules": "16 CFR 1610",
    "caution.flame.rules.child": "16 CFR 1610, für Nachtwäsche von Kindern 1615 und 1616",
    "caution.blocking": (
        "die Nadeln beim Stecken und beim Herausziehen zählen, und Kinder und Tiere solange fernhalten; Dampf und "
        "Bügeleisen verbrennen, und ein heißes Bügeleisen verdirbt Acryl für immer"
    ),
    "caution.washing": "die Angaben auf der Banderole befolgen; kräftige Farben die ersten Male getrennt waschen",
    "caution.washing.fibre": (
        "{care}. Die Angaben auf der Banderole befolgen; kräftige Farben die ersten Male getrennt waschen"
    ),
    "caution.washing.several": "{care}; mehrere Fasern zusammen wie die empfindlichste waschen",
    "care.wool": "Wolle filzt: von Hand waschen, lauwarm, ohne zu reiben, und flach trocknen",
    "care.superwash_wool": "Superwash-Wolle dehnt sich, wenn sie nass ist: mit beiden Händen heben, flach trocknen",
    "care.cotton": "Baumwolle läuft ein: die Maschenprobe waschen, wie das Teil gewaschen wird, dann messen",
    "care.linen": "Leinen läuft ein: die Maschenprobe waschen, wie das Teil gewaschen wird, dann messen",
    "care.silk": "Seide: von Hand waschen, kühl, und nicht auswringen",
    "care.viscose": "Viskose ist nass schwach und schwer: nicht auswringen und nicht aufhängen",
    "care.acrylic": "Acryl: waschen und flach trocknen, und nie bügeln",
    "care.polyester": "Polyester: waschen, wie die Banderole sagt, und von heißen Bügeleisen fernhalten",
    "care.nylon": "Polyamid: waschen, wie die Banderole sagt, und von heißen Bügeleisen fernhalten",
    "care.mixed": "ein gemischtes Garn wie die empfindlichste Faser darin waschen",
    "caution.hands": (
        "Hände, Nacken und Augen etwa jede halbe Stunde ausruhen, und aufhören, wenn es schmerzt; mit Schmerzen, die "
        "bleiben, zum Arzt"
    ),
    "caution.selling": (
        "für den Verkauf von Sachen für Kinder gelten außer den hier genannten eigene Vorschriften über Prüfung, "
        "Kennzeichnung und Nachweise: vorher fragen"
    ),
}
