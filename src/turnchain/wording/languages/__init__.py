"""The languages that a pattern can be written in.

In: nothing. Out: ``LANGUAGES``, each a table of tokens, a table of phrases and a few small grammar functions. To
add a language, write its module beside these and name it here; the tests say what is missing from its tables.
"""

from __future__ import annotations

from collections.abc import Callable

from turnchain.pattern import Pattern
from turnchain.wording.languages.english import UK, US
from turnchain.wording.languages.german import GERMAN
from turnchain.wording.languages.language import Language, Speech

LANGUAGES: dict[str, Language] = {language.code: language for language in (US, UK, GERMAN)}


def language_of(pattern: Pattern) -> Language:
    """The language that a pattern is told in: the one asked for, else English in the pattern's own terms."""
    return LANGUAGES[pattern.language or pattern.terms]


def speech_of(pattern: Pattern, named: Callable[[str], str] = str) -> Speech:
    """A fresh speech in the language of ``pattern``; ``named`` is how names are put into the text."""
    return Speech(language_of(pattern), named)
