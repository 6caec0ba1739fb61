"""How far apart two colours look: CIEDE2000.

In: colours "#rrggbb". Out: numbers. Written here because a library for it takes a quarter of a second to load, longer
than a chart takes to draw; the tests hold it against two such libraries.

Source: Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula" (2005); CIE L*a*b* by CIE 15; white D65.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TypeAlias

from turnchain import oklch

Lab: TypeAlias = tuple[float, float, float]

_WHITE = (0.3127 / 0.3290, 1.0, 0.3583 / 0.3290)  # D65 by its chromaticity, 2 degrees
_TO_XYZ = (
    (0.4123907992659593, 0.357584339383878, 0.1804807884018343),
    (0.21263900587151024, 0.715168678767756, 0.07219231536073371),
    (0.01933081871559182, 0.11919477979462598, 0.9505321522496607),
)


@lru_cache(maxsize=4096)
def lab(colour: str) -> Lab:
    """CIE L*, a*, b* of ``colour`` (D65)."""
    light = oklch.linear(colour)
    xyz = (sum(part * one for part, one in zip(row, light, strict=True)) for row in _TO_XYZ)
    x, y, z = (_lab_share(one / white) for one, white in zip(xyz, _WHITE, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def difference(one: str, other: str) -> float:
    """CIEDE2000 between two colours "#rrggbb": about 1 is just seen side by side."""
    return difference_of_labs(lab(one), lab(other))


def difference_of_labs(one: Lab, other: Lab) -> float:
    """CIEDE2000 between two colours given as CIE L*, a*, b*."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2
    stretch = 1 + 0.5 * (1 - math.sqrt(mean**7 / (mean**7 + 25.0**7)))
    c1, c2 = math.hypot(stretch * a1, b1), math.hypot(stretch * a2, b2)
    h1, h2 = _degrees(b1, stretch * a1), _degrees(b2, stretch * a2)
    grey = c1 * c2 == 0
    turn = 0.0 if grey else (h2 - h1 + 180) % 360 - 180
    hue = h1 + h2 if grey else _mean_hue(h1, h2)
    light, chroma = (l1 + l2) / 2, (c1 + c2) / 2
    by_hue = (
        1
        - 0.17 * _cosine(hue - 30)
        + 0.24 * _cosine(2 * hue)
        + 0.32 * _cosine(3 * hue + 6)
        - 0.20 * _cosine(4 * hue - 63)
    )
    dl = (l2 - l1) / (1 + 0.015 * (light - 50) ** 2 / math.sqrt(20 + (light - 50) ** 2))
    dc = (c2 - c1) / (1 + 0.045 * chroma)
    dh = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2)) / (1 + 0.015 * chroma * by_hue)
    spread = math.radians(60 * math.exp(-(((hue - 275) / 25) ** 2)))
    twist = -2 * math.sqrt(chroma**7 / (chroma**7 + 25.0**7)) * math.sin(spread)
    return math.sqrt(max(0.0, dl * dl + dc * dc + dh * dh + twist * dc * dh))


def _mean_hue(one: float, other: float) -> float:
    if abs(one - other) <= 180:
        return (one + other) / 2
    return (one + other + (360 if one + other < 360 else -360)) / 2


def _cosine(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _degrees(y: float, x: float) -> float:
    return math.degrees(math.atan2(y, x)) % 360 if x or y else 0.0


def _lab_share(share: float) -> float:
    return math.cbrt(share) if share > 216 / 24389 else (24389 / 27 * share + 16) / 116
