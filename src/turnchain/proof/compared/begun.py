"""What the report says of a piece begun: what its worked rows measure, and what it would have come to.

In: the worked piece, the tape of the swatches, lines as printed, and the piece worked as planned by the swatch. Out:
reasons, in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.cloth.tape import Tape
from turnchain.proof.compared.measures import AskedMeasures, differing
from turnchain.proof.printed.lengths import LENGTH, Length, length, shown

_WORKED = re.compile(
    rf"(?P<rows>\d+) rows? worked: a row is (?P<row>{LENGTH}) \((?P<row_off>[+−][\d.]+) % from the swatch\), "
    rf"a \w+ (?P<pitch>{LENGTH}) \((?P<pitch_off>[+−][\d.]+) %\)"
)
_CAME = re.compile(r"as planned by the swatch, with (?P<rows>\d+) rows, it would come to (?P<measures>.*)")
_STANDS = {"the rest is planned again": True, "the plan stands: go on as written": False}


def measured(cloth: WorkedCloth, worked: int, swatch: Tape, lines: Sequence[str]) -> Iterator[str]:
    """What is wrong in the first of the lines; ``worked``: how many rows are."""
    found = next((one for line in lines if (one := _WORKED.fullmatch(line))), None)
    if found is None:
        yield f"{cloth.name}: nothing is said of the rows worked"
        return
    if int(found["rows"]) != worked:
        yield f"{cloth.name}: {found['rows']} rows are printed, {worked} worked"
    for key, cm, usual in (("row", cloth.tape.row, swatch.row), ("pitch", 2 * cloth.tape.half, 2 * swatch.half)):
        if not length(found[key]).says(cm):
            yield f"{cloth.name}: {found[key]} is printed of a {key}, {shown(cm, length(found[key]).unit)} measured"
        off = float(found[f"{key}_off"].replace("−", "-"))
        if abs(off - 100 * (float(cm / usual) - 1)) > 0.051:
            yield f"{cloth.name}: {off:+} % is printed of a {key}, {100 * (float(cm / usual) - 1):+.2f} % measured"


def as_planned(cloth: WorkedCloth, before: WorkedCloth, asked: AskedMeasures, lines: Sequence[str]) -> Iterator[str]:
    """What is wrong in the others: ``before`` is the piece as planned by the swatch, which comes to that by the tape of
    the rows worked."""
    found = next((one for line in lines if (one := _CAME.fullmatch(line))), None)
    if found is None:
        yield f"{cloth.name}: nothing is said of what it would have come to"
        return
    if int(found["rows"]) != before.high:
        yield f"{cloth.name}: {found['rows']} rows as planned are printed, {before.high} worked"
    told = list(_measures(found["measures"]))
    yield from differing(replace(before, tape=cloth.tape), asked, told)
    if len(told) != found["measures"].count(", ") + 1:
        yield f'{cloth.name}: "{found["measures"]}" cannot be read'
    changed = _places(cloth) != _places(before)
    if not any(_STANDS.get(line) is changed for line in lines):
        yield f"{cloth.name}: whether the rest is planned again is told otherwise"


def keeps_its_yarns(cloth: WorkedCloth, before: WorkedCloth, worked: int) -> Iterator[str]:
    """Whether the rows worked are in the yarns of the plan that they were worked by, ``before``."""
    pairs = zip(cloth.yarns[:worked], before.yarns[:worked], strict=True)
    off = [row for row, (now, then) in enumerate(pairs, start=1) if now != then]
    if off:
        yield f"{cloth.name}: row {off[0]} of those worked is in {before.yarns[off[0] - 1]}, and now in another yarn"


def _measures(words: str) -> Iterator[tuple[str, Length]]:
    for part in words.split(", "):
        if one := re.fullmatch(rf"(.+?) ({LENGTH})", part):
            yield one[1], length(one[2])


def _places(cloth: WorkedCloth) -> list[tuple[int, int, int]]:
    return [(row.number, row.left.at, row.right.at) for row in cloth.rows]
