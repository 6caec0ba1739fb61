"""What is given out: the wheel, installed where nothing of the sources is, and the archive of sources, from which the
same wheel is built."""

from __future__ import annotations

import importlib.metadata
import json
import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from email import message_from_string
from pathlib import Path

import click
import pytest

from test_cli import SMALL, Run, contents

pytestmark = pytest.mark.slow

TOP = Path(__file__).parents[1]
LEAST_SETUPTOOLS = 77  # as pyproject.toml asks


def _can_build_here() -> bool:
    """Whether this environment has what the build needs; otherwise pip fetches it."""
    return int(importlib.metadata.version("setuptools").split(".")[0]) >= LEAST_SETUPTOOLS


@pytest.fixture(scope="module")
def sources(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the sources, so that building leaves nothing among them."""
    copy = tmp_path_factory.mktemp("sources")
    for name in ("README.md", "pyproject.toml", "src", "symbols"):
        subprocess.run(["cp", "-R", TOP / name, copy / name], check=True)
    return copy


def built(sources: Path, folder: Path) -> Path:
    """The wheel of ``sources``, a folder or an archive, built in ``folder``."""
    command = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", folder, sources]
    subprocess.run(command + ["--no-build-isolation"] * _can_build_here(), check=True)
    (wheel,) = folder.glob("turnchain-*.whl")
    return wheel


@pytest.fixture(scope="module")
def wheel(sources: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel."""
    return built(sources, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def archive(sources: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The archive of sources, built as build programs do."""
    folder = tmp_path_factory.mktemp("archive")
    code = f"from setuptools.build_meta import build_sdist; build_sdist({str(folder)!r})"
    subprocess.run([sys.executable, "-c", code], cwd=sources, check=True, capture_output=True)
    (found,) = folder.iterdir()
    return found


@pytest.fixture(scope="module")
def program(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The program in an environment of its own, which sees the packages of this one, but not its turnchain."""
    home = tmp_path_factory.mktemp("environment")
    venv.create(home, with_pip=False, symlinks=True)
    site = next(home.glob("lib/python*/site-packages"))
    command = [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", site, wheel]
    subprocess.run(command, check=True)
    # a path file that comes after: what is found in the environment itself wins, and .pth files in the path are
    # not read, so that the editable install stays out
    packages = {sysconfig.get_path("purelib"), str(Path(click.__file__).parents[1])}
    (site / "dependencies.pth").write_text("\n".join(sorted(packages)) + "\n")
    starter = home / "bin" / "turnchain"
    starter.write_text(f"#!{home / 'bin' / 'python'}\nfrom turnchain.cli import main\nmain()\n")
    starter.chmod(0o755)
    return starter


def test_the_wheel_holds_what_the_program_needs(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    wanted = {
        f"turnchain/{file.relative_to(TOP / 'src' / 'turnchain')}"
        for file in (TOP / "src" / "turnchain").rglob("*")
        if file.is_file() and not {"__pycache__", "compiled"} & set(file.parts)
    }
    wanted |= {f"turnchain/symbols/{file.name}" for file in (TOP / "symbols").iterdir() if file.is_file()}
    assert wanted <= names
    for licence in ("LICENSE", "fonts/OFL.txt", "design/page/vendor/htm.LICENSE.txt"):
        assert any(name.endswith(f"licenses/src/turnchain/{licence}") for name in names), licence


def test_the_wheel_says_what_it_is(wheel: Path) -> None:
    """Its licences are identifiers of the SPDX list; the version is the one that ``--version`` prints."""
    with zipfile.ZipFile(wheel) as packed:
        (name,) = (name for name in packed.namelist() if name.endswith(".dist-info/METADATA"))
        about = message_from_string(packed.read(name).decode("utf-8"))
    assert about["License-Expression"] == "MIT AND OFL-1.1-RFN AND Apache-2.0"
    assert about["Version"] == importlib.metadata.version("turnchain")
    assert about["Description-Content-Type"] == "text/markdown"
    assert any(word.startswith("Programming Language :: Python :: 3.") for word in about.get_all("Classifier", []))


@pytest.mark.skipif(not _can_build_here(), reason="the archive is built without pip, and needs a newer setuptools")
def test_the_archive_of_sources_gives_the_same_wheel(wheel: Path, archive: Path, tmp_path: Path) -> None:
    """Whatever is not in it would be missing there."""
    again = built(archive, tmp_path)
    with zipfile.ZipFile(wheel) as one, zipfile.ZipFile(again) as other:
        assert sorted(one.namelist()) == sorted(other.namelist())
        # in what is compiled stands the folder it was compiled in
        records = {name for name in one.namelist() if name.endswith(("/RECORD", ".so", ".pyd"))}
        assert [name for name in one.namelist() if name not in records and one.read(name) != other.read(name)] == []


def test_the_wheel_makes_the_same_bytes_elsewhere(program: Path, tmp_path: Path) -> None:
    (tmp_path / "small.toml").write_text(SMALL, "utf-8")
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    where = subprocess.run(
        [program.with_name("python"), "-c", "import turnchain; print(turnchain.__file__)"],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=True,
    ).stdout  # fmt: skip
    assert where.startswith(str(program.parents[1])), "not the installed one"
    done = subprocess.run(
        [program, "make", "small.toml", "-o", "wheel"],
        cwd=tmp_path, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert Run("make", "small.toml", "-o", "editable", folder=tmp_path).code == 0
    made = {name: contents(tmp_path / name) for name in ("wheel", "editable")}
    for files in made.values():
        record = json.loads(files.pop(".turnchain.json"))
        assert record.pop("made_of"), "by which program: another where another is installed"
    assert made["wheel"] == made["editable"]
    assert len(made["wheel"]) > 5


def test_the_wheel_begins_a_pattern(program: Path, tmp_path: Path) -> None:
    """The starter runs as it stands, and its own report is clean: it fits, the yarn lasts, nothing is doubtful."""
    for words in (["new", "mine.toml"], ["check", "mine.toml"]):
        done = subprocess.run([program, *words], cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
