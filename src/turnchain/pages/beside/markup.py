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
    """The codes of the languages that the rows are in on the page: both kinds of English, of which one is shown at a
    time, or the one language of the pattern."""
    return TERMS if pattern.language in ("", *TERMS) else (pattern.language,)


def plain(text: str) -> str:
    """``text`` on one line without characters that do not print (``lettering.measuring.printable``), escaped for HTML,
    attributes included."""
    return escape(measuring.printable(text))


def set_apart(text: str) -> str:
    """A maker's word as HTML, in <bdi>: whether it is written from the left or from the right, it leaves the text
    around it in order."""
    return f"<bdi>{plain(text)}</bdi>"


def in_each(made: Iterable[tuple[str, str]]) -> str:
    """HTML from pairs of a language's code and the HTML in it: a <span> for each, of which the page shows one."""
    return "".join(
        f'<span class="{term.lower()}" lang="{LANGUAGES[term].tag}">{text}</span>' for term, text in made
    )


def chip(number: int) -> str:
    """HTML: the letter of a yarn on its colour; ``number`` is the yarn's, from 1."""
    return f'<span class="chip c{number}">{style.letter(number - 1)}</span>'
