"""The instructions of a piece, put together.

In: a ``PiecePlan``. Out: its ``PieceInstructions``, or the ``RowInstructions`` of one of its rows.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal

from turnchain.fabric import stitches
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import PiecePlan, Row
from turnchain.wording.instructions.grouping import grouped
from turnchain.wording.instructions.row_steps import steps_of
from turnchain.wording.instructions.rows import (
    Foundation,
    PieceInstructions,
    RowInstructions,
    SectionInstructions,
    Shaping,
    SpacesOnChain,
    fabric_side,
)


@lru_cache(maxsize=8)  # told in every language of a page
def of_piece(piece: PiecePlan) -> PieceInstructions:
    """The instructions of ``piece``: its foundation and all of its rows, grouped, section by section in the order
    worked."""
    return PieceInstructions(
        name=piece.name,
        count=piece.count,
        worked=piece.worked,
        row_count=piece.row_count,
        colours=tuple(dict.fromkeys(row.colour for row in piece.rows if row.colour)),
        foundation=foundation(piece),
        sections=tuple(_section(piece, name) for name in piece.sections),
    )


def foundation(piece: PiecePlan) -> Foundation:
    """The chain to make for ``piece``, before row 1 and in its yarn."""
    first, recipe = piece.rows[0], piece.recipe
    turning = stitches.first_turning(recipe, first.edge(first.starts).kind)
    multiple = recipe.pitch
    return Foundation(
        chains=piece.foundation_chain,
        base=piece.foundation_chain - turning,
        turning=turning,
        multiple=multiple,
        clusters=len(first.centres),
        colour=first.colour,
        on=piece.begun_on,
    )


@lru_cache(maxsize=2)  # as above
def of_row(piece: PiecePlan, row: Row) -> RowInstructions:
    """The instructions of one ``row`` of ``piece``, ungrouped."""
    following = piece.rows[row.index + 1] if row.index + 1 < len(piece.rows) else None
    if following is not None and following.under != row.index:
        following = None  # a section that is joined anew does not go on from here
    change = following is not None and following.colour != row.colour
    return RowInstructions(
        number=row.number,
        section=row.section,
        side=fabric_side(row.number),
        colour=row.colour,
        steps=steps_of(piece, row),
        clusters=row.clusters,
        kind=row.kind,
        counts=row.counts,
        shaping=tuple(_shaping(piece, row)),
        change_to=following.colour if following is not None and change else None,
        fasten_off=following is None,
        spaces=_spaces(piece, row, following) if following is not None and piece.below(row) is None else None,
    )


def _spaces(piece: PiecePlan, first: Row, second: Row) -> SpacesOnChain | None:
    """Where the spaces of row 1 lie, if it is worked without chains between its clusters, for clusters in row 2."""
    if first.solid or second.solid or piece.recipe.together:
        return None
    spaced = [first.edge(side).kind == "spaced" for side in (first.ends, first.starts)]
    number = first.clusters - 1 + sum(spaced)
    if piece.recipe.gap or piece.recipe.stacked or not number:
        return None
    k = piece.recipe.unit_width
    beside = int(piece.recipe.table.post(first.edge(first.ends).kind))
    return SpacesOnChain(2 if spaced[0] else beside + k, k if number > 1 else 0)


def _shaping(piece: PiecePlan, row: Row) -> Iterator[Shaping]:
    """What the edges do, but for the cut that divides a piece."""
    below = piece.below(row)
    if below is None:
        return
    inner = (row.starts if row.joined else row.ends) if piece.begins_section(row) else None
    ends: tuple[tuple[Literal["start", "end"], Side], ...] = (("start", row.starts), ("end", row.ends))
    for where, side in ends:
        outwards = (row.edge(side).at - below.edge(side).at) * (1 if side == "right" else -1)
        if outwards and side != inner:
            yield Shaping(where, outwards)


def _section(piece: PiecePlan, name: str) -> SectionInstructions:
    rows = piece.section(name)
    told = tuple(of_row(piece, row) for row in rows)
    below = piece.below(rows[0])
    return SectionInstructions(
        name=name,
        after=below.number if below else None,
        joined=rows[0].joined,
        first=told[0],
        blocks=tuple(grouped(told)),
    )
