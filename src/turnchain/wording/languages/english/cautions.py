"""Cautions in English.

In: nothing. Out: ``CAUTIONS``, phrases with {slots}. Each names the published rules it was taken from; what is common
practice has no rule to name, and figures that no source was seen for are left out.
"""

from __future__ import annotations

CAUTIONS: dict[str, str] = {
    "caution": "{subject}: {words}",
    "caution.subject.sleep": "sleep",
    "caution.subject.cords": "cords",
    "caution.subject.open_fabric": "open fabric",
    "caution.subject.loose_ends": "loose ends",
    "caution.subject.small_parts": "small parts",
    "caution.subject.flame": "flame",
    "caution.subject.blocking": "blocking",
    "caution.subject.washing": "washing",
    "caution.subject.hands": "hands",
    "caution.subject.selling": "selling",
    "caution.always": "follow your local rules; ask a qualified person where a child's safety depends on it",
    "caution.if.child": "if it is for a child: {words}",
    "caution.if.baby": "if it is for a baby: {words}",
    "caution.sleep": (
        "under 12 months no blanket and no loose cover belongs where a baby sleeps (AAP 2022); what is sold for cots "
        "and as sleep bags has rules of its own (EN 16779-1, EN 16781)"
    ),
    "caution.cords": (
        "no cords or drawstrings at hood or neck up to 7 years; elsewhere, to 14 years, only as EN 14682 allows (in "
        "the US 16 CFR 1120 with ASTM F1816)"
    ),
    "caution.open_fabric": (
        "gaps and carried strands can trap fingers and toes; a closed fabric has no gaps. Weave strands in on the "
        "wrong side, or cut them and weave in the ends"
    ),
    "caution.loose_ends": (
        "weave every end in well, in two directions, and check it after each wash: a loose thread can wind itself "
        "round a finger or a toe"
    ),
    "caution.small_parts": (
        "buttons, toggles and pompoms can come off and choke a child: use none for small children, and sew all others "
        "on firmly (in the US 16 CFR 1501; mechanical safety of children's clothing CEN/TR 16792)"
    ),
    "caution.small_parts.pet": (
        "buttons, toggles, pompoms and loose ends can be chewed off and swallowed: leave them out"
    ),
    "caution.flame": "keep {what} away from flames and heaters (in the US {rules})",
    "caution.flame.sleepwear": (
        "keep {what} away from flames and heaters (in the US {rules}); this is not sleepwear unless the "
        "yarn is tested for it"
    ),
    "caution.flame.open": "open fabric",
    "caution.flame.it": "it",
    "caution.flame.rules": "16 CFR 1610",
    "caution.flame.rules.child": "16 CFR 1610, for children's sleepwear 1615 and 1616",
    "caution.blocking": (
        "count the pins as they go in and as they come out, and keep children and animals away meanwhile; steam and "
        "irons burn the skin, and a hot iron ruins acrylic for good"
    ),
    "caution.washing": "follow the label of the yarn; wash strong {colors} apart the first times",
    "caution.washing.fibre": "{care}. Follow the label of the yarn; wash strong {colors} apart the first times",
    "caution.washing.several": "{care}; wash several {fibers} together as the most delicate of them",
    "care.wool": "wool felts: wash it by hand, lukewarm, without rubbing, and dry it flat",
    "care.superwash_wool": "superwash wool stretches while wet: lift it out with both hands and dry it flat",
    "care.cotton": "cotton shrinks: wash the swatch as the piece will be washed, then measure",
    "care.linen": "linen shrinks: wash the swatch as the piece will be washed, then measure",
    "care.silk": "silk: wash it by hand, cool, and do not wring it",
    "care.viscose": "viscose is weak and heavy while wet: do not wring or hang it",
    "care.acrylic": "acrylic: wash and dry it flat, and never iron it",
    "care.polyester": "polyester: wash it as its label says, and keep hot irons away",
    "care.nylon": "nylon: wash it as its label says, and keep hot irons away",
    "care.mixed": "wash a mixed yarn as the most delicate {fiber} in it",
    "caution.hands": (
        "rest hands, neck and eyes every half hour or so, and stop when it hurts; see a doctor about pain that stays"
    ),
    "caution.selling": (
        "things made for children may be sold only under further rules, on testing, labels and records: ask before you "
        "sell"
    ),
}
