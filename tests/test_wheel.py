"""The wheel, installed where nothing of the sources is, makes the same bytes."""

from __future__ import annotations

import importlib.metadata
import os
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

from test_cli import SMALL, Run, contents

pytestmark = pytest.mark.slow

TOP = Path(__file__).parents[1]
LEAST_SETUPTOOLS = 77  # as pyproject.toml asks


def _can_build_here() -> bool:
    """Whether this environment has what the build needs; otherwise pip fetches it."""
    return int(importlib.metadata.version("setuptools").split(".")[0]) >= LEAST_SETUPTOOLS


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built of a copy, so that the build leaves nothing among the sources."""
    folder = tmp_path_factory.mktemp("wheel")
    copy = folder / "sources"
    copy.mkdir()
    for name in ("README.md", "pyproject.toml", "src", "symbols"):
        subprocess.run(["cp", "-R", TOP / name, copy / name], check=True)
    command = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", folder, copy]
    subprocess.run(command + ["--no-build-isolation"] * _can_build_here(), check=True)
    (built,) = folder.glob("turnchain-*.whl")
    return built


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
    (site / "dependencies.pth").write_text(sysconfig.get_path("purelib") + "\n")
    starter = home / "bin" / "turnchain"
    starter.write_text(f"#!{home / 'bin' / 'python'}\nfrom turnchain.cli import main\nmain()\n")
    starter.chmod(0o755)
    return starter


def test_the_wheel_holds_what_the_program_needs(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    wanted = {
        f"turnchain/{file.relative_to(TOP / 'src' / 'turnchain')}"
        for file in (TOP / "src" / "turnchain").rglob("*")
        if file.is_file() and "__pycache__" not in file.parts
    }
    wanted |= {f"turnchain/symbols/{file.name}" for file in (TOP / "symbols").iterdir() if file.is_file()}
    assert wanted <= names
    assert any(name.endswith("licenses/src/turnchain/fonts/OFL.txt") for name in names)


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
    assert contents(tmp_path / "wheel") == contents(tmp_path / "editable")
    assert len(contents(tmp_path / "wheel")) > 5


def test_the_wheel_begins_a_pattern(program: Path, tmp_path: Path) -> None:
    for words in (["new", "mine.toml"], ["check", "mine.toml"]):
        done = subprocess.run([program, *words], cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
