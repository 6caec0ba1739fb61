"""Existing pattern files keep their meaning: what is made of some hundreds of files is what was made of them before.

The files are in ``kept_results.patterns``, the digests in ``kept_results/kept.txt``. These are no source: a wanted
change is kept by ``python -m tests.kept_results --write``, which tells which parts of which files it concerns.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kept_results import results
from kept_results.patterns import patterns


@pytest.mark.quick(110)
@pytest.mark.parametrize("name", patterns())
def test_a_file_is_planned_and_told_as_it_was(name: str) -> None:
    _hold(name, results.told(name), lambda part: part in results.TOLD)


@pytest.mark.quick(18)
@pytest.mark.parametrize("name", [name for name, of in results.kept().items() if "schematic" in of])
def test_a_file_is_drawn_as_it_was(name: str) -> None:
    _hold(name, results.drawn(name), lambda part: part not in results.TOLD)


def _hold(name: str, made: dict[str, str], wanted: Callable[[str], bool]) -> None:
    kept = {part: digest for part, digest in results.kept().get(name, {}).items() if wanted(part)}
    other = [*results.changed(name, results.digests(made), kept)]
    assert not other, f"python -m tests.kept_results --show {name!r} FOLDER, here and in the program before, shows it"


def test_each_file_is_kept_and_no_other() -> None:
    assert list(results.kept()) == list(patterns()), "python -m tests.kept_results --write"


def test_no_two_files_are_alike() -> None:
    texts = [text() for text in patterns().values()]
    assert len({*texts}) == len(texts)
