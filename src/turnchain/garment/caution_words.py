"""The cautions in words: for the report with why each is given, for a customer without.

In: a plan. Out: lines of text. Each names the published rules it was taken from; what is common practice has no rule to
name, and figures that no source was seen for are left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from turnchain.fabric.plan import Plan
from turnchain.garment.cautions import Caution, Subject, cautions
from turnchain.garment.who import WornBy
from turnchain.pattern import Fibre

ALWAYS = "follow your local rules; ask a qualified person where a child's safety depends on it"


def for_customer(plan: Plan) -> list[str]:
    """Every caution that applies, one to a line, and always whose rules to follow."""
    return [*(f"{one.subject}: {_said(one)}" for one in cautions(plan)), ALWAYS]


def for_report(plan: Plan) -> list[str]:
    """The same with why each is given, and the question whom it is for where that is only suggested."""
    told = [f"{one.subject} ({_because(one)}): {_said(one)}" for one in cautions(plan)]
    return [*_question(plan), *told, ALWAYS]


def _question(plan: Plan) -> Iterator[str]:
    worn = cautions(plan)[-1].worn
    if worn.suggested and worn.young:
        why = f'the word "{worn.word}"' if worn.word else "the wearer's measures"
        yield (
            f"whom is it for? {why} may mean a {worn.who}: write who = \"{worn.who}\" under [wearer], or \"adult\", "
            f'"pet" or "home" if it is for none; until then the cautions are those for a {worn.who}'
        )  # fmt: skip


# ----------------------------------------------------------------------------------------------------- why it is said


def _because(one: Caution) -> str:
    if one.reason == "wearer":
        return _for_whom(one.worn)
    return {
        "cover": "a cover, and babies are given covers",
        "cord": "a piece is a cord or a tie",
        "open cover": "an open fabric, and a cover",
        "open fabric": "open fabric",
        "yarn": "yarn burns",
        "work": "in all such work",
    }[one.reason]


def _for_whom(worn: WornBy) -> str:
    if worn.source == "table":
        return "for a child's size"
    if worn.source == "measures":
        return "for a child, as its measures say"
    return f"for a {worn.who}" + (", as its words say" if worn.source == "words" else "")


# -------------------------------------------------------------------------------------------------------- what is said


def _said(one: Caution) -> str:
    return _SAID[one.subject](one)


def _sleep(one: Caution) -> str:
    return (
        "under 12 months no blanket and no loose cover belongs where a baby sleeps (AAP 2022); what is sold for cots "
        "and as sleep bags has rules of its own (EN 16779-1, EN 16781)"
    )


def _cords(one: Caution) -> str:
    return (
        f"{_if(one, 'a child')}no cords or drawstrings at hood or neck up to 7 years; elsewhere, to 14 years, only as "
        "EN 14682 has it (in the US 16 CFR 1120 with ASTM F1816)"
    )


def _open_fabric(one: Caution) -> str:
    return (
        f"{_if(one, 'a baby')}gaps and carried strands trap fingers and toes; a closed fabric has no gaps. Weave "
        "strands in on the wrong side, or cut them and weave in the ends"
    )


def _loose_ends(one: Caution) -> str:
    return (
        "weave every end in well, in two directions, and look again after each wash: a loose thread can wind itself "
        "round a finger or a toe"
    )


def _small_parts(one: Caution) -> str:
    if one.worn.who == "pet":
        return "buttons, toggles, pompoms and loose ends are chewed off and swallowed: leave them out"
    return (
        "buttons, toggles and pompoms come off and choke: none for small children, and all others sewn on to stay "
        "(in the US 16 CFR 1501; mechanical safety of children's clothing CEN/TR 16792)"
    )


def _flame(one: Caution) -> str:
    rules = "16 CFR 1610" + (", for children's sleepwear 1615 and 1616" if one.worn.young else "")
    sleepwear = "; this is not sleepwear unless the yarn is tested for it" if one.sleepwear else ""
    return f"keep {'open fabric' if one.open_fabric else 'it'} off flames and heaters (in the US {rules}){sleepwear}"


def _blocking(one: Caution) -> str:
    return (
        "count the pins as they go in and as they come out, and keep children and animals away meanwhile; steam and "
        "irons burn, and a hot iron ruins acrylic for good"
    )


_CARE: dict[Fibre, str] = {
    "wool": "wool felts: wash it by hand, lukewarm, without rubbing, and dry it flat",
    "superwash wool": "superwash wool stretches while wet: lift it out with both hands and dry it flat",
    "cotton": "cotton shrinks: wash the swatch as the piece will be washed, then measure",
    "linen": "linen shrinks: wash the swatch as the piece will be washed, then measure",
    "silk": "silk: wash it by hand, cool, and do not wring it",
    "viscose": "viscose is weak and heavy while wet: do not wring or hang it",
    "acrylic": "acrylic: wash and dry it flat, and never iron it",
    "polyester": "polyester: wash it as its label says, and keep hot irons off",
    "nylon": "nylon: wash it as its label says, and keep hot irons off",
    "mixed": "a mixed yarn is washed as the fibre in it that bears least",
}


def _washing(one: Caution) -> str:
    care = "; ".join(_CARE[fibre] for fibre in one.fibres)
    several = "; several fibres together are washed as the one that bears least" if len(one.fibres) > 1 else ""
    head = f"{care}{several}. " if care else ""
    return f"{head}{'Follow' if head else 'follow'} the label of the yarn; wash strong colours apart the first times"


def _hands(one: Caution) -> str:
    return "rest hands, neck and eyes every half hour or so, and stop where it hurts; pain that stays is for a doctor"


def _selling(one: Caution) -> str:
    return (
        "who sells things made for children must keep rules of their own on testing, labels and records, besides "
        "those named here: ask before you sell"
    )


def _if(one: Caution, whom: str) -> str:
    return "" if one.certain else f"if it is for {whom}: "


_SAID: dict[Subject, Callable[[Caution], str]] = {
    "sleep": _sleep,
    "cords": _cords,
    "open fabric": _open_fabric,
    "loose ends": _loose_ends,
    "small parts": _small_parts,
    "flame": _flame,
    "blocking": _blocking,
    "washing": _washing,
    "hands": _hands,
    "selling": _selling,
}
