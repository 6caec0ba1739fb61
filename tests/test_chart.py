"""Charts: what is drawn is what was planned, row by row, and everything around it can be read."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib import resources
from itertools import groupby, pairwise
from pathlib import Path

import numpy as np
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from chart_reader import EM, HREF, Chart, Drawn, Lettered, strokes
from conftest import Charted
from row_arrays import row_arrays
from turnchain import style
from turnchain.drawing.margins import shows_number, thinned
from turnchain.fabric import lattice
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.fabric.stitches import turning_chain
from turnchain.pattern import MOST_ROWS
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_file
from turnchain.records import replace

Charts = list[tuple[Plan, PiecePlan, Chart]]

HERE = Path(__file__).parent
CASES = {file.stem: file for file in sorted(HERE.glob("cases/*.toml"))}
#: Patterns of clusters of dc in rows of one kind, which the reader here knows; others are worked from their charts in
#: ``test_order`` and ``test_any_fabric``.
GALLERY = {
    file.stem: file
    for file in sorted(HERE.parent.glob("gallery/patterns/*.toml"))
    if tomllib.loads(file.read_text("utf-8")).get("fabric", {}).keys() <= {"cluster", "gap"}
}

# Every width of cluster, both fabrics, and edges that go by jumps and out of turn.
JUMPS = """
title = "Jumps"
[swatch]
clusters = 8
width = 16
rows = 10
height = {height}
[fabric]
cluster = {cluster}
gap = {gap}
[[piece]]
name = "jumps"
outline = [[0, 20], [7, 20], [7, 31], [15, 31], [15, 17], [21, 12], [26, 16]]
align = "{align}"
[[piece]]
name = "panel"
worked = "sideways"
width = 30
length = 20
neck = {{ shoulder = 8, depth = 5 }}
"""
ODD = {
    f"{cluster} and {gap}, {align}": JUMPS.format(cluster=cluster, gap=gap, align=align, height=10 * 3 / cluster)
    for cluster, gap, align in [(2, 0, "left"), (2, 1, "centre"), (3, 0, "centre"), (3, 1, "right"), (4, 1, "left"),
                                (5, 0, "right"), (5, 1, "centre")]
}  # fmt: skip
# Wide enough for clusters to stand together in runs, and in runs of runs.
WIDE = """
title = "Wide"
[swatch]
clusters = 8
width = 16
rows = 10
height = 20
[fabric]
cluster = {cluster}
gap = {gap}
[[piece]]
name = "wide"
left_outline = [[0, 90], [8, 90], [8, 84], [20, 70]]
right_outline = [[0, 80], [12, 92], [20, 92]]
"""
ODD |= {
    f"wide, {cluster} and {gap}": WIDE.format(cluster=cluster, gap=gap) for cluster, gap in [(3, 1), (3, 0), (4, 1)]
}


@cache
def planned(file: Path) -> Plan:
    return plan_pattern(read_file(file))


@pytest.fixture(scope="module", params=[*CASES, *GALLERY, *ODD])
def charts(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, charted: Charted) -> Charts:
    known = CASES | GALLERY
    if request.param in known:
        return read_back(known[request.param], charted)
    file = tmp_path_factory.mktemp("odd") / "odd.toml"
    file.write_text(ODD[request.param], "utf-8")
    return read_back(file, charted)


def read_back(file: Path, charted: Charted) -> Charts:
    plan = planned(file)
    return [(plan, piece, Chart(charted(file, piece.name, ".svg"))) for piece in plan.pieces]


class Ruler:
    """Turns px into half pitches and rows, by the posts of row 1 and the tops of the first two rows."""

    def __init__(self, piece: PiecePlan, chart: Chart) -> None:
        first = piece.rows[0]
        heads = [drawn.head[0] for drawn in chart.row(1)]
        self.left = min(heads)
        self.half = (max(heads) - self.left) / (first.right.at - first.left.at)
        (_, self.top), = chart.places_of_uses(chart.group("row-of-stitches-1"))
        (_, second), = chart.places_of_uses(chart.group("row-of-stitches-2"))
        self.rise = self.top - second

    def position(self, x: float) -> float:
        return (x - self.left) / self.half

    def below_top(self, row: Row, y: float) -> float:
        """How far down in ``row`` a height lies: 0 at its top, 1 at the top of the row below."""
        return (y - (self.top - (row.number - 1) * self.rise)) / self.rise


def expected(piece: PiecePlan, row: Row) -> list[tuple[str, float, float]]:
    """What the grid has in ``row``: names, heads and feet."""
    stitches = Grid(piece).row(row)
    opens = row.edge(row.starts).kind == "spaced" and piece.recipe.gap > 0
    names = {
        Symbol.DC: "dc",
        Symbol.CHAIN: "ch",
        Symbol.SLIP_STITCH: "sl",
        Symbol.TURNING_CHAIN: "tch+ch" if opens else "tch",
    }
    return [
        (
            names[Symbol(symbol)],
            gathered(piece, row, head, 0.94 if piece.recipe.gap else 0.90) if symbol == Symbol.DC else head,
            drawn_foot(piece, row, symbol, foot, into),
        )
        for symbol, head, foot, into in zip(
            *(getattr(stitches, name).tolist() for name in ("symbol", "head", "foot", "into")), strict=True
        )
    ]


def drawn_foot(piece: PiecePlan, row: Row, symbol: int, foot: float, into: int) -> float:
    """Where a foot is drawn: with its neighbours on a chain, and on a stitch where the head of that is drawn."""
    if symbol == Symbol.DC and into == Into.FOUNDATION:
        return gathered(piece, row, foot, 0.875 if piece.recipe.unit_width == 5 else 0.84)
    under = piece.below(row)
    if under is not None and into == Into.STITCH and symbol != Symbol.SLIP_STITCH:
        return gathered(piece, under, foot, 0.94 if piece.recipe.gap else 0.90)
    return foot


def gathered(piece: PiecePlan, row: Row, at: float, share: float) -> float:
    """Where a dc of a cluster is drawn: nearer the middle of its cluster, so that fans stay apart."""
    k, apart = piece.recipe.unit_width, 2 / (piece.recipe.unit_width + piece.recipe.gap)
    for centre in lattice.centres(row.left.at, row.right.at, row.number + piece.phase):
        if abs(at - centre) <= (k - 1) / 2 * apart + 0.01:
            return centre + share * (at - centre)
    return at


@pytest.mark.quick(1)
def test_every_row_has_its_stitches_at_their_places(charts: Charts) -> None:
    for _, piece, chart in charts:
        ruler = Ruler(piece, chart)
        assert chart.rows() == len(piece.rows)
        for row in piece.rows:
            drawn = chart.row(row.index + 1)
            wanted = sorted(expected(piece, row))
            found = sorted((one.what, ruler.position(one.head[0]), ruler.position(one.foot[0])) for one in drawn)
            where = f"{piece.name}, row {row.number}"
            assert [one[0] for one in found] == [one[0] for one in wanted], where
            apart = np.abs(np.array([one[1:] for one in found]) - np.array([one[1:] for one in wanted]))
            assert apart.max() < 0.03, where
            for one in drawn:
                check_heights(one, ruler, row, where)


@pytest.mark.parametrize("gap", [0, 1])
def test_wide_rows_are_stated_in_few_words(gap: int, tmp_path: Path, charted: Charted) -> None:
    file = tmp_path / "wide.toml"
    file.write_text(WIDE.format(cluster=3, gap=gap), "utf-8")
    ((_, piece, chart),) = read_back(file, charted)
    for row in piece.rows[1:]:  # each stitch of row 1 stands on a chain of its own
        (use,) = chart.group(f"row-of-stitches-{row.index + 1}").iterfind("{*}use")
        assert len(chart.named[use.get(HREF)[1:]]) < 32
        assert row.clusters > 60


def check_heights(one: Drawn, ruler: Ruler, row: Row, where: str) -> None:
    head, foot = ruler.below_top(row, one.head[1]), ruler.below_top(row, one.foot[1])
    if one.what == "sl":
        assert 0.8 < head < 1, where  # on a strip of cloth above the row below
    elif one.what == "ch":
        # between clusters at the tops; one that carries a step out lies below its own row, as a foundation does
        steps = "step_out" in (row.left.move, row.right.move)
        assert 0 < head < 0.2 or (steps and 1.05 < head < 1.3), where
    else:
        assert -0.01 < head < 0.15, where
        assert 0.88 < foot < 1.1, where


@pytest.mark.quick(2)
def test_the_plan_counts_what_is_drawn(charts: Charts) -> None:
    # counted off the drawing, against figures that are sums and not the grid's
    for _, piece, chart in charts:
        for row in piece.rows:
            kinds = [one.what for one in chart.row(row.index + 1)]
            assert kinds.count("dc") == row.counts.dc
            assert kinds.count("ch") == row.counts.ch
            assert kinds.count("sl") == row.counts.sl_st
            assert sum(kind.startswith("tch") for kind in kinds) == 1


def test_a_cluster_is_complete_stitches_with_one_foot_and_heads_apart(charts: Charts) -> None:
    for _, piece, chart in charts:
        ruler, k = Ruler(piece, chart), piece.recipe.unit_width
        for under, row in pairwise(piece.rows):
            dcs = [one for one in chart.row(row.index + 1) if one.what == "dc"]
            for centre in lattice.centres(row.left.at, row.right.at, row.number + piece.phase):
                if under.left.at < centre < under.right.at:
                    heads = sorted(one.head[0] for one in dcs if abs(ruler.position(one.foot[0]) - centre) < 0.1)
                    assert len(heads) == k
                    assert min(np.diff(heads)) > 0.88 * ruler.half * 2 / (k + piece.recipe.gap)


def test_the_foundation_is_as_many_chains_as_row_1_is_wide(charts: Charts) -> None:
    for _, piece, chart in charts:
        ruler, first = Ruler(piece, chart), piece.rows[0]
        places = sorted(ruler.position(x) for x, _ in chart.places_of_uses(chart.group("foundation")))
        assert len(places) == piece.foundation_chain - turning_chain(piece.recipe, first.edge(first.starts).kind)
        under = np.array(places) - np.sort(Grid(piece).foundation())
        # under its stitch; at a flush edge of the closed fabric, where these crowd, the last two are moved apart
        assert np.abs(under[2:-2]).max(initial=0) < 0.03
        assert np.abs(under).max() < 0.23
        assert np.diff(places).min() > 0.74 * 2 / (piece.recipe.unit_width + piece.recipe.gap)


def test_bands_are_in_a_tint_of_the_yarn_and_follow_the_edge_line(charts: Charts) -> None:
    for plan, piece, chart in charts:
        ruler = Ruler(piece, chart)
        colours = {yarn.name: yarn.colour for yarn in plan.pattern.yarns}
        seen: dict[str | None, set[str]] = {}
        bands = [path for path in chart.group("stripes") if path.get("fill", "none") != "none"]
        first, = strokes(bands[0])
        pad = ruler.left - min(x for x, _ in first)
        for row, band in zip(piece.rows, bands, strict=True):
            yarn = colours[row.colour] if row.colour else style.PLAIN_STRIPE
            seen.setdefault(row.colour, set()).add(band.get("fill"))
            assert style.luminance(band.get("fill")) >= style.luminance(yarn) - 1e-9
            if style.contrast(style.INK_DARK, yarn) >= 6 and band.get("fill") != yarn:
                assert len(plan.pattern.yarns) > 1, "a pale yarn stays whole, unless it runs into another"
            corners, = strokes(band)
            found = {(round(ruler.position(x), 1), round(ruler.below_top(row, y), 2)) for x, y in corners}
            out = pad / ruler.half
            wanted = set()
            for side, sign in (("left", -1), ("right", 1)):
                edge, under = row.edge(side), piece.below(row)
                low = edge.at if under is None or edge.step else under.edge(side).at
                wanted |= {(round(low + sign * out, 1), 1.0), (round(edge.at + sign * out, 1), 0.0)}
            assert {(round(x, 1), y) for x, y in found} == wanted, f"{piece.name}, row {row.number}"
        assert all(len(tints) == 1 for tints in seen.values())


def test_ink_can_be_read_on_its_stripe(charts: Charts) -> None:
    for _, piece, chart in charts:
        bands = [path for path in chart.group("stripes") if path.get("fill", "none") != "none"]
        for row, band in zip(piece.rows, bands, strict=True):
            for one in chart.row(row.index + 1):
                assert one.ink == style.INK_DARK
                assert style.contrast(one.ink, band.get("fill")) >= 4.5
            assert style.contrast(style.LIGHT.shaping, band.get("fill")) >= 3


def test_row_numbers_stand_where_their_rows_start(charts: Charts) -> None:
    for _, piece, chart in charts:
        ruler = Ruler(piece, chart)
        rows = {row.number: row for row in piece.row_levels}
        numbers = chart.words(chart.group("row-numbers"))
        for number in numbers:
            row = rows[int(number.words)]
            edge = row.edge(row.starts).at
            outside = ruler.position(number.at[0]) - edge
            assert (row.starts == "right") == (row.number % 2 == 1)
            assert outside > 0.3 if row.starts == "right" else outside < -0.3
            assert 0.2 < ruler.below_top(row, number.at[1] - 0.35 * number.size) < 0.8
        shown = {int(number.words) for number in numbers}
        assert {1, piece.row_count} <= shown
        assert len(shown) == len(numbers)
        if ruler.rise > 12:
            assert shown == set(rows)


def test_the_chain_of_the_first_stitch_is_marked(charts: Charts) -> None:
    for _, piece, chart in charts:
        ruler, first = Ruler(piece, chart), piece.rows[0]
        (mark,) = (one for one in chart.words(chart.group("below")) if one.words.endswith(" ch"))
        number = int(re.sub("[a-z ]", "", mark.words))
        recipe, start = piece.recipe, first.edge(first.starts).kind
        # by hand, as the words tell it: 5 at a flush start and, for its extra dc, at a spaced one of the closed fabric;
        # else the gap is part of the turning chain and lies over as many chains
        assert number == 5 + (0 if start == "flush" else 2 * recipe.gap)
        (tick,) = (path for path in chart.group("below").iterfind("{*}path"))
        (corners,) = strokes(tick)
        x = sum(place[0] for place in corners[:4]) / 4
        made = Grid(piece).row(first)
        nth = made.target.tolist().index(number)
        assert ruler.position(x) == pytest.approx(float(made.foot[nth]), abs=0.4)


def test_stripes_are_lettered(charts: Charts) -> None:
    for plan, piece, chart in charts:
        letters = {yarn.name: chr(ord("A") + nth) for nth, yarn in enumerate(plan.pattern.yarns)}
        wanted = [letters[name] for name, _ in groupby(row.colour for row in piece.row_levels) if name]
        found = [one.words for one in chart.words(chart.group("stripe-letters"))]
        assert found == wanted or Ruler(piece, chart).rise < 16
        assert {one.words for one in chart.words(chart.group("key"))} >= set(wanted)


def test_the_key_speaks_the_terms_of_the_file(charts: Charts) -> None:
    for plan, piece, chart in charts:
        words = all_words(chart.words(chart.group("key")))
        dc, other = ("double crochet (dc)", "(tr)") if plan.pattern.terms == "US" else ("treble crochet (tr)", "(dc)")
        short = dc[-3:-1]
        assert dc in words
        assert other not in words
        assert f"cluster: {piece.recipe.unit_width} {short} in one space, each complete" in words
        assert f"turning chain: ch 3, counts as a {short}" in words
        assert str(piece.foundation_chain) in words
        for yarn in {row.colour for row in piece.rows} - {None}:
            assert f"{yarn}, " in words


def all_words(found: list[Lettered]) -> str:
    return " ".join(one.words for one in found)


def test_edges_of_a_garment_are_named_as_worn(charted: Charted) -> None:
    for plan, piece, chart in read_back(CASES["heron_top"], charted):
        if piece.has_neck:
            named = chart.words(chart.group("edge-names"))
            assert sorted(one.words for one in named) == ["hem", "neck", "shoulder", "shoulder"]
            assert "side seam, foundation" in all_words(chart.words(chart.group("below")))
            places = {one.words: one.at[0] for one in named}
            assert (places["neck"] < places["hem"]) == (piece.top == "left")
            assert "this way up when worn" in all_words(chart.words(chart.group("this-way-up")))
            assert plan.pattern.by in all_words(chart.words(chart.group("credit")))


def test_ids_are_unique_and_references_lead_somewhere(charts: Charts) -> None:
    for _, _, chart in charts:
        assert len(set(chart.ids)) == len(chart.ids)
        targets = {use.get(HREF) for use in chart.root.iter("{*}use")}
        assert targets <= {f"#{name}" for name in chart.ids}


def test_numbers_and_words_can_be_read(charts: Charts) -> None:
    with resources.as_file(resources.files("turnchain.fonts") / "Lato-Regular.ttf") as font:
        assert TTFont(font)["head"].unitsPerEm == EM
    for _, piece, chart in charts:
        assert not list(chart.root.iter("{*}text")), "all words of these files are in the fonts shipped"
        sizes = {one.words: one.size for one in chart.words(chart.root)}
        px = 10 * int(chart.root.get("width").removesuffix("px")) / 1600
        assert {words: size for words, size in sizes.items() if size < px} == {}, piece.name


def test_title_and_words_tell_the_chart(charts: Charts) -> None:
    for plan, piece, chart in charts:
        title, words = (chart.root.find(f"{{*}}{name}").text for name in ("title", "desc"))
        assert plan.pattern.title in title
        assert piece.name in title
        assert words == chart.file.with_suffix(".txt").read_text("utf-8").strip()
        assert f"{piece.row_count} rows" in words
        assert str(piece.foundation_chain) in words


def test_the_reader_sees_a_stitch_missing_or_moved(charted: Charted) -> None:
    piece = planned(CASES["kite_kerchief"]).pieces[0]
    row = piece.rows[4]
    for spoil in ("remove", "move"):
        chart = Chart(charted(CASES["kite_kerchief"], piece.name, ".svg"))
        use, = chart.group("row-of-stitches-5").iterfind("{*}use")
        whole = chart.named[use.get(HREF)[1:]]
        one = whole[len(whole) // 2]
        if spoil == "remove":
            whole.remove(one)
        else:
            one.set("x", str(float(one.get("x")) + 3))
        ruler = Ruler(piece, chart)
        found = sorted((each.what, round(ruler.position(each.head[0]), 1)) for each in chart.row(5))
        assert found != sorted((what, round(head, 1)) for what, head, _ in expected(piece, row))


YARNS = """
title = "Many yarns"
[swatch]
clusters = 8
width = 16
rows = 10
height = 20
[[piece]]
name = "sampler"
width = 60
length = 160
[stripes]
order = [{order}]
rows = 1
"""


@pytest.mark.parametrize("count", [10, 11, 50])
def test_many_yarns_are_set_in_columns_that_keep_apart(count: int, tmp_path: Path, charted: Charted) -> None:
    names = [f"Yarn number {nth} of all" for nth in range(1, count + 1)]
    order = ", ".join(f'"{name}"' for name in names)
    blocks = "".join(
        f'[[yarn]]\nname = "{name}"\ncolour = "#{40 + 4 * nth:02x}8050"\n' for nth, name in enumerate(names)
    )
    file = tmp_path / "yarns.toml"
    file.write_text(YARNS.format(order=order) + blocks, "utf-8")
    ((_, _, chart),) = read_back(file, charted)
    words = chart.words(chart.group("key"))
    places = {one.words.split(",")[0]: one.at for one in words if one.words.startswith("Yarn number")}
    assert list(places) == names
    assert len(set(places.values())) == count
    columns = {x for x, _ in places.values()}
    assert len(columns) > 1
    # the names are told apart: from a name to the next one at its right is more than its length
    longest = max(len(one.words) * 0.55 * one.size for one in words if one.words.startswith("Yarn number"))
    assert min([b - a for a, b in pairwise(sorted(columns))], default=longest) >= longest
    highest, lowest = (end(y for _, y in places.values()) for end in (min, max))
    assert lowest - highest < 20 * 50 * int(chart.root.get("width").removesuffix("px")) / 1600


@pytest.mark.quick(7)
@pytest.mark.parametrize("name", ODD)
def test_stitches_on_a_step_out_stand_on_the_chains_that_the_words_count(name: str, tmp_path: Path) -> None:
    file = tmp_path / "odd.toml"
    file.write_text(ODD[name], "utf-8")
    seen = 0
    for piece in planned(file).pieces:
        for row in piece.rows:
            made = row_arrays(Grid(piece).row(row))
            own = made.into == Into.OWN_CHAIN
            if not own.any():
                continue
            chains = made.head[: int((made.symbol == Symbol.TURNING_CHAIN).argmax())][::-1]
            # counted as on a foundation: the turning chain first, then the chain under the edge stitch
            first = turning_chain(piece.recipe, row.edge(row.starts).kind) + 1
            for foot, number in zip(made.foot[own], made.target[own], strict=True):
                assert foot == pytest.approx(chains[number - first], abs=0.01), f"row {row.number}"
                seen += 1
    assert seen or "jumps" not in file.read_text("utf-8")


# ------------------------------------------------------------------------------------- rows too low for a number each


@pytest.mark.parametrize("every", [5, 10, 20, 50])
@pytest.mark.parametrize("rows", [4, 9, 44, 60, 101, 333])
def test_numbers_of_rows_stand_apart_and_none_is_missing(rows: int, every: int) -> None:
    """The first, the last, and multiples that leave room to both; counted out, and no two nearer than that."""
    model = planned(CASES["heron_top"]).pieces[0].rows[0]
    shown = [row for row in range(1, rows + 1) if shows_number(replace(model, number=row), every, rows)]
    assert shown[0] == 1
    assert shown[-1] == rows
    inner = shown[1:-1]
    assert all(row % every == 0 for row in inner)
    assert all(every <= other - one < 2 * every for one, other in pairwise([*inner, rows]) if inner)
    assert inner == [] or every < inner[0] <= 2 * every
    assert inner or rows < 3 * every
    assert [row for row in range(1, rows + 1) if shows_number(replace(model, number=row), 1, rows)] == [
        *range(1, rows + 1)
    ]


@given(st.floats(0.1, 40), st.floats(4, 30))
def test_numbers_of_rows_are_never_nearer_than_they_are_high(pitch: float, size: float) -> None:
    every = thinned(pitch, size)
    assert every * pitch >= 0.95 * size or every == MOST_ROWS
    fewer = [step for step in (1, 5, 10, 20, 50, 100, 500, 1000) if step < every]
    assert all(step * pitch < size for step in fewer)


@pytest.mark.parametrize(
    ("pitch", "every"),
    [(12, 1), (9.8, 1), (9.7, 5), (1.96, 5), (1.95, 10), (0.97, 20), (0.2, 50), (0.1, 100), (0.02, 500), (0.0197, 500),
     (0.0195, 1000), (0.0099, 1000)],
)  # fmt: skip
def test_so_many_rows_are_numbered_as_have_room_for_figures(pitch: float, every: int) -> None:
    """Figures of 10 px, which may come as near as 0.98 of that: the least of 1, 5, 10, 20, 50 and on that is far
    enough."""
    assert thinned(pitch, 10) == every
