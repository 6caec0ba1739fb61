"""What stands beside the stitches of a chart: which marks there are, by hand, and where they lie, by geometry.

Odd rows start at the right. With ``carry = 0`` every stripe is joined anew, where its first row starts; yarn is
fastened off where the last row ends, and in a divided piece where that of the first part does.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from turnchain.drawing import margins
from turnchain.drawing.bands import corners
from turnchain.drawing.chart import laid_out
from turnchain.drawing.folds import NO_FOLDS, Folds, Span
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import Margins
from turnchain.drawing.marks import Beside, Marks
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import SHORT
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import Plan
from turnchain.lettering.measuring import measure
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Item, Path, Text

HEAD = 'title = "Marked"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'
YARNS = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\n' for name, colour in
                (("Sand", "#f6f0e0"), ("Slate", "#203040"), ("Moss", "#5a7040")))  # fmt: skip


def stripes(rows: str, carry: int = 0) -> str:
    return f'{YARNS}[stripes]\norder = ["Sand", "Slate", "Moss"]\nrows = {rows}\ncarry = {carry}\n'


@cache
def planned(shape: str, more: str = "") -> Plan:
    return plan_pattern(read_text(f'{HEAD}{more}[[piece]]\nname = "piece"\n{shape}\n', "marked.toml"))


def panel(rows: int) -> str:
    return f"width = 20\nlength = {1.25 * rows}"


def marks(plan: Plan, folds: Folds = NO_FOLDS) -> Marks:
    return Marks.of(setting(plan, "piece", Look()), folds)


BOTH = {"left", "right"}


@pytest.mark.parametrize(("rows", "heights", "folds", "joins", "signed", "ends", "beside"), [
    # stripes from rows 1, 4, 7 and 10: the odd ones start at the right; row 12 ends there
    (12, "[3]", NO_FOLDS, {1, 4, 7, 10}, BOTH, [12], BOTH),
    (12, "[3]", Folds(left_cut=5), {1, 7}, {"right"}, [12], {"right"}),
    (12, "[3]", Folds(right_cut=9), {4, 10}, {"left"}, [], {"left"}),
    (12, "[3]", Folds(window=Span(2, 6)), {1, 4, 7, 10}, {"left"}, [], {"left"}),
    (12, "[3]", Folds(window=Span(8, 12)), {1, 4, 7, 10}, {"left"}, [12], BOTH),
    # stripes from rows 1, 5 and 9, all at the right; row 11 ends at the left, row 12 at the right
    (11, "[4]", NO_FOLDS, {1, 5, 9}, {"right"}, [11], BOTH),
    (12, "[4]", NO_FOLDS, {1, 5, 9}, {"right"}, [12], {"right"}),
    (11, "[4]", Folds(left_cut=5), {1, 5, 9}, {"right"}, [], {"right"}),
])  # fmt: skip
def test_joins_and_ends_are_where_stripes_begin_and_the_yarn_ends(
    rows: int, heights: str, folds: Folds, joins: set[int], signed: set[str], ends: list[int], beside: set[str]
) -> None:
    found = marks(planned(panel(rows), stripes(heights)), folds)
    assert {row for _, row in found.joins} == joins
    assert found.signed == signed
    assert [row.number for row in found.ends] == ends
    assert {side for side in SIDES if found.beside[side].signs} == beside
    shown = folds.window or Span(1, rows)
    assert [row.number for row in found.rows] == [*range(shown.first, shown.last + 1)]


@pytest.mark.parametrize(("window", "digits", "arrows"), [
    (None, (2, 2), (True, True)), (Span(1, 9), (1, 1), (True, True)), (Span(2, 9), (1, 1), (True, False)),
    (Span(3, 9), (1, 1), (False, False)), (Span(9, 10), (2, 1), (False, False)), (Span(9, 9), (0, 1), (False, False)),
])  # fmt: skip
def test_numbers_stand_where_rows_start(
    window: Span | None, digits: tuple[int, int], arrows: tuple[bool, bool]
) -> None:
    """Even rows at the left; rows 1 and 2 have an arrow."""
    found = marks(planned(panel(12)), Folds(window=window))
    assert tuple(found.beside[side].digits for side in SIDES) == digits
    assert tuple(found.beside[side].arrows for side in SIDES) == arrows


@pytest.mark.parametrize(("shape", "steps"), [
    (panel(12), (None, None)), ('align = "left"\noutline = [[0, 20], [20, 40]]', (None, False)),
    ('align = "right"\noutline = [[0, 20], [20, 40]]', (False, None)),
    ('align = "left"\noutline = [[0, 40], [10, 40], [10, 20], [20, 20]]', (None, True)),
    ('align = "right"\noutline = [[0, 40], [10, 40], [10, 20], [20, 30]]', (True, None)),
])  # fmt: skip
def test_moves_are_marked_at_the_edges_that_move(shape: str, steps: tuple[bool | None, ...]) -> None:
    plan = planned(shape)
    assert tuple(marks(plan).beside[side].steps for side in SIDES) == steps
    cut = marks(plan, Folds(left_cut=4)).beside, marks(plan, Folds(right_cut=12)).beside
    assert cut[0]["left"] == Beside(False, None, cut[0]["left"].digits, True)
    assert (cut[0]["right"].steps, cut[1]["left"].steps, cut[1]["right"].steps) == (steps[1], steps[0], None)


VEE = 'width = 50\nlength = 40\nneck = { shoulder = 15, depth = 12, shape = "vee" }'


def test_a_divided_piece_is_joined_where_its_second_part_begins_and_ends_twice() -> None:
    plan = planned(VEE, stripes("[80]"))
    piece = plan.pieces[0]
    _, first, second = piece.sections
    joined = piece.section(second)[0]
    found = marks(plan)
    assert found.joins == {(piece.sections[0], 1), (second, joined.number)}
    assert found.signed == {"right", joined.starts}
    assert [(row.section, row.number) for row in found.ends] == [
        (first, piece.row_count), (second, piece.row_count)
    ]


def test_yarns_are_carried_where_the_side_is_drawn() -> None:
    """Two rows of each of three: a yarn waits four rows at the right, where it is wanted again."""
    plan = planned(panel(18), stripes("[2]", carry=4))
    assert {(loop.side, loop.first, loop.last) for loop in marks(plan).loops} == {
        ("right", low, low + 5) for low in (2, 4, 6, 8, 10, 12)
    }
    assert marks(plan, Folds(right_cut=9)).loops == ()
    assert len(marks(plan, Folds(left_cut=9)).loops) == 6


# ------------------------------------------------------------------------------------------------ where marks stand

SHAPES = {
    "panel": panel(12), "leans in": "outline = [[0, 40], [30, 16]]", "leans out": "outline = [[0, 16], [30, 40]]",
    "steps": 'align = "left"\noutline = [[0, 40], [10, 40], [10, 20], [20, 20], [20, 34], [30, 34]]',
    "steps at the left": 'align = "right"\noutline = [[0, 40], [10, 40], [10, 20], [20, 20], [20, 34], [30, 34]]',
    "vee": VEE.replace("width = 50", "width = 70"),
}  # fmt: skip
STRIPES = {"plain": "", "joined": stripes("[3]"), "carried": stripes("[2]", carry=4)}


@cache
def drawn(shape: str, striped: str) -> Margins:
    return Margins.on(page(planned(SHAPES[shape], STRIPES[striped])))


def page(plan: Plan, folds: Folds = NO_FOLDS, look: Look | None = None) -> Setting:
    return laid_out(setting(plan, "piece", look or Look()), None, SHORT, folds)


Box = tuple[float, float, float, float]


def box(item: Item) -> Box:
    """Left, top, right and bottom."""
    if isinstance(item, Text):
        wide = measure(item.words, item.size, item.weight)
        left = item.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor] * wide
        return left, item.y - 0.7 * item.size, left + wide, item.y
    assert isinstance(item, Path)
    places = [(step[at], step[at + 1]) for step in item.steps for at in range(1, len(step) - 1, 2)]  # type: ignore[misc]
    xs, ys = zip(*places, strict=True)
    return min(xs), min(ys), max(xs), max(ys)  # type: ignore[type-var,return-value]


def shape_of(path: Item) -> list[tuple[float, float]]:
    assert isinstance(path, Path)
    return [(step[1], step[2]) for step in path.steps if len(step) == 3]


ALL = [(shape, striped) for shape in SHAPES for striped in STRIPES]


@pytest.mark.parametrize(("shape", "striped"), ALL)
def test_there_is_a_sign_for_every_join_and_end_and_a_wedge_for_every_move(shape: str, striped: str) -> None:
    made = drawn(shape, striped)
    piece, theme = made.piece, made.setting.theme
    signs = margins.signs(made)
    # in a narrow neck a sign of an end may find no room
    joins, ends = (sum(isinstance(one, Path) and (one.fill == theme.ink) == solid for one in signs)
                   for solid in (False, True))  # fmt: skip
    assert joins == len(made.joins)
    assert ends <= len(made.ends)
    assert ends >= len(made.ends) - (shape == "vee")
    moves = [row.edge(side) for row in piece.rows for side in SIDES
             if row.edge(side).move != "straight" and not piece.begins_section(row)]  # fmt: skip
    if shape != "vee":
        assert len(margins.wedges(made)) == sum(2 if edge.step else 1 for edge in moves)
    texts = [item for item in margins.row_numbers(made) if isinstance(item, Text)]
    if shape != "vee":
        assert [text.words for text in texts] == [str(row.number) for row in piece.rows]
        assert len(margins.row_numbers(made)) == len(texts) + 2, "two arrows"


@pytest.mark.parametrize(("shape", "striped"), ALL)
def test_marks_of_a_row_stand_outside_its_cloth_and_clear_of_one_another(shape: str, striped: str) -> None:
    """From the cloth outwards: sign, wedge, number; each in its row."""
    made = drawn(shape, striped)
    piece, sheet = made.piece, made.setting.sheet
    kinds = [margins.signs(made), margins.wedges(made), margins.row_numbers(made)]
    seen = 0
    for row in piece.rows:
        top, foot = sheet.top(row.number), sheet.top(row.number - 1)
        for side in SIDES:
            edge = [x for x, _ in corners(piece, sheet, row, side)]
            far = piece.across_neck(row, side)
            middle = None if far is None else (sheet.x(row.edge(side).at) + sheet.x(far)) / 2
            sign = -1 if side == "left" else 1
            found = []
            for kind in kinds:
                here = []
                for item in kind:
                    left, high, right, low = box(item)
                    within = top - 1 <= (high + low) / 2 <= foot + 1
                    at = (left + right) / 2
                    outside = sign * (at - max(edge, key=lambda x: sign * x)) > 0
                    ours = middle is None or sign * (at - middle) < 0
                    beside = ours and abs(at - sum(edge) / 2) < abs(at - other_edge(made, row.index, side))
                    if within and outside and beside:
                        here.append((sign * left, sign * right) if sign > 0 else (-right, -left))
                found.append(sorted(here))
            spans = [span for kind in found for span in kind]
            outer = max(sign * x for x in edge)
            for low, _ in spans:
                assert low > outer - 0.5 * sheet.half, (row.number, side)
            if len(piece.sections) == 1:
                for one, other in pairwise(kind for kind in found if kind):
                    assert max(high for _, high in one) <= min(low for low, _ in other) + 0.6, (row.number, side)
                    seen += 1
    assert seen or (shape, striped) == ("panel", "plain") or len(piece.sections) > 1


def other_edge(made: Margins, index: int, side: str) -> float:
    row = made.piece.rows[index]
    other = "left" if side == "right" else "right"
    return sum(x for x, _ in corners(made.piece, made.setting.sheet, row, other)) / 2  # type: ignore[arg-type]


@pytest.mark.parametrize(("shape", "less"), [("leans in", True), ("leans out", False)])
def test_wedges_point_the_way_the_edge_goes(shape: str, less: bool) -> None:
    """The tip lies alone at one end, the back twice at the other."""
    made = drawn(shape, "plain")
    sheet = made.setting.sheet
    middle = (sheet.chart_left + sheet.chart_right) / 2
    found = margins.wedges(made)
    assert found
    for one in found:
        (back, high), (tip, at), (again, low) = shape_of(one)[:3]
        assert back == again
        assert at == pytest.approx((high + low) / 2, abs=0.01)
        assert (abs(tip - middle) < abs(back - middle)) == less


def test_arrows_beside_rows_1_and_2_point_towards_the_work() -> None:
    made = drawn("panel", "plain")
    items = margins.row_numbers(made)
    arrows = [item for item in items if isinstance(item, Path)]
    texts = [item for item in items if isinstance(item, Text)]
    sheet = made.setting.sheet
    for one, number, sign in zip(arrows, texts[:2], (1, -1), strict=True):
        tail, tip = shape_of(one)[:2]
        assert sign * (tail[0] - tip[0]) > 0, "from outside"
        assert tip[1] == tail[1] == pytest.approx(sheet.middle(int(number.words)))
        left, _, right, _ = box(number)
        assert sign * (tip[0] - (right if sign > 0 else left)) > 0, "past the number"
    assert {text.anchor for text in texts[::2]} == {"start"}
    assert {text.anchor for text in texts[1::2]} == {"end"}
    assert len({text.x for text in texts[::2]}) == 1, "below one another"


@pytest.mark.parametrize("ink", ["colour", "mono"])
def test_the_column_of_letters_has_a_block_as_high_as_each_stripe(ink: str) -> None:
    """12 rows: three of sand, of slate, of moss and of sand again. The pale one has a frame."""
    found = page(planned(panel(12), stripes("[3]")), look=Look(inks="mono") if ink == "mono" else Look())
    made = Margins.on(found)
    sheet = found.sheet
    items = margins.ruler(made, 40.2)
    texts = [item for item in items if isinstance(item, Text)]
    assert [text.words for text in texts] == ["A", "B", "C", "A"]
    wide = round(margins.RULER * made.words)
    thin = max(1, round(0.8 * made.unit))
    assert {text.x for text in texts} == {40 + wide / 2}
    for nth, text in enumerate(texts):
        top, foot = sheet.top(3 * nth + 3), sheet.top(3 * nth)
        assert top < text.y - text.size * 0.7 < text.y < foot
        assert (text.y - 0.36 * text.size) == pytest.approx((top + foot) / 2, abs=0.02)
        inside = [item for one in items for item in (one.items if isinstance(one, Group) else (one,))
                  if isinstance(item, Path) and box(item)[1] >= top and box(item)[3] <= foot]  # fmt: skip
        boxes = [box(item) for item in inside]
        assert (40, top, 40 + wide, foot - thin) in boxes, "a hairline between two stripes"
        framed = (40 + thin, top + thin, 40 + wide - thin, foot - 2 * thin) in boxes
        assert framed == (text.words == "A") or ink == "mono"
        plates = [one for one in inside if one.fill == found.theme.paper and box(one)[0] > 40 + thin]
        assert bool(plates) == (ink == "mono")
        for one in plates[-1:]:
            left, high, right, low = box(one)
            assert (left + right) / 2 == pytest.approx(text.x, abs=0.02)
            assert right - left == pytest.approx(measure(text.words, text.size, "semibold") + 0.4 * text.size, abs=0.03)
            assert (high + low) / 2 == pytest.approx((top + foot) / 2, abs=0.02)
    assert margins.ruler(Margins.on(page(planned(panel(12)))), 40.0) == []


NECK = 'worked = "sideways"\nwidth = 60\nlength = 60\nneck = { shoulder = 15, depth = 10 }\nneck_edge = '


@pytest.mark.parametrize(("shape", "name"), [
    (panel(12), "lower edge"), (VEE, "hem"), ("outline = [[0, 40], [30, 16]]", "first row"),
    (f'{NECK}"left"', "side seam"), ('worked = "sideways"\nwidth = 20\nlength = 20', "side edge"),
    ('worked = "sideways"\nwidth = 60\nlength = 60\nneck = { shoulder = 15, depth = 10 }\n'
     'front = { side = "left" }', None),
])  # fmt: skip
def test_the_first_row_is_named_as_worn(shape: str, name: str | None) -> None:
    plan = planned(shape)
    piece = plan.pieces[0]
    said = margins.name_of_foundation(piece, setting(plan, "piece", Look()).speech)
    wanted = name or ("front edge" if piece.front_edge == "first" else "side seam")
    assert said == f"{wanted}, foundation"


@pytest.mark.parametrize("edge", ["left", "right"])
def test_a_neck_lies_between_two_shoulders_along_its_edge(edge: str) -> None:
    """Every row has one name, in order; shoulders are straight, and the neck begins and ends with a row that moves."""
    plan = planned(f'{NECK}"{edge}"')
    piece = plan.pieces[0]
    other = "right" if edge == "left" else "left"
    assert margins.stretches(piece, other) == [("hem", 1, piece.row_count)]  # type: ignore[arg-type]
    found = margins.stretches(piece, edge)  # type: ignore[arg-type]
    assert [name for name, _, _ in found] == ["shoulder", "neck", "shoulder"]
    assert (found[0][1], found[-1][2]) == (1, piece.row_count)
    assert all(low[2] + 1 == high[1] for low, high in pairwise(found))
    moved = [row.number for row in piece.rows if row.edge(edge).move != "straight"]  # type: ignore[arg-type]
    assert found[1][1:] == (moved[0], moved[-1])
    square = planned(f'{NECK}"{edge}"'.replace("depth = 10", 'depth = 10, shape = "square"')).pieces[0]
    (_, first, last) = margins.stretches(square, edge)[1]  # type: ignore[arg-type]
    steps = {row.number: row.edge(edge).move for row in square.rows if row.edge(edge).step}  # type: ignore[arg-type]
    assert first == min(steps)
    assert last == max(steps) - (steps[max(steps)] == "step_out"), "the row that steps back stands on the shoulder"
    plain = planned('worked = "sideways"\nwidth = 20\nlength = 20').pieces[0]
    assert margins.stretches(plain, "left" if plain.top == "right" else "right") == [("lower edge", 1, 16)]
    assert margins.stretches(plain, plain.top or "left") == [("upper edge", 1, 16)]
    assert margins.stretches(planned(VEE).pieces[0], "left") == []


@pytest.mark.parametrize("edge", ["left", "right"])
def test_names_of_edges_stand_beside_their_rows_outside_the_cloth(edge: str) -> None:
    plan = planned(f'{NECK}"{edge}"')
    made = Margins.on(page(plan))
    piece, sheet = made.piece, made.setting.sheet
    names = [item for item in margins.edge_names(made) if isinstance(item, Text)]
    assert [text.words for text in names if abs(text.turn) == 90] == (
        ["shoulder", "neck", "shoulder", "hem"] if edge == "left" else ["hem", "shoulder", "neck", "shoulder"]
    )
    lefts = [text for text in names if text.turn == -90]
    assert [text.words for text in lefts] == (["shoulder", "neck", "shoulder"] if edge == "left" else ["hem"])
    for text in names:
        assert text.x < sheet.chart_left if text.turn == -90 else text.x > sheet.chart_right
    stretches = margins.stretches(piece, edge)  # type: ignore[arg-type]
    for text, (_, low, high) in zip([text for text in names if text.words != "hem"], stretches, strict=True):
        assert text.y == pytest.approx((sheet.top(high) + sheet.top(low - 1)) / 2, abs=0.01)
    folded = Margins.on(page(plan, Folds(None, (Span(4, 7),), ((Span(4, 7),),))))
    assert margins.edge_names(folded) == []
    words = 12.0
    assert margins.room_for_names(piece, "left", words, NO_FOLDS) > 0
    assert margins.room_for_names(piece, "left", words, folded.folds) == 0
    assert margins.room_for_names(planned(panel(12)).pieces[0], "left", words, NO_FOLDS) == 0


def test_shoulders_and_neck_of_a_divided_piece_are_named_above_it() -> None:
    shape = 'width = 80\nlength = 40\nneck = { shoulder = 25, depth = 12, shape = "square" }'
    made = Margins.on(page(planned(shape)))
    piece, sheet = made.piece, made.setting.sheet
    names = [item for item in margins.edge_names(made) if isinstance(item, Text)]
    assert sorted(text.words for text in names) == ["neck", "shoulder", "shoulder"]
    assert all(text.y < sheet.top(piece.row_count) and not text.turn for text in names)
    left, right = sorted((row for row in piece.rows if row.number == piece.row_count), key=lambda row: row.left.at)
    wanted = sorted([(left.left.at, left.right.at), (left.right.at, right.left.at), (right.left.at, right.right.at)])
    for text, (one, other) in zip(sorted(names, key=lambda text: text.x), wanted, strict=True):
        assert text.x == pytest.approx((sheet.x(one) + sheet.x(other)) / 2, abs=1.5 * sheet.pad + 2)
    slit = planned('width = 50\nlength = 40\nneck = { shoulder = 23.75, depth = 12, shape = "square" }')
    narrow = Margins.on(page(slit))
    assert "neck" not in [item.words for item in margins.edge_names(narrow) if isinstance(item, Text)], "no room"


# ------------------------------------------------------------------------------------------------- how large marks are


@pytest.mark.parametrize(("rise", "wedge", "triangle"), [(4, 5, 6), (20, 10.4, 11.2), (40, 20.8, 22.4), (100, 22, 30)])
@pytest.mark.parametrize("unit", [1.0, 2.0])
def test_marks_are_as_large_as_a_row_has_room_for_within_bounds(
    rise: float, wedge: float, triangle: float, unit: float
) -> None:
    """0.52 and 0.56 of its height, from 5 to 22 px and from 6 to 30 px of the page."""
    found = setting(planned(panel(12)), "piece", Look())
    made = Margins(found, SHORT, rise * unit, unit, marks(planned(panel(12))), NO_FOLDS)
    assert made.wedge == pytest.approx(wedge * unit)
    assert made.triangle == pytest.approx(triangle * unit)
    assert made.wedge_room(False) < made.wedge + made.air < made.wedge_room(True) < 2 * made.wedge + made.air
    least, most = SHORT.least * made.words, made.words
    assert made.number_size == pytest.approx(min(most, max(least, 1.9 * rise * unit)))


@pytest.mark.parametrize(("shape", "striped"), [one for one in ALL if one[0] != "vee"])
def test_marks_take_the_room_that_is_kept_for_them_and_hardly_less(shape: str, striped: str) -> None:
    made = drawn(shape, striped)
    sheet = made.setting.sheet
    items = [*margins.signs(made), *margins.wedges(made), *margins.row_numbers(made)]
    for side, sign, edge in (("left", -1, sheet.chart_left), ("right", 1, sheet.chart_right)):
        room = made.rooms(side).total  # type: ignore[arg-type]
        far = max(sign * (box(item)[2 if sign > 0 else 0] - edge) for item in items)
        lean = any(row.edge(side).move in ("increase", "decrease") for row in made.piece.rows)  # type: ignore[arg-type]
        assert far <= room + (0.5 * sheet.half if lean else 0.6), side
        if shape == "panel":
            assert room - far < 0.9 * made.words, side


@pytest.mark.parametrize("shape", ["panel", "leans in", "leans out", "steps", "steps at the left"])
def test_marks_stand_from_the_edge_outwards_and_on_a_slope_from_outside_its_middle(shape: str) -> None:
    made = drawn(shape, "plain")
    sheet, seen = made.setting.sheet, set()
    for row in made.piece.rows:
        for side, sign in (("left", -1), ("right", 1)):
            (low, _), (high, _) = corners(made.piece, sheet, row, side)  # type: ignore[arg-type]
            base = made.base(row, side)  # type: ignore[arg-type]
            assert made.sloping(row, side) == (low != high)  # type: ignore[arg-type]
            assert sign * (base - (low + high) / 2) == pytest.approx(0.46 * sheet.half if low != high else 0)
            assert made.room_beside(row, side) > 10**6, "no other section there"  # type: ignore[arg-type]
            seen.add(low != high)
    assert seen == ({False} if shape == "panel" else {True, False})


def test_between_two_sections_there_is_room_up_to_the_middle() -> None:
    made = drawn("vee", "plain")
    piece, sheet = made.piece, made.setting.sheet
    rows = [row for row in piece.rows if row.section != piece.sections[0]]
    for row in rows:
        side = next(side for side in SIDES if piece.across_neck(row, side) is not None)
        other = next(one for one in rows if one.number == row.number and one.section != row.section)
        far = other.edge("left" if side == "right" else "right").at
        middle = (sheet.x(row.edge(side).at) + sheet.x(far)) / 2
        assert made.room_beside(row, side) == pytest.approx(abs(middle - made.base(row, side)))
        assert made.room_beside(row, "left" if side == "right" else "right") > 10**6
    assert any(made.room_beside(row, side) < 10**6 for row in rows for side in SIDES)


APART = '[fabric]\nstitch = "sc"\n'


def test_a_turning_chain_that_does_not_count_has_room_beside_the_edge() -> None:
    """0.6 of the height of a row."""
    made = Margins.on(page(planned(panel(12), APART)))
    assert not made.piece.recipe.stitch.counts
    assert made.turning == pytest.approx(margins.TURNING * made.rise)
    assert drawn("panel", "plain").turning == 0
    mixed = Margins.on(page(planned(panel(12), '[fabric]\nrows = ["cluster", "sc"]\n')))
    assert mixed.turning == pytest.approx(margins.TURNING * mixed.rise)
    for row in made.piece.rows:
        for side, sign in (("left", -1), ("right", 1)):
            (low, _), _ = corners(made.piece, made.setting.sheet, row, side)  # type: ignore[arg-type]
            assert sign * (made.base(row, side) - low) == pytest.approx(made.turning)  # type: ignore[arg-type]
