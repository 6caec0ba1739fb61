"""Pattern files, read and checked.

In: a TOML file or its text. Out: a ``Pattern``, or one ``PatternError`` with every problem of the file, each
with its place in makers' words. The only module that knows the file's keys; pydantic stays in here.

A table is read in two steps. Its model looks at each value by itself, and what fails is noted and left out;
then the checks that compare values see what is left, so that one slip hides no other. For this every field
of a model may be None, and what a table cannot do without stands in its ``needed``.

A new key is a field in a model here and in ``pattern``; a new word for a choice is a word in ``pattern``.
"""

from __future__ import annotations

import datetime
import difflib
import re
import tomllib
import unicodedata
from collections.abc import Callable, Iterable
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from pathlib import Path
from typing import (
    TYPE_CHECKING,
    Annotated,
    Any,
    ClassVar,
    Final,
    TypeAlias,
    TypeVar,
    cast,
    get_args,
    get_type_hints,
)

from pydantic import BaseModel, BeforeValidator, ConfigDict, PlainValidator, ValidationError, ValidationInfo

from turnchain import pattern
from turnchain.errors import FileError, PatternError, Problem
from turnchain.gauge import Gauge, gauge_of
from turnchain.units import Unit, length, number, shown

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

MOST_BYTES: Final = 1_000_000
MOST_LETTERS: Final = 2000  # in a free text
MOST_NAME_LETTERS: Final = 60
MOST_POINTS: Final = 500
MOST_READINGS: Final = 50
MOST_COUNT: Final = 99
MOST_TOLD: Final = 100  # problems told at once: nobody reads more
_TOLD_LETTERS: Final = MOST_NAME_LETTERS  # of a value in a message: no good name is cut
_KEY_PARTS: Final = 50

Raw: TypeAlias = dict[str, object]
T = TypeVar("T", bound="_Table")
D = TypeVar("D")


def read_file(path: str | Path) -> pattern.Pattern:
    """The pattern in the file at ``path``. FileError if it cannot be read, PatternError if not be made."""
    path = Path(path)
    source = _printable(str(path))
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
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
    return read_text(text, source)


def read_text(text: str, source: str) -> pattern.Pattern:
    """The pattern in a TOML ``text``; ``source`` names it in messages. PatternError if it cannot be made."""
    return read_tables(_tables_of(text.removeprefix("\ufeff"), source), source)


def read_tables(raw: Raw, source: str) -> pattern.Pattern:
    """The pattern in the tables ``raw`` of a TOML text, floats as Decimal. Errors as for ``read_text``."""
    notes = _Notes("in" if raw.get("units") == "in" else "cm")
    file = notes.table(_File, raw, "")
    swatches = _swatches(notes, file)
    fabric = notes.table(_Fabric, file.fabric or {}, "fabric")
    yarns = _yarns(notes, file)
    stripes = _stripes(notes, file, yarns, known="yarn" not in raw or file.yarn is not None)
    pieces = _pieces(notes, file, swatches)
    if notes.problems:
        raise PatternError(source, notes.all())
    return _made(
        pattern.Pattern,
        file,
        swatches=tuple(_made(pattern.Swatch, swatch) for swatch in swatches),
        fabric=_made(pattern.Fabric, fabric),
        yarns=tuple(_made(pattern.Yarn, yarn) for yarn in yarns),
        stripes=stripes and _made(pattern.Stripes, stripes),
        pieces=tuple(
            _made(pattern.Piece, piece, neck=neck and _made(pattern.Neck, neck)) for piece, neck in pieces
        ),
    )


# ---------------------------------------------------------------------------------------------- single values


class _Refusal(ValueError):
    """A value that cannot stand: its text says what is allowed; ``hint`` what to try, ``found`` what is wrong
    where the value itself does not show it."""

    def __init__(self, allowed: str, hint: str = "", found: str = "") -> None:
        super().__init__(allowed)
        self.hint = hint
        self.found = found


def _line(value: object) -> str:
    """Free text, on one line: every picture credits it in one."""
    if not isinstance(value, str):
        raise _Refusal("must be text in quotes")
    if len(value) > MOST_LETTERS:
        raise _Refusal(f"must have at most {MOST_LETTERS} letters", found=f"a text of {len(value)} letters")
    if any(_unfit(letter) for letter in value):
        raise _Refusal("must have no control characters and none that turn the direction of reading")
    return " ".join(value.split())


def _unfit(letter: str) -> bool:
    """Whether a letter could hide or turn what is printed, or may not stand in XML."""
    kind = unicodedata.category(letter)
    turns = "\u202a" <= letter <= "\u202e" or "\u2066" <= letter <= "\u2069"
    return turns or kind == "Cs" or (kind == "Cc" and letter not in "\t\r\n") or letter in "\ufffe\uffff"


def _words(value: object) -> str:
    """Free text that says something."""
    if not (line := _line(value)):
        raise _Refusal("must not be empty")
    return line


def _date(value: object) -> str:
    """A date, as text or as TOML's own kind of date."""
    return value.isoformat() if isinstance(value, datetime.date) else _line(value)


def _file_name(value: object) -> str:
    """A piece's name, which files are named after."""
    name = unicodedata.normalize("NFC", _words(value))
    if len(name) > MOST_NAME_LETTERS:
        raise _Refusal(f"must have at most {MOST_NAME_LETTERS} letters, since files are named after pieces")
    if not all(letter in " -_" or unicodedata.category(letter)[0] in "LMN" for letter in name):
        raise _Refusal("must be of letters, digits, spaces, - and _ only, since files are named after pieces")
    if not any(letter.isalnum() for letter in name):
        raise _Refusal("must have a letter or a digit")
    if name.casefold() in ("index", "plan"):
        raise _Refusal("must be another name, since a file of this name is made besides the pieces")
    if re.fullmatch("con|prn|aux|nul|(com|lpt)[0-9]", name.casefold()):
        raise _Refusal("must be another name, since some computers cannot have a file of this name")
    return name


def _above_zero(value: object) -> Fraction:
    if (size := _number(value)) <= 0:
        raise _Refusal("must be greater than 0")
    return size


def _stock(value: object) -> Fraction:
    """Grams in hand; none in hand is worth saying."""
    if (size := _number(value)) < 0:
        raise _Refusal("must not be less than 0")
    return size


def _number(value: object) -> Fraction:
    try:
        return number(value)
    except ValueError as error:
        bare = re.match(r"\s*([0-9]+\.?[0-9]*)", value) if isinstance(value, str) else None
        raise _Refusal(str(error), f"write {bare[1]} without quotes" if bare else "") from None


def _whole(least: int, most: int) -> Callable[[object], int]:
    """A reader of whole numbers from ``least`` to ``most``."""

    def read(value: object) -> int:
        either = f"{least} or {most}" if most == least + 1 else f"a whole number from {least} to {most}"
        allowed = f"must be {either}"
        try:
            size = _number(value)
        except _Refusal as refusal:
            raise _Refusal(allowed, refusal.hint) from None
        if size.denominator != 1 or not least <= size <= most:
            raise _Refusal(allowed)
        return int(size)

    return read


def _length(value: object, info: ValidationInfo) -> Fraction:
    """Centimetres; bare numbers are in the file's unit, which the context holds."""
    return length(value, cast(Unit, info.context))


def _long(value: object, info: ValidationInfo) -> Fraction:
    if not (cm := _length(value, info)):
        raise _Refusal("must be greater than 0")
    return cm


def _point(value: object, info: ValidationInfo) -> tuple[Fraction, Fraction]:
    if not isinstance(value, list) or len(value) != 2:
        raise _Refusal("must be a height and a width such as [30, 24]")
    sizes = []
    for word, read, size in zip(("height", "width"), (_length, _long), value, strict=True):
        try:
            sizes.append(read(size, info))
        except ValueError as error:
            raise _Refusal(f"the {word} {error}") from None
    return sizes[0], sizes[1]


_COLOURS: Final = {
    "black": "#000000", "silver": "#c0c0c0", "gray": "#808080", "grey": "#808080", "white": "#ffffff",
    "maroon": "#800000", "red": "#ff0000", "purple": "#800080", "fuchsia": "#ff00ff", "green": "#008000",
    "lime": "#00ff00", "olive": "#808000", "yellow": "#ffff00", "navy": "#000080", "blue": "#0000ff",
    "teal": "#008080", "aqua": "#00ffff",
}  # fmt: skip


def _colour(value: object) -> str:
    text = value.strip().lower() if isinstance(value, str) else ""
    if re.fullmatch("#[0-9a-f]{6}", text):
        return text
    likely = _COLOURS.get(text, "")
    if re.fullmatch("#?[0-9a-f]{3}", text):
        likely = "#" + "".join(2 * digit for digit in text.removeprefix("#"))
    elif re.fullmatch("[0-9a-f]{6}", text):
        likely = f"#{text}"
    allowed = 'must be # and six digits or letters a to f, such as "#6f8aa3"'
    raise _Refusal(allowed, likely and f'did you mean "{likely}"?')


def _choice(owner: type, name: str) -> PlainValidator:
    """A reader of the words that the vocabulary allows for the field ``name`` of ``owner``."""
    words: tuple[str, ...] = get_args(get_type_hints(owner)[name])

    def read(value: object) -> str:
        if value in words:
            return str(value)
        listed = " or ".join(f'"{word}"' for word in words)
        raise _Refusal(f"must be {listed}", _nearest(value, words, '"'))

    return PlainValidator(read)


def _list(most: int, words: str, least: int = 1) -> BeforeValidator:
    """A list of ``least`` to ``most`` values; ``words`` say so with an example."""
    size = str(least) if least == most else f"{least} to {most}"

    def read(value: object) -> object:
        if not isinstance(value, list):
            raise _Refusal(f"must be {words}")
        if not least <= len(value) <= most:
            raise _Refusal(f"must be a list of {size}", found=f"a list of {len(value)}")
        return value

    return BeforeValidator(read)


def _one_or_more(value: object) -> object:
    """A single number as a list of one."""
    return value if isinstance(value, list | dict | str) else [value]


def _table(words: str) -> PlainValidator:
    """A single table, written as ``words`` show."""

    def read(value: object) -> Raw:
        if not isinstance(value, dict):
            raise _Refusal(f"must be written {words}")
        return value

    return PlainValidator(read)


def _tables(key: str, most: int, single: bool = False) -> PlainValidator:
    """Up to ``most`` tables [[key]]; where ``single``, one [key] will do."""

    def read(value: object) -> list[Raw]:
        if isinstance(value, dict) and single:
            return [value]
        if isinstance(value, dict):
            raise _Refusal(f"must be written [[{key}]], since there may be several", "two brackets each side")
        if not isinstance(value, list) or not all(isinstance(table, dict) for table in value):
            raise _Refusal(f"must be tables that begin with [[{key}]]")
        if len(value) > most:
            raise _Refusal(f"must be at most {most}", found=f"{len(value)} tables [[{key}]]")
        return value

    return PlainValidator(read)


Line = Annotated[str, PlainValidator(_line)]
Words = Annotated[str, PlainValidator(_words)]
Above = Annotated[Fraction, PlainValidator(_above_zero)]
Long = Annotated[Fraction, PlainValidator(_long)]
Point = Annotated[tuple[Fraction, Fraction], PlainValidator(_point)]
RowCount = Annotated[int, PlainValidator(_whole(1, pattern.MOST_ROWS))]

# --------------------------------------------------------------------------------------- the tables of a file


class _Table(BaseModel):
    """One table: the keys it may have, and in ``needed`` those it must have with what to write."""

    model_config = ConfigDict(extra="forbid", frozen=True)
    needed: ClassVar[dict[str, str]] = {}


class _Swatch(_Table):
    clusters: Above | None = None
    width: Long | None = None
    rows: Above | None = None
    height: Long | None = None
    weight: Above | None = None
    weighed: Annotated[
        tuple[Long, Long] | None, _list(2, "a width and a height such as [29, 23.5]", least=2)
    ] = None
    hook: Above | None = None


class _Fabric(_Table):
    cluster: Annotated[int | None, PlainValidator(_whole(2, 5))] = None
    gap: Annotated[int | None, PlainValidator(_whole(0, 1))] = None


class _Yarn(_Table):
    needed = {
        "name": 'a yarn needs a name such as "Reed"',
        "colour": 'a yarn needs a colour such as "#b9b36a"',
    }
    name: Words | None = None
    colour: Annotated[str | None, PlainValidator(_colour)] = None
    stock: Annotated[Fraction | None, PlainValidator(_stock)] = None
    metres_per_100g: Above | None = None
    ball: Above | None = None


class _Stripes(_Table):
    needed = {"order": 'stripes need the names of yarns in their order, such as ["Reed", "Silt"]'}
    order: Annotated[
        tuple[Words, ...] | None, _list(pattern.MOST_ROWS, 'a list such as ["Reed", "Silt"]')
    ] = None
    rows: Annotated[
        tuple[RowCount, ...] | None,
        _list(pattern.MOST_ROWS, "a whole number such as 2, or a list such as [2, 1]"),
        BeforeValidator(_one_or_more),
    ] = None


class _Neck(_Table):
    needed = {
        "shoulder": "a neck needs the length of one shoulder",
        "depth": "a neck needs its depth below the shoulder",
    }
    shoulder: Long | None = None
    depth: Long | None = None
    shape: Annotated[str | None, _choice(pattern.Neck, "shape")] = None


class _Piece(_Table):
    needed = {"name": 'a piece needs a name such as "front"'}
    name: Annotated[str | None, PlainValidator(_file_name)] = None
    count: Annotated[int | None, PlainValidator(_whole(1, MOST_COUNT))] = None
    worked: Annotated[str | None, _choice(pattern.Piece, "worked")] = None
    width: Long | None = None
    length: Long | None = None
    neck: Annotated[Raw | None, _table("neck = { shoulder = 13, depth = 8 }")] = None
    outline: Annotated[
        tuple[Point, ...] | None, _list(MOST_POINTS, "a list of points such as [[0, 36], [34, 24]]", least=2)
    ] = None
    align: Annotated[str | None, _choice(pattern.Piece, "align")] = None
    row_plan: Annotated[str | None, _choice(pattern.Piece, "row_plan")] = None
    neck_edge: Annotated[str | None, _choice(pattern.Piece, "neck_edge")] = None
    faces: Words | None = None


class _File(_Table):
    needed = {
        "title": 'a pattern needs a title such as title = "Heron Creek top"',
        "swatch": "a pattern needs a swatch with clusters, width, rows and height",
        "piece": "a pattern needs at least one [[piece]]",
    }
    title: Words | None = None
    by: Line | None = None
    link: Line | None = None
    licence: Line | None = None
    date: Annotated[str | None, PlainValidator(_date)] = None
    note: Line | None = None
    terms: Annotated[str | None, _choice(pattern.Pattern, "terms")] = None
    units: Annotated[str | None, _choice(pattern.Pattern, "units")] = None
    swatch: Annotated[list[Raw] | None, _tables("swatch", MOST_READINGS, single=True)] = None
    fabric: Annotated[Raw | None, _table("[fabric], once in the file")] = None
    yarn: Annotated[list[Raw] | None, _tables("yarn", pattern.MOST_YARNS)] = None
    stripes: Annotated[Raw | None, _table("[stripes], once in the file")] = None
    piece: Annotated[list[Raw] | None, _tables("piece", pattern.MOST_PIECES)] = None


_HOMES: Final[dict[type[_Table], str]] = {
    _File: "at the top of the file, before the first table",
    _Swatch: "in [swatch]",
    _Fabric: "in [fabric]",
    _Yarn: "in a [[yarn]]",
    _Stripes: "in [stripes]",
    _Piece: "in a [[piece]]",
    _Neck: "in the neck of a piece",
}


def _made(kind: type[D], table: _Table, **more: Any) -> D:
    """The vocabulary's ``kind`` from a sound table; what the file leaves out keeps the default there."""
    given = {name: getattr(table, name) for name in table.model_fields_set}
    names = kind.__dataclass_fields__.keys()  # type: ignore[attr-defined]  # every kind is a dataclass
    return kind(**{name: value for name, value in {**given, **more}.items() if name in names})


# ----------------------------------------------------------------------------------------- gathering problems


class _Notes:
    """The problems of one file as they are found, and the unit of its bare lengths."""

    def __init__(self, unit: Unit) -> None:
        self.unit: Unit = unit
        self.problems: list[Problem] = []
        self.untold = 0

    def say(self, place: str, found: str, allowed: str, hint: str = "") -> None:
        if self.full:
            self.untold += 1
        else:
            self.problems.append(Problem(place, found, allowed, hint))

    @property
    def full(self) -> bool:
        return len(self.problems) >= MOST_TOLD

    def all(self) -> list[Problem]:
        rest = Problem("", f"{self.untold} more problems", "they are told when these are mended")
        return [*self.problems, rest] if self.untold else self.problems

    def table(self, model: type[T], raw: Raw, place: str) -> T:
        """What is sound of the table ``raw`` at ``place``; what is not is noted and left out."""
        for key, allowed in model.needed.items():
            if key not in raw:
                self.say(place, f"no `{key}`", allowed)
        try:
            return model.model_validate(raw, context=self.unit)
        except ValidationError as error:
            details = error.errors(include_url=False)
        for detail in details:
            self._note(model, raw, place, detail)
        wrong = {detail["loc"][0] for detail in details}
        return model.model_validate({key: raw[key] for key in raw if key not in wrong}, context=self.unit)

    def _note(self, model: type[_Table], raw: Raw, place: str, detail: ErrorDetails) -> None:
        if self.full:  # looking for hints takes time
            self.untold += 1
            return
        key, *entry = map(str, detail["loc"])
        if detail["type"] == "extra_forbidden":
            keys = ", ".join(f"`{name}`" for name in model.model_fields)
            found = f"unknown key {_told(key, '`')}"
            self.say(place, found, f"the keys here are {keys}", _home(model, key))
            return
        where = ", ".join(filter(None, (place, key)))
        if entry and isinstance(raw[key], list):
            where += f", {'point' if key == 'outline' else 'entry'} {int(entry[0]) + 1}"
        error = detail.get("ctx", {}).get("error", "cannot be used here")
        refusal = error if isinstance(error, _Refusal) else _Refusal(str(error))
        self.say(where, refusal.found or _told(detail["input"]), str(refusal), refusal.hint)


def _home(model: type[_Table], key: str) -> str:
    """What to do with a key that is not one of ``model``'s."""
    if near := _nearest(key, model.model_fields, "`"):
        return near
    homes = [words for other, words in _HOMES.items() if key in other.model_fields]
    return f"`{key}` belongs {' or '.join(homes)}" if homes else ""


def _nearest(value: object, words: Iterable[str], quote: str) -> str:
    """A hint at the word that was probably meant, or nothing."""
    by_case = {word.casefold(): word for word in words}
    text = value[:MOST_NAME_LETTERS].casefold() if isinstance(value, str) else ""
    near = difflib.get_close_matches(text, by_case, 1)
    return f"did you mean {quote}{by_case[near[0]]}{quote}?" if near else ""


def _told(value: object, quote: str = '"') -> str:
    """A value as a message shows it: shortened, on one line, nothing in it that could upset a terminal."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f"{quote}{_short(value)}{quote}"
        case int() if abs(value) > 10**_TOLD_LETTERS:
            return f"a number of some {value.bit_length() * 3 // 10} digits"
        case dict():
            return "a table"
        case list():
            inner = ["[...]" if isinstance(part, list) else _told(part) for part in value[:4]]
            return f"[{', '.join(inner + ['...'] * (len(value) > 4))}]"
        case _:
            return _short(str(value)).lower().replace("infinity", "inf")


def _listed(names: Iterable[str]) -> str:
    """Some of the names there are; a maker with more has them in the file."""
    first = [_told(name) for name in names]
    return ", ".join(first[:8] + ["..."] * (len(first) > 8))


def _short(text: str) -> str:
    return _printable(text[:_TOLD_LETTERS] + "…" * (len(text) > _TOLD_LETTERS))


def _printable(text: str) -> str:
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


# --------------------------------------------------------------------------------- checks that compare values


def _swatches(notes: _Notes, file: _File) -> list[_Swatch]:
    readings = file.swatch or []
    for wanted, across in (("clusters", "width"), ("rows", "height")):
        if readings and not any(wanted in raw for raw in readings):
            allowed = f"a swatch must tell how many {wanted} were counted in its {across}"
            notes.say("swatch", f"no `{wanted}`", allowed)
    places = ["swatch"] if len(readings) == 1 else [f"swatch {i}" for i in range(1, len(readings) + 1)]
    return [_swatch(notes, raw, place) for raw, place in zip(readings, places, strict=True)]


def _swatch(notes: _Notes, raw: Raw, place: str) -> _Swatch:
    area = "weighed" in raw or {"width", "height"} <= raw.keys()
    for wanted, across in (("clusters", "width"), ("rows", "height")):
        if wanted in raw and across not in raw:
            allowed = f"the {across} in which they were counted is needed"
            notes.say(place, f"`{wanted}` without `{across}`", allowed)
        elif across in raw and wanted not in raw and not ("weight" in raw and "weighed" not in raw):
            notes.say(place, f"`{across}` without `{wanted}`", f"the {wanted} counted in it are needed")
    if "weight" in raw and not area:
        allowed = "the size of what was weighed is needed"
        notes.say(place, "`weight` without a size", allowed, "add weighed = [width, height]")
    if "weighed" in raw and "weight" not in raw:
        notes.say(place, "`weighed` without `weight`", "the weight in grams is needed")
    return notes.table(_Swatch, raw, place)


def _yarns(notes: _Notes, file: _File) -> list[_Yarn]:
    yarns: list[_Yarn] = []
    for i, raw in enumerate(file.yarn or [], 1):
        named = raw.get("name")
        place = f"yarn {i} ({_told(named)})" if isinstance(named, str) else f"yarn {i}"
        yarn = notes.table(_Yarn, raw, place)
        same = [j for j, other in enumerate(yarns, 1) if yarn.name and other.name == yarn.name]
        if same:
            found = f"yarn {same[0]} has this name too"
            notes.say(f"{place}, name", found, "each yarn needs a name of its own")
        yarns.append(yarn)
    return yarns


def _stripes(notes: _Notes, file: _File, yarns: list[_Yarn], known: bool) -> _Stripes | None:
    """The stripes; ``known`` says whether ``yarns`` are all that the file meant to have."""
    if file.stripes is None:
        return None
    stripes = notes.table(_Stripes, file.stripes, "stripes")
    names = [yarn.name for yarn in yarns if yarn.name]
    if known and not yarns:
        notes.say("stripes", "stripes without a yarn", "each name in the order must be that of a [[yarn]]")
    elif known and len(names) == len(yarns):  # else the name that is missing may be the one that was spoilt
        for name in sorted(set(stripes.order or ()) - set(names))[:MOST_TOLD]:
            hint = _nearest(name, names, '"')
            allowed = f"the yarns are {_listed(names)}"
            notes.say("stripes, order", f"there is no yarn {_told(name)}", allowed, hint)
    return stripes


def _pieces(notes: _Notes, file: _File, swatches: list[_Swatch]) -> list[tuple[_Piece, _Neck | None]]:
    raws = file.piece or []
    names = [raw.get("name") for raw in raws]
    places: list[str] = []
    for i, name in enumerate(names, 1):
        single = isinstance(name, str) and names.count(name) == 1
        numbered = f"piece {i} ({_told(name)})" if isinstance(name, str) else f"piece {i}"
        places.append(f"piece {_told(name)}" if single else numbered)
    pieces = [notes.table(_Piece, raw, place) for raw, place in zip(raws, places, strict=True)]
    necks: list[_Neck | None] = []
    gauge = _gauge(swatches)
    for piece, raw, place in zip(pieces, raws, places, strict=True):
        _check_form(notes, raw, place)
        _check_outline(notes, piece.outline or (), f"{place}, outline")
        if gauge:
            _check_size(notes, piece, place, gauge)
        necks.append(_neck(notes, piece, raw, place))
    _check_names(notes, pieces, places)
    _check_faces(notes, pieces, raws, places)
    return list(zip(pieces, necks, strict=True))


def _check_form(notes: _Notes, raw: Raw, place: str) -> None:
    """Width and length, or an outline, and keys that fit."""
    sides = [key for key in ("width", "length") if key in raw]
    if "outline" in raw and sides:
        found = f"`outline` together with {' and '.join(f'`{key}`' for key in sides)}"
        notes.say(place, found, "a piece has either width and length or an outline", "leave one of them out")
    elif "outline" not in raw and not sides:
        notes.say(place, "no size", "a piece needs `width` and `length`, or an `outline`")
    elif len(sides) == 1:
        missing = "length" if sides == ["width"] else "width"
        notes.say(place, f"`{sides[0]}` without `{missing}`", f"a {missing} is needed too")
    if _upwards(raw):
        for key in ("neck_edge", "faces"):
            if key in raw:
                allowed = f'`{key}` is for pieces with worked = "sideways"'
                notes.say(f"{place}, {key}", "this piece is worked upwards", allowed)
    if "neck_edge" in raw and "faces" in raw:
        allowed = "the edge follows from the piece it faces"
        notes.say(place, "`neck_edge` together with `faces`", allowed, "leave one of the two out")


def _upwards(raw: Raw) -> bool:
    """Whether a piece is known to be worked upwards, which it is where nothing is said."""
    return raw.get("worked", "upwards") == "upwards"


def _neck(notes: _Notes, piece: _Piece, raw: Raw, place: str) -> _Neck | None:
    if piece.neck is None:
        return None
    place += ", neck"
    neck = notes.table(_Neck, piece.neck, place)
    if "outline" in raw:
        notes.say(place, "this piece has an outline", "a neck is only for a piece with width and length")
    elif _upwards(raw):
        allowed = "a neck in such a piece is not available yet"
        notes.say(place, "this piece is worked upwards", allowed, 'a neck needs worked = "sideways"')
    if neck.shoulder and piece.width and 2 * neck.shoulder >= piece.width:
        found = f"two shoulders of {shown(neck.shoulder, notes.unit)}"
        allowed = f"must leave room for a neck within the width of {shown(piece.width, notes.unit)}"
        notes.say(f"{place}, shoulder", found, allowed)
    if neck.depth and piece.length and neck.depth >= piece.length:
        allowed = f"must be less than the length of {shown(piece.length, notes.unit)}"
        notes.say(f"{place}, depth", shown(neck.depth, notes.unit), allowed)
    return neck


def _check_outline(notes: _Notes, points: tuple[Point, ...], place: str) -> None:
    if not points:
        return
    heights = [height for height, _ in points]
    if heights[0] != 0:
        found = f"height {shown(heights[0], notes.unit)}"
        notes.say(f"{place}, point 1", found, "the first height must be 0")
    for i in range(1, len(heights)):
        here = f"{place}, point {i + 1}"
        if heights[i] < heights[i - 1]:
            found = f"height {shown(heights[i], notes.unit)} after {shown(heights[i - 1], notes.unit)}"
            notes.say(
                here, found, "heights must not fall", "a point is [height, width], from the first row on"
            )
        elif i > 1 and heights[i] == heights[i - 1] == heights[i - 2]:
            found = f"a third point at {shown(heights[i], notes.unit)}"
            notes.say(here, found, "at most two points may share a height, for a step")
    if heights[-1] == heights[0]:
        notes.say(place, "no height", "the last height must be greater than the first")


def _check_size(notes: _Notes, piece: _Piece, place: str, gauge: Gauge) -> None:
    """At least one row and one cluster, and no more than a machine and a maker can take."""
    high: tuple[str, Fraction | None]
    wide: tuple[str, Fraction | None]
    if piece.outline:
        high = ("outline", piece.outline[-1][0])
        wide = ("outline", max(width for _, width in piece.outline))
    else:
        wide, high = ("width", piece.width), ("length", piece.length)
        if piece.worked == "sideways":
            wide, high = high, wide
    for (key, cm), what, size, most in (
        (high, "rows", gauge.row, pattern.MOST_ROWS),
        (wide, "clusters", gauge.pitch, pattern.MOST_CLUSTERS),
    ):
        if cm and not 1 <= (asked := round(cm / size)) <= most:
            found = f"{shown(cm, notes.unit)} is {asked} {what} at the swatch's gauge"
            hint = "look at the size, the swatch and the unit"
            notes.say(f"{place}, {key}", found, f"must be 1 to {most} {what}", hint)


def _gauge(swatches: list[_Swatch]) -> Gauge | None:
    """The gauge of what is sound in the swatches, or None where that is too little."""
    try:
        return gauge_of([_made(pattern.Swatch, swatch) for swatch in swatches])
    except ValueError:
        return None


def _check_names(notes: _Notes, pieces: list[_Piece], places: list[str]) -> None:
    seen: dict[str, str] = {}
    for piece, place in zip(pieces, places, strict=True):
        if not piece.name:
            continue
        other = seen.setdefault(unicodedata.normalize("NFKC", piece.name).casefold(), place)
        if other != place:
            allowed = "each piece needs a name of its own, since files are named after pieces"
            notes.say(f"{place}, name", f"{other} has this name too, but for capitals at most", allowed)


def _check_faces(notes: _Notes, pieces: list[_Piece], raws: list[Raw], places: list[str]) -> None:
    named = {piece.name: raw for piece, raw in zip(pieces, raws, strict=True) if piece.name}
    whole = len(named) == len(pieces)  # else the piece that is missing may be the one whose name was spoilt
    for piece, place in zip(pieces, places, strict=True):
        if piece.faces is None:
            continue
        place += ", faces"
        if piece.faces == piece.name:
            notes.say(place, "the piece itself", "must be another piece")
        elif piece.faces in named and _upwards(named[piece.faces]):
            notes.say(place, f"{_told(piece.faces)} is worked upwards", "must be a piece worked sideways")
        elif piece.faces not in named and whole:
            hint = _nearest(piece.faces, named, '"')
            notes.say(
                place, f"there is no piece {_told(piece.faces)}", f"the pieces are {_listed(named)}", hint
            )
    _check_circles(notes, pieces, places)


def _check_circles(notes: _Notes, pieces: list[_Piece], places: list[str]) -> None:
    """Pieces that face one another in a circle: each would wait for the other's neck edge."""
    faces = {piece.name: piece.faces for piece in pieces if piece.name and piece.faces}
    told: set[str] = set()
    for piece, place in zip(pieces, places, strict=True):
        walk = [piece.name or ""]
        while (following := faces.get(walk[-1], "")) and following not in walk:
            walk.append(following)
        if len(walk) > 1 and following == walk[0] and not told & set(walk):
            told |= set(walk)
            found = " faces ".join(_told(name) for name in [*walk, following])
            notes.say(
                f"{place}, faces", found, "one of them must come first", "leave `faces` out of one piece"
            )


# -------------------------------------------------------------------------------------------- the TOML itself


def _tables_of(text: str, source: str) -> Raw:
    """The tables of a TOML text. PatternError with one problem where it is none."""
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
    return PatternError(source, [Problem(place, found, allowed, hint)])


#: How the TOML reader's messages begin, and what a maker is told instead.
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

#: What a line that cannot be read looks like, and what was probably meant.
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
    allowed = next((ours for theirs, ours in _SYNTAX.items() if words.startswith(theirs)), "this is not TOML")
    written = lines[line - 1].strip()
    hint = next((hint for look, hint in _LOOKS if re.match(look, written[:200])), "")
    return _one(source, place, _told(written, "`"), allowed, hint)


def _beside(path: Path) -> str:
    """A pattern file in the same folder whose name is nearly that of ``path``."""
    try:
        names = [other.name for other in path.parent.glob("*.toml")]
    except (OSError, ValueError):
        return ""
    near = _nearest(path.name, names, '"')
    return near and f" ({_printable(near)})"
