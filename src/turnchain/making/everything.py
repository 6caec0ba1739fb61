"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json; for every piece its charts and close-ups, the stripes, the schematic,
each as SVG and PNG with its alt text; pattern.md for a blog, beside.html for the making, and index.html that shows
them all. Either all files are new afterwards or, where anything fails, all old ones stand. Files of the maker's own
are never replaced: not the pattern, not a symbol, and in a folder that holds no plan of ours nothing at all.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import BinaryIO

from turnchain import file_names, plan_json
from turnchain.drawing import schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import detail, series
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.drawing.sheet import USUAL_WIDTH, WHOLE
from turnchain.errors import FileError, MakerError
from turnchain.fabric.plan import Plan
from turnchain.making import DETAIL_SIZE, alt_text, planned, spared
from turnchain.making.parallel import in_parallel
from turnchain.pages import blog, overview
from turnchain.pages.beside import page as beside
from turnchain.scene import Scene
from turnchain.writers import formats
from turnchain.writers.files import Write, together


def make_all(
    source: Path, folder: Path, width: int | None, look: Look, told: Callable[[Path], None]
) -> None:
    """Makes everything of ``source`` in ``folder``; ``told`` hears of every file once all stand in their places.

    Raises MakerError where the pattern cannot be made, FileError where a file cannot be written.
    """
    plan = planned(source)
    made = list(scenes(plan, width, look))
    _check_names([name for name, _ in made], source)
    # the plan first, by which the folder is known as ours; the page that shows all the others last
    files = list(_files(plan, folder, made, look))
    _check_folder(folder, [path for path, _ in files])
    _prepare(folder)
    pixels = formats.pixel_endings()
    pictures = [write for path, write in files if path.suffix in pixels]
    with together(spared(source, look)) as put, in_parallel(pictures) as drawn:
        ahead = iter(drawn)
        for path, write in files:
            put(path, next(ahead) if path.suffix in pixels else write)
    for path, _ in files:
        told(path)


def _check_folder(folder: Path, paths: list[Path]) -> None:
    """Raises FileError where files would be replaced that are not ours: in a folder without a plan of ours."""
    if plan_json.is_one(folder / file_names.PLAN):
        return
    there = [path.name for path in paths if os.path.lexists(path) and not path.is_dir()]
    if there:
        listed = ", ".join(there[:3]) + " ..." * (len(there) > 3)
        raise FileError(
            f"{folder}: not made by turnchain, but there already: {listed}; nothing was written (give a folder of its "
            "own, or move these files first)"
        )


def _check_names(names: list[str], source: Path) -> None:
    """Raises MakerError where two pictures would have files of one name, as of pieces "front" and "front-short"."""
    seen: dict[str, str] = {}
    for name in names:
        other = seen.setdefault(name.casefold(), name)
        if other is not name:
            raise MakerError(f'{source}: two pictures would be called "{name}"; give one of the pieces another name')


def _prepare(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"{folder}: this folder cannot be made ({error.strerror}); nothing was written") from error


def _files(
    plan: Plan, folder: Path, made: list[tuple[str, Scene]], look: Look
) -> Iterator[tuple[Path, Write]]:
    yield folder / file_names.PLAN, lambda stream: stream.write(plan_json.plan_text(plan).encode())
    yield folder / file_names.PATTERN, lambda stream: stream.write(blog.markdown(plan).encode())
    yield folder / file_names.BESIDE, lambda stream: stream.write(beside.page(plan, look).encode())
    # those that take longest come last, while a second process draws them ahead
    for form in sorted(formats.MADE, key=lambda form: form.pixels):
        for name, scene in made:
            yield folder / f"{name}{form.ending}", partial(form.write, scene)
    for name, scene in made:
        yield folder / f"{name}{file_names.ALT_TEXT}", partial(_write_words, scene)
    words = [(name, scene.words) for name, scene in made]
    yield folder / file_names.INDEX, lambda stream: stream.write(overview.overview(plan, words).encode())


def scenes(plan: Plan, width: int | None, look: Look) -> Iterator[tuple[str, Scene]]:
    """Every picture of a plan with the name of its files: charts whole and short, close-ups, the stripes as worn."""
    yield file_names.STRIPES, preview(plan, None, width or USUAL_WIDTH[WHOLE], look)
    yield from schematic.scenes(plan).items()
    for piece in plan.pieces:
        yield file_names.chart(piece.name), chart(plan, piece.name, width, look)
        yield file_names.short_chart(piece.name), chart(plan, piece.name, None, look, short=True)
        for asked in series(for_hand(piece, look.hand)):
            name = file_names.close_up(piece.name, asked.first, asked.at)
            yield name, detail(plan, piece.name, asked, DETAIL_SIZE, look)


def _write_words(scene: Scene, stream: BinaryIO) -> None:
    stream.write(alt_text(scene))
