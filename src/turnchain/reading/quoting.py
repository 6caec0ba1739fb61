"""Values, names and hints as messages show them.

In: whatever a file holds. Out: short text on one line, with nothing in it that could upset a terminal.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

MOST_NAME_LETTERS: Final = 60
_MOST_LETTERS: Final = MOST_NAME_LETTERS  # of a value in a message: no good name is cut
_MOST_LISTED: Final = 8
_MOST_ENTRIES: Final = 4


def told(value: object, quote: str = '"') -> str:
    """A value as a message shows it, text in quotes."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f"{quote}{_short(value)}{quote}"
        case int() if abs(value) > 10**_MOST_LETTERS:
            return f"a number of some {value.bit_length() * 3 // 10} digits"
        case dict():
            return "a table"
        case list():
            inner = ["[...]" if isinstance(part, list) else told(part) for part in value[:_MOST_ENTRIES]]
            return f"[{', '.join(inner + ['...'] * (len(value) > _MOST_ENTRIES))}]"
        case _:
            return _short(str(value)).lower().replace("infinity", "inf")


def listed(names: Iterable[str]) -> str:
    """Some of the names there are; a maker with more has them in the file."""
    first = [told(name) for name in names]
    return ", ".join(first[:_MOST_LISTED] + ["..."] * (len(first) > _MOST_LISTED))


def nearest(value: object, words: Iterable[str], quote: str) -> str:
    """A hint at the word that was probably meant, or nothing."""
    import difflib  # here, since it takes longer to import than a sound file takes to read

    by_case = {word.casefold(): word for word in words}
    text = value[:MOST_NAME_LETTERS].casefold() if isinstance(value, str) else ""
    near = difflib.get_close_matches(text, by_case, 1)
    return meant(by_case[near[0]], quote) if near else ""


def meant(word: str, quote: str = '"') -> str:
    """The hint at ``word``."""
    return f"did you mean {quote}{word}{quote}?"


def printable(text: str) -> str:
    """``text`` with every letter that could upset a terminal as an escape."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def _short(text: str) -> str:
    return printable(text[:_MOST_LETTERS] + "…" * (len(text) > _MOST_LETTERS))
