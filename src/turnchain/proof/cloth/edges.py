"""The edges of a worked piece, walked stitch by stitch.

In: the worked rows of a piece. Out: for every named edge its stretches: the edge stitches of its rows, or the part of a
row or chain that it runs along. Positions are half clusters, lengths cm.

An edge stitch leans from its foot on the row below to its head; where it stands beside the edge below by more than half
a cluster, slip stitches, chains or stitches left unworked lead there first, level, and the stitch itself is upright.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import accumulate, pairwise, takewhile
from math import hypot
from typing import Literal

from turnchain.proof.cloth.tape import Tape
from turnchain.proof.hook.stitches import WorkedRow

Side = Literal["left", "right"]
SIDES: tuple[Side, Side] = ("left", "right")


@dataclass(frozen=True, slots=True)
class EdgePart:
    """A part of an edge at the end of row ``row``: the edge stitch from ``foot`` to ``head`` (positions in half
    clusters), or the ``level`` way that leads to its foot; ``kind`` is that of the row. ``below``: so many cm of what
    the row stands on end with it."""

    row: int
    foot: int
    head: int
    level: bool = False
    kind: str = "cluster"
    below: Fraction = Fraction(0)

    @property
    def upright(self) -> bool:
        """Whether the edge stitch stands straight up."""
        return self.foot == self.head

    def long(self, tape: Tape) -> float:
        """Its length in cm."""
        high = 0.0 if self.level else float(tape.high(self.kind) + self.below)
        return hypot((self.head - self.foot) * float(tape.half), high)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One unbroken stretch of an edge: ``parts`` of row ends, upwards, or ``across`` half clusters along a row or
    chain."""

    parts: tuple[EdgePart, ...] = ()
    across: int = 0

    @property
    def rows(self) -> tuple[int, ...]:
        """The numbers of the rows that end in it, in its order."""
        return tuple(part.row for part in self.parts if not part.level)

    @property
    def stepped(self) -> bool:
        """Whether a level way lies in it."""
        return any(part.level for part in self.parts)

    def long(self, tape: Tape) -> float:
        """Its length in cm."""
        return sum(part.long(tape) for part in self.parts) + self.across * float(tape.half)

    def between(self, first: int, last: int) -> Stretch | None:
        """Row ends ``first`` to ``last`` with what is level between them; None where it does not have them all."""
        if not set(range(first, last + 1)) <= set(self.rows):
            return None
        kept = [part for part in self.parts if first <= part.row <= last]
        return Stretch(tuple(kept[1:] if kept[0].level else kept))


Edges = dict[str, tuple[Stretch, ...]]


@dataclass(frozen=True, slots=True)
class UpperParts:
    """What the pattern file has cut into the upper edge of a piece worked sideways: armholes ``armed`` at the first row
    and at the last, a ``neck``; half a front has its middle at the row where it ``opens``. Without any it is one
    edge."""

    armed: tuple[bool, bool] = (False, False)
    neck: bool = False
    opens: Literal["", "first", "last"] = ""


@dataclass(frozen=True)
class WorkedCloth:
    """A worked piece: its ``rows`` in the order worked and the ``yarns`` they are in; ``upper`` is the side of the work
    that is worn upwards in a piece worked sideways, None where its last row is. ``tape`` turns half clusters and rows
    into cm; ``count``: how many alike. In the last ``sloping`` rows the shoulders slope at the ``slopes`` of the
    work. ``sc_below``: how high, in cm, the single crochet along an armhole is that row 1 stands on, else 0.
    ``parts_up``: the parts of an upper edge that has more than a neck, None of any other."""

    name: str
    rows: tuple[WorkedRow, ...]
    yarns: tuple[str | None, ...]
    tape: Tape
    upper: Side | None = None
    count: int = 1
    sloping: int = 0
    slopes: tuple[Side, ...] = ()
    sc_below: Fraction = Fraction(0)
    parts_up: UpperParts | None = None

    @cached_property
    def high(self) -> int:
        """How many rows it is high."""
        return max(row.number for row in self.rows)

    @cached_property
    def tops(self) -> tuple[Fraction, ...]:
        """How high the top of each row lies, in cm, from the foundation on."""
        kinds = {row.number: row.kind for row in self.rows}
        return tuple(accumulate((self.tape.high(kinds[nth]) for nth in range(1, self.high + 1)), initial=self.sc_below))

    @cached_property
    def stacked(self) -> bool:
        """Whether clusters stand over clusters; what has no two rows of them does not show it."""
        pairs = ((one, other) for one, other in pairwise(self.rows) if one.kind == other.kind == "cluster")
        centres = next(((one.centres, other.centres) for one, other in pairs), ((), ()))
        return all(centres) and (centres[1][0] - centres[0][0]) % 2 == 0

    @property
    def lean(self) -> int:
        """How many half clusters an edge leans by in a row: two where single stitches stand on single ones."""
        return 2 if self.stacked and sum(spot.cluster == 0 for spot in self.rows[0].spots) == 1 else 1

    @cached_property
    def parts(self) -> tuple[tuple[WorkedRow, ...], ...]:
        """The rows of the body and, where the work goes on in two parts, those of each part from left to right."""
        again = next((nth for nth in range(1, len(self.rows)) if self._back(nth)), None)
        if again is None:
            return (self.rows,)
        low = self.rows[again].number - 1
        one, other = self.rows[low:again], self.rows[again:]
        return (self.rows[:low], *sorted((one, other), key=lambda rows: rows[0].left.at))

    def _back(self, nth: int) -> bool:
        return self.rows[nth].number <= self.rows[nth - 1].number

    def side(self, side: Side) -> tuple[EdgePart, ...]:
        """The outer edge at a side, from row 1 upwards; beside a neck it goes on along the part at that side."""
        body, *parts = self.parts
        outer = (*body, *(parts[0 if side == "left" else -1] if parts else ()))
        return tuple(_parts(outer, side, self.sc_below))

    @cached_property
    def inner(self) -> tuple[tuple[EdgePart, ...], ...]:
        """The inner edges of two parts, upwards: the right edge of the left one and the left edge of the right one;
        empty where there are no parts."""
        _, *parts = self.parts
        return (tuple(_parts(parts[0], "right")), tuple(_parts(parts[1], "left"))) if parts else ()

    @cached_property
    def edges(self) -> Edges:
        """Every edge by its name ("first", "last", "left", "right", "lower", "upper", "shoulder", "neck", those there
        are), its stretches from row 1 upwards or from the left."""
        found: Edges = {"first": (Stretch(across=_wide(self.rows[0])),)}
        if self.upper:
            found["lower"] = (Stretch(self.side("right" if self.upper == "left" else "left")),)
            side = self.side(self.upper)
            outwards = 1 if self.upper == "right" else -1
            found |= _upper(side) if self.parts_up is None else _with_parts(side, self.parts_up, outwards)
        else:
            found |= {"left": (self._below_slope("left"),), "right": (self._below_slope("right"),)}
        if not self.inner:
            return found | {"last": (Stretch(across=self._wide(self.rows[-1], ("left", "right"))),)}
        tops = tuple(
            Stretch(across=self._wide(rows[-1], (side,)))
            for rows, side in zip(self.parts[1:], SIDES, strict=True)
        )
        left, right = self.inner
        bottom = Stretch(across=right[0].foot - left[0].foot)
        return found | {"shoulder": tops, "last": tops, "neck": (Stretch(left), bottom, Stretch(right))}


    def _below_slope(self, side: Side) -> Stretch:
        rows = self.high - (self.sloping if side in self.slopes else 0)
        return Stretch(tuple(part for part in self.side(side) if part.row <= rows))

    def _wide(self, row: WorkedRow, outer: tuple[Side, ...]) -> int:
        """How wide a last row is, with what its shoulder slopes in at the ``outer`` sides."""
        sloped = [self._below_slope(side).parts[-1].head for side in outer if side in self.slopes]
        return _wide(row) + sum(min(abs(at - row.left.at), abs(at - row.right.at)) for at in sloped)


def _wide(row: WorkedRow) -> int:
    return row.right.at - row.left.at


def _upper(side: Sequence[EdgePart]) -> Edges:
    """The upper edge of a piece worked sideways: shoulders run on straight from both ends, a neck lies between. The
    level way of a step out ends the neck; the stitch above it stands on the shoulder."""
    before = len(list(takewhile(lambda part: part.upright, side)))
    after = len(list(takewhile(lambda part: part.upright, reversed(side))))
    whole: Edges = {"upper": (Stretch(tuple(side)),)}
    if before == len(side):
        return whole | {"shoulder": whole["upper"]}  # where a neck is asked for, too shallow for half a cluster
    first, neck, last = side[:before], side[before : len(side) - after], side[len(side) - after :]
    shoulders = tuple(Stretch(tuple(parts)) for parts in (first, last))
    return {"shoulder": shoulders, "neck": (Stretch(tuple(neck)),), **whole}


def _with_parts(side: Sequence[EdgePart], asked: UpperParts, outwards: int) -> Edges:
    """An upper edge with parts: from either end up to the top of the highest level way is an armhole; from where the
    edge between first comes down to where it last goes up is the neck, in half a front to or from its middle."""
    whole: Edges = {"upper": (Stretch(tuple(side)),)}
    rises = [outwards * (part.head - part.foot) for part in side]
    first, last = 0, len(side)
    if asked.armed[0]:
        climb = list(takewhile(lambda rise: rise >= 0, rises))
        first = climb.index(max(climb)) + 1 if any(climb) else 0
    if asked.armed[1]:
        climb = list(takewhile(lambda rise: rise <= 0, reversed(rises)))
        last -= climb.index(min(climb)) + 1 if any(climb) else 0
    between, rises = tuple(side[first:last]), rises[first:last]
    arms = [Stretch(tuple(part)) for part in (side[:first], side[last:]) if part]
    found: Edges = {"armhole": tuple(arms)} if arms else {}
    if not asked.neck:
        return found | whole | ({"upper": (Stretch(between),)} if arms else {})
    down = next((nth for nth, rise in enumerate(rises) if rise < 0), len(rises))
    up = next((nth for nth in reversed(range(len(rises))) if rises[nth] > 0), -1) + 1
    down, up = 0 if asked.opens == "first" else down, len(rises) if asked.opens == "last" else up
    if down >= up:
        return found | whole | {"shoulder": (Stretch(between),)}
    shoulders = tuple(Stretch(one) for one in (between[:down], between[up:]) if one)
    return found | whole | {"shoulder": shoulders, "neck": (Stretch(between[down:up]),)}


def _parts(rows: Sequence[WorkedRow], side: Side, under: Fraction = Fraction(0)) -> Iterator[EdgePart]:
    """The parts of an edge upwards; the first row stands on its own foot, and on ``under`` cm."""
    below: int | None = None
    for row in rows:
        edge = row.left if side == "left" else row.right
        at, foot = edge.at, edge.at if below is None else below
        if edge.step and foot != at:
            yield EdgePart(row.number, foot, at, level=True)
            foot = at
        yield EdgePart(row.number, foot, at, kind=row.kind, below=under if below is None else Fraction(0))
        below = at
