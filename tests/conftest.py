"""What all tests share: charts made once, and a way on where the cairo library is missing."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

import random_examples
from design_page import browser, page, pattern_file, server  # noqa: F401  (fixtures of the design page)
from turnchain.cli import cli

random_examples.same_examples()

Charted = Callable[[Path, str, str], Path]


class _Cairoless(ModuleType):
    """Stands in for cairosvg: whatever a test asks of it, the test is skipped and says why."""

    def __getattr__(self, name: str) -> Any:
        def skip(*_: object, **__: object) -> None:
            pytest.skip("the cairo library is not on this machine (Debian: libcairo2)")

        return skip


try:
    import cairosvg  # noqa: F401  (only to see whether it can be)
except OSError:
    if os.environ.get("CI"):
        raise
    sys.modules["cairosvg"] = _Cairoless("cairosvg")


def pytest_configure(config: pytest.Config) -> None:
    """Called by pytest before the tests are imported."""
    random_examples.few_of_many = config.option.markexpr == "not slow"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Called by pytest: marks all cases of a test but those that its mark ``quick`` leaves in the quick set as slow.
    Tests in a browser are slow where they have no such mark."""
    cases: dict[str, list[pytest.Item]] = {}
    for item in items:
        cases.setdefault(item.nodeid.partition("[")[0], []).append(item)
    for some in cases.values():
        for nth, item in enumerate(some):
            mark = item.get_closest_marker("quick")
            kept = mark.args[0] if mark else 0 if "browser" in getattr(item, "fixturenames", ()) else len(some)
            if nth * kept % len(some) >= kept:
                item.add_marker("slow")


@pytest.fixture(scope="session", autouse=True)
def _no_fonts_of_this_machine() -> Iterator[None]:
    """Letters that the shipped fonts lack would be drawn otherwise on every machine: tests give their own fonts."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("turnchain.lettering.machine.paths", lambda writing, character: ())
        yield


@pytest.fixture(scope="session")
def charted(tmp_path_factory: pytest.TempPathFactory) -> Charted:
    """The chart of a piece of a pattern file, as ``turnchain chart --whole`` makes it with this ending; made once."""
    folder = tmp_path_factory.mktemp("charts")
    known: dict[tuple[Path, str], Path] = {}

    def make(file: Path, piece: str, ending: str) -> Path:
        output = known.setdefault((file, piece), folder / f"{len(known)}").with_suffix(ending)
        if not output.exists():
            cli.main(["chart", str(file), "--piece", piece, "--whole", "-o", str(output)], standalone_mode=False)
        return output

    return make
