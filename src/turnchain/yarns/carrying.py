"""Carry or cut: what becomes of a yarn at every change of colour.

In: a ``Plan`` in its colours. Out: for every change whether the yarn waits at the edge where it is wanted, how
far it is carried, and how many ends are left to weave in; data for marks at the chart's edge.

The parity law: after row k a yarn hangs where row k ended, and rows start at the two edges in turn, so it can be
taken up uncut at row m exactly when the number of rows between, m - k - 1, is even. Source: sum; it agrees with
published advice on carrying yarn (place-marker.com, knittingmagic.biz). Comfortable over 2 to 4 rows; longer
floats show.
"""

from __future__ import annotations

from bisect import bisect
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from typing import Literal

from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.numbers import counted
from turnchain.pattern import Stripes
from turnchain.records import frozen, replace
from turnchain.units import shown
from turnchain.yarns.stripes import written

#: Over how many rows a yarn is carried where nothing is said.
USUAL_CARRY = Stripes().carry

Why = Literal["", "new", "odd", "far", "step"]


@frozen
class Change:
    """What happens where a stripe begins: before ``row`` of ``section``, at ``side`` of the chart.

    ``colour`` is carried over ``carried`` rows from where it was last used, row ``last``, or joined anew
    (``carried`` 0): ``why`` says because it is "new" there, hangs at the wrong edge ("odd" number of rows
    between), hangs too "far" below, or the edge has a "step" on the way. ``left`` is the yarn of the row before
    (None in the first row); it ``waits`` to be carried, or is cut.
    """

    section: str
    row: int
    side: Side
    colour: str
    last: int | None
    carried: int
    why: Why
    left: str | None
    waits: bool

    @property
    def joined(self) -> bool:
        """Whether a yarn is joined here and not carried: two ends, where it is joined and where it is later cut."""
        return not self.carried


def threads(piece: PiecePlan) -> tuple[tuple[Row, ...], ...]:
    """The rows that are worked without joining anew: all of them, or the body with the first shoulder, and then
    the second. In the order worked; together they are all rows of the piece."""
    cuts = [0, *(index for index, row in enumerate(piece.rows) if row.joined and index), len(piece.rows)]
    return tuple(piece.rows[low:high] for low, high in pairwise(cuts))


def carry_of(plan: Plan, piece: PiecePlan) -> int:
    """Over how many rows the maker carries a yarn in this piece: as its own stripes say, else the pattern's;
    ``USUAL_CARRY`` where there are no stripes. KeyError for a piece that the plan has not."""
    stripes = written(plan, piece.name).stripes or plan.pattern.stripes
    return stripes.carry if stripes else USUAL_CARRY


def changes(piece: PiecePlan, carry: int = USUAL_CARRY) -> tuple[Change, ...]:
    """Every beginning of a stripe in the order worked, where yarns are carried over at most ``carry`` rows: the first
    row and every change of yarn after it, and the row where yarn is joined anew for a second shoulder."""
    return tuple(change for rows in threads(piece) for change in _of_thread(rows, carry))


def _of_thread(rows: Sequence[Row], carry: int) -> list[Change]:
    stripes = [list(group) for _, group in groupby(rows, key=lambda row: row.colour)]
    steps = {side: _stepped(rows, side) for side in SIDES}
    last: dict[str, Row] = {}
    found: list[Change] = []
    for stripe, before in zip(stripes, [None, *stripes], strict=False):
        row = stripe[0]
        colour, left = row.colour or "", before[-1].colour if before else None
        hung = last.get(colour)
        why = _why_cut(steps[row.starts], hung, row, carry)
        over = row.number - hung.number - 1 if hung and not why else 0
        number = hung.number if hung else None
        found.append(Change(row.section, row.number, row.starts, colour, number, over, why, left, False))
        last[colour] = stripe[-1]
    return _with_waiting(found)


def _stepped(rows: Sequence[Row], side: Side) -> list[int]:
    """The numbers of the rows that step in or out at ``side``, upwards."""
    return [row.number for row in rows if row.edge(side).move in ("step_in", "step_out")]


def _why_cut(steps: Sequence[int], hung: Row | None, row: Row, carry: int) -> Why:
    if hung is None:
        return "new"
    between = row.number - hung.number - 1
    if between % 2:
        return "odd"
    if between > carry:
        return "far"
    # A step leaves the waiting yarn a pitch or more away from the new edge.
    return "step" if bisect(steps, row.number) > bisect(steps, hung.number) else ""


def _with_waiting(found: list[Change]) -> list[Change]:
    """The changes with word of whether the yarn left at each is taken up again."""
    again: dict[str | None, Change] = {}  # by yarn, the next change to it
    done: list[Change] = []
    for change in reversed(found):
        again[change.colour] = change
        following = again.get(change.left)
        done.append(replace(change, waits=following is not None and not following.joined))
    return done[::-1]


def ends_by_colour(piece: PiecePlan, carry: int = USUAL_CARRY) -> Counter[str]:
    """The ends to weave in of one such piece, by the name of the yarn ("" for rows without one): two wherever it is
    joined."""
    ends: Counter[str] = Counter()
    for change in changes(piece, carry):
        ends[change.colour] += 2 * change.joined
    return ends


def ends(piece: PiecePlan, carry: int = USUAL_CARRY) -> int:
    """All ends to weave in of one such piece."""
    return ends_by_colour(piece, carry).total()


# ------------------------------------------------------------------------------------------ what would save ends


@frozen
class Saving:
    """Another way with the same yarns in the same order: its ``words``, in English, and the ``ends`` that one such
    piece then has to weave in."""

    words: str
    ends: int


def savings(piece: PiecePlan, carry: int = USUAL_CARRY) -> tuple[Saving, ...]:
    """Ways that leave fewer ends than now, the fewest first: stripes of an even number of rows, a longer carry, both.
    Of ways with as many ends one alone; empty where none saves any."""
    now = ends(piece, carry)
    even = in_even_stripes(piece)
    two = all(height == 2 for _, height in _heights(even)[:-1])
    words = "two-row stripes" if two else "stripes of an even number of rows"
    far = _farthest(piece)
    found = [Saving(words, ends(even, carry)), Saving(f"carried over up to {far} rows", ends(piece, max(far, carry)))]
    reach = _farthest(even)
    if reach > carry:
        found.append(Saving(f"{words}, carried over up to {reach} rows", ends(even, reach)))
    kept: list[Saving] = []
    for saving in sorted(found, key=lambda one: one.ends):
        if saving.ends < now and all(saving.ends != other.ends for other in kept):
            kept.append(saving)
    return tuple(kept)


def in_even_stripes(piece: PiecePlan) -> PiecePlan:
    """The piece with as many rows in other colours: every stripe a row higher where its rows are odd, the last cut
    where the rows end."""
    colours = [c for colour, height in _heights(piece) for c in [colour] * (height + height % 2)]
    rows = tuple(replace(row, colour=colours[row.number - 1]) for row in piece.rows)
    return replace(piece, rows=rows)


def _heights(piece: PiecePlan) -> list[tuple[str | None, int]]:
    return [(colour, len(list(rows))) for colour, rows in groupby(piece.row_levels, key=lambda row: row.colour)]


def _farthest(piece: PiecePlan) -> int:
    """The longest way over which any yarn could be carried by the parity law."""
    everything = changes(piece, piece.row_count)
    return max((change.carried for change in everything), default=0)


# -------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan) -> list[str]:
    """Ends, carrying and what would save ends, for every piece in more than one yarn: lines in English. Ends are those
    of one such piece unless said otherwise."""
    return [words for piece in plan.pieces if _striped(piece) for words in _piece_lines(plan, piece)]


def _striped(piece: PiecePlan) -> bool:
    return len({row.colour for row in piece.rows}) > 1


def _piece_lines(plan: Plan, piece: PiecePlan) -> Iterator[str]:
    carry = carry_of(plan, piece)
    found = changes(piece, carry)
    count = 2 * sum(change.joined for change in found)
    each = f", {count * piece.count} for {_all_of(piece.count)}" if piece.count > 1 else ""
    yield f"{piece.name}: {count} ends to weave in{each}; {_carried_words(plan, piece, found)}"
    why = Counter(change.why for change in found)
    cut = [f"{counted(why[key], 'time')} because {words}" for key, words in _WHY.items() if why[key]]
    if cut:
        yield f"{piece.name}: yarn is cut and joined again {', '.join(cut)} (carry = {carry})"
    better = savings(piece, carry)
    if better:
        told = "; ".join(f"{one.words}: {one.ends} ends instead of {count}" for one in better)
        yield f"{piece.name}: with the same yarns in the same order, {told}"


def _all_of(count: int) -> str:
    return "both pieces" if count == 2 else f"all {count} pieces"


def _carried_words(plan: Plan, piece: PiecePlan, found: Sequence[Change]) -> str:
    carried = [change for change in found if change.carried]
    over = [change.carried for change in carried]
    if not over:
        return "no yarn is at hand where it is wanted again, so each is cut after its stripe"
    times = {1: "once", 2: "twice"}.get(len(over), f"{len(over)} times")
    return (
        f"carried up the edge {times}, over {max(over)} rows at most "
        f"({shown(max(_float(piece, change) for change in carried), plan.pattern.units)})"
    )


def _float(piece: PiecePlan, change: Change) -> Fraction:
    """How long, in cm, the strand is that a yarn is carried over."""
    return piece.up(change.row - 1) - piece.up(change.row - 1 - change.carried)


_WHY: dict[Why, str] = {
    "odd": "it is at the other edge (an odd number of rows between)",
    "far": "it is farther below than yarn is carried",
    "step": "the edge has a step on the way",
}
