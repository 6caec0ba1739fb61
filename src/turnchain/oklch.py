"""Colours by lightness, chroma and hue as they are seen (OKLCH).

In: "#rrggbb" (sRGB). Out: (lightness 0 to 1, chroma from 0, hue in radians), and back. The matrices are Björn
Ottosson's (2020), as CSS Color 4 prints them; the tests compare with coloraide, which takes a quarter of a second to
import and is therefore left to reports.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache
from typing import TypeAlias

Lch: TypeAlias = tuple[float, float, float]
Triple: TypeAlias = tuple[float, float, float]

TO_LMS = (
    (0.4122214708, 0.5363325363, 0.0514459929),
    (0.2119034982, 0.6806995451, 0.1073969566),
    (0.0883024619, 0.2817188376, 0.6299787005),
)
TO_LAB = (
    (0.2104542553, 0.7936177850, -0.0040720468),
    (1.9779984951, -2.4285922050, 0.4505937099),
    (0.0259040371, 0.7827717662, -0.8086757660),
)
_FROM_LAB = (
    (1.0, 0.3963377774, 0.2158037573),
    (1.0, -0.1055613458, -0.0638541728),
    (1.0, -0.0894841775, -1.2914855480),
)
_FROM_LMS = (
    (4.0767416621, -3.3077115913, 0.2309699292),
    (-1.2684380046, 2.6097574011, -0.3413193965),
    (-0.0041960863, -0.7034186147, 1.7076147010),
)
_STEPS = 14  # halvings of the chroma that still fits sRGB: below a thousandth of a level


def linear(colour: str) -> Triple:
    """Red, green and blue of "#rrggbb" in linear light, 0 to 1 (IEC 61966-2-1)."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return red, green, blue


def encoded(light: Triple) -> str:
    """The "#rrggbb" of linear red, green and blue; what lies outside 0 to 1 is clipped."""
    inside = (min(1.0, max(0.0, c)) for c in light)
    levels = (12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in inside)
    return "#" + "".join(f"{round(255 * level):02x}" for level in levels)


@cache
def of(colour: str) -> Lch:
    """Lightness (0 to 1), chroma (from 0) and hue (radians, -pi to pi) of "#rrggbb"."""
    lms = _times(TO_LMS, linear(colour))
    lightness, a, b = _times(TO_LAB, _each(math.cbrt, lms))
    return lightness, math.hypot(a, b), math.atan2(b, a)


@cache
def colour_of(lightness: float, chroma: float, hue: float) -> str:
    """The "#rrggbb" of a lightness (held within 0 to 1) and a hue (radians), with as much of the ``chroma`` as sRGB can
    show."""
    lightness = min(1.0, max(0.0, lightness))
    low, high = 0.0, chroma
    if _shown(_light(lightness, chroma, hue)):
        low = chroma
    else:
        for _ in range(_STEPS):
            middle = (low + high) / 2
            low, high = (middle, high) if _shown(_light(lightness, middle, hue)) else (low, middle)
    return encoded(_light(lightness, low, hue))


def colour_of_lab(lightness: float, a: float, b: float) -> str:
    """The "#rrggbb" of a lightness (held within 0 to 1), ``a`` and ``b`` in OKLab, at the same hue with as much of
    their chroma as sRGB can show."""
    return colour_of(lightness, math.hypot(a, b), math.atan2(b, a))


def lighter(colour: str, by: float) -> str:
    """``colour`` ("#rrggbb") with its lightness raised ``by`` a share of that from black to white (lowered where
    negative), within 0 to 1."""
    lightness, chroma, hue = of(colour)
    return colour_of(lightness + by, chroma, hue)


def _light(lightness: float, chroma: float, hue: float) -> Triple:
    lms = _times(_FROM_LAB, (lightness, chroma * math.cos(hue), chroma * math.sin(hue)))
    return _times(_FROM_LMS, _each(lambda c: c**3, lms))


def _shown(light: Triple) -> bool:
    """Whether sRGB has the colour, but for rounding."""
    return min(light) >= -1e-4 and max(light) <= 1 + 1e-4


def _times(rows: tuple[Triple, Triple, Triple], column: Triple) -> Triple:
    x, y, z = column
    (a, b, c), (d, e, f), (g, h, i) = rows
    return math.fsum((a * x, b * y, c * z)), math.fsum((d * x, e * y, f * z)), math.fsum((g * x, h * y, i * z))


def _each(change: Callable[[float], float], column: Triple) -> Triple:
    return change(column[0]), change(column[1]), change(column[2])
