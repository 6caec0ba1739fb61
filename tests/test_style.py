"""Colours: contrast as the W3C reckons it, and inks and letters that follow."""

from __future__ import annotations

from itertools import product

import pytest

from turnchain import style

# Source of the formula: W3C, Web Content Accessibility Guidelines 2.1, "relative luminance" and "contrast ratio".
# The first is that text's own example of the range; the others are worked from its formula.
WCAG = [
    ("#000000", "#ffffff", 21.0),
    ("#767676", "#ffffff", 4.54),
    ("#ff0000", "#ffffff", 4.00),
    ("#0000ff", "#ff0000", 2.15),
    ("#336699", "#336699", 1.0),
]


@pytest.mark.parametrize(("one", "other", "ratio"), WCAG)
def test_contrast_is_that_of_the_w3c(one: str, other: str, ratio: float) -> None:
    assert style.contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert style.contrast(other, one) == style.contrast(one, other)


def test_luminance_runs_from_black_to_white() -> None:
    assert style.luminance("#000000") == 0
    assert style.luminance("#ffffff") == pytest.approx(1)
    # the weights of the three lights, W3C as above
    assert [round(style.luminance(light), 4) for light in ("#ff0000", "#00ff00", "#0000ff")] == [0.2126, 0.7152, 0.0722]


def test_some_ink_can_be_read_on_every_colour() -> None:
    # 4.5 to 1: W3C, success criterion 1.4.3, for text
    for red, green, blue in product(range(0, 256, 15), repeat=3):
        colour = f"#{red:02x}{green:02x}{blue:02x}"
        assert style.contrast(style.ink_on(colour), colour) >= 4.5, colour


THEMES = [theme for theme in vars(style).values() if isinstance(theme, style.Theme)]


@pytest.mark.parametrize("theme", THEMES)
def test_words_and_marks_can_be_seen_on_their_paper(theme: style.Theme) -> None:
    # 4.5 to 1 for words, 3 to 1 for graphics that matter: W3C, success criteria 1.4.3 and 1.4.11
    assert style.contrast(theme.ink, theme.paper) >= 4.5
    assert style.contrast(theme.soft, theme.paper) >= 4.5
    assert style.contrast(theme.accent, theme.paper) >= 3


def test_letters_go_on_after_z() -> None:
    assert [style.letter(nth) for nth in (0, 1, 25, 26, 27, 51, 52, 701, 702)] == [
        "A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip
    assert len({style.letter(nth) for nth in range(1000)}) == 1000
