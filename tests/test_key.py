"""The key of a chart: what it names is what is drawn, in words by hand; where its samples stand, by geometry.

4 clusters and 8 rows to 10 cm. Chains are sums by the rules of the lattice, DEVELOPERS.md.
"""

from __future__ import annotations

from functools import cache

import pytest

from turnchain.drawing import key
from turnchain.drawing.chart import laid_out
from turnchain.drawing.columns import Column
from turnchain.drawing.folds import NO_FOLDS, Folds, Span
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import Margins
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import SHORT
from turnchain.fabric.plan import Plan
from turnchain.lettering.measuring import measure
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Group, Item, Path, Text
from turnchain.wording.tables import speech_of

HEAD = 'title = "Keyed"\n[swatch]\nclusters = 4\nwidth = 10\nrows = 8\nheight = 10\n'
YARNS = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\n' for name, colour in
                (("Sand", "#f6f0e0"), ("Slate", "#203040"), ("Moss", "#5a7040")))  # fmt: skip


def stripes(rows: str, order: str = '["Sand", "Slate", "Moss"]') -> str:
    return f"{YARNS}[stripes]\norder = {order}\nrows = {rows}\ncarry = 0\n"


@cache
def planned(shape: str, more: str = "", head: str = HEAD) -> Plan:
    return plan_pattern(read_text(f'{head}{more}[[piece]]\nname = "piece"\n{shape}\n', "keyed.toml"))


def panel(rows: int, more: str = "") -> str:
    return f"width = 20\nlength = {1.25 * rows}\n{more}"


def page(plan: Plan, folds: Folds = NO_FOLDS, look: Look | None = None) -> Setting:
    return laid_out(setting(plan, "piece", look or Look()), None, SHORT, folds)


def column(found: Setting) -> Column:
    return Column(100.0, 200.0, 900.0, 1.0, found.theme)


def words(filled: Column) -> list[str]:
    return [item.words for item in filled.items if isinstance(item, Text)]


NECK = 'worked = "sideways"\nwidth = 60\nlength = 60\nneck = { shoulder = 15, depth = 10 }\nneck_edge = '


@pytest.mark.parametrize(("shape", "said", "way"), [
    (panel(12), "this way up", (0, -1)), (f'{NECK}"left"', "this way up when worn", (-1, 0)),
    (f'{NECK}"right"', "this way up when worn", (1, 0)),
    ("outline = [[0, 40], [30, 16]]", "direction of work", (0, -1)),
])  # fmt: skip
def test_the_arrow_of_the_heading_points_to_what_is_up(shape: str, said: str, way: tuple[float, float]) -> None:
    plan = planned(shape)
    assert key.worn_arrow(speech_of(plan.pattern), plan.pieces[0]) == (said, way)


@pytest.mark.parametrize(("shape", "said"), [
    (panel(12), "12 rows  ·  8 clusters  ·  worked upwards"),
    (panel(12, 'row_plan = "alternate"'), "12 rows  ·  7 and 8 clusters in turn  ·  worked upwards"),
    (panel(12, "count = 3"), "12 rows  ·  8 clusters  ·  worked upwards  ·  make 3"),
    (panel(1), "1 row  ·  8 clusters  ·  worked upwards"),
])  # fmt: skip
def test_a_piece_in_a_line(shape: str, said: str) -> None:
    plan = planned(shape)
    assert key.summary(plan.pattern, plan.pieces[0]) == said
    heading = key.heading(setting(plan, "piece", Look()), "short chart")
    assert f"{said}  ·  short chart" in {getattr(heading, name) for name in heading.__annotations__}


@pytest.mark.parametrize(("counts", "turn"), [
    ([7, 8, 7, 8], True), ([8, 8, 8], False), ([7, 8, 8], False), ([7, 8, 9], False), ([7, 8], True), ([8], False),
])  # fmt: skip
def test_numbers_that_come_in_turn(counts: list[int], turn: bool) -> None:
    assert key._alternating(counts) == turn


@pytest.mark.parametrize(("runs", "period"), [
    ("A2", 1), ("A2 B2 C2", 3), ("A2 B2 A2", 2), ("A2 B2 A2 B2", 2), ("A2 B2 A1", 2), ("A2 B2 A3", 3),
    ("A2 B2 A2 B3", 4),
    ("A2 B2 A2 C1", 4), ("A1 B1 A2 B1 A1 B1 A2", 4), ("A2 B3 A2 B3 A2 B1", 2), ("A2 B3 A1 B3 A2 B3", 4),
])  # fmt: skip
def test_stripes_come_again_after_so_many(runs: str, period: int) -> None:
    """The last may be cut short, but not higher."""
    assert key._period([(run[0], int(run[1:])) for run in runs.split()]) == period


@pytest.mark.parametrize(("rows", "heights", "said"), [
    (12, "[3]", "From row 1: A 3, B 3, C 3, and so on."), (9, "[3]", "From row 1: A 3, B 3, C 3."),
    (16, "[2, 4]", "From row 1: A 2, B 4, C 2, A 4, B 2, C 2."),
])  # fmt: skip
def test_stripes_are_told_once(rows: int, heights: str, said: str) -> None:
    assert key.stripe_words(page(planned(panel(rows), stripes(heights)))) == said.replace(" 2", "\u00a02").replace(
        " 3", "\u00a03").replace(" 4", "\u00a04")  # fmt: skip


def test_yarns_are_those_of_the_rows_in_the_order_of_the_pattern() -> None:
    plan = planned(panel(9), stripes("[3]", '["Moss", "Sand"]'))
    rows = plan.pieces[0].rows
    assert [(yarn.name, row.number) for yarn, row in key.yarns_of(plan.pattern, rows)] == [("Sand", 4), ("Moss", 1)]
    assert [(yarn.name, row.number) for yarn, row in key.yarns_of(plan.pattern, rows[7:])] == [("Moss", 8)]
    found = page(plan)
    filled = column(found)
    key.yarns_key(filled, found)
    said = words(filled)
    # of nine rows moss has 1 to 3 and 7 to 9
    assert said[0] == "Yarns"
    assert [one for one in said if one.startswith(("Sand", "Moss"))] == ["Sand, 3 rows", "Moss, 6 rows"]
    assert " ".join(said).count("From row 1:") == 1
    assert "lighter shade" in " ".join(said)
    one = page(planned(panel(9), stripes("[3]", '["Sand"]')))
    alone = column(one)
    key.yarns_key(alone, one)
    assert "Sand, 9 rows" in words(alone)
    assert "From row 1" not in " ".join(words(alone)), "one yarn has no stripes"
    plain = page(planned(panel(9)))
    none = column(plain)
    key.yarns_key(none, plain)
    assert none.items == []


def flat(items: list[Item]) -> list[Item]:
    return [one for item in items for one in (flat(list(item.items)) if isinstance(item, Group) else [item])]


def box(path: Path) -> tuple[float, float, float, float]:
    places = [(step[1], step[2]) for step in path.steps if len(step) == 3]
    xs, ys = zip(*places, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("unit", [1.0, 3.0])
def test_a_chip_is_a_block_about_its_place_with_its_tint_beside_it(narrow: bool, unit: float) -> None:
    """29 px of the page wide and high, with 24 px of tint where that differs; narrow ones are of 33 px, without."""
    found = page(planned(panel(9), stripes("[3]")))
    filled = Column(0.0, 0.0, 900.0, unit, found.theme)
    rows = {found.colours.letter(row): row for row in found.piece.rows}
    assert list(rows) == ["A", "B", "C"]
    for letter, row in rows.items():
        items = flat(key.chip(row, found, filled, narrow)(500.0, 300.0))
        (text,) = [item for item in items if isinstance(item, Text)]
        paths = [item for item in items if isinstance(item, Path) and item.fill]
        own, tint = found.colours.of(row), found.colours.tint(row)
        blocks = [box(path) for path in paths if path.fill == own]
        size = (33 if narrow else 29) * unit
        wide = size + (0 if narrow else 24 * unit)
        left, top = round(500 - wide / 2), round(300 - size / 2)
        framed = found.colours.against(row, found.theme.paper) is not None
        thin = max(1, round(0.8 * unit)) if framed else 0
        assert framed == (letter == "A")
        assert (left + thin, top + thin, left + size - thin, top + size - thin) in blocks
        shades = [box(path) for path in paths if path.fill == tint and tint != own]
        assert shades == ([] if narrow or tint == own else [(left, top, left + wide, top + size)])
        assert (text.words, text.anchor) == (letter, "middle")
        assert text.x == left + size / 2
        assert text.y == pytest.approx(300 + 0.36 * text.size, abs=0.5)


@pytest.mark.parametrize(("shape", "more", "chain", "first"), [
    # rows alike, 8 clusters of 3: 2 + 24 + 7 + 1 chains below; closed 2 + 24 + 1
    (panel(12), "", None, None),
    (panel(12), '[fabric]\nstart = "flush"\n', 34 + 3, 5), (panel(12), '[fabric]\nstart = "spaced"\n', 34 + 4, 7),
    (panel(12), '[fabric]\ngap = 0\nstart = "spaced"\n', 2 + 24 + 1 + 3, 5),  # its extra dc
    (panel(12), '[fabric]\nfoundation = "sc"\nstart = "flush"\n', 34 + 1, 2),
])  # fmt: skip
def test_the_key_counts_the_chains_and_says_where_row_1_begins(
    shape: str, more: str, chain: int | None, first: int | None
) -> None:
    plan = planned(shape, more)
    piece = plan.pieces[0]
    found = page(plan)
    filled = column(found)
    key.facts_key(filled, found)
    said = " ".join(words(filled))
    ordinal = {5: "5th", 6: "6th", 7: "7th", 2: "2nd"}[key.first_chain(piece)]
    solid = "foundation" in more or "gap = 0" in more
    begins = f"row 1 begins in the {ordinal}" if solid else f"first cluster from the {ordinal}"
    assert f"Chain {piece.foundation_chain}; {begins}" in said
    if chain is not None:
        assert (piece.foundation_chain, key.first_chain(piece)) == (chain, first)
    assert key.begins_on_chain(piece) == solid
    assert "Gauge: 4" in said
    for fit in piece.fit:
        assert fit.measure in words(filled)


MOVES = {
    'align = "left"\noutline = [[0, 40], [30, 16]]': [("decrease", ("right",))],
    'align = "right"\noutline = [[0, 16], [30, 40]]': [("increase", ("left",))],
    "outline = [[0, 40], [30, 16]]": [("decrease", ("left", "right"))],
    'align = "left"\noutline = [[0, 40], [10, 40], [10, 20], [20, 20]]': [("step_in", ("right",))],
    'align = "right"\noutline = [[0, 20], [10, 20], [10, 40], [20, 40]]': [("step_out", ("left",))],
    panel(12): [],
}  # fmt: skip


@pytest.mark.parametrize("shape", MOVES)
def test_moves_are_named_with_the_edges_where_they_come(shape: str) -> None:
    found = page(planned(shape))
    made = [(move, sides) for move, sides, _ in key.moves_used(found, short=False)]
    assert [one for one in made if not one[0].startswith("forced")] == MOVES[shape]
    for _, sides, said in key.moves_used(found, short=False):
        where = {("left",): "at the left edge", ("right",): "at the right edge",
                 ("left", "right"): "at the left and at the right edge"}[sides]  # fmt: skip
        assert said.endswith(f", {where}")
    cut = page(planned(shape), Folds(right_cut=6))
    assert all("right" not in sides for _, sides, _ in key.moves_used(cut, short=False))


def test_short_words_name_the_edge_where_each_has_moves_of_its_own() -> None:
    shape = "left_outline = [[0, 30], [30, 18]]\nright_outline = [[0, 20], [30, 32]]"
    said = [one for one in key.moves_used(page(planned(shape)), short=True) if not one[0].startswith("forced")]
    assert [(move, words) for move, _, words in said] == [
        ("decrease", "½ cluster less, at the left edge"), ("increase", "½ cluster more, at the right edge")
    ]
    alone = 'align = "left"\noutline = [[0, 40], [30, 16]]'
    assert [words for move, _, words in key.moves_used(page(planned(alone)), short=True) if move == "decrease"] == [
        "½ cluster less"
    ]


def samples(found: Setting) -> key.Samples:
    from turnchain.drawing.definitions import Definitions

    return key.Samples(Margins.on(found), Definitions(found.grid, found.sheet, found.look.symbols), 20.0)


def test_signs_are_named_where_they_are_drawn() -> None:
    joined = page(planned(panel(12), stripes("[3]")))
    assert [words for _, _, words in samples(joined).signs(short=False)] == ["join the yarn", "fasten off"]
    carried = page(planned(panel(12), stripes("[2]").replace("carry = 0", "carry = 4")))
    for short, said in ((False, "carry the yarn up, uncut"), (True, "carry the yarn up")):
        assert said in [words for _, _, words in samples(carried).signs(short)]
    window = page(planned(panel(12), stripes("[3]")), Folds(window=Span(2, 3)))
    assert [words for _, _, words in samples(window).signs(short=False)] == []


@pytest.mark.parametrize(("more", "full", "short"), [
    ("", ["chain (ch)", "double crochet (dc)", "cluster: 3 dc in one space, each complete", "turning chain"],
     ["chain", "cluster of 3 dc", "turning chain"]),
    ('[fabric]\nstitch = "sc"\n', ["chain (ch)", "single crochet (sc)", "cluster: 3 sc in one space, each complete",
                                   "edge stitch, with the ch 1 of the turning chain"],
     ["chain", "cluster of 3 sc", "edge stitch and turning chain"]),
    ('[fabric]\nkind = "v"\n', ["chain (ch)", "double crochet (dc)", "", "turning chain"],
     ["chain", "double crochet", "", "turning chain"]),
    ('[fabric]\nrows = ["cluster", "sc"]\n',
     ["chain (ch)", "double crochet (dc)", "cluster: 3 dc in one space, each complete",
      "single crochet (sc), in every stitch and chain", "edge stitch, with the ch 1 of the turning chain",
      "turning chain"],
     ["chain", "cluster of 3 dc", "single crochet, in every stitch and chain", "edge stitch and turning chain",
      "turning chain"]),
])  # fmt: skip
def test_stitches_are_named_where_they_are_drawn(more: str, full: list[str], short: list[str]) -> None:
    found = samples(page(planned(panel(12), more)))
    for asked, wanted in ((False, full), (True, short)):
        said = [words for _, _, words in found.stitches(asked)]
        assert len(said) == len(wanted), said
        assert all(words.startswith(start) for words, start in zip(said, wanted, strict=True)), said


def test_a_turning_chain_says_what_the_gap_beside_it_is_where_rows_start_with_one() -> None:
    """Three chains, and a fourth where a row starts with a gap; a stretch of rows that all start flush says nothing."""
    alternate = planned(panel(12, 'row_plan = "alternate"'))
    found = page(alternate)
    kinds = {row.edge(row.starts).kind for row in found.piece.rows}
    assert kinds == {"flush", "spaced"}
    assert samples(found)._turning_chain(False) == (
        "turning chain: ch 3, counts as a dc, a 4th is the gap beside it"
    )
    flush = next(row.number for row in found.piece.rows if row.edge(row.starts).kind == "flush")
    one = page(alternate, Folds(window=Span(flush, flush)))
    assert samples(one)._turning_chain(False) == "turning chain: ch 3, counts as a dc"
    assert samples(page(planned(panel(12), '[fabric]\ngap = 2\nstart = "spaced"\n')))._turning_chain(False) == (
        "turning chain: ch 3, counts as a dc, more are the gap beside it"
    )


def test_slip_stitches_are_named_where_a_row_begins_with_them() -> None:
    shape = 'align = "{}"\noutline = [[0, 40], [10, 40], [10, 20], [20, 20]]'
    for align in ("left", "right"):
        found = page(planned(shape.format(align)))
        slipped = any(row.counts.sl_st for row in found.piece.rows)
        said = [words for _, _, words in samples(found).stitches(short=False)]
        assert any("slip stitch" in words for words in said) == slipped
    assert not any("slip" in words for _, _, words in samples(page(planned(panel(12)))).stitches(short=False))


def test_the_longest_entry_of_a_short_key() -> None:
    found = samples(page(planned(panel(12), stripes("[3]"))))
    cells = [42.0 + measure(name, key.BODY) for name in ("Sand", "Slate", "Moss")]
    signs = [50.0 + measure(words, key.BODY)
             for _, _, words in (*found.stitches(short=True), *found.signs(short=True))]  # fmt: skip
    assert key.longest(found, 2.0) == pytest.approx(2 * max(cells + signs))
    assert key.longest(found, 2.0, stitches=False) == pytest.approx(2 * max(cells))
    assert key.longest(samples(page(planned(panel(12)))), 1.0, stitches=False) == 0


CREDITED = 'title = "Keyed"\nby = "Oda Wren"\nlicence = "CC BY"\ndate = "2024"\n' + HEAD.partition("\n")[2]


def test_the_credit_has_what_the_pattern_says() -> None:
    plan = planned(panel(12), "", CREDITED)
    assert key.credit(plan.pattern) == f"Keyed  ·  {key.by_words(plan.pattern)}  ·  CC BY  ·  2024"
    assert "Oda Wren" in key.by_words(plan.pattern)
    assert key.by_words(planned(panel(12)).pattern) == ""
    assert key.credit(planned(panel(12)).pattern) == "Keyed"


def test_it_is_told_at_which_side_rows_begin() -> None:
    plan = planned(panel(12))
    said = key.reading_words(page(plan))
    assert said.index("at the right") < said.index("at the left"), "odd rows first"
    other = key.reading_words(page(plan, look=Look(hand="left")))
    assert other.index("at the left") < other.index("at the right")


def drawn(found: Setting, words: str, short: bool = False) -> list[Path]:
    """The sample of a sign, drawn about (500, 300)."""
    (draw,) = [draw for draw, _, said in samples(found).signs(short) if said.startswith(words)]
    return [item for item in flat(draw(500.0, 300.0)) if isinstance(item, Path)]


def test_samples_of_signs_are_those_of_the_chart() -> None:
    found = page(planned(panel(12), stripes("[3]")))
    (join,), (end,) = drawn(found, "join"), drawn(found, "fasten")
    assert (join.fill, end.fill) == (found.theme.paper, found.theme.ink)
    for path in (join, end):
        left, top, right, bottom = box(path)
        assert ((left + right) / 2, (top + bottom) / 2) == (500, 300)


def test_a_sample_of_a_move_at_both_edges_has_the_left_one_at_the_left() -> None:
    """Less at both edges: the wedges point at one another. At one edge alone it stands in the middle."""
    both = drawn(page(planned("outline = [[0, 40], [30, 16]]")), "½", short=True)
    one, other = (([step[1] for step in path.steps if len(step) == 3])[:3] for path in both)
    assert one[0] == one[2] < one[1] <= other[1] < other[0] == other[2]
    assert (one[1] + other[1]) / 2 == pytest.approx(500, abs=0.02)
    (alone,) = drawn(page(planned('align = "left"\noutline = [[0, 40], [30, 16]]')), "½", short=True)
    left, _, right, _ = box(alone)
    assert abs((left + right) / 2 - 500) < 1


def test_a_sample_of_a_carried_yarn_is_a_loop_in_the_colour_taken_up() -> None:
    found = page(planned(panel(12), stripes("[2]").replace("carry = 0", "carry = 4")))
    rim, yarn = drawn(found, "carry the yarn")
    assert rim.width > yarn.width
    loop = Margins.on(found).loops[0]
    assert yarn.stroke == found.colours.of(loop.rows[-1])
    assert rim.stroke == found.theme.ink
    places = [(step[1], step[2]) for step in yarn.steps if len(step) == 3]
    assert len(places) == 4
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = places
    assert (x0, x1) == (x3, x2)
    assert x0 < 500 < x1, "open to the left, as at a right edge"
    assert y0 == y1 > 300 > y2 == y3


def test_more_yarns_than_eight_are_many() -> None:
    for count in (8, 9):
        yarns = "".join(f'[[yarn]]\nname = "Yarn {nth}"\ncolour = "#{10 * nth + 20:02x}8050"\n' for nth in range(count))
        order = ", ".join(f'"Yarn {nth}"' for nth in range(count))
        plan = planned(panel(count), f"{yarns}[stripes]\norder = [{order}]\nrows = [1]\n")
        assert key.many_yarns(page(plan)) == (count == 9)
        names = [words for _, _, words in key._compact_cells(column(page(plan)), samples(page(plan)))[0]]
        assert names == ([f"Yarn {nth}" for nth in range(8)] if count == 8 else [""] * 9)
