"""Rows named together: "rows 5 and 6", "rows 5 to 9".

In: words that name rows. Out: their numbers; none where the words do not fit, or name two rows as they name many.
"""

from __future__ import annotations

import re

from turnchain.proof.words.tongue import Tongue

MOST_ROWS = 100_000  # told together: far more than a piece has


def rows_in(words: Tongue, text: str) -> range:
    """The rows that ``text`` names and nothing beside."""
    for key in ("range_two", "range_many"):
        pattern = words.pattern(key)
        found = pattern.fullmatch(text) or pattern.fullmatch(capital(text))
        if found is not None:
            return rows_named(key, found)
    return range(0)


def rows_named(key: str, found: re.Match[str]) -> range:
    """The rows from a to b of a phrase for one row, for two or for many."""
    first = int(found["a"])
    last = first if key.endswith("_one") else int(found["b"])
    if key.endswith("_two"):
        fits = last == first + 1
    elif key.endswith("_many"):
        fits = first + 1 < last < first + MOST_ROWS
    else:
        fits = True
    return range(first, last + 1) if fits else range(0)


def capital(words: str) -> str:
    """The words as they begin a sentence."""
    return words[:1].upper() + words[1:]
