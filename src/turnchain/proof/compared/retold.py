"""What is told a second time, held against where it was told first and has been looked at.

In: the words that were worked, pattern.md, the pages of a booklet. Out: how many figures were looked at, and reasons,
in words. Every figure on a page of a booklet has to be found so, or be one of those that the page alone has: the
numbers of pages, the line under the name of a piece, the boxes to tick.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from turnchain.proof.printed.pages import Pages, composed, images, tokens, told

Looked = tuple[int, list[str]]
_FIGURE = re.compile(r"\d")
_OWN = re.compile(
    r"\d+ rows?\s+·\s+\d+(?: (?:to|and) \d+)? (?:cluster|repeat)s?.*|"  # beside_stitches.summary
    r"(?:[^,]+, )?(?:RS|WS), (?:.+, )?\d+ [\w-]+"  # booklet.boxes
)


def worked(text: str, markdown: str) -> Looked:
    """Whether the ``text`` that was worked stands in the ``markdown`` of the pattern, paragraph by paragraph."""
    said, there = (Counter(one.strip() for one in all_.split("\n\n")) for all_ in (text, markdown))
    lacking = [one for one in said - there if one]
    figures = sum(len(re.findall(r"\d+", one)) for one in said)
    return figures, [f'"{one[:60]}" was worked and is not told' for one in lacking]


def alt_texts(markdown: str, pictures: Mapping[str, str]) -> Looked:
    """Whether each picture of ``markdown`` is told of as the picture tells of itself; ``pictures`` by name."""
    found = [(name, alt) for name, alt in images(markdown) if name in pictures]
    other = [(name, alt) for name, alt in found if composed(pictures[name]) != alt]
    wrong = [f'{name}: "{alt[:60]}" is told; the picture says otherwise' for name, alt in other]
    return sum(len(re.findall(r"\d+", alt)) for _, alt in found), wrong


def booklet(pages: Pages, markdown: str) -> Looked:
    """Whether the pages say what ``markdown`` says, and no figure that it does not say."""
    said = [one for words in pages.texts for word in words for one in tokens(word)]
    open_ = [True] * len(said)
    wrong, looked = [], 0
    in_alt_texts = [one for _, alt in images(markdown) for one in re.split(r"(?<=\.) ", alt)]
    for line in (*told(markdown), *in_alt_texts):
        block = tokens(line)
        places = list(_places(said, block)) if block else []
        for at in places:
            open_[at : at + len(block)] = [False] * len(block)
        looked += len(_FIGURE.findall(line)) if places else 0
        if not places and line not in in_alt_texts and _FIGURE.search(line):
            wrong.append(f'"{line[:60]}" stands in pattern.md and not in the booklet')
    wrong += _unaccounted(pages, open_)
    feet, contents = [*pages.feet], list(_contents(pages))
    if feet != [str(nth) for nth in range(2, len(feet) + 2)]:
        wrong.append(f"the pages are numbered {', '.join(feet)}")
    wrong += contents
    return looked + len(feet), wrong


def _places(said: Sequence[str], block: Sequence[str]) -> Iterator[int]:
    first, size = block[0], len(block)
    for at, one in enumerate(said):
        if one == first and said[at : at + size] == block:
            yield at


def _unaccounted(pages: Pages, open_: Sequence[bool]) -> Iterator[str]:
    """The words with a figure that no line of pattern.md has, and that are not the page's own."""
    at, before = 0, ""
    for nth, words in enumerate(pages.texts):
        listed = _listed(words) if nth == _contents_page(pages) else {}
        for word, after in zip(words, (*words[1:], ""), strict=False):
            size = len(tokens(word))
            free = any(open_[at : at + size]) and _FIGURE.search(word)
            at += size
            box = word.isdigit() and _OWN.fullmatch(after.replace("\u00a0", " "))
            of_contents = listed.get(before) == word or (bool(listed) and before.isdigit() and word.isdigit())
            of_contents |= word.endswith(": the rows")
            if free and not box and not of_contents and not _OWN.fullmatch(word.replace("\u00a0", " ")):
                yield f'"{word[:60]}" stands in the booklet and nowhere else'
            before = word


def _listed(words: Sequence[str]) -> dict[str, str]:
    """The contents: what begins on which page."""
    return {one: two for one, two in pairwise(words) if two.isdigit() and not one.isdigit()}


def _contents_page(pages: Pages) -> int:
    return next((nth for nth, words in enumerate(pages.texts) if _listed(words)), 0)


def _contents(pages: Pages) -> Iterator[str]:
    """What is not on the page that the contents send to."""
    for name, page in _listed(pages.texts[_contents_page(pages)]).items() if pages.texts else ():
        if name not in (pages.texts[int(page) - 1] if 0 < int(page) <= len(pages.texts) else ()):
            yield f'the contents send to page {page} for "{name}"'
