"""Colours that can be told apart: the published pairs, a second library, and what makers are told."""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain import style
from turnchain.fabric.plan import Plan
from turnchain.pattern import Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.wording.tables import speech_of
from turnchain.yarns import colour_checks
from turnchain.yarns.colouring import coloured

QUICK = settings(max_examples=100)

#: Lab one | Lab other | CIEDE2000. Source: Sharma, Wu, Dalal 2005, 34 pairs, as the tests of the registry's
#: colour-science carry them.
SHARMA = """
50 2.6772 -79.7751 | 50 0 -82.7485 | 2.0425
50 3.1571 -77.2803 | 50 0 -82.7485 | 2.8615
50 2.8361 -74.02 | 50 0 -82.7485 | 3.4412
50 -1.3802 -84.2814 | 50 0 -82.7485 | 1.0000
50 -1.1848 -84.8006 | 50 0 -82.7485 | 1.0000
50 -0.9009 -85.5211 | 50 0 -82.7485 | 1.0000
50 0 0 | 50 -1 2 | 2.3669
50 -1 2 | 50 0 0 | 2.3669
50 2.49 -0.001 | 50 -2.49 0.0009 | 7.1792
50 2.49 -0.001 | 50 -2.49 0.001 | 7.1792
50 2.49 -0.001 | 50 -2.49 0.0011 | 7.2195
50 2.49 -0.001 | 50 -2.49 0.0012 | 7.2195
50 -0.001 2.49 | 50 0.0009 -2.49 | 4.8045
50 -0.001 2.49 | 50 0.001 -2.49 | 4.8045
50 -0.001 2.49 | 50 0.0011 -2.49 | 4.7461
50 2.5 0 | 50 0 -2.5 | 4.3065
50 2.5 0 | 73 25 -18 | 27.1492
50 2.5 0 | 61 -5 29 | 22.8977
50 2.5 0 | 56 -27 -3 | 31.9030
50 2.5 0 | 58 24 15 | 19.4535
50 2.5 0 | 50 3.1736 0.5854 | 1.0000
50 2.5 0 | 50 3.2972 0 | 1.0000
50 2.5 0 | 50 1.8634 0.5757 | 1.0000
50 2.5 0 | 50 3.2592 0.335 | 1.0000
60.2574 -34.0099 36.2677 | 60.4626 -34.1751 39.4387 | 1.2644
63.0109 -31.0961 -5.8663 | 62.8187 -29.7946 -4.0864 | 1.2630
61.2901 3.7196 -5.3901 | 61.4292 2.248 -4.962 | 1.8731
35.0831 -44.1164 3.7933 | 35.0232 -40.0716 1.5901 | 1.8645
22.7233 20.0904 -46.694 | 23.0331 14.973 -42.5619 | 2.0373
36.4612 47.858 18.3852 | 36.2715 50.5065 21.2231 | 1.4146
90.8027 -2.0831 1.441 | 91.1528 -1.6435 0.0447 | 1.4441
90.9257 -0.5406 -0.9208 | 88.6381 -0.8985 -0.7239 | 1.5381
6.7747 -0.2908 -2.4247 | 5.8714 -0.0985 -2.2286 | 0.6377
2.0776 0.0795 -1.135 | 0.9033 -0.0636 -0.5514 | 0.9082
"""
#: The 14th pair lies on the border of two branches of the formula, so that the last bit of an arctangent, which
#: machines differ in, decides: the paper has 4.8045, and the other branch gives 4.7461.
FOURTEENTH = (4.8045, 4.7461)


def labs() -> Iterator[tuple[list[float], list[float], float]]:
    for line in SHARMA.strip().splitlines():
        one, other, apart = line.split(" | ")
        yield [float(x) for x in one.split()], [float(x) for x in other.split()], float(apart)


def test_the_published_pairs() -> None:
    found = list(labs())
    assert len(found) == 34
    for number, (one, other, apart) in enumerate(found, 1):
        measured = round(Color("lab-d65", one).delta_e(Color("lab-d65", other), method="2000"), 4)
        assert measured in (FOURTEENTH if number == 14 else (apart,))
    assert found[13][2] == FOURTEENTH[0]


# ------------------------------------------------------------------------------------------------ a second library


@pytest.fixture(scope="module")
def science() -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of plotting libraries that it would like to have
        return pytest.importorskip("colour")


hexes = st.integers(0, 0xFFFFFF).map("#{:06x}".format)


def linear(colour: str) -> Any:
    """Linear RGB by the sRGB standard (IEC 61966-2-1)."""
    channels = np.array([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    return np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)


def lab(science: Any, colour: str) -> Any:
    return science.XYZ_to_Lab(science.sRGB_to_XYZ(np.array([int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])))


@QUICK
@given(hexes, hexes)
def test_differences_and_greys_agree(science: Any, one: str, other: str) -> None:
    """To a hundredth: the two take the white of D65 from tables that differ in the fifth digit."""
    measured = science.delta_E(lab(science, one), lab(science, other), method="CIE 2000")
    assert colour_checks.difference(one, other) == pytest.approx(float(measured), abs=0.01)
    assert colour_checks.lightness(one) == pytest.approx(float(lab(science, one)[0]), abs=0.01)


@QUICK
@given(hexes, st.sampled_from([("protan", "Protanomaly"), ("deutan", "Deuteranomaly"), ("tritan", "Tritanomaly")]))
def test_colour_blind_views_agree(science: Any, colour: str, names: tuple[str, str]) -> None:
    """The matrices of Machado 2009 at full severity, on linear RGB; to one level of 255."""
    ours, theirs = names
    matrix = np.array(science.CVD_MATRICES_MACHADO2010[theirs][1.0])
    seen = np.clip(matrix @ linear(colour), 0, 1)
    coded = np.where(seen <= 0.0031308, 12.92 * seen, 1.055 * seen ** (1 / 2.4) - 0.055)
    text = colour_checks.as_seen(colour, ours)
    assert np.abs([int(text[i : i + 2], 16) for i in (1, 3, 5)] - 255 * coded).max() <= 1


# ------------------------------------------------------------------------------------------------------- the plan


def planned(*colours: str, order: str = "") -> Plan:
    yarns = tuple(Yarn(name, colour) for name, colour in zip("ABCD", colours, strict=False))
    made = Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10)),),
        (Piece("one", width=Fraction(20), length=Fraction(12)),),
        yarns=yarns,
        stripes=Stripes(tuple(order or "ABCD"[: len(colours)]), (2,)),
    )
    return coloured(plan_pattern(made))


def test_only_neighbours_are_compared() -> None:
    plan = planned("#000000", "#808080", "#ffffff", "#010101", order="ABCB")
    assert [(pair.first, pair.second, pair.rows) for pair in colour_checks.pairs(plan)] == [
        ("A", "B", (2, 3)),
        ("B", "C", (4, 5)),
    ]
    assert colour_checks.lines(plan) == []


def test_two_that_are_one_in_the_photograph() -> None:
    plan = planned("#6f8aa3", "#6d89a5")
    (pair,) = colour_checks.pairs(plan)
    assert pair.alike
    first, last = colour_checks.lines(plan)
    assert first == (
        f"A and B (one, rows 2 and 3) are too alike to show a stripe: they differ by {pair.difference:.1f}, where 10 "
        "is clear"
    )
    assert last.startswith("colours as a screen shows them")


def test_red_and_green_of_one_lightness() -> None:
    """The commonest trap: well apart to most, one to a red- or green-blind reader and to a photocopier."""
    (pair,) = colour_checks.pairs(planned("#b5651d", "#6b8e23"))
    assert not pair.alike
    assert pair.difference > 30
    assert "green-blind" in pair.alike_to
    assert "blue-blind" not in pair.alike_to
    assert pair.alike_in_grey
    told = colour_checks.lines(planned("#b5651d", "#6b8e23"))
    assert told[0].endswith("readers; the letters tell them apart")
    assert told[1].endswith("come out as one grey in a photocopy; the letters tell them apart")


def test_grey_keeps_lightness_alone() -> None:
    pair = colour_checks.pairs(planned("#777777", "#777777"))[0]
    assert (pair.difference, pair.grey) == (0, 0)
    assert colour_checks.lightness("#ffffff") == pytest.approx(100, abs=1e-6)
    assert colour_checks.lightness("#000000") == pytest.approx(0, abs=1e-6)


@QUICK
@given(hexes)
def test_ink_can_be_read_on_every_stripe(colour: str) -> None:
    (ink, _) = colour_checks.inks(planned(colour, "#000000"))
    assert ink.legible
    assert ink.contrast >= 4.5


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21),
        ("#767676", "#ffffff", 4.54),
        ("#ff0000", "#ffffff", 4.0),
        ("#0000ff", "#ff0000", 2.15),
    ],
)
def test_contrasts(one: str, other: str, ratio: float) -> None:
    """Source: W3C, the formula read, the ratios ours; and as coloraide has them."""
    assert round(style.contrast(one, other), 2) == ratio
    assert Color(one).contrast(other) == pytest.approx(style.contrast(one, other), abs=0.01)


def test_an_ink_that_cannot_be_read_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(style, "ink_on", lambda colour: "#777777")
    told = colour_checks.lines(planned("#000000", "#808080"))
    assert "symbols on B are hard to read: 1.1 to 1, where 4.5 is needed" in told


def test_a_pattern_without_yarns_has_nothing_to_compare() -> None:
    plan = planned("#000000", "#ffffff")
    bare = replace(plan.pattern, yarns=(), stripes=None)
    assert colour_checks.lines(coloured(plan_pattern(bare))) == []


def test_readers_are_told_in_one_line() -> None:
    told = [colour_checks._and(words) for words in (("a",), ("a", "b"), ("a", "b", "c"))]
    assert told == ["a", "a and b", "a, b and c"]


@pytest.mark.parametrize(
    "colours",
    [("#000000", "#ffffff", "#000000"), ("#6f8aa3", "#6d89a5"), ("#b5651d", "#6b8e23"),
     ("#b5651d", "#6b8e23", "#ffffff"), ("#777777", "#8f8f8f", "#777776"),
     ("#c04040", "#40a040", "#4060c0", "#404040"), ("#d08080", "#80a0d0")],
)  # fmt: skip
def test_a_choice_of_orders_tells_what_the_report_tells(colours: tuple[str, ...]) -> None:
    """Of the same yarns, one line for another; the advice to look by daylight is the report's alone."""
    plan = planned(*colours)
    report, told = colour_checks.lines(plan), colour_checks.told(plan, speech_of(plan.pattern))
    assert len(told) == len(report[:-1])
    for here, there in zip(report, told, strict=False):
        for words in ("too alike to show", "in a photocopy", "hard to read", "red-blind", "green-blind", "blue-blind"):
            assert (words in here) is (words in there)
        assert here.split(" (")[0] == there.split(" (")[0]
