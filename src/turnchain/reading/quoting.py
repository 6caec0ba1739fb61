"""Values, names and hints as messages show them.

In: whatever a file holds. Out: short text on one line, without letters that a terminal would take as commands.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

MOST_NAME_LETTERS: Final = 60
_MOST_LETTERS: Final = MOST_NAME_LETTERS  # of a value in a message: no good name is cut
_MOST_LISTED: Final = 8
_MOST_ENTRIES: Final = 4


def told(value: object, quote: str = '"') -> str:
    """A value as a message shows it on one line: text in ``quote`` s and cut after 60 letters, lists after four
    entries."""
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
    """The first eight of ``names`` in quotes, and "..." where there are more; a maker has the others in the file."""
    first = [told(name) for name in names]
    return ", ".join(first[:_MOST_LISTED] + ["..."] * (len(first) > _MOST_LISTED))


def nearest(value: object, words: Iterable[str], quote: str) -> str:
    """A hint at the one of ``words`` that ``value`` most likely means, capitals or not; "" where none is near."""
    import difflib  # here, since it takes longer to import than a sound file takes to read

    by_case = {word.casefold(): word for word in words}
    text = value[:MOST_NAME_LETTERS].casefold() if isinstance(value, str) else ""
    near = difflib.get_close_matches(text, by_case, 1)
    return meant(by_case[near[0]], quote) if near else ""


def meant(word: str, quote: str = '"') -> str:
    """The hint that ``word`` was meant, as a question."""
    return f"did you mean {quote}{word}{quote}?"


def printable(text: str) -> str:
    r"""``text`` with every letter that cannot be printed, line ends too, as an escape such as \x1b."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def _short(text: str) -> str:
    return printable(text[:_MOST_LETTERS] + "…" * (len(text) > _MOST_LETTERS))
