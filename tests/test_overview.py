"""The page that shows everything: on paper, and in the dark."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest

from turnchain import style

GALLERY = Path(__file__).parent.parent / "gallery"
CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)


def made(tmp_path: Path) -> Path:
    """The page of the slipover with the pictures of the gallery, written anew."""
    from turnchain.drawing import schematic
    from turnchain.pages.overview import overview
    from turnchain.planning.planner import plan_pattern
    from turnchain.reading.pattern_file import read_file

    plan = plan_pattern(read_file(GALLERY / "patterns" / "fallow_lane_slipover.toml"))
    folder = tmp_path / "made"
    shutil.copytree(GALLERY / "fallow_lane_slipover", folder)
    names = [("on-figure", "x"), ("stripes", "x"), *schematic.told(plan).items(), ("body", "x"), ("body-short", "x")]
    (folder / "index.html").write_text(overview(plan, names), "utf-8")
    return folder / "index.html"


def test_a_dark_style_can_be_read(tmp_path: Path) -> None:
    text = made(tmp_path).read_text("utf-8")
    assert "prefers-color-scheme: dark" in text
    dark = text[text.index("prefers-color-scheme: dark") :]
    paper = re.search(r"--paper: (#\w{6})", dark)
    assert paper
    for name in ("ink", "soft", "accent"):
        colour = re.search(rf"--{name}: (#\w{{6}})", dark)
        assert colour
        assert style.contrast(paper[1], colour[1]) >= 4.5


@pytest.mark.slow
@pytest.mark.skipif(CHROMIUM is None and "CI" not in os.environ, reason="no Chromium to print with")
def test_no_chart_is_cut_on_paper(tmp_path: Path) -> None:
    """A picture that is cut is drawn on two pages: each stands on one."""
    page = made(tmp_path)
    assert CHROMIUM is not None
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
    printed = tmp_path / "printed.pdf"
    subprocess.run([*command, f"--print-to-pdf={printed}", page.as_uri()], check=True, capture_output=True, timeout=120)
    drawn = [len(page.images) for page in pypdf.PdfReader(printed).pages]
    assert sum(drawn) == page.read_text("utf-8").count("<img")
