"""Builds the gallery: everything that turnchain makes of each pattern in gallery/patterns.

In: patterns/*.toml, written by hand. Out: a folder for each, named after its pattern file, and the stitch library; of
the cardigan with its button bands, whose pattern stands beside them, two pictures alone. Run
it after any change that shows in a picture: ``python gallery/build.py``. The tests compare what is here with what would
be built.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

import turnchain
from turnchain.drawing.looks import Look
from turnchain.making.everything import make_all
from turnchain.pages.fabrics_page import fabrics_page

WIDTH = 1000  # of the whole charts: clear on a screen, and small enough to travel with the code
GALLERY = Path(__file__).parent


def patterns() -> list[Path]:
    """The pattern files, by name."""
    return sorted((GALLERY / "patterns").glob("*.toml"))


def build(pattern: Path, folder: Path) -> None:
    """Makes everything of ``pattern`` in ``folder``, and nothing else stands there afterwards.

    Made apart and copied, since what stands here changes hands with the code: no record of it would hold."""
    with tempfile.TemporaryDirectory() as apart:
        made = make_all(pattern, Path(apart), width=WIDTH, look=Look())
        folder.mkdir(exist_ok=True)
        for file in folder.iterdir():
            file.unlink()
        for file in made.written:
            shutil.copyfile(file, folder / file.name)


def build_fabrics(folder: Path) -> None:
    """Writes the stitch library into ``folder``."""
    folder.mkdir(exist_ok=True)
    (folder / "fabrics.html").write_text(fabrics_page(), "utf-8")


def build_cardigan(folder: Path) -> None:
    """Writes into ``folder`` the fabric of the cardigan and the chart of its right front."""
    plan = turnchain.plan(turnchain.load(GALLERY / "cardigan" / "tide_mill_cardigan.toml"))
    folder.mkdir(exist_ok=True)
    turnchain.save(turnchain.stripes(plan, width=WIDTH), folder / "stripes.png")
    turnchain.save(turnchain.chart(plan, "right front", width=WIDTH), folder / "right-front.png")


if __name__ == "__main__":
    build_cardigan(GALLERY / "cardigan")
    build_fabrics(GALLERY / "fabrics")
    for pattern in patterns():
        build(pattern, GALLERY / pattern.stem)
