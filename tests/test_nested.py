"""All sizes of a piece in one drawing: every edge is where its rows are, figures are those of the plans.

The lines are read back from the scene and held against the rows of each plan, by counting: one corner of a panel is
known, and from it every row's edge follows in half pitches and rows. No published values.
"""

from __future__ import annotations

import math

import pytest

import turnchain
from test_sizes import SLIPOVER, plans, sized_at
from turnchain import style
from turnchain.drawing.nested import nested, told
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.scene import Group, Path, Scene, Use, texts_in

SIDEWAYS = SLIPOVER[: SLIPOVER.index("[[piece]]")] + """[[piece]]
name = "front"
worked = "sideways"
width = "52 (55, 60)"
length = "54 (56, 58)"
neck = { shoulder = "14 (15, 16)", depth = 8 }
"""


def group(scene: Scene, name: str) -> Group:
    return next(item for item in scene.items if isinstance(item, Group) and item.name == name)


def corners(scene: Scene, number: int) -> list[tuple[float, float]]:
    (path,) = group(scene, f"size-{number}").items
    assert isinstance(path, Path)
    return [(float(step[1]), float(step[2])) for step in path.steps if step[0] in "ML"]  # type: ignore[arg-type]


def crossed(line: list[tuple[float, float]], y: float) -> list[float]:
    """Where a closed line crosses the height ``y``, from the left."""
    found = []
    for (x0, y0), (x1, y1) in zip(line, [*line[1:], line[0]], strict=True):
        if (y0 > y) != (y1 > y):
            found.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    return sorted(found)


def edges_at(piece: PiecePlan, number: int) -> list[float]:
    """Where edges stand in the middle of a row's height, half pitches: halfway between the row below and this one where
    it leans, else this one's."""
    found = []
    for row in piece.rows:
        if row.number == number:
            for side in ("left", "right"):
                edge, under = row.edge(side), piece.below(row)
                below = under.edge(side).at if under is not None and under.section == row.section else edge.at
                found.append((edge.at + below) / 2 if abs(edge.at - below) == 1 else edge.at)
    return sorted(found)


def holds(made: tuple[Plan, ...], name: str) -> None:
    scene = nested(made, name)
    pieces = [plan.piece(name) for plan in made]
    first = corners(scene, 1)
    left, ground = first[0]
    half = (first[1][0] - left) / (pieces[0].rows[0].right.at - pieces[0].rows[0].left.at)
    rise = half * float(pieces[0].gauge.row / pieces[0].gauge.half)
    moved = []
    for number, piece in enumerate(pieces, 1):
        line = corners(scene, number)
        moved.append(round((line[0][0] - left) / half) - piece.rows[0].left.at + pieces[0].rows[0].left.at)
        for row in range(1, piece.row_count + 1):
            there = [(x - line[0][0]) / half for x in crossed(line, ground - (row - 0.5) * rise)]
            assert there == pytest.approx([at - piece.rows[0].left.at for at in edges_at(piece, row)], abs=0.02)
    dots = [item for item in group(scene, "lattice").items if isinstance(item, Use)]
    for shift, piece in zip(moved, pieces, strict=True):
        for row in piece.rows:
            y = ground - (row.number - 0.5) * rise
            on = [dot for dot in dots if math.isclose(dot.y, y, abs_tol=0.02)]
            begin, end = ((edge.at + shift - pieces[0].rows[0].left.at) * half + left for edge in (row.left, row.right))
            assert sum(begin < dot.x < end for dot in on) >= row.clusters  # all its clusters stand on dots


@pytest.mark.quick(1)
@pytest.mark.parametrize("text", [SLIPOVER, SIDEWAYS])
def test_every_edge_is_where_its_rows_are(text: str) -> None:
    made = plans(text)
    for piece in made[0].pieces:
        holds(made, piece.name)


@pytest.mark.quick(4)
@pytest.mark.parametrize("seed", range(40, 52))
def test_random_pieces(seed: int) -> None:
    if made := sized_at(seed):
        holds(made, made[0].pieces[0].name)


def test_figures_of_all_sizes_stand_in_brackets() -> None:
    made = plans()
    said = [text.words for text in texts_in(nested(made, "front").items)]
    fronts = [plan.piece("front") for plan in made]
    rows, chains = [piece.row_count for piece in fronts], [piece.foundation_chain for piece in fronts]
    assert f"{rows[0]} ({rows[1]}, {rows[2]}) rows" in said
    assert any(words.startswith(f"ch {chains[0]} ({chains[1]}, {chains[2]})") for words in said)
    assert all(size in said for size in "SML")
    assert all(f"{plan.pattern.size}: {plan.piece('front').row_count} rows" in told(made, "front") for plan in made)


def test_sizes_have_colours_that_can_be_read_and_dashes_of_their_own() -> None:
    """4.5 to 1 is what WCAG 2.2 asks of words."""
    scene = nested(plans(), "front")
    lines = [group(scene, f"size-{number}").items[0] for number in (1, 2, 3)]
    assert len({(line.stroke, line.dash) for line in lines if isinstance(line, Path)}) == 3
    assert len({line.dash for line in lines if isinstance(line, Path)}) == 3
    assert all(style.contrast(line.stroke or "", "#ffffff") >= 4.5 for line in lines if isinstance(line, Path))


def test_names_of_sizes_stand_apart() -> None:
    """Ten sizes of one height: none over another."""
    names = ", ".join(f'"{nth}"' for nth in range(2, 22, 2))
    widths = f'"40 ({", ".join(str(40 + 2 * nth) for nth in range(1, 10))})"'
    text = SLIPOVER[: SLIPOVER.index("[stripes]")].replace('"S", "M", "L"', names)
    made = plans(f'{text}[[piece]]\nname = "mat"\nwidth = {widths}\nlength = 40\n')
    letters = list(texts_in(group(nested(made, "mat"), "letters").items))
    assert len({text.x for text in letters}) == 10


def test_a_piece_that_no_size_has() -> None:
    with pytest.raises(KeyError):
        nested(plans(), "sleeve")


@pytest.mark.quick(1)
@pytest.mark.parametrize("language", ["UK", "de", "fr"])
def test_every_language_tells_it(language: str) -> None:
    made = plans(SLIPOVER.replace("sizes =", f'language = "{language}"\nsizes =') if language != "UK" else SLIPOVER)
    assert turnchain.svg(nested(made, "front"))
