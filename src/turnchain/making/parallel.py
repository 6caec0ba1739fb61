"""Work done by two processes at once, this one and a child process, where the machine has more than one core.

In: works in order, each a function. Out: what they give, the same no matter which process did it. This process begins
with the first and the child with the last, since neighbours share what they are made of; both take a token for each
from one pipe, so that they meet somewhere and neither waits for the other while there is one left.
A child process that fails, or is ended, costs no more than time: its works are done here. One whose parent has
ended cannot write to the pipe any more and ends.
"""

from __future__ import annotations

import gc
import marshal
import os
import signal
import struct
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from typing import Any, Final, Generic, TypeVar, cast

from turnchain import terminal

#: What a work gives: what ``marshal`` takes (texts, bytes, numbers, tuples, lists and dicts of them).
T = TypeVar("T")

#: Fewer works are not worth a process; more tokens than this might not fit a pipe at once.
FEWEST: Final = 5
MOST: Final = 4000
#: What ends a run like Ctrl-C.
STOPS: Final = (signal.SIGINT, signal.SIGTERM, *([signal.SIGHUP] if hasattr(signal, "SIGHUP") else []))
_TOLD: Final = struct.Struct("<IQQ")  # a work's number, and where what it gave begins and ends in the child's file


@contextmanager
def in_parallel(works: Sequence[Callable[[], T]]) -> Iterator[list[Callable[[], T]]]:
    """For each of ``works``, in their order, what gives the same, done ahead where two processes can share the work.
    They are to be called inside the ``with`` block, each once and in order; what a work raises is raised there."""
    if sys.platform != "linux" or cores() < 2 or not FEWEST <= len(works) <= MOST:
        yield list(works)
        return
    shared = _Shared(works)
    try:
        with suppress(OSError):  # where there is no room for a temporary file, or for another process
            shared.begin()
        yield [shared.one(number) for number in range(len(works))] if shared.child else list(works)
    finally:
        shared.end()


def cores() -> int:
    """How many cores this process may use; 1 after ``alone``. On Linux only."""
    return 1 if _alone else len(os.sched_getaffinity(0))


_alone = False


def alone() -> None:
    """From now on this process uses one core, since other processes use the rest."""
    global _alone
    _alone = True


class _Shared(Generic[T]):
    """Works that two processes share: tokens still to be taken, and what is done."""

    def __init__(self, works: Sequence[Callable[[], T]]) -> None:
        self.works = works
        self.done: dict[int, T] = {}
        self.told_of: dict[int, tuple[int, int]] = {}  # what the child did: where it begins and ends in its file
        self.child = 0
        self.held = ExitStack()
        self._next, self._step = 0, 1

    def begin(self) -> None:
        """Starts the child process. Raises OSError where the system refuses it."""
        childs = tempfile.TemporaryFile()  # noqa: SIM115 -- closed with all that is held
        self.childs = self.held.enter_context(childs)
        self.left, fill = self._pipe()
        with open(fill, "wb") as tokens:
            tokens.write(bytes(len(self.works)))
        self.told, tell = self._pipe()
        # a stop in these moments comes a moment later: the parent then removes what was begun, the child just ends
        before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
        gc.freeze()  # so that memory stays shared: no collector looks through what there is by now
        try:
            self.child = os.fork()
            if self.child == 0:
                self._work_as_child(tell, before)
        finally:
            os.close(tell)
            signal.pthread_sigmask(signal.SIG_SETMASK, before)

    def _pipe(self) -> tuple[int, int]:
        """A pipe whose reading end stays open until the end."""
        read, write = os.pipe()
        self.held.callback(os.close, read)
        return read, write

    def one(self, number: int) -> Callable[[], T]:
        """What gives the work ``number``, when its time has come."""
        return lambda: self._wait_for(number)

    def _wait_for(self, number: int) -> T:
        while number not in self.done and number not in self.told_of:
            taken = self._take()
            if taken is not None:
                self.done[taken] = self.works[taken]()
            elif not self._hear():
                self.done[number] = self.works[number]()
        if number in self.done:
            return self.done.pop(number)
        begin, end = self.told_of.pop(number)  # read when it is wanted: it need not be held in memory before
        return cast(T, marshal.loads(os.pread(self.childs.fileno(), end - begin, begin)))

    def _take(self) -> int | None:
        """The next work that nobody does yet."""
        if not os.read(self.left, 1):
            return None
        number = self._next
        self._next += self._step
        return number

    def _hear(self) -> bool:
        """Waits until the child process has done a work; False where it will do no more."""
        data = os.read(self.told, _TOLD.size)
        if len(data) < _TOLD.size:
            return False
        number, begin, end = _TOLD.unpack(data)
        self.told_of[number] = begin, end
        return True

    def _work_as_child(self, tell: int, mask: Iterable[int]) -> None:
        """All that the child process does."""
        try:
            terminal.quiet()
            for stop in STOPS:
                signal.signal(stop, signal.SIG_DFL)
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)
            os.close(self.told)  # so that the pipe has no reader once its parent has ended
            self._next, self._step = len(self.works) - 1, -1
            begin = 0
            while (number := self._take()) is not None:
                done = marshal.dumps(cast(Any, self.works[number]()))
                end = begin + len(done)
                self.childs.write(done)
                self.childs.flush()
                os.write(tell, _TOLD.pack(number, begin, end))
                begin = end
        finally:
            os._exit(0)  # the parent prints the messages and removes what was begun

    def end(self) -> None:
        """Ends the child, if there is one and it has not ended, and closes everything."""
        if self.child:
            with suppress(ProcessLookupError):
                os.kill(self.child, signal.SIGKILL)
            os.waitpid(self.child, 0)
            gc.unfreeze()
        self.held.close()
