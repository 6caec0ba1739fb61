"""A robot at the design page: it clicks, types, pulls and drags at random, by a seed, and looks at what comes of it.

In: a seed and how many seconds. Out: what went wrong: words on the console, an edit that was lost, a file that the
program neither makes nor explains.

    python tests/design_robot.py --seed 7 --seconds 600
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
import threading
import time
from pathlib import Path
from random import Random
from typing import Any

import turnchain
from turnchain.design.pattern_file import PatternFile
from turnchain.design.server import DesignServer

CASES = Path(__file__).parent / "cases"
PATTERN = CASES / "heron_top.toml"
TYPED = (
    "", "0", "-3", "12.5", "7", "24 in", "41", "1e9", "abc", "<b>x</b>", "é Ω \U0001f9f6", '"', "\\", "0,5", "100000",
)  # fmt: skip
LINES = (
    "rows = 3", "title = 5", "[piece]", "[[yarn]]", "= =", 'name = "front"', "[stripes]", "yarn = 3", "order = [1]",
)  # fmt: skip
CLICKED = "button:not([disabled]):visible, summary:visible, input[type=checkbox]:visible"
KEYS = (
    "Tab", "Escape", "Enter", "ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight", "Home", "End", "+", "-", "a",
    "Control+z",
)  # fmt: skip
REST = 900  # ms until all fields have sent what was typed


class Robot:
    """One run: ``page`` stands open, ``file`` is what it designs, ``told`` what the console says."""

    def __init__(self, page: Any, file: Path, seed: int, told: list[str]) -> None:
        self.page, self.file, self.rng, self.told = page, file, Random(seed), told
        self.done: list[str] = []

    def run(self, seconds: float) -> list[str]:
        """Works for so long; what went wrong, with the last steps before it."""
        steps = (self.click,) * 3 + (self.type, self.choose, self.press, self.pull, self.write, self.elsewhere)
        end, checked = time.monotonic() + seconds, 0
        while time.monotonic() < end and not self.told:
            step = self.rng.choice(steps)
            try:
                step()
            except Exception as error:
                if "Timeout" not in type(error).__name__ and "Error" not in type(error).__name__:
                    raise
            checked += 1
            if checked % 25 == 0:
                self.told += self.wrong()
        self.told += self.wrong()
        return [f"{words} (after: {'; '.join(self.done[-12:])})" for words in self.told]

    # ------------------------------------------------------------------------------------------------------ steps

    def _one(self, selector: str) -> Any:
        found = self.page.locator(selector)
        count = found.count()
        return found.nth(self.rng.randrange(count)) if count else None

    def _did(self, words: str) -> None:
        self.done.append(words)

    def click(self) -> None:
        """Clicks at something that can be clicked; seldom at what opens the browser's own windows."""
        one = self._one(CLICKED)
        if one is None:
            return
        name = one.inner_text(timeout=500)[:30]
        if name in ("Print this page", "Everything", "Booklet", "Page to work from"):
            return
        self._did(f"click {name}")
        one.click(timeout=800)

    def type(self) -> None:
        """Types into a field."""
        one = self._one("input:not([type]):visible")
        if one is not None:
            words = self.rng.choice(TYPED)
            self._did(f"type {words!r} into {one.get_attribute('id', timeout=500)}")
            one.fill(words, timeout=800)

    def choose(self) -> None:
        """Chooses from a list, or moves a slider."""
        one = self._one("select:visible, input[type=range]:visible, input[type=color]:visible")
        if one is None:
            return
        kind = one.evaluate("(node) => node.type")
        self._did(f"choose {one.get_attribute('id', timeout=500)}")
        if kind == "select-one":
            one.select_option(index=self.rng.randrange(one.locator("option").count()), timeout=800)
        elif kind == "color":
            one.fill(f"#{self.rng.randrange(1 << 24):06x}", timeout=800)
        else:
            one.fill(str(self.rng.randint(1, 20)), timeout=800)

    def press(self) -> None:
        """Presses a few keys wherever the focus is."""
        keys = [self.rng.choice(KEYS) for _ in range(self.rng.randint(1, 6))]
        self._did(f"press {' '.join(keys)}")
        for key in keys:
            self.page.keyboard.press(key)

    def pull(self) -> None:
        """Pulls at a pin, or drags and turns the wheel over a picture."""
        one = self._one(".pin .head, .picture canvas")
        box = one.bounding_box(timeout=500) if one is not None else None
        if box is None:
            return
        self._did("pull")
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        self.page.mouse.move(x, y)
        self.page.mouse.down()
        self.page.mouse.move(x + self.rng.randint(-60, 60), y + self.rng.randint(-60, 60), steps=3)
        self.page.mouse.up()
        self.page.mouse.wheel(0, self.rng.randint(-400, 400))

    def write(self) -> None:
        """Changes a line of the text itself."""
        box = self.page.locator("#text")
        if box.count() and self.rng.random() < 0.3:
            lines = box.input_value(timeout=500).splitlines() or [""]
            lines.insert(self.rng.randrange(len(lines) + 1), self.rng.choice(LINES))
            self._did("write a line")
            box.fill("\n".join(lines), timeout=800)

    def elsewhere(self) -> None:
        """Another program writes the file, now and then; and the window changes its size."""
        if self.rng.random() < 0.15:
            self._did("file written elsewhere")
            self.file.write_text(PATTERN.read_text("utf-8"), "utf-8")
        elif self.rng.random() < 0.3:
            width = self.rng.choice((390, 1000, 1280))
            self._did(f"{width} px wide")
            self.page.set_viewport_size({"width": width, "height": 860})

    # ------------------------------------------------------------------------------------------------------ looks

    def wrong(self) -> list[str]:
        """What is not as it should be, once all has come to rest."""
        self.page.wait_for_timeout(REST)
        self.page.locator("body:not([data-busy])").wait_for(timeout=60_000)
        self.page.wait_for_timeout(REST)
        found = list(self._lost())
        if not self.page.locator(".bench header").count():
            found.append("the page is empty")
        text = self.file.read_text("utf-8")
        try:
            turnchain.report(turnchain.plan(turnchain.loads(text)))
        except turnchain.MakerError as error:
            if not str(error).strip():
                found.append("a problem without words")
        except Exception as error:  # whatever it is, it is none of the maker's
            found.append(f"{type(error).__name__}: {error}\n{text}")
        return found

    def _lost(self) -> list[str]:
        """What a field shows and the file does not hold: an edit that was lost. Fields with a problem are told of."""
        if self.page.locator(".bar[role=alert]").count():
            return []  # it is the maker's turn to say which of two versions stays
        fields = "[...document.querySelectorAll('input[id*=length], input[id*=width]')]"
        shown = self.page.evaluate(f"{fields}.map((one) => one.value)")
        text = self.file.read_text("utf-8")
        bare = [value for value in shown if value and value not in text and value.replace(",", ".") not in text]
        broken = self.page.locator("p.bar.problem").count()
        lost = [f"the page shows {value!r}, which the file does not hold" for value in bare if _plain(value)]
        return [] if broken else lost


def _plain(value: str) -> bool:
    try:
        return f"{float(value):g}" == value
    except ValueError:
        return False


def worked(browser: Any, seed: int, seconds: float, folder: Path) -> list[str]:
    """A run of the robot in ``browser`` on a file in ``folder``: what went wrong."""
    file = Path(shutil.copy(PATTERN, folder / "robot.toml"))
    server = DesignServer(PatternFile(file))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_context(viewport={"width": 1280, "height": 860}, accept_downloads=True).new_page()
    told: list[str] = []
    page.on("console", lambda one: told.append(one.text) if one.type == "error" and "409" not in one.text else None)
    page.on("pageerror", lambda error: told.append(f"{error}\n{error.stack}"))
    page.on("dialog", lambda one: one.dismiss())
    try:
        page.goto(server.address)
        page.get_by_text("Row 1 (RS").wait_for(timeout=60_000)
        return Robot(page, file, seed, told).run(seconds)
    finally:
        page.context.close()
        server.closing = True
        server.shutdown()
        server.server_close()


def main() -> int:
    """Runs the robot; 1 where something went wrong."""
    from playwright.sync_api import sync_playwright

    asked = argparse.ArgumentParser(description="Let a robot work at the design page.")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--seconds", type=float, default=600)
    wanted = asked.parse_args()
    with sync_playwright() as play, tempfile.TemporaryDirectory() as folder:
        chromium = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
        )
        found = worked(chromium, wanted.seed, wanted.seconds, Path(folder))
    for words in found:
        print(f"seed {wanted.seed}: {words}", flush=True)
    print(f"robot: {wanted.seconds:g} s at the design page, {len(found)} faults", flush=True)
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
