"""Solid rows as they are told, and clusters counted off on them.

In: steps, one after the other, and the row below. Out: a solid row, finished; the stitch of one that clusters come to;
``Unworkable`` where a step cannot be done.
"""

from __future__ import annotations

from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.solid import SolidInWork
from turnchain.proof.hook.stitches import TURNING, WorkedRow, refuse
from turnchain.proof.maker import steps as do


def next_stitch(work: RowInWork, at: int, number: int, passed_edge: bool) -> int:
    """The stitch of the solid row below, by its number, so many on from ``at``, where the hook is; ``passed_edge``: the
    edge stitch is said to be skipped. Raises Unworkable where there is none, or where it is not said whether the edge
    stitch counts."""
    refuse(not work.over_solid, "stitches are counted off where there are clusters")
    refuse(work.begun is None, "a turning chain is missing")
    worked = not work.craft.counts or bool(work.places) or any(spot.what == "extra" for spot in work.spots)
    refuse(not at and worked == passed_edge, "whether the edge stitch is skipped is not said, or said wrongly")
    refuse(at + number >= len(work.walk) - 1, "there is no such stitch before the edge")
    return at + number


def check_passed(work: RowInWork, at: int) -> None:
    """Raises Unworkable where stitches of a solid row below, between ``at`` and its edge, are not worked into and not
    said to be skipped."""
    over = len(work.walk) - 2 - at
    refuse(work.over_solid and over, f"{over} stitches are passed over without a word")


class SolidHand:
    """One solid row of the stitch ``kind`` while its steps are done, on the row ``below`` or, where that is None, on a
    foundation of so many ``chains``, of which ``turning`` are told to be the turning chain."""

    joined, yarn, at = False, None, 0  # as every hand has them; a solid row joins no yarn

    def __init__(self, kind: str, below: WorkedRow | None, chains: int, turning: int) -> None:
        self.kind, self.below, self.turning = kind, below, turning
        self.work = SolidInWork(kind, below, chains)
        self.turned = False
        self.ended = False
        self.change_to: str | None = None

    def follow(self, steps: tuple[do.ReadStep, ...]) -> None:
        """Does every step in turn. Raises Unworkable for one that cannot be done there."""
        for step in steps:
            refuse(self.ended and not isinstance(step, do.ChangeYarn), "the row goes on after its last stitch")
            match step:
                case do.ChainStitches(number, 0):
                    refuse(self.turned or self.below is None, "chains in the middle of a solid row")
                    self.work.begin(number)
                case do.TurnWork():
                    refuse(self.turned or self.below is None, "the work is turned twice, or before row 1")
                    self.turned = True
                case do.SolidInPlace(stitch, place):
                    self._check(stitch)
                    self._in_place(place)
                case do.DcInPlace(1, place):  # a solid row of the fabric's own stitch
                    self._in_place(place)
                case do.SolidInEach(stitch, number, chains):
                    self._check(stitch)
                    self._in_each(number, chains)
                case do.DcAlongChain(number):
                    self._in_each(number, chains=True)
                case do.ChangeYarn(yarn):
                    refuse(self.work.left or self.change_to, "the yarn changes before the last stitch, or twice")
                    self.change_to = yarn
                case _:
                    refuse(True, "a step that makes no solid row")

    def _check(self, stitch: str) -> None:
        refuse(stitch != self.kind, f"{stitch} in a row that counts {self.kind}")

    def _in_each(self, number: int, chains: bool) -> None:
        refuse(number < 1 or not self.work.made, "stitches before the edge stitch, or none")
        refuse(chains != (self.below is None), "chains where there are stitches, or stitches where there are chains")
        lie = self.work.left - 1
        refuse(self.below is not None and number != lie, f"{number} stitches, where {lie} lie before the edge")
        for _ in range(number):
            self.work.work()

    def _in_place(self, place: do.Named) -> None:
        if self.below is None:
            self._from_hook(place)
        elif not self.work.made:
            refuse(not self.turned or not isinstance(place, do.EdgeStitch), "the row begins in no edge stitch")
            self.work.work()
        else:
            self._far_edge(place, self.below)

    def _from_hook(self, place: do.Named) -> None:
        """The first stitch on the foundation, counted from the hook."""
        turning, counts = TURNING[self.kind]
        refuse(self.work.made or not isinstance(place, do.FromHook), "a place where there are only chains")
        refuse(self.turning != turning, f"{self.turning} chains told to be the turning chain, which takes {turning}")
        if counts:
            self.work.begin(turning)
        assert isinstance(place, do.FromHook), "refused above"
        wanted = turning + 1 + counts
        refuse(place.number != wanted, f"the first stitch in chain {place.number}; after {turning} it is {wanted}")
        self.work.work()

    def _far_edge(self, place: do.Named, below: WorkedRow) -> None:
        refuse(self.work.left != 1, f"{self.work.left - 1} stitches are passed over without a word")
        if below.spots[0].turning:
            wanted: do.Named = do.TurningChain(below.top)
        else:
            wanted = do.EdgeStitch()
        refuse(place != wanted, "the row does not end in the edge stitch")
        self.work.work()
        self.ended = True

    def finished(self, number: int) -> WorkedRow:
        """The finished row ``number``. Raises Unworkable where it is not complete."""
        refuse(self.below is not None and not self.turned, "the work is not turned")
        return self.work.finished(number)
