"""What charts say in German: keys, captions, alt texts, the names of edges.

In: nothing. Out: ``CHARTS``, phrases with {tokens} and {slots}.
"""

from __future__ import annotations

CHARTS: dict[str, str] = {
    "counted.row.one": "{n} Reihe",
    "counted.row.many": "{n} Reihen",
    "counted.cluster.one": "{n} Gruppe",
    "counted.cluster.many": "{n} Gruppen",
    "clusters.turn": "abwechselnd {least} und {most} Gruppen",
    "clusters.range": "{least} bis {most} Gruppen",
    "gauge": "{clusters} Gruppen und {rows} Reihen auf {over}",
    "measure.width": "Breite",
    "measure.length": "Länge",
    "measure.height": "Höhe",
    "measure.shoulder": "Schulter",
    "measure.first_shoulder": "erste Schulter",
    "measure.second_shoulder": "zweite Schulter",
    "measure.neck_depth": "Ausschnitttiefe",
    "measure.neck_width": "Ausschnittbreite",
    "measure.width_in_row_1": "Breite in Reihe 1",
    "measure.width_at": "Breite bei {at}",
    "at.left": "links",
    "at.right": "rechts",
    "name.side_edge": "Seitenkante",
    "name.side_seam": "Seitennaht",
    "name.hem": "Saum",
    "name.shoulder": "Schulter",
    "name.shoulders": "Schultern",
    "name.neck": "Halsausschnitt",
    "name.first_row": "erste Reihe",
    "name.last_row": "letzte Reihe",
    "name.lower_edge": "untere Kante",
    "name.upper_edge": "obere Kante",
    "name.foundation": "{name}, Anschlag",
    "move.straight": "gerade",
    "move.decrease": "eine halbe Gruppe weniger",
    "move.increase": "eine halbe Gruppe mehr",
    "move.forced_decrease": "eine halbe Gruppe weniger, unregelmäßig",
    "move.forced_increase": "eine halbe Gruppe mehr, unregelmäßig",
    "move.step_in": "eine Stufe nach innen",
    "move.step_out": "eine Stufe nach außen",
    "caption.start": "Reihe {n}, Anfang der Reihe: {move}",
    "caption.end": "Reihe {n}, Ende der Reihe: {move}",
    "caption.foundation": "auf dem Anschlag",
    "caption.after": "nach der letzten {cl}: {steps}",
    "detail.left": "{title}: {piece}, Reihe {n}, linke Kante",
    "detail.right": "{title}: {piece}, Reihe {n}, rechte Kante",
    "detail.hook": "die Häkelnadel",
    "chart": "Häkelschrift",
    "chart.short": "kurze Häkelschrift",
    "chart.left_handed": "für Linkshänder",
    "chart.foundation": "{n} Luftmaschen",
    "arrow.worn": "oben, wenn getragen",
    "arrow.work": "Häkelrichtung",
    "arrow.up": "diese Seite nach oben",
    "bracket.across": "{n} dieser Gruppen in jeder Reihe, die hier durchgeht",
    "bracket.rows": "Reihen {first} und {second} werden {n}-mal gehäkelt, bis Reihe {last}, in den gezeigten Streifen",
    "bracket.key.across": "× {n} unten: so viele Gruppen stehen dort, in jeder Reihe, die hier durchgeht.",
    "bracket.key.rows": "× daneben: zwei Reihen, so oft gehäkelt, in den gezeigten Streifen: Reihen {repeats}.",
    "bracket.repeat": "{first} und {second} bis Reihe {last}",
    "alt.chart": (
        "Häkelschrift von {piece} aus {title}: {rows} mit {clusters} aus {k} {dc}, {worked} gehäkelt, auf einem "
        "Anschlag von {chains} Luftmaschen."
    ),
    "alt.chart.short": (
        "Kurze Häkelschrift von {piece} aus {title}: {rows} mit {clusters} aus {k} {dc}, {worked} gehäkelt, auf einem "
        "Anschlag von {chains} Luftmaschen."
    ),
    "alt.straight": "Beide Kanten sind gerade.",
    "alt.edge.left": "Die linke Kante, Reihe für Reihe: {moves}.",
    "alt.edge.right": "Die rechte Kante, Reihe für Reihe: {moves}.",
    "alt.section.left": "Die linke Kante, {section}, Reihe für Reihe: {moves}.",
    "alt.section.right": "Die rechte Kante, {section}, Reihe für Reihe: {moves}.",
    "alt.divided": "Nach Reihe {row} teilt ein Halsausschnitt das Teil in zwei Schultern.",
    "alt.striped": "Gestreift in {yarns}.",
    "alt.one_yarn": "Ganz in {yarn}.",
    "alt.finished": "Fertig: {measures}.",
    "alt.reading": "Reihe 1 liegt unten; ungerade Reihen beginnen {odd}, gerade Reihen {even}.",
    "alt.repeats": "Was sich wiederholt, ist einmal gezeigt, in einer Klammer mit seiner Zahl.",
    "alt.row": "Reihe {n}: {clusters}, beginnt {side}",
    "alt.row.yarn": "Reihe {n}: {yarn}, {clusters}, beginnt {side}",
    "summary.worked": "{worked} gehäkelt",
    "summary.make": "{n}-mal häkeln",
    "key.symbols": "Zeichen",
    "key.cluster": "Gruppe: {k} ganz abgemaschte {dc} in einem Zwischenraum, nebeneinander mit {k} Köpfen",
    "key.tch": "Wendeluftmaschen: 3 {ch}, zählen als erstes {dc}",
    "key.tch.spaced": (
        "Wendeluftmaschen: 3 {ch}, zählen als erstes {dc}; eine Luftmasche mehr (4 {ch}) ist der Zwischenraum daneben"
    ),
    "key.reading": (
        "Von unten nach oben lesen. Eine Zahl steht, wo ihre Reihe beginnt: ungerade Reihen, rechte Seite vorn, {odd}, "
        "gerade Reihen {even}."
    ),
    "key.move.left": "{move}, an der linken Kante",
    "key.move.right": "{move}, an der rechten Kante",
    "key.move.both": "{move}, an der linken und an der rechten Kante",
    "key.yarns": "Garne",
    "key.stripes": "Streifen ab Reihe 1 mit ihren Reihen: {stripes}",
    "key.stripes.again": "Streifen ab Reihe 1 mit ihren Reihen: {stripes}, und so weiter",
    "key.carried": (
        "Ein Bogen neben der Kante: der Faden wird hochgeführt und nicht abgeschnitten; ein Quadrat: er wird neu "
        "angeschlungen."
    ),
    "key.making": "Zum Häkeln",
    "key.chains": "Anschlag",
    "key.chains.count": (
        "{n} Luftmaschen, mit den Wendeluftmaschen und einer Luftmasche unter jeder Randmasche; erste Gruppe ab der "
        "{into}. Luftmasche ab Nadel"
    ),
    "key.gauge": "Maschenprobe",
    "key.gauge.each": "{gauge} ({cluster} je Gruppe, {row} je Reihe)",
    "key.finished": "Fertige Maße",
    "compact.cluster": "{k} ganz abgemaschte {dc} in einem Zwischenraum",
    "compact.tch": "erstes {dc}: 3 {ch}",
    "compact.facts": "Anschlag {n} Luftmaschen. {gauge}.",
    "credit.by": "von {name}",
    "stripes.worn": "wie getragen: die Streifen aller Teile",
    "stripes.title": "{title}: Streifen",
    "stripes.alt": "Das Häkelstück von {title}, wie es aussehen wird: {pieces}.",
    "stripes.upright": "{piece} mit senkrechten Streifen aus {yarns}",
    "stripes.level": "{piece} mit waagerechten Streifen aus {yarns}",
    "stripes.one_yarn": "einem Garn",
}
