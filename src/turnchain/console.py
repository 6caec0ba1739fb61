"""What the commands print, and how the program ends when it is stopped.

In: words, names of files, signals. Out: lines on standard output and standard error, control characters in them as
escapes.
"""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import NoReturn

import click


def hear_stops() -> None:
    """SIGTERM and SIGHUP end a run as Ctrl-C does; a signal that the run was started to ignore stays ignored."""

    def stop(*_: object) -> NoReturn:
        for number in heard:  # once is enough: nothing may stop what removes half-written files
            signal.signal(number, signal.SIG_IGN)
        raise KeyboardInterrupt

    wanted = [getattr(signal, name, None) for name in ("SIGINT", "SIGTERM", "SIGHUP")]
    usual = (signal.SIG_DFL, signal.default_int_handler)
    heard = [number for number in wanted if number is not None and signal.getsignal(number) in usual]
    for number in heard:
        signal.signal(number, stop)


@contextmanager
def progress() -> Iterator[None]:
    """Inside the block a bar on a terminal shows how far the work is, once it has taken two seconds."""
    if not sys.stderr.isatty():
        yield
        return
    from turnchain.making.progress_bar import ProgressBar  # loaded when there is a terminal
    from turnchain.terminal import telling

    with ProgressBar() as bar, telling(bar):
        yield


def reason(error: OSError | MemoryError) -> str:
    """Why a run could not finish, in words."""
    if isinstance(error, MemoryError):
        return "there is not enough memory"
    from turnchain.writers.files import REASONS  # loaded when the command runs

    return REASONS.get(error.errno or 0, error.strerror or str(error))


def drop_output() -> None:
    """Sends standard output to nowhere once it takes nothing more, so that Python does not try again at the end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def show(words: str, err: bool = False) -> None:
    """Prints a line, names of files among it."""
    click.echo(shown(words), err=err)


def shown(words: object) -> str:
    """Words, or the name of a file, on one line and without control characters."""
    from turnchain.reading.quoting import printable  # loaded when the command runs

    return printable(str(words))


def say(words: str, code: int) -> int:
    """Prints every line of ``words`` as an error; returns ``code``."""
    for line in words.splitlines():
        show(f"error: {line}", err=True)
    return code
