"""Everything that can be made of a pattern, into one folder.

In: a pattern file and a folder. Out: plan.json; the garment on a figure where its wearer is known, for every piece its
charts and close-ups, the stripes, the schematic, each as SVG and PNG with its alt text; pattern.md for a blog,
beside.html for the making, and index.html that shows them all. Either all files are new afterwards or, where anything
fails, all old ones stand. Files of the maker's own are never replaced: not the pattern, not a symbol, and in a folder
that holds no plan of ours nothing at all.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import BinaryIO, TypeAlias

from turnchain import file_names, plan_json
from turnchain.drawing import on_figure, schematic
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import detail, series
from turnchain.drawing.folds import NO_FOLDS, folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.drawing.sheet import WHOLE
from turnchain.errors import FileError, MakerError
from turnchain.fabric.plan import Plan
from turnchain.lettering import measuring
from turnchain.making import DETAIL_SIZE, alt_text, lettered, planned, record, spared
from turnchain.making.parallel import in_parallel
from turnchain.making.record import Before, MadeFolder
from turnchain.pages import blog, overview
from turnchain.pages.beside import page as beside
from turnchain.paper import Photograph
from turnchain.printing.photographs import prepared
from turnchain.raster.glyph_cache import BoundedCache
from turnchain.records import frozen, replace
from turnchain.scene import Scene
from turnchain.writers import formats
from turnchain.writers.files import Put, Write, together

#: What gives the digest of all that a folder is made of; "" where it is not known.
MadeOf: TypeAlias = Callable[[], str]


def make_all(
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    language: str | None = None,
    watch: Callable[[str, int, int], None] = lambda *_: None,
    size: str | None = None,
    made_of: MadeOf = str,
) -> MadeFolder:
    """Makes everything of ``source`` in ``folder``, told in ``language`` (None: the pattern's own terms), in a ``size``
    where the file has sizes; charts are ``width`` px wide (None: as wide as they need). ``watch`` is called before each
    file is written: its name, how many are done, how many there are. ``made_of`` as in ``put_all``.

    Raises PatternError where the pattern cannot be made, MakerError where two pictures would have one name, FileError
    where a file cannot be read or written and where ``folder`` holds files that are not ours: then nothing is changed.
    """
    return make_plan(lettered(planned(source, language, size)), source, folder, width, look, watch, made_of)


def make_plan(
    plan: Plan,
    source: Path,
    folder: Path,
    width: int | None,
    look: Look,
    watch: Callable[[str, int, int], None],
    made_of: MadeOf = str,
) -> MadeFolder:
    """Makes everything of ``plan``, which is of the pattern file ``source``; ``made_of`` as in ``put_all``, all else as
    in ``make_all``."""
    own = {source.parent / one.file: "a photograph of yours" for one in plan.pattern.photos}
    wanted = of_plan(plan, source, folder, width, look, BoundedCache())
    return put_all([wanted], spared(source, look) | own, watch, made_of)


@frozen
class WantedFolder:
    """What ``folder`` is to hold: ``files`` by name, and the ``pictures`` of those with their words, by name without
    ending. ``shown``: digests of the scenes of files; ``folders``: names of those within it that are made with it."""

    folder: Path
    files: dict[str, Write]
    shown: dict[str, str]
    pictures: tuple[tuple[str, str], ...] = ()
    folders: tuple[str, ...] = ()


def of_plan(
    plan: Plan, source: Path, folder: Path, width: int | None, look: Look, glyphs: BoundedCache, pages: bool = True
) -> WantedFolder:
    """All that is made of ``plan``, as in ``make_plan``; without ``pages`` none in HTML, since one of several sizes has
    all of them. Pictures of one run share ``glyphs``. Raises MakerError and FileError as ``make_all`` does."""
    made = list(scenes(plan, width, look))
    _check_names([name for name, _ in made], source)
    # the plan first, which marks the folder as ours; the page that shows all the others last
    files = dict(_files(plan, made, look, _photographs(plan, source), glyphs, pages))
    digests = {name: record.scene_digest(scene) for name, scene in made}
    shown = {f"{name}{form.ending}": digest for name, digest in digests.items() for form in formats.MADE}
    return WantedFolder(folder, files, shown, tuple((name, scene.words) for name, scene in made))


def put_all(
    wanted: Sequence[WantedFolder], own: dict[Path, str], watch: Callable[[str, int, int], None], made_of: MadeOf = str
) -> MadeFolder:
    """Writes all that is ``wanted``, the folders in an order in which each stands before those within it; they hold it
    alone: what was made there before and is not among the files now is removed. ``own``: the maker's files, which stay,
    with words for each. ``made_of`` is called when all is drawn, for the digest of what it was made of ("": not known).
    All files of all folders take their places as one. Raises FileError as ``make_all`` does."""
    puts = [_FolderPut.of(one) for one in wanted]
    work = [write for one in puts for name, write in one.written.items() if _is_work(name)]
    count, done = sum(len(one.written) for one in puts), 0
    with ExitStack() as stack:
        for one in puts:
            stack.enter_context(_prepared(one.folder))
        put = stack.enter_context(together(own, over_links=True))
        drawn = iter(stack.enter_context(in_parallel(work)))
        for one in puts:
            shown = one.folder.relative_to(puts[0].folder)
            for name, write in one.written.items():
                watch(str(shown / name), done, count)
                one.put(put, name, next(drawn) if _is_work(name) else write)
                done += 1
        for one in puts:
            one.finish(put, made_of())
    return made_folder([one.made() for one in puts], tuple(measuring.told()))


def made_folder(made: Sequence[MadeFolder], told: tuple[str, ...]) -> MadeFolder:
    """What was made of several folders, as of one."""
    return MadeFolder(
        [path for one in made for path in one.written],
        [path for one in made for path in one.removed],
        [path for one in made for path in one.left],
        told,
    )


class _FolderPut:
    """Puts files into one folder, but for those that are left and for pictures that stand there and show what they
    shall. They take their places between two records: the first allows each file to be old or new, so that after a run
    that is killed the next one still takes these files for ours."""

    def __init__(self, wanted: WantedFolder, before: Before) -> None:
        self.folder, self._wanted, self._before = wanted.folder, wanted, before
        self._left = before.left(wanted.files)
        self._digests = before.as_drawn(wanted.shown)
        #: What is to be written, in order.
        self.written = {
            name: write
            for name, write in wanted.files.items()
            if name not in self._left and name not in self._digests
        }

    @classmethod
    def of(cls, wanted: WantedFolder) -> _FolderPut:
        """Raises FileError where the folder holds files that are not ours."""
        _check_folder(wanted.folder, wanted.files)
        return cls(wanted, record.before(wanted.folder, wanted.files))

    def put(self, put: Put, name: str, write: Write) -> None:
        """Puts the file ``name``, which ``write`` writes."""
        put(self.folder / name, record.digested(name, write, self._digests))

    def finish(self, put: Put, made_of: str) -> None:
        """When all files are put: removes what is no longer made, and writes the records."""
        files, digests = self._wanted.files, self._digests
        for name in self._before.stale(files):
            put.remove(self.folder / name)
        made = {name: digests[name] for name in files if name in digests}
        after = self._before.after(made, self._left, self._wanted.shown)
        during = self._before.during(after)
        if during != after:
            put(self.folder / record.FILE, lambda stream: stream.write(during.data()), ahead=True)
        finished = replace(after, made_of=made_of, folders=self._wanted.folders)
        put(self.folder / record.FILE, lambda stream: stream.write(finished.data()))

    def made(self) -> MadeFolder:
        """What came of it."""
        files, before = self._wanted.files, self._before
        ours = [name for name in files if name not in self._left]
        sorts = (ours, before.stale(files), [*self._left, *before.changed(files)])
        written, removed, left = ([self.folder / name for name in names] for names in sorts)
        return MadeFolder(written, removed, left)


def _is_work(name: str) -> bool:
    """Whether the file called ``name`` takes time to make."""
    return not name.endswith(file_names.ALT_TEXT)


def _check_folder(folder: Path, names: Iterable[str]) -> None:
    """Raises FileError where files would be replaced that are not ours: in a folder without plan or record of ours."""
    if plan_json.is_one(folder / file_names.PLAN) or record.read(folder):
        return
    there = [name for name in names if os.path.lexists(folder / name) and not (folder / name).is_dir()]
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


@contextmanager
def _prepared(folder: Path) -> Iterator[None]:
    """Makes ``folder`` and those above it; where the block fails, those that were new and are empty are removed."""
    new = [one for one in (folder, *folder.parents) if not one.exists()]
    try:
        _make(folder)
        yield
    except BaseException:
        with suppress(OSError):
            for one in new:
                one.rmdir()
        raise


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(f"{folder}: this folder cannot be made ({error.strerror}); nothing was written") from error


def _files(
    plan: Plan,
    made: list[tuple[str, Scene]],
    look: Look,
    photographs: dict[str, Write],
    glyphs: BoundedCache,
    pages: bool,
) -> Iterator[tuple[str, Write]]:
    yield file_names.PLAN, lambda stream: stream.write(plan_json.plan_text(plan).encode())
    yield file_names.PATTERN, lambda stream: stream.write(blog.markdown(plan).encode())
    if pages:
        yield file_names.BESIDE, lambda stream: stream.write(beside.page(plan, look).encode())
    # pictures of one piece one after the other, since they share letters and symbols
    for form in sorted(formats.MADE, key=lambda form: form.pixels):
        for name, scene in made:
            yield f"{name}{form.ending}", partial(form.write, scene, glyphs=glyphs)
    for name, scene in made:
        yield f"{name}{file_names.ALT_TEXT}", partial(_write_words, scene)
    yield from photographs.items()
    words = [(name, scene.words) for name, scene in made]
    if pages:
        yield file_names.INDEX, lambda stream: stream.write(overview.overview(plan, words).encode())


def _photographs(plan: Plan, source: Path) -> dict[str, Write]:
    """The maker's photographs, made ready. Raises FileError."""
    ready = {file_names.photo(nth): prepared(source.parent, one) for nth, one in enumerate(plan.pattern.photos, 1)}
    return {name: partial(_write_photograph, photograph) for name, photograph in ready.items()}


def _write_photograph(photograph: Photograph, stream: BinaryIO) -> None:
    stream.write(photograph.data)


def scenes(plan: Plan, width: int | None, look: Look) -> Iterator[tuple[str, Scene]]:
    """Every picture of a plan with the name of its files, without an ending: the garment on a figure where its wearer
    is known and the stripes as worn (``width`` px wide, None: 1600), schematics, and of every piece its chart
    (``width`` px wide, None: as wide as it needs), a short one where something repeats, and close-ups. Raises
    MakerError."""
    yield from on_figure.scenes(plan, width or WHOLE.reference, look, formats.SHOWN.check).items()
    yield file_names.STRIPES, preview(plan, None, width or WHOLE.reference, look, formats.SHOWN.check)
    yield from schematic.scenes(plan).items()
    for piece in plan.pieces:
        yield file_names.chart(piece.name), chart(plan, piece.name, width, look, fits=formats.SHOWN.check)
        if folded(piece) != NO_FOLDS:
            yield file_names.short_chart(piece.name), chart(plan, piece.name, None, look, short=True)
        for asked in series(for_hand(piece, look.hand)):
            name = file_names.close_up(piece.name, asked.first, asked.at)
            yield name, detail(plan, piece.name, asked, DETAIL_SIZE, look)


def _write_words(scene: Scene, stream: BinaryIO) -> None:
    stream.write(alt_text(scene.words))
