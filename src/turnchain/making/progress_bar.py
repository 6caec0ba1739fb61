"""A line on the terminal that says what is being made and what is left; nothing where the output is no terminal.

In: a label, how much is done and of how much. Out: one line of standard error, written over and cleared at the end. It
begins after two seconds: what is ready by then needs none.
"""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Final, Self, TextIO

from turnchain.reading.quoting import printable

BEFORE_SHOWN: Final = 2.0  # s before the line appears
CELLS: Final = 24  # characters of the bar
MOST: Final = 78  # characters of the line: two fewer than the usual width of a terminal


class ProgressBar:
    """Shows how far a run has come, inside a ``with`` block, on ``stream`` (None: standard error) once ``after`` s have
    passed; nothing where that is no terminal."""

    def __init__(self, stream: TextIO | None = None, after: float = BEFORE_SHOWN) -> None:
        self._stream = stream or sys.stderr
        self._seen = self._stream.isatty()
        self._from = time.monotonic() + after
        self._shown = False

    def __call__(self, label: str, done: int, total: int) -> None:
        """Shows that ``done`` of ``total`` are ready, and that ``label`` comes next."""
        if not self._seen or time.monotonic() < self._from:
            return
        full = CELLS * done // max(1, total)
        line = f"[{'#' * full}{'-' * (CELLS - full)}] {done} of {total}, {total - done} left: {printable(label)}"
        self._write(f"\r{line[:MOST]:{MOST}}")
        self._shown = True

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._shown:
            self._write(f"\r{'':{MOST}}\r")

    def _write(self, words: str) -> None:
        try:
            self._stream.write(words)
            self._stream.flush()
        except (OSError, ValueError):  # the terminal was closed: no reason to stop
            self._seen = self._shown = False
