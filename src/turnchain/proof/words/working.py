"""A written pattern worked, piece by piece.

In: ``Written``. Out: the rows of every piece as they come out; ``Unworkable`` where they cannot be worked,
``Unreadable`` where a piece says of itself what it is not.
"""

from __future__ import annotations

from turnchain.proof.hook.stitches import Craft
from turnchain.proof.maker.piece import Maker
from turnchain.proof.maker.told import Made
from turnchain.proof.words.written import Unreadable, Written, WrittenPiece


def work_words(written: Written) -> dict[str, list[Made]]:
    """Every piece worked as written, by its name. Raises Unworkable or Unreadable."""
    return {piece.name: work_piece(written.craft, piece) for piece in written.pieces}


def work_piece(craft: Craft, piece: WrittenPiece) -> list[Made]:
    """One piece worked as written."""
    maker = Maker(craft, piece.chains, piece.turning, piece.yarn)
    for section in piece.sections:
        if section.after is not None:
            maker.go_back() if section.joined else maker.divide()
        for row in section.rows:
            maker.row(row)
    rows = maker.finish()
    first = rows[0].row
    if piece.times != first.clusters:
        raise Unreadable(f'"{piece.name}": a foundation for {piece.times} clusters; row 1 has {first.clusters}')
    highest = max(made.row.number for made in rows)
    if piece.row_count != highest:
        raise Unreadable(f'"{piece.name}": {piece.row_count} rows are said; {highest} are told')
    return rows
