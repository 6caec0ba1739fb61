"""How a single value is read.

In: a value as TOML gives it, and the file's unit. Out: what the vocabulary wants, or a ``Refusal`` that says in
makers' words what is allowed.

Every reader is a function of a value and the unit of lengths without one, which most do not use. It raises ``Refusal``
where the value cannot stand (readers of lengths a plain ValueError, readers of lists ``Refusals``); ``refusals_in``
makes them alike.
"""

from __future__ import annotations

import datetime
import re
import unicodedata
from collections.abc import Callable, Sequence
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Final, TypeAlias, TypeVar, get_args, get_type_hints

from turnchain.reading.quoting import MOST_NAME_LETTERS, meant, nearest, told
from turnchain.reading.toml_text import Raw
from turnchain.units import Unit, number
from turnchain.units import length as cm_of

T = TypeVar("T")
Reader: TypeAlias = Callable[[object, Unit], T]
Point: TypeAlias = tuple[Fraction, Fraction]

MOST_LETTERS: Final = 2000  # in a free text, or one paragraph of it
MOST_LETTERS_OF_ALL: Final = 20_000  # in all paragraphs of a text
PHOTOGRAPHS: Final = (".jpg", ".jpeg", ".png", ".webp")
MOST_SIZE_LETTERS: Final = 12
MOST_MARKS: Final = 8  # upon one letter: more than any script piles up; common practice, no source
#: Most file systems take 255 bytes (NAME_MAX of Linux's limits.h); "-row-2000-right.svg" and the like come after.
MOST_NAME_BYTES: Final = 220


class Refusal(ValueError):
    """A value that cannot stand: its text says what is allowed.

    ``hint`` is what to try; ``found`` what is wrong where the value itself does not show it; ``entry`` and its
    ``number`` (from 1) which entry of a list is meant.
    """

    def __init__(self, allowed: str, hint: str = "", found: str = "", entry: str = "", number: int = 0) -> None:
        super().__init__(allowed)
        self.hint = hint
        self.found = found
        self.entry = entry
        self.number = number


class Refusals(ValueError):
    """A list with entries that cannot stand: each of its ``refusals`` has its entry and number."""

    def __init__(self, refusals: list[Refusal]) -> None:
        super().__init__()
        self.refusals = refusals


def refusals_in(error: ValueError, value: object, entry: str = "", number: int = 0) -> list[Refusal]:
    """What a reader's ``error`` refuses in ``value``, each with what was found; ``entry`` and ``number`` say which
    entry of a list ``value`` is."""
    if isinstance(error, Refusals):
        return error.refusals
    hint, found = (error.hint, error.found) if isinstance(error, Refusal) else ("", "")
    return [Refusal(str(error), hint, found or told(value), entry, number)]


# ------------------------------------------------------------------------------------------------------- text


def line(value: object, unit: Unit) -> str:
    """Free text on one line, line ends as spaces, "" included; at most ``MOST_LETTERS`` letters."""
    if not isinstance(value, str):
        raise Refusal("must be text in quotes")
    if len(value) > MOST_LETTERS:
        raise Refusal(f"must have at most {MOST_LETTERS} letters", found=f"a text of {len(value)} letters")
    if any(_unfit(letter) for letter in value):
        raise Refusal("must have no control characters and none that turn the direction of reading")
    if _piled(value):
        raise Refusal(f"must have at most {MOST_MARKS} marks upon one letter")
    return " ".join(value.split())


def paragraphs(value: object, unit: Unit) -> str:
    """Free text of several paragraphs, each on one line, with a blank line between two; "" included."""
    if not isinstance(value, str):
        raise Refusal("must be text in quotes")
    if len(value) > MOST_LETTERS_OF_ALL:
        raise Refusal(f"must have at most {MOST_LETTERS_OF_ALL} letters", found=f"a text of {len(value)} letters")
    parts = re.split(r"\n[ \t\r]*\n", value.replace("\r\n", "\n"))
    return "\n\n".join(said for said in (line(part, unit) for part in parts) if said)


def photograph(value: object, unit: Unit) -> str:
    """The file of a photograph, in the folder of the pattern or one within it; as "photos/front.jpg"."""
    name = words(value, unit)
    parts = name.replace("\\", "/").split("/")
    if ":" in name or not all(parts) or any(part in (".", "..") for part in parts):
        raise Refusal('must be a file in the folder of the pattern, such as "photos/front.jpg"')
    if not name.lower().endswith(PHOTOGRAPHS):
        raise Refusal(f"must be a picture whose name ends in {', '.join(PHOTOGRAPHS[:-1])} or {PHOTOGRAPHS[-1]}")
    return "/".join(parts)


def _unfit(letter: str) -> bool:
    """Whether a letter could hide or turn what is printed, or may not stand in XML."""
    kind = unicodedata.category(letter)
    turns = "\u202a" <= letter <= "\u202e" or "\u2066" <= letter <= "\u2069"
    no_letter = ord(letter) & 0xFFFE == 0xFFFE or "\ufdd0" <= letter <= "\ufdef"
    return turns or no_letter or kind == "Cs" or (kind == "Cc" and letter not in "\t\r\n")


def _piled(text: str) -> bool:
    """Whether a letter has so many marks upon it that they would cover the lines above."""
    if text.isascii():
        return False
    pile = 0
    for letter in text:
        pile = pile + 1 if unicodedata.category(letter)[0] == "M" else 0
        if pile > MOST_MARKS:
            return True
    return False


def words(value: object, unit: Unit) -> str:
    """Free text on one line that is not empty."""
    if not (text := line(value, unit)):
        raise Refusal("must not be empty")
    return text


def address(value: object, unit: Unit) -> str:
    """Where a pattern is found, as text on one line. Where it begins with a scheme that must be http or https, since
    pages make it a link."""
    text = line(value, unit)
    scheme = re.match(r"\s*([a-z][a-z0-9+.-]*):", text, re.IGNORECASE)
    if scheme and not re.match(r"\s*https?://[^\s/?#]", text, re.IGNORECASE):
        raise Refusal("must be the address of a page, such as https://example.org/heron")
    return text


def date(value: object, unit: Unit) -> str:
    """A date as text: TOML's own kind of date as year-month-day, any other text as it is written."""
    return value.isoformat() if isinstance(value, datetime.date) else line(value, unit)


def reference(value: object, unit: Unit) -> str:
    """The name of a piece or of a place, in Unicode's normal form NFC so that it compares with other names."""
    return unicodedata.normalize("NFC", words(value, unit))


def file_name(value: object, unit: Unit) -> str:
    """A piece's name (letters, digits, spaces, - and _; not a name that some system or another file needs), since files
    are named after pieces."""
    name = reference(value, unit)
    if len(name) > MOST_NAME_LETTERS:
        raise Refusal(f"must have at most {MOST_NAME_LETTERS} letters, since files are named after pieces")
    if len(name.encode()) > MOST_NAME_BYTES:
        found = f"{len(name.encode())} bytes"
        raise Refusal(f"must take at most {MOST_NAME_BYTES} bytes, since files are named after pieces", found=found)
    if not all(letter in " -_" or unicodedata.category(letter)[0] in "LMN" for letter in name):
        raise Refusal("must be of letters, digits, spaces, - and _ only, since files are named after pieces")
    if not any(letter.isalnum() for letter in name):
        raise Refusal("must have a letter or a digit")
    if name.casefold() in ("index", "plan"):
        raise Refusal("must be another name, since a file of this name is made besides the pieces")
    if re.fullmatch("con|prn|aux|nul|(com|lpt)[0-9]", name.casefold()):
        raise Refusal("must be another name, since some computers cannot have a file of this name")
    return name


def edge(value: object, unit: Unit) -> str:
    """An edge of a piece, as "piece.edge"; neither part is empty, and whether there is such an edge is checked
    later."""
    piece, _, name = reference(value, unit).rpartition(".")
    if not (piece.strip() and name.strip()):
        raise Refusal('must be a piece and one of its edges, such as "front.shoulder"')
    return f"{piece.strip()}.{name.strip()}"


def size(value: object, unit: Unit) -> str:
    """The name of a row in a size table: text, or a whole number as children's sizes are."""
    if isinstance(value, int) and not isinstance(value, bool) and 0 <= value < 100:
        return str(value)
    if not isinstance(value, str):
        raise Refusal('must be a size such as "M" or 4')
    return words(value, unit)


def size_name(value: object, unit: Unit) -> str:
    """The name of one size of the pattern, such as "M" or "age 4": it stands in brackets and in names of files."""
    name = size(value, unit)
    if len(name) > MOST_SIZE_LETTERS or not all(letter in " -/" or letter.isalnum() for letter in name):
        allowed = f"must be of letters, digits, spaces, - and / only, {MOST_SIZE_LETTERS} at most"
        raise Refusal(allowed, 'such as "M", "2X" or "age 4"')
    return name


def choice(owner: type, field: str) -> Reader[str]:
    """A reader of the words that ``turnchain.pattern`` allows for the ``field`` of its class ``owner``."""

    @cache
    def allowed() -> tuple[str, ...]:  # when first wanted, and of this field alone: resolving types takes time
        alone = {"__module__": owner.__module__, "__annotations__": {field: owner.__annotations__[field]}}
        kind = get_type_hints(type(owner.__name__, (), alone))[field]
        # A choice that may be left out stands as Literal[...] | None.
        words = (get_args(part) or (part,) for part in get_args(kind))
        return tuple(word for some in words for word in some if isinstance(word, str))

    return one_of(allowed)


def named_or_file(allowed: Callable[[], Sequence[str]]) -> Reader[str]:
    """A reader of one of the words that ``allowed`` gives, or of the name of a file that ends in .toml."""

    def read(value: object, unit: Unit) -> str:
        if isinstance(value, str) and (value.endswith(".toml") or value in allowed()):
            return value
        file = 'or a file of your own beside the pattern, such as "mine.toml"'
        raise Refusal(f"must be {_either(allowed())}, {file}", nearest(value, allowed(), '"'))

    return read


def one_of(allowed: Callable[[], Sequence[str]]) -> Reader[str]:
    """A reader of one of the words that ``allowed`` gives; it is called when a value is read."""

    def read(value: object, unit: Unit) -> str:
        if isinstance(value, str) and value in allowed():
            return value
        raise Refusal(f"must be {_either(allowed())}", nearest(value, allowed(), '"'))

    return read


def _either(words: Sequence[str]) -> str:
    return " or ".join(f'"{word}"' for word in words)


def language(value: object, unit: Unit) -> str:
    """The code of a language that there is a table of words for, such as "de"."""
    from turnchain.wording.tables import LANGUAGES  # all tables of words, for the files that name a language

    return one_of(lambda: tuple(LANGUAGES))(value, unit)


_COLOURS: Final = {
    "black": "#000000", "silver": "#c0c0c0", "gray": "#808080", "grey": "#808080", "white": "#ffffff",
    "maroon": "#800000", "red": "#ff0000", "purple": "#800080", "fuchsia": "#ff00ff", "green": "#008000",
    "lime": "#00ff00", "olive": "#808000", "yellow": "#ffff00", "navy": "#000080", "blue": "#0000ff",
    "teal": "#008080", "aqua": "#00ffff",
}  # fmt: skip


def colour(value: object, unit: Unit) -> str:
    """A colour as "#rrggbb", in small letters; other ways to write one are refused with a hint."""
    text = value.strip().lower() if isinstance(value, str) else ""
    if re.fullmatch("#[0-9a-f]{6}", text):
        return text
    likely = _COLOURS.get(text, "")
    if re.fullmatch("#?[0-9a-f]{3}", text):
        likely = "#" + "".join(2 * digit for digit in text.removeprefix("#"))
    elif re.fullmatch("[0-9a-f]{6}", text):
        likely = f"#{text}"
    raise Refusal('must be # and six digits or letters a to f, such as "#6f8aa3"', likely and meant(likely))


# -------------------------------------------------------------------------------------- numbers and lengths


def count(value: object, unit: Unit) -> Fraction:
    """A number that is measured or counted (stitches, rows, grams), exact and greater than 0."""
    if (size := _number(value)) <= 0:
        raise Refusal("must be greater than 0")
    return size


def stock(value: object, unit: Unit) -> Fraction:
    """Grams in hand, 0 included."""
    if (size := _number(value)) < 0:
        raise Refusal("must not be less than 0")
    return size


def percent(value: object, unit: Unit) -> Fraction:
    """Per cent, from 0 to 100."""
    return _between(value, Fraction(0), Fraction(100), "must be from 0 to 100, in per cent")


def hook(value: object, unit: Unit) -> Fraction:
    """The thickness of a hook in mm. No hook is finer or thicker than this; from memory, wide on purpose."""
    allowed = "must be 0.3 to 60, in mm"
    return _between(value, Fraction("0.3"), Fraction(60), allowed, "5 for a hook of 5 mm")


def _between(value: object, least: Fraction, most: Fraction, allowed: str, hint: str = "") -> Fraction:
    try:
        size = number(value)
    except ValueError:
        raise Refusal(allowed, _bare(value, least, most) or hint) from None
    if not least <= size <= most:
        raise Refusal(allowed, hint)
    return size


def yes(value: object, unit: Unit) -> bool:
    """A yes or no: TOML's true or false."""
    if not isinstance(value, bool):
        raise Refusal("must be true or false, without quotes")
    return value


def whole(least: int, most: int) -> Reader[int]:
    """A reader of whole numbers from ``least`` to ``most``."""

    def read(value: object, unit: Unit) -> int:
        either = f"{least} or {most}" if most == least + 1 else f"a whole number from {least} to {most}"
        allowed = f"must be {either}"
        size = _between(value, Fraction(least), Fraction(most), allowed)
        if size.denominator != 1:
            raise Refusal(allowed)
        return int(size)

    return read


def _number(value: object) -> Fraction:
    try:
        return number(value)
    except ValueError as error:
        raise Refusal(str(error), _bare(value)) from None


def _bare(value: object, least: Fraction | None = None, most: Fraction | None = None) -> str:
    """The hint at a number that stands in quotes, alone or before a word, where it would be one that is allowed."""
    words = re.fullmatch(r"\s*([0-9]+\.?[0-9]*)\s*[^0-9.,/]*", value) if isinstance(value, str) else None
    if words is None:
        return ""
    size = Fraction(words[1])
    beyond = (least is not None and size < least) or (most is not None and size > most)
    return "" if beyond else f"write {words[1]} without quotes"


def length(value: object, unit: Unit) -> Fraction:
    """A length in cm, exact and greater than 0."""
    if not (cm := cm_of(value, unit)):
        raise Refusal("must be greater than 0")
    return cm


def span(value: object, unit: Unit) -> Fraction:
    """A length in cm, exact, 0 included."""
    return cm_of(value, unit)


def reach(value: object, unit: Unit) -> Fraction:
    """How far an edge lies outwards of a centre line, in cm; negative where it lies beyond it."""
    if isinstance(value, str):
        minus = re.match(r"\s*[-−]\s*(?![-−+])", value)
        return -cm_of(value[minus.end() :], unit) if minus else cm_of(value, unit)
    if isinstance(value, int | float | Decimal | Fraction) and not isinstance(value, bool) and number(value) < 0:
        return -cm_of(-value, unit)
    return cm_of(value, unit)


def point(across: str, read: Reader[Fraction], example: str) -> Reader[Point]:
    """A reader of points [height, ``across``], both in cm: a height that is not negative, and what ``read`` gives.
    ``across`` and ``example`` are for messages."""

    def read_point(value: object, unit: Unit) -> Point:
        if not isinstance(value, list) or len(value) != 2:
            raise Refusal(f"must be a height and a {across} such as {example}")
        sizes = []
        for word, read_size, size in zip(("height", across), (cm_of, read), value, strict=True):
            try:
                sizes.append(read_size(size, unit))
            except ValueError as error:
                raise Refusal(f"the {word} {error}") from None
        return sizes[0], sizes[1]

    return read_point


# ------------------------------------------------------------------------------------------ lists and tables


def listing(read: Reader[T], allowed: str, least: int, most: int, entry: str = "entry") -> Reader[tuple[T, ...]]:
    """A reader of lists of ``least`` to ``most`` values, each read by ``read``; ``allowed`` says in messages what is
    wanted, with an example, and ``entry`` what one value is called."""
    size = str(least) if least == most else f"{least} to {most}"

    def read_list(value: object, unit: Unit) -> tuple[T, ...]:
        if not isinstance(value, list):
            raise Refusal(f"must be {allowed}")
        if not least <= len(value) <= most:
            raise Refusal(f"must be a list of {size}", found=f"a list of {len(value)}")
        sound: list[T] = []
        wrong: list[Refusal] = []
        for i, part in enumerate(value, 1):
            try:
                sound.append(read(part, unit))
            except ValueError as error:
                wrong += refusals_in(error, part, entry, i)
        if wrong:
            raise Refusals(wrong)
        return tuple(sound)

    return read_list


def one_or_more(read: Reader[T], read_list: Reader[tuple[T, ...]]) -> Reader[tuple[T, ...]]:
    """A reader of lists that takes a single number as a list of one; lists, tables and text go to ``read_list``."""

    def read_either(value: object, unit: Unit) -> tuple[T, ...]:
        return read_list(value, unit) if isinstance(value, list | dict | str) else (read(value, unit),)

    return read_either


def table(allowed: str) -> Reader[Raw]:
    """A reader of a single table, written as ``allowed`` shows; its values are looked at later."""

    def read(value: object, unit: Unit) -> Raw:
        if not isinstance(value, dict):
            raise Refusal(f"must be written {allowed}")
        return value

    return read


def tables(key: str, most: int, single: bool = False) -> Reader[list[Raw]]:
    """A reader of up to ``most`` tables [[key]]; where ``single``, one [key] will do."""

    def read(value: object, unit: Unit) -> list[Raw]:
        if isinstance(value, dict) and single:
            return [value]
        if isinstance(value, dict):
            raise Refusal(f"must be written [[{key}]], since there may be several", "two brackets each side")
        if not isinstance(value, list) or not value or not all(isinstance(one, dict) for one in value):
            raise Refusal(f"must be tables that begin with [[{key}]]")
        if len(value) > most:
            raise Refusal(f"must be at most {most}", found=f"{len(value)} tables [[{key}]]")
        return value

    return read
