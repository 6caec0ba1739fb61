"""What the page beside the work says in English.

In: nothing. Out: ``BESIDE``, phrases with {slots}; the script of the page fills those that change.
"""

from __future__ import annotations

BESIDE: dict[str, str] = {
    "beside.title": "{title}: row by row",
    "beside.kicker": "Row by row",
    "beside.skip": "Skip to the rows",
    "beside.unkept": (
        "This browser cannot keep your place: its storage is full, or switched off. The address of this page has it: "
        "leave the page open, or save its address as a bookmark."
    ),
    "beside.size": "Size",
    "beside.terms": "Terms",
    "beside.page": "Page",
    "beside.device": "As on this device",
    "beside.light": "Light",
    "beside.dark": "Dark",
    "beside.pieces": "Pieces",
    "beside.edgings": "Edgings",
    "beside.tick": "When the pieces are sewn together. Tick off each row as it is worked.",
    "beside.colours": "{Colors}",
    "beside.colours.tab": "{colors}",
    "beside.words": "Words",
    "beside.chart": "Chart of {piece}",
    "beside.closer": "Closer",
    "beside.back": "Back",
    "beside.next": "Next row",
    "beside.chain": "chain {n}",
    "beside.begin": "Begin with a chain of {n}.",
    "beside.chain.on": "begun on {other}",
    "beside.chain.armhole": "begun along the armhole",
    "beside.begin.on": "Begin on the {base} chains of {other}: chain {n} to turn.",
    "beside.begin.armhole": "Begin with {base} {sc} along the armhole: chain {n} and turn.",
    "beside.hint": "Arrow keys, the space bar and swipes change the row.",
    "beside.all_rows": "All rows of {piece}",
    "beside.row": "Row {n}",
    "beside.row.within": "row {n}",
    "beside.side.RS": "Right side",
    "beside.side.WS": "Wrong side",
    "beside.from.left": "from the left",
    "beside.from.right": "from the right",
    "beside.last_row": "The last row",
    "beside.rows_left": "{n} rows left with this one",
    "beside.from_here": "From this row on",
    "beside.from_here.one": "From this row on (of one of {n})",
    "beside.colour": "{color}",
    "beside.rows": "rows",
    "beside.yarn": "yarn",
    "beside.fabric_alone": "Yarn for the fabric alone, without tails and spare.",
    "beside.cloth": "The finished fabric: {pieces}",
    "beside.try": "The finished stripes. Try other {colors}: chart and fabric follow at once.",
    "beside.own_colours": "{Colors} of the pattern",
    "beside.come_gone": "You were at {row}, which this piece no longer has: this is the nearest row.",
    "beside.come": "You were at {row}.",
    "beside.of_another": "The place is that of “{name}”, which was here before.",
    "beside.other_tab": "{row}, as in the other tab.",
    "beside.go": "Go to {row}",
}
