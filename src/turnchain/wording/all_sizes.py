"""What the texts of all sizes need to be told as one: how this language names sizes, and which words change with them.

In: the plans of one pattern in all its sizes. Out: one text of several, as ``merging`` makes it, with a sentence on how
to read it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from turnchain.fabric.plan import Fit, Plan, Row
from turnchain.records import frozen, replace
from turnchain.wording.languages.language import Language, Speech
from turnchain.wording.markdown import escaped_name
from turnchain.wording.merging import Sizes, in_brackets, merged
from turnchain.wording.tables import LANGUAGES, language_of
from turnchain.wording.words import pattern_text


def all_sizes_text(plans: Sequence[Plan], language: str | None = None) -> str:
    """The rows of all sizes in words, as ``words.pattern_text`` has those of one; ``plans`` are of the sizes of one
    pattern, in their order (one alone: that text). KeyError for an unknown language."""
    return told_together(plans, lambda plan: pattern_text(plan, language), language)


def told_together(plans: Sequence[Plan], text: Callable[[Plan], str], language: str | None = None) -> str:
    """The Markdown ``text`` of every plan as one, with a paragraph on sizes before its first chapter."""
    if len(plans) == 1:
        return text(plans[0])
    common = [replace(plan, pattern=replace(plan.pattern, title=plan.pattern.common_title)) for plan in plans]
    spoken = LANGUAGES[language] if language else language_of(plans[0].pattern)
    made = merged([text(plan) for plan in common], sizes_of(common, spoken))
    head, chapters, rest = made.partition("\n\n## ")
    return f"{head}\n\n{how_to_read(common, spoken)}{chapters}{rest}"


def sizes_of(plans: Sequence[Plan], language: Language) -> Sizes:
    """The sizes of ``plans`` in a language, with the words that may differ between them: sides and yarns."""
    yarns = dict.fromkeys(escaped_name(yarn.name) for plan in plans for yarn in plan.pattern.yarns)
    speech = Speech(language)
    words = ((speech["RS"], speech["WS"]), tuple(yarns))
    return Sizes([plan.pattern.size for plan in plans], only_in(language), words, _counted(language))


def _counted(language: Language) -> list[str]:
    """The words that follow an ordinal, "7. Lm": those of the craft; none where it has no full stop."""
    dotted = language.ordinal(7).endswith(".")
    return [token.short for token in language.tokens.values() if token.short] if dotted else []


def side_by_side(
    fits: Sequence[Sequence[Fit]], said: Callable[[str], str] = str
) -> Iterator[tuple[str, list[Fit | None]]]:
    """Every measure of a piece (``fits`` of each size; none where it lacks the piece) with what it is in each size, its
    name as ``said``. Those of an outline have heights in their names: where all sizes have as many measures they go by
    their order, and the heights stand in brackets."""
    there = [one for one in fits if one]
    if len({len(one) for one in there}) == 1:
        for nth, measures in enumerate(zip(*there, strict=True)):
            names = [said(fit.measure).split() for fit in measures]
            alike = len({len(words) for words in names}) == 1
            name = " ".join(map(in_brackets, zip(*names, strict=True))) if alike else " ".join(names[0])
            yield name, [one[nth] if one else None for one in fits]
        return
    known = [{fit.measure: fit for fit in one} for one in fits]
    for measure in dict.fromkeys(measure for one in known for measure in one):
        yield said(measure), [one.get(measure) for one in known]


@frozen
class ToTick:
    """Rows of a ``section`` of a piece that some sizes have, to be ticked off as they are worked: the numbers of those
    ``sizes`` (from 0), and the ``rows`` of each of them, row by row."""

    section: str
    sizes: tuple[int, ...]
    rows: tuple[tuple[Row, ...], ...]


def to_tick(plans: Sequence[Plan], name: str) -> Iterator[ToTick]:
    """The rows of the piece ``name`` in all sizes, section by section, those that more sizes have first."""
    found = {nth: piece for nth, plan in enumerate(plans) for piece in plan.pieces if piece.name == name}
    for section in dict.fromkeys(section for piece in found.values() for section in piece.sections):
        yield from _section_to_tick(section, {nth: piece.section(section) for nth, piece in found.items()})


def _section_to_tick(section: str, found: Mapping[int, Sequence[Row]]) -> Iterator[ToTick]:
    """The rows of one section, by the numbers of the sizes: those that begin alike together, as far as they go; others,
    as shoulders that begin at another row, apart."""
    for first in dict.fromkeys(rows[0].number for rows in found.values() if rows):
        begun = {nth: rows for nth, rows in found.items() if rows and rows[0].number == first}
        for start, end in pairwise([0, *sorted({len(rows) for rows in begun.values()})]):
            sizes = tuple(nth for nth, rows in begun.items() if len(rows) >= end)
            yield ToTick(section, sizes, tuple(zip(*(begun[nth][start:end] for nth in sizes), strict=True)))


def only_in(language: Language) -> Callable[[Sequence[str]], str]:
    """What says in a language that something is for some sizes only."""

    def only(names: Sequence[str]) -> str:
        return Speech(language).say(f"sizes.only.{'one' if len(names) == 1 else 'many'}", names=language.listed(names))

    return only


def how_to_read(plans: Sequence[Plan], language: Language) -> str:
    """How figures of several sizes are read."""
    first, *others = (plan.pattern.size for plan in plans)
    sizes = f"{first} ({', '.join(others)})"
    return Speech(language).say("sizes.how", sizes=sizes, first=first, others=language.listed(others))
