"""The page as static files, with Python in the browser: the same files as the program makes, and no network needed."""

from __future__ import annotations

import functools
import http.server
import os
import shutil
import threading
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any, ClassVar

import pytest
from pypdf import PdfReader

import turnchain
from turnchain.design import building
from turnchain.errors import FileError, MakerError

pytestmark = pytest.mark.slow

CHROMIUM = shutil.which("chromium")
KINDS = {".mjs": "text/javascript", ".js": "text/javascript", ".wasm": "application/wasm"}
if os.environ.get("CI"):
    assert CHROMIUM, "chromium is there to look at the page"
    assert shutil.which("npm"), "npm is there to fetch Python for browsers"


class Quiet(http.server.SimpleHTTPRequestHandler):
    """As plain a web host as there is."""

    extensions_map: ClassVar = {**http.server.SimpleHTTPRequestHandler.extensions_map, **KINDS}

    def log_message(self, *_: object) -> None:
        """Nothing."""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    if not shutil.which("npm"):
        pytest.skip("no npm on this machine")
    folder, archive = building.build(tmp_path_factory.mktemp("web") / "page")
    assert zipfile.ZipFile(archive).testzip() is None
    return folder


@pytest.fixture
def host(built: Path) -> Iterator[http.server.ThreadingHTTPServer]:
    one = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(built)))
    threading.Thread(target=one.serve_forever, daemon=True).start()
    yield one
    one.shutdown()
    one.server_close()


@pytest.fixture
def page(host: http.server.ThreadingHTTPServer) -> Iterator[Any]:
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    from playwright.sync_api import sync_playwright

    address = f"http://127.0.0.1:{host.server_address[1]}/"
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        one = browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True).new_page()
        said: list[str] = []
        one.on("console", lambda message: said.append(message.text) if message.type == "error" else None)
        one.on("pageerror", lambda error: said.append(str(error)))
        ours = (address, "blob:", "data:")
        one.on("request", lambda asked: None if asked.url.startswith(ours) else said.append(asked.url))
        one.goto(address)
        one.get_by_role("button", name="Start from an example").click()
        one.get_by_text("Row 1 (RS").wait_for(timeout=180_000)
        yield one
        assert said == []
        browser.close()


def test_it_makes_the_files_that_the_program_makes(page: Any) -> None:
    page.get_by_role("button", name="Download").click()
    with page.expect_download(timeout=150_000) as caught:
        page.get_by_role("button", name="Everything").click()
    archive = zipfile.ZipFile(BytesIO(Path(caught.value.path()).read_bytes()))
    plan = turnchain.plan(turnchain.loads(archive.read("pattern.toml").decode()))
    assert archive.read("plan.json") == turnchain.plan_data(plan).encode()
    assert archive.read("pattern.md") == turnchain.markdown(plan).encode()
    assert archive.read("beside.html") == turnchain.page(plan).encode()
    assert archive.read("stripes.svg") == turnchain.svg(turnchain.stripes(plan))
    assert archive.read("schematic.svg") == turnchain.svg(turnchain.schematic(plan))
    for piece in plan.pieces:
        assert archive.read(f"{piece.name}.svg") == turnchain.svg(turnchain.chart(plan, piece.name))
    ours = PdfReader(BytesIO(turnchain.pdf(plan, turnchain.booklet(plan))))
    theirs = PdfReader(BytesIO(archive.read("booklet.pdf")))
    assert [one.extract_text() for one in theirs.pages] == [one.extract_text() for one in ours.pages]


def test_it_works_when_its_host_is_gone(page: Any, host: http.server.ThreadingHTTPServer) -> None:
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    host.shutdown()
    host.server_close()
    page.reload()
    page.get_by_text("Row 1 (RS").wait_for(timeout=180_000)  # the pattern is kept by the browser
    page.get_by_label("Length wanted").first.fill("44")
    page.get_by_role("button", name="Undo: length wanted 44").wait_for(timeout=60_000)


def test_it_is_small_enough(built: Path) -> None:
    """What a visitor fetches, packed as hosts pack: 8 MB at most."""
    import gzip

    assert sum(len(gzip.compress(file.read_bytes(), 9)) for file in built.rglob("*") if file.is_file()) < 8_000_000


def test_a_folder_with_other_files_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    pyodide = tmp_path / "pyodide"
    pyodide.mkdir()
    for name in building.NEEDED:
        (pyodide / name).write_bytes(b"")
    with zipfile.ZipFile(pyodide / building.LIBRARY, "w") as library:
        library.writestr("os.py", "")
    with pytest.raises(FileError, match="other files stand there"):
        building.build(tmp_path, pyodide)
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_what_is_missing_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(MakerError, match="no pyodide"):
        building.build(tmp_path / "page", tmp_path)
    monkeypatch.setattr(building.shutil, "which", lambda _: None)
    with pytest.raises(MakerError, match="npm"):
        building.build(tmp_path / "page")
