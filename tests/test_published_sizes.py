"""Published patterns in several sizes, each from one file: chains, counts, rows and busts as they were printed.

Sources: the granny cardigan of The Graceful Tangle; Lion Brand, Sutton's Shell Top, and Lion Brand 70644AD. The sums on
them are ours. What is printed is given to the file as a maker would, as measures; of the solid rows those that so many
stitches come to by the gauge, from the first to the last.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import isclose

from turnchain.fabric.plan import PiecePlan
from turnchain.planning.planner import plan_sizes
from turnchain.reading.pattern_file import read_sizes
from turnchain.units import INCH
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
foundation = "grouped"
turning_chain = 2
turning_chain_counts = false
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
"""


def across(stitches: Iterable[int], pitch: Fraction) -> str:
    """How far it is from the first to the last of so many stitches, in inches, for every size."""
    first, *others = (f"{float((count - 1) * pitch):.4f}" for count in stitches)
    return f'"{first} ({", ".join(others)})"'


def up(rows: Iterable[int], row: Fraction) -> str:
    """So many rows in inches, for every size."""
    first, *others = (f"{float(count * row):.4f}" for count in rows)
    return f'"{first} ({", ".join(others)})"'


def told(text: str) -> tuple[list[PiecePlan], str]:
    """The back in every size, and the words of all."""
    plans = plan_sizes(read_sizes(text, "x"))
    return [plan.piece("back") for plan in plans], all_sizes_text(plans)


def test_granny_cardigan() -> None:
    """66 (78, 90, 102, 114) chains, 48 rows in the first size and 52 in the others, a bust of 42 (50, 58, 66, 74)
    in."""
    pieces, words = told(CARDIGAN)
    assert [piece.foundation_chain for piece in pieces] == [66, 78, 90, 102, 114]
    assert [piece.row_count for piece in pieces] == [48, 52, 52, 52, 52]
    assert [piece.rows[1].clusters for piece in pieces] == [21, 25, 29, 33, 37]
    widths = [next(fit.worked for fit in piece.fit if fit.measure == "width") for piece in pieces]
    assert [2 * width / INCH for width in widths] == [42, 50, 58, 66, 74]
    assert "ch 66 (78, 90, 102, 114)" in words
    assert "48 (52, 52, 52, 52) rows, worked upwards." in words
    assert "only:" not in words


def test_sleeveless_top() -> None:
    """Chains; stitches of the body; after the armholes' slip stitches; and after a stitch less at both edges of every
    row. The bust that the stitches come to is the printed one to 9/16 in."""
    body, armhole, top = (
        (78, 84, 93, 102, 111, 120, 129), (68, 74, 81, 90, 97, 106, 113), (60, 62, 67, 70, 73, 78, 81)
    )  # fmt: skip
    pitch, row = Fraction("3.5") / 16, Fraction(4, 21)
    under, rows = up([63] * 7, row), [64 + (first - last) // 2 for first, last in zip(armhole, top, strict=True)]
    points = [
        ("0", across(body, pitch)), (under, across(body, pitch)), (under, across(armhole, pitch)),
        (up(rows, row), across(top, pitch)), (up([94] * 7, row), across(top, pitch)),
    ]  # fmt: skip
    pieces, words = told(f"{TOP}outline = [{', '.join(f'[{height}, {width}]' for height, width in points)}]\n")
    assert [piece.foundation_chain for piece in pieces] == [79, 85, 94, 103, 112, 121, 130]
    for number, expected in ((1, body), (62, body), (63, armhole), (94, top)):
        counts = [next(one for one in piece.rows if one.number == number).clusters + 2 for piece in pieces]
        assert counts == list(expected)
    assert "leave last 4 (4, 5, 5, 6, 6, 7) sc unworked" in words
    assert "(78 [84, 93, 102, 111, 120, 129] sc)" in words
    assert "(60 [62, 67, 70, 73, 78, 81] sc)" in words
    for count, bust in zip(body, (34, 37, 41, 45, 49, 53, 57), strict=True):
        assert isclose(2 * count * pitch, bust, abs_tol=0.5625)


def test_pullover() -> None:
    """Chains; stitches of the body; 22 chains at either side for the sleeves, one row after the other; the chest that
    the stitches come to is the printed one to half an inch."""
    body, sleeve, sleeves = (42, 46, 50, 54, 58), (62, 66, 70, 74, 78), (82, 86, 90, 94, 98)
    pitch, row = Fraction(4, 9), Fraction(4, 7)
    under = up([21] * 5, row)
    points = [
        ("0", across(body, pitch)), (under, across(body, pitch)), (under, across(sleeves, pitch)),
        (up([32] * 5, row), across(sleeves, pitch)),
    ]  # fmt: skip
    pieces, words = told(f"{PULLOVER}outline = [{', '.join(f'[{height}, {width}]' for height, width in points)}]\n")
    assert [piece.foundation_chain for piece in pieces] == [44, 48, 52, 56, 60]
    for number, expected in ((1, body), (21, body), (22, sleeve), (23, sleeves), (32, sleeves)):
        assert [piece.rows[number - 1].clusters + 2 for piece in pieces] == list(expected)
    assert words.count("Ch 22 (last 2 ch are tch), turn, hdc in 3rd ch from hook") == 2
    assert "only:" not in words
    for count, chest in zip(body, (37, 41, 44, 48, 52), strict=True):
        assert isclose(2 * count * pitch, chest, abs_tol=0.5)
