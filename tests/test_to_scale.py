"""One piece drawn to scale, read back by geometry: cloth, edges, measures, names, letters and the arrow of the work.

With 4 clusters and 8 rows to 10 cm half a pitch and a row are 1.25 cm each, at 8 px to a cm 10 px each. Sums by hand;
shapes are compared with the rows of the plan and, by their area, with the outline of the piece.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest

from turnchain.drawing import drafting, to_scale
from turnchain.drawing.clearance import Taken
from turnchain.drawing.drafting import ACCENT, INK, PAPER, SOFT
from turnchain.drawing.to_scale import Drawing
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edges, seams
from turnchain.garment.dimensions import Dimension
from turnchain.lettering.measuring import measure
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Item, Path, Text, rectangle

HEAD = """
title = "To scale"
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
"""
YARNS = """
[[yarn]]
name = "Sand"
colour = "#d8c9a0"
[[yarn]]
name = "Slate"
colour = "#203040"
[stripes]
order = ["Sand", "Slate"]
rows = [2, 3]
"""
PIECES = {
    "panel": "width = 20\nlength = 20",
    "growing": "outline = [[0, 10], [20, 30]]",
    "lopsided": 'align = "left"\noutline = [[0, 20], [10, 20], [30, 40]]',
    "stepped": 'align = "right"\noutline = [[0, 40], [20, 40], [20, 20], [40, 20]]',
    "stepped out": 'align = "left"\noutline = [[0, 20], [20, 20], [20, 40], [40, 40]]',
    "vee": 'width = 50\nlength = 60\nneck = { shoulder = 15, depth = 10, shape = "vee" }',
    "square": 'width = 50\nlength = 60\nneck = { shoulder = 15, depth = 10, shape = "square" }',
    "neck at the left": 'worked = "sideways"\nneck_edge = "left"\nwidth = 60\nlength = 60\n'
                        'neck = { shoulder = 15, depth = 10 }',
    "neck at the right": 'worked = "sideways"\nneck_edge = "right"\nwidth = 60\nlength = 60\n'
                         'neck = { shoulder = 15, depth = 10 }',
}  # fmt: skip
SCALE, CORNER = 8.0, (300.0, 500.0)
Px = tuple[float, float]


@cache
def planned(pieces: str, head: str = HEAD) -> Plan:
    return plan_pattern(read_text(head + pieces, "to_scale.toml"))


def made(name: str, head: str = HEAD) -> Drawing:
    plan = planned(f'[[piece]]\nname = "piece"\n{PIECES[name]}\n', head)
    return Drawing(plan, plan.pieces[0], SCALE, CORNER)


def leaning(name: str, angle: float, head: str = HEAD) -> Drawing:
    """The piece turned by so many degrees against the clock about the (0, 0) of the work."""
    plan = planned(f'[[piece]]\nname = "piece"\n{PIECES.get(name, name)}\n', head)
    cosine, sine = math.cos(math.radians(angle)), math.sin(math.radians(angle))

    def turn(point: edges.Point) -> tuple[float, float]:
        x, y = float(point[0]), float(point[1])
        return x * cosine - y * sine, x * sine + y * cosine

    return Drawing(plan, plan.pieces[0], SCALE, CORNER, turn)


def corners(item: Item) -> list[Px]:
    """The points of a path in their order."""
    assert isinstance(item, Path)
    return [(step[1], step[2]) for step in item.steps if len(step) == 3]


def area(points: list[Px]) -> float:
    """The shoelace formula."""
    return abs(sum(x * v - u * y for (x, y), (u, v) in pairwise([*points, points[0]]))) / 2


def long(points: Iterable[Px]) -> float:
    return sum(math.dist(one, other) for one, other in pairwise(points))


def strokes(items: Iterable[Item], colour: str) -> list[Path]:
    """The lines of the outline in a colour."""
    wide = {INK: 2.2, ACCENT: 3.4}[colour]
    return [item for item in items if isinstance(item, Path) and item.stroke == colour and item.width == wide]


def bands(items: Iterable[Item]) -> list[Path]:
    return [item for item in items if isinstance(item, Path) and item.fill and item.stroke is None]


# ------------------------------------------------------------------------------------------------------- the cloth


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("head", [HEAD, HEAD + YARNS], ids=["plain", "striped"])
def test_the_stripes_fill_the_outline_and_no_more(name: str, head: str) -> None:
    drawing = made(name, head)
    found = bands(drawing.cloth())
    whole = [(float(x), float(y)) for x, y in edges.outline(drawing.piece)]
    assert sum(area(corners(one)) for one in found) == pytest.approx(area(whole) * SCALE**2, rel=1e-4)
    xs, ys = zip(*(point for one in found for point in corners(one)), strict=True)
    wide, high = (max(axis) - min(axis) for axis in zip(*whole, strict=True))
    assert (min(xs), min(ys)) == CORNER
    assert (max(xs), max(ys)) == pytest.approx((CORNER[0] + wide * SCALE, CORNER[1] + high * SCALE), abs=0.01)


def test_stripes_have_their_colours_and_heights_from_the_foundation_up() -> None:
    """16 rows: 2 of sand and 3 of slate in turn, the last cut short."""
    found = bands(made("panel", HEAD + YARNS).cloth())
    sand, slate = (drafting.tinted(colour) for colour in ("#d8c9a0", "#203040"))
    assert [one.fill for one in found] == [sand, slate, sand, slate, sand, slate, sand]
    foot = CORNER[1] + 160
    for one, rows in zip(found, (2, 3, 2, 3, 2, 3, 1), strict=True):
        ys = [y for _, y in corners(one)]
        assert (min(ys), max(ys)) == (foot - 10 * rows, foot)
        foot -= 10 * rows


def lengths(piece: PiecePlan) -> tuple[float, float]:
    """How long the straight and the shaped edges of a piece are, in px, row by row: a row's end is a row high and leans
    as far as it goes from the row below; a step goes level along that, then up. The bottom of a neck is shaped."""
    straight, shaped = 0.0, 0.0
    for row in piece.rows:
        under = piece.below(row)
        for side in SIDES:
            edge = row.edge(side)
            off = 0 if under is None else abs(edge.at - under.edge(side).at)
            inner = piece.begins_section(row) and piece.across_neck(row, side) is not None
            if inner or edge.step or not off:
                straight += 10
                shaped += 0 if inner else 10 * off
            else:
                shaped += 10 * math.hypot(1, off)
        ends = row.index + 1 == len(piece.rows) or piece.rows[row.index + 1].section != row.section
        if under is None:
            straight += 10 * (row.right.at - row.left.at)
        if ends and row.number == piece.row_count:
            straight += 10 * (row.right.at - row.left.at)
    begun = sorted((row for row in piece.rows if piece.begins_section(row)), key=lambda row: row.left.at)
    if begun:
        shaped += 10 * (begun[1].left.at - begun[0].right.at)
    return straight, shaped


@pytest.mark.parametrize("name", [name for name in PIECES if name != "vee"])
def test_edges_are_in_the_accent_where_they_are_shaped_and_in_ink_elsewhere(name: str) -> None:
    drawing = made(name)
    items = list(drawing.cloth())
    found = tuple(sum(long(corners(one)) for one in strokes(items, colour)) for colour in (INK, ACCENT))
    assert found == pytest.approx(lengths(drawing.piece), abs=0.2)
    assert found[1] if name != "panel" else not found[1]
    ends = {(round(x, 1), round(y, 1)) for one in strokes(items, INK) + strokes(items, ACCENT) for x, y in corners(one)}
    assert {(round(x, 1), round(y, 1)) for x, y in map(drawing.px, edges.outline(drawing.piece))} == ends


@pytest.mark.parametrize("name", ["lopsided", "stepped", "neck at the left", "neck at the right"])
def test_a_shaped_stretch_is_drawn_over_the_straight_ones_of_its_edge(name: str) -> None:
    drawing = made(name)
    lines = [item for item in drawing.cloth() if isinstance(item, Path) and item.stroke and not item.fill]
    seen = 0
    for run in drawing.runs:
        inner = {(round(x, 1), round(y, 1)) for x, y in drawing.line(run.points)[1:-1]}
        for nth, one in enumerate(lines):
            for other in lines[nth + 1 :]:
                met = {(round(x, 1), round(y, 1)) for x, y in (corners(one)[0], corners(one)[-1])} & inner & {
                    (round(x, 1), round(y, 1)) for x, y in (corners(other)[0], corners(other)[-1])
                }
                if met and {one.stroke, other.stroke} == {INK, ACCENT}:
                    assert (one.stroke, other.stroke) == (INK, ACCENT)
                    seen += 1
    assert seen


def chains(items: Iterable[Item]) -> list[Path]:
    return [item for item in items if isinstance(item, Path) and item.fill == PAPER and item.stroke == INK]


@pytest.mark.parametrize("name", PIECES)
def test_the_chains_of_the_foundation_lie_outside_the_piece_or_inside_it(name: str) -> None:
    drawing = made(name)
    (x, y), (u, v) = drawing.line(drawing.runs[0].points)
    middle = ((x + u) / 2, (y + v) / 2)
    box = bands(drawing.cloth())
    xs, ys = zip(*(point for one in box for point in corners(one)), strict=True)
    centre = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    for inside in (False, True):
        (path,) = chains(drawing.cloth(chains_inside=inside))
        places = corners(path) or [(step[-2], step[-1]) for step in path.steps if len(step) > 2]
        at = (sum(p[0] for p in places) / len(places), sum(p[1] for p in places) / len(places))
        assert math.dist(at, middle) < 12
        assert (math.dist(at, centre) < math.dist(middle, centre)) == inside


def test_a_piece_begun_on_another_has_no_chains_of_its_own() -> None:
    size = "width = 20\nlength = 20\n"
    plan = planned(f'[[piece]]\nname = "upper"\n{size}[[piece]]\nname = "lower"\nbegin_on = "upper.first"\n{size}')
    for piece, number in zip(plan.pieces, (1, 0), strict=True):
        items = list(Drawing(plan, piece, SCALE, CORNER).cloth())
        assert len(chains(items)) == number
        assert sum(long(corners(one)) for one in strokes(items, INK)) == pytest.approx(lengths(piece)[0])


# ---------------------------------------------------------------------------------------------- the way of the work


def arrow_of(items: Iterable[Item]) -> tuple[Px, Px] | None:
    """The tail and the tip of the arrow of the direction of work."""
    found = [item for item in items if isinstance(item, Path) and item.width == 3.0]
    if not found:
        return None
    (path,) = found
    return corners(path)[0], corners(path)[1]


@pytest.mark.parametrize("angle", [0, 20, -35, 90, 180, -90, 110])
def test_the_arrow_of_the_work_points_up_the_rows_about_the_middle(angle: float) -> None:
    """Of a panel 170 px wide and 160 px high: 0.16 of the height to either side of the middle."""
    drawing = leaning("panel", angle)
    tail, tip = arrow_of(drawing.direction())  # type: ignore[misc]
    way = (-math.sin(math.radians(angle)), -math.cos(math.radians(angle)))
    assert tip == pytest.approx((tail[0] + 51.2 * way[0], tail[1] + 51.2 * way[1]), abs=0.02)
    across, up = 8.5 * 1.25, 8 * 1.25
    middle = drawing.px(drawing.turn((Fraction(across), Fraction(up))))
    assert ((tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2) == pytest.approx(middle, abs=0.02)


@pytest.mark.parametrize(("rows", "reach"), [(7, None), (8, 12.8), (16, 25.6), (37, 59.2), (38, 60), (80, 60)])
def test_the_arrow_is_as_long_as_there_is_room(rows: int, reach: float | None) -> None:
    """0.16 of the height, at most 60 px; none where that would be less than 12 px."""
    drawing = leaning(f"width = 20\nlength = {1.25 * rows}", 0)
    assert drawing.piece.row_count == rows
    found = arrow_of(drawing.direction())
    assert (found is None) == (reach is None)
    if found and reach:
        assert math.dist(*found) == pytest.approx(2 * reach, abs=0.02)


def said(items: Iterable[Item]) -> list[Text]:
    return [item for item in items if isinstance(item, Text)]


@pytest.mark.parametrize(("clusters", "told"), [(14, False), (15, True)])
@pytest.mark.parametrize("shift", [0, 1])
def test_the_words_of_an_upright_arrow_need_290_px_across(clusters: int, told: bool, shift: int) -> None:
    """29 and 31 half pitches; a piece that leans away from position 0 is as wide as one that does not."""
    width = (2 * clusters + 1) * 1.25
    shape = f"width = {width}\nlength = 40" if not shift else (
        f"left_outline = [[0, 20], [40, 0]]\nright_outline = [[0, {width - 20}], [40, {width}]]"
    )
    drawing = leaning(shape, 0)
    low, high = edges.width_at(drawing.piece, Fraction(drawing.piece.row_count, 2))
    assert (float(high - low) * SCALE > 290) == told
    words = said(drawing.direction())
    assert [text.words for text in words] == (["direction", "of work"] if told else [])
    if told:
        tail, _ = arrow_of(drawing.direction())  # type: ignore[misc]
        assert {text.x for text in words} == {round(tail[0] + 16, 2)}
        assert words[1].y == words[0].y + 20


def test_the_words_of_an_upright_arrow_need_room_where_they_stand() -> None:
    """A piece that grows from 20 to 60 cm: 160 to 480 px."""
    drawing = leaning("outline = [[0, 20], [40, 60]]", 0)
    assert [bool(said(drawing.direction(Fraction(share, 10)))) for share in (2, 8)] == [False, True]


@pytest.mark.parametrize(("rows", "told"), [(14, False), (15, True)])
@pytest.mark.parametrize("angle", [90, -90, 70])
def test_the_words_of_a_level_arrow_need_140_px_along_it(rows: int, told: bool, angle: float) -> None:
    drawing = leaning(f"width = 60\nlength = {1.25 * rows}", angle)
    words = said(drawing.direction())
    assert [text.words for text in words] == ["direction of work"] * told
    if told:
        tail, tip = arrow_of(drawing.direction())  # type: ignore[misc]
        (text,) = words
        assert text.anchor == "middle"
        assert text.x == pytest.approx((tail[0] + tip[0]) / 2, abs=0.02)
        assert text.y + 0.22 * text.size < min(tail[1], tip[1]) + (0 if angle == 70 else 1), "over the arrow"


@pytest.mark.parametrize("angle", [-30, 12, 40])
def test_words_beside_an_arrow_that_leans_stand_clear_of_it(angle: float) -> None:
    """They begin 16 px right of its middle and farther by how much it leans over the 24 px above or below that."""
    drawing = leaning("width = 60\nlength = 40", angle)
    tail, tip = arrow_of(drawing.direction())  # type: ignore[misc]
    middle = (tail[0] + tip[0]) / 2
    words = said(drawing.direction())
    assert len(words) == 2
    for text in words:
        assert text.x - middle == pytest.approx(16 + 24 * math.tan(math.radians(abs(angle))), abs=0.02)


@pytest.mark.parametrize(("way", "share"), [
    ((1.0, 0.0), 0.0), ((-1.0, 0.5), 0.5), ((2.0, -1.0), 0.5), ((4.0, 1.0), 0.25),
])  # fmt: skip
def test_words_over_an_arrow_that_leans_stand_higher_by_how_much_it_rises(way: Px, share: float) -> None:
    """Over half of the words or, where that is less, over half of the arrow: 25.6 and 60 px."""
    words = measure("direction of work", to_scale.NAMES) / 2
    for rows, reach in ((16, 25.6), (80, 60.0)):
        drawing = leaning(f"width = 20\nlength = {1.25 * rows}", 0)
        assert drawing.lift(way) == pytest.approx(min(words, reach) * share)


def test_a_place_is_a_share_of_the_height_and_of_the_width_from_the_farthest_edge_at_the_left() -> None:
    drawing = made("neck at the left")
    piece = drawing.piece
    left, right, high = (piece.leftmost * 1.25, piece.rightmost * 1.25, piece.row_count * 1.25)
    assert drawing.place(Fraction(0), Fraction(0)) == (left, 0)
    assert drawing.place(Fraction(1), Fraction(1)) == (right, high)
    assert drawing.place(Fraction(1, 4)) == ((left + right) / 2, high / 4)
    growing = made("growing")
    assert growing.piece.leftmost < 0
    assert growing.place(Fraction(1, 2), Fraction(1, 5))[0] == pytest.approx(
        1.25 * (growing.piece.leftmost + (growing.piece.rightmost - growing.piece.leftmost) / 5)
    )


def blocks(*places: tuple[float, float, float, float]) -> Taken:
    """Room that is taken: boxes from left and top to right and bottom."""
    return Taken([Path(rectangle(x, y, u - x, v - y), fill=INK) for x, y, u, v in places])


def test_the_arrow_goes_where_there_is_room_for_it_and_its_words() -> None:
    drawing = leaning("width = 60\nlength = 60", 0)  # 490 by 480 px, its foot at the corner
    left, foot = CORNER
    middle = left + 245
    free = drawing._clear_direction(blocks())
    assert len(said(free)) == 2
    tail, tip = arrow_of(free)  # type: ignore[misc]
    assert ((tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2) == pytest.approx((middle, foot - 240), abs=0.1)
    # a band across the middle: the arrow goes above it or below it, the words with it
    found = drawing._clear_direction(blocks((left, foot - 260, left + 490, foot - 200)))
    assert len(said(found)) == 2
    tail, tip = arrow_of(found)  # type: ignore[misc]
    assert (tail[0] + tip[0]) / 2 == pytest.approx(middle, abs=0.1)
    assert tip[1] > foot - 200 or tail[1] < foot - 260
    # all but a stripe at 0.7 of the width: there, in the middle of the height
    found = drawing._clear_direction(blocks((left, foot - 480, left + 320, foot)))
    tail, tip = arrow_of(found)  # type: ignore[misc]
    assert ((tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2) == pytest.approx((left + 343, foot - 240), abs=0.1)
    # nowhere room for words beside it: the arrow alone
    lanes = [(left, foot - 480, middle - 30, foot), (middle + 30, foot - 480, left + 490, foot)]
    alone = drawing._clear_direction(blocks(*lanes))
    assert len(alone) == 1
    assert arrow_of(alone) == arrow_of(free)
    assert drawing._clear_direction(blocks((left, foot - 480, left + 490, foot))) == []


# ------------------------------------------------------------------------------------------------------ the measures


def groups(items: Iterable[Item]) -> Iterator[Group]:
    for item in items:
        if isinstance(item, Group):
            yield item
            yield from groups(item.items)


def heads(group: Group) -> list[Px]:
    """The tips of both arrow heads."""
    return [corners(item)[0] for item in group.items if isinstance(item, Path) and item.fill == INK]


def hairs(group: Group) -> list[tuple[Px, Px]]:
    paths = [item for item in group.items if isinstance(item, Path) and item.stroke == SOFT]
    return [(corners(path)[0], corners(path)[1]) for path in paths]


def label_box(group: Group) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of the words of a measure."""
    boxes = []
    for text in said(group.items):
        wide = measure(text.words, text.size, text.weight)
        left = text.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * wide
        boxes.append((left, text.y - 0.74 * text.size, left + wide, text.y + 0.22 * text.size))
    return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))


def blocked(drawing: Drawing) -> Group:
    return drawing.block(seams.of(drawing.plan), (0.0, 0.0, 4000.0, 4000.0))


@pytest.mark.parametrize("name", PIECES)
def test_every_measure_stands_outside_its_side_of_the_piece(name: str) -> None:
    """Its two heads are at the points that it lies between, its lines lead from there, and its label is beyond it."""
    drawing = made(name)
    (low, foot), (high, top) = (drawing.px(point) for point in drawing.box)
    found = [one for one in groups([blocked(drawing)]) if one.name.startswith("measure-")]
    numbers = [f"measure-1-{nth}" for nth in range(1, len(drawing.measures) + 1)]
    assert [one.name for one in found] == [name for name, one in zip(numbers, drawing.measures, strict=True)
                                           if one not in drawing.unplaced()]  # fmt: skip
    for group in found:
        one = drawing.measures[int(group.name.rsplit("-", 1)[1]) - 1]
        assert group.words == f"piece, {one.name}: {to_scale.figure(drawing.plan.pattern, one.cm)}"
        stands_where_it_belongs(drawing, one, group, (low, top, high, foot))


def stands_where_it_belongs(
    drawing: Drawing, one: Dimension, group: Group, box: tuple[float, float, float, float]
) -> None:
    left, top, right, foot = box
    ends = [drawing.px(point) for point in (one.one, one.other)]
    across = one.place in ("above", "below", "inside")
    assert [tip[0 if across else 1] for tip in heads(group)] == pytest.approx(
        [end[0 if across else 1] for end in ends], abs=0.01
    )
    off = {tip[1 if across else 0] for tip in heads(group)}
    assert len(off) == 1
    at = off.pop()
    words = label_box(group)
    match one.place:
        case "inside":
            assert at == pytest.approx(ends[0][1], abs=0.01)
            assert not hairs(group)
            assert words[1] > at or words[3] < at
            return
        case "above":
            assert at < top
            assert words[3] < at
        case "below":
            assert at > foot
            assert words[1] > at
        case "left":
            assert at < left
            assert words[2] < at
        case "right":
            assert at > right
            assert words[0] > at
    if across:
        assert (words[0] + words[2]) / 2 == pytest.approx((ends[0][0] + ends[1][0]) / 2, abs=0.01)
    else:
        assert (words[1] + words[3]) / 2 == pytest.approx((ends[0][1] + ends[1][1]) / 2, abs=3.5)
    for (begin, to), end in zip(hairs(group), ends, strict=True):
        along = 0 if across else 1
        assert begin[along] == to[along] == pytest.approx(end[along], abs=0.01)
        assert to[1 - along] == pytest.approx(at, abs=0.01)
        sign = 1 if one.place in ("above", "left") else -1
        assert (begin[1 - along] - at) * sign > 0
        side = {"above": top, "below": foot, "left": left, "right": right}[one.place]
        if one.name != "neck depth":
            clear = (end[1] if across else side) - begin[1 - along]
            assert 3 < clear * sign < 8, "a few px outside the piece"


@pytest.mark.parametrize("name", ["square", "neck at the left", "neck at the right"])
def test_shoulders_and_neck_stand_in_one_line_and_other_widths_above_them(name: str) -> None:
    drawing = made(name)
    found = {one.words.split(":")[0].removeprefix("piece, "): heads(one)[0][1] for one in groups([blocked(drawing)])
             if one.name.startswith("measure-")}  # fmt: skip
    top = drawing.px(drawing.box[1])[1]
    assert found["shoulder"] == found["neck width"] < top
    names = {one.name for one in drawing.measures if one.place == "above"}
    assert [{one.name for one in tier} for tier in to_scale.tiers_above(drawing.measures)] == [names]


def test_tiers_of_measures_above_are_counted_from_the_piece_upwards() -> None:
    zero = (Fraction(0), Fraction(0))
    some = [Dimension(name, Fraction(1), zero, zero, place) for name, place in (  # type: ignore[arg-type]
        ("width at 20 cm", "above"), ("first shoulder", "above"), ("width", "below"), ("neck width", "above"),
        ("neck depth", "right"), ("armhole width", "above"), ("second shoulder", "above"),
    )]  # fmt: skip
    assert [[one.name for one in tier] for tier in to_scale.tiers_above(some)] == [
        ["first shoulder", "neck width", "second shoulder"], ["width at 20 cm", "armhole width"]
    ]
    assert [[one.name for one in tier] for tier in to_scale.tiers_above(some[:1])] == [["width at 20 cm"]]
    assert to_scale.tiers_above(some[2:3]) == []
    drawing = made("panel")
    drawing.measures = [one for one in some if one.place == "above"]
    lines = [heads(one)[0][1] for one in groups(item for items in drawing._measures() for item in items)]
    high = drawing.px(drawing.box[1])[1]
    assert [round((high - 16 - y) / to_scale.TIER) for y in lines] == [1, 0, 0, 1, 0]
    title = [text for text in said(blocked(drawing).items) if text.words == "piece"]
    labels = [label_box(one)[1] for one in groups(item for items in drawing._measures() for item in items)]
    assert title[0].y < min(labels), "the title stands above them all"
    assert title[0].x == CORNER[0]


def test_upright_measures_at_one_side_stand_past_the_words_of_the_nearer() -> None:
    zero = (Fraction(0), Fraction(0))
    for side in ("left", "right"):
        drawing = made("panel")
        drawing.measures = [
            Dimension("length", Fraction(20), zero, (Fraction(0), Fraction(20)), side),  # type: ignore[arg-type]
            Dimension("width", Fraction(20), zero, (Fraction(20), Fraction(0)), "below"),
            Dimension("armhole depth", Fraction(10), zero, (Fraction(0), Fraction(10)), side),  # type: ignore[arg-type]
        ]
        first, _, second = groups(item for items in drawing._measures() for item in items)
        boxes = label_box(first), label_box(second)
        line = heads(second)[0][0]
        if side == "left":
            assert boxes[1][2] < line < boxes[0][0] < heads(first)[0][0]
        else:
            assert boxes[1][0] > line > boxes[0][2] > heads(first)[0][0]


@pytest.mark.parametrize("name", ["square", "neck at the left", "neck at the right"])
def test_the_line_to_a_necks_depth_begins_at_its_bottom(name: str) -> None:
    """Elsewhere outside the piece, a few px from it."""
    drawing = made(name)
    (group,) = [one for one in groups([blocked(drawing)]) if "neck depth" in one.words]
    low, high = hairs(group)
    neck = [drawing.px(drawing.turn(point)) for point in drawing.edges["neck"].points]  # type: ignore[arg-type]
    bottom = max(y for _, y in neck)
    right = drawing.px(drawing.box[1])[0]
    assert low[0] == pytest.approx((max(x for x, y in neck if y == bottom), bottom), abs=0.01)
    assert low[0][0] < right < high[0][0] < right + 12


MANY = "outline = [[0, 30], [5, 34], [8, 38], [10, 40], [20, 44], [40, 30], [41, 36], [43, 30], [60, 20]]"
LOW = "outline = [[0, 60], [2, 64], [4, 60], [6, 62], [8, 60]]"


@pytest.mark.parametrize("shape", [MANY, LOW])
def test_widths_on_the_cloth_have_labels_below_or_above_their_lines_clear_of_one_another(shape: str) -> None:
    plan = planned(f'[[piece]]\nname = "piece"\n{shape}\n')
    drawing = Drawing(plan, plan.pieces[0], SCALE, CORNER)
    tall = to_scale.PLATE
    foot, top = (drawing.px((0, drawing.box[nth][1]))[1] for nth in (0, 1))
    lines = {one.name: drawing.px(one.one)[1] for one in drawing.measures if one.place == "inside"}
    assert len(lines) > 2
    plates = drawing._plates()
    assert plates.keys() == lines.keys()
    placed: list[float] = []
    for name, y in sorted(lines.items(), key=lambda one: -one[1]):  # from the foundation up
        free = [at for at in (y, y - tall) if top + 32 <= at and at + tall <= foot - 34
                and all(abs(at - other) >= tall for other in placed)]  # fmt: skip
        assert plates[name] == (free[0] if free else None), name
        placed += free[:1]
    left_out = [name for name, at in plates.items() if at is None]
    assert {one.name for one in drawing.unplaced()} == set(left_out)
    shown = {one.words.split(":")[0].removeprefix("piece, "): label_box(one) for one in groups([blocked(drawing)])
             if one.name.startswith("measure-")}  # fmt: skip
    assert shown.keys() == {one.name for one in drawing.measures} - set(left_out)
    assert left_out
    assert shape == LOW or len(left_out) < len(lines)
    for name in lines.keys() - set(left_out):
        at = plates[name]
        assert at is not None
        assert at <= shown[name][1] < shown[name][3] <= at + tall
    ordered = sorted((shown[name] for name in lines if name in shown), key=lambda box: box[1])
    assert all(one[3] < other[1] for one, other in pairwise(ordered))


# ------------------------------------------------------------------------------------------------- names and letters


def words_of(drawing: Drawing) -> Counter[str]:
    return Counter(text.words for text in said(drawing.edge_names(Taken([]))))


SIDEWAYS = {"first row, foundation": 1, "last row": 1, "lower edge": 1, "shoulder": 2, "neck": 1}
UPWARDS = {"first row, foundation": 1, "left edge": 1, "right edge": 1}


@pytest.mark.parametrize(("name", "names"), [
    ("panel", {**UPWARDS, "last row": 1}), ("growing", {**UPWARDS, "last row": 1}),
    ("square", {**UPWARDS, "shoulder": 2, "neck": 1}),
    ("neck at the left", SIDEWAYS), ("neck at the right", SIDEWAYS),
])  # fmt: skip
def test_each_edge_is_named_once_and_inside_the_piece(name: str, names: dict[str, int]) -> None:
    drawing = made(name)
    assert words_of(drawing) == names
    outline = [drawing.px(point) for point in edges.outline(drawing.piece)]
    for text in said(drawing.edge_names(Taken([]))):
        if name != "growing" or text.words != "first row, foundation":  # longer than that edge
            assert inside((text.x, text.y), outline), text.words


def inside(place: Px, polygon: list[Px]) -> bool:
    """By the edges that a ray to the right crosses."""
    x, y = place
    crossed = [
        x < x0 + (x1 - x0) * (y - y0) / (y1 - y0)
        for (x0, y0), (x1, y1) in pairwise([*polygon, polygon[0]]) if (y0 > y) != (y1 > y)
    ]
    return sum(crossed) % 2 == 1


def test_a_name_stands_along_its_edge_else_outside_with_a_line_and_no_farther_than_110_px() -> None:
    drawing = made("panel")
    right = next(run for run in drawing.runs if run.name == "right")
    tries = list(drawing._name_places(right, "right edge"))
    along, beside = [one for one in tries if len(one) == 1], [one for one in tries if len(one) == 2]
    assert tries == [*along, *beside]
    edge = CORNER[0] + 170
    ys = [round(text.y - CORNER[1]) for (text,) in along]  # type: ignore[union-attr]
    assert ys[0] == 80
    assert sorted(ys) == [32, 48, 64, 80, 96, 112, 128]
    assert all(text.x < edge and abs(text.turn) == 90 for (text,) in along)  # type: ignore[union-attr]
    offs = [round(text.x - edge) for text, _ in beside]  # type: ignore[union-attr]
    assert offs == [far for far in (26, 44, 64, 86, 110) for _ in range(7)]
    long_words = "a name that is longer than the edge it belongs to"
    assert [len(one) for one in drawing._name_places(right, long_words)] == [2] * 35


def test_a_letter_stands_on_its_edge_else_outside_it_else_within() -> None:
    size = "width = 20\nlength = 20\n"
    join = '[[seam]]\njoin = ["one.right", "two.left"]\n'
    plan = planned(f'[[piece]]\nname = "one"\n{size}[[piece]]\nname = "two"\n{size}{join}')
    (seam,) = seams.of(plan)
    drawing = Drawing(plan, plan.pieces[0], SCALE, CORNER)
    side = seam.one if seam.one.piece.name == "one" else seam.other
    tries = [text for one in drawing.letter_places(side, seam.letter) for text in said(one)]
    assert {text.words for text in tries} == {seam.letter}
    edge = CORNER[0] + 170
    assert [round(text.x - edge) for text in tries] == [
        far for far in (0, 26, 44, 64, 86, 110, 150, 200, -44) for _ in range(7)
    ]
    assert [len(one) for one in drawing.letter_places(side, seam.letter)] == [2] * 7 + [3] * 56
    placed = said(drawing.letters([seam, seam], Taken([])))
    assert [(text.x, round(text.y - CORNER[1], 1)) for text in placed] == [(edge, 80 + round(0.36 * 18, 1))], "once"
    two = Drawing(plan, plan.pieces[1], SCALE, CORNER)
    assert [text.x for text in said(two.letters([seam], Taken([])))] == [CORNER[0]]


BODY = """
[[piece]]
name = "front"
width = 50
length = 60
[[piece]]
name = "back"
width = 50
length = 60
[[piece]]
name = "sleeve"
count = 2
outline = [[0, 36], [40, 36]]
"""


def test_ticks_are_where_seams_begin_part_of_the_way_along_an_edge() -> None:
    """Of 48 rows the upper 14 or 15 at either side belong to the sleeve, of which half of 36.25 cm is 14.5 rows; a
    sleeve's own edges are sewn whole."""
    plan = planned(BODY)
    found = seams.of(plan)
    front, _, sleeve = (Drawing(plan, piece, SCALE, CORNER) for piece in plan.pieces)
    strokes = [corners(item) for item in front.ticks(found) if isinstance(item, Path)]
    left, right = CORNER[0], CORNER[0] + front.piece.rightmost * 10
    assert {round(min(one[0][0], one[1][0]) - left) for one in strokes} == {-12, right - left - 7}
    assert {round(max(one[0][0], one[1][0]) - left) for one in strokes} == {7, right - left + 12}
    assert all(one[0][1] == one[1][1] for one in strokes), "across the edge"
    heights = {(one[0][1] - CORNER[1]) / 10 for one in strokes}
    assert len(heights) == 1
    assert heights <= {14, 15}
    for copy in (0, 1, None):
        half = [*sleeve.ticks(found, copy)]
        tops = {round(corners(item)[0][0] - CORNER[0]) for item in half if isinstance(item, Path)}
        assert tops == {round(sleeve.piece.rightmost * 10 / 2)}, "the middle of the top, where front and back meet"


def test_a_side_of_a_seam_is_taken_once_and_of_one_copy_where_that_is_asked_for() -> None:
    plan = planned(BODY)
    found = seams.of(plan)
    sleeve = Drawing(plan, plan.pieces[2], SCALE, CORNER)
    every, first, second, third = (sleeve._sides(found, copy) for copy in (None, 0, 1, 2))
    assert third == []
    assert {one.copy for one in first} == {0}
    assert {one.copy for one in second} == {1}
    assert len(first) == len(second) == len(every)
    assert {one.piece.name for one in every} == {"sleeve"}
    assert len({(one.edge, one.points) for one in every}) == len(every)


# ------------------------------------------------------------------------------------------------------- small parts


@pytest.mark.parametrize(("points", "way"), [
    ([(0, 0), (10, 0)], (0, 1)), ([(0, 10), (0, 0)], (1, 0)), ([(5, 0), (3, 9), (0, 0)], (0, -1)),
    ([(1, 1), (4, 5)], (-0.8, 0.6)), ([(3, 3), (9, 9), (3, 3)], (0, 0)),
])  # fmt: skip
def test_outwards_is_a_px_to_the_right_of_the_way_along_an_outline(points: list[Px], way: Px) -> None:
    """y downwards: the foundation, walked to the right with the piece above it, has its outside below."""
    assert to_scale.outwards(points) == pytest.approx(way)


def test_what_is_said_of_a_piece_in_a_line() -> None:
    """17 half pitches of 8 clusters, alike: 4 x 8 + 6 chains (published for the open fabric) from a spaced start."""
    size = "width = 20\nlength = 20\n"
    plan = planned(
        f'[[piece]]\nname = "one"\n{size}[[piece]]\nname = "two"\ncount = 2\n{size}'
        f'[[piece]]\nname = "three"\ncount = 2\nbegin_on = "two.first"\n{size}'
    )
    lines = [to_scale.summary_of(plan.pattern, piece) for piece in plan.pieces]
    assert all(piece.foundation_chain in (37, 38) for piece in plan.pieces[:2])
    chain = plan.pieces[0].foundation_chain
    assert lines[0] == f"16 rows, worked upwards from a chain of {chain}"
    assert lines[1] == f"make 2  ·  {lines[0]}"
    assert lines[2] == "make 2  ·  16 rows, worked upwards on the chains of two"
    for nth, piece in enumerate(plan.pieces, 1):
        group = blocked(Drawing(plan, piece, SCALE, CORNER))
        assert group.name == f"schematic-of-{nth}"
        assert group.words == f"{piece.name}: {lines[nth - 1]}"
        assert [text.words for text in said(group.items)][:2] == [piece.name, lines[nth - 1]]


def test_places_for_the_arrow_lie_alike_about_the_middle_the_nearest_first() -> None:
    drawing, tried = leaning("width = 60\nlength = 60", 0), list[tuple[Fraction, Fraction]]()

    def direction(share: Fraction, over: Fraction) -> Iterator[Item]:
        tried.append((share, over))
        return iter(())

    drawing.direction = direction  # type: ignore[method-assign]
    assert drawing._clear_direction(blocks()) == []
    half = Fraction(1, 2)
    assert tried[0] == (half, half)
    for way in (0, 1):
        places = [place[way] for place in tried]
        assert {1 - place for place in places} == set(places)
        off = [abs(place - half) for place in dict.fromkeys(places)]
        assert off == sorted(off)
        assert max(off) < half
    assert len(tried) == len(set(tried)) == len({a for a, _ in tried}) * len({b for _, b in tried})
