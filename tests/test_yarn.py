"""Yarn figures: the published weighing, areas that add up, and what is said of them."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction
from math import ceil
from pathlib import Path
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from turnchain.fabric.gauge import Gauge
from turnchain.fabric.plan import Plan
from turnchain.garment import materials
from turnchain.pattern import Allowance, Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.reading import pattern_file
from turnchain.records import replace
from turnchain.units import INCH
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import LANGUAGES
from turnchain.yarns import carrying, figure_words
from turnchain.yarns import figures as yarn
from turnchain.yarns.colouring import coloured
from workable import lengths, patterns

CASES = Path(__file__).parent / "cases"
QUICK = settings(max_examples=40)
OUNCE = Fraction("28.349523125")  # g; the international avoirdupois ounce


def case(name: str) -> Plan:
    return coloured(plan_pattern(pattern_file.read_file(CASES / f"{name}.toml")))


# ----------------------------------------------------------------------------------------------------- published


def test_the_weigh_method_as_published() -> None:
    """A 10 x 10 in swatch of 0.44 oz from a 10.54 oz skein of 241 yd: 10.06 yd in 100 square inches, so a 60 x 52 in
    throw takes 313.9 yd. Source: romneyridgefarm.com, inputs read; the sums are ours."""
    weight, skein = Fraction("0.44") * OUNCE, Fraction("10.54") * OUNCE
    metres = 241 * yarn.YARD / 100
    made = Pattern(
        "Throw",
        (Swatch(Fraction(10), 10 * INCH, Fraction(20), 10 * INCH, weight),),
        (Piece("throw", width=60 * INCH, length=52 * INCH, row_plan="alternate"),),
        yarns=(Yarn("Wool", "#888888", None, 100 * metres / skein),),
        allowance=Allowance(Fraction(0), Fraction(0)),
    )
    plan = coloured(plan_pattern(made))
    need = yarn.figures(plan).need("Wool")
    assert yarn.area(plan.pieces[0]) == 60 * 52 * INCH**2
    assert need.metres is not None
    assert round(float(need.metres * 100 / yarn.YARD), 1) == 313.9
    assert round(float(need.metres * 100 / yarn.YARD / Fraction("31.2")), 2) == 10.06


def test_the_closed_blanket_is_in_the_published_band() -> None:
    """700 to 1100 g to the square metre: the sum on two published blankets."""
    dense = yarn.density(case("mudflat_blanket").pattern)
    assert dense.likely is not None
    low, high = yarn.CLOSED_DK
    assert low < dense.likely < high
    assert round(dense.likely * 10_000) == 911
    assert dense.low < dense.likely < dense.high


# -------------------------------------------------------------------------------------------------------- areas


def trapeziums(plan: Plan) -> dict[str, Fraction]:
    """The area of every piece by the shoelace formula round each row's four corners."""
    areas = {}
    for piece in plan.pieces:
        whole = Fraction(0)
        for row in piece.rows:
            feet = []
            for side in ("left", "right"):
                edge = row.edge(side)
                under = piece.rows[row.under].edge(side).at if row.under is not None else edge.at
                feet.append(edge.at if edge.move.startswith("step") else under)
            corners = [(feet[0], 0), (feet[1], 0), (row.right.at, 1), (row.left.at, 1)]
            shoelace = sum(a * d - c * b for (a, b), (c, d) in zip(corners, corners[1:] + corners[:1], strict=True))
            whole += Fraction(shoelace, 2) * piece.gauge.half * piece.gauge.row
        areas[piece.name] = whole
    return areas


@pytest.mark.quick(0)
@QUICK
@given(patterns(most_rows=20, most_clusters=12), lengths(5, 40), st.integers(1, 5))
def test_grams_add_up_exactly(made: Pattern, weight: Fraction, count: int) -> None:
    """Over rows, yarns and pieces, with not a hair lost; and every row weighs something."""
    swatch = replace(made.swatches[0], weight=weight)
    pieces = tuple(replace(piece, count=count) for piece in made.pieces)
    plan = coloured(plan_pattern(replace(made, swatches=(swatch,), pieces=pieces)))
    found = yarn.figures(plan)
    areas = trapeziums(plan)
    assert {piece.name: yarn.area(piece) for piece in plan.pieces} == areas
    assert all(yarn.row_area(piece, row) > 0 for piece in plan.pieces for row in piece.rows)
    dense = found.density.likely
    assert dense is not None
    assert sum(use.area for use in found.uses) == count * sum(areas.values())
    assert sum(need.fabric for need in found.needs) == sum(use.grams for use in found.uses)
    assert sum(use.grams for use in found.uses) == dense * count * sum(areas.values())
    ends = sum((carrying.ends(piece) for piece in plan.pieces), 0) * count
    assert sum(use.ends for use in found.uses) == ends
    assert sum(need.tails for need in found.needs) == ends * Fraction(15) / yarn.USUAL_METRES


def test_a_triangle_and_a_trapezium_by_hand() -> None:
    """The kite kerchief: 30 rows that grow by half a cluster at both edges, from a foot of 4 half pitches to a top of
    62; each is 1 by 1 cm a half pitch and row, row 1 upright."""
    kerchief = case("kite_kerchief").piece("kerchief")
    assert (kerchief.gauge.half, kerchief.gauge.row) == (1, 1)
    assert yarn.area(kerchief) == 4 + sum((width - 2 + width) / 2 for width in range(6, 64, 2))


def test_rows_get_shorter_in_a_neckline() -> None:
    front = case("heron_top").piece("front")
    widest, narrowest = yarn.row_area(front, front.rows[0]), yarn.row_area(front, front.rows[23])
    assert narrowest < widest
    assert yarn.area(front) < len(front.rows) * widest


def test_a_divided_piece_loses_its_neck() -> None:
    """A square neck: the body whole, then two shoulders, each upright on its own place."""
    made = Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10), Fraction(20)),),
        (Piece("front", width=Fraction(40), length=Fraction(30), neck=Neck(Fraction(12), Fraction(6), "square")),),
    )
    plan = coloured(plan_pattern(made))
    (front,) = plan.pieces
    across = front.rows[0].right.at - front.rows[0].left.at
    first, second = (front.section(name)[-1] for name in front.sections[1:])
    shoulders = sum(row.right.at - row.left.at for row in (first, second))
    body = len(front.section("body"))
    assert yarn.area(front) == across * body + shoulders * (30 - body)
    assert yarn.figures(plan).needs[0].yarn == yarn.UNNAMED
    assert yarn.figures(plan).uses[0].ends == 4


# ------------------------------------------------------------------------------------------------------- figures


def simple(margin: int | None = 10, **more: object) -> Plan:
    """20 x 30 cm in one yarn at a tenth of a gram to the square cm: 60 g, in 2 tails of 15 cm."""
    wool = replace(Yarn("Wool", "#888888", None, Fraction(200), Fraction(50)), **more)  # type: ignore[arg-type]
    made = Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10), Fraction(20)),),
        (Piece("one", width=Fraction(20), length=Fraction(30), row_plan="alternate"),),
        yarns=(wool,),
        allowance=Allowance(None if margin is None else Fraction(margin)),
    )
    return coloured(plan_pattern(made))


def test_every_step_of_a_need() -> None:
    need = yarn.figures(simple(keep=Fraction(7), stock=Fraction(80))).need("Wool")
    tails = 2 * Fraction(15, 200)  # 15 cm of 200 m in 100 g
    assert (need.fabric, need.tails, need.kept) == (60, tails, 7)
    assert need.needed == (60 + tails) * Fraction(11, 10) + 7
    assert need.metres == need.needed * 2
    assert (need.balls, need.to_buy, need.left) == (2, 0, 80 - need.needed)
    short = yarn.figures(simple(stock=Fraction(10))).need("Wool")
    assert short.to_buy == ceil((short.needed - 10) / 50) == 2
    with pytest.raises(KeyError):
        yarn.figures(simple()).need("Flax")


def test_room_for_a_border_from_elsewhere() -> None:
    plain, more = (yarn.figures(simple(), extra).need("Wool") for extra in (None, {"Wool": Fraction(12)}))
    assert more.needed - plain.needed == more.kept == 12


def test_usual_margins() -> None:
    """15 per cent where one swatch was weighed, 10 where several were, the maker's own before both."""
    plan = simple(None)
    (one,) = plan.pattern.swatches
    assert yarn.margin_of(plan.pattern) == 15
    assert yarn.margin_of(replace(plan.pattern, swatches=(one, one))) == 10
    assert yarn.margin_of(replace(plan.pattern, allowance=Allowance(Fraction(3)))) == 3
    assert yarn.margin_of(replace(plan.pattern, swatches=(replace(one, weight=None),))) == 0


def test_several_readings_widen_the_range() -> None:
    plan = simple()
    (one,) = plan.pattern.swatches
    other = replace(one, width=Fraction(22), weight=Fraction(30))
    both = replace(plan.pattern, swatches=(one, other))
    dense = yarn.density(both)
    assert dense.likely == Fraction(50, 200 + 220)
    assert dense.low < Fraction(20, 200)
    assert dense.high > Fraction(30, 220)
    found = yarn.figures(coloured(plan_pattern(both))).needs[0]
    assert found.low < found.fabric < found.high


def test_words() -> None:
    assert figure_words.lines(simple(keep=Fraction(7), stock=Fraction(80))) == [
        "yarn: the swatch came to 1000 g to the square metre; from 939 to 1065 g to the square metre, "
        "allowing half a gram for the scale and a quarter of a centimetre for the tape",
        "Wool: 60 g of fabric (56 to 64), 1 g of tails, 10 % margin, 7 g for border and seams: 74 g, 147 m, 2 balls; "
        "6 g of the stock left",
        "Wool: take all balls of a colour from one dye lot, with one to spare where the shop takes it back; a ball of "
        "another lot shows least in a stripe of its own",
    ]
    assert figure_words.lines(simple(stock=Fraction(10)))[1].endswith("; the stock is 57 g short, 2 more balls")


def test_the_caption_of_a_sample() -> None:
    def caption(name: str) -> list[str]:
        return figure_words.caption(case(name), Speech(LANGUAGES["US"]))

    assert caption("heron_top") == ["88 ends to weave in", "left: Heron 52 g, Reed 37 g, Silt 6 g"]
    assert caption("mudflat_blanket")[1].startswith("short: Peat 133 g")
    assert caption("kite_kerchief") == ["228 ends to weave in"]


def unweighed(width: int, length: int, gap: int = 0, **more: object) -> Plan:
    """A panel of so many cm in one yarn, of which no swatch was weighed."""
    made = Pattern(
        "Test",
        (Swatch(Fraction(10), Fraction(20), Fraction(10), Fraction(10)),),
        (Piece("one", width=Fraction(width), length=Fraction(length), row_plan="alternate"),),
        fabric=Fabric(gap=gap),
        yarns=(replace(Yarn("Wool", "#808080", ball=Fraction(100)), **more),),  # type: ignore[arg-type]
    )
    return plan_pattern(made)


@pytest.mark.parametrize(("width", "length", "grams"), [(120, 175, 1800), (80, 80, 700)])
def test_the_range_without_a_weight_holds_the_published_blankets(width: int, length: int, grams: int) -> None:
    """The closed fabric in a DK yarn: 18 x 100 g for 120 x 175 cm (Attic24, granny stripe), and 700 g for 80 x 80 cm.
    The first is what to buy, border and all."""
    need = yarn.figures(unweighed(width, length)).need("Wool")
    assert need.low <= grams <= need.high
    assert need.low == Fraction(7, 100) * width * length


def test_without_a_weight_the_figures_are_an_estimate_and_say_so() -> None:
    plan = unweighed(100, 60, metres_per_100g=Fraction(240))
    told = figure_words.lines(plan)
    assert told[0].startswith(
        "yarn: no swatch was weighed: 700 to 1100 g to the square metre, from two published blankets"
    )
    assert told[1] == "Wool: 420 to 660 g of fabric, 1 g of tails: 421 to 661 g, 1009 to 1585 m, 5 to 7 balls"
    assert told[2] == "shopping list, an estimate until a swatch is weighed: Wool 5 to 7 balls of 100 g"
    assert not any("at most" in line for line in told)
    listed = materials.lines(plan)
    assert listed[0] == "yarn A, Wool: an estimate of 421 to 661 g, 1009 to 1585 m, 5 to 7 balls"
    assert listed[1] == told[2]


@pytest.mark.parametrize(
    ("gap", "metres", "what", "most"),
    [
        (1, None, "the open fabric, which is lighter:", 660),
        (0, 400, "a yarn thinner than DK:", 660),
        (0, 120, "a yarn thicker than DK:", 1320),
        (1, 120, "the open fabric, which is lighter and a yarn thicker than DK:", 1320),
    ],
)
def test_where_no_figure_is_published_the_amount_is_at_most(gap: int, metres: int | None, what: str, most: int) -> None:
    plan = unweighed(100, 60, gap, metres_per_100g=metres and Fraction(metres), ball=None)
    told = figure_words.lines(plan)
    assert f"no figure is published for {what} at most " in told[0]
    assert told[1].startswith(f"Wool: at most {most} g of fabric, ")
    assert (
        f"shopping list, an estimate until a swatch is weighed: Wool at most {ceil(most / 50 + 0.01)} balls of 50 g"
        in told
    )
    assert ": an estimate of at most " in materials.lines(plan)[0]


def test_a_weighed_swatch_gives_no_shopping_list() -> None:
    plan = simple()
    assert not any("shopping list" in line for line in (*figure_words.lines(plan), *materials.lines(plan)))


def test_a_stock_may_be_short_where_no_swatch_was_weighed() -> None:
    told = figure_words.lines(unweighed(100, 60, stock=Fraction(500)))
    assert told[1].endswith("; the stock may be 161 g short, 2 more balls")


def test_makers_in_inches_read_yards() -> None:
    assert " 1457 yd" in figure_words.lines(case("mudflat_blanket"))[1]


def test_a_yarn_for_the_border_alone() -> None:
    plan = simple()
    flax = Yarn("Flax", "#eeeeee", keep=Fraction(30))
    more = replace(plan, pattern=replace(plan.pattern, yarns=(*plan.pattern.yarns, flax)))
    need = yarn.figures(more).need("Flax")
    assert (need.fabric, need.needed) == (0, 30)


def test_stripes_share_the_fabric_by_their_rows() -> None:
    plan = simple()
    made = replace(plan.pattern, yarns=(*plan.pattern.yarns, Yarn("Flax", "#eeeeee")))
    plan = coloured(plan_pattern(replace(made, stripes=Stripes(("Wool", "Flax"), (2, 1)))))
    rows = Counter(row.colour for row in plan.pieces[0].rows)
    assert rows == {"Wool": 20, "Flax": 10}
    assert [need.fabric for need in yarn.figures(plan).needs] == [40, 20]


def test_readings_of_the_gauge_widen_the_range_by_what_their_stitches_are_larger_or_smaller() -> None:
    """Clusters of 2 and 3 cm, rows of 1 and 1.4 cm; the mean 2.5 by 1.2 cm is 3 square cm, the least 2, the most
    4.2."""
    gauge = Gauge(Fraction(5, 2), Fraction(6, 5), (Fraction(2), Fraction(3)), (Fraction(1), Fraction(7, 5)))
    dense = yarn.Density(Fraction(9), Fraction(6), Fraction(12), "weighed")
    found = yarn._with_gauge(dense, gauge)
    assert (found.likely, found.low, found.high) == (9, 6 * Fraction(2, 3), 12 * Fraction(7, 5))
    alone = Gauge(Fraction(2), Fraction(1), (Fraction(2),) * 2, (Fraction(1),) * 2)
    assert yarn._with_gauge(dense, alone) == dense


def test_grams_left_and_short_are_told_of_stocks_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Less than a gram left is not short; what is short is told in whole grams, no less than it is."""
    needs = [SimpleNamespace(yarn=name, left=left) for name, left in (
        ("A", Fraction("0.4")), ("B", Fraction("-0.4")), ("C", None), ("D", Fraction(0)), ("E", Fraction("12.9")),
    )]  # fmt: skip
    monkeypatch.setattr(figure_words, "figures", lambda plan: SimpleNamespace(needs=needs))
    told = figure_words.caption(SimpleNamespace(pieces=()), Speech(LANGUAGES["US"]))  # type: ignore[arg-type]
    assert [re.findall(r"([A-E]) (\d+) g", line) for line in told[1:]] == [
        [("A", "0"), ("D", "0"), ("E", "12")],
        [("B", "1")],
    ]


# --------------------------------------------------------------------------------------- words, of figures by hand

WEIGHED = yarn.Density(Fraction(1, 10), Fraction(9, 100), Fraction(11, 100), "weighed")
ROUGH = yarn.Density(None, Fraction(7, 100), Fraction(11, 100), "estimated")
UNKNOWN = yarn.Density(None, Fraction(0), Fraction(11, 100), "at most")
NEED = yarn.Need(
    yarn="Reed", fabric=Fraction("100.4"), low=Fraction("95.6"), high=Fraction("105.2"), tails=Fraction("1.2"),
    kept=Fraction(0), edging=Fraction(0), least=Fraction("71.4"), needed=Fraction("111.6"), metres=Fraction("279.2"),
    balls=3, left=None, to_buy=None,
)  # fmt: skip
ROUGHLY = replace(NEED, low=Fraction("70.2"), high=Fraction("110.4"))
MOST = replace(NEED, low=Fraction(0), high=Fraction("110.4"), least=Fraction(3))


def pattern_in(unit: str = "cm", **more: object) -> Pattern:
    one = replace(Yarn("Reed", "#557755", metres_per_100g=Fraction(250), ball=Fraction(50)), **more)  # type: ignore[arg-type]
    return Pattern("Test", (), (), yarns=(one, Yarn("Silt", "#aa8866")), units=unit)  # type: ignore[arg-type]


def figures_of(
    dense: yarn.Density, *needs: yarn.Need, margin: int = 0, uses: tuple[yarn.YarnUse, ...] = ()
) -> yarn.Figures:
    return yarn.Figures(dense, Fraction(margin), uses, needs)


@pytest.mark.parametrize(
    ("dense", "need", "margin", "unit", "told"),
    [
        (WEIGHED, NEED, 10, "cm", "100 g of fabric (96 to 105), 2 g of tails, 10 % margin: 112 g, 280 m, 3 balls"),
        (WEIGHED, replace(NEED, balls=1), 0, "cm", "100 g of fabric (96 to 105), 2 g of tails: 112 g, 280 m, 1 ball"),
        # 279.2 m are 305.3 yards of 91.44 cm.
        (WEIGHED, NEED, 0, "in", "100 g of fabric (96 to 105), 2 g of tails: 112 g, 306 yd, 3 balls"),
        (WEIGHED, replace(NEED, tails=Fraction(0), metres=None, balls=None), 0, "cm",
         "100 g of fabric (96 to 105): 112 g"),
        (WEIGHED, replace(NEED, kept=Fraction("20.2")), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails, 21 g for border and seams: 112 g, 280 m, 3 balls"),
        (WEIGHED, replace(NEED, kept=Fraction(20), edging=Fraction(22)), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails, 22 g for the edging: 112 g, 280 m, 3 balls"),
        (WEIGHED, replace(NEED, kept=Fraction(22), edging=Fraction(22)), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails, 22 g for border and seams: 112 g, 280 m, 3 balls"),
        # At 2.5 m to the gram 178.5 to 279 m; 1.4 to 2.2 balls; of the edging seven elevenths at the least.
        (ROUGH, ROUGHLY, 0, "cm", "70 to 110 g of fabric, 2 g of tails: 72 to 112 g, 179 to 279 m, 2 to 3 balls"),
        (ROUGH, ROUGHLY, 0, "in", "70 to 110 g of fabric, 2 g of tails: 72 to 112 g, 196 to 306 yd, 2 to 3 balls"),
        (ROUGH, replace(ROUGHLY, edging=Fraction(22)), 0, "cm",
         "70 to 110 g of fabric, 2 g of tails, 14 to 22 g for the edging: 72 to 112 g, 179 to 279 m, 2 to 3 balls"),
        (UNKNOWN, MOST, 0, "cm",
         "at most 110 g of fabric, 2 g of tails: at most 112 g, at most 279 m, at most 3 balls"),
        (ROUGH, replace(ROUGHLY, least=Fraction(10), needed=Fraction(40)), 0, "cm",
         "70 to 110 g of fabric, 2 g of tails: 10 to 40 g, 25 to 100 m, 1 ball"),
        (WEIGHED, replace(NEED, left=Fraction("7.9")), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails: 112 g, 280 m, 3 balls; 7 g of the stock left"),
        (WEIGHED, replace(NEED, left=Fraction(0)), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails: 112 g, 280 m, 3 balls; 0 g of the stock left"),
        (WEIGHED, replace(NEED, left=Fraction("-12.2"), to_buy=1), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails: 112 g, 280 m, 3 balls; the stock is 13 g short, 1 more ball"),
        (ROUGH, replace(ROUGHLY, left=Fraction("-12.2"), to_buy=2), 0, "cm",
         "70 to 110 g of fabric, 2 g of tails: 72 to 112 g, 179 to 279 m, 2 to 3 balls; the stock may be 13 g short, "
         "2 more balls"),
        (WEIGHED, replace(NEED, left=Fraction("-12.2")), 0, "cm",
         "100 g of fabric (96 to 105), 2 g of tails: 112 g, 280 m, 3 balls; the stock is 13 g short"),
    ],
)  # fmt: skip
def test_what_is_needed_of_a_yarn_is_told_by_hand(
    dense: yarn.Density, need: yarn.Need, margin: int, unit: str, told: str
) -> None:
    """Needed is rounded up, worked is rounded, left is rounded down."""
    found = figures_of(dense, need, margin=margin)
    assert figure_words._need_line(pattern_in(unit), found, need) == f"Reed: {told}"


def test_an_amount_names_metres_and_balls_where_the_label_was_copied() -> None:
    for dense, need, told in ((WEIGHED, NEED, "112 g"), (ROUGH, ROUGHLY, "72 to 112 g")):
        bare = replace(need, yarn="Silt", metres=None, balls=None)
        assert figure_words.amount(pattern_in(), figures_of(dense, bare), bare) == told


def test_a_shopping_list_by_hand() -> None:
    """Of balls of 50 g where the label was not copied; 10 to 40 g are one ball."""
    silt = replace(ROUGHLY, yarn="Silt", least=Fraction(10), needed=Fraction(40))
    plan = SimpleNamespace(pattern=pattern_in(ball=Fraction(25)))
    said = figure_words.shopping(plan, figures_of(ROUGH, ROUGHLY, silt))  # type: ignore[arg-type]
    head = "shopping list, an estimate until a swatch is weighed: "
    assert said == [f"{head}Reed 3 to 5 balls of 25 g; Silt 1 ball of 50 g"]
    most = figure_words.shopping(plan, figures_of(UNKNOWN, MOST))  # type: ignore[arg-type]
    assert most == [f"{head}Reed at most 5 balls of 25 g"]
    assert figure_words.shopping(plan, figures_of(ROUGH)) == []  # type: ignore[arg-type]


def test_all_yarns_together_by_hand() -> None:
    assert figure_words.in_all(figures_of(WEIGHED, NEED, NEED)) == "224 g"  # 223.2
    assert figure_words.in_all(figures_of(ROUGH, ROUGHLY, ROUGHLY)) == "143 to 224 g"  # 142.8
    assert figure_words.in_all(figures_of(UNKNOWN, ROUGHLY, MOST)) == "at most 224 g"


@pytest.mark.parametrize(
    ("balls", "whose"),
    [((1, None, 1), None), ((2, 1, 1), "A"), ((2, 1, 3), "A and C"), ((2, 2, 2), "A, B and C")],
)
def test_dye_lots_are_for_yarns_of_more_than_a_ball(balls: tuple[int | None, ...], whose: str | None) -> None:
    needs = [replace(NEED, yarn=name, balls=some) for name, some in zip("ABC", balls, strict=True)]
    told = figure_words._advice(pattern_in(), figures_of(WEIGHED, *needs))
    assert [line.partition(":")[0] for line in told] == ([whose] if whose else [])


@pytest.mark.parametrize(("count", "who"), [(1, ""), (2, ", both pieces"), (3, ", all 3 pieces")])
def test_what_a_piece_takes_is_told_by_hand(count: int, who: str) -> None:
    uses = tuple(yarn.YarnUse(name, piece, count, Fraction(area), Fraction(grams), 2) for name, piece, area, grams in (
        ("Reed", "one", 700, "70.4"), ("Silt", "one", 300, "30.4"), ("Reed", "two", 50, 5),
    ))  # fmt: skip
    piece = SimpleNamespace(name="one", count=count)
    for dense, whole in ((WEIGHED, "101"), (ROUGH, "70 to 110"), (UNKNOWN, "at most 110")):
        told = figure_words._piece_line(SimpleNamespace(), figures_of(dense, uses=uses), piece)  # type: ignore[arg-type]
        assert told == f"one{who}: {whole} g of fabric: Reed 70 g, Silt 30 g"
