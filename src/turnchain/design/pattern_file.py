"""The file that is designed, which the page and the maker's own editor both change.

In: the path of a pattern file. Out: its text with a digest, and saving that never writes over what somebody else has
written meanwhile. Nothing else is read or written.
"""

from __future__ import annotations

import hashlib
from pathlib import Path
from threading import Lock

from turnchain.errors import FileError
from turnchain.reading.toml_text import text_of
from turnchain.records import frozen
from turnchain.writers.files import replaced


@frozen
class Version:
    """A text of the file, and its ``digest``; both empty while there is no file yet."""

    text: str
    digest: str


class ChangedElsewhereError(FileError):
    """The file holds something other than the page last saw; ``now`` is what it holds."""

    def __init__(self, now: Version) -> None:
        self.now = now
        super().__init__("the file was changed elsewhere; nothing was written")


class PatternFile:
    """The pattern file ``path``, which may not exist yet. Several threads may use it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._lock = Lock()

    @property
    def name(self) -> str:
        """The file's name, without its folder."""
        return self.path.name

    def read(self) -> Version:
        """What the file holds now; empty while there is no file. FileError where it cannot be read."""
        if not self.path.exists():
            return Version("", "")
        text, _ = text_of(self.path)
        return Version(text, digest(text))

    def save(self, text: str, seen: str) -> Version:
        """Writes ``text`` where the file still has the digest ``seen`` (or holds ``text`` already), and returns the new
        version. ChangedElsewhereError where it has not, FileError where it cannot be written."""
        with self._lock:
            now = self.read()
            if now.digest not in (seen, digest(text)):
                raise ChangedElsewhereError(now)
            with replaced(self.path) as stream:
                stream.write(text.encode())
            return Version(text, digest(text))

    def stamp(self) -> tuple[int, int]:
        """What changes whenever the file does: its time in ns and its size in bytes; zeros while there is no file."""
        try:
            found = self.path.stat()
        except OSError:
            return 0, 0
        return found.st_mtime_ns, found.st_size


def digest(text: str) -> str:
    """The first 32 hexadecimal digits of the SHA-256 of ``text`` in UTF-8."""
    return hashlib.sha256(text.encode()).hexdigest()[:32]
