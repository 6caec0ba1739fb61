"""What pieces might be, part by part: counts of rows and clusters, pieces that meet, mirror or follow others, what is
kept, and sizes of one form.

Oracles: small tables worked by hand, all whole numbers tried one by one, the foundation by the rules of the fabric's
model (common practice, no published source), and the rows of a finished plan. That 32 stitches of super fine yarn and 8
of bulky are 10 cm is published (see ``planning/plausibility``).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import groupby, pairwise, product
from types import SimpleNamespace
from typing import Any, Literal, cast

import pytest

from turnchain.errors import PatternError
from turnchain.fabric.gauge import Gauge, gauge_of
from turnchain.fabric.lattice import Side
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import RowPlan
from turnchain.pattern import (
    FRONT_EDGE,
    Fabric,
    Neck,
    OutlineStretch,
    Pattern,
    Piece,
    Progress,
    Seam,
    Stripes,
    Swatch,
    Yarn,
)
from turnchain.planning import agreeing, every_size, foundations, joining, mirrors, planner, row_plans, shoulders
from turnchain.planning.budget import MOST_PLACES, BudgetSpent, SearchBudget
from turnchain.planning.counts import row_counts, widths
from turnchain.planning.job import Job
from turnchain.planning.kept import KeptPieces
from turnchain.planning.measuring import farthest, fits
from turnchain.planning.pieces import Choice, Unplannable, choice_of, job_of
from turnchain.planning.plausibility import about_pattern
from turnchain.planning.progress import BegunPiece, begun_piece
from turnchain.planning.rows import rows_of
from turnchain.planning.workload import places_ahead
from turnchain.records import replace

F = Fraction
SWATCH = Swatch(F(4), F(10), F(8), F(10))  # a pitch is 2.5 cm, half of it 1.25, a row 1.25
GAUGE = gauge_of((SWATCH,))


def stand_in(**values: object) -> Any:
    return SimpleNamespace(**values)


def choice(piece: Piece, fabric: Fabric = Fabric(), swatch: Swatch = SWATCH) -> Choice:  # noqa: B008 - frozen
    pattern = Pattern("Test", (swatch,), (piece,), fabric=fabric)
    return choice_of(piece, pattern, gauge_of((swatch,)), SearchBudget())


def line(*points: tuple[float, float]) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((F(str(y)), F(str(x))) for y, x in points)


def kinds_of(one: Choice) -> list[tuple[str, str, int]]:
    return [(row.left.kind, row.right.kind, row.clusters) for row in rows_of(one.best, one.job.recipe)]


# ---------------------------------------------------------------------------------------------------- rows and clusters


@pytest.mark.parametrize("odd", [False, True])
@pytest.mark.parametrize("least", [1, 2, 3, 6])
def test_row_counts_enclose_the_wanted_one(odd: bool, least: int) -> None:
    """All numbers tried one by one."""
    allowed = [rows for rows in range(least, 40) if rows % 2 or not odd]
    for quarters in range(1, 60):
        wanted = F(quarters, 4)
        below = [rows for rows in allowed if rows <= wanted] or allowed[:1]
        above = [rows for rows in allowed if rows >= wanted]
        assert row_counts(wanted, odd, least) == sorted({below[-1], above[0]}), wanted
        if least == 1:
            assert row_counts(wanted, odd) == row_counts(wanted, odd, 1)


def test_widths_are_the_nearest_that_rows_alike_and_rows_in_turn_can_have() -> None:
    """Rows alike have a whole number of clusters and half a pitch over; the others an even number of half pitches."""
    for quarters in range(1, 60):
        wanted = F(quarters, 4)
        clusters = range(1, 20)
        least = min(abs(count - wanted / 2) for count in clusters)
        alike = [2 * count + 1 for count in clusters if abs(count - wanted / 2) == least]
        assert widths(wanted, "alike") == alike, wanted
        even = range(2, 40, 2)
        below = [wide for wide in even if wide <= wanted] or [2]
        assert widths(wanted, "alternate") == sorted({below[-1], next(wide for wide in even if wide >= wanted)}), wanted


@pytest.mark.quick(4)
@pytest.mark.parametrize(("k", "g"), [(3, 1), (3, 0), (2, 1), (4, 1), (5, 0)])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
def test_the_nearest_foundations_are_found_among_all(k: int, g: int, row_plan: str) -> None:
    """J clusters stand on 2 + k J + g (J - 1) chains and one more for each edge with a gap; a row that starts flush
    turns with 3 of them more, a spaced one with 3 + g. All J tried."""
    pairs = [(0, 0), (1, 1)] if row_plan == "alternate" else [(0, 1), (1, 0)]
    over = g if g else 1
    fitting = {
        2 + k * units + g * (units - 1) + over * (start + end) + 3 + g * start
        for units in range(1, 60) for start, end in pairs
    }  # fmt: skip
    for chain in range(1, 120):
        found = foundations.nearest(recipe_of(Fabric(k, g)), row_plan, chain)  # type: ignore[arg-type]
        below = [count for count in fitting if count < chain]
        nearest = ([max(below)] if below else []) + [min(count for count in fitting if count > chain)]
        assert list(found) == ([chain] if chain in fitting else nearest), chain


@pytest.mark.quick(1)
@pytest.mark.parametrize("kind", ["v", "wide-v", "mesh"])
def test_the_nearest_foundations_of_units_over_units_can_be_worked_and_those_between_cannot(kind: str) -> None:
    fabric, panel = Fabric(kind=kind), Piece("panel", width=F(25), length=F(10))
    assert recipe_of(fabric).stacked
    for chain in range(12, 30):
        found = foundations.nearest(recipe_of(fabric), "alternate", chain)
        exact = replace(panel, exact_chain=chain)
        if found == (chain,):
            assert choice(exact, fabric).best.foundation == chain
        else:
            with pytest.raises(Unplannable, match="a foundation of"):
                choice(exact, fabric)
            assert all((choice(replace(panel, exact_chain=one), fabric).best.foundation == one) for one in found)


# ------------------------------------------------------------------------------------------------------- what is warned


@pytest.mark.parametrize(("stitches_in_10_cm", "warned"), [("7.9", True), (8, False), (32, False), ("32.1", True)])
def test_a_stitch_that_no_yarn_has_is_told(stitches_in_10_cm: object, warned: bool) -> None:
    """A cluster of 3 with its chain is 4 stitches wide."""
    swatch = replace(SWATCH, clusters=F(str(stitches_in_10_cm)) / 4)
    pattern = Pattern("Test", (swatch,), (Piece("mat", width=F(60), length=F(60)),))
    said = list(about_pattern(pattern, gauge_of((swatch,))))
    assert len(said) == warned
    assert not said or "yarns from super fine to bulky give 0.31 to 1.25 cm" in said[0]


@pytest.mark.parametrize(("colours", "warned"), [(("#112233",), False), (("#112233", "#112233"), True),
                                                 (("#112233", "#112234"), False), ((), False)])  # fmt: skip
def test_yarns_of_one_colour_show_no_stripes(colours: tuple[str, ...], warned: bool) -> None:
    yarns = tuple(Yarn(f"yarn {nth}", colour) for nth, colour in enumerate(colours))
    pattern = Pattern("Test", (SWATCH,), (Piece("mat", width=F(60), length=F(60)),), yarns=yarns)
    said = list(about_pattern(pattern, GAUGE))
    assert len(said) == warned
    assert not said or f"all {len(colours)} yarns have the colour #112233" in said[0]


# ----------------------------------------------------------------------------------------------------- pieces that meet

SIDE, OTHER_SIDE = ("side", 0, 30), ("side", 0, 31)
ARMHOLE, MIDDLE = ("armhole", 30, 50), (FRONT_EDGE, 0, 40)


def of_stretches(*stretches: tuple[str, int, int], worked: str = "upwards") -> Piece:
    named = tuple(OutlineStretch(name, "left", F(low), F(high)) for name, low, high in stretches)
    return Piece("one", worked, stretches=named)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("one", "other", "sewn"),
    [
        ((SIDE, ARMHOLE), (SIDE, ARMHOLE), True),
        ((SIDE, ARMHOLE), (OTHER_SIDE, ARMHOLE), False),
        ((SIDE, ARMHOLE), (SIDE,), False),
        ((SIDE, ARMHOLE, MIDDLE), (SIDE, MIDDLE), False),
        ((SIDE, OTHER_SIDE, ARMHOLE), (OTHER_SIDE, ARMHOLE), True),
        ((SIDE, ARMHOLE), (ARMHOLE,), False),
        ((ARMHOLE,), (ARMHOLE,), False),
        ((MIDDLE,), (), True),
        ((MIDDLE,), (MIDDLE,), True),
        ((), (), False),
        ((SIDE,), (SIDE,), False),
    ],
)
def test_pieces_are_sewn_by_sides_of_one_height_or_by_a_front_that_opens(
    one: tuple[Any, ...], other: tuple[Any, ...], sewn: bool
) -> None:
    assert agreeing._sewn(of_stretches(*one), of_stretches(*other)) is sewn
    assert agreeing._sewn(of_stretches(*other), of_stretches(*one)) is sewn


def test_half_a_front_worked_sideways_is_sewn_to_no_back_by_itself() -> None:
    across = of_stretches(MIDDLE, worked="sideways")
    assert not agreeing._sewn(across, of_stretches())
    assert not agreeing._sewn(of_stretches(MIDDLE), of_stretches(worked="sideways"))
    assert not agreeing._sewn(across, across)


def test_the_height_of_a_piece_is_that_along_its_rows() -> None:
    panel = Piece("panel", width=F(40), length=F(50))
    assert agreeing.height_of(panel) == 50
    assert agreeing.height_of(replace(panel, worked="sideways")) == 40
    points = line((0, 20), (10, 24), (25, 24), (33, 12))
    assert agreeing.height_of(Piece("outline", outline=points)) == 33
    assert agreeing.height_of(Piece("apart", left_outline=points, right_outline=line((0, 9), (33, 9)))) == 33


@pytest.mark.parametrize(
    ("worked", "along", "across"),
    [("upwards", ("left", "right", "hem"), ("first", "last", "lower", "upper", "shoulder", "neck")),
     ("sideways", ("lower", "upper", "shoulder", "left", "right", "hem"), ("first", "last", "neck"))],
)  # fmt: skip
def test_edges_that_run_along_the_rows(worked: str, along: tuple[str, ...], across: tuple[str, ...]) -> None:
    piece = of_stretches(("hem", 0, 3), SIDE, worked=worked)
    assert [agreeing._along(piece, edge) for edge in along] == [True] * len(along)
    assert [agreeing._along(piece, edge) for edge in across] == [False] * len(across)


def meeting(*pieces: Piece, seams: tuple[tuple[str, str], ...] = ()) -> set[frozenset[str]]:
    pattern = Pattern("Test", (SWATCH,), pieces, seams=tuple(map(Seam, seams)))
    return {frozenset(pair) for pair in agreeing._meeting(pattern)}


def test_who_meets_whom() -> None:
    """Without seams panels of one size meet; with seams only what these join along the rows, or what faces another."""
    one = Piece("one", width=F(40), length=F(50))
    two, wider, taller = (replace(one, name=name) for name in ("two", "wider", "taller"))
    wider, taller = replace(wider, width=F(41)), replace(taller, length=F(51))
    across = replace(one, name="across", worked="sideways")
    outline = Piece("outline", outline=line((0, 20), (50, 30)))
    pieces = (one, two, wider, taller, across, outline)
    assert meeting(*pieces) == {frozenset({"one", "two"})}
    assert meeting(one, outline, replace(outline, name="other")) == set()
    joined = (("one.left", "wider.right"), ("one.right", "taller.left"), ("two.first", "wider.left"))
    assert meeting(*pieces, seams=joined) == {frozenset({"one", "wider"})}  # the taller one is not as high
    assert meeting(*pieces, seams=(("one.left", "outline.right"),)) == {frozenset({"one", "outline"})}
    facing = replace(outline, faces="two")
    assert meeting(*pieces[:-1], facing, seams=joined[-1:]) == {frozenset({"outline", "two"})}


def test_groups_hang_together_by_others_and_stand_in_the_order_of_the_pattern() -> None:
    names = "abcdef"
    pieces = tuple(Piece(name, width=F(10 + nth), length=F(50)) for nth, name in enumerate(names))
    seams = (("f.left", "b.right"), ("d.left", "c.right"), ("b.left", "d.left"))
    pattern = Pattern("Test", (SWATCH,), pieces, seams=tuple(map(Seam, seams)))
    assert agreeing._groups(pattern, list(names)) == [["a"], ["b", "c", "d", "f"], ["e"]]
    assert agreeing._groups(pattern, ["f", "c", "b"]) == [["b", "f"], ["c"]]
    assert agreeing.beside(pattern, {"d"}) == set("bcdf")
    assert agreeing.beside(pattern, {"e"}) == {"e"}


class OfRows:
    """A choice whose plans have these ranks, by their number of rows."""

    def __init__(self, ranks: dict[int, int], best: int, straight: bool = False, opening: object = None) -> None:
        self.ranks, self.best = ranks, stand_in(rows=best, rank=(ranks.get(best, 0),))
        self.ranked = [stand_in(rows=rows) for rows in ranks]
        self.job = stand_in(target=stand_in(straight=straight, opening=opening))

    def with_rows(self, rows: int) -> OfRows | None:
        return OfRows(self.ranks, rows) if rows in self.ranks else None


def rows_together(*group: OfRows, fixed: Sequence[int] = ()) -> list[int]:
    named = {str(nth): one for nth, one in enumerate(group)}
    return [one.best.rows for one in agreeing._together(cast(Any, named), set(fixed)).values()]


def test_pieces_that_meet_have_the_rows_that_are_best_for_all() -> None:
    """Sums of ranks by hand: 39 rows cost 5 + 1, 40 cost 0 + 9, 38 only one can have."""
    one, other = OfRows({40: 0, 39: 5, 38: 6}, 40), OfRows({39: 1, 40: 9}, 39)
    assert rows_together(one, other) == [39, 39]
    assert rows_together(one, OfRows({39: 9, 40: 1}, 39)) == [40, 40]
    assert rows_together(one, other, fixed=[40]) == [40, 40]
    assert rows_together(one, other, fixed=[38]) == [40, 39]  # the other cannot
    assert rows_together(one, other, fixed=[38, 40]) == [40, 39]  # two that are begun do not agree
    assert rows_together(one, fixed=[38]) == [38]
    assert rows_together(one, OfRows({40: 3, 39: 0}, 40)) == [40, 40]  # they agree as they are
    assert rows_together(one, OfRows({40: 3}, 40), fixed=[38, 39]) == [40, 40]


def test_numbers_of_rows_are_weighed_that_every_shaped_piece_weighs() -> None:
    def counts(*group: OfRows) -> set[int]:
        return agreeing._counts(cast(Any, {str(nth): one for nth, one in enumerate(group)}))

    shaped, other = OfRows({1: 0, 2: 0, 3: 0}, 1), OfRows({2: 0, 3: 0, 4: 0}, 2)
    straight, far = OfRows({3: 0, 5: 0}, 3, straight=True), OfRows({7: 0, 8: 0}, 7)
    divided = OfRows({3: 0, 6: 0}, 3, straight=True, opening="a curve")
    assert counts(shaped, other) == {2, 3}
    assert counts(shaped, straight) == {1, 2, 3}
    assert counts(shaped, divided) == {3}
    assert counts(straight, replace_straight(other)) == {3}
    assert counts(shaped, far) == {1, 2, 3, 7, 8}


def replace_straight(one: OfRows) -> OfRows:
    return OfRows(one.ranks, one.best.rows, straight=True)


# -------------------------------------------------------------------------------------------------------- mirror images


@pytest.mark.parametrize(
    ("edge", "late_at_right"),
    [
        ((10, 10, 12), False),  # row 3 starts at the right
        ((10, 12, 12), True),
        ((10, 10, 12, 14), True),
        ((10, 12, 12, 11, 13), True),
        ((10, 11, 12, 13), False),  # it leans
        ((10, 8, 8, 4), False),
        ((10, 10, 10, 10, 14), False),
    ],
)
def test_a_step_outwards_is_late_where_the_row_starts_at_the_other_edge(
    edge: tuple[int, ...], late_at_right: bool
) -> None:
    assert mirrors._steps_out_late(edge, "right", 1) is late_at_right
    over = (edge[0], *edge)  # a row later the other edge starts
    assert mirrors._steps_out_late(tuple(-at for at in over), "left", -1) is late_at_right


LEANING = Piece("one", outline=line((0, 30), (15, 22), (25, 22), (40, 36)), align="left")


#: Its second row is far less wide than the first.
STEPPING = Piece("one", outline=line((0, 40), (1, 40), (1, 20), (20, 16)), align="left")


@pytest.mark.quick(4)
@pytest.mark.parametrize("shape", [LEANING, STEPPING])
@pytest.mark.parametrize("gap", [1, 0])
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
@pytest.mark.parametrize("align", ["left", "right"])
def test_a_mirror_image_has_the_edges_the_clusters_and_the_measures_of_the_other(
    shape: Piece, gap: int, row_plan: RowPlan, align: Literal["left", "right"]
) -> None:
    """Its foundation by the model's sum of chains."""
    back: Side = "right" if align == "left" else "left"
    piece = replace(shape, align=align, row_plan=row_plan)
    one = choice(piece, Fabric(3, gap))
    other = choice(replace(piece, name="other", align=back, mirrors="one"), Fabric(3, gap))
    other = replace(other, best=other.ranked[-1])
    found = mirrors.turned_over({"one": one, "other": other})
    assert found["one"] is one
    image = found["other"]
    assert image.best.rows == one.best.rows
    assert kinds_of(image) == [(right, left, count) for left, right, count in kinds_of(one)]
    wide = one.best.right[0]
    assert image.best.left == tuple(wide - at for at in one.best.right)
    assert image.best.left[0] == 0
    assert image.best.right == tuple(wide - at for at in one.best.left)
    assert fits(image.job, image.best) == fits(one.job, one.best)
    distances = [farthest(each.job, each.best) for each in (image, one)]
    assert distances[0] is not None
    assert distances[1] is not None
    assert distances[0].distance == distances[1].distance
    assert distances[0].side != distances[1].side
    end, start, count = kinds_of(image)[0]
    spaced, over = [kind == "spaced" for kind in (start, end)], gap or 1
    chains = 2 + 3 * count + gap * (count - 1) + over * sum(spaced) + 3 + gap * spaced[0]
    assert image.best.foundation == chains


def test_what_mirrors_nothing_or_cannot_keeps_its_own_plan() -> None:
    one = choice(LEANING)

    def other(**more: Any) -> Choice:
        return replace(choice(replace(LEANING, name="other", align="right", **more)), best=one.ranked[-1])

    def kept(*choices: Choice) -> bool:
        named = {each.job.target.piece.name: each for each in choices}
        return mirrors.turned_over(named) == named

    assert kept(one, other())
    assert kept(one, other(mirrors="elsewhere"))
    assert not kept(one, other(mirrors="one"))
    rows = one.best.rows
    assert not kept(one, other(mirrors="one", exact_rows=rows))
    assert kept(one, other(mirrors="one", exact_rows=rows + 2))
    divided = replace(one, best=replace(one.best, split=cast(Any, "a neck")))
    assert kept(divided, other(mirrors="one"))
    for align, other_align, edge, odd in (("left", "right", "right", 1), ("right", "left", "left", 0)):
        outline = line((0, 20), (20, 20), (20, 30), (40, 30))
        stepped = choice(Piece("one", outline=outline, align=align))  # type: ignore[arg-type]
        line_of = getattr(stepped.best, edge)
        (out,) = [row for row, (below, at) in enumerate(pairwise(line_of), 2) if abs(at - below) > 1]
        assert out % 2 == odd  # made where a row starts: the image would step where one ends
        turned = replace(choice(replace(LEANING, name="other", align=other_align, mirrors="one")),  # type: ignore[arg-type]
                         best=one.ranked[-1])  # fmt: skip
        assert kept(stepped, turned)


# ------------------------------------------------------------------------------------------------------------ shoulders


@pytest.mark.parametrize(("opens", "wide"), [("left", 8 - 4), ("right", 6 - 1)])
def test_the_shoulder_of_half_a_front_runs_from_the_neck_to_where_it_begins_to_slope(opens: str, wide: int) -> None:
    front = stand_in(job=stand_in(target=stand_in(slope=2, piece=stand_in(opens_at=opens))),
                     best=stand_in(left=(0, 0, -3, 1, 2, 4), right=(10, 10, 11, 8, 7, 6)))  # fmt: skip
    assert shoulders._shoulder(front) == wide


@pytest.mark.parametrize(("arm", "wide"), [(1, 30 - 25), (6, 7 - 6)])
def test_the_shoulder_of_a_back_is_the_narrower_of_two(arm: int, wide: int) -> None:
    best = stand_in(left=(0, 1, arm, 3), right=(31, 29, 30, 28), split=stand_in(left=(9, 7), right=(20, 25)))
    assert shoulders._back_shoulder(stand_in(best=best, job=stand_in(target=stand_in(slope=1)))) == wide


def half_front(opens: str) -> Piece:
    """50 cm high, 20 cm wide; its neck goes in by 8 cm over the last 10."""
    straight, front = line((0, 10), (50, 10)), line((0, 10), (40, 10), (50, 2))
    edges = {"left_outline": front, "right_outline": straight}
    if opens == "right":
        edges = {"left_outline": straight, "right_outline": front}
    stretch = OutlineStretch(FRONT_EDGE, opens, F(0), F(40))  # type: ignore[arg-type]
    return Piece("front", stretches=(stretch,), **edges)  # type: ignore[arg-type]


@pytest.mark.parametrize("opens", ["left", "right"])
def test_a_shoulder_is_moved_by_as_much_as_was_asked_and_nothing_else_is(opens: str) -> None:
    front = choice(half_front(opens))
    side = "right" if opens == "left" else "left"
    for by in range(-4, 5):
        moved = shoulders._moved(front, by)
        if by == 0 or abs(by) > 2:
            assert moved is front
            continue
        assert shoulders._shoulder(moved) == shoulders._shoulder(front) + by
        assert moved.best.rows == front.best.rows
        assert len(set(getattr(moved.best, side))) == 1
        assert abs(moved.best.right[0] - moved.best.left[0] - front.best.right[0]) <= 1
    plain = choice(replace(half_front(opens), stretches=()))
    assert shoulders._moved(plain, 1) is plain


@pytest.mark.parametrize("opens", ["left", "right"])
@pytest.mark.parametrize("neck", [8, 11, 13])
def test_half_a_front_has_the_shoulder_of_the_back_that_is_as_high(opens: str, neck: int) -> None:
    wide = F(40)
    back = choice(Piece("back", width=wide, length=F(50), neck=Neck((wide - neck) / 2, F(6), "square")))
    front = choice(half_front(opens))
    assert back.best.split is not None
    off = shoulders._back_shoulder(back) - shoulders._shoulder(front)
    found = shoulders.as_at_the_back({"back": back, "front": front})
    assert found["back"] is back
    assert shoulders._shoulder(found["front"]) - shoulders._shoulder(front) == (off if abs(off) <= 2 else 0)
    other = choice(Piece("back", width=wide, length=F(51), neck=Neck(F(14), F(6), "square")))
    assert shoulders.as_at_the_back({"back": other, "front": front})["front"] is front


# ------------------------------------------------------------------------------------------------------ begun on others


@pytest.mark.parametrize(
    ("left", "right", "refused"),
    [
        ((0, 1, 1), (10, 9, 12), True),  # 10 wide, then 11
        ((0, 3, 1), (10, 9, 10), False),
        ((0, 0, 0), (10, 12, 10), False),
        ((0, 0, 0), (10, 7, 11), True),
    ],
)
def test_a_sleeve_begun_on_its_armhole_is_no_wider_at_its_last_row(
    left: tuple[int, ...], right: tuple[int, ...], refused: bool
) -> None:
    own = stand_in(best=stand_in(left=left, right=right))
    if refused:
        with pytest.raises(Unplannable, match="a sleeve wider at its last row"):
            joining._wider_first(own)
    else:
        assert joining._wider_first(own) is own


@pytest.mark.quick(8)
@pytest.mark.parametrize("row_plan", ["alike", "alternate"])
@pytest.mark.parametrize("more", range(4))
@pytest.mark.parametrize("exact", [None, 0, 1])
def test_row_1_is_as_wide_as_the_foundation_it_begins_on(row_plan: str, more: int, exact: int | None) -> None:
    """A cluster more or less can be had, two cannot; nor another number than was chosen."""
    def panel(name: str, clusters: int, **keys: object) -> Piece:
        return Piece(name, width=F(clusters) * GAUGE.pitch, length=F(20), row_plan=row_plan, **keys)  # type: ignore[arg-type]

    one = choice(panel("one", 12 + more))
    clusters = kinds_of(one)[0][2]
    own = panel("two", 12, begin_on="one.first", exact_clusters=None if exact is None else clusters + exact)
    found = {"one": one, "two": choice(own)}
    apart = abs(kinds_of(found["two"])[0][2] - clusters)
    if exact == 1 or apart > 1:
        with pytest.raises(Unplannable, match="no plan that begins on the chains of one"):
            joining.joined(own, found, choice)
        return
    made = joining.joined(own, found, choice)
    left, right, count = kinds_of(made)[0]
    assert (right, left, count) == kinds_of(one)[0]
    assert joining._clusters(made.job, made.best) == count
    assert joining._kinds(made.job, made.best) == (left, right)
    assert made.best in made.ranked
    assert joining.joined(replace(own, begin_on=None), found, choice) is found["two"]


def test_clusters_and_kinds_of_row_1_are_those_of_its_rows() -> None:
    """Of a piece whose first rows differ in all of them."""
    for piece in (LEANING, Piece("point", outline=line((0, 2), (30, 40))), half_front("left"), half_front("right")):
        own = choice(piece)
        for one in own.ranked:
            made = replace(own, best=one)
            first = kinds_of(made)[0]
            assert (*joining._kinds(made.job, one), joining._clusters(made.job, one)) == first


# --------------------------------------------------------------------------------------------------------- what is kept


class Making:
    """What is made by a search of so many places, and how often it was."""

    def __init__(self, places: int) -> None:
        self.places, self.times = places, 0

    def of(self, budget: SearchBudget) -> Callable[[], str]:
        def make() -> str:
            self.times += 1
            budget.spend(self.places)
            return "made"

        return make


def test_what_is_kept_counts_as_much_as_its_search_did() -> None:
    kept, making = KeptPieces(), Making(7)
    for before, times in ((100, 1), (50, 1), (MOST_PLACES - 7, 1), (0, 1)):
        budget = SearchBudget(before)
        assert kept._kept("key", budget, making.of(budget), None) == "made"
        assert (budget.places, making.times) == (before + 7, times)
    budget = SearchBudget(MOST_PLACES - 6)
    with pytest.raises(BudgetSpent):
        kept._kept("key", budget, making.of(budget), None)
    assert making.times == 2


def test_what_is_searched_once_counts_as_much_each_time() -> None:
    making, budget = Making(7), SearchBudget()
    for places in (7, 14):
        assert budget.once("key", making.of(budget)) == "made"
        assert (budget.places, making.times) == (places, 1)
    budget.spend(MOST_PLACES - 20)
    with pytest.raises(BudgetSpent):
        budget.once("key", making.of(budget))
    assert making.times == 2


BACK = Piece("back", outline=line((0, 40), (20, 34), (40, 40)), neck=Neck(F(8), F(3)))


@pytest.mark.parametrize("change", [
    {"neck": Neck(F(9), F(8), "square")}, {"count": 2, "faces": "back", "before": "Now the front."},
])  # fmt: skip
def test_edges_of_pieces_that_differ_by_their_necks_alone_are_searched_once(change: dict[str, Any]) -> None:
    front = replace(BACK, name="front", **change)
    apart, budget = choice(front), SearchBudget()
    pattern = Pattern("Test", (SWATCH,), (BACK, front))
    back, made = (choice_of(one, pattern, GAUGE, budget) for one in pattern.pieces)
    assert made.ranked == apart.ranked
    assert budget.places == back.job.budget.places == choice(BACK).job.budget.places + apart.job.budget.places
    searched = len(budget._found)
    choice_of(replace(front, name="other", outline=line((0, 40), (20, 35), (40, 40))), pattern, GAUGE, budget)
    assert len(budget._found) == 2 * searched


def test_what_was_used_longest_ago_is_dropped() -> None:
    """200 choices and as many plans are kept."""
    kept, making, budget = KeptPieces(), Making(0), SearchBudget()
    for key in range(400):
        kept._kept(key, budget, making.of(budget), None)
    kept._kept(0, budget, making.of(budget), None)
    assert making.times == 400
    kept._kept(400, budget, making.of(budget), None)  # 1 goes
    for key in (0, 2, 400):
        kept._kept(key, budget, making.of(budget), None)
    assert making.times == 401
    kept._kept(1, budget, making.of(budget), None)
    assert making.times == 402


def test_what_is_kept_without_alternatives_is_kept_apart() -> None:
    kept, one = KeptPieces(), choice(LEANING)
    alone = kept.without_alternatives()
    assert kept.alternatives
    assert not alone.alternatives
    assert alone._known is kept._known
    assert kept.planned(one).alternatives
    assert not alone.planned(one).alternatives
    assert kept.planned(one) is kept.planned(one)
    assert alone.planned(one) == replace(kept.planned(one), alternatives=())


def test_a_choice_is_known_by_all_that_it_depends_on_and_by_nothing_else() -> None:
    kept, budget = KeptPieces(), SearchBudget()
    pattern = Pattern("Test", (SWATCH,), (LEANING,))

    def new(piece: Piece, gauge: Gauge = GAUGE, of: Pattern = pattern) -> bool:
        known = len(kept._known)
        kept.choice(piece, of, gauge, budget)
        return len(kept._known) > known

    assert new(LEANING)
    assert not new(replace(LEANING, before="Wind the yarn.", after="Block it.", stripes_begin=3))
    assert new(replace(LEANING, align="right"))
    assert new(LEANING, replace(GAUGE, row=F(13, 10)))
    assert new(LEANING, of=replace(pattern, fabric=Fabric(3, 0)))
    assert new(LEANING, of=replace(pattern, units="in"))
    assert not new(LEANING)


# ---------------------------------------------------------------------------------------------------- sizes of one form

OF_MOVES = {"decrease": "in", "forced_decrease": "in", "increase": "out", "forced_increase": "out",
            "step_in": "step in", "step_out": "step out"}  # fmt: skip


@pytest.mark.parametrize("piece", [
    LEANING,
    replace(LEANING, row_plan="alternate"),
    Piece("point", outline=line((0, 2), (30, 40))),
    Piece("steps", outline=line((0, 40), (15, 40), (15, 26), (30, 26), (30, 36), (45, 36))),
    Piece("front", "sideways", width=F(48), length=F(52), neck=Neck(F(12), F(8))),
    half_front("left"),
])  # fmt: skip
def test_the_form_of_a_plan_is_that_of_its_rows(piece: Piece) -> None:
    one = choice(piece)
    for best in one.ranked:
        made = replace(one, best=best)
        form = every_size.form_of(made)
        worked = every_size.worked_form(made.planned(others=False))
        ways = tuple(tuple(way for way, _ in groupby(OF_MOVES[move] for move in edge)) for edge in worked.ways)
        assert form == replace(worked, ways=ways)


@pytest.mark.parametrize(("pitch", "row", "cm"), [(4, 1, "0.5"), (2, 3, "0.5"), (3, 3, "0.75"), (20, 3, "1.5")])
def test_leeway_is_a_quarter_of_a_pitch_or_half_a_row(pitch: int, row: int, cm: str) -> None:
    assert every_size.leeway(stand_in(gauge=stand_in(pitch=F(pitch), row=F(row)))) == F(cm)


def plan(rows: int = 40, missed: int = 1, off: bool = False) -> Any:
    return stand_in(rows=rows, missed=missed, roundness=stand_in(off=off))


@pytest.mark.parametrize(
    ("one", "best", "true"),
    [
        (plan(), plan(), True),
        (plan(rows=41), plan(), False),
        (plan(rows=39), plan(), False),
        (plan(missed=2), plan(), False),
        (plan(missed=0), plan(), True),
        (plan(off=True), plan(), False),
        (plan(off=True), plan(off=True), True),
        (plan(off=False), plan(off=True), True),
    ],
)
def test_a_plan_in_place_of_the_best_keeps_rows_mirrors_and_the_ellipse(one: Any, best: Any, true: bool) -> None:
    assert every_size._as_true(one, best) is true


@pytest.mark.parametrize(
    ("misses", "worked", "near"),
    [
        ({"width": 1, "length": 2}, {"width": 10, "length": 20}, True),
        ({"width": "1.5", "length": 2}, {"width": "10.5", "length": "19.5"}, True),
        ({"width": "1.51", "length": 2}, {"width": 10, "length": 20}, False),
        ({"width": 1, "length": "2.6"}, {"width": 10, "length": 20}, False),
        ({"width": 1, "length": 0}, {"width": 10, "length": "20.6"}, False),
        ({"width": 1, "length": 2}, {"width": "9.4", "length": 20}, False),
        ({"width": 1}, {"width": 10}, False),
        ({"width": 1, "length": 2, "neck width": 0}, {"width": 10, "length": 20, "neck width": 5}, False),
    ],
)
def test_a_plan_in_place_of_the_best_misses_and_moves_no_measure_by_more_than_the_leeway(
    misses: dict[str, object], worked: dict[str, object], near: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Half a cm here."""
    best, other, as_false = plan(), plan(missed=0), plan(rows=2)
    figures = {id(best): ({"width": F(1), "length": F(2)}, {"width": F(10), "length": F(20)}),
               id(other): tuple({name: F(str(cm)) for name, cm in of.items()} for of in (misses, worked))}  # fmt: skip
    job = stand_in(gauge=stand_in(pitch=F(4), row=F(1)))
    own = stand_in(job=job, best=best)
    made = [stand_in(job=job, best=one) for one in (as_false, other)]
    monkeypatch.setattr(every_size, "_misses", lambda _, one: figures[id(one)][0])
    monkeypatch.setattr(every_size, "_worked", lambda _, one: figures[id(one)][1])
    monkeypatch.setattr(every_size, "_all_of", lambda *_: iter(made))
    assert list(every_size._near(own, False)) == made[1:] * near


def of_forms(monkeypatch: pytest.MonkeyPatch, alone: Sequence[str], others: Sequence[str] = ()) -> list[str]:
    """The forms that sizes come out with that could have these by themselves, and these with the other row plan too;
    the first of each is its best."""
    asked: list[bool] = []

    def by_form(size: Any, others_too: bool = False, **keys: bool) -> dict[Any, Any]:
        asked.append(keys.get("others", others_too))
        return {form: f"{size.nth}{form}" for form in (others if asked[-1] else alone)[size.nth]}

    sizes = [stand_in(nth=nth, form=forms[0]) for nth, forms in enumerate(alone)]
    monkeypatch.setattr(every_size, "form_of", lambda size: size.form)
    monkeypatch.setattr(every_size, "_by_form", by_form)
    made = every_size._of_one_form(sizes)
    assert len(asked) in (0, len(sizes), 2 * len(sizes))
    assert (len(asked) > len(sizes)) == bool(others)
    return [one if isinstance(one, str) else f"{one.nth}{one.form} as it is" for one in cast(Any, made)]


def test_sizes_take_the_form_that_most_of_them_can_have(monkeypatch: pytest.MonkeyPatch) -> None:
    assert of_forms(monkeypatch, ["A", "A"]) == ["0A as it is", "1A as it is"]
    assert of_forms(monkeypatch, ["AB", "B", "B"]) == ["0B", "1B", "2B"]
    assert of_forms(monkeypatch, ["AB", "BA", "BA"]) == ["0B", "1B", "2B"]  # most have it by themselves
    assert of_forms(monkeypatch, ["ACB", "BA"]) == ["0A", "1A"]  # it stands first and second, the other third and first
    assert of_forms(monkeypatch, ["BCA", "AB"]) == ["0B", "1B"]
    assert of_forms(monkeypatch, ["A", "B", "B"], ["AC", "BD", "BC"]) == ["0A as it is", "1B", "2B"]
    assert of_forms(monkeypatch, ["A", "B"], ["AC", "BC"]) == ["0C", "1C"]


def test_each_piece_is_of_one_form_in_the_sizes_that_have_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(every_size, "_of_one_form", lambda some: [f"{one} of {len(some)}" for one in some])
    sizes = [{"a": "a1", "b": "b1"}, {"a": "a2"}, {"c": "c3", "b": "b3", "a": "a3"}]
    assert cast(Any, every_size.alike(cast(Any, sizes))) == [
        {"a": "a1 of 3", "b": "b1 of 2"}, {"a": "a2 of 3"}, {"c": "c3 of 1", "b": "b3 of 2", "a": "a3 of 3"},
    ]  # fmt: skip


@pytest.mark.parametrize(("row_plan", "others", "plans"), [
    ("auto", False, {"alternate"}), ("auto", True, {"alternate", "alike"}), ("alternate", True, {"alternate"}),
])  # fmt: skip
def test_the_other_row_plan_is_looked_at_where_it_is_open(row_plan: str, others: bool, plans: set[str]) -> None:
    one = choice(Piece("point", outline=line((0, 10), (30, 40)), row_plan=row_plan))  # type: ignore[arg-type]
    found = list(every_size._all_of(one, others))
    assert {each.best.row_plan for each in found} == plans
    assert [each.best for each in found[: len(one.ranked)]] == one.ranked
    by_form = every_size._by_form(one, others)
    assert next(iter(by_form.values())) is one
    assert all(every_size.form_of(each) == form for form, each in by_form.items())


def test_a_size_whose_budget_is_spent_has_its_plans_all_the_same() -> None:
    one = choice(Piece("point", outline=line((0, 10), (30, 40))))
    spent = replace(one, job=replace(one.job, budget=SearchBudget(MOST_PLACES)))
    assert [each.best for each in every_size._all_of(spent, True)] == one.ranked


# ------------------------------------------------------------------------------------------------ rows alike or in turn


def test_the_row_plan_is_open_of_shaped_outlines_that_no_neck_divides() -> None:
    shaped = choice(Piece("point", outline=line((0, 10), (30, 40)))).job.target
    assert row_plans.is_open(shaped)
    panel = Piece("panel", width=F(40), length=F(40))
    assert not row_plans.is_open(choice(panel).job.target)
    assert not row_plans.is_open(choice(replace(panel, neck=Neck(F(12), F(8)))).job.target)
    neck = replace(LEANING, align="centre", neck=Neck(F(12), F(8)))
    assert not row_plans.is_open(choice(neck).job.target)


def test_the_other_row_plan_is_taken_where_it_comes_nearer_and_the_first_misses() -> None:
    """All candidates of both, one by one: measures missed come first, then the cost."""
    for low, high in product((3, 20), (4, 21)):
        piece = Piece("one", outline=line((0, low), (6, high)))
        own = choice(piece)
        apart = {plan: choice(replace(piece, row_plan=plan)) for plan in ("alike", "alternate")}
        first = own.job.target if own.job.target.piece.row_plan == "auto" else None
        natural = "alternate" if first is None else first.row_plan
        other = row_plans.other_row_plan(cast(Any, natural))
        nearer = [(apart[one].best.named, apart[one].best.cost) for one in (natural, other)]
        taken = own.best.row_plan
        assert taken == natural or nearer[1] < nearer[0]
        missing = row_plans._misses(apart[natural].job, apart[natural].best)
        assert taken == (other if missing and nearer[1] < nearer[0] else natural)


@pytest.mark.parametrize(
    ("open_", "first", "misses", "others", "taken"),
    [
        (True, [(1, 5)], True, [(1, 4)], "other"),
        (True, [(1, 5)], True, [(0, 9)], "other"),
        (True, [(1, 5)], True, [(1, 5)], "first"),
        (True, [(1, 5)], True, [(2, 1)], "first"),
        (True, [(1, 5), (0, 0)], True, [(1, 6), (0, 0)], "first"),
        (True, [(1, 5), (9, 9)], True, [(1, 4), (9, 9)], "other"),
        (True, [(1, 5)], True, [], "first"),
        (True, [], False, [(1, 4)], "other"),
        (True, [], False, [], "first"),
        (True, [(1, 5)], False, [(1, 4)], "first"),
        (False, [(1, 5)], True, [(1, 4)], "first"),
        (False, [], True, [(1, 4)], "first"),
        (True, [(1, 5)], True, None, "first"),
        (True, [], False, None, "spent"),
    ],
)
def test_the_nearer_of_both_row_plans_by_measures_missed_and_then_by_cost(
    open_: bool, first: list[Any], misses: bool, others: list[Any] | None, taken: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """``others`` None: the budget is spent."""
    plans = [[stand_in(named=named, cost=cost) for named, cost in some or []] for some in (first, others)]

    def ranked(job: Any, row_plan: str) -> list[Any]:
        assert job.target.row_plan == row_plan
        if row_plan == "alike" and others is None:
            raise BudgetSpent
        return plans[row_plan == "alike"]

    monkeypatch.setattr(row_plans, "ranked_with", ranked)
    monkeypatch.setattr(row_plans, "is_open", lambda _: open_)
    monkeypatch.setattr(row_plans, "_misses", lambda _, plan: misses and plan is plans[0][0])
    own, other = (stand_in(target=stand_in(row_plan=plan, piece=stand_in(row_plan="auto")))
                  for plan in ("alternate", "alike"))  # fmt: skip
    monkeypatch.setattr(row_plans, "with_row_plan", lambda _, plan: {"alike": other}[plan])
    if taken == "spent":
        with pytest.raises(BudgetSpent):
            row_plans.ranked_candidates(own)
        return
    assert row_plans.ranked_candidates(own) == ((other, plans[1]) if taken == "other" else (own, plans[0]))
    own.target.piece.row_plan = "alternate"
    assert row_plans.ranked_candidates(own) == (own, plans[0])


@pytest.mark.parametrize("width", [12, 3])
def test_a_width_is_missed_in_the_rows_of_points_alone(width: int) -> None:
    """24 rows of 1.25 cm; points at 0, 10, 20 and 30 cm, the inner ones at one edge each: row 1, rows 8, 16 and 24. Of
    rows of one cluster none has less."""
    left, right = line((0, width), (10, width), (30, width + 1)), line((0, width), (20, width), (30, width - 1))
    one = choice(Piece("one", left_outline=left, right_outline=right))
    assert one.best.rows == 24
    assert not row_plans._misses(one.job, one.best)
    for row in range(1, 25):
        for by in (3, -3):
            moved = tuple(at + by * (nth == row) for nth, at in enumerate(one.best.right, 1))
            wrong = replace(one.best, right=moved)
            many = one.job.recipe.clusters(wrong.left[row - 1], moved[row - 1], (one.best.phase + row) % 2) > 1
            assert row_plans._misses(one.job, wrong) == (row in (1, 8, 16, 24) and many), (row, by)


# --------------------------------------------------------------------------------------------------------- pieces begun


def rows_made(body: int, shoulder: int, left_first: bool = False) -> list[Any]:
    """Rows of a body 20 half pitches wide and two shoulders of 5, that on the right first."""
    def row(section: str, number: int, left: int, right: int) -> Any:
        return stand_in(section=section, number=number, left=stand_in(at=left), right=stand_in(at=right))

    rows = [row("body", number, -number, 20 + number) for number in range(1, body + 1)]
    halves = [("first", 15, 20), ("second", 0, 5)]
    for name, left, right in [halves[1], halves[0]] if left_first else halves:
        rows += [row(name, number, left, right + number) for number in range(body + 1, body + shoulder + 1)]
    return rows


@pytest.mark.parametrize(
    ("body", "shoulder", "worked", "last", "after", "top"),
    [
        (1, 2, 1, 1, None, None),
        (1, 2, 3, 3, 1, 3),
        (4, 2, 3, 3, None, None),
        (4, 2, 4, 4, None, None),
        (4, 2, 5, 5, 4, None),
        (4, 2, 6, 6, 4, 6),
        (4, 2, 7, 6, 4, 6),
        (4, 2, 8, 6, 4, 6),
        (4, 0, 4, 4, None, None),
        (4, 0, 2, 2, None, None),
    ],
)
@pytest.mark.parametrize("left_first", [False, True])
def test_what_is_known_of_a_piece_begun(
    body: int, shoulder: int, worked: int, last: int, after: int | None, top: int | None, left_first: bool
) -> None:
    """One row of a body or four, and two shoulders of two rows, or none; by hand."""
    rows = rows_made(body, shoulder, left_first)
    begun = begun_piece(rows, 1, F(3), worked)
    assert (begun.rows, begun.after, begun.top, begun.phase, begun.origin) == (last, after, top, 1, F(3))
    done = rows[:worked]
    lines = begun.lines
    assert lines["left"] == {row.number: row.left.at for row in done if row.left.at <= 0}
    assert lines["right"] == {row.number: row.right.at for row in done if row.right.at > 15}
    assert lines["inner_left"] == {row.number: row.right.at for row in done if row.right.at < 15}
    assert lines["inner_right"] == {row.number: row.left.at for row in done if row.left.at == 15}


@pytest.mark.parametrize(
    ("origin", "centre", "shift"), [(F(3), F(0), 3), (F(5, 2), F(1, 2), 3), (F(-5, 2), F(1, 2), -2), (F(-2), F(0), -2)]
)
@pytest.mark.parametrize("phase", [0, 1])
def test_the_frame_of_a_piece_begun_is_that_it_was_fitted_in(
    origin: Fraction, centre: Fraction, shift: int, phase: int
) -> None:
    """Row 1's left edge stands at origin + centre there; reaches go outwards."""
    lines: Any = {"left": {1: 0, 2: -1}, "right": {1: 8}, "inner_left": {5: 3}, "inner_right": {5: 6}}
    begun = BegunPiece(5, phase, origin, lines)
    assert begun.frame == (centre, shift)
    assert begun.frame_phase == (phase + shift) % 2
    assert begun.reaches("left") == {1: -shift, 2: 1 - shift}
    assert begun.reaches("right") == {1: 8 + shift}
    assert begun.reaches("inner_left") == {5: 3 + shift}
    assert begun.reaches("inner_right") == {5: -6 - shift}
    assert BegunPiece(5, phase, origin).reaches("left") == {}


# ---------------------------------------------------------------------------------------------------- before the search


@pytest.mark.parametrize(
    ("shape", "shoulder", "depth", "places"),
    [
        ("round", 100, 10, 84 * 400 * (5 + 8 / 12)),
        ("vee", 100, 10, 7 * 400 * (5 + 8 / 12)),
        ("slant", 100, 10, 7 * 400 * 5),
        ("square", 100, 10, 7 * 400 * 5),
    ],
)
def test_how_much_a_neck_worked_sideways_takes(shape: str, shoulder: int, depth: int, places: float) -> None:
    """400 rows, five reaches of each and a twelfth of one more for each of the 8 half pitches that a curve is deep, for
    every search; how many were counted is told in ``workload``."""
    neck = Neck(F(shoulder), F(depth), shape)  # type: ignore[arg-type]
    assert ahead(Piece("p", "sideways", width=F(500), length=F(60), neck=neck)) == round(places)


def ahead(piece: Piece) -> int:
    return places_ahead(choice_job(piece))


def choice_job(piece: Piece) -> Job:
    return job_of(piece, Pattern("Test", (SWATCH,), (piece,)), GAUGE, SearchBudget())


def test_how_much_an_outline_or_a_divided_piece_takes() -> None:
    """Ten searches of five reaches a row, shared by the edges that are shaped; of a neck that divides a piece its own
    rows alone. Nothing of straight pieces and of small ones."""
    gentle = line((0, 100), (500, 105))
    assert ahead(Piece("p", outline=gentle)) == 10 * 5 * 400
    assert ahead(Piece("p", outline=gentle, align="left")) == 10 * 5 * 400
    assert ahead(Piece("p", width=F(60), length=F(500), neck=Neck(F(20), F(10), "vee"))) == 10 * 5 * 8
    assert ahead(Piece("p", width=F(60), length=F(500))) == 0
    assert ahead(Piece("p", outline=line((0, 100), (248, 105)))) == 0  # 199 rows
    assert ahead(Piece("p", outline=line((0, 100), (250, 105)))) == 10 * 5 * 200


def test_an_edge_that_no_rows_can_follow_takes_more() -> None:
    """Half a pitch a row is what an edge can go out: ten times that over 200 rows leaves it hundreds of half pitches
    behind, and 0.45 times the root of the rows is searched of each row besides."""
    steep = Piece("p", outline=line((0, 20), (250, 5020)), align="left")
    assert ahead(steep) == round(10 * 200 * (5 + 0.45 * 200**0.5))
    there = Piece("p", outline=line((0, 20), (250, 260)), align="left")  # 192 half pitches in 200 rows
    assert ahead(there) == 10 * 200 * 5


@pytest.mark.parametrize(
    ("other", "path"),
    [
        (replace(LEANING, exact_clusters=90), ("piece", 1, "exact_clusters")),
        (Piece("one", width=F(40), length=F(45), exact_chain=3), ("piece", 1, "exact_chain")),
        (Piece("one", width=F(1, 2), length=F(40), row_plan="alternate"), ("piece", 1)),
    ],
)
def test_what_cannot_be_planned_is_told_at_its_key(other: Piece, path: tuple[object, ...]) -> None:
    with pytest.raises(PatternError) as error:
        planner.plan_pattern(Pattern("Test", (SWATCH,), (Piece("mat", width=F(40), length=F(40)), other)))
    assert [problem.path for problem in error.value.problems] == [path]


def test_one_piece_of_several_is_begun_on_another() -> None:
    """30 cm are 12 clusters, 32.5 cm are 13 by themselves."""
    one, two, three = (Piece(name, width=F(30), length=F(20)) for name in ("one", "two", "three"))
    two = replace(two, width=F(65, 2))
    begun = replace(two, begin_on="one.first")
    alone, joined = (
        planner.plan_pattern(Pattern("Test", (SWATCH,), (one, some, three))).piece("two").rows[0]
        for some in (two, begun)
    )
    assert (alone.clusters, joined.clusters) == (13, 12)


def test_what_is_worked_and_cannot_be_is_told_at_its_progress() -> None:
    mat, other = Piece("mat", width=F(40), length=F(40)), Piece("other", width=F(40), length=F(45))
    progress = (Progress("other", 4, F(5)), Progress("mat", 33, F(40)))
    with pytest.raises(PatternError) as error:
        planner.plan_pattern(Pattern("Test", (SWATCH,), (mat, other), progress=progress))
    assert [problem.path for problem in error.value.problems] == [("progress", 1)]
    most = (progress[0], replace(progress[1], rows=32))
    assert planner.plan_pattern(Pattern("Test", (SWATCH,), (mat, other), progress=most)).pieces


def test_the_fewest_rows_that_pieces_have_are_known_before_anything_is_searched() -> None:
    """40 cm are 32 rows, two fewer at the least."""
    mat, tiny = Piece("mat", width=F(50), length=F(40)), Piece("tiny", width=F(50), length=F(2))
    exact = Piece("exact", width=F(50), length=F(40), exact_rows=31)
    pattern = Pattern("Test", (SWATCH,), (mat, tiny, exact))
    assert planner._fewest_rows(pattern, GAUGE) == {"mat": 30, "tiny": 0, "exact": 31}
    assert planner._fewest_rows(replace(pattern, progress=(Progress("mat", 3, F(4)),)), GAUGE)["exact"] == 0
    mixed = replace(pattern, fabric=Fabric(rows=("cluster", "sc")))
    assert set(planner._fewest_rows(mixed, GAUGE).values()) == {0}


def test_a_stash_for_far_too_many_rows_is_refused_before_anything_is_searched() -> None:
    """50 pieces of 998 rows at the least, of 1000 that are wanted."""
    yarns = tuple(Yarn(f"yarn {nth}", f"#10{nth:02}33", F(100)) for nth in range(12))
    mat = Piece("mat", width=F(50), length=F(1250), count=50)
    with pytest.raises(PatternError, match="49900 rows or more and 12 yarns"):
        planner.plan_pattern(Pattern("Test", (SWATCH,), (mat,), yarns=yarns, stripes=Stripes(kind="stash")))
