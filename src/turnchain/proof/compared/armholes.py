"""Warnings of armholes that are not as deep or as wide as asked for.

In: the warnings of a piece and its table of measures, which is held against the cloth where the table is. Out: reasons,
in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.printed.lengths import LENGTH, length
from turnchain.proof.printed.report import PrintedMeasure

MISSED: Final = re.compile(
    rf"(?P<name>(?:(?:left|right) edge )?armhole (?P<what>depth|width)): (?P<worked>{LENGTH}), not "
    rf"(?P<wanted>{LENGTH}), more than half a (?P<much>\w+) off: (?P<why>no step close to the one wanted comes nearer|"
    r"a step outwards can only be made where a row starts|every row needs room for a \w+, and an edge can move in or "
    r"out only where its stitches allow it)"
)
#: The figures of the table are rounded: so near the bound, in cm, either is right.
_EITHER: Final = 0.02


def missed(found: re.Match[str], cloth: WorkedCloth, table: Mapping[str, PrintedMeasure]) -> Iterator[str]:
    """What is wrong with a warning, as ``found`` by ``MISSED``."""
    row = table.get(found["name"])
    if row is None or (row.worked, row.wanted) != (length(found["worked"]), length(found["wanted"])):
        yield f"the table of measures has {row.text.strip() if row else 'no such measure'}"
    elif not _too_far(row, cloth, -_EITHER):
        yield "it is not so far off"
    if _by_rows(found["what"], cloth) != (found["much"] == "row"):
        yield f"half a {found['much']} is told of"


def missing(said: Sequence[str], cloth: WorkedCloth, table: Mapping[str, PrintedMeasure]) -> Iterator[str]:
    """The armholes that are too far off, and of which no warning says so."""
    warned = {found["name"] for line in said if (found := MISSED.fullmatch(line))}
    for name, row in table.items():
        if "armhole" in name and name not in warned and _too_far(row, cloth, _EITHER):
            yield f"{name} is {row.worked}, not {row.wanted}, and no warning says so"


def _by_rows(what: str, cloth: WorkedCloth) -> bool:
    """Whether the depth or the width of an armhole is counted in rows: of a piece worked sideways the width."""
    return (what == "depth") == (cloth.upper is None)


def _too_far(row: PrintedMeasure, cloth: WorkedCloth, near: float) -> bool:
    """Whether a measure is off by more than half a row along the work or half a cluster across it, and ``near``."""
    most = cloth.tape.row / 2 if _by_rows(row.name.rpartition(" ")[2], cloth) else cloth.tape.half
    return abs(float(row.worked.cm - row.wanted.cm)) > float(most) + near
