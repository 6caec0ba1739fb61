"""A small picture of a fabric: a few rows stitch by stitch, to tell fabrics apart before one is chosen.

In: a fabric. Out: a ``Scene`` of its stitches alone, in its usual proportion, without numbers and words, and
without edges but where these are what makes the fabric.
"""

from __future__ import annotations

import math
from fractions import Fraction

from turnchain.drawing.detail import Asked, CloseUp
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import setting
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import Plan
from turnchain.numbers import rounded
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Item, Path, Scene, Use, polyline, rectangle
from turnchain.style import PLAIN_STRIPE, mixed

ROWS = 3  # that are shown
SHAPE = 1.5  # width over height of the picture
MARGIN = 3  # rows of the piece below and above those shown, and repeats beside them


def straight(fabric: Fabric) -> Plan:
    """A straight piece of ``fabric`` with the usual proportion of its stitches, large enough for its picture; a row is
    1 cm high. Raises PatternError."""
    pitch = recipe_of(fabric).usual_pitch()
    across = math.ceil(SHAPE * ROWS / pitch) + 2 * MARGIN
    piece = Piece("sample", width=across * pitch, length=Fraction(ROWS + 2 * MARGIN))
    swatch = Swatch(Fraction(10), 10 * pitch, Fraction(10), Fraction(10))
    return plan_pattern(Pattern("sample", (swatch,), (piece,), fabric))


def sample(plan: Plan, size: int = 1080) -> Scene:
    """The picture of a plan made by ``straight``, drawn for ``size`` px and cut to its rows. MakerError where a file of
    symbols cannot be read."""
    (piece,) = plan.pieces
    rows = range(MARGIN + 1, MARGIN + ROWS + 1)
    close = CloseUp(setting(plan, piece.name, Look()), Asked(rows[0], rows[-1], "right"), (size, size))
    sheet = close.sheet
    top, high = sheet.top(rows[-1]), round(ROWS * sheet.rise)
    wide = round(SHAPE * high)
    apart = plan.recipe.slit or plan.recipe.bare  # what is apart of these is their edge
    beyond = 0.7 if apart else -2.0  # half pitches
    left = round(sheet.side(piece.rows[0].right.at, "right") - wide + beyond * sheet.half)
    ink = close.found.colours.ink(piece.rows[0])
    line, thick = mixed(ink, PLAIN_STRIPE, 0.25), rounded(0.022 * sheet.rise)
    items: list[Item] = [Path(rectangle(0, 0, wide, high), fill=PLAIN_STRIPE)]
    for row in piece.rows[rows[0] - 2 : rows[-1] + 1]:  # what reaches in from above and below is seen too
        y = rounded(sheet.top(row.number) - top)
        items.append(Path(polyline([(0.0, y), (float(wide), y)]), stroke=line, width=thick, cap="butt"))
        items.append(Use(close.definitions.row(row), rounded(sheet.x(row.left.at) - left), y, ink))
    return Scene(
        width=wide,
        height=high,
        title="",
        words="",
        language="en",
        definitions=close.definitions.made,
        items=tuple(items),
        background=PLAIN_STRIPE,
    )
