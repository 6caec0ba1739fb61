"""The gallery: what stands in it is what turnchain makes of its patterns today.

Text files are compared byte for byte, PNG pictures by their px (how they are deflated may differ from processor to
processor, and with it the last bit of a coverage). To mend a difference that is wanted: python gallery/build.py
"""

from __future__ import annotations

import importlib.util
import re
import tomllib
from pathlib import Path
from types import ModuleType

import numpy as np
import pytest
from PIL import Image

from pictures import opened

TOP = Path(__file__).parents[1]
MOST_PICTURE, MOST_ALL = 500_000, 11_000_000  # bytes; cloth and carried yarn take more than flat bands did


def _builder() -> ModuleType:
    found = importlib.util.spec_from_file_location("build", TOP / "gallery" / "build.py")
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


build = _builder()
PATTERNS = {file.stem: file for file in build.patterns()}


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", PATTERNS)
def test_a_pattern_makes_what_stands_there(name: str, tmp_path: Path) -> None:
    build.build(PATTERNS[name], tmp_path)
    kept = TOP / "gallery" / name
    names, wanted = ({file.name for file in folder.iterdir()} for folder in (kept, tmp_path))
    assert names == wanted, "python gallery/build.py"
    for file in sorted(tmp_path.iterdir()):
        found, expected = (kept / file.name).read_bytes(), file.read_bytes()
        if file.suffix == ".png":
            apart = np.abs(opened(found).astype(int) - opened(expected))
            assert apart.max(initial=0) <= 1, f"{file.name}: python gallery/build.py"
        else:
            assert found == expected, f"{file.name}: python gallery/build.py"


def test_the_stitch_library_stands_there_as_it_is_made(tmp_path: Path) -> None:
    build.build_fabrics(tmp_path)
    kept = TOP / "gallery" / "fabrics" / "fabrics.html"
    assert kept.read_text("utf-8") == (tmp_path / "fabrics.html").read_text("utf-8"), "python gallery/build.py"


@pytest.mark.slow
def test_the_cardigan_has_its_button_bands(tmp_path: Path) -> None:
    """As it is made, and small enough to travel."""
    build.build_cardigan(tmp_path)
    kept = TOP / "gallery" / "cardigan"
    for name in ("stripes.png", "right-front.png"):
        found, expected = (kept / name).read_bytes(), (tmp_path / name).read_bytes()
        assert len(found) < MOST_PICTURE
        assert np.abs(opened(found).astype(int) - opened(expected)).max(initial=0) <= 1, "python gallery/build.py"


def test_there_are_patterns_enough_and_each_folder_has_one() -> None:
    assert len(PATTERNS) >= 3
    folders = {folder.name for folder in (TOP / "gallery").iterdir() if folder.is_dir() and folder.name[0] not in "._"}
    apart = {"cardigan", "fabrics", "options", "screens", "sheets"}  # built by scripts of their own
    assert folders - apart == {"patterns", *PATTERNS}


def test_patterns_are_a_spread_of_what_can_be_made() -> None:
    read = [tomllib.loads(file.read_text("utf-8")) for file in PATTERNS.values()]
    assert len({pattern["title"] for pattern in read}) == len(read)
    assert {pattern["terms"] for pattern in read} == {"US", "UK"}
    assert {pattern["units"] for pattern in read} == {"cm", "in"}
    assert {pattern.get("fabric", {}).get("gap", 1) for pattern in read} == {0, 1}
    pieces = [piece for pattern in read for piece in pattern["piece"]]
    assert any("neck" in piece for piece in pieces)
    assert any("outline" in piece for piece in pieces)
    assert any(piece.get("worked") == "sideways" for piece in pieces)


def test_the_gallery_is_small_enough_to_travel() -> None:
    sizes = {file: file.stat().st_size for name in PATTERNS for file in (TOP / "gallery" / name).iterdir()}
    assert {file.name: size for file, size in sizes.items() if file.suffix == ".png" and size > MOST_PICTURE} == {}
    assert sum(sizes.values()) <= MOST_ALL


def test_six_sheets_have_the_size_at_which_they_are_seen() -> None:
    """A phone of 390 px with two px to each of its own; A4 (210 by 297 mm, ISO 216) at 150 dots per inch."""
    sheets = sorted((TOP / "gallery" / "sheets").iterdir())
    assert len(sheets) == 6
    for file in sheets:
        with Image.open(file) as picture:
            assert picture.width == 780 if file.name.startswith("phone") else picture.size == (1240, 1754)
        assert file.stat().st_size < 150_000


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_links_and_pictures_lead_to_files(page: str) -> None:
    text = (TOP / page).read_text("utf-8")
    found = [*re.findall(r"\]\(([^)#]+)\)", text), *re.findall(r'(?:src|href)="([^"#]+)"', text)]
    assert found
    for link in found:
        if "://" not in link:
            assert (TOP / link).exists(), link
