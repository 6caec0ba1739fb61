"""Numbers as every file shows them: at most two decimals, no exponent, no minus zero.

In: floats in px. Out: the same floats rounded, or as text. A hundredth of a px is finer than any screen or
printer shows, and keeps files short and alike on every machine.
"""

from __future__ import annotations

import math
from functools import lru_cache


def rounded(value: float) -> float:
    """``value`` (of any unit) to two decimals, never minus zero."""
    return round(value, 2) + 0.0


def nearest(parts: int, whole: int) -> int:
    """``parts`` divided by ``whole`` (above 0) to the nearest whole number, halfway to the even one, exactly: as Python
    rounds fractions, six times as fast."""
    found, left = divmod(parts, whole)
    return found + (2 * left > whole or (2 * left == whole and found % 2))


def counted(count: int, noun: str) -> str:
    """ "1 row", "2 rows": for English nouns whose plural is made with an s."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def ordinal(number: int) -> str:
    """ "1st", "2nd", "3rd", "11th", in English."""
    teen = number % 100 in (11, 12, 13)
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"


@lru_cache(1 << 13)  # a chart writes few numbers, most of them often
def decimal(value: float) -> str:
    """``value`` to two decimals as text, without trailing zeros; ValueError unless it is a finite number."""
    if not math.isfinite(value):
        raise ValueError(f"{value} has no place in a picture")
    words = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words
