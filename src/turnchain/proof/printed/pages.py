"""The pages of a booklet, and pattern.md beside them, read for everything that stands on them.

In: the pictures of the pages in the order drawn, and Markdown text. Out: what is text and what is drawn; words without
marks of Markdown, capitals and stops, so that both can be compared.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from urllib.parse import unquote

from turnchain.proof.printed.pattern import plain
from turnchain.proof.printed.picture import ReadPicture

_NOT_SAID = re.compile(r"!\[|\||☐|\s*$")
_IMAGE = re.compile(r"!\[((?:\\.|[^\]\\])*)\]\(<?(.+?)\.\w+>?\)", re.DOTALL)
_ESCAPE = re.compile(r"\\([!-/:-@\[-`{-~])")


@dataclass(frozen=True, slots=True)
class Pages:
    """The ``texts`` of a booklet, the words of one page in each, without what stands at its foot; ``feet``: that, of
    every page but the first; ``drawn``: the pictures."""

    texts: tuple[tuple[str, ...], ...]
    feet: tuple[str, ...]
    drawn: tuple[ReadPicture, ...]


def pages(pictures: Sequence[ReadPicture]) -> Pages:
    """What stands on the pages: a page of text has no alt text, as its words are text already."""
    texts = [one.words for one in pictures if not one.told]
    bodies = [words if not nth else words[:-2] for nth, words in enumerate(texts)]
    return Pages(tuple(bodies), tuple(words[-1] for words in texts[1:]), tuple(one for one in pictures if one.told))


def tokens(words: str) -> list[str]:
    """Words one by one, without capitals, and without the stops and marks that end a line or a list has."""
    said = (one.strip(".*") for one in composed(words).replace("\u00a0", " ").casefold().split())
    return [one for one in said if one and one != "–"]


def composed(words: str) -> str:
    """Letters with their accents as one: some pictures draw them so, and text has them as they were written."""
    return unicodedata.normalize("NFC", words)


def told(markdown: str) -> Iterator[str]:
    """The lines of ``markdown`` that are words: no pictures, tables and boxes to tick."""
    for line in markdown.splitlines():
        if not _NOT_SAID.match(line):
            yield plain(line.lstrip("# ")) if line.startswith("#") else plain(line)


def images(markdown: str) -> Iterator[tuple[str, str]]:
    """Every picture of ``markdown``: the name of its file without the ending, and its alt text."""
    for found in _IMAGE.finditer(markdown):
        yield unquote(found[2]), composed(_ESCAPE.sub(r"\1", found[1]))
