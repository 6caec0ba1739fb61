"""The fabrics that a pattern file can name, in plain text.

In: nothing; the package's fabrics. Out: a paragraph for each: a straight row in words, what to chain for, how wide a
repeat usually is, where it can be shaped.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from turnchain.fabric import library
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.records import frozen
from turnchain.wording import words
from turnchain.wording.instructions.one_piece import foundation
from turnchain.wording.words import special_stitches

REPEATS = 6  # across the row that is shown
HEAD = """\
Write the name of a fabric into the pattern file, as in kind = "moss" under [fabric]. Terms are US: sc single crochet,
hdc half double crochet, dc double crochet, tr treble crochet; ch chain, tch turning chain, st stitch, sp space,
cl cluster, V V stitch, sh shell.
A fabric of your own is a file beside the pattern, as in kind = "mine.toml"; README has an example."""


@frozen
class FabricTold:
    """A fabric in words: its ``name``, what its ``unit`` is, what to chain for, how wide a repeat usually is
    (``proportion``), how its edges can be shaped (``shaping``), and a straight ``row``."""

    name: str
    unit: str
    chain: str
    proportion: str
    shaping: str
    row: str


def fabrics_text() -> str:
    """What the words mean, and all fabrics by the alphabet, a paragraph each, ending in a line break."""
    return "\n\n".join([HEAD, *("\n  ".join(_lines(told(name))) for name in library.names())]) + "\n"


def _lines(one: FabricTold) -> Iterator[str]:
    yield one.name
    yield one.unit
    yield f"chain {one.chain}; a repeat is {one.proportion}"
    yield f"edges {one.shaping}"
    yield f"a row: {one.row}"


def told(name: str) -> FabricTold:
    """The fabric of the package called ``name``. Raises UnsoundRecipe where there is none."""
    fabric = library.clusters_of(name) or Fabric(kind=name)
    recipe = library.recipe_of(fabric)
    pitch = recipe.usual_pitch()
    swatch = Swatch(Fraction(10), 10 * pitch, Fraction(10), Fraction(10))
    straight = Piece("straight", width=REPEATS * pitch, length=Fraction(4))
    plan = plan_pattern(Pattern(name, (swatch,), (straight,), fabric))
    (piece,) = plan.pieces
    made = foundation(piece)
    chain = f"a multiple of {made.multiple} {'plus' if made.plus >= 0 else 'minus'} {abs(made.plus)}"
    if made.multiple == 1:
        chain = f"any number, {made.plus + 1} at least"
    by = "a repeat" if recipe.table.whole else "half a repeat"
    return FabricTold(
        name=name,
        unit=next(iter(special_stitches(plan, "US"))),
        chain=chain,
        proportion=f"about {float(pitch):.2f} rows wide",
        shaping="straight" if recipe.slit or recipe.alternating else f"straight or shaped by {by} a row, steps, necks",
        row=words.row_said(piece, piece.rows[1], "US").steps,  # without its heading and its count
    )
