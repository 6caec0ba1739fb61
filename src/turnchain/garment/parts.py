"""The parts of a published pattern that stand around its rows, as pattern.md and the booklet both have them.

In: a plan. Out: paragraphs and ``Chapter`` s in the pattern's language. The order of a pattern is: what it is and for
whom; measures; materials; gauge; abbreviations and reading; the pieces; joining, border, ends, blocking and care;
cautions; a row checklist; contact and licence.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import caution_words, materials
from turnchain.garment.finishing import Chapter
from turnchain.pattern import Photo, Piece
from turnchain.wording.tables import speech_of

TOP, JOINING = "top", "joining"


def about(plan: Plan) -> list[str]:
    """What it is and for whom, a paragraph to an entry: the maker's introduction and note, and who it is for as far as
    that is said. Empty where the file says none of it."""
    pattern = plan.pattern
    return [said for said in [*_paragraphs(pattern.introduction), pattern.note, _for_whom(plan)] if said]


def _for_whom(plan: Plan) -> str:
    wearer, speech = plan.pattern.wearer, speech_of(plan.pattern)
    if wearer is None or wearer.who is None:
        return ""
    who = speech.say(f"who.{wearer.who}")
    return speech.say("who.size", who=who, size=wearer.size) if wearer.size else f"{who}."


def at_hand(plan: Plan) -> Chapter:
    """Yarns with their amounts, hook and notions."""
    return Chapter(speech_of(plan.pattern).say("page.materials"), tuple(materials.to_buy(plan)))


def gauge(plan: Plan) -> Chapter:
    """What must be counted on the swatch: one entry, clusters and rows."""
    return Chapter(speech_of(plan.pattern).say("page.gauge"), (materials.gauge(plan),))


def before(plan: Plan, piece: PiecePlan) -> list[str]:
    """The maker's own paragraphs before the rows of a piece; empty where there are none."""
    return _paragraphs(_asked(plan, piece).before)


def after(plan: Plan, piece: PiecePlan) -> list[str]:
    """The maker's own paragraphs after the rows of a piece; empty where there are none."""
    return _paragraphs(_asked(plan, piece).after)


def _asked(plan: Plan, piece: PiecePlan) -> Piece:
    return next(one for one in plan.pattern.pieces if one.name == piece.name)


def cautions(plan: Plan) -> Chapter:
    """What can hurt, a caution to an entry, and last whose rules to follow; never empty."""
    return Chapter(speech_of(plan.pattern).say("page.cautions"), tuple(caution_words.for_customer(plan)))


def contact(plan: Plan) -> Chapter:
    """Where to ask, the licence and the link; no entries where the file names none of them."""
    speech, pattern = speech_of(plan.pattern), plan.pattern
    licence = [speech.say("contact.licence", licence=pattern.licence)] if pattern.licence else []
    found = [speech.say("contact.link", link=pattern.link)] if pattern.link else []
    return Chapter(speech.say("page.contact"), (*_paragraphs(pattern.contact), *licence, *found))


def photos(plan: Plan, place: str) -> Iterator[tuple[int, Photo]]:
    """The photographs of a ``place`` (``TOP``, ``JOINING`` or the name of a piece), each with its number among all
    photographs of the file, from 1."""
    yield from ((nth, photo) for nth, photo in enumerate(plan.pattern.photos, 1) if photo.place == place)


def _paragraphs(text: str) -> list[str]:
    return [part for part in text.split("\n\n") if part]
