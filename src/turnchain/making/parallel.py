"""Files made by two processes at once, this one and a child process, where the machine has more than one core.

In: what draws each file, in order. Out: the same files, byte for byte, no matter who drew them. This process begins
with the first and the child with the last, since neighbours share what they are made of; both take a token for each
from one pipe, so that they meet somewhere and neither waits for the other while there is one left.
A child process that fails, or is ended, costs no more than time: its pictures are drawn here. One whose parent has
ended cannot write to the pipe any more and ends.
"""

from __future__ import annotations

import os
import signal
import struct
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from io import BytesIO
from typing import BinaryIO, Final, TypeAlias

from turnchain import terminal

Draw: TypeAlias = Callable[[BinaryIO], object]

#: Fewer files are not worth a process; more tokens than this might not fit a pipe at once.
FEWEST: Final = 5
MOST: Final = 4000
#: What ends a run like Ctrl-C.
STOPS: Final = (signal.SIGINT, signal.SIGTERM, *([signal.SIGHUP] if hasattr(signal, "SIGHUP") else []))
_TOLD: Final = struct.Struct("<IQQ")  # a picture's number, and where it begins and ends in the child's file


@contextmanager
def in_parallel(draws: Sequence[Draw]) -> Iterator[list[Draw]]:
    """For each of ``draws``, in their order, what writes the same bytes, drawn ahead where two processes can share the
    work. They are to be called inside the ``with`` block, each once; what a draw raises is raised there."""
    if sys.platform != "linux" or cores() < 2 or not FEWEST <= len(draws) <= MOST:
        yield list(draws)
        return
    shared = _Shared(draws)
    try:
        with suppress(OSError):  # where there is no room for a temporary file, or for another process
            shared.begin()
        yield [shared.picture(number) for number in range(len(draws))] if shared.child else list(draws)
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


class _Shared:
    """Files that two processes draw: tokens still to be taken, and what is drawn."""

    def __init__(self, draws: Sequence[Draw]) -> None:
        self.draws = draws
        self.drawn: dict[int, bytes] = {}
        self.child = 0
        self.held = ExitStack()
        self._next, self._step = 0, 1

    def begin(self) -> None:
        """Starts the child process. Raises OSError where the system refuses it."""
        childs = tempfile.TemporaryFile()  # noqa: SIM115 -- closed with all that is held
        self.childs = self.held.enter_context(childs)
        self.left, fill = self._pipe()
        with open(fill, "wb") as tokens:
            tokens.write(bytes(len(self.draws)))
        self.told, tell = self._pipe()
        # a stop in these moments comes a moment later: the parent then removes what was begun, the child just ends
        before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
        try:
            self.child = os.fork()
            if self.child == 0:
                self._draw_as_child(tell, before)
        finally:
            os.close(tell)
            signal.pthread_sigmask(signal.SIG_SETMASK, before)

    def _pipe(self) -> tuple[int, int]:
        """A pipe whose reading end stays open until the end."""
        read, write = os.pipe()
        self.held.callback(os.close, read)
        return read, write

    def picture(self, number: int) -> Draw:
        """What writes the picture ``number``, when its time has come."""
        return lambda stream: stream.write(self._wait_for(number))

    def _wait_for(self, number: int) -> bytes:
        while number not in self.drawn:
            taken = self._take()
            if taken is not None:
                self.drawn[taken] = self._draw(taken)
            elif not self._hear():
                self.drawn[number] = self._draw(number)
        return self.drawn.pop(number)

    def _take(self) -> int | None:
        """The next file that nobody draws yet."""
        if not os.read(self.left, 1):
            return None
        number = self._next
        self._next += self._step
        return number

    def _draw(self, number: int) -> bytes:
        stream = BytesIO()
        self.draws[number](stream)
        return stream.getvalue()

    def _hear(self) -> bool:
        """Waits until the child process has drawn a picture; False where it will draw no more."""
        data = os.read(self.told, _TOLD.size)
        if len(data) < _TOLD.size:
            return False
        number, begin, end = _TOLD.unpack(data)
        self.drawn[number] = os.pread(self.childs.fileno(), end - begin, begin)
        return True

    def _draw_as_child(self, tell: int, mask: Iterable[int]) -> None:
        """All that the child process does."""
        try:
            terminal.quiet()
            for stop in STOPS:
                signal.signal(stop, signal.SIG_DFL)
            signal.pthread_sigmask(signal.SIG_SETMASK, mask)
            os.close(self.told)  # so that the pipe has no reader once its parent has ended
            self._next, self._step = len(self.draws) - 1, -1
            begin = 0
            while (number := self._take()) is not None:
                picture = self._draw(number)
                end = begin + len(picture)
                self.childs.write(picture)
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
        self.held.close()
