"""The same examples every time: whatever was imported before, and whatever is in the cache of hypothesis. Fresh ones
where a fresh profile asks for them."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st


def drawn() -> list[object]:
    """What a random test is given, example for example."""
    given_to_it: list[object] = []

    @settings(max_examples=200)
    @given(st.integers(), st.text(max_size=9), st.floats())
    def keeps(number: int, word: str, size: float) -> None:
        given_to_it.append((number, word, repr(size)))

    keeps()
    return given_to_it


def test_a_module_that_is_loaded_changes_no_examples(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = drawn()
    odd = tmp_path / "odd.py"
    odd.write_text(f"KNOWN = {list(range(70_001, 70_501))}\nWORDS = {[f'word{nth}' for nth in range(400)]}\n")
    spec = importlib.util.spec_from_file_location("odd", odd)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    monkeypatch.setitem(sys.modules, "odd", module)
    spec.loader.exec_module(module)
    assert drawn() == before


@pytest.mark.parametrize(("profile", "alike"), [("same", True), ("mutants", True), ("fresh", False)])
def test_profiles(profile: str, alike: bool) -> None:
    now = settings.get_current_profile_name()
    settings.load_profile(profile)
    try:
        assert settings().deadline is None
        assert (drawn() == drawn()) is alike
    finally:
        settings.load_profile(now)
