"""Folders that are made whole: what is wanted in them is drawn, by two processes where it can be, and takes its places.

In: folders with what each is to hold, pictures as what draws them. Out: files. A scene is drawn, written and let go of
before the next one, so memory does not grow with the pictures. Either all files of all folders are new afterwards or,
where anything fails, all old ones stand.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, suppress
from functools import partial
from importlib import import_module
from io import BytesIO
from pathlib import Path
from typing import BinaryIO, Final, TypeAlias

from turnchain import file_names, plan_json
from turnchain.errors import FileError
from turnchain.lettering import measuring
from turnchain.making import alt_text, record
from turnchain.making.parallel import in_parallel
from turnchain.making.record import Before, MadeFolder
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.records import field, frozen, replace
from turnchain.scene import Scene
from turnchain.writers import formats
from turnchain.writers.files import Put, together

#: What gives the digest of all that a folder is made of; "" where it is not known.
MadeOf: TypeAlias = Callable[[], str]
#: Called before files are written: the name of the first, how many are done, and how many there are.
Watch: TypeAlias = Callable[[str, int, int], None]
#: Pictures by the name of their files, without an ending: the alt text of each.
Words: TypeAlias = list[tuple[str, str]]
#: Files by name.
Files: TypeAlias = dict[str, bytes]
#: What became of a text or a picture: its files but for those that stand already, of a picture the digest of its scene
#: and its alt text.
_Done: TypeAlias = tuple[Files, str, str]

#: The formats of every picture, vectors first.
_FORMATS: Final = tuple(sorted(formats.MADE, key=lambda form: form.pixels))


@frozen
class WantedFolder:
    """What ``folder`` is to hold: ``texts`` by name (the first, a plan, marks the folder as ours); ``pictures`` by name
    without ending, with what draws them; files that are ``ready``; and last the page of pictures, ``index`` (None:
    there is none), from the words of the pictures of each folder that is made with it. ``folders``: names of those
    within it that are made with it."""

    folder: Path
    texts: Mapping[str, Callable[[], str]]
    pictures: Mapping[str, Callable[[], Scene]]
    ready: Mapping[str, bytes] = field(default_factory=dict)
    index: Callable[[Sequence[Words]], str] | None = None
    folders: tuple[str, ...] = ()

    def names(self) -> list[str]:
        """Of all files, in the order in which they are told."""
        endings = (*(form.ending for form in _FORMATS), file_names.ALT_TEXT)
        shown = [f"{name}{ending}" for ending in endings for name in self.pictures]
        return [*self.texts, *shown, *self.ready, *([file_names.INDEX] if self.index else [])]


def put_all(wanted: Sequence[WantedFolder], own: dict[Path, str], watch: Watch, made_of: MadeOf = str) -> MadeFolder:
    """Writes all that is ``wanted``, the folders in an order in which each stands before those within it; they hold it
    alone: what was made there before and is not among the files now is removed. ``own``: the maker's files, which stay,
    with words for each. ``made_of`` is called when all is drawn, for the digest of what it was made of ("": not known).
    All files of all folders take their places as one. Raises FileError where a file cannot be read or written and where
    a folder holds files that are not ours: then nothing is changed."""
    puts, glyphs = [_FolderPut.of(one) for one in wanted], BoundedCache()
    works = [work for one in puts for work in one.works(glyphs)]
    load()
    with ExitStack() as stack:
        for one in puts:
            stack.enter_context(_prepared(one.folder))
        put = stack.enter_context(together(own, over_links=True))
        done = stack.enter_context(in_parallel([work.make for work in works]))
        for nth, (work, made) in enumerate(zip(works, done, strict=True)):
            watch(str(work.put.folder.relative_to(puts[0].folder) / work.name), nth, len(works))
            work.put.take(put, work.name, made())
        words = [one.words() for one in puts]
        for one in puts:
            one.finish(put, words, made_of())
    return made_folder([one.made() for one in puts], tuple(measuring.told()))


def load() -> None:
    """Loads what pictures are made with and by, once for all processes that are begun after it."""
    for form in _FORMATS:
        form.writer()
    import_module("svgwrite")  # the writer loads it with its first picture
    record.program()
    measuring.load()


def made_folder(made: Sequence[MadeFolder], told: tuple[str, ...]) -> MadeFolder:
    """What was made of several folders, as of one."""
    return MadeFolder(
        [path for one in made for path in one.written],
        [path for one in made for path in one.removed],
        [path for one in made for path in one.left],
        told,
    )


@frozen
class _Work:
    """A text or a picture called ``name`` of the folder of ``put``, and what makes it, in whatever process."""

    put: _FolderPut
    name: str
    make: Callable[[], _Done]


class _FolderPut:
    """Puts files into one folder, but for those that are left and for pictures that stand there and show what they
    shall. They take their places between two records: the first allows each file to be old or new, so that after a run
    that is killed the next one still takes these files for ours."""

    def __init__(self, wanted: WantedFolder, before: Before) -> None:
        self.folder, self._wanted, self._before = wanted.folder, wanted, before
        self._left = frozenset(before.left(wanted.names()))
        self._digests: dict[str, str] = {}
        self._scenes: dict[str, str] = {}
        self._words: dict[str, str] = {}

    @classmethod
    def of(cls, wanted: WantedFolder) -> _FolderPut:
        """Raises FileError where the folder holds files that are not ours."""
        names = wanted.names()
        _check_folder(wanted.folder, names)
        return cls(wanted, record.before(wanted.folder, names))

    def works(self, glyphs: BoundedCache) -> Iterator[_Work]:
        """All that takes time: the plan first, pictures of one piece beside one another, as they share ``glyphs``, and
        last what takes longest, since a second process begins there."""
        plan, *others = [_Work(self, name, partial(self._written, name)) for name in self._wanted.texts]
        yield plan
        for name in self._wanted.pictures:
            yield _Work(self, name, partial(self._drawn, name, glyphs))
        yield from others

    def _written(self, name: str) -> _Done:
        return {} if name in self._left else {name: self._wanted.texts[name]().encode()}, "", ""

    def _drawn(self, name: str, glyphs: BoundedCache) -> _Done:
        scene = self._wanted.pictures[name]()
        digest = record.scene_digest(scene)
        stand = {*self._left, *self._before.as_drawn(_of_scene(name, digest))}
        files = {
            f"{name}{form.ending}": _data(partial(form.write, scene, glyphs=glyphs))
            for form in _FORMATS
            if f"{name}{form.ending}" not in stand
        }
        words = f"{name}{file_names.ALT_TEXT}"
        return files | ({} if words in stand else {words: alt_text(scene.words)}), digest, scene.words

    def take(self, put: Put, name: str, done: _Done) -> None:
        """Puts what was made of the work ``name``."""
        files, digest, words = done
        self._put(put, files)
        if name in self._wanted.pictures:
            scenes = _of_scene(name, digest)
            self._digests |= self._before.as_drawn(scenes)
            self._scenes |= scenes
            self._words[name] = words

    def words(self) -> Words:
        """The pictures with their alt texts, when all are taken."""
        return list(self._words.items())

    def finish(self, put: Put, words: Sequence[Words], made_of: str) -> None:
        """When all texts and pictures are put: puts the rest, of the ``words`` of all folders, removes what is no
        longer made, and writes the records."""
        rest = dict(self._wanted.ready)
        if self._wanted.index:
            rest[file_names.INDEX] = self._wanted.index(words).encode()
        self._put(put, {name: data for name, data in rest.items() if name not in self._left})
        names = self._wanted.names()
        for name in self._before.stale(names):
            put.remove(self.folder / name)
        made = {name: self._digests[name] for name in names if name in self._digests}
        after = self._before.after(made, self._left, self._scenes)
        during = self._before.during(after)
        if during != after:
            put(self.folder / record.FILE, lambda stream: stream.write(during.data()), ahead=True)
        finished = replace(after, made_of=made_of, folders=self._wanted.folders)
        put(self.folder / record.FILE, lambda stream: stream.write(finished.data()))

    def _put(self, put: Put, files: Files) -> None:
        for name, data in files.items():
            put(self.folder / name, record.digested(name, partial(_write, data), self._digests))

    def made(self) -> MadeFolder:
        """What came of it."""
        names, before = self._wanted.names(), self._before
        ours = [name for name in names if name not in self._left]
        left = [name for name in names if name in self._left]
        sorts = (ours, before.stale(names), [*left, *before.changed(names)])
        written, removed, kept = ([self.folder / name for name in names] for names in sorts)
        return MadeFolder(written, removed, kept)


def _of_scene(name: str, digest: str) -> dict[str, str]:
    """The files of the picture ``name``, each with the ``digest`` of what it shows."""
    return {f"{name}{form.ending}": digest for form in _FORMATS}


def _data(write: Callable[[BytesIO], object]) -> bytes:
    stream = BytesIO()
    write(stream)
    return stream.getvalue()


def _write(data: bytes, stream: BinaryIO) -> None:
    stream.write(data)


def _check_folder(folder: Path, names: Iterable[str]) -> None:
    """Raises FileError where files would be replaced that are not ours: in a folder without plan or record of ours."""
    if plan_json.is_one(folder / file_names.PLAN) or record.read(folder):
        return
    there = [name for name in names if os.path.lexists(folder / name) and not (folder / name).is_dir()]
    if there:
        listed = ", ".join(there[:3]) + " ..." * (len(there) > 3)
        raise FileError(
            f"{folder}: not made by turnchain, but there already: {listed}; nothing was written (give a folder of its "
            "own, or move these files first)"
        )


@contextmanager
def _prepared(folder: Path) -> Iterator[None]:
    """Makes ``folder`` and those above it; where the block fails, those that were new and are empty are removed."""
    new = [one for one in (folder, *folder.parents) if not one.exists()]
    try:
        _make(folder)
        yield
    except BaseException:
        with suppress(OSError):
            for one in new:
                one.rmdir()
        raise


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"{folder}: this folder cannot be made ({error.strerror}); nothing was written") from error
