"""The design page in a browser: fixtures for those tests that work on it as a maker does.

In: nothing. Out: a server of the page with a copy of a pattern file, and a page of Chromium whose test fails where it
says anything on its console. ``conftest`` hands the fixtures to all tests.
"""

from __future__ import annotations

import os
import shutil
import threading
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from turnchain.design.pattern_file import PatternFile
from turnchain.design.server import DesignServer

CASES = Path(__file__).parent / "cases"
HERON = CASES / "heron_top.toml"
CHROMIUM = shutil.which("chromium")
if os.environ.get("CI"):
    assert CHROMIUM, "chromium is there to look at the page"


@pytest.fixture
def pattern_file(tmp_path: Path) -> Path:
    """A copy of a pattern, to be designed."""
    return Path(shutil.copy(HERON, tmp_path / "mine.toml"))


@pytest.fixture
def server(pattern_file: Path) -> Iterator[DesignServer]:
    one = DesignServer(PatternFile(pattern_file))
    threading.Thread(target=one.serve_forever, daemon=True).start()
    yield one
    one.closing = True
    one.shutdown()
    one.server_close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        one = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        yield one
        one.close()


@pytest.fixture
def page(browser: Any, server: DesignServer) -> Iterator[Any]:
    one = browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True).new_page()
    said: list[str] = []
    one.on("console", lambda message: said.append(message.text) if message.type in ("error", "warning") else None)
    one.on("pageerror", lambda error: said.append(str(error)))
    one.goto(server.address)
    one.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
    yield one
    assert said == []
    one.context.close()


def saved(page: Any, file: Path, words: str) -> str:
    """The text of the file once it holds ``words``."""
    for _ in range(200):
        text = file.read_text("utf-8")
        if words in text:
            return text
        page.wait_for_timeout(100)
    raise AssertionError(f"the file never held {words!r}")


def tables(file: Path) -> dict[str, Any]:
    """The tables of a file as they are written."""
    return tomllib.loads(file.read_text("utf-8"))


def until(page: Any, file: Path, holds: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    """The tables of the file once ``holds`` is true of them."""
    for _ in range(400):
        found = tables(file)
        if holds(found):
            return found
        page.wait_for_timeout(50)
    raise AssertionError(file.read_text("utf-8"))
