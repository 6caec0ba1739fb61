"""What is told on a terminal while a maker waits, and the colours of words there.

In: words. Out: a line on the error output that is written anew each time and cleared at the end; nothing at all where
that is no terminal.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeAlias

Tell: TypeAlias = Callable[[str], None]

_CLEAR = "\r\x1b[K"  # back to the start of the line, and all of it away: ECMA-48


def coloured_output() -> bool:
    """Whether the output is a terminal on which words may be in colours: NO_COLOR is how makers say no."""
    return sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


@contextmanager
def waiting_line() -> Iterator[Tell | None]:
    """Something to be called with what is known so far, in one line; None where nobody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    width = shutil.get_terminal_size().columns - 1

    def tell(words: str) -> None:
        sys.stderr.write(f"{_CLEAR}{words[:width]}")
        sys.stderr.flush()

    try:
        yield tell
    finally:
        sys.stderr.write(_CLEAR)
        sys.stderr.flush()
