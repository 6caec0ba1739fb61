"""What a maker wrote, as HTML.

In: words. Out: the same escaped, set apart where they may be written from right to left, in US and UK terms.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from turnchain import lettering, style, terms
from turnchain.pattern import Terms

TERMS: tuple[Terms, ...] = ("US", "UK")


def plain(text: str) -> str:
    """Words for HTML: printable, and escaped."""
    return escape(lettering.printable(text))


def set_apart(text: str) -> str:
    """A maker's word, whichever way it is written."""
    return f"<bdi>{plain(text)}</bdi>"


def in_both(made: Iterable[tuple[Terms, str]]) -> str:
    """HTML in US and UK terms, of which one is seen."""
    return "".join(
        f'<span class="{term.lower()}" lang="{terms.LANGUAGE[term]}">{text}</span>' for term, text in made
    )


def chip(number: int) -> str:
    """The letter of a yarn on its colour; yarns are numbered from 1."""
    return f'<span class="chip c{number}">{style.letter(number - 1)}</span>'
