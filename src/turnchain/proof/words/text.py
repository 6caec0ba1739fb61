"""The whole text of a pattern, as a maker has it in hand.

In: the finished text, its language, and the names of its yarns and pieces. Out: ``Written``: what the fabric is made
of, and for every piece what it says of itself, its foundation and its rows as steps. The grammar is the one set out in
``turnchain.wording.words``. ``Unreadable`` names the piece, the paragraph and the words that do not fit.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from turnchain.proof.hook.stitches import Craft
from turnchain.proof.words.piece import piece_of
from turnchain.proof.words.tongue import Tongue, marked, tongue
from turnchain.proof.words.written import Unreadable, Written


def read_words(text: str, language: str, yarns: Iterable[str], pieces: Iterable[str]) -> Written:
    """The whole finished ``text``. Raises Unreadable."""
    words = tongue(language, tuple(yarns))
    paragraphs = text.rstrip("\n").split("\n\n")
    starts = _headings(words, paragraphs, list(pieces))
    k, gap_words = _special(words, paragraphs[: starts[0]])
    ends = [*starts[1:], len(paragraphs)]
    made = [piece_of(words, paragraphs[start:end]) for start, end in zip(starts, ends, strict=True)]
    gaps = {piece.multiple - k for piece in made}
    if len(gaps) != 1 or (gap_words is not None and gap_words != (min(gaps) > 0)):
        raise Unreadable(f"clusters of {k} dc and gaps as told do not make the multiples of the foundations")
    return Written(Craft(k, gaps.pop()), made)


def _headings(words: Tongue, paragraphs: list[str], pieces: list[str]) -> list[int]:
    """Where each piece begins: the headings after the three that explain, in the pattern's order."""
    found = [nth for nth, paragraph in enumerate(paragraphs) if paragraph.startswith("## ")]
    heads = [f"## {head}" for head in words.phrases["heads"].split("|")]
    told = [paragraphs[nth] for nth in found]
    if told != [*heads, *(f"## {marked(name)}" for name in pieces)]:
        raise Unreadable(f"the headings are {told}")
    return found[3:]


def _special(words: Tongue, paragraphs: list[str]) -> tuple[int, int | None]:
    """How many dc a cluster has and, where spaces are explained, whether chains make them."""
    if not any(paragraph.startswith(words.say("written")) for paragraph in paragraphs):
        raise Unreadable(f'nothing says "{words.say("written")}"')
    cluster = _first(words.pattern("cluster"), paragraphs)
    if cluster is None:
        raise Unreadable("nothing says what a cluster is")
    gap = 1 if _first(words.pattern("open"), paragraphs) else 0 if _first(words.pattern("closed"), paragraphs) else None
    return int(cluster["n"]), gap


def _first(pattern: re.Pattern[str], paragraphs: list[str]) -> re.Match[str] | None:
    return next((match for paragraph in paragraphs if (match := pattern.match(paragraph))), None)
