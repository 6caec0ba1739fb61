"""What a maker wrote, as HTML.

In: words. Out: the same escaped, set apart where they may be written from right to left, in US and UK terms.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from turnchain import style
from turnchain.lettering import measuring
from turnchain.pattern import Pattern
from turnchain.wording.tables import LANGUAGES

TERMS = ("US", "UK")


def languages_of(pattern: Pattern) -> tuple[str, ...]:
    """The languages of the rows on the page: both kinds of English, of which one is seen, or the one asked for."""
    return TERMS if pattern.language in ("", *TERMS) else (pattern.language,)


def plain(text: str) -> str:
    """Words for HTML: printable, and escaped."""
    return escape(measuring.printable(text))


def set_apart(text: str) -> str:
    """A maker's word, whichever way it is written."""
    return f"<bdi>{plain(text)}</bdi>"


def in_each(made: Iterable[tuple[str, str]]) -> str:
    """HTML in each language of the page, of which one is seen."""
    return "".join(
        f'<span class="{term.lower()}" lang="{LANGUAGES[term].tag}">{text}</span>' for term, text in made
    )


def chip(number: int) -> str:
    """The letter of a yarn on its colour; yarns are numbered from 1."""
    return f'<span class="chip c{number}">{style.letter(number - 1)}</span>'
