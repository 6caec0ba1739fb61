"""A limit for what must not hang: generous, so that a busy machine never fails a test, yet far below a standstill."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

SECONDS = 60


@contextmanager
def time_limit() -> Iterator[None]:
    """Fails where the block takes longer than ``SECONDS``."""

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise AssertionError(f"no answer within {SECONDS} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(SECONDS)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
