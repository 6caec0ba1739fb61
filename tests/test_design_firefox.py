"""The design page in Firefox, driven by the browser's own WebDriver protocol (Marionette).

Debian's firefox-esr is used where it is installed; the protocol is that of the browser's own sources (messages are a
length, a colon and JSON: [0, number, command, arguments] and [1, number, error, result]).
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from turnchain.design.server import DesignServer

pytestmark = pytest.mark.slow
FIREFOX = shutil.which("firefox-esr")
RIGHT = "\ue014"  # the arrow key, as WebDriver names it


class Firefox:
    """A browser without a window, its profile in ``folder``."""

    def __init__(self, folder: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        (folder / "user.js").write_text(f'user_pref("marionette.port", {port});\n')
        command = [str(FIREFOX), "--headless", "--marionette", "--no-remote", "--profile", str(folder)]
        self.process = subprocess.Popen(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, "HOME": str(folder)}
        )
        self._bytes, self._number = b"", 0
        self._line = self._connected(port)
        self._message()
        self.call("WebDriver:NewSession", capabilities={"alwaysMatch": {}})

    def _connected(self, port: int) -> socket.socket:
        for _ in range(240):
            try:
                return socket.create_connection(("127.0.0.1", port), timeout=120)
            except OSError:
                time.sleep(0.5)
        raise AssertionError("Firefox never listens")

    def _message(self) -> Any:
        while b":" not in self._bytes:
            self._bytes += self._line.recv(65536)
        length, rest = self._bytes.split(b":", 1)
        while len(rest) < int(length):
            rest += self._line.recv(1 << 20)
        self._bytes = rest[int(length) :]
        return json.loads(rest[: int(length)])

    def call(self, command: str, **arguments: Any) -> Any:
        """The result of a command; AssertionError with what the browser says of one that fails."""
        self._number += 1
        message = json.dumps([0, self._number, command, arguments]).encode()
        self._line.sendall(str(len(message)).encode() + b":" + message)
        _, _, error, result = self._message()
        assert error is None, error
        return result

    def run(self, script: str) -> Any:
        """What a script on the page returns."""
        return self.call("WebDriver:ExecuteScript", script=script, args=[])["value"]

    def until(self, script: str) -> Any:
        """What an expression comes to, once it is true."""
        for _ in range(240):
            if found := self.run(f"return {script}"):
                return found
            time.sleep(0.25)
        raise AssertionError(f"never: {script}")

    def close(self) -> None:
        """Ends it."""
        self._line.close()
        self.process.terminate()
        self.process.wait()


@pytest.fixture
def firefox(tmp_path: Path) -> Iterator[Firefox]:
    if FIREFOX is None:
        pytest.skip("no firefox-esr on this machine")
    (tmp_path / "profile").mkdir()
    one = Firefox(tmp_path / "profile")
    yield one
    one.close()


def until(file: Path, holds: Callable[[dict[str, Any]], bool]) -> None:
    for _ in range(240):
        if holds(tomllib.loads(file.read_text("utf-8"))):
            return
        time.sleep(0.25)
    raise AssertionError(file.read_text("utf-8"))


def test_a_pattern_is_designed_in_firefox(firefox: Firefox, server: DesignServer, pattern_file: Path) -> None:
    firefox.call("WebDriver:SetWindowRect", width=1280, height=1000)
    firefox.call("WebDriver:Navigate", url=server.address)
    firefox.until("document.body.innerText.includes('Row 1 (RS')")
    firefox.run(
        "const field = document.querySelector('#piece-0-length'); field.value = '50';"
        "field.dispatchEvent(new Event('input', { bubbles: true }));"
    )
    until(pattern_file, lambda found: found["piece"][0]["length"] == 50)
    firefox.run("[...document.querySelectorAll('button')].find((one) => one.textContent === 'Other orders').click()")
    firefox.until("document.querySelectorAll('dialog[open] .sheet button').length")
    firefox.run("document.querySelectorAll('dialog[open] .sheet button')[2].click()")
    until(pattern_file, lambda found: found["stripes"].get("kind") == "mirrored")
    pin = "[...document.querySelectorAll('.pin')].find((one) => one.getAttribute('aria-label').startsWith('Shoulder'))"
    (element,) = firefox.run(f"return {pin}").values()
    firefox.call("WebDriver:ElementSendKeys", id=element, text=RIGHT)
    firefox.until("document.querySelector('.slip .chosen') !== null")
    picture = "document.querySelector('.picture canvas').getContext('2d').getImageData(100, 100, 300, 300).data"
    assert firefox.run(f"return new Set({picture}).size") > 10, "a chart is drawn"
    firefox.run("document.activeElement.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }))")
    until(pattern_file, lambda found: found["piece"][0]["neck"]["shoulder"] > 13)
