"""Long searches beside the server: stripes from the stash, in a process of their own, which can be stopped.

In: a message for ``turnchain.live``. Out: its reply, or None where the search was stopped meanwhile.
"""

from __future__ import annotations

import multiprocessing
from multiprocessing.connection import Connection
from threading import Lock
from typing import Any, TypeAlias

from turnchain.live.answering import Live

Json: TypeAlias = Any


def is_long(message: Json) -> bool:
    """Whether a message may take long to answer: where stripes come from the stash, in the text, by an edit or in one
    of the orders asked for."""
    if "orders" in (message.get("want") or ()):
        return True
    edits = message.get("edits") or ()
    asked = any(isinstance(edit, dict) and edit.get("value") == "stash" for edit in edits)
    return asked or '"stash"' in str(message.get("text", "")) or "'stash'" in str(message.get("text", ""))


def _answers(line: Connection) -> None:
    """In the process: answers messages until the other end is closed."""
    live = Live()
    try:
        while True:
            try:
                line.send((live.answer(line.recv()), None))
            except (ValueError, KeyError, TypeError, AttributeError) as error:
                line.send((None, type(error)))
    except (EOFError, OSError, KeyboardInterrupt):  # the program ends
        return


class Searcher:
    """Answers messages one after the other in a process that is started when it is first needed."""

    def __init__(self) -> None:
        self._turn, self._own = Lock(), Lock()
        self._process: Any = None
        self._line: Connection | None = None

    def answer(self, message: Json) -> Json:
        """The reply to ``message``; None where ``stop`` was called meanwhile. Raises what ``Live.answer`` does."""
        with self._turn:
            line = self._started()
            try:
                line.send(message)
                reply, error = line.recv()
            except (EOFError, OSError):
                return None
        if error is not None:
            raise error("this is no message")
        return reply

    def stop(self) -> None:
        """Ends what is searched at the moment, and the process with it."""
        with self._own:
            if self._process is not None:
                self._process.kill()
                self._process.join()
                self._process = None

    def _started(self) -> Connection:
        with self._own:
            if self._process is None or self._line is None or not self._process.is_alive():
                context = multiprocessing.get_context("spawn")
                self._line, other = context.Pipe()
                self._process = context.Process(target=_answers, args=(other,), daemon=True)
                self._process.start()
                other.close()
            return self._line
