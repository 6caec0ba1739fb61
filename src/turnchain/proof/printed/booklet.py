"""A booklet read back for its figures: the measures of every piece, and the boxes to tick.

In: the words of its pages, in the order drawn. Out: figures as they stand there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from turnchain.proof.printed.lengths import LENGTH
from turnchain.proof.printed.pattern import Said, measures

Box = tuple[int, str | None, int]  # row, yarn, clusters (stitches of a solid row)

_ONE = rf"(?:[^,:]*? at {LENGTH}|[^,:]+?(?<! at)) {LENGTH}"  # "width at 34 cm 23.64 cm" is one
_LIST = rf"(?:{_ONE}, )*{_ONE}"
_BOX = re.compile(r"(?:[^,]+, )?(?:RS|WS), (?:(?P<yarn>.+), )?(?P<clusters>\d+) [\w-]+")


def sizes(words: Sequence[str], piece: str, others: Sequence[str] = ()) -> Iterator[Said]:
    """The measures of ``piece`` in the ``words`` of the pages, wherever they follow its name: under sizes, and under
    blocking; not those of ``others``, whose names may end in it."""
    text = " ".join(words)
    for longer in others:
        if longer != piece and longer.casefold().endswith(f" {piece}".casefold()):
            text = re.sub(rf"(?<!\S){re.escape(longer)}: ", ":: ", text, flags=re.IGNORECASE)
    for found in re.finditer(rf"(?<!\S){re.escape(piece)}: ({_LIST})", text):
        yield from measures(found[1], piece)


def boxes(words: Sequence[str]) -> list[Box]:
    """The boxes of all rows of all pieces, in the order printed, from "12" and "RS, Reed, 22 cl"; the yarn is None
    where none is named."""
    return [
        (int(number), found["yarn"], int(found["clusters"]))
        for number, said in pairwise(words)
        if number.isdigit() and (found := _BOX.fullmatch(said.replace("\u00a0", " ")))
    ]
