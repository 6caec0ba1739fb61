"""From a pattern file to its tables.

In: a path, or TOML text. Out: tables as the TOML reader gives them, floats as exact decimals; or one error in
makers' words for a file that cannot be read or a text that is no TOML.
"""

from __future__ import annotations

import os
import re
import stat
import time
import tomllib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Final, TypeAlias

from turnchain.errors import FileError, PatternError, Problem
from turnchain.reading.quoting import nearest, printable, told

Raw: TypeAlias = dict[str, object]  # a table as the TOML reader gives it

#: What lies beside a pattern: its folder, or texts by their names where there is none (a page that keeps them).
Beside: TypeAlias = "Path | Mapping[str, str]"

MOST_BYTES: Final = 1_000_000
_KEY_PARTS: Final = 50
_TRIES: Final = 5  # at a file that is just being saved, a tenth of a second apart


def text_of(path: Path) -> tuple[str, str]:
    """The text of the file at ``path``, and its name for messages. Raises FileError where it cannot be read, is no
    ordinary file, is larger than ``MOST_BYTES`` or not UTF-8."""
    source = printable(str(path))
    try:
        content = _content(path, source)
    except FileNotFoundError:
        raise FileError(f"{source}: there is no such file{_beside(path)}") from None
    except IsADirectoryError:
        raise FileError(f"{source}: this is a folder; a pattern file is needed") from None
    except PermissionError:
        raise FileError(f"{source}: this file may not be read; look at its permissions") from None
    except (OSError, ValueError) as error:  # ValueError: a name that no file can have
        words = (isinstance(error, OSError) and error.strerror) or "no file can have this name"
        raise FileError(f"{source}: this file cannot be read ({words})") from None
    if len(content) > MOST_BYTES:
        raise FileError(f"{source}: this file is too large; a pattern file has at most {MOST_BYTES:,} bytes")
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise FileError(f"{source}: line {line} is not UTF-8 text; save the file as UTF-8") from None
    return text, source


def text_beside(beside: Beside | None, name: str) -> tuple[str, str] | None:
    """The text of the file called ``name`` that lies ``beside`` a pattern, and its name for messages; None where there
    is none. Raises FileError as ``text_of`` does."""
    if isinstance(beside, Path):
        return text_of(beside / name) if (beside / name).is_file() else None
    text = None if beside is None else beside.get(name)
    return None if text is None else (text, printable(name))


def _content(path: Path, source: str) -> bytes:
    """What stands in the file at one moment, read once: a byte more than is allowed at most."""
    for _ in range(_TRIES):
        with open(path, "rb", opener=_opened) as file:
            before = os.fstat(file.fileno())
            if not stat.S_ISREG(before.st_mode):
                raise FileError(f"{source}: this is a pipe or a device; a pattern is read from an ordinary file")
            content = file.read(MOST_BYTES + 1)
            after = os.fstat(file.fileno())
        if (before.st_size, before.st_mtime_ns) == (after.st_size, after.st_mtime_ns):
            return content
        time.sleep(0.1)
    raise FileError(f"{source}: this file is being written while it is read; try again when it is saved")


def _opened(name: str, flags: int) -> int:
    """Opens at once, also a pipe that nobody writes into."""
    return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))


def tables_of(text: str, source: str) -> Raw:
    """The tables of a TOML text, floats as Decimal (inf where Decimal has no such exponent). Raises PatternError with
    one problem, in words and by line, where it is empty, longer than ``MOST_BYTES`` letters or no TOML."""
    text = text.removeprefix("\ufeff")
    if len(text) > MOST_BYTES:
        raise _one(source, "", "the text is too large", f"a pattern file has at most {MOST_BYTES:,} bytes")
    if not text.strip():
        raise _one(source, "", "the file is empty", "a pattern has a title, a swatch and a piece")
    if half := re.search("[\ud800-\udfff]", text):
        raise _one(source, _line_of(half, text), "half of a letter", "the text must be whole letters")
    if long := _LONG_KEY.search(text):
        raise _one(source, _line_of(long, text), "a key of very many parts", "a key is one word")
    try:
        return tomllib.loads(text, parse_float=_exact)
    except tomllib.TOMLDecodeError as error:
        raise _syntax(str(error), text, source) from None
    except RecursionError:
        raise _one(source, "", "lists within lists within lists", "a list goes two deep at most") from None
    except ValueError:  # Python's own limit for whole numbers
        place = _line_of(re.search(r"[0-9_]{1000}", text), text)
        raise _one(source, place, "a number of thousands of digits", "a number has a few digits") from None


#: A dotted key of this many parts is no slip, and takes the TOML reader minutes.
_LONG_KEY: Final = re.compile(
    rf"""(?<![\w"'.-])(?:(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){{{_KEY_PARTS}}}"""
)


def _line_of(found: re.Match[str] | None, text: str) -> str:
    return f"line {text.count(chr(10), 0, found.start()) + 1}" if found else ""


def _exact(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:  # an exponent of twenty digits
        return Decimal("inf")


def _one(source: str, place: str, found: str, allowed: str, hint: str = "") -> PatternError:
    spot = re.match(r"line ([0-9]+)(?:, column ([0-9]+))?", place)
    line, column = (int(part) if part else None for part in spot.groups()) if spot else (None, None)
    return PatternError(source, [Problem(place, found, allowed, hint, line=line, column=column)])


#: How the TOML reader's messages begin, and what stands in ours instead.
_SYNTAX: Final = {
    "Expected '=' after a key": "a key must be followed by = and its value",
    "Invalid value (at end": "a value must follow, and a list must end with ]",
    "Invalid value": 'a value must be a number, a list in [ ], or text in quotes, such as "Reed"',
    "Expected newline or end of document": "a line must end after a key and its value",
    "Illegal character": "text must end on its line, with the quote it begins with",
    "Unterminated string": "text must end with the quote it begins with",
    'Expected "\'"': "text must end with the quote it begins with",
    "Unclosed array": "a list must end with ] and have commas between its values",
    "Unclosed inline table": "{ must be followed by } on the same line, with commas between the keys",
    "Expected ']": "the name of a table must end with as many brackets as it begins with",
    "Cannot overwrite a value": "each key may be given once in a table",
    "Duplicate inline table key": "each key may be given once in a table",
    "Cannot declare": "a table [ ] may be given once; several pieces are [[piece]], yarns [[yarn]]",
    "Cannot mutate": "a table must be written in one place",
    "Cannot redefine": "a table must be written in one place",
    "Invalid initial character": "a key must be a word of the letters a to z, digits, - and _",
    "Invalid statement": "a line must be a table such as [swatch], a key = value, or a comment after #",
    "Unescaped": r"a backslash in text must be written \\",
    "Invalid hex": r"a backslash in text must be written \\",
    "Escaped character": r"a backslash in text must be written \\",
    "Invalid date": "a date must be one of the calendar, such as 2024-05-31",
}

#: The tables that there may be several of.
_SEVERAL: Final = ("swatch", "yarn", "piece", "seam", "edging", "progress")

#: Forms of lines that cannot be read, and what was probably meant.
_LOOKS: Final = [
    (r"[^=]*=[\s\[]*[“”„‘’]", "use straight quotes, as in \"Reed\""),
    (r"[^=]*=\s*#", 'a colour stands in quotes, as in "#6f8aa3"'),
    (r"[^=]*=\s*[0-9]+,[0-9]", "write a decimal point, as in 24.5"),
    (r"[^=]*=\s*[0-9.]+\s*[a-z\"'″]", 'a length with its unit stands in quotes, as in "24 in"'),
    (r"[^=]*=\s*[^\W0-9]", "text stands in quotes"),
    (r"\w+\s*:", "write = instead of :"),
]  # fmt: skip


def _syntax(words: str, text: str, source: str) -> PatternError:
    """The TOML reader's message, place and all, in makers' words and with the line itself."""
    lines = text.replace("\r\n", "\n").split("\n")
    at = re.search(r"\(at line ([0-9]+), column ([0-9]+)\)", words)
    line = int(at[1]) if at else len(text.rstrip().split("\n"))
    place = f"line {line}, column {at[2]}" if at else f"line {line}, at the end of the file"
    written = lines[line - 1].strip()
    if header := _both_ways(written, text):
        allowed = "a table is written with one bracket each side or with two, never both ways in one file"
        likely = f"[[{header}]] every time" if header in _SEVERAL else f"[{header}], once"
        return _one(source, place, told(written, "`"), allowed, f"write {likely}")
    allowed = next((ours for theirs, ours in _SYNTAX.items() if words.startswith(theirs)), "this is not TOML")
    hint = next((hint for look, hint in _LOOKS if re.match(look, written[:200])), "")
    return _one(source, place, told(written, "`"), allowed, hint)


def _both_ways(written: str, text: str) -> str:
    """The name in a header [name] or [[name]], where the text has it the other way as well."""
    header = re.match(r"(\[\[?)\s*([\w-]+)\s*\]", written)
    if header is None:
        return ""
    other = r"\[" if header[1] == "[[" else r"\[\["
    return header[2] if re.search(rf"^\s*{other}\s*{header[2]}\s*\]", text, re.MULTILINE) else ""


def _beside(path: Path) -> str:
    """A pattern file in the same folder whose name is nearly that of ``path``."""
    try:
        names = [other.name for other in path.parent.glob("*.toml")]
    except (OSError, ValueError):
        return ""
    near = nearest(path.name, names, '"')
    return near and f" ({printable(near)})"
