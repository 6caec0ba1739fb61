"""A whole pattern file read.

In: a path, a TOML text or its tables. Out: the ``Pattern``, every length an exact fraction of a centimetre; or one
``PatternError`` with every problem of the file.
"""

from __future__ import annotations

from pathlib import Path

from turnchain import pattern
from turnchain.errors import PatternError
from turnchain.reading import checks, swatches, tables, toml_text, wearers
from turnchain.reading.notes import Notes
from turnchain.reading.places import Place, located
from turnchain.reading.toml_text import Raw


def read_file(path: str | Path) -> pattern.Pattern:
    """The pattern in the file at ``path``. Raises FileError where the file cannot be read, and PatternError, with every
    problem and its line and column, where it is no sound pattern."""
    return read_text(*toml_text.text_of(Path(path)))


def read_text(text: str, source: str) -> pattern.Pattern:
    """The pattern in a TOML ``text``; ``source`` names it in messages. Raises PatternError, with every problem and its
    line and column, where it is no sound pattern."""
    raw = toml_text.tables_of(text, source)
    try:
        return read_tables(raw, source)
    except PatternError as error:
        raise located(error, text) from None


def read_tables(raw: Raw, source: str) -> pattern.Pattern:
    """The pattern in the tables ``raw`` of a TOML text, floats as Decimal. Raises PatternError with every problem, its
    place in words and as a path of keys, without line and column."""
    notes = Notes("in" if raw.get("units") == "in" else "cm")
    file = notes.table(tables.FileTable, raw, Place())
    readings = swatches.swatches(notes, file)
    fabric = notes.table(tables.FabricTable, file.fabric or {}, Place().key("fabric"))
    yarns = checks.yarns(notes, file)
    yarns_known = "yarn" not in raw or file.yarn is not None
    stripes = checks.stripes(notes, file, yarns, yarns_known)
    allowance = notes.table(tables.AllowanceTable, file.allowance or {}, Place().key("allowance"))
    pieces = checks.pieces(notes, file, readings)
    own_stripes = checks.own_stripes(notes, pieces, yarns, yarns_known)
    progress = checks.progress(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    seams = checks.seams(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    photos = checks.photos(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    wearer = wearers.wearer(notes, file)
    if notes.problems:
        raise PatternError(source, notes.all())
    return file.made(
        pattern.Pattern,
        swatches=tuple(swatch.made(pattern.Swatch) for swatch in readings),
        fabric=fabric.made(pattern.Fabric),
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
        progress=tuple(one.made(pattern.Progress) for one in progress),
        photos=tuple(one.made(pattern.Photo) for one in photos),
        wearer=wearer and wearer.made(pattern.Wearer),
    )
