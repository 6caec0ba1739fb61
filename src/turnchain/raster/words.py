"""Words as edges, and cut into pieces that need little room.

In: texts. Out: texts of fewer letters, and ``Edges``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import groupby

from turnchain.lettering import measuring, others
from turnchain.raster import loops
from turnchain.raster.edges import Edges, fill_edges
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


def text_edges(text: Text) -> Edges:
    """The edges of all letters of ``text``."""
    places = measuring.places(text)
    fine = 1 << max(FINEST, math.ceil(math.log2(text.size)))
    letters = [_letters.edges(text.weight, character, fine) for character, _ in places]
    em = measuring.em(text.weight)
    return loops.set_letters(letters, [x / em for _, x in places], *_turned(text), text.x, text.y)


def _turned(text: Text) -> tuple[float, float]:
    """An em along the line of ``text``, in px right and down."""
    return text.size * math.cos(math.radians(text.turn)), text.size * math.sin(math.radians(text.turn))


class _Letters:
    """The edges of letters at (0, 0), in ems, those used last. One serves all sizes near its own."""

    def __init__(self) -> None:
        self._made: dict[tuple[Weight, str, int], Edges] = {}

    def edges(self, weight: Weight, character: str, fine: int) -> Edges:
        """The edges of a letter to be drawn at up to ``fine`` px to the em."""
        key = weight, character, fine
        if key not in self._made:
            if len(self._made) > MOST_LETTERS:
                self.cache_clear()
            self._made[key] = fill_edges(measuring.letter(weight, character), fine)
        return self._made[key]

    def cache_clear(self) -> None:
        """Forgets them all."""
        self._made.clear()


_letters = others.renewed(_Letters())
