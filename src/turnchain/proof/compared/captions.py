"""The words beside pictures, held against the rows that were worked.

In: a worked piece and the alt text of its chart. Out: reasons, in words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from turnchain.proof.cloth.edges import Side, WorkedCloth
from turnchain.proof.hook.stitches import WorkedRow

_RUN = re.compile(r"(\d+) ([a-z][a-z ]*)")
_HEAD = re.compile(r"(\d+) rows? of (\d+)(?: to (\d+))? clusters? of (\d+) .*?from a chain of (\d+)")


def chart(cloth: WorkedCloth, words: str) -> Iterator[str]:
    """The alt text of a whole chart: its counts, and both edges row by row."""
    head = _HEAD.search(words)
    if head is None:
        yield f"{cloth.name}: no counts are told in \"{words[:80]}\""
        return
    clusters = [row.clusters for row in cloth.rows]
    least, most = int(head[2]), int(head[3] or head[2])
    for name, said, made in (
        ("rows", int(head[1]), cloth.high), ("fewest clusters", least, min(clusters)),
        ("most clusters", most, max(clusters)),
    ):  # fmt: skip
        if said != made:
            yield f"{cloth.name}: {name}: {said} told, {made} worked"
    yield from _edges(cloth, words)


def _edges(cloth: WorkedCloth, words: str) -> Iterator[str]:
    for side in ("left", "right"):
        body = cloth.parts[0]
        told = re.search(rf"The {side} edge, row by row: ([^.]*)\.", words)
        made = _ways(body, side)
        if told is None:
            if any(made) and len(cloth.parts) == 1:
                yield f"{cloth.name}: nothing is told of the {side} edge"
            continue
        said = [way for count, name in _RUN.findall(told[1]) for way in [_way(name)] * int(count)]
        if said != [_sign(way) for way in made]:
            yield f"{cloth.name}: the {side} edge is told as {told[1]}; it was worked otherwise"


def _ways(rows: Sequence[WorkedRow], side: Side) -> list[int]:
    """How far each row goes inwards, in half clusters."""
    ats = [row.left.at if side == "left" else -row.right.at for row in rows]
    return [0, *(at - below for below, at in pairwise(ats))]


def _sign(way: int) -> int:
    """1 and -1 half a cluster in and out, 2 and -2 a step."""
    return max(-2, min(2, way))


def _way(name: str) -> int:
    if "step" in name:
        return 2 if "in" in name.split()[-1] else -2
    return {"less": 1, "more": -1}.get(next((one for one in name.split() if one in ("less", "more")), ""), 0)
