"""Files to be written: all or nothing, and refusals in words."""

from __future__ import annotations

import errno
import io
import os
import stat
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from turnchain.errors import FileError
from turnchain.scene import Scene
from turnchain.writers.files import replaced
from turnchain.writers.formats import PICTURES


def test_new_and_old_files_are_written_whole(tmp_path: Path) -> None:
    file = tmp_path / "chart.svg"
    for content in (b"first", b"second"):
        with replaced(file) as stream:
            stream.write(content)
        assert file.read_bytes() == content
    assert list(tmp_path.iterdir()) == [file]


@pytest.fixture(params=["no name", "a hidden name"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways in which a file waits; only Linux knows the first."""
    if request.param == "a hidden name":
        monkeypatch.delattr(os, "O_TMPFILE", raising=False)
        monkeypatch.setattr(tempfile, "_O_TMPFILE_WORKS", False, raising=False)  # it looked when it was imported
    elif not hasattr(os, "O_TMPFILE"):
        pytest.skip("this system knows no files without a name")
    return str(request.param)


def test_the_old_file_stands_until_the_end(way: str, tmp_path: Path) -> None:
    file = tmp_path / "chart.svg"
    file.write_bytes(b"old")
    with replaced(file) as stream:
        stream.write(b"new")
        stream.flush()
        assert file.read_bytes() == b"old"
        beside = [other.name for other in tmp_path.iterdir() if other != file]
        assert len(beside) == (way == "a hidden name")
        assert all(name.startswith(".turnchain-") for name in beside)
    assert file.read_bytes() == b"new"
    assert list(tmp_path.iterdir()) == [file]


@pytest.mark.parametrize("failure", [ZeroDivisionError, KeyboardInterrupt])
def test_a_failure_keeps_the_old_file_and_leaves_nothing(
    way: str, failure: type[BaseException], tmp_path: Path
) -> None:
    file = tmp_path / "chart.svg"
    file.write_bytes(b"old")

    def fail() -> None:
        with replaced(file) as stream:
            stream.write(b"half")
            raise failure

    with pytest.raises(failure):
        fail()
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


def test_a_stop_never_removes_what_another_run_put_there(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another run puts its file where none was while ours is written; ours is stopped right after its renaming."""
    file = tmp_path / "chart.svg"
    replace = os.replace

    def stopped(*names: Path) -> None:
        replace(*names)
        raise KeyboardInterrupt

    def write() -> None:
        with replaced(file) as stream:
            stream.write(b"ours")
            file.write_bytes(b"theirs")
            monkeypatch.setattr(os, "replace", stopped)

    with pytest.raises(KeyboardInterrupt):
        write()
    assert file.read_bytes() == b"ours"
    assert list(tmp_path.iterdir()) == [file]


def test_a_full_disk_is_told_in_words(way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    file = tmp_path / "chart.svg"
    file.write_bytes(b"old")
    with (
        pytest.raises(FileError, match=r"chart\.svg: cannot be written: the disk is full"),
        replaced(file) as stream,
    ):
        stream.write(b"new")
    assert file.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [file]


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("nowhere/chart.svg", "there is no such folder"),
        ("folder", "there is a folder of that name"),
        ("file/chart.svg", "part of the path is a file, not a folder"),
        ("pipe", "it is not an ordinary file"),
        ("nowhere" * 60 + "/chart.svg", "the name is too long"),
    ],
)
def test_places_that_cannot_be_written(name: str, reason: str, tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").touch()
    os.mkfifo(tmp_path / "pipe")
    before = sorted(tmp_path.iterdir())
    with pytest.raises(FileError) as caught, replaced(tmp_path / name):
        pass
    assert str(caught.value) == f"{tmp_path / name}: cannot be written: {reason}"
    assert sorted(tmp_path.iterdir()) == before


def test_long_names_are_no_trouble(tmp_path: Path) -> None:
    file = tmp_path / ("n" * 251 + ".svg")
    with replaced(file) as stream:
        stream.write(b"a")
    assert file.read_bytes() == b"a"


def test_links_and_permissions_stay(way: str, tmp_path: Path) -> None:
    file, link = tmp_path / "chart.svg", tmp_path / "link.svg"
    file.write_bytes(b"old")
    file.chmod(0o640)
    link.symlink_to(file)
    with replaced(link) as stream:
        stream.write(b"new")
    assert link.is_symlink()
    assert file.read_bytes() == b"new"
    assert stat.S_IMODE(file.stat().st_mode) == 0o640


def test_new_files_get_the_usual_permissions(way: str, tmp_path: Path) -> None:
    (tmp_path / "usual").touch()
    with replaced(tmp_path / "chart.svg"):
        pass
    modes = {stat.S_IMODE(file.stat().st_mode) for file in tmp_path.iterdir()}
    assert len(modes) == 1


@pytest.mark.parametrize(("ending", "start"), [(".svg", b"<?xml"), (".png", b"\x89PNG")])
def test_the_ending_picks_the_writer(ending: str, start: bytes) -> None:
    stream = io.BytesIO()
    PICTURES[ending].write(Scene(8, 8, "", "", "en", {}, ()), stream)
    assert stream.getvalue().startswith(start)


def test_writers_are_imported_when_needed() -> None:
    code = (
        "import sys, turnchain.writers.formats, turnchain.writers.files, turnchain.drawing.glyphs;"
        "import turnchain.lettering.measuring;"
        "print({'numpy', 'svgwrite', 'fontTools', 'PIL', 'cairosvg', 'isal'} & set(sys.modules))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "set()\n"
