"""What the parts of a pattern around its rows say in English: materials, seams, finishing, schematic, headings.

In: nothing. Out: ``MAKING_UP``, phrases with {tokens} and {slots}; US and UK differ in the tokens alone.
"""

from __future__ import annotations

MAKING_UP: dict[str, str] = {
    # Headings.
    "page.contents": "Contents",
    "page.materials": "Materials",
    "page.size": "Size",
    "page.schematic": "Schematic",
    "page.written": "How the rows are written",
    "page.edges": "How the edge is worked",
    "page.rows": "{piece}: the rows",
    "page.checklist": "{piece}: row checklist",
    "page.finishing": "Finishing",
    "page.cautions": "Cautions",
    "page.piece": "piece",
    "page.measure": "measure",
    # Materials.
    "span.range": "{least} to {most}",
    "span.at_most": "at most {most}",
    "materials.any_yarn": "yarn: any that gives the gauge",
    "materials.yarn": "yarn {letter}, {name} ({colour})",
    "materials.yarn.amount": "yarn {letter}, {name} ({colour}): {amount}",
    "materials.yarn.estimate": "yarn {letter}, {name} ({colour}): an estimate of {amount}",
    "materials.balls.one": "{n} ball",
    "materials.balls.many": "{n} balls",
    "materials.shopping": "shopping list, an estimate until a swatch is weighed: {balls}",
    "materials.shopping.yarn": "{yarn} {balls} of {weight}",
    "materials.any_hook": "hook: the size that gives the gauge",
    "materials.hook": "hook: {hooks}, or the size that gives the gauge",
    "materials.hook.us": "{mm} mm (US {label})",
    "materials.gauge": "gauge: {gauge}, counted on a swatch treated as the piece will be",
    "materials.notions": "notions: a blunt sewing needle, scissors, a tape measure, rustless pins for blocking",
    "materials.notions.markers": (
        "notions: a blunt sewing needle, scissors, a tape measure, rustless pins for blocking, stitch markers"
    ),
    # Edges and openings by the names of people.
    "run.first": "first row",
    "run.last": "last row",
    "run.left": "left edge",
    "run.right": "right edge",
    "run.lower": "lower edge",
    "run.upper": "upper edge",
    "run.neck": "neck",
    "run.shoulder": "shoulder",
    "run.of": "{piece}, {edge}",
    "kind.shoulder": "shoulder",
    "kind.sleeve_top": "sleeve top",
    "kind.side": "side",
    "kind.sleeve": "sleeve",
    "kind.seam": "seam",
    "kind.neck": "neck",
    "kind.armhole": "armhole",
    "kind.lower_edge": "lower edge",
    "kind.cuff": "cuff",
    "kind.open_edge": "open edge",
    "kind.all_round": "all round",
    # Blocking and seams.
    "finishing.blocking": "Blocking",
    "finishing.seams": "Seams, in this order",
    "finishing.border": "Border",
    "finishing.ends": "Ends",
    "blocking.how": (
        "wool and plant fibres: wash or soak, press the water out in a towel, pin out to the measures below and let "
        "dry. Acrylic: wash and dry flat; a hot iron ruins it for good. Follow the yarn's label"
    ),
    "blocking.swatch": "the measures hold for fabric treated as the swatch was when it was counted",
    "seam": "{letter}, {kind}: {meeting}",
    "seam.uneven": "{letter}, {kind}: {meeting}; {apart}",
    "seam.meeting": "{one}, {counted}, to {other}, {met}",
    "seam.edges": "{one} to {other}",
    "seam.row": "row {first}",
    "seam.rows": "rows {first} to {last}",
    "seam.clusters.one": "{n} cluster",
    "seam.clusters.many": "{n} clusters",
    "seam.agrees": "they agree",
    "seam.agrees.rows": "they agree, row for row",
    "seam.as_long": "they are as long, but {edge} has {more} more; ease it in evenly along the seam",
    "seam.longer.eased": "{edge} is {length} longer; ease it in evenly along the seam",
    "seam.longer.eased.by": "{edge} is {length} longer ({more}); ease it in evenly along the seam",
    "seam.longer.left": "{edge} is {length} longer, more than a seam eases in: leave the rest open",
    "seam.longer.left.by": "{edge} is {length} longer ({more}), more than a seam eases in: leave the rest open",
    "seam.how": (
        "right sides out, with mattress stitch, {sl_st_full} or {sc_full}; meet row with row where both sides have "
        "rows, so that stripes meet"
    ),
    # The border and the ends.
    "border.how": (
        "{sc} is {sc_full}. One number kept along a whole edge lies flat: too few {sc} pull in, too many ruffle. In "
        "further rounds work 1 {sc} in each, and {corner} in the middle one of each corner"
    ),
    "border": "{name}: {sides}: {n} {sc} in all",
    "border.times": "{name}, {times} times: {sides}: {n} {sc} in all",
    "border.side": "{edge} {n} {sc} ({how})",
    "border.corners": "{corner} in each of {n} corners",
    "border.foundation": "1 in each chain of the foundation",
    "border.row_tops": "1 in each stitch and chain",
    "border.row_ends": "{n} in each row end",
    "border.slant": "{n} in each straight row end, by length where rows slant",
    "border.steps": "{how}, 1 in each of the {n} stitches of its steps",
    "border.length": "its length is {length}",
    "border.yarn.unknown": "weigh a swatch to know how much yarn it takes",
    "border.yarn": (
        "yarn for one round of {sc} on every edge named: about {amount}, reckoned as fabric of the border's length by "
        "half a row's height at the swatch's weight, with {margin} % over"
    ),
    "border.yarn.of": "{weight} of {yarn}",
    "ends.cut": "{n} ends to weave in where every stripe is cut, 2 to a stripe",
    "ends.cut.each": "{n} ends to weave in where every stripe is cut, 2 to a stripe ({each})",
    "ends.carried": "{n} ends where each yarn is carried up the edge as far as it can be",
    "ends.tails": "leave tails of {tail}, weave them in along stripes of their own colour, and turn back once",
    # The schematic.
    "schematic": "Schematic",
    "schematic.scale": "As worn, right side facing, all to one scale; cm and in as worked",
    "schematic.title": "{title}: schematic",
    "schematic.alt": "Schematic of {title}.",
    "schematic.summary": "{rows}, worked {worked} from a chain of {chains}",
    "schematic.further": "{piece}, further widths: {measures}",
    "schematic.bar": "a bar of {n} cm",
    "schematic.chain": "foundation chain",
    "schematic.shaped": "shaped edge",
    "schematic.direction": "direction of work",
    "schematic.direction.short": "direction|of work",
    "schematic.arrow": "direction of work, row 1 at its tail",
    "schematic.seam": "Seam {seam}.",
    "schematic.nape": "{length} below the nape",
    "level.waist": "the wearer's waist",
    "level.hip": "the wearer's hip",
    "level.knee": "the wearer's knee",
    "sewn": "As sewn",
    "sewn.scale": "Opened out flat, right side facing, all to one scale",
    "sewn.title": "{title}: as sewn",
    "sewn.alt": "The pieces of {title} laid out as sewn, opened out flat. {seams}",
}
