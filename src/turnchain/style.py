"""How turnchain's pictures look: colours, sizes and weights, in one place.

In: nothing. Out: constants, and the choice of an ink that can be read on a stripe. Sizes are in px of a picture
1600 px wide and scale with its width.
"""

from __future__ import annotations

from functools import lru_cache

from turnchain.records import frozen

INK_DARK = "#221d18"
INK_LIGHT = "#ffffff"
INK_FULL = "#000000"
LEAST_CONTRAST = 4.5  # for text, WCAG 2
PLAIN_STRIPE = "#f4efe6"  # rows of a pattern that names no yarn


@frozen
class Theme:
    """The colours of a page: ``paper``, ``ink``, ``soft`` secondary words, ``hair`` lines, ``accent`` for shaping on
    the paper and ``shaping`` for its line on the cloth; all "#rrggbb"."""

    paper: str
    ink: str
    soft: str
    hair: str
    accent: str
    shaping: str


# Words reach 4.5 to 1 on their paper, marks and lines that matter 3 to 1 (WCAG 2).
LIGHT = Theme(paper="#ffffff", ink=INK_DARK, soft="#6b6258", hair="#cfc7bb", accent="#931229", shaping="#931229")
DARK = Theme(paper="#1d1a17", ink="#f3eee6", soft="#b5aa9c", hair="#57504a", accent="#ff8a80", shaping="#931229")
MONO = Theme(paper="#ffffff", ink="#000000", soft="#4a4a4a", hair="#bbbbbb", accent="#000000", shaping="#000000")

REFERENCE_WIDTH = 1600  # px of the picture for which sizes are given
#: Height of a row over a pitch: as the gauge has it, held within what keeps fans of 2 to 4 readable.
LEAST_PROPORTION, MOST_PROPORTION = 0.55, 0.80
LARGEST_HALF_PITCH = 45  # px at the reference width: a fan is at most 90 px wide
LEAST_HALF_PITCH = 3  # px: below it three stems in one space run together


@lru_cache(4096)
def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1, of "#rrggbb" (W3C, WCAG 2)."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21, of two colours "#rrggbb", in any order (W3C, WCAG 2)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def ink_on(colour: str) -> str:
    """The ink that can be read on ``colour``, at 4.5 to 1 or better.

    The soft black of the page where it is strong enough, or white; for the few middle tones where neither is,
    full black (black or white always reaches 4.58).
    """
    best = max((INK_DARK, INK_LIGHT), key=lambda ink: contrast(ink, colour))
    return best if contrast(best, colour) >= LEAST_CONTRAST else INK_FULL


def mixed(one: str, other: str, share: float) -> str:
    """A colour between two, all "#rrggbb", with ``share`` (0 to 1) of ``one``; mixed in the values of sRGB as they are
    written."""
    parts = (
        round(int(one[i : i + 2], 16) * share + int(other[i : i + 2], 16) * (1 - share)) for i in (1, 3, 5)
    )
    return "#" + "".join(f"{part:02x}" for part in parts)


def letter(index: int) -> str:
    """The letter of the yarn at ``index`` (from 0): A to Z, then AA, AB ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
