"""Clusters without edge stitches: published pieces, a row at every kind of edge by hand, what cannot be had of them.

Sources. S1: thelittletreasures, granny-stripe bandana, 2024: row r has r clusters. S4: tinascrochetpage, scarf without
half ends, 2006: every row begins and ends with a whole cluster. Chains of moss stitch turned with two: common practice,
no source. Everything else is own arithmetic from the edge table.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from turnchain.errors import PatternError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_file
from turnchain.wording.words import row_words

SWATCH = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))  # half a pitch and a row are 1 cm each


def plan_of(piece: Piece, kind: str = "bare-open") -> Plan:
    return plan_pattern(Pattern("Bare", (SWATCH,), (piece,), Fabric(kind=kind)))


def shaped(first: int, last: int, rows: int, kind: str = "bare-open") -> PiecePlan:
    """A piece from ``first`` to ``last`` cm wide, alike at both edges."""
    outline = ((Fraction(0), Fraction(first)), (Fraction(rows), Fraction(last)))
    plan = plan_of(Piece("piece", outline=outline), kind)
    assert prove(plan).holds
    return plan.pieces[0]


@pytest.mark.parametrize("kind", ["bare-open", "bare-closed"])
def test_a_bandana_has_as_many_clusters_in_a_row_as_its_number(kind: str) -> None:
    """S1: 19 rows, 190 clusters, 570 dc, the turning chain the first of each row."""
    piece = shaped(0, 38, 19, kind)
    assert [row.clusters for row in piece.rows] == list(range(1, 20))
    assert (piece.row_count, piece.total_clusters) == (19, 190)
    assert sum(row.counts.dc + row.counts.tch for row in piece.rows) == 570
    assert {edge.kind for row in piece.rows for edge in (row.left, row.right)} == {"bare"}


def test_a_scarf_ends_without_half_clusters() -> None:
    """S4: each row of the end one cluster less, whole ones at both of its edges, and no edge stitch: 3 dc for each."""
    piece = shaped(12, 0, 12)
    below = [row.clusters for row in piece.rows]
    ending = [(one, other) for one, other in pairwise(piece.rows) if other.clusters == one.clusters - 1]
    assert len(ending) >= 4
    assert below[-1] == 1
    for _, other in ending:
        if {edge.move for edge in (other.left, other.right)} == {"decrease"}:
            assert other.counts.dc + other.counts.tch == 3 * other.clusters
            assert row_words(piece, other, "US").count("leave last 1 cl unworked") == 1


def test_moss_stitch_turned_with_two_chains() -> None:
    """20 chains, 9 sc from the 4th on; every row ch 2 and a sc in each space. Common practice, no source."""
    plan = plan_of(Piece("cushion", width=Fraction(20), length=Fraction(6), exact_clusters=9), "moss-plain")
    assert prove(plan).holds
    (piece,) = plan.pieces
    assert piece.foundation_chain == 20
    first = row_words(piece, piece.rows[0], "US")
    assert "Sc in 4th ch from hook, [ch 1, skip 1 ch, sc in next ch] 8 times. 9 sc " in first
    for row in piece.rows[1:]:
        assert "Ch 2, turn, sc in first sp, [ch 1, sc in next sp] 8 times. 9 sc " in row_words(piece, row, "US")


@pytest.mark.parametrize(
    ("first", "last", "said"),
    [
        (14, 4, "Turn, skip first st, sl st in each of next 2 st, sl st in next sp, ch 3, 2 dc in base of tch, ch 1,"),
        (4, 14, "Ch 3, turn, 2 dc in base of tch, ch 1, cl in first sp"),
    ],
)
def test_an_edge_by_hand(first: int, last: int, said: str) -> None:
    piece = shaped(first, last, 10)
    bare = [row for row in piece.rows[1:] if row.left.kind == row.right.kind == "bare"]
    row = next(row for row in bare if row.left.move != "straight")
    assert said in row_words(piece, row, "US")


def test_straight_rows_start_with_an_edge_stitch() -> None:
    """Ch 4 and no slip stitches, where rows can be worked both ways; a maker may choose the other."""
    plan = plan_of(Piece("scarf", width=Fraction(15), length=Fraction(6)))
    (piece,) = plan.pieces
    assert {row.edge(row.starts).kind for row in piece.rows} == {"spaced"}
    other = plan_pattern(Pattern("Bare", (SWATCH,), (Piece("scarf", width=Fraction(15), length=Fraction(6)),),
                                 Fabric(kind="bare-open", start="bare")))  # fmt: skip
    assert {row.edge(row.starts).kind for row in other.pieces[0].rows} == {"bare"}


FILE = """title = "Bare"
[fabric]
kind = "{kind}"
{more}
[[swatch]]
clusters = 5
width = 10
rows = 10
height = 10
[[piece]]
name = "piece"
{shape}
"""
STRAIGHT = "width = 20\nlength = 10"


@pytest.mark.parametrize(
    ("kind", "more", "shape", "said"),
    [
        ("bare-open", 'rows = ["cluster", "sc"]', STRAIGHT, "go with clusters that have edge stitches"),
        ("bare-open", 'foundation = "grouped"', STRAIGHT, "every stitch has a chain of its own"),
        ("bare-open", 'start = "flush"', STRAIGHT, 'in this fabric an edge is "bare" or "spaced"'),
        ("open", 'start = "bare"', STRAIGHT, 'in this fabric an edge is "flush" or "spaced"'),
        ("bare-open", "turning_chain_counts = false", STRAIGHT, "the first stitch of a row, so it counts"),
        ("moss-plain", "", "outline = [[0, 20], [10, 10]]", "whatever their edges are these are straight"),
    ],
)
def test_what_cannot_be_had_is_told(tmp_path: Path, kind: str, more: str, shape: str, said: str) -> None:
    path = tmp_path / "pattern.toml"
    path.write_text(FILE.format(kind=kind, more=more, shape=shape), "utf-8")
    with pytest.raises(PatternError) as refused:
        plan_pattern(read_file(path))
    assert said in str(refused.value)


def test_two_stitches_without_a_chain_look_like_an_edge(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text('edges = "bare"\nunit = "dc dc"\ngap = 0\nedge = "dc"\n', "utf-8")
    path = tmp_path / "pattern.toml"
    path.write_text(FILE.format(kind="mine.toml", more="", shape=STRAIGHT), "utf-8")
    with pytest.raises(PatternError, match="look like an edge stitch with its filling"):
        read_file(path)
