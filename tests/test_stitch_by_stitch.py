"""An edge stitch by stitch: the steps are the stitches of the grid and the words of the row; the files are sound.

Counts come from the grid, which other tests hold against the tables of the fabric; Pillow reads the files back.
"""

from __future__ import annotations

import io
import re
from itertools import pairwise
from pathlib import Path as FilePath

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from lxml import etree
from PIL import Image, ImageSequence

from any_fabric import walk_of_any, walk_of_bare
from pictures import opened, png_bytes
from test_detail import CLOSED, OPEN, two_rows
from test_shapes import planned, shaped_patterns
from turnchain.cli import cli
from turnchain.drawing.detail import Asked
from turnchain.drawing.looks import Look
from turnchain.drawing.stitch_by_stitch import LAST, LEAST_SECONDS, moving, strip
from turnchain.errors import MakerError
from turnchain.fabric.grid import Grid, Symbol
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pattern import Fabric, Pattern
from turnchain.records import replace
from turnchain.scene import Group, Path, Use
from turnchain.wording import founding
from turnchain.wording.edge_captions import of_edge as caption_of
from turnchain.wording.edge_steps import StitchStep, of_edge, of_row
from turnchain.wording.instructions.one_piece import of_piece
from turnchain.wording.tables import speech_of
from turnchain.writers import formats

CASES = FilePath(__file__).parent / "cases"
MOST = 2_000_000  # bytes: what a page of a blog can carry
MOVES = [
    ("straight", "flush", 0), ("straight", "spaced", 0), ("decrease", "flush", 0), ("increase", "spaced", 0),
    ("forced_decrease", "spaced", 0), ("forced_increase", "flush", 0), ("step_in", "flush", 2),
    ("step_in", "spaced", 1),
]  # fmt: skip


def steps_of(plan: Plan, piece: PiecePlan, row: Row) -> tuple[StitchStep, ...]:
    return of_row(speech_of(plan.pattern), piece, row)


@pytest.mark.quick(0)
@given(shaped_patterns())
@settings(max_examples=25)
def test_the_steps_of_a_row_are_its_stitches(pattern: Pattern) -> None:
    plan = planned(pattern)
    for piece in plan.pieces if plan else ():
        grid = Grid(piece)
        for row in piece.rows:
            steps, made = steps_of(plan, piece, row), grid.row(row)
            assert [step.first for step in steps] == [0, *(step.stop for step in steps[:-1])]
            assert steps[-1].stop == len(made)
            assert steps[-1].clusters == row.clusters
            for step in steps:
                symbols = {Symbol(made.symbol[nth]) for nth in range(step.first, step.stop)}
                chains = bool(re.search(r"(^|, )ch \d", step.words.lower()))
                assert chains == bool(symbols & {Symbol.CHAIN, Symbol.TURNING_CHAIN}), (step, symbols)


@pytest.mark.parametrize("block", range(4))
def test_the_steps_of_any_row_come_to_what_it_counts(block: int) -> None:
    """Of walks in every fabric: stitch after stitch, step after step, to the stitches and clusters of the row. Only a
    cluster of one stitch that is worked in one with the edge stitch is not counted apart."""
    for seed in range(block, 40, 4):
        for walk in (walk_of_any, walk_of_bare):
            plan = walk(seed)
            for row in plan.pieces[0].rows:
                steps, counts = steps_of(plan, plan.pieces[0], row), row.counts
                assert [step.first for step in steps] == [0, *(step.stop for step in steps[:-1])]
                assert steps[-1].stop == counts.dc + counts.ch + counts.sl_st + counts.tch
                assert all(0 <= two.part - one.part <= 3 and 0 <= two.clusters - one.clusters <= 1
                           for one, two in pairwise(steps))  # fmt: skip
                assert steps[0].clusters <= 1
                single = plan.recipe.unit_width == 1 and not plan.recipe.gap
                shared = sum(step.words.endswith("(2 of 2)") for step in steps) if single else 0
                assert row.solid or row.clusters - steps[-1].clusters == shared


@pytest.mark.parametrize("block", range(4))
def test_an_edge_is_shown_to_its_second_cluster_or_from_its_last(block: int) -> None:
    """Where a row starts all up to its second cluster; where it ends all from its last on, or from the one before where
    the last is worked in one with the edge stitch. Of a solid row as many stitches as two clusters have, and two."""
    for seed in range(block, 40, 4):
        plan = (walk_of_any if seed % 8 < 6 else walk_of_bare)(seed)
        piece = plan.pieces[0]
        for row in piece.rows:
            steps = steps_of(plan, piece, row)
            start, end = (of_edge(speech_of(plan.pattern), piece, row, side) for side in (row.starts, row.ends))
            assert start == steps[: len(start)]
            assert end == steps[-len(end) :]
            if row.solid:
                assert len(start) == len(end) == min(len(steps), 2 * piece.recipe.unit_width + 2)
                continue
            whole = steps[-1].clusters
            assert [step.clusters for step in start].count(min(2, whole)) == 1 or not whole
            assert start[-1].clusters == min(2, whole)
            last = next(step for step in steps if step.clusters == whole)
            before = [step.clusters for step in steps[: -len(end)]]
            assert (before or [0])[-1] == max(0, whole - (2 if last.part == steps[-1].part else 1))
            assert not before or steps[len(before) - 1].part < end[0].part


def test_a_piece_begun_on_another_makes_its_turning_chain_alone() -> None:
    """The chain of the others is as many as their foundation; either way row 1 begins with it."""
    for seed in range(12):
        plan = walk_of_any(seed)
        piece = plan.pieces[0]
        turning = of_piece(piece).foundation.turning
        for begun, chains in (("", piece.foundation_chain), ("other", turning), ("armhole", turning)):
            one = replace(piece, begun_on=begun)
            assert founding.made(one) == chains
            assert steps_of(plan, one, piece.rows[0])[0].words.startswith(f"Ch {chains}")


@pytest.mark.parametrize("fabric", [OPEN, CLOSED])
@pytest.mark.parametrize(("move", "below", "pitches"), MOVES)
def test_an_edge_is_told_in_the_words_of_its_caption(move: str, below: str, pitches: int, fabric: Fabric) -> None:
    for at in SIDES:
        plan = two_rows(move, below, at, pitches, fabric)
        piece, row = plan.pieces[0], plan.pieces[0].rows[1]
        said = (step.words for step in of_edge(speech_of(plan.pattern), piece, row, at))
        again = re.compile(r", [^,]+ \([2-9] of \d\)| \(1 of \d\)")  # the second of a cluster, and so on
        once = again.sub("", ", ".join(said).replace("(cl, dc)", "(cl dc)")).replace("(cl dc)", "(cl, dc)").lower()
        _, caption = caption_of(plan.pattern, piece, row, at)
        wanted = caption.removeprefix("After the last cl: ").removesuffix(".").lower()
        assert wanted in once


@pytest.mark.parametrize(("move", "below", "pitches"), MOVES)
@pytest.mark.parametrize("at", SIDES)
def test_every_step_has_its_frame_and_adds_its_stitches(move: str, below: str, pitches: int, at: str) -> None:
    plan = two_rows(move, below, at, pitches)  # type: ignore[arg-type]
    piece, row = plan.pieces[0], plan.pieces[0].rows[1]
    steps = of_edge(speech_of(plan.pattern), piece, row, at)  # type: ignore[arg-type]
    shown = moving(plan, "piece", Asked(2, 2, at), (1080, 1080))  # type: ignore[arg-type]
    assert len(shown.scenes) == len(shown.seconds) == len(steps)
    ink = Look().theme.shaping
    new = [[use for use in flat(scene.items) if use.ink == ink] for scene in shown.scenes]
    assert [len(uses) for uses in new] == [step.stop - step.first for step in steps]
    places = [sum(use.x for use in uses) / len(uses) for uses in new]
    rightwards = row.starts == "left"
    assert all((one <= other if rightwards else one >= other) for one, other in pairwise(places))
    for number, step in enumerate(steps, start=1):
        assert f"{number}. {step.words}." in shown.words


@pytest.mark.parametrize(("move", "at"), [("step_in", "left"), ("step_out", "left")])
def test_slip_stitches_and_the_chains_of_a_step_lie_on_cloth(move: str, at: str) -> None:
    plan = two_rows(move, "spaced", at, 2)  # type: ignore[arg-type]
    scenes = moving(plan, "piece", Asked(2, 2, at), (1080, 1080), Look(inks="full", page="dark")).scenes  # type: ignore[arg-type]
    (drawing,) = (item for item in scenes[-1].items if isinstance(item, Group) and item.name.startswith("drawing"))
    boxes = []
    for item in drawing.items:
        if isinstance(item, Path) and item.fill:
            xs, ys = zip(*[step[-2:] for step in item.steps if len(step) > 1], strict=True)
            boxes.append((min(xs), min(ys), max(xs), max(ys)))
    stitches = [use for use in flat(drawing.items) if use.name in ("sl-st", "ch-step")]
    assert len(stitches) > 3
    for use in stitches:
        (symbol,) = scenes[-1].definitions[use.name]
        y = use.y + symbol.steps[0][-1]  # type: ignore[union-attr]
        assert any(left <= use.x <= right and top <= y <= low for left, top, right, low in boxes)


def flat(items: tuple[object, ...]) -> list[Use]:
    found: list[Use] = []
    for item in items:
        found += flat(item.items) if isinstance(item, Group) else [item] if isinstance(item, Use) else []
    return found


def test_longer_words_stay_longer() -> None:
    shown = moving(two_rows("decrease", "flush", "left"), "piece", Asked(2, 2, "left"), (1080, 1080))
    words = [len(scene.words.split()) for scene in shown.scenes]
    assert min(shown.seconds) >= LEAST_SECONDS  # far from three flashes a second (WCAG 2.2, 2.3.1)
    assert shown.seconds[-1] >= LEAST_SECONDS + LAST
    chain, first, second = shown.seconds[:3]
    assert (words[1] > words[0]) == (first > chain)
    assert second == LEAST_SECONDS  # its words were just read


@pytest.mark.quick(0)
@pytest.mark.parametrize("ending", formats.MOVING)
def test_a_moving_picture_is_read_back_frame_by_frame(ending: str) -> None:
    shown = moving(two_rows("step_in", "flush", "left", 2), "piece", Asked(1, 2, "left"), (1080, 1080))
    stream = io.BytesIO()
    formats.write_moving(FilePath(f"x{ending}"), shown, stream)
    assert len(stream.getvalue()) < MOST
    again = io.BytesIO()
    formats.write_moving(FilePath(f"x{ending}"), shown, again)
    assert again.getvalue() == stream.getvalue()
    with Image.open(io.BytesIO(stream.getvalue())) as picture:
        assert picture.size == (1080, 1080)
        assert picture.n_frames == len(shown.scenes)
        assert picture.info["loop"] == 0
        for nth in (0, 1, len(shown.scenes) - 1):
            picture.seek(nth)
            frame = np.asarray(picture.convert("RGB")).astype(int)
            apart = np.abs(frame - opened(png_bytes(shown.scenes[nth])))
            assert apart.max() <= 64  # edges of strokes only
            assert apart.mean() < 0.2
        durations = []
        for nth in range(picture.n_frames):
            picture.seek(nth)
            picture.load()
            durations.append(picture.info["duration"])
    if ending == ".gif":
        assert durations == [round(1000 * seconds) for seconds in shown.seconds]


@pytest.mark.quick(0)
def test_a_gif_has_one_palette() -> None:
    shown = moving(two_rows("decrease", "flush", "left"), "piece", Asked(2, 2, "left"), (1080, 1080))
    stream = io.BytesIO()
    formats.write_moving(FilePath("x.gif"), shown, stream)
    data = stream.getvalue()
    descriptors = [match.start() for match in re.finditer(rb"\x00\x21\xf9\x04.{4}\x00\x2c", data, re.DOTALL)]
    assert len(descriptors) >= len(shown.scenes) - 1
    assert all(data[at + 18] & 0x80 == 0 for at in descriptors)  # GIF89a, 20: no local colour table


def test_only_the_drawing_and_its_words_change() -> None:
    """Between two frames the heading stays as it is, and so does the cloth already made."""
    shown = moving(two_rows("decrease", "flush", "left"), "piece", Asked(2, 2, "left"), (1080, 1080))
    stream = io.BytesIO()
    formats.write_moving(FilePath("x.webp"), shown, stream)
    with Image.open(stream) as picture:
        frames = [np.asarray(frame.convert("RGB")) for frame in ImageSequence.Iterator(picture)]
    for one, other in pairwise(frames):
        changed = (one != other).any(axis=2)
        assert changed.any()
        assert changed.mean() < 0.12
        assert not changed[:150].any()


def test_the_strip_has_every_step_in_order(tmp_path: FilePath) -> None:
    plan = two_rows("decrease", "flush", "left")
    scene = strip(plan, "piece", Asked(2, 2, "left"))
    steps = of_edge(speech_of(plan.pattern), plan.pieces[0], plan.pieces[0].rows[1], "left")
    panels = [item for item in scene.items if isinstance(item, Group) and item.name.startswith("step-")]
    assert [panel.words for panel in panels] == [step.words for step in steps]
    for panel in panels:
        xs = [use.x for use in flat(panel.items)]
        assert max(xs) - min(xs) < scene.width / 3


@pytest.mark.quick(0)
def test_the_command_line_makes_both(tmp_path: FilePath) -> None:
    source, run = CASES / "heron.toml", CliRunner()
    if not source.exists():
        source = sorted(CASES.glob("*.toml"))[0]
    piece = re.search(r'name = "([^"]+)"', source.read_text().split("[[piece]]")[1])
    assert piece is not None
    base = ["chart", str(source), "--piece", piece[1], "--detail", "2", "--at", "right"]
    for name, more in (("a.webp", "--moving"), ("b.gif", "--moving"), ("c.svg", "--strip"), ("d.png", "--strip")):
        made = run.invoke(cli, [*base, more, "-o", str(tmp_path / name)])
        assert made.exit_code == 0, made.output
        assert (tmp_path / name).stat().st_size < MOST
        assert "1. " in (tmp_path / name).with_suffix(".txt").read_text()
    ids = etree.parse(tmp_path / "c.svg").xpath("//@id")
    numbers = [int(one.removeprefix("step-")) for one in ids if one.startswith("step-")]
    assert numbers == list(range(1, len(numbers) + 1))
    for wrong in (["--moving", "-o", "x.png"], ["-o", "x.gif"], ["--moving", "--strip", "-o", "x.webp"]):
        assert run.invoke(cli, [*base, *wrong]).exit_code == 2
    assert run.invoke(cli, [*base[:4], "--moving", "-o", str(tmp_path / "x.webp")]).exit_code == 2


def test_what_cannot_be_shown_is_told() -> None:
    plan = two_rows("straight", "flush", "left")
    with pytest.raises(MakerError, match="there are no rows 3 to 3"):
        moving(plan, "piece", Asked(3, 3, "left"), (1080, 1080))
    clear = moving(plan, "piece", Asked(2, 2, "left"), (1080, 1080), Look(page="clear"))
    with pytest.raises(MakerError, match="cannot be without background"):
        formats.write_moving(FilePath("x.gif"), clear, io.BytesIO())
