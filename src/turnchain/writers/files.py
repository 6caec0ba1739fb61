"""The one place that opens files to be written.

In: a path. Out: a binary stream beside it, which takes the path's place once everything is written. A run
that fails leaves the old file as it was, and nothing else.
"""

from __future__ import annotations

import errno
import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

from turnchain.errors import FileError

REASONS = {
    errno.ENOENT: "there is no such folder",
    errno.ENOTDIR: "part of the path is a file, not a folder",
    errno.EISDIR: "there is a folder of that name",
    errno.EACCES: "there is no permission to write there",
    errno.EPERM: "there is no permission to write there",
    errno.EROFS: "the disk can only be read",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk quota is used up",
    errno.ENAMETOOLONG: "the name is too long",
}


@contextmanager
def replaced(path: Path) -> Iterator[BinaryIO]:
    """A stream whose bytes replace ``path`` in one go when the block ends well.

    They go to a hidden file in the same folder first; on any failure that one is removed and ``path`` keeps
    its content. A link stays a link (its target is replaced), and a file keeps its permissions. FileError, in
    words, for whatever the system refuses.
    """
    # not numbered by process: two runs in two containers may share a folder
    target = Path(os.path.realpath(path))
    beside = target.with_name(f".turnchain-{secrets.token_hex(8)}")
    try:
        if target.is_dir():
            raise IsADirectoryError(errno.EISDIR, "")
        if target.exists() and not target.is_file():
            raise FileError(f"{path}: cannot be written: it is not an ordinary file")
        with open(beside, "xb") as stream:
            yield stream
            stream.flush()
            os.fsync(stream.fileno())
        if target.exists():
            os.chmod(beside, target.stat().st_mode & 0o7777)
        os.replace(beside, target)
    except OSError as error:
        reason = REASONS.get(error.errno or 0, error.strerror or str(error))
        raise FileError(f"{path}: cannot be written: {reason}") from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
