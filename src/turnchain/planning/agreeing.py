"""Pieces that meet, planned to have the same rows.

In: a pattern and what each of its pieces might be. Out: for pieces that face one another, or that a seam along their
rows joins, and that are wanted equally high: the number of rows that suits them best together.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from fractions import Fraction
from itertools import combinations
from typing import Final

from turnchain.pattern import FRONT_EDGE, Pattern, Piece
from turnchain.planning.budget import BudgetSpent
from turnchain.planning.pieces import Choice

#: The edges that run along the rows, from the first to the last, by the way a piece is worked.
_ALONG: Final = {"upwards": ("left", "right"), "sideways": ("lower", "upper", "shoulder", "left", "right")}


def agreed(pattern: Pattern, choices: Mapping[str, Choice], fixed: Mapping[str, int]) -> dict[str, Choice]:
    """``choices`` by the names of pieces, those that meet with the same number of rows; ``fixed``: how many rows high
    each piece is that is begun. What a maker has chosen by ``exact_rows`` stays, and no other piece follows it. Where
    the budget is spent, or no number of rows serves all that meet, each piece keeps its own best plan."""
    free = {name: one for name, one in choices.items() if one.job.target.piece.exact_rows is None}
    found = dict(choices)
    for group in _groups(pattern, [*free, *fixed]):
        members = [name for name in group if name in free]
        rows = {fixed[name] for name in group if name in fixed}
        found |= _together({name: free[name] for name in members}, rows)
    return found


def beside(pattern: Pattern, begun: Collection[str]) -> set[str]:
    """The pieces that meet one of those ``begun``: their rows are no longer free."""
    groups = _groups(pattern, [piece.name for piece in pattern.pieces])
    return {name for group in groups if not set(group).isdisjoint(begun) for name in group}


def _together(group: dict[str, Choice], fixed: set[int]) -> dict[str, Choice]:
    """All of a ``group`` with the number of rows that is best by the sum of their ranks."""
    natural = {one.best.rows for one in group.values()}
    if len(natural | fixed) < 2 or len(fixed) > 1:
        return group
    counts = fixed or _counts(group)
    try:
        ways = [_with_rows(group, rows) for rows in sorted(counts)]
    except BudgetSpent:  # each has its plan
        return group
    whole = [way for way in ways if len(way) == len(group)]
    return min(whole, key=_rank, default=group)


def _rank(group: dict[str, Choice]) -> list[int]:
    """The order of preference for all of a ``group``: the sums of each part."""
    return [sum(parts) for parts in zip(*(one.best.rank for one in group.values()), strict=True)]


def _counts(group: dict[str, Choice]) -> set[int]:
    """The numbers of rows to be weighed: those that every shaped piece weighs by itself, since a straight one can have
    any; where there is none, those that any does."""
    counts = {name: {one.rows for one in choice.ranked} for name, choice in group.items()}
    targets = {name: choice.job.target for name, choice in group.items()}
    shaped = [counts[name] for name, target in targets.items() if not target.straight or target.opening is not None]
    return set.intersection(*shaped or counts.values()) or set.union(*counts.values())


def _with_rows(group: dict[str, Choice], rows: int) -> dict[str, Choice]:
    """Those of a ``group`` that can have so many rows."""
    found = {name: choice.with_rows(rows) for name, choice in group.items()}
    return {name: choice for name, choice in found.items() if choice is not None}


# ------------------------------------------------------------------------------------------------------ who meets


def _groups(pattern: Pattern, names: list[str]) -> list[list[str]]:
    """Pieces that meet, directly or by others, in the order of the pattern."""
    group_of = {name: {name} for name in names}
    for one, other in _meeting(pattern):
        if one in group_of and other in group_of and group_of[one] is not group_of[other]:
            whole = group_of[one] | group_of[other]
            group_of |= dict.fromkeys(whole, whole)
    order = [piece.name for piece in pattern.pieces]
    groups = {min(map(order.index, group)): group for group in group_of.values()}
    return [sorted(group, key=order.index) for group in groups.values()]


def _meeting(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Two pieces each that meet along their rows and are wanted equally high."""
    pieces = {piece.name: piece for piece in pattern.pieces}
    pairs = [(piece.name, piece.faces) for piece in pattern.pieces if piece.faces]
    for seam in pattern.seams:
        (one, edge), (other, other_edge) = (end.rpartition(".")[::2] for end in seam.join)
        if _along(pieces[one], edge) and _along(pieces[other], other_edge):
            pairs.append((one, other))
    if not pattern.seams:  # panels of one size are front and back
        pairs += [(one.name, other.name) for one, other in combinations(pattern.pieces, 2) if _alike(one, other)]
        pairs += [(one.name, other.name) for one, other in combinations(pattern.pieces, 2) if _sewn(one, other)]
    for one, other in pairs:
        if height_of(pieces[one]) == height_of(pieces[other]):
            yield one, other


def _along(piece: Piece, edge: str) -> bool:
    """Whether the edge or stretch of that name runs along the rows."""
    return edge in _ALONG[piece.worked] or any(part.name == edge for part in piece.stretches)


def _alike(one: Piece, other: Piece) -> bool:
    panels = one.width is not None and one.length is not None
    return panels and (one.width, one.length, one.worked) == (other.width, other.length, other.worked)


def _sewn(one: Piece, other: Piece) -> bool:
    """Whether two pieces have sides of one height below their armholes or, without armholes, one is half a front."""
    sides = [{(part.low, part.high) for part in piece.stretches if part.name == "side"} for piece in (one, other)]
    armed = [any(part.name == "armhole" for part in piece.stretches) for piece in (one, other)]
    if any(armed):
        return all(armed) and bool(sides[0] & sides[1])
    return one.worked == other.worked == "upwards" and any(_opens(piece) for piece in (one, other))


def _opens(piece: Piece) -> bool:
    """Whether it is half a front that opens."""
    return any(part.name == FRONT_EDGE for part in piece.stretches)


def height_of(piece: Piece) -> Fraction | None:
    """The height wanted in the direction of work, in cm."""
    outline = piece.outline or piece.left_outline
    if outline:
        return outline[-1][0]
    return piece.width if piece.worked == "sideways" else piece.length
