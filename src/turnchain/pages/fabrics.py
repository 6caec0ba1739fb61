"""The fabrics that a pattern file can name, in plain text.

In: nothing; the package's fabrics. Out: a paragraph for each: a straight row in words, what to chain for, how wide a
repeat usually is, where it can be shaped.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain.fabric import library
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.wording import words
from turnchain.wording.instructions.one_piece import foundation
from turnchain.wording.words import special_stitches

REPEATS = 6  # across the row that is shown
HEAD = """\
Write the name of a fabric into the pattern file, as in kind = "moss" under [fabric]. Terms are US: sc single crochet,
hdc half double crochet, dc double crochet, tr treble crochet; ch chain, tch turning chain, st stitch, sp space,
cl cluster, V V stitch, sh shell.
A fabric of your own is a file beside the pattern, as in kind = "mine.toml"; README has an example."""


def fabrics_text() -> str:
    """What the words mean, and all fabrics by the alphabet, a paragraph each, ending in a line break."""
    return "\n\n".join([HEAD, *("\n  ".join(_told(name)) for name in library.names())]) + "\n"


def _told(name: str) -> Iterator[str]:
    fabric = library.clusters_of(name) or Fabric(kind=name)
    recipe = library.recipe_of(fabric)
    pitch = recipe.usual_pitch()
    swatch = Swatch(Fraction(10), 10 * pitch, Fraction(10), Fraction(10))
    straight = Piece("straight", width=REPEATS * pitch, length=Fraction(4))
    plan = plan_pattern(Pattern(name, (swatch,), (straight,), fabric))
    (piece,) = plan.pieces
    made = foundation(piece)
    yield name
    yield next(iter(special_stitches(plan, "US")))
    chain = f"a multiple of {made.multiple} plus {made.plus}"
    if made.multiple == 1:
        chain = f"any number, {made.plus + 1} at least"
    yield f"chain {chain}; a repeat is about {float(pitch):.2f} rows wide"
    by = "a repeat" if recipe.table.whole else "half a repeat"
    yield f"edges straight or shaped by {by} a row, steps, necks"
    yield f"a row: {_row(piece)}"


def _row(piece: PiecePlan) -> str:
    """The steps of a straight row, without its heading and its count."""
    row = words.row_said(piece, piece.rows[1], "US")
    return row.steps
