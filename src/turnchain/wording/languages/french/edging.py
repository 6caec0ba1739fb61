"""What edgings say in French: their rows, places along edges, corners, buttonholes, yarn.

In: nothing. Out: ``EDGING``, phrases with {tokens} and {slots}.
"""

from __future__ import annotations

EDGING: dict[str, str] = {
    "edging.name": "Bordure {number}, {name}",
    "edging.name.times": "Bordure {number}, {name}, {times} fois",
    "edging.told": "Bordure {number}, {name} : {count} de {st}{yarn}.",
    "edging.told.tie": "Liens à ses bouts, {length} de long.",
    "edging.told.strap": "Bretelle, {length} de long.",
    "edging.chart.tie": "lien, {length}",
    "edging.chart.strap": "bretelle, {length}",
    "edging.rounds": (
        "{name} : {count} de {st} ({st_full}){yarn}. Sur l'endroit ; chaque tour commence par {turning} {ch}, qui "
        "n'est pas une maille, et se ferme par une {sl_st_full} dans sa première {st}"
    ),
    "edging.rows": (
        "{name} : {count} de {st} ({st_full}){yarn}. Le rang 1 sur l'endroit ; chaque rang commence par {turning} "
        "{ch}, qui n'est pas une maille, et on tourne après chacun"
    ),
    "edging.yarn_of": " en {yarn}",
    "edging.count.round.one": "{n} tour",
    "edging.count.round.many": "{n} tours",
    "edging.count.row.one": "{n} rang",
    "edging.count.row.many": "{n} rangs",
    "edging.round": "Bordure {number}, tour {first}",
    "edging.round.to": "Bordure {number}, tours {first} à {last}",
    "edging.row": "Bordure {number}, rang {first}",
    "edging.row.to": "Bordure {number}, rangs {first} à {last}",
    "edging.first": "{row} : {sides} : {n} {st} en tout, {length} de long",
    "edging.later": "{row} : {how} : {n} {st}",
    "edging.side": "{edge} {n} {st} ({how})",
    "edging.side.times": "{side}, {times} fois",
    "edging.side.part": "{edge}, {n} {st} ({how})",
    "edging.part": "{edge}, bouts des rangs {first} à {last}",
    "edging.corner.outer": "{n} dans le coin",
    "edging.corner.inner": "{tog} sur le coin rentrant",
    "edging.tog": "{n} {st} ensemble",
    "edging.in.chain.one": "{n} dans la maille de la chaînette",
    "edging.in.chain.many": "{n} dans chacune des {places} mailles de la chaînette",
    "edging.in.stitch.one": "{n} dans la maille",
    "edging.in.stitch.many": "{n} dans chacune des {places} mailles et mailles en l'air",
    "edging.in.row_end.one": "{n} dans le bout de rang",
    "edging.in.row_end.many": "{n} dans chacun des {places} bouts de rang",
    "edging.in.step.one": "{n} dans la maille de la marche",
    "edging.in.step.many": "{n} dans chacune des {places} mailles de la marche",
    "edging.in.straight.one": "{n} dans le bout de rang droit",
    "edging.in.straight.many": "{n} dans chacun des {places} bouts de rang droits",
    "edging.in.slant.one": "{n} dans le bout de rang en biais",
    "edging.in.slant.many": "{n} dans chacun des {places} bouts de rang en biais",
    "edging.in.kind.one": "{n} dans le bout du rang de {kind}",
    "edging.in.kind.many": "{n} dans chacun des {places} bouts des rangs de {kind}",
    "edging.clusters": "groupes",
    "edging.clusters/rep": "motifs",
    "edging.more": "{how}, 1 de plus à {where}",
    "edging.fewer": "{how}, 1 de moins à {where}",
    "edging.skip": "{how}, aucune à {where}",
    "edging.every.one": "chaque {nth} place 1 fois",
    "edging.every.many": "chaque {nth} place {n} fois",
    "edging.middle": "la place du milieu",
    "edging.on": "1 {st} dans chaque {st}",
    "edging.on.outer.one": "{corner} dans celle du milieu du coin",
    "edging.on.outer.many": "{corner} dans celle du milieu de chacun des {n} coins",
    "edging.on.inner.one": "{tog} au coin rentrant, celle du milieu au centre",
    "edging.on.inner.many": "{tog} à chacun des {n} coins rentrants, celle du milieu au centre",
    "edging.on.fewer": "{tog} à {where} avec la précédente",
    "edging.on.more": "2 à {where}",
    "edging.on.before": "avant le coin 1 {how}",
    "edging.on.after": "après le coin {n} {how}",
    "edging.counted": (
        "Les mailles se comptent dans le rang du dessous : après un coin, à partir de celle qui suit sa maille du "
        "milieu ou celles faites ensemble"
    ),
    "edging.holes.round": "Bordure {number}, boutonnières au tour {row}, {edge} : {first} {st} ; {holes}",
    "edging.holes.row": "Bordure {number}, boutonnières au rang {row}, {edge} : {first} {st} ; {holes}",
    "edging.holes.one": (
        "1 fois {over} {ch} au-dessus de {over} {st} sautées ; {st} jusqu'au bout ; ensuite 1 {st} dans chaque {ch}"
    ),
    "edging.holes.many": (
        "{n} fois {over} {ch} au-dessus de {over} {st} sautées, entre elles {gaps} ; {st} jusqu'au bout ; ensuite 1 "
        "{st} dans chaque {ch}"
    ),
    "edging.holes.gap.one": "1 fois {gap} {st}",
    "edging.holes.gap.many": "{n} fois {gap} {st}",
    "edging.ties": (
        "Bordure {number}, liens : à la fin du dernier rang {chains} {ch}, 1 {sc} dans la {nth} {ch} à partir du "
        "crochet et dans chaque {ch} jusqu'au bord : {n} {sc}, {length} de long ; un autre pareil au début de ce rang"
    ),
    "edging.strap.row": (
        "Bordure {number}, bretelle : après la dernière {st} {chains} {ch}, {sl_st} dans la première {st} du "
        "dernier rang, tourner, 1 {sc} dans chaque {ch} : {n} {sc}, {length} de long"
    ),
    "edging.strap.round": (
        "Bordure {number}, anse : après le dernier tour {chains} {ch}, {sl_st} dans la {nth} {st} de ce tour, tourner, "
        "1 {sc} dans chaque {ch} : {n} {sc}, {length} de long"
    ),
    "edging.assumed": (
        "le nombre de {st} qui reste plat est supposé d'après la hauteur des rangs : crocheter d'abord 10 cm ; trop "
        "peu resserrent le bord, trop le froncent"
    ),
    "edging.yarn": "fil pour les bordures : environ {amount}, réserve de {margin} % comprise",
}
