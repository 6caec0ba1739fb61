"""Warnings of yarns that have (nearly) one colour, held against the rows as worked.

In: worked cloths, the colours of their yarns, and the warnings. Out: what does not agree, in words. How far apart two
colours look is computed by a library (CIEDE2000), which the program itself does not plan with.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final, TypeAlias

from turnchain.proof.cloth.edges import WorkedCloth

#: Of CIEDE2000: two colours that differ by less are told as nearly one.
_NEARLY: Final = 2.0
#: Of two libraries one may round otherwise: so near the bound either is right.
_EITHER: Final = 0.01
_BALL: Final = "give each yarn the colour of its ball"
_ALL: Final = re.compile(
    rf"all (?P<n>\d+) yarns have the colour (?P<colour>#[\da-f]{{6}}): the pictures show no stripes; {_BALL}"
)
_TWO: Final = re.compile(
    r"(?P<names>.+) (?P<how>both have the colour #[\da-f]{6}|are nearly of one colour) and meet in (?P<piece>.+), rows "
    rf"(?P<low>\d+) and (?P<high>\d+): the pictures (?P<shown>do not|hardly) show that stripe; {_BALL}"
)
#: Where two yarns first meet: the piece and the numbers of its two rows.
_Meeting: TypeAlias = tuple[str, int, int]


def told(line: str) -> bool:
    """Whether a warning is about the colours of yarns."""
    return bool(_ALL.fullmatch(line) or _TWO.fullmatch(line))


def lines(cloths: Sequence[WorkedCloth], said: Sequence[str], colours: Mapping[str, str]) -> Iterator[str]:
    """What is wrong in the warnings ``said`` about ``colours`` by the names of yarns, in pieces in their order."""
    alike = len(colours) > 1 and len(set(colours.values())) == 1
    whole = [found for found in map(_ALL.fullmatch, said) if found]
    if len(whole) != alike:
        yield f"{len(set(colours.values()))} colours are given to {len(colours)} yarns, and the warnings do not agree"
    for found in whole if alike else ():
        if (int(found["n"]), found["colour"]) != (len(colours), next(iter(colours.values()))):
            yield f"{found['n']} yarns of {found['colour']} are printed, {len(colours)} given"
    if len({*colours.values()}) > 1:
        yield from _of_two(first_meetings(cloths), [found for found in map(_TWO.fullmatch, said) if found], colours)


def _of_two(
    meetings: Mapping[frozenset[str], _Meeting], said: Sequence[re.Match[str]], colours: Mapping[str, str]
) -> Iterator[str]:
    printed = [(found["names"], (found["piece"], int(found["low"]), int(found["high"]))) for found in said]
    known: set[str] = set()
    for pair, meeting in meetings.items():
        one, other = sorted(pair)
        names = {f"{one} and {other}", f"{other} and {one}"}
        known |= names
        off = apart(colours[one], colours[other])
        there = [where for words, where in printed if words in names]
        if abs(off - _NEARLY) > _EITHER and there != [meeting] * (off < _NEARLY):
            yield f"{one} and {other} differ by {off:.2f} and first meet in {meeting}, which is told as {there}"
    for found in said:
        if found["names"] not in known:
            yield f"{found['names']} are in no rows side by side"
        yield from _same(found, colours)


def _same(found: re.Match[str], colours: Mapping[str, str]) -> Iterator[str]:
    """Whether yarns are said to have one colour, which it is, where they have."""
    one = next((colour for name, colour in colours.items() if found["names"].startswith(f"{name} and ")), "")
    other = next((colour for name, colour in colours.items() if found["names"].endswith(f" and {name}")), "")
    wanted = (f"both have the colour {one}", "do not") if one == other else ("are nearly of one colour", "hardly")
    if (found["how"], found["shown"]) != wanted:
        yield f"{one} and {other} are the colours, and {found['how']} is printed"


def first_meetings(cloths: Sequence[WorkedCloth]) -> dict[frozenset[str], _Meeting]:
    """Where every two yarns first lie one above the other."""
    found: dict[frozenset[str], _Meeting] = {}
    for cloth in cloths:
        for nth, row in enumerate(cloth.rows[1:], start=1):
            on = nth - 1 if cloth.rows[nth - 1].number == row.number - 1 else row.number - 2
            below, yarn = cloth.yarns[on], cloth.yarns[nth]
            if below is not None and yarn is not None and below != yarn:
                found.setdefault(frozenset((below, yarn)), (cloth.name, row.number - 1, row.number))
    return found


def apart(one: str, other: str) -> float:
    """How far apart two colours look, by CIEDE2000."""
    from coloraide import Color  # a quarter of a second: only where two yarns meet

    return float(Color(one).delta_e(Color(other), method="2000"))
