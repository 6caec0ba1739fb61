"""What edgings say in German: their rows, places along edges, corners, buttonholes, yarn.

In: nothing. Out: ``EDGING``, phrases with {tokens} and {slots}.
"""

from __future__ import annotations

EDGING: dict[str, str] = {
    "edging.name": "Umrandung {number}, {name}",
    "edging.name.times": "Umrandung {number}, {name}, {times}-mal",
    "edging.told": "Umrandung {number}, {name}: {count} {st}{yarn}.",
    "edging.told.tie": "Bänder an ihren Enden, {length} lang.",
    "edging.told.strap": "Träger, {length} lang.",
    "edging.chart.tie": "Band, {length}",
    "edging.chart.strap": "Träger, {length}",
    "edging.rounds": (
        "{name}: {count} {st} ({st_full}){yarn}. Mit der rechten Seite vorn; jede beginnt mit {turning} {ch}, die "
        "keine Masche ist, und schließt mit einer {sl_st_full} in ihre erste Masche"
    ),
    "edging.rows": (
        "{name}: {count} {st} ({st_full}){yarn}. Reihe 1 mit der rechten Seite vorn; jede beginnt mit {turning} {ch}, "
        "die keine Masche ist, und nach jeder wird gewendet"
    ),
    "edging.yarn_of": " in {yarn}",
    "edging.count.round.one": "{n} Runde",
    "edging.count.round.many": "{n} Runden",
    "edging.count.row.one": "{n} Reihe",
    "edging.count.row.many": "{n} Reihen",
    "edging.round": "Umrandung {number}, Runde {first}",
    "edging.round.to": "Umrandung {number}, Runden {first} bis {last}",
    "edging.row": "Umrandung {number}, Reihe {first}",
    "edging.row.to": "Umrandung {number}, Reihen {first} bis {last}",
    "edging.first": "{row}: {sides}: {n} {st} zusammen, {length} lang",
    "edging.later": "{row}: {how}: {n} {st}",
    "edging.side": "{edge} {n} {st} ({how})",
    "edging.side.times": "{side}, {times}-mal",
    "edging.side.part": "{edge}, {n} {st} ({how})",
    "edging.part": "{edge}, Reihenenden {first} bis {last}",
    "edging.corner.outer": "{n} in die Ecke",
    "edging.corner.inner": "{tog} über die Ecke nach innen",
    "edging.tog": "{n} {st} zusammen abmaschen",
    "edging.in.chain.one": "{n} in die Luftmasche vom Anschlag",
    "edging.in.chain.many": "{n} in jede der {places} Luftmaschen vom Anschlag",
    "edging.in.stitch.one": "{n} in die Masche",
    "edging.in.stitch.many": "{n} in jede der {places} Maschen und Luftmaschen",
    "edging.in.row_end.one": "{n} in das Reihenende",
    "edging.in.row_end.many": "{n} in jedes von {places} Reihenenden",
    "edging.in.step.one": "{n} in die Masche der Stufe",
    "edging.in.step.many": "{n} in jede der {places} Maschen der Stufe",
    "edging.in.straight.one": "{n} in das gerade Reihenende",
    "edging.in.straight.many": "{n} in jedes von {places} geraden Reihenenden",
    "edging.in.slant.one": "{n} in das schräge Reihenende",
    "edging.in.slant.many": "{n} in jedes von {places} schrägen Reihenenden",
    "edging.in.kind.one": "{n} in das Ende der Reihe aus {kind}",
    "edging.in.kind.many": "{n} in jedes von {places} Enden der Reihen aus {kind}",
    "edging.clusters": "Gruppen",
    "edging.clusters/rep": "Rapporten",
    "edging.more": "{how}, 1 mehr an {where}",
    "edging.fewer": "{how}, 1 weniger an {where}",
    "edging.skip": "{how}, an {where} keine",
    "edging.every.one": "jeder {nth} Stelle einmal",
    "edging.every.many": "jeder {nth} Stelle {n}-mal",
    "edging.middle": "der mittleren Stelle",
    "edging.on": "je 1 {st} in jede Masche",
    "edging.on.outer.one": "{corner} in die mittlere der Ecke",
    "edging.on.outer.many": "{corner} in die mittlere von jeder der {n} Ecken",
    "edging.on.inner.one": "in der Ecke nach innen {tog}, die mittlere in der Mitte",
    "edging.on.inner.many": "in jeder der {n} Ecken nach innen {tog}, die mittlere in der Mitte",
    "edging.on.fewer": "an {where} mit der davor {tog}",
    "edging.on.more": "an {where} 2 in eine",
    "edging.on.before": "vor Ecke 1 {how}",
    "edging.on.after": "nach Ecke {n} {how}",
    "edging.counted": (
        "Maschen werden in der Reihe darunter gezählt: nach einer Ecke von der an, die ihrer mittleren oder den dort "
        "zusammen abgemaschten folgt"
    ),
    "edging.holes.round": "Umrandung {number}, Knopflöcher in Runde {row}, {edge}: {first} {st}; {holes}",
    "edging.holes.row": "Umrandung {number}, Knopflöcher in Reihe {row}, {edge}: {first} {st}; {holes}",
    "edging.holes.one": (
        "einmal {over} {ch} über {over} übergangene Maschen; {st} bis zum Ende; danach 1 {st} in jede {ch}"
    ),
    "edging.holes.many": (
        "{n}-mal {over} {ch} über {over} übergangene Maschen, dazwischen {gaps}; {st} bis zum Ende; danach 1 {st} in "
        "jede {ch}"
    ),
    "edging.holes.gap.one": "einmal {gap} {st}",
    "edging.holes.gap.many": "{n}-mal {gap} {st}",
    "edging.ties": (
        "Umrandung {number}, Bänder: am Ende der letzten Reihe {chains} {ch}, 1 {sc} in die {nth} {ch} von der Nadel "
        "aus und in jede {ch} bis zur Kante: {n} {sc}, {length} lang; am Anfang dieser Reihe noch eines ebenso"
    ),
    "edging.strap.row": (
        "Umrandung {number}, Träger: nach der letzten Masche {chains} {ch}, {sl_st} in die erste Masche der "
        "letzten Reihe, wenden, 1 {sc} in jede {ch}: {n} {sc}, {length} lang"
    ),
    "edging.strap.round": (
        "Umrandung {number}, Träger: nach der letzten Runde {chains} {ch}, {sl_st} in die {nth} Masche dieser Runde, "
        "wenden, 1 {sc} in jede {ch}: {n} {sc}, {length} lang"
    ),
    "edging.assumed": (
        "wie viele {st} flach liegen, ist nach der Höhe der Reihen angenommen: zuerst 10 cm häkeln; zu wenige ziehen "
        "die Kante zusammen, zu viele wellen sie"
    ),
    "edging.yarn": "Garn für die Umrandungen: etwa {amount}, mit {margin} % Reserve",
}
