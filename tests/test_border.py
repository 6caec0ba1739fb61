"""The border in the preview: every open edge has it, no sewn one, with the stitches that the finishing counts.

Counts by hand: 2 single crochets (US) to a row end, 1 to every stitch of a foundation or a last row, 3 in a corner; the
end stitch there counts with it. Source: the published answer named in ``garment.borders``.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path as FilePath

import pytest
from hypothesis import given

from pictures import opened, png_bytes
from test_shapes import UNIT, planned, shaped_patterns, steady
from test_short import CASES, groups
from turnchain.drawing.edged import parts
from turnchain.drawing.looks import Look
from turnchain.drawing.preview import lay_in, preview
from turnchain.fabric.plan import Plan
from turnchain.garment import borders
from turnchain.garment.borders import SC_HEIGHT_IN_ROWS
from turnchain.garment.edging import planned as planned_edgings
from turnchain.making import planned as plan_of_file
from turnchain.pattern import Neck, Pattern, Piece, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Item, Path, Scene, Use

PATTERNS = sorted([*CASES.glob("*.toml"), *(FilePath(__file__).parent.parent / "gallery" / "patterns").glob("*.toml")])


def stitches(scene: Scene, items: tuple[Item, ...]) -> int:
    """How many stitches the items show: bodies, however deep they are in definitions."""
    found = 0
    for item in items:
        if isinstance(item, Use):
            inside = scene.definitions[item.name]
            (only, *_) = inside or (None,)
            found += 1 if isinstance(only, Path) else stitches(scene, inside)
    return found


def drawn(scene: Scene) -> dict[str, int]:
    """The stitches of each border: those of its layers that are shaped like them."""
    found = {}
    for group in groups(scene, "border"):
        inks = list(dict.fromkeys(item.ink for item in group.items if isinstance(item, Use)))
        body = tuple(item for item in group.items if isinstance(item, Use) and item.ink == inks[1])
        found[group.name] = stitches(scene, body)
    return found


def counted(plan: Plan) -> int:
    """The stitches of a border's one row, or of all rows of the edgings that the file asks for."""
    if plan.pattern.edgings:
        return sum(sum(one.counts) for one in planned_edgings.every(plan))
    return sum(one.border.stitches * one.count for one in borders.edgings(plan))


@pytest.mark.quick(3)
@pytest.mark.parametrize("file", PATTERNS, ids=lambda file: file.stem)
def test_a_border_has_the_stitches_that_the_finishing_tells(file: FilePath) -> None:
    plan = plan_of_file(file)
    assert sum(drawn(preview(plan)).values()) == counted(plan)


@pytest.mark.quick(0)
@steady(30)
@given(shaped_patterns(most_rows=8, most_clusters=6))
def test_the_border_of_any_shape_is_whole(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is None:
        return
    for width in (400, 1600):
        assert sum(drawn(preview(plan, width=width)).values()) == counted(plan)


def test_a_rectangle_by_hand() -> None:
    # Row 1 has 4 clusters of 3 with a gap of 1 between flush edges: 2 + 12 + 3 chains. Row 6, the last, has 3 between
    # spaced edges: 2 + 9 + 2 + 2 stitches. 6 rows take 12 at each side.
    piece = Piece("square", width=Fraction(8), length=Fraction(6), exact_clusters=4, row_plan="alternate")
    plan = plan_pattern(Pattern("Square", (UNIT,), (piece,)))
    rows = plan.pieces[0].rows
    assert [rows[index].left.kind for index in (0, -1)] == ["flush", "spaced"]
    assert [len(rows), rows[0].clusters, rows[-1].clusters] == [6, 4, 3]
    (part,) = parts(plan)["square", 0]
    assert part.closed
    assert [side.turned for side in part.sides] == [True] * 4
    assert [side.stitches for side in part.sides] == [17 - 2, 12, 15 - 2, 12]
    assert sum(drawn(preview(plan)).values()) == 15 + 12 + 13 + 12 + 4 * 3


@pytest.mark.parametrize(("stitch", "along"), [("sc", 13), ("hdc", 18), ("dc", 24), ("tr", 34)])
def test_row_ends_of_other_stitches_take_sc_by_their_height(stitch: str, along: int) -> None:
    # 12 rows take 2 to the height of a row of dc: 0.54 of it a row of sc (published: gauges of CAC0502-001982M and
    # of solid dc), 0.75 one of hdc and 1.4 one of tr (from memory, as the fabrics have them): 12.96, 18, 24, 33.6.
    text = (
        f'title = "Square"\n[fabric]\nstitch = "{stitch}"\n[swatch]\nclusters = 10\nrows = 10\nwidth = 10\n'
        'height = 10\nweight = 10\n[[yarn]]\nname = "Reed"\ncolour = "#b9b36a"\n[[piece]]\n'
        'name = "square"\nwidth = 8\nlength = 12\n'
    )
    plan = plan_pattern(read_text(text, "square.toml"))
    (edging,) = borders.edgings(plan)
    assert [side.stitches for side in edging.border.sides if side.how.along in ("any", "row ends")] == [along, along]
    assert prove(plan).reasons == ()


def test_what_is_sewn_has_no_border() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    found = parts(plan)
    for copy in (("front", 0), ("back", 0)):
        edged = {side.stretch.run.name for part in found[copy] for side in part.sides}
        assert edged == {"neck", "lower"}
    for copy in (("sleeve", 0), ("sleeve", 1)):
        (part,) = found[copy]
        assert [side.stretch.run.meets for side in part.sides] == ["row tops"], "the cuff"
        assert not part.closed


def test_the_neck_is_edged_in_the_yarn_of_the_border() -> None:
    """Above the middle of the neck's bottom, within the height of the border, nothing but its yarn is seen."""
    neck = Neck(Fraction(6), Fraction(6), "square")
    yarns = (Yarn("Rush", "#3f7f3f"), Yarn("Clay", "#b04a30", keep=Fraction(10)))
    piece = Piece("front", width=Fraction(24), length=Fraction(20), neck=neck)
    plan = plan_pattern(Pattern("Neck", (UNIT,), (piece,), yarns=yarns))
    scene = preview(plan)
    (laid,) = lay_in(plan, None, 1600 - 96, 1.7 * 1600, float(SC_HEIGHT_IN_ROWS))
    (cloth,) = groups(scene, "cloth")
    left = min(step[1] for item in cloth.items if isinstance(item, Path) for step in item.steps if len(step) == 3)
    top = min(step[2] for item in cloth.items if isinstance(item, Path) for step in item.steps if len(step) == 3)
    front = plan.pieces[0]
    split = next(row for row in front.rows if front.begins_section(row))
    floor = (front.row_count - split.number + 1) * laid.scale.row
    high = float(SC_HEIGHT_IN_ROWS) * laid.scale.row
    picture = opened(png_bytes(scene)).astype(int)
    middle = round(left + laid.size[0] / 2)
    band = picture[round(top + floor - 0.7 * high) : round(top + floor - 0.2 * high), middle - 60 : middle + 60]
    red, green, _ = band.reshape(-1, 3).mean(axis=0)
    assert red > 1.5 * green, "clay, of which some is kept"
    above = picture[round(top + floor - 3 * high) : round(top + floor - 1.6 * high), middle - 60 : middle + 60]
    assert (above == 255).all(), "the neck is open"


def test_a_border_that_meets_a_seam_aslant_ends_on_the_line_of_the_seam() -> None:
    """Of the slipover, whose neck leans 45 degrees or so at the shoulder: nothing stands above the shoulders but the
    roundness of one stitch. Common practice, no source: the other piece's border begins on that line."""
    plan = plan_of_file(FilePath(__file__).parent.parent / "gallery" / "patterns" / "fallow_lane_slipover.toml")
    scene = preview(plan)
    (laid, *_) = lay_in(plan, None, 1600 - 96, 1.7 * 1600, float(SC_HEIGHT_IN_ROWS))
    tops = [
        min(step[2] for item in group.items if isinstance(item, Path) for step in item.steps if len(step) == 3)
        for name in ("cloth", "border") for group in groups(scene, name)[:1]
    ]
    assert len(tops) == 2
    assert tops[1] >= tops[0] - 1, "grounds of the bands"
    picture = opened(png_bytes(scene)).astype(int)
    above = picture[: round(tops[0] - 0.3 * float(SC_HEIGHT_IN_ROWS) * laid.scale.row)]
    heading = max(y for y in range(len(above)) if (above[y] < 250).any())
    assert heading < tops[0] - float(SC_HEIGHT_IN_ROWS) * laid.scale.row, "of words alone"


def test_black_on_white_the_border_is_an_outline() -> None:
    scene = preview(plan_of_file(CASES / "kite_kerchief.toml"), look=Look(inks="mono"))
    for group in groups(scene, "border"):
        assert all(isinstance(item, Path) and item.stroke for item in group.items)
    assert isinstance(groups(scene, "border")[0], Group)


def test_the_border_is_told() -> None:
    assert preview(plan_of_file(CASES / "heron_top.toml")).words.endswith("Every open edge has a border in Heron.")
    plain = plan_pattern(Pattern("Plain", (UNIT,), (Piece("panel", width=Fraction(10), length=Fraction(10)),)))
    assert "border" not in preview(plain).words


def test_alike_borders_are_told_as_both_are_worked() -> None:
    """Sideways, one armhole lies along the chain and the other along the last row: both are stitches and chains."""
    head = 'title = "Slipover"\nswatch = { clusters = 4, width = 10, rows = 8, height = 10 }\n'
    body = 'worked = "sideways"\nwidth = 50\nlength = 55\nneck = { shoulder = 14, depth = 8, shape = "vee" }\n'
    text = f'{head}[[piece]]\nname = "front"\n{body}[[piece]]\nname = "back"\nfaces = "front"\n{body}'
    plan = plan_pattern(read_text(text, "x.toml"))
    (armholes,) = [one for one in borders.edgings(plan) if one.kind == "armhole"]
    assert armholes.count == 2
    assert {side.how.along for side in armholes.border.sides} == {"row tops"}
    assert prove(plan).reasons == ()
