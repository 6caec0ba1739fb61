"""What is told on a terminal while a maker waits, and the colours of words there.

In: words. Out: a line on the error output that is written anew each time and cleared at the end; nothing at all where
that is no terminal. Rooms in which the time goes say with ``progress`` how far they are; a command that wants to be
told listens with ``telling``, and nobody listens otherwise.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeAlias

Tell: TypeAlias = Callable[[str], None]

#: What is being done, how much of it is done, and of how much.
Watch: TypeAlias = Callable[[str, int, int], None]

_listeners: list[Watch] = []
_quiet = False
_CLEAR = "\r\x1b[K"  # to the start of the line, and erase it: ECMA-48


def coloured_output() -> bool:
    """Whether standard output is a terminal on which words may be in colours: not where NO_COLOR is set (a convention
    of many programs) or TERM is "dumb"."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def quiet() -> None:
    """From now on this process shows nothing on the terminal, since another one tells what both do."""
    global _quiet
    _quiet = True
    _listeners.clear()


@contextmanager
def telling(watch: Watch) -> Iterator[None]:
    """Inside the block ``watch`` is told of all progress."""
    _listeners.append(watch)
    try:
        yield
    finally:
        _listeners.remove(watch)


def progress(label: str, done: int, total: int) -> None:
    """Tells whoever listens that ``done`` of ``total`` are ready, and that ``label`` comes next."""
    for watch in _listeners:
        watch(label, done, total)


@contextmanager
def waiting_line() -> Iterator[Tell | None]:
    """A function that shows the words it is given on one line of standard error, cut to the terminal's width, in place
    of those before; None where that is no terminal. The line is cleared when the block ends."""
    if _quiet or not sys.stderr.isatty():
        yield None
        return
    import shutil  # loaded when there is a terminal

    width = shutil.get_terminal_size().columns - 1

    def tell(words: str) -> None:
        sys.stderr.write(f"{_CLEAR}{words[:width]}")
        sys.stderr.flush()

    try:
        yield tell
    finally:
        sys.stderr.write(_CLEAR)
        sys.stderr.flush()
