"""Pattern files, read and checked.

In: a TOML file or its text. Out: a ``Pattern``, or one ``PatternError`` with every problem of the file, each
with its place in makers' words. The only rooms that know the file's keys. In the order of the work:

    toml_text   a file to its tables, or the one thing that is wrong with file or syntax
    tables      the tables a file may have, and their keys: what can be written, at a glance
    values      how a single value is read: lengths, numbers, colours, names
    notes       a table read value by value, and the problems gathered with their places
    checks      what must agree between tables: yarns and stripes, names, facing pieces, seams
    orders      what must agree within stripes: the kind and its keys, the yarns named
    shapes      what must agree within a piece: its size, its outline, its neck
    wearers     what must agree within the wearer: the row of a size table, measures that a body can have
    quoting     values and hints as every message shows them

A table is read in two steps. First each value by itself, and what fails is noted and left out; then the checks
that compare values see what is left, so that one slip hides no other.

A new key is a line in ``tables`` and a field in ``turnchain.pattern``; a new word for a choice is a word there.

Why no library validates: nearly every message and reader is ours in any case, and start-up counts. With models
of pydantic 2.14 this import took 241 ms and ``turnchain check`` of a blanket 292 ms; with the tables here they
take 75 and 125 ms, where Python alone takes 33 (least of 25 runs each, in turn, bytecode compiled).
"""

from __future__ import annotations

from pathlib import Path

from turnchain import pattern
from turnchain.errors import PatternError
from turnchain.reading import checks, tables, toml_text, wearers
from turnchain.reading.notes import Notes
from turnchain.reading.toml_text import Raw

__all__ = ["read_file", "read_tables", "read_text"]


def read_file(path: str | Path) -> pattern.Pattern:
    """The pattern in the file at ``path``. FileError if it cannot be read, PatternError if not be made."""
    return read_text(*toml_text.text_of(Path(path)))


def read_text(text: str, source: str) -> pattern.Pattern:
    """The pattern in a TOML ``text``; ``source`` names it in messages. PatternError if it cannot be made."""
    return read_tables(toml_text.tables_of(text, source), source)


def read_tables(raw: Raw, source: str) -> pattern.Pattern:
    """The pattern in the tables ``raw`` of a TOML text, floats as Decimal. Errors as for ``read_text``."""
    notes = Notes("in" if raw.get("units") == "in" else "cm")
    file = notes.table(tables.File, raw, "")
    swatches = checks.swatches(notes, file)
    fabric = notes.table(tables.Fabric, file.fabric or {}, "fabric")
    yarns = checks.yarns(notes, file)
    yarns_known = "yarn" not in raw or file.yarn is not None
    stripes = checks.stripes(notes, file, yarns, yarns_known)
    allowance = notes.table(tables.Allowance, file.allowance or {}, "allowance")
    pieces = checks.pieces(notes, file, swatches)
    own_stripes = checks.own_stripes(notes, pieces, yarns, yarns_known)
    progress = checks.progress(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    seams = checks.seams(notes, file, pieces, known="piece" not in raw or file.piece is not None)
    wearer = wearers.wearer(notes, file)
    if notes.problems:
        raise PatternError(source, notes.all())
    return file.made(
        pattern.Pattern,
        swatches=tuple(swatch.made(pattern.Swatch) for swatch in swatches),
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
        wearer=wearer and wearer.made(pattern.Wearer),
    )
