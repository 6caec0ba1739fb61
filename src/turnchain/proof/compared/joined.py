"""The first stitches of sleeves that are begun along armholes, as told, held against the cloth.

In: the worked pieces, the lines about seams, and the seams read from them. Out: reasons, in words: stitches that are
not those of the sleeve's first row, row ends that the armholes do not have, or a way of spreading that comes to others.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.captions import base
from turnchain.proof.printed.report import SeamSaid

_LINE = re.compile(
    r"(?P<name>.+): work (?P<stitches>\d+) \w+ along each armhole of (?P<rows>\d+) row ends: (?P<each>\d+) in each"
    r"(?:, and once, about the middle, (?P<once>\d+)|, at every (?P<every>\d+)\w\w (?P<other>\d+), "
    r"(?P<times>\d+) times in all)?"
)


def lines(said: Sequence[str]) -> list[re.Match[str]]:
    """The lines about sleeves' first stitches."""
    return [found for line in said if (found := _LINE.fullmatch(line.strip()))]


def along_armholes(
    pieces: Mapping[str, WorkedCloth], told: Sequence[str], seams: Sequence[SeamSaid]
) -> Iterator[str]:
    """What is wrong with every line about a sleeve's first stitches."""
    for said in lines(told):
        line = said[0]
        if said["name"] not in pieces:
            yield f"{line}: there is no such piece"
            continue
        sleeve, stitches, rows = pieces[said["name"]], int(said["stitches"]), int(said["rows"])
        if stitches != base(sleeve):
            yield f"{line}: row 1 stands on {base(sleeve)} stitches"
        if rows * sleeve.count != (there := _row_ends(sleeve, seams)):
            yield f"{line}: {there} row ends of front and back are joined to {sleeve.count} sleeves"
        times = 1 if said["once"] else int(said["times"] or 0)
        other = int(said["once"] or said["other"] or 0)
        if int(said["each"]) * (rows - times) + other * times != stitches:
            yield f"{line}: so many stitches do not come to {stitches}"
        if times > 1 and int(said["every"]) != rows // times:
            yield f"{line}: every {rows // times}th is even"


def _row_ends(sleeve: WorkedCloth, seams: Sequence[SeamSaid]) -> int:
    """The row ends of bodies in all seams that join them to a sleeve's top."""
    found = 0
    for seam in seams:
        body, top = seam.sides
        if seam.kind == "sleeve top" and body.rows and any(edge.startswith(f"{sleeve.name}.") for edge in top.edges):
            found += len(body.edges) * (max(body.rows) - min(body.rows) + 1) * seam.times
    return found
