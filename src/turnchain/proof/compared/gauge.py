"""The lines of the report about gauge and about how far measures and edges are off, held against the tape.

In: a ``Tape`` or a worked piece, and lines as printed. Out: reasons, in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.cloth.tape import Reading, Tape
from turnchain.proof.printed.lengths import LENGTH, length, shown
from turnchain.proof.printed.report import PrintedMeasure

#: Over what a gauge is told in each unit, in cm.
_OVER = {"10 cm": Fraction(10), "4 in": 4 * Fraction(254, 100)}
_GAUGE = re.compile(r"([\d.]+) (?:cluster|repeat)s and ([\d.]+) rows to (10 cm|4 in)")


#: What the report calls the stitches of solid rows, and their US names.
_STITCHES = {
    "US": {"sc": "sc", "hdc": "hdc", "dc": "dc", "tr": "tr"},
    "UK": {"dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr"},
}


def gauge(tape: Tape, words: str) -> Iterator[str]:
    """What is wrong in a line about the gauge, of the report or of the written pattern."""
    found = _GAUGE.search(words)
    if found is None:
        yield f'no gauge can be read in "{words[:60]}"'
        return
    over = _OVER[found[3]]
    for printed, cm, what in ((found[1], 2 * tape.half, "clusters"), (found[2], tape.row, "rows")):
        if abs(float(printed) - float(over / cm)) > 0.0501:
            yield f"{printed} {what} to {found[3]} are printed, {float(over / cm):.2f} counted"
    for printed, cm in re.findall(rf"({LENGTH}) (wide|high)", words):
        wanted = 2 * tape.half if cm == "wide" else tape.row
        if not length(printed).says(wanted):
            yield f"{printed} {cm} is printed, {shown(wanted, length(printed).unit)} measured"


def kinds(tape: Tape, terms: str, words: str) -> Iterator[str]:
    """What is wrong in the line about the heights of rows of several kinds; ``terms`` are those it is told in."""
    printed = re.findall(rf"rows of (\w+) ({LENGTH}) high", words)
    named = {"clusters": "cluster"} | _STITCHES[terms]
    if {named.get(name) for name, _ in printed} != {kind for kind, _ in tape.kinds}:
        yield f'"{words[:60]}" is printed for rows of {", ".join(kind for kind, _ in tape.kinds)}'
        return
    for name, long in printed:
        cm = tape.high(named[name])
        if not length(long).says(cm):
            yield f"rows of {name} {long} high are printed, {shown(cm, length(long).unit)} measured"


def readings(cloth: WorkedCloth, clusters: Sequence[Reading], rows: Sequence[Reading], words: str) -> Iterator[str]:
    """What is wrong in the line "by each gauge reading alone, A to B across the rows at the widest, C to D over all
    rows"; the readings are those of the swatches."""
    widest = max(row.right.at - row.left.at for row in cloth.rows)
    across = sorted(Fraction(widest, 2) * cm / count for count, cm in clusters if count and cm)
    along = sorted(cloth.tops[-1] / cloth.tape.row * cm / count for count, cm in rows if count and cm)
    wanted = [across[0], across[-1], along[0], along[-1]]
    printed = re.findall(LENGTH, words)
    for one, cm in zip(printed, wanted, strict=False):
        if not length(one).says(cm):
            yield f"{cloth.name}: {one} is printed, {shown(cm, length(one).unit)} by a reading alone"
    if len(printed) != len(wanted):
        yield f'{cloth.name}: no range can be read in "{words[:80]}"'


def per_cent(name: str, said: PrintedMeasure, words: str) -> Iterator[str]:
    """What is wrong in the per cent at the end of a line of a piece's table; the lengths beside it are rounded."""
    found = re.search(r"([+−])(\d+\.\d) %$", words)
    if found is None:
        if said.off is not None and said.wanted.value:
            yield f'{name}: {said.name}: no per cent in "{words}"'
        return
    wanted, worked = float(said.wanted.value), float(said.worked.value)
    near = 0.051 + 100 * (0.006 + 0.006 * worked / wanted) / wanted
    printed = float(found[2]) * (-1 if found[1] == "−" else 1)
    if abs(printed - 100 * (worked / wanted - 1)) > near:
        yield f"{name}: {said.name}: {found[0]} is printed for {said.worked} and {said.wanted}"
