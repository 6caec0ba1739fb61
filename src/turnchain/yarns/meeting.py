"""Which rows lie side by side at a seam with a wish for its stripes, and whether they keep to it.

In: a ``Plan`` and its seams. Out: the pairs of rows; for a plan in its colours those that do not keep to the wish;
where the stripes of a piece had best begin.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import seam_words, seams
from turnchain.garment.seam_sides import PlannedSeam
from turnchain.numbers import counted
from turnchain.records import frozen, replace
from turnchain.yarns.stripes import begin_of, by_kinds, heights, sequence, stripes_of, written

#: How many beginnings are tried for a piece: more than the rows of most orders before they come again.
_MOST_BEGINNINGS = 60


@frozen
class SeamRows:
    """A seam whose stripes should "meet" or "differ": the ``pairs`` of row numbers, of the piece ``one`` and of the
    piece ``other``, that lie side by side, as far as both have rows: counted from the lowest of ``one`` or, where the
    seam takes its last row and not its first, as a second shoulder does, from that. ``letter`` is the seam's."""

    letter: str
    wish: Literal["meet", "differ"]
    one: str
    other: str
    pairs: tuple[tuple[int, int], ...]


def wished(plan: Plan) -> tuple[SeamRows, ...]:
    """The rows that meet at every seam with a wish, in the order of sewing, alike ones once; a seam where no row ends
    meet row ends has no pairs. None without yarns."""
    if not plan.pattern.yarns or not any(seam.stripes for seam in plan.pattern.seams):
        return ()
    return tuple(dict.fromkeys(_seam_rows(seam) for seam in seams.of(plan) if seam.stripes))


def _seam_rows(seam: PlannedSeam) -> SeamRows:
    one, other = (_walked(rows) for rows in seam_words.rows_met(seam))
    way = -1 if one and 1 not in one and seam.one.piece.row_count in one else 1
    pairs = tuple(zip(one[::way], other[::way], strict=False))[::way]
    assert seam.stripes is not None
    return SeamRows(seam.letter, seam.stripes, seam.one.piece.name, seam.other.piece.name, pairs)


def _walked(ends: tuple[int, int] | None) -> list[int]:
    if ends is None:
        return []
    first, last = ends
    return list(range(first, last + 1)) if first <= last else list(range(first, last - 1, -1))


def against(plan: Plan) -> Iterator[tuple[SeamRows, tuple[tuple[int, int], ...]]]:
    """Every seam with a wish, and the pairs of rows in a coloured plan that do not keep to it; no pairs where all
    do."""
    for seam in wished(plan):
        first, second = (_colours(plan.piece(name)) for name in (seam.one, seam.other))
        meet = seam.wish == "meet"
        yield seam, tuple(pair for pair in seam.pairs if (first[pair[0]] == second[pair[1]]) is not meet)


def _colours(piece: PiecePlan) -> dict[int, str | None]:
    return {row.number: row.colour for row in piece.row_levels}


# ---------------------------------------------------------------------------------------------------- beginnings


def with_beginnings(plan: Plan) -> Plan:
    """The plan whose pattern says where the stripes of each piece begin, so that the wishes for seams are kept as far
    as they can be: pieces for which the maker says it stay, and so does the earlier in the file of two. The same plan
    where no seam has a wish."""
    for seam in wished(plan):
        moved = _moved(plan, seam)
        if moved is not None and seam.one != seam.other:
            begin = _best_beginning(plan, seam, moved)
            pieces = tuple(
                replace(piece, stripes_begin=begin) if piece.name == moved else piece for piece in plan.pattern.pieces
            )
            plan = replace(plan, pattern=replace(plan.pattern, pieces=pieces))
    return plan


def _moved(plan: Plan, seam: SeamRows) -> str | None:
    """The later of the two pieces in the file for which no beginning is given."""
    names = [piece.name for piece in plan.pattern.pieces if piece.name in (seam.one, seam.other)]
    return next((name for name in names[::-1] if written(plan, name).stripes_begin is None), None)


def _best_beginning(plan: Plan, seam: SeamRows, moved: str) -> int | None:
    """The first beginning with the fewest rows against the wish; None where the first row will do."""
    stripes = stripes_of(plan.pattern, written(plan, moved))
    if stripes is None:
        return None
    if stripes.kind == "stash":
        # One run of stripes for both pieces: past its highest stripe a row may meet another yarn.
        return max(heights(stripes)) + 1 if seam.wish == "differ" else None
    fixed = seam.other if moved == seam.one else seam.one
    theirs = stripes_of(plan.pattern, written(plan, fixed))
    if theirs is None or theirs.kind == "stash":
        return None
    rows = [max(plan.piece(name).row_count for name in (seam.one, seam.other)) + _MOST_BEGINNINGS]
    here_kinds, there_kinds = ([row.kind for row in plan.piece(name).row_levels] for name in (moved, fixed))
    run, other = sequence(stripes, *rows), by_kinds(
        theirs, there_kinds, sequence(theirs, *rows)[begin_of(plan, fixed) - 1 :]
    )
    pairs = [pair if moved == seam.one else pair[::-1] for pair in seam.pairs]

    def off(begin: int) -> int:
        mine, meet = by_kinds(stripes, here_kinds, run[begin - 1 :]), seam.wish == "meet"
        return sum((mine[here - 1] == other[there - 1]) is not meet for here, there in pairs)

    best = min(range(1, _MOST_BEGINNINGS + 1), key=off)
    return best if best > 1 else None


# -------------------------------------------------------------------------------------------------- makers' words


def lines(plan: Plan) -> list[str]:
    """For every seam with a wish, in a coloured plan, whether it is kept, and the rows where it is not: lines in
    English."""
    return [words for seam, off in against(plan) for words in _told(plan, seam, off)]


_WORDS = {
    "meet": ("the same yarn meets itself in every row", "different yarns meet"),
    "differ": ("different yarns meet in every row", "a yarn meets itself"),
}


def _told(plan: Plan, seam: SeamRows, off: tuple[tuple[int, int], ...]) -> Iterator[str]:
    kept, broken = _WORDS[seam.wish]
    name = f"seam {seam.letter}, {seam.one} to {seam.other}"
    if not seam.pairs:
        yield f"{name}: no row ends lie side by side there, so stripes cannot {seam.wish}"
    elif not off:
        yield f"{name}: {kept}{_begin_words(plan, seam)}"
    else:
        where = ", ".join(_span_words(seam, *span) for span in _spans(off))
        yield f"{name}: {broken} in {counted(len(off), 'row')} of {len(seam.pairs)}: {where}"


def _begin_words(plan: Plan, seam: SeamRows) -> str:
    begun = [(name, begin_of(plan, name)) for name in dict.fromkeys((seam.one, seam.other))]
    said = [f"{name} has stripes_begin = {begin}" for name, begin in begun if begin > 1]
    return f" ({'; '.join(said)})" if said else ""


def _spans(pairs: tuple[tuple[int, int], ...]) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    """Pairs that follow one another, as the first and the last of each stretch."""
    first = last = pairs[0]
    for pair in pairs[1:]:
        if pair[0] - last[0] == 1 and abs(pair[1] - last[1]) == 1:
            last = pair
            continue
        yield first, last
        first = last = pair
    yield first, last


def _span_words(seam: SeamRows, first: tuple[int, int], last: tuple[int, int]) -> str:
    one, other = (_row_words(first[side], last[side]) for side in (0, 1))
    return one if one == other else f"{one} ({seam.other}: {other})"


def _row_words(first: int, last: int) -> str:
    return f"row {first}" if first == last else f"rows {first} to {last}"
