"""Lengths as they are printed: "54.83 cm", "21 in".

In: text. Out: ``Length`` s, and whether one says so many cm. Two decimals at most are printed, so a length says what
rounds to it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Unit = Literal["cm", "in"]

#: cm to a unit; an inch is 2.54 cm by the international agreement of 1959.
_CM = {"cm": Fraction(1), "in": Fraction(254, 100)}
LENGTH = r"[−-]?\d+(?:\.\d+)? (?:cm|in)\b"
_PARTS = re.compile(r"([−-]?)(\d+(?:\.\d+)?) (cm|in)\b")
_HALF_A_HUNDREDTH = Fraction(1, 200)


@dataclass(frozen=True, slots=True)
class Length:
    """``value`` in ``unit``."""

    value: Fraction
    unit: str

    @property
    def cm(self) -> Fraction:
        """It in cm."""
        return self.value * _CM[self.unit]

    def says(self, cm: Fraction | float, near: float = 0.0) -> bool:
        """Whether it is ``cm`` to two decimals of its unit, or within ``near`` cm of that."""
        return abs(float(self.cm) - float(cm)) <= float(_HALF_A_HUNDREDTH * _CM[self.unit]) + near + 1e-6

    def __str__(self) -> str:
        return f"{float(self.value):g} {self.unit}"


def length(text: str) -> Length:
    """The only length in ``text``; ValueError where there is none."""
    found = _PARTS.search(text)
    if found is None:
        raise ValueError(f'"{text}" is no length')
    sign, digits, unit = found.groups()
    return Length(Fraction(digits) * (-1 if sign else 1), unit)


def is_length(text: str) -> bool:
    """Whether ``text`` is a length and nothing else."""
    return _PARTS.fullmatch(text) is not None


def lengths(text: str) -> list[Length]:
    """All lengths in ``text``, in their order."""
    return [length(found) for found in re.findall(LENGTH, text)]


def shown(cm: Fraction | float, unit: str) -> str:
    """``cm`` as it would be printed, for messages."""
    return f"{float(cm) / float(_CM[unit]):.2f}".rstrip("0").rstrip(".") + f" {unit}"
