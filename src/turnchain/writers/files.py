"""The one place that opens files to be written.

In: paths, and what goes into them. Out: files that take their places all at once, when every byte of every one of
them is on the disk. A run that fails leaves the old files as they were, and nothing else.

A file is written without a name (Linux's O_TMPFILE), in the folder where it will stand, so that a run that is killed
leaves nothing behind. Only when all are written do they get names, in one go of a few milliseconds: hidden ones
first, then those of the old files. Where the system has no files without names they have hidden names from the
start. A run that has hidden names in a folder holds the folder's lock, so no two runs put files into it at once, and
a hidden file that is found there was left by a run that was killed, and is removed.
"""

from __future__ import annotations

import errno
import io
import os
import re
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from types import ModuleType
from typing import BinaryIO, Final, TypeAlias

from turnchain.errors import FileError

fcntl: ModuleType | None
try:
    import fcntl
except ImportError:  # Windows has no such locks
    fcntl = None

#: Writes what goes into a file to the stream it is given, which is open for bytes; what it returns is dropped.
Write: TypeAlias = Callable[[BinaryIO], object]

#: Why the system refuses to write, in words for makers, by ``OSError.errno``.
REASONS: Final = {
    errno.ENOENT: "there is no such folder",
    errno.ENOTDIR: "part of the path is a file, not a folder",
    errno.EISDIR: "there is a folder of that name",
    errno.EACCES: "there is no permission to write there",
    errno.EPERM: "there is no permission to write there",
    errno.EROFS: "the disk can only be read",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk quota is used up",
    errno.EFBIG: "it is larger than a file may be there",
    errno.EIO: "the disk reports a fault",
    errno.ENAMETOOLONG: "the name is too long",
}

#: So many files of a run stay without a name; some systems let a program have but 256 open at a time.
MOST_UNNAMED: Final = 100
#: So many seconds a run waits for another one that puts its files into the same folder, which takes moments.
TIMEOUT: Final = 60.0

_HIDDEN: Final = ".turnchain-"
_LEFT: Final = re.compile(re.escape(_HIDDEN) + "[0-9a-f]{16}")


@contextmanager
def replaced(path: Path, spared: Mapping[Path, str] | None = None) -> Iterator[BinaryIO]:
    """A stream whose bytes replace ``path`` in one go when the block ends well.

    On any failure ``path`` keeps its content. A link stays a link (its target is replaced), and a file keeps its
    permissions. FileError, in makers' words, for whatever the system refuses, where ``path`` is a folder or no ordinary
    file or one of the files ``spared``, each with words for what it is, and where another run holds the folder for
    longer than ``TIMEOUT``.
    """
    batch = _Batch(spared or {})
    try:
        waiting = batch.opened(path)
        yield waiting.stream
        batch.written(waiting)
        batch.place()
    finally:
        batch.end()


@contextmanager
def together(spared: Mapping[Path, str] | None = None, over_links: bool = False) -> Iterator[Put]:
    """What writes and removes files, which stays out of sight until the block ends well; then all the files take
    their places, in the order in which they were written. FileError and ``spared`` as for ``replaced``; with
    ``over_links`` a link is replaced itself, and what it leads to stays as it is.

    All or none where anything fails. A run killed in the very moment of the renaming leaves each file old or new,
    and whole; the same run again mends that.
    """
    batch = _Batch(spared or {}, over_links)
    try:
        yield Put(batch)
        batch.place()
    finally:
        batch.end()


class Put:
    """Puts files into a batch whose files take their places together; made by ``together``."""

    def __init__(self, batch: _Batch) -> None:
        self._batch = batch

    def __call__(self, path: Path, write: Write, ahead: bool = False) -> None:
        """Writes a file that will stand at ``path``; ``ahead``: it takes its place before all those written so far.
        FileError as for ``replaced``."""
        waiting = self._batch.opened(path)
        write(waiting.stream)
        self._batch.written(waiting)
        if ahead:
            self._batch.files.insert(0, self._batch.files.pop())

    def remove(self, path: Path) -> None:
        """The file at ``path`` is removed when the others take their places; one that is not there then is no error."""
        folder = Path(os.path.realpath(path.parent))  # as for files that are written: one folder, one lock
        self._batch.files.append(_Leaving(folder / path.name))


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """What the system refuses to do with ``path``, in words."""
    try:
        yield
    except OSError as error:
        reason = REASONS.get(error.errno or 0, error.strerror or str(error))
        raise FileError(f"{path}: cannot be written: {reason}") from error
    except UnicodeEncodeError as error:
        reason = "the language settings of this computer allow no such letters in a name (LC_ALL=C.UTF-8 does)"
        raise FileError(f"{path}: cannot be written: {reason}") from error


class _Raw(io.FileIO):
    """A file whose own errors of writing are told with its name, so that those of another file are not."""

    path: Path

    def write(self, data: object, /) -> int:
        with _told(self.path):
            return super().write(data)  # type: ignore[arg-type]  # as the buffer above gives it


class _Leaving:
    """A file that is to be removed: it has a hidden name until all is done."""

    hidden: Path | None = None

    def __init__(self, path: Path) -> None:
        self.path = self.target = path
        self.backup: Path | None = None

    def ready(self, several: bool) -> None:
        """Nothing: a removal needs no room on the disk."""

    def place(self) -> None:
        """Gives the file a hidden name."""
        self.backup = _hidden(self.target)
        with suppress(FileNotFoundError):  # another program removed it first
            os.replace(self.target, self.backup)

    def undo(self) -> None:
        """Gives the file its own name again."""
        if self.backup:
            with suppress(OSError):
                os.replace(self.backup, self.target)
            self.backup = None

    def close(self) -> None:
        """There is nothing to close."""


class _Waiting:
    """A file that waits for its place: ``path`` as it was given, ``target`` what that is without links, or with a link
    at its end that is to be replaced itself."""

    def __init__(self, path: Path, target: Path, name: Path | None) -> None:
        self.path, self.target, self.hidden = path, target, name
        self.backup: Path | None = None  # a second name of the old file, until all is done
        self.first = False  # whether no old file stood there when all were ready to take their places
        self.placed = False
        flags = os.O_RDWR | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)
        if name is None:
            number = os.open(target.parent, flags | os.O_TMPFILE, 0o666)
        else:
            number = os.open(name, flags | os.O_CREAT | os.O_EXCL, 0o666)
        raw = _Raw(number, "r+b")
        raw.path = path
        self.stream: BinaryIO = io.BufferedWriter(raw)
        self._raw = raw

    def whole(self) -> None:
        """Everything on the disk, with the permissions of the old file."""
        self.stream.flush()
        if hasattr(os, "fchmod") and self.target.exists() and not self.target.is_symlink():
            os.fchmod(self._raw.fileno(), self.target.stat().st_mode & 0o7777)
        os.fsync(self._raw.fileno())

    def link(self, name: Path) -> None:
        """Gives a file without a name one."""
        number = self._raw.fileno()
        os.link(f"/proc/self/fd/{number}", name, src_dir_fd=number)  # with a folder's number it follows that link

    def hide(self) -> None:
        """Gives a file without a name a hidden one."""
        self.hidden = _hidden(self.target)
        try:
            self.link(self.hidden)
        except OSError:  # no /proc, or no links there
            from shutil import copyfileobj  # for this case alone

            with open(self.hidden, "xb") as copy, open(self._raw.fileno(), "rb", closefd=False) as written:
                written.seek(0)
                copyfileobj(written, copy)
                copy.flush()
                os.fsync(copy.fileno())

    def ready(self, several: bool) -> None:
        """Everything that the disk could be too full for, before the first file is replaced."""
        self.first = not os.path.lexists(self.target)
        if not self.first:
            if self.hidden is None:
                self.hide()
            if several:
                self.backup = _linked(self.target)

    def place(self) -> None:
        """Takes its place."""
        self.placed = True  # said before: a stop may come at any time, and putting back what stands does no harm
        try:
            if self.hidden is None:
                try:
                    self.link(self.target)
                    return
                except OSError:  # another file was put there a moment ago, or the disk has no links
                    self.hide()
            os.replace(self.hidden or "", self.target)
            self.hidden = None
        except OSError:
            self.placed = False
            raise

    def undo(self) -> None:
        """Gives the place back to the old file, or leaves it empty if there was none."""
        with suppress(OSError):
            if self.placed and self.backup:
                os.replace(self.backup, self.target)
            elif self.placed and self.first:
                self.target.unlink()

    def close(self) -> None:
        """Closes the file; what was not written yet is dropped."""
        with suppress(OSError):
            self._raw.close()


class _Batch:
    """Files of one run that take their places together, and the locks of their folders."""

    def __init__(self, spared: Mapping[Path, str], over_links: bool = False) -> None:
        self.spared, self.over_links = spared, over_links
        self.files: list[_Waiting | _Leaving] = []
        self.locks: dict[Path, int | None] = {}  # None: that folder cannot be locked

    def opened(self, path: Path) -> _Waiting:
        """A new file that waits for the place of ``path``."""
        target = Path(os.path.realpath(path.parent), path.name) if self.over_links else Path(os.path.realpath(path))
        with _told(path):
            self._check(path, target)
            waiting = self._unnamed(path, target) if len(self.files) < MOST_UNNAMED else None
            if waiting is None:
                self._lock(target.parent)
                waiting = _Waiting(path, target, _hidden(target))
        self.files.append(waiting)
        return waiting

    def _check(self, path: Path, target: Path) -> None:
        if target.is_symlink():  # only the link is replaced: what it leads to stays
            return
        if target.is_dir():
            raise IsADirectoryError(errno.EISDIR, "")
        if target.exists() and not target.is_file():
            raise FileError(f"{path}: cannot be written: it is not an ordinary file")
        for file, words in self.spared.items():
            if _same(file, target):
                raise FileError(
                    f"{path}: cannot be written: it is {words}, and stays as it is; give what is made another name"
                )

    def _unnamed(self, path: Path, target: Path) -> _Waiting | None:
        """A file without a name, or None where the system has none."""
        if not hasattr(os, "O_TMPFILE"):
            return None
        try:
            return _Waiting(path, target, None)
        except OSError as error:
            if error.errno in (errno.EOPNOTSUPP, errno.EISDIR, errno.EINVAL, errno.EMFILE, errno.ENFILE):
                return None
            raise

    def written(self, waiting: _Waiting) -> None:
        """Sees that what was written is on the disk."""
        with _told(waiting.path):
            waiting.whole()
            if waiting.hidden:
                waiting.close()

    def place(self) -> None:
        """All files take their places. Raises FileError, with every old file where it was."""
        for folder in sorted({file.target.parent for file in self.files}):
            self._lock(folder)
        for file in self.files:
            with _told(file.path):
                file.ready(len(self.files) > 1)
        try:
            for file in self.files:
                with _told(file.path):
                    file.place()
        except BaseException:
            for file in reversed(self.files):
                file.undo()
            raise

    def _lock(self, folder: Path) -> None:
        """Waits until no other run puts files into ``folder``, and removes what killed ones left there."""
        if fcntl is None or folder in self.locks:
            return
        try:
            number = os.open(folder, os.O_RDONLY)
        except OSError:  # if it matters, writing there fails with a reason
            self.locks[folder] = None
            return
        self.locks[folder] = number
        if _locked(number, folder):
            _tidy(folder)

    def end(self) -> None:
        """Closes all files, removes whatever hidden ones are left, and unlocks the folders."""
        try:
            for file in self.files:
                file.close()
                for name in (file.hidden, file.backup):
                    if name:
                        with suppress(OSError):
                            name.unlink()
        finally:  # a stop while names are removed leaves them to the next run, but never the folder locked
            for number in self.locks.values():
                if number is not None:
                    os.close(number)


def _hidden(target: Path) -> Path:
    # not numbered by process: two runs in two containers may share a folder
    return target.with_name(f"{_HIDDEN}{os.urandom(8).hex()}")


def _linked(target: Path) -> Path | None:
    """A second name of the file ``target``; None where the disk cannot give one."""
    name = _hidden(target)
    try:
        os.link(target, name, follow_symlinks=False)
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise
        return None
    return name


def _same(one: Path, other: Path) -> bool:
    try:
        return os.path.samefile(one, other)
    except OSError:
        return False


def _locked(number: int, folder: Path) -> bool:
    """Whether the folder open as ``number`` could be locked: False where the disk has no locks."""
    assert fcntl is not None
    until = time.monotonic() + TIMEOUT
    while True:
        try:
            fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return True
        except OSError as error:
            if error.errno not in (errno.EAGAIN, errno.EACCES):
                return False
        if time.monotonic() > until:
            raise FileError(
                f"{folder}: another run of turnchain is putting its files there, and has been for {TIMEOUT:g} s; let "
                "it end or stop it, and try again"
            )
        time.sleep(0.05)


def _tidy(folder: Path) -> None:
    """Removes hidden files that killed runs left in a locked ``folder``: whoever has any there holds the lock."""
    with suppress(OSError), os.scandir(folder) as entries:
        for name in [entry.name for entry in entries if _LEFT.fullmatch(entry.name)]:
            with suppress(OSError):
                (folder / name).unlink()
