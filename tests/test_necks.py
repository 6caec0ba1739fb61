"""Necks worked out by hand, as letters, against the planner.

In: ``behaviours/necks``: a head that explains the hand-work, the piece, ``---``, and its rows as drawn, row 1 at the
bottom, a letter to half a pitch: ``|`` post, ``C`` cluster, ``.`` gap, ``x`` not worked. The gauge is u = q = 1 cm.
Clusters are those an independent worker has on the hook, not those the planner says it has.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from test_shapes import worked_rows
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern

FILES = sorted((Path(__file__).parent / "behaviours" / "necks").glob("*.txt"))
SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))
LENGTHS = ("width", "length")


@dataclass(frozen=True)
class Expected:
    """What a file says: the ``keys`` of the piece, and its rows as letters from the bottom up."""

    keys: dict[str, Any]
    letters: list[str]


def expected(file: Path) -> Expected:
    head, _, rows = file.read_text("utf-8").partition("---\n")
    lines = [line.split(maxsplit=1) for line in rows.splitlines()]
    assert [int(number) for number, _ in lines] == list(range(len(lines), 0, -1))
    return Expected(tomllib.loads(head), [letters for _, letters in reversed(lines)])


def planned(keys: dict[str, Any], fabric: Fabric | None = None) -> PiecePlan:
    neck = {name: value if name == "shape" else Fraction(str(value)) for name, value in keys["neck"].items()}
    given = {name: Fraction(str(keys[name])) for name in LENGTHS}
    others = {name: keys[name] for name in ("worked", "neck_edge") if name in keys}
    piece = Piece("piece", neck=Neck(**neck), **given, **others)
    return plan_pattern(Pattern("Necks", (SWATCH,), (piece,), fabric or Fabric())).pieces[0]


def letters(piece: PiecePlan) -> list[str]:
    """The rows as letters, from the bottom up."""
    low, high = piece.leftmost, piece.rightmost
    drawn = {row.number: ["x"] * (high - low + 1) for row in piece.rows}
    for row, worked in zip(piece.rows, worked_rows(piece), strict=True):
        line = drawn[row.number]
        for at in range(worked.left, worked.right + 1):
            line[at - low] = "."
        for centre in worked.centres:
            line[centre - low] = "C"
        line[worked.left - low] = line[worked.right - low] = "|"
    return ["".join(drawn[number]) for number in sorted(drawn)]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_planner_agrees_with_hand_work(file: Path) -> None:
    wanted = expected(file)
    piece = planned(wanted.keys)
    assert "\n".join(reversed(letters(piece))) == "\n".join(reversed(wanted.letters))
    assert piece.foundation_chain == wanted.keys["chains"]
    if "first" in wanted.keys:
        begun = [row for row in piece.rows if piece.begins_section(row)]
        assert [row.joined for row in begun] == [False, True]
        assert {row.starts for row in begun} == {wanted.keys["first"]}, "both in the same direction"
        sides = sorted(begun, key=lambda row: row.left.at)
        assert begun[0] is sides[0 if wanted.keys["first"] == "left" else 1]


@pytest.mark.quick(7)
@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_fabric_does_not_move_a_neck(file: Path) -> None:
    wanted = expected(file)
    for fabric in (Fabric(5, 1), Fabric(4, 1), Fabric(3, 0), Fabric(4, 0)):
        found = letters(planned(wanted.keys, fabric))
        if file.stem == "sideways_square" and fabric.gap == 0:
            # Closed, both phases need the same chain, so s = 0 decides: every row is the other one's.
            assert found[0] == "|C.C.C.C.|"
        else:
            assert found == wanted.letters


def test_every_shape_both_ways_is_here() -> None:
    said = {(keys["worked"], keys["neck"]["shape"]) for keys in (expected(file).keys for file in FILES)}
    assert said == {(way, shape) for way in ("sideways", "upwards") for shape in ("slant", "round", "vee", "square")}


def test_letters_tell_plans_apart() -> None:
    by_name = {file.stem: letters(planned(expected(file).keys)) for file in FILES}
    assert len({tuple(rows) for rows in by_name.values()}) == len(FILES)


@pytest.mark.parametrize(
    ("stem", "measure", "wanted", "worked"),
    [
        ("sideways_slant", "shoulder", 3, 3),
        ("sideways_slant", "neck depth", 2, 2),
        ("sideways_slant", "neck width", 5, 5),
        ("sideways_round", "shoulder", 3, 3),
        ("sideways_square", "neck depth", 4, 4),
        ("upwards_slant", "shoulder", 2, 2),
        ("upwards_vee", "neck depth", 4, 4),
        ("upwards_round", "neck width", 6, 6),
    ],
)
def test_the_report_measures_what_the_letters_show(stem: str, measure: str, wanted: int, worked: int) -> None:
    (file,) = (file for file in FILES if file.stem == stem)
    fit = next(fit for fit in planned(expected(file).keys).fit if fit.measure == measure)
    assert (fit.wanted, fit.worked) == (wanted, worked)


def test_the_foot_of_a_square_neck_is_a_corner_and_moves_no_rows() -> None:
    """A square neck whose foot is wanted 0.8 mm below the top of a row begins on it, and the piece keeps its height:
    89 rows of 1 cm, 3 of them beside the neck (by hand)."""
    for length, depth in (("88.97", "3"), ("88.97", "3.05"), ("89.03", "2.95")):
        piece = planned({"width": 64, "length": length, "neck": {"shoulder": 20, "depth": depth, "shape": "square"}})
        assert (piece.row_count, sum(row.section != "body" for row in piece.rows)) == (89, 6), (length, depth)
