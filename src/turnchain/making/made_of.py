"""What a folder is made of, as one digest: where it is the same again and all files stand, there is nothing to make.

In: a pattern file and what is asked for. Out: a digest of all that can change what is made: the program, what is asked
for, the pattern, and the files that it names; and of a folder whose record has this digest, that it stands whole. It
takes a few hundredths of a second where planning and drawing take seconds.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path

from turnchain import packaged
from turnchain.drawing.looks import Look
from turnchain.errors import MakerError
from turnchain.lettering import measuring
from turnchain.making import record
from turnchain.making.record import MadeFolder
from turnchain.reading.toml_text import Raw, tables_of, text_of

#: Rooms that make nothing of a folder.
OTHER_ROOMS = ("proof", "design", "live", "__pycache__")


def make(
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    watch: Callable[[str, int, int], None] = lambda *_: None,
    size: str | None = None,
) -> MadeFolder:
    """Makes everything of ``source`` in ``folder``, as ``everything.make_all`` does where a ``size`` is named, else as
    ``every_size.make_every_size``, which say what all this is and what they raise; nothing where it stands there
    already."""

    def made_of() -> str:
        """What is read now; nothing where a file was changed meanwhile, or where letters are those of other fonts, of
        which more may be installed."""
        return began if digest(source, look, width, language, size) == began and not measuring.told() else ""

    began = digest(source, look, width, language, size)
    if (there := stands(folder, began)) is not None:
        return MadeFolder(there, [], [])
    if size is not None:
        from turnchain.making.everything import make_all  # drawing takes a tenth of a second to load

        return make_all(source, folder, width, look, language, watch, size, made_of)
    from turnchain.making.every_size import make_every_size  # as above

    return make_every_size(source, folder, width, look, language, watch, made_of)


def digest(source: Path, look: Look, *asked: object) -> str:
    """The SHA-256 (hexadecimal) of all that a folder of the pattern file ``source`` is made of; "" where something of
    it cannot be read, so that whoever makes the folder says what is wrong."""
    try:
        text, name = text_of(source)
        files = [source.parent / one for one in _named(tables_of(text, name))]
        files += sorted(look.symbols.glob("*.svg")) if look.symbols else []
        parts = [program(), repr((source.name, look, asked)), text, *map(_content, files)]
    except (MakerError, OSError, ValueError):
        return ""
    return hashlib.sha256(repr(parts).encode("utf-8", "backslashreplace")).hexdigest()


def stands(folder: Path, made_of: str) -> list[Path] | None:
    """The files of ``folder`` and of those within it, in the order in which they were made, if it was made of just this
    (a digest) and everything stands as it was put there; else None."""
    held = record.read(folder)
    if held is None or not made_of or held.made_of != made_of:  # known before any file is looked at
        return None
    found = record.before(folder, ()).found
    if any(digests != (found.get(name),) for name, digests in held.files.items()):
        return None
    paths = [folder / name for name in held.files]
    for name in held.folders:
        within = stands(folder / name, made_of)
        if within is None:
            return None
        paths += within
    return paths


def _named(raw: Raw) -> Iterator[str]:
    """The files that a pattern names: a fabric of its own, and photographs; what is no name is left out."""
    fabric, photos = raw.get("fabric"), raw.get("photo")
    kind = fabric.get("kind") if isinstance(fabric, dict) else None
    found = [kind if isinstance(kind, str) and kind.endswith(".toml") else None]
    found += [one.get("file") for one in photos if isinstance(one, dict)] if isinstance(photos, list) else []
    yield from (name for name in found if isinstance(name, str))


def _content(file: Path) -> str:
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


@cache
def program() -> str:
    """A digest of all sources and data of the program that have a part in what is made."""
    found = hashlib.sha256()
    for file in _files((packaged.file(), packaged.symbols())):
        with open(file, "rb") as stream:
            found.update(stream.read())
    return found.hexdigest()


def _files(folders: Iterable[Path]) -> Iterator[str]:
    for top in folders:
        for folder, inner, names in os.walk(top):
            inner[:] = sorted(name for name in inner if name not in OTHER_ROOMS)
            yield from (os.path.join(folder, name) for name in sorted(names))
