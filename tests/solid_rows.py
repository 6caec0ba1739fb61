"""What cannot be worked, and not be followed, in solid rows and in clusters on them: for ``test_proof``.

Every case is a mistake made on purpose, by the words that refuse it.
"""

from __future__ import annotations

from collections.abc import Callable

from turnchain.proof.hook.finished import finished
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.solid import SolidInWork
from turnchain.proof.hook.stitches import TURNING, Below, Craft, OnChain, WorkedRow
from turnchain.proof.maker import steps as do
from turnchain.proof.maker.hand import Hand
from turnchain.proof.maker.solid import SolidHand

OPEN = Craft(3, 1)
Refused = Callable[[], object]


def row_one(clusters: int = 3) -> WorkedRow:
    """Clusters on a foundation, a cluster beside both edges."""
    row = RowInWork(OPEN, None, 4 * clusters + 4)
    row.edge(OnChain(4), 3)
    for nth in range(clusters):
        if nth:
            row.gap(1)
        row.cluster([OnChain(5 + 4 * nth + dc) for dc in range(3)])
    row.end(OnChain(4 * clusters + 4))
    return finished(row, 1)


def row_two() -> WorkedRow:
    """Clusters on ``row_one``, a chain beside both edges."""
    return finished(ended(clusters(over(row_one(), 4), 4, 8), 12, chains=1), 2)


def solid(below: WorkedRow | None = None, stitch: str = "sc", stitches: int = 10) -> WorkedRow:
    """A solid row on ``below``, or of so many stitches on a foundation."""
    work = SolidInWork(stitch, below, stitches + TURNING[stitch][0])
    work.begin(TURNING[stitch][0])
    while work.left:
        work.work()
    return work.finished(2 if below else 1)


def over(below: WorkedRow, chains: int = 3) -> RowInWork:
    """A row of clusters begun on ``below``."""
    row = RowInWork(OPEN, below)
    row.edge(Below(0), chains)
    return row


def slipped(below: WorkedRow, many: int) -> RowInWork:
    """A row of clusters begun on ``below`` after so many slip stitches."""
    row = RowInWork(OPEN, below)
    for nth in range(1, many + 1):
        row.slip(nth)
    row.edge(Below(many), 3)
    return row


def clusters(row: RowInWork, *indices: int) -> RowInWork:
    """A cluster in each of these stitches, chains between."""
    for nth, index in enumerate(indices):
        if nth:
            row.gap(1)
        row.cluster([Below(index)] * 3)
    return row


def ended(row: RowInWork, at: int, chains: int = 0) -> RowInWork:
    if chains:
        row.gap(chains)
    row.end(Below(at))
    return row


def begun(stitches: int, chains: int = 1, on: int = 13, stitch: str = "sc") -> SolidInWork:
    """A solid row on so many chains, so many of its stitches made."""
    work = SolidInWork(stitch, None, on)
    work.begin(chains)
    for _ in range(stitches):
        work.work()
    return work


# On 10 sc: 2 clusters, the first in the 3rd, a gap at the end. On 13 sc over 3 clusters: the spaces are 4 and 8.
CANNOT: dict[str, Refused] = {
    "a turning chain of 2 chains; rows of sc take 1": lambda: begun(0, chains=2),
    "more than the 12 stitches there are to work into": lambda: begun(13),
    "4 stitches of the row below are left out": lambda: begun(8).finished(1),
    "a row without stitches between its edges": lambda: begun(2, on=3).finished(1),
    "a cluster stands on an edge stitch": lambda: clusters(over(solid()), 9),
    "clusters 3 stitches apart, where it should be 4": lambda: clusters(over(solid()), 2, 5),
    "the first cluster in stitch 4, not 3": lambda: clusters(over(solid()), 3),
    "a cluster does not stand over a middle": lambda: clusters(over(solid(row_one())), 3),
    "3 stitches after the last cluster, not 2": lambda: ended(clusters(over(solid()), 2, 6), 9),
    "the work goes back along the row below, one by one": lambda: clusters(over(solid(row_one())), 8, 4),
    "the edge stitch at the end stands on no edge stitch": lambda: finished(
        ended(clusters(over(solid(row_one()), 4), 4, 8), 11, chains=1), 3
    ),
    "a decrease at the start leans from the edge stitch below, one on it": lambda: finished(
        ended(clusters(slipped(solid(row_one()), 1), 4, 8), 12, chains=1), 3
    ),
    "the edge stitch at the end does not stand over a middle": lambda: finished(
        ended(clusters(over(solid(row_one())), 2, 6), 9, chains=1), 3
    ),
    "the edge stitch at the end in stitch 2 from the edge, not 1": lambda: finished(
        ended(clusters(over(solid(row_one()), 4), 4, 8), 10), 3
    ),
    "a decrease at the end after a row with a gap at its edge, one on it": lambda: finished(
        ended(clusters(over(solid(row_two())), 1, 5), 9, chains=1), 4
    ),
}


def by_hand(*steps: do.ReadStep, below: WorkedRow | None = None) -> Refused:
    """A row of clusters by ``steps`` on 10 sc, or on ``below``."""
    under = solid() if below is None else below
    return lambda: Hand(OPEN, RowInWork(OPEN, under)).follow(steps)


def solid_by_hand(*steps: do.ReadStep, kind: str = "sc", on: WorkedRow | None = None, turning: int = 1) -> Refused:
    """A solid row by ``steps``, finished, on 11 chains or on ``on``."""

    def refused() -> None:
        hand = SolidHand(kind, on, 11, turning)
        hand.follow(steps)
        hand.finished(2)

    return refused


TURNED = (do.ChainStitches(3), do.TurnWork())
NEXT = do.ClusterInPlace(do.NextBelow())
ON = solid()
SC_TURNED = (do.ChainStitches(1), do.TurnWork(), do.SolidInPlace("sc", do.EdgeStitch()))
ALL = (*SC_TURNED, do.SolidInEach("sc", 8, False), do.SolidInPlace("sc", do.EdgeStitch()))
CANNOT_FOLLOW: dict[str, Refused] = {
    "stitches are counted off where there are clusters": by_hand(*TURNED, NEXT, below=row_one()),
    "whether the edge stitch is skipped is not said, or said wrongly": by_hand(*TURNED, NEXT),
    "there is no such stitch before the edge": by_hand(*TURNED, do.PassEdge(), do.PassStitches(50)),
    "6 stitches are passed over without a word": by_hand(
        *TURNED, do.PassEdge(), do.PassStitches(1), NEXT, do.DcInPlace(1, do.EdgeStitch())
    ),
    "a turning chain is missing, on sc": by_hand(do.TurnWork(), do.PassEdge(), do.PassStitches(1)),
    "stitches of another kind in a row of clusters": by_hand(*TURNED, do.SolidInPlace("sc", do.EdgeStitch())),
    "the row goes on after its last stitch": solid_by_hand(*ALL, do.TurnWork(), on=ON),
    "chains in the middle of a solid row": solid_by_hand(*SC_TURNED, do.ChainStitches(1), on=ON),
    "the work is turned twice, or before row 1": solid_by_hand(*SC_TURNED, do.TurnWork(), on=ON),
    "the yarn changes before the last stitch, or twice": solid_by_hand(*SC_TURNED, do.ChangeYarn("Reed"), on=ON),
    "a step that makes no solid row": solid_by_hand(*SC_TURNED, do.PassEdge(), on=ON),
    "hdc in a row that counts sc": solid_by_hand(*TURNED[1:], do.SolidInPlace("hdc", do.EdgeStitch()), on=ON),
    "stitches before the edge stitch, or none": solid_by_hand(do.TurnWork(), do.SolidInEach("sc", 8, False), on=ON),
    "chains where there are stitches, or stitches where there are chains": solid_by_hand(
        *SC_TURNED, do.SolidInEach("sc", 8, True), on=ON
    ),
    "7 stitches, where 8 lie before the edge": solid_by_hand(*SC_TURNED, do.SolidInEach("sc", 7, False), on=ON),
    "the row begins in no edge stitch": solid_by_hand(
        do.ChainStitches(1), do.TurnWork(), do.SolidInPlace("sc", do.NextBelow()), on=ON
    ),
    "a place where there are only chains": solid_by_hand(do.SolidInPlace("sc", do.EdgeStitch())),
    "2 chains told to be the turning chain, which takes 1": solid_by_hand(
        do.SolidInPlace("sc", do.FromHook(2)), turning=2
    ),
    "the first stitch in chain 3; after 1 it is 2": solid_by_hand(do.SolidInPlace("sc", do.FromHook(3))),
    "8 stitches are passed over without a word": solid_by_hand(
        *SC_TURNED, do.SolidInPlace("sc", do.EdgeStitch()), on=ON
    ),
    "the row does not end in the edge stitch": solid_by_hand(
        *SC_TURNED, do.SolidInEach("sc", 8, False), do.SolidInPlace("sc", do.TurningChain(3)), on=ON
    ),
    "the work is not turned, in a solid row": solid_by_hand(
        do.ChainStitches(3), do.SolidInEach("dc", 8, False), do.SolidInPlace("dc", do.EdgeStitch()), kind="dc", on=ON
    ),
}
