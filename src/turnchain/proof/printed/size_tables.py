"""The report of a pattern in several sizes read back: the table of each piece, and that of the yarns.

In: the report's text and the names of sizes, pieces and yarns. Out: ``SizeTables``. Columns lie two spaces or more
apart, and a size without a figure has a dash.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

_NONE = "–"
_WAYS = ("wanted", "worked", "off")
_EACH = re.compile(r"(\S+) \(([^()]*)\)")


@dataclass(frozen=True, slots=True)
class SizeTables:
    """By the names of pieces every measure of their tables, of each size (None: it has none); by a measure ``wanted``,
    ``worked`` and ``off`` as printed, and by ``counts`` of rows and chains. ``yarns``: the same of each yarn by what
    is told of it."""

    measures: dict[str, dict[str, dict[str, list[str | None]]]] = field(default_factory=dict)
    counts: dict[str, dict[str, list[str | None]]] = field(default_factory=dict)
    yarns: dict[str, dict[str, list[str | None]]] = field(default_factory=dict)


def read_tables(text: str, sizes: Sequence[str], pieces: Sequence[str], yarns: Sequence[str]) -> SizeTables:
    """The tables in the report ``text``."""
    found = SizeTables()
    heading = measure = ""
    for line in text.splitlines():
        cells = re.split(r" {2,}", line.strip())
        head, figures = cells[: -len(sizes)], cells[-len(sizes) :]
        if not line:
            heading = ""
        elif figures == list(sizes) and len(head) == 1 and not line.startswith(" "):
            heading = head[0]
        elif heading and len(figures) == len(sizes) and head:
            row = [None if cell == _NONE else cell for cell in figures]
            measure = head[0] if len(head) > 1 else measure
            if heading == "yarn" and measure in yarns:
                found.yarns.setdefault(measure, {})[head[-1]] = row
            elif heading in pieces and head[-1] in _WAYS:
                found.measures.setdefault(heading, {}).setdefault(measure, {})[head[-1]] = row
            elif heading in pieces:
                found.counts.setdefault(heading, {})[head[-1]] = row
    return found


def of_size(name: str, nth: int) -> str:
    """The name of a measure in the ``nth`` size that has it (from 0): "width at 33 (33.5, 34) cm" is "width at 33.5
    cm" in the second."""
    return _EACH.sub(lambda found: [found[1], *found[2].split(", ")][nth], name)
