"""The tables of all languages, and the one that a pattern is told in.

In: a pattern. Out: ``LANGUAGES``, each a table of tokens, a table of phrases and a few small grammar functions; the
``Language`` or a fresh ``Speech`` of a pattern. To add a language, write its package in ``languages`` and name its
table here; the tests say what is missing from it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern
from turnchain.wording.languages.english.table import UK, US
from turnchain.wording.languages.french.table import FRENCH
from turnchain.wording.languages.german.table import GERMAN
from turnchain.wording.languages.language import Language, Speech

LANGUAGES: dict[str, Language] = {language.code: language for language in (US, UK, GERMAN, FRENCH)}


def language_of(pattern: Pattern) -> Language:
    """The language that a pattern is told in: the one asked for, else English in the pattern's own terms."""
    return LANGUAGES[pattern.language or pattern.terms]


def speech_of(pattern: Pattern, named: Callable[[str], str] = str) -> Speech:
    """A fresh speech in the language of ``pattern``; ``named`` is how names are put into the text."""
    return Speech(language_of(pattern), named)


def told_in(plan: Plan, language: str | None) -> Plan:
    """The same plan, told in the language of that code; as it is where none is named."""
    return plan if language is None else replace(plan, pattern=replace(plan.pattern, language=language))
