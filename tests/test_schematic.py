"""The schematic read back: every figure is the plan's, every arrow as long as its figure, nothing off the page.

The oracle is the plan (its worked measures) and the scale bar that the picture itself carries; pictures are also drawn
by a second renderer.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from math import dist, pi
from pathlib import Path as FilePath

import pytest

from pictures import cairos, check_alike, ours
from turnchain import style
from turnchain.drawing import assembly, drafting, schematic, sewn
from turnchain.fabric.plan import Plan
from turnchain.garment import edges, seams
from turnchain.lettering.measuring import measure
from turnchain.pattern import Neck, Pattern, Piece, Seam, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace
from turnchain.scene import Group, Item, Path, Scene, Text
from turnchain.units import tailored

CASES = FilePath(__file__).parent / "cases"
SWATCH = Swatch(Fraction(11), Fraction(26), Fraction(18), Fraction(21))
NAMES = ["heron_top", "kite_kerchief", "mudflat_blanket"]


def case(name: str) -> Plan:
    return plan_pattern(read_file(CASES / f"{name}.toml"))


def points(*pairs: tuple[int, int]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((Fraction(height), Fraction(width)) for height, width in pairs)


def garment(worked: str, shape: str) -> Plan:
    """A front and a back with a neck, and sleeves worked from the cuff."""
    necks = [Neck(Fraction(13), Fraction(depth), shape) for depth in (8, 3)]  # type: ignore[arg-type]
    body = [
        Piece(name, worked, width=Fraction(54), length=Fraction(60), neck=neck)  # type: ignore[arg-type]
        for name, neck in zip(("front", "back"), necks, strict=True)
    ]
    if worked == "sideways":
        body[1] = replace(body[1], faces="front")
    sleeve = Piece("sleeve", count=2, outline=points((0, 24), (6, 24), (40, 36)))
    return plan_pattern(Pattern("Trial", (SWATCH,), (*body, sleeve)))


def lopsided() -> Plan:
    """Edges given apart, with a step, in inches, beside something much longer."""
    half = Piece(
        "half",
        left_outline=points((0, 20), (50, 20)),
        right_outline=points((0, 14), (10, 14), (10, 18), (30, 24), (50, 24)),
    )
    scarf = Piece("scarf", width=Fraction(20), length=Fraction(190))
    return plan_pattern(Pattern("Lopsided", (SWATCH,), (half, scarf), units="in"))


PLANS = {
    **{name: lambda name=name: case(name) for name in NAMES},
    **{
        f"{worked} {shape}": lambda worked=worked, shape=shape: garment(worked, shape)
        for worked in ("sideways", "upwards")
        for shape in ("slant", "round", "vee", "square")
    },
    "lopsided": lopsided,
}


@pytest.fixture(scope="module", params=PLANS)
def plan(request: pytest.FixtureRequest) -> Plan:
    made: Plan = PLANS[request.param]()
    return made


def walk(items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from walk(item.items)


def texts(items: tuple[Item, ...]) -> list[Text]:
    return [item for item in walk(items) if isinstance(item, Text)]


def measures(scene: Scene) -> dict[str, Group]:
    """The groups of measures by what they say of themselves: "front, width"."""
    groups = [item for item in walk(scene.items) if isinstance(item, Group) and item.name.startswith("measure-")]
    return {group.words.partition(":")[0]: group for group in groups}


def scale_of(scene: Scene) -> float:
    """Px to a cm, read off the scale bar."""
    (bar,) = [item for item in walk(scene.items) if isinstance(item, Group) and item.name == "scale-bar"]
    (path,) = [item for item in bar.items if isinstance(item, Path)]
    xs = [step[1] for step in path.steps if len(step) == 3]
    length, unit = bar.words.split()[-2:]
    return (max(xs) - min(xs)) / (float(length) * {"cm": 1.0, "in": 2.54}[unit])


def heads(group: Group) -> list[tuple[float, float]]:
    """The tips of a measure's two arrow heads: filled triangles begin at their tip."""
    paths = [item for item in group.items if isinstance(item, Path) and item.fill == drafting.INK]
    return [(path.steps[0][1], path.steps[0][2]) for path in paths if len(path.steps[0]) == 3]


def shafts(group: Group) -> list[tuple[tuple[float, float], ...]]:
    """The ends of a measure's inked lines."""
    paths = [item for item in group.items if isinstance(item, Path) and item.stroke == drafting.INK]
    return [tuple((step[1], step[2]) for step in path.steps if len(step) == 3) for path in paths]


# ------------------------------------------------------------------------------------------------ every measure


@pytest.mark.quick(2)
def test_every_measure_stands_in_the_picture_with_the_plans_figure(plan: Plan) -> None:
    scene = schematic.schematic(plan)
    found = measures(scene)
    words = " ".join(text.words for text in texts(scene.items))
    for piece in plan.pieces:
        for fit in piece.fit:
            if fit.measure.startswith("neck") and fit.worked == 0:
                continue
            told = tailored(fit.worked, plan.pattern.units)
            group = found.get(f"{piece.name}, {fit.measure}")
            if group is None:
                assert f"{fit.measure} {told}" in words, f"{piece.name}, {fit.measure} is told nowhere"
            else:
                assert [text.words for text in texts(group.items)] == [fit.measure, told]


@pytest.mark.parametrize("name", NAMES)
def test_the_cases_have_room_for_every_measure(name: str) -> None:
    made = case(name)
    wanted = {f"{piece.name}, {fit.measure}" for piece in made.pieces for fit in piece.fit}
    assert set(measures(schematic.schematic(made))) == wanted


@pytest.mark.quick(3)
def test_no_figure_but_the_plans(plan: Plan) -> None:
    wanted = {f"{piece.name}, {fit.measure}" for piece in plan.pieces for fit in piece.fit}
    assert set(measures(schematic.schematic(plan))) <= wanted


@pytest.mark.quick(8)
def test_arrows_are_as_long_as_their_figures(plan: Plan) -> None:
    """To half a px of the scale; a neck with a step worked sideways is a row short of the plan's own figure."""
    scene = schematic.schematic(plan)
    scale = scale_of(scene)
    fits = {f"{piece.name}, {fit.measure}": (piece, fit) for piece in plan.pieces for fit in piece.fit}
    for name, group in measures(scene).items():
        piece, fit = fits[name]
        one, other = heads(group)
        stepped = piece.worked == "sideways" and any(row.left.step or row.right.step for row in piece.rows)
        slack = float(piece.gauge.row) * scale if stepped and fit.measure in ("neck width", "shoulder") else 0.0
        assert dist(one, other) == pytest.approx(float(fit.worked) * scale, abs=0.6 + slack), name
        if dist(one, other) > 3 * drafting.HEAD_LONG:
            assert (one, other) in shafts(group), f"{name}: the line of the arrow does not end at its heads"


@pytest.mark.quick(9)
def test_labels_keep_clear_of_one_another(plan: Plan) -> None:
    boxes = [(name, box_of(texts(group.items))) for name, group in measures(schematic.schematic(plan)).items()]
    for (one, a), (other, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one} and {other} run into one another"


def box_of(lines: list[Text]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of lines of words that are not turned."""
    shifts = {"start": 0.0, "middle": 0.5, "end": 1.0}
    edges_of = []
    for text in lines:
        wide = measure(text.words, text.size, text.weight)
        left = text.x - shifts[text.anchor] * wide
        edges_of.append((left, text.y - 0.75 * text.size, left + wide, text.y + 0.2 * text.size))
    lefts, tops, rights, bottoms = zip(*edges_of, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


@pytest.mark.quick(4)
def test_nothing_leaves_the_page(plan: Plan) -> None:
    for scene in schematic.scenes(plan).values():
        level = [text for text in texts(scene.items) if not text.turn]
        for text in level:
            left, top, right, bottom = box_of([text])
            assert left >= 0, text.words
            assert top >= 0, text.words
            assert right <= scene.width, text.words
            assert bottom <= scene.height, text.words
        for item in walk(scene.items):
            if isinstance(item, Path):
                xs = [number for step in item.steps for number in step[1::2]]
                assert min(xs) >= 0
                assert max(xs) <= scene.width


# --------------------------------------------------------------------------------------------------- the cloth


@pytest.mark.quick(8)
def test_pieces_stand_in_true_proportion(plan: Plan) -> None:
    """The stripes of a piece, together, are as wide and as high as its outline in cm times the scale."""
    scene = schematic.schematic(plan)
    scale = scale_of(scene)
    for index, piece in enumerate(plan.pieces, 1):
        (group,) = [
            item for item in walk(scene.items) if isinstance(item, Group) and item.name == f"schematic-of-{index}"
        ]
        pale = {style.PLAIN_STRIPE, *(drafting.tinted(yarn.colour) for yarn in plan.pattern.yarns)}
        cloth = [item for item in group.items if isinstance(item, Path) and item.fill in pale]
        xs = [step[1] for path in cloth for step in path.steps if len(step) == 3]
        ys = [step[2] for path in cloth for step in path.steps if len(step) == 3]
        outline = edges.outline(piece)
        for drawn, along in ((xs, 0), (ys, 1)):
            places = [point[along] for point in outline]
            assert max(drawn) - min(drawn) == pytest.approx(float(max(places) - min(places)) * scale, abs=0.1)


@pytest.mark.parametrize("worked", ["sideways", "upwards"])
def test_a_neck_has_arrows_for_its_depth_its_width_and_its_shoulder(worked: str) -> None:
    found = measures(schematic.schematic(garment(worked, "square")))
    for name in ("front", "back"):
        assert {f"{name}, neck depth", f"{name}, neck width", f"{name}, shoulder"} <= found.keys()


def test_words_can_be_read_on_every_pale_stripe() -> None:
    """4.5 to 1 (WCAG 2) on black and on the deepest colours thinned."""
    for colour in ("#000000", "#0000ff", "#7f0000", "#ffffff", "#5b4a3f"):
        assert style.contrast(drafting.INK, drafting.tinted(colour)) >= style.LEAST_CONTRAST


def test_edges_carry_the_names_that_people_give_them() -> None:
    said = {text.words for text in texts(schematic.schematic(case("heron_top")).items)}
    assert {"first row, foundation", "last row", "lower edge", "shoulder", "neck", "left edge", "right edge"} <= said


@pytest.mark.quick(9)
def test_alt_text_tells_every_measure(plan: Plan) -> None:
    words = schematic.schematic(plan).words
    for piece in plan.pieces:
        for fit in piece.fit:
            if fit.worked:
                assert f"{fit.measure} {tailored(fit.worked, plan.pattern.units)}" in words


# ----------------------------------------------------------------------------------------------------- as sewn


def test_only_patterns_with_seams_are_laid_out_as_sewn() -> None:
    assert list(schematic.scenes(case("heron_top"))) == ["schematic", "as-sewn"]
    assert list(schematic.scenes(case("kite_kerchief"))) == ["schematic"]
    assert list(schematic.scenes(case("mudflat_blanket"))) == ["schematic"]


@pytest.mark.parametrize("name", ["heron_top", "upwards round", "sideways slant"])
def test_sewn_edges_lie_on_one_another(name: str) -> None:
    """Shoulders meet point for point and sleeves within a row of the armhole; the sides are sewn later."""
    plan = PLANS[name]()
    found = seams.of(plan)
    sets = {(one.piece.name, one.copy): one for one in assembly.laid(plan, found)}
    assert set(sets) == {("front", 0), ("back", 0), ("sleeve", 0), ("sleeve", 1)}
    slack = {"shoulder": 1e-6, "sleeve top": float(plan.gauge.row)}
    for seam in found:
        if seam.kind in slack:
            one, other = (sets[side.piece.name, side.copy] for side in (seam.one, seam.other))
            here, there = one.at(seam.one.points[0]), other.at(seam.other.points[-1])
            assert dist(here, there) <= slack[seam.kind] + 1e-9
            here, there = one.at(seam.one.points[-1]), other.at(seam.other.points[0])
            assert dist(here, there) <= slack[seam.kind] + 1e-9


def test_declared_seams_are_lettered_and_laid() -> None:
    pieces = tuple(Piece(name, width=Fraction(20), length=Fraction(20)) for name in ("one", "two", "three"))
    joins = (Seam(("one.right", "two.left")), Seam(("two.last", "three.first")))
    plan = plan_pattern(Pattern("Patchwork", (SWATCH,), pieces, seams=joins))
    assert [seam.letter for seam in seams.of(plan)] == ["A", "B"]
    sets = {one.piece.name: one for one in assembly.laid(plan, seams.of(plan))}
    assert sets["two"].x == pytest.approx(float(plan.pieces[0].rightmost * plan.gauge.half))
    assert sets["three"].y == pytest.approx(float(plan.pieces[1].height))
    said = " ".join(text.words for text in texts(sewn.as_sewn(plan).items))
    assert "A one, right edge to two, left edge" in said
    assert "assumed" not in said


def test_the_wearers_levels_show_on_the_front() -> None:
    pattern = replace(
        read_file(CASES / "heron_top.toml"), wearer=Wearer(waist_length=Fraction(40), hip_length=Fraction(60))
    )
    scene = sewn.as_sewn(plan_pattern(pattern))
    said = [text.words for text in texts(scene.items)]
    assert "the wearer's waist" in said
    assert "40 cm below the nape" in said
    assert "the wearer's hip" in said


# -------------------------------------------------------------------------------------------------- as a picture


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_two_renderers_draw_it_alike(name: str) -> None:
    scene = schematic.schematic(case(name))
    check_alike(cairos(scene), ours(scene))


def test_the_same_plan_is_the_same_scene() -> None:
    assert schematic.scenes(case("heron_top")) == schematic.scenes(case("heron_top"))


@pytest.mark.parametrize("name", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_words_without_drawing_are_those_of_the_drawings(name: str) -> None:
    plan = case(name)
    assert schematic.told(plan) == {drawn: scene.words for drawn, scene in schematic.scenes(plan).items()}


def test_a_set_in_sleeve_lies_square_to_both_halves_of_its_armhole() -> None:
    """Laid along one half alone it would lie askew, over the other."""
    shape = tuple((Fraction(height), Fraction(width)) for height, width in ((0, 50), (30, 50), (30, 38), (52, 38)))
    top = ((Fraction(0), Fraction(48)), (Fraction(40), Fraction(24)))
    swatch = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))
    pieces = (
        Piece("front", outline=shape, neck=Neck(Fraction(9), Fraction(8), "vee")),
        Piece("back", outline=shape),
        Piece("sleeve", count=2, outline=top),
    )
    plan = plan_pattern(Pattern("Test", (swatch,), pieces))
    laid = assembly.laid(plan, seams.of(plan))
    quarter_turns = [one.angle / (pi / 2) for one in laid if one.piece.name == "sleeve"]
    assert len(quarter_turns) == 2
    assert all(abs(turn - round(turn)) < 1e-6 and round(turn) % 2 for turn in quarter_turns)


@pytest.mark.parametrize(("language", "said"), [
    ("US", "body, both shoulders, one piece to the other"),
    ("de", "body, beide Schultern, ein Teil an das andere"),
    ("fr", "body, deux épaules, une partie avec l'autre"),
])  # fmt: skip
def test_two_copies_sewn_together_are_told_once(language: str, said: str) -> None:
    """Found in the gallery: "body, both shoulders to body, both shoulders"."""
    piece = Piece("body", width=Fraction(40), length=Fraction(40), neck=Neck(Fraction(10), Fraction(4)), count=2)
    plan = plan_pattern(Pattern("Slipover", (SWATCH,), (piece,), language=language))
    assert f"{said}." in sewn.as_sewn(plan).words
