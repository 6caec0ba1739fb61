"""The rows in German, and what explains them.

In: nothing. Out: ``ROWS``, phrases with {tokens} and {slots}, in the order of the grammar of ``words``.
"""

from __future__ import annotations

ROWS: dict[str, str] = {
    "written": "Geschrieben mit {terms}.",
    "review": "Noch von niemandem mit Deutsch als Muttersprache geprüft.",
    "abbreviations": "Abkürzungen",
    "specials": "Besondere Maschen",
    "reading": "So werden die Reihen gelesen",
    "special.cl": (
        "Gruppe ({cl}): {k} {dc} in die genannte Stelle, jedes ganz abgemascht, nebeneinander mit {k} Köpfen. Nicht "
        "zu verwechseln mit zusammen abgemaschten {dc}."
    ),
    "special.cl.chain": "Auf einer neuen Luftmaschenkette ist eine {cl} {k} {dc} in {k} {ch} nebeneinander.",
    "special.cl.together": "Im Anschlag wird jede {cl} in 1 {ch} gehäkelt.",
    "special.cl.chain.closed": (
        "Auf einer neuen Luftmaschenkette ist eine {cl} {k} {dc} in {k} {ch} nebeneinander, mit einem {sp} nach je {k} "
        "davon."
    ),
    "special.cl/st-f": (
        "Gruppe ({cl}): {k} {dc} in die genannte Stelle, jede ganz abgemascht, nebeneinander mit {k} Köpfen. Nicht "
        "zu verwechseln mit zusammen abgemaschten {dc}."
    ),
    "special.single": (
        "In jeden {sp} kommt 1 {dc}. Erste, nächste und letzte {dc} einer Reihe sind die zwischen ihren Randmaschen; "
        "mit ihnen beginnt, was am Ende der Reihe gezählt wird."
    ),
    "special.each": (
        "Jede {dc} wird in eine {dc} der Vorreihe gehäkelt. Erste, nächste und letzte {dc} einer Reihe sind die "
        "zwischen ihren Randmaschen; mit ihnen beginnt, was am Ende der Reihe gezählt wird."
    ),
    "special.each/cl-n": (
        "Jedes {dc} wird in ein {dc} der Vorreihe gehäkelt. Erstes, nächstes und letztes {dc} einer Reihe sind die "
        "zwischen ihren Randmaschen; mit ihnen beginnt, was am Ende der Reihe gezählt wird."
    ),
    "special.v": (
        "V-Masche ({cl}): ({inside}) in die genannte Stelle. Eine {cl} in eine {cl} der Vorreihe kommt in die {ch} in "
        "deren Mitte."
    ),
    "special.shell": (
        "Muschel ({cl}): {inside} in die genannte Stelle, jedes ganz abgemascht. Eine {cl} in eine {cl} der Vorreihe "
        "kommt in das {dc} in deren Mitte."
    ),
    "special.sp.open": (
        "Zwischenraum ({sp}): die {ch} zwischen 2 {cl} der Vorreihe oder die {ch} neben der Randmasche. Um die {ch} "
        "herum häkeln, nicht in die {ch} einstechen. Zwischen einer Randmasche und einer {cl} gleich daneben liegt "
        "kein {sp}."
    ),
    "special.sp.closed": (
        "Zwischenraum ({sp}): der Schlitz zwischen 2 {cl} der Vorreihe oder zwischen dem zusätzlichen {dc} am Rand und "
        "der {cl} daneben. Gleich neben der Randmasche selbst liegt kein {sp}."
    ),
    "special.sp.units": (
        "Zwischenraum ({sp}): der Schlitz zwischen 2 {cl} der Vorreihe, oder am Rand zwischen {cl} und {dc} daneben."
    ),
    "special.sp.slit": (
        "Zwischenraum ({sp}): die {ch} zwischen 2 {cl} der Vorreihe. Um die {ch} herum häkeln, nicht in die {ch} "
        "einstechen. Neben einer Randmasche liegt kein {sp}; wo 1 {cl} in den Schlitz dort kommt, sagt es die Reihe."
    ),
    "special.half": (
        "1 {cl} zwischen Randmasche und {dc} daneben kommt in den Schlitz neben der Randmasche, in keine Masche."
    ),
    "special.together": (
        "2 {dc} zus: in jede der 2 Stellen 1 {dc} häkeln, jedes ohne den letzten {yo}, dann beide mit 1 {yo} zusammen "
        "abmaschen; zählt als 1 {dc}."
    ),
    "special.together/st-f": (
        "2 {dc} zus: in jede der 2 Stellen 1 {dc} häkeln, jede ohne den letzten {yo}, dann beide mit 1 {yo} zusammen "
        "abmaschen; zählt als 1 {dc}."
    ),
    "special.with_chain": (
        "Beginnt eine Reihe mit nur {n} {ch}, so bilden sie mit dem {dc} danach 1 Masche, oben verbunden wie 2 {dc} "
        "zusammen; sie zählt als {tch}, und der Kopf dieses {dc} ist der Kopf der Randmasche."
    ),
    "special.tch.3": (
        "Wendeluftmaschen ({tch}): die {n} {ch}, mit denen eine Reihe beginnt. Sie zählen als 1 {dc}, die "
        "Randmasche; die {top} {ch} ist der Kopf dieser Masche."
    ),
    "special.tch.4": (
        "Wendeluftmaschen ({tch}): die {n} oder {more} {ch}, mit denen eine Reihe beginnt. Die ersten {n} {ch} zählen "
        "als 1 {dc}, die Randmasche; die {top} davon ist der Kopf dieser Masche, die {nth} {ch} der {sp} daneben."
    ),
    "special.tch.more": (
        "Wendeluftmaschen ({tch}): die {n} oder {more} {ch}, mit denen eine Reihe beginnt. Die ersten {n} {ch} zählen "
        "als 1 {dc}, die Randmasche; die {top} davon ist der Kopf dieser Masche, die {ch} danach sind der {sp} daneben."
    ),
    "special.tch.beside": (
        "Wendeluftmaschen ({tch}): die {more} {ch}, mit denen eine Reihe beginnt. Die ersten {n} {ch} zählen als 1 "
        "{dc}, die Randmasche; die {top} davon ist der Kopf dieser Masche, die {ch} danach liegen daneben."
    ),
    "special.tch.apart": (
        "Wendeluftmaschen ({tch}): {n} {ch} am Anfang einer Reihe. Sie zählen nicht als Masche; die erste Masche "
        "danach ist die Randmasche."
    ),
    "special.bare": (
        "Randmasche: nur an einem Rand mit {sp} hat eine Reihe eine: am Anfang die {tch}, am Ende 1 {dc}. An anderen "
        "Rändern beginnt oder endet die Reihe mit 1 {cl}. Eine Reihe, die mit 1 {cl} in dem {sp} am Rand endet, "
        "lässt die Randmasche dort unbehäkelt."
    ),
    "special.tch.bare": (
        "Wendeluftmaschen ({tch}): die {n} oder {more} {ch}, mit denen eine Reihe beginnt. Die ersten {n} {ch} "
        "zählen als 1 {dc}; die {top} davon ist der Kopf dieser Masche. {more} {ch} sind die Randmasche mit dem {sp} "
        "daneben; {n} {ch} sind 1 {dc} einer {cl}, und die {dc} in ihrem Fuß sind die anderen."
    ),
    "special.tch.bare.closed": (
        "Wendeluftmaschen ({tch}): die {n} {ch}, mit denen eine Reihe beginnt. Sie zählen als 1 {dc}; die {top} "
        "davon ist der Kopf dieser Masche. Mit 1 {dc} in ihrem Fuß sind sie die Randmasche, mit {rest} {dc} dort 1 "
        "{dc} einer {cl}."
    ),
    "special.tch.bare.single": (
        "Wendeluftmaschen ({tch}): die {more} {ch}, mit denen eine Reihe beginnt. Die ersten {n} {ch} zählen als 1 "
        "{dc}, die 1. {st} der Reihe; die {top} davon ist der Kopf dieser {st}, die {ch} danach sind der {sp} "
        "daneben."
    ),
    "special.tch.bare.single.one": (
        "Wendeluftmaschen ({tch}): die {more} {ch}, mit denen eine Reihe beginnt. Die erste {ch} zählt als 1 {dc}, die "
        "1. {st} der Reihe; die {ch} danach sind der {sp} daneben."
    ),
    "special.base": (
        "Fuß der {tch}: die Stelle, auf der die {tch} stehen; nach dem Wenden das letzte {dc} der Vorreihe."
    ),
    "special.edge": (
        "Randmasche: die Masche an jedem Ende einer Reihe: am Anfang der Reihe die {tch}, am Ende ein {dc}."
    ),
    "special.edge/st-f": (
        "Randmasche: die Masche an jedem Ende einer Reihe: am Anfang der Reihe die {tch}, am Ende eine {dc}."
    ),
    "special.solid.apart": (
        "Reihen aus {stitch}: 1 {stitch} in jede {st} der Vorreihe, auch in jede {ch}. Sie beginnen mit {n} {ch}, die "
        "nicht als Masche zählen."
    ),
    "special.solid.counts": (
        "Reihen aus {stitch}: 1 {stitch} in jede {st} der Vorreihe, auch in jede {ch}. Sie beginnen mit {n} {ch}, die "
        "als Randmasche zählen."
    ),
    "special.edge.mixed": (
        "Randmasche: die erste und die letzte Masche einer Reihe; {tch}, die als Masche zählen, sind die erste."
    ),
    "special.edge.mixed.apart": "Randmasche: die erste und die letzte Masche einer Reihe.",
    "special.edge.apart": "Randmasche: die erste und die letzte Masche einer Reihe.",
    "reading.sides": "Ungerade Reihen sind {RS}, gerade Reihen {WS}.",
    "reading.chain": (
        "Der Anschlag hat unter der Randmasche an jedem Ende eine eigene {ch}; eine Anleitung, die unter der ersten "
        "keine vorsieht, beginnt mit 1 {ch} weniger."
    ),
    "reading.chain.bare": (
        "Der Anschlag hat unter jeder {st} von Reihe 1 eine eigene {ch}, auch unter den {tch}; eine Anleitung, die "
        "unter diesen keine vorsieht, beginnt mit 1 {ch} weniger."
    ),
    "reading.chain.beside": (
        "Der Anschlag hat unter der ersten Randmasche keine eigene {ch}: die {tch} stehen neben der {ch}, in die "
        "zuerst gehäkelt wird."
    ),
    "reading.count": (
        "Am Ende jeder Reihe steht, was gezählt wird: die {cl}, dann in Klammern die Maschen samt Randmaschen."
    ),
    "reading.count.tch": "Die {tch} zählen als 1 {tch}, ihre {ch} nicht noch einmal.",
    "reading.new_chain": "Die {ch} einer neuen Kette, die eine Reihe verbreitert, zählen bei ihren {ch} mit.",
    "reading.repeat": "[\N{NO-BREAK SPACE}]: so oft häkeln, wie danach steht.",
    "reading.together": "( ) vor einer Stelle: alles darin in diese eine Stelle häkeln.",
    "reading.change": "Zum Wechseln der {color} den letzten {yo} der letzten Masche mit dem neuen Garn holen.",
    # Mehrere Größen in einem Text.
    "sizes.only.one": "Nur Größe {names}:",
    "sizes.only.many": "Nur Größen {names}:",
    "sizes.how": (
        "Größen: {sizes}. Steht nur eine Zahl da, gilt sie für alle Größen. Sonst gilt die erste für Größe {first}, "
        "die in Klammern gelten der Reihe nach für {others}. Innerhalb "
        "anderer Klammern stehen sie in eckigen. Ein Strich (–): das gilt nicht für diese Größe. Ist eine Reihe oder "
        "ein Satz nur für einige Größen, gelten die Zahlen darin der Reihe nach für diese."
    ),
    "piece": "{rows} Reihen, {worked} gehäkelt.",
    "worked.sideways": "quer",
    "worked.upwards": "aufwärts",
    "make": "{n}-mal gleich häkeln.",
    "one_color": "Durchgehend in {name} häkeln.",
    "foundation": "Anschlag: {n} {ch}{sum}.",
    "foundation.color": "Anschlag: {n} {ch} in {name}{sum}.",
    "foundation.sum.less": " (ein Vielfaches von {multiple} minus {less}: {times} × {multiple} − {less})",
    "foundation.sum": " (ein Vielfaches von {multiple} plus {plus}: {times} × {multiple} + {plus})",
    "foundation.told.one": "Die letzte {ch} ist die {tch} der Reihe 1.",
    "foundation.told.many": "Die letzten {n} {ch} sind die {tch} der Reihe 1.",
    "foundation.on": (
        "Anschlag: die andere Seite der {base} {ch}, auf denen {other} steht; keine neuen {ch}. {other} so "
        "halten, dass diese {ch} oben liegen, rechte Seite vorn, und das Garn in der ersten rechts ansetzen."
    ),
    "foundation.on.color": (
        "Anschlag: die andere Seite der {base} {ch}, auf denen {other} steht; keine neuen {ch}. {other} so "
        "halten, dass diese {ch} oben liegen, rechte Seite vorn, und {name} in der ersten rechts ansetzen."
    ),
    "foundation.on.told.one": (
        "{n} {ch} häkeln, die {tch} der Reihe 1; was Reihe 1 von der Nadel aus zählt, geht auf diesen {ch} "
        "weiter."
    ),
    "foundation.on.told.many": (
        "{n} {ch} häkeln, die {tch} der Reihe 1; was Reihe 1 von der Nadel aus zählt, geht auf diesen {ch} "
        "weiter."
    ),
    "foundation.armhole": (
        "Anschlag: keine {ch}; zuerst die Schultern nähen. Linke Seite des Körpers vorn, das Garn unter dem Arm "
        "ansetzen und {base} {sc} am Armausschnitt entlang bis wieder unter den Arm häkeln, verteilt wie bei den "
        "Nähten gesagt."
    ),
    "foundation.armhole.color": (
        "Anschlag: keine {ch}; zuerst die Schultern nähen. Linke Seite des Körpers vorn, {name} unter dem Arm "
        "ansetzen und {base} {sc} am Armausschnitt entlang bis wieder unter den Arm häkeln, verteilt wie bei den "
        "Nähten gesagt."
    ),
    "foundation.armhole.told.one": (
        "{n} {ch} häkeln, die {tch} der Reihe 1, und wenden; Reihe 1 nimmt diese {sc} für ihre {ch} und "
        "zählt von der {tch} an weiter."
    ),
    "foundation.armhole.told.many": (
        "{n} {ch} häkeln, die {tch} der Reihe 1, und wenden; Reihe 1 nimmt diese {sc} für ihre {ch} und "
        "zählt von der {tch} an weiter."
    ),
    "section.first shoulder": "erste Schulter",
    "section.second shoulder": "zweite Schulter",
    "section.goes_on": (
        "Reihen {first} bis {last} nur über den ersten Teil der Reihe {after} häkeln. Der Rest der Reihe {after} "
        "bleibt vorerst liegen."
    ),
    "section.goes_on.one": (
        "Reihe {first} nur über den ersten Teil der Reihe {after} häkeln. Der Rest der Reihe {after} bleibt vorerst "
        "liegen."
    ),
    "section.joined": "Zurück zur Reihe {after} ({side}). In derselben Richtung häkeln wie Reihe {first} ({other}).",
    "fasten_off": "Faden abschneiden und durchziehen.",
    "row": "Reihe {n} ({side}): ",
    "row.color": "Reihe {n} ({side}, {name}): ",
    "rows": "{rows} ({side} und {other} im Wechsel): ",
    "rows.color": "{rows} ({side} und {other} im Wechsel, {name}): ",
    "rows.two": "Reihen {first} und {last}",
    "rows.range": "Reihen {first} bis {last}",
    "again": "{rows} wiederholen",
    "again.ending": "{rows} wiederholen, mit Reihe {row} enden",
    "again.two": "Reihen {first} und {last}",
    "again.range": "Reihen {first} bis {last}",
    "count": "{clusters} {cl} ({parts})",
    "count.one_row": "{count}.",
    "count.each": "Jede Reihe: {count}.",
    "count.turn": "Zahlen im Wechsel: {counts}.",
    "part.dc": "{n} {dc}",
    "part.ch": "{n} {ch}",
    "part.sl_st": "{n} {sl_st}",
    "part.tch": "{n} {tch}",
    "part.solid": "{n} {stitch}",
    "half": "eine halbe",
    "shaped.start.less": "am Anfang: {amount} {rep} weniger",
    "shaped.start.more": "am Anfang: {amount} {rep} mehr",
    "shaped.end.less": "am Ende: {amount} {rep} weniger",
    "shaped.end.more": "am Ende: {amount} {rep} mehr",
    "spaces.one": "{sp} für die nächste Reihe, von deren Anfang gezählt: zwischen der {nth} und {next} {st}.",
    "spaces.many": (
        "{sp} für die nächste Reihe, von deren Anfang gezählt: der erste zwischen der {nth} und {next} {st}, dann "
        "einer nach je {every} {st}."
    ),
    "change": "mit dem letzten {yo} zu {name} wechseln",
    "change.row": "Mit dem letzten {yo} der Reihe {row} zu {name} wechseln.",
    "stripes": "{colors}: {list}; jeweils mit dem letzten {yo} der Reihe davor wechseln.",
    "stripe.one": "Reihe {first} {name}",
    "stripe.two": "Reihen {first} und {last} {name}",
    "stripe.range": "Reihen {first} bis {last} {name}",
    "stripe.after": "Reihe {first} {name}",
    "stripes.cycle": "ab Reihe {first} immer wieder bis Reihe {last}: {list} (Beginn in den Reihen {begins})",
    "stripe.height.one": "{n} Reihe {name}",
    "stripe.height.many": "{n} Reihen {name}",
    "chain": "{n} {ch}",
    "chain.new": "{n} {ch} (die letzten {turning} {ch} sind die {tch})",
    "chain.new.one": "{n} {ch} (die letzte {ch} ist die {tch})",
    "turn": "wenden",
    "slip_along.one": "1 {sl_st} in die nächste {st}",
    "slip_along.many": "je 1 {sl_st} in die nächsten {n} {st}",
    "slip_into": "1 {sl_st} {place}",
    "work.dc": "1 {dc} {place}",
    "work.dcs": "{n} {dc} {place}",
    "work.together": "2 {dc} zus {first} und {second}",
    "work.with_chain": "1 {dc} {place} (mit den {n} {ch}: 1 {tch})",
    "work.cl": "1 {cl} {place}",
    "work.cl_and_dc": "(1 {cl}, 1 {dc}) {place}",
    "work.dc_and_cl": "(1 {dc}, 1 {cl}) {place}",
    "solid.in": "1 {stitch} {place}",
    "solid.stitches.one": "1 {stitch} in die nächste {st}",
    "solid.stitches.many": "je 1 {stitch} in die nächsten {n} {st}",
    "solid.chains.one": "1 {stitch} in die nächste {ch}",
    "solid.chains.many": "je 1 {stitch} in die nächsten {n} {ch}",
    "skip_stitches": "{n} {st} {skip}",
    "dc_in_chains.one": "1 {dc} in die nächste {ch}",
    "dc_in_chains.many": "je 1 {dc} in die nächsten {n} {ch}",
    "cl_in_spaces.one": "1 {cl} in den nächsten {sp}",
    "cl_in_spaces.many": "je 1 {cl} in die nächsten {n} {sp}",
    "cl_in_units.one": "1 {cl} in die nächste {cl}",
    "cl_in_units.one/cl-n": "1 {cl} in das nächste {cl}",
    "cl_in_units.many": "je 1 {cl} in die nächsten {n} {cl}",
    "skip_chains": "{n} {ch} {skip}",
    "skip_first": "1. {st} {skip}",
    "skip_edge": "Randmasche {skip}",
    "skip_cluster.first": "1. {cl} {skip}",
    "skip_cluster.next": "nächste {cl} {skip}",
    "skip_cluster.last": "letzte {cl} {skip}",
    "skip_cluster.next/cl-n": "nächstes {cl} {skip}",
    "skip_cluster.last/cl-n": "letztes {cl} {skip}",
    "repeat": "[{steps}] {n}-mal",
    "join": "nach dem Abschnitt {section} {name} anschlingen {place}",
    "join.skipped": "nach dem Abschnitt {section} {n} {cl} {skip}, {name} anschlingen {place}",
    "join.same": "{name} anschlingen {place} wie der Abschnitt {section}",
    "join.yarn": "Garn",
    "leave.tch": "{tch} unbehäkelt lassen",
    "leave.edge": "Randmasche unbehäkelt lassen",
    "leave.clusters": "letzte {n} {cl} unbehäkelt lassen",
    "leave.rest": "Rest der Reihe unbehäkelt lassen",
    "in.chain_from_hook": "in die {nth} {ch} ab Nadel",
    "in.next_chain": "in die nächste {ch}",
    "in.next_stitch": "in die nächste {st}",
    "in.last_chain": "in die letzte {ch}",
    "in.space.first": "in den 1. {sp}",
    "in.space.next": "in den nächsten {sp}",
    "in.space.same": "in denselben {sp}",
    "in.dc_of_cluster.next": "in das {nth} {dc} der nächsten {cl}",
    "in.dc_of_cluster.same": "in das {nth} {dc} derselben {cl}",
    "in.last_dc": "in das letzte {dc} der letzten {cl}",
    "in.dc_of_cluster.next/st-f": "in die {nth} {dc} der nächsten {cl}",
    "in.dc_of_cluster.same/st-f": "in die {nth} {dc} derselben {cl}",
    "in.last_dc/st-f": "in die letzte {dc} der letzten {cl}",
    "in.top": "in die {nth} {ch} der {tch}",
    "in.base": "in den Fuß der {tch}",
    "in.first": "in die 1. {st}",
    "in.edge": "in die Randmasche",
    "in.half": "zwischen Randmasche und {dc} daneben",
    "in.beside": "in das {dc} neben der Randmasche",
    "in.beside/st-f": "in die {dc} neben der Randmasche",
    "in.same_place": "in dieselbe Stelle",
    "in.unit.next": "in die nächste {cl}",
    "in.unit.same": "in dieselbe {cl}",
    "in.unit.last": "in die letzte {cl}",
    "in.unit.next/cl-n": "in das nächste {cl}",
    "in.unit.same/cl-n": "in dasselbe {cl}",
    "in.unit.last/cl-n": "in das letzte {cl}",
}
