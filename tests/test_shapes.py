"""Every shape: necks of each kind, pieces that divide, edges given apart, armholes by steps.

Random pieces are worked stitch by stitch by a worker who knows only the rules (``workable``), here also through a
split; mirrors are looked for where they are wished; splits of tiny pieces are planned again by trying every one.
Source of the rules: the lattice, DEVELOPERS.md (no published source).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from turnchain.errors import PatternError
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch
from turnchain.plan_json import plan_data
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from workable import YARNS, Unworkable, Worked, first_row, gauge, next_row, outlines, swatches

SHAPES = ("slant", "round", "vee", "square")
FABRICS = st.builds(Fabric, st.sampled_from([3, 3, 2, 4, 5]), st.integers(0, 1))


def steady(examples: int) -> settings:
    """So many examples."""
    return settings(
        max_examples=examples,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large],
    )


# ------------------------------------------------------------------------------------------- random shapes


def _part(draw: st.DrawFn, whole: Fraction, least: int, most: int) -> Fraction:
    """Some fortieths of ``whole``."""
    return whole * Fraction(draw(st.integers(least, most)), 40)


@st.composite
def necked_panels(draw: st.DrawFn, pitch: Fraction, row: Fraction, most_rows: int, most_clusters: int) -> Piece:
    """Panels with a neck, worked either way."""
    worked = draw(st.sampled_from(["sideways", "upwards"]))
    high = row * Fraction(draw(st.integers(8, 4 * most_rows)), 4)
    across = pitch * Fraction(draw(st.integers(20, 8 * most_clusters)), 8)
    width, length = (high, across) if worked == "sideways" else (across, high)
    neck = Neck(_part(draw, width, 4, 18), _part(draw, length, 1, 26), draw(st.sampled_from(SHAPES)))
    edge = draw(st.sampled_from(["left", "right"])) if worked == "sideways" else "right"
    row_plan = draw(st.sampled_from(["auto", "auto", "alike", "alternate"]))
    return Piece("piece", worked, width=width, length=length, neck=neck, row_plan=row_plan, neck_edge=edge)


@st.composite
def necked_outlines(draw: st.DrawFn, pitch: Fraction, row: Fraction, most_rows: int, most_clusters: int) -> Piece:
    """Outlines worked upwards, divided by a neck at the top."""
    points = draw(outlines(pitch, row, most_rows, most_clusters, least=28))
    top, height = points[-1][1], points[-1][0]
    neck = Neck(_part(draw, top, 6, 18), _part(draw, height, 1, 26), draw(st.sampled_from(SHAPES)))
    return Piece("piece", outline=points, neck=neck)


@st.composite
def edges_apart(draw: st.DrawFn, pitch: Fraction, row: Fraction, most_rows: int, most_clusters: int) -> Piece:
    """Left and right edges given apart, each with points of its own; sometimes alike, sometimes one straight."""
    height = row * Fraction(draw(st.integers(8, 4 * most_rows)), 4)

    def edge() -> tuple[tuple[Fraction, Fraction], ...]:
        inner = sorted(draw(st.sets(st.integers(1, 11), max_size=3)))
        places = [Fraction(0), *(height * Fraction(place, 12) for place in inner), height]
        reaches = [pitch * Fraction(draw(st.integers(9, 4 * most_clusters)), 8) for _ in places]
        points = list(zip(places, reaches, strict=True))
        if inner and draw(st.booleans()):  # a jump
            at = places[1]
            points.insert(2, (at, pitch * Fraction(draw(st.integers(9, 4 * most_clusters)), 8)))
        return tuple(points)

    left = edge()
    kind = draw(st.integers(0, 3))
    level = ((Fraction(0), left[0][1]), (height, left[0][1]))
    right = left if kind == 0 else level if kind == 1 else edge()
    if draw(st.booleans()):
        left, right = right, left
    return Piece("piece", left_outline=left, right_outline=right)


@st.composite
def armholes(draw: st.DrawFn, pitch: Fraction, row: Fraction, most_rows: int, most_clusters: int) -> Piece:
    """A body cut in suddenly at both edges, as for an armhole, perhaps with a neck above."""
    high = row * Fraction(draw(st.integers(12, 4 * most_rows)), 4)
    wide = pitch * Fraction(draw(st.integers(44, 8 * most_clusters)), 8)
    at = _part(draw, high, 8, 24)
    narrow = wide - pitch * draw(st.integers(1, 2)) * draw(st.sampled_from([1, 2]))
    points = ((Fraction(0), wide), (at, wide), (at, narrow), (high, narrow))
    neck = None
    if draw(st.booleans()):
        neck = Neck(_part(draw, narrow, 8, 18), _part(draw, high - at, 4, 36), draw(st.sampled_from(SHAPES)))
    return Piece("piece", outline=points, neck=neck, align=draw(st.sampled_from(["centre", "centre", "left"])))


KINDS = (necked_panels, necked_outlines, edges_apart, armholes)


@st.composite
def shaped_patterns(draw: st.DrawFn, most_rows: int = 16, most_clusters: int = 12) -> Pattern:
    """A pattern of one piece of any of the shapes above."""
    swatch = draw(swatches())
    pitch, row = gauge(swatch)
    piece = draw(draw(st.sampled_from(KINDS))(pitch, row, most_rows, most_clusters))
    if piece.neck and piece.worked == "upwards" and piece.outline and piece.align != "centre":
        piece = replace(piece, align="centre")
    heights = tuple(draw(st.lists(st.integers(1, 3), min_size=1, max_size=3)))
    return Pattern(
        "Shapes", (swatch,), (piece,), draw(FABRICS), YARNS, Stripes(("Reed", "Silt", "Kelp"), heights)
    )


def planned(pattern: Pattern) -> Plan | None:
    """The plan, or None where a piece is too narrow."""
    try:
        return plan_pattern(pattern)
    except PatternError as error:
        event("refused")
        refused = str(error)
        assert "too narrow" in refused or "no room for the neck" in refused
        return None


# --------------------------------------------------------------------------------------- worked stitch by stitch


def worked_rows(piece: PiecePlan) -> list[Worked]:
    """Every row as worked by the rules, sections from the body's last row on."""
    plan = plan_data(Plan(Pattern("", (), ()), piece.gauge, (piece,), ()))["pieces"][0]
    k, g = piece.recipe.unit_width, piece.recipe.gap
    made: list[Worked] = []
    for row, data in zip(piece.rows, plan["rows"], strict=True):
        if row.under is None:
            made.append(first_row(k, g, data, piece.foundation_chain))
        else:
            worked = next_row(k, g, data, made[row.under], _shared(plan["rows"], row.index))
            made.append(_joined(worked) if row.joined else worked)
    return made


def _shared(rows: list[dict[str, Any]], index: int) -> str | None:
    """The side at which the post of a row stands on one cluster with the post of the other row on the row below."""
    row = rows[index]
    for nth, other in enumerate(rows):
        if nth != index and other["under"] == row["under"]:
            for side, facing in (("left", "right"), ("right", "left")):
                if row[side] == other[facing] and row[f"{side}_edge"] == other[f"{facing}_edge"] == "flush":
                    return side
    return None


def _joined(worked: Worked) -> Worked:
    """The row without the slip stitches that lead to its start: there the yarn is joined anew."""
    slips = worked.count("sl")
    assert all(stitch.symbol == "sl" for stitch in worked.stitches[:slips])
    worked.stitches = worked.stitches[slips:]
    worked.spots = [replace(spot, nth=None if spot.nth is None else spot.nth - slips) for spot in worked.spots]
    return worked


SYMBOLS = {Symbol.DC: "dc", Symbol.CHAIN: "ch", Symbol.SLIP_STITCH: "sl", Symbol.TURNING_CHAIN: "tch"}
PLACES = {
    Into.FOUNDATION: "foundation",
    Into.SPACE: "space",
    Into.STITCH: "stitch",
    Into.POST: "post",
    Into.OWN_CHAIN: "own",
    Into.AIR: "air",
}


def differences(piece: PiecePlan) -> list[str]:
    """Where plan and grid disagree with what a worker has."""
    found: list[str] = []
    grid = Grid(piece)
    for row, worked in zip(piece.rows, worked_rows(piece), strict=True):
        says: dict[str, tuple[Any, Any]] = {
            "left": (row.left.at, worked.left),
            "right": (row.right.at, worked.right),
            "left kind": (row.left.kind, worked.kind("left")),
            "right kind": (row.right.kind, worked.kind("right")),
            "clusters": (row.clusters, len(worked.centres)),
        }
        counts = {"dc": row.counts.dc, "ch": row.counts.ch, "sl": row.counts.sl_st, "tch": row.counts.tch}
        says |= {name: (count, worked.count(name)) for name, count in counts.items()}
        made = grid.row(row)
        says["symbols"] = (
            [SYMBOLS[Symbol(int(symbol))] for symbol in made.symbol],
            [stitch.symbol for stitch in worked.stitches],
        )
        says["places"] = (
            [(PLACES[Into(int(i))], int(t)) for i, t in zip(made.into, made.target, strict=True)],
            [(stitch.into, stitch.target) for stitch in worked.stitches],
        )
        found += [f"row {row.number} ({row.section}), {what}: {a} / {b}" for what, (a, b) in says.items() if a != b]
    return found


def sections_hang_together(piece: PiecePlan) -> None:
    """Both sections of a divided piece begin on the last row of the body, in one direction, the second joined."""
    begun = [row for row in piece.rows if piece.begins_section(row)]
    if not begun:
        assert piece.sections == ("body",)
        return
    body = piece.section("body")
    assert piece.sections == ("body", "first shoulder", "second shoulder")
    assert [row.under for row in begun] == [body[-1].index] * 2
    assert [row.joined for row in begun] == [False, True]
    assert begun[0].number == begun[1].number == body[-1].number + 1
    assert begun[0].starts == begun[1].starts == body[-1].ends
    first, second = (piece.section(name) for name in piece.sections[1:])
    assert [row.number for row in first] == [row.number for row in second]
    assert first[-1].number == piece.row_count
    left, right = sorted((first, second), key=lambda rows: rows[0].left.at)
    assert begun[0].edge(begun[0].starts).at == (right if begun[0].starts == "right" else left)[0].edge(
        begun[0].starts
    ).at, "the first shoulder is the one at whose outer edge the row starts"
    for one, other in zip(left, right, strict=True):
        assert one.right.at <= other.left.at
        assert one.colour == other.colour


# With the mirrored, the larger and the divided ones below, 500 go through the planner here.
@pytest.mark.slow
@steady(200)
@given(shaped_patterns(most_rows=7, most_clusters=7))
def test_every_row_of_every_shape_can_be_worked(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is None:
        return
    (piece,) = plan.pieces
    event(f"{len(piece.sections)} sections")
    assert differences(piece) == []
    sections_hang_together(piece)


def test_a_row_that_cannot_be_worked_is_caught() -> None:
    piece = tiny("upwards", "square", 14, 8, Neck(Fraction(4), Fraction(3)))
    assert differences(piece) == []
    shoulder = piece.section("first shoulder")[0]
    wrong = replace(shoulder, right=replace(shoulder.right, at=shoulder.right.at + 1))
    rows = tuple(wrong if row is shoulder else row for row in piece.rows)
    assert differences(replace(piece, rows=rows)) != []
    wrong = replace(shoulder, right=replace(shoulder.right, move="decrease"))
    rows = tuple(wrong if row is shoulder else row for row in piece.rows)
    with pytest.raises(Unworkable):
        differences(replace(piece, rows=rows))
    unlike = replace(piece, rows=tuple(replace(row, joined=False) for row in piece.rows))
    with pytest.raises(AssertionError):
        sections_hang_together(unlike)


@pytest.mark.slow
@steady(30)
@given(shaped_patterns(most_rows=20, most_clusters=24))
def test_nothing_breaks_on_larger_pieces(pattern: Pattern) -> None:
    plan = planned(pattern)
    if plan is not None:
        (piece,) = plan.pieces
        assert min(row.clusters for row in piece.rows) >= 1
        assert all(fit.worked >= 0 for fit in piece.fit)
        shaped = any(row.edge(side).move != "straight" for row in piece.section("body") for side in ("left", "right"))
        assert piece.farthest is not None or not shaped


# ------------------------------------------------------------------------------------------------------ mirrors


@st.composite
def mirrored_pieces(draw: st.DrawFn) -> Pattern:
    """Pieces whose wish is its own mirror image, with room for it."""
    swatch = draw(swatches())
    pitch, row = gauge(swatch)
    worked = draw(st.sampled_from(["sideways", "upwards"]))
    high = row * Fraction(draw(st.integers(20, 48)), 4)
    across = pitch * Fraction(draw(st.integers(40, 80)), 8)
    width, length = (high, across) if worked == "sideways" else (across, high)
    neck = Neck(_part(draw, width, 8, 18), _part(draw, length, 2, 20), draw(st.sampled_from(SHAPES)))
    edge = draw(st.sampled_from(["left", "right"])) if worked == "sideways" else "right"
    piece = Piece("piece", worked, width=width, length=length, neck=neck, neck_edge=edge)
    if worked == "upwards" and draw(st.booleans()):
        waist = across * Fraction(draw(st.integers(30, 40)), 40)
        points = ((Fraction(0), across), (high / 2, waist), (high, across))
        piece = Piece("piece", outline=points, neck=neck)
    return Pattern("Mirror", (swatch,), (piece,), draw(FABRICS))


def reads_alike(places: list[int]) -> bool:
    """Whether the edge line mirrors: rows lean from foot to head, and a step is a corner at the foot of its row."""
    line = [(0, places[0])]
    for row, (below, at) in enumerate(pairwise([places[0], *places]), start=1):
        line += [(row - 1, at)] * (abs(at - below) > 1) + [(row, at)]
    return line == [(len(places) - height, at) for height, at in reversed(line)]


def test_a_line_that_does_not_mirror_is_caught() -> None:
    assert reads_alike([5, 5, 4, 4, 5, 5, 5])  # a lean in row 3, met in row 5
    assert reads_alike([5, 5, 3, 3, 5, 5])  # a step at the foot of row 3, met at the foot of row 5
    assert not reads_alike([5, 5, 4, 4, 5, 5])
    assert not reads_alike([5, 5, 3, 3, 3, 5])


@pytest.mark.quick(0)
@steady(70)
@given(mirrored_pieces())
def test_mirrored_wishes_are_mirrored(pattern: Pattern) -> None:
    piece = plan_pattern(pattern).pieces[0]
    if piece.worked == "sideways":
        neck = pattern.pieces[0].neck
        assert neck
        # shaping half a pitch a row mirrors over an odd number of rows; steps and forced decreases over any
        assert piece.row_count % 2 == 1 or neck.shape in ("square", "round")
        for side in ("left", "right"):
            places = [row.edge(side).at for row in piece.rows]
            assert reads_alike(places)
        return
    twice = {row.left.at + row.right.at for row in piece.section("body")}
    assert len(twice) == 1
    assert next(iter(twice)) % 2 == 0
    if len(piece.sections) == 1:
        return
    first, second = (piece.section(name) for name in piece.sections[1:])
    left, right = sorted((first, second), key=lambda rows: rows[0].left.at)
    for one, other in zip(left, right, strict=True):
        assert {one.right.at + other.left.at, one.left.at + other.right.at} == twice
        assert one.clusters == other.clusters


def test_two_pieces_that_face_each_other_carry_their_necks_apart() -> None:
    neck = Neck(Fraction(3), Fraction(2), "round")
    front = Piece("front", "sideways", width=Fraction(11), length=Fraction(8), neck=neck)
    back = Piece("back", "sideways", width=Fraction(11), length=Fraction(8), neck=neck, faces="front")
    one, other = plan_pattern(Pattern("Pair", (UNIT,), (front, back))).pieces
    assert (one.top, other.top) == ("right", "left")
    assert one.row_count == other.row_count
    width = one.rows[0].right.at
    assert [width - row.right.at for row in one.rows] == [row.left.at for row in other.rows]


# ------------------------------------------------------------------------------- splits, planned again by trying

UNIT = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))  # u = q = 1 cm
STEP, FORCED_IN, FORCED_OUT = 4, 1, 2


def tiny(worked: str, shape: str, width: int, length: int, neck: Neck) -> PiecePlan:
    piece = Piece("piece", worked, width=Fraction(width), length=Fraction(length), neck=replace(neck, shape=shape))
    return plan_pattern(Pattern("Tiny", (UNIT,), (piece,))).pieces[0]


def opening(neck: Neck, width: Fraction, height: Fraction, slope: Fraction, y: Fraction) -> float:
    """Half the opening at height ``y``, cm: by the words of the neck shapes."""
    half, down = float(width / 2 - neck.shoulder), float(height - y)
    depth = float(neck.depth)
    if neck.shape == "slant":
        depth = min(depth, half / float(slope))
        return half - down * float(slope) if down < depth - 1e-9 else 0.0
    if down >= depth - 1e-9:
        return 0.0
    if neck.shape == "vee":
        return half * (1 - down / depth)
    return half if neck.shape == "square" else half * (1 - (down / depth) ** 2) ** 0.5


def cost_of_inner_edge(reaches: list[int], first_row: int, phase: int, at: str, step_out: bool) -> float | None:
    """What the moves of an inner edge cost; None where one cannot be worked. ``at``: the side of its section.

    ``reaches`` are half openings' positions counted so that growing takes away from the section.
    """
    total = 0.0
    for number, (below, here) in enumerate(pairwise(reaches), start=first_row + 1):
        grown = here - below
        flush = (below + number - 1 + phase) % 2 == 1
        starts = (number % 2 == 1) == (at == "right")
        if grown == 1:
            total += 0 if flush else FORCED_IN
        elif grown == -1:
            total += FORCED_OUT if flush else 0
        elif grown > 1:
            total += STEP
        elif grown < -1:
            if not step_out or not starts or grown % 2:
                return None
            total += STEP
    return total


def clusters(left: int, right: int, row: int, phase: int) -> int:
    """Clusters counted one by one."""
    return sum((c - row - phase) % 2 == 0 for c in range(left + 1, right))


def paths(choices: list[list[int]]) -> Iterator[list[int]]:
    if not choices:
        yield []
        return
    for rest in paths(choices[:-1]):
        for choice in choices[-1]:
            yield [*rest, choice]


class Split(NamedTuple):
    """Where a mirrored split begins and ends: the rows and half pitches of the body, the last row of it, its phase, and
    how wide a shoulder is at the top."""

    rows: int
    width: int
    after: int
    phase: int
    shoulder: int


def every_split(piece: Piece, pitch: Fraction, row: Fraction) -> Iterator[Split]:
    """Every mirrored split of a straight panel with rows that alternate, in one of the two rows about the bottom."""
    assert piece.length
    assert piece.width
    wanted_rows, wanted_width = piece.length / row, piece.width / pitch
    for rows in {max(1, floor(wanted_rows)), max(1, ceil(wanted_rows))}:
        bottom = rows - reach_of(piece, pitch, row) / row
        for width in {2 * max(1, floor(wanted_width)), 2 * max(1, ceil(wanted_width))}:
            for after in {min(max(1, one), rows - 1) for one in (floor(bottom), ceil(bottom))}:
                for phase in (0, 1):
                    yield from (Split(rows, width, after, phase, shoulder) for shoulder in range(1, width // 2 + 1))


def reach_of(piece: Piece, pitch: Fraction, row: Fraction) -> Fraction:
    """How deep the neck can be: a slant goes out half a pitch a row."""
    assert piece.neck
    assert piece.width
    if piece.neck.shape != "slant":
        return piece.neck.depth
    return min(piece.neck.depth, (piece.width / 2 - piece.neck.shoulder) / (pitch / 2) * row)


def misses(piece: Piece, split: Split, pitch: Fraction, row: Fraction) -> tuple[int, Fraction]:
    """How many of shoulders, depth and neck width are more than half a pitch or half a row off, and the worst."""
    assert piece.neck
    assert piece.width
    u = pitch / 2
    shoulder = abs(split.shoulder * u - piece.neck.shoulder)
    width = abs((split.width - 2 * split.shoulder) * u - (piece.width - 2 * piece.neck.shoulder))
    depth = abs((split.rows - split.after) * row - reach_of(piece, pitch, row))
    over = [off for off, most in ((shoulder, u), (shoulder, u), (width, u), (depth, row / 2)) if off > most]
    return len(over), max(over, default=Fraction(0))


def own_curve(piece: Piece, split: Split, pitch: Fraction, row: Fraction) -> list[float]:
    """Half the opening in half pitches at the top of every row of the sections, through the measures of ``split``."""
    assert piece.neck
    u = pitch / 2
    neck = Neck(split.shoulder * u, (split.rows - split.after) * row, piece.neck.shape)
    height = split.rows * row
    tops = range(split.after + 1, split.rows + 1)
    return [opening(neck, split.width * u, height, u / row, r * row) / float(u) for r in tops]


def cheapest(piece: Piece, split: Split, pitch: Fraction, row: Fraction, natural: bool) -> float:
    """The least cost of the right section's inner edge: of every list of positions from the middle outwards."""
    wish, middle, best = own_curve(piece, split, pitch, row), split.width // 2, float("inf")
    every = [
        [at for at in range(middle, split.width) if clusters(at, split.width, split.after + n, split.phase) > 0]
        for n in range(1, len(wish) + 1)
    ]
    every[-1] = [at for at in every[-1] if at == split.width - split.shoulder]
    for path in paths(every):
        cost = cost_of_edge(path, split, wish, natural)
        best = min(best, cost)
    return best


def cost_of_edge(path: list[int], split: Split, wish: list[float], natural: bool = False) -> float:
    """What an inner edge costs; infinite where it cannot be worked, or without only ``natural`` increases."""
    moves = cost_of_inner_edge(path, split.after + 1, split.phase, "left", step_out=False)
    if moves is None or (natural and has_forced_increase(path, split)):
        return float("inf")
    return moves + sum((at - split.width / 2 - half) ** 2 for at, half in zip(path, wish, strict=True))


def has_forced_increase(path: list[int], split: Split) -> bool:
    """A section grows back from a flush edge."""
    rows = enumerate(pairwise(path), start=split.after + 1)
    return any(here == below - 1 and (below + number + split.phase) % 2 == 1 for number, (below, here) in rows)


@st.composite
def tiny_splits(draw: st.DrawFn) -> tuple[Piece, Swatch]:
    """Panels of 2 to 7 rows and up to 6 clusters, divided in their upper half or so."""
    swatch = draw(swatches())
    pitch, row = gauge(swatch)
    length = row * Fraction(draw(st.integers(8, 28)), 4)
    width = pitch * Fraction(draw(st.integers(20, 48)), 8)
    neck = Neck(_part(draw, width, 4, 17), _part(draw, length, 4, 24), draw(st.sampled_from(SHAPES)))
    return Piece("piece", width=width, length=length, neck=neck, row_plan="alternate"), swatch


@pytest.mark.slow
def planned_split(plan: PiecePlan) -> tuple[Split, list[int]]:
    """The planner's split, read off its rows, and the right section's inner edge."""
    right = max((plan.section(name) for name in plan.sections[1:]), key=lambda part: part[0].left.at)
    path, width = [one.left.at for one in right], plan.rows[0].right.at
    return Split(plan.row_count, width, len(plan.section("body")), plan.phase, width - path[-1]), path


@pytest.mark.quick(0)
@steady(150)
@given(tiny_splits(), FABRICS)
def test_no_split_is_nearer(small: tuple[Piece, Swatch], fabric: Fabric) -> None:
    piece, swatch = small
    pitch, row = gauge(swatch)
    plan = planned(Pattern("Tiny", (swatch,), (piece,), fabric))
    if plan is None:
        for one in every_split(piece, pitch, row):
            assert cheapest(piece, one, pitch, row, natural=True) == float("inf")
        return
    (found,) = plan.pieces
    assert len(found.sections) == 3
    chosen, path = planned_split(found)
    place = misses(piece, chosen, pitch, row)
    rounded = piece.neck is not None and piece.neck.shape == "round"
    if not rounded:  # a round neck keeps to its ellipse before that
        for other in every_split(piece, pitch, row):
            if misses(piece, other, pitch, row) < place:
                assert cheapest(piece, other, pitch, row, natural=True) == float("inf"), other
    cost = cost_of_edge(path, chosen, own_curve(piece, chosen, pitch, row))
    # The planner's quarter ellipse is drawn with 24 straight pieces.
    best = cheapest(piece, chosen, pitch, row, natural=False)
    assert cost == pytest.approx(best, abs=0.02 * (1 + best) if rounded else 1e-4)


def test_a_planner_that_minds_steps_less_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    piece = Piece("piece", width=Fraction(20), length=Fraction(8), neck=Neck(Fraction(4), Fraction(4), "vee"))
    pitch, row = Fraction(2), Fraction(1)
    plan = planned(Pattern("Tiny", (UNIT,), (piece,)))
    assert plan is not None
    chosen, path = planned_split(plan.pieces[0])
    best = cheapest(piece, chosen, pitch, row, natural=False)
    assert cost_of_edge(path, chosen, own_curve(piece, chosen, pitch, row)) == pytest.approx(best)
    for module in ("moves", "fitting"):
        monkeypatch.setattr(f"turnchain.planning.{module}.STEP_COST", 0)
    chosen, path = planned_split(plan_pattern(Pattern("Tiny", (UNIT,), (piece,))).pieces[0])
    best = cheapest(piece, chosen, pitch, row, natural=False)
    assert cost_of_edge(path, chosen, own_curve(piece, chosen, pitch, row)) > best + 0.2
