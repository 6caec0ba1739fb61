"""Pictures of pages as makers see them: the design page, the page beside the work, the first page of the booklet.

In: a pattern of the gallery, and the walk of ``walk.py``. Out: ``screens/*.png``, which the README shows: among them
``film-1.png`` and so on, a picture for every step of a top that is designed on the page from nothing. ``python
gallery/screens.py`` makes them; it needs chromium (with playwright) and poppler's pdftoppm. How letters look is up to
the browser, so no test compares them.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from itertools import count
from pathlib import Path

import walk
from PIL import Image
from playwright.sync_api import Browser, Page, sync_playwright

from turnchain.design.pattern_file import PatternFile
from turnchain.design.server import DesignServer

HERE = Path(__file__).parent
FOLDER = HERE / "screens"
PATTERN = HERE / "patterns" / "fallow_lane_slipover.toml"

DESKTOP, PHONE = (1280, 860), (390, 844)  # px, as the page counts them
FILM = (1280, 1390)
LONGEST = 300_000  # ms for all of the film
SHARP = 2  # px of a phone to each of those
SETTLED = 4000  # ms: charts are drawn a moment after the page stands
BOOKLET_PAGE, BOOKLET_DPI = 1, 80
COLOURS = 200  # of a picture: pages have few, and the files travel with the code


@contextmanager
def served(file: Path) -> Iterator[str]:
    """The address of the design page for ``file``, which opens once."""
    server = DesignServer(PatternFile(file))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield server.address
    finally:
        server.closing = True
        server.shutdown()
        server.server_close()


@contextmanager
def opened(browser: Browser, address: str, size: tuple[int, int], sharp: int = 1) -> Iterator[Page]:
    """A page of ``size`` px at ``address``, when it has come to rest."""
    page = browser.new_page(viewport={"width": size[0], "height": size[1]}, device_scale_factor=sharp)
    page.goto(address)
    page.wait_for_timeout(SETTLED)
    yield page
    page.close()


def keep(name: str, png: bytes) -> None:
    """Puts a picture into the folder, in few colours."""
    picture = Image.open(BytesIO(png)).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    picture.save(FOLDER / f"{name}.png", optimize=True)


def film(browser: Browser, folder: Path) -> None:
    """A picture for every step of a top that is designed by mouse."""
    with served(folder / "top.toml") as address:
        page = browser.new_page(viewport={"width": FILM[0], "height": FILM[1]}, accept_downloads=True)
        page.goto(address)
        numbers = dict(zip(walk.STEPS, count(1), strict=False))
        with page.expect_download(timeout=LONGEST):
            walk.by_mouse(page, lambda step: keep(f"film-{numbers[step]}", page.screenshot()))
        page.close()


def booklet_page(folder: Path) -> bytes:
    """A page of the booklet, drawn by poppler."""
    subprocess.run(["turnchain", "print", PATTERN, "--booklet", "-o", folder / "booklet.pdf"], check=True)
    which = ["-f", str(BOOKLET_PAGE), "-l", str(BOOKLET_PAGE), "-r", str(BOOKLET_DPI), "-png", "-singlefile"]
    subprocess.run(["pdftoppm", *which, folder / "booklet.pdf", folder / "booklet"], check=True)
    return (folder / "booklet.png").read_bytes()


def build(browser: Browser, folder: Path) -> None:
    """Makes every picture; ``folder`` is for what is needed on the way."""
    FOLDER.mkdir(exist_ok=True)
    file = Path(shutil.copy(PATTERN, folder / PATTERN.name))
    for name, size, sharp in (("design", DESKTOP, 1), ("design-phone", PHONE, SHARP)):
        with served(file) as address, opened(browser, address, size, sharp) as page:
            keep(name, page.screenshot())
    film(browser, folder)
    subprocess.run(["turnchain", "page", PATTERN, "-o", folder / "beside.html"], check=True)
    with opened(browser, (folder / "beside.html").as_uri(), PHONE, SHARP) as page:
        keep("beside-phone", page.screenshot())
    keep("booklet", booklet_page(folder))


if __name__ == "__main__":
    with sync_playwright() as play, tempfile.TemporaryDirectory() as folder:
        chromium = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        build(chromium, Path(folder))
        chromium.close()
