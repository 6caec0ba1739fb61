"""A maker who follows a written piece row by row, and nothing else.

In: what a piece is made of (``Craft``), its foundation, then row after row as told. Out: the rows as they come out;
``Unworkable`` where a step cannot be done or where the pattern says of a row what it is not. No plan and no language is
used here.
"""

from __future__ import annotations

from itertools import pairwise

from turnchain.proof.hook.finished import check_carried
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import Craft, Unworkable, WorkedRow, refuse
from turnchain.proof.maker.hand import Hand
from turnchain.proof.maker.solid import SolidHand
from turnchain.proof.maker.steps import Count, JoinYarn, Made, Shaped, Told


class Maker:
    """Works a piece row by row: ``row`` for each, ``divide`` and ``go_back`` where it goes on in two sections, then
    ``finish``. ``chains`` is the foundation, ``turning`` of them row 1's turning chain, in ``yarn`` (None: none is
    named). Every method raises Unworkable."""

    def __init__(self, craft: Craft, chains: int, turning: int, yarn: str | None) -> None:
        refuse(craft.cluster < 1, f"a cluster of {craft.cluster} dc")
        self.craft, self.chains, self.turning, self.yarn = craft, chains, turning, yarn
        self.rows: list[Made] = []
        self.last: WorkedRow | None = None  # the row that the next one is worked into
        self.side = "WS"  # so that row 1 comes to be a right-side row
        self.off = False
        self._spaces_unsaid = False
        self._first: Told
        self._divided: WorkedRow | None = None
        self._section_end: int | None = None
        self._going_back = False

    def divide(self) -> None:
        """The next rows are a section on a part of the row just worked."""
        refuse(self._divided is not None, "a piece that is divided twice")
        refuse(self.last is None, "there is no row to divide")
        self._divided = self.last

    def go_back(self) -> None:
        """The next rows are the other section, on the row that was divided; its yarn is joined anew."""
        refuse(self._divided is None or self._section_end is None, "there is no divided row to go back to")
        refuse(not self.off, "the yarn of the first section is not fastened off")
        self.last, self.off, self._going_back = self._divided, False, True
        assert self.last is not None, "refused above"
        self.side = "RS" if self.last.number % 2 else "WS"

    def row(self, told: Told) -> WorkedRow:
        """Works the next row as ``told``. Raises Unworkable, naming the row, where it cannot be worked, or its side,
        yarn, counts, edges or spaces are told otherwise than they come out."""
        try:
            return self._row(told)
        except Unworkable as error:
            raise Unworkable(f"row {told.number}: {error}") from None

    def _row(self, told: Told) -> WorkedRow:
        refuse(self.off, "the yarn is fastened off")
        number = 1 if self.last is None else self.last.number + 1
        refuse(told.number != number, f"it comes after row {number - 1}")
        side = "WS" if self.side == "RS" else "RS"
        refuse(told.side != side, f"{side} faces, not {told.side}")
        joins = told.steps and isinstance(told.steps[0], JoinYarn)
        refuse(self._going_back and not joins, "the yarn is not joined anew")
        hand = self._hand(told.kind)
        hand.follow(told.steps)
        row = hand.finished(number)
        yarn = self._check_yarn(hand, told)
        self._check_count(row, told)
        if row.number == 1:
            self._first = told
        elif number == 2 and self.craft.alternating and self.last is not None:
            self._check_count(self.last, self._first)
        self._check_shaped(row, told, hand)
        refuse(self._spaces_unsaid and not row.solid, "where the spaces of row 1 lie is not said")
        self._check_spaces(row, told)
        self.rows.append(Made(row, yarn))
        if self._divided is self.last and not hand.joined and self._divided is not None:
            self._section_end = hand.at
        self.last, self.side, self.off = row, side, told.fasten_off
        return row

    def _hand(self, kind: str) -> Hand | SolidHand:
        first = self.last is None
        if kind != "cluster":
            return SolidHand(kind, self.last, self.chains if first else 0, self.turning if first else 0)
        work = RowInWork(self.craft, self.last, self.chains if first else 0)
        back = self._section_end if self._going_back else None
        return Hand(self.craft, work, turning=self.turning if first else 0, from_section=back)

    def _check_yarn(self, hand: Hand | SolidHand, told: Told) -> str | None:
        self._going_back = False
        if hand.joined:
            self.yarn = hand.yarn or (self.yarn if told.yarn is None else told.yarn)
        yarn = self.yarn
        refuse(told.yarn != yarn, f"it is to be in {told.yarn}, but {yarn} is on the hook")
        change = hand.change_to or told.change_to
        refuse(hand.change_to and told.change_to and hand.change_to != told.change_to, "two yarns come in at once")
        refuse(change is not None and told.fasten_off, "the yarn changes and is fastened off")
        refuse(change == yarn and change is not None, f"the yarn changes from {yarn} to {yarn}")
        self.yarn = change or yarn
        return yarn

    def _check_count(self, row: WorkedRow, told: Told) -> None:
        said, k = told.count, self.craft.cluster
        took = said.clusters * k - (said.tch if self.craft.bare else 0)
        refuse(took > said.dc, f"{said.clusters} clusters take {took} dc; {said.dc} are counted")
        unshown = self.craft.alternating and row.number == 1 and row is not self.last  # until row 2 shows its edges
        clusters = said.clusters if unshown else row.clusters
        made = Count(clusters, row.count("dc"), row.count("ch"), row.count("sl st"), row.count("tch"))
        refuse(made != said, f"it counts {_counted(said)}; {_counted(made)} come out")

    def _check_shaped(self, row: WorkedRow, told: Told, hand: Hand | SolidHand) -> None:
        divided = self._divided is not None and self._divided is self.last
        made = []
        if row.start.inwards and not hand.joined:
            made.append(Shaped("start", -row.start.inwards))
        if row.end.inwards and not (divided and not hand.joined):
            made.append(Shaped("end", -row.end.inwards))
        refuse(tuple(made) != told.shaped, f"its edges are said to go {_edges(told.shaped)}; they go {_edges(made)}")

    def _check_spaces(self, row: WorkedRow, told: Told) -> None:
        """Row 1 without chains between its clusters shows no groups: where its spaces lie has to be said, rightly."""
        befores = _stitches_before_spaces(row) if _shows_no_groups(row, self.craft) else []
        made = (befores[0], befores[1] - befores[0] if len(befores) > 1 else 0) if befores else None
        self._spaces_unsaid = told.spaces is None and made is not None
        refuse(told.spaces is not None and told.spaces != made, f"its spaces are said to lie {told.spaces}, not {made}")

    def finish(self) -> list[Made]:
        """All rows in the order worked. Raises Unworkable where there are none, or the last is not fastened off."""
        refuse(not self.rows, "a piece without rows")
        refuse(not self.off, "the last row is not fastened off")
        check_carried((made.row for made in self.rows), self.craft)
        return self.rows


def _shows_no_groups(row: WorkedRow, craft: Craft) -> bool:
    """Whether ``row`` is row 1 of a fabric whose clusters stand side by side, each dc on a chain of its own."""
    into = [stitch.into for stitch in row.stitches if stitch.into]
    if any(one == other for one, other in pairwise(into)):
        return False
    return row.number == 1 and not craft.gap and not craft.stacked and not row.solid


def _stitches_before_spaces(row: WorkedRow) -> list[int]:
    """How many stitches the next row passes before each space."""
    found, passed = [], 0
    for spot in reversed(row.spots):
        if spot.what == "space":
            found.append(passed)
        else:
            passed += 1
    return found


def _counted(count: Count) -> str:
    return f"{count.clusters} clusters, {count.dc} dc, {count.ch} ch, {count.slips} sl st, {count.tch} tch"


def _edges(shaped: tuple[Shaped, ...] | list[Shaped]) -> str:
    return ", ".join(f"{one.halves:+d} half clusters at the {one.where}" for one in shaped) or "straight"
