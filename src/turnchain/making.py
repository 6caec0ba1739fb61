"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json; for every piece its charts and close-ups, the stripes, the schematic,
each as SVG and PNG with its alt text; pattern.md for a blog, beside.html for the making, and index.html that shows
them all. Either all files are new afterwards or, where anything fails, all old ones stand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, replace
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
from turnchain.writers.files import replaced

STRIPES = "stripes"  # the picture of all pieces as worn
DETAIL_SIZE = (1080, 1080)


def planned(source: Path) -> Plan:
    """The plan of the pattern file ``source``. Raises MakerError with everything that is wrong."""
    return plan_pattern(read_file(source), str(source))


def make_all(
    source: Path, folder: Path, width: int | None, look: Look, told: Callable[[Path], None]
) -> None:
    """Makes everything of ``source`` in ``folder``; ``told`` hears of every file as it is ready.

    Raises MakerError where the pattern cannot be made, FileError where a file cannot be written.
    """
    plan = planned(source)
    made = list(scenes(plan, width, look))
    _check_names([name for name, _ in made], source)
    _prepare(folder)
    with ExitStack() as waiting:
        # Renamed in the opposite order: the page that shows all the others comes last.
        index = waiting.enter_context(replaced(folder / "index.html"))
        for path, write in _files(plan, folder, made, look):
            write(waiting.enter_context(replaced(path)))
            told(path)
        index.write(page.overview(plan, [(name, scene.words) for name, scene in made]).encode())
        told(folder / "index.html")


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
) -> Iterator[tuple[Path, Callable[..., None]]]:
    text = plan_json.plan_text(plan)
    yield folder / "plan.json", lambda stream: stream.write(text.encode())
    yield folder / blog.FILE, lambda stream: stream.write(blog.markdown(plan).encode())
    yield folder / beside.FILE, lambda stream: stream.write(beside.page(plan, look).encode())
    for name, scene in made:
        yield from _pictures(folder, name, scene)


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


def _pictures(folder: Path, name: str, scene: Scene) -> Iterator[tuple[Path, Callable[..., None]]]:
    """One scene as every kind of picture, and its alt text."""
    for ending, writer in BY_ENDING.items():
        yield folder / f"{name}{ending}", lambda stream, write=writer: write(scene, stream)
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
    return _write(output, flattened(scene) if wanted.flat and output.suffix.lower() == ".svg" else scene)


def make_stripes(source: Path, piece: str | None, output: Path, width: int | None, look: Look) -> list[Path]:
    """The fabric as it will look, and its alt text; the files written. Raises MakerError."""
    plan = planned(source)
    if piece is not None:
        _check_piece(plan, source, piece)
    return _write(output, preview(plan, piece, width or USUAL_WIDTH[WHOLE], look))


def make_page(source: Path, output: Path, look: Look) -> None:
    """The page beside the work. Raises MakerError."""
    text = beside.page(planned(source), look)
    with replaced(output) as stream:
        stream.write(text.encode())


def make_orders(source: Path, output: Path, width: int | None, look: Look) -> list[Path]:
    """The same yarns in other orders side by side, and the alt text; the files written. Raises MakerError."""
    from turnchain.drawing.contact import contact_sheet

    plan = planned(source)
    if len(plan.pattern.yarns) < 2:
        raise MakerError(f"{source}: other orders need two yarns or more; this pattern has {len(plan.pattern.yarns)}")
    return _write(output, contact_sheet(plan, width or USUAL_WIDTH[WHOLE], look))


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


def _write(output: Path, scene: Scene) -> list[Path]:
    writer = BY_ENDING[output.suffix.lower()]
    words = output.with_suffix(".txt")
    with replaced(words) as text, replaced(output) as stream:
        writer(scene, stream)
        text.write(alt_text(scene))
    return [output, words]


def print_pages(source: Path, output: Path, wanted: Printed) -> int:
    """The pages of ``wanted`` (no names: all pieces) as a PDF; how many there are. Raises MakerError."""
    from turnchain.writers import pdf

    plan = planned(source)
    for name in wanted.names:
        _check_piece(plan, source, name)
    names = wanted.names or tuple(piece.name for piece in plan.pieces)
    made = pages(plan, replace(wanted, names=names))
    with replaced(output) as stream:
        pdf.write(made, stream, title=plan.pattern.title, language=LANGUAGE[plan.pattern.terms])
    return len(made)


def print_picture(source: Path, output: Path, name: str, paper: str, dpi: int, look: Look) -> None:
    """One sheet with the chart of the piece ``name`` as a PNG of just its px. Raises MakerError."""
    from turnchain.writers import png

    plan = planned(source)
    _check_piece(plan, source, name)
    scene = picture(plan, name, paper, dpi, look)
    with replaced(output) as stream:
        png.write(scene, stream, dpi)


def print_booklet(source: Path, output: Path, paper: str, look: Look, language: str | None) -> int:
    """The whole pattern as a booklet; how many pages it has. Raises MakerError."""
    from turnchain.printing.booklet import booklet
    from turnchain.writers import pdf

    plan = planned(source)
    made = booklet(plan, paper, look, language)
    with replaced(output) as stream:
        pdf.write(made, stream, title=plan.pattern.title, language=LANGUAGE[plan.pattern.terms])
    return len(made)
