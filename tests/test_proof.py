"""The maker in the machine: proofs of the cases and of random patterns, and everything that cannot be worked.

The cases and random patterns are worked from their finished words, in US and UK terms and in German, and from their
charts, and must come out as planned in every row. Tens of thousands more are proved by ``python -m tests.nightly``.
Rows that cannot be worked are put to the maker one by one: a test sees to it that every refusal is among them.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

import bare_rows
import solid_rows
import turnchain.proof
from nightly import figures_of_file, planned_at, unproved, walk_at
from turnchain.cli import cli
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.pattern import Fabric, Pattern, Piece, Swatch
from turnchain.planning.planner import plan_pattern
from turnchain.proof import proving
from turnchain.proof.chart.marks import UnreadableChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.hook.finished import check_carried, finished
from turnchain.proof.hook.row import RowInWork
from turnchain.proof.hook.stitches import Below, Craft, OnChain, Unworkable, WorkedRow
from turnchain.proof.maker import steps as do
from turnchain.proof.maker.piece import Maker
from turnchain.proof.maker.steps import Count, Shaped, Told
from turnchain.records import replace
from turnchain.wording import words

CASES = sorted((Path(__file__).parent / "cases").glob("*.toml"))
PROOF = Path(turnchain.proof.__file__).parent


SEEDS = 68  # of each kind


@cache
def case(path: Path) -> Plan:
    return planned(path)


planned_once, walked_once = cache(planned_at), cache(walk_at)


# ------------------------------------------------------------------------------------------------- the proofs


@pytest.mark.quick(0)
@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_case_is_proved_by_every_path(path: Path) -> None:
    plan = case(path)
    proof = proving.prove(plan)
    assert proof.reasons == ()
    rows = sum(len(piece.rows) for piece in plan.pieces)
    stitches = sum(
        row.counts.dc + row.counts.ch + row.counts.sl_st + row.counts.tch for piece in plan.pieces for row in piece.rows
    )
    assert [one.path for one in proof.worked] == [*proving.LANGUAGES.values(), proving.CHARTS]
    for one in proof.worked:
        assert (one.pieces, one.rows, one.stitches) == (len(plan.pieces), rows, stitches)


@pytest.mark.quick(0)
@pytest.mark.parametrize("block", range(4))
def test_planned_patterns_are_proved(block: int) -> None:
    """Panels, necks, outlines, edges apart, pieces begun."""
    rows = 0
    for seed in range(block, SEEDS, 4):
        proved, reasons = unproved(planned_once, seed)
        assert reasons == []
        rows += proved
    assert rows > 400


@pytest.mark.quick(0)
@pytest.mark.parametrize("block", range(4))
def test_walks_are_proved(block: int) -> None:
    """Every move at either edge, forced ones and steps."""
    for seed in range(block, SEEDS, 4):
        assert unproved(walked_once, seed, measured=False)[1] == []


@pytest.mark.quick(0)
def test_the_random_patterns_hold_what_can_be_difficult() -> None:
    """Every move, both fabrics, clusters of 2 to 5, divided pieces, pieces begun, edges apart."""
    plans = [plan for seed in range(SEEDS) for plan in (planned_once(seed), walked_once(seed)) if plan]
    assert len(plans) > 110
    rows = [row for plan in plans for piece in plan.pieces for row in piece.rows]
    moves = {edge.move for row in rows for edge in (row.left, row.right)}
    assert len(moves) == 7
    assert {(plan.pattern.fabric.cluster, plan.pattern.fabric.gap) for plan in plans} == {
        (k, g) for k in (2, 3, 4, 5) for g in (0, 1)
    }
    pieces = [piece for plan in plans for piece in plan.pattern.pieces]
    assert {piece.neck.shape for piece in pieces if piece.neck} == {"slant", "round", "vee", "square"}
    assert any(row.joined for row in rows)
    assert any(plan.pattern.progress for plan in plans)
    assert any(piece.left_outline for piece in pieces)


@pytest.mark.quick(0)
def test_the_proof_on_the_command_line(tmp_path: Path) -> None:
    path = Path(__file__).parent / "cases" / "kite_kerchief.toml"
    shown = CliRunner().invoke(cli, ["check", "--prove", str(path)])
    assert shown.exit_code == 0
    assert "Worked from the words in US terms: 2 pieces, 72 rows, 2837 stitches, all as planned.\n" in shown.output
    assert "Worked from the charts: 2 pieces, 72 rows, 2837 stitches, all as planned.\n" in shown.output
    assert "Figures, seams, yarn: as planned; " in shown.output


@pytest.mark.quick(0)
def test_what_is_not_proved_is_an_error_with_its_reasons(monkeypatch: pytest.MonkeyPatch) -> None:
    from turnchain.errors import MakerError

    plan = case(CASES[1])
    told = words.pattern_text

    def wrong(plan: Plan, language: str | None = None) -> str:
        text = told(plan, language)
        return text.replace("ch 15 (a multiple of 4 plus 7: 2 × 4 + 7)", "ch 16 (a multiple of 4 plus 8: 2 × 4 + 8)")

    monkeypatch.setattr(words, "pattern_text", wrong)
    proof = proving.prove(plan)
    assert not proof.holds
    assert [one.pieces for one in proof.worked] == [1, 1, 2, 2, 2]  # German has other words, the charts none
    with pytest.raises(MakerError, match=r"kite\.toml: not as planned: the words in US terms: piece \"tie\": row 1: "):
        proving.checked(plan, "kite.toml")


def test_a_plan_that_is_not_what_is_told_is_found() -> None:
    """The words of one plan against another: everything is workable, nothing is as planned."""
    plan = case(CASES[1])
    kerchief, tie = plan.pieces
    text = words.pattern_text(plan, "US")
    for other, what in (
        (replace(tie, count=3), "pieces alike: 3 planned, 2 worked"),
        (replace(tie, worked="sideways"), "way: sideways planned, upwards worked"),
        (replace(tie, rows=tie.rows[:-1]), "rows: 41 planned, 42 worked"),
    ):
        found = proving.words_of(replace(plan, pieces=(kerchief, other)), "US", text)
        assert any(what in reason for reason in found.reasons or ()), what


# ------------------------------------------------------------------------------- what was found by proving


@cache
def stepping_out(gap: int, cluster: int = 3) -> Plan:
    """A piece that steps out twice, from an edge without a gap and from one with it, in a fabric of ``gap`` chains."""
    swatch = Swatch(Fraction(10), Fraction(20), Fraction(20), Fraction(20))
    outline = ((0, 4), (4, 4), (4, 10), (8, 10), (8, 15), (12, 15))  # rows 5 and 9 start at the right
    reach = tuple((Fraction(height), Fraction(wide)) for height, wide in outline)
    straight = ((Fraction(0), Fraction(4)), (Fraction(12), Fraction(4)))
    piece = Piece("p", left_outline=straight, right_outline=reach)
    return plan_pattern(Pattern("P", (swatch,), (piece,), Fabric(cluster, gap)))


@pytest.mark.parametrize("gap", [0, 1])
def test_each_dc_of_a_step_out_has_a_chain_of_its_own(gap: int) -> None:
    """The chart once put the extra dc of the closed fabric on the edge stitch's chain, the words on the next; and the
    new chain was drawn across the heads of the stitches that stand on it."""
    plan = stepping_out(gap)
    (piece,) = plan.pieces
    steps = [row for row in piece.rows if row.right.move == "step_out"]
    assert [row.right.kind for row in steps] == ["spaced", "flush"]
    assert proving.prove(plan).reasons == ()
    drawn = read_chart(proving.svg_of(plan, "p"))
    for row in steps:
        _, marks = drawn.rows[row.index]
        heads = min(mark.head[1] for mark in marks if mark.sign == "dc")
        feet = max(mark.foot[1] for mark in marks if mark.sign == "dc")
        low = sum(mark.sign == "lying" and mark.head[1] > (heads + feet) / 2 for mark in marks)
        assert low == row.counts.ch - gap * (row.clusters - 1 + (row.left.kind == "spaced"))


@pytest.mark.parametrize("cluster", [3, 5])
def test_a_dc_of_a_step_out_that_is_drawn_elsewhere_is_found(cluster: int) -> None:
    """A dc moved between two others of its new chain once passed: dc on a chain were only counted."""
    plan = stepping_out(0, cluster)
    (piece,) = plan.pieces
    drawn = read_chart(proving.svg_of(plan, "p"))
    for row in (row for row in piece.rows if row.right.move == "step_out"):
        top, marks = drawn.rows[row.index]
        low = max(mark.foot[1] for mark in marks if mark.sign == "dc")
        on_chain = [nth for nth, mark in enumerate(marks) if mark.sign == "dc" and mark.foot[0] == mark.head[0]]
        moved = 0
        for nth in (nth for nth in on_chain if marks[nth].foot[1] < low):
            other = (*marks[:nth], marks[nth].moved(40, 0), *marks[nth + 1 :])
            rows = (*drawn.rows[: row.index], (top, other), *drawn.rows[row.index + 1 :])
            with pytest.raises((UnreadableChart, Unworkable)):
                work_chart(replace(drawn, rows=rows))
            moved += 1
        assert moved >= cluster


# ------------------------------------------------------------------------------- who knows what


#: The rooms of the proof, and what each may know of the package beside itself; those ``OUTSIDE`` of them alone
#: know the plan, and what prints it.
KNOWS: dict[str, set[str]] = {
    "hook": set(), "maker": {"hook"}, "words": {"hook", "maker"}, "chart": {"hook"}, "cloth": {"hook"},
    "printed": {"words"}, "compared": {"hook", "cloth", "printed"},
}  # fmt: skip
OUTSIDE = (
    "alternatives", "asking", "figures", "held", "held_words", "nearer", "proving", "size_tables", "worked_cloths",
)  # fmt: skip
MAKERS = sorted(file.relative_to(PROOF) for room in KNOWS for file in (PROOF / room).rglob("*.py"))


def test_every_module_of_the_proof_is_in_its_room() -> None:
    rooms = {file.relative_to(PROOF).parts[0] for file in PROOF.rglob("*/*.py")} - {f.name for f in PROOF.glob("*.py")}
    assert rooms == set(KNOWS)
    assert {file.stem for file in PROOF.glob("*.py")} == {"__init__", *OUTSIDE}
    assert len(MAKERS) > 20


@pytest.mark.parametrize("file", MAKERS, ids=str)
def test_the_maker_knows_only_how_stitches_are_worked(file: Path) -> None:
    """Neither planner, lattice, grid, plan, instructions, words nor languages: nothing of the package but its own
    room and the rooms it builds on."""
    found = set()
    for node in ast.walk(ast.parse((PROOF / file).read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ("__import__", "exec", "eval")
    own = {tuple(name.split(".")[1:3]) for name in found if name.split(".")[0] == "turnchain"}
    assert own <= {("proof", room) for room in {file.parts[0]} | KNOWS[file.parts[0]]}
    assert not {name for name in found if name.split(".")[0] == "importlib"}


# ----------------------------------------------------------------------------------- fabrics to work on

OPEN, CLOSED = Craft(3, 1), Craft(3, 0)


def first(craft: Craft, clusters: int, start: str = "flush", end: str = "flush") -> WorkedRow:
    """Row 1, worked without a mistake."""
    k, g = craft.cluster, craft.gap
    turning = 3 + (g if start == "spaced" else 0)
    spaced = (start == "spaced") + (end == "spaced")
    row = RowInWork(craft, None, turning + 2 + k * clusters + g * (clusters - 1) + (g or 1) * spaced)
    row.edge(OnChain(turning + 1), turning)
    at = turning + 1
    if start == "spaced":
        at += 1
        if not g:
            row.extra(OnChain(at))
    for nth in range(clusters):
        if nth and g:
            row.gap(g)
            at += g
        row.cluster([OnChain(at + 1 + dc) for dc in range(k)])
        at += k
    if end == "spaced" and g:
        row.gap(g)
        at += g
    elif end == "spaced":
        at += 1
        row.extra(OnChain(at))
    row.end(OnChain(at + 1))
    return finished(row, 1)


def above(worked: WorkedRow, craft: Craft = OPEN, chain: int = 0, joined: bool = False) -> RowInWork:
    """A row begun on ``worked``, as if nothing had been worked into it yet."""
    return RowInWork(craft, replace(worked, taken=set()), chain, joined)


def upright(worked: WorkedRow, chains: int = 3, craft: Craft = OPEN) -> RowInWork:
    """The same with its turning chain."""
    row = above(worked, craft)
    row.edge(Below(0), chains)
    return row


def spot(worked: WorkedRow, what: str, nth: int = 0) -> Below:
    """The ``nth`` spot of a kind, as met from where the work is turned (negative: from the end)."""
    return Below([index for index, one in enumerate(worked.spots[::-1]) if one.what == what][nth])


def three(place: Below) -> list[Below]:
    return [place] * 3


def chained(first: int) -> list[OnChain]:
    return [OnChain(first + nth) for nth in range(3)]


FLUSH, SPACED = first(OPEN, 3), first(OPEN, 3, "spaced", "spaced")
SLIT = Craft(3, 1, slit=True)
BOTH_CLOSED = first(CLOSED, 3, "spaced", "spaced")


def row_one(craft: Craft = OPEN, chains: int = 20) -> RowInWork:
    """Row 1 with its turning chain."""
    row = RowInWork(craft, None, chains)
    row.edge(OnChain(4), 3)
    return row


def done(worked: WorkedRow, chains: int, first_space: int, spaces: int, gap_at_end: bool, end: Below) -> RowInWork:
    """A whole row on ``worked``, clusters in ``spaces`` spaces."""
    row = upright(worked, chains)
    _spaces(row, worked, first_space, spaces)
    if gap_at_end:
        row.gap(1)
    row.end(end)
    return row


def _spaces(row: RowInWork, worked: WorkedRow, first_space: int, spaces: int) -> None:
    for nth in range(spaces):
        if nth:
            row.gap(1)
        row.cluster(three(spot(worked, "space", first_space + nth)))


def into_spaces(worked: WorkedRow, spaces: int, end: str = "edge") -> WorkedRow:
    """A whole row of a slit fabric on ``worked``, clusters in its first ``spaces`` spaces."""
    row = upright(worked, craft=SLIT)
    _spaces(row, worked, 0, spaces)
    row.end(spot(worked, end, -1))
    return finished(row, worked.number + 1)


def step_out(worked: WorkedRow, chains: int, turning: int, on_edge: bool) -> RowInWork:
    """A new chain with one cluster on it, the next cluster in the edge gap or on the edge stitch."""
    row = above(worked, chain=chains)
    row.edge(OnChain(turning + 1), turning)
    row.cluster(chained(turning + 2 + (turning - 3)))
    row.gap(1)
    row.cluster(three(spot(worked, "edge" if on_edge else "space")))
    if on_edge:
        row.gap(1)
        row.cluster(three(spot(worked, "space")))
    for nth in range(1, sum(one.what == "space" for one in worked.spots)):
        row.gap(1)
        row.cluster(three(spot(worked, "space", nth)))
    if on_edge:
        row.gap(1)
    row.end(spot(worked, "edge", -1))
    return row


def test_rows_without_a_mistake() -> None:
    """Straight rows of both kinds, a decrease, an increase, steps; the positions follow from the stitches."""
    assert (FLUSH.left.at, FLUSH.right.at, FLUSH.centres) == (0, 6, (5, 3, 1))
    assert (SPACED.left.at, SPACED.right.at, SPACED.centres) == (0, 8, (6, 4, 2))
    straight = finished(done(FLUSH, 4, 0, 2, True, spot(FLUSH, "edge", -1)), 2)
    assert (straight.left.at, straight.right.at, straight.left.kind) == (0, 6, "spaced")
    narrower = finished(done(FLUSH, 3, 0, 2, False, spot(FLUSH, "dc", -1)), 2)
    assert (narrower.left.at, narrower.right.at, narrower.left.kind) == (1, 5, "flush")
    wider = finished(done(SPACED, 4, 0, 4, True, spot(SPACED, "edge", -1)), 2)
    assert (wider.left.at, wider.right.at, wider.left.kind) == (-1, 9, "spaced")
    out = finished(step_out(SPACED, 7, 3, on_edge=False), 2)
    assert (out.left.at, out.right.at, out.clusters) == (-2, 8, 5)
    assert out.count("ch") == 4 + 4
    out = finished(step_out(FLUSH, 12, 4, on_edge=True), 2)
    assert (out.left.at, out.left.kind, out.clusters) == (-4, "spaced", 4)


# ------------------------------------------------------------------------------- what cannot be worked

Refused = Callable[[], object]


def _after_edge(work: Callable[[RowInWork], object], worked: WorkedRow = FLUSH) -> Refused:
    return lambda: work(upright(worked))


def _joined(place: Below) -> None:
    above(FLUSH, joined=True).edge(place, 3)


def _slipped(worked: WorkedRow, *indices: int, craft: Craft = OPEN) -> RowInWork:
    row = above(worked, craft)
    for index in indices:
        row.slip(index)
    return row


def _two_sections() -> None:
    """Both parts of a divided row begin in the same space."""
    body = first(OPEN, 5, "spaced", "spaced")
    row = RowInWork(OPEN, body)
    row.edge(Below(0), 3)
    _spaces(row, body, 0, 2)
    other = RowInWork(OPEN, body, joined=True)
    other.edge(spot(body, "dc", 1), 3)
    other.cluster(three(spot(body, "space", 1)))


def _extra_then(place: Below, end: Below) -> None:
    row = upright(BOTH_CLOSED, craft=CLOSED)
    for nth in range(4):
        row.cluster(three(spot(BOTH_CLOSED, "space", nth)))
    row.extra(place)
    row.end(end)


def _on_the_edge_gap(worked: WorkedRow) -> None:
    """A cluster on the edge stitch beside a gap, and one in the gap."""
    row = upright(worked)
    row.cluster(three(Below(0)))
    row.gap(1)
    row.cluster(three(spot(worked, "space")))
    row.gap(1)
    row.cluster(three(spot(worked, "space", 1)))
    row.gap(1)
    row.cluster(three(spot(worked, "space", 2)))
    row.gap(1)
    row.cluster(three(spot(worked, "space", 3)))
    row.end(spot(worked, "edge", -1))
    finished(row, 2)


def _in_from_start(worked: WorkedRow, target: int, chains: int, craft: Craft = OPEN) -> None:
    """A step in at the start to a spot, then on to the end."""
    row = above(worked, craft)
    for index in range(1, target + 1):
        if worked.spots[::-1][index].what != "space" or worked.spots[::-1][index].chains:
            row.slip(index)
    row.edge(Below(target), chains)
    spaces = [index for index, one in enumerate(worked.spots[::-1]) if one.what == "space" and index > target]
    for nth, index in enumerate(spaces):
        if nth and craft.gap:
            row.gap(1)
        row.cluster(three(Below(index)))
    row.end(spot(worked, "edge", -1))
    finished(row, 2)


def _carried(from_outside: list[int]) -> None:
    """Edge stitches on a cluster of two dc, told by which dc each stands on, from the outside."""
    check_carried([replace(FLUSH, carrying={1: from_outside})], Craft(2, 1))


def _end_on(worked: WorkedRow, spaces: int, gap: bool, end: Below) -> None:
    finished(done(worked, 4 if worked is FLUSH else 3, 0, spaces, gap, end), 2)


VEE, MESH, MOSS = Craft(2, 0, inner=1, stacked=True), Craft(1, 1, stacked=True), Craft(1, 1, 1, counts=False)
SOLID, SC = Craft(1, 0, stacked=True), Craft(1, 0, 1, counts=False, stacked=True)


def vees() -> WorkedRow:
    """Row 1 of three V stitches."""
    row = RowInWork(VEE, None, 14)
    row.edge(OnChain(4), 3)
    for number in (6, 9, 12):
        row.unit(OnChain(number))
    row.end(OnChain(14))
    return finished(row, 1)


def on_vees(*indices: int) -> Refused:
    """V stitches in these spots of a row of three: edge, dc, chain, dc, slit, dc, chain, dc and so on, at last edge."""

    def work() -> None:
        row = upright(vees(), craft=VEE)
        for index in indices:
            row.unit(Below(index))

    return work


def solids() -> WorkedRow:
    """Row 1 of three dc between edge stitches."""
    row = RowInWork(SOLID, None, 8)
    row.edge(OnChain(4), 3)
    for number in (5, 6, 7):
        row.unit(OnChain(number))
    row.end(OnChain(8))
    return finished(row, 1)


def on_solids(*indices: int) -> RowInWork:
    """A row of dc begun on these spots of a row of three."""
    row = upright(solids(), craft=SOLID)
    for index in indices:
        row.unit(Below(index))
    return row


def half_vees(extras: int = 1) -> WorkedRow:
    """Row 1 of two V stitches between half ones, of so many ``extras`` beside the edge stitch."""
    row = RowInWork(VEE, None, 20)
    row.edge(OnChain(4), 3)
    for nth in range(extras):
        row.extra(OnChain(5 + nth))
    row.unit(OnChain(6 + extras))
    row.unit(OnChain(9 + extras))
    for nth in range(extras):
        row.extra(OnChain(11 + extras + nth))
    row.chain = 11 + 2 * extras
    row.end(OnChain(row.chain))
    return finished(row, 1)


def _half_vees(start: Below | None = None, end: Below | None = None, extras: int = 1, beside: int = 0) -> None:
    """A row on V stitches between half ones from a spot to a spot, with stitches ``beside`` the last."""
    below = half_vees(extras)
    row = above(below, VEE)
    for index in range(1, start.index + 1 if start else 0):
        if below.spots[::-1][index].what == "extra":
            row.slip(index)
    row.edge(start or Below(0), 3)
    for nth in (0, 1):
        row.unit(spot(below, "inner", nth))
    last = end or spot(below, "edge", -1)
    for _ in range(beside):
        row.extra(last)
    row.end(last)
    finished(row, 2)


def _vees_from(start: int, *units: int) -> None:
    """A row of V stitches that begins on a spot of the one below."""
    row = above(vees(), VEE)
    for index in range(1, start + 1):
        row.slip(index)
    row.edge(Below(start), 3)
    for index in units:
        row.unit(Below(index))
    row.end(Below(12))
    finished(row, 2)


def _meshes_without_gap() -> None:
    row = RowInWork(MESH, None, 20)
    row.edge(OnChain(5), 4)
    row.unit(OnChain(7))
    row.unit(OnChain(8))


def _vee_below_row_1() -> None:
    row = RowInWork(VEE, None, 14)
    row.edge(OnChain(4), 3)
    row.unit(Below(2))


CANNOT: dict[str, Refused] = {
    "a cluster in a cluster, where they are worked into spaces": lambda: upright(FLUSH).unit(Below(2)),
    "two clusters without a gap between them, of a mesh": _meshes_without_gap,
    "a cluster where there is no row below": _vee_below_row_1,
    "a cluster beyond the row below": on_vees(99),
    "a cluster does not stand in the middle of a cluster": on_vees(1),
    "a cluster of the row below passed over": on_vees(6),
    "the work goes back along the row below, of V stitches": on_vees(2, 6, 2),
    "a slip stitch after the turning chain": _after_edge(lambda row: row.slip(1)),
    "a slip stitch with no row below": lambda: RowInWork(OPEN, None, 20).slip(1),
    "slip stitches past the end of the row below": lambda: above(FLUSH).slip(99),
    "slip stitches go back along the row": lambda: _slipped(FLUSH, 1, 1),
    "a stitch is passed over": lambda: _slipped(FLUSH, 2),
    "a slip stitch into a chain that was not reached": lambda: _slipped(SPACED, 1).slip_chain(2),
    "a second turning chain": _after_edge(lambda row: row.edge(Below(0), 3)),
    "a turning chain of 2 chains; it takes 3 or 4": lambda: above(FLUSH).edge(Below(0), 2),
    "there is no chain to stand on": lambda: above(FLUSH).edge(OnChain(4), 3),
    "row 1 stands on its chain": lambda: RowInWork(OPEN, None, 20).edge(Below(0), 3),
    "the turning chain stands beyond the row below": lambda: above(FLUSH).edge(Below(99), 3),
    "a yarn joined at the edge of the row below": lambda: _joined(Below(0)),
    "no slip stitches lead to where the turning chain stands": lambda: above(FLUSH).edge(Below(2), 3),
    "slip stitches lead away from where the turning chain stands": lambda: _slipped(FLUSH, 1).edge(Below(0), 3),
    "the edge stitch stands on chain 5, not 4": lambda: RowInWork(OPEN, None, 20).edge(OnChain(5), 3),
    "the chain has only 3 chains; a 4th is asked for": lambda: RowInWork(OPEN, None, 3).edge(OnChain(4), 3),
    "two stitches would stand in chain 4": lambda: row_one().cluster(chained(4)),
    "a gap that follows no cluster": _after_edge(lambda row: row.gap(1)),
    "a gap of 2 chains in a fabric of 1 chains": lambda: (row := row_one(), row.cluster(chained(5)), row.gap(2)),
    "a gap of 1 chains in a fabric of no chains": lambda: (row := row_one(CLOSED), row.cluster(chained(5)), row.gap(1)),
    "a dc by itself beside an edge stitch": _after_edge(lambda row: row.extra(Below(0))),
    "the extra dc does not stand where the turning chain stands": lambda: upright(BOTH_CLOSED, craft=CLOSED).extra(
        spot(BOTH_CLOSED, "space")
    ),
    "two extra dc beside the edge stitch": lambda: (
        row := upright(BOTH_CLOSED, craft=CLOSED),
        row.extra(Below(0)),
        row.extra(Below(0)),
    ),
    "an extra dc that follows no cluster": lambda: (
        row := upright(BOTH_CLOSED, craft=CLOSED),
        row.cluster(three(spot(BOTH_CLOSED, "space"))),
        row.extra(spot(BOTH_CLOSED, "edge", -1)),
        row.extra(spot(BOTH_CLOSED, "edge", -1)),
    ),
    "an edge stitch joined with another, where clusters": lambda: above(FLUSH).edge(Below(0), 2, Below(1)),
    "a chain and a stitch below joined": lambda: RowInWork(SOLID, None, 9).edge(OnChain(4), 2, OnChain(5)),
    "an edge stitch joined with one that is not beside it": lambda: above(solids(), SOLID).edge(
        Below(0), 2, Below(2)
    ),
    "an edge stitch that is joined stands on none": lambda: above(solids(), SOLID).edge(Below(1), 2, Below(2)),
    "a joined stitch goes back": lambda: (row := on_solids(1, 2, 3), row.end(Below(4), Below(3))),
    "two clusters in one place": lambda: on_solids(0, 0),
    "extra dc that do not stand together": lambda: (
        row := above(vees(), VEE),
        row.edge(Below(0), 3),
        row.unit(Below(2)),
        row.extra(Below(12)),
        row.extra(Below(10)),
    ),
    "the last dc stands beside the edge stitch of the row below": lambda: (
        row := above(half_vees(), VEE),
        row.edge(Below(0), 3),
        row.unit(spot(half_vees(), "inner", 0)),
        row.end(spot(half_vees(), "half", -1)),
    ),
    "the edge stitch at the start stands beside the middle of a cluster": lambda: _vees_from(1, 6, 10),
    "the edge stitch at the start leans away from its cluster, of V stitches": lambda: _vees_from(2, 6, 10),
    "a decrease at the start leans from the edge stitch below, of V stitches": lambda: _half_vees(
        start=spot(half_vees(), "extra", 0)
    ),
    "a decrease stands on an inner extra dc": lambda: _half_vees(end=spot(half_vees(2), "extra", -2), extras=2),
    "a decrease on the extra dc leans in by half a cluster": lambda: _half_vees(
        end=spot(half_vees(), "extra", -1), beside=1
    ),
    "1 chains are skipped before chain 6, where 0 should be": lambda: row_one().cluster(chained(6)),
    "0 chains lie under a gap of 1": lambda: (
        row := row_one(),
        row.cluster(chained(5)),
        row.gap(1),
        row.cluster(chained(8)),
    ),
    "2 dc together, where a cluster takes 3": _after_edge(lambda row: row.cluster(three(Below(4))[:2])),
    "two clusters without a gap between them": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.cluster(three(spot(SPACED, "space", 1))),
    ),
    "the dc of a cluster stand in different places": lambda: upright(SPACED).cluster([Below(1), Below(1), Below(5)]),
    "the dc of a cluster stand in different places, one on the chain": lambda: row_one().cluster(
        [OnChain(5), OnChain(6), Below(1)]
    ),
    "a cluster on the chain after the row below": lambda: (
        row := above(SPACED, chain=7),
        row.edge(OnChain(4), 3),
        row.cluster(three(Below(1))),
        row.gap(1),
        row.cluster(chained(5)),
    ),
    "a space where there is no row below": lambda: row_one().cluster(three(Below(1))),
    "a space beyond the row below": _after_edge(lambda row: row.cluster(three(Below(99)))),
    "a cluster is worked into a stitch, where there is no space": _after_edge(lambda row: row.cluster(three(Below(1)))),
    "the work goes back along the row below": lambda: (
        row := _slipped(FLUSH, 1, 2, 3, 4),
        row.edge(Below(4), 4),
        row.cluster(three(Below(0))),
    ),
    "two clusters would stand in one space": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.gap(1),
        row.cluster(three(Below(1))),
    ),
    "a cluster would stand in the space of the edge stitch": lambda: (
        row := _slipped(FLUSH, 1, 2, 3, 4),
        row.edge(Below(4), 4),
        row.cluster(three(Below(4))),
    ),
    "two clusters would stand in one space, of two parts": _two_sections,
    "a space of the row below passed over": lambda: upright(SPACED).cluster(three(spot(SPACED, "space", 1))),
    "2 spaces of the row below passed over": lambda: upright(SPACED).cluster(three(spot(SPACED, "space", 2))),
    "a turning chain is missing": lambda: above(FLUSH).cluster(three(Below(4))),
    "the row goes on after its last stitch": lambda: done(FLUSH, 4, 0, 2, True, spot(FLUSH, "edge", -1)).cluster(
        three(Below(4))
    ),
    "no cluster in the row": _after_edge(lambda row: row.end(spot(FLUSH, "edge", -1))),
    "a row ends on the row below, not on a chain": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.end(OnChain(9)),
    ),
    "chains beside the edge stitch at the end": lambda: (
        row := row_one(SLIT, 9),
        row.cluster(chained(5)),
        row.gap(1),
        row.end(OnChain(9)),
    ),
    "an edge stitch that stands on none": lambda: into_spaces(first(SLIT, 3), 2, "dc"),
    "a cluster too far from an edge, or past it": lambda: into_spaces(into_spaces(first(SLIT, 3), 2), 1),
    "12 chains of the foundation are left over": lambda: (
        row := row_one(),
        row.cluster(chained(5)),
        row.end(OnChain(8)),
    ),
    "the last dc does not stand where the extra dc beside it stands": lambda: _extra_then(
        spot(BOTH_CLOSED, "extra", -1), spot(BOTH_CLOSED, "edge", -1)
    ),
    "row 1 ends on its chain": lambda: (row := row_one(), row.cluster(chained(5)), row.end(Below(0))),
    "the row ends beyond the row below": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.end(Below(99)),
    ),
    "the last dc goes back along the row below": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.end(Below(0)),
    ),
    "the last dc would stand in the space of the last cluster": lambda: (
        row := upright(SPACED),
        row.cluster(three(Below(1))),
        row.end(Below(1)),
    ),
    "the last dc stands on the extra dc of the row below": lambda: (
        row := upright(BOTH_CLOSED, craft=CLOSED),
        row.cluster(three(spot(BOTH_CLOSED, "space"))),
        row.end(spot(BOTH_CLOSED, "extra", -1)),
    ),
    "a turning chain is missing, at the end": lambda: finished(above(FLUSH), 2),
    "the dc at the end of the row is missing": lambda: finished(upright(FLUSH), 2),
    "clusters that are not neighbours stand side by side": lambda: _on_the_edge_gap(SPACED),
    "the edge stitch at the start stands in a space it leans away from": lambda: _in_from_start(FLUSH, 4, 3),
    "the edge stitch at the end stands in a space it leans away from": lambda: _end_on(
        first(OPEN, 4), 2, False, spot(first(OPEN, 4), "space", 2)
    ),
    "the end stands on the wrong edge of the row below": lambda: (
        row := upright(FLUSH),
        row.cluster(three(Below(0))),
        row.end(Below(0)),
        finished(row, 2),
    ),
    "the edge stitch at the end leans 1 half clusters in": lambda: _end_on(FLUSH, 2, False, spot(FLUSH, "edge", -1)),
    "a decrease at the start leans from the edge stitch": lambda: _in_from_start(BOTH_CLOSED, 1, 3, CLOSED),
    "a decrease at the start leans from the edge stitch below": lambda: _in_from_start(FLUSH, 1, 3),
    "a decrease at the end after a row with a gap at its edge": lambda: _end_on(
        SPACED, 3, True, spot(SPACED, "dc", -1)
    ),
    "a decrease at the end stands in the outermost dc": lambda: _end_on(FLUSH, 2, False, spot(FLUSH, "dc", -2)),
    "the edge stitch at the start stands on the wrong dc of a cluster": lambda: _in_from_start(FLUSH, 5, 3),
    "the edge stitch at the start leans away from its cluster": lambda: _in_from_start(FLUSH, 6, 4),
    "row 2: the edge stitch stands on the wrong dc of a cluster": lambda: _carried([2]),
    "row 2: two edge stitches on one cluster do not stand on their own sides of it": lambda: _carried([1, 2]),
    "a new chain that does not reach out by whole clusters": lambda: (
        row := step_out(SPACED, 9, 4, on_edge=False),
        finished(row, 2),
    ),
    "a new chain of 5 and the turning chain, where 1 clusters take 4": lambda: finished(
        step_out(SPACED, 8, 3, on_edge=False), 2
    ),
}


CANNOT |= solid_rows.CANNOT | bare_rows.CANNOT


@pytest.mark.parametrize("words", CANNOT)
def test_what_cannot_be_worked_is_refused(words: str) -> None:
    with pytest.raises(Unworkable) as refused:
        CANNOT[words]()
    assert str(refused.value).startswith(words.partition(", at")[0].partition(", of")[0].partition(", one")[0])


def refusals(room: str) -> set[tuple[str, int]]:
    """Where the modules of a room of the proof refuse something: their files and lines."""
    return {(str(file), line) for file in (PROOF / room).glob("*.py") for line in _refusals(file)}


def _refusals(file: Path) -> set[int]:
    tree = ast.parse(file.read_text("utf-8"))
    passed_on = [node for node in ast.walk(tree) if isinstance(node, ast.ExceptHandler)]
    passed_on += [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and node.name == "refuse"]
    left_out = {id(inner) for node in passed_on for inner in ast.walk(node)}
    return {
        node.lineno
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and id(node) not in left_out
        if node.func.id in ("refuse", "Unworkable")
    }


def refused_at(refused: Refused, room: str) -> tuple[str, int]:
    """The file and the line of the room that refuses."""
    try:
        refused()
    except Unworkable as error:
        places = []
        step = (error.__context__ or error).__traceback__  # the maker names the row on the way
        while step is not None:
            code = step.tb_frame.f_code
            if Path(code.co_filename).parent == PROOF / room and code.co_name != "refuse":
                places.append((code.co_filename, step.tb_lineno))
            step = step.tb_next
        return places[-1]
    raise AssertionError("nothing was refused")


def test_every_refusal_of_the_hook_is_tried() -> None:
    tried = {refused_at(refused, "hook") for refused in CANNOT.values()}
    assert len(refusals("hook")) > 40
    assert refusals("hook") - tried == set()


# ---------------------------------------------------------------------- what cannot be followed, step by step

ROW_ONE = (
    do.DcInPlace(1, do.FromHook(5)), do.DcAlongChain(2),
    do.RepeatSteps((do.ChainStitches(1), do.PassChains(1), do.DcAlongChain(3)), 2),
    do.DcInPlace(1, do.ChainEnd()),
)  # fmt: skip
TURNED = (do.ChainStitches(4), do.TurnWork())
NEXT, FIRST = do.SpaceBelow("next"), do.SpaceBelow("first")
PASSED = (*TURNED, do.PassCluster("first"))
TOP = do.DcInPlace(1, do.TurningChain(3))
LAST = (do.ChainStitches(1), do.PassCluster("last"), TOP)
ROW_TWO = (*PASSED, do.ClusterInPlace(NEXT), do.ChainStitches(1), do.ClusterInPlace(NEXT), *LAST)
NONE = Count(0, 0, 0, 0, 0)


def told(number: int, steps: tuple[do.ReadStep, ...], count: tuple[int, int, int], **more: object) -> Told:
    """A row with its count: clusters, dc, ch."""
    clusters, dc, ch = count
    side = "RS" if number % 2 else "WS"
    return Told(number, side, None, steps, Count(clusters, dc, ch, 0, 1), **more)  # type: ignore[arg-type]


def maker(rows: int = 1, off: bool = False) -> Maker:
    """A piece begun: rows of 3, 2 and 3 clusters, rows 1 and 3 flush at both edges."""
    made = Maker(OPEN, 16, 3, None)
    third = (
        do.ChainStitches(3),
        do.TurnWork(),
        do.ClusterInPlace(FIRST),
        do.RepeatSteps((do.ChainStitches(1), do.ClusterInPlace(NEXT)), 2),
        TOP,
    )
    told_rows = [told(1, ROW_ONE, (3, 10, 2)), told(2, ROW_TWO, (2, 7, 2)), told(3, third, (3, 10, 2))]
    for row in told_rows[:rows]:
        made.row(replace(row, fasten_off=off and row is told_rows[rows - 1]))
    return made


def closed(spaces: tuple[int, int] | None = None) -> Maker:
    """Row 1 of the closed fabric: 2 clusters, flush at both edges; ``spaces`` as told."""
    made = Maker(Craft(3, 0), 11, 3, None)
    steps = (do.DcInPlace(1, do.FromHook(5)), do.DcAlongChain(2), do.DcAlongChain(3), do.DcInPlace(1, do.ChainEnd()))
    made.row(told(1, steps, (2, 7, 0), spaces=spaces))
    return made


def follow(*steps: do.ReadStep, rows: int = 1, **more: object) -> Refused:
    """Row 2 (or the row after ``rows``), worked by ``steps`` on rows without a mistake."""
    return lambda: maker(rows).row(replace(told(rows + 1, steps, (0, 0, 0)), **more))  # type: ignore[arg-type]


def begin(*steps: do.ReadStep, craft: Craft = OPEN, chains: int = 16) -> Refused:
    """Row 1 by ``steps``."""
    return lambda: Maker(craft, chains, 3, None).row(told(1, steps, (0, 0, 0)))


def divided(*steps: do.ReadStep, join: bool = True, end: tuple[do.ReadStep, ...] = (), **more: object) -> Refused:
    """The second part of a piece divided on row 1 of 7 clusters; the first ends in the second space of it, or by
    ``end``."""

    def work() -> None:
        made = Maker(OPEN, 32, 3, None)
        made.row(told(1, (*ROW_ONE[:2], do.RepeatSteps(ROW_ONE[2].steps, 6), ROW_ONE[3]), (7, 22, 6)))  # type: ignore[union-attr]
        made.divide()
        ending = end or (do.ChainStitches(1), do.DcInPlace(1, NEXT))
        count = (1, 4, 1) if not end else (1, 4, 0)
        steps_one = (*PASSED, do.ClusterInPlace(NEXT), *ending, do.LeaveRest("rest"))
        made.row(told(2, steps_one, count, fasten_off=True))
        made.go_back()
        joined = (do.JoinYarn(None, 1, NEXT),) if join else ()
        made.row(replace(told(2, (*joined, *steps), (0, 0, 0)), **more))  # type: ignore[arg-type]

    return work


def _go_back_unfastened() -> None:
    made = maker(1)
    made.divide()
    made.row(
        told(
            2,
            (*PASSED, do.ClusterInPlace(NEXT), do.ChainStitches(1), do.DcInPlace(1, NEXT), do.LeaveRest("rest")),
            (1, 4, 1),
        )
    )
    made.go_back()


OUT = (do.ChainStitches(12, 4), do.TurnWork(), do.DcInPlace(1, do.FromHook(7)), do.DcAlongChain(2), do.ChainStitches(1))

MOSS_ONE = (
    do.DcInPlace(1, do.FromHook(2)), do.DcAlongChain(1),
    do.RepeatSteps((do.ChainStitches(1), do.PassChains(1), do.DcAlongChain(1)), 2), do.DcInPlace(1, do.ChainEnd()),
)  # fmt: skip
EDGE = do.DcInPlace(1, do.EdgeStitch())


def moss(*steps: do.ReadStep) -> Refused:
    """Row 2 of moss stitch, on a row of 3 sc between its edge stitches."""

    def work() -> None:
        made = Maker(MOSS, 8, 1, None)
        made.row(Told(1, "RS", None, MOSS_ONE, Count(3, 5, 2, 0, 0)))
        made.row(told(2, steps, (0, 0, 0)))

    return work


def vee(*steps: do.ReadStep) -> Refused:
    """Row 2 of V stitches, on a row of 3."""
    first = (
        do.ClusterInPlace(do.FromHook(6)), do.RepeatSteps((do.PassChains(2), do.ClusterInChain()), 2),
        do.PassChains(1), do.DcInPlace(1, do.ChainEnd()),
    )  # fmt: skip

    def work() -> None:
        made = Maker(VEE, 14, 3, None)
        made.row(told(1, first, (3, 7, 3)))
        made.row(told(2, steps, (0, 0, 0)))

    return work


TURNED_3 = (do.ChainStitches(3), do.TurnWork())


def _rows_of_three(craft: Craft, first: tuple[do.ReadStep, ...], tch: int, steps: tuple[do.ReadStep, ...]) -> None:
    made = Maker(craft, craft.turning + 5, craft.turning, None)
    made.row(Told(1, "RS", None, first, Count(3, 5 - tch, 0, 0, tch)))
    made.row(told(2, steps, (0, 0, 0)))


def solid(*steps: do.ReadStep) -> Refused:
    """Row 2 of double crochet, on a row of 3 between edge stitches."""
    first = (do.DcInPlace(1, do.FromHook(5)), do.DcAlongChain(2), do.DcInPlace(1, do.ChainEnd()))
    return lambda: _rows_of_three(SOLID, first, 1, steps)


def sc(*steps: do.ReadStep) -> Refused:
    """The same of single crochet."""
    first = (do.DcInPlace(1, do.FromHook(2)), do.DcAlongChain(3), do.DcInPlace(1, do.ChainEnd()))
    return lambda: _rows_of_three(SC, first, 0, steps)


CANNOT_FOLLOW: dict[str, Refused] = {
    "row 2: a second turning chain": moss(do.TurnWork(), do.ChainStitches(1), do.ChainStitches(1)),
    "row 1: the first dc in chain 5; after 1 it is 2": lambda: Maker(MOSS, 8, 1, None).row(
        told(1, (do.DcInPlace(1, do.FromHook(5)),), (0, 0, 0))
    ),
    "row 1: there is no row below row 1 ": lambda: Maker(MOSS, 8, 1, None).row(
        told(1, (*MOSS_ONE[:3], EDGE), (0, 0, 0))
    ),
    "row 2: a cluster is passed over without a word ": moss(
        do.ChainStitches(1), do.TurnWork(), EDGE, do.ChainStitches(1), do.PassCluster("first"), do.ClusterInPlace(NEXT),
        do.ChainStitches(1), EDGE,
    ),
    "row 2: a turning chain is missing ": moss(do.TurnWork(), EDGE, do.DcInPlace(1, NEXT)),
    "row 2: the edge stitch stands where the hook is not": moss(
        do.ChainStitches(1), do.TurnWork(), do.DcInPlace(1, do.SamePlace()), EDGE
    ),
    "row 2: the row begins in no edge stitch": moss(do.ChainStitches(1), do.TurnWork(), do.DcInPlace(1, NEXT), EDGE),
    "row 2: the turning chain below is no stitch by itself": moss(
        do.ChainStitches(1), do.TurnWork(), EDGE, do.ChainStitches(1), do.PassCluster("first"), do.ClusterInPlace(NEXT),
        do.DcInPlace(1, do.TurningChain(1)),
    ),
    "row 1: the first dc in chain 5; after a turning chain of 3 it is 6": begin(do.ClusterInPlace(do.FromHook(5))),
    "row 1: two clusters without a gap between them": begin(*ROW_ONE[:2], do.ClusterInChain()),
    "row 1: a cluster in one chain before the edge stitch": begin(do.ClusterInChain()),
    "row 2: it is not the last cluster": vee(
        do.ChainStitches(3), do.TurnWork(), do.ClusterInPlace(do.StitchBelow("last")), TOP
    ),
    "row 2: a cluster has more than one stitch": follow(*PASSED, do.ClusterInPlace(NEXT), do.DcInPlace(
        1, do.StitchBelow("last")
    )),
    "row 2: no such edge stitch is left unworked": follow(
        do.ChainStitches(3), do.TurnWork(), do.PassCluster("first"), do.ClusterInPlace(NEXT), do.ChainStitches(1),
        do.ClusterInPlace(NEXT), do.DcInPlace(1, do.LastDc()), do.LeaveRest("edge"),
    ),
    "row 2: the row goes on after what is left unworked": follow(*ROW_TWO, do.LeaveRest("tch"), TOP),
    "row 1: row 1 begins on its foundation, not with more chains": begin(do.ChainStitches(3)),
    "row 2: chains made twice before turning": follow(do.ChainStitches(3), do.ChainStitches(3)),
    "row 2: the work is turned twice": follow(*TURNED, do.TurnWork()),
    "row 1: the work is turned in the middle of a row": begin(*ROW_ONE[:2], do.TurnWork()),
    "row 2: which of the chains are the turning chain is not said": follow(do.DcInPlace(1, do.FromHook(5))),
    "row 2: the work is not turned": follow(do.ChainStitches(8, 3), do.DcInPlace(1, do.FromHook(5))),
    "row 2: a turning chain told of a gap": follow(*PASSED, do.ChainStitches(1, 3)),
    "row 2: a new chain that is all turning chain": follow(do.ChainStitches(3, 3), do.TurnWork()),
    "row 2: the edge stitch is not next to the hook": follow(do.PassEdge()),
    "row 2: the edge stitch is passed twice": follow(do.TurnWork(), do.PassEdge(), do.PassEdge()),
    "row 2: whether the slip stitches count the edge stitch is not said": follow(do.TurnWork(), do.SlipStitches(1)),
    "row 2: the edge stitch is passed for nothing": follow(
        do.TurnWork(), do.PassEdge(), do.ChainStitches(4), *ROW_TWO[2:]
    ),
    "row 1: a chain counted from the hook in the middle of a row": begin(*ROW_ONE[:2], do.DcInPlace(1, do.FromHook(9))),
    "row 1: the first dc in chain 4; after a turning chain of 3 it is 5": begin(do.DcInPlace(1, do.FromHook(4))),
    "row 1: a turning chain is missing, on the chain": begin(do.DcAlongChain(3)),
    "row 1: row 1 begins with a dc counted from the hook": begin(do.PassChains(4)),
    "row 2: 3 chains skipped of 8": follow(do.ChainStitches(8, 4), do.TurnWork(), do.PassChains(3)),
    "row 1: the chain has only 16 chains": begin(*ROW_ONE[:3], do.ChainStitches(1), do.PassChains(2)),
    "row 1: two dc would stand in the last chain": begin(*ROW_ONE[:3], do.DcInPlace(2, do.ChainEnd())),
    "row 1: a turning chain is missing, at the last chain": begin(do.DcInPlace(1, do.ChainEnd())),
    "row 1: the chain has only 15 chains, and all are used": begin(*ROW_ONE, chains=15),
    "row 1: two dc would stand in one chain": begin(do.DcInPlace(2, do.FromHook(5))),
    "row 2: the same place, where nothing was worked": follow(*TURNED, do.ClusterInPlace(do.SamePlace())),
    "row 2: the first section does not end on a cluster, of V stitches": vee(
        *TURNED_3, do.ClusterInPlace(do.StitchBelow("same")), TOP
    ),
    "row 2: nothing stands beside an edge stitch": follow(*TURNED, do.ClusterInPlace(do.HalfSpace())),
    "row 2: the place beside the edge stitch is not next to the hook": vee(
        *TURNED_3, do.ClusterInPlace(do.HalfSpace()), TOP
    ),
    "row 2: a cluster and a dc in one place, where clusters stand in clusters": vee(
        *TURNED_3, do.ClusterInPlace(do.StitchBelow("next"), and_dc=True)
    ),
    "row 2: two stitches in one place in the middle of a row": moss(
        do.ChainStitches(1), do.TurnWork(), EDGE, do.ChainStitches(1), do.PassCluster("first"), do.DcInPlace(2, NEXT),
        EDGE,
    ),
    "row 2: a turning chain is missing, of a joined edge": vee(
        do.TurnWork(), do.DcTogether(do.EdgeStitch(), do.StitchBelow("next"))
    ),
    "row 2: the row begins in no edge stitch, joined": sc(
        do.ChainStitches(1), do.TurnWork(), do.DcTogether(do.StitchBelow("next"), do.EdgeStitch())
    ),
    "row 2: a dc joined with a turning chain that is a stitch by itself": sc(
        do.ChainStitches(1), do.TurnWork(), do.DcWithChain(do.StitchBelow("next"), 1)
    ),
    "row 2: a turning chain of 3 told, where 2 was made": solid(
        do.ChainStitches(2), do.TurnWork(), do.DcWithChain(do.StitchBelow("next"), 3)
    ),
    "row 2: a turning chain is missing, at its base": follow(do.TurnWork(), do.ClusterInPlace(do.Base())),
    "row 2: the base of the turning chain, when the row has gone on": follow(*TURNED, do.ClusterInPlace(do.Base())),
    "row 1: there is no row below row 1": begin(*ROW_ONE[:2], do.ChainStitches(1), do.ClusterInPlace(NEXT)),
    "row 2: 3 chains of the new chain are left over": follow(*OUT, do.ClusterInPlace(do.EdgeStitch())),
    "row 2: the edge stitch, where the turning chain is one and no new chain begins": follow(
        *TURNED, do.ClusterInPlace(do.EdgeStitch())
    ),
    "row 2: no such place in a row": follow(*PASSED, do.ClusterInPlace(do.ChainEnd())),
    "row 2: the edge stitch goes in chain 3 of the turning chain below": follow(
        *ROW_TWO[:-1], do.DcInPlace(1, do.TurningChain(4))
    ),
    "row 2: a cluster is passed over without a word, at the end": follow(*ROW_TWO[:-2], TOP),
    "row 2: the first section does not end in a space": follow(*TURNED, do.ClusterInPlace(do.SpaceBelow("same"))),
    "row 2: the first space is behind the hook": follow(*PASSED, do.ClusterInPlace(FIRST)),
    "row 2: there is no space left in the row below": follow(*ROW_TWO[:-2], do.ClusterInPlace(NEXT)),
    "row 2: a cluster is passed over without a word": follow(*TURNED, do.ClusterInPlace(NEXT)),
    "row 2: there is no cluster left in the row below": follow(*ROW_TWO[:-1], do.PassCluster("next")),
    "row 2: a cluster has no 4th dc": follow(*PASSED, do.ClusterInPlace(NEXT), do.DcInPlace(1, do.DcOf(4, "next"))),
    "row 2: the first section does not end on a cluster": divided(
        do.JoinYarn(None, 0, do.DcOf(2, "same")), join=False
    ),
    "row 2: a turning chain is missing, before a cluster is passed": follow(do.TurnWork(), do.PassCluster("first")),
    "row 1: there is no row below row 1, to pass a cluster of": begin(*ROW_ONE[:2], do.PassCluster("next")),
    "row 3: the first cluster is not next to the hook": follow(*PASSED, rows=2),
    "row 2: the cluster passed over is not the last": follow(*TURNED, do.PassCluster("last")),
    "row 2: the work is not turned, before slip stitches": follow(do.SlipStitches(1)),
    "row 2: slip stitches after chains": follow(do.ChainStitches(8, 4), do.TurnWork(), do.SlipStitches(1)),
    "row 2: no such space to slip into": follow(
        do.TurnWork(), do.PassEdge(), do.SlipStitches(1), do.SlipStitches(into="first")
    ),
    "row 2: there is no space left in the row below, to slip into": follow(
        do.TurnWork(), do.PassEdge(), do.SlipStitches(10), do.SlipStitches(into="next")
    ),
    "row 2: a yarn is joined where no other section has ended": follow(do.JoinYarn(None, 0, NEXT)),
    "row 2: a yarn is joined in the middle of a row": divided(do.JoinYarn(None, 0, NEXT)),
    "row 2: the row is left before its last stitch": follow(*PASSED, do.LeaveRest("rest")),
    "row 2: the yarn changes before the last stitch of the row": follow(*PASSED, do.ChangeYarn("Silt")),
    "row 2: the yarn changes twice": follow(*ROW_TWO, do.ChangeYarn("Silt"), do.ChangeYarn("Reed")),
    "row 2: something is to be worked no times": follow(*TURNED, do.DcInPlace(0, do.Base())),
    "row 1: 9 dc in chains of their own; a cluster has 3": begin(ROW_ONE[0], do.DcAlongChain(9)),
    "row 2: a repeat of no times": follow(*PASSED, do.RepeatSteps((do.ChainStitches(1),), 0)),
    "row 2: the work is not turned, at the end": follow(),
    "row 2: the end of the row below is left unworked without a word": follow(
        *PASSED, do.ClusterInPlace(NEXT), do.ChainStitches(1), do.DcInPlace(1, NEXT)
    ),
    "row 2: more or less than the turning chain is left unworked": follow(
        *PASSED, do.ClusterInPlace(NEXT), do.ChainStitches(1), do.DcInPlace(1, NEXT), do.LeaveRest("tch")
    ),
    "row 2: 1 clusters are left unworked, not 2": follow(
        *PASSED, do.ClusterInPlace(NEXT), do.ChainStitches(1), do.DcInPlace(1, NEXT), do.LeaveRest("clusters", 2)
    ),
    "row 2: nothing is left unworked": follow(*ROW_TWO, do.LeaveRest("rest")),
    "a cluster of 0 dc": lambda: Maker(Craft(0, 1), 16, 3, None),
    "a piece that is divided twice": lambda: (made := maker(1), made.divide(), made.divide()),
    "there is no row to divide": lambda: maker(0).divide(),
    "there is no divided row to go back to": lambda: maker(1).go_back(),
    "the yarn of the first section is not fastened off": _go_back_unfastened,
    "row 2: the yarn is fastened off": lambda: maker(1, off=True).row(told(2, ROW_TWO, (2, 7, 2))),
    "row 3: it comes after row 1": lambda: maker(1).row(told(3, ROW_TWO, (2, 7, 2))),
    "row 2: WS faces, not RS": follow(*ROW_TWO, side="RS"),
    "row 2: the yarn is not joined anew": divided(*ROW_TWO, join=False),
    "row 2: it is to be in Reed, but None is on the hook": follow(*ROW_TWO, yarn="Reed"),
    "row 2: two yarns come in at once": follow(*ROW_TWO, do.ChangeYarn("Silt"), change_to="Reed"),
    "row 2: the yarn changes and is fastened off": follow(*ROW_TWO, do.ChangeYarn("Silt"), fasten_off=True),
    "row 3: the yarn changes from Silt to Silt": lambda: (
        made := maker(1),
        made.row(told(2, (*ROW_TWO, do.ChangeYarn("Silt")), (2, 7, 2))),
        made.row(replace(told(3, (do.ChainStitches(3), do.TurnWork(), do.ClusterInPlace(FIRST), do.ChainStitches(1),
                                  do.ClusterInPlace(NEXT), do.ChainStitches(1), do.ClusterInPlace(NEXT), TOP,
                                  do.ChangeYarn("Silt")), (3, 10, 2)), yarn="Silt")),
    ),
    "row 2: 9 clusters take 27 dc; 7 are counted": follow(*ROW_TWO, count=Count(9, 7, 2, 0, 1)),
    "row 2: it counts 2 clusters, 8 dc, 2 ch, 0 sl st, 1 tch; 2 clusters, 7 dc, 2 ch, 0 sl st, 1 tch come out": follow(
        *ROW_TWO, count=Count(2, 8, 2, 0, 1)
    ),
    "row 2: its edges are said to go -1 half clusters at the end; they go straight": follow(
        *ROW_TWO, count=Count(2, 7, 2, 0, 1), shaped=(Shaped("end", -1),)
    ),
    "row 1: its spaces are said to lie (3, 3), not (4, 0)": lambda: closed(spaces=(3, 3)),
    "row 2: where the spaces of row 1 lie is not said": lambda: closed().row(
        told(2, (do.ChainStitches(3), do.TurnWork(), do.DcInPlace(1, do.Base()), do.PassCluster("first"),
                 do.ClusterInEach(1), do.PassCluster("last"), do.DcInPlace(2, do.TurningChain(3))), (1, 6, 0))
    ),
    "a piece without rows": lambda: maker(0).finish(),
    "the last row is not fastened off": lambda: maker(2).finish(),
}  # fmt: skip


CANNOT_FOLLOW |= solid_rows.CANNOT_FOLLOW | bare_rows.CANNOT_FOLLOW


@pytest.mark.parametrize("words", CANNOT_FOLLOW)
def test_what_cannot_be_followed_is_refused(words: str) -> None:
    with pytest.raises(Unworkable) as refused:
        CANNOT_FOLLOW[words]()
    assert words.startswith(str(refused.value))


def test_every_refusal_of_the_maker_is_tried() -> None:
    tried = {refused_at(refused, "maker") for refused in CANNOT_FOLLOW.values()}
    assert len(refusals("maker")) > 50
    assert refusals("maker") - tried == set()


def test_rows_can_be_followed() -> None:
    made = maker(3, off=True).finish()
    assert [one.row.clusters for one in made] == [3, 2, 3]


@pytest.mark.parametrize("seed", [2000114, 2000210])
def test_half_a_stitch_of_border_may_be_rounded_either_way(seed: int) -> None:
    """Slanted row ends come to 43 and a half sc, and to 35 and a half."""
    assert unproved(planned_at, seed)[1] == []


@pytest.mark.quick(0)
@pytest.mark.parametrize("seed", [7055, 7091, 7106])
def test_a_neck_edge_along_a_last_row_is_none_of_a_front_that_opens(seed: int) -> None:
    assert figures_of_file(seed)[1] == []
