"""The cautions in words: for the report with why each is given, for a customer without.

In: a plan. Out: lines of text, for the customer in the language of the pattern.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import Plan
from turnchain.garment.cautions import Caution, cautions
from turnchain.garment.who import WornBy
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of


def for_customer(plan: Plan) -> list[str]:
    """Every caution that applies, one to a line, with its subject, in the language of the pattern; the last line says
    whose rules to follow."""
    speech = speech_of(plan.pattern)
    told = [
        speech.say("caution", subject=speech.named_by("caution.subject", one.subject), words=_said(speech, one))
        for one in cautions(plan)
    ]
    return [*told, speech.say("caution.always")]


def for_report(plan: Plan) -> list[str]:
    """The same, with the reason for each, which like the subject is in English, and before them the question whom it is
    for where a child or a baby is only suggested."""
    speech = speech_of(plan.pattern)
    told = [f"{one.subject} ({_because(one)}): {_said(speech, one)}" for one in cautions(plan)]
    return [*_question(plan), *told, speech.say("caution.always")]


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
        "cord": "it has a cord, a tie or a strap",
        "open cover": "an open fabric, and a cover",
        "open fabric": "open fabric",
        "yarn": "yarn burns",
        "work": "always",
    }[one.reason]


def _for_whom(worn: WornBy) -> str:
    if worn.source == "table":
        return "for a child's size"
    if worn.source == "measures":
        return "for a child, as its measures say"
    return f"for a {worn.who}" + (", as its words say" if worn.source == "words" else "")


# -------------------------------------------------------------------------------------------------------- what is said


def _said(speech: Speech, one: Caution) -> str:
    if one.subject == "small parts":
        return speech.say("caution.small_parts.pet" if one.worn.who == "pet" else "caution.small_parts")
    if one.subject == "flame":
        return _flame(speech, one)
    if one.subject == "washing":
        return _washing(speech, one)
    words = speech.named_by("caution", one.subject)
    if one.certain:
        return words
    return speech.say("caution.if.baby" if one.subject == "open fabric" else "caution.if.child", words=words)


def _flame(speech: Speech, one: Caution) -> str:
    what = speech.say("caution.flame.open" if one.open_fabric else "caution.flame.it")
    rules = speech.say("caution.flame.rules.child" if one.worn.young else "caution.flame.rules")
    return speech.say("caution.flame.sleepwear" if one.sleepwear else "caution.flame", what=what, rules=rules)


def _washing(speech: Speech, one: Caution) -> str:
    care = "; ".join(speech.named_by("care", fibre) for fibre in one.fibres)
    if not care:
        return speech.say("caution.washing")
    several = speech.say("caution.washing.several", care=care) if len(one.fibres) > 1 else care
    return speech.say("caution.washing.fibre", care=several)
