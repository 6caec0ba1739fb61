"""A whole pattern file read.

In: a path, a TOML text or its tables. Out: the ``Pattern``, every length an exact fraction of a centimetre, or one for
every size of the file; or one ``PatternError`` with every problem.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from turnchain import file_names, pattern
from turnchain.errors import PatternError, Problem, of_sizes
from turnchain.reading import checks, edgings, fabrics, graded, swatches, tables, toml_text, wearers
from turnchain.reading.notes import Notes
from turnchain.reading.places import KeyPath, Place, located
from turnchain.reading.quoting import told
from turnchain.reading.toml_text import Beside, Raw
from turnchain.records import replace
from turnchain.units import Unit


def read_file(path: str | Path, size: str | None = None) -> pattern.Pattern:
    """The pattern in the file at ``path``, as ``read_text`` reads it. Raises FileError where it cannot be read."""
    return read_text(*toml_text.text_of(Path(path)), size, Path(path).parent)


def read_text(text: str, source: str, size: str | None = None, folder: Beside | None = None) -> pattern.Pattern:
    """The pattern in a TOML ``text`` (``folder``: where its file lies, or what lies beside it by its name, None:
    nowhere), in the ``size`` of that name where the file has sizes (None: it has none); ``source`` names it in
    messages. Raises PatternError, with every problem and its line and column, where it is no sound pattern, where it
    has no such size, and where it has sizes and none is named."""
    raw = toml_text.tables_of(text, source)
    with _located(text):
        names = _sizes(raw, source)
        if size is None and not names:
            return read_tables(raw, source, folder)
        if size not in names:
            raise PatternError(source, [_no_size(names, size)])
        return _of_size(raw, source, names, names.index(size), folder)


def read_sizes(text: str, source: str, folder: Beside | None = None) -> tuple[pattern.Pattern, ...]:
    """The pattern in a TOML ``text`` in every size, in the order of the file; one where it has no sizes. Raises
    PatternError with the problems of all sizes; those that are not of all name theirs."""
    raw = toml_text.tables_of(text, source)
    with _located(text):
        names = _sizes(raw, source)
        if not names:
            return (read_tables(raw, source, folder),)
        made: list[pattern.Pattern] = []
        problems: list[list[Problem]] = []
        for nth in range(len(names)):
            try:
                made.append(_of_size(raw, source, names, nth, folder))
                problems.append([])
            except PatternError as error:
                problems.append(list(error.problems))
        if any(problems):
            raise PatternError(source, of_sizes(names, problems))
        return tuple(made)


def size_names(text: str, source: str) -> tuple[str, ...]:
    """The names of the sizes that a TOML ``text`` has; empty where it has none. Raises PatternError where it cannot be
    read, or where the sizes are wrong."""
    raw = toml_text.tables_of(text, source)
    with _located(text):
        return _sizes(raw, source)


def _no_size(names: Sequence[str], size: str | None) -> Problem:
    place = Place().key("sizes")
    if not names:
        return Problem(place.words, f"no size {told(size)}", "the file has no sizes", "", place.path)
    said = f"there is no size {told(size)}" if size is not None else "no size is chosen"
    hint = f"for one of them: --for {names[0]}"
    return Problem(place.words, said, f"the sizes are {', '.join(names)}", hint, place.path)


def _sizes(raw: Raw, source: str) -> tuple[str, ...]:
    """The sizes of a file, none twice."""
    notes = Notes("cm")
    given = {"sizes": raw["sizes"]} if "sizes" in raw else {}
    names = notes.table(tables.SizesTable, given, Place()).sizes or ()
    for nth, name in enumerate(names):
        folders = [file_names.size_folder(other).casefold() for other in names[:nth]]
        if file_names.size_folder(name).casefold() in folders:
            notes.say(Place().key("sizes").entry("entry", nth + 1), told(name), "each size needs a name of its own")
    if notes.problems:
        raise PatternError(source, notes.all())
    return names


@contextmanager
def _located(text: str) -> Iterator[None]:
    """Gives the problems found within their lines and columns in ``text``, which is sound TOML."""
    try:
        yield
    except PatternError as error:
        raise located(error, text) from None


def _of_size(raw: Raw, source: str, names: Sequence[str], nth: int, folder: Beside | None) -> pattern.Pattern:
    from turnchain.reading import brackets  # for files of several sizes

    notes = Notes(_unit(raw))
    chosen = brackets.of_size(notes, raw, names, nth)
    if "progress" in raw:
        allowed = "how far a piece has come is that of one size, and a file of several has no such table"
        notes.say(Place().key("progress"), "progress in a file with sizes", allowed, "write a file of your size alone")
    if notes.problems:
        raise PatternError(source, notes.all())
    read = _without(raw, chosen, nth, source, folder)
    return replace(read, size=names[nth], title=pattern.sized_title(read.title, names[nth]))


def _without(raw: Raw, chosen: Raw, nth: int, source: str, folder: Beside | None) -> pattern.Pattern:
    """The pattern in the tables ``chosen`` of the size number ``nth``, without the pieces that this size lacks."""
    from turnchain.reading import brackets  # for files of several sizes

    gone = brackets.missing(raw, nth)
    if not gone:
        return read_tables(chosen, source, folder)
    pieces = chosen["piece"]
    there = [number for number in range(len(pieces)) if number not in gone]  # type: ignore[arg-type]  # some are gone
    try:
        read = read_tables(brackets.without(chosen, gone), source, folder)
    except PatternError as error:
        problems = [replace(one, path=_as_in_file(one.path, there)) for one in error.problems]
        raise PatternError(source, problems) from None
    return replace(read, lacks=tuple(gone))


def _as_in_file(path: KeyPath, there: Sequence[int]) -> KeyPath:
    """A path among the pieces of one size, as it is among those of the file."""
    match path:
        case ("piece", int(number), *rest) if number < len(there):
            return "piece", there[number], *rest
    return path


def _unit(raw: Raw) -> Unit:
    return "in" if raw.get("units") == "in" else "cm"


def read_tables(raw: Raw, source: str, folder: Beside | None = None) -> pattern.Pattern:
    """The pattern in the tables ``raw`` of a TOML text of one size, floats as Decimal. Raises PatternError with every
    problem, its place in words and as a path of keys, without line and column."""
    notes = Notes(_unit(raw))
    raw, worked_out = graded.worked_out(notes, raw)
    file = notes.table(tables.FileTable, raw, Place())
    notes.noun = fabrics.noun_of(file, folder)
    readings = swatches.swatches(notes, file)
    fabric = fabrics.fabric(notes, file, readings, folder)
    yarns = checks.yarns(notes, file)
    yarns_known = "yarn" not in raw or file.yarn is not None
    stripes = checks.stripes(notes, file, yarns, yarns_known)
    allowance = notes.table(tables.AllowanceTable, file.allowance or {}, Place().key("allowance"))
    pieces = checks.pieces(notes, file, readings)
    own_stripes = checks.own_stripes(notes, pieces, yarns, yarns_known)
    checks.stripes_of_kinds(notes, stripes, own_stripes, pieces, fabric)
    progress = checks.progress(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    seams = checks.seams(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    edged = edgings.edgings(notes, file, pieces, yarns, known="piece" not in raw or file.piece is not None)
    photos = checks.photos(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    wearer = wearers.wearer(notes, file)
    if notes.problems:
        raise PatternError(source, notes.all())
    return file.made(
        pattern.Pattern,
        swatches=tuple(swatch.made(pattern.Swatch) for swatch in readings),
        fabric=fabric,
        yarns=tuple(yarn.made(pattern.Yarn) for yarn in yarns),
        stripes=stripes and stripes.made(pattern.Stripes),
        allowance=allowance.made(pattern.Allowance),
        pieces=tuple(
            one.piece.made(
                pattern.Piece,
                neck=one.neck and one.neck.made(pattern.Neck),
                stripes=own and own.made(pattern.Stripes),
            )
            for one, own in zip(pieces, own_stripes, strict=True)
        ),
        seams=tuple(seam.made(pattern.Seam) for seam in seams),
        edgings=tuple(one.made(pattern.Edging) for one in edged),
        progress=tuple(one.made(pattern.Progress) for one in progress),
        photos=tuple(one.made(pattern.Photo) for one in photos),
        wearer=wearer and wearer.made(pattern.Wearer),
        graded=worked_out,
    )
