"""What ``make`` made in a folder, kept there in a hidden file, so that the next run can tell its own files.

In: a folder. Out: what of it is ours and untouched, what is to be left alone, and what is no longer made. A file is
known by the SHA-256 of its bytes. A folder without a record was made before there were records: by its plan it is ours.
"""

from __future__ import annotations

import hashlib
import json
import marshal
import os
from collections.abc import Iterable, Mapping
from functools import cache
from operator import attrgetter
from pathlib import Path
from typing import Any, BinaryIO, Final, NamedTuple, cast

from turnchain import scene as shapes
from turnchain.lettering import measuring
from turnchain.records import field, fields, frozen
from turnchain.scene import Group, Item, Scene, words_in
from turnchain.writers.files import Write

FILE: Final = ".turnchain.json"
SCHEMA: Final = 1
#: The rooms whose code makes a picture of a scene.
ROOMS: Final = ("raster", "writers", "lettering")
CODE: Final = (".py", ".so", ".pyd")
#: A record of a thousand pieces takes less than a tenth of this (bytes).
LARGEST: Final = 1 << 24


@frozen(slots=False)
class Record:
    """``files``: under each name the digests of what may stand there as ours: what was put there last, and while files
    take their places also what stood there before; in the order in which they are made. ``scenes``: of pictures, by
    file, the digest of what they show. ``made_of``: the digest of all that the folder was made of ("": not known), and
    ``folders`` those within it that were made of the same."""

    files: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    scenes: Mapping[str, str] = field(default_factory=dict)
    made_of: str = ""
    folders: tuple[str, ...] = ()

    def data(self) -> bytes:
        """The record as it stands in its file: JSON in UTF-8."""
        head = {"turnchain": SCHEMA, "made_of": self.made_of, "folders": list(self.folders)}
        files = {name: list(digests) for name, digests in self.files.items()}
        held = {**head, "files": files, "scenes": dict(self.scenes)}
        return (json.dumps(held, indent=1) + "\n").encode()


class MadeFolder(NamedTuple):
    """What a run did: the files ``written``, those ``removed`` since they are no longer made, and those ``left`` as
    they are, since somebody else wrote or changed them. ``told`` is what there is to tell about fonts."""

    written: list[Path]
    removed: list[Path]
    left: list[Path]
    told: tuple[str, ...] = ()


@frozen(slots=False)
class Before:
    """A folder before a run: its ``record`` (None: there is none), and by name the digests ``found`` of what stands
    there of the files to make and of those made before; None for what is no file (a link, a folder)."""

    record: Record | None
    found: Mapping[str, str | None]

    def left(self, names: Iterable[str]) -> list[str]:
        """Those of ``names`` that somebody else wrote, or changed: they stay as they are."""
        return [name for name in names if self.found.get(name) and not self._ours(name)]

    def stale(self, names: Iterable[str]) -> list[str]:
        """What was made before, is untouched, and is not among ``names`` now."""
        return [name for name in self._gone(names) if self._ours(name)]

    def changed(self, names: Iterable[str]) -> list[str]:
        """What was made before and is not among ``names`` now, but was changed since."""
        return [name for name in self._gone(names) if not self._ours(name)]

    def as_drawn(self, scenes: Mapping[str, str]) -> dict[str, str]:
        """The pictures, with the digests of their files, that stand there untouched and already show what they are to
        show; ``scenes``: by name the digest of the scene that each is to show."""
        if self.record is None:
            return {}
        return {
            name: self.record.files[name][0]
            for name, scene in scenes.items()
            if self.record.scenes.get(name) == scene and self.found.get(name) == (*self.record.files[name], None)[0]
        }

    def after(self, made: Mapping[str, str], left: Iterable[str], scenes: Mapping[str, str]) -> Record:
        """The record when ``made`` (digests by name) stand in their places; of what is ``left`` that we made once we
        keep what we made."""
        before = self.record.files if self.record else {}
        files = {name: before[name] for name in left if name in before} | {name: (one,) for name, one in made.items()}
        return Record(files, {name: scene for name, scene in scenes.items() if name in made})

    def during(self, after: Record) -> Record:
        """The record while files take their places: each may be old or new."""
        kept = dict(after.files)
        for name, digest in self.found.items():
            if digest and self._ours(name) and digest not in kept.get(name, ()):
                kept[name] = (*kept.get(name, ()), digest)
        return Record(kept, after.scenes)

    def _gone(self, names: Iterable[str]) -> list[str]:
        now = set(names)
        before = self.record.files if self.record else {}
        return [name for name in before if name not in now and self.found.get(name)]

    def _ours(self, name: str) -> bool:
        return self.record is None or self.found[name] in self.record.files.get(name, ())


def before(folder: Path, names: Iterable[str]) -> Before:
    """``folder`` as it stands (it may be missing), in which files of these ``names`` are to be made."""
    record = read(folder)
    wanted = {*names, *(record.files if record else ())}
    return Before(record, {name: _found(folder / name) for name in wanted if os.path.lexists(folder / name)})


def read(folder: Path) -> Record | None:
    """The record of ``folder``; None where there is none that can be read."""
    try:
        with (folder / FILE).open("rb") as file:
            held = json.loads(file.read(LARGEST))
        if held["turnchain"] != SCHEMA:
            return None
        files = {_name(name): tuple(map(str, digests)) for name, digests in held["files"].items()}
        scenes = {name: str(scene) for name, scene in held["scenes"].items() if name in files}
        made_of, folders = str(held.get("made_of", "")), tuple(map(_name, held.get("folders", ())))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    return Record(files, scenes, made_of, folders)


def _name(name: str) -> str:
    """``name``, which is that of a file in the folder itself. ValueError for any other."""
    if name in ("", ".", "..") or set(name) & set("/\\\0"):
        raise ValueError(name)
    return name


def _found(path: Path) -> str | None:
    """The digest of the file ``path``; None for what is none, or cannot be read."""
    if path.is_symlink() or not path.is_file():
        return None
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def digested(name: str, write: Write, digests: dict[str, str]) -> Write:
    """``write``, which also puts the SHA-256 (hexadecimal) of what it wrote into ``digests`` under ``name``."""

    def watched(stream: BinaryIO) -> None:
        hashing = _Hashing(stream)
        write(cast(BinaryIO, hashing))
        digests[name] = hashing.sha.hexdigest()

    return watched


class _Hashing:
    """A stream that only writes, and digests what it is given."""

    def __init__(self, stream: BinaryIO) -> None:
        self._stream, self.sha = stream, hashlib.sha256()

    def write(self, data: Any) -> int:
        self.sha.update(data)
        return self._stream.write(data)


# ------------------------------------------------------------------------------------------------ what a picture shows


def scene_digest(scene: Scene) -> str:
    """The SHA-256 (hexadecimal) of all that ``scene`` shows and of the program's sources that draw it: another one
    means that the picture may be another."""
    head = (scene.width, scene.height, scene.title, scene.words, scene.language, scene.background)
    definitions = tuple((name, _plain(items)) for name, items in scene.definitions.items())
    # a format without references: the same values are the same bytes
    shown = marshal.dumps((head, definitions, _plain(scene.items)), 2)
    fonts = measuring.fonts_digest(words_in(scene))
    return hashlib.sha256(f"{program()}{fonts}".encode() + shown).hexdigest()


#: What gives the fields of an item.
_FIELDS: Final = {kind: attrgetter(*fields(kind)) for kind in (shapes.Path, shapes.Text, shapes.Use)}


def _plain(items: Iterable[Item]) -> tuple[Any, ...]:
    """``items`` as tuples; colours that tell how they were made are as good as others here."""
    return tuple(
        ("Group", item.name, item.words, _plain(item.items)) if isinstance(item, Group)
        else (type(item).__name__, *[str(one) if isinstance(one, str) else one for one in _FIELDS[type(item)](item)])
        for item in items
    )  # fmt: skip


@cache
def program() -> str:
    """The digest (SHA-256, hexadecimal) of what draws scenes: its sources, and the letters."""
    top = Path(__file__).parents[1]
    files = [file for room in ROOMS for file in sorted((top / room).rglob("*")) if file.suffix in CODE]
    files += [*(top / name for name in ("scene.py", "numbers.py")), *sorted((top / "fonts").glob("*.txt"))]
    digest = hashlib.sha256()
    for file in files:
        digest.update(file.read_bytes())
    return digest.hexdigest()
