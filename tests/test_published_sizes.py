"""Published patterns in several sizes, each from one file: chains, counts, rows and busts as they were printed.

Sources: the granny cardigan of The Graceful Tangle; Lion Brand, Sutton's Shell Top, and Lion Brand 70644AD. The sums on
them are ours. What is printed is given to the file as a maker would: measures by the gauge and, in the solid rows, the
stitches to make; the rest must come out of it.
"""

from __future__ import annotations

from fractions import Fraction
from math import isclose

import pytest

from turnchain.planning.planner import plan_sizes
from turnchain.reading.pattern_file import read_sizes
from turnchain.wording.all_sizes import all_sizes_text

CARDIGAN = """
title = "Granny cardigan"
sizes = ["1", "2", "3", "4", "5"]
units = "in"
[swatch]
clusters = 2
width = 2
rows = 4
height = 2
[fabric]
kind = "closed"
[[piece]]
name = "back"
width = "21 (25, 29, 33, 37)"
length = "24 (26, 26, 26, 26)"
row_plan = "alternate"
"""
TOP = """
title = "Sleeveless top"
sizes = ["1", "2", "3", "4", "5", "6", "7"]
units = "in"
[swatch]
clusters = 16
width = 3.5
rows = 21
height = 4
[fabric]
kind = "solid-sc"
[[piece]]
name = "back"
width = "17 (18.5, 20.5, 22.5, 24.5, 26.5, 28.5)"
length = 12
exact_clusters = "76 (82, 91, 100, 109, 118, 127)"
"""
PULLOVER = """
title = "Pullover"
sizes = ["1", "2", "3", "4", "5"]
units = "in"
[swatch]
clusters = 9
width = 4
rows = 7
height = 4
[fabric]
kind = "solid-hdc"
[[piece]]
name = "back"
width = "18.5 (20.5, 22, 24, 26)"
length = 12
exact_clusters = "40 (44, 48, 52, 56)"
"""


def test_granny_cardigan() -> None:
    """Its turning chain of 2 does not count and ours of 3 does, which is one chain more; else it is printed as
    66 (78, 90, 102, 114) chains, 48 rows in the first size and 52 in the others, a bust of 42 (50, 58, 66, 74) in."""
    plans = plan_sizes(read_sizes(CARDIGAN, "x"))
    pieces = [plan.piece("back") for plan in plans]
    assert [piece.foundation_chain - 1 for piece in pieces] == [66, 78, 90, 102, 114]
    assert [piece.row_count for piece in pieces] == [48, 52, 52, 52, 52]
    assert [piece.rows[1].clusters for piece in pieces] == [21, 25, 29, 33, 37]
    widths = [next(fit.worked for fit in piece.fit if fit.measure == "width") for piece in pieces]
    assert [2 * width / Fraction("2.54") for width in widths] == [42, 50, 58, 66, 74]
    words = all_sizes_text(plans)
    assert "ch 67 (79, 91, 103, 115)" in words
    assert "48 (52, 52, 52, 52) rows, worked upwards." in words
    assert "only:" not in words


@pytest.mark.parametrize(
    ("text", "chains", "stitches", "busts"),
    [
        (
            TOP, (79, 85, 94, 103, 112, 121, 130), "78 [84, 93, 102, 111, 120, 129] sc",
            (34, 37, 41, 45, 49, 53, 57),
        ),
        (PULLOVER, (44, 48, 52, 56, 60), "42 [46, 50, 54, 58] hdc", (37, 41, 44, 48, 52)),
    ],
)  # fmt: skip
def test_solid_rows(text: str, chains: tuple[int, ...], stitches: str, busts: tuple[int, ...]) -> None:
    """Chains and stitches are printed so, and the stitches by the gauge are the printed bust to 9/16 in."""
    plans = plan_sizes(read_sizes(text, "x"))
    pieces = [plan.piece("back") for plan in plans]
    assert tuple(piece.foundation_chain for piece in pieces) == chains
    words = all_sizes_text(plans)
    assert f"ch {chains[0]} ({', '.join(map(str, chains[1:]))})" in words
    assert f"({stitches})" in words
    assert "only:" not in words
    for piece, bust in zip(pieces, busts, strict=True):
        across = (piece.rows[0].clusters + 2) * piece.gauge.pitch / Fraction("2.54")  # its edge stitches count
        assert isclose(2 * across, bust, abs_tol=0.5625)
