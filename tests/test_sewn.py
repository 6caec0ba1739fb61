"""As sewn: pieces lie where they meet or side by side, none over another, and no words run into one another.

Places are measured in the finished scene. Ticks and letters of seams are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from math import dist
from pathlib import Path as FilePath

import pytest
from hypothesis import HealthCheck, Phase, given
from hypothesis import strategies as st

from random_examples import examples
from test_text_boxes import collisions, every
from turnchain.drawing import assembly, drafting, legend, schematic, sewn
from turnchain.fabric.plan import Plan
from turnchain.garment import roles, seams
from turnchain.making import planned
from turnchain.pattern import Neck, Pattern, Piece, Seam, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.recipes import recipe, writing
from turnchain.scene import Path, Scene, Text

SWATCH = Swatch(Fraction(11), Fraction(26), Fraction(18), Fraction(21))
HERE = FilePath(__file__).parent
FILES = sorted([*(HERE / "cases").glob("*.toml"), *(HERE.parent / "gallery" / "patterns").glob("*.toml")])


def panel(name: str, wide: float, long: float, **more: object) -> Piece:
    return Piece(name, width=Fraction(wide), length=Fraction(long), **more)  # type: ignore[arg-type]


def outlined(name: str, *points: tuple[float, float], **more: object) -> Piece:
    return Piece(name, outline=tuple((Fraction(high), Fraction(wide)) for high, wide in points), **more)  # type: ignore[arg-type]


def joined(title: str, pieces: tuple[Piece, ...], *joins: tuple[str, str], wearer: Wearer | None = None) -> Plan:
    return plan_pattern(Pattern(title, (SWATCH,), pieces, seams=tuple(Seam(join) for join in joins), wearer=wearer))


def jacket() -> Plan:
    """Two fronts that open, a back as wide as both, and two sleeves."""
    pieces = (
        panel("left front", 28, 56), panel("right front", 28, 56), panel("back", 56, 56),
        outlined("sleeve", (0, 24), (36, 40), count=2),
    )  # fmt: skip
    return joined(
        "Jacket", pieces, ("left front.last", "back.last"), ("right front.last", "back.last"),
        ("left front.left", "back.right"), ("right front.right", "back.left"), ("sleeve.left", "sleeve.right"),
        ("sleeve.left", "sleeve.right"),
    )  # fmt: skip


def bag() -> Plan:
    pieces = (panel("side", 30, 34, count=2), panel("gusset", 8, 98), panel("strap", 4, 70, count=2))
    return joined(
        "Bag", pieces, ("side.left", "gusset.left"), ("side.right", "gusset.right"),
        ("strap.first", "side.last"), ("strap.last", "side.last"),
    )  # fmt: skip


def cushion() -> Plan:
    names = ("left", "right", "first", "last")
    return joined("Cushion", (panel("front", 40, 40), panel("back", 40, 40)), *((f"front.{one}", f"back.{other}")
        for one, other in zip(names, ("right", "left", "first", "last"), strict=True)))  # fmt: skip


def waistcoat() -> Plan:
    shape = ((0, 50), (30, 50), (30, 38), (52, 38))
    body = (outlined("front", *shape, neck=Neck(Fraction(9), Fraction(16), "vee")), outlined("back", *shape))
    wearer = Wearer(waist_length=Fraction(41), hip_length=Fraction(60), knee_length=Fraction(98))
    return joined("Waistcoat", body, wearer=wearer)


def dolls() -> Plan:
    """A top for a doll: nothing has room."""
    return joined("Doll", (panel("front", 9, 8), panel("back", 9, 8), outlined("sleeve", (0, 7), (5, 5), count=2)))


def boat() -> Plan:
    """Pieces much longer than wide, with long names."""
    names = tuple(f"pennant number {nth} of the regatta" for nth in range(5))
    pieces = tuple(outlined(name, (0, 6), (90, 12)) for name in names)
    return joined("Boat", pieces, *((f"{one}.right", f"{other}.left") for one, other in zip(names, names[1:])))  # noqa: B905, RUF007


def crossed() -> Plan:
    """Every edge of one square sewn to a square of its own, two of these to one another."""
    pieces = tuple(panel(name, 20, 20) for name in ("heart", "north", "south", "east", "west"))
    return joined(
        "Crossed", pieces, ("heart.last", "north.first"), ("heart.first", "south.last"), ("heart.right", "east.left"),
        ("heart.left", "west.right"), ("north.right", "east.last"), ("south.left", "west.first"),
    )  # fmt: skip


def recipe_for(name: str, size: str = "M") -> Plan:
    text = writing.written(recipe.recipe(name), writing.RecipeWearer("woman", (size,)))
    return plan_pattern(read_text(text, "x.toml"))


RECIPES = ("cardigan", "waistcoat", "set in sleeve pullover")
MADE = {
    "jacket": jacket, "bag": bag, "cushion": cushion, "waistcoat": waistcoat, "dolls": dolls, "boat": boat,
    "crossed": crossed,
    **{f"recipe {name}": (lambda name=name: recipe_for(name)) for name in RECIPES},
    **{file.stem: (lambda file=file: planned(file)) for file in FILES},
}  # fmt: skip
WITHOUT_SEAMS = {
    "harrow_lane_blanket", "kite_kerchief", "mudflat_blanket",
    "thimble_beck_bag", "weir_lock_scarf",
}


@pytest.fixture(scope="module", params=[name for name in MADE if name not in WITHOUT_SEAMS])
def plan(request: pytest.FixtureRequest) -> Plan:
    made: Plan = MADE[request.param]()
    return made


@pytest.mark.parametrize("name", sorted(WITHOUT_SEAMS))
def test_what_is_left_out_has_no_seams(name: str) -> None:
    assert not seams.of(MADE[name]())


def words(scene: Scene) -> list[str]:
    return [item.words for _, item in every(scene.items) if isinstance(item, Text)]


def check_layout(plan: Plan) -> None:
    sets = assembly.laid(plan, seams.of(plan))
    copies = [(one.piece.name, one.copy) for one in sets]
    named = {side.piece.name for seam in seams.of(plan) for side in (seam.one, seam.other)}
    assert sorted(copies) == sorted((one.name, copy) for one in plan.pieces if one.name in named
                                    for copy in range(one.count))  # fmt: skip
    trunk = roles.trunk(plan)
    halves = [*trunk.fronts] if trunk is not None and trunk.open else []
    for one, other in combinations(sets, 2):
        opening = one.piece in halves and other.piece in halves
        assert not assembly.overlap(one, other, assembly.CLOSED if opening else assembly.EASED)


@pytest.mark.quick(3)
def test_every_copy_lies_once_and_none_over_another(plan: Plan) -> None:
    check_layout(plan)


@pytest.mark.quick(3)
def test_no_words_run_into_one_another(plan: Plan) -> None:
    for scene in schematic.scenes(plan).values():
        assert collisions(scene) == []


@pytest.mark.quick(3)
def test_every_piece_is_named_where_it_lies(plan: Plan) -> None:
    said = words(sewn.as_sewn(plan))
    for one in assembly.laid(plan, seams.of(plan)):
        assert one.piece.name in said
    for piece in plan.pieces:
        if any(piece.name == one.piece.name for one in assembly.laid(plan, seams.of(plan))):
            assert said.count(piece.name) == piece.count


@pytest.mark.quick(3)
def test_seams_that_lie_apart_have_their_letter_twice(plan: Plan) -> None:
    """Measured on the layout in cm, not on the page; edges that meet, but not end to end, have one or two."""
    sets = {(one.piece.name, one.copy): one for one in assembly.laid(plan, seams.of(plan))}
    wanted: dict[str, list[int]] = {}
    for seam in seams.of(plan):
        sides = [(sets[side.piece.name, side.copy], side.points) for side in (seam.one, seam.other)]
        ends = [[lies.at(points[end]) for end in (0, -1)] for lies, points in sides]
        apart = max(dist(ends[0][0], ends[1][1]), dist(ends[0][1], ends[1][0]))
        middles = dist(*(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ends))
        least, most = wanted.get(seam.letter, [1, 1])  # and once in the list
        together = apart <= float(plan.gauge.row) + 0.7
        wanted[seam.letter] = [least + (1 if together or middles < 8 else 2), most + (1 if together else 2)]
    scene = sewn.as_sewn(plan)
    badges = [
        item.words for _, item in every(scene.items)
        if isinstance(item, Text) and item.colour == drafting.PAPER and item.anchor == "middle"
    ]  # fmt: skip
    for letter, (least, most) in wanted.items():
        assert least <= badges.count(letter) <= most


def test_open_fronts_lie_at_both_sides_of_their_back() -> None:
    plan = jacket()
    sets = {(one.piece.name, one.copy): one for one in assembly.laid(plan, seams.of(plan))}
    (left, _), (far, _) = assembly.box([sets["left front", 0]])
    (near, _), (right, _) = assembly.box([sets["right front", 0]])
    assert far <= near + 1e-6 or right <= left + 1e-6
    assert {copy for name, copy in sets if name == "sleeve"} == {0, 1}


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", ["cardigan", "waistcoat"])
@pytest.mark.parametrize("size", ["XS", "M", "3X"])
def test_halves_of_a_front_lie_closed_against_their_back(name: str, size: str) -> None:
    """Both shoulders meet those of the back point for point, and the edges of the opening lie over one another."""
    plan = recipe_for(name, size)
    sets = {(one.piece.name, one.copy): one for one in assembly.laid(plan, seams.of(plan))}
    for seam in seams.of(plan):
        if seam.kind == "shoulder":
            one, other = (sets[side.piece.name, side.copy] for side in (seam.one, seam.other))
            near = float(plan.gauge.half) * 1.01  # shoulders may differ by half a cluster
            assert dist(one.at(seam.one.points[0]), other.at(seam.other.points[-1])) <= near
            assert dist(one.at(seam.one.points[-1]), other.at(seam.other.points[0])) <= near
    (left, low), (_, high) = assembly.box([sets["left front", 0]])
    (_, near_low), (right, near_high) = assembly.box([sets["right front", 0]])
    assert -0.01 < right - left < 8  # where there is a band, its rows overlap beyond the edges
    assert (near_low, near_high) == pytest.approx((low, high), abs=0.1)


@pytest.mark.quick(0)
def test_the_wearers_levels_go_across_both_halves() -> None:
    plan = recipe_for("cardigan")
    scene = sewn.as_sewn(plan)
    assert "the wearer's waist" in words(scene)
    broken = [item for _, item in every(scene.items) if isinstance(item, Path) and item.dash == (9.0, 6.0)]
    start, end = (float(step[-2]) for step in broken[0].steps)
    sets = assembly.laid(plan, seams.of(plan))
    (left, low), (right, high) = assembly.box(sets)
    px = min((legend.WIDTH - 2 * legend.MARGIN - 2 * sewn.SIDES) / (right - left), sewn.TALLEST / (high - low))
    (left, _), (right, _) = assembly.box(one for one in sets if "front" in one.piece.name)
    assert end - start == pytest.approx(36 + (right - left) * px, abs=1)


def from_line(place: tuple[float, float], one: tuple[float, float], other: tuple[float, float]) -> float:
    """How far a place lies from the straight line between two others."""
    long = dist(one, other) ** 2
    share = sum((p - a) * (b - a) for p, a, b in zip(place, one, other, strict=True)) / long if long else 0.0
    share = min(1.0, max(0.0, share))
    return dist(place, [a + (b - a) * share for a, b in zip(one, other, strict=True)])


@pytest.mark.quick(0)
@pytest.mark.parametrize("name", ["cardigan", "set in sleeve pullover"])
@pytest.mark.parametrize("size", ["XS", "M", "3X"])
def test_a_cap_touches_the_body_and_lies_over_none_of_it(name: str, size: str) -> None:
    """Places of the outlines themselves, a hair inside; the head of the cap lies at the end of the shoulder."""
    plan = recipe_for(name, size)
    sets = assembly.laid(plan, seams.of(plan))
    trunk = [one for one in sets if one.piece.name != "sleeve"]
    for sleeve in (one for one in sets if one.piece.name == "sleeve"):
        corners = sleeve.outline
        middle = [sum(values) / len(corners) for values in zip(*corners, strict=True)]
        drawn_in = [(x + (middle[0] - x) * 1e-3, y + (middle[1] - y) * 1e-3) for x, y in corners]
        for body in trunk:
            assert not any(assembly.holds(body.outline, place) for place in drawn_in)
        lines = [pair for one in trunk for pair in pairwise([*one.outline, one.outline[0]])]
        assert min(from_line(place, *line) for place in corners for line in lines) < 0.05


def test_ticks_are_told_where_edges_lie_apart() -> None:
    assert any("one tick meets one" in said for said in words(sewn.as_sewn(cushion())))
    strip = joined("Strip", (panel("one", 20, 20), panel("two", 20, 20)), ("one.right", "two.left"))
    assert not any("one tick meets one" in said for said in words(sewn.as_sewn(strip)))


def test_pieces_over_one_another_are_found() -> None:
    plan = cushion()
    front, back = (assembly.Set(piece, 0, 0.0, 0.0, 0.0) for piece in plan.pieces)
    assert assembly.overlap(front, back)
    assert not assembly.overlap(front, assembly.Set(plan.pieces[1], 0, 0.0, 41.0, 0.0))


EDGES = ("first", "last", "left", "right")


@st.composite
def patchworks(draw: st.DrawFn) -> Plan | None:
    """Panels and tapered pieces of any size, sewn along edges that are drawn at random."""
    count = draw(st.integers(2, 4))
    size = st.integers(6, 60)
    pieces = []
    for nth in range(count):
        copies = draw(st.integers(1, 2))
        if draw(st.booleans()):
            pieces.append(panel(f"piece {nth}", draw(size), draw(size), count=copies))
        else:
            pieces.append(outlined(f"piece {nth}", (0, draw(size)), (draw(size), draw(size)), count=copies))
    edges = draw(st.permutations([f"piece {nth}.{edge}" for nth in range(count) for edge in EDGES]))
    pairs = zip(edges[::2], edges[1::2], strict=True)  # no edge twice
    named = [(one, other) for one, other in pairs if one.split(".")[0] != other.split(".")[0]]
    try:
        return joined("Patchwork", tuple(pieces), *named[: draw(st.integers(1, 6))])
    except Exception as error:
        if type(error).__name__ == "PatternError":
            return None
        raise


@examples(8, 40, phases=[Phase.generate], suppress_health_check=list(HealthCheck))  # what is found can be read as it is
@given(patchworks())
def test_random_shapes_are_clear(plan: Plan | None) -> None:
    if plan is None or not seams.of(plan):
        return
    check_layout(plan)
    for scene in schematic.scenes(plan).values():
        assert collisions(scene) == []
