"""Opens the page: starts the server, prints its address, opens it in the browser, and waits until it is stopped."""

from __future__ import annotations

import webbrowser
from collections.abc import Callable
from pathlib import Path

from turnchain.design.pattern_file import PatternFile
from turnchain.design.server import DesignServer
from turnchain.errors import FileError


def opened(file: Path | None, port: int, browser: bool, tell: Callable[[str], None]) -> None:
    """Serves the page until the run is stopped (KeyboardInterrupt passes through). ``file`` is the pattern that is
    designed, which may not exist yet (None: no file); ``port`` 0 takes any free one; ``browser``: whether to open it;
    ``tell`` is called with each line to print. FileError where the file cannot be read or the port is taken."""
    held = None if file is None else PatternFile(file)
    if held is not None:
        held.read()  # a file that cannot be read is told at once
    try:
        server = DesignServer(held, port)
    except OSError as error:
        raise FileError(f"port {port} cannot be used ({error.strerror}); leave out --port") from error
    tell(f"Design your pattern at {server.address}")
    tell("The address works once. Ctrl-C ends it; your pattern is saved.")
    if browser:
        webbrowser.open(server.address)
    try:
        server.serve_forever()
    except KeyboardInterrupt:  # the usual way to end it
        return
    finally:
        server.closing = True
        server.server_close()
