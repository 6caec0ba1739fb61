"""Joining as you go: pieces begun on the foundation of others, and sleeves begun along armholes.

At 11 clusters to 26 cm and 18 rows to 21 cm. Counts are worked out by hand from the rules of the lattice: B = 2 + 3 J +
(J - 1) + 1 for each spaced edge. Sleeves begun at the sides of the body: Lion Brand 70644AD; 2 sc in a dc row end:
knittinghelp forum 55500; even spreading: "Knitting and the Magic Formula".
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache

import pytest

from test_openings import check_counts, check_once, kinds
from turnchain.errors import PatternError
from turnchain.fabric.plan import Plan
from turnchain.garment import edges, finishing, picking_up, seam_words, seams
from turnchain.garment.edging.places import shared_out
from turnchain.pages.report import report
from turnchain.plan_json import plan_data
from turnchain.planning.planner import plan_pattern
from turnchain.proof import worked_cloths
from turnchain.proof.chart.marks import DrawnChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.compared import joined
from turnchain.proof.printed.report import read_report
from turnchain.proof.proving import chart_of, prove, svg_of, worked_from_words
from turnchain.reading.pattern_file import read_sizes, read_text
from turnchain.records import replace
from turnchain.wording import words
from turnchain.wording.tables import speech_of, told_in
from turnchain.yarns import figures as figures_of_yarn

HEAD = 'title = "Joined"\nswatch = { clusters = 11, width = 26, rows = 18, height = 21 }\n'
FACE = "width = 35\nlength = 30"
FRONT = f'name = "bag front"\n{FACE}'
BACK = f'name = "bag back"\nbegin_on = "bag front.first"\n{FACE}'
BODY = [
    'name = "back"\nwidth = 52\nlength = 56',
    'name = "front"\nwidth = 52\nlength = 56\nneck = { shoulder = 14, depth = 8 }',
]
SLEEVE = 'name = "sleeve"\ncount = 2\nbegin_on = "armhole"\noutline = [[0, 40], [36, 24]]'


def of_pieces(*pieces: str, more: str = "") -> Plan:
    text = HEAD + more + "".join(f"[[piece]]\n{piece}\n" for piece in pieces)
    return plan_pattern(read_text(text, "x.toml"))


def bag(more: str = "") -> Plan:
    return of_pieces(FRONT + more, BACK + more)


@pytest.mark.parametrize("more", ["", '\nrow_plan = "alternate"', "\nexact_clusters = 12"])
def test_clusters_stand_over_clusters_at_both_sides_of_the_chain(more: str) -> None:
    """Turned upside down, places of one count from the other end: what is left of the middle lies right of it."""
    front, back = (piece.rows[0] for piece in bag(more).pieces)
    wide = front.right.at - front.left.at
    assert back.right.at - back.left.at == wide
    over = sorted(front.right.at - centre for centre in front.centres)
    assert over == [centre - back.left.at for centre in back.centres]
    assert (back.left.kind, back.right.kind) == (front.right.kind, front.left.kind)


def test_the_chain_is_made_once_and_counted_on() -> None:
    """15 clusters, rows alike: 2 + 45 + 14 + 1 = 62 chains under the row; the front turns with 3, the back with 4."""
    plan = bag()
    assert [piece.foundation_chain for piece in plan.pieces] == [65, 66]
    said = words.pattern_text(plan)
    assert said.count("Foundation: ") == 2
    assert "the other side of the 62 ch that bag front stands on; no new ch." in said
    assert "Work 4 ch, the tch of row 1" in said
    assert "Dc in 7th ch from hook" in said.partition("no new ch.")[2]


def test_nothing_is_sewn_where_a_piece_is_begun() -> None:
    plan = bag()
    first = seams.of(plan)[0]
    assert (first.one.name, first.other.name, first.worked) == ("bag front.first", "bag back.first", True)
    assert not any(seam.worked for seam in seams.of(plan)[1:])
    assert kinds(plan) == {"upper edge": 1}
    check_once(plan)
    assert "joined as it is worked, nothing to sew" in seam_words.lines(plan)[1]


def test_two_pieces_that_are_no_bag_are_joined_as_well() -> None:
    plan = of_pieces('name = "one half"\nwidth = 20\nlength = 60',
                     'name = "other half"\nbegin_on = "one half.first"\nwidth = 20\nlength = 60')  # fmt: skip
    assert [(seam.one.name, seam.other.name) for seam in seams.of(plan)] == [("one half.first", "other half.first")]
    check_once(plan)
    assert "joined as it is worked" in seam_words.lines(plan)[0]


def test_in_a_size_without_the_other_piece_it_begins_with_a_chain() -> None:
    text = f'sizes = ["S", "M"]\n{HEAD}[[piece]]\n{FRONT}\ncount = "1 (-)"\n[[piece]]\n{BACK}\n'
    begun = [[piece.begin_on for piece in pattern.pieces] for pattern in read_sizes(text, "x.toml")]
    assert begun == [[None, "bag front.first"], [None]]


@cache
def pullover() -> Plan:
    return of_pieces(*BODY, SLEEVE)


@pytest.mark.parametrize("outline", ["[[0, 24], [36, 40]]", "[[0, 34], [35, 34], [36, 39]]"])
def test_a_sleeve_begun_on_the_armhole_is_wider_there_than_at_its_cuff(outline: str) -> None:
    """Its last row counts, where all rows before that are as wide as the first as well."""
    with pytest.raises(PatternError) as refused:
        of_pieces(*BODY, SLEEVE.replace("[[0, 40], [36, 24]]", outline))
    (problem,) = refused.value.problems
    assert "a sleeve wider at its last row" in str(problem)
    assert "turn its outline over" in str(problem)
    assert of_pieces(*BODY, SLEEVE.replace("[[0, 40], [36, 24]]", "[[0, 40], [36, 40]]")).pieces


def test_a_sleeves_first_stitches_come_to_its_row_ends() -> None:
    """16 clusters, one edge with a gap: 2 + 48 + 15 + 1 = 66 sc along 17 row ends of front and back: 33 along each, 2
    in each row end, and once 1."""
    plan = pullover()
    (found,) = picking_up.of(plan)
    assert (found.stitches, found.each) == (66, True)
    spread = [[(one.what, one.even.places, one.even.stitches) for one in edge.places] for edge in found.edges]
    assert spread == [[("row end", 17, 33)]] * 2
    how = "33 sc (2 in each of 17 row ends, 1 fewer in the middle one)"
    said = f"sleeve: work 66 sc along each armhole: back, armhole {how}; front, armhole {how}"
    assert said in seam_words.lines(plan)
    assert all(seam.worked == (seam.kind == "sleeve top") for seam in seams.of(plan))
    check_once(plan)
    for seam in seams.of(plan):
        check_counts(seam.one)
        check_counts(seam.other)


ARMED = [
    'name = "back"\nwidth = 52\nlength = 56\narmhole = { depth = 22, width = 6 }',
    'name = "front"\nwidth = 52\nlength = 56\narmhole = { depth = 22, width = 6, shape = "curved" }\n'
    "neck = { shoulder = 11, depth = 8 }",
]
SIDEWAYS = [
    'name = "back"\nworked = "sideways"\nwidth = 52\nlength = 56\nneck = { shoulder = 14, depth = 3 }',
    'name = "front"\nworked = "sideways"\nfaces = "back"\nwidth = 52\nlength = 56\n'
    "neck = { shoulder = 14, depth = 8 }",
]


@cache
def armed() -> Plan:
    return of_pieces(*ARMED, SLEEVE.replace("[0, 40]", "[0, 44]"))


@cache
def sideways() -> Plan:
    return of_pieces(*SIDEWAYS, SLEEVE)


def test_along_a_body_worked_sideways_chains_and_stitches_are_told() -> None:
    """8 clusters of each side with their gaps are 32 chains, or stitches and chains of the last row: 33 sc, so one of
    them takes 2."""
    one, other = picking_up.of(sideways())
    assert [one.each, other.each] == [False, False]
    met = {edge.places[0].what for edge in one.edges}, {edge.places[0].what for edge in other.edges}
    assert met == ({"stitch"}, {"chain"})
    for edge in (*one.edges, *other.edges):
        (places,) = edge.places
        assert (places.even.places, places.even.each, places.even.changes) == (32, 1, 1)


def test_row_ends_and_the_step_under_the_arm_are_told_apart() -> None:
    (found,) = picking_up.of(armed())
    assert [[one.what for one in edge.places] for edge in found.edges] == [
        ["row end", "step"], ["row end", "row end", "step"],
    ]  # fmt: skip
    assert sum(edge.stitches for edge in found.edges) == found.stitches


@pytest.mark.parametrize("stitches", [20, 33, 66, 97, 140])
@pytest.mark.parametrize("made", [pullover, armed, sideways])
def test_any_number_is_shared_out_by_length(made: Callable[[], Plan], stitches: int) -> None:
    """Largest remainders: no sort of places is off its share by a stitch, and all come to the number."""
    plan = made()
    tops = [seam.one for seam in seams.of(plan) if seam.kind == "sleeve top" and seam.other.copy == 0]
    stretches = [stretch for side in tops for stretch in side.stretches]
    found = shared_out(stretches, stitches)
    whole = sum(stretch.length for stretch in stretches)
    for stretch, places in zip(stretches, found, strict=True):
        many = sum(one.even.stitches for one in places)
        assert abs(many - stitches * stretch.length / whole) < len(places)
        assert all(sum(one.even.lengths) == one.even.stitches for one in places)
    assert sum(one.even.stitches for places in found for one in places) == stitches


@pytest.mark.parametrize(("language", "said"), [
    ("US", "66 sc along each armhole: back, armhole 33 sc (2 in each of 17 row ends, 1 fewer in the middle one)"),
    ("UK", "66 dc along each armhole: back, armhole 33 dc (2 in each of 17 row ends, 1 fewer in the middle one)"),
    ("de", "an jedem Armausschnitt 66 fM häkeln: back, Armausschnitt 33 fM (2 in jedes von 17 Reihenenden, 1 weniger "
           "an der mittleren Stelle)"),
    ("fr", "faire 66 ms le long de chaque emmanchure : back, emmanchure 33 ms (2 dans chacun des 17 bouts de rang, 1 "
           "de moins à la place du milieu)"),
])  # fmt: skip
def test_every_language_says_how_a_sleeve_is_begun(language: str, said: str) -> None:
    plan = told_in(pullover(), language)
    assert said in "\n".join(line for chapter in finishing.chapters(plan) for line in chapter.entries)


@pytest.mark.slow
@pytest.mark.parametrize("made", [bag, pullover, armed, sideways])
def test_what_is_joined_is_proved(made: Callable[[], Plan]) -> None:
    """Words of four languages and charts are worked, and figures and seams held against the cloth."""
    assert prove(made()).reasons == ()


@pytest.mark.slow
@pytest.mark.parametrize("fabric", ["closed", "solid-dc", "v", "shell", "moss"])
def test_other_fabrics_are_joined(fabric: str) -> None:
    assert prove(of_pieces(FRONT, BACK, more=f'[fabric]\nkind = "{fabric}"\n')).reasons == ()


@pytest.mark.parametrize(("pieces", "said"), [
    ((FRONT, BACK.replace("bag front.first", "bag front.left")), 'must be the first row of another piece'),
    ((FRONT, BACK.replace("bag front.first", "bag fron.first")), 'there is no piece "bag fron"'),
    ((FRONT, BACK.replace("bag front.first", "bag back.first")), "the piece itself"),
    ((FRONT, BACK.replace("bag front.first", "armhole")), "only a sleeve is begun along an armhole"),
    ((FRONT, f"{BACK}\nexact_chain = 66"), "has no chain of its own"),
    ((FRONT + '\nworked = "sideways"', BACK), "both must be worked upwards"),
    ((f"{FRONT}\nneck = {{ shoulder = 10, depth = 5 }}", BACK), "the first row is a hem"),
    ((f"{FRONT}\ncount = 2", BACK), "both must be made as often"),
    ((FRONT, BACK.replace("width = 35", "width = 50\nexact_clusters = 20")), "row 1 must be as wide"),
    ((*BODY, SLEEVE.replace("[[0, 40], [36, 24]]", "[[0, 24], [36, 40]]")), "its first row is the wider end"),
])  # fmt: skip
def test_what_cannot_be_joined_is_refused(pieces: tuple[str, ...], said: str) -> None:
    with pytest.raises(PatternError) as error:
        of_pieces(*pieces)
    assert said in re.sub(r"\s+", " ", str(error.value))


@pytest.mark.parametrize("made", [pullover, armed, sideways])
@pytest.mark.parametrize("language", ["US", "UK", "de", "fr"])
def test_wrong_first_stitches_are_found(made: Callable[[], Plan], language: str) -> None:
    """Every figure of the lines is changed in turn; the proof sees each against the cloth worked from the words. That
    one place more lies along a part of a row no cloth can tell, but its stitches then are others."""
    plan = made()
    pieces, wrong = worked_from_words(plan)
    assert not wrong
    cloth = worked_cloths.cloths(plan, pieces)
    said = read_report(report(plan), list(cloth), []).seams
    lines = list(picking_up.lines(speech_of(told_in(plan, language).pattern), plan))
    looked, wrong = joined.held(cloth, lines, said, language)
    assert wrong == []
    assert looked >= 7 * len(lines)
    for nth, line in enumerate(lines):
        for found in re.finditer(r"\d+", line):
            changed = f"{line[: found.start()]}{int(found[0]) + 1}{line[found.end() :]}"
            assert joined.held(cloth, [*lines[:nth], changed, *lines[nth + 1 :]], said, language)[1], changed
        assert joined.held(cloth, [*lines[:nth], *lines[nth + 1 :]], said, language)[1]


# -------------------------------------------------------------------------------- the single crochet of a sleeve


def test_the_sc_along_an_armhole_is_counted_in_the_height() -> None:
    """A row of sc is 0.54 of one of dc (as other rows of sc in the fabric): 0.54 x 21 / 18 cm, and 30 rows."""
    sleeve = pullover().piece("sleeve")
    q = Fraction(21, 18)
    high = Fraction(54, 100) * q + sleeve.row_count * q
    assert sleeve.height == high
    assert {fit.measure: fit.worked for fit in sleeve.fit}["height"] == high
    assert abs(high - 36) <= q / 2
    sides = edges.of(sleeve)
    assert sides["first"].points[0][1] == 0
    assert min(y for _, y in sides["left"].points) == 0
    assert max(y for _, y in sides["left"].points) == high


def test_a_swatch_of_its_own_says_how_high_the_sc_is() -> None:
    text = HEAD.replace(" }", ", sc = { rows = 10, height = 8 } }") + "".join(
        f"[[piece]]\n{piece}\n" for piece in (*BODY, SLEEVE)
    )
    sleeve = plan_pattern(read_text(text, "x.toml")).piece("sleeve")
    assert sleeve.up(0) == Fraction(8, 10)
    assert sleeve.up(1) == Fraction(8, 10) + Fraction(21, 18)


def test_the_sc_along_an_armhole_takes_yarn_of_row_1() -> None:
    """As wide as row 1, which is a rectangle: (0.54 + 1) rows in all."""
    sleeve = pullover().piece("sleeve")
    first = sleeve.rows[0]
    wide, q = (first.right.at - first.left.at) * sleeve.gauge.half, Fraction(21, 18)
    assert figures_of_yarn.row_weighed(sleeve, first) == wide * q * Fraction(154, 100)
    assert figures_of_yarn.area(sleeve) == sum(figures_of_yarn.row_weighed(sleeve, row) for row in sleeve.rows)


def test_the_sc_along_an_armhole_is_in_the_plan_plan_data() -> None:
    plan = pullover()
    piece = next(one for one in plan_data(plan)["pieces"] if one["name"] == "sleeve")
    base = plan.piece("sleeve").foundation_chain - 3
    assert piece["picked_up"] == {"stitch": "sc", "stitches": base, "colour": None, "height_cm": 0.63}


def _foundation_of(plan: Plan, name: str) -> DrawnChart:
    return read_chart(svg_of(plan, name))


def test_the_chart_shows_sc_and_no_chain_along_an_armhole() -> None:
    plan = pullover()
    drawn, own = _foundation_of(plan, "sleeve"), _foundation_of(plan, "back")
    assert (drawn.founded_on, len(drawn.foundation)) == ("sc", plan.piece("sleeve").foundation_chain - 3)
    assert own.founded_on == "ch"


def test_a_chart_that_shows_a_chain_along_an_armhole_is_found() -> None:
    plan = pullover()
    sleeve, chained = plan.piece("sleeve"), replace(plan.piece("sleeve"), begun_on="", sc_below=Fraction(0))
    picture = svg_of(replace(plan, pieces=(*plan.pieces[:2], chained)), "sleeve")
    _, reasons = chart_of(plan, sleeve, picture)
    assert any("begun with" in reason for reason in reasons)


def test_the_sc_along_an_armhole_is_row_0_as_wide_as_row_1_and_made_of_nothing_else() -> None:
    sleeve = of_pieces(*BODY, SLEEVE).pieces[2]
    below, first = sleeve.picked_up, sleeve.rows[0]
    assert below is not None
    wide = 3 * first.clusters + first.clusters - 1 + 2 + (first.left.kind == "spaced") + (first.right.kind == "spaced")
    assert (below.counts.dc, below.counts.ch, below.counts.sl_st, below.counts.tch) == (wide, 0, 0, 0)
    assert (below.number, below.kind, below.clusters, below.left, below.right) == (0, "sc", 0, first.left, first.right)
    assert sleeve.cloth_rows == (below, *sleeve.rows)
    high = sleeve.sc_below
    assert 0 < high < 1
    assert [sleeve.level(number) for number in (-1, 0, 1, 2)] == [0, high, high + 1, high + 2]
    body = of_pieces(*BODY, SLEEVE).pieces[0]
    assert (body.picked_up, body.sc_below, body.cloth_rows) == (None, 0, body.rows)
    assert [body.level(number) for number in (-1, 0, 1)] == [0, 0, 1]
    assert body.row_at(body.gauge.row * 7) == 7
    assert sleeve.row_at(sleeve.gauge.row * (7 + high)) == 7
    assert sleeve.row_at(sleeve.gauge.row * high / 2) == 0
