"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json; for every piece its charts and close-ups, the stripes, the schematic,
each as SVG and PNG with its alt text; pattern.md for a blog, beside.html for the making, and index.html that shows
them all. Either all files are new afterwards or, where anything fails, all old ones stand. Files of the maker's own
are never replaced: not the pattern, not a symbol, and in a folder that holds no plan of ours nothing at all.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from turnchain import plan_json
from turnchain.drawing import schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import Asked, detail, series
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.posting import SIZES, post
from turnchain.drawing.preview import preview
from turnchain.drawing.sheet import USUAL_WIDTH, WHOLE
from turnchain.errors import FileError, MakerError
from turnchain.fabric.lattice import Side
from turnchain.fabric.plan import Plan
from turnchain.pages import beside, blog
from turnchain.pages import overview as page
from turnchain.planning.planner import plan_pattern
from turnchain.printing.sheets import Printed, pages, picture
from turnchain.reading import read_file
from turnchain.scene import Scene, flattened
from turnchain.terms import LANGUAGE
from turnchain.writers import BY_ENDING
from turnchain.writers.files import Write, replaced, together

PLAN, INDEX = "plan.json", "index.html"
STRIPES = "stripes"  # the picture of all pieces as worn
DETAIL_SIZE = (1080, 1080)


def planned(source: Path) -> Plan:
    """The plan of the pattern file ``source``. Raises MakerError with everything that is wrong."""
    return plan_pattern(read_file(source), str(source))


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
    with together(_spared(source, look)) as put:
        for path, write in files:
            put(path, write)
    for path, _ in files:
        told(path)


def _check_folder(folder: Path, paths: list[Path]) -> None:
    """Raises FileError where files would be replaced that are not ours: in a folder without a plan of ours."""
    if plan_json.is_one(folder / PLAN):
        return
    there = [path.name for path in paths if os.path.lexists(path) and not path.is_dir()]
    if there:
        listed = ", ".join(there[:3]) + " ..." * (len(there) > 3)
        raise FileError(
            f"{folder}: not made by turnchain, but there already: {listed}; nothing was written (give a folder of its "
            "own, or move these files first)"
        )


def _spared(source: Path, look: Look) -> dict[Path, str]:
    """The maker's own files, which nothing that is made may replace, with words for each."""
    from turnchain.drawing import glyphs

    own = {} if look.symbols is None else {look.symbols / f"{name}.svg": "a symbol of yours" for name in glyphs.names()}
    return {source: "the pattern file itself", **own}


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
    yield folder / PLAN, lambda stream: stream.write(plan_json.plan_text(plan).encode())
    yield folder / blog.FILE, lambda stream: stream.write(blog.markdown(plan).encode())
    yield folder / beside.FILE, lambda stream: stream.write(beside.page(plan, look).encode())
    for name, scene in made:
        yield from _pictures(folder, name, scene)
    words = [(name, scene.words) for name, scene in made]
    yield folder / INDEX, lambda stream: stream.write(page.overview(plan, words).encode())


def scenes(plan: Plan, width: int | None, look: Look) -> Iterator[tuple[str, Scene]]:
    """Every picture of a plan with the name of its files: charts whole and short, close-ups, the stripes as worn."""
    yield STRIPES, preview(plan, None, width or USUAL_WIDTH[WHOLE], look)
    yield from schematic.scenes(plan).items()
    for piece in plan.pieces:
        yield piece.name, chart(plan, piece.name, width, look)
        yield f"{piece.name}-short", chart(plan, piece.name, None, look, short=True)
        for asked in series(for_hand(piece, look.hand)):
            name = f"{piece.name}-row-{asked.first}-{asked.at}"
            yield name, detail(plan, piece.name, asked, DETAIL_SIZE, look)


def _pictures(folder: Path, name: str, scene: Scene) -> Iterator[tuple[Path, Write]]:
    """One scene as every kind of picture, and its alt text."""
    for ending, writer in BY_ENDING.items():
        yield folder / f"{name}{ending}", partial(writer, scene)
    yield folder / f"{name}.txt", lambda stream: stream.write(alt_text(scene))


def alt_text(scene: Scene) -> bytes:
    """The words that go with a picture, as a text file."""
    return f"{scene.words}\n".encode()


@dataclass(frozen=True, slots=True)
class Wanted:
    """One chart as asked for: of ``piece``, ``width`` px wide, ``short``, in a ``size`` for posting, or a close-up of
    the rows of ``detail`` at the edge ``at``; ``flat`` writes every symbol into an SVG."""

    piece: str
    look: Look
    width: int | None = None
    short: bool = False
    size: str | None = None
    detail: tuple[int, int] | None = None
    at: Side | None = None
    flat: bool = False


def make_chart(source: Path, output: Path, wanted: Wanted) -> list[Path]:
    """One chart and, beside it, its alt text; the files written. Raises MakerError."""
    plan = planned(source)
    _check_piece(plan, source, wanted.piece)
    scene = _wanted_scene(plan, wanted)
    drawn = flattened(scene) if wanted.flat and output.suffix.lower() == ".svg" else scene
    return _write(output, drawn, _spared(source, wanted.look))


def make_stripes(source: Path, piece: str | None, output: Path, width: int | None, look: Look) -> list[Path]:
    """The fabric as it will look, and its alt text; the files written. Raises MakerError."""
    plan = planned(source)
    if piece is not None:
        _check_piece(plan, source, piece)
    return _write(output, preview(plan, piece, width or USUAL_WIDTH[WHOLE], look), _spared(source, look))


def make_page(source: Path, output: Path, look: Look) -> None:
    """The page beside the work. Raises MakerError."""
    text = beside.page(planned(source), look)
    with replaced(output, _spared(source, look)) as stream:
        stream.write(text.encode())


def make_orders(source: Path, output: Path, width: int | None, look: Look) -> list[Path]:
    """The same yarns in other orders side by side, and the alt text; the files written. Raises MakerError."""
    from turnchain.drawing.contact import contact_sheet

    plan = planned(source)
    if len(plan.pattern.yarns) < 2:
        raise MakerError(f"{source}: other orders need two yarns or more; this pattern has {len(plan.pattern.yarns)}")
    return _write(output, contact_sheet(plan, width or USUAL_WIDTH[WHOLE], look), _spared(source, look))


def _check_piece(plan: Plan, source: Path, piece: str) -> None:
    names = [one.name for one in plan.pieces]
    if piece not in names:
        listed = ", ".join(f'"{name}"' for name in names)
        raise MakerError(f'{source}: there is no piece "{piece}"; its pieces are {listed}')


def _wanted_scene(plan: Plan, wanted: Wanted) -> Scene:
    if wanted.detail is not None and wanted.at is not None:
        size = SIZES[wanted.size] if wanted.size else DETAIL_SIZE
        asked = Asked(*wanted.detail, wanted.at)
        return detail(plan, wanted.piece, asked, (size[0], size[1] or size[0]), wanted.look)
    if wanted.size is not None:
        return post(plan, wanted.piece, wanted.size, wanted.look)
    return chart(plan, wanted.piece, wanted.width, wanted.look, wanted.short)


def _write(output: Path, scene: Scene, spared: dict[Path, str]) -> list[Path]:
    """A picture and its words beside it."""
    writer = BY_ENDING[output.suffix.lower()]
    words = output.with_suffix(".txt")
    if words.exists() and not any(output.with_suffix(ending).exists() for ending in (output.suffix, *BY_ENDING)):
        # words of ours always stand beside a picture
        raise FileError(
            f"{words}: there is already such a text, of no picture beside it; it stays as it is, and nothing was "
            "written (give the picture another name, or move that text first)"
        )
    with together(spared) as put:
        put(output, lambda stream: writer(scene, stream))
        put(words, lambda stream: stream.write(alt_text(scene)))
    return [output, words]


def print_pages(source: Path, output: Path, wanted: Printed) -> int:
    """The pages of ``wanted`` (no names: all pieces) as a PDF; how many there are. Raises MakerError."""
    from turnchain.writers import pdf

    plan = planned(source)
    for name in wanted.names:
        _check_piece(plan, source, name)
    names = wanted.names or tuple(piece.name for piece in plan.pieces)
    made = pages(plan, replace(wanted, names=names))
    with replaced(output, _spared(source, wanted.look)) as stream:
        pdf.write(made, stream, title=plan.pattern.title, language=LANGUAGE[plan.pattern.terms])
    return len(made)


def print_picture(source: Path, output: Path, name: str, paper: str, dpi: int, look: Look) -> None:
    """One sheet with the chart of the piece ``name`` as a PNG of just its px. Raises MakerError."""
    from turnchain.writers import png

    plan = planned(source)
    _check_piece(plan, source, name)
    scene = picture(plan, name, paper, dpi, look)
    with replaced(output, _spared(source, look)) as stream:
        png.write(scene, stream, dpi)


def print_booklet(source: Path, output: Path, paper: str, look: Look, language: str | None) -> int:
    """The whole pattern as a booklet; how many pages it has. Raises MakerError."""
    from turnchain.printing.booklet import booklet
    from turnchain.writers import pdf

    plan = planned(source)
    made = booklet(plan, paper, look, language)
    with replaced(output, _spared(source, look)) as stream:
        pdf.write(made, stream, title=plan.pattern.title, language=LANGUAGE[plan.pattern.terms])
    return len(made)
