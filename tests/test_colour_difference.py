"""How far apart colours look, against coloraide and colour-science, which share nothing with the code here."""

from __future__ import annotations

import random

import pytest
from coloraide import Color

from turnchain import colour_difference

# Sharma, Wu and Dalal (2005), table 1, as colour-science's own tests carry it: pairs that find the usual slips.
PUBLISHED = [
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
]


def colours(count: int) -> list[str]:
    chance = random.Random(20)
    return [f"#{chance.randrange(1 << 24):06x}" for _ in range(count)]


@pytest.mark.parametrize(("one", "other", "apart"), PUBLISHED)
def test_ciede2000_as_published(
    one: tuple[float, float, float], other: tuple[float, float, float], apart: float
) -> None:
    assert colour_difference.difference_of_labs(one, other) == pytest.approx(apart, abs=0.0001)
    assert colour_difference.difference_of_labs(other, one) == pytest.approx(apart, abs=0.0001)


def test_ciede2000_as_another_library_has_it() -> None:
    names = colours(600)
    pairs = list(zip(names[::2], names[1::2], strict=True))
    off = [
        abs(colour_difference.difference(one, other) - Color(one).delta_e(Color(other), method="2000"))
        for one, other in pairs
    ]
    # opposite hues meet at a jump in the formula itself
    assert sorted(off)[-4] < 0.01


@pytest.mark.filterwarnings("ignore")
def test_ciede2000_agrees_with_colour_science() -> None:
    colour = pytest.importorskip("colour")
    chance = random.Random(5)
    for _ in range(300):
        one, other = (
            (chance.uniform(0, 100), chance.uniform(-100, 100), chance.uniform(-100, 100)) for _ in range(2)
        )
        assert colour_difference.difference_of_labs(one, other) == pytest.approx(
            float(colour.delta_E(one, other, method="CIE 2000")), abs=1e-9
        )
