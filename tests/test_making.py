"""All files of a pattern: what there is, in which order, and that a run that fails leaves everything as it was."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO
from urllib.parse import unquote

import jsonschema
import pytest
from lxml import html

from test_cli import SMALL, contents
from turnchain.drawing.looks import Look
from turnchain.errors import FileError
from turnchain.making import everything
from turnchain.pages import overview as page
from turnchain.plan_json import schema
from turnchain.scene import Scene
from turnchain.writers import formats


def make(source: Path, folder: Path) -> list[Path]:
    """Makes everything at a small size; the files told of, in order."""
    told: list[Path] = []
    everything.make_all(source, folder, width=700, look=Look(), told=told.append)
    return told


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("pattern") / "small.toml"
    file.write_text(SMALL, "utf-8")
    return file


@pytest.fixture(scope="module")
def once(source: Path) -> Path:
    """Everything made once; not to be changed."""
    make(source, source.parent / "once")
    return source.parent / "once"


@pytest.fixture
def folder(once: Path, tmp_path: Path) -> Path:
    """A folder with older files of the same names; by its plan it is known as made by turnchain."""
    shutil.copytree(once, tmp_path / "made")
    for file in (tmp_path / "made").iterdir():
        if file.name != "plan.json":
            file.write_bytes(b"old " + file.name.encode())
    return tmp_path / "made"


def test_every_piece_has_its_pictures_and_words(once: Path) -> None:
    names = set(contents(once))
    assert {"plan.json", "index.html"} <= names
    assert {f"{piece}{kind}" for piece in ("front", "strip") for kind in (".svg", ".png", ".txt")} <= names
    # beside each image its alt text
    for name in names:
        if name.endswith((".svg", ".png")):
            assert f"{name[:-4]}.txt" in names
    assert not [name for name in names if name.startswith(".")]


def test_the_plan_is_as_its_schema_says(once: Path) -> None:
    plan = json.loads((once / "plan.json").read_text("utf-8"))
    jsonschema.validate(plan, schema())
    assert plan["schema"] == 1
    assert [piece["name"] for piece in plan["pieces"]] == ["front", "strip"]


def test_same_input_same_bytes_in_place_of_old_files_the_page_last(
    source: Path, once: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put: list[str] = []
    replace = os.replace
    monkeypatch.setattr(os, "replace", lambda old, new: (put.append(Path(new).name), replace(old, new)))
    told = make(source, folder)
    assert contents(folder) == contents(once)
    assert told[-1].name == put[-1] == "index.html"
    assert sorted(put) == sorted(file.name for file in told) == sorted(contents(folder))


def test_the_page_leads_to_every_file_and_nowhere_else(once: Path) -> None:
    read = html.parse(str(once / "index.html"))
    links = {*read.xpath("//@href"), *read.xpath("//@src")}
    inside = {unquote(link) for link in links if not link.startswith("#")}
    assert inside == set(contents(once)) - {"index.html"}
    ids = set(read.xpath("//@id"))
    assert {link[1:] for link in links if link.startswith("#")} <= ids


def test_pictures_on_the_page_are_told_in_words(once: Path) -> None:
    pictures = html.parse(str(once / "index.html")).xpath("//img")
    assert len(pictures) >= 2
    for picture in pictures:
        words = (once / f"{unquote(picture.get('src'))[:-4]}.txt").read_text("utf-8").strip()
        assert picture.get("alt") == words
        assert len(words) > 30


def failing_svg(form: formats.Format, scene: Scene, stream: BinaryIO) -> None:
    stream.write(b"<svg")
    if "strip" in scene.title:
        raise OSError(28, "No space left on device")


def failing_page(*_: object) -> str:
    raise RuntimeError("midway")


@pytest.mark.parametrize(
    ("spoil", "error"),
    [
        (lambda patch: patch.setattr(formats.Format, "write", failing_svg), OSError),
        (lambda patch: patch.setattr(page, "overview", failing_page), RuntimeError),
    ],
)
def test_a_run_that_fails_midway_leaves_old_files_whole(
    spoil: Callable[[pytest.MonkeyPatch], None],
    error: type[Exception],
    source: Path,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = contents(folder)
    spoil(monkeypatch)
    with pytest.raises(error):
        make(source, folder)
    assert contents(folder) == before


def test_a_folder_in_the_way_of_a_file(source: Path, folder: Path) -> None:
    (folder / "strip.svg").unlink()
    (folder / "strip.svg").mkdir()
    before = contents(folder)
    with pytest.raises(FileError, match=r"strip\.svg: cannot be written: there is a folder of that name"):
        make(source, folder)
    assert contents(folder) == before
