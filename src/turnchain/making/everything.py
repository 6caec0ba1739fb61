"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json; the garment on a figure where its wearer is known, for every piece its
charts and close-ups, the stripes, the schematic, each as SVG and PNG with its alt text; pattern.md for a blog,
beside.html for the making, and index.html that shows them all. Either all files are new afterwards or, where anything
fails, all old ones stand. Files of the maker's own are never replaced: not the pattern, not a symbol, and in a folder
that holds no plan of ours nothing at all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from turnchain import file_names, plan_json
from turnchain.drawing import on_figure, schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import detail, series
from turnchain.drawing.folds import NO_FOLDS, folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.drawing.sheet import WHOLE
from turnchain.errors import MakerError
from turnchain.fabric.plan import Plan
from turnchain.making import DETAIL_SIZE, lettered, planned, spared
from turnchain.making.putting import MadeOf, WantedFolder, Watch, put_all
from turnchain.making.record import MadeFolder
from turnchain.pages import blog, overview
from turnchain.pages.beside import page as beside
from turnchain.printing.photographs import prepared
from turnchain.scene import Scene
from turnchain.wording.tables import speech_of
from turnchain.writers import formats


def make_all(
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    watch: Watch = lambda *_: None,
    size: str | None = None,
    made_of: MadeOf = str,
) -> MadeFolder:
    """Makes everything of ``source`` in ``folder``, told in ``language`` (None: the pattern's own terms), in a ``size``
    where the file has sizes; charts are ``width`` px wide (None: as wide as they need). ``watch`` and
    ``made_of`` as in ``put_all``.

    Raises PatternError where the pattern cannot be made, MakerError where two pictures would have one name, FileError
    where a file cannot be read or written and where ``folder`` holds files that are not ours: then nothing is changed.
    """
    plan = lettered(planned(source, language, size, others=True))
    return make_plan(plan, source, folder, width, look, watch, made_of)


def make_plan(
    plan: Plan,
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    watch: Watch,
    made_of: MadeOf = str,
) -> MadeFolder:
    """Makes everything of ``plan``, which is of the pattern file ``source``; ``made_of`` as in ``put_all``, all else as
    in ``make_all``."""
    own = {source.parent / one.file: "a photograph of yours" for one in plan.pattern.photos}
    wanted = of_plan(plan, source, folder, width, look)
    return put_all([wanted], spared(source, look) | own, watch, made_of)


def of_plan(plan: Plan, source: Path, folder: Path, width: int | None, look: Look, pages: bool = True) -> WantedFolder:
    """All that is made of ``plan``, as in ``make_plan``; without ``pages`` none in HTML, since one of several sizes has
    all of them. Raises MakerError and FileError as ``make_all`` does."""
    speech_of(plan.pattern)  # loads the language, before there are two processes
    drawn = list(pictures(plan, width, look))
    _check_names([name for name, _ in drawn], source)
    texts = {
        file_names.PLAN: partial(plan_json.plan_text, plan),
        file_names.PATTERN: partial(blog.markdown, plan),
    }
    if not pages:
        return WantedFolder(folder, texts, dict(drawn), _photographs(plan, source))
    texts[file_names.BESIDE] = partial(beside.page, plan, look)
    return WantedFolder(
        folder, texts, dict(drawn), _photographs(plan, source), lambda words: overview.overview(plan, words[0])
    )


def _check_names(names: list[str], source: Path) -> None:
    """Raises MakerError where two pictures would have files of one name, as of pieces "front" and "front-short"."""
    seen: dict[str, str] = {}
    for name in names:
        other = seen.setdefault(name.casefold(), name)
        if other is not name:
            raise MakerError(f'{source}: two pictures would be called "{name}"; give one of the pieces another name')


def _photographs(plan: Plan, source: Path) -> dict[str, bytes]:
    """The maker's photographs, made ready. Raises FileError."""
    return {file_names.photo(nth): prepared(source.parent, one).data for nth, one in enumerate(plan.pattern.photos, 1)}


def scenes(plan: Plan, width: int | None, look: Look) -> Iterator[tuple[str, Scene]]:
    """Every picture of a plan with the name of its files, as ``pictures``, drawn. Raises MakerError."""
    for name, draw in pictures(plan, width, look):
        yield name, draw()


def pictures(plan: Plan, width: int | None, look: Look) -> Iterator[tuple[str, Callable[[], Scene]]]:
    """Every picture of a plan with the name of its files, without an ending, and what draws it: the garment on a figure
    where its wearer is known and the stripes as worn (``width`` px wide, None: 1600), schematics, and of every piece
    its chart (``width`` px wide, None: as wide as it needs), a short one where something repeats, and close-ups. What
    draws raises MakerError."""
    fits = formats.SHOWN.check
    yield from on_figure.drawings(plan, width or WHOLE.reference, look, fits).items()
    yield file_names.STRIPES, partial(preview, plan, None, width or WHOLE.reference, look, fits)
    yield from schematic.drawings(plan).items()
    for piece in plan.pieces:
        yield file_names.chart(piece.name), partial(chart, plan, piece.name, width, look, fits=fits)
        if folded(piece) != NO_FOLDS:
            yield file_names.short_chart(piece.name), partial(chart, plan, piece.name, None, look, short=True)
        for asked in series(for_hand(piece, look.hand)):
            name = file_names.close_up(piece.name, asked.first, asked.at)
            yield name, partial(detail, plan, piece.name, asked, DETAIL_SIZE, look)
