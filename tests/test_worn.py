"""The garment on a figure: measured in the scene, against the worked rows and the wearer's own measures.

The figure's proportions are general knowledge of drawing, from memory; what is tested is that measures given are kept.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO
from pathlib import Path as FilePath

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image

import end_to_end
from random_files import file_at
from test_text_boxes import collisions, every
from turnchain.cli import cli
from turnchain.drawing import figure, hung_forms, hung_wraps, on_figure, sewn
from turnchain.drawing.worn import LINE, SKIN, worn
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.pattern import Neck, Pattern, Piece, Swatch, Wearer
from turnchain.planning.planner import plan_pattern
from turnchain.programs import png
from turnchain.reading.pattern_file import read_text
from turnchain.recipes import recipe, writing
from turnchain.records import replace
from turnchain.scene import Group, Path, Scene, Text
from turnchain.sizes import TableName
from turnchain.wording.tables import told_in

CASES = FilePath(__file__).parent / "cases"
SWATCH = Swatch(Fraction(11), Fraction(26), Fraction(18), Fraction(21))
WEARERS = {
    "a woman": Wearer(table="woman", size="M"),
    "a child": Wearer(table="child", size="4"),
    "a man": Wearer(
        bust=Fraction(104), waist=Fraction(92), hip=Fraction(102), waist_length=Fraction(47), cross_back=Fraction(46),
        upper_arm=Fraction(33), who="adult",
    ),
    "nobody": None,
}  # fmt: skip


def top(wearer: Wearer | None = None, worked: str = "upwards", sleeves: bool = True) -> Plan:
    """A front with a neck, a back, and sleeves; for a child half as large."""
    share = Fraction(6, 10) if wearer is not None and wearer.table == "child" else Fraction(1)
    neck = Neck(12 * share, 8 * share, "round")
    body = (
        Piece("front", worked, width=52 * share, length=56 * share, neck=neck),  # type: ignore[arg-type]
        Piece("back", worked, width=52 * share, length=56 * share, faces="front" if worked == "sideways" else None),  # type: ignore[arg-type]
    )
    sleeve = Piece("sleeve", count=2, outline=((Fraction(0), 22 * share), (36 * share, 38 * share)))
    return plan_pattern(Pattern("Top", (SWATCH,), (*body, sleeve) if sleeves else body, wearer=wearer))


def cardigan() -> Plan:
    pieces = tuple(
        Piece(name, width=Fraction(wide), length=Fraction(58))
        for name, wide in (("left front", 22), ("right front", 22), ("back", 52))
    )
    return plan_pattern(Pattern("Cardigan", (SWATCH,), pieces, wearer=WEARERS["a woman"]))


def recipe_for(name: str, table: TableName, size: str) -> Plan:
    text = writing.written(recipe.recipe(name), writing.RecipeWearer(table, (size,)))
    return plan_pattern(read_text(text, "x.toml"))


@dataclass(frozen=True)
class View:
    """One view read back: the body's outline and all cloth, as places in px."""

    body: list[tuple[float, float]]
    cloth: list[tuple[float, float]]

    @property
    def middle(self) -> float:
        xs = [x for x, _ in self.body]
        return (min(xs) + max(xs)) / 2


def places(path: Path) -> list[tuple[float, float]]:
    return [(float(step[-2]), float(step[-1])) for step in path.steps if len(step) > 2]


def views(scene: Scene) -> list[View]:
    found = []
    for group in scene.items:
        if isinstance(group, Group) and group.name in ("worn-front", "worn-back"):
            paths = [item for item in group.items if isinstance(item, Path)]
            body = [place for item in paths if item.fill == SKIN for place in places(item)]
            # The grounds of rows: clusters reach a little over them.
            cloth = [place for item in paths if item.fill not in (None, SKIN) and item.fill == item.stroke
                     for place in places(item)]  # fmt: skip
            found.append(View(body, cloth))
    return found


def rules(scene: Scene, start: str) -> list[float]:
    """The y of level lines in groups whose names begin so."""
    return [
        places(path)[0][1] for group in scene.items if isinstance(group, Group) and group.name.startswith(start)
        for path in group.items if isinstance(path, Path)
    ]  # fmt: skip


def levels(scene: Scene) -> list[float]:
    return sorted({places(item)[0][1] for item in scene.items if isinstance(item, Path) and item.stroke == LINE})


def scale(plan: Plan, scene: Scene) -> tuple[float, float]:
    """Px to a cm and the y of the nape, read off the levels of waist and knee, whose cm the wearer has."""
    body = figure.of(plan.pattern.wearer)
    waist, _, knee = levels(scene)
    px = (knee - waist) / (body.levels["knee"] - body.levels["waist"])
    return px, waist - body.levels["waist"] * px


PLANS = {
    **{name: (lambda wearer=wearer: top(wearer)) for name, wearer in WEARERS.items()},
    "sideways": lambda: top(WEARERS["a woman"], "sideways"),
    "without sleeves": lambda: top(WEARERS["a woman"], sleeves=False),
    "open": cardigan,
    "heron": lambda: planned(CASES / "heron_top.toml"),
}


@pytest.fixture(scope="module", params=PLANS)
def plan(request: pytest.FixtureRequest) -> Plan:
    made: Plan = PLANS[request.param]()
    return made


@pytest.mark.quick(0)
def test_the_hem_falls_by_the_length_of_the_worked_rows(plan: Plan) -> None:
    scene = worn(plan)
    px, nape = scale(plan, scene)
    front, back = views(scene)
    for view, role in ((front, "front"), (back, "back")):
        piece = next(one for one in plan.pieces if role in one.name)
        # Worked upwards the rows are its length; sideways the widest of them is.
        gauge = piece.gauge
        widest = max(row.right.at - row.left.at for row in piece.rows) * gauge.half
        long = float(piece.row_count * gauge.row if piece.worked == "upwards" else widest)
        sleeves = [one for one in plan.pieces if "sleeve" in one.name]
        reach = 6 * px if sleeves else 1e9  # down the middle there is no sleeve
        low = max(y for x, y in view.cloth if abs(x - view.middle) < reach)
        assert (low - nape) / px == pytest.approx(long, abs=0.15)
    assert all(y == pytest.approx(max(y for x, y in front.cloth if abs(x - front.middle) < 99), abs=1.5)
               for y in rules(scene, "hem"))  # fmt: skip


@pytest.mark.quick(0)
def test_a_second_length_is_shown_where_it_would_fall() -> None:
    plan = top(WEARERS["a woman"])
    px, _ = scale(plan, worn(plan))
    for longer in (6, -9):
        found = sorted(set(rules(worn(plan, longer=Fraction(longer)), "hem")))
        assert len(found) == 2
        assert (found[1] - found[0]) / px == pytest.approx(abs(longer), abs=0.05)
    assert "Second length" not in worn(plan).words


def test_the_figure_has_the_wearers_measures() -> None:
    for name, wearer in WEARERS.items():
        if wearer is None:
            continue
        body = figure.of(wearer)
        if name == "a man":
            assert (body.shoulders, body.levels["waist"]) == (23.0, 47.0)
            assert body.bust == pytest.approx(104 / 6.2832, rel=1e-3)
            assert body.assumed is not None, "head and arms are not told"
        else:
            assert body.assumed is None
    child, woman = figure.of(WEARERS["a child"]), figure.of(WEARERS["a woman"])
    assert child.sole < 0.6 * woman.sole
    assert child.head / child.sole > 1.5 * woman.head / woman.sole, "a child's head is large for its height"


def test_the_figure_is_one_outline_alike_at_both_sides() -> None:
    for wearer in WEARERS.values():
        outline = figure.of(wearer).outline()
        assert sorted(round(x, 6) for x, _ in outline) == sorted(round(-x, 6) for x, _ in outline)
        assert all(x >= -1e-9 for x, _ in outline[: len(outline) // 2])


@pytest.mark.quick(1)
def test_cloth_goes_round_the_body(plan: Plan) -> None:
    """It covers the trunk at the hem's height, and never hangs wider than it lies flat."""
    scene = worn(plan)
    px, nape = scale(plan, scene)
    body = figure.of(plan.pattern.wearer)
    _, back = views(scene)
    piece = next(one for one in plan.pieces if "back" in one.name)
    length = float(next(fit.worked for fit in piece.fit if fit.measure == "length"))
    flat = float(next(fit.worked for fit in piece.fit if fit.measure == "width")) / 2
    xs = [abs(x - back.middle) / px for x, y in back.cloth if abs((y - nape) / px - length) < 0.3]
    near_hem = max(x for x in xs if x < flat + 4)
    assert near_hem >= min(body.half_at(length), flat)


def test_open_fronts_hang_open() -> None:
    plan = cardigan()
    scene = worn(plan)
    px, nape = scale(plan, scene)
    front, back = views(scene)
    low = nape + 40 * px
    inside = [x - front.middle for x, y in front.cloth if y > low]
    assert min(abs(x) for x in inside) > 1.0 * px, "skin between them"
    assert min(inside) < 0 < max(inside)
    assert min(abs(x - back.middle) for x, y in back.cloth if y > low) < 3 * px


@pytest.mark.quick(0)
@pytest.mark.parametrize(("name", "table", "size"), [
    *((name, "woman", size) for name in ("cardigan", "set in sleeve pullover") for size in ("XS", "M", "3X")),
    ("set in sleeve pullover", "child", "8"), ("drop shoulder pullover", "woman", "M"),
])  # fmt: skip
def test_no_skin_shows_between_a_sleeve_and_the_body(name: str, table: TableName, size: str) -> None:
    """Px of the finished picture, row by row from the end of the shoulder to the foot of the armhole: outwards of the
    neck there is cloth, then what lies outside the figure."""
    plan = recipe_for(name, table, size)
    scene = worn(plan)
    px, nape = scale(plan, scene)
    body = figure.of(plan.pattern.wearer)
    image = np.asarray(Image.open(BytesIO(png(scene))).convert("RGB"), dtype=int)
    skin = np.abs(image - [int(SKIN[at : at + 2], 16) for at in (1, 3, 5)]).max(axis=2) <= 1
    top, low = body.shoulder_end[1] + 1.0, body.armhole
    for view in views(scene):
        for y in np.arange(nape + top * px, nape + low * px, 2.0):
            for side in (-1, 1):
                out = view.middle + side * np.arange(0.5 * body.shoulders, 40, 0.1) * px
                found = skin[round(y), out.round().astype(int).clip(0, image.shape[1] - 1)]
                assert not found[found.argmin() :].any(), f"{(y - nape) / px:.1f} cm below the nape"


@pytest.mark.quick(0)
@pytest.mark.parametrize("size", ["XS", "M", "3X"])
def test_cuffs_of_set_in_sleeves_are_told_from_where_the_shoulder_ends(size: str) -> None:
    """A set-in sleeve hangs from the end of the shoulder: armholes narrow the back to about the body's shoulders."""
    plan = recipe_for("set in sleeve pullover", "woman", size)
    back, sleeve = (next(one for one in plan.pieces if one.name == name) for name in ("back", "sleeve"))
    top = [row for row in back.rows if row.number == back.row_count]
    across = (max(row.right.at for row in top) - min(row.left.at for row in top)) * back.gauge.half
    body = figure.of(plan.pattern.wearer)
    wanted = float(across / 2 + sleeve.row_count * sleeve.gauge.row) - body.shoulders
    told = re.search(r"Cuffs: ([\d.]+) cm", worn(plan).words)
    assert told is not None
    assert float(told[1]) == pytest.approx(wanted, abs=0.5)


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", ["US", "UK", "de", "fr"])
def test_no_words_run_into_one_another(plan: Plan, language: str) -> None:
    assert collisions(worn(told_in(plan, language), longer=Fraction(7))) == []


@pytest.mark.quick(0)
def test_what_falls_where_is_told() -> None:
    words = worn(replace_wearer(top(), Wearer(waist_length=Fraction(40), hip_length=Fraction(60)))).words
    assert "Hem: 56 cm below the nape, 4 cm above the hip." in words
    assert "put together on a plain figure" in words


def replace_wearer(plan: Plan, wearer: Wearer) -> Plan:
    return plan_pattern(replace(plan.pattern, wearer=wearer))


# ------------------------------------------------------------------------------- skirts, hats, cowls, bags, cushions


def made(name: str, *pieces: str, wearer: str = "") -> Plan:
    head = f'title = "{name}"\nswatch = {{ clusters = 11, width = 26, rows = 18, height = 21 }}\n{wearer}\n'
    return plan_pattern(read_text(head + "".join(f"[[piece]]\n{piece}\n" for piece in pieces), "x.toml"))


WOMAN = '[wearer]\ntable = "woman"\nsize = "M"'
FORMS = {
    "skirt": lambda: made("Skirt", 'name = "skirt"\ncount = 4\noutline = [[0, 38], [60, 27]]', wearer=WOMAN),
    "skirt of two": lambda: made("Skirt", 'name = "skirt"\ncount = 2\nwidth = 52\nlength = 45', wearer=WOMAN),
    "skirt of one": lambda: made("Skirt",
                                 'name = "skirt"\nworked = "sideways"\nwidth = 104\nlength = 45', wearer=WOMAN),
    "hat": lambda: made("Hat", 'name = "hat"\nwidth = 54\nlength = 22', wearer=WOMAN),
    "cowl": lambda: made("Cowl", 'name = "cowl"\nwidth = 64\nlength = 25', wearer=WOMAN),
    "bag": lambda: made("Bag", 'name = "bag"\ncount = 2\nwidth = 35\nlength = 30',
                        'name = "gusset"\nwidth = 8\nlength = 95', 'name = "strap"\nwidth = 8\nlength = 70'),
    "folded bag": lambda: made("Bag", 'name = "bag"\nwidth = 35\nlength = 62',
                               'name = "handle"\ncount = 2\nwidth = 5\nlength = 40'),
    "cushion": lambda: made("Cushion", 'name = "cushion"\ncount = 2\nwidth = 40\nlength = 40'),
}  # fmt: skip


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("language", ["US", "de", "fr"])
def test_no_words_of_other_forms_run_into_one_another(name: str, language: str) -> None:
    for longer in (0, 6):
        assert collisions(worn(told_in(FORMS[name](), language), longer=Fraction(longer))) == []


def test_a_skirt_hangs_from_the_waist_by_the_length_of_its_rows() -> None:
    """And its second length, in the accent, by so much below; the hem is told by the nearest level."""
    plan = FORMS["skirt"]()
    scene = worn(plan, longer=Fraction(6))
    waist, _, knee = levels(scene)
    body = figure.of(plan.pattern.wearer)
    px = (knee - waist) / (body.levels["knee"] - body.levels["waist"])
    (piece,) = plan.pieces
    long = float(piece.row_count * piece.gauge.row)
    hem, other = sorted(set(rules(scene, "hem")))
    assert (hem - waist) / px == pytest.approx(long, abs=0.05)
    assert (other - hem) / px == pytest.approx(6, abs=0.05)
    for view in views(scene):
        assert max(y for _, y in view.cloth) == pytest.approx(hem, abs=0.06 * 25 * px)
    assert f"Hem: {round(2 * long) / 2:g} cm below the waist" in scene.words


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", ["skirt", "skirt of two", "skirt of one", "hat", "cowl"])
def test_what_goes_round_is_seen_half_from_either_side(name: str) -> None:
    """Whatever number of pieces there are, the clusters of both views together are all there are: none is seen twice,
    none never, but for those that stand just at the side."""
    plan = FORMS[name]()
    scene = worn(plan)
    seen = 0
    for group in scene.items:
        if isinstance(group, Group) and group.name in ("worn-front", "worn-back"):
            clusters = [item for item in group.items if isinstance(item, Path) and item.fill and item.stroke
                        and item.fill not in (SKIN, item.stroke)]  # fmt: skip
            seen += sum(step[0] == "M" for item in clusters for step in item.steps)
    copies = {"hat": 1, "cowl": 1}.get(name, plan.pieces[0].count)
    there = sum(len(row.centres) for row in plan.pieces[0].rows) * copies
    at_sides = 2 * plan.pieces[0].row_count + max(len(row.centres) for row in plan.pieces[0].rows)
    assert there - at_sides <= seen <= there + at_sides


def test_a_hat_sits_at_the_brow_or_as_far_as_it_reaches() -> None:
    """A short hat ends above the brow, and so much is told; one too tall stands above the head."""
    short, tall = (made("Hat", f'name = "hat"\nwidth = 54\nlength = {long}', wearer=WOMAN) for long in (9, 30))
    assert re.search(r"brim: [\d.]+ cm above the brow", worn(short).words)
    assert "brim: at the brow" in worn(tall).words
    tops = [min(y for view in views(worn(plan)) for _, y in view.cloth) - min(y for view in views(worn(plan))
            for _, y in view.body) for plan in (short, tall)]  # fmt: skip
    assert tops[0] > tops[1]
    assert tops[1] < 0, "it stands above the head"


def test_a_hats_round_is_told_over_the_head() -> None:
    """Woman: 21 to 23.5 in round the head, published; 54 cm come to 55.5 as worked (23.5 pitches), 1 less than 56.5."""
    assert "Round: 55.5 cm, 1 cm less than the head: it stretches." in worn(FORMS["hat"]()).words


@pytest.mark.parametrize("name", ["bag", "folded bag", "cushion"])
def test_what_nobody_wears_is_shown_finished_in_true_proportion(name: str) -> None:
    """No figure; the height over the width is that of the worked rows over the worked pitches."""
    plan = FORMS[name]()
    scene = worn(plan)
    assert "figure" not in scene.words
    assert not any(item.fill == SKIN for group in scene.items if isinstance(group, Group)
                   for item in group.items if isinstance(item, Path))  # fmt: skip
    piece = plan.pieces[0]
    hem = max(rules(scene, "hem"))
    wide = [float(step[1]) for group in scene.items if isinstance(group, Group) and group.name.startswith("hem-0")
            for item in group.items if isinstance(item, Path) for step in item.steps]  # fmt: skip
    px = (max(wide) - min(wide)) / (float(piece.rightmost - piece.leftmost) * float(piece.gauge.half) + 4)
    front = views(scene)[0]
    inner = [y for x, y in front.cloth if abs(x - sum(wide) / 2) < 2 * px]
    high = float(piece.row_count * piece.gauge.row) / (2 if name == "folded bag" else 1)
    top = min(y for y in inner if y > hem - (high + 1) * px)
    assert (hem - top) / px == pytest.approx(high, abs=0.3)


def test_left_and_right_as_worn_are_those_of_the_cloth() -> None:
    """A left front has its straight, unshaped edge (its rows end at one place) at the left of the chart, right side
    facing: seen from the front it lies right of the middle, and so does its name on the picture as sewn. The back is
    seen from behind: what was worked at its right lies at the right."""
    plan = recipe_for("cardigan", "woman", "M")
    left = next(one for one in plan.pieces if one.name == "left front")
    below = [row for row in left.rows if row.number < left.row_count / 2]
    ends = {"left": {row.left.at for row in left.rows if row.number < 0.6 * left.row_count},
            "right": {row.right.at for row in left.rows if row.number > 0.8 * left.row_count}}  # fmt: skip
    assert len(ends["left"]) == 1, "its front edge"
    assert max(ends["right"]) < below[0].right.at, "its armhole is at the other edge"
    said = {item.words: item.x for _, item in every(sewn.as_sewn(plan).items) if isinstance(item, Text)}
    assert said["left front"] > said["right front"]
    for one in hung_forms.shown(plan).hung("front"):
        if one.piece.name in ("left front", "right front"):
            assert (one.place(0.0, 30.0)[0] > 0) == (one.piece.name == "left front")
            outer = max if one.piece.name == "left front" else min
            places = [one.place(across, 30.0)[0] for across in (-10.0, 10.0)]
            assert outer(places) == places[one.piece.name == "left front"]


def test_how_an_open_front_closes_is_told() -> None:
    """Recipe: an overlap of 1 cm; as worked by the widths of the rows at the hem."""
    plan = recipe_for("cardigan", "woman", "M")
    wide = {one.name: float((one.rows[0].right.at - one.rows[0].left.at) * one.gauge.half) for one in plan.pieces}
    over = wide["left front"] + wide["right front"] - wide["back"]
    told = re.search(r"the edges of the front overlap by ([\d.]+) cm", worn(plan).words)
    assert told is not None
    assert float(told[1]) == pytest.approx(over, abs=0.25)


def test_what_is_no_garment_is_refused(tmp_path: FilePath) -> None:
    with pytest.raises(MakerError, match="one front, or two that open, and one back"):
        worn(planned(CASES / "mudflat_blanket.toml"))


def test_the_command(tmp_path: FilePath) -> None:
    out = tmp_path / "worn.svg"
    told = CliRunner().invoke(
        cli, ["stripes", str(CASES / "heron_top.toml"), "--figure", "--shorter", "5", "-o", str(out)]
    )
    assert told.exit_code == 0, told.output
    assert "Second length: 48" in (tmp_path / "worn.txt").read_text()


@pytest.mark.parametrize("given", [
    ("--figure", "--piece", "front"), ("--figure", "--longer", "nan"), ("--figure", "--longer", "-3"),
    ("--figure", "--shorter", "90"), ("--longer", "3"),
])  # fmt: skip
def test_what_makes_no_sense_is_refused(given: tuple[str, ...], tmp_path: FilePath) -> None:
    out = tmp_path / "worn.svg"
    told = CliRunner().invoke(cli, ["stripes", str(CASES / "heron_top.toml"), *given, "-o", str(out)])
    assert told.exit_code != 0
    assert not out.exists()
    assert told.exception is None or isinstance(told.exception, SystemExit | MakerError)


# ------------------------------------------------------------------------------------------------ shawls and scarves

WRAPS = {
    "triangle": lambda: made("Shawl", 'name = "shawl"\noutline = [[0, 2], [35, 76]]', wearer=WOMAN),
    "from its long edge": lambda: made("Shawl", 'name = "shawl"\noutline = [[0, 76], [35, 2]]', wearer=WOMAN),
    "square": lambda: made("Shawl", 'name = "shawl"\nwidth = 56\nlength = 56', wearer=WOMAN),
    "stole": lambda: made("Stole", 'name = "stole"\nworked = "sideways"\nwidth = 100\nlength = 28', wearer=WOMAN),
    "scarf": lambda: made("Scarf", 'name = "scarf"\nwidth = 14\nlength = 120', wearer=WOMAN),
    "long rows": lambda: made("Scarf", 'name = "scarf"\nwidth = 120\nlength = 14', wearer=WOMAN),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", WRAPS)
@pytest.mark.parametrize("language", ["US", "de", "fr"])
def test_no_words_of_wraps_run_into_one_another(name: str, language: str) -> None:
    for longer in (0, 6):
        assert collisions(worn(told_in(WRAPS[name](), language), longer=Fraction(longer))) == []


@pytest.mark.parametrize("name", ["triangle", "from its long edge", "square", "stole"])
def test_a_shawl_is_as_deep_and_as_wide_as_it_was_worked(name: str) -> None:
    """In the middle of the back its depth below the nape; along shoulders and arms half of its long edge to either
    side: of a square, folded from corner to corner, both are half its diagonal (Pythagoras)."""
    plan = WRAPS[name]()
    scene = worn(plan)
    px, nape = scale(plan, scene)
    back = views(scene)[1]
    piece, gauge = plan.pieces[0], plan.pieces[0].gauge
    wide, high = (
        float(max(row.right.at - row.left.at for row in piece.rows) * gauge.half), float(piece.row_count * gauge.row)
    )
    if name == "stole":
        wide, high = high, wide
    half = (wide**2 + high**2) ** 0.5 / 2
    wing, deep = (half, wide * high / 2 / half) if name == "square" else (wide / 2, high)
    assert (max(y for x, y in back.cloth if abs(x - back.middle) < 4 * px) - nape) / px == pytest.approx(deep, abs=1.0)
    body = figure.of(plan.pattern.wearer)
    end_x, end_y = body.shoulder_end
    for side in (-1, 1):
        x, y = max(back.cloth, key=lambda place: side * (place[0] - back.middle))
        out, down = abs(x - back.middle) / px - end_x, (y - nape) / px - end_y
        if name == "stole":
            down = 0.0  # its corner hangs lower
            out /= np.sin(hung_wraps.HELD_OUT)
        assert body.shoulders + np.hypot(out, down) == pytest.approx(wing, abs=1.5)
    assert max(y for _, y in back.cloth) - min(y for _, y in back.cloth) > 0.8 * deep * px


@pytest.mark.parametrize("name", ["scarf", "long rows"])
def test_a_scarf_hangs_down_in_front_with_both_ends_even(name: str) -> None:
    """Whichever way its rows run: its length is twice the way down in front and the way round the neck, which is part
    of a circle; at its ends each is as wide as it was worked."""
    plan = WRAPS[name]()
    scene = worn(plan)
    px, nape = scale(plan, scene)
    front, back = views(scene)
    low = max(y for _, y in front.cloth)
    sides = (max(row.right.at - row.left.at for row in plan.pieces[0].rows) * plan.pieces[0].gauge.half,
             plan.pieces[0].row_count * plan.pieces[0].gauge.row)  # fmt: skip
    for side in (-1, 1):
        ends = [(x - front.middle) / px for x, y in front.cloth if y > low - 1.0 * px and side * (x - front.middle) > 0]
        assert max(ends) - min(ends) == pytest.approx(float(min(sides)), abs=0.8)
    assert (low - nape) / px < float(max(sides)) / 2
    assert (low - nape) / px > float(max(sides)) / 2 - 30
    assert max(y for _, y in back.cloth) < nape + 25 * px, "behind, it lies round the neck alone"


def test_where_wings_and_ends_fall_is_told() -> None:
    """The figures of a body from the size table (woman M), those of the shawl from its worked rows."""
    plan = WRAPS["triangle"]()
    deep = float(plan.pieces[0].row_count * plan.pieces[0].gauge.row)
    assert f"Down the back: {round(2 * deep) / 2:g} cm below the nape" in worn(plan).words
    assert re.search(r"To either side [\d.]+ cm from the nape, [\d.]+ cm (beyond|short of) the wrist", worn(plan).words)
    assert "Both ends even: " in worn(WRAPS["scarf"]()).words


def test_a_blanket_is_refused_in_plain_words() -> None:
    with pytest.raises(MakerError, match="as a blanket, is shown without --figure"):
        worn(made("Blanket", 'name = "blanket"\nwidth = 60\nlength = 80'))


def test_cuffs_that_end_short_of_the_shoulder_are_not_measured_from_it() -> None:
    """ "Cuffs: -11.5 cm from the end of the shoulder" was told of a short sleeve on narrow shoulders."""
    plan = end_to_end.planned(file_at(9203))
    assert plan is not None
    told = on_figure.sentences(plan)
    assert told
    assert not [one for one in told if re.search(r"[-−]\d", one) or one.startswith("Cuffs")]
