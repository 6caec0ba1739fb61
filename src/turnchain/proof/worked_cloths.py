"""The cloth of every piece of a plan, as worked, with the tape to measure it.

In: a plan and the worked rows of its pieces. Out: ``cloths``, by the names of pieces.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Pattern, Piece
from turnchain.proof import asking
from turnchain.proof.cloth import tape
from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.hook.stitches import WorkedRow

#: The worked rows of each piece by its name, each with its yarn.
WorkedPieces = Mapping[str, Sequence[tuple[WorkedRow, str | None]]]


def cloths(plan: Plan, worked: WorkedPieces) -> dict[str, WorkedCloth]:
    """Every worked piece by its name, with the tape to measure it: the mean of the swatches; where pieces are begun,
    each of these by its own rows and all others by the mean of those."""
    swatch = tape.of_swatches(*asking.readings(plan.pattern))
    fabric = plan.pattern.fabric
    if len({*fabric.rows, *fabric.base, *fabric.last}) > 1:
        counted = asking.counted_alone(plan.pattern)
        swatch = tape.of_kinds(swatch, fabric.rows, (*fabric.base, *fabric.last), fabric.stitch, counted)
        dense = asking.weighing(plan.pattern, Fraction(1), Fraction(1)).dense
        swatch = tape.weighing(swatch, fabric.rows, counted, dense)
    own = {
        one.piece: tape.of_begun(swatch, [row for row, _ in worked[one.piece]][: one.rows], one.height, one.width)
        for one in plan.pattern.progress
    }
    usual = tape.mean(list(own.values())) if own else swatch
    return {
        piece.name: _cloth(plan.pattern, piece, asked, worked[piece.name], own.get(piece.name, usual))
        for piece, asked in zip(plan.pieces, plan.pattern.pieces, strict=True)
    }


def _cloth(
    pattern: Pattern, piece: PiecePlan, asked: Piece, rows: Sequence[tuple[WorkedRow, str | None]], by: tape.Tape
) -> WorkedCloth:
    made, yarn_of = zip(*rows, strict=True)
    sloping, slopes = asking.slopes(asked, by.row)
    by = replace(by, stitch=piece.recipe.stitch.name)
    below = tape.row_of_sc(by, asking.counted_alone(pattern)) if asked.begin_on == "armhole" else Fraction(0)
    up = asking.upper_parts(asked, piece.top)
    return WorkedCloth(piece.name, made, yarn_of, by, piece.top, piece.count, sloping, slopes, below, up)


