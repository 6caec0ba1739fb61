"""Lengths as they are printed: "54.83 cm", "21 in", "21 1/8 in".

In: text. Out: ``Length`` s, and whether one says so many cm. Two decimals at most are printed, so a length says what
rounds to it; where it is told as a tape is read, to half a cm or an eighth of an inch.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Unit = Literal["cm", "in"]

#: cm to a unit; an inch is 2.54 cm by the international agreement of 1959.
_CM = {"cm": Fraction(1), "in": Fraction(254, 100)}
_FIGURE = r"(?:\d+ \d/[248]|\d/[248]|\d+(?:\.\d+)?)"
LENGTH = rf"[−-]?{_FIGURE} (?:cm|in)\b"
_PARTS = re.compile(rf"([−-]?)({_FIGURE}) (cm|in)\b")
#: To what a tape is read.
_TAPE = {"cm": Fraction(1, 2), "in": Fraction(1, 8)}
_HALF_A_HUNDREDTH = Fraction(1, 200)


@dataclass(frozen=True, slots=True)
class Length:
    """``value`` in ``unit``, "cm" or "in", as it is printed."""

    value: Fraction
    unit: str

    @property
    def cm(self) -> Fraction:
        """The same in cm, exact."""
        return self.value * _CM[self.unit]

    @property
    def rounding(self) -> float:
        """By how many cm at most a length printed to two decimals is off."""
        return float(_HALF_A_HUNDREDTH * _CM[self.unit])

    def says(self, cm: Fraction | float, near: float = 0.0) -> bool:
        """Whether it is what ``cm`` rounds to at two decimals of its unit, or within ``near`` cm of that."""
        return abs(float(self.cm) - float(cm)) <= float(_HALF_A_HUNDREDTH * _CM[self.unit]) + near + 1e-6

    def tapes(self, cm: Fraction | float, near: float = 0.0) -> bool:
        """Whether it is ``cm``, within ``near`` cm, to the nearest half cm or eighth of an inch; a length that is no
        such step, or zero, must be exact to two decimals."""
        step = _TAPE[self.unit]
        if self.value % step or not self.value:
            return self.says(cm, near)
        return abs(float(self.cm) - float(cm)) <= float(step * _CM[self.unit]) / 2 + near + 1e-6

    def __str__(self) -> str:
        return f"{float(self.value):g} {self.unit}"


def length(text: str) -> Length:
    """The first length in ``text``; ValueError where there is none."""
    found = _PARTS.search(text)
    if found is None:
        raise ValueError(f'"{text}" is no length')
    sign, digits, unit = found.groups()
    value = sum((Fraction(part) for part in digits.split()), Fraction(0))
    return Length(value * (-1 if sign else 1), unit)


def is_length(text: str) -> bool:
    """Whether ``text`` is a length and nothing else."""
    return _PARTS.fullmatch(text) is not None


def lengths(text: str) -> list[Length]:
    """All lengths in ``text``, in their order."""
    return [length(found) for found in re.findall(LENGTH, text)]


def shown(cm: Fraction | float, unit: str) -> str:
    """``cm`` in ``unit`` ("cm", "in"), to two decimals at most, for messages."""
    return f"{float(cm) / float(_CM[unit]):.2f}".rstrip("0").rstrip(".") + f" {unit}"
