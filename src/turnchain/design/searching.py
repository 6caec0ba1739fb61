"""Long searches beside the server: stripes from the stash, in a process of their own, which can be stopped.

In: the folder of the pattern file and a message for ``turnchain.live``. Out: its reply, or None where the search was
stopped meanwhile. The process is this module run by itself: it reads a message a line and writes a reply a line, both
JSON.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from threading import Lock
from typing import Any, TypeAlias

from turnchain.live.answering import Live

Json: TypeAlias = Any


def is_long(message: Json) -> bool:
    """Whether a message may take long to answer: where stripes come from the stash, in the text, by an edit or in one
    of the orders asked for."""
    text, edits = str(message.get("text", "")), message.get("edits") or ()
    asked = any(isinstance(edit, dict) and edit.get("value") == "stash" for edit in edits)
    return asked or "orders" in (message.get("want") or ()) or '"stash"' in text or "'stash'" in text


class Searcher:
    """Answers messages one after the other in a process that is started when it is first needed; ``folder`` as
    ``Live`` has it."""

    def __init__(self, folder: Path | None = None) -> None:
        self._folder = [] if folder is None else [str(folder)]
        self._turn, self._own = Lock(), Lock()
        self._process: subprocess.Popen[bytes] | None = None

    def answer(self, message: Json) -> Json:
        """The reply to ``message``; None where ``stop`` was called meanwhile. ValueError for what is no message."""
        with self._turn:
            process = self._started()
            assert process.stdin is not None, "it was started with pipes"
            assert process.stdout is not None, "it was started with pipes"
            try:
                process.stdin.write(json.dumps(message).encode() + b"\n")
                process.stdin.flush()
                line = process.stdout.readline()
            except (OSError, ValueError):  # ended meanwhile
                return None
        reply = json.loads(line) if line else None
        if reply == {}:
            raise ValueError("this is no message")
        return reply

    def stop(self) -> None:
        """Ends what is searched at the moment, and the process with it."""
        with self._own:
            if self._process is not None:
                self._process.kill()
                self._process.wait()
                self._process = None

    def _started(self) -> subprocess.Popen[bytes]:
        with self._own:
            if self._process is None or self._process.poll() is not None:
                command = [sys.executable, "-m", "turnchain.design.searching", *self._folder]
                self._process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
            return self._process


def main() -> None:
    """Answers lines until there are no more; an empty reply is one to what is no message. The folder of the pattern
    file, where it has one, is the one argument."""
    live = Live(*map(Path, sys.argv[1:]))
    for line in sys.stdin:
        try:
            reply = live.answer(json.loads(line))
        except (ValueError, KeyError, TypeError, AttributeError):
            reply = {}
        print(json.dumps(reply), flush=True)


if __name__ == "__main__":
    main()
