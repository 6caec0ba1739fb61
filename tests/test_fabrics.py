"""Every fabric of clusters: planned, written, drawn, and proved by working it from words and charts.

The proof knows stitches and no recipes (``proof/hook``), so what it works is worked from what was published. The words
of one straight repeat are by hand, from the way such fabrics are written; common practice, no source.
"""

from __future__ import annotations

import re
import tomllib
from base64 import b64decode
from fractions import Fraction
from itertools import product
from pathlib import Path

import jsonschema
import pytest
from lxml import etree, html

from turnchain.cli import cli
from turnchain.drawing.chart import chart
from turnchain.drawing.key import first_chain as first_of_chart
from turnchain.drawing.preview import preview
from turnchain.errors import PatternError
from turnchain.fabric.grid import Grid, Symbol
from turnchain.fabric.library import clusters_of, names, recipe_of
from turnchain.fabric.plan import Plan
from turnchain.fabric.stitches import first_chain
from turnchain.pages.fabrics import fabrics_text
from turnchain.pages.report import report
from turnchain.pattern import Fabric, Neck, Pattern, Piece, StitchName, Stripes, Swatch, Yarn
from turnchain.plan_json import plan_data, schema
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_file, read_text
from turnchain.records import replace
from turnchain.wording import alt_texts, words

STITCHES: tuple[StitchName, ...] = ("sc", "hdc", "dc", "tr")
FABRICS = [Fabric(k, gap, stitch) for stitch, k, gap in product(STITCHES, range(1, 6), range(4)) if k > 1 or gap]
SOME = [Fabric(1, 1, "sc"), Fabric(1, 1, "dc"), Fabric(3, 0, "sc"), Fabric(2, 2, "hdc"), Fabric(4, 3, "tr")]


def plan_of(fabric: Fabric, piece: Piece) -> Plan:
    """``piece`` at the usual proportion of ``fabric``, its rows 1 cm high."""
    pitch = recipe_of(fabric).usual_pitch()
    swatch = Swatch(Fraction(10), 10 * pitch, Fraction(10), Fraction(10))
    yarns = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"))
    return plan_pattern(Pattern("Fabrics", (swatch,), (piece,), fabric, yarns, Stripes(("Reed", "Silt"), (2, 1))))


def pieces(pitch: Fraction) -> list[Piece]:
    """A triangle, an outline with steps in and out, a neck that divides, a neck cut into an edge."""
    steps = ((0, 9), (4, 9), (4, 5), (8, 4), (12, 6), (12, 9), (16, 9))
    outline = tuple((Fraction(height), pitch * wide) for height, wide in steps)
    return [
        Piece("Triangle", outline=((Fraction(0), pitch * 2), (Fraction(10), pitch * 7))),
        Piece("Steps", outline=outline, align="left"),
        Piece("Divided", width=pitch * 12, length=Fraction(14), neck=Neck(pitch * 4, Fraction(6))),
        Piece("Cut", "sideways", width=Fraction(30), length=pitch * 8, neck=Neck(Fraction(9), pitch * 5 / 2, "square")),
    ]


@pytest.mark.quick(1)
@pytest.mark.parametrize("fabric", SOME, ids=str)
def test_a_fabric_is_proved_in_every_shape(fabric: Fabric) -> None:
    for piece in pieces(recipe_of(fabric).usual_pitch()):
        proof = prove(plan_of(fabric, piece), measured=True)
        assert proof.holds, (piece.name, proof.reasons[:2])


@pytest.mark.slow
@pytest.mark.parametrize("fabric", FABRICS, ids=str)
def test_all_fabrics_are_proved_in_every_shape(fabric: Fabric) -> None:
    for piece in pieces(recipe_of(fabric).usual_pitch()):
        proof = prove(plan_of(fabric, piece), measured=True)
        assert proof.holds, (piece.name, proof.reasons[:2])


def is_proved_from_a_file(fabric: str, shape: str, folder: Path) -> None:
    """A pattern file of this [fabric] through plan, chart, words in every language and proof; the chart marks the chain
    that the words begin in."""
    head = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 12\nheight = 10\n[fabric]\n'
    (folder / "pattern.toml").write_text(f'{head}{fabric}\n[[piece]]\nname = "P"\n{shape}\n', "utf-8")
    plan = plan_pattern(read_file(folder / "pattern.toml"))
    begins = re.search(r"in (\d+)\w\w ch from hook", words.pattern_text(plan, "US"))
    assert begins is not None
    assert int(begins[1]) == first_of_chart(plan.pieces[0])
    assert len(chart(plan, "P").items) > 4
    proof = prove(plan)
    assert proof.holds, proof.reasons[:2]
    assert {one.path for one in proof.worked} > {"the words in German", "the words in French", "the charts"}


SMALL = "outline = [[0, 12], [4, 12], [6, 8]]"


@pytest.mark.parametrize(
    ("fabric", "start"),
    [
        pytest.param(fabric, start, marks=[] if (fabric.cluster + 2 * fabric.gap + nth) % 19 == 0 else pytest.mark.slow)
        for nth, (fabric, start) in enumerate(product(FABRICS, ("flush", "spaced")))
    ],
    ids=str,
)
def test_every_fabric_of_clusters_is_proved_from_its_file(fabric: Fabric, start: str, tmp_path: Path) -> None:
    made = f'stitch = "{fabric.stitch}"\ncluster = {fabric.cluster}\ngap = {fabric.gap}\nstart = "{start}"'
    is_proved_from_a_file(made, SMALL, tmp_path)


@pytest.mark.parametrize(
    ("wide", "gap", "stitch"),
    [
        pytest.param(wide, gap, STITCHES[wide % 4], marks=[] if (wide + gap) % 6 == 0 else pytest.mark.slow)
        for wide, gap in product(range(6, 10), range(4))
    ],
)
def test_wide_clusters_of_ones_own_are_proved(wide: int, gap: int, stitch: str, tmp_path: Path) -> None:
    """Up to the nine stitches that a unit may have: leans that differ by less than their names say, chains shorter than
    high, edges as narrow as stitches."""
    edge = " ".join(["ch"] * gap) or stitch
    unit = " ".join([stitch] * wide)
    own = f'edges = "staggered"\nunit = "{unit}"\ngap = {gap}\nedge = "{edge}"\n'
    (tmp_path / "mine.toml").write_text(own, "utf-8")
    for outline in ("[[0, 8], [2, 13], [4, 6]]", "[[0, 9], [2, 9], [2, 13], [4, 13], [4, 7], [5, 7]]"):
        is_proved_from_a_file('kind = "mine.toml"', f'outline = {outline}\nalign = "left"', tmp_path)


def spaced_row(fabric: Fabric, half_pitches: int, language: str = "US") -> str:
    """The steps of a row of a straight piece that is spaced at both ends."""
    pitch = recipe_of(fabric).usual_pitch()
    plan = plan_of(fabric, Piece("Panel", width=pitch * half_pitches / 2, length=Fraction(4), row_plan="alternate"))
    (piece,) = plan.pieces
    row = next(row for row in piece.rows[1:] if row.left.kind == row.right.kind == "spaced")
    plain = replace(piece, rows=tuple(replace(one, colour=None) for one in piece.rows))
    said = words.row_words(plain, plain.rows[row.index], language)
    return re.split(r"\. \d+ ", re.split(" ?: ", said, maxsplit=1)[1])[0]


@pytest.mark.parametrize(
    ("fabric", "language", "said"),
    [
        # moss over a row that is flush at both ends: all its sc between the edge stitches in spaces
        (Fabric(1, 1, "sc"), "US", "Ch 1, turn, sc in edge st, ch 1, skip first sc, sc in next sp, "
         "[ch 1, sc in next sp] 2 times, ch 1, skip last sc, sc in edge st"),
        (Fabric(1, 1, "sc"), "UK", "Ch 1, turn, dc in edge st, ch 1, miss first dc, dc in next sp, "
         "[ch 1, dc in next sp] 2 times, ch 1, miss last dc, dc in edge st"),
        (Fabric(1, 1, "sc"), "de", "1 Lm, wenden, 1 fM in die Randmasche, 1 Lm, 1. fM übergehen, 1 fM in den nächsten "
         "Zwr, [1 Lm, 1 fM in den nächsten Zwr] 2-mal, 1 Lm, letzte fM übergehen, 1 fM in die Randmasche"),
        (Fabric(1, 1, "sc"), "fr", "1 ml, tourner, 1 ms dans la maille de bord, 1 ml, sauter la première ms, "
         "1 ms dans l'esp suivant, [1 ml, 1 ms dans l'esp suivant] 2 fois, 1 ml, sauter la dernière ms, "
         "1 ms dans la maille de bord"),
        (Fabric(1, 1, "dc"), "US", "Ch 4, turn, skip first dc, dc in next sp, [ch 1, dc in next sp] 2 times, ch 1, "
         "skip last dc, dc in 3rd ch of tch"),
        (Fabric(3, 2, "tr"), "US", "Ch 6, turn, skip first cl, cl in next sp, [ch 2, cl in next sp] 2 times, ch 2, "
         "skip last cl, tr in 4th ch of tch"),
        (Fabric(3, 0, "hdc"), "US", "Ch 2, turn, 2 hdc in edge st, skip first cl, cl in each of next 3 sp, "
         "skip last cl, 2 hdc in edge st"),
    ],
)  # fmt: skip
def test_a_row_is_written_as_such_fabrics_are(fabric: Fabric, language: str, said: str) -> None:
    assert spaced_row(fabric, 8, language) == said


def test_a_row_is_drawn_in_its_stitch() -> None:
    symbols = {"sc": Symbol.SC, "hdc": Symbol.HDC, "dc": Symbol.DC, "tr": Symbol.TR}
    for stitch in STITCHES:
        (piece,) = plan_of(Fabric(3, 1, stitch), Piece("Panel", width=Fraction(20), length=Fraction(3))).pieces
        made = Grid(piece).row(piece.rows[1])
        assert set(made.symbol) == {symbols[stitch], Symbol.CHAIN, Symbol.TURNING_CHAIN}


def test_moss_counts() -> None:
    # by hand: 41 stitches are 19 sc in spaces with 20 chains, and 2 edge stitches; then 20 sc and 19 chains
    recipe = recipe_of(clusters_of("moss") or Fabric())
    plan = plan_of(Fabric(1, 1, "sc"), Piece("Moss", width=recipe.usual_pitch() * 20, length=Fraction(4),
                                             row_plan="alternate"))  # fmt: skip
    rows = sorted({(row.clusters, row.counts.dc, row.counts.ch, row.counts.tch) for row in plan.pieces[0].rows})
    assert rows == [(19, 21, 20, 0), (20, 22, 19, 0)]
    assert plan.pieces[0].foundation_chain == 42


@pytest.mark.quick(7)
@pytest.mark.parametrize("name", names())
def test_a_fabric_is_asked_for_by_its_name(name: str) -> None:
    file = f'title = "T"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[fabric]\nkind = "{name}"\n'
    piece = '[[piece]]\nname = "P"\noutline = [[0, 20], [8, 20]]\n'
    plan = plan_pattern(read_text(file + piece, "t.toml"))
    assert plan.recipe.unit
    assert prove(plan).holds


def test_published_chains_of_a_wide_v() -> None:
    # source: Wide V-Stitch blanket (Yarnspirations BRC0502-029618M, 2020): 173 chains, 42 V
    (piece,) = plan_of(Fabric(kind="wide-v"), Piece("Wide", width=Fraction(42) * recipe_of(
        Fabric(kind="wide-v")).usual_pitch(), length=Fraction(3))).pieces  # fmt: skip
    assert (piece.foundation_chain, piece.rows[0].clusters) == (173, 42)


@pytest.mark.parametrize(
    ("kind", "units", "chains", "first"),
    [
        # by hand, a chain of its own under every edge stitch: 20 V are 2 + 60 and 3 to turn, the first in the 6th
        ("v", 20, 65, 6),
        # 20 squares are 19 dc between edge stitches: 2 + 19 + 20 and 4, of these the 4th beside
        ("mesh", 19, 45, 7),
        ("solid-sc", 28, 31, 3),  # 30 stitches and 1 to turn
        ("solid-hdc", 28, 32, 4),
        ("solid-dc", 28, 33, 5),
    ],
)
def test_chains_of_stacked_fabrics(kind: str, units: int, chains: int, first: int) -> None:
    recipe = recipe_of(Fabric(kind=kind))
    plan = plan_of(Fabric(kind=kind), Piece("P", width=20 * recipe.usual_pitch(), length=Fraction(4),
                                            exact_clusters=units))  # fmt: skip
    (piece,) = plan.pieces
    assert (piece.rows[0].clusters, piece.foundation_chain) == (units, chains)
    assert first_chain(recipe, piece.rows[0].right.kind) == first
    assert len({(row.left, row.right, row.clusters) for row in piece.rows}) == 1


@pytest.mark.parametrize(
    ("kind", "language", "said"),
    [
        ("v", "US", "Ch 3, turn, V in each of next 8 V, dc in 3rd ch of tch"),
        ("v", "de", "3 Lm, wenden, je 1 VM in die nächsten 8 VM, 1 Stb in die 3. Lm der WLm"),
        ("shell", "fr", "3 ml, tourner, 1 coq dans chacune des 8 coq suivantes, 1 b dans la 3e ml des mlt"),
        ("mesh", "US", "Ch 4, turn, dc in next dc, [ch 1, dc in next dc] 7 times, ch 1, dc in 3rd ch of tch"),
        ("solid-sc", "UK", "Ch 1, turn, dc in edge st, dc in each of next 8 dc, dc in edge st"),
        ("solid-dc", "US", "Ch 3, turn, dc in each of next 8 dc, dc in 3rd ch of tch"),
    ],
)
def test_a_row_of_a_stacked_fabric(kind: str, language: str, said: str) -> None:
    pitch = recipe_of(Fabric(kind=kind)).usual_pitch()
    (piece,) = plan_of(Fabric(kind=kind), Piece("P", width=8 * pitch, length=Fraction(3), exact_clusters=8)).pieces
    plain = replace(piece, rows=tuple(replace(one, colour=None) for one in piece.rows))
    told = words.row_words(plain, plain.rows[1], language)
    assert re.split(r"\. \d+ ", re.split(" ?: ", told, maxsplit=1)[1])[0] == said


STACKED = [name for name in names() if recipe_of(Fabric(kind=name)).stacked]


@pytest.mark.quick(0)
def test_stacked_fabrics_are_proved_in_every_shape() -> None:
    for kind in ("mesh", "solid-sc", "v", "shell"):
        for piece in pieces(recipe_of(Fabric(kind=kind)).usual_pitch()):
            proof = prove(plan_of(Fabric(kind=kind), piece), measured=True)
            assert proof.holds, (kind, piece.name, proof.reasons[:2])


@pytest.mark.slow
@pytest.mark.parametrize("kind", STACKED)
def test_all_stacked_fabrics_are_proved_in_every_shape(kind: str) -> None:
    for piece in pieces(recipe_of(Fabric(kind=kind)).usual_pitch()):
        proof = prove(plan_of(Fabric(kind=kind), piece), measured=True)
        assert proof.holds, (piece.name, proof.reasons[:2])


def shaped_rows(kind: str, halves: tuple[int, int], rows: int) -> list[str]:
    """The steps of the rows of an outline as wide as so many half repeats below and above."""
    half = recipe_of(Fabric(kind=kind)).usual_pitch() / 2
    points = ((Fraction(0), half * halves[0]), (Fraction(rows), half * halves[1]))
    (piece,) = plan_of(Fabric(kind=kind), Piece("P", outline=points)).pieces
    plain = replace(piece, rows=tuple(replace(one, colour=None) for one in piece.rows))
    return [words.row_said(plain, row, "US").steps for row in plain.rows[1:]]


@pytest.mark.parametrize(
    ("kind", "halves", "said"),
    [
        # by hand, half a V a row: a V in half a V below makes that whole, half a one in the edge stitch comes after it
        ("v", (4, 16), [
            r"Ch 3, turn, V between edge st and dc beside it, V in (next|each of next \d) V, V between edge st and dc "
            r"beside it, dc in 3rd ch of tch\.",
            r"Ch 3, turn, dc in base of tch, V in each of next \d V, 2 dc in 3rd ch of tch\.",
        ]),
        ("v", (16, 4), [
            r"Turn, skip edge st, sl st in each of next 2 st, ch 3, dc in base of tch, V in (next|each of next \d) V, "
            r"2 dc in last V, leave tch unworked\.",
            r"Ch 3, turn, V in (next|each of next \d) V, dc in dc beside edge st, leave tch unworked\.",
        ]),
        # by hand: two stitches together at an edge make one less, two in one place one more
        ("solid-sc", (24, 4), [
            r"Ch 1, turn, sc2tog in edge st and in next sc, sc in each of next \d sc, "
            r"sc2tog in next sc and in edge st\.",
        ]),
        ("solid-sc", (8, 28), [r"Ch 1, turn, 2 sc in edge st, sc in each of next \d+ sc, 2 sc in edge st\."]),
        ("solid-dc", (24, 4), [
            r"Ch 2, turn, dc in next dc \(with the ch 2: 1 tch\), dc in each of next \d dc, "
            r"dc2tog in next dc and in 3rd ch of tch\.",
        ]),
        ("mesh", (8, 28), [
            r"Ch 4, turn, dc in base of tch, \[ch 1, dc in next dc\] \d+ times, ch 1, dc in 3rd ch of tch, ch 1, "
            r"dc in same place\.",
        ]),
    ],
)  # fmt: skip
def test_a_shaped_row_of_a_stacked_fabric(kind: str, halves: tuple[int, int], said: list[str]) -> None:
    rows = shaped_rows(kind, halves, 10)
    for row in said:
        assert any(re.fullmatch(row, one) for one in rows), rows


def test_a_repeat_less_is_told_of_edges_that_go_by_whole_ones() -> None:
    half = recipe_of(Fabric(kind="solid-sc")).usual_pitch() / 2
    outline = ((Fraction(0), half * 24), (Fraction(8), half * 8))
    plan = plan_of(Fabric(kind="solid-sc"), Piece("P", outline=outline))
    said = alt_texts.of_chart(plan, plan.pieces[0])
    assert "a repeat less" in said
    assert "half a" not in said


def test_a_kind_that_is_none_is_told_of_files() -> None:
    with pytest.raises(PatternError, match='or a file of your own beside the pattern, such as') as refused:
        read_text(OWN.replace("mine.toml", "mosss"), "t.toml")
    assert 'did you mean "moss"?' in str(refused.value)


def test_a_fabric_with_its_own_unit_takes_no_clusters() -> None:
    file = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[fabric]\nkind = "v"\ngap = 1\n'
    with pytest.raises(PatternError, match='fabric, gap: `gap`; a fabric of kind "v" has its own'):
        read_text(f'{file}[[piece]]\nname = "P"\noutline = [[0, 20], [8, 20]]\n', "t.toml")


def test_what_a_file_changes_of_a_kind() -> None:
    file = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[fabric]\n'
    piece = '[[piece]]\nname = "P"\noutline = [[0, 20], [8, 20]]\n'
    made = read_text(f'{file}kind = "moss"\nstitch = "hdc"\n{piece}', "t.toml")
    assert made.fabric == Fabric(1, 1, "hdc")
    assert read_text(f'{file}kind = "closed"\ncluster = 4\n{piece}', "t.toml").fabric == Fabric(4, 0)
    with pytest.raises(PatternError, match="one stitch is worked into the gap"):
        read_text(f'{file}kind = "moss"\ngap = 0\n{piece}', "t.toml")


def test_the_plan_of_every_fabric_is_by_the_schema() -> None:
    made = [Fabric(kind=name) for name in names() if clusters_of(name) is None]
    for fabric in [*SOME, *made]:
        pitch = recipe_of(fabric).usual_pitch()
        data = plan_data(plan_of(fabric, Piece("Panel", width=8 * pitch, length=Fraction(4))))
        jsonschema.validate(data, schema())
        stitch = data["fabric"]["stitch"]
        counted = data["pieces"][0]["rows"][1]["stitches"]
        assert set(counted) == {stitch, "ch", "sl_st", "tch"}
        apart = stitch in ("sc", "hdc") and fabric.kind != "moss-plain"  # common practice
        assert counted["tch"] == (0 if apart else 1)


def test_what_is_counted_is_called_as_the_fabric_has_it() -> None:
    """A moss stitch has no clusters."""
    file = 'title = "T"\n[swatch]\n{}\nrows = 10\nheight = 10\n[fabric]\nkind = "{}"\n[[piece]]\nname = "P"\n{}\n'
    size, small = "width = 20\nlength = 10", "width = 0.2\nlength = 10"
    for kind, noun in (("moss", "repeats"), ("v", "repeats"), ("closed", "clusters")):
        told = (
            ("width = 20", size, f"the {noun} counted in it are needed"),
            ("clusters = 10\nwidth = 20", small, f"0.2 cm is 0 {noun} at the swatch's gauge; must be 1 to 2000 {noun}"),
        )
        for swatch, piece, said in told:
            with pytest.raises(PatternError) as refused:
                read_text(file.format(swatch, kind, piece), "t.toml")
            assert said in str(refused.value)


MINE = 'edges = "stacked"\nunit = "tr ch ch ch tr"\ngap = 0\nedge = "tr"\nown = true\n'
OWN = (
    'title = "T"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[fabric]\nkind = "mine.toml"\n'
    '[[piece]]\nname = "P"\noutline = [[0, 20], [8, 20]]\n'
)


def test_the_example_of_the_guide_is_the_one_that_is_proved() -> None:
    guide = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
    shown = guide.split('`kind = "mine.toml"`')[1].split("```toml\n")[1].split("```")[0]
    assert tomllib.loads(shown) == tomllib.loads(MINE)


def test_a_fabric_of_ones_own_is_one_data_file(tmp_path: Path) -> None:
    """Planned, written in every language, drawn and proved, with no line of code for it."""
    (tmp_path / "mine.toml").write_text(MINE, "utf-8")
    (tmp_path / "pattern.toml").write_text(OWN, "utf-8")
    plan = plan_pattern(read_file(tmp_path / "pattern.toml"))
    proof = prove(plan)
    assert proof.holds, proof.reasons
    assert {one.path for one in proof.worked} > {"the words in German", "the words in French", "the charts"}
    assert "(1 tr, ch 3, 1 tr) in the place named" in words.pattern_text(plan, "US")
    # by hand: a unit is 5 stitches wide, the first in the 4 + 1 + 3rd chain
    assert plan.pieces[0].foundation_chain == 4 + 2 + 5 * plan.pieces[0].rows[0].clusters
    assert "V in 8th ch from hook" in words.pattern_text(plan, "US")
    assert preview(plan).items


SHAPED = """taper = { width = 28, end = 14 }
neck = { shoulder = 8, depth = 8, shape = "vee" }
"""


@pytest.mark.quick(1)
@pytest.mark.parametrize(
    "mine",
    [
        MINE,  # slip stitches lead to the second of three chains in a V
        'edges = "staggered"\nunit = "hdc hdc"\ngap = 2\nedge = "ch ch"\n',
        'edges = "stacked"\nunit = "dc dc ch ch ch ch dc dc"\ngap = 0\nedge = "dc"\n',
        'edges = "stacked"\nunit = "sc sc sc"\ngap = 0\nedge = "sc"\n',
        'edges = "whole"\nunit = "tr"\ngap = 3\nedge = "ch ch ch"\n',
    ],
    ids=["V of tr", "pairs of hdc", "wide V", "three sc", "mesh of tr"],
)
def test_a_fabric_of_ones_own_is_shaped(mine: str, tmp_path: Path) -> None:
    """A taper and a neck that divides: planned, drawn as chart and as cloth, told in every language, and proved."""
    (tmp_path / "mine.toml").write_text(mine, "utf-8")
    head, _, _ = OWN.partition("[[piece]]")
    text = f'{head}[[piece]]\nname = "front"\nwidth = 36\nlength = 30\n{SHAPED}'
    (tmp_path / "pattern.toml").write_text(text, "utf-8")
    plan = plan_pattern(read_file(tmp_path / "pattern.toml"))
    (piece,) = plan.pieces
    assert {edge.move for row in piece.rows for edge in (row.left, row.right)} >= {"straight", "decrease"}
    assert len(piece.sections) == 3
    proof = prove(plan)
    assert proof.holds, proof.reasons
    assert {one.path for one in proof.worked} > {"the words in German", "the words in French", "the charts"}
    assert preview(plan).items


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"tr ch ch ch tr"', '"tr ch tr tr"', "mine.toml, unit: tr ch tr tr; chains inside a unit lie in its middle"),
        ('"tr ch ch ch tr"', '"tr tr"', "mine.toml, unit: tr tr; needs a middle"),
        ('"tr ch ch ch tr"', '"tr"', "mine.toml, edges: stacked; whole is for single stitches"),
        ("gap = 0", "gap = 1", "mine.toml, gap: 1; units of several stitches worked into one another"),
        ('edge = "tr"', 'edge = "ch"', "mine.toml, edge: \"ch\"; must be of tr"),
        ('"stacked"', '"diagonal"', 'mine.toml, edges: "diagonal"; edge tables are bare, stacked, staggered, whole'),
        ('"stacked"', '["stacked"]', 'edges: a list; must be one of "bare", "stacked", "staggered", "whole"'),
        ('"stacked"', "3", "mine.toml, edges: 3; must be one of"),
        ("gap = 0", "gap = true", "mine.toml, gap: true; must be a whole number from 0 to 3"),
        ("gap = 0", "gap = 1.0", "mine.toml, gap: 1.0; must be a whole number from 0 to 3"),
        ('"tr ch ch ch tr"', '["tr", "ch"]', "mine.toml, unit: a list; stitches are, in US terms, sc, "),
        (MINE, "", "mine.toml, edge: is missing; a fabric needs edges, unit, gap and edge"),
        (MINE, "# later", "mine.toml, edge: is missing; a fabric needs edges, unit, gap and edge"),
        ("gap = 0", "gap = ", "mine.toml"),
    ],
)
def test_a_fabric_of_ones_own_that_cannot_be_worked_is_refused(tmp_path: Path, old: str, new: str, said: str) -> None:
    (tmp_path / "mine.toml").write_text(MINE.replace(old, new), "utf-8")
    (tmp_path / "pattern.toml").write_text(OWN, "utf-8")
    with pytest.raises(PatternError) as refused:
        read_file(tmp_path / "pattern.toml")
    assert "fabric, kind: " in str(refused.value)
    assert said in str(refused.value)


def test_a_fabric_of_ones_own_that_is_missing_is_no_pattern(tmp_path: Path) -> None:
    (tmp_path / "mine2.toml").write_text(OWN, "utf-8")
    with pytest.raises(PatternError) as refused:
        read_file(tmp_path / "mine2.toml")
    assert 'fabric, kind: "mine.toml"; there is no such file beside the pattern file' in str(refused.value)
    assert "mine2.toml\"?" not in str(refused.value)


def test_rows_of_a_stacked_fabric_are_never_alternate() -> None:
    pitch = recipe_of(Fabric(kind="v")).usual_pitch()
    with pytest.raises(PatternError, match='row_plan of piece "P": "alternate"; in this fabric all rows are alike'):
        plan_of(Fabric(kind="v"), Piece("P", width=8 * pitch, length=Fraction(4), row_plan="alternate"))
    for row_plan in ("alike", "auto"):
        piece = Piece("P", width=8 * pitch, length=Fraction(4), row_plan=row_plan)  # type: ignore[arg-type]
        assert plan_of(Fabric(kind="v"), piece).pieces[0].row_plan == "alike"


def test_a_gauge_that_is_not_usual_is_told_in_two_decimals() -> None:
    # by hand: of 58/100 rows to a stitch, half as much to the chain, 8 to 12 tenths: 1.16 to 1.74
    swatch = Swatch(Fraction(10), Fraction(10), Fraction(20), Fraction(40))
    (said,) = plan_pattern(Pattern("V", (swatch,), (Piece("P", width=Fraction(20), length=Fraction(9)),),
                                   Fabric(kind="v"))).warnings  # fmt: skip
    assert "a repeat is 0.50 rows wide in this swatch; 1.16 to 1.74 is usual for this fabric." in said
    assert "repeats about" in said
    assert "cluster" not in said


def test_a_fabric_of_ones_own_lies_beside_the_pattern(tmp_path: Path) -> None:
    with pytest.raises(PatternError, match="a fabric of your own is a file beside the pattern file"):
        read_text(OWN, "t.toml")
    (tmp_path / "pattern.toml").write_text(OWN.replace("mine", "../mine"), "utf-8")
    with pytest.raises(PatternError, match="write its name alone"):
        read_file(tmp_path / "pattern.toml")


def test_all_fabrics_are_listed() -> None:
    text = fabrics_text()
    head, *told = text.rstrip("\n").split("\n\n")
    assert [part.splitlines()[0] for part in told] == list(names())
    for word in set(re.findall(r"\b(?:sc|hdc|dc|tr|ch|tch|sp|cl|st|V|sh)\b", "".join(told))):
        assert re.search(rf"\b{word} [a-zV]", head), word
    assert "a multiple of 1 " not in text
    assert not re.search(r"\ba (?:hdc|sc)\b", text)
    assert "chain a multiple of 3 plus 5; a repeat is about 1.45 rows wide" in text  # V, by hand
    assert "Ch 3, turn, V in each of next 6 V, dc in 3rd ch of tch." in text


def test_the_page_of_fabrics_has_all_of_them_with_their_pictures(tmp_path: Path) -> None:
    """Every picture is SVG that can be read, and has something drawn in it; the words are those of the list."""
    file = tmp_path / "fabrics.html"
    cli.main(["fabrics", "-o", str(file)], standalone_mode=False)
    page = html.fromstring(file.read_text("utf-8"))
    articles = page.findall(".//article")
    assert sorted(one.get("id") for one in articles) == list(names())
    text = " ".join(fabrics_text().split())
    pictures = set()
    for one in articles:
        head, data = one.find("img").get("src").split(",", 1)
        assert head == "data:image/svg+xml;base64"
        picture = etree.fromstring(b64decode(data))
        assert len(picture.findall(".//{*}use")) > 10
        pictures.add(data)
        assert one.find("img").get("alt") == f"3 rows of {one.get('id')} in symbols"
        for said in (*one.findall(".//p"), *one.findall(".//dd")):
            assert " ".join(said.text_content().split()) in text
    assert len(pictures) == len(names())
    assert not re.search("https?:", re.sub('src="data[^"]+"', "", file.read_text("utf-8")))


@pytest.mark.parametrize("language", ["US", "UK", "de", "fr"])
def test_a_multiple_of_one_is_not_told(language: str) -> None:
    recipe = recipe_of(Fabric(kind="solid-sc"))
    plan = plan_of(Fabric(kind="solid-sc"), Piece("P", width=20 * recipe.usual_pitch(), length=Fraction(4)))
    text = words.pattern_text(plan, language)
    assert not re.search("multiple|Vielfaches", text)
    assert prove(plan).holds
    plan = plan_of(Fabric(kind="mesh"), Piece("P", width=20 * recipe.usual_pitch(), length=Fraction(4)))
    assert re.search("multiple|Vielfaches", words.pattern_text(plan, language))


def test_what_is_no_cluster_is_counted_in_repeats() -> None:
    plan = plan_of(SOME[0], pieces(recipe_of(SOME[0]).usual_pitch())[0])
    said = alt_texts.of_chart(plan, plan.pieces[0])
    assert "half a repeat more" in said
    assert "cluster" not in said
    assert "repeats" in report(plan)
    assert "cluster" not in report(plan)
    clusters = plan_of(SOME[2], pieces(recipe_of(SOME[2]).usual_pitch())[0])
    assert "half a cluster more" in alt_texts.of_chart(clusters, clusters.pieces[0])
