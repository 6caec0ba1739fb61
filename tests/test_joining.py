"""Joining as you go: pieces begun on the foundation of others, and sleeves begun along armholes.

At 11 clusters to 26 cm and 18 rows to 21 cm. Counts are worked out by hand from the rules of the lattice: B = 2 + 3 J +
(J - 1) + 1 for each spaced edge. Sleeves begun at the sides of the body: Lion Brand 70644AD; 2 sc in a dc row end:
knittinghelp forum 55500; even spreading: "Knitting and the Magic Formula".
"""

from __future__ import annotations

import re

import pytest

from test_openings import check_counts, check_once, kinds
from turnchain.errors import PatternError
from turnchain.fabric.plan import Plan
from turnchain.garment import finishing, seam_words, seams
from turnchain.pages.report import report
from turnchain.planning.planner import plan_pattern
from turnchain.proof import figures
from turnchain.proof.compared import joined
from turnchain.proof.printed.report import read_report
from turnchain.proof.proving import prove, worked_from_words
from turnchain.reading.pattern_file import read_sizes, read_text
from turnchain.wording import words
from turnchain.wording.tables import told_in

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


def pullover() -> Plan:
    return of_pieces(*BODY, SLEEVE)


def test_a_sleeves_first_stitches_come_to_its_row_ends() -> None:
    """17 clusters, both edges flush: 2 + 51 + 16 = 69 sc along 2 x 17 row ends: 2 in each is 68, and once 3."""
    plan = pullover()
    (found,) = seam_words.along_armholes(plan)
    assert (found.stitches, found.rows) == (69, 34)
    assert found.even is not None
    few = found.rows - found.even.times
    assert found.even.each * few + found.even.other * found.even.times == found.stitches
    assert "sleeve: work 69 sc along each armhole of 34 row ends: 2 in each, and once, about the middle, 3" in (
        seam_words.lines(plan)
    )
    assert all(seam.worked == (seam.kind == "sleeve top") for seam in seams.of(plan))
    check_once(plan)
    for seam in seams.of(plan):
        check_counts(seam.one)
        check_counts(seam.other)


@pytest.mark.parametrize(("language", "said"), [
    ("US", "69 sc along each armhole of 34 row ends"), ("UK", "69 dc along each armhole of 34 row ends"),
    ("de", "mit 34 Reihenenden 69 fM"), ("fr", "69 ms le long de chaque emmanchure de 34 bouts de rang"),
])  # fmt: skip
def test_every_language_says_how_a_sleeve_is_begun(language: str, said: str) -> None:
    plan = told_in(pullover(), language)
    assert said in "\n".join(line for chapter in finishing.chapters(plan) for line in chapter.entries)


@pytest.mark.slow
@pytest.mark.parametrize("made", [bag, pullover])
def test_what_is_joined_is_proved(made: object) -> None:
    """Words of four languages and charts are worked, and figures and seams held against the cloth."""
    assert prove(made()).reasons == ()  # type: ignore[operator]


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


def test_wrong_first_stitches_are_found() -> None:
    """Every figure of the line is changed in turn; the proof sees each against the cloth worked from the words."""
    plan = pullover()
    pieces, wrong = worked_from_words(plan)
    assert not wrong
    cloth = figures.cloths(plan, pieces)
    said = read_report(report(plan), list(cloth), [])
    told = next(line for line in said.under["seams"] if "along each armhole" in line)
    assert list(joined.along_armholes(cloth, [told], said.seams)) == []
    for found in re.finditer(r"\d+", told):
        changed = f"{told[: found.start()]}{int(found[0]) + 1}{told[found.end() :]}"
        assert list(joined.along_armholes(cloth, [changed], said.seams)), changed
