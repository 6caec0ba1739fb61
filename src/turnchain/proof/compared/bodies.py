"""Measures of a wearer's body that the report has from a table, held against the tables as published.

In: lines as printed. Out: how many were looked at, and reasons, in words. The figures were read in the sources a second
time and stand here apart from the program's own: the Craft Yarn Council's tables (second hand), and a published table
of head rounds. Whatever else is told from a table is from memory, and has to say so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final, TypeAlias

from turnchain.proof.printed.lengths import LENGTH, length

_INCH: Final = Fraction(254, 100)
Span: TypeAlias = tuple[Fraction, Fraction]


def _spans(text: str, unit: Fraction) -> list[Span]:
    ends = [[Fraction(one) * unit for one in part.split("-")] for part in text.split()]
    return [(one[0], one[-1]) for one in ends]


def _rows(sizes: str, unit: Fraction, **columns: str) -> dict[str, dict[str, Span]]:
    found = {name: _spans(text, unit) for name, text in columns.items()}
    return {
        size: {name: spans[nth] for name, spans in found.items() if nth < len(spans)}
        for nth, size in enumerate(sizes.split())
    }


#: Published measures of bodies in cm, from the least to the most, by table, size and measure.
PUBLISHED: Final[Mapping[str, Mapping[str, Mapping[str, Span]]]] = {
    "woman": _rows(
        "XS S M L 1X 2X 3X 4X 5X", Fraction(1),
        bust="71-76 81-86 91.5-96.5 101.5-106.5 111.5-117 122-127 132-137 142-147 152-158",
    ),
    "child": _rows(
        "2 4 6 8 10 12 14 16", _INCH, bust="21 23 25 26.5 28",
        cross_back="9.25 9.75 10.25 10.75 11.25 12 12.25 13", upper_arm="7 7.5 8 8.5 8.75 9 9.25 9.5",
        waist_length="8.5 9.5 10.5 12.5 14 15 15.5 16", armhole="4.25 4.75 5 5.5 6 6.5 7 7.5",
        arm="8.5 10.5 11.5 12.5 13.5 15 16 16.5",
    ),
}  # fmt: skip
HEADS: Final[Mapping[str, Span]] = {
    "to 6 months": (14 * _INCH, 17 * _INCH), "6 to 12 months": (16 * _INCH, 19 * _INCH),
    "1 to 3 years": (18 * _INCH, 20 * _INCH), "over 3 years": (20 * _INCH, 22 * _INCH),
    "woman": (21 * _INCH, Fraction("23.5") * _INCH), "man": (22 * _INCH, Fraction("24.5") * _INCH),
}  # fmt: skip
#: How the report calls what it has from a table, and the measure that is.
_CALLED: Final = {
    "a bust of ": "bust", "a waist of ": "waist", "a hip of ": "hip", "a head of ": "head",
    "the waist (": "waist_length", "cross back ": "cross_back", "an upper arm of ": "upper_arm",
    "a body of ": "armhole", "left open ": "armhole", "the wrist (": "neck_to_cuff", "the arm is ": "arm",
}  # fmt: skip
_TOLD: Final = re.compile(
    rf"(?P<called>{'|'.join(map(re.escape, _CALLED))})(?P<least>{LENGTH})(?: to (?P<most>{LENGTH}))?"
    r"(?: below the shoulder)?(?: \(|; )"
    r"(?:head rounds, (?P<head>[^:);]+)|size table, (?P<table>\w+) (?P<size>\w+))(?P<memory>, a figure from memory)?"
)
_CHILD_HIP: Final = re.compile(
    rf"the waist \((?P<waist>{LENGTH})[^()]*\).* the hip \((?P<hip>{LENGTH}); taken as 2 in below the waist"
)


def lines(said: Sequence[str]) -> tuple[int, list[str]]:
    """What is wrong in the measures of bodies that lines about fit and seams have from tables."""
    found = [(line, one) for line in said for one in _TOLD.finditer(line)]
    hips = [(line, one) for line in said for one in _CHILD_HIP.finditer(line)]
    wrong = [f'"{line[:70]}": {reason}' for line, one in found for reason in _differs(one)]
    wrong += [f'"{line[:70]}": the hip is not 2 in below the waist' for line, one in hips if not _two_inches(one)]
    return len(found) + len(hips), wrong


def _differs(told: re.Match[str]) -> Iterator[str]:
    measure = _CALLED[told["called"]]
    span = HEADS.get(told["head"]) if told["head"] else PUBLISHED[told["table"]].get(told["size"], {}).get(measure)
    if (span is None) != bool(told["memory"]):
        yield f"{told[0]} is told as {'from memory' if told['memory'] else 'published'}"
    ends = [length(told["least"]), length(told["most"] or told["least"])]
    if span is not None and not all(end.says(cm) for end, cm in zip(ends, span, strict=True)):
        yield f"{told[0]} is printed, {float(span[0]):.2f} to {float(span[1]):.2f} cm published"


def _two_inches(told: re.Match[str]) -> bool:
    return abs(length(told["hip"]).cm - length(told["waist"]).cm - 2 * _INCH) < Fraction(3, 100)
