"""Colours by lightness, chroma and hue: against coloraide, an independent library."""

from __future__ import annotations

import math

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from turnchain import oklch

colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


@given(colours)
def test_lightness_chroma_and_hue_are_those_of_coloraide(colour: str) -> None:
    lightness, chroma, hue = oklch.of(colour)
    other = Color(colour).convert("oklab")
    assert lightness == pytest.approx(other["lightness"], abs=2e-4)
    assert chroma * math.cos(hue) == pytest.approx(other["a"], abs=2e-4)
    assert chroma * math.sin(hue) == pytest.approx(other["b"], abs=2e-4)


@given(colours)
def test_there_and_back_is_the_same_colour(colour: str) -> None:
    assert oklch.colour_of(*oklch.of(colour)) == colour


@given(colours, st.floats(0.15, 1.0))
def test_a_lighter_colour_keeps_its_hue_and_has_the_lightness_asked_for(colour: str, lightness: float) -> None:
    _, chroma, hue = oklch.of(colour)
    found = Color(oklch.colour_of(lightness, chroma, hue)).convert("oklch")
    assert found["lightness"] == pytest.approx(lightness, abs=0.006)
    if found["chroma"] > 0.04:
        turn = math.remainder(math.radians(found["hue"]) - hue, math.tau)
        assert abs(turn) < 0.12
