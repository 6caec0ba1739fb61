"""Skirts of panels, cushions and bags sew up by themselves, and seams say how rows meet clusters.

Seams are worked out by hand at 4 clusters and 8 rows to 10 cm, half a cluster and a row 1.25 cm; that every edge is
sewn once or open once is walked on the rows, as in ``test_openings``. Spreading: "Knitting and the Magic Formula" (140
rows, 36 changes: every 3rd row 4 times, every 4th 32 times); what is sewn to what is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from test_openings import check_counts, check_once, kinds
from test_parts import HEAD
from turnchain.drawing import edged
from turnchain.fabric.plan import Plan
from turnchain.garment import borders, easing, finishing, openings, seam_words, seams
from turnchain.garment.easing import Evenly
from turnchain.garment.edges import Point, length_of, outline
from turnchain.garment.edging import planned as edgings
from turnchain.garment.edging import words as edging_words
from turnchain.pages.report import report
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove
from turnchain.reading.pattern_file import read_text
from turnchain.wording.tables import speech_of

SKIRT = 'name = "skirt panel"\ncount = 4\noutline = [[0, 40], [50, 28]]'
CUSHION = 'name = "cushion"\ncount = 2\nwidth = 40\nlength = 40'
BAG = 'name = "bag side"\ncount = 2\nwidth = 35\nlength = 30'
GUSSET = 'name = "gusset"\nwidth = 8\nlength = 95'
STRAP = 'name = "strap"\nwidth = 8\nlength = 70'


def planned(*pieces: str) -> Plan:
    return plan_pattern(read_text(HEAD + "".join(f"[[piece]]\n{piece}\n" for piece in pieces), "x.toml"))


def told(plan: Plan) -> list[tuple[str, str]]:
    return [(seam.one.name, seam.other.name) for seam in seams.of(plan)]


def check(plan: Plan) -> None:
    check_once(plan)
    for seam in seams.of(plan):
        check_counts(seam.one)
        check_counts(seam.other)


def test_every_panel_of_a_skirt_is_sewn_to_the_next() -> None:
    plan = planned(SKIRT)
    assert told(plan) == [("skirt panel.right", "skirt panel.left")] * 4
    assert [(seam.one.copy, seam.other.copy) for seam in seams.of(plan)] == [(0, 1), (1, 2), (2, 3), (3, 0)]
    assert kinds(plan) == {"upper edge": 1, "lower edge": 1}
    check(plan)


def test_a_skirt_of_one_piece_has_one_seam() -> None:
    assert told(planned('name = "skirt"\nwidth = 90\nlength = 50')) == [("skirt.right", "skirt.left")]


def test_a_band_along_all_panels_is_told_of_one_and_how_often() -> None:
    """All four are of one piece, and round them stands the same four times."""
    text = HEAD + f'[[piece]]\n{SKIRT}\n[[edging]]\nedges = "lower edge"\nrows = 2'
    plan = plan_pattern(read_text(text, "x.toml"))
    lines = list(edging_words.lines(speech_of(plan.pattern), plan))
    assert lines[0].startswith("Edging 1, skirt panel, lower edge: 2 rounds")
    assert lines[1].count("lower edge") == 1
    assert ", 4 times: " in lines[1]
    assert prove(plan).reasons == ()


def test_a_skirt_may_be_slit() -> None:
    """10 cm are 8 rows of 1.25 cm."""
    plan = planned('name = "skirt panel"\ncount = 2\nwidth = 45\nlength = 50\nslit = 10')
    assert {seam.one.rows for seam in seams.of(plan)} == {(9, 40)}
    assert kinds(plan) == {"upper edge": 1, "lower edge": 1}
    assert prove(plan).reasons == ()
    check(plan)


def test_a_cushion_is_closed_all_round() -> None:
    plan = planned(CUSHION)
    assert told(plan) == [
        ("cushion.right", "cushion.left"), ("cushion.left", "cushion.right"), ("cushion.first", "cushion.first"),
        ("cushion.last", "cushion.last"),
    ]  # fmt: skip
    assert kinds(plan) == {}
    check(plan)


def test_what_is_closed_all_round_is_told_no_border() -> None:
    """No edge is open: neither words nor yarn for one."""
    text = HEAD.replace(", height = 10 }", ", height = 10, weight = 20 }") + (
        f'[[yarn]]\nname = "Oat"\ncolour = "#ebdfc6"\nkeep = 20\n[[piece]]\n{CUSHION}\n'
    )
    plan = plan_pattern(read_text(text, "x.toml"))
    assert [chapter.heading for chapter in finishing.chapters(plan)] == [
        "Seams, in this order", "Ends", "Blocking and care"
    ]  # fmt: skip
    assert "border of one round" not in report(plan)
    assert prove(plan).reasons == ()


def test_the_top_of_a_skirt_is_an_edge_to_be_named() -> None:
    text = HEAD + f'[[piece]]\n{SKIRT}\n[[edging]]\nedges = "upper edge"\nrows = 5'
    plan = plan_pattern(read_text(text, "x.toml"))
    assert [(one.kind, one.closed) for one in edgings.of(plan)] == [("upper edge", True)]
    assert prove(plan).reasons == ()


def test_a_piece_whose_name_ends_in_anothers_is_read_apart() -> None:
    """In a booklet "kid hat: width ..." holds "hat: width ..."."""
    plan = planned('name = "hat"\nwidth = 54\nlength = 24', 'name = "kid hat"\nrole = "hat"\nwidth = 45\nlength = 20')
    assert prove(plan).reasons == ()


def test_a_gusset_goes_all_round_a_cushion() -> None:
    plan = planned(CUSHION, 'name = "gusset"\nwidth = 160\nlength = 7.5')
    assert len(seams.of(plan)) == 9
    assert kinds(plan) == {}
    check(plan)


def test_a_bag_stays_open_at_the_top() -> None:
    plan = planned(BAG)
    assert len(seams.of(plan)) == 3
    assert kinds(plan) == {"upper edge": 1}
    check(plan)


def test_one_piece_is_folded_to_a_bag() -> None:
    """60 cm are 48 rows: the first 24 meet the last 24, at both sides."""
    plan = planned('name = "bag"\nwidth = 35\nlength = 60')
    assert [(seam.one.rows, seam.other.rows) for seam in seams.of(plan)] == [((48, 25), (24, 1)), ((1, 24), (25, 48))]
    assert kinds(plan) == {"upper edge": 1}
    check(plan)


def test_an_odd_row_is_folded_on_one_side_of_the_middle_at_both_edges() -> None:
    """61.25 cm are 49 rows: a fold between rows 24 and 25, or 25 and 26, at both edges alike."""
    plan = planned('name = "bag"\nwidth = 35\nlength = 61.25')
    met = [{frozenset(side.rows or ()) for side in (seam.one, seam.other)} for seam in seams.of(plan)]
    assert met[0] == met[1]
    check(plan)


def test_a_gusset_goes_down_along_and_up_a_bag_and_the_strap_on_its_ends() -> None:
    """76 rows of gusset: 24 to each side of 24 rows and 28 to the bottom of 14.5 clusters, 29 half clusters."""
    plan = planned(BAG, GUSSET, STRAP)
    first = [seam for seam in seams.of(plan) if seam.other.edge == "right"]
    assert [seam.other.rows for seam in first] == [(53, 76), (25, 52), (1, 24)]
    assert [easing.evenly(seam) for seam in first] == [None, Evenly("half cluster", "row", 1, 2, 28, 1), None]
    assert told(plan)[-2:] == [("strap.first", "gusset.first"), ("strap.last", "gusset.last")]
    assert kinds(plan)["open edge"] == 2
    check(plan)


@pytest.mark.quick(1)
@pytest.mark.parametrize("strap", [STRAP, 'name = "handle"\ncount = 2\nwidth = 5\nlength = 40'])
def test_straps_without_a_gusset_take_a_part_of_the_top(strap: str) -> None:
    plan = planned(BAG, strap)
    check(plan)
    assert prove(plan).reasons == ()


@pytest.mark.parametrize(("worked", "brim", "crown"), [("upwards", "first", "last"), ("sideways", "lower", "upper")])
def test_the_crown_of_a_hat_is_gathered_and_gets_no_border(worked: str, brim: str, crown: str) -> None:
    """Common practice, no source: a tail is drawn through its edge. An edging that names the edge goes there still."""
    hat = f'name = "hat"\nwidth = 54\nlength = 22\nworked = "{worked}"'
    plan = planned(hat)
    check_once(plan)
    assert [one.stretches[0].stretch.run.name for one in openings.of(plan) if one.gathered] == [crown]
    assert [one.kind for one in borders.edgings(plan)] == ["lower edge"]
    assert [side.stretch.run.name for found in edged.parts(plan).values() for one in found for side in one.sides] == [
        brim
    ]
    for asked, expected in (("all", [brim]), (f"hat.{crown}", [crown]), (f"hat.{brim}", [brim])):
        edging = f'{hat}\n[[edging]]\nedges = ["{asked}"]\nrows = 1'
        assert [part.open.stretch.run.name for one in edgings.of(planned(edging)) for part in one.parts] == expected
    unsewn = planned(hat + '\nrole = "other"')
    assert not any(one.gathered for one in openings.of(unsewn))


def test_a_role_goes_before_a_name() -> None:
    """In any language: a piece may be called as its maker likes."""
    plan = planned('name = "Bahn"\nrole = "skirt"\ncount = 3\nwidth = 30\nlength = 50')
    assert told(plan) == [("Bahn.right", "Bahn.left")] * 3
    assert "those of a skirt of 3 panels are assumed" in seam_words.lines(plan)[0]


def test_seams_in_the_file_go_first() -> None:
    text = HEAD + f"[[piece]]\n{CUSHION}\n" + '[[seam]]\njoin = ["cushion.left", "cushion.right"]\n'
    assert told(plan_pattern(read_text(text, "x.toml"))) == [("cushion.left", "cushion.right")]


@pytest.mark.parametrize(
    ("many", "few", "expected"),
    [
        (12, 6, Evenly("row", "cluster", 2)),
        (13, 6, Evenly("row", "cluster", 2, 3, 6, 1)),
        (14, 6, Evenly("row", "cluster", 2, 3, 3, 2)),
        (140, 36, Evenly("row", "cluster", 4, 3, 9, 4)),  # published: 4 gaps of 3 and 32 of 4
    ],
)
def test_what_is_over_is_spread_evenly(many: int, few: int, expected: Evenly) -> None:
    assert easing.spread(many, few, "row", "cluster") == expected


@given(st.integers(1, 300), st.integers(1, 300))
def test_what_is_told_comes_to_all_rows_and_clusters(one: int, other: int) -> None:
    many, few = max(one, other), min(one, other)
    said = easing.spread(many, few, "row", "cluster")
    assert said.each * (few - said.times) + said.other * said.times == many
    assert said.every * said.times <= few
    assert said.times <= few / 2


# -------------------------------------------------------------------------------------------------- any of them


@st.composite
def forms(draw: st.DrawFn) -> str:
    """A skirt, a cushion, a bag, a hat, a cowl, a shawl or two halves joined as they are worked, with what may go with
    it, at some gauge."""
    clusters, rows = draw(st.integers(30, 50)), draw(st.integers(65, 100))
    text = f'title = "Form"\nswatch = {{ clusters = {clusters}, width = 100, rows = {rows}, height = 100 }}\n'
    wide, high, turned = draw(st.integers(20, 50)), draw(st.integers(20, 50)), draw(st.sampled_from(["", "sideways"]))
    worked = f'worked = "{turned}"\n' if turned else ""
    kind = draw(st.sampled_from(["skirt", "cushion", "bag", "hat", "cowl", "shawl", "halves"]))
    if kind in ("hat", "cowl"):
        return text + f'[[piece]]\nname = "{kind}"\nwidth = {wide + 20}\nlength = {high}\n{worked}'
    if kind == "shawl":
        grown = f"triangle = {{ width = {2 * high}, height = {high} }}"
        shape = draw(st.sampled_from([grown, f"width = {wide}\nlength = {high}"]))
        return text + f'[[piece]]\nname = "shawl"\n{shape}\n'
    if kind == "halves":
        size = f"width = {wide}\nlength = {high}\n"
        role = draw(st.sampled_from(["bag", "cushion", "half"]))
        begun = f'[[piece]]\nname = "second {role}"\nbegin_on = "first {role}.first"\n{size}'
        return text + f'[[piece]]\nname = "first {role}"\n{size}{begun}'
    if kind == "skirt":
        shapes = [f"outline = [[0, {wide + 8}], [{high}, {wide}]]", f"width = {wide}\nlength = {high}"]
        shape = draw(st.sampled_from(shapes))
        slit = "slit = 6\n" if shape.startswith("width") and not turned and draw(st.booleans()) else ""
        text += f'[[piece]]\nname = "skirt"\ncount = {draw(st.integers(1, 6))}\n{shape}\n{slit}'
        return text + ("" if shape.startswith("outline") else worked)
    text += f'[[piece]]\nname = "{kind}"\ncount = {draw(st.integers(1, 2))}\nwidth = {wide}\nlength = {high}\n{worked}'
    if draw(st.booleans()):
        around = wide + 2 * high + (wide if kind == "cushion" else 0)
        size = draw(st.sampled_from([(7, around), (around, 7)]))
        text += f'[[piece]]\nname = "gusset"\nwidth = {size[0]}\nlength = {size[1]}\n'
    if kind == "bag" and draw(st.booleans()):
        text += f'[[piece]]\nname = "strap"\nwidth = 5\nlength = 40\ncount = {draw(st.integers(1, 2))}\n'
    return text


@pytest.mark.quick(0)
@given(forms())
@settings(deadline=None, max_examples=20)
def test_every_edge_of_any_form_is_sewn_once_or_open_once(text: str) -> None:
    check(plan_pattern(read_text(text, "x.toml")))


def around(plan: Plan) -> Fraction:
    """The way in cm round all copies of all pieces, from the rows alone."""
    return sum((piece.count * length_of((*outline(piece), outline(piece)[0])) for piece in plan.pieces), Fraction(0))


@pytest.mark.quick(0)
@given(forms())
@settings(deadline=None, max_examples=20)
def test_any_form_closes_when_it_is_sewn(text: str) -> None:
    check_closed(plan_pattern(read_text(text, "x.toml")))


_SMALL_BAG, _SMALL_CUSHION = 'name = "bag"\nwidth = 15\nlength = 10', 'name = "cushion"\nwidth = 15\nlength = 10'
_SMALL_STRAP = 'name = "strap"\nwidth = 5\nlength = 12.5'
EACH_FORM: dict[str, tuple[str, ...]] = {
    "skirt of three, sideways": ('name = "skirt"\ncount = 3\nworked = "sideways"\nwidth = 10\nlength = 15',),
    "skirt of two, slit": ('name = "skirt"\ncount = 2\nwidth = 12\nlength = 15\nslit = 5',),
    "cowl": ('name = "cowl"\nwidth = 25\nlength = 10\nworked = "sideways"',),
    "cushion, folded": (_SMALL_CUSHION,),
    "cushion with a gusset": (f"{_SMALL_CUSHION}\ncount = 2", 'name = "gusset"\nwidth = 5\nlength = 50'),
    "cushion with a wide gusset": (f"{_SMALL_CUSHION}\ncount = 2", 'name = "gusset"\nwidth = 50\nlength = 5'),
    "bag, folded, one strap": (_SMALL_BAG, _SMALL_STRAP),
    "bag, folded sideways, two straps": (f'{_SMALL_BAG}\nworked = "sideways"', f"{_SMALL_STRAP}\ncount = 2"),
    "bag of two, one strap": (f"{_SMALL_BAG}\ncount = 2", _SMALL_STRAP),
    "bag of two, two wide straps": (f"{_SMALL_BAG}\ncount = 2", 'name = "strap"\nwidth = 12.5\nlength = 5\ncount = 2'),
    "bag with a gusset and a strap": (
        f"{_SMALL_BAG}\ncount = 2", 'name = "gusset"\nwidth = 5\nlength = 35',
        'name = "strap"\nwidth = 12.5\nlength = 5',
    ),
    "bag of three": (f"{_SMALL_BAG}\ncount = 3", _SMALL_STRAP),
}  # fmt: skip


@pytest.mark.parametrize("pieces", EACH_FORM.values(), ids=EACH_FORM.keys())
def test_each_form_closes_when_it_is_sewn(pieces: tuple[str, ...]) -> None:
    plan = planned(*pieces)
    check(plan)
    check_closed(plan)


def along_top(plan: Plan) -> list[tuple[int, Fraction, Fraction, Fraction]]:
    """Of every seam of a strap: the face it lies on, from where to where along its top edge, and how long that is."""
    found = []
    for seam in seams.of(plan):
        if seam.one.piece.name == "strap" and seam.other.piece.name == "bag":
            (part,) = seam.other.stretches
            found.append((seam.other.copy, part.start, part.end, part.run.length))
    return found


@pytest.mark.parametrize("worked", ["", 'worked = "sideways"\n'])
def test_two_straps_lie_on_a_face_each_about_a_quarter_of_it_from_either_side(worked: str) -> None:
    """12 half clusters or rows of 1.25 cm are 15 cm; straps 5 cm wide lie from 1.25 to 6.25 and 8.75 to 13.75 cm."""
    quarter, least = Fraction(15, 4), Fraction(5, 8)
    size = "width = 15\nlength = 10" if worked else "width = 15\nlength = 10\nrow_plan = \"alternate\""
    plan = planned(f'name = "bag"\ncount = 2\n{worked}{size}', f"{_SMALL_STRAP}\ncount = 2")
    found = along_top(plan)
    assert [face for face, *_ in found] == [0, 0, 1, 1]
    assert [seam.one.edge for seam in seams.of(plan)[-4:]] == ["first", "last"] * 2
    for nth, (_, start, end, long) in enumerate(found):
        middle = quarter if nth % 2 == 0 else long - quarter
        assert abs((start + end) / 2 - middle) <= least
        assert abs(end - start - 5) <= 2 * least


def test_straps_wider_than_half_a_bag_stay_on_it() -> None:
    """12.5 cm about the quarters of 15 cm would reach 2.5 cm beyond either side."""
    found = along_top(planned(*EACH_FORM["bag of two, two wide straps"][:1],
                              'name = "strap"\nwidth = 12.5\nlength = 15\ncount = 2'))  # fmt: skip
    assert len(found) == 4
    for nth, (_, start, end, long) in enumerate(found):
        assert 0 <= start < end <= long
        assert start == 0 if nth % 2 == 0 else end == long


def test_one_strap_lies_over_both_side_seams_half_on_either_face() -> None:
    """Of 5 cm 2.5 go to either face, at its very end: at the right of one and at the left of the other."""
    found = along_top(planned(f"{_SMALL_BAG}\ncount = 2", _SMALL_STRAP))
    assert [face for face, *_ in found] == [0, 1, 1, 0]
    for nth, (_, start, end, long) in enumerate(found):
        assert start == 0 if nth % 2 == 0 else end == long
        assert abs(end - start - Fraction(5, 2)) <= Fraction(5, 4)


def test_a_bag_of_three_faces_and_several_gussets_are_nothing_known() -> None:
    assert told(planned(*EACH_FORM["bag of three"])) == []
    two = planned(f"{_SMALL_BAG}\ncount = 2", 'name = "gusset"\ncount = 2\nwidth = 5\nlength = 10')
    assert {name for pair in told(two) for name in pair} == {"bag.right", "bag.left", "bag.first"}


def test_a_gusset_is_shared_among_the_edges_by_their_lengths() -> None:
    """80 rows of gusset along 12, 16 and 12 rows and half clusters of 1.25 cm: twice as many each, the bottom between
    the sides; its other long edge runs the other way."""
    plan = planned('name = "bag"\ncount = 2\nwidth = 20\nlength = 15\nrow_plan = "alternate"',
                   'name = "gusset"\nwidth = 5\nlength = 100')  # fmt: skip
    faces = [[seam for seam in seams.of(plan) if seam.one.copy == nth] for nth in (0, 1)]
    assert [[seam.one.edge for seam in face] for face in faces] == [["left", "first", "right"]] * 2
    assert [[seam.other.edge for seam in face] for face in faces] == [["right"] * 3, ["left"] * 3]
    for face in faces:
        whole = sum(seam.one.length for seam in face)
        for seam in face:
            assert abs(seam.other.length - 100 * seam.one.length / whole) <= Fraction(5, 4)
        rows = [sorted(seam.other.rows or ()) for seam in face]
        assert sorted(number for low, high in rows for number in range(low, high + 1)) == [*range(1, 81)]
    check(plan)


def check_closed(plan: Plan) -> None:
    """What stays open are closed lines: each stretch begins where the one before it ends, on the same piece or, across
    a seam, where the pieces meet; and the way round all pieces is what is sewn, both sides, and what stays open."""
    meet: dict[tuple[str, int, Point], set[tuple[str, int, Point]]] = {}
    for seam in seams.of(plan):
        for here, there in ((0, -1), (-1, 0)):
            sides = ((seam.one, here), (seam.other, there))
            ends = [(side.piece.name, side.copy, side.points[end]) for side, end in sides]
            for end in ends:
                meet.setdefault(end, {end}).update(ends)
    for opening in openings.of(plan):
        parts = opening.stretches
        for one, following in zip(parts, [*parts[1:], parts[0]], strict=True):
            end = (one.piece.name, one.copy, one.stretch.points[-1])
            begin = (following.piece.name, following.copy, following.stretch.points[0])
            assert begin in reached(meet, end), (opening.kind, end, begin)
    sewn = sum((seam.one.length + seam.other.length for seam in seams.of(plan)), Fraction(0))
    free = sum((opening.length for opening in openings.of(plan)), Fraction(0))
    assert float(sewn + free) == pytest.approx(float(around(plan)), rel=1e-5)


def reached(
    meet: dict[tuple[str, int, Point], set[tuple[str, int, Point]]], place: tuple[str, int, Point]
) -> set[tuple[str, int, Point]]:
    """All places that one place is sewn to, directly or by others."""
    found, ahead = {place}, [place]
    while ahead:
        for one in meet.get(ahead.pop(), set()) - found:
            found.add(one)
            ahead.append(one)
    return found


@pytest.mark.slow
@given(forms())
@settings(deadline=None, max_examples=6)
def test_any_form_is_proved(text: str) -> None:
    plan = plan_pattern(read_text(text, "x.toml"))
    assert prove(plan).reasons == ()
    for seam in seams.of(plan):
        assert seam.agrees or seam_words.eases_in(seam) or abs(seam.off) <= 2 * seam.one.piece.gauge.pitch


@pytest.mark.quick(0)
def test_a_slit_of_a_garment_is_proved() -> None:
    """It is bordered with the lower edge, along its row ends."""
    body = 'width = 50\nlength = 52\narmhole = { depth = 22, width = 6 }\nslit = 10'
    plan = planned(f'name = "back"\n{body}', f'name = "front"\n{body}\nneck = {{ shoulder = 10, depth = 8 }}')
    assert prove(plan).reasons == ()
