"""The tables of all languages, and the one that a pattern is told in.

In: a pattern. Out: ``LANGUAGES``, each a table of tokens, a table of phrases and a few small grammar functions, loaded
when it is first asked for; the ``Language`` or a fresh ``Speech`` of a pattern. To add a language, write its package in
``languages`` and name its table here; the tests say what is missing from it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Final

from turnchain.errors import MakerError
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern
from turnchain.records import replace
from turnchain.wording.languages.language import Language, Speech
from turnchain.wording.naming import naming_of


def _us() -> Language:
    from turnchain.wording.languages.english.table import US  # when it is asked for

    return US


def _uk() -> Language:
    from turnchain.wording.languages.english.table import UK  # when it is asked for

    return UK


def _german() -> Language:
    from turnchain.wording.languages.german.table import GERMAN  # when it is asked for

    return GERMAN


def _french() -> Language:
    from turnchain.wording.languages.french.table import FRENCH  # when it is asked for

    return FRENCH


_TABLES: Final = {"US": _us, "UK": _uk, "de": _german, "fr": _french}


class _Languages(Mapping[str, Language]):
    """The languages by their codes; the table of each is loaded when it is first asked for."""

    def __getitem__(self, code: str) -> Language:
        return _TABLES[code]()

    def __iter__(self) -> Iterator[str]:
        return iter(_TABLES)

    def __len__(self) -> int:
        return len(_TABLES)

    def __contains__(self, code: object) -> bool:
        return code in _TABLES


LANGUAGES: Final[Mapping[str, Language]] = _Languages()


def language_of(pattern: Pattern) -> Language:
    """The language that a pattern is told in: the one asked for, else English in the pattern's own terms. KeyError for
    a code without a table in ``LANGUAGES``."""
    return LANGUAGES[pattern.language or pattern.terms]


def speech_of(pattern: Pattern, named: Callable[[str], str] = str) -> Speech:
    """A fresh speech in the language of ``pattern``; ``named`` makes of a yarn's or piece's name what is put into the
    text. KeyError as in ``language_of``."""
    return Speech(language_of(pattern), named, naming_of(recipe_of(pattern.fabric)))


def told_in(plan: Plan, language: str | None) -> Plan:
    """The same plan with ``language``, a code of ``LANGUAGES``, as the one that its pattern is told in; the plan itself
    where it is None. Raises MakerError for another code."""
    if language is not None and language not in LANGUAGES:
        raise MakerError(f'"{language}" is no language that patterns are told in; write {", ".join(LANGUAGES)}')
    return plan if language is None else replace(plan, pattern=replace(plan.pattern, language=language))
