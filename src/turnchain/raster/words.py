"""Words as edges: cut into pieces that need little room, and all letters of many turned into edges at once, since few
numbers take numpy about as long as many.

In: texts. Out: texts of fewer letters, and ``Edges``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, groupby, islice
from typing import TypeAlias

import numpy as np

from turnchain.lettering import measuring, others
from turnchain.raster.edges import Edges, fill_edges_of_all
from turnchain.records import replace
from turnchain.scene import Text, Weight

#: Words of no more letters are put together from glyphs of their letters: row numbers, above all.
SHORT_WORDS = 4
#: Longer ones are drawn word by word where they fill more px: the memory for computing their coverage grows with them.
LARGEST_WORDS = 1 << 17
#: Letters are turned into edges for 2 to the power of this px, or of more, to the em.
FINEST = 4
#: Letters kept in edges at a time.
MOST_LETTERS = 2048


def text_pieces(text: Text) -> Iterator[Text]:
    """``text``, which stands within the first px, in pieces that need little room."""
    pieces = [] if text.turn else _parts(text)
    if len(pieces) < 2:
        yield text
        return
    scale = text.size / measuring.em(text.weight)
    for words, x in pieces:
        yield replace(text, words=words, x=text.x + scale * x, anchor="start")


def _parts(text: Text) -> Sequence[tuple[str, float]]:
    """``text`` in letters, words or as a whole, with the x of each in font units from the anchor."""
    letters = measuring.places(text)
    if len(letters) <= SHORT_WORDS:
        return letters
    if text.size**2 * len(letters) / 2 <= LARGEST_WORDS:
        return [(text.words, 0)]
    words = (list(group) for blank, group in groupby(letters, lambda place: place[0] == " ") if not blank)
    return [("".join(letter for letter, _ in word), word[0][1]) for word in words]


def text_edges(texts: Sequence[Text]) -> list[Edges]:
    """The edges of all letters of each of ``texts``."""
    if not texts:
        return []
    placed = [(text, measuring.places(text)) for text in texts]
    edges_of_letters = _letters.edges(
        (text.weight, character, 1 << max(FINEST, math.ceil(math.log2(text.size))))
        for text, places in placed
        for character, _ in places
    )
    counts = np.array([len(edges) for edges in edges_of_letters], np.intp)
    letters = iter(counts.tolist())
    lengths = [sum(islice(letters, len(places))) for _, places in placed]
    edges = np.concatenate([np.empty((0, 4)), *edges_of_letters])
    along = [x / measuring.em(text.weight) for text, places in placed for _, x in places]
    x, y = edges[:, ::2] + np.repeat(np.array(along, float), counts)[:, None], edges[:, 1::2]
    turned = np.array([(*_turned(text), text.x, text.y) for text in texts]).reshape(-1, 4)
    cosine, sine, right, down = np.repeat(turned, lengths, axis=0).T[..., None]
    edges[:, ::2], edges[:, 1::2] = x * cosine - y * sine + right, x * sine + y * cosine + down
    ends = list(accumulate(lengths))
    return [edges[end - length : end] for end, length in zip(ends, lengths, strict=True)]


def _turned(text: Text) -> tuple[float, float]:
    """An em along the line of ``text``, in px right and down."""
    return text.size * math.cos(math.radians(text.turn)), text.size * math.sin(math.radians(text.turn))


#: A letter to be drawn at up to so many px to the em.
_Letter: TypeAlias = tuple[Weight, str, int]


class _Letters:
    """The edges of letters at (0, 0), in ems, those used last. One serves all sizes near its own."""

    def __init__(self) -> None:
        self._made: dict[_Letter, Edges] = {}

    def edges(self, letters: Iterable[_Letter]) -> list[Edges]:
        """The edges of each of ``letters``."""
        wanted = list(letters)
        if len(self._made) > MOST_LETTERS:
            self.cache_clear()
        new = dict.fromkeys(letter for letter in wanted if letter not in self._made)
        for fine in sorted({fine for *_, fine in new}):
            alike = [letter for letter in new if letter[2] == fine]
            outlines = [measuring.letter(weight, character) for weight, character, _ in alike]
            self._made.update(zip(alike, fill_edges_of_all(outlines, fine), strict=True))
        return [self._made[letter] for letter in wanted]

    def cache_clear(self) -> None:
        """Forgets them all."""
        self._made.clear()


_letters = others.renewed(_Letters())
