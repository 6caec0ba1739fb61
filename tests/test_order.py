"""Rows of more than one kind, and what they begin on.

What holds: counts and first stitches of published pieces come out of pattern files; heights by their kinds; all that is
published of such pieces is worked as planned; what cannot be worked is told. Sources beside each check; where none is
named, the value was worked by hand from the rules of the lattice.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise, product
from typing import Any

import pytest

from mixed_rows import mixed_at
from turnchain.drawing.folds import folded
from turnchain.errors import PatternError
from turnchain.fabric.library import edge_table, recipe_of
from turnchain.fabric.order import RowOrder
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning import foundations
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_text
from turnchain.wording.words import row_words
from turnchain.yarns.figures import figures

SWATCH = '[swatch]\nclusters = 7\nwidth = 10\nrows = 9\nheight = 10\n'


def of_file(fabric: str, piece: str, swatch: str = SWATCH) -> PiecePlan:
    text = f'title = "Lane"\n{swatch}[fabric]\n{fabric}\n[[piece]]\nname = "cloth"\nwidth = 60\nlength = 40\n{piece}\n'
    return plan_pattern(read_text(text, "lane.toml")).pieces[0]


# --------------------------------------------------------------------------------------- published foundations

ON_SC = 'kind = "closed"\nfoundation = "sc"'
ALTERNATE = 'row_plan = "alternate"\n'


@pytest.mark.parametrize(
    ("chain", "pitches"),
    [
        (140, 46),  # UK leaflet "Granny Stripes Crochet Blanket" (Scribd 787932060): base row 139, rows of 139 and 140
        (302, 100),  # Craftsy, granny stripe crochet pattern: a multiple of 3 plus 2, on a row of sc
        (164, 54),  # Attic24, granny stripe blanket: a multiple of 3 plus 2
        (254, 84),  # the same
        (242, 80),  # charmhour.blogspot.com, 2013-10, striped granny
        (152, 50),  # the same
    ],
)
def test_published_chains_of_the_closed_fabric_on_a_row_of_sc(chain: int, pitches: int) -> None:
    piece = of_file(f'{ON_SC}\nstart = "spaced"', f"{ALTERNATE}exact_chain = {chain}")
    base, first, second = piece.rows[:3]
    assert (piece.foundation_chain, base.kind, base.counts.dc) == (chain, "sc", chain - 1)
    assert [row.counts.dc + row.counts.tch for row in (first, second)] == [3 * pitches + 1, 3 * pitches + 2]
    assert (first.clusters, second.clusters) == (pitches - 1, pitches)
    told = f"Row 1 (RS): Sc in 2nd ch from hook, sc in each of next {chain - 2} ch. {chain - 1} sc."
    assert row_words(piece, base, "US") == told


@pytest.mark.parametrize(("chain", "pitches"), [(66, 21), (78, 25), (90, 29), (102, 33), (114, 37)])
def test_published_chains_of_groups_in_one_chain(chain: int, pitches: int) -> None:
    """The Graceful Tangle, granny cardigan, five sizes: groups in one chain each, a turning chain of 2 that is no
    stitch, half starts."""
    fabric = 'kind = "closed"\nfoundation = "grouped"\nstart = "spaced"\nturning_chain = 2\n'
    fabric += "turning_chain_counts = false"
    piece = of_file(fabric, f"{ALTERNATE}exact_chain = {chain}")
    assert (piece.foundation_chain, piece.rows[0].clusters) == (chain, pitches - 1)
    assert piece.rows[0].right.at == 2 * pitches


def test_a_published_chain_of_120_and_one() -> None:
    """sharky-knows.blogspot.com, 2014-03 (UK): groups in one chain each, a multiple of 3 plus 4: 121; 120 does not
    fit."""
    fabric = 'kind = "closed"\nfoundation = "grouped"\nstart = "spaced"'
    piece = of_file(fabric, f"{ALTERNATE}exact_chain = 121")
    assert piece.rows[0].right.at == 2 * 39
    assert "the nearest that fit are 118 and 121" in refused(fabric, f"{ALTERNATE}exact_chain = 120")


def test_a_published_chain_of_wide_v_stitches() -> None:
    """Yarnspirations BRC0502-029618M, wide V-stitch blanket, 2020: a multiple of 4 plus 5, 173 chains."""
    piece = of_file('kind = "wide-v"', "exact_chain = 173", SWATCH.replace("clusters = 7", "clusters = 6"))
    assert (piece.foundation_chain, piece.rows[0].clusters) == (173, 42)


@pytest.mark.parametrize(("chain", "nearest"), [(250, "248 and 251"), (120, "119 and 122")])
def test_published_chains_that_do_not_fit(chain: int, nearest: str) -> None:
    """A multiple of 3 plus 2 with a base row of sc: Craftsy and Attic24 have 254 and not 250."""
    words = refused(f'{ON_SC}\nstart = "spaced"', f"{ALTERNATE}exact_chain = {chain}")
    assert words.startswith('pattern: exact_chain of piece "cloth"')
    assert f"a foundation of {chain} chains; with rows alternate the nearest that fit are {nearest}" in words


@pytest.mark.parametrize(("chain", "nearest"), [(60, "58 and 62"), (96, "94 and 98"), (120, "118 and 122")])
def test_published_chains_of_the_open_fabric_that_do_not_fit(chain: int, nearest: str) -> None:
    """A published "multiple of 4 plus 3" given with 60, 96 and 120 chains (crochet2in1.com); ours is a multiple of 4
    plus 6, since the first edge stitch has a chain of its own and the gap beside it has one."""
    words = refused('start = "spaced"', f'row_plan = "alike"\nexact_chain = {chain}')
    assert f"the nearest that fit are {nearest}" in words


def test_a_published_chain_of_99() -> None:
    """crochet2in1.com, three-colour blanket in stripes of one row: a multiple of 4 plus 3, the first stitch in the 4th
    chain, 99 for 24 clusters; of what is given there besides, 60, 96 and 120 do not fit."""
    piece = of_file('kind = "slit"', 'row_plan = "alike"\nexact_chain = 99')
    assert (piece.foundation_chain, {row.clusters for row in piece.rows}) == (99, {24})
    first = row_words(piece, piece.rows[0], "US")
    assert first.startswith("Row 1 (RS): Dc in 4th ch from hook, dc in each of next 2 ch")
    for chain, nearest in ((60, "59 and 63"), (96, "95 and 99"), (120, "119 and 123")):
        words = refused('kind = "slit"', f'row_plan = "alike"\nexact_chain = {chain}')
        assert f"the nearest that fit are {nearest}" in words


def test_edges_without_a_chain_are_straight() -> None:
    """There an edge that goes out by half a cluster is worked as a straight one is."""
    assert "in a fabric whose rows look alike whatever their edges are these are straight" in refused(
        'kind = "slit"', "neck = { shoulder = 15, depth = 8 }"
    )
    assert "two rows at the least" in refused('kind = "slit"', "exact_rows = 1")
    assert "at their edges too" in refused('kind = "slit"\nrows = ["cluster", "sc"]', "")


@pytest.mark.quick(1)
@pytest.mark.parametrize("kind", ["slit", "moss-slit"])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_clusters_in_slits_beside_edge_stitches_are_worked_as_planned(kind: str, row_plan: str) -> None:
    for width, length in ((5, 3), (6, 4), (20, 9)):
        plan = made(Fabric(kind=kind), width, length, row_plan=row_plan)
        assert prove(plan, booklet=width == 6, offers=width == 6).reasons == ()


def refused(fabric: str, piece: str) -> str:
    with pytest.raises(PatternError) as error:
        of_file(fabric, piece)
    return str(error.value)


def test_without_a_filling_straight_and_shaped_edges_are_worked_alike() -> None:
    """Why such edges are straight: of one table, moves with one place for unit and edge stitch make the same row where
    nothing stands between the two."""
    alike: set[tuple[str, str, str]] = set()
    for below in ("flush", "spaced"):
        moves = [rule for rule in edge_table("staggered").moves if rule.below == below]
        for one, other in combinations(moves, 2):
            if one.unit == other.unit:
                alike |= {(below, one.name, other.name)} if one.start == other.start else set()
                alike |= {(f"{below}, end", one.name, other.name)} if one.end == other.end else set()
    assert alike == {
        ("flush", "straight", "decrease"), ("spaced", "straight", "increase"), ("spaced, end", "straight", "increase"),
    }  # fmt: skip


# ------------------------------------------------------------------------------------------------ rows by hand


def test_an_open_blanket_on_sc() -> None:
    """32 clusters, rows alike, spaced at the start: 130 sc on 131 chains; clusters in the 4th sc and on; after two rows
    a row of 130 sc, then clusters in the 5th, 9th ... 129th. Own arithmetic."""
    swatch = SWATCH.replace("7", "4")
    piece = of_file(
        'rows = ["cluster", "cluster", "sc"]\nfoundation = "sc"\nstart = "spaced"', "exact_clusters = 32", swatch
    )
    assert piece.foundation_chain == 131
    told = [row_words(piece, row, "US") for row in piece.rows[:5]]
    assert told[0].endswith("Sc in 2nd ch from hook, sc in each of next 129 ch. 130 sc.")
    assert "Ch 4, turn, skip edge st, skip 2 st, cl in next st, [ch 1, skip 3 st, cl in next st] 31 times" in told[1]
    assert "Ch 1, turn, sc in edge st, sc in each of next 128 st, sc in 3rd ch of tch. 130 sc." in told[3]
    assert [row.kind for row in piece.rows[:7]] == ["sc", "cluster", "cluster", "sc", "cluster", "cluster", "sc"]
    after = piece.rows[4]
    lead = 4 if after.edge(after.starts).kind == "spaced" else 1
    assert ("skip edge st, skip 3 st, cl in next st" in told[4]) == (lead == 4)


def test_clusters_over_clusters_in_the_closed_fabric() -> None:
    """Nothing lies over a slit, so clusters after sc stand over clusters."""
    piece = of_file('kind = "closed"\nrows = ["cluster", "sc"]', ALTERNATE)
    first, sc, second, _, third = piece.rows[:5]
    assert (first.left.kind, sc.left.kind, second.left.kind) == (first.left.kind,) * 3
    assert first.clusters == second.clusters == third.clusters
    over = 'kind = "closed"\nrows = ["cluster", "sc"]\nthen = "staggered"'
    assert "staggered needs an odd gap" in refused(over, "")


@pytest.mark.parametrize(
    ("fabric", "words"),
    [
        ('rows = ["sc", "cluster"]', 'rows go round from the first row of clusters, so they begin with "cluster"'),
        ('rows = ["cluster", "slip"]', "must be"),
        ('kind = "v"\nrows = ["cluster", "sc"]', "rows of other stitches go with clusters that are worked into gaps"),
        ('cluster = 4\ngap = 2\nrows = ["cluster", "sc"]', "stacked needs an odd number of stitches in a cluster"),
        ('stitch = "sc"\nturning_chain_counts = true', "takes 2 chains at the least"),
        ('foundation = "sc"\nbase = ["dc"]', "base says how the foundation is worked over"),
    ],
)
def test_what_cannot_be_worked_is_told(fabric: str, words: str) -> None:
    assert words in refused(fabric, "")


def test_a_neck_is_refused() -> None:
    words = refused('rows = ["cluster", "sc"]', "neck = { shoulder = 15, depth = 8 }")
    assert "with rows of more than one kind a piece has no neck" in words


@pytest.mark.parametrize(("row_plan", "more"), [("alike", (5, 6)), ("alternate", (4, 7))])
@pytest.mark.parametrize("chain", [33, 34, 35, 36, 5, 4])
def test_the_nearest_chains_are_those_of_the_multiples(chain: int, row_plan: str, more: tuple[int, int]) -> None:
    """Fabric model, the foundation: for clusters of 3 with a gap 4J + 5 and 4J + 6 where the edges of row 1 differ
    (rows alike), 4J + 4 and 4J + 7 where they do not."""
    fit = sorted(4 * times + over for times in range(1, 20) for over in more)
    below, above = [n for n in fit if n < chain], [n for n in fit if n > chain]
    wanted = [chain] if chain in fit else [*below[-1:], above[0]]
    assert list(foundations.nearest(recipe_of(Fabric(3, 1)), row_plan, chain)) == wanted  # type: ignore[arg-type]


# ------------------------------------------------------------------------------------------------------ heights


def test_heights_of_two_rows_of_dc_and_one_of_sc() -> None:
    """9 rows that go round dc, dc, sc in 10 cm: 1.312, 1.312 and 0.709 cm. Own arithmetic from a height of sc of 0.54
    (a published gauge, Yarnspirations CAC0502-001982M, and a swatch of 13 dc)."""
    piece = of_file('rows = ["cluster", "cluster", "sc"]', "", SWATCH.replace("7", "4"))
    heights = [round(float(row.height * piece.gauge.row), 3) for row in piece.rows[:3]]
    assert heights == [1.312, 1.312, 0.709]
    assert piece.height == sum((row.height for row in piece.rows), Fraction(0)) * piece.gauge.row


SHARES = (("sc", Fraction(54, 100)), ("dc", Fraction(1)), ("tr", Fraction(14, 10)))
ORDERS = [
    RowOrder(base, rows, last, shares=SHARES)
    for base, rows, last in product(
        [(), ("sc",), ("sc", "tr")],
        [("cluster",), ("cluster", "sc"), ("cluster", "cluster", "sc"), ("cluster", "tr", "sc", "cluster", "dc")],
        [(), ("sc", "sc", "dc")],
    )
]


@pytest.mark.quick(6)
@pytest.mark.parametrize("order", ORDERS, ids=str)
def test_rows_for_a_height_as_counting_them_all_finds_them(order: RowOrder) -> None:
    """Brute force: the heights of all numbers of rows, row by row, against the number that encloses a height."""
    tall = {count: sum(order.heights(count), Fraction(0)) for count in range(order.least, 60)}
    for count, height in tall.items():
        assert order.height(count) == height
        assert order.rows_in(height) == count
        if count + 1 in tall:
            between = (height + tall[count + 1]) / 2
            assert order.rows_in(between) == count + Fraction(1, 2)
    assert order.rows_in(Fraction(0)) == order.least


@pytest.mark.quick(6)
@pytest.mark.parametrize("order", ORDERS, ids=str)
def test_a_level_is_found_in_the_row_that_it_lies_in(order: RowOrder) -> None:
    """Row by row from the foundation up, all rows together as many high as they are; a level between two tops lies in
    the upper row, by its share of that."""
    count = order.least + 9
    heights = [one * count / sum(order.heights(count)) for one in order.heights(count)]
    for row, high in enumerate(heights):
        top = sum(heights[:row], Fraction(0))
        assert order.tops(count)[row] == top
        assert order.place(top, count) == row
        assert order.place(top + high / 3, count) == row + Fraction(1, 3)
    assert order.tops(count)[count] == count
    assert order.place(Fraction(count), count) == count


@pytest.mark.quick(6)
@pytest.mark.parametrize("order", ORDERS, ids=str)
def test_the_plan_nearest_in_height_is_taken(order: RowOrder) -> None:
    """Brute force over all numbers of rows: by what the stretch costs, R (h - H)^2 / 3, no other is nearer."""
    fabric = Fabric(rows=order.rows, base=order.base, last=order.last)
    for length in (Fraction(7), Fraction(113, 10), Fraction(30)):
        plan = made(fabric, 12, length)
        piece = plan.pieces[0]
        own, row = piece.recipe.order, piece.gauge.row
        costs = {count: count * (sum(own.heights(count)) * row - length) ** 2 for count in range(own.least, 90)}
        assert costs[piece.row_count] == min(costs.values())


# ------------------------------------------------------------------------------------------------------ worked


def made(fabric: Fabric, width: int, length: Fraction | int, **piece: Any) -> Plan:
    rows = 9 if fabric.cluster > 1 else 6  # about what is usual, so that nothing is warned of
    swatch = Swatch(Fraction(20, fabric.cluster + fabric.gap), Fraction(10), Fraction(rows), Fraction(10), Fraction(30))
    yarns = (Yarn("Oat", "#d8c9a3"), Yarn("Reed", "#7f9a6b"), Yarn("Silt", "#8b5e4a"))
    own = Piece("cloth", width=Fraction(width), length=Fraction(length), **piece)
    pattern = Pattern("Lane", (swatch,), (own,), fabric, yarns, Stripes(("Oat", "Reed", "Silt"), (1, 2)))
    return plan_pattern(pattern)


@dataclass(frozen=True)
class Mix:
    """A fabric with rows of more than one kind."""

    fabric: Fabric

    def __str__(self) -> str:
        one = self.fabric
        parts = (f"{one.cluster}{one.stitch}{one.gap}", *one.base, "|", *one.rows, "|", *one.last, one.then)
        return "-".join(parts)


MIXES = [
    Mix(Fabric(cluster, gap, stitch, rows=rows, base=base, last=last, then=then))
    for cluster, gap, stitch, then in [
        (3, 1, "dc", ""), (3, 1, "dc", "stacked"), (3, 0, "dc", ""), (2, 1, "dc", ""), (5, 1, "tr", "stacked"),
        (4, 3, "dc", ""), (1, 1, "sc", ""), (1, 1, "dc", "stacked"), (3, 2, "hdc", "stacked"), (5, 0, "sc", ""),
    ]
    for rows, base, last in [
        (("cluster", "cluster", "sc"), ("sc",), ("sc", "sc")),
        (("cluster", "hdc"), (), ()),
        (("cluster",), ("dc",), ("tr",)),
        (("cluster", "cluster", "cluster", "tr", "sc"), ("hdc", "sc"), ()),
    ]
]  # fmt: skip


@pytest.mark.quick(3)
@pytest.mark.parametrize("mix", [pytest.param(one, id=str(one)) for one in MIXES])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_all_that_is_published_is_worked_as_planned(mix: Mix, row_plan: str) -> None:
    proof = prove(made(mix.fabric, 14, 13, row_plan=row_plan))
    assert proof.reasons == ()
    assert [one.path for one in proof.worked][-1] == "the charts"


BEGINNINGS = [
    Fabric(3, 0, grouped=True, start="spaced"),
    Fabric(3, 1, grouped=True),
    Fabric(4, 2, grouped=True, start="flush"),
    Fabric(2, 0, "hdc", grouped=True),
    Fabric(3, 0, grouped=True, turning_chain=2, turning_chain_counts=False),
    Fabric(3, 1, turning_chain=2, turning_chain_counts=False),
    Fabric(3, 1, "sc", turning_chain=2, turning_chain_counts=True),
    Fabric(5, 1, turning_chain=4, start="flush"),
    Fabric(3, 1, turning_chain=2, turning_chain_counts=False, rows=("cluster", "sc"), base=("sc",)),
]


@pytest.mark.quick(6)
@pytest.mark.parametrize("fabric", BEGINNINGS, ids=repr)
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_other_beginnings_are_worked_as_planned(fabric: Fabric, row_plan: str) -> None:
    assert prove(made(fabric, 14, 6, row_plan=row_plan)).reasons == ()


def test_a_short_chart_repeats_whole_rounds_of_rows() -> None:
    """Two rows of clusters and one of sc come again from the same side after six rows, from row 3 on: row 2 stands on
    the sc of the foundation."""
    piece = made(Fabric(rows=("cluster", "cluster", "sc"), base=("sc",)), 60, 60).pieces[0]
    folds = folded(piece)
    (span,) = folds.rows
    assert (folds.repeated, span.first, span.count % 6) == (6, 9, 0)
    told = [(row.kind, row.left.kind, row.starts, row.counts) for row in piece.row_levels]
    assert told[2:8] * ((span.last - 2) // 6) == told[2 : span.last]


@pytest.mark.quick(5)
@pytest.mark.parametrize("seed", range(1, 25))
def test_random_mixes_are_worked_as_planned(seed: int) -> None:
    """Thousands more in the nightly set."""
    assert prove(mixed_at(seed)).reasons == ()


@pytest.mark.slow
@pytest.mark.parametrize("mix", [pytest.param(one, id=str(one)) for one in MIXES])
@pytest.mark.parametrize("width", [4, 6, 23])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_narrow_and_wide_pieces_too(mix: Mix, width: int, row_plan: str) -> None:
    assert prove(made(mix.fabric, width, 9, row_plan=row_plan), booklet=True, offers=True).reasons == ()


# ------------------------------------------------------------------------------------------------ swatches of their own

MIXED = f'{SWATCH.replace("7", "4")}weight = 30\n'
OWN = f"{MIXED}[swatch.sc]\nrows = 12\nheight = 6\nweight = 4\nweighed = [10, 10]\n"
ROUND = 'rows = ["cluster", "cluster", "sc"]'


def test_a_swatch_of_its_own_tells_the_height_of_its_rows() -> None:
    """9 rows that go round clusters, clusters, sc in 10 cm, and 12 of sc in 6: three rows are 3.333 cm, one of sc 0.5,
    so each of clusters 1.417. By hand."""
    piece = of_file(ROUND, "", OWN)
    heights = [round(float(row.height * piece.gauge.row), 3) for row in piece.rows[:3]]
    assert heights == [1.417, 1.417, 0.5]


def test_rows_weighed_by_themselves_take_their_own_yarn() -> None:
    """30 g on 100 square cm, and 4 g on 100 of sc: a round of three rows, 1 cm wide, weighs 1 g, its row of sc 0.02, so
    that those of clusters weigh 0.98 on 2.833 square cm. By hand."""
    pattern = read_text(
        f'title = "T"\n{OWN}[fabric]\n{ROUND}\n[[yarn]]\nname = "Oat"\ncolour = "#d8c9a3"\n[[yarn]]\nname = "Reed"\n'
        'colour = "#7f9a6b"\n[stripes]\norder = ["Reed"]\nsc = "Oat"\n'
        '[[piece]]\nname = "cloth"\nwidth = 60\nlength = 40\n', "t.toml",
    )  # fmt: skip
    plan = plan_pattern(pattern)
    (piece,) = plan.pieces
    assert {(row.kind, row.colour) for row in piece.rows} == {("cluster", "Reed"), ("sc", "Oat")}
    wide = piece.rows[0].right.at * piece.gauge.half
    rows = [row.kind for row in piece.rows]
    wanted = {"Oat": rows.count("sc") * wide / 50, "Reed": rows.count("cluster") * wide * Fraction(98, 200)}
    assert {use.yarn: use.grams for use in figures(plan).uses} == wanted
    assert prove(plan).reasons == ()


@pytest.mark.parametrize(
    ("swatch", "words"),
    [
        ("[swatch.sc]\nrows = 12\n", "swatch, sc: no `height`"),
        ("[swatch.sc]\nrows = 12\nheight = 6\nweight = 4\n", "swatch, sc: `weight` without `weighed`"),
        ("[swatch.hdc]\nrows = 12\nheight = 6\n", "swatch, hdc: no row is of hdc"),
        ("[swatch.sc]\nrows = 1\nheight = 6\n", "rows as high as their own swatches; leave no height"),
        ("[swatch.sc]\nrows = 12\nheight = 6\nweight = 400\nweighed = [10, 10]\n", "leave no weight"),
    ],
)
def test_a_swatch_of_its_own_that_cannot_be_meant_is_told(swatch: str, words: str) -> None:
    with pytest.raises(PatternError) as error:
        of_file(ROUND, "", MIXED + swatch)
    assert words in str(error.value)


# ------------------------------------------------------------------------------------------------- yarns of their own


@pytest.mark.parametrize(
    ("stripes", "yarns"),
    [
        ('order = ["Reed", "Silt"]\nrows = [2, 1]\nsc = "Oat"', ["Reed", "Reed", "Oat", "Silt", "Reed", "Oat", "Reed"]),
        ('sc = "Oat"', ["Reed", "Silt", "Oat", "Reed", "Silt", "Oat", "Reed"]),
        ('cluster = "Silt"\nsc = "Oat"', ["Silt", "Silt", "Oat"] * 2 + ["Silt"]),
        ('kind = "mirrored"\norder = ["Reed", "Silt"]\nrows = 1\nsc = "Oat"',
         ["Reed", "Silt", "Oat", "Reed", "Silt", "Oat", "Reed"]),
    ],
)  # fmt: skip
def test_stripes_by_kinds_of_row(stripes: str, yarns: list[str]) -> None:
    """Every row of sc in one yarn, the order over the rows that are left; by hand."""
    text = f'title = "T"\n{MIXED}[fabric]\n{ROUND}\n' + "".join(
        f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\n'
        for name, colour in (("Oat", "#d8c9a3"), ("Reed", "#7f9a6b"), ("Silt", "#8b5e4a"))
    )
    piece = '[[piece]]\nname = "cloth"\nwidth = 30\nexact_rows = 7\nlength = 8\n'
    plan = plan_pattern(read_text(f"{text}[stripes]\n{stripes}\n{piece}", "t.toml"))
    assert [row.colour for row in plan.pieces[0].rows] == yarns


@pytest.mark.parametrize(
    ("stripes", "words"),
    [
        ('order = ["Reed"]\nhdc = "Oat"', "stripes, hdc: no row is of hdc; the kinds of row of [fabric] are"),
        ('order = ["Reed"]\nsc = "Moss"', 'stripes, sc: there is no yarn "Moss"'),
        ('kind = "stash"\nsc = "Oat"', 'stripes, sc: the kind of these stripes is "stash"'),
    ],
)
def test_stripes_by_kinds_that_cannot_be_meant_are_told(stripes: str, words: str) -> None:
    text = f'title = "T"\n{MIXED}[fabric]\n{ROUND}\n' + "".join(
        f'[[yarn]]\nname = "{name}"\ncolour = "#d8c9a3"\nstock = 100\n' for name in ("Oat", "Reed")
    )
    with pytest.raises(PatternError) as error:
        read_text(f'{text}[stripes]\n{stripes}\n[[piece]]\nname = "cloth"\nwidth = 30\nlength = 8\n', "t.toml")
    assert words in str(error.value)


# ------------------------------------------------------------------------------------------- orders of rows, walked

WALKED = [
    RowOrder(tuple(base.split()), tuple(rows.split()), tuple(last.split()), staggered,
             (("sc", Fraction(1, 2)), ("hdc", Fraction(3, 4))))
    for base in ("", "sc", "sc hdc sc")
    for rows in ("cluster sc", "cluster cluster sc", "cluster sc cluster hdc", "cluster hdc sc", "cluster sc hdc sc sc",
                 "cluster")
    for last in ("", "sc", "sc hdc")
    for staggered in (True, False)
]  # fmt: skip


def phases(order: RowOrder, count: int, shift: int) -> list[int]:
    """The running phase of row 0 and of each of ``count`` rows, from row to row: a row of clusters on one of clusters
    moves it by ``shift``, one on solid rows stands over gaps or not, and solid rows keep it, as do the first clusters
    over those at the foot."""
    kinds = [*order.base]
    while len(kinds) < count - len(order.last):
        kinds.append(order.rows[(len(kinds) - len(order.base)) % len(order.rows)])
    kinds += order.last
    found = [0, shift]
    for number, (below, kind) in enumerate(pairwise(kinds), start=2):
        moved = 0
        if kind == "cluster" and number != len(order.base) + 1:
            moved = shift if below == "cluster" else int(order.staggered)
        found.append(found[-1] + moved)
    assert order.kinds(count) == tuple(kinds)
    return found


@pytest.mark.parametrize("shift", [0, 1])
def test_the_running_phase_is_that_of_a_walk_from_row_to_row(shift: int) -> None:
    for order in WALKED:
        for count in range(order.least, order.least + 14):
            walked = phases(order, count, shift)
            assert order.all_shifts(count, shift) == tuple(walked)
            moving = count - len(order.last)
            assert [order.shifts(number, shift) for number in range(moving + 1)] == walked[: moving + 1]


@pytest.mark.parametrize("shift", [0, 1])
def test_rows_come_again_after_the_fewest_rounds_that_bring_side_and_phase_back(shift: int) -> None:
    for order in WALKED:
        begin, once = len(order.base) + 1, len(order.rows)
        walked = [phase % 2 for phase in phases(order, 20 * once + order.least, shift)]
        wanted = next(
            rows for rows in range(once, 9 * once, once)
            if rows % 2 == 0
            and all(walked[nth] == walked[nth + rows] for nth in range(begin, begin + 5 * once))
        )  # fmt: skip
        assert order.repeat(shift) == (2 if order.plain else wanted), order
        assert set(walked[1 : order.differing + 1]) == set(walked[1 : len(walked) - len(order.last)]), order


def test_the_fewest_rows_and_those_that_have_every_phase() -> None:
    """One row of clusters between those at the foot and at the top; all rows at the foot, two rounds, and one more."""
    order = RowOrder(("sc", "hdc"), ("cluster", "sc", "sc"), ("dc",))
    assert (order.least, order.differing) == (4, 9)
    assert (RowOrder().least, RowOrder().differing) == (1, 2)


def test_tops_are_the_heights_added_up() -> None:
    assert RowOrder().tops(3) == (0, 1, 2, 3)
    for order in WALKED:
        if order.plain:
            continue
        for count in (order.least, order.least + 5):
            heights, mean = order.heights(count), order.mean
            share = {"cluster": Fraction(1), "sc": Fraction(1, 2), "hdc": Fraction(3, 4)}
            assert mean == sum(share[kind] for kind in order.rows) / len(order.rows)
            assert heights == tuple(share[kind] / mean for kind in order.kinds(count))
            assert order.height(count) == sum(heights)
            tops = order.tops(count)
            assert (len(tops), tops[0], tops[-1]) == (count + 1, 0, count)
            assert [high - low for low, high in pairwise(tops)] == [
                one * count / sum(heights) for one in heights
            ]
