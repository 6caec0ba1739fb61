"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json, for every piece a chart as SVG and PNG with its alt text, and
index.html that shows them all. Either all files are new afterwards or, where anything fails, all old ones stand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

from turnchain import page, plan_json
from turnchain.chart import chart
from turnchain.errors import FileError, MakerError
from turnchain.looks import Look
from turnchain.plan import Plan
from turnchain.planning import plan_pattern
from turnchain.reading import read_file
from turnchain.scene import Scene
from turnchain.writers import BY_ENDING
from turnchain.writers.files import replaced


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
    _prepare(folder)
    with ExitStack() as waiting:
        # Renamed in the opposite order: the page that shows all the others comes last.
        index = waiting.enter_context(replaced(folder / "index.html"))
        for path, write in _files(plan, folder, width, look):
            write(waiting.enter_context(replaced(path)))
            told(path)
        index.write(page.overview(plan).encode())
        told(folder / "index.html")


def _prepare(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"{folder}: this folder cannot be made ({error.strerror}); nothing was written") from error


def _files(
    plan: Plan, folder: Path, width: int | None, look: Look
) -> Iterator[tuple[Path, Callable[..., None]]]:
    text = plan_json.plan_text(plan)
    yield folder / "plan.json", lambda stream: stream.write(text.encode())
    for piece in plan.pieces:
        for name, short in ((piece.name, False), (f"{piece.name}-short", True)):
            yield from _pictures(folder, name, chart(plan, piece.name, width, look, short))


def _pictures(folder: Path, name: str, scene: Scene) -> Iterator[tuple[Path, Callable[..., None]]]:
    """One scene as every kind of picture, and its alt text."""
    for ending, writer in BY_ENDING.items():
        yield folder / f"{name}{ending}", lambda stream, write=writer: write(scene, stream)
    yield folder / f"{name}.txt", lambda stream: stream.write(alt_text(scene))


def alt_text(scene: Scene) -> bytes:
    """The words that go with a picture, as a text file."""
    return f"{scene.words}\n".encode()


def make_chart(
    source: Path, piece: str, output: Path, width: int | None, look: Look, short: bool
) -> list[Path]:
    """One chart and, beside it, its alt text; the files written. Raises MakerError."""
    plan = planned(source)
    names = [one.name for one in plan.pieces]
    if piece not in names:
        listed = ", ".join(f'"{name}"' for name in names)
        raise MakerError(f'{source}: there is no piece "{piece}"; its pieces are {listed}')
    writer = BY_ENDING[output.suffix.lower()]
    scene = chart(plan, piece, width, look, short)
    words = output.with_suffix(".txt")
    with replaced(words) as text, replaced(output) as stream:
        writer(scene, stream)
        text.write(alt_text(scene))
    return [output, words]
