"""Rows without edge stitches that cannot be worked, or followed: one for each refusal of hook and maker.

In: nothing. Out: ``CANNOT`` and ``CANNOT_FOLLOW``, by the words of the refusal, for ``test_proof``.
"""

from __future__ import annotations

from collections.abc import Callable

from solid_rows import row_one as posted
from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import Below, Craft, OnChain, WorkedRow
from turnchain.proof.maker import steps as do
from turnchain.proof.maker.hand import Hand

Refused = Callable[[], object]
USUAL = Craft(3, 1)
OPEN = Craft(3, 1, bare=True)
MOSS = Craft(1, 1, turning=1, own=False, bare=True)


def open_one() -> WorkedRow:
    """Row 1 of two clusters, a gap and an edge stitch at its start, none at its end."""
    row = RowInWork(OPEN, None, 13)
    row.edge(OnChain(5), 4)
    for first in (7, 11):
        row.cluster([OnChain(first + nth) for nth in range(3)])
        if first == 7:
            row.gap(1)
    return finished(row, 1)


def above(chains: int, at: int = 0) -> RowInWork:
    """A row on that one, begun by a turning chain, after slip stitches where that stands farther in."""
    row = RowInWork(OPEN, open_one())
    for nth in range(1, at + 1):
        row.slip(nth)
    row.edge(Below(at), chains)
    return row


def worked(row: RowInWork, *spaces: int, end: int | None = None) -> Refused:
    """Clusters in ``spaces``, and an edge stitch at the ``end``."""

    def refused() -> None:
        for nth, space in enumerate(spaces):
            if nth:
                row.gap(1)
            row.cluster([Below(space)] * row.craft.cluster)
        if end is not None:
            row.end(Below(end))
        finished(row, row.below.number + 1 if row.below else 1)

    return refused


def _moss() -> None:
    row = RowInWork(MOSS, None, 6)
    row.edge(OnChain(2), 2)
    row.cluster([OnChain(4)])
    row.gap(1)
    row.cluster([OnChain(6)])
    below = finished(row, 1)
    for number in (2, 3):
        row = RowInWork(MOSS, below)
        row.edge(Below(0), 2)
        row.cluster([Below(1)])
        row.gap(1)
        row.cluster([Below(3)])
        if number == 3:
            row.gap(1)
            row.end(Below(4))
        below = finished(row, number)


def _completed_on_chain() -> None:
    row = RowInWork(OPEN, None, 9)
    row.edge(OnChain(4), 3)
    row.complete([Below(0)] * 2)


def _completed(chains: int, *places: int) -> Refused:
    return lambda: above(chains).complete([Below(place) for place in places])


def _usual() -> None:
    row = RowInWork(USUAL, posted())
    row.edge(Below(0), 3)
    row.complete([Below(0)] * 2)


CANNOT: dict[str, Refused] = {
    "an edge stitch beside a cluster, which is the edge by itself here": lambda: worked(above(4), 3, 7, end=8)(),
    "a row that is not straight, where its edges cannot show it": _moss,
    "the edge stitch at the start stands on a cluster": lambda: worked(above(4, at=1), 3, 7)(),
    "the edge stitch at the start leans away from the old edge": lambda: worked(above(4), 0, 3, 7)(),
    "stitches that make no cluster with the turning chain": _usual,
    "the turning chain is an edge stitch": _completed(4, 0, 0),
    "1 dc beside the turning chain, where a cluster lacks others": _completed(3, 0),
    "the dc of a cluster stand in different places, of a row 1": _completed_on_chain,
    "the dc of a cluster stand in different places, of a row without edge stitches": _completed(3, 1, 1),
    "the first cluster lacks 2 dc": lambda: above(3).gap(1),
}
CANNOT_FOLLOW: dict[str, Refused] = {
    "what is passed is no edge stitch, or is one": lambda: Hand(USUAL, RowInWork(USUAL, posted())).follow(
        (do.TurnWork(), do.PassFirst())
    ),
    "the first stitch below is behind the hook, or an edge stitch": lambda: Hand(
        USUAL, RowInWork(USUAL, posted())
    ).follow((do.ChainStitches(3), do.TurnWork(), do.ClusterInPlace(do.OutermostBelow()))),
}
