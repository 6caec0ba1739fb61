"""The page as static files, with Python in the browser: the same files as the program makes, and no network needed."""

from __future__ import annotations

import functools
import http.server
import json
import os
import shutil
import subprocess
import sys
import threading
import zipfile
from base64 import b64decode
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any, ClassVar

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader

import turnchain
from design_page import CASES
from test_design_shapes import with_fabric_of_ones_own
from turnchain.cli import cli
from turnchain.design import building
from turnchain.design.server import DesignServer
from turnchain.errors import FileError, MakerError
from turnchain.garment import seam_words, seams
from turnchain.pages import blog

pytestmark = pytest.mark.slow

GALLERY = Path(__file__).parent.parent / "gallery" / "patterns"
FONTS = Path(turnchain.__file__).parent / "fonts"
KINDS = {".mjs": "text/javascript", ".js": "text/javascript", ".wasm": "application/wasm"}
if os.environ.get("CI"):
    assert shutil.which("npm"), "npm is there to fetch Python for browsers"


class Quiet(http.server.SimpleHTTPRequestHandler):
    """As plain a web host as there is."""

    extensions_map: ClassVar = {**http.server.SimpleHTTPRequestHandler.extensions_map, **KINDS}

    def log_message(self, *_: object) -> None:
        """Nothing."""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    given = os.environ.get("TURNCHAIN_PYODIDE")
    if not given and not shutil.which("npm"):
        pytest.skip("no npm on this machine")
    folder, archive = building.build(tmp_path_factory.mktemp("web") / "page", Path(given) if given else None)
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
def page(browser: Any, host: http.server.ThreadingHTTPServer) -> Iterator[Any]:
    address = f"http://127.0.0.1:{host.server_address[1]}/"
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
    one.context.close()


def test_everything_is_downloaded_in_one_archive(page: Any) -> None:
    """With PNG that the page drew, as near to the program's as two ways to smooth lines let them be."""
    page.get_by_role("button", name="Download").click()
    with page.expect_download(timeout=150_000) as caught:
        page.get_by_role("button", name="Everything").click()
    archive = zipfile.ZipFile(BytesIO(Path(caught.value.path()).read_bytes()))
    plan = turnchain.plan(turnchain.loads(archive.read("pattern.toml").decode()))
    assert archive.read("plan.json") == turnchain.plan_data(plan).encode()
    scenes = {"stripes": turnchain.stripes(plan), "schematic": turnchain.schematic(plan)}
    assert {f"{name}.png" for name in blog.pictures(plan)} <= set(archive.namelist())
    scenes |= {piece.name: turnchain.chart(plan, piece.name) for piece in plan.pieces}
    for name, scene in scenes.items():
        found, expected = (
            np.asarray(Image.open(BytesIO(data)).convert("RGB"), dtype=int)
            for data in (archive.read(f"{name}.png"), turnchain.png(scene))
        )
        assert found.shape == expected.shape
        assert np.abs(found - expected).mean() < 2, name


PATTERNS = sorted([*GALLERY.glob("*.toml"), *CASES.glob("*.toml")])
BOOKLET = "booklet.pdf"


def asked(page: Any, text: str) -> dict[str, bytes]:
    """The files that a page makes of a pattern, by name."""
    sent = page.evaluate(
        """async (text) => {
            const { ask } = await import(new URL('./engine.js', document.baseURI).href);
            return (await ask({ id: 1, text, want: ['files'] })).files;
        }""",
        text,
    )
    return {one["name"]: b64decode(one["data"]) for one in sent}


def made_by_command(file: Path, folder: Path) -> dict[str, bytes]:
    """The files that the command line makes of a pattern, by name, its booklet among them."""
    cli.main(["make", str(file), "-o", str(folder)], standalone_mode=False)
    cli.main(["print", str(file), "--booklet", "-o", str(folder / BOOKLET)], standalone_mode=False)
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}


def pages_drawn(pdf: bytes, folder: Path) -> list[bytes]:
    """Every page of a PDF as px, drawn by poppler."""
    folder.mkdir()
    (folder / "in.pdf").write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", "40", str(folder / "in.pdf"), str(folder / "page")], check=True)
    return [one.read_bytes() for one in sorted(folder.glob("page*"))]


@pytest.fixture(scope="module")
def page_with_program(browser: Any) -> Iterator[Any]:
    """The page that the program serves."""
    server = DesignServer(None)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_page()
    page.goto(server.address)
    yield page
    page.close()
    server.closing = True
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def page_alone(browser: Any, built: Path) -> Iterator[Any]:
    """The page with Python in the browser, from a plain host."""
    one = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(built)))
    threading.Thread(target=one.serve_forever, daemon=True).start()
    page = browser.new_page()
    page.set_default_timeout(240_000)
    page.goto(f"http://127.0.0.1:{one.server_address[1]}/")
    yield page
    page.close()
    one.shutdown()
    one.server_close()


@pytest.mark.parametrize("file", PATTERNS, ids=lambda file: file.stem)
def test_both_homes_make_what_the_command_line_makes(
    page_with_program: Any, page_alone: Any, file: Path, tmp_path: Path
) -> None:
    """plan.json, the words, the page beside the work and every SVG byte for byte, PNG px for px, the booklet page for
    page. Python in the browser makes no PNG: it has no numpy."""
    by_command = made_by_command(file, tmp_path / "made")
    text = file.read_text("utf-8")
    for name, page in (("program", page_with_program), ("alone", page_alone)):
        files = asked(page, text)
        assert {"plan.json", "pattern.md", "beside.html", BOOKLET, "stripes.svg", "schematic.svg"} <= files.keys()
        drawn = {one for one in files if one.endswith(".png")}
        assert bool(drawn) is (name == "program")
        for one in files.keys() - drawn - {BOOKLET}:
            assert files[one] == by_command[one], (name, one)
        for one in drawn:
            px = [Image.open(BytesIO(data)).convert("RGBA").tobytes() for data in (files[one], by_command[one])]
            assert px[0] == px[1], (name, one)
        booklets = [PdfReader(BytesIO(data)).pages for data in (files[BOOKLET], by_command[BOOKLET])]
        texts = [[one.extract_text() for one in pages] for pages in booklets]
        assert texts[0] == texts[1], name
        both = enumerate((files, by_command))
        drawn_pages = [pages_drawn(one[BOOKLET], tmp_path / f"{name}-{nth}") for nth, one in both]
        assert drawn_pages[0] == drawn_pages[1], name


def test_seams_are_told_and_their_stripes_wished_for(page: Any) -> None:
    """As the report tells them of the pattern that then stands in the page."""
    card = page.get_by_role("region", name="Seams")
    card.get_by_label("stripes at seam A").select_option("differ")
    page.get_by_role("button", name="Undo: stripes at seam a: differ").wait_for(timeout=60_000)
    page.get_by_role("tab", name="Pattern file").click()
    text = page.locator(".text textarea")
    for _ in range(600):  # the text follows the choice
        if "differ" in text.input_value():
            break
        page.wait_for_timeout(100)
    plan = turnchain.plan(turnchain.loads(text.input_value()))
    assert next(seam.letter for seam in seams.of(plan) if seam.stripes) == "A"
    told = [line.partition(", ")[2] for line in seam_words.lines(plan) if line.startswith("seam ")]
    card.get_by_text("no seams in the pattern file").wait_for(state="detached")
    assert card.locator("ol p").all_inner_texts() == told


def test_a_fabric_of_ones_own_is_read_where_there_is_no_folder(page: Any) -> None:
    with_fabric_of_ones_own(page)


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


def test_what_is_packed_is_enough_for_paper(tmp_path: Path) -> None:
    """The packed program alone, without the packages of this computer, answers as that computer does; where a module
    too many is left out, it says that something is missing."""
    for name, data in building._packages((*building.PROGRAM, *building.PAPER)):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(data)
    for font in FONTS.glob("*.ttf"):
        shutil.copy(font, tmp_path / "turnchain" / "fonts")
    asked = {"id": 1, "text": (GALLERY / "fallow_lane_slipover.toml").read_text("utf-8"), "want": ["booklet", "files"]}
    answered = "import json, sys; sys.path.insert(0, sys.argv[1]); from turnchain.live.answering import Live; "
    answered += "print(json.dumps(Live().answer(json.load(sys.stdin))))"
    command = [sys.executable, "-I", "-S", "-c", answered, str(tmp_path)]
    run = subprocess.run(command, input=json.dumps(asked), capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    reply = json.loads(run.stdout)
    assert reply["problems"] == []
    assert b64decode(reply["booklet"]).startswith(b"%PDF")


def test_a_folder_with_other_files_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    pyodide = tmp_path / "pyodide"
    pyodide.mkdir()
    for name in building.NEEDED:
        (pyodide / name).write_bytes(b"{}")
    with zipfile.ZipFile(pyodide / building.LIBRARY, "w") as library:
        library.writestr("os.py", "")
    with pytest.raises(FileError, match="other files stand there"):
        building.build(tmp_path, pyodide)
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_what_is_missing_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(MakerError, match="no pyodide"):
        building.build(tmp_path / "page", tmp_path)
    for name in building.NEEDED:
        (tmp_path / name).write_bytes(b"half of it")
    with pytest.raises(MakerError, match="cannot be read"):
        building.build(tmp_path / "page", tmp_path)
    monkeypatch.setattr(building.shutil, "which", lambda _: None)
    with pytest.raises(MakerError, match="npm"):
        building.build(tmp_path / "page")
