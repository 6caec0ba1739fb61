"""Rows of an edging worked stitch by stitch from what is said of them.

In: the stitches and corners along the first row, and for every later row the steps that are told. Out: the row as it
comes out, a letter to each stitch: "s", "M" the middle one of a corner outwards, "T" the one that others are worked
together into in a corner inwards. Rows are turned, rounds are not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from turnchain.proof.printed.edging.reader import EdgingReader, SaidPhrase


@dataclass
class EdgedRow:
    """One row in the order worked: its ``stitches``, and ``half`` of those of a corner but its middle one; ``closed``:
    it is a round. ``wrong``: what could not be worked."""

    reader: EdgingReader
    half: int
    closed: bool
    stitches: str = ""
    wrong: str = ""

    def along(self, number: int) -> None:
        """So many stitches along an edge of the first row."""
        self.stitches += "s" * number

    def corner(self, outer: bool) -> None:
        """A corner of the first row."""
        self.stitches += f"{'s' * self.half}M{'s' * self.half}" if outer else "T"

    def begun(self) -> None:
        """The first row is told to its end: a corner inwards takes a stitch at either side."""
        self._join(1)

    def work(self, steps: Sequence[SaidPhrase]) -> int:
        """Works the next row, and says how many stitches it has."""
        if not self.closed:
            self.stitches = self.stitches[::-1]
        self._join(self.half)
        for step in steps:
            if step.key in ("on.before", "on.after"):
                inner = self.reader.read(step.slots["how"], "on.fewer", "on.more")
                if inner is None:
                    self.wrong = f'"{step.slots["how"]}" cannot be worked'
                else:
                    self._change(inner, step.number("n") if step.key == "on.after" else 0)
            elif step.key in ("on.fewer", "on.more"):
                if set(self.stitches) - {"s"}:
                    self.wrong = "which corner stitches are counted from is not told"
                self._change(step, 0)
        self.stitches = self.stitches.replace("M", f"{'s' * self.half}M{'s' * self.half}")
        return len(self.stitches)

    def _join(self, each: int) -> None:
        """Corners inwards take ``each`` stitches from either side, the nearest that there are."""
        row = list(self.stitches)
        places = [nth for nth, one in enumerate(row) if one == "T"]
        for at in places:
            before = range(at - 1, -1, -1)
            after = [*range(at + 1, len(row)), *(range(at) if self.closed else ())]
            for order in (before, after):
                for nth in [nth for nth in order if row[nth] == "s"][:each]:
                    row[nth] = ""
        self.stitches = "".join(row)

    def _change(self, step: SaidPhrase, corner: int) -> None:
        """Two worked together, or two in one, among the stitches after so many corners."""
        bounds = [-1, *(nth for nth, one in enumerate(self.stitches) if one != "s"), len(self.stitches)]
        if corner >= len(bounds) - 1:
            self.wrong = f"there is no corner {corner}"
            return
        start, end = bounds[corner] + 1, bounds[corner + 1]
        fewer, free = step.key == "on.fewer", end - start
        middle = self.reader.read(step.slots["where"], "middle") is not None
        at = frozenset({free // 2 + 1 if fewer else (free + 1) // 2}) if middle else self.reader.changed(
            step.slots["where"], free
        )  # fmt: skip
        if at is None or not _even(sorted(at), free, 2 if fewer else 1):
            self.wrong = f'"{step.slots["where"]}" does not lie evenly in {free} stitches'
            return
        changed = "s" * (free + len(at) * (-1 if fewer else 1))
        self.stitches = self.stitches[:start] + changed + self.stitches[end:]


def _even(at: Sequence[int], free: int, least: int) -> bool:
    """Whether places are as far apart as can be, and ``least`` stitches at the least, up to the last one."""
    gaps = [other - one for one, other in pairwise([0, *at])]
    return bool(gaps) and min(gaps) >= least and max(at) <= free and (
        len(at) == 1 or (max(gaps) - min(gaps) <= 1 and at[-1] == free)
    )
