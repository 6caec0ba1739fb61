"""Edges by the names of people. Source of left and right: the wearer's own, as patterns for garments count them; what
is at the right of a front laid out with its right side up is at the wearer's left (common practice)."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from turnchain.fabric.plan import Plan
from turnchain.garment import borders, edge_names, edges, openings, seams
from turnchain.garment.edge_names import EdgeName
from turnchain.pattern import Neck, Pattern, Piece, Seam, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.records import replace
from turnchain.wording.tables import LANGUAGES, speech_of, told_in

CASES = Path(__file__).parent / "cases"
EVEN = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))


def said(name: EdgeName) -> str:
    return f"{name.hand} {name.kind}".strip()


def names(plan: Plan) -> Iterator[tuple[str, str, str]]:
    for seam in seams.of(plan):
        one, other = edge_names.of_seam(plan, seam)
        yield seam.kind, said(one), said(other)


def test_the_seams_of_a_pullover() -> None:
    found = list(names(plan_pattern(read_file(CASES / "heron_top.toml"))))
    assert {(one, other) for kind, one, other in found if kind == "shoulder"} == {
        ("left shoulder", "left shoulder"),
        ("right shoulder", "right shoulder"),
    }
    assert {(one, other) for kind, one, other in found if kind == "side"} == {
        ("left side below the armhole", "left side below the armhole"),
        ("right side below the armhole", "right side below the armhole"),
    }
    tops = {(one, other) for kind, one, other in found if kind == "sleeve top"}
    assert tops == {("left armhole", "sleeve top"), ("right armhole", "sleeve top")}
    assert {(one, other) for kind, one, other in found if kind == "sleeve"} == {("sleeve edge", "sleeve edge")}


@pytest.mark.parametrize("worked", ["sideways", "upwards"])
@pytest.mark.parametrize("twice", [True, False])
def test_both_sides_of_a_seam_lie_at_the_same_side_of_the_wearer(worked: str, twice: bool) -> None:
    neck = Neck(Fraction(13), Fraction(8), "square")
    front = Piece("front", "sideways" if worked == "sideways" else "upwards", width=Fraction(50), length=Fraction(50),
                  neck=neck)  # fmt: skip
    back = replace(front, name="back", faces="front" if worked == "sideways" else None)
    pieces = (replace(front, name="body", count=2),) if twice else (front, back)
    plan = plan_pattern(Pattern("Test", (EVEN,), pieces))
    found = list(names(plan))
    assert len(found) == 4
    for _, one, other in found:
        assert one == other
        assert one.split()[0] in ("left", "right")


def test_the_front_laid_out_has_the_wearers_left_at_its_right() -> None:
    plan = plan_pattern(read_file(CASES / "heron_top.toml"))
    front = plan.piece("front")
    turn = edges.worn(front)
    for seam in seams.of(plan):
        if seam.kind == "shoulder":
            (name, _) = edge_names.of_seam(plan, seam)
            middle = sum(turn(point)[0] for point in seam.one.points) / len(seam.one.points)
            across = [turn(point)[0] for run in edges.around(front) for point in run.points]
            assert (name.hand == "left") is (middle > Fraction(min(across) + max(across)) / 2)


def test_openings_have_names() -> None:
    neck = Neck(Fraction(13), Fraction(8), "square")
    front = Piece("front", width=Fraction(50), length=Fraction(50), neck=neck)
    plan = plan_pattern(Pattern("Test", (EVEN,), (front, replace(front, name="back"))))
    found = {said(edge_names.of_open(plan, one)) for opening in openings.of(plan) for one in opening.stretches}
    assert found == {"neck", "lower edge", "left armhole", "right armhole"}


def test_edges_of_no_garment_are_named_as_worked() -> None:
    one, two = (Piece(name, width=Fraction(30), length=Fraction(30)) for name in ("one", "two"))
    plan = plan_pattern(Pattern("Test", (EVEN,), (one, two), seams=(Seam(("one.left", "two.last")),)))
    assert list(names(plan)) == [("seam", "left edge", "last row")]


def test_left_and_right_of_a_piece_are_told_as_both() -> None:
    plan = plan_pattern(read_file(CASES / "heron_top.toml"))
    front, back = plan.piece("front"), plan.piece("back")
    left, right = EdgeName("armhole", "left"), EdgeName("armhole", "right")
    found = edge_names.together([(front, left), (back, right), (front, right), (back, right)])
    assert found == [(front, EdgeName("armhole", "both")), (back, right)]


def test_an_edge_at_a_side_is_called_by_its_side_wherever_it_leans() -> None:
    """Below its step out the left edge of this back lies right of its middle: both its sides were called right."""
    front = Piece("front", width=Fraction(40), length=Fraction(40), neck=Neck(Fraction(10), Fraction(8), "square"))
    low, high = Fraction(8), Fraction(40)
    left = ((Fraction(0), low), (low, Fraction(2)), (low, Fraction(30)), (high, Fraction(30)))
    back = Piece("back", left_outline=left, right_outline=((Fraction(0), low), (high, low)))
    plan = plan_pattern(Pattern("Test", (EVEN,), (front, back)))
    sides = [edge_names.of_seam(plan, seam) for seam in seams.of(plan) if seam.kind == "side"]
    assert sorted((one.hand, other.hand) for one, other in sides) == [("left", "left"), ("right", "right")]


HALF = """title = "Top"
swatch = {{ clusters = 10, width = 24, rows = 10, height = 12.5 }}
[[piece]]
name = "left front"
width = 50
length = 56
neck = {{ shoulder = 15, depth = 12, shape = "{shape}" }}
front = {{ side = "left" }}
"""


@pytest.mark.parametrize("shape", ["vee", pytest.param("round", marks=pytest.mark.slow)])
def test_each_open_edge_of_half_a_front_alone_has_one_name(shape: str) -> None:
    """Sewn to nothing, its front edge and its neck were both called left edge, in every language."""
    plan = plan_pattern(read_text(HALF.format(shape=shape), "top.toml"))
    (opening,) = openings.of(plan)
    assert [said(edge_names.of_open(plan, one)) for one in opening.stretches] == [
        "lower edge", "right edge", "upper edge", "neck", "front edge",
    ]  # fmt: skip
    for language in LANGUAGES:
        speech = speech_of(told_in(plan, language).pattern)
        named = [speech.say(f"edge.{side.edge.replace(' ', '_')}") for side in borders.edgings(plan)[0].border.sides]
        assert len(set(named)) == 5, language
    assert not prove(plan).reasons
