"""Close-ups: the rows asked for, the arrow where the hook goes, and captions that say what the rules say.

Expected places come from the grid, expected words from the rules of the lattice, DEVELOPERS.md (no published source).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import dist
from pathlib import Path as FilePath

import pytest
from click.testing import CliRunner
from hypothesis import given

from pictures import opened, png_bytes
from test_colours import contrast
from test_shapes import UNIT, planned, shaped_patterns, steady
from test_short import flat, groups, kind
from turnchain.cli import cli
from turnchain.drawing.detail import Asked, CloseUp, detail, series, subject_of
from turnchain.drawing.looks import Hand, Look
from turnchain.drawing.setting import setting
from turnchain.errors import MakerError
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.making import DETAIL_SIZE
from turnchain.making import planned as plan_of_file
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Terms
from turnchain.planning.candidate import Candidate
from turnchain.planning.planner import plan_pattern
from turnchain.planning.rows import rows_of
from turnchain.proof.maker.steps import RepeatSteps
from turnchain.proof.words.phrasebook import phrasebook
from turnchain.proof.words.sentences import sentence
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.scene import Group, Path, Scene, Text, Use
from turnchain.wording import words
from turnchain.wording.edge_captions import of_edge
from turnchain.wording.tables import LANGUAGES, told_in

CASES = FilePath(__file__).parent / "cases"
OPEN, CLOSED = Fabric(3, 1), Fabric(3, 0)


def of_edges(
    left: tuple[int, ...], right: tuple[int, ...], phase: int, fabric: Fabric = OPEN, terms: Terms = "US"
) -> Plan:
    """A plan with just these edges, whatever a planner would think of them."""
    piece = Piece("piece", width=Fraction(10), length=Fraction(10))
    pattern = Pattern("Edges", (UNIT,), (piece,), fabric, terms=terms)
    gauge = gauge_of(pattern.swatches)
    chosen = Candidate(left, right, phase, Fraction(0), "alike", 0, 0, 0, 0, 10)
    rows = rows_of(chosen, recipe_of(fabric))
    made = PiecePlan(
        "piece", 1, "upwards", recipe_of(fabric), gauge, phase, "alike", 10, rows, (), None, (), (), None, True, False
    )
    return Plan(pattern, gauge, (made,), ())


def two_rows(move: str, below: str, at: Side, pitches: int = 0, fabric: Fabric = OPEN, terms: Terms = "US") -> Plan:
    """Row 2 with this move at the edge ``at`` (left: where it starts; right: where it ends)."""
    inwards = {"straight": 0, "decrease": 1, "forced_decrease": 1, "increase": -1, "forced_increase": -1}
    distance = inwards.get(move, 2 * pitches if move == "step_in" else -2 * pitches)
    phase = 0 if below == "flush" else 1
    if at == "left":
        left, right = (0, distance), (13, 13)
    else:  # the right edge is of the same kind as the left one where the width is even
        left, right = (0, 0), (14, 14 - distance)
    plan = of_edges(left, right, phase, fabric, terms)
    edge = plan.pieces[0].rows[1].edge(at)
    assert (edge.move, plan.pieces[0].rows[0].edge(at).kind) == (move, below)
    return plan


PASSED, FIRST = "skip first cl, cl in next sp.", "cl in first sp."
STARTS = [
    ("straight", "flush", 0, "Ch 4, turn, " + PASSED),
    ("straight", "spaced", 0, "Ch 3, turn, " + FIRST),
    ("decrease", "flush", 0, "Ch 3, turn, " + PASSED),
    ("increase", "spaced", 0, "Ch 4, turn, " + FIRST),
    ("forced_decrease", "spaced", 0, "Turn, sl st in first sp, ch 4, cl in next sp."),
    ("step_in", "flush", 2, "Turn, skip edge st, sl st in each of next 7 st, sl st in next sp, ch 4, cl in next sp."),
    ("step_in", "flush", 1, "Turn, skip edge st, sl st in each of next 3 st, sl st in next sp, ch 4, cl in next sp."),
    ("step_in", "spaced", 1, "Turn, skip edge st, sl st in each of next 3 st, ch 3, cl in next sp."),
    ("step_in", "spaced", 2, "Turn, skip edge st, sl st in each of next 7 st, ch 3, cl in next sp."),
]
ENDS = [
    ("straight", "flush", 0, "After the last cl: ch 1, skip last cl, dc in 3rd ch of tch."),
    ("straight", "spaced", 0, "After the last cl: dc in 3rd ch of tch."),
    ("decrease", "flush", 0, "After the last cl: dc in last dc of last cl, leave tch unworked."),
    ("increase", "spaced", 0, "After the last cl: ch 1, dc in 3rd ch of tch."),
    ("forced_decrease", "spaced", 0, "After the last cl: ch 1, dc in next sp, leave tch unworked."),
    ("forced_increase", "flush", 0, "After the last cl: ch 1, skip last cl, (cl, dc) in 3rd ch of tch."),
    ("step_in", "flush", 1, "After the last cl: ch 1, dc in next sp, leave last 1 cl unworked."),
    ("step_in", "spaced", 2, "After the last cl: dc in 2nd dc of next cl, leave last 1 cl unworked."),
]


def caption(plan: Plan, at: Side) -> tuple[str, str]:
    piece = plan.pieces[0]
    return of_edge(plan.pattern, piece, piece.rows[1], at)


@pytest.mark.parametrize(("move", "below", "pitches", "words"), STARTS)
def test_a_row_starts_as_the_table_says(move: str, below: str, pitches: int, words: str) -> None:
    head, said = caption(two_rows(move, below, "left", pitches), "left")
    assert said == words
    assert head.startswith("Row 2, start of the row: ")


@pytest.mark.parametrize(("move", "below", "pitches", "words"), ENDS)
def test_a_row_ends_as_the_table_says(move: str, below: str, pitches: int, words: str) -> None:
    head, said = caption(two_rows(move, below, "right", pitches), "right")
    assert said == words
    assert head.startswith("Row 2, end of the row: ")


@pytest.mark.parametrize(
    ("at", "move", "below", "pitches", "words"),
    [
        ("left", "straight", "flush", 0, "Ch 3, turn, tr in base of tch, miss first cl, cl in next sp."),
        ("left", "increase", "spaced", 0, "Ch 3, turn, tr in base of tch, cl in first sp."),
        ("left", "decrease", "flush", 0, "Ch 3, turn, miss first cl, cl in next sp."),
        ("left", "forced_decrease", "spaced", 0, "Turn, ss in first sp, ch 3, tr in base of tch, cl in next sp."),
        # closed, flush below: m k + 1; spaced below: 1 + (m - 1) k + ceil(k / 2)
        (
            "left",
            "step_in",
            "flush",
            2,
            "Turn, miss edge st, ss in each of next 6 st, ss in next sp, ch 3, tr in base of tch, cl in next sp.",
        ),
        ("left", "step_in", "spaced", 2, "Turn, miss edge st, ss in each of next 6 st, ch 3, cl in next sp."),
        ("right", "straight", "flush", 0, "After the last cl: miss last cl, 2 tr in 3rd ch of tch."),
        ("right", "forced_decrease", "spaced", 0, "After the last cl: 2 tr in next sp, leave rest of row unworked."),
        ("right", "forced_increase", "flush", 0, "After the last cl: miss last cl, (cl, tr) in 3rd ch of tch."),
        ("right", "decrease", "flush", 0, "After the last cl: tr in last tr of last cl, leave tch unworked."),
    ],
)
def test_the_closed_fabric_in_uk_terms(at: Side, move: str, below: str, pitches: int, words: str) -> None:
    assert caption(two_rows(move, below, at, pitches, CLOSED, "UK"), at)[1] == words


def test_a_forced_increase_at_the_start_is_a_whole_cluster() -> None:
    # "ch 3, k dc in the post, ch g, cluster in the first space": the first cluster is the one in the edge stitch
    assert caption(two_rows("forced_increase", "flush", "left"), "left")[1] == "Ch 3, turn, cl in base of tch."


def test_a_step_out_counts_its_chains() -> None:
    # spaced below: "ch m k + (m - 1) g + 1, then 3; first dc in the 5th chain": 8 and 3 for two pitches
    said = caption(two_rows("step_out", "spaced", "left", 2), "left")[1]
    assert said == "Ch 11 (last 3 ch are tch), turn, dc in 5th ch from hook, dc in each of next 2 ch."


def test_row_1_begins_with_its_chain() -> None:
    plan = of_edges((0, 0), (3, 3), 0)
    head, said = of_edge(plan.pattern, plan.pieces[0], plan.pieces[0].rows[0], "right")
    assert head == "Row 1, start of the row: on the foundation chain"
    assert said == "Ch 10, dc in 7th ch from hook, dc in each of next 2 ch."


def test_an_even_cluster_has_two_middles() -> None:
    # of the two middle dc the outer one, which is met second at a row's end
    said = caption(two_rows("step_in", "spaced", "right", 2, Fabric(4, 1)), "right")[1]
    assert said.startswith("After the last cl: dc in 3rd dc of next cl")


def rewritten(said: str, language: str) -> list[object]:
    """The steps of a caption, read by the reader of the proof."""
    book = phrasebook(language, ())
    lead = {"de": "Nach der letzten Gr: ", "fr": "Après le dernier gr : "}.get(language, "After the last cl: ")
    steps, _ = sentence(book, said.removeprefix(lead) + " ")
    assert steps, said
    return list(steps)


@pytest.mark.parametrize("language", LANGUAGES)
def test_captions_are_read_back_as_the_steps_of_their_rows(language: str) -> None:
    """The first and the last steps of the row as it is written out, read by code that shares nothing with them."""
    for at, table in (("left", STARTS), ("right", ENDS)):
        for move, below, pitches, _ in table:
            plan = two_rows(move, below, at, pitches)  # type: ignore[arg-type]
            plan = replace(plan, pattern=replace(plan.pattern, language=language))
            piece = plan.pieces[0]
            row = words.row_said(piece, piece.rows[1], language)
            whole, _ = sentence(phrasebook(language, ()), row.steps + " ")
            told = rewritten(caption(plan, at)[1], language)  # type: ignore[arg-type]
            flat = [one for step in whole for one in (step.steps if isinstance(step, RepeatSteps) else (step,))]
            assert told == (flat[: len(told)] if at == "left" else flat[-len(told) :])


# ------------------------------------------------------------------------------------------------- what is shown


def shown_rows(scene: Scene) -> list[int]:
    """Indices of the rows drawn, from 0."""
    return [int(group.name.rsplit("-", 1)[1]) - 1 for group in groups(scene, "row-of-stitches")]


def tip(scene: Scene) -> tuple[float, float]:
    (hook,) = groups(scene, "hook")
    steps = next(item for item in reversed(hook.items) if isinstance(item, Path)).steps
    return steps[1][1], steps[1][2]  # type: ignore[misc]


def start(scene: Scene) -> tuple[float, float]:
    (hook,) = groups(scene, "hook")
    steps = next(item for item in reversed(hook.items) if isinstance(item, Path)).steps
    return steps[0][1], steps[0][2]  # type: ignore[misc]


def place_of_the_hook(grid: Grid, row: Row, at: Side) -> tuple[float, Into]:
    """By the rules: at a row's start where its first cluster goes, at its end where the post goes."""
    made = grid.row(row)
    order = range(len(made))
    dcs = [i for i in order if Symbol(int(made.symbol[i])) is Symbol.DC]
    if row.starts == at:
        centre = min if at == "left" else max
        heads = [float(made.head[i]) for i in dcs[:-1]]
        k = grid.piece.recipe.unit_width
        extra = 1 if row.edge(at).kind == "spaced" and grid.closed else 0
        first = dcs[extra : extra + k]
        assert centre(heads) in [float(made.head[i]) for i in dcs[: extra + 1]]
        return float(made.foot[first[0]]), Into(int(made.into[first[0]]))
    return float(made.foot[dcs[-1]]), Into(int(made.into[dcs[-1]]))


def arrow_is_right(plan: Plan, asked: Asked, look: Look | None = None) -> None:
    look = look or Look()
    piece = plan.pieces[0]
    scene = detail(plan, piece.name, asked, DETAIL_SIZE, look)
    close_up = CloseUp(setting(plan, piece.name, look), asked, DETAIL_SIZE)
    sheet = close_up.sheet
    row = subject_of([row for row in close_up.found.piece.rows if row.index in shown_rows(scene)], asked)
    foot, _ = place_of_the_hook(Grid(piece), row, asked.at)
    x, y = tip(scene)
    # it stops short of the place, by a few px, and points straight at it
    aim = close_up.hook()
    assert abs(aim[0] - sheet.x(foot)) < 0.15 * sheet.half
    assert sheet.top(row.number - 1) - 0.1 * sheet.rise <= aim[1] <= sheet.top(row.number - 1) + 0.2 * sheet.rise
    assert 5 < dist((x, y), aim) < 0.3 * sheet.rise
    tail = start(scene)
    turn = (aim[0] - tail[0]) * (y - tail[1]) - (aim[1] - tail[1]) * (x - tail[0])
    assert abs(turn) < 2 * dist(tail, aim)
    assert 0 <= x <= scene.width
    assert 0 <= y <= scene.height


TABLES = (("left", STARTS), ("right", ENDS))
MOVES = [(at, move, below, pitches) for at, table in TABLES for move, below, pitches, _ in table]


@pytest.mark.parametrize(("at", "move", "below", "pitches"), [*MOVES, ("left", "step_out", "spaced", 1)])
def test_the_arrow_points_to_where_the_hook_goes(at: Side, move: str, below: str, pitches: int) -> None:
    arrow_is_right(two_rows(move, below, at, pitches), Asked(2, 2, at))


@pytest.mark.parametrize("move", ["straight", "increase"])
def test_the_arrow_passes_the_extra_stitch_of_a_closed_edge(move: str) -> None:
    plan = two_rows(move, "flush" if move == "straight" else "spaced", "left", fabric=CLOSED)
    arrow_is_right(plan, Asked(2, 2, "left"))


@steady(25)
@given(shaped_patterns(most_rows=7, most_clusters=7))
def test_close_ups_of_random_shapes_show_their_rows(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is None:
        return
    (piece,) = plan.pieces
    for asked in list(series(piece))[:3]:
        scene = detail(plan, piece.name, asked, (1920, 1080))
        numbers = {piece.rows[index].number for index in shown_rows(scene)}
        # those around it, and more where the picture has room
        assert numbers >= set(range(max(1, asked.first - 2), min(piece.row_count, asked.last + 1) + 1))
        assert numbers == set(range(min(numbers), max(numbers) + 1))
        move = piece.section(piece.rows[0].section)[asked.first - 1].edge(asked.at).move
        assert move != "straight"
        x, y = tip(scene)
        assert 0 <= x <= 1920
        assert 0 <= y <= 1080


def strong_rows(scene: Scene) -> set[str]:
    return {
        group.words.split(":")[0]
        for group in groups(scene, "row-of-stitches")
        if any(isinstance(item, Use) and item.ink in ("#221d18", "#ffffff", "#000000") for item in group.items)
    }


def test_the_rows_asked_for_are_strong_and_numbered_and_the_others_quiet() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    scene = detail(plan, "front", Asked(12, 14, "right"), (1920, 1080))
    assert {10, 11, 12, 13, 14, 15} <= {index + 1 for index in shown_rows(scene)}
    assert strong_rows(scene) == {"row 12", "row 13", "row 14"}
    (group,) = groups(scene, "row-numbers")
    numbers = {item.words: item for item in group.items if isinstance(item, Text)}
    # where a row starts it is numbered, and so are those asked for
    assert {"11", "12", "13", "14", "15"} <= set(numbers)
    assert {words for words, item in numbers.items() if item.weight == "semibold"} == {"12", "13", "14"}
    assert (scene.width, scene.height) == (1920, 1080)
    assert "Row 12" in scene.words


def test_only_the_edge_is_drawn() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    piece = plan.piece("front")
    for at in SIDES:
        scene = detail(plan, "front", Asked(12, 12, at), DETAIL_SIZE)
        for group in groups(scene, "row-of-stitches"):
            drawn = [kind(name) for name, _ in flat(scene, group.items)]
            assert 2 * 3 <= drawn.count("dc") <= 7 * 3 + 1 < 3 * piece.rows[11].clusters


@pytest.mark.parametrize("size", [(1080, 1080), (1000, 1500)])
def test_a_close_up_is_filled_and_told(size: tuple[int, int]) -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    for asked in series(plan.piece("front")):
        scene = detail(plan, "front", asked, size)
        (stripes,) = groups(scene, "stripes")
        places = [step[-2:] for item in stripes.items if isinstance(item, Path) for step in item.steps if len(step) > 1]
        xs, ys = zip(*places, strict=True)
        assert (max(ys) - min(ys)) * size[0] >= 0.75 * size[0] * size[1]
        assert (min(xs) == 0) == (asked.at == "right")
        (head,) = groups(scene, "header")
        said = " ".join(item.words for item in head.items if isinstance(item, Text))
        for wanted in (plan.pattern.title, "front", f"Row {asked.first}", "side facing", plan.pattern.by):
            assert wanted in said
        sizes = [item.size for group in groups(scene, "") for item in group.items if isinstance(item, Text)]
        assert min(sizes) * 390 / size[0] >= 10.9


@pytest.mark.parametrize("size", [(1920, 1080), (1080, 1080)])
def test_a_clear_page_is_clear(size: tuple[int, int]) -> None:
    plan = plan_of_file(CASES / "kite_kerchief.toml")
    scene = detail(plan, "tie", Asked(4, 4, "left"), size, Look(page="clear"))
    assert scene.background is None
    picture = opened(png_bytes(scene), "RGBA")
    assert picture.shape[:2] == size[::-1]
    assert (picture[:3, :, 3] == 0).all()
    assert (picture[:, :, 3] == 255).mean() > 0.05
    light, dark = (detail(plan, "tie", Asked(4, 4, "left"), size, Look(page=page)) for page in ("light", "dark"))  # type: ignore[arg-type]
    assert light.background == "#ffffff"
    assert dark.background is not None


def lies_on(scene: Scene, x: float, y: float) -> str | None:
    """The colour of the cloth that is laid last at a place; None beside it."""
    fills = None
    for group in groups(scene, "stri"):  # stripes, strips
        for item in group.items:
            places = [step[-2:] for step in getattr(item, "steps", ()) if len(step) > 1]
            if places and getattr(item, "fill", None):
                xs, ys = zip(*places, strict=True)
                fills = item.fill if min(xs) <= x <= max(xs) and min(ys) <= y <= max(ys) else fills  # type: ignore[union-attr]
    return fills


@pytest.mark.parametrize("look", [Look(inks="full"), Look(page="dark"), Look(), Look(inks="full", hand="left")])
@pytest.mark.parametrize("yarn", ["#101014", "#f4f0e4"])
def test_slip_stitches_and_the_chains_of_a_step_lie_on_cloth(look: Look, yarn: str) -> None:
    tee = """title = "Tee"
swatch = { clusters = 4, width = 10, rows = 8, height = 10 }
yarn = [{ name = "Ink", colour = "COLOUR" }]
stripes = { order = ["Ink"] }
piece = [{ name = "tee", outline = [[0, 20], [10, 20], [10, 40], [17.5, 40], [17.5, 22.5], [25, 22.5]] }]
"""
    plan = plan_pattern(read_text(tee.replace("COLOUR", yarn), "x"))
    piece = plan.piece("tee")
    steps = [row for row in piece.rows if row.edge(row.starts).step]
    assert {row.edge(row.starts).move for row in steps} == {"step_in", "step_out"}
    looked = 0
    for row in steps:
        at = row.starts if look.hand == "right" else {"left": "right", "right": "left"}[row.starts]
        scene = detail(plan, "tee", Asked(row.number, row.number, at), DETAIL_SIZE, look)  # type: ignore[arg-type]
        (drawn,) = groups(scene, f"row-of-stitches-{row.index + 1}")
        (use,) = drawn.items
        assert isinstance(use, Use)
        for made in scene.definitions[use.name]:
            if isinstance(made, Use) and made.name in ("sl-st", "ch-step"):
                (symbol,) = scene.definitions[made.name]
                y = use.y + symbol.steps[0][-1]  # type: ignore[union-attr]
                if 0 < use.x + made.x < DETAIL_SIZE[0]:
                    cloth = lies_on(scene, use.x + made.x, y)
                    assert cloth is not None
                    assert contrast(use.ink, cloth) >= 3
                    looked += 1
    assert looked > 20


# ------------------------------------------------------------------------------------------------------- series


def kinds_used(piece: PiecePlan) -> Iterator[tuple[str, bool]]:
    for row, side in product(piece.section("body"), SIDES):
        if row.edge(side).move != "straight":
            yield row.edge(side).move, row.starts == side


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_a_series_has_one_close_up_for_each_kind_of_move(case: str) -> None:
    for piece in plan_of_file(CASES / f"{case}.toml").pieces:
        made = [
            (row.edge(asked.at).move, row.starts == asked.at)
            for asked in series(piece)
            for row in piece.rows[asked.first - 1 : asked.last]
        ]
        assert sorted(made) == sorted(set(kinds_used(piece)))


# ----------------------------------------------------------------------------------------------------- sections


def divided() -> Plan:
    neck = Neck(Fraction(2), Fraction(2))
    piece = Piece("piece", width=Fraction(12), length=Fraction(8), neck=neck)
    return plan_pattern(Pattern("Divided", (UNIT,), (piece,)))


def test_a_joined_start_is_told_as_one() -> None:
    plan = divided()
    piece = plan.pieces[0]
    (row,) = [row for row in piece.rows if row.joined]
    said = of_edge(plan.pattern, piece, row, row.starts)[1]
    assert "0 sl st" not in said
    assert "join" in said.casefold()


def test_a_close_up_at_an_outer_edge_is_about_that_edge() -> None:
    plan = divided()
    piece = plan.pieces[0]
    for at in SIDES:
        asked = Asked(8, 8, at)
        scene = detail(plan, "piece", asked, DETAIL_SIZE)
        rows = [row for row in piece.rows if row.index in shown_rows(scene)]
        outer = piece.leftmost if at == "left" else piece.rightmost
        assert subject_of(rows, asked).edge(at).at == outer


# ---------------------------------------------------------------------------------------------------- bad input


@pytest.mark.parametrize("rows", [(0, 1), (48, 48), (12, 11), (40, 60)])
def test_rows_that_are_not_there(rows: tuple[int, int]) -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    with pytest.raises(MakerError, match="it has rows 1 to 47"):
        detail(plan, "front", Asked(*rows, "left"), DETAIL_SIZE)


def test_too_many_rows() -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    detail(plan, "front", Asked(1, 12, "left"), DETAIL_SIZE)
    with pytest.raises(MakerError, match="12 rows at most"):
        detail(plan, "front", Asked(1, 13, "left"), DETAIL_SIZE)


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--detail", "12"], "--detail and --at go together"),
        (["--at", "left"], "--detail and --at go together"),
        (["--detail", "twelve", "--at", "left"], "no row"),
        (["--detail", "12-", "--at", "middle"], "'middle'"),
        (["--detail", "-3", "--at", "left"], "no row"),
        (["--detail", "12-x", "--at", "left"], "no row"),
    ],
)
def test_wrong_use_is_told(options: list[str], words: str, tmp_path: FilePath) -> None:
    out = tmp_path / "front.png"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out), *options]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 2
    assert words in result.output
    assert not out.exists()


def test_the_command_line_makes_a_close_up(tmp_path: FilePath) -> None:
    out = tmp_path / "front.svg"
    arguments = ["chart", str(CASES / "heron_top.toml"), "--piece", "front", "-o", str(out)]
    result = CliRunner().invoke(cli, [*arguments, "--detail", "12-13", "--at", "right", "--size", "film"])
    assert result.exit_code == 0, result.output
    assert re.search(r'width="1920(px)?"', out.read_text("utf-8"))
    assert out.with_suffix(".txt").read_text("utf-8").startswith("Row 12, end of the row: half a cluster less")


def test_a_caption_fits_its_picture() -> None:
    plan = two_rows("forced_decrease", "spaced", "left", fabric=CLOSED, terms="UK")
    for size in ((1920, 1080), (1080, 1080), (1000, 1500)):
        scene = detail(plan, "piece", Asked(2, 2, "left"), size)
        (said,) = groups(scene, "caption")
        assert isinstance(said, Group)
        lines = [item for item in said.items if isinstance(item, Text)]
        assert all(0 < line.y < size[1] for line in lines)
        assert lines[0].y < lines[-1].y


@pytest.mark.parametrize(("hand", "edge", "said"), [
    ("right", "right", "Ch 93, dc in 5th ch from hook, dc in each of next 2 ch."),
    ("right", "left", "After the last cl: ch 1, skip 1 ch, dc in last ch."),
    ("left", "left", "Ch 93, dc in 5th ch from hook, dc in each of next 2 ch."),
])  # fmt: skip
def test_row_1_is_told_and_drawn_on_its_foundation(hand: Hand, edge: Side, said: str) -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    scene = detail(plan, "front", Asked(1, 2, edge), (1080, 1080), Look(hand=hand))
    assert said in scene.words
    (chains,) = groups(scene, "foundation")
    assert len(chains.items) > 8
    assert not groups(detail(plan, "front", Asked(8, 8, edge), (1080, 1080)), "foundation")


@pytest.mark.parametrize(
    ("language", "start", "end"),
    [
        ("US", "Ch 1, turn, sc in edge st, sc in each of next 32 st.", "Sc in 3rd ch of tch."),
        ("UK", "Ch 1, turn, dc in edge st, dc in each of next 32 st.", "Dc in 3rd ch of tch."),
    ],
)
def test_edges_of_a_row_of_one_stitch_are_told_by_its_first_and_last(language: str, start: str, end: str) -> None:
    """8 clusters of 3 with 7 chains between and one at the edge are 32 stitches between the edge stitches: there is no
    cluster to count from."""
    text = (
        'title = "Edge"\nswatch = { clusters = 4, width = 10, rows = 9, height = 10 }\n'
        'fabric = { rows = ["cluster", "cluster", "sc"] }\n[[piece]]\nname = "strip"\nwidth = 20\nlength = 10\n'
    )
    plan = told_in(plan_pattern(read_text(text, "edge.toml")), language)
    (piece,) = plan.pieces
    row = piece.rows[2]
    assert (row.kind, piece.rows[1].clusters) == ("sc", 8)
    assert [of_edge(plan.pattern, piece, row, side)[1] for side in (row.starts, row.ends)] == [start, end]


@pytest.mark.parametrize("at", SIDES)
def test_the_hook_goes_into_the_middle_of_the_chains_below_row_1(at: Side) -> None:
    plan = plan_of_file(CASES / "heron_top.toml")
    found = setting(plan, "front", Look())
    made = CloseUp(found, Asked(1, 1, at), (1080, 1080))
    sheet = made.sheet
    _, y = made.hook()
    assert y == pytest.approx(sheet.ground + sheet.strip * sheet.rise / 2, abs=1)
    for row in made.rows:
        assert sheet.side(row.left.at, "left") < 1080 if at == "left" else sheet.side(row.right.at, "right") > 0


@pytest.mark.parametrize("size", [(1920, 1080), (1080, 1080), (1000, 1500)])
@pytest.mark.parametrize("at", SIDES)
def test_stitches_fill_the_picture_up_to_its_other_side_and_go_hardly_beyond(at: Side, size: tuple[int, int]) -> None:
    """To a pitch and the cluster that the side cuts."""
    plan = plan_of_file(CASES / "mudflat_blanket.toml")
    piece = plan.pieces[0]
    half = CloseUp(setting(plan, piece.name, Look()), Asked(3, 3, at), size).sheet.half
    scene = detail(plan, piece.name, Asked(3, 3, at), size)
    for group in groups(scene, "row-of-stitches"):
        xs = [x for name, x in flat(scene, group.items) if kind(name) == "dc"]
        beyond = max(xs) - size[0] if at == "left" else -min(xs)
        assert -2 * half <= beyond <= 3 * half
