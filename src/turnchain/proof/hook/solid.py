"""A solid row: one stitch in every stitch and every chain of the row below.

In: the row below, or the foundation, and the stitch. Out: the finished row; ``Unworkable`` where a stitch is left out
or stands where another does. The places of a row at the foot of a piece follow from the clusters that are worked into
it later: ``settle`` gives them.
"""

from __future__ import annotations

from turnchain.proof.hook.stitches import (
    TURNING,
    Below,
    EdgeMade,
    OnChain,
    Spot,
    WorkedInto,
    WorkedRow,
    WorkedStitch,
    refuse,
)


def tops_of(below: WorkedRow) -> list[int]:
    """What a solid row has to be worked into, as met after turning: the spots of the row ``below`` by number, a space
    as often as it has chains."""
    walk = below.spots[::-1]
    many = [spot.chains if spot.what in ("space", "inner") else 1 for spot in walk]
    return [nth for nth, times in enumerate(many) for _ in range(times)]


NOTHING = -2  # what lies beside an edge, under a stitch of a solid row: no cluster, no space


class SolidInWork:
    """A solid row in the making, of a ``stitch`` (US name): ``begin`` with the turning chain, ``work`` for every stitch
    after it. ``below`` is the row worked into, None for row 1 on a ``chain`` of so many."""

    def __init__(self, stitch: str, below: WorkedRow | None, chain: int = 0) -> None:
        self.stitch, self.below, self.chain = stitch, below, chain
        self.turning, self.counts = TURNING[stitch]
        self.wanted = tops_of(below) if below else list(range(self.turning + 1, chain + 1))
        self.made: list[WorkedStitch] = []

    def begin(self, chains: int) -> None:
        """The turning chain of so many ``chains``; where it counts, it stands on the first stitch below."""
        refuse(chains != self.turning, f"a turning chain of {chains} chains; rows of {self.stitch} take {self.turning}")
        if self.counts:
            self._put("tch")

    def work(self) -> None:
        """A stitch in the next stitch or chain."""
        self._put("dc")

    def _put(self, kind: str) -> None:
        done = len(self.made)
        refuse(done >= len(self.wanted), f"more than the {len(self.wanted)} stitches there are to work into")
        place: WorkedInto = Below(self.wanted[done]) if self.below else OnChain(self.wanted[done])
        self.made.append(WorkedStitch("tch" if kind == "tch" else "dc", place))

    @property
    def left(self) -> int:
        """How many stitches or chains are still to be worked into."""
        return len(self.wanted) - len(self.made)

    def finished(self, number: int) -> WorkedRow:
        """The finished row ``number``. Raises Unworkable where a stitch below is left out."""
        refuse(self.left, f"{self.left} stitches of the row below are left out")
        refuse(len(self.made) < 3, "a row without stitches between its edges")
        below, last = self.below, len(self.made) - 1
        spots = [Spot("edge" if nth in (0, last) else "solid", over=self._over(nth)) for nth in range(last + 1)]
        spots[0] = Spot("edge", turning=self.counts)
        if below is None or below.at_foot:
            nowhere = EdgeMade(0, "flush", 0)
            at = (0,) * len(spots)
            towards = -below.towards if below else -1
            made = WorkedRow(number, towards, tuple(spots), at, tuple(self.made), (), nowhere, nowhere)
            made.at_foot = (*(below.at_foot if below else ()), made)
        else:
            at = tuple(below.at[::-1][index] for index in self.wanted)
            ends = (EdgeMade(below.end.at, below.end.kind, 0), EdgeMade(below.start.at, below.start.kind, 0))
            made = WorkedRow(number, -below.towards, tuple(spots), at, tuple(self.made), (), *ends)
        made.turning = made.top = self.turning
        made.kind = self.stitch
        return made

    def _over(self, nth: int) -> int:
        """What the stitch ``nth`` lies over: clusters by even numbers, spaces by odd ones; beside an edge nothing that
        a cluster can stand over."""
        below = self.below
        if below is None or below.at_foot:
            return -1
        own = len(below.spots) - 1 - self.wanted[nth]
        spot = below.spots[own]
        if below.solid:
            return spot.over
        if spot.what in ("edge", "extra"):
            return NOTHING
        return 2 * spot.cluster if spot.what == "dc" else 2 * own + 1


def settle(foot: WorkedRow, above: WorkedRow) -> None:
    """Gives the solid rows at the foot of a piece, ``foot`` the uppermost of them, the edges of the row ``above`` that
    has clusters."""
    for row in foot.at_foot:
        same = row.towards == above.towards
        row.start, row.end = (
            EdgeMade(edge.at, edge.kind, 0)
            for edge in ((above.start, above.end) if same else (above.end, above.start))
        )
